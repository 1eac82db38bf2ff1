import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lotAges } from '../../api/planning/lot-age.ts';
import type { StockLot } from '../../api/planning/plan-types.ts';
import { demoKits } from '../../api/storage/demo-kits.ts';

const kits = demoKits();
const lot = (own: Partial<StockLot>): StockLot => ({
  kitId: 'red-bean-barley-stew',
  partId: 'beans',
  placeId: 'home',
  packedOn: '2006-12-05',
  useBy: null,
  storageC: 20,
  moisturePercent: 10,
  quantity: 1,
  ...own,
});
const TODAY = '2026-12-05';
const lotAge = (one: StockLot, all: typeof kits, storageC: number, today: string) =>
  lotAges([one], all, () => storageC, today)[0] ?? null;

describe('the age of a lot', () => {
  it('says how much longer beans boil: 20 years at 20 C and 10 % are a factor of 1.74', () => {
    // exp(0.637 * 3^((20-4.4)/10) * 2^(10-17) * 20), the relation worked out by hand; within a hundredth.
    expect(lotAge(lot({}), kits, 15, TODAY)?.longerBoil?.p50).toBeCloseTo(1.74, 2);
    expect(lotAge(lot({ storageC: null }), kits, 20, TODAY)?.longerBoil?.p50).toBeCloseTo(1.74, 2);
    expect(lotAge(lot({ partId: 'oil' }), kits, 15, TODAY)?.longerBoil).toBeNull();
  });

  it('keeps shorter the warmer it lies, and boils longer', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('beans', 'barley', 'seasoning', 'oil'),
        fc.integer({ min: -10, max: 40 }),
        (partId, celsius) => {
          const cool = lotAge(lot({ partId, storageC: celsius }), kits, 15, TODAY);
          const warm = lotAge(lot({ partId, storageC: celsius + 5 }), kits, 15, TODAY);
          if (cool === null || warm === null) throw new Error('both are known');
          expect(warm.keepsUntil <= cool.keepsUntil).toBe(true);
          expect(warm.longerBoil?.p50 ?? 1).toBeGreaterThanOrEqual(cool.longerBoil?.p50 ?? 1);
        },
      ),
    );
  });

  it('of ten thousand lots is told within a second', () => {
    const many = Array.from({ length: 10_000 }, (_, index) =>
      lot({ packedOn: `20${10 + (index % 15)}-0${1 + (index % 9)}-11` }),
    );
    const start = performance.now();
    expect(lotAges(many, kits, () => 15, TODAY)).toHaveLength(10_000);
    // Measured in tens of milliseconds; a second leaves room for a busy machine.
    expect(performance.now() - start).toBeLessThan(1000);
  });

  it('serves parts that stand in for others, and is silent where kit or part is gone', () => {
    const lentils = lot({ kitId: 'pea-sweetcorn-chowder', partId: 'pulses-with-lentil-brown' });
    expect(lotAge(lentils, kits, 15, TODAY)?.limitedBy).toMatch(/lentils/);
    expect(lotAge(lot({ kitId: 'gone' }), kits, 15, TODAY)).toBeNull();
    expect(lotAge(lot({ partId: 'gone' }), kits, 15, TODAY)).toBeNull();
    // Oil of the tables: two years in the cool at the most.
    expect(lotAge(lot({ partId: 'oil', storageC: 4, packedOn: '2026-01-31' }), kits, 15, TODAY)?.keepsUntil).toBe(
      '2028-01-31',
    );
  });
});
