/** Size, surface and mass of a pot taken as an upright cylinder with a flat lid. */
import { requireInRange } from './errors.ts';
import type { VesselMaterial } from './vessel-materials-table.ts';

/** Height over diameter of ordinary cooking pots. Trade guide of pot sizes; common practice. */
const HEIGHT_TO_DIAMETER = 0.6;
/** A pressure cooker weighs about 1.7 times the open pot of its size. Common practice. */
const PRESSURE_COOKER_MASS_FACTOR = 1.7;
const ALUMINIUM_DENSITY = 2700;

export interface VesselShape {
  capacityL: number;
  diameterM: number;
  heightM: number;
  /** Base (and lid, and water) surface, m2. */
  baseM2: number;
  /** Whole side wall, m2. */
  sideM2: number;
}

/**
 * Diameter and height of a pot from its capacity: `D = (4 V / (0.6 pi))^(1/3)`, `H = V / (pi D^2 / 4)`.
 * @param capacityL capacity in L, 0.1 to 200
 * @param diameterMm own measure of the diameter in mm, if known, 50 to 900
 * @throws OutOfRangeError outside those ranges
 */
export function vesselShape(capacityL: number, diameterMm?: number): VesselShape {
  requireInRange('capacity', capacityL, 0.1, 200, 'L');
  if (diameterMm !== undefined) requireInRange('diameter', diameterMm, 50, 900, 'mm');
  const volumeM3 = capacityL / 1000;
  const diameterM =
    diameterMm === undefined ? Math.cbrt((4 * volumeM3) / (HEIGHT_TO_DIAMETER * Math.PI)) : diameterMm / 1000;
  const baseM2 = (Math.PI * diameterM * diameterM) / 4;
  const heightM = volumeM3 / baseM2;
  return { capacityL, diameterM, heightM, baseM2, sideM2: Math.PI * diameterM * heightM };
}

/**
 * Mass of a pot with its lid: sheet of side, base and lid, plus a base disc where the material has one, times fittings.
 * @param shape from `vesselShape`
 * @param wallMm wall in mm, 0.2 to 15
 * @param material row of the materials table
 * @param kind a pressure cooker weighs 1.7 times as much
 * @returns kg
 */
export function vesselMassKg(
  shape: VesselShape,
  wallMm: number,
  material: Pick<VesselMaterial, 'densityKgPerM3' | 'baseDiscMm' | 'fittings'>,
  kind: 'pot' | 'pressure-cooker' | 'flask' = 'pot',
): number {
  const sheet = material.densityKgPerM3 * (wallMm / 1000) * (shape.sideM2 + 2 * shape.baseM2);
  const disc = ALUMINIUM_DENSITY * (material.baseDiscMm / 1000) * shape.baseM2;
  return (sheet + disc) * material.fittings * (kind === 'pressure-cooker' ? PRESSURE_COOKER_MASS_FACTOR : 1);
}
