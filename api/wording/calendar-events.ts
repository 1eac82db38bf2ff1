/**
 * The reminders of a plan: what the kitchen must not miss, one event each. Times are those of the wall clock, so that a
 * calendar shows them as the printed schedule does.
 */
import type { Lighting, Plan, ScheduleStep, StepAction } from '../planning/plan-types.ts';
import { clockChange } from './clock-change.ts';
import { inSentence, thingName } from './names.ts';
import { stepLine } from './print/step-row.ts';
import { stepId } from './schedule.ts';
import { MEASURE_WATER } from './schedule-meals.ts';
import { addDays, addMinutes, clockOnSheetOf, clockText, dateOf, localMs } from './times.ts';
import { inSystem, type UnitSystem } from './units.ts';

export interface CalendarEvent {
  /** The same for the same task of the same meal of a household, whichever plan it comes from. */
  uid: string;
  /** Local wall-clock times, `YYYY-MM-DDTHH:MM`. */
  startsAt: string;
  endsAt: string;
  /** Minutes before the start at which the alarm goes off; null for an event that was called off. */
  alarmMinutes: number | null;
  /** One line. */
  summary: string;
  /** Lines. */
  description: string;
}

/** Steps that are reminded of by themselves, and how long before (common practice: time to put on boots, to fetch). */
const ALARM_MINUTES: Readonly<Partial<Record<StepAction, number>>> = {
  soak: 15,
  drain: 5,
  fetch: 0,
  rehydrate: 5,
  serve: 10,
  'night-feed': 15,
};
const LIGHT_ALARM_MINUTES = 15;
/** The morning's readings need no warning, only the bell. */
const MORNING_ALARM_MINUTES = 0;
/** Shorter events are hard to see and to tap. */
const SHORTEST_MINUTES = 5;

const PAPER_FIRST = 'The printed schedule counts: a calendar may lose its alarms.';

interface Draft extends Omit<CalendarEvent, 'uid'> {
  key: string;
}

/**
 * The events of a plan in time order: readings in the morning, soaks, drains, fires, food that stands in water, meals,
 * feeds at night.
 * @param plan a plan with its schedule
 * @param system which units come first
 */
export function calendarEvents(plan: Plan, system: UnitSystem): CalendarEvent[] {
  const drafts = [
    ...mornings(plan, system),
    ...plan.lightings.flatMap((lighting) => fire(plan, lighting, system)),
    ...ownSteps(plan, system),
    ...servings(plan, system),
  ].sort((a, b) => localMs(a.startsAt) - localMs(b.startsAt) || (a.key < b.key ? -1 : 1));
  const counts = new Map<string, number>();
  return drafts.map(({ key, ...event }) => {
    const nth = (counts.get(key) ?? 0) + 1;
    counts.set(key, nth);
    return { uid: uidOf(plan, nth === 1 ? key : `${key}-${nth}`), ...event };
  });
}

/**
 * Events of earlier plans that this plan does without: they are called off, or their alarms would ring for nothing. Only
 * those that lie in the days of this plan; what was before it has happened.
 * @param earlier other plans, any order; those of other households and later ones are left aside
 */
export function calledOffEvents(plan: Plan, earlier: readonly Plan[], system: UnitSystem): CalendarEvent[] {
  const kept = new Set(calendarEvents(plan, system).map((event) => event.uid));
  const from = plan.request.startsAt;
  const to = `${addDays(from, plan.request.days)}T00:00`;
  const found = new Map<string, CalendarEvent>();
  for (const other of earlier) {
    if (other.request.householdId !== plan.request.householdId || !(other.createdAt < plan.createdAt)) continue;
    for (const event of calendarEvents(other, system)) {
      if (kept.has(event.uid) || event.startsAt < from || event.startsAt >= to) continue;
      found.set(event.uid, {
        ...event,
        alarmMinutes: null,
        summary: `Called off: ${inSentence(event.summary)}`,
        description: 'A newer plan does without it.',
      });
    }
  }
  return [...found.values()].sort((a, b) => localMs(a.startsAt) - localMs(b.startsAt) || (a.uid < b.uid ? -1 : 1));
}

function uidOf(plan: Plan, key: string): string {
  return `${plan.request.householdId}-${key}@outage-kitchen`;
}

function mornings(plan: Plan, system: UnitSystem): Draft[] {
  const change = clockChange(plan);
  const byTime = new Map<string, ScheduleStep[]>();
  for (const step of plan.schedule) {
    if (step.action !== 'weigh' && step.text !== MEASURE_WATER) continue;
    byTime.set(step.at, [...(byTime.get(step.at) ?? []), step]);
  }
  return [...byTime].map(([at, steps]) => ({
    key: `${dateOf(at)}-readings`,
    startsAt: at,
    endsAt: endOf(at, sum(steps)),
    alarmMinutes: MORNING_ALARM_MINUTES,
    summary: steps.map((step) => inSystem(step.text, system)).join(' '),
    description: described([
      ...(change?.date === dateOf(at) ? [change.text] : []),
      ...steps.flatMap((step) => linesOfStep(step, system)),
    ]),
  }));
}

