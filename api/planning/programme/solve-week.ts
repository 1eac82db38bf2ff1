/**
 * The week solved: first how often each way is used (counts over days that are alike), then on which days. Counts give a
 * bound that no plan by days can beat; days that reach it are proven. Where they do not, the programme by days is solved
 * with what time is left, and the gap is told.
 */

import { missedServings, secondsOf } from '../plan/plan-proof.ts';
import {
  type Aim,
  type AimOutcome,
  type IntegerProgramme,
  type SolveOptions,
  type Solver,
  solveOrThrow,
} from '../solver.ts';
import type { WeekChoice, WeekInstance } from '../week/week-instance.ts';
import { type CountProgramme, countProgramme, withCounts } from './count-programme.ts';
import { type WeekModel, weekModel } from './week-model.ts';
import { withRows } from './with-rows.ts';

/** Less missed than this is nothing missed, servings. */
export const NOTHING_MISSED = 0.02;
/** Share of the time limit that the counts may take, and that the days with settled counts may take after them. */
const COUNTS_SHARE = 0.6;
const PLACING_SHARE = 0.25;
/**
 * Aims that are taken when it is settled how often each way is used: on which days something is missed, and which dish
 * follows which. The least that any counts allow is an aim of the counts too.
 */
const ARRANGED: ReadonlySet<string> = new Set(['shortage-late', 'variety-then-tending']);
/** Room of a row that holds an aim: ten times the room in which the engine itself takes a row as kept. */
const HELD_ROOM = 1e-5;

export interface WeekSolution {
  /** null: no plan was found in time. */
  choice: WeekChoice | null;
  /** Per aim: value of this plan, and the bound below which no plan can be. */
  aims: AimOutcome[];
  /** The aims as they were stated, for their tolerances. */
  stated: Aim[];
  /** Every aim is within its tolerance of its bound. */
  proven: boolean;
  /** How the last word was found: counts put on days, or the programme by days. */
  by: 'counts' | 'days';
}

/**
 * Solves a week: in the hope that nothing need be missed, else aim by aim with shortages as late as possible.
 * @param options time limit for everything together, s
 * @throws SolveCancelledError; SolverBusyError; Error when the engine fails
 */
export async function solveWeek(week: WeekInstance, engine: Solver, options: SolveOptions): Promise<WeekSolution> {
  const solver = oneClock(engine);
  const hopeful = weekModel(week, { optimistic: true });
  const countsLimitS = options.timeLimitS * COUNTS_SHARE;
  const hopefulCounts = countedModel(hopeful);
  const serviceOnly = { ...hopefulCounts, aims: hopefulCounts.aims.filter(({ name }) => name === 'service') };
  const service = await solveCounts(serviceOnly, solver, { ...options, timeLimitS: countsLimitS });
  let leftS = options.timeLimitS - (service === null ? 0 : secondsOf(service.aims));
  // Counts are a relaxation: if even they miss something, so does every plan.
  if (service === null || boundOfMissed(service.aims) <= NOTHING_MISSED) {
    const counted = await solveCounts(hopefulCounts, solver, { ...options, timeLimitS: countsLimitS });
    leftS -= counted === null ? 0 : secondsOf(counted.aims);
    const solution = await onDays(hopeful, counted, solver, { ...options, timeLimitS: leftS });
    if (solution.choice !== null && missedServings(solution.aims) <= NOTHING_MISSED) return solution;
    leftS -= secondsOf(solution.aims);
  }
  const missing = weekModel(week, { shortageLate: true });
  const timeLimitS = Math.max(options.timeLimitS / 2, leftS);
  const again = await countsOf(missing, solver, { ...options, timeLimitS: timeLimitS * COUNTS_SHARE });
  const spentS = again === null ? 0 : secondsOf(again.aims);
  return onDays(missing, again, solver, { ...options, timeLimitS: timeLimitS - spentS });
}

