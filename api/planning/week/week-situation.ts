/**
 * What a plan starts from: the resolved household at one place, its meals with who eats, its stock by kit, the fuel and
 * water it may use up to each day. Nothing is chosen here.
 */

import type { DishStorage } from '../../cooking/dishes/dish.ts';
import type { Kit, MealSlot } from '../../cooking/dishes/kit.ts';
import { fuelBudget, fuelOnHandKg } from '../../cooking/household/fuel-on-hand.ts';
import { indoorBands, indoorCOnDay } from '../../cooking/household/indoor-temperature.ts';
import type { AgeGroup, HouseholdDocument } from '../../cooking/household/kitchen.ts';
import { drinkingLPerDay, energyNeedKcal, mealShareOf, proteinNeedG } from '../../cooking/household/people.ts';
import {
  type ResolvedHousehold,
  type ResolvedPlace,
  resolveHousehold,
} from '../../cooking/household/resolve-household.ts';
import {
  type Evidence,
  learnFromMeasurements,
  measuredLotsOf,
  storageOf,
  withLearned,
} from '../../cooking/measurements/learn-from-measurements.ts';
import { type Learned, type LearnedInUse, learnedInUse } from '../../cooking/measurements/learned.ts';
import { InvalidInputError } from '../../physics/errors.ts';
import type { Continuation } from '../bookings/continuation.ts';
import { addDays, daysBetween, toMinute, yearsBetween } from '../local-time.ts';
import type { PlanRequest, StockEntry, StockLot } from '../plan-types.ts';
import { sum } from '../rounding.ts';
import { inOrderOfUse, isGoodOn, stockLots } from '../stock-lots.ts';
import { swappedKits } from './swapped-kits.ts';

/** Days whose rooms differ by no more than this are planned as one kind, K. */
const INDOOR_BAND_K = 8;

export interface Eater {
  label: string;
  ageGroup: AgeGroup;
  sex: 'f' | 'm' | null;
  condition: 'none' | 'pregnant' | 'nursing' | 'ill';
  mealShare: number;
  avoids: string[];
}

export interface SlotSituation {
  id: string;
  mealId: string;
  slot: MealSlot;
  day: number;
  date: string;
  period: number;
  eatMinute: number;
  eaters: Eater[];
  wantServings: number;
  hot: 'wanted' | 'optional' | 'none';
}

export interface KitStock {
  kit: Kit;
  /** Complete sets at the place, not past their date when the plan begins. */
  sets: number;
  /** Of these, still good on each day of the plan, and after its last one. */
  setsGoodOn: number[];
  /** Earlier use-by date first, then the oldest. */
  lots: StockLot[];
  /** Of the oldest lot in use: minutes are worked out for it. */
  storage: DishStorage;
}

export interface DaySituation {
  date: string;
  indoorC: number;
  /** Coldest and warmest of the days that count as one kind with this one, C. */
  coldC: number;
  warmC: number;
  /** Share of the day that the plan covers. */
  share: number;
  people: Eater[];
  drinkL: number;
  hygieneL: number;
  animalsL: number;
  washL: number;
  needKcal: number;
  needProteinG: number;
  wakeMinute: number;
  sleepMinute: number;
  /** When fires outdoors are seen to; null: the household has not said when it is light. */
  daylight: { fromMinute: number; toMinute: number } | null;
}

export interface WeekSituation {
  household: ResolvedHousehold;
  defaults: string[];
  place: ResolvedPlace;
  /** The place of the plan and those it may carry from. */
  placeIds: ReadonlySet<string>;
  startMinute: number;
  days: DaySituation[];
  slots: SlotSituation[];
  kits: KitStock[];
  lots: StockLot[];
  /** Figures that rest on the household's own records. */
  learned: LearnedInUse[];
  /** What the plan goes on from; null: it begins an outage. */
  continues: Continuation | null;
  /** Per fuel id, in kg (kWh for electricity). */
  fuels: Record<
    string,
    { onHand: number; reserve: number; dailySupply: number; moisturePercent: number | null; budgetByDay: number[] }
  >;
  water: {
    safeL: number;
    treatL: number;
    notForFoodL: number;
    /** Coldest lot that food water comes from; null: indoors. */
    waterC: number | null;
    /** Left for cooking after people, animals and washing, up to and including each day. */
    safeByDay: number[];
    treatableByDay: number[];
    /** Litres by which people and animals alone exceed what is there, with the first such day; null: they do not. */
    baseShort: { litres: number; day: number } | null;
  };
}

