import { expect, it } from 'vitest';
import { demoDocuments } from '../../api/storage/demo.ts';
import { DEMO_START, expectProblem, testApp } from './test-app.ts';

const { household, kits, stock } = demoDocuments(DEMO_START);
const path = `/api/rehearsal-sheet?householdId=${household.id}`;

it('the rehearsal sheet leads through weighing, boil tests, box, flask and old beans, with cautions and what to expect', async () => {
  const test = await testApp();
  const response = await test.get(path);
  expect(response.status).toBe(200);
  expect(response.headers.get('content-type')).toMatch(/^text\/html/);
  const html = await response.text();
  for (const { name } of household.stoves ?? []) expect(html).toContain(name as string);
  for (const text of [
    'Carbon monoxide kills',
    'Only a cold burner',
    'Hot pots',
    'scale',
    'Foam box',
    'Flask',
    'Chickpeas',
    'Kidney beans',
  ])
    expect(html).toContain(text);
  // Every expected figure has a band: three stoves (fuel and minutes), box and flask, six lots.
  expect(html.match(/\([^()]* to [^()]*\)/g)?.length).toBeGreaterThanOrEqual(3 * 2 + 2 + 6);
  expect(html).not.toMatch(/<script|style=|undefined|NaN|null/);
  expect(test.faults).toEqual([]);
});

it('puts US units first when asked, and expects what was learned', async () => {
  const test = await testApp();
  const us = await (await test.get(`${path}&units=us`)).text();
  expect(us).toMatch(/59\u00a0°F \(15\u00a0°C\)/);
  const before = await (await test.get(path)).text();
  const stove = {
    kind: 'boil-test',
    householdId: household.id,
    at: '2026-11-20T14:30',
    stoveId: 'camp-stove',
    vesselId: 'small-pot',
  };
  const recorded = await test.send('POST', '/api/measurements', {
    ...stove,
    litres: 2,
    startC: 15,
    airC: 15,
    wind: 'still',
    fuelKg: 0.045,
    minutes: 11,
  });
  expect(recorded.status).toBe(201);
  const row = (html: string) => html.split('Propane camp stove')[1]?.split('</tr>')[0] ?? '';
  expect(row(await (await test.get(path)).text())).not.toBe(row(before));
});

it('expects of a tested lot what its tests found', async () => {
  const test = await testApp();
  const rowOf = async () => {
    const html = await (await test.get(path)).text();
    return html.split('<b>Chickpeas</b>')[1]?.split('</tr>')[0] ?? '';
  };
  const softOf = (row: string) => Number(/<td>(\d+) \(\d+ to \d+\)/.exec(row)?.[1]);
  const before = await rowOf();
  const lot = kits
    .flatMap((kit) => kit.parts.map((part) => ({ kit, part })))
    .find(({ part }) => part.ingredients.some(({ foodId }) => foodId === 'chickpea'));
  const packedOn = stock.find(({ kitId, partId }) => kitId === lot?.kit.id && partId === lot.part.id)?.packedOn;
  const note = {
    kind: 'cooking-note',
    householdId: household.id,
    at: '2026-11-21T12:00',
    kitId: lot?.kit.id,
    partId: lot?.part.id,
    packedOn,
    foodId: 'chickpea',
    soak: { hours: 12, waterC: 16 },
    boiledAfterMinutes: 15,
    // Fifteen years old, of which hardly any would be soft at 180 min, when the sheet has them tried at the latest.
    softAfterMinutes: 15 + 190,
  };
  const recorded = await test.send('POST', '/api/measurements', note);
  expect(recorded.status, await recorded.clone().text()).toBe(201);
  expect(((await recorded.json()) as { effect: { use: string } }).effect.use).toBe('counts');
  expect(softOf(await rowOf())).toBeGreaterThan(softOf(before) + 5);
});

it('escapes the names of a household, and says which stove has no pot', async () => {
  const test = await testApp();
  const own = { ...household, id: 'odd', name: 'A <b>house</b> & co', vessels: [], boxes: [] };
  expect((await test.send('POST', '/api/households', own)).status).toBe(201);
  const html = await (await test.get('/api/rehearsal-sheet?householdId=odd')).text();
  expect(html).toContain('A &lt;b&gt;house&lt;/b&gt; &amp; co');
  expect(html).not.toContain('<b>house</b>');
  expect(html).toMatch(/Not worked out: rocket stove \(no pot/);
});

it('refuses a household that is not there, and unknown units', async () => {
  const test = await testApp();
  await expectProblem(test, () => test.get('/api/rehearsal-sheet?householdId=nobody'), { type: 'not-found' });
  await expectProblem(test, () => test.get(`${path}&units=imperial`), {
    type: 'invalid-input',
    field: { parameter: 'units' },
  });
  await expectProblem(test, () => test.get('/api/rehearsal-sheet'), {
    type: 'invalid-input',
    field: { parameter: 'householdId' },
  });
});
