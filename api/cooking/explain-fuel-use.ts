/** The steps behind the answers on fuel. */
import { type HeatingResult, type HeatingValues, heatPot } from '../physics/heating.ts';
import type { SourceRef } from '../physics/parameter.ts';
import { DEFAULT_GAUGE_KPA, type ResolvedFuelUse, resolveFuelUse } from './answer-fuel-use.ts';
import type { ExplanationStep, FuelUseQuestion } from './calculator-types.ts';
import { findFood } from './foods-table.ts';

const source = (key: SourceRef['key'], place: string): SourceRef => ({ key, place });

type Relation = { unit: string; relation: string; inputs: string[]; source: SourceRef; estimate: boolean };

/** How each quantity of the chain follows; read only when a derivation is asked for. */
const RELATIONS: Readonly<Record<keyof HeatingResult, Relation>> = {
  sensibleKJ: {
    unit: 'kJ',
    relation: 'contentsKJ * measuring + potKJ * pot mass',
    inputs: ['contentsKJ', 'measuring', 'potKJ', 'pot mass'],
    source: source('iapws95', 'specific heat of water 4.19 kJ/(kg K)'),
    estimate: false,
  },
  flameKW: {
    unit: 'kW',
    relation:
      'stove power, at most matchedLoadKWPerM * diameterM where the cook turns it down; low flame: max(lowest flame, 0.4 stove power)',
    inputs: ['stove power', 'lowest flame', 'matchedLoadKWPerM', 'diameterM'],
    source: source('kitchenPractice', 'a flame that does not lick up the wall'),
    estimate: true,
  },
  loadKWPerM: {
    unit: 'kW/m',
    relation: 'flameKW / diameterM',
    inputs: ['flameKW', 'diameterM'],
    source: source('gasHobStudies', 'power per pot width'),
    estimate: false,
  },
  efficiencyHeatUp: {
    unit: '1',
    relation: 'min(0.8, stove efficiency * (1 + (referenceLoad/halfLoad)^1.5) / (1 + (load/halfLoad)^1.5))',
    inputs: ['stove efficiency', 'loadKWPerM', 'referenceLoadKWPerM', 'halfLoadKWPerM'],
    source: source('gasHobStudies', 'fit to lidded pots at several flames'),
    estimate: true,
  },
  intoPotKW: {
    unit: 'kW',
    relation: 'efficiencyHeatUp * flameKW / wind',
    inputs: ['efficiencyHeatUp', 'flameKW', 'wind'],
    source: source('windPractice', 'wind as a factor on fuel'),
    estimate: true,
  },
  heatUpLossMeanKW: {
    unit: 'kW',
    relation: 'Gauss mean over three temperatures of lid * evaporation, open: open pot * (evaporation + surface)',
    inputs: ['lid', 'open pot', 'heatUpEvaporationKW', 'heatUpOpenSurfaceKW'],
    source: source('openTanksTable', 'E = 0.168 (p_w - p_a)'),
    estimate: true,
  },
  heatUpMinutes: {
    unit: 'min',
    relation: 'sensibleKJ * Gauss mean of 1 / (60 (intoPotKW - loss)) / powerShare',
    inputs: ['sensibleKJ', 'intoPotKW', 'heatUpEvaporationKW', 'heatUpOpenSurfaceKW', 'lid', 'open pot', 'powerShare'],
    source: source('measuredTasks', 'heat balance'),
    estimate: false,
  },
  minutesToBoil: {
    unit: 'min',
    relation: 'heatUpMinutes + start-up minutes',
    inputs: ['heatUpMinutes', 'start-up minutes'],
    source: source('measuredTasks', 'fires and jets need minutes before full power'),
    estimate: false,
  },
  heatUpMJ: {
    unit: 'MJ',
    relation: 'flameKW * heatUpMinutes * powerShare * 60 / 1000 * cook',
    inputs: ['flameKW', 'heatUpMinutes', 'powerShare', 'cook'],
    source: source('kitchenPractice', 'power times time, factor for handling'),
    estimate: true,
  },
  holdLossKW: {
    unit: 'kW',
    relation:
      '(holdDryConvectionKW + pot surface * holdDryBlackRadiationKW) * pot loss + lid * holdLeakFactor * holdOpenEvaporationKW * pot loss; pressure cooker: valve steam instead of evaporation; open: lid = 1',
    inputs: [
      'holdDryConvectionKW',
      'pot surface',
      'holdDryBlackRadiationKW',
      'pot loss',
      'lid',
      'holdLeakFactor',
      'holdOpenEvaporationKW',
      'valve steam',
    ],
    source: source('churchillChu1975', 'wall; McAdams lid; open-tank evaporation'),
    estimate: false,
  },
  efficiencyHold: {
    unit: '1',
    relation: 'as efficiencyHeatUp at the load of the lowest flame; 0 without a hold',
    inputs: ['stove efficiency', 'lowest flame', 'diameterM', 'referenceLoadKWPerM', 'halfLoadKWPerM'],
    source: source('gasHobStudies', 'fit to lidded pots at several flames'),
    estimate: true,
  },
  holdFlameKW: {
    unit: 'kW',
    relation:
      'max(holdLossKW * wind / efficiencyHold, lowest flame), full power where it cannot be turned down; below the boil the first term alone; 0 without a hold',
    inputs: ['holdLossKW', 'wind', 'efficiencyHold', 'lowest flame', 'stove power'],
    source: source('kitchenPractice', 'the lowest steady flame'),
    estimate: false,
  },
  holdMJ: {
    unit: 'MJ',
    relation: 'holdFlameKW * holdMinutes * 60 / 1000 * cook',
    inputs: ['holdFlameKW', 'holdMinutes', 'cook'],
    source: source('kitchenPractice', 'power times time, factor for handling'),
    estimate: false,
  },
  startUpMJ: {
    unit: 'MJ',
    relation: 'start-up',
    inputs: ['start-up'],
    source: source('measuredTasks', 'per lighting'),
    estimate: true,
  },
  heatToPotMJ: {
    unit: 'MJ',
    relation:
      '(sensibleKJ + heat-up loss + efficiencyHold * holdFlameKW / wind * holdMinutes * 60) / 1000, heat-up loss = intoPotKW * heatUpMinutes * powerShare * 60 - sensibleKJ',
    inputs: [
      'sensibleKJ',
      'intoPotKW',
      'heatUpMinutes',
      'powerShare',
      'efficiencyHold',
      'holdFlameKW',
      'wind',
      'holdMinutes',
    ],
    source: source('measuredTasks', 'heat balance'),
    estimate: false,
  },
  boiledOffL: {
    unit: 'L',
    relation:
      'vapour of the heat-up and max(leak, efficiencyHold * holdFlameKW / wind - dry loss) * holdMinutes * 60, over latent heat; at most waterKg; plus flashShare on quick release',
    inputs: [
      'heatUpLossMeanKW',
      'holdLossKW',
      'efficiencyHold',
      'holdFlameKW',
      'wind',
      'holdMinutes',
      'endC',
      'flashShare',
      'waterKg',
    ],
    source: source('iapws95', 'latent heat'),
    estimate: false,
  },
  fuelMJ: {
    unit: 'MJ',
    relation: 'heatUpMJ + holdMJ + startUpMJ',
    inputs: ['heatUpMJ', 'holdMJ', 'startUpMJ'],
    source: source('kitchenPractice', 'sum'),
    estimate: false,
  },
  fuelKg: {
    unit: 'kg',
    relation: 'fuelMJ / fuel',
    inputs: ['fuelMJ', 'fuel'],
    source: source('iso18125', 'lower heating value'),
    estimate: false,
  },
};