/**
 * @throws InvalidInputError when the request names a place that the household does not have, or days that do not exist
 */
export function weekSituation(
  request: PlanRequest,
  document: HouseholdDocument,
  kits: Kit[],
  stock: StockEntry[],
  measurements: readonly Evidence[] = [],
  continues: Continuation | null = null,
): WeekSituation {
  const { household: plain, defaults } = resolveHousehold(document);
  const allLots = stockLots(stock);
  const learned = learnFromMeasurements(plain, measurements, allLots);
  const household = withLearned(plain, learned);
  const placeId = request.placeId ?? household.places[0]?.id;
  const place = household.places.find((candidate) => candidate.id === placeId);
  if (place === undefined) throw new InvalidInputError('placeId', placeId, 'name a place of this household');
  const zone = place.timeZone;
  // Daylight that the household stated is a limit; the usual hours would forbid a supper that nobody asked to forbid.
  const daylightSaid = isDaylightStated(defaults, place);
  const startMinute = toMinute(request.startsAt, zone);
  const startDate = request.startsAt.slice(0, 10);
  const guestsOf = (date: string, mealId: string): Eater[] =>
    (request.attendance ?? [])
      .filter(
        (entry) =>
          entry.date === date && (entry.mealId === null || entry.mealId === undefined || entry.mealId === mealId),
      )
      .flatMap((entry) => entry.guests ?? [])
      .map((guest, index) => ({
        label: `guest ${index + 1}`,
        ageGroup: guest.ageGroup,
        sex: null,
        condition: 'none',
        mealShare: mealShareOf(guest),
        avoids: [],
      }));
  const presentAt = (date: string, mealId: string): Eater[] => {
    const named = (request.attendance ?? []).filter(
      (entry) =>
        entry.people !== undefined &&
        entry.date === date &&
        (entry.mealId === null || entry.mealId === undefined || entry.mealId === mealId),
    );
    const last = named.at(-1);
    const own =
      last === undefined ? household.people : household.people.filter((person) => last.people?.includes(person.label));
    return [...own, ...guestsOf(date, mealId)];
  };

  const meals = [...household.meals].sort((a, b) => (a.time < b.time ? -1 : 1));
  // Water that is fetched day by day, or made from snow, is carried: nobody sits still.
  const haulsWater = household.water.dailySupply.litres > 0 || household.water.snow;
  const done = new Set([
    ...(request.done ?? []).map((entry) => entry.meal),
    ...(continues?.underWay ?? []).flatMap((dish) => dish.meals),
  ]);
  const slots: SlotSituation[] = [];
  const days: DaySituation[] = [];
  // Rooms cool from the start of the first plan, and days that it took as alike stay alike.
  const daysGone = continues === null ? 0 : Math.max(0, daysBetween(continues.firstStartsAt, request.startsAt));
  const daysInAll = Math.max(daysGone + request.days, continues?.firstDays ?? 0);
  const allIndoorCs = Array.from({ length: daysInAll }, (_, day) => indoorCOnDay(place, day));
  const indoorCs = allIndoorCs.slice(daysGone);
  const bands = indoorBands(allIndoorCs, INDOOR_BAND_K).slice(daysGone);
  for (let day = 0; day < request.days; day++) {
    const date = addDays(startDate, day);
    const midnight = toMinute(`${date}T00:00`, zone);
    const nextMidnight = toMinute(`${addDays(date, 1)}T00:00`, zone);
    const share = day === 0 ? (nextMidnight - startMinute) / (nextMidnight - midnight) : 1;
    for (const meal of meals) {
      const eatMinute = toMinute(`${date}T${meal.time}`, zone);
      const id = `${date}-${meal.id}`;
      if (eatMinute < startMinute || done.has(id)) continue;
      const eaters = presentAt(date, meal.id);
      const wantServings = Math.round(sum(eaters, (eater) => eater.mealShare) * 100) / 100;
      if (wantServings <= 0) continue;
      slots.push({
        id,
        mealId: meal.id,
        slot: meal.slot,
        day,
        date,
        period: slots.length,
        eatMinute,
        eaters,
        wantServings,
        hot: meal.hot,
      });
    }
    const todays = slots.filter((slot) => slot.day === day);
    const people = mostPeople(todays, presentAt(date, meals[0]?.id ?? ''));
    const indoorC = indoorCs[day] as number;
    days.push({
      date,
      indoorC,
      ...(bands[day] as (typeof bands)[number]),
      share,
      people,
      drinkL: share * sum(people, (person) => drinkingLPerDay(person)),
      hygieneL: share * household.water.hygieneLPerPersonDay * people.length,
      animalsL: share * sum(household.animals, (animal) => animal.waterLPerDay),
      washL: sum(todays, (slot) => slot.eaters.length * household.water.washingUpLPerPersonMeal),
      // Who eats nothing from the pot (infants on milk) needs nothing from the kits.
      needKcal:
        share *
        sum(people.filter(eatsFromThePot), (person) => energyNeedKcal(person, { meanIndoorC: indoorC, haulsWater })),
      needProteinG: share * sum(people.filter(eatsFromThePot), (person) => proteinNeedG(person)),
      wakeMinute: toMinute(`${date}T${household.waking.from}`, zone),
      sleepMinute: toMinute(`${date}T${household.waking.to}`, zone),
      daylight: daylightSaid
        ? {
            fromMinute: toMinute(`${date}T${place.daylight.from}`, zone),
            toMinute: toMinute(`${date}T${place.daylight.to}`, zone),
          }
        : null,
    });
  }

  const lots = allLots.filter((lot) => lot.quantity > 0);
  return {
    household,
    defaults,
    place,
    placeIds: new Set([place.id, ...(request.carryFrom ?? [])]),
    startMinute,
    days,
    slots,
    kits: kitStocks(kits, lots, household, place, request, startDate, learned, continues),
    lots,
    learned: learnedInUse(learned),
    continues,
    fuels: fuelSituation(household, new Set([place.id, ...(request.carryFrom ?? [])]), request.days),
    water: waterSituation(household, place.id, days),
  };
}

