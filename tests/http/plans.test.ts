import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Plan } from '../../api/planning/plan-types.ts';
import type { Solver } from '../../api/planning/solver.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { contentOf, DEMO_START, expectProblem, noSolver, ORIGIN, type TestApp, testApp } from './test-app.ts';

const { household } = demoDocuments(DEMO_START);
const REQUEST = { householdId: household.id, startsAt: `${DEMO_START}T17:00`, days: 2, timeLimitS: 20 };

let solver: Solver;
let test: TestApp;
let plan: Plan;
beforeAll(async () => {
  solver = await createInThreadSolver();
  test = await testApp({ solver });
  const response = await test.send('POST', '/api/plans', REQUEST);
  plan = (await response.json()) as Plan;
  expect({ status: response.status, plan }).toMatchObject({ status: 201 });
  expect(response.headers.get('location')).toBe(`/api/plans/${plan.id}`);
}, 60_000);
afterAll(() => {
  expect(test.faults).toEqual([]);
});

interface ServerEvent {
  event: string;
  data: Record<string, unknown>;
}

async function eventsOf(response: Response): Promise<ServerEvent[]> {
  const blocks = (await response.text()).split('\n\n').filter((block) => block.trim() !== '');
  return blocks.map((block) => {
    const field = (name: string) =>
      block
        .split('\n')
        .filter((line) => line.startsWith(`${name}:`))
        .map((line) => line.slice(name.length + 1).trim())
        .join('\n');
    return { event: field('event'), data: JSON.parse(field('data')) };
  });
}

describe('a plan', () => {
  it('is kept as a snapshot that later changes do not touch', async () => {
    expect(plan).toMatchObject({ request: REQUEST, versions: { solver: solver.version, program: 'test' } });
    expect(plan.schedule.length).toBeGreaterThan(0);
    expect(plan.resolved.household).toMatchObject({ id: household.id });
    const read = await test.get(`/api/plans/${plan.id}`);
    expect(await read.json()).toEqual(plan);
    const path = `/api/households/${household.id}`;
    const current = await test.get(path);
    const changed = { ...((await current.json()) as object), name: 'Renamed' };
    const headers = { 'if-match': current.headers.get('etag') ?? '' };
    expect((await test.send('PUT', path, changed, headers)).status).toBe(200);
    expect(await (await test.get(`/api/plans/${plan.id}`)).json()).toEqual(plan);
  });

  it('is listed in short, and keeps its household and kits from being deleted while it runs', async () => {
    const { items } = (await (await test.get('/api/plans')).json()) as { items: object[] };
    const { id, createdAt, outcome } = plan;
    const { householdId, startsAt, days } = REQUEST;
    expect(items).toEqual([{ id, createdAt, outcome, householdId, startsAt, days, replaces: null }]);
    const remove = () => test.send('DELETE', `/api/households/${household.id}`, {}, { 'if-match': '*' });
    const problem = await expectProblem(test, remove, { type: 'in-use' });
    expect(problem.usedBy).toEqual([`/api/plans/${id}`]);
  });

  it('prints as a page that the policy lets through', async () => {
    for (const query of ['', '?units=us&type=large&paper=letter', '?type=compact']) {
      const response = await test.get(`/api/plans/${plan.id}/schedule${query}`);
      expect(response.status).toBe(200);
      expect(response.headers.get('content-type')).toMatch(/^text\/html/);
      expect(response.headers.get('content-security-policy')).toContain("style-src 'self'");
      const html = await response.text();
      expect(html).toContain('/print.css');
      expect(html).not.toMatch(/<script|<style|\sstyle=|\son\w+=/i);
    }
    const wrong = () => test.get(`/api/plans/${plan.id}/schedule?units=imperial`);
    await expectProblem(test, wrong, { type: 'invalid-input', field: { parameter: 'units', value: 'imperial' } });
    await expectProblem(test, () => test.get('/api/plans/none/schedule'), { type: 'not-found' });
  });

  it('tells its progress where events are asked for', async () => {
    const response = await test.send('POST', '/api/plans', { ...REQUEST, days: 1 }, { accept: 'text/event-stream' });
    expect(response.headers.get('content-type')).toMatch(/^text\/event-stream/);
    const events = await eventsOf(response);
    const last = events.at(-1) as ServerEvent;
    expect(last.event).toBe('plan');
    expect(await (await test.get(`/api/plans/${last.data.id}`)).json()).toEqual(last.data);
    const progress = events.slice(0, -1);
    expect(progress.length).toBeGreaterThan(0);
    for (const { event, data } of progress) {
      expect(event).toBe('progress');
      expect(Object.keys(data).sort()).toEqual(['aim', 'best', 'bound', 'elapsedS', 'gap']);
    }
  });
});

