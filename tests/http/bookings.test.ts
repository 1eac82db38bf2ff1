import { beforeEach, describe, expect, it } from 'vitest';
import type { Booking, MealBooking } from '../../api/planning/bookings/booking-types.ts';
import type { StateNow } from '../../api/planning/bookings/state-now.ts';
import type { Plan, StockLot } from '../../api/planning/plan-types.ts';
import { writeDocument } from '../../api/storage/collections.ts';
import { soundPlan } from '../planning/sound-plan.ts';
import { expectProblem, type TestApp, testApp } from './test-app.ts';

const PLAN: Plan = { ...soundPlan(), schedule: [] };
const BOOKINGS = `/api/plans/${PLAN.id}/bookings`;
/** Three in the afternoon of the second day; the bean stew has boiled for a quarter of an hour. */
const NOW = '2026-12-06T15:00';

/** Ids of writes. */
function counter(): () => string {
  let last = 0;
  return () => {
    last += 1;
    return `w-${last}`;
  };
}

let test: TestApp;
const writeIds = counter();
beforeEach(async () => {
  test = await testApp({ clock: { now: () => Date.parse(`${NOW}+01:00`) } });
  await writeDocument(test.store, 'plans', PLAN, null, writeIds());
  for (const kit of PLAN.resolved.kits) await writeDocument(test.store, 'kits', kit, null, writeIds());
  for (const [index, { useBy, storageC, moisturePercent, ...lot }] of PLAN.resolved.stock.entries()) {
    const line = { id: `lot-${index}`, ...lot, reason: 'packed' as const, at: `${lot.packedOn}T10:00` };
    await writeDocument(test.store, 'stock', line, null, writeIds());
  }
});

const book = (body: object) => test.send('POST', BOOKINGS, body);
async function booked(body: object): Promise<{ booking: Booking; state: StateNow }> {
  const response = await book(body);
  const answer = await response.json();
  expect({ status: response.status, answer }).toMatchObject({ status: 201 });
  return answer;
}
async function listed(at?: string): Promise<{ items: Booking[]; state: StateNow }> {
  return (await test.get(`${BOOKINGS}${at === undefined ? '' : `?at=${at}`}`)).json();
}
async function left(kitId: string): Promise<number> {
  const { totals } = (await (await test.get('/api/stock')).json()) as { totals: StockLot[] };
  return totals.filter((lot) => lot.kitId === kitId).reduce((sum, lot) => sum + lot.quantity, 0);
}

const eaten = { kind: 'meal-eaten', at: '2026-12-05T18:50', meal: '2026-12-05-evening' };
const weighed = { kind: 'fuel-weighed', at: '2026-12-06T07:00', fuelId: 'propane', containerId: 'open' };

