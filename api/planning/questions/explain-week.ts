/** The steps behind fuel, heat and water of a week that was solved again by counts: every way that it takes, and how often. */
import { fuelOf } from '../../cooking/calculators/answer-fuel-use.ts';
import { identifierOf, type StepList } from '../../cooking/derivations/explanation-steps.ts';
import { FUELS } from '../../physics/fuels-table.ts';
import type { SourceRef } from '../../physics/parameter.ts';
import type { FuelId } from '../../physics/table-ids.ts';
import { MJ_PER_KWH } from '../../physics/units.ts';
import type { PreparedWeek } from '../week/prepared-week.ts';
import { type WeekUse, weekUses } from '../week/week-amounts.ts';

export const SOLVED_AGAIN: SourceRef = { key: 'planner-derivation', place: 'the plan solved again for this question' };
const THE_DISH: SourceRef = {
  key: 'planner-derivation',
  place: 'the dish as the answer on its ways of cooking derives it',
};
const THE_FIRE: SourceRef = {
  key: 'planner-derivation',
  place: 'starting a stove and heating water, by the way of fuel use',
};
const THE_STORES: SourceRef = { key: 'planner-derivation', place: 'the stores of the household' };
/** Two ways through the same arithmetic. */
const SAME = 1e-9;

type Counts = Parameters<typeof weekUses>[1];
type Prepared = Pick<PreparedWeek, 'week' | 'calendar' | 'model' | 'situation'>;

/** A printed figure: worked out where that gives the same, else as the solve has it. */
export function settle(
  list: StepList,
  quantity: string,
  printed: number,
  unit: string,
  relation: string,
  value: number,
): void {
  if (Math.abs(value - printed) <= SAME * Math.max(1, Math.abs(printed)))
    list.computed(quantity, printed, unit, relation);
  else list.fact(quantity, printed, unit, 'as the plan solved again has it', SOLVED_AGAIN);
}

/** Value of a number that is listed; 0 where it is not. */
export function listed(list: StepList, quantity: string): number {
  return Number(list.steps.find((step) => step.quantity === quantity)?.value ?? 0);
}

/** Joins a prefix and a name: `now` and `planMJ` make `nowPlanMJ`. */
export function joined(prefix: string, name: string): string {
  return prefix === '' ? name : prefix + name.charAt(0).toUpperCase() + name.slice(1);
}

/**
 * Lists each way that the week takes, and the sums: `planHeatMJ`, `planCookL`, `waterShare`, and of each fuel
 * `…InAllKg`, `…InAllHighKg`, `…BudgetKg` and `…UsedShare` (of what may be used, 9 times in 10 no more).
 * @param prefix put before every name, as where two weeks are compared; may be empty
 */
export function addWeek(list: StepList, prefix: string, prepared: Prepared, counts: Counts): void {
  const kinds = { dish: 0, start: 0, 'hot-water': 0, 'safe-water': 0 };
  const fuels = new Map<string, { typical: string[]; high: string[] }>();
  const heat: string[] = [];
  const water: string[] = [];
  for (const { use, words } of alike(prepared, counts)) {
    const { kind, times, burns, waterL } = use;
    kinds[kind] += 1;
    const of = joined(
      prefix,
      `${{ dish: 'dish', start: 'fire', 'hot-water': 'potOfWater', 'safe-water': 'safeWater' }[kind]}${kinds[kind]}`,
    );
    const litres = kind === 'safe-water';
    const source = kind === 'dish' ? THE_DISH : THE_FIRE;
    const count = litres ? `${of}HeatedL` : `${of}Times`;
    list.fact(
      count,
      times,
      litres ? 'L' : '1',
      `${words}: ${litres ? 'so much' : 'so often'} in the plan solved again`,
      SOLVED_AGAIN,
    );
    if (waterL > 0) {
      list.fact(`${of}CookL`, waterL, 'L', 'water that leaves the store each time', THE_DISH);
      water.push(`${count} * ${of}CookL`);
    }
    if (burns === null || burns.kg.p50 <= 0) continue;
    const unit = (burns.fuelId === 'electricity' ? 'kWh' : 'kg') + (litres ? '/L' : '');
    list.fact(`${of}BurnsKg`, burns.kg.p50, unit, litres ? 'typical, of a litre' : 'typical, each time', source);
    list.fact(`${of}BurnsHighKg`, burns.kg.p90, unit, '9 times in 10 no more', source);
    addHeat(list, prefix, of, burns, litres ? 'MJ/L' : 'MJ', prepared);
    const sums = fuels.get(burns.fuelId) ?? { typical: [], high: [] };
    fuels.set(burns.fuelId, sums);
    sums.typical.push(`${count} * ${of}BurnsKg`);
    sums.high.push(`${count} * ${of}BurnsHighKg`);
    heat.push(`${count} * ${of}FuelMJ`);
  }
  const total = (quantity: string, terms: readonly string[], unit: string) => {
    const value = terms.reduce((sum, term) => {
      const [count, each] = term.split(' * ') as [string, string];
      return sum + listed(list, count) * listed(list, each);
    }, 0);
    if (terms.length === 0) list.fact(quantity, 0, unit, 'nothing takes any', SOLVED_AGAIN);
    else list.computed(quantity, value, unit, terms.join(' + '));
  };
  const last = prepared.week.days - 1;
  for (const [fuelId, budgets] of Object.entries(prepared.week.fuelByDay)) {
    const own = joined(prefix, identifierOf(fuelId));
    const unit = fuelId === 'electricity' ? 'kWh' : 'kg';
    total(`${own}InAllKg`, fuels.get(fuelId)?.typical ?? [], unit);
    total(`${own}InAllHighKg`, fuels.get(fuelId)?.high ?? [], unit);
    const budget = budgets[last] ?? 0;
    list.fact(
      `${own}BudgetKg`,
      budget,
      unit,
      'on hand and promised, less the reserve that no plan touches',
      THE_STORES,
    );
    addShare(list, `${own}UsedShare`, `${own}InAllHighKg`, `${own}BudgetKg`);
  }
  total(joined(prefix, 'planHeatMJ'), heat, 'MJ');
  total(joined(prefix, 'planCookL'), water, 'L');
  const { safeWaterByDay, treatableWaterByDay } = prepared.week;
  const forCookingL = (safeWaterByDay[last] ?? 0) + (treatableWaterByDay[last] ?? 0);
  list.fact(
    joined(prefix, 'forCookingL'),
    forCookingL,
    'L',
    'water left when people, animals and washing have theirs',
    THE_STORES,
  );
  addShare(list, joined(prefix, 'waterShare'), joined(prefix, 'planCookL'), joined(prefix, 'forCookingL'));
}

