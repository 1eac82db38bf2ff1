/** The schedule for whoever has no clock, and the one rule of when what is served must be eaten. */
import { describe, expect, it } from 'vitest';
import type { ScheduleStep } from '../../api/planning/plan-types.ts';
import { eatByOf } from '../../api/wording/eat-by.ts';
import { rowsOf } from '../../api/wording/print/card-rows.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import { addMinutes, minutesBetween } from '../../api/wording/times.ts';
import { sinceEvent } from '../../api/wording/without-clock.ts';
import { planDraftFixture, planFixture } from './plan-fixture.ts';

const plan = planFixture();
/** What tells the time of a step beside a clock: an event, or minutes and hours since one. */
const TOLD =
  /getting up|plan begins|(?:after|with) (?:breakfast|the (?:midday|evening) meal)|once it burns well|\bnext\b|after lighting|from the first big bubbles|at full pressure|of boiling|as it boils|at pressure|after its|boiled \d|after [\d½¼¾]+.(?:h|min)|off the fire|after adding the water|fall by itself|shut for/;

describe('without a clock', () => {
  it('every row of a card says when, by an event or a wait, with no time of day in it', () => {
    for (const row of rowsOf(plan, plan.schedule)) {
      const [first] = row.steps as [ScheduleStep];
      // What is done on getting up stands in the head of the card, under "Now first".
      if (first.at.endsWith('T06:30') || first.at === plan.request.startsAt) continue;
      expect(row.steps.map((step) => step.text.replace(/\d\d:\d\d/g, '')).join(' '), first.id).toMatch(TOLD);
    }
  });

  it('a fire, a soak and a cold dish are counted from the last thing that everybody notices', () => {
    for (const step of plan.schedule.filter((one) => ['light', 'soak'].includes(one.action))) {
      const told =
        /(?:([\d½¼¾]+).(min|h) )?(?:after|on|with|as) (getting up|breakfast|the midday meal|the evening meal|the plan begins)/.exec(
          step.text,
        );
      expect(told, step.text).not.toBeNull();
    }
    const noon = plan.schedule.find((step) => step.id === '2026-12-06-2-light');
    expect(noon?.at.slice(11)).toBe('14:00');
    // The midday meal of the made-up week is at 12:30.
    expect(noon?.text).toMatch(/, 1½\u00a0h after the midday meal\.$/);
  });

  it('names the latest event, its own meal left aside', () => {
    const [meal] = plan.meals.filter(({ slot }) => slot === 'midday');
    if (meal === undefined) throw new Error('the fixture eats at midday');
    expect(sinceEvent(plan, meal.eatAt)).toBe('with the midday meal');
    expect(sinceEvent(plan, meal.eatAt, meal.id)).toMatch(/ after (breakfast|getting up|the plan begins)$/);
    expect(sinceEvent(plan, addMinutes(meal.eatAt, 20))).toBe('20\u00a0min after the midday meal');
    expect(sinceEvent(plan, addMinutes(plan.request.startsAt, -60))).toBe('as the plan begins');
  });
});

describe('eat by', () => {
  const [meal] = planFixture().meals;
  if (meal === undefined) throw new Error('the fixture has meals');
  const dish = (safeUntil: string) => ({ cookingId: 'x', servings: 1, hot: true, safeUntil });

  it('is the earlier of what keeps unopened and two hours after serving (FSIS)', () => {
    const early = addMinutes(meal.eatAt, 40);
    expect(eatByOf(meal, dish(early), undefined)).toBe(early);
    // A box that would have kept it hot until the night changes nothing once it is open.
    expect(eatByOf(meal, dish(addMinutes(meal.eatAt, 400)), undefined)).toBe(addMinutes(meal.eatAt, 120));
  });

  it('stands on paper as this rule has it, never later', () => {
    const draft = planDraftFixture();
    for (const one of draft.meals) for (const served of one.dishes) served.safeUntil = addMinutes(one.eatAt, 400);
    const served = makeSchedule(draft).filter((step) => step.action === 'serve' && step.text.includes('throw away'));
    expect(served.length).toBeGreaterThan(10);
    for (const step of served) {
      expect(minutesBetween(step.at, step.latestAt ?? '')).toBe(120);
      expect(step.text).toContain(`by ${step.latestAt?.slice(11)}`);
    }
  });
});
