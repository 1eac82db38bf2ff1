/** Cooling of a pot in insulation, of a vacuum flask and of a bare pot. */
import { InvalidInputError, requireInRange } from './errors.ts';
import { dryLossW, potLossParts } from './pot-heat-loss.ts';
import type { Lid } from './table-ids.ts';
import type { VesselShape } from './vessel-geometry.ts';

/** Outer film of a box in a room, W/(m2 K). Textbook value. */
const OUTER_FILM = 8;

/**
 * Heat flow of a pot in insulation per kelvin: `UA = F / [ t / (k sqrt(A_in A_out)) + 1 / (8 A_out) ]`.
 *
 * F is the build factor for gaps, damp and thin lids (1 ideal). Form derived for thick layers; F from measured boxes.
 * @param shape the pot
 * @param thicknessMm insulation on all faces, mm, 1 to 500
 * @param conductivityWPerMK 0.01 to 0.5
 * @param buildFactor >= 1
 * @returns W/K
 * @throws OutOfRangeError outside those ranges
 */
export function boxHeatFlowWPerK(
  shape: VesselShape,
  thicknessMm: number,
  conductivityWPerMK: number,
  buildFactor: number,
): number {
  requireInRange('insulation thickness', thicknessMm, 1, 500, 'mm');
  requireInRange('conductivity', conductivityWPerMK, 0.01, 0.5, 'W/(m K)');
  const t = thicknessMm / 1000;
  const inner = shape.sideM2 + 2 * shape.baseM2;
  const d = shape.diameterM + 2 * t;
  const outer = Math.PI * d * (shape.heightM + 2 * t) + (Math.PI * d * d) / 2;
  return buildFactor / (t / (conductivityWPerMK * Math.sqrt(inner * outer)) + 1 / (OUTER_FILM * outer));
}

/** Time constant in hours from heat capacity in kJ/K and heat flow in W/K. */
export function timeConstantHours(heatCapacityKJPerK: number, uaWPerK: number): number {
  return (heatCapacityKJPerK * 1000) / uaWPerK / 3600;
}

/** Temperature after a time: `Ta + (T0 - Ta) exp(-t / tau)`, C. */
export function cooledTemperatureC(startC: number, airC: number, hours: number, tauHours: number): number {
  return airC + (startC - airC) * Math.exp(-hours / tauHours);
}

/**
 * Hours until the contents have fallen to a temperature: `tau ln[(T0 - Ta) / (T - Ta)]`.
 * @returns 0 where the start is not above it
 * @throws InvalidInputError where the air is as warm as that temperature
 */
export function hoursAboveC(limitC: number, startC: number, airC: number, tauHours: number): number {
  if (startC <= limitC) return 0;
  if (airC >= limitC)
    throw new InvalidInputError('airC', airC, `must be below ${limitC} C, else it never cools to that`);
  return tauHours * Math.log((startC - airC) / (limitC - airC));
}

/**
 * Time constant from one reading.
 * @param startC temperature at the start, C
 * @param endC temperature read, C
 * @param hours time between, h
 * @param airC air temperature, C
 * @throws InvalidInputError where the reading does not lie between air and start
 */
export function timeConstantFromReading(startC: number, endC: number, hours: number, airC: number): number {
  if (!(endC < startC && endC > airC) || !(hours > 0))
    throw new InvalidInputError(
      'reading',
      endC,
      'the temperature read must lie between that of the air and that at the start, after some time',
    );
  return hours / Math.log((startC - airC) / (endC - airC));
}

/**
 * Heat flow per kelvin of a pot without insulation, as the mean over its way down: taken halfway between start and air
 * (convection and radiation grow with the temperature difference, so that it is an approximation).
 * @returns W/K
 */
export function bareHeatFlowWPerK(
  shape: VesselShape,
  fillShare: number,
  startC: number,
  airC: number,
  emissivity: number,
  lid: Lid,
  leakShare: number,
): number {
  const meanC = Math.max((startC + airC) / 2, airC + 1);
  const parts = potLossParts(shape, fillShare, meanC, airC);
  const covered = lid !== 'none';
  // The base stands on something: it loses about as much as a lid does by convection and radiation.
  const base = parts.lidConvectionW + emissivity * parts.lidBlackRadiationW;
  const loss = dryLossW(parts, emissivity, covered) + (covered ? leakShare : 1) * parts.openEvaporationW + base / 2;
  return loss / (meanC - airC);
}
