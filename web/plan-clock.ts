/** Where a plan stands at an hour: what is due, what comes next, what is eaten within a day. */
import { addMinutes, minutesBetween } from '../api/wording/times.ts';
import type { Plan, PlannedMeal, ScheduleStep } from './api-types.ts';

/** A step that was due this long ago is still shown as due, minutes. */
const GRACE_MINUTES = 10;
const DAY_MINUTES = 1440;

export type Standing = 'not-begun' | 'running' | 'over';

/** The zone in which the times of a plan are told; undefined where its place names none. */
export function zoneOf({ request, resolved }: Pick<Plan, 'request' | 'resolved'>): string | undefined {
  const { places } = resolved.household;
  return (places.find(({ id }) => id === request.placeId) ?? places[0])?.timeZone;
}

/**
 * Whether a plan has begun or is over.
 * @param now wall clock, `YYYY-MM-DDTHH:MM`
 */
export function standingOf(plan: Plan, now: string): Standing {
  const last = [...plan.schedule.map((step) => step.at), ...plan.meals.map((meal) => meal.eatAt)].sort().at(-1);
  if (last === undefined || addMinutes(last, GRACE_MINUTES) < now) return 'over';
  return plan.request.startsAt > now ? 'not-begun' : 'running';
}

/** Steps in the order of the clock. */
function inOrder(plan: Plan): ScheduleStep[] {
  // The schedule is in order; steps of one minute keep theirs.
  return [...plan.schedule].sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
}

/**
 * What is to be done next: the steps of the earliest minute that is due or still to come.
 * @returns steps of one minute; empty when the plan is over
 */
export function nextSteps(plan: Plan, now: string): ScheduleStep[] {
  const open = inOrder(plan).filter((step) => addMinutes(step.at, GRACE_MINUTES) >= now);
  return open.filter((step) => step.at === open[0]?.at);
}

/** The first step after a time. */
export function stepAfter(plan: Plan, at: string): ScheduleStep | undefined {
  return inOrder(plan).find((step) => step.at > at);
}

/** Steps of the 24 hours from now on. */
export function stepsOfDay(plan: Plan, now: string): ScheduleStep[] {
  const end = addMinutes(now, DAY_MINUTES);
  return inOrder(plan).filter((step) => addMinutes(step.at, GRACE_MINUTES) >= now && step.at < end);
}

/** Meals of the 24 hours from now on. */
export function mealsOfDay(plan: Plan, now: string): PlannedMeal[] {
  const end = addMinutes(now, DAY_MINUTES);
  return plan.meals.filter((meal) => addMinutes(meal.eatAt, GRACE_MINUTES) >= now && meal.eatAt < end);
}

/** `in 2 h 5 min`, `now`, `10 min ago`: whole minutes to a time. */
export function untilInWords(at: string, now: string): string {
  const minutes = Math.round(minutesBetween(now, at));
  const words = (count: number) =>
    count < 60
      ? `${count}\u00a0min`
      : `${Math.floor(count / 60)}\u00a0h${count % 60 === 0 ? '' : ` ${count % 60}\u00a0min`}`;
  if (minutes >= DAY_MINUTES) return `in ${Math.floor(minutes / DAY_MINUTES)} days`.replace('in 1 days', 'in a day');
  return minutes > 0 ? `in ${words(minutes)}` : minutes === 0 ? 'now' : `${words(-minutes)} ago`;
}
