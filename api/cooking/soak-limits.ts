/** How long a soak may stand before it spoils. */
import { requireInRange } from '../physics/errors.ts';
import type { SoakHistory } from './hydration-kinetics.ts';
import { HOT_SOAK_TIME_CONSTANT_H } from './hydration-kinetics.ts';

/** Below this no spores wake; a hot soak is drained above it, or within two hours. */
export const SPORE_SAFE_C = 60;

/**
 * Rows: the warmest water of the row (inclusive), hours that are usual, hours after which it is thrown away.
 *
 * 12 h "in a cool place" and refrigeration of long soaks: Penn State Extension and growers. 8 h or overnight at 20-25 C:
 * growers, with some foam after half a day. 4 h in a warm room: a consumer leaflet. 48 h below 5 C and the row of
 * 5-10 C: practice. Above 30 C beans sour; the one hour is the rule for food in a heat above 32 C.
 */
const LIMITS: readonly { upToC: number; usualHours: number; stopHours: number }[] = [
  { upToC: 5, usualHours: 24, stopHours: 48 },
  { upToC: 10, usualHours: 24, stopHours: 24 },
  { upToC: 20, usualHours: 12, stopHours: 12 },
  { upToC: 25, usualHours: 8, stopHours: 12 },
  { upToC: 30, usualHours: 4, stopHours: 4 },
];
const WARM = { usualHours: 1, stopHours: 1 };
/** Above 60 C nothing grows; the cap only says that a soak is not a way to cook. */
const HOT = { usualHours: 4, stopHours: 8 };

function row(waterC: number): { usualHours: number; stopHours: number } {
  requireInRange('waterC', waterC, -40, 100, 'C');
  if (waterC >= SPORE_SAFE_C) return HOT;
  return LIMITS.find((limit) => waterC <= limit.upToC) ?? WARM;
}

/**
 * Hours, first wetting to boil, after which a soak at one temperature is thrown away.
 * @param waterC -40 to 100 C
 * @returns 48 (to 5 C), 24 (to 10), 12 (to 25), 4 (to 30), 1 (to 60)
 */
export function soakLimitHours(waterC: number): number {
  return row(waterC).stopHours;
}

/** Hours that are usual at that temperature; between these and the limit the soak is looked at and smelled. */
export function usualSoakHours(waterC: number): number {
  return row(waterC).usualHours;
}

/**
 * The limit of a soak by its history. A soak that starts hot must be drained while at 60 C or above, or within two
 * hours: below that it drifts through the range where spores grow.
 */
export function soakLimitOf(history: SoakHistory): number {
  if (history.start === 'cool') return soakLimitHours(history.waterC);
  if (history.waterC < SPORE_SAFE_C) return soakLimitHours(Math.max(history.waterC, history.airC));
  if (history.airC >= SPORE_SAFE_C) return HOT.stopHours;
  const tau = history.timeConstantHours ?? HOT_SOAK_TIME_CONSTANT_H;
  const hoursAbove = tau * Math.log((history.waterC - history.airC) / (SPORE_SAFE_C - history.airC));
  return Math.max(2, hoursAbove);
}

/**
 * The limit for rehydrated food that is not a raw pulse or grain: perishable from the first drop.
 * @param waterC 0 to 100 C
 * @returns 24 h up to 5 C, 2 h up to 32 C, 1 h above; 2 h at 60 C and above
 */
export function wettedFoodLimitHours(waterC: number): number {
  if (waterC <= 5) return 24;
  return waterC <= 32 || waterC >= SPORE_SAFE_C ? 2 : 1;
}
