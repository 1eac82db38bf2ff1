/** From bulk goods and a recipe to bags: how many sets come of it, what goes into each bag, and what must not. */
import { InvalidInputError, requireInRange } from '../../physics/errors.ts';
import { foodsKeptApart } from '../dishes/dish.ts';
import type { Kit, KitPart } from '../dishes/kit.ts';
import { ALLERGENS, type Allergen, type Food } from '../foods/food.ts';
import { foodOf } from '../foods/foods-table.ts';
import { isFatty, isHomeDriedMeat, kernelDensityOf, shelfLifeClassOf } from './keeping-class.ts';
import {
  ABSORBER_MOISTURE,
  absorberAdvice,
  absorberToOrderCc,
  NEVER_WITH_ABSORBER,
  oxygenCc,
} from './oxygen-absorbers.ts';
import {
  ABSORBER_SIZES_CC,
  absorberPackets,
  BAG_SIZES_L,
  type BucketShape,
  bagFor,
  bagsInBucket,
  PACKING,
} from './packing-containers.ts';
import { SHELF_LIVES, shelfLifeMonths } from './shelf-life.ts';

/** What is on hand of one food before it is packed. */
export interface BulkGoods {
  foodId: string;
  massG: number;
}

export interface PackingQuestion {
  kit: Kit;
  /** Sacks, tins and jars on hand; empty: as much as is needed. */
  bulk: readonly BulkGoods[];
  /** Sets wanted; absent: as many as the bulk goods give, or one. */
  sets?: number;
  /** Mean temperature where it will lie, C. */
  storageC: number;
  bagSizesL?: readonly number[];
  absorberSizesCc?: readonly number[];
  bucket?: { litres: number; shape: BucketShape };
  /** Whether absorbers are used at all; absent: they are. */
  absorbers?: boolean;
  /** Foods that were dried at home, by id. */
  homeDried?: readonly string[];
}

/** ok: pack it. warn: read the reason first. refused: not so; `wayOut` says how else. */
export type PackingVerdict = 'ok' | 'warn' | 'refused';

export interface PackingRemark {
  foodId: string;
  name: string;
  verdict: 'warn' | 'refused';
  text: string;
  wayOut: string;
}

export interface PackedPart {
  partId: string;
  name: string;
  /** bag: of foil; bottle: liquids; as-bought: tins stay what they are. */
  container: 'bag' | 'bottle' | 'as-bought';
  containersPerSet: number;
  containers: number;
  /** In one container, g. */
  massG: number;
  contents: { foodId: string; name: string; massG: number; guessed: boolean }[];
  /** Loose volume in one container, L. */
  heapL: number;
  /** To the brim, L; null: no bag on the list is large enough, or none is needed. */
  bagL: number | null;
  /** Air in the filled bag as a share of its volume, its headspace included; null without a bag. */
  voidShare: number | null;
  /** Oxygen in one bag, cc; null without a bag. */
  oxygenCc: number | null;
  /** Oxygen times 1.25, rounded up to 100 cc; null: no absorber. */
  neededCc: number | null;
  /** Packets for one bag, cc each; empty: no absorber. */
  packets: number[];
  verdict: PackingVerdict;
  remarks: PackingRemark[];
  /** How long it keeps its quality there, months, and what limits it. */
  keepsMonths: number;
  limitedBy: string;
  condition: string;
  /** About so many bags lie in one bucket; null: no bag. */
  perBucket: number | null;
  allergens: Allergen[];
}

export interface Packing {
  sets: number;
  /** The food of which there is least for the recipe; null where nothing was given, or sets were asked for. */
  limitedBy: string | null;
  leftOver: { foodId: string; name: string; massG: number }[];
  missing: { foodId: string; name: string; massG: number }[];
  /** Bulk goods that the recipe has no use for. */
  unused: { foodId: string; massG: number }[];
  parts: PackedPart[];
  bags: { litres: number; count: number }[];
  packets: { cc: number; count: number }[];
  buckets: number;
  bucket: { litres: number; shape: BucketShape };
  /** Of the part that keeps least, months. */
  keepsMonths: number;
  keepsPart: string;
  verdict: PackingVerdict;
}

const G_PER_KG = 1000;
const DEFAULT_BUCKET = { litres: 19, shape: 'round' } as const;
const MOST_SETS = 10_000;

