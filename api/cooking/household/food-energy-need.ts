/**
 * The published equations for energy and protein of one known body, and the shares of a ration. Planning uses the
 * tables of `people.ts`; these check them and serve a household that knows its weights.
 */
import { InvalidInputError, requireInRange } from '../../physics/errors.ts';
import type { SourceRef } from '../../physics/parameter.ts';
import type { Condition } from './kitchen.ts';

export type Activity = 'sedentary' | 'low-active' | 'active' | 'very-active';

/** The activity coefficients of the adult equations; men's and women's differ (several reprints list one set only). */
export const ACTIVITY_COEFFICIENTS: Readonly<Record<'f' | 'm', Readonly<Record<Activity, number>>>> = {
  m: { sedentary: 1, 'low-active': 1.11, active: 1.25, 'very-active': 1.48 },
  f: { sedentary: 1, 'low-active': 1.12, active: 1.27, 'very-active': 1.45 },
};

/** Where the equations of this file were read. */
export const ENERGY_EQUATION_SOURCES = {
  requirement: { key: 'iom-eer-2005', place: 'adult equations with activity coefficients' },
  basalRate: { key: 'schofield-1985', place: 'table of adult equations' },
  activityLevel: { key: 'fao-energy-2001', place: 'section 5.4.1' },
  proteinAllowance: { key: 'iom-dri-summary', place: 'protein' },
  rationShares: { key: 'wfp-food-basket', place: '10 to 12 % protein and 17 % fat of the energy' },
} as const satisfies Record<string, SourceRef>;

export interface Body {
  sex: 'f' | 'm';
  ageYears: number;
  massKg: number;
  heightM: number;
}

/**
 * Estimated energy requirement of an adult:
 * men `662 - 9.53 a + PA (15.91 m + 539.6 h)`, women `354 - 6.91 a + PA (9.36 m + 726 h)`.
 *
 * Source: IOM 2005.
 * @param body age from 19 years, mass 25 to 300 kg, height 1.2 to 2.3 m
 * @returns kcal a day
 * @throws OutOfRangeError
 */
export function estimatedEnergyRequirementKcal(body: Body, activity: Activity): number {
  requireInRange('ageYears', body.ageYears, 19, 120, 'y');
  requireInRange('massKg', body.massKg, 25, 300, 'kg');
  requireInRange('heightM', body.heightM, 1.2, 2.3, 'm');
  const coefficient = ACTIVITY_COEFFICIENTS[body.sex][activity];
  return body.sex === 'm'
    ? 662 - 9.53 * body.ageYears + coefficient * (15.91 * body.massKg + 539.6 * body.heightM)
    : 354 - 6.91 * body.ageYears + coefficient * (9.36 * body.massKg + 726 * body.heightM);
}

/** Slope (kcal/(d kg)) and intercept (kcal/d) of the basal rate, by sex and the age up to which they hold. */
const BASAL_RATE: Readonly<Record<'f' | 'm', readonly { below: number; perKg: number; base: number }[]>> = {
  m: [
    { below: 30, perKg: 15.057, base: 692.2 },
    { below: 60, perKg: 11.472, base: 873.1 },
    { below: Number.POSITIVE_INFINITY, perKg: 11.711, base: 587.7 },
  ],
  f: [
    { below: 30, perKg: 14.818, base: 486.6 },
    { below: 60, perKg: 8.126, base: 845.6 },
    { below: Number.POSITIVE_INFINITY, perKg: 9.082, base: 658.5 },
  ],
};

/**
 * Basal metabolic rate of an adult, linear in mass. The need is this times a physical activity level of about 1.40 to
 * 1.69 (sedentary), 1.70 to 1.99 (moderate), 2.00 to 2.40 (vigorous).
 *
 * Source: Schofield 1985, as used by FAO/WHO/UNU 2001.
 * @param body age from 18 years, mass 25 to 300 kg
 * @returns kcal a day
 * @throws OutOfRangeError
 */
export function basalRateKcal(body: Pick<Body, 'sex' | 'ageYears' | 'massKg'>): number {
  requireInRange('ageYears', body.ageYears, 18, 120, 'y');
  requireInRange('massKg', body.massKg, 25, 300, 'kg');
  const rows = BASAL_RATE[body.sex];
  const row = rows.find((candidate) => body.ageYears < candidate.below) ?? rows[rows.length - 1];
  if (row === undefined) throw new Error('the table of basal rates has no rows');
  return row.perKg * body.massKg + row.base;
}

/**
 * Energy need from the basal rate: `BMR * PAL`.
 * @param physicalActivityLevel 1 to 4
 * @returns kcal a day
 * @throws OutOfRangeError
 */
export function needFromBasalRateKcal(
  body: Pick<Body, 'sex' | 'ageYears' | 'massKg'>,
  physicalActivityLevel: number,
): number {
  requireInRange('physicalActivityLevel', physicalActivityLevel, 1, 4, '1');
  return basalRateKcal(body) * physicalActivityLevel;
}

