/** The classes that an own food may be of; without any table, so that the page can name them. */
import type { FoodGroup } from './food.ts';

/**
 * What an own food is most like. `like` is the row that lends what the label does not say; where a class spans much, it
 * is the slow one. `bean` is any bean: the kidney family is assumed (trade notes H6), and nothing on a label undoes that.
 */
export const OWN_FOOD_CLASSES = {
  bean: { name: 'Beans of any kind, also mixed or unknown', like: 'unknown-bean', group: 'pulse' },
  'pea-or-chickpea': { name: 'Whole peas or chickpeas', like: 'chickpea', group: 'pulse' },
  'lentil-or-split-pea': { name: 'Lentils or split peas', like: 'lentil-brown', group: 'pulse' },
  'whole-grain': { name: 'Whole grain in its bran', like: 'wheat-berry', group: 'grain' },
  grain: { name: 'Husked or cracked grain', like: 'pearl-barley', group: 'grain' },
  flakes: { name: 'Flakes', like: 'rolled-oats', group: 'grain' },
  meal: { name: 'Flour, meal or grits', like: 'cornmeal', group: 'flour' },
  pasta: { name: 'Pasta', like: 'pasta', group: 'pasta' },
  'dried-vegetable': { name: 'Dried vegetable that is boiled', like: 'carrot-dehydrated', group: 'dehydrated' },
  'instant-powder': { name: 'Powder or flakes for hot water', like: 'potato-flakes', group: 'dehydrated' },
  'milk-powder': { name: 'Milk in powder', like: 'whole-milk-powder', group: 'dairy' },
  'freeze-dried': { name: 'Freeze-dried, cooked before', like: 'fd-peas', group: 'freeze-dried' },
  'freeze-dried-meat': { name: 'Freeze-dried meat or egg, cooked before', like: 'fd-chicken', group: 'meat' },
  'raw-dried-animal': { name: 'Dried egg or meat that is raw', like: 'dried-egg', group: 'egg' },
  'dried-meat': { name: 'Dried meat, eaten as it is', like: 'tinned-fish', group: 'meat' },
  tin: { name: 'Tin of food that is cooked', like: 'tinned-beans', group: 'tinned' },
  fat: { name: 'Fat or oil', like: 'oil', group: 'fat' },
  sugar: { name: 'Sugar', like: 'sugar', group: 'sugar' },
  seasoning: { name: 'Salt, spice or broth', like: 'mixed-herbs', group: 'seasoning' },
  nut: { name: 'Nuts or seeds', like: 'almonds', group: 'fruit-nut' },
  'dried-fruit': { name: 'Dried fruit', like: 'raisins', group: 'fruit-nut' },
  'ready-to-eat': { name: 'Eaten dry, as it is', like: 'crackers', group: 'grain' },
} as const satisfies Record<string, { name: string; like: string; group: FoodGroup }>;
export type OwnFoodClass = keyof typeof OWN_FOOD_CLASSES;
