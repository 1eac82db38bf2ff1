/**
 * The third day of the sample household: two days are booked, a bottle weighs less than it should and one dish was not soft.
 * The new plan goes on from that, its reasons are those, and the sheet of changes is one page.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import type { PlanChange } from '../../api/planning/bookings/changes.ts';
import type { StateNow } from '../../api/planning/bookings/state-now.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import type { Cooking, Plan } from '../../api/planning/plan-types.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { type TestApp, testApp } from './test-app.ts';

const solver = await createInThreadSolver();
const START = '2026-12-05T17:00';
const NOW = '2026-12-07T14:00';

interface Listed {
  state: StateNow;
  words: string[];
  questions: unknown[];
}
interface Changes {
  summary: string;
  changes: (PlanChange & { text: string })[];
  learned: string[];
  found: string[];
}

let test: TestApp;
let first: Plan;
let next: Plan;
let hard: Cooking;
let before: Listed;
let after: Listed;
let changes: Changes;
/** What the burner has taken by now: as predicted, and as weighed. */
let predictedKg = 0;
let usedKg = 0;

async function send<Body>(path: string, body: object): Promise<Body> {
  const response = await test.send('POST', path, body);
  const answer = await response.json();
  expect({ status: response.status, answer }).toMatchObject({ status: 201 });
  return answer;
}
const listed = async (): Promise<Listed> => (await test.get(`/api/plans/${first.id}/bookings`)).json();

beforeAll(async () => {
  test = await testApp({ solver, clock: { now: () => Date.parse(`${NOW}-07:00`) } });
  first = await send<Plan>('/api/plans', { householdId: 'saddle-lane', startsAt: START, days: 7, timeLimitS: 60 });
  const book = (entry: object) => send(`/api/plans/${first.id}/bookings`, entry);
  for (const meal of first.meals.filter(({ eatAt }) => eatAt <= NOW))
    await book({ kind: 'meal-eaten', at: meal.eatAt, meal: meal.id });
  // A dish that is boiled, and boiled again later in the week.
  const isBoiled = ({ method }: Cooking) => (method.boilMinutes?.p50 ?? 0) > 0;
  hard = first.cookings.find(
    (one) =>
      isBoiled(one) &&
      one.doneAt < NOW &&
      first.cookings.some((later) => later.kitId === one.kitId && later.startsAt > NOW && isBoiled(later)),
  ) as Cooking;
  before = await listed();
  const minutes = Math.ceil(hard.method.boilMinutes?.p90 ?? 0);
  await book({ kind: 'food-tried', at: hard.doneAt, of: hard.id, minutes, soft: false });
  // The burner has taken four tenths more than was predicted: out of the open bottle, then out of a full one.
  const propane = before.state.fuel.find(({ fuelId }) => fuelId === 'propane');
  const onHand = first.fuel.find(({ fuelId }) => fuelId === 'propane')?.onHandKg ?? 0;
  predictedKg = onHand - (propane?.left.p50 ?? 0);
  usedKg = 1.4 * predictedKg;
  const openKg = 0.68 - 0.42;
  const weighing = { kind: 'fuel-weighed', at: '2026-12-07T13:30', fuelId: 'propane' };
  const openLeft = Math.max(0, openKg - usedKg);
  await book({ ...weighing, containerId: 'open-cylinder', grossKg: 0.42 + openLeft });
  const overflow = Math.max(0, usedKg - openKg);
  if (overflow > 0) await book({ ...weighing, containerId: 'full-cylinders', fullOnes: 3, leftKg: 0.465 - overflow });
  after = await listed();
  next = await send<Plan>('/api/plans', {
    householdId: 'saddle-lane',
    startsAt: NOW,
    days: 5,
    timeLimitS: 60,
    replaces: first.id,
  });
  changes = await (await test.get(`/api/plans/${next.id}/changes`)).json();
}, 240_000);

