/** Sheets of one kit to print: how it is packed, and the card that lies in its container. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import { guessesIn } from '../../cooking/dishes/guesses.ts';
import type { Kit } from '../../cooking/dishes/kit.ts';
import { type KitCard, kitCard } from '../../cooking/dishes/kit-card.ts';
import { kitWithParts, packableParts } from '../../cooking/dishes/part-choices.ts';
import { FOODS, foodOf } from '../../cooking/foods/foods-table.ts';
import { nearestFoods } from '../../cooking/foods/nearest-foods.ts';
import { resolveHousehold } from '../../cooking/household/resolve-household.ts';
import { type BulkGoods, type Packing, packKit } from '../../cooking/keeping/packing.ts';
import { withLearned } from '../../cooking/measurements/learn-from-measurements.ts';
import { toLocal } from '../../planning/local-time.ts';
import { readDocument } from '../../storage/collections.ts';
import { kitCardHtml } from '../../wording/print/kit-card.ts';
import { packingSheetHtml } from '../../wording/print/packing-sheet.ts';
import { massOfTyped } from '../../wording/typed-amount.ts';
import { learnedOf } from '../household-records.ts';
import { ownFoodsOf, unknownFoodText, withOwnFoods } from '../own-foods.ts';
import { type FieldError, RefusedError } from '../problem.ts';
import { FOUND_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { COOKING_ELEVATION_RANGE_M, date, id, queryMeasure } from '../schema-values.ts';
import type { Services } from '../services.ts';
import { readOrRefuse } from '../write-document.ts';
import { z } from '../zod.ts';
import { idParams } from './documents.ts';

const list = z.string().max(4000).optional();

/** What both sheets may be asked: when and as what the kit was packed, for whom, and how it is printed. */
const sheetQuery = {
  storageC: queryMeasure(-30, 50, 'C'),
  packedOn: date.optional(),
  standIns: list.meta({ description: 'Parts that stand in for others, by id, commas between.' }),
  householdId: id.optional(),
  placeId: id.optional(),
  units: z.enum(['metric', 'us']).optional(),
  paper: z.enum(['a4', 'letter']).optional(),
  format: z.enum(['html', 'json']).optional(),
};

/** A sheet to print, or with format=json the figures behind it. */
function sheetAnswers<Figures extends z.ZodType>(figures: Figures) {
  return {
    200: {
      description: 'HTML for A4 and US Letter alike, or with format=json the figures behind it.',
      content: { 'text/html': { schema: z.string() }, 'application/json': { schema: figures } },
    },
    ...FOUND_PROBLEMS,
  } as const;
}

const packingQuery = z.strictObject({
  /** Goods on hand: `kidney-bean=25 kg; pearl-barley=2 x 5 kg`. */
  bulk: list.meta({ description: 'Goods on hand, `food=amount; food=amount`: `kidney-bean=25 kg; salt=2 x 500 g`.' }),
  sets: queryMeasure(1, 10_000, '1').meta({ description: 'Sets wanted; left out: as many as the goods give.' }),
  homeDried: list.meta({ description: 'Foods that were dried at home, by id, commas between.' }),
  bagsL: list.meta({ description: 'Bags to choose among, L, semicolons between.' }),
  packetsCc: list.meta({ description: 'Absorber packets to choose among, cc of oxygen, semicolons between.' }),
  absorbers: z.enum(['yes', 'no']).optional(),
  bucketL: queryMeasure(1, 250, 'L'),
  bucketShape: z.enum(['round', 'rectangular']).optional(),
  ...sheetQuery,
});

const packingRoute = createRoute({
  method: 'get',
  path: '/api/kits/{id}/packing-sheet',
  summary:
    'From goods on hand to bags: sets, bags, masses, absorbers, what not to pack, order of work; to print or as JSON',
  request: { params: idParams, query: packingQuery },
  responses: sheetAnswers(
    z
      .custom<Packing>()
      .openapi({ type: 'object', required: ['sets', 'parts', 'bags', 'packets', 'buckets', 'verdict'] })
      .meta({ id: 'Packing' }),
  ),
});

const cardQuery = z.strictObject({
  /** Left out: labels for one set. */
  labelSets: queryMeasure(0, 200, '1').meta({ description: 'Labels are printed for so many sets; 0: none.' }),
  card: z.enum(['yes', 'no']).optional(),
  elevationM: queryMeasure(COOKING_ELEVATION_RANGE_M.minimum, COOKING_ELEVATION_RANGE_M.maximum, 'm'),
  ...sheetQuery,
});

