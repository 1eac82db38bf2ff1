/**
 * What a household's records say of its stoves, boxes, flasks and food lots, worked out anew from all of them: the order
 * in which they came changes nothing, and without a record the figures are what they were before it.
 *
 * A record far from what the tables expect (outside the central 98 % of what they predict) is questioned and does not
 * count until it is confirmed. What was expected never depends on other records.
 */
import { InvalidInputError, OutOfRangeError } from '../../physics/errors.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import { foodOf, type NamedFood } from '../foods/foods-table.ts';
import type { ResolvedHousehold } from '../household/resolve-household.ts';
import { type Storage, storageFactor } from '../keeping/storage-age.ts';
import { boilTestQuestion, learnedStoveFigures, readBoilTest } from './learn-from-boil-tests.ts';
import { coolingThings, learnedCoolingFigure, readCooling, thingOfReading } from './learn-from-cooling.ts';
import { learnedLotFigure, lotPrior, lotTestQuestion, readLotTest } from './learn-from-lot-tests.ts';
import { readWeighedUse, type WeighedUse, withWeighings } from './learn-from-weighings.ts';
import { type Expectation, type Learned, type LearnedLot, lotId, lotOf, type MeasurementEffect } from './learned.ts';
import {
  type BeanTest,
  type BoilTest,
  type CookingNote,
  type CoolingMeasurement,
  type FoodLot,
  type FoodTried,
  fuelBurnt,
  type Measurement,
} from './measurements.ts';

/** Tests of a calm day, and what was weighed, read and tried in the course of a plan. */
export type Evidence = Measurement | WeighedUse | FoodTried;

/** How a lot was stored, from the ledger. */
export interface StoredLot {
  kitId: string;
  partId: string;
  packedOn: string;
  storageC: number | null;
  moisturePercent: number | null;
}

/** Moisture of dry food as sold and packed, %. */
const PACKED_MOISTURE_PERCENT = 10;
const MILLISECONDS_PER_YEAR = 365.25 * 24 * 3600 * 1000;
/** Nothing was worked out for older stores. */
const OLDEST_YEARS = 60;

/**
 * @param household with every field filled
 * @param records those of other households are passed over
 * @param lots of the ledger; a lot that is not among them is taken as stored at the first place
 */
export function learnFromMeasurements(
  household: ResolvedHousehold,
  records: readonly Evidence[],
  lots: readonly StoredLot[],
): Learned {
  const own = records
    .filter((record) => record.householdId === household.id)
    .sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : a.id < b.id ? -1 : 1));
  const effects = new Map<string, MeasurementEffect>();

  const boils = read(effects, own.filter(isBoilTest), (test) => {
    const question = boilTestQuestion(test, household);
    const burnt = fuelBurnt(test);
    if (question === null || burnt === null || !(burnt > 0)) return GONE.stove;
    return readBoilTest(test, question, burnt);
  });
  const weighings = read(effects, own.filter(isWeighedUse), (record) =>
    household.stoves.some((stove) => stove.id === record.stoveId) ? readWeighedUse(record) : GONE.stove,
  );
  const coolings = read(effects, own.filter(isCooling), (test) => {
    const thing = thingOfReading(test, household);
    return thing === null ? GONE.box : readCooling(test, thing);
  });
  const lotTests = own.filter(isLotTest);
  const latest = new Map<string, string>();
  for (const test of lotTests) latest.set(lotId(test), test.at);
  const elevationM = household.places[0]?.elevationM ?? 0;
  const lotReadings = read(effects, lotTests, (test) => {
    if (foodOf(test)?.kinetics.kind !== 'boil') return GONE.food;
    // The prior is that of the lot at its last test, so that it is one for all of them.
    const prior = lotPrior(test, storageOf(test, lots, household, latest.get(lotId(test)) ?? test.at));
    return readLotTest(test, lotTestQuestion(test, storageOf(test, lots, household, test.at), elevationM), prior);
  });

  const { counting, waiting } = sorters(effects);
  return {
    stoves: household.stoves.map((stove) => {
      const tests = boils.filter(({ record }) => record.stoveId === stove.id);
      const weighed = weighings.filter(({ record }) => record.stoveId === stove.id);
      const tested = learnedStoveFigures(
        stove,
        counting(tests).map(({ record, found }) => ({ id: record.id, reading: found })),
        waiting(tests),
      );
      return {
        stoveId: stove.id,
        name: stove.name,
        efficiency: withWeighings(
          stove.name,
          tested.efficiency,
          counting(weighed).map(({ record, found }) => ({ id: record.id, fires: record.fires, reading: found })),
          waiting(weighed),
        ),
        powerKW: tested.powerKW,
      };
    }),
    cooling: coolingThings(household).map((thing) => {
      const id = thing.box?.id ?? thing.vessel.id;
      const readings = coolings.filter(({ record }) => (record.boxId ?? record.vesselId) === id);
      const timeConstantHours = learnedCoolingFigure(
        thing,
        counting(readings).map(({ record, found }) => ({ id: record.id, found })),
        waiting(readings),
      );
      return { kind: thing.kind, id, name: thing.box?.name ?? thing.vessel.name, timeConstantHours };
    }),
    lots: [...latest.entries()]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([id, at]): LearnedLot => {
        const tests = lotReadings.filter(({ record }) => lotId(record) === id);
        const lot = lotOf(lotTests.find((test) => lotId(test) === id) as FoodLot);
        const storage = storageOf(lot, lots, household, at);
        return {
          ...lot,
          name: foodOf(lot)?.name ?? lot.foodId,
          minutesFactor: learnedLotFigure(
            lot,
            lotPrior(lot, storage),
            storage,
            counting(tests).map(({ record, found }) => ({ id: record.id, found })),
            waiting(tests),
          ),
        };
      }),
    effects: own.map((record) => effects.get(record.id) as MeasurementEffect),
  };
}

