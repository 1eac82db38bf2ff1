import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import Database from 'libsql';
import { afterAll, describe, expect, it } from 'vitest';
import { openSqliteStore } from '../../api/runtime/node/sqlite-store.ts';
import { describeDocumentStore } from '../contracts/document-store.ts';

const folder = mkdtempSync(join(tmpdir(), 'store-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
let files = 0;
const nextFile = () => {
  files += 1;
  return join(folder, `deep-${files}`, 'kitchen.sqlite');
};

describeDocumentStore('SQLite in memory', () => openSqliteStore(':memory:'));
describeDocumentStore('SQLite in a file', () => openSqliteStore(nextFile()));

describe('SQLite store', () => {
  it('keeps everything when closed and opened again: documents, feed, epoch, remembered writes', async () => {
    const path = nextFile();
    const first = openSqliteStore(path);
    const put = await first.put('kits/a', { n: 1 }, null, 'w1');
    const feed = await first.changes(0, 10);
    await first.close();
    const second = openSqliteStore(path);
    expect(await second.changes(0, 10)).toEqual(feed);
    expect(await second.put('kits/a', { n: 1 }, null, 'w1')).toEqual(put);
    await second.close();
  });

  it('is whole in one file when closed, in write-ahead mode with full sync', async () => {
    const path = nextFile();
    const store = openSqliteStore(path);
    await store.put('kits/a', { n: 1 }, null, 'w1');
    // The mode is kept in the file; the sync setting belongs to a connection and is set at each open.
    const other = new Database(path);
    expect(other.pragma('journal_mode', { simple: true })).toMatchObject({ journal_mode: 'wal' });
    other.close();
    await store.close();
    const copy = nextFile();
    mkdirSync(dirname(copy));
    copyFileSync(path, copy);
    const copied = openSqliteStore(copy);
    expect(await copied.get('kits/a')).toMatchObject({ body: { n: 1 } });
    await copied.close();
  });

  it('two processes on one file wait for one another and lose nothing', async () => {
    const path = nextFile();
    const one = openSqliteStore(path);
    const two = openSqliteStore(path);
    for (let n = 0; n < 20; n++) {
      expect((await one.put(`kits/one-${n}`, { n }, null, `one-${n}`)).outcome).toBe('ok');
      expect((await two.put(`kits/two-${n}`, { n }, null, `two-${n}`)).outcome).toBe('ok');
    }
    expect(await one.list('kits/')).toHaveLength(40);
    await one.close();
    await two.close();
  });

  it('refuses a file that is no database, and leaves it as it is', () => {
    const path = join(folder, 'not-a-database');
    writeFileSync(path, 'these are the notes of last winter, kept here by mistake'.repeat(100));
    expect(() => openSqliteStore(path)).toThrow();
  });
});