/** A solver that tells progress on one clock, however many solves a week takes. */
function oneClock(solver: Solver): Solver {
  let beforeS = 0;
  return {
    version: solver.version,
    async solve(programme, aims, options) {
      const { onProgress, ...rest } = options;
      const outcome = await solver.solve(programme, aims, {
        ...rest,
        ...(onProgress === undefined
          ? {}
          : { onProgress: (progress) => onProgress({ ...progress, elapsedS: beforeS + progress.elapsedS }) }),
      });
      if (outcome.status === 'solved' || outcome.status === 'no-solution-in-time') beforeS += secondsOf(outcome.aims);
      return outcome;
    },
  };
}

/** Values and bounds of the aims over counts: no plan by days can do better. */
export interface WeekCounts {
  programme: CountProgramme;
  values: number[];
  aims: AimOutcome[];
}

/**
 * Solves a model over counts only: a bound for every aim, and nearly always what the week comes to.
 * @returns null when there was no solution in time
 */
export function countsOf(model: WeekModel, solver: Solver, options: SolveOptions): Promise<WeekCounts | null> {
  return solveCounts(countedModel(model), solver, options);
}

/** A model over counts, with all aims that counts can see: when something is missed is a question of days. */
function countedModel(model: WeekModel): CountProgramme {
  const aims = model.aims.filter((aim) => aim.name !== 'shortage-late');
  return countProgramme(model.programme, aims, model.orbits);
}

async function solveCounts(
  programme: CountProgramme,
  solver: Solver,
  options: SolveOptions,
): Promise<WeekCounts | null> {
  const outcome = await solveOrThrow(solver, programme.programme, programme.aims, options);
  if (outcome.status === 'infeasible')
    throw new Error('the week by counts is infeasible, which its slack columns rule out');
  if (outcome.status !== 'solved') return null;
  return { programme, values: outcome.values, aims: outcome.aims };
}

/**
 * Puts counts on days. Aims that the counts bound more tightly than the days could reach are then solved by days, those
 * before them held at their proven values; where the counts fit on no days at all, everything is.
 */
async function onDays(
  model: WeekModel,
  counts: WeekCounts | null,
  solver: Solver,
  options: SolveOptions,
): Promise<WeekSolution> {
  let leftS = options.timeLimitS;
  const nothing: WeekSolution = { choice: null, aims: [], stated: model.aims, proven: false, by: 'days' };
  const attempt = async (
    programme: IntegerProgramme,
    aims: Aim[],
    timeLimitS: number,
  ): Promise<{ values: number[]; aims: AimOutcome[] } | AimOutcome[] | null> => {
    const outcome = await solveOrThrow(solver, programme, aims, { ...options, timeLimitS: Math.max(1, timeLimitS) });
    if (outcome.status === 'infeasible') return null;
    leftS -= secondsOf(outcome.aims);
    return outcome.status === 'solved' ? { values: outcome.values, aims: outcome.aims } : outcome.aims;
  };
  let best = nothing;
  if (counts !== null) {
    for (const programme of [
      // How often is settled.
      withCounts(model.programme, counts.programme, counts.values, model.isCounted),
      // What is used is settled, how often is not.
      onlyWhatIsUsed(model, counts),
    ]) {
      const found = await attempt(programme, model.aims, leftS * PLACING_SHARE);
      if (found === null || Array.isArray(found)) continue;
      best = judged(model, found, counts.aims, null);
      break;
    }
  }
  if (best.proven) return best;
  const open = best.aims.findIndex((aim) => !aim.closed);
  const kept = best.aims.slice(0, Math.max(open, 0));
  const found = await attempt(heldAt(model, kept), model.aims.slice(kept.length), leftS);
  if (found === null) {
    if (kept.length > 0) return best;
    throw new Error('the week by days is infeasible, which its slack columns rule out');
  }
  if (Array.isArray(found)) return best.choice === null ? { ...best, aims: found } : best;
  const byDays = judged(model, found, counts?.aims ?? [], kept);
  return best.choice === null || byDays.proven || isBetter(byDays, best) ? byDays : best;
}

