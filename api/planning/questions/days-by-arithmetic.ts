/** How many days arithmetic alone allows, before anything is solved. */
import type { PlanInput } from '../make-plan.ts';
import { sum } from '../rounding.ts';
import { situationOf } from '../week/prepared-week.ts';

/** Longest plan that is made, days. */
export const MOST_DAYS = 90;

/**
 * Days beyond which arithmetic alone rules out that everybody is fed: water for people, animals and washing, and servings
 * in store against servings wanted.
 * @returns 0 to 90
 */
export function mostDaysByArithmetic(input: PlanInput): number {
  const canBe = (days: number) => {
    const { water, kits, slots } = situationOf(input, days);
    const servings = sum(kits, ({ kit, sets }) => kit.servings * sets);
    return water.baseShort === null && servings >= sum(slots, (slot) => slot.wantServings) - 1e-6;
  };
  let low = 0;
  let high = MOST_DAYS + 1;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (canBe(middle)) low = middle;
    else high = middle;
  }
  return low;
}
