/** What a household's own measurements say of its stoves, boxes, flasks and food lots, and what each record did. */
import type { Percentiles } from '../../physics/parameter.ts';
import type { FoodLot } from './measurements.ts';

/** A quantity of a test as it was expected before it, between which 98 in 100 such tests would lie, and as it was found. */
export interface Expectation {
  quantity: string;
  unit: string;
  low: number;
  middle: number;
  high: number;
  found: number;
}

/**
 * What became of a record. `counts`: it is in the figures; `questioned`: it is kept, but counts only when it is confirmed;
 * `not-used`: it is kept, but what it was about is not there, or cannot be worked out.
 */
export interface MeasurementEffect {
  id: string;
  use: 'counts' | 'questioned' | 'not-used';
  /** What to look at again; null where nothing is odd. */
  question: string | null;
  /** Why it is not used; null where it is. */
  reason: string | null;
  expected: Expectation[];
}

/** One figure of the household: before its own records, after them, and what it rests on. */
export interface LearnedFigure {
  unit: string;
  /** As the table has it, or about the value that the household states. */
  table: Percentiles;
  /** Stated by the household itself, from a label; null: not stated. */
  stated: number | null;
  /** With the records that count; the same as `table` where there are none. */
  now: Percentiles;
  /** Ids of the records that count. */
  records: string[];
  /** Ids of the records that wait for a confirmation. */
  questioned: string[];
  /** In a sentence. */
  text: string;
  /** What went into `now` where it follows in closed form; absent: no records, counts of seeds, or weighings of a plan. */
  evidence?: Evidence;
}

/** Readings that a figure was updated with, each as a factor on the table's typical value. */
export interface Evidence {
  readings: { id: string; factor: number; sdLn: number }[];
  /** What all readings share, so that no number of them averages it out, ln. */
  sharedSdLn: number;
}

/** Readings as they are told, by their ids. */
export function evidenceOf(
  readings: readonly { id: string; found: { mean: number; sd: number } }[],
  sharedSdLn: number,
): { evidence: Evidence } | object {
  if (readings.length === 0) return {};
  const told = readings.map(({ id, found }) => ({ id, factor: Math.exp(found.mean), sdLn: found.sd }));
  return { evidence: { readings: told.sort((a, b) => (a.id < b.id ? -1 : 1)), sharedSdLn } };
}

export interface LearnedStove {
  stoveId: string;
  name: string;
  efficiency: LearnedFigure;
  powerKW: LearnedFigure;
}

export interface LearnedCooling {
  kind: 'box' | 'flask';
  id: string;
  name: string;
  /** At nine tenths of a full pot or flask. */
  timeConstantHours: LearnedFigure;
}

export interface LearnedLot extends FoodLot {
  name: string;
  /** Minutes of this lot over those of the table at its age. */
  minutesFactor: LearnedFigure;
}

export interface Learned {
  /** Every stove, tested or not. */
  stoves: LearnedStove[];
  /** Every box and flask, read or not. */
  cooling: LearnedCooling[];
  /** The lots that were tested. */
  lots: LearnedLot[];
  /** One for each record, by its time. */
  effects: MeasurementEffect[];
}

/** A figure of a plan that rests on records: kept with the plan. */
export interface LearnedInUse {
  /** Id of the stove, box or flask, or `kitId/partId/packedOn/foodId`. */
  of: string;
  quantity: 'efficiency' | 'powerKW' | 'timeConstantHours' | 'minutesFactor';
  figure: LearnedFigure;
}

/** The figures that rest on at least one record. */
export function learnedInUse(learned: Learned): LearnedInUse[] {
  const all: LearnedInUse[] = [
    ...learned.stoves.flatMap(({ stoveId, efficiency, powerKW }): LearnedInUse[] => [
      { of: stoveId, quantity: 'efficiency', figure: efficiency },
      { of: stoveId, quantity: 'powerKW', figure: powerKW },
    ]),
    ...learned.cooling.map(
      ({ id, timeConstantHours }): LearnedInUse => ({
        of: id,
        quantity: 'timeConstantHours',
        figure: timeConstantHours,
      }),
    ),
    ...learned.lots.map(
      (lot): LearnedInUse => ({ of: lotId(lot), quantity: 'minutesFactor', figure: lot.minutesFactor }),
    ),
  ];
  return all.filter(({ figure }) => figure.records.length > 0);
}

/** A lot of one food in one part of a kit, by name. */
export function lotId({ kitId, partId, packedOn, foodId }: FoodLot): string {
  return `${kitId}/${partId}/${packedOn}/${foodId}`;
}

/** What of a record says which lot it is of. */
export function lotOf({ kitId, partId, packedOn, foodId, ownFood }: FoodLot): FoodLot {
  return { kitId, partId, packedOn, foodId, ...(ownFood === undefined ? {} : { ownFood }) };
}

/** Whether a record was not made as a test, but follows from what was booked in the course of a plan. */
export function isBookedRecord(id: string): boolean {
  return id.startsWith('weighed-') || id.startsWith('booked-');
}

/** Deviate of the central 98 %: what lies outside is questioned. */
export const QUESTION_DEVIATE = 2.3263478740408408;

/** "20 %", in steps of 5 above 10; null where it is hardly a difference. */
export function differenceText(ratio: number): string | null {
  const percent = Math.abs(ratio - 1) * 100;
  if (percent < 3) return null;
  return `${percent < 10 ? Math.round(percent) : Math.round(percent / 5) * 5} %`;
}

/** Readings further apart than this, in what their spreads allow, are said to contradict one another. */
const CONTRADICT_FROM = 2;

/**
 * "(1 boil test)", "(2 boil tests, which contradict one another: make one more)".
 * @param scatter from `scatterFactor`, >= 1
 */
export function basisText(amount: number, one: string, scatter: number): string {
  const doubt = scatter >= CONTRADICT_FROM ? ', which contradict one another: make one more' : '';
  return `(${amount} ${amount === 1 ? one : `${one}s`}${doubt})`;
}
