/**
 * What was read of boxes and tried of dishes in the course of a plan, as records that the figures of box and lot learn
 * from. What the booking does not say (soak, fill, hours, temperature in) is as the plan had it.
 */
import { answerCooling } from '../../cooking/calculators/answer-cooling.ts';
import { BOX_ENTRY_LOSS_K } from '../../cooking/dishes/cooking-methods.ts';
import { kitFoods } from '../../cooking/dishes/dish.ts';
import type { Kit } from '../../cooking/dishes/kit.ts';
import { contentsVolumeL } from '../../cooking/dishes/vessel-fill.ts';
import type { Food } from '../../cooking/foods/food.ts';
import { indoorCOnDay } from '../../cooking/household/indoor-temperature.ts';
import { type ResolvedHousehold, resolveHousehold } from '../../cooking/household/resolve-household.ts';
import { modelQuestion, thingOfReading } from '../../cooking/measurements/learn-from-cooling.ts';
import type { CoolingMeasurement, FoodTried } from '../../cooking/measurements/measurements.ts';
import { daysBetween, toMinute } from '../local-time.ts';
import type { Cooking, Plan } from '../plan-types.ts';
import { type Booking, standingBookings } from './booking-types.ts';
import { cookingOf } from './state-now.ts';

/** Soaked pulses and grains take up about their own mass of water, L/kg (the uptake that the tables give a full soak). */
const SOAKED_L_PER_KG = 1;

/** When and how a dish stands in a box or flask. */
export interface Standing {
  boxId: string | null;
  vesselId: string;
  from: string;
}

/** Where a dish stands after its boil; null: it is eaten from the fire. */
export function standingOf(cooking: Cooking): Standing | null {
  const { method, keptFor, uses } = cooking;
  if (method.vesselId === null) return null;
  const fromOf = (id: string) => uses.find((use) => use.resource === id)?.from;
  if (keptFor !== undefined) return { boxId: keptFor.boxId, vesselId: method.vesselId, from: keptFor.from };
  if (method.boxId !== null)
    return { boxId: method.boxId, vesselId: method.vesselId, from: fromOf(method.boxId) ?? cooking.doneAt };
  if (method.flaskId !== null)
    return { boxId: null, vesselId: method.flaskId, from: fromOf(method.flaskId) ?? cooking.doneAt };
  return null;
}

/** Foods of a dish that soften by boiling, the slowest first. */
export function softeningFoods(kit: Kit): { partId: string; food: Food; named: { foodId: string; ownFood?: Food } }[] {
  return kitFoods(kit)
    .filter(({ food, ingredient }) => food.kinetics.kind === 'boil' && ingredient.massG > 0 && food.seasoning !== true)
    .map(({ part, ingredient, food }) => ({
      partId: part.id,
      food,
      named: {
        foodId: ingredient.foodId,
        ...(ingredient.ownFood === undefined ? {} : { ownFood: ingredient.ownFood }),
      },
    }))
    .sort((a, b) => minutesOf(b.food) - minutesOf(a.food) || (a.food.id < b.food.id ? -1 : 1));
}

function minutesOf({ kinetics }: Food): number {
  return kinetics.kind === 'boil' ? kinetics.softeningMinutes.value : 0;
}

/**
 * @param bookings of the plan, in any order
 * @returns a record for each reading of a box and each dish that was tried; none where the plan does not know of the dish
 */
export function bookedTests(plan: Plan, bookings: readonly Booking[]): (CoolingMeasurement | FoodTried)[] {
  const { household } = resolveHousehold(plan.resolved.household);
  return standingBookings(bookings).flatMap((booking): (CoolingMeasurement | FoodTried)[] => {
    if (booking.kind !== 'box-read' && booking.kind !== 'food-tried') return [];
    const cooking = cookingOf(plan, booking.of);
    if (cooking === undefined) return [];
    const base = {
      id: `booked-${booking.id}`,
      householdId: plan.request.householdId,
      at: booking.at,
      ...(booking.confirmed === undefined ? {} : { confirmed: booking.confirmed }),
    };
    if (booking.kind === 'box-read') {
      const reading = coolingOf(plan, household, cooking, booking.at);
      return reading === null
        ? []
        : [{ ...base, kind: 'cooling-reading', ...reading, temperatureC: booking.temperatureC }];
    }
    const kit = plan.resolved.kits.find((one) => one.id === cooking.kitId);
    // What was only heated says nothing of minutes at the boil.
    const foods = kit === undefined || cooking.method.heatToC !== undefined ? [] : softeningFoods(kit);
    const tried = foods.find(({ food }) => food.id === booking.foodId) ?? foods[0];
    const take = cooking.takes.find(({ partId }) => partId === tried?.partId);
    if (tried === undefined || take === undefined) return [];
    const { soak, gaugeKPa } = cooking.method;
    const wasSoaked = soak?.partIds.includes(tried.partId) === true;
    return [
      {
        ...base,
        kind: 'food-tried',
        kitId: cooking.kitId,
        partId: tried.partId,
        packedOn: take.packedOn,
        ...tried.named,
        elevationM: placeOf(plan, household).elevationM,
        ...(gaugeKPa === null ? {} : { gaugeKPa }),
        ...(soak === null || !wasSoaked
          ? {}
          : {
              soak: {
                hours: hoursBetween(plan, household, soak.at, cooking.startsAt),
                waterC: indoorAt(plan, household, soak.at),
                ...(soak.additive === 'none' ? {} : { additive: soak.additive }),
                discardWater: soak.discardWater,
              },
            }),
        minutes: booking.minutes,
        soft: booking.soft,
        ...boxedUntil(plan, household, cooking, booking.at),
      },
    ];
  });
}

