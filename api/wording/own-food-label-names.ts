/** What a form offers for the label of an own food: its class, and its allergens. */
import { ALLERGENS, type Allergen } from '../cooking/foods/food.ts';
import { OWN_FOOD_CLASSES } from '../cooking/foods/own-food-classes.ts';

/** `[id, name]` in the order in which they are offered: what is soaked and boiled first. */
export function ownFoodClassNames(): [id: string, name: string][] {
  return Object.entries(OWN_FOOD_CLASSES).map(([id, { name }]) => [id, name]);
}

/** `[id, name]` of the allergens that labels name. */
export function allergenNames(): [id: Allergen, name: string][] {
  return ALLERGENS.map((id) => [id, id.replaceAll('-', ' ')]);
}
