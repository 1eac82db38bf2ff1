/**
 * Efficiency and power of a stove from boil tests. The chain of `physics/heating.ts` is run backwards: which efficiency
 * burns the fuel that was weighed, and which flame burns it in the minutes that it took. Everything else that spreads the
 * answer (wind, lid, pot, heating value, the cook's hand) spreads what is found, so that a test with much wind says little.
 */
import { type HeatingTask, type HeatingValues, heatPot } from '../../physics/heating.ts';
import { type Parameter, type Percentiles, Z_90 } from '../../physics/parameter.ts';
import { propagateSpread } from '../../physics/spread.ts';
import { answerFuelUse, resolveFuelUse, stoveFigures } from '../calculators/answer-fuel-use.ts';
import type { FuelUseQuestion } from '../calculators/calculator-types.ts';
import type { ResolvedHousehold, ResolvedStove } from '../household/resolve-household.ts';
import { type LogNormal, logNormalOf, lognormalPercentiles, scatterFactor, updateLogNormal } from './bayes.ts';
import {
  basisText,
  differenceText,
  type Expectation,
  evidenceOf,
  type LearnedFigure,
  QUESTION_DEVIATE,
} from './learned.ts';
import type { BoilTest } from './measurements.ts';

/** What one boil test says, as factors on the figures of the table (or on those that the household states). */
export interface BoilTestReading {
  efficiency: LogNormal;
  /** Of the flame as this pot is cooked on: a burner that is stronger than its type is turned down to more. */
  power: LogNormal;
  expected: Expectation[];
  question: string | null;
  /** The boil that was tested. */
  asked: FuelUseQuestion;
}

/** Two weighings on a kitchen scale, kg, or reading a meter, kWh; solid fuel on a coarser scale. Common practice. */
const SCALE_SD_KG = { fine: 0.0015, coarse: 0.015 } as const;
/** When a rolling boil is seen, and the clock read, min. Common practice. */
const CLOCK_SD_MINUTES = 0.4;
/** In a test water is measured by jug or scale and its temperature is read: better than by feel. Common practice. */
const TEST_MEASURING = { p10: 0.97, p90: 1.03 } as const;
/** Least part of minutes and fuel that was flame under the pot, where the start-up may have taken most of them. */
const LEAST_FLAME_SHARE = 0.2;

/**
 * The question to the fuel calculator that a boil test is the answer to.
 * @returns null where stove, vessel or fuel are not (or no longer) there
 */
export function boilTestQuestion(test: BoilTest, household: ResolvedHousehold): FuelUseQuestion | null {
  const stove = household.stoves.find((one) => one.id === test.stoveId);
  const vessel = household.vessels.find((one) => one.id === test.vesselId);
  const place = household.places.find((one) => one.id === stove?.placeId);
  const fuelId = test.fuelId ?? (stove?.fuelIds.length === 1 ? stove.fuelIds[0] : undefined);
  if (stove === undefined || vessel === undefined || place === undefined || fuelId === undefined) return null;
  const indoors = stove.site === 'vented-indoors';
  const moisture =
    test.fuelMoisturePercent ?? household.fuels.find((store) => store.fuelId === fuelId)?.moisturePercent ?? null;
  return {
    stove: { ...statedStove(stove), ...(test.startUpIncluded === false ? { startUpMJ: 0 } : {}) },
    fuelId,
    ...(moisture === null ? {} : { fuelMoisturePercent: moisture }),
    vessel: {
      kind: 'pot',
      capacityL: vessel.capacityL,
      material: vessel.material,
      lid: test.lid ?? vessel.lid,
      ...(vessel.diameterMm === null ? {} : { diameterMm: vessel.diameterMm }),
      ...(vessel.massKg === null ? {} : { massKg: vessel.massKg }),
      finned: vessel.finned,
    },
    waterL: test.litres,
    startC: test.startC,
    airC: test.airC ?? (indoors ? place.indoorC : place.outdoorC),
    elevationM: test.elevationM ?? place.elevationM,
    wind: test.wind ?? (indoors ? 'still' : place.wind),
    holdMinutes: 0,
  };
}

