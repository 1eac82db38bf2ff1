/** Questions to the calculators as sent, and their answers. Mirrors `cooking/calculators/calculator-types.ts`. */
import type {
  BoilingPointQuestion,
  CookTimeQuestion,
  CoolingQuestion,
  FuelUseQuestion,
  SoakingQuestion,
} from '../cooking/calculators/calculator-types.ts';
import {
  FLAMES,
  FUEL_IDS,
  INSULATION_MATERIAL_IDS,
  LIDS,
  STOVE_TYPE_IDS,
  VESSEL_MATERIAL_IDS,
  WINDS,
} from '../physics/table-ids.ts';
import {
  airC,
  capacityL,
  cookingElevationM,
  dateTime,
  diameterMm,
  dryFoodMoisturePercent,
  ELEVATION_RANGE_M,
  foodId,
  gaugeKPa,
  id,
  measure,
  powerKW,
  queryMeasure,
  storageC,
} from './schema-values.ts';
import { coolingReading, householdSchema } from './schemas-household.ts';
import { kitSchema } from './schemas-kit.ts';
import { z } from './zod.ts';

const startC = measure(-40, 100, 'C');
const endC = measure(0, 130, 'C');
const waterC = measure(0, 100, 'C');
const soakHours = measure(0, 72, 'h');
const soakAdditive = z.enum(['none', 'salt', 'bicarbonate']);

/** `?explain=1` asks for the steps of the derivation. */
export const explainQuery = z.strictObject({ explain: z.enum(['0', '1']).optional() });

export const boilingPointQuery = z.strictObject({
  elevationM: queryMeasure(ELEVATION_RANGE_M.minimum, ELEVATION_RANGE_M.maximum, 'm'),
  stationPressureKPa: queryMeasure(30, 110, 'kPa'),
  seaLevelPressureKPa: queryMeasure(85, 110, 'kPa'),
  gaugeKPa: queryMeasure(0, 150, 'kPa'),
  explain: z.enum(['0', '1']).optional(),
});

export const soakingSchema = z
  .strictObject({
    foodId,
    hours: soakHours,
    waterC,
    start: z.enum(['cool', 'hot']).optional(),
    airC: airC.optional(),
    additive: soakAdditive.optional(),
    moisturePercent: dryFoodMoisturePercent.optional(),
  })
  .meta({ id: 'SoakingQuestion', examples: [{ foodId: 'kidney-bean', hours: 12, waterC: 18 }] });

export const cookTimeSchema = z
  .strictObject({
    foodId,
    elevationM: cookingElevationM.optional(),
    temperatureC: measure(60, 130, 'C').optional(),
    gaugeKPa: gaugeKPa.optional(),
    soak: z
      .strictObject({
        start: z.enum(['cool', 'hot']).optional(),
        hours: soakHours,
        waterC,
        airC: airC.optional(),
        additive: soakAdditive.optional(),
        discardWater: z.boolean(),
      })
      .optional(),
    firstWater: z.enum(['kept', 'poured-away']).optional(),
    cookingAdditive: z.enum(['none', 'bicarbonate', 'acid']).optional(),
    storage: z
      .strictObject({
        years: measure(0, 40, 'y'),
        temperatureC: storageC,
        moisturePercent: dryFoodMoisturePercent,
      })
      .optional(),
  })
  .meta({
    id: 'CookTimeQuestion',
    examples: [{ foodId: 'kidney-bean', elevationM: 3000, soak: { hours: 12, waterC: 20, discardWater: true } }],
  });

