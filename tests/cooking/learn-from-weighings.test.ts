/** Weighings in the course of a plan against figures worked out by hand. */
import { describe, expect, it } from 'vitest';
import { readWeighedUse, type WeighedUse, withWeighings } from '../../api/cooking/measurements/learn-from-weighings.ts';
import type { LearnedFigure } from '../../api/cooking/measurements/learned.ts';

const record = (own: Partial<WeighedUse> = {}): WeighedUse => ({
  kind: 'weighed-use',
  id: 'weighed-plan-burner',
  householdId: 'two',
  at: '2026-12-06T07:00',
  stoveId: 'burner',
  fires: 3,
  used: 0.12,
  usedSd: 0.006,
  unit: 'kg',
  predicted: { p10: 0.1 / 1.5, p50: 0.1, p90: 0.15 },
  plannedFactor: 1,
  ownShare: 0.36,
  ...own,
});
const untested: LearnedFigure = {
  unit: '1',
  table: { p10: 0.4, p50: 0.5, p90: 0.625 },
  stated: null,
  now: { p10: 0.4, p50: 0.5, p90: 0.625 },
  records: [],
  questioned: [],
  text: '',
};
const withOne = (own: Partial<WeighedUse> = {}, before = untested) =>
  withWeighings('Burner', before, [{ id: 'weighed-plan-burner', fires: 3, reading: readWeighedUse(record(own)) }], []);

describe('a weighing as a reading of the efficiency', () => {
  it('has the logarithm of the ratio as its mean, and what is not of the stove as its spread', () => {
    const { efficiency, question } = readWeighedUse(record());
    // ln(1/1.2); sd ln(1.5)/1.28155 = 0.31639, of which 0.8 is not of the stove; scale 0.05.
    expect(efficiency.mean).toBeCloseTo(-0.18232, 5);
    expect(efficiency.sd).toBeCloseTo(Math.hypot(0.8 * 0.31639, 0.05), 4);
    expect(question).toBeNull();
  });

  it('moves the figure by the closed form of two normals, and narrows it', () => {
    const figure = withOne();
    // Prior sd ln(0.625/0.4)/2.56310 = 0.17412; precisions 32.98 and 15.02; mean -0.0571.
    expect(figure.now.p50).toBeCloseTo(0.5 * Math.exp(-0.05706), 4);
    expect(Math.log(figure.now.p90 / figure.now.p10)).toBeLessThan(Math.log(0.625 / 0.4));
    expect(figure.text).toBe('Burner: uses about 6 % more fuel than the table (weighed over 3 fires).');
  });

  it('says the same of a stove whose plan already counted with what was learned', () => {
    // Predicted with an efficiency 0.8 of the table, and used as predicted: 0.8 of the table it is.
    const { efficiency } = readWeighedUse(record({ used: 0.1, plannedFactor: 0.8 }));
    expect(Math.exp(efficiency.mean)).toBeCloseTo(0.8, 9);
  });

  it('keeps the middle where as much was used as predicted, and never exceeds what was burnt', () => {
    expect(withOne({ used: 0.1 }).now.p50).toBeCloseTo(0.5, 6);
    const high = { ...untested, table: { p10: 0.85, p50: 0.9, p90: 0.95 }, now: { p10: 0.85, p50: 0.9, p90: 0.95 } };
    expect(withOne({ used: 0.05 }, high).now.p90).toBeLessThanOrEqual(1);
  });

  it('is questioned far outside what was expected, with a question', () => {
    expect(readWeighedUse(record({ used: 0.5 })).question).toMatch(/leak/);
    expect(readWeighedUse(record({ used: 0.01, usedSd: 0.0005 })).question).toMatch(/another container/);
  });
});
