/**
 * A plan from now on: what was stored when the first plan was made, what was done and found since, and what hangs on the
 * wall, put together as the input of a new plan. Nothing is chosen here.
 */

import { stockKitId, stockKitIdIn } from '../../cooking/dishes/part-choices.ts';
import type { FuelContainer, FuelStore, HouseholdDocument, WaterLot } from '../../cooking/household/kitchen.ts';
import { type ResolvedHousehold, resolveHousehold } from '../../cooking/household/resolve-household.ts';
import { InvalidInputError } from '../../physics/errors.ts';
import { addDays, daysBetween, toLocal, toMinute } from '../local-time.ts';
import type { PlanInput } from '../make-plan.ts';
import { eatenBy, repeatsOf } from '../plan/taken-point.ts';
import type { ChosenPoint, Plan, PlanRequest, StockEntry } from '../plan-types.ts';
import { lastCounts, takenAt } from '../stock-changes.ts';
import { inOrderOfUse, lotKey, stockLots } from '../stock-lots.ts';
import { LEAD_IN_MINUTES } from '../week/week-layout.ts';
import type { Booking, MealBooking } from './booking-types.ts';
import type { Continuation, DishOnWall } from './continuation.ts';
import type { FuelNow } from './fuel-now.ts';
import { isNews } from './news.ts';
import { hasBegun, mealsOfCooking, notCooked, waterUsedBy } from './planned-use.ts';
import { cookingOf, type SoakNow, type StateNow, stateNow } from './state-now.ts';

/** Less fuel or water than this is none, kg, L. */
const NOTHING = 1e-9;

/**
 * @param input what a plan without a forerunner would be made from: the household as stored, kits, ledger, records
 * @param old the plan that hangs on the wall
 * @param bookings of that plan
 * @returns the input of the new plan, and the state that it goes on from
 * @throws InvalidInputError when the new plan would begin before the old one, or goes on with what is not under way
 */
