/** Derivations of the answers to questions about a plan: every step works out again, and ends in what is printed. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ExplanationStep } from '../../api/cooking/calculators/calculator-types.ts';
import { identifierOf } from '../../api/cooking/derivations/explanation-steps.ts';
import type { Plan } from '../../api/planning/plan-types.ts';
import type { Advice } from '../../api/planning/questions/advice.ts';
import type { Endurance } from '../../api/planning/questions/endurance.ts';
import type { TradeOff } from '../../api/planning/questions/trade-off.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { quantityWords } from '../../api/wording/quantity-names.ts';
import { recompute } from '../cooking/evaluate-steps.ts';
import { LENTIL_SOUP, places, RICE, START, household as smallHousehold, stockOf } from '../planning/small-household.ts';
import { expectProblem, type TestApp, testApp } from './test-app.ts';

const household = smallHousehold({ places: places({ id: 'cottage' }) });
const QUESTION = { householdId: household.id, startsAt: START };

let test: TestApp;
let plan: Plan;
beforeAll(async () => {
  // A clock that goes on, so that time limits mean something.
  test = await testApp({ solver: await createInThreadSolver(), clock: { now: () => Date.now() } });
  const create = { 'if-none-match': '*' };
  await test.send('PUT', `/api/households/${household.id}`, household, create);
  for (const kit of [LENTIL_SOUP, RICE]) await test.send('PUT', `/api/kits/${kit.id}`, kit, create);
  const entries = stockOf([
    [LENTIL_SOUP, 2],
    [RICE, 1],
  ]);
  for (const { id: _id, ...entry } of entries) await test.send('POST', '/api/stock', { ...entry, placeId: 'cottage' });
  plan = (await (await test.send('POST', '/api/plans', { ...QUESTION, days: 2 })).json()) as Plan;
}, 60_000);
afterAll(() => {
  expect(test.faults).toEqual([]);
});

async function ask<Answer>(path: string, body: unknown = {}): Promise<Answer> {
  const response = await test.send('POST', path, body);
  expect(response.status).toBe(200);
  return (await response.json()) as Answer;
}

const of = (steps: readonly ExplanationStep[], quantity: string) => steps.find((step) => step.quantity === quantity);

/** The figure stands among the steps as it is printed, worked out from others. */
function expectWorkedOut(steps: readonly ExplanationStep[], figures: Record<string, number>): void {
  for (const [quantity, printed] of Object.entries(figures)) {
    const step = of(steps, quantity);
    expect(step?.value, quantity).toBe(printed);
    expect(step?.inputs.length, `${quantity} ${step?.relation}`).toBeGreaterThan(0);
  }
}

/** Every list: recomputed, and its quantities in words without the seams of an identifier. */
function expectSound(steps: readonly ExplanationStep[] | undefined): readonly ExplanationStep[] {
  expect(steps?.length).toBeGreaterThan(5);
  recompute(steps ?? []);
  expect(
    (steps ?? []).map(({ quantity }) => quantityWords(quantity)).filter((words) => /[a-z][A-Z]/.test(words)),
  ).toEqual([]);
  return steps ?? [];
}

