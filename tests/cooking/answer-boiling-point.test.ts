/** The boiling-point answer: elevation, barometers, questions back (trade-note sequence H10) and H11's pressure side. */
import { describe, expect, it } from 'vitest';
import { answerBoilingPoint } from '../../api/cooking/calculators/answer-boiling-point.ts';
import { explainBoilingPoint } from '../../api/cooking/derivations/explain-boiling-point.ts';
import { airPressureKPa, winterLowPressureKPa } from '../../api/physics/atmosphere.ts';

describe('answerBoilingPoint', () => {
  it('answers from the elevation and says it in words, in both units', () => {
    const answer = answerBoilingPoint({ elevationM: 1920 });
    expect(answer.elevationM).toBe(1920);
    expect(answer.pressureKPa).toBeCloseTo(airPressureKPa(1920), 9);
    expect(answer.boilingPointC).toBeCloseTo(93.58, 1);
    expect(answer.text).toBe('At 1920 m (6299 ft) water boils at 93.6 °C (200 °F).');
    expect(answer.ask).toBeNull();
    expect(answer.pressureCooker).toBeUndefined();
  });

  it('H10: repeats the boiling point and asks where the elevation looks like feet', () => {
    const denver = answerBoilingPoint({ elevationM: 5280 });
    expect(denver.text).toContain('82.3 °C');
    expect(denver.ask).toContain('feet');
    expect(denver.ask).toContain('1609 m');
    expect(denver.ask).toContain('94.6 °C');
    expect(answerBoilingPoint({ elevationM: 1500 }).ask).toContain('457 m');
  });

  it('H10: 1500 typed into a field for feet asks for metres', () => {
    const answer = answerBoilingPoint({ elevationM: 1500 * 0.3048 });
    expect(answer.text).toContain('98.5 °C');
    expect(answer.ask).toContain('metres');
    expect(answer.ask).toContain('95.0 °C');
  });

  it('does not ask about ordinary places', () => {
    for (const elevationM of [-400, 0, 120, 431, 1000, 1340, 1920, 2743]) {
      expect(answerBoilingPoint({ elevationM }).ask).toBeNull();
    }
  });

  it('takes station pressure as it stands, with or without the elevation', () => {
    const alone = answerBoilingPoint({ stationPressureKPa: 84.556 });
    expect(alone.elevationM).toBeNull();
    expect(alone.boilingPointC).toBeCloseTo(94.98, 2);
    expect(alone.text).toContain('84.6 kPa');
    expect(alone.ask).toBeNull();
    expect(answerBoilingPoint({ stationPressureKPa: 83.5, elevationM: 1510 }).ask).toBeNull();
  });

  it('converts a reading reduced to sea level, and needs the elevation for it', () => {
    const answer = answerBoilingPoint({ seaLevelPressureKPa: 101.325, elevationM: 1510 });
    expect(answer.pressureKPa).toBeCloseTo(airPressureKPa(1510), 6);
    expect(() => answerBoilingPoint({ seaLevelPressureKPa: 101.3 })).toThrow(/elevation/);
  });

  it('asks whether a station reading was reduced to sea level, or corrected twice', () => {
    const high = answerBoilingPoint({ stationPressureKPa: 101.3, elevationM: 1510 });
    expect(high.boilingPointC).toBeCloseTo(99.97, 1);
    expect(high.ask).toContain('reduced to sea level');
    expect(high.ask).toContain('94.9 °C');
    expect(answerBoilingPoint({ stationPressureKPa: 70.56, elevationM: 1510 }).ask).toContain('twice');
    expect(answerBoilingPoint({ seaLevelPressureKPa: 88, elevationM: 1210 }).ask).toContain('true pressure');
  });

  it('gives the temperature of a pressure cooker from the pressure in force', () => {
    const answer = answerBoilingPoint({ elevationM: 3010, gaugeKPa: 103.4 });
    expect(answer.pressureCooker?.temperatureC).toBeCloseTo(115.8, 1);
    expect(answerBoilingPoint({ elevationM: 0, gaugeKPa: 103.4 }).pressureCooker?.temperatureC).toBeCloseTo(121, 1);
  });

  it('H11: a station reading of a winter low at 2500 m boils at 90.5 C, where the standard says 91.6 C', () => {
    const low = answerBoilingPoint({ stationPressureKPa: winterLowPressureKPa(2500), elevationM: 2500 });
    expect(Math.abs(low.boilingPointC - 90.5)).toBeLessThan(0.1);
    expect(answerBoilingPoint({ elevationM: 2500 }).boilingPointC).toBeCloseTo(91.64, 2);
    // Deep weather is no reading error.
    expect(low.ask ?? '').not.toContain('twice');
  });

  it('refuses what is out of range and what is missing', () => {
    expect(() => answerBoilingPoint({})).toThrow(/elevation/);
    expect(() => answerBoilingPoint({ elevationM: 9001 })).toThrow(/9000/);
    expect(() => answerBoilingPoint({ elevationM: -431 })).toThrow(/-430/);
    expect(() => answerBoilingPoint({ elevationM: 0, gaugeKPa: 151 })).toThrow(/150/);
    expect(() => answerBoilingPoint({ stationPressureKPa: 1013 })).toThrow(/110/);
  });

  it('explains each step with unit and source', () => {
    const answer = answerBoilingPoint({ elevationM: 800, gaugeKPa: 55 });
    const steps = explainBoilingPoint({ elevationM: 800, gaugeKPa: 55 });
    expect(steps.map((step) => step.quantity)).toEqual([
      'elevationM',
      'pressureKPa',
      'gaugeKPa',
      'inCookerC',
      'boilingPointC',
    ]);
    expect(steps.at(-1)?.value).toBe(answer.boilingPointC);
  });
});
