/**
 * How well a box or flask keeps heat, from readings. Each reading gives a time constant, `tau = hours / ln((T0 - Ta) /
 * (T - Ta))`; over that of the model at the same fill it is a factor on the whole box, whatever stands in it.
 */
import { type Percentiles, Z_90 } from '../../physics/parameter.ts';
import { cooledTemperatureC, timeConstantFromReading } from '../../physics/retained-heat.ts';
import { answerCooling, OWN_READING_FACTOR } from '../calculators/answer-cooling.ts';
import type { CoolingQuestion } from '../calculators/calculator-types.ts';
import { insulationOf } from '../household/cooling-thing.ts';
import {
  HOUSEHOLD_DEFAULTS,
  type ResolvedBox,
  type ResolvedHousehold,
  type ResolvedVessel,
} from '../household/resolve-household.ts';
import {
  deviationOf,
  type LogNormal,
  logNormalOf,
  lognormalPercentiles,
  scatterFactor,
  updateLogNormal,
} from './bayes.ts';
import {
  basisText,
  differenceText,
  type Expectation,
  evidenceOf,
  type LearnedFigure,
  QUESTION_DEVIATE,
} from './learned.ts';
import type { CoolingMeasurement } from './measurements.ts';

export interface CoolingReadingFound {
  /** Time constant over that of the model. */
  factor: LogNormal;
  expected: Expectation[];
  question: string | null;
}

/** The thing that a reading is about: a flask, or a box with the pot that stands in it. */
export interface CoolingThing {
  kind: 'box' | 'flask';
  box: ResolvedBox | null;
  vessel: ResolvedVessel;
  /** Air about it where nothing else is said, C. */
  airC: number;
}

/**
 * From one filling to the next, of ln tau: later readings lay 1.07, 1.19 and 1.23 off the first one, in which two fillings
 * and two thermometers differ.
 */
const FILLING_SD = Math.log(1.1) / Z_90;
/** A kitchen thermometer, and the air over the hours, K. Common practice. */
const THERMOMETER_SD_K = 1;
const AIR_SD_K = 2;
const FULL_SHARE = 0.9;
/** Hot water as it is poured in, C, where an older reading does not say. */
const POURED_C = 92;

/** Every flask, and every box with the first pot that fits. */
export function coolingThings(household: ResolvedHousehold): CoolingThing[] {
  const airOf = (placeId: string): number => indoorCOf(household, placeId);
  const boxes = household.boxes.flatMap((box): CoolingThing[] => {
    const vessel = household.vessels.find((one) => box.fits.includes(one.id));
    return vessel === undefined ? [] : [{ kind: 'box', box, vessel, airC: airOf(box.placeId) }];
  });
  const flasks = household.vessels
    .filter((vessel) => vessel.kind === 'flask')
    .map((vessel): CoolingThing => ({ kind: 'flask', box: null, vessel, airC: airOf(vessel.placeId) }));
  return [...boxes, ...flasks];
}

function indoorCOf(household: ResolvedHousehold, placeId: string): number {
  return household.places.find((place) => place.id === placeId)?.indoorC ?? HOUSEHOLD_DEFAULTS.indoorC;
}

/**
 * The thing of a record with the pot that it names.
 * @returns null where box, flask or pot are not (or no longer) there
 */
export function thingOfReading(test: CoolingMeasurement, household: ResolvedHousehold): CoolingThing | null {
  const vessel = household.vessels.find((one) => one.id === test.vesselId);
  if (vessel === undefined) return null;
  if (test.boxId === undefined)
    return vessel.kind === 'flask'
      ? { kind: 'flask', box: null, vessel, airC: test.airC ?? indoorCOf(household, vessel.placeId) }
      : null;
  const box = household.boxes.find((one) => one.id === test.boxId);
  if (box === undefined || !box.fits.includes(vessel.id)) return null;
  return { kind: 'box', box, vessel, airC: test.airC ?? indoorCOf(household, box.placeId) };
}

/** The question to the cooling calculator about a box or flask as the tables have it. */
export function modelQuestion(
  { box, vessel }: CoolingThing,
  fillL: number,
  startC: number,
  airC: number,
): CoolingQuestion {
  return {
    vessel: {
      kind: vessel.kind === 'flask' ? 'flask' : 'pot',
      capacityL: vessel.capacityL,
      material: vessel.material,
      lid: 'snug',
    },
    fillL,
    startC,
    airC,
    ...insulationOf(box),
    hours: 4,
  };
}

/**
 * What a reading says.
 * @throws InvalidInputError, OutOfRangeError for readings that contradict themselves
 */
export function readCooling(test: CoolingMeasurement, thing: CoolingThing): CoolingReadingFound {
  const { startC, temperatureC, hours } = test;
  const { airC } = thing;
  const model = answerCooling(modelQuestion(thing, test.fillL, startC, airC)).timeConstantHours;
  const prior = priorOf(thing);
  const tauHours = timeConstantFromReading(startC, temperatureC, hours, airC);
  const factor: LogNormal = {
    mean: Math.log(tauHours / model.p50),
    sd: readingSd(startC, temperatureC, airC),
  };
  const deviation = deviationOf(prior, factor);
  const reach = QUESTION_DEVIATE * Math.hypot(prior.sd, factor.sd);
  const after = (deviate: number): number =>
    cooledTemperatureC(startC, airC, hours, model.p50 * Math.exp(deviate * reach));
  const expected: Expectation = {
    quantity: 'temperature',
    unit: 'C',
    low: after(-1),
    middle: after(0),
    high: after(1),
    found: temperatureC,
  };
  return { factor, expected: [expected], question: questionOf(deviation, expected) };
}

