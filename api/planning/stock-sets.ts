/**
 * Complete sets out of the parts in store: how many there are at a place, out of which bags, which part limits, what is
 * left over. The oldest sound bags go first; where a part may be swapped, the kind with the older bags does.
 */
import type { Kit } from '../cooking/dishes/kit.ts';
import { type PartChoice, partChoices, stockKitId } from '../cooking/dishes/part-choices.ts';
import type { StockLot } from './plan-types.ts';
import { inOrderOfUse, isGoodOn } from './stock-lots.ts';

/** So much of a container is none: quantities are sums of parts of sets. */
const NOTHING = 1e-9;

/** Containers of one lot. */
export interface Containers {
  partId: string;
  placeId: string;
  packedOn: string;
  quantity: number;
}

/** Sets that are alike: with the same parts swapped. */
export interface SetsAlike {
  /** Ids of the stand-ins that are taken; empty: all as the recipe has it. */
  standIns: string[];
  sets: number;
  takes: Containers[];
}

/** What there is of a kit, as sets. */
export interface CompleteSets {
  /** Whole sets. */
  sets: number;
  /** The sets by the parts that make them up, in the order in which they are used. */
  alike: SetsAlike[];
  /** Parts of the recipe of which there is too little for one set more; empty where nothing at all is left over. */
  limitingPartIds: string[];
  /** Containers lacking for one set more of what is left over. */
  lacking: { partId: string; quantity: number }[];
  /** Sound containers in no set. */
  leftOver: Containers[];
  /** Containers that are in no set because they are past their date, or packed later than the date asked about. */
  notSound: (Containers & { why: 'past-use-by' | 'packed-later' })[];
}

/** The same of one place. */
export interface SetsAtPlace extends CompleteSets {
  kitId: string;
  placeId: string;
}

/**
 * Complete sets of a kit out of lots.
 * @param kit the recipe
 * @param lots lots of any kits, at the places that may be taken from
 * @param date `YYYY-MM-DD` on which they must be good
 */
export function completeSets(kit: Kit, lots: readonly StockLot[], date: string): CompleteSets {
  const own = lots.filter((lot) => lot.kitId === stockKitId(kit) && lot.quantity > NOTHING);
  const notSound = own.flatMap((lot) => {
    const why = !isGoodOn(lot, date) ? 'past-use-by' : lot.packedOn > date ? 'packed-later' : null;
    return why === null ? [] : [{ ...containersOf(lot, lot.quantity), why } as const];
  });
  const sound = own.filter((lot) => isGoodOn(lot, date) && lot.packedOn <= date).sort(inOrderOfUse);
  const choices = partChoices(kit);
  const runs = choices.map((choice) => runsOf(choice, sound));
  const counts = runs.map((list) => list.reduce((sum, run) => sum + run.sets, 0));
  const sets = Math.min(...counts);
  const stores = new Map(sound.map((lot) => [lot, lot.quantity]));
  const alike = setsAlike(choices, runs, sets).map(({ standIns, parts, count }): SetsAlike => {
    const takes = parts.flatMap(({ id, containersPerSet = 1 }) => takeFrom(stores, id, count * containersPerSet));
    return { standIns, sets: count, takes };
  });
  const leftOver = [...stores].flatMap(([lot, left]) => (left > NOTHING ? [containersOf(lot, left)] : []));
  const limiting = leftOver.length === 0 ? [] : choices.filter((_choice, index) => counts[index] === sets);
  return {
    sets,
    alike,
    limitingPartIds: limiting.map(({ partId }) => partId),
    lacking: limiting.map(({ partId, parts }) => ({ partId, quantity: lackingOf(parts, leftOver) })),
    leftOver,
    notSound,
  };
}

/**
 * Complete sets at every place where something of a kit lies: what lies apart makes no set.
 * @returns one row for each kit and place with anything in store, kits and places in the order of `kits` and the lots
 */
export function setsByPlace(kits: readonly Kit[], lots: readonly StockLot[], date: string): SetsAtPlace[] {
  const byKit = new Map<string, Map<string, StockLot[]>>();
  for (const lot of lots) {
    if (lot.quantity <= NOTHING) continue;
    const places = byKit.get(lot.kitId) ?? new Map<string, StockLot[]>();
    byKit.set(lot.kitId, places);
    const list = places.get(lot.placeId) ?? [];
    places.set(lot.placeId, list);
    list.push(lot);
  }
  return kits.flatMap((kit) =>
    [...(byKit.get(kit.id) ?? [])].map(([placeId, own]) => ({
      kitId: kit.id,
      placeId,
      ...completeSets(kit, own, date),
    })),
  );
}

/** Sets' worth of each kind of a part, the kind with the oldest bags first. */
function runsOf({ parts }: PartChoice, sound: readonly StockLot[]): { partId: string; sets: number }[] {
  return parts
    .map(({ id, containersPerSet = 1 }) => {
      const own = sound.filter((lot) => lot.partId === id);
      const held = own.reduce((sum, lot) => sum + lot.quantity, 0);
      return { partId: id, sets: Math.floor(held / containersPerSet + NOTHING), first: own[0] };
    })
    .filter((run) => run.sets > 0)
    .sort((a, b) => (a.first === undefined || b.first === undefined ? 0 : inOrderOfUse(a.first, b.first)));
}

/** Puts the kinds of all parts side by side, set by set. */
function setsAlike(
  choices: readonly PartChoice[],
  runs: readonly { partId: string; sets: number }[][],
  sets: number,
): { standIns: string[]; parts: PartChoice['parts']; count: number }[] {
  const alike: { standIns: string[]; parts: PartChoice['parts']; count: number }[] = [];
  const left = runs.map((list) => list.map((run) => ({ ...run })));
  for (let done = 0; done < sets; ) {
    const heads = left.map((list) => list.find((run) => run.sets > 0));
    const count = Math.min(sets - done, ...heads.map((run) => run?.sets ?? 0));
    const parts = choices.flatMap((choice, at) => choice.parts.find((part) => part.id === heads[at]?.partId) ?? []);
    const standIns = parts.filter((part, at) => part.id !== choices[at]?.partId).map((part) => part.id);
    for (const run of heads) if (run !== undefined) run.sets -= count;
    alike.push({ standIns, parts, count });
    done += count;
  }
  return alike;
}

/** Containers of a part out of its lots, in their order. @param stores what is left of each lot; taken from */
function takeFrom(stores: Map<StockLot, number>, partId: string, wanted: number): Containers[] {
  const takes: Containers[] = [];
  let open = wanted;
  for (const [lot, left] of stores) {
    if (lot.partId !== partId) continue;
    const quantity = Math.min(open, left);
    if (quantity <= NOTHING) continue;
    stores.set(lot, left - quantity);
    open -= quantity;
    takes.push(containersOf(lot, quantity));
  }
  return takes;
}

/** Of the kind that is nearest to a set. */
function lackingOf(parts: PartChoice['parts'], leftOver: readonly Containers[]): number {
  return Math.min(
    ...parts.map(({ id, containersPerSet = 1 }) => {
      const left = leftOver.filter((one) => one.partId === id).reduce((sum, one) => sum + one.quantity, 0);
      return tidy(Math.max(0, containersPerSet - left));
    }),
  );
}

function containersOf({ partId, placeId, packedOn }: StockLot, quantity: number): Containers {
  return { partId, placeId, packedOn, quantity: tidy(quantity) };
}

function tidy(quantity: number): number {
  return Math.round(quantity * 1e6) / 1e6;
}
