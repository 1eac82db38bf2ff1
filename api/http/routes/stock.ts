/** Stock: a ledger that only grows, and its sums. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import type { StockLot } from '../../planning/plan-types.ts';
import { lotKey, stockTotals } from '../../planning/stock-lots.ts';
import { listBodies, readDocument } from '../../storage/collections.ts';
import { requireSoundStockEntry } from '../check-references.ts';
import { oneAtATime } from '../one-at-a-time.ts';
import { answer, CONFLICT, jsonBody, READ_PROBLEMS, WRITE_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { newStockEntrySchema, stockEntrySchema } from '../schemas-kit.ts';
import type { Services } from '../services.ts';
import { createDocument } from '../write-document.ts';
import { z } from '../zod.ts';

const lotSchema = z
  .object({
    kitId: z.string(),
    partId: z.string(),
    placeId: z.string(),
    packedOn: z.string(),
    useBy: z.string().nullable(),
    storageC: z.number().meta({ unit: 'C' }).nullable(),
    moisturePercent: z.number().meta({ unit: '%' }).nullable(),
    quantity: z.number().meta({ unit: '1' }),
  })
  .meta({ id: 'StockLot', description: 'Sets or parts of one packing date at one place.' });

const listRoute = createRoute({
  method: 'get',
  path: '/api/stock',
  summary: 'Every entry, and what there is by lot',
  responses: {
    200: answer(z.object({ items: z.array(stockEntrySchema), totals: z.array(lotSchema) }), 'Oldest entry first.'),
    ...READ_PROBLEMS,
  },
});

const appendRoute = createRoute({
  method: 'post',
  path: '/api/stock',
  summary: 'Append an entry; the id may be left to the server',
  request: { body: jsonBody(newStockEntrySchema) },
  responses: { 201: answer(stockEntrySchema, 'Appended.'), ...WRITE_PROBLEMS, ...CONFLICT },
});

/** @param inTurn shared with everything that appends to the ledger */
export function stockRoutes(services: Services, inTurn: ReturnType<typeof oneAtATime> = oneAtATime()) {
  const { store, newId } = services;
  const readEntries = () => listBodies(store, 'stock');
  return new OpenAPIHono()
    .openapi(listRoute, async (c) => {
      const items = (await readEntries()).sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : a.id < b.id ? -1 : 1));
      const totals: StockLot[] = stockTotals(items);
      return c.json({ items, totals }, 200);
    })
    .openapi(
      appendRoute,
      async (c) => {
        const sent = c.req.valid('json');
        const entry = { ...sent, id: sent.id ?? newId() };
        // Two entries that each take the last set must not both pass.
        const body = await inTurn(async () => {
          const kit = await readDocument(store, 'kits', entry.kitId);
          const households = await listBodies(store, 'households');
          const lot = stockTotals((await readEntries()).filter((other) => lotKey(other) === lotKey(entry)))[0];
          requireSoundStockEntry(entry, kit?.body ?? null, households, lot?.quantity ?? 0);
          return (await createDocument(services, 'stock', entry)).body;
        });
        return c.json(body, 201, { location: '/api/stock' });
      },
      refuseInvalid(appendRoute),
    );
}
