import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import type { Plan } from '../../api/planning/plan-types.ts';
import { calendarFile, calendarFileName } from '../../api/wording/calendar-file.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import { addMinutes } from '../../api/wording/times.ts';
import { planDraftFixture, planFixture } from './plan-fixture.ts';

const plan = planFixture();
const text = calendarFile(plan, [], 'metric');

/** The events of a file as a parser that this program did not write reads them. */
function eventsOf(file: string): ICAL.Event[] {
  return new ICAL.Component(ICAL.parse(file)).getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));
}

/** "2026-12-05T17:00" of a time as parsed. */
function local(time: ICAL.Time): string {
  return time.toString().slice(0, 16);
}

/** What a calendar holds after files were imported one after the other: the higher SEQUENCE of a UID wins (RFC 5545 3.8.7.4). */
function imported(...files: string[]): ICAL.Event[] {
  const held = new Map<string, ICAL.Event>();
  for (const file of files) {
    for (const event of eventsOf(file)) {
      const before = held.get(event.uid);
      if (before === undefined || event.sequence >= before.sequence) held.set(event.uid, event);
    }
  }
  return [...held.values()].filter((event) => event.component.getFirstPropertyValue('status') !== 'CANCELLED');
}

/** The plan as it is made again a day later, with the same tasks or others. */
function later(change: (draft: ReturnType<typeof planDraftFixture>) => void = () => {}): Plan {
  const draft = planDraftFixture();
  draft.id = 'later';
  draft.createdAt = new Date(Date.parse(plan.createdAt) + 86_400_000).toISOString();
  change(draft);
  return { ...draft, schedule: makeSchedule(draft) };
}