export const fuelUseSchema = z
  .strictObject({
    stove: z.strictObject({
      typeId: z.enum(STOVE_TYPE_IDS),
      powerKW: powerKW.optional(),
      efficiency: measure(0.02, 1, '1').optional(),
      startUpMJ: measure(0, 50, 'MJ').optional(),
      flame: z.enum(FLAMES).optional(),
    }),
    fuelId: z.enum(FUEL_IDS),
    fuelMoisturePercent: measure(0, 60, '%').optional(),
    vessel: z
      .strictObject({
        kind: z.enum(['pot', 'pressure-cooker']),
        capacityL,
        material: z.enum(VESSEL_MATERIAL_IDS).optional(),
        lid: z.enum(LIDS).optional(),
        gaugeKPa: gaugeKPa.optional(),
        diameterMm: diameterMm.optional(),
        massKg: measure(0.02, 50, 'kg').optional(),
        finned: z.boolean().optional(),
      })
      .nullable(),
    waterL: measure(0, 100, 'L'),
    foods: z
      .array(
        z.strictObject({
          foodId,
          massG: measure(0, 50_000, 'g'),
          specificHeatKJPerKgK: measure(0.5, 4.5, 'kJ/(kg K)').optional(),
        }),
      )
      .max(40)
      .optional(),
    startC,
    endC: endC.optional(),
    airC,
    elevationM: cookingElevationM,
    wind: z.enum(WINDS),
    windFuelFactor: measure(1, 10, '1').optional(),
    holdMinutes: measure(0, 1440, 'min'),
    lidDuringHold: z.enum(LIDS).optional(),
    releaseMinutes: measure(0, 240, 'min').optional(),
    extraHeatKJ: measure(0, 100_000, 'kJ').optional(),
  })
  .meta({
    id: 'FuelUseQuestion',
    examples: [
      {
        stove: { typeId: 'propane-camp' },
        fuelId: 'propane',
        vessel: { kind: 'pot', capacityL: 4, material: 'aluminium', lid: 'snug' },
        waterL: 2,
        foods: [{ foodId: 'lentil-brown', massG: 400 }],
        startC: 8,
        airC: -5,
        elevationM: 1900,
        wind: 'screened',
        holdMinutes: 30,
      },
    ],
  });

export const coolingSchema = z
  .strictObject({
    vessel: z.strictObject({
      kind: z.enum(['pot', 'pressure-cooker', 'flask']),
      capacityL,
      material: z.enum(VESSEL_MATERIAL_IDS).optional(),
      lid: z.enum(LIDS).optional(),
    }),
    fillL: measure(0.05, 100, 'L'),
    startC: measure(0, 130, 'C'),
    airC,
    insulation: z
      .strictObject({
        materialId: z.enum(INSULATION_MATERIAL_IDS),
        thicknessMm: measure(1, 500, 'mm'),
        conductivityWPerMK: measure(0.01, 0.5, 'W/(m K)').optional(),
      })
      .optional(),
    reading: coolingReading.optional(),
    hours: measure(0.1, 72, 'h'),
  })
  .meta({
    id: 'CoolingQuestion',
    examples: [
      {
        vessel: { kind: 'pot', capacityL: 6, material: 'aluminium', lid: 'snug' },
        fillL: 5,
        startC: 93,
        airC: 10,
        insulation: { materialId: 'eps', thicknessMm: 50 },
        hours: 8,
      },
    ],
  });

export const dishOptionsSchema = z
  .strictObject({
    household: householdSchema.optional(),
    householdId: id.optional(),
    placeId: id.optional(),
    kit: kitSchema.optional(),
    kitId: id.optional(),
    servings: measure(0.5, 500, '1'),
    startsAt: dateTime,
    eatAt: dateTime,
  })
  .meta({ id: 'DishOptionsQuestion' });

const percentiles = (unit: string) =>
  z
    .object({ p10: z.number().meta({ unit }), p50: z.number().meta({ unit }), p90: z.number().meta({ unit }) })
    .meta({ description: '10th, 50th and 90th percentile.' });
const amount = (unit: string) => z.number().meta({ unit });

