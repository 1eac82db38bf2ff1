/** Wall-clock dates as the plan writes them (`2026-12-05T17:00`), in words. No time zone enters: they are local already. */
import { dateText, dayName, durationText } from '../api/wording/times.ts';

/** `Saturday 5 December` */
export function dayInWords(dateTime: string): string {
  return `${dayName(dateTime)} ${dateText(dateTime).split('\u00a0').slice(0, 2).join('\u00a0')}`;
}

/** `Sat 5 Dec` */
export function dayShort(dateTime: string): string {
  const [day = '', month = ''] = dateText(dateTime).split('\u00a0');
  return [dayName(dateTime).slice(0, 3), day, month.slice(0, 3)].join('\u00a0');
}

/** `17:00` */
export function clockOf(dateTime: string): string {
  return dateTime.slice(11, 16);
}

/** `17:00`, or `Sat 5 Dec 17:00` when it is another day than `day`. */
export function clockOn(dateTime: string, day: string): string {
  return dateTime.slice(0, 10) === day.slice(0, 10) ? clockOf(dateTime) : `${dayShort(dateTime)} ${clockOf(dateTime)}`;
}

/** `2 h 5 min`, `45 min`, rounded up to the minute. */
export const minutesInWords = durationText;

/**
 * Five in the afternoon, today or where that is past tomorrow: the day's first plan needs an evening, since what is eaten
 * tomorrow is put to soak tonight.
 */
export function nextAfternoon(now: Date): string {
  const daysOn = now.getHours() < 17 ? 0 : 1;
  return `${dateOfDevice(new Date(now.getFullYear(), now.getMonth(), now.getDate() + daysOn))}T17:00`;
}

/** Date and time of this device as a wall-clock date-time. */
export function wallClock(now: Date): string {
  return `${dateOfDevice(now)}T${two(now.getHours())}:${two(now.getMinutes())}`;
}

/** The wall clock of a place, `YYYY-MM-DDTHH:MM`. @param timeZone of the tz database; none: as the server takes it */
export function placeClock(now: Date, timeZone = 'UTC'): string {
  const parts = new Intl.DateTimeFormat('en-GB', {
    timeZone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  }).formatToParts(now);
  const of = (type: string) => parts.find((part) => part.type === type)?.value ?? '';
  return `${of('year')}-${of('month')}-${of('day')}T${of('hour')}:${of('minute')}`;
}

function dateOfDevice(date: Date): string {
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}

function two(value: number): string {
  return String(value).padStart(2, '0');
}
