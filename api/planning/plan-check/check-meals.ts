/** Meals: who eats when, from which dish, and whether the plan says honestly what is missing. */

import { answerCooling } from '../../cooking/calculators/answer-cooling.ts';
import { avoidedIn } from '../../cooking/dishes/kit-nutrition.ts';
import { isKit } from '../../cooking/dishes/part-choices.ts';
import { mealShareOf } from '../../cooking/household/people.ts';
import { boilingPointAtElevationC } from '../../physics/boiling-point.ts';
import type { PlannedMeal, PlanTask } from '../plan-types.ts';
import { CLOCK_ROOM_MINUTES, isInProgress, isInSpan, type PlanView, type Report } from './plan-view.ts';

const SERVING_ROOM = 0.011;
const FEED_ROOM_L = 0.02;
/** Formula is mixed with water no cooler than this (WHO and FAO 2007), C. */
const FEED_C = 70;
/** Water loses about this on its way into a flask (common practice), K. */
const LOSS_INTO_FLASK_K = 5;
/** Food from the flame that is not kept hot: two hours (FSIS). */
const LONGEST_STAND_MINUTES = 120;

/** Checks meals, hot water, pins and the outcome. */
export function checkMeals(view: PlanView, report: Report): void {
  const { plan } = view;
  const cookings = new Map(plan.cookings.map((cooking) => [cooking.id, cooking]));
  const served = new Map<string, number>();
  const seen = new Set<string>();
  for (const meal of plan.meals) {
    if (seen.has(meal.id)) report('meal-twice', meal.id, meal.id);
    seen.add(meal.id);
    checkMealTime(view, meal, report);
    let servings = 0;
    for (const dish of meal.dishes) {
      servings += dish.servings;
      served.set(dish.cookingId, (served.get(dish.cookingId) ?? 0) + dish.servings);
      const cooking = cookings.get(dish.cookingId);
      if (cooking === undefined) {
        report('unknown-dish', meal.id, dish.cookingId);
        continue;
      }
      if (!(dish.servings > 0)) report('servings', meal.id, `${dish.servings} servings of ${cooking.id}`);
      const eatAt = view.minute(meal.eatAt);
      const doneAt = view.minute(cooking.doneAt);
      if (doneAt > eatAt + CLOCK_ROOM_MINUTES)
        report('not-done', meal.id, `${cooking.id} is done at ${cooking.doneAt}`);
      if (view.minute(dish.safeUntil) < eatAt)
        report('unsafe', meal.id, `${cooking.id} is safe until ${dish.safeUntil}`);
      const kept = cooking.keptFor?.meal === meal.id ? cooking.keptFor : null;
      if (kept !== null && Math.abs(kept.servings - dish.servings) > SERVING_ROOM)
        report('servings', meal.id, `${dish.servings} of ${cooking.id}, ${kept.servings} are kept for it`);
      if (
        kept === null &&
        cooking.method.finish === 'flame' &&
        eatAt - doneAt > LONGEST_STAND_MINUTES + CLOCK_ROOM_MINUTES
      )
        report('unsafe', meal.id, `${cooking.id} stands from ${cooking.doneAt}`);
      if (dish.hot && cooking.method.finish === 'no-heat') report('not-hot', meal.id, `${cooking.id} sees no heat`);
      const kit = view.kits.get(cooking.kitId);
      const avoided = kit ? avoidedIn(kit, avoidsAt(view, meal)) : [];
      if (avoided.length > 0 && kit && !isInProgress(view, cooking))
        report('avoids', meal.id, `${kit.id} holds ${avoided.join(', ')}, which somebody there cannot eat`);
      if (kit && !kit.suits.includes(meal.slot)) {
        const pinned = (plan.request.pinned ?? []).some((pin) => pin.meal === meal.id && isKit(kit, pin.kitId));
        if (!pinned && !isInProgress(view, cooking)) report('suits', meal.id, `${kit.id} is not for ${meal.slot}`);
      }
    }
    if (meal.servingsShort < -SERVING_ROOM || servings + meal.servingsShort < meal.servingsWanted - SERVING_ROOM)
      report('servings', meal.id, `${servings} served, ${meal.servingsShort} short, ${meal.servingsWanted} wanted`);
  }
  for (const cooking of plan.cookings) {
    const eaten = served.get(cooking.id) ?? 0;
    if (eaten > cooking.servings + SERVING_ROOM)
      report('servings', cooking.id, `${eaten} eaten of ${cooking.servings}`);
    if (eaten === 0) report('uneaten', cooking.id, 'cooked and never eaten');
  }
  checkAllMealsThere(view, seen, report);
  checkPins(view, report);
  checkHotWater(view, report);
  checkNightFeeds(view, report);
  checkOutcome(view, report);
}

