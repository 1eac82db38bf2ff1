/** The steps behind the answers on cooling. */
import type { Parameter, SourceRef } from '../../physics/parameter.ts';
import { bareCooling, bareHeatFlowWPerK, boxHeatFlowWPerK } from '../../physics/retained-heat.ts';
import { propagateSpread } from '../../physics/spread.ts';
import type { Lid } from '../../physics/table-ids.ts';
import type { VesselShape } from '../../physics/vessel-geometry.ts';
import {
  answerCooling,
  barePlacesC,
  DISH_HEAT,
  type ResolvedCooling,
  resolveCooling,
  rowHours,
  SMALL_FLASK,
} from '../calculators/answer-cooling.ts';
import type { CoolingQuestion, ExplanationStep } from '../calculators/calculator-types.ts';
import { addLossParts, addVesselMass, addVesselShape } from './explain-vessel.ts';
import { identifierOf, type StepList, stepList } from './explanation-steps.ts';

const QUADRATURE: SourceRef = { key: 'planner-derivation', place: 'spread of all causes, added in quadrature' };
const EXPONENTIAL: SourceRef = { key: 'still2005', place: 'exponential cooling' };
const SLOWING: SourceRef = {
  key: 'planner-derivation',
  place: 'a bare pot loses more per kelvin while it is hot: the loss at the start and halfway down',
};

/**
 * The steps behind `answerCooling`; the temperature at `hours` comes last.
 * @throws as `answerCooling`
 */
export function explainCooling(q: CoolingQuestion): ExplanationStep[] {
  const list = stepList();
  addCooling(list, q);
  return list.steps;
}

/**
 * The same with a step for each row of the table of temperatures, `temperatureAfter90Minutes` and so on; the last row is
 * the last step, `temperatureC`.
 * @throws as `answerCooling`
 */
export function explainCoolingTable(q: CoolingQuestion): ExplanationStep[] {
  const list = stepList();
  addCooling(list, q, rowHours(q.hours).slice(0, -1));
  return list.steps;
}

/** Name of the step behind a row of the table of temperatures, whose hours are taken to the nearest minute. */
export function temperatureAfter(hours: number): string {
  return `temperatureAfter${Math.round(hours * 60)}Minutes`;
}

/**
 * The 10th percentile of a time constant: what each cause takes off at its bad end, added in quadrature of logarithms.
 * @param name how the typical time constant is listed, how the low one is to be, and its value in h
 */
export function addLowTimeConstant(
  list: StepList,
  q: CoolingQuestion,
  name: { typical: string; low: string; hours: number },
): void {
  const { parameters, tau } = resolveCooling(q);
  const { effects } = propagateSpread(parameters, (values) => ({ tauHours: tau(values) }));
  const squares: string[] = [];
  for (const { cause, atLow, atHigh } of effects.tauHours) {
    const down = Math.max(-atLow, -atHigh, 0);
    if (down <= 0) continue;
    const quantity = identifierOf(`${name.low} by ${cause}`);
    list.fact(quantity, down, '1', `what ${cause} takes off ln ${name.typical} at its bad end`, QUADRATURE);
    squares.push(`${quantity} ^ 2`);
  }
  const relation = squares.length === 0 ? name.typical : `${name.typical} * exp(-sqrt(${squares.join(' + ')}))`;
  list.computed(name.low, name.hours, 'h', relation, QUADRATURE);
}

/** From the question to `timeConstantHours`, `hoursAbove60C`, the temperature after each of some hours, `temperatureC`. */
function addCooling(list: StepList, q: CoolingQuestion, rows: readonly number[] = []): void {
  const answer = answerCooling(q);
  list.fact('startC', q.startC, 'C');
  list.fact('airC', q.airC, 'C');
  list.fact('hours', q.hours, 'h');
  addTimeConstant(list, q, answer.timeConstantHours.p50);
  const slows = resolveCooling(q).exponent >= 1e-6;
  const law = slows ? SLOWING : EXPONENTIAL;
  list.computed(
    'hoursAbove60C',
    answer.hoursAbove60C.p50,
    'h',
    slows
      ? 'startC > 60 ? startTimeConstantHours / coolingExponent * (((startC - airC) / (60 - airC)) ^ coolingExponent - 1) : 0'
      : 'startC > 60 ? timeConstantHours * ln((startC - airC) / (60 - airC)) : 0',
    law,
  );
  const after = (hours: number | string): string =>
    slows
      ? `airC + (startC - airC) * (1 + coolingExponent * ${hours} / startTimeConstantHours) ^ (-1 / coolingExponent)`
      : `airC + (startC - airC) * exp(-${hours} / timeConstantHours)`;
  for (const hours of rows) {
    const atC = answer.temperatureC.find((row) => row.hours === hours)?.p50 ?? q.startC;
    list.computed(temperatureAfter(hours), atC, 'C', after(hours), law);
  }
  const lastC = answer.temperatureC.at(-1)?.p50 ?? q.startC;
  list.computed('temperatureC', lastC, 'C', after('hours'), law);
}

