/** Which plans still run, so that what they use is not deleted. */
import type { Plan } from '../planning/plan-types.ts';

const DAY_MS = 86_400_000;

/**
 * Plans whose last day has not passed. The comparison is by calendar date in UTC with a day to spare, so that no time
 * zone ends a plan early.
 * @param nowMs milliseconds since 1970-01-01T00:00Z
 */
export function runningPlans(plans: readonly Plan[], nowMs: number): Plan[] {
  return plans.filter((plan) => {
    const startMs = Date.parse(`${plan.request.startsAt.slice(0, 10)}T00:00Z`);
    return startMs + (plan.request.days + 1) * DAY_MS > nowMs;
  });
}
