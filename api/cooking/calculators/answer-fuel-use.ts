/** Fuel, time and steam of one pot on one stove. */
import { airPressureKPa, ELEVATION_MAXIMUM_M, ELEVATION_MINIMUM_M } from '../../physics/atmosphere.ts';
import { boilingPointC } from '../../physics/boiling-point.ts';
import { coldPowerShare } from '../../physics/cold-fuel.ts';
import { altitudePowerShare, lowerHeatingValue, moistFuelPowerShare } from '../../physics/combustion.ts';
import { InvalidInputError, requireInRange } from '../../physics/errors.ts';
import { FUELS, type Fuel } from '../../physics/fuels-table.ts';
import {
  GAUSS_3_NODES,
  type HeatingResult,
  type HeatingTask,
  type HeatingValues,
  heatPot,
} from '../../physics/heating.ts';
import { lognormalP90Factor, type Parameter, type Percentiles, type SourceRef } from '../../physics/parameter.ts';
import {
  heatUpSurfaceW,
  LEAK_BELOW_THE_BOIL,
  LEAK_SHARE,
  openEvaporationW,
  potLossParts,
} from '../../physics/pot-heat-loss.ts';
import { cookerTemperatureC } from '../../physics/pressure-cooker.ts';
import { type CauseEffect, propagateSpread, spreadShares } from '../../physics/spread.ts';
import { STOVE_TYPES, type StoveType } from '../../physics/stoves-table.ts';
import type { Lid, Wind } from '../../physics/table-ids.ts';
import { vesselMassKg, vesselShape } from '../../physics/vessel-geometry.ts';
import { VESSEL_MATERIALS } from '../../physics/vessel-materials-table.ts';
import { flashShare, waterHeatKJ } from '../../physics/water-properties.ts';
import { foodOf } from '../foods/foods-table.ts';
import type { FuelUseAnswer, FuelUseQuestion, WithSpread } from './calculator-types.ts';

const source = (key: SourceRef['key'], place: string): SourceRef => ({ key, place });

const parameter = (
  value: number,
  p10: number,
  p90: number,
  unit: string,
  at: SourceRef,
  estimate = true,
): Parameter => ({ value, p10, p90, unit, source: at, estimate });

/** Factor on fuel by wind. No laboratory curve exists: common practice and popular tests. */
const WIND_FACTOR: Readonly<Record<Wind, Parameter>> = {
  still: parameter(1, 1, 1, '1', source('windPractice', 'indoors or calm'), false),
  screened: parameter(1.1, 1.02, 1.22, '1', source('windPractice', 'screened, breeze: 1.1 +- 0.1')),
  light: parameter(1.3, 1.1, 1.58, '1', source('windPractice', 'no screen, about 2 m/s: 1.3 +- 0.2')),
  moderate: parameter(2, 1.5, 3, '1', source('windPractice', 'no screen, breeze: 2 (1.5 to 3)')),
};

/** Over a plate there is no flame to blow aside: wind takes heat from pot and plate only (estimate from forced convection). */
const PLATE_WIND_FACTOR: Readonly<Record<Wind, Parameter>> = {
  still: WIND_FACTOR.still,
  screened: parameter(1.03, 1, 1.08, '1', source('windPractice', 'pot and plate cool faster')),
  light: parameter(1.1, 1.03, 1.2, '1', source('windPractice', 'pot and plate cool faster')),
  moderate: parameter(1.25, 1.1, 1.5, '1', source('windPractice', 'pot and plate cool faster')),
};

/**
 * Loss of an open pot with a flame under it against still water: five pairs of open and lidded boils give 0.7, 0.9, 1.0,
 * 1.3 and 2.3 (flue gas over the surface, draught); their geometric mean is near 1.15.
 */
