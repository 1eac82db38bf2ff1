/**
 * The rule for beans of the kidney family (phytohaemagglutinin). A bean that is warm for hours below the boil can be
 * worse than raw, so nothing here is a matter of likelihood: a way of cooking passes, or it is refused with the way out.
 */
import type { LectinVerdict } from './calculator-types.ts';
import type { Food } from './food.ts';
import { findFood } from './foods-table.ts';
import { hoursToShare, soakNumbers } from './hydration-kinetics.ts';

/** Hours in water before the boil, poured away: FDA kitchen rule (Bad Bug Book). */
export const LECTIN_SOAK_HOURS = 5;
/** Share of a full soak that the beans must have reached for the soak to count: in cold water five hours are not enough. */
export const LECTIN_SOAK_SHARE = 0.8;
/** Minutes at 100 C, FDA; 10 destroys it, the rest is margin. */
export const LECTIN_MINUTES_AT_100C = 30;
/** Below this nothing counts. The boil at 3,000 m in the standard atmosphere is 90.0 C. */
export const LECTIN_COUNTS_FROM_C = 89.5;
/** A winter low at the same elevation boils about 1.3 K lower. */
export const WINTER_LOW_FACTOR = 1.15;

const Z_BELOW_100 = 22;
const Z_ABOVE_100 = 30;

/**
 * Credit of one minute at a temperature, in minutes at 100 C: `10^((T - 100)/z)` with z 22 up to 100 C and 30 above,
 * nothing below 89.5 C.
 *
 * z 22 from whole soaked beans (Thompson 1983, recalled), 30 from purified black-bean lectin (He 2014); each is the
 * careful one on its side.
 */
export function lectinCreditPerMinute(temperatureC: number): number {
  if (temperatureC < LECTIN_COUNTS_FROM_C) return 0;
  return 10 ** ((temperatureC - 100) / (temperatureC <= 100 ? Z_BELOW_100 : Z_ABOVE_100));
}

/**
 * Minutes at a temperature that are worth 30 at 100 C.
 * @returns minutes; infinite below 89.5 C
 */
export function lectinMinutesAt(temperatureC: number): number {
  const credit = lectinCreditPerMinute(temperatureC);
  return credit > 0 ? LECTIN_MINUTES_AT_100C / credit : Number.POSITIVE_INFINITY;
}

/**
 * Whether a boil of known length passes.
 * @param boil minutes of a rolling boil at `temperatureC` before anything cooler (a box, a simmer) begins;
 *   `hydrationMinutes` is water entry still missing at that temperature, which comes first
 */
export function boilPassesLectinRule(boil: {
  temperatureC: number;
  minutes: number;
  hydrationMinutes?: number;
}): boolean {
  const counted = Math.max(0, boil.minutes - (boil.hydrationMinutes ?? 0));
  return counted * lectinCreditPerMinute(boil.temperatureC) >= LECTIN_MINUTES_AT_100C - 1e-9;
}

/**
 * Hours in cool water until a soak counts for the rule: five, and until four fifths of a full soak are reached.
 * @param waterC 0 to 60 C
 * @param foodId a soakable food; kidney beans where absent
 * @returns hours; infinite where that share is never reached
 */
export function minSoakHoursForLectin(waterC: number, foodId = 'kidney-bean'): number {
  const soak = findFood(foodId)?.soak;
  if (soak === null || soak === undefined) return LECTIN_SOAK_HOURS;
  return Math.max(LECTIN_SOAK_HOURS, hoursToShare(soakNumbers(soak), LECTIN_SOAK_SHARE, waterC));
}

export interface LectinQuestion {
  food: Pick<Food, 'lectin'>;
  temperatureC: number;
  /** Boiling point in the standard atmosphere for an open pot whose elevation is known; null where it was measured. */
  standardBoilingPointC: number | null;
  underPressure: boolean;
  soak: { hours: number; hydrationShare: number; waterDiscarded: boolean } | null;
  firstWater?: 'kept' | 'poured-away' | undefined;
  /** Minutes at `temperatureC` until the missing water has entered, 0 for fully soaked beans. */
  hydrationMinutes: number;
  /** Minutes at `temperatureC` until soft, hydration included; the unsoaked way is boiled to this end. */
  minutesToSoft: number;
}

