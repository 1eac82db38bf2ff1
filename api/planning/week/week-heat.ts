/** Fuel heat of everything that could burn in a week, for the aim of burning as little as can be. */
import type { WeekCalendar } from './week-calendar-types.ts';
import type { WeekHeat } from './week-instance.ts';

/**
 * Typical fuel heat of each way of cooking, start of a fire, pot of hot water and litre made safe.
 * @returns MJ at the 50th percentile by id, 0 or more; what sees no fire is left out
 */
export function weekHeat({
  options,
  lightings,
  hotWater,
  treatments,
}: Pick<WeekCalendar, 'options' | 'lightings' | 'hotWater' | 'treatments'>): WeekHeat {
  const burning = (all: Iterable<readonly [string, number | undefined]>): Record<string, number> =>
    Object.fromEntries([...all].flatMap(([id, mj]) => (mj === undefined || mj <= 0 ? [] : [[id, mj]])));
  return {
    options: burning([...options].map(([id, { method }]) => [id, method?.fuelMJ.p50] as const)),
    lightings: burning([...lightings].map(([id, { startUpMJ }]) => [id, startUpMJ.p50] as const)),
    hotWater: burning([...hotWater].map(([id, { fuelMJ }]) => [id, fuelMJ.p50] as const)),
    treatments: burning([...treatments].map(([id, { fuelMJPerL }]) => [id, fuelMJPerL.p50] as const)),
  };
}
