import { describe, expect, it } from 'vitest';
import type { Food } from '../../api/cooking/foods/food.ts';
import { expectProblem, type TestApp, testApp } from './test-app.ts';

const BEANS = {
  id: 'garden-beans',
  name: 'Garden beans',
  foodClass: 'bean',
  kcalPer100G: 330,
  packetMinutes: 60,
  allergens: ['soy'],
};
const KIT = {
  id: 'garden-stew',
  name: 'Garden stew',
  servings: 4,
  style: 'stew',
  suits: ['evening'],
  parts: [{ id: 'beans', name: 'Beans', soakable: true, ingredients: [{ foodId: 'garden-beans', massG: 400 }] }],
};
const CREATE = { 'if-none-match': '*' };

async function withBeans(): Promise<TestApp> {
  const app = await testApp();
  expect((await app.send('PUT', '/api/foods/garden-beans', BEANS, CREATE)).status).toBe(201);
  return app;
}

describe('own foods', () => {
  it('are described, listed among the foods with what was guessed, read, changed and deleted', async () => {
    const app = await withBeans();
    const { items } = (await (await app.get('/api/foods')).json()) as { items: Food[] };
    const row = items.find((food) => food.id === 'garden-beans');
    expect(row?.own?.guessed).toContain('protein');
    expect(row?.lectin).toBe('kidney-family');
    const read = await app.get('/api/foods/garden-beans');
    const body = (await read.json()) as typeof BEANS;
    expect(body).toMatchObject(BEANS);
    const tag = read.headers.get('etag') ?? '';
    const put = await app.send('PUT', '/api/foods/garden-beans', { ...body, proteinGPer100G: 21 }, { 'if-match': tag });
    expect(put.status).toBe(200);
    const gone = await app.send('DELETE', '/api/foods/garden-beans', '', { 'if-match': put.headers.get('etag') ?? '' });
    expect(gone.status).toBe(204);
    expect((await app.get('/api/foods/garden-beans')).status).toBe(404);
  });

  it('serve kits, calculators and ways to cook like any food', async () => {
    const app = await withBeans();
    expect((await app.send('PUT', '/api/kits/garden-stew', KIT, CREATE)).status).toBe(201);
    const cook = await app.send('POST', '/api/cook-time?explain=1', {
      foodId: 'garden-beans',
      elevationM: 0,
      soak: { hours: 12, waterC: 20, discardWater: true },
    });
    const answered = (await cook.json()) as {
      lectin: { verdict: string };
      explanation: { source: { key: string } }[];
    };
    expect(answered.lectin.verdict).toBe('safe');
    expect(answered.explanation.map(({ source }) => source.key)).toContain('food-label');
    const soak = await app.send('POST', '/api/soaking', { foodId: 'garden-beans', hours: 12, waterC: 18 });
    expect(soak.status).toBe(200);
    const fuel = await app.send('POST', '/api/fuel-use', {
      stove: { typeId: 'propane-camp' },
      fuelId: 'propane',
      vessel: { kind: 'pot', capacityL: 4 },
      waterL: 2,
      foods: [{ foodId: 'garden-beans', massG: 400 }],
      startC: 8,
      airC: 0,
      elevationM: 0,
      wind: 'still',
      holdMinutes: 30,
    });
    expect(fuel.status).toBe(200);
    const ways = await app.send('POST', '/api/dish-options', {
      householdId: 'saddle-lane',
      kitId: 'garden-stew',
      servings: 4,
      startsAt: '2026-12-05T17:00',
      eatAt: '2026-12-06T18:00',
    });
    const { options } = (await ways.json()) as { options: { verdict: string; method: { soakHours: number | null } }[] };
    expect(options.some(({ verdict, method }) => verdict === 'ok' && (method.soakHours ?? 0) >= 5)).toBe(true);
    expect(app.faults).toEqual([]);
  });

  it('are not stored with the kit, so that what is read can be sent back', async () => {
    const app = await withBeans();
    await app.send('PUT', '/api/kits/garden-stew', KIT, CREATE);
    const read = await app.get('/api/kits/garden-stew');
    const text = await read.text();
    expect(text).not.toContain('ownFood');
    const again = await app.send('PUT', '/api/kits/garden-stew', text, { 'if-match': read.headers.get('etag') ?? '' });
    expect(again.status).toBe(200);
  });

  it('in a kit or avoided by somebody are not deleted', async () => {
    const app = await withBeans();
    await app.send('PUT', '/api/kits/garden-stew', KIT, CREATE);
    const problem = await expectProblem(
      app,
      () => app.send('DELETE', '/api/foods/garden-beans', '', { 'if-match': '*' }),
      {
        type: 'in-use',
      },
    );
    expect(problem.usedBy).toEqual(['/api/kits/garden-stew']);
    expect(problem.detail).toMatch(/Garden stew/);
  });
});

