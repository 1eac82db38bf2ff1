/** Kits as files: JSON out and in, and one kit as a schema.org Recipe. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import type { Kit } from '../../cooking/dishes/kit.ts';
import { packableParts } from '../../cooking/dishes/part-choices.ts';
import { type OwnFood, ownFoodRow } from '../../cooking/foods/own-food.ts';
import { stockTotals } from '../../planning/stock-lots.ts';
import { keyOf, listBodies, listDocuments } from '../../storage/collections.ts';
import { currentFormat, FORMATS } from '../../storage/formats.ts';
import { recipeJsonLd } from '../../wording/recipe-json-ld.ts';
import type { oneAtATime } from '../one-at-a-time.ts';
import { foodsNamedIn, ownFoodsOf, resolvedKits, unknownFoods, withOwnFoods } from '../own-foods.ts';
import { type FieldError, jsonPointer, RefusedError } from '../problem.ts';
import { answer, FOUND_PROBLEMS, fieldError, fileAnswers, jsonBody, READ_PROBLEMS } from '../problem-answers.ts';
import { documentFaults, refuseInvalid } from '../refuse-invalid.ts';
import { ownFoodOf, ownFoodSchema } from '../schemas-food.ts';
import { kitSchema } from '../schemas-kit.ts';
import type { Services } from '../services.ts';
import { z } from '../zod.ts';
import { idParams } from './documents.ts';

const KIT_FILE_VERSION = 1;
const MOST_ERRORS = 50;

const fileAnswer = z
  .object({
    file: z.literal('kits'),
    version: z.number().meta({ unit: '1' }),
    kits: z.array(kitSchema),
    foods: z.array(ownFoodSchema),
  })
  .meta({ id: 'KitFile', description: 'Kits with the own foods that they name.' });

const exportRoute = createRoute({
  method: 'get',
  path: '/api/kits.json',
  summary: 'All kits as one file, with the own foods that they name',
  responses: { 200: answer(fileAnswer, 'Version 1 of the kit file.'), ...READ_PROBLEMS },
});

const importSchema = z
  .strictObject({
    file: z.looseObject({
      file: z.unknown().optional(),
      version: z.unknown().optional(),
      kits: z.unknown().optional(),
      foods: z.unknown().optional(),
    }),
    /** Whether a stored kit or food of the same id is replaced by that of the file. */
    replace: z.boolean().optional(),
    preview: z.boolean().optional(),
  })
  .meta({ id: 'KitFileImport', description: 'Kits of a file, all or nothing.' });

const importedSchema = z
  .object({
    stored: z.boolean(),
    items: z.array(
      z.object({
        what: z.enum(['kit', 'food']),
        id: z.string(),
        name: z.string(),
        outcome: z.enum(['new', 'same', 'replaces', 'refused']),
        faults: z.array(fieldError),
      }),
    ),
  })
  .meta({ id: 'KitFileImported' });

const importRoute = createRoute({
  method: 'post',
  path: '/api/kits.json',
  summary: 'Take kits of a file in, all or nothing; with `preview` say of each what would become of it',
  request: { body: jsonBody(importSchema) },
  responses: fileAnswers(importedSchema, {
    previewed: 'Previewed: nothing was stored.',
    stored: 'Stored.',
    largest: '16 MiB',
  }),
});

const recipeRoute = createRoute({
  method: 'get',
  path: '/api/kits/{id}/recipe',
  summary: 'A kit as a schema.org Recipe in JSON-LD',
  request: { params: idParams },
  responses: {
    200: { description: 'A Recipe.', content: { 'application/ld+json': { schema: z.looseObject({}) } } },
    ...FOUND_PROBLEMS,
  },
});

interface ImportItem {
  what: 'kit' | 'food';
  id: string;
  name: string;
  outcome: 'new' | 'same' | 'replaces' | 'refused';
  faults: FieldError[];
}

