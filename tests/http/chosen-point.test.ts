/** A point of the trade-off chosen over HTTP: from a row of the curve to a plan, its re-plan, its sheet, and back. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import type { ChosenPoint, Plan } from '../../api/planning/plan-types.ts';
import type { TradeOff } from '../../api/planning/questions/trade-off.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { writeDocument } from '../../api/storage/collections.ts';
import { COUSCOUS_BOWL, EVENING, household, LENTIL_SOUP, MIDDAY, RICE, stockOf } from '../planning/small-household.ts';
import { expectProblem, type TestApp, testApp } from './test-app.ts';

const solver = await createInThreadSolver();
/** Bags that give the energy of a day of two meals. */
const KITS = [LENTIL_SOUP, RICE, COUSCOUS_BOWL].map(
  (kit): Kit => ({
    ...kit,
    parts: kit.parts.map((part) => ({
      ...part,
      ingredients: part.ingredients.map((one) => ({ ...one, massG: one.massG * 3.5 })),
    })),
  }),
);
const HOUSE = household({ meals: [MIDDAY, EVENING] });
const ASKED = { householdId: HOUSE.id, startsAt: '2026-12-05T07:00', days: 3, timeLimitS: 20 };

const NOW = '2026-12-06T08:00';

let test: TestApp;
let first: Plan;
let curve: TradeOff;
const post = (body: object) => test.send('POST', '/api/plans', body);
async function planned(body: object): Promise<Plan> {
  const response = await post(body);
  const made = await response.json();
  expect({ status: response.status, made }).toMatchObject({ status: 201 });
  return made;
}

beforeAll(async () => {
  // A clock that goes on, on the second day of the plans.
  const now = Date.parse(`${NOW}+01:00`);
  test = await testApp({ solver, clock: { now: () => now + performance.now() } });
  await writeDocument(test.store, 'households', HOUSE, null, 'w-house');
  for (const kit of KITS) await writeDocument(test.store, 'kits', kit, null, `w-${kit.id}`);
  for (const entry of stockOf(KITS.map((kit) => [kit, 6])))
    await writeDocument(test.store, 'stock', entry, null, `w-stock-${entry.id}`);
  first = await planned(ASKED);
  const response = await test.send('POST', `/api/plans/${first.id}/trade-off`, { timeLimitS: 30 });
  curve = (await response.json()) as TradeOff;
});

describe('a row of the curve', () => {
  it('is sent as it stands and gives a plan with its fuel, its hot meals and its repeats', async () => {
    expect(curve.points.length).toBeGreaterThanOrEqual(3);
    expect(curve.points[0]?.tradeOff.coldMeals).toBeGreaterThan(0);
    for (const point of curve.points) {
      const plan = await planned({ ...ASKED, tradeOff: point.tradeOff });
      expect(plan.request.tradeOff).toEqual(point.tradeOff);
      expect(plan.outcome).toBe('complete');
      // Curve and plan are each within half a per cent, and a hundredth of a MJ near nothing.
      const room = 2 * (0.005 * point.fuelMJ.p50 + 0.01);
      expect(Math.abs((plan.tradeOff?.fuelMJ ?? Number.NaN) - point.fuelMJ.p50)).toBeLessThanOrEqual(room);
      const hot = plan.meals.filter((meal) => meal.dishes.every((dish) => dish.hot)).length;
      expect(hot).toBeGreaterThanOrEqual(point.hotMeals);
      expect(hot + (plan.tradeOff?.coldMeals.length ?? 0)).toBe(curve.hotMealsWanted);
      expect(plan.tradeOff?.repeats).toBeLessThanOrEqual(point.repeats);
    }
  });

  it('gives the same curve again when it is asked of the plan that was made at it', async () => {
    const plan = await planned({ ...ASKED, tradeOff: curve.points[0]?.tradeOff });
    const response = await test.send('POST', `/api/plans/${plan.id}/trade-off`, { timeLimitS: 30 });
    expect(await response.json()).toEqual(curve);
  });

  it('is told on paper: on the first sheet, and where a cold meal is served', async () => {
    const plan = await planned({ ...ASKED, tradeOff: { coldMeals: 1, repeats: 3 } });
    expect(plan.tradeOff?.coldMeals.length).toBe(1);
    const served = plan.schedule.filter((step) => step.action === 'serve' && step.meal === plan.tradeOff?.coldMeals[0]);
    expect(served.map((step) => step.text).join()).toContain('cold by choice');
    for (const type of ['normal', 'large', 'compact']) {
      const sheet = await (await test.get(`/api/plans/${plan.id}/schedule?type=${type}`)).text();
      expect(sheet, type).toMatch(/<b>Fuel is spared:<\/b> cold by choice, though they should be hot: \w+day \d/);
    }
    expect(await (await test.get(`/api/plans/${first.id}/schedule`)).text()).not.toMatch(/cold by choice/);
  });

  it('answers advice about that plan without a fault', async () => {
    const plan = await planned({ ...ASKED, tradeOff: { coldMeals: 2 } });
    const response = await test.send('POST', `/api/plans/${plan.id}/advice`, { timeLimitS: 10 });
    expect(response.status).toBe(200);
    const advice = (await response.json()) as { fuelMJ: { p50: number }; daysFedHot: number };
    expect(Math.abs(advice.fuelMJ.p50 - (plan.tradeOff?.fuelMJ ?? 0))).toBeLessThanOrEqual(
      2 * (0.005 * advice.fuelMJ.p50 + 0.01),
    );
    // Days are counted with every meal hot that should be, whatever this plan gives up.
    const ofFirst = await (await test.send('POST', `/api/plans/${first.id}/advice`, { timeLimitS: 10 })).json();
    expect(advice.daysFedHot).toBe((ofFirst as { daysFedHot: number }).daysFedHot);
  });
});

