/**
 * The one method by which spreads are combined: each cause in turn at its 10th and 90th percentile, the steps added in
 * quadrature of logarithms. Causes that several things share (a stove, the wind) move all of them together in a sum.
 */
import type { Parameter, Percentiles, SpreadShare } from './parameter.ts';

export type ParameterRecord = Record<string, Parameter>;
export type ValuesOf<P extends ParameterRecord> = { [K in keyof P]: number };

/**
 * What one cause does to one quantity: the step of the quantity when this cause alone goes from its typical value to its
 * 10th (`atLow`) or 90th (`atHigh`) percentile. Logarithm of the ratio for a quantity above 0, else in its own unit.
 */
export interface CauseEffect {
  cause: string;
  atLow: number;
  atHigh: number;
}

/** The result of a relation together with what its spread comes from. */
export interface Spreadable<Result> {
  /** Every named quantity at the typical values of the parameters. */
  typical: Result;
  /** Low, typical and high of every numeric quantity of the result. */
  percentiles: { [K in keyof Result]: Percentiles };
  /** Per quantity, what each cause does to it; causes that do nothing are left out. */
  effects: { [K in keyof Result]: CauseEffect[] };
}

const SMALL = 1e-12;
/** A quantity that vanishes at one end of a cause (no steam under a tight lid) counts as a twentieth there. */
const LEAST_RATIO = 0.05;

/**
 * Combines the spreads of independent parameters into the spread of every quantity of a relation.
 *
 * Each parameter in turn is put at its 10th and at its 90th percentile, all others staying typical; `percentilesOf` adds
 * the steps. This is exact for products of powers of independent log-normal parameters and first order otherwise;
 * `tests/cooking/monte-carlo.test.ts` holds it against a Monte Carlo of the same inputs.
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
  const effects = {} as { [K in keyof R]: CauseEffect[] };
  for (const quantity of Object.keys(typical) as (keyof R & string)[]) {
    const middle = typical[quantity];
    const own: CauseEffect[] = [];
    for (let at = 0; at < uncertain.length; at += 1) {
      const atLow = stepOf(middle, (lows[at] as R)[quantity]);
      const atHigh = stepOf(middle, (highs[at] as R)[quantity]);
      if (atLow !== 0 || atHigh !== 0) own.push({ cause: uncertain[at] as string, atLow, atHigh });
    }
    effects[quantity] = own;
    percentiles[quantity] = percentilesOf(middle, own);
  }
  return { typical, percentiles, effects };
}

/** The step from a typical value to another value of the same quantity, as `CauseEffect` has it. */
export function stepOf(typical: number, value: number): number {
  return typical > SMALL ? Math.log(Math.max(value / typical, LEAST_RATIO)) : value - typical;
}

/**
 * Low, typical and high of a quantity: the steps of independent causes towards less add in quadrature to the 10th
 * percentile, those towards more to the 90th. A cause with both ends on one side (a kink) counts on that side only.
 * @param typical value at typical causes, any unit
 * @param effects one entry per independent cause
 */
export function percentilesOf(typical: number, effects: readonly CauseEffect[]): Percentiles {
  let up = 0;
  let down = 0;
  for (const { atLow, atHigh } of effects) {
    up += Math.max(atLow, atHigh, 0) ** 2;
    down += Math.max(-atLow, -atHigh, 0) ** 2;
  }
  return typical > SMALL
    ? { p10: typical * Math.exp(-Math.sqrt(down)), p50: typical, p90: typical * Math.exp(Math.sqrt(up)) }
    : { p10: typical - Math.sqrt(down), p50: typical, p90: typical + Math.sqrt(up) };
}

/**
 * How much of the spread each cause brings: its mean step up and down, squared, over the sum of all. Shares under a
 * thousandth are left out.
 * @returns shares 0 to 1, largest first; empty where nothing is uncertain
 */
export function spreadShares(effects: readonly CauseEffect[]): SpreadShare[] {
  const squares = new Map<string, number>();
  let total = 0;
  for (const { cause, atLow, atHigh } of effects) {
    const square = ((Math.max(atLow, atHigh, 0) + Math.max(-atLow, -atHigh, 0)) / 2) ** 2;
    squares.set(cause, (squares.get(cause) ?? 0) + square);
    total += square;
  }
  if (!(total > 0)) return [];
  return [...squares]
    .map(([cause, square]) => ({ cause, share: square / total }))
    .filter((row) => row.share >= 0.001)
    .sort((a, b) => b.share - a.share || (a.cause < b.cause ? -1 : 1));
}

/** One part of a sum: its typical value and what the causes do to it. */
export interface SummandSpread {
  value: number;
  effects: readonly CauseEffect[];
}

/**
 * A sum of things that share causes. A cause of the same name moves all parts together, so that its steps add; causes of
 * different names are independent, so that they average out. The same method as `propagateSpread`, applied to the sum.
 * @param parts values >= 0 in one unit
 * @returns typical sum, and the effects on it, one per cause; `percentilesOf` makes the band
 */
export function sumOfSpreads(parts: readonly SummandSpread[]): { value: number; effects: CauseEffect[] } {
  let value = 0;
  const steps = new Map<string, { low: number; high: number }>();
  for (const part of parts) {
    value += part.value;
    for (const { cause, atLow, atHigh } of part.effects) {
      const step = steps.get(cause) ?? { low: 0, high: 0 };
      step.low += changeOf(part.value, atLow);
      step.high += changeOf(part.value, atHigh);
      steps.set(cause, step);
    }
  }
  const effects: CauseEffect[] = [];
  for (const [cause, { low, high }] of steps) {
    if (low === 0 && high === 0) continue;
    effects.push({ cause, atLow: stepOf(value, value + low), atHigh: stepOf(value, value + high) });
  }
  return { value, effects };
}

function changeOf(value: number, step: number): number {
  return value > SMALL ? value * (Math.exp(step) - 1) : step;
}
