/** Whether what counts allow can be put on days, and what of single days stands against it. */
import { withCounts } from '../programme/count-programme.ts';
import { type LimitGroup, withoutLimits } from '../programme/limit-groups.ts';
import { anyPlan, type Demand, type ServeAnswer, served } from '../programme/serve-question.ts';
import { type Solver, solveOrThrow } from '../solver.ts';
import type { PreparedWeek } from '../week/prepared-week.ts';
import { inList } from './what-is-missing.ts';

/** Asking what hinders gets this long for each limit, s. */
const LONGEST_HINDRANCE_S = 1.5;

/** Whether the demand can be met on days: with the counts that were found, else with any. null: not found in time. */
export async function placedOnDays(
  { model }: PreparedWeek,
  demand: Demand,
  counts: ServeAnswer['counts'],
  solver: Solver,
  options: { timeLimitS: number; signal?: AbortSignal },
): Promise<boolean | null> {
  const programme = served(model, demand);
  const anything = [anyPlan(model)];
  const share = counts === null ? 0 : 0.4;
  if (counts !== null) {
    const fixed = withCounts(programme, counts.programme, counts.values, model.isCounted);
    const outcome = await solveOrThrow(solver, fixed, anything, { ...options, timeLimitS: options.timeLimitS * share });
    if (outcome.status === 'solved') return true;
  }
  const outcome = await solveOrThrow(solver, programme, anything, {
    ...options,
    timeLimitS: options.timeLimitS * (1 - share),
  });
  return outcome.status === 'solved' ? true : outcome.status === 'infeasible' ? false : null;
}

/**
 * Which limits of single days stand against a number of days for which the amounts would do: letting any one of them go
 * makes a plan by days possible.
 */
export async function whatHinders(
  { model, situation, week }: PreparedWeek,
  demand: Demand,
  solver: Solver,
  leftS: () => number,
  signal?: AbortSignal,
): Promise<{ groups: LimitGroup[]; text: string }> {
  const tried: [group: LimitGroup, wayOut: string][] = [
    [{ kind: 'things' }, 'one more pot, bowl or box'],
    [{ kind: 'fires' }, `more than ${week.lightingsPerDay} ${week.lightingsPerDay === 1 ? 'fire' : 'fires'} a day`],
    [{ kind: 'outdoors' }, 'more minutes outdoors a day'],
    [{ kind: 'clock' }, 'more time between the meals, or a stronger stove'],
  ];
  const anything = [anyPlan(model)];
  const found: typeof tried = [];
  for (const row of tried) {
    const [group] = row;
    const timeLimitS = Math.min(LONGEST_HINDRANCE_S, leftS());
    if (timeLimitS < 0.2) break;
    const outcome = await solveOrThrow(solver, served(withoutLimits(model, [group]), demand), anything, {
      timeLimitS,
      ...(signal === undefined ? {} : { signal }),
    });
    if (outcome.status === 'solved') found.push(row);
  }
  const enough = `Fuel, water and kits would do for ${situation.days.length} days`;
  const ways = found.map(([, wayOut]) => wayOut);
  return {
    groups: found.map(([group]) => group),
    text:
      ways.length === 0
        ? `${enough}, but pots, fires and hours of single days do not allow it.`
        : `${enough}, but single days do not allow it. What would: ${inList(ways, 'or')}.`,
  };
}
