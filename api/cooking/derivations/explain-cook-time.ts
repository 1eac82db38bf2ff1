/** The steps behind the answers on cooking time. */
import type { Parameter, SourceRef } from '../../physics/parameter.ts';
import {
  answerCookTime,
  cookedFoodOf,
  potTemperature,
  type ResolvedCookTime,
  resolveCookTime,
} from '../calculators/answer-cook-time.ts';
import { soakKineticsOf } from '../calculators/answer-soaking.ts';
import type {
  CookingAdditive,
  CookTimeQuestion,
  ExplanationStep,
  LectinVerdict,
  SoakAdditive,
} from '../calculators/calculator-types.ts';
import type { CookingKinetics } from '../foods/food.ts';
import { hardeningRatePerYear, STORAGE_FACTOR_CAP, type Storage, storageFactor } from '../keeping/storage-age.ts';
import { LECTIN_PARAMETERS, lectinMinutesAt, WINTER_LOW_FACTOR } from '../kinetics/lectin-rule.ts';
import {
  cookingAdditiveFactor,
  HYDRATION_Z_K,
  soakAdditiveFactor,
  timeFactor,
} from '../kinetics/softening-kinetics.ts';
import { addBoilingPointAt, SATURATION } from './explain-boiling-point.ts';
import { addHistory, addHydrationShare } from './explain-soaking.ts';
import { ARITHMETIC, type StepList, stepList } from './explanation-steps.ts';

type Boil = Extract<CookingKinetics, { kind: 'boil' }>;

const LOT_TESTS: SourceRef = { key: 'kitchenPractice', place: 'own tests of the lot' };
const SURE_SHARE: SourceRef = { key: 'planner-derivation', place: 'without a soak nothing has been taken up' };

/**
 * The steps behind `answerCookTime`; the minutes come last.
 * @throws as `answerCookTime`
 */
export function explainCookTime(q: CookTimeQuestion): ExplanationStep[] {
  const food = cookedFoodOf(q);
  const list = stepList();
  addPotTemperature(list, q);
  if (food.kinetics.kind === 'ready') {
    list.row('standMinutesHot', food.kinetics.standMinutesHot, 'table row, in hot water');
    list.fact('minutes', 0, 'min', 'needs no boil', food.kinetics.standMinutesHot.source);
    return list.steps;
  }
  const resolved = resolveCookTime(q, food, food.kinetics);
  const answer = answerCookTime(q);
  addShare(list, q, resolved);
  addSoftening(list, q, resolved);
  if (food.lectin === 'kidney-family') addLectin(list, q, resolved, answer.lectin);
  addExtrapolation(list, resolved, answer.extrapolated);
  const relation = resolved.kinetics.hydrationMinutes === null ? 'softeningAtPot' : 'softeningAtPot + hydrationAtPot';
  list.computed('minutes', answer.minutes.p50, 'min', relation, ARITHMETIC, answer.extrapolated);
  return list.steps;
}

/** Temperature of the pot, `temperatureC`: as given, or where water boils at the place and gauge pressure. */
function addPotTemperature(list: StepList, q: CookTimeQuestion): void {
  const { temperatureC } = potTemperature(q);
  if (q.elevationM === undefined) {
    list.fact('temperatureC', temperatureC, 'C');
    return;
  }
  addBoilingPointAt(list, q.elevationM);
  const gaugeKPa = q.gaugeKPa ?? 0;
  if (gaugeKPa === 0) {
    list.computed('temperatureC', temperatureC, 'C', 'boilingPointC');
    return;
  }
  list.fact('gaugeKPa', gaugeKPa, 'kPa');
  list.computed('temperatureC', temperatureC, 'C', 'saturationTemperatureC(pressureKPa + gaugeKPa)', SATURATION);
}

/** `hydrationShare` of a soaked food (of grain: the share of the full saving); 0 without a soak. */
function addShare(list: StepList, q: CookTimeQuestion, { food, history, share, kinetics }: ResolvedCookTime): void {
  const soak = history === null ? null : soakKineticsOf(food);
  const saves = kinetics.hydrationMinutes !== null || food.soakSavesShare !== null;
  if (history === null || soak === null || !saves) {
    const words = q.soak === undefined ? 'not soaked' : 'a soak saves nothing here';
    list.fact('hydrationShare', share, '1', words, SURE_SHARE);
    return;
  }
  addHistory(list, history);
  if (kinetics.hydrationMinutes !== null || food.soakable) {
    addHydrationShare(list, soak, history);
    return;
  }
  list.computed(
    'hydrationShare',
    share,
    '1',
    'min(1, (soakHours <= 1 ? 0.04 * soakHours : 0.04 + 0.03 * (soakHours - 1)) / 0.25)',
    { key: 'planner-derivation', place: 'milled rice: 4 % after 1 h, 24 to 30 % after 8 h' },
    true,
  );
}