/**
 * Whether a household has said when it is light at a place, so that fires outdoors keep to it.
 * @param defaults fields of the household that were filled in
 */
export function isDaylightStated(defaults: readonly string[], place: ResolvedPlace): boolean {
  return !defaults.includes(`places.${place.id}.daylight`) && place.daylight.from < place.daylight.to;
}

function eatsFromThePot(person: Eater): boolean {
  return person.mealShare > 0;
}

function mostPeople(slots: SlotSituation[], otherwise: Eater[]): Eater[] {
  let most = slots[0]?.eaters ?? otherwise;
  for (const slot of slots) if (slot.eaters.length > most.length) most = slot.eaters;
  return most;
}

function kitStocks(
  kits: Kit[],
  lots: StockLot[],
  household: ResolvedHousehold,
  place: ResolvedPlace,
  request: PlanRequest,
  startDate: string,
  learned: Learned,
  continues: Continuation | null,
): KitStock[] {
  const dates = Array.from({ length: request.days + 1 }, (_, day) => addDays(startDate, day));
  const wanted = request.kitIds === null || request.kitIds === undefined ? null : new Set(request.kitIds);
  const places = new Set([place.id, ...(request.carryFrom ?? [])]);
  const goingOn = new Set([...(continues?.soaks ?? []), ...(continues?.underWay ?? [])].map((one) => one.kitId));
  return [...kits]
    .filter((kit) => wanted === null || wanted.has(kit.id))
    .sort((a, b) => (a.id < b.id ? -1 : 1))
    .flatMap((kit) => {
      const usable = lots.filter(
        (lot) =>
          lot.kitId === kit.id && places.has(lot.placeId) && isGoodOn(lot, startDate) && lot.packedOn <= startDate,
      );
      return swappedKits(kit, usable, startDate, goingOn).map(({ kit: cooked, lots: own, counted }): KitStock => {
        // What limits is the part of which there is least.
        const setsOf = (lots: StockLot[]): number => {
          const sets = Math.min(
            ...cooked.parts.map((part) => {
              const quantity = sum(
                lots.filter((lot) => lot.partId === part.id),
                (lot) => lot.quantity,
              );
              return quantity / (part.containersPerSet ?? 1);
            }),
          );
          return cooked.divisible === true ? Math.max(0, sets) : Math.max(0, Math.floor(sets + 1e-9));
        };
        const setsGoodOn = dates.map((date) => setsOf(counted.filter((lot) => isGoodOn(lot, date))));
        const oldest = [...own].sort((a, b) => (a.packedOn < b.packedOn ? -1 : 1));
        const first = oldest[0];
        const storage = {
          // Nothing was worked out beyond 60 years, and hardening stops growing long before.
          years: first === undefined ? 0 : Math.min(60, yearsBetween(first.packedOn, startDate)),
          temperatureC:
            first?.storageC ?? (household.places.find((one) => one.id === first?.placeId) ?? place).storageC,
          // 10 %: dry pulses as sold and packed (usual moisture of stored beans).
          moisturePercent: first?.moisturePercent ?? 10,
        };
        return {
          kit: cooked,
          sets: setsGoodOn[0] ?? 0,
          setsGoodOn,
          lots: [...oldest].sort(inOrderOfUse),
          storage: {
            ...storage,
            ...measuredLotsOf(learned, oldest, storage, (lot) => storageOf(lot, lots, household, startDate)),
          },
        };
      });
    });
}

