import { beforeEach, describe, expect, it } from 'vitest';
import type { ExplanationStep } from '../../api/cooking/calculators/calculator-types.ts';
import type { ExplainedLearned } from '../../api/cooking/derivations/explain-learned.ts';
import type { Learned, MeasurementEffect } from '../../api/cooking/measurements/learned.ts';
import type { Measurement } from '../../api/cooking/measurements/measurements.ts';
import type { DishOption } from '../../api/planning/questions/dish-options.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { recompute } from '../cooking/evaluate-steps.ts';
import { contentOf, DEMO_START, expectProblem, type TestApp, testApp } from './test-app.ts';

const { household, kits, stock } = demoDocuments(DEMO_START);
const beanLot = stock.find(
  (entry) => entry.kitId.includes('bean') || entry.partId.includes('bean'),
) as (typeof stock)[number];
const beanPart = kits.find((kit) => kit.id === beanLot.kitId)?.parts.find((part) => part.id === beanLot.partId);
const beanFood = beanPart?.ingredients[0]?.foodId as string;

const boil = {
  kind: 'boil-test',
  householdId: household.id,
  at: '2026-11-20T14:30',
  stoveId: 'camp-stove',
  vesselId: 'small-pot',
  litres: 2,
  startC: 12,
  airC: 10,
  wind: 'still',
  fuelKg: 0.035,
  minutes: 9,
};
const cooling = {
  kind: 'cooling-reading',
  householdId: household.id,
  at: '2026-11-20T20:00',
  vesselId: 'flask',
  fillL: 1.4,
  startC: 94,
  airC: 14,
  hours: 8,
  temperatureC: 74,
};
const lot = { kitId: beanLot.kitId, partId: beanLot.partId, packedOn: beanLot.packedOn, foodId: beanFood };
const soak = { hours: 12, waterC: 14 };
const note = {
  kind: 'cooking-note',
  householdId: household.id,
  at: '2026-11-21T12:00',
  ...lot,
  soak,
  boiledAfterMinutes: 15,
  softAfterMinutes: 130,
};
const beans = {
  kind: 'twenty-bean-test',
  householdId: household.id,
  at: '2026-11-21T12:00',
  ...lot,
  soak,
  minutes: 90,
  soft: 9,
};

let test: TestApp;
beforeEach(async () => {
  test = await testApp();
});

async function record(body: object): Promise<{ measurement: Measurement; effect: MeasurementEffect }> {
  const response = await test.send('POST', '/api/measurements', body);
  const answer = await response.json();
  expect({ status: response.status, answer }).toMatchObject({ status: 201 });
  return answer as never;
}
const learned = async () => (await (await test.get(`/api/households/${household.id}/learned`)).json()) as Learned;
const stoveOf = (figures: Learned, id: string) => figures.stoves.find((stove) => stove.stoveId === id);