export function replanInput(
  input: PlanInput,
  old: Plan,
  bookings: readonly Booking[],
): { input: PlanInput; state: StateNow } {
  const { request } = input;
  const { startsAt } = request;
  if (startsAt < old.request.startsAt)
    throw new InvalidInputError(
      'startsAt',
      startsAt,
      `begin at or after ${old.request.startsAt}, when the replaced plan begins`,
    );
  const all = [...bookings, ...saidDone(request, old, bookings)];
  const state = stateNow(old, all, startsAt, LEAD_IN_MINUTES);
  const { soaks, underWay: cooked } = goingOn(request, state);
  const underWay = cooked.map((dish) => {
    const cooking = cookingOf(old, dish.cookingId);
    return cooking === undefined ? dish : { ...dish, cooking };
  });
  const { household: before } = resolveHousehold(old.resolved.household);
  const place = before.places.find((one) => one.id === old.request.placeId) ?? before.places[0];
  const zone = place?.timeZone ?? 'UTC';

  const left = new Set(
    state.meals.filter((meal) => meal.state === 'skipped' || meal.state === 'changed').map((meal) => meal.id),
  );
  const omitted = notCooked(old, left);
  const soon = toLocal(toMinute(startsAt, zone) + LEAD_IN_MINUTES, zone);
  const fires = old.lightings.filter((lighting) => {
    const works = [...old.cookings, ...old.tasks].filter((work) =>
      'method' in work ? work.method.lightingId === lighting.id : work.lightingId === lighting.id,
    );
    return lighting.at <= soon && works.some((work) => !omitted.has(work.id)) && lighting.burnsAnyway !== true;
  });
  const today = startsAt.slice(0, 10);
  const todays = fires.filter((lighting) => lighting.at.slice(0, 10) === today);
  const minutesOf = (lighting: { at: string; until: string }) =>
    toMinute(lighting.until, zone) - toMinute(lighting.at, zone);
  const usedFuel: Record<string, number> = { ...old.continues?.used.fuel };
  for (const fuel of state.fuel) {
    const onHand = old.fuel.find((row) => row.fuelId === fuel.fuelId)?.onHandKg ?? 0;
    const came = all
      .filter((booking) => booking.kind === 'came' && booking.at <= startsAt)
      .reduce(
        (sum, booking) => sum + (booking.kind === 'came' && booking.fuel?.fuelId === fuel.fuelId ? booking.fuel.kg : 0),
        0,
      );
    usedFuel[fuel.fuelId] = (usedFuel[fuel.fuelId] ?? 0) + Math.max(0, onHand + came - fuel.counted);
  }
  const doneDishes = old.meals.filter(
    (meal) => meal.eatAt <= startsAt || underWay.some((dish) => dish.meals.includes(meal.id)),
  );
  const eaten = doneDishes.flatMap((meal) => {
    const day = daysBetween(startsAt, meal.eatAt);
    const state_ = state.meals.find((one) => one.id === meal.id)?.state;
    if (day < -1 || state_ === 'skipped' || state_ === 'changed') return [];
    return meal.dishes.flatMap((dish) => {
      const kitId = old.cookings.find((cooking) => cooking.id === dish.cookingId)?.kitId;
      return kitId === undefined ? [] : [{ kitId, day: Math.min(0, day) }];
    });
  });
  // Of the plan before the replaced one: what belongs to today and yesterday still counts.
  const daysOn = daysBetween(old.request.startsAt, startsAt);
  const earlier = old.continues?.from;
  const eatenEarlier = (earlier?.before.eaten ?? [])
    .map(({ kitId, day }) => ({ kitId, day: day - daysOn }))
    .filter(({ day }) => day >= -1);
  const todayEarlier = daysOn === 0 ? earlier?.before : undefined;
  const neededAlready = neededBy(old, startsAt, zone);
  const eatenKcal = doneDishes.filter((meal) => !left.has(meal.id)).reduce((sum, meal) => sum + meal.energyKcal, 0);

  const hotWater = old.tasks.filter((task) => task.kind === 'hot-water' && task.at.slice(0, 10) === today);
  const taken = takenAlready(old, state, input.stock, startsAt);
  // What is not gone on with is lost: it does not go back dry into the store.
  const kept = new Set(soaks.map((soak) => soak.id));
  for (const soak of state.soaks) if (!kept.has(soak.id)) taken.push(...lostIn(soak, old, input, taken, startsAt));
  const continues: Continuation = {
    planId: old.id,
    firstStartsAt: old.continues?.firstStartsAt ?? old.request.startsAt,
    firstDays: old.continues?.firstDays ?? old.request.days,
    before: {
      fuel: usedFuel,
      needKcal: old.continues?.needKcal ?? old.energyByDay.reduce((sum, day) => sum + day.needKcal, 0),
      waterL: (old.continues?.used.waterL ?? 0) + waterUsedBy(old, startsAt, zone, omitted, soon).potsL,
      eaten: [...eatenEarlier, ...eaten],
      lightings: todays.length + (todayEarlier?.lightings ?? 0),
      outdoorMinutes: todays
        .filter((lighting) => lighting.outdoors)
        .reduce((sum, lighting) => sum + minutesOf(lighting), todayEarlier?.outdoorMinutes ?? 0),
    },
    kcalAhead: (old.continues?.kcalAhead ?? 0) + eatenKcal - neededAlready,
    soaks,
    underWay,
    taken,
    news: isNews(input, old, bookings, state, taken),
    hotWaterToday:
      hotWater.length > 0
        ? hotWater.some((task) => !fires.some((fire) => fire.id === task.lightingId) && task.at > startsAt)
        : daysOn === 0
          ? (earlier?.hotWaterToday ?? null)
          : null,
    wall: {
      dishes: wallOf(old, soon, omitted, state),
      hotWater: old.tasks.flatMap((task) =>
        task.kind === 'hot-water' && task.at > soon && task.lightingId !== null && task.vesselId !== null
          ? [{ lightingId: task.lightingId, vesselId: task.vesselId }]
          : [],
      ),
    },
  };
  return {
    state,
    input: {
      ...input,
      request: effectiveRequest(request, old, state),
      household: householdNow(input.household, old, before, state),
      stock: [...input.stock, ...taken],
      continues,
    },
  };
}

/** What the request says of meals that nobody booked. */
function saidDone(request: PlanRequest, old: Plan, bookings: readonly Booking[]): MealBooking[] {
  const booked = new Set(bookings.flatMap((booking) => ('meal' in booking ? [booking.meal] : [])));
  return (request.done ?? [])
    .filter(({ meal }) => !booked.has(meal))
    .map(({ meal, result }): MealBooking => {
      const eatAt = old.meals.find((one) => one.id === meal)?.eatAt ?? request.startsAt;
      const [at = eatAt] = [eatAt, request.startsAt].sort();
      return { id: `said-${meal}`, planId: old.id, at, kind: `meal-${result}`, meal };
    });
}

