/** A programme with more rows, and the programme that was handed in left as it was. */
import type { IntegerProgramme } from '../solver.ts';

export interface Row {
  /** For diagnosis. */
  name: string;
  lower: number;
  upper: number;
  /** No column twice. */
  terms: readonly (readonly [column: number, coefficient: number])[];
}

/** Adds rows at the end, in their order. */
export function withRows(programme: IntegerProgramme, rows: readonly Row[]): IntegerProgramme {
  const out: IntegerProgramme = {
    ...programme,
    rowNames: [...programme.rowNames],
    starts: [...programme.starts],
    columns: [...programme.columns],
    coefficients: [...programme.coefficients],
    rowLower: [...programme.rowLower],
    rowUpper: [...programme.rowUpper],
  };
  for (const row of rows) pushRow(out, row);
  return out;
}

/** Adds a row to a programme that is being made. */
export function pushRow(out: IntegerProgramme, { name, lower, upper, terms }: Row): void {
  out.rowNames.push(name);
  out.rowLower.push(lower);
  out.rowUpper.push(upper);
  for (const [column, coefficient] of terms) {
    out.columns.push(column);
    out.coefficients.push(coefficient);
  }
  out.starts.push(out.columns.length);
}
