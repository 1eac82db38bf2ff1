/** Questions about a household's stores and about a plan: how long they last, what to get or do next, what to trade. */
import type { Advice } from '../planning/questions/advice.ts';
import type { Endurance, EnduranceRequest } from '../planning/questions/endurance.ts';
import type { TradeOff } from '../planning/questions/trade-off.ts';
import { count, measure } from './schema-values.ts';
import { stepsDescribed } from './schemas-calculators.ts';
import { planRequestSchema } from './schemas-plan.ts';
import { z } from './zod.ts';

export const enduranceRequestSchema = planRequestSchema
  .omit({ days: true, replaces: true, tradeOff: true })
  .extend({
    days: count(1, 90).optional().meta({ unit: 'd', description: 'Asks what is missing to reach so many days.' }),
  })
  .meta({
    id: 'EnduranceRequest',
    examples: [{ householdId: 'ridge-house', startsAt: '2026-12-05T17:00', days: 21, timeLimitS: 20 }],
  });

export const enduranceAnswer = z
  .custom<Endurance>((value) => typeof value === 'object' && value !== null)
  .openapi({
    type: 'object',
    required: ['startsAt', 'fed', 'fedHot', 'endsFed', 'endsFedHot', 'curve', 'reverse', 'text', 'notWorkedOut'],
    properties: {
      startsAt: { type: 'string', description: 'Local time of the place.' },
      fed: {
        type: 'object',
        description: 'Days on which everybody gets every serving, hot or cold, with its last date and how sure it is.',
      },
      fedHot: {
        type: 'object',
        description: 'Days on which every meal that should be hot is hot too, with the hot water of every day.',
      },
      endsFed: { type: ['object', 'null'], description: 'What stops the day after: least extra of each thing.' },
      endsFedHot: { type: ['object', 'null'], description: 'The same for hot meals, where they end sooner.' },
      curve: {
        type: 'array',
        items: {
          type: 'object',
          properties: {
            explanation: stepsDescribed(
              'With explain=1: each way that the plan solved again takes, and fuel and water, used and left.',
            ),
          },
        },
        description: 'Fuel and water of the best plan for a number of days, and what is left.',
      },
      reverse: { type: ['object', 'null'], description: 'Where days were asked for: what is missing to reach them.' },
      text: { type: 'array', items: { type: 'string' }, description: 'The answer in sentences.' },
      notWorkedOut: { type: 'array', items: { type: 'string' }, description: 'What there was no time for.' },
      explanation: stepsDescribed(
        'With explain=1: the days that are fed, by the least number of days that is proven to be too many.',
      ),
    },
  })
  .meta({ id: 'Endurance' });

/** Compiles only while whatever the schema lets through is a request of the planner. */
export const enduranceRequestOf = (sent: z.output<typeof enduranceRequestSchema>): EnduranceRequest => sent;

/** A question about a plan that is there. */
export const planQuestionSchema = z
  .strictObject({ timeLimitS: measure(1, 120, 's').optional() })
  .meta({ id: 'PlanQuestion', examples: [{}, { timeLimitS: 40 }] });

export const adviceAnswer = z
  .custom<Advice>((value) => typeof value === 'object' && value !== null)
  .openapi({
    type: 'object',
    required: ['days', 'daysFed', 'daysFedHot', 'items', 'withoutEffect', 'notApplicable', 'notWorkedOut', 'notes'],
    properties: {
      items: {
        type: 'array',
        items: {
          type: 'object',
          properties: {
            explanation: stepsDescribed(
              'With explain=1: the plan solved again as things are and with the change, and the differences.',
            ),
          },
        },
        description:
          'What to get or do, best first, each planned again: days gained, fuel and water saved, confidence.',
      },
      withoutEffect: { type: 'array', items: { type: 'string' }, description: 'Kits of which more changes nothing.' },
      notApplicable: { type: 'array', items: { type: 'object' }, description: 'What was not tried, and why.' },
      notWorkedOut: { type: 'array', items: { type: 'string' }, description: 'What there was no time for.' },
      notes: { type: 'array', items: { type: 'string' }, description: 'How the figures are to be read.' },
    },
  })
  .meta({ id: 'Advice' });

export const tradeOffAnswer = z
  .custom<TradeOff>((value) => typeof value === 'object' && value !== null)
  .openapi({
    type: 'object',
    required: ['days', 'hotMealsWanted', 'points', 'notWorkedOut', 'notes'],
    properties: {
      points: {
        type: 'array',
        items: {
          type: 'object',
          properties: {
            explanation: stepsDescribed(
              'With explain=1: each way that the plan solved again takes, and fuel, heat, shares and water from these.',
            ),
          },
        },
        description:
          'From the least fuel to the most: hot meals, repeats, fuel, the largest share used, and the `tradeOff` that a request for a plan at this point says.',
      },
      notWorkedOut: { type: 'array', items: { type: 'string' }, description: 'What there was no time for.' },
      notes: { type: 'array', items: { type: 'string' }, description: 'How the points are to be read.' },
    },
  })
  .meta({ id: 'TradeOff' });
