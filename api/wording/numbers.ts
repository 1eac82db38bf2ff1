/** Figures as people read them: fixed decimals, kitchen fractions, and rounding that knows which side is the safe one. */

/** Non-breaking space: keeps a number and its unit on one line. */
export const NBSP = '\u00a0';

/** `up` for a least amount (boil, bleach, water to have), `down` for a most amount, `nearest` for the rest. */
export type Rounding = 'nearest' | 'up' | 'down';

/**
 * Rounds to a multiple of a step.
 * @param value finite number, any unit
 * @param step > 0, same unit
 * @returns the multiple; 'up' is never below and 'down' never above the value beyond one part in 10^9
 */
export function roundToStep(value: number, step: number, rounding: Rounding = 'nearest'): number {
  const steps = value / step;
  // Binary fractions: 0.30000000000000004 is three tenths, not four.
  const slack = 1e-9 * Math.max(1, Math.abs(steps));
  const whole =
    rounding === 'up' ? Math.ceil(steps - slack) : rounding === 'down' ? Math.floor(steps + slack) : Math.round(steps);
  return Number((whole * step).toPrecision(12));
}

/**
 * A number with fixed decimals and thin non-breaking spaces between groups of three from 10 000 up.
 * @param value finite number
 * @param decimals 0 to 6
 */
export function fixed(value: number, decimals = 0): string {
  const text = Math.abs(value).toFixed(decimals);
  const [whole = '0', fraction] = text.split('.');
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, '\u202f') : whole;
  const negative = value < 0 && Number(text) !== 0;
  return `${negative ? '\u2212' : ''}${grouped}${fraction === undefined ? '' : `.${fraction}`}`;
}

/**
 * A number in quarters with the fraction as one sign: 8½, 1¼, ¾, 3.
 * @param value >= 0
 */
export function withFraction(value: number, rounding: Rounding = 'nearest', step: 0.25 | 0.5 | 1 = 0.25): string {
  const rounded = roundToStep(value, step, rounding);
  const whole = Math.floor(rounded + 1e-9);
  const sign = ['', '¼', '½', '¾'][Math.round((rounded - whole) * 4)] ?? '';
  return whole === 0 && sign !== '' ? sign : `${fixed(whole)}${sign}`;
}
