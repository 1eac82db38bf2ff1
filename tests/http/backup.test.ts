import { describe, expect, it } from 'vitest';
import { openSqliteStore } from '../../api/runtime/node/sqlite-store.ts';
import { contentOf, expectProblem, type TestApp, testApp } from './test-app.ts';

const LABEL = { id: 'garden-beans', name: 'Garden beans', foodClass: 'bean', packetMinutes: 70, allergens: [] };

interface BackupFile {
  documents: Record<string, object[] | undefined>;
}

async function storedApp(): Promise<TestApp> {
  const test = await testApp();
  await test.send('POST', '/api/stock', {
    kitId: 'oat-apple-porridge',
    partId: 'oats',
    placeId: 'home',
    packedOn: '2024-10-04',
    quantity: -1,
    reason: 'eaten',
    at: '2026-12-05T08:00',
    note: 'Größe, "Anführung" ½',
  });
  return test;
}
const textOf = async (test: TestApp) => (await test.get('/api/backup')).text();
const emptyApp = () => testApp({ store: openSqliteStore(':memory:') });
const restore = (test: TestApp, backup: unknown, more: object = {}) =>
  test.send('POST', '/api/backup', { backup, ...more });

describe('a backup', () => {
  it('is restored into an empty store, byte for byte, with its numbers in words before', async () => {
    const from = await storedApp();
    const text = await textOf(from);
    const into = await emptyApp();
    const preview = await restore(into, JSON.parse(text), { preview: true });
    expect(await preview.json()).toMatchObject({ restored: false, found: { households: 1 }, inTheWay: { kits: 0 } });
    expect(await textOf(into)).not.toBe(text);
    const answer = await restore(into, JSON.parse(text));
    expect(answer.status).toBe(201);
    expect(await textOf(into)).toBe(text);
  });

  it('says what is in the way, and puts itself in its place only where that is said', async () => {
    const from = await storedApp();
    const text = await textOf(from);
    const into = await testApp();
    await into.send('POST', '/api/kits', { ...(JSON.parse(text).documents.kits[0] as object), id: 'another' });
    const problem = await expectProblem(into, () => restore(into, JSON.parse(text)), { type: 'already-there' });
    expect(problem.detail).toMatch(/1 household, 17 kits, \d+ stock entries/);
    expect((await restore(into, JSON.parse(text), { replace: true })).status).toBe(201);
    expect(await textOf(into)).toBe(text);
    expect((await into.get('/api/kits/another')).status).toBe(404);
  });

  it.each<[string, (file: BackupFile) => void, string]>([
    ['another kind', (file) => Object.assign(file, { backup: 'something' }), '#/backup/backup'],
    ['a later version', (file) => Object.assign(file, { version: 2 }), '#/backup/version'],
    [
      'a document that is none',
      ({ documents }) => Object.assign(documents.kits?.[1] ?? {}, { servings: -2 }),
      '#/backup/documents/kits/1/servings',
    ],
    [
      'an id twice',
      ({ documents }) => documents.kits?.push(documents.kits[0] as object),
      '#/backup/documents/kits/16/id',
    ],
    ['a part of it gone', ({ documents }) => delete documents.stock, '#/backup/documents/stock'],
    ['what nobody keeps', ({ documents }) => Object.assign(documents, { secrets: [] }), '#/backup/documents/secrets'],
    [
      'a later format',
      ({ documents }) => Object.assign(documents.households?.[0] ?? {}, { format: 9 }),
      '#/backup/documents/households/0/format',
    ],
    [
      'a changed name',
      ({ documents }) => Object.assign(documents.kits?.[0] ?? {}, { name: 'Other' }),
      '#/backup/checksum',
    ],
    ['no documents', (file) => Object.assign(file, { documents: null }), '#/backup/documents/households'],
  ])('is refused with %s, and nothing is changed', async (_name, spoil, pointer) => {
    const file = JSON.parse(await textOf(await storedApp())) as BackupFile;
    const into = await testApp();
    spoil(file);
    await expectProblem(into, () => restore(into, file, { replace: true }), {
      type: 'invalid-input',
      field: { pointer },
    });
  });

  it('names value, range and unit of what is wrong in it', async () => {
    const file = JSON.parse(await textOf(await storedApp()));
    file.documents.stock[0].quantity = 1e6;
    await expectProblem(await testApp(), async () => restore(await testApp(), file, { replace: true }), {
      type: 'invalid-input',
      field: {
        pointer: '#/backup/documents/stock/0/quantity',
        value: 1e6,
        minimum: -10_000,
        maximum: 10_000,
        unit: '1',
      },
    });
  });

  it('that was cut short is no JSON, and nothing is changed', async () => {
    const text = await textOf(await storedApp());
    const into = await testApp();
    const before = await contentOf(into.store);
    const answer = await into.send('POST', '/api/backup', `{"replace":true,"backup":${text.slice(0, -200)}`);
    expect(answer.status).toBe(400);
    expect(await contentOf(into.store)).toBe(before);
  });

  it('holds own foods too, and a file of kits takes along those that its kits name', async () => {
    const from = await storedApp();
    expect((await from.send('PUT', `/api/foods/${LABEL.id}`, LABEL, { 'if-none-match': '*' })).status).toBe(201);
    const part = { id: 'dry', name: 'Dry', ingredients: [{ foodId: LABEL.id, massG: 300 }] };
    const kit = {
      id: 'garden-stew',
      name: 'Garden stew',
      servings: 4,
      style: 'stew',
      suits: ['evening'],
      parts: [part],
    };
    expect((await from.send('POST', '/api/kits', kit)).status).toBe(201);
    expect(JSON.parse(await textOf(from)).documents.foods).toHaveLength(1);
    const file = await (await from.get('/api/kits.json')).json();
    const into = await emptyApp();
    expect((await into.send('POST', '/api/kits.json', { file })).status).toBe(201);
    expect((await into.get(`/api/foods/${LABEL.id}`)).status).toBe(200);
  });
});
