/** What the program must know of a food. Rows are in `foods-table.ts` and its topic files. */
import type { Parameter, SourceRef } from '../../physics/parameter.ts';

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
      cutOffSource: SourceRef;
    }
  | { kind: 'ready'; standMinutesCold: Parameter; standMinutesHot: Parameter; eatDry: boolean };

/**
 * Water uptake of a pulse or whole grain standing in water (Peleg): `dM = t / (k1(T) + k2 t)`, with
 * `k1(T) = k1(Tref) exp(Ea/R (1/T - 1/Tref))`, Ea changing at given temperatures.
 */
export interface SoakKinetics {
  /** k1 at `referenceC`, h per (kg water per kg dry solids). */
  k1Hours: Parameter;
  referenceC: number;
  /** 1 / (limit of uptake, kg water per kg dry solids). */
  k2: Parameter;
  /** Activation energies in kJ/mol from the coldest range up; each holds up to its `upToC`, the last one beyond. */
  activation: { upToC: number; kJPerMol: Parameter }[];
  /** Hours before a hard coat lets water in, at `referenceC`; 0 where none is known. */
  lagHours: number;
}

/** Figures of an own food that follow from its class where its label is silent. */
export const GUESSED_FIGURES = [
  'energy',
  'protein',
  'salt',
  'moisture',
  'cooking minutes',
  'soaking',
  'water taken up',
  'bulk density',
  'lectin',
] as const;
export type GuessedFigure = (typeof GUESSED_FIGURES)[number];

export interface Food {
  id: string;
  name: string;
  group: FoodGroup;
  kinetics: CookingKinetics;
  /** Whether hours in cold water serve it (pulses and whole grains only). */
  soakable: boolean;
  /** kidney-family: Phaseolus vulgaris, and beans not known to be anything else. */
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
  /**
   * Minutes in cold safe water after which a food that is usually boiled is fit to eat too: grain that was steamed when it
   * was made. Absent: it must be boiled.
   */
  standMinutesCold?: Parameter;
  /** Froths: a pressure cooker is filled to half at most. */
  foams: boolean;
  /** Sour: goes in after pulses are soft. */
  acid: boolean;
  /** Salt, spices and the like: no boil needed, goes in whenever the dish says. */
  seasoning: boolean;
  /** Uptake in a soak; null where the food is not soaked or nothing is known of it. */
  soak: SoakKinetics | null;
  /** Grains: share of the cooking minutes that a full soak saves, 0 to 1. Pulses: null, `hydrationMinutes` says it. */
  soakSavesShare: Parameter | null;
  /** Share of the solids that stays in the food when it is boiled and drained, 0 to 1. */
  solidsKept: Parameter;
  /** Salt, g per 100 g; absent where no table says: then only what is put in as salt is counted. */
  saltGPer100G?: Parameter;
  /** What no table holds but a household has described from a label. */
  own?: {
    /** What the label did not say. */
    guessed: GuessedFigure[];
    /** A key of `OWN_FOOD_CLASSES`. */
    foodClass: string;
    fatGPer100G: number | null;
    moistureKnown: boolean;
    homeDried: boolean;
  };
  /** What a cook must know besides time: favism, cyanide, froth. Shown beside every answer. */
  cautions: string[];
}

/** What of an own food is guessed, in a sentence; empty where nothing is. */
export function guessWords(food: Food): string[] {
  const guessed = food.own?.guessed ?? [];
  return guessed.length === 0 ? [] : [`Guessed from its class, because its label does not say: ${guessed.join(', ')}.`];
}
