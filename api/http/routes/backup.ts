/** A backup of everything in one file, and its restore. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import { countDocuments, everyDocument, restoreDocuments } from '../../storage/backup.ts';
import { COLLECTIONS, type Collection, currentFormat, FORMATS } from '../../storage/formats.ts';
import type { oneAtATime } from '../one-at-a-time.ts';
import { type FieldError, jsonPointer, RefusedError, refuseFaults, refuseField } from '../problem.ts';
import { answer, fileAnswers, jsonBody, READ_PROBLEMS } from '../problem-answers.ts';
import { documentFaults, refuseInvalid } from '../refuse-invalid.ts';
import { bookingSchema } from '../schemas-booking.ts';
import { ownFoodSchema } from '../schemas-food.ts';
import { householdSchema } from '../schemas-household.ts';
import { kitSchema, stockEntrySchema } from '../schemas-kit.ts';
import { measurementSchema } from '../schemas-measurements.ts';
import type { Services } from '../services.ts';
import { z } from '../zod.ts';

const BACKUP_VERSION = 1;
/** More wrong documents than this are not listed. */
const MOST_ERRORS = 50;

/** A plan is held to its main members: it was checked when it was made, and is never changed. */
const storedPlan = z.looseObject({
  id: z.string().regex(/^[a-z0-9-]{1,64}$/),
  createdAt: z.string(),
  request: z.looseObject({ householdId: z.string(), startsAt: z.string() }),
  resolved: z.looseObject({ household: z.looseObject({}), kits: z.array(z.unknown()), stock: z.array(z.unknown()) }),
  cookings: z.array(z.unknown()),
  meals: z.array(z.unknown()),
  schedule: z.array(z.unknown()),
});

const SCHEMAS: Readonly<Record<Collection, z.ZodType>> = {
  households: householdSchema,
  kits: kitSchema,
  stock: stockEntrySchema,
  plans: storedPlan,
  measurements: measurementSchema,
  bookings: bookingSchema,
  foods: ownFoodSchema,
};

const documentsAnswer = z.record(z.string(), z.array(z.looseObject({ id: z.string() })));

const backupAnswer = z
  .object({
    backup: z.literal('outage-kitchen'),
    version: z.number().meta({ unit: '1' }),
    checksum: z.string(),
    documents: documentsAnswer,
  })
  .meta({ id: 'Backup', description: 'Everything that is stored. Equal content gives equal bytes.' });

const backupRoute = createRoute({
  method: 'get',
  path: '/api/backup',
  summary: 'Everything that is stored, in one file',
  responses: { 200: answer(backupAnswer, 'Version 1 of the backup.'), ...READ_PROBLEMS },
});

const restoreSchema = z
  .strictObject({
    backup: z.looseObject({
      backup: z.string().optional(),
      version: z.unknown().optional(),
      checksum: z.string().max(200).optional(),
      documents: z.unknown().optional(),
    }),
    /** Whether what is stored now is given up for it. */
    replace: z.boolean().optional(),
    preview: z.boolean().optional(),
  })
  .meta({ id: 'Restore', description: 'A backup, all or nothing.' });

const restoredSchema = z
  .object({
    restored: z.boolean(),
    /** Documents of the file, by collection. */
    found: z.record(z.string(), z.number().meta({ unit: '1' })),
    /** What is stored now and would go. */
    inTheWay: z.record(z.string(), z.number().meta({ unit: '1' })),
  })
  .meta({ id: 'Restored' });

const restoreRoute = createRoute({
  method: 'post',
  path: '/api/backup',
  summary: 'Restore a backup, all or nothing; what is stored is given up only where `replace` says so',
  request: { body: jsonBody(restoreSchema) },
  responses: fileAnswers(restoredSchema, {
    previewed: 'Previewed: nothing was changed.',
    stored: 'Restored.',
    largest: '256 MiB',
  }),
});