describe('records of own tests', () => {
  it.each([
    ['boil test', boil],
    ['cooling reading', cooling],
    ['cooking note', note],
    ['twenty-bean test', beans],
  ])('keeps a %s as it was sent, and takes back what it gave', async (_name, body) => {
    const { measurement, effect } = await record(body);
    expect(measurement).toMatchObject(body);
    expect(effect).toMatchObject({ id: measurement.id, use: 'counts', question: null, reason: null });
    const read = await test.get(`/api/measurements/${measurement.id}`);
    const sentBack = await read.json();
    expect(sentBack).toEqual(measurement);
    const put = await test.send('PUT', `/api/measurements/${measurement.id}`, sentBack, {
      'if-match': read.headers.get('etag') as string,
    });
    expect(put.status).toBe(200);
    const list = (await (await test.get(`/api/measurements?householdId=${household.id}`)).json()) as {
      items: Measurement[];
      effects: MeasurementEffect[];
    };
    expect(list.items).toHaveLength(1);
    expect(list.effects).toEqual([effect]);
  });

  it('counts in the figures of the household, and narrows them', async () => {
    const before = stoveOf(await learned(), 'camp-stove');
    expect(before?.efficiency.now).toEqual(before?.efficiency.table);
    const { measurement } = await record(boil);
    const after = stoveOf(await learned(), 'camp-stove');
    expect(after?.efficiency.table).toEqual(before?.efficiency.table);
    expect(after?.efficiency.records).toEqual([measurement.id]);
    const width = (p: { p10: number; p90: number } | undefined) => (p === undefined ? Number.NaN : p.p90 / p.p10);
    expect(width(after?.efficiency.now)).toBeLessThan(0.9 * width(before?.efficiency.now));
    expect(after?.efficiency.text).toMatch(/than the table expects|as much fuel/);
  });

  it('explains each figure when asked, and only then', async () => {
    for (const id of ['one', 'two']) await record({ ...boil, id, fuelKg: id === 'one' ? 0.035 : 0.03 });
    await record({ ...cooling, id: 'kept-hot' });
    await record({ ...note, id: 'pot' });
    const path = `/api/households/${household.id}/learned`;
    const plain = (await (await test.get(path)).json()) as ExplainedLearned;
    const told = (await (await test.get(`${path}?explain=1`)).json()) as ExplainedLearned;
    const figures = ({ stoves, cooling: kept, lots }: ExplainedLearned) => [
      ...stoves.flatMap((one) => [one.efficiency, one.powerKW]),
      ...kept.map((one) => one.timeConstantHours),
      ...lots.map((one) => one.minutesFactor),
    ];
    expect(figures(told).map(({ explanation: _steps, ...figure }) => figure)).toEqual(figures(plain));
    const updated = figures(told).filter(({ evidence }) => evidence !== undefined);
    // Efficiency and power of the stove, and the flask.
    expect(updated.length).toBe(3);
    for (const { explanation, now, records, evidence } of figures(told)) {
      const last = recompute(explanation) as number;
      expect(Math.abs(last / now.p50 - 1)).toBeLessThan(1e-9);
      if (evidence !== undefined)
        for (const id of records) expect(evidence.readings.map((one) => one.id)).toContain(id);
    }
  });

  it('gives the former figures back, to the last digit, when a record is removed', async () => {
    await record({ ...boil, id: 'first' });
    const before = JSON.stringify(await learned());
    await record({ ...boil, id: 'second', fuelKg: 0.04 });
    await record({ ...cooling, id: 'third' });
    await record({ ...note, id: 'fourth' });
    expect(JSON.stringify(await learned())).not.toBe(before);
    for (const id of ['second', 'third', 'fourth']) {
      const removed = await test.app.request(`http://localhost:8787/api/measurements/${id}`, {
        method: 'DELETE',
        headers: { 'if-match': '*' },
      });
      expect(removed.status).toBe(204);
    }
    expect(JSON.stringify(await learned())).toBe(before);
  });

  it('questions a record far from what was expected, keeps it, and counts it once it is confirmed', async () => {
    const { measurement, effect } = await record({ ...boil, fuelKg: 0.2 });
    expect(effect.use).toBe('questioned');
    expect(effect.question).toMatch(/lid|wind|unit/);
    const fuel = effect.expected.find(({ quantity }) => quantity === 'fuel');
    expect(fuel?.found).toBe(0.2);
    expect(fuel?.high).toBeLessThan(0.2);
    const waiting = stoveOf(await learned(), 'camp-stove');
    expect(waiting?.efficiency.now).toEqual(waiting?.efficiency.table);
    expect(waiting?.efficiency.questioned).toEqual([measurement.id]);
    const put = await test.send(
      'PUT',
      `/api/measurements/${measurement.id}`,
      { ...measurement, confirmed: true },
      { 'if-match': '*' },
    );
    expect(((await put.json()) as { effect: MeasurementEffect }).effect.use).toBe('counts');
    const counted = stoveOf(await learned(), 'camp-stove');
    expect(counted?.efficiency.now.p50).toBeLessThan(0.8 * (counted?.efficiency.table.p50 as number));
  });

  it('goes with its household', async () => {
    await record({ ...boil, id: 'mine' });
    const other = { ...household, id: 'other-house' };
    await test.send('POST', '/api/households', other);
    await record({ ...boil, householdId: other.id, id: 'theirs' });
    await test.app.request(`http://localhost:8787/api/households/${household.id}`, {
      method: 'DELETE',
      headers: { 'if-match': '*' },
    });
    const list = (await (await test.get('/api/measurements')).json()) as { items: Measurement[] };
    expect(list.items.map(({ id }) => id)).toEqual(['theirs']);
  });

  it('stays when its stove is taken out of the household, and counts again when that is back', async () => {
    const { measurement } = await record(boil);
    const put = (body: object) => test.send('PUT', `/api/households/${household.id}`, body, { 'if-match': '*' });
    await put({ ...household, stoves: household.stoves?.filter((stove) => stove.id !== 'camp-stove') });
    const list = (await (await test.get('/api/measurements')).json()) as { effects: MeasurementEffect[] };
    expect(list.effects).toMatchObject([
      { id: measurement.id, use: 'not-used', reason: expect.stringMatching(/stove/) },
    ]);
    await put(household);
    expect(stoveOf(await learned(), 'camp-stove')?.efficiency.records).toEqual([measurement.id]);
  });
});