describe('booking a meal', () => {
  it('takes its sets out of the store, with the reason and the time, and taking it back puts them in again', async () => {
    expect(await left('lentil-soup')).toBe(3);
    const { booking, state } = await booked(eaten);
    expect(await left('lentil-soup')).toBe(1);
    const { stock } = booking as MealBooking;
    expect(stock).toHaveLength(2);
    for (const line of stock ?? []) expect(line).toMatchObject({ reason: 'eaten', quantity: -1, at: eaten.at });
    expect(state.meals.find((meal) => meal.id === eaten.meal)).toMatchObject({ state: 'eaten', bookingId: booking.id });

    await booked({ kind: 'undo', at: '2026-12-05T19:00', bookingId: booking.id });
    expect(await left('lentil-soup')).toBe(3);
    const { items } = await listed();
    expect(items.map((item) => item.kind)).toEqual(['meal-eaten', 'undo']);
    await booked(eaten);
    expect(await left('lentil-soup')).toBe(1);
  });

  it('is in the ledger once: neither taken back behind the back of the booking, nor taken again from what was counted', async () => {
    const { booking } = await booked(eaten);
    const [line] = (booking as MealBooking).stock ?? [];
    await expectProblem(
      test,
      () => test.send('POST', '/api/stock/undo', { entryIds: [line?.id], at: '2026-12-05T19:00' }),
      { type: 'invalid-input', field: { pointer: '#/entryIds/0', value: line?.id } },
    );
    await booked({ kind: 'undo', at: '2026-12-05T19:00', bookingId: booking.id });
    const { items } = await (await test.get('/api/stock')).json();
    const back = items.find((one: { undoes?: string }) => one.undoes === line?.id);
    expect(back).toMatchObject({ reason: 'undo', quantity: 1 });
    expect(await left('lentil-soup')).toBe(3);

    // Eaten on Saturday, counted on Sunday, booked after that: what was counted lacks the bags already.
    const { totals } = (await (await test.get('/api/stock')).json()) as { totals: StockLot[] };
    const lots = totals.filter((lot) => lot.kitId === 'lentil-soup');
    const taken = (booking as MealBooking).stock ?? [];
    const counts = lots.map(({ kitId, partId, placeId, packedOn, quantity }) => ({
      kitId,
      partId,
      placeId,
      packedOn,
      counted:
        quantity +
        taken
          .filter((one) => one.packedOn === packedOn && one.partId === partId)
          .reduce((sum, one) => sum + one.quantity, 0),
    }));
    expect((await test.send('POST', '/api/stock/counts', { counts, at: '2026-12-06T10:00' })).status).toBe(201);
    expect(await left('lentil-soup')).toBe(1);
    await booked(eaten);
    expect(await left('lentil-soup')).toBe(1);
  });

  it('leaves a skipped meal in the store, and takes another kit where the meal was changed', async () => {
    await booked({ kind: 'meal-skipped', at: eaten.at, meal: eaten.meal });
    expect(await left('lentil-soup')).toBe(3);
    await booked({
      kind: 'meal-changed',
      at: '2026-12-06T08:00',
      meal: '2026-12-06-breakfast',
      kitId: 'lentil-soup',
      plannedDish: 'thrown-away',
    });
    expect(await left('lentil-soup')).toBe(1);
    expect(await left('couscous')).toBe(0);
  });

  it('is refused a second time, naming the first entry', async () => {
    await booked(eaten);
    const problem = await expectProblem(test, () => book({ ...eaten, at: '2026-12-05T19:10' }), {
      type: 'invalid-input',
      field: { pointer: '#/meal', value: eaten.meal, maximum: 1, unit: 'bookings' },
    });
    expect(problem.errors).toEqual([
      expect.objectContaining({
        question: expect.stringContaining('2026-12-05T18:50'),
        likely: '2026-12-06-breakfast',
      }),
    ]);
  });

  it('is refused long before the meal, and for a meal that the plan has not', async () => {
    await expectProblem(test, () => book({ ...eaten, at: '2026-12-06T08:00', meal: '2026-12-06-evening' }), {
      type: 'invalid-input',
      field: { pointer: '#/meal', value: '2026-12-06-evening' },
    });
    await expectProblem(test, () => book({ ...eaten, meal: '2026-12-05-midday' }), {
      type: 'invalid-input',
      field: { pointer: '#/meal', value: '2026-12-05-midday' },
    });
  });
});

