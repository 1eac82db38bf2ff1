/**
 * What weighings in the course of a plan say of a stove: fuel that its fires took against fuel that was predicted for them.
 * A stove that pays out less heat burns more in inverse proportion, so that the logarithm of the ratio is a reading of the
 * logarithm of its efficiency. Wind, lids, pots and dishes blur it: what they bring to the spread of the prediction is the
 * spread of the reading.
 */
import { type Percentiles, Z_90 } from '../../physics/parameter.ts';
import { type LogNormal, logNormalOf, lognormalPercentiles, updateLogNormal } from './bayes.ts';
import { differenceText, type Expectation, type LearnedFigure, QUESTION_DEVIATE } from './learned.ts';

/** Fuel that the fires of one stove took between two weighings, as a plan kept it. Derived from bookings, never stored. */
export interface WeighedUse {
  kind: 'weighed-use';
  id: string;
  householdId: string;
  /** Of the last weighing, local wall-clock time. */
  at: string;
  stoveId: string;
  /** Fires between the weighings, 1 or more. */
  fires: number;
  /** Fuel used, kg (kWh of electricity), > 0, and the standard deviation of the weighings. */
  used: number;
  usedSd: number;
  unit: 'kg' | 'kWh';
  /** What the plan predicted for the same fires. */
  predicted: Percentiles;
  /** Efficiency that the plan counted with over that without any test, 1 where nothing was known. */
  plannedFactor: number;
  /** Share of the variance of the prediction that comes from the efficiency of the stove, 0 to 1. */
  ownShare: number;
  confirmed?: boolean;
}

/** Least spread of a reading from a few fires: two cooks of the same dish differ by so much. Common practice. */
const LEAST_SD = 0.03;

/** One weighing as a reading of the efficiency, a factor on that without any test. */
export interface WeighedReading {
  efficiency: LogNormal;
  expected: Expectation[];
  question: string | null;
}

/** @param record `used` and `predicted.p50` > 0 */
export function readWeighedUse(record: WeighedUse): WeighedReading {
  const { used, usedSd, predicted, plannedFactor, ownShare, unit } = record;
  const spread = logNormalOf(predicted);
  const scaleSd = usedSd / used;
  const otherSd = spread.sd * Math.sqrt(Math.max(0, 1 - ownShare));
  const reach = QUESTION_DEVIATE * Math.hypot(spread.sd, scaleSd);
  const expected: Expectation = {
    quantity: 'fuel',
    unit,
    low: predicted.p50 * Math.exp(-reach),
    middle: predicted.p50,
    high: predicted.p50 * Math.exp(reach),
    found: used,
  };
  return {
    efficiency: {
      mean: Math.log(plannedFactor) - Math.log(used / predicted.p50),
      sd: Math.max(LEAST_SD, Math.hypot(otherSd, scaleSd)),
    },
    expected: [expected],
    question: questionOf(expected),
  };
}

function questionOf({ low, high, found, unit }: Expectation): string | null {
  if (found >= low && found <= high) return null;
  const band = `Expected were ${text(low)} to ${text(high)} ${unit}; the weighings say ${text(found)} ${unit}.`;
  return found > high
    ? `${band} Is there a leak, was a container not as full as was thought, or was something else cooked or heated?`
    : `${band} Was something not cooked, was another container used, or was it weighed with frost or water on it?`;
}

function text(amount: number): string {
  return amount >= 1 ? amount.toFixed(2) : String(Number(amount.toPrecision(2)));
}

/**
 * The efficiency of a stove with the weighings that count, on top of what its boil tests say.
 * @param tested the figure with its boil tests, or without any
 * @param readings those that count, with their ids and fires
 * @param questioned ids of those that wait for a confirmation
 */
export function withWeighings(
  name: string,
  tested: LearnedFigure,
  readings: readonly { id: string; fires: number; reading: WeighedReading }[],
  questioned: readonly string[],
): LearnedFigure {
  const waiting = [...tested.questioned, ...questioned].sort();
  if (readings.length === 0) return { ...tested, questioned: waiting };
  const { evidence: _ofTestsAlone, ...figure } = tested;
  const { table } = tested;
  const before = logNormalOf({
    p10: tested.now.p10 / table.p50,
    p50: tested.now.p50 / table.p50,
    p90: tested.now.p90 / table.p50,
  });
  const factor = lognormalPercentiles(
    updateLogNormal(
      before,
      readings.map(({ reading }) => reading.efficiency),
    ),
  );
  // No stove gives a pot more than it burns.
  const down = Math.min(1, 1 / (table.p50 * factor.p90));
  const now = {
    p10: table.p50 * factor.p10 * down,
    p50: table.p50 * factor.p50 * down,
    p90: table.p50 * factor.p90 * down,
  };
  const fires = readings.reduce((sum, one) => sum + one.fires, 0);
  const tests = tested.records.length;
  const basis = `weighed over ${fires} ${fires === 1 ? 'fire' : 'fires'}${tests === 0 ? '' : `, and ${tests} ${tests === 1 ? 'boil test' : 'boil tests'}`}`;
  const ratio = table.p50 / now.p50;
  const difference = differenceText(ratio);
  const against = tested.stated === null ? 'the table' : 'you state';
  return {
    ...figure,
    now,
    records: [...tested.records, ...readings.map(({ id }) => id)].sort(),
    questioned: waiting,
    text:
      difference === null
        ? `${name}: uses about as much fuel as ${against === 'the table' ? 'the table expects' : against} (${basis}).`
        : `${name}: uses about ${difference} ${ratio > 1 ? 'more' : 'less'} fuel than ${against} (${basis}).`,
  };
}

/** Standard deviation of a reading with a band. @param band p10 and p90 of one weighing */
export function sdOfBand(band: Percentiles): number {
  return (band.p90 - band.p10) / (2 * Z_90);
}
