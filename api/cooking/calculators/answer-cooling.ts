/** How fast a pot in a box, a flask or a bare pot cools. */
import { InvalidInputError, requireInRange } from '../../physics/errors.ts';
import { INSULATION_MATERIALS } from '../../physics/insulation-table.ts';
import {
  lognormalP90Factor,
  type Parameter,
  type Percentiles,
  type SourceRef,
  sureParameter,
} from '../../physics/parameter.ts';
import { LEAK_SHARE_AT_REST } from '../../physics/pot-heat-loss.ts';
import {
  bareCooling,
  bareHeatFlowWPerK,
  bareHoursAboveC,
  boxHeatFlowWPerK,
  cooledTemperatureC,
  coolingThrough,
  meanTimeConstantHours,
  timeConstantFromReading,
  timeConstantHours,
} from '../../physics/retained-heat.ts';
import { propagateSpread, spreadShares } from '../../physics/spread.ts';
import type { Lid } from '../../physics/table-ids.ts';
import { vesselMassKg, vesselShape } from '../../physics/vessel-geometry.ts';
import { VESSEL_MATERIALS } from '../../physics/vessel-materials-table.ts';
import type { CoolingAnswer, CoolingQuestion, WithSpread } from './calculator-types.ts';

const source = (key: SourceRef['key'], place: string): SourceRef => ({ key, place });

/** Heat of a water-like dish: specific heat and density of thick soups and stews together. */
export const DISH_HEAT: Parameter = sureParameter(
  4.0,
  'kJ/(L K)',
  source('kitchenPractice', 'soups and stews together'),
);

/** Gaps, damp and thin lids of a home-made box: measured ones come to 2.2-2.8, careless ones above 3. */
export const BUILD_FACTOR: Parameter = {
  value: 2.5,
  p10: 1.8,
  p90: 4,
  unit: '1',
  source: source('boxReadings', 'four boxes'),
  estimate: false,
};

/**
 * Vacuum flask of 1 L with a narrow neck: a good one of 2 L came to 53 h scaled to 1 L. Coffee pots (5 h) and food jars
 * with a wide mouth (4 to 7 h, nineteen of 0.3 to 0.5 L) are no such flasks: one own reading tells.
 */
export const FLASK_HOURS_AT_1_L: Parameter = {
  value: 22,
  p10: 13,
  p90: 55,
  unit: 'h',
  source: source('flaskReadings', 'scaled to 1 L'),
  estimate: false,
};

/** Below a litre the mouth loses a growing share, and most small ones are jars with a wide one: at half a litre 0.42. */
export const SMALL_FLASK = { power: 1.25, least: 0.42 } as const;

/** One reading of the household's own predicts the time constant of later ones within this factor (P90 of three). */
export const OWN_READING_FACTOR = 1.2;
/** Films, draughts and what the pot stands on: the bare-pot model against nature (estimate). */
const DRAUGHT: Parameter = {
  value: 1,
  p10: 1 / lognormalP90Factor(0.25),
  p90: lognormalP90Factor(0.25),
  unit: '1',
  source: source('kitchenPractice', 'draught and what the pot stands on'),
  estimate: true,
};

type CoolingKind = 'reading' | 'flask' | 'box' | 'bare';

export interface ResolvedCooling {
  kind: CoolingKind;
  parameters: Record<string, Parameter>;
  /** Time constant, h; of a bare pot the mean one over the hours asked. */
  tau: (values: Record<string, number>) => number;
  /** How the heat flow per kelvin goes with the excess over the air: 0 but for a bare pot. */
  exponent: number;
}

/**
 * Time constant, temperatures over time and hours above 60 C, with low, typical and high.
 *
 * Box: `tau = C / UA`, `UA = F / [t / (k sqrt(A_in A_out)) + 1 / (8 A_out)]`. Flask: 22 h at 1 L (13 to 55), times the
 * cube root of the size and the filled share, and below a litre less still (`SMALL_FLASK`). Without insulation: natural convection, radiation and the vapour that passes
 * the lid, all of which lose more per kelvin while the pot is hot (`BareCooling`); its time constant is the mean one over
 * the hours asked. A reading of the household's own replaces all of these and narrows the band to about 20 %. Temperatures
 * follow `Ta + (T0 - Ta) exp(-t / tau)`.
 * @throws OutOfRangeError, InvalidInputError for values outside the ranges or readings that contradict themselves
 */
export function answerCooling(q: CoolingQuestion): CoolingAnswer & WithSpread {
  return answerFrom(q, resolveCooling(q));
}