/**
 * A household whose stoves, boxes and flasks carry what was learned of them. Without records that count it comes back as
 * it was.
 */
export function withLearned(household: ResolvedHousehold, learned: Learned): ResolvedHousehold {
  const coolingOf = (id: string): { measured: Percentiles } | object => {
    const figure = learned.cooling.find((one) => one.id === id)?.timeConstantHours;
    if (figure === undefined || figure.records.length === 0) return {};
    const { table, now } = figure;
    return { measured: { p10: now.p10 / table.p50, p50: now.p50 / table.p50, p90: now.p90 / table.p50 } };
  };
  return {
    ...household,
    stoves: household.stoves.map((stove) => {
      const found = learned.stoves.find((one) => one.stoveId === stove.id);
      if (found === undefined || found.efficiency.records.length === 0) return stove;
      return { ...stove, measured: { efficiency: found.efficiency.now, powerKW: found.powerKW.now } };
    }),
    vessels: household.vessels.map((vessel) => ({ ...vessel, ...coolingOf(vessel.id) })),
    boxes: household.boxes.map((box) => ({ ...box, ...coolingOf(box.id) })),
  };
}

/**
 * The factors of tested lots for one dish, as `DishStorage` has them, brought to the one age that a dish has for all its
 * parts. A dish may be cooked from any lot in use: of several of one part the slowest counts, and a quick one shortens
 * nothing while a lot that was not tested may be slower.
 * @param lots in use
 * @param storage the age of the dish
 * @param storageOfLot what a lot has been through by then
 */
export function measuredLotsOf(
  learned: Learned,
  lots: readonly { kitId: string; partId: string; packedOn: string }[],
  storage: Storage,
  storageOfLot: (lot: FoodLot) => Storage,
): { measuredLots: Record<string, Percentiles> } | Record<never, never> {
  const slowest = new Map<string, Percentiles>();
  const tested = learned.lots.filter((lot) => lot.minutesFactor.records.length > 0);
  for (const { kitId, partId, foodId, ownFood } of tested) {
    const key = `${partId}/${foodId}`;
    if (slowest.has(key)) continue;
    const packings = new Set(
      lots.filter((lot) => lot.kitId === kitId && lot.partId === partId).map(({ packedOn }) => packedOn),
    );
    let found: Percentiles | null = null;
    let untested = 0;
    for (const packedOn of packings) {
      const lot = lotOf({ kitId, partId, packedOn, foodId, ...(ownFood === undefined ? {} : { ownFood }) });
      const aged = ageFactor(lot, storageOfLot(lot)) / ageFactor(lot, storage);
      const now = tested.find((one) => lotId(one) === lotId(lot))?.minutesFactor.now;
      if (now === undefined) untested = Math.max(untested, aged);
      else if (found === null || aged * now.p50 > found.p50)
        found = { p10: aged * now.p10, p50: aged * now.p50, p90: aged * now.p90 };
    }
    if (found !== null && found.p50 >= untested) slowest.set(key, found);
  }
  return slowest.size === 0 ? {} : { measuredLots: Object.fromEntries(slowest) };
}

