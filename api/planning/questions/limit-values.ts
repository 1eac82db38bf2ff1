/** What one more unit of each limit would change: the week solved again with it, not a price read off. */
import type { Limit } from '../plan-types.ts';
import { countsOf } from '../programme/solve-week.ts';
import { weekModel } from '../programme/week-model.ts';
import { round } from '../rounding.ts';
import type { Solver } from '../solver.ts';
import type { PreparedWeek } from '../week/prepared-week.ts';
import { weekAmounts } from '../week/week-amounts.ts';
import type { WeekInstance } from '../week/week-instance.ts';
import { inPercent, inWords } from './what-is-missing.ts';

/** A minute more outdoors changes nothing by itself; half an hour is a pot. */
const MORE_MINUTES = 30;
/** Below this a limit has no slack, in its unit; what is nearly used up binds too, as a share. */
const NO_SLACK = 0.02;
const NEARLY_ALL = 0.95;
/** Servings, and shares, that differ by less are the same. */
const SAME_SERVINGS = 0.05;
const SAME_SHARE = 0.005;
/** Fuel heat that differs by less than this share is the same: twice the tolerance of a plan. */
const SAME_HEAT = 0.01;
/** Shortest solve that is begun, s. */
const SHORTEST_S = 0.15;
/** One hard solve may not take the time of all others, s. */
const LONGEST_S = 0.8;

interface Worth {
  unfed: number;
  cold: number;
  withoutHotWater: number;
  share: number;
  /** Fuel heat, where it is what a plan makes least, MJ; else 0. */
  heatMJ: number;
}

/**
 * Fills in `oneMore` of the limits that bind, and of those that could matter most, as far as time goes; others stay null.
 * @param prepared the plan's week
 * @param isShort people or hot meals are missed: then what is asked is what more is served, else what becomes less scarce
 * @param share of what is scarcest that a plan without any miss uses, proven; null: not known
 * @param leftS seconds that are left, asked before every solve
 * @throws SolveCancelledError; SolverBusyError
 */
export async function withOneMore(
  limits: readonly Limit[],
  prepared: PreparedWeek,
  isShort: boolean,
  share: number | null,
  solver: Solver,
  leftS: () => number,
  signal?: AbortSignal,
): Promise<Limit[]> {
  const { week, situation } = prepared;
  if (week.slots.length === 0) return [...limits];
  // What could be served is asked, food energy aside: it comes before hot meals in a plan, and takes long to prove.
  const wanted = isShort
    ? ['safe-water', 'night-feeds', 'feed-everyone', 'hot-meals']
    : ['service', 'chosen-repeats', 'fuel-heat', 'scarcest-largest-share'];
  const worthOf = async (instance: WeekInstance, longestS = LONGEST_S): Promise<Worth | null> => {
    if (leftS() < SHORTEST_S) return null;
    const model = weekModel(instance, { optimistic: !isShort });
    // Stating a long week takes a while too.
    if (leftS() < SHORTEST_S) return null;
    const aims = model.aims.filter(({ name }) => wanted.includes(name));
    const options = { timeLimitS: Math.min(longestS, leftS()), ...(signal === undefined ? {} : { signal }) };
    const counts = await countsOf({ ...model, aims }, solver, options);
    // What was not closed in time might have come out better: nothing is said then.
    if (counts === null || !counts.aims.every((own) => own.closed)) return null;
    const amounts = weekAmounts({ week: instance, calendar: prepared.calendar, model }, counts);
    return {
      unfed: amounts.servingsShort,
      cold: amounts.servingsCold,
      withoutHotWater: amounts.daysWithoutHotWater,
      share: counts.aims.find((own) => own.name === 'scarcest-largest-share')?.value ?? 0,
      heatMJ: counts.aims.find((own) => own.name === 'fuel-heat')?.value ?? 0,
    };
  };
  // Without the plan's own figures no other says anything: half of the time if need be.
  const before =
    share === null
      ? await worthOf(week, Math.max(LONGEST_S, leftS() / 2))
      : { unfed: 0, cold: 0, withoutHotWater: 0, share, heatMJ: 0 };
  if (before === null) return [...limits];
  const perMeal = Math.max(...week.slots.map((slot) => slot.wantServings));
  // One answer for all days of a limit that is the same every day.
  const answers = new Map<string, string | null>();
  for (const limit of [...limits].sort((a, b) => rankOf(a, isShort) - rankOf(b, isShort))) {
    if (answers.has(limit.limit) || !matters(limit, isShort)) continue;
    const more = withMore(week, limit.limit);
    if (more === null) continue;
    if (limit.limit === 'water' && situation.water.baseShort !== null) {
      const litres = round(situation.water.baseShort.litres, 1);
      answers.set('water', `${more.text}: nothing changes, ${litres} L are missing to drink and wash with`);
      continue;
    }
    const after = await worthOf(more.week);
    if (after !== null) answers.set(limit.limit, `${more.text}: ${changeInWords(before, after, perMeal, isShort)}`);
  }
  return limits.map((limit) => ({
    ...limit,
    oneMore: binds(limit) || limit.date === null ? (answers.get(limit.limit) ?? null) : null,
  }));
}