describe('bad input', () => {
  it('offers the nearest names for an unknown food, own ones among them', async () => {
    const app = await withBeans();
    const kit = {
      ...KIT,
      parts: [{ ...KIT.parts[0], ingredients: [{ foodId: 'gardn-beans', massG: 1, alternatives: ['kidny-bean'] }] }],
    };
    await expectProblem(app, () => app.send('POST', '/api/kits', kit), {
      type: 'invalid-input',
      field: {
        pointer: '#/parts/0/ingredients/0/foodId',
        value: 'gardn-beans',
        detail: expect.stringContaining('Garden beans (garden-beans)') as never,
      },
    });
    await expectProblem(app, () => app.send('POST', '/api/kits', kit), {
      type: 'invalid-input',
      field: {
        pointer: '#/parts/0/ingredients/0/alternatives/0',
        detail: expect.stringContaining('kidney-bean') as never,
      },
    });
  });

  it.each([
    ['energy above that of pure fat', { kcalPer100G: 950 }, { pointer: '#/kcalPer100G', maximum: 902, unit: 'kcal' }],
    ['negative moisture', { moistureGPer100G: -1 }, { pointer: '#/moistureGPer100G', minimum: 0 }],
    ['an unknown class', { foodClass: 'fruit-gum' }, { pointer: '#/foodClass' }],
    ['an unknown allergen', { allergens: ['dust'] }, { pointer: '#/allergens/0' }],
    ['a strange member', { iron: 3 }, { pointer: '#/iron' }],
  ])('%s', async (_name, own, field) => {
    const app = await testApp();
    await expectProblem(app, () => app.send('PUT', '/api/foods/garden-beans', { ...BEANS, ...own }, CREATE), {
      type: 'invalid-input',
      field,
    });
  });

  it('more than 100 g in 100 g', async () => {
    const app = await testApp();
    const label = { ...BEANS, proteinGPer100G: 60, moistureGPer100G: 60 };
    await expectProblem(app, () => app.send('PUT', '/api/foods/garden-beans', label, CREATE), {
      type: 'invalid-input',
    });
  });

  it('the id of a food of the tables', async () => {
    const app = await testApp();
    const label = { ...BEANS, id: 'salt' };
    await expectProblem(app, () => app.send('PUT', '/api/foods/salt', label, CREATE), {
      type: 'invalid-input',
      field: { pointer: '#/id', value: 'salt' },
    });
  });

  it('somebody who avoids what is no food', async () => {
    const app = await testApp();
    const household = (await (await app.get('/api/households/saddle-lane')).json()) as { people: object[] };
    household.people[0] = { ...household.people[0], avoids: ['celry'] };
    await expectProblem(app, () => app.send('PUT', '/api/households/saddle-lane', household, { 'if-match': '*' }), {
      type: 'invalid-input',
      field: { pointer: '#/people/0/avoids/0', value: 'celry' },
    });
  });
});
