/** The steps behind the fuel that a dish is compared with: the usual way, and a careful cook. */

import { listeningCalculations } from '../calculators/listening-calculations.ts';
import { comparedWay, comparisonWays } from '../dishes/cooking-methods.ts';
import { addBoil, addPlace } from './explain-dish-boil.ts';
import { addHeating } from './explain-dish-heat.ts';
import { addWater } from './explain-dish-water.ts';
import { addAmounts, type ExplainedDish, isCommon, rowsOf } from './explained-dish.ts';
import { type StepList, stepList, stepsBehind } from './explanation-steps.ts';

const CANNOT = {
  key: 'planner-derivation',
  place: 'not to be done the other way here: what the dish takes stands',
} as const;

/**
 * `usualMJ` and `carefulMJ` of a dish, after `dishFuelMJ`; what they rest on begins with `usual` and `careful`, save what
 * is the same for the dish itself.
 */
export function addComparison(dish: ExplainedDish): void {
  const { list, kit, method } = dish;
  const ways = comparisonWays(kit);
  const usual = stepsOf(dish, ways.usual);
  const careful = stepsOf(dish, ways.careful);
  if (usual === null || careful === null) {
    for (const quantity of ['usualMJ', 'carefulMJ'])
      list.computed(quantity, method.fuelMJ.p50, 'MJ', 'dishFuelMJ', CANNOT);
    return;
  }
  for (const [prefix, way] of [
    ['usual', usual],
    ['careful', careful],
  ] as const) {
    const here = list.include(way.steps, { prefix, plain: isCommon });
    list.computed(`${prefix}MJ`, way.fuelMJ, 'MJ', here(way.last));
  }
}

/** The steps up to the fuel of one way. */
function stepsOf(
  { kit, servings, basis, method }: ExplainedDish,
  way: ReturnType<typeof comparisonWays>['usual'],
): { steps: StepList['steps']; last: string; fuelMJ: number } | null {
  const { calculations, asked } = listeningCalculations();
  const compared = comparedWay(kit, servings, basis, way, calculations);
  if (compared === null) return null;
  const { needs, choice, fuelMJ } = compared;
  const as = { ...method, needs, choice, holdMinutes: needs.boilMinutes };
  const list = stepList();
  const dish = { list, kit, servings, basis: { ...basis, choice }, method: as, asked, rows: rowsOf(kit, servings, as) };
  addPlace(dish);
  addAmounts(dish);
  addBoil(dish);
  addWater(dish);
  list.computed('boilMinutes', needs.boilMinutes.p50, 'min', 'neededBoilMinutes');
  const last = addHeating(dish)?.('fuelMJ');
  return last === undefined ? null : { steps: stepsBehind(list.steps, last), last, fuelMJ };
}
