/** The steps behind one dish of a plan: boil, box, water and fuel, each as the calculators were asked. */
import type { SourceRef } from '../physics/parameter.ts';
import { soakHistory } from './answer-soaking.ts';
import type { BoxBoilQuestion } from './box-cooking.ts';
import { type Calculations, createCalculations } from './calculations.ts';
import type {
  CookTimeQuestion,
  CoolingQuestion,
  ExplanationStep,
  FuelUseQuestion,
  SoakingQuestion,
} from './calculator-types.ts';
import { BOX_ENTRY_LOSS_K, computeMethod, type DishMethod, type MethodBasis, noHeatMethod } from './cooking-methods.ts';
import {
  ageOf,
  FIRST_WATER_L_PER_KG,
  isLargePulse,
  isRefusal,
  kitFoods,
  LIQUID_L_PER_SERVING,
  MILK_POWDERS,
} from './dish.ts';
import { addBoilingPointAt, SATURATION } from './explain-boiling-point.ts';
import { explainBoilBeforeBox } from './explain-box.ts';
import { addStorageFactor, explainCookTime } from './explain-cook-time.ts';
import { explainCooling } from './explain-cooling.ts';
import { explainFuelUse } from './explain-fuel-use.ts';
import { addHistory, explainSoaking } from './explain-soaking.ts';
import { identifierOf, type StepList, stepList } from './explanation-steps.ts';
import type { Food } from './food.ts';
import type { Ingredient, Kit } from './kit.ts';
import { DRY_FOOD_DENSITY_KG_PER_L, fillLimitShare } from './vessel-fill.ts';
import { WATER_PARAMETERS } from './yield.ts';

const PRACTICE: SourceRef = { key: 'kitchenPractice', place: 'rule of this planner' };
const KIT: SourceRef = { key: 'planner-derivation', place: 'the kit' };
const PLACE: SourceRef = { key: 'planner-derivation', place: 'the place and its stores' };
const HIGH_END: SourceRef = { key: 'planner-derivation', place: 'spread of all causes, added in quadrature' };

/** Figures that are the same for every food: they keep their names. */
const COMMON = new Set([
  'hydrationZK',
  'fullSoakHours',
  'fullSoakC',
  'hardSeedShare',
  'usualLPerKg',
  'lectinCountsFromC',
  'lectinMinutesAt100C',
  'lectinZK',
  'winterLowFactor',
  'lectinSoakHours',
  'lectinSoakShare',
]);

/**
 * The steps behind a dish that is cooked: `boilMinutes`, `waterInPotL`, `dishMinutesToBoil`, and last its fuel, as
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
  const dish: Dish = { list, kit, servings, basis, method, asked, rows: rowsOf(kit, servings, method) };
  addPlace(dish);
  addAmounts(dish);
  addBoil(dish);
  addWater(dish);
  if (choice.finish === 'flame') list.computed('boilMinutes', method.holdMinutes.p50, 'min', 'neededBoilMinutes');
  else addBox(dish);
  addFuel(dish);
  return list.steps;
}

/**
 * The steps behind a dish without fire: `standMinutes`, `waterInPotL`, and last `dishFuelKg`, which is nothing.
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
  list.fact('dishFuelKg', 0, 'kg', 'no fire', KIT);
  return list.steps;
}

interface DishRow {
  /** Name of the food as an identifier, with a number where it comes twice. */
  name: string;
  food: Food;
  ingredient: Ingredient;
  massG: number;
  soaked: boolean;
  /** Names here of the quantities of its soak and of its cooking time; absent where it has none. */
  inSoak?: (quantity: string) => string;
  inPot?: (quantity: string) => string;
}

interface Dish {
  list: StepList;
  kit: Kit;
  servings: number;
  basis: MethodBasis;
  method: DishMethod;
  asked: Asked;
  rows: DishRow[];
}

/** What was asked of the calculators, in order. */
interface Asked {
  soaking: SoakingQuestion[];
  cookTime: CookTimeQuestion[];
  cooling: CoolingQuestion[];
  boilBeforeBox: BoxBoilQuestion[];
  fuelUse: FuelUseQuestion[];
}

