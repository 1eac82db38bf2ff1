/** Temperature, fill, least water and steam of a pressure cooker. */
import { boilingPointC, saturationPressureKPa } from './boiling-point.ts';
import { requireInRange } from './errors.ts';

/** Gauge pressures of household cookers lie below 150 kPa (scope of EN 12778). */
export const GAUGE_MAXIMUM_KPA = 150;

/**
 * Temperature in a pressure cooker that was vented of air: boiling point at ambient plus gauge pressure. The valve
 * holds gauge pressure, so altitude still costs temperature.
 * @param ambientKPa air pressure in kPa, 25 to 110
 * @param gaugeKPa gauge pressure in kPa, 0 to 150
 * @returns C
 * @throws OutOfRangeError outside those ranges
 */
export function cookerTemperatureC(ambientKPa: number, gaugeKPa: number): number {
  requireInRange('gauge pressure', gaugeKPa, 0, GAUGE_MAXIMUM_KPA, 'kPa');
  return boilingPointC(ambientKPa + gaugeKPa);
}

/**
 * Gauge pressure at which a temperature is reached.
 * @param temperatureC wanted temperature in C, 60 to 130
 * @param ambientKPa air pressure in kPa
 * @returns kPa, negative where the open pot is hotter
 */
export function gaugeForTemperatureKPa(temperatureC: number, ambientKPa: number): number {
  return saturationPressureKPa(temperatureC) - ambientKPa;
}

/**
 * Temperature of a cooker that still holds air: the steam's share of the total pressure sets it.
 * @param totalKPa absolute pressure in kPa
 * @param airShare air by volume, 0 to 0.5
 */
export function cookerTemperatureWithAirC(totalKPa: number, airShare: number): number {
  requireInRange('share of air', airShare, 0, 0.5, '');
  return boilingPointC(totalKPa * (1 - airShare));
}

/**
 * Water without which a pressure cooker must not be heated: 0.25 L up to 6 L, 0.5 L above. Makers' manuals, 0.12 to
 * 0.48 L.
 */
export function leastWaterL(capacityL: number): number {
  return capacityL <= 6 ? 0.25 : 0.5;
}
