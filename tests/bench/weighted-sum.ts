/** The naive formulation that the planner is measured against: every aim in one weighted sum, solved once. */
import type { Aim } from '../../api/planning/solver.ts';

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
 * @param relativeGap when it counts as proven. 0.005 is the widest that any ordered aim but the last is given, here of the
 *   whole sum, so that the naive form is let off lighter, not harder
 * @throws Error for an aim without a weight
 */
export function weightedSum(aims: Aim[], relativeGap: number): Aim {
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
    absoluteGap: 1e-9,
    relativeGap,
    slack: 0,
  };
}
