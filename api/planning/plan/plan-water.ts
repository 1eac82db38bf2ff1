/** Water of a placed week by day, and the work of heating it and making it safe. */
import { scalePercentiles } from '../../cooking/calculators/calculations.ts';
import { FOOD_SAFETY } from '../../cooking/keeping/safe-until.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import type { FuelAmount, PlanTask, WaterDay } from '../plan-types.ts';
import { round, sum } from '../rounding.ts';
import type { Night } from '../week/night-feeds.ts';
import type { PlacedDish, PlacedWeek } from '../week/place-week.ts';
import type { WeekCalendar } from '../week/week-calendar-types.ts';
import type { WeekSituation } from '../week/week-situation.ts';

/**
 * Hot water and water made safe, in order of time.
 * @param treatedByDay litres to be bleached on each day
 * @param nights those in which somebody is fed
 */
export function tasksOf(
  situation: WeekSituation,
  placed: PlacedWeek,
  treatedByDay: number[],
  nights: readonly Night[],
  local: (minute: number) => string,
  amount: (fuelId: FuelAmount['fuelId'], kg: Percentiles) => FuelAmount,
): PlanTask[] {
  const wanted = situation.household.water.hotWaterPerDay;
  const tasks: PlanTask[] = placed.hotWater.map(({ detail, startMinute, doneMinute }) => ({
    id: `${situation.days[detail.lighting.slot.day]?.date}-${detail.night === null ? 'hot-water' : 'night-flask'}`,
    kind: 'hot-water',
    at: local(startMinute),
    lightingId: detail.lighting.id,
    vesselId: detail.vessel.id,
    litres: round(detail.litres, 2),
    temperatureC: detail.night === null ? wanted.temperatureC : 100,
    minutes: Math.round(detail.minutes.p50),
    fuel: detail.lighting.burnsAnyway ? [] : [amount(detail.lighting.fuelId, detail.fuelKg)],
    uses: [
      { resource: detail.vessel.id, from: local(startMinute), to: local(doneMinute) },
      { resource: detail.lighting.stove.id, from: local(startMinute), to: local(doneMinute) },
      ...(detail.night === null
        ? []
        : [
            {
              resource: detail.night.flask.id,
              from: local(doneMinute),
              to: local(detail.night.feeds.feedMinutes.at(-1) as number),
            },
          ]),
    ],
  }));
  for (const night of nights) {
    const filled = placed.hotWater.find(({ detail }) => detail.night?.feeds === night)?.detail.night;
    const from = night.burning?.id ?? filled?.flask.id;
    if (from === undefined) continue;
    for (const minute of night.feedMinutes)
      tasks.push({
        id: `${local(minute).replace(':', '').replace('T', '-')}-night-feed`,
        kind: 'night-feed',
        at: local(minute),
        lightingId: null,
        vesselId: null,
        litres: round(night.litres / night.feedMinutes.length, 2),
        temperatureC: FOOD_SAFETY.formulaWaterC.value,
        minutes: 10,
        fuel: [],
        uses: [],
        from,
      });
  }
  const potfuls = new Map<string, number>();
  for (const { detail, litres, startMinute, doneMinute } of placed.treatments) {
    if (detail.lighting === null) continue;
    const potful = (potfuls.get(detail.id) ?? 0) + 1;
    potfuls.set(detail.id, potful);
    tasks.push({
      id: `${detail.id.replaceAll('|', '-')}-${potful}`,
      kind: detail.fromSnow ? 'melt-snow' : 'treat-water',
      at: local(startMinute),
      lightingId: detail.lighting.id,
      vesselId: detail.vessel?.id ?? null,
      litres: round(litres, 1),
      temperatureC: 100,
      minutes: Math.round(detail.minutesPerL * litres),
      fuel: detail.lighting.burnsAnyway
        ? []
        : [amount(detail.lighting.fuelId, scalePercentiles(detail.fuelKgPerL, litres))],
      uses: [
        ...(detail.vessel === null
          ? []
          : [{ resource: detail.vessel.id, from: local(startMinute), to: local(doneMinute) }]),
        { resource: detail.lighting.stove.id, from: local(startMinute), to: local(doneMinute) },
      ],
    });
  }
  for (const [day, litres] of treatedByDay.entries()) {
    if (litres < 0.05) continue;
    const today = situation.days[day] as WeekSituation['days'][number];
    tasks.push({
      id: `${today.date}-treat-water`,
      kind: 'treat-water',
      at: local(Math.max(today.wakeMinute + 5, situation.startMinute)),
      lightingId: null,
      vesselId: null,
      litres: Math.ceil(litres * 2) / 2,
      temperatureC: null,
      minutes: 5,
      fuel: [],
      uses: [],
    });
  }
  return tasks.sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
}

