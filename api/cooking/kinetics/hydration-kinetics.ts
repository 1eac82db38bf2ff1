/** Uptake of water by pulses and grains that stand in water: cool, hot, or hot and cooling down. */
import { celsiusToKelvin } from '../../physics/units.ts';
import type { SoakKinetics } from '../foods/food.ts';

/** Molar gas constant, kJ/(mol K). */
export const GAS_CONSTANT_KJ = 8.314e-3;

/** The soak that counts as full: 12 h at 22 C (the trial behind the saving of 23 % of the cooking time). */
export const FULL_SOAK = { hours: 12, waterC: 22 } as const;

/**
 * Time constant, in hours, of a covered soak that starts hot: boiled beans and water left to stand average 80 C over the
 * first hour from 98 C in a room of 20 C, which is 1.8 h. Derived; a small bowl cools faster, a wrapped pot slower.
 */
export const HOT_SOAK_TIME_CONSTANT_H = 1.8;

/**
 * Peleg's relation, `dM = t / (k1 + k2 t)`.
 *
 * Source: Peleg 1988 as used by Yildirim 2010 and Kwofie 2019.
 * @param hours time in water, h, >= 0
 * @param k1Hours inverse of the initial rate, h per (kg/kg), > 0
 * @param k2 inverse of the limit, 1/(kg/kg), > 0
 * @returns water taken up, kg per kg dry solids
 */
export function pelegUptake(hours: number, k1Hours: number, k2: number): number {
  return hours / (k1Hours + k2 * hours);
}

/**
 * A rate constant's inverse at another temperature, `k(T) = k(Tref) exp(Ea/R (1/T - 1/Tref))`.
 * @param atReference value at `referenceC`
 * @param kJPerMol activation energy, kJ/mol
 * @param temperatureC temperature, C
 */
export function arrheniusInverse(
  atReference: number,
  referenceC: number,
  kJPerMol: number,
  temperatureC: number,
): number {
  const exponent = (kJPerMol / GAS_CONSTANT_KJ) * (1 / celsiusToKelvin(temperatureC) - 1 / celsiusToKelvin(referenceC));
  return atReference * Math.exp(exponent);
}

/**
 * Activation energy between two temperatures from the times that reach the same state, kJ/mol.
 * @param ratio time at the colder / time at the warmer temperature
 */
export function activationFromTimes(ratio: number, colderC: number, warmerC: number): number {
  return (GAS_CONSTANT_KJ * Math.log(ratio)) / (1 / celsiusToKelvin(colderC) - 1 / celsiusToKelvin(warmerC));
}

/** Plain numbers of a soak, so that spreads can be put on each. */
export interface SoakNumbers {
  k1Hours: number;
  referenceC: number;
  k2: number;
  activation: readonly { upToC: number; kJPerMol: number }[];
  lagHours: number;
}

/** Where a soak stands: at one temperature, or starting hot and cooling towards the air. */
export type SoakHistory =
  | { start: 'cool'; hours: number; waterC: number }
  | { start: 'hot'; hours: number; waterC: number; airC: number; timeConstantHours?: number };

/**
 * The numbers of a food's soak.
 * @param temperatureDeviate -1, 0, 1: activation energies at their 10th percentile, typical, 90th; between, linear
 */
export function soakNumbers(soak: SoakKinetics, temperatureDeviate = 0): SoakNumbers {
  return {
    k1Hours: soak.k1Hours.value,
    referenceC: soak.referenceC,
    k2: soak.k2.value,
    activation: soak.activation.map(({ upToC, kJPerMol }) => ({
      upToC,
      kJPerMol:
        kJPerMol.value +
        temperatureDeviate * (temperatureDeviate > 0 ? kJPerMol.p90 - kJPerMol.value : kJPerMol.value - kJPerMol.p10),
    })),
    lagHours: soak.lagHours,
  };
}

/**
 * Peleg's k1 at a temperature, the activation energy changing at the breaks that the food states.
 * @param temperatureC water, C, 0 to 130
 * @returns h per (kg/kg)
 */
