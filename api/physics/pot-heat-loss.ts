/** Heat that a hot pot loses to the room: wall, lid, and vapour from the water. */
import { saturationPressureKPa } from './boiling-point.ts';
import type { Lid } from './table-ids.ts';
import { celsiusToKelvin } from './units.ts';
import type { VesselShape } from './vessel-geometry.ts';
import { latentHeatKJPerKg } from './water-properties.ts';

const STEFAN_BOLTZMANN = 5.670374e-8;
/** Evaporation from still open water, kg/(m2 h kPa), above 57 C: derived from the open-tank table, +-20 %. */
const EVAPORATION_PER_KPA = 0.168;
/** A lid is taken 5 K cooler than the water below it (assumed). */
const LID_BELOW_WATER_K = 5;
/** Emissivity of an open water surface. Textbook value. */
const WATER_EMISSIVITY = 0.95;
/** Relative humidity of the room; at the boil it hardly matters. */
const ROOM_HUMIDITY = 0.5;

/** Share of the open evaporation that leaves past a lid at the boil: one measured test gave 0.25; a snug lid is assumed at 0.1. */
export const LEAK_SHARE: Readonly<Record<Lid, { value: number; p10: number; p90: number }>> = {
  none: { value: 1, p10: 1, p90: 1 },
  loose: { value: 0.25, p10: 0.15, p90: 0.45 },
  snug: { value: 0.1, p10: 0.05, p90: 0.2 },
};

/**
 * What passes a lid below the boil, on the way up and off the fire, over what passes it at the boil: nothing boils that
 * would drive vapour out. Kettles of 10 to 30 L cool with the lid on as if 0.05 of the open evaporation passed.
 */
export const LEAK_BELOW_THE_BOIL = 0.2;

/** Share of the open evaporation that passes the lid of a pot that stands off the fire. */
export const LEAK_SHARE_AT_REST: typeof LEAK_SHARE = {
  none: LEAK_SHARE.none,
  loose: { value: LEAK_BELOW_THE_BOIL * LEAK_SHARE.loose.value, p10: 0.02, p90: 0.15 },
  snug: { value: LEAK_BELOW_THE_BOIL * LEAK_SHARE.snug.value, p10: 0.005, p90: 0.06 },
};

/**
 * Coefficient of natural convection at an upright wall.
 *
 * `Nu = (0.825 + 0.387 Ra^(1/6) / [1 + (0.492/Pr)^(9/16)]^(8/27))^2`. Source: Churchill and Chu 1975. Air properties at
 * film temperature by power laws of the absolute temperature (within 2 % from -30 to 100 C, 1 atm).
 * @param heightM height of the wall in m, 0.02 to 1
 * @param wallC wall temperature in C
 * @param airC air temperature in C
 * @returns W/(m2 K); 0 without a temperature difference
 */
export function wallConvectionWPerM2K(heightM: number, wallC: number, airC: number): number {
  const air = airAt(wallC, airC);
  if (air.rayleighPerM3 <= 0) return 0;
  const rayleigh = air.rayleighPerM3 * heightM ** 3;
  // 1.1932 = [1 + (0.492/0.71)^(9/16)]^(8/27)
  const nusselt = (0.825 + (0.387 * rayleigh ** (1 / 6)) / 1.1932) ** 2;
  return (nusselt * air.conductivity) / heightM;
}

/**
 * Coefficient of natural convection on a hot plate that faces up (a lid or a water surface).
 *
 * `Nu = 0.54 Ra^0.25` up to Ra = 1e7, `0.15 Ra^(1/3)` above, length = D/4. Source: McAdams 1954.
 * @param diameterM diameter in m
 * @param plateC temperature of the plate in C
 * @param airC air temperature in C
 * @returns W/(m2 K)
 */
export function plateConvectionWPerM2K(diameterM: number, plateC: number, airC: number): number {
  const air = airAt(plateC, airC);
  if (air.rayleighPerM3 <= 0) return 0;
  const length = diameterM / 4;
  const rayleigh = air.rayleighPerM3 * length ** 3;
  const nusselt = rayleigh <= 1e7 ? 0.54 * rayleigh ** 0.25 : 0.15 * Math.cbrt(rayleigh);
  return (nusselt * air.conductivity) / length;
}

/**
 * Coefficient of radiation of a black surface: `sigma (Ts + Ta)(Ts^2 + Ta^2)`, kelvin; times the emissivity it is that
 * of a grey one.
 * @returns W/(m2 K)
 */
export function blackRadiationWPerM2K(surfaceC: number, airC: number): number {
  const s = celsiusToKelvin(surfaceC);
  const a = celsiusToKelvin(airC);
  return STEFAN_BOLTZMANN * (s + a) * (s * s + a * a);
}

/**
 * Evaporation from still open water: `E = c (p_water - p_air)`, c = 0.168 kg/(m2 h kPa) from 57 C up and less below,
 * interpolated in the open-tank table (0.133 at 38 C). Uncertainty +-20 %.
 * @param waterC water temperature in C, 0 to 130
 * @param airC air temperature in C
 * @returns kg/(m2 h), never below 0
 */
export function evaporationKgPerM2H(waterC: number, airC: number): number {
  const difference = saturationPressureKPa(Math.max(waterC, 0)) - roomVapourPressureKPa(airC);
  return difference <= 0 ? 0 : evaporationCoefficient(waterC) * difference;
}

/** What a pot loses by each way, at one water temperature. W; radiation as that of a black wall. */
export interface PotLossParts {
  wholeSideConvectionW: number;
  wholeSideBlackRadiationW: number;
  wettedSideConvectionW: number;
  wettedSideBlackRadiationW: number;
  lidConvectionW: number;
  lidBlackRadiationW: number;
  /** Vapour heat of the uncovered water surface. */
  openEvaporationW: number;
  /** Convection and radiation of the uncovered water surface. */
  openSurfaceW: number;
}