/** The programme by days with rows that hold its first aims at what was proven for them. */
export function heldAt(model: WeekModel, proven: readonly AimOutcome[]): IntegerProgramme {
  return withRows(
    model.programme,
    proven.map((outcome, index) => {
      const aim = model.aims[index] as Aim;
      return {
        name: `held_${index}`,
        lower: Number.NEGATIVE_INFINITY,
        upper: outcome.value + Math.max(aim.slack, HELD_ROOM),
        terms: aim.columns
          .map((column, at) => [column, aim.coefficients[at] as number] as const)
          .filter(([, coefficient]) => Math.abs(coefficient) > 1e-9),
      };
    }),
  );
}

/**
 * A plan with its bounds: of each aim the better of the bound over counts and that of its own solve, where the latter was
 * over all plans by days.
 * @param held first aims, proven before and held in this solve; null: a solve with settled counts, whose own bounds say
 *   nothing of other counts
 */
function judged(
  model: WeekModel,
  found: { values: number[]; aims: AimOutcome[] },
  overCounts: readonly AimOutcome[],
  held: readonly AimOutcome[] | null,
): WeekSolution {
  let asGoodAsCounts = true;
  const aims = model.aims.flatMap((aim, index): AimOutcome[] => {
    const before = held?.[index];
    if (before !== undefined) return [before];
    const own = found.aims.find((candidate) => candidate.name === aim.name);
    if (own === undefined) return [];
    const counted = overCounts.find((candidate) => candidate.name === aim.name);
    // A bound of the counts holds while every aim before was met as the counts met it.
    const bounds = [0, ...(counted !== undefined && asGoodAsCounts ? [counted.bound] : [])];
    // Arrangement is an aim of the days: proven for the counts, which have been proven before.
    if (held !== null || ARRANGED.has(aim.name)) bounds.push(own.bound);
    if (counted !== undefined && own.value > counted.value + Math.max(aim.slack, 1e-6)) asGoodAsCounts = false;
    const bound = Math.min(Math.max(...bounds), own.value);
    const seconds = own.seconds + (counted?.seconds ?? 0);
    return [{ ...own, bound, closed: isClosed(aim, own.value, bound), seconds }];
  });
  return {
    choice: model.read(found.values),
    aims,
    stated: model.aims,
    proven: aims.length === model.aims.length && aims.every((aim) => aim.closed),
    by: held === null ? 'counts' : 'days',
  };
}

function isClosed(aim: Aim, value: number, bound: number): boolean {
  return value - bound <= Math.max(aim.absoluteGap, aim.relativeGap * Math.abs(value)) + 1e-9;
}

/** Whether one plan comes before another by the first aim in which they differ beyond the tolerance. */
function isBetter(one: WeekSolution, other: WeekSolution): boolean {
  for (const aim of one.stated) {
    const a = one.aims.find((candidate) => candidate.name === aim.name)?.value;
    const b = other.aims.find((candidate) => candidate.name === aim.name)?.value;
    if (a === undefined || b === undefined) return b === undefined && a !== undefined;
    if (Math.abs(a - b) > Math.max(aim.absoluteGap, aim.relativeGap * Math.abs(b))) return a < b;
  }
  return false;
}

function boundOfMissed(aims: AimOutcome[]): number {
  return missedServings(aims.map((aim) => ({ ...aim, value: aim.bound })));
}

/** The programme by days without the ways, fires and tasks that the counts do not use. */
function onlyWhatIsUsed(model: WeekModel, counts: WeekCounts): IntegerProgramme {
  const { countOf } = counts.programme;
  return {
    ...model.programme,
    columnUpper: model.programme.columnUpper.map((upper, column) =>
      model.isCounted(column) && (counts.values[countOf[column] as number] as number) < 0.5 ? 0 : upper,
    ),
  };
}
