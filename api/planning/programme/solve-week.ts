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
import { type Row, withRows } from './with-rows.ts';
import { withoutUnused } from './without-unused.ts';

/** Less missed than this is nothing missed, servings. */
export const NOTHING_MISSED = 0.02;
/** Share of the time limit that the counts may take, and that the days with settled counts may take after them. */
const COUNTS_SHARE = 0.6;
const PLACING_SHARE = 0.25;
/** Share of the time left that the counts may take for one bound, and the days for one aim. */
const BOUND_SHARE = 0.3;
const AIM_SHARE = 0.5;
/**
 * The aim that is taken when it is settled how often each way is used: which dish follows which. The least that any counts
 * allow is an aim of the counts too.
 */
const ARRANGED: ReadonlySet<string> = new Set(['variety-then-tending']);
/** Room of a row that holds an aim: ten times the room in which the engine itself takes a row as kept. */
const HELD_ROOM = 1e-5;

export interface WeekSolution {
  /** null: no plan was found in time. */
  choice: WeekChoice | null;
  /** Of the columns of the programme by days; absent without a plan. */
  values?: number[];
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

/**
 * A model over counts, with all its aims. When something is missed they see too, so that a first evening for which nothing
 * can be soaked any more is not missed to spare fuel.
 */
function countedModel(model: WeekModel): CountProgramme {
  return countProgramme(model.programme, model.aims, model.orbits);
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
 * Puts counts on days. Where that does not prove every aim, the aims are solved by days one after the other, each beside
 * its bound over counts.
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
    const used = withoutUnused(programme, aims);
    const outcome = await solveOrThrow(solver, used.programme, used.aims, {
      ...options,
      timeLimitS: Math.max(1, timeLimitS),
    });
    if (outcome.status === 'infeasible') return null;
    leftS -= secondsOf(outcome.aims);
    return outcome.status === 'solved' ? { values: used.expand(outcome.values), aims: outcome.aims } : outcome.aims;
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
      best = judged(model, found, counts.aims, true);
      break;
    }
  }
  if (best.proven) return best;
  if (counts !== null) {
    const beside = await besideCounts(model, counts.programme, best, solver, { ...options, timeLimitS: leftS });
    return beside === null ? best : beside.proven || best.choice === null || isBetter(beside, best) ? beside : best;
  }
  const found = await attempt(model.programme, model.aims, leftS);
  if (found === null) throw new Error('the week by days is infeasible, which its slack columns rule out');
  return Array.isArray(found) ? { ...best, aims: found } : judged(model, found, [], false);
}

/**
 * Aim by aim by days, each beside its bound over counts: the counts are held at what the days have come to, so that their
 * least is a bound for these very days, and the days need not search on once they are within the tolerance of it.
 * @param begun a plan in hand, whose first aims may already be within theirs
 * @returns null when there was no plan in time
 */
async function besideCounts(
  model: WeekModel,
  counted: CountProgramme,
  begun: WeekSolution,
  solver: Solver,
  options: SolveOptions,
): Promise<WeekSolution | null> {
  let leftS = options.timeLimitS;
  const solveOne = async (programme: IntegerProgramme, aim: Aim, share: number) => {
    const timeLimitS = Math.max(0.2, leftS * share);
    const outcome = await solveOrThrow(solver, programme, [aim], { ...options, timeLimitS });
    if (outcome.status === 'infeasible') return null;
    leftS -= secondsOf(outcome.aims);
    return { own: outcome.aims[0], values: outcome.status === 'solved' ? outcome.values : null };
  };
  let values = begun.values ?? null;
  const aims: AimOutcome[] = [];
  for (const [index, aim] of model.aims.entries()) {
    const overCounts = counted.aims.find((one) => one.name === aim.name);
    const known = begun.aims[index];
    const asBegun = aims.every((outcome, at) => outcome.value === begun.aims[at]?.value);
    let bound = Math.max(0, asBegun && known?.closed ? known.bound : 0);
    let seconds = 0;
    const valueNow = () => (values === null ? Number.POSITIVE_INFINITY : valueOfAim(aim, values));
    if (overCounts !== undefined && !isClosed(aim, valueNow(), bound)) {
      const held = withRows(counted.programme, heldRows(counted.aims, aims));
      const found = await solveOne(held, overCounts, BOUND_SHARE);
      bound = Math.max(bound, found?.own?.bound ?? 0);
      seconds += found?.own?.seconds ?? 0;
    }
    if (!isClosed(aim, valueNow(), bound) && leftS > 0) {
      const goodEnough = bound + Math.max(aim.absoluteGap, aim.relativeGap * Math.abs(bound));
      const last = index === model.aims.length - 1;
      const found = await solveOne(heldAt(model, aims), { ...aim, goodEnough }, last ? 1 : AIM_SHARE);
      seconds += found?.own?.seconds ?? 0;
      bound = Math.max(bound, found?.own?.bound ?? 0);
      if (found?.values && valueOfAim(aim, found.values) <= valueNow()) values = found.values;
    }
    if (values === null) return null;
    const value = Math.max(valueNow(), 0);
    bound = Math.min(bound, value);
    aims.push({ name: aim.name, value, bound, closed: isClosed(aim, value, bound), seconds, nodes: 0 });
  }
  if (values === null) return null;
  return {
    choice: model.read(values),
    values,
    aims,
    stated: model.aims,
    proven: aims.every((aim) => aim.closed),
    by: 'days',
  };
}