/**
 * Parts of the loss of a pot in still air. Under a lid the whole wall is hot, without one only up to the water line.
 * @param shape from `vesselShape`
 * @param fillShare filled share of the height, 0 to 1
 * @param waterC temperature of the contents in C
 * @param airC air temperature in C
 */
export function potLossParts(shape: VesselShape, fillShare: number, waterC: number, airC: number): PotLossParts {
  const difference = Math.max(waterC - airC, 0);
  const lidC = Math.max(waterC - LID_BELOW_WATER_K, airC);
  const wetted = Math.min(Math.max(fillShare, 0.05), 1);
  const radiation = blackRadiationWPerM2K(waterC, airC);
  const surface = plateConvectionWPerM2K(shape.diameterM, waterC, airC) + WATER_EMISSIVITY * radiation;
  return {
    wholeSideConvectionW: shape.sideM2 * wallConvectionWPerM2K(shape.heightM, waterC, airC) * difference,
    wholeSideBlackRadiationW: shape.sideM2 * radiation * difference,
    wettedSideConvectionW:
      shape.sideM2 * wetted * wallConvectionWPerM2K(shape.heightM * wetted, waterC, airC) * difference,
    wettedSideBlackRadiationW: shape.sideM2 * wetted * radiation * difference,
    lidConvectionW: shape.baseM2 * plateConvectionWPerM2K(shape.diameterM, lidC, airC) * (lidC - airC),
    lidBlackRadiationW: shape.baseM2 * blackRadiationWPerM2K(lidC, airC) * (lidC - airC),
    openEvaporationW: openEvaporationW(shape.baseM2, waterC, airC),
    openSurfaceW: shape.baseM2 * surface * difference,
  };
}

/**
 * Vapour heat that an uncovered water surface loses: `A E h_fg`.
 * @param surfaceM2 surface in m2
 * @returns W
 */
export function openEvaporationW(surfaceM2: number, waterC: number, airC: number): number {
  return (surfaceM2 * evaporationKgPerM2H(waterC, airC) * latentHeatKJPerKg(Math.max(waterC, 0))) / 3.6;
}

/** Loss of a pot that is not vapour: wall, lid or bare water surface, W. */
export function dryLossW(parts: PotLossParts, emissivity: number, covered: boolean): number {
  return covered
    ? parts.wholeSideConvectionW +
        parts.lidConvectionW +
        emissivity * (parts.wholeSideBlackRadiationW + parts.lidBlackRadiationW)
    : parts.wettedSideConvectionW + emissivity * parts.wettedSideBlackRadiationW + parts.openSurfaceW;
}

/**
 * What a pot loses while it is heated, vapour left out: without a lid the convection of the water surface, under one the
 * lid (5 K below the water). A flame washes the wall with hot gas, so that it loses nothing there, and over a plate the
 * wall is in the efficiency; what radiates from open water is held to go with the factor on open pots.
 * @param shape from `vesselShape`
 * @param waterC temperature of the contents in C
 * @param airC air temperature in C
 * @param covered whether a lid is on
 * @param emissivity emissivity of the lid, 0 to 1
 * @returns W
 */
export function heatUpSurfaceW(
  shape: VesselShape,
  waterC: number,
  airC: number,
  covered: boolean,
  emissivity: number,
): number {
  const topC = covered ? waterC - LID_BELOW_WATER_K : waterC;
  if (topC <= airC) return 0;
  const convection = plateConvectionWPerM2K(shape.diameterM, topC, airC);
  const radiation = covered ? emissivity * blackRadiationWPerM2K(topC, airC) : 0;
  return shape.baseM2 * (convection + radiation) * (topC - airC);
}

/**
 * Loss of a pot held at a temperature in still air, everything included.
 *
 * Lidded `A_side (h + h_r)(T - Ta) + A_lid (h + h_r)(T - 5 - Ta) + leak A E h_fg`; open `wetted side + A E h_fg +
 * A h_surface (T - Ta)`. On a flame the wall is washed by flue gas, so that the wall term is an upper bound there.
 * @param parts from `potLossParts`
 * @param emissivity emissivity of the wall, 0 to 1
 * @param lid kind of lid
 * @param leakShare share of the open evaporation that passes the lid; default by the kind of lid
 * @returns W
 */
export function potLossW(parts: PotLossParts, emissivity: number, lid: Lid, leakShare = LEAK_SHARE[lid].value): number {
  const covered = lid !== 'none';
  return dryLossW(parts, emissivity, covered) + (covered ? leakShare : 1) * parts.openEvaporationW;
}

function evaporationCoefficient(waterC: number): number {
  if (waterC >= 57) return EVAPORATION_PER_KPA;
  if (waterC >= 48.9) return 0.158 + ((waterC - 48.9) / 8.1) * 0.01;
  if (waterC >= 37.8) return 0.1325 + ((waterC - 37.8) / 11.1) * 0.0255;
  return 0.1325;
}

function roomVapourPressureKPa(airC: number): number {
  // Below 0 C the vapour pressure is under 0.61 kPa; the exact value does not matter beside hot water.
  return ROOM_HUMIDITY * saturationPressureKPa(Math.max(airC, 0));
}

function airAt(surfaceC: number, airC: number): { conductivity: number; rayleighPerM3: number } {
  const film = celsiusToKelvin((surfaceC + airC) / 2);
  const share = film / 300;
  const conductivity = 0.02624 * share ** 0.85;
  const viscosity = 1.589e-5 * share ** 1.77;
  return { conductivity, rayleighPerM3: (9.81 * (surfaceC - airC) * 0.71) / (film * viscosity * viscosity) };
}
