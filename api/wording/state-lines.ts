/** How things stand in plain words: what was found, what it says of the stoves, whether the rest of the plan fits. */
import { HOT_HOLDING_C } from '../cooking/kinetics/box-cooking.ts';
import { isBookedRecord, type Learned } from '../cooking/measurements/learned.ts';
import type { RestOfFuel } from '../planning/bookings/rest-of-plan.ts';
import { cookingOf, type StateNow } from '../planning/bookings/state-now.ts';
import type { Plan } from '../planning/plan-types.ts';
import { clockAndDay, foundText } from './change-lines.ts';
import { asHeading, fuelName, kitNameIn } from './names.ts';
import { fixed, NBSP } from './numbers.ts';
import { dateOf, dayName } from './times.ts';

/**
 * @param rest from `restOfPlan`
 * @param learned of the household now; null: nothing
 * @returns sentences, the most pressing first
 */
export function stateLines(
  plan: Plan,
  state: StateNow,
  rest: readonly RestOfFuel[],
  learned: Learned | null,
): string[] {
  const lines: string[] = [];
  for (const { what, id, left, replanBelow, unit } of state.belowMark) {
    const name = what === 'water' ? 'Water' : asHeading(fuelNameOf(state, id));
    const row = rest.find(({ fuelId }) => fuelId === id);
    const first = row?.first ?? null;
    const digits = unit === 'L' ? 0 : 2;
    const stillFits = row?.verdict === 'fits' || (what === 'fuel' && row === undefined);
    const change = stillFits
      ? ` The rest of it still fits.${first === null ? '' : ` To spare some, change ${mealText(plan, first.meal)} first (${first.kitName}): it takes most of it.`}`
      : first === null
        ? ''
        : ` Until then change ${mealText(plan, first.meal)} first (${first.kitName}): it takes most of it; cook it on another fire, or serve a dish without fire.`;
    lines.push(
      `${name}: ${fixed(left, digits)}${NBSP}${unit} left, below the mark of ${fixed(replanBelow, digits)}${NBSP}${unit} of the plan. Make a new plan.${change}`,
    );
  }
  for (const soak of state.soaks)
    if (soak.hours > soak.limitHours)
      lines.push(
        `${kitNameIn(plan, soak.kitId)} has been in water since ${clockAndDay(soak.since, state.at)}: throw it away.`,
      );
  for (const dish of state.underWay)
    if (dish.safeUntil < state.at)
      lines.push(
        `${kitNameIn(plan, dish.kitId)} was safe until ${clockAndDay(dish.safeUntil, state.at)}: throw it away.`,
      );
  lines.push(...triedLines(plan, state, learned), ...boxLines(plan, state));
  for (const row of rest) {
    const stoves = new Set(
      plan.lightings.filter((one) => one.fuelId === row.fuelId && one.at > state.at).map((one) => one.stoveId),
    );
    const texts = [...stoves].flatMap((id) => {
      const figure = learned?.stoves.find((stove) => stove.stoveId === id)?.efficiency;
      return figure === undefined || figure.records.length === 0 ? [] : [figure.text.replace(/\.$/, '')];
    });
    const found = state.differences.some((one) => one.what === 'fuel' && one.id === row.fuelId);
    // The mark has said so.
    const isBelow = state.belowMark.some(({ id }) => id === row.fuelId);
    if (texts.length === 0 && row.verdict === 'fits' && (isBelow || !found)) continue;
    const name = fuelNameOf(state, row.fuelId);
    const verdict =
      row.verdict === 'fits'
        ? 'the rest of the plan still fits'
        : row.verdict === 'tight'
          ? `the rest of the plan fits only if all goes well: make a new plan`
          : `${name} ends on ${whenText(plan, row.endsAt ?? state.at)}: make a new plan`;
    lines.push(`${texts.length === 0 ? asHeading(name) : texts.join('; ')}: ${verdict}.`.replace('): the', '); the'));
  }
  for (const figure of [
    ...(learned?.cooling ?? []).map((one) => one.timeConstantHours),
    ...(learned?.lots ?? []).map((one) => one.minutesFactor),
  ])
    if (figure.records.some(isBookedRecord)) lines.push(figure.text);
  for (const question of questionsOf(plan, state, learned)) lines.push(question.text);
  for (const difference of state.differences) lines.push(foundText(difference, state, state.at));
  const assumed = state.meals.filter((meal) => meal.state === 'assumed').length;
  if (assumed > 0)
    lines.push(
      `${assumed} ${assumed === 1 ? 'meal is' : 'meals are'} not booked, and taken to have been eaten as planned.`,
    );
  return lines;
}