/** Share of servings wanted at a meal by the people who attend, or null where several entries speak of it. */
function wantedServings(view: PlanView, date: string, mealId: string): number | null {
  const entries = (view.plan.request.attendance ?? []).filter(
    (entry) => entry.date === date && (entry.mealId === undefined || entry.mealId === null || entry.mealId === mealId),
  );
  if (entries.length > 1) return null;
  const entry = entries[0];
  const present = view.household.people.filter((person) => entry?.people?.includes(person.label) ?? true);
  return (
    present.reduce((sum, person) => sum + mealShareOf(person), 0) +
    (entry?.guests ?? []).reduce((sum, guest) => sum + mealShareOf(guest), 0)
  );
}

/** What the people of the household who are there cannot eat; where several entries speak of a meal, the last one counts. */
function avoidsAt(view: PlanView, meal: PlannedMeal): string[] {
  const named = (view.plan.request.attendance ?? [])
    .filter(
      (entry) =>
        entry.people !== undefined &&
        entry.date === meal.eatAt.slice(0, 10) &&
        (entry.mealId === undefined || entry.mealId === null || entry.mealId === meal.mealId),
    )
    .at(-1);
  return view.household.people
    .filter((person) => named?.people?.includes(person.label) ?? true)
    .flatMap((person) => person.avoids);
}

function checkMealTime(view: PlanView, meal: PlannedMeal, report: Report): void {
  const date = meal.eatAt.slice(0, 10);
  const time = view.household.meals.find((candidate) => candidate.id === meal.mealId);
  if (time === undefined) report('meal-time', meal.id, `the household has no meal ${meal.mealId}`);
  else if (meal.eatAt.slice(11, 16) !== time.time || meal.slot !== time.slot)
    report('meal-time', meal.id, `${meal.slot} at ${meal.eatAt}, usual is ${time.slot} at ${time.time}`);
  if (meal.id !== `${date}-${meal.mealId}`) report('meal-time', meal.id, `eaten ${meal.eatAt}`);
  if (view.minute(meal.eatAt) < view.startsAtMinute) report('before-start', meal.id, `eaten at ${meal.eatAt}`);
  if (!view.dates.includes(date)) report('meal-time', meal.id, `${date} is not a day of the plan`);
  const wanted = wantedServings(view, date, meal.mealId);
  if (wanted !== null && meal.servingsWanted < wanted - SERVING_ROOM)
    report('attendance', meal.id, `${meal.servingsWanted} servings wanted, the people there eat ${wanted}`);
  if (wanted === 0 && meal.dishes.length > 0) report('attendance', meal.id, 'nobody is there');
}

function checkAllMealsThere(view: PlanView, seen: Set<string>, report: Report): void {
  const done = new Set([
    ...(view.plan.request.done ?? []).map((entry) => entry.meal),
    ...(view.plan.continues?.underWay ?? []).flatMap((dish) => dish.meals),
  ]);
  for (const date of view.dates)
    for (const meal of view.household.meals) {
      const id = `${date}-${meal.id}`;
      if (seen.has(id) || done.has(id) || view.minute(`${date}T${meal.time}`) < view.startsAtMinute) continue;
      const wanted = wantedServings(view, date, meal.id);
      if (wanted !== null && wanted > 0) report('meal-missing', id, 'people are there and no meal is planned');
    }
}

function checkPins(view: PlanView, report: Report): void {
  const kitOf = new Map(view.plan.cookings.map((cooking) => [cooking.id, view.kits.get(cooking.kitId)]));
  for (const pin of view.plan.request.pinned ?? []) {
    const meal = view.plan.meals.find((candidate) => candidate.id === pin.meal);
    if (meal === undefined || meal.servingsShort > SERVING_ROOM) continue;
    const served = meal.dishes.flatMap((dish) => kitOf.get(dish.cookingId) ?? []);
    if (!served.some((kit) => isKit(kit, pin.kitId))) report('pin', pin.meal, `${pin.kitId} is not served`);
  }
}

/**
 * The day's hot water is made, or the plan says that it is short. The first day may be too late for it, and on a day on
 * which nobody eats here no fire is lit.
 */
