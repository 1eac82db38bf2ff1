import { describe, expect, it } from 'vitest';
import { openSqliteStore } from '../../api/runtime/node/sqlite-store.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { COLLECTIONS, currentFormat, FORMATS, NewerFormatError, upgradeDocument } from '../../api/storage/formats.ts';
import { seedDemo } from '../../api/storage/seed-demo.ts';

const THREE = {
  upgraders: [
    ({ litres, ...rest }: Record<string, unknown>) => ({ ...rest, capacityL: litres }),
    (document: Record<string, unknown>) => ({ ...document, lid: 'snug' }),
  ],
};

describe('document formats', () => {
  it('brings a document up step by step, from wherever it is, without touching it', () => {
    const old = Object.freeze({ id: 'pot', litres: 4 });
    expect(upgradeDocument(old, THREE)).toEqual({ id: 'pot', capacityL: 4, lid: 'snug', format: 3 });
    expect(upgradeDocument({ id: 'pot', capacityL: 4, format: 2 }, THREE)).toEqual({
      id: 'pot',
      capacityL: 4,
      lid: 'snug',
      format: 3,
    });
    const newest = { id: 'pot', capacityL: 4, lid: 'none', format: 3 };
    expect(upgradeDocument(newest, THREE)).toEqual(newest);
  });

  it('refuses a document of a newer program instead of guessing', () => {
    expect(() => upgradeDocument({ format: 4 }, THREE)).toThrow(NewerFormatError);
    expect(() => upgradeDocument({ format: 0 }, THREE)).toThrow(NewerFormatError);
    expect(() => upgradeDocument({ format: 1.5 }, THREE)).toThrow(NewerFormatError);
  });

  it('has a format for every collection', () => {
    for (const collection of COLLECTIONS) expect(currentFormat(FORMATS[collection])).toBeGreaterThanOrEqual(1);
  });
});

describe('the demo', () => {
  it('goes into an empty store once, and never into one that was emptied by hand', async () => {
    const store = openSqliteStore(':memory:');
    const { household, kits, stock } = demoDocuments('2026-12-05');
    expect(await seedDemo(store, '2026-12-05', () => 'seed')).toBe(true);
    expect(await store.list('kits/')).toHaveLength(kits.length);
    expect(await store.list('stock/')).toHaveLength(stock.length);
    const document = await store.get(`households/${household.id}`);
    await store.put(`households/${household.id}`, null, document?.rev ?? '', 'delete', true);
    expect(await seedDemo(store, '2026-12-05', () => 'again')).toBe(false);
    expect(await store.get(`households/${household.id}`)).toBeNull();
    await store.close();
  });
});
