import { describe, expect, it } from 'vitest';
import { openSqliteStore } from '../../api/runtime/node/sqlite-store.ts';
import { expectProblem, type TestApp, testApp } from './test-app.ts';

const fileOf = async (test: TestApp) => (await test.get('/api/kits.json')).json();
const take = (test: TestApp, file: unknown, more: object = {}) =>
  test.send('POST', '/api/kits.json', { file, ...more });

describe('a file of kits', () => {
  it('comes back as it went out, and says of each kit what becomes of it', async () => {
    const from = await testApp();
    const file = await fileOf(from);
    expect(file).toMatchObject({ file: 'kits', version: 1, foods: [] });
    const into = await testApp({ store: openSqliteStore(':memory:') });
    const [kit] = file.kits;
    expect((await take(into, { ...file, kits: [kit] })).status).toBe(201);
    const renamed = { ...kit, id: 'renamed', name: 'Renamed' };
    const preview = await take(
      into,
      { ...file, kits: [kit, renamed, { ...kit, id: 'x', servings: 0 }] },
      { preview: true },
    );
    expect((await preview.json()).items.map((item: { outcome: string }) => item.outcome)).toEqual([
      'same',
      'new',
      'refused',
    ]);
    expect((await take(into, { ...file, kits: [...file.kits, renamed] })).status).toBe(201);
    expect((await fileOf(into)).kits.map((one: { id: string }) => one.id)).toContain('renamed');
    const { kits } = await fileOf(into);
    expect(kits.filter((one: { id: string }) => one.id !== 'renamed')).toEqual(file.kits);
  });

  it('replaces a stored kit only where that is said, and never takes away a part that is in stock', async () => {
    const test = await testApp();
    const file = await fileOf(test);
    const changed = { ...file, kits: [{ ...file.kits[0], name: 'Changed' }] };
    await expectProblem(test, () => take(test, changed), {
      type: 'invalid-input',
      field: { pointer: '#/file/kits/0/id' },
    });
    expect((await take(test, changed, { replace: true })).status).toBe(201);
    expect((await (await test.get(`/api/kits/${file.kits[0].id}`)).json()).name).toBe('Changed');
    const without = { ...file, kits: [{ ...file.kits[0], parts: file.kits[0].parts.slice(1) }] };
    await expectProblem(test, () => take(test, without, { replace: true }), {
      type: 'invalid-input',
      field: { pointer: '#/file/kits/0/parts' },
    });
  });

  it.each([
    ['a list of something else', { file: 'recipes', version: 1, kits: [] }, '#/file/file'],
    ['a later version', { file: 'kits', version: 7, kits: [] }, '#/file/version'],
    ['no list', { file: 'kits', version: 1, kits: {} }, '#/file/kits'],
  ])('is refused when it is %s', async (_name, file, pointer) => {
    const test = await testApp();
    await expectProblem(test, () => take(test, file), { type: 'invalid-input', field: { pointer } });
  });

  it('names value, range and unit of a negative mass, and what an empty part lacks', async () => {
    const test = await testApp();
    const file = await fileOf(test);
    const part = (own: object[]) => ({ id: 'p', name: 'P', ingredients: own });
    const kits = [
      { ...file.kits[0], id: 'minus', parts: [part([{ foodId: 'oil', massG: -5 }])] },
      { ...file.kits[0], id: 'empty', parts: [part([])] },
    ];
    const problem = await expectProblem(test, () => take(test, { ...file, kits }), {
      type: 'invalid-input',
      field: {
        pointer: '#/file/kits/0/parts/0/ingredients/0/massG',
        value: -5,
        minimum: 0.1,
        maximum: 50_000,
        unit: 'g',
      },
    });
    expect(problem.errors).toContainEqual(
      expect.objectContaining({ pointer: '#/file/kits/1/parts/0/ingredients', detail: 'At least 1 entry.' }),
    );
  });

  it('offers the nearest names for unknown foods, and stores none of its kits', async () => {
    const test = await testApp();
    const file = await fileOf(test);
    const part = { id: 'p', name: 'P', ingredients: [{ foodId: 'kidny-bean', massG: 100 }] };
    const kits = [
      { ...file.kits[0], id: 'good' },
      { ...file.kits[0], id: 'bad', parts: [part] },
    ];
    const problem = await expectProblem(test, () => take(test, { ...file, kits }), {
      type: 'invalid-input',
      field: { pointer: '#/file/kits/1/parts/0/ingredients/0/foodId' },
    });
    expect(problem.detail).toMatch(/Nearest: Kidney beans \(kidney-bean\)/);
    expect((await test.get('/api/kits/good')).status).toBe(404);
  });
});

describe('a kit as a schema.org Recipe', () => {
  it('has what a reader of recipes looks for, and no minutes that would be wrong elsewhere', async () => {
    const test = await testApp();
    const answer = await test.get('/api/kits/red-bean-barley-stew/recipe');
    expect(answer.headers.get('content-type')).toMatch(/^application\/ld\+json/);
    const recipe = await answer.json();
    expect(recipe).toMatchObject({
      '@context': 'https://schema.org',
      '@type': 'Recipe',
      name: 'Red bean and barley stew',
      recipeYield: '5 servings',
      recipeCategory: ['Dinner'],
      nutrition: { '@type': 'NutritionInformation' },
    });
    expect(recipe.recipeIngredient[0]).toBe('330 g kidney beans (kidney beans)');
    expect(recipe.nutrition.calories).toMatch(/^\d+ calories$/);
    const text = recipe.recipeInstructions.map((step: { text: string }) => step.text).join(' ');
    expect(text).toMatch(/pour that water away/);
    expect(text).toMatch(/boil hard for at least 30 minutes/);
    expect(recipe.cookTime).toBeUndefined();
    expect((await test.get('/api/kits/none/recipe')).status).toBe(404);
  });

  it('names the foods that may stand in', async () => {
    const test = await testApp();
    const recipe = await (await test.get('/api/kits/pea-sweetcorn-chowder/recipe')).json();
    expect(recipe.recipeIngredient[0]).toBe(
      '400 g split peas, or brown or green lentils, or red split lentils (split peas)',
    );
  });
});