/**
 * The steps behind `answerFuelUse`: every parameter and every intermediate quantity, in order.
 * @throws as `answerFuelUse`
 */
export function explainFuelUse(q: FuelUseQuestion): ExplanationStep[] {
  const resolved = resolveFuelUse(q);
  const { task, parameters } = resolved;
  const steps = heatSteps(q, resolved);
  const values = {} as HeatingValues;
  for (const name of Object.keys(parameters) as (keyof HeatingValues)[]) {
    const p = parameters[name];
    values[name] = p.value;
    steps.push({
      quantity: name,
      value: p.value,
      unit: p.unit,
      relation: `parameter, P10 ${round(p.p10)} to P90 ${round(p.p90)}`,
      inputs: [],
      source: p.source,
      estimate: p.estimate,
    });
  }
  const shown = new Set(steps.map((step) => step.quantity));
  for (const [quantity, raw] of Object.entries(task)) {
    if (shown.has(quantity)) continue;
    const value = Array.isArray(raw) ? raw.map((x) => round(Number(x))).join('; ') : raw;
    steps.push({
      quantity,
      value: value === null ? 'none' : (value as number | string | boolean),
      unit: unitOf(quantity),
      relation: 'fact of the question, or resolved from it',
      inputs: [],
      source: source('kitchenPractice', 'question and tables'),
      estimate: false,
    });
  }
  const result = heatPot(task, values);
  const isElectric = resolved.fuel.kind === 'electricity';
  for (const quantity of Object.keys(RELATIONS) as (keyof HeatingResult)[]) {
    if (isElectric && quantity === 'fuelKg') continue;
    steps.push({ quantity, value: result[quantity], ...RELATIONS[quantity] });
  }
  return steps;
}

