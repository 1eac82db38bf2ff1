import { describe, expect, it } from 'vitest';
import { BODY_LIMIT_BYTES } from '../../api/http/security.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { DEMO_START, expectProblem, ORIGIN, type TestApp, testApp } from './test-app.ts';

const { household, kits } = demoDocuments(DEMO_START);
const kit = kits[0] as (typeof kits)[number];
const part = kit.parts[0] as (typeof kit.parts)[number];
const fuelQuestion = {
  stove: { typeId: 'propane-camp' },
  fuelId: 'propane',
  vessel: { kind: 'pot', capacityL: 4, material: 'aluminium', lid: 'snug' },
  waterL: 2,
  foods: [{ foodId: 'lentil-brown', massG: 400 }],
  startC: 8,
  airC: -5,
  elevationM: 1900,
  wind: 'screened',
  holdMinutes: 30,
};
const planQuestion = { householdId: household.id, startsAt: '2026-12-05T17:00', days: 7 };
const stockEntry = {
  kitId: kit.id,
  partId: part.id,
  placeId: 'home',
  packedOn: '2026-10-01',
  quantity: 1,
  reason: 'packed',
  at: '2026-10-01T09:00',
};

type Case = [name: string, method: string, path: string, body: unknown, field: Record<string, unknown>];

