/** What a week by counts takes: fuel with its spread, water, hot meals. */
import type { Percentiles } from '../../physics/parameter.ts';
import type { CountProgramme } from '../programme/count-programme.ts';
import { sum } from '../rounding.ts';
import type { PreparedWeek } from './prepared-week.ts';
import { slotsFedBy } from './week-instance.ts';

export interface WeekAmounts {
  /**
   * kg by fuel id (kWh for electricity). Sums of the tenth, fiftieth and ninetieth percentiles of all that burns: errors
   * shared, the careful reading by which plans are limited.
   */
  fuel: Record<string, Percentiles>;
  fuelMJ: Percentiles;
  /** Litres for cooking and soaking. */
  cookL: number;
  /** Sets taken, by kit. */
  sets: Record<string, number>;
  servingsShort: number;
  /** Meals that are hot, of those that should be; one that is hot in part counts by its share. */
  hotMeals: number;
  /** Wanted hot servings that are not hot. */
  servingsCold: number;
  daysWithoutHotWater: number;
}

/**
 * Adds up a week by counts.
 * @param counts values of the count programme made from the programme of this week
 */
export function weekAmounts(
  { week, calendar, model }: Pick<PreparedWeek, 'week' | 'calendar' | 'model'>,
  counts: { programme: CountProgramme; values: readonly number[] },
): WeekAmounts {
  const { countOf } = counts.programme;
  const members = new Map<number, number>();
  for (const count of countOf) members.set(count, (members.get(count) ?? 0) + 1);
  // Columns of one count are alike but for their day, so that an even share of the count on each adds up to the same.
  const timesOf = (column: number | undefined): number => {
    const count = column === undefined ? undefined : countOf[column];
    return count === undefined ? 0 : (counts.values[count] ?? 0) / (members.get(count) ?? 1);
  };
  const fuel: Record<string, Percentiles> = {};
  for (const fuelId of Object.keys(week.fuelByDay)) fuel[fuelId] = { p10: 0, p50: 0, p90: 0 };
  const fuelMJ = { p10: 0, p50: 0, p90: 0 };
  const burn = (times: number, fuelId: string, kg: Percentiles, mj: Percentiles) => {
    if (times < 1e-9) return;
    const own = fuel[fuelId] ?? { p10: 0, p50: 0, p90: 0 };
    fuel[fuelId] = own;
    for (const p of ['p10', 'p50', 'p90'] as const) {
      own[p] += times * kg[p];
      fuelMJ[p] += times * mj[p];
    }
  };
  const sets: Record<string, number> = {};
  let cookL = 0;
  let hotMeals = 0;
  const wantOf = new Map(week.slots.map((slot) => [slot.id, slot.hotWanted ? slot.wantServings : 0]));
  for (const option of week.options) {
    const times = timesOf(model.columns.option.get(option.id));
    if (times < 1e-9) continue;
    cookL += times * option.waterL;
    if (option.hot)
      hotMeals +=
        times *
        sum(slotsFedBy(option), ({ slotId, servings }) => {
          const wanted = wantOf.get(slotId) ?? 0;
          return wanted <= 0 ? 0 : Math.min(1, servings / wanted);
        });
    sets[option.kitId] = (sets[option.kitId] ?? 0) + times * option.sets;
    const detail = calendar.options.get(option.id);
    if (detail?.method && detail.lighting !== null)
      burn(times, detail.lighting.fuelId, detail.method.fuelKg, detail.method.fuelMJ);
  }
  for (const [id, column] of model.columns.lighting) {
    const detail = calendar.lightings.get(id);
    if (detail !== undefined) burn(timesOf(column), detail.fuelId, detail.startUpKg, detail.startUpMJ);
  }
  for (const [id, column] of model.columns.hotWater) {
    const detail = calendar.hotWater.get(id);
    if (detail !== undefined) burn(timesOf(column), detail.lighting.fuelId, detail.fuelKg, detail.fuelMJ);
  }
  for (const [id, column] of model.columns.treatment) {
    const detail = calendar.treatments.get(id);
    if (detail !== undefined && detail.lighting !== null)
      burn(timesOf(column), detail.lighting.fuelId, detail.fuelKgPerL, detail.fuelMJPerL);
  }
  return {
    fuel,
    fuelMJ,
    cookL,
    sets,
    servingsShort: sum(model.columns.short, timesOf),
    hotMeals,
    servingsCold: sum(model.columns.cold, timesOf),
    daysWithoutHotWater: sum(model.columns.noHotWater, timesOf),
  };
}
