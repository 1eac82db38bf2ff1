/**
 * One pot on one flame: heat up, hold, steam. A pure chain over plain numbers that returns every named intermediate, so
 * that explanations, spread and tests need no second pass.
 */
import { LEAK_BELOW_THE_BOIL } from './pot-heat-loss.ts';
import type { Lid } from './table-ids.ts';
import { latentHeatKJPerKg } from './water-properties.ts';

/** What is certain of a task (or taken as certain): made once, then run at many parameter values. */
export interface HeatingTask {
  /** Heat of water, foods and anything else up to the end temperature, kJ, without the pot. */
  contentsKJ: number;
  /** Heat of the pot at its typical mass, kJ. */
  potKJ: number;
  endC: number;
  /** Whether the end is the local boiling point (surplus heat then leaves as steam). */
  boils: boolean;
  pressureCooker: boolean;
  /** Pot diameter, m; null without a pot. */
  diameterM: number | null;
  /** Open evaporation at three temperatures on the way up (Gauss nodes of the heat), kW. */
  heatUpEvaporationKW: readonly [number, number, number];
  /**
   * At the same nodes, kW: convection of an open surface, or what a lid loses.
   */
  heatUpSurfaceKW: readonly [number, number, number];
  lidHeatUp: Lid;
  lidHold: Lid;
  /** Leak of the lid of the hold over that of the heat-up, where both have one. */
  holdLeakFactor: number;
  /** At the end temperature, kW: without a lid or under it as `lidHold` says, emissivity split off. */
  holdDryConvectionKW: number;
  holdDryBlackRadiationKW: number;
  holdOpenEvaporationKW: number;
  holdMinutes: number;
  /** Share of the water that flashes off on a quick release. */
  flashShare: number;
  waterKg: number;
  /** Stove facts. */
  referenceLoadKWPerM: number;
  halfLoadKWPerM: number | null;
  matchedLoadKWPerM: number | null;
  /** Full flame of the typical stove of its type, or as stated: a stove that burns hotter is turned down to more. */
  typicalPowerKW: number;
  /** Power at the place (altitude, cold) over power at sea level. */
  powerShare: number;
  /** Whether the flame can be turned down for the hold. */
  throttle: boolean;
  /** `low`: the flame is turned down from the start. */
  lowFlame: boolean;
}

/** The uncertain inputs, by the name under which people know the cause. */
export interface HeatingValues {
  /** Share at the reference load. */
  'stove efficiency': number;
  /** Full flame at sea level, kW. */
  'stove power': number;
  /** Lowest steady flame at sea level, kW. */
  'lowest flame': number;
  'start-up': number;
  'start-up minutes': number;
  /** Factor on the fuel of every joule into the pot, >= 1. */
  wind: number;
  cook: number;
  /** Lower heating value, MJ/kg. */
  fuel: number;
  /** Share of the open evaporation that passes the lid at the boil. */
  lid: number;
  /** Factor on the loss of an open pot while a flame is under it. */
  'open pot': number;
  /** Factor on the still-air loss of the pot during the hold. */
  'pot loss': number;
  /** Emissivity of the wall. */
  'pot surface': number;
  /** Factor on the mass of the pot. */
  'pot mass': number;
  /** Factor on the heat of the contents: amounts and start temperature as met in a kitchen. */
  measuring: number;
  /** Steam past the valve of a pressure cooker, g/min. */
  'valve steam': number;
}

/** Every named quantity of the chain. */
export interface HeatingResult {
  sensibleKJ: number;
  flameKW: number;
  loadKWPerM: number;
  efficiencyHeatUp: number;
  intoPotKW: number;
  heatUpLossMeanKW: number;
  heatUpMinutes: number;
  minutesToBoil: number;
  heatUpMJ: number;
  holdLossKW: number;
  efficiencyHold: number;
  holdFlameKW: number;
  holdMJ: number;
  startUpMJ: number;
  heatToPotMJ: number;
  boiledOffL: number;
  fuelMJ: number;
  fuelKg: number;
}

