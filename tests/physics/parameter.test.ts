/** Parameters with their percentiles. */
import { describe, expect, it } from 'vitest';
import { lognormalP90Factor, parameterFromCv, valueAtDeviate, Z_90 } from '../../api/physics/parameter.ts';

const SOURCE = { key: 'kitchenPractice', place: 'test' } as const;

describe('lognormalP90Factor', () => {
  it('is 1 without spread and grows with it', () => {
    expect(lognormalP90Factor(0)).toBe(1);
    expect(lognormalP90Factor(0.3)).toBeGreaterThan(lognormalP90Factor(0.2));
  });

  it('rests on the deviate of the 90th percentile, 1.28155 (any table of the normal distribution)', () => {
    expect(Z_90).toBeCloseTo(1.28155, 5);
  });
});

describe('valueAtDeviate', () => {
  const positive = parameterFromCv(4, 0.25, '1', SOURCE);

  it('meets the percentiles at -1 and 1 and the typical value at 0', () => {
    expect(valueAtDeviate(positive, -1)).toBeCloseTo(positive.p10, 12);
    expect(valueAtDeviate(positive, 0)).toBe(4);
    expect(valueAtDeviate(positive, 1)).toBeCloseTo(positive.p90, 12);
  });

  it('never leaves a positive parameter at or below nothing', () => {
    expect(valueAtDeviate({ ...positive, p10: 0.5 }, -3)).toBeGreaterThan(0);
  });

  it('is a straight line where a percentile is not above 0', () => {
    const around = { ...positive, value: 0, p10: -2, p90: 4 };
    expect(valueAtDeviate(around, -0.5)).toBe(-1);
    expect(valueAtDeviate(around, 0.5)).toBe(2);
  });
});
