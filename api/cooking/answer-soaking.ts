/** `POST /api/soaking`: what a soak does, and how long it may stand. */
import { InvalidInputError, requireInRange } from '../physics/errors.ts';
import { type Parameter, propagateSpread, type Spreadable } from '../physics/parameter.ts';
import type { Explained, ExplanationStep, SoakingAnswer, SoakingQuestion } from './calculator-types.ts';
import type { Food, SoakKinetics } from './food.ts';
import { estimate } from './food-parameters.ts';
import { findFood } from './foods-table.ts';
import {
  FULL_SOAK,
  hydrationShare,
  k1AtC,
  type SoakHistory,
  soakNumbers,
  soakUptake,
  uptakeAsBought,
} from './hydration-kinetics.ts';
import { minSoakHoursForLectin } from './lectin-rule.ts';
import { rehydratedShare, standMinutes } from './rehydration.ts';
import { soakLimitOf, soakLimitRow, usualSoakHours, wettedFoodLimitHours } from './soak-limits.ts';
import { soakWater } from './yield.ts';

const ROOM_C = 18;

/** Grains without figures of their own: milled rice with a wide spread. */
const OTHER_GRAIN_SOAK: SoakKinetics = {
  k1Hours: estimate(1.35, 0.6, 3, 'h/(kg/kg)', 'rice-water-absorption', 'milled rice as stand-in'),
  referenceC: 15,
  k2: estimate(2.7, 1.2, 3.6, '1/(kg/kg)', 'rice-water-absorption', 'milled rice as stand-in'),
  activation: [{ upToC: 130, kJPerMol: estimate(20, 5, 37, 'kJ/mol', 'thakur-gupta', 'brown rice 37') }],
  lagHours: 0,
};

const SOAK_TEMPERATURE_SPREAD_K = 1.5;

/** Standard deviate of a cause whose values are interpolated between percentiles. */
const DEVIATE: Parameter = {
  value: 0,
  p10: -1,
  p90: 1,
  unit: '',
  source: { key: 'planner-derivation', place: 'between the percentiles of the table rows' },
  estimate: false,
};

/**
 * Share of the seeds that take up no water (hard shell). 0-0.42 between cultivars, above all at 9 % moisture and less;
 * for the common run of stores few.
 */
const HARD_SEEDS: Parameter = estimate(0.02, 0, 0.1, 'share', 'planner-derivation', 'hard shell 0-0.42 by cultivar');

