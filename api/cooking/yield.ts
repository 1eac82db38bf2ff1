/** Cooked weight and the water that goes with a food: soak, rinse, absorbed, covering liquid. */
import type { Percentiles } from '../physics/parameter.ts';
import type { Food } from './food.ts';
import type { DishStyle } from './kit.ts';

/** Water for a cool soak, kg per kg dry: 6 cups a pound. */
export const COOL_SOAK_WATER_KG_PER_KG = 3.13;
/** Water for a hot soak: 8 cups a pound. */
export const HOT_SOAK_WATER_KG_PER_KG = 4.17;
/** The least that keeps beans covered while they swell: uptake 1.1-1.25 and a film, derived. */
export const LEAST_SOAK_WATER_KG_PER_KG = 2.0;
/** Water that clings to drained soaked beans and that the pot gets for free, kg per kg dry: assumed. */
export const DRAINED_FILM_KG_PER_KG = 0.1;
/** Liquid beyond what is absorbed that keeps pulses covered in the pot, kg per kg dry: derived, recommended. */
export const COVERING_WATER_KG_PER_KG = 1.0;
/** Water to rinse soaked and drained pulses, kg per kg dry: practice. */
export const RINSE_WATER_KG_PER_KG = 1.0;
/** Pasta boiled and drained; a water-saving pot needs 3. Mississippi State Extension: 4 quarts a pound. */
export const PASTA_WATER_KG_PER_KG = 8.3;
export const PASTA_WATER_SAVING_KG_PER_KG = 3;

/**
 * Highest cooked yield, `(1 - w_raw)/(1 - w_cooked)`, g cooked per g raw when no solids are lost.
 * @param rawShare kg water per kg raw food, 0 to 1
 * @param cookedShare kg water per kg cooked food, 0 to below 1
 */
export function highestYield(rawShare: number, cookedShare: number): number {
  return (1 - rawShare) / (1 - cookedShare);
}

/** Cooked yield with solids lost: `Y = L (1 - w_raw)/(1 - w_cooked)`. */
export function cookedYield(rawShare: number, cookedShare: number, solidsKept: number): number {
  return solidsKept * highestYield(rawShare, cookedShare);
}

/** Water held when done beyond that of the raw food, `Y w_cooked - w_raw`, g per g raw. */
export function waterHeld(rawShare: number, cookedShare: number, solidsKept: number): number {
  return cookedYield(rawShare, cookedShare, solidsKept) * cookedShare - rawShare;
}

/**
 * Solids lost by a chickpea, zero order from 4.7e-5 %/s at 20 C to 240e-5 %/s at 100 C (Yildirim, J. Food Process Eng.
 * 34), between them Arrhenius.
 * @param temperatureC 20 to 100 C
 * @returns percent of the seed's mass
 */
export function chickpeaSolidsLostPercent(temperatureC: number, minutes: number): number {
  const inverse = (c: number) => 1 / (c + 273.15);
  const share = (inverse(20) - inverse(temperatureC)) / (inverse(20) - inverse(100));
  return 4.7e-5 * (240 / 4.7) ** share * minutes * 60;
}

/** Water held by a food when done, g per g as bought. */
export function absorbedWhenDone(food: Food): Percentiles {
  return { p10: food.absorbedGPerG.p10, p50: food.absorbedGPerG.value, p90: food.absorbedGPerG.p90 };
}

/** Cooked mass of a food, g per g as bought: solids kept, own water and water absorbed. */
export function cookedGPerG(food: Food): number {
  const water = food.waterGPer100G.value / 100;
  return (1 - water) * food.solidsKept.value + water + food.absorbedGPerG.value;
}

/**
 * Water of one food in the pot, L.
 * @param q `massG` as bought, g; `soakUptakeGPerG` taken up in a soak whose water is gone, g/g; `style` of the dish
 * @returns `absorbedL` still to be taken up in the pot, `coveringL` that keeps it covered or is poured off after,
 *   `inPotL` the sum; `drainedL` what is poured away when done. Boiled-off water comes on top.
 */
export function cookingWater(q: {
  food: Food;
  massG: number;
  soakUptakeGPerG?: number;
  style?: DishStyle;
  waterSaving?: boolean;
}): { absorbedL: number; coveringL: number; inPotL: number; drainedL: number } {
  const kg = q.massG / 1000;
  const soaked = q.soakUptakeGPerG ?? 0;
  const film = soaked > 0 ? DRAINED_FILM_KG_PER_KG : 0;
  const absorbedL = Math.max(0, q.food.absorbedGPerG.value - soaked - film) * kg;
  if (q.food.group === 'pasta' && q.style === 'pasta') {
    const inPotL = (q.waterSaving ? PASTA_WATER_SAVING_KG_PER_KG : PASTA_WATER_KG_PER_KG) * kg;
    const left = Math.max(0, inPotL - absorbedL);
    return { absorbedL, coveringL: left, inPotL: Math.max(inPotL, absorbedL), drainedL: left };
  }
  const covered = q.food.group === 'pulse' && q.food.kinetics.kind === 'boil';
  const coveringL = covered ? COVERING_WATER_KG_PER_KG * kg : 0;
  return { absorbedL, coveringL, inPotL: absorbedL + coveringL, drainedL: 0 };
}

/**
 * Water of a soak, L per kg food as bought.
 * @param uptakeGPerG taken up, g/g as bought
 * @returns supplied, absorbed, and discarded where it is poured away
 */
export function soakWater(
  uptakeGPerG: number,
  hot: boolean,
): { supplied: number; absorbed: number; discarded: number } {
  const usual = hot ? HOT_SOAK_WATER_KG_PER_KG : COOL_SOAK_WATER_KG_PER_KG;
  const supplied = Math.max(usual, uptakeGPerG + 0.5);
  return { supplied, absorbed: uptakeGPerG, discarded: supplied - uptakeGPerG };
}
