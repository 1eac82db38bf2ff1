import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answerBoilingPoint } from '../../api/cooking/calculators/answer-boiling-point.ts';
import { answerCookTime } from '../../api/cooking/calculators/answer-cook-time.ts';
import { answerCooling } from '../../api/cooking/calculators/answer-cooling.ts';
import { answerFuelUse, resolveFuelUse } from '../../api/cooking/calculators/answer-fuel-use.ts';
import { answerSoaking } from '../../api/cooking/calculators/answer-soaking.ts';
import type {
  CookTimeQuestion,
  CoolingQuestion,
  FuelUseQuestion,
} from '../../api/cooking/calculators/calculator-types.ts';
import { explainBoilingPoint } from '../../api/cooking/derivations/explain-boiling-point.ts';
import { explainBoilBeforeBox } from '../../api/cooking/derivations/explain-box.ts';
import { explainCookTime } from '../../api/cooking/derivations/explain-cook-time.ts';
import {
  explainCooling,
  explainCoolingTable,
  temperatureAfter,
} from '../../api/cooking/derivations/explain-cooling.ts';
import { explainFuelUse } from '../../api/cooking/derivations/explain-fuel-use.ts';
import { explainSoaking } from '../../api/cooking/derivations/explain-soaking.ts';
import { EXPLANATION_FUNCTIONS } from '../../api/cooking/derivations/explanation-functions.ts';
import { identifierOf } from '../../api/cooking/derivations/explanation-steps.ts';
import { FOODS } from '../../api/cooking/foods/foods-table.ts';
import { boilBeforeBox } from '../../api/cooking/kinetics/box-cooking.ts';
import { InvalidInputError } from '../../api/physics/errors.ts';
import { FUELS } from '../../api/physics/fuels-table.ts';
import { type HeatingValues, heatPot } from '../../api/physics/heating.ts';
import { STOVE_TYPES } from '../../api/physics/stoves-table.ts';
import {
  FLAMES,
  INSULATION_MATERIAL_IDS,
  LIDS,
  STOVE_TYPE_IDS,
  VESSEL_MATERIAL_IDS,
  WINDS,
} from '../../api/physics/table-ids.ts';
import { KNOWN_FUNCTIONS, recompute, withChanged } from './evaluate-steps.ts';

const foods = Object.values(FOODS);
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
/** As own tests leave a figure. */
const percentilesAbout = (min: number, max: number) =>
  between(min, max).map((p50) => ({ p10: p50 * 0.9, p50, p90: p50 * 1.1 }));

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
          measuredLot: maybe(percentilesAbout(0.5, 2)),
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

describe('boil before a box', () => {
  const boiled = foods.filter((food) => food.kinetics.kind === 'boil');
  const questionOf = (foodId: string) =>
    fc.record(
      {
        foodId: fc.constant(foodId),
        temperatureC: between(90, 101),
        hydrationShare: fc.oneof(fc.constant(0), between(0, 1), fc.constant(1)),
        soakedAndDrained: fc.boolean(),
        boxStartC: between(80, 96),
        airC: between(-10, 30),
        timeConstantHours: between(2, 30),
        boxMinutes: between(0, 600),
        storageFactor: between(1, 3),
        measuredLot: percentilesAbout(0.5, 2),
        cookingAdditive: fc.constantFrom('none' as const, 'acid' as const, 'bicarbonate' as const),
        temperatureMeasured: fc.boolean(),
      },
      {
        requiredKeys: [
          'foodId',
          'temperatureC',
          'hydrationShare',
          'soakedAndDrained',
          'boxStartC',
          'airC',
          'timeConstantHours',
          'boxMinutes',
        ],
      },
    );
  it.each(boiled.map((food) => [food.id]))('%s', (foodId) => {
    fc.assert(
      fc.property(questionOf(foodId), (question) => {
        same(recompute(explainBoilBeforeBox(question)), boilBeforeBox(question).boilMinutes.p50);
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
      measured: percentilesAbout(0.5, 2),
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
          const table = explainCoolingTable(question);
          same(recompute(table), answer.temperatureC.at(-1)?.p50 as number);
          for (const { hours, p50 } of answer.temperatureC.slice(0, -1))
            same(listed(table, temperatureAfter(hours)), p50);
          expect(table.length - steps.length).toBe(answer.temperatureC.length - 1);
        },
      ),
    );
  });
});

