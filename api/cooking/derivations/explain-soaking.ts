/** The steps behind the answers on soaking. */
import type { Parameter, SourceRef } from '../../physics/parameter.ts';
import {
  hardSeedsOf,
  soakedFoodOf,
  soakHistory,
  soakKineticsOf,
  standsAsRawGoods,
} from '../calculators/answer-soaking.ts';
import type { ExplanationStep, SoakingQuestion } from '../calculators/calculator-types.ts';
import type { Food, SoakKinetics } from '../foods/food.ts';
import { SOAK_LIMITS, SPORE_SAFE_C, soakLimitOf, soakLimitRow, wettedFoodLimitHours } from '../keeping/soak-limits.ts';
import {
  FULL_SOAK,
  HOT_SOAK_TIME_CONSTANT_H,
  hydrationShare,
  k1AtC,
  type SoakHistory,
  type SoakNumbers,
  soakIntegral,
  soakNumbers,
  soakUptake,
  uptakeAsBought,
} from '../kinetics/hydration-kinetics.ts';
import { rehydratedShare, standMinutes } from '../kinetics/rehydration.ts';
import { soakWater, WATER_PARAMETERS } from '../kinetics/yield.ts';
import { ARITHMETIC, type StepList, stepList } from './explanation-steps.ts';

const PELEG: SourceRef = { key: 'planner-derivation', place: 'Peleg in its differential form' };

/**
 * The steps behind `answerSoaking`; the uptake comes last.
 * @throws as `answerSoaking`
 */
export function explainSoaking(q: SoakingQuestion): ExplanationStep[] {
  const food = soakedFoodOf(q);
  const history = soakHistory(q);
  const soak = soakKineticsOf(food);
  const list = stepList();
  addHistory(list, history);
  addLimit(list, food, history);
  if (soak === null) addStanding(list, food, history);
  else addUptake(list, food, soak, history, hardSeedsOf(food, q.moisturePercent));
  return list.steps;
}

/** Hours, water and, for a hot start, the air that it cools towards: `soakHours`, `soakWaterC`, `soakAirC`. */
export function addHistory(list: StepList, history: SoakHistory): void {
  list.fact('soakHours', history.hours, 'h');
  list.fact('soakWaterC', history.waterC, 'C', history.start === 'hot' ? 'as asked, at the start' : 'as asked');
  if (history.start === 'cool') return;
  list.fact('soakAirC', history.airC, 'C', 'as asked, else a room of 18 C');
  list.fact('coolingHours', HOT_SOAK_TIME_CONSTANT_H, 'h', 'time constant of a covered bowl', PELEG);
}

/**
 * Uptake of this soak over that of a full one, `hydrationShare`, of a food with soak kinetics; `soakUptake` and
 * `fullSoakUptake` are kg per kg dry solids.
 */
export function addHydrationShare(list: StepList, soak: SoakKinetics, history: SoakHistory): void {
  const numbers = soakNumbers(soak);
  list.row('k1ReferenceHours', soak.k1Hours, 'table row, at referenceC');
  list.fact('referenceC', numbers.referenceC, 'C', 'table row', soak.k1Hours.source);
  list.row('k2', soak.k2);
  list.fact('lagHours', numbers.lagHours, 'h', 'table row: before a hard coat lets water in', soak.k1Hours.source);
  for (const [index, { upToC, kJPerMol }] of soak.activation.entries())
    list.row(activationName(index), kJPerMol, `table row, up to ${upToC} C`);
  addIntegral(list, soak, history);
  const afterLag = 'max(0, soakIntegral - lagHours / k1ReferenceHours)';
  list.computed('soakUptake', soakUptake(numbers, history), 'kg/kg', `${afterLag} / (1 + k2 * ${afterLag})`, PELEG);
  list.fact('fullSoakHours', FULL_SOAK.hours, 'h', 'the soak that counts as full', PELEG);
  list.fact('fullSoakC', FULL_SOAK.waterC, 'C', 'the soak that counts as full', PELEG);
  const fullK1 = k1AtC(numbers, FULL_SOAK.waterC);
  const fullK1Relation = k1Relation(numbers, { name: 'fullSoakC', atC: FULL_SOAK.waterC });
  list.computed('fullSoakK1Hours', fullK1, 'h/(kg/kg)', fullK1Relation, soak.k1Hours.source);
  const full = soakUptake(numbers, { start: 'cool', ...FULL_SOAK });
  const fullAfterLag = 'max(0, fullSoakHours / fullSoakK1Hours - lagHours / k1ReferenceHours)';
  list.computed('fullSoakUptake', full, 'kg/kg', `${fullAfterLag} / (1 + k2 * ${fullAfterLag})`, PELEG);
  const share = hydrationShare(numbers, history);
  list.computed('hydrationShare', share, '1', 'min(1, soakUptake / fullSoakUptake)', PELEG);
}

