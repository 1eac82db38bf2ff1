/** The foods the program knows, by id. */
import type { Food } from './food.ts';
import { DEHYDRATED_FOODS, FREEZE_DRIED_FOODS } from './foods-freeze-dried.ts';
import { GRAINS } from './foods-grains.ts';
import { OTHER_FOODS } from './foods-other.ts';
import { PULSES } from './foods-pulses.ts';

export type FoodId = string;

/** A food as a recipe or a question names it: by id, and with its row where it is none of the tables but a household's own. */
export interface NamedFood {
  foodId: FoodId;
  /** Put there when a recipe or a question is resolved against the own foods that are stored; never sent or stored with it. */
  ownFood?: Food;
}

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

/**
 * The food that a recipe or a question names.
 * @returns the own food that came with it, else the row of the table; undefined where neither is there
 */
export function foodOf(named: NamedFood): Food | undefined {
  return named.ownFood ?? findFood(named.foodId);
}

/** A food as a question names it: by its id, an own food with its row. */
export function namedFood(food: Food): NamedFood {
  return food.own === undefined ? { foodId: food.id } : { foodId: food.id, ownFood: food };
}
