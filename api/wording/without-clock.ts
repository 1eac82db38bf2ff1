/**
 * When to do a step, told by what happened before it: for whoever has no clock. Waits are counted from getting up, from
 * a meal that is served, from lighting, from the first bubbles.
 */
import type { Lighting, PlanDraft } from '../planning/plan-types.ts';
import { addMinutes, dateOf, localMs, minutesBetween, waitText } from './times.ts';

const MEAL_NAMES = { breakfast: 'breakfast', midday: 'the midday meal', evening: 'the evening meal' } as const;
/** What comes so soon after another thing is done with it, min. */
const AT_ONCE_MINUTES = 3;
/** When people get up, where the household does not say. */
const GETS_UP = '07:00';

/**
 * "2¼ h after breakfast", "15 min after getting up": the last of these events before a time, and how long ago it was.
 * @param at local date-time; before the plan begins, the beginning counts
 * @param ownMeal id of the meal that the step belongs to, where it is the serving of it
 */
export function sinceEvent(plan: PlanDraft, at: string, ownMeal: string | null = null): string {
  const { startsAt } = plan.request;
  const up = `${dateOf(at)}T${plan.resolved.household.waking?.from ?? GETS_UP}`;
  const events = [
    { at: startsAt, after: 'after the plan begins', upon: 'as the plan begins' },
    { at: up, after: 'after getting up', upon: 'on getting up' },
    ...plan.meals
      .filter((meal) => meal.dishes.length > 0 && meal.id !== ownMeal)
      .map((meal) => ({
        at: meal.eatAt,
        after: `after ${MEAL_NAMES[meal.slot]}`,
        upon: `with ${MEAL_NAMES[meal.slot]}`,
      })),
  ].filter((event) => localMs(event.at) >= localMs(startsAt) && localMs(event.at) <= localMs(at));
  const last = events.sort((a, b) => localMs(b.at) - localMs(a.at))[0];
  if (last === undefined) return 'as the plan begins';
  const minutes = minutesBetween(last.at, at);
  return minutes < AT_ONCE_MINUTES ? last.upon : `${waitText(minutes)} ${last.after}`;
}

/**
 * Leaves out of a step what only people without a clock need, for sheets on which every line counts.
 * @param text of a step
 */
export function byTheClock(text: string): string {
  return text
    .replace(
      /,? (?:[\d½¼¾]+\u00a0(?:h|min) )?(?:after|on|with|as) (?:getting up|breakfast|the (?:midday|evening) meal|the plan begins)(?=[,.]| )/g,
      '',
    )
    .replace(/,? [\d½¼¾]+\u00a0(?:h|min) (?:off the fire|after adding the water)/g, '')
    .replace(/ (?:once it burns well|next)(?=,| for| in| with|\.)/g, '')
    .replace(/ after [^.,]* of boiling/g, '')
    .replace(/, after its [^,]*,/g, '')
    .replace(/ after [\d½¼¾]+\u00a0(?:h|min)(?: in water,|(?=\.))/g, '');
}

/**
 * When a pot goes on, with a space before it: " once it burns well" for the first on a fire that takes a while, " next"
 * when the pot before it has come off, else the wait from lighting; empty where it goes on with the lighting.
 * @param lighting the fire; undefined where the stove burns in any case
 * @param at local date-time at which the pot goes on
 */
export function onTheFireWhen(plan: PlanDraft, lighting: Lighting | undefined, at: string): string {
  if (lighting === undefined || lighting.burnsAnyway === true) return `, ${sinceEvent(plan, at)}`;
  const minutes = minutesBetween(lighting.at, at);
  const before = [
    ...plan.cookings
      .filter((one) => one.method.lightingId === lighting.id && localMs(one.startsAt) < localMs(at))
      .map((one) =>
        addMinutes(one.startsAt, (one.method.minutesToBoil?.p50 ?? 0) + (one.method.boilMinutes?.p50 ?? 0)),
      ),
    ...plan.tasks
      .filter((one) => one.lightingId === lighting.id && localMs(one.at) < localMs(at))
      .map((one) => addMinutes(one.at, one.minutes)),
  ];
  if (before.length === 0) return minutes < AT_ONCE_MINUTES ? '' : ' once it burns well';
  const free = before.every((end) => localMs(end) <= localMs(addMinutes(at, AT_ONCE_MINUTES)));
  return free ? ' next' : `, ${waitText(minutes)} after lighting`;
}