describe('booking fuel and water', () => {
  it('puts the weighing in the place of the level that was worked out, and shows the difference', async () => {
    // By hand: 0.3 kg, of which the first evening takes 0.0415 kg typically and 0.055 + 0.002 kg at its high end.
    const before = await listed('2026-12-06T07:00');
    const fuel = before.state.fuel.find((row) => row.fuelId === 'propane');
    expect(fuel?.left.p50).toBeCloseTo(0.2585, 9);
    expect(fuel?.counted).toBeCloseTo(0.243, 9);

    const { state } = await booked({ ...weighed, leftKg: 0.21 });
    const now = state.fuel.find((row) => row.fuelId === 'propane');
    expect(now).toMatchObject({ left: { p50: 0.21 }, counted: 0.21 });
    expect(state.differences).toHaveLength(1);
    expect(state.differences[0]?.computed.p50).toBeCloseTo(0.2585, 9);
    expect(state.differences[0]?.difference).toBeCloseTo(-0.0485, 9);
    // The fire of the afternoon is taken off what was weighed, not off what was worked out.
    const later = (await listed(NOW)).state.fuel.find((row) => row.fuelId === 'propane');
    expect(later?.counted).toBeCloseTo(0.21 - 0.11 - 0.04 - 0.002, 9);
  });

  it('takes gross weight, dipstick, and the latest of two weighings', async () => {
    await booked({ ...weighed, grossKg: 0.65, tareKg: 0.42 });
    const { state } = await booked({ ...weighed, at: '2026-12-06T07:05', leftKg: 0.22 });
    expect(state.fuel[0]?.left.p50).toBeCloseTo(0.22, 9);
    expect(state.differences.map((row) => row.found)).toEqual([expect.closeTo(0.23, 9), 0.22]);
  });

  it.each([
    [
      'a weight below the tare',
      { grossKg: 0.3, tareKg: 0.42 },
      { pointer: '#/grossKg', value: 0.3, minimum: 0.42, unit: 'kg' },
    ],
    [
      'more than before without an entry',
      { leftKg: 0.6 },
      { pointer: '#/leftKg', value: 0.6, maximum: 0.27, unit: 'kg' },
    ],
    ['two ways of telling', { leftKg: 0.2, armfuls: 2 }, { pointer: '#/armfuls', value: 2, unit: 'ways' }],
    ['a tare that nobody knows', { grossKg: 0.6 }, { pointer: '#/tareKg' }],
    ['another container', { containerId: 'tank', leftKg: 0.1 }, { pointer: '#/containerId', value: 'tank' }],
  ])('asks back at %s', async (_name, own, field) => {
    const problem = await expectProblem(test, () => book({ ...weighed, ...own }), { type: 'invalid-input', field });
    expect(problem.detail).toMatch(/\S/);
  });

  it('takes more than before once it has come, or when it is confirmed', async () => {
    await booked({ kind: 'came', at: '2026-12-06T06:50', fuel: { fuelId: 'propane', containerId: 'open', kg: 0.4 } });
    const { state } = await booked({ ...weighed, leftKg: 0.6 });
    expect(state.fuel[0]?.left.p50).toBeCloseTo(0.6, 9);
    await booked({ ...weighed, at: '2026-12-06T07:30', leftKg: 0.9, confirmed: true });
  });

  it('measures water', async () => {
    const { state } = await booked({ kind: 'water-left', at: '2026-12-06T07:00', lotId: 'cans', litres: 11 });
    expect(state.water.lots.find((lot) => lot.lotId === 'cans')).toMatchObject({
      litres: 11,
      measuredAt: '2026-12-06T07:00',
    });
    expect(state.differences[0]).toMatchObject({ what: 'water', id: 'cans', found: 11, unit: 'L' });
    await expectProblem(test, () => book({ kind: 'water-left', at: '2026-12-06T08:00', lotId: 'cans', litres: 19 }), {
      type: 'invalid-input',
      field: { pointer: '#/litres', value: 19, unit: 'L' },
    });
  });
});

describe('answers to questions', () => {
  type Answers = { errors: { answers: { words: string; change: object; first: object | null }[] }[] };
  /** What is asked back, and the entry as the answer of this place in the list makes it. */
  async function answered(entry: object, pointer: string, nth: number): Promise<StateNow> {
    const problem = await expectProblem(test, () => book(entry), { type: 'invalid-input', field: { pointer } });
    const answer = (problem as unknown as Answers).errors[0]?.answers[nth];
    expect(answer?.words).toMatch(/\S/);
    if (answer?.first != null) await booked(answer.first);
    const changed = Object.entries({ ...entry, ...answer?.change }).filter(([, value]) => value !== null);
    return (await booked(Object.fromEntries(changed))).state;
  }

  it('make a weight below the tare what is left without the container', async () => {
    const state = await answered({ ...weighed, grossKg: 0.21, tareKg: 0.42 }, '#/grossKg', 0);
    expect(state.fuel[0]?.left.p50).toBeCloseTo(0.21, 9);
  });

  it('book what came before a reading that is higher than the last', async () => {
    const state = await answered({ ...weighed, leftKg: 0.6 }, '#/leftKg', 0);
    expect(state.fuel[0]?.left.p50).toBeCloseTo(0.6, 9);
    expect((await listed()).items.map(({ kind }) => kind)).toEqual(['came', 'fuel-weighed']);
    const lot = { kind: 'water-left', at: weighed.at, lotId: 'cans', litres: 11 };
    await booked(lot);
    const water = (await answered({ ...lot, at: '2026-12-06T07:05', litres: 15 }, '#/litres', 0)).water;
    expect(water.lots.find(({ lotId }) => lotId === 'cans')?.litres).toBe(15);
  });

  it('confirm it where it is right', async () => {
    const state = await answered({ ...weighed, leftKg: 0.6 }, '#/leftKg', 1);
    expect(state.fuel[0]?.left.p50).toBeCloseTo(0.6, 9);
  });

  it('put a time in the future to yesterday, and a meal eaten twice to the one that is meant', async () => {
    await answered({ ...weighed, at: '2026-12-06T20:00', leftKg: 0.29, confirmed: true }, '#/at', 0);
    await booked(eaten);
    const state = await answered({ ...eaten, at: '2026-12-06T08:10' }, '#/meal', 0);
    expect(state.meals.map((meal) => meal.state).slice(0, 2)).toEqual(['eaten', 'eaten']);
    const again = await answered({ ...eaten, kind: 'meal-skipped', at: '2026-12-06T08:20' }, '#/meal', 0);
    expect(again.meals[0]?.state).toBe('skipped');
  });

  it('let a soak end when it can have ended', async () => {
    const { booking } = await booked({ kind: 'soak-set', at: weighed.at, kitId: 'bean-stew', vesselId: 'bowl' });
    const end = { kind: 'soak-drained', at: '2026-12-06T06:00', of: booking.id, result: 'cooked' };
    expect((await answered(end, '#/at', 0)).soaks).toEqual([]);
  });
});

