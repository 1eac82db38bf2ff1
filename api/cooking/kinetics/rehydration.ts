/** Freeze-dried, dried and instant foods: how much water, how long it stands. */
import { valueAtDeviate } from '../../physics/parameter.ts';
import type { Food } from '../foods/food.ts';
import { entry } from '../foods/food-parameters.ts';
import { arrheniusInverse } from './hydration-kinetics.ts';

/** Activation energy of the time that dried pieces take. */
export const DRIED_PIECE_ACTIVATION = entry(
  19.2,
  14,
  25,
  'kJ/mol',
  'garcia-pascual-2005',
  'k1 of dried mushroom, 25-70 C; the range is assumed',
);

/**
 * Water to bring a dry food back, `R = (wf - wd)/(1 - wf)`, g per g dry product.
 * @param dryShare kg water per kg dry product, 0 to 1
 * @param finalShare kg water per kg food as eaten, 0 to below 1
 */
export function reconstitutionWater(dryShare: number, finalShare: number): number {
  return (finalShare - dryShare) / (1 - finalShare);
}

/**
 * Time of dried (not freeze-dried) pieces at a temperature against 20 C.
 * @param temperatureC 0 to 100 C
 * @returns 1.53 at 5 C, 0.43 at 55 C, 0.20 at 95 C
 */
export function driedPieceTimeFactor(temperatureC: number): number {
  return arrheniusInverse(1, 20, DRIED_PIECE_ACTIVATION.value, temperatureC);
}

const COLD_C = 15;
const HOT_C = 90;

/**
 * Minutes that a ready food stands in water of a temperature, between its cold and hot figures, linear in the logarithm.
 * @param deviate -1: 10th percentile, 0: typical, 1: 90th
 * @returns minutes; 0 for food eaten as it is, and for food that must be boiled
 */
export function standMinutes(food: Food, waterC: number, deviate = 0): number {
  if (food.kinetics.kind !== 'ready') return 0;
  const cold = valueAtDeviate(food.kinetics.standMinutesCold, deviate);
  const hot = valueAtDeviate(food.kinetics.standMinutesHot, deviate);
  if (cold <= 0 || hot <= 0) return Math.max(cold, hot, 0);
  const share = Math.min(1, Math.max(0, (waterC - COLD_C) / (HOT_C - COLD_C)));
  return cold * (hot / cold) ** share;
}

/**
 * Share of its water that a ready food has taken up: nine tenths after the minutes it should stand.
 * @returns 0 to 1
 */
export function rehydratedShare(minutes: number, minutesToStand: number): number {
  if (minutesToStand <= 0) return 1;
  return 1 - 10 ** (-minutes / minutesToStand);
}
