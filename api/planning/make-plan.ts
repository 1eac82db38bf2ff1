/** The plan for a household's week: from what is stored to what is cooked when, with its proof. */

import { type Calculations, createCalculations, NOTHING, scalePercentiles } from '../cooking/calculations.ts';
import { comparisonFuelMJ, HOT_HOLDING_C } from '../cooking/cooking-methods.ts';
import { hoursAbove60C } from '../cooking/hot-holding.ts';
import type { Kit } from '../cooking/kit.ts';
import { kitNutrition } from '../cooking/kit-nutrition.ts';
import type { HouseholdDocument } from '../cooking/kitchen.ts';
import { householdDocumentOf } from '../cooking/resolve-household.ts';
import { safeUntilAfterHeat } from '../cooking/safe-until.ts';
import { boilingPointAtElevationC } from '../physics/boiling-point.ts';
import type { Percentiles } from '../physics/parameter.ts';
import { toLocal } from './local-time.ts';
import { type PlacedDish, type PlacedWeek, placeWeek } from './place-week.ts';
import type {
  AimName,
  Cooking,
  FuelAmount,
  FuelBalance,
  Lighting,
  Limit,
  PlanDraft,
  PlannedMeal,
  PlanRequest,
  PlanTask,
  Shortage,
  StockEntry,
  WaterDay,
} from './plan-types.ts';
import { savingsOf } from './savings.ts';
import { findShortages } from './shortage.ts';
import type { Aim, AimOutcome, SolveProgress, Solver } from './solver.ts';
import type { WeekChoice } from './week-instance.ts';
import { repeatWeightOf, weekModel } from './week-model.ts';
import { type WeekCalendar, weekCalendar } from './week-options.ts';
import { type WeekSituation, weekSituation } from './week-situation.ts';

export interface PlanInput {
  request: PlanRequest;
  household: HouseholdDocument;
  kits: Kit[];
  stock: StockEntry[];
}

export interface PlanPorts {
  solver: Solver;
  /** Milliseconds since 1970-01-01T00:00Z. */
  now: number;
  id: string;
  programVersion: string;
  signal?: AbortSignal;
  onProgress?: (progress: SolveProgress) => void;
}

/** The solver was stopped by whoever asked. */
export class PlanCancelledError extends Error {
  constructor() {
    super('planning was cancelled');
    this.name = 'PlanCancelledError';
  }
}

const TABLES_VERSION = '1';
const DEFAULT_TIME_LIMIT_S = 20;

/**
 * Plans the week.
 *
 * Always answers with a plan, as complete as the stocks allow; what cannot be is in `short`. The schedule's words are
 * made by `wording/schedule.ts`.
 * @throws InvalidInputError when the request contradicts the household; PlanCancelledError; SolverBusyError
 */
