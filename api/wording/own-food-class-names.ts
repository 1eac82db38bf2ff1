/** The classes of own foods as a form offers them. */
import { OWN_FOOD_CLASSES } from '../cooking/foods/own-food-classes.ts';

/** `[id, name]` in the order in which they are offered: what is soaked and boiled first. */
export function ownFoodClassNames(): [id: string, name: string][] {
  return Object.entries(OWN_FOOD_CLASSES).map(([id, { name }]) => [id, name]);
}
