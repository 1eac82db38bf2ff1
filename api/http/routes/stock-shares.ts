/** Sharing the stock out: a proposal, its list to print, and the moves that carry it out. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import type { Kit } from '../../cooking/dishes/kit.ts';
import type { StockEntry, StockLot } from '../../planning/plan-types.ts';
import { type ShareOut, shareOut } from '../../planning/share-out.ts';
import { linesOfMove } from '../../planning/stock-changes.ts';
import { lotKey } from '../../planning/stock-lots.ts';
import { shareSheetHtml } from '../../wording/print/share-sheet.ts';
import { SHARE_RULE, shareWords } from '../../wording/share-words.ts';
import { type Ledger, lotsAsStored, readLedger, writeLines } from '../ledger-lines.ts';
import type { oneAtATime } from '../one-at-a-time.ts';
import { ownFoodsOf, withOwnFoods } from '../own-foods.ts';
import { type FieldError, jsonPointer, RefusedError } from '../problem.ts';
import { answer, CONFLICT, jsonBody, READ_PROBLEMS, WRITE_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { dateTime, id, label, measure } from '../schema-values.ts';
import { stockEntrySchema } from '../schemas-kit.ts';
import type { Services } from '../services.ts';
import { z } from '../zod.ts';

const questionShape = {
  /** What is shared: everything at these places of one household. */
  householdId: id,
  fromPlaceIds: z.array(id).min(1).max(50).optional(),
  kitIds: z.array(id).min(1).max(500).optional(),
  among: z
    .array(z.strictObject({ label, heads: measure(0, 100_000, '1'), placeId: id.optional() }))
    .min(1)
    .max(50)
    .refine((rows) => new Set(rows.map((row) => row.label)).size === rows.length, 'Two shares have the same name'),
};

const questionSchema = z.strictObject(questionShape);

const sharesSchema = z
  .strictObject({
    ...questionShape,
    /** Books the moves; the stock must still be the one that `basis` was worked out from. */
    accept: z.strictObject({ basis: z.string().max(64), at: dateTime }).optional(),
  })
  .meta({ id: 'SharesQuestion', description: 'Split the stock by heads; `accept` books it as moves.' });

const bag = z.object({
  kitId: z.string(),
  partId: z.string(),
  placeId: z.string(),
  packedOn: z.string(),
  quantity: z.number().meta({ unit: '1' }),
});

const shareOutSchema = z
  .object({
    shares: z.array(
      z.object({
        label: z.string(),
        heads: z.number().meta({ unit: '1' }),
        placeId: z.string().nullable(),
        sets: z.array(
          z.object({
            kitId: z.string(),
            sets: z.number().meta({ unit: '1' }),
            due: z.number().meta({ unit: '1' }),
          }),
        ),
        servings: z.number().meta({ unit: '1' }),
        takes: z.array(bag),
        leftOver: z.array(bag),
      }),
    ),
    undivided: z.array(
      z.object({
        kitId: z.string(),
        partId: z.string().nullable(),
        quantity: z.number().meta({ unit: '1' }),
        goesTo: z.array(z.string()),
      }),
    ),
    notSound: z.array(bag.extend({ why: z.enum(['past-use-by', 'packed-later']) })),
    rule: z.string(),
    words: z.array(z.string()),
    basis: z.string(),
    moved: z.array(stockEntrySchema),
  })
  .meta({ id: 'ShareOut' });

const sharesRoute = createRoute({
  method: 'post',
  path: '/api/stock/shares',
  summary: 'Split the stock among places or people by heads; proposes, and books the moves where `accept` is sent',
  request: { body: jsonBody(sharesSchema) },
  responses: {
    200: answer(shareOutSchema, 'Proposed; `moved` is empty.'),
    201: answer(shareOutSchema, 'Booked: `moved` holds the entries of the ledger.'),
    ...WRITE_PROBLEMS,
    ...CONFLICT,
    412: { description: 'The stock has changed since the proposal.', content: READ_PROBLEMS[422].content },
  },
});

const sheetRoute = createRoute({
  method: 'get',
  path: '/api/stock/shares/sheet',
  summary: 'The list of a share-out to print, one list for each share',
  request: {
    query: z.strictObject({
      question: z.string().max(20_000).meta({ description: 'The body of POST /api/stock/shares, as JSON.' }),
    }),
  },
  responses: {
    200: { description: 'HTML for A4 and US Letter alike.', content: { 'text/html': { schema: z.string() } } },
    ...READ_PROBLEMS,
  },
});

type Question = z.output<typeof questionSchema>;