/** Spread of ln tau from the filling, the thermometer and the air: the derivative of the reading's formula. */
function readingSd(startC: number, temperatureC: number, airC: number): number {
  const logarithm = Math.log((startC - airC) / (temperatureC - airC));
  const atStart = 1 / (startC - airC);
  const atEnd = 1 / (temperatureC - airC);
  const thermometer = (THERMOMETER_SD_K * Math.hypot(atStart, atEnd)) / logarithm;
  const air = (AIR_SD_K * Math.abs(atEnd - atStart)) / logarithm;
  return Math.hypot(FILLING_SD, thermometer, air);
}

/** The model's spread as a factor about 1, at nine tenths full. */
function priorOf(thing: CoolingThing): LogNormal {
  return { mean: 0, sd: logNormalOf(standardHours(thing)).sd };
}

function standardHours(thing: CoolingThing): Percentiles {
  const startC = Math.max(POURED_C, thing.airC);
  return answerCooling(modelQuestion(thing, FULL_SHARE * thing.vessel.capacityL, startC, thing.airC)).timeConstantHours;
}

function questionOf(deviation: number, expected: Expectation): string | null {
  if (Math.abs(deviation) <= QUESTION_DEVIATE) return null;
  const band = `Expected were ${Math.round(expected.low)} to ${Math.round(expected.high)} °C; you wrote ${Math.round(expected.found)} °C.`;
  return deviation < 0
    ? `${band} Was it opened in between, was the lid or stopper loose, or was the flask or pot cold when it was filled?`
    : `${band} Was it shorter, was the water hotter at the start, or is it another unit?`;
}

/**
 * Time constant of the next filling of a box or flask before and after its readings, h at nine tenths full. The one reading that a household
 * may keep with the box or flask itself counts as one more where there are records; alone it stands as it did.
 */
export function learnedCoolingFigure(
  thing: CoolingThing,
  readings: readonly { id: string; found: CoolingReadingFound }[],
  questioned: readonly string[],
): LearnedFigure {
  const name = thing.box?.name ?? thing.vessel.name;
  const table = standardHours(thing);
  const scaled = (factor: Percentiles): Percentiles => ({
    p10: table.p50 * factor.p10,
    p50: table.p50 * factor.p50,
    p90: table.p50 * factor.p90,
  });
  const kept = keptReading(thing, table.p50);
  const base = {
    unit: 'h',
    table,
    stated: kept === null ? null : table.p50 * Math.exp(kept.mean),
    records: readings.map(({ id }) => id).sort(),
    questioned: [...questioned].sort(),
  };
  if (readings.length === 0) {
    const text = kept === null ? `${name}: as the table expects, not measured.` : `${name}: as your one reading says.`;
    const now =
      kept === null
        ? table
        : scaled(lognormalPercentiles({ mean: kept.mean, sd: Math.log(OWN_READING_FACTOR) / Z_90 }));
    return { ...base, now, text };
  }
  const all = [...readings.map(({ found }) => found.factor), ...(kept === null ? [] : [kept])];
  const prior = priorOf(thing);
  const { mean, sd } = updateLogNormal(prior, all);
  // However well the box is known, the next filling differs from the last one; the table's band counts that already.
  const factor = lognormalPercentiles({ mean, sd: Math.min(prior.sd, Math.hypot(sd, FILLING_SD)) });
  const difference = differenceText(factor.p50);
  const basis = basisText(all.length, 'reading', scatterFactor(all));
  const text =
    difference === null
      ? `${name}: keeps heat about as long as the table expects ${basis}.`
      : `${name}: keeps heat about ${difference} ${factor.p50 > 1 ? 'longer' : 'shorter'} than the table expects ${basis}.`;
  const told = readings.map(({ id, found }) => ({ id, found: found.factor }));
  const evidence = evidenceOf([...told, ...(kept === null ? [] : [{ id: 'kept-with-it', found: kept }])], FILLING_SD);
  return { ...base, now: scaled(factor), text, ...evidence };
}

/** The reading that is kept with the box or flask, at nine tenths full where nothing else is known. */
function keptReading(thing: CoolingThing, modelHours: number): LogNormal | null {
  const reading = thing.kind === 'box' ? thing.box?.reading : thing.vessel.reading;
  if (reading === null || reading === undefined) return null;
  const airC = reading.airC ?? thing.airC;
  const startC = Math.max(reading.startC ?? POURED_C, reading.temperatureC + 1);
  if (reading.temperatureC <= airC) return null;
  const tauHours = timeConstantFromReading(startC, reading.temperatureC, reading.hours, airC);
  return { mean: Math.log(tauHours / modelHours), sd: readingSd(startC, reading.temperatureC, airC) };
}