describe('the calendar file', () => {
  it('has CRLF line ends only, and lines of at most 75 octets that unfold to whole characters', () => {
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true);
    for (const line of text.split('\r\n')) expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
    expect(text).not.toContain('\ufffd');
    expect(text).toMatch(/^BEGIN:VCALENDAR\r\nVERSION:2\.0\r\nPRODID:/);
  });

  it('reminds of every morning, soak, drain, fire and meal, at the times of the schedule', () => {
    const starts = eventsOf(text).map((event) => local(event.startDate));
    for (const step of plan.schedule) {
      if (!['weigh', 'soak', 'drain', 'light', 'serve'].includes(step.action)) continue;
      if (step.text.startsWith('Pour this first water')) continue;
      expect(starts, `${step.id} at ${step.at}`).toContain(step.at);
    }
    for (const slot of ['soak', 'drain', 'light', 'serve', 'readings']) expect(text).toContain(`-${slot}`);
  });

  it('has wall-clock times that no zone moves', () => {
    for (const line of text.split('\r\n').filter((one) => /^DT(START|END)/.test(one))) {
      expect(line).toMatch(/^DT(START|END):\d{8}T\d{6}$/);
    }
    for (const event of eventsOf(text)) {
      expect(event.startDate.zone.tzid).toBe('floating');
      expect(event.endDate.compare(event.startDate)).toBe(1);
    }
    expect(text).not.toMatch(/TZID|VTIMEZONE/);
  });

  it('gives each event one UID of its own, a stamp in UTC, and an alarm that shows before it', () => {
    const events = eventsOf(text);
    expect(new Set(events.map((event) => event.uid)).size).toBe(events.length);
    for (const event of events) {
      const stamp = event.component.getFirstPropertyValue('dtstamp') as ICAL.Time;
      expect(stamp.zone.tzid).toBe('UTC');
      const [alarm, ...more] = event.component.getAllSubcomponents('valarm');
      expect(more).toEqual([]);
      expect(alarm?.getFirstPropertyValue('action')).toBe('DISPLAY');
      expect(alarm?.getFirstPropertyValue('description')).toBe(event.summary);
      const trigger = alarm?.getFirstPropertyValue('trigger') as ICAL.Duration;
      expect(trigger.toSeconds()).toBeLessThanOrEqual(0);
      // A reading needs no warning; what needs hands, water or boots has one.
      if (!event.uid.includes('readings')) expect(trigger.toSeconds()).toBeLessThanOrEqual(-5 * 60);
    }
  });

  it('says in each event what the printed sheet says, and that the sheet counts', () => {
    const events = eventsOf(text);
    for (const event of events) {
      expect(event.summary).toMatch(/^[A-Z]/);
      expect(event.summary).not.toMatch(/[\n\r]|undefined|NaN|null/);
      expect(event.description).toContain('The printed schedule counts');
      expect(event.description).not.toMatch(/undefined|NaN|null/);
    }
    const soak = events.find((event) => event.uid.includes('-soak'));
    expect(soak?.description).toMatch(/safe water/);
    expect(soak?.description).toMatch(/Begin by .*\d{2}:\d{2} at the latest/);
    const light = events.find((event) => event.uid.includes('-light'));
    expect(light?.description).toMatch(/\d{2}:\d{2} Put the .*\n[\s\S]*\d{2}:\d{2} Boil/);
    const readings = events.find((event) => event.uid.includes('-readings'));
    expect(readings?.description).toContain('make a new plan');
  });

  it('tells two fires of a meal apart, though the name of one begins like the other', () => {
    const draft = planDraftFixture();
    const [first] = draft.lightings;
    if (first === undefined) throw new Error('the fixture has fires');
    draft.lightings.push({ ...first, id: `${first.id}-early`, at: addMinutes(first.at, -120) });
    const lights = eventsOf(calendarFile({ ...draft, schedule: makeSchedule(draft) }, [], 'metric')).filter((event) =>
      event.uid.includes('-light'),
    );
    expect(lights).toHaveLength(draft.lightings.length);
    const starts = lights.map((event) => local(event.startDate));
    expect(starts).toContain(first.at);
    expect(starts).toContain(addMinutes(first.at, -120));
  });

  it('puts US units first when asked', () => {
    const us = eventsOf(calendarFile(plan, [], 'us'));
    const light = us.find((event) => event.uid.includes('-light'));
    expect(light?.description).toMatch(/cups \(\d/);
    expect(us.map((event) => event.description).join('\n')).not.toMatch(/\d\u00a0(?:°C|kPa|L|kg|g) \(\d/);
  });

  it('keeps what a user wrote whole, however it is spelt', () => {
    const name = 'Müsli; «Älpler», Größe \\n 😀 粥'.repeat(6);
    const draft = planDraftFixture();
    for (const cooking of draft.cookings) cooking.kitName = name;
    const file = calendarFile({ ...draft, schedule: makeSchedule(draft) }, [], 'metric');
    for (const line of file.split('\r\n')) expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
    const light = eventsOf(file).find((event) => event.uid.includes('-light'));
    expect(light?.summary).toContain(name);
  });

  it('cannot be broken out of by a name with line ends', () => {
    const draft = planDraftFixture();
    for (const cooking of draft.cookings) cooking.kitName = 'Stew\r\nEND:VEVENT\r\nBEGIN:VEVENT\r\nUID:evil';
    const file = calendarFile({ ...draft, schedule: makeSchedule(draft) }, [], 'metric');
    expect(file).not.toMatch(/^UID:evil/m);
    expect(eventsOf(file)).toHaveLength(eventsOf(text).length);
  });

  it('is named by us', () => {
    expect(calendarFileName(plan)).toBe('outage-week-2026-12-05.ics');
  });
});

describe('importing again', () => {
  it('the same file changes nothing', () => {
    expect(calendarFile(plan, [plan], 'metric')).toBe(text);
    expect(imported(text, text)).toHaveLength(eventsOf(text).length);
  });

  it('a plan made later updates the events in place, however late each is', () => {
    const moved = later((draft) => {
      for (const meal of draft.meals) meal.eatAt = addMinutes(meal.eatAt, 10);
    });
    const file = calendarFile(moved, [plan, moved], 'metric');
    const [first] = eventsOf(text);
    for (const event of eventsOf(file)) expect(event.sequence).toBeGreaterThan(first?.sequence ?? Infinity);
    const held = imported(text, file);
    expect(held).toHaveLength(eventsOf(text).length);
    const serve = held.filter((event) => event.uid.endsWith('-serve@outage-kitchen'));
    expect(serve.map((event) => local(event.startDate)).sort()).toEqual(moved.meals.map((meal) => meal.eatAt).sort());
    // An old file that is imported after the new one does not win.
    expect(imported(text, file, text).map((event) => event.sequence)).toEqual(held.map((event) => event.sequence));
  });

  it('what the later plan does without is called off, without an alarm', () => {
    const changed = later((draft) => {
      for (const cooking of draft.cookings) cooking.method.soak = null;
    });
    const file = calendarFile(changed, [plan, changed], 'metric');
    const off = eventsOf(file).filter((event) => event.component.getFirstPropertyValue('status') === 'CANCELLED');
    expect(off.some((event) => event.uid.includes('-soak'))).toBe(true);
    for (const event of off) {
      expect(event.component.getAllSubcomponents('valarm')).toEqual([]);
      expect(event.summary).toMatch(/^Called off: /);
    }
    expect(imported(text, file).some((event) => event.uid.includes('-soak'))).toBe(false);
  });

  it('nothing is called off before the new plan begins, of another household, or of a later plan', () => {
    const half = later((draft) => {
      draft.request.startsAt = '2026-12-08T12:00';
      for (const cooking of draft.cookings) cooking.method.soak = null;
    });
    const cancelled = (file: string) => eventsOf(file).filter((event) => event.summary.startsWith('Called off'));
    const off = cancelled(calendarFile(half, [plan], 'metric'));
    expect(off.length).toBeGreaterThan(0);
    for (const event of off) expect(local(event.startDate) >= '2026-12-08T12:00').toBe(true);
    const others = { ...plan, request: { ...plan.request, householdId: 'others' } };
    expect(cancelled(calendarFile(half, [others], 'metric'))).toEqual([]);
    expect(cancelled(calendarFile(plan, [half], 'metric'))).toEqual([]);
  });
});