/** A reading of the box or flask that a dish stands in, all but its temperature; null: it stands in none by then. */
function coolingOf(
  plan: Plan,
  household: ResolvedHousehold,
  cooking: Cooking,
  at: string,
): Omit<CoolingMeasurement, 'id' | 'householdId' | 'at' | 'kind' | 'temperatureC'> | null {
  const standing = standingOf(cooking);
  const { temperatureC } = cooking.method;
  if (standing === null || temperatureC === null || at <= standing.from) return null;
  return {
    vesselId: standing.vesselId,
    ...(standing.boxId === null ? {} : { boxId: standing.boxId }),
    fillL: fillOf(plan, household, cooking, standing.vesselId),
    startC: temperatureC - BOX_ENTRY_LOSS_K,
    airC: indoorAt(plan, household, standing.from),
    hours: hoursBetween(plan, household, standing.from, at),
  };
}

function boxedUntil(
  plan: Plan,
  household: ResolvedHousehold,
  cooking: Cooking,
  at: string,
): { boxed: NonNullable<FoodTried['boxed']> } | Record<never, never> {
  const reading = coolingOf(plan, household, cooking, at);
  if (reading === null) return {};
  const test = { ...reading, kind: 'cooling-reading' as const, id: '', householdId: '', at, temperatureC: 0 };
  const thing = thingOfReading(test, household);
  if (thing === null) return {};
  const { startC, airC = thing.airC, fillL, hours } = reading;
  const tau = answerCooling(modelQuestion(thing, fillL, startC, airC)).timeConstantHours.p50;
  return { boxed: { startC, airC, timeConstantHours: tau, minutes: hours * 60 } };
}

/** Volume of a cooked dish, L, at the most what its vessel holds. */
function fillOf(plan: Plan, household: ResolvedHousehold, cooking: Cooking, vesselId: string): number {
  const kit = plan.resolved.kits.find((one) => one.id === cooking.kitId);
  const soaked = new Set(cooking.method.soak?.partIds ?? []);
  let dryG = 0;
  let soakedG = 0;
  for (const { part, ingredient } of kit === undefined ? [] : kitFoods(kit)) {
    dryG += ingredient.massG * cooking.batches;
    if (soaked.has(part.id)) soakedG += ingredient.massG * cooking.batches;
  }
  const litres = contentsVolumeL(cooking.waterL.inPot + (SOAKED_L_PER_KG * soakedG) / 1000, dryG);
  const capacityL = household.vessels.find(({ id }) => id === vesselId)?.capacityL ?? litres;
  return Math.max(0.1, Math.min(capacityL, Math.round(litres * 10) / 10));
}

function placeOf(plan: Plan, { places }: ResolvedHousehold): ResolvedHousehold['places'][number] {
  const place = places.find(({ id }) => id === plan.request.placeId) ?? places[0];
  if (place === undefined) throw new RangeError('a household without a place');
  return place;
}

/** Rooms cool from the start of the first plan on. */
function indoorAt(plan: Plan, household: ResolvedHousehold, at: string): number {
  const first = plan.continues?.firstStartsAt ?? plan.request.startsAt;
  return indoorCOnDay(placeOf(plan, household), Math.max(0, daysBetween(first, at)));
}

function hoursBetween(plan: Plan, household: ResolvedHousehold, from: string, to: string): number {
  const { timeZone } = placeOf(plan, household);
  return (toMinute(to, timeZone) - toMinute(from, timeZone)) / 60;
}
