/** Derivations of the figures that own tests leave: worked out again by a foreign parser, and held against the update itself. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { explainLearned } from '../../api/cooking/derivations/explain-learned.ts';
import { logNormalOf, lognormalPercentiles, updateLogNormal } from '../../api/cooking/measurements/bayes.ts';
import { evidenceOf, type LearnedFigure } from '../../api/cooking/measurements/learned.ts';
import { recompute } from './evaluate-steps.ts';

const SHARED = 0.03;
const reading = fc.record({
  mean: fc.double({ min: -1, max: 1, noNaN: true }),
  sd: fc.double({ min: 0.02, max: 0.5, noNaN: true }),
});

/** A figure as the boil tests leave it: prior of the table, update in logarithms, what all tests share, at most 1. */
function figureOf(
  unit: string,
  typical: number,
  spread: number,
  readings: { mean: number; sd: number }[],
): LearnedFigure {
  const table = { p10: typical / spread, p50: typical, p90: typical * spread };
  const before = { mean: 0, sd: logNormalOf(table).sd };
  const after = updateLogNormal(before, readings);
  const factor = lognormalPercentiles({ ...after, sd: Math.min(before.sd, Math.hypot(after.sd, SHARED)) });
  const down = unit === '1' ? Math.min(1, 1 / (typical * factor.p90)) : 1;
  const scaled = (x: number): number => typical * x * down;
  return {
    unit,
    table,
    stated: null,
    now: { p10: scaled(factor.p10), p50: scaled(factor.p50), p90: scaled(factor.p90) },
    records: readings.map((_one, index) => `test-${index}`),
    questioned: [],
    text: '',
    ...evidenceOf(
      readings.map((found, index) => ({ id: `test-${index}`, found })),
      SHARED,
    ),
  };
}

describe('the derivation of an own figure', () => {
  it('ends in the figure that counts, for any tests that agree or contradict one another', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(['1', 0.45] as const, ['kW', 2.6] as const, ['h', 22] as const),
        fc.double({ min: 1.1, max: 3, noNaN: true }),
        fc.array(reading, { minLength: 1, maxLength: 5 }),
        ([unit, typical], spread, readings) => {
          const figure = figureOf(unit, typical, spread, readings);
          const steps = explainLearned(figure);
          const again = recompute(steps) as number;
          expect(Math.abs(again / figure.now.p50 - 1)).toBeLessThan(1e-9);
          const value = (name: string): number => steps.find(({ quantity }) => quantity === name)?.value as number;
          expect(value('ownLow') / figure.now.p10).toBeCloseTo(1, 9);
          expect(value('ownHigh') / figure.now.p90).toBeCloseTo(1, 9);
        },
      ),
    );
  });

  it('without evidence is the figure as it stands', () => {
    const { evidence: _gone, ...bare } = figureOf('h', 22, 2, [{ mean: 0.2, sd: 0.1 }]) as LearnedFigure;
    expect(explainLearned(bare).at(-1)).toMatchObject({ quantity: 'ownFigure', value: bare.now.p50, inputs: [] });
    expect(explainLearned({ ...bare, records: [] }).at(-1)?.relation).toMatch(/no test counts/);
  });
});
