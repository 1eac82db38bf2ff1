/** A week laid out for questions: situation, calendar and programme of a number of days, from what a plan rests on. */
import type { Calculations } from '../../cooking/calculators/calculations.ts';
import type { PlanInput } from '../make-plan.ts';
import { type WeekModel, weekModel } from '../programme/week-model.ts';
import { type Turns, weekCalendarInTurns } from './week-calendar.ts';
import type { WeekCalendar } from './week-calendar-types.ts';
import type { WeekInstance } from './week-instance.ts';
import { type WeekSituation, weekSituation } from './week-situation.ts';

export interface PreparedWeek {
  days: number;
  situation: WeekSituation;
  calendar: WeekCalendar;
  week: WeekInstance;
  model: WeekModel;
}

export interface LayingOut extends Turns {
  /**
   * Also ways that the stores rule out: kits of which there are too few sets, fires without fuel. The limits are the true
   * ones all the same, so that what is possible does not change, only what letting go of a limit shows.
   */
  open?: boolean;
}

/** So little fuel that nothing is cooked with it, and yet the fires that it would feed are looked at, kg. */
const TRACE_OF_FUEL = 1e-9;

/**
 * The situation of a number of days, of all that a plan rests on.
 * @param days 1 to 90, in the place of those of the request
 * @throws InvalidInputError when the request contradicts the household
 */
export function situationOf(
  { request, household, kits, stock, measurements, continues }: PlanInput,
  days: number = request.days,
): WeekSituation {
  return weekSituation({ ...request, days }, household, kits, stock, measurements, continues);
}

/**
 * Lays out a week.
 * @param input what a plan would be made from
 * @param days 1 to 90, in the place of those of the request
 * @param calculations one memory for all weeks of a question: most methods come again
 * @throws InvalidInputError when the request contradicts the household; SolveCancelledError
 */
export async function prepareWeek(
  input: PlanInput,
  days: number,
  calculations: Calculations,
  { open = false, ...turns }: LayingOut = {},
): Promise<PreparedWeek> {
  const request = { ...input.request, days };
  const situation = situationOf(input, days);
  const seen = open ? withOpenStores(situation) : situation;
  const calendar = await weekCalendarInTurns(seen, request, calculations, turns);
  const week = open ? withStoresOf(calendar.week, situation) : calendar.week;
  return { days, situation: seen, calendar, week, model: weekModel(week) };
}

/**
 * The same week without a chosen point of the trade-off: how many days can be fed hot is asked with every meal hot that
 * should be, whatever a plan of some days gives up.
 */
export function plainWeek(prepared: PreparedWeek): PreparedWeek {
  const { tradeOff, ...week } = prepared.week;
  return tradeOff === undefined ? prepared : { ...prepared, week, model: weekModel(week) };
}

/**
 * The same week with other amounts in store: what can be cooked how is as before, what there is of it is not. For changes
 * that add fuel, water or sets and nothing else.
 * @param base laid out open, so that ways which its own stores rule out are in it
 * @param input the same household with other amounts
 */
export function withAmountsOf(base: PreparedWeek, input: PlanInput): PreparedWeek {
  const situation = situationOf(input, base.days);
  const { fuels, water } = situation;
  const week: WeekInstance = {
    ...withStoresOf(base.week, situation),
    fuelByDay: Object.fromEntries(
      Object.entries(base.week.fuelByDay).map(([fuelId, before]) => [fuelId, fuels[fuelId]?.budgetByDay ?? before]),
    ),
    safeWaterByDay: water.safeByDay,
    treatableWaterByDay: water.treatableByDay,
    ...(base.week.boiledWater === undefined ? {} : { boiledWater: { safeAtStartL: water.safeL } }),
  };
  return { ...base, situation, week, model: weekModel(week) };
}

/** The true numbers of sets, whatever the week was laid out with. */
function withStoresOf(week: WeekInstance, { kits }: WeekSituation): WeekInstance {
  const dated = kits.filter(({ sets, setsGoodOn }) => setsGoodOn.some((good) => good !== sets));
  return {
    ...week,
    sets: Object.fromEntries(kits.map(({ kit, sets }) => [kit.id, sets])),
    setsGoodOn: Object.fromEntries(dated.map(({ kit, setsGoodOn }) => [kit.id, setsGoodOn])),
  };
}

function withOpenStores(situation: WeekSituation): WeekSituation {
  const most = Math.max(1, ...situation.slots.map((slot) => slot.wantServings));
  const fuels = { ...situation.fuels };
  for (const fuelId of situation.household.stoves.flatMap((stove) => stove.fuelIds)) {
    const known = fuels[fuelId];
    if (known !== undefined && (known.budgetByDay.at(-1) ?? 0) > 0) continue;
    fuels[fuelId] = {
      onHand: known?.onHand ?? 0,
      reserve: known?.reserve ?? 0,
      dailySupply: known?.dailySupply ?? 0,
      moisturePercent: known?.moisturePercent ?? null,
      budgetByDay: situation.days.map(() => TRACE_OF_FUEL),
    };
  }
  return {
    ...situation,
    kits: situation.kits.map((kitStock) => {
      const enough = Math.ceil(most / kitStock.kit.servings);
      return {
        ...kitStock,
        sets: Math.max(kitStock.sets, enough),
        setsGoodOn: kitStock.setsGoodOn.map((good) => Math.max(good, enough)),
      };
    }),
    fuels,
  };
}
