/** What a plan was asked, to be asked again with something changed. */
import type { Plan, PlannedMeal, PlanRequest } from './api-types.ts';
import { placeClock } from './dates.ts';
import { PLAN_LIMIT_S } from './make-plan.ts';
import { zoneOf } from './plan-clock.ts';

type Pins = NonNullable<PlanRequest['pinned']>;

/** The same request, in which the meals that have passed stay what they were, with other pins than for one meal. */
export function requestAgain(plan: Plan, meal: Pick<PlannedMeal, 'id'> | null, pins: Pins): PlanRequest {
  const now = placeClock(new Date(), zoneOf(plan));
  const passed = plan.meals.flatMap((one) => {
    const cooking = plan.cookings.find(({ id }) => id === one.dishes[0]?.cookingId);
    return one.eatAt < now && one.id !== meal?.id && cooking !== undefined
      ? [{ meal: one.id, kitId: cooking.kitId }]
      : [];
  });
  const pinned = (plan.request.pinned ?? []).filter(
    (pin) => pin.meal !== meal?.id && !passed.some((one) => one.meal === pin.meal),
  );
  const all = [...passed, ...pinned, ...pins];
  const { pinned: _before, ...request } = plan.request;
  return { ...request, timeLimitS: PLAN_LIMIT_S, ...(all.length === 0 ? {} : { pinned: all }) };
}