export async function makePlan(input: PlanInput, ports: PlanPorts): Promise<PlanDraft> {
  const { request } = input;
  const calculations = createCalculations();
  const situation = weekSituation(request, input.household, input.kits, input.stock);
  const calendar = weekCalendar(situation, request, calculations);
  const timeLimitS = request.timeLimitS ?? DEFAULT_TIME_LIMIT_S;
  const solveOptions = {
    timeLimitS,
    ...(ports.signal === undefined ? {} : { signal: ports.signal }),
    ...(ports.onProgress === undefined ? {} : { onProgress: ports.onProgress }),
  };

  // First in the hope that nothing need be missed; else aim by aim; else missing things as late as possible.
  let model = weekModel(calendar.week, { optimistic: true });
  let outcome = await ports.solver.solve(model.programme, model.aims, solveOptions);
  if (outcome.status === 'solved' && missedServings(outcome.aims) > 0.02) {
    model = weekModel(calendar.week, { shortageLate: true });
    outcome = await ports.solver.solve(model.programme, model.aims, {
      ...solveOptions,
      timeLimitS: Math.max(timeLimitS / 2, timeLimitS - secondsOf(outcome.aims)),
    });
  }
  if (outcome.status === 'cancelled') throw new PlanCancelledError();
  if (outcome.status === 'infeasible')
    throw new Error('the week model is infeasible, which its slack columns rule out');
  const solved = outcome.status === 'solved' ? outcome : null;
  const choice: WeekChoice =
    solved === null ? { options: [], hotWater: [], lightings: [], treatedL: {} } : model.read(solved.values);
  const placed = placeWeek(choice, calendar);

  const parts = assemble(situation, calendar, placed, calculations);
  const short: Shortage[] = [];
  let waysOut: string[] = [];
  if (situation.water.baseShort !== null) {
    const { litres, day } = situation.water.baseShort;
    const amount = Math.ceil(litres * 10) / 10;
    short.push({
      what: 'water',
      id: null,
      from: situation.days[day]?.date ?? request.startsAt.slice(0, 10),
      amount,
      unit: 'L',
      text: `${amount} L water short for drinking, hygiene, animals and washing-up alone`,
    });
    waysOut.push(`${amount} L more water`);
  }
  const unsafeL = Math.ceil(sum(choice.unsafeLByDay ?? [], (litres) => litres) * 10 - 0.2) / 10;
  if (situation.water.baseShort === null && unsafeL > 0) {
    const day = (choice.unsafeLByDay ?? []).findIndex((litres) => litres > 0.02);
    short.push({
      what: 'water',
      id: null,
      from: situation.days[day]?.date ?? request.startsAt.slice(0, 10),
      amount: unsafeL,
      unit: 'L',
      text: `${unsafeL} L of the water for drinking and washing cannot be boiled safe on the fires of these days`,
    });
    waysOut.push(`${unsafeL} L more safe water, bleach to treat it with, or more fires, fuel and time to boil it`);
  }
  const missedMeals = parts.meals.filter(
    (meal) => meal.servingsShort > 0.02 || (meal.hotWanted && !meal.dishes.some((dish) => dish.hot)),
  );
  const hotWaterMissing = calendar.week.hotWaterDays.filter(
    (day) => !choice.hotWater.some((id) => calendar.hotWater.get(id)?.lighting.slot.day === day),
  );
  if (missedMeals.length > 0 || hotWaterMissing.length > 0) {
    const dates = [
      ...missedMeals.map((meal) => meal.id.slice(0, 10)),
      ...hotWaterMissing.map((day) => situation.days[day]?.date ?? ''),
    ].sort();
    const finding = await findShortages(
      calendar.week,
      dates[0] ?? request.startsAt.slice(0, 10),
      {
        servings: parts.meals.reduce((sum, meal) => sum + meal.servingsShort, 0),
        hotServings: missedMeals
          .filter((meal) => meal.servingsShort <= 0.02)
          .reduce((sum, meal) => sum + meal.servingsWanted, 0),
      },
      ports.solver,
      { timeLimitS: Math.max(2, timeLimitS / 2), ...(ports.signal === undefined ? {} : { signal: ports.signal }) },
    );
    short.push(...finding.short);
    waysOut = [...waysOut, ...finding.waysOut];
    if (finding.nothingLacks && hotWaterMissing.length > 0) {
      short.push({
        what: 'time',
        id: null,
        from: situation.days[hotWaterMissing[0] ?? 0]?.date ?? request.startsAt.slice(0, 10),
        amount: 0,
        unit: 'min',
        text: 'the fires of the day are taken by dishes with more food energy, and none is left for the hot water',
      });
      waysOut.push('One more fire a day, or dishes that take less of it');
    }
    if (finding.nothingLacks) {
      parts.cautions.push(
        'Some meals that should be hot are cold, because a cold dish gives more of the food energy that is needed. Pin a hot dish to a meal to have it hot.',
      );
    }
  }

  const outcomes = solved?.aims ?? (outcome.status === 'no-solution-in-time' ? outcome.aims : []);
  const aims = separateAims(outcomes, model.aims, repeatWeightOf(calendar.week));
  const closed = solved?.closed === true && outcomes.length === model.aims.length;
  return {
    format: 1,
    id: ports.id,
    createdAt: new Date(ports.now).toISOString(),
    request,
    resolved: {
      household: householdDocumentOf(situation.household),
      kits: situation.kits.map((kitStock) => kitStock.kit),
      stock: situation.lots,
      defaults: situation.defaults,
    },
    versions: { program: ports.programVersion, tables: TABLES_VERSION, solver: ports.solver.version },
    outcome: short.length === 0 ? 'complete' : 'short',
    proof: {
      status: closed ? 'optimal' : solved === null ? 'time-limit' : 'within-gap',
      aims,
      note: closed
        ? 'No better plan exists among the ways that the program considered, one dish a meal, within the printed tolerances.'
        : `Stopped after ${timeLimitS} s; the bounds say how much better a plan could be.`,
    },
    ...parts,
    short,
    conflict: null,
    waysOut: [...new Set(waysOut)],
    withoutSupply: null,
    refused: calendar.refused,
  };
}