const CASES: Case[] = [
  [
    'unknown food',
    'POST',
    '/api/cook-time',
    { foodId: 'dragon-bean', elevationM: 0 },
    { pointer: '#/foodId', value: 'dragon-bean' },
  ],
  [
    'a name that every object has',
    'POST',
    '/api/cook-time',
    { foodId: 'constructor', elevationM: 0 },
    { pointer: '#/foodId' },
  ],
  [
    'unknown food in a kit',
    'POST',
    '/api/kits',
    { ...kit, id: 'new', parts: [{ ...part, ingredients: [{ foodId: 'x', massG: 1 }] }] },
    { pointer: '#/parts/0/ingredients/0/foodId', value: 'x' },
  ],
  [
    'negative mass',
    'POST',
    '/api/kits',
    { ...kit, id: 'new', parts: [{ ...part, ingredients: [{ foodId: 'white-rice', massG: -5 }] }] },
    { pointer: '#/parts/0/ingredients/0/massG', value: -5, minimum: 0.1, maximum: 50_000, unit: 'g' },
  ],
  [
    'absurd water',
    'POST',
    '/api/fuel-use',
    { ...fuelQuestion, waterL: 1e9 },
    { pointer: '#/waterL', value: 1e9, minimum: 0, maximum: 100, unit: 'L' },
  ],
  [
    '9,000 m',
    'POST',
    '/api/fuel-use',
    { ...fuelQuestion, elevationM: 9000 },
    { pointer: '#/elevationM', value: 9000, minimum: -430, maximum: 6000, unit: 'm' },
  ],
  [
    '9,000 m of a place',
    'PUT',
    `/api/households/${household.id}`,
    { ...household, places: [{ ...household.places[0], elevationM: 9000 }] },
    { pointer: '#/places/0/elevationM', maximum: 6000, unit: 'm' },
  ],
  [
    'a pot of 0 L',
    'PUT',
    `/api/households/${household.id}`,
    { ...household, vessels: [{ id: 'pot', kind: 'pot', capacityL: 0 }] },
    { pointer: '#/vessels/0/capacityL', value: 0, minimum: 0.1, maximum: 100, unit: 'L' },
  ],
  [
    'a pot of 0 L in a question',
    'POST',
    '/api/fuel-use',
    { ...fuelQuestion, vessel: { kind: 'pot', capacityL: 0 } },
    { pointer: '#/vessel/capacityL', minimum: 0.1, unit: 'L' },
  ],
  [
    'a date that does not exist',
    'POST',
    '/api/plans',
    { ...planQuestion, startsAt: '2026-02-30T17:00' },
    { pointer: '#/startsAt', value: '2026-02-30T17:00' },
  ],
  [
    'a packing date that does not exist',
    'POST',
    '/api/stock',
    { ...stockEntry, packedOn: '2026-13-01' },
    { pointer: '#/packedOn', value: '2026-13-01' },
  ],
  [
    'an hour that does not exist',
    'POST',
    '/api/plans',
    { ...planQuestion, startsAt: '2026-12-05T25:00' },
    { pointer: '#/startsAt' },
  ],
  [
    '400 days',
    'POST',
    '/api/plans',
    { ...planQuestion, days: 400 },
    { pointer: '#/days', value: 400, minimum: 1, maximum: 90, unit: '1' },
  ],
  ['half a day', 'POST', '/api/plans', { ...planQuestion, days: 1.5 }, { pointer: '#/days', value: 1.5 }],
  [
    'no household of this id',
    'POST',
    '/api/plans',
    { ...planQuestion, householdId: 'nobody' },
    { pointer: '#/householdId', value: 'nobody' },
  ],
  [
    'no kit of this id',
    'POST',
    '/api/plans',
    { ...planQuestion, kitIds: ['nothing'] },
    { pointer: '#/kitIds/0', value: 'nothing' },
  ],
  [
    'a person who is not in the household',
    'POST',
    '/api/plans',
    { ...planQuestion, attendance: [{ date: '2026-12-06', people: ['Nemo'] }] },
    { pointer: '#/attendance/0/people/0', value: 'Nemo' },
  ],
  [
    'a time span backwards',
    'POST',
    '/api/plans',
    { ...planQuestion, noFlame: [{ from: '2026-12-06T12:00', to: '2026-12-06T11:00' }] },
    { pointer: '#/noFlame/0/to' },
  ],
  ['unknown field', 'POST', '/api/plans', { ...planQuestion, dyas: 7 }, { pointer: '#/dyas' }],
  [
    '__proto__ as a field',
    'POST',
    '/api/plans',
    `{"__proto__":{"days":9},"householdId":"${household.id}","startsAt":"2026-12-05T17:00","days":7}`,
    { pointer: '#/__proto__' },
  ],
  [
    '__proto__ deep inside',
    'POST',
    '/api/fuel-use',
    `{"stove":{"typeId":"propane-camp","__proto__":{"powerKW":3}}}`,
    { pointer: '#/stove/__proto__' },
  ],
  [
    'a word for a number',
    'POST',
    '/api/soaking',
    { foodId: 'kidney-bean', hours: 'twelve', waterC: 18 },
    { pointer: '#/hours', value: 'twelve', minimum: 0, maximum: 72, unit: 'h' },
  ],
  ['a missing field', 'POST', '/api/soaking', { foodId: 'kidney-bean', waterC: 18 }, { pointer: '#/hours' }],
  ['an array for an object', 'POST', '/api/soaking', [], { pointer: '#' }],
  ['null', 'POST', '/api/soaking', 'null', { pointer: '#' }],
  ['an id with a slash in the body', 'POST', '/api/kits', { ...kit, id: 'a/b' }, { pointer: '#/id', value: 'a/b' }],
  [
    'an id of 10,000 characters in the body',
    'POST',
    '/api/kits',
    { ...kit, id: 'a'.repeat(10_000) },
    { pointer: '#/id' },
  ],
  ['another id than the address', 'PUT', '/api/kits/other', { ...kit }, { pointer: '#/id', value: kit.id }],
  [
    'two vessels of one id',
    'PUT',
    `/api/households/${household.id}`,
    { ...household, boxes: [], vessels: [1, 2].map((capacityL) => ({ id: 'pot', kind: 'pot', capacityL })) },
    { pointer: '#/vessels' },
  ],
  [
    'a box for a vessel that is not there',
    'PUT',
    `/api/households/${household.id}`,
    { ...household, boxes: [{ id: 'box', fits: ['ghost'] }] },
    { pointer: '#/boxes/0/fits/0', value: 'ghost' },
  ],
  [
    'a fuel twice',
    'PUT',
    `/api/households/${household.id}`,
    { ...household, fuels: [{ fuelId: 'propane' }, { fuelId: 'propane' }] },
    { pointer: '#/fuels' },
  ],
  [
    'a box with the id of a vessel',
    'PUT',
    `/api/households/${household.id}`,
    { ...household, vessels: [{ id: 'pot', kind: 'pot', capacityL: 4 }], boxes: [{ id: 'pot', fits: ['pot'] }] },
    { pointer: '#/boxes/0/id', value: 'pot' },
  ],
  [
    'water that warmed up in a flask',
    'PUT',
    `/api/households/${household.id}`,
    {
      ...household,
      boxes: [],
      vessels: [{ id: 'f', kind: 'flask', capacityL: 1, reading: { hours: 4, temperatureC: 99, startC: 95 } }],
    },
    { pointer: '#/vessels/0/reading/temperatureC', value: 99, maximum: 95, unit: 'C' },
  ],
  [
    'a store hotter than dry food can be reckoned for',
    'PUT',
    `/api/households/${household.id}`,
    { ...household, places: [{ ...household.places[0], storageC: 55 }] },
    { pointer: '#/places/0/storageC', value: 55, minimum: -30, maximum: 50, unit: 'C' },
  ],
  [
    'a day that ends before it begins',
    'PUT',
    `/api/households/${household.id}`,
    { ...household, waking: { from: '22:00', to: '06:00' } },
    { pointer: '#/waking/to', value: '06:00' },
  ],
  [
    'a name that shows nothing',
    'PUT',
    `/api/households/${household.id}`,
    { ...household, name: '  ' },
    { pointer: '#/name', value: '  ' },
  ],
  [
    'a name with a null byte',
    'PUT',
    `/api/households/${household.id}`,
    { ...household, name: 'a\u0000b' },
    { pointer: '#/name' },
  ],
  [
    'half a character',
    'PUT',
    `/api/households/${household.id}`,
    { ...household, name: '\ud800' },
    { pointer: '#/name' },
  ],
  [
    'a meal that is not in the household',
    'POST',
    '/api/plans',
    { ...planQuestion, attendance: [{ date: '2026-12-06', mealId: 'tea' }] },
    { pointer: '#/attendance/0/mealId', value: 'tea' },
  ],
  [
    'a pinned meal on a date that does not exist',
    'POST',
    '/api/plans',
    { ...planQuestion, pinned: [{ meal: '2026-02-30-evening', kitId: kit.id }] },
    { pointer: '#/pinned/0/meal', value: '2026-02-30-evening' },
  ],
  [
    'a household in a question that is not sound',
    'POST',
    '/api/dish-options',
    {
      household: { ...household, boxes: [{ id: 'box', fits: ['ghost'] }] },
      kitId: kit.id,
      servings: 4,
      startsAt: '2026-12-05T17:00',
      eatAt: '2026-12-06T18:00',
    },
    { pointer: '#/household/boxes/0/fits/0', value: 'ghost' },
  ],
  [
    'a missing number',
    'POST',
    '/api/soaking',
    { foodId: 'kidney-bean', waterC: 18 },
    { pointer: '#/hours', detail: 'Is missing.', minimum: 0, maximum: 72, unit: 'h' },
  ],
  [
    'a container lighter than empty',
    'PUT',
    `/api/households/${household.id}`,
    { ...household, fuels: [{ fuelId: 'propane', containers: [{ id: 'c', tareKg: 1, grossKg: 0.5 }] }] },
    { pointer: '#/fuels/0/containers/0/grossKg', minimum: 1, unit: 'kg' },
  ],
  [
    'a time zone that does not exist',
    'PUT',
    `/api/households/${household.id}`,
    { ...household, places: [{ ...household.places[0], timeZone: 'Mars/Base' }] },
    { pointer: '#/places/0/timeZone', value: 'Mars/Base' },
  ],
  [
    'taking more than there is',
    'POST',
    '/api/stock',
    { ...stockEntry, quantity: -9000, reason: 'eaten' },
    { pointer: '#/quantity', value: -9000, unit: '1' },
  ],
  [
    'stock of a kit that is not there',
    'POST',
    '/api/stock',
    { ...stockEntry, kitId: 'ghost' },
    { pointer: '#/kitId', value: 'ghost' },
  ],
  [
    'both household and its id',
    'POST',
    '/api/dish-options',
    {
      household,
      householdId: household.id,
      kitId: kit.id,
      servings: 4,
      startsAt: '2026-12-05T17:00',
      eatAt: '2026-12-06T18:00',
    },
    { pointer: '#/householdId' },
  ],
];

