/** The steps of a day that belong to no pot: weigh and measure in the morning, serve, throw away, wash up. */

import { isEatenAsItIs } from '../cooking/dishes/kit.ts';
import type { Cooking, PlannedMeal } from '../planning/plan-types.ts';
import { coldByChoiceWords } from './chosen-point.ts';
import { eatByOf, LONGEST_OPEN_MINUTES } from './eat-by.ts';
import { listInWords } from './lists.ts';
import { fuelReadings, waterReading } from './morning-readings.ts';
import { asHeading, fuelName, inSentence } from './names.ts';
import type { ScheduleContext, StepDraft } from './schedule.ts';
import { isEatenDry, offTheFireAt } from './schedule-cooking.ts';
import {
  addDays,
  addMinutes,
  clockOnSheetOf,
  dateOf,
  durationText,
  localMs,
  minutesBetween,
  waitText,
} from './times.ts';
import { massBoth, volumeBoth } from './units.ts';

/** The text of the morning's look at the water, by which a sheet knows it. */
export const MEASURE_WATER = 'Measure the water that is left.';

/** Washing up begins this long after the meal (common practice). */
const WASH_UP_AFTER_MINUTES = 30;

/** The first step of all, then every morning's weighing. */
export function dayStartSteps(context: ScheduleContext): StepDraft[] {
  const { plan } = context;
  const steps: StepDraft[] = [];
  const startsAt = plan.request.startsAt;
  const blank = {
    latestAt: null,
    meal: null,
    handsOn: true,
    cookingId: null,
    follows: false,
  } as const;
  steps.push({
    ...blank,
    at: startsAt,
    action: 'check',
    text: 'Test the carbon-monoxide alarm: press its button.',
    quantities: [],
    ifNot: 'No sound, or no alarm: change the battery. Sleep away from any stove.',
    minutes: 1,
    rank: 1,
    of: 'start',
  });
  const waking = plan.resolved.household.waking?.from ?? '07:00';
  for (let day = 0; day < plan.request.days; day += 1) {
    const date = addDays(dateOf(startsAt), day);
    const morning = `${date}T${waking}`;
    const at = localMs(morning) < localMs(startsAt) ? startsAt : morning;
    const fuels = fuelReadings(plan, date);
    if (fuels.length > 0) {
      steps.push({
        ...blank,
        at,
        action: 'weigh',
        text: `Weigh the ${listInWords(fuels.map((fuel) => inSentence(fuel.name)))}.`,
        quantities: fuels.map((fuel) => ({
          what: `${inSentence(fuel.name)} expected`,
          amount: fuel.expected,
          unit: fuel.unit,
        })),
        ifNot: `Less than ${fuels
          .map((fuel) => `${massBoth(fuel.replanBelow, 'metric', 'up')} ${inSentence(fuel.name)}`)
          .join(', or ')}: make a new plan.`,
        minutes: 5,
        rank: 2,
        of: `day-${date}`,
      });
    }
    for (const fuel of plan.fuel) {
      const at = fuel.containers?.findIndex((one) => one.emptyOn === date) ?? -1;
      const next = fuel.containers?.[at + 1];
      if (at < 0 || next === undefined) continue;
      steps.push({
        ...blank,
        at: morning < startsAt ? startsAt : morning,
        action: 'check',
        text: `Have the next ${inSentence(fuelName(fuel.fuelId))} at hand, warm: the open one runs out today.`,
        quantities: [{ what: next.id.replaceAll('-', ' '), amount: next.kg, unit: 'kg' }],
        ifNot: 'The flame grows small: shut it off, let it cool, change outdoors.',
        minutes: 2,
        rank: 4,
        of: `day-${date}`,
      });
    }
    const water = waterReading(plan, date);
    if (water !== null) {
      steps.push({
        ...blank,
        at,
        action: 'check',
        text: MEASURE_WATER,
        quantities: [{ what: 'water expected', amount: water.expected, unit: water.unit }],
        ifNot: `Less than ${volumeBoth(water.replanBelow, 'metric', 'up')}: make a new plan. The cans are frozen: carry them to the warmest room.`,
        minutes: 3,
        rank: 3,
        of: `day-${date}`,
      });
    }
  }
  return steps;
}