/** Litres by day and use, what is left in the evening, and how much must be bleached by then. */
export function waterByDay(
  situation: WeekSituation,
  placed: PlacedWeek,
  calendar: WeekCalendar,
): { days: WaterDay[]; treatedByDay: number[] } {
  const { water } = situation;
  let left = water.safeL + water.treatL + water.notForFoodL;
  const supply = situation.household.water.dailySupply.litres;
  let safeLeft = water.safeL;
  const treatedByDay: number[] = [];
  const waterDayOf = new Map(calendar.week.options.map((option) => [option.id, option.waterDay]));
  const days = situation.days.map((day, index): WaterDay => {
    if (index > 0) left += supply;
    const dishes = placed.dishes;
    const soakL = sum(
      dishes.filter((dish) => optionDay(dish, waterDayOf) === index && dish.detail.soak?.begun === null),
      (dish) => dish.detail.method?.needs.soakSuppliedL ?? 0,
    );
    const cookL = sum(
      dishes.filter((dish) => (dish.detail.lighting?.slot.day ?? dish.detail.slot.day) === index),
      (dish) =>
        (dish.detail.method?.waterL ?? dish.detail.noHeat?.waterL ?? 0) -
        (dish.detail.method?.needs.soakSuppliedL ?? 0),
    );
    const meltedL = sum(
      placed.treatments.filter(({ detail }) => detail.fromSnow && detail.day === index),
      ({ litres }) => litres,
    );
    left += meltedL;
    safeLeft += meltedL;
    const usedL = day.drinkL + day.hygieneL + day.animalsL + cookL + soakL + day.washL;
    left -= usedL;
    safeLeft -= usedL;
    const treated = situation.household.water.treatBy === 'bleach' ? Math.max(0, -safeLeft) : 0;
    treatedByDay.push(Math.min(treated, water.treatL));
    safeLeft += treated;
    const heated = sum(
      placed.hotWater.filter((task) => task.detail.lighting.slot.day === index),
      ({ detail }) => detail.litres,
    );
    return {
      date: day.date,
      drinkL: round(day.drinkL, 1),
      hygieneL: round(day.hygieneL, 1),
      animalsL: round(day.animalsL, 1),
      cookL: round(cookL, 1),
      soakL: round(soakL, 1),
      washL: round(day.washL, 1),
      usedL: round(usedL, 1),
      ofWhichHeatedL: round(heated, 1),
      ...(meltedL > 0 ? { meltedL: round(meltedL, 1) } : {}),
      leftL: round(left, 1),
      replanBelow: waterMarkL(left),
    };
  });
  return { days, treatedByDay };
}

/** What of the water left is expected to be there: a part is spilt, and some litres are misread (common practice). */
export const WATER_MARK = { share: 0.97, litres: 2 } as const;

/**
 * The mark below which a new plan is made.
 * @param leftL water expected to be left in the evening, L, 0 or more
 * @returns whole litres, 0 or more
 */
export function waterMarkL(leftL: number): number {
  return round(Math.max(0, leftL * WATER_MARK.share - WATER_MARK.litres), 0);
}

function optionDay(dish: PlacedDish, dayOf: ReadonlyMap<string, number>): number {
  return dayOf.get(dish.detail.id) ?? dish.detail.slot.day;
}
