/**
 * Wall-clock times as people read them: 24 hours, with the day's name, midnight never without its day. Local date-times
 * are `YYYY-MM-DDTHH:MM`; sums here are for the few minutes between steps of one day, where no clock is changed.
 */
import { fixed, NBSP, type Rounding, roundToStep, withFraction } from './numbers.ts';

const DAY_NAMES = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'] as const;
const MONTH_NAMES = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

/** The date of a local date-time, `YYYY-MM-DD`. */
export function dateOf(local: string): string {
  return local.slice(0, 10);
}

/** Milliseconds of a local date-time read as if it were UTC: for differences and order only. */
export function localMs(local: string): number {
  const match = /^(\d{4})-(\d{2})-(\d{2})(?:T(\d{2}):(\d{2}))?/.exec(local);
  if (match === null) throw new RangeError(`not a local date-time: ${local}`);
  const [, year, month, day, hour = '0', minute = '0'] = match;
  return Date.UTC(Number(year), Number(month) - 1, Number(day), Number(hour), Number(minute));
}

/**
 * A local date-time some minutes later (or earlier), to the whole minute.
 * @param minutes rounded to the nearest minute
 */
export function addMinutes(local: string, minutes: number): string {
  return new Date(localMs(local) + Math.round(minutes) * 60_000).toISOString().slice(0, 16);
}

/** Minutes from one local date-time to another; negative where the second is earlier. */
export function minutesBetween(from: string, to: string): number {
  return (localMs(to) - localMs(from)) / 60_000;
}

/** A date some days later, `YYYY-MM-DD`. */
export function addDays(date: string, days: number): string {
  return addMinutes(`${dateOf(date)}T00:00`, days * 1440).slice(0, 10);
}

/** "Saturday" */
export function dayName(local: string): string {
  return DAY_NAMES[new Date(localMs(dateOf(local))).getUTCDay()] as string;
}

/** "5 December 2026" */
export function dateText(local: string): string {
  const date = new Date(localMs(dateOf(local)));
  const month = MONTH_NAMES[date.getUTCMonth()] as string;
  return `${date.getUTCDate()}${NBSP}${month}${NBSP}${date.getUTCFullYear()}`;
}

/** "Saturday 5 December 2026" */
export function dayAndDate(local: string): string {
  return `${dayName(local)} ${dateText(local)}`;
}

/** "17:05"; midnight as "24:00" of the day that ends, so that nobody reads it as the day before. */
export function clockText(local: string): string {
  const clock = local.slice(11, 16);
  return clock === '00:00' ? '24:00' : clock;
}

/** "Saturday 17:05"; midnight belongs to the day that ends. */
export function dayAndClock(local: string): string {
  const day = local.slice(11, 16) === '00:00' ? addMinutes(local, -1) : local;
  return `${dayName(day)}${NBSP}${clockText(local)}`;
}

/** A clock time on a sheet of one day: the day's name is added where it is another day. */
export function clockOnSheetOf(date: string, local: string): string {
  const endsThatDay = local.slice(11, 16) === '00:00' && dateOf(addMinutes(local, -1)) === dateOf(date);
  return dateOf(local) === dateOf(date) && local.slice(11, 16) !== '00:00'
    ? clockText(local)
    : endsThatDay
      ? '24:00'
      : dayAndClock(local);
}

/**
 * Minutes as words, whole minutes rounded up so that no hold is shortened: "75 min", "2 h 10 min".
 * @param minutes >= 0
 */
export function durationText(minutes: number): string {
  const whole = Math.ceil(minutes - 1e-9);
  if (whole < 120) return `${whole}${NBSP}min`;
  const hours = Math.floor(whole / 60);
  const rest = whole - hours * 60;
  return rest === 0 ? `${hours}${NBSP}h` : `${hours}${NBSP}h${NBSP}${rest}${NBSP}min`;
}

/**
 * A wait in words for whoever has no clock, in quarters of an hour from one hour on, in fives from 20 min: "45 min",
 * "2¼ h". The time beside it is exact.
 * @param minutes >= 0
 * @param rounding `down` where a longer wait would harm
 */
export function waitText(minutes: number, rounding: Rounding = 'nearest'): string {
  if (minutes >= 60) return `${withFraction(minutes / 60, rounding)}${NBSP}h`;
  return `${fixed(roundToStep(minutes, minutes < 20 ? 1 : 5, rounding))}${NBSP}min`;
}
