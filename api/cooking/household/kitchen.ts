/**
 * What a household has to cook with, as it is stored. Almost every field may be left out: absent means the default that
 * `resolve-household.ts` fills in and reports as a default. `placeId` on anything means the first place where absent.
 */
import type {
  FuelId,
  InsulationMaterialId,
  Lid,
  StoveTypeId,
  VesselMaterialId,
  Wind,
} from '../../physics/table-ids.ts';
import type { MealSlot } from '../dishes/kit.ts';

export const AGE_GROUPS = ['infant', 'young-child', 'child', 'teen', 'adult', 'older-adult'] as const;
export type AgeGroup = (typeof AGE_GROUPS)[number];
export const CONDITIONS = ['none', 'pregnant', 'nursing', 'ill'] as const;
export type Condition = (typeof CONDITIONS)[number];

export interface ClockSpan {
  /** Wall-clock `HH:MM`. */
  from: string;
  to: string;
}

export interface Place {
  id: string;
  name?: string;
  /** IANA time zone. */
  timeZone?: string;
  elevationM: number;
  /** Indoor temperature when the outage begins. */
  indoorC?: number;
  /** Where the indoor temperature ends up after four days without heating. */
  indoorFallsToC?: number;
  storageC?: number;
  outdoorC?: number;
  wind?: Wind;
  daylight?: ClockSpan;
}

export interface Person {
  label: string;
  ageGroup: AgeGroup;
  sex?: 'f' | 'm';
  condition?: Condition;
  /** Servings that this person eats at a meal; default by age group. */
  mealShare?: number;
  /** Food ids or allergens that this person cannot eat. */
  avoids?: string[];
}

export interface Animal {
  label: string;
  waterLPerDay: number;
}

export interface MealTime {
  id: string;
  slot: MealSlot;
  time: string;
  hot?: 'wanted' | 'optional' | 'none';
}

export const WATER_QUALITIES = ['safe', 'treat', 'not-for-food'] as const;
export type WaterQuality = (typeof WATER_QUALITIES)[number];

export interface WaterLot {
  id: string;
  placeId?: string;
  litres: number;
  quality?: WaterQuality;
  temperatureC?: number;
}

export interface WaterStores {
  lots?: WaterLot[];
  snow?: boolean;
  dailySupply?: { litres: number; quality?: WaterQuality };
  treatBy?: 'boil' | 'bleach';
  hygieneLPerPersonDay?: number;
  washingUpLPerPersonMeal?: number;
  hotWaterPerDay?: { litres: number; temperatureC: number };
}

/** A container of fuel. The first of `leftKg`, `grossKg` less `tareKg`, `level` that is given says what is in it. */
export interface FuelContainer {
  id: string;
  placeId?: string;
  fullKg?: number;
  count?: number;
  level?: 'full' | 'part' | 'unknown' | 'empty';
  tareKg?: number;
  grossKg?: number;
  leftKg?: number;
}

export interface FuelStore {
  fuelId: FuelId;
  /** Share of what is on hand that no plan touches. */
  reserveShare?: number;
  moisturePercent?: number;
  containers?: FuelContainer[];
  dailySupplyKg?: number;
  /** Electricity only: energy on hand and promised per day. */
  leftKWh?: number;
  dailySupplyKWh?: number;
}

export interface Stove {
  id: string;
  name?: string;
  placeId?: string;
  typeId: StoveTypeId;
  fuelIds: FuelId[];
  site?: 'outdoors' | 'vented-indoors';
  burners?: number;
  powerKW?: number;
  efficiency?: number;
  /** Whether the flame can be turned down; default by type. */
  throttle?: boolean;
  /** Valveless burners: mL that one fill holds and how long it burns. */
  fillMl?: number;
  minutesPerFill?: number;
  coolDownMinutes?: number;
  largestPotL?: number;
  /** A stove that burns in any case at these hours, for heating: its top costs no fuel. */
  burnsAnyway?: ClockSpan;
}

export const VESSEL_KINDS = ['pot', 'pressure-cooker', 'flask', 'soak-bowl'] as const;
export type VesselKind = (typeof VESSEL_KINDS)[number];

export interface CoolingReading {
  hours: number;
  temperatureC: number;
  startC?: number;
  airC?: number;
}

export interface Vessel {
  id: string;
  name?: string;
  placeId?: string;
  kind: VesselKind;
  capacityL: number;
  material?: VesselMaterialId;
  lid?: Lid;
  gaugeKPa?: number;
  diameterMm?: number;
  massKg?: number;
  finned?: boolean;
  /** Flask: one reading of the household's own. */
  reading?: CoolingReading;
}

export interface RetainedHeatBox {
  id: string;
  name?: string;
  placeId?: string;
  /** Ids of the vessels that fit into it. */
  fits: string[];
  materialId?: InsulationMaterialId;
  thicknessMm?: number;
  conductivityWPerMK?: number;
  reading?: CoolingReading;
}

/** A household as stored and exchanged. */
export interface HouseholdDocument {
  format?: number;
  id: string;
  name: string;
  places: Place[];
  people: Person[];
  animals?: Animal[];
  meals?: MealTime[];
  waking?: ClockSpan;
  lightingsPerDay?: number;
  outdoorMinutesPerDay?: number;
  /** Wall-clock times of night feeds. */
  nightFeeds?: string[];
  thermometer?: boolean;
  water?: WaterStores;
  fuels?: FuelStore[];
  stoves?: Stove[];
  vessels?: Vessel[];
  boxes?: RetainedHeatBox[];
  note?: string;
}
