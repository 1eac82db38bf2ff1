import { describe, expect, it } from 'vitest';
import { openSqliteStore } from '../../api/runtime/node/sqlite-store.ts';
import { createTogether, listBodies } from '../../api/storage/collections.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { contentOf, DEMO_START, expectProblem, type TestApp, testApp } from './test-app.ts';

const { household, kits } = demoDocuments(DEMO_START);
const AT = '2026-12-05T10:00';
const HEAD = 'kit,part,place,packed on,quantity,unit';

const send = (test: TestApp, text: string, more: object = {}) =>
  test.send('POST', '/api/stock.csv', { householdId: household.id, text, mode: 'add', at: AT, ...more });

/** Reads a list without storing it; checks that nothing was. */
async function preview(test: TestApp, text: string, more: object = {}) {
  const before = await contentOf(test.store);
  const response = await send(test, text, { preview: true, ...more });
  expect(response.status).toBe(200);
  expect(await contentOf(test.store)).toBe(before);
  return response.json();
}

describe('a stock list', () => {
  it('comes back as it went out: byte for byte through an empty ledger', async () => {
    const test = await testApp();
    await test.send('POST', '/api/stock', {
      kitId: kits[0]?.id,
      partId: kits[0]?.parts[0]?.id,
      placeId: 'home',
      packedOn: '2025-01-02',
      useBy: '2030-01-02',
      moisturePercent: 9.5,
      quantity: 2.5,
      useFirst: true,
      reason: 'packed',
      at: AT,
    });
    const answer = await test.get('/api/stock.csv');
    expect(answer.headers.get('content-type')).toMatch(/^text\/csv/);
    const text = await answer.text();
    expect(text.split('\r\n')[0]).toBe(
      'version,kit,kit name,part,part name,place,place name,packed on,use by,quantity,unit,storage C,moisture %,use first',
    );
    const store = openSqliteStore(':memory:');
    await createTogether(store, { households: [household], kits }, 'first');
    const empty = await testApp({ store });
    expect((await send(empty, text)).status).toBe(201);
    expect(await (await empty.get('/api/stock.csv')).text()).toBe(text);
    // Counted, the same list changes nothing.
    const again = await send(empty, text, { mode: 'count' });
    expect(await again.json()).toMatchObject({ stored: true, counts: { refused: 0, entries: 0 } });
  });

  it('keeps names from being formulas', async () => {
    const test = await testApp();
    const kit = { ...kits[0], id: 'wicked', name: '=HYPERLINK("http://x")' };
    await test.send('POST', '/api/kits', kit);
    const [part] = kit.parts ?? [];
    await send(test, `${HEAD}\nwicked,${part?.id},home,2025-01-01,1,bags`);
    const text = await (await test.get('/api/stock.csv')).text();
    expect(text).toContain(`"'=HYPERLINK(""http://x"")"`);
    expect((await preview(test, text)).counts).toMatchObject({ refused: 0 });
  });

  it('takes names, sets, masses and comma decimals, and says row by row what it understood', async () => {
    const test = await testApp();
    const answer = await preview(
      test,
      [
        'Kit name;Part name;Packed;Amount;Unit;Shelf',
        'Pea and sweetcorn chowder with chicken;;11.02.2023;2;sets;3',
        'pea-sweetcorn-chowder;Split peas;2023-02-11;1,5;bags;3',
        'pea-sweetcorn-chowder;Split peas;2023-02-11;2 kg;;3',
        'pea-sweetcorn-chowder;Brown or green lentils;2023-02-11;3;;3',
        ';;;;;',
      ].join('\n'),
    );
    expect(answer.notUsed).toEqual(['Shelf']);
    expect(answer.counts).toEqual({ rows: 5, understood: 4, refused: 0, empty: 1, entries: 6 });
    expect(answer.rows.map((row: { words: string }) => row.words)).toEqual([
      'Pea and sweetcorn chowder with chicken: 4 bags of Split peas, 2 bags of Milk powder, onion and broth, 2 bags of Freeze-dried chicken, corn and carrot, packed 2023-02-11, at House',
      'Pea and sweetcorn chowder with chicken: 1.5 bags of Split peas, packed 2023-02-11, at House',
      // 200 g a bag.
      'Pea and sweetcorn chowder with chicken: 10 bags of Split peas, packed 2023-02-11, at House',
      'Pea and sweetcorn chowder with chicken: 3 bags of Brown or green lentils, packed 2023-02-11, at House',
      'Empty row',
    ]);
  });

  it.each([
    ['an unknown kit', 'pea-sweetcorn-chowda,pulses,home,2024-01-01,1,', 'kit', /Nearest: Pea and sweetcorn chowder/],
    ['an unknown part', 'pea-sweetcorn-chowder,pulse,home,2024-01-01,1,', 'part', /Nearest: Split peas \(pulses\)/],
    ['an unknown place', 'pea-sweetcorn-chowder,pulses,earth-celler,2024-01-01,1,', 'place', /Nearest: Earth cellar/],
    [
      'a strange unit',
      'pea-sweetcorn-chowder,pulses,home,2024-01-01,1,furlongs',
      'unit',
      /bags .*sets.* g, kg, oz or lb/,
    ],
    [
      'a mass that is no whole bag',
      'pea-sweetcorn-chowder,pulses,home,2024-01-01,250,g',
      'quantity',
      /1\.25 bags of 200 g/,
    ],
    ['a negative count', 'pea-sweetcorn-chowder,pulses,home,2024-01-01,-2,', 'quantity', /0 or more/],
    ['an empty count', 'pea-sweetcorn-chowder,pulses,home,2024-01-01,,', 'quantity', /missing/],
    ['a doubtful number', 'pea-sweetcorn-chowder,pulses,home,2024-01-01,"1,500",', 'quantity', /1\.5 or as 1500/],
    ['no number', 'pea-sweetcorn-chowder,pulses,home,2024-01-01,some,', 'quantity', /no number/],
    ['too many', 'pea-sweetcorn-chowder,pulses,home,2024-01-01,10001,', 'quantity', /At most 10000/],
    ['a date to come', 'pea-sweetcorn-chowder,pulses,home,2027-01-01,1,', 'packed on', /2026-12-06 is the latest/],
    ['a doubtful date', 'pea-sweetcorn-chowder,pulses,home,4/5/2024,1,', 'packed on', /YYYY-MM-DD/],
    ['no part', 'pea-sweetcorn-chowder,,home,2024-01-01,1,bags', 'part', /in sets/],
    ['no kit', ',pulses,home,2024-01-01,1,', 'kit name', /Name the kit/],
  ])(
    'refuses %s with the row, the column and what to do, and stores none of its rows',
    async (_name, row, column, detail) => {
      const test = await testApp();
      const text = `${HEAD}\npea-sweetcorn-chowder,pulses,home,2024-01-01,1,bags\n${row}`;
      const answer = await preview(test, text);
      expect(answer.counts).toMatchObject({ rows: 2, understood: 1, refused: 1 });
      expect(answer.rows[0]).toMatchObject({ row: 3, outcome: 'refused', faults: [{ column }] });
      expect(answer.rows[0].faults[0].detail).toMatch(detail);
      const problem = await expectProblem(test, () => send(test, text), {
        type: 'invalid-input',
        field: { pointer: '#/text', detail: `Row 3, ${column}: ${answer.rows[0].faults[0].detail}` },
      });
      expect(problem.detail).toMatch(/Nothing was stored/);
    },
  );

  it.each([
    ['an open quotation mark', `${HEAD}\n"pea,pulses,home,2024-01-01,1,`, /quotation mark/],
    ['nothing', '', /empty/],
    ['no heading', 'pea,pulses\n1,2', /names no column "kit", "packed on", "quantity"/],
    ['too many rows', `${HEAD}\n${'a,b,c,d,1,\n'.repeat(100_001)}`, /100001 rows; at most 100000/],
  ])('refuses a list with %s as a whole', async (_name, text, detail) => {
    const test = await testApp();
    for (const isPreview of [true, false])
      await expectProblem(test, () => send(test, text, { preview: isPreview }), {
        type: 'invalid-input',
        field: { pointer: '#/text', detail: expect.stringMatching(detail) as never },
      });
  });

  it('counts: what stands in the list is what is there, by a difference, and no lot stands in it twice', async () => {
    const test = await testApp();
    const row = (quantity: number) => `pea-sweetcorn-chowder,pulses,home,2023-02-11,${quantity},bags`;
    const counted = await send(test, `${HEAD}\n${row(1)}`, { mode: 'count' });
    const { importId } = await counted.json();
    const line = (await listBodies(test.store, 'stock')).find((entry) => entry.note === `Import ${importId}`);
    expect(line).toMatchObject({ reason: 'counted', quantity: -3 });
    await expectProblem(test, () => send(test, `${HEAD}\n${row(1)}\n${row(2)}`, { mode: 'count' }), {
      type: 'invalid-input',
      field: { pointer: '#/text' },
    });
    // An import is taken back whole, once.
    const undo = () => test.send('POST', '/api/stock/undo', { importId, at: AT });
    expect((await undo()).status).toBe(201);
    await expectProblem(test, undo, {
      type: 'invalid-input',
      field: { pointer: '#/importId', value: importId, detail: 'This import has been taken back already.' },
    });
    await expectProblem(test, () => test.send('POST', '/api/stock/undo', { at: AT }), { type: 'invalid-input' });
  });

  it('takes 100,000 rows within seconds, or refuses them all for one that is wrong', async () => {
    const test = await testApp();
    const rows = Array.from({ length: 100_000 }, (_, index) => {
      const day = new Date(Date.UTC(2000, 0, 1 + (index % 9000))).toISOString().slice(0, 10);
      return `pea-sweetcorn-chowder,${index % 2 === 0 ? 'pulses' : 'seasoning'},home,${day},1,bags`;
    });
    const wrong = [HEAD, ...rows.slice(1), 'pea-sweetcorn-chowder,pulses,home,2024-01-01,x,'].join('\n');
    const refused = await send(test, wrong);
    expect(refused.status).toBe(422);
    const problem = await refused.json();
    expect(problem.errors).toHaveLength(1);
    expect(problem.errors[0].detail).toMatch(/^Row 100001, quantity/);
    const levelBefore = (await listBodies(test.store, 'stock')).length;
    const started = performance.now();
    const taken = await send(test, [HEAD, ...rows].join('\n'));
    const seconds = (performance.now() - started) / 1000;
    expect((await taken.json()).counts).toEqual({
      rows: 100_000,
      understood: 100_000,
      refused: 0,
      empty: 0,
      entries: 100_000,
    });
    expect((await listBodies(test.store, 'stock')).length).toBe(levelBefore + 100_000);
    // Some 5 s here; a machine that is busy takes longer, and a square of the rows would take hours.
    expect(seconds).toBeLessThan(45);
  }, 120_000);
});
