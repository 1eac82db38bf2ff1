/** What a plan rests on, read from the store for a request. */

import { replanInput } from '../planning/bookings/replan.ts';
import type { PlanInput } from '../planning/make-plan.ts';
import type { PlanRequest } from '../planning/plan-types.ts';
import { listBodies, readDocument } from '../storage/collections.ts';
import type { DocumentStore } from '../storage/document-store.ts';
import { requireSoundRequest } from './check-references.ts';
import { evidenceOf } from './household-records.ts';
import { resolvedKits } from './own-foods.ts';
import { bookingsOf } from './plan-bookings.ts';
import { refuseField } from './problem.ts';

/**
 * Reads household, kits, stock and records.
 * @throws RefusedError 422 when the request names what is not there
 */
export async function planInputOf(store: DocumentStore, request: PlanRequest): Promise<PlanInput> {
  const household = await readDocument(store, 'households', request.householdId);
  if (household === null) {
    throw refuseField(['householdId'], 'There is no household of this id.', { value: request.householdId });
  }
  const replaced = typeof request.replaces === 'string' ? await readDocument(store, 'plans', request.replaces) : null;
  if (typeof request.replaces === 'string' && replaced === null) {
    throw refuseField(['replaces'], 'There is no plan of this id.', { value: request.replaces });
  }
  if (replaced !== null && replaced.body.request.householdId !== request.householdId) {
    throw refuseField(['replaces'], 'That is a plan of another household.', { value: request.replaces });
  }
  const kits = await resolvedKits(store);
  requireSoundRequest(request, household.body, kits);
  const stock = await listBodies(store, 'stock');
  const measurements = await evidenceOf(store, request.householdId);
  const input = { request, household: household.body, kits, stock, measurements };
  if (replaced === null) return input;
  return replanInput(input, replaced.body, await bookingsOf(store, replaced.body.id)).input;
}
