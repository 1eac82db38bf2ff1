/** Until when what is served may be eaten: one rule for paper, page and calendar. */
import { FOOD_SAFETY, safeUntilAfterHeat } from '../cooking/keeping/safe-until.ts';
import type { Cooking, PlannedMeal } from '../planning/plan-types.ts';
import { addMinutes, localMs } from './times.ts';

/** Eaten or thrown away within this once it is served, min (FSIS: two hours). */
export const LONGEST_OPEN_MINUTES = FOOD_SAFETY.hoursOut.value * 60;
/** Where the plan does not say how warm the room is, C. */
const USUAL_ROOM_C = 20;

/**
 * The earlier of two times: until when the dish is safe unopened, and two hours (one in a hot room) after it is served,
 * however warm its box would have stayed.
 * @param dish one dish of the meal
 * @param cooking how it was cooked; undefined where the plan does not know
 * @returns local date-time
 */
export function eatByOf(
  meal: Pick<PlannedMeal, 'eatAt'>,
  dish: PlannedMeal['dishes'][number],
  cooking: Cooking | undefined,
): string {
  const hours = safeUntilAfterHeat(cooking?.basis?.surroundings.indoorC ?? USUAL_ROOM_C);
  const opened = addMinutes(meal.eatAt, hours * 60);
  return localMs(dish.safeUntil) < localMs(opened) ? dish.safeUntil : opened;
}
