/** The rest of the week uses what its boxes and lots have shown, and says so. */
import { describe, expect, it } from 'vitest';
import { bookedTests } from '../../api/planning/bookings/booked-tests.ts';
import type { Booking } from '../../api/planning/bookings/booking-types.ts';
import { planChanges } from '../../api/planning/bookings/changes.ts';
import { replanInput } from '../../api/planning/bookings/replan.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import { makePlan, type PlanInput } from '../../api/planning/make-plan.ts';
import type { Plan, PlanRequest } from '../../api/planning/plan-types.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { changeLines } from '../../api/wording/change-lines.ts';
import { BEAN_STEW, EVENING, household, LENTIL_SOUP, MIDDAY, START, stockOf } from './small-household.ts';

const solver = await createInThreadSolver();
const HOUSE = household({
  meals: [MIDDAY, EVENING],
  lightingsPerDay: 2,
  boxes: [{ id: 'box', fits: ['pot-5'], materialId: 'eps', thicknessMm: 100 }],
});
const KITS = [LENTIL_SOUP, BEAN_STEW];

function inputOf(request: Partial<PlanRequest>): PlanInput {
  return {
    request: { householdId: HOUSE.id, startsAt: START, days: 2, timeLimitS: 20, ...request },
    household: HOUSE,
    kits: KITS,
    stock: stockOf(KITS.map((kit) => [kit, 4])),
  };
}

async function planned(input: PlanInput, id: string): Promise<Plan> {
  const draft = await makePlan(input, { solver, now: 0, id, programVersion: '0' });
  expect(checkPlan(draft)).toEqual([]);
  return { ...draft, schedule: [] };
}

/** Lentils on the flame at midday, and again in the evening of both days. */
const pinned = ['2026-12-05-midday', '2026-12-05-evening', '2026-12-06-evening'].map((meal) => ({
  meal,
  kitId: LENTIL_SOUP.id,
  method: { finish: 'flame' as const },
}));
const first = await planned(inputOf({ pinned }), 'first');
const NOON = '2026-12-05T13:30';
const noon = first.cookings.find(({ startsAt }) => startsAt < NOON);
const booking = (own: Record<string, unknown>): Booking =>
  ({
    id: JSON.stringify(own).length.toString(),
    planId: 'first',
    at: '2026-12-05T12:35',
    ...own,
  }) as unknown as Booking;

async function again(bookings: Booking[]) {
  const input = {
    ...inputOf({ startsAt: NOON, replaces: 'first', pinned }),
    measurements: bookedTests(first, bookings),
  };
  const replanned = replanInput(input, first, bookings);
  return { next: await planned(replanned.input, 'second'), state: replanned.state };
}
const holdOf = (plan: Plan, meal: string) =>
  plan.cookings.find(({ id }) => id === `${meal}-lentil-soup`)?.method.boilMinutes?.p90 ?? 0;

describe('a dish that was not soft', () => {
  it('is boiled longer from then on, in every meal of the lot, and that is the reason told', async () => {
    const hard = booking({ kind: 'food-tried', of: noon?.id, minutes: 40, soft: false });
    const { next, state } = await again([hard]);
    for (const meal of ['2026-12-05-evening', '2026-12-06-evening'])
      expect(holdOf(next, meal)).toBeGreaterThan(1.1 * holdOf(first, meal));
    expect(next.resolved.learned).toEqual([expect.objectContaining({ quantity: 'minutesFactor' })]);
    const changes = planChanges(first, next, state);
    const lines = changeLines(next, changes, state);
    expect(lines.learned.join(' ')).toMatch(/longer to soften than the table expects/);
    // Nothing else has happened: where a meal changes, that is why.
    expect(changes.length).toBeGreaterThan(0);
    for (const change of changes) expect(change.cause).toMatchObject({ kind: 'learned' });
    expect(lines.changes[0]?.text).toMatch(/because .* takes about \d+ % longer to soften/);
  });

  it('counts no more where it is taken back', async () => {
    const hard = booking({ kind: 'food-tried', of: noon?.id, minutes: 40, soft: false });
    const undo = booking({ kind: 'undo', at: '2026-12-05T12:50', bookingId: hard.id });
    const { next } = await again([hard, undo]);
    expect(next.resolved.learned).toEqual([]);
    expect(holdOf(next, '2026-12-06-evening')).toBe(holdOf(first, '2026-12-06-evening'));
  });
});

describe('a dish that was soft early', () => {
  it('is boiled less from then on', async () => {
    const { next } = await again([booking({ kind: 'food-tried', of: noon?.id, minutes: 25, soft: true })]);
    expect(holdOf(next, '2026-12-06-evening')).toBeLessThan(holdOf(first, '2026-12-06-evening'));
  });
});
