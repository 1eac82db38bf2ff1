/**
 * The limits of a week as people name them, and which rows of the programme state each: so that one limit can be let go,
 * or exceeded at a price, without stating the week anew.
 */

import type { IntegerProgramme } from '../solver.ts';
import type { Orbits } from './count-programme.ts';
import type { WeekModel } from './week-model.ts';

export type LimitGroup =
  | { kind: 'fuel'; fuelId: string }
  | { kind: 'water' }
  /** Sets on hand of all kits. */
  | { kind: 'sets' }
  /** Fires a day. */
  | { kind: 'fires' }
  /** Minutes outdoors a day. */
  | { kind: 'outdoors' }
  /** Minutes that a fire has before its meal, and the fill of a burner without a valve. */
  | { kind: 'clock' }
  /** Nothing is taken twice at once: all pots, bowls, boxes and flasks, or one of them. */
  | { kind: 'things' }
  | { kind: 'thing'; id: string };

/** Limits that can be exceeded by an amount, with what is paid for one unit of it. */
export interface PricedLimit {
  group: Extract<LimitGroup, { kind: 'fuel' | 'water' | 'sets' | 'fires' | 'outdoors' }>;
  /** Per kg (kWh), L, set, fire a day, or minute a day; above 0. */
  price: number;
}

/** An upper bound from here on is none. */
const NO_LIMIT = 1e6;
/** More than anybody could have, in the unit of the limit. */
const MOST_EXTRA = 1e5;

/**
 * Whether a row of a week's programme belongs to a limit.
 * @param rowName as the programme builder writes it: a number, what the row says, and of which day or thing
 */
export function isRowOf(group: LimitGroup, rowName: string): boolean {
  const name = rowName.replace(/^r\d+_/, '');
  switch (group.kind) {
    case 'fuel':
      return new RegExp(`^fuel_${asInNames(group.fuelId)}_\\d+$`).test(name);
    case 'water':
      return /^(all_)?water_\d+$|^safe_at_/.test(name);
    case 'sets':
      return /^(sets|good)_/.test(name);
    case 'fires':
      return /^lightings_\d+$/.test(name);
    case 'outdoors':
      return /^outdoor_minutes_\d+$/.test(name);
    case 'clock':
      return /^(minutes|together|fill)_/.test(name);
    case 'things':
      return /^(taken|pot|rivals)_/.test(name);
    case 'thing':
      return new RegExp(`^(taken|pot|rivals)_(.*_)?${asInNames(group.id)}(_\\d+)?$`).test(name);
  }
}

/**
 * The week without some of its limits.
 * @returns a model with the same columns and rows, the rows of these limits without effect
 */
export function withoutLimits(model: WeekModel, groups: readonly LimitGroup[]): WeekModel {
  if (groups.length === 0) return model;
  const rows = model.programme.rowNames.map((name) => groups.some((group) => isRowOf(group, name)));
  return {
    ...model,
    programme: {
      ...model.programme,
      rowLower: model.programme.rowLower.map((bound, row) => (rows[row] ? -NO_LIMIT : bound)),
      rowUpper: model.programme.rowUpper.map((bound, row) => (rows[row] ? NO_LIMIT : bound)),
    },
  };
}

/**
 * The week with some limits exceedable.
 * @returns the model with one more column per limit (of sets: one per kit, named by it), and these columns by limit, in
 *   order; sets and fires are exceeded by whole numbers
 */
export function withExtras(
  model: WeekModel,
  groups: readonly PricedLimit['group'][],
): { model: WeekModel; extras: { column: number; kitId: string | null }[][] } {
  const { programme } = model;
  const columnNames = [...programme.columnNames];
  const added: { column: number; rows: Set<number>; whole: boolean }[] = [];
  const extras = groups.map((group) => {
    const rows = programme.rowNames.flatMap((name, row) => (isRowOf(group, name) ? [row] : []));
    const each: [kitId: string | null, rows: number[]][] =
      group.kind === 'sets' ? byKit(programme.rowNames, rows) : [[null, rows]];
    return each.map(([kitId, own]) => {
      const column = columnNames.length;
      columnNames.push(`x${column}_extra_${group.kind}`);
      added.push({ column, rows: new Set(own), whole: group.kind === 'sets' || group.kind === 'fires' });
      return { column, kitId };
    });
  });
  const starts = [0];
  const columns: number[] = [];
  const coefficients: number[] = [];
  programme.rowNames.forEach((_, row) => {
    for (let at = programme.starts[row] as number; at < (programme.starts[row + 1] as number); at += 1) {
      columns.push(programme.columns[at] as number);
      coefficients.push(programme.coefficients[at] as number);
    }
    for (const extra of added) {
      if (!extra.rows.has(row)) continue;
      columns.push(extra.column);
      coefficients.push(-1);
    }
    starts.push(columns.length);
  });
  const more = <Value>(value: Value) => added.map(() => value);
  const out: IntegerProgramme = {
    ...programme,
    columnNames,
    columnLower: [...programme.columnLower, ...more(0)],
    columnUpper: [...programme.columnUpper, ...more(MOST_EXTRA)],
    isInteger: [...programme.isInteger, ...added.map(({ whole }) => whole)],
    // A row that is exceeded may come out below the lower bound that it had no use for.
    rowLower: programme.rowLower.map((bound, row) => (added.some((extra) => extra.rows.has(row)) ? -NO_LIMIT : bound)),
    starts,
    columns,
    coefficients,
  };
  const orbits: Orbits = {
    ...model.orbits,
    columns: [...model.orbits.columns, ...added.map(({ column }) => `extra ${column}`)],
  };
  return { model: { ...model, programme: out, orbits }, extras };
}

/** Rows of sets on hand, and of sets still good on a day, together by kit. */
function byKit(rowNames: readonly string[], rows: readonly number[]): [kitId: string, rows: number[]][] {
  const kits = new Map<string, number[]>();
  for (const row of rows) {
    const kit = (rowNames[row] as string).replace(/^r\d+_/, '').replace(/^sets_|^good_(.*)_\d+$/, '$1');
    // Ids hold no underscores, so that these stand for hyphens.
    const kitId = kit.replaceAll('_', '-');
    kits.set(kitId, [...(kits.get(kitId) ?? []), row]);
  }
  return [...kits];
}

/** Names in the programme hold letters, digits and underscores only. */
function asInNames(id: string): string {
  return id.replace(/[^A-Za-z0-9_]/g, '_');
}
