/** The stock on hand as the sum of the ledger: a lot is (kit, part, place, packing date). */
import type { StockEntry, StockLot } from '../planning/plan-types.ts';

/**
 * Adds the entries up by lot. Storage details of a lot are those of its newest entry that states them.
 * @param entries the whole ledger, in any order
 * @returns lots by kit, part, place and date, those with nothing left included (quantity 0)
 */
export function stockTotals(entries: readonly StockEntry[]): StockLot[] {
  const lots = new Map<string, StockLot>();
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
    lots.set(key, {
      ...lot,
      quantity: lot.quantity + entry.quantity,
      useBy: entry.useBy ?? lot.useBy,
      storageC: entry.storageC ?? lot.storageC,
      moisturePercent: entry.moisturePercent ?? lot.moisturePercent,
    });
  }
  return [...lots.entries()].sort(([a], [b]) => compare(a, b)).map(([, lot]) => lot);
}

/** What makes two entries speak of the same lot. */
export function lotKey(lot: Pick<StockLot, 'kitId' | 'partId' | 'placeId' | 'packedOn'>): string {
  return [lot.kitId, lot.partId, lot.placeId, lot.packedOn].join('/');
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
