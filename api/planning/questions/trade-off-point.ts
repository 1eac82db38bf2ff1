/** Points of the curve between fuel and hot or varied meals. */
import type { ExplanationStep } from '../../cooking/calculators/calculator-types.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import type { ChosenPoint } from '../plan-types.ts';
import type { LeastFuelWeek, Service } from '../programme/least-fuel.ts';
import { FUEL_TOLERANCE } from '../programme/week-model.ts';
import { round } from '../rounding.ts';
import type { PreparedWeek } from '../week/prepared-week.ts';
import { weekAmounts } from '../week/week-amounts.ts';

export interface TradeOffPoint {
  /** Meals that are hot, of those that should be. */
  hotMeals: number;
  /** Times that a kit comes again within two days, on the best days for it. */
  repeats: number;
  /** Put on days; false: days were not worked out in time, and `repeats` may be more. */
  onDays: boolean;
  fuelMJ: Percentiles;
  /** kg (kWh) by fuel, typical. */
  fuel: { fuelId: string; kg: number; share: number }[];
  /** Largest share used of any fuel or of water for cooking. */
  largestShare: number;
  waterL: number;
  servingsShort: number;
  /** Food energy short of the plan's need, %. */
  energyShortPercent: number;
  /** As many meals are hot as can be where food energy comes first, as in the plan. */
  asHotAsPlanned: boolean;
  /** What a request for a plan says to have the plan made at this point. */
  tradeOff: ChosenPoint;
  text: string;
  /** Where it was asked for: the steps behind its figures. */
  explanation?: ExplanationStep[];
}

/** The point that a week is on the curve. */
export function tradeOffPoint(
  prepared: PreparedWeek,
  week: LeastFuelWeek,
  asked: number,
  service: Service,
): TradeOffPoint {
  const { days, slots, safeWaterByDay, treatableWaterByDay, fuelByDay } = prepared.week;
  const amounts = weekAmounts({ ...prepared, model: week.model }, week);
  const wanted = slots.filter((slot) => slot.hotWanted).length;
  const hotMeals = Math.max(asked, Math.floor(amounts.hotMeals + 0.02));
  const last = days - 1;
  const availableL = (safeWaterByDay[last] ?? 0) + (treatableWaterByDay[last] ?? 0);
  const fuel = Object.entries(amounts.fuel).map(([fuelId, used]) => ({
    fuelId,
    kg: round(used.p50, 3),
    share: round(used.p90 / Math.max(1e-6, fuelByDay[fuelId]?.[last] ?? 0), 3),
  }));
  const largestShare = Math.max(
    availableL <= 0 ? 0 : round(amounts.cookL / availableL, 3),
    ...fuel.filter(({ kg }) => kg > 0).map(({ share }) => share),
  );
  const repeats = week.repeats ?? 0;
  const { p10, p50, p90 } = amounts.fuelMJ;
  const dishes =
    week.repeats === null
      ? 'how varied was not worked out'
      : repeats === 0
        ? 'no dish again within two days'
        : `a dish again within two days ${repeats} ${repeats === 1 ? 'time' : 'times'}`;
  return {
    hotMeals,
    repeats,
    onDays: week.repeats !== null,
    fuelMJ: { p10: round(p10, 2), p50: round(p50, 2), p90: round(p90, 2) },
    fuel,
    largestShare,
    waterL: round(amounts.cookL, 1),
    servingsShort: round(amounts.servingsShort, 1),
    energyShortPercent: week.energySteps,
    asHotAsPlanned: hotMeals === service.hotMeals,
    tradeOff: {
      coldMeals: wanted - hotMeals,
      repeats: week.repeats,
      ...(week.energySteps > week.served.energySteps ? { energyShortPercent: week.energySteps } : {}),
    },
    text: `${hotMeals} of ${wanted} meals hot that should be, ${dishes}: ${round(p50, 1)} MJ, nine times in ten at most ${round(p90, 1)} MJ.${week.energySteps > week.served.energySteps ? ` ${week.energySteps} % of the food energy is then short.` : ''}`,
  };
}

/** Points that no other beats in fuel, hot meals and repeats alike; of equal ones the first. */
export function paretoOf(points: readonly TradeOffPoint[]): TradeOffPoint[] {
  return points.filter((point, at) =>
    points.every((other, otherAt) => {
      if (other === point) return true;
      const noWorse =
        other.fuelMJ.p50 <= point.fuelMJ.p50 * (1 + FUEL_TOLERANCE) &&
        other.hotMeals >= point.hotMeals &&
        repeatsOf(other) <= repeatsOf(point);
      if (!noWorse) return true;
      const better =
        other.fuelMJ.p50 < point.fuelMJ.p50 * (1 - FUEL_TOLERANCE) ||
        other.hotMeals > point.hotMeals ||
        repeatsOf(other) < repeatsOf(point);
      return !better && otherAt > at;
    }),
  );
}

/** Repeats that were not worked out may be any number. */
function repeatsOf({ repeats, onDays }: TradeOffPoint): number {
  return onDays ? repeats : Number.POSITIVE_INFINITY;
}
