/** Air pressure from elevation, and from what a barometer or weather report says. */
import { requireInRange } from './errors.ts';

export const SEA_LEVEL_PRESSURE_KPA = 101.325;
/** Lapse rate over sea-level temperature, 0.0065 K/m / 288.15 K, per metre. */
const LAPSE_SHARE_PER_M = 0.0065 / 288.15;
/** g M / (R L) with the constants of 1976. */
const PRESSURE_EXPONENT = 5.255876;
const ALTIMETER_EXPONENT = 1 / PRESSURE_EXPONENT;

/** Lowest and highest elevation of a question: the Dead Sea shore, and above every village. */
export const ELEVATION_MINIMUM_M = -430;
export const ELEVATION_MAXIMUM_M = 9000;

/**
 * Standard air pressure at an elevation.
 *
 * `p = 101.325 (1 - 2.25577e-5 H)^5.255876`. Source: U.S. Standard Atmosphere 1976 (ICAO Doc 7488, ISO 2533).
 * @param elevationM height above mean sea level in m, -5000 to 11 000 (geopotential; the difference to geometric height
 *   is 0.013 C in the boiling point at 5000 m and is left out)
 * @returns pressure in kPa
 * @throws OutOfRangeError outside that range
 */
export function airPressureKPa(elevationM: number): number {
  requireInRange('elevation', elevationM, -5000, 11000, 'm');
  return SEA_LEVEL_PRESSURE_KPA * (1 - LAPSE_SHARE_PER_M * elevationM) ** PRESSURE_EXPONENT;
}

/**
 * True (station) pressure from a reading that was reduced to sea level, as weather reports and most home barometers
 * give it.
 *
 * `p = [Q^k - 101.325^k (0.0065 H / 288.15)]^(1/k)`, k = 1/5.255876. Source: Smithsonian Meteorological Tables 1951,
 * p. 269, with the constants of 1976 (0.2 hPa from the printed form).
 * @param seaLevelPressureKPa reading in kPa, 85 to 110
 * @param elevationM elevation of the place in m, -430 to 9000
 * @returns station pressure in kPa
 * @throws OutOfRangeError outside those ranges
 */
export function stationPressureKPa(seaLevelPressureKPa: number, elevationM: number): number {
  requireInRange('sea-level pressure', seaLevelPressureKPa, 85, 110, 'kPa');
  requireInRange('elevation', elevationM, ELEVATION_MINIMUM_M, ELEVATION_MAXIMUM_M, 'm');
  const reduced =
    seaLevelPressureKPa ** ALTIMETER_EXPONENT -
    SEA_LEVEL_PRESSURE_KPA ** ALTIMETER_EXPONENT * LAPSE_SHARE_PER_M * elevationM;
  return reduced ** PRESSURE_EXPONENT;
}

/** What a station reading looks like beside the standard pressure of the place. */
export type ReadingVerdict = 'plausible' | 'looks-reduced-to-sea-level' | 'looks-corrected-twice';

/**
 * Guards against the two mistakes made with barometers. Weather keeps the pressure of a place within about 3.5 % of the
 * standard one, so that a reading more than 4 % above is almost surely reduced to sea level, and one more than 6 %
 * below was probably corrected for altitude twice. Thresholds: common practice of this program.
 * @param pressureKPa reading taken as station pressure, kPa
 * @param elevationM elevation in m, -430 to 9000
 */
export function judgeStationReading(pressureKPa: number, elevationM: number): ReadingVerdict {
  const share = pressureKPa / airPressureKPa(elevationM);
  if (share > 1.04) return 'looks-reduced-to-sea-level';
  if (share < 0.94) return 'looks-corrected-twice';
  return 'plausible';
}

/**
 * Pressure in a cold winter low, the careful end for safety boils: 99.0 kPa at sea level under an air column 20 K colder
 * than the standard one, same lapse rate. The two figures are common practice of this program (a deep low in cold air).
 * @param elevationM elevation in m, -430 to 9000
 * @returns kPa
 */
export function winterLowPressureKPa(elevationM: number): number {
  requireInRange('elevation', elevationM, ELEVATION_MINIMUM_M, ELEVATION_MAXIMUM_M, 'm');
  return 99.0 * (1 - (0.0065 / 268.15) * elevationM) ** PRESSURE_EXPONENT;
}

/**
 * Share of the sea-level pressure at an elevation, the argument of every altitude rule of burners.
 * @param elevationM elevation in m, -5000 to 11 000
 * @returns p/p0, no unit
 */
export function pressureShare(elevationM: number): number {
  return airPressureKPa(elevationM) / SEA_LEVEL_PRESSURE_KPA;
}