/** What was found in the course of a plan and lies so far from what was expected that it does not count yet. */
export interface OpenQuestion {
  /** The booking that is sent again, as confirmed, where it is right. */
  bookingId: string;
  text: string;
}

/** @param learned of the household now; null: nothing */
export function questionsOf(plan: Plan, state: StateNow, learned: Learned | null): OpenQuestion[] {
  const own = [...state.tried, ...state.boxReadings].map(
    ({ bookingId }) => [`booked-${bookingId}`, bookingId] as const,
  );
  const stoves = (learned?.stoves ?? []).flatMap(({ stoveId }) => {
    const fuels = new Set(plan.lightings.filter((one) => one.stoveId === stoveId).map((one) => one.fuelId as string));
    const last = state.differences.filter(({ what, id }) => what === 'fuel' && fuels.has(id)).at(-1);
    return last === undefined ? [] : [[`weighed-${plan.id}-${stoveId}`, last.bookingId] as const];
  });
  return [...own, ...stoves].flatMap(([recordId, bookingId]): OpenQuestion[] => {
    const effect = learned?.effects.find(({ id }) => id === recordId);
    return effect?.use !== 'questioned' || effect.question === null
      ? []
      : [{ bookingId, text: `${effect.question} Until it is confirmed it does not count.` }];
  });
}

/** Dishes that were not soft and are still to be eaten: how much longer they boil. */
function triedLines(plan: Plan, state: StateNow, learned: Learned | null): string[] {
  const waiting = new Set(state.underWay.map(({ cookingId }) => cookingId));
  return state.tried.flatMap(({ bookingId, cookingId, minutes, soft }) => {
    const cooking = cookingOf(plan, cookingId);
    if (soft || cooking === undefined || !waiting.has(cookingId)) return [];
    const effect = learned?.effects.find(({ id }) => id === `booked-${bookingId}`);
    const figure = learned?.lots.find(({ minutesFactor }) => minutesFactor.records.includes(`booked-${bookingId}`));
    const [expected] = effect?.expected ?? [];
    const name = cooking.kitName;
    if (expected === undefined || figure === undefined)
      return [`${name} was not soft after ${minutes}${NBSP}min: boil it on and try again every ten minutes.`];
    const more = (band: 'p50' | 'p90') =>
      Math.max(5, Math.ceil((expected.middle * figure.minutesFactor.now[band] - expected.found) / 5) * 5);
    return [
      `${name} was not soft after ${minutes}${NBSP}min: boil it on, typically ${more('p50')}${NBSP}min more, at most about ${more('p90')}${NBSP}min.`,
    ];
  });
}

/** Boxes and flasks that have fallen below the temperature at which hot food may be kept. */
function boxLines(plan: Plan, state: StateNow): string[] {
  return state.boxReadings.flatMap(({ cookingId, temperatureC, at }) => {
    const cooking = cookingOf(plan, cookingId);
    const isWaiting = state.underWay.some((dish) => dish.cookingId === cookingId);
    if (cooking === undefined || !isWaiting || temperatureC >= HOT_HOLDING_C) return [];
    return [
      `${cooking.kitName} had ${fixed(temperatureC, 0)}${NBSP}°C at ${clockAndDay(at, state.at)}, below ${HOT_HOLDING_C}${NBSP}°C: bring it to a full boil again before it is eaten.`,
    ];
  });
}

function fuelNameOf(state: StateNow, id: string): string {
  const fuelId = state.fuel.find((row) => row.fuelId === id)?.fuelId;
  return fuelId === undefined ? id : fuelName(fuelId);
}

/** "Friday midday": the meal that a fire is lit for. */
function whenText(plan: Plan, at: string): string {
  const meal = plan.meals.find((one) => one.eatAt >= at);
  return `${dayName(at)} ${meal !== undefined && dateOf(meal.eatAt) === dateOf(at) ? meal.slot : 'evening'}`;
}

function mealText(plan: Plan, meal: string | null): string {
  const found = plan.meals.find((one) => one.id === meal);
  return found === undefined ? 'the next meal' : `${dayName(found.eatAt)} ${found.slot}`;
}
