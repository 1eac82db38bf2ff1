/** What a plan has used by a moment if everything was done as planned: fuel by its fires, water by the clock. */
import type { Percentiles } from '../../physics/parameter.ts';
import { addDays, toMinute } from '../local-time.ts';
import type { Cooking, Plan } from '../plan-types.ts';

/** Fuel used, kg (kWh of electricity), and `limit`: the sum of the 90th percentiles, by which the plan is limited. */
export interface FuelUsed extends Percentiles {
  limit: number;
}

const NONE: FuelUsed = { p10: 0, p50: 0, p90: 0, limit: 0 };

/** The cookings whose every meal was not cooked for: skipped, or changed for something else. */
export function notCooked(plan: Pick<Plan, 'cookings' | 'meals'>, left: ReadonlySet<string>): ReadonlySet<string> {
  return new Set(
    plan.cookings
      .filter((cooking) => {
        const meals = mealsOfCooking(plan, cooking);
        return meals.length > 0 && meals.every((meal) => left.has(meal));
      })
      .map((cooking) => cooking.id),
  );
}

/** Ids of the meals that a cooking feeds. */
export function mealsOfCooking(plan: Pick<Plan, 'meals'>, cooking: Pick<Cooking, 'id'>): string[] {
  return plan.meals.filter((meal) => meal.dishes.some((dish) => dish.cookingId === cooking.id)).map((meal) => meal.id);
}

/**
 * Fuel that the fires of a plan have taken by a moment.
 * @param at local wall-clock time; fires lit by then count as a whole
 * @param omitted ids of cookings that did not take place; a fire with nothing else on it was not lit
 */
export function fuelUsedBy(plan: Plan, fuelId: string, at: string, omitted: ReadonlySet<string>): FuelUsed {
  const balance = plan.fuel.find((row) => row.fuelId === fuelId);
  if (balance === undefined) return NONE;
  const electric = fuelId === 'electricity';
  const used = { ...NONE };
  for (const day of balance.byDay) {
    if (day.date > at.slice(0, 10)) break;
    let wholeDay = 0;
    let byNow = 0;
    for (const lighting of plan.lightings) {
      if (lighting.fuelId !== fuelId || lighting.at.slice(0, 10) !== day.date || lighting.burnsAnyway === true)
        continue;
      const works = [
        ...plan.cookings.filter((cooking) => cooking.method.lightingId === lighting.id),
        ...plan.tasks.filter((task) => task.lightingId === lighting.id),
      ].map((work) => ({
        id: work.id,
        limit: work.fuel
          .filter((row) => row.fuelId === fuelId)
          .reduce((sum, row) => sum + (electric ? (row.kWh?.p90 ?? 0) : row.kg.p90), 0),
      }));
      const all = works.reduce((sum, work) => sum + work.limit, lighting.startUpFuel.kg);
      const kept = works.filter((work) => !omitted.has(work.id));
      const burnt = kept.length === 0 ? 0 : kept.reduce((sum, work) => sum + work.limit, lighting.startUpFuel.kg);
      wholeDay += all;
      if (lighting.at <= at) byNow += burnt;
    }
    if (wholeDay <= 0) continue;
    // The day's band, of which these fires are a part.
    const share = byNow / wholeDay;
    used.p10 += share * day.usedKg.p10;
    used.p50 += share * day.usedKg.p50;
    used.p90 += share * day.usedKg.p90;
    used.limit += byNow;
  }
  return used;
}

/** Litres used: washing of people, which may be any water, and all the rest. */
export interface WaterUsed {
  hygieneL: number;
  foodL: number;
  /** Of the rest, what went into pots and bowls. */
  potsL: number;
}

/**
 * Water that a plan has taken by a moment: drinks, animals and hygiene run with the clock of each day, washing-up with
 * the meals, pots and bowls with their dishes.
 * @param potsBy up to when dishes that begin are counted; absent: the moment itself
 * @param at local wall-clock time at a place in `timeZone`
 */
export function waterUsedBy(
  plan: Plan,
  at: string,
  timeZone: string,
  omitted: ReadonlySet<string>,
  potsBy = at,
): WaterUsed {
  const used = { hygieneL: 0, foodL: 0, potsL: 0 };
  const now = toMinute(at, timeZone);
  for (const day of plan.water.byDay) {
    const first = day.date === plan.request.startsAt.slice(0, 10);
    const from = toMinute(first ? plan.request.startsAt : `${day.date}T00:00`, timeZone);
    if (from >= now) break;
    const to = toMinute(`${addDays(day.date, 1)}T00:00`, timeZone);
    const share = Math.min(1, (now - from) / (to - from));
    const meals = plan.meals.filter((meal) => meal.id.startsWith(day.date));
    const people = meals.reduce((sum, meal) => sum + meal.people, 0);
    const washed = meals.filter((meal) => meal.eatAt <= at).reduce((sum, meal) => sum + meal.people, 0);
    used.hygieneL += share * day.hygieneL;
    used.foodL += share * (day.drinkL + day.animalsL) + (people === 0 ? 0 : (day.washL * washed) / people);
  }
  for (const cooking of plan.cookings) {
    if (omitted.has(cooking.id)) continue;
    const soakL = cooking.method.soak?.waterL ?? 0;
    if (cooking.method.soak !== null && cooking.method.soak.at <= at) used.potsL += soakL;
    if (hasBegun(plan, cooking, potsBy)) used.potsL += cooking.waterL.total - soakL;
  }
  for (const task of plan.tasks) if (task.kind === 'melt-snow' && task.at <= at) used.foodL -= task.litres;
  used.foodL += used.potsL;
  return used;
}

/** Whether a dish is on its way by a moment: its fire is lit, or, without fire, its water is added. */
export function hasBegun(plan: Pick<Plan, 'lightings'>, cooking: Cooking, by: string): boolean {
  const fire = plan.lightings.find((one) => one.id === cooking.method.lightingId);
  return cooking.startsAt <= by || (fire !== undefined && fire.burnsAnyway !== true && fire.at <= by);
}
