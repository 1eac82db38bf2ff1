/**
 * How long one lot of a food takes to soften, from cooking notes and twenty-bean tests, as a factor on the minutes that
 * the tables give at its age, soak and elevation.
 */
import type { Percentiles } from '../../physics/parameter.ts';
import { answerCookTime, potTemperature } from '../calculators/answer-cook-time.ts';
import type { CookTimeQuestion } from '../calculators/calculator-types.ts';
import { foodOf, type NamedFood } from '../foods/foods-table.ts';
import { MAY_NEVER_SOFTEN_ABOVE, type Storage, storageFactor } from '../keeping/storage-age.ts';
import { boxCookValue } from '../kinetics/cook-value.ts';
import { timeFactor } from '../kinetics/softening-kinetics.ts';
import {
  chanceHardBefore,
  chancesOfCounts,
  deviationOf,
  type HardPot,
  type LogNormal,
  logNormalOf,
  lognormalPercentiles,
  type SoftCount,
  scatterFactor,
  updateLogNormal,
  updateWithCounts,
} from './bayes.ts';
import { basisText, differenceText, type Expectation, type LearnedFigure, QUESTION_DEVIATE } from './learned.ts';
import { type BeanTest, type CookingNote, type FoodLot, type FoodTried, SEEDS_OF_A_TEST } from './measurements.ts';

/** What one test says of the factor on the minutes: a reading, or a count of soft seeds. */
export interface LotReading {
  reading: LogNormal | null;
  count: SoftCount | null;
  /** It was tried and not soft; null: another finding. */
  hard: HardPot | null;
  expected: Expectation[];
  question: string | null;
}

/**
 * Seeds of one lot: half of them are soft in about 0.7 of the minutes in which 19 of 20 are. With pin-drop cookers of 25
 * seeds the 20th pin commonly falls 15 to 30 % later than the 13th, a spread of ln minutes of 0.17 to 0.3 (from memory).
 */
export const SEED_SD = 0.22;
/** When a food is called soft, tried every five or ten minutes. Common practice. */
const JUDGEMENT_SD = 0.1;
/** A box cools more or less quickly than is thought; what that makes of its credit, of ln minutes. Judgement of the trade. */
const BOX_CREDIT_SD = 0.2;
/** A single seed pressed with the tongue is hard or soft: less to judge. */
const SEED_JUDGEMENT_SD = 0.06;

/**
 * The question to the cook-time calculator that a test is the answer to.
 * @param elevationM of the first place, where the record names none
 */
export function lotTestQuestion(
  test: BeanTest | CookingNote | FoodTried,
  storage: Storage,
  elevationM: number,
): CookTimeQuestion {
  const pulse = foodOf(test)?.group === 'pulse';
  return {
    foodId: test.foodId,
    ...(test.ownFood === undefined ? {} : { ownFood: test.ownFood }),
    elevationM: test.elevationM ?? elevationM,
    ...(test.gaugeKPa === undefined ? {} : { gaugeKPa: test.gaugeKPa }),
    ...(test.soak === undefined
      ? {}
      : {
          soak: {
            start: 'cool' as const,
            hours: test.soak.hours,
            waterC: test.soak.waterC,
            ...(test.soak.additive === undefined ? {} : { additive: test.soak.additive }),
            discardWater: test.soak.discardWater ?? true,
          },
        }),
    ...(test.cookingAdditive === undefined ? {} : { cookingAdditive: test.cookingAdditive }),
    ...(pulse ? { storage } : {}),
  };
}

/** What of the spread of a lot's minutes is the lot's own: the food, and how it aged. */
export function lotPrior(named: NamedFood, storage: Storage): LogNormal {
  const food = foodOf(named);
  if (food === undefined || food.kinetics.kind !== 'boil') return { mean: 0, sd: 0 };
  const { p10, value, p90 } = food.kinetics.softeningMinutes;
  const lot = logNormalOf({ p10, p50: value, p90 }).sd;
  if (food.group !== 'pulse') return { mean: 0, sd: lot };
  const age = storageFactor(storage);
  return { mean: 0, sd: Math.hypot(lot, logNormalOf({ p10: age.p10, p50: age.value, p90: age.p90 }).sd) };
}

/**
 * What a test says, given what was expected.
 * @param prior from `lotPrior`
 * @throws InvalidInputError, OutOfRangeError where the calculator cannot work out such a pot
 */
