/** How full a vessel may be, and what a dish takes up in it. */
import type { VesselKind } from '../household/kitchen.ts';

/**
 * Largest filled share of a vessel's capacity.
 *
 * Pressure cooker: two thirds, half with foods that froth or swell (two makers' manuals, p. 6 and p. 20). Pot: two
 * thirds to three quarters with beans or grain, else four fifths, so that it boils without running over (common
 * practice). Flask: to the neck. Soak bowl: nearly to the rim.
 * @param foams whether anything in it froths or swells (pulses, grains)
 * @returns share of the capacity, 0 to 1
 */
export function fillLimitShare(kind: VesselKind, foams: boolean): number {
  switch (kind) {
    case 'pressure-cooker':
      return foams ? 0.5 : 2 / 3;
    case 'pot':
      return foams ? 0.75 : 0.8;
    case 'flask':
      return 0.95;
    case 'soak-bowl':
      return 0.9;
  }
}

/** Kernel density of dry food, kg/L: beans 1.30, rice 1.46, oat flakes 1.35 (rice Nelson 2002, the others from memory). */
export const DRY_FOOD_DENSITY_KG_PER_L = 1.3;

/**
 * Volume of a pot's contents when done: the water in it, absorbed or not, and the kernels of the dry food.
 * @param waterL water in the pot and in the food, L, >= 0
 * @param dryMassG mass of food as bought, g, >= 0
 * @returns litres
 */
export function contentsVolumeL(waterL: number, dryMassG: number): number {
  return waterL + dryMassG / 1000 / DRY_FOOD_DENSITY_KG_PER_L;
}
