/**
 * The steps behind what a plan prints by day: fuel used and left, water used and left, and the marks below which to plan
 * anew. What does not come out as it was printed (a plan made with other tables, parts that were rounded each) stands as
 * printed and says so.
 */
import { answerFuelUse, resolveFuelUse } from '../../cooking/calculators/answer-fuel-use.ts';
import type { FuelUseQuestion } from '../../cooking/calculators/calculator-types.ts';
import { identifierOf, type StepList } from '../../cooking/derivations/explanation-steps.ts';
import { drinkingLPerDay } from '../../cooking/household/people.ts';
import { resolveHousehold } from '../../cooking/household/resolve-household.ts';
import type { SourceRef } from '../../physics/parameter.ts';
import { STOVE_TYPES } from '../../physics/stoves-table.ts';
import { MJ_PER_KWH, mjToKWh } from '../../physics/units.ts';
import type { FuelAmount, FuelBalance, Lighting, Plan, WaterDay } from '../plan-types.ts';
import { round } from '../rounding.ts';
import { addBand, causesInWords } from './explain-bands.ts';
import { WATER_MARK, waterMarkL } from './plan-water.ts';

export type PlanWithBalances = Pick<
  Plan,
  | 'resolved'
  | 'versions'
  | 'request'
  | 'cookings'
  | 'lightings'
  | 'tasks'
  | 'fuel'
  | 'water'
  | 'meals'
  | 'energyByDay'
  | 'limits'
>;

export const THE_MEALS: SourceRef = { key: 'planner-derivation', place: 'the derivation of the meal' };
export const THE_STORES: SourceRef = { key: 'planner-derivation', place: 'the stores of the household' };
export const THE_SUM: SourceRef = { key: 'planner-derivation', place: 'what is on hand less what is used' };
const THE_BAND: SourceRef = {
  key: 'planner-derivation',
  place: 'causes that all fires share add up, others in quadrature',
};
const DIGITS = 3;

type Household = ReturnType<typeof resolveHousehold>['household'];

/** Adds the steps of each fuel of which something is used, of water, and of food energy and protein, day by day. */
export function addBalances(list: StepList, plan: PlanWithBalances): void {
  const { household } = resolveHousehold(plan.resolved.household);
  for (const balance of plan.fuel) if (balance.usedKg.p50 > 0) addFuel(list, plan, household, balance);
  addWater(list, plan, household);
  addFood(list, plan);
}

/**
 * A printed value: worked out from steps where that gives the same, else as printed.
 * @param step `printed` and `value` in `unit`; `relation` names quantities that are listed already
 */
export function settle(
  list: StepList,
  plan: PlanWithBalances,
  step: { quantity: string; printed: number; unit: string; relation: string; value: number; source: SourceRef },
): void {
  const { quantity, printed, unit, relation, value, source } = step;
  if (Math.abs(value - printed) <= 1e-9) list.computed(quantity, printed, unit, relation, source);
  else list.fact(quantity, printed, unit, `as printed in the plan by version ${plan.versions.program}`, source);
}

const amountOf = ({ kg, kWh }: FuelAmount): number => (kWh ?? kg).p50;
const dateOf = (lighting: Lighting | undefined): string | undefined => lighting?.at.slice(0, 10);

/** One fire, dish or potful that takes of a fuel, on the date of its fire. */
interface Use {
  quantity: string;
  date: string | undefined;
  amount: number;
}