const explanationStep = z
  .object({
    quantity: z.string().meta({ description: 'An identifier, once in its list.' }),
    value: z.union([z.number().meta({ unit: 'see the member `unit`' }), z.string(), z.boolean()]),
    unit: z.string(),
    relation: z.string().meta({
      description:
        'With inputs an expression in them: + - * / ^, parentheses, comparisons, a > b ? x : y, pi, exp, ln, sqrt, min, ' +
        'max, round(x, decimals) and the functions of GET /api/explanation-functions. Without inputs in words.',
    }),
    inputs: z.array(z.string()).meta({ description: 'Quantities listed before this one.' }),
    source: z.object({ key: z.string().meta({ description: 'Of GET /api/references.' }), place: z.string() }),
    estimate: z.boolean().meta({ description: 'The figure or the relation is an estimate or an extrapolation.' }),
  })
  .meta({ id: 'ExplanationStep' });

/** A list of steps for the answers that are described by their main members only. */
export const stepsDescribed = (description: string) => ({
  type: 'array' as const,
  items: { $ref: '#/components/schemas/ExplanationStep' },
  description,
});

/** How the spread arose and, with `?explain=1`, every step of the derivation. */
const explained = {
  spread: z.array(z.object({ cause: z.string(), share: amount('1') })),
  explanation: z.array(explanationStep).optional(),
};

export const boilingPointAnswer = z
  .object({
    elevationM: amount('m').nullable(),
    pressureKPa: amount('kPa'),
    boilingPointC: amount('C'),
    text: z.string(),
    ask: z.string().nullable(),
    pressureCooker: z.object({ gaugeKPa: amount('kPa'), temperatureC: amount('C') }).optional(),
    ...explained,
  })
  .meta({ id: 'BoilingPointAnswer' });

export const soakingAnswer = z
  .object({
    uptakeGPerG: percentiles('g/g'),
    hydrationShare: percentiles('1'),
    waterLPerKg: z.object({ supplied: amount('L/kg'), absorbed: amount('L/kg'), discarded: amount('L/kg') }),
    safe: z.boolean(),
    limitHours: amount('h'),
    advice: z.string(),
    ...explained,
  })
  .meta({ id: 'SoakingAnswer' });

export const cookTimeAnswer = z
  .object({
    temperatureC: amount('C'),
    minutes: percentiles('min'),
    extrapolated: z.boolean(),
    lectin: z.object({
      verdict: z.enum(['not-applicable', 'safe', 'refused']),
      boilMinutesNeeded: amount('min'),
      reason: z.string(),
      wayOut: z.string().nullable(),
    }),
    ...explained,
  })
  .meta({ id: 'CookTimeAnswer' });

export const fuelUseAnswer = z
  .object({
    heatToPotMJ: percentiles('MJ'),
    fuelMJ: percentiles('MJ'),
    fuelKg: percentiles('kg').nullable(),
    minutesToBoil: percentiles('min'),
    boiledOffL: percentiles('L'),
    floorMJ: amount('MJ'),
    breakdown: z.object({ heatUpMJ: amount('MJ'), holdMJ: amount('MJ'), startUpMJ: amount('MJ') }),
    ...explained,
  })
  .meta({ id: 'FuelUseAnswer' });

export const coolingAnswer = z
  .object({
    timeConstantHours: percentiles('h'),
    temperatureC: z.array(z.object({ hours: amount('h'), p10: amount('C'), p50: amount('C'), p90: amount('C') })),
    hoursAbove60C: percentiles('h'),
    ...explained,
  })
  .meta({ id: 'CoolingAnswer' });

/** Compile only while whatever the schemas let through are questions of the calculation. */
export const questionsOf = {
  boilingPoint: (sent: z.output<typeof boilingPointQuery>): BoilingPointQuestion => sent,
  soaking: (sent: z.output<typeof soakingSchema>): SoakingQuestion => sent,
  cookTime: (sent: z.output<typeof cookTimeSchema>): CookTimeQuestion => sent,
  fuelUse: (sent: z.output<typeof fuelUseSchema>): FuelUseQuestion => sent,
  cooling: (sent: z.output<typeof coolingSchema>): CoolingQuestion => sent,
};
