/**
 * What is known of a positive quantity before and after it was measured. Spreads are log-normal: the logarithm is normal,
 * with the table's percentiles as prior.
 *
 * Normal prior and normal readings of known spread: precisions add, means are weighted by them,
 * `1/s^2 = 1/s0^2 + sum 1/si^2`, `m = s^2 (m0/s0^2 + sum mi/si^2)`. Source: Gelman and others, Bayesian Data Analysis,
 * third edition, section 2.5, equations 2.11 and 2.12. Readings that scatter more than their spreads allow are widened
 * (`scatterFactor`). Counts of soft seeds are binomial and have no closed form; their
 * posterior is summed over a grid.
 */
import { type Percentiles, Z_90 } from '../../physics/parameter.ts';

/** A log-normal quantity: mean and standard deviation of its natural logarithm. */
export interface LogNormal {
  /** ln of the median. */
  mean: number;
  /** >= 0. */
  sd: number;
}

/**
 * A log-normal quantity from its median and percentiles; where they are not symmetrical in logarithms, the mean of both
 * half-widths is taken.
 * @param p all > 0, any one unit
 */
export function logNormalOf(p: Percentiles): LogNormal {
  return { mean: Math.log(p.p50), sd: Math.log(p.p90 / p.p10) / (2 * Z_90) };
}

/** Low, typical and high of a log-normal quantity, in its unit. */
export function lognormalPercentiles({ mean, sd }: LogNormal): Percentiles {
  return { p10: Math.exp(mean - Z_90 * sd), p50: Math.exp(mean), p90: Math.exp(mean + Z_90 * sd) };
}

/**
 * How much further readings lie apart than their spreads allow: `sqrt(sum ((mi - m) / si)^2 / (n - 1))` about their weighted
 * mean, at least 1. Source: Birge, The calculation of errors by the method of least squares, Physical Review 40 (1932).
 * @param readings each with `sd` > 0
 * @returns 1 where they agree or where there are fewer than two; no unit
 */
export function scatterFactor(readings: readonly LogNormal[]): number {
  if (readings.length < 2) return 1;
  let precision = 0;
  let weighted = 0;
  const ordered = inOrder(readings);
  for (const { mean, sd } of ordered) {
    precision += 1 / sd ** 2;
    weighted += mean / sd ** 2;
  }
  const middle = weighted / precision;
  const squares = ordered.reduce((sum, { mean, sd }) => sum + ((mean - middle) / sd) ** 2, 0);
  return Math.max(1, Math.sqrt(squares / (readings.length - 1)));
}

/** Sums of floating-point numbers depend on their order. */
function inOrder(readings: readonly LogNormal[]): LogNormal[] {
  return [...readings].sort((a, b) => a.mean - b.mean || a.sd - b.sd);
}

/**
 * Posterior of a quantity from its prior and independent readings, in closed form.
 * @param prior what is known without the readings
 * @param readings each with its own spread, `sd` > 0, which is widened where they contradict one another; their order
 *   changes nothing, not even the last digit
 * @returns the prior itself where there are no readings, or where it is sure
 */
export function updateLogNormal(prior: LogNormal, readings: readonly LogNormal[]): LogNormal {
  if (readings.length === 0 || prior.sd === 0) return prior;
  const wider = scatterFactor(readings) ** 2;
  let precision = 1 / prior.sd ** 2;
  let weighted = prior.mean * precision;
  for (const { mean, sd } of inOrder(readings)) {
    precision += 1 / (wider * sd ** 2);
    weighted += mean / (wider * sd ** 2);
  }
  return { mean: weighted / precision, sd: 1 / Math.sqrt(precision) };
}

/**
 * How far a reading lies from what was expected, in standard deviations of the prior prediction
 * `sqrt(s0^2 + si^2)` (Bayesian Data Analysis, section 2.5, posterior predictive distribution).
 * @returns negative where it is below
 */
export function deviationOf(prior: LogNormal, reading: LogNormal): number {
  const sd = Math.hypot(prior.sd, reading.sd);
  return sd > 0 ? (reading.mean - prior.mean) / sd : 0;
}

/** A count of seeds that were soft after some minutes. */
export interface SoftCount {
  /** ln of the minutes at the boil at which they were tried. */
  lnMinutes: number;
  soft: number;
  /** Seeds tried, >= 1. */
  of: number;
  /** Standard deviation of ln minutes from seed to seed of one lot, > 0. */
  seedSd: number;
  /** Standard deviation of ln minutes that all seeds of this test share: temperature, soak, judgement, >= 0. */
  sharedSd: number;
}

