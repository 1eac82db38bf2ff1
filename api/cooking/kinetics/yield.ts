/** Cooked weight and the water that goes with a food: soak, rinse, absorbed, covering liquid. */
import type { Percentiles } from '../../physics/parameter.ts';
import { celsiusToKelvin } from '../../physics/units.ts';
import type { DishStyle } from '../dishes/kit.ts';
import type { Food } from '../foods/food.ts';
import { entry, estimate } from '../foods/food-parameters.ts';

const PER_KG = 'kg/kg dry';

/** Water that goes with a food, each figure with what it rests on. */
export const WATER_PARAMETERS = {
  /** 6 cups a pound; 3 cups a cup is 3.5-3.9. */
  coolSoak: entry(3.13, 3.13, 4.2, PER_KG, 'us-bean-chart', '6 to 8 cups a pound'),
  /** 8 to 10 cups a pound. */
  hotSoak: entry(4.17, 4.17, 5.2, PER_KG, 'us-bean-chart', '8 to 10 cups a pound'),
  /** The least that covers beans while they swell: uptake 1.1-1.25, and enough to stay wet. */
  leastSoak: estimate(2, 1.8, 2.3, PER_KG, 'planner-derivation', 'uptake of 12 h and a film of 0.5'),
  /** Clings to drained beans and comes into the pot with them. */
  drainedFilm: estimate(0.1, 0.05, 0.2, PER_KG, 'planner-derivation', 'assumed'),
  /** Beyond what is absorbed, so that pulses stay covered in the pot. */
  covering: estimate(1, 0.8, 1.5, PER_KG, 'usa-pulses', '2 cups a cup is 2.5 kg/kg with 1.5 absorbed'),
  rinse: estimate(1, 0.5, 2, PER_KG, 'cooking-practice', 'one rinse'),
  /** Four US quarts a pound. */
  pasta: estimate(8.3, 6, 8.3, PER_KG, 'cooking-practice', '4 quarts a pound on packets'),
  pastaSaving: estimate(3, 2.5, 4, PER_KG, 'cooking-practice', 'water eaten with it'),
} as const;

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
  const inverse = (c: number) => 1 / celsiusToKelvin(c);
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
  const film = soaked > 0 ? WATER_PARAMETERS.drainedFilm.value : 0;
  const absorbedL = Math.max(0, q.food.absorbedGPerG.value - soaked - film) * kg;
  if (q.food.group === 'pasta' && q.style === 'pasta') {
    const inPotL = (q.waterSaving ? WATER_PARAMETERS.pastaSaving.value : WATER_PARAMETERS.pasta.value) * kg;
    const left = Math.max(0, inPotL - absorbedL);
    return { absorbedL, coveringL: left, inPotL: Math.max(inPotL, absorbedL), drainedL: left };
  }
  const covered = q.food.group === 'pulse' && q.food.kinetics.kind === 'boil';
  const coveringL = covered ? WATER_PARAMETERS.covering.value * kg : 0;
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
  const usual = hot ? WATER_PARAMETERS.hotSoak.value : WATER_PARAMETERS.coolSoak.value;
  const supplied = Math.max(usual, uptakeGPerG + 0.5);
  return { supplied, absorbed: uptakeGPerG, discarded: supplied - uptakeGPerG };
}
