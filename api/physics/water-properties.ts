/** Heat, density and evaporation figures of liquid water, steam and ice. */
import { requireInRange } from './errors.ts';

/** Specific heat of water between 10 and 100 C, kJ/(kg K); error below 0.1 %. Source: IAPWS-95, mean 20 to 100 C. */
export const WATER_SPECIFIC_HEAT = 4.19;
/** Melting heat of ice, MJ/kg. Textbook value. */
export const ICE_MELTING_MJ_PER_KG = 0.334;
/** Specific heat of ice near -10 C, kJ/(kg K). Textbook value. */
export const ICE_SPECIFIC_HEAT = 2.1;

/**
 * Latent heat of evaporation: `2256.42 - 2.6464 x - 0.003492 x^2`, x = T - 100. A fit to IAPWS-95, error at most
 * 0.06 kJ/kg from 80 to 125 C.
 * @param temperatureC temperature in C, 0 to 130 (below 80 C within 0.5 %)
 * @returns kJ/kg
 */
export function latentHeatKJPerKg(temperatureC: number): number {
  requireInRange('temperature', temperatureC, 0, 130, 'C');
  const x = temperatureC - 100;
  return 2256.42 - 2.6464 * x - 0.003492 * x * x;
}

/**
 * Density of water at 1 atm: the rational fit of Kell 1975, within 0.016 kg/m3 of IAPWS-95 up to 99.6 C.
 * @param t temperature in C, 0 to 100
 * @returns kg/m3
 */
export function waterDensityKgPerM3(t: number): number {
  requireInRange('temperature', t, 0, 100, 'C');
  const numerator =
    999.83952 + t * (16.945176 + t * (-7.9870401e-3 + t * (-4.6170461e-5 + t * (1.0556302e-7 + t * -2.8054253e-10))));
  return numerator / (1 + 1.687985e-2 * t);
}

/**
 * Heat that a mass of water takes from its start to its end temperature. Water that starts below 0 C is ice: warming
 * it (2.1 kJ/(kg K)) and melting it (334 kJ/kg) are charged.
 * @param massKg mass in kg, >= 0
 * @param startC start temperature in C, -40 to 130
 * @param endC end temperature in C; at or below the start the answer is 0
 * @returns kJ
 */
export function waterHeatKJ(massKg: number, startC: number, endC: number): number {
  if (!(endC > startC) || massKg <= 0) return 0;
  if (startC >= 0) return massKg * WATER_SPECIFIC_HEAT * (endC - startC);
  if (endC <= 0) return massKg * ICE_SPECIFIC_HEAT * (endC - startC);
  return massKg * (ICE_SPECIFIC_HEAT * -startC + ICE_MELTING_MJ_PER_KG * 1000 + WATER_SPECIFIC_HEAT * endC);
}

/**
 * Steam made by heat above what the pot loses: `m = P t / h_fg`.
 * @param surplusKW heat in kW, >= 0
 * @param minutes time in min, >= 0
 * @param temperatureC boiling temperature in C, 60 to 130
 * @returns kg
 */
export function steamKg(surplusKW: number, minutes: number, temperatureC: number): number {
  return (surplusKW * minutes * 60) / latentHeatKJPerKg(temperatureC);
}

/**
 * Share of the water that flashes to steam when a pressure cooker is vented quickly: enthalpy step over latent heat.
 * @param fromC temperature under pressure in C
 * @param toC boiling point at the place in C
 * @returns share, 0 to 0.1
 */
export function flashShare(fromC: number, toC: number): number {
  if (fromC <= toC) return 0;
  // Water takes 4.23 kJ/(kg K) between 100 and 121 C (IAPWS-95); the latent heat is that of the mean temperature.
  return (4.23 * (fromC - toC)) / latentHeatKJPerKg((fromC + toC) / 2);
}
