/** Steps of the derivation of fuel: kept at the end temperature, and what leaves as vapour. */
import type { SourceRef } from '../../physics/parameter.ts';
import { LEAK_BELOW_THE_BOIL, LEAK_SHARE } from '../../physics/pot-heat-loss.ts';
import { latentHeatKJPerKg } from '../../physics/water-properties.ts';
import type { ResolvedFuelUse } from '../calculators/answer-fuel-use.ts';
import type { FuelUseQuestion } from '../calculators/calculator-types.ts';
import {
  efficiencyRelation,
  GAUSS,
  HEAT_BALANCE,
  LOAD_FIT,
  POWER_TIMES_TIME,
  type PotOnFlame,
} from './explain-flame.ts';
import { addLossParts } from './explain-vessel.ts';
import type { StepList } from './explanation-steps.ts';

const source = (key: SourceRef['key'], place: string): SourceRef => ({ key, place });
const STEAM = source('iapws95', 'latent heat');
const LIDS = source('lidHomeTest', 'evaporation open over lidded 4');

/** Losses and flame at the end temperature: `holdDryKW`, `holdLeakKW`, `holdFlameKW`, `holdHeatKW`, `holdMJ`. */
export function addHold(list: StepList, q: FuelUseQuestion, r: ResolvedFuelUse, pot: PotOnFlame | null): void {
  const { task, typical, parameters } = r;
  list.fact('holdMinutes', task.holdMinutes, 'min');
  list.computed('latentKJPerKg', latentHeatKJPerKg(task.endC), 'kJ/kg', 'latentHeatKJPerKg(endC)', STEAM);
  if (task.holdMinutes <= 0) {
    list.fact('holdMJ', 0, 'MJ', 'not held');
    return;
  }
  addHoldLosses(list, q, r, pot);
  const full = 'stovePower';
  const floor = task.throttle ? 'min(lowestFlame, stovePower)' : full;
  const floorKW = task.throttle
    ? Math.min(parameters['lowest flame'].value, parameters['stove power'].value)
    : parameters['stove power'].value;
  const steady = source('kitchenPractice', task.throttle ? 'the lowest steady flame' : 'it cannot be turned down');
  list.computed('leastFlameKW', floorKW, 'kW', floor, steady);
  const load = task.diameterM === null ? 'referenceLoadKWPerM' : '(leastFlameKW / diameterM)';
  const relation = efficiencyRelation(r, load);
  list.computed('efficiencyHold', typical.efficiencyHold, '1', relation, LOAD_FIT, task.halfLoadKWPerM !== null);
  const needed = 'holdLossKW * wind / efficiencyHold';
  list.computed(
    'holdFlameKW',
    typical.holdFlameKW,
    'kW',
    task.boils ? `max(${needed}, leastFlameKW)` : needed,
    source(
      'kitchenPractice',
      task.boils ? 'never less than the lowest flame' : 'lifted off so that only the loss is burnt',
    ),
  );
  const heatKW = (typical.efficiencyHold * typical.holdFlameKW) / parameters.wind.value;
  list.computed('holdHeatKW', heatKW, 'kW', 'efficiencyHold * holdFlameKW / wind', HEAT_BALANCE);
  list.computed('holdMJ', typical.holdMJ, 'MJ', 'holdFlameKW * holdMinutes * 60 / 1000 * cook', POWER_TIMES_TIME);
}

