import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Plan } from '../../api/planning/plan-types.ts';
import type { Advice } from '../../api/planning/questions/advice.ts';
import type { Endurance } from '../../api/planning/questions/endurance.ts';
import type { TradeOff } from '../../api/planning/questions/trade-off.ts';
import type { Solver } from '../../api/planning/solver.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { LENTIL_SOUP, places, RICE, START, household as smallHousehold, stockOf } from '../planning/small-household.ts';
import { contentOf, expectProblem, type TestApp, testApp } from './test-app.ts';

let solver: Solver;
let test: TestApp;
let plan: Plan;
// The demonstration stock lies at `home`: this household lives elsewhere.
const household = smallHousehold({ places: places({ id: 'cottage' }) });
const QUESTION = { householdId: household.id, startsAt: START };

beforeAll(async () => {
  solver = await createInThreadSolver();
  // A clock that goes on, so that time limits mean something.
  test = await testApp({ solver, clock: { now: () => Date.now() } });
  const create = { 'if-none-match': '*' };
  const put = async (path: string, body: unknown) =>
    expect((await test.send('PUT', path, body, create)).status).toBe(201);
  await put(`/api/households/${household.id}`, household);
  for (const kit of [LENTIL_SOUP, RICE]) await put(`/api/kits/${kit.id}`, kit);
  const entries = stockOf([
    [LENTIL_SOUP, 2],
    [RICE, 1],
  ]);
  for (const { id: _id, ...entry } of entries)
    expect((await test.send('POST', '/api/stock', { ...entry, placeId: 'cottage' })).status).toBe(201);
  const response = await test.send('POST', '/api/plans', { ...QUESTION, days: 2 });
  expect(response.status).toBe(201);
  plan = (await response.json()) as Plan;
}, 60_000);
afterAll(() => {
  expect(test.faults).toEqual([]);
});

interface ServerEvent {
  event: string;
  data: Record<string, unknown>;
}

async function eventsOf(response: Response): Promise<ServerEvent[]> {
  expect(response.headers.get('content-type')).toMatch(/^text\/event-stream/);
  const blocks = (await response.text()).split('\n\n').filter((block) => block.trim() !== '');
  return blocks.map((block) => {
    const lines = block.split('\n');
    const field = (name: string) =>
      lines
        .filter((line) => line.startsWith(`${name}:`))
        .map((line) => line.slice(name.length + 1).trim())
        .join('\n');
    return { event: field('event'), data: JSON.parse(field('data')) };
  });
}

describe('how long the stores last', () => {
  it('is answered from what is stored, and keeps nothing', async () => {
    const before = await contentOf(test.store);
    const response = await test.send('POST', '/api/endurance', { ...QUESTION, days: 5 });
    expect(response.status).toBe(200);
    const found = (await response.json()) as Endurance;
    expect(found.fed).toMatchObject({ days: 3, planFound: true, noMorePossible: true });
    expect(found.endsFed?.alone.map(({ limit }) => limit)).toEqual(['sets']);
    expect(found.reverse?.fed.alone[0]).toMatchObject({ limit: 'sets', amount: 1 });
    expect(found.curve.length).toBeGreaterThan(3);
    expect(await contentOf(test.store)).toBe(before);
  });

  it('tells its progress where events are asked for', async () => {
    const response = await test.send('POST', '/api/endurance', QUESTION, { accept: 'text/event-stream' });
    const events = await eventsOf(response);
    expect(events.at(-1)?.event).toBe('endurance');
    expect(events.at(-1)?.data).toMatchObject({ fed: { days: 3 }, reverse: null });
    expect(events.slice(0, -1).every(({ event }) => event === 'progress')).toBe(true);
    expect(events.length).toBeGreaterThan(2);
  });

  it.each([
    ['no household of this id', { ...QUESTION, householdId: 'nobody' }, { pointer: '#/householdId', value: 'nobody' }],
    ['zero days', { ...QUESTION, days: 0 }, { pointer: '#/days', value: 0, minimum: 1, maximum: 90 }],
    ['too many days', { ...QUESTION, days: 91 }, { pointer: '#/days', value: 91, minimum: 1, maximum: 90 }],
    ['half a day', { ...QUESTION, days: 1.5 }, { pointer: '#/days', value: 1.5 }],
    ['no start', { householdId: household.id }, { pointer: '#/startsAt' }],
    ['a start that is no time', { ...QUESTION, startsAt: '2026-02-30T10:00' }, { pointer: '#/startsAt' }],
    ['an unknown field', { ...QUESTION, replaces: null }, { pointer: '#/replaces' }],
    ['an unknown place', { ...QUESTION, placeId: 'barn' }, { pointer: '#/placeId', value: 'barn' }],
    ['an unknown kit', { ...QUESTION, kitIds: ['cake'] }, { pointer: '#/kitIds/0', value: 'cake' }],
    ['no time at all', { ...QUESTION, timeLimitS: 0 }, { pointer: '#/timeLimitS', value: 0, minimum: 1, maximum: 120 }],
  ])('refuses %s', async (_name, body, field) => {
    await expectProblem(test, () => test.send('POST', '/api/endurance', body), { type: 'invalid-input', field });
  });

  it('answers a household without stove, pot or food plainly', async () => {
    const bare = { ...household, id: 'bare-hut', places: places({ id: 'hut' }), stoves: [], vessels: [], boxes: [] };
    await test.send('PUT', '/api/households/bare-hut', bare, { 'if-none-match': '*' });
    const none = { householdId: 'bare-hut', startsAt: START };
    const found = (await (await test.send('POST', '/api/endurance', none)).json()) as Endurance;
    expect(found.fed.days).toBe(0);
    expect(found.text[0]).toBe('Not even the first day can be fed in full.');
    const response = await test.send('POST', '/api/plans', { ...none, days: 1 });
    const made = (await response.json()) as Plan;
    expect(made.outcome).toBe('short');
    expect(made.conflict?.map(({ text }) => text).join(' ')).toMatch(/no stove.* no pot/);
    await expectProblem(test, () => test.send('POST', '/api/plans', { ...none, days: 0 }), {
      type: 'invalid-input',
      field: { pointer: '#/days', value: 0, minimum: 1 },
    });
  });
});

