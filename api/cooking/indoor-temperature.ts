/** How warm it is inside, day by day, in a house whose heating has stopped. */
import { requireInRange } from '../physics/errors.ts';

/** Days over which the indoor temperature falls to where it stays. Common practice (definitions of the contract). */
export const COOLING_DAYS = 4;

/**
 * Indoor temperature: linear from `indoorC` to `indoorFallsToC` over the first four days, then level.
 * @param place `indoorC` when the outage begins and `indoorFallsToC`, both C
 * @param dayIndex days since the outage began, >= 0; 0 is the first day, fractions allowed
 * @returns C
 * @throws OutOfRangeError when `dayIndex` is negative or not a number
 */
export function indoorCOnDay(place: { indoorC: number; indoorFallsToC: number }, dayIndex: number): number {
  requireInRange('dayIndex', dayIndex, 0, Number.MAX_VALUE, 'd');
  const share = Math.min(1, dayIndex / COOLING_DAYS);
  return place.indoorC + (place.indoorFallsToC - place.indoorC) * share;
}
