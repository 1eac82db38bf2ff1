/**
 * How things stand at a moment of a plan: the plan as far as it has come, and what was booked. What was not booked is
 * taken to have gone as planned, and said to be taken so. A pure function: the same bookings give the same state, in
 * whatever order they arrived.
 */
import { indoorCOnDay } from '../../cooking/household/indoor-temperature.ts';
import { type ResolvedHousehold, resolveHousehold } from '../../cooking/household/resolve-household.ts';
import { soakLimitHours, soakLimitOf } from '../../cooking/keeping/soak-limits.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import { addDays, daysBetween, toLocal, toMinute } from '../local-time.ts';
import type { Cooking, Guest, Plan } from '../plan-types.ts';
import {
  type Booking,
  type EndBooking,
  isMealBooking,
  linesOfBooking,
  type MealBooking,
  type SoakBooking,
  standingBookings,
} from './booking-types.ts';
import { type Difference, type FuelNow, fuelNow } from './fuel-now.ts';
import { hasBegun, mealsOfCooking, notCooked, waterUsedBy } from './planned-use.ts';

/** What a household drinks and washes with from midnight to the morning's reading, L. Common practice. */
const NIGHT_L = 5;

export interface LotNow {
  lotId: string;
  quality: 'safe' | 'treat' | 'not-for-food';
  litres: number;
  /** When it was last measured; null: worked out. */
  measuredAt: string | null;
}

export interface MealNow {
  id: string;
  eatAt: string;
  /** `assumed`: its time has passed and nothing was booked, so that it counts as eaten. */
  state: 'eaten' | 'skipped' | 'changed' | 'assumed' | 'under-way' | 'open';
  bookingId: string | null;
}

/** Food in water. */
export interface SoakNow {
  /** The booking that set it, or the cooking of the plan. */
  id: string;
  kitId: string;
  batches: number;
  vesselId: string;
  since: string;
  hours: number;
  /** Longest that it may lie at the temperature where it stands, h. */
  limitHours: number;
  /** Until when the pot must boil. */
  safeUntil: string;
  waterL: number;
  /** The cooking of the plan that it was set for; null: none. */
  cookingId: string | null;
  /** Set as planned, nobody booked it. */
  assumed: boolean;
}

/** A dish that is on the fire, in a box or in a flask. */
export interface DishUnderWay {
  cookingId: string;
  kitId: string;
  batches: number;
  /** null: it stands in cold water. */
  vesselId: string | null;
  boxId: string | null;
  flaskId: string | null;
  since: string;
  meals: string[];
  safeUntil: string;
  /** As the plan that cooked it has it; kept by the plan that goes on from there. */
  cooking?: Cooking;
}

export interface PeopleNow {
  /** Labels of the household's people who are away. */
  away: string[];
  guests: { guests: Guest[]; until: string | null }[];
}

/** What a scale or jug should show now, and the mark of the plan below which it no longer holds. */
export interface ReadingNow {
  what: 'fuel' | 'water';
  /** Fuel, or `water`. */
  id: string;
  /** As weighed last less what was used since, else as worked out. */
  left: Percentiles;
  /** null: the plan gives none for this hour. */
  replanBelow: number | null;
  unit: 'kg' | 'kWh' | 'L';
}

/** A reading below the mark of the plan. */
export interface BelowMark {
  what: 'fuel' | 'water';
  id: string;
  left: number;
  replanBelow: number;
  unit: string;
}

export interface StateNow {
  planId: string;
  at: string;
  fuel: FuelNow[];
  water: { lots: LotNow[]; leftL: number };
  meals: MealNow[];
  soaks: SoakNow[];
  underWay: DishUnderWay[];
  outOfUse: { id: string; since: string }[];
  /** Things that were mended and have not broken again. */
  mended: string[];
  people: PeopleNow;
  differences: Difference[];
  /** Dishes that were tried, and boxes that were read, the last of each dish. */
  tried: { bookingId: string; cookingId: string; at: string; minutes: number; soft: boolean }[];
  boxReadings: { bookingId: string; cookingId: string; at: string; temperatureC: number }[];
  readings: ReadingNow[];
  belowMark: BelowMark[];
  /** Cookings of the plan that took place or are under way: what they took is out of the store. */
  cooked: { cookingId: string; booked: boolean }[];
}

