/** The bookings of a plan as routes read them, and the time at its place. */
import type { Booking } from '../planning/bookings/booking-types.ts';
import { toLocal } from '../planning/local-time.ts';
import type { Plan } from '../planning/plan-types.ts';
import { listBodies } from '../storage/collections.ts';
import type { DocumentStore } from '../storage/document-store.ts';

/** All bookings of a plan, by the time at which they happened. */
export async function bookingsOf(store: DocumentStore, planId: string): Promise<Booking[]> {
  const all = await listBodies(store, 'bookings');
  return all
    .filter((booking) => booking.planId === planId)
    .sort((a, b) => (key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : 0));
}

/** Wall-clock time at the place of a plan. @param nowMs milliseconds since 1970 */
export function localNow(plan: Pick<Plan, 'request' | 'resolved'>, nowMs: number): string {
  const { places } = plan.resolved.household;
  const place = places.find((one) => one.id === plan.request.placeId) ?? places[0];
  return toLocal(Math.floor(nowMs / 60_000), place?.timeZone ?? 'UTC');
}

function key({ at, bookedAt, id }: Booking): string {
  return `${at} ${bookedAt ?? ''} ${id}`;
}
