import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answerBoilingPoint } from '../../api/cooking/answer-boiling-point.ts';
import { answerCookTime } from '../../api/cooking/answer-cook-time.ts';
import { answerCooling } from '../../api/cooking/answer-cooling.ts';
import { answerSoaking } from '../../api/cooking/answer-soaking.ts';
import type { CookTimeQuestion, CoolingQuestion } from '../../api/cooking/calculator-types.ts';
import { explainBoilingPoint } from '../../api/cooking/explain-boiling-point.ts';
import { explainCookTime } from '../../api/cooking/explain-cook-time.ts';
import { explainCooling } from '../../api/cooking/explain-cooling.ts';
import { explainSoaking } from '../../api/cooking/explain-soaking.ts';
import { EXPLANATION_FUNCTIONS } from '../../api/cooking/explanation-functions.ts';
import { FOODS } from '../../api/cooking/foods-table.ts';
import { INSULATION_MATERIAL_IDS, LIDS, VESSEL_MATERIAL_IDS } from '../../api/physics/table-ids.ts';
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

describe('cooling', () => {
  const vessel = fc.record({
    capacityL: between(0.3, 60),
    kind: fc.constantFrom('pot' as const, 'pressure-cooker' as const),
    material: fc.constantFrom(...VESSEL_MATERIAL_IDS),
    lid: fc.constantFrom(...LIDS),
  });
  const insulation = fc.record(
    {
      materialId: fc.constantFrom(...INSULATION_MATERIAL_IDS),
      thicknessMm: between(5, 300),
      conductivityWPerMK: between(0.02, 0.2),
    },
    { requiredKeys: ['materialId', 'thicknessMm'] },
  );
  const kinds: Record<string, fc.Arbitrary<Partial<CoolingQuestion>>> = {
    bare: fc.record({ vessel }),
    box: fc.record({ vessel, insulation }),
    flask: fc.record({ vessel: fc.record({ kind: fc.constant('flask' as const), capacityL: between(0.3, 5) }) }),
    'box with a reading': fc.record({
      vessel,
      insulation,
      reading: fc.record(
        { hours: between(0.5, 12), temperatureC: between(55, 80), startC: between(85, 98), airC: between(-5, 30) },
        { requiredKeys: ['hours', 'temperatureC'] },
      ),
    }),
    'box with own tests': fc.record({
      vessel,
      insulation,
      measured: between(0.5, 2).map((p50) => ({ p10: p50 * 0.9, p50, p90: p50 * 1.1 })),
    }),
  };
  it.each(Object.keys(kinds))('%s', (kind) => {
    fc.assert(
      fc.property(
        kinds[kind] as fc.Arbitrary<Partial<CoolingQuestion>>,
        fc.record({ share: between(0.2, 1), startC: between(60, 99), airC: between(-20, 40), hours: between(0, 48) }),
        (given, { share, ...rest }) => {
          const question = { ...given, ...rest, fillL: share * (given.vessel?.capacityL ?? 1) } as CoolingQuestion;
          const answer = answerCooling(question);
          const steps = explainCooling(question);
          same(recompute(steps), answer.temperatureC.at(-1)?.p50 as number);
          expect(steps.at(-1)?.quantity).toBe('temperatureC');
          same(listed(steps, 'timeConstantHours'), answer.timeConstantHours.p50);
          same(listed(steps, 'hoursAbove60C'), answer.hoursAbove60C.p50);
        },
      ),
    );
  });
});