/** Soaks and dishes that the new plan may go on with: those of the state, or where the request lists them, these alone. */
function goingOn(request: PlanRequest, state: StateNow): Pick<Continuation, 'soaks' | 'underWay'> {
  const listed = request.inProgress;
  if (listed === undefined) return { soaks: state.soaks, underWay: state.underWay };
  const soaks: SoakNow[] = [];
  const underWay: Continuation['underWay'] = [];
  for (const [index, entry] of listed.entries()) {
    if (entry.kind === 'soak') {
      const known = state.soaks.find((soak) => soak.kitId === entry.kitId && soak.vesselId === entry.vesselId);
      if (known === undefined)
        throw new InvalidInputError(
          `inProgress/${index}`,
          entry.kitId,
          `${entry.kitId} is not in water by the plan nor by a booking: book it as soak-set first`,
        );
      soaks.push({ ...known, batches: entry.batches });
    } else {
      const known = state.underWay.find((dish) => dish.kitId === entry.kitId && dish.vesselId === entry.vesselId);
      if (known === undefined)
        throw new InvalidInputError(
          `inProgress/${index}`,
          entry.kitId,
          `${entry.kitId} is not under way in ${entry.vesselId} by the plan: book what the meal was changed to`,
        );
      underWay.push(known);
    }
  }
  return { soaks, underWay };
}

/** Who is there, what cannot be used and what is done, from the bookings; what the request says comes after it. */
function effectiveRequest(request: PlanRequest, old: Plan, state: StateNow): PlanRequest {
  const done = state.meals
    .filter((meal) => meal.state === 'eaten' || meal.state === 'skipped' || meal.state === 'changed')
    .filter((meal) => meal.eatAt >= request.startsAt)
    .map((meal) => ({ meal: meal.id, result: meal.state as 'eaten' | 'skipped' | 'changed' }));
  const saidMeals = new Set((request.done ?? []).map((entry) => entry.meal));
  const out = state.outOfUse.map(({ id, since }) => ({ id, from: since, to: null }));
  // What broke under an earlier plan is still broken, unless it was mended.
  const said = request.outOfUse ?? (old.request.outOfUse ?? []).filter(({ id }) => !state.mended.includes(id));
  const saidOut = new Set(said.map((entry) => entry.id));
  return {
    ...request,
    done: [...done.filter(({ meal }) => !saidMeals.has(meal)), ...(request.done ?? [])],
    outOfUse: [...out.filter(({ id }) => !saidOut.has(id)), ...said],
    attendance: [...attendanceNow(request, old, state), ...(request.attendance ?? [])],
    // What was asked for before holds on where nothing else is said.
    ...(request.placeId == null && old.request.placeId != null ? { placeId: old.request.placeId } : {}),
    ...(request.carryFrom === undefined && old.request.carryFrom !== undefined
      ? { carryFrom: old.request.carryFrom }
      : {}),
    ...(request.kitIds === undefined && old.request.kitIds != null ? { kitIds: old.request.kitIds } : {}),
    ...(request.noFlame === undefined && old.request.noFlame !== undefined ? { noFlame: old.request.noFlame } : {}),
    ...(request.tradeOff === undefined && old.request.tradeOff != null
      ? { tradeOff: pointLeft(old.request.tradeOff, old, state, request.startsAt) }
      : {}),
    ...(request.pinned === undefined && old.request.pinned !== undefined
      ? { pinned: old.request.pinned.filter(({ meal }) => !isPast(meal, request)) }
      : {}),
  };
}

/**
 * What is left of the point of the trade-off at which the replaced plan was made: fewer cold meals by those that were
 * eaten cold, fewer repeats by those of the days that are over. What was skipped or changed used nothing up. The two days
 * that the new plan begins in the middle of are its own.
 */
function pointLeft(chosen: ChosenPoint, old: Plan, state: StateNow, startsAt: string): ChosenPoint {
  const gone = old.meals.filter((meal) => {
    const now = state.meals.find((one) => one.id === meal.id)?.state;
    if (now === 'skipped' || now === 'changed') return false;
    return meal.eatAt <= startsAt || now === 'eaten';
  });
  const cold = gone.filter((meal) => meal.coldByChoice === true).length;
  const eaten = eatenBy(gone, old.cookings, old.request.startsAt);
  const before = old.continues?.from.before.eaten ?? [];
  const repeats = repeatsOf(eaten, before, daysBetween(old.request.startsAt, startsAt) - 2);
  return {
    ...chosen,
    coldMeals: Math.max(0, chosen.coldMeals - cold),
    ...(chosen.repeats == null ? {} : { repeats: Math.max(0, chosen.repeats - repeats) }),
  };
}

function isPast(meal: string, request: PlanRequest): boolean {
  return meal.slice(0, 10) < request.startsAt.slice(0, 10);
}

