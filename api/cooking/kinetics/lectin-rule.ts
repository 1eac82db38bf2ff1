/**
 * The rule for beans of the kidney family (phytohaemagglutinin). A bean that is warm for hours below the boil can be
 * worse than raw, so nothing here is a matter of likelihood: a way of cooking passes, or it is refused with the way out.
 */
import { sureParameter } from '../../physics/parameter.ts';
import type { LectinVerdict } from '../calculators/calculator-types.ts';
import type { Food } from '../foods/food.ts';
import { estimate } from '../foods/food-parameters.ts';
import { findFood } from '../foods/foods-table.ts';
import { hoursToShare, soakNumbers } from './hydration-kinetics.ts';

const FDA = 'fda-bad-bug-book' as const;

/** The figures of the rule, each with what it rests on. */
export const LECTIN_PARAMETERS = {
  /** In water before the boil, then poured away. */
  soakHours: sureParameter(5, 'h', { key: FDA, place: 'soak at least 5 h, discard the water' }),
  /** Of a full soak: in cold water five hours are not enough. */
  soakShare: estimate(0.8, 0.8, 0.8, '1', 'planner-derivation', 'swollen beans; 5 h at 20 C reach 0.83'),
  /** Ten minutes destroy it (Bender and Reaidi 1982: 10-20); the rest is margin. */
  minutesAt100C: sureParameter(30, 'min', { key: FDA, place: 'boil at least 30 min in fresh water' }),
  /** Warm beans below the boil keep it or get worse: 70 C for hours without loss, the assay rising at 80 C. */
  countsFromC: estimate(89.5, 89.5, 89.5, 'C', 'bender-reaidi-1982', 'no loss at 70-80 C; 3,000 m boils at 90.0 C'),
  /** The careful one below: a cooler boil counts for less. */
  zBelow100C: estimate(22, 22, 22, 'K', 'thompson-1983', 'soaked beans: 15 min at 100 C, about 2 h at 80 C'),
  /** The careful one above: more heat counts for less. */
  zAbove100C: sureParameter(30, 'K', { key: 'he-2014', place: 'purified black-bean lectin, 78.8 kJ/mol at 70-90 C' }),
  /** On the minutes of an open pot judged by its elevation: a winter low boils about 1.3 K lower. */
  winterLowFactor: estimate(1.15, 1.15, 1.15, '1', 'planner-derivation', '10^(1.3/22)'),
} as const;

export const LECTIN_SOAK_HOURS = LECTIN_PARAMETERS.soakHours.value;
export const LECTIN_SOAK_SHARE = LECTIN_PARAMETERS.soakShare.value;
export const LECTIN_MINUTES_AT_100C = LECTIN_PARAMETERS.minutesAt100C.value;
export const LECTIN_COUNTS_FROM_C = LECTIN_PARAMETERS.countsFromC.value;
export const WINTER_LOW_FACTOR = LECTIN_PARAMETERS.winterLowFactor.value;

const Z_BELOW_100 = LECTIN_PARAMETERS.zBelow100C.value;
const Z_ABOVE_100 = LECTIN_PARAMETERS.zAbove100C.value;

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
 * @param food a soakable food; kidney beans where absent
 * @returns hours; infinite where that share is never reached
 */
export function minSoakHoursForLectin(
  waterC: number,
  food: Pick<Food, 'soak'> | undefined = findFood('kidney-bean'),
): number {
  const soak = food?.soak;
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
  /** Hours in water as cold as that soak's until a soak counts; asked only for a refusal. */
  soakHoursNeeded?: (() => number) | undefined;
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

const AFTER_SOAK =
  'pour that water away and boil in fresh water. Or, unsoaked: bring to the boil in plenty of water, pour that water away, and boil in fresh water until soft, without a box';
const UNSOAKED_WAY = `Soak at least ${LECTIN_SOAK_HOURS} h until swollen, ${AFTER_SOAK}`;

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
      reason: `The pot reaches ${(Math.floor(judgedC * 10) / 10).toFixed(1)} C; below ${LECTIN_COUNTS_FROM_C} C the poison of kidney-family beans is not reliably destroyed`,
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
  return { verdict: 'refused', boilMinutesNeeded: needed, reason: whyRefused(q), wayOut: wayOutOf(q) };
}

/** A cold soak is told its hours: five are not enough there. */
function wayOutOf(q: LectinQuestion): string {
  const hours = q.soakHoursNeeded?.() ?? LECTIN_SOAK_HOURS;
  if (!(hours > LECTIN_SOAK_HOURS) || !Number.isFinite(hours)) return UNSOAKED_WAY;
  return `Soak at least ${Math.ceil(hours)} h in water this cold, until swollen, ${AFTER_SOAK}`;
}

function whyRefused(q: LectinQuestion): string {
  if (q.soak === null)
    return q.firstWater === 'kept'
      ? 'Unsoaked kidney-family beans in the water they are eaten with keep their poison in the pot'
      : 'Kidney-family beans without a soak';
  if (q.soak.hours < LECTIN_SOAK_HOURS)
    return `A soak of ${round1(q.soak.hours)} h does not count: kidney-family beans need ${LECTIN_SOAK_HOURS} h, a quick hot soak included`;
  if (q.soak.hydrationShare < LECTIN_SOAK_SHARE)
    return `In water this cold the beans have taken up only ${Math.floor(q.soak.hydrationShare * 100)} % of a full soak; ${LECTIN_SOAK_SHARE * 100} % are needed`;
  return 'The soak water holds part of the poison and must be poured away';
}

function round1(value: number): number {
  return Math.round(value * 10) / 10;
}
