/** The steps behind one dish of a plan: boil, box, water and fuel, each as the calculators were asked. */
import { soakHistory } from './answer-soaking.ts';
import type { ExplanationStep } from './calculator-types.ts';
import { computeMethod, type MethodBasis, noHeatMethod } from './cooking-methods.ts';
import { ageOf, isRefusal } from './dish.ts';
import { addBoilingPointAt, SATURATION } from './explain-boiling-point.ts';
import { addStorageFactor, explainCookTime } from './explain-cook-time.ts';
import { addBox, addFuel } from './explain-dish-heat.ts';
import { addWater } from './explain-dish-water.ts';
import { addHandsOn, addHandsOnWithoutFire } from './explain-hands-on.ts';
import { addHistory, explainSoaking } from './explain-soaking.ts';
import { addAmounts, type ExplainedDish, isCommon, KIT, PRACTICE, plainRows, rowsOf } from './explained-dish.ts';
import { stepList } from './explanation-steps.ts';
import type { Kit } from './kit.ts';
import { listeningCalculations } from './listening-calculations.ts';

/**
 * The steps behind a dish that is cooked: `boilMinutes`, `handsOnMinutes`, `waterInPotL`, `dishMinutesToBoil`, and last its fuel, as
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
  addBoil(dish);
  addWater(dish);
  if (choice.finish === 'flame') list.computed('boilMinutes', method.holdMinutes.p50, 'min', 'neededBoilMinutes');
  else addBox(dish);
  addHandsOn(dish);
  addFuel(dish);
  return list.steps;
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
  const wetted = rows.filter(({ food }) => food.kinetics.kind === 'ready' && !food.seasoning);
  if (method.waterL === 0 && method.standMinutes === 0) {
    list.fact('standMinutes', 0, 'min', 'eaten as it is', KIT);
    list.fact('waterInPotL', 0, 'L', 'eaten as it is', KIT);
  } else {
    for (const { name, food } of wetted) {
      list.row(`${name}HeldGPerG`, food.absorbedGPerG, 'table of foods: water held when done');
      if (food.kinetics.kind !== 'ready') continue;
      const { standMinutesCold, eatDry } = food.kinetics;
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

/** `temperatureC` of the pot at the place, soak and age of the stock. */
function addPlace({ list, basis, method, asked }: ExplainedDish): void {
  const { choice, surroundings, storage } = basis;
  addBoilingPointAt(list, surroundings.elevationM);
  const gaugeKPa = asked.cookTime[0]?.gaugeKPa;
  if (gaugeKPa === undefined) list.computed('temperatureC', method.needs.temperatureC, 'C', 'boilingPointC');
  else {
    list.fact('gaugeKPa', gaugeKPa, 'kPa');
    const relation = 'saturationTemperatureC(pressureKPa + gaugeKPa)';
    list.computed('temperatureC', method.needs.temperatureC, 'C', relation, SATURATION);
  }
  if (choice.soak !== null && method.needs.soakedPartIds.length > 0)
    addHistory(list, soakHistory({ ...choice.soak, start: 'cool' }));
  if (storage !== null && asked.cookTime.some((question) => question.storage !== undefined))
    addStorageFactor(list, ageOf(storage));
}

/** Minutes until everything is soft and safe on the flame, `neededBoilMinutes`. */
function addBoil({ list, method, asked, rows }: ExplainedDish): void {
  const soakings = asked.soaking.slice(0, rows.filter(({ soaked }) => soaked).length);
  const questions = [...asked.cookTime];
  const rawAnimal = rows.some(({ food }) => food.rawAnimal);
  list.fact('leastBoilMinutes', rawAnimal ? 5 : 1, 'min', rawAnimal ? 'raw egg or meat' : 'a rolling boil', PRACTICE);
  const minutes = ['leastBoilMinutes'];
  for (const row of rows) {
    const { name, food } = row;
    const soaking = row.soaked ? soakings.shift() : undefined;
    if (soaking !== undefined) row.inSoak = list.include(explainSoaking(soaking), { prefix: name, plain: isCommon });
    if (food.kinetics.kind === 'ready' || food.seasoning) continue;
    const question = questions.shift();
    if (question === undefined) continue;
    const here = list.include(explainCookTime(question), { prefix: name, plain: isCommon });
    row.inPot = here;
    minutes.push(here('minutes'));
    if (food.lectin === 'kidney-family') minutes.push(here('boilMinutesNeeded'));
  }
  list.computed('neededBoilMinutes', method.needs.boilMinutes.p50, 'min', `max(${minutes.join(', ')})`);
}
