/** Fuel of a placed week: what is used and left by day, with its spread, and what the plan is limited by. */
import { scalePercentiles } from '../../cooking/calculators/calculations.ts';
import { effectsOfThings, plainCause } from '../../cooking/calculators/causes-of-spread.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import {
  type CauseEffect,
  percentilesOf,
  type SummandSpread,
  spreadShares,
  sumOfSpreads,
} from '../../physics/spread.ts';
import type { FuelId } from '../../physics/table-ids.ts';
import type { FuelBalance, PlanDraft } from '../plan-types.ts';
import { round, sum } from '../rounding.ts';
import { containersInOrder } from '../week/fuel-containers.ts';
import type { PlacedWeek } from '../week/place-week.ts';
import type { LightingDetail } from '../week/week-calendar-types.ts';
import type { WeekSituation } from '../week/week-situation.ts';

/** One thing of the week that burns fuel: a dish, hot water, a potful made safe, or the start of a fire. */
interface Burning {
  day: number;
  fuelId: FuelId;
  kg: Percentiles;
  mj: Percentiles;
  /** What each cause does to the mass of fuel; causes carry the thing they belong to, see `causes-of-spread.ts`. */
  effects: CauseEffect[];
}

function burningsOf(placed: PlacedWeek): Burning[] {
  const burning = (
    day: number,
    lighting: LightingDetail,
    kg: Percentiles,
    mj: Percentiles,
    effects: readonly CauseEffect[],
    things: { vesselId: string; boxId: string | null; lotId: string; dishId: string },
  ): Burning => ({
    day,
    fuelId: lighting.fuelId,
    kg,
    mj,
    effects: effectsOfThings(effects, { stoveId: lighting.stove.id, fuelId: lighting.fuelId, ...things }),
  });
  const dishes = placed.dishes.flatMap(({ detail }) => {
    const { method, lighting } = detail;
    if (method === null || lighting === null) return [];
    const { vessel, box, flask } = method.choice;
    return burning(lighting.slot.day, lighting, method.fuelKg, method.fuelMJ, method.fuelEffects, {
      vesselId: vessel.id,
      boxId: box?.id ?? flask?.id ?? null,
      lotId: detail.kit.kit.id,
      dishId: detail.id,
    });
  });
  const hotWater = placed.hotWater.map(({ detail }) =>
    burning(detail.lighting.slot.day, detail.lighting, detail.fuelKg, detail.fuelMJ, detail.fuelEffects, {
      vesselId: detail.vessel.id,
      boxId: null,
      lotId: detail.id,
      dishId: detail.id,
    }),
  );
  const treatments = placed.treatments.flatMap(({ detail, litres, startMinute }) => {
    if (detail.lighting === null || detail.vessel === null) return [];
    const kg = scalePercentiles(detail.fuelKgPerL, litres);
    const mj = scalePercentiles(detail.fuelMJPerL, litres);
    return burning(detail.day, detail.lighting, kg, mj, detail.fuelEffects, {
      vesselId: detail.vessel.id,
      boxId: null,
      lotId: detail.id,
      dishId: `${detail.id} ${startMinute}`,
    });
  });
  const startUps = placed.lightings.map(({ detail }) =>
    burning(detail.slot.day, detail, detail.startUpKg, detail.startUpMJ, detail.startUpEffects, {
      vesselId: detail.id,
      boxId: null,
      lotId: detail.id,
      dishId: detail.id,
    }),
  );
  return [...dishes, ...hotWater, ...treatments, ...startUps];
}

/** Each fuel by day, kg (kWh for electricity): used, left with its band, and the mark below which to plan anew. */
export function fuelBalances(situation: WeekSituation, placed: PlacedWeek): FuelBalance[] {
  const burnings = burningsOf(placed);
  return Object.entries(situation.fuels).map(([fuelId, fuel]) => {
    const items = burnings.filter((item) => item.fuelId === fuelId);
    const onHandOn = (day: number) => fuel.onHand + fuel.dailySupply * day;
    const byDay = situation.days.map((day, index) => {
      const used = bandOf(items.filter((item) => item.day <= index));
      const today = bandOf(items.filter((item) => item.day === index));
      const onHand = onHandOn(index);
      const left = { p10: onHand - used.p90, p50: onHand - used.p50, p90: onHand - used.p10 };
      return {
        date: day.date,
        usedKg: today,
        leftKg: left,
        expectedReading: left,
        replanBelow: round(Math.max(0, onHand - used.p90), 3),
      };
    });
    const week = sumOfSpreads(items.map(inKg));
    return {
      fuelId: fuelId as FuelBalance['fuelId'],
      onHandKg: round(fuel.onHand, 4),
      reserveKg: round(fuel.reserve, 4),
      budgetKg: round(fuel.budgetByDay.at(-1) ?? 0, 4),
      ...containersOf(
        situation,
        fuelId,
        byDay.map((day) => day.usedKg.p50),
      ),
      usedKg: percentilesOf(week.value, week.effects),
      spread: sharesByPlainCause(week.effects),
      byDay,
    };
  });
}

function containersOf(
  { household, days, placeIds }: WeekSituation,
  fuelId: string,
  usedByDay: number[],
): Pick<FuelBalance, 'containers'> {
  const store = household.fuels.find((candidate) => candidate.fuelId === fuelId);
  if (store === undefined) return {};
  const here = { ...store, containers: store.containers.filter((container) => placeIds.has(container.placeId)) };
  const containers = containersInOrder(
    here,
    usedByDay,
    days.map((day) => day.date),
  );
  return containers.length === 0 ? {} : { containers };
}

function inKg(item: Burning): SummandSpread {
  return { value: item.kg.p50, effects: item.effects };
}

/**
 * The shown band of a sum: what the dishes share (stove, fuel, wind) moves all of them together, what differs from dish
 * to dish averages out. It is narrower than the sum of the 90th percentiles, by which the plan is limited.
 */
function bandOf(items: readonly Burning[]): Percentiles {
  const { value, effects } = sumOfSpreads(items.map(inKg));
  return percentilesOf(value, effects);
}

function sharesByPlainCause(effects: readonly CauseEffect[]): PlanDraft['spread'] {
  return spreadShares(effects.map((effect) => ({ ...effect, cause: plainCause(effect.cause) })));
}

/** What the plan is limited by: the sum of the 90th percentiles (errors shared, the careful reading). */
export function plannedFuel(fuelId: string, placed: PlacedWeek): number {
  return sum(
    burningsOf(placed).filter((item) => item.fuelId === fuelId),
    (item) => item.kg.p90,
  );
}

/** Where the spread of the whole week's heat comes from, all fuels together by their energy, largest first. */
export function spreadOf(placed: PlacedWeek): PlanDraft['spread'] {
  const { effects } = sumOfSpreads(burningsOf(placed).map((item) => ({ value: item.mj.p50, effects: item.effects })));
  return sharesByPlainCause(effects);
}
