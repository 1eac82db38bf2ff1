/** What a booked meal takes from the stock, as lines of the ledger; and the lines that put it back. */
import type { MealBooking } from '../planning/booking-types.ts';
import type { Plan, StockEntry } from '../planning/plan-types.ts';
import { lotKey, stockTotals } from '../storage/stock-totals.ts';

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
  const lots = new Map(stockTotals(ledger).map((lot) => [lotKey(lot), { ...lot }]));
  const lines: StockEntry[] = [];
  const take = (
    from: { kitId: string; partId: string; placeId: string; packedOn: string },
    wanted: number,
    reason: StockEntry['reason'],
    note: string,
  ) => {
    const lot = lots.get(lotKey(from));
    const quantity = Math.min(wanted, lot?.quantity ?? 0);
    if (lot === undefined || quantity <= 1e-9) return 0;
    lot.quantity -= quantity;
    lines.push({ id: newId(), ...from, quantity: -quantity, reason, at: booking.at, note });
    return quantity;
  };
  const meal = plan.meals.find((one) => one.id === booking.meal);
  const reason = booking.kind === 'meal-eaten' ? 'eaten' : booking.plannedDish === 'thrown-away' ? 'thrown-away' : null;
  for (const dish of reason === null ? [] : (meal?.dishes ?? [])) {
    const cooking = plan.cookings.find((one) => one.id === dish.cookingId);
    if (cooking === undefined || taken.has(cooking.id)) continue;
    for (const { partId, placeId, packedOn, quantity } of cooking.takes)
      take({ kitId: cooking.kitId, partId, placeId, packedOn }, quantity, reason ?? 'eaten', cooking.id);
  }
  const kit = plan.resolved.kits.find((one) => one.id === booking.kitId);
  const places = new Set([
    plan.request.placeId ?? plan.resolved.household.places[0]?.id,
    ...(plan.request.carryFrom ?? []),
  ]);
  for (const part of booking.kind === 'meal-changed' ? (kit?.parts ?? []) : []) {
    let wanted = (booking.batches ?? 1) * (part.containersPerSet ?? 1);
    const own = [...lots.values()]
      .filter((lot) => lot.kitId === kit?.id && lot.partId === part.id && places.has(lot.placeId))
      .sort((a, b) => (a.packedOn < b.packedOn ? -1 : 1));
    for (const { kitId, partId, placeId, packedOn } of own)
      wanted -= take({ kitId, partId, placeId, packedOn }, Math.max(0, wanted), 'eaten', booking.meal);
  }
  return lines;
}

/** The lines that put back what a booking took. */
export function linesBack(lines: readonly StockEntry[], at: string, newId: () => string): StockEntry[] {
  return lines.map((line) => ({ ...line, id: newId(), quantity: -line.quantity, reason: 'undo', at }));
}