/** @param inTurn shared with everything that appends to the ledger */
export function backupRoutes({ store, newId }: Services, inTurn: ReturnType<typeof oneAtATime>) {
  return new OpenAPIHono()
    .openapi(backupRoute, async (c) => {
      const documents = await everyDocument(store);
      const body = { backup: 'outage-kitchen' as const, version: BACKUP_VERSION, checksum: '', documents };
      body.checksum = await checksumOf(documents);
      return c.json(body, 200, { 'content-disposition': 'attachment; filename="outage-kitchen-backup.json"' }) as never;
    })
    .openapi(
      restoreRoute,
      async (c) => {
        const { backup, replace = false, preview = false } = c.req.valid('json');
        const documents = await soundDocuments(backup);
        const found = Object.fromEntries(COLLECTIONS.map((name) => [name, documents[name].length]));
        const body = await inTurn(async () => {
          const inTheWay = await countDocuments(store);
          const held = Object.values(inTheWay).reduce((sum, count) => sum + count, 0);
          if (preview) return { restored: false, found, inTheWay };
          if (held > 0 && !replace)
            throw new RefusedError(
              'already-there',
              `There is something in the way: ${countsInWords(inTheWay)}. Nothing was restored. Save a backup of it first, then send \`replace: true\` to give it up for this one.`,
              { extensions: { inTheWay, found } },
            );
          if (!(await restoreDocuments(store, documents, newId())))
            throw new RefusedError('already-there', 'Something was stored meanwhile. Nothing was restored; try again.');
          return { restored: true, found, inTheWay };
        });
        return c.json(body, preview ? 200 : 201) as never;
      },
      refuseInvalid(restoreRoute),
    );
}

/**
 * The documents of a backup, checked one by one.
 * @throws RefusedError 422 when the file is of another kind or version, was changed, or holds what is no document
 */
async function soundDocuments(backup: z.output<typeof restoreSchema>['backup']) {
  if (backup.backup !== 'outage-kitchen')
    throw refuseField(['backup', 'backup'], 'This is no backup of this program.', { value: backup.backup });
  if (backup.version !== BACKUP_VERSION)
    throw refuseField(
      ['backup', 'version'],
      `This program reads version ${BACKUP_VERSION} of the backup. Use a program as new as the one that made it.`,
      { value: typeof backup.version === 'number' ? backup.version : String(backup.version) },
    );
  const documents = (backup.documents ?? {}) as Record<string, unknown>;
  const errors: FieldError[] = [];
  const wrong = (path: (string | number)[], detail: string, more: Partial<FieldError> = {}) => {
    if (errors.length < MOST_ERRORS)
      errors.push({ pointer: jsonPointer(['backup', 'documents', ...path]), detail, ...more });
  };
  if (typeof documents !== 'object' || Array.isArray(documents)) wrong([], 'Must hold the documents by collection.');
  for (const name of Object.keys(documents))
    if (!(COLLECTIONS as readonly string[]).includes(name)) wrong([name], 'This program keeps no such documents.');
  for (const collection of COLLECTIONS) {
    const list = Object.hasOwn(documents, collection) ? documents[collection] : undefined;
    if (!Array.isArray(list)) {
      wrong([collection], 'Is missing: the file is not whole.');
      continue;
    }
    const ids = new Set<string>();
    for (const [index, document] of list.entries()) {
      const newest = currentFormat(FORMATS[collection]);
      const format = (document as { format?: unknown } | null)?.format ?? 1;
      if (typeof format === 'number' && format > newest) {
        wrong([collection, index, 'format'], 'A newer program wrote this. Restore it with that one.', {
          value: format,
        });
        continue;
      }
      const faults = documentFaults(SCHEMAS[collection], document, ['backup', 'documents', collection, index]);
      if (faults.length > 0) {
        errors.push(...faults.slice(0, MOST_ERRORS - errors.length));
        continue;
      }
      const { id } = document as { id: string };
      if (ids.has(id)) wrong([collection, index, 'id'], 'This id stands in the file twice.', { value: id });
      ids.add(id);
    }
  }
  refuseFaults(errors, 'Nothing was restored.');
  if (backup.checksum !== undefined && backup.checksum !== (await checksumOf(documents)))
    throw refuseField(
      ['backup', 'checksum'],
      'The file was changed after it was saved: its checksum does not fit. Take another copy. Nothing was restored.',
    );
  return documents as { [C in Collection]: { id: string }[] };
}

/** SHA-256 of a value as JSON, hexadecimal. */
async function checksumOf(documents: unknown): Promise<string> {
  const bytes = new TextEncoder().encode(JSON.stringify(documents));
  const digest = await crypto.subtle.digest('SHA-256', bytes);
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

const COLLECTION_WORDS: Readonly<Record<Collection, readonly [one: string, many: string]>> = {
  households: ['household', 'households'],
  kits: ['kit', 'kits'],
  stock: ['stock entry', 'stock entries'],
  plans: ['plan', 'plans'],
  measurements: ['measurement', 'measurements'],
  bookings: ['booking', 'bookings'],
  foods: ['own food', 'own foods'],
};

function countsInWords(counts: Readonly<Record<Collection, number>>): string {
  return COLLECTIONS.filter((name) => counts[name] > 0)
    .map((name) => `${counts[name]} ${COLLECTION_WORDS[name][counts[name] === 1 ? 0 : 1]}`)
    .join(', ');
}