function checkHotWater(view: PlanView, report: Report): void {
  const { litres } = view.household.water.hotWaterPerDay;
  if (litres <= 0) return;
  for (const [day, date] of view.dates.entries()) {
    if (day === 0 || !view.plan.meals.some((meal) => meal.eatAt.slice(0, 10) === date)) continue;
    const made = view.plan.tasks
      .filter((task) => task.kind === 'hot-water' && task.at.slice(0, 10) === date && !fillsFlask(view, task))
      .reduce((sum, task) => sum + task.litres, 0);
    const said = view.plan.short.some((row) => row.from.slice(0, 10) <= date);
    if (made < litres * 0.99 && !said) report('hot-water', date, `${made} L of ${litres} L, and not listed as short`);
  }
}

function fillsFlask(view: PlanView, task: PlanTask): boolean {
  return task.uses.some((use) =>
    view.household.vessels.some((vessel) => vessel.kind === 'flask' && vessel.id === use.resource),
  );
}

/** Every feed has water of 70 C or more: from a flask that holds it at its bad end, from a stove that burns, or it is said. */
function checkNightFeeds(view: PlanView, report: Report): void {
  const { plan, household } = view;
  const lastDate = view.dates.at(-1) ?? '';
  const said = plan.short.some((row) => row.unit === 'nights' || row.what === 'time' || row.what === 'fuel');
  for (const date of view.dates)
    for (const time of household.nightFeeds) {
      const at = `${date}T${time}`;
      // The last night goes on after the plan's last day; the first one began before the plan.
      if (view.minute(at) <= view.startsAtMinute || (date === view.dates[0] && time < '12:00')) continue;
      const feed = plan.tasks.find((task) => task.kind === 'night-feed' && task.at === at);
      if (feed === undefined) {
        if (!said) report('night-feed', at, 'no feed is planned, and none is listed as short');
        continue;
      }
      checkFeedWater(view, feed, report);
    }
  for (const task of plan.tasks)
    if (task.kind === 'night-feed' && task.at.slice(0, 10) > lastDate) checkFeedWater(view, task, report);
}

function checkFeedWater(view: PlanView, feed: PlanTask, report: Report): void {
  const stove = view.household.stoves.find((candidate) => candidate.id === feed.from);
  if (stove !== undefined) {
    if (stove.burnsAnyway === null || !isInSpan(feed.at, stove.burnsAnyway))
      report('night-feed', feed.id, `${stove.id} does not burn at ${feed.at}`);
    return;
  }
  const flask = view.household.vessels.find((candidate) => candidate.id === feed.from && candidate.kind === 'flask');
  const fill = view.plan.tasks.find((task) =>
    task.uses.some(
      (use) =>
        use.resource === flask?.id &&
        view.minute(use.from) < view.minute(feed.at) &&
        view.minute(use.to) >= view.minute(feed.at),
    ),
  );
  const use = fill?.uses.find((candidate) => candidate.resource === flask?.id);
  if (flask === undefined || fill === undefined || use === undefined) {
    report('night-feed', feed.id, `${feed.from} is not filled for it`);
    return;
  }
  const fed = view.plan.tasks.filter(
    (task) =>
      task.kind === 'night-feed' &&
      task.from === flask.id &&
      view.minute(task.at) > view.minute(use.from) &&
      view.minute(task.at) <= view.minute(use.to),
  );
  if (fed.reduce((sum, task) => sum + task.litres, 0) > fill.litres + FEED_ROOM_L || fill.litres > flask.capacityL)
    report('night-feed', feed.id, `${fill.litres} L in ${flask.id} for ${fed.length} feeds`);
  const boilC = boilingPointAtElevationC(view.place.elevationM);
  const cooled = answerCooling({
    vessel: { kind: 'flask', capacityL: flask.capacityL },
    fillL: fill.litres,
    startC: boilC - LOSS_INTO_FLASK_K,
    airC: view.indoorC(use.from),
    ...(flask.reading ? { reading: flask.reading } : {}),
    ...(flask.measured ? { measured: flask.measured } : {}),
    hours: (view.minute(feed.at) - view.minute(use.from)) / 60,
  });
  const last = cooled.temperatureC.at(-1);
  if (last && last.p10 < FEED_C - 1)
    report('night-feed', feed.id, `${last.p10.toFixed(1)} C at the bad end of ${flask.id}`);
}

function checkOutcome(view: PlanView, report: Report): void {
  const { plan } = view;
  if ((plan.outcome === 'short') !== plan.short.length > 0)
    report('outcome', 'outcome', `${plan.outcome} with ${plan.short.length} entries in short`);
  const unfed = plan.meals.find((meal) => meal.servingsShort > SERVING_ROOM);
  if (unfed && plan.short.length === 0)
    report('outcome', unfed.id, `${unfed.servingsShort} servings short and not listed`);
}
