/** Cooling of a pot in insulation, of a vacuum flask and of a bare pot. */
import { InvalidInputError, requireInRange } from './errors.ts';
import { dryLossW, potLossParts } from './pot-heat-loss.ts';
import type { Lid } from './table-ids.ts';
import type { VesselShape } from './vessel-geometry.ts';

/** Film of still air on a surface in a room, W/(m2 K). Textbook value. */
const OUTER_FILM = 8;

/**
 * Heat flow of a pot in insulation per kelvin: `UA = F / [ t / (k sqrt(A_in A_out)) + 1 / (8 A_out) ]`, at most `8 A_in`:
 * a thin or badly built cover does not make a pot lose more than its own bare surface would.
 *
 * F is the build factor for gaps, damp and thin lids (1 ideal). Form derived for thick layers; F from measured boxes.
 * @param shape the pot
 * @param thicknessMm insulation on all faces, mm, 1 to 500
 * @param conductivityWPerMK 0.01 to 0.5
 * @param buildFactor >= 1
 * @param draught factor on what the bare surface would lose, about 1
 * @returns W/K
 * @throws OutOfRangeError outside those ranges
 */
export function boxHeatFlowWPerK(
  shape: VesselShape,
  thicknessMm: number,
  conductivityWPerMK: number,
  buildFactor: number,
  draught = 1,
): number {
  requireInRange('insulation thickness', thicknessMm, 1, 500, 'mm');
  requireInRange('conductivity', conductivityWPerMK, 0.01, 0.5, 'W/(m K)');
  const t = thicknessMm / 1000;
  const inner = shape.sideM2 + 2 * shape.baseM2;
  const d = shape.diameterM + 2 * t;
  const outer = Math.PI * d * (shape.heightM + 2 * t) + (Math.PI * d * d) / 2;
  const covered = buildFactor / (t / (conductivityWPerMK * Math.sqrt(inner * outer)) + 1 / (OUTER_FILM * outer));
  return Math.min(covered, OUTER_FILM * inner * draught);
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
 * Heat flow per kelvin of a pot without insulation at one temperature: wall, lid or open water, vapour, and the base, which
 * stands on something and loses about half of what a lid does by convection and radiation (common practice).
 * @param waterC temperature of the contents in C, above that of the air
 * @returns W/K
 */
export function bareHeatFlowWPerK(
  shape: VesselShape,
  fillShare: number,
  waterC: number,
  airC: number,
  emissivity: number,
  lid: Lid,
  leakShare: number,
): number {
  const parts = potLossParts(shape, fillShare, waterC, airC);
  const covered = lid !== 'none';
  const base = parts.lidConvectionW + emissivity * parts.lidBlackRadiationW;
  const loss = dryLossW(parts, emissivity, covered) + (covered ? leakShare : 1) * parts.openEvaporationW + base / 2;
  return loss / (waterC - airC);
}

/**
 * How a bare pot cools. Convection, radiation and above all vapour lose more per kelvin while it is hot: the heat flow per
 * kelvin goes with a power n of the excess over the air, so that `dx/dt = -x (x/x0)^n / tau0` for the excess x, with the
 * solution `x = x0 (1 + n t / tau0)^(-1/n)`. n = 0 is Newton's law. Against a sum over small steps of the whole loss it is
 * good to 2.5 K down to 30 K above the air (`tests/physics/retained-heat.test.ts`).
 */
export interface BareCooling {
  /** Time constant at the start, h. */
  startHours: number;
  /** n, >= 0. */
  exponent: number;
}

/**
 * The law of a pot whose heat flow is known at the start and at half of that excess.
 * @param heatCapacityKJPerK of contents and pot, kJ/K, > 0
 * @param startWPerK heat flow per kelvin at the start, W/K, > 0
 * @param halfWPerK the same at half of the excess, W/K, > 0
 */
export function bareCooling(heatCapacityKJPerK: number, startWPerK: number, halfWPerK: number): BareCooling {
  return {
    startHours: timeConstantHours(heatCapacityKJPerK, startWPerK),
    exponent: Math.max(0, Math.log2(startWPerK / halfWPerK)),
  };
}

/** Below this the law is Newton's to six digits, and the logarithm of one and so little loses them. */
const SMALL_EXPONENT = 1e-6;

/**
 * The one time constant that leads to the same temperature after a time: `n t / ln(1 + n t / tau0)`.
 * @param hours h, >= 0
 * @returns h
 */
export function meanTimeConstantHours({ startHours, exponent }: BareCooling, hours: number): number {
  const x = (exponent * hours) / startHours;
  return x < SMALL_EXPONENT ? startHours : (exponent * hours) / Math.log1p(x);
}

/**
 * The way down that leads to the temperature of one time constant after some hours.
 * @param exponent n; 0: Newton's law
 * @param overHours the hours that the time constant is of, h, > 0
 * @param tauHours mean time constant over them, h, > 0
 */
export function coolingThrough(exponent: number, overHours: number, tauHours: number): BareCooling {
  const x = (exponent * overHours) / tauHours;
  return { startHours: x < SMALL_EXPONENT ? tauHours : (exponent * overHours) / Math.expm1(x), exponent };
}

/**
 * Hours until the contents of a bare pot have fallen to a temperature: `tau0 / n [(x0 / x)^n - 1]`.
 * @returns 0 where the start is not above it
 * @throws InvalidInputError where the air is as warm as that temperature
 */
export function bareHoursAboveC(limitC: number, startC: number, airC: number, cooling: BareCooling): number {
  const { startHours, exponent } = cooling;
  if (exponent < SMALL_EXPONENT) return hoursAboveC(limitC, startC, airC, startHours);
  const newton = hoursAboveC(limitC, startC, airC, 1);
  return newton <= 0 ? 0 : (startHours / exponent) * (((startC - airC) / (limitC - airC)) ** exponent - 1);
}
