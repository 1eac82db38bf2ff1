/** Asking for a plan: progress with a stop button, the answer into the page's state, refusals where they belong. */
import { ServerRefusal, type SolverProgress } from './api-client.ts';
import type { Plan, PlanRequest } from './api-types.ts';
import type { Page } from './page-state.ts';

/** Seconds that the search for a plan may take. */
export const PLAN_LIMIT_S = 20;

/**
 * Plans the rest of a plan anew from a moment, with all that was booked, and shows what changes.
 * @param now wall clock at the place of the plan, within its days
 */
export async function planAgain(page: Page, plan: Plan, now: string, said: (plan: Plan) => string): Promise<void> {
  const last = plan.water.byDay.at(-1)?.date ?? plan.request.startsAt.slice(0, 10);
  const days = Math.round((Date.parse(last) - Date.parse(now.slice(0, 10))) / 86_400_000) + 1;
  const { householdId } = plan.request;
  const made = await makePlan(page, { householdId, startsAt: now, days, replaces: plan.id }, said);
  if (made !== null) location.hash = '#/book/changes';
}

/**
 * Makes a plan and shows it; one at a time.
 * @param said what is announced when it is there
 * @returns the plan, or null where none was made: it was stopped, refused, or another was being made
 */
export async function makePlan(page: Page, request: PlanRequest, said: (plan: Plan) => string): Promise<Plan | null> {
  if (page.planning !== null) return null;
  const stopper = new AbortController();
  const began = performance.now();
  let latest: SolverProgress = { elapsedS: 0 };
  const tick = (progress: Partial<SolverProgress>) => {
    latest = { ...latest, ...progress, elapsedS: (performance.now() - began) / 1000 };
    page.set({ planning: { progress: latest, limitS: PLAN_LIMIT_S, stop: () => stopper.abort() } });
  };
  page.set({ planErrors: [], planFault: null });
  tick({});
  page.announce('Planning…');
  // The solver may be silent for a while; the seconds go on all the same.
  const clock = setInterval(() => tick({}), 500);
  try {
    await page.household?.flush();
    const plan = await page.api.ask<Plan>('/api/plans', { timeLimitS: PLAN_LIMIT_S, ...request }, stopper.signal, tick);
    // Planning again can be undone, too.
    page.set(({ plan: before }) => ({
      plan,
      planBefore: before?.request.householdId === plan.request.householdId ? before : null,
      planning: null,
    }));
    page.announce(said(plan));
    return plan;
  } catch (error) {
    if (stopper.signal.aborted) {
      page.set({ planning: null });
      page.announce('Planning was stopped. The last plan is still shown.');
    } else if (error instanceof ServerRefusal) {
      page.set({ planning: null, planErrors: error.errors, planFault: error.message });
      page.alarm(error.message);
      document.getElementById('error-summary')?.focus();
    } else {
      page.set({ planning: null, planFault: 'The plan could not be read. Press the button again.' });
      throw error;
    }
    return null;
  } finally {
    clearInterval(clock);
  }
}