function answerFrom(q: CoolingQuestion, resolved: ResolvedCooling): CoolingAnswer & WithSpread {
  const { startC, airC } = q;
  const spread = propagateSpread(resolved.parameters, (values) => ({ tauHours: resolved.tau(values) }));
  const tau = spread.percentiles.tauHours;
  const wayDown = (end: keyof Percentiles) => coolingThrough(resolved.exponent, q.hours, tau[end]);
  const ways = { p10: wayDown('p10'), p50: wayDown('p50'), p90: wayDown('p90') };
  const after = (hours: number, end: keyof Percentiles): number =>
    cooledTemperatureC(startC, airC, hours, meanTimeConstantHours(ways[end], hours));
  return {
    timeConstantHours: tau,
    temperatureC: rowHours(q.hours).map((hours) => ({
      hours,
      p10: after(hours, 'p10'),
      p50: after(hours, 'p50'),
      p90: after(hours, 'p90'),
    })),
    hoursAbove60C: {
      p10: bareHoursAboveC(60, startC, airC, ways.p10),
      p50: bareHoursAboveC(60, startC, airC, ways.p50),
      p90: bareHoursAboveC(60, startC, airC, ways.p90),
    },
    spread: spreadShares(spread.effects.tauHours),
  };
}

/** Times of the rows: every half hour up to 6 h, every hour up to a day, then 24 rows; the last is the asked one. */
export function rowHours(hours: number): number[] {
  const step = hours <= 6 ? 0.5 : hours <= 24 ? 1 : hours / 24;
  const rows: number[] = [];
  for (let i = 0; i * step < hours - 1e-9; i += 1) rows.push(i * step);
  rows.push(hours);
  return rows;
}

/** A question turned into parameters, and how its time constant follows from them. */
export function resolveCooling(q: CoolingQuestion): ResolvedCooling {
  const { capacityL } = q.vessel;
  requireInRange('vessel.capacityL', capacityL, 0.1, 200, 'L');
  // A fill that sums to the brim but for rounding is full, not too much.
  const fillL = Math.abs(q.fillL - capacityL) < capacityL * 1e-4 ? capacityL : q.fillL;
  requireInRange('fillL', fillL, 0.05, capacityL, 'L');
  requireInRange('startC', q.startC, 0, 130, 'C');
  requireInRange('airC', q.airC, -50, 60, 'C');
  requireInRange('hours', q.hours, 0, 240, 'h');
  if (q.startC < q.airC)
    throw new InvalidInputError('startC', q.startC, 'must not be below the air: this works out cooling, not warming');
  if (q.measured !== undefined) return measured(q, q.measured);
  if (q.reading !== undefined) return fromReading(q);
  return fromModel(q);
}

/** Flask, box or bare pot as the tables have it. */
function fromModel(q: CoolingQuestion): ResolvedCooling {
  if (q.vessel.kind === 'flask') return flask(q);
  return q.insulation === undefined ? bare(q) : box(q, q.insulation);
}

/** The typical time constant of the model times what the household's own readings say of it. */
function measured(q: CoolingQuestion, { p10, p50, p90 }: Percentiles): ResolvedCooling {
  const model = fromModel(q);
  const typical: Record<string, number> = {};
  for (const [name, { value }] of Object.entries(model.parameters)) typical[name] = value;
  const modelHours = model.tau(typical);
  return {
    kind: 'reading',
    parameters: {
      'own reading': {
        value: p50,
        p10,
        p90,
        unit: '1',
        source: source('gelman2013', 'section 2.5, own readings'),
        estimate: false,
      },
    },
    tau: (v) => (v['own reading'] as number) * modelHours,
    exponent: model.exponent,
  };
}

function fromReading(q: CoolingQuestion): ResolvedCooling {
  const r = q.reading as NonNullable<CoolingQuestion['reading']>;
  requireInRange('reading.hours', r.hours, 0.1, 240, 'h');
  // A flask or pot is usually filled with boiling water for a test: just under the boil where nothing was said.
  const startC = r.startC ?? Math.max(q.startC, r.temperatureC + 1);
  const tau =
    timeConstantFromReading(startC, r.temperatureC, r.hours, r.airC ?? q.airC) *
    fillFactor(q.fillL, q.vessel.capacityL, r.fillShare);
  return {
    kind: 'reading',
    parameters: {
      'own reading': {
        value: tau,
        p10: tau / OWN_READING_FACTOR,
        p90: tau * OWN_READING_FACTOR,
        unit: 'h',
        source: source('flaskReadings', 'time constants of later readings 1.07, 1.19 and 1.23 off'),
        estimate: false,
      },
    },
    tau: (v) => v['own reading'] as number,
    exponent: 0,
  };
}

/**
 * Time constant of a fill over that of the fuller vessel of a reading: the same surface loses the heat of less water. What
 * the pot itself holds is left out, and no fill is taken to keep longer than the one that was read.
 */
