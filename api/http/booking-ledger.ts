/** What a booked meal takes from the stock, as lines of the ledger; and the lines that put it back. */
import type { Kit } from '../cooking/dishes/kit.ts';
import { stockKitId, stockKitIdIn } from '../cooking/dishes/part-choices.ts';
import type { Booking, EndBooking, MealBooking } from '../planning/bookings/booking-types.ts';
import type { Cooking, Plan, StockEntry, StockLot } from '../planning/plan-types.ts';
import { type LotName, lastCounts, takenAt } from '../planning/stock-changes.ts';
import { inOrderOfUse, lotKey, stockTotals } from '../planning/stock-lots.ts';

/**
 * Lines for the dishes of a meal. A batch that feeds two meals is taken with the first of them. Where the store holds less
 * than a dish took, as much as there is: a booking is never refused for what the ledger lacks.
 * @param booking of a meal that was eaten or changed
 * @param taken ids of the cookings whose lines are in the ledger already
 * @param ledger all entries
 * @param newId makes ids of lines
 * @returns lines with negative quantities, their `note` the cooking
 */
export function linesOfMeal(
  plan: Plan,
  booking: MealBooking,
  taken: ReadonlySet<string>,
  ledger: readonly StockEntry[],
  newId: () => string,
): StockEntry[] {
  const { lines, lots, take } = takingFrom(ledger, booking.at, newId);
  const meal = plan.meals.find((one) => one.id === booking.meal);
  const reason = booking.kind === 'meal-eaten' ? 'eaten' : booking.plannedDish === 'thrown-away' ? 'thrown-away' : null;
  for (const dish of reason === null ? [] : (meal?.dishes ?? [])) {
    const cooking = plan.cookings.find((one) => one.id === dish.cookingId);
    if (cooking === undefined || taken.has(cooking.id)) continue;
    takeCooking(plan, cooking, reason ?? 'eaten', take);
  }
  for (const dish of reason === null ? [] : (plan.continues?.underWay ?? []))
    if (dish.meals.includes(booking.meal)) takeCarried(plan, dish.cookingId, ledger, taken, reason ?? 'eaten', take);
  const kit = plan.resolved.kits.find((one) => one.id === booking.kitId);
  if (booking.kind === 'meal-changed' && kit !== undefined)
    takeOldest(plan, kit, booking.batches ?? 1, lots, (lot, wanted) =>
      take(lot, wanted, 'eaten', booking.meal, booking.at),
    );
  return lines;
}

/** The lines that put back what a booking took. */
export function linesBack(lines: readonly StockEntry[], at: string, newId: () => string): StockEntry[] {
  return lines.map((line) => ({ ...line, id: newId(), quantity: -line.quantity, reason: 'undo', at, undoes: line.id }));
}

/**
 * Lines for food that was thrown away out of a bowl, a box or a pot; none where its sets were taken before.
 * @param before earlier bookings of the plan
 * @param taken ids of the cookings whose lines are in the ledger already
 */
export function linesOfThrownAway(
  plan: Plan,
  booking: EndBooking,
  before: readonly Booking[],
  taken: ReadonlySet<string>,
  ledger: readonly StockEntry[],
  newId: () => string,
): StockEntry[] {
  const { lines, lots, take } = takingFrom(ledger, booking.at, newId);
  const cooking = plan.cookings.find((one) => one.id === booking.of);
  const set = before.find((one) => one.kind === 'soak-set' && one.id === booking.of);
  if (cooking !== undefined && !taken.has(cooking.id)) takeCooking(plan, cooking, 'thrown-away', take);
  const kit = set?.kind === 'soak-set' ? plan.resolved.kits.find((one) => one.id === set.kitId) : undefined;
  if (kit !== undefined && set?.kind === 'soak-set')
    takeOldest(plan, kit, set.batches ?? 1, lots, (lot, wanted) => take(lot, wanted, 'thrown-away', set.id, set.at));
  return lines;
}

type Take = (from: LotName, wanted: number, reason: StockEntry['reason'], note: string, since: string) => number;

/**
 * Lots that are taken from, and the lines that it makes; never more than there is, and nothing of a lot that was counted
 * after the bag was opened: the count lacks it already.
 */
function takingFrom(
  ledger: readonly StockEntry[],
  at: string,
  newId: () => string,
): { lines: StockEntry[]; lots: Map<string, StockLot>; take: Take } {
  const lots = new Map(stockTotals(ledger).map((lot): [string, StockLot] => [lotKey(lot), { ...lot }]));
  const counts = lastCounts(ledger);
  const lines: StockEntry[] = [];
  const take: Take = ({ kitId, partId, placeId, packedOn }, wanted, reason, note, since) => {
    const from = { kitId, partId, placeId, packedOn };
    if ((counts.get(lotKey(from)) ?? '') > since) return wanted;
    const lot = lots.get(lotKey(from));
    const quantity = Math.min(wanted, lot?.quantity ?? 0);
    if (lot === undefined || quantity <= 1e-9) return 0;
    lot.quantity -= quantity;
    lines.push({ id: newId(), ...from, quantity: -quantity, reason, at, note });
    return quantity;
  };
  return { lines, lots, take };
}

function takeCooking(plan: Plan, cooking: Cooking, reason: StockEntry['reason'], take: Take): void {
  const kitId = stockKitIdIn(plan.resolved.kits, cooking.kitId);
  for (const { partId, placeId, packedOn, quantity } of cooking.takes)
    take({ kitId, partId, placeId, packedOn }, quantity, reason, cooking.id, takenAt(cooking, partId));
}

/** A dish that was under way when the plan was made: what it took stands with the plan, unless the ledger has it already. */
function takeCarried(
  plan: Plan,
  cookingId: string,
  ledger: readonly StockEntry[],
  taken: ReadonlySet<string>,
  reason: StockEntry['reason'],
  take: Take,
): void {
  if (taken.has(cookingId) || ledger.some((line) => line.note === cookingId)) return;
  for (const line of plan.continues?.from.taken ?? [])
    if (line.note === cookingId) take(line, -line.quantity, reason, cookingId, line.at);
}

/** Whole sets of a kit out of its lots at the places of the plan, in the order in which lots are used. */
function takeOldest(
  plan: Plan,
  kit: Kit,
  batches: number,
  lots: ReadonlyMap<string, StockLot>,
  take: (lot: StockLot, wanted: number) => number,
): void {
  const { request, resolved } = plan;
  const places = new Set([request.placeId ?? resolved.household.places[0]?.id, ...(request.carryFrom ?? [])]);
  for (const part of kit.parts) {
    let wanted = batches * (part.containersPerSet ?? 1);
    const own = [...lots.values()]
      .filter((lot) => lot.kitId === stockKitId(kit) && lot.partId === part.id && places.has(lot.placeId))
      .sort(inOrderOfUse);
    for (const lot of own) wanted -= take(lot, Math.max(0, wanted));
  }
}