/** Serve each dish, throw away what is left, wash up. */
export function mealSteps(context: ScheduleContext, meal: PlannedMeal): StepDraft[] {
  if (meal.dishes.length === 0) return [];
  const household = context.plan.resolved.household;
  const steps: StepDraft[] = [];
  const blank = {
    latestAt: null,
    ifNot: null,
    meal: meal.id,
    handsOn: true,
    follows: true,
  } as const;
  let throwAwayAt = addMinutes(meal.eatAt, LONGEST_OPEN_MINUTES);
  const names: string[] = [];
  let keepsDry = true;
  let isKept = false;
  for (const dish of meal.dishes) {
    const cooking = context.cookings.get(dish.cookingId);
    const name = inSentence(cooking?.kitName ?? 'meal');
    // Eaten dry, from the bags: the dish has its own step, and what is left keeps.
    if (cooking !== undefined && isEatenDry(cooking, context.kits.get(cooking.kitId))) continue;
    const eatBy = eatByOf(meal, dish, cooking);
    keepsDry = false;
    isKept ||= cooking?.keptFor !== undefined && cooking.keptFor.meal !== meal.id;
    names.push(name);
    if (localMs(eatBy) < localMs(throwAwayAt)) throwAwayAt = eatBy;
    steps.push({
      ...blank,
      at: meal.eatAt,
      action: 'serve',
      text: `Serve the ${name}${dish.hot ? '' : coldByChoiceWords(meal)}${cooking === undefined ? '' : standsWords(cooking, meal)}${besideWords(cooking, context)}. Eat or throw away within ${waitText(minutesBetween(meal.eatAt, eatBy), 'down')}, by ${clockOnSheetOf(dateOf(meal.eatAt), eatBy)}.`,
      quantities: [{ what: dish.hot ? 'hot' : 'cold', amount: dish.servings, unit: 'servings' }],
      latestAt: eatBy,
      ifNot: null,
      minutes: 30,
      rank: 62,
      of: meal.id,
      cookingId: dish.cookingId,
      follows: steps.length > 0,
    });
  }
  const litres = (household.water?.washingUpLPerPersonMeal ?? 1) * meal.people;
  steps.push({
    ...blank,
    at: addMinutes(meal.eatAt, WASH_UP_AFTER_MINUTES),
    action: 'wash-up',
    text: 'Wash up: cups, spoons, bowls, pots.',
    quantities: litres > 0 ? [{ what: 'safe water', amount: litres, unit: 'L' }] : [],
    ifNot: 'The cook is ill: somebody else cooks, hands washed first.',
    minutes: 15,
    rank: 76,
    of: meal.id,
    cookingId: null,
    follows: true,
  });
  if (!keepsDry) {
    steps.push({
      ...blank,
      at: throwAwayAt,
      action: 'throw-away',
      text: isKept
        ? `Throw away what was ladled out of the ${listInWords(names)} and not eaten. The box stays shut.`
        : `Throw away the rest of the ${listInWords(names)}.`,
      quantities: [],
      minutes: 2,
      rank: 75,
      of: meal.id,
      cookingId: null,
    });
  }
  return steps;
}

/** ", with the crackers as they are": parts that are neither soaked nor cooked; empty where there are none. */
function besideWords(cooking: Cooking | undefined, context: ScheduleContext): string {
  const kit = cooking === undefined ? undefined : context.kits.get(cooking.kitId);
  const names = (kit?.parts ?? []).filter(isEatenAsItIs).map((part) => inSentence(part.name));
  return names.length === 0 ? '' : `, with the ${listInWords(names)} dry from the bag`;
}

/** How long a dish has stood when it is served, for whoever has no clock; empty where the box or flask is opened for it. */
function standsWords(cooking: Cooking, meal: PlannedMeal): string {
  const { method } = cooking;
  if (cooking.keptFor?.meal === meal.id) return '';
  if (method.finish === 'no-heat')
    return `, ${waitText(minutesBetween(cooking.startsAt, meal.eatAt))} after adding the water`;
  if (method.pours !== undefined) return `, after ${durationText(method.pours.standMinutes)}`;
  if (method.finish !== 'flame') return '';
  const minutes = minutesBetween(offTheFireAt(cooking), meal.eatAt);
  return minutes < 2 ? ' at once' : `, ${waitText(minutes)} off the fire`;
}

/** "Monday evening", for a meal of a day. */
export function mealTitle(meal: PlannedMeal): string {
  return asHeading(meal.slot);
}
