import { describe, expect, it } from 'vitest';
import { addMinutes } from '../../api/wording/times.ts';
import { mealsOfDay, nextSteps, standingOf, stepsOfDay, untilInWords } from '../../web/plan-clock.ts';
import { rowsOfDay } from '../../web/views/plan-day-bars.ts';
import { requestAround } from '../../web/views/plan-swap.ts';
import { planFixture } from '../wording/plan-fixture.ts';

const plan = planFixture();
const start = plan.request.startsAt;
const last =
  [...plan.schedule]
    .map(({ at }) => at)
    .sort()
    .at(-1) ?? start;

describe('where a plan stands', () => {
  it('has a next action at every hour until its last step, due or still to come', () => {
    for (let hour = 0; addMinutes(start, hour * 60) <= last; hour += 1) {
      const now = addMinutes(start, hour * 60);
      const steps = nextSteps(plan, now);
      expect(steps.length, now).toBeGreaterThan(0);
      // Nothing that is still to be done comes before it.
      const earlier = plan.schedule.filter((step) => step.at >= now && step.at < (steps[0]?.at ?? ''));
      expect(earlier, now).toEqual([]);
      expect(new Set(steps.map(({ at }) => at)).size).toBe(1);
      expect(standingOf(plan, now)).toBe('running');
    }
  });

  it('keeps a step for ten minutes, then goes on to the next', () => {
    const [first] = nextSteps(plan, start);
    const at = first?.at ?? '';
    expect(nextSteps(plan, addMinutes(at, 10))[0]?.at).toBe(at);
    expect(nextSteps(plan, addMinutes(at, 11))[0]?.at).not.toBe(at);
  });

  it('has not begun before its start, and is over after its last step', () => {
    expect(standingOf(plan, addMinutes(start, -1))).toBe('not-begun');
    expect(standingOf(plan, addMinutes(last, 24 * 60))).toBe('over');
    expect(nextSteps(plan, addMinutes(last, 24 * 60))).toEqual([]);
  });

  it('lists what falls into the next 24 hours and no more', () => {
    const end = addMinutes(start, 1440);
    expect(stepsOfDay(plan, start).every(({ at }) => at < end)).toBe(true);
    expect(mealsOfDay(plan, start).map(({ id }) => id)).toEqual(
      plan.meals.filter(({ eatAt }) => eatAt >= start && eatAt < end).map(({ id }) => id),
    );
  });

  it('says how long until then in whole minutes, hours and days', () => {
    const words = (minutes: number) => untilInWords(addMinutes(start, minutes), start).replaceAll('\u00a0', ' ');
    expect([0, 1, 59, 60, 125, 1440, 3000, -5].map(words)).toEqual([
      'now',
      'in 1 min',
      'in 59 min',
      'in 1 h',
      'in 2 h 5 min',
      'in a day',
      'in 2 days',
      '5 min ago',
    ]);
  });
});

describe('a day on a line', () => {
  const dates = [...new Set(plan.schedule.map(({ at }) => at.slice(0, 10)))];

  it('adds up to the hands-on minutes of the schedule, the meals at table apart', () => {
    for (const date of dates) {
      const { rows } = rowsOfDay(plan, date);
      const wanted = plan.schedule
        .filter(({ at, handsOn, action }) => at.startsWith(date) && handsOn && action !== 'serve')
        .reduce((sum, { minutes }) => sum + minutes, 0);
      expect(rows.reduce((sum, row) => sum + row.handsOnMinutes, 0)).toBeCloseTo(wanted, 9);
    }
  });

  it('keeps every span within its day and end after begin', () => {
    for (const date of dates) {
      for (const { bars } of rowsOfDay(plan, date).rows) {
        for (const { from, to } of bars) {
          expect(from < to).toBe(true);
          expect(from >= `${date}T00:00`).toBe(true);
          expect(minutesAfter(date, to)).toBeLessThanOrEqual(1440);
        }
      }
    }
  });

  it('shows a soak over midnight on both days, and the pot first over the fire, then at rest', () => {
    const [cooking] = plan.cookings.filter(({ method }) => method.soak !== null);
    const soak = cooking?.method.soak;
    if (cooking === undefined || soak === null || soak === undefined)
      throw new Error('the made-up plan soaks something');
    const pot = {
      ...cooking,
      method: { ...cooking.method, soak: { ...soak, at: '2026-12-05T21:00', vesselId: 'white-bowl' } },
    };
    const stoveId = plan.resolved.household.stoves?.[0]?.id ?? '';
    const uses = [
      { resource: 'white-bowl', from: '2026-12-05T21:00', to: '2026-12-06T16:00' },
      { resource: 'big-pot', from: '2026-12-06T16:00', to: '2026-12-06T18:00' },
      { resource: stoveId, from: '2026-12-06T16:00', to: '2026-12-06T17:00' },
    ];
    const made = { ...plan, cookings: [{ ...pot, uses }], tasks: [], schedule: [] };
    const spans = (date: string) =>
      rowsOfDay(made, date).rows.map(({ id, bars }) => [
        id,
        ...bars.map(({ kind, from, to }) => `${kind} ${from.slice(8)} ${to.slice(8)}`),
      ]);
    expect(spans('2026-12-05')).toEqual([['white-bowl', 'soak 05T21:00 06T00:00']]);
    expect(spans('2026-12-06')).toEqual([
      ['white-bowl', 'soak 06T00:00 06T16:00'],
      ['big-pot', 'cook 06T16:00 06T17:00', 'rest 06T17:00 06T18:00'],
    ]);
  });
});

function minutesAfter(date: string, at: string): number {
  return (Date.parse(`${at}:00Z`) - Date.parse(`${date}T00:00:00Z`)) / 60_000;
}

describe('planning around one meal', () => {
  it('pins that meal, keeps other pins, and leaves free what was not chosen', () => {
    const [meal] = plan.meals;
    if (meal === undefined) throw new Error('the made-up plan has meals');
    const pinned = [
      { meal: meal.id, kitId: 'x' },
      { meal: '2099-01-01-evening', kitId: 'y' },
    ];
    const asked = requestAround({ ...plan, request: { ...plan.request, pinned } }, meal, 'z', { stoveId: 'rocket' });
    const others = (asked.pinned ?? []).filter((pin) => pin.meal !== meal.id);
    expect(asked.pinned).toContainEqual({ meal: meal.id, kitId: 'z', method: { stoveId: 'rocket' } });
    expect((asked.pinned ?? []).filter((pin) => pin.meal === meal.id)).toHaveLength(1);
    expect(others).toContainEqual({ meal: '2099-01-01-evening', kitId: 'y' });
    expect(asked.startsAt).toBe(plan.request.startsAt);
  });
});
