import { describe, expect, it } from 'vitest';
import type { StockLot } from '../../api/planning/plan-types.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { DEMO_START, expectProblem, type TestApp, testApp } from './test-app.ts';

const { household } = demoDocuments(DEMO_START);
const AT = '2026-12-05T10:00';
const QUESTION = {
  householdId: household.id,
  kitIds: ['pea-sweetcorn-chowder'],
  among: [
    { label: 'House', heads: 3, placeId: 'home' },
    { label: 'Cellar', heads: 2, placeId: 'earth-cellar' },
  ],
};
const ask = (test: TestApp, question: object) => test.send('POST', '/api/stock/shares', question);
const chowder = async (test: TestApp) =>
  ((await (await test.get('/api/stock')).json()).totals as StockLot[]).filter(
    (lot) => lot.kitId === 'pea-sweetcorn-chowder' && lot.quantity > 0,
  );

describe('sharing out the demonstration dish', () => {
  it('makes three sets of what lies apart, and says what does not divide', async () => {
    const test = await testApp();
    const answer = await ask(test, QUESTION);
    expect(answer.status).toBe(200);
    const { shares, words, moved, rule } = await answer.json();
    // Three sets for 3 and 2 heads: 1.8 and 1.2.
    expect(shares.map((share: { sets: unknown }) => share.sets)).toEqual([
      [{ kitId: 'pea-sweetcorn-chowder', sets: 2, due: 1.8 }],
      [{ kitId: 'pea-sweetcorn-chowder', sets: 1, due: 1.2 }],
    ]);
    expect(words).toContain('1 set of Pea and sweetcorn chowder with chicken does not divide by the heads: to House.');
    expect(rule).toMatch(/Whole sets first/);
    expect(moved).toEqual([]);
  });

  it('is booked as moves all at once, after which each place holds its share as complete sets', async () => {
    const test = await testApp();
    const { basis } = await (await ask(test, QUESTION)).json();
    const before = (await chowder(test)).reduce((sum, lot) => sum + lot.quantity, 0);
    const booked = await ask(test, { ...QUESTION, accept: { basis, at: AT } });
    expect(booked.status).toBe(201);
    const { moved } = await booked.json();
    expect(moved.length).toBeGreaterThan(0);
    for (const line of moved) expect(line.reason).toBe('moved');
    expect((await chowder(test)).reduce((sum, lot) => sum + lot.quantity, 0)).toBe(before);
    const { sets } = await (await test.get('/api/stock')).json();
    const own = sets.filter((row: { kitId: string }) => row.kitId === 'pea-sweetcorn-chowder');
    expect(own.map((row: { placeId: string; sets: number }) => [row.placeId, row.sets])).toEqual([
      ['earth-cellar', 1],
      ['home', 2],
    ]);
    // The same proposal does not fit a second time.
    await expectProblem(test, () => ask(test, { ...QUESTION, accept: { basis, at: AT } }), { type: 'stale-revision' });
    // All of it is taken back in one go.
    const entryIds = moved.map((line: { id: string }) => line.id);
    expect((await test.send('POST', '/api/stock/undo', { entryIds, at: AT })).status).toBe(201);
    expect((await (await ask(test, QUESTION)).json()).basis).toBe(basis);
  });

  it('is booked once, however often it is sent at the same time', async () => {
    const test = await testApp();
    const { basis } = await (await ask(test, QUESTION)).json();
    const sent = Array.from({ length: 4 }, () => ask(test, { ...QUESTION, accept: { basis, at: AT } }));
    const statuses = (await Promise.all(sent)).map((answer) => answer.status).sort();
    expect(statuses).toEqual([201, 412, 412, 412]);
  });

  it('is printed as an overview and one list for each share', async () => {
    const test = await testApp();
    const answer = await test.get(`/api/stock/shares/sheet?question=${encodeURIComponent(JSON.stringify(QUESTION))}`);
    expect(answer.headers.get('content-type')).toMatch(/^text\/html/);
    const html = await answer.text();
    expect(html.match(/<section class="card shares">/g)).toHaveLength(3);
    expect(html).toContain('Sheet 3 of 3');
    expect(html).toContain('Brown or green lentils');
    expect(html).toContain('from: Earth cellar');
    const named = { ...QUESTION, among: [{ label: '<b>&', heads: 1 }] };
    const escaped = await test.get(`/api/stock/shares/sheet?question=${encodeURIComponent(JSON.stringify(named))}`);
    expect(await escaped.text()).not.toContain('<b>&');
  });

  it.each([
    ['nobody', { ...QUESTION, among: [{ label: 'A', heads: 0 }] }, { pointer: '#/among' }],
    [
      'fewer than nobody',
      { ...QUESTION, among: [{ label: 'A', heads: -1 }] },
      { pointer: '#/among/0/heads', value: -1, minimum: 0, maximum: 100_000, unit: '1' },
    ],
    [
      'no such place',
      { ...QUESTION, among: [{ label: 'A', heads: 1, placeId: 'moon' }] },
      { pointer: '#/among/0/placeId', value: 'moon' },
    ],
    [
      'two of one name',
      {
        ...QUESTION,
        among: [
          { label: 'A', heads: 1 },
          { label: 'A', heads: 2 },
        ],
      },
      { pointer: '#/among' },
    ],
    ['no such kit', { ...QUESTION, kitIds: ['x'] }, { pointer: '#/kitIds/0', value: 'x' }],
    ['no such household', { ...QUESTION, householdId: 'x' }, { pointer: '#/householdId' }],
    [
      'moves to no place',
      { ...QUESTION, among: [{ label: 'A', heads: 1 }], accept: { basis: 'x', at: AT } },
      { pointer: '#/among/0/placeId', detail: 'Is missing.' },
    ],
  ])('refuses %s', async (_name, question, field) => {
    const test = await testApp();
    await expectProblem(test, () => ask(test, question), { type: 'invalid-input', field });
  });

  it('refuses a list for what is no question', async () => {
    const test = await testApp();
    for (const question of ['{', '{}', JSON.stringify({ ...QUESTION, among: [] })])
      await expectProblem(test, () => test.get(`/api/stock/shares/sheet?question=${encodeURIComponent(question)}`), {
        type: 'invalid-input',
        field: { parameter: 'question' },
      });
  });
});