function addFuel(list: StepList, plan: PlanWithBalances, household: Household, balance: FuelBalance): void {
  const { fuelId } = balance;
  const name = identifierOf(fuelId);
  const electric = plan.cookings.some(({ fuel }) => fuel.some((row) => row.fuelId === fuelId && row.kWh !== undefined));
  const unit = electric ? 'kWh' : 'kg';
  const uses = usesOf(list, plan, household, fuelId, unit);
  const onHand = `${name}OnHandKg`;
  list.fact(onHand, balance.onHandKg, unit, 'in all containers at hand when the plan begins', THE_STORES);
  list.fact(`${name}ReserveKg`, balance.reserveKg, unit, 'the share that no plan touches', THE_STORES);
  const store = household.fuels.find((one) => one.fuelId === fuelId);
  const supply = (electric ? store?.dailySupplyKWh : store?.dailySupplyKg) ?? 0;
  if (supply > 0) list.fact(`${name}DailySupplyKg`, supply, unit, 'promised for each day', THE_STORES);
  const gained = (day: number): string => (supply > 0 && day > 0 ? ` + ${day} * ${name}DailySupplyKg` : '');
  const days: string[] = [];
  let used = 0;
  for (const [index, day] of balance.byDay.entries()) {
    const of = `${name}Day${index + 1}`;
    const todays = uses.filter((use) => use.date === day.date);
    const today = todays.reduce((total, use) => total + use.amount, 0);
    settle(list, plan, {
      quantity: `${of}UsedKg`,
      printed: round(day.usedKg.p50, DIGITS),
      unit,
      relation: `round(${todays.map((use) => use.quantity).join(' + ') || `0 * ${onHand}`}, ${DIGITS})`,
      value: round(today, DIGITS),
      source: THE_MEALS,
    });
    days.push(...todays.map((use) => use.quantity));
    used += today;
    const spent = days.length === 0 ? '' : ` - (${days.join(' + ')})`;
    const had = balance.onHandKg + supply * index;
    addBand(list, `${of}LeftKg`, day.leftKg, unit, causesInWords(balance.spread ?? []));
    settle(list, plan, {
      quantity: `${of}LeftKg`,
      printed: round(day.leftKg.p50, DIGITS),
      unit,
      relation: `round(${onHand}${gained(index)}${spent}, ${DIGITS})`,
      value: round(had - used, DIGITS),
      source: THE_SUM,
    });
    const low = round(had - day.leftKg.p10, 4);
    list.fact(`${of}UsedHighKg`, low, unit, 'used by this evening, 9 times in 10 no more', THE_BAND);
    settle(list, plan, {
      quantity: `${of}ReplanKg`,
      printed: day.replanBelow,
      unit,
      relation: `round(max(0, ${onHand}${gained(index)} - ${of}UsedHighKg), ${DIGITS})`,
      value: round(Math.max(0, had - low), DIGITS),
      source: THE_BAND,
    });
  }
  settle(list, plan, {
    quantity: `${name}UsedKg`,
    printed: round(balance.usedKg.p50, DIGITS),
    unit,
    relation: `round(${days.join(' + ') || `0 * ${onHand}`}, ${DIGITS})`,
    value: round(used, DIGITS),
    source: THE_MEALS,
  });
  const last = balance.byDay.length - 1;
  settle(list, plan, {
    quantity: `${name}BudgetKg`,
    printed: round(balance.budgetKg, DIGITS),
    unit,
    relation: `round(${onHand}${gained(last)} - ${name}ReserveKg, ${DIGITS})`,
    value: round(balance.onHandKg + supply * last - balance.reserveKg, DIGITS),
    source: THE_SUM,
  });
}

