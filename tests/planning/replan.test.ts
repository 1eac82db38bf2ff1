/** A plan from now on: nothing new, nothing changed; what is under way is gone on with; what was found is planned with. */
import { describe, expect, it } from 'vitest';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import { soakLimitHours } from '../../api/cooking/keeping/soak-limits.ts';
import { bookedTests } from '../../api/planning/bookings/booked-tests.ts';
import type { Booking } from '../../api/planning/bookings/booking-types.ts';
import { bookingFaults } from '../../api/planning/bookings/check-booking.ts';
import { replanInput } from '../../api/planning/bookings/replan.ts';
import { stateNow } from '../../api/planning/bookings/state-now.ts';
import { weighedUses } from '../../api/planning/bookings/weighed-uses.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import { makePlan, type PlanInput } from '../../api/planning/make-plan.ts';
import type { Plan, PlanRequest } from '../../api/planning/plan-types.ts';
import { lotKey, stockLots } from '../../api/planning/stock-lots.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { houseWithBox, START, stockOf, WALL_KITS } from './small-household.ts';

const solver = await createInThreadSolver();
function inputOf(request: Partial<PlanRequest>, document: HouseholdDocument, kits = WALL_KITS): PlanInput {
  return {
    request: { householdId: document.id, startsAt: START, days: 3, timeLimitS: 20, ...request },
    household: document,
    kits,
    stock: stockOf(kits.map((kit) => [kit, 3])),
  };
}

async function planned(input: PlanInput, id = 'first'): Promise<Plan> {
  const draft = await makePlan(input, { solver, now: Date.UTC(2026, 11, 5, 6), id, programVersion: '0' });
  expect(checkPlan(draft)).toEqual([]);
  return { ...draft, schedule: [] };
}

/** The rest of the plan, planned anew at a moment. */
async function again(
  old: Plan,
  startsAt: string,
  bookings: Booking[] = [],
  own: Partial<PlanRequest> = {},
  document: HouseholdDocument = houseWithBox(),
): Promise<Plan> {
  const last = old.water.byDay.at(-1)?.date ?? '';
  const days = Math.round((Date.parse(last) - Date.parse(startsAt.slice(0, 10))) / 86_400_000) + 1;
  const input = inputOf({ startsAt, days, replaces: old.id, ...own }, document, WALL_KITS);
  return planned(replanInput(input, old, bookings).input, 'second');
}

/** What is seen of the dishes of the meals from a moment on. */
function dishesFrom(plan: Plan, at: string): unknown[] {
  return plan.cookings
    .filter((cooking) => cooking.startsAt > at)
    .map(({ kitId, method, startsAt, uses }) => [
      kitId,
      startsAt,
      method.vesselId,
      method.stoveId,
      method.finish,
      uses.filter((use) => use.from > at).map((use) => use.resource),
    ]);
}

const booking = (own: Record<string, unknown>): Booking =>
  ({ id: `b-${JSON.stringify(own).length}-${own.at}`, planId: 'first', ...own }) as unknown as Booking;
const PINNED_BEANS = { meal: '2026-12-06-evening', kitId: 'bean-stew', method: { soaked: true } };
const NOON = '2026-12-05T13:30';
const first = await planned(inputOf({}, houseWithBox()));

