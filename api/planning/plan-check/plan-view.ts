/** A plan as the checker reads it: clock times as minutes, things by id. Nothing here comes from the planner's model. */
import { Temporal } from 'temporal-polyfill';
import type { Kit } from '../../cooking/dishes/kit.ts';
import { fuelOnHandKg } from '../../cooking/household/fuel-on-hand.ts';
import { indoorCOnDay } from '../../cooking/household/indoor-temperature.ts';
import type { ClockSpan } from '../../cooking/household/kitchen.ts';
import {
  type ResolvedHousehold,
  type ResolvedPlace,
  resolveHousehold,
} from '../../cooking/household/resolve-household.ts';
import type { LearnedInUse } from '../../cooking/measurements/learned.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import type { Cooking, FuelAmount, PlanDraft } from '../plan-types.ts';

/** One broken rule: which, where in the plan, and the figures. */
export interface PlanFault {
  rule: string;
  at: string;
  detail: string;
}

export type Report = (rule: string, at: string, detail: string) => void;

export interface PlanView {
  plan: PlanDraft;
  household: ResolvedHousehold;
  place: ResolvedPlace;
  /** The place of the plan and those it may carry from. */
  placeIds: Set<string>;
  kits: Map<string, Kit>;
  /** Dates of the plan in order. */
  dates: string[];
  startsAtMinute: number;
  /** Wall-clock time at the place as minutes of elapsed time. */
  minute(at: string): number;
  /** Day of the plan on which a wall-clock time lies; 0 is the first, negative before it. */
  dayOf(at: string): number;
  /** Indoor temperature of the day of a wall-clock time, C. */
  indoorC(at: string): number;
  /** When it is light, where the household said so; fires outdoors keep to it. */
  daylight: ClockSpan | null;
  /** kg on hand (kWh for electricity) of a fuel at the places of the plan. */
  onHand(fuelId: string): { amount: number; reserve: number; supplyPerDay: number };
}

/** A minute of rounding in printed times is no fault. */
export const CLOCK_ROOM_MINUTES = 1.01;

/**
 * Opens a plan for checking.
 * @throws InvalidInputError when the household of the plan does not resolve; RangeError when a time is no date-time
 */
export function viewPlan(plan: PlanDraft): PlanView {
  const { household: stated, defaults } = resolveHousehold(plan.resolved.household);
  const household = withKeptReadings(stated, plan.resolved.learned ?? []);
  const place = household.places.find((candidate) => candidate.id === plan.request.placeId) ?? household.places[0];
  if (place === undefined) throw new RangeError('a plan without a place');
  const placeIds = new Set([place.id, ...(plan.request.carryFrom ?? [])]);
  const known = new Map<string, number>();
  const minute = (at: string) => {
    let value = known.get(at);
    if (value === undefined) {
      value = Temporal.PlainDateTime.from(at).toZonedDateTime(place.timeZone).epochMilliseconds / 60_000;
      known.set(at, value);
    }
    return value;
  };
  const firstDate = Temporal.PlainDate.from(plan.request.startsAt.slice(0, 10));
  const dayOf = (at: string) => firstDate.until(Temporal.PlainDate.from(at.slice(0, 10)), { largestUnit: 'days' }).days;
  const daysGone = plan.continues === undefined ? 0 : -dayOf(plan.continues.firstStartsAt);
  return {
    plan,
    household,
    place,
    placeIds,
    kits: new Map(plan.resolved.kits.map((kit) => [kit.id, kit])),
    dates: Array.from({ length: plan.request.days }, (_, day) => firstDate.add({ days: day }).toString()),
    startsAtMinute: minute(plan.request.startsAt),
    minute,
    dayOf,
    daylight:
      [...plan.resolved.defaults, ...defaults].includes(`places.${place.id}.daylight`) ||
      place.daylight.from >= place.daylight.to
        ? null
        : place.daylight,
    // A house cools from the start of the first plan.
    indoorC: (at) => indoorCOnDay(place, Math.max(0, dayOf(at) + daysGone)),
    onHand(fuelId) {
      let amount = 0;
      let reserve = 0;
      let supplyPerDay = 0;
      for (const store of household.fuels.filter((candidate) => candidate.fuelId === fuelId)) {
        const here = { ...store, containers: store.containers.filter((container) => placeIds.has(container.placeId)) };
        const found = fuelOnHandKg(here);
        const ownAmount = fuelId === 'electricity' ? found.kWh : found.kg;
        amount += ownAmount;
        reserve += ownAmount * store.reserveShare;
        supplyPerDay += fuelId === 'electricity' ? store.dailySupplyKWh : store.dailySupplyKg;
      }
      return { amount, reserve, supplyPerDay };
    },
  };
}

/** Boxes and flasks with the time constants that the plan says its household has read. */
function withKeptReadings(household: ResolvedHousehold, learned: readonly LearnedInUse[]): ResolvedHousehold {
  const measuredOf = (id: string): { measured?: Percentiles } => {
    const found = learned.find(({ of, quantity }) => of === id && quantity === 'timeConstantHours')?.figure;
    if (found === undefined) return {};
    const { now, table } = found;
    return { measured: { p10: now.p10 / table.p50, p50: now.p50 / table.p50, p90: now.p90 / table.p50 } };
  };
  return {
    ...household,
    vessels: household.vessels.map((vessel) => ({ ...vessel, ...measuredOf(vessel.id) })),
    boxes: household.boxes.map((box) => ({ ...box, ...measuredOf(box.id) })),
  };
}

/** What a fuel entry takes, in the unit in which the fuel is counted (kWh for electricity, else kg). */
export function amountOf(fuel: FuelAmount): { p50: number; p90: number } {
  return fuel.fuelId === 'electricity' ? (fuel.kWh ?? fuel.kg) : fuel.kg;
}

/** Whether a wall-clock time lies in a span of the day; a span may pass midnight. */
export function isInSpan(at: string, span: ClockSpan): boolean {
  const time = at.slice(11, 16);
  return span.from <= span.to ? time >= span.from && time <= span.to : time >= span.from || time <= span.to;
}

/** Minutes for which the pot is on the flame, typical. */
export function flameMinutes(cooking: Cooking): number {
  return (cooking.method.minutesToBoil?.p50 ?? 0) + (cooking.method.boilMinutes?.p50 ?? 0);
}

/** Whether this cooking goes on with something that was under way when the plan began. */
export function isInProgress(view: PlanView, cooking: Cooking): boolean {
  if (cooking.method.soak?.begun === true) return true;
  return (view.plan.request.inProgress ?? []).some(
    (entry) =>
      entry.kitId === cooking.kitId &&
      [cooking.method.vesselId, cooking.method.soak?.vesselId, cooking.method.flaskId].includes(entry.vesselId),
  );
}