/** `timeConstantHours` by the kind of question: own readings, flask, box or bare pot. */
function addTimeConstant(list: StepList, q: CoolingQuestion, hours: number): void {
  const { measured, reading, ...model } = q;
  const given = resolveCooling(q);
  if (measured !== undefined) {
    const ownReading = parameterOf(given, 'own reading');
    const resolved = resolveCooling(model);
    const modelHours = resolved.tau(typicalOf(resolved));
    addModel(list, model, resolved, 'modelHours', modelHours);
    list.row('ownReading', ownReading, 'own readings against the model');
    list.computed('timeConstantHours', hours, 'h', 'modelHours * ownReading', ownReading.source);
  } else if (reading !== undefined) {
    const ownReading = parameterOf(given, 'own reading');
    list.fact('readingHours', reading.hours, 'h', 'own reading');
    list.fact('readingC', reading.temperatureC, 'C', 'own reading');
    if (reading.startC === undefined)
      list.computed(
        'readingStartC',
        Math.max(q.startC, reading.temperatureC + 1),
        'C',
        'max(startC, readingC + 1)',
        ownReading.source,
        true,
      );
    else list.fact('readingStartC', reading.startC, 'C', 'own reading');
    list.fact('readingAirC', reading.airC ?? q.airC, 'C', reading.airC === undefined ? 'air as asked' : 'own reading');
    const asRead = 'readingHours / ln((readingStartC - readingAirC) / (readingC - readingAirC))';
    let relation = asRead;
    if (reading.fillShare !== undefined) {
      list.fact('vesselCapacityL', q.vessel.capacityL, 'L');
      list.fact('fillL', q.fillL, 'L');
      list.fact('readingFillShare', reading.fillShare, '1', 'how full it is taken to have been when it was read');
      relation = `${asRead} * min(1, fillL / (readingFillShare * vesselCapacityL))`;
    }
    list.computed('timeConstantHours', hours, 'h', relation, ownReading.source);
  } else addModel(list, q, given, 'timeConstantHours', hours);
}

function addModel(list: StepList, q: CoolingQuestion, resolved: ResolvedCooling, name: string, hours: number): void {
  if (resolved.kind === 'flask') {
    const flask = parameterOf(resolved, 'flask');
    list.fact('vesselCapacityL', q.vessel.capacityL, 'L');
    list.fact('fillL', q.fillL, 'L');
    list.row('flask', flask, 'time constant of a flask of 1 L');
    const { power, least } = SMALL_FLASK;
    const relation =
      `flask * vesselCapacityL ^ (1 / 3) * max(${least}, min(1, vesselCapacityL ^ ${power})) * ` +
      'min(fillL / vesselCapacityL, 1)';
    list.computed(name, hours, 'h', relation, flask.source);
    return;
  }
  const shape = addVesselShape(list, q.vessel.capacityL);
  addVesselMass(list, shape, q.vessel);
  list.fact('fillL', q.fillL, 'L');
  const pot = parameterOf(resolved, 'pot');
  list.computed('pot', pot.value, 'kJ/K', 'potMassKg * potSpecificHeat', pot.source, pot.estimate);
  list.row('dishKJPerLK', DISH_HEAT, 'a water-like dish');
  if (resolved.kind === 'box') {
    const insulation = parameterOf(resolved, 'insulation');
    const conductivity = parameterOf(resolved, 'insulation material');
    const thicknessMm = q.insulation?.thicknessMm ?? 0;
    list.fact('thicknessMm', thicknessMm, 'mm');
    list.row('insulation', insulation, 'build factor: gaps, damp and thin lids');
    list.row(
      'conductivityWPerMK',
      conductivity,
      q.insulation?.conductivityWPerMK === undefined ? undefined : 'as asked',
    );
    const { inner, outer, outerDiameterM } = boxSurfaces(shape, thicknessMm);
    list.computed('potSurfaceM2', inner, 'm2', 'sideM2 + 2 * baseM2');
    list.computed('boxDiameterM', outerDiameterM, 'm', 'diameterM + 2 * thicknessMm / 1000');
    list.computed(
      'boxSurfaceM2',
      outer,
      'm2',
      'pi * boxDiameterM * (heightM + 2 * thicknessMm / 1000) + pi * boxDiameterM ^ 2 / 2',
    );
    list.computed(
      'lossWPerK',
      boxHeatFlowWPerK(shape, thicknessMm, conductivity.value, insulation.value),
      'W/K',
      'min(8 * potSurfaceM2, ' +
        'insulation / (thicknessMm / 1000 / (conductivityWPerMK * sqrt(potSurfaceM2 * boxSurfaceM2)) + 1 / (8 * boxSurfaceM2)))',
      { key: 'boxReadings', place: 'thick layers about a cylinder; film 8 W/(m2 K)' },
    );
    list.computed(name, hours, 'h', '(fillL * dishKJPerLK + pot) * 1000 / lossWPerK / 3600');
  } else addBareCooling(list, q, resolved, shape, name, hours);
}

