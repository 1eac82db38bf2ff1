/** `POST /api/soaking`: what a soak does, and how long it may stand. */
import { InvalidInputError, requireInRange } from '../../physics/errors.ts';
import { deviateParameter, type Parameter, valueAtDeviate } from '../../physics/parameter.ts';
import { propagateSpread, type Spreadable, spreadShares } from '../../physics/spread.ts';
import { type Food, guessWords, type SoakKinetics } from '../foods/food.ts';
import { estimate } from '../foods/food-parameters.ts';
import { foodOf, type NamedFood } from '../foods/foods-table.ts';
import { soakLimitOf, usualSoakHours, wettedFoodLimitHours } from '../keeping/soak-limits.ts';
import { HARD_SHELL_BELOW_PERCENT } from '../keeping/storage-age.ts';
import {
  hydrationShare,
  type SoakHistory,
  soakNumbers,
  soakUptake,
  uptakeAsBought,
} from '../kinetics/hydration-kinetics.ts';
import { minSoakHoursForLectin } from '../kinetics/lectin-rule.ts';
import { rehydratedShare, standMinutes } from '../kinetics/rehydration.ts';
import { soakWater } from '../kinetics/yield.ts';
import type { SoakingAnswer, SoakingQuestion, WithSpread } from './calculator-types.ts';

const ROOM_C = 18;

/** Grains without figures of their own: milled rice with a wide spread. */
const OTHER_GRAIN_SOAK: SoakKinetics = {
  k1Hours: estimate(1.35, 0.6, 3, 'h/(kg/kg)', 'rice-water-absorption', 'milled rice as stand-in'),
  referenceC: 15,
  k2: estimate(2.7, 1.2, 3.6, '1/(kg/kg)', 'rice-water-absorption', 'milled rice as stand-in'),
  activation: [{ upToC: 130, kJPerMol: estimate(20, 5, 37, 'kJ/mol', 'thakur-gupta', 'brown rice 37') }],
  lagHours: 0,
};

/** How far the water of a soak may be from what was said: half of the 80 % interval, K. */
export const SOAK_TEMPERATURE_SPREAD_K = 1.5;

const DEVIATE = deviateParameter('between the percentiles of the table rows');

/**
 * Share of the seeds that take up no water (hard shell). 0-0.42 between cultivars, above all at 9 % moisture and less;
 * for the common run of stores few.
 */
export const HARD_SEEDS: Parameter = estimate(
  0.02,
  0,
  0.1,
  'share',
  'planner-derivation',
  'hard shell 0-0.42 by cultivar',
);

/** The same in pulses so dry that their coats close: easily seen at 9 % moisture and below (Castellanos 1995, as quoted). */
export const HARD_SEEDS_DRY: Parameter = estimate(
  0.1,
  0,
  0.4,
  'share',
  'planner-derivation',
  'hard shell at 9 % moisture or less; 0.1 assumed',
);

/**
 * Seeds that take up nothing.
 * @param moisturePercent of the stored food, % of the wet mass; undefined: as sold
 */
export function hardSeedsOf(food: Food, moisturePercent: number | undefined): Parameter {
  const dry = food.group === 'pulse' && moisturePercent !== undefined && moisturePercent <= HARD_SHELL_BELOW_PERCENT;
  return dry ? HARD_SEEDS_DRY : HARD_SEEDS;
}

export function soakedFoodOf(named: NamedFood): Food {
  const food = foodOf(named);
  if (food === undefined) throw new InvalidInputError('foodId', named.foodId, 'use an id of GET /api/foods');
  return food;
}

/**
 * The history of a soak as asked.
 * @throws OutOfRangeError for hours outside 0-96, water outside -60 to 100 C (below 0 C it is ice, and nothing is taken up)
 */
