/** Steps of the derivation of fuel: the flame, and the way up to the end temperature. */
import { coldPowerShare } from '../../physics/cold-fuel.ts';
import { moistFuelPowerShare } from '../../physics/combustion.ts';
import { GAUSS_3_NODES } from '../../physics/heating.ts';
import type { SourceRef } from '../../physics/parameter.ts';
import { LEAK_BELOW_THE_BOIL, openEvaporationW } from '../../physics/pot-heat-loss.ts';
import type { VesselShape } from '../../physics/vessel-geometry.ts';
import type { ResolvedFuelUse } from '../calculators/answer-fuel-use.ts';
import type { FuelUseQuestion } from '../calculators/calculator-types.ts';
import type { StepList } from './explanation-steps.ts';

/** A vessel whose steps are listed. */
export interface PotOnFlame {
  shape: VesselShape;
  fillShare: number;
}

const source = (key: SourceRef['key'], place: string): SourceRef => ({ key, place });
export const HEAT_BALANCE = source('measuredTasks', 'heat balance');
export const LOAD_FIT = source('gasHobStudies', 'fit to lidded pots at several flames');
export const POWER_TIMES_TIME = source('kitchenPractice', 'power times time, factor for handling');
export const GAUSS = source('planner-derivation', 'three places of Gauss on the way up, weights 5, 8 and 5');

/** Flame and its efficiency: `powerShare`, `flameKW`, `loadKWPerM`, `efficiencyHeatUp`, `intoPotKW`. */
export function addFlame(list: StepList, q: FuelUseQuestion, r: ResolvedFuelUse): void {
  const { task, typical } = r;
  addPowerShare(list, q, r);
  const table = source('gasHobStudies', 'table of stoves');
  list.fact('referenceLoadKWPerM', task.referenceLoadKWPerM, 'kW/m', 'table of stoves', table);
  if (task.halfLoadKWPerM !== null)
    list.fact('halfLoadKWPerM', task.halfLoadKWPerM, 'kW/m', 'table of stoves: twice the flame for one pot', table);
  const flame = (relation: string) =>
    list.computed(
      'flameKW',
      typical.flameKW,
      'kW',
      relation,
      source('kitchenPractice', 'a flame that does not lick up the wall'),
      relation !== 'stovePower',
    );
  if (task.lowFlame && task.throttle) flame('min(stovePower, max(lowestFlame, 0.4 * stovePower))');
  else if (task.matchedLoadKWPerM !== null && task.diameterM !== null) {
    list.fact('matchedLoadKWPerM', task.matchedLoadKWPerM, 'kW/m', 'the cook turns the flame down to the pot', table);
    list.fact('typicalPowerKW', task.typicalPowerKW, 'kW', 'flame for which that load is met', table);
    flame('min(stovePower, max(lowestFlame, matchedLoadKWPerM * diameterM * stovePower / typicalPowerKW))');
  } else flame('stovePower');
  const load = task.diameterM === null ? 'referenceLoadKWPerM' : 'flameKW / diameterM';
  list.computed('loadKWPerM', typical.loadKWPerM, 'kW/m', load, source('gasHobStudies', 'power per pot width'));
  const relation = efficiencyRelation(r, 'loadKWPerM');
  list.computed('efficiencyHeatUp', typical.efficiencyHeatUp, '1', relation, LOAD_FIT, task.halfLoadKWPerM !== null);
  const into = 'efficiencyHeatUp * flameKW / wind';
  list.computed('intoPotKW', typical.intoPotKW, 'kW', into, source('windPractice', 'wind as a factor on fuel'), true);
}

/**
 * The relation of the efficiency at a load.
 * @param load name or expression of the load, kW/m
 */
export function efficiencyRelation({ task }: ResolvedFuelUse, load: string): string {
  if (task.halfLoadKWPerM === null) return 'stoveEfficiency';
  const full = `min(${load} / halfLoadKWPerM, 2 ^ (2 / 3))`;
  return (
    'min(stoveEfficiency * (1 + (referenceLoadKWPerM / halfLoadKWPerM) ^ 1.5) / ' +
    `(1 + ${full} ^ 1.5) / max(1, ${load} / halfLoadKWPerM / 2 ^ (2 / 3)), max(0.8, stoveEfficiency))`
  );
}

