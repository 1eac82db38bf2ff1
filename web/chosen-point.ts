/** Plans at a point of the curve between fuel and hot or varied meals, and the ordinary plan again. */
import type { ChosenPoint, Plan } from './api-types.ts';
import { makePlan } from './make-plan.ts';
import type { Page } from './page-state.ts';
import { requestAgain } from './request-again.ts';

/**
 * Makes the plan anew at a point; null: the ordinary plan.
 * @param said what is announced when it is there
 */
export async function planAtPoint(
  page: Page,
  plan: Plan,
  point: ChosenPoint | null,
  said: (plan: Plan) => string,
): Promise<void> {
  const made = await makePlan(page, { ...requestAgain(plan, null, []), tradeOff: point }, said);
  if (made !== null) document.getElementById('outcome')?.focus();
}

/** Whether a plan was made at this point. */
export function isChosen({ request: { tradeOff } }: Plan, point: ChosenPoint): boolean {
  return (
    tradeOff != null &&
    tradeOff.coldMeals === point.coldMeals &&
    (tradeOff.repeats ?? null) === (point.repeats ?? null) &&
    (tradeOff.energyShortPercent ?? 0) === (point.energyShortPercent ?? 0)
  );
}

/** What the curve is about: the same for all plans that differ in the chosen point alone. */
export function curveKeyOf({ request, resolved }: Plan): string {
  const { tradeOff: _chosen, timeLimitS: _limit, ...asked } = request;
  const { household, kits, stock } = resolved;
  return JSON.stringify([asked, household, kits, stock]);
}
