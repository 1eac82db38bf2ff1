/** A kit: the recipe of one dish stored so that nothing but water and fuel is needed, in parts. */
import type { Food } from '../foods/food.ts';
import { type FoodId, foodOf, type NamedFood } from '../foods/foods-table.ts';

export const MEAL_SLOTS = ['breakfast', 'midday', 'evening'] as const;
export type MealSlot = (typeof MEAL_SLOTS)[number];

/**
 * How the finished dish holds its water: soup and stew keep a liquid share, porridge and rice absorb all of it, pasta is
 * boiled in little water that is eaten with it, no-cook needs no fire (water is added and it stands, or it is eaten as
 * it is).
 */
export const DISH_STYLES = ['soup', 'stew', 'porridge', 'rice', 'pasta', 'no-cook'] as const;
export type DishStyle = (typeof DISH_STYLES)[number];

export interface Ingredient extends NamedFood {
  massG: number;
  /** Foods that may stand in for this one at the same mass. */
  alternatives?: FoodId[];
  /** Rows of the alternatives that are own foods; put there like `ownFood`, never sent or stored with the kit. */
  ownAlternatives?: Food[];
  /** Minutes before the end at which it goes in; absent or null: worked out so that all finish together. */
  addAtMinutesBeforeEnd?: number | null;
}

/** The foods of a part, those that no table holds left out. */
export function kitFoodsOf(part: KitPart): Food[] {
  return part.ingredients.flatMap((ingredient) => foodOf(ingredient) ?? []);
}

/** The food of an id as a part holds it, or undefined. */
export function foodInPart(part: KitPart | undefined, foodId: FoodId): Food | undefined {
  return foodOf(part?.ingredients.find((ingredient) => ingredient.foodId === foodId) ?? { foodId });
}

/** Whether every food of a part can be eaten dry, so that the part may be served beside the dish as it is. */
export function canBeEatenAsItIs(part: KitPart): boolean {
  return part.ingredients.every((ingredient) => {
    const food = foodOf(ingredient);
    return (
      food !== undefined &&
      !food.rawAnimal &&
      food.kinetics.kind === 'ready' &&
      (food.kinetics.eatDry || food.seasoning)
    );
  });
}

/** Whether a part is served beside the dish as it is. What cannot be eaten dry is cooked, whatever the recipe says. */
export function isEatenAsItIs(part: KitPart): boolean {
  return part.asItIs === true && canBeEatenAsItIs(part);
}

/** The ingredient with another of its foods in its place, at the same mass. */
export function alternativeOf(ingredient: Ingredient, foodId: FoodId): Ingredient {
  const { ownFood, ...rest } = ingredient;
  const own = [...(ownFood === undefined ? [] : [ownFood]), ...(ingredient.ownAlternatives ?? [])];
  const found = own.find((food) => food.id === foodId);
  return found === undefined ? { ...rest, foodId } : { ...rest, foodId, ownFood: found };
}

/** What lies together in one container of a kit. */
export interface KitPart {
  id: string;
  name: string;
  /** Whether this part may be soaked whole. */
  soakable?: boolean;
  containersPerSet?: number;
  /** Eaten as it is beside the dish, neither soaked nor cooked: every food in it can be eaten dry. Absent: it goes in. */
  asItIs?: boolean;
  ingredients: Ingredient[];
}

export interface Kit {
  format?: number;
  id: string;
  name: string;
  servings: number;
  /** Whether less than a whole set can be cooked. */
  divisible?: boolean;
  style: DishStyle;
  suits: MealSlot[];
  parts: KitPart[];
  note?: string;
  /** In plans only: the kit whose parts were swapped, under whose id the stock is kept; absent: nothing is swapped. */
  madeFrom?: string;
}
