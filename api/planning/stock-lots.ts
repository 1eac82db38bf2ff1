/** The stock on hand as the sum of the ledger: a lot is (kit, part, place, packing date). */
import type { StockEntry, StockLot } from './plan-types.ts';

/**
 * Adds the entries up by lot. Storage details of a lot are those of its newest entry that states them.
 * @param entries the whole ledger, in any order
 * @returns lots by kit, part, date and place, those with nothing left included (quantity 0)
 */
export function stockLots(entries: readonly StockEntry[]): StockLot[] {
  const lots = new Map<string, StockLot>();
  const undone = undoneIds(entries);
  const inOrder = [...entries].sort((a, b) => compare(a.at, b.at) || compare(a.id, b.id));
  for (const entry of inOrder) {
    const key = lotKey(entry);
    const lot = lots.get(key) ?? {
      kitId: entry.kitId,
      partId: entry.partId,
      placeId: entry.placeId,
      packedOn: entry.packedOn,
      useBy: null,
      storageC: null,
      moisturePercent: null,
      quantity: 0,
    };
    lot.quantity += entry.quantity;
    lots.set(key, lot);
    // What an entry said that was taken back is not so.
    if (entry.undoes !== undefined || undone.has(entry.id)) continue;
    lot.useBy = entry.useBy ?? lot.useBy;
    lot.storageC = entry.storageC ?? lot.storageC;
    lot.moisturePercent = entry.moisturePercent ?? lot.moisturePercent;
    if (entry.useFirst === true) lot.useFirst = true;
    else if (entry.useFirst === false) delete lot.useFirst;
  }
  // The planner meets lots of one part by their date, so that equal choices fall to the older one.
  return [...lots.values()].sort((a, b) => compare(orderOf(a), orderOf(b)));
}

/** The same by kit, part, place and date: as people look through a store. */
export function stockTotals(entries: readonly StockEntry[]): StockLot[] {
  return stockLots(entries).sort((a, b) => compare(lotKey(a), lotKey(b)));
}

/** Whether a lot may still be cooked on a date: to the end of its use-by date. */
export function isGoodOn(lot: Pick<StockLot, 'useBy'>, date: string): boolean {
  return lot.useBy === null || lot.useBy >= date;
}

/**
 * The order in which lots of one part are taken: those to be used first, then those with the earlier use-by date, then
 * the oldest.
 */
export function inOrderOfUse(
  a: Pick<StockLot, 'useFirst' | 'useBy' | 'packedOn'>,
  b: Pick<StockLot, 'useFirst' | 'useBy' | 'packedOn'>,
): number {
  return compare(placeInUse(a), placeInUse(b));
}

function placeInUse(lot: Pick<StockLot, 'useFirst' | 'useBy' | 'packedOn'>): string {
  return `${lot.useFirst === true ? 0 : 1}|${lot.useBy ?? '9999'}|${lot.packedOn}`;
}

/** Ids of the entries that have been taken back and stay so: an undo can be undone itself. */
export function undoneIds(entries: readonly StockEntry[]): Set<string> {
  const takenBackBy = new Map<string, string[]>();
  for (const entry of entries)
    if (entry.undoes !== undefined) takenBackBy.set(entry.undoes, [...(takenBackBy.get(entry.undoes) ?? []), entry.id]);
  const known = new Map<string, boolean>();
  const isUndone = (id: string): boolean => {
    const found = known.get(id);
    if (found !== undefined) return found;
    known.set(id, false);
    const undone = (takenBackBy.get(id) ?? []).some((other) => !isUndone(other));
    known.set(id, undone);
    return undone;
  };
  return new Set([...takenBackBy.keys()].filter(isUndone));
}

/** What makes two entries speak of the same lot. */
export function lotKey(lot: Pick<StockLot, 'kitId' | 'partId' | 'placeId' | 'packedOn'>): string {
  return [lot.kitId, lot.partId, lot.placeId, lot.packedOn].join('/');
}

function orderOf(lot: StockLot): string {
  return [lot.kitId, lot.partId, lot.packedOn, lot.placeId].join('|');
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
