/**
 * Wall-clock times of a place as minutes on one line, so that elapsed time (a soak over a change of the clocks) comes
 * out right. A local time is written `YYYY-MM-DDTHH:MM`.
 */
import { Temporal } from 'temporal-polyfill';

/**
 * @param local wall-clock date-time, `YYYY-MM-DDTHH:MM`
 * @param timeZone IANA name
 * @returns minutes since 1970-01-01T00:00Z; a time that a change of the clocks skips is taken an hour later
 * @throws RangeError when the date or the zone does not exist
 */
export function toMinute(local: string, timeZone: string): number {
  const plain = Temporal.PlainDateTime.from(local, { overflow: 'reject' });
  return Math.round(plain.toZonedDateTime(timeZone).epochMilliseconds / 60000);
}

/** The wall-clock date-time of a minute, `YYYY-MM-DDTHH:MM`. */
export function toLocal(minute: number, timeZone: string): string {
  return Temporal.Instant.fromEpochMilliseconds(Math.round(minute) * 60000)
    .toZonedDateTimeISO(timeZone)
    .toPlainDateTime()
    .toString({ smallestUnit: 'minute' });
}

/** The date `days` after a date, `YYYY-MM-DD`. */
export function addDays(date: string, days: number): string {
  return Temporal.PlainDate.from(date).add({ days }).toString();
}

/** Minutes from one wall-clock time to another by the calendar alone, whatever the clocks are put forward or back; < 0 backwards. */
export function clockMinutesBetween(from: string, to: string): number {
  return (Date.parse(`${to}Z`) - Date.parse(`${from}Z`)) / 60_000;
}

/** Calendar days from one wall-clock time to another; < 0 backwards. */
export function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(`${to.slice(0, 10)}T00:00Z`) - Date.parse(`${from.slice(0, 10)}T00:00Z`)) / 86_400_000);
}

/** Whole and part years from one date to another, >= 0. */
export function yearsBetween(from: string, to: string): number {
  const days = Temporal.PlainDate.from(from).until(Temporal.PlainDate.from(to)).total('days');
  return Math.max(0, days / 365.25);
}