describe('booking what a box and a dish have shown', () => {
  const lentils = '2026-12-05-evening-lentil-soup';
  const beans = '2026-12-06-evening-bean-stew';
  const tried = { kind: 'food-tried', at: '2026-12-05T18:20', of: lentils, minutes: 40, soft: false };
  type Words = { words: string[]; questions: { bookingId: string; text: string }[] };
  const words = async (at: string): Promise<Words> => (await test.get(`${BOOKINGS}?at=${at}`)).json();

  beforeEach(async () => {
    await writeDocument(test.store, 'households', PLAN.resolved.household, null, writeIds());
  });

  it('says how much longer a dish boils that is not soft, and what its lot takes', async () => {
    await booked(tried);
    const { words: lines } = await words('2026-12-05T18:22');
    expect(lines[0]).toMatch(
      /^Lentil soup was not soft after 40.min: boil it on, typically \d+.min more, at most about \d+.min\.$/,
    );
    expect(lines.join('\n')).toMatch(/packed 2022-03-01: takes about \d+ % longer to soften than the table expects/);
    const learned = await (await test.get(`/api/households/${PLAN.request.householdId}/learned`)).json();
    expect(learned.lots).toEqual([expect.objectContaining({ kitId: 'lentil-soup', partId: 'lentils' })]);
  });

  it('says that a box below 60 °C is no longer safe to eat from without a boil', async () => {
    // Half past five; the clock of the test stands at three, so that the plan is read as of another day.
    test = await testApp({ clock: { now: () => Date.parse('2026-12-06T18:10+01:00') } });
    await writeDocument(test.store, 'plans', PLAN, null, writeIds());
    const { state } = await booked({ kind: 'box-read', at: '2026-12-06T18:00', of: beans, temperatureC: 52 });
    expect(state.boxReadings).toEqual([expect.objectContaining({ cookingId: beans, temperatureC: 52 })]);
    expect((await words('2026-12-06T18:00')).words[0]).toBe(
      'Bean stew had 52\u00a0°C at 18:00, below 60\u00a0°C: bring it to a full boil again before it is eaten.',
    );
  });

  it('questions what is far off, and counts it once it is booked as confirmed', async () => {
    const far = { ...tried, minutes: 400, confirmed: true };
    await booked(far);
    expect((await words('2026-12-05T18:22')).questions).toEqual([]);
    const { booking } = await booked({ ...weighed, leftKg: 0.02 });
    const { questions } = await words('2026-12-06T07:00');
    expect(questions).toEqual([{ bookingId: booking.id, text: expect.stringMatching(/Is there a leak/) }]);
    await booked({ ...weighed, leftKg: 0.02, confirmed: true });
    expect((await words('2026-12-06T07:00')).questions).toEqual([]);
  });

  it.each([
    ['a dish that the plan has not', { ...tried, of: 'porridge' }, { pointer: '#/of', value: 'porridge' }],
    ['a food that is not in it', { ...tried, foodId: 'chickpea' }, { pointer: '#/foodId', value: 'chickpea' }],
    [
      'a dish that needs no boil',
      { ...tried, of: '2026-12-06-breakfast-couscous', at: '2026-12-06T07:00' },
      { pointer: '#/of' },
    ],
    ['before it went on', { ...tried, at: '2026-12-05T17:10' }, { pointer: '#/at', value: '2026-12-05T17:10' }],
    [
      'longer than it can have boiled',
      { ...tried, minutes: 200 },
      { pointer: '#/minutes', value: 200, maximum: 60, unit: 'min' },
    ],
    [
      'a box that holds nothing',
      { kind: 'box-read', at: '2026-12-05T18:20', of: lentils, temperatureC: 70 },
      { pointer: '#/of' },
    ],
    [
      'before the box was shut',
      { kind: 'box-read', at: '2026-12-06T14:50', of: beans, temperatureC: 70 },
      { pointer: '#/at' },
    ],
    [
      'hotter than a boil',
      { kind: 'box-read', at: '2026-12-06T14:59', of: beans, temperatureC: 100 },
      { pointer: '#/temperatureC', maximum: 98.3, unit: 'C' },
    ],
  ])('asks back at %s', async (_name, entry, field) => {
    await expectProblem(test, () => book(entry), { type: 'invalid-input', field });
    expect((await listed()).items).toEqual([]);
  });
});

