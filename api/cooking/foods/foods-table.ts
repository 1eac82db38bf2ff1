/** The foods the program knows, by id. */
import type { Food } from './food.ts';
import { DEHYDRATED_FOODS, FREEZE_DRIED_FOODS } from './foods-freeze-dried.ts';
import { GRAINS } from './foods-grains.ts';
import { OTHER_FOODS } from './foods-other.ts';
import { PULSES } from './foods-pulses.ts';

export type FoodId = string;

export const FOODS: Readonly<Record<FoodId, Food>> = Object.fromEntries(
  [...PULSES, ...GRAINS, ...FREEZE_DRIED_FOODS, ...DEHYDRATED_FOODS, ...OTHER_FOODS].map((food) => [food.id, food]),
);

/**
 * The food of an id.
 * @param id as the contract lists them, lower case with hyphens
 * @returns undefined where no table holds it
 */
export function findFood(id: string): Food | undefined {
  return Object.hasOwn(FOODS, id) ? FOODS[id] : undefined;
}
