/** A week that only heats what needs no boil: where it may, what the checker says of it, and what is read on paper. */
import { describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import { bookedTests } from '../../api/planning/bookings/booked-tests.ts';
import type { Booking } from '../../api/planning/bookings/booking-types.ts';
import { planChanges } from '../../api/planning/bookings/changes.ts';
import { replanInput } from '../../api/planning/bookings/replan.ts';
import { stateNow } from '../../api/planning/bookings/state-now.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import { makePlan, type PlanInput } from '../../api/planning/make-plan.ts';
import { explainMeal } from '../../api/planning/plan/explain-plan.ts';
import type { Cooking, Plan, PlanDraft, PlanRequest } from '../../api/planning/plan-types.ts';
import { dishOptions } from '../../api/planning/questions/dish-options.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import { addMinutes } from '../../api/wording/times.ts';
import { recompute } from '../cooking/evaluate-steps.ts';
import { EVENING, household, places, planFor, START, stockOf } from './small-household.ts';

const solver = await createInThreadSolver();

const MASH: Kit = {
  format: 1,
  id: 'mashed-potato-and-beef',
  name: 'Mashed potato and beef',
  servings: 2,
  divisible: true,
  style: 'porridge',
  suits: ['evening'],
  parts: [
    {
      id: 'all',
      name: 'Potato and beef',
      ingredients: [
        { foodId: 'potato-flakes', massG: 160 },
        { foodId: 'fd-ground-beef', massG: 70 },
      ],
    },
  ],
};

/** On a mild day, with a pot that is full of the dish: it keeps its heat. */
const house = (own: Partial<HouseholdDocument> = {}): HouseholdDocument =>
  household({
    meals: [EVENING],
    places: places({ outdoorC: 16 }),
    vessels: [
      { id: 'pot-2', kind: 'pot', capacityL: 2, material: 'aluminium', lid: 'snug' },
      { id: 'bowl', kind: 'soak-bowl', capacityL: 4 },
    ],
    ...own,
  });

async function plan(document: HouseholdDocument): Promise<PlanDraft> {
  const made = await planFor(solver, document, [[MASH, 1]]);
  expect(made.outcome).toBe('complete');
  expect(checkPlan(made)).toEqual([]);
  return made;
}
const only = (made: Pick<Plan, 'cookings'>): Cooking => {
  const [first] = made.cookings;
  if (first === undefined) throw new Error('one dish is cooked');
  return first;
};
const lots = (quality: 'safe' | 'treat') => [{ id: 'cans', litres: 60, quality, temperatureC: 10 }];

describe('a dish that needs no boil', () => {
  it('is heated to 75 C and stands, for less fuel than a boil', async () => {
    const dish = only(await plan(house()));
    expect(dish.method.heatToC).toBe(75);
    expect(dish.method.temperatureC).toBe(75);
    expect(dish.method.boilMinutes).toEqual({ p10: 0, p50: 0, p90: 0 });
    expect(dish.method.standMinutes).toBe(dish.method.releaseMinutes);
    const saved = dish.saves.find(({ choice }) => choice === 'no-boil');
    expect(saved?.insteadOf).toBe('brought to the boil');
    expect(saved?.fuelMJ.p50).toBeGreaterThan(0.1 * dish.fuelMJ.p50);
  });

  it('comes to the boil where its water is made safe by boiling, not where by bleach', async () => {
    const water = { lots: lots('treat'), treatBy: 'boil' as const };
    expect(only(await plan(house({ water: { ...house().water, ...water } }))).method.heatToC).toBeUndefined();
    const bleached = { ...water, treatBy: 'bleach' as const };
    expect(only(await plan(house({ water: { ...house().water, ...bleached } }))).method.heatToC).toBe(75);
  });

  it('is read as one thing to do, with its sign for whoever has no thermometer', async () => {
    for (const [thermometer, sign] of [
      [true, /off at 75\u00a0°C.*: it needs no boil/],
      [false, /off as soon as the first bubbles rise at the rim: it needs no boil/],
    ] as const) {
      const made = await plan(house({ thermometer }));
      const steps = makeSchedule({ ...made, schedule: [] } as Plan);
      const mine = steps
        .filter((step) => step.cookingId === only(made).id)
        .map(({ action, text }) => ({ action, text }));
      expect(mine.map(({ action }) => action)).not.toContain('boil');
      const on = mine.find(({ action }) => action === 'put-on');
      expect(on?.text).toMatch(/Stir now and then\.$/);
      const off = mine.find(({ action }) => action === 'take-off');
      expect(off?.text).toMatch(sign);
      expect(off?.text).toMatch(/stand \d+\u00a0min, lid shut/);
    }
  });

  it('opens to its steps, each worked out from those before', async () => {
    const made = await plan(house());
    const meal = made.meals.find((one) => one.dishes.length > 0);
    if (meal === undefined) throw new Error('there is a supper');
    const steps = explainMeal(made, meal);
    recompute(steps);
    const figureOf = (quantity: string) => steps.find((step) => step.quantity === quantity)?.value;
    expect(figureOf('temperatureC')).toBe(75);
    expect(figureOf('standingMinutes')).toBe(only(made).method.standMinutes);
    expect(figureOf('dishFuelKg')).toBe(only(made).fuel[0]?.kg.p50);
  });

  it('is among the ways to cook it', () => {
    const ask = (document: HouseholdDocument) =>
      dishOptions({
        household: document,
        kit: MASH,
        servings: 2,
        startsAt: '2026-12-05T07:00',
        eatAt: '2026-12-05T18:00',
      }).filter(({ method }) => method.heatToC !== null);
    const document = house();
    const found = ask(document);
    expect(found.length).toBeGreaterThan(0);
    // One for each flame: where 75 C is enough, 85 is not offered.
    expect(found.map(({ method }) => [method.flame, method.heatToC]).sort()).toEqual([
      ['full', 75],
      ['low', 75],
    ]);
    for (const { method, minutes } of found) {
      expect(method.finish).toBe('flame');
      expect(minutes.hold.p90).toBe(0);
      expect(minutes.rest).toBeGreaterThan(0);
    }
    expect(ask({ ...document, water: { ...document.water, lots: lots('treat'), treatBy: 'boil' } })).toEqual([]);
  });
});

describe('the checker refuses', () => {
  const tampered = async (change: (dish: Cooking, made: PlanDraft) => void): Promise<string[]> => {
    const made = structuredClone(await plan(house()));
    change(only(made), made);
    return checkPlan(made).map(({ rule }) => rule);
  };

  it('what must boil', async () => {
    const rules = await tampered((_dish, made) => {
      made.resolved.kits[0]?.parts[0]?.ingredients.push({ foodId: 'lentil-red', massG: 40 });
    });
    expect(rules).toContain('uncooked');
  });
  it('raw egg', async () => {
    const rules = await tampered((_dish, made) => {
      made.resolved.kits[0]?.parts[0]?.ingredients.push({ foodId: 'fd-raw-egg', massG: 40 });
    });
    expect(rules).toContain('raw-uncooked');
  });
  it('a dish that is hardly warm', async () => {
    expect(await tampered((dish) => (dish.method.temperatureC = 65))).toContain('too-cold');
  });
  it('one that has no time to soften', async () => {
    const rules = await tampered((dish) => {
      dish.method.minutesToBoil = { p10: 1, p50: 2, p90: 3 };
      dish.method.standMinutes = 1;
    });
    expect(rules).toContain('undercooked');
  });
  it('one that stands until it is cold', async () => {
    const rules = await tampered((dish) => Object.assign(dish.method, { standMinutes: 110, releaseMinutes: 110 }));
    expect(rules).toContain('too-cold');
  });
  it('one in a box', async () => {
    expect(await tampered((dish) => Object.assign(dish.method, { finish: 'box', boxId: 'box' }))).toContain('heated');
  });
  it.each([false, true])(
    'water that is not safe before the fire, where it does not boil (boils: %s)',
    async (boils) => {
      // Safe water for what is drunk and no more; what is left must be boiled first.
      const rules = await tampered((dish, made) => {
        const drinkL = made.water.byDay.reduce((sum, day) => sum + day.drinkL + day.animalsL, 0);
        const safe = { id: 'cans', litres: drinkL + 0.5 * dish.waterL.total, quality: 'safe' as const };
        const other = { id: 'rain', litres: 60, quality: 'treat' as const };
        Object.assign(made.resolved.household.water ?? {}, { lots: [safe, other], treatBy: 'boil' });
        // A pot that boils may take either.
        if (boils) {
          delete dish.method.heatToC;
          dish.method.boilMinutes = { p10: 1, p50: 1, p90: 1 };
        }
      });
      expect(rules.includes('unsafe-water')).toBe(!boils);
    },
  );
});

describe('a plan that goes on', () => {
  const from = (document: HouseholdDocument, request: Partial<PlanRequest> = {}): PlanInput => ({
    request: { householdId: document.id, startsAt: START, days: 3, timeLimitS: 12, ...request },
    household: document,
    kits: [MASH],
    stock: stockOf([[MASH, 4]]),
  });
  const planned = async (input: PlanInput, id: string): Promise<Plan> => ({
    ...(await makePlan(input, { solver, now: 0, id, programVersion: '0' })),
    schedule: [],
  });

  it('tells that a dish must boil now, where water was added that is only safe once it has boiled', async () => {
    const before = house({ water: { ...house().water, treatBy: 'boil' } });
    const rain = { id: 'rain', litres: 40, quality: 'treat' as const, temperatureC: 10 };
    const after = house({ water: { ...before.water, lots: [...(before.water?.lots ?? []), rain] } });
    const first = await planned(from(before), 'first');
    expect(first.cookings.every(({ method }) => method.heatToC !== undefined)).toBe(true);
    const at = '2026-12-06T07:00';
    const next = from(after, { startsAt: at, days: 2, replaces: 'first' });
    const second = await planned(replanInput(next, first, []).input, 'second');
    expect(second.cookings.every(({ method }) => method.heatToC === undefined)).toBe(true);
    expect(second.continues?.wall.kept).toBe(0);
    const changes = planChanges(first, second, stateNow(first, [], at));
    expect(changes.map(({ kinds }) => kinds)).toEqual(changes.map(() => expect.arrayContaining(['heat'])));
    expect(changes).toHaveLength(2);
  });

  it('learns nothing of minutes at the boil from a dish that never boiled', async () => {
    const oats: Kit = {
      ...MASH,
      id: 'oat-porridge',
      name: 'Oat porridge',
      parts: [{ id: 'all', name: 'Oats', ingredients: [{ foodId: 'rolled-oats', massG: 170 }] }],
    };
    const made: Plan = { ...(await planFor(solver, house(), [[oats, 1]])), schedule: [] };
    const dish = only(made);
    expect(dish.method.heatToC).toBeDefined();
    const tried = {
      id: 'b1',
      planId: made.id,
      kind: 'food-tried',
      at: dish.doneAt,
      of: dish.id,
      minutes: 12,
      soft: false,
    };
    expect(bookedTests(made, [tried as Booking])).toEqual([]);
  });

  it('of a dish that stands off the fire says two hours from the table, with or without a thermometer', async () => {
    for (const thermometer of [true, false]) {
      const made = await plan(house({ thermometer }));
      const [dish] = made.meals[0]?.dishes ?? [];
      expect(dish?.safeUntil).toBe(addMinutes(only(made).doneAt, 120));
    }
  });
});
