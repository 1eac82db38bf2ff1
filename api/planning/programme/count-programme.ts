/**
 * From a programme by days to one by counts and back. Days that are alike make an integer programme hard: every plan has
 * as many twins as the days can be exchanged. Columns that are alike but for their day are replaced by one column that
 * counts how often; rows that say the same of different days are added up. What comes out is a relaxation: every plan by
 * days gives counts of the same value, so that a bound for the counts is a bound for the plan. Nothing here knows of food.
 */
import type { Aim, IntegerProgramme } from '../solver.ts';
import { pushRow, withRows } from './with-rows.ts';

/** Names of the orbits: things of the same name are alike but for the day they stand on. */
export interface Orbits {
  columns: string[];
  rows: string[];
}

export interface CountProgramme {
  programme: IntegerProgramme;
  aims: Aim[];
  /** Column of the counts for each column of the programme by days. */
  countOf: number[];
}

/** Bounds from here on count as none; the models write 1e6 where a row has only one side. */
const UNBOUNDED = 1e5;

/**
 * Adds up a programme over its orbits.
 *
 * A row that treats columns of one orbit differently (fuel so far, on a day in the middle of them) takes the smallest
 * coefficient for its upper and the largest for its lower bound: weaker than the row by days, never stronger. An aim takes
 * the smallest coefficient.
 * @param programme by days
 * @param orbits of its columns and rows; columns of one orbit are all whole numbers or all not
 */
export function countProgramme(programme: IntegerProgramme, aims: readonly Aim[], orbits: Orbits): CountProgramme {
  const members = membersOf(orbits.columns);
  const countOf = new Array<number>(programme.columnNames.length);
  members.forEach((columns, index) => {
    for (const column of columns) countOf[column] = index;
  });
  const out: IntegerProgramme = {
    columnNames: members.map((columns, index) => `n${index}_${programme.columnNames[columns[0] as number]}`),
    rowNames: [],
    columnLower: members.map((columns) => sumOf(columns, programme.columnLower)),
    columnUpper: members.map((columns) => sumOf(columns, programme.columnUpper)),
    isInteger: members.map((columns) => programme.isInteger[columns[0] as number] as boolean),
    starts: [0],
    columns: [],
    coefficients: [],
    rowLower: [],
    rowUpper: [],
  };
  for (const rows of membersOf(orbits.rows)) {
    const lower = boundOf(rows, programme.rowLower, -1);
    const upper = boundOf(rows, programme.rowUpper, 1);
    const sums = new Map<number, number>();
    for (const row of rows) {
      for (let at = programme.starts[row] as number; at < (programme.starts[row + 1] as number); at += 1) {
        const column = programme.columns[at] as number;
        sums.set(column, (sums.get(column) ?? 0) + (programme.coefficients[at] as number));
      }
    }
    const { least, most } = extremes(sums, countOf, members);
    const name = programme.rowNames[rows[0] as number] as string;
    const alike = [...least].every(([column, value]) => Math.abs(value - (most.get(column) as number)) <= 1e-9);
    if (alike) pushSum(out, name, lower, upper, least);
    else {
      if (Number.isFinite(upper)) pushSum(out, `${name}_most`, Number.NEGATIVE_INFINITY, upper, least);
      if (Number.isFinite(lower)) pushSum(out, `${name}_least`, lower, Number.POSITIVE_INFINITY, most);
    }
  }
  return {
    programme: out,
    aims: aims.map((aim) => {
      const own = new Map(aim.columns.map((column, at) => [column, aim.coefficients[at] as number]));
      const { least } = extremes(own, countOf, members);
      const kept = [...least].filter(([, value]) => value !== 0);
      return { ...aim, columns: kept.map(([column]) => column), coefficients: kept.map(([, value]) => value) };
    }),
    countOf,
  };
}

/**
 * The programme by days with the counts of some columns fixed: how often is settled, on which days is not. Columns whose
 * count is 0 are left out by an upper bound of 0.
 * @param counts value of every column of the count programme
 * @param isCounted whether a column by days is one whose count is fixed
 */
export function withCounts(
  programme: IntegerProgramme,
  { countOf, programme: counted }: CountProgramme,
  counts: readonly number[],
  isCounted: (column: number) => boolean,
): IntegerProgramme {
  const members = new Map<number, number[]>();
  const columnUpper = [...programme.columnUpper];
  countOf.forEach((count, column) => {
    if (!isCounted(column)) return;
    if (Math.round(counts[count] as number) === 0) columnUpper[column] = 0;
    else members.set(count, [...(members.get(count) ?? []), column]);
  });
  return withRows(
    { ...programme, columnUpper },
    [...members].map(([count, columns]) => {
      const times = Math.round(counts[count] as number);
      const name = `count_${counted.columnNames[count]}`;
      return { name, lower: times, upper: times, terms: columns.map((column) => [column, 1] as const) };
    }),
  );
}

function membersOf(orbits: readonly string[]): number[][] {
  const members = new Map<string, number[]>();
  orbits.forEach((orbit, index) => {
    const own = members.get(orbit);
    if (own === undefined) members.set(orbit, [index]);
    else own.push(index);
  });
  return [...members.values()];
}

/** Least and most coefficient over all members of every orbit that has one. */
function extremes(
  values: ReadonlyMap<number, number>,
  countOf: readonly number[],
  members: readonly number[][],
): { least: Map<number, number>; most: Map<number, number> } {
  const least = new Map<number, number>();
  const most = new Map<number, number>();
  const seen = new Map<number, number>();
  for (const [column, value] of values) {
    const count = countOf[column] as number;
    least.set(count, Math.min(least.get(count) ?? value, value));
    most.set(count, Math.max(most.get(count) ?? value, value));
    seen.set(count, (seen.get(count) ?? 0) + 1);
  }
  for (const [count, number] of seen) {
    if (number === (members[count] as number[]).length) continue;
    least.set(count, Math.min(least.get(count) as number, 0));
    most.set(count, Math.max(most.get(count) as number, 0));
  }
  return { least, most };
}

function sumOf(indices: readonly number[], values: readonly number[]): number {
  return indices.reduce((sum, index) => sum + (values[index] as number), 0);
}

function boundOf(rows: readonly number[], values: readonly number[], side: 1 | -1): number {
  if (rows.some((row) => side * (values[row] as number) >= UNBOUNDED)) return side * Number.POSITIVE_INFINITY;
  return sumOf(rows, values);
}

function pushSum(
  out: IntegerProgramme,
  name: string,
  lower: number,
  upper: number,
  terms: ReadonlyMap<number, number>,
): void {
  const kept = [...terms].filter(([, value]) => Math.abs(value) > 1e-9);
  if (kept.length === 0) return;
  pushRow(out, { name: `c${out.rowNames.length}_${name}`, lower, upper, terms: kept });
}
