/** Measured whole tasks as they were reported: conditions, what had to be supplied, what was measured. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Conditions as numbers; `task-requests.ts` says how each becomes a field of a request. */
export interface GivenConditions {
  stove?: string;
  fuel?: string;
  /** Water in the pot, L. */
  waterL?: number;
  /** Heat is counted without a pot. */
  noPot?: boolean;
  potKind?: 'camp' | 'ti' | 'kettle' | 'cooker' | 'finned';
  capacityL?: number;
  diameterMm?: number;
  material?: string;
  massKg?: number;
  gaugeKPa?: number;
  /** Start and end of the contents, C. */
  t0?: number;
  tEnd?: number;
  tAir?: number;
  extraHeatKJ?: number;
  /** No lid on the way up; no lid during the hold. */
  open?: boolean;
  openSimmer?: boolean;
  lid?: 'none' | 'loose' | 'snug';
  flame?: 'full' | 'low';
  /** Share of the heat that wind leaves, 0 to 1. */
  fWind?: number;
  /** Elevation, m. */
  altitude?: number;
  startMJ?: number;
  powerKW?: number;
  moisturePercent?: number;
  food?: string;
  foodKg?: number;
  /** kJ/(kg K) */
  foodCp?: number;
  holdMin?: number;
  /** Soaking and cook times. */
  temp?: number;
  temp1?: number;
  temp2?: number;
  hours?: number;
  soaked?: boolean;
  salt?: boolean;
  soda?: boolean;
  tCook?: number;
  /** Boxes and flasks. */
  kind?: string;
  mm?: number;
  k?: number;
  materialId?: string;
  reading?: { hours: number; temperatureC: number };
  /** Unit of a measured fuel or energy where it is not g. */
  unit?: string;
  /** What was measured where the class has more than one: see `task-requests.ts`. */
  quantity?: string;
}

export interface MeasuredTask {
  id: string;
  class: string;
  /** lab, field, hobby or weak (a needed condition was supplied, or the mapping is loose). */
  quality: string;
  conditions: string;
  /** What the source does not say and was supplied. */
  assumed: string[];
  given: GivenConditions;
  measured: { value: number; lo: number; hi: number; unit: string };
  source: string;
  /** Why it is listed and not scored. */
  notScored?: string;
}

export function readTasks(name: string): MeasuredTask[] {
  return JSON.parse(readFileSync(fileURLToPath(new URL(name, import.meta.url)), 'utf8')) as MeasuredTask[];
}
