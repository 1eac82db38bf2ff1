import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answerBoilingPoint } from '../../api/cooking/answer-boiling-point.ts';
import { answerCookTime } from '../../api/cooking/answer-cook-time.ts';
import { answerSoaking } from '../../api/cooking/answer-soaking.ts';
import type { CookTimeQuestion } from '../../api/cooking/calculator-types.ts';
import { explainBoilingPoint } from '../../api/cooking/explain-boiling-point.ts';
import { explainCookTime } from '../../api/cooking/explain-cook-time.ts';
import { explainSoaking } from '../../api/cooking/explain-soaking.ts';
import { EXPLANATION_FUNCTIONS } from '../../api/cooking/explanation-functions.ts';
import { FOODS } from '../../api/cooking/foods-table.ts';
import { KNOWN_FUNCTIONS, recompute } from './evaluate-steps.ts';

const foods = Object.values(FOODS);
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const listed = (steps: ReturnType<typeof explainSoaking>, quantity: string): unknown =>
  steps.find((step) => step.quantity === quantity)?.value;

/** The same number by two ways through the same arithmetic. */
function same(a: unknown, b: number, what = ''): void {
  expect(Math.abs((a as number) - b), what).toBeLessThanOrEqual(1e-9 * Math.max(Math.abs(b), 1e-6));
}

it('every function that a relation may name is written out', () => {
  for (const name of Object.keys(EXPLANATION_FUNCTIONS)) expect(KNOWN_FUNCTIONS).toContain(name);
});

describe('boiling point', () => {
  it('the last value is worked out again from the listed ones', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.record({ elevationM: between(-430, 9000), gaugeKPa: fc.option(between(0, 150), { nil: undefined }) }),
          fc.record({ stationPressureKPa: between(30, 110) }),
          fc.record({ seaLevelPressureKPa: between(94, 106), elevationM: between(-430, 6000) }),
        ),
        (question) => {
          const answer = answerBoilingPoint(question as Parameters<typeof answerBoilingPoint>[0]);
          const steps = explainBoilingPoint(question as Parameters<typeof answerBoilingPoint>[0]);
          same(recompute(steps), answer.boilingPointC);
          if (answer.pressureCooker !== undefined) same(listed(steps, 'inCookerC'), answer.pressureCooker.temperatureC);
        },
      ),
    );
  });
});

describe('soaking', () => {
  const soakOf = (foodId: string) =>
    fc.record({
      foodId: fc.constant(foodId),
      hours: fc.oneof(fc.constant(0), between(0, 96)),
      waterC: fc.oneof(between(-20, 100), fc.constantFrom(0, 5, 15, 25, 60, 100)),
      start: fc.constantFrom('cool' as const, 'hot' as const),
      airC: between(-20, 59),
    });
  it.each(foods.map((food) => [food.id]))('%s', (foodId) => {
    fc.assert(
      fc.property(soakOf(foodId), (question) => {
        const answer = answerSoaking(question);
        const steps = explainSoaking(question);
        same(recompute(steps), answer.uptakeGPerG.p50);
        expect(steps.at(-1)?.quantity).toBe('uptakeGPerG');
        same(listed(steps, 'hydrationShare'), answer.hydrationShare.p50);
        same(listed(steps, 'limitHours'), answer.limitHours);
        expect(listed(steps, 'safe')).toBe(answer.safe);
        if (listed(steps, 'suppliedLPerKg') !== undefined) {
          same(listed(steps, 'suppliedLPerKg'), answer.waterLPerKg.supplied);
          same(listed(steps, 'discardedLPerKg'), answer.waterLPerKg.discarded);
        }
      }),
      { numRuns: 12 },
    );
  });
});

describe('cook time', () => {
  const maybe = <Value>(arbitrary: fc.Arbitrary<Value>) => fc.option(arbitrary, { nil: undefined, freq: 2 });
  const soakAsked = fc.record({
    start: fc.constantFrom('cool' as const, 'hot' as const),
    hours: between(0, 48),
    waterC: fc.oneof(between(-5, 60), fc.constantFrom(15, 20, 22)),
    airC: between(0, 30),
    additive: fc.constantFrom('none' as const, 'salt' as const, 'bicarbonate' as const),
    discardWater: fc.boolean(),
  });
  const pot = fc.oneof(
    fc.record({ elevationM: between(-430, 5500) }),
    fc.record({ elevationM: between(-430, 5500), gaugeKPa: between(1, 120) }),
    fc.record({ temperatureC: between(96, 125) }),
  );
  const questionOf = (foodId: string): fc.Arbitrary<CookTimeQuestion> =>
    fc
      .tuple(
        pot,
        fc.record({
          soak: maybe(soakAsked),
          firstWater: maybe(fc.constantFrom('kept' as const, 'poured-away' as const)),
          cookingAdditive: maybe(fc.constantFrom('none' as const, 'bicarbonate' as const, 'acid' as const)),
          storage: maybe(
            fc.record({ years: between(0, 40), temperatureC: between(0, 35), moisturePercent: between(6, 16) }),
          ),
        }),
      )
      .map(([where, rest]) => JSON.parse(JSON.stringify({ foodId, ...where, ...rest })));
  it.each(foods.map((food) => [food.id]))('%s', (foodId) => {
    fc.assert(
      fc.property(questionOf(foodId), (question) => {
        const answer = answerCookTime(question);
        const steps = explainCookTime(question);
        same(recompute(steps), answer.minutes.p50);
        expect(steps.at(-1)?.quantity).toBe('minutes');
        same(listed(steps, 'temperatureC'), answer.temperatureC);
        expect(listed(steps, 'extrapolated') ?? false).toBe(answer.extrapolated);
        expect(steps.at(-1)?.estimate ?? false, 'an extrapolation is marked').toBe(answer.extrapolated);
        if (answer.lectin.verdict !== 'not-applicable') {
          expect(listed(steps, 'lectinVerdict')).toBe(answer.lectin.verdict);
          same(listed(steps, 'boilMinutesNeeded'), answer.lectin.boilMinutesNeeded);
        }
      }),
      { numRuns: 15 },
    );
  });
});