/**
 * Works out a packing sheet.
 *
 * `oxygen = 0.2095 (V - sum m / rho)`, the bag's whole volume counted, ordered at 1.25 of it and rounded up to 100 cc
 * (dry-pack leaflets 2007). A kit is as good as its shortest-lived part. Home-dried meat with an absorber and what is
 * moist are refused (trade notes H15); a dry mix whose pulses could not be soaked apart is flagged (H12).
 * @param question masses in g, temperatures in C; at least one ingredient of positive mass in every part
 * @throws InvalidInputError for an unknown food, an empty part, a negative amount, or no set at all
 */
export function packKit(question: PackingQuestion): Packing {
  const { kit, storageC } = question;
  requireInRange('storageC', storageC, -30, 50, 'C');
  const needs = massesOf(kit);
  for (const { foodId, massG } of question.bulk)
    if (!(massG >= 0)) throw new InvalidInputError('bulk', massG, `give 0 g or more of ${foodId}`);
  const have = new Map<string, number>();
  for (const { foodId, massG } of question.bulk) have.set(foodId, (have.get(foodId) ?? 0) + massG);
  const { sets, limitedBy } = setsOf(question, needs, have);
  const bucket = question.bucket ?? DEFAULT_BUCKET;
  const parts = kit.parts.map((part) => packPart(question, part, sets, bucket));
  const keeps = [...parts].sort((a, b) => a.keepsMonths - b.keepsMonths)[0] as PackedPart;
  const rows = [...needs].map(([foodId, { food, massG }]) => ({
    foodId,
    name: food.name,
    left: (have.get(foodId) ?? 0) - massG * sets,
    given: have.has(foodId),
  }));
  return {
    sets,
    limitedBy: limitedBy === null ? null : (needs.get(limitedBy)?.food.name ?? limitedBy),
    leftOver: rows
      .filter(({ given, left }) => given && left > 0.5)
      .map(({ foodId, name, left }) => ({ foodId, name, massG: left })),
    missing: rows.filter(({ left }) => left < -0.5).map(({ foodId, name, left }) => ({ foodId, name, massG: -left })),
    unused: question.bulk.filter(({ foodId }) => !needs.has(foodId)).map(({ foodId, massG }) => ({ foodId, massG })),
    parts,
    bags: counted(
      parts.flatMap((part) => Array.from({ length: part.bagL === null ? 0 : part.containers }, () => part.bagL ?? 0)),
    ).map(([litres, count]) => ({ litres, count })),
    packets: counted(
      parts.flatMap((part) => part.packets.flatMap((cc) => Array.from({ length: part.containers }, () => cc))),
    ).map(([cc, count]) => ({ cc, count })),
    buckets: Math.ceil(
      parts.reduce(
        (sum, part) => sum + (part.perBucket === null || part.perBucket === 0 ? 0 : part.containers / part.perBucket),
        0,
      ) - 1e-9,
    ),
    bucket,
    keepsMonths: keeps.keepsMonths,
    keepsPart: keeps.name,
    verdict: worst(parts.map(({ verdict }) => verdict)),
  };
}

function massesOf(kit: Kit): Map<string, { food: Food; massG: number }> {
  const needs = new Map<string, { food: Food; massG: number }>();
  for (const part of kit.parts) {
    if (!part.ingredients.some(({ massG }) => massG > 0))
      throw new InvalidInputError(
        `parts.${part.id}`,
        0,
        `the part ${part.name} is empty: give it an ingredient, or leave it out`,
      );
    for (const ingredient of part.ingredients) {
      const food = foodOf(ingredient);
      if (food === undefined) throw new InvalidInputError('foodId', ingredient.foodId, 'use an id of GET /api/foods');
      const known = needs.get(food.id);
      needs.set(food.id, { food, massG: (known?.massG ?? 0) + ingredient.massG });
    }
  }
  return needs;
}

/** Sets that come of the goods on hand: the food of which there is least decides; foods not given are bought. */
function setsOf(
  question: PackingQuestion,
  needs: ReadonlyMap<string, { massG: number }>,
  have: ReadonlyMap<string, number>,
): { sets: number; limitedBy: string | null } {
  if (question.sets !== undefined) {
    requireInRange('sets', question.sets, 1, MOST_SETS, '1');
    return { sets: question.sets, limitedBy: null };
  }
  const possible = [...needs].flatMap(([foodId, { massG }]) => {
    const onHand = have.get(foodId);
    return onHand === undefined || massG <= 0 ? [] : [{ foodId, sets: onHand / massG }];
  });
  if (possible.length === 0) return { sets: 1, limitedBy: null };
  const least = possible.reduce((a, b) => (b.sets < a.sets ? b : a));
  return { sets: Math.min(MOST_SETS, Math.floor(least.sets + 1e-9)), limitedBy: least.foodId };
}

