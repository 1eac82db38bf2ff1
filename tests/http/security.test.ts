import { describe, expect, it } from 'vitest';
import { FAULT_DETAIL } from '../../api/http/problem.ts';
import { DATA_POLICY, PAGE_POLICY } from '../../api/http/security.ts';
import type { SiteFile } from '../../api/http/site.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { contentOf, DEMO_START, expectProblem, ORIGIN, testApp } from './test-app.ts';

const { household, kits } = demoDocuments(DEMO_START);
const page: SiteFile = {
  type: 'text/html; charset=utf-8',
  bytes: new TextEncoder().encode('<!doctype html>'),
  gzip: null,
  immutable: false,
};
const site = new Map([
  ['/', page],
  ['/index.html', page],
]);
const READS = [
  '/',
  '/api/health',
  '/api/openapi.json',
  '/api/references',
  '/api/foods',
  '/api/fuels',
  '/api/stove-types',
  '/api/insulation-materials',
  '/api/boiling-point?elevationM=1500',
  '/api/households',
  `/api/households/${household.id}`,
  '/api/kits',
  `/api/kits/${kits[0]?.id}`,
  '/api/stock',
  '/api/plans',
];

describe('a foreign Host is refused before any route, the page included', () => {
  it.each([...READS, '/api/nothing', '/missing.js'])('%s', async (path) => {
    const test = await testApp({ site });
    for (const host of ['evil.test', 'evil.test:8787', 'localhost', 'localhost:1', '127.0.0.1.evil.test:8787', '']) {
      await expectProblem(test, () => test.get(path, { host }), { type: 'foreign-host' });
    }
  });

  it('even when Origin names the same foreign name', async () => {
    const test = await testApp();
    const headers = { host: 'evil.test', origin: 'http://evil.test', 'sec-fetch-site': 'same-origin' };
    await expectProblem(test, () => test.send('POST', '/api/stock', {}, headers), { type: 'foreign-host' });
  });
});

describe('a write from another site is refused', () => {
  const WRITES: [string, string][] = [
    ['POST', '/api/kits'],
    ['PUT', '/api/kits/x'],
    ['DELETE', '/api/kits/x'],
    ['POST', '/api/stock'],
    ['POST', '/api/plans'],
    ['POST', '/api/soaking'],
  ];
  it.each(WRITES)('%s %s', async (method, path) => {
    const test = await testApp();
    const foreign: Record<string, string>[] = [
      { origin: 'http://evil.test' },
      { origin: 'null' },
      { origin: 'https://localhost:8787' },
      { origin: 'http://localhost:1234' },
      { 'sec-fetch-site': 'cross-site' },
      { 'sec-fetch-site': 'same-site' },
      { 'sec-fetch-site': 'none' },
      { origin: ORIGIN, 'sec-fetch-site': 'cross-site' },
    ];
    for (const headers of foreign) {
      await expectProblem(test, () => test.send(method, path, {}, headers), { type: 'foreign-origin' });
    }
  });

  it('the page itself and programs may write', async () => {
    const test = await testApp();
    const question = { foodId: 'kidney-bean', hours: 12, waterC: 18 };
    const own = { origin: ORIGIN, 'sec-fetch-site': 'same-origin' };
    expect((await test.send('POST', '/api/soaking', question, own)).status).toBe(200);
    expect((await test.send('POST', '/api/soaking', question, { origin: ORIGIN })).status).toBe(200);
    expect((await test.send('POST', '/api/soaking', question)).status).toBe(200);
    const spelled = { 'content-type': 'Application/JSON; charset=utf-8' };
    expect((await test.send('POST', '/api/soaking', question, spelled)).status).toBe(200);
  });
});

describe('headers', () => {
  it.each(READS)('of %s', async (path) => {
    const test = await testApp({ site });
    const { headers, status } = await test.get(path);
    expect(status).toBe(200);
    expect(headers.get('content-security-policy')).toBe(path === '/' ? PAGE_POLICY : DATA_POLICY);
    expect(headers.get('x-content-type-options')).toBe('nosniff');
    expect(headers.get('referrer-policy')).toBe('no-referrer');
    expect(headers.get('cross-origin-opener-policy')).toBe('same-origin');
    expect(headers.get('cross-origin-resource-policy')).toBe('same-origin');
    expect(headers.get('cache-control')).toMatch(/no-store|no-cache/);
    for (const absent of ['x-powered-by', 'server', 'access-control-allow-origin', 'set-cookie']) {
      expect(headers.get(absent)).toBeNull();
    }
  });

  it('the policy of pages allows nothing unsafe', () => {
    expect(PAGE_POLICY).not.toContain('unsafe');
    expect(PAGE_POLICY).toContain("default-src 'none'");
  });
});

describe('reads and refusals change nothing', () => {
  it('GET, HEAD and OPTIONS', async () => {
    const test = await testApp({ site });
    const before = await contentOf(test.store);
    for (const method of ['GET', 'HEAD', 'OPTIONS']) {
      for (const path of READS) {
        const response = await test.app.request(`${ORIGIN}${path}`, { method });
        expect(response.status).toBeLessThan(500);
        if (method === 'HEAD') expect(await response.text()).toBe('');
      }
    }
    expect(await contentOf(test.store)).toBe(before);
  });
});

describe('faults', () => {
  it('answer a fixed text, and are told to the log', async () => {
    const test = await testApp();
    const broken = await testApp({
      store: { ...test.store, list: () => Promise.reject(new Error('secret /home/x')) },
    });
    const response = await broken.get('/api/kits');
    expect(response.status).toBe(500);
    expect(await response.json()).toEqual({
      type: '/problems/internal-fault',
      title: 'A fault of the program',
      status: 500,
      detail: FAULT_DETAIL,
    });
    expect(broken.faults).toHaveLength(1);
  });
});

describe('text of users', () => {
  it('comes back as it was sent, quotes and markup alike', async () => {
    const test = await testApp();
    const name = `Robert'); DROP TABLE document;-- "<script>&\u2028 ünïcödé`;
    const kit = { ...kits[0], id: 'quoted', name, note: name };
    expect((await test.send('POST', '/api/kits', kit)).status).toBe(201);
    expect(await (await test.get('/api/kits/quoted')).json()).toEqual({ ...kit, format: 1 });
    expect((await test.get('/api/kits')).status).toBe(200);
  });
});
