/** The steps behind the answers on fuel. */
import type { HeatingValues } from '../../physics/heating.ts';
import type { SourceRef } from '../../physics/parameter.ts';
import {
  DEFAULT_GAUGE_KPA,
  DRY_FOOD_L_PER_KG,
  type ResolvedFuelUse,
  resolveFuelUse,
} from '../calculators/answer-fuel-use.ts';
import type { ExplanationStep, FuelUseQuestion } from '../calculators/calculator-types.ts';
import { foodOf } from '../foods/foods-table.ts';
import { addBoilingPointAt, SATURATION } from './explain-boiling-point.ts';
import { addFlame, addHeatUp, type PotOnFlame } from './explain-flame.ts';
import { addHold, addSteam } from './explain-hold.ts';
import { addVesselMass, addVesselShape } from './explain-vessel.ts';
import { identifierOf, type StepList, stepList } from './explanation-steps.ts';

const source = (key: SourceRef['key'], place: string): SourceRef => ({ key, place });

/** What each cause of spread is a figure of, in words. */
const MEANING: Readonly<Record<keyof HeatingValues, string>> = {
  'stove efficiency': 'share of the heat that reaches the pot, at referenceLoadKWPerM',
  'stove power': 'full flame at sea level',
  'lowest flame': 'lowest steady flame at sea level',
  'start-up': 'fuel of each lighting',
  'start-up minutes': 'until full power',
  wind: 'factor on the fuel of every joule into the pot',
  cook: 'factor for handling',
  fuel: 'lower heating value',
  lid: 'share of the vapour that passes the lid',
  'open pot': 'factor on the loss of an open pot with a flame under it',
  'pot loss': 'factor on the loss in still air',
  'pot surface': 'emissivity of the wall',
  'pot mass': 'factor on the mass of the pot',
  measuring: 'factor on amounts and start temperature as met in a kitchen',
  'valve steam': 'steam past the valve of a pressure cooker',
};

/**
 * The steps behind `answerFuelUse`; the mass of fuel comes last (its energy for electricity).
 * @throws as `answerFuelUse`
 */
export function explainFuelUse(q: FuelUseQuestion): ExplanationStep[] {
  const list = stepList();
  addFuelUse(list, q, resolveFuelUse(q));
  return list.steps;
}

function addFuelUse(list: StepList, q: FuelUseQuestion, r: ResolvedFuelUse): void {
  addTemperatures(list, q, r);
  addContents(list, q, r);
  const pot = addVessel(list, q, r);
  addParameters(list, q, r);
  addFlame(list, q, r);
  addHeatUp(list, q, r, pot);
  addHold(list, q, r, pot);
  addSteam(list, q, r, pot);
  const { typical } = r;
  list.computed('floorMJ', r.floorMJ, 'MJ', 'contentsKJ / 1000');
  list.computed('startUpMJ', typical.startUpMJ, 'MJ', 'startUp');
  list.computed('fuelMJ', typical.fuelMJ, 'MJ', 'heatUpMJ + holdMJ + startUpMJ');
  if (r.fuel.kind !== 'electricity') list.computed('fuelKg', typical.fuelKg, 'kg', 'fuelMJ / fuel');
}

/** Air, start and end: `airC`, `startC`, `boilingPointC`, `endC`. */
function addTemperatures(list: StepList, q: FuelUseQuestion, r: ResolvedFuelUse): void {
  list.fact('airC', q.airC, 'C');
  list.fact('startC', q.startC, 'C');
  addBoilingPointAt(list, q.elevationM);
  let top = 'boilingPointC';
  if (r.task.pressureCooker) {
    const words = q.vessel?.gaugeKPa === undefined ? 'full pressure of a common cooker' : 'as asked';
    list.fact('gaugeKPa', q.vessel?.gaugeKPa ?? DEFAULT_GAUGE_KPA, 'kPa', words);
    top = 'saturationTemperatureC(pressureKPa + gaugeKPa)';
  }
  if (q.endC !== undefined) list.fact('endAskedC', q.endC, 'C');
  const relation = q.endC === undefined ? top : `min(endAskedC, ${top})`;
  list.computed('endC', r.task.endC, 'C', relation, SATURATION);
}

