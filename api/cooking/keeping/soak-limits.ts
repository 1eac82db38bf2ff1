/** How long a soak may stand before it spoils. */
import { requireInRange } from '../../physics/errors.ts';
import type { SourceRef } from '../../physics/parameter.ts';
import type { SoakHistory } from '../kinetics/hydration-kinetics.ts';
import { HOT_SOAK_TIME_CONSTANT_H } from '../kinetics/hydration-kinetics.ts';

/** Below this no spores wake; a hot soak is drained above it, or within two hours. */
export const SPORE_SAFE_C = 60;

interface LimitRow {
  /** Warmest water of the row, inclusive, C. */
  upToC: number;
  /** Hours that are usual. */
  usualHours: number;
  /** Hours after which it is thrown away. */
  stopHours: number;
  source: SourceRef;
  estimate: boolean;
}

/** From the coldest row up; the last one holds to 60 C, above which nothing grows. */
export const SOAK_LIMITS: readonly LimitRow[] = [
  {
    upToC: 5,
    usualHours: 24,
    stopHours: 48,
    source: { key: 'penn-state-soak', place: 'refrigerate long soaks; 48 h is practice' },
    estimate: true,
  },
  {
    upToC: 10,
    usualHours: 24,
    stopHours: 24,
    source: { key: 'cooking-practice', place: 'a day at 5-10 C takes up what 10 h at 20 C do' },
    estimate: true,
  },
  {
    upToC: 20,
    usualHours: 12,
    stopHours: 12,
    source: { key: 'penn-state-soak', place: '12 h in a cool place' },
    estimate: false,
  },
  {
    upToC: 25,
    usualHours: 8,
    stopHours: 12,
    source: { key: 'usa-pulses', place: '8 h or overnight; some foam after half a day at 25 C' },
    estimate: false,
  },
  {
    upToC: 30,
    usualHours: 4,
    stopHours: 4,
    source: { key: 'soak-to-prevent-gas', place: 'at most 4 h in a warm room' },
    estimate: false,
  },
  {
    upToC: SPORE_SAFE_C,
    usualHours: 1,
    stopHours: 1,
    // Beans sour in warm water (growers); lactobacilli and B. cereus at 19-37 C (tempeh chapter). The hour is the rule
    // for food in a heat above 32 C.
    source: { key: 'pulses-warm-soak', place: 'warm start water sours beans; one hour by FSIS above 32 C' },
    estimate: true,
  },
];
/** Above 60 C nothing grows; the cap only says that a soak is not a way to cook. */
const HOT: LimitRow = {
  upToC: 100,
  usualHours: 4,
  stopHours: 8,
  source: { key: 'bacillus-food-safety', place: 'held at 60 C or above; the hours are practice' },
  estimate: true,
};

/**
 * The row that holds at a water temperature, with its source.
 * @param waterC -60 to 100 C
 * @throws OutOfRangeError outside that range
 */
export function soakLimitRow(waterC: number): LimitRow {
  requireInRange('waterC', waterC, -60, 100, 'C');
  if (waterC >= SPORE_SAFE_C) return HOT;
  return SOAK_LIMITS.find((limit) => waterC <= limit.upToC) ?? HOT;
}

/**
 * Hours, first wetting to boil, after which a soak at one temperature is thrown away.
 * @param waterC -60 to 100 C
 * @returns 48 (to 5 C), 24 (to 10), 12 (to 25), 4 (to 30), 1 (to 60)
 */
export function soakLimitHours(waterC: number): number {
  return soakLimitRow(waterC).stopHours;
}

/** Hours that are usual at that temperature; between these and the limit the soak is looked at and smelled. */
export function usualSoakHours(waterC: number): number {
  return soakLimitRow(waterC).usualHours;
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
