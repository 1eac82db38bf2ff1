/** Water for a household to live on: drinks, hygiene, animals, and the bands against which a plan is checked. */
import { requireInRange } from '../../physics/errors.ts';
import type { Parameter } from '../../physics/parameter.ts';
import type { Animal } from './kitchen.ts';
import { drinkingLPerDay, type Eater } from './people.ts';

/** Published per-person figures, L a day. */
export const WATER_RULES = {
  /** One US gallon, as printed: 3.785 L for drinking and sanitation. */
  householdStorageL: rule(3.785, 3.785, 3.785, { key: 'ready-gov-water', place: 'one gallon per person per day' }),
  survivalL: rule(2.5, 2.5, 3, { key: 'sphere-2011', place: 'basic water table, drinking and food' }),
  basicHygieneL: rule(2, 2, 6, { key: 'sphere-2011', place: 'basic water table, hygiene' }),
  basicCookingL: rule(3, 3, 6, { key: 'sphere-2011', place: 'basic water table, cooking' }),
} as const;

/** Guards against drinking too much (loss of salt): 12 US qt a day, 1.5 US qt an hour, as printed in litres. */
export const FLUID_LIMITS = {
  perDayL: rule(11.4, 11.4, 11.4, { key: 'us-army-fluid-replacement', place: 'daily intake not above 12 qt' }),
  perHourL: {
    ...rule(1.4, 1.4, 1.4, { key: 'us-army-fluid-replacement', place: 'hourly intake not above 1.5 qt' }),
    unit: 'L/h',
  },
} as const;

/**
 * Water that a household should have stored by the rule of one US gallon per person and day.
 * @param people number of people, >= 0
 * @param days >= 0
 * @returns L
 * @throws OutOfRangeError
 */
export function storageRuleL(people: number, days: number): number {
  requireInRange('people', people, 0, 1e6, '1');
  requireInRange('days', days, 0, 1e5, 'd');
  return people * days * WATER_RULES.householdStorageL.value;
}

/**
 * The Sphere band of all basic water, per person and day: drinking and food, hygiene, cooking.
 * @returns L a day, low and high
 */
export function sphereTotalL(): { low: number; high: number } {
  const { survivalL, basicHygieneL, basicCookingL } = WATER_RULES;
  return {
    low: survivalL.p10 + basicHygieneL.p10 + basicCookingL.p10,
    high: survivalL.p90 + basicHygieneL.p90 + basicCookingL.p90,
  };
}

/**
 * Factor of hot weather on drinks: 1 below a mean of 27 C, 1.5 from there, 2 from 32 C.
 *
 * Source: the doubling is US advice; the two temperatures are common practice.
 * @param meanC mean temperature of the day where people are, C, -60 to 60
 * @throws OutOfRangeError
 */
export function heatFactorOf(meanC: number): number {
  requireInRange('meanC', meanC, -60, 60, 'C');
  if (meanC >= 32) return 2;
  return meanC >= 27 ? 1.5 : 1;
}

/**
 * Drinks, hygiene and animals of one day. Cooking and washing up come from the dishes and are added by the plan.
 * @param people the people present on that day
 * @param settings `hygieneLPerPersonDay` L >= 0; `meanC` mean temperature, C (default 20)
 * @param animals what each drinks, L a day
 * @returns L a day
 * @throws OutOfRangeError
 */
export function dailyWaterL(
  people: readonly Eater[],
  settings: { hygieneLPerPersonDay: number; meanC?: number },
  animals: readonly Animal[] = [],
): { drinkL: number; hygieneL: number; animalsL: number; totalL: number } {
  const hygieneEach = requireInRange('hygieneLPerPersonDay', settings.hygieneLPerPersonDay, 0, 1000, 'L/d');
  const heatFactor = heatFactorOf(settings.meanC ?? 20);
  const drinkL = people.reduce((sum, person) => sum + drinkingLPerDay(person, { heatFactor }), 0);
  const hygieneL = hygieneEach * people.length;
  const animalsL = animals.reduce((sum, animal) => sum + animal.waterLPerDay, 0);
  return { drinkL, hygieneL, animalsL, totalL: drinkL + hygieneL + animalsL };
}

/**
 * Water to give back after loose stools, one amount per stool.
 *
 * Source: WHO plan A: under 2 years 50 to 100 mL, 2 to 10 years 100 to 200 mL; older: as much as wanted, here taken as
 * 200 mL for planning.
 * @param ageYears >= 0
 * @param looseStools a day, >= 0
 * @returns L a day, low and high
 * @throws OutOfRangeError
 */
export function rehydrationLPerDay(ageYears: number, looseStools: number): { low: number; high: number } {
  requireInRange('ageYears', ageYears, 0, 130, 'y');
  requireInRange('looseStools', looseStools, 0, 100, '1/d');
  const high = ageYears < 2 ? 0.1 : 0.2;
  return { low: (high / 2) * looseStools, high: high * looseStools };
}

export type DrinkingCaution = 'too-much-a-day' | 'too-much-an-hour' | 'too-little' | 'below-storage-rule';

/**
 * What is wrong with an adult's water in a plan, if anything. The plan warns and never silently cuts.
 * @param intake `drinkL` a day; `absorbedL` water eaten in food; `perHourL` most in an hour; `totalL` all uses
 * @returns cautions, empty where the intake is between the survival need and the limits
 */
export function cautionsOnWater(intake: {
  drinkL: number;
  absorbedL?: number;
  perHourL?: number;
  totalL?: number;
}): DrinkingCaution[] {
  const cautions: DrinkingCaution[] = [];
  if (intake.drinkL > FLUID_LIMITS.perDayL.value) cautions.push('too-much-a-day');
  if ((intake.perHourL ?? 0) > FLUID_LIMITS.perHourL.value) cautions.push('too-much-an-hour');
  if (intake.absorbedL !== undefined && intake.drinkL + intake.absorbedL < WATER_RULES.survivalL.value) {
    cautions.push('too-little');
  }
  if (intake.totalL !== undefined && intake.totalL < WATER_RULES.householdStorageL.value) {
    cautions.push('below-storage-rule');
  }
  return cautions;
}

function rule(value: number, p10: number, p90: number, source: Parameter['source']): Parameter {
  return { value, p10, p90, unit: 'L/d', source, estimate: false };
}
