/**
 * What a household has measured on a calm day, as it is stored: boil tests, cooling readings, twenty-bean tests and cooking
 * notes. A record holds only what was seen; what follows from it is worked out anew each time, so that removing a record
 * restores the former figures exactly.
 */
import type { FuelId, Lid, Wind } from '../../physics/table-ids.ts';
import type { CookingAdditive, SoakAdditive } from '../calculators/calculator-types.ts';
import type { NamedFood } from '../foods/foods-table.ts';

export const MEASUREMENT_KINDS = ['boil-test', 'cooling-reading', 'twenty-bean-test', 'cooking-note'] as const;
export type MeasurementKind = (typeof MEASUREMENT_KINDS)[number];

interface MeasurementBase {
  format?: number;
  id: string;
  householdId: string;
  /** Local wall-clock time, `YYYY-MM-DDTHH:MM`. */
  at: string;
  /** The household has looked again and stands by the record, although it is far from what was expected. */
  confirmed?: boolean;
  note?: string;
}

/** Water brought to the boil, the fuel weighed before and after. */
export interface BoilTest extends MeasurementBase {
  kind: 'boil-test';
  stoveId: string;
  /** May be left out where the stove burns one fuel only. */
  fuelId?: FuelId;
  vesselId: string;
  litres: number;
  startC: number;
  /** Fuel burnt: its mass, or the container before and after, or, for electricity, the energy. */
  fuelKg?: number;
  grossBeforeKg?: number;
  grossAfterKg?: number;
  kWh?: number;
  /** From putting the pot on, or from lighting where the start-up is included, to a rolling boil. */
  minutes: number;
  /** Whether fuel and minutes include lighting; absent: they do. */
  startUpIncluded?: boolean;
  /** Absent: as the vessel says. */
  lid?: Lid;
  /** Wind, air and elevation at the flame; absent: as the place of the stove says. */
  wind?: Wind;
  airC?: number;
  elevationM?: number;
  /** Absent: as the fuel store says. */
  fuelMoisturePercent?: number;
}

/** Hot water in a flask, or in a pot in a box, read again after some hours. */
export interface CoolingMeasurement extends MeasurementBase {
  kind: 'cooling-reading';
  /** The flask, or the pot that stood in the box. */
  vesselId: string;
  boxId?: string;
  fillL: number;
  startC: number;
  /** Absent: the indoor temperature of its place. */
  airC?: number;
  hours: number;
  temperatureC: number;
}

/** The food of one packing: part of a kit, its packing date, and the food in it. */
export interface FoodLot extends NamedFood {
  kitId: string;
  partId: string;
  packedOn: string;
}

/** How a tested food was soaked. */
export interface TestedSoak {
  hours: number;
  waterC: number;
  additive?: SoakAdditive;
  /** Whether that water was poured away; absent: it was. */
  discardWater?: boolean;
}

interface LotTest extends MeasurementBase, FoodLot {
  /** Absent: not soaked. */
  soak?: TestedSoak;
  cookingAdditive?: CookingAdditive;
  /** Absent: that of the first place. */
  elevationM?: number;
  /** Pressure cooker; absent: an open pot. */
  gaugeKPa?: number;
}

/** Some seeds of a lot boiled for a set time and tried one by one. */
export interface BeanTest extends LotTest {
  kind: 'twenty-bean-test';
  /** Minutes at the boil. */
  minutes: number;
  /** Seeds tried; absent: twenty. */
  tried?: number;
  soft: number;
}

/** A dish as it was cooked: when it boiled and when the food was soft. */
export interface CookingNote extends LotTest {
  kind: 'cooking-note';
  /** Both counted from putting the pot on. */
  boiledAfterMinutes: number;
  softAfterMinutes: number;
}

/**
 * A dish that was tried in the course of a plan: after some minutes at the boil it had just become soft, or was not soft
 * yet. Derived from bookings, never stored.
 */
export interface FoodTried extends LotTest {
  kind: 'food-tried';
  /** Minutes at the boil, > 0; those of a box or flask after it are counted as `boxed`. */
  minutes: number;
  soft: boolean;
  /** How it went on after the boil, until it was tried; absent: it was tried at the boil. */
  boxed?: { startC: number; airC: number; timeConstantHours: number; minutes: number };
}

export type Measurement = BoilTest | CoolingMeasurement | BeanTest | CookingNote;

/** Seeds of a test where the record does not say. */
export const SEEDS_OF_A_TEST = 20;

/**
 * Fuel that a boil test burnt, kg, or kWh where electricity was metered; null where the record does not say, or says it
 * twice.
 */
export function fuelBurnt(test: BoilTest): number | null {
  const ways: number[] = [];
  if (test.fuelKg !== undefined) ways.push(test.fuelKg);
  if (test.kWh !== undefined) ways.push(test.kWh);
  if (test.grossBeforeKg !== undefined && test.grossAfterKg !== undefined)
    ways.push(test.grossBeforeKg - test.grossAfterKg);
  return ways.length === 1 ? (ways[0] as number) : null;
}