/** Recommended protein, g a day, by the age (years) below which the row holds. */
const PROTEIN_ALLOWANCE: readonly { below: number; m: number; f: number }[] = [
  { below: 0.5, m: 9.1, f: 9.1 },
  { below: 1, m: 11, f: 11 },
  { below: 4, m: 13, f: 13 },
  { below: 9, m: 19, f: 19 },
  { below: 14, m: 34, f: 34 },
  { below: 19, m: 52, f: 46 },
  { below: Number.POSITIVE_INFINITY, m: 56, f: 46 },
];

/**
 * Recommended dietary allowance of protein for one age.
 *
 * Source: IOM summary table (0 to 6 months: adequate intake).
 * @param person age 0 to 130 years; pregnant and nursing: 71 g
 * @returns g a day
 * @throws OutOfRangeError
 */
export function proteinAllowanceG(person: { ageYears: number; sex: 'f' | 'm'; condition?: Condition }): number {
  requireInRange('ageYears', person.ageYears, 0, 130, 'y');
  if (person.condition === 'pregnant' || person.condition === 'nursing') return 71;
  const row = PROTEIN_ALLOWANCE.find((candidate) => person.ageYears < candidate.below);
  if (row === undefined) throw new Error('the table of protein allowances has no row for this age');
  return row[person.sex];
}

/** Energy of 1 g, kcal: the general (Atwater) factors. */
export const KCAL_PER_GRAM = { protein: 4, fat: 9, carbohydrate: 4 } as const;

/**
 * Grams of a nutrient that make up a share of a ration's energy.
 * @param energyKcal >= 0
 * @param share 0 to 1
 * @returns g
 * @throws OutOfRangeError
 */
export function gramsOfEnergyShare(energyKcal: number, share: number, nutrient: keyof typeof KCAL_PER_GRAM): number {
  requireInRange('energyKcal', energyKcal, 0, 1e6, 'kcal');
  requireInRange('share', share, 0, 1, '1');
  return (energyKcal * share) / KCAL_PER_GRAM[nutrient];
}

/** kJ that a composition table means by 1 kcal: the thermochemical calorie. */
const PRINTED_KJ_PER_KCAL = 4.184;

/**
 * Energy of a food from a table that prints kJ, guarded against rows whose energy was left at 0 (oils and ghee of one
 * national table): less than half of what protein, fat and carbohydrate alone would give is a gap, not a figure.
 * @param energyKJ as printed per 100 g, >= 0
 * @param contents g per 100 g; carbohydrate without fibre
 * @returns kcal per 100 g
 * @throws OutOfRangeError; InvalidInputError for a gap
 */
export function kcalFromPrintedKJ(
  energyKJ: number,
  contents: { proteinG: number; fatG: number; carbohydrateG: number },
): number {
  requireInRange('energyKJ', energyKJ, 0, 4000, 'kJ/100 g');
  const kcal = energyKJ / PRINTED_KJ_PER_KCAL;
  const fromContents =
    contents.proteinG * KCAL_PER_GRAM.protein +
    contents.fatG * KCAL_PER_GRAM.fat +
    contents.carbohydrateG * KCAL_PER_GRAM.carbohydrate;
  if (kcal < fromContents / 2) {
    throw new InvalidInputError(
      'energyKJ',
      energyKJ,
      'the row leaves its energy out: take the energy from another table',
    );
  }
  return kcal;
}

/** Composition of 100 g of a food. */
export interface Composition {
  kcalPer100G: number;
  proteinGPer100G: number;
  waterGPer100G: number;
}

/**
 * Composition of a freeze-dried food from that of the fresh or cooked one: everything but water times
 * `(100 - m) / (100 - w)`, and the water that would restore it (mass balance; real uptake is 70 to 90 % of that).
 *
 * @param fresh per 100 g, water below 100 g
 * @param moisturePercent m, % after drying, 0 to 20 (2 is usual)
 * @returns composition per 100 g dry, the factor, and g of water back per 100 g dry
 * @throws OutOfRangeError
 */
export function freezeDriedFrom(
  fresh: Composition,
  moisturePercent = 2,
): Composition & { factor: number; waterBackGPer100G: number } {
  requireInRange('waterGPer100G', fresh.waterGPer100G, 0, 99, 'g/100 g');
  requireInRange('moisturePercent', moisturePercent, 0, 20, '%');
  const factor = (100 - moisturePercent) / (100 - fresh.waterGPer100G);
  return {
    kcalPer100G: fresh.kcalPer100G * factor,
    proteinGPer100G: fresh.proteinGPer100G * factor,
    waterGPer100G: moisturePercent,
    factor,
    // 100 g dry came from 100 * factor g fresh.
    waterBackGPer100G: 100 * factor - 100,
  };
}
