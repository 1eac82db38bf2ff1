/** The document store port over one SQLite file, durable at every acknowledged write. */
import { randomUUID } from 'node:crypto';
import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'libsql';
import type { DocumentStore, PutOutcome, StoredDocument } from '../../storage/document-store.ts';

interface Row {
  key: string;
  rev: number;
  body: string;
  deleted: number;
}

interface Write {
  key: string;
  body: unknown;
  expect: string | null;
  deleted?: boolean;
}

const SCHEMA = `
  CREATE TABLE IF NOT EXISTS document (
    key TEXT PRIMARY KEY, rev INTEGER NOT NULL UNIQUE, body TEXT NOT NULL, deleted INTEGER NOT NULL
  ) WITHOUT ROWID;
  CREATE TABLE IF NOT EXISTS applied (
    writeId TEXT NOT NULL, key TEXT NOT NULL, rev INTEGER NOT NULL, body TEXT NOT NULL, PRIMARY KEY (writeId, key)
  ) WITHOUT ROWID;
  CREATE TABLE IF NOT EXISTS feed (position INTEGER NOT NULL, epoch TEXT NOT NULL);
`;

/** Milliseconds that a write waits for another process. */
const BUSY_TIMEOUT_MS = 5000;
/** Retries are recognised for this many of the newest writes; older ones have long been answered. */
const WRITES_REMEMBERED = 10_000;

/**
 * Opens the store, and makes it where there is none.
 * @param path file path, or `:memory:`
 * @returns the port. The counter of writes is both revision and feed position: there is a single writer.
 * @throws when the file cannot be opened or is no database
 */
export function openSqliteStore(path: string): DocumentStore {
  if (path !== ':memory:') mkdirSync(dirname(path), { recursive: true });
  const database = new Database(path);
  // Set at each open: full sync is what makes an acknowledged write outlive a power cut.
  database.pragma(`busy_timeout = ${BUSY_TIMEOUT_MS}`);
  database.pragma('journal_mode = WAL');
  database.pragma('synchronous = FULL');
  database.exec(SCHEMA);
  database
    .prepare('INSERT INTO feed (position, epoch) SELECT 0, ? WHERE NOT EXISTS (SELECT 1 FROM feed)')
    .run(randomUUID());

  const selectOne = database.prepare('SELECT key, rev, body, deleted FROM document WHERE key = ?');
  const selectRange = database.prepare(
    'SELECT key, rev, body, deleted FROM document WHERE key >= ? AND key < ? AND deleted = 0 ORDER BY key',
  );
  const selectChanges = database.prepare(
    'SELECT key, rev, body, deleted FROM document WHERE rev > ? ORDER BY rev LIMIT ?',
  );
  const selectFeed = database.prepare('SELECT position, epoch FROM feed');
  const advance = database.prepare('UPDATE feed SET position = position + 1');
  const upsert = database.prepare(
    'INSERT INTO document (key, rev, body, deleted) VALUES (?, ?, ?, ?) ' +
      'ON CONFLICT (key) DO UPDATE SET rev = excluded.rev, body = excluded.body, deleted = excluded.deleted',
  );
  const selectApplied = database.prepare('SELECT key, rev, body FROM applied WHERE writeId = ?');
  const remember = database.prepare('INSERT INTO applied (writeId, key, rev, body) VALUES (?, ?, ?, ?)');
  const forget = database.prepare('DELETE FROM applied WHERE rev <= ?');

  const feedPosition = (): number => (selectFeed.get() as { position: number }).position;

  const applyAll = (writes: readonly Write[], writeId: string) => {
    const earlier = selectApplied.all(writeId) as Omit<Row, 'deleted'>[];
    if (earlier.length > 0) {
      const byKey = new Map(earlier.map((row) => [row.key, documentOf(row)]));
      return { outcome: 'ok' as const, documents: writes.flatMap(({ key }) => byKey.get(key) ?? []) };
    }
    for (const { key, expect } of writes) {
      const row = selectOne.get(key) as Row | undefined;
      const living = row !== undefined && row.deleted === 0 ? row : null;
      if ((living === null ? null : String(living.rev)) !== expect) {
        return { outcome: 'conflict' as const, key, current: living === null ? null : documentOf(living) };
      }
    }
    const documents: StoredDocument[] = [];
    for (const { key, body, deleted } of writes) {
      advance.run();
      const rev = feedPosition();
      const text = JSON.stringify(body ?? null);
      upsert.run(key, rev, text, deleted === true ? 1 : 0);
      remember.run(writeId, key, rev, text);
      documents.push({ key, rev: String(rev), body: JSON.parse(text) });
    }
    forget.run(feedPosition() - WRITES_REMEMBERED);
    return { outcome: 'ok' as const, documents };
  };
  const transaction = database.transaction(applyAll);

  return {
    async get(key) {
      const row = selectOne.get(key) as Row | undefined;
      return row === undefined || row.deleted === 1 ? null : documentOf(row);
    },
    async list(prefix) {
      // U+10FFFF sorts after every character that a key may hold.
      return (selectRange.all(prefix, `${prefix}\u{10FFFF}`) as Row[]).map(documentOf);
    },
    async put(key, body, expect, writeId, deleted): Promise<PutOutcome> {
      const result = transaction.immediate(
        [{ key, body, expect, ...(deleted === undefined ? {} : { deleted }) }],
        writeId,
      );
      if (result.outcome === 'conflict') return { outcome: 'conflict', current: result.current };
      const [document] = result.documents;
      if (document === undefined) throw new Error('a write id was used again for another document');
      return { outcome: 'ok', document };
    },
    async putAll(writes, writeId) {
      return transaction.immediate(writes, writeId);
    },
    async changes(since, limit) {
      const rows = selectChanges.all(since, limit) as Row[];
      const { position, epoch } = selectFeed.get() as { position: number; epoch: string };
      return {
        position: rows.length < limit ? position : (rows.at(-1)?.rev ?? position),
        epoch,
        documents: rows.map((row) => ({ ...documentOf(row), deleted: row.deleted === 1 })),
      };
    },
    async close() {
      // Everything goes back into the one file, so that a copy of it is a copy of all.
      database.pragma('wal_checkpoint(TRUNCATE)');
      database.close();
    },
  };
}

function documentOf(row: Omit<Row, 'deleted'>): StoredDocument {
  return { key: row.key, rev: String(row.rev), body: JSON.parse(row.body) };
}
