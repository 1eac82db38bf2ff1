/** Derivations over the API: every calculator, every way of a dish, every meal of a plan. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ExplanationStep } from '../../api/cooking/calculators/calculator-types.ts';
import { identifierOf } from '../../api/cooking/derivations/explanation-steps.ts';
import { type ExplainedPlan, explainMeal, type MealOfPlan } from '../../api/planning/plan/explain-plan.ts';
import type { Cooking, Plan, PlannedMeal } from '../../api/planning/plan-types.ts';
import type { DishOption } from '../../api/planning/questions/dish-options.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { eatByOf } from '../../api/wording/eat-by.ts';
import { recompute } from '../cooking/evaluate-steps.ts';
import { DEMO_START, expectProblem, type TestApp, testApp } from './test-app.ts';

const { household, kits } = demoDocuments(DEMO_START);

let test: TestApp;
let plan: Plan;
beforeAll(async () => {
  test = await testApp({ solver: await createInThreadSolver() });
  const request = { householdId: household.id, startsAt: `${DEMO_START}T17:00`, days: 2, timeLimitS: 10 };
  plan = (await (await test.send('POST', '/api/plans', request)).json()) as Plan;
}, 60_000);
afterAll(() => {
  expect(test.faults).toEqual([]);
});

const listed = (steps: readonly ExplanationStep[], quantity: string) =>
  steps.find((step) => step.quantity === quantity)?.value as number;

/** What the plan prints is what the steps end in. */
function expectToEndIn(steps: readonly ExplanationStep[], cooking: Cooking): void {
  const last = recompute(steps, cooking.id) as number;
  const printed = cooking.fuel[0]?.kWh ?? cooking.fuel[0]?.kg;
  // The plan keeps its own figures with all their digits: only the order of the arithmetic differs.
  expect(Math.abs(last - (printed?.p50 ?? 0))).toBeLessThanOrEqual(1e-9 * (printed?.p50 ?? 1));
  expect(listed(steps, 'waterInPotL')).toBe(cooking.waterL.inPot);
  expect(listed(steps, 'handsOnMinutes')).toBe(cooking.handsOnMinutes);
  if (cooking.method.boilMinutes === null) return;
  expect(listed(steps, 'usualMJ')).toBeCloseTo(cooking.usualMJ, 9);
  expect(listed(steps, 'carefulMJ')).toBeCloseTo(cooking.carefulMJ, 9);
  expect(listed(steps, 'boilMinutes')).toBeCloseTo(cooking.method.boilMinutes.p50, 9);
  expect(listed(steps, 'dishMinutesToBoil')).toBeCloseTo(cooking.method.minutesToBoil?.p50 as number, 9);
  expect(listed(steps, 'temperatureC')).toBe(cooking.method.temperatureC);
  expect(listed(steps, 'waterTotalL')).toBe(cooking.waterL.total);
  expect(listed(steps, 'absorbedL')).toBeCloseTo(cooking.waterL.absorbed, 3);
}