function fillFactor(fillL: number, capacityL: number, readShare: number | undefined): number {
  return readShare === undefined ? 1 : Math.min(1, fillL / (readShare * capacityL));
}

function flask(q: CoolingQuestion): ResolvedCooling {
  const litres = q.vessel.capacityL;
  const mouth = Math.max(SMALL_FLASK.least, Math.min(1, litres ** SMALL_FLASK.power));
  const size = Math.cbrt(litres) * mouth;
  const filled = Math.min(q.fillL / q.vessel.capacityL, 1);
  return {
    kind: 'flask',
    parameters: { flask: FLASK_HOURS_AT_1_L },
    tau: (v) => (v.flask as number) * size * filled,
    exponent: 0,
  };
}

function box(q: CoolingQuestion, insulation: NonNullable<CoolingQuestion['insulation']>): ResolvedCooling {
  const material = INSULATION_MATERIALS[insulation.materialId];
  if (material === undefined)
    throw new InvalidInputError('insulation.materialId', insulation.materialId, 'is not a known material');
  requireInRange('insulation.thicknessMm', insulation.thicknessMm, 1, 500, 'mm');
  const own = insulation.conductivityWPerMK;
  if (own !== undefined) requireInRange('insulation.conductivityWPerMK', own, 0.01, 0.5, 'W/(m K)');
  const shape = vesselShape(q.vessel.capacityL);
  const pot = potHeat(q);
  return {
    kind: 'box',
    parameters: {
      insulation: BUILD_FACTOR,
      'insulation material':
        own === undefined
          ? material.conductivityWPerMK
          : { ...material.conductivityWPerMK, value: own, p10: own * 0.95, p90: own * 1.05 },
      draught: DRAUGHT,
      pot,
    },
    tau: (v) =>
      timeConstantHours(
        q.fillL * DISH_HEAT.value + (v.pot as number),
        boxHeatFlowWPerK(
          shape,
          insulation.thicknessMm,
          v['insulation material'] as number,
          v.insulation as number,
          v.draught as number,
        ),
      ),
    exponent: 0,
  };
}

/** A shut pressure cooker lets no vapour out while it cools. */
const SHUT = { value: 0, p10: 0, p90: 0 } as const;

/** The two temperatures at which the loss of a bare pot is worked out: at the start, and at half of its excess. */
export function barePlacesC({ startC, airC }: Pick<CoolingQuestion, 'startC' | 'airC'>): [number, number] {
  const excess = Math.max(startC - airC, 2);
  return [airC + excess, airC + excess / 2];
}

function bare(q: CoolingQuestion): ResolvedCooling {
  const shape = vesselShape(q.vessel.capacityL);
  const shut = q.vessel.kind === 'pressure-cooker';
  const lid: Lid = shut ? 'snug' : (q.vessel.lid ?? 'loose');
  const leak = shut ? SHUT : LEAK_SHARE_AT_REST[lid];
  const material = VESSEL_MATERIALS[q.vessel.material ?? 'stainless'];
  const [hotC, halfC] = barePlacesC(q);
  const cooling = (v: Record<string, number>) => {
    const flow = (atC: number): number =>
      (v.draught as number) *
      bareHeatFlowWPerK(
        shape,
        q.fillL / q.vessel.capacityL,
        atC,
        q.airC,
        v['pot surface'] as number,
        lid,
        v.lid as number,
      );
    return bareCooling(q.fillL * DISH_HEAT.value + (v.pot as number), flow(hotC), flow(halfC));
  };
  const parameters: Record<string, Parameter> = {
    lid: { ...leak, unit: '1', source: source('kettleCooling', 'kettle without an opening'), estimate: true },
    'pot surface': material.emissivity,
    draught: DRAUGHT,
    pot: potHeat(q),
  };
  const typical = Object.fromEntries(Object.entries(parameters).map(([name, { value }]) => [name, value]));
  return {
    kind: 'bare',
    parameters,
    tau: (v) => meanTimeConstantHours(cooling(v), q.hours),
    exponent: cooling(typical).exponent,
  };
}

/** Heat capacity of the empty pot, kJ/K. */
function potHeat(q: CoolingQuestion): Parameter {
  const material = VESSEL_MATERIALS[q.vessel.material ?? 'stainless'];
  if (material === undefined)
    throw new InvalidInputError('vessel.material', q.vessel.material, 'is not a known material');
  const shape = vesselShape(q.vessel.capacityL);
  const heat = (wallMm: number): number =>
    vesselMassKg(shape, wallMm, material, q.vessel.kind) * material.specificHeatKJPerKgK.value;
  const { wallMm } = material;
  return {
    value: heat(wallMm.value),
    p10: heat(wallMm.p10),
    p90: heat(wallMm.p90),
    unit: 'kJ/K',
    source: wallMm.source,
    estimate: true,
  };
}
