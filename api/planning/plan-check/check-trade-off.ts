/** The chosen point of the trade-off: no more meals cold by choice and no more repeats than the household allowed. */
import type { PlannedMeal } from '../plan-types.ts';
import type { PlanView, Report } from './plan-view.ts';

const SERVING_ROOM = 0.02;

/** Checks that meals are called cold by choice only where they are and may be, and counts repeats by the calendar. */
export function checkTradeOff(view: PlanView, report: Report): void {
  const { plan } = view;
  const chosen = plan.request.tradeOff ?? null;
  const byChoice = plan.meals.filter((meal) => meal.coldByChoice === true);
  if (chosen === null) {
    for (const meal of byChoice) report('cold-by-choice', meal.id, 'nobody chose that a meal may be cold');
    if (plan.tradeOff !== undefined) report('trade-off', 'tradeOff', 'no point was chosen');
    return;
  }
  const told = plan.tradeOff?.coldMeals ?? [];
  if (told.join() !== byChoice.map((meal) => meal.id).join())
    report('trade-off', 'tradeOff', `${told.length} cold meals are told, ${byChoice.length} are marked`);
  if (byChoice.length > chosen.coldMeals)
    report('cold-by-choice', 'meals', `${byChoice.length} meals are cold by choice, ${chosen.coldMeals} may be`);
  for (const meal of byChoice)
    if (!meal.hotWanted || !isCold(meal)) report('cold-by-choice', meal.id, 'is hot, or need not be');
  // Beyond those chosen a meal that should be hot is missed, and the plan says so.
  const missed = plan.meals.filter((meal) => meal.hotWanted && meal.coldByChoice !== true && isCold(meal));
  if (missed.length > 0 && !isTold(view, 'hot-meals', 0))
    report(
      'cold-by-choice',
      missed[0]?.id ?? '',
      `${missed.length} more meals are cold than may be, and none is missed`,
    );
  if (chosen.repeats == null) return;
  const repeats = countRepeats(view);
  if (repeats > chosen.repeats && !isTold(view, 'chosen-repeats', repeats - chosen.repeats - 0.5))
    report('repeats', 'meals', `a dish comes again within two days ${repeats} times, ${chosen.repeats} are allowed`);
}

/** Somebody eats there, and not all of it is hot. */
function isCold({ dishes, servingsWanted, servingsShort }: PlannedMeal): boolean {
  let hot = 0;
  for (const dish of dishes) if (dish.hot) hot += dish.servings;
  return dishes.length > 0 && hot + servingsShort < servingsWanted - SERVING_ROOM;
}

/** Whether the plan's own proof admits more than so much of what was missed. */
function isTold({ plan }: PlanView, aim: string, above: number): boolean {
  return plan.proof.aims.some((row) => row.aim === aim && row.value > above);
}

/** Day by day: what is eaten today and was eaten today or yesterday already, once for each two days that hold both. */
function countRepeats({ plan, dates, dayOf }: PlanView): number {
  const kitOf = new Map(plan.cookings.map((cooking) => [cooking.id, cooking.kitId]));
  const before = plan.continues?.from.before.eaten ?? [];
  const times = new Map<string, number[]>();
  const note = (kitId: string, day: number) => {
    // The day before the plan stands first.
    const own = times.get(kitId) ?? new Array<number>(dates.length + 1).fill(0);
    if (own[day + 1] !== undefined) own[day + 1] = (own[day + 1] as number) + 1;
    times.set(kitId, own);
  };
  for (const meal of plan.meals)
    for (const dish of meal.dishes) {
      const kitId = kitOf.get(dish.cookingId);
      if (kitId !== undefined) note(kitId, dayOf(meal.eatAt));
    }
  const planned = new Map([...times].map(([kitId, own]) => [kitId, [...own]]));
  for (const { kitId, day } of before) if (planned.has(kitId)) note(kitId, day);
  let repeats = 0;
  for (const [kitId, own] of times) {
    const withoutBefore = planned.get(kitId) ?? [];
    for (let first = 0; first < Math.max(2, dates.length); first++) {
      const eaten = (withoutBefore[first] ?? 0) + (withoutBefore[first + 1] ?? 0);
      const all = (own[first] ?? 0) + (own[first + 1] ?? 0);
      const earlier = all - eaten;
      // The first pair holds the day before the plan: it counts where that day or this morning was eaten before.
      if (eaten > 0 && (first > 0 || earlier > 0)) repeats += all - 1;
    }
  }
  return repeats;
}
