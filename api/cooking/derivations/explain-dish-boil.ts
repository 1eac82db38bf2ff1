/** Steps on the boil of a dish: the temperature of the pot, the soak, and the minutes until everything is soft and safe. */
import { soakHistory } from '../calculators/answer-soaking.ts';
import { boilForWater } from '../dishes/cooking-methods.ts';
import { ageOf, RAW_BOIL_MINUTES } from '../dishes/dish.ts';
import { HEATED_TO_SOURCE } from '../dishes/hot-without-boil.ts';
import { BOIL_RULES } from '../household/water-treatment.ts';
import { addBoilingPointAt, SATURATION } from './explain-boiling-point.ts';
import { addStorageFactor, explainCookTime } from './explain-cook-time.ts';
import { addHistory, explainSoaking } from './explain-soaking.ts';
import { type ExplainedDish, isCommon, PRACTICE } from './explained-dish.ts';

/** `temperatureC` of the pot at the place, soak and age of the stock. */
export function addPlace({ list, basis, method, asked }: ExplainedDish): void {
  const { choice, surroundings, storage } = basis;
  addBoilingPointAt(list, surroundings.elevationM);
  const gaugeKPa = asked.cookTime[0]?.gaugeKPa;
  if (choice.heatToC !== undefined) {
    list.fact('heatToC', choice.heatToC, 'C', 'hot to eat: nothing in it needs a boil', HEATED_TO_SOURCE);
    list.computed('temperatureC', method.needs.temperatureC, 'C', 'min(heatToC, boilingPointC)');
  } else if (gaugeKPa === undefined) list.computed('temperatureC', method.needs.temperatureC, 'C', 'boilingPointC');
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

/** `boilMinutes` of a dish that boils to the end: soft and safe, and its water too where it is not safe before. */
export function addBoilOnFlame({ list, basis, method }: ExplainedDish): void {
  const forWater = boilForWater(basis.surroundings);
  if (forWater > 0) list.fact('waterBoilMinutes', forWater, 'min', 'until its water is safe', BOIL_RULES.usual.source);
  const relation = forWater > 0 ? 'max(neededBoilMinutes, waterBoilMinutes)' : 'neededBoilMinutes';
  list.computed('boilMinutes', method.holdMinutes.p50, 'min', relation);
}

/** Minutes until everything is soft and safe on the flame, `neededBoilMinutes`. */
export function addBoil({ list, method, asked, rows }: ExplainedDish): void {
  const soakings = asked.soaking.slice(0, rows.filter(({ soaked }) => soaked).length);
  const questions = [...asked.cookTime];
  const rawAnimal = rows.some(({ food }) => food.rawAnimal);
  list.fact(
    'leastBoilMinutes',
    rawAnimal ? RAW_BOIL_MINUTES : 1,
    'min',
    rawAnimal ? 'raw egg or meat' : 'a rolling boil',
    PRACTICE,
  );
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
