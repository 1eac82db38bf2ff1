/** Stock lists as CSV: out, and in with a preview row by row. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import type { StockEntry } from '../../planning/plan-types.ts';
import { lineOfCount } from '../../planning/stock-changes.ts';
import { lotKey, stockLots, stockTotals } from '../../planning/stock-lots.ts';
import { listBodies } from '../../storage/collections.ts';
import { type ListedRow, type ReadStockList, readStockCsv, stockCsv } from '../../wording/stock-csv.ts';
import { faultsOfLines, importNote, type Ledger, latestPackingDate, readLedger, writeLines } from '../ledger-lines.ts';
import type { oneAtATime } from '../one-at-a-time.ts';
import { resolvedKits } from '../own-foods.ts';
import { type FieldError, jsonPointer, RefusedError, refuseField } from '../problem.ts';
import { fileAnswers, jsonBody, READ_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { dateTime, id } from '../schema-values.ts';
import { IMPORT_LIMIT_BYTES } from '../security.ts';
import type { Services } from '../services.ts';
import { z } from '../zod.ts';

/** Rows of a preview, and wrong ones of a long list, that are sent back. */
const MOST_ROWS_SHOWN = 500;

const exportRoute = createRoute({
  method: 'get',
  path: '/api/stock.csv',
  summary: 'What is in store as CSV, one row for each lot',
  request: { query: z.strictObject({ householdId: id.optional() }) },
  responses: {
    200: {
      description: 'Version 1 of the stock list; text is kept from being a formula.',
      content: { 'text/csv': { schema: z.string() } },
    },
    ...READ_PROBLEMS,
  },
});

const importSchema = z
  .strictObject({
    householdId: id,
    text: z.string().max(IMPORT_LIMIT_BYTES),
    /** `add`: the rows were packed besides what is there. `count`: of these lots, that is what is there. */
    mode: z.enum(['add', 'count']),
    /** Where a row names no place. */
    placeId: id.optional(),
    at: dateTime,
    /** Nothing is stored; says what would be. */
    preview: z.boolean().optional(),
  })
  .meta({ id: 'StockListImport', description: 'A stock list as CSV text, all or nothing.' });

const rowAnswer = z.object({
  row: z.number().meta({ unit: '1' }),
  outcome: z.enum(['understood', 'refused', 'empty']),
  words: z.string(),
  faults: z.array(z.object({ column: z.string(), value: z.string(), detail: z.string() })),
});

const importedSchema = z
  .object({
    stored: z.boolean(),
    rows: z.array(rowAnswer),
    counts: z.object({
      rows: z.number().meta({ unit: '1' }),
      understood: z.number().meta({ unit: '1' }),
      refused: z.number().meta({ unit: '1' }),
      empty: z.number().meta({ unit: '1' }),
      entries: z.number().meta({ unit: '1' }),
    }),
    notUsed: z.array(z.string()),
    /** To take all of it back by; null where nothing was stored. */
    importId: z.string().nullable(),
  })
  .meta({ id: 'StockListImported', description: 'Wrong rows first, then the others, as many as are sent.' });

const importRoute = createRoute({
  method: 'post',
  path: '/api/stock.csv',
  summary: 'Take a stock list in, all or nothing; with `preview` say row by row what was understood',
  request: { body: jsonBody(importSchema) },
  responses: fileAnswers(importedSchema, {
    previewed: 'Previewed: nothing was stored.',
    stored: 'Stored.',
    largest: '16 MiB',
  }),
});

