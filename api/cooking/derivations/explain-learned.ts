/** The steps behind a figure of the household's own: the table's band, each record that counts, and what they leave. */
import type { SourceRef } from '../../physics/parameter.ts';
import { Z_90 } from '../../physics/parameter.ts';
import type { ExplanationStep } from '../calculators/calculator-types.ts';
import { logNormalOf, scatterFactor, updateLogNormal } from '../measurements/bayes.ts';
import type { Learned, LearnedFigure } from '../measurements/learned.ts';
import { stepList } from './explanation-steps.ts';

const UPDATE: SourceRef = { key: 'gelman2013', place: 'section 2.5, equations 2.11 and 2.12, in logarithms' };
const SCATTER: SourceRef = { key: 'birge1932', place: 'readings that lie further apart than their spreads allow' };
const OWN: SourceRef = {
  key: 'planner-derivation',
  place: 'the records of own tests, each run backwards through its calculator',
};
const TABLE: SourceRef = { key: 'planner-derivation', place: 'the band that the calculator has without own tests' };

/**
 * The last step is `ownFigure`, the typical value that counts now; its ends are `ownLow` and `ownHigh`.
 * @param figure one with evidence, else its typical value stands as it is kept
 */
export function explainLearned(figure: LearnedFigure): ExplanationStep[] {
  const { table, now, unit, evidence } = figure;
  const list = stepList();
  list.fact(
    'tableTypical',
    table.p50,
    unit,
    figure.stated === null ? 'of the table' : 'about what the household states',
    OWN,
  );
  if (evidence === undefined) {
    list.fact(
      'ownFigure',
      now.p50,
      unit,
      figure.records.length === 0
        ? 'no test counts: as the table has it'
        : 'seeds that were counted, or weighings of a plan, are summed over a grid or on top of the tests',
      UPDATE,
    );
    return list.steps;
  }
  list.fact('tableLow', table.p10, unit, '10th percentile without tests', TABLE);
  list.fact('tableHigh', table.p90, unit, '90th percentile without tests', TABLE);
  const prior = { mean: 0, sd: logNormalOf(table).sd };
  list.computed('tableSpread', prior.sd, '1', `ln(tableHigh / tableLow) / (2 * ${Z_90})`, UPDATE);
  const readings = evidence.readings.map(({ factor, sdLn }) => ({ mean: Math.log(factor), sd: sdLn }));
  for (const [index, { id, factor, sdLn }] of evidence.readings.entries()) {
    list.fact(`test${index + 1}Factor`, factor, '1', `what the record ${id} says over what the table has`, OWN);
    list.fact(`test${index + 1}Spread`, sdLn, '1', 'what wind, lid, pot, scale, clock and the cook blur of it', OWN);
  }
  const names = readings.map((_reading, index) => `test${index + 1}`);
  const widened = scatterFactor(readings);
  if (readings.length > 1) {
    const sum = (of: (name: string) => string) => names.map(of).join(' + ');
    list.computed(
      'testsMiddle',
      middleOf(readings),
      '1',
      `(${sum((name) => `ln(${name}Factor) / ${name}Spread ^ 2`)}) / (${sum((name) => `1 / ${name}Spread ^ 2`)})`,
      SCATTER,
    );
    list.computed(
      'scatter',
      widened,
      '1',
      `max(1, sqrt((${sum((name) => `((ln(${name}Factor) - testsMiddle) / ${name}Spread) ^ 2`)}) / ${readings.length - 1}))`,
      SCATTER,
    );
  } else list.fact('scatter', widened, '1', 'one test contradicts nobody', SCATTER);
  const after = updateLogNormal(prior, readings);
  const weight = (name: string) => `1 / (scatter * ${name}Spread) ^ 2`;
  list.computed('precision', 1 / after.sd ** 2, '1', `1 / tableSpread ^ 2 + ${names.map(weight).join(' + ')}`, UPDATE);
  list.computed(
    'ownShift',
    after.mean,
    '1',
    `(${names.map((name) => `ln(${name}Factor) / (scatter * ${name}Spread) ^ 2`).join(' + ')}) / precision`,
    UPDATE,
  );
  list.fact('sharedSpread', evidence.sharedSdLn, '1', 'what all tests of a kitchen share', OWN);
  const spread = Math.min(prior.sd, Math.hypot(after.sd, evidence.sharedSdLn));
  list.computed('ownSpread', spread, '1', 'min(tableSpread, sqrt(1 / precision + sharedSpread ^ 2))', UPDATE);
  const high = table.p50 * Math.exp(after.mean + Z_90 * spread);
  // No stove gives a pot more than it burns.
  const down = unit === '1' ? Math.min(1, 1 / high) : 1;
  const most = unit === '1' ? ` * min(1, 1 / (tableTypical * exp(ownShift + ${Z_90} * ownSpread)))` : '';
  list.computed('ownLow', now.p10, unit, `tableTypical * exp(ownShift - ${Z_90} * ownSpread)${most}`, UPDATE);
  list.computed('ownHigh', high * down, unit, `tableTypical * exp(ownShift + ${Z_90} * ownSpread)${most}`, UPDATE);
  list.computed('ownFigure', now.p50, unit, `tableTypical * exp(ownShift)${most}`, UPDATE);
  return list.steps;
}

type Explained<Of> = { [K in keyof Of]: Of[K] extends LearnedFigure ? ExplainedFigure : Of[K] };
export type ExplainedFigure = LearnedFigure & { explanation: ExplanationStep[] };
export interface ExplainedLearned {
  stoves: Explained<Learned['stoves'][number]>[];
  cooling: Explained<Learned['cooling'][number]>[];
  lots: Explained<Learned['lots'][number]>[];
}

/** The figures of a household, each with its derivation. */
export function explainLearnedFigures({ stoves, cooling, lots }: Omit<Learned, 'effects'>): ExplainedLearned {
  const withSteps = (figure: LearnedFigure): ExplainedFigure => ({ ...figure, explanation: explainLearned(figure) });
  return {
    stoves: stoves.map((one) => ({
      ...one,
      efficiency: withSteps(one.efficiency),
      powerKW: withSteps(one.powerKW),
    })),
    cooling: cooling.map((one) => ({ ...one, timeConstantHours: withSteps(one.timeConstantHours) })),
    lots: lots.map((one) => ({ ...one, minutesFactor: withSteps(one.minutesFactor) })),
  };
}

function middleOf(readings: readonly { mean: number; sd: number }[]): number {
  const precision = readings.reduce((sum, { sd }) => sum + 1 / sd ** 2, 0);
  return readings.reduce((sum, { mean, sd }) => sum + mean / sd ** 2, 0) / precision;
}