describe('fuel', () => {
  const maybe = <Value>(arbitrary: fc.Arbitrary<Value>) => fc.option(arbitrary, { nil: undefined, freq: 1 });
  const vesselOf = (kind: 'pot' | 'pressure-cooker') =>
    fc.record({
      kind: fc.constant(kind),
      capacityL: between(2, 12),
      material: maybe(fc.constantFrom(...VESSEL_MATERIAL_IDS)),
      lid: maybe(fc.constantFrom(...LIDS)),
      gaugeKPa: maybe(between(20, 110)),
      diameterMm: maybe(between(120, 300)),
      massKg: maybe(between(0.2, 4)),
      finned: maybe(fc.boolean()),
    });
  const questionOf = (typeId: FuelUseQuestion['stove']['typeId'], fuelId: FuelUseQuestion['fuelId']) =>
    fc
      .record({
        stove: fc.record({
          typeId: fc.constant(typeId),
          powerKW: maybe(between(1, 5)),
          efficiency: maybe(between(0.2, 0.7)),
          startUpMJ: maybe(fc.oneof(fc.constant(0), between(0.1, 5))),
          flame: maybe(fc.constantFrom(...FLAMES)),
          measured: maybe(
            fc.record({ efficiency: percentilesAbout(0.2, 0.6), powerKW: fc.option(percentilesAbout(1, 4)) }),
          ),
        }),
        fuelId: fc.constant(fuelId),
        fuelMoisturePercent: maybe(between(5, 30)),
        vessel: fc.oneof(vesselOf('pot'), vesselOf('pressure-cooker'), fc.constant(null)),
        waterL: between(0.1, 1.2),
        foods: maybe(
          fc.array(
            fc.record(
              {
                foodId: fc.constantFrom('lentil-brown', 'white-rice', ...foods.slice(0, 3).map(({ id }) => id)),
                massG: between(1, 150),
                specificHeatKJPerKgK: between(1.4, 4.2),
              },
              { requiredKeys: ['foodId', 'massG'] },
            ),
            { maxLength: 4 },
          ),
        ),
        startC: fc.oneof(between(-15, 60), fc.constantFrom(0, 10)),
        endC: maybe(between(60, 120)),
        // Butane hardly leaves its bottle below that.
        airC: between(fuelId === 'butane' ? 8 : -5, 35),
        elevationM: between(-100, 4000),
        wind: fc.constantFrom(...WINDS),
        windFuelFactor: maybe(between(1, 2)),
        holdMinutes: fc.oneof(fc.constant(0), between(0, 120)),
        lidDuringHold: maybe(fc.constantFrom(...LIDS)),
        releaseMinutes: maybe(fc.constantFrom(0, 10)),
        extraHeatKJ: maybe(between(0, 500)),
      })
      .map((question) => JSON.parse(JSON.stringify(question)) as FuelUseQuestion);
  const pairs = STOVE_TYPE_IDS.flatMap((typeId) =>
    STOVE_TYPES[typeId].fuelIds.map((fuelId) => [typeId, fuelId] as const),
  );

  it.each(pairs)('%s with %s', (typeId, fuelId) => {
    let explained = 0;
    fc.assert(
      fc.property(questionOf(typeId, fuelId), (question) => {
        let answer: ReturnType<typeof answerFuelUse>;
        try {
          answer = answerFuelUse(question);
        } catch (error) {
          // A pot too small, a flame too weak, gas that stays in its bottle: refused, and nothing to explain.
          expect(error).toBeInstanceOf(InvalidInputError);
          expect(() => explainFuelUse(question)).toThrow(InvalidInputError);
          return;
        }
        explained += 1;
        const steps = explainFuelUse(question);
        same(recompute(steps), (answer.fuelKg ?? answer.fuelMJ).p50);
        expect(steps.at(-1)?.quantity).toBe(answer.fuelKg === null ? 'fuelMJ' : 'fuelKg');
        for (const quantity of ['fuelMJ', 'heatToPotMJ', 'minutesToBoil', 'boiledOffL'] as const)
          same(listed(steps, quantity), answer[quantity].p50, quantity);
        same(listed(steps, 'floorMJ'), answer.floorMJ);
        for (const quantity of ['heatUpMJ', 'holdMJ', 'startUpMJ'] as const)
          same(listed(steps, quantity), answer.breakdown[quantity], quantity);
      }),
      { numRuns: 40 },
    );
    expect(explained, 'questions that were answered').toBeGreaterThan(10);
  });
  it('with other stoves, pots and winds the relations still give what the calculation gives', () => {
    const anyPair = fc.constantFrom(...pairs);
    const question = anyPair.chain(([typeId, fuelId]) => questionOf(typeId, fuelId));
    const factors = fc.array(between(0.8, 1.25), { minLength: 15, maxLength: 15 });
    fc.assert(
      fc.property(question, factors, (asked, scales) => {
        let resolved: ReturnType<typeof resolveFuelUse>;
        try {
          resolved = resolveFuelUse({ ...asked, fuelMoisturePercent: undefined } as unknown as FuelUseQuestion);
        } catch (error) {
          expect(error).toBeInstanceOf(InvalidInputError);
          return;
        }
        const { fuelMoisturePercent: _dry, ...question } = asked;
        const names = Object.keys(resolved.parameters) as (keyof HeatingValues)[];
        const values = {} as HeatingValues;
        const changed: Record<string, number> = {};
        for (const [at, name] of names.entries()) {
          values[name] = resolved.parameters[name].value * (scales[at] ?? 1);
          changed[identifierOf(name)] = values[name];
        }
        // The surface of the pot and its emissivity on the way up are facts of the task there.
        changed.potSurface = values['pot surface'] = resolved.parameters['pot surface'].value;
        const result = heatPot(resolved.task, values);
        const again = withChanged(explainFuelUse(question), changed);
        for (const quantity of ['minutesToBoil', 'heatUpMJ', 'holdMJ', 'heatToPotMJ', 'fuelMJ'] as const)
          same(again[quantity], result[quantity], quantity);
        same(again.boiledOffL, Math.min(result.boiledOffL, resolved.task.waterKg), 'boiledOffL');
      }),
      { numRuns: 250 },
    );
  });
  it('marks every parameter that is an estimate, and no other', () => {
    for (const [typeId, fuelId] of pairs) {
      const question: FuelUseQuestion = {
        stove: { typeId },
        fuelId,
        vessel: { kind: 'pot', capacityL: 4 },
        waterL: 1,
        startC: 20,
        airC: 20,
        elevationM: 0,
        wind: 'screened',
        holdMinutes: 10,
      };
      const steps = explainFuelUse(question);
      for (const [name, { estimate, source }] of Object.entries(resolveFuelUse(question).parameters)) {
        const step = steps.find(({ quantity }) => quantity === identifierOf(name));
        expect({ name, estimate: step?.estimate, source: step?.source }).toEqual({ name, estimate, source });
      }
    }
  });
  it('every fuel is burnt by some stove', () => {
    expect(new Set(pairs.map(([, fuelId]) => fuelId))).toEqual(new Set(Object.keys(FUELS)));
  });
});