const AIM_UNITS: Record<AimName, string> = {
  'safe-water': 'L',
  'feed-everyone': 'servings',
  'shortage-late': 'servings x days',
  energy: '% of need',
  'hot-meals': 'servings',
  'scarcest-largest-share': 'share',
  'scarcest-sum-of-shares': 'sum of shares',
  variety: 'repeats',
  tending: 'min',
};

const SERVICE_AIMS: AimName[] = ['feed-everyone', 'energy', 'hot-meals'];
/** What must be nothing for a week to be complete. */
const MISSED_AIMS: AimName[] = ['safe-water', ...SERVICE_AIMS];

function missedServings(aims: AimOutcome[]): number {
  return sum(
    aims.filter((aim) => aim.name === 'service' || MISSED_AIMS.includes(aim.name as AimName)),
    (aim) => aim.value,
  );
}

function secondsOf(aims: AimOutcome[]): number {
  return sum(aims, (aim) => aim.seconds);
}

/** The aims as people know them: those that one solve took together are told apart again. */
function separateAims(outcomes: AimOutcome[], stated: Aim[], repeatWeight: number): PlanDraft['proof']['aims'] {
  const toleranceOf = (name: string, value: number) => {
    const own = stated.find((candidate) => candidate.name === name);
    return Math.max(own?.absoluteGap ?? 0, (own?.relativeGap ?? 0) * Math.abs(value));
  };
  const row = (aim: AimName, value: number, bound: number, tolerance: number) => ({
    aim,
    value: round(value, 6),
    bound: round(bound, 6),
    tolerance: round(tolerance, 6),
    unit: AIM_UNITS[aim],
  });
  return outcomes.flatMap((outcome) => {
    const tolerance = toleranceOf(outcome.name, outcome.value);
    if (outcome.name === 'service') {
      return SERVICE_AIMS.map((name) => row(name, outcome.value, outcome.bound, tolerance));
    }
    if (outcome.name === 'variety-then-tending') {
      const repeats = Math.floor(outcome.value / repeatWeight + 1e-9);
      return [
        row('variety', repeats, Math.floor(outcome.bound / repeatWeight + 1e-9), 0.5),
        row(
          'tending',
          outcome.value - repeats * repeatWeight,
          Math.max(0, outcome.bound - repeats * repeatWeight),
          tolerance,
        ),
      ];
    }
    return [row(outcome.name as AimName, outcome.value, outcome.bound, tolerance)];
  });
}

type Parts = Pick<
  PlanDraft,
  | 'lightings'
  | 'cookings'
  | 'meals'
  | 'tasks'
  | 'fuel'
  | 'water'
  | 'limits'
  | 'energyByDay'
  | 'spread'
  | 'comparison'
  | 'assumptions'
  | 'cautions'
>;

