/**
 * The port to a document store with optimistic concurrency, the same for SQLite and for a browser's store. Revisions
 * are opaque strings. Deletions leave tombstones. A write that is repeated with the same `writeId` answers as the first
 * time and changes nothing.
 */

export interface StoredDocument<Body = unknown> {
  /** `collection/id` */
  key: string;
  rev: string;
  body: Body;
}

export type PutOutcome =
  | { outcome: 'ok'; document: StoredDocument }
  | { outcome: 'conflict'; current: StoredDocument | null };

export interface DocumentStore {
  get(key: string): Promise<StoredDocument | null>;
  /** Living documents whose key begins with `prefix`, by key. */
  list(prefix: string): Promise<StoredDocument[]>;
  /**
   * @param expect the revision that must be current, or null: the document must not exist
   * @param writeId names this write, so that a retry is recognised
   */
  put(key: string, body: unknown, expect: string | null, writeId: string, deleted?: boolean): Promise<PutOutcome>;
  /** Writes all or nothing. */
  putAll(
    writes: { key: string; body: unknown; expect: string | null; deleted?: boolean }[],
    writeId: string,
  ): Promise<
    | { outcome: 'ok'; documents: StoredDocument[] }
    | { outcome: 'conflict'; key: string; current: StoredDocument | null }
  >;
  /** Changes after a feed position, tombstones included, oldest first. */
  changes(
    since: number,
    limit: number,
  ): Promise<{ position: number; epoch: string; documents: (StoredDocument & { deleted: boolean })[] }>;
  close(): Promise<void>;
}