describe('bad records are refused with the reason, and nothing is kept', () => {
  it.each([
    ['no fuel burnt', { ...boil, fuelKg: 0 }, { pointer: '#/fuelKg', value: 0, minimum: 0.001, unit: 'kg' }],
    ['a boil in 0 min', { ...boil, minutes: 0 }, { pointer: '#/minutes', value: 0, minimum: 0.5, unit: 'min' }],
    [
      'an efficiency above 1',
      { ...boil, fuelKg: 0.01 },
      { pointer: '#/fuelKg', value: 0.01, unit: 'kg', detail: expect.stringMatching(/efficiency above 1/) },
    ],
    [
      'an efficiency above 1 by gross weights',
      { ...boil, fuelKg: undefined, grossBeforeKg: 0.7, grossAfterKg: 0.69 },
      // 0.7 kg less the 0.0148 kg that even a perfect stove burns, without the noise of the subtraction.
      { pointer: '#/grossAfterKg', value: 0.69, maximum: 0.6852, unit: 'kg' },
    ],
    [
      'a container that gained weight',
      { ...boil, fuelKg: undefined, grossBeforeKg: 0.7, grossAfterKg: 0.8 },
      { pointer: '#/grossAfterKg', value: 0.8, maximum: 0.7, unit: 'kg' },
    ],
    ['fuel said twice', { ...boil, grossBeforeKg: 0.7, grossAfterKg: 0.65 }, { pointer: '#/fuelKg' }],
    ['fuel not said', { ...boil, fuelKg: undefined }, { pointer: '#/fuelKg' }],
    ['gas in kWh', { ...boil, fuelKg: undefined, kWh: 0.4 }, { pointer: '#/kWh', value: 0.4 }],
    ['more water than the pot holds', { ...boil, litres: 5 }, { pointer: '#/litres', value: 5, maximum: 4, unit: 'L' }],
    ['hot water at the start', { ...boil, startC: 85 }, { pointer: '#/startC', value: 85, unit: 'C' }],
    ['no stove of this name', { ...boil, stoveId: 'none' }, { pointer: '#/stoveId', value: 'none' }],
    ['no vessel of this name', { ...boil, vesselId: 'none' }, { pointer: '#/vesselId', value: 'none' }],
    ['a flask on the fire', { ...boil, vesselId: 'flask', litres: 1 }, { pointer: '#/vesselId' }],
    ['a fuel that the stove does not burn', { ...boil, fuelId: 'wood' }, { pointer: '#/fuelId', value: 'wood' }],
    ['no household of this id', { ...boil, householdId: 'nobody' }, { pointer: '#/householdId', value: 'nobody' }],
    [
      'soft before it boiled',
      { ...note, softAfterMinutes: 10 },
      {
        pointer: '#/softAfterMinutes',
        value: 10,
        minimum: 15,
        unit: 'min',
        detail: expect.stringMatching(/Soft before it boiled/),
      },
    ],
    ['more soft than tried', { ...beans, soft: 21 }, { pointer: '#/soft', value: 21, maximum: 20 }],
    ['no minutes of a bean test', { ...beans, minutes: 0 }, { pointer: '#/minutes', value: 0, unit: 'min' }],
    // Ranges are those of the kind that was sent: a boil test starts at 0 to 90 C and takes at most 600 min.
    [
      'a box filled with lukewarm water',
      { ...cooling, startC: 20 },
      {
        pointer: '#/startC',
        value: 20,
        minimum: 40,
        maximum: 100,
        unit: 'C',
        detail: 'Must be a number from 40 to 100 C.',
      },
    ],
    [
      'a bean test of a day and more',
      { ...beans, minutes: 2000 },
      { pointer: '#/minutes', value: 2000, minimum: 1, maximum: 1440, unit: 'min' },
    ],
    ['a lot that was not packed', { ...beans, packedOn: '2001-01-01' }, { pointer: '#/packedOn', value: '2001-01-01' }],
    ['a test before packing', { ...beans, at: '1999-01-01T10:00' }, { pointer: '#/at' }],
    ['a food that is not in the part', { ...beans, foodId: 'chickpea' }, { pointer: '#/foodId', value: 'chickpea' }],
    [
      'a flask that grew hotter',
      { ...cooling, temperatureC: 96 },
      { pointer: '#/temperatureC', value: 96, minimum: 14, maximum: 94, unit: 'C' },
    ],
    ['a flask colder than the air', { ...cooling, temperatureC: 10 }, { pointer: '#/temperatureC', value: 10 }],
    [
      'a room hotter than food may cool to',
      { ...cooling, airC: 60 },
      { pointer: '#/airC', value: 60, minimum: -50, maximum: 59, unit: 'C' },
    ],
    ['more than the flask holds', { ...cooling, fillL: 2 }, { pointer: '#/fillL', maximum: 1.5, unit: 'L' }],
    ['a pot without its box', { ...cooling, vesselId: 'small-pot' }, { pointer: '#/boxId' }],
    [
      'a vessel that does not fit the box',
      { ...cooling, boxId: 'foam-box' },
      { pointer: '#/vesselId', value: 'flask' },
    ],
    ['an unknown kind', { ...boil, kind: 'guess' }, { pointer: '#/kind' }],
    ['an unknown field', { ...boil, colour: 'blue' }, { pointer: '#/colour' }],
  ])('%s', async (_name, body, field) => {
    await expectProblem(test, () => test.send('POST', '/api/measurements', body), { type: 'invalid-input', field });
  });

  it('a record that is corrected to nonsense stays as it was', async () => {
    const { measurement } = await record(boil);
    await expectProblem(
      test,
      () =>
        test.send('PUT', `/api/measurements/${measurement.id}`, { ...measurement, fuelKg: 0.001 }, { 'if-match': '*' }),
      { type: 'invalid-input', field: { pointer: '#/fuelKg', value: 0.001 } },
    );
  });

  it('figures of a household that is not there', async () => {
    await expectProblem(test, () => test.get('/api/households/nobody/learned'), { type: 'not-found' });
  });
});

