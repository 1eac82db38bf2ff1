/** Beans that were stored warm and damp soften slowly: the hard-to-cook factor A on the softening minutes. */

import { requireInRange } from '../../physics/errors.ts';
import type { Parameter } from '../../physics/parameter.ts';

/** What a lot has been through. */
export interface Storage {
  /** Years since packing, 0 to 60. */
  years: number;
  /** Mean storage temperature, C, -30 to 50. */
  temperatureC: number;
  /** Moisture of the food, % wet basis, 2 to 20. */
  moisturePercent: number;
}

/** No typical value above this: beyond it nobody measured. */
export const STORAGE_FACTOR_CAP = 5;
/** Above this the answer says that the beans may never soften and asks for a test of twenty. */
export const MAY_NEVER_SOFTEN_ABOVE = 2.5;

/**
 * Hardening rate, `k = 0.637 * 3.0^((T - 4.4)/10) * 2^(w - 17)` per year.
 *
 * Calibrated on pinto beans of 16-18 % moisture: after ten months x1.7 at 4.4 C and x1.2 at -6.7 C; doubling per 1 %
 * moisture is the rule for seeds, not validated below 12 %.
 */
export function hardeningRatePerYear(temperatureC: number, moisturePercent: number): number {
  return 0.637 * 3 ** ((temperatureC - 4.4) / 10) * 2 ** (moisturePercent - 17);
}

/**
 * Factor A on the softening minutes of a pulse, `min(5, exp(k years))`, with its spread: a factor of 1.5 either way, less
 * while A itself is below 1.5.
 * @throws OutOfRangeError outside the ranges of `Storage`
 */
export function storageFactor(storage: Storage): Parameter {
  requireInRange('storage.years', storage.years, 0, 60, 'years');
  requireInRange('storage.temperatureC', storage.temperatureC, -30, 50, 'C');
  requireInRange('storage.moisturePercent', storage.moisturePercent, 2, 20, '%');
  const rate = hardeningRatePerYear(storage.temperatureC, storage.moisturePercent);
  const value = Math.min(STORAGE_FACTOR_CAP, Math.exp(rate * storage.years));
  const spread = Math.min(1.5, value);
  return {
    value,
    p10: value / spread,
    p90: value * spread,
    unit: '',
    source: { key: 'storing-edible-beans', place: 'pinto at 16-18 %, ten months: x1.2 at -6.7 C, x1.7 at 4.4 C' },
    estimate: true,
    note: 'below 12 % moisture it rests on the rule for seeds',
  };
}

/** Pulses this dry often hold some seeds whose coat lets no water in. */
export const HARD_SHELL_BELOW_PERCENT = 9;

/** What to say about an old lot, or null where nothing need be said. */
export function storageAdvice(storage: Storage): string | null {
  const { value } = storageFactor(storage);
  if (value > MAY_NEVER_SOFTEN_ABOVE)
    return 'These may never soften. Boil twenty of them first; if they stay hard, grind the lot for a thin gruel at a full boil, or use bicarbonate or a pressure cooker.';
  if (value > 1.5) return 'Old stock: test a few before the whole pot depends on them.';
  if (storage.moisturePercent <= HARD_SHELL_BELOW_PERCENT)
    return 'Very dry: some seeds may let no water in. Boil them up for a minute and a half before the soak, and pick out what has not swollen.';
  return null;
}
