import { beforeAll, describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import type { KitFigures } from '../../api/cooking/dishes/kit-figures.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { DEMO_START, expectProblem, type TestApp, testApp } from './test-app.ts';

const { kits } = demoDocuments(DEMO_START);
const STEW = kits.find((kit) => kit.id === 'red-bean-barley-stew') as Kit;

let app: TestApp;
beforeAll(async () => {
  app = await testApp();
});

async function figuresOf(kit: Kit): Promise<KitFigures> {
  const response = await app.send('POST', '/api/kit-figures', { kit, householdId: 'saddle-lane' });
  expect(response.status).toBe(200);
  return (await response.json()) as KitFigures;
}

describe('figures of a kit in the making', () => {
  it('are energy, protein, salt and water, the shortest way and the one that burns least', async () => {
    const figures = await figuresOf(STEW);
    // By hand from USDA SR28: 330 g kidney beans at 337 kcal, 220 g barley at 352, 50 g tomato powder at 302, 30 g onion
    // flakes at 349, 20 g bouillon at 213, 215 g oil at 884, over five servings.
    const kcal = (3.3 * 337 + 2.2 * 352 + 0.5 * 302 + 0.3 * 349 + 0.2 * 213 + 2.15 * 884) / 5;
    expect(figures.nutrition.kcalPerServing).toBeCloseTo(kcal, 6);
    expect(figures.shortest).toMatchObject({ finish: 'pressure', soaked: true, fuelId: 'propane' });
    expect(figures.leastFuel?.mj).toBeLessThanOrEqual(figures.shortest?.mj ?? 0);
    expect(figures.leastFuel?.waterL).toBeGreaterThan(figures.leastFuel?.potWaterL ?? 0);
    expect(figures.noWay).toBeNull();
  });

  it('scale with the amounts and leave the servings to the recipe', async () => {
    const doubled = {
      ...STEW,
      servings: STEW.servings * 2,
      parts: STEW.parts.map((part) => ({
        ...part,
        ingredients: part.ingredients.map((one) => ({ ...one, massG: one.massG * 2 })),
      })),
    };
    const [one, two] = [await figuresOf(STEW), await figuresOf(doubled)];
    expect(two.nutrition.kcalPerServing).toBeCloseTo(one.nutrition.kcalPerServing, 6);
    expect(two.leastFuel?.mj).toBeGreaterThan(one.leastFuel?.mj ?? 0);
  });

  it('come within a tenth of a second, so that they can follow the typing', async () => {
    await figuresOf(STEW);
    const times: number[] = [];
    for (let go = 0; go < 5; go += 1) {
      const start = performance.now();
      await figuresOf(STEW);
      times.push(performance.now() - start);
    }
    expect(Math.min(...times)).toBeLessThan(100);
  });

  it('say how freeze-dried goods may be eaten, and what must lie apart', async () => {
    const noodles = kits.find((kit) => kit.id === 'chicken-noodle-pot') as Kit;
    const figures = await figuresOf(noodles);
    expect(figures.readyFoods.map(({ foodId }) => foodId)).toContain('fd-peas');
    const mixed = {
      ...STEW,
      parts: [
        {
          id: 'all',
          name: 'All',
          ingredients: [
            { foodId: 'kidney-bean', massG: 300 },
            { foodId: 'salt', massG: 5 },
          ],
        },
      ],
    };
    expect((await figuresOf(mixed)).parts[0]?.remarks.find(({ verdict }) => verdict === 'refused')?.wayOut).toMatch(
      /part of their own/,
    );
  });

  it('refuse an unknown food with the nearest names, and an empty part', async () => {
    const kit = { ...STEW, parts: [{ id: 'a', name: 'A', ingredients: [{ foodId: 'kidny-bean', massG: 300 }] }] };
    await expectProblem(app, () => app.send('POST', '/api/kit-figures', { kit }), {
      type: 'invalid-input',
      field: { pointer: '#/kit/parts/0/ingredients/0/foodId', detail: expect.stringContaining('kidney-bean') as never },
    });
    const empty = { ...STEW, parts: [{ id: 'a', name: 'A', ingredients: [] }] };
    await expectProblem(app, () => app.send('POST', '/api/kit-figures', { kit: empty }), {
      type: 'invalid-input',
      field: { pointer: '#/kit/parts/0/ingredients' },
    });
    const negative = { ...STEW, parts: [{ id: 'a', name: 'A', ingredients: [{ foodId: 'white-rice', massG: -3 }] }] };
    await expectProblem(app, () => app.send('POST', '/api/kit-figures', { kit: negative }), {
      type: 'invalid-input',
      field: { pointer: '#/kit/parts/0/ingredients/0/massG', value: -3, unit: 'g' },
    });
  });
});

describe('a part that is eaten as it is', () => {
  const part = { id: 'fruit', name: 'Fruit', asItIs: true, ingredients: [{ foodId: 'fd-strawberry', massG: 40 }] };

  it('is told where it may be', async () => {
    const figures = await figuresOf({ ...STEW, parts: [...STEW.parts, part] });
    expect(figures.parts.map(({ canBeAsItIs }) => canBeAsItIs)).toEqual([false, false, false, true, true]);
  });

  it('is refused where something in it must be cooked', async () => {
    const raw = { ...part, ingredients: [...part.ingredients, { foodId: 'white-rice', massG: 40 }] };
    await expectProblem(app, () => app.send('POST', '/api/kits', { ...STEW, id: 'odd', parts: [...STEW.parts, raw] }), {
      type: 'invalid-input',
      field: { pointer: '#/parts/4/asItIs', detail: expect.stringContaining('eaten dry') as never },
    });
  });
});