const GAUSS_3_WEIGHTS = [5 / 18, 8 / 18, 5 / 18] as const;
/** Places of the three Gauss-Legendre nodes on the way from start to end, 0 to 1. */
export const GAUSS_3_NODES = [0.5 - Math.sqrt(0.15), 0.5, 0.5 + Math.sqrt(0.15)] as const;
/** Least share of the flame's heat that is left for warming, where losses eat nearly all: keeps times finite. */
const LEAST_NET_SHARE = 0.1;
/** No flame brings more than this share into a pot (fins and the lowest flame together). */
const HIGHEST_EFFICIENCY = 0.8;

/** Load, over q_h, at which the heat into the pot is greatest: `2^(2/3)` for the power 1.5. */
const FULL_LOAD = Math.cbrt(4);

/**
 * Efficiency at a load: `eta_ref (1 + (q_ref/q_h)^1.5) / (1 + (q/q_h)^1.5)`, at most 0.8. Fit to gas hobs, see
 * `stoves-table.ts`. Beyond `q = 2^(2/3) q_h`, where that form would bring less heat into the pot for more flame, it falls
 * as 1/q: what burns more than the pot can take passes it by.
 * @param reference efficiency at the reference load, 0 to 1
 * @param loadKWPerM power of the flame per width of the pot, kW/m
 * @param referenceLoadKWPerM q_ref
 * @param halfLoadKWPerM q_h; null: constant
 */
export function efficiencyAtLoad(
  reference: number,
  loadKWPerM: number,
  referenceLoadKWPerM: number,
  halfLoadKWPerM: number | null,
): number {
  if (halfLoadKWPerM === null) return reference;
  const r = referenceLoadKWPerM / halfLoadKWPerM;
  const full = Math.min(loadKWPerM / halfLoadKWPerM, FULL_LOAD);
  const passed = loadKWPerM / halfLoadKWPerM / full;
  const raised = (reference * (1 + r * Math.sqrt(r))) / (1 + full * Math.sqrt(full)) / passed;
  return Math.min(raised, Math.max(HIGHEST_EFFICIENCY, reference));
}

/** Power of a flame that is turned down on purpose: 0.4 of full, never below the lowest steady one. Common practice. */
export function lowFlameKW(fullKW: number, lowestKW: number): number {
  return Math.min(fullKW, Math.max(lowestKW, 0.4 * fullKW));
}

/**
 * The whole chain. Heat-up: `t = sum w_i Q / (eta P / f_wind - loss_i)` over three temperatures on the way; hold:
 * `P_hold = max(loss f_wind / eta_low, lowest flame)`; steam: surplus over latent heat; fuel: heat-up + hold + start-up.
 * Altitude and cold change the power and so the time; the load that sets the efficiency is that of the sea-level flame,
 * so that they never change the energy.
 * @param task sure facts
 * @param v parameter values
 */
