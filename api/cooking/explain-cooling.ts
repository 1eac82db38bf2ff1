/** The steps behind the answers on cooling. */
import type { SourceRef } from '../physics/parameter.ts';
import { answerCooling, resolveCooling } from './answer-cooling.ts';
import type { CoolingQuestion, ExplanationStep } from './calculator-types.ts';

const source = (key: SourceRef['key'], place: string): SourceRef => ({ key, place });

/**
 * The steps behind `answerCooling`.
 * @throws as `answerCooling`
 */
export function explainCooling(q: CoolingQuestion): ExplanationStep[] {
  const resolved = resolveCooling(q);
  const answer = answerCooling(q);
  const steps: ExplanationStep[] = Object.entries(resolved.parameters).map(([quantity, p]) => ({
    quantity,
    value: p.value,
    unit: p.unit,
    relation: `parameter, P10 ${Number(p.p10.toPrecision(6))} to P90 ${Number(p.p90.toPrecision(6))}`,
    inputs: [],
    source: p.source,
    estimate: p.estimate,
  }));
  const fact = (quantity: string, value: number, unit: string): void => {
    steps.push({
      quantity,
      value,
      unit,
      relation: 'fact of the question',
      inputs: [],
      source: source('kitchenPractice', 'question'),
      estimate: false,
    });
  };
  fact('capacityL', q.vessel.capacityL, 'L');
  fact('fillL', q.fillL, 'L');
  fact('startC', q.startC, 'C');
  fact('airC', q.airC, 'C');
  if (q.insulation !== undefined) fact('thicknessMm', q.insulation.thicknessMm, 'mm');
  fact('hours', q.hours, 'h');
  steps.push({
    quantity: 'timeConstantHours',
    value: answer.timeConstantHours.p50,
    unit: 'h',
    relation: resolved.relation,
    inputs: resolved.inputs,
    source: resolved.source,
    estimate: false,
  });
  steps.push({
    quantity: 'hoursAbove60C',
    value: answer.hoursAbove60C.p50,
    unit: 'h',
    relation: 'timeConstantHours * ln((startC - airC) / (60 - airC)), 0 where startC is not above 60',
    inputs: ['timeConstantHours', 'startC', 'airC'],
    source: source('still2005', 'exponential cooling'),
    estimate: false,
  });
  steps.push({
    quantity: 'temperatureC',
    value: answer.temperatureC[answer.temperatureC.length - 1]?.p50 ?? q.startC,
    unit: 'C',
    relation: 'airC + (startC - airC) exp(-hours / timeConstantHours)',
    inputs: ['airC', 'startC', 'hours', 'timeConstantHours'],
    source: source('still2005', 'exponential cooling'),
    estimate: false,
  });
  return steps;
}
