/**
 * A dish that needs no boil: goods that are fit to eat from cold safe water are heated until the dish is hot, and stand
 * under the lid until they are soft. Boiling them would heat a fifth more for nothing.
 */
import type { SourceRef } from '../../physics/parameter.ts';
import type { Food } from '../foods/food.ts';
import { needsNoFire, potFoods, type Refusal, standsCold } from './dish.ts';
import type { Kit } from './kit.ts';

/**
 * How far such a dish is heated, C: as hot as food of the day before is made (165 F is 74 C), or further where a small pot
 * or a cold day would leave it too cool when it is eaten.
 */
export const HEATED_TO_C = [75, 85] as const;
export type HeatedToC = (typeof HEATED_TO_C)[number];
export const HEATED_TO_SOURCE: SourceRef = { key: 'ndsu-cooling-food', place: 'reheated to 165 F (74 C)' };

/**
 * How far a dish may be heated instead of boiled. Without a thermometer the sign is the first bubbles at the rim, which
 * come late enough to be sure: who judges 75 C by steam and tongue takes the pot off too soon.
 * @param boilsItsWater whether some of the water is made safe in the pot
 */
export function heatsFor(kit: Kit, boilsItsWater: boolean, thermometer: boolean): readonly HeatedToC[] {
  if (whyItMustBoil(kit, boilsItsWater) !== null) return [];
  return thermometer ? HEATED_TO_C : HEATED_TO_C.slice(-1);
}

/** Shortest rest of a pot that comes off the fire without a boil, min: stirred, it is as hot in the middle. Common practice. */
export const LEAST_REST_MINUTES = 3;

/**
 * Pace at which the dish softens while it stands, C: on its way from the fire to 60, below which no way is taken, the pot
 * is warmer than this on average.
 */
export const REST_PACE_C = 66;

/** To which water the rows on standing belong, C: a can in the kitchen, boiling water poured over (which cools), the boil. */
export const COLD_ROW_C = 15;
export const POURED_ROW_C = 90;
export const BOIL_ROW_C = 100;
export const ROWS_SOURCE: SourceRef = {
  key: 'kitchenPractice',
  place: 'worked out here: the logarithm of the minutes falls evenly from cold water to hot',
};

/** Minutes in cold and in hot water until one food is fit to eat. */
export interface StandingRows {
  coldMinutes: number;
  hotMinutes: number;
  hotC: number;
  coldSource: SourceRef;
  hotSource: SourceRef;
}

/**
 * The rows of one food: what can be eaten dry is waited for its typical time (chewy is no harm), all else for its long
 * one.
 * @returns null for what waits for nothing: seasonings, and what is eaten as it is
 */
export function standingRows(food: Food): StandingRows | null {
  const cold = standsCold(food);
  if (cold === null || cold.value <= 0) return null;
  const { kinetics } = food;
  const dry = kinetics.kind === 'ready' && kinetics.eatDry;
  const hot = kinetics.kind === 'ready' ? kinetics.standMinutesHot : kinetics.softeningMinutes;
  const coldMinutes = dry ? cold.value : cold.p90;
  return {
    coldMinutes,
    hotMinutes: Math.min(coldMinutes, dry ? hot.value : hot.p90),
    hotC: kinetics.kind === 'ready' ? POURED_ROW_C : BOIL_ROW_C,
    coldSource: cold.source,
    hotSource: hot.source,
  };
}

/**
 * Minutes until a food is fit to eat in water of one temperature, between its cold and its hot row:
 * `cold * (hot / cold)^((T - 15) / (T_hot - 15))`.
 * @param atC temperature of the water, C
 */
export function minutesInWater({ coldMinutes, hotMinutes, hotC }: StandingRows, atC: number): number {
  return coldMinutes * (hotMinutes / coldMinutes) ** ((atC - COLD_ROW_C) / (hotC - COLD_ROW_C));
}

/**
 * Share of its softening that a food gets while its water warms at an even pace: the minutes times the mean of `1 / t(T)`
 * on the way, which for an exponential is the difference of its ends over the difference of their logarithms.
 * @param fromC start, C; ice softens nothing, so that it counts as 0 C
 * @param minutes minutes from start to end, >= 0
 */
export function shareWhileWarming(rows: StandingRows, fromC: number, toC: number, minutes: number): number {
  const first = 1 / minutesInWater(rows, Math.max(0, fromC));
  const last = 1 / minutesInWater(rows, toC);
  const mean = Math.abs(last - first) < 1e-12 ? first : (last - first) / Math.log(last / first);
  return minutes * mean;
}

/**
 * Whole minutes that the dish stands under its lid after it has been heated, until everything in it is fit to eat: what is
 * left of the softening, at the pace of `REST_PACE_C`.
 * @param fromC water and goods when the pot goes on, C
 * @param toC how far it is heated, C
 * @param minutesToHeat typical minutes until then
 */
export function restAfterHeating(kit: Kit, fromC: number, toC: number, minutesToHeat: number): number {
  const minutes = potFoods(kit).flatMap(({ food }) => {
    const rows = standingRows(food);
    if (rows === null) return [];
    const left = Math.max(0, 1 - shareWhileWarming(rows, fromC, toC, minutesToHeat));
    return [left * minutesInWater(rows, REST_PACE_C)];
  });
  return Math.ceil(Math.max(LEAST_REST_MINUTES, ...minutes));
}

/**
 * Why a dish may not go without a boil, or null: all of it must be fit to eat from cold water, and the water safe.
 * @param boilsItsWater whether some of the water is made safe in the pot
 */
export function whyItMustBoil(kit: Kit, boilsItsWater: boolean): Refusal | null {
  if (!needsNoFire(kit)) return { reason: 'Something in it must be boiled', wayOut: 'Bring it to the boil' };
  return boilsItsWater ? { reason: 'Its water must boil to be safe', wayOut: 'Bring it to the boil' } : null;
}