function assemble(
  situation: WeekSituation,
  calendar: WeekCalendar,
  placed: PlacedWeek,
  calculations: Calculations,
): Parts {
  const zone = situation.place.timeZone;
  const local = (minute: number) => toLocal(minute, zone);
  const amount = (fuelId: FuelAmount['fuelId'], kg: Percentiles): FuelAmount =>
    fuelId === 'electricity' ? { fuelId, kg: NOTHING, kWh: kg } : { fuelId, kg };

  const lightings: Lighting[] = placed.lightings.map(({ detail, startMinute, endMinute }) => ({
    id: detail.id,
    stoveId: detail.stove.id,
    fuelId: detail.fuelId,
    at: local(startMinute),
    until: local(endMinute),
    outdoors: detail.stove.site === 'outdoors',
    startUpFuel: { fuelId: detail.fuelId, kg: detail.startUpKg.p90 },
  }));

  const stockLeft = situation.lots.map((lot) => ({ ...lot }));
  const comparison = { planMJ: 0, carefulCookMJ: 0, usualMJ: 0, floorMJ: 0 };
  const cookings = placed.dishes.map((dish): Cooking => {
    const { detail } = dish;
    const { method, noHeat, lighting, slot } = detail;
    const kit = detail.kit.kit;
    const takes = kit.parts.flatMap((part) => {
      let wanted = detail.sets * (part.containersPerSet ?? 1);
      return detail.kit.lots
        .filter((lot) => lot.partId === part.id)
        .flatMap((lot) => {
          const left = stockLeft.find(
            (row) =>
              row.kitId === lot.kitId &&
              row.partId === lot.partId &&
              row.placeId === lot.placeId &&
              row.packedOn === lot.packedOn,
          );
          const quantity = left === undefined ? 0 : Math.min(wanted, left.quantity);
          if (left === undefined || quantity <= 1e-9) return [];
          left.quantity -= quantity;
          wanted -= quantity;
          return [{ partId: part.id, placeId: lot.placeId, packedOn: lot.packedOn, quantity: round(quantity, 4) }];
        });
    });
    const compared =
      method === null
        ? null
        : comparisonFuelMJ(
            kit,
            detail.servingsCooked,
            method.choice,
            detail.surroundings,
            detail.kit.storage,
            calculations,
          );
    const startUpMJ = lighting?.startUpMJ.p50 ?? 0;
    if (method !== null) {
      comparison.planMJ += method.fuelMJ.p50;
      comparison.floorMJ += method.floorMJ;
      comparison.usualMJ += (compared?.usualMJ ?? method.fuelMJ.p50) + startUpMJ;
      comparison.carefulCookMJ += (compared?.carefulMJ ?? method.fuelMJ.p50) + startUpMJ;
    }
    return {
      id: `${slot.id}-${kit.id}`,
      kitId: kit.id,
      kitName: kit.name,
      batches: round(detail.sets, 4),
      servings: detail.servingsCooked,
      takes,
      method: {
        soak:
          detail.soak === null || method === null
            ? null
            : {
                start: 'cool',
                at: local(detail.soak.startMinute),
                hours: round((dish.startMinute - detail.soak.startMinute) / 60, 1),
                vesselId: detail.soak.bowl.id,
                additive: detail.soak.dish.additive,
                discardWater: true,
                waterL: round(method.needs.soakSuppliedL, 2),
                partIds: method.needs.soakedPartIds,
              },
        vesselId: method?.choice.vessel.id ?? null,
        stoveId: lighting?.stove.id ?? null,
        lightingId: lighting?.id ?? null,
        finish: method?.choice.finish ?? 'no-heat',
        boxId: method?.choice.box?.id ?? null,
        flaskId: method?.choice.flask?.id ?? null,
        gaugeKPa: method?.choice.vessel.kind === 'pressure-cooker' ? method.choice.vessel.gaugeKPa : null,
        minutesToBoil: method?.minutesToBoil ?? null,
        boilMinutes: method?.holdMinutes ?? null,
        releaseMinutes: method === null ? (noHeat?.standMinutes ?? 0) : method.restMinutes,
        boxMinutes: method === null || method.choice.finish === 'flame' ? 0 : slot.eatMinute - dish.doneMinute,
        additions:
          method?.needs.additions ??
          kit.parts.flatMap((part) =>
            part.ingredients.map((ingredient) => ({
              partId: part.id,
              foodId: ingredient.foodId,
              atMinute: 0,
              massG: (ingredient.massG * detail.servingsCooked) / kit.servings,
            })),
          ),
        firstWater: method?.choice.firstWater ?? 'kept',
        temperatureC: method?.needs.temperatureC ?? null,
        lectin: method?.needs.lectin ?? { verdict: 'not-applicable', boilMinutesNeeded: 0 },
        extrapolated: method?.needs.extrapolated ?? false,
      },
      startsAt: local(dish.startMinute),
      doneAt: local(dish.doneMinute),
      uses: usesOf(dish, local),
      fuel: method === null || lighting === null ? [] : [amount(lighting.fuelId, method.fuelKg)],
      fuelMJ: method?.fuelMJ ?? NOTHING,
      waterL: {
        inPot: round(method?.waterInPotL ?? noHeat?.waterL ?? 0, 3),
        absorbed: round(method?.needs.absorbedL ?? noHeat?.waterL ?? 0, 3),
        boiledOff: method?.boiledOffL ?? NOTHING,
        soakPouredAway: round(method?.needs.soakPouredAwayL ?? 0, 3),
        rinse: round((method?.needs.rinseL ?? 0) + (method?.needs.firstWaterL ?? 0), 3),
        total: round(method?.waterL ?? noHeat?.waterL ?? 0, 3),
      },
      saves: savingsOf(detail, calculations),
      floorMJ: method?.floorMJ ?? 0,
      usualMJ: compared?.usualMJ ?? method?.fuelMJ.p50 ?? 0,
      carefulMJ: compared?.carefulMJ ?? method?.fuelMJ.p50 ?? 0,
      handsOnMinutes: Math.round(method?.handsOnMinutes ?? noHeat?.handsOnMinutes ?? 0),
    };
  });
  comparison.planMJ += placed.lightings.reduce((sum, lighting) => sum + lighting.detail.startUpMJ.p50, 0);

  const meals = situation.slots.map((slot): PlannedMeal => {
    const dishes = placed.dishes.filter((dish) => dish.detail.slot === slot);
    const served = dishes.reduce((sum, dish) => sum + Math.min(dish.detail.servingsCooked, slot.wantServings), 0);
    const nutrition = dishes.map((dish) => ({ dish, per: kitNutrition(dish.detail.kit.kit) }));
    return {
      id: slot.id,
      mealId: slot.mealId,
      slot: slot.slot,
      eatAt: local(slot.eatMinute),
      people: slot.eaters.length,
      servingsWanted: slot.wantServings,
      servingsShort: round(Math.max(0, slot.wantServings - served), 2),
      hotWanted: slot.hot === 'wanted',
      dishes: dishes.map((dish) => ({
        cookingId: `${slot.id}-${dish.detail.kit.kit.id}`,
        servings: round(Math.min(dish.detail.servingsCooked, slot.wantServings), 2),
        hot: dish.detail.method !== null,
        safeUntil: local(safeUntilMinute(dish, situation)),
      })),
      energyKcal: Math.round(
        nutrition.reduce((sum, row) => sum + row.per.kcalPerServing * row.dish.detail.servingsCooked, 0),
      ),
      proteinG: Math.round(
        nutrition.reduce((sum, row) => sum + row.per.proteinGPerServing * row.dish.detail.servingsCooked, 0),
      ),
      cautions: [],
    };
  });

  const water = waterByDay(situation, placed, calendar);
  const tasks = tasksOf(situation, placed, water.treatedByDay, local, amount);
  const fuel = fuelBalances(situation, placed);
  const energyByDay = situation.days.map((day, index) => {
    const todays = meals.filter((meal) => meal.id.startsWith(day.date));
    return {
      date: situation.days[index]?.date ?? day.date,
      kcal: todays.reduce((sum, meal) => sum + meal.energyKcal, 0),
      needKcal: Math.round(day.needKcal),
      proteinG: todays.reduce((sum, meal) => sum + meal.proteinG, 0),
      needProteinG: Math.round(day.needProteinG),
    };
  });
  return {
    lightings,
    cookings,
    meals,
    tasks,
    fuel,
    water: {
      onHandL: round(situation.water.safeL + situation.water.treatL + situation.water.notForFoodL, 1),
      byDay: water.days,
    },
    limits: limitsOf(situation, placed, fuel, water.days),
    energyByDay,
    spread: spreadOf(placed),
    comparison: {
      planMJ: round(comparison.planMJ, 2),
      carefulCookMJ: round(comparison.carefulCookMJ, 2),
      usualMJ: round(comparison.usualMJ, 2),
      floorMJ: round(comparison.floorMJ, 2),
    },
    assumptions: assumptionsOf(situation),
    cautions: planCautions(energyByDay, placed),
  };
}

