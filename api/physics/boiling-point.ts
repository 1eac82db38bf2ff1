/** Saturation line of water: boiling point from pressure and the reverse. */
import { airPressureKPa } from './atmosphere.ts';
import { requireInRange } from './errors.ts';
import { celsiusToKelvin, kelvinToCelsius } from './units.ts';

// Coefficients n1 to n10 of region 4, IAPWS R7-97(2012) table 34.
const N1 = 0.11670521452767e4;
const N2 = -0.72421316703206e6;
const N3 = -0.17073846940092e2;
const N4 = 0.1202082470247e5;
const N5 = -0.32325550322333e7;
const N6 = 0.1491510861353e2;
const N7 = -0.48232657361591e4;
const N8 = 0.40511340542057e6;
const N9 = -0.23855557567849;
const N10 = 0.65017534844798e3;

/**
 * Saturation temperature of water.
 *
 * Source: IAPWS R7-97(2012), region 4, equation 31 (backward).
 * @param pressureMPa absolute pressure in MPa, 0.000611213 to 22.064
 * @returns temperature in K
 * @throws OutOfRangeError outside that range
 */
export function saturationTemperatureK(pressureMPa: number): number {
  requireInRange('pressure', pressureMPa, 611.212677e-6, 22.064, 'MPa');
  const beta2 = Math.sqrt(pressureMPa);
  const beta = Math.sqrt(beta2);
  const e = beta2 + N3 * beta + N6;
  const f = N1 * beta2 + N4 * beta + N7;
  const g = N2 * beta2 + N5 * beta + N8;
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g));
  return (N10 + d - Math.sqrt((N10 + d) ** 2 - 4 * (N9 + N10 * d))) / 2;
}

/**
 * Saturation pressure of water.
 *
 * Source: IAPWS R7-97(2012), region 4, equation 30 (forward).
 * @param temperatureK temperature in K, 273.15 to 647.096
 * @returns pressure in MPa
 * @throws OutOfRangeError outside that range
 */
export function saturationPressureMPa(temperatureK: number): number {
  requireInRange('temperature', temperatureK, 273.15, 647.096, 'K');
  const theta = temperatureK + N9 / (temperatureK - N10);
  const a = theta * theta + N1 * theta + N2;
  const b = N3 * theta * theta + N4 * theta + N5;
  const c = N6 * theta * theta + N7 * theta + N8;
  return ((2 * c) / (-b + Math.sqrt(b * b - 4 * a * c))) ** 4;
}

/**
 * Saturation pressure of water in the units of this program.
 * @param temperatureC temperature in C, 0 to 370
 * @returns pressure in kPa
 */
export function saturationPressureKPa(temperatureC: number): number {
  return saturationPressureMPa(celsiusToKelvin(temperatureC)) * 1000;
}

/**
 * Boiling point of water at an absolute pressure. Also the temperature of a vented pressure cooker when ambient plus
 * gauge pressure is handed in.
 * @param pressureKPa absolute pressure in kPa, 19 to 271 (59 to 130 C)
 * @returns boiling point in C
 * @throws OutOfRangeError outside that range
 */
export function boilingPointC(pressureKPa: number): number {
  requireInRange('pressure', pressureKPa, 19, 271, 'kPa');
  return kelvinToCelsius(saturationTemperatureK(pressureKPa / 1000));
}

/**
 * Boiling point of water at an elevation in the standard atmosphere.
 * @param elevationM elevation in m, -430 to 11 000
 * @returns boiling point in C
 */
export function boilingPointAtElevationC(elevationM: number): number {
  return boilingPointC(airPressureKPa(elevationM));
}

/**
 * How far salt raises the boiling point: `0.15 K per 10 g salt per kg water`, which is ideal solution with an osmotic
 * coefficient of 0.93 (0.513 K kg/mol). Below 20 g/kg it is ignored in planning.
 * @param saltGPerKgWater sodium chloride in g per kg water, 0 to 60
 * @returns rise in K
 */
export function boilingPointRiseK(saltGPerKgWater: number): number {
  requireInRange('salt', saltGPerKgWater, 0, 60, 'g/kg');
  const molesPerKg = saltGPerKgWater / 58.44;
  return 0.513 * 2 * 0.93 * molesPerKg;
}
