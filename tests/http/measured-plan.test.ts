/** What a boil test changes, asked as a client asks: the plan, what is printed of it, and what stands behind its figures. */
import { beforeAll, expect, it } from 'vitest';
import type { Plan } from '../../api/planning/plan-types.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { DEMO_START, type TestApp, testApp } from './test-app.ts';

const HOUSEHOLD = 'saddle-lane';
const TEST = {
  kind: 'boil-test',
  id: 'saturday-boil',
  householdId: HOUSEHOLD,
  at: '2026-12-04T10:00',
  stoveId: 'camp-stove',
  vesselId: 'big-pot',
  litres: 2,
  startC: 12,
  airC: 10,
  wind: 'still',
  minutes: 12,
};
interface Band {
  p10: number;
  p50: number;
  p90: number;
}

let test: TestApp;
beforeAll(async () => {
  test = await testApp({ solver: await createInThreadSolver() });
});

/** Two days of the demonstration household on its camp stove alone, so that nothing can be shifted to another fire. */
async function plan(): Promise<Plan> {
  const response = await test.send('POST', '/api/plans', {
    householdId: HOUSEHOLD,
    startsAt: `${DEMO_START}T17:00`,
    days: 2,
    outOfUse: ['rocket', 'spirit-burner'].map((id) => ({ id, from: `${DEMO_START}T00:00`, to: null })),
  });
  expect(response.status).toBe(201);
  return (await response.json()) as Plan;
}

const propaneOf = (made: Plan): Band => made.fuel.find(({ fuelId }) => fuelId === 'propane')?.usedKg as Band;
const widthOf = ({ p10, p90 }: Band): number => Math.log(p90 / p10);

it('40 % more fuel than the table expects is in the plan, on its paper and behind its figures; without the test all is as before', async () => {
  const before = await plan();
  const probe = await test.send('POST', '/api/measurements', { ...TEST, fuelKg: 0.04 });
  const { effect } = (await probe.json()) as { effect: { expected: { quantity: string; middle: number }[] } };
  const middle = effect.expected.find(({ quantity }) => quantity === 'fuel')?.middle as number;
  const wasteful = { ...TEST, fuelKg: 1.4 * middle };
  const stored = await test.send('PUT', `/api/measurements/${TEST.id}`, wasteful, { 'if-match': '*' });
  expect(((await stored.json()) as { effect: { use: string } }).effect.use).toBe('counts');

  const after = await plan();
  // Two thirds of a test of 40 % are believed, and what holds a pot at the boil is the lowest flame in any case.
  expect(propaneOf(after).p50).toBeGreaterThan(1.1 * propaneOf(before).p50);
  expect(propaneOf(after).p50).toBeLessThan(1.4 * propaneOf(before).p50);
  expect(widthOf(propaneOf(after))).toBeLessThan(0.85 * widthOf(propaneOf(before)));
  const said = /uses about \d+ % more fuel than the table expects \(1 boil test\)/;
  const paper = async ({ id }: Plan): Promise<string> => (await test.get(`/api/plans/${id}/schedule`)).text();
  expect(await paper(after)).toMatch(said);
  expect(await paper(before)).not.toMatch(said);

  const cooked = after.cookings.find(({ method }) => method.stoveId === 'camp-stove');
  const meal = after.meals.find(({ dishes }) => dishes.some(({ cookingId }) => cookingId === cooked?.id));
  const explained = await test.get(`/api/plans/${after.id}/meals/${meal?.id}?explain=1`);
  expect(await explained.text()).toContain('own tests');

  await test.send('DELETE', `/api/measurements/${TEST.id}`, '', { 'if-match': '*' });
  const again = await plan();
  expect(again.fuel).toEqual(before.fuel);
  expect(again.cookings).toEqual(before.cookings);
}, 120_000);
