/** Minutes at 100 C that a temperature history is worth: come-up, boil, pressure release, retained-heat box. */
import { timeFactor } from './softening-kinetics.ts';

export interface Reading {
  minutes: number;
  temperatureC: number;
}

/**
 * Cook value of a history, `C = integral 10^((T - 100)/z) dt`, in minutes at 100 C.
 *
 * Between readings the temperature is linear, for which the integral of `10^(aT)` is exact; stretches below `cutOffC`
 * count nothing.
 * @param readings in order of time, at least two for any credit
 * @param cutOffC C; readings below it give no credit
 */
export function cookValue(readings: readonly Reading[], zBelow: number, zAbove: number, cutOffC: number): number {
  let sum = 0;
  for (let i = 1; i < readings.length; i += 1) {
    const a = readings[i - 1] as Reading;
    const b = readings[i] as Reading;
    const minutes = b.minutes - a.minutes;
    if (minutes <= 0) continue;
    sum += linearCredit(a.temperatureC, b.temperatureC, minutes, zBelow, zAbove, cutOffC);
  }
  return sum;
}

function linearCredit(fromC: number, toC: number, minutes: number, zBelow: number, zAbove: number, cutOffC: number) {
  const low = Math.min(fromC, toC);
  const high = Math.max(fromC, toC);
  if (high - low < 1e-9) return low >= cutOffC ? minutes / timeFactor(low, zBelow, zAbove) : 0;
  const perK = minutes / (high - low);
  const part = (a: number, b: number, z: number) =>
    b > a ? ((perK * z) / Math.LN10) * (10 ** ((b - 100) / z) - 10 ** ((a - 100) / z)) : 0;
  const start = Math.max(low, cutOffC);
  return part(start, Math.min(high, 100), zBelow) + part(Math.max(start, 100), high, zAbove);
}

/**
 * Credit of a pressure cooker that cools by itself, linearly, from its temperature to 100 C:
 * `C = tr/(T - 100) * (z/ln10) * (10^((T-100)/z) - 1)`, minutes at 100 C.
 * @param temperatureC C, above 100
 * @param releaseMinutes min, >= 0
 */
export function releaseCookValue(temperatureC: number, releaseMinutes: number, zAbove: number): number {
  return linearCredit(temperatureC, 100, releaseMinutes, zAbove, zAbove, 0);
}

/**
 * Temperature in a box by Newton's law, C.
 * @param minutes since the pot went in
 * @param timeConstantHours > 0
 */
export function boxTemperatureC(startC: number, airC: number, timeConstantHours: number, minutes: number): number {
  return airC + (startC - airC) * Math.exp(-minutes / 60 / timeConstantHours);
}

/** Minutes until a box has cooled to a temperature; infinite where it never does, 0 where it starts below. */
export function minutesToCoolTo(targetC: number, startC: number, airC: number, timeConstantHours: number): number {
  if (startC <= targetC) return 0;
  if (airC >= targetC) return Number.POSITIVE_INFINITY;
  return 60 * timeConstantHours * Math.log((startC - airC) / (targetC - airC));
}

const BOX_PANELS = 64;

/**
 * Cook value collected in a box within a time, minutes at 100 C, by Simpson's rule.
 * @param minutes in the box, >= 0
 * @param cutOffC C; use a temperature below the air for no cut-off
 */
export function boxCookValue(p: {
  startC: number;
  airC: number;
  timeConstantHours: number;
  minutes: number;
  zBelow: number;
  zAbove: number;
  cutOffC: number;
}): number {
  const end = Math.min(p.minutes, minutesToCoolTo(p.cutOffC, p.startC, p.airC, p.timeConstantHours));
  if (end <= 0) return 0;
  const step = end / BOX_PANELS;
  let sum = 0;
  for (let i = 0; i <= BOX_PANELS; i += 1) {
    const weight = i === 0 || i === BOX_PANELS ? 1 : i % 2 === 1 ? 4 : 2;
    const temperature = boxTemperatureC(p.startC, p.airC, p.timeConstantHours, i * step);
    sum += weight / timeFactor(temperature, p.zBelow, p.zAbove);
  }
  return (sum * step) / 3;
}
