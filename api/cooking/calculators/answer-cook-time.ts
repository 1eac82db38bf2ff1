/** `POST /api/cook-time`: minutes at a temperature until soft, and the verdict on the lectin of kidney-family beans. */
import { airPressureKPa } from '../../physics/atmosphere.ts';
import { boilingPointAtElevationC, boilingPointC } from '../../physics/boiling-point.ts';
import { InvalidInputError, requireInRange } from '../../physics/errors.ts';
import { deviateParameter, type Parameter, type Percentiles, valueAtDeviate } from '../../physics/parameter.ts';
import { propagateSpread, spreadShares } from '../../physics/spread.ts';
import { type CookingKinetics, type Food, guessWords } from '../foods/food.ts';
import { foodOf, type NamedFood } from '../foods/foods-table.ts';
import { soakLimitOf } from '../keeping/soak-limits.ts';
import { storageAdvice, storageFactor } from '../keeping/storage-age.ts';
import {
  FULL_SOAK,
  hydrationShare,
  type SoakHistory,
  type SoakNumbers,
  soakNumbers,
  soakUptake,
} from '../kinetics/hydration-kinetics.ts';
import { lectinVerdict, minSoakHoursForLectin } from '../kinetics/lectin-rule.ts';
import { additiveFactor, HYDRATION_Z_K, minutesToSoft, timeFactor } from '../kinetics/softening-kinetics.ts';
import { atTemperature, SOAK_TEMPERATURE_SPREAD_K, soakHistory, soakKineticsOf } from './answer-soaking.ts';
import type { CookTimeAnswer, CookTimeQuestion, WithSpread } from './calculator-types.ts';

/** Highest temperature of a household's pressure cooker for which the figures hold, C. */
const HOTTEST_C = 130;
/** Weather moves the boiling point of an open pot by about this much (10th to 90th percentile half-width), K. */
const WEATHER_K = 0.6;

type Boil = Extract<CookingKinetics, { kind: 'boil' }>;

/** A cook-time answer with what a cook must know beyond minutes; null where there is nothing. */
export interface CookTimeAnswerWithAdvice extends CookTimeAnswer {
  advice: string | null;
}

const DEVIATE = deviateParameter('between the percentiles of the table rows');

/** Temperature of the pot, and the standard boiling point where an open pot's elevation is known. */
interface PotTemperature {
  temperatureC: number;
  standardBoilingPointC: number | null;
  underPressure: boolean;
}

/**
 * Temperature of the pot: as given, or the boiling point at the elevation, or at ambient plus gauge pressure.
 * @throws InvalidInputError for neither or both of elevation and temperature
 */
export function potTemperature(q: Pick<CookTimeQuestion, 'elevationM' | 'temperatureC' | 'gaugeKPa'>): PotTemperature {
  const gauge = requireInRange('gaugeKPa', q.gaugeKPa ?? 0, 0, 150, 'kPa');
  if (q.temperatureC !== undefined) {
    if (q.elevationM !== undefined)
      throw new InvalidInputError('temperatureC', q.temperatureC, 'give the elevation or the temperature, not both');
    return {
      temperatureC: q.temperatureC,
      standardBoilingPointC: null,
      underPressure: gauge > 0 || q.temperatureC > 101.5,
    };
  }
  if (q.elevationM === undefined)
    throw new InvalidInputError('elevationM', undefined, 'give the elevation or the temperature of the pot');
  const open = boilingPointAtElevationC(q.elevationM);
  if (gauge === 0) return { temperatureC: open, standardBoilingPointC: open, underPressure: false };
  const temperatureC = boilingPointC(airPressureKPa(q.elevationM) + gauge);
  return { temperatureC, standardBoilingPointC: null, underPressure: true };
}

/** How far an extrapolation widens the minutes: a factor of 1.03 per 3 K beyond what was measured, at P90. */
export function extrapolationFactor(kinetics: Boil, temperatureC: number): number {
  const beyond = Math.max(0, kinetics.measuredFromC - temperatureC, temperatureC - kinetics.measuredToC);
  return 1.03 ** (beyond / 3);
}

/** Hydration share of grains that were soaked before, as the share of the full saving. */
function grainSaving(food: Food, history: SoakHistory, numbers: SoakNumbers): number {
  if (food.soakSavesShare === null) return 0;
  if (food.soakable) return hydrationShare(numbers, history);
  // Milled rice: 4 % after 1 h, 24-30 % after 8 h, although it is full after two.
  const saved = history.hours <= 1 ? 0.04 * history.hours : 0.04 + 0.03 * (history.hours - 1);
  return Math.min(1, saved / 0.25);
}

export interface ResolvedCookTime {
  food: Food;
  kinetics: Boil;
  pot: PotTemperature;
  history: SoakHistory | null;
  storage: Parameter;
  additive: Parameter;
  share: number;
}

