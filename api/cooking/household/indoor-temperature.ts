/** How warm it is inside, day by day, in a house whose heating has stopped. */
import { requireInRange } from '../../physics/errors.ts';

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

/**
 * Days whose indoor temperatures lie close together count as one kind of day: what is boxed, soaked or heated on them is
 * worked out at the coldest of them, what may spoil at the warmest. No household knows its rooms better than to a few
 * degrees, and a planner that need not tell such days apart proves its plans in a fraction of the time.
 * @param temperaturesC indoor temperature of each day, C
 * @param widthK widest band, K, >= 0; bands are laid from the cold end, where most days of a long outage lie
 * @returns coldest and warmest of each day's band, C
 */
export function indoorBands(temperaturesC: readonly number[], widthK: number): { coldC: number; warmC: number }[] {
  const ascending = [...new Set(temperaturesC)].sort((a, b) => a - b);
  const bands: { coldC: number; warmC: number }[] = [];
  for (const temperatureC of ascending) {
    const band = bands.at(-1);
    if (band !== undefined && temperatureC - band.coldC <= widthK + 1e-9) band.warmC = temperatureC;
    else bands.push({ coldC: temperatureC, warmC: temperatureC });
  }
  return temperaturesC.map(
    (temperatureC) => bands.find((band) => temperatureC <= band.warmC) ?? { coldC: temperatureC, warmC: temperatureC },
  );
}