export function readLotTest(
  test: BeanTest | CookingNote | FoodTried,
  question: CookTimeQuestion,
  prior: LogNormal,
): LotReading {
  const answer = answerCookTime(question);
  const whole = logNormalOf(answer.minutes).sd;
  const own = answer.spread
    .filter(({ cause }) => cause === 'food lot' || cause === 'storage age')
    .reduce((sum, { share }) => sum + share, 0);
  // What else spreads the minutes: soak, weather, temperature dependence.
  const otherSd = whole * Math.sqrt(Math.max(0, 1 - own));
  if (test.kind === 'food-tried') return readTried(test, question, answer.minutes.p50, prior, otherSd);
  return test.kind === 'cooking-note'
    ? readNote(test, answer.minutes.p50, prior, otherSd)
    : readCount(test, answer.minutes.p50, prior, otherSd);
}

/** What was expected to be found, in the band outside which a question is asked; `sd` in ln minutes. */
function expectedMinutes(typicalMinutes: number, sd: number, found: number): Expectation {
  const reach = QUESTION_DEVIATE * sd;
  return {
    quantity: 'minutes',
    unit: 'min',
    low: typicalMinutes * Math.exp(-reach),
    middle: typicalMinutes,
    high: typicalMinutes * Math.exp(reach),
    found,
  };
}

function readNote(test: CookingNote, typicalMinutes: number, prior: LogNormal, otherSd: number): LotReading {
  const found = test.softAfterMinutes - test.boiledAfterMinutes;
  const reading = { mean: Math.log(found / typicalMinutes), sd: Math.hypot(otherSd, JUDGEMENT_SD) };
  const expected = expectedMinutes(typicalMinutes, Math.hypot(prior.sd, reading.sd), found);
  const deviation = deviationOf(prior, reading);
  const band = `Expected were ${Math.round(expected.low)} to ${Math.round(expected.high)} min at the boil; you wrote ${Math.round(found)}.`;
  const question =
    Math.abs(deviation) <= QUESTION_DEVIATE
      ? null
      : deviation > 0
        ? `${band} Did it stop boiling in between, was there something sour in the pot, or is it another lot?`
        : `${band} Were they split or cooked before, was soda in the water, or do the minutes count from the boil?`;
  return { reading, count: null, hard: null, expected: [expected], question };
}

/** A dish that was tried: just soft is a reading; not soft bounds the minutes from below. */
function readTried(
  test: FoodTried,
  question: CookTimeQuestion,
  typicalMinutes: number,
  prior: LogNormal,
  otherSd: number,
): LotReading {
  const credit = boxCreditMinutes(test, question);
  const found = test.minutes + credit;
  const sd = Math.hypot(otherSd, JUDGEMENT_SD, BOX_CREDIT_SD * (credit / found));
  const lnMinutes = Math.log(found / typicalMinutes);
  const expected = expectedMinutes(typicalMinutes, Math.hypot(prior.sd, sd), found);
  const band = `Expected to be soft after ${Math.round(expected.low)} to ${Math.round(expected.high)} min at the boil`;
  const after = `${Math.round(found)} min${credit > 0.5 ? ', with what the box is worth,' : ''}`;
  if (!test.soft) {
    const hard: HardPot = { lnMinutes, sd };
    const question =
      chanceHardBefore(prior, hard) >= 0.01
        ? null
        : `${band}; you wrote that it was not soft after ${after}. Did it stop boiling in between, was there something sour in the pot, or is it another lot?`;
    return { reading: null, count: null, hard, expected: [expected], question };
  }
  const reading = { mean: lnMinutes, sd };
  const deviation = deviationOf(prior, reading);
  const asked =
    Math.abs(deviation) <= QUESTION_DEVIATE
      ? null
      : deviation > 0
        ? `${band}; you wrote that it was soft only after ${after}. Did it stop boiling in between, was there something sour in the pot, or is it another lot?`
        : `${band}; you wrote that it was soft after ${after}. Were they split or cooked before, was soda in the water, or do the minutes count from the boil?`;
  return { reading, count: null, hard: null, expected: [expected], question: asked };
}

/** What the time in a box or flask is worth, as minutes at the boil of the pot. */
function boxCreditMinutes(test: FoodTried, question: CookTimeQuestion): number {
  const kinetics = foodOf(test)?.kinetics;
  if (test.boxed === undefined || kinetics?.kind !== 'boil') return 0;
  const z = { zBelow: kinetics.zBelowC.value, zAbove: kinetics.zAboveC.value };
  const worth = boxCookValue({ ...test.boxed, ...z, cutOffC: kinetics.cutOffC });
  return worth * timeFactor(potTemperature(question).temperatureC, z.zBelow, z.zAbove);
}