const SURE_ONE: Parameter = {
  value: 1,
  p10: 1,
  p90: 1,
  unit: '',
  source: { key: 'planner-derivation', place: 'no storage or additive asked' },
  estimate: false,
};

export function cookedFoodOf(named: NamedFood): Food {
  const food = foodOf(named);
  if (food === undefined) throw new InvalidInputError('foodId', named.foodId, 'use an id of GET /api/foods');
  return food;
}

/** A question turned into temperature, soak, share and factors; the only place of this calculator that resolves them. */
export function resolveCookTime(q: CookTimeQuestion, food: Food, kinetics: Boil): ResolvedCookTime {
  const pot = potTemperature(q);
  if (q.temperatureC !== undefined) requireInRange('temperatureC', q.temperatureC, kinetics.cutOffC, HOTTEST_C, 'C');
  const history = q.soak === undefined ? null : soakHistory(q.soak);
  const soak = history === null ? null : soakKineticsOf(food);
  const pulse = kinetics.hydrationMinutes !== null;
  const share =
    history === null || soak === null
      ? 0
      : pulse
        ? hydrationShare(soakNumbers(soak), history)
        : grainSaving(food, history, soakNumbers(soak));
  return {
    food,
    kinetics,
    pot,
    history,
    // Grains do not harden in store.
    storage: pulse && q.storage !== undefined ? storageFactor(q.storage) : SURE_ONE,
    additive: pulse
      ? additiveFactor(
          q.soak?.additive ?? 'none',
          q.cookingAdditive ?? 'none',
          share,
          q.soak !== undefined && !q.soak.discardWater,
        )
      : SURE_ONE,
    share,
  };
}

/**
 * Minutes at the pot's temperature until the food is soft, with spread, and whether that is safe.
 *
 * `A C t_soft 10^((100-T)/z) + (1-f) t_hyd 10^((100-T)/80)`; grains and roots have the first term only.
 * @param q elevation -430 to 9000 m or a temperature from the food's cut-off to 130 C; gauge 0 to 150 kPa
 * @throws InvalidInputError for an unknown food, or for neither or both of elevation and temperature;
 *   OutOfRangeError outside the ranges
 */
export function answerCookTime(q: CookTimeQuestion): CookTimeAnswerWithAdvice & WithSpread {
  const food = cookedFoodOf(q);
  const { kinetics } = food;
  if (kinetics.kind === 'ready') return readyAnswer(q, food);
  const r = resolveCookTime(q, food, kinetics);
  const { pot, history, storage, additive, share } = r;
  const extrapolated = pot.temperatureC < kinetics.measuredFromC || pot.temperatureC > kinetics.measuredToC;
  const widen = extrapolationFactor(kinetics, pot.temperatureC);
  const soak = history === null ? null : soakKineticsOf(food);
  const numbers = soak === null ? null : soakNumbers(soak);
  const pulse = kinetics.hydrationMinutes !== null;
  const measuredLot = q.measuredLot === undefined ? null : lotParameter(q.measuredLot);
  const zName = extrapolated ? 'extrapolated kinetics' : 'temperature dependence';
  const result = propagateSpread(
    {
      // A lot that was tested: its own factor in the place of what lots and their ageing spread.
      'food lot': measuredLot === null ? DEVIATE : measuredLot,
      [zName]: DEVIATE,
      'water entry': kinetics.hydrationMinutes === null || share >= 1 ? SURE_ZERO : DEVIATE,
      'storage age': measuredLot === null ? storage : { ...storage, p10: storage.value, p90: storage.value },
      'additive in the water': additive,
      'air pressure': pot.standardBoilingPointC === null ? SURE_ZERO : WEATHER,
      'soak temperature': history === null ? SURE_ZERO : SOAK_TEMPERATURE,
      'soak uptake': history === null ? SURE_ZERO : DEVIATE,
    } as Record<string, Parameter>,
    (v) => {
      const lot = measuredLot === null ? (v['food lot'] as number) : 0;
      const lotFactor = measuredLot === null ? 1 : (v['food lot'] as number);
      const zDeviate = v[zName] as number;
      const temperatureC = pot.temperatureC + (v['air pressure'] as number);
      const f =
        history === null || numbers === null
          ? 0
          : shareAt(food, pulse, numbers, history, v['soak temperature'] as number, v['soak uptake'] as number);
      const saving = pulse || food.soakSavesShare === null ? 1 : 1 - food.soakSavesShare.value * f;
      const minutes = minutesToSoft({
        softeningMinutes: valueAtDeviate(kinetics.softeningMinutes, lot) * saving * lotFactor,
        hydrationMinutes:
          kinetics.hydrationMinutes === null ? 0 : valueAtDeviate(kinetics.hydrationMinutes, lot) * lotFactor,
        hydrationShare: pulse ? f : 1,
        storageFactor: v['storage age'] as number,
        additiveFactor: v['additive in the water'] as number,
        temperatureC,
        // What makes it take longer is a small z below 100 C and a large one above.
        zBelow: valueAtDeviate(kinetics.zBelowC, -zDeviate),
        zAbove: valueAtDeviate(kinetics.zAboveC, zDeviate),
        zHydration: valueAtDeviate(HYDRATION_Z_K, (temperatureC > 100 ? 1 : -1) * (v['water entry'] as number)),
      });
      return { minutes: minutes.total * widen ** zDeviate };
    },
  );
  const minutes = result.percentiles.minutes;
  // A slow lot takes its water in slowly too; a quick one shortens no rule of safety.
  const hydrationMinutes =
    kinetics.hydrationMinutes === null
      ? 0
      : (1 - share) *
        kinetics.hydrationMinutes.value *
        Math.max(1, measuredLot?.value ?? 1) *
        timeFactor(pot.temperatureC, HYDRATION_Z_K.value);
  const lectin = lectinVerdict({
    food,
    ...pot,
    soak:
      q.soak === undefined ? null : { hours: q.soak.hours, hydrationShare: share, waterDiscarded: q.soak.discardWater },
    soakHoursNeeded: coolSoakHours(q),
    firstWater: q.firstWater,
    hydrationMinutes,
    // Without a soak softness is the measure of a safe boil: the minutes of the table stay the least.
    minutesToSoft: minutes.p50 / Math.min(1, measuredLot?.value ?? 1),
  });
  return {
    temperatureC: pot.temperatureC,
    minutes,
    extrapolated,
    lectin,
    advice: cookAdvice(q, food, history),
    spread: spreadShares(result.effects.minutes),
  };
}

