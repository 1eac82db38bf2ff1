import { beforeAll, describe, expect, it } from 'vitest';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import { findTradeOff, type TradeOff } from '../../api/planning/questions/trade-off.ts';
import type { Solver } from '../../api/planning/solver.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import {
  COUSCOUS_BOWL,
  EVENING,
  household,
  inputFor,
  LENTIL_SOUP,
  MIDDAY,
  planFor,
  propane,
  RICE,
  type Sets,
  START,
  stockOf,
} from './small-household.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await createInThreadSolver();
});

function curveOf(document: HouseholdDocument, sets: Sets, days: number): Promise<TradeOff> {
  return findTradeOff(inputFor(document, sets, { days, timeLimitS: 60 }), {
    solver,
    clock: { now: () => performance.now() },
  });
}

/** Cold couscous for every meal, or rice and soup on the fire. */
const SETS: Sets = [
  [RICE, 6],
  [LENTIL_SOUP, 6],
  [COUSCOUS_BOWL, 8],
];

describe('the curve between fuel and hot or varied meals', () => {
  it('costs more fuel for every hot meal and every repeat less, and no point is beaten by another', async () => {
    const document = household({ meals: [MIDDAY, EVENING] });
    const { points, hotMealsWanted, notWorkedOut } = await curveOf(document, SETS, 3);
    expect(hotMealsWanted).toBe(6);
    expect(notWorkedOut).toEqual([]);
    expect(points.length).toBeGreaterThanOrEqual(4);
    for (const [at, point] of points.entries()) {
      for (const other of points.slice(at + 1)) {
        // More fuel buys something: hot meals, or fewer repeats.
        expect(other.hotMeals > point.hotMeals || other.repeats < point.repeats).toBe(true);
        expect(other.fuelMJ.p50).toBeGreaterThanOrEqual(point.fuelMJ.p50);
      }
      expect(point.onDays).toBe(true);
      expect(point.fuelMJ.p10).toBeLessThanOrEqual(point.fuelMJ.p50);
      expect(point.servingsShort).toBe(0);
    }
    const hot = points.map(({ hotMeals }) => hotMeals);
    expect(Math.min(...hot)).toBeLessThan(Math.max(...hot));
    // Couscous needs no fire: a week without hot meals burns nothing.
    expect(points.find(({ hotMeals }) => hotMeals === 0)?.fuelMJ.p50).toBe(0);
  });

  it('ends where the plan does: the same hot meals for no more fuel than the plan burns', async () => {
    const document = household({ meals: [MIDDAY, EVENING] });
    const sets: Sets = [
      [RICE, 2],
      [LENTIL_SOUP, 2],
    ];
    const { points } = await curveOf(document, sets, 2);
    const plan = await planFor(solver, document, sets, { days: 2 });
    const planned = points.filter((point) => point.asHotAsPlanned);
    expect(planned.length).toBeGreaterThan(0);
    expect(planned[0]?.hotMeals).toBe(plan.meals.filter((meal) => meal.dishes.some((dish) => dish.hot)).length);
    // Half a per cent is the tolerance of a point; the plan is rounded to a hundredth of a MJ.
    expect(Math.min(...planned.map(({ fuelMJ }) => fuelMJ.p50))).toBeLessThanOrEqual(
      plan.comparison.planMJ * 1.005 + 0.01,
    );
  });

  it('each point is what a household gets that asks for it', async () => {
    const document = household({ fuels: propane(0.5), meals: [MIDDAY, EVENING] });
    const { points } = await curveOf(document, SETS, 2);
    const none = points.find(({ hotMeals }) => hotMeals === 0);
    // Nothing is asked to be hot, and only what needs no fire is allowed.
    const cold = await planFor(
      solver,
      { ...document, meals: (document.meals ?? []).map((meal) => ({ ...meal, hot: 'optional' as const })) },
      [[COUSCOUS_BOWL, 8]],
      { days: 2 },
    );
    expect(none?.fuelMJ.p50).toBeCloseTo(cold.comparison.planMJ, 2);
    expect(none?.text).toMatch(/^0 of 4 meals hot that should be, .*: 0 MJ, nine times in ten at most 0 MJ\./);
  });

  it('says that hot meals beyond the plan cost food energy', async () => {
    // A bowl of couscous and raisins gives more than the rice: the plan takes it cold for its energy.
    const { points } = await curveOf(
      household(),
      [
        [RICE, 2],
        [COUSCOUS_BOWL, 2],
      ],
      2,
    );
    const beyond = points.filter((point) => point.hotMeals === 2);
    expect(beyond.length).toBe(1);
    expect(beyond[0]?.asHotAsPlanned).toBe(false);
    expect(beyond[0]?.text).toMatch(/% of the food energy is then short\.$/);
    expect(points.filter((point) => point.asHotAsPlanned).every((point) => point.hotMeals === 0)).toBe(true);
  });

  it('is empty where there is nothing to choose', async () => {
    const nobody = await findTradeOff(
      {
        request: {
          householdId: 'brook-cottage',
          startsAt: START,
          days: 1,
          attendance: [{ date: '2026-12-05', people: [] }],
        },
        household: household(),
        kits: [RICE],
        stock: stockOf([[RICE, 1]]),
      },
      { solver, clock: { now: () => performance.now() } },
    );
    expect(nobody.points).toEqual([]);
  });
});