function binds(limit: Limit): boolean {
  return limit.slack <= NO_SLACK || (limit.allowed > 0 && limit.used / limit.allowed >= NEARLY_ALL);
}

/** Fuels and water always; the others where they bind, and in a complete plan only fires and minutes. */
function matters(limit: Limit, isShort: boolean): boolean {
  if (limit.limit.startsWith('sets:')) return isShort && binds(limit);
  if (limit.date !== null) return binds(limit);
  return true;
}

/** In a complete plan the scarcest first; in a short one what binds first. */
function rankOf(limit: Limit, isShort: boolean): number {
  const share = limit.allowed <= 0 ? 1 : limit.used / limit.allowed;
  const kind = limit.limit.startsWith('sets:') ? 2 : limit.date !== null ? 1 : 0;
  return isShort ? (binds(limit) ? 0 : 10) + kind - share / 10 : kind - share / 10;
}

/** The week with one more of a limit, and that one more in words; null for a limit that cannot be raised. */
function withMore(week: WeekInstance, limit: string): { week: WeekInstance; text: string } | null {
  const plus = (byDay: readonly number[]) => byDay.map((amount) => amount + 1);
  if (limit === 'water')
    return {
      week: {
        ...week,
        safeWaterByDay: plus(week.safeWaterByDay),
        ...(week.boiledWater === undefined ? {} : { boiledWater: { safeAtStartL: week.boiledWater.safeAtStartL + 1 } }),
      },
      text: '1 L more water',
    };
  if (limit === 'lightings')
    return { week: { ...week, lightingsPerDay: week.lightingsPerDay + 1 }, text: 'One more fire a day' };
  if (limit === 'outdoor-minutes')
    return {
      week: { ...week, outdoorMinutesPerDay: week.outdoorMinutesPerDay + MORE_MINUTES },
      text: `${MORE_MINUTES} min more outdoors a day`,
    };
  if (limit.startsWith('sets:')) {
    const kitId = limit.slice('sets:'.length);
    const good = week.setsGoodOn?.[kitId];
    return {
      week: {
        ...week,
        sets: { ...week.sets, [kitId]: (week.sets[kitId] ?? 0) + 1 },
        ...(good === undefined ? {} : { setsGoodOn: { ...week.setsGoodOn, [kitId]: plus(good) } }),
      },
      text: '1 more set',
    };
  }
  const byDay = week.fuelByDay[limit];
  if (byDay === undefined) return null;
  return {
    week: { ...week, fuelByDay: { ...week.fuelByDay, [limit]: plus(byDay) } },
    text: `1 ${limit === 'electricity' ? 'kWh' : 'kg'} more ${inWords(limit)}`,
  };
}

function changeInWords(before: Worth, after: Worth, perMeal: number, isShort: boolean): string {
  const parts: string[] = [];
  const meals = (servings: number, what: string) => {
    const count = servings / perMeal;
    const whole = Math.abs(count - Math.round(count)) < 0.02;
    if (!whole) return `${round(servings, 1)} more ${what === 'meal' ? 'servings' : 'hot servings'}`;
    return `${Math.round(count)} more ${what}${Math.round(count) === 1 ? '' : 's'}`;
  };
  if (before.unfed - after.unfed > SAME_SERVINGS) parts.push(meals(before.unfed - after.unfed, 'meal'));
  if (before.cold - after.cold > SAME_SERVINGS) parts.push(meals(before.cold - after.cold, 'hot meal'));
  if (before.withoutHotWater - after.withoutHotWater > SAME_SERVINGS)
    parts.push(`hot water on ${Math.round(before.withoutHotWater - after.withoutHotWater)} more days`);
  if (!isShort && before.share - after.share >= SAME_SHARE)
    parts.push(
      `no more is served; of what is scarcest ${inPercent(after.share)} is used instead of ${inPercent(before.share)}`,
    );
  if (before.heatMJ - after.heatMJ > SAME_HEAT * before.heatMJ)
    parts.push(`${round(before.heatMJ - after.heatMJ, 1)} MJ less fuel heat`);
  return parts.length === 0 ? 'nothing changes' : parts.join(', ');
}
