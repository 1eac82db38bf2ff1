import { describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { DEMO_START, expectProblem, testApp } from './test-app.ts';

const { kits, household } = demoDocuments(DEMO_START);
const kit = kits[0] as Kit;
const NEW: Kit = { ...kit, id: 'new-kit', name: 'New' };

describe.each([
  ['kits', NEW],
  ['households', { ...household, id: 'new-kit' }],
] as const)('revisions of %s', (collection, document) => {
  const path = `/api/${collection}/new-kit`;

  it('creates once, replaces with the tag, and refuses the second editor', async () => {
    const test = await testApp();
    const created = await test.send('PUT', path, document, { 'if-none-match': '*' });
    expect(created.status).toBe(201);
    const tag = created.headers.get('etag') ?? '';
    expect(tag).toMatch(/^"[^"]+"$/);
    expect((await test.get(path)).headers.get('etag')).toBe(tag);
    // Whatever GET returns, PUT accepts.
    const read = (await (await test.get(path)).json()) as Record<string, unknown>;
    expect(read).toEqual({ ...document, format: 1 });
    const first = await test.send('PUT', path, { ...read, name: 'First' }, { 'if-match': tag });
    expect(first.status).toBe(200);
    expect(first.headers.get('etag')).not.toBe(tag);
    const second = () => test.send('PUT', path, { ...document, name: 'Second' }, { 'if-match': tag });
    const problem = await expectProblem(test, second, { type: 'stale-revision' });
    expect(problem.current).toMatchObject({ name: 'First' });
    expect((await second()).headers.get('etag')).toBe(first.headers.get('etag'));
  });

  it('asks for a condition, and refuses those that never match', async () => {
    const test = await testApp();
    await expectProblem(test, () => test.send('PUT', path, document), { type: 'revision-required' });
    await expectProblem(test, () => test.send('PUT', path, document, { 'if-match': '"1"' }), { type: 'not-found' });
    const tag = (await test.send('PUT', path, document, { 'if-none-match': '*' })).headers.get('etag') ?? '';
    const again = () => test.send('PUT', path, document, { 'if-none-match': '*' });
    await expectProblem(test, again, { type: 'stale-revision' });
    for (const wrong of [`W/${tag}`, tag.slice(1, -1), '"x"', '']) {
      const weak = () => test.send('PUT', path, document, { 'if-match': wrong });
      await expectProblem(test, weak, { type: 'stale-revision' });
    }
    const remove = (headers: Record<string, string>) => () =>
      Promise.resolve(test.app.request(`http://localhost:8787${path}`, { method: 'DELETE', headers }));
    await expectProblem(test, remove({}), { type: 'revision-required' });
    await expectProblem(test, remove({ 'if-match': '"0"' }), { type: 'stale-revision' });
    expect((await remove({ 'if-match': tag })()).status).toBe(204);
    await expectProblem(test, remove({ 'if-match': tag }), { type: 'not-found' });
    await expectProblem(test, () => test.get(path), { type: 'not-found' });
    // A deleted id can be used again.
    expect((await test.send('PUT', path, document, { 'if-none-match': '*' })).status).toBe(201);
  });

  it('answers 304 to a reader who has it', async () => {
    const test = await testApp();
    const tag = (await test.send('PUT', path, document, { 'if-none-match': '*' })).headers.get('etag') ?? '';
    const again = await test.get(path, { 'if-none-match': tag });
    expect(again.status).toBe(304);
    expect(await again.text()).toBe('');
    expect((await test.get(path, { 'if-none-match': '"other"' })).status).toBe(200);
  });

  it('takes a POST with and without an id, and refuses a taken one', async () => {
    const test = await testApp();
    const { id: _id, ...rest } = document;
    const made = await test.send('POST', `/api/${collection}`, rest);
    expect(made.status).toBe(201);
    const location = made.headers.get('location') ?? '';
    expect((await test.get(location)).status).toBe(200);
    expect((await test.send('POST', `/api/${collection}`, document)).status).toBe(201);
    const again = () => test.send('POST', `/api/${collection}`, document);
    await expectProblem(test, again, { type: 'already-there', field: { pointer: '#/id' } });
  });
});

describe('stock', () => {
  const entry = {
    kitId: kit.id,
    partId: (kit.parts[0] as Kit['parts'][number]).id,
    placeId: 'home',
    packedOn: '2026-11-01',
    quantity: 3,
    reason: 'packed',
    at: '2026-11-01T10:00',
  };

  it('is the sum of its entries', async () => {
    const test = await testApp();
    expect((await test.send('POST', '/api/stock', entry)).status).toBe(201);
    const eaten = { ...entry, id: 'eaten-one', quantity: -1, reason: 'eaten', at: '2026-11-20T18:00' };
    expect((await test.send('POST', '/api/stock', eaten)).status).toBe(201);
    const { totals } = (await (await test.get('/api/stock')).json()) as { totals: Record<string, unknown>[] };
    expect(totals).toContainEqual(expect.objectContaining({ kitId: kit.id, packedOn: '2026-11-01', quantity: 2 }));
    await expectProblem(test, () => test.send('POST', '/api/stock', eaten), { type: 'already-there' });
  });

  it('lets only one of two take the last sets', async () => {
    const test = await testApp();
    await test.send('POST', '/api/stock', entry);
    const take = () => test.send('POST', '/api/stock', { ...entry, quantity: -3, reason: 'eaten' });
    const statuses = (await Promise.all([take(), take()])).map((response) => response.status);
    expect(statuses.sort()).toEqual([201, 422]);
  });

  it('keeps a kit from being deleted or losing a part', async () => {
    const test = await testApp();
    const etag = (await test.get(`/api/kits/${kit.id}`)).headers.get('etag') ?? '';
    const remove = () => test.send('DELETE', `/api/kits/${kit.id}`, {}, { 'if-match': etag });
    const problem = await expectProblem(test, remove, { type: 'in-use' });
    expect(problem.inStock).not.toEqual([]);
    const parts = [{ ...kit.parts[0], id: 'another' }];
    const lose = () => test.send('PUT', `/api/kits/${kit.id}`, { ...kit, parts }, { 'if-match': etag });
    await expectProblem(test, lose, { type: 'invalid-input', field: { pointer: '#/parts' } });
  });
});
