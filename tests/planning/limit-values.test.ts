import { beforeAll, describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import type { PlanDraft } from '../../api/planning/plan-types.ts';
import type { Solver } from '../../api/planning/solver.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import {
  COUSCOUS_BOWL,
  EVENING,
  household,
  LENTIL_SOUP,
  MIDDAY,
  planFor,
  propane,
  RICE,
  water,
} from './small-household.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await createInThreadSolver();
});

const oneMoreOf = (plan: PlanDraft, limit: string): (string | null)[] =>
  plan.limits.filter((row) => row.limit === limit).map((row) => row.oneMore);

const servedMeals = (plan: PlanDraft) => plan.meals.filter((meal) => meal.servingsShort < 0.02).length;
const hotMeals = (plan: PlanDraft) => plan.meals.filter((meal) => meal.dishes.some((dish) => dish.hot)).length;
const cans = (litres: number) => water({ lots: [{ id: 'cans', litres, quality: 'safe', temperatureC: 10 }] });

describe('what one more unit would change, against the plan made with it', () => {
  it('a kilogram of the fuel that is short', async () => {
    const document = household({ fuels: propane(0.03) });
    const sets: [Kit, number][] = [
      [RICE, 2],
      [LENTIL_SOUP, 1],
    ];
    const plan = await planFor(solver, document, sets, { days: 3 });
    const more = await planFor(solver, household({ fuels: propane(1.03) }), sets, { days: 3 });
    const gained = servedMeals(more) - servedMeals(plan);
    expect(gained).toBeGreaterThan(0);
    expect(oneMoreOf(plan, 'propane')[0]).toBe(
      `1 kg more propane: ${gained} more ${gained === 1 ? 'meal' : 'meals'}, ${gained} more hot ${gained === 1 ? 'meal' : 'meals'}`,
    );
    expect(oneMoreOf(plan, 'water')).toEqual(['1 L more water: nothing changes']);
  });

  it('a set of the kit that is short', async () => {
    const plan = await planFor(solver, household(), [[RICE, 1]], { days: 3 });
    expect(oneMoreOf(plan, 'sets:plain-rice')).toEqual(['1 more set: 1 more meal, 1 more hot meal']);
    expect(oneMoreOf(plan, 'propane')).toEqual(['1 kg more propane: nothing changes']);
  });

  it('a fire a day more, the same for every day on which it binds', async () => {
    const document = household({ meals: [MIDDAY, EVENING], lightingsPerDay: 1 });
    const sets: [Kit, number][] = [
      [RICE, 2],
      [LENTIL_SOUP, 2],
    ];
    const plan = await planFor(solver, document, sets, { days: 2 });
    const more = await planFor(solver, { ...document, lightingsPerDay: 2 } as HouseholdDocument, sets, { days: 2 });
    expect(hotMeals(more) - hotMeals(plan)).toBe(2);
    const gained = servedMeals(more) - servedMeals(plan);
    expect(gained).toBe(2);
    expect(oneMoreOf(plan, 'lightings')).toEqual([
      'One more fire a day: 2 more meals, 2 more hot meals',
      'One more fire a day: 2 more meals, 2 more hot meals',
    ]);
    // Limits of a day that do not bind say nothing.
    expect(oneMoreOf(plan, 'outdoor-minutes')).toEqual([null, null]);
  });

  it('water that people drink before anybody cooks', async () => {
    const plan = await planFor(solver, household({ water: cans(8) }), [[COUSCOUS_BOWL, 2]], { days: 2 });
    expect(oneMoreOf(plan, 'water')[0]).toMatch(
      /^1 L more water: nothing changes, [\d.]+ L are missing to drink and wash with$/,
    );
  });

  it('in a complete plan: what becomes less scarce, by so much', async () => {
    const sets: [Kit, number][] = [
      [LENTIL_SOUP, 2],
      [RICE, 1],
    ];
    const document = household({ fuels: propane(0.4), water: cans(200) });
    const plan = await planFor(solver, document, sets, { days: 3 });
    expect(plan.outcome).toBe('complete');
    const more = await planFor(solver, household({ fuels: propane(1.4), water: cans(200) }), sets, { days: 3 });
    const shareOf = (made: PlanDraft) =>
      Math.round(100 * (made.proof.aims.find(({ aim }) => aim === 'scarcest-largest-share')?.value as number));
    expect(shareOf(more)).toBeLessThan(shareOf(plan));
    expect(oneMoreOf(plan, 'propane')).toEqual([
      `1 kg more propane: no more is served; of what is scarcest ${shareOf(more)} % is used instead of ${shareOf(plan)} %`,
    ]);
    expect(oneMoreOf(plan, 'water')).toEqual(['1 L more water: nothing changes']);
  });
});