const OPEN_POT = parameter(1.15, 0.65, 2.1, '1', source('measuredTasks', 'open against lidded, five pairs'));
/** Water, food, start temperature and the moment that is called the boil are met to about 7 % in a kitchen. */
const MEASURING = parameter(1, 0.91, 1.1, '1', source('kitchenPractice', 'measuring by cup and feel'));
const POT_LOSS = parameter(1, 0.8, 1.3, '1', source('openTanksTable', 'evaporation +-20 %; flue gas at the wall'));
const VALVE_STEAM = parameter(
  1.5,
  0.5,
  3.5,
  'g/min',
  source('pressureCookerSteam', 'spring to weight valve, low grade'),
);
const NO_VALVE = parameter(0, 0, 0, 'g/min', source('kitchenPractice', 'not used'), false);
/** Gain of a finned base: recalled 45-55 % to 60-75 %; no measurement was found. */
const FINNED_FACTOR = 1.35;
/** Full pressure of a common cooker, 15 psi. */
export const DEFAULT_GAUGE_KPA = 103;
/** Food as bought displaces about this (dry goods, no air between): common practice. */
export const DRY_FOOD_L_PER_KG = 0.75;
/** Specific heat of water between the boil and the temperatures of pressure cookers, as `flashShare` has it. */
const WATER_KJ_PER_KG_K = 4.23;
/** Spread of an own measured value. */
const OWN_CV = 0.08;

const leakPast = (lid: Lid): Parameter => {
  const { value, p10, p90 } = LEAK_SHARE[lid];
  return parameter(value, p10, p90, '1', source('lidHomeTest', 'evaporation open over lidded 4'));
};
const LID_LEAK: Readonly<Record<Lid, Parameter>> = {
  none: leakPast('none'),
  loose: leakPast('loose'),
  snug: leakPast('snug'),
};

const SURE_ONE = parameter(1, 1, 1, '1', source('kitchenPractice', 'not used'), false);
const SURE_ZERO = parameter(0, 0, 0, '1', source('kitchenPractice', 'not used'), false);

type FuelUseParameters = { [K in keyof HeatingValues]: Parameter };

/** A question turned into sure facts and parameters. */
export interface ResolvedFuelUse {
  task: HeatingTask;
  parameters: FuelUseParameters;
  /** The whole chain at the typical values. */
  typical: HeatingResult;
  floorMJ: number;
  pressureKPa: number;
  fuel: Fuel;
  stove: StoveType;
  waterKJ: number;
  foodsKJ: number;
  extraKJ: number;
}

/**
 * Fuel that one cooking takes: heat-up, hold and start-up, with low, typical and high.
 *
 * `minutesToBoil` includes the start-up minutes of the stove. `startUpMJ: 0` in the question means a stove that already
 * burns. Without a vessel only `extraHeatKJ` (and the water and foods named) is heated, without loss. A pressure cooker is
 * heated to the temperature at its gauge pressure; natural release costs no fuel and no steam, a quicker one flashes off
 * what the wall does not lose in its minutes. `floorMJ` is the heat that exactly this water and food take up, without pot, loss or stove.
 * @throws OutOfRangeError for numbers outside the range of the relations
 * @throws InvalidInputError for a fuel that the stove cannot burn, an unknown food, a pot too small, gas that does not
 *   leave its bottle in the cold, or a flame too weak to bring the pot to its end temperature
 */
export function answerFuelUse(q: FuelUseQuestion): FuelUseAnswer & WithSpread {
  return fuelUseWithEffects(q).answer;
}

/**
 * The same answer, and what each cause of spread does to the fuel: for sums in which dishes share a stove or the wind.
 * @returns `fuelEffects` on the mass of fuel (on its energy for electricity), the heating value under the cause `fuel`
 * @throws as `answerFuelUse`
 */
export function fuelUseWithEffects(q: FuelUseQuestion): {
  answer: FuelUseAnswer & WithSpread;
  fuelEffects: CauseEffect[];
} {
  const resolved = resolveFuelUse(q);
  const { task, parameters, typical } = resolved;
  const { percentiles, effects } = propagateSpread(parameters, (values) => pickAnswer(heatPot(task, values)));
  const inKg = resolved.fuel.kind !== 'electricity';
  const fuelEffects = inKg ? effects.fuelKg : effects.fuelMJ;
  const answer = {
    heatToPotMJ: percentiles.heatToPotMJ,
    fuelMJ: percentiles.fuelMJ,
    fuelKg: inKg ? percentiles.fuelKg : null,
    minutesToBoil: percentiles.minutesToBoil,
    boiledOffL: within(percentiles.boiledOffL, 0, task.waterKg),
    floorMJ: resolved.floorMJ,
    breakdown: { heatUpMJ: typical.heatUpMJ, holdMJ: typical.holdMJ, startUpMJ: typical.startUpMJ },
    spread: spreadShares(fuelEffects),
  };
  return { answer, fuelEffects };
}

