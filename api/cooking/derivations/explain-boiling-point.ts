/** The steps behind the answers on the boiling point. */
import { airPressureKPa } from '../../physics/atmosphere.ts';
import { boilingPointC } from '../../physics/boiling-point.ts';
import type { SourceRef } from '../../physics/parameter.ts';
import { answerBoilingPoint } from '../calculators/answer-boiling-point.ts';
import type { BoilingPointQuestion, ExplanationStep } from '../calculators/calculator-types.ts';
import { type StepList, stepList, THE_QUESTION } from './explanation-steps.ts';

export const SATURATION: SourceRef = { key: 'iapwsIf97', place: 'region 4, equation 31' };

/**
 * The steps behind `answerBoilingPoint`; the boiling point comes last.
 * @throws as `answerBoilingPoint`
 */
export function explainBoilingPoint(q: BoilingPointQuestion): ExplanationStep[] {
  const answer = answerBoilingPoint(q);
  const list = stepList();
  if (answer.elevationM !== null) list.fact('elevationM', answer.elevationM, 'm');
  if (q.stationPressureKPa !== undefined) {
    list.fact('stationPressureKPa', q.stationPressureKPa, 'kPa', 'as read at this place');
    list.computed('pressureKPa', answer.pressureKPa, 'kPa', 'stationPressureKPa', THE_QUESTION);
  } else if (q.seaLevelPressureKPa !== undefined) {
    list.fact('seaLevelPressureKPa', q.seaLevelPressureKPa, 'kPa', 'as read, reduced to sea level');
    list.computed(
      'pressureKPa',
      answer.pressureKPa,
      'kPa',
      '(seaLevelPressureKPa ^ (1 / 5.255876) - 101.325 ^ (1 / 5.255876) * 0.0065 / 288.15 * elevationM) ^ 5.255876',
      { key: 'smithsonianTables', place: 'p. 269, constants of 1976' },
    );
  } else addStandardPressure(list, answer.elevationM as number);
  if (answer.pressureCooker !== undefined) {
    list.fact('gaugeKPa', answer.pressureCooker.gaugeKPa, 'kPa');
    const inCookerC = answer.pressureCooker.temperatureC;
    list.computed('inCookerC', inCookerC, 'C', 'saturationTemperatureC(pressureKPa + gaugeKPa)', SATURATION);
  }
  list.computed('boilingPointC', answer.boilingPointC, 'C', 'saturationTemperatureC(pressureKPa)', SATURATION);
  return list.steps;
}

/** The standard pressure of an elevation, `pressureKPa`; `elevationM` must be listed. */
function addStandardPressure(list: StepList, elevationM: number): void {
  list.computed(
    'pressureKPa',
    airPressureKPa(elevationM),
    'kPa',
    '101.325 * (1 - 0.0065 / 288.15 * elevationM) ^ 5.255876',
    {
      key: 'standardAtmosphere',
      place: 'troposphere',
    },
  );
}

/** From an elevation to `pressureKPa` and `boilingPointC` of an open pot there. */
export function addBoilingPointAt(list: StepList, elevationM: number): void {
  list.fact('elevationM', elevationM, 'm');
  addStandardPressure(list, elevationM);
  const boilC = boilingPointC(airPressureKPa(elevationM));
  list.computed('boilingPointC', boilC, 'C', 'saturationTemperatureC(pressureKPa)', SATURATION);
}