/** The fire with everything that stands on it, to the moment it is put out. */
function fire(plan: Plan, lighting: Lighting, system: UnitSystem): Draft[] {
  const light = plan.schedule.find((step) => step.id === stepId(lighting.id, 'light'));
  // A stove that burns anyway is not lit.
  if (light === undefined) return [];
  const cookings = plan.cookings.filter((cooking) => cooking.method.lightingId === lighting.id);
  const tasks = plan.tasks.filter((task) => task.lightingId === lighting.id);
  const mine = plan.schedule.filter(
    (step) =>
      [lighting, ...tasks].some((one) => step.id === stepId(one.id, step.action)) ||
      (cookings.some((cooking) => cooking.id === step.cookingId) && step.action !== 'soak' && step.action !== 'serve'),
  );
  const off = mine.find((step) => step.action === 'shut-off');
  const dishes = [...new Set(cookings.map((cooking) => `the ${inSentence(cooking.kitName)}`))];
  if (dishes.length === 0) dishes.push('hot water');
  const meal = plan.meals.find((one) => one.dishes.some((dish) => cookings.some((two) => two.id === dish.cookingId)));
  return [
    {
      key: `${meal?.id ?? dateOf(lighting.at)}-light`,
      startsAt: light.at,
      endsAt: endOf(light.at, off === undefined ? 0 : (localMs(off.at) - localMs(light.at)) / 60_000),
      alarmMinutes: LIGHT_ALARM_MINUTES,
      summary: `Light the ${thingName(plan.resolved.household, lighting.stoveId)} for ${dishes.join(', ')}`,
      description: described(
        mine.flatMap((step) => {
          const [first = '', ...rest] = linesOfStep(step, system);
          return [`${clockOnSheetOf(dateOf(light.at), step.at)} ${first}`, ...rest];
        }),
      ),
    },
  ];
}

/** Soaks, drains, food that stands in water, feeds, what is fetched from other places: each by itself. Meals are taken together below. */
function ownSteps(plan: Plan, system: UnitSystem): Draft[] {
  return plan.schedule.flatMap((step) => {
    const alarmMinutes = ALARM_MINUTES[step.action];
    if (alarmMinutes === undefined || step.action === 'serve') return [];
    const latest =
      step.latestAt === null || step.action !== 'soak'
        ? []
        : [`Begin by ${clockOnSheetOf(dateOf(step.at), step.latestAt)} at the latest.`];
    const poured = step.action === 'drain' && step.text.startsWith('Pour this first water');
    // The first water is poured away with the pot on the fire: the fire's own event has it.
    if (poured) return [];
    return [
      {
        // Errands of one day to several places are told apart by their steps.
        key: step.action === 'fetch' ? step.id : `${step.meal ?? dateOf(step.at)}-${step.action}`,
        startsAt: step.at,
        endsAt: endOf(step.at, step.handsOn ? step.minutes : 0),
        alarmMinutes,
        summary: firstSentence(inSystem(step.text, system)),
        description: described([...linesOfStep(step, system), ...latest]),
      },
    ];
  });
}

function servings(plan: Plan, system: UnitSystem): Draft[] {
  return plan.meals.flatMap((meal) => {
    const steps = plan.schedule.filter(
      (step) => step.meal === meal.id && (step.action === 'serve' || step.action === 'unbox'),
    );
    const serve = steps.filter((step) => step.action === 'serve');
    const first = serve[0];
    if (first === undefined) return [];
    const before = steps.filter((step) => step.action === 'unbox');
    return [
      {
        key: `${meal.id}-serve`,
        startsAt: first.at,
        endsAt: endOf(first.at, first.minutes),
        alarmMinutes: ALARM_MINUTES.serve ?? 0,
        summary: serve.map((step) => firstSentence(inSystem(step.text, system))).join('; '),
        description: described([
          ...before.flatMap((step) => [`${clockText(step.at)} ${linesOfStep(step, system).join(' ')}`]),
          ...serve.flatMap((step) => linesOfStep(step, system)),
        ]),
      },
    ];
  });
}

function linesOfStep(step: ScheduleStep, system: UnitSystem): string[] {
  const line = stepLine({ text: step.text, quantities: step.quantities }, system);
  return step.ifNot === null ? [line] : [line, inSystem(step.ifNot, system)];
}

function described(lines: readonly string[]): string {
  return [...lines, PAPER_FIRST].join('\n');
}

function firstSentence(text: string): string {
  return (/^.*?[^.\d](?=\. |\.$)/.exec(text)?.[0] ?? text).trim();
}

function sum(steps: readonly ScheduleStep[]): number {
  return steps.reduce((minutes, step) => minutes + step.minutes, 0);
}

function endOf(at: string, minutes: number): string {
  return addMinutes(at, Math.max(SHORTEST_MINUTES, Math.ceil(minutes)));
}
