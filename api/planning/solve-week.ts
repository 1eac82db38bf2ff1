/**
 * The week solved: first how often each way is used (counts over days that are alike), then on which days. Counts give a
 * bound that no plan by days can beat; days that reach it are proven. Where they do not, the programme by days is solved
 * with what time is left, and the gap is told.
 */
import { countProgramme, withCounts } from './count-programme.ts';
import { missedServings, secondsOf } from './plan-proof.ts';
import type { Aim, AimOutcome, IntegerProgramme, SolveOptions, SolveOutcome, Solver } from './solver.ts';
import type { WeekChoice, WeekInstance } from './week-instance.ts';
import { type WeekModel, weekModel } from './week-model.ts';

/** Less missed than this is nothing missed, servings. */
export const NOTHING_MISSED = 0.02;
/** Share of the time limit that the counts may take, and that the days with settled counts may take after them. */
const COUNTS_SHARE = 0.5;
const PLACING_SHARE = 0.25;

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

/** The solver was stopped by whoever asked. */
export class SolveCancelledError extends Error {
  constructor() {
    super('solving was cancelled');
    this.name = 'SolveCancelledError';
  }
}

/**
 * Solves a week: in the hope that nothing need be missed, else aim by aim with shortages as late as possible.
 * @param options time limit for everything together, s
 * @throws SolveCancelledError; SolverBusyError; Error when the engine fails
 */
export async function solveWeek(week: WeekInstance, solver: Solver, options: SolveOptions): Promise<WeekSolution> {
  const hopeful = weekModel(week, { optimistic: true });
  const counted = await countsOf(hopeful, solver, { ...options, timeLimitS: options.timeLimitS * COUNTS_SHARE });
  // Counts are a relaxation: if even they miss something, so does every plan.
  const mustMiss = counted !== null && boundOfMissed(counted.aims) > NOTHING_MISSED;
  let leftS = options.timeLimitS - (counted === null ? 0 : secondsOf(counted.aims));
  if (!mustMiss) {
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

/** Values and bounds of the aims over counts: no plan by days can do better. */
export interface WeekCounts {
  programme: ReturnType<typeof countProgramme>;
  values: number[];
  aims: AimOutcome[];
}

/**
 * Solves a model over counts only: a bound for every aim, and nearly always what the week comes to.
 * @returns null when there was no solution in time
 */
export async function countsOf(model: WeekModel, solver: Solver, options: SolveOptions): Promise<WeekCounts | null> {
  // When something is missed is a question of days, which counts do not see.
  const aims = model.aims.filter((aim) => aim.name !== 'shortage-late');
  const programme = countProgramme(model.programme, aims, model.orbits);
  const outcome = await solver.solve(programme.programme, programme.aims, options);
  if (outcome.status === 'cancelled') throw new SolveCancelledError();
  if (outcome.status === 'infeasible')
    throw new Error('the week by counts is infeasible, which its slack columns rule out');
  if (outcome.status !== 'solved') return null;
  return { programme, values: outcome.values, aims: outcome.aims };
}

/** Puts counts on days; where that fails or leaves a gap, solves by days. */
async function onDays(
  model: WeekModel,
  counts: WeekCounts | null,
  solver: Solver,
  options: SolveOptions,
): Promise<WeekSolution> {
  let leftS = options.timeLimitS;
  let best: WeekSolution = { choice: null, aims: [], stated: model.aims, proven: false, by: 'days' };
  if (counts !== null) {
    for (const programme of [
      // How often is settled.
      withCounts(model.programme, counts.programme, counts.values, model.isCounted),
      // What is used is settled, how often is not.
      onlyWhatIsUsed(model, counts),
    ]) {
      const outcome = await solver.solve(programme, model.aims, {
        ...options,
        timeLimitS: Math.max(1, leftS * PLACING_SHARE),
      });
      if (outcome.status === 'cancelled') throw new SolveCancelledError();
      if (outcome.status === 'solved' || outcome.status === 'no-solution-in-time') leftS -= secondsOf(outcome.aims);
      if (outcome.status !== 'solved') continue;
      const solution = judged(model, outcome, counts.aims, 'counts');
      if (best.choice === null || isBetter(solution, best)) best = solution;
      if (best.proven) return best;
    }
  }
  const outcome = await solver.solve(model.programme, model.aims, { ...options, timeLimitS: Math.max(1, leftS) });
  if (outcome.status === 'cancelled') throw new SolveCancelledError();
  if (outcome.status === 'infeasible')
    throw new Error('the week by days is infeasible, which its slack columns rule out');
  if (outcome.status !== 'solved')
    return best.choice === null && outcome.status === 'no-solution-in-time' ? { ...best, aims: outcome.aims } : best;
  const byDays = judged(model, outcome, counts?.aims ?? [], 'days');
  return best.choice === null || byDays.proven || isBetter(byDays, best) ? byDays : best;
}

/**
 * A plan with the better of two bounds for each aim: that of the counts, and that of its own solve where it was over all
 * plans by days.
 */
function judged(
  model: WeekModel,
  outcome: Extract<SolveOutcome, { status: 'solved' }>,
  overCounts: readonly AimOutcome[],
  by: WeekSolution['by'],
): WeekSolution {
  let asGoodSoFar = true;
  const aims = model.aims.flatMap((aim): AimOutcome[] => {
    const own = outcome.aims.find((candidate) => candidate.name === aim.name);
    if (own === undefined) return [];
    const counted = overCounts.find((candidate) => candidate.name === aim.name);
    // A bound of the counts holds while every aim before was met as the counts met it.
    const countedBound = counted !== undefined && asGoodSoFar ? counted.bound : Number.NEGATIVE_INFINITY;
    // When something is missed is placed within the counts: better days for other counts are not looked for.
    const ownBound = by === 'days' || aim.name === 'shortage-late' ? own.bound : Number.NEGATIVE_INFINITY;
    const bound = Math.max(countedBound, ownBound, 0);
    const closed = isClosed(aim, own.value, bound);
    if (counted !== undefined && own.value > counted.value + Math.max(aim.slack, 1e-6)) asGoodSoFar = false;
    return [{ ...own, bound: Math.min(bound, own.value), closed, seconds: own.seconds + (counted?.seconds ?? 0) }];
  });
  return {
    choice: model.read(outcome.values),
    aims,
    stated: model.aims,
    proven: aims.length === model.aims.length && aims.every((aim) => aim.closed),
    by,
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