function attendanceNow(request: PlanRequest, old: Plan, state: StateNow): NonNullable<PlanRequest['attendance']> {
  const first = request.startsAt.slice(0, 10);
  const rows: NonNullable<PlanRequest['attendance']> =
    request.attendance === undefined ? (old.request.attendance ?? []).filter((entry) => entry.date >= first) : [];
  const { away, guests } = state.people;
  const here = old.resolved.household.people.map((person) => person.label).filter((label) => !away.includes(label));
  for (let day = 0; day < request.days; day++) {
    const date = addDays(first, day);
    if (away.length > 0 && !rows.some((row) => row.date === date && row.people !== undefined))
      rows.push({ date, people: here });
    const there = guests.filter(({ until }) => until === null || until >= date).flatMap((row) => row.guests);
    if (there.length > 0) rows.push({ date, guests: there });
  }
  return rows;
}

/** Food energy that was needed by a moment, kcal. */
function neededBy(old: Plan, at: string, zone: string): number {
  let kcal = 0;
  for (const day of old.energyByDay) {
    const first = day.date === old.request.startsAt.slice(0, 10);
    const from = toMinute(first ? old.request.startsAt : `${day.date}T00:00`, zone);
    const to = toMinute(`${addDays(day.date, 1)}T00:00`, zone);
    kcal += day.needKcal * Math.min(1, Math.max(0, (toMinute(at, zone) - from) / (to - from)));
  }
  return kcal;
}

/** The dishes that are still to come, as they hang on the wall. */
function wallOf(old: Plan, at: string, omitted: ReadonlySet<string>, state: StateNow): DishOnWall[] {
  const open = new Set(state.meals.filter((meal) => meal.state === 'open').map((meal) => meal.id));
  return old.cookings.flatMap((cooking): DishOnWall[] => {
    const [meal] = mealsOfCooking(old, cooking);
    if (meal === undefined || omitted.has(cooking.id) || hasBegun(old, cooking, at) || !open.has(meal)) return [];
    const { method } = cooking;
    return [
      {
        cookingId: cooking.id,
        meal,
        kitId: cooking.kitId,
        batches: cooking.batches,
        lightingId: method.lightingId,
        vesselId: method.vesselId,
        finish: method.finish,
        boxId: method.boxId,
        flaskId: method.flaskId,
        soakVesselId: method.soak?.vesselId ?? null,
        keptFor: cooking.keptFor?.meal ?? null,
        heatToC: method.heatToC ?? null,
      },
    ];
  });
}

/** Lines for what was cooked and is in no line of the ledger: meals that nobody booked, and dishes under way. */
function takenAlready(old: Plan, state: StateNow, ledger: readonly StockEntry[], at: string): StockEntry[] {
  const left = new Map<string, number>();
  for (const entry of ledger) left.set(lotKey(entry), (left.get(lotKey(entry)) ?? 0) + entry.quantity);
  // Of plans before the replaced one; what has been booked of them since is in the ledger.
  // What was counted since lacks what was taken before, booked or not.
  const counts = lastCounts(ledger);
  const isCountedSince = (lot: Parameters<typeof lotKey>[0], since: string) => (counts.get(lotKey(lot)) ?? '') > since;
  const earlier = (old.continues?.from.taken ?? []).filter(
    (line) => !ledger.some((entry) => entry.note === line.note) && !isCountedSince(line, line.at),
  );
  for (const line of earlier) left.set(lotKey(line), (left.get(lotKey(line)) ?? 0) + line.quantity);
  const now = state.cooked
    .filter((cooked) => !cooked.booked)
    .flatMap(({ cookingId }) => {
      const cooking = old.cookings.find((one) => one.id === cookingId);
      return (cooking?.takes ?? []).flatMap(({ partId, placeId, packedOn, quantity }, index): StockEntry[] => {
        const lot = { kitId: stockKitIdIn(old.resolved.kits, cooking?.kitId ?? ''), partId, placeId, packedOn };
        const taken = Math.min(quantity, left.get(lotKey(lot)) ?? 0);
        if (taken <= NOTHING || cooking === undefined || isCountedSince(lot, takenAt(cooking, partId))) return [];
        left.set(lotKey(lot), (left.get(lotKey(lot)) ?? 0) - taken);
        return [{ id: `${cookingId}-${index}`, ...lot, quantity: -taken, reason: 'eaten', at, note: cookingId }];
      });
    });
  return [...earlier, ...now];
}

/**
 * The household with what is left in its containers and lots. What the household has stored since, under ids that the old
 * plan does not know, is added; a reserve stays what it was when the first plan was made.
 */
