/**
 * Parameters with their spread and source; `spread.ts` combines them.
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

/**
 * A parameter's value between its percentiles: logarithmic where all three are above 0, else linear.
 * @param deviate -1: 10th percentile, 0: typical, 1: 90th; beyond, the same line goes on
 */
export function valueAtDeviate(parameter: Parameter, deviate: number): number {
  const { value, p10, p90 } = parameter;
  if (deviate === 0) return value;
  const end = deviate > 0 ? p90 : p10;
  const steps = Math.abs(deviate);
  if (p10 > 0) return value * (end / value) ** steps;
  return value + steps * (end - value);
}

/**
 * A cause that stands for a step between the percentiles of table rows, for `valueAtDeviate`.
 * @param place what it steps between
 */
export function deviateParameter(place: string, low = -1, high = 1): Parameter {
  return { value: 0, p10: low, p90: high, unit: '', source: { key: 'planner-derivation', place }, estimate: false };
}