function packPart(
  question: PackingQuestion,
  part: KitPart,
  sets: number,
  bucket: { litres: number; shape: BucketShape },
): PackedPart {
  const perSet = part.containersPerSet ?? 1;
  const rows = part.ingredients
    .filter(({ massG }) => massG > 0)
    .map((ingredient) => ({ food: foodOf(ingredient) as Food, massG: ingredient.massG / perSet }));
  const massG = rows.reduce((sum, row) => sum + row.massG, 0);
  const heapL = rows.reduce((sum, row) => sum + row.massG / row.food.bulkDensityGPerL.value, 0);
  const container = rows.every(({ food }) => food.group === 'fat' || food.id === 'honey')
    ? ('bottle' as const)
    : rows.every(({ food }) => food.group === 'tinned')
      ? ('as-bought' as const)
      : ('bag' as const);
  const bagL = container === 'bag' ? bagFor(heapL, question.bagSizesL ?? BAG_SIZES_L) : null;
  const remarks = [
    ...rows.flatMap(({ food }) => remarksOn(food, question, rows.length > 1)),
    ...apartRemarks(part),
    ...(container === 'bag' && bagL === null ? [tooLarge(part, heapL, question)] : []),
  ];
  const verdict = worst(remarks.map((remark) => remark.verdict));
  const advices = rows.map(({ food }) => adviceOn(food, question));
  // One food that must not lie without oxygen forbids it to the whole bag.
  const absorber =
    container === 'bag' &&
    question.absorbers !== false &&
    !advices.includes('never') &&
    advices.some((advice) => advice === 'yes' || advice === 'warn');
  const kernelsCc = rows.reduce((sum, row) => sum + row.massG / kernelDensityOf(row.food), 0);
  const oxygen = bagL === null ? null : oxygenCc(bagL, massG / G_PER_KG, massG / kernelsCc);
  const neededCc = absorber && oxygen !== null ? absorberToOrderCc(oxygen) : null;
  const lives = rows.map(({ food }) => {
    const id = shelfLifeClassOf(food, absorber);
    return { food, months: shelfLifeMonths(id, question.storageC), row: SHELF_LIVES[id] };
  });
  const shortest = lives.reduce((a, b) => (b.months < a.months ? b : a));
  return {
    partId: part.id,
    name: part.name,
    container,
    containersPerSet: perSet,
    containers: sets * perSet,
    massG: rounded(massG, 1),
    contents: rows.map((row) => ({
      foodId: row.food.id,
      name: row.food.name,
      massG: rounded(row.massG, 1),
      guessed: row.food.own?.guessed.includes('bulk density') ?? false,
    })),
    heapL: rounded(heapL, 3),
    bagL,
    voidShare: bagL === null ? null : rounded(1 - kernelsCc / (bagL * 1000), 3),
    oxygenCc: oxygen === null ? null : rounded(oxygen, 1),
    neededCc,
    packets: neededCc === null ? [] : absorberPackets(neededCc, question.absorberSizesCc ?? ABSORBER_SIZES_CC),
    verdict,
    remarks,
    keepsMonths: rounded(shortest.months, 1),
    limitedBy: shortest.food.name,
    condition: shortest.row.condition,
    perBucket: bagL === null ? null : bagsInBucket(heapL, bucket.litres, bucket.shape),
    allergens: ALLERGENS.filter((allergen) => rows.some(({ food }) => food.allergens.includes(allergen))),
  };
}

function adviceOn(food: Food, question: PackingQuestion) {
  return adviceAndReason(food, question).advice;
}

function adviceAndReason(food: Food, question: PackingQuestion) {
  const homeDried = question.homeDried?.includes(food.id) === true || food.own?.homeDried === true;
  if (isHomeDriedMeat(food, homeDried)) return absorberAdvice({ id: food.id, homeDried: true, meat: true });
  if (isFatty(food) && food.group !== 'freeze-dried')
    return { advice: 'never' as const, reason: 'fatty: turns rancid all the same' };
  const moistureKnown = food.own === undefined || food.own.moistureKnown;
  return absorberAdvice({
    id: food.id,
    moisturePercent: moistureKnown ? food.waterGPer100G.value : null,
    ...(homeDried ? { homeDried: true } : {}),
  });
}

