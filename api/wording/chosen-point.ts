/** What a plan says of the point of the trade-off that a household has chosen. */
import type { Plan, PlannedMeal } from '../planning/plan-types.ts';
import { dateOf, dateText, dayName } from './times.ts';

/** ", cold by choice", to follow the name of a dish; empty for all other meals. */
export function coldByChoiceWords(meal: Pick<PlannedMeal, 'coldByChoice'> | undefined): string {
  return meal?.coldByChoice === true ? ', cold by choice' : '';
}

/**
 * Which meals are cold by choice, for a sheet.
 * @returns null where no point was chosen, or no meal is cold for it
 */
export function coldByChoiceLine({ tradeOff, meals }: Pick<Plan, 'tradeOff' | 'meals'>): string | null {
  const byDay = new Map<string, string[]>();
  for (const meal of meals) {
    if (meal.coldByChoice !== true) continue;
    const date = dateOf(meal.eatAt);
    byDay.set(date, [...(byDay.get(date) ?? []), meal.slot]);
  }
  if (tradeOff === undefined || byDay.size === 0) return null;
  // The year stands at the head of the sheet.
  const day = (date: string) => `${dayName(date)} ${dateText(date).replace(/\u00a0\d{4}$/, '')}`;
  const days = [...byDay].map(([date, slots]) => `${day(date)} ${slots.join(' and ')}`);
  return `cold by choice, though they should be hot: ${days.join('; ')}.`;
}
