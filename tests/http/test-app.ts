/** The app in process over a store in memory, and the one helper that every refusal is checked with. */
import { expect } from 'vitest';
import { createApp } from '../../api/http/app.ts';
import { PROBLEM_TYPES } from '../../api/http/problem.ts';
import type { Services } from '../../api/http/services.ts';
import type { Solver } from '../../api/planning/solver.ts';
import { openSqliteStore } from '../../api/runtime/node/sqlite-store.ts';
import type { DocumentStore } from '../../api/storage/document-store.ts';
import { seedDemo } from '../../api/storage/seed-demo.ts';

export const ORIGIN = 'http://localhost:8787';
export const DEMO_START = '2026-12-05';

/** A solver that is never asked. */
export const noSolver: Solver = {
  version: 'none',
  solve: () => Promise.reject(new Error('this test solves nothing')),
};

export interface TestApp {
  app: ReturnType<typeof createApp>;
  store: DocumentStore;
  faults: unknown[];
  get(path: string, headers?: Record<string, string>): Promise<Response>;
  send(method: string, path: string, body: unknown, headers?: Record<string, string>): Promise<Response>;
}

/** The app with the demo household in it. */
export async function testApp(overrides: Partial<Services> = {}): Promise<TestApp> {
  const store = openSqliteStore(':memory:');
  let ids = 0;
  const newId = () => {
    ids += 1;
    return `id-${ids}`;
  };
  await seedDemo(store, DEMO_START, newId);
  const faults: unknown[] = [];
  const app = createApp({
    store,
    solver: noSolver,
    clock: { now: () => Date.parse(`${DEMO_START}T12:00Z`) },
    newId,
    programVersion: 'test',
    allowedHosts: ['localhost:8787'],
    logFault: (error) => faults.push(error),
    ...overrides,
  });
  return {
    app,
    store,
    faults,
    get: async (path, headers = {}) => app.request(`${ORIGIN}${path}`, { headers }),
    send: async (method, path, body, headers = {}) =>
      app.request(`${ORIGIN}${path}`, {
        method,
        headers: { 'content-type': 'application/json', ...headers },
        body: typeof body === 'string' ? body : JSON.stringify(body),
      }),
  };
}

/** What the store holds, as text: equal before and after means that nothing was changed. */
export async function contentOf(store: DocumentStore): Promise<string> {
  return JSON.stringify(await store.changes(0, 100_000));
}

interface FieldExpectation {
  pointer?: string;
  parameter?: string;
  value?: unknown;
  detail?: string;
  minimum?: number;
  maximum?: number;
  unit?: string;
}

/**
 * Sends a bad request and checks the whole refusal: status, media type, members, the field named with value and range,
 * the headers, and that the store is as it was.
 */
export async function expectProblem(
  { store }: Pick<TestApp, 'store'>,
  ask: () => Promise<Response>,
  expected: { type: keyof typeof PROBLEM_TYPES; field?: FieldExpectation },
): Promise<Record<string, unknown>> {
  const before = await contentOf(store);
  const response = await ask();
  const text = await response.text();
  const problem = JSON.parse(text) as Record<string, unknown>;
  const { status, title } = PROBLEM_TYPES[expected.type];
  expect({ status: response.status, problem }).toMatchObject({ status, problem: { status, title } });
  expect(problem.type).toBe(`/problems/${expected.type}`);
  expect(response.headers.get('content-type')).toBe('application/problem+json');
  expect(response.headers.get('x-content-type-options')).toBe('nosniff');
  expect(problem.detail).toEqual(expect.stringMatching(/\S/));
  for (const error of (problem.errors ?? []) as Record<string, unknown>[]) {
    expect(error.detail).toEqual(expect.stringMatching(/\S/));
    expect(typeof error.pointer === 'string' || typeof error.parameter === 'string').toBe(true);
    if (error.pointer !== undefined) expect(error.pointer).toMatch(/^#(\/|$)/);
  }
  if (expected.field !== undefined) expect(problem.errors).toContainEqual(expect.objectContaining(expected.field));
  expect(text.length).toBeLessThan(200_000);
  expect(await contentOf(store)).toBe(before);
  return problem;
}