describe('stock that was counted', () => {
  it('lacks what was eaten before and booked by nobody: that is not taken out a second time', () => {
    const input = inputOf({ startsAt: NOON, days: 3, replaces: 'first' }, houseWithBox());
    const state = stateNow(first, [], NOON);
    const takes = state.cooked.flatMap(({ cookingId }) => {
      const cooking = first.cookings.find((one) => one.id === cookingId);
      return (cooking?.takes ?? []).map((take) => ({ kitId: cooking?.kitId ?? '', ...take }));
    });
    expect(takes.length).toBeGreaterThan(0);
    const levels = (stock: PlanInput['stock']) =>
      new Map(stockLots(stock).map((lot) => [lotKey(lot), Math.round(lot.quantity * 1e4) / 1e4]));
    const uncounted = levels(replanInput(input, first, []).input.stock);
    const counted = takes.map(({ quantity, ...lot }, index) => ({
      ...lot,
      id: `count-${index}`,
      quantity: -quantity,
      reason: 'counted' as const,
      at: '2026-12-05T13:00',
    }));
    const after = replanInput({ ...input, stock: [...input.stock, ...counted] }, first, []);
    expect(levels(after.input.stock)).toEqual(uncounted);
    expect(after.input.continues?.news).toBe(false);
    // A count that was taken back is none.
    const back = counted.map((entry) => ({
      ...entry,
      id: `${entry.id}-back`,
      quantity: -entry.quantity,
      reason: 'undo' as const,
      undoes: entry.id,
    }));
    const none = replanInput({ ...input, stock: [...input.stock, ...counted, ...back] }, first, []);
    expect(levels(none.input.stock)).toEqual(uncounted);
  });
});

describe('an unchanged world', () => {
  it.each(['2026-12-05T13:30', '2026-12-05T21:30', '2026-12-06T07:30', '2026-12-06T13:30', '2026-12-07T08:00'])(
    'changes nothing at %s',
    async (at) => {
      const next = await again(first, at);
      expect(next.continues?.wall.kept).toBe(next.continues?.wall.dishes);
      expect(next.continues?.wall.dishes).toBeGreaterThan(0);
      expect(dishesFrom(next, at)).toEqual(dishesFrom(first, at));
      expect(next.outcome).toBe('complete');
    },
  );

  it.each([NOON, '2026-12-06T13:30'])('changes nothing at %s where the bottle weighs what was expected', async (at) => {
    const expected = stateNow(first, [], at).fuel[0]?.left;
    for (const leftKg of [expected?.p10, expected?.p50, expected?.p90]) {
      const weighed = booking({ kind: 'fuel-weighed', at, fuelId: 'propane', containerId: 'bottle', leftKg });
      const measurements = weighedUses(first, [weighed]);
      const input = { ...inputOf({ startsAt: at, days: 3, replaces: 'first' }, houseWithBox()), measurements };
      const days = at.startsWith('2026-12-05') ? 3 : 2;
      const next = await planned(
        replanInput({ ...input, request: { ...input.request, days } }, first, [weighed]).input,
        'second',
      );
      expect(next.continues?.from.news).toBe(false);
      expect(next.continues?.wall.kept).toBe(next.continues?.wall.dishes);
      expect(next.fuel[0]?.onHandKg).toBeCloseTo(leftKg ?? 0, 4);
    }
  });

  it('counts shares from the start of the first plan', async () => {
    const next = await again(first, '2026-12-06T13:30');
    const shareOf = (plan: Plan) => plan.proof.aims.find((aim) => aim.aim === 'scarcest-largest-share')?.value;
    expect(shareOf(next)).toBeCloseTo(shareOf(first) ?? 0, 3);
    const third = await again(next, '2026-12-07T08:00');
    expect(shareOf(third)).toBeCloseTo(shareOf(first) ?? 0, 3);
    expect(third.continues?.firstStartsAt).toBe(START);
  });
});

