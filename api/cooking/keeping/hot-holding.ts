/** How long a dish stays hot in a box or flask, and by when it must be eaten. */
import { OutOfRangeError, requireInRange } from '../../physics/errors.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import { FOOD_SAFETY, safeUntilAfterHeat } from './safe-until.ts';

/**
 * Hours until a cooling dish falls to a temperature: `t = tau * ln((T0 - Ta) / (T - Ta))`.
 *
 * Source: Newton's law of cooling with one time constant (Still 2005: a pot in insulation).
 * @param startC temperature at the start, C
 * @param airC temperature of the air, C
 * @param timeConstantHours tau, h, > 0
 * @param toC temperature looked for, C
 * @returns h; 0 where it starts at or below `toC`; Infinity where the air keeps it above
 * @throws OutOfRangeError when tau is not positive or a temperature is not between -60 and 160 C
 */
export function hoursUntil(startC: number, airC: number, timeConstantHours: number, toC: number): number {
  requireInRange('startC', startC, -60, 160, 'C');
  requireInRange('airC', airC, -60, 160, 'C');
  if (!(timeConstantHours > 0)) {
    throw new OutOfRangeError('timeConstantHours', timeConstantHours, Number.MIN_VALUE, Number.MAX_VALUE, 'h');
  }
  if (startC <= toC) return 0;
  if (airC >= toC) return Number.POSITIVE_INFINITY;
  return timeConstantHours * Math.log((startC - airC) / (toC - airC));
}

/**
 * Hours for which a dish stays at 60 C or hotter; see `hoursUntil`.
 * @param startC temperature when boxed, C
 * @param airC temperature around the box, C
 * @param timeConstantHours h, > 0
 * @returns h
 * @throws OutOfRangeError
 */
export function hoursAbove60C(startC: number, airC: number, timeConstantHours: number): number {
  return hoursUntil(startC, airC, timeConstantHours, FOOD_SAFETY.hotHoldC.value);
}

/**
 * Temperature of a dish after some hours: `T = Ta + (T0 - Ta) * exp(-t / tau)`.
 * @param hours h since the start, >= 0
 * @returns C
 * @throws OutOfRangeError
 */
export function temperatureAfter(startC: number, airC: number, timeConstantHours: number, hours: number): number {
  requireInRange('hours', hours, 0, Number.MAX_VALUE, 'h');
  if (!(timeConstantHours > 0)) {
    throw new OutOfRangeError('timeConstantHours', timeConstantHours, Number.MIN_VALUE, Number.MAX_VALUE, 'h');
  }
  return airC + (startC - airC) * Math.exp(-hours / timeConstantHours);
}

export interface EatBy {
  /** Hours after boxing until which the dish may be eaten as it is. */
  eatByHours: number;
  /** Hours after boxing until which it may still be reheated to 74 C (or to a full boil) and eaten. */
  reheatByHours: number;
  /** Hours for which the box at its bad end keeps 60 C. */
  hoursAbove60C: number;
  /** True where the clock after 60 C was not used because nobody could read it. */
  limitedByMissingThermometer: boolean;
}

/**
 * By when a boxed dish must be eaten.
 *
 * The box is taken at its bad end (10th percentile of the time constant). With a thermometer the moment of 60 C can be
 * seen, and the 2 h (1 h in hot air) count from there. Without one it cannot, so the dish is eaten by the time the bad
 * end falls to 60 C, or is brought to a full boil first while the 2 h that would follow are still running.
 *
 * Source: FSIS danger zone; trade notes H9.
 * @param box `startC` and `airC` in C; `timeConstantHours` with its band, h
 * @param thermometer whether the household can read the dish's temperature
 * @returns hours after boxing
 * @throws OutOfRangeError
 */
export function eatByAfterBoxing(
  box: { startC: number; airC: number; timeConstantHours: Percentiles },
  thermometer: boolean,
): EatBy {
  const bad = hoursAbove60C(box.startC, box.airC, box.timeConstantHours.p10);
  const limit = safeUntilAfterHeat(box.airC);
  return {
    eatByHours: thermometer ? bad + limit : bad,
    reheatByHours: bad + limit,
    hoursAbove60C: bad,
    limitedByMissingThermometer: !thermometer,
  };
}

/**
 * Whether a dish boxed now and served later may be eaten as it is, must be reheated, or may not be planned at all.
 *
 * Food that is to be hot at the table is reheated when it falls below 60 C before serving, thermometer or not.
 * @param box as in `eatByAfterBoxing`
 * @param servedAfterHours hours from boxing to serving, >= 0
 * @returns `serve`, `reheat` (74 C, or a full boil without a thermometer) or `discard`
 * @throws OutOfRangeError
 */
export function boxedDishAtServing(
  box: { startC: number; airC: number; timeConstantHours: Percentiles },
  servedAfterHours: number,
): 'serve' | 'reheat' | 'discard' {
  requireInRange('servedAfterHours', servedAfterHours, 0, Number.MAX_VALUE, 'h');
  const eatBy = eatByAfterBoxing(box, false);
  if (servedAfterHours <= eatBy.hoursAbove60C) return 'serve';
  return servedAfterHours <= eatBy.reheatByHours ? 'reheat' : 'discard';
}
