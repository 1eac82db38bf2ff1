/** How far predictions lie from measurements, the same for both tables. */

/** A prediction: typical value and, where there is one, the band that 8 in 10 values should lie in. */
export interface Prediction {
  p50: number;
  p10?: number;
  p90?: number;
}

/** One measured value against its prediction. */
export interface Scored {
  id: string;
  measured: number;
  prediction: Prediction;
  /** (predicted - measured) / measured; 0.1 is 10 % too much. */
  error: number;
  /** Whether the measured value lies inside P10 to P90; null without a band. */
  inside: boolean | null;
  /** P90 / P10; null without a band. */
  width: number | null;
}

/** @param measured above 0, in the unit of the prediction */
export function score(id: string, measured: number, prediction: Prediction): Scored {
  const { p10, p50, p90 } = prediction;
  if (![measured, p50].every((x) => Number.isFinite(x)) || !(measured > 0))
    throw new Error(`${id}: ${p50} cannot be scored against ${measured}`);
  const banded = p10 !== undefined && p90 !== undefined;
  return {
    id,
    measured,
    prediction,
    error: p50 / measured - 1,
    inside: banded ? measured >= p10 && measured <= p90 : null,
    width: banded ? p90 / p10 : null,
  };
}

export interface Summary {
  n: number;
  /** Median of the absolute errors. */
  medianError: number;
  within25: number;
  /** Values inside their band, of those that have one. */
  inside: number;
  banded: number;
  medianWidth: number;
}

export function summarise(rows: readonly Scored[]): Summary {
  const banded = rows.filter((row) => row.inside !== null);
  return {
    n: rows.length,
    medianError: median(rows.map((row) => Math.abs(row.error))),
    within25: rows.filter((row) => Math.abs(row.error) <= 0.25).length,
    inside: banded.filter((row) => row.inside === true).length,
    banded: banded.length,
    medianWidth: median(banded.map((row) => row.width as number)),
  };
}

/** Middle of the sorted values, mean of the two middle ones where their number is even; 0 of none. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length / 2;
  if (sorted.length === 0) return 0;
  return sorted.length % 2 === 1
    ? (sorted[Math.floor(half)] as number)
    : ((sorted[half - 1] as number) + (sorted[half] as number)) / 2;
}
