/**
 * Splitting the stock among places or people by the number of heads. Whole sets first: every share gets the sets that its
 * heads are due, rounded down or up, and nobody is more than one set of a kit away from the exact part. The sets that do
 * not go up evenly go where, over the kits dealt so far, most servings are owed (largest remainder, carried on from kit to
 * kit, the kits with the largest sets first). Parts that make no set are dealt bag by bag in the same way.
 */
import type { Kit } from '../cooking/dishes/kit.ts';
import type { StockLot } from './plan-types.ts';
import { type Containers, completeSets, type SetsAlike } from './stock-sets.ts';

/** Sums of shares of sets are exact to this. */
const NOTHING = 1e-9;

/** Who or what a share is for. */
export interface Sharer {
  /** Names of sharers differ. */
  label: string;
  /** People, or shares of a meal, >= 0. */
  heads: number;
  /** Where it is to lie; null: it is carried away. */
  placeId: string | null;
}

/** Containers of a kit that go to a share, with where they lie now. */
export interface SharedContainers extends Containers {
  kitId: string;
}

export interface Share extends Sharer {
  /** Sets of each kit, with the exact part that the heads are due. */
  sets: { kitId: string; sets: number; due: number }[];
  servings: number;
  /** The bags of those sets. */
  takes: SharedContainers[];
  /** Bags that make no set. */
  leftOver: SharedContainers[];
}

export interface ShareOut {
  shares: Share[];
  /** What does not divide by the heads: sets or bags above what divides evenly, and who gets them. */
  undivided: { kitId: string; partId: string | null; quantity: number; goesTo: string[] }[];
  /** Not dealt, because it is past its date or packed later than today. */
  notSound: (SharedContainers & { why: 'past-use-by' | 'packed-later' })[];
}

/**
 * Deals the stock out.
 * @param kits those that are shared
 * @param lots those that are shared, at whichever places; sets are made out of all of them together
 * @param sharers one or more, with at least one head in all
 * @param date today, `YYYY-MM-DD`
 * @throws RangeError when nobody has a head, or two sharers have one name
 */
export function shareOut(
  kits: readonly Kit[],
  lots: readonly StockLot[],
  sharers: readonly Sharer[],
  date: string,
): ShareOut {
  const heads = sharers.map((sharer) => sharer.heads);
  if (!(heads.reduce((sum, one) => sum + one, 0) > 0)) throw new RangeError('nobody to share among');
  if (new Set(sharers.map((sharer) => sharer.label)).size < sharers.length) throw new RangeError('two sharers alike');
  const shares = sharers.map((sharer): Share => ({ ...sharer, sets: [], servings: 0, takes: [], leftOver: [] }));
  const undivided: ShareOut['undivided'] = [];
  const notSound: ShareOut['notSound'] = [];
  const labels = sharers.map((sharer) => sharer.label);
  const owed = new Map(labels.map((label) => [label, 0]));
  const inOrder = [...kits].sort((a, b) => b.servings - a.servings || (a.id < b.id ? -1 : 1));
  for (const kit of inOrder) {
    const found = completeSets(kit, lots, date);
    notSound.push(...found.notSound.map((one) => ({ kitId: kit.id, ...one })));
    const dealt = apportion(found.sets, sharers, (label) => (owed.get(label) ?? 0) / kit.servings);
    for (const share of shares) {
      const { parts, due } = dealt.get(share.label) ?? { parts: 0, due: 0 };
      owed.set(share.label, (owed.get(share.label) ?? 0) + (due - parts) * kit.servings);
      if (found.sets > 0) share.sets.push({ kitId: kit.id, sets: parts, due });
      share.servings += parts * kit.servings;
    }
    const over = aboveEven(dealt);
    if (over.quantity > 0) undivided.push({ kitId: kit.id, partId: null, ...over });
    dealSets(kit, found.alike, shares, new Map([...dealt].map(([label, { parts }]) => [label, parts])));
    dealLeftOver(kit, found.leftOver, shares, undivided);
  }
  return { shares, undivided, notSound };
}

/**
 * Whole parts of a number by heads: each rounded down, the rest one by one to those to whom most is owed, of equal ones
 * to the one with more heads, then by name. Nobody gets more than the exact part rounded up.
 * @param total whole number, >= 0
 * @param owedBefore what is owed from before, in the same unit
 * @returns by label: whole parts, and the exact part
 */
export function apportion(
  total: number,
  sharers: readonly Sharer[],
  owedBefore: (label: string) => number = () => 0,
): Map<string, { parts: number; due: number }> {
  const heads = sharers.reduce((sum, sharer) => sum + sharer.heads, 0);
  const rows = sharers.map((sharer) => {
    const due = (total * sharer.heads) / heads;
    const floor = Math.floor(due + NOTHING);
    return { sharer, due, parts: floor, rest: due - floor };
  });
  const open = total - rows.reduce((sum, row) => sum + row.parts, 0);
  const rankOf = ({ sharer, rest }: (typeof rows)[number]) =>
    Math.round((rest + owedBefore(sharer.label)) / NOTHING) * NOTHING;
  const next = rows
    .filter((row) => row.rest > NOTHING)
    .sort(
      (a, b) => rankOf(b) - rankOf(a) || b.sharer.heads - a.sharer.heads || (a.sharer.label < b.sharer.label ? -1 : 1),
    )
    .slice(0, open);
  for (const row of next) row.parts += 1;
  return new Map(rows.map(({ sharer, parts, due }) => [sharer.label, { parts, due }]));
}