describe('a re-plan', () => {
  const again = (plan: Plan, own: object = {}) =>
    planned({ householdId: HOUSE.id, startsAt: NOW, days: 2, timeLimitS: 20, replaces: plan.id, ...own });

  it('goes on with what is left of the point, takes another, and the ordinary plan where that is asked', async () => {
    const plan = await planned({ ...ASKED, tradeOff: { coldMeals: 3, repeats: 9 } });
    const coldAlready = plan.meals.filter((meal) => meal.coldByChoice === true && meal.eatAt < NOW).length;
    const next = await again(plan);
    expect(next.request.tradeOff).toMatchObject({ coldMeals: 3 - coldAlready });
    expect(next.tradeOff?.coldMeals).toEqual(plan.tradeOff?.coldMeals.filter((id) => id > NOW));
    // Nothing has happened: what hangs on the wall stands.
    expect(next.continues?.wall.kept).toBe(next.continues?.wall.dishes);
    const ordinary = await again(plan, { tradeOff: null });
    expect(ordinary.tradeOff).toBeUndefined();
    expect(ordinary.meals.every((meal) => meal.dishes.some((dish) => dish.hot))).toBe(true);
    // Of a plan that gave up nothing, a point chosen now moves what hangs on the wall.
    const spared = await again(first, { tradeOff: { coldMeals: 4 } });
    expect(spared.meals.filter((meal) => meal.coldByChoice === true).length).toBe(4);
  });

  it('does not count a cold meal that was skipped', async () => {
    const plan = await planned({ ...ASKED, tradeOff: { coldMeals: 6 } });
    const [meal] = plan.meals.filter((one) => one.coldByChoice === true);
    const booking = { kind: 'meal-skipped', at: '2026-12-05T13:00', meal: meal?.id };
    expect((await test.send('POST', `/api/plans/${plan.id}/bookings`, booking)).status).toBe(201);
    const next = await again(plan);
    const eaten = plan.meals.filter((one) => one.coldByChoice === true && one.eatAt < NOW && one.id !== meal?.id);
    expect(next.request.tradeOff?.coldMeals).toBe(6 - eaten.length);
  });
});

describe('a point that cannot be', () => {
  it.each<[string, unknown, object]>([
    ['below nothing', { coldMeals: -1 }, { pointer: '#/tradeOff/coldMeals', value: -1, minimum: 0, maximum: 540 }],
    ['half a meal', { coldMeals: 1.5 }, { pointer: '#/tradeOff/coldMeals', value: 1.5 }],
    ['without its meals', { repeats: 2 }, { pointer: '#/tradeOff/coldMeals' }],
    ['more than there are', { coldMeals: 541 }, { pointer: '#/tradeOff/coldMeals', maximum: 540 }],
    ['a word', { coldMeals: 'two' }, { pointer: '#/tradeOff/coldMeals' }],
    ['repeats below nothing', { coldMeals: 1, repeats: -2 }, { pointer: '#/tradeOff/repeats', minimum: 0 }],
    [
      'more energy than all',
      { coldMeals: 1, energyShortPercent: 101 },
      { pointer: '#/tradeOff/energyShortPercent', minimum: 0, maximum: 100, unit: '%' },
    ],
    ['an unknown field', { coldMeals: 1, hotMeals: 3 }, { pointer: '#/tradeOff/hotMeals' }],
    ['a number for all of it', 4, { pointer: '#/tradeOff' }],
  ])('%s is refused, and nothing changed', async (_what, tradeOff, field) => {
    await expectProblem(test, () => post({ ...ASKED, tradeOff: tradeOff as ChosenPoint }), {
      type: 'invalid-input',
      field,
    });
  });

  it('is no question of how long the stores last', async () => {
    const { days: _days, ...question } = ASKED;
    await expectProblem(test, () => test.send('POST', '/api/endurance', { ...question, tradeOff: { coldMeals: 1 } }), {
      type: 'invalid-input',
      field: { pointer: '#/tradeOff' },
    });
  });
});
