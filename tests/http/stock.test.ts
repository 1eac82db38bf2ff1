import { describe, expect, it } from 'vitest';
import type { StockEntry } from '../../api/planning/plan-types.ts';
import { lotKey } from '../../api/planning/stock-lots.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { DEMO_START, expectProblem, type TestApp, testApp } from './test-app.ts';

const { household } = demoDocuments(DEMO_START);
const HUT = { ...household.places[0], id: 'hut', name: 'Hut' };
const AT = '2026-12-05T10:00';

/** The demo with a second place and a kit of three parts in it. */
async function storedApp(): Promise<TestApp> {
  const test = await testApp();
  const places = [...household.places, HUT];
  await test.send('PUT', `/api/households/${household.id}`, { ...household, places }, { 'if-match': '*' });
  const part = (id: string, foodId: string, containersPerSet = 1) => ({
    id,
    name: id,
    containersPerSet,
    ingredients: [{ foodId, massG: 100 }],
  });
  await test.send('POST', '/api/kits', {
    id: 'three-parts',
    name: 'Three parts',
    servings: 4,
    style: 'stew',
    suits: ['evening'],
    parts: [part('dry', 'lentil-brown', 2), part('spice', 'salt'), part('dried', 'fd-peas')],
  });
  return test;
}

const entry = (partId: string, quantity: number, more: Partial<StockEntry> = {}) => ({
  kitId: 'three-parts',
  partId,
  placeId: 'home',
  packedOn: '2024-03-01',
  quantity,
  reason: 'packed',
  at: '2024-03-01T10:00',
  ...more,
});

async function stockOf(test: TestApp) {
  const { items, totals, sets } = await (await test.get('/api/stock')).json();
  const own = (rows: { kitId: string }[]) => rows.filter((row) => row.kitId === 'three-parts') as never[];
  return {
    items: items as StockEntry[],
    totals: own(totals) as StockEntry[],
    sets: own(sets) as Record<string, never>[],
  };
}

describe('entries together', () => {
  it('appends all or none', async () => {
    const test = await storedApp();
    const answer = await test.send('POST', '/api/stock/entries', {
      entries: [entry('dry', 5), entry('spice', 1), entry('dried', 3), entry('dry', -1, { reason: 'lost' })],
    });
    expect(answer.status).toBe(201);
    const { sets } = await stockOf(test);
    expect(sets).toMatchObject([{ placeId: 'home', sets: 1, limitingPartIds: ['spice'] }]);
    await expectProblem(
      test,
      () =>
        test.send('POST', '/api/stock/entries', {
          entries: [entry('dry', 2), entry('dry', -7, { reason: 'lost' }), entry('nothing', 1)],
        }),
      {
        type: 'invalid-input',
        field: { pointer: '#/entries/1/quantity', value: -7, minimum: -6, maximum: 10_000, unit: '1' },
      },
    );
    await expectProblem(
      test,
      () => test.send('POST', '/api/stock/entries', { entries: [entry('dry', 1, { packedOn: '2027-01-01' })] }),
      {
        type: 'invalid-input',
        field: { pointer: '#/entries/0/packedOn', value: '2027-01-01' },
      },
    );
  });
});

describe('moving', () => {
  it('takes from one place and puts at the other, with date, use-by and moisture, and is undone in one go', async () => {
    const test = await storedApp();
    await test.send('POST', '/api/stock/entries', {
      entries: [
        entry('dry', 4, { useBy: '2031-01-01', moisturePercent: 9 }),
        entry('dry', 1, { placeId: 'hut', useBy: '2030-01-01' }),
      ],
    });
    const move = { kitId: 'three-parts', partId: 'dry', packedOn: '2024-03-01', fromPlaceId: 'home', toPlaceId: 'hut' };
    const moved = await test.send('POST', '/api/stock/moves', { moves: [{ ...move, quantity: 3 }], at: AT });
    const { items } = await moved.json();
    expect(items.map((one: StockEntry) => [one.placeId, one.quantity, one.reason])).toEqual([
      ['home', -3, 'moved'],
      ['hut', 3, 'moved'],
    ]);
    expect((await stockOf(test)).totals).toMatchObject([
      { placeId: 'home', quantity: 1, useBy: '2031-01-01' },
      // The house is at 13 C; that it lay there does not go away with the move.
      { placeId: 'hut', quantity: 4, useBy: '2030-01-01', moisturePercent: 9, storageC: 13 },
    ]);
    await expectProblem(
      test,
      () => test.send('POST', '/api/stock/moves', { moves: [{ ...move, quantity: 2 }], at: AT }),
      { type: 'invalid-input', field: { pointer: '#/moves/0/quantity', minimum: -1 } },
    );
    const undone = await test.send('POST', '/api/stock/undo', {
      entryIds: items.map((one: StockEntry) => one.id),
      at: AT,
    });
    expect(undone.status).toBe(201);
    expect((await stockOf(test)).totals.map((one) => one.quantity)).toEqual([4, 1]);
  });
});