/** Used over what may be used; a store of nothing counts as next to nothing. */
function addShare(list: StepList, quantity: string, used: string, of: string): void {
  list.computed(quantity, listed(list, used) / Math.max(1e-6, listed(list, of)), '1', `${used} / max(0.000001, ${of})`);
}

/** Heat of what a way burns: kilograms times the heating value of the table where the two are one, else as solved. */
function addHeat(
  list: StepList,
  prefix: string,
  of: string,
  { fuelId, kg, mj }: NonNullable<WeekUse['burns']>,
  unit: string,
  { situation }: Prepared,
): void {
  const electric = fuelId === 'electricity';
  const moisture = situation.household.fuels.find((fuel) => fuel.fuelId === fuelId)?.moisturePercent ?? null;
  const value = fuelOf(moisture === null ? {} : { fuelMoisturePercent: moisture }, FUELS[fuelId as FuelId]);
  const perUnit = electric ? MJ_PER_KWH : value.value;
  const worked = kg.p50 * perUnit;
  if (Math.abs(worked - mj.p50) > SAME * mj.p50) {
    list.fact(`${of}FuelMJ`, mj.p50, unit, 'typical heat of what it burns', THE_DISH);
    return;
  }
  // A change may be another moisture: then the fuel has two heating values.
  const plain = `${identifierOf(fuelId)}MJPerKg`;
  const known = list.steps.find(({ quantity }) => quantity === plain);
  const name = known === undefined || known.value === value.value ? plain : joined(prefix, plain);
  if (!electric && !list.steps.some(({ quantity }) => quantity === name)) list.row(name, value, 'lower heating value');
  list.computed(`${of}FuelMJ`, worked, unit, electric ? `${of}BurnsKg * ${MJ_PER_KWH}` : `${of}BurnsKg * ${name}`);
}

/** Ways that differ only in their day are one line. */
function alike(prepared: Prepared, counts: Counts): { use: WeekUse; words: string }[] {
  const lines = new Map<string, { use: WeekUse; words: string }>();
  for (const use of weekUses(prepared, counts)) {
    const words = wordsOf(prepared, use);
    const key = JSON.stringify([use.kind, words, use.burns, use.waterL]);
    const known = lines.get(key);
    if (known === undefined) lines.set(key, { use: { ...use }, words });
    else known.use.times += use.times;
  }
  return [...lines.values()].filter(({ use }) => use.waterL > 0 || (use.burns?.kg.p50 ?? 0) > 0);
}

function wordsOf({ calendar }: Prepared, { kind, id }: WeekUse): string {
  if (kind === 'start') return `${calendar.lightings.get(id)?.stove.name}, lit`;
  if (kind === 'hot-water') {
    const detail = calendar.hotWater.get(id);
    return `${detail?.litres} L of hot water on ${detail?.lighting.stove.name}`;
  }
  if (kind === 'safe-water') {
    const detail = calendar.treatments.get(id);
    return `${detail?.fromSnow === true ? 'snow melted and boiled' : 'water boiled to make it safe'} on ${detail?.lighting?.stove.name}`;
  }
  const detail = calendar.options.get(id);
  const choice = detail?.method?.choice;
  const finish = { flame: '', box: ', softened in a box', flask: ', softened in a flask' };
  const how =
    choice === undefined
      ? ', without a fire'
      : ` on ${choice.stove.name}, in ${choice.vessel.name}${choice.soak === null ? '' : ', soaked'}${finish[choice.finish]}`;
  return `${detail?.kit.kit.name}, ${detail?.servingsCooked} servings${how}`;
}