describe('the clock of a booking', () => {
  it('refuses the future, asking whether it was yesterday', async () => {
    const problem = await expectProblem(test, () => book({ ...weighed, at: '2026-12-06T20:00', leftKg: 0.1 }), {
      type: 'invalid-input',
      field: { pointer: '#/at', value: '2026-12-06T20:00' },
    });
    expect(problem.errors).toEqual([expect.objectContaining({ latest: NOW, likely: '2026-12-05T20:00' })]);
  });

  it('refuses a soak that ended before it began', async () => {
    const { booking } = await booked({
      kind: 'soak-set',
      at: '2026-12-06T07:00',
      kitId: 'bean-stew',
      vesselId: 'bowl',
    });
    const problem = await expectProblem(
      test,
      () => book({ kind: 'soak-drained', at: '2026-12-06T06:00', of: booking.id, result: 'cooked' }),
      { type: 'invalid-input', field: { pointer: '#/at', value: '2026-12-06T06:00' } },
    );
    expect(problem.errors).toEqual([expect.objectContaining({ earliest: '2026-12-06T07:00' })]);
  });
});

describe('how things stand', () => {
  it('has the soak of the plan in water though nobody booked it, and the dish in its pot after that', async () => {
    const morning = (await listed('2026-12-06T10:45')).state;
    expect(morning.soaks).toEqual([
      expect.objectContaining({
        kitId: 'bean-stew',
        vesselId: 'bowl',
        since: '2026-12-06T06:45',
        hours: 4,
        assumed: true,
      }),
    ]);
    const afternoon = (await listed(NOW)).state;
    expect(afternoon.soaks).toEqual([]);
    expect(afternoon.underWay).toEqual([
      expect.objectContaining({ kitId: 'bean-stew', boxId: 'box', safeUntil: '2026-12-06T19:00' }),
    ]);
    expect(afternoon.meals.map((meal) => meal.state)).toEqual(['assumed', 'assumed', 'under-way']);
  });

  it('takes a soak that was thrown away out of the store, and puts it back when that is taken back', async () => {
    const { booking } = await booked({
      kind: 'soak-set',
      at: '2026-12-06T07:00',
      kitId: 'bean-stew',
      vesselId: 'bowl',
    });
    expect(await left('bean-stew')).toBe(2);
    const end = await booked({ kind: 'soak-drained', at: '2026-12-06T09:00', of: booking.id, result: 'thrown-away' });
    expect(await left('bean-stew')).toBe(0);
    await booked({ kind: 'undo', at: '2026-12-06T09:10', bookingId: end.booking.id });
    expect(await left('bean-stew')).toBe(2);
  });

  it('has nothing in water where a soak of the plan was never set, and its food dry in the store', async () => {
    const end = { kind: 'soak-drained', at: '2026-12-06T08:00', of: '2026-12-06-evening-bean-stew', result: 'not-set' };
    const { state } = await booked(end);
    expect(state.soaks).toEqual([]);
    expect(await left('bean-stew')).toBe(2);
  });

  it('takes an entry once, however often a device sends it', async () => {
    const entry = { ...eaten, id: '0b6f8a52-1111-4222-8333-444455556666' };
    await booked(entry);
    await expectProblem(test, () => book(entry), { type: 'already-there' });
    expect((await listed()).items).toHaveLength(1);
  });

  it('shows every reading with what is expected and its mark', async () => {
    const { state } = await listed('2026-12-06T07:00');
    const [propane, water] = state.readings;
    expect(propane).toMatchObject({ what: 'fuel', id: 'propane', unit: 'kg' });
    expect(propane?.left.p50).toBeCloseTo(0.2585, 9);
    expect(propane?.replanBelow).toBe(PLAN.fuel[0]?.byDay[0]?.replanBelow);
    expect(water).toMatchObject({ what: 'water', unit: 'L' });
    expect(water?.left.p50).toBeCloseTo(state.water.leftL, 9);
  });

  it('keeps both entries of two devices that book at once', async () => {
    const answers = await Promise.all([
      book({ ...weighed, leftKg: 0.22 }),
      book(eaten),
      book({ kind: 'broke', at: '2026-12-06T09:00', thingId: 'box' }),
      book({ ...weighed, at: '2026-12-06T07:02', leftKg: 0.21 }),
    ]);
    expect(answers.map((answer) => answer.status)).toEqual([201, 201, 201, 201]);
    const { items, state } = await listed();
    expect(items).toHaveLength(4);
    expect(state.outOfUse).toEqual([{ id: 'box', since: '2026-12-06T09:00' }]);
    expect(state.fuel[0]?.containers[0]?.weighedAt).toBe('2026-12-06T07:02');
  });

  it('refuses fields that it does not know, and the time of booking, which is the server’s', async () => {
    await expectProblem(test, () => book({ ...eaten, bookedAt: '2026-12-05T18:00Z' }), { type: 'invalid-input' });
    await expectProblem(test, () => book({ ...eaten, planId: 'other' }), { type: 'invalid-input' });
    await expectProblem(test, () => test.send('POST', '/api/plans/none/bookings', eaten), { type: 'not-found' });
  });
});