function pickAnswer(r: HeatingResult): {
  heatToPotMJ: number;
  fuelMJ: number;
  fuelKg: number;
  minutesToBoil: number;
  boiledOffL: number;
} {
  return {
    heatToPotMJ: r.heatToPotMJ,
    fuelMJ: r.fuelMJ,
    fuelKg: r.fuelKg,
    minutesToBoil: r.minutesToBoil,
    boiledOffL: r.boiledOffL,
  };
}

function within(p: Percentiles, low: number, high: number): Percentiles {
  const cut = (x: number): number => Math.min(Math.max(x, low), Math.max(high, low));
  return { p10: cut(p.p10), p50: cut(p.p50), p90: cut(p.p90) };
}

/**
 * Turns a question into the sure facts of the task and its parameters; the only place of this calculator where tables
 * are read.
 */
export function resolveFuelUse(q: FuelUseQuestion): ResolvedFuelUse {
  const stove = STOVE_TYPES[q.stove.typeId];
  if (stove === undefined) throw new InvalidInputError('stove.typeId', q.stove.typeId, 'is not a known type of stove');
  const fuel = FUELS[q.fuelId];
  if (fuel === undefined) throw new InvalidInputError('fuelId', q.fuelId, 'is not a known fuel');
  if (!stove.fuelIds.includes(q.fuelId))
    throw new InvalidInputError('fuelId', q.fuelId, `${stove.name}: burns ${stove.fuelIds.join(', ')}`);
  requireInRange('elevationM', q.elevationM, ELEVATION_MINIMUM_M, ELEVATION_MAXIMUM_M, 'm');
  requireInRange('waterL', q.waterL, 0, 200, 'L');
  requireInRange('startC', q.startC, -40, 100, 'C');
  requireInRange('airC', q.airC, -50, 60, 'C');
  requireInRange('holdMinutes', q.holdMinutes, 0, 2880, 'min');
  requireInRange('extraHeatKJ', q.extraHeatKJ ?? 0, 0, 1e6, 'kJ');

  const pressureKPa = airPressureKPa(q.elevationM);
  const boilC = boilingPointC(pressureKPa);
  const pressureCooker = q.vessel?.kind === 'pressure-cooker';
  const topC = pressureCooker ? cookerTemperatureC(pressureKPa, q.vessel?.gaugeKPa ?? DEFAULT_GAUGE_KPA) : boilC;
  // A stated end above the boiling point of the place means the boil: no open pot gets hotter.
  const endC = Math.min(q.endC ?? topC, topC);
  requireInRange('endC', endC, 0, 130, 'C');
  const boils = endC > topC - 0.5;

  const foods = heatOfFoods(q, endC);
  const waterKJ = waterHeatKJ(q.waterL, q.startC, endC);
  const extraKJ = q.extraHeatKJ ?? 0;
  const contentsKJ = waterKJ + foods.heatKJ + extraKJ;

  const powerShare = placePowerShare(q, stove, fuel, pressureKPa);
  const ownPower = q.stove.powerKW;
  if (ownPower !== undefined) requireInRange('stove.powerKW', ownPower, 0.1, 60, 'kW');
  if (q.stove.efficiency !== undefined) requireInRange('stove.efficiency', q.stove.efficiency, 0.02, 1, '');

  const pot = resolvePot(q, endC, foods.volumeL);
  const lidHold: Lid = pressureCooker ? 'snug' : (q.lidDuringHold ?? pot.lid);
  const task: HeatingTask = {
    contentsKJ,
    potKJ: pot.massKg * pot.specificHeat * Math.max(0, endC - q.startC),
    endC,
    boils,
    pressureCooker,
    diameterM: pot.diameterM,
    heatUpEvaporationKW: pot.evaporationKW,
    heatUpSurfaceKW: pot.surfaceKW,
    lidHeatUp: pot.lid,
    lidHold,
    holdLeakFactor:
      lidHold === 'none' || pot.lid === 'none' ? 1 : LEAK_SHARE[lidHold].value / LEAK_SHARE[pot.lid].value,
    ...pot.hold(lidHold),
    holdMinutes: q.holdMinutes,
    flashShare: 0,
    waterKg: q.waterL,
    referenceLoadKWPerM: stove.referenceLoadKWPerM,
    // An own efficiency was measured on the own pot and flame: it is not corrected for the load.
    halfLoadKWPerM: q.stove.efficiency === undefined ? stove.halfLoadKWPerM : null,
    matchedLoadKWPerM: ownPower === undefined ? stove.matchedLoadKWPerM : null,
    typicalPowerKW: powerOf(q.stove, stove).value,
    powerShare,
    throttle: stove.throttle,
    lowFlame: q.stove.flame === 'low',
  };
  const parameters = resolveParameters(q, stove, fuel, task, pot);
  if (pressureCooker) task.flashShare = releaseFlashShare(q.releaseMinutes, task, pot.emissivity.value, boilC);
  const typical = heatPot(task, typicalValues(parameters));
  requireReachable(task, parameters, typical);
  return {
    task,
    parameters,
    typical,
    floorMJ: contentsKJ / 1000,
    pressureKPa,
    fuel,
    stove,
    waterKJ,
    foodsKJ: foods.heatKJ,
    extraKJ,
  };
}