/** A solver that waits until it is told to go on, or is cancelled. */
function heldSolver() {
  const running: { signal: AbortSignal | undefined; fail: () => void }[] = [];
  const held: Solver = {
    version: 'held',
    solve: (_programme, _aims, options) =>
      new Promise((resolve, reject) => {
        options.signal?.addEventListener('abort', () => resolve({ status: 'cancelled' }), { once: true });
        running.push({ signal: options.signal, fail: () => reject(new Error('the engine failed at /home/x')) });
      }),
  };
  return { held, running };
}

async function until(condition: () => boolean): Promise<void> {
  while (!condition()) await new Promise((resolve) => setTimeout(resolve, 5));
}

describe('the queue of plans', () => {
  it('runs one, lets one wait, refuses the third, and answers everything else meanwhile', async () => {
    const { held, running } = heldSolver();
    const busy = await testApp({ solver: held });
    const first = busy.send('POST', '/api/plans', REQUEST);
    await until(() => running.length === 1);
    const second = busy.send('POST', '/api/plans', REQUEST);
    await new Promise((resolve) => setTimeout(resolve, 20));
    for (const accept of ['application/json', 'text/event-stream']) {
      const third = () => busy.send('POST', '/api/plans', REQUEST, { accept });
      await expectProblem(busy, third, { type: 'solver-busy' });
      expect(Number((await third()).headers.get('retry-after'))).toBeGreaterThan(0);
    }
    expect((await busy.get('/api/health')).status).toBe(200);
    expect(running).toHaveLength(1);
    const before = await contentOf(busy.store);
    running[0]?.fail();
    expect((await first).status).toBe(500);
    expect(await (await first).text()).not.toContain('/home');
    await until(() => running.length === 2);
    running[1]?.fail();
    expect((await second).status).toBe(500);
    expect(await contentOf(busy.store)).toBe(before);
    // Places are given up when a job fails.
    const again = busy.send('POST', '/api/plans', REQUEST);
    await until(() => running.length === 3);
    running[2]?.fail();
    expect((await again).status).toBe(500);
  });

  it('closing the connection cancels the solver and keeps nothing', async () => {
    const { held, running } = heldSolver();
    const closing = await testApp({ solver: held });
    const response = await closing.send('POST', '/api/plans', REQUEST, { accept: 'text/event-stream' });
    await until(() => running.length === 1);
    const before = await contentOf(closing.store);
    await response.body?.cancel();
    await until(() => running[0]?.signal?.aborted === true);
    expect(await contentOf(closing.store)).toBe(before);
    expect(closing.faults).toEqual([]);
    // The place is free again.
    const next = await closing.send('POST', '/api/plans', REQUEST, { accept: 'text/event-stream' });
    await until(() => running.length === 2);
    await next.body?.cancel();
    await until(() => running[1]?.signal?.aborted === true);
  });

  it('aborting a plain request cancels too', async () => {
    const { held, running } = heldSolver();
    const closing = await testApp({ solver: held });
    const abort = new AbortController();
    const answer = closing.app.request(`${ORIGIN}/api/plans`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(REQUEST),
      signal: abort.signal,
    });
    await until(() => running.length === 1);
    abort.abort();
    await until(() => running[0]?.signal?.aborted === true);
    await answer;
    expect(closing.faults).toEqual([]);
  });

  it('a fault of the solver is told as an event of fixed text', async () => {
    const broken = await testApp({ solver: noSolver });
    const response = await broken.send('POST', '/api/plans', REQUEST, { accept: 'text/event-stream' });
    const last = (await eventsOf(response)).at(-1) as ServerEvent;
    expect(last).toMatchObject({ event: 'problem', data: { type: '/problems/internal-fault', status: 500 } });
    expect(JSON.stringify(last)).not.toContain('solves nothing');
    expect(broken.faults).toHaveLength(1);
  });
});
