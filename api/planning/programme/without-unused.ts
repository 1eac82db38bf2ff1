/**
 * A programme without its columns that can only be nothing. Where it is settled how often each way is used, most ways of a
 * long week are used never, and an engine is handed tens of thousands of columns for a few hundred.
 */
import type { Aim, IntegerProgramme } from '../solver.ts';
import { pushRow } from './with-rows.ts';

export interface UsedProgramme {
  programme: IntegerProgramme;
  aims: Aim[];
  /** Values of the small programme as values of the one that was handed in. */
  expand(values: readonly number[]): number[];
}

/** The same programme and aims over the columns whose bounds are not both nothing. Rows keep their order and names. */
export function withoutUnused(programme: IntegerProgramme, aims: readonly Aim[]): UsedProgramme {
  const kept: number[] = [];
  const place = new Map<number, number>();
  programme.columnNames.forEach((_, column) => {
    if (programme.columnLower[column] === 0 && programme.columnUpper[column] === 0) return;
    place.set(column, kept.length);
    kept.push(column);
  });
  const of = <Value>(values: readonly Value[]): Value[] => kept.map((column) => values[column] as Value);
  const out: IntegerProgramme = {
    columnNames: of(programme.columnNames),
    rowNames: [],
    columnLower: of(programme.columnLower),
    columnUpper: of(programme.columnUpper),
    isInteger: of(programme.isInteger),
    starts: [0],
    columns: [],
    coefficients: [],
    rowLower: [],
    rowUpper: [],
  };
  programme.rowNames.forEach((name, row) => {
    const terms: [number, number][] = [];
    for (let at = programme.starts[row] as number; at < (programme.starts[row + 1] as number); at += 1) {
      const column = place.get(programme.columns[at] as number);
      if (column !== undefined) terms.push([column, programme.coefficients[at] as number]);
    }
    const [lower, upper] = [programme.rowLower[row] as number, programme.rowUpper[row] as number];
    // A row of nothing that asks for something stays: the engine is to say that it cannot be.
    if (terms.length > 0 || lower > 0 || upper < 0) pushRow(out, { name, lower, upper, terms });
  });
  return {
    programme: out,
    aims: aims.map((aim) => {
      const terms = aim.columns.flatMap((column, at): [number, number][] => {
        const here = place.get(column);
        return here === undefined ? [] : [[here, aim.coefficients[at] as number]];
      });
      return { ...aim, columns: terms.map(([column]) => column), coefficients: terms.map(([, value]) => value) };
    }),
    expand(values) {
      const all = new Array<number>(programme.columnNames.length).fill(0);
      kept.forEach((column, at) => {
        all[column] = values[at] as number;
      });
      return all;
    },
  };
}