const cardRoute = createRoute({
  method: 'get',
  path: '/api/kits/{id}/card',
  summary: 'The card that lies in the container of a kit, and labels for its parts; to print or as JSON',
  request: { params: idParams, query: cardQuery },
  responses: sheetAnswers(
    z
      .custom<KitCard>()
      .openapi({ type: 'object', required: ['kitId', 'servings', 'nutrition', 'parts', 'ways', 'keepsMonths'] })
      .meta({ id: 'KitCard' }),
  ),
});

/** Where a kit would lie if nobody says: a cool room (common practice). */
const USUAL_STORAGE_C = 18;
/** Forty pages of labels. */
const MOST_LABELS = 400;

export function kitSheetRoutes(services: Services) {
  const { store, clock } = services;

  /** The kit with its own foods, and the place that it is meant for. */
  const asked = async (
    kitId: string,
    {
      householdId,
      placeId,
      standIns,
    }: { householdId?: string | undefined; placeId?: string | undefined; standIns?: string | undefined },
  ) => {
    const { body } = await readOrRefuse(services, 'kits', kitId);
    const own = await ownFoodsOf(store);
    const household = householdId === undefined ? null : await readDocument(store, 'households', householdId);
    if (householdId !== undefined && household === null)
      throw refuseParameter('householdId', 'There is no household of this id.', householdId);
    const places = household?.body.places ?? [];
    const place = placeId === undefined ? places[0] : places.find((one) => one.id === placeId);
    if (placeId !== undefined && place === undefined)
      throw refuseParameter('placeId', 'The household has no place of this id.', placeId);
    const zone = place?.timeZone ?? 'Etc/UTC';
    const today = toLocal(Math.floor(clock.now() / 60_000), zone).slice(0, 10);
    return {
      kit: withStandIns(withOwnFoods(body, own), standIns),
      own,
      household: household?.body ?? null,
      place: place ?? null,
      today,
    };
  };

  const latestToday = () => toLocal(Math.floor(clock.now() / 60_000) + EARLIEST_ZONE_MINUTES, 'Etc/UTC').slice(0, 10);

  const cardApp = new OpenAPIHono().openapi(
    cardRoute,
    async (c) => {
      const query = c.req.valid('query');
      const { kit, household, place } = await asked(c.req.valid('param').id, query);
      if (query.packedOn !== undefined) requireNotAfter(latestToday(), query.packedOn);
      const sets = query.labelSets === undefined ? 1 : wholeNumber('labelSets', query.labelSets, 0, 200);
      const containers = kit.parts.reduce((sum, part) => sum + (part.containersPerSet ?? 1), 0);
      if (sets * containers > MOST_LABELS)
        throw refuseParameter(
          'labelSets',
          `That is ${sets * containers} labels; print at most ${MOST_LABELS} at a time.`,
          sets,
          {
            minimum: 0,
            maximum: Math.floor(MOST_LABELS / containers),
            unit: '1',
          },
        );
      const learned = household === null ? null : await learnedOf(store, household.id);
      const cook =
        household === null || learned === null
          ? household
          : withLearned(resolveHousehold(household).household, learned);
      const storageC = query.storageC ?? place?.storageC ?? USUAL_STORAGE_C;
      const card = kitCard(kit, cook, place?.id ?? null, query.elevationM ?? null, storageC);
      if (query.format === 'json') return c.json(card, 200);
      const sheet = { card, packedOn: query.packedOn ?? null, labelSets: sets, withCard: query.card !== 'no' };
      return c.html(kitCardHtml(sheet, query.units ?? 'metric'), 200) as never;
    },
    refuseInvalid(cardRoute),
  );
  return cardApp.openapi(
    packingRoute,
    async (c) => {
      const query = c.req.valid('query');
      const { kit, own, place, today } = await asked(c.req.valid('param').id, query);
      if (query.packedOn !== undefined) requireNotAfter(latestToday(), query.packedOn);
      const storageC = query.storageC ?? place?.storageC ?? USUAL_STORAGE_C;
      const packing = packKit({
        kit,
        bulk: readBulk(query.bulk ?? '', kit, (foodId) => unknownFoodText(foodId, own)),
        storageC,
        ...(query.sets === undefined ? {} : { sets: wholeNumber('sets', query.sets, 1, 10_000) }),
        ...(query.bagsL === undefined ? {} : { bagSizesL: readNumbers('bagsL', query.bagsL, 0.05, 250, 'L') }),
        ...(query.packetsCc === undefined
          ? {}
          : { absorberSizesCc: readNumbers('packetsCc', query.packetsCc, 10, 10_000, 'cc') }),
        ...(query.absorbers === undefined ? {} : { absorbers: query.absorbers === 'yes' }),
        ...(query.homeDried === undefined ? {} : { homeDried: readHomeDried(query.homeDried, kit) }),
        bucket: { litres: query.bucketL ?? 19, shape: query.bucketShape ?? 'round' },
      });
      if (query.format === 'json') return c.json(packing, 200);
      const html = packingSheetHtml(
        {
          kitName: kit.name,
          servings: kit.servings,
          packing,
          packedOn: query.packedOn ?? today,
          storageC,
          guessed: guessesIn(kit).map(({ name, guessed }) => `${guessed.join(', ')} of ${name}`),
        },
        query.units ?? 'metric',
      );
      return c.html(html, 200) as never;
    },
    refuseInvalid(packingRoute),
  );
}