/** A pot that was not soft yet after some minutes: how long it takes is known from below only. */
export interface HardPot {
  /** ln of the minutes at the boil at which it was tried. */
  lnMinutes: number;
  /** Standard deviation of ln minutes of this trial: temperature, soak, judgement, > 0. */
  sd: number;
}

/** Chance that a pot which takes `exp(lnPotMinutes)` is not soft when it is tried. */
function chanceOfHard({ lnMinutes, sd }: HardPot, lnPotMinutes: number): number {
  return Math.max(1e-12, normalShare((lnPotMinutes - lnMinutes) / sd));
}

/** Chance that a pot is not soft when it is tried, before it is: the prior prediction, two independent normal errors. */
export function chanceHardBefore(prior: LogNormal, { lnMinutes, sd }: HardPot): number {
  return normalShare((prior.mean - lnMinutes) / Math.hypot(prior.sd, sd));
}

/** Share of the seeds of a pot that are soft when the pot is called soft: 19 of 20. */
const SOFT_POT_DEVIATE = 1.6448536269514722;
const GRID_POINTS = 601;
/** Points of a prediction, whose chances are wanted to about a thousandth. */
const PREDICTION_POINTS = 121;
/** Half-width of the grid in standard deviations. */
const GRID_REACH = 6;
/**
 * Even steps in what all seeds of a test share, with their weights. They reach into the tails: tests that contradict one
 * another are told apart by nothing else, and without the tails their posterior would be far too sure.
 */
const SHARED_STEPS = 41;
const SHARED_REACH = 6;

/**
 * Posterior of the minutes until a pot of a lot is soft, from a prior and counts of soft seeds.
 *
 * `P(soft) = Phi((ln t - ln t_pot + 1.645 s) / s + e)`: seeds of a lot soften at log-normally spread times, and the pot is
 * soft when 19 of 20 are. The prior is weighted by the binomial probability of each count on an even grid in logarithms.
 * @param prior of the minutes until the pot is soft, `sd` > 0
 * A pot that was not soft at `t` weighs each point by the chance that it takes longer, `Phi((ln t_pot - ln t) / sd)`.
 * @param counts in any order
 * @param hard pots that were tried and not soft, in any order
 * @returns percentiles of the posterior, min; those of the prior where there are neither
 */
export function updateWithCounts(
  prior: LogNormal,
  counts: readonly SoftCount[],
  hard: readonly HardPot[] = [],
): Percentiles {
  if ((counts.length === 0 && hard.length === 0) || prior.sd === 0) return lognormalPercentiles(prior);
  const ordered = [...counts].sort((a, b) => a.lnMinutes - b.lnMinutes || a.soft - b.soft || a.of - b.of);
  const points = gridAround(prior, ordered, hard);
  // Logarithms: the product of tests that contradict prior and one another is smaller than any number.
  const logWeights = points.map((point) => -0.5 * ((point - prior.mean) / prior.sd) ** 2);
  for (const count of ordered) {
    const shifts = sharedShifts(count);
    for (let at = 0; at < points.length; at += 1)
      logWeights[at] = (logWeights[at] as number) + Math.log(chanceOf(count, points[at] as number, shifts, count.soft));
  }
  for (const trial of [...hard].sort((a, b) => a.lnMinutes - b.lnMinutes || a.sd - b.sd))
    for (let at = 0; at < points.length; at += 1)
      logWeights[at] = (logWeights[at] as number) + Math.log(chanceOfHard(trial, points[at] as number));
  const most = logWeights.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  return percentilesOfGrid(
    points,
    logWeights.map((weight) => Math.exp(weight - most)),
  );
}

/**
 * Chance of each number of soft seeds before the test: the prior prediction.
 * @param count its `soft` is not looked at
 * @returns from none soft to all soft; the chances add up to 1
 */
export function chancesOfCounts(prior: LogNormal, count: SoftCount): number[] {
  // What the seeds share shifts the minutes as the prior does: two independent normal errors are one.
  const spread = { mean: prior.mean, sd: Math.hypot(prior.sd, count.sharedSd) };
  const { points, weights } = priorGrid(spread, PREDICTION_POINTS);
  const chances = new Array<number>(count.of + 1).fill(0);
  let total = 0;
  for (let at = 0; at < points.length; at += 1) {
    const share = shareSoft(count, points[at] as number, 0);
    for (let soft = 0; soft <= count.of; soft += 1)
      chances[soft] = (chances[soft] as number) + (weights[at] as number) * binomial(count.of, soft, share);
    total += weights[at] as number;
  }
  return chances.map((chance) => chance / total);
}