describe('what was found', () => {
  it('plans with a bottle that weighs less than expected, and keeps the reserve of the first plan', async () => {
    const reserved = await planned(
      inputOf(
        {},
        houseWithBox({ fuels: [{ fuelId: 'propane', reserveShare: 0.1, containers: [{ id: 'bottle', leftKg: 2 }] }] }),
      ),
    );
    const weighed = booking({ kind: 'fuel-weighed', at: NOON, fuelId: 'propane', containerId: 'bottle', leftKg: 0.45 });
    const next = await again(reserved, NOON, [weighed], {}, reserved.resolved.household);
    expect(next.fuel[0]).toMatchObject({ onHandKg: 0.45, reserveKg: 0.2 });
    const [limit] = next.limits.filter((row) => row.limit === 'propane');
    expect(limit?.used).toBeLessThanOrEqual(0.25 + 1e-6);
    // The wall needs more than that, so that it cannot stand.
    expect(next.continues?.wall.kept).toBeLessThan(next.continues?.wall.dishes ?? 0);
  });

  it('does without what broke, and feeds who came', async () => {
    const next = await again(first, NOON, [
      booking({ kind: 'broke', at: NOON, thingId: 'pot-5' }),
      booking({ kind: 'came', at: NOON, guests: [{ ageGroup: 'adult', mealShare: 1 }], until: '2026-12-06' }),
    ]);
    expect(next.cookings.flatMap((cooking) => cooking.uses).filter((use) => use.resource === 'pot-5')).toEqual([]);
    expect(next.meals.map((meal) => [meal.id.slice(8, 10), meal.servingsWanted])).toEqual([
      ['05', 3],
      ['06', 3],
      ['06', 3],
      ['07', 2],
      ['07', 2],
    ]);
  });

  it('leaves out meals that are done, and takes what was eaten out of the stock', async () => {
    const next = await again(first, NOON, [], { done: [{ meal: '2026-12-05-evening', result: 'changed' }] });
    expect(next.meals.map((meal) => meal.id)).not.toContain('2026-12-05-evening');
    const eaten = first.cookings.find((cooking) => cooking.startsAt < NOON);
    const left = (plan: Plan) =>
      plan.resolved.stock.find((lot) => lot.kitId === eaten?.kitId && lot.partId === eaten?.takes[0]?.partId)?.quantity;
    expect(left(next)).toBe((left(first) ?? 0) - (eaten?.takes[0]?.quantity ?? 0));
  });

  it('refuses to begin before the replaced plan, or to go on with what is not under way', () => {
    const input = inputOf({ startsAt: '2026-12-05T06:00', replaces: 'first' }, houseWithBox());
    expect(() => replanInput(input, first, [])).toThrow(/begin at or after/);
    const entry = { kind: 'soak' as const, kitId: 'plain-rice', batches: 1, vesselId: 'bowl', since: NOON };
    const going = inputOf({ startsAt: NOON, replaces: 'first', inProgress: [entry] }, houseWithBox());
    expect(() => replanInput(going, first, [])).toThrow(/not in water/);
  });
});

describe('a third plan', () => {
  it('remembers what the first had eaten, what broke, and shares from its start', async () => {
    const second = await again(first, NOON, [booking({ kind: 'broke', at: NOON, thingId: 'pot-5' })]);
    const third = await again(second, '2026-12-06T13:30');
    expect(third.request.outOfUse).toEqual([{ id: 'pot-5', from: NOON, to: null }]);
    const eaten = (plan: Plan, from: string, to: string) =>
      plan.cookings
        .filter((one) => one.startsAt >= from && one.startsAt < to)
        .reduce((sum, one) => sum + one.batches, 0);
    const setsLeft = third.resolved.stock
      .filter((lot) => WALL_KITS.some((kit) => kit.id === lot.kitId && kit.parts[0]?.id === lot.partId))
      .reduce((sum, lot) => sum + lot.quantity, 0);
    expect(setsLeft).toBeCloseTo(
      3 * WALL_KITS.length - eaten(first, START, NOON) - eaten(second, NOON, '2026-12-06T13:30'),
      6,
    );
    const mended = await again(second, '2026-12-06T13:30', [
      booking({ kind: 'mended', at: '2026-12-06T09:00', thingId: 'pot-5' }),
    ]);
    expect(mended.request.outOfUse).toEqual([]);
  });
});

