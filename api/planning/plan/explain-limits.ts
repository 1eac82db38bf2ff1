/**
 * The steps behind the limits of a plan: what is used, what is allowed, what is left over, and what one more would bring.
 * A fuel is limited by the sum of the high ends of all that burns it, the careful reading: errors that all fires share do
 * not average out.
 */
import { identifierOf, type StepList } from '../../cooking/derivations/explanation-steps.ts';
import { resolveHousehold } from '../../cooking/household/resolve-household.ts';
import type { SourceRef } from '../../physics/parameter.ts';
import { clockMinutesBetween } from '../local-time.ts';
import type { FuelAmount, Limit } from '../plan-types.ts';
import { round } from '../rounding.ts';
import { type PlanWithBalances, settle, THE_MEALS, THE_STORES, THE_SUM } from './explain-balances.ts';

const SOLVED_AGAIN: SourceRef = {
  key: 'planner-derivation',
  place: 'the week of this plan solved again with that much more and all else as it is',
};
const CAREFUL: SourceRef = {
  key: 'planner-derivation',
  place: 'high ends of all that burns it, added up: shared errors do not average out',
};
const DIGITS = 3;

/** A sum that is worked out: its relation over listed quantities, and its value before rounding. */
interface Worked {
  relation: string;
  value: number;
}

/** Quantity that each step of a limit begins with: `lightings` of the second day is `lightingsDay2Limit`. */
function nameOf(plan: PlanWithBalances, { limit, date }: Limit): string {
  const day = plan.energyByDay.findIndex((row) => row.date === date);
  return `${identifierOf(limit)}${date === null ? '' : `Day${day + 1}`}Limit`;
}

/**
 * Adds `...LimitUsed`, `...LimitAllowed`, `...LimitLeftOver` and, where it was asked, `...LimitOneMore` of every limit.
 * The balances are listed before.
 */
export function addLimits(list: StepList, plan: PlanWithBalances): void {
  for (const limit of plan.limits) {
    const of = nameOf(plan, limit);
    const used = usedOf(list, plan, limit);
    const allowed = allowedOf(list, plan, limit);
    if (used === null) list.fact(`${of}Used`, limit.used, limit.unit, 'nothing of this plan uses any', THE_SUM);
    else
      settle(list, plan, {
        quantity: `${of}Used`,
        printed: limit.used,
        unit: limit.unit,
        relation: `round(${used.relation}, ${DIGITS})`,
        value: round(used.value, DIGITS),
        source: CAREFUL_LIMITS.has(limit.unit) ? CAREFUL : THE_SUM,
      });
    if (typeof allowed === 'string') list.fact(`${of}Allowed`, limit.allowed, limit.unit, allowed, THE_STORES);
    else
      settle(list, plan, {
        quantity: `${of}Allowed`,
        printed: limit.allowed,
        unit: limit.unit,
        relation: `round(${allowed.relation}, ${DIGITS})`,
        value: round(allowed.value, DIGITS),
        source: THE_SUM,
      });
    addLeftOver(list, plan, limit, {
      used: used ?? { relation: `${of}Used`, value: limit.used },
      allowed: typeof allowed === 'string' ? { relation: `${of}Allowed`, value: limit.allowed } : allowed,
    });
    if (limit.oneMore !== null)
      list.fact(`${of}OneMore`, limit.oneMore, '', 'found by solving again, not a price read off', SOLVED_AGAIN);
  }
}

/** Units of what is limited by its high end. */
const CAREFUL_LIMITS: ReadonlySet<string> = new Set(['kg', 'kWh']);

/** What is left over: from the two figures as printed, or, where rounding each would show, from what stands behind them. */
function addLeftOver(
  list: StepList,
  plan: PlanWithBalances,
  limit: Limit,
  by: { used: Worked; allowed: Worked },
): void {
  const of = nameOf(plan, limit);
  const plain = round(limit.allowed - limit.used, DIGITS);
  const asPrinted = Math.abs(plain - limit.slack) <= 1e-9;
  settle(list, plan, {
    quantity: `${of}LeftOver`,
    printed: limit.slack,
    unit: limit.unit,
    relation: asPrinted
      ? `round(${of}Allowed - ${of}Used, ${DIGITS})`
      : `round(${by.allowed.relation} - (${by.used.relation}), ${DIGITS})`,
    value: asPrinted ? plain : round(by.allowed.value - by.used.value, DIGITS),
    source: THE_SUM,
  });
}

const highOf = ({ kg, kWh }: FuelAmount): number => (kWh ?? kg).p90;
const inWords = (localTime: string): string => localTime.replace('T', ' ');
const isFuel = (plan: PlanWithBalances, { limit }: Limit) => plan.fuel.some(({ fuelId }) => fuelId === limit);

