/** Wood that may not burn (trade notes 4): the plan counts its water, and says what may happen. */
import { expect, it } from 'vitest';
import { checkPlan } from '../../api/planning/check-plan.ts';
import { makePlan } from '../../api/planning/make-plan.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { household, LENTIL_SOUP, START, stockOf } from './small-household.ts';

const solver = await createInThreadSolver();

async function plan(moisturePercent: number) {
  const home = household({
    stoves: [{ id: 'fire', typeId: 'rocket', fuelIds: ['wood'], site: 'outdoors' }],
    fuels: [{ fuelId: 'wood', moisturePercent, containers: [{ id: 'stack', leftKg: 40 }] }],
  });
  const made = await makePlan(
    {
      request: { householdId: home.id, startsAt: START, days: 1, timeLimitS: 20 },
      household: home,
      kits: [LENTIL_SOUP],
      stock: stockOf([[LENTIL_SOUP, 3]]),
    },
    { solver, now: Date.UTC(2026, 11, 5, 6), id: 'plan-1', programVersion: '0' },
  );
  expect(checkPlan(made)).toEqual([]);
  return made;
}

it('wood at 40 % takes more mass, and the plan says that it may not burn; wood at 18 % does not', async () => {
  const [dry, wet] = [await plan(18), await plan(40)];
  const used = (made: typeof dry): number => made.fuel[0]?.usedKg.p50 as number;
  expect(used(wet)).toBeGreaterThan(1.3 * used(dry));
  const said = (made: typeof dry): boolean =>
    made.cautions.some((caution) => /40 % moisture.*may not burn/.test(caution));
  expect(said(wet)).toBe(true);
  expect(dry.cautions.some((caution) => /may not burn/.test(caution))).toBe(false);
});
