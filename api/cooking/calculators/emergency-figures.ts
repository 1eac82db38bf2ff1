/**
 * What an emergency sheet needs without any plan: minutes, soaks, water and boil-before-box of the common dry foods at a
 * place whose elevation is all that is known. Everything unknown is taken on the careful side.
 */
import { boilingPointAtElevationC } from '../../physics/boiling-point.ts';
import { LITRES_PER_CUP } from '../../physics/units.ts';
import type { Food } from '../foods/food.ts';
import { findFood } from '../foods/foods-table.ts';
import { soakLimitHours } from '../keeping/soak-limits.ts';
import {
  boilBeforeBox,
  HOT_HOLDING_C,
  RULE_OF_THUMB_BOIL_MINUTES,
  wholePotBoilMinutes,
} from '../kinetics/box-cooking.ts';
import { hoursToShare, hydrationShare, soakNumbers } from '../kinetics/hydration-kinetics.ts';
import { minSoakHoursForLectin } from '../kinetics/lectin-rule.ts';
import { cookingWater, soakWater } from '../kinetics/yield.ts';
import { answerCookTime } from './answer-cook-time.ts';
import { soakKineticsOf } from './answer-soaking.ts';

/** Water of a soak in a cool room, C. */
export const COOL_SOAK_C = 15;
/** A soak is worth its name when it has taken up this share of a full one. */
const SOAK_WORTH_SHARE = 0.9;
/** The room in which a box stands when there is no heating, C. */
const BOX_ROOM_C = 10;
/** A thick box of blankets or foam around a full pot: falls to half of its heat in 7 h (common practice). */
const BOX_TIME_CONSTANT_H = 10;
export const BOX_HOURS = 4;
/** What a pressure cooker holds on a low flame, gauge, kPa: the lower of the common valves of 90 to 105 (common practice). */
export const PRESSURE_KPA = 90;
/** Between the boil and the closed lid of the box, K (common practice). */
const LOST_ON_THE_WAY_K = 5;

/** Rows of the sheet: one or several foods that share a line; of several the slowest counts. */
const ROWS: readonly { name: string; foodIds: readonly string[]; large?: boolean; soaked: boolean }[] = [
  {
    name: 'Common beans',
    foodIds: ['kidney-bean', 'black-bean', 'pinto-bean', 'navy-bean', 'great-northern-bean', 'small-red-bean'],
    large: true,
    soaked: true,
  },
  { name: 'Chickpeas', foodIds: ['chickpea'], large: true, soaked: true },
  { name: 'Black-eyed peas', foodIds: ['black-eyed-pea'], large: true, soaked: true },
  { name: 'Whole peas', foodIds: ['whole-pea'], large: true, soaked: true },
  { name: 'Split peas', foodIds: ['split-pea'], soaked: true },
  { name: 'Brown lentils', foodIds: ['lentil-brown'], soaked: true },
  { name: 'Red lentils', foodIds: ['lentil-red'], soaked: false },
  { name: 'White rice', foodIds: ['white-rice'], soaked: false },
  { name: 'Brown rice', foodIds: ['brown-rice'], soaked: true },
  { name: 'Pearl barley', foodIds: ['pearl-barley'], soaked: true },
  { name: 'Bulgur', foodIds: ['bulgur'], soaked: false },
  { name: 'Rolled oats', foodIds: ['rolled-oats'], soaked: false },
  { name: 'Cornmeal', foodIds: ['cornmeal'], soaked: false },
  { name: 'Pasta', foodIds: ['pasta'], soaked: false },
];

/** Minutes at the boil, typical and of slow lots; null where an open pot is refused. */
export type BoilMinutes = { typical: number; high: number } | null;

export interface EmergencyFood {
  name: string;
  kidneyFamily: boolean;
  /** Hours in cool water that are worth it, and after which it is thrown away, h; null: not soaked. */
  soakHours: { least: number; most: number } | null;
  /** One entry for each elevation. */
  at: {
    /** Null where it is not soaked, and where an open pot is refused. */
    soaked: BoilMinutes;
    unsoaked: BoilMinutes;
    /** Minutes at the boil before a box of 4 h, of slow lots, soaked where a soak is worth it; null: no box. */
    beforeBox: number | null;
    /** Under pressure, soaked where a soak is worth it; null for all but large pulses, which gain most. */
    pressure: BoilMinutes;
  }[];
  /** Water in the pot, L per kg of dry food, unsoaked. */
  potWaterLPerKg: number;
  /** Water in the pot, cups per cup of dry food, unsoaked. */
  potWaterCupsPerCup: number;
}

export interface EmergencyFigures {
  elevations: { elevationM: number; boilingPointC: number; lectinMinutes: number | null }[];
  foods: EmergencyFood[];
  /** Cups of soak water to a cup of dry pulses, the most of any row. */
  soakCupsPerCup: number;
}

/**
 * The figures of the sheet.
 * @param elevationsM m, each -430 to 6000
 * @throws OutOfRangeError outside that range
 */