/** How a pot in the room cools: `startLossWPerK`, `halfLossWPerK`, `coolingExponent`, `startTimeConstantHours`, the mean. */
function addBareCooling(
  list: StepList,
  q: CoolingQuestion,
  resolved: ResolvedCooling,
  shape: VesselShape,
  name: string,
  hours: number,
): void {
  const covered = q.vessel.kind === 'pressure-cooker' || q.vessel.lid !== 'none';
  const lid: Lid = q.vessel.kind === 'pressure-cooker' ? 'snug' : (q.vessel.lid ?? 'loose');
  const draught = parameterOf(resolved, 'draught');
  const surface = parameterOf(resolved, 'pot surface');
  const leak = parameterOf(resolved, 'lid');
  list.row('draught', draught, 'draught, and what the pot stands on');
  list.row('potSurface', surface, 'emissivity of the wall');
  list.row('lid', leak, 'share of the vapour that passes the lid');
  const fillShare = q.fillL / q.vessel.capacityL;
  list.computed('fillShare', fillShare, '1', 'fillL / vesselCapacityL');
  const [hotC, halfwayC] = barePlacesC(q);
  list.computed('hotC', hotC, 'C', 'airC + max(startC - airC, 2)');
  list.computed('halfwayC', halfwayC, 'C', 'airC + max(startC - airC, 2) / 2');
  const flowAt = (atC: number): number =>
    draught.value * bareHeatFlowWPerK(shape, fillShare, atC, q.airC, surface.value, lid, leak.value);
  const addFlow = (quantity: string, at: 'hotC' | 'halfwayC', atC: number, prefix: string): void => {
    const losses = stepList();
    addLossParts(losses, shape, { at, atC, airC: q.airC, fillShare, covered, base: true });
    const of = list.include(losses.steps, { prefix, plain: (own) => own === 'wettedShare' });
    const base = `(${of('lidConvectionW')} + potSurface * ${of('lidRadiationW')}) / 2`;
    const dry = covered
      ? `${of('wallConvectionW')} + ${of('lidConvectionW')} + ` +
        `potSurface * (${of('wallRadiationW')} + ${of('lidRadiationW')}) + lid * ${of('openEvaporationW')}`
      : `${of('wallConvectionW')} + potSurface * ${of('wallRadiationW')} + ${of('openSurfaceW')} + ${of('openEvaporationW')}`;
    list.computed(
      quantity,
      flowAt(atC),
      'W/K',
      `draught * (${dry} + ${base}) / (${at} - airC)`,
      { key: 'kitchenPractice', place: 'the base loses about half of what a lid does' },
      true,
    );
  };
  addFlow('startLossWPerK', 'hotC', hotC, 'hot');
  addFlow('halfLossWPerK', 'halfwayC', halfwayC, 'halfway');
  const exponent = 'max(0, ln(startLossWPerK / halfLossWPerK) / ln(2))';
  list.computed('coolingExponent', resolved.exponent, '1', exponent, SLOWING, true);
  const pot = parameterOf(resolved, 'pot').value;
  const { startHours } = bareCooling(q.fillL * DISH_HEAT.value + pot, flowAt(hotC), flowAt(halfwayC));
  list.computed(
    'startTimeConstantHours',
    startHours,
    'h',
    '(fillL * dishKJPerLK + pot) * 1000 / startLossWPerK / 3600',
    SLOWING,
  );
  const steps = 'coolingExponent * hours / startTimeConstantHours';
  list.computed(
    name,
    hours,
    'h',
    `${steps} < 1e-6 ? startTimeConstantHours : coolingExponent * hours / ln(1 + ${steps})`,
    SLOWING,
  );
}

function boxSurfaces(shape: VesselShape, thicknessMm: number) {
  const wall = (2 * thicknessMm) / 1000;
  const outerDiameterM = shape.diameterM + wall;
  return {
    inner: shape.sideM2 + 2 * shape.baseM2,
    outerDiameterM,
    outer: Math.PI * outerDiameterM * (shape.heightM + wall) + (Math.PI * outerDiameterM ** 2) / 2,
  };
}

function parameterOf({ parameters }: ResolvedCooling, name: string): Parameter {
  return parameters[name] as Parameter;
}

function typicalOf({ parameters }: ResolvedCooling): Record<string, number> {
  return Object.fromEntries(Object.entries(parameters).map(([name, { value }]) => [name, value]));
}
