/** The records of one household and what follows from them, as routes read it. */

import type { Food } from '../cooking/foods/food.ts';
import { resolveHousehold } from '../cooking/household/resolve-household.ts';
import { measurementFaults } from '../cooking/measurements/check-measurement.ts';
import { type Evidence, learnFromMeasurements } from '../cooking/measurements/learn-from-measurements.ts';
import type { Learned } from '../cooking/measurements/learned.ts';
import type { Measurement } from '../cooking/measurements/measurements.ts';
import { bookedTests } from '../planning/bookings/booked-tests.ts';
import type { Booking } from '../planning/bookings/booking-types.ts';
import { weighedUses } from '../planning/bookings/weighed-uses.ts';
import { stockLots } from '../planning/stock-lots.ts';
import { listBodies, readDocument } from '../storage/collections.ts';
import type { DocumentStore } from '../storage/document-store.ts';
import { ownFoodsOf, withOwnFood } from './own-foods.ts';
import { jsonPointer, RefusedError, refuseField } from './problem.ts';

/** All records of a household, by id. */
export async function measurementsOf(store: DocumentStore, householdId: string): Promise<Measurement[]> {
  return (await listBodies(store, 'measurements')).filter((record) => record.householdId === householdId);
}

/** Tests of lots with the rows of own foods, as the calculations take them; other records as they are. */
export function withFoodsOfTests<Record extends Evidence>(records: readonly Record[], own: readonly Food[]): Record[] {
  return records.map((record) => ('foodId' in record ? (withOwnFood(record, own) as Record) : record));
}

/** Bookings that say something of stoves, boxes or lots. */
const TELLING: ReadonlySet<Booking['kind']> = new Set(['fuel-weighed', 'box-read', 'food-tried']);

/** All that a household has measured: its tests, and what it weighed, read and tried in the course of its plans. */
export async function evidenceOf(store: DocumentStore, householdId: string): Promise<Evidence[]> {
  const all = await listBodies(store, 'bookings');
  const telling = all.filter((booking) => TELLING.has(booking.kind));
  const found: Evidence[] = [];
  for (const planId of new Set(telling.map((booking) => booking.planId))) {
    const plan = await readDocument(store, 'plans', planId);
    if (plan === null || plan.body.request.householdId !== householdId) continue;
    const own = all.filter((booking) => booking.planId === planId);
    found.push(...weighedUses(plan.body, own), ...bookedTests(plan.body, own));
  }
  const tests = withFoodsOfTests(await measurementsOf(store, householdId), await ownFoodsOf(store));
  return [...tests, ...found];
}

/**
 * What a household's records say; null where there is no such household.
 * @param records in the place of those that are stored
 */
export async function learnedOf(
  store: DocumentStore,
  householdId: string,
  records?: readonly Measurement[],
): Promise<Learned | null> {
  const household = await readDocument(store, 'households', householdId);
  if (household === null) return null;
  const lots = stockLots(await listBodies(store, 'stock'));
  const own =
    records === undefined ? await evidenceOf(store, householdId) : withFoodsOfTests(records, await ownFoodsOf(store));
  return learnFromMeasurements(resolveHousehold(household.body).household, own, lots);
}

/**
 * Refuses a record that cannot be true or is about nothing that the household has.
 * @throws RefusedError 422 with every such field
 */
export async function requireSoundMeasurement(store: DocumentStore, record: Measurement): Promise<void> {
  const household = await readDocument(store, 'households', record.householdId);
  if (household === null)
    throw refuseField(['householdId'], 'There is no household of this id.', { value: record.householdId });
  const kits = await listBodies(store, 'kits');
  const lots = stockLots(await listBodies(store, 'stock'));
  const [resolved = record] = withFoodsOfTests([record], await ownFoodsOf(store));
  const faults = measurementFaults(resolved, resolveHousehold(household.body).household, kits, lots);
  const [first] = faults;
  if (first === undefined) return;
  const errors = faults.map(({ field, ...fault }) => ({ pointer: jsonPointer([field]), ...fault }));
  throw new RefusedError('invalid-input', `${first.field}: ${first.detail}`, { errors });
}
