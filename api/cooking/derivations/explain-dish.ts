/** The steps behind one dish of a plan: boil, box, water and fuel, each as the calculators were asked. */
import type { ExplanationStep } from '../calculators/calculator-types.ts';
import { listeningCalculations } from '../calculators/listening-calculations.ts';
import { computeMethod, type MethodBasis, noHeatMethod } from '../dishes/cooking-methods.ts';
import { isRefusal, standsCold } from '../dishes/dish.ts';
import type { Kit } from '../dishes/kit.ts';
import { addComparison } from './explain-comparison.ts';
import { addBoil, addBoilOnFlame, addPlace } from './explain-dish-boil.ts';
import { addBox, addFuel } from './explain-dish-heat.ts';
import { addWater } from './explain-dish-water.ts';
import { addHandsOn, addHandsOnWithoutFire } from './explain-hands-on.ts';
import { addNoBoil, addRestAfterHeating } from './explain-hot-without-boil.ts';
import { addAmounts, type ExplainedDish, KIT, plainRows, rowsOf } from './explained-dish.ts';
import { stepList } from './explanation-steps.ts';

/**
 * The steps behind a dish that is cooked: `boilMinutes`, `handsOnMinutes`, `waterInPotL`, `dishMinutesToBoil`,
 * `usualMJ` and `carefulMJ`, and last its fuel, as
 * `dishFuelKg` (`dishFuelKWh` for electricity), each as the plan prints it.
 * @param kit the recipe
 * @param servings servings cooked, > 0
 * @returns no steps where the way is refused by the tables of today
 */
export function explainDish(kit: Kit, servings: number, basis: MethodBasis): ExplanationStep[] {
  const { choice, surroundings, storage } = basis;
  const { calculations, asked } = listeningCalculations();
  const method = computeMethod(kit, servings, choice, surroundings, storage, calculations);
  if (isRefusal(method)) return [];
  const list = stepList();
  const dish: ExplainedDish = { list, kit, servings, basis, method, asked, rows: rowsOf(kit, servings, method) };
  addPlace(dish);
  addAmounts(dish);
  if (choice.heatToC !== undefined) return explainHeated(dish);
  addBoil(dish);
  addWater(dish);
  if (choice.finish === 'flame' && choice.standMinutes === undefined) addBoilOnFlame(dish);
  else addBox(dish);
  addHandsOn(dish);
  const addLast = addFuel(dish);
  addComparison(dish);
  addLast();
  return list.steps;
}

/** The rest of a dish that is only heated: its minutes of rest follow from those on the fire. */
function explainHeated(dish: ExplainedDish): ExplanationStep[] {
  addNoBoil(dish);
  addWater(dish);
  const addLast = addFuel(dish);
  addRestAfterHeating(dish);
  addHandsOn(dish);
  addComparison(dish);
  addLast();
  return dish.list.steps;
}

/**
 * The steps behind a dish without fire: `standMinutes`, `waterInPotL`, `handsOnMinutes`, and last `dishFuelKg`, which is nothing.
 * @param servings servings made ready, > 0
 * @returns no steps where something must be boiled
 */
export function explainNoHeat(kit: Kit, servings: number): ExplanationStep[] {
  const method = noHeatMethod(kit, servings);
  if (isRefusal(method)) return [];
  const list = stepList();
  const rows = plainRows(kit, servings);
  addAmounts({ list, kit, servings, rows });
  const wetted = rows.filter(({ food }) => standsCold(food) !== null);
  if (method.waterL === 0 && method.standMinutes === 0) {
    list.fact('standMinutes', 0, 'min', 'eaten as it is', KIT);
    list.fact('waterInPotL', 0, 'L', 'eaten as it is', KIT);
  } else {
    for (const { name, food } of wetted) {
      list.row(`${name}HeldGPerG`, food.absorbedGPerG, 'table of foods: water held when done');
      const standMinutesCold = standsCold(food);
      if (standMinutesCold === null) continue;
      const eatDry = food.kinetics.kind === 'ready' && food.kinetics.eatDry;
      const words = eatDry ? 'typical: chewy is no harm' : 'its high end';
      const minutes = eatDry ? standMinutesCold.value : standMinutesCold.p90;
      list.fact(`${name}StandMinutes`, minutes, 'min', `table row, in cold water, ${words}`, standMinutesCold.source);
    }
    const stands = wetted.map(({ name }) => `${name}StandMinutes`).join(', ');
    list.computed('standMinutes', method.standMinutes, 'min', `max(0, ${stands})`);
    const water = wetted.map(({ name }) => `${name}HeldGPerG * ${name}DishG`).join(' + ');
    list.computed('waterInPotL', method.waterL, 'L', `round((${water}) / 1000, 2)`);
  }
  addHandsOnWithoutFire(list);
  list.fact('dishFuelKg', 0, 'kg', 'no fire', KIT);
  return list.steps;
}