function addHoldLosses(list: StepList, q: FuelUseQuestion, r: ResolvedFuelUse, pot: PotOnFlame | null): void {
  const { task, typical, parameters } = r;
  if (pot === null) {
    list.fact('holdDryKW', 0, 'kW', 'no vessel: nothing is lost');
    list.fact('holdLeakKW', 0, 'kW', 'no vessel: nothing is lost');
    list.computed('holdLossKW', typical.holdLossKW, 'kW', 'holdDryKW + holdLeakKW');
    return;
  }
  const covered = task.lidHold !== 'none';
  const { shape, fillShare } = pot;
  addLossParts(list, shape, { at: 'endC', atC: task.endC, airC: q.airC, fillShare, covered });
  const dryKW =
    (task.holdDryConvectionKW + parameters['pot surface'].value * task.holdDryBlackRadiationKW) *
    parameters['pot loss'].value;
  list.computed(
    'holdDryKW',
    dryKW,
    'kW',
    covered
      ? '(wallConvectionW + lidConvectionW + potSurface * (wallRadiationW + lidRadiationW)) * potLoss / 1000'
      : '(wallConvectionW + openSurfaceW + potSurface * wallRadiationW) * potLoss / 1000',
    HEAT_BALANCE,
  );
  if (task.pressureCooker) {
    const leakKW = (parameters['valve steam'].value / 60000) * latentHeatKJPerKg(task.endC);
    list.computed('holdLeakKW', leakKW, 'kW', 'valveSteam / 60000 * latentKJPerKg', parameters['valve steam'].source);
  } else {
    const leakShare = covered ? Math.min(1, parameters.lid.value * task.holdLeakFactor) : 1;
    const evaporation = 'openEvaporationW / 1000 * potLoss';
    const leakKW = leakShare * task.holdOpenEvaporationKW * parameters['pot loss'].value;
    if (covered && task.holdLeakFactor !== 1) {
      const words = `leak of a ${task.lidHold} lid over that of a ${task.lidHeatUp} one`;
      list.fact('holdLeakFactor', LEAK_SHARE[task.lidHold].value / LEAK_SHARE[task.lidHeatUp].value, '1', words, LIDS);
    }
    const passes = task.holdLeakFactor === 1 ? 'lid' : 'min(1, lid * holdLeakFactor)';
    list.computed('holdLeakKW', leakKW, 'kW', covered ? `${passes} * ${evaporation}` : evaporation, HEAT_BALANCE);
  }
  list.computed('holdLossKW', typical.holdLossKW, 'kW', 'holdDryKW + holdLeakKW', HEAT_BALANCE);
}

/** What leaves as vapour, `boiledOffL`, and `heatToPotMJ`. */
export function addSteam(list: StepList, q: FuelUseQuestion, r: ResolvedFuelUse, pot: PotOnFlame | null): void {
  const { task, typical, parameters } = r;
  const held = task.holdMinutes > 0;
  const covered = task.lidHeatUp !== 'none';
  const terms: string[] = [];
  if (typical.heatUpLossMeanKW > 0) {
    const passes = covered ? LEAK_BELOW_THE_BOIL * parameters.lid.value : parameters['open pot'].value;
    list.computed(
      'vapourShare',
      Math.min(1, (passes * gaussMean(task.heatUpEvaporationKW)) / typical.heatUpLossMeanKW),
      '1',
      `min(1, ${covered ? `${LEAK_BELOW_THE_BOIL} * lid` : 'openPot'} * ` +
        '(5 * wayUp1EvaporationKW + 8 * wayUp2EvaporationKW + 5 * wayUp3EvaporationKW) / 18 / heatUpLossMeanKW)',
      GAUSS,
    );
    terms.push('vapourShare * heatUpLossKJ');
  }
  if (held) {
    const steam = task.boils ? 'max(holdLeakKW, holdHeatKW - holdDryKW)' : 'holdLeakKW';
    terms.push(`${steam} * holdMinutes * 60`);
  }
  const steamL = terms.length === 0 ? '0 * waterL' : `(${terms.join(' + ')}) / latentKJPerKg`;
  if (task.flashShare > 0) {
    addFlash(list, q, r, pot);
  }
  const boiledOff = Math.min(Math.max(typical.boiledOffL, 0), task.waterKg);
  const relation =
    task.flashShare > 0 ? `min(${steamL}, waterL) + flashShare * max(waterL - ${steamL}, 0)` : `min(${steamL}, waterL)`;
  list.computed('boiledOffL', boiledOff, 'L', relation, STEAM);
  const heat = held
    ? '(sensibleKJ + heatUpLossKJ + holdHeatKW * holdMinutes * 60) / 1000'
    : '(sensibleKJ + heatUpLossKJ) / 1000';
  list.computed('heatToPotMJ', typical.heatToPotMJ, 'MJ', heat, HEAT_BALANCE);
}

/** Share that flashes off at the release, `flashShare`: what the wall does not lose in its minutes. */
function addFlash(list: StepList, q: FuelUseQuestion, r: ResolvedFuelUse, pot: PotOnFlame | null): void {
  const whole = '4.23 * (endC - boilingPointC) / latentHeatKJPerKg((endC + boilingPointC) / 2)';
  const minutes = q.releaseMinutes ?? 0;
  if (minutes === 0) {
    list.computed('flashShare', r.task.flashShare, '1', whole, STEAM);
    return;
  }
  list.fact('releaseMinutes', minutes, 'min');
  if (r.task.holdMinutes <= 0) addHoldLosses(list, q, r, pot);
  const left = 'max(0, 1 - holdDryKW * releaseMinutes * 60 / (4.23 * waterL * (endC - boilingPointC)))';
  list.computed('flashShare', r.task.flashShare, '1', `${whole} * ${left}`, STEAM, true);
}

function gaussMean([a, b, c]: readonly [number, number, number]): number {
  return (5 * a + 8 * b + 5 * c) / 18;
}
