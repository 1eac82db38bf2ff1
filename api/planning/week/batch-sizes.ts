/** How much of a kit is cooked at once, for one meal or two, in one pot or several. */
import type { Kit } from '../../cooking/dishes/kit.ts';
import type { ResolvedVessel } from '../../cooking/household/resolve-household.ts';
import type { KitStock } from './week-situation.ts';

/** Litres of a serving with its water, and the share of a pot that is filled: for how many pots a meal asks. */
const SERVING_L = 0.55;
const FILLED_SHARE = 0.75;
const MOST_POTS = 4;

/** Pots that a meal for so many asks for, 1 to 4. */
export function potsFor(servings: number, pots: readonly ResolvedVessel[]): number {
  const largestL = Math.max(0, ...pots.map((pot) => pot.capacityL));
  if (largestL === 0) return 1;
  return Math.min(MOST_POTS, Math.max(1, Math.ceil((servings * SERVING_L) / (FILLED_SHARE * largestL))));
}

/** How many sets are cooked at once: as many servings as are wanted where the kit divides, else whole sets. */
export function batchSizes(
  { kit }: KitStock,
  wantServings: number,
  sets: number,
): { sets: number; servingsCooked: number }[] {
  if (kit.divisible === true) {
    const servings = Math.min(Math.ceil(wantServings * 2) / 2, sets * kit.servings);
    return servings <= 0 ? [] : [{ sets: servings / kit.servings, servingsCooked: servings }];
  }
  const most = Math.min(Math.ceil(wantServings / kit.servings - 1e-9), Math.floor(sets));
  return Array.from({ length: Math.max(0, most) }, (_, index) => ({
    sets: index + 1,
    servingsCooked: (index + 1) * kit.servings,
  }));
}

/**
 * How many sets are cooked for two meals at once: all of both where the kit divides; whole sets otherwise, which give the
 * later meal at least half of what is wanted.
 */
export function twoMealSizes(
  kit: Kit,
  first: number,
  second: number,
  sets: number,
): { sets: number; servingsCooked: number }[] {
  if (kit.divisible === true) {
    const servings = Math.ceil((first + second) * 2 - 1e-9) / 2;
    return servings <= sets * kit.servings + 1e-9 ? [{ sets: servings / kit.servings, servingsCooked: servings }] : [];
  }
  const whole = (first + second) / kit.servings;
  return [...new Set([Math.floor(whole + 1e-9), Math.ceil(whole - 1e-9)])]
    .filter((count) => count > 0 && count <= Math.floor(sets) && count * kit.servings >= first + second / 2)
    .map((count) => ({ sets: count, servingsCooked: count * kit.servings }));
}
