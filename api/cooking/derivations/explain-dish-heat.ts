/** Steps on the heat of a dish: the boil before box or flask, and the fuel. */

import type { Percentiles } from '../../physics/parameter.ts';
import type { CoolingQuestion, ExplanationStep, FuelUseQuestion } from '../calculators/calculator-types.ts';
import { typicalQuestions } from '../calculators/listening-calculations.ts';
import { BOX_ENTRY_LOSS_K, leastBoilOffTheFire } from '../dishes/cooking-methods.ts';
import { FIRST_WATER_L_PER_KG } from '../dishes/dish.ts';
import { STAND_ENTRY_LOSS_K, STAND_SOURCE } from '../dishes/fire-ways.ts';
import { explainBoilBeforeBox } from './explain-box.ts';
import { addLowTimeConstant, explainCooling } from './explain-cooling.ts';
import { addWaterInPot } from './explain-dish-water.ts';
import { explainFuelUse } from './explain-fuel-use.ts';
import { type DishRow, type ExplainedDish, isCommon, PLACE, PRACTICE } from './explained-dish.ts';
import { identifierOf } from './explanation-steps.ts';

/** Minutes off the fire, as `offMinutes` at the least and `offLongestMinutes`, and the loss on the way there, K. */
function addOffTheFire({ list, basis }: ExplainedDish): { entryLossK: number; off: string; longest: string } {
  const { finish, standMinutes, boxMinutes } = basis.choice;
  if (finish === 'flame') {
    list.fact('standingMinutes', standMinutes ?? 0, 'min', 'off the fire under its lid', STAND_SOURCE);
    return { entryLossK: STAND_ENTRY_LOSS_K, off: 'standingMinutes', longest: 'standingMinutes' };
  }
  list.fact('boxMinutes', boxMinutes.shortest, 'min', 'shortest time in the box', PLACE);
  list.fact('boxLongestMinutes', boxMinutes.longest, 'min', 'longest time in the box', PLACE);
  return { entryLossK: BOX_ENTRY_LOSS_K, off: 'boxMinutes', longest: 'boxLongestMinutes' };
}

/**
 * How the dish cools off the fire: `boxReachedC` or `standingReachedC` at the bad end.
 * @returns the names of what was asked on the way, the question and its time constant, h; null where it does not stand
 */
export function addCoolingOff(
  dish: ExplainedDish,
  off: { entryLossK: number; longest: string },
): { box: (quantity: string) => string; low: string; cooling: CoolingQuestion; tau: Percentiles } | null {
  const { list, basis, method, asked } = dish;
  const cooling = asked.cooling[0];
  const tau = method.timeConstantHours;
  if (cooling === undefined || tau === null) return null;
  const prefix = basis.choice.finish === 'flame' ? 'standing' : 'box';
  const box = list.include(explainCooling(cooling), {
    prefix,
    relations: {
      startC: `temperatureC - ${off.entryLossK}`,
      hours: `${off.longest} / 60`,
      fillL: 'round(volumeL, 1)',
    },
  });
  const low = `${prefix}TimeConstantLowHours`;
  addLowTimeConstant(list, cooling, { typical: box('timeConstantHours'), low, hours: tau.p10 });
  list.computed(
    `${prefix}ReachedC`,
    method.reachedC ?? 0,
    'C',
    `${box('airC')} + (${box('startC')} - ${box('airC')}) * exp(-${box('hours')} / ${low})`,
  );
  return { box, low, cooling, tau };
}

/** Boil before the pot leaves the fire for box, flask or a stand under its lid, which do the rest: `boilMinutes`. */
export function addBox(dish: ExplainedDish): void {
  const { list, kit, basis, method, asked, rows } = dish;
  const offFire = addOffTheFire(dish);
  const cools = addCoolingOff(dish, offFire);
  if (cools === null) return;
  const { box, low } = cools;
  const least = leastBoilOffTheFire(kit, basis.choice, basis.surroundings);
  list.fact('leastBoxBoilMinutes', least, 'min', 'hot to the middle, raw goods done, its water safe', PRACTICE);
  const minutes = ['leastBoxBoilMinutes'];
  const questions = typicalQuestions(asked);
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
      boxTimeConstantHours: low,
      boxMinutes: offFire.off,
      ...(share === undefined ? {} : { hydrationShare: share.quantity }),
      ...(question.storageFactor === undefined ? {} : { storageFactor: 'storageFactor' }),
    };
    minutes.push(list.include(explainBoilBeforeBox(question), { prefix: name, plain: isCommon, aliases })('boxBoil'));
  }
  list.computed('boilMinutes', method.holdMinutes.p50, 'min', `max(${minutes.join(', ')})`);
}

/**
 * The two questions on fuel, first without and then with what boils off, at `boilMinutes`.
 * @returns the names under which quantities of the second stand; null where they were not asked
 */
export function addHeating({
  list,
  asked,
  rows,
}: Pick<ExplainedDish, 'list' | 'asked' | 'rows'>): ((quantity: string) => string) | null {
  const [withoutSteam, typical] = asked.fuelUse;
  if (withoutSteam === undefined || typical === undefined) return null;
  const amounts = Object.fromEntries(rows.map(({ name }) => [`${name}MassG`, `round(${name}DishG, 1)`]));
  const end: Record<string, string> = typical.endC === undefined ? {} : { endAskedC: 'heatToC' };
  const relationsOf = (waterL: string) => ({ ...amounts, ...end, waterL, holdMinutes: 'round(boilMinutes, 1)' });
  const first = explainFuelUse(withoutSteam);
  const second = explainFuelUse(typical);
  const same = sharedNames(first, second);
  const steam = list.include(first, {
    prefix: 'withoutSteam',
    plain: (quantity) => same.has(quantity),
    relations: relationsOf('round(waterNeededL + absorbedInSoakL, 3)'),
  });
  return list.include(second, {
    prefix: 'pot',
    plain: () => true,
    relations: relationsOf(`round(waterNeededL + absorbedInSoakL + ${steam('boiledOffL')}, 3)`),
  });
}

/**
 * Fuel with what boils off heated too, water in the pot and minutes, up to `dishFuelMJ`.
 * @returns adds what the dish burns of its fuel, which is to be the last step
 */
export function addFuel(dish: ExplainedDish): () => void {
  const { list, basis, method, asked, rows } = dish;
  const pot = addHeating(dish);
  if (pot === null) return () => {};
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
  addWaterInPot(dish, pot('vesselCapacityL'));
  list.computed('dishMinutesToBoil', method.minutesToBoil.p50, 'min', minutesToBoil);
  list.computed('dishFuelMJ', method.fuelMJ.p50, 'MJ', heat);
  return () => {
    if (basis.choice.fuelId === 'electricity')
      list.computed('dishFuelKWh', method.fuelKg.p50, 'kWh', 'dishFuelMJ / 3.6');
    else list.computed('dishFuelKg', method.fuelKg.p50, 'kg', `dishFuelMJ * ${pot('fuelKg')} / ${pot('fuelMJ')}`);
  };
}

function rowsAmong(rows: readonly DishRow[]): { name: string; there: string }[] {
  const seen = new Map<string, number>();
  return rows.map(({ name, food }) => {
    const times = (seen.get(food.id) ?? 0) + 1;
    seen.set(food.id, times);
    return { name, there: identifierOf(food.id) + (times === 1 ? '' : String(times)) };
  });
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
