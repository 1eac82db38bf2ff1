/** Amounts as people type them into lists: decimal points and commas, separators of thousands, a unit behind. */

export type ReadAmount =
  | { outcome: 'amount'; value: number; unit: string }
  /** One separator with three digits behind it: `1,500`. */
  | { outcome: 'ambiguous'; readings: [number, number] }
  | { outcome: 'empty' }
  | { outcome: 'not-a-number' };

/**
 * Reads an amount.
 * @param decimalComma whether the list writes its decimals with commas, as one does whose cells are separated by semicolons
 */
export function readAmount(text: string, decimalComma: boolean): ReadAmount {
  const typed = text.trim();
  if (typed === '') return { outcome: 'empty' };
  const parts = /^([+\-−]?)\s*(\d[\d.,'’\s\u00a0\u202f]*)([^\d]*)$/.exec(typed);
  if (parts === null) return { outcome: 'not-a-number' };
  const sign = parts[1] === '-' || parts[1] === '−' ? -1 : 1;
  const unit = (parts[3] ?? '').trim();
  const digits = (parts[2] ?? '').replaceAll(/['’\s\u00a0\u202f]/g, '').replace(/[.,]$/, '');
  const marks = digits.replaceAll(/\d/g, '');
  const amount = (plain: string): ReadAmount => ({ outcome: 'amount', value: sign * Number(plain), unit });
  if (marks === '') return amount(digits);
  const last = marks.at(-1) as string;
  const others = new Set(marks.slice(0, -1));
  if (others.has(last) || others.size > 1) {
    // The same mark twice parts thousands; nothing else can stand between them.
    return marks.split('').every((mark) => mark === last) && /^\d{1,3}([.,]\d{3})+$/.test(digits)
      ? amount(digits.replaceAll(/[.,]/g, ''))
      : { outcome: 'not-a-number' };
  }
  const [whole = '', fraction = ''] = [
    digits.slice(0, digits.lastIndexOf(last)),
    digits.slice(digits.lastIndexOf(last) + 1),
  ];
  if (others.size === 1)
    return /^\d{1,3}([.,]\d{3})+$/.test(whole)
      ? amount(`${whole.replaceAll(/[.,]/g, '')}.${fraction}`)
      : { outcome: 'not-a-number' };
  const isDecimal = fraction.length !== 3 || whole.length > 3 || /^0/.test(whole) || (last === ',' && decimalComma);
  if (isDecimal) return amount(`${whole}.${fraction}`);
  return {
    outcome: 'ambiguous',
    readings: [sign * Number(`${whole}.${fraction}`), sign * Number(`${whole}${fraction}`)],
  };
}

/**
 * Reads a date as lists have it.
 * @returns `YYYY-MM-DD`; null: it is no date, or day and month cannot be told apart
 */
export function readListDate(text: string): string | null {
  const typed = text.trim();
  const iso = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(typed);
  if (iso !== null) return dateOf(Number(iso[1]), Number(iso[2]), Number(iso[3]));
  const dots = /^(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4})$/.exec(typed);
  if (dots !== null) return dateOf(Number(dots[3]), Number(dots[2]), Number(dots[1]));
  const slashes = /^(\d{1,2})[/-](\d{1,2})[/-](\d{4})$/.exec(typed);
  if (slashes === null) return null;
  const [first, second, year] = slashes.slice(1).map(Number) as [number, number, number];
  if (first === second) return dateOf(year, first, second);
  if (first > 12) return dateOf(year, second, first);
  if (second > 12) return dateOf(year, first, second);
  return null;
}

function dateOf(year: number, month: number, day: number): string | null {
  const made = new Date(Date.UTC(year, month - 1, day));
  const real = year >= 1900 && year <= 2199 && made.getUTCMonth() === month - 1 && made.getUTCDate() === day;
  return real ? made.toISOString().slice(0, 10) : null;
}
