import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Ingredient } from '../../api/cooking/dishes/kit.ts';
import { avoidedIn, kitNutrition } from '../../api/cooking/dishes/kit-nutrition.ts';
import { FOODS } from '../../api/cooking/foods/foods-table.ts';

const kitOf = (ingredients: Ingredient[], servings = 1, partIds = ['dry']) => ({
  servings,
  parts: partIds.map((id, index) => ({
    id,
    name: id,
    ingredients: ingredients.filter((_, at) => at % partIds.length === index),
  })),
});

const ingredients = fc.array(
  fc.record({ foodId: fc.constantFrom(...Object.keys(FOODS)), massG: fc.integer({ min: 0, max: 2000 }) }),
  { maxLength: 6 },
);

describe('what a kit feeds', () => {
  it('adds up by hand: 500 g of lentils and 20 g of salt for 8', () => {
    // 5 * 352 / 8 = 220 kcal, 5 * 24.63 / 8 = 15.39 g: USDA SR28 16069.
    const nutrition = kitNutrition(
      kitOf(
        [
          { foodId: 'lentil-brown', massG: 500 },
          { foodId: 'salt', massG: 20 },
        ],
        8,
      ),
    );
    expect(nutrition.kcalPerServing).toBeCloseTo(220, 9);
    expect(nutrition.proteinGPerServing).toBeCloseTo(15.39, 2);
    expect(nutrition.saltGPerServing).toBeCloseTo(2.5, 9);
    expect(nutrition.dryMassG).toBeCloseTo(520, 9);
    expect(nutrition.storedWaterG).toBeGreaterThan(30);
  });

  it('is the same however the ingredients lie in parts, and proportional to mass over servings', () => {
    fc.assert(
      fc.property(ingredients, fc.integer({ min: 1, max: 40 }), (list, servings) => {
        const one = kitNutrition(kitOf(list, servings));
        const split = kitNutrition(kitOf(list, servings, ['a', 'b', 'c']));
        const double = kitNutrition(
          kitOf(
            list.map((row) => ({ ...row, massG: row.massG * 2 })),
            servings * 2,
          ),
        );
        expect(split.kcalPerServing).toBeCloseTo(one.kcalPerServing, 6);
        expect(double.proteinGPerServing).toBeCloseTo(one.proteinGPerServing, 6);
        expect(split.allergens).toEqual(one.allergens);
        expect(one.kcalBandPerServing.p10).toBeLessThanOrEqual(one.kcalPerServing + 1e-9);
        expect(one.kcalBandPerServing.p90).toBeGreaterThanOrEqual(one.kcalPerServing - 1e-9);
        // Nothing eaten holds more energy than fat does.
        expect(one.kcalPerServing * servings).toBeLessThanOrEqual(one.dryMassG * 9 + 1e-6);
        expect(one.storedWaterG).toBeLessThanOrEqual(one.dryMassG + 1e-9);
      }),
    );
  });

  it('names allergens once, and apart those that only an alternative brings', () => {
    const nutrition = kitNutrition(
      kitOf([
        { foodId: 'bulgur', massG: 200, alternatives: ['quinoa', 'soybean'] },
        { foodId: 'pearl-barley', massG: 200 },
        { foodId: 'milk-powder', massG: 50 },
      ]),
    );
    expect(nutrition.allergens).toEqual(['gluten', 'milk']);
    expect(nutrition.allergensOfAlternatives).toEqual(['soy']);
  });

  it('finds what a person avoids, by food and by allergen', () => {
    const kit = kitOf([
      { foodId: 'bulgur', massG: 200 },
      { foodId: 'lentil-brown', massG: 200 },
    ]);
    expect(avoidedIn(kit, ['milk', 'lentil-brown', 'gluten'])).toEqual(['lentil-brown', 'gluten']);
  });

  it('refuses an unknown food, a negative mass and a kit without servings', () => {
    expect(() => kitNutrition(kitOf([{ foodId: 'moon-cheese', massG: 1 }]))).toThrow(/most like it/);
    expect(() => kitNutrition(kitOf([{ foodId: 'white-rice', massG: -1 }]))).toThrow(/0 g or more/);
    expect(() => kitNutrition(kitOf([], 0))).toThrow(/above 0/);
  });
});
