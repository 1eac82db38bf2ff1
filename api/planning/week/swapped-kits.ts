/**
 * The kits that a plan may cook out of one stored kit: as the recipe has it, and with parts swapped for those that may
 * stand in for them. What they share is dealt out beforehand, set by set, the older bags first, so that no bag is counted
 * twice.
 */
import type { Kit } from '../../cooking/dishes/kit.ts';
import { kitWithParts, partChoices } from '../../cooking/dishes/part-choices.ts';
import type { StockLot } from '../plan-types.ts';
import { lotKey } from '../stock-lots.ts';
import { type Containers, completeSets } from '../stock-sets.ts';

/** More kinds than this of one kit are not looked at. */
const MOST_KINDS = 32;

export interface SwappedKit {
  kit: Kit;
  /** What it may be taken from. */
  lots: StockLot[];
  /** The same with the quantities that are dealt out to it. */
  counted: StockLot[];
}

/**
 * @param kit as stored
 * @param lots of this kit, sound and at hand
 * @param date on which they are
 * @param goingOn ids of kits that are under way: they are listed even where nothing is left of them
 * @returns the kit of the recipe first, whatever there is of it
 */
export function swappedKits(
  kit: Kit,
  lots: readonly StockLot[],
  date: string,
  goingOn: ReadonlySet<string>,
): SwappedKit[] {
  const own = new Set(kit.parts.map((part) => part.id));
  const isSwapped = lots.some((lot) => !own.has(lot.partId));
  const under = isSwapped || goingOn.size > 0 ? kindsOf(kit).filter((kind) => goingOn.has(kind.id)) : [];
  if (!isSwapped && under.length === 0) return [{ kit, lots: [...lots], counted: [...lots] }];
  const { alike, leftOver } = completeSets(kit, lots, date);
  const dealt = new Map<string, { kit: Kit; takes: Containers[] }>([[kit.id, { kit, takes: [...leftOver] }]]);
  for (const kind of under) dealt.set(kind.id, { kit: kind, takes: [] });
  for (const { standIns, takes } of alike) {
    const kind = kitWithParts(kit, standIns);
    dealt.set(kind.id, { kit: kind, takes: [...(dealt.get(kind.id)?.takes ?? []), ...takes] });
  }
  return [...dealt.values()].map(({ kit: kind, takes }) => {
    const parts = new Set(kind.parts.map((part) => part.id));
    const quantities = new Map<string, number>();
    for (const take of takes) {
      const key = lotKey({ kitId: kit.id, ...take });
      quantities.set(key, (quantities.get(key) ?? 0) + take.quantity);
    }
    const counted = lots.flatMap((lot) => {
      const quantity = quantities.get(lotKey(lot)) ?? 0;
      return quantity > 0 && parts.has(lot.partId) ? [{ ...lot, quantity }] : [];
    });
    return { kit: kind, lots: lots.filter((lot) => parts.has(lot.partId)), counted };
  });
}

/** The kit with every combination of swapped parts. */
function kindsOf(kit: Kit): Kit[] {
  let chosen: string[][] = [[]];
  for (const { parts } of partChoices(kit))
    chosen = chosen.flatMap((ids) => parts.map((part) => [...ids, part.id])).slice(0, MOST_KINDS);
  return chosen.map((ids) => kitWithParts(kit, ids)).filter((kind) => kind !== kit);
}