export function emergencyFigures(elevationsM: readonly number[]): EmergencyFigures {
  const soakRatios: number[] = [];
  const foods = ROWS.map((row) => {
    const members = row.foodIds.flatMap((id) => findFood(id) ?? []);
    const soakHours = row.soaked ? soakHoursOf(members) : null;
    if (soakHours !== null) {
      soakRatios.push(
        ...members.map((food) => (soakWater(0, false).supplied * gramsPerCup(food)) / 1000 / LITRES_PER_CUP),
      );
    }
    const potWater = members.map((food) => {
      const style = food.group === 'pasta' ? { style: 'pasta' as const, waterSaving: true } : {};
      return cookingWater({ food, massG: 1000, ...style }).inPotL;
    });
    return {
      name: row.name,
      kidneyFamily: members.some((food) => food.lectin === 'kidney-family'),
      soakHours,
      at: elevationsM.map((elevationM) => atElevation(members, row.large === true, soakHours, elevationM)),
      potWaterLPerKg: Math.max(...potWater),
      potWaterCupsPerCup: Math.max(
        ...members.map((food, index) => ((potWater[index] as number) * gramsPerCup(food)) / 1000 / LITRES_PER_CUP),
      ),
    };
  });
  return {
    elevations: elevationsM.map((elevationM) => {
      const { lectin } = answerCookTime({
        foodId: 'kidney-bean',
        elevationM,
        soak: { hours: soakLimitHours(COOL_SOAK_C), waterC: COOL_SOAK_C, discardWater: true },
      });
      return {
        elevationM,
        boilingPointC: boilingPointAtElevationC(elevationM),
        lectinMinutes: lectin.verdict === 'safe' ? lectin.boilMinutesNeeded : null,
      };
    }),
    foods,
    soakCupsPerCup: Math.max(...soakRatios),
  };
}

/** Grams in a US cup of the dry food. */
function gramsPerCup(food: Food): number {
  return food.bulkDensityGPerL.value * LITRES_PER_CUP;
}

function soakHoursOf(foods: readonly Food[]): { least: number; most: number } {
  const most = soakLimitHours(COOL_SOAK_C);
  const least = foods.map((food) => {
    const soak = soakKineticsOf(food);
    const worth = soak === null ? most : hoursToShare(soakNumbers(soak), SOAK_WORTH_SHARE, COOL_SOAK_C);
    return food.lectin === 'kidney-family' ? Math.max(worth, minSoakHoursForLectin(COOL_SOAK_C, food)) : worth;
  });
  return { least: Math.min(most, Math.ceil(Math.max(...least))), most };
}

function atElevation(
  foods: readonly Food[],
  large: boolean,
  soakHours: { least: number } | null,
  elevationM: number,
): EmergencyFood['at'][number] {
  const soak = soakHours === null ? null : { hours: soakHours.least, waterC: COOL_SOAK_C, discardWater: true };
  return {
    soaked: soak === null ? null : slowest(foods.map((food) => boilOf(food, elevationM, soak))),
    unsoaked: slowest(foods.map((food) => boilOf(food, elevationM, null))),
    beforeBox: boxOf(foods, large, soak, elevationM),
    pressure: large ? slowest(foods.map((food) => boilOf(food, elevationM, soak, PRESSURE_KPA))) : null,
  };
}

function boilOf(
  food: Food,
  elevationM: number,
  soak: { hours: number; waterC: number; discardWater: boolean } | null,
  gaugeKPa = 0,
): BoilMinutes {
  const question = { foodId: food.id, elevationM, ...(gaugeKPa > 0 ? { gaugeKPa } : {}) };
  const { minutes, lectin } = answerCookTime(
    soak === null ? { ...question, firstWater: 'poured-away' } : { ...question, soak },
  );
  if (lectin.verdict === 'refused') return null;
  const typical = Math.max(minutes.p50, lectin.boilMinutesNeeded);
  return { typical, high: Math.max(minutes.p90, typical) };
}

function slowest(all: readonly BoilMinutes[]): BoilMinutes {
  const known = all.filter((one) => one !== null);
  if (known.length < all.length || known.length === 0) return null;
  return {
    typical: Math.max(...known.map((one) => one.typical)),
    high: Math.max(...known.map((one) => one.high)),
  };
}

function boxOf(
  foods: readonly Food[],
  large: boolean,
  soak: { hours: number; waterC: number } | null,
  elevationM: number,
): number | null {
  const temperatureC = boilingPointAtElevationC(elevationM);
  const least = Math.max(RULE_OF_THUMB_BOIL_MINUTES, wholePotBoilMinutes(large));
  let minutes = least;
  for (const food of foods) {
    const kinetics = soakKineticsOf(food);
    const answer = boilBeforeBox({
      foodId: food.id,
      temperatureC,
      hydrationShare:
        soak === null || kinetics === null ? 0 : hydrationShare(soakNumbers(kinetics), { start: 'cool', ...soak }),
      soakedAndDrained: soak !== null,
      boxStartC: temperatureC - LOST_ON_THE_WAY_K,
      airC: BOX_ROOM_C,
      timeConstantHours: BOX_TIME_CONSTANT_H,
      boxMinutes: BOX_HOURS * 60,
    });
    if (answer.verdict === 'refused' || answer.reachedC < HOT_HOLDING_C) return null;
    minutes = Math.max(minutes, answer.boilMinutes.p90, answer.lectinBoilMinutes);
  }
  return minutes;
}