/** Minutes at the temperature of the pot until soft, `softeningAtPot`, and until missing water is in, `hydrationAtPot`. */
function addSoftening(list: StepList, q: CookTimeQuestion, r: ResolvedCookTime): void {
  const { kinetics, food, share } = r;
  const { temperatureC } = r.pot;
  const factors: string[] = [];
  let factor = 1;
  const lot = q.measuredLot?.p50;
  if (lot !== undefined) {
    list.fact('measuredLot', lot, '1', 'tests of this lot against the table', LOT_TESTS);
    factors.push('measuredLot');
  }
  if (kinetics.hydrationMinutes !== null) {
    if (q.storage !== undefined) addStorageFactor(list, q.storage);
    else list.row('storageFactor', r.storage, 'no storage asked');
    addAdditiveFactor(list, r.additive.value, {
      soak: q.soak?.additive ?? 'none',
      cooking: q.cookingAdditive ?? 'none',
      soakWaterKept: q.soak !== undefined && !q.soak.discardWater,
    });
    factors.push('storageFactor', 'additiveFactor');
    factor = r.storage.value * r.additive.value;
  } else if (food.soakSavesShare !== null) {
    list.row('soakSavesShare', food.soakSavesShare, 'share of the minutes that a full soak saves');
    factors.push('(1 - soakSavesShare * hydrationShare)');
    factor = 1 - food.soakSavesShare.value * share;
  }
  list.row('softeningMinutes', kinetics.softeningMinutes, 'table row, at 100 C');
  const { z, words } = zOf(kinetics, temperatureC);
  list.row('softeningZK', z, words);
  const atPot = kinetics.softeningMinutes.value * factor * (lot ?? 1) * timeFactor(temperatureC, z.value);
  const product = ['softeningMinutes', ...factors].join(' * ');
  list.computed('softeningAtPot', atPot, 'min', `${product} * 10 ^ ((100 - temperatureC) / softeningZK)`, z.source);
  if (kinetics.hydrationMinutes === null) return;
  list.row('hydrationMinutes', kinetics.hydrationMinutes, 'table row, at 100 C, unsoaked');
  list.row('hydrationZK', HYDRATION_Z_K);
  const water = kinetics.hydrationMinutes.value * (lot ?? 1) * timeFactor(temperatureC, HYDRATION_Z_K.value);
  list.computed(
    'hydrationAtPot',
    (1 - share) * water,
    'min',
    `(1 - hydrationShare) * hydrationMinutes${lot === undefined ? '' : ' * measuredLot'} * 10 ^ ((100 - temperatureC) / hydrationZK)`,
    HYDRATION_Z_K.source,
  );
}

/** The temperature step for a tenfold rate that holds at a temperature. */
export function zOf(kinetics: Boil, temperatureC: number): { z: Parameter; words: string } {
  return temperatureC <= 100
    ? { z: kinetics.zBelowC, words: 'table row, up to 100 C' }
    : { z: kinetics.zAboveC, words: 'table row, above 100 C' };
}

/** `storageFactor` of a pulse that was stored. */
export function addStorageFactor(list: StepList, storage: Storage): void {
  const factor = storageFactor(storage);
  list.fact('storageYears', storage.years, 'a');
  list.fact('storageC', storage.temperatureC, 'C');
  list.fact('storageMoisturePercent', storage.moisturePercent, '%');
  list.computed(
    'hardeningPerYear',
    hardeningRatePerYear(storage.temperatureC, storage.moisturePercent),
    '1/a',
    '0.637 * 3 ^ ((storageC - 4.4) / 10) * 2 ^ (storageMoisturePercent - 17)',
    factor.source,
    factor.estimate,
  );
  const relation = `min(${STORAGE_FACTOR_CAP}, exp(hardeningPerYear * storageYears))`;
  list.computed('storageFactor', factor.value, '1', relation, factor.source, factor.estimate);
}

/**
 * `additiveFactor` of what is in the soak and cooking water of a pulse; `hydrationShare` must be listed.
 * @param value as `additiveFactor` gives it
 */
