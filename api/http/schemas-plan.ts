/** The request for a plan as sent, and plans as answered. Mirrors `planning/plan-types.ts`. */
import { AGE_GROUPS } from '../cooking/household/kitchen.ts';
import type { MealOfPlan } from '../planning/plan/explain-plan.ts';
import type { Plan, PlanRequest } from '../planning/plan-types.ts';
import { FINISHES } from '../planning/plan-types.ts';
import { count, date, dateTime, id, isDate, label, measure } from './schema-values.ts';
import { stepsDescribed } from './schemas-calculators.ts';
import { z } from './zod.ts';

/** Meals of a plan are named by date and meal: `2026-12-06-evening`. */
export const mealRef = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}-[a-z0-9-]{1,64}$/)
  .refine((text) => isDate(text.slice(0, 10)))
  .meta({ description: 'A date that exists and a meal id: 2026-12-06-evening.' });

/** Meals that should be hot in the longest plan: six a day for 90 days. */
const MOST_MEALS = 540;

/** The point of the trade-off curve that a plan is made at; each point of the curve says what to send. */
export const chosenPointSchema = z
  .strictObject({
    coldMeals: count(0, MOST_MEALS).meta({
      unit: '1',
      description:
        'Meals that should be hot and need not be, in the whole plan; which they are is the choice of the plan.',
    }),
    repeats: count(0, 1000).nullable().optional().meta({
      unit: '1',
      description: 'Times that a dish may come again within two days; null or absent: any number.',
    }),
    energyShortPercent: z
      .int()
      .min(0)
      .max(100)
      .meta({
        unit: '%',
        description:
          'Food energy that may be short for the sake of hot meals, whole %; absent: 0, food energy comes first.',
      })
      .optional(),
  })
  .meta({
    id: 'ChosenPoint',
    description:
      'A point of the curve between fuel and hot or varied meals: within it the fuel heat is least. null or absent: the ordinary plan; with `replaces`, absent keeps what is left of the point of the replaced plan.',
    examples: [{ coldMeals: 4, repeats: 2 }],
  });

export const planRequestSchema = z
  .strictObject({
    householdId: id,
    placeId: id.nullable().optional(),
    carryFrom: z.array(id).max(10).optional(),
    startsAt: dateTime,
    days: count(1, 90),
    timeLimitS: measure(1, 120, 's').optional(),
    kitIds: z.array(id).max(200).nullable().optional(),
    attendance: z
      .array(
        z.strictObject({
          date,
          mealId: id.nullable().optional(),
          people: z.array(label).max(200).optional(),
          guests: z
            .array(z.strictObject({ ageGroup: z.enum(AGE_GROUPS), mealShare: measure(0, 5, '1').optional() }))
            .max(200)
            .optional(),
        }),
      )
      .max(600)
      .optional(),
    pinned: z
      .array(
        z.strictObject({
          meal: mealRef,
          kitId: id,
          method: z
            .strictObject({
              stoveId: id.optional(),
              vesselId: id.optional(),
              finish: z.enum(FINISHES).optional(),
              soaked: z.boolean().optional(),
            })
            .nullable()
            .optional(),
        }),
      )
      .max(600)
      .optional(),
    done: z
      .array(z.strictObject({ meal: mealRef, result: z.enum(['eaten', 'skipped', 'changed']) }))
      .max(600)
      .optional(),
    inProgress: z
      .array(
        z.strictObject({
          kind: z.enum(['soak', 'box', 'flask']),
          kitId: id,
          batches: measure(0.1, 100, '1'),
          vesselId: id,
          boxId: id.nullable().optional(),
          since: dateTime,
          temperatureC: measure(-50, 150, 'C').nullable().optional(),
        }),
      )
      .max(50)
      .optional(),
    noFlame: z
      .array(z.strictObject({ from: dateTime, to: dateTime }))
      .max(200)
      .optional(),
    outOfUse: z
      .array(z.strictObject({ id, from: dateTime, to: dateTime.nullable().optional() }))
      .max(200)
      .optional(),
    replaces: id.nullable().optional(),
    tradeOff: chosenPointSchema.nullable().optional(),
  })
  .meta({
    id: 'PlanRequest',
    examples: [
      { householdId: 'ridge-house', startsAt: '2026-12-05T17:00', days: 7, timeLimitS: 20 },
      {
        householdId: 'ridge-house',
        startsAt: '2026-12-05T17:00',
        days: 7,
        tradeOff: { coldMeals: 4, repeats: 2 },
      },
    ],
  });

