/** The changes of a re-plan in plain words: "tomorrow midday: rice instead of lentils, because ...". */

import { isBookedRecord } from '../cooking/measurements/learned.ts';
import type { ChangeCause, DishSeen, PlanChange } from '../planning/bookings/changes.ts';
import type { Difference } from '../planning/bookings/fuel-now.ts';
import type { StateNow } from '../planning/bookings/state-now.ts';
import type { Plan } from '../planning/plan-types.ts';
import { fuelName, kitNameIn, thingName } from './names.ts';
import { fixed, NBSP } from './numbers.ts';
import { addDays, clockText, dateOf, dayName } from './times.ts';
import { temperatureBoth } from './units.ts';

export interface ChangeLines {
  /** One sentence over all. */
  summary: string;
  changes: { meal: string; text: string }[];
  /** What is in water, on the fire, in a box or flask, and until when it is safe. */
  underWay: string[];
  /** Weighings against what was worked out. */
  found: string[];
  /** What they say of the stoves, and whether the rest of the plan fits. */
  learned: string[];
}

/**
 * @param next the re-plan
 * @param changes from `planChanges`
 * @param state how things stood when it was made
 */
export function changeLines(next: Plan, changes: readonly PlanChange[], state: StateNow): ChangeLines {
  const { household } = next.resolved;
  const now = next.request.startsAt;
  const when = (meal: string, local: string) =>
    `${dayText(local, now)} ${mealName(next, meal)}`.replace('today evening', 'this evening');
  const lines = changes.map((change) => ({
    meal: change.meal,
    text: `${asStart(when(change.meal, change.eatAt))}: ${whatText(change, household)}, ${causeText(change.cause, next, when)}.`,
  }));
  const underWay = [
    ...(next.continues?.underWay ?? []).map(
      (dish) =>
        `${kitNameIn(next, dish.kitId)} is ${dish.boxId !== null ? `in the ${thingName(household, dish.boxId)}` : dish.flaskId !== null ? `in the ${thingName(household, dish.flaskId)}` : dish.vesselId === null ? 'standing in water' : `in the ${thingName(household, dish.vesselId)}`} since ${clockAndDay(dish.since, now)}: eat it by ${clockAndDay(dish.safeUntil, now)}.`,
    ),
    ...(next.continues?.soaks ?? []).map((soak) =>
      soak.use === 'cooked'
        ? `${kitNameIn(next, soak.kitId)} is in water since ${clockAndDay(soak.since, now)}: it must boil by ${clockAndDay(soak.safeUntil, now)}.`
        : `${kitNameIn(next, soak.kitId)} is in water since ${clockAndDay(soak.since, now)}: throw it away, because ${soak.reason}.`,
    ),
  ];
  const { dishes, kept } = next.continues?.wall ?? { dishes: 0, kept: 0 };
  const summary =
    lines.length === 0
      ? 'Nothing changes: what hangs on the wall stands.'
      : `${lines.length} ${lines.length === 1 ? 'meal changes' : 'meals change'}; of ${dishes} dishes that were still to come, ${kept} stand as they were.`;
  const shortFrom = next.short.map((row) => row.from).sort()[0];
  const fits =
    next.outcome === 'complete' ? 'the rest of the plan still fits' : `it ends on ${dayName(shortFrom ?? now)}`;
  const learned = (next.resolved.learned ?? [])
    .filter(({ quantity, figure }) => quantity !== 'powerKW' && figure.records.some((id) => isBookedRecord(id)))
    .map(({ quantity, figure }) =>
      quantity === 'efficiency' ? `${figure.text.replace(/\.$/, '')}; ${fits}.` : figure.text,
    );
  return {
    summary,
    changes: lines,
    underWay,
    learned,
    found: state.differences.map((row) => foundText(row, state, now)),
  };
}

/** "propane, weighed tomorrow 07:00: 0.21 kg, 0.05 kg less than worked out". */
export function foundText(
  { what, id, containerId, at, found, difference, unit }: Difference,
  state: StateNow,
  now: string,
): string {
  const fuel = state.fuel.find((row) => row.fuelId === id);
  const containers = new Set((fuel?.containers ?? []).map((one) => one.containerId));
  // Which one was weighed is said where there are several.
  const which = containerId !== null && containers.size > 1 ? ` (${containerId.replaceAll('-', ' ')})` : '';
  const name = what === 'fuel' ? `${fuelName(fuel?.fuelId ?? 'wood')}${which}` : id;
  const digits = unit === 'L' ? 0 : 2;
  const room = unit === 'L' ? 0.5 : 0.005;
  const against =
    Math.abs(difference) < room
      ? 'as worked out'
      : `${fixed(Math.abs(difference), digits)}${NBSP}${unit} ${difference < 0 ? 'less' : 'more'} than worked out`;
  return `${asStart(name)}, ${clockAndDay(at, now)}: ${fixed(found, digits)}${NBSP}${unit}, ${against}.`;
}

