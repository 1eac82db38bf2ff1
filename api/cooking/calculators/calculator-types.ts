/** Questions to and answers of the calculators, as the HTTP contract words them. Every function is pure. */
import type { Percentiles, SpreadShare } from '../../physics/parameter.ts';
import type {
  Flame,
  FuelId,
  InsulationMaterialId,
  Lid,
  StoveTypeId,
  VesselMaterialId,
  Wind,
} from '../../physics/table-ids.ts';
import type { WorkKey } from '../../references/works-cited.ts';
import type { NamedFood } from '../foods/foods-table.ts';
import type { CoolingReading } from '../household/kitchen.ts';

/**
 * One step of a derivation, in order. A step without inputs is a fact of the question, a row of a table or a choice, and
 * `relation` says which in words. Any other step follows from the steps listed before it: `relation` is an expression in
 * its inputs with + - * / ^, parentheses, comparisons, `a > b ? x : y`, `pi`, exp, ln, sqrt, min, max, round, and
 * the functions that `explanation-functions.ts` writes out. Re-computing the last value gives the answer.
 */
export interface ExplanationStep {
  /** An identifier, once in its list. */
  quantity: string;
  value: number | string | boolean;
  unit: string;
  relation: string;
  /** The quantities that go in; all listed before this one. */
  inputs: string[];
  source: { key: WorkKey; place: string };
  /** True where the figure or the relation itself is an estimate or an extrapolation; what follows from it is not marked again. */
  estimate: boolean;
}

/** Causes of the spread of the headline answer. */
export interface WithSpread {
  spread: SpreadShare[];
}

export interface BoilingPointQuestion {
  elevationM?: number;
  stationPressureKPa?: number;
  seaLevelPressureKPa?: number;
  gaugeKPa?: number;
}
export interface BoilingPointAnswer {
  elevationM: number | null;
  pressureKPa: number;
  boilingPointC: number;
  text: string;
  /** A question back, when the entry looks like the other unit or the other kind of pressure. */
  ask: string | null;
  pressureCooker?: { gaugeKPa: number; temperatureC: number };
}

export type SoakAdditive = 'none' | 'salt' | 'bicarbonate';
export type CookingAdditive = 'none' | 'bicarbonate' | 'acid';

export interface SoakingQuestion extends NamedFood {
  hours: number;
  /** Water temperature; with `start: "hot"` the temperature at the start, from which it cools towards `airC`. */
  waterC: number;
  start?: 'cool' | 'hot';
  airC?: number;
  additive?: SoakAdditive;
  /** Of the stored food, % of the wet mass; absent: as sold. */
  moisturePercent?: number;
}
export interface SoakingAnswer {
  /** g water per g food as bought. */
  uptakeGPerG: Percentiles;
  /** Uptake as a share of a 12 h soak at 22 C, at most 1. */
  hydrationShare: Percentiles;
  waterLPerKg: { supplied: number; absorbed: number; discarded: number };
  safe: boolean;
  limitHours: number;
  advice: string;
}

export interface CookTimeQuestion extends NamedFood {
  elevationM?: number;
  /** Instead of the elevation: the temperature of the pot. */
  temperatureC?: number;
  gaugeKPa?: number;
  soak?: {
    start?: 'cool' | 'hot';
    hours: number;
    waterC: number;
    airC?: number;
    additive?: SoakAdditive;
    discardWater: boolean;
  };
  firstWater?: 'kept' | 'poured-away';
  cookingAdditive?: CookingAdditive;
  storage?: { years: number; temperatureC: number; moisturePercent: number };
  /**
   * Minutes of this lot over those of the table at its age, as the household's own tests left them; stands for the spread
   * of lots and of their ageing. Not part of the HTTP question.
   */
  measuredLot?: Percentiles;
}
export type LectinVerdict = 'not-applicable' | 'safe' | 'refused';
export interface CookTimeAnswer {
  temperatureC: number;
  /** Minutes at that temperature; come-up and pressure release are not credited. */
  minutes: Percentiles;
  extrapolated: boolean;
  lectin: { verdict: LectinVerdict; boilMinutesNeeded: number; reason: string; wayOut: string | null };
}

/** Figures of a stove as the household's own boil tests left them; null: as stated, or as the table says. */
export interface MeasuredStove {
  /** Share, in the place of the stated efficiency or that of the table at its reference load. */
  efficiency: Percentiles | null;
  /** Full flame at sea level, kW. */
  powerKW: Percentiles | null;
}

export interface FuelUseQuestion {
  stove: {
    typeId: StoveTypeId;
    powerKW?: number;
    efficiency?: number;
    startUpMJ?: number;
    flame?: Flame;
    /** Not part of the HTTP question. */
    measured?: MeasuredStove;
  };
  fuelId: FuelId;
  fuelMoisturePercent?: number;
  vessel: null | {
    kind: 'pot' | 'pressure-cooker';
    capacityL: number;
    material?: VesselMaterialId;
    lid?: Lid;
    gaugeKPa?: number;
    diameterMm?: number;
    massKg?: number;
    finned?: boolean;
  };
  waterL: number;
  foods?: (NamedFood & { massG: number; specificHeatKJPerKgK?: number })[];
  startC: number;
  /** Default: the boiling point at the elevation (or the pressure cooker's temperature). */
  endC?: number;
  airC: number;
  elevationM: number;
  wind: Wind;
  windFuelFactor?: number;
  holdMinutes: number;
  lidDuringHold?: Lid;
  releaseMinutes?: number;
  extraHeatKJ?: number;
}
export interface FuelUseAnswer {
  heatToPotMJ: Percentiles;
  fuelMJ: Percentiles;
  /** null for electricity. */
  fuelKg: Percentiles | null;
  /** Pressure cooker: to pressure. */
  minutesToBoil: Percentiles;
  boiledOffL: Percentiles;
  floorMJ: number;
  breakdown: { heatUpMJ: number; holdMJ: number; startUpMJ: number };
}

export interface CoolingQuestion {
  vessel: { kind: 'pot' | 'pressure-cooker' | 'flask'; capacityL: number; material?: VesselMaterialId; lid?: Lid };
  fillL: number;
  startC: number;
  airC: number;
  insulation?: { materialId: InsulationMaterialId; thicknessMm: number; conductivityWPerMK?: number };
  /**
   * A box or flask that is less full than at its reading cools sooner: `fillShare` is how full it was then, as a share of
   * the vessel, above 0 to 1; absent: as full as `fillL`. Not part of the HTTP question.
   */
  reading?: CoolingReading & { fillShare?: number };
  /**
   * Time constant over that of the model for this box or flask, as the household's own readings left it; a single
   * `reading` is then not looked at. Not part of the HTTP question.
   */
  measured?: Percentiles;
  hours: number;
}
export interface CoolingAnswer {
  timeConstantHours: Percentiles;
  /** Last row at `hours`. */
  temperatureC: ({ hours: number } & Percentiles)[];
  hoursAbove60C: Percentiles;
}
