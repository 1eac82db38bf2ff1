/**
 * Households that are short of food, fuel or fires, planned anew minutes before a fire is lit, in a world where nothing has
 * happened: the wall stands. A dish whose fire is due is under way; its food is then neither in the bowl nor in the store
 * as well, its fuel and water are not missing, and on which days something is missed is not settled a second time.
 */
import { expect, it } from 'vitest';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import { replanInput } from '../../api/planning/bookings/replan.ts';
import { makePlan, type PlanInput } from '../../api/planning/make-plan.ts';
import type { Plan, PlanRequest } from '../../api/planning/plan-types.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { addMinutes } from '../../api/wording/times.ts';
import { houseWithBox, START, stockOf, WALL_KITS } from './small-household.ts';

const solver = await createInThreadSolver();
async function planned(input: PlanInput, id: string): Promise<Plan> {
  return { ...(await makePlan(input, { solver, now: 0, id, programVersion: '0' })), schedule: [] };
}

const bottle = (leftKg: number) => ({
  fuels: [{ fuelId: 'propane' as const, reserveShare: 0, containers: [{ id: 'bottle', leftKg }] }],
});

it.each<[string, number[], Partial<HouseholdDocument>, string]>([
  ['food, the last set of the beans in water', [1, 1, 1, 1], {}, '2026-12-06-evening'],
  ['food, one set of the beans on the fire and one in store', [2, 1, 2, 1], {}, '2026-12-06-evening'],
  ['fuel, hot meals earlier than they need be', [3, 3, 3, 3], bottle(0.15), '2026-12-06'],
  ['fires, the mark of the evening passed by the fire that is due', [3, 3, 3, 3], { lightingsPerDay: 1 }, '2026-12-06'],
])(
  'a household short of %s keeps its wall',
  async (_name, sets, own, fireOf) => {
    const document = houseWithBox(own);
    const inputOf = (request: Partial<PlanRequest>): PlanInput => ({
      request: { householdId: document.id, startsAt: START, days: 3, timeLimitS: 12, ...request },
      household: document,
      kits: WALL_KITS,
      stock: stockOf(WALL_KITS.map((kit, index) => [kit, sets[index] ?? 1])),
    });
    const first = await planned(inputOf({}), 'first');
    expect(first.outcome).toBe('short');
    const fire = first.lightings.find(({ id }) => id.startsWith(fireOf));
    const at = addMinutes(fire?.at ?? '', -5);
    const input = inputOf({ startsAt: at, days: 2, replaces: 'first' });
    const next = await planned(replanInput(input, first, []).input, 'second');
    expect(next.continues?.from.news).toBe(false);
    expect(next.continues?.underWay.length).toBeGreaterThan(0);
    expect(next.continues?.wall.kept).toBe(next.continues?.wall.dishes);
    const later = (plan: Plan) =>
      plan.cookings
        .filter(({ startsAt }) => startsAt > fireEnd(first, fire?.id))
        .map(({ id, startsAt }) => [id, startsAt]);
    expect(later(next)).toEqual(later(first));
    // Shares count from the start of the first plan.
    const share = (plan: Plan) => plan.proof.aims.find(({ aim }) => aim === 'scarcest-largest-share')?.value ?? 0;
    expect(share(next)).toBeCloseTo(share(first), 2);
  },
  60_000,
);

/** Until when a fire burns: what begins by then belongs to it. */
function fireEnd(plan: Plan, id: string | undefined): string {
  return plan.lightings.find((one) => one.id === id)?.until ?? '';
}