export function soakHistory(q: {
  start?: 'cool' | 'hot' | undefined;
  hours: number;
  waterC: number;
  airC?: number | undefined;
}): SoakHistory {
  requireInRange('hours', q.hours, 0, 96, 'h');
  requireInRange('waterC', q.waterC, -60, 100, 'C');
  if (q.start !== 'hot') return { start: 'cool', hours: q.hours, waterC: q.waterC };
  const airC = requireInRange('airC', q.airC ?? ROOM_C, -60, 60, 'C');
  return { start: 'hot', hours: q.hours, waterC: q.waterC, airC };
}

/** The same soak a little warmer or colder; water that was said to be liquid stays liquid. */
export function atTemperature(history: SoakHistory, shiftK: number): SoakHistory {
  const coldest = history.waterC >= 0 ? 0 : Number.NEGATIVE_INFINITY;
  return { ...history, waterC: Math.min(100, Math.max(coldest, history.waterC + shiftK)) };
}

/**
 * Uptake and hydration share of a soakable food, with their spread.
 * @returns `uptakeGPerG` g per g as bought, `hydrationShare` 0 to 1
 */
export function soakSpread(
  food: Food,
  soak: SoakKinetics,
  history: SoakHistory,
  hardSeeds: Parameter = HARD_SEEDS,
): Spreadable<{ uptakeGPerG: number; hydrationShare: number }> {
  const water = food.waterGPer100G.value / 100;
  // A bean's numbers do not change between the steps of the other causes: worked out once for each deviate.
  const numbers = new Map([-1, 0, 1].map((d) => [d, soakNumbers(soak, d)]));
  return propagateSpread(
    {
      'food lot': DEVIATE,
      'limit of uptake': DEVIATE,
      'temperature dependence': DEVIATE,
      'soak temperature': { ...DEVIATE, p10: -SOAK_TEMPERATURE_SPREAD_K, p90: SOAK_TEMPERATURE_SPREAD_K, unit: 'K' },
      'hard seeds': hardSeeds,
    },
    (v) => {
      const base = numbers.get(v['temperature dependence']) ?? soakNumbers(soak, v['temperature dependence']);
      const lot = {
        ...base,
        k1Hours: valueAtDeviate(soak.k1Hours, v['food lot']),
        k2: valueAtDeviate(soak.k2, v['limit of uptake']),
      };
      const stands = atTemperature(history, v['soak temperature']);
      const soft = 1 - v['hard seeds'];
      return {
        uptakeGPerG: soft * uptakeAsBought(soakUptake(lot, stands), water),
        hydrationShare: Math.min(1, (soft * hydrationShare(lot, stands)) / (1 - HARD_SEEDS.value)),
      };
    },
  );
}

function standSpread(food: Food, history: SoakHistory) {
  const full = food.absorbedGPerG;
  return propagateSpread(
    { 'food lot': DEVIATE, 'water held': { ...full, p10: Math.max(0, full.p10), value: Math.max(0, full.value) } },
    (v) => {
      const share = rehydratedShare(history.hours * 60, standMinutes(food, history.waterC, v['food lot']));
      return { uptakeGPerG: share * v['water held'], hydrationShare: share };
    },
  );
}

/** The soak kinetics that an answer uses: the food's own, a stand-in for other grains, none for food that only stands. */
export function soakKineticsOf(food: Food): SoakKinetics | null {
  if (food.soak !== null) return food.soak;
  return food.kinetics.kind === 'boil' && (food.group === 'grain' || food.group === 'pasta') ? OTHER_GRAIN_SOAK : null;
}

/**
 * What a soak does.
 * @param q hours 0 to 96, water -60 to 100 C
 * @returns uptake in g per g as bought, hydration share 0 to 1, water in L per kg, whether it may stand so long
 * @throws InvalidInputError for an unknown food, OutOfRangeError outside the ranges
 */