function statedStove(stove: ResolvedStove): FuelUseQuestion['stove'] {
  return {
    typeId: stove.typeId,
    ...(stove.powerKW === null ? {} : { powerKW: stove.powerKW }),
    ...(stove.efficiency === null ? {} : { efficiency: stove.efficiency }),
  };
}

/**
 * What a boil test says.
 * @param question from `boilTestQuestion`
 * @param burnt fuel, kg, or kWh of electricity, > 0
 * @throws InvalidInputError, OutOfRangeError where the calculator cannot work out such a boil
 */
export function readBoilTest(test: BoilTest, question: FuelUseQuestion, burnt: number): BoilTestReading {
  const { task, parameters, fuel, typical } = resolveFuelUse(question);
  const scaleKg = fuel.kind === 'solid' ? SCALE_SD_KG.coarse : SCALE_SD_KG.fine;
  const priorEfficiency = parameters['stove efficiency'].value;
  const priorPower = parameters['stove power'].value;
  const pinned = (p: Parameter): Parameter => ({ ...p, p10: p.value, p90: p.value });
  const causes: Record<string, Parameter> = {
    ...parameters,
    'stove efficiency': pinned(parameters['stove efficiency']),
    'stove power': pinned(parameters['stove power']),
    'lowest flame': pinned(parameters['lowest flame']),
    measuring: { ...parameters.measuring, ...TEST_MEASURING },
    scale: factorOfSd(scaleKg / burnt),
    clock: factorOfSd(CLOCK_SD_MINUTES / test.minutes),
  };
  const found = propagateSpread(causes, (values) => {
    const v = values as unknown as HeatingValues & { scale: number; clock: number };
    const burntKg = burnt * v.scale;
    const startUp = Math.min(v['start-up'], (1 - LEAST_FLAME_SHARE) * burntKg * v.fuel);
    const flameMinutes = Math.max(test.minutes * v.clock - v['start-up minutes'], LEAST_FLAME_SHARE * test.minutes);
    const flameKW = ((burntKg * v.fuel - startUp) * 1000) / (60 * v.cook * flameMinutes * task.powerShare);
    const power = flameKW / typical.flameKW;
    const burning = { ...v, 'start-up': startUp };
    const efficiency = efficiencyThatBurns(task, burning, power * priorPower, burntKg) / priorEfficiency;
    return { efficiency, power };
  }).percentiles;

  const answer = answerFuelUse(question);
  const fuelExpected = expectation('fuel', fuel.unit, answer.fuelKg ?? inKWh(answer.fuelMJ), scaleKg, burnt);
  const minutesExpected = expectation('minutes', 'min', answer.minutesToBoil, CLOCK_SD_MINUTES, test.minutes);
  return {
    efficiency: readingOf(found.efficiency),
    power: readingOf(found.power),
    expected: [fuelExpected, minutesExpected],
    question: questionOf(fuelExpected, minutesExpected),
    asked: question,
  };
}

function inKWh(mj: Percentiles): Percentiles {
  return { p10: mj.p10 / 3.6, p50: mj.p50 / 3.6, p90: mj.p90 / 3.6 };
}

/** A reading is the middle of its band: the relation at typical values of everything else. */
function readingOf(p: Percentiles): LogNormal {
  return { mean: Math.log(p.p50), sd: Math.max(logNormalOf(p).sd, 1e-3) };
}

function factorOfSd(sd: number): Parameter {
  const factor = Math.exp(Z_90 * sd);
  return {
    value: 1,
    p10: 1 / factor,
    p90: factor,
    unit: '1',
    source: { key: 'kitchenPractice', place: 'reading a scale and a clock' },
    estimate: true,
  };
}