describe('two days on', () => {
  it('shows the difference, what it says of the burner, and whether the week still fits', () => {
    expect(predictedKg).toBeGreaterThan(0.05);
    const found = after.state.differences.reduce((sum, { difference }) => sum + difference, 0);
    expect(found).toBeCloseTo(predictedKg - usedKg, 6);
    const words = after.words.join('\n');
    expect(words).toMatch(
      /Propane camp stove: uses about \d+ % more fuel than the table .*; the rest of the plan still fits\./,
    );
    expect(words).toMatch(/takes about \d+ % longer to soften than the table expects/);
    expect(words).toMatch(/kg less than worked out/);
    expect(after.questions).toEqual([]);
  });

  it('is planned anew with what is there, and everybody is fed to the end', () => {
    expect(checkPlan(next)).toEqual([]);
    expect(next.outcome).toBe('complete');
    const propane = next.fuel.find(({ fuelId }) => fuelId === 'propane');
    const onHand = first.fuel.find(({ fuelId }) => fuelId === 'propane')?.onHandKg ?? 0;
    expect(propane?.onHandKg).toBeCloseTo(onHand - usedKg, 3);
    const reserve = (plan: Plan) => plan.fuel.find(({ fuelId }) => fuelId === 'propane')?.reserveKg;
    expect(reserve(next)).toBeCloseTo(reserve(first) ?? 0, 3);
    const [date, lastOfFirst] = [next, first].map((plan) => plan.water.byDay.at(-1)?.date);
    expect(date).toBe(lastOfFirst);
  });

  it('burns more by the stove and boils the lot longer wherever they are used', () => {
    const learned = next.resolved.learned ?? [];
    expect(learned.map(({ of, quantity }) => `${quantity} ${of.split('/')[0]}`).sort()).toEqual([
      'efficiency camp-stove',
      `minutesFactor ${hard.kitId}`,
    ]);
    const longest = (plan: Plan) =>
      Math.max(
        0,
        ...plan.cookings
          .filter((one) => one.kitId === hard.kitId && one.startsAt > NOW && one.method.finish === hard.method.finish)
          .map((one) => one.method.boilMinutes?.p90 ?? 0),
      );
    // Where the dish is left out instead, there is nothing that boils longer.
    // A dish that softens off the fire boils for as long as a whole pot must, 2 min, however quick or slow its lot.
    if (longest(next) > 2) expect(longest(next)).toBeGreaterThan(longest(first));
    else if (longest(next) > 0) expect(longest(next)).toBe(longest(first));
  });

  it('says of each change why, with reasons that have happened', () => {
    // Where the week has room for all that was found, the wall stands whole.
    if (changes.changes.length === 0) expect(next.continues?.wall.kept).toBe(next.continues?.wall.dishes);
    else expect(changes.changes.some(({ cause }) => cause.kind === 'learned' || cause.kind === 'less-fuel')).toBe(true);
    for (const { text, cause } of changes.changes) {
      expect(text).toMatch(/^(This evening|(Today|Tomorrow|[A-Z][a-z]+day) \w+): .+, because .+\.$/);
      expect(['learned', 'less-fuel', 'follows', 'better']).toContain(cause.kind);
      expect(text).not.toMatch(/undefined|NaN|\d{4}-\d\d-\d\d-/);
    }
    // A lot that proved slow is a reason to leave a dish of it, never to take one.
    const taken = changes.changes.filter(
      ({ cause, kinds, after: dishes }) =>
        cause.kind === 'learned' && kinds.includes('dish') && dishes.some(({ kitId }) => kitId === hard.kitId),
    );
    expect(taken).toEqual([]);
    expect(changes.learned.join('\n')).toMatch(/uses about \d+ % more fuel .*; the rest of the plan still fits\./);
  });

  it('prints that on one page, and reports both plans as one outage', async () => {
    const sheet = await (await test.get(`/api/plans/${next.id}/changes/sheet`)).text();
    expect(sheet.match(/<section/g)).toHaveLength(1);
    for (const { text } of changes.changes) expect(sheet).toContain(text.slice(0, 20));
    expect(sheet).not.toContain('more: see the new schedule');
    // In US units the metric figure stays beside.
    const us = await (await test.get(`/api/plans/${next.id}/changes/sheet?units=us`)).text();
    expect(us).toMatch(/[\d¼½¾⅓⅔]\s(oz|lb)\s\(\d[\d.]*\skg\)/);
    expect((await test.get(`/api/plans/${next.id}/changes/sheet?units=stone`)).status).toBe(422);
    const report = await (await test.get(`/api/plans/${next.id}/report`)).json();
    expect(report.planIds).toEqual([first.id, next.id]);
    const propane = report.fuel.find(({ fuelId }: { fuelId: string }) => fuelId === 'propane');
    expect(propane.used).toBeCloseTo(usedKg, 3);
    expect(report.refill).toContainEqual({ fuelId: 'propane', unit: 'kg', amount: propane.used, weighed: true });
    expect(report.boiled.dishes).toBeGreaterThan(0);
    expect(report.learned.join('\n')).toMatch(/uses about \d+ % more fuel/);
  });
});
