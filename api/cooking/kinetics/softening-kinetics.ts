/** Minutes until a food is soft, by temperature. */
import type { Parameter } from '../../physics/parameter.ts';
import { celsiusToKelvin } from '../../physics/units.ts';
import type { CookingAdditive, SoakAdditive } from '../calculators/calculator-types.ts';
import { entry, estimate } from '../foods/food-parameters.ts';
import { GAS_CONSTANT_KJ } from './hydration-kinetics.ts';

/** z of water entering an unsoaked pulse, K: diffusion with 10-60 kJ/mol spans 45 to 280. */
export const HYDRATION_Z_K: Parameter = estimate(
  80,
  50,
  200,
  'K',
  'planner-derivation',
  'chosen so that unsoaked pressure times come out at 20-35 min',
);

/**
 * Factor on minutes at 100 C: `10^((100 - T)/z)`.
 * @param temperatureC C, 50 to 130
 * @param zBelow K, holds up to 100 C
 * @param zAbove K, holds above 100 C
 */
export function timeFactor(temperatureC: number, zBelow: number, zAbove: number = zBelow): number {
  return 10 ** ((100 - temperatureC) / (temperatureC <= 100 ? zBelow : zAbove));
}

/**
 * Minutes at a temperature until a food is soft:
 * `A C t_soft 10^((100-T)/z) + (1 - f) t_hyd 10^((100-T)/80)`.
 *
 * Two terms for pulses (softening, and water still to enter); grains and roots have no second one.
 * @returns minutes at `temperatureC`
 */
export function minutesToSoft(p: {
  softeningMinutes: number;
  hydrationMinutes: number;
  /** 0 to 1. */
  hydrationShare: number;
  /** A, >= 1. */
  storageFactor: number;
  /** C, > 0. */
  additiveFactor: number;
  temperatureC: number;
  zBelow: number;
  zAbove: number;
  zHydration: number;
}): { softening: number; hydration: number; total: number } {
  const softening =
    p.storageFactor * p.additiveFactor * p.softeningMinutes * timeFactor(p.temperatureC, p.zBelow, p.zAbove);
  const hydration = (1 - p.hydrationShare) * p.hydrationMinutes * timeFactor(p.temperatureC, p.zHydration);
  return { softening, hydration, total: softening + hydration };
}

/**
 * z from an activation energy over a range, `z = ln10 R T1 T2 / Ea`, K.
 * @param kJPerMol > 0
 */
export function zFromActivation(kJPerMol: number, fromC: number, toC: number): number {
  return (Math.LN10 * GAS_CONSTANT_KJ * celsiusToKelvin(fromC) * celsiusToKelvin(toC)) / kJPerMol;
}

/** The inverse of `zFromActivation`, kJ/mol. */
export function activationFromZ(zK: number, fromC: number, toC: number): number {
  return zFromActivation(zK, fromC, toC);
}

const CIAT = 'bioversity-ciat-soaking' as const;

/**
 * C of what is in the cooking water, on the softening term of pulses: dry and soaked beans were tried apart, shares
 * between are interpolated.
 */
const COOKING_ADDITIVE: Record<CookingAdditive, { unsoaked: number; soaked: number; low: number; high: number }> = {
  none: { unsoaked: 1, soaked: 1, low: 1, high: 1 },
  // 109.5 -> 82.0 unsoaked is 0.749 of the whole time, (0.749 * 110 - 25)/85 of the softening; 84.6 -> 51.2 soaked.
  bicarbonate: { unsoaked: 0.675, soaked: 0.605, low: 0.6, high: 1.3 },
  // 115.9 unsoaked, 92.7 soaked.
  acid: { unsoaked: 1.075, soaked: 1.095, low: 0.93, high: 1.25 },
};

/**
 * Factor C of the cooking water on the softening minutes of a pulse.
 * @param hydrationShare 0 to 1
 * @returns parameter without unit; 0.2 % bicarbonate about 0.6, acid about 1.1
 */
export function cookingAdditiveFactor(additive: CookingAdditive, hydrationShare: number): Parameter {
  const row = COOKING_ADDITIVE[additive];
  const value = row.unsoaked + hydrationShare * (row.soaked - row.unsoaked);
  return entry(
    value,
    value * row.low,
    value * row.high,
    '',
    CIAT,
    '0.2 % bicarbonate; 1 % citric acid; eight varieties',
  );
}

const SOAK_ADDITIVE: Record<SoakAdditive, Parameter> = {
  none: entry(1, 1, 1, '', CIAT, 'tap water'),
  // Decided once between 0.9 (a guess), 0.35 (implied by pressure times whose come-up is not known) and five kinds of
  // salted bean in a 90 C bath, which ask for 0.9 to 1.
  salt: estimate(
    0.88,
    0.6,
    1,
    '',
    'bath-90c-beans',
    'about 0.9-1 by the bath; 0.35 implied by Colorado pressure times',
  ),
  bicarbonate: estimate(0.75, 0.5, 0.95, '', 'mcgee-2004', 'soak only: between no effect and the -75 % of 0.5 %'),
};

/**
 * Factor C of what was in the soak water, where that water is poured away. Grows with the hydration share, since it
 * comes in with the water.
 */
export function soakAdditiveFactor(additive: SoakAdditive, hydrationShare: number): Parameter {
  const full = SOAK_ADDITIVE[additive];
  const scaled = (x: number) => 1 + hydrationShare * (x - 1);
  return { ...full, value: scaled(full.value), p10: scaled(full.p10), p90: scaled(full.p90) };
}

/**
 * Soak and cooking water together. Bicarbonate in both is what the trial measured, so it is counted once; soak water
 * that is kept carries its bicarbonate into the pot.
 */
export function additiveFactor(
  soak: SoakAdditive,
  cooking: CookingAdditive,
  hydrationShare: number,
  soakWaterKept: boolean,
): Parameter {
  if (cooking === 'bicarbonate' || (soak === 'bicarbonate' && soakWaterKept && cooking !== 'acid')) {
    const soda = cookingAdditiveFactor('bicarbonate', hydrationShare);
    if (soak !== 'salt') return soda;
    return product(soda, soakAdditiveFactor('salt', hydrationShare));
  }
  return product(cookingAdditiveFactor(cooking, hydrationShare), soakAdditiveFactor(soak, hydrationShare));
}

function product(a: Parameter, b: Parameter): Parameter {
  if (b.value === 1 && b.p10 === 1 && b.p90 === 1) return a;
  if (a.value === 1 && a.p10 === 1 && a.p90 === 1) return b;
  const value = a.value * b.value;
  const down = Math.hypot(Math.log(a.value / a.p10), Math.log(b.value / b.p10));
  const up = Math.hypot(Math.log(a.p90 / a.value), Math.log(b.p90 / b.value));
  return { ...a, value, p10: value * Math.exp(-down), p90: value * Math.exp(up), estimate: true };
}
