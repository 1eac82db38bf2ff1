/**
 * Re-adds a finished plan by the clock. It knows no solver and nothing of the planner's model: only the plan, what was
 * asked, the household, the kits and the stock in it, and the calculators.
 */
import { checkDishes } from './plan-check/check-dishes.ts';
import { checkFires } from './plan-check/check-fires.ts';
import { checkFuel } from './plan-check/check-fuel.ts';
import { checkMeals } from './plan-check/check-meals.ts';
import { checkSoaks } from './plan-check/check-soaks.ts';
import { checkStock } from './plan-check/check-stock.ts';
import { checkTradeOff } from './plan-check/check-trade-off.ts';
import { checkUses } from './plan-check/check-uses.ts';
import { checkWater } from './plan-check/check-water.ts';
import { type PlanFault, viewPlan } from './plan-check/plan-view.ts';
import type { PlanDraft } from './plan-types.ts';

export type { PlanFault } from './plan-check/plan-view.ts';

/**
 * Every rule that a plan breaks.
 *
 * Checked: nothing taken twice at once; stock, whole sets and use-by dates; fuel by fuel and day at the 90th percentile
 * after the reserve; water by day and quality; soaks by the clock; fills; fires in waking hours and within what a day
 * allows; meals fed, safe and honest; boil minutes and lectin worked out again; no more cold meals and repeats than a
 * household has chosen.
 * @param plan a plan, with or without its schedule
 * @returns the faults, each once, in the order of the rules above; empty for a sound plan
 * @throws InvalidInputError when the household of the plan does not resolve; RangeError when a time is no date-time
 */
export function checkPlan(plan: PlanDraft): PlanFault[] {
  const view = viewPlan(plan);
  const faults = new Map<string, PlanFault>();
  const report = (rule: string, at: string, detail: string) => {
    faults.set(JSON.stringify([rule, at, detail]), { rule, at, detail });
  };
  checkUses(view, report);
  checkStock(view, report);
  checkFuel(view, report);
  checkWater(view, report);
  checkSoaks(view, report);
  checkDishes(view, report);
  checkFires(view, report);
  checkMeals(view, report);
  checkTradeOff(view, report);
  return [...faults.values()];
}
