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

/** A way that a week by counts takes, and how often. */
export interface WeekUse {
  kind: 'dish' | 'start' | 'hot-water' | 'safe-water';
  id: string;
  /** Times; litres of water made safe. */
  times: number;
  /** What it burns each time, kg (kWh for electricity); null: nothing. */
  burns: null | { fuelId: string; kg: Percentiles; mj: Percentiles };
  /** Water for cooking each time, L. */
  waterL: number;
}

type Counted = { programme: CountProgramme; values: readonly number[] };

/** How often a week by counts takes each column of its programme. */
function timesIn(counts: Counted): (column: number | undefined) => number {
  const { countOf } = counts.programme;
  const members = new Map<number, number>();
  for (const count of countOf) members.set(count, (members.get(count) ?? 0) + 1);
  // Columns of one count are alike but for their day, so that an even share of the count on each adds up to the same.
  return (column) => {
    const count = column === undefined ? undefined : countOf[column];
    return count === undefined ? 0 : (counts.values[count] ?? 0) / (members.get(count) ?? 1);
  };
}

/**
 * What a week by counts takes: dishes, starts of fires, pots of hot water, and water made safe, in this order.
 * @param counts values of the count programme made from the programme of this week
 * @returns only what is taken at all
 */
export function weekUses(
  { week, calendar, model }: Pick<PreparedWeek, 'week' | 'calendar' | 'model'>,
  counts: Counted,
): WeekUse[] {
  const timesOf = timesIn(counts);
  const uses: WeekUse[] = [];
  const add = (use: WeekUse) => {
    if (use.times >= 1e-9) uses.push(use);
  };
  for (const { id, waterL } of week.options) {
    const detail = calendar.options.get(id);
    const burns =
      detail?.method && detail.lighting !== null
        ? { fuelId: detail.lighting.fuelId, kg: detail.method.fuelKg, mj: detail.method.fuelMJ }
        : null;
    add({ kind: 'dish', id, times: timesOf(model.columns.option.get(id)), burns, waterL });
  }
  for (const [id, column] of model.columns.lighting) {
    const detail = calendar.lightings.get(id);
    if (detail === undefined) continue;
    const burns = { fuelId: detail.fuelId, kg: detail.startUpKg, mj: detail.startUpMJ };
    add({ kind: 'start', id, times: timesOf(column), burns, waterL: 0 });
  }
  for (const [id, column] of model.columns.hotWater) {
    const detail = calendar.hotWater.get(id);
    if (detail === undefined) continue;
    const burns = { fuelId: detail.lighting.fuelId, kg: detail.fuelKg, mj: detail.fuelMJ };
    add({ kind: 'hot-water', id, times: timesOf(column), burns, waterL: 0 });
  }
  for (const [id, column] of model.columns.treatment) {
    const detail = calendar.treatments.get(id);
    if (detail === undefined || detail.lighting === null) continue;
    const burns = { fuelId: detail.lighting.fuelId, kg: detail.fuelKgPerL, mj: detail.fuelMJPerL };
    add({ kind: 'safe-water', id, times: timesOf(column), burns, waterL: 0 });
  }
  return uses;
}

/**
 * Adds up a week by counts.
 * @param counts values of the count programme made from the programme of this week
 */
export function weekAmounts(prepared: Pick<PreparedWeek, 'week' | 'calendar' | 'model'>, counts: Counted): WeekAmounts {
  const { week, model } = prepared;
  const timesOf = timesIn(counts);
  const fuel: Record<string, Percentiles> = {};
  for (const fuelId of Object.keys(week.fuelByDay)) fuel[fuelId] = { p10: 0, p50: 0, p90: 0 };
  const fuelMJ = { p10: 0, p50: 0, p90: 0 };
  const sets: Record<string, number> = {};
  let cookL = 0;
  let hotMeals = 0;
  const wantOf = new Map(week.slots.map((slot) => [slot.id, slot.hotWanted ? slot.wantServings : 0]));
  const optionOf = new Map(week.options.map((option) => [option.id, option]));
  for (const { kind, id, times, burns, waterL } of weekUses(prepared, counts)) {
    cookL += times * waterL;
    if (burns !== null) {
      const own = fuel[burns.fuelId] ?? { p10: 0, p50: 0, p90: 0 };
      fuel[burns.fuelId] = own;
      for (const p of ['p10', 'p50', 'p90'] as const) {
        own[p] += times * burns.kg[p];
        fuelMJ[p] += times * burns.mj[p];
      }
    }
    const option = kind === 'dish' ? optionOf.get(id) : undefined;
    if (option === undefined) continue;
    if (option.hot)
      hotMeals +=
        times *
        sum(slotsFedBy(option), ({ slotId, servings }) => {
          const wanted = wantOf.get(slotId) ?? 0;
          return wanted <= 0 ? 0 : Math.min(1, servings / wanted);
        });
    sets[option.kitId] = (sets[option.kitId] ?? 0) + times * option.sets;
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
