/** The reminders of a plan as a calendar file (RFC 5545): folding, escaping and line ends are the library's. */
import ical, { ICalAlarmType, ICalEventStatus, ICalEventTransparency } from 'ical-generator';
import type { Plan } from '../planning/plan-types.ts';
import { type CalendarEvent, calendarEvents, calledOffEvents } from './calendar-events.ts';
import { dateOf, localMs } from './times.ts';
import type { UnitSystem } from './units.ts';

/** SEQUENCE counts seconds from here: it grows from plan to plan without a counter, and fits 31 bits until 2093. */
const SEQUENCE_FROM_MS = Date.UTC(2025, 0, 1);

/**
 * A plan's calendar file. Times float (no zone), so that they are those of the kitchen's clock. A later plan of the same
 * household has the same UIDs for the same tasks and a higher SEQUENCE: importing it again updates.
 * @param plan a plan with its schedule
 * @param earlier the other plans in store; what they remind of and this plan does not is called off
 * @param system which units come first in texts
 * @returns the text of the file, lines of at most 75 octets, CRLF at their ends
 */
export function calendarFile(plan: Plan, earlier: readonly Plan[], system: UnitSystem): string {
  const calendar = ical({
    prodId: { company: 'Outage kitchen', product: 'Schedule', language: 'EN' },
    name: 'Cooking plan',
  });
  const made = new Date(Date.parse(plan.createdAt));
  const sequence = Math.max(0, Math.floor((made.getTime() - SEQUENCE_FROM_MS) / 1000));
  const add = (event: CalendarEvent): void => {
    const entry = calendar.createEvent({
      id: event.uid,
      sequence,
      stamp: made,
      floating: true,
      // The library writes the UTC reading of a floating time, whatever the zone of this computer.
      start: new Date(localMs(event.startsAt)),
      end: new Date(localMs(event.endsAt)),
      summary: event.summary,
      description: event.description,
      transparency: ICalEventTransparency.TRANSPARENT,
    });
    if (event.alarmMinutes === null) entry.status(ICalEventStatus.CANCELLED);
    else {
      entry.createAlarm({
        type: ICalAlarmType.display,
        triggerBefore: event.alarmMinutes * 60,
        description: event.summary,
      });
    }
  };
  for (const event of calendarEvents(plan, system)) add(event);
  for (const event of calledOffEvents(plan, earlier, system)) add(event);
  const text = calendar.toString();
  return text.endsWith('\r\n') ? text : `${text}\r\n`;
}

/** "outage-week-2026-12-05.ics": ours alone, nothing that a user wrote. */
export function calendarFileName(plan: Pick<Plan, 'request'>): string {
  return `outage-week-${dateOf(plan.request.startsAt)}.ics`;
}
