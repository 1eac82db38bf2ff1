/** A week that only heats what needs no boil: where it may, what the checker says of it, and what is read on paper. */
import { describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import { explainMeal } from '../../api/planning/plan/explain-plan.ts';
import type { Cooking, Plan, PlanDraft } from '../../api/planning/plan-types.ts';
import { dishOptions } from '../../api/planning/questions/dish-options.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import { recompute } from '../cooking/evaluate-steps.ts';
import { EVENING, household, planFor } from './small-household.ts';

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

const house = (own: Partial<HouseholdDocument> = {}): HouseholdDocument => household({ meals: [EVENING], ...own });

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
      [false, /off when it steams thickly and a spoonful from the middle is too hot to eat: it needs no boil/],
    ] as const) {
      const made = await plan(house({ thermometer }));
      const steps = makeSchedule({ ...made, schedule: [] } as Plan);
      const mine = steps
        .filter((step) => step.cookingId === only(made).id)
        .map(({ action, text }) => ({ action, text }));
      expect(mine.map(({ action }) => action)).not.toContain('boil');
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
    // One for each flame: a full one heats faster than it softens, and goes on to 85 C.
    expect(found.map(({ method }) => [method.flame, method.heatToC]).sort()).toEqual([
      ['full', 85],
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
        if (boils) delete dish.method.heatToC;
      });
      expect(rules.includes('unsafe-water')).toBe(!boils);
    },
  );
});
