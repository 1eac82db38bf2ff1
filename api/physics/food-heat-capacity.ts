/** Specific heat of foods from their composition. */
import { requireInRange } from './errors.ts';

/** Mass shares of a food; carbohydrate without fibre. */
export interface Composition {
  water: number;
  protein: number;
  fat: number;
  carbohydrate: number;
  fibre?: number;
  ash?: number;
}

/**
 * Specific heat by Choi and Okos 1986: sum of shares times component values. Meant for foods of more than half water.
 *
 * The water constant is 4.1762 (later handbooks print 4.1289, which is 1 % low against IAPWS-95).
 * @param c mass shares, each 0 to 1
 * @param t temperature in C, 0 to 150
 * @returns kJ/(kg K)
 */
export function specificHeatChoiOkos(c: Composition, t: number): number {
  requireInRange('temperature', t, 0, 150, 'C');
  return (
    c.water * (4.1762 - 9.0864e-5 * t + 5.4731e-6 * t * t) +
    c.protein * (2.0082 + 1.2089e-3 * t - 1.3129e-6 * t * t) +
    c.fat * (1.9842 + 1.4733e-3 * t - 4.8008e-6 * t * t) +
    c.carbohydrate * (1.5488 + 1.9625e-3 * t - 5.9399e-6 * t * t) +
    (c.fibre ?? 0) * (1.8459 + 1.8306e-3 * t - 4.6509e-6 * t * t) +
    (c.ash ?? 0) * (1.0926 + 1.8896e-3 * t - 3.6817e-6 * t * t)
  );
}

/**
 * Specific heat by Heldman 1975, meant for dry goods: `4.18 w + 1.547 prot + 1.672 fat + 1.42 carb + 0.836 ash`, where
 * carbohydrate includes fibre.
 * @param c mass shares, each 0 to 1
 * @returns kJ/(kg K)
 */
export function specificHeatHeldman(c: Composition): number {
  return (
    4.18 * c.water + 1.547 * c.protein + 1.672 * c.fat + 1.42 * (c.carbohydrate + (c.fibre ?? 0)) + 0.836 * (c.ash ?? 0)
  );
}

/**
 * Specific heat of a food of any water content: Heldman below half water, Choi and Okos above. Siebel's line (0.837 +
 * 3.348 w) is 30 % low for dry goods and is not used.
 * @param c mass shares
 * @param t temperature in C, 0 to 150
 * @returns kJ/(kg K)
 */
export function specificHeatKJPerKgK(c: Composition, t = 60): number {
  return c.water < 0.5 ? specificHeatHeldman(c) : specificHeatChoiOkos(c, t);
}
