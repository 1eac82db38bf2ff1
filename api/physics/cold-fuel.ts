/** What cold does to gas in bottles and to alcohol. It changes power and time, not the energy that a task takes. */
import { celsiusToFahrenheit, celsiusToKelvin, psiToKPa } from './units.ts';

/**
 * Vapour pressure of pure propane: fifth-order fit in psia and F that regresses NIST data, error at most 1.1 %.
 * Commercial propane is higher; plan on the pure figure.
 * @param temperatureC -45 to 50
 * @returns kPa absolute
 */
export function propanePressureKPa(temperatureC: number): number {
  const f = celsiusToFahrenheit(temperatureC);
  const psia =
    ((((1.23463079e-10 * f - 1.817499989e-8) * f + 1.929167768e-5) * f + 0.005658595) * f + 0.750256651) * f +
    38.3663018;
  return psiToKPa(psia);
}

/**
 * Vapour pressure of n-butane, Antoine, kPa absolute.
 * @param temperatureC -45 to 60
 */
export function butanePressureKPa(temperatureC: number): number {
  const t = celsiusToKelvin(temperatureC);
  return 100 * 10 ** (t > 272.66 ? 4.35576 - 1175.581 / (t - 2.071) : 3.85002 - 909.65 / (t - 36.146));
}

/**
 * Vapour pressure of isobutane, Antoine, kPa absolute.
 * @param temperatureC -45 to 60
 */
export function isobutanePressureKPa(temperatureC: number): number {
  const t = celsiusToKelvin(temperatureC);
  return 100 * 10 ** (t > 261.31 ? 4.3281 - 1132.108 / (t + 0.918) : 3.94417 - 912.141 / (t - 29.808));
}

/**
 * Vapour pressure of a fresh canister of isobutane with 30 % propane by mass (Raoult). Propane leaves first, so that a
 * nearly empty one comes close to isobutane.
 * @param temperatureC -45 to 50
 * @returns kPa absolute
 */
export function canisterPressureKPa(temperatureC: number): number {
  const propaneMol = 0.3 / 44.1;
  const butaneMol = 0.7 / 58.12;
  const share = propaneMol / (propaneMol + butaneMol);
  return share * propanePressureKPa(temperatureC) + (1 - share) * isobutanePressureKPa(temperatureC);
}

/**
 * Power of a gas stove in the cold as a share of its power at 15 C.
 *
 * Full while the bottle holds at least 200 kPa gauge for propane (a regulator still has its inlet pressure: estimate);
 * an unregulated canister or butane cartridge gives power in proportion to its absolute pressure above the air's
 * (choked jet: estimate). 0 where the gas no longer leaves the bottle.
 * @param fuel kind of gas
 * @param temperatureC temperature of the bottle, taken as that of the air
 * @param ambientKPa air pressure, kPa
 * @returns 0 to 1
 */
export function coldPowerShare(
  fuel: 'propane' | 'butane' | 'canister-mix',
  temperatureC: number,
  ambientKPa: number,
): number {
  const t = Math.min(Math.max(temperatureC, -45), 50);
  const gauge =
    (fuel === 'propane' ? propanePressureKPa(t) : fuel === 'butane' ? butanePressureKPa(t) : canisterPressureKPa(t)) -
    ambientKPa;
  const full = fuel === 'propane' ? 200 : fuel === 'butane' ? 75 : 200;
  return Math.min(1, Math.max(0, gauge / full));
}

/**
 * How far a small cylinder cools itself below the air while gas is drawn:
 * `dT = (P h_v / LHV / UA) (1 - exp(-UA t / C))`, h_v = 370 kJ/kg.
 * @param powerKW power of the flame in kW
 * @param minutes time in min
 * @param uaWPerK heat transfer of the cylinder in W/K, 0.3 to 0.6 for the 465 g size
 * @param heatCapacityKJPerK about 1.5 for a full one
 * @returns K below the air
 */
export function cylinderCoolingK(powerKW: number, minutes: number, uaWPerK = 0.5, heatCapacityKJPerK = 1.5): number {
  const drawW = (powerKW * 370 * 1000) / 46350;
  return (drawW / uaWPerK) * (1 - Math.exp((-uaWPerK * minutes * 60) / (heatCapacityKJPerK * 1000)));
}
