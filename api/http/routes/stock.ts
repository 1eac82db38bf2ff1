/** Stock: a ledger that only grows, its sums, and the sets that they make. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import { HOUSEHOLD_DEFAULTS } from '../../cooking/household/resolve-household.ts';
import { lotAges } from '../../planning/lot-age.ts';
import type { StockEntry, StockLot } from '../../planning/plan-types.ts';
import {
  lineOfCount,
  lineOfInspection,
  lineOfUndo,
  linesOfMove,
  type StockLine,
} from '../../planning/stock-changes.ts';
import { lotKey, stockLots, stockTotals, undoneIds } from '../../planning/stock-lots.ts';
import { setsByPlace } from '../../planning/stock-sets.ts';
import { inspectionSheetHtml } from '../../wording/print/inspection-sheet.ts';
import { SIGN_WORDS } from '../../wording/stock-words.ts';
import {
  faultsOfLines,
  faultsOfUndo,
  importNote,
  type Ledger,
  lotsAsStored,
  readLedger,
  writeLines,
} from '../ledger-lines.ts';
import { oneAtATime } from '../one-at-a-time.ts';
import { ownFoodsOf, resolvedKits, withOwnFoods } from '../own-foods.ts';
import { type FieldError, jsonPointer, RefusedError, refuseFaults, refuseField } from '../problem.ts';
import { answer, CONFLICT, FOUND_PROBLEMS, jsonBody, READ_PROBLEMS, WRITE_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { id } from '../schema-values.ts';
import { newStockEntrySchema, stockEntrySchema } from '../schemas-kit.ts';
import {
  appendedSchema,
  countsSchema,
  entriesSchema,
  inspectionSchema,
  lotSchema,
  movesSchema,
  setsAtPlaceSchema,
  undoSchema,
} from '../schemas-stock.ts';
import type { Services } from '../services.ts';
import { createDocument } from '../write-document.ts';
import { z } from '../zod.ts';

const NOTHING_CHANGED = 'Nothing was changed.';

const listRoute = createRoute({
  method: 'get',
  path: '/api/stock',
  summary: 'Every entry, what there is by lot, and the complete sets at each place',
  responses: {
    200: answer(
      z.object({
        items: z.array(stockEntrySchema),
        totals: z.array(lotSchema),
        sets: z.array(setsAtPlaceSchema),
      }),
      'Oldest entry first; sets as of today.',
    ),
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

const appended = { 201: answer(appendedSchema, 'Appended, all of them.'), ...WRITE_PROBLEMS, ...CONFLICT };

const entriesRoute = createRoute({
  method: 'post',
  path: '/api/stock/entries',
  summary: 'Append several entries, all or none',
  request: { body: jsonBody(entriesSchema) },
  responses: appended,
});
const movesRoute = createRoute({
  method: 'post',
  path: '/api/stock/moves',
  summary: 'Move containers to another place; dates and moisture go with them',
  request: { body: jsonBody(movesSchema) },
  responses: appended,
});
const countsRoute = createRoute({
  method: 'post',
  path: '/api/stock/counts',
  summary: 'Say what was counted; the ledger gets the differences',
  request: { body: jsonBody(countsSchema) },
  responses: appended,
});
const undoRoute = createRoute({
  method: 'post',
  path: '/api/stock/undo',
  summary: 'Take entries back, by entries; one that a booking made is taken back with the booking',
  request: { body: jsonBody(undoSchema) },
  responses: appended,
});
const inspectionRoute = createRoute({
  method: 'post',
  path: '/api/stock/inspections',
  summary: 'Record signs of harm: spoiled containers are thrown away, lots without vacuum are used first',
  request: { body: jsonBody(inspectionSchema) },
  responses: appended,
});

const inspectionSheetRoute = createRoute({
  method: 'get',
  path: '/api/stock/inspection-sheet',
  summary: 'The list to look the stores through by, to print',
  request: { query: z.strictObject({ householdId: id }) },
  responses: {
    200: { description: 'HTML for A4 and US Letter alike.', content: { 'text/html': { schema: z.string() } } },
    ...FOUND_PROBLEMS,
  },
});

/** @param inTurn shared with everything that appends to the ledger */
export function stockRoutes(services: Services, inTurn: ReturnType<typeof oneAtATime> = oneAtATime()) {
  const { newId, clock } = services;
  const withIds = (lines: readonly (StockLine & { id?: string | undefined })[]): StockEntry[] =>
    lines.map((line) => ({ ...line, id: line.id ?? newId() }));
  /** Checks and writes what a job makes of the ledger. */
  const append = (
    make: (
      ledger: Ledger,
      lots: Map<string, StockLot>,
    ) => Promise<{
      lines: StockEntry[];
      errors?: FieldError[];
      pathOf: (index: number) => (string | number)[];
      /** Tells a fault of a line in the words of what was asked. */
      inWords?: (fault: FieldError) => FieldError;
    }>,
  ): Promise<StockEntry[]> =>
    inTurn(async () => {
      const ledger = await readLedger(services);
      const lots = new Map(stockLots(ledger.entries).map((lot) => [lotKey(lot), lot]));
      const { lines, errors = [], pathOf, inWords = (fault) => fault } = await make(ledger, lots);
      refuseFaults(
        errors.length > 0 ? errors : faultsOfLines(lines, ledger, clock.now(), pathOf).map(inWords),
        NOTHING_CHANGED,
      );
      await writeLines(services, lines);
      return lines;
    });
  return new OpenAPIHono()
    .openapi(listRoute, async (c) => {
      const { entries, kits, households } = await readLedger(services);
      const items = [...entries].sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : a.id < b.id ? -1 : 1));
      const totals = stockTotals(items);
      const today = new Date(clock.now()).toISOString().slice(0, 10);
      const own = await ownFoodsOf(services.store);
      const resolved = kits.map((kit) => withOwnFoods(kit, own));
      const places = new Map(households.flatMap((one) => one.places.map((place) => [place.id, place] as const)));
      const ages = lotAges(
        totals,
        resolved,
        (placeId) => places.get(placeId)?.storageC ?? HOUSEHOLD_DEFAULTS.storageC,
        today,
      );
      const aged = totals.map((lot, index) => ({ ...lot, age: ages[index] ?? null }));
      return c.json({ items, totals: aged, sets: setsByPlace(kits, totals, today) }, 200);
    })
    .openapi(
      appendRoute,
      async (c) => {
        const sent = c.req.valid('json');
        const entry = { ...sent, id: sent.id ?? newId() };
        // Two entries that each take the last set must not both pass.
        const body = await inTurn(async () => {
          const ledger = await readLedger(services);
          refuseFaults(
            faultsOfLines([entry], ledger, clock.now(), () => []),
            NOTHING_CHANGED,
          );
          return (await createDocument(services, 'stock', entry)).body;
        });
        return c.json(body, 201, { location: '/api/stock' });
      },
      refuseInvalid(appendRoute),
    )
    .openapi(
      entriesRoute,
      async (c) => {
        const { entries } = c.req.valid('json');
        const items = await append(async () => ({
          lines: withIds(entries),
          pathOf: (index) => ['entries', index],
        }));
        return c.json({ items }, 201, { location: '/api/stock' });
      },
      refuseInvalid(entriesRoute),
    )
    .openapi(
      movesRoute,
      async (c) => {
        const { moves, at, note } = c.req.valid('json');
        const items = await append(async (ledger) => {
          const lots = new Map(lotsAsStored(ledger).map((lot) => [lotKey(lot), lot]));
          const errors: FieldError[] = [];
          const lines = moves.flatMap((move, index) => {
            const { kitId, partId, packedOn, fromPlaceId, toPlaceId, quantity } = move;
            const lot = lots.get(lotKey({ kitId, partId, packedOn, placeId: fromPlaceId }));
            const wrong = (field: string, detail: string, value: unknown) =>
              errors.push({ pointer: jsonPointer(['moves', index, field]), detail, value });
            if (fromPlaceId === toPlaceId) wrong('toPlaceId', 'Name another place than they come from.', toPlaceId);
            if (lot === undefined) {
              wrong('packedOn', 'There is no such lot at that place.', packedOn);
              return [];
            }
            const there = lots.get(lotKey({ kitId, partId, packedOn, placeId: toPlaceId }));
            return linesOfMove(lot, there, toPlaceId, quantity, at, note);
          });
          return { lines: withIds(lines), errors, pathOf: (index) => ['moves', Math.floor(index / 2)] };
        });
        return c.json({ items }, 201, { location: '/api/stock' });
      },
      refuseInvalid(movesRoute),
    )
    .openapi(
      countsRoute,
      async (c) => {
        const { counts, at } = c.req.valid('json');
        const items = await append(async (_ledger, lots) => ({
          lines: withIds(
            counts.map((count) => lineOfCount(count, lots.get(lotKey(count))?.quantity ?? 0, count.counted, at)),
          ),
          errors: counts.flatMap((count, index) =>
            counts.findIndex((other) => lotKey(other) === lotKey(count)) === index
              ? []
              : [
                  {
                    pointer: jsonPointer(['counts', index]),
                    detail: 'This lot is counted twice: say once what is there.',
                  },
                ],
          ),
          pathOf: (index) => ['counts', index],
        }));
        return c.json({ items }, 201, { location: '/api/stock' });
      },
      refuseInvalid(countsRoute),
    )
    .openapi(
      undoRoute,
      async (c) => {
        const { entryIds: named, importId, at } = c.req.valid('json');
        const items = await append(async ({ entries }) => {
          const undone = undoneIds(entries);
          const ofImport = entries.filter((entry) => importId !== undefined && entry.note === importNote(importId));
          const entryIds = named ?? ofImport.filter(({ id }) => !undone.has(id)).map(({ id }) => id);
          if (importId !== undefined && entryIds.length === 0)
            throw refuseField(
              ['importId'],
              ofImport.length === 0 ? 'There is no import of this name.' : 'This import has been taken back already.',
              { value: importId },
            );
          const byId = new Map(entries.map((entry) => [entry.id, entry]));
          // What was put somewhere is taken away last, so that a move is undone in one go.
          const taken = entryIds.flatMap((id) => byId.get(id) ?? []).sort((x, y) => x.quantity - y.quantity);
          return {
            lines: withIds(taken.map((entry) => lineOfUndo(entry, at))),
            errors: await faultsOfUndo(services, entryIds, entries),
            pathOf: (index) => ['entryIds', entryIds.indexOf(taken[index]?.id ?? '')],
            inWords: ({ pointer = '', value, ...fault }) => ({
              pointer: importId === undefined ? pointer.replace(/\/quantity$/, '') : '#/importId',
              detail: `${fault.detail} Some of what this entry put in has been taken out since: take that back first.`,
            }),
          };
        });
        return c.json({ items }, 201, { location: '/api/stock' });
      },
      refuseInvalid(undoRoute),
    )
    .openapi(
      inspectionRoute,
      async (c) => {
        const { findings, at } = c.req.valid('json');
        const items = await append(async (_ledger, lots) => ({
          lines: withIds(
            findings.map(({ sign, quantity, ...lot }) =>
              lineOfInspection(lot, sign, quantity, at, `Inspection: ${SIGN_WORDS[sign].name.toLowerCase()}`),
            ),
          ),
          errors: findings.flatMap((finding, index) =>
            (lots.get(lotKey(finding))?.quantity ?? 0) > 0
              ? []
              : [
                  {
                    pointer: jsonPointer(['findings', index, 'packedOn']),
                    detail: 'There is nothing of such a lot at that place.',
                    value: finding.packedOn,
                  },
                ],
          ),
          pathOf: (index) => ['findings', index],
        }));
        return c.json({ items }, 201, { location: '/api/stock' });
      },
      refuseInvalid(inspectionRoute),
    )
    .openapi(
      inspectionSheetRoute,
      async (c) => {
        const { householdId } = c.req.valid('query');
        const { entries, households } = await readLedger(services);
        const household = households.find((one) => one.id === householdId);
        if (household === undefined) throw new RefusedError('not-found', `There is no ${householdId}.`);
        const places = new Map(household.places.map((place) => [place.id, place.name ?? place.id]));
        const kits = await resolvedKits(services.store);
        const today = new Date(clock.now()).toISOString().slice(0, 10);
        const lots = stockLots(entries);
        return c.html(inspectionSheetHtml(lots, kits, places, household.name, today), 200) as never;
      },
      refuseInvalid(inspectionSheetRoute),
    );
}