function addIntegral(list: StepList, soak: SoakKinetics, history: SoakHistory): void {
  const numbers = soakNumbers(soak);
  const integral = soakIntegral(numbers, history);
  if (history.start === 'hot') {
    const ranges = numbers.activation.map(({ upToC }, index) => `${upToC}, ${activationName(index)}`).join(', ');
    const relation = `hotSoakIntegral(soakHours, soakWaterC, soakAirC, coolingHours, k1ReferenceHours, referenceC, ${ranges})`;
    list.computed('soakIntegral', integral, 'kg/kg', relation, PELEG);
    return;
  }
  const k1 = k1AtC(numbers, history.waterC);
  const relation = k1Relation(numbers, { name: 'soakWaterC', atC: history.waterC });
  list.computed('k1Hours', k1, 'h/(kg/kg)', relation, soak.k1Hours.source);
  list.computed('soakIntegral', integral, 'kg/kg', 'soakWaterC < 0 ? 0 : soakHours / k1Hours', PELEG);
}

function activationName(index: number): string {
  return `activation${index + 1}KJPerMol`;
}

/** `k1` at a temperature: `k1ReferenceHours exp(sum of Ea/R (1/T - 1/T'))` over the ranges passed on the way there. */
function k1Relation(numbers: SoakNumbers, to: { name: string; atC: number }): string {
  const rising = to.atC > numbers.referenceC;
  const [colder, warmer] = rising
    ? [{ name: 'referenceC', atC: numbers.referenceC }, to]
    : [to, { name: 'referenceC', atC: numbers.referenceC }];
  const terms: string[] = [];
  let fromC = Number.NEGATIVE_INFINITY;
  for (const [index, { upToC }] of numbers.activation.entries()) {
    const low = colder.atC > fromC ? colder.name : String(fromC);
    const high = warmer.atC < upToC ? warmer.name : String(upToC);
    if (Math.min(warmer.atC, upToC) > Math.max(colder.atC, fromC))
      terms.push(`${activationName(index)} / 0.008314 * (1 / (${low} + 273.15) - 1 / (${high} + 273.15))`);
    fromC = upToC;
  }
  if (terms.length === 0) return 'k1ReferenceHours';
  return `k1ReferenceHours * exp(${rising ? '-' : ''}(${terms.join(' + ')}))`;
}

function addUptake(list: StepList, food: Food, soak: SoakKinetics, history: SoakHistory, hardSeeds: Parameter): void {
  addHydrationShare(list, soak, history);
  const water = food.waterGPer100G;
  list.row('hardSeedShare', hardSeeds, 'share of the seeds that take up nothing');
  list.row('waterGPer100G', water);
  const uptake = uptakeAsBought(soakUptake(soakNumbers(soak), history), water.value / 100);
  const absorbed = (1 - hardSeeds.value) * uptake;
  list.computed('absorbedLPerKg', absorbed, 'L/kg', '(1 - hardSeedShare) * soakUptake * (1 - waterGPer100G / 100)');
  const hot = history.start === 'hot';
  const { supplied, discarded } = soakWater(absorbed, hot);
  list.row('usualLPerKg', hot ? WATER_PARAMETERS.hotSoak : WATER_PARAMETERS.coolSoak);
  list.computed('suppliedLPerKg', supplied, 'L/kg', 'max(usualLPerKg, absorbedLPerKg + 0.5)');
  list.computed('discardedLPerKg', discarded, 'L/kg', 'suppliedLPerKg - absorbedLPerKg');
  list.computed('uptakeGPerG', absorbed, 'g/g', 'absorbedLPerKg');
}

