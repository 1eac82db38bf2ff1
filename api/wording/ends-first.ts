/** What a household would run out of first if it went on as in a plan. */
import type { Plan } from '../planning/plan-types.ts';
import { asHeading, fuelName } from './names.ts';
import { addDays, dateOf } from './times.ts';

export interface EndsFirst {
  /** `Water`, `Propane`, `Food in store`. */
  what: string;
  /** Whole days that it lasts from the start of the plan, those of the plan included. */
  days: number;
  /** The first date that it does not last for, `YYYY-MM-DD`. */
  on: string;
}

/**
 * What ends first at the pace of the plan: fuel at its 90th percentile against its budget, water against all there is,
 * servings in store against servings wanted. A sum over means, not a plan: it says where to look, and the days that can be
 * fed are another question.
 * @param plan a plan of whole or partial days; a first day that begins in the evening counts as the share of meals it has
 * @returns null where nothing is used at all, or nothing ends within two years
 */
export function endsFirst(
  plan: Pick<Plan, 'request' | 'resolved' | 'meals' | 'cookings' | 'fuel' | 'water'>,
): EndsFirst | null {
  const days = Math.max(1, plan.request.days);
  const paces: { what: string; days: number }[] = [];
  for (const { fuelId, budgetKg, usedKg } of plan.fuel) {
    if (usedKg.p90 > 1e-6) paces.push({ what: asHeading(fuelName(fuelId)), days: (budgetKg / usedKg.p90) * days });
  }
  const usedL = plan.water.byDay.reduce((sum, day) => sum + day.usedL, 0);
  // What is left and what was used together hold what comes in by the day as well.
  const leftL = plan.water.byDay.at(-1)?.leftL ?? 0;
  if (usedL > 1e-6) paces.push({ what: 'Water', days: ((usedL + Math.max(0, leftL)) / usedL) * days });
  const wanted = plan.meals.reduce((sum, meal) => sum + meal.servingsWanted, 0);
  if (wanted > 1e-6) paces.push({ what: 'Food in store', days: (servingsInStore(plan) / wanted) * days });
  const [first] = paces.sort((a, b) => a.days - b.days);
  if (first === undefined || first.days > 730) return null;
  const whole = Math.floor(first.days + 1e-6);
  return { what: first.what, days: whole, on: addDays(dateOf(plan.request.startsAt), whole) };
}

/** Servings of all whole sets that the plan's stock makes up; kits that the plan may not use are not in it. */
function servingsInStore({ resolved, request }: Pick<Plan, 'resolved' | 'request'>): number {
  const allowed = resolved.kits.filter((kit) => request.kitIds == null || request.kitIds.includes(kit.id));
  return allowed.reduce((sum, kit) => {
    const sets = Math.min(
      ...kit.parts.map((part) => {
        const held = resolved.stock
          .filter((lot) => lot.kitId === kit.id && lot.partId === part.id)
          .reduce((total, lot) => total + lot.quantity, 0);
        return held / (part.containersPerSet ?? 1);
      }),
    );
    return sum + Math.max(0, Number.isFinite(sets) ? sets : 0) * kit.servings;
  }, 0);
}