describe('what to get or do next', () => {
  it('answers for a stored plan, as it was made, and keeps nothing', async () => {
    const before = await contentOf(test.store);
    const response = await test.send('POST', `/api/plans/${plan.id}/advice`, {});
    expect(response.status).toBe(200);
    const advice = (await response.json()) as Advice;
    expect(advice).toMatchObject({ days: 2, daysFed: 3, daysFedHot: 3 });
    expect(advice.items.map(({ id }) => id)).toContain('water-10-l');
    // One set of five servings feeds the two of them for two days more.
    expect(advice.items[0]).toMatchObject({ kind: 'kit', daysGained: { fed: 2 } });
    expect(await contentOf(test.store)).toBe(before);
  });

  it('and what hot meals cost', async () => {
    const response = await test.send('POST', `/api/plans/${plan.id}/trade-off`, { timeLimitS: 20 });
    expect(response.status).toBe(200);
    const curve = (await response.json()) as TradeOff;
    expect(curve.hotMealsWanted).toBe(2);
    expect(curve.points.at(-1)).toMatchObject({ hotMeals: 2, asHotAsPlanned: true });
  });

  it('both tell their progress', async () => {
    for (const question of ['advice', 'trade-off']) {
      const accept = { accept: 'text/event-stream' };
      const events = await eventsOf(await test.send('POST', `/api/plans/${plan.id}/${question}`, {}, accept));
      expect(events.at(-1)?.event).toBe(question);
      expect(events.slice(0, -1).every(({ event }) => event === 'progress')).toBe(true);
    }
  });

  it.each(['advice', 'trade-off'])('%s refuses what is wrong', async (question) => {
    const send = (id: string, body: unknown) => () => test.send('POST', `/api/plans/${id}/${question}`, body);
    await expectProblem(test, send('none', {}), { type: 'not-found' });
    await expectProblem(test, send(plan.id, { timeLimitS: 500 }), {
      type: 'invalid-input',
      field: { pointer: '#/timeLimitS', value: 500, minimum: 1, maximum: 120, unit: 's' },
    });
    await expectProblem(test, send(plan.id, { days: 3 }), { type: 'invalid-input', field: { pointer: '#/days' } });
    await expectProblem(test, send('NOT AN ID', {}), { type: 'invalid-input', field: { parameter: 'id' } });
    await expectProblem(test, send(plan.id, '{'), { type: 'malformed-json' });
  });
});

describe('the queue', () => {
  it('is one for plans and for questions, and closing the connection cancels', async () => {
    const running: (AbortSignal | undefined)[] = [];
    const held: Solver = {
      version: 'held',
      solve: (_programme, _aims, options) =>
        new Promise((resolve) => {
          running.push(options.signal);
          options.signal?.addEventListener('abort', () => resolve({ status: 'cancelled' }), { once: true });
        }),
    };
    const busy = await testApp({ solver: held, store: test.store });
    const events = { accept: 'text/event-stream' };
    const first = await busy.send('POST', '/api/endurance', QUESTION, events);
    const second = await busy.send('POST', `/api/plans/${plan.id}/advice`, {}, events);
    for (const [path, body] of [
      ['/api/endurance', QUESTION],
      [`/api/plans/${plan.id}/trade-off`, {}],
      ['/api/plans', { ...QUESTION, days: 1 }],
    ] as const) {
      await expectProblem({ store: test.store }, () => busy.send('POST', path, body), { type: 'solver-busy' });
    }
    while (running.length === 0) await new Promise((resolve) => setTimeout(resolve, 5));
    await first.body?.cancel();
    while (running.length === 1) await new Promise((resolve) => setTimeout(resolve, 5));
    expect(running[0]?.aborted).toBe(true);
    await second.body?.cancel();
    while (running[1]?.aborted !== true) await new Promise((resolve) => setTimeout(resolve, 5));
    expect(busy.faults).toEqual([]);
  });
});