function whatText(change: PlanChange, household: Plan['resolved']['household']): string {
  const { kinds, before, after } = change;
  if (kinds.includes('left-out')) return `no ${namesOf(before)}`;
  if (kinds.includes('added')) return `${namesOf(after)}, which was not planned`;
  if (kinds.includes('dish')) {
    if (after.length === 0) return `nothing instead of ${namesOf(before)}`;
    return before.length === 0 ? namesOf(after) : `${namesOf(after)} instead of ${namesOf(before)}`;
  }
  const [is] = after;
  const [was] = before;
  if (is === undefined || was === undefined) return namesOf(after);
  const parts: string[] = [];
  if (kinds.includes('amount')) parts.push(`for ${fixed(is.servings, 1).replace(/\.0$/, '')} servings`);
  if (kinds.includes('stove'))
    parts.push(is.stoveId === null ? 'without fire' : `on the ${thingName(household, is.stoveId)}`);
  if (kinds.includes('vessel') && is.vesselId !== null) {
    const litres = household.vessels?.find((vessel) => vessel.id === is.vesselId)?.capacityL;
    // Several pots may have no name of their own.
    parts.push(`in the ${thingName(household, is.vesselId)}${litres === undefined ? '' : ` (${litres}${NBSP}L)`}`);
  }
  if (kinds.includes('finish'))
    parts.push(
      is.finish === 'flame'
        ? 'on the flame to the end'
        : is.finish === 'box' && is.boxId !== null
          ? `in the ${thingName(household, is.boxId)} to the end`
          : is.finish === 'flask'
            ? 'in the flask to the end'
            : 'without fire',
    );
  if (kinds.includes('heat'))
    parts.push(
      is.heatToC === null
        ? 'brought to the boil'
        : `heated to ${temperatureBoth(is.heatToC, 'metric', 'up')}, not boiled`,
    );
  if (kinds.includes('soak'))
    parts.push(is.soakAt === null ? 'not soaked' : `soaked from ${clockText(is.soakAt)} on ${dayName(is.soakAt)}`);
  if (kinds.includes('time')) parts.push(`begun at ${clockText(is.startsAt)} instead of ${clockText(was.startsAt)}`);
  return `${namesOf(after)} ${parts.join(', ')}`;
}

function causeText(cause: ChangeCause, next: Plan, when: (meal: string, local: string) => string): string {
  const { household } = next.resolved;
  const named = (meal: string) =>
    when(meal, next.meals.find((one) => one.id === meal)?.eatAt ?? `${meal.slice(0, 10)}T12:00`);
  switch (cause.kind) {
    case 'asked':
      return 'because you asked for it';
    case 'people':
      return `because ${cause.now} eat instead of ${cause.before}`;
    case 'broke':
      return `because the ${thingName(household, cause.thingId)} cannot be used`;
    case 'no-sets':
      return `because too little ${cause.kitName} is in store`;
    case 'soak-lost':
      return `because of what was in water: ${cause.reason}`;
    case 'in-water':
      return `because it is in water since ${clockText(cause.since)} on ${dayName(cause.since)}`;
    case 'less-fuel':
      return `because ${fixed(cause.amount, 2)}${NBSP}${cause.unit} less ${fuelName(next.fuel.find((row) => row.fuelId === cause.fuelId)?.fuelId ?? 'wood')} was found than worked out`;
    case 'less-water':
      return `because ${fixed(cause.litres, 0)}${NBSP}L less water was found than worked out`;
    case 'learned':
      // "Burner: uses about 20 % more ..." is a sentence without its colon; "Rice, packed ...: takes" keeps a comma.
      return `because ${cause.text
        .replace(/\.$/, '')
        .replace(/^([^:]*,[^:]*): /, '$1, ')
        .replace(': ', ' ')}`;
    case 'follows':
      return `because ${named(cause.meal)} changes`;
    default:
      return 'because the rest of the plan then needs less of what is scarcest';
  }
}

function namesOf(dishes: readonly DishSeen[]): string {
  return [...new Set(dishes.map((dish) => dish.kitName))].join(' and ') || 'the dish';
}

function mealName(plan: Plan, meal: string): string {
  const mealId = meal.slice(11);
  return plan.meals.find((one) => one.mealId === mealId)?.slot ?? mealId;
}

/** "today", "tomorrow", else the day's name. */
function dayText(local: string, now: string): string {
  if (dateOf(local) === dateOf(now)) return 'today';
  return dateOf(local) === addDays(now, 1) ? 'tomorrow' : dayName(local);
}

export function clockAndDay(local: string, now: string): string {
  return dateOf(local) === dateOf(now) ? clockText(local) : `${dayName(local)}${NBSP}${clockText(local)}`;
}

function asStart(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
