/** Which class of the tables of keeping a food falls into: shelf life, density of the kernel, fat. */
import type { Food } from '../foods/food.ts';
import { KERNEL_DENSITIES, PACKED_WITH_ABSORBER } from './oxygen-absorbers.ts';
import type { ShelfLifeClass } from './shelf-life.ts';

const STAPLES = new Set(['wheat-berry', 'white-rice', 'parboiled-rice', 'instant-rice', 'hominy']);
const OILY_GRAIN = new Set(['brown-rice', 'cornmeal', 'polenta', 'whole-wheat-flour']);
const UNTIMED = new Set(['salt', 'sugar', 'honey']);

/** From here on a food is too fatty to keep for years, g of fat per 100 g (common practice). */
export const FATTY_FROM_G = 10;

/**
 * Fat of a food, g per 100 g: of the label of an own food, else what its energy leaves over,
 * `(kcal - 4 (100 - water)) / 5`, protein and carbohydrate at 4 kcal/g and fat at 9.
 *
 * Fibre and ash hold less than 4 kcal/g, so that this is a lower bound: almonds come to 39 of 50 g.
 * @returns 0 to 100
 */
export function fatGPer100G(food: Food): number {
  const stated = food.own?.fatGPer100G ?? null;
  if (stated !== null) return stated;
  const left = (food.kcalPer100G.value - 4 * (100 - food.waterGPer100G.value)) / 5;
  return Math.min(100, Math.max(0, left));
}

/** Whether a food turns rancid before it is stale. Whole seeds that the lists of keeping foods name protect their fat. */
export function isFatty(food: Food): boolean {
  if (PACKED_WITH_ABSORBER.has(food.id) || food.group === 'pulse') return false;
  return fatGPer100G(food) >= FATTY_FROM_G || OILY_GRAIN.has(food.id);
}

/** Home-dried meat: what must never lie without oxygen (trade notes H15). */
export function isHomeDriedMeat(food: Food, homeDried: boolean): boolean {
  return (homeDried || food.own?.homeDried === true) && (food.group === 'meat' || food.own?.foodClass === 'dried-meat');
}

/**
 * The row of shelf lives that a food goes by.
 * @param sealed whether it lies without oxygen in a bag, can or bottle that lets none in
 */
export function shelfLifeClassOf(food: Food, sealed: boolean): ShelfLifeClass {
  if (UNTIMED.has(food.id) || food.group === 'sugar') return 'salt-and-sugar';
  if (isHomeDriedMeat(food, false)) return 'home-dried-meat';
  if (food.group === 'tinned') return 'tinned-meal';
  if (food.id === 'peanut-butter') return 'nuts';
  if (food.group === 'fat') return 'cooking-oil';
  if (food.id === 'dried-egg' || food.own?.foodClass === 'raw-dried-animal') return 'dried-egg';
  if (OILY_GRAIN.has(food.id)) return 'brown-rice';
  if (food.group === 'fruit-nut') return food.waterGPer100G.value > 10 ? 'dried-apricot' : 'nuts';
  if (food.group === 'freeze-dried' || food.own?.foodClass === 'freeze-dried-meat')
    return sealed ? 'freeze-dried-sealed' : 'dried-vegetable-bagged';
  if (isFatty(food)) return 'nuts';
  if (food.id === 'pearl-barley' || food.id === 'hulled-barley') return 'barley';
  if (!sealed) return food.group === 'pulse' ? 'dry-beans-bagged' : 'dried-vegetable-bagged';
  if (STAPLES.has(food.id)) return 'dry-staple-sealed';
  if (food.id === 'wheat-flour') return 'white-flour-sealed';
  if (food.group === 'dairy') return 'dry-milk-sealed';
  if (food.group === 'seasoning') return 'dried-vegetable-bagged';
  if (food.group === 'dehydrated') return 'dry-carrot-sealed';
  if (food.group === 'grain' && !PACKED_WITH_ABSORBER.has(food.id)) return 'barley';
  return 'dry-food-sealed';
}

/** Density of what the food itself is made of, without the air between its pieces, g/cm3. */
export function kernelDensityOf(food: Food): number {
  const { id, group } = food;
  if (id === 'salt' || id === 'bouillon-powder') return KERNEL_DENSITIES.salt.value;
  if (group === 'sugar') return KERNEL_DENSITIES.sugar.value;
  if (group === 'pulse') return KERNEL_DENSITIES.bean.value;
  if (id.endsWith('rice')) return KERNEL_DENSITIES['white-rice'].value;
  if (id === 'hominy' || id === 'cornmeal' || id === 'polenta') return KERNEL_DENSITIES.maize.value;
  if (id.includes('oats') || food.own?.foodClass === 'flakes') return KERNEL_DENSITIES['oat-flake'].value;
  if (group === 'pasta' || group === 'flour') return KERNEL_DENSITIES['flour-pasta-milk'].value;
  if (isFatty(food)) return KERNEL_DENSITIES.fatty.value;
  if (group === 'dairy') return KERNEL_DENSITIES['flour-pasta-milk'].value;
  if (group === 'grain') return KERNEL_DENSITIES.wheat.value;
  return KERNEL_DENSITIES['dried-piece'].value;
}
