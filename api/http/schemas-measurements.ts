/** Records of own tests as sent, what became of them, and the figures that follow. Mirrors `cooking/measurements/measurements.ts`. */
import type { Learned, MeasurementEffect } from '../cooking/measurements/learned.ts';
import type { Measurement } from '../cooking/measurements/measurements.ts';
import { FUEL_IDS, LIDS, WINDS } from '../physics/table-ids.ts';
import {
  airC,
  cookingElevationM,
  count,
  date,
  dateTime,
  foodId,
  format,
  gaugeKPa,
  id,
  measure,
  note,
} from './schema-values.ts';
import { z } from './zod.ts';

const base = {
  format,
  id,
  householdId: id,
  at: dateTime,
  confirmed: z.boolean().optional().meta({ description: 'Counts although it is far from what was expected.' }),
  note: note.optional(),
};
const fuelKg = measure(0.001, 50, 'kg');
const grossKg = measure(0, 5000, 'kg');

const boilTest = z.strictObject({
  ...base,
  kind: z.literal('boil-test'),
  stoveId: id,
  fuelId: z.enum(FUEL_IDS).optional(),
  vesselId: id,
  litres: measure(0.1, 100, 'L'),
  startC: measure(0, 90, 'C'),
  fuelKg: fuelKg.optional(),
  grossBeforeKg: grossKg.optional(),
  grossAfterKg: grossKg.optional(),
  kWh: measure(0.005, 50, 'kWh').optional(),
  minutes: measure(0.5, 600, 'min').meta({
    description: 'From putting the pot on, or from lighting, to a rolling boil.',
  }),
  startUpIncluded: z
    .boolean()
    .optional()
    .meta({ description: 'Whether fuel and minutes include lighting; absent: they do.' }),
  lid: z.enum(LIDS).optional(),
  wind: z.enum(WINDS).optional(),
  airC: airC.optional(),
  elevationM: cookingElevationM.optional(),
  fuelMoisturePercent: measure(0, 60, '%').optional(),
});

const coolingMeasurement = z.strictObject({
  ...base,
  kind: z.literal('cooling-reading'),
  vesselId: id,
  boxId: id.optional(),
  fillL: measure(0.05, 100, 'L'),
  startC: measure(40, 100, 'C'),
  airC: airC.optional(),
  hours: measure(0.5, 72, 'h'),
  temperatureC: measure(0, 100, 'C'),
});

const lotTest = {
  ...base,
  kitId: id,
  partId: id,
  packedOn: date,
  foodId,
  soak: z
    .strictObject({
      hours: measure(0, 72, 'h'),
      waterC: measure(0, 100, 'C'),
      additive: z.enum(['none', 'salt', 'bicarbonate']).optional(),
      discardWater: z.boolean().optional(),
    })
    .optional(),
  cookingAdditive: z.enum(['none', 'bicarbonate', 'acid']).optional(),
  elevationM: cookingElevationM.optional(),
  gaugeKPa: gaugeKPa.optional(),
};

const beanTest = z.strictObject({
  ...lotTest,
  kind: z.literal('twenty-bean-test'),
  minutes: measure(1, 1440, 'min').meta({ description: 'At the boil.' }),
  tried: count(5, 50).optional().meta({ description: 'Seeds tried; absent: 20.' }),
  soft: count(0, 50),
});

const cookingNote = z.strictObject({
  ...lotTest,
  kind: z.literal('cooking-note'),
  boiledAfterMinutes: measure(0.5, 1440, 'min').meta({ description: 'From putting the pot on.' }),
  softAfterMinutes: measure(1, 2880, 'min').meta({ description: 'From putting the pot on.' }),
});

export const measurementSchema = z
  .discriminatedUnion('kind', [boilTest, coolingMeasurement, beanTest, cookingNote])
  .meta({ id: 'Measurement', description: 'What a household has measured itself.' });

const idLeftOpen = { id: id.optional() };
export const newMeasurementSchema = z
  .discriminatedUnion('kind', [
    boilTest.extend(idLeftOpen),
    coolingMeasurement.extend(idLeftOpen),
    beanTest.extend(idLeftOpen),
    cookingNote.extend(idLeftOpen),
  ])
  .meta({
    id: 'NewMeasurement',
    examples: [
      {
        kind: 'boil-test',
        householdId: 'saddle-lane',
        at: '2026-11-20T14:30',
        stoveId: 'camp-stove',
        vesselId: 'small-pot',
        litres: 2,
        startC: 12,
        airC: 10,
        wind: 'still',
        fuelKg: 0.032,
        minutes: 9,
      },
    ],
  });

/** Compiles only while whatever the schema lets through is a record of the calculation. */
export const measurementOf = (sent: z.output<typeof measurementSchema>): Measurement => sent;

export const effectAnswer = z
  .custom<MeasurementEffect>()
  .openapi({
    type: 'object',
    required: ['id', 'use', 'question', 'reason', 'expected'],
    description: 'Whether a record counts, what is odd about it, and what was expected.',
  })
  .meta({ id: 'MeasurementEffect' });

export const learnedAnswer = z
  .custom<Omit<Learned, 'effects'>>()
  .openapi({
    type: 'object',
    required: ['stoves', 'cooling', 'lots'],
    description:
      'Figures of stoves, boxes, flasks and lots: of the table, stated, and now, with the records behind them.',
  })
  .meta({ id: 'Learned' });
