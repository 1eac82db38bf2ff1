import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  boxedDishAtServing,
  eatByAfterBoxing,
  hoursAbove60C,
  hoursUntil,
  temperatureAfter,
} from '../../api/cooking/keeping/hot-holding.ts';
import {
  decideOnColdStore,
  decideOnHeldFood,
  refusalToKeepCold,
  safeUntilAfterHeat,
} from '../../api/cooking/keeping/safe-until.ts';

const starts = fc.double({ min: 61, max: 120, noNaN: true });
const airs = fc.double({ min: -30, max: 45, noNaN: true });
const constants = fc.double({ min: 0.2, max: 60, noNaN: true });

describe('a box that cools', () => {
  it('is at 60 C when its hours above 60 C are over', () => {
    fc.assert(
      fc.property(starts, airs, constants, (startC, airC, tau) => {
        const hours = hoursAbove60C(startC, airC, tau);
        expect(temperatureAfter(startC, airC, tau, hours)).toBeCloseTo(60, 6);
      }),
    );
  });

  it('holds longer when hotter, in warmer air and better insulated', () => {
    fc.assert(
      fc.property(starts, airs, constants, (startC, airC, tau) => {
        const hours = hoursAbove60C(startC, airC, tau);
        expect(hoursAbove60C(startC + 5, airC, tau)).toBeGreaterThan(hours);
        expect(hoursAbove60C(startC, airC + 5, tau)).toBeGreaterThan(hours);
        expect(hoursAbove60C(startC, airC, tau * 1.5)).toBeGreaterThan(hours);
      }),
    );
  });

  it('has the value of the logarithm by hand: 95 C in 15 C with 10 h is 5.75 h', () => {
    // 10 ln(80 / 45) = 5.754
    expect(hoursAbove60C(95, 15, 10)).toBeCloseTo(5.754, 3);
    expect(hoursAbove60C(60, 15, 10)).toBe(0);
    expect(hoursUntil(95, 30, 10, 30)).toBe(Number.POSITIVE_INFINITY);
    expect(() => hoursAbove60C(95, 15, 0)).toThrow();
  });
});

describe('H9: by when a boxed dish is eaten', () => {
  const box = { startC: 95, airC: 15, timeConstantHours: { p10: 7, p50: 10, p90: 14 } };

  it('without a thermometer is when the box at its bad end falls to 60 C', () => {
    const eatBy = eatByAfterBoxing(box, false);
    expect(eatBy.eatByHours).toBeCloseTo(hoursAbove60C(95, 15, 7), 12);
    expect(eatBy.eatByHours).toBeLessThan(hoursAbove60C(95, 15, 10));
    expect(eatBy.limitedByMissingThermometer).toBe(true);
  });

  it('with one is two hours later, one hour in hot air', () => {
    expect(eatByAfterBoxing(box, true).eatByHours).toBeCloseTo(hoursAbove60C(95, 15, 7) + 2, 12);
    const hot = { ...box, airC: 33 };
    expect(eatByAfterBoxing(hot, true).eatByHours).toBeCloseTo(hoursAbove60C(95, 33, 7) + 1, 12);
  });

  it('a thermometer never shortens the time', () => {
    fc.assert(
      fc.property(starts, airs, constants, (startC, airC, tau) => {
        const any = { startC, airC, timeConstantHours: { p10: tau, p50: tau * 1.4, p90: tau * 2 } };
        expect(eatByAfterBoxing(any, true).eatByHours).toBeGreaterThan(eatByAfterBoxing(any, false).eatByHours);
      }),
    );
  });

  it('serves, then reheats, then throws away, and never goes back', () => {
    expect([0, 3.9, 4.1, 6, 6.1, 24].map((hours) => boxedDishAtServing(box, hours))).toEqual([
      'serve',
      'serve',
      'reheat',
      'reheat',
      'discard',
      'discard',
    ]);
  });
});

describe('food out of the safe range', () => {
  it('stands two hours, one above 32 C', () => {
    expect([-10, 25, 32, 32.1, 40].map(safeUntilAfterHeat)).toEqual([2, 2, 2, 1, 1]);
    expect(() => safeUntilAfterHeat(Number.NaN)).toThrow();
  });

  it('gets no better by waiting', () => {
    const rank = { serve: 0, reheat: 1, discard: 2 };
    const hours = fc.double({ min: 0, max: 48, noNaN: true });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 90 }), hours, hours, airs, (temperatureC, a, b, airC) => {
        const early = decideOnHeldFood({ temperatureC, hoursBelow60C: Math.min(a, b), airC });
        const late = decideOnHeldFood({ temperatureC, hoursBelow60C: Math.max(a, b), airC });
        expect(rank[late.decision]).toBeGreaterThanOrEqual(rank[early.decision]);
      }),
    );
  });

  it('of a refrigerator and freezer keeps to the last hour of its time', () => {
    expect(decideOnColdStore('freezer-full', 48).decision).toBe('keep');
    expect(decideOnColdStore('freezer-full', 48.1).decision).toBe('check-temperature');
    expect(() => decideOnColdStore('fridge', -1)).toThrow();
  });
});

describe('H4: leftovers on a cold porch', () => {
  it('are refused from a lidded pot, and the way out names the shallow pan and the thermometer', () => {
    const refusal = refusalToKeepCold({ cooling: 'lidded-pot', thermometer: true, placeBelow5C: true });
    expect(refusal?.wayOut).toContain('open pans');
    expect(refusal?.wayOut).toContain('thermometer');
  });
  it('are allowed from a shallow pan or snow bath only with a thermometer and at 5 C or colder', () => {
    expect(refusalToKeepCold({ cooling: 'shallow-pan', thermometer: true, placeBelow5C: true })).toBeNull();
    expect(refusalToKeepCold({ cooling: 'snow-bath', thermometer: false, placeBelow5C: true })).not.toBeNull();
    expect(refusalToKeepCold({ cooling: 'shallow-pan', thermometer: true, placeBelow5C: false })).not.toBeNull();
  });
});