describe('a boil test that burnt 40 % more than the table expects', () => {
  const kit = kits.find((one) => one.id === 'lentil-bulgur-soup') as (typeof kits)[number];
  const options = async (body: object = { householdId: household.id }) => {
    const response = await test.send('POST', '/api/dish-options', {
      ...body,
      kitId: kit.id,
      servings: 4,
      startsAt: '2026-12-05T17:00',
      eatAt: '2026-12-06T18:00',
    });
    return ((await response.json()) as { options: DishOption[] }).options;
  };
  const nameOf = ({ method }: DishOption) =>
    [
      method.stoveId,
      method.vesselId,
      method.finish,
      method.soakHours,
      method.firstWater,
      method.flame,
      method.standMinutes,
    ].join(' ');

  it('changes fuel, band and ranking of the ways to cook a dish; removing it restores them exactly', async () => {
    const before = await options();
    const content = JSON.stringify(before);
    const expected = (await record({ ...boil, id: 'probe' })).effect.expected.find(
      ({ quantity }) => quantity === 'fuel',
    );
    await test.send(
      'PUT',
      '/api/measurements/probe',
      { ...boil, id: 'probe', fuelKg: 1.4 * (expected?.middle as number) },
      { 'if-match': '*' },
    );
    const after = await options();
    expect(after.map(nameOf)).not.toEqual(before.map(nameOf));
    const onCampStove = before.filter((option) => option.verdict === 'ok' && option.method.stoveId === 'camp-stove');
    expect(onCampStove.length).toBeGreaterThan(2);
    for (const option of onCampStove) {
      const now = after.find((other) => nameOf(other) === nameOf(option));
      const [old, fresh] = [option.fuel[0]?.kg, now?.fuel[0]?.kg];
      expect((fresh?.p50 as number) / (old?.p50 as number), nameOf(option)).toBeGreaterThan(1.1);
    }
    // Where hours on the flame decide, the food lot spreads most, so that the band is held over all ways together.
    const width = (ways: DishOption[]) =>
      ways
        .filter((way) => way.verdict === 'ok' && way.method.stoveId === 'camp-stove')
        .reduce((sum, way) => sum + Math.log((way.fuel[0]?.kg.p90 as number) / (way.fuel[0]?.kg.p10 as number)), 0);
    expect(width(after)).toBeLessThan(width(before));
    // A household that is sent along has no records.
    expect((await options({ household })).map(nameOf)).toEqual(before.map(nameOf));
    await test.app.request('http://localhost:8787/api/measurements/probe', {
      method: 'DELETE',
      headers: { 'if-match': '*' },
    });
    expect(JSON.stringify(await options())).toBe(content);
  });
});

