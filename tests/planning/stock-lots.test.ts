import { describe, expect, it } from 'vitest';
import { stockTotals } from '../../api/planning/stock-lots.ts';

describe('stock totals', () => {
  it('sums by kit, part, place and packing date, and takes details from the newest entry', () => {
    const entry = {
      kitId: 'soup',
      partId: 'dry',
      placeId: 'home',
      packedOn: '2021-09-12',
      quantity: 3,
      reason: 'packed' as const,
      at: '2021-09-12T10:00',
    };
    const totals = stockTotals([
      { ...entry, id: 'c', quantity: -1, reason: 'eaten', at: '2024-01-01T18:00', moisturePercent: 11 },
      { ...entry, id: 'a', storageC: 12, moisturePercent: 9 },
      { ...entry, id: 'b', packedOn: '2022-01-01', quantity: 2, at: '2022-01-01T10:00' },
    ]);
    const lot = { kitId: 'soup', partId: 'dry', placeId: 'home', useBy: null };
    expect(totals).toEqual([
      { ...lot, packedOn: '2021-09-12', quantity: 2, storageC: 12, moisturePercent: 11 },
      { ...lot, packedOn: '2022-01-01', quantity: 2, storageC: null, moisturePercent: null },
    ]);
  });
});