/** Heat of what is in the pot, `contentsKJ`. */
function addContents(list: StepList, q: FuelUseQuestion, r: ResolvedFuelUse): void {
  list.fact('waterL', q.waterL, 'L');
  const rise = 'max(0, endC - startC)';
  list.computed(
    'waterKJ',
    r.waterKJ,
    'kJ',
    q.startC >= 0
      ? `waterL * 4.19 * ${rise}`
      : r.task.endC <= 0
        ? `waterL * 2.1 * ${rise}`
        : 'waterL * (2.1 * -startC + 334 + 4.19 * endC)',
    q.startC >= 0
      ? source('iapws95', 'mean of 20 to 100 C')
      : source('iapws95', 'water; ice 2.1 kJ/(kg K), 334 kJ/kg to melt: textbook'),
  );
  const parts = ['waterKJ'];
  const foods = q.foods ?? [];
  const terms: string[] = [];
  for (const [index, item] of foods.entries()) {
    // One food may be in the pot twice.
    const again = foods.slice(0, index).filter(({ foodId }) => foodId === item.foodId).length;
    const name = identifierOf(item.foodId) + (again === 0 ? '' : String(again + 1));
    list.fact(`${name}MassG`, item.massG, 'g');
    const row = foodOf(item)?.specificHeatKJPerKgK;
    if (item.specificHeatKJPerKgK !== undefined || row === undefined)
      list.fact(`${name}SpecificHeat`, item.specificHeatKJPerKgK ?? 0, 'kJ/(kg K)');
    else list.row(`${name}SpecificHeat`, row, 'table of foods');
    terms.push(`${name}MassG / 1000 * ${name}SpecificHeat`);
  }
  if (terms.length > 0) {
    list.computed('foodsKJ', r.foodsKJ, 'kJ', `(${terms.join(' + ')}) * ${rise}`);
    parts.push('foodsKJ');
  }
  if (r.extraKJ > 0) {
    list.fact('extraHeatKJ', r.extraKJ, 'kJ');
    parts.push('extraHeatKJ');
  }
  list.computed('contentsKJ', r.task.contentsKJ, 'kJ', parts.join(' + '));
}

/** Size and heat of the vessel, `potKJ`, and how full it is, `fillShare`. */
function addVessel(list: StepList, q: FuelUseQuestion, r: ResolvedFuelUse): PotOnFlame | null {
  if (q.vessel === null) {
    list.fact('potKJ', 0, 'kJ', 'no vessel');
    return null;
  }
  const shape = addVesselShape(list, q.vessel.capacityL, q.vessel.diameterMm);
  addVesselMass(list, shape, q.vessel);
  list.computed('potKJ', r.task.potKJ, 'kJ', 'potMassKg * potSpecificHeat * max(0, endC - startC)');
  const foods = q.foods ?? [];
  const foodKg = foods.reduce((sum, { massG }) => sum + massG / 1000, 0);
  const names = list.steps.map(({ quantity }) => quantity).filter((name) => name.endsWith('MassG'));
  const dry = names.length === 0 ? '' : ` + (${names.join(' + ')}) / 1000 * ${DRY_FOOD_L_PER_KG}`;
  const fillShare = (q.waterL + foodKg * DRY_FOOD_L_PER_KG) / q.vessel.capacityL;
  list.computed('fillShare', fillShare, '1', `(waterL${dry}) / vesselCapacityL`, POT_PRACTICE, names.length > 0);
  return { shape, fillShare };
}

const POT_PRACTICE = source('kitchenPractice', 'dry goods displace 0.75 L/kg');

/** Every cause of spread at its typical value, by its name as an identifier. */
function addParameters(list: StepList, q: FuelUseQuestion, { parameters, fuel }: ResolvedFuelUse): void {
  for (const name of Object.keys(parameters) as (keyof HeatingValues)[]) {
    const parameter = parameters[name];
    const moist = q.fuelMoisturePercent !== undefined && fuel.kind !== 'gas' && fuel.kind !== 'electricity';
    if (name === 'fuel' && moist) {
      list.fact('fuelMoisturePercent', q.fuelMoisturePercent ?? 0, '%');
      list.fact('fuelDryMJPerKg', fuel.dryLhvMJPerKg, 'MJ/kg', 'table of fuels', fuel.lhvMJPerKg.source);
      const relation = 'fuelDryMJPerKg * (1 - fuelMoisturePercent / 100) - 2.443 * fuelMoisturePercent / 100';
      list.computed('fuel', parameter.value, parameter.unit, relation, parameter.source, parameter.estimate);
    } else list.row(identifierOf(name), parameter, MEANING[name]);
  }
}