it('the store is only written by what was accepted', async () => {
  const before = await contentOf(test.store);
  await test.get(`/api/households/${household.id}/learned`);
  await test.get('/api/measurements');
  expect(await contentOf(test.store)).toBe(before);
});

describe('stoves and pots by their label', () => {
  const put = (stove: object, vessel: object) =>
    test.send(
      'PUT',
      `/api/households/${household.id}`,
      { ...household, stoves: [stove], vessels: [...(household.vessels ?? []), vessel] },
      { 'if-match': '*' },
    );
  const label = { id: 'label', typeId: 'other-spirit', fuelIds: ['denatured-alcohol'], powerKW: 1.6, fillMl: 120 };
  const pot = { id: 'wide', kind: 'pot', capacityL: 3, diameterMm: 240, massKg: 0.9, finned: true };

  it('are stored as they are and used', async () => {
    expect((await put(label, pot)).status).toBe(200);
    const stored = await (await test.get(`/api/households/${household.id}`)).json();
    expect(stored).toMatchObject({ stoves: [label], vessels: expect.arrayContaining([pot]) });
    const { effect } = await record({ ...boil, stoveId: 'label', vesselId: 'wide', fuelKg: 0.05 });
    const plain = await (await put(label, { id: 'wide', kind: 'pot', capacityL: 3 })).status;
    expect(plain).toBe(200);
    const list = (await (await test.get('/api/measurements')).json()) as { effects: MeasurementEffect[] };
    // Fins save fuel, so that without them more is expected.
    const fuel = (one?: MeasurementEffect) =>
      one?.expected.find(({ quantity }) => quantity === 'fuel')?.middle as number;
    expect(fuel(list.effects[0])).toBeGreaterThan(1.1 * fuel(effect));
  });

  it('without a power are refused', async () => {
    const { powerKW: _powerKW, ...bare } = label;
    await expectProblem(test, () => put(bare, pot), {
      type: 'invalid-input',
      field: { pointer: '#/stoves/0/powerKW', minimum: 0.1, maximum: 30, unit: 'kW' },
    });
  });
});

describe('derivations', () => {
  it('of every way to cook a dish can be worked out again with what was learned', async () => {
    await record({ ...boil, fuelKg: 0.042 });
    await record({ ...note, softAfterMinutes: 160 });
    await record({ ...cooling, vesselId: 'small-pot', boxId: 'foam-box', fillL: 3.5, hours: 4, temperatureC: 78 });
    const response = await test.send('POST', '/api/dish-options?explain=1', {
      householdId: household.id,
      kitId: lot.kitId,
      servings: 4,
      startsAt: '2026-12-05T17:00',
      eatAt: '2026-12-06T18:00',
    });
    const { options } = (await response.json()) as { options: (DishOption & { explanation?: ExplanationStep[] })[] };
    const worked = options.filter((option) => option.verdict === 'ok' && (option.explanation?.length ?? 0) > 0);
    expect(worked.length).toBeGreaterThan(3);
    for (const { explanation, fuel } of worked) {
      const value = recompute(explanation as ExplanationStep[]);
      expect(value as number).toBeCloseTo(fuel[0]?.kg.p50 as number, 9);
    }
  });
});