/**
 * @param plan what hangs on the wall
 * @param bookings all of it, in any order, those taken back included
 * @param at local wall-clock time, not before the start of the plan
 * @param leadMinutes a fire that is due within so many minutes counts as lit: a new plan would come too late for it
 */
export function stateNow(plan: Plan, bookings: readonly Booking[], at: string, leadMinutes = 0): StateNow {
  const { household } = resolveHousehold(plan.resolved.household);
  const placeId = plan.request.placeId ?? household.places[0]?.id;
  const place = household.places.find((one) => one.id === placeId) ?? household.places[0];
  if (place === undefined) throw new RangeError('a plan without a place');
  const zone = place.timeZone;
  const soon = leadMinutes === 0 ? at : toLocal(toMinute(at, zone) + leadMinutes, zone);
  const places = new Set([place.id, ...(plan.request.carryFrom ?? [])]);
  const standing = standingBookings(bookings).filter((booking) => booking.at <= at);
  const mealBookings = new Map(
    standing.filter(isMealBooking).map((booking): [string, MealBooking] => [booking.meal, booking]),
  );
  const left = new Set(
    [...mealBookings.values()].filter((booking) => booking.kind !== 'meal-eaten').map((booking) => booking.meal),
  );
  const omitted = notCooked(plan, left);
  const ends = standing.filter(
    (booking): booking is EndBooking => booking.kind === 'soak-drained' || booking.kind === 'box-opened',
  );
  const endOf = (id: string) => ends.find((end) => end.of === id);

  const differences: Difference[] = [];
  const fuel = household.fuels.map((store) => {
    const here = { ...store, containers: store.containers.filter((one) => places.has(one.placeId)) };
    // A meal that was changed was cooked too, and with how much fuel is not known: as much as planned.
    const unburnt = notCooked(
      plan,
      new Set([...left].filter((meal) => mealBookings.get(meal)?.kind === 'meal-skipped')),
    );
    const found = fuelNow(plan, here, standing, unburnt, soon);
    differences.push(...found.differences);
    return found.fuel;
  });
  const water = waterNow(plan, household, place.id, standing, omitted, at, soon, zone);
  differences.push(...water.differences);

  const underWay = plan.cookings.flatMap((cooking): DishUnderWay[] => {
    const { vesselId } = cooking.method;
    const meals = mealsOfCooking(plan, cooking).filter((meal) => !mealBookings.has(meal));
    const open = plan.meals.filter((meal) => meals.includes(meal.id) && meal.eatAt > at);
    if (
      !hasBegun(plan, cooking, soon) ||
      omitted.has(cooking.id) ||
      open.length === 0 ||
      endOf(cooking.id) !== undefined
    )
      return [];
    const dish = open[0]?.dishes.find((one) => one.cookingId === cooking.id);
    return [
      {
        cookingId: cooking.id,
        kitId: cooking.kitId,
        batches: cooking.batches,
        vesselId,
        boxId: cooking.keptFor?.boxId ?? cooking.method.boxId,
        flaskId: cooking.method.flaskId,
        since: cooking.startsAt,
        meals: open.map((meal) => meal.id),
        safeUntil: dish?.safeUntil ?? cooking.doneAt,
      },
    ];
  });
  // Dishes that the plan before had under way are in no cooking of this one, and are eaten all the same.
  const carried = carriedMeals(plan);
  for (const dish of plan.continues?.underWay ?? []) {
    const open = dish.meals.filter(
      (meal) => !mealBookings.has(meal) && carried.some(({ id, eatAt }) => id === meal && eatAt > at),
    );
    if (open.length > 0 && endOf(dish.cookingId) === undefined) underWay.push({ ...dish, meals: open });
  }
  const fedUnderWay = new Set(underWay.flatMap((dish) => dish.meals));
  const meals = [...carried, ...plan.meals].map((meal): MealNow => {
    const booking = mealBookings.get(meal.id);
    const state =
      booking === undefined
        ? meal.eatAt <= at
          ? 'assumed'
          : fedUnderWay.has(meal.id)
            ? 'under-way'
            : 'open'
        : booking.kind === 'meal-eaten'
          ? 'eaten'
          : booking.kind === 'meal-skipped'
            ? 'skipped'
            : 'changed';
    return { id: meal.id, eatAt: meal.eatAt, state, bookingId: booking?.id ?? null };
  });

  const soaks = soaksNow(
    plan,
    standing,
    at,
    soon,
    endOf,
    mealBookings,
    (since, temperatureC) => {
      const day = Math.max(0, daysBetween(plan.continues?.firstStartsAt ?? plan.request.startsAt, since));
      const airC = indoorCOnDay(place, day);
      // Cold water warms to the room; hot water cools through the range where spores grow.
      const hours =
        temperatureC === null
          ? soakLimitHours(airC)
          : soakLimitOf({ start: 'hot', waterC: temperatureC, airC, hours: 0 });
      return { hours, until: toLocal(toMinute(since, zone) + hours * 60, zone) };
    },
    (since) => (toMinute(at, zone) - toMinute(since, zone)) / 60,
  );

  const cooked = plan.cookings
    .filter((cooking) => hasBegun(plan, cooking, soon) && !omitted.has(cooking.id))
    .map((cooking) => ({
      cookingId: cooking.id,
      booked: standing.some((booking) => linesOfBooking(booking).some((line) => line.note === cooking.id)),
    }));
  const tried = new Map<string, StateNow['tried'][number]>();
  const boxReadings = new Map<string, StateNow['boxReadings'][number]>();
  for (const booking of standing) {
    if (booking.kind !== 'food-tried' && booking.kind !== 'box-read') continue;
    const found = { bookingId: booking.id, cookingId: booking.of, at: booking.at };
    if (booking.kind === 'food-tried')
      tried.set(booking.of, { ...found, minutes: booking.minutes, soft: booking.soft });
    else boxReadings.set(booking.of, { ...found, temperatureC: booking.temperatureC });
  }
  const readings = readingsNow(plan, fuel, water.lots, at, soon);
  return {
    planId: plan.id,
    at,
    fuel,
    water: { lots: water.lots, leftL: water.lots.reduce((sum, lot) => sum + lot.litres, 0) },
    meals,
    soaks,
    underWay,
    outOfUse: thingsOut(standing),
    mended: standing.flatMap((booking) => (booking.kind === 'mended' ? [booking.thingId] : [])),
    people: peopleNow(standing, at),
    differences: differences.sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0)),
    tried: [...tried.values()],
    boxReadings: [...boxReadings.values()],
    readings,
    belowMark: belowMarks(readings),
    cooked,
  };
}