/** Power at the place over power at sea level: altitude by the type of stove, cold by the kind of gas. */
function addPowerShare(list: StepList, q: FuelUseQuestion, r: ResolvedFuelUse): void {
  const exponent = r.stove.altitudePowerExponent;
  const altitude = thinAirSource(r);
  list.fact('altitudePowerExponent', exponent, '1', 'table of stoves', altitude);
  const thin = '(pressureKPa / 101.325) ^ altitudePowerExponent';
  const { id } = r.fuel;
  if (r.fuel.kind === 'solid' && q.fuelMoisturePercent !== undefined) {
    const dry = r.fuel.dryLhvMJPerKg;
    const { lhvMJPerKg } = r.fuel;
    list.row('tableFuelMJPerKg', lhvMJPerKg, 'table of fuels, as it usually lies');
    const perDry = '(fuelDryMJPerKg - 2.443 * fuelMoisturePercent / 100 / (1 - fuelMoisturePercent / 100))';
    const reference = '(1 - (fuelDryMJPerKg - tableFuelMJPerKg) / (fuelDryMJPerKg + 2.443))';
    list.computed(
      'moistFuelShare',
      moistFuelPowerShare(dry, lhvMJPerKg.value, q.fuelMoisturePercent / 100),
      '1',
      `${perDry} * ${reference} / tableFuelMJPerKg`,
      source('iso18125', 'heat of dry matter less what dries it'),
      true,
    );
    list.computed('powerShare', r.task.powerShare, '1', `${thin} * moistFuelShare`, altitude);
    return;
  }
  if (id !== 'propane' && id !== 'butane' && id !== 'canister-mix') {
    list.computed('powerShare', r.task.powerShare, '1', thin, altitude);
    return;
  }
  const gas = id === 'propane' ? 'propane' : id === 'butane' ? 'butane' : 'canister';
  const fullKPa = id === 'butane' ? 75 : 200;
  const choked = source('kitchenPractice', 'power by the pressure above the air, full from a gauge pressure on');
  list.fact('fullPowerKPa', fullKPa, 'kPa', 'gauge pressure that gives full power', choked);
  list.computed(
    'coldPowerShare',
    coldPowerShare(id, q.airC, r.pressureKPa),
    '1',
    `min(1, max(0, (${gas}PressureKPa(min(max(airC, -45), 50)) - pressureKPa) / fullPowerKPa))`,
    choked,
    true,
  );
  list.computed('powerShare', r.task.powerShare, '1', `${thin} * coldPowerShare`, altitude);
}

function thinAirSource({ fuel }: ResolvedFuelUse): SourceRef {
  switch (fuel.kind) {
    case 'solid':
      return source('fang2008', 'burning rate of wood against air pressure');
    case 'alcohol':
    case 'gel':
      return source('fang2011', 'pool fires at low pressure');
    case 'gas':
      return source(
        'planner-derivation',
        'ideal gas through a jet: the square root where a regulator keeps the gauge pressure',
      );
    case 'electricity':
      return source('planner-derivation', 'a plate does not feel the air');
  }
}

/** Losses on the way up at three temperatures, `heatUpMinutes`, `minutesToBoil` and `heatUpMJ`. */
export function addHeatUp(list: StepList, q: FuelUseQuestion, r: ResolvedFuelUse, pot: PotOnFlame | null): void {
  const { task, typical } = r;
  const sensible = 'contentsKJ * measuring + potKJ * potMass';
  list.computed('sensibleKJ', typical.sensibleKJ, 'kJ', sensible, HEAT_BALANCE);
  const losses = addHeatUpLosses(list, q, r, pot);
  if (losses === null) {
    list.fact('heatUpLossMeanKW', 0, 'kW', 'nothing is lost on the way up', HEAT_BALANCE);
    list.computed(
      'heatUpMinutes',
      typical.heatUpMinutes,
      'min',
      'sensibleKJ / intoPotKW / 60 / powerShare',
      HEAT_BALANCE,
    );
    list.fact('heatUpLossKJ', 0, 'kJ', 'nothing is lost on the way up', HEAT_BALANCE);
  } else {
    const [a, b, c] = losses;
    const mean = `(5 * ${a} + 8 * ${b} + 5 * ${c}) / 18`;
    list.computed('heatUpLossMeanKW', typical.heatUpLossMeanKW, 'kW', mean, GAUSS);
    const net = (loss: string) => `max(intoPotKW - ${loss}, 0.1 * intoPotKW)`;
    list.computed(
      'heatUpMinutes',
      typical.heatUpMinutes,
      'min',
      `sensibleKJ * (5 / ${net(a)} + 8 / ${net(b)} + 5 / ${net(c)}) / 18 / 60 / powerShare`,
      GAUSS,
    );
    const lossKJ = Math.max(0, typical.intoPotKW * typical.heatUpMinutes * task.powerShare * 60 - typical.sensibleKJ);
    const relation = 'max(0, intoPotKW * heatUpMinutes * powerShare * 60 - sensibleKJ)';
    list.computed('heatUpLossKJ', lossKJ, 'kJ', relation, HEAT_BALANCE);
  }
  const until = 'heatUpMinutes + startUpMinutes';
  list.computed('minutesToBoil', typical.minutesToBoil, 'min', until, HEAT_BALANCE);
  const burnt = 'flameKW * heatUpMinutes * powerShare * 60 / 1000 * cook';
  list.computed('heatUpMJ', typical.heatUpMJ, 'MJ', burnt, POWER_TIMES_TIME);
}