export function answerSoaking(q: SoakingQuestion): SoakingAnswer & WithSpread {
  const food = soakedFoodOf(q);
  const history = soakHistory(q);
  const soak = soakKineticsOf(food);
  if (q.moisturePercent !== undefined) requireInRange('moisturePercent', q.moisturePercent, 2, 20, '%');
  const result =
    soak === null ? standSpread(food, history) : soakSpread(food, soak, history, hardSeedsOf(food, q.moisturePercent));
  const limitHours = soakLimit(food, history);
  const safe = history.hours <= limitHours;
  const uptake = result.percentiles.uptakeGPerG;
  const share = result.percentiles.hydrationShare;
  return {
    uptakeGPerG: { p10: Math.max(0, uptake.p10), p50: uptake.p50, p90: uptake.p90 },
    hydrationShare: {
      p10: Math.min(1, Math.max(0, share.p10)),
      p50: Math.min(1, share.p50),
      p90: Math.min(1, share.p90),
    },
    waterLPerKg: waterOf(food, uptake.p50, history),
    safe,
    limitHours,
    advice: [advice(food, history, safe, limitHours, share.p50), ...guessWords(food)].join(' '),
    spread: spreadShares(result.effects.uptakeGPerG),
  };
}

function waterOf(food: Food, uptakeGPerG: number, history: SoakHistory) {
  if (food.soak !== null || soakKineticsOf(food) !== null) return soakWater(uptakeGPerG, history.start === 'hot');
  // Rehydrated food keeps all the water that it is given.
  return { supplied: uptakeGPerG, absorbed: uptakeGPerG, discarded: 0 };
}

/** Whether it may stand as long as a raw pulse or grain; all else is perishable from the first drop. */
export function standsAsRawGoods(food: Food): boolean {
  const raw = food.group === 'pulse' || food.group === 'grain' || food.group === 'pasta';
  return (raw && food.kinetics.kind === 'boil') || food.seasoning || food.group === 'fat' || food.group === 'sugar';
}

function soakLimit(food: Food, history: SoakHistory): number {
  return standsAsRawGoods(food) ? soakLimitOf(history) : wettedFoodLimitHours(history.waterC);
}

function advice(food: Food, history: SoakHistory, safe: boolean, limitHours: number, share: number): string {
  const hours = Math.round(limitHours * 10) / 10;
  if (!safe)
    return `Too long at this temperature: cook within ${hours} h of wetting, or stand it cooler. Foam, a sour smell or slime: throw it away.`;
  if (history.waterC < 0) return 'Frozen: nothing is taken up until the water has melted.';
  if (food.rawAnimal) return 'Raw: cook at a full boil at once after it has taken up its water.';
  if (food.kinetics.kind === 'ready')
    return food.kinetics.standMinutesCold.value <= 0
      ? 'Nothing to soak: it goes in as it is.'
      : `Stand it about ${Math.round(standMinutes(food, history.waterC))} min and eat within ${hours} h of wetting.`;
  if (!food.soakable) return 'A soak gains little here: cook it without one.';
  if (food.lectin === 'kidney-family') {
    const needed = minSoakHoursForLectin(Math.min(60, history.waterC), food);
    if (history.start === 'cool' && needed > limitHours)
      return 'At this temperature no soak is both long enough for kidney-family beans and short enough not to spoil: stand it where it is between 4 and 25 C.';
    if (history.start === 'hot' || history.hours < needed)
      return `Pour this water away. The rule for kidney-family beans wants ${Number.isFinite(needed) ? Math.ceil(needed) : 5} h in water this warm or cold; a quick hot soak does not count.`;
    return `Pour this water away, rinse, and boil in fresh water. At most ${hours} h from wetting to the boil.`;
  }
  if (history.start === 'cool' && history.hours > usualSoakHours(history.waterC))
    return `Longer than usual here: look and smell before cooking; at most ${hours} h from wetting to the boil.`;
  if (share < 0.8) return `Only part of a full soak; it may stand ${hours} h from wetting to the boil.`;
  return `Well soaked; at most ${hours} h from wetting to the boil.`;
}