/** A dish of a plan, or one that was under way when it was made; undefined: neither. */
export function cookingOf(plan: Pick<Plan, 'cookings' | 'continues'>, id: string): Cooking | undefined {
  return (
    plan.cookings.find((one) => one.id === id) ??
    plan.continues?.underWay.find((dish) => dish.cookingId === id)?.cooking
  );
}

/** The meals of dishes that were under way when a plan was made, which are none of its own. */
export function carriedMeals(
  plan: Pick<Plan, 'continues' | 'resolved' | 'request' | 'meals'>,
): { id: string; eatAt: string }[] {
  const own = new Set(plan.meals.map(({ id }) => id));
  const ids = new Set((plan.continues?.underWay ?? []).flatMap((dish) => dish.meals));
  const times = new Map((plan.resolved.household.meals ?? []).map((meal) => [meal.id, meal.time]));
  return [...ids]
    .filter((id) => !own.has(id))
    .map((id) => ({ id, eatAt: `${id.slice(0, 10)}T${times.get(id.slice(11)) ?? plan.request.startsAt.slice(11)}` }))
    .sort((a, b) => (a.eatAt < b.eatAt ? -1 : 1));
}

function waterNow(
  plan: Plan,
  household: ResolvedHousehold,
  placeId: string,
  standing: readonly Booking[],
  omitted: ReadonlySet<string>,
  at: string,
  soon: string,
  zone: string,
): { lots: LotNow[]; differences: Difference[] } {
  const lots = household.water.lots
    .filter((lot) => lot.placeId === placeId)
    .map((lot): LotNow => ({ lotId: lot.id, quality: lot.quality, litres: lot.litres, measuredAt: null }));
  const supply = household.water.dailySupply;
  const differences: Difference[] = [];
  let soFar = { hygieneL: 0, foodL: 0 };
  let day = 0;
  const take = (wanted: number, qualities: readonly string[]) => {
    let rest = wanted;
    for (const quality of qualities)
      for (const lot of lots.filter((one) => one.quality === quality)) {
        const taken = Math.min(lot.litres, rest);
        lot.litres -= taken;
        rest -= taken;
      }
  };
  const advanceTo = (until: string, potsBy = until) => {
    const used = waterUsedBy(plan, until, zone, omitted, potsBy);
    take(used.hygieneL - soFar.hygieneL, ['not-for-food', 'safe', 'treat']);
    take(used.foodL - soFar.foodL, ['safe', 'treat']);
    soFar = used;
    for (const days = daysBetween(plan.request.startsAt, until); day < days; day++) {
      const lot = lots.find((one) => one.quality === supply.quality);
      if (supply.litres > 0 && lot !== undefined) lot.litres += supply.litres;
      else if (supply.litres > 0)
        lots.push({ lotId: 'brought', quality: supply.quality, litres: supply.litres, measuredAt: null });
    }
  };
  for (const booking of standing) {
    if (booking.kind === 'came' && booking.water !== undefined) {
      advanceTo(booking.at);
      const lot = lots.find((one) => one.lotId === booking.water?.lotId);
      if (lot !== undefined) lot.litres += booking.water.litres;
    }
    if (booking.kind !== 'water-left') continue;
    advanceTo(booking.at);
    const lot = lots.find((one) => one.lotId === booking.lotId);
    if (lot === undefined) continue;
    const { litres } = lot;
    differences.push({
      bookingId: booking.id,
      at: booking.at,
      what: 'water',
      id: lot.lotId,
      containerId: null,
      computed: { p10: litres, p50: litres, p90: litres },
      found: booking.litres,
      difference: booking.litres - litres,
      unit: 'L',
    });
    lot.litres = booking.litres;
    lot.measuredAt = booking.at;
  }
  advanceTo(at, soon);
  return { lots, differences };
}

