/**
 * Lines of the ledger for what people do with their stock: move, count, take back. A lot keeps its dates and its moisture
 * where it goes; the ledger is only ever added to.
 */
import type { Cooking, StockEntry, StockLot } from './plan-types.ts';
import { lotKey, undoneIds } from './stock-lots.ts';

export type LotName = Pick<StockLot, 'kitId' | 'partId' | 'placeId' | 'packedOn'>;

/** So much of a container is none. */
const NOTHING = 1e-9;

/** A line before it has an id. */
export type StockLine = Omit<StockEntry, 'id'>;

/**
 * Moves containers of a lot to another place: one line takes them, one puts them there.
 * @param lot as it is, at the place that they leave
 * @param there the lot of the same kind at the other place; undefined: there is none
 * @param quantity containers, > 0
 * @returns two lines; where two lots become one, the earlier use-by date, the moister and the warmer figure hold for both
 */
export function linesOfMove(
  lot: StockLot,
  there: StockLot | undefined,
  placeId: string,
  quantity: number,
  at: string,
  note?: string,
): StockLine[] {
  const { kitId, partId, packedOn } = lot;
  const common = { reason: 'moved' as const, at, ...(note === undefined ? {} : { note }) };
  const useBy = earlier(lot.useBy, holds(there) ? there.useBy : null);
  const moisture = larger(lot.moisturePercent, holds(there) ? there.moisturePercent : null);
  // What it has lain in so far is not undone by a cooler place.
  const storageC = larger(lot.storageC, holds(there) ? there.storageC : null);
  const useFirst = lot.useFirst === true || (holds(there) && there.useFirst === true);
  return [
    { kitId, partId, placeId: lot.placeId, packedOn, quantity: -quantity, ...common },
    {
      kitId,
      partId,
      placeId,
      packedOn,
      ...(useBy === null ? {} : { useBy }),
      ...(moisture === null ? {} : { moisturePercent: moisture }),
      ...(storageC === null ? {} : { storageC }),
      ...(useFirst ? { useFirst } : {}),
      quantity,
      ...common,
    },
  ];
}

/**
 * Sets a lot to what was counted: the line holds the difference, zero included, since that it was counted is worth a line.
 * @param held what the ledger says
 * @param counted what is there
 */
export function lineOfCount(lot: LotName, held: number, counted: number, at: string): StockLine {
  const { kitId, partId, placeId, packedOn } = lot;
  const quantity = Math.round((counted - held) * 1e9) / 1e9;
  return { kitId, partId, placeId, packedOn, quantity, reason: 'counted', at };
}

/** The line that takes an entry back. */
export function lineOfUndo(entry: StockEntry, at: string): StockLine {
  const { kitId, partId, placeId, packedOn } = entry;
  return {
    kitId,
    partId,
    placeId,
    packedOn,
    quantity: entry.quantity === 0 ? 0 : -entry.quantity,
    reason: 'undo',
    at,
    undoes: entry.id,
  };
}

/**
 * When each lot was last counted, by lot: what was taken before that is not there any more to be taken again. A mark of an
 * inspection is no count.
 */
export function lastCounts(entries: readonly StockEntry[]): Map<string, string> {
  const undone = undoneIds(entries);
  const counts = new Map<string, string>();
  for (const entry of entries) {
    const isMark = entry.quantity === 0 && entry.useFirst !== undefined;
    if (entry.reason !== 'counted' || isMark || undone.has(entry.id)) continue;
    const known = counts.get(lotKey(entry));
    if (known === undefined || known < entry.at) counts.set(lotKey(entry), entry.at);
  }
  return counts;
}

/** When a cooking opens the bags of a part: into the bowl, or into the pot. */
export function takenAt({ method, startsAt }: Cooking, partId: string): string {
  const { soak } = method;
  return soak !== null && soak.partIds.includes(partId) ? soak.at : startsAt;
}

/** What was found at an inspection, and what follows from it. */
export const INSPECTION_SIGNS = ['bulging', 'rodents', 'rancid', 'moist', 'no-vacuum'] as const;
export type InspectionSign = (typeof INSPECTION_SIGNS)[number];

/**
 * What becomes of containers with a sign of harm: food that may hurt goes, a bag that has only lost its vacuum is eaten
 * first (common practice; bulging and spoiled goods are never tasted).
 */
export function followsFrom(sign: InspectionSign): 'thrown-away' | 'use-first' {
  return sign === 'no-vacuum' ? 'use-first' : 'thrown-away';
}

/**
 * The line for what was found on containers of a lot.
 * @param quantity containers with the sign, > 0; where a bag lost its vacuum, the whole lot is used first
 * @param note words for the sign
 */
export function lineOfInspection(
  lot: LotName,
  sign: InspectionSign,
  quantity: number,
  at: string,
  note: string,
): StockLine {
  const { kitId, partId, placeId, packedOn } = lot;
  const common = { kitId, partId, placeId, packedOn, at, note };
  return followsFrom(sign) === 'use-first'
    ? { ...common, quantity: 0, reason: 'counted', useFirst: true }
    : { ...common, quantity: -quantity, reason: 'thrown-away' };
}

/** Levels by lot, for checks of many lines one after the other. */
export function levelsOf(lots: readonly StockLot[]): Map<string, number> {
  return new Map(lots.map((lot) => [lotKey(lot), lot.quantity]));
}

function holds(lot: StockLot | undefined): lot is StockLot {
  return lot !== undefined && lot.quantity > NOTHING;
}

function earlier(one: string | null, other: string | null): string | null {
  return [one, other].filter((date): date is string => date !== null).sort()[0] ?? null;
}

function larger(one: number | null, other: number | null): number | null {
  const known = [one, other].filter((value): value is number => value !== null);
  return known.length === 0 ? null : Math.max(...known);
}
