/** Every limit of a placed week: used, allowed, slack. */

import type { FuelBalance, Limit, WaterDay } from '../plan-types.ts';
import { round } from '../rounding.ts';
import type { PlacedWeek } from '../week/place-week.ts';
import type { WeekSituation } from '../week/week-situation.ts';
import { plannedFuel } from './plan-fuel.ts';

/** Fuel, water, fires and outdoor minutes by day, sets: what is used of what is allowed. */
export function limitsOf(
  situation: WeekSituation,
  placed: PlacedWeek,
  fuel: FuelBalance[],
  water: WaterDay[],
): Limit[] {
  const limits: Limit[] = [];
  const row = (limit: string, date: string | null, used: number, allowed: number, unit: string) =>
    limits.push({
      limit,
      date,
      used: round(used, 3),
      allowed: round(allowed, 3),
      slack: round(allowed - used, 3),
      unit,
      oneMore: null,
    });
  for (const balance of fuel) {
    const planned = plannedFuel(balance.fuelId, placed);
    row(balance.fuelId, null, planned, balance.budgetKg, balance.fuelId === 'electricity' ? 'kWh' : 'kg');
  }
  const onHand = situation.water.safeL + situation.water.treatL + situation.water.notForFoodL;
  const supplied = situation.household.water.dailySupply.litres * Math.max(0, situation.days.length - 1);
  row(
    'water',
    null,
    water.reduce((total, day) => total + day.usedL, 0),
    onHand + supplied,
    'L',
  );
  for (const [index, day] of situation.days.entries()) {
    const today = placed.lightings.filter((lighting) => lighting.detail.slot.day === index);
    const lit = today.filter((lighting) => !lighting.detail.burnsAnyway);
    row('lightings', day.date, lit.length, situation.household.lightingsPerDay, 'lightings');
    const outdoors = today
      .filter((lighting) => lighting.detail.stove.site === 'outdoors')
      .reduce((total, lighting) => total + lighting.endMinute - lighting.startMinute, 0);
    row('outdoor-minutes', day.date, outdoors, situation.household.outdoorMinutesPerDay, 'min');
  }
  for (const kitStock of situation.kits) {
    const used = placed.dishes
      .filter((dish) => dish.detail.kit === kitStock)
      .reduce((total, dish) => total + dish.detail.sets, 0);
    if (kitStock.sets > 0 || used > 0) row(`sets:${kitStock.kit.id}`, null, used, kitStock.sets, 'sets');
  }
  return limits;
}