function usesOf(dish: PlacedDish, local: (minute: number) => string): Cooking['uses'] {
  const { detail } = dish;
  const { method, soak, slot, lighting } = detail;
  const uses: Cooking['uses'] = [];
  if (soak !== null) uses.push({ resource: soak.bowl.id, from: local(soak.startMinute), to: local(dish.startMinute) });
  if (method === null) return uses;
  const potUntil = method.choice.finish === 'flask' ? dish.doneMinute + 5 : slot.eatMinute;
  uses.push({ resource: method.choice.vessel.id, from: local(dish.startMinute), to: local(potUntil) });
  if (lighting !== null)
    uses.push({ resource: lighting.stove.id, from: local(dish.startMinute), to: local(dish.offMinute) });
  if (method.choice.box !== null)
    uses.push({ resource: method.choice.box.id, from: local(dish.doneMinute), to: local(slot.eatMinute) });
  if (method.choice.flask !== null)
    uses.push({ resource: method.choice.flask.id, from: local(dish.doneMinute), to: local(slot.eatMinute) });
  return uses;
}

/** Until when a dish may be eaten: two hours after the heat (one when it is hot), from a box from where it falls to 60 C. */
function safeUntilMinute(dish: PlacedDish, situation: WeekSituation): number {
  const { detail } = dish;
  const airC = detail.surroundings.indoorC;
  const hours = safeUntilAfterHeat(airC);
  if (detail.method === null) return dish.startMinute + hours * 60;
  const tau = detail.method.timeConstantHours;
  if (tau === null) return dish.doneMinute + hours * 60;
  const startC = detail.method.needs.temperatureC - 5;
  const hotUntil = dish.doneMinute + Math.floor(hoursAbove60C(startC, airC, tau.p10) * 60);
  // Without a thermometer nobody can tell when the two hours begin (trade notes H9).
  return situation.household.thermometer ? hotUntil + hours * 60 : hotUntil;
}

