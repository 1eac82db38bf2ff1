/** What a week by counts takes: fuel with its spread, water, hot servings, repeats. */
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
  /** Hot servings of meals that should be hot. */
  hotServings: number;
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
  let hotServings = 0;
  const wantOf = new Map(week.slots.map((slot) => [slot.id, slot.hotWanted ? slot.wantServings : 0]));
  for (const option of week.options) {
    const times = timesOf(model.columns.option.get(option.id));
    if (times < 1e-9) continue;
    cookL += times * option.waterL;
    if (option.hot)
      hotServings +=
        times * sum(slotsFedBy(option), ({ slotId, servings }) => Math.min(servings, wantOf.get(slotId) ?? 0));
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
    hotServings,
    servingsCold: sum(model.columns.cold, timesOf),
    daysWithoutHotWater: sum(model.columns.noHotWater, timesOf),
  };
}

/**
 * Cost of every column of a week in fuel heat, for the aim of burning as little as can be.
 * @returns pairs of column and MJ at the fiftieth percentile
 */
export function fuelHeatTerms({
  calendar,
  model,
}: Pick<PreparedWeek, 'calendar' | 'model'>): [column: number, mj: number][] {
  const { columns } = model;
  return [
    ...[...columns.option].map(([id, column]): [number, number] => [
      column,
      calendar.options.get(id)?.method?.fuelMJ.p50 ?? 0,
    ]),
    ...[...columns.lighting].map(([id, column]): [number, number] => [
      column,
      calendar.lightings.get(id)?.startUpMJ.p50 ?? 0,
    ]),
    ...[...columns.hotWater].map(([id, column]): [number, number] => [
      column,
      calendar.hotWater.get(id)?.fuelMJ.p50 ?? 0,
    ]),
    ...[...columns.treatment].map(([id, column]): [number, number] => [
      column,
      calendar.treatments.get(id)?.fuelMJPerL.p50 ?? 0,
    ]),
  ];
}