function valueOfAim(aim: Aim, values: readonly number[]): number {
  const sum = aim.columns.reduce((total, column, at) => {
    return total + (aim.coefficients[at] as number) * (values[column] as number);
  }, 0);
  return Math.abs(sum - Math.round(sum)) < 1e-9 ? Math.round(sum) : sum;
}

/** Rows that hold aims at what they have come to. */
function heldRows(aims: readonly Aim[], outcomes: readonly AimOutcome[]): Row[] {
  return outcomes.flatMap((outcome, index) => {
    const aim = aims.find(({ name }) => name === outcome.name);
    if (aim === undefined) return [];
    return [
      {
        name: `held_${index}`,
        lower: Number.NEGATIVE_INFINITY,
        upper: outcome.value + Math.max(aim.slack, HELD_ROOM),
        terms: aim.columns
          .map((column, at) => [column, aim.coefficients[at] as number] as const)
          .filter(([, coefficient]) => Math.abs(coefficient) > 1e-9),
      },
    ];
  });
}

/** The programme by days with rows that hold its first aims at what was proven for them. */
export function heldAt(model: WeekModel, proven: readonly AimOutcome[]): IntegerProgramme {
  return withRows(model.programme, heldRows(model.aims, proven));
}

/**
 * A plan with its bounds: of each aim the better of the bound over counts and that of its own solve, where the latter was
 * over all plans by days.
 * @param settled whether the counts were settled in this solve, so that its own bounds say nothing of other counts
 */
function judged(
  model: WeekModel,
  found: { values: number[]; aims: AimOutcome[] },
  overCounts: readonly AimOutcome[],
  settled: boolean,
): WeekSolution {
  let asGoodAsCounts = true;
  const aims = model.aims.flatMap((aim): AimOutcome[] => {
    const own = found.aims.find((candidate) => candidate.name === aim.name);
    if (own === undefined) return [];
    const counted = overCounts.find((candidate) => candidate.name === aim.name);
    // A bound of the counts holds while every aim before was met as the counts met it.
    const bounds = [0, ...(counted !== undefined && asGoodAsCounts ? [counted.bound] : [])];
    // Arrangement is an aim of the days: proven for the counts, which have been proven before.
    if (!settled || ARRANGED.has(aim.name)) bounds.push(own.bound);
    if (counted !== undefined && own.value > counted.value + Math.max(aim.slack, 1e-6)) asGoodAsCounts = false;
    const bound = Math.min(Math.max(...bounds), own.value);
    const seconds = own.seconds + (counted?.seconds ?? 0);
    return [{ ...own, bound, closed: isClosed(aim, own.value, bound), seconds }];
  });
  return {
    choice: model.read(found.values),
    values: found.values,
    aims,
    stated: model.aims,
    proven: aims.length === model.aims.length && aims.every((aim) => aim.closed),
    by: settled ? 'counts' : 'days',
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
