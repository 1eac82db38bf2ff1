/**
 * Puts cooking methods on the calendar: for every meal, every kit and every fire that could carry it, what is taken from
 * when to when. Refused and dominated ways are left out, refused ones with their reason.
 */
import type { Calculations } from '../../cooking/calculators/calculations.ts';
import type { PlanRequest } from '../plan-types.ts';
import { SolveCancelledError } from '../solver.ts';
import { potsFor } from './batch-sizes.ts';
import type { WeekCalendar } from './week-calendar-types.ts';
import { layOutDishes } from './week-dishes.ts';
import { layOutFires } from './week-fires.ts';
import { weekHeat } from './week-heat.ts';
import { weekLayout } from './week-layout.ts';
import type { WeekSituation } from './week-situation.ts';
import { layOutWater } from './week-water.ts';

/** What a runtime does between two meals that are laid out. */
export interface Turns {
  /** Lets it answer others. */
  pause?: (() => Promise<void>) | undefined;
  signal?: AbortSignal | undefined;
}

/** Lays out everything that could be done in the week. */
export function weekCalendar(situation: WeekSituation, request: PlanRequest, calculations: Calculations): WeekCalendar {
  const steps = weekCalendarSteps(situation, request, calculations);
  let step = steps.next();
  while (step.done !== true) step = steps.next();
  return step.value;
}

/**
 * The same for a runtime that has others to answer between two meals, or that may be told to stop.
 * @throws SolveCancelledError
 */
export async function weekCalendarInTurns(
  situation: WeekSituation,
  request: PlanRequest,
  calculations: Calculations,
  { pause, signal }: Turns,
): Promise<WeekCalendar> {
  const steps = weekCalendarSteps(situation, request, calculations);
  let step = steps.next();
  while (step.done !== true) {
    await pause?.();
    if (signal?.aborted === true) throw new SolveCancelledError();
    step = steps.next();
  }
  return step.value;
}

/** Meal by meal. */
function* weekCalendarSteps(
  situation: WeekSituation,
  request: PlanRequest,
  calculations: Calculations,
): Generator<void, WeekCalendar> {
  const layout = weekLayout(situation, request, calculations);
  const { pots, refusals } = layout;
  const fires = layOutFires(layout);
  const { lightings, weekLightings } = fires;
  const { options, weekOptions } = yield* layOutDishes(layout, fires);
  const { hotWater, treatments, weekHotWater, weekTreatments, hotWaterDays, nights, nightsToFill } = layOutWater(
    layout,
    fires,
  );
  return {
    week: {
      days: request.days,
      slots: situation.slots.map((slot) => ({
        id: slot.id,
        day: slot.day,
        period: slot.period,
        wantServings: slot.wantServings,
        hotWanted: slot.hot === 'wanted',
        ...(potsFor(slot.wantServings, pots) === 1 ? {} : { mostDishes: potsFor(slot.wantServings, pots) }),
      })),
      lightings: weekLightings,
      options: weekOptions,
      hotWater: weekHotWater,
      hotWaterDays,
      ...(nightsToFill.length === 0 ? {} : { nights: nightsToFill }),
      treatments: weekTreatments,
      sets: Object.fromEntries(situation.kits.map((kitStock) => [kitStock.kit.id, kitStock.sets])),
      setsGoodOn: Object.fromEntries(
        situation.kits
          .filter((kitStock) => kitStock.setsGoodOn.some((sets) => sets !== kitStock.sets))
          .map((kitStock) => [kitStock.kit.id, kitStock.setsGoodOn]),
      ),
      fuelByDay: Object.fromEntries(
        Object.entries(situation.fuels).map(([fuelId, fuel]) => [fuelId, fuel.budgetByDay]),
      ),
      safeWaterByDay: situation.water.safeByDay,
      treatableWaterByDay: situation.water.treatableByDay,
      ...(situation.household.water.treatBy === 'boil' ? { boiledWater: { safeAtStartL: situation.water.safeL } } : {}),
      ...(situation.household.water.snow ? { snow: true } : {}),
      lightingsPerDay: situation.household.lightingsPerDay,
      outdoorMinutesPerDay: situation.household.outdoorMinutesPerDay,
      needKcal: Math.max(
        0,
        situation.days.reduce((sum, day) => sum + day.needKcal, 0) - (situation.continues?.kcalAhead ?? 0),
      ),
      ...(situation.continues === null
        ? {}
        : {
            before: {
              ...situation.continues.before,
              soaks: situation.continues.soaks.map(({ id, kitId, batches }) => ({ id, kitId, sets: batches })),
            },
          }),
      ...(request.tradeOff == null
        ? {}
        : {
            tradeOff: {
              coldMeals: request.tradeOff.coldMeals,
              repeats: request.tradeOff.repeats ?? null,
              energySteps: request.tradeOff.energyShortPercent ?? 0,
              heat: weekHeat({ options, lightings, hotWater, treatments }),
            },
          }),
    },
    options,
    lightings,
    hotWater,
    treatments,
    nights,
    refused: refusals.list(),
  };
}
