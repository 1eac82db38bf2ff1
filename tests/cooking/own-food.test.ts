import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answerCookTime } from '../../api/cooking/calculators/answer-cook-time.ts';
import { answerFuelUse } from '../../api/cooking/calculators/answer-fuel-use.ts';
import { answerSoaking } from '../../api/cooking/calculators/answer-soaking.ts';
import { createCalculations } from '../../api/cooking/calculators/calculations.ts';
import { dishNeeds, isRefusal, soakableParts, whyNoSafeSoak } from '../../api/cooking/dishes/dish.ts';
import { alternativeOf, type Kit } from '../../api/cooking/dishes/kit.ts';
import { avoidedIn, kitNutrition } from '../../api/cooking/dishes/kit-nutrition.ts';
import type { Food } from '../../api/cooking/foods/food.ts';
import { FOODS } from '../../api/cooking/foods/foods-table.ts';
import { editDistance, nearestFoods } from '../../api/cooking/foods/nearest-foods.ts';
import { type OwnFood, ownFoodRow } from '../../api/cooking/foods/own-food.ts';
import { OWN_FOOD_CLASSES, type OwnFoodClass } from '../../api/cooking/foods/own-food-classes.ts';

const GARDEN_BEANS: OwnFood = {
  id: 'garden-beans',
  name: 'Garden beans',
  foodClass: 'bean',
  kcalPer100G: 330,
  proteinGPer100G: 22,
  moistureGPer100G: 11,
  packetMinutes: 60,
};
const classes = Object.keys(OWN_FOOD_CLASSES) as OwnFoodClass[];

function named(food: Food) {
  return { foodId: food.id, ownFood: food };
}

