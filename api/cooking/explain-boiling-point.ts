/** The steps behind the answers on the boiling point. */
import { answerBoilingPoint } from './answer-boiling-point.ts';
import type { BoilingPointQuestion, ExplanationStep } from './calculator-types.ts';

/**
 * The steps behind `answerBoilingPoint`; the boiling point comes last.
 * @throws as `answerBoilingPoint`
 */
export function explainBoilingPoint(q: BoilingPointQuestion): ExplanationStep[] {
  const answer = answerBoilingPoint(q);
  const steps: ExplanationStep[] = [];
  const fact = (quantity: string, value: number, unit: string): void => {
    steps.push({
      quantity,
      value,
      unit,
      relation: 'as asked',
      inputs: [],
      source: { key: 'planner-derivation', place: 'the question' },
      estimate: false,
    });
  };
  const standard = { key: 'standardAtmosphere', place: 'troposphere' } as const;
  const pressure = (relation: string, inputs: string[], source: ExplanationStep['source']): void => {
    steps.push({
      quantity: 'pressureKPa',
      value: answer.pressureKPa,
      unit: 'kPa',
      relation,
      inputs,
      source,
      estimate: false,
    });
  };
  if (q.stationPressureKPa !== undefined) {
    fact('stationPressureKPa', q.stationPressureKPa, 'kPa');
    pressure('stationPressureKPa', ['stationPressureKPa'], { key: 'planner-derivation', place: 'read at this place' });
  } else if (q.seaLevelPressureKPa !== undefined) {
    fact('seaLevelPressureKPa', q.seaLevelPressureKPa, 'kPa');
    fact('elevationM', answer.elevationM as number, 'm');
    pressure(
      '(seaLevelPressureKPa ^ (1 / 5.255876) - 101.325 ^ (1 / 5.255876) * 0.0065 / 288.15 * elevationM) ^ 5.255876',
      ['seaLevelPressureKPa', 'elevationM'],
      { key: 'smithsonianTables', place: 'p. 269, constants of 1976' },
    );
  } else {
    fact('elevationM', answer.elevationM as number, 'm');
    pressure('101.325 * (1 - 0.0065 / 288.15 * elevationM) ^ 5.255876', ['elevationM'], standard);
  }
  const saturation = { key: 'iapwsIf97', place: 'region 4, equation 31' } as const;
  if (answer.pressureCooker !== undefined) {
    fact('gaugeKPa', answer.pressureCooker.gaugeKPa, 'kPa');
    steps.push({
      quantity: 'inCookerC',
      value: answer.pressureCooker.temperatureC,
      unit: 'C',
      relation: 'saturationTemperatureC(pressureKPa + gaugeKPa)',
      inputs: ['pressureKPa', 'gaugeKPa'],
      source: saturation,
      estimate: false,
    });
  }
  steps.push({
    quantity: 'boilingPointC',
    value: answer.boilingPointC,
    unit: 'C',
    relation: 'saturationTemperatureC(pressureKPa)',
    inputs: ['pressureKPa'],
    source: saturation,
    estimate: false,
  });
  return steps;
}
