/** Puts the demo household into a store that has never held anything, so that the first look has something to plan. */

import type { NewId } from '../planning/clock.ts';
import { createTogether } from './collections.ts';
import { demoDocuments } from './demo.ts';
import type { DocumentStore } from './document-store.ts';

/**
 * Seeds an empty store, all or nothing. A store in which everything was deleted has tombstones and is left alone.
 * @param startDate calendar date `YYYY-MM-DD` from which the demo's packing dates count back
 * @returns whether the demo was put in
 */
export async function seedDemo(store: DocumentStore, startDate: string, newId: NewId): Promise<boolean> {
  if ((await store.changes(0, 1)).documents.length > 0) return false;
  const { household, kits, stock } = demoDocuments(startDate);
  await createTogether(store, { households: [household], kits, stock }, newId());
  return true;
}
