/**
 * Whether a week can feed everybody at all, asked of counts: much sooner answered than a plan is made, and a "no" holds
 * for every plan by days.
 */

import { sum } from '../rounding.ts';
import { type Aim, type IntegerProgramme, type SolveOptions, type Solver, solveOrThrow } from '../solver.ts';
import { type CountProgramme, countProgramme } from './count-programme.ts';
import { type LimitGroup, type PricedLimit, withExtras, withoutLimits } from './limit-groups.ts';
import { aim } from './programme-builder.ts';
import type { WeekModel } from './week-model.ts';

/** Everybody is fed; or fed, and hot wherever hot was wanted, with the hot water of every day. */
export type Demand = 'fed' | 'fed-hot';

export interface ServeQuestion {
  demand: Demand;
  /** Limits that do not hold. */
  without?: readonly LimitGroup[];
  /** Limits that may be exceeded at a price: the least that is paid is looked for. */
  extras?: readonly PricedLimit[];
}

export interface ServeAnswer {
  /** null: not found out in time. */
  possible: boolean | null;
  /** Amount by which each of the extras is exceeded, in the order and unit of the question. */
  extras: number[];
  /** Whole sets of each kit among the extras. */
  sets: { kitId: string; sets: number }[];
  counts: { programme: CountProgramme; values: number[] } | null;
}

/**
 * Asks whether a week can serve what is demanded, over counts.
 * @param model of the week, stated without relaxation
 * @param options time limit for this question, s
 * @returns `possible` false is proven for every plan by days; true is nearly always so
 * @throws SolveCancelledError; SolverBusyError; Error when the engine fails
 */
export async function canServe(
  model: WeekModel,
  question: ServeQuestion,
  solver: Solver,
  options: SolveOptions,
): Promise<ServeAnswer> {
  const priced = question.extras ?? [];
  const { model: relaxed, extras } = withExtras(
    withoutLimits(model, question.without ?? []),
    priced.map(({ group }) => group),
  );
  const programme = served(relaxed, question.demand);
  const paid = extras.flatMap((columns, at) =>
    columns.map(({ column }): [number, number] => [column, priced[at]?.price as number]),
  );
  const goal =
    paid.length === 0 ? anyPlan(model) : aim('extra', paid, { absoluteGap: 1e-4, relativeGap: 0.005, slack: 1e-6 });
  const counted = countProgramme(programme, [goal], relaxed.orbits);
  const outcome = await solveOrThrow(solver, counted.programme, counted.aims, options);
  if (outcome.status === 'infeasible') return { possible: false, extras: [], sets: [], counts: null };
  if (outcome.status !== 'solved') return { possible: null, extras: [], sets: [], counts: null };
  const amountOf = (column: number) => outcome.values[counted.countOf[column] as number] as number;
  return {
    possible: true,
    extras: extras.map((own) => sum(own, ({ column }) => amountOf(column))),
    sets: extras.flat().flatMap(({ column, kitId }) => {
      const sets = Math.round(amountOf(column));
      return kitId === null || sets === 0 ? [] : [{ kitId, sets }];
    }),
    counts: { programme: counted, values: outcome.values },
  };
}

/** Aims that must come to nothing where everybody is fed, and where all is hot as well. */
const FED_AIMS: ReadonlySet<string> = new Set(['safe-water', 'night-feeds', 'feed-everyone']);
const HOT_AIM = 'hot-meals';

/** The programme in which nothing that is demanded may be missed. */
export function served(model: WeekModel, demand: Demand): IntegerProgramme {
  const none = new Set(
    model.aims
      .filter(({ name }) => FED_AIMS.has(name) || (demand === 'fed-hot' && name === HOT_AIM))
      .flatMap(({ columns }) => columns),
  );
  return {
    ...model.programme,
    columnUpper: model.programme.columnUpper.map((upper, column) => (none.has(column) ? 0 : upper)),
  };
}

/** The aim of who asks whether there is a plan at all: any will do, and the first one found closes it. */
export function anyPlan(model: WeekModel): Aim {
  return aim('served', [[model.columns.short[0] ?? 0, 1]], { absoluteGap: 1, relativeGap: 1, slack: 0 });
}
