import { describe, expect, it } from 'vitest';
import { calendarFile } from '../../api/wording/calendar-file.ts';
import { clockChange } from '../../api/wording/clock-change.ts';
import { scheduleHtml } from '../../api/wording/print/schedule-html.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import { planDraftFixture } from './plan-fixture.ts';

/** The fixture's request with another start, in a zone. */
function planFrom(startsAt: string, timeZone: string) {
  const draft = planDraftFixture();
  draft.request.startsAt = startsAt;
  for (const place of draft.resolved.household.places) place.timeZone = timeZone;
  return draft;
}

describe('a change of the clocks', () => {
  // The European Union: last Sunday of March and October (Directive 2000/84/EC); the United States: second Sunday of
  // March, first of November (Energy Policy Act of 2005). Both from memory.
  it.each([
    ['2026-03-26T17:00', 'Europe/Zurich', '2026-03-29', 60],
    ['2026-10-22T17:00', 'Europe/Zurich', '2026-10-25', -60],
    ['2026-03-05T17:00', 'America/Denver', '2026-03-08', 60],
    ['2026-10-29T17:00', 'America/Denver', '2026-11-01', -60],
  ])('from %s in %s is on %s', (startsAt, zone, date, minutesForward) => {
    expect(clockChange(planFrom(startsAt, zone))).toMatchObject({ date, minutesForward });
  });

  it.each([
    ['2026-12-05T17:00', 'Europe/Zurich'],
    ['2026-03-26T17:00', 'America/Phoenix'],
    ['2026-03-26T17:00', 'Etc/UTC'],
  ])('is none from %s in %s', (startsAt, zone) => {
    expect(clockChange(planFrom(startsAt, zone))).toBeNull();
  });

  it('is said on the first sheet, on the card of the day and in the calendar', () => {
    const draft = planFrom('2026-12-05T17:00', 'Europe/Zurich');
    // The clocks of no zone change in this week of December: the days of the plan are moved.
    const moved = JSON.parse(
      JSON.stringify(draft).replace(/2026-12-(\d\d)/g, (_all, day: string) => `2026-03-${Number(day) + 20}`),
    ) as typeof draft;
    const plan = { ...moved, schedule: makeSchedule(moved) };
    const text = 'Clocks go forward 60\u00a0min on Sunday 29\u00a0March';
    const html = scheduleHtml(plan, { units: 'metric', type: 'normal' });
    expect(html.split(text)).toHaveLength(3);
    expect(scheduleHtml(plan, { units: 'us', type: 'compact' })).toContain(text);
    expect(calendarFile(plan, [], 'metric').replaceAll('\r\n ', '')).toContain(text);
  });
});