/** From the question to the heat of contents and pot. */
function heatSteps(q: FuelUseQuestion, r: ResolvedFuelUse): ExplanationStep[] {
  const steps: ExplanationStep[] = [];
  const add = (
    quantity: string,
    value: number,
    unit: string,
    relation: string,
    inputs: string[],
    at: SourceRef,
  ): void => {
    steps.push({ quantity, value, unit, relation, inputs, source: at, estimate: false });
  };
  const asked = source('kitchenPractice', 'question');
  const fact = (quantity: string, value: number, unit: string): void =>
    add(quantity, value, unit, 'fact of the question', [], asked);
  fact('elevationM', q.elevationM, 'm');
  fact('airC', q.airC, 'C');
  fact('startC', q.startC, 'C');
  fact('waterL', q.waterL, 'L');
  fact('extraHeatKJ', r.extraKJ, 'kJ');
  const pressure = source('standardAtmosphere', 'troposphere');
  add('pressureKPa', r.pressureKPa, 'kPa', '101.325 (1 - 2.25577e-5 H)^5.255876', ['elevationM'], pressure);
  const saturation = source('iapwsIf97', 'region 4, equation 31');
  add('boilingPointC', r.boilC, 'C', 'saturation temperature at pressureKPa', ['pressureKPa'], saturation);
  const cooker = q.vessel?.kind === 'pressure-cooker';
  const endRelation = cooker
    ? 'saturation temperature at pressureKPa + gaugeKPa, or the lower end asked for'
    : 'boilingPointC, or the lower end asked for';
  if (cooker) fact('gaugeKPa', q.vessel?.gaugeKPa ?? DEFAULT_GAUGE_KPA, 'kPa');
  add('endC', r.task.endC, 'C', endRelation, cooker ? ['pressureKPa', 'gaugeKPa'] : ['boilingPointC'], saturation);
  const water = source('iapws95', '4.19 kJ/(kg K); ice 2.1 kJ/(kg K) and 334 kJ/kg, textbook');
  add(
    'waterKJ',
    r.waterKJ,
    'kJ',
    'waterL * 4.19 * (endC - startC), ice melted first',
    ['waterL', 'startC', 'endC'],
    water,
  );
  const foodInputs: string[] = [];
  for (const item of q.foods ?? []) {
    const food = findFood(item.foodId);
    const own = item.specificHeatKJPerKgK;
    fact(`${item.foodId} massG`, item.massG, 'g');
    add(
      `${item.foodId} specificHeat`,
      own ?? food?.specificHeatKJPerKgK.value ?? 0,
      'kJ/(kg K)',
      own === undefined ? 'table of foods' : 'fact of the question',
      [],
      own === undefined ? (food?.specificHeatKJPerKgK.source ?? asked) : asked,
    );
    foodInputs.push(`${item.foodId} massG`, `${item.foodId} specificHeat`);
  }
  const sum = source('heldman1975', 'specific heat from composition');
  add(
    'foodsKJ',
    r.foodsKJ,
    'kJ',
    'sum of massG / 1000 * specificHeat * (endC - startC)',
    [...foodInputs, 'startC', 'endC'],
    sum,
  );
  const total = ['waterKJ', 'foodsKJ', 'extraHeatKJ'];
  add('contentsKJ', r.task.contentsKJ, 'kJ', 'waterKJ + foodsKJ + extraHeatKJ', total, asked);
  const potMass = source('potMassPractice', 'weighed mass, else sheet of the size times fittings');
  add('potMassKg', r.potMassKg, 'kg', 'weighed, or from capacity and wall', [], potMass);
  const metal = source('metalHandbook', 'p. 110');
  add('potSpecificHeat', r.potSpecificHeat, 'kJ/(kg K)', 'table of materials', [], metal);
  const pot = ['potMassKg', 'potSpecificHeat', 'startC', 'endC'];
  add('potKJ', r.task.potKJ, 'kJ', 'potMassKg * potSpecificHeat * (endC - startC)', pot, metal);
  return steps;
}

function round(value: number): number {
  return Number(value.toPrecision(6));
}

function unitOf(quantity: string): string {
  if (quantity.endsWith('KWPerM')) return 'kW/m';
  if (quantity.endsWith('KJ')) return 'kJ';
  if (quantity.endsWith('KW')) return 'kW';
  if (quantity.endsWith('Kg')) return 'kg';
  if (quantity.endsWith('Minutes')) return 'min';
  if (quantity.endsWith('C')) return 'C';
  if (quantity.endsWith('M')) return 'm';
  return '1';
}