describe('a plan made anew twice while a dish cooks', () => {
  const fire = first.lightings.find(
    (one) => one.at > NOON && first.cookings.some((dish) => dish.method.lightingId === one.id),
  );
  const shift = (minutes: number) => new Date(Date.parse(`${fire?.at}Z`) + minutes * 60_000).toISOString().slice(0, 16);

  it('knows that dish both times: it is not cooked again, and its meal can be booked', async () => {
    const second = await again(first, shift(-5));
    const [dish] = second.continues?.underWay ?? [];
    const [meal = ''] = dish?.meals ?? [];
    const third = await again(second, shift(15));
    expect(third.continues?.underWay).toEqual([dish]);
    expect(third.meals.map(({ id }) => id)).not.toContain(meal);
    expect(third.continues?.wall.kept).toBe(third.continues?.wall.dishes);
    // Booked under the second plan, it is eaten for the third; booked twice it is asked about.
    const eaten = booking({ kind: 'meal-eaten', at: shift(20), meal });
    expect(bookingFaults(second, eaten, [], shift(400))).toEqual([]);
    expect(bookingFaults(second, { ...eaten, id: 'again' }, [eaten], shift(400))[0]?.field).toBe('meal');
    expect(stateNow(second, [eaten], shift(20)).underWay).toEqual([]);
    expect(stateNow(second, [], shift(1000)).meals.find(({ id }) => id === meal)?.state).toBe('assumed');
  });

  it('plans its meal anew where it was thrown away', async () => {
    const second = await again(first, shift(-5));
    const [dish] = second.continues?.underWay ?? [];
    const gone = booking({ kind: 'box-opened', at: shift(15), of: dish?.cookingId, result: 'thrown-away' });
    expect(bookingFaults(second, gone, [], shift(15))).toEqual([]);
    const third = await again(second, shift(15), [gone]);
    expect(third.continues?.underWay).toEqual([]);
    expect(third.meals.map(({ id }) => id)).toContain(dish?.meals[0]);
  });
});