describe('the report', () => {
  it('says what was eaten, burnt and thrown away, and what to pack again', async () => {
    await booked(eaten);
    await booked({
      kind: 'meal-changed',
      at: '2026-12-06T08:00',
      meal: '2026-12-06-breakfast',
      kitId: 'lentil-soup',
      plannedDish: 'thrown-away',
      note: '=too wet, "cold"',
    });
    await booked({ ...weighed, leftKg: 0.22 });
    const path = `/api/plans/${PLAN.id}/report?at=2026-12-06T09:00`;
    const report = await (await test.get(path)).json();
    expect(report).toMatchObject({
      planIds: [PLAN.id],
      from: PLAN.request.startsAt,
      servings: { eaten: 4, skipped: 0 },
      thrownAway: [{ what: 'Couscous with raisins', at: '2026-12-06T08:00', quantity: 1 }],
      meals: [
        { meal: '2026-12-05-evening', state: 'eaten', planned: ['Lentil soup'] },
        { meal: '2026-12-06-breakfast', state: 'changed', instead: ['Lentil soup'] },
      ],
    });
    // Weighed: 0.3 less 0.22 kg; predicted for the first evening: 0.0415 kg.
    expect(report.fuel[0].used).toBeCloseTo(0.08, 9);
    expect(report.fuel[0].predicted.p50).toBeCloseTo(0.0415, 9);
    const answer = await test.get(`${path}&format=csv`);
    expect(answer.headers.get('content-type')).toContain('text/csv');
    const csv = await answer.text();
    expect(csv).toContain('fuel used,propane,2026-12-06T09:00,0.08,kg,by weighing\r\n');
    expect(csv).toContain('"Lentil soup; =too wet, ""cold"""');
    expect(csv.split('\r\n')[0]).toBe('what,name,at,amount,unit,note');
  });
});

describe('a plan with bookings', () => {
  it('is not deleted, so that nothing booked is lost; without, it is', async () => {
    await booked(eaten);
    const problem = await expectProblem(
      test,
      () => test.send('DELETE', `/api/plans/${PLAN.id}`, undefined, { 'if-match': '*' }),
      { type: 'in-use' },
    );
    expect(problem).toMatchObject({ booked: 1, usedBy: [] });
    await writeDocument(test.store, 'plans', { ...PLAN, id: 'tried' }, null, writeIds());
    const gone = await test.send('DELETE', '/api/plans/tried', undefined, { 'if-match': '*' });
    expect(gone.status).toBe(204);
  });
});