/** An even grid that reaches past the prior and past what each test says by itself. */
function gridAround({ mean, sd }: LogNormal, counts: readonly SoftCount[], hard: readonly HardPot[]): Float64Array {
  let low = mean - GRID_REACH * sd;
  let high = mean + GRID_REACH * sd;
  for (const { lnMinutes, soft, of, seedSd, sharedSd } of counts) {
    const middle = lnMinutes + seedSd * (SOFT_POT_DEVIATE - normalDeviate((soft + 0.5) / (of + 1)));
    const reach = GRID_REACH * Math.hypot(seedSd, sharedSd);
    low = Math.min(low, middle - reach);
    high = Math.max(high, middle + reach);
  }
  for (const trial of hard) high = Math.max(high, trial.lnMinutes + GRID_REACH * trial.sd);
  return Float64Array.from({ length: GRID_POINTS }, (_, at) => low + ((high - low) * at) / (GRID_POINTS - 1));
}

function priorGrid(prior: LogNormal, size: number): { points: Float64Array; weights: Float64Array } {
  const points = new Float64Array(size);
  const weights = new Float64Array(size);
  for (let at = 0; at < size; at += 1) {
    const deviate = GRID_REACH * ((2 * at) / (size - 1) - 1);
    points[at] = prior.mean + deviate * prior.sd;
    weights[at] = Math.exp(-0.5 * deviate * deviate);
  }
  return { points, weights };
}

/** What all seeds of a test share: a shift of ln minutes, and how likely it is. */
interface Shift {
  by: number;
  weight: number;
}

/** Shifts of ln minutes that all seeds of a test share; their weights add up to 1. */
function sharedShifts({ sharedSd }: SoftCount): Shift[] {
  if (!(sharedSd > 0)) return [{ by: 0, weight: 1 }];
  const deviates = Array.from(
    { length: SHARED_STEPS },
    (_, step) => SHARED_REACH * ((2 * step) / (SHARED_STEPS - 1) - 1),
  );
  const densities = deviates.map((deviate) => Math.exp(-0.5 * deviate * deviate));
  const total = densities.reduce((sum, density) => sum + density, 0);
  return deviates.map((deviate, step) => ({ by: sharedSd * deviate, weight: (densities[step] as number) / total }));
}

/** Chance of a number of soft seeds where the pot takes `exp(lnPotMinutes)`, what the seeds share averaged out. */
function chanceOf(count: SoftCount, lnPotMinutes: number, shifts: readonly Shift[], soft: number): number {
  let sum = 0;
  for (const { by, weight } of shifts) sum += weight * binomial(count.of, soft, shareSoft(count, lnPotMinutes, by));
  return sum;
}

function shareSoft(count: SoftCount, lnPotMinutes: number, shift: number): number {
  const share = normalShare((count.lnMinutes + shift - lnPotMinutes) / count.seedSd + SOFT_POT_DEVIATE);
  return Math.min(1 - 1e-9, Math.max(1e-9, share));
}

function binomial(of: number, soft: number, share: number): number {
  let ways = 1;
  for (let i = 1; i <= soft; i += 1) ways *= (of - soft + i) / i;
  return ways * share ** soft * (1 - share) ** (of - soft);
}

function percentilesOfGrid(points: Float64Array, weights: Float64Array): Percentiles {
  let total = 0;
  for (const weight of weights) total += weight;
  const at = (share: number): number => {
    let sum = 0;
    for (let i = 0; i < points.length; i += 1) {
      const weight = weights[i] as number;
      // Each point stands for the slice half a step to either side of it.
      if (sum + weight >= share * total && weight > 0) {
        const step = (points[1] as number) - (points[0] as number);
        return Math.exp((points[i] as number) + step * ((share * total - sum) / weight - 0.5));
      }
      sum += weight;
    }
    return Math.exp(points[points.length - 1] as number);
  };
  return { p10: at(0.1), p50: at(0.5), p90: at(0.9) };
}

/**
 * Share of a standard normal quantity below a deviate. Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.26
 * (error below 1.5e-7).
 */
export function normalShare(deviate: number): number {
  const x = Math.abs(deviate) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const poly = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  const tail = 0.5 * poly * Math.exp(-x * x);
  return deviate < 0 ? tail : 1 - tail;
}

/**
 * Deviate below which a share of a standard normal quantity lies, by halving `normalShare`.
 * @param share 0 to 1, ends excluded
 */
export function normalDeviate(share: number): number {
  let low = -9;
  let high = 9;
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if (normalShare(middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