describe('bad bodies are answered 422 with field, value and range, and change nothing', () => {
  it.each(CASES)('%s', async (_name, method, path, body, field) => {
    const test = await testApp();
    const headers: Record<string, string> = method === 'PUT' ? { 'if-match': '"1"' } : {};
    await expectProblem(test, () => test.send(method, path, body, headers), { type: 'invalid-input', field });
    expect(test.faults).toEqual([]);
  });
});

describe('bad addresses', () => {
  it.each([
    [
      '9,000 m',
      '/api/boiling-point?elevationM=9000',
      { parameter: 'elevationM', minimum: -430, maximum: 8850, unit: 'm' },
    ],
    ['not a number', '/api/boiling-point?elevationM=high', { parameter: 'elevationM', value: 'high' }],
    ['nothing asked', '/api/boiling-point', {}],
    ['an unknown parameter', '/api/boiling-point?elevationM=0&height=3', { parameter: 'height' }],
    ['an id with a slash', '/api/kits/a%2Fb', { parameter: 'id', value: 'a/b' }],
    ['an id that climbs', '/api/kits/..%2F..%2Fetc', { parameter: 'id' }],
    ['an id with a null byte', '/api/kits/a%00', { parameter: 'id' }],
    ['an id of 10,000 characters', `/api/kits/${'a'.repeat(10_000)}`, { parameter: 'id' }],
    ['an id in other letters', '/api/kits/Caf%C3%A9', { parameter: 'id' }],
  ])('%s', async (_name, path, field) => {
    const test = await testApp();
    await expectProblem(test, () => test.get(path), { type: 'invalid-input', field });
    expect(test.faults).toEqual([]);
  });

  it('an address that is not there', async () => {
    const test = await testApp();
    await expectProblem(test, () => test.get('/api/nothing'), { type: 'not-found' });
    await expectProblem(test, () => test.get('/..%2fetc%2fpasswd'), { type: 'not-found' });
    await expectProblem(test, () => test.get('/api/kits/ghost'), { type: 'not-found' });
  });

  it('a method that an address does not take', async () => {
    const test = await testApp();
    const ask = () => test.send('PATCH', '/api/kits', {});
    await expectProblem(test, ask, { type: 'method-not-allowed' });
    expect((await ask()).headers.get('allow')).toBe('GET, POST, HEAD');
  });
});