function soaksNow(
  plan: Plan,
  standing: readonly Booking[],
  at: string,
  soon: string,
  endOf: (id: string) => EndBooking | undefined,
  mealBookings: ReadonlyMap<string, MealBooking>,
  limitOf: (since: string, temperatureC: number | null) => { hours: number; until: string },
  hoursSince: (since: string) => number,
): SoakNow[] {
  const setByHand = standing.filter((booking): booking is SoakBooking => booking.kind === 'soak-set');
  const planned = plan.cookings.filter((cooking) => cooking.method.soak !== null && cooking.method.soak.at <= at);
  // A dish whose fire is due counts as under way, so that its food is not in the bowl as well.
  const isOver = (cooking: Cooking) =>
    hasBegun(plan, cooking, soon) ||
    endOf(cooking.id) !== undefined ||
    mealsOfCooking(plan, cooking).every((meal) => mealBookings.has(meal));
  const matched = new Set<string>();
  const soaks: SoakNow[] = [];
  for (const booking of setByHand) {
    // Set for the dish of the plan that lies in the same bowl about this time.
    const cooking = planned.find(
      (one) =>
        !matched.has(one.id) &&
        one.kitId === booking.kitId &&
        one.method.soak !== null &&
        Math.abs(hoursSince(one.method.soak.at) - hoursSince(booking.at)) <= 6,
    );
    if (cooking !== undefined) matched.add(cooking.id);
    if (endOf(booking.id) !== undefined || (cooking !== undefined && isOver(cooking))) continue;
    const limit = limitOf(booking.at, booking.temperatureC ?? null);
    soaks.push({
      id: booking.id,
      kitId: booking.kitId,
      batches: booking.batches ?? cooking?.batches ?? 1,
      vesselId: booking.vesselId,
      since: booking.at,
      hours: hoursSince(booking.at),
      limitHours: limit.hours,
      safeUntil: limit.until,
      waterL: cooking?.method.soak?.waterL ?? 0,
      cookingId: cooking?.id ?? null,
      assumed: false,
    });
  }
  for (const cooking of planned) {
    const { soak } = cooking.method;
    if (soak === null || matched.has(cooking.id) || isOver(cooking)) continue;
    const limit = limitOf(soak.at, null);
    soaks.push({
      id: cooking.id,
      kitId: cooking.kitId,
      batches: cooking.batches,
      vesselId: soak.vesselId,
      since: soak.at,
      hours: hoursSince(soak.at),
      limitHours: limit.hours,
      safeUntil: limit.until,
      waterL: soak.waterL,
      cookingId: cooking.id,
      assumed: true,
    });
  }
  return soaks;
}