function readCount(test: BeanTest, typicalMinutes: number, prior: LogNormal, otherSd: number): LotReading {
  const of = test.tried ?? SEEDS_OF_A_TEST;
  const count: SoftCount = {
    lnMinutes: Math.log(test.minutes / typicalMinutes),
    soft: test.soft,
    of,
    seedSd: SEED_SD,
    sharedSd: Math.hypot(otherSd, SEED_JUDGEMENT_SD),
  };
  const chances = chancesOfCounts(prior, count);
  const band = bandOf(chances, 0.01);
  const expected: Expectation = { quantity: 'soft seeds', unit: '1', ...band, found: test.soft };
  const text = `Of ${of}, ${countsInWords(band, of)} expected to be soft; you wrote ${test.soft}.`;
  const question =
    sumOf(chances.slice(0, test.soft + 1)) < 0.01
      ? `${text} Did the water boil all the time, was there something sour in it, or is it another lot?`
      : sumOf(chances.slice(test.soft)) < 0.01
        ? `${text} Were they split or cooked before, or was soda in the water?`
        : null;
  return { reading: null, count, hard: null, expected: [expected], question };
}

/** `3 to 9 were`, `none was`, `all were` */
function countsInWords({ low, high }: { low: number; high: number }, of: number): string {
  if (low !== high) return `${low === 0 ? 'none' : low} to ${high === of ? 'all' : high} were`;
  if (low === 0) return 'none was';
  return low === of ? 'all were' : low === 1 ? 'one was' : `${low} were`;
}

/**
 * What a test that is not made yet should find.
 * @param minutesShare minutes of the test over the typical minutes of the pot
 * @param sharedSd of what else spreads the minutes
 */
export function expectedSoft(
  prior: LogNormal,
  minutesShare: number,
  of: number,
  sharedSd: number,
): { low: number; middle: number; high: number } {
  const shared = Math.hypot(sharedSd, SEED_JUDGEMENT_SD);
  const count: SoftCount = { lnMinutes: Math.log(minutesShare), soft: 0, of, seedSd: SEED_SD, sharedSd: shared };
  return bandOf(chancesOfCounts(prior, count), 0.1);
}

/** The counts between which nearly all tests would lie (98 in 100 with a tail of 0.01), and the middle one. */
function bandOf(chances: readonly number[], tail: number): { low: number; middle: number; high: number } {
  const at = (share: number): number => {
    let sum = 0;
    let soft = 0;
    while (soft < chances.length - 1 && sum + (chances[soft] as number) < share) {
      sum += chances[soft] as number;
      soft += 1;
    }
    return soft;
  };
  return { low: at(tail), middle: at(0.5), high: at(1 - tail) };
}

function sumOf(chances: readonly number[]): number {
  return chances.reduce((sum, chance) => sum + chance, 0);
}

/**
 * The factor on a lot's minutes before and after its tests.
 * @param prior what is known of the lot without tests, at its age at the last of them
 */
export function learnedLotFigure(
  lot: FoodLot,
  prior: LogNormal,
  storage: Storage,
  readings: readonly { id: string; found: LotReading }[],
  questioned: readonly string[],
): LearnedFigure {
  const notes = readings.flatMap(({ found }) => (found.reading === null ? [] : [found.reading]));
  const counts = readings.flatMap(({ found }) => (found.count === null ? [] : [found.count]));
  const table = lognormalPercentiles(prior);
  const hard = readings.flatMap(({ found }) => (found.hard === null ? [] : [found.hard]));
  const now: Percentiles =
    readings.length === 0 ? table : updateWithCounts(updateLogNormal(prior, notes), counts, hard);
  const food = foodOf(lot);
  return {
    unit: '1',
    table,
    stated: null,
    now,
    records: readings.map(({ id }) => id).sort(),
    questioned: [...questioned].sort(),
    text: lotText(
      `${food?.name ?? lot.foodId}, packed ${lot.packedOn}`,
      now.p50,
      logNormalOf(now).sd > SAYS_NOTHING_SHARE * prior.sd,
      readings.length,
      scatterFactor(notes),
      food?.group,
      storage,
    ),
  };
}

/** Tests that leave more of the width than this, and the middle where it was, say nothing. */
const SAYS_NOTHING_SHARE = 0.95;

function lotText(
  name: string,
  factor: number,
  saysNothing: boolean,
  tests: number,
  scatter: number,
  group: string | undefined,
  storage: Storage,
): string {
  if (tests === 0) return `${name}: as the table expects at its age, not tested.`;
  const difference = differenceText(factor);
  const basis = basisText(tests, 'test', scatter);
  const plain =
    difference === null && saysNothing
      ? `${name}: no better known than from the table: what was tried would have come out so in any case ${basis}.`
      : difference === null
        ? `${name}: softens in about the minutes that the table expects ${basis}.`
        : `${name}: takes about ${difference} ${factor > 1 ? 'longer' : 'less long'} to soften than the table expects ${basis}.`;
  const aged = group === 'pulse' ? storageFactor(storage).value * factor : 1;
  return aged > MAY_NEVER_SOFTEN_ABOVE
    ? `${plain} Some of these may never soften: grind them for a thin gruel at a full boil, or use bicarbonate or a pressure cooker.`
    : plain;
}