describe('bodies that are not read', () => {
  const WRITES: [string, string][] = [
    ['POST', '/api/kits'],
    ['PUT', `/api/kits/${kit.id}`],
    ['POST', '/api/households'],
    ['POST', '/api/stock'],
    ['POST', '/api/plans'],
    ['POST', '/api/soaking'],
    ['POST', '/api/dish-options'],
  ];

  it.each(WRITES)('malformed JSON: %s %s', async (method, path) => {
    const test = await testApp();
    for (const text of ['{', '', 'NaN', '{"a":1,}', '\u0000']) {
      await expectProblem(test, () => test.send(method, path, text, { 'if-match': '*' }), { type: 'malformed-json' });
    }
  });

  it.each(WRITES)('another content type: %s %s', async (method, path) => {
    const test = await testApp();
    for (const type of [
      'text/plain',
      'application/x-www-form-urlencoded',
      'application/octet-stream',
      'text/json',
      '',
    ]) {
      await expectProblem(test, () => test.send(method, path, {}, { 'content-type': type }), {
        type: 'not-json-content',
      });
    }
    // A Blob body is sent without any type.
    const bare = () => raw(test, path, { method, body: new Blob(['{}']).stream(), duplex: 'half' } as RequestInit);
    await expectProblem(test, bare, { type: 'not-json-content' });
  });

  it('10 MB, and one byte too many, with and without a length', async () => {
    const test = await testApp();
    const note = (bytes: number) => {
      const empty = JSON.stringify({ ...kit, id: 'big', note: '' });
      return JSON.stringify({ ...kit, id: 'big', note: 'x'.repeat(bytes - empty.length) });
    };
    for (const bytes of [10_000_000, BODY_LIMIT_BYTES + 1]) {
      const body = note(bytes);
      expect(body.length).toBe(bytes);
      const headers = { 'content-length': String(bytes) };
      await expectProblem(test, () => test.send('POST', '/api/kits', body, headers), { type: 'too-large' });
      await expectProblem(test, () => test.send('POST', '/api/kits', body), { type: 'too-large' });
    }
    // At the limit the body is read, and the schema finds the note too long.
    const atLimit = () => test.send('POST', '/api/kits', note(BODY_LIMIT_BYTES));
    await expectProblem(test, atLimit, { type: 'invalid-input', field: { pointer: '#/note' } });
  });
});

function raw({ app }: TestApp, path: string, init: RequestInit): Promise<Response> {
  return Promise.resolve(app.request(`${ORIGIN}${path}`, init));
}
