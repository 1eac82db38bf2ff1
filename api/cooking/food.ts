/** What the program must know of a food. Rows are in `foods-table.ts` and its topic files. */
import type { Parameter } from '../physics/parameter.ts';

export type FoodGroup =
  | 'pulse'
  | 'grain'
  | 'pasta'
  | 'root'
  | 'freeze-dried'
  | 'dehydrated'
  | 'flour'
  | 'dairy'
  | 'egg'
  | 'meat'
  | 'fat'
  | 'sugar'
  | 'fruit-nut'
  | 'seasoning'
  | 'tinned';

export const ALLERGENS = [
  'gluten',
  'milk',
  'egg',
  'soy',
  'peanut',
  'tree-nut',
  'fish',
  'crustacean',
  'sesame',
  'mustard',
  'celery',
] as const;
export type Allergen = (typeof ALLERGENS)[number];

/**
 * How a food becomes soft. `softening` minutes are counted at 100 C; `hydration` minutes come on top where it was not
 * soaked (pulses only). `ready` needs no boiling: it is eaten dry, or water is added and it stands.
 */
export type CookingKinetics =
  | {
      kind: 'boil';
      softeningMinutes: Parameter;
      hydrationMinutes: Parameter | null;
      /** K per tenfold change of rate, below and above 100 C. */
      zBelowC: Parameter;
      zAboveC: Parameter;
      /** Temperatures at which it was measured; outside, the answer is an extrapolation. */
      measuredFromC: number;
      measuredToC: number;
      /** Below this no credit is given. */
      cutOffC: number;
    }
  | { kind: 'ready'; standMinutesCold: Parameter; standMinutesHot: Parameter; eatDry: boolean };

export interface Food {
  id: string;
  name: string;
  group: FoodGroup;
  kinetics: CookingKinetics;
  /** Whether hours in cold water serve it (pulses and whole grains only). */
  soakable: boolean;
  /** kidney-family: Phaseolus vulgaris and unknown beans; full-cook: soybean. */
  lectin: 'kidney-family' | 'none';
  /** Water held per g as bought when done, g/g. */
  absorbedGPerG: Parameter;
  /** Energy per 100 g as stored. */
  kcalPer100G: Parameter;
  proteinGPer100G: Parameter;
  waterGPer100G: Parameter;
  /** Bulk density, g per L. */
  bulkDensityGPerL: Parameter;
  specificHeatKJPerKgK: Parameter;
  allergens: Allergen[];
  /** Raw egg or meat: must come to a full boil, never only rehydrated. */
  rawAnimal: boolean;
  /** Froths: a pressure cooker is filled to half at most. */
  foams: boolean;
  /** Sour: goes in after pulses are soft. */
  acid: boolean;
  /** Salt, spices and the like: no boil needed, goes in whenever the dish says. */
  seasoning: boolean;
}
