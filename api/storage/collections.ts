/** Typed access to the collections of documents over the store port; formats are brought up to date on the way. */
import type { Kit } from '../cooking/dishes/kit.ts';
import type { OwnFood } from '../cooking/foods/own-food.ts';
import type { HouseholdDocument } from '../cooking/household/kitchen.ts';
import type { Measurement } from '../cooking/measurements/measurements.ts';
import type { Booking } from '../planning/bookings/booking-types.ts';
import type { Plan, StockEntry } from '../planning/plan-types.ts';
import type { DocumentStore } from './document-store.ts';
import type { Collection } from './formats.ts';
import { currentFormat, FORMATS, upgradeDocument } from './formats.ts';

export interface DocumentTypes {
  households: HouseholdDocument;
  kits: Kit;
  stock: StockEntry;
  plans: Plan;
  measurements: Measurement;
  bookings: Booking;
  /** Own foods, as their labels describe them. */
  foods: OwnFood;
}

/** A document with the revision that a later write must name. */
export interface Revised<Body> {
  rev: string;
  body: Body;
}

/** What became of a write: done, or refused because another revision is current. */
export type WriteOutcome<Body> =
  | { outcome: 'ok'; document: Revised<Body> }
  | { outcome: 'conflict'; current: Revised<Body> | null };

/** Key of a document: `collection/id`. Ids are `[a-z0-9-]{1,64}`, so that no key can reach into another collection. */
export function keyOf(collection: Collection, id: string): string {
  return `${collection}/${id}`;
}

/** Reads one document, or null where there is none. */
export async function readDocument<C extends Collection>(
  store: DocumentStore,
  collection: C,
  id: string,
): Promise<Revised<DocumentTypes[C]> | null> {
  const stored = await store.get(keyOf(collection, id));
  return stored === null ? null : { rev: stored.rev, body: upgraded(collection, stored.body) };
}

/** Reads all living documents of a collection, by id. */
export async function listDocuments<C extends Collection>(
  store: DocumentStore,
  collection: C,
): Promise<Revised<DocumentTypes[C]>[]> {
  const stored = await store.list(`${collection}/`);
  return stored.map(({ rev, body }) => ({ rev, body: upgraded(collection, body) }));
}

/** The same without their revisions. */
export async function listBodies<C extends Collection>(
  store: DocumentStore,
  collection: C,
): Promise<DocumentTypes[C][]> {
  return (await listDocuments(store, collection)).map(({ body }) => body);
}

/** Creates documents of several collections, all or nothing: where one of the keys is taken, none is written. */
export function createTogether(
  store: DocumentStore,
  collections: { [C in Collection]?: readonly DocumentTypes[C][] },
  writeId: string,
): ReturnType<DocumentStore['putAll']> {
  const writes = (Object.keys(collections) as Collection[]).flatMap((collection) =>
    (collections[collection] ?? []).map((body) => ({
      key: keyOf(collection, body.id),
      body: { ...body, format: currentFormat(FORMATS[collection]) },
      expect: null,
    })),
  );
  return store.putAll(writes, writeId);
}

/**
 * Creates or replaces a document.
 * @param expect the revision that must be current; null: it must not exist
 */
export async function writeDocument<C extends Collection>(
  store: DocumentStore,
  collection: C,
  body: DocumentTypes[C],
  expect: string | null,
  writeId: string,
): Promise<WriteOutcome<DocumentTypes[C]>> {
  const key = keyOf(collection, body.id);
  const put = await store.put(key, { ...body, format: currentFormat(FORMATS[collection]) }, expect, writeId);
  if (put.outcome === 'conflict') {
    const { current } = put;
    return {
      outcome: 'conflict',
      current: current === null ? null : { rev: current.rev, body: upgraded(collection, current.body) },
    };
  }
  return { outcome: 'ok', document: { rev: put.document.rev, body: upgraded(collection, put.document.body) } };
}

/** Deletes a document and leaves a tombstone. Returns false when another revision is current. */
export async function deleteDocument(
  store: DocumentStore,
  collection: Collection,
  id: string,
  expect: string,
  writeId: string,
): Promise<boolean> {
  return (await store.put(keyOf(collection, id), null, expect, writeId, true)).outcome === 'ok';
}

function upgraded<C extends Collection>(collection: C, body: unknown): DocumentTypes[C] {
  return upgradeDocument(body as Record<string, unknown>, FORMATS[collection]) as unknown as DocumentTypes[C];
}
