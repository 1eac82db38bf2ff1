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
 * @param relation pure function of the parameters' values; returns a flat record of numbers. It is run twice for every
 *   uncertain parameter and handed the same record each time: it may neither keep nor return that record
 */
export function propagateSpread<P extends ParameterRecord, R extends { [K in keyof R]: number }>(
  parameters: P,
  relation: (values: ValuesOf<P>) => R,
): Spreadable<R> {
  const values: Record<string, number> = {};
  const uncertain: string[] = [];
  for (const name of Object.keys(parameters)) {
    const { value, p10, p90 } = parameters[name] as Parameter;
    values[name] = value;
    if (p10 !== p90) uncertain.push(name);
  }
  const typical = relation(values as ValuesOf<P>);
  const lows: R[] = [];
  const highs: R[] = [];
  for (const name of uncertain) {
    const { value, p10, p90 } = parameters[name] as Parameter;
    values[name] = p10;
    lows.push(relation(values as ValuesOf<P>));
    values[name] = p90;
    highs.push(relation(values as ValuesOf<P>));
    values[name] = value;
  }
  const percentiles = {} as { [K in keyof R]: Percentiles };
  const causes = {} as { [K in keyof R]: SpreadShare[] };
  const ups = new Array<number>(uncertain.length);
  const downs = new Array<number>(uncertain.length);
  for (const quantity of Object.keys(typical) as (keyof R & string)[]) {
    const middle = typical[quantity];
    let total = 0;
    for (let at = 0; at < uncertain.length; at += 1) {
      const a = (lows[at] as R)[quantity];
      const b = (highs[at] as R)[quantity];
      const logarithmic = isPositive(middle) && isPositive(a) && isPositive(b);
      const stepA = logarithmic ? Math.log(a / middle) : a - middle;
      const stepB = logarithmic ? Math.log(b / middle) : b - middle;
      const up = Math.max(stepA, stepB, 0);
      const down = Math.max(-stepA, -stepB, 0);
      ups[at] = up;
      downs[at] = down;
      total += ((up + down) / 2) ** 2;
    }
    const up = Math.hypot(...ups);
    const down = Math.hypot(...downs);
    percentiles[quantity] =
      middle > SMALL
        ? { p10: middle * Math.exp(-down), p50: middle, p90: middle * Math.exp(up) }
        : { p10: middle - down, p50: middle, p90: middle + up };
    causes[quantity] = sharesOf(uncertain, ups, downs, total);
  }
  return { typical, percentiles, causes };
}

function sharesOf(names: string[], ups: number[], downs: number[], total: number): SpreadShare[] {
  const shares: SpreadShare[] = [];
  if (!(total > 0)) return shares;
  for (let at = 0; at < names.length; at += 1) {
    const share = (((ups[at] as number) + (downs[at] as number)) / 2) ** 2 / total;
    if (share >= 0.001) shares.push({ cause: names[at] as string, share });
  }
  return shares.sort((x, y) => y.share - x.share);
}

function isPositive(value: number): boolean {
  return value > SMALL && Number.isFinite(value);
}
