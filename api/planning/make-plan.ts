/** The plan for a household's week: from what is stored to what is cooked when, with its proof. */

import { createCalculations } from '../cooking/calculators/calculations.ts';
import type { Kit } from '../cooking/dishes/kit.ts';
import type { Food } from '../cooking/foods/food.ts';
import type { HouseholdDocument } from '../cooking/household/kitchen.ts';
import { householdDocumentOf } from '../cooking/household/resolve-household.ts';
import type { Evidence } from '../cooking/measurements/learn-from-measurements.ts';
import type { Continuation } from './bookings/continuation.ts';
import { continuesOf, underWayCautions } from './bookings/goes-on.ts';
import type { Clock } from './clock.ts';
import { nightShortage } from './plan/night-shortage.ts';
import { type PlanContents, planContents } from './plan/plan-contents.ts';
import { separateAims } from './plan/plan-proof.ts';
import { shorterPlan, waterCautions, whyShort } from './plan/short-plan.ts';
import { findShortages } from './plan/shortage.ts';
import { takenPoint } from './plan/taken-point.ts';
import {
  hasDailySupply,
  runsOut,
  summaryWithoutSupply,
  supplyCaution,
  withoutDailySupply,
} from './plan/without-supply.ts';
import type { PlanDraft, PlanRequest, Shortage, StockEntry, WithoutSupply } from './plan-types.ts';
import { keepWall } from './programme/keep-wall.ts';
import { solveWeek, type WeekSolution } from './programme/solve-week.ts';
import { repeatWeightOf, weekModel } from './programme/week-model.ts';
import type { Conflict } from './questions/conflict.ts';
import { withOneMore } from './questions/limit-values.ts';
import { sum } from './rounding.ts';
import { DEFAULT_TIME_LIMIT_S, type SolveProgress, type Solver } from './solver.ts';
import { placeWeek } from './week/place-week.ts';
import { type PreparedWeek, prepareWeek, situationOf } from './week/prepared-week.ts';
import { weekCalendarInTurns } from './week/week-calendar.ts';
import type { WeekChoice } from './week/week-instance.ts';
import type { WeekSituation } from './week/week-situation.ts';

export interface PlanInput {
  request: PlanRequest;
  household: HouseholdDocument;
  kits: Kit[];
  stock: StockEntry[];
  /** Own tests of the household; absent: none. */
  measurements?: Evidence[];
  /** What the plan goes on from; absent or null: it begins an outage. */
  continues?: Continuation | null;
}

export interface PlanPorts {
  solver: Solver;
  /** Milliseconds since 1970-01-01T00:00Z. */
  now: number;
  id: string;
  programVersion: string;
  signal?: AbortSignal;
  onProgress?: (progress: SolveProgress) => void;
  /** Lets a runtime answer others between two steps of laying out a plan. */
  pause?: () => Promise<void>;
  /** For the time limits of what is worked out after the plan; absent: each question there gets its own. */
  clock?: Clock;
}

const TABLES_VERSION = '1';
/** Share of the time limit for the plan itself; what is short, in conflict and worth having is worked out in the rest. */
const SOLVING_SHARE = { alone: 0.7, withSupply: 0.45 };
const SHORTAGE_SHARE = 0.25;
/** Whatever has been used up, a question gets this long, or it finds nothing at all, s. */
const SHORTEST_QUESTION_S = 0.5;
/** Share of the time limit that may be spent on what is in conflict, and the most, s. */
const CONFLICT_SHARE = 0.25;
const LONGEST_CONFLICT_S = 5;
/** The same for what one more unit of each limit is worth. */
const VALUES_SHARE = 0.15;
const LONGEST_VALUES_S = { complete: 1.5, short: 3 };

/**
 * Plans the week.
 *
 * Always answers with a plan, as complete as the stocks allow; what cannot be is in `short`. The schedule's words are
 * made by `wording/schedule.ts`.
 * @throws InvalidInputError when the request contradicts the household; SolveCancelledError; SolverBusyError
 */
