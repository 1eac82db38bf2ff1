/** What each pot, bowl and box does on a day, as spans of the clock: soak, cook, rest, and where hands are needed. */
import { asHeading, thingName } from '../../api/wording/names.ts';
import { addDays, minutesBetween } from '../../api/wording/times.ts';
import type { Plan } from '../api-types.ts';

export type BarKind = 'soak' | 'cook' | 'rest';

export interface DayBar {
  kind: BarKind;
  /** Dish or task. */
  of: string;
  /** `YYYY-MM-DDTHH:MM`, cut to the day. */
  from: string;
  to: string;
}

export interface DayRow {
  /** Vessel or box; null: what is done without one. */
  id: string | null;
  name: string;
  bars: DayBar[];
  hands: { from: string; minutes: number; what: string }[];
  handsOnMinutes: number;
}

export interface DayServing {
  at: string;
  dishes: string;
}

const TASK_WORDS = {
  'hot-water': 'hot water',
  'treat-water': 'water made safe',
  'melt-snow': 'snow',
  'night-feed': 'night feed',
} as const;

/**
 * The rows of one day: what is in use of the household's vessels, boxes and flasks, in the order of first use, then what is
 * done without a vessel.
 * @param date `YYYY-MM-DD`
 */
export function rowsOfDay(plan: Plan, date: string): { rows: DayRow[]; servings: DayServing[] } {
  const { household } = plan.resolved;
  const start = `${date}T00:00`;
  const end = `${addDays(date, 1)}T00:00`;
  const stoves = new Set((household.stoves ?? []).map(({ id }) => id));
  const rows = new Map<string | null, DayRow>();
  const rowOf = (id: string | null) => {
    const row = rows.get(id) ?? {
      id,
      name: id === null ? 'Without a pot' : asHeading(thingName(household, id)),
      bars: [],
      hands: [],
      handsOnMinutes: 0,
    };
    rows.set(id, row);
    return row;
  };
  const put = (id: string, kind: BarKind, of: string, from: string, to: string) => {
    const cut = { from: within(from, start, end), to: within(to, start, end) };
    if (cut.from < cut.to) rowOf(id).bars.push({ kind, of, ...cut });
  };
  for (const { uses, method, kitName } of plan.cookings) {
    const fireEnd = uses
      .filter(({ resource }) => stoves.has(resource))
      .map(({ to }) => to)
      .sort()
      .at(-1);
    for (const { resource, from, to } of uses) {
      if (stoves.has(resource)) continue;
      if (method.soak !== null && resource === method.soak.vesselId && from <= method.soak.at) {
        put(resource, 'soak', kitName, from, to);
      } else if (resource === method.boxId || resource === method.flaskId || fireEnd === undefined) {
        put(resource, 'rest', kitName, from, to);
      } else {
        const split = within(fireEnd, from, to);
        put(resource, 'cook', kitName, from, split);
        put(resource, 'rest', kitName, split, to);
      }
    }
  }
  for (const task of plan.tasks) {
    for (const { resource, from, to } of task.uses)
      if (!stoves.has(resource)) put(resource, 'cook', TASK_WORDS[task.kind], from, to);
  }
  for (const step of plan.schedule) {
    // The minutes of serving are those of the meal at table.
    if (!step.handsOn || step.minutes <= 0 || step.action === 'serve' || !step.at.startsWith(date)) continue;
    const cooking = plan.cookings.find(({ id }) => id === step.cookingId);
    const vessel =
      cooking === undefined
        ? null
        : step.action === 'soak' || step.action === 'drain'
          ? (cooking.method.soak?.vesselId ?? cooking.method.vesselId)
          : cooking.method.vesselId;
    const row = rowOf(vessel);
    row.hands.push({ from: step.at, minutes: step.minutes, what: step.action.replaceAll('-', ' ') });
    row.handsOnMinutes += step.minutes;
  }
  const first = (row: DayRow) => [...row.bars, ...row.hands].map(({ from }) => from).sort()[0] ?? end;
  return {
    rows: [...rows.values()].sort(
      (a, b) => Number(a.id === null) - Number(b.id === null) || first(a).localeCompare(first(b)),
    ),
    servings: plan.meals
      .filter(({ eatAt }) => eatAt.startsWith(date))
      .map(({ eatAt, dishes }) => ({
        at: eatAt,
        dishes:
          dishes
            .flatMap((dish) => plan.cookings.find(({ id }) => id === dish.cookingId)?.kitName ?? [])
            .join(' and ') || 'nothing in store fits',
      })),
  };
}

/** A time moved to the nearer end where it lies outside of a span. */
function within(at: string, from: string, to: string): string {
  if (at < from) return from;
  return at < to ? at : to;
}

/** Minutes after midnight of the day, so that what is cut at its end reads 1440. */
export function minuteOfDay(date: string, at: string): number {
  return minutesBetween(`${date}T00:00`, at);
}