describe('an own food', () => {
  it('takes what the label says and guesses the rest from its class, marked', () => {
    const row = ownFoodRow(GARDEN_BEANS);
    expect(row.kcalPer100G).toMatchObject({ value: 330, estimate: false, source: { key: 'food-label' } });
    expect(row.proteinGPer100G.value).toBe(22);
    expect(row.own?.guessed).toEqual(
      expect.arrayContaining(['salt', 'soaking', 'water taken up', 'bulk density', 'lectin']),
    );
    expect(row.own?.guessed).not.toContain('energy');
    expect(row.own?.guessed).not.toContain('cooking minutes');
    expect(row.bulkDensityGPerL).toMatchObject({
      estimate: true,
      note: expect.stringMatching(/guessed from the class/),
    });
  });

  it.each(classes)(
    '%s: every figure lies between its ends, guesses are wider than the row they come from',
    (foodClass) => {
      const row = ownFoodRow({ id: 'x-1', name: 'X', foodClass });
      const like = FOODS[OWN_FOOD_CLASSES[foodClass].like] as Food;
      for (const key of ['kcalPer100G', 'proteinGPer100G', 'waterGPer100G', 'bulkDensityGPerL'] as const) {
        const { p10, value, p90, estimate } = row[key];
        expect(p10).toBeLessThanOrEqual(value);
        expect(value).toBeLessThanOrEqual(p90);
        expect(estimate).toBe(true);
        expect(p90 - p10).toBeGreaterThanOrEqual(like[key].p90 - like[key].p10 - 1e-9);
      }
      expect(row.own?.guessed).toEqual(expect.arrayContaining(['energy', 'protein', 'moisture', 'bulk density']));
    },
  );

  it('H6: any own bean counts as kidney family, whatever its label says', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 600 }), fc.boolean(), (packetMinutes, packetMinutesSoaked) => {
        const row = ownFoodRow({ ...GARDEN_BEANS, packetMinutes, packetMinutesSoaked });
        expect(row.lectin).toBe('kidney-family');
        const answer = answerCookTime({
          ...named(row),
          elevationM: 0,
          soak: { hours: 12, waterC: 20, discardWater: true },
        });
        expect(answer.lectin.verdict).toBe('safe');
        // Thirty minutes in fresh water after a soak of five hours or more (FDA, Bad Bug Book, kidney bean lectin).
        expect(answer.lectin.boilMinutesNeeded).toBeGreaterThanOrEqual(30);
        const asKidney = answerCookTime({
          foodId: 'kidney-bean',
          elevationM: 3200,
          soak: { hours: 12, waterC: 20, discardWater: true },
        });
        const high = answerCookTime({
          ...named(row),
          elevationM: 3200,
          soak: { hours: 12, waterC: 20, discardWater: true },
        });
        expect(high.lectin.verdict).toBe(asKidney.lectin.verdict);
      }),
      { numRuns: 30 },
    );
  });

  it('boils as long as the packet says at sea level, and longer up the mountain', () => {
    const lentils = ownFoodRow({
      id: 'hill-lentils',
      name: 'Hill lentils',
      foodClass: 'lentil-or-split-pea',
      packetMinutes: 25,
      packetMinutesSoaked: false,
    });
    const sea = answerCookTime({ ...named(lentils), elevationM: 0 });
    // The packet's minutes are those of unsoaked lentils; within a minute, for the water that enters is counted apart.
    expect(Math.abs(sea.minutes.p50 - 25)).toBeLessThan(1.5);
    expect(answerCookTime({ ...named(lentils), elevationM: 3000 }).minutes.p50).toBeGreaterThan(sea.minutes.p50 * 1.5);
    expect(
      answerSoaking({ ...named(ownFoodRow(GARDEN_BEANS)), hours: 12, waterC: 20 }).uptakeGPerG.p50,
    ).toBeGreaterThan(0.5);
    const fuel = {
      stove: { typeId: 'propane-camp' as const },
      fuelId: 'propane' as const,
      vessel: { kind: 'pot' as const, capacityL: 4 },
      waterL: 2,
      startC: 10,
      airC: 10,
      elevationM: 0,
      wind: 'still' as const,
      holdMinutes: 10,
    };
    expect(answerFuelUse({ ...fuel, foods: [{ ...named(lentils), massG: 400 }] }).heatToPotMJ.p50).toBeGreaterThan(
      answerFuelUse(fuel).heatToPotMJ.p50,
    );
  });

  it('says what was guessed beside every answer about it', () => {
    const row = ownFoodRow(GARDEN_BEANS);
    const marked = /Guessed from its class, because its label does not say: .*soaking/;
    expect(answerCookTime({ ...named(row), elevationM: 0 }).advice).toMatch(marked);
    expect(answerSoaking({ ...named(row), hours: 8, waterC: 15 }).advice).toMatch(marked);
    expect(answerCookTime({ foodId: 'kidney-bean', elevationM: 0 }).advice ?? '').not.toMatch(/Guessed/);
  });

  it('brings its energy, salt and allergens into the kit, and is avoided by id and by allergen', () => {
    const ownFood = ownFoodRow({ ...GARDEN_BEANS, id: 'bean-mix', saltGPer100G: 2, allergens: ['soy', 'celery'] });
    const kit: Kit = {
      id: 'k',
      name: 'K',
      servings: 2,
      style: 'stew',
      suits: ['evening'],
      parts: [{ id: 'a', name: 'Beans', ingredients: [{ foodId: 'bean-mix', ownFood, massG: 200 }] }],
    };
    const nutrition = kitNutrition(kit);
    expect(nutrition.kcalPerServing).toBeCloseTo(330, 9);
    expect(nutrition.saltGPerServing).toBeCloseTo(2, 9);
    expect(nutrition.allergens).toEqual(['soy', 'celery']);
    expect(avoidedIn(kit, ['soy', 'milk', 'bean-mix'])).toEqual(['soy', 'bean-mix']);
    expect(soakableParts(kit).map((part) => part.id)).toEqual(['a']);
    expect(whyNoSafeSoak(kit)).toBeNull();
    const mixed = {
      ...kit,
      parts: [{ ...kit.parts[0], ingredients: [...(kit.parts[0]?.ingredients ?? []), { foodId: 'salt', massG: 5 }] }],
    } as Kit;
    expect(whyNoSafeSoak(mixed)?.reason).toMatch(/Garden beans lie in one part/);
  });

  it('sour ones wait until pulses are soft, milk in powder until the end, as those of the tables', () => {
    const sour = ownFoodRow({ id: 'sour-powder', name: 'Sour powder', foodClass: 'instant-powder', sour: true });
    const milk = ownFoodRow({ id: 'own-milk', name: 'Own milk', foodClass: 'milk-powder' });
    const kitOf = (foodId: string, ownFood?: Food): Kit => ({
      id: 'k',
      name: 'K',
      servings: 2,
      style: 'stew',
      suits: ['evening'],
      parts: [
        { id: 'a', name: 'Lentils', ingredients: [{ foodId: 'lentil-brown', massG: 200 }] },
        { id: 'b', name: 'Rest', ingredients: [{ foodId, massG: 40, ...(ownFood === undefined ? {} : { ownFood }) }] },
      ],
    });
    const lateOf = (kit: Kit): number | undefined => {
      const needs = dishNeeds(kit, 2, { elevationM: 0, gaugeKPa: null }, null, 'kept', null, createCalculations());
      return isRefusal(needs) ? undefined : needs.additions.find(({ partId }) => partId === 'b')?.atMinute;
    };
    expect(lateOf(kitOf('sour-powder', sour))).toBe(lateOf(kitOf('tomato-powder')));
    expect(lateOf(kitOf('own-milk', milk))).toBe(lateOf(kitOf('whole-milk-powder')));
    expect(lateOf(kitOf('own-milk', milk))).toBeGreaterThan(0);
  });

  it('stands in for another food with its own row', () => {
    const own = ownFoodRow(GARDEN_BEANS);
    const swapped = alternativeOf(
      { foodId: 'pinto-bean', massG: 100, alternatives: ['garden-beans'], ownAlternatives: [own] },
      'garden-beans',
    );
    expect(swapped).toMatchObject({ foodId: 'garden-beans', massG: 100 });
    expect(swapped.ownFood).toBe(own);
    expect(alternativeOf({ ...swapped, alternatives: ['pinto-bean'] }, 'pinto-bean').ownFood).toBeUndefined();
  });

  it('is refused with figures that no label can hold', () => {
    expect(() => ownFoodRow({ ...GARDEN_BEANS, kcalPer100G: 2000 })).toThrow(/kcalPer100G/);
    expect(() => ownFoodRow({ ...GARDEN_BEANS, moistureGPer100G: -1 })).toThrow(/moistureGPer100G/);
  });
});