/** @param inTurn shared with everything that appends to the ledger: a part in stock cannot be taken away meanwhile */
export function kitFileRoutes({ store, newId }: Services, inTurn: ReturnType<typeof oneAtATime>) {
  return new OpenAPIHono()
    .openapi(exportRoute, async (c) => {
      const kits = await listBodies(store, 'kits');
      const named = new Set(kits.flatMap((kit) => foodsNamedIn(kit)).map(({ foodId }) => foodId));
      const foods = (await listBodies(store, 'foods')).filter((food) => named.has(food.id));
      return c.json({ file: 'kits' as const, version: KIT_FILE_VERSION, kits, foods }, 200, {
        'content-disposition': 'attachment; filename="kits.json"',
      }) as never;
    })
    .openapi(
      importRoute,
      async (c) => {
        const { file, replace = false, preview = false } = c.req.valid('json');
        requireKitFile(file);
        const body = await inTurn(async () => {
          const { items, writes } = await understood(file.kits as unknown[], (file.foods ?? []) as unknown[], replace);
          const refused = items.filter((item) => item.outcome === 'refused');
          if (preview) return { stored: false, items };
          const [first] = refused.flatMap((item) => item.faults);
          if (first !== undefined) {
            const errors: FieldError[] = refused.flatMap((item) => item.faults).slice(0, MOST_ERRORS);
            throw new RefusedError('invalid-input', `${first.pointer}: ${first.detail} Nothing was stored.`, {
              errors,
              extensions: { items },
            });
          }
          if (writes.length > 0 && (await store.putAll(writes, newId())).outcome === 'conflict')
            throw new RefusedError('already-there', 'A kit was changed meanwhile. Nothing was stored; try again.');
          return { stored: true, items };
        });
        return c.json(body, preview ? 200 : 201) as never;
      },
      refuseInvalid(importRoute),
    )
    .openapi(
      recipeRoute,
      async (c) => {
        const { id } = c.req.valid('param');
        const kit = (await resolvedKits(store)).find((one) => one.id === id);
        if (kit === undefined) throw new RefusedError('not-found', `There is no ${id}.`);
        return c.body(JSON.stringify(recipeJsonLd(kit), null, 2), 200, {
          'content-type': 'application/ld+json; charset=utf-8',
        }) as never;
      },
      refuseInvalid(recipeRoute),
    );

  /** What each kit and food of a file is, and the writes that store them. */
  async function understood(kits: readonly unknown[], foods: readonly unknown[], replace: boolean) {
    const items: ImportItem[] = [];
    const writes: { key: string; body: unknown; expect: string | null }[] = [];
    const storedKits = new Map((await listDocuments(store, 'kits')).map((one) => [one.body.id, one]));
    const storedFoods = new Map((await listDocuments(store, 'foods')).map((one) => [one.body.id, one]));
    const stock = stockTotals(await listBodies(store, 'stock')).filter((lot) => lot.quantity > 0);
    const newFoods: OwnFood[] = [];
    const seen = new Set<string>();
    const take = (
      what: 'kit' | 'food',
      index: number,
      sent: unknown,
      faults: ImportItem['faults'],
      old: { rev: string; body: unknown } | undefined,
    ) => {
      const collection = what === 'kit' ? 'kits' : 'foods';
      const { id = '', name = '' } = (sent ?? {}) as { id?: string; name?: string };
      const pointer = (field: string) => jsonPointer(['file', collection, index, field]);
      const twice = `${what} ${id}`;
      if (seen.has(twice)) faults.push({ pointer: pointer('id'), detail: 'This id stands in the file twice.' });
      seen.add(twice);
      const same = old !== undefined && isSame(old.body, sent);
      if (old !== undefined && !same && !replace)
        faults.push({
          pointer: pointer('id'),
          detail: `Another ${what} of this id is stored. Send \`replace: true\` to put this one in its place.`,
        });
      const outcome = faults.length > 0 ? 'refused' : same ? 'same' : old === undefined ? 'new' : 'replaces';
      items.push({ what, id: String(id), name: String(name), outcome, faults });
      if (outcome === 'refused' || outcome === 'same') return;
      const body = { ...(sent as object), format: currentFormat(FORMATS[collection]) };
      writes.push({ key: keyOf(collection, String(id)), body, expect: old?.rev ?? null });
    };
    for (const [index, sent] of foods.entries()) {
      const faults = documentFaults(ownFoodSchema, sent, ['file', 'foods', index]);
      if (faults.length === 0) newFoods.push(ownFoodOf(ownFoodSchema.parse(sent)));
      take('food', index, sent, faults, storedFoods.get(idOf(sent)));
    }
    const own = [...newFoods.map(ownFoodRow), ...(await ownFoodsOf(store))];
    for (const [index, sent] of kits.entries()) {
      const faults = documentFaults(kitSchema, sent, ['file', 'kits', index]);
      if (faults.length === 0) {
        const kit: Kit = kitSchema.parse(sent);
        faults.push(...unknownFoods(foodsNamedIn(kit, ['file', 'kits', index]), own));
        const parts = new Set(packableParts(withOwnFoods(kit, own)).map((part) => part.id));
        for (const lot of stock)
          if (lot.kitId === kit.id && !parts.has(lot.partId))
            faults.push({
              pointer: jsonPointer(['file', 'kits', index, 'parts']),
              detail: `The part ${lot.partId} is still in stock and cannot be left out.`,
            });
      }
      take('kit', index, sent, faults, storedKits.get(idOf(sent)));
    }
    return { items, writes };
  }
}

/** @throws RefusedError 422 when the file is of another kind or version */
function requireKitFile(file: z.output<typeof importSchema>['file']): void {
  const wrong = (field: string, detail: string): never => {
    throw new RefusedError('invalid-input', detail, { errors: [{ pointer: jsonPointer(['file', field]), detail }] });
  };
  if (file.file !== 'kits') wrong('file', 'This is no file of kits: its member `file` must be "kits".');
  if (file.version !== KIT_FILE_VERSION)
    wrong('version', `This program reads version ${KIT_FILE_VERSION} of kit files.`);
  if (!Array.isArray(file.kits) || file.kits.length > 1000) wrong('kits', 'Must be a list of at most 1000 kits.');
  if (file.foods !== undefined && (!Array.isArray(file.foods) || file.foods.length > 1000))
    wrong('foods', 'Must be a list of at most 1000 own foods.');
}

function idOf(sent: unknown): string {
  return String((sent as { id?: unknown } | null)?.id ?? '');
}

function isSame(stored: unknown, sent: unknown): boolean {
  const plain = (value: unknown): unknown =>
    Array.isArray(value)
      ? value.map(plain)
      : typeof value === 'object' && value !== null
        ? Object.fromEntries(
            Object.entries(value)
              .filter(([name, member]) => member !== undefined && name !== 'format')
              .sort(([a], [b]) => (a < b ? -1 : 1))
              .map(([name, member]) => [name, plain(member)]),
          )
        : value;
  return JSON.stringify(plain(stored)) === JSON.stringify(plain(sent));
}
