/** What a plan that was made at a chosen point of the trade-off comes to: meals that are cold by choice, and repeats. */
import { daysBetween } from '../local-time.ts';
import type { ChosenPoint, Cooking, PlanDraft, PlannedMeal, TradeOffTaken } from '../plan-types.ts';
import { round, sum } from '../rounding.ts';

/** Days within which a kit that comes again counts as a repeat. */
const WINDOW_DAYS = 2;
/** Fewer servings than this are none. */
const NO_SERVINGS = 0.02;

/** A kit that is eaten on a day of a plan; days before the plan are negative. */
export interface EatenOn {
  kitId: string;
  day: number;
}

/**
 * Times that a kit comes again within two days: in every two days that follow one another, each time after the first. A
 * kit on two days running counts once, three days running twice.
 * @param eaten by the plan, days from 0
 * @param before eaten just before it, days -1 and 0
 * @param lastStart day on which the last two days begin
 * @returns count
 */
export function repeatsOf(eaten: readonly EatenOn[], before: readonly EatenOn[], lastStart: number): number {
  let repeats = 0;
  for (const kitId of new Set(eaten.map((one) => one.kitId))) {
    const within = (all: readonly EatenOn[], start: number) =>
      all.filter((one) => one.kitId === kitId && one.day >= start && one.day < start + WINDOW_DAYS).length;
    for (let start = 1 - WINDOW_DAYS; start <= lastStart; start++) {
      const own = within(eaten, start);
      // Two days that the plan begins in the middle of are counted where something was eaten on the first of them.
      if (own > 0 && (start >= 0 || within(before, start) > 0)) repeats += own + within(before, start) - 1;
    }
  }
  return repeats;
}

/** The kits that meals are fed with, by day of the plan. */
export function eatenBy(meals: readonly PlannedMeal[], cookings: readonly Cooking[], startsAt: string): EatenOn[] {
  const kitOf = new Map(cookings.map(({ id, kitId }) => [id, kitId]));
  return meals.flatMap((meal) => {
    const day = daysBetween(startsAt, meal.eatAt);
    return meal.dishes.flatMap(({ cookingId }): EatenOn[] => {
      const kitId = kitOf.get(cookingId);
      return kitId === undefined ? [] : [{ kitId, day }];
    });
  });
}

/** Whether people eat at a meal that should be hot and is not, or is in part only. */
function isServedCold({ hotWanted, dishes, servingsWanted, servingsShort }: PlannedMeal): boolean {
  const hot = sum(
    dishes.filter((dish) => dish.hot),
    (dish) => dish.servings,
  );
  return hotWanted && dishes.length > 0 && hot + servingsShort < servingsWanted - NO_SERVINGS;
}

/**
 * Marks the meals of a plan that are cold by choice, the first ones where more are cold than were chosen, and says what the
 * plan comes to.
 * @param before eaten just before the plan, days -1 and 0
 * @param fuelMJ typical fuel heat of the whole plan, MJ, 0 or more
 */
export function takenPoint(
  chosen: ChosenPoint,
  { meals, cookings }: Pick<PlanDraft, 'meals' | 'cookings'>,
  { startsAt, days }: { startsAt: string; days: number },
  before: readonly EatenOn[],
  fuelMJ: number,
): { meals: PlannedMeal[]; tradeOff: TradeOffTaken } {
  const cold = new Set(
    meals
      .filter(isServedCold)
      .slice(0, chosen.coldMeals)
      .map((meal) => meal.id),
  );
  const wanted = meals.filter((meal) => meal.hotWanted).length;
  const repeats = repeatsOf(eatenBy(meals, cookings, startsAt), before, Math.max(0, days - WINDOW_DAYS));
  const again =
    repeats === 0
      ? 'no dish comes again within two days'
      : `a dish comes again within two days ${repeats === 1 ? 'once' : `${repeats} times`}`;
  const unused = (allowed: number | null | undefined, used: number) =>
    allowed != null && used < allowed ? ` (${allowed} were allowed)` : '';
  return {
    meals: meals.map((meal) => (cold.has(meal.id) ? { ...meal, coldByChoice: true as const } : meal)),
    tradeOff: {
      coldMeals: [...cold],
      repeats,
      fuelMJ: round(fuelMJ, 2),
      text: `Fuel is spared by choice: ${cold.size} of the ${wanted} meals that should be hot ${cold.size === 1 ? 'is' : 'are'} cold${unused(chosen.coldMeals, cold.size)}, ${again}${unused(chosen.repeats, repeats)}, and all fires together take about ${round(fuelMJ, 1)} MJ.`,
    },
  };
}
