/** The household as sent: strict, with units and ranges. Mirrors `cooking/household/kitchen.ts`. */

import { MEAL_SLOTS } from '../cooking/dishes/kit.ts';
import type { HouseholdDocument } from '../cooking/household/kitchen.ts';
import { AGE_GROUPS, CONDITIONS, VESSEL_KINDS, WATER_QUALITIES } from '../cooking/household/kitchen.ts';
import {
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
  count,
  diameterMm,
  distinctIds,
  format,
  gaugeKPa,
  id,
  label,
  measure,
  note,
  powerKW,
  storageC,
  time,
  timeZone,
} from './schema-values.ts';
import { z } from './zod.ts';

const TWICE = 'Two entries have the same id';
const clockSpan = z.strictObject({ from: time, to: time });
const fuelKg = measure(0, 5000, 'kg');
const litres = measure(0, 100_000, 'L');

const place = z.strictObject({
  id,
  name: label.optional(),
  timeZone: timeZone.optional(),
  elevationM: cookingElevationM,
  indoorC: airC.optional(),
  indoorFallsToC: airC.optional(),
  storageC: storageC.optional(),
  outdoorC: airC.optional(),
  wind: z.enum(WINDS).optional(),
  daylight: clockSpan.optional(),
});

const person = z.strictObject({
  label,
  ageGroup: z.enum(AGE_GROUPS),
  sex: z.enum(['f', 'm']).optional(),
  condition: z.enum(CONDITIONS).optional(),
  mealShare: measure(0, 5, '1').optional(),
  avoids: z
    .array(
      // Whether there is such a food is asked where the own foods are read.
      z.string().max(64),
    )
    .max(50)
    .optional(),
});

const meal = z.strictObject({
  id,
  slot: z.enum(MEAL_SLOTS),
  time,
  hot: z.enum(['wanted', 'optional', 'none']).optional(),
});

const water = z.strictObject({
  lots: z
    .array(
      z.strictObject({
        id,
        placeId: id.optional(),
        litres,
        quality: z.enum(WATER_QUALITIES).optional(),
        temperatureC: measure(-40, 100, 'C').optional(),
      }),
    )
    .max(50)
    .refine(distinctIds, TWICE)
    .optional(),
  snow: z.boolean().optional(),
  dailySupply: z.strictObject({ litres, quality: z.enum(WATER_QUALITIES).optional() }).optional(),
  treatBy: z.enum(['boil', 'bleach']).optional(),
  hygieneLPerPersonDay: measure(0, 100, 'L/d').optional(),
  washingUpLPerPersonMeal: measure(0, 20, 'L').optional(),
  hotWaterPerDay: z.strictObject({ litres: measure(0, 200, 'L'), temperatureC: measure(20, 100, 'C') }).optional(),
});

const fuelStore = z.strictObject({
  fuelId: z.enum(FUEL_IDS),
  reserveShare: measure(0, 0.9, '1').optional(),
  moisturePercent: measure(0, 60, '%').optional(),
  containers: z
    .array(
      z.strictObject({
        id,
        placeId: id.optional(),
        fullKg: fuelKg.optional(),
        count: count(0, 1000).optional(),
        level: z.enum(['full', 'part', 'unknown', 'empty']).optional(),
        tareKg: fuelKg.optional(),
        grossKg: fuelKg.optional(),
        leftKg: fuelKg.optional(),
      }),
    )
    .max(50)
    .refine(distinctIds, TWICE)
    .optional(),
  dailySupplyKg: measure(0, 500, 'kg/d').optional(),
  leftKWh: measure(0, 10_000, 'kWh').optional(),
  dailySupplyKWh: measure(0, 1000, 'kWh/d').optional(),
});

const stove = z.strictObject({
  id,
  name: label.optional(),
  placeId: id.optional(),
  typeId: z.enum(STOVE_TYPE_IDS),
  fuelIds: z.array(z.enum(FUEL_IDS)).min(1).max(FUEL_IDS.length),
  site: z.enum(['outdoors', 'vented-indoors']).optional(),
  burners: count(1, 8).optional(),
  powerKW: powerKW.optional(),
  efficiency: measure(0.02, 1, '1').optional(),
  throttle: z.boolean().optional(),
  fillMl: measure(1, 5000, 'mL').optional(),
  minutesPerFill: measure(1, 600, 'min').optional(),
  coolDownMinutes: measure(0, 240, 'min').optional(),
  largestPotL: capacityL.optional(),
  burnsAnyway: clockSpan.optional(),
});

/** One reading of the cooling of hot water, with what is needed to turn it into a time constant. */
export const coolingReading = z.strictObject({
  hours: measure(0.1, 72, 'h'),
  temperatureC: measure(0, 100, 'C'),
  startC: measure(20, 100, 'C').optional(),
  airC: airC.optional(),
});

const vessel = z.strictObject({
  id,
  name: label.optional(),
  placeId: id.optional(),
  kind: z.enum(VESSEL_KINDS),
  capacityL,
  material: z.enum(VESSEL_MATERIAL_IDS).optional(),
  lid: z.enum(LIDS).optional(),
  gaugeKPa: gaugeKPa.optional(),
  diameterMm: diameterMm.optional(),
  massKg: measure(0.02, 50, 'kg').optional(),
  finned: z.boolean().optional(),
  reading: coolingReading.optional(),
});

const box = z.strictObject({
  id,
  name: label.optional(),
  placeId: id.optional(),
  fits: z.array(id).max(50),
  materialId: z.enum(INSULATION_MATERIAL_IDS).optional(),
  thicknessMm: measure(1, 500, 'mm').optional(),
  conductivityWPerMK: measure(0.01, 0.5, 'W/(m K)').optional(),
  reading: coolingReading.optional(),
});

/** A second entry of a fuel would hide the first. */
function distinctFuels(entries: { fuelId: string }[]): boolean {
  return new Set(entries.map((entry) => entry.fuelId)).size === entries.length;
}

export const householdSchema = z
  .strictObject({
    format,
    id,
    name: label,
    places: z.array(place).min(1).max(10).refine(distinctIds, TWICE),
    people: z.array(person).min(1).max(200),
    animals: z
      .array(z.strictObject({ label, waterLPerDay: measure(0, 100, 'L/d') }))
      .max(50)
      .optional(),
    meals: z.array(meal).max(6).refine(distinctIds, TWICE).optional(),
    waking: clockSpan.optional(),
    lightingsPerDay: count(0, 12).optional(),
    outdoorMinutesPerDay: measure(0, 1440, 'min/d').optional(),
    nightFeeds: z.array(time).max(12).optional(),
    thermometer: z.boolean().optional(),
    water: water.optional(),
    fuels: z.array(fuelStore).max(20).refine(distinctFuels, 'Two entries are of the same fuel').optional(),
    stoves: z.array(stove).max(20).refine(distinctIds, TWICE).optional(),
    vessels: z.array(vessel).max(50).refine(distinctIds, TWICE).optional(),
    boxes: z.array(box).max(20).refine(distinctIds, TWICE).optional(),
    note: note.optional(),
  })
  .meta({ id: 'Household', description: 'What a household has to cook with.' });

/** Compiles only while whatever the schema lets through is a household of the calculation. */
export const householdOf = (sent: z.output<typeof householdSchema>): HouseholdDocument => sent;