/** Names of the losses at the three temperatures; null where nothing is lost. */
function addHeatUpLosses(
  list: StepList,
  q: FuelUseQuestion,
  r: ResolvedFuelUse,
  pot: PotOnFlame | null,
): [string, string, string] | null {
  const { task, parameters } = r;
  const covered = task.lidHeatUp !== 'none';
  if (Math.max(...task.heatUpEvaporationKW, ...task.heatUpSurfaceKW) <= 0 || pot === null) return null;
  const { baseM2 } = pot.shape;
  const tanks = source('openTanksTable', 'derived from the table, +-20 %');
  const from = Math.max(q.startC, 0);
  const names = GAUSS_3_NODES.map((place, index) => {
    const n = index + 1;
    const atC = from + place * Math.max(0, task.endC - from);
    const share = ['(0.5 - sqrt(0.15))', '0.5', '(0.5 + sqrt(0.15))'][index];
    list.computed(`wayUp${n}C`, atC, 'C', `max(startC, 0) + ${share} * max(0, endC - max(startC, 0))`, GAUSS);
    const evaporation = task.heatUpEvaporationKW[index] as number;
    if (task.pressureCooker) list.fact(`wayUp${n}EvaporationKW`, 0, 'kW', 'it is shut', tanks);
    else
      list.computed(
        `wayUp${n}EvaporationKW`,
        openEvaporationW(baseM2, atC, q.airC) / 1000,
        'kW',
        `baseM2 * evaporationKgPerM2H(wayUp${n}C, airC) * latentHeatKJPerKg(wayUp${n}C) / 3600`,
        tanks,
      );
    const surface = task.heatUpSurfaceKW[index] as number;
    list.computed(
      `wayUp${n}SurfaceKW`,
      surface,
      'kW',
      surfaceRelation(`wayUp${n}C`, covered),
      source('mcAdams1954', 'hot plate facing up'),
    );
    const loss = covered
      ? LEAK_BELOW_THE_BOIL * parameters.lid.value * evaporation + surface
      : parameters['open pot'].value * (evaporation + surface);
    const relation = covered
      ? `${LEAK_BELOW_THE_BOIL} * lid * wayUp${n}EvaporationKW + wayUp${n}SurfaceKW`
      : `openPot * (wayUp${n}EvaporationKW + wayUp${n}SurfaceKW)`;
    list.computed(`wayUp${n}LossKW`, loss, 'kW', relation, HEAT_BALANCE, true);
    return `wayUp${n}LossKW`;
  });
  return names as [string, string, string];
}

/** Convection of open water; under a lid what the lid loses. */
function surfaceRelation(at: string, covered: boolean): string {
  if (!covered) return `baseM2 * plateConvectionWPerM2K(diameterM, ${at}, airC) * max(0, ${at} - airC) / 1000`;
  const cover = `max(${at} - 5, airC)`;
  return (
    `baseM2 * (plateConvectionWPerM2K(diameterM, ${cover}, airC) + ` +
    `potSurface * blackRadiationWPerM2K(${cover}, airC)) * (${cover} - airC) / 1000`
  );
}