function listeningCalculations(): { calculations: Calculations; asked: Asked } {
  const plain = createCalculations();
  const asked: Asked = { soaking: [], cookTime: [], cooling: [], boilBeforeBox: [], fuelUse: [] };
  const listening =
    <Question, Answer>(answerOf: (question: Question) => Answer, heard: Question[]) =>
    (question: Question): Answer => {
      heard.push(question);
      return answerOf(question);
    };
  return {
    asked,
    calculations: {
      ...plain,
      soaking: listening(plain.soaking, asked.soaking),
      cookTime: listening(plain.cookTime, asked.cookTime),
      cooling: listening(plain.cooling, asked.cooling),
      fuelUse: listening(plain.fuelUse, asked.fuelUse),
      boilBeforeBox: listening(plain.boilBeforeBox, asked.boilBeforeBox),
    },
  };
}

function rowsOf(kit: Kit, servings: number, { needs }: DishMethod): DishRow[] {
  return plainRows(kit, servings, needs.soakedPartIds);
}

function plainRows(kit: Kit, servings: number, soakedPartIds: readonly string[] = []): DishRow[] {
  const seen = new Map<string, number>();
  return kitFoods(kit).map(({ part, ingredient, food }) => {
    const times = (seen.get(food.id) ?? 0) + 1;
    seen.set(food.id, times);
    return {
      name: identifierOf(food.id) + (times === 1 ? '' : String(times)),
      food,
      ingredient,
      massG: ingredient.massG * (servings / kit.servings),
      soaked: soakedPartIds.includes(part.id),
    };
  });
}

