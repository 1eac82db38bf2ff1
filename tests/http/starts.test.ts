import { beforeEach, describe, expect, it } from 'vitest';
import { DEMO_START, expectProblem, type TestApp, testApp } from './test-app.ts';

const household = {
  id: 'our-household',
  name: 'Our household',
  places: [{ id: 'our-place', timeZone: 'Etc/UTC', elevationM: 300 }],
  people: [{ label: 'A', ageGroup: 'adult' }],
};
const start = {
  household,
  sets: [
    { kitId: 'oat-apple-porridge', sets: 2 },
    { kitId: 'red-bean-barley-stew', sets: 1 },
  ],
  packedOn: '2026-01-10',
  at: `${DEMO_START}T17:00`,
};

let test: TestApp;
beforeEach(async () => {
  test = await testApp();
});

const bodyOf = async (path: string) => (await test.get(path)).json();

describe('a household starts', () => {
  it('with its stock at its own place, and no more kits than there were', async () => {
    const kitsBefore = await bodyOf('/api/kits');
    const answer = await test.send('POST', '/api/starts', start);
    expect(answer.status).toBe(201);
    const { kits, stock } = (await answer.json()) as {
      kits: unknown[];
      stock: { placeId: string; quantity: number }[];
    };
    expect(kits).toEqual([]);
    // Two parts of the porridge twice, four of the stew once.
    expect(stock.map(({ quantity }) => quantity)).toEqual([2, 2, 1, 1, 1, 1]);
    expect(new Set(stock.map(({ placeId }) => placeId))).toEqual(new Set(['our-place']));
    expect(await bodyOf('/api/kits')).toEqual(kitsBefore);
    expect((await test.get('/api/households/our-household')).status).toBe(200);
  });

  it('with a kit that ships with the program where it is not stored', async () => {
    const stew = await test.get('/api/kits/sweet-milk-rice');
    const { totals } = (await bodyOf('/api/stock')) as {
      totals: { kitId: string; partId: string; placeId: string; packedOn: string; quantity: number }[];
    };
    for (const { kitId, partId, placeId, packedOn, quantity } of totals.filter(
      (lot) => lot.kitId === 'sweet-milk-rice',
    )) {
      const entry = { kitId, partId, placeId, packedOn, quantity: -quantity, reason: 'eaten', at: start.at };
      expect((await test.send('POST', '/api/stock', entry)).status).toBe(201);
    }
    const gone = await test.send('DELETE', '/api/kits/sweet-milk-rice', undefined, {
      'if-match': stew.headers.get('etag') ?? '',
    });
    expect(gone.status).toBe(204);
    const answer = await test.send('POST', '/api/starts', { ...start, sets: [{ kitId: 'sweet-milk-rice', sets: 1 }] });
    expect(answer.status).toBe(201);
    expect((await test.get('/api/kits/sweet-milk-rice')).status).toBe(200);
  });

  const refused: [string, object, 'invalid-input' | 'already-there', string][] = [
    ['a kit that nobody has', { sets: [{ kitId: 'stone-soup', sets: 1 }] }, 'invalid-input', '#/sets/0/kitId'],
    ['half a set', { sets: [{ kitId: 'sweet-milk-rice', sets: 0.5 }] }, 'invalid-input', '#/sets/0/sets'],
    [
      'a place of another household',
      { household: { ...household, places: [{ id: 'home', elevationM: 0 }] } },
      'invalid-input',
      '#/household/places/0/id',
    ],
    [
      'the id of another household',
      { household: { ...household, id: 'saddle-lane' } },
      'already-there',
      '#/household/id',
    ],
  ];
  for (const [name, change, type, pointer] of refused) {
    it(`is refused ${name}, and nothing is stored`, async () => {
      await expectProblem(test, () => test.send('POST', '/api/starts', { ...start, ...change }), {
        type,
        field: { pointer },
      });
    });
  }
});

it('a plan that is not there cannot be deleted', async () => {
  const missing = await test.send('DELETE', '/api/plans/never-made', undefined, { 'if-match': '*' });
  expect(missing.status).toBe(404);
});