/** How much longer a food softens for its age; grains do not harden in store. */
function ageFactor(named: NamedFood, { years, temperatureC, moisturePercent }: Storage): number {
  return foodOf(named)?.group === 'pulse' ? storageFactor({ years, temperatureC, moisturePercent }).value : 1;
}

const GONE = {
  stove: 'The stove, pot or fuel of this test is not in the household.',
  box: 'The box, pot or flask of this reading is not in the household.',
  food: 'This food needs no boiling.',
} as const;

interface ReadRecord<Kind extends Evidence, Found> {
  record: Kind;
  found: Found;
}

/** Reads records, and notes for each whether it counts. A reason in the place of a finding: it cannot be used. */
function read<Kind extends Evidence, Found extends { question: string | null; expected: Expectation[] }>(
  effects: Map<string, MeasurementEffect>,
  records: readonly Kind[],
  reader: (record: Kind) => Found | string,
): ReadRecord<Kind, Found>[] {
  return records.flatMap((record) => {
    const found = orReason(() => reader(record));
    if (typeof found === 'string') {
      effects.set(record.id, { id: record.id, use: 'not-used', question: null, reason: found, expected: [] });
      return [];
    }
    const { question, expected } = found;
    const use = question === null || record.confirmed === true ? 'counts' : 'questioned';
    effects.set(record.id, { id: record.id, use, question, reason: null, expected });
    return [{ record, found }];
  });
}

/** A household may have changed since, so that its calculator refuses a task that was once measured. */
function orReason<Found>(ask: () => Found | string): Found | string {
  try {
    return ask();
  } catch (error) {
    if (error instanceof InvalidInputError) return error.wayOut;
    if (error instanceof OutOfRangeError) return error.message;
    throw error;
  }
}

function sorters(effects: ReadonlyMap<string, MeasurementEffect>) {
  return {
    counting: <Entry extends { record: Evidence }>(entries: Entry[]): Entry[] =>
      entries.filter(({ record }) => effects.get(record.id)?.use === 'counts'),
    waiting: (entries: { record: Evidence }[]): string[] =>
      entries.map(({ record }) => record.id).filter((id) => effects.get(id)?.use === 'questioned'),
  };
}

/** What a lot has been through until a day. */
export function storageOf(
  lot: FoodLot,
  lots: readonly StoredLot[],
  household: ResolvedHousehold,
  until: string,
): Storage {
  const stored = lots.find(
    (one) => one.kitId === lot.kitId && one.partId === lot.partId && one.packedOn === lot.packedOn,
  );
  const years = (Date.parse(until.slice(0, 10)) - Date.parse(lot.packedOn)) / MILLISECONDS_PER_YEAR;
  return {
    years: Math.min(OLDEST_YEARS, Math.max(0, years)),
    temperatureC: stored?.storageC ?? household.places[0]?.storageC ?? 15,
    moisturePercent: stored?.moisturePercent ?? PACKED_MOISTURE_PERCENT,
  };
}

function isWeighedUse(record: Evidence): record is WeighedUse {
  return record.kind === 'weighed-use';
}
function isBoilTest(record: Evidence): record is BoilTest {
  return record.kind === 'boil-test';
}
function isCooling(record: Evidence): record is CoolingMeasurement {
  return record.kind === 'cooling-reading';
}
function isLotTest(record: Evidence): record is BeanTest | CookingNote | FoodTried {
  return record.kind === 'twenty-bean-test' || record.kind === 'cooking-note' || record.kind === 'food-tried';
}