export async function makePlan(input: PlanInput, ports: PlanPorts): Promise<PlanDraft> {
  const { request } = input;
  const calculations = createCalculations();
  const situation = situationOf(input);
  const layingOut = { pause: ports.pause, signal: ports.signal };
  const calendar = await weekCalendarInTurns(situation, request, calculations, layingOut);
  const timeLimitS = request.timeLimitS ?? DEFAULT_TIME_LIMIT_S;
  const timer = (seconds: number) => {
    const startedMs = ports.clock?.now() ?? 0;
    return () => seconds - ((ports.clock?.now() ?? 0) - startedMs) / 1000;
  };
  const leftInAllS = timer(timeLimitS);
  const atMostS = (seconds: number) => Math.max(SHORTEST_QUESTION_S, Math.min(seconds, leftInAllS()));
  const supplied = hasDailySupply(input.household);
  const solveOptions = {
    timeLimitS: timeLimitS * (supplied ? SOLVING_SHARE.withSupply : SOLVING_SHARE.alone),
    ...(ports.signal === undefined ? {} : { signal: ports.signal }),
    ...(ports.onProgress === undefined ? {} : { onProgress: ports.onProgress }),
  };

  const best = await solveWeek(calendar.week, ports.solver, solveOptions);
  const { wall } = situation.continues ?? {};
  const solution = await keepWall(
    calendar,
    best,
    ports.solver,
    solveOptions,
    wall?.dishes,
    wall?.hotWater,
    situation.continues?.news,
  );
  const choice: WeekChoice = solution.choice ?? { options: [], hotWater: [], lightings: [], treatedL: {} };
  const placed = placeWeek(choice, calendar);

  const parts = planContents(situation, calendar, placed, calculations);
  const taken =
    request.tradeOff == null
      ? null
      : takenPoint(
          request.tradeOff,
          parts,
          request,
          situation.continues?.before.eaten ?? [],
          solution.aims.find(({ name }) => name === 'fuel-heat')?.value ?? 0,
        );
  if (taken !== null) {
    parts.meals = taken.meals;
    parts.cautions.unshift(taken.tradeOff.text);
  }
  const continues = situation.continues === null ? null : continuesOf(situation.continues, calendar, choice);
  if (continues !== null) {
    const nameOf = (kitId: string) => situation.kits.find(({ kit }) => kit.id === kitId)?.kit.name ?? kitId;
    parts.cautions.unshift(...underWayCautions(continues, nameOf));
  }
  const short: Shortage[] = [];
  let prepared: PreparedWeek | null = null;
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
      text: `${unsafeL} L of the water for drinking and washing cannot be ${situation.household.water.snow ? 'melted from snow and ' : ''}boiled safe on the fires of these days`,
    });
    waysOut.push(`${unsafeL} L more safe water, bleach to treat it with, or more fires, fuel and time to boil it`);
  }
  const missedMeals = parts.meals.filter(
    (meal) =>
      meal.servingsShort > 0.02 ||
      (meal.hotWanted && meal.coldByChoice !== true && !meal.dishes.some((dish) => dish.hot)),
  );
  const hotWaterMissing = calendar.week.hotWaterDays.filter(
    (day) =>
      !choice.hotWater.some((id) => {
        const heated = calendar.hotWater.get(id);
        return heated?.night === null && heated.lighting.slot.day === day;
      }),
  );
  const unfedNights = calendar.nights.filter(
    (night) =>
      night.burning === null && !choice.hotWater.some((id) => calendar.hotWater.get(id)?.night?.feeds === night),
  );
  if (unfedNights.length > 0) {
    const { row, wayOut } = nightShortage(unfedNights, calendar.week.nights ?? [], situation);
    short.push(row);
    waysOut.push(wayOut);
  }
  if (missedMeals.length > 0 || hotWaterMissing.length > 0) {
    const dates = [
      ...missedMeals.map((meal) => meal.id.slice(0, 10)),
      ...hotWaterMissing.map((day) => situation.days[day]?.date ?? ''),
    ].sort();
    prepared = await prepareWeek(input, request.days, calculations, { open: true, ...layingOut });
    const finding = await findShortages(
      prepared.week,
      dates[0] ?? request.startsAt.slice(0, 10),
      {
        servings: parts.meals.reduce((sum, meal) => sum + meal.servingsShort, 0),
        hotServings: missedMeals
          .filter((meal) => meal.servingsShort <= 0.02)
          .reduce((sum, meal) => sum + meal.servingsWanted, 0),
      },
      ports.solver,
      {
        timeLimitS: atMostS(timeLimitS * SHORTAGE_SHARE) / 2,
        ...(ports.signal === undefined ? {} : { signal: ports.signal }),
      },
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

  let conflict: Conflict[] | null = null;
  if (short.length > 0) {
    const leftS = timer(atMostS(Math.min(LONGEST_CONFLICT_S, timeLimitS * CONFLICT_SHARE)));
    const someHungry = situation.water.baseShort !== null || parts.meals.some((meal) => meal.servingsShort > 0.02);
    const demand = someHungry ? 'fed' : 'fed-hot';
    prepared ??= await prepareWeek(input, request.days, calculations, { open: true, ...layingOut });
    const why = await whyShort(input, prepared, demand, calculations, ports.solver, leftS, layingOut);
    conflict = why.conflict;
    // What is missing altogether says more than a number of servings.
    const [fact] = why.facts;
    const [first] = short;
    const fromFacts = why.facts.map(({ wayOut }) => wayOut);
    if (fact !== undefined && first?.unit === 'servings') {
      short[0] = { ...first, text: `${fact.text}: ${first.text}` };
      waysOut = [...fromFacts, ...waysOut];
    } else waysOut.push(...fromFacts);
    const shorter = shorterPlan(why.daysServed, demand);
    if (shorter !== null) waysOut.push(shorter);
    parts.cautions.unshift(...waterCautions(situation, short, why.daysServed));
  }

  const withoutSupply = supplied ? await planWithoutSupply(input, situation, parts, ports, atMostS(timeLimitS)) : null;
  if (withoutSupply !== null) parts.cautions.push(supplyCaution(withoutSupply));
  const isShort = short.length > 0;
  prepared ??= { days: request.days, situation, calendar, week: calendar.week, model: weekModel(calendar.week) };
  const valued = await withOneMore(
    parts.limits,
    prepared,
    isShort,
    provenShare(solution),
    ports.solver,
    timer(atMostS(Math.min(isShort ? LONGEST_VALUES_S.short : LONGEST_VALUES_S.complete, timeLimitS * VALUES_SHARE))),
    ports.signal,
  );

  const aims = separateAims(solution.aims, solution.stated, repeatWeightOf(calendar.week));
  return {
    format: 1,
    id: ports.id,
    createdAt: new Date(ports.now).toISOString(),
    request,
    resolved: {
      household: householdDocumentOf(situation.household),
      kits: situation.kits.map((kitStock) => kitStock.kit),
      stock: situation.lots,
      ...ownFoodsIn(situation.kits.map(({ kit }) => kit)),
      defaults: situation.defaults,
      learned: situation.learned,
    },
    versions: { program: ports.programVersion, tables: TABLES_VERSION, solver: ports.solver.version },
    outcome: short.length === 0 ? 'complete' : 'short',
    proof: {
      status: solution.proven ? 'optimal' : solution.choice === null ? 'time-limit' : 'within-gap',
      aims,
      note: solution.proven
        ? 'No better plan exists among the ways that the program considered, one dish a meal (several where no pot holds enough for all), within the printed tolerances.'
        : solution.unasked === true
          ? 'Nothing unexpected was found, so that the plan on the wall stands. The bounds say how much better another could be.'
          : `Not proven within ${timeLimitS} s: the bounds say how much better a plan could be.`,
    },
    ...parts,
    limits: valued,
    short,
    conflict,
    waysOut: [...new Set(waysOut)],
    withoutSupply,
    refused: calendar.refused,
    ...(continues === null ? {} : { continues }),
    ...(taken === null ? {} : { tradeOff: taken.tradeOff }),
  };
}

/** The rows of own foods in these kits, each once; nothing where there are none. */
function ownFoodsIn(kits: readonly Kit[]): { foods: Food[] } | Record<never, never> {
  const foods = new Map<string, Food>();
  for (const ingredient of kits.flatMap((kit) => kit.parts.flatMap((part) => part.ingredients)))
    for (const food of [ingredient.ownFood, ...(ingredient.ownAlternatives ?? [])])
      if (food !== undefined) foods.set(food.id, food);
  return foods.size === 0 ? {} : { foods: [...foods.values()] };
}

/** The same plan for a household to which nothing is brought. */
async function planWithoutSupply(
  input: PlanInput,
  { fuels, household }: WeekSituation,
  parts: PlanContents,
  ports: PlanPorts,
  timeLimitS: number,
): Promise<WithoutSupply> {
  const { onProgress: _onProgress, ...quiet } = ports;
  const plan = await makePlan(
    { ...input, household: withoutDailySupply(input.household), request: { ...input.request, timeLimitS } },
    quiet,
  );
  const promised = Object.fromEntries(Object.entries(fuels).map(([fuelId, fuel]) => [fuelId, fuel.dailySupply]));
  return summaryWithoutSupply(plan, runsOut(parts, { fuels: promised, waterL: household.water.dailySupply.litres }));
}

/** Share of what is scarcest that a plan without any miss uses; null where something is missed or it is not proven. */
function provenShare({ aims }: WeekSolution): number | null {
  // After the least fuel the share is only near the one that a limit more would be compared with.
  if (aims.some(({ name }) => name === 'fuel-heat')) return null;
  const service = aims.find(({ name }) => name === 'service');
  const scarcest = aims.find(({ name }) => name === 'scarcest-largest-share');
  return service !== undefined && service.value < 0.02 && scarcest?.closed === true ? scarcest.value : null;
}
