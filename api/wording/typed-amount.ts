/** Amounts as people type them: "2 x 5 kg", "1,5 kg", "3 cups", "50 lb". Nothing is guessed: what has no unit is refused. */
import { KG_PER_OUNCE, KG_PER_POUND, LITRES_PER_CUP, LITRES_PER_GALLON, LITRES_PER_QUART } from '../physics/units.ts';

const GRAMS_PER_UNIT: Readonly<Record<string, number>> = {
  mg: 0.001,
  g: 1,
  gram: 1,
  grams: 1,
  kg: 1000,
  kilo: 1000,
  kilos: 1000,
  oz: KG_PER_OUNCE * 1000,
  ounce: KG_PER_OUNCE * 1000,
  ounces: KG_PER_OUNCE * 1000,
  lb: KG_PER_POUND * 1000,
  lbs: KG_PER_POUND * 1000,
  pound: KG_PER_POUND * 1000,
  pounds: KG_PER_POUND * 1000,
};

const LITRES_PER_UNIT: Readonly<Record<string, number>> = {
  ml: 0.001,
  cl: 0.01,
  dl: 0.1,
  l: 1,
  litre: 1,
  litres: 1,
  liter: 1,
  liters: 1,
  tsp: LITRES_PER_CUP / 48,
  tbsp: LITRES_PER_CUP / 16,
  cup: LITRES_PER_CUP,
  cups: LITRES_PER_CUP,
  qt: LITRES_PER_QUART,
  quart: LITRES_PER_QUART,
  quarts: LITRES_PER_QUART,
  gal: LITRES_PER_GALLON,
  gallon: LITRES_PER_GALLON,
  gallons: LITRES_PER_GALLON,
};

export const KNOWN_UNITS = 'g, kg, oz, lb, mL, L, tsp, tbsp, cups, qt, gal';

/** What was typed, as mass or as volume of the loose food; `fault` says what to type instead. */
export type TypedAmount = { massG: number } | { litres: number } | { fault: string };

/**
 * Reads an amount.
 * @param text a number with a decimal point or comma, a unit, and, where there are several alike, their count before an x
 * @returns g, or L of the loose food, both >= 0; or what is wrong with it
 */
export function readTypedAmount(text: string): TypedAmount {
  const plain = text
    .trim()
    .toLowerCase()
    .replaceAll(/[\u00a0\u202f]/g, ' ');
  const match = /^(?:(\d{1,5})\s*[x×*]\s*)?([-\u2212+]?[\d.,' ]*\d)\s*([\p{L}]+)?\.?$/u.exec(plain);
  if (match === null) return { fault: `Type a number and a unit: ${KNOWN_UNITS}.` };
  const [, count, digits = '', unit] = match;
  const [whole, thousands] = digits.trim().split(',');
  if (/^[1-9]\d{0,2},\d{3}$/.test(digits.trim()))
    return { fault: `${digits.trim()} may mean ${whole}.${thousands} or ${whole}${thousands}: type one of these.` };
  const value = readDigits(digits);
  if (value === null) return { fault: `${digits.trim()} is no number. Type it like 1.5 or 1,5.` };
  if (value < 0) return { fault: 'An amount is 0 or more.' };
  if (unit === undefined) return { fault: `Add the unit: ${KNOWN_UNITS}.` };
  const times = count === undefined ? 1 : Number(count);
  if (Object.hasOwn(GRAMS_PER_UNIT, unit)) return { massG: times * value * (GRAMS_PER_UNIT[unit] as number) };
  if (Object.hasOwn(LITRES_PER_UNIT, unit)) return { litres: times * value * (LITRES_PER_UNIT[unit] as number) };
  return { fault: `The unit "${unit}" is not known. Use ${KNOWN_UNITS}.` };
}

const PER_SERVING = /\s*(?:\/|per|a|each)\s*(?:serving|portion|person)s?\s*$/i;

/**
 * The mass of what was typed; "60 g a serving" counts for all servings.
 * @param bulkGPerL density of the loose food, g/L, > 0
 * @param servings of the whole, > 0
 * @returns g, or the fault
 */
export function massOfTyped(text: string, bulkGPerL: number, servings = 1): { massG: number } | { fault: string } {
  const amount = readTypedAmount(text.replace(PER_SERVING, ''));
  if ('fault' in amount) return amount;
  const massG = 'litres' in amount ? amount.litres * bulkGPerL : amount.massG;
  return { massG: PER_SERVING.test(text) ? massG * servings : massG };
}

/** A number with point or comma: where both stand, the last is the decimal one. */
function readDigits(text: string): number | null {
  const digits = text.replaceAll(/[' ]/g, '').replace('\u2212', '-');
  const comma = digits.lastIndexOf(',');
  const point = digits.lastIndexOf('.');
  let plain = digits;
  if (comma >= 0 && point >= 0)
    plain = comma > point ? digits.replaceAll('.', '').replace(',', '.') : digits.replaceAll(',', '');
  else if (comma >= 0) plain = digits.replace(',', '.');
  return /^[-+]?\d*\.?\d+$/.test(plain) ? Number(plain) : null;
}
