/** Sentences of the planner name figures in metric units; a reader of US units gets these first and the metric beside. */

import { kPaToPsi, metresToFeet } from '../physics/units.ts';
import { fixed, NBSP, roundToStep } from './numbers.ts';
import { massText, temperatureText, type UnitSystem, volumeText } from './units.ts';

/** Both figures side by side, the metric one first; some sentences part number and unit by a plain space. */
const METRIC_FIRST =
  /([\u2212-]?\d[\d.,½¼¾\u202f]*[ \u00a0](?:°C|kPa|mL|L|kg|g|m|mm)) \((\S+[ \u00a0](?:°F|psi|cups?|gal|lb|oz|fl|ft|in|tbsp)[^()]*)\)/g;

/** A US figure with its metric one behind, which stays; or a metric figure with none beside it. Food is told in grams. */
const FIGURES =
  /(?:°F|cups?|gal|lb|oz|ft|psi|tbsp) \([^()]*\)|([\u2212-]?\d[\d.\u202f]*)[ \u00a0](°C|C|kPa|mL|L|kg|g|m)(?![\w/]| \(| of protein)/g;

const IN_US: Readonly<Record<string, (value: number) => string>> = {
  L: (litres) => volumeText(litres, 'us'),
  mL: (millilitres) => volumeText(millilitres / 1000, 'us'),
  kg: (kg) => massText(kg, 'us'),
  g: (grams) => massText(grams / 1000, 'us'),
  '°C': (celsius) => temperatureText(celsius, 'us'),
  C: (celsius) => temperatureText(celsius, 'us'),
  kPa: (kPa) => `${fixed(roundToStep(kPaToPsi(kPa), 0.1), 1)}${NBSP}psi`,
  m: (metres) => `${fixed(roundToStep(metresToFeet(metres), 10))}${NBSP}ft`,
};

/**
 * A sentence with its figures in the wanted units first: "holds 6 L" to "holds 1½ gal (6 L)". The metric figure stays beside
 * the rounded one, so that a limit is never told rounded alone.
 * @param text metric, or with both side by side
 */
export function textInSystem(text: string, system: UnitSystem): string {
  if (system === 'metric') return text;
  return text
    .replace(METRIC_FIRST, '$2 ($1)')
    .replace(FIGURES, (found, number: string | undefined, unit: string | undefined) => {
      if (number === undefined || unit === undefined) return found;
      const value = Number(number.replace('\u2212', '-').replaceAll('\u202f', '').replace(/\.$/, ''));
      const told = IN_US[unit];
      // Below nothing there are temperatures and elevations, but no amounts.
      if (
        told === undefined ||
        Number.isNaN(value) ||
        (value < 0 && /^[\u2212-]/.test(number) && /^(L|mL|kg|g)$/.test(unit))
      )
        return found;
      return `${told(value)} (${found})`;
    });
}
