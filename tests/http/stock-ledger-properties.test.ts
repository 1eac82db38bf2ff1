/** The ledger over HTTP under any sequence of packing, moving, counting, losing and taking back, against a plain model. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { StockEntry, StockLot } from '../../api/planning/plan-types.ts';
import { lotKey } from '../../api/planning/stock-lots.ts';
import { testApp } from './test-app.ts';

const KIT = 'pea-sweetcorn-chowder';
const AT = '2026-12-05T10:00';
const lot = fc.record({
  partId: fc.constantFrom('pulses', 'seasoning'),
  placeId: fc.constantFrom('home', 'earth-cellar'),
  packedOn: fc.constantFrom('2024-01-01', '2025-01-01'),
});
const step = fc.oneof(
  fc.record({ kind: fc.constant('pack' as const), lot, quantity: fc.integer({ min: 1, max: 5 }) }),
  fc.record({ kind: fc.constant('lose' as const), lot, quantity: fc.integer({ min: 1, max: 5 }) }),
  fc.record({ kind: fc.constant('move' as const), lot, quantity: fc.integer({ min: 1, max: 5 }) }),
  fc.record({ kind: fc.constant('count' as const), lot, quantity: fc.integer({ min: 0, max: 5 }) }),
  fc.record({ kind: fc.constant('undo' as const), nth: fc.nat(20) }),
);

it('never falls below nothing, is the sum of its entries, refuses without a trace, and goes back step by step', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(step, { maxLength: 12 }), async (steps) => {
      const test = await testApp();
      const stock = async () =>
        (await (await test.get('/api/stock')).json()) as { items: StockEntry[]; totals: StockLot[] };
      const levels = async () => {
        const { items, totals } = await stock();
        const sums = new Map<string, number>();
        for (const item of items) sums.set(lotKey(item), (sums.get(lotKey(item)) ?? 0) + item.quantity);
        for (const total of totals) {
          expect(total.quantity).toBeGreaterThanOrEqual(0);
          expect(total.quantity).toBe(sums.get(lotKey(total)));
        }
        // Lots that came and went count as none.
        return Object.fromEntries([...sums].filter(([, quantity]) => quantity !== 0).sort());
      };
      const post = async (path: string, body: object) => test.send('POST', `/api/stock${path}`, { ...body, at: AT });
      const start = await levels();
      const done: { ids: string[]; undone: boolean }[] = [];
      for (const one of steps) {
        const before = await levels();
        const other = one.kind !== 'undo' && one.lot.placeId === 'home' ? 'earth-cellar' : 'home';
        const answer =
          one.kind === 'undo'
            ? await post('/undo', { entryIds: done[one.nth % Math.max(1, done.length)]?.ids ?? ['none'] })
            : one.kind === 'count'
              ? await post('/counts', { counts: [{ kitId: KIT, ...one.lot, counted: one.quantity }] })
              : one.kind === 'move'
                ? await post('/moves', {
                    moves: [
                      {
                        kitId: KIT,
                        partId: one.lot.partId,
                        packedOn: one.lot.packedOn,
                        fromPlaceId: one.lot.placeId,
                        toPlaceId: other,
                        quantity: one.quantity,
                      },
                    ],
                  })
                : await test.send('POST', '/api/stock/entries', {
                    entries: [
                      {
                        kitId: KIT,
                        ...one.lot,
                        quantity: one.kind === 'pack' ? one.quantity : -one.quantity,
                        reason: one.kind === 'pack' ? 'packed' : 'lost',
                        at: AT,
                      },
                    ],
                  });
        const after = await levels();
        if (answer.status !== 201) {
          expect(answer.status).toBe(422);
          expect(after).toEqual(before);
          continue;
        }
        const { items } = (await answer.json()) as { items: StockEntry[] };
        done.push({ ids: items.map((item) => item.id), undone: false });
      }
      // The newest first, everything can be taken back that was not taken back on the way.
      for (const { ids } of [...done].reverse()) {
        const answer = await post('/undo', { entryIds: ids });
        expect([201, 422]).toContain(answer.status);
      }
      expect(await levels()).toEqual(start);
    }),
    { numRuns: 25 },
  );
}, 60_000);
