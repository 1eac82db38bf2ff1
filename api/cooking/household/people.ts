/**
 * What each person of a household needs: servings, drinks, energy, protein. Needs are tables by age group, for planning
 * a household of whom nothing but the group is known; the equations for one known body are in `food-energy-need.ts`.
 *
 * Age groups: infant under 1 year, young child 1 to 4, child 5 to 12, teen 13 to 18, adult 19 to 64, older adult from 65.
 */
import { requireInRange } from '../../physics/errors.ts';
import type { Parameter, SourceRef } from '../../physics/parameter.ts';
import type { AgeGroup, Condition } from './kitchen.ts';

/** What of a person the needs depend on; people and guests both have it. */
export interface Eater {
  ageGroup: AgeGroup;
  sex?: 'f' | 'm' | null;
  condition?: Condition | null;
  mealShare?: number | null;
}

function row(value: number, p10: number, p90: number, unit: string, source: SourceRef, estimate = true): Parameter {
  return { value, p10, p90, unit, source, estimate };
}

const PRACTICE: SourceRef = { key: 'household-practice', place: 'servings by age' };

/** Servings eaten at a meal by age group, as a share of an adult's. Common practice, near the ratio of energy needs. */
export const DEFAULT_MEAL_SHARES: Readonly<Record<AgeGroup, Parameter>> = {
  infant: row(0, 0, 0.25, 'servings', PRACTICE),
  'young-child': row(0.5, 0.4, 0.65, 'servings', PRACTICE),
  child: row(0.75, 0.6, 0.95, 'servings', PRACTICE),
  teen: row(1, 0.85, 1.35, 'servings', PRACTICE),
  adult: row(1, 0.8, 1.2, 'servings', PRACTICE),
  'older-adult': row(0.85, 0.7, 1, 'servings', PRACTICE),
};

const EFSA: SourceRef = { key: 'efsa-water-2010', place: 'table 1, adequate intakes; fluid columns (80 % of total)' };
const IOM_WATER: SourceRef = { key: 'iom-dri-summary', place: 'total water, 0-12 months' };

/**
 * Drinks in L a day, temperate. The adult figure is the round number between the 1.9 L of US household advice and
 * EFSA's 1.6 to 2.0 L of drinks. An infant's is the water of its formula: all its intake, for no food adds to it.
 */
export const DRINKS_L_PER_DAY: Readonly<Record<AgeGroup, Parameter>> = {
  infant: row(0.8, 0.7, 1, 'L/d', IOM_WATER, false),
  'young-child': row(0.9, 0.8, 1.2, 'L/d', EFSA, false),
  child: row(1.4, 1.2, 1.6, 'L/d', EFSA),
  teen: row(2, 1.6, 2.6, 'L/d', EFSA),
  adult: row(2, 1.6, 3, 'L/d', EFSA),
  'older-adult': row(2, 1.6, 2.5, 'L/d', EFSA),
};

/** Added to the drinks of a day, L. The ill row stands for five loose stools a day at 0.2 L each (0.1 L under 2 years). */
export const EXTRA_DRINKS_L_PER_DAY: Readonly<Record<Condition, Parameter>> = {
  none: row(0, 0, 0, 'L/d', EFSA, false),
  pregnant: row(0.3, 0.3, 0.3, 'L/d', EFSA, false),
  nursing: row(0.7, 0.7, 1.1, 'L/d', EFSA, false),
  ill: row(1, 0.4, 2, 'L/d', { key: 'who-plan-a', place: 'after each loose stool; five a day assumed' }),
};

/** "Very hot weather can double the need": the factor on drinks. */
export const HOT_WEATHER_FACTOR: Parameter = row(
  2,
  1.5,
  2,
  '1',
  { key: 'ready-gov-water', place: 'how much water' },
  false,
);

const CALORIES: SourceRef = {
  key: 'us-dietary-guidelines-calories',
  place: 'estimated calorie needs by age, sex and activity',
};

/**
 * Energy need by age group, sex and activity, kcal a day: the rows of the US table that fall in the group, averaged.
 * `low-active` (the table's "moderate") is for days on which water is hauled or wood cut. The band spans the rows.
 */
export const ENERGY_NEED_KCAL: Readonly<
  Record<AgeGroup, Readonly<Record<'f' | 'm', Readonly<Record<'sedentary' | 'low-active', Parameter>>>>>
