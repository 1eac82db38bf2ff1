/** The foods the program knows, by id. */
import type { Food } from './food.ts';

export type FoodId = string;

export const FOODS: Readonly<Record<FoodId, Food>> = {};

/** The food of an id, or undefined where no table holds it. */
export function findFood(id: string): Food | undefined {
  return FOODS[id];
}