describe('the curve of fuel against hot meals', () => {
  it('explains each point when asked, and is otherwise the same', async () => {
    const path = `/api/plans/${plan.id}/trade-off`;
    const plain = await ask<TradeOff>(path);
    const explained = await ask<TradeOff>(`${path}?explain=1`);
    expect({ ...explained, points: explained.points.map(({ explanation: _steps, ...point }) => point) }).toEqual(plain);
    expect(plain.points.length).toBeGreaterThan(0);
    for (const point of explained.points) {
      const steps = expectSound(point.explanation);
      expect(of(steps, 'solvedAgain')).toMatchObject({
        value: point.onDays ? 'put on days' : 'by counts only',
        relation: expect.stringMatching(/plan of 2 days for the least fuel heat.* hot meals at least/),
      });
      const burnt = point.fuel.filter(({ kg }) => kg > 0);
      expectWorkedOut(steps, {
        ...Object.fromEntries(burnt.map(({ fuelId, kg }) => [`${identifierOf(fuelId)}UsedKg`, kg])),
        ...Object.fromEntries(burnt.map(({ fuelId, share }) => [`${identifierOf(fuelId)}PrintedShare`, share])),
        ...(burnt.length === 0 ? {} : { planMJ: point.fuelMJ.p50 }),
        largestShare: point.largestShare,
        cookL: point.waterL,
      });
    }
    // Heat is mass times a row of the table of fuels, with its source.
    const hottest = explained.points.at(-1)?.explanation ?? [];
    const value = hottest.find(({ quantity }) => /MJPerKg$/.test(quantity));
    expect(value?.relation).toMatch(/^lower heating value/);
    expect(hottest.some(({ relation }) => relation === `dish1BurnsKg * ${value?.quantity}`)).toBe(true);
  });
});

describe('what to get or do next', () => {
  it('explains each line when asked, and is otherwise the same', async () => {
    const path = `/api/plans/${plan.id}/advice`;
    const plain = await ask<Advice>(path);
    const explained = await ask<Advice>(`${path}?explain=1`);
    expect({ ...explained, items: explained.items.map(({ explanation: _steps, ...item }) => item) }).toEqual(plain);
    expect(explained.items.some(({ fuelSaved }) => fuelSaved.length > 0)).toBe(true);
    for (const item of explained.items) {
      const steps = expectSound(item.explanation);
      expect(of(steps, 'nowSolvedAgain')?.relation).toMatch(/plan of 2 days as things are/);
      expect(of(steps, 'changedSolvedAgain')?.relation).toContain(item.text);
      expectWorkedOut(steps, {
        daysGained: item.daysGained?.fed ?? Number.NaN,
        daysHotGained: item.daysGained?.fedHot ?? Number.NaN,
        servingsGained: item.servingsGained,
        hotServingsGained: item.hotServingsGained,
        savedMJ: item.fuelSavedMJ,
        savedL: item.waterSavedL,
        nowScarcestShare: item.scarcestShare.before,
        ...Object.fromEntries(item.fuelSaved.map(({ fuelId, kg }) => [`${identifierOf(fuelId)}SavedKg`, kg])),
      });
    }
  });
});

it('how long it lasts: days and points of the curve are explained when asked, and are otherwise the same', async () => {
  const plain = await ask<Endurance>('/api/endurance', QUESTION);
  const { explanation, ...explained } = await ask<Endurance>('/api/endurance?explain=1', QUESTION);
  expect({ ...explained, curve: explained.curve.map(({ explanation: _steps, ...point }) => point) }).toEqual(plain);
  expectWorkedOut(expectSound(explanation), { daysFed: plain.fed.days, daysFedHot: plain.fedHot.days });
  expect(explained.curve.length).toBeGreaterThan(2);
  for (const point of explained.curve) {
    const burnt = point.fuel.filter(({ usedKg }) => usedKg.p50 > 0);
    expectWorkedOut(expectSound(point.explanation), {
      ...Object.fromEntries(burnt.map(({ fuelId, usedKg }) => [`${identifierOf(fuelId)}UsedKg`, usedKg.p50])),
      ...Object.fromEntries(burnt.map(({ fuelId, leftKg }) => [`${identifierOf(fuelId)}LeftKg`, leftKg.p50])),
      usedL: point.waterL.used,
      leftL: point.waterL.left,
    });
  }
});

it.each(['advice', 'trade-off'])('%s refuses what is no way to ask for steps', async (question) => {
  await expectProblem(test, () => test.send('POST', `/api/plans/${plan.id}/${question}?explain=yes`, {}), {
    type: 'invalid-input',
    field: { parameter: 'explain', value: 'yes' },
  });
});
