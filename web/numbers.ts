/**
 * Reading numbers as people write them, and writing them so that they read back.
 *
 * A decimal comma is the custom in much of the world, so digits are grouped by a space, never by a comma
 * (NIST SP 811 section 10.5.3); `1,500` typed by a user may mean either and is asked about.
 */

import { roundToStep } from '../api/wording/numbers.ts';

export type ReadNumber =
  | { outcome: 'number'; value: number }
  | { outcome: 'empty' }
  /** Both readings, the decimal one first. */
  | { outcome: 'ambiguous'; readings: [number, number] }
  | { outcome: 'not-a-number' };

const VULGAR: Readonly<Record<string, [number, number]>> = {
  '½': [1, 2],
  '⅓': [1, 3],
  '⅔': [2, 3],
  '¼': [1, 4],
  '¾': [3, 4],
  '⅛': [1, 8],
  '⅜': [3, 8],
  '⅝': [5, 8],
  '⅞': [7, 8],
};

const GROUP_SPACE = '\u202f';
const SPACES = /[\s\u00a0\u2007\u2009\u200a\u202f]+/g;
const MINUS_SIGNS = /^[-\u2010-\u2015\u2212\ufe63\uff0d]\s*/;

/**
 * Reads a number from what somebody typed: `1.5`, `1,5`, `1 500`, `1/2`, `1 1/2`, `1½`, a minus sign of any kind, and a
 * unit behind it.
 * @param text what was typed
 * @param units units that may stand behind the number; case is ignored, any other word makes it no number
 * @returns the number; or both readings where a single comma stands before exactly three digits
 */
export function readNumber(text: string, units: readonly string[] = []): ReadNumber {
  let rest = text.replace(SPACES, ' ').trim();
  if (rest === '') return { outcome: 'empty' };
  rest = withoutUnit(rest, units);
  const negative = MINUS_SIGNS.test(rest);
  rest = rest.replace(MINUS_SIGNS, '').replace(/^\+\s*/, '');
  const sign = negative ? -1 : 1;
  const fraction = readFraction(rest);
  if (fraction !== null) return found(sign * fraction);
  // A single comma before three digits: decimal in one custom, grouping in the other.
  if (/^[1-9]\d{0,2},\d{3}$/.test(rest)) {
    return {
      outcome: 'ambiguous',
      readings: [sign * Number(rest.replace(',', '.')), sign * Number(rest.replace(',', ''))],
    };
  }
  const plain = plainDigits(rest);
  return plain === null ? { outcome: 'not-a-number' } : found(sign * Number(plain));
}

/**
 * Writes a number with at most `digits` decimals, grouped by narrow spaces from five digits on.
 * @param value any finite number
 * @param digits most decimals, 0 to 6; trailing zeros are dropped
 * @param mark decimal mark
 */
export function writeNumber(value: number, digits = 2, mark: '.' | ',' = '.'): string {
  if (!Number.isFinite(value)) return '–';
  const [whole = '0', decimals = ''] = Math.abs(value).toFixed(digits).split('.');
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, GROUP_SPACE) : whole;
  const kept = decimals.replace(/0+$/, '');
  const magnitude = kept === '' ? grouped : `${grouped}${mark}${kept}`;
  return value < 0 && /[1-9]/.test(magnitude) ? `−${magnitude}` : magnitude;
}

/** Writes a number with about three figures that matter: 0.046, 1.38, 12.4, 140, 1 520. */
export function writeShort(value: number): string {
  const size = Math.abs(value);
  if (size >= 100) return writeNumber(value, 0);
  if (size >= 10) return writeNumber(value, 1);
  return writeNumber(value, size >= 1 ? 2 : 3);
}

/** Hours that must not be passed, in tenths and never rounded up: 11.97 reads 11.9. @param hours h, >= 0 */
export function hoursAtMost(hours: number): string {
  return writeNumber(roundToStep(hours, 0.1, 'down'), 1);
}

function found(value: number): ReadNumber {
  // Minus zero is no number anybody means.
  return Number.isFinite(value) ? { outcome: 'number', value: value === 0 ? 0 : value } : { outcome: 'not-a-number' };
}

function withoutUnit(text: string, units: readonly string[]): string {
  const lower = text.toLowerCase();
  for (const unit of [...units].sort((a, b) => b.length - a.length)) {
    if (unit !== '' && lower.endsWith(unit.toLowerCase())) return text.slice(0, -unit.length).trim();
  }
  return text;
}

function readFraction(text: string): number | null {
  const vulgar = /^(\d*) ?([½⅓⅔¼¾⅛⅜⅝⅞])$/.exec(text);
  if (vulgar !== null) {
    const [top, bottom] = VULGAR[vulgar[2] ?? ''] ?? [0, 1];
    return Number(vulgar[1] || 0) + top / bottom;
  }
  const written = /^(?:(\d+) )?(\d+) ?[/\u2044] ?(\d+)$/.exec(text);
  if (written === null || Number(written[3]) === 0) return null;
  return Number(written[1] ?? 0) + Number(written[2]) / Number(written[3]);
}

function plainDigits(text: string): string | null {
  const ungrouped = /^\d{1,3}( \d{3})+(?=[.,]\d+$|$)/.test(text) ? text.replaceAll(' ', '') : text;
  if (/^(\d+([.,]\d*)?|[.,]\d+)$/.test(ungrouped)) return ungrouped.replace(',', '.');
  if (/^\d{1,3}(,\d{3})+\.\d+$/.test(ungrouped) || /^\d{1,3}(,\d{3}){2,}$/.test(ungrouped)) {
    return ungrouped.replaceAll(',', '');
  }
  if (/^\d{1,3}(\.\d{3})+,\d+$/.test(ungrouped) || /^\d{1,3}(\.\d{3}){2,}$/.test(ungrouped)) {
    return ungrouped.replaceAll('.', '').replace(',', '.');
  }
  return null;
}