/**
 * Share of the water that flashes off while a pressure cooker is released: what its contents hold above the boil, less
 * what its wall and lid lose meanwhile. A release that takes as long as that loss needs flashes nothing: it is a natural one.
 * @param minutes undefined: natural release
 */
function releaseFlashShare(minutes: number | undefined, task: HeatingTask, emissivity: number, boilC: number): number {
  if (minutes === undefined || task.endC <= boilC) return 0;
  const lossKW = task.holdDryConvectionKW + emissivity * task.holdDryBlackRadiationKW;
  const heldKJ = WATER_KJ_PER_KG_K * task.waterKg * (task.endC - boilC);
  const left = heldKJ > 0 ? Math.max(0, 1 - (lossKW * minutes * 60) / heldKJ) : 0;
  return flashShare(task.endC, boilC) * left;
}

function heatOfFoods(q: FuelUseQuestion, endC: number): { heatKJ: number; volumeL: number } {
  let heatKJ = 0;
  let volumeL = 0;
  for (const item of q.foods ?? []) {
    requireInRange('foods.massG', item.massG, 0, 200000, 'g');
    const own = item.specificHeatKJPerKgK;
    if (own !== undefined) requireInRange('foods.specificHeatKJPerKgK', own, 0.5, 4.5, 'kJ/(kg K)');
    const food = foodOf(item);
    if (food === undefined)
      throw new InvalidInputError('foods.foodId', item.foodId, `${item.foodId} is not a food that the tables hold`);
    const specificHeat = own ?? food.specificHeatKJPerKgK.value;
    heatKJ += (item.massG / 1000) * specificHeat * Math.max(0, endC - q.startC);
    volumeL += (item.massG / 1000) * DRY_FOOD_L_PER_KG;
  }
  return { heatKJ, volumeL };
}