function householdNow(
  stored: HouseholdDocument,
  old: Plan,
  before: ResolvedHousehold,
  state: StateNow,
): HouseholdDocument {
  const known = new Set(before.fuels.flatMap((store) => store.containers.map((one) => `${store.fuelId}/${one.id}`)));
  const fuels = new Map<string, FuelStore>((stored.fuels ?? []).map((store) => [store.fuelId, store]));
  for (const fuel of state.fuel) {
    const store = fuels.get(fuel.fuelId) ?? { fuelId: fuel.fuelId };
    const reserveKg = old.fuel.find((row) => row.fuelId === fuel.fuelId)?.reserveKg ?? 0;
    const places = new Set([old.request.placeId ?? before.places[0]?.id, ...(old.request.carryFrom ?? [])]);
    const elsewhere = (old.resolved.household.fuels ?? [])
      .filter((row) => row.fuelId === fuel.fuelId)
      .flatMap((row) => row.containers ?? [])
      .filter((row) => row.placeId !== undefined && !places.has(row.placeId));
    const added = (store.containers ?? []).filter((row) => !known.has(`${fuel.fuelId}/${originalId(row.id)}`));
    fuels.set(fuel.fuelId, {
      ...store,
      reserveShare: fuel.counted <= NOTHING ? (store.reserveShare ?? 0) : Math.min(1, reserveKg / fuel.counted),
      ...(fuel.fuelId === 'electricity'
        ? { leftKWh: fuel.counted }
        : { containers: [...containersNow(old, fuel), ...elsewhere, ...added] }),
    });
  }
  const lots = new Map((old.resolved.household.water?.lots ?? []).map((lot): [string, WaterLot] => [lot.id, lot]));
  for (const lot of stored.water?.lots ?? [])
    lots.set(lot.id, { ...lots.get(lot.id), ...lot, litres: lots.get(lot.id)?.litres ?? lot.litres });
  for (const { lotId, litres, quality } of state.water.lots)
    lots.set(lotId, { ...(lots.get(lotId) ?? { id: lotId, quality }), litres });
  return { ...stored, fuels: [...fuels.values()], water: { ...stored.water, lots: [...lots.values()] } };
}

function originalId(id: string): string {
  return id.replace(/-\d+$/, '');
}

/** Containers as a household lists them: those that nothing was taken from as they were, the others one by one. */
function containersNow(old: Plan, fuel: FuelNow): FuelContainer[] {
  const listed = (old.resolved.household.fuels ?? [])
    .filter((row) => row.fuelId === fuel.fuelId)
    .flatMap((row) => row.containers ?? []);
  return listed.flatMap((container): FuelContainer[] => {
    const own = fuel.containers.filter((one) => one.containerId === container.id);
    if (own.length === 0) return [];
    if (own.every((one) => one.untouched)) return [container];
    const { level: _level, grossKg: _gross, leftKg: _left, count: _count, ...fixed } = container;
    const whole = own.filter((one) => one.untouched);
    const begun = own.filter((one) => !one.untouched);
    return [
      ...(whole.length === 0 ? [] : [{ ...container, count: whole.length }]),
      ...begun.map((one) => ({
        ...fixed,
        id: own.length === 1 ? container.id : `${container.id}-${one.nth}`,
        leftKg: one.counted,
      })),
    ];
  });
}

/** Lines for a soak that is given up, out of the oldest lots of its kit. */
function lostIn(soak: SoakNow, old: Plan, input: PlanInput, taken: readonly StockEntry[], at: string): StockEntry[] {
  const kit = [...old.resolved.kits, ...input.kits].find((one) => one.id === soak.kitId);
  const kept = kit === undefined ? soak.kitId : stockKitId(kit);
  const places = new Set([old.request.placeId ?? input.household.places[0]?.id, ...(old.request.carryFrom ?? [])]);
  return (kit?.parts ?? []).flatMap((part, index) => {
    let wanted = soak.batches * (part.containersPerSet ?? 1);
    const own = stockLots([...input.stock, ...taken])
      .filter((lot) => lot.kitId === kept && lot.partId === part.id && places.has(lot.placeId) && lot.quantity > 0)
      .sort(inOrderOfUse);
    return own.flatMap(({ kitId, partId, placeId, packedOn, quantity }, nth): StockEntry[] => {
      const lost = Math.min(wanted, quantity);
      if (lost <= NOTHING) return [];
      wanted -= lost;
      const id = `lost-${soak.id}-${index}-${nth}`;
      return [{ id, kitId, partId, placeId, packedOn, quantity: -lost, reason: 'thrown-away', at, note: soak.id }];
    });
  });
}