/** Food without soak kinetics: it stands in water, and nine tenths are in after its minutes. */
function addStanding(list: StepList, food: Food, history: SoakHistory): void {
  const minutes = standMinutes(food, history.waterC);
  const { kinetics } = food;
  if (kinetics.kind === 'ready') {
    const { standMinutesCold, standMinutesHot } = kinetics;
    list.row('standMinutesCold', standMinutesCold, 'table row, in water of 15 C');
    list.row('standMinutesHot', standMinutesHot, 'table row, in water of 90 C');
    const stands = standMinutesCold.value > 0 && standMinutesHot.value > 0;
    list.computed(
      'standMinutes',
      minutes,
      'min',
      stands
        ? 'standMinutesCold * (standMinutesHot / standMinutesCold) ^ min(1, max(0, (soakWaterC - 15) / 75))'
        : 'max(standMinutesCold, standMinutesHot, 0)',
      standMinutesCold.source,
      stands,
    );
  } else list.fact('standMinutes', minutes, 'min', 'it is boiled, not stood', ARITHMETIC);
  const share = rehydratedShare(history.hours * 60, minutes);
  const relation = 'standMinutes > 0 ? 1 - 10 ^ (-60 * soakHours / standMinutes) : 1';
  list.computed('hydrationShare', share, '1', relation, ARITHMETIC, true);
  const held = food.absorbedGPerG;
  list.row('waterHeldGPerG', held);
  const uptake = share * Math.max(0, held.value);
  list.computed('suppliedLPerKg', uptake, 'L/kg', 'hydrationShare * max(0, waterHeldGPerG)');
  list.fact('discardedLPerKg', 0, 'L/kg', 'it keeps all the water that it is given', ARITHMETIC);
  list.computed('uptakeGPerG', uptake, 'g/g', 'suppliedLPerKg');
}

/** How long it may stand, `limitHours`, and whether it does not stand longer, `safe`. */
function addLimit(list: StepList, food: Food, history: SoakHistory): void {
  const hours = standsAsRawGoods(food) ? soakLimitOf(history) : wettedFoodLimitHours(history.waterC);
  const add = (relation: string, source: SourceRef, estimate: boolean) =>
    list.computed('limitHours', hours, 'h', relation, source, estimate);
  const row = soakLimitRow(history.waterC);
  if (!standsAsRawGoods(food)) {
    const source: SourceRef = { key: 'bacillus-food-safety', place: 'perishable from the first drop' };
    add('soakWaterC <= 5 ? 24 : soakWaterC <= 32 ? 2 : soakWaterC >= 60 ? 2 : 1', source, true);
  } else if (history.start === 'cool') add(limitRelation('soakWaterC'), row.source, row.estimate);
  else if (history.waterC < SPORE_SAFE_C) {
    const warmest = soakLimitRow(Math.max(history.waterC, history.airC));
    list.computed('warmestC', Math.max(history.waterC, history.airC), 'C', 'max(soakWaterC, soakAirC)');
    add(limitRelation('warmestC'), warmest.source, warmest.estimate);
  } else if (history.airC >= SPORE_SAFE_C) add(limitRelation('soakWaterC'), row.source, row.estimate);
  else {
    const source: SourceRef = {
      key: 'bacillus-food-safety',
      place: 'drained while at 60 C or above, or within two hours',
    };
    add('max(2, coolingHours * ln((soakWaterC - soakAirC) / (60 - soakAirC)))', source, true);
  }
  list.computed('safe', history.hours <= hours, '', 'soakHours <= limitHours');
}

/** The table of limits as one expression. */
function limitRelation(name: string): string {
  const hottest = soakLimitRow(100).stopHours;
  const rows = SOAK_LIMITS.map(({ upToC, stopHours }) => `${name} <= ${upToC} ? ${stopHours} : `).join('');
  return `${name} >= ${SPORE_SAFE_C} ? ${hottest} : ${rows}${hottest}`;
}