export interface LectinAnswer {
  verdict: LectinVerdict;
  /** Minutes at the pot's temperature, from a rolling boil on, with any missing hydration first; 0 where not applicable. */
  boilMinutesNeeded: number;
  reason: string;
  wayOut: string | null;
}

const UNSOAKED_WAY =
  'Soak at least 5 h until swollen, pour that water away and boil in fresh water. Or, unsoaked: bring to the boil in plenty of water, pour that water away, and boil in fresh water until soft, without a box';

/**
 * The verdict on a way of cooking.
 *
 * Soak of five hours and at least 0.8 of a full one, its water poured away, then fresh water and 30 min at 100 C or their
 * like, counted from 89.5 C up after any missing hydration; by elevation in an open pot 15 % longer, for a winter low.
 * Unsoaked beans pass only when their first water is poured away and they are boiled until soft.
 */
export function lectinVerdict(q: LectinQuestion): LectinAnswer {
  if (q.food.lectin === 'none')
    return { verdict: 'not-applicable', boilMinutesNeeded: 0, reason: 'Not a bean of the kidney family', wayOut: null };
  const openPot = !q.underPressure;
  const judgedC = openPot && q.standardBoilingPointC !== null ? q.standardBoilingPointC : q.temperatureC;
  if (judgedC < LECTIN_COUNTS_FROM_C)
    return {
      verdict: 'refused',
      boilMinutesNeeded: 0,
      reason: `The pot reaches ${judgedC.toFixed(1)} C; below ${LECTIN_COUNTS_FROM_C} C the poison of kidney-family beans is not reliably destroyed`,
      wayOut: 'Use a pressure cooker, or another food',
    };
  const byElevation = openPot && q.standardBoilingPointC !== null;
  const boil = lectinMinutesAt(q.temperatureC) * (byElevation ? WINTER_LOW_FACTOR : 1);
  const needed = q.hydrationMinutes + boil;
  const counts = q.underPressure
    ? 'counted while the valve shows pressure, after the air has been let out'
    : 'counted from a rolling boil that you can see, and from the start again if it stops';
  const soakCounts = q.soak !== null && q.soak.hours >= LECTIN_SOAK_HOURS && q.soak.hydrationShare >= LECTIN_SOAK_SHARE;
  if (soakCounts && q.soak?.waterDiscarded === true)
    return {
      verdict: 'safe',
      boilMinutesNeeded: needed,
      reason: `Soaked, water poured away, then ${Math.ceil(needed)} min in fresh water, ${counts}`,
      wayOut: null,
    };
  if (q.firstWater === 'poured-away')
    return {
      verdict: 'safe',
      boilMinutesNeeded: Math.max(needed, q.minutesToSoft),
      reason: `Not soaked enough: first water poured away, then boiled in fresh water until soft, ${counts}; no box`,
      wayOut: null,
    };
  return { verdict: 'refused', boilMinutesNeeded: needed, reason: whyRefused(q), wayOut: UNSOAKED_WAY };
}

function whyRefused(q: LectinQuestion): string {
  if (q.soak === null)
    return q.firstWater === 'kept'
      ? 'Unsoaked kidney-family beans in the water they are eaten with keep their poison in the pot'
      : 'Kidney-family beans without a soak';
  if (q.soak.hours < LECTIN_SOAK_HOURS)
    return `A soak of ${round1(q.soak.hours)} h does not count: kidney-family beans need ${LECTIN_SOAK_HOURS} h, a quick hot soak included`;
  if (q.soak.hydrationShare < LECTIN_SOAK_SHARE)
    return `In water this cold the beans have taken up only ${Math.round(q.soak.hydrationShare * 100)} % of a full soak; ${LECTIN_SOAK_SHARE * 100} % are needed`;
  return 'The soak water holds part of the poison and must be poured away';
}

function round1(value: number): number {
  return Math.round(value * 10) / 10;
}