/** `temperatureC` of the pot at the place, soak and age of the stock. */
function addPlace({ list, basis, method, asked }: Dish): void {
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

/** Mass of each food in the dish, `...DishG`. */
function addAmounts({ list, kit, servings, rows }: Pick<Dish, 'list' | 'kit' | 'servings' | 'rows'>): void {
  list.fact('servings', servings, '1', 'servings cooked', KIT);
  list.fact('kitServings', kit.servings, '1', 'servings of one set', KIT);
  for (const { name, ingredient, massG } of rows) {
    list.fact(`${name}KitG`, ingredient.massG, 'g', 'in one set', KIT);
    list.computed(`${name}DishG`, massG, 'g', `${name}KitG * servings / kitServings`);
  }
}

/** Minutes until everything is soft and safe on the flame, `neededBoilMinutes`. */
function addBoil({ list, method, asked, rows }: Dish): void {
  const soakings = asked.soaking.slice(0, rows.filter(({ soaked }) => soaked).length);
  const questions = [...asked.cookTime];
  const rawAnimal = rows.some(({ food }) => food.rawAnimal);
  list.fact('leastBoilMinutes', rawAnimal ? 5 : 1, 'min', rawAnimal ? 'raw egg or meat' : 'a rolling boil', PRACTICE);
  const minutes = ['leastBoilMinutes'];
  const plain = (quantity: string) => COMMON.has(quantity);
  for (const row of rows) {
    const { name, food } = row;
    const soaking = row.soaked ? soakings.shift() : undefined;
    if (soaking !== undefined) row.inSoak = list.include(explainSoaking(soaking), { prefix: name, plain });
    if (food.kinetics.kind === 'ready' || food.seasoning) continue;
    const question = questions.shift();
    if (question === undefined) continue;
    const here = list.include(explainCookTime(question), { prefix: name, plain });
    row.inPot = here;
    minutes.push(here('minutes'));
    if (food.lectin === 'kidney-family') minutes.push(here('boilMinutesNeeded'));
  }
  list.computed('neededBoilMinutes', method.needs.boilMinutes.p50, 'min', `max(${minutes.join(', ')})`);
}

/** Water that the dish needs beside what boils off, `waterNeededL`, and what fills the pot, `volumeL`. */
function addWater({ list, kit, method, rows }: Dish): void {
  const { needs } = method;
  const litres = (names: string[]) => (names.length === 0 ? '0' : `(${names.join(' + ')}) / 1000`);
  const held = (wanted: (row: DishRow) => boolean) =>
    rows.filter((row) => !row.food.seasoning && wanted(row)).map(({ name }) => `${name}HeldGPerG * ${name}DishG`);
  for (const { name, food } of rows)
    if (!food.seasoning) list.row(`${name}HeldGPerG`, food.absorbedGPerG, 'table of foods: water held when done');
  const milk = held(({ food }) => MILK_POWDERS.has(food.id));
  const other = litres(held(({ food }) => !MILK_POWDERS.has(food.id)));
  // Grain swells in the milk: the water of the powder and that of the grain are the same water.
  const absorbed = milk.length === 0 ? other : `max(${other}, ${litres(milk)})`;
  if (absorbed === '0') list.fact('absorbedL', needs.absorbedL, 'L', 'nothing swells');
  else list.computed('absorbedL', needs.absorbedL, 'L', absorbed);
  const taken = rows.flatMap(({ name, inSoak }) =>
    inSoak === undefined ? [] : [`${inSoak('uptakeGPerG')} * ${name}DishG`],
  );
  if (taken.length === 0) list.fact('absorbedInSoakL', needs.absorbedInSoakL, 'L', 'nothing was soaked');
  else list.computed('absorbedInSoakL', needs.absorbedInSoakL, 'L', litres(taken));
  list.fact('liquidLPerServing', LIQUID_L_PER_SERVING[kit.style], 'L', `liquid of a ${kit.style}`, PRACTICE);
  list.fact(
    'leastWaterL',
    method.choice.vessel.kind === 'pressure-cooker' ? 0.3 : 0.1,
    'L',
    'so that it boils',
    PRACTICE,
  );
  const largest = ['absorbedL - absorbedInSoakL + liquidLPerServing * servings'];
  const large = rows.filter(({ food }) => isLargePulse(food));
  if (large.length > 0) {
    list.row('coveringLPerKg', WATER_PARAMETERS.covering, 'water that keeps large pulses covered');
    const covered = large.map(({ name, food }) =>
      food.seasoning ? `coveringLPerKg * ${name}DishG` : `(${name}HeldGPerG + coveringLPerKg) * ${name}DishG`,
    );
    largest.push(`${litres(covered)} - absorbedInSoakL`);
  }
  if (kit.style === 'pasta') {
    list.row('pastaLPerKg', WATER_PARAMETERS.pastaSaving, 'water to boil pasta in');
    const pasta = rows.filter(({ food }) => food.group === 'pasta').map(({ name }) => `${name}DishG`);
    if (pasta.length > 0) largest.push(`pastaLPerKg * ${litres(pasta)}`);
  }
  list.computed(
    'waterNeededL',
    needs.waterInPotL,
    'L',
    `max(${[...largest, 'leastWaterL'].join(', ')})`,
    PRACTICE,
    true,
  );
  const dry = litres(rows.map(({ name }) => `${name}DishG`));
  const density: SourceRef = { key: 'kitchenPractice', place: 'kernel density of dry food' };
  list.fact('dryKgPerL', DRY_FOOD_DENSITY_KG_PER_L, 'kg/L', 'kernels of dry food', density);
  list.computed('volumeL', needs.volumeL, 'L', `waterNeededL + absorbedInSoakL + ${dry} / dryKgPerL`);
}

/** Boil before box or flask, which does the rest: `boilMinutes`. */
function addBox({ list, basis, method, asked, rows }: Dish): void {
  const cooling = asked.cooling[0];
  const tau = method.timeConstantHours;
  if (cooling === undefined || tau === null) return;
  const { shortest, longest } = basis.choice.boxMinutes;
  list.fact('boxMinutes', shortest, 'min', 'shortest time in the box', PLACE);
  list.fact('boxLongestMinutes', longest, 'min', 'longest time in the box', PLACE);
  const entry = BOX_ENTRY_LOSS_K;
  const box = list.include(explainCooling(cooling), {
    prefix: 'box',
    relations: { startC: `temperatureC - ${entry}`, hours: 'boxLongestMinutes / 60', fillL: 'round(volumeL, 1)' },
  });
  list.fact('boxTimeConstantLowHours', tau.p10, 'h', '10th percentile of the time constant', HIGH_END);
  list.computed(
    'boxReachedC',
    method.reachedC ?? 0,
    'C',
    `${box('airC')} + (${box('startC')} - ${box('airC')}) * exp(-${box('hours')} / boxTimeConstantLowHours)`,
  );
  const large = rows.some(({ food }) => isLargePulse(food));
  const least = large ? 15 : 5;
  list.fact(
    'leastBoxBoilMinutes',
    least,
    'min',
    large ? 'large pulses hot to the middle' : 'hot to the middle',
    PRACTICE,
  );
  const minutes = ['leastBoxBoilMinutes'];
  const questions = typicalQuestions(asked);
  const plain = (quantity: string) => COMMON.has(quantity);
  for (const { name, food, massG, inSoak, inPot } of rows) {
    if (food.kinetics.kind !== 'boil' || food.seasoning || massG <= 0) continue;
    const question = questions.shift();
    if (question === undefined) continue;
    const shares = [inSoak, inPot].map((here) => here?.('hydrationShare'));
    const share = list.steps.find(
      ({ quantity, value }) => shares.includes(quantity) && value === question.hydrationShare,
    );
    const aliases: Record<string, string> = {
      temperatureC: 'temperatureC',
      boxStartC: box('startC'),
      boxAirC: box('airC'),
      boxTimeConstantHours: 'boxTimeConstantLowHours',
      boxMinutes: 'boxMinutes',
      ...(share === undefined ? {} : { hydrationShare: share.quantity }),
      ...(question.storageFactor === undefined ? {} : { storageFactor: 'storageFactor' }),
    };
    minutes.push(list.include(explainBoilBeforeBox(question), { prefix: name, plain, aliases })('boxBoil'));
  }
  list.computed('boilMinutes', method.holdMinutes.p50, 'min', `max(${minutes.join(', ')})`);
}

/** The questions on boils before the box; a lot is asked after again for its hardened end, which is left out. */
function typicalQuestions({ boilBeforeBox }: Asked): BoxBoilQuestion[] {
  return boilBeforeBox.filter((question, index) => {
    const before = boilBeforeBox[index - 1];
    if (before === undefined || before.storageFactor === question.storageFactor) return true;
    return JSON.stringify({ ...question, storageFactor: before.storageFactor }) !== JSON.stringify(before);
  });
}

/** Fuel with what boils off heated too, water in the pot and minutes; the fuel comes last. */
function addFuel(dish: Dish): void {
  const { list, basis, method, asked, rows } = dish;
  const [withoutSteam, typical] = asked.fuelUse;
  if (withoutSteam === undefined || typical === undefined) return;
  const amounts = Object.fromEntries(rows.map(({ name }) => [`${name}MassG`, `round(${name}DishG, 1)`]));
  const relationsOf = (waterL: string) => ({ ...amounts, waterL, holdMinutes: 'round(boilMinutes, 1)' });
  const first = explainFuelUse(withoutSteam);
  const second = explainFuelUse(typical);
  const same = sharedNames(first, second);
  const steam = list.include(first, {
    prefix: 'withoutSteam',
    plain: (quantity) => same.has(quantity),
    relations: relationsOf('round(waterNeededL + absorbedInSoakL, 3)'),
  });
  const pot = list.include(second, {
    prefix: 'pot',
    plain: () => true,
    relations: relationsOf(`round(waterNeededL + absorbedInSoakL + ${steam('boiledOffL')}, 3)`),
  });
  let heat = pot('fuelMJ');
  let minutesToBoil = pot('minutesToBoil');
  const { needs } = method;
  if (needs.firstWaterL > 0) {
    const question = asked.fuelUse.at(-1) as FuelUseQuestion;
    const kidney = rows.filter(({ food }) => food.lectin === 'kidney-family');
    const poured = kidney.filter(({ soaked }) => !soaked).map(({ name }) => `${name}DishG`);
    list.computed(
      'firstWaterL',
      needs.firstWaterL,
      'L',
      `${FIRST_WATER_L_PER_KG} * (${poured.join(' + ')}) / 1000`,
      { key: 'cooking-practice', place: 'plenty, so that the lectin leaves with it' },
      true,
    );
    // In that question foods are numbered among themselves.
    const own = Object.fromEntries(
      rowsAmong(kidney).map(({ name, there }) => [`${there}MassG`, `round(${name}DishG, 1)`]),
    );
    const boiledUp = list.include(explainFuelUse(question), {
      prefix: 'firstWater',
      relations: { ...own, waterL: 'round(firstWaterL, 3)' },
    });
    heat += ` + ${boiledUp('fuelMJ')}`;
    minutesToBoil += ` + ${boiledUp('minutesToBoil')}`;
  }
  addWaterInPot(dish);
  list.computed('dishMinutesToBoil', method.minutesToBoil.p50, 'min', minutesToBoil);
  list.computed('dishFuelMJ', method.fuelMJ.p50, 'MJ', heat);
  if (basis.choice.fuelId === 'electricity') list.computed('dishFuelKWh', method.fuelKg.p50, 'kWh', 'dishFuelMJ / 3.6');
  else list.computed('dishFuelKg', method.fuelKg.p50, 'kg', `dishFuelMJ * ${pot('fuelKg')} / ${pot('fuelMJ')}`);
}

function rowsAmong(rows: readonly DishRow[]): { name: string; there: string }[] {
  const seen = new Map<string, number>();
  return rows.map(({ name, food }) => {
    const times = (seen.get(food.id) ?? 0) + 1;
    seen.set(food.id, times);
    return { name, there: identifierOf(food.id) + (times === 1 ? '' : String(times)) };
  });
}

/** Water measured into the pot, `waterInPotL`, with what may boil off at its high end. */
function addWaterInPot({ list, method, rows }: Dish): void {
  const { needs, choice, boiledOffL } = method;
  list.fact('boiledOffHighL', boiledOffL.p90, 'L', '90th percentile of what boils off', HIGH_END);
  const share = fillLimitShare(choice.vessel.kind, needs.foams);
  list.fact(
    'fillLimitShare',
    share,
    '1',
    needs.foams ? 'it froths or swells' : 'so that it does not run over',
    PRACTICE,
  );
  const room = 'fillLimitShare * vesselCapacityL - volumeL';
  if (choice.vessel.kind === 'pot')
    list.computed('topUpL', method.topUpL, 'L', `max(0, boiledOffHighL - (${room}))`, PRACTICE);
  else list.fact('topUpL', method.topUpL, 'L', 'a closed cooker is not topped up', PRACTICE);
  const parts = ['waterNeededL', 'boiledOffHighL'];
  const part = (quantity: string, value: number, terms: string[], source: SourceRef) => {
    if (terms.length === 0) return;
    list.computed(quantity, value, 'L', `(${terms.join(' + ')}) / 1000`, source);
    parts.push(quantity);
  };
  const soaked = rows.filter((row) => row.inSoak?.('suppliedLPerKg') !== undefined && row.soaked);
  part(
    'soakWaterL',
    needs.soakSuppliedL,
    soaked.map(({ name, inSoak }) => `${inSoak?.('suppliedLPerKg')} * ${name}DishG`),
    PRACTICE,
  );
  const rinsed = soaked.filter(({ food }) => food.lectin === 'kidney-family');
  if (rinsed.length > 0) list.row('rinseLPerKg', WATER_PARAMETERS.rinse, 'one rinse');
  part(
    'rinseL',
    needs.rinseL,
    rinsed.map(({ name }) => `rinseLPerKg * ${name}DishG`),
    WATER_PARAMETERS.rinse.source,
  );
  if (needs.firstWaterL > 0) parts.push('firstWaterL');
  list.computed('waterTotalL', inThousandths(method.waterL), 'L', `round(${parts.join(' + ')}, 3)`);
  const inPot = 'round(waterNeededL + boiledOffHighL - topUpL, 3)';
  list.computed('waterInPotL', inThousandths(method.waterInPotL), 'L', inPot);
}

/** As the plan prints litres. */
function inThousandths(litres: number): number {
  return Math.round(litres * 1000) / 1000;
}

/** Quantities that two derivations of fuel reach by the same values and relations. */
function sharedNames(a: readonly ExplanationStep[], b: readonly ExplanationStep[]): ReadonlySet<string> {
  const other = new Map(b.map((step) => [step.quantity, step]));
  const shared = new Set<string>();
  for (const step of a) {
    const twin = other.get(step.quantity);
    const asThere = twin !== undefined && twin.value === step.value && twin.relation === step.relation;
    if (asThere && step.quantity !== 'waterL' && step.inputs.every((input) => shared.has(input)))
      shared.add(step.quantity);
  }
  return shared;
}