> = {
  infant: {
    m: bothActivities(row(743, 570, 743, 'kcal/d', { key: 'iom-eer-2005', place: 'infants 6-12 months' }, false)),
    f: bothActivities(row(676, 520, 676, 'kcal/d', { key: 'iom-eer-2005', place: 'infants 6-12 months' }, false)),
  },
  'young-child': {
    m: { sedentary: kcal(1100, 1000, 1200), 'low-active': kcal(1200, 1000, 1400) },
    f: { sedentary: kcal(1100, 1000, 1200), 'low-active': kcal(1200, 1000, 1400) },
  },
  child: {
    m: { sedentary: kcal(1600, 1400, 1800), 'low-active': kcal(1900, 1600, 2200) },
    f: { sedentary: kcal(1500, 1400, 1600), 'low-active': kcal(1800, 1600, 2000) },
  },
  teen: {
    m: { sedentary: kcal(2200, 2000, 2400), 'low-active': kcal(2600, 2400, 2800) },
    f: { sedentary: kcal(1800, 1800, 1800), 'low-active': kcal(2000, 2000, 2000) },
  },
  adult: {
    m: { sedentary: kcal(2400, 2200, 2600), 'low-active': kcal(2600, 2400, 2800) },
    f: { sedentary: kcal(1900, 1800, 2000), 'low-active': kcal(2100, 2000, 2200) },
  },
  'older-adult': {
    m: { sedentary: kcal(2000, 2000, 2200), 'low-active': kcal(2200, 2200, 2400) },
    f: { sedentary: kcal(1600, 1600, 1600), 'low-active': kcal(1800, 1800, 1800) },
  },
};

/** Added energy, kcal a day: the second and third trimester averaged; the two halves of the nursing year averaged. */
export const EXTRA_ENERGY_KCAL: Readonly<Record<Condition, Parameter>> = {
  none: row(0, 0, 0, 'kcal/d', CALORIES, false),
  pregnant: row(400, 285, 452, 'kcal/d', { key: 'iom-eer-2005', place: 'pregnancy +340, +452' }),
  nursing: row(400, 330, 500, 'kcal/d', { key: 'iom-eer-2005', place: 'lactation +330, +400' }),
  ill: row(0, 0, 0, 'kcal/d', CALORIES),
};

const PROTEIN: SourceRef = { key: 'iom-dri-summary', place: 'protein, recommended dietary allowance' };

/** Protein, g a day. Groups that span two rows of the allowance take a figure between them. */
export const PROTEIN_NEED_G: Readonly<Record<AgeGroup, Readonly<Record<'f' | 'm', Parameter>>>> = {
  infant: { m: row(11, 9.1, 11, 'g/d', PROTEIN, false), f: row(11, 9.1, 11, 'g/d', PROTEIN, false) },
  'young-child': { m: row(14, 13, 19, 'g/d', PROTEIN), f: row(14, 13, 19, 'g/d', PROTEIN) },
  child: { m: row(27, 19, 34, 'g/d', PROTEIN), f: row(27, 19, 34, 'g/d', PROTEIN) },
  teen: { m: row(52, 34, 52, 'g/d', PROTEIN, false), f: row(46, 34, 46, 'g/d', PROTEIN, false) },
  adult: { m: row(56, 46, 60, 'g/d', PROTEIN, false), f: row(46, 40, 56, 'g/d', PROTEIN, false) },
  'older-adult': { m: row(56, 46, 65, 'g/d', PROTEIN, false), f: row(46, 40, 60, 'g/d', PROTEIN, false) },
};

/** Protein of the pregnant and the nursing, g a day. */
export const PROTEIN_NEED_PREGNANT_OR_NURSING_G: Parameter = row(71, 66, 71, 'g/d', PROTEIN, false);

/** Mean temperature from which cold adds to the energy need, C, and what it adds, kcal a day per K below it. */
export const COLD_ENERGY = {
  thresholdC: row(20, 20, 20, 'C', { key: 'unhcr-food-needs-1997', place: 'paragraphs 17-22' }, false),
  kcalPerK: row(20, 10, 20, 'kcal/(d K)', { key: 'unhcr-food-needs-1997', place: '+100 kcal per 5 C' }, false),
} as const;

/**
 * Servings that a person eats at one meal.
 * @param person own `mealShare` (>= 0) where it is given, else the default of the age group
 * @returns servings of a kit, adult = 1
 */
export function mealShareOf(person: Pick<Eater, 'ageGroup' | 'mealShare'>): number {
  return person.mealShare ?? DEFAULT_MEAL_SHARES[person.ageGroup].value;
}

/**
 * Water that a person drinks in a day, food moisture not counted: `D * H + X`.
 *
 * Source: EFSA 2010 and US household advice; see the tables above.
 * @param person age group and condition
 * @param options `hot`: very hot weather doubles the drinks; or `heatFactor` 1 to 2 from `heatFactorOf`
 * @returns L a day
 * @throws OutOfRangeError when `heatFactor` lies outside 1 to 2
 */
export function drinkingLPerDay(person: Eater, options: { hot?: boolean; heatFactor?: number } = {}): number {
  const heat = requireInRange(
    'heatFactor',
    options.heatFactor ?? (options.hot === true ? HOT_WEATHER_FACTOR.value : 1),
    1,
    2,
    '1',
  );
  const condition = person.condition ?? 'none';
  const extra = EXTRA_DRINKS_L_PER_DAY[condition].value;
  const small = person.ageGroup === 'infant' || person.ageGroup === 'young-child';
  return DRINKS_L_PER_DAY[person.ageGroup].value * heat + (condition === 'ill' && small ? extra / 2 : extra);
}