/** Power at the place over power at sea level: altitude by type of stove, cold by kind of gas, moisture of solid fuel. */
function placePowerShare(q: FuelUseQuestion, stove: StoveType, fuel: Fuel, pressureKPa: number): number {
  const altitude = altitudePowerShare(q.elevationM, stove.altitudePowerExponent);
  if (fuel.kind === 'solid' && q.fuelMoisturePercent !== undefined) {
    requireInRange('fuelMoisturePercent', q.fuelMoisturePercent, 0, 60, '%');
    return altitude * moistFuelPowerShare(fuel.dryLhvMJPerKg, fuel.lhvMJPerKg.value, q.fuelMoisturePercent / 100);
  }
  if (fuel.id !== 'propane' && fuel.id !== 'butane' && fuel.id !== 'canister-mix') return altitude;
  const cold = coldPowerShare(fuel.id, q.airC, pressureKPa);
  if (cold < 0.1)
    throw new InvalidInputError(
      'airC',
      q.airC,
      `${fuel.name.toLowerCase()} hardly leaves its bottle at ${q.airC} C: keep the bottle warm indoors until use, or burn propane`,
    );
  return altitude * cold;
}

interface ResolvedPot {
  lid: Lid;
  diameterM: number | null;
  massKg: number;
  /** kJ/(kg K) */
  specificHeat: number;
  massSpread: Parameter;
  emissivity: Parameter;
  evaporationKW: readonly [number, number, number];
  surfaceKW: readonly [number, number, number];
  hold: (lid: Lid) => Pick<HeatingTask, 'holdDryConvectionKW' | 'holdDryBlackRadiationKW' | 'holdOpenEvaporationKW'>;
}

const NO_LOSS = [0, 0, 0] as const;

function resolvePot(q: FuelUseQuestion, endC: number, foodVolumeL: number): ResolvedPot {
  const vessel = q.vessel;
  if (vessel === null)
    return {
      lid: 'snug',
      diameterM: null,
      massKg: 0,
      specificHeat: 0,
      massSpread: SURE_ONE,
      emissivity: SURE_ZERO,
      evaporationKW: NO_LOSS,
      surfaceKW: NO_LOSS,
      hold: () => ({ holdDryConvectionKW: 0, holdDryBlackRadiationKW: 0, holdOpenEvaporationKW: 0 }),
    };
  const shape = vesselShape(vessel.capacityL, vessel.diameterMm);
  const contentsL = q.waterL + foodVolumeL;
  if (contentsL > vessel.capacityL)
    throw new InvalidInputError(
      'vessel.capacityL',
      vessel.capacityL,
      `${contentsL.toFixed(1)} L of water and food do not fit: take a larger pot or cook in two batches`,
    );
  // Stainless where the material is not said: its heat is that of a thick aluminium pot too.
  const material = VESSEL_MATERIALS[vessel.material ?? 'stainless'];
  if (material === undefined)
    throw new InvalidInputError('vessel.material', vessel.material, 'is not a known material');
  if (vessel.massKg !== undefined) requireInRange('vessel.massKg', vessel.massKg, 0, 100, 'kg');
  const wall = material.wallMm;
  const massKg = vessel.massKg ?? vesselMassKg(shape, wall.value, material, vessel.kind);
  const massSpread =
    vessel.massKg === undefined
      ? parameter(1, wall.p10 / wall.value, wall.p90 / wall.value, '1', wall.source)
      : SURE_ONE;
  const pressureCooker = vessel.kind === 'pressure-cooker';
  const lid: Lid = pressureCooker ? 'snug' : (vessel.lid ?? 'loose');
  const startC = Math.max(q.startC, 0);
  const node = (i: 0 | 1 | 2): number => startC + GAUSS_3_NODES[i] * Math.max(0, endC - startC);
  const evaporation = (i: 0 | 1 | 2): number => openEvaporationW(shape.baseM2, node(i), q.airC) / 1000;
  const surface = (i: 0 | 1 | 2): number =>
    heatUpSurfaceW(shape, node(i), q.airC, lid !== 'none', material.emissivity.value) / 1000;
  const parts = potLossParts(shape, contentsL / vessel.capacityL, endC, q.airC);
  return {
    lid,
    diameterM: shape.diameterM,
    massKg,
    specificHeat: material.specificHeatKJPerKgK.value,
    massSpread,
    emissivity: material.emissivity,
    evaporationKW: pressureCooker ? NO_LOSS : [evaporation(0), evaporation(1), evaporation(2)],
    surfaceKW: [surface(0), surface(1), surface(2)],
    hold: (holdLid) => ({
      holdDryConvectionKW:
        (holdLid === 'none'
          ? parts.wettedSideConvectionW + parts.openSurfaceW
          : parts.wholeSideConvectionW + parts.lidConvectionW) / 1000,
      holdDryBlackRadiationKW:
        (holdLid === 'none'
          ? parts.wettedSideBlackRadiationW
          : parts.wholeSideBlackRadiationW + parts.lidBlackRadiationW) / 1000,
      holdOpenEvaporationKW: parts.openEvaporationW / 1000,
    }),
  };
}