function foodOf(foodId: string): Food {
  const food = findFood(foodId);
  if (food === undefined) throw new InvalidInputError('foodId', foodId, 'use an id of GET /api/foods');
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

function atTemperature(history: SoakHistory, shiftK: number): SoakHistory {
  const waterC = Math.min(100, history.waterC + shiftK);
  return { ...history, waterC };
}

/**
 * Uptake and hydration share of a soakable food, with their spread.
 * @returns `uptakeGPerG` g per g as bought, `hydrationShare` 0 to 1
 */
export function soakSpread(
  food: Food,
  soak: SoakKinetics,
  history: SoakHistory,
): Spreadable<{ uptakeGPerG: number; hydrationShare: number }> {
  const water = food.waterGPer100G.value / 100;
  // A bean's numbers do not change between the steps of the other causes: worked out once for each deviate.
  const numbers = new Map([-1, 0, 1].map((d) => [d, soakNumbers(soak, d)]));
  const deviate = (p: Parameter, d: number) => (d > 0 ? p.p90 : d < 0 ? p.p10 : p.value);
  return propagateSpread(
    {
      'food lot': DEVIATE,
      'limit of uptake': DEVIATE,
      'temperature dependence': DEVIATE,
      'soak temperature': { ...DEVIATE, p10: -SOAK_TEMPERATURE_SPREAD_K, p90: SOAK_TEMPERATURE_SPREAD_K, unit: 'K' },
      'hard seeds': HARD_SEEDS,
    },
    (v) => {
      const base = numbers.get(v['temperature dependence']) ?? soakNumbers(soak, v['temperature dependence']);
      const lot = {
        ...base,
        k1Hours: deviate(soak.k1Hours, v['food lot']),
        k2: deviate(soak.k2, v['limit of uptake']),
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
export function answerSoaking(q: SoakingQuestion): SoakingAnswer & Explained {
  const food = foodOf(q.foodId);
  const history = soakHistory(q);
  const soak = soakKineticsOf(food);
  const result = soak === null ? standSpread(food, history) : soakSpread(food, soak, history);
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
    advice: advice(food, history, safe, limitHours, share.p50),
    spread: result.causes.uptakeGPerG,
    explanation: [],
  };
}

function waterOf(food: Food, uptakeGPerG: number, history: SoakHistory) {
  if (food.soak !== null || soakKineticsOf(food) !== null) return soakWater(uptakeGPerG, history.start === 'hot');
  // Rehydrated food keeps all the water that it is given.
  return { supplied: uptakeGPerG, absorbed: uptakeGPerG, discarded: 0 };
}

function soakLimit(food: Food, history: SoakHistory): number {
  const raw = food.group === 'pulse' || food.group === 'grain' || food.group === 'pasta';
  if (raw && food.kinetics.kind === 'boil') return soakLimitOf(history);
  if (food.seasoning || food.group === 'fat' || food.group === 'sugar') return soakLimitOf(history);
  return wettedFoodLimitHours(history.waterC);
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
    const needed = minSoakHoursForLectin(Math.min(60, history.waterC), food.id);
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

/**
 * The steps behind `answerSoaking`: re-computing the last from the listed ones gives its number.
 * @throws as `answerSoaking`
 */
export function explainSoaking(q: SoakingQuestion): ExplanationStep[] {
  const food = foodOf(q.foodId);
  const history = soakHistory(q);
  const soak = soakKineticsOf(food);
  const steps: ExplanationStep[] = [];
  const add = (
    quantity: string,
    value: number | string | boolean,
    unit: string,
    relation: string,
    inputs: string[],
    source: { key: ExplanationStep['source']['key']; place: string },
    isEstimate = false,
  ) => steps.push({ quantity, value, unit, relation, inputs, source, estimate: isEstimate });
  const derived = { key: 'planner-derivation', place: 'api/cooking' } as const;
  add('hours', history.hours, 'h', 'as asked', [], derived);
  add('waterC', history.waterC, 'C', 'as asked', [], derived);
  if (soak === null) {
    const minutes = standMinutes(food, history.waterC);
    const held = food.absorbedGPerG;
    add(
      'standMinutes',
      minutes,
      'min',
      'cold figure at 15 C to hot figure at 90 C, linear in the logarithm',
      ['waterC'],
      {
        key: food.kinetics.kind === 'ready' ? food.kinetics.standMinutesCold.source.key : held.source.key,
        place: food.kinetics.kind === 'ready' ? food.kinetics.standMinutesCold.source.place : held.source.place,
      },
    );
    add('waterHeld', Math.max(0, held.value), 'g/g', 'table row', [], held.source, held.estimate);
    const share = rehydratedShare(history.hours * 60, minutes);
    add('hydrationShare', share, '', '1 - 10^(-60 hours / standMinutes)', ['hours', 'standMinutes'], derived, true);
    add(
      'uptakeGPerG',
      share * Math.max(0, held.value),
      'g/g',
      'hydrationShare * waterHeld',
      ['hydrationShare', 'waterHeld'],
      derived,
    );
  } else {
    const numbers = soakNumbers(soak);
    const water = food.waterGPer100G;
    add('k1Reference', numbers.k1Hours, 'h/(kg/kg)', 'table row', [], soak.k1Hours.source, soak.k1Hours.estimate);
    add('referenceC', numbers.referenceC, 'C', 'table row', [], soak.k1Hours.source);
    add('k2', numbers.k2, '1/(kg/kg)', 'table row', [], soak.k2.source, soak.k2.estimate);
    for (const [index, { upToC, kJPerMol }] of soak.activation.entries())
      add(
        `Ea${index + 1}`,
        kJPerMol.value,
        'kJ/mol',
        `table row, up to ${upToC} C`,
        [],
        kJPerMol.source,
        kJPerMol.estimate,
      );
    if (history.start === 'cool')
      add(
        'k1',
        k1AtC(numbers, history.waterC),
        'h/(kg/kg)',
        'k1Reference * exp(sum of Ea/R (1/T - 1/Tref) over the ranges passed)',
        ['k1Reference', 'referenceC', 'waterC'],
        soak.k1Hours.source,
      );
    const uptake = soakUptake(numbers, history);
    add(
      'uptakeDryBasis',
      uptake,
      'kg/kg dry',
      history.start === 'cool'
        ? 'hours / (k1 + k2 hours), after any lag'
        : 'I / (1 + k2 I), I = integral dt/k1(T(t)) while the water cools with 1.8 h',
      history.start === 'cool' ? ['hours', 'k1', 'k2'] : ['hours', 'waterC', 'k2'],
      soak.k2.source,
    );
    add('hardSeeds', HARD_SEEDS.value, '', 'share of seeds that take up nothing', [], HARD_SEEDS.source, true);
    add('waterAsBought', water.value / 100, 'kg/kg', 'table row', [], water.source, water.estimate);
    add(
      'uptakeFullSoak',
      soakUptake(numbers, { start: 'cool', ...FULL_SOAK }),
      'kg/kg dry',
      'the same after 12 h at 22 C',
      ['k1Reference', 'k2'],
      derived,
    );
    add(
      'hydrationShare',
      hydrationShare(numbers, history),
      '',
      'min(1, uptakeDryBasis / uptakeFullSoak)',
      ['uptakeDryBasis', 'uptakeFullSoak'],
      derived,
    );
    add(
      'uptakeGPerG',
      (1 - HARD_SEEDS.value) * uptakeAsBought(uptake, water.value / 100),
      'g/g',
      '(1 - hardSeeds) * uptakeDryBasis * (1 - waterAsBought)',
      ['hardSeeds', 'uptakeDryBasis', 'waterAsBought'],
      derived,
    );
  }
  const limit = soakLimit(food, history);
  const row = soakLimitRow(history.waterC);
  add('limitHours', limit, 'h', 'longest stand at this temperature', ['waterC'], row.source, row.estimate);
  add('safe', history.hours <= limit, '', 'hours <= limitHours', ['hours', 'limitHours'], derived);
  return steps;
}