function lotParameter({ p10, p50, p90 }: Percentiles): Parameter {
  const source = { key: 'gelman2013', place: 'section 2.5, own tests' } as const;
  return { value: p50, p10, p90, unit: '1', source, estimate: false };
}

/** Hours until a cool soak like this one counts for the lectin rule. */
function coolSoakHours(q: CookTimeQuestion): (() => number) | undefined {
  const { soak } = q;
  if (soak === undefined || soak.start === 'hot') return undefined;
  return () => minSoakHoursForLectin(soak.waterC, foodOf(q));
}

const SURE_ZERO = deviateParameter('not asked for', 0, 0);
const WEATHER = deviateParameter('weather of the open pot, K', -WEATHER_K, WEATHER_K);
const SOAK_TEMPERATURE = deviateParameter(
  'water of the soak, K',
  -SOAK_TEMPERATURE_SPREAD_K,
  SOAK_TEMPERATURE_SPREAD_K,
);

/** Hydration (or saving) share with the soak warmer or colder and the seeds quicker or slower than typical. */
function shareAt(
  food: Food,
  pulse: boolean,
  numbers: SoakNumbers,
  history: SoakHistory,
  shiftK: number,
  uptakeDeviate: number,
): number {
  const stands = atTemperature(history, shiftK);
  if (!pulse) return grainSaving(food, stands, numbers);
  if (uptakeDeviate === 0) return hydrationShare(numbers, stands);
  const soak = soakKineticsOf(food);
  if (soak === null) return hydrationShare(numbers, stands);
  // The cooking minutes belong to the typical lot's full soak: a slower lot is held against that one.
  const uptake = soakUptake({ ...numbers, k1Hours: valueAtDeviate(soak.k1Hours, uptakeDeviate) }, stands);
  return Math.min(1, uptake / soakUptake(numbers, { start: 'cool', ...FULL_SOAK }));
}

function readyAnswer(q: CookTimeQuestion, food: Food): CookTimeAnswerWithAdvice & WithSpread {
  const { temperatureC } = potTemperature(q);
  return {
    temperatureC,
    minutes: { p10: 0, p50: 0, p90: 0 },
    extrapolated: false,
    lectin: {
      verdict: 'not-applicable',
      boilMinutesNeeded: 0,
      reason: 'Needs no boil: it is eaten as it is, or water is added and it stands',
      wayOut: null,
    },
    advice: [...food.cautions, ...guessWords(food)].join(' ') || null,
    spread: [],
  };
}

function cookAdvice(q: CookTimeQuestion, food: Food, history: SoakHistory | null): string | null {
  const lines = [...food.cautions, ...guessWords(food)];
  if (food.kinetics.kind === 'boil' && food.kinetics.hydrationMinutes !== null && q.storage !== undefined) {
    const old = storageAdvice(q.storage);
    if (old !== null) lines.push(old);
  }
  if (history !== null && history.hours > soakLimitOf(history))
    lines.push('This soak has stood too long at its temperature: throw it away.');
  return lines.length > 0 ? lines.join(' ') : null;
}
