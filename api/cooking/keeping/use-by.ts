/** Dates to which packed food keeps its quality. */
import { requireInRange } from '../../physics/errors.ts';

/**
 * The date to which a part keeps its quality: whole months after packing, the day before they end where the month is short.
 * @param packedOn YYYY-MM-DD
 * @param months 0 to 1,200; half a month counts as 15 days
 * @throws OutOfRangeError
 */
export function useByDate(packedOn: string, months: number): string {
  requireInRange('months', months, 0, 1200, 'months');
  const date = new Date(`${packedOn}T00:00Z`);
  const whole = Math.floor(months);
  const day = date.getUTCDate();
  date.setUTCDate(1);
  date.setUTCMonth(date.getUTCMonth() + whole);
  const last = new Date(Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + 1, 0)).getUTCDate();
  date.setUTCDate(Math.min(day, last) + Math.floor((months - whole) * 30));
  return date.toISOString().slice(0, 10);
}