/** Efficiency at which the chain burns so much fuel, by halving: fuel falls as efficiency rises. */
function efficiencyThatBurns(task: HeatingTask, values: HeatingValues, powerKW: number, burntKg: number): number {
  let low = Math.log(0.002);
  let high = Math.log(2);
  for (let step = 0; step < 44; step += 1) {
    const middle = (low + high) / 2;
    const { fuelKg } = heatPot(task, { ...values, 'stove power': powerKW, 'stove efficiency': Math.exp(middle) });
    if (fuelKg > burntKg) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}

/** @param readSd of reading scale or clock, in `unit` */
function expectation(quantity: string, unit: string, p: Percentiles, readSd: number, found: number): Expectation {
  const reach = (step: number): number => QUESTION_DEVIATE * Math.hypot(step / Z_90, readSd / p.p50);
  return {
    quantity,
    unit,
    low: p.p50 * Math.exp(-reach(Math.log(p.p50 / p.p10))),
    middle: p.p50,
    high: p.p50 * Math.exp(reach(Math.log(p.p90 / p.p50))),
    found,
  };
}

function questionOf(fuel: Expectation, minutes: Expectation): string | null {
  const questions: string[] = [];
  if (fuel.found > fuel.high)
    questions.push(
      `${expectedText(fuel)} Was the lid off, was there more wind than you wrote, did the fire burn on after the boil, or is it another unit?`,
    );
  if (fuel.found < fuel.low)
    questions.push(
      `${expectedText(fuel)} Was the container weighed cold and dry both times, was all the fuel weighed, was it a rolling boil, or is it another unit?`,
    );
  if (minutes.found > minutes.high)
    questions.push(
      `${expectedText(minutes)} Was the flame turned down, the lid off, or the wind stronger than you wrote?`,
    );
  if (minutes.found < minutes.low)
    questions.push(`${expectedText(minutes)} Was the water warm at the start, or was there less of it than you wrote?`);
  return questions.length === 0 ? null : questions.join(' ');
}

function expectedText({ unit, low, high, found }: Expectation): string {
  return `Expected were ${amountText(low, unit)} to ${amountText(high, unit)}; you wrote ${amountText(found, unit)}.`;
}

function amountText(amount: number, unit: string): string {
  // Three digits, so that what lies just outside is not written like the end of the band.
  if (unit === 'kg' && amount < 1) return `${Number((amount * 1000).toPrecision(3))} g`;
  return `${Number(amount.toPrecision(3))} ${unit}`;
}

/**
 * Efficiency and power of a stove before and after its boil tests.
 * @param readings the tests that count, with their ids
 * @param questioned ids of the tests that wait for a confirmation
 */
export function learnedStoveFigures(
  stove: ResolvedStove,
  readings: readonly { id: string; reading: BoilTestReading }[],
  questioned: readonly string[],
): { efficiency: LearnedFigure; powerKW: LearnedFigure } {
  const prior = priorOf(stove);
  const efficiencies = readings.map(({ reading }) => reading.efficiency);
  const powers = readings.map(({ reading }) => reading.power);
  const efficiency = updated(prior.efficiency, efficiencies);
  const power = updated(prior.powerKW, powers);
  const name = stove.name;
  const basis = { records: readings.map(({ id }) => id).sort(), questioned: [...questioned].sort() };
  return {
    efficiency: {
      unit: '1',
      table: prior.efficiency,
      stated: stove.efficiency,
      // No stove gives a pot more than it burns.
      now: readings.length === 0 ? efficiency : atMost(efficiency, 1),
      ...basis,
      ...evidenceOf(
        readings.map(({ id, reading }) => ({ id, found: reading.efficiency })),
        SHARED_BY_TESTS_SD,
      ),
      text: fuelText(
        name,
        fuelRatio(readings, efficiency.p50 / prior.efficiency.p50, power.p50 / prior.powerKW.p50),
        stove.efficiency !== null,
        readings.length,
        scatterFactor(efficiencies),
      ),
    },
    powerKW: {
      unit: 'kW',
      table: prior.powerKW,
      stated: stove.powerKW,
      now: power,
      ...basis,
      ...evidenceOf(
        readings.map(({ id, reading }) => ({ id, found: reading.power })),
        SHARED_BY_TESTS_SD,
      ),
      text: powerText(
        name,
        power.p50 / prior.powerKW.p50,
        stove.powerKW !== null,
        readings.length,
        scatterFactor(powers),
      ),
    },
  };
}

/** Efficiency and power without tests: stated by the household, else of the table. */
function priorOf(stove: ResolvedStove): { efficiency: Percentiles; powerKW: Percentiles } {
  const { efficiency, powerKW } = stoveFigures(statedStove(stove));
  const of = ({ p10, value, p90 }: Parameter): Percentiles => ({ p10, p50: value, p90 });
  return { efficiency: of(efficiency), powerKW: of(powerKW) };
}

/**
 * What all tests of one kitchen share and no number of them averages out: the heating value of the fuel, the scale, the
 * class of the wind, ln. A judgement from the spreads of those rows.
 */
const SHARED_BY_TESTS_SD = 0.03;

function updated(prior: Percentiles, readings: readonly LogNormal[]): Percentiles {
  if (readings.length === 0) return prior;
  const before = { mean: 0, sd: logNormalOf(prior).sd };
  const after = updateLogNormal(before, readings);
  const factor = lognormalPercentiles({ ...after, sd: Math.min(before.sd, Math.hypot(after.sd, SHARED_BY_TESTS_SD)) });
  return { p10: prior.p50 * factor.p10, p50: prior.p50 * factor.p50, p90: prior.p50 * factor.p90 };
}

/** The band moved down as a whole until its upper end is allowed. */
function atMost({ p10, p50, p90 }: Percentiles, most: number): Percentiles {
  const down = Math.min(1, most / p90);
  return { p10: p10 * down, p50: p50 * down, p90: p90 * down };
}

/**
 * Fuel of the boils that were tested, lighting apart, with what was learned over without: the geometric mean. A weaker
 * flame loses less past the pot, so that the efficiency alone does not say it.
 */
function fuelRatio(readings: readonly { reading: BoilTestReading }[], efficiency: number, power: number): number {
  const logarithms = readings.map(({ reading: { asked } }) => {
    const { task, parameters, typical } = resolveFuelUse({ ...asked, stove: { ...asked.stove, startUpMJ: 0 } });
    const values = Object.fromEntries(
      Object.entries(parameters).map(([name, { value }]) => [name, value]),
    ) as unknown as HeatingValues;
    const learned = heatPot(task, {
      ...values,
      'stove efficiency': efficiency * values['stove efficiency'],
      'stove power': power * values['stove power'],
    });
    return Math.log(learned.fuelKg / typical.fuelKg);
  });
  return Math.exp(logarithms.reduce((sum, one) => sum + one, 0) / Math.max(1, logarithms.length));
}

function fuelText(name: string, ratio: number, stated: boolean, tests: number, scatter: number): string {
  if (tests === 0)
    return stated ? `${name}: efficiency as you state it.` : `${name}: efficiency of the table, not tested.`;
  const against = stated ? 'than with the efficiency that you state' : 'than the table expects';
  const difference = differenceText(ratio);
  const basis = basisText(tests, 'boil test', scatter);
  if (difference === null)
    return `${name}: uses about as much fuel as ${stated ? 'you state' : 'the table expects'} ${basis}.`;
  return `${name}: uses about ${difference} ${ratio > 1 ? 'more' : 'less'} fuel ${against} ${basis}.`;
}

function powerText(name: string, ratio: number, stated: boolean, tests: number, scatter: number): string {
  if (tests === 0) return `${name}: power ${stated ? 'as you state it' : 'of the table'}, not tested.`;
  const against = stated ? 'you state' : 'the table expects';
  const difference = differenceText(ratio);
  const basis = basisText(tests, 'boil test', scatter);
  return difference === null
    ? `${name}: burns about as strongly as ${against} ${basis}.`
    : `${name}: burns about ${difference} ${ratio > 1 ? 'stronger' : 'weaker'} than ${against} ${basis}.`;
}

/** The band of what a boil test of this question should find, for the sheet that leads through it. */
export function expectedBoil(question: FuelUseQuestion): {
  fuel: Percentiles;
  unit: 'kg' | 'kWh';
  minutes: Percentiles;
} {
  const { fuel } = resolveFuelUse(question);
  const answer = answerFuelUse(question);
  return { fuel: answer.fuelKg ?? inKWh(answer.fuelMJ), unit: fuel.unit, minutes: answer.minutesToBoil };
}