describe('a soak under way', () => {
  // Set by hand after the midday meal of the first day, in a room that falls from 14 to 12 C.
  const set = booking({ kind: 'soak-set', at: NOON, kitId: 'bean-stew', batches: 1, vesselId: 'bowl' });
  const indoorC = 14;

  it('goes on by its own clock, at the most to the limit of its temperature (H1 to H3)', async () => {
    const next = await again(first, '2026-12-05T14:00', [set]);
    const [soak] = next.continues?.soaks ?? [];
    expect(soak).toMatchObject({ since: NOON, hours: 0.5, limitHours: soakLimitHours(indoorC), assumed: false });
    for (const cooking of next.cookings.filter((one) => one.method.soak?.begun === true)) {
      const boils = Date.parse(`${cooking.startsAt}Z`) + (cooking.method.minutesToBoil?.p90 ?? 0) * 60_000;
      expect((boils - Date.parse(`${NOON}Z`)) / 3_600_000).toBeLessThanOrEqual(soakLimitHours(indoorC));
      // Kidney beans are poured off and boil their ten minutes, soaked or not.
      expect(cooking.method.soak?.discardWater).toBe(true);
      expect(cooking.method.lectin.verdict).toBe('safe');
      expect(cooking.method.soak?.waterL).toBe(0);
    }
  });

  it('that began hot must boil within hours, however cold the room, and is given up when it stood overnight (H3)', async () => {
    const hot = { ...set, temperatureC: 95 } as Booking;
    const [soak] = stateNow(first, [hot], '2026-12-05T14:00').soaks;
    // From 95 C in a room of 14 C it is above 60 C for some two hours, far from the twelve of a cool soak.
    expect(soak?.limitHours).toBeGreaterThanOrEqual(2);
    expect(soak?.limitHours).toBeLessThan(4);
    const next = await again(first, '2026-12-05T21:30', [hot]);
    expect(next.continues?.soaks.find(({ id }) => id === hot.id)).toMatchObject({ use: 'given-up' });
    expect(next.cookings.some((cooking) => cooking.method.soak?.begun === true && cooking.kitId === 'bean-stew')).toBe(
      false,
    );
  });

  it('in a house of 2 °C is not boiled as one after four hours, but the next day, when it counts (H1)', async () => {
    const place = { timeZone: 'Europe/Zurich', elevationM: 500, indoorC: 2, indoorFallsToC: 2, outdoorC: 2 };
    const cold = houseWithBox({ places: [{ id: 'home', ...place, wind: 'still' }] });
    const plan = await planned(inputOf({ days: 2 }, cold));
    const asked = (meal: string) => ({ pinned: [{ meal, kitId: 'bean-stew', method: { soaked: true } }] });
    const tonight = await again(plan, '2026-12-05T13:45', [set], asked('2026-12-05-evening'), cold);
    expect(tonight.cookings.some((one) => one.method.soak?.begun === true && one.startsAt < '2026-12-06')).toBe(false);
    const tomorrow = await again(plan, '2026-12-05T13:45', [set], asked('2026-12-06-evening'), cold);
    const dish = tomorrow.cookings.find((one) => one.method.soak?.begun === true);
    expect(dish?.startsAt.slice(0, 10)).toBe('2026-12-06');
    expect(dish?.method.lectin.verdict).toBe('safe');
    expect(dish?.method.boilMinutes?.p50).toBeGreaterThanOrEqual(dish?.method.lectin.boilMinutesNeeded ?? 999);
  });

  it('in cold water warms to the room, and its hours are those of the room', () => {
    const cold = { ...set, temperatureC: 4 } as Booking;
    expect(stateNow(first, [cold], '2026-12-05T14:00').soaks[0]?.limitHours).toBe(soakLimitHours(indoorC));
  });

  it('that is drained long before its pot goes on is asked about: damp beans are on the same clock (H2)', async () => {
    const soaked = await planned(inputOf({ days: 2, pinned: [PINNED_BEANS] }, houseWithBox()));
    const dish = soaked.cookings.find((one) => one.method.soak !== null);
    expect(dish?.method.soak?.at).toBeDefined();
    const drainedAt = (minutesBefore: number) =>
      new Date(Date.parse(`${dish?.startsAt}Z`) - minutesBefore * 60_000).toISOString().slice(0, 16);
    const end = (minutesBefore: number) =>
      booking({ kind: 'soak-drained', at: drainedAt(minutesBefore), of: dish?.id, result: 'cooked' });
    expect(bookingFaults(soaked, end(180), [], drainedAt(0))).toEqual([
      expect.objectContaining({ field: 'result', question: expect.stringMatching(/only its water poured off/) }),
    ]);
    expect(bookingFaults(soaked, { ...end(180), confirmed: true } as Booking, [], drainedAt(0))).toEqual([]);
    expect(bookingFaults(soaked, end(20), [], drainedAt(0))).toEqual([]);
  });

  it('is lost where it is given up on purpose', async () => {
    const setsOf = (plan: Plan) =>
      plan.resolved.stock.find((lot) => lot.kitId === 'bean-stew' && lot.partId === 'beans')?.quantity ?? 0;
    const going = await again(first, '2026-12-05T14:00', [set]);
    const given = await again(first, '2026-12-05T14:00', [set], { inProgress: [] });
    expect(given.continues?.soaks).toEqual([]);
    expect(setsOf(given)).toBeCloseTo(setsOf(going) - 1, 6);
    expect(given.cookings.some((cooking) => cooking.method.soak?.begun === true)).toBe(false);
  });

  it('is given up past that limit, with the reason, and its set is not cooked dry instead', async () => {
    const next = await again(first, '2026-12-06T07:30', [set]);
    const [soak] = next.continues?.soaks.filter((one) => one.id === set.id) ?? [];
    expect(soak?.hours).toBe(18);
    expect(soak).toMatchObject({ use: 'given-up', reason: expect.stringContaining('longer than is safe') });
    const sets = next.cookings.filter((one) => one.kitId === 'bean-stew' && one.method.soak?.begun !== true);
    // Three were in store, one was eaten at midday, one lies in water.
    const eaten = first.cookings.filter((one) => one.kitId === 'bean-stew' && one.startsAt < '2026-12-06T07:30').length;
    const inWater = next.continues?.soaks.filter((one) => one.kitId === 'bean-stew').length ?? 0;
    expect(sets.reduce((sum, one) => sum + one.batches, 0)).toBeLessThanOrEqual(3 - eaten - inWater);
  });
});