function thingsOut(standing: readonly Booking[]): { id: string; since: string }[] {
  const out = new Map<string, string>();
  for (const booking of standing) {
    if (booking.kind === 'broke') out.set(booking.thingId, booking.at);
    if (booking.kind === 'mended') out.delete(booking.thingId);
  }
  return [...out].map(([id, since]) => ({ id, since }));
}

function peopleNow(standing: readonly Booking[], at: string): PeopleNow {
  const away = new Set<string>();
  let guests: PeopleNow['guests'] = [];
  for (const booking of standing) {
    if (booking.kind === 'came') {
      for (const person of booking.people ?? []) away.delete(person);
      if (booking.guests !== undefined) guests.push({ guests: booking.guests, until: booking.until ?? null });
    }
    if (booking.kind === 'left') {
      for (const person of booking.people ?? []) away.add(person);
      if (booking.guests === 'all') guests = [];
    }
  }
  return { away: [...away], guests: guests.filter(({ until }) => until === null || until >= at.slice(0, 10)) };
}

/**
 * Readings against the printed mark: that of the evening before while no fire of the day has been lit (the morning's, as
 * the cards have it), else that of tonight; a fire that counts as lit and a pot that counts as filled have taken theirs.
 * Fuels that the plan does not use have no mark.
 */
function readingsNow(
  plan: Plan,
  fuel: readonly FuelNow[],
  lots: readonly LotNow[],
  at: string,
  soon: string,
): ReadingNow[] {
  const today = at.slice(0, 10);
  const yesterday = addDays(today, -1);
  const isFirst = today === plan.request.startsAt.slice(0, 10);
  const fuels = fuel.map(({ fuelId, left, unit }): ReadingNow => {
    const balance = plan.fuel.find((row) => row.fuelId === fuelId);
    const reading = { what: 'fuel' as const, id: fuelId, left, unit };
    if (balance === undefined || balance.usedKg.p90 < 0.0005) return { ...reading, replanBelow: null };
    const lit = plan.lightings.some((one) => one.fuelId === fuelId && one.at.slice(0, 10) === today && one.at <= soon);
    const row = balance.byDay.find((one) => one.date === (lit ? today : yesterday));
    return { ...reading, replanBelow: row?.replanBelow ?? (isFirst && !lit ? balance.usedKg.p90 : null) };
  });
  const leftL = lots.reduce((sum, lot) => sum + lot.litres, 0);
  const eaten =
    plan.meals.some((meal) => meal.eatAt.slice(0, 10) === today && meal.eatAt <= at) ||
    plan.cookings.some((cooking) => cooking.startsAt.slice(0, 10) === today && hasBegun(plan, cooking, soon));
  const row = plan.water.byDay.find((one) => one.date === (eaten || isFirst ? today : yesterday));
  // Drinks run all day; before the first meal of it only the night has gone.
  const night = eaten || isFirst ? 0 : NIGHT_L;
  return [
    ...fuels,
    {
      what: 'water',
      id: 'water',
      left: { p10: leftL, p50: leftL, p90: leftL },
      replanBelow: row === undefined ? null : Math.max(0, row.replanBelow - night),
      unit: 'L',
    },
  ];
}

/** The readings below their mark, by more than a scale can be wrong. */
function belowMarks(readings: readonly ReadingNow[]): BelowMark[] {
  return readings.flatMap(({ what, id, left, replanBelow, unit }) =>
    replanBelow !== null && left.p50 < replanBelow - (what === 'fuel' ? 5e-4 : 0)
      ? [{ what, id, left: left.p50, replanBelow, unit }]
      : [],
  );
}