/**
 * A plan as answered. Answers may grow, so only the members that a reader starts from are described; the whole shape is
 * the type `Plan`, and a plan is checked by `planning/check-plan.ts` before it is sent, which says more than a schema.
 */
export const planAnswer = z
  .custom<Plan>((value) => typeof value === 'object' && value !== null)
  .openapi({
    type: 'object',
    required: ['id', 'createdAt', 'request', 'resolved', 'outcome', 'proof', 'meals', 'cookings', 'schedule'],
    properties: {
      id: { type: 'string' },
      createdAt: { type: 'string', description: 'UTC instant' },
      request: { type: 'object', description: 'What was asked for.' },
      resolved: { type: 'object', description: 'Household, kits and stock as they were.' },
      versions: { type: 'object', description: 'Program, tables and solver that made it.' },
      outcome: { type: 'string', enum: ['complete', 'short'] },
      proof: { type: 'object', description: 'How far each aim is proven: value, bound and tolerance.' },
      lightings: { type: 'array', items: { type: 'object' }, description: 'When which stove is lit.' },
      cookings: { type: 'array', items: { type: 'object' }, description: 'Batches with method, uses, fuel and water.' },
      meals: {
        type: 'array',
        items: { type: 'object' },
        description: 'What is eaten when, by how many; with explain=1 each with its `explanation`.',
      },
      explanation: stepsDescribed('With explain=1: the steps behind the sums of `comparison`.'),
      tasks: { type: 'array', items: { type: 'object' }, description: 'Hot water, treating water, night feeds.' },
      schedule: { type: 'array', items: { type: 'object' }, description: 'Steps by the clock, in words.' },
      fuel: { type: 'array', items: { type: 'object' }, description: 'Each fuel by day against what there is.' },
      water: { type: 'object', description: 'Water by day against what there is.' },
      limits: {
        type: 'array',
        items: { type: 'object' },
        description: 'Which limits bind, what one more would bring.',
      },
      short: { type: 'array', items: { type: 'object' }, description: 'What is short, since when and by how much.' },
      conflict: {
        type: ['array', 'null'],
        items: { type: 'object' },
        description: 'Limits that do not go together where people cannot be fed; null: none.',
      },
      waysOut: { type: 'array', items: { type: 'string' }, description: 'What would mend what is short.' },
      comparison: { type: 'object', description: 'Fuel of the plan, of a careful cook, of the usual way, the floor.' },
      refused: { type: 'array', items: { type: 'object' }, description: 'Ways that were refused, with the way out.' },
      tradeOff: {
        type: 'object',
        description: 'Where a point of the trade-off was chosen: meals that are cold by choice, repeats, in words.',
      },
      assumptions: { type: 'array', items: { type: 'string' } },
      cautions: { type: 'array', items: { type: 'string' } },
    },
  })
  .meta({ id: 'Plan' });

/** One meal of a plan, with the cookings of its dishes; like `planAnswer` described by its main members. */
export const mealAnswer = z
  .custom<MealOfPlan>((value) => typeof value === 'object' && value !== null)
  .openapi({
    type: 'object',
    required: ['id', 'eatAt', 'dishes', 'cookings'],
    properties: {
      id: { type: 'string' },
      eatAt: { type: 'string', description: 'Local time of the place.' },
      dishes: { type: 'array', items: { type: 'object' }, description: 'What is eaten, and until when it is safe.' },
      cookings: { type: 'array', items: { type: 'object' }, description: 'Batches with method, uses, fuel and water.' },
      explanation: stepsDescribed('With explain=1: the steps, dish after dish; the last of each dish is its fuel.'),
    },
  })
  .meta({ id: 'MealOfPlan' });

/** Compiles only while whatever the schema lets through is a request of the planner. */
export const planRequestOf = (sent: z.output<typeof planRequestSchema>): PlanRequest => sent;
