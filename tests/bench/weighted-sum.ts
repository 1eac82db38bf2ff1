/** The naive formulation that the planner is measured against: every aim in one weighted sum, solved once. */
import type { Aim, IntegerProgramme } from '../../api/planning/solver.ts';

/** What one unit of each aim weighs: people fed before warm meals before fuel before variety and hands. */
const WEIGHTS: Readonly<Record<string, number>> = {
  service: 1e4,
  'feed-everyone': 1e4,
  energy: 1e2,
  'hot-meals': 1e2,
  'shortage-late': 1,
  'scarcest-largest-share': 10,
  'scarcest-sum-of-shares': 1,
  // Minutes, with a repeat as more than 1,000 of them.
  'variety-then-tending': 1e-6,
};

/**
 * One aim for all.
 * @param aims the ordered aims of a week
 * @param gap when it counts as proven: `relative` of the whole sum, or `absolute` in its unit
 * @throws Error for an aim without a weight
 */
export function weightedSum(aims: Aim[], gap: { relative: number; absolute: number }): Aim {
  const costs = new Map<number, number>();
  for (const aim of aims) {
    const weight = WEIGHTS[aim.name];
    if (weight === undefined) throw new Error(`no weight for the aim ${aim.name}`);
    aim.columns.forEach((column, at) => {
      costs.set(column, (costs.get(column) ?? 0) + weight * (aim.coefficients[at] as number));
    });
  }
  return {
    name: 'weighted-sum',
    columns: [...costs.keys()],
    coefficients: [...costs.values()],
    absoluteGap: gap.absolute,
    relativeGap: gap.relative,
    slack: 0,
  };
}

/**
 * The same plans, stated as they first come to mind: what is cooked on a fire needs it lit, said once for every way of
 * cooking instead of once for a meal's ways together.
 * @param programme a week as `week-model.ts` states it; its rows named `lit_` are taken apart
 */
export function litWayByWay(programme: IntegerProgramme): IntegerProgramme {
  const naive: IntegerProgramme = {
    ...programme,
    rowNames: [],
    rowLower: [],
    rowUpper: [],
    starts: [0],
    columns: [],
    coefficients: [],
  };
  const add = (row: number, at: number[]) => {
    naive.rowNames.push(`r${naive.rowNames.length}`);
    naive.rowLower.push(programme.rowLower[row] as number);
    naive.rowUpper.push(programme.rowUpper[row] as number);
    for (const entry of at) {
      naive.columns.push(programme.columns[entry] as number);
      naive.coefficients.push(programme.coefficients[entry] as number);
    }
    naive.starts.push(naive.columns.length);
  };
  for (const [row, name] of programme.rowNames.entries()) {
    const first = programme.starts[row] as number;
    const entries = Array.from({ length: (programme.starts[row + 1] as number) - first }, (_, index) => first + index);
    const isWay = (entry: number) => (programme.coefficients[entry] as number) > 0;
    if (!/^r\d+_lit_/.test(name)) {
      add(row, entries);
      continue;
    }
    const fire = entries.filter((entry) => !isWay(entry));
    for (const way of entries.filter(isWay)) add(row, [way, ...fire]);
  }
  return naive;
}