/** @param inTurn shared with everything that appends to the ledger */
export function stockShareRoutes(services: Services, inTurn: ReturnType<typeof oneAtATime>) {
  const { newId, clock, store } = services;

  async function proposal(question: Question, ledger: Ledger, pathOf: (field: string) => FieldError) {
    const household = ledger.households.find((one) => one.id === question.householdId);
    const errors: FieldError[] = [];
    const wrong = (field: string, detail: string, value: unknown) => errors.push({ ...pathOf(field), detail, value });
    if (household === undefined) wrong('householdId', 'There is no household of this name.', question.householdId);
    const places = new Map((household?.places ?? []).map((place) => [place.id, place.name ?? place.id]));
    question.fromPlaceIds?.forEach((placeId, index) => {
      if (!places.has(placeId)) wrong(`fromPlaceIds/${index}`, 'There is no place of this name.', placeId);
    });
    question.among.forEach(({ placeId }, index) => {
      if (placeId !== undefined && !places.has(placeId))
        wrong(`among/${index}/placeId`, 'There is no place of this name.', placeId);
    });
    question.kitIds?.forEach((kitId, index) => {
      if (!ledger.kits.some((kit) => kit.id === kitId))
        wrong(`kitIds/${index}`, 'There is no kit of this name.', kitId);
    });
    if (!question.among.some((sharer) => sharer.heads > 0))
      wrong('among', 'Somebody must have a head: there is nobody to share among.', null);
    const [first] = errors;
    if (first !== undefined) throw new RefusedError('invalid-input', first.detail, { errors });
    const from = new Set(question.fromPlaceIds ?? places.keys());
    const lots = lotsAsStored(ledger).filter((lot) => from.has(lot.placeId) && lot.quantity > 0);
    const own = await ownFoodsOf(store);
    const kits = ledger.kits
      .filter((kit) => question.kitIds === undefined || question.kitIds.includes(kit.id))
      .map((kit) => withOwnFoods(kit, own));
    const today = new Date(clock.now()).toISOString().slice(0, 10);
    const sharers = question.among.map(({ placeId = null, ...row }) => ({ ...row, placeId }));
    const out = shareOut(kits, lots, sharers, today);
    return { out, kits, lots, places, today, name: household?.name ?? '', basis: basisOf(lots, kits) };
  }

  const answerOf = (out: ShareOut, kits: Kit[], basis: string, moved: StockEntry[]) => ({
    ...out,
    rule: SHARE_RULE,
    words: shareWords(out, kits),
    basis,
    moved,
  });

  return new OpenAPIHono()
    .openapi(
      sharesRoute,
      async (c) => {
        const { accept, ...question } = c.req.valid('json');
        const pathOf = (field: string): FieldError => ({ pointer: jsonPointer(field.split('/')), detail: '' });
        if (accept === undefined) {
          const { out, kits, basis } = await proposal(question, await readLedger(services), pathOf);
          return c.json(answerOf(out, kits, basis, []), 200) as never;
        }
        const homeless = question.among.findIndex((sharer) => sharer.placeId === undefined && sharer.heads > 0);
        if (homeless >= 0)
          throw new RefusedError(
            'invalid-input',
            'Each share needs a place to be moved to. Name one, or print the list and book what is carried away as lost or eaten.',
            { errors: [{ pointer: jsonPointer(['among', homeless, 'placeId']), detail: 'Is missing.' }] },
          );
        const body = await inTurn(async () => {
          const { out, kits, lots, basis } = await proposal(question, await readLedger(services), pathOf);
          if (basis !== accept.basis)
            throw new RefusedError(
              'stale-revision',
              'The stock has changed since this was proposed. Nothing was moved; look at the new proposal.',
              { extensions: { current: answerOf(out, kits, basis, []) } },
            );
          const moved = movesOf(out, lots, accept.at).map((line) => ({ ...line, id: newId() }));
          await writeLines(services, moved);
          return answerOf(out, kits, basis, moved);
        });
        return c.json(body, 201) as never;
      },
      refuseInvalid(sharesRoute),
    )
    .openapi(
      sheetRoute,
      async (c) => {
        const question = readQuestion(c.req.valid('query').question);
        const pathOf = (): FieldError => ({ parameter: 'question', detail: '' });
        const { out, kits, places, today, name } = await proposal(question, await readLedger(services), pathOf);
        return c.html(shareSheetHtml(out, { kits, places }, name, today), 200) as never;
      },
      refuseInvalid(sheetRoute),
    );
}

function readQuestion(text: string): Question {
  let sent: unknown;
  try {
    sent = JSON.parse(text);
  } catch {
    sent = null;
  }
  const read = questionSchema.safeParse(sent);
  if (read.success) return read.data;
  const issue = read.error.issues[0];
  const detail = `Must be a question as POST /api/stock/shares takes it: ${issue?.path.join('/') ?? ''} ${issue?.message ?? ''}.`;
  throw new RefusedError('invalid-input', detail, { errors: [{ parameter: 'question', detail }] });
}

/** Lines that carry every bag to the place of its share. */
function movesOf(out: ShareOut, lots: readonly StockLot[], at: string) {
  const byKey = new Map(lots.map((lot) => [lotKey(lot), lot]));
  return out.shares.flatMap((share) =>
    [...share.takes, ...share.leftOver].flatMap(({ quantity, ...name }) => {
      const lot = byKey.get(lotKey(name));
      if (share.placeId === null || lot === undefined || name.placeId === share.placeId) return [];
      const there = byKey.get(lotKey({ ...name, placeId: share.placeId }));
      return linesOfMove(lot, there, share.placeId, quantity, at, `Share-out: ${share.label}`);
    }),
  );
}

/** A mark of the stock and recipes that a proposal rests on: equal where nothing changed. */
function basisOf(lots: readonly StockLot[], kits: readonly Kit[]): string {
  const text = JSON.stringify([lots, kits.map(({ id: kitId, servings, parts }) => [kitId, servings, parts])]);
  let high = 0x811c9dc5;
  let low = 0x1b873593;
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    high = Math.imul(high ^ code, 0x01000193) >>> 0;
    low = Math.imul(low + code, 0x9e3779b1) >>> 0;
  }
  return `${high.toString(16).padStart(8, '0')}${low.toString(16).padStart(8, '0')}`;
}
