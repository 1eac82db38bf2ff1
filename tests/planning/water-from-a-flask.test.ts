/** Goods that need no boil become a hot meal with water from a flask that was filled on an earlier fire. */
import { describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import type { HouseholdDocument, Vessel } from '../../api/cooking/household/kitchen.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import { explainMeal } from '../../api/planning/plan/explain-plan.ts';
import type { PlanDraft } from '../../api/planning/plan-types.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import { EVENING, household, LENTIL_SOUP, MIDDAY, planFor } from './small-household.ts';

const solver = await createInThreadSolver();

const INSTANT: Kit = {
  id: 'instant-rice-and-egg',
  name: 'Instant rice and egg',
  servings: 2,
  divisible: true,
  style: 'rice',
  suits: ['evening'],
  parts: [
    {
      id: 'all',
      name: 'Rice and egg',
      ingredients: [
        { foodId: 'instant-rice', massG: 180 },
        { foodId: 'fd-scrambled-egg', massG: 50 },
      ],
    },
  ],
};
const SOUP: Kit = { ...LENTIL_SOUP, suits: ['midday'] };

/** One fire a day, at noon or in the evening. */
function house(flask: Partial<Vessel> | null): HouseholdDocument {
  return household({
    meals: [MIDDAY, EVENING],
    lightingsPerDay: 1,
    vessels: [
      { id: 'pot-5', kind: 'pot', capacityL: 5, material: 'aluminium', lid: 'snug' },
      { id: 'kettle', kind: 'pot', capacityL: 2, material: 'aluminium', lid: 'snug' },
      { id: 'bowl', kind: 'soak-bowl', capacityL: 4 },
      ...(flask === null ? [] : [{ id: 'flask', kind: 'flask' as const, capacityL: 1, ...flask }]),
    ],
  });
}
const GOOD = { reading: { hours: 6, temperatureC: 84, startC: 95, airC: 14 } };

async function plan(document: HouseholdDocument, kit = INSTANT): Promise<PlanDraft> {
  const made = await planFor(solver, document, [
    [SOUP, 1],
    [kit, 1],
  ]);
  expect(checkPlan(made)).toEqual([]);
  return made;
}

const supper = (made: PlanDraft) => made.cookings.find((cooking) => cooking.id.startsWith('2026-12-05-evening'));

describe('hot water from the flask', () => {
  it('makes supper hot on the fire of noon', async () => {
    const made = await plan(house(GOOD));
    expect(made.outcome).toBe('complete');
    expect(made.lightings).toHaveLength(1);
    const dish = supper(made);
    expect(dish?.method).toMatchObject({ finish: 'flask', flaskId: 'flask' });
    expect(dish?.method.pours?.standMinutes).toBeGreaterThan(0);
    expect(made.meals[1]?.dishes[0]?.hot).toBe(true);
    // Only the water is heated: less than the dish as a whole would take on the flame.
    expect(dish?.fuelMJ.p50).toBeGreaterThan(0.1);
  });

  it('not where the water would only warm it: then it is eaten cold', async () => {
    for (const flask of [null, { reading: { hours: 6, temperatureC: 64, startC: 95, airC: 14 } }]) {
      const made = await plan(house(flask));
      const hot = made.meals.filter((meal) => meal.dishes.some((dish) => dish.hot));
      expect(hot).toHaveLength(1);
      expect(made.meals.every((meal) => meal.servingsShort === 0)).toBe(true);
      expect(supper(made)?.method.pours).toBeUndefined();
    }
  });

  it('never for goods that must be boiled: they are cooked in the flask or not at all', async () => {
    const lentils: Kit = { ...LENTIL_SOUP, id: 'evening-lentils', suits: ['evening'] };
    expect(supper(await plan(house({ ...GOOD, capacityL: 2 }), lentils))?.method.pours).toBeUndefined();
    const made = structuredClone(await plan(house(GOOD)));
    const dish = supper(made);
    const [kit] = made.resolved.kits.filter((one) => one.id === dish?.kitId);
    kit?.parts[0]?.ingredients.push({ foodId: 'kidney-bean', massG: 20 });
    expect(checkPlan(made).map((fault) => fault.rule)).toContain('uncooked');
  });

  it('has its steps: boil, fill, pour over it before supper', async () => {
    const made = await plan(house(GOOD));
    const steps = makeSchedule(made).filter((step) => step.cookingId === supper(made)?.id);
    expect(steps.map((step) => step.action)).toEqual(['heat-water', 'fill-flask', 'rehydrate', 'serve']);
    expect(steps[2]?.text).toContain('Pour the hot water of the flask over the instant rice and egg in the bowl');
    expect(steps[2]?.at.slice(0, 10)).toBe('2026-12-05');
  });

  it('is explained down to the fuel that is printed', async () => {
    const made = await plan(house(GOOD));
    const meal = made.meals[1];
    if (meal === undefined) throw new Error('there is a supper');
    const steps = explainMeal(made, meal);
    expect(steps.at(-1)?.value).toBeCloseTo(supper(made)?.fuel[0]?.kg.p50 ?? Number.NaN, 9);
  });
});
