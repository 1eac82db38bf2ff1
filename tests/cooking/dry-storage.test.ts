import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FOODS } from '../../api/cooking/foods/foods-table.ts';
import {
  absorberAdvice,
  absorberToOrderCc,
  NEVER_WITH_ABSORBER,
  NO_ABSORBER_NEEDED,
  oxygenCc,
  PACKED_WITH_ABSORBER,
} from '../../api/cooking/keeping/oxygen-absorbers.ts';
import { SHELF_LIVES, type ShelfLifeClass, shelfLifeMonths } from '../../api/cooking/keeping/shelf-life.ts';

const classes = Object.keys(SHELF_LIVES) as ShelfLifeClass[];

describe('shelf life', () => {
  it('never grows with warmth, never passes its cap and is never nothing', () => {
    const storage = fc.double({ min: -20, max: 45, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom(...classes), storage, storage, (id, a, b) => {
        const cold = shelfLifeMonths(id, Math.min(a, b));
        const warm = shelfLifeMonths(id, Math.max(a, b));
        expect(warm).toBeLessThanOrEqual(cold + 1e-9);
        expect(cold).toBeLessThanOrEqual(SHELF_LIVES[id].capMonths.value + 1e-9);
        expect(warm).toBeGreaterThan(0);
      }),
    );
  });

  it('halves for every 5.6 K above the known temperatures', () => {
    expect(shelfLifeMonths('dry-beans-bagged', 21 + 5.6)).toBeCloseTo(6, 9);
    expect(shelfLifeMonths('dry-staple-sealed', 24 + 11.2)).toBeCloseTo(90, 9);
    expect(() => shelfLifeMonths('barley', 80)).toThrow();
  });
});

describe('oxygen absorbers', () => {
  it('are rounded up to whole hundreds and hold at least a quarter more than there is', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 10_000, noNaN: true }), (oxygen) => {
        const order = absorberToOrderCc(oxygen);
        expect(order % 100).toBe(0);
        expect(order).toBeGreaterThanOrEqual(oxygen * 1.25 - 1e-9);
        expect(order).toBeLessThanOrEqual(oxygen * 1.25 + 100);
      }),
    );
  });

  it('need less oxygen the fuller the container, and no container holds more than its volume', () => {
    expect(oxygenCc(4, 3, 1.4)).toBeLessThan(oxygenCc(4, 2, 1.4));
    expect(() => oxygenCc(1, 2, 1.4)).toThrow(/fit/);
  });

  it('H15: are refused with home-dried meat, and home-dried food waits for the snap test', () => {
    expect(absorberAdvice({ id: 'beef', homeDried: true, meat: true }).advice).toBe('never');
    expect(absorberAdvice({ id: 'carrot', homeDried: true, moisturePercent: 5 }).advice).toBe('warn');
  });

  it('name the foods of the pantry, each on one list at most', () => {
    const unstocked = ['jerky', 'granola', 'whole-wheat-flour', 'brown-sugar', 'baking-soda', 'baking-powder', 'yeast'];
    const listed = [...PACKED_WITH_ABSORBER, ...NO_ABSORBER_NEEDED, ...NEVER_WITH_ABSORBER];
    expect(listed.filter((id) => FOODS[id] === undefined).sort()).toEqual(unstocked.sort());
    expect(new Set(listed).size).toBe(listed.length);
  });

  it('are never advised with goods of the pantry that are moist or run, whatever their moisture figure says', () => {
    for (const food of Object.values(FOODS)) {
      const { advice } = absorberAdvice({ id: food.id, moisturePercent: food.waterGPer100G.value });
      if (food.waterGPer100G.value > 15 || food.group === 'fat') expect(advice, food.id).not.toBe('yes');
    }
  });

  it('go by the list first, and by moisture where no list names the food', () => {
    expect(absorberAdvice({ id: 'pinto-bean', moisturePercent: 11.3 }).advice).toBe('yes');
    expect(absorberAdvice({ id: 'own-mix', moisturePercent: 9 }).advice).toBe('yes');
    expect(absorberAdvice({ id: 'own-mix', moisturePercent: 12 }).advice).toBe('warn');
    expect(absorberAdvice({ id: 'own-mix', moisturePercent: 16 }).advice).toBe('never');
    expect(absorberAdvice({ id: 'own-mix' }).advice).toBe('warn');
    expect(absorberAdvice({ id: 'brown-rice', moisturePercent: 9 }).advice).toBe('never');
  });
});
