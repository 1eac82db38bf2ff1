/** What is asked of the stock ledger, and what it answers. */
import { INSPECTION_SIGNS } from '../planning/stock-changes.ts';
import { date, dateTime, id, measure, note } from './schema-values.ts';
import { newStockEntrySchema, stockEntrySchema } from './schemas-kit.ts';
import { z } from './zod.ts';

/** Containers that one line may move, count or throw away. */
const containers = measure(0.001, 10_000, '1');
const MOST_LINES = 2000;
const factor = z.number().meta({ unit: '1' });

export const lotSchema = z
  .object({
    kitId: z.string(),
    partId: z.string(),
    placeId: z.string(),
    packedOn: z.string(),
    useBy: z.string().nullable(),
    storageC: z.number().meta({ unit: 'C' }).nullable(),
    moisturePercent: z.number().meta({ unit: '%' }).nullable(),
    quantity: z.number().meta({ unit: '1' }),
    useFirst: z.literal(true).optional(),
    age: z
      .object({
        years: z.number().meta({ unit: 'years' }),
        keepsUntil: z.string(),
        limitedBy: z.string(),
        longerBoil: z.object({ p10: factor, p50: factor, p90: factor }).nullable(),
      })
      .meta({
        description: 'By the tables: until when it keeps its quality, for which food, and the factor on the boil.',
      })
      .nullable()
      .optional(),
  })
  .meta({ id: 'StockLot', description: 'Sets or parts of one packing date at one place.' });

const containersAnswer = z.object({
  partId: z.string(),
  placeId: z.string(),
  packedOn: z.string(),
  quantity: z.number().meta({ unit: '1' }),
});

export const setsAtPlaceSchema = z
  .object({
    kitId: z.string(),
    placeId: z.string(),
    sets: z.number().meta({ unit: '1' }),
    alike: z.array(
      z.object({
        standIns: z.array(z.string()),
        sets: z.number().meta({ unit: '1' }),
        takes: z.array(containersAnswer),
      }),
    ),
    limitingPartIds: z.array(z.string()),
    lacking: z.array(z.object({ partId: z.string(), quantity: z.number().meta({ unit: '1' }) })),
    leftOver: z.array(containersAnswer),
    notSound: z.array(containersAnswer.extend({ why: z.enum(['past-use-by', 'packed-later']) })),
  })
  .meta({
    id: 'SetsAtPlace',
    description: 'Complete sets of a kit at one place, out of which lots, which part limits, and what is left over.',
  });

export const entriesSchema = z
  .strictObject({ entries: z.array(newStockEntrySchema).min(1).max(MOST_LINES) })
  .meta({ id: 'NewStockEntries', description: 'Entries that are appended together, all or none.' });

const lotName = { kitId: id, partId: id, packedOn: date };

export const movesSchema = z
  .strictObject({
    moves: z
      .array(z.strictObject({ ...lotName, fromPlaceId: id, toPlaceId: id, quantity: containers }))
      .min(1)
      .max(MOST_LINES),
    at: dateTime,
    note: note.optional(),
  })
  .meta({ id: 'StockMoves' });

export const countsSchema = z
  .strictObject({
    counts: z
      .array(z.strictObject({ ...lotName, placeId: id, counted: measure(0, 10_000, '1') }))
      .min(1)
      .max(MOST_LINES),
    at: dateTime,
  })
  .meta({ id: 'StockCounts', description: 'What was counted of each lot; the ledger gets the differences.' });

export const undoSchema = z
  .strictObject({
    entryIds: z.array(id).min(1).max(MOST_LINES).optional(),
    /** All entries of a list that was taken in. */
    importId: id.optional(),
    at: dateTime,
  })
  .refine(
    ({ entryIds, importId }) => (entryIds === undefined) !== (importId === undefined),
    'Name the entries, or the import that they came with',
  )
  .meta({ id: 'StockUndo', description: 'Entries to be taken back: by their ids, or all of one import.' });

export const inspectionSchema = z
  .strictObject({
    findings: z
      .array(z.strictObject({ ...lotName, placeId: id, sign: z.enum(INSPECTION_SIGNS), quantity: containers }))
      .min(1)
      .max(MOST_LINES),
    at: dateTime,
  })
  .meta({ id: 'StockInspection', description: 'Signs of harm that were found on containers of lots.' });

export const appendedSchema = z.object({ items: z.array(stockEntrySchema) });