/**
 * What the cold adds to a person's energy need: 20 kcal a day for each kelvin of the mean temperature below 20 C.
 *
 * Source: UNHCR, WFP, WHO 1997, paragraphs 17-22 (+100 kcal per 5 C), read as linear between its steps.
 * @param meanC mean temperature of the day where the person lives, C, -60 to 60
 * @returns kcal a day, >= 0
 * @throws OutOfRangeError
 */
export function coldIncrementKcal(meanC: number): number {
  requireInRange('meanC', meanC, -60, 60, 'C');
  return Math.max(0, COLD_ENERGY.thresholdC.value - meanC) * COLD_ENERGY.kcalPerK.value;
}

/**
 * Energy that a person needs in a day: the table's row, the condition, and the cold of the house (scaled by the
 * person's share of an adult's need, for the rule was made for a population average of 2,100 kcal).
 *
 * An infant's is met by milk: leave people with a meal share of 0 out when adding up what kits must supply.
 * @param person age group, sex (the mean of both rows where not said), condition
 * @param situation `meanIndoorC` C (default 20: nothing added); `haulsWater`: low-active instead of sedentary
 * @returns kcal a day
 * @throws OutOfRangeError when `meanIndoorC` lies outside -60 to 60
 */
export function energyNeedKcal(person: Eater, situation: { meanIndoorC?: number; haulsWater?: boolean } = {}): number {
  const rows = ENERGY_NEED_KCAL[person.ageGroup];
  const activity = situation.haulsWater === true ? 'low-active' : 'sedentary';
  const base = person.sex ? rows[person.sex][activity].value : (rows.f[activity].value + rows.m[activity].value) / 2;
  const extra = EXTRA_ENERGY_KCAL[person.condition ?? 'none'].value;
  const cold = coldIncrementKcal(situation.meanIndoorC ?? COLD_ENERGY.thresholdC.value);
  return base + extra + cold * Math.min(1, base / PLANNING_ENERGY_KCAL.value);
}

/** Energy per head and day where ages are unknown: a population's mean at light activity and 20 C. */
export const PLANNING_ENERGY_KCAL: Parameter = row(
  2100,
  1900,
  2400,
  'kcal/d',
  { key: 'unhcr-food-needs-1997', place: 'initial planning figure' },
  false,
);

/**
 * Energy per head where nothing is known but the temperature: 2,100 kcal and the cold increment.
 * @param meanC mean temperature of the day, C, -60 to 60
 * @returns kcal a day
 * @throws OutOfRangeError
 */
export function populationEnergyKcal(meanC: number): number {
  return PLANNING_ENERGY_KCAL.value + coldIncrementKcal(meanC);
}

/**
 * Protein that a person needs in a day: the US recommended allowance; 71 g for the pregnant and the nursing.
 * @param person age group, sex (the higher row where not said), condition
 * @returns g a day
 */
export function proteinNeedG(person: Eater): number {
  if (person.condition === 'pregnant' || person.condition === 'nursing') {
    return PROTEIN_NEED_PREGNANT_OR_NURSING_G.value;
  }
  const rows = PROTEIN_NEED_G[person.ageGroup];
  return person.sex ? rows[person.sex].value : Math.max(rows.f.value, rows.m.value);
}

const AT_RISK_YEARS: SourceRef = { key: 'fda-at-risk', place: 'age groups' };

/** Ages below and from which people are at higher risk, and the one from which honey is allowed, years. */
export const RISK_AGES = {
  youngBelow: row(5, 5, 5, 'y', AT_RISK_YEARS, false),
  oldFrom: row(65, 60, 65, 'y', AT_RISK_YEARS, false),
  honeyFrom: row(1, 1, 1, 'y', { key: 'inspq-honey', place: 'no honey under 12 months' }, false),
} as const;

/**
 * Whether food that is merely probably safe must not be given to this person (no leftovers, nothing lukewarm).
 *
 * Source: FDA, people at risk: under 5, from 65, pregnant, weakened.
 */
export function isAtHigherRisk(person: Pick<Eater, 'ageGroup' | 'condition'>): boolean {
  return (
    person.ageGroup === 'infant' ||
    person.ageGroup === 'young-child' ||
    person.ageGroup === 'older-adult' ||
    person.condition === 'pregnant' ||
    person.condition === 'ill'
  );
}

/**
 * Whether a person may eat honey, also cooked: not before the first birthday (infant botulism).
 *
 * Source: INSPQ, Tiny Tot.
 */
export function mayEatHoney(person: Pick<Eater, 'ageGroup'>): boolean {
  return person.ageGroup !== 'infant';
}

function kcal(value: number, p10: number, p90: number): Parameter {
  return { value, p10, p90, unit: 'kcal/d', source: CALORIES, estimate: true };
}

function bothActivities(need: Parameter): { sedentary: Parameter; 'low-active': Parameter } {
  return { sedentary: need, 'low-active': need };
}
