/** Heating values against moisture, and what altitude does to a flame. Lower (net) heating value throughout. */
import { pressureShare } from './atmosphere.ts';
import { requireInRange } from './errors.ts';
import { metresToFeet } from './units.ts';

/** Heat of evaporation of water in fuel at 25 C, MJ/kg. ISO 18125 form. */
const FUEL_WATER_MJ_PER_KG = 2.443;

/**
 * Lower heating value of a fuel that holds water: `LHV_dry (1 - w) - 2.443 w`.
 *
 * Source: ISO 18125; reproduces a published table of wood within 0.02 MJ/kg up to 40 %.
 * @param dryMJPerKg lower heating value of the dry fuel, MJ/kg
 * @param moistureShare water as a share of the wet mass, 0 to 0.6
 * @returns MJ per kg as it lies
 * @throws OutOfRangeError outside the range of moisture
 */
export function lowerHeatingValue(dryMJPerKg: number, moistureShare: number): number {
  requireInRange('moisture', moistureShare, 0, 0.6, 'share');
  return dryMJPerKg * (1 - moistureShare) - FUEL_WATER_MJ_PER_KG * moistureShare;
}

/**
 * Power of a fire of moist fuel as a share of its power with the fuel of the table: the draught burns as much dry matter a
 * minute, and what dries the fuel is taken off, `(LHV(w) / (1 - w)) / (LHV_ref / (1 - w_ref))`. A wet fire that hardly takes
 * burns less still; no measurement of that was found.
 * @param dryMJPerKg lower heating value of the dry fuel, MJ/kg
 * @param referenceMJPerKg that of the fuel of the table as it lies, MJ/kg
 * @param moistureShare water as a share of the wet mass, 0 to 0.6
 * @returns about 1
 * @throws OutOfRangeError outside the range of moisture
 */
export function moistFuelPowerShare(dryMJPerKg: number, referenceMJPerKg: number, moistureShare: number): number {
  const referenceShare = (dryMJPerKg - referenceMJPerKg) / (dryMJPerKg + FUEL_WATER_MJ_PER_KG);
  const perDryKg = lowerHeatingValue(dryMJPerKg, moistureShare) / (1 - moistureShare);
  return (perDryKg * (1 - referenceShare)) / referenceMJPerKg;
}

/** Wet-basis moisture from dry-basis moisture: `u / (1 + u)`. */
export function wetBasisShare(dryBasisShare: number): number {
  return dryBasisShare / (1 + dryBasisShare);
}

/**
 * Lower heating value from the heat of combustion: less 44.0 kJ per mol of water that is formed.
 * @param combustionKJPerMol heat of combustion with liquid water, kJ/mol
 * @param waterMolPerMol mol water per mol fuel
 * @param molarMassGPerMol g/mol
 * @returns MJ/kg
 */
export function lowerHeatingValueOf(
  combustionKJPerMol: number,
  waterMolPerMol: number,
  molarMassGPerMol: number,
): number {
  return (combustionKJPerMol - 44.0 * waterMolPerMol) / molarMassGPerMol;
}

/**
 * Power of a burner at an elevation as a share of its power at sea level: `(p/p0)^n`.
 *
 * n = 0.5 for a regulated gas burner (constant gauge pressure, ideal gas), 0 for an unregulated jet and for small
 * alcohol burners, 1 for an unfed wood fire (Fang 2008). The energy that a task takes does not change with it.
 * @param elevationM elevation in m
 * @param exponent n, 0 to 1.5
 */
export function altitudePowerShare(elevationM: number, exponent: number): number {
  return exponent === 0 ? 1 : pressureShare(elevationM) ** exponent;
}

/** Makers' tables: input 4 % less per 1000 ft above 2000 ft. For installed appliances; returns a share. */
export function ratingAboveTwoThousandFeet(elevationM: number): number {
  return 1 - 0.04 * Math.max(0, metresToFeet(elevationM) / 1000 - 2);
}

/** Installation code: input 4 % less per 1000 ft from sea level, applied above 2000 ft. Returns a share. */
export function ratingFromSeaLevel(elevationM: number): number {
  const thousands = metresToFeet(elevationM) / 1000;
  return thousands <= 2 ? 1 : 1 - 0.04 * thousands;
}

/**
 * Tier of cooking efficiency of ISO/TR 19867-3: 10, 20, 30, 40 and 50 %, lower bounds inclusive.
 * @param efficiency 0 to 1, measured by ISO 19867-1 (not by a water boiling test)
 */
export function efficiencyTier(efficiency: number): 0 | 1 | 2 | 3 | 4 | 5 {
  const bounds = [0.1, 0.2, 0.3, 0.4, 0.5];
  return bounds.filter((bound) => efficiency >= bound).length as 0 | 1 | 2 | 3 | 4 | 5;
}
