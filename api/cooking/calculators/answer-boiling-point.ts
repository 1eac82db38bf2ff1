/** Boiling point at a place, from its elevation or from a barometer, with a question back where the entry looks wrong. */
import {
  airPressureKPa,
  ELEVATION_MAXIMUM_M,
  ELEVATION_MINIMUM_M,
  judgeStationReading,
  stationPressureKPa,
} from '../../physics/atmosphere.ts';
import { boilingPointC } from '../../physics/boiling-point.ts';
import { InvalidInputError, requireInRange } from '../../physics/errors.ts';
import { cookerTemperatureC, GAUGE_MAXIMUM_KPA } from '../../physics/pressure-cooker.ts';
import { celsiusToFahrenheit, feetToMetres, metresToFeet } from '../../physics/units.ts';
import type { BoilingPointAnswer, BoilingPointQuestion, WithSpread } from './calculator-types.ts';

/** Above this, few people live: the number may be in feet. */
const ASK_ABOVE_M = 3000;
/** From here up a round number of metres may have been meant as feet, and the mistake costs more than 3 C. */
const ASK_ROUND_FROM_M = 1500;

/**
 * Answers where water boils. Station pressure is used as it stands; a reading reduced to sea level needs the elevation
 * and is converted first; with neither, the standard atmosphere of the elevation holds.
 *
 * The text repeats the boiling point in words; `ask` is set where the elevation looks like the other unit, or where the
 * reading looks like the other kind of pressure (more than 4 % above, or 6 % below, the standard pressure of the place).
 * @param q elevation -430 to 9000 m, station pressure 30 to 110 kPa, sea-level pressure 85 to 110 kPa, gauge 0 to 150 kPa
 * @throws OutOfRangeError outside these ranges
 * @throws InvalidInputError where neither elevation nor station pressure is given
 */
export function answerBoilingPoint(q: BoilingPointQuestion): BoilingPointAnswer & WithSpread {
  const elevationM = q.elevationM ?? null;
  if (elevationM !== null) requireInRange('elevationM', elevationM, ELEVATION_MINIMUM_M, ELEVATION_MAXIMUM_M, 'm');
  if (q.gaugeKPa !== undefined) requireInRange('gaugeKPa', q.gaugeKPa, 0, GAUGE_MAXIMUM_KPA, 'kPa');
  const pressureKPa = pressureOf(q, elevationM);
  const temperatureC = boilingPointC(pressureKPa);
  const answer: BoilingPointAnswer & WithSpread = {
    elevationM,
    pressureKPa,
    boilingPointC: temperatureC,
    text: textOf(elevationM, pressureKPa, temperatureC),
    ask: askAboutReading(q, elevationM) ?? askAboutElevation(elevationM),
    spread: [],
  };
  if (q.gaugeKPa !== undefined) {
    answer.pressureCooker = { gaugeKPa: q.gaugeKPa, temperatureC: cookerTemperatureC(pressureKPa, q.gaugeKPa) };
  }
  return answer;
}

function pressureOf(q: BoilingPointQuestion, elevationM: number | null): number {
  if (q.stationPressureKPa !== undefined) {
    return requireInRange('stationPressureKPa', q.stationPressureKPa, 30, 110, 'kPa');
  }
  if (q.seaLevelPressureKPa !== undefined) {
    requireInRange('seaLevelPressureKPa', q.seaLevelPressureKPa, 85, 110, 'kPa');
    if (elevationM === null)
      throw new InvalidInputError(
        'elevationM',
        null,
        'a pressure reduced to sea level needs the elevation of the place as well',
      );
    return stationPressureKPa(q.seaLevelPressureKPa, elevationM);
  }
  if (elevationM === null)
    throw new InvalidInputError('elevationM', null, 'give the elevation, or a barometer reading of the place');
  return airPressureKPa(elevationM);
}

function textOf(elevationM: number | null, pressureKPa: number, temperatureC: number): string {
  const boils = `water boils at ${temperatureC.toFixed(1)} °C (${celsiusToFahrenheit(temperatureC).toFixed(0)} °F)`;
  if (elevationM === null) return `At an air pressure of ${pressureKPa.toFixed(1)} kPa ${boils}.`;
  return `At ${metresAndFeet(elevationM)} ${boils}.`;
}

function metresAndFeet(elevationM: number): string {
  return `${Math.round(elevationM)} m (${Math.round(metresToFeet(elevationM))} ft)`;
}

function askAboutReading(q: BoilingPointQuestion, elevationM: number | null): string | null {
  if (q.stationPressureKPa !== undefined && elevationM !== null) {
    const verdict = judgeStationReading(q.stationPressureKPa, elevationM);
    if (verdict === 'looks-reduced-to-sea-level')
      return (
        `${q.stationPressureKPa} kPa is high for ${metresAndFeet(elevationM)}. Is it the pressure of a weather report, ` +
        `reduced to sea level? Then water boils at ` +
        `${boilingText(stationPressureKPa(clampSeaLevel(q.stationPressureKPa), elevationM))}.`
      );
    if (verdict === 'looks-corrected-twice')
      return (
        `${q.stationPressureKPa} kPa is low for ${metresAndFeet(elevationM)}. Was it corrected for the elevation twice? ` +
        `The standard pressure there is ${airPressureKPa(elevationM).toFixed(1)} kPa.`
      );
    return null;
  }
  if (q.seaLevelPressureKPa !== undefined && elevationM !== null && q.seaLevelPressureKPa < 94)
    return (
      `${q.seaLevelPressureKPa} kPa is low for a pressure reduced to sea level. Is it the true pressure of the place? ` +
      `Then water boils at ${boilingText(q.seaLevelPressureKPa)}.`
    );
  return null;
}

function clampSeaLevel(kPa: number): number {
  return Math.min(Math.max(kPa, 85), 110);
}

function boilingText(pressureKPa: number): string {
  return `${boilingPointC(pressureKPa).toFixed(1)} °C`;
}

function askAboutElevation(elevationM: number | null): string | null {
  if (elevationM === null) return null;
  const asFeetM = feetToMetres(elevationM);
  const round = Number.isInteger(elevationM / 500);
  if (elevationM > ASK_ABOVE_M || (elevationM >= ASK_ROUND_FROM_M && round))
    return (
      `Is ${Math.round(elevationM)} the elevation in metres? If it is feet, that is ${Math.round(asFeetM)} m, ` +
      `and water boils at ${boilingText(airPressureKPa(asFeetM))}.`
    );
  const feet = metresToFeet(elevationM);
  // A round number of feet that is no whole number of metres was typed in feet: it may have been meant in metres.
  const roundFeet = Math.abs(feet - 500 * Math.round(feet / 500)) < 0.05;
  if (roundFeet && feet >= ASK_ROUND_FROM_M && !Number.isInteger(elevationM) && feet <= ELEVATION_MAXIMUM_M)
    return (
      `Is ${Math.round(feet)} the elevation in feet? If it is metres, water boils at ` +
      `${boilingText(airPressureKPa(feet))}.`
    );
  return null;
}
