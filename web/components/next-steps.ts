/** What is to be done next, in large type, and lists of steps by the clock. */
import { useEffect, useState } from 'preact/hooks';
import { textInSystem } from '../../api/wording/text-in-system.ts';
import type { Plan, ScheduleStep } from '../api-types.ts';
import { clockOf, clockOn, dayInWords, placeClock, wallClock } from '../dates.ts';
import { html } from '../html.ts';
import { usePage } from '../page-state.ts';
import { nextSteps, standingOf, stepAfter, untilInWords } from '../plan-clock.ts';

const EVERY_MS = 20_000;

/**
 * The wall clock of a place, `YYYY-MM-DDTHH:MM`, kept up to date.
 * @param timeZone the zone in which the times of a plan are told; none: that of this device
 */
export function useNow(timeZone?: string): string {
  const read = () => (timeZone === undefined ? wallClock(new Date()) : placeClock(new Date(), timeZone));
  const [now, setNow] = useState(read);
  useEffect(() => {
    const look = () => setNow(read());
    look();
    const timer = setInterval(look, EVERY_MS);
    // A phone that was asleep shows the right hour as soon as it is looked at.
    document.addEventListener('visibilitychange', look);
    return () => {
      clearInterval(timer);
      document.removeEventListener('visibilitychange', look);
    };
  }, [timeZone]);
  return now;
}

/** The next action of a plan, or that it has not begun or is over. */
export function NextAction({ plan, now }: { plan: Plan; now: string }) {
  const standing = standingOf(plan, now);
  const steps = standing === 'not-begun' ? nextSteps(plan, plan.request.startsAt) : nextSteps(plan, now);
  const { units } = usePage();
  const [first] = steps;
  const then = first === undefined ? undefined : stepAfter(plan, first.at);
  if (standing === 'over' || first === undefined) {
    return html`<p class="next-when">This plan is over. Plan again from what is left in the stores.</p>`;
  }
  return html`<p class="next-when">
      <span class="clock">${clockOf(first.at)}</span>
      ${first.at.slice(0, 10) === now.slice(0, 10) ? '' : `${dayInWords(first.at)}, `}${untilInWords(first.at, now)}
    </p>
    <ul class="next-steps">${steps.map((step) => html`<li key=${step.id}><${StepText} step=${step} /></li>`)}</ul>
    ${then === undefined ? null : html`<p class="hint">Then at ${clockOn(then.at, first.at)}: ${textInSystem(then.text, units)}</p>`}`;
}

/** What to do, what to do if it cannot be done, and who does it; figures in the wanted units first. */
export function StepText({ step }: { step: ScheduleStep }) {
  const { units } = usePage();
  return html`<span>${textInSystem(step.text, units)}${
    step.ifNot === null
      ? null
      : html`<span class="if-not">${step.ifNot.startsWith('If ') ? '' : 'If not: '}${textInSystem(step.ifNot, units)}</span>`
  }</span>`;
}

/** Steps by the clock; the day is said where it is another than `day`. */
export function StepList({ steps, day }: { steps: readonly ScheduleStep[]; day: string }) {
  return html`<ol class="steps">
    ${steps.map((step) => html`<li key=${step.id}><span class="clock">${clockOn(step.at, day)}</span><${StepText} step=${step} /></li>`)}
  </ol>`;
}