describe('counting', () => {
  it('sets the level by the difference, and keeps a line that says nothing changed', async () => {
    const test = await storedApp();
    await test.send('POST', '/api/stock/entries', { entries: [entry('dry', 4), entry('spice', 2)] });
    const count = (partId: string, counted: number) => ({
      kitId: 'three-parts',
      partId,
      placeId: 'home',
      packedOn: '2024-03-01',
      counted,
    });
    const { items } = await (
      await test.send('POST', '/api/stock/counts', {
        counts: [count('dry', 1), count('spice', 2), count('dried', 3)],
        at: AT,
      })
    ).json();
    expect(items.map((one: StockEntry) => [one.partId, one.quantity, one.reason])).toEqual([
      ['dry', -3, 'counted'],
      ['spice', 0, 'counted'],
      ['dried', 3, 'counted'],
    ]);
    expect((await stockOf(test)).totals.map((one) => one.quantity)).toEqual([3, 1, 2]);
    await expectProblem(
      test,
      () => test.send('POST', '/api/stock/counts', { counts: [count('dry', 1), count('dry', 2)], at: AT }),
      { type: 'invalid-input', field: { pointer: '#/counts/1' } },
    );
    await expectProblem(test, () => test.send('POST', '/api/stock/counts', { counts: [count('dry', -1)], at: AT }), {
      type: 'invalid-input',
      field: { pointer: '#/counts/0/counted', value: -1, minimum: 0, maximum: 10_000, unit: '1' },
    });
  });
});

describe('taking back', () => {
  it('is an entry, is done once, and can be taken back itself', async () => {
    const test = await storedApp();
    const undo = (entryIds: string[]) => test.send('POST', '/api/stock/undo', { entryIds, at: AT });
    const [packed] = (await (await test.send('POST', '/api/stock/entries', { entries: [entry('dry', 4)] })).json())
      .items;
    const [back] = (await (await undo([packed.id])).json()).items;
    expect(back).toMatchObject({ reason: 'undo', quantity: -4, undoes: packed.id });
    await expectProblem(test, () => undo([packed.id]), {
      type: 'invalid-input',
      field: { pointer: '#/entryIds/0', value: packed.id, detail: 'This entry has been taken back already.' },
    });
    expect((await undo([back.id])).status).toBe(201);
    expect((await undo([packed.id])).status).toBe(201);
    expect((await stockOf(test)).totals.map((one) => one.quantity)).toEqual([0]);
    // What has been taken out since cannot be put back under it.
    const [again] = (await (await test.send('POST', '/api/stock/entries', { entries: [entry('dry', 4)] })).json())
      .items;
    await test.send('POST', '/api/stock/entries', { entries: [entry('dry', -1, { reason: 'eaten' })] });
    const stuck = await expectProblem(test, () => undo([again.id]), {
      type: 'invalid-input',
      field: { pointer: '#/entryIds/0' },
    });
    expect(stuck.detail).toMatch(/There are only 3 of this lot.*take that back first/);
    await expectProblem(test, () => undo(['never-there']), {
      type: 'invalid-input',
      field: { pointer: '#/entryIds/0' },
    });
  });
});

describe('an inspection', () => {
  it('throws away what may hurt, and puts first what has only lost its vacuum', async () => {
    const test = await storedApp();
    await test.send('POST', '/api/stock/entries', {
      entries: [entry('dry', 4), entry('spice', 2), entry('spice', 2, { packedOn: '2020-01-01' })],
    });
    const lot = { kitId: 'three-parts', placeId: 'home', packedOn: '2024-03-01' };
    const answer = await test.send('POST', '/api/stock/inspections', {
      at: AT,
      findings: [
        { ...lot, partId: 'dry', sign: 'bulging', quantity: 1 },
        { ...lot, partId: 'spice', sign: 'no-vacuum', quantity: 1 },
      ],
    });
    expect((await answer.json()).items).toMatchObject([
      { reason: 'thrown-away', quantity: -1, note: 'Inspection: bulging' },
      { reason: 'counted', quantity: 0, useFirst: true },
    ]);
    const { totals } = await stockOf(test);
    const spice = totals.filter((one) => one.partId === 'spice');
    expect(spice.map((one) => [one.packedOn, one.useFirst])).toEqual([
      ['2020-01-01', undefined],
      ['2024-03-01', true],
    ]);
    expect(new Set(totals.map(lotKey)).size).toBe(3);
    await expectProblem(
      test,
      () =>
        test.send('POST', '/api/stock/inspections', {
          at: AT,
          findings: [{ ...lot, partId: 'dried', sign: 'rancid', quantity: 1 }],
        }),
      { type: 'invalid-input', field: { pointer: '#/findings/0/packedOn' } },
    );
  });
});

describe('a place that a household gives up', () => {
  it('keeps its stock in the ledger, from where it can be moved, but takes in nothing more', async () => {
    const test = await storedApp();
    await test.send('POST', '/api/stock/entries', { entries: [entry('dry', 4, { placeId: 'hut' })] });
    await test.send('PUT', `/api/households/${household.id}`, household, { 'if-match': '*' });
    const move = { kitId: 'three-parts', partId: 'dry', packedOn: '2024-03-01', fromPlaceId: 'hut', toPlaceId: 'home' };
    const moved = await test.send('POST', '/api/stock/moves', { moves: [{ ...move, quantity: 4 }], at: AT });
    expect(moved.status).toBe(201);
    expect((await stockOf(test)).totals.map((one) => [one.placeId, one.quantity])).toEqual([
      ['home', 4],
      ['hut', 0],
    ]);
    await expectProblem(
      test,
      () => test.send('POST', '/api/stock/entries', { entries: [entry('dry', 1, { placeId: 'hut' })] }),
      { type: 'invalid-input', field: { pointer: '#/entries/0/placeId', value: 'hut' } },
    );
  });
});

it('prints the list to look the stores through by, a sheet for each place', async () => {
  const test = await storedApp();
  const answer = await test.get(`/api/stock/inspection-sheet?householdId=${household.id}`);
  const html = await answer.text();
  expect(html.match(/<section class="card inspection">/g)).toHaveLength(3);
  expect(html).toContain('Inspection: Earth cellar');
  expect(html).toContain('Brown or green lentils');
  expect(html.indexOf('2011-08-27')).toBeLessThan(html.indexOf('2020-11-02'));
  expect((await test.get('/api/stock/inspection-sheet?householdId=none')).status).toBe(404);
});
