/** Combining spreads: exact cases, and sums with and without shared causes. Monte Carlo: tests/cooking/monte-carlo.test.ts. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lognormalP90Factor, parameterFromCv, sureParameter } from '../../api/physics/parameter.ts';
import {
  type CauseEffect,
  percentilesOf,
  propagateSpread,
  spreadShares,
  sumOfSpreads,
} from '../../api/physics/spread.ts';

const SOURCE = { key: 'kitchenPractice', place: 'test' } as const;

describe('propagateSpread', () => {
  it('is exact for a product of powers of log-normal parameters', () => {
    const parameters = {
      a: parameterFromCv(2, 0.2, '1', SOURCE),
      b: parameterFromCv(5, 0.3, '1', SOURCE),
      c: sureParameter(3, '1', SOURCE),
    };
    const spread = propagateSpread(parameters, (v) => ({ y: (v.a ** 2 * v.c) / v.b }));
    const sigma = Math.hypot(2 * Math.log(lognormalP90Factor(0.2)), Math.log(lognormalP90Factor(0.3)));
    expect(spread.percentiles.y.p50).toBeCloseTo(2.4, 12);
    expect(spread.percentiles.y.p90).toBeCloseTo(2.4 * Math.exp(sigma), 10);
    expect(spread.percentiles.y.p10).toBeCloseTo(2.4 * Math.exp(-sigma), 10);
    const shares = spreadShares(spread.effects.y);
    expect(shares.map((row) => row.cause)).toEqual(['a', 'b']);
    expect(shares.reduce((sum, row) => sum + row.share, 0)).toBeCloseTo(1, 9);
  });

  it('gives a sure result no spread and no cause', () => {
    const spread = propagateSpread({ a: sureParameter(4, '1', SOURCE) }, (v) => ({ y: v.a + 1 }));
    expect(spread.percentiles.y).toEqual({ p10: 5, p50: 5, p90: 5 });
    expect(spreadShares(spread.effects.y)).toEqual([]);
  });

  it('counts a cause whose ends lie on one side on that side only', () => {
    const kink = propagateSpread({ a: { ...parameterFromCv(1, 0.3, '1', SOURCE) } }, (v) => ({ y: Math.max(v.a, 1) }));
    expect(kink.percentiles.y.p10).toBe(1);
    expect(kink.percentiles.y.p90).toBeGreaterThan(1.3);
  });
});

const effect = (cause: string, size: number): CauseEffect => ({ cause, atLow: -size, atHigh: size });

describe('sumOfSpreads', () => {
  it('does not average out what is shared: ten alike dishes on one stove keep the band of one', () => {
    const parts = Array.from({ length: 10 }, () => ({ value: 2, effects: [effect('stove', 0.3)] }));
    const sum = sumOfSpreads(parts);
    expect(percentilesOf(sum.value, sum.effects).p90 / sum.value).toBeCloseTo(Math.exp(0.3), 10);
  });

  it('averages out what is not: nine alike independent dishes have a third of the band of one, to first order', () => {
    const parts = Array.from({ length: 9 }, (_, index) => ({ value: 2, effects: [effect(`lot ${index}`, 0.06)] }));
    const sum = sumOfSpreads(parts);
    // Half of the step's square, 0.2 % of 6 %, is what the logarithm bends.
    expect(percentilesOf(sum.value, sum.effects).p90 / sum.value - 1).toBeGreaterThan(0.02);
    expect(percentilesOf(sum.value, sum.effects).p90 / sum.value - 1).toBeLessThan(0.021);
  });

  it('never gives a narrower band than independence nor a wider one than the sum of the bands', () => {
    const part = fc.record({
      value: fc.double({ min: 0.01, max: 10, noNaN: true }),
      effects: fc.uniqueArray(
        fc.record({
          cause: fc.constantFrom('stove', 'wind', 'lot a', 'lot b'),
          atHigh: fc.double({ min: 0, max: 0.5, noNaN: true }),
        }),
        { selector: (row) => row.cause, maxLength: 4 },
      ),
    });
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 6 }), (rows) => {
        const parts = rows.map((row) => ({
          value: row.value,
          effects: row.effects.map(({ cause, atHigh }) => ({ cause, atLow: -atHigh, atHigh })),
        }));
        const sum = sumOfSpreads(parts);
        const ours = percentilesOf(sum.value, sum.effects);
        const alone = parts.map((one) => percentilesOf(one.value, one.effects));
        expect(ours.p50).toBeCloseTo(
          alone.reduce((total, one) => total + one.p50, 0),
          9,
        );
        // Logarithms of sums bend: a hundredth covers steps up to a half.
        expect(ours.p90).toBeLessThanOrEqual(alone.reduce((total, one) => total + one.p90, 0) * 1.01 + 1e-9);
        const apart = sumOfSpreads(
          parts.map((one, index) => ({
            ...one,
            effects: one.effects.map((row) => ({ ...row, cause: `${row.cause} ${index}` })),
          })),
        );
        expect(ours.p90).toBeGreaterThanOrEqual(percentilesOf(apart.value, apart.effects).p90 * 0.99 - 1e-9);
      }),
    );
  });

  it('is the thing itself for one part', () => {
    const one = { value: 3, effects: [effect('stove', 0.2), effect('wind', 0.4)] };
    const sum = sumOfSpreads([one]);
    expect(sum.value).toBe(3);
    expect(percentilesOf(sum.value, sum.effects).p90).toBeCloseTo(percentilesOf(3, one.effects).p90, 12);
  });
});

describe('spreadShares', () => {
  it('adds up to one, largest first', () => {
    const shares = spreadShares([effect('small', 0.1), effect('large', 0.3), effect('small', 0.1)]);
    expect(shares.map((row) => row.cause)).toEqual(['large', 'small']);
    expect(shares[0]?.share).toBeCloseTo(0.09 / 0.11, 10);
  });
});