/** What uses a limit, listed one by one; null where nothing does. */
function usedOf(list: StepList, plan: PlanWithBalances, limit: Limit): Worked | null {
  const terms: { quantity: string; value: number }[] = [];
  const add = (quantity: string, value: number, words: string): void => {
    if (!list.steps.some((step) => step.quantity === quantity))
      list.fact(quantity, value, limit.unit, words, THE_MEALS);
    terms.push({ quantity, value });
  };
  if (isFuel(plan, limit)) addHighEnds(plan, limit, add);
  else if (limit.limit === 'water')
    // The balance has listed each day.
    for (const [index, day] of plan.water.byDay.entries())
      terms.push({ quantity: `waterDay${index + 1}UsedL`, value: day.usedL });
  else if (limit.limit === 'lightings' || limit.limit === 'outdoor-minutes') addFires(plan, limit, add);
  else
    for (const [index, cooking] of plan.cookings.entries())
      if (`sets:${cooking.kitId}` === limit.limit)
        add(`dish${index + 1}Sets`, cooking.batches, `${cooking.kitName}, ready ${inWords(cooking.doneAt)}`);
  if (terms.length === 0) return null;
  return {
    relation: terms.map(({ quantity }) => quantity).join(' + '),
    value: terms.reduce((total, { value }) => total + value, 0),
  };
}

type Add = (quantity: string, value: number, words: string) => void;

/** The high end of every dish, potful and start that burns a fuel. */
function addHighEnds(plan: PlanWithBalances, limit: Limit, add: Add): void {
  const words = (what: string) => `${what}; 9 times in 10 no more`;
  for (const [index, cooking] of plan.cookings.entries()) {
    const row = cooking.fuel.find(({ fuelId }) => fuelId === limit.limit);
    if (row !== undefined)
      add(`dish${index + 1}BurnsHighKg`, highOf(row), words(`${cooking.kitName}, ready ${inWords(cooking.doneAt)}`));
  }
  for (const [index, task] of plan.tasks.entries()) {
    const row = task.fuel.find(({ fuelId }) => fuelId === limit.limit);
    if (row !== undefined)
      add(
        `water${index + 1}BurnsHighKg`,
        highOf(row),
        words(`${task.litres} L of water heated from ${inWords(task.at)}`),
      );
  }
  for (const [index, fire] of plan.lightings.entries())
    if (fire.startUpFuel.fuelId === limit.limit && fire.startUpFuel.kg > 0)
      add(`fire${index + 1}StartUpHighKg`, fire.startUpFuel.kg, words(`to light it, ${inWords(fire.at)}`));
}

/** Fires of a day that count, or the minutes of those that burn outdoors. */
function addFires(plan: PlanWithBalances, limit: Limit, add: Add): void {
  const { stoves } = resolveHousehold(plan.resolved.household).household;
  for (const [index, fire] of plan.lightings.entries()) {
    if (fire.at.slice(0, 10) !== limit.date) continue;
    const name = stoves.find(({ id }) => id === fire.stoveId)?.name ?? fire.stoveId;
    const words = `${name}, ${inWords(fire.at)} to ${fire.until.slice(11)}`;
    if (limit.limit === 'lightings') {
      if (fire.burnsAnyway !== true) add(`fire${index + 1}Lit`, 1, words);
    } else if (fire.outdoors) add(`fire${index + 1}OutdoorMinutes`, clockMinutesBetween(fire.at, fire.until), words);
  }
}

/** What is allowed: from the stores as the balances list them, or as the words say. */
function allowedOf(list: StepList, plan: PlanWithBalances, limit: Limit): Worked | string {
  const isListed = (quantity: string) => list.steps.some((step) => step.quantity === quantity);
  if (isFuel(plan, limit)) {
    const name = identifierOf(limit.limit);
    const balance = plan.fuel.find(({ fuelId }) => fuelId === limit.limit);
    if (balance === undefined || !isListed(`${name}BudgetKg`))
      return 'on hand and promised, less the reserve that no plan touches';
    const later = balance.byDay.length - 1;
    const supply = Number(list.steps.find(({ quantity }) => quantity === `${name}DailySupplyKg`)?.value ?? 0);
    return {
      relation: `${name}OnHandKg${supply > 0 ? ` + ${later} * ${name}DailySupplyKg` : ''} - ${name}ReserveKg`,
      value: balance.onHandKg + supply * later - balance.reserveKg,
    };
  }
  if (limit.limit === 'water') {
    const later = plan.water.byDay.length - 1;
    const supply = Number(list.steps.find(({ quantity }) => quantity === 'waterSupplyL')?.value ?? 0);
    return {
      relation: `waterOnHandL${supply > 0 ? ` + ${later} * waterSupplyL` : ''}`,
      value: plan.water.onHandL + supply * later,
    };
  }
  if (limit.limit === 'lightings') return 'fires a day, as the household states it';
  if (limit.limit === 'outdoor-minutes') return 'minutes outdoors a day, as the household states it';
  return 'sets that are whole and good when the plan begins';
}