/** Lists what takes of a fuel: dishes, potfuls of water, and the start of each fire that is not lit in any case. */
function usesOf(
  list: StepList,
  plan: PlanWithBalances,
  household: Household,
  fuelId: FuelBalance['fuelId'],
  unit: string,
): Use[] {
  const uses: Use[] = [];
  const lightingOf = (id: string | null) => plan.lightings.find((lighting) => lighting.id === id);
  const add = (quantity: string, words: string, date: string | undefined, amount: number): void => {
    list.fact(quantity, amount, unit, words, THE_MEALS);
    uses.push({ quantity, date, amount });
  };
  for (const [index, cooking] of plan.cookings.entries()) {
    const row = cooking.fuel.find((one) => one.fuelId === fuelId);
    if (row === undefined) continue;
    const words = `${cooking.kitName}, ready ${cooking.doneAt.replace('T', ' ')}`;
    add(`dish${index + 1}BurnsKg`, words, dateOf(lightingOf(cooking.method.lightingId)), amountOf(row));
  }
  for (const [index, task] of plan.tasks.entries()) {
    const row = task.fuel.find((one) => one.fuelId === fuelId);
    if (row === undefined) continue;
    const words = `${task.litres} L of water heated from ${task.at.replace('T', ' ')}`;
    add(`water${index + 1}BurnsKg`, words, dateOf(lightingOf(task.lightingId)), amountOf(row));
  }
  for (const [index, stove] of household.stoves.entries()) {
    const fires = plan.lightings.filter(
      (lighting) => lighting.stoveId === stove.id && lighting.fuelId === fuelId && lighting.burnsAnyway !== true,
    );
    if (fires.length === 0 || STOVE_TYPES[stove.typeId].startUpMJ.value <= 0) continue;
    const moisture = household.fuels.find((one) => one.fuelId === fuelId)?.moisturePercent ?? null;
    const question: FuelUseQuestion = {
      stove: { typeId: stove.typeId },
      fuelId,
      ...(moisture === null ? {} : { fuelMoisturePercent: moisture }),
      vessel: null,
      waterL: 0,
      startC: 0,
      airC: 0,
      elevationM: 0,
      wind: 'still',
      holdMinutes: 0,
    };
    const quantity = `stove${index + 1}${capital(identifierOf(fuelId))}StartUpKg`;
    const start = answerFuelUse(question);
    const startUpMJ = `stove${index + 1}StartUpMJ`;
    if (!list.steps.some((step) => step.quantity === startUpMJ))
      list.row(startUpMJ, STOVE_TYPES[stove.typeId].startUpMJ, `${stove.name}, each time that it is lit`);
    const heat = `${identifierOf(fuelId)}MJPerKg`;
    if (start.fuelKg !== null && !list.steps.some((step) => step.quantity === heat))
      list.row(heat, resolveFuelUse(question).parameters.fuel, 'lower heating value');
    const amount = start.fuelKg?.p50 ?? mjToKWh(start.fuelMJ.p50);
    list.computed(
      quantity,
      amount,
      unit,
      start.fuelKg === null ? `${startUpMJ} / ${MJ_PER_KWH}` : `${startUpMJ} / ${heat}`,
      {
        key: 'planner-derivation',
        place: 'heat over heating value',
      },
    );
    for (const fire of fires) uses.push({ quantity, date: dateOf(fire), amount });
  }
  return uses;
}

const capital = (name: string): string => name.charAt(0).toUpperCase() + name.slice(1);

const WATER_PARTS = [
  ['drinkL', 'DrinkL', 'drinks of everybody there, by age and condition'],
  ['hygieneL', 'HygieneL', 'washing of hands and faces, as the household states it'],
  ['animalsL', 'AnimalsL', 'drinks of animals, as the household states it'],
  ['cookL', 'CookL', 'put in pots and boiled off, dish by dish'],
  ['soakL', 'SoakL', 'soaks, dish by dish'],
  ['washL', 'WashL', 'washing-up, as the household states it'],
] as const satisfies readonly (readonly [keyof WaterDay, string, string])[];

function addWater(list: StepList, plan: PlanWithBalances, household: Household): void {
  const { onHandL, byDay } = plan.water;
  list.fact('waterOnHandL', onHandL, 'L', 'all water of the household that can be used', THE_STORES);
  const supply = household.water.dailySupply.litres;
  if (supply > 0) list.fact('waterSupplyL', supply, 'L', 'promised for each day', THE_STORES);
  const everybodyL = plan.request.attendance === undefined ? addDrinks(list, household) : null;
  let before: { quantity: string; value: number } = { quantity: 'waterOnHandL', value: onHandL };
  for (const [index, day] of byDay.entries()) {
    const of = `waterDay${index + 1}`;
    for (const [part, ending, words] of WATER_PARTS) {
      if (part === 'drinkL' && index > 0 && everybodyL !== null)
        settle(list, plan, {
          quantity: of + ending,
          printed: day.drinkL,
          unit: 'L',
          relation: 'round(everybodyDrinksL, 1)',
          value: round(everybodyL, 1),
          source: { key: 'planner-derivation', place: 'everybody who is there' },
        });
      else {
        const share = index === 0 ? '; of the first day only what is left of it' : '';
        const source = part === 'cookL' || part === 'soakL' ? THE_MEALS : THE_STORES;
        list.fact(of + ending, day[part], 'L', words + share, source);
      }
    }
    const parts = WATER_PARTS.map(([part]) => day[part]).reduce((total, litres) => total + litres, 0);
    settle(list, plan, {
      quantity: `${of}UsedL`,
      printed: day.usedL,
      unit: 'L',
      relation: `round(${WATER_PARTS.map(([, ending]) => of + ending).join(' + ')}, 1)`,
      value: round(parts, 1),
      source: THE_SUM,
    });
    const melted = day.meltedL ?? 0;
    if (melted > 0) list.fact(`${of}MeltedL`, melted, 'L', 'melted from snow on this day', THE_STORES);
    const gained = (index > 0 && supply > 0 ? ' + waterSupplyL' : '') + (melted > 0 ? ` + ${of}MeltedL` : '');
    settle(list, plan, {
      quantity: `${of}LeftL`,
      printed: day.leftL,
      unit: 'L',
      relation: `round(${before.quantity}${gained} - ${of}UsedL, 1)`,
      value: round(before.value + (index > 0 ? supply : 0) + melted - day.usedL, 1),
      source: THE_SUM,
    });
    settle(list, plan, {
      quantity: `${of}ReplanL`,
      printed: day.replanBelow,
      unit: 'L',
      relation: `round(max(0, ${of}LeftL * ${WATER_MARK.share} - ${WATER_MARK.litres}), 0)`,
      value: waterMarkL(day.leftL),
      source: { key: 'kitchenPractice', place: 'three parts in a hundred and 2 L are spilt and misread' },
    });
    before = { quantity: `${of}LeftL`, value: day.leftL };
  }
}