/** Parts that some have and others do not, beyond what divides evenly. */
function aboveEven(dealt: ReadonlyMap<string, { parts: number; due: number }>): {
  quantity: number;
  goesTo: string[];
} {
  const goesTo = [...dealt].filter(([, { parts, due }]) => parts > due + NOTHING).map(([label]) => label);
  const quantity = [...dealt.values()].reduce((sum, { due }) => sum + (due - Math.floor(due + NOTHING)), 0);
  return { quantity: Math.round(quantity), goesTo: goesTo.sort() };
}

/** Which share each of some things goes to, one after the other, so that older and newer ones are spread. */
function turns(counts: ReadonlyMap<string, number>): string[] {
  const total = [...counts.values()].reduce((sum, count) => sum + count, 0);
  const given = new Map([...counts.keys()].map((label) => [label, 0]));
  const inOrder = [...counts.keys()].sort();
  return Array.from({ length: total }, (_, at) => {
    let best = '';
    let most = Number.NEGATIVE_INFINITY;
    for (const label of inOrder) {
      const count = counts.get(label) ?? 0;
      const has = given.get(label) ?? 0;
      const behind = (count * (at + 1)) / total - has;
      if (has < count && behind > most + NOTHING) {
        best = label;
        most = behind;
      }
    }
    given.set(best, (given.get(best) ?? 0) + 1);
    return best;
  });
}

/** Hands out the bags of the sets. */
function dealSets(
  kit: Kit,
  alike: readonly SetsAlike[],
  shares: readonly Share[],
  counts: ReadonlyMap<string, number>,
): void {
  const order = turns(counts);
  let from = 0;
  for (const { sets, takes } of alike) {
    const mine = order.slice(from, from + sets);
    from += sets;
    for (const partId of new Set(takes.map((take) => take.partId))) {
      const bags = takes.filter((take) => take.partId === partId);
      const each = bags.reduce((sum, bag) => sum + bag.quantity, 0) / sets;
      deal(kit, bags, shares, mine, each);
    }
  }
}

/** Hands out bags that make no set, whole ones and opened ones, none of them in two. */
function dealLeftOver(
  kit: Kit,
  leftOver: readonly Containers[],
  shares: readonly Share[],
  undivided: ShareOut['undivided'],
): void {
  for (const partId of new Set(leftOver.map((one) => one.partId))) {
    const bags = leftOver.filter((one) => one.partId === partId).flatMap(singly);
    const dealt = apportion(bags.length, shares);
    const over = aboveEven(dealt);
    if (over.quantity > 0) undivided.push({ kitId: kit.id, partId, ...over });
    const open = new Map([...dealt].map(([label, { parts }]) => [label, parts]));
    const handTo = (share: Share, bag: Containers) => {
      open.set(share.label, (open.get(share.label) ?? 0) - 1);
      put(share.leftOver, kit.id, bag, bag.quantity);
    };
    const elsewhere = bags.filter((bag) => {
      const stays = [...shares]
        .sort((one, other) => (one.label < other.label ? -1 : 1))
        .find((share) => share.placeId === bag.placeId && (open.get(share.label) ?? 0) > 0);
      if (stays !== undefined) handTo(stays, bag);
      return stays === undefined;
    });
    for (const [index, label] of turns(open).entries()) {
      const share = shares.find((one) => one.label === label);
      const bag = elsewhere[index];
      if (share !== undefined && bag !== undefined) handTo(share, bag);
    }
  }
}

/** Bags of a lot one by one, an opened one last. */
function singly(bag: Containers): Containers[] {
  const whole = Math.floor(bag.quantity + NOTHING);
  const opened = tidy(bag.quantity - whole);
  return [
    ...Array.from({ length: whole }, () => ({ ...bag, quantity: 1 })),
    ...(opened > NOTHING ? [{ ...bag, quantity: opened }] : []),
  ];
}

/** Puts bags on a list, those of one lot together. */
function put(list: SharedContainers[], kitId: string, bag: Containers, quantity: number): void {
  const same = list.find(
    (one) =>
      one.kitId === kitId && one.partId === bag.partId && one.placeId === bag.placeId && one.packedOn === bag.packedOn,
  );
  if (same === undefined) list.push({ kitId, ...bag, quantity: tidy(quantity) });
  else same.quantity = tidy(same.quantity + quantity);
}

/**
 * Hands the bags of one part of the sets to shares in turn. What lies at the place of a share stays there as far as it is due there.
 * @param order labels, one for each thing to hand out
 * @param each bags that go at a time
 */
function deal(
  kit: Kit,
  bags: readonly Containers[],
  shares: readonly Share[],
  order: readonly string[],
  each: number,
): void {
  const left = bags.map((bag) => ({ ...bag }));
  const byLabel = new Map(shares.map((share) => [share.label, share]));
  const open = new Map<string, number>();
  for (const label of order) open.set(label, (open.get(label) ?? 0) + each);
  const give = (share: Share, bag: Containers, wanted: number): number => {
    const quantity = Math.min(wanted, bag.quantity);
    if (quantity <= NOTHING) return 0;
    bag.quantity -= quantity;
    put(share.takes, kit.id, bag, quantity);
    return quantity;
  };
  for (const [label, wanted] of [...open].sort(([a], [b]) => (a < b ? -1 : 1))) {
    const share = byLabel.get(label) as Share;
    if (share.placeId === null) continue;
    let more = wanted;
    for (const bag of left) if (bag.placeId === share.placeId) more -= give(share, bag, more);
    open.set(label, more);
  }
  for (const label of order) {
    const share = byLabel.get(label) as Share;
    let wanted = Math.min(each, open.get(label) ?? 0);
    open.set(label, (open.get(label) ?? 0) - wanted);
    for (const bag of left) wanted -= give(share, bag, wanted);
  }
}

function tidy(quantity: number): number {
  return Math.round(quantity * 1e6) / 1e6;
}