/** @param inTurn shared with everything that appends to the ledger */
export function stockCsvRoutes(services: Services, inTurn: ReturnType<typeof oneAtATime>) {
  const { store, newId, clock } = services;

  async function namesOf(householdId: string | undefined) {
    const households = await listBodies(store, 'households');
    const own = householdId === undefined ? households : households.filter((one) => one.id === householdId);
    if (householdId !== undefined && own.length === 0) return null;
    const places = own.flatMap((household) => household.places.map(({ id, name }) => ({ id, name: name ?? id })));
    return { kits: await resolvedKits(store), places };
  }

  return new OpenAPIHono()
    .openapi(
      exportRoute,
      async (c) => {
        const { householdId } = c.req.valid('query');
        const names = await namesOf(householdId);
        if (names === null) throw new RefusedError('not-found', `There is no ${householdId}.`);
        const places = new Set(names.places.map((place) => place.id));
        const lots = stockTotals(await listBodies(store, 'stock')).filter((lot) => places.has(lot.placeId));
        return c.body(stockCsv(lots, names), 200, {
          'content-type': 'text/csv; charset=utf-8; header=present',
          'content-disposition': 'attachment; filename="stock.csv"',
        }) as never;
      },
      refuseInvalid(exportRoute),
    )
    .openapi(
      importRoute,
      async (c) => {
        const { householdId, text, mode, placeId, at, preview = false } = c.req.valid('json');
        const names = await namesOf(householdId);
        if (names === null)
          throw refuseField(['householdId'], 'There is no household of this name.', { value: householdId });
        if (placeId !== undefined && !names.places.some((place) => place.id === placeId))
          throw refuseField(['placeId'], 'There is no place of this name.', { value: placeId });
        const list = readStockCsv(text, names, latestPackingDate(clock.now()), placeId);
        const body = await inTurn(async () => {
          const ledger = await readLedger(services);
          const importId = newId();
          const { lines, rowOf } = linesOf(list, mode, { at, note: importNote(importId) }, ledger, newId);
          const errors = [
            ...list.faults.map((fault) => errorOf(null, fault.column, fault.detail, fault.value)),
            ...list.rows.flatMap(({ row, faults }) =>
              faults.map((fault) => errorOf(row, fault.column, fault.detail, fault.value)),
            ),
            ...faultsOfLines(lines, ledger, clock.now(), (index) => ['text', rowOf[index] ?? 0]),
          ];
          const [first] = errors;
          if (list.faults.length > 0 || (!preview && first !== undefined))
            throw new RefusedError(
              'invalid-input',
              `${first?.detail ?? 'The list cannot be read.'} Nothing was stored.`,
              { errors: errors.slice(0, 50), extensions: answerOf(list, lines, null) },
            );
          if (!preview) await writeLines(services, lines);
          return answerOf(list, lines, preview ? null : importId);
        });
        return c.json(body, preview ? 200 : 201) as never;
      },
      refuseInvalid(importRoute),
    );
}

/** Lines of the ledger for what was understood, and the row that each comes from. */
function linesOf(
  list: ReadStockList,
  mode: 'add' | 'count',
  common: Pick<StockEntry, 'at' | 'note'>,
  ledger: Ledger,
  newId: () => string,
): { lines: StockEntry[]; rowOf: number[] } {
  const lines: StockEntry[] = [];
  const rowOf: number[] = [];
  const levels = new Map(stockLots(ledger.entries).map((lot) => [lotKey(lot), lot]));
  const counted = new Set<string>();
  for (const row of list.rows)
    for (const { quantity, ...lot } of row.lots) {
      if (mode === 'add') {
        if (quantity === 0) continue;
        lines.push({ ...lot, quantity, id: newId(), reason: 'packed', ...common });
      } else {
        const key = lotKey(lot);
        if (counted.has(key)) {
          row.outcome = 'refused';
          const detail = 'This lot stands in the list twice: say once what is there.';
          row.faults.push({ column: 'packed on', value: lot.packedOn, detail });
          row.words = detail;
          continue;
        }
        counted.add(key);
        const held = levels.get(key);
        const line = lineOfCount(lot, held?.quantity ?? 0, quantity, common.at);
        if (line.quantity === 0 && !isNews(lot, held)) continue;
        lines.push({ ...lot, ...line, ...common, id: newId() });
      }
      rowOf.push(row.row);
    }
  return { lines, rowOf };
}

/** Whether a counted row says something of a lot that the ledger does not say. */
function isNews(
  lot: Partial<Pick<StockEntry, 'useBy' | 'storageC' | 'moisturePercent' | 'useFirst'>>,
  held: { useBy: string | null; storageC: number | null; moisturePercent: number | null; useFirst?: true } | undefined,
): boolean {
  return (
    (lot.useBy ?? held?.useBy ?? null) !== (held?.useBy ?? null) ||
    (lot.storageC ?? held?.storageC ?? null) !== (held?.storageC ?? null) ||
    (lot.moisturePercent ?? held?.moisturePercent ?? null) !== (held?.moisturePercent ?? null) ||
    (lot.useFirst ?? false) !== (held?.useFirst ?? false)
  );
}

function errorOf(row: number | null, column: string, detail: string, value: string): FieldError {
  const where = row === null ? '' : `Row ${row}${column === '' ? '' : `, ${column}`}: `;
  return { pointer: jsonPointer(['text']), detail: `${where}${detail}`, ...(value === '' ? {} : { value }) };
}

function answerOf(list: ReadStockList, lines: readonly StockEntry[], importId: string | null) {
  const of = (outcome: ListedRow['outcome']) => list.rows.filter((row) => row.outcome === outcome);
  const refused = of('refused');
  const shown = [...refused, ...list.rows.filter((row) => row.outcome !== 'refused')].slice(0, MOST_ROWS_SHOWN);
  return {
    stored: importId !== null,
    rows: shown.map(({ row, outcome, words, faults }) => ({ row, outcome, words, faults })),
    counts: {
      rows: list.rows.length,
      understood: of('understood').length,
      refused: refused.length,
      empty: of('empty').length,
      entries: lines.length,
    },
    notUsed: list.notUsed,
    importId: lines.length === 0 ? null : importId,
  };
}