function resolveParameters(
  q: FuelUseQuestion,
  stove: StoveType,
  fuel: Fuel,
  task: HeatingTask,
  pot: ResolvedPot,
): FuelUseParameters {
  const leakLid: Lid = task.lidHeatUp === 'none' ? task.lidHold : task.lidHeatUp;
  const powerFactor = powerOf(q.stove, stove).value / stove.powerKW.value;
  const startUpFactor =
    q.stove.startUpMJ === undefined ? 1 : stove.startUpMJ.value > 0 ? q.stove.startUpMJ / stove.startUpMJ.value : 0;
  if (q.stove.startUpMJ !== undefined) requireInRange('stove.startUpMJ', q.stove.startUpMJ, 0, 50, 'MJ');
  const ownStartUp = q.stove.startUpMJ;
  return {
    'stove efficiency': efficiencyOf(q.stove, stove, q.vessel?.finned === true),
    'stove power': powerOf(q.stove, stove),
    // A larger or smaller burner of the same type is taken to have the same turndown.
    'lowest flame': scaled(stove.lowestPowerKW, powerFactor),
    'start-up':
      ownStartUp === undefined
        ? stove.startUpMJ
        : ownValue(ownStartUp, 'MJ', ownStartUp === 0 ? 1 : lognormalP90Factor(2 * OWN_CV)),
    'start-up minutes': scaled(stove.startUpMinutes, Math.min(startUpFactor, 3)),
    wind: windOf(q),
    cook: stove.cookFactor,
    fuel: fuelOf(q, fuel),
    lid: LID_LEAK[leakLid],
    'open pot': task.lidHeatUp === 'none' ? OPEN_POT : SURE_ONE,
    'pot loss': q.vessel !== null && q.holdMinutes > 0 ? POT_LOSS : SURE_ONE,
    'pot surface':
      q.holdMinutes > 0 ? pot.emissivity : { ...pot.emissivity, p10: pot.emissivity.value, p90: pot.emissivity.value },
    'pot mass': pot.massSpread,
    measuring: MEASURING,
    'valve steam': task.pressureCooker ? VALVE_STEAM : NO_VALVE,
  };
}

/**
 * Efficiency (at the reference load where it is the table's) and full power of a stove, under a pot without fins.
 * @param asked type and what the household states of it
 */
export function stoveFigures(asked: FuelUseQuestion['stove']): { efficiency: Parameter; powerKW: Parameter } {
  const stove = STOVE_TYPES[asked.typeId];
  return { efficiency: efficiencyOf(asked, stove, false), powerKW: powerOf(asked, stove) };
}

/** Efficiency as measured, else as stated, else of the table; fins add to what was not stated for this very pot. */
function efficiencyOf(asked: FuelUseQuestion['stove'], stove: StoveType, finnedPot: boolean): Parameter {
  const { efficiency: stated, measured } = asked;
  // Fins take heat from the gas that passes them: over a plate there is none.
  const finned = finnedPot && stated === undefined && !stove.fuelIds.includes('electricity') ? FINNED_FACTOR : 1;
  const own = measured?.efficiency ?? null;
  if (own !== null) return scaled(measuredValue(own, '1'), finned);
  return stated === undefined
    ? scaled(stove.efficiency, finned)
    : ownValue(stated, '1', Math.min(1 / stated, lognormalP90Factor(OWN_CV)));
}

