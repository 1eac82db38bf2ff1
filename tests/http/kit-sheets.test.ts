import { beforeAll, describe, expect, it } from 'vitest';
import type { Packing } from '../../api/cooking/keeping/packing.ts';
import { expectProblem, type TestApp, testApp } from './test-app.ts';

let app: TestApp;
beforeAll(async () => {
  app = await testApp();
});

const PACKING = '/api/kits/red-bean-barley-stew/packing-sheet';
const asQuery = (query: Record<string, string>): string => `?${new URLSearchParams(query)}`;

describe('packing sheet', () => {
  it('tells sets, bags, absorbers and the order of work, to print', async () => {
    const response = await app.get(
      PACKING + asQuery({ householdId: 'saddle-lane', bulk: 'kidney-bean=10 kg; pearl-barley=2 x 5 kg' }),
    );
    expect(response.headers.get('content-type')).toMatch(/text\/html/);
    const html = (await response.text()).replaceAll('\u00a0', ' ');
    expect(html).toContain('30 sets, 150 servings');
    expect(html).toMatch(/Used up first: kidney beans/);
    expect(html).toMatch(/Left over: kidney beans 100 g/);
    expect(html).toContain('1 × 200 cc');
    expect(html.indexOf('every bag is filled')).toBeGreaterThan(html.indexOf('fill 30 bags'));
    expect(html.indexOf('drops the packets in')).toBeGreaterThan(html.indexOf('every bag is filled'));
    expect(html).toMatch(/desiccant[^.]*none/i);
    expect(html).not.toMatch(/<script|style=/);
  });

  it('gives the same figures as JSON, and takes decimal commas and US units', async () => {
    const ask = async (bulk: string) =>
      (await (await app.get(PACKING + asQuery({ format: 'json', bulk }))).json()) as Packing;
    const metric = await ask('kidney-bean=2,2 kg');
    expect(metric.sets).toBe(6);
    expect(metric.limitedBy).toBe('Kidney beans');
    // 25 lb are 11.34 kg: 34 sets of 330 g.
    expect((await ask('kidney-bean=25 lb')).sets).toBe(34);
    const own = (await (
      await app.get(PACKING + asQuery({ format: 'json', sets: '8', packetsCc: '300; 500', bagsL: '1,5;3' }))
    ).json()) as Packing;
    expect(own.sets).toBe(8);
    expect(own.bags.every(({ litres }) => litres === 1.5 || litres === 3)).toBe(true);
    expect(own.packets.every(({ cc }) => cc === 300 || cc === 500)).toBe(true);
  });

  it.each([
    ['an unknown unit', { bulk: 'kidney-bean=3 sacks' }, { parameter: 'bulk', value: 'kidney-bean=3 sacks' }],
    [
      'an unknown food',
      { bulk: 'kidny-bean=3 kg' },
      { parameter: 'bulk', detail: expect.stringContaining('kidney-bean') as never },
    ],
    ['an amount that may mean two things', { bulk: 'kidney-bean=1,500 g' }, { parameter: 'bulk' }],
    ['no amount', { bulk: 'kidney-bean' }, { parameter: 'bulk' }],
    ['half a set', { sets: '2.5' }, { parameter: 'sets', minimum: 1, maximum: 10_000 }],
    ['no set', { sets: '0' }, { parameter: 'sets' }],
    [
      'a date in the future',
      { packedOn: '2027-01-01' },
      // In the kitchens where the day begins first it is the 6th already.
      { parameter: 'packedOn', value: '2027-01-01', latest: '2026-12-06' } as object,
    ],
    ['a date that does not exist', { packedOn: '2026-02-30' }, { parameter: 'packedOn' }],
    ['a bag of nothing', { bagsL: '0' }, { parameter: 'bagsL', unit: 'L' }],
    ['a store in an oven', { storageC: '90' }, { parameter: 'storageC', maximum: 50 }],
    ['home-dried food that is not in it', { homeDried: 'jerky' }, { parameter: 'homeDried', value: 'jerky' }],
    ['an unknown household', { householdId: 'nobody' }, { parameter: 'householdId' }],
    ['a strange member', { colour: 'red' }, { parameter: 'colour' }],
  ])('refuses %s', async (_name, query, field) => {
    await expectProblem(app, () => app.get(PACKING + asQuery(query as unknown as Record<string, string>)), {
      type: 'invalid-input',
      field,
    });
  });

  it('has none for a kit that is not there', async () => {
    await expectProblem(app, () => app.get('/api/kits/none/packing-sheet'), { type: 'not-found' });
  });

  it('escapes what people type', async () => {
    const own = await testApp();
    const kit = {
      id: 'odd',
      name: 'A<b>c</b>',
      servings: 2,
      style: 'soup',
      suits: ['evening'],
      parts: [{ id: 'p', name: '<img src=x>', ingredients: [{ foodId: 'white-rice', massG: 100 }] }],
    };
    await own.send('POST', '/api/kits', kit);
    const html = await (await own.get('/api/kits/odd/packing-sheet')).text();
    expect(html).not.toContain('<img');
    expect(html).not.toContain('A<b>');
  });
});

const CARD = '/api/kits/red-bean-barley-stew/card';