/** What is to be said about one food in a bag; nothing for what is simply packed. */
function remarksOn(food: Food, question: PackingQuestion, mixed: boolean): PackingRemark[] {
  const homeDried = question.homeDried?.includes(food.id) === true || food.own?.homeDried === true;
  const remark = (verdict: 'warn' | 'refused', text: string, wayOut: string): PackingRemark => ({
    foodId: food.id,
    name: food.name,
    verdict,
    text,
    wayOut,
  });
  if (isHomeDriedMeat(food, homeDried))
    return [
      remark(
        'refused',
        'Home-dried meat is moist enough for botulism where there is no oxygen: never with an absorber, never sealed for years.',
        'Eat it within two months, freeze it, or pack freeze-dried meat or tins instead.',
      ),
    ];
  if (food.group === 'tinned')
    return [
      remark(
        'warn',
        'Stays in its tin.',
        'Look at each tin before it is packed and again before it is opened: bulging, leaking, badly dented or frozen and thawed ones are thrown away unopened.',
      ),
    ];
  if (food.group === 'fat')
    return [
      remark(
        'warn',
        'Keeps a year or two only and turns rancid.',
        'Keep it in its own bottle, cool and dark, and replace it yearly; smell before use.',
      ),
    ];
  const { advice, reason } = adviceAndReason(food, question);
  if (advice === 'never' && isFatty(food))
    return [
      remark(
        'warn',
        'Too fatty to keep for years: it turns rancid, with or without an absorber.',
        'Pack it apart and replace it within the printed time; smell before use.',
      ),
    ];
  if (advice === 'never') {
    const moist = food.waterGPer100G.value > ABSORBER_MOISTURE.refuseAbove.value;
    const percent = Math.round(food.waterGPer100G.value);
    return [
      remark(
        // Dried fruit of the lists is eaten within months; what no list knows is not sealed at all.
        moist && !NEVER_WITH_ABSORBER.has(food.id) ? 'refused' : 'warn',
        moist
          ? `Too moist (${percent} % water) to lie without oxygen, where botulism can grow: this bag gets no absorber.`
          : `No absorber: ${reason}.`,
        mixed
          ? 'Better in a bag of its own, with air, replaced within the printed time.'
          : 'Pack it with air and replace it within the printed time.',
      ),
    ];
  }
  if (advice === 'not-needed' && mixed)
    return [
      remark(
        'warn',
        'Sets hard next to an absorber.',
        'Put it in a small bag of its own inside the large one, or break the lump when cooking.',
      ),
    ];
  if (advice === 'warn')
    return [
      remark(
        'warn',
        homeDried ? 'Home-dried: only if every piece snaps when it is bent.' : `Absorber with care: ${reason}.`,
        homeDried
          ? 'Dry it further until it snaps, or pack it with air and eat it within a year.'
          : 'Dry it until it is crisp, or pack it with air.',
      ),
    ];
  return [];
}

/** Parts whose pulses could not be soaked or drained apart from what lies with them (trade notes H12). */
function apartRemarks(part: KitPart): PackingRemark[] {
  return foodsKeptApart(part).map(({ food, verdict, reason }) => ({
    foodId: food.id,
    name: food.name,
    verdict,
    text: reason,
    wayOut: `Pack the ${food.name.toLowerCase()} in a part of their own.`,
  }));
}

function tooLarge(part: KitPart, heapL: number, question: PackingQuestion): PackingRemark {
  const largest = Math.max(...(question.bagSizesL ?? BAG_SIZES_L));
  const bags = Math.ceil((heapL * (part.containersPerSet ?? 1)) / (largest * PACKING.bagFillShare.value));
  return {
    foodId: part.ingredients[0]?.foodId ?? '',
    name: part.name,
    verdict: 'warn',
    text: `No bag on the list holds ${heapL.toFixed(1)} L.`,
    wayOut: `Divide the part into ${bags} containers a set, or use larger bags.`,
  };
}

function rounded(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}

function counted(values: readonly number[]): [number, number][] {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts].sort(([a], [b]) => a - b);
}

function worst(verdicts: readonly PackingVerdict[]): PackingVerdict {
  return verdicts.includes('refused') ? 'refused' : verdicts.includes('warn') ? 'warn' : 'ok';
}