/** What everybody of the household drinks in a day, `everybodyDrinksL`. */
function addDrinks(list: StepList, household: Household): number {
  const names = household.people.map((person, index) => {
    const quantity = `person${index + 1}DrinksL`;
    const kind = [person.ageGroup, person.condition === 'none' ? '' : person.condition].join(' ').trim();
    list.fact(quantity, drinkingLPerDay(person), 'L', `${person.label}: ${kind}`, {
      key: 'efsa-water-2010',
      place: 'drinks by age and condition, without the water of food',
    });
    return quantity;
  });
  const total = household.people.reduce((sum, person) => sum + drinkingLPerDay(person), 0);
  list.computed('everybodyDrinksL', total, 'L', names.join(' + '));
  return total;
}

/** Food energy and protein of each day, meal by meal as the meals explain them, and what everybody needs. */
function addFood(list: StepList, plan: PlanWithBalances): void {
  const needs: SourceRef = {
    key: 'unhcr-food-needs-1997',
    place: 'people by age, sex and condition; +100 kcal per 5 C below 20 C where they live',
  };
  for (const [index, day] of plan.energyByDay.entries()) {
    const of = `day${index + 1}`;
    const meals = plan.meals.filter((meal) => meal.id.startsWith(day.date));
    const energy: string[] = [];
    const protein: string[] = [];
    for (const [at, meal] of meals.entries()) {
      const name = `${of}Meal${at + 1}`;
      const words = `${meal.slot}, ${meal.eatAt.replace('T', ' ')}`;
      list.fact(`${name}EnergyKcal`, meal.energyKcal, 'kcal', words, THE_MEALS);
      list.fact(`${name}ProteinG`, meal.proteinG, 'g', words, THE_MEALS);
      energy.push(`${name}EnergyKcal`);
      protein.push(`${name}ProteinG`);
    }
    const total = (quantity: string, printed: number, unit: string, value: number, terms: readonly string[]): void => {
      if (terms.length === 0) list.fact(quantity, printed, unit, 'no meal is planned', THE_MEALS);
      else settle(list, plan, { quantity, printed, unit, relation: terms.join(' + '), value, source: THE_MEALS });
    };
    const kcal = meals.reduce((sum, meal) => sum + meal.energyKcal, 0);
    const grams = meals.reduce((sum, meal) => sum + meal.proteinG, 0);
    total(`${of}EnergyKcal`, day.kcal, 'kcal', kcal, energy);
    total(`${of}ProteinG`, day.proteinG, 'g', grams, protein);
    list.fact(
      `${of}NeedKcal`,
      day.needKcal,
      'kcal',
      'everybody who eats from the pot, on what is left of the day',
      needs,
    );
    list.fact(
      `${of}NeedProteinG`,
      day.needProteinG,
      'g',
      'everybody who eats from the pot, on what is left of the day',
      {
        key: 'iom-dri-summary',
        place: 'protein, recommended dietary allowance',
      },
    );
  }
}
