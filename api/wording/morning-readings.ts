/**
 * What a scale and a measuring jug should show on a morning. A plan's `byDay` rows are for the end of each day, so a
 * morning is the evening before; the first morning is what was on hand.
 */
import type { PlanDraft } from '../planning/plan-types.ts';
import { asHeading, fuelName } from './names.ts';
import { addDays, dateOf } from './times.ts';

export interface MorningReading {
  name: string;
  expected: number;
  /** Below this the rest of the plan no longer holds: make a new plan. */
  replanBelow: number;
  unit: 'kg' | 'L';
}

/** The fuels to weigh on a morning, those that the plan uses. Amounts in kg. */
export function fuelReadings(plan: PlanDraft, date: string): MorningReading[] {
  const first = date <= dateOf(plan.request.startsAt);
  return plan.fuel.flatMap((fuel) => {
    if (fuel.fuelId === 'electricity' || fuel.usedKg.p90 < 0.0005) return [];
    const name = asHeading(fuelName(fuel.fuelId));
    if (first) return [{ name, expected: fuel.onHandKg, replanBelow: fuel.usedKg.p90, unit: 'kg' as const }];
    const before = fuel.byDay.find((row) => row.date === addDays(date, -1));
    // A fuel that nothing was taken from since the last reading need not be weighed again.
    if (before === undefined || before.usedKg.p50 < 0.002) return [];
    return [{ name, expected: before.expectedReading.p50, replanBelow: before.replanBelow, unit: 'kg' as const }];
  });
}

/** The water to measure on a morning, L, or null where the plan has no such day. */
export function waterReading(plan: PlanDraft, date: string): MorningReading | null {
  if (plan.water.byDay.length === 0) return null;
  if (date <= dateOf(plan.request.startsAt)) {
    const used = plan.water.byDay.reduce((sum, day) => sum + day.usedL, 0);
    const onHand = plan.water.onHandL;
    return { name: 'Water', expected: onHand, replanBelow: Math.min(onHand, used), unit: 'L' };
  }
  const before = plan.water.byDay.find((row) => row.date === addDays(date, -1));
  return before === undefined
    ? null
    : { name: 'Water', expected: before.leftL, replanBelow: before.replanBelow, unit: 'L' };
}