describe('kit card', () => {
  it('says what is in it, how it is cooked here and at the sea, what it burns, and what to do without a part', async () => {
    const response = await app.get(
      CARD + asQuery({ householdId: 'saddle-lane', packedOn: '2026-11-20', labelSets: '2' }),
    );
    expect(response.status).toBe(200);
    const html = (await response.text()).replaceAll('\u00a0', ' ');
    for (const text of [
      'Red bean and barley stew',
      '5 servings',
      'Packed on 20 November 2026',
      'Allergens: gluten, celery',
      'Here, 1780 m (5840 ft), 94 °C',
      'At sea level, 100 °C',
      'Pressure cooker, 90 kPa (13 psi), soaked',
      'Boil, then 3 h in the insulated box',
      'Underdone kidney beans poison',
      'Oil missing:',
      'set 2 of 2',
    ])
      expect(html).toContain(text);
    expect(html.match(/class="label"/g)).toHaveLength(8);
    expect(html).not.toMatch(/<script|style=/);
  });

  it('in US units first, without the card for labels alone, and as JSON', async () => {
    const us = (await (await app.get(CARD + asQuery({ householdId: 'saddle-lane', units: 'us' }))).text()).replaceAll(
      '\u00a0',
      ' ',
    );
    expect(us).toContain('Here, 5840 ft (1780 m), 201 °F');
    expect(us).toContain('<span>Packed on:</span><span class="blank">');
    const labels = await (await app.get(CARD + asQuery({ card: 'no', labelSets: '3' }))).text();
    expect(labels.match(/<section/g)).toHaveLength(2);
    const json = (await (await app.get(CARD + asQuery({ format: 'json' }))).json()) as { servings: number };
    expect(json.servings).toBe(5);
  });

  it.each([
    ['a date in the future', { packedOn: '2026-12-08' }, { parameter: 'packedOn', latest: '2026-12-06' } as object],
    ['half a set', { labelSets: '1.5' }, { parameter: 'labelSets' }],
    ['more labels than a shelf holds', { labelSets: '200' }, { parameter: 'labelSets', maximum: 100 }],
    ['an elevation above every kitchen', { elevationM: '9000' }, { parameter: 'elevationM', maximum: 6000, unit: 'm' }],
    ['a place that is not there', { householdId: 'saddle-lane', placeId: 'moon' }, { parameter: 'placeId' }],
    ['units of nobody', { units: 'stone' }, { parameter: 'units' }],
  ])('refuses %s', async (_name, query, field) => {
    await expectProblem(app, () => app.get(CARD + asQuery(query as unknown as Record<string, string>)), {
      type: 'invalid-input',
      field,
    });
  });

  it('every demonstration kit has one, and none is a fault', async () => {
    const { items } = (await (await app.get('/api/kits')).json()) as { items: { id: string }[] };
    for (const { id } of items) {
      const card = await app.get(`/api/kits/${id}/card?householdId=saddle-lane`);
      expect(card.status, id).toBe(200);
      expect(await card.text()).not.toMatch(/NaN|undefined|Infinity/);
      const sheet = await app.get(`/api/kits/${id}/packing-sheet?sets=3`);
      expect(await sheet.text()).not.toMatch(/NaN|undefined|Infinity/);
    }
    expect(app.faults).toEqual([]);
  });
});

describe('the demonstration dish in three parts', () => {
  const CHOWDER = '/api/kits/pea-sweetcorn-chowder';

  it('is told truly by its card and its labels: two bags of peas a set, a choice of pulses, three use-by dates', async () => {
    const query = asQuery({ householdId: 'saddle-lane', packedOn: '2023-02-11', storageC: '13' });
    const html = (await (await app.get(`${CHOWDER}/card${query}`)).text()).replaceAll('\u00a0', ' ');
    expect(html).toContain('split peas 400 g, in 2 containers');
    expect(html).toContain('may be brown or green lentils or');
    expect(html).toContain('Split peas, 1 of 2');
    expect(html).toContain('Split peas, 2 of 2');
    expect(html).toContain('split peas 200 g (7 oz)');
    expect(html).toContain('Allergens: milk, celery');
    expect(html.match(/class="label"/g)).toHaveLength(4);
    for (const part of ['Split peas', 'Milk powder, onion and broth', 'Freeze-dried chicken, corn and carrot'])
      expect(html).toContain(`${part} missing:`);
  });

  it('and with lentils in the place of peas, on card and packing sheet', async () => {
    const query = asQuery({ standIns: 'pulses-with-lentil-brown', sets: '3', format: 'json' });
    const packing = (await (await app.get(`${CHOWDER}/packing-sheet${query}`)).json()) as Packing;
    // Two bags a set of 200 g each; USDA SR28: lentils 192 g a cup, 812 g/L, so 246 mL in a bag of 470 mL.
    expect(packing.parts[0]).toMatchObject({ containers: 6, massG: 200, heapL: 0.246, bagL: 0.47, packets: [100] });
    expect(packing.parts[0]?.contents[0]?.foodId).toBe('lentil-brown');
    // 0.2095 x (470 - 200 / 1.30) = 66.2 cc; x 1.25 = 83, so 100.
    expect(packing.parts[0]?.oxygenCc).toBeCloseTo(66.2, 1);
    const card = await app.get(`${CHOWDER}/card${asQuery({ standIns: 'pulses-with-lentil-brown' })}`);
    expect(await card.text()).toMatch(/brown or green lentils 400/);
    await expectProblem(app, () => app.get(`${CHOWDER}/card${asQuery({ standIns: 'pulses-with-rice' })}`), {
      type: 'invalid-input',
      field: { parameter: 'standIns', value: 'pulses-with-rice' },
    });
  });

  it('its packing sheet says why the milk powder bag goes first', async () => {
    const html = (await (await app.get(`${CHOWDER}/packing-sheet${asQuery({ sets: '2' })}`)).text()).replaceAll(
      '\u00a0',
      ' ',
    );
    expect(html).toMatch(/Mind: whole milk powder.*Too fatty to keep for years/);
    expect(html).toMatch(/The kit as a whole goes by its milk powder, onion and broth/);
    expect(html).toContain('fill 4 bags');
  });
});