/** The kit with the parts in it that were packed in the place of others. */
function withStandIns(kit: Kit, standIns: string | undefined): Kit {
  const chosen = listed(standIns ?? '', ',');
  const known = packableParts(kit).map((part) => part.id);
  const unknown = chosen.find((one) => !known.includes(one));
  if (unknown !== undefined)
    throw refuseParameter('standIns', `No part of this kit has this id. There are: ${known.join(', ')}.`, unknown);
  return kitWithParts(kit, chosen);
}

/** The entries of a list in the query; empty ones are none. */
function listed(text: string, separator: string): string[] {
  return text
    .split(separator)
    .map((one) => one.trim())
    .filter((one) => one !== '');
}

/** A 422 for one parameter of the query. */
function refuseParameter(parameter: string, detail: string, value: unknown, more: Partial<FieldError> = {}) {
  return new RefusedError('invalid-input', `${parameter}: ${detail}`, {
    errors: [{ parameter, detail, value, ...more }],
  });
}

/** Where the day begins first: whoever packs there, or has a device set there, is a day ahead of others. */
const EARLIEST_ZONE_MINUTES = 14 * 60;

function requireNotAfter(today: string, packedOn: string): void {
  if (packedOn > today)
    throw refuseParameter('packedOn', `Must not be after today, ${today}.`, packedOn, { latest: today });
}

function wholeNumber(parameter: string, value: number, minimum: number, maximum: number): number {
  if (Number.isInteger(value)) return value;
  throw refuseParameter(parameter, 'Must be a whole number: sets are packed whole.', value, {
    minimum,
    maximum,
    unit: '1',
  });
}

/**
 * Goods on hand from the query, each with a food of the recipe or of the tables.
 * @throws RefusedError 422 with every entry that cannot be read
 */
function readBulk(text: string, kit: Kit, unknownText: (foodId: string) => string): BulkGoods[] {
  const errors: FieldError[] = [];
  const inKit = kit.parts.flatMap((part) => part.ingredients.flatMap((one) => foodOf(one) ?? []));
  const goods = listed(text, ';').flatMap((entry): BulkGoods[] => {
    const [name = '', amount, ...rest] = entry.split('=').map((part) => part.trim());
    const fault = (detail: string) => {
      errors.push({ parameter: 'bulk', detail, value: entry });
      return [];
    };
    if (amount === undefined || rest.length > 0) return fault('Write each as food=amount, semicolons between.');
    const food = inKit.find((one) => one.id === name) ?? (Object.hasOwn(FOODS, name) ? FOODS[name] : undefined);
    if (food === undefined) {
      const [nearest] = nearestFoods(name, inKit);
      return fault(
        nearest === undefined
          ? unknownText(name)
          : `No food of this kit has this id. Nearest: ${nearest.name} (${nearest.id}).`,
      );
    }
    const read = massOfTyped(amount, food.bulkDensityGPerL.value);
    if ('fault' in read) return fault(read.fault);
    if (read.massG > 1e8) return fault('More than 100 tonnes: check the unit.');
    return [{ foodId: food.id, massG: read.massG }];
  });
  const [first] = errors;
  if (first !== undefined) throw new RefusedError('invalid-input', `bulk: ${first.detail}`, { errors });
  return goods;
}

function readNumbers(parameter: string, text: string, minimum: number, maximum: number, unit: string): number[] {
  const numbers = text.split(';').map((one) => Number(one.trim().replace(',', '.')));
  if (numbers.length === 0 || numbers.length > 30 || numbers.some((one) => !(one >= minimum && one <= maximum)))
    throw refuseParameter(parameter, `Give sizes from ${minimum} to ${maximum} ${unit}, semicolons between.`, text, {
      minimum,
      maximum,
      unit,
    });
  return numbers;
}

function readHomeDried(text: string, kit: Kit): string[] {
  const ids = listed(text, ',');
  const known = new Set(kit.parts.flatMap((part) => part.ingredients.map((one) => one.foodId)));
  const unknown = ids.find((one) => !known.has(one));
  if (unknown !== undefined) throw refuseParameter('homeDried', 'No food of this kit has this id.', unknown);
  return ids;
}