const later = (at: string, minutes: number) =>
  new Date(Date.parse(`${at}Z`) + minutes * 60_000).toISOString().slice(0, 16);

describe('a dish under way', () => {
  it('is eaten within its hours and not planned again; thrown away, its meal is planned anew (H9)', async () => {
    const meal = '2026-12-05-evening';
    const pinned = [{ meal, kitId: 'lentil-soup', method: { finish: 'box' as const } }];
    const reading = { hours: 6, temperatureC: 80, startC: 95, airC: 14 };
    const box = { id: 'box', fits: ['pot-5', 'pot-3'], materialId: 'eps' as const, thicknessMm: 100, reading };
    const boxed = houseWithBox({ boxes: [box] });
    const plan = await planned(inputOf({ days: 2, pinned }, boxed));
    const dish = plan.cookings.find((cooking) => cooking.method.boxId !== null);
    expect(dish?.method.finish).toBe('box');
    const inBox = dish?.doneAt ?? '';
    const safeUntil = plan.meals.find((one) => one.id === meal)?.dishes[0]?.safeUntil;
    const next = await again(plan, inBox, [], { pinned: [] }, boxed);
    expect(next.continues?.underWay).toEqual([
      expect.objectContaining({ cookingId: dish?.id, boxId: 'box', meals: [meal], safeUntil }),
    ]);
    expect(next.meals.map((one) => one.id)).not.toContain(meal);
    // The box can be read under the new plan as under the old one.
    const read = booking({ kind: 'box-read', at: later(inBox, 60), of: dish?.id, temperatureC: 80 });
    expect(bookingFaults(next, read, [], later(inBox, 60))).toEqual([]);
    expect(bookedTests(next, [read])).toEqual(bookedTests(plan, [read]));
    expect(bookedTests(next, [read])).toHaveLength(1);
    expect(next.cautions[0]).toBe(
      `Lentil soup was cooked before this plan began: eat it by ${safeUntil?.replace('T', ' ')}.`,
    );

    const gone = booking({ kind: 'box-opened', at: inBox, of: dish?.id, result: 'thrown-away' });
    const anew = await again(plan, inBox, [gone], { pinned: [] }, boxed);
    expect(anew.meals.map((one) => one.id)).toContain(meal);
    expect(anew.continues?.underWay).toEqual([]);
  });
});

describe('a dish that has hardly begun', () => {
  it('counts as under way: cold water stands on it, or its fire is due before a new plan could be read', async () => {
    const cold = first.cookings.find((cooking) => cooking.method.finish === 'no-heat' && cooking.startsAt > NOON);
    const hot = first.cookings.find((cooking) => cooking.method.lightingId !== null && cooking.startsAt > NOON);
    const fire = first.lightings.find((one) => one.id === hot?.method.lightingId);
    const before = new Date(Date.parse(`${fire?.at}Z`) - 5 * 60_000).toISOString().slice(0, 16);
    for (const [dish, at] of [
      [cold, cold?.startsAt ?? ''],
      [hot, before],
    ] as const) {
      const next = await again(first, at);
      expect(next.continues?.underWay.map((one) => one.cookingId)).toContain(dish?.id);
      expect(next.meals.every((meal) => meal.servingsShort === 0)).toBe(true);
      expect(next.outcome).toBe('complete');
    }
  });
});
