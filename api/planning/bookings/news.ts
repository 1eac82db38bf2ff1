/**
 * Whether anything has happened since a plan was made that it did not expect. A weighing within the band that the plan
 * gave for it is no news: the plan was made for all of that band, and what hangs on the wall is not changed for it.
 */

import { stockKitIdIn } from '../../cooking/dishes/part-choices.ts';
import type { HouseholdDocument } from '../../cooking/household/kitchen.ts';
import { householdDocumentOf, resolveHousehold } from '../../cooking/household/resolve-household.ts';
import type { PlanInput } from '../make-plan.ts';
import type { Plan, StockEntry } from '../plan-types.ts';
import { lotKey, stockLots } from '../stock-lots.ts';
import { type Booking, standingBookings } from './booking-types.ts';
import type { Difference } from './fuel-now.ts';
import type { StateNow } from './state-now.ts';

/** A scale and a jug are read to so much, kg, L; a jug to a twentieth. Common practice. */
const SCALE_KG = 0.005;
const JUG_L = 2;
const JUG_SHARE = 0.05;

/** What a request may say beyond what the replaced plan was asked. */
const ASKED = ['pinned', 'attendance', 'outOfUse', 'kitIds', 'noFlame', 'inProgress', 'carryFrom', 'placeId'] as const;

/**
 * @param input the new request, the household as stored, and the ledger
 * @param taken lines for what was cooked and is not in the ledger
 */
export function isNews(
  input: PlanInput,
  old: Plan,
  bookings: readonly Booking[],
  state: StateNow,
  taken: readonly StockEntry[],
): boolean {
  const { request } = input;
  // Asking for the ordinary plan again is asking for something, too.
  if (request.tradeOff !== undefined && !isSame(request.tradeOff, old.request.tradeOff ?? null)) return true;
  if (ASKED.some((field) => request[field] != null && !isSame(request[field], old.request[field] ?? null))) return true;
  if (lastDate(request.startsAt, request.days) !== lastDate(old.request.startsAt, old.request.days)) return true;
  if (state.meals.some((meal) => meal.state === 'skipped' || meal.state === 'changed')) return true;
  if (state.belowMark.length > 0 || state.differences.some(isUnexpected)) return true;
  const quiet = new Set(['meal-eaten', 'fuel-weighed', 'water-left']);
  if (standingBookings(bookings).some((booking) => !quiet.has(booking.kind))) return true;
  if (state.soaks.some((soak) => soak.hours > soak.limitHours)) return true;
  if (!isSame(withoutStores(input.household), withoutStores(old.resolved.household))) return true;
  return !sameTests(input, old) || !sameStock(input, old, state, taken);
}

/** Whether a finding lies outside the band that was worked out for it, by more than scale or jug can be wrong. */
export function isUnexpected({ what, computed, found }: Difference): boolean {
  const room = what === 'fuel' ? SCALE_KG : Math.max(JUG_L, JUG_SHARE * computed.p50);
  return found < computed.p10 - room || found > computed.p90 + room;
}

/** Everything but what is in store, every field filled. */
function withoutStores(document: HouseholdDocument): unknown {
  const { household } = resolveHousehold(document);
  const { fuels: _fuels, water, ...rest } = householdDocumentOf(household);
  return { ...rest, water: { ...water, lots: [] } };
}

/** Whether the tests of the household are those that the plan was made with; weighings of plans are no tests. */
function sameTests(input: PlanInput, old: Plan): boolean {
  const known = new Set(
    (old.resolved.learned ?? []).flatMap(({ figure }) => [...figure.records, ...figure.questioned]),
  );
  return (input.measurements ?? []).every((record) => record.kind === 'weighed-use' || known.has(record.id));
}

/** Whether the store holds what it held, less what was cooked. */
function sameStock(input: PlanInput, old: Plan, state: StateNow, taken: readonly StockEntry[]): boolean {
  const expected = new Map(old.resolved.stock.map((lot) => [lotKey(lot), lot.quantity]));
  for (const { cookingId } of state.cooked) {
    const cooking = old.cookings.find((one) => one.id === cookingId);
    for (const take of cooking?.takes ?? []) {
      const lot = lotKey({ kitId: stockKitIdIn(old.resolved.kits, cooking?.kitId ?? ''), ...take });
      expected.set(lot, (expected.get(lot) ?? 0) - take.quantity);
    }
  }
  const found = new Map(stockLots([...input.stock, ...taken]).map((lot) => [lotKey(lot), lot.quantity]));
  return [...new Set([...expected.keys(), ...found.keys()])].every(
    (lot) => Math.abs((expected.get(lot) ?? 0) - (found.get(lot) ?? 0)) < 1e-3,
  );
}

function lastDate(startsAt: string, days: number): number {
  return Date.parse(`${startsAt.slice(0, 10)}T00:00Z`) / 86_400_000 + days;
}

function isSame(one: unknown, other: unknown): boolean {
  return JSON.stringify(sorted(one)) === JSON.stringify(sorted(other));
}

/** The same value with the members of every object in one order, those without a value left out. */
function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, member]) => member !== undefined && member !== null)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, member]) => [name, sorted(member)]),
  );
}
