/**
 * The naive formulation that the planner is measured against: a binary for every day, slot, kit and way, fires lit way by
 * way, none of the rows that only make proofs come sooner, every aim in one weighted sum, one solve.
 */

import { weekModel } from '../../api/planning/programme/week-model.ts';
import type { IntegerProgramme, Solver } from '../../api/planning/solver.ts';
import type { WeekInstance } from '../../api/planning/week/week-instance.ts';
import { litWayByWay, weightedSum } from './weighted-sum.ts';

/** Rows that say nothing new and are left out here: pots and pairs on one fire, repeats of the plan as a whole. */
const ROWS_THAT_FOLLOW = /^r\d+_(pot|together|cover)_/;

export interface NaiveOutcome {
  seconds: number;
  proven: boolean;
  columns: number;
}

/**
 * Solves a week as it first comes to mind, to the same half percent.
 * @param limitS s after which it is stopped
 */
export async function solveNaively(week: WeekInstance, solver: Solver, limitS: number): Promise<NaiveOutcome> {
  const model = weekModel(week);
  const programme = litWayByWay(withoutRows(model.programme, ROWS_THAT_FOLLOW));
  const startedAt = performance.now();
  const outcome = await solver.solve(programme, [weightedSum(model.aims, { relative: 0.005, absolute: 1e-9 })], {
    timeLimitS: limitS,
  });
  return {
    seconds: (performance.now() - startedAt) / 1000,
    proven: outcome.status === 'solved' && outcome.closed,
    columns: programme.columnNames.length,
  };
}

function withoutRows(programme: IntegerProgramme, names: RegExp): IntegerProgramme {
  const out: IntegerProgramme = {
    ...programme,
    rowNames: [],
    rowLower: [],
    rowUpper: [],
    starts: [0],
    columns: [],
    coefficients: [],
  };
  programme.rowNames.forEach((name, row) => {
    if (names.test(name)) return;
    out.rowNames.push(name);
    out.rowLower.push(programme.rowLower[row] as number);
    out.rowUpper.push(programme.rowUpper[row] as number);
    for (let at = programme.starts[row] as number; at < (programme.starts[row + 1] as number); at += 1) {
      out.columns.push(programme.columns[at] as number);
      out.coefficients.push(programme.coefficients[at] as number);
    }
    out.starts.push(out.columns.length);
  });
  return out;
}