export function k1AtC(soak: SoakNumbers, temperatureC: number): number {
  const colder = Math.min(temperatureC, soak.referenceC);
  const warmer = Math.max(temperatureC, soak.referenceC);
  let exponent = 0;
  let from = Number.NEGATIVE_INFINITY;
  for (const { upToC, kJPerMol } of soak.activation) {
    const low = Math.max(colder, from);
    const high = Math.min(warmer, upToC);
    if (high > low) exponent += (kJPerMol / GAS_CONSTANT_KJ) * (1 / celsiusToKelvin(low) - 1 / celsiusToKelvin(high));
    from = upToC;
  }
  return soak.k1Hours * Math.exp(temperatureC < soak.referenceC ? exponent : -exponent);
}

/** Temperature of a soak after a time, C. A hot start cools by Newton's law. */
export function soakTemperatureC(history: SoakHistory, hours: number): number {
  if (history.start === 'cool') return history.waterC;
  const tau = history.timeConstantHours ?? HOT_SOAK_TIME_CONSTANT_H;
  return history.airC + (history.waterC - history.airC) * Math.exp(-hours / tau);
}

const PANELS = 32;

/**
 * Water taken up over a soak, kg per kg dry solids.
 *
 * Peleg's relation in its differential form, `d(dM)/dt = (1 - k2 dM)^2 / k1(T(t))`, has the solution
 * `dM = I / (1 + k2 I)` with `I = integral dt / k1(T(t))`: at one temperature that is Peleg's relation itself. `I` by
 * Simpson's rule for a soak that cools. A lag is time at the reference temperature that must pass first.
 * @param history hours >= 0, temperatures up to 100 C; a cool soak below 0 C is ice and takes up nothing
 */
export function soakUptake(soak: SoakNumbers, history: SoakHistory): number {
  const afterLag = Math.max(0, soakIntegral(soak, history) - soak.lagHours / soak.k1Hours);
  return afterLag / (1 + soak.k2 * afterLag);
}

/**
 * `I = integral dt / k1(T(t))` over a soak, kg per kg dry solids: its uptake if nothing slowed down. 0 in ice.
 * @param history as `soakUptake`
 */
export function soakIntegral(soak: SoakNumbers, history: SoakHistory): number {
  // Ice lets nothing in.
  if (history.hours <= 0 || (history.start === 'cool' && history.waterC < 0)) return 0;
  if (history.start === 'cool') return history.hours / k1AtC(soak, history.waterC);
  const step = history.hours / PANELS;
  let sum = 0;
  for (let i = 0; i <= PANELS; i += 1) {
    const weight = i === 0 || i === PANELS ? 1 : i % 2 === 1 ? 4 : 2;
    sum += weight / k1AtC(soak, soakTemperatureC(history, i * step));
  }
  return (sum * step) / 3;
}

/**
 * Hydration share, `f = min(1, dM / dM(12 h, 22 C))`.
 * @returns 0 to 1
 */
export function hydrationShare(soak: SoakNumbers, history: SoakHistory): number {
  return Math.min(1, soakUptake(soak, history) / soakUptake(soak, { start: 'cool', ...FULL_SOAK }));
}

/**
 * Hours in cool water of one temperature until a hydration share is reached.
 * @param share 0 to 1
 * @returns hours; infinite where the limit of uptake lies below, and in ice
 */
export function hoursToShare(soak: SoakNumbers, share: number, waterC: number): number {
  if (waterC < 0) return Number.POSITIVE_INFINITY;
  const target = share * soakUptake(soak, { start: 'cool', ...FULL_SOAK });
  if (target * soak.k2 >= 1) return Number.POSITIVE_INFINITY;
  const integral = target / (1 - soak.k2 * target) + soak.lagHours / soak.k1Hours;
  return integral * k1AtC(soak, waterC);
}

/**
 * Moisture on the wet basis after an uptake.
 * @param uptake kg water per kg dry solids taken up
 * @param startShare kg water per kg food at the start, 0 to 1
 * @returns kg water per kg food, 0 to 1
 */
export function moistureAfterUptake(uptake: number, startShare: number): number {
  const dryBasis = startShare / (1 - startShare) + uptake;
  return dryBasis / (1 + dryBasis);
}

/** Uptake per g of food as bought from the uptake per g of dry solids: `dM (1 - w0)`. */
export function uptakeAsBought(uptake: number, waterShare: number): number {
  return uptake * (1 - waterShare);
}