describe('nearest names', () => {
  const foods = Object.values(FOODS);
  it.each([
    ['kidny-bean', 'kidney-bean'],
    ['pintobean', 'pinto-bean'],
    ['wite rice', 'white-rice'],
    ['rice white', 'white-rice'],
    ['lentil', 'lentil-brown'],
    ['rolled oat', 'rolled-oats'],
  ])('%s is %s', (typed, id) => {
    expect(nearestFoods(typed, foods).map((food) => food.id)).toContain(id);
  });

  it('offers nothing for what is like nothing', () => {
    expect(nearestFoods('zzqqxxjj', foods)).toEqual([]);
    expect(nearestFoods('', foods)).toEqual([]);
  });

  it('counts edits alike both ways, none between equal texts, and a swap as one', () => {
    expect(editDistance('ab', 'ba')).toBe(1);
    fc.assert(
      fc.property(fc.string({ maxLength: 12 }), fc.string({ maxLength: 12 }), (a, b) => {
        expect(editDistance(a, b)).toBe(editDistance(b, a));
        expect(editDistance(a, a)).toBe(0);
        expect(editDistance(a, b)).toBeGreaterThanOrEqual(Math.abs(a.length - b.length));
        expect(editDistance(a, b)).toBeLessThanOrEqual(Math.max(a.length, b.length));
      }),
    );
  });
});
