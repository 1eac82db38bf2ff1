/** Of a plan that leaves something short: what stands against it, and how many days could be served instead. */
import type { Calculations } from '../../cooking/calculators/calculations.ts';
import type { PlanInput } from '../make-plan.ts';
import type { Shortage } from '../plan-types.ts';
import { canServe, type Demand } from '../programme/serve-question.ts';
import { type Conflict, conflictsWithFacts, type Fact, findConflicts, limitInWords } from '../questions/conflict.ts';
import { mostDaysByArithmetic } from '../questions/days-by-arithmetic.ts';
import { placedOnDays, whatHinders } from '../questions/on-days.ts';
import type { Solver } from '../solver.ts';
import { type LayingOut, type PreparedWeek, plainWeek, prepareWeek } from '../week/prepared-week.ts';
import type { WeekSituation } from '../week/week-situation.ts';

export interface WhyShort {
  conflict: Conflict[] | null;
  facts: Fact[];
  /** Most days that could be served, fewer than were asked for; 0: not even one, null: not found out in time. */
  daysServed: number | null;
}

/** Laying a week out takes about this long for each of its days, s (measured); no question is begun with less time. */
const LAYING_OUT_S_PER_DAY = 0.08;
const LONGEST_QUESTION_S = 1;
const SHORTEST_QUESTION_S = 0.2;
const LONGEST_PLACING_S = 1.5;

/**
 * Works out what stands against a plan, then how many days could be served.
 * @param prepared the plan's week, laid out open
 * @param leftS seconds that are left, asked before every solve
 * @throws SolveCancelledError; SolverBusyError
 */
export async function whyShort(
  input: PlanInput,
  prepared: PreparedWeek,
  demand: Demand,
  calculations: Calculations,
  solver: Solver,
  leftS: () => number,
  layingOut: Pick<LayingOut, 'pause' | 'signal'>,
): Promise<WhyShort> {
  const { signal } = layingOut;
  const finding = await findConflicts(prepared, demand, solver, leftS, signal);
  const conflicts = conflictsWithFacts(finding, demand);
  if (conflicts.length === 0 && finding.complete && leftS() > SHORTEST_QUESTION_S) {
    const timeLimitS = Math.min(LONGEST_PLACING_S, leftS());
    const options = signal === undefined ? { timeLimitS } : { timeLimitS, signal };
    // Amounts would do: then it is single days that do not allow it.
    if ((await placedOnDays(prepared, demand, null, solver, options)) === false) {
      const { groups, text } = await whatHinders(prepared, demand, solver, leftS, signal);
      const limits = groups.map((group) => limitInWords(prepared, group));
      conflicts.push({ demand, limits, text, irreducible: false });
    }
  }
  const daysServed = await mostDaysServed(input, prepared.days, demand, calculations, solver, leftS, layingOut);
  return { conflict: conflicts.length === 0 ? null : conflicts, facts: finding.facts, daysServed };
}

/** The most days below a number that can be served, put on days; 0: not even one, null: not found out in time. */
async function mostDaysServed(
  input: PlanInput,
  below: number,
  demand: Demand,
  calculations: Calculations,
  solver: Solver,
  leftS: () => number,
  layingOut: Pick<LayingOut, 'pause' | 'signal'>,
): Promise<number | null> {
  const options = (longestS: number) => ({
    timeLimitS: Math.max(0.1, Math.min(longestS, leftS())),
    ...(layingOut.signal === undefined ? {} : { signal: layingOut.signal }),
  });
  let low = 0;
  let high = Math.min(below, mostDaysByArithmetic(input) + 1);
  while (high - low > 1) {
    // The end is more often near what was asked for than near the start.
    const days = high - low > 4 ? Math.floor((low + 2 * high) / 3) : high - 1;
    if (leftS() < days * LAYING_OUT_S_PER_DAY) return null;
    const week = plainWeek(await prepareWeek(input, days, calculations, layingOut));
    const { possible, counts } = await canServe(week.model, { demand }, solver, options(LONGEST_QUESTION_S));
    const onDays =
      possible === true ? await placedOnDays(week, demand, counts, solver, options(LONGEST_PLACING_S)) : possible;
    if (onDays === null) return null;
    if (onDays) low = days;
    else high = days;
  }
  return low;
}

/** A shorter plan as a way out; null where there is none. */
export function shorterPlan(daysServed: number | null, demand: Demand): string | null {
  if (daysServed === null || daysServed === 0) return null;
  const days = daysServed === 1 ? '1 day' : `${daysServed} days`;
  return demand === 'fed'
    ? `Plan ${days}: so long everybody can be fed`
    : `Plan ${days}: so long every meal that should be hot can be`;
}

/**
 * What to do where water ends a plan: drinking and washing are kept for all of its days first, so that a plan that is too
 * long cooks hardly anything from its first day on.
 * @param daysServed as worked out; null: not known
 */
export function waterCautions(
  { days, water }: WeekSituation,
  short: readonly Shortage[],
  daysServed: number | null,
): string[] {
  const planned = (count: number) => `plan ${count} ${count === 1 ? 'day' : 'days'}`;
  if (water.baseShort !== null) {
    const lasts = water.baseShort.day;
    const last = days[lasts - 1];
    if (last === undefined)
      return [
        'There is not enough water to drink, wash up and keep clean on the first day: find water before anything else.',
      ];
    const advice =
      daysServed === null || daysServed === 0 ? `${planned(lasts)} at most` : planned(Math.min(lasts, daysServed));
    return [
      `Water to drink and wash with lasts ${lasts} ${lasts === 1 ? 'day' : 'days'}, until ${last.date}. A plan for ${days.length} days keeps all of it for that and cooks hardly anything from the start: ${advice}, and look for water.`,
    ];
  }
  if (days.length > 1 && short.some((row) => row.what === 'water'))
    return [
      `Water to drink and wash with is kept for all ${days.length} days before any is cooked with. A plan for fewer days cooks more: ${daysServed === null || daysServed === 0 ? 'ask how many days can be fed, and plan these' : planned(daysServed)}.`,
    ];
  return [];
}