function powerOf(asked: FuelUseQuestion['stove'], stove: StoveType): Parameter {
  const { powerKW: stated, measured } = asked;
  const own = measured?.powerKW ?? null;
  if (own !== null) return measuredValue(own, 'kW');
  return stated === undefined ? stove.powerKW : ownValue(stated, 'kW', lognormalP90Factor(OWN_CV));
}

function measuredValue({ p10, p50, p90 }: Percentiles, unit: string): Parameter {
  return { value: p50, p10, p90, unit, source: source('gelman2013', 'section 2.5, own tests'), estimate: false };
}

function scaled(p: Parameter, factor: number): Parameter {
  if (factor === 1) return p;
  return { ...p, value: p.value * factor, p10: p.p10 * factor, p90: p.p90 * factor };
}

function ownValue(value: number, unit: string, factor: number): Parameter {
  return {
    value,
    p10: value / factor,
    p90: value * factor,
    unit,
    source: source('kitchenPractice', 'value of the household'),
    estimate: false,
  };
}

function windOf(q: FuelUseQuestion): Parameter {
  const wind = (q.fuelId === 'electricity' ? PLATE_WIND_FACTOR : WIND_FACTOR)[q.wind];
  if (wind === undefined) throw new InvalidInputError('wind', q.wind, 'is not a known wind');
  if (q.windFuelFactor === undefined) return wind;
  requireInRange('windFuelFactor', q.windFuelFactor, 1, 10, '');
  return ownValue(q.windFuelFactor, '1', q.windFuelFactor === 1 ? 1 : lognormalP90Factor(OWN_CV));
}

/**
 * Lower heating value of a fuel: the row of its table, or of wood and its like what follows from a stated moisture.
 * @param q its moisture of the wet mass, 0 to 60 %, where it is stated
 * @returns MJ/kg, ISO 18125: LHV_dry (1 - w) - 2.443 w
 * @throws InvalidInputError when the moisture is out of range
 */
export function fuelOf(q: Pick<FuelUseQuestion, 'fuelMoisturePercent'>, fuel: Fuel): Parameter {
  if (q.fuelMoisturePercent === undefined || fuel.kind === 'gas' || fuel.kind === 'electricity') return fuel.lhvMJPerKg;
  requireInRange('fuelMoisturePercent', q.fuelMoisturePercent, 0, 60, '%');
  const share = q.fuelMoisturePercent / 100;
  return {
    value: lowerHeatingValue(fuel.dryLhvMJPerKg, share),
    // A stated moisture is good to about two points.
    p10: lowerHeatingValue(fuel.dryLhvMJPerKg * 0.98, Math.min(share + 0.02, 0.6)),
    p90: lowerHeatingValue(fuel.dryLhvMJPerKg * 1.02, Math.max(share - 0.02, 0)),
    unit: 'MJ/kg',
    source: source('iso18125', 'LHV_dry (1 - w) - 2.443 w'),
    estimate: false,
  };
}

function typicalValues(parameters: FuelUseParameters): HeatingValues {
  const values = {} as HeatingValues;
  for (const name of Object.keys(parameters) as (keyof HeatingValues)[]) values[name] = parameters[name].value;
  return values;
}

/** Refuses a pot whose losses at the end temperature are more than its flame can bring in. */
function requireReachable(task: HeatingTask, parameters: FuelUseParameters, typical: HeatingResult): void {
  if (task.diameterM === null || task.contentsKJ + task.potKJ <= 0) return;
  const covered = task.lidHeatUp !== 'none';
  const evaporation = task.heatUpEvaporationKW[2] as number;
  const surface = task.heatUpSurfaceKW[2] as number;
  const loss = covered
    ? LEAK_BELOW_THE_BOIL * parameters.lid.value * evaporation + surface
    : parameters['open pot'].value * (evaporation + surface);
  // Near the limit it boils late, which the band says; beyond it there is no time to tell.
  if (loss > typical.intoPotKW)
    throw new InvalidInputError(
      'stove',
      typical.intoPotKW,
      `a flame that brings ${typical.intoPotKW.toFixed(2)} kW into the pot does not bring it to ${task.endC.toFixed(0)} C: ` +
        'put a lid on, screen the wind, or take a stronger stove or a smaller pot',
    );
}