export function heatPot(task: HeatingTask, v: HeatingValues): HeatingResult {
  const sensibleKJ = task.contentsKJ * v.measuring + task.potKJ * v['pot mass'];
  const width = task.diameterM;
  let flameKW = v['stove power'];
  if (task.lowFlame && task.throttle) flameKW = lowFlameKW(flameKW, v['lowest flame']);
  else if (task.matchedLoadKWPerM !== null && width !== null)
    flameKW = Math.min(
      flameKW,
      Math.max(v['lowest flame'], (task.matchedLoadKWPerM * width * flameKW) / task.typicalPowerKW),
    );
  const loadKWPerM = width === null ? task.referenceLoadKWPerM : flameKW / width;
  const reference = v['stove efficiency'];
  const efficiencyHeatUp = efficiencyAtLoad(reference, loadKWPerM, task.referenceLoadKWPerM, task.halfLoadKWPerM);
  // Losses are set against the sea-level flame, times against the flame of the place.
  const intoPotKW = (efficiencyHeatUp * flameKW) / v.wind;
  const coveredUp = task.lidHeatUp !== 'none';
  const leakUp = coveredUp ? LEAK_BELOW_THE_BOIL * v.lid : 1;
  let minutesPerKJ = 0;
  let lossMeanKW = 0;
  for (let i = 0; i < 3; i += 1) {
    const evaporation = task.heatUpEvaporationKW[i] as number;
    const surface = task.heatUpSurfaceKW[i] as number;
    const loss = coveredUp ? leakUp * evaporation + surface : v['open pot'] * (evaporation + surface);
    const weight = GAUSS_3_WEIGHTS[i] as number;
    lossMeanKW += weight * loss;
    minutesPerKJ += weight / (60 * Math.max(intoPotKW - loss, LEAST_NET_SHARE * intoPotKW));
  }
  const heatUpSeaLevelMinutes = sensibleKJ * minutesPerKJ;
  const heatUpMinutes = heatUpSeaLevelMinutes / task.powerShare;
  const heatUpMJ = (flameKW * heatUpSeaLevelMinutes * 60 * v.cook) / 1000;
  const heatUpLossKJ = Math.max(0, intoPotKW * heatUpSeaLevelMinutes * 60 - sensibleKJ);

  const coveredHold = task.lidHold !== 'none';
  const leakHold = coveredHold ? Math.min(1, v.lid * task.holdLeakFactor) : 1;
  const latentKJPerKg = latentHeatKJPerKg(Math.min(Math.max(task.endC, 0), 130));
  const dryKW = (task.holdDryConvectionKW + v['pot surface'] * task.holdDryBlackRadiationKW) * v['pot loss'];
  const leakKW = task.pressureCooker
    ? (v['valve steam'] / 60000) * latentKJPerKg
    : leakHold * task.holdOpenEvaporationKW * v['pot loss'];
  const holdLossKW = dryKW + leakKW;
  let holdFlameKW = 0;
  let efficiencyHold = 0;
  let holdMJ = 0;
  let holdHeatKW = 0;
  let steamKW = 0;
  if (task.holdMinutes > 0) {
    const floorKW = task.throttle ? Math.min(v['lowest flame'], v['stove power']) : v['stove power'];
    const holdLoad = width === null ? task.referenceLoadKWPerM : floorKW / width;
    efficiencyHold = efficiencyAtLoad(reference, holdLoad, task.referenceLoadKWPerM, task.halfLoadKWPerM);
    const neededKW = (holdLossKW * v.wind) / efficiencyHold;
    // Below the boil surplus heat would warm the pot further: the cook lifts it off, so that only the loss is burnt.
    holdFlameKW = task.boils ? Math.max(neededKW, floorKW) : neededKW;
    holdHeatKW = (efficiencyHold * holdFlameKW) / v.wind;
    steamKW = task.boils ? Math.max(leakKW, holdHeatKW - dryKW) : leakKW;
    holdMJ = (holdFlameKW * task.holdMinutes * 60 * v.cook) / 1000;
  }
  const holdHeatKJ = holdHeatKW * task.holdMinutes * 60;
  const startUpMJ = v['start-up'];
  const fuelMJ = heatUpMJ + holdMJ + startUpMJ;
  const vapourUpKJ = evaporatedShare(task, coveredUp, lossMeanKW, leakUp, v['open pot']) * heatUpLossKJ;
  const steamKg = (vapourUpKJ + steamKW * task.holdMinutes * 60) / latentKJPerKg;
  const boiledOffL = Math.min(steamKg, task.waterKg) + task.flashShare * Math.max(task.waterKg - steamKg, 0);
  return {
    sensibleKJ,
    flameKW,
    loadKWPerM,
    efficiencyHeatUp,
    intoPotKW,
    heatUpLossMeanKW: lossMeanKW,
    heatUpMinutes,
    minutesToBoil: heatUpMinutes + v['start-up minutes'],
    heatUpMJ,
    holdLossKW,
    efficiencyHold,
    holdFlameKW,
    holdMJ,
    startUpMJ,
    heatToPotMJ: (sensibleKJ + heatUpLossKJ + holdHeatKJ) / 1000,
    boiledOffL,
    fuelMJ,
    fuelKg: fuelMJ / v.fuel,
  };
}

/** Share of the heat-up loss that is vapour: none from a pressure cooker, which is shut. */
function evaporatedShare(
  task: HeatingTask,
  covered: boolean,
  lossMeanKW: number,
  leak: number,
  openFactor: number,
): number {
  if (lossMeanKW <= 0) return 0;
  let evaporation = 0;
  for (let i = 0; i < 3; i += 1)
    evaporation += (GAUSS_3_WEIGHTS[i] as number) * (task.heatUpEvaporationKW[i] as number);
  return Math.min(1, ((covered ? leak : openFactor) * evaporation) / lossMeanKW);
}
