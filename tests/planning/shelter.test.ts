/** Many people at one table: where no pot holds enough for all, a meal is cooked in several. */
import { beforeAll, describe, expect, it } from 'vitest';
import { checkPlan } from '../../api/planning/check-plan.ts';
import { makePlan } from '../../api/planning/make-plan.ts';
import type { Plan } from '../../api/planning/plan-types.ts';
import type { Solver } from '../../api/planning/solver.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import { generatedHousehold } from '../bench/generated-households.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await createInThreadSolver();
});

async function planFor(people: number, potsL: number[]): Promise<Plan> {
  const generated = generatedHousehold(0, { days: 2, kits: 8, people });
  const household = {
    ...generated.household,
    boxes: [],
    vessels: [
      ...potsL.map((capacityL, index) => ({
        id: `pot-${index}`,
        kind: 'pot' as const,
        capacityL,
        material: 'aluminium' as const,
        lid: 'snug' as const,
      })),
      { id: 'bowl', kind: 'soak-bowl' as const, capacityL: 40 },
    ],
  };
  // In plenty: here pots are asked for, not stores.
  const stock = generated.stock.map((entry) => ({ ...entry, quantity: 2 * entry.quantity }));
  const draft = await makePlan(
    { ...generated, household, stock },
    { solver, now: 0, id: 'shelter', programVersion: 'test' },
  );
  const plan = { ...draft, schedule: [] };
  return { ...draft, schedule: makeSchedule(plan) };
}

describe('a shelter', () => {
  it('of sixty is fed from large pots, without fault', async () => {
    const plan = await planFor(60, [40, 40, 40]);
    expect(checkPlan(plan)).toEqual([]);
    expect(plan.meals.every((meal) => meal.servingsShort === 0)).toBe(true);
    expect(plan.cookings.some((cooking) => cooking.method.vesselId !== null)).toBe(true);
  }, 60_000);

  it('cooks one meal in several pots where one is too small, each dish under its own name', async () => {
    const plan = await planFor(40, [16, 16, 16]);
    expect(checkPlan(plan)).toEqual([]);
    const cooked = plan.meals.map((meal) => meal.dishes.filter((dish) => dish.hot));
    expect(cooked.some((dishes) => dishes.length > 1)).toBe(true);
    const ids = plan.cookings.map((cooking) => cooking.id);
    expect(new Set(ids).size).toBe(ids.length);
    // No pot is filled beyond three quarters (half to four fifths by what foams): common practice of the fill rule.
    for (const cooking of plan.cookings)
      if (cooking.method.vesselId !== null) expect(cooking.waterL.inPot).toBeLessThan(0.8 * 16);
  }, 60_000);

  it('of five still eats one dish a meal', async () => {
    const plan = await planFor(5, [6, 4]);
    expect(plan.meals.every((meal) => meal.dishes.length <= 1)).toBe(true);
  });
});