function fuelSituation(household: ResolvedHousehold, places: Set<string>, days: number): WeekSituation['fuels'] {
  const fuels: WeekSituation['fuels'] = {};
  for (const store of household.fuels) {
    const counted = fuelOnHandKg({
      ...store,
      containers: store.containers.filter((container) => places.has(container.placeId)),
    });
    const electric = store.fuelId === 'electricity';
    const onHand = electric ? counted.kWh : counted.kg;
    const dailySupply = electric ? store.dailySupplyKWh : store.dailySupplyKg;
    const { reserve, budget } = fuelBudget(onHand, store.reserveShare);
    fuels[store.fuelId] = {
      onHand,
      reserve,
      dailySupply,
      moisturePercent: store.moisturePercent,
      // The supply of a day can be burnt from the next day on.
      budgetByDay: Array.from({ length: days }, (_, day) => budget + dailySupply * day),
    };
  }
  return fuels;
}

function waterSituation(household: ResolvedHousehold, placeId: string, days: DaySituation[]): WeekSituation['water'] {
  const lots = household.water.lots.filter((lot) => lot.placeId === placeId);
  const litresOf = (quality: string) =>
    sum(
      lots.filter((lot) => lot.quality === quality),
      (lot) => lot.litres,
    );
  const safeL = litresOf('safe');
  const treatL = litresOf('treat');
  const notForFoodL = litresOf('not-for-food');
  const supply = household.water.dailySupply;
  const temperatures = lots
    .filter((lot) => lot.quality !== 'not-for-food' && lot.litres > 0)
    .map((lot) => lot.temperatureC ?? null)
    .filter((temperature) => temperature !== null);
  let safe = safeL;
  let treatable = treatL;
  let other = notForFoodL;
  let baseShort: { litres: number; day: number } | null = null;
  const safeByDay: number[] = [];
  const treatableByDay: number[] = [];
  for (const [day, need] of days.entries()) {
    if (day > 0) {
      if (supply.quality === 'safe') safe += supply.litres;
      else if (supply.quality === 'treat') treatable += supply.litres;
      else other += supply.litres;
    }
    // Hygiene may use water that is not for food; drinking, animals and washing-up may not.
    const fromOther = Math.min(other, need.hygieneL);
    other -= fromOther;
    safe -= need.drinkL + need.animalsL + need.washL + need.hygieneL - fromOther;
    if (safe + treatable < -1e-6 && baseShort === null) baseShort = { litres: 0, day };
    safeByDay.push(safe);
    treatableByDay.push(treatable);
  }
  // Where there is snow, what people need beyond the stores is melted on the fires: the programme sees the whole need.
  if (household.water.snow) baseShort = null;
  // What is drunk today was made safe from the treatable lots where the safe ones do not reach; cooking comes after.
  const left = safe + treatable;
  if (baseShort !== null) baseShort = { ...baseShort, litres: Math.max(0, -left) };
  // People, animals and hygiene come first: where they alone take everything, nothing is left for cooking. Rows of the
  // programme are cumulative, so what is drunk tomorrow is kept from today's pots.
  for (const [day, safeSoFar] of household.water.snow ? [] : safeByDay.entries()) {
    safeByDay[day] = Math.max(safeSoFar, -(treatableByDay[day] as number));
  }
  return {
    safeL,
    treatL,
    notForFoodL,
    waterC: temperatures.length === 0 ? null : Math.min(...temperatures),
    safeByDay,
    treatableByDay,
    baseShort,
  };
}
