/** What every document store must do: the one suite that each of them passes. */
import { afterEach, describe, expect, it } from 'vitest';
import type { DocumentStore, StoredDocument } from '../../api/storage/document-store.ts';

/**
 * Declares the suite for one kind of store.
 * @param open makes a store that has never held anything
 */
export function describeDocumentStore(name: string, open: () => DocumentStore | Promise<DocumentStore>): void {
  describe(`document store contract: ${name}`, () => {
    const opened: DocumentStore[] = [];
    const fresh = async () => {
      const store = await open();
      opened.push(store);
      return store;
    };
    afterEach(async () => {
      for (const store of opened.splice(0)) await store.close();
    });
    const written = async (
      store: DocumentStore,
      key: string,
      body: unknown,
      expectRev: string | null,
      writeId: string,
    ): Promise<StoredDocument> => {
      const put = await store.put(key, body, expectRev, writeId);
      if (put.outcome !== 'ok') throw new Error(`${key} was refused`);
      return put.document;
    };

    it('gives back what was put, and null for what was not', async () => {
      const store = await fresh();
      const body = { name: 'ünïcödé \u2028 " \' \\', list: [1, 2.5, null, { a: true }] };
      const document = await written(store, 'kits/a', body, null, 'w1');
      expect(document).toEqual({ key: 'kits/a', rev: document.rev, body });
      expect(await store.get('kits/a')).toEqual(document);
      expect(await store.get('kits/b')).toBeNull();
    });

    it('creates only where nothing is', async () => {
      const store = await fresh();
      const first = await written(store, 'kits/a', { n: 1 }, null, 'w1');
      expect(await store.put('kits/a', { n: 2 }, null, 'w2')).toEqual({ outcome: 'conflict', current: first });
      expect(await store.get('kits/a')).toEqual(first);
    });

    it('replaces only the revision that was read, and never gives a revision twice', async () => {
      const store = await fresh();
      const first = await written(store, 'kits/a', { n: 1 }, null, 'w1');
      const second = await written(store, 'kits/a', { n: 2 }, first.rev, 'w2');
      expect(second.rev).not.toBe(first.rev);
      expect(await store.put('kits/a', { n: 3 }, first.rev, 'w3')).toEqual({ outcome: 'conflict', current: second });
      expect(await store.put('kits/b', { n: 1 }, first.rev, 'w4')).toEqual({ outcome: 'conflict', current: null });
      const back = await written(store, 'kits/a', { n: 1 }, second.rev, 'w5');
      expect(new Set([first.rev, second.rev, back.rev]).size).toBe(3);
    });

    it('answers a repeated write as the first time, and changes nothing', async () => {
      const store = await fresh();
      const first = await written(store, 'kits/a', { n: 1 }, null, 'w1');
      expect(await written(store, 'kits/a', { n: 1 }, null, 'w1')).toEqual(first);
      const second = await written(store, 'kits/a', { n: 2 }, first.rev, 'w2');
      expect(await written(store, 'kits/a', { n: 1 }, null, 'w1')).toEqual(first);
      expect(await store.get('kits/a')).toEqual(second);
    });

    it('a refused write is not remembered: it may succeed later', async () => {
      const store = await fresh();
      const first = await written(store, 'kits/a', { n: 1 }, null, 'w1');
      expect((await store.put('kits/a', { n: 2 }, null, 'w2')).outcome).toBe('conflict');
      expect((await store.put('kits/a', { n: 2 }, first.rev, 'w2')).outcome).toBe('ok');
    });

    it('deletes with a tombstone; the key can be used again', async () => {
      const store = await fresh();
      const first = await written(store, 'kits/a', { n: 1 }, null, 'w1');
      expect((await store.put('kits/a', null, first.rev, 'w2', true)).outcome).toBe('ok');
      expect(await store.get('kits/a')).toBeNull();
      expect(await store.list('kits/')).toEqual([]);
      expect((await store.changes(0, 10)).documents).toMatchObject([{ key: 'kits/a', deleted: true }]);
      expect(await store.put('kits/a', { n: 2 }, first.rev, 'w3')).toEqual({ outcome: 'conflict', current: null });
      expect((await written(store, 'kits/a', { n: 2 }, null, 'w4')).body).toEqual({ n: 2 });
    });

    it('lists by prefix, in order, and nothing of a neighbour', async () => {
      const store = await fresh();
      for (const key of ['kits/b', 'kits/a', 'kits-old/a', 'kit/a', 'stock/a', 'kits/zz', 'kits/%', 'kits/a_b']) {
        await written(store, key, { key }, null, `w-${key}`);
      }
      const keys = (await store.list('kits/')).map((document) => document.key);
      expect(keys).toEqual(['kits/%', 'kits/a', 'kits/a_b', 'kits/b', 'kits/zz']);
    });

    it('writes many all or nothing', async () => {
      const store = await fresh();
      const first = await written(store, 'kits/a', { n: 1 }, null, 'w1');
      const clash = await store.putAll(
        [
          { key: 'kits/b', body: { n: 1 }, expect: null },
          { key: 'kits/a', body: { n: 2 }, expect: null },
        ],
        'w2',
      );
      expect(clash).toEqual({ outcome: 'conflict', key: 'kits/a', current: first });
      expect(await store.get('kits/b')).toBeNull();
      const writes = [
        { key: 'kits/b', body: { n: 1 }, expect: null },
        { key: 'kits/a', body: null, expect: first.rev, deleted: true },
      ];
      const done = await store.putAll(writes, 'w3');
      expect(done).toMatchObject({ outcome: 'ok', documents: [{ key: 'kits/b' }, { key: 'kits/a' }] });
      expect(await store.putAll(writes, 'w3')).toEqual(done);
      expect(await store.get('kits/a')).toBeNull();
    });

    it('feeds changes once each, newest state, in order, in portions', async () => {
      const store = await fresh();
      const a = await written(store, 'kits/a', { n: 1 }, null, 'w1');
      await written(store, 'kits/b', { n: 1 }, null, 'w2');
      await written(store, 'kits/a', { n: 2 }, a.rev, 'w3');
      const all = await store.changes(0, 100);
      expect(all.documents.map((document) => [document.key, document.deleted])).toEqual([
        ['kits/b', false],
        ['kits/a', false],
      ]);
      expect(all.epoch).toMatch(/\S/);
      expect((await store.changes(all.position, 100)).documents).toEqual([]);
      const portion = await store.changes(0, 1);
      expect(portion.documents.map((document) => document.key)).toEqual(['kits/b']);
      const rest = await store.changes(portion.position, 100);
      expect(rest.documents.map((document) => document.key)).toEqual(['kits/a']);
      expect(rest.position).toBe(all.position);
      expect(rest.epoch).toBe(all.epoch);
    });
  });
}
