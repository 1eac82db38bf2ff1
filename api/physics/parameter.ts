/**
 * Parameters with their spread and source, and the one method by which spreads are combined.
 *
 * Physics never looks a value up: it is handed parameter records that were resolved from the tables, or from a user's
 * own measurement, in one place (`cooking/resolve-*.ts`).
 */
import type { WorkKey } from '../references/works-cited.ts';

/** Where a figure was read: the work and the place in it (section, table, page). */
export interface SourceRef {
  key: WorkKey;
  place: string;
}

/**
 * One uncertain input. `p10` and `p90` are the 10th and 90th percentile of what a household will meet, not the
 * repeatability of one laboratory. A sure value has `p10 === value === p90`.
 */
export interface Parameter {
  /** Typical (median) value, in `unit`. */
  value: number;
  p10: number;
  p90: number;
  unit: string;
  source: SourceRef;
  /** True where the value rests on memory, common practice, analogy or extrapolation. */
  estimate: boolean;
  note?: string;
}

/** Low, typical and high: the 10th, 50th and 90th percentile. */
export interface Percentiles {
  p10: number;
  p50: number;
  p90: number;
}

/** How much of the variance of a result one cause of spread brings: `share` is 0 to 1, largest first. */
export interface SpreadShare {
  cause: string;
  share: number;
}

/** The standard normal deviate of the 90th percentile. */
export const Z_90 = 1.2815515655446004;

/**
 * P90 factor of a log-normal quantity from its coefficient of variation.
 *
 * `exp(z90 * sqrt(ln(1 + cv^2)))`, with the typical value taken as the median.
 * @param cv coefficient of variation (standard deviation / mean), >= 0, no unit
 * @returns factor >= 1 from the median to the 90th percentile; the 10th percentile is the median divided by it
 */
export function lognormalP90Factor(cv: number): number {
  return Math.exp(Z_90 * Math.sqrt(Math.log(1 + cv * cv)));
}

/**
 * A parameter whose spread is stated as a coefficient of variation, read as log-normal about the median.
 * @param value typical value, in `unit`, > 0
 * @param cv coefficient of variation, >= 0
 */
export function parameterFromCv(
  value: number,
  cv: number,
  unit: string,
  source: SourceRef,
  options: { estimate?: boolean; note?: string } = {},
): Parameter {
  const factor = lognormalP90Factor(cv);
  return {
    value,
    p10: value / factor,
    p90: value * factor,
    unit,
    source,
    estimate: options.estimate ?? false,
    ...(options.note === undefined ? {} : { note: options.note }),
  };
}

/** A parameter taken as certain. */
export function sureParameter(value: number, unit: string, source: SourceRef): Parameter {
  return { value, p10: value, p90: value, unit, source, estimate: false };
}

export type ParameterRecord = Record<string, Parameter>;
export type ValuesOf<P extends ParameterRecord> = { [K in keyof P]: number };

/** The result of a relation together with what its spread comes from. */
export interface Spreadable<Result> {
  /** Every named quantity at the typical values of the parameters. */
  typical: Result;
  /** Low, typical and high of every numeric quantity of the result. */
  percentiles: { [K in keyof Result]: Percentiles };
  /** Per quantity, the causes of spread with their share of the variance, largest first. */
  causes: { [K in keyof Result]: SpreadShare[] };
}

const SMALL = 1e-12;

/**
 * Combines the spreads of independent parameters into the spread of every quantity of a relation.
 *
 * Each parameter in turn is put at its 10th and at its 90th percentile, all others staying typical. The upward steps
 * of a quantity (in logarithms where it is positive throughout, else in its own unit) add in quadrature to its P90, the
 * downward steps to its P10. This is exact for products of powers of independent log-normal parameters and first order
 * otherwise; `tests/physics/parameter.test.ts` holds it against a Monte Carlo.
 *
 * Source: the law of propagation of uncertainty, JCGM 100:2008 (GUM) section 5.1.2, with one-at-a-time steps instead of
 * derivatives so that kinks (the lowest steady flame, a lid) are seen.
 * @param parameters named parameters
 * @param relation pure function of the parameters' values; returns a flat record of numbers
 */
export function propagateSpread<P extends ParameterRecord, R extends { [K in keyof R]: number }>(
  parameters: P,
  relation: (values: ValuesOf<P>) => R,
): Spreadable<R> {
  const names = Object.keys(parameters) as (keyof P & string)[];
  const typicalValues = Object.fromEntries(names.map((name) => [name, (parameters[name] as Parameter).value]));
  const typical = relation(typicalValues as ValuesOf<P>);
  const quantities = Object.keys(typical) as (keyof R & string)[];
  const steps = new Map<string, { cause: string; up: number; down: number }[]>();
  for (const quantity of quantities) steps.set(quantity, []);
  for (const name of names) {
    const parameter = parameters[name] as Parameter;
    if (parameter.p10 === parameter.p90) continue;
    const low = relation({ ...typicalValues, [name]: parameter.p10 } as ValuesOf<P>);
    const high = relation({ ...typicalValues, [name]: parameter.p90 } as ValuesOf<P>);
    for (const quantity of quantities) {
      const middle = typical[quantity];
      const a = low[quantity];
      const b = high[quantity];
      const logarithmic = isPositiveQuantity(middle, a, b);
      const stepA = logarithmic ? Math.log(a / middle) : a - middle;
      const stepB = logarithmic ? Math.log(b / middle) : b - middle;
      steps.get(quantity)?.push({ cause: name, up: Math.max(stepA, stepB, 0), down: Math.max(-stepA, -stepB, 0) });
    }
  }
  const percentiles = {} as { [K in keyof R]: Percentiles };
  const causes = {} as { [K in keyof R]: SpreadShare[] };
  for (const quantity of quantities) {
    const ofQuantity = steps.get(quantity) ?? [];
    const middle = typical[quantity];
    const up = Math.hypot(...ofQuantity.map((step) => step.up));
    const down = Math.hypot(...ofQuantity.map((step) => step.down));
    percentiles[quantity] =
      middle > SMALL
        ? { p10: middle * Math.exp(-down), p50: middle, p90: middle * Math.exp(up) }
        : { p10: middle - down, p50: middle, p90: middle + up };
    const total = ofQuantity.reduce((sum, step) => sum + ((step.up + step.down) / 2) ** 2, 0);
    causes[quantity] =
      total <= 0
        ? []
        : ofQuantity
            .map((step) => ({ cause: step.cause, share: ((step.up + step.down) / 2) ** 2 / total }))
            .filter((row) => row.share >= 0.001)
            .sort((x, y) => y.share - x.share);
  }
  return { typical, percentiles, causes };
}

function isPositiveQuantity(...values: number[]): boolean {
  return values.every((value) => value > SMALL && Number.isFinite(value));
}