function tasksOf(
  situation: WeekSituation,
  placed: PlacedWeek,
  treatedByDay: number[],
  local: (minute: number) => string,
  amount: (fuelId: FuelAmount['fuelId'], kg: Percentiles) => FuelAmount,
): PlanTask[] {
  const wanted = situation.household.water.hotWaterPerDay;
  const tasks: PlanTask[] = placed.hotWater.map(({ detail, startMinute, doneMinute }) => ({
    id: `${situation.days[detail.lighting.slot.day]?.date}-hot-water`,
    kind: 'hot-water',
    at: local(startMinute),
    lightingId: detail.lighting.id,
    vesselId: detail.vessel.id,
    litres: wanted.litres,
    temperatureC: wanted.temperatureC,
    minutes: Math.round(detail.minutes.p50),
    fuel: [amount(detail.lighting.fuelId, detail.fuelKg)],
    uses: [
      { resource: detail.vessel.id, from: local(startMinute), to: local(doneMinute) },
      { resource: detail.lighting.stove.id, from: local(startMinute), to: local(doneMinute) },
    ],
  }));
  const potfuls = new Map<string, number>();
  for (const { detail, litres, startMinute, doneMinute } of placed.treatments) {
    if (detail.lighting === null) continue;
    const potful = (potfuls.get(detail.id) ?? 0) + 1;
    potfuls.set(detail.id, potful);
    tasks.push({
      id: `${detail.id.replaceAll('|', '-')}-${potful}`,
      kind: 'treat-water',
      at: local(startMinute),
      lightingId: detail.lighting.id,
      vesselId: detail.vessel?.id ?? null,
      litres: round(litres, 1),
      temperatureC: 100,
      minutes: Math.round(detail.minutesPerL * litres),
      fuel: [amount(detail.lighting.fuelId, scalePercentiles(detail.fuelKgPerL, litres))],
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

function waterByDay(
  situation: WeekSituation,
  placed: PlacedWeek,
  calendar: WeekCalendar,
): { days: WaterDay[]; treatedByDay: number[] } {
  const { water } = situation;
  let left = water.safeL + water.treatL + water.notForFoodL;
  const supply = situation.household.water.dailySupply.litres;
  let safeLeft = water.safeL;
  const treatedByDay: number[] = [];
  const days = situation.days.map((day, index): WaterDay => {
    if (index > 0) left += supply;
    const dishes = placed.dishes;
    const soakL = sum(
      dishes.filter((dish) => optionDay(dish, calendar) === index && dish.detail.soak !== null),
      (dish) => dish.detail.method?.needs.soakSuppliedL ?? 0,
    );
    const cookL = sum(
      dishes.filter((dish) => dish.detail.slot.day === index),
      (dish) =>
        (dish.detail.method?.waterL ?? dish.detail.noHeat?.waterL ?? 0) -
        (dish.detail.method?.needs.soakSuppliedL ?? 0),
    );
    const usedL = day.drinkL + day.hygieneL + day.animalsL + cookL + soakL + day.washL;
    left -= usedL;
    safeLeft -= usedL;
    const treated = situation.household.water.treatBy === 'bleach' ? Math.max(0, -safeLeft) : 0;
    treatedByDay.push(Math.min(treated, water.treatL));
    safeLeft += treated;
    const heated = sum(
      placed.hotWater.filter((task) => task.detail.lighting.slot.day === index),
      () => situation.household.water.hotWaterPerDay.litres,
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
      leftL: round(left, 1),
      replanBelow: round(Math.max(0, left * 0.97 - 2), 0),
    };
  });
  return { days, treatedByDay };
}

function optionDay(dish: PlacedDish, calendar: WeekCalendar): number {
  return calendar.week.options.find((option) => option.id === dish.detail.id)?.waterDay ?? dish.detail.slot.day;
}

function fuelBalances(situation: WeekSituation, placed: PlacedWeek): FuelBalance[] {
  return Object.entries(situation.fuels).map(([fuelId, fuel]) => {
    // Fuel of a fire by day: dishes, hot water, treatment, start-up.
    const items = [
      ...placed.dishes.flatMap((dish) =>
        dish.detail.lighting?.fuelId === fuelId && dish.detail.method !== null
          ? [{ day: dish.detail.slot.day, kg: dish.detail.method.fuelKg, spread: dish.detail.method.spreadUp }]
          : [],
      ),
      ...placed.hotWater.flatMap((task) =>
        task.detail.lighting.fuelId === fuelId
          ? [{ day: task.detail.lighting.slot.day, kg: task.detail.fuelKg, spread: sharedOnly(task.detail.fuelKg) }]
          : [],
      ),
      ...placed.treatments.flatMap((task) =>
        task.detail.lighting?.fuelId === fuelId
          ? [
              {
                day: task.detail.day,
                kg: scalePercentiles(task.detail.fuelKgPerL, task.litres),
                spread: sharedOnly(task.detail.fuelKgPerL),
              },
            ]
          : [],
      ),
      ...placed.lightings.flatMap((lighting) =>
        lighting.detail.fuelId === fuelId
          ? [
              {
                day: lighting.detail.slot.day,
                kg: lighting.detail.startUpKg,
                spread: sharedOnly(lighting.detail.startUpKg),
              },
            ]
          : [],
      ),
    ];
    const onHandOn = (day: number) => fuel.onHand + fuel.dailySupply * day;
    const byDay = situation.days.map((day, index) => {
      const used = weekBand(items.filter((item) => item.day <= index));
      const today = weekBand(items.filter((item) => item.day === index));
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
    return {
      fuelId: fuelId as FuelBalance['fuelId'],
      onHandKg: round(fuel.onHand, 4),
      reserveKg: round(fuel.reserve, 4),
      budgetKg: round(fuel.budgetByDay.at(-1) ?? 0, 4),
      usedKg: weekBand(items),
      byDay,
    };
  });
}

function sharedOnly(kg: Percentiles): { shared: number; independent: number } {
  return { shared: kg.p50 > 0 ? Math.log(kg.p90 / kg.p50) : 0, independent: 0 };
}

/**
 * The shown band of a sum: what the dishes share (stove, fuel, wind) adds up, what differs from dish to dish adds in
 * quadrature. It is narrower than the sum of the 90th percentiles, by which the plan is limited.
 */
function weekBand(items: { kg: Percentiles; spread: { shared: number; independent: number } }[]): Percentiles {
  const p50 = items.reduce((total, item) => total + item.kg.p50, 0);
  if (p50 <= 0) return NOTHING;
  const shared = items.reduce((total, item) => total + item.kg.p50 * (Math.exp(item.spread.shared) - 1), 0);
  const independent = Math.hypot(...items.map((item) => item.kg.p50 * (Math.exp(item.spread.independent) - 1)));
  const p90 = p50 + Math.hypot(shared, independent);
  return { p10: (p50 * p50) / p90, p50, p90 };
}

function limitsOf(situation: WeekSituation, placed: PlacedWeek, fuel: FuelBalance[], water: WaterDay[]): Limit[] {
  const limits: Limit[] = [];
  const row = (limit: string, date: string | null, used: number, allowed: number, unit: string) =>
    limits.push({
      limit,
      date,
      used: round(used, 3),
      allowed: round(allowed, 3),
      slack: round(allowed - used, 3),
      unit,
      oneMore: null,
    });
  for (const balance of fuel) {
    const planned = plannedFuel(balance.fuelId, placed);
    row(balance.fuelId, null, planned, balance.budgetKg, balance.fuelId === 'electricity' ? 'kWh' : 'kg');
  }
  const onHand = situation.water.safeL + situation.water.treatL + situation.water.notForFoodL;
  const supplied = situation.household.water.dailySupply.litres * Math.max(0, situation.days.length - 1);
  row(
    'water',
    null,
    water.reduce((total, day) => total + day.usedL, 0),
    onHand + supplied,
    'L',
  );
  for (const [index, day] of situation.days.entries()) {
    const today = placed.lightings.filter((lighting) => lighting.detail.slot.day === index);
    row('lightings', day.date, today.length, situation.household.lightingsPerDay, 'lightings');
    const outdoors = today
      .filter((lighting) => lighting.detail.stove.site === 'outdoors')
      .reduce((total, lighting) => total + lighting.endMinute - lighting.startMinute, 0);
    row('outdoor-minutes', day.date, outdoors, situation.household.outdoorMinutesPerDay, 'min');
  }
  for (const kitStock of situation.kits) {
    const used = placed.dishes
      .filter((dish) => dish.detail.kit === kitStock)
      .reduce((total, dish) => total + dish.detail.sets, 0);
    if (kitStock.sets > 0 || used > 0) row(`sets:${kitStock.kit.id}`, null, used, kitStock.sets, 'sets');
  }
  return limits;
}

/** What the plan is limited by: the sum of the 90th percentiles (errors shared, the careful reading). */
function plannedFuel(fuelId: string, placed: PlacedWeek): number {
  return (
    sum(
      placed.dishes.filter((dish) => dish.detail.lighting?.fuelId === fuelId),
      (dish) => dish.detail.method?.fuelKg.p90 ?? 0,
    ) +
    sum(
      placed.hotWater.filter((task) => task.detail.lighting.fuelId === fuelId),
      (task) => task.detail.fuelKg.p90,
    ) +
    sum(
      placed.treatments.filter((task) => task.detail.lighting?.fuelId === fuelId),
      (task) => task.detail.fuelKgPerL.p90 * task.litres,
    ) +
    sum(
      placed.lightings.filter((lighting) => lighting.detail.fuelId === fuelId),
      (lighting) => lighting.detail.startUpKg.p90,
    )
  );
}

function spreadOf(placed: PlacedWeek): PlanDraft['spread'] {
  let shared = 0;
  let independent = 0;
  for (const dish of placed.dishes) {
    const method = dish.detail.method;
    if (method === null) continue;
    shared += method.fuelMJ.p50 * (Math.exp(method.spreadUp.shared) - 1);
    independent += (method.fuelMJ.p50 * (Math.exp(method.spreadUp.independent) - 1)) ** 2;
  }
  const total = shared ** 2 + independent;
  if (total <= 0) return [];
  return [
    { cause: 'stove, fuel and wind (shared by all dishes)', share: shared ** 2 / total },
    { cause: 'food lot (differs from dish to dish)', share: independent / total },
  ].sort((a, b) => b.share - a.share);
}

function assumptionsOf(situation: WeekSituation): string[] {
  const { place, household } = situation;
  const boil = boilingPointAtElevationC(place.elevationM);
  return [
    `Water boils at ${round(boil, 1)} °C at ${place.elevationM} m in ordinary weather.`,
    `Outdoors ${place.outdoorC} °C, wind ${place.wind}; indoors ${place.indoorC} °C, falling to ${place.indoorFallsToC} °C within four days.`,
    `Water starts at ${round(situation.water.waterC ?? place.indoorC, 1)} °C.`,
    'Lids are on whenever the pot stands on the fire.',
    household.thermometer
      ? 'There is a food thermometer.'
      : 'There is no food thermometer: box dishes are eaten while surely hot.',
    `Fuel is planned so that it suffices nine times in ten, and ${Math.round((household.fuels[0]?.reserveShare ?? 0.1) * 100)} % is kept back.`,
    `Food from the box is above ${HOT_HOLDING_C} °C when it is eaten.`,
  ];
}

function planCautions(energyByDay: PlanDraft['energyByDay'], placed: PlacedWeek): string[] {
  const cautions: string[] = [];
  const kcal = energyByDay.reduce((total, day) => total + day.kcal, 0);
  const need = energyByDay.reduce((total, day) => total + day.needKcal, 0);
  if (kcal < need * 0.95) {
    cautions.push(
      `The kits give ${Math.round((100 * kcal) / need)} % of the food energy that the household needs. Add oil, nut butter or spare food.`,
    );
  }
  if (placed.dishes.some((dish) => dish.detail.method?.needs.lectin.verdict === 'safe')) {
    cautions.push(
      'Beans of the kidney family are on the plan: undercooked ones make ill. Keep the rolling boil for the printed minutes.',
    );
  }
  return cautions;
}

function sum<Item>(items: Item[], of: (item: Item) => number): number {
  return items.reduce((total, item) => total + of(item), 0);
}

function round(value: number, digits: number): number {
  const factor = 10 ** digits;
  return Math.round(value * factor) / factor;
}
