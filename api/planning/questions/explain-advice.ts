/** The steps behind a line of advice: the plan solved again as it is and with the change, and the differences. */
import type { ExplanationStep } from '../../cooking/calculators/calculator-types.ts';
import { identifierOf, type StepList, stepList } from '../../cooking/derivations/explanation-steps.ts';
import { round } from '../rounding.ts';
import type { PreparedWeek } from '../week/prepared-week.ts';
import type { weekUses } from '../week/week-amounts.ts';
import { type AdviceItem, type Figures, NO_MJ, NO_SERVINGS, NO_SHARE_OF_PLAN, NO_WATER_L } from './advice-item.ts';
import { addWeek, listed, SOLVED_AGAIN, settle } from './explain-week.ts';
import { inWords } from './what-is-missing.ts';

/** A week by counts as advice compares it, with what it was added up from. */
export interface WeekCompared extends Figures {
  /** Nobody can be served better, proven. */
  proven: boolean;
  prepared: PreparedWeek;
  counts: Parameters<typeof weekUses>[1];
}

interface Asked {
  days: number;
  /** Days that are fed as things are; null: not found out. */
  daysFed: number | null;
  daysFedHot: number | null;
}

/** The steps of one line. What is there already is worth what would be lost without it: its differences are turned round. */
export function explainAdvice(
  item: AdviceItem,
  before: WeekCompared,
  after: WeekCompared,
  { days, daysFed, daysFedHot }: Asked,
): ExplanationStep[] {
  const list = stepList();
  const change = item.already ? `the same without this: ${item.text}` : `the same with one change: ${item.text}`;
  const same = after === before;
  addCompared(list, 'now', before, `the plan of ${days} days as things are, by counts of ways of cooking`);
  if (same)
    list.fact(
      'changedSolvedAgain',
      'not needed',
      '',
      `${change}; nothing is short in it that more sets could mend`,
      SOLVED_AGAIN,
    );
  else addCompared(list, 'changed', after, `${change}, by counts of ways of cooking`);
  const then = same ? 'now' : 'changed';
  // What is gained is the second of what is less the better, taken from the first.
  const less = (name: string) => (item.already ? `${then}${name} - now${name}` : `now${name} - ${then}${name}`);
  const lessOf = (name: string) =>
    (item.already ? -1 : 1) * (listed(list, `now${name}`) - listed(list, `${then}${name}`));
  const gained = (
    quantity: string,
    printed: number,
    unit: string,
    name: string,
    least: string,
    leastOf: number,
    digits: number,
  ) => {
    const value = lessOf(name);
    const size = `max(${less(name)}, -(${less(name)}))`;
    const relation = `${size} < ${least} ? 0 : round(${less(name)}, ${digits})`;
    settle(list, quantity, printed, unit, relation, Math.abs(value) < leastOf ? 0 : round(value, digits));
  };
  gained('servingsGained', item.servingsGained, '1', 'ServingsShort', `${NO_SERVINGS}`, NO_SERVINGS, 1);
  gained('hotServingsGained', item.hotServingsGained, '1', 'ServingsCold', `${NO_SERVINGS}`, NO_SERVINGS, 1);
  gained('hotWaterDaysGained', item.hotWaterDaysGained, 'd', 'DaysWithoutHotWater', `${NO_SERVINGS}`, NO_SERVINGS, 0);
  const leastOf = (least: number, name: string) =>
    [
      `max(${least}, ${NO_SHARE_OF_PLAN} * now${name})`,
      Math.max(least, NO_SHARE_OF_PLAN * listed(list, `now${name}`)),
    ] as const;
  gained('savedMJ', item.fuelSavedMJ, 'MJ', 'PlanHeatMJ', ...leastOf(NO_MJ, 'PlanHeatMJ'), 2);
  gained('savedL', item.waterSavedL, 'L', 'PlanCookL', ...leastOf(NO_WATER_L, 'PlanCookL'), 1);
  for (const { fuelId, kg } of item.fuelSaved) {
    const own = identifierOf(fuelId);
    const inAll = `${own.charAt(0).toUpperCase()}${own.slice(1)}InAllKg`;
    const unit = fuelId === 'electricity' ? 'kWh' : 'kg';
    for (const prefix of new Set(['now', then]))
      if (!list.steps.some(({ quantity }) => quantity === prefix + inAll))
        list.fact(prefix + inAll, 0, unit, 'nothing takes any', SOLVED_AGAIN);
    settle(list, `${own}SavedKg`, kg, unit, `round(${less(inAll)}, 3)`, round(lessOf(inAll), 3));
  }
  const { scarcestShare } = item;
  addScarcest(list, 'now', before, scarcestShare.before);
  if (!same) addScarcest(list, 'changed', after, scarcestShare.after);
  addDays(list, item, daysFed, daysFedHot);
  return list.steps;
}

function addCompared(list: StepList, prefix: string, week: WeekCompared, words: string): void {
  const proven = week.proven ? 'proven that nobody is served better' : 'the best found in the time';
  list.fact(`${prefix}SolvedAgain`, proven, '', words, SOLVED_AGAIN);
  addWeek(list, prefix, week.prepared, week.counts);
  const fact = (name: string, value: number, unit: string, what: string) =>
    list.fact(prefix + name, value, unit, what, SOLVED_AGAIN);
  fact('ServingsShort', week.servingsShort, '1', 'servings that nothing is left for');
  fact('ServingsCold', week.cold, '1', 'servings that should be hot and are not');
  fact('DaysWithoutHotWater', week.daysWithoutHotWater, 'd', 'days on which there is no fire for it');
}

/** The largest share of any fuel or of water: what is listed where it is the same to the digits that are printed. */
function addScarcest(list: StepList, prefix: string, { shareOf }: WeekCompared, printed: number): void {
  const own = identifierOf(shareOf);
  const name =
    shareOf === 'water' ? `${prefix}WaterShare` : `${prefix}${own.charAt(0).toUpperCase()}${own.slice(1)}UsedShare`;
  const value = round(listed(list, name), 3);
  if (value === printed) list.computed(`${prefix}ScarcestShare`, printed, '1', `round(${name}, 3)`);
  else
    list.fact(
      `${prefix}ScarcestShare`,
      printed,
      '1',
      `of ${inWords(shareOf)}, as the solve bounds the largest share; what is taken comes to ${value}`,
      SOLVED_AGAIN,
    );
}

function addDays(
  list: StepList,
  { already, text, daysGained }: AdviceItem,
  daysFed: number | null,
  daysFedHot: number | null,
): void {
  if (daysGained === null || daysFed === null || daysFedHot === null) return;
  const sign = already ? -1 : 1;
  const counted = 'the last number of days for which the plan solved again serves everybody, fuel 9 times in 10';
  for (const [name, now, gained, what] of [
    ['DaysFed', daysFed, daysGained.fed, ''],
    ['DaysFedHot', daysFedHot, daysGained.fedHot, ', every meal that should be hot is hot'],
  ] as const) {
    list.fact(`now${name}`, now, 'd', `${counted}${what}`, SOLVED_AGAIN);
    list.fact(
      `changed${name}`,
      now + sign * gained,
      'd',
      `${counted}${what}; ${already ? 'without' : 'with'}: ${text}`,
      SOLVED_AGAIN,
    );
    const relation = already ? `now${name} - changed${name}` : `changed${name} - now${name}`;
    list.computed(name === 'DaysFed' ? 'daysGained' : 'daysHotGained', gained, 'd', relation, SOLVED_AGAIN);
  }
}
