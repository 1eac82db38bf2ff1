/**
 * Everything that a store holds in one document, and back. The documents are written in the order of collections and ids,
 * so that two stores with the same content have the same backup, byte for byte.
 */
import { type DocumentTypes, keyOf, listDocuments } from './collections.ts';
import type { DocumentStore } from './document-store.ts';
import { COLLECTIONS, type Collection, currentFormat, FORMATS, upgradeDocument } from './formats.ts';

/** Documents of all collections, of each sorted by id. */
export type BackupDocuments = { [C in Collection]: DocumentTypes[C][] };

/** Everything in a store. */
export async function everyDocument(store: DocumentStore): Promise<BackupDocuments> {
  const lists = await Promise.all(COLLECTIONS.map((collection) => listDocuments(store, collection)));
  return Object.fromEntries(
    COLLECTIONS.map((collection, index) => [
      collection,
      (lists[index] ?? []).map(({ body }) => body as { id: string }).sort((a, b) => (a.id < b.id ? -1 : 1)),
    ]),
  ) as unknown as BackupDocuments;
}

/** How many documents of each collection a store holds. */
export async function countDocuments(store: DocumentStore): Promise<Record<Collection, number>> {
  const lists = await Promise.all(COLLECTIONS.map((collection) => store.list(`${collection}/`)));
  return Object.fromEntries(COLLECTIONS.map((collection, index) => [collection, lists[index]?.length ?? 0])) as Record<
    Collection,
    number
  >;
}

/**
 * Puts the documents of a backup in the place of everything that the store holds, all or nothing. Documents of older
 * formats are brought up to date.
 * @param documents checked ones
 * @returns whether they were written: not, where the store changed meanwhile
 * @throws NewerFormatError when a document is newer than the program
 */
export async function restoreDocuments(
  store: DocumentStore,
  documents: { [C in Collection]: readonly { id: string }[] },
  writeId: string,
): Promise<boolean> {
  const stored = new Map<string, string>();
  for (const collection of COLLECTIONS)
    for (const { key, rev } of await store.list(`${collection}/`)) stored.set(key, rev);
  const writes: { key: string; body: unknown; expect: string | null; deleted?: boolean }[] = [];
  const kept = new Set<string>();
  for (const collection of COLLECTIONS)
    for (const sent of documents[collection]) {
      const key = keyOf(collection, sent.id);
      kept.add(key);
      const body = upgradeDocument(sent as unknown as Record<string, unknown>, FORMATS[collection]);
      writes.push({
        key,
        body: { ...body, format: currentFormat(FORMATS[collection]) },
        expect: stored.get(key) ?? null,
      });
    }
  for (const [key, rev] of stored) if (!kept.has(key)) writes.push({ key, body: null, expect: rev, deleted: true });
  return (await store.putAll(writes, writeId)).outcome === 'ok';
}
