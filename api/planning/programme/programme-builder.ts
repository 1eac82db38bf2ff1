/** Builds an integer programme in arrays: named columns and rows, terms merged, nothing that is not finite let through. */

import type { Aim, IntegerProgramme } from '../solver.ts';
import type { Orbits } from './count-programme.ts';

export interface ProgrammeBuilder {
  /**
   * Adds a column and returns its index.
   * @param orbit columns of one orbit are alike but for the day they stand on; own name: alone
   */
  column(name: string, lower: number, upper: number, integer: boolean, orbit?: string): number;
  /**
   * Adds `lower <= sum terms <= upper`; a row without terms is left out when 0 satisfies it.
   * @param orbit rows of one orbit say the same of different days
   */
  row(name: string, lower: number, upper: number, terms: [column: number, coefficient: number][], orbit?: string): void;
  programme(): IntegerProgramme;
  /** Orbit of every column and row, in their order. */
  orbits(): Orbits;
}

/**
 * @throws Error when a coefficient is not finite, when bounds cross, or when a row without terms cannot hold: each is a
 *   fault of the model, not of the household
 */
export function createProgrammeBuilder(): ProgrammeBuilder {
  const columnNames: string[] = [];
  const columnLower: number[] = [];
  const columnUpper: number[] = [];
  const isInteger: boolean[] = [];
  const rowNames: string[] = [];
  const rowLower: number[] = [];
  const rowUpper: number[] = [];
  const starts: number[] = [0];
  const columns: number[] = [];
  const coefficients: number[] = [];
  const columnOrbits: string[] = [];
  const rowOrbits: string[] = [];
  return {
    column(name, lower, upper, integer, orbit = `own ${name}`) {
      if (!(lower <= upper)) throw new Error(`column ${name}: bounds ${lower} to ${upper} cross`);
      columnNames.push(safeName('x', columnNames.length, name));
      columnLower.push(lower);
      columnUpper.push(upper);
      isInteger.push(integer);
      columnOrbits.push(orbit);
      return columnNames.length - 1;
    },
    row(name, lower, upper, terms, orbit = `own ${name}`) {
      const merged = new Map<number, number>();
      for (const [column, coefficient] of terms) {
        if (!Number.isFinite(coefficient)) throw new Error(`row ${name}: coefficient ${coefficient}`);
        merged.set(column, (merged.get(column) ?? 0) + coefficient);
      }
      const kept = [...merged].filter(([, coefficient]) => Math.abs(coefficient) > 1e-9);
      if (kept.length === 0) {
        if (lower > 1e-9 || upper < -1e-9) throw new Error(`row ${name} is empty and cannot hold`);
        return;
      }
      rowNames.push(safeName('r', rowNames.length, name));
      rowLower.push(lower);
      rowUpper.push(upper);
      rowOrbits.push(orbit);
      for (const [column, coefficient] of kept) {
        columns.push(column);
        coefficients.push(coefficient);
      }
      starts.push(columns.length);
    },
    programme: () => ({
      columnNames,
      rowNames,
      columnLower,
      columnUpper,
      isInteger,
      starts,
      columns,
      coefficients,
      rowLower,
      rowUpper,
    }),
    orbits: () => ({ columns: columnOrbits, rows: rowOrbits }),
  };
}

/** Minimise the sum of the terms. */
export function aim(
  name: string,
  terms: [column: number, coefficient: number][],
  stop: { absoluteGap: number; relativeGap: number; slack: number },
): Aim {
  const merged = new Map<number, number>();
  for (const [column, coefficient] of terms) merged.set(column, (merged.get(column) ?? 0) + coefficient);
  return { name, columns: [...merged.keys()], coefficients: [...merged.values()], ...stop };
}

/** Solver-safe name: a letter, a number, and the readable part for diagnosis. */
function safeName(letter: string, index: number, name: string): string {
  return `${letter}${index}_${name.replace(/[^A-Za-z0-9_]/g, '_')}`;
}