/** Fuel and water of each day, worked out and not only as printed. */
function expectBalances(steps: readonly ExplanationStep[]): void {
  const worked = (quantity: string, printed: number, digits: number) =>
    expect(steps.find((step) => step.quantity === quantity)).toMatchObject({
      value: Number(printed.toFixed(digits)),
      relation: expect.stringMatching(/^round\(/),
    });
  const burnt = plan.fuel.filter(({ usedKg }) => usedKg.p50 > 0);
  expect(burnt.length).toBeGreaterThan(1);
  for (const { fuelId, usedKg, budgetKg, byDay } of burnt) {
    const name = identifierOf(fuelId);
    worked(`${name}UsedKg`, usedKg.p50, 3);
    worked(`${name}BudgetKg`, budgetKg, 3);
    for (const [index, day] of byDay.entries()) {
      worked(`${name}Day${index + 1}UsedKg`, day.usedKg.p50, 3);
      worked(`${name}Day${index + 1}LeftKg`, day.leftKg.p50, 3);
      worked(`${name}Day${index + 1}ReplanKg`, day.replanBelow, 3);
    }
  }
  const [today, tomorrow] = plan.water.byDay as [Plan['water']['byDay'][number], Plan['water']['byDay'][number]];
  expect(listed(steps, 'waterDay1LeftL')).toBe(today.leftL);
  worked('waterDay2DrinkL', tomorrow.drinkL, 1);
  worked('waterDay2UsedL', tomorrow.usedL, 1);
  worked('waterDay2LeftL', tomorrow.leftL, 1);
  worked('waterDay2ReplanL', tomorrow.replanBelow, 0);
  for (const [index, day] of plan.energyByDay.entries())
    expect(steps.find((step) => step.quantity === `day${index + 1}EnergyKcal`)).toMatchObject({
      value: day.kcal,
      relation: expect.stringContaining(`day${index + 1}Meal1EnergyKcal`),
    });
}

/** What each choice saves, worked out from the other way, and the low and high end beside each typical figure. */
function expectSavings(steps: readonly ExplanationStep[], cooking: Cooking): void {
  const step = (quantity: string) => steps.find((one) => one.quantity === quantity);
  for (const { choice, fuelKg, waterL } of cooking.saves) {
    const name = identifierOf(choice);
    expect(step(`${name}SavedKg`)).toMatchObject({
      value: fuelKg.p50,
      relation: expect.stringContaining(`${name}UndoneBurnsKg - dishFuelMJ`),
    });
    expect(step(`${name}SavedL`)).toMatchObject({ value: waterL, relation: expect.stringMatching(/^round\(/) });
    expect(listed(steps, `${name}SavedKgLow`)).toBe(fuelKg.p10);
    expect(listed(steps, `${name}SavedKgHigh`)).toBe(fuelKg.p90);
  }
  const [fuel] = cooking.fuel;
  if (fuel === undefined) return;
  expect(step('dishFuelKgLow')).toMatchObject({ value: fuel.kg.p10, relation: expect.stringContaining('spread by') });
  expect(listed(steps, 'dishFuelKgHigh')).toBe(fuel.kg.p90);
  expect(listed(steps, 'dishMinutesToBoilHigh')).toBe(cooking.method.minutesToBoil?.p90);
}

/** Used, allowed and left over of every limit, each worked out where anything is used, and what was solved again as a fact. */
function expectLimits(steps: readonly ExplanationStep[]): void {
  expect(plan.limits.filter(({ oneMore }) => oneMore !== null).length).toBeGreaterThan(2);
  for (const { limit, date, used, allowed, slack, oneMore, unit } of plan.limits) {
    const day = plan.energyByDay.findIndex((row) => row.date === date) + 1;
    const of = `${identifierOf(limit)}${date === null ? '' : `Day${day}`}Limit`;
    const step = (ending: string) => steps.find(({ quantity }) => quantity === of + ending);
    const worked = { unit, relation: expect.stringMatching(/^round\(/) };
    expect(step('Used'), of).toMatchObject({ value: used, ...(used > 0 ? worked : {}) });
    expect(step('LeftOver'), of).toMatchObject({ value: slack, ...worked });
    const fromStores = limit === 'water' || plan.fuel.some((row) => row.fuelId === limit && row.usedKg.p50 > 0);
    expect(step('Allowed'), of).toMatchObject({ value: allowed, ...(fromStores ? worked : {}) });
    if (oneMore === null) expect(step('OneMore'), of).toBeUndefined();
    else
      expect(step('OneMore'), of).toMatchObject({
        value: oneMore,
        inputs: [],
        source: { key: 'planner-derivation', place: expect.stringContaining('solved again') },
      });
  }
}

describe('a plan', () => {
  it('explains every meal when asked, and is otherwise as it was kept', async () => {
    const plain = (await (await test.get(`/api/plans/${plan.id}`)).json()) as Plan;
    expect(plain).toEqual(plan);
    expect(plan.cookings.some((cooking) => cooking.method.finish !== 'no-heat')).toBe(true);
    const explained = (await (await test.get(`/api/plans/${plan.id}?explain=1`)).json()) as ExplainedPlan;
    const { explanation: totals, ...rest } = explained;
    expect({ ...rest, meals: explained.meals.map(({ explanation: _steps, ...meal }) => meal) }).toEqual(plan);
    recompute(totals);
    const { planMJ, usualMJ, carefulCookMJ, floorMJ } = plan.comparison;
    for (const [quantity, printed] of Object.entries({
      planMJ,
      planUsualMJ: usualMJ,
      planCarefulMJ: carefulCookMJ,
      planFloorMJ: floorMJ,
    }))
      expect(totals.find((step) => step.quantity === quantity)).toMatchObject({
        value: printed,
        relation: expect.stringMatching(/^round\(/),
      });
    expectBalances(totals);
    expectLimits(totals);
    expect(plan.cookings.flatMap(({ saves }) => saves).length).toBeGreaterThan(2);
    for (const meal of explained.meals) {
      expect(meal.dishes.length).toBe(1);
      for (const [quantity, printed] of [
        ['mealEnergyKcal', meal.energyKcal],
        ['mealProteinG', meal.proteinG],
      ] as const)
        expect(meal.explanation.find((step) => step.quantity === quantity)).toMatchObject({
          value: printed,
          relation: expect.stringMatching(/^round\(/),
        });
      const cooking = plan.cookings.find(({ id }) => id === meal.dishes[0]?.cookingId) as Cooking;
      expectToEndIn(meal.explanation, cooking);
      expectSavings(meal.explanation, cooking);
      expect(meal.explanation.find(({ quantity }) => quantity === 'eatBy')).toMatchObject({
        value: eatByOf(meal, meal.dishes[0] as Plan['meals'][number]['dishes'][number], cooking),
        relation: 'localTimeAfter(eatByFrom, eatByMinutes)',
      });
    }
  });

  it('tells one meal with the cookings of its dishes, explained when asked', async () => {
    const meal = plan.meals[0] as Plan['meals'][number];
    const plain = (await (await test.get(`/api/plans/${plan.id}/meals/${meal.id}`)).json()) as MealOfPlan;
    expect(plain).toEqual({ ...meal, cookings: plan.cookings.filter(({ id }) => id === meal.dishes[0]?.cookingId) });
    const explained = (await (await test.get(`/api/plans/${plan.id}/meals/${meal.id}?explain=1`)).json()) as MealOfPlan;
    expect(explained).toMatchObject(plain);
    expectToEndIn(explained.explanation ?? [], plain.cookings[0] as Cooking);
  });

  it('refuses a meal that it does not have, and an address that is no meal', async () => {
    const path = `/api/plans/${plan.id}/meals`;
    await expectProblem(test, () => test.get(`${path}/2031-01-01-evening`), { type: 'not-found' });
    await expectProblem(test, () => test.get('/api/plans/none/meals/2026-12-05-evening'), { type: 'not-found' });
    await expectProblem(test, () => test.get(`${path}/supper`), {
      type: 'invalid-input',
      field: { parameter: 'mealId', value: 'supper' },
    });
    await expectProblem(test, () => test.get(`/api/plans/${plan.id}?explain=yes`), {
      type: 'invalid-input',
      field: { parameter: 'explain', value: 'yes' },
    });
  });
});

describe('meals that no plan of today has', () => {
  const hot = () => plan.cookings.filter((cooking) => cooking.basis !== undefined);

  it('two dishes: each is worked out, its quantities named after its kit', () => {
    const [one, other] = hot();
    const meal = { ...plan.meals[0], dishes: [one, other].map((cooking) => ({ cookingId: cooking?.id })) };
    const steps = explainMeal(plan, meal as PlannedMeal);
    recompute(steps);
    for (const cooking of [one, other]) {
      const fuel = listed(steps, `${identifierOf(cooking?.kitId ?? '')}DishFuelKg`);
      expect(fuel).toBeCloseTo(cooking?.fuel[0]?.kg.p50 as number, 9);
    }
  });

  it('made before the basis was kept, or from other tables: ends in what was printed', () => {
    const [cooking] = hot() as [Cooking];
    const meal = { ...plan.meals[0], dishes: [{ cookingId: cooking.id }] } as PlannedMeal;
    const { basis: _kept, ...bare } = cooking;
    const printed = { ...cooking, fuel: cooking.fuel.map((row) => ({ ...row, kg: { p10: 1, p50: 2, p90: 3 } })) };
    for (const [changed, fuelKg] of [
      [bare, cooking.fuel[0]?.kg.p50],
      [printed, 2],
    ] as const) {
      const steps = explainMeal({ ...plan, cookings: [changed] }, meal);
      expect(recompute(steps)).toBe(fuelKg);
      expect(steps.at(-1)).toMatchObject({ quantity: 'dishFuelKg', relation: expect.stringContaining('printed') });
    }
  });

  it('no dish: no steps', () => {
    expect(explainMeal(plan, { ...plan.meals[0], dishes: [] } as unknown as PlannedMeal)).toEqual([]);
  });
});

it('every way of a dish that is not refused is explained when asked, and no other', async () => {
  const question = {
    householdId: household.id,
    kitId: kits[0]?.id,
    servings: 4,
    startsAt: `${DEMO_START}T07:00`,
    eatAt: '2026-12-06T18:00',
  };
  const ask = async (query: string) =>
    (await (await test.send('POST', `/api/dish-options${query}`, question)).json()) as { options: DishOption[] };
  const plain = await ask('');
  const { options } = await ask('?explain=1');
  expect(options.map(({ explanation: _steps, ...option }) => option)).toEqual(plain.options);
  expect(options.some(({ verdict }) => verdict === 'ok')).toBe(true);
  for (const { verdict, explanation, fuel } of options) {
    if (verdict === 'ok') expect(recompute(explanation ?? [])).toBeCloseTo(fuel[0]?.kg.p50 ?? 0, 9);
    else expect(explanation).toBeUndefined();
  }
});
