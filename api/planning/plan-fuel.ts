/** Fuel of a placed week: what is used and left by day, with its spread, and what the plan is limited by. */
import { NOTHING, scalePercentiles } from '../cooking/calculations.ts';
import type { Percentiles } from '../physics/parameter.ts';
import type { PlacedWeek } from './place-week.ts';
import type { FuelBalance, PlanDraft } from './plan-types.ts';
import { round, sum } from './rounding.ts';
import type { WeekSituation } from './week-situation.ts';

/** Each fuel by day, kg (kWh for electricity): used, left with its band, and the mark below which to plan anew. */
export function fuelBalances(situation: WeekSituation, placed: PlacedWeek): FuelBalance[] {
  return Object.entries(situation.fuels).map(([fuelId, fuel]) => {
    // Fuel of a fire by day: dishes, hot water, treatment, start-up.
    const items = [
      ...placed.dishes.flatMap((dish) =>
        dish.detail.lighting?.fuelId === fuelId && dish.detail.method !== null
          ? [{ day: dish.detail.slot.day, kg: dish.detail.method.fuelKg, spread: dish.detail.method.spreadUp }]
          : [],
      ),
      ...placed.hotWater.flatMap((task) =>
        task.detail.lighting.fuelId === fuelId
          ? [{ day: task.detail.lighting.slot.day, kg: task.detail.fuelKg, spread: sharedOnly(task.detail.fuelKg) }]
          : [],
      ),
      ...placed.treatments.flatMap((task) =>
        task.detail.lighting?.fuelId === fuelId
          ? [
              {
                day: task.detail.day,
                kg: scalePercentiles(task.detail.fuelKgPerL, task.litres),
                spread: sharedOnly(task.detail.fuelKgPerL),
              },
            ]
          : [],
      ),
      ...placed.lightings.flatMap((lighting) =>
        lighting.detail.fuelId === fuelId
          ? [
              {
                day: lighting.detail.slot.day,
                kg: lighting.detail.startUpKg,
                spread: sharedOnly(lighting.detail.startUpKg),
              },
            ]
          : [],
      ),
    ];
    const onHandOn = (day: number) => fuel.onHand + fuel.dailySupply * day;
    const byDay = situation.days.map((day, index) => {
      const used = weekBand(items.filter((item) => item.day <= index));
      const today = weekBand(items.filter((item) => item.day === index));
      const onHand = onHandOn(index);
      const left = { p10: onHand - used.p90, p50: onHand - used.p50, p90: onHand - used.p10 };
      return {
        date: day.date,
        usedKg: today,
        leftKg: left,
        expectedReading: left,
        replanBelow: round(Math.max(0, onHand - used.p90), 3),
      };
    });
    return {
      fuelId: fuelId as FuelBalance['fuelId'],
      onHandKg: round(fuel.onHand, 4),
      reserveKg: round(fuel.reserve, 4),
      budgetKg: round(fuel.budgetByDay.at(-1) ?? 0, 4),
      usedKg: weekBand(items),
      byDay,
    };
  });
}

function sharedOnly(kg: Percentiles): { shared: number; independent: number } {
  return { shared: kg.p50 > 0 ? Math.log(kg.p90 / kg.p50) : 0, independent: 0 };
}

/**
 * The shown band of a sum: what the dishes share (stove, fuel, wind) adds up, what differs from dish to dish adds in
 * quadrature. It is narrower than the sum of the 90th percentiles, by which the plan is limited.
 */
function weekBand(items: { kg: Percentiles; spread: { shared: number; independent: number } }[]): Percentiles {
  const p50 = items.reduce((total, item) => total + item.kg.p50, 0);
  if (p50 <= 0) return NOTHING;
  const shared = items.reduce((total, item) => total + item.kg.p50 * (Math.exp(item.spread.shared) - 1), 0);
  const independent = Math.hypot(...items.map((item) => item.kg.p50 * (Math.exp(item.spread.independent) - 1)));
  const p90 = p50 + Math.hypot(shared, independent);
  return { p10: (p50 * p50) / p90, p50, p90 };
}

/** What the plan is limited by: the sum of the 90th percentiles (errors shared, the careful reading). */
export function plannedFuel(fuelId: string, placed: PlacedWeek): number {
  return (
    sum(
      placed.dishes.filter((dish) => dish.detail.lighting?.fuelId === fuelId),
      (dish) => dish.detail.method?.fuelKg.p90 ?? 0,
    ) +
    sum(
      placed.hotWater.filter((task) => task.detail.lighting.fuelId === fuelId),
      (task) => task.detail.fuelKg.p90,
    ) +
    sum(
      placed.treatments.filter((task) => task.detail.lighting?.fuelId === fuelId),
      (task) => task.detail.fuelKgPerL.p90 * task.litres,
    ) +
    sum(
      placed.lightings.filter((lighting) => lighting.detail.fuelId === fuelId),
      (lighting) => lighting.detail.startUpKg.p90,
    )
  );
}

/** Where the spread of the week's fuel comes from, largest first. */
export function spreadOf(placed: PlacedWeek): PlanDraft['spread'] {
  let shared = 0;
  let independent = 0;
  for (const dish of placed.dishes) {
    const method = dish.detail.method;
    if (method === null) continue;
    shared += method.fuelMJ.p50 * (Math.exp(method.spreadUp.shared) - 1);
    independent += (method.fuelMJ.p50 * (Math.exp(method.spreadUp.independent) - 1)) ** 2;
  }
  const total = shared ** 2 + independent;
  if (total <= 0) return [];
  return [
    { cause: 'stove, fuel and wind (shared by all dishes)', share: shared ** 2 / total },
    { cause: 'food lot (differs from dish to dish)', share: independent / total },
  ].sort((a, b) => b.share - a.share);
}