export function addAdditiveFactor(
  list: StepList,
  value: number,
  water: { soak: SoakAdditive; cooking: CookingAdditive; soakWaterKept: boolean },
): void {
  const { soak, cooking, soakWaterKept } = water;
  // Bicarbonate of a soak whose water is kept counts as bicarbonate of the pot, once.
  const carried = soak === 'bicarbonate' && soakWaterKept && cooking !== 'acid';
  const inPot = carried ? 'bicarbonate' : cooking;
  const inSoak = soak === 'bicarbonate' && inPot === 'bicarbonate' ? 'none' : soak;
  const factors: string[] = [];
  if (inPot !== 'none') {
    list.row('potAdditiveUnsoaked', cookingAdditiveFactor(inPot, 0), `${inPot} in the pot, unsoaked`);
    list.row('potAdditiveSoaked', cookingAdditiveFactor(inPot, 1), `${inPot} in the pot, fully soaked`);
    factors.push('(potAdditiveUnsoaked + hydrationShare * (potAdditiveSoaked - potAdditiveUnsoaked))');
  }
  if (inSoak !== 'none') {
    list.row('soakAdditiveFull', soakAdditiveFactor(inSoak, 1), `${inSoak} in a full soak`);
    factors.push('(1 + hydrationShare * (soakAdditiveFull - 1))');
  }
  const { source } = cookingAdditiveFactor(inPot, 0);
  if (factors.length === 0) list.fact('additiveFactor', value, '1', 'nothing in the water', source);
  else list.computed('additiveFactor', value, '1', factors.join(' * '), source);
}

/** Whether the temperature lies outside those at which the food was measured. */
function addExtrapolation(list: StepList, { kinetics }: ResolvedCookTime, extrapolated: boolean): void {
  const { source } = kinetics.softeningMinutes;
  list.fact('measuredFromC', kinetics.measuredFromC, 'C', 'coldest that was measured', source);
  list.fact('measuredToC', kinetics.measuredToC, 'C', 'hottest that was measured', source);
  const relation = 'min(temperatureC - measuredFromC, measuredToC - temperatureC) < 0';
  list.computed('extrapolated', extrapolated, '', relation);
}

/** The rule for kidney-family beans: the verdict in words, and the minutes that it asks, `boilMinutesNeeded`. */
function addLectin(
  list: StepList,
  q: CookTimeQuestion,
  { pot, share }: ResolvedCookTime,
  lectin: { verdict: LectinVerdict; boilMinutesNeeded: number; reason: string },
): void {
  const rule = LECTIN_PARAMETERS;
  list.row('lectinCountsFromC', rule.countsFromC, 'a cooler boil does not count');
  const counts = pot.temperatureC >= rule.countsFromC.value;
  const judge = () => list.fact('lectinVerdict', lectin.verdict, '', lectin.reason, rule.soakHours.source);
  if (!counts || lectin.boilMinutesNeeded === 0) {
    judge();
    list.fact('boilMinutesNeeded', lectin.boilMinutesNeeded, 'min', 'no boil here is enough', rule.countsFromC.source);
    return;
  }
  list.row('lectinMinutesAt100C', rule.minutesAt100C, 'boil at 100 C that the rule asks');
  const below = pot.temperatureC <= 100;
  list.row('lectinZK', below ? rule.zBelow100C : rule.zAbove100C, below ? 'up to 100 C' : 'above 100 C');
  const byElevation = !pot.underPressure && pot.standardBoilingPointC !== null;
  if (byElevation) list.row('winterLowFactor', rule.winterLowFactor, 'open pot judged by its elevation');
  const boil = lectinMinutesAt(pot.temperatureC) * (byElevation ? WINTER_LOW_FACTOR : 1);
  const lowered = byElevation ? ' * winterLowFactor' : '';
  const relation = `lectinMinutesAt100C * 10 ^ ((100 - temperatureC) / lectinZK)${lowered}`;
  list.computed('lectinBoil', boil, 'min', relation, rule.zAbove100C.source);
  list.row('lectinSoakHours', rule.soakHours, 'soak that the rule asks');
  list.row('lectinSoakShare', rule.soakShare, 'of a full soak, that the rule asks');
  const enough = q.soak !== undefined && q.soak.hours >= rule.soakHours.value && share >= rule.soakShare.value;
  if (q.soak !== undefined) {
    const needs = 'min(soakHours - lectinSoakHours, hydrationShare - lectinSoakShare) >= 0';
    list.computed('soakCounts', enough, '', needs, rule.soakHours.source);
  }
  judge();
  const water = q.measuredLot === undefined ? 'hydrationAtPot' : 'hydrationAtPot / measuredLot * max(1, measuredLot)';
  const soft = `(softeningAtPot + hydrationAtPot)${q.measuredLot === undefined ? '' : ' / min(1, measuredLot)'}`;
  const untilSoft = !(enough && q.soak?.discardWater === true) && q.firstWater === 'poured-away';
  list.computed(
    'boilMinutesNeeded',
    lectin.boilMinutesNeeded,
    'min',
    untilSoft ? `max(${water} + lectinBoil, ${soft})` : `${water} + lectinBoil`,
    rule.minutesAt100C.source,
    true,
  );
}
