/** How many days a household can be fed from what it has, what ends it, and what would be missing for more. */
import { createCalculations } from '../cooking/calculations.ts';
import type { Percentiles } from '../physics/parameter.ts';
import type { FuelId } from '../physics/table-ids.ts';
import type { Clock } from './clock.ts';
import { withCounts } from './count-programme.ts';
import { type LimitGroup, withoutLimits } from './limit-groups.ts';
import { addDays } from './local-time.ts';
import type { PlanInput } from './make-plan.ts';
import type { PlanRequest } from './plan-types.ts';
import { type PreparedWeek, prepareWeek } from './prepared-week.ts';
import { aim } from './programme-builder.ts';
import { round, sum } from './rounding.ts';
import { canServe, type Demand, type ServeAnswer, served } from './serve-question.ts';
import { countsOf, SolveCancelledError } from './solve-week.ts';
import type { SolveProgress, Solver } from './solver.ts';
import { weekAmounts } from './week-amounts.ts';
import { type WeekSituation, weekSituation } from './week-situation.ts';
import { inList, type Missing, whatIsMissing } from './what-is-missing.ts';

/** Longest plan that is made, days. */
export const MOST_DAYS = 90;
/** Points of the curve at most. */
const MOST_POINTS = 12;
const DEFAULT_TIME_LIMIT_S = 20;
/** By which share of the time the days fed, those fed hot, and a plan for each must have been found. */
const FED_SHARE = 0.5;
const HOT_SHARE = 0.6;
const PLAN_SHARE = 0.75;
/** One question over counts gets this long at most, s. */
const LONGEST_QUESTION_S = 4;
/** A point of the curve too: beyond the last day that is fed it may be hard to prove, and need not be proven. */
const LONGEST_POINT_S = 3;
/** A point is begun with this much time left, s, and as much again for each day that is laid out (measured). */
const SHORTEST_POINT_S = 0.6;
const LAYING_OUT_S_PER_DAY = 0.05;
/** Asking by days what hinders gets this long for each limit, s. */
const LONGEST_HINDRANCE_S = 1.5;
/** First number of days that is tried; most stores last longer than three days, and a short week is soon laid out. */
const FIRST_TRY_DAYS = 4;

/** A request for a plan with the days left open; given days ask what is missing to reach them. */
export type EnduranceRequest = Omit<PlanRequest, 'days'> & { days?: number };
export type EnduranceInput = Omit<PlanInput, 'request'> & { request: EnduranceRequest };

export interface EndurancePorts {
  solver: Solver;
  clock: Clock;
  signal?: AbortSignal;
  onProgress?: (progress: SolveProgress) => void;
}

/** A number of days and how sure it is. */
export interface DaysServed {
  days: number;
  /** Last date that is served; null where there is none. */
  lastDate: string | null;
  /** A plan by days was found for this many days. */
  planFound: boolean;
  /** Proven that no plan serves one day more. */
  noMorePossible: boolean;
  /** At most this many days: equals `days` where it was found out. */
  atMost: number;
}

/** What stops the day after the last. */
export interface EndOfDays extends Missing {
  days: number;
  date: string;
}

export interface EndurancePoint {
  days: number;
  lastDate: string;
  everybodyFed: boolean;
  everybodyFedHot: boolean;
  servingsShort: number;
  /** kg, kWh for electricity; `plannedKg` is what the plan is limited by (9 times in 10 no more). */
  fuel: { fuelId: FuelId; usedKg: Percentiles; leftKg: Percentiles; budgetKg: number; plannedKg: number }[];
  fuelMJ: Percentiles;
  waterL: { people: number; cooking: number; used: number; left: number };
}

export interface Endurance {
  startsAt: string;
  /** Everybody gets every serving, hot or cold. */
  fed: DaysServed;
  /** Everybody is fed, every meal that should be hot is hot, and there is the hot water of every day. */
  fedHot: DaysServed;
  endsFed: EndOfDays | null;
  endsFedHot: EndOfDays | null;
  curve: EndurancePoint[];
  /** Where days were asked for. */
  reverse: null | { days: number; lastDate: string; fed: Missing; fedHot: Missing };
  /** In sentences, the answer first. */
  text: string[];
  /** What there was no time for. */
  notWorkedOut: string[];
}

/**
 * Finds the largest number of days that can be fed.
 *
 * For every number of days, water for drinking, hygiene, animals and washing-up is kept for all of them first; then it is
 * asked over counts (`serve-question.ts`) whether the rest feeds everybody. More days never make it easier, so that
 * doubling and halving find the last that can; for that one a plan by days is looked for, and where there is none, for
 * one day less. That one day more is impossible over counts holds for every plan.
 * @param input as for a plan; `request.days` 1 to 90 asks what is missing to reach them; `timeLimitS` holds for the whole
 * @throws InvalidInputError when the request contradicts the household; SolveCancelledError; SolverBusyError
 */
export async function findEndurance(input: EnduranceInput, ports: EndurancePorts): Promise<Endurance> {
  const { solver, clock, signal } = ports;
  const startedMs = clock.now();
  const timeLimitS = input.request.timeLimitS ?? DEFAULT_TIME_LIMIT_S;
  const elapsedS = () => (clock.now() - startedMs) / 1000;
  const leftS = () => timeLimitS - elapsedS();
  const calculations = createCalculations();
  const planInput: PlanInput = { ...input, request: { ...input.request, days: input.request.days ?? 1 } };
  const startDate = input.request.startsAt.slice(0, 10);
  const dateOf = (days: number) => addDays(startDate, days - 1);
  const notWorkedOut: string[] = [];
  const weeks = new Map<string, PreparedWeek>();
  const weekOf = (days: number, open = false): PreparedWeek => {
    const key = `${days} ${open}`;
    const known = weeks.get(key) ?? prepareWeek(planInput, days, calculations, open);
    weeks.set(key, known);
    return known;
  };
  const optionsFor = (timeS: number) => ({
    timeLimitS: Math.max(0.1, timeS),
    ...(signal === undefined ? {} : { signal }),
  });
  const tell = (what: string, best: number | null, bound: number | null) =>
    ports.onProgress?.({ elapsedS: elapsedS(), aim: what, best, bound, gap: null });

  const upper = mostDaysByArithmetic(planInput);
  const answers = new Map<string, ServeAnswer>();
  const ask = async (days: number, demand: Demand): Promise<ServeAnswer> => {
    const key = `${days} ${demand}`;
    const known = answers.get(key);
    if (known !== undefined) return known;
    const prepared = weekOf(days);
    const answer =
      prepared.situation.water.baseShort !== null
        ? { possible: false, extras: [], sets: [], counts: null }
        : await canServe(prepared.model, { demand }, solver, optionsFor(Math.min(LONGEST_QUESTION_S, leftS())));
    answers.set(key, answer);
    return answer;
  };
  // A number of days that can be fed hot can be fed: one week laid out answers both.
  const lowest = { fed: 0, 'fed-hot': 0 };
  const askBoth = async (days: number): Promise<boolean | null> => {
    if ((await ask(days, 'fed-hot')).possible === true) {
      lowest['fed-hot'] = Math.max(lowest['fed-hot'], days);
      return true;
    }
    return (await ask(days, 'fed')).possible;
  };
  const search = async (demand: Demand, atMost: number, first: number, untilS: number): Promise<DaysServed> => {
    let low = demand === 'fed-hot' ? Math.min(atMost, lowest['fed-hot']) : 0;
    let high = atMost + 1;
    let proven = true;
    let days = Math.min(Math.max(low + 1, first), atMost);
    while (high - low > 1) {
      if (elapsedS() > untilS) return { ...servedDays(low), atMost: high - 1, noMorePossible: false };
      tell(demand, low, high - 1);
      const possible = demand === 'fed' ? await askBoth(days) : (await ask(days, demand)).possible;
      if (possible === true) low = days;
      else {
        high = days;
        proven = possible === false;
      }
      days = high === atMost + 1 ? Math.min(atMost, Math.max(low + 1, low * 2)) : Math.floor((low + high) / 2);
    }
    return { ...servedDays(low), atMost: low, noMorePossible: proven };
  };
  const servedDays = (days: number) => ({ days, lastDate: days === 0 ? null : dateOf(days), planFound: false });
  const confirmed = async (found: DaysServed, demand: Demand, untilS: number): Promise<DaysServed> => {
    for (let days = found.days; days >= 1; days -= 1) {
      const timeS = Math.min(leftS(), untilS - elapsedS());
      if (timeS < 0.3) return { ...found, ...servedDays(days), noMorePossible: false };
      tell(`${demand}-plan`, days, found.atMost);
      const onDays = await placedOnDays(
        weekOf(days),
        demand,
        (await ask(days, demand)).counts,
        solver,
        optionsFor(timeS),
      );
      if (onDays === true) return { ...found, ...servedDays(days), atMost: found.atMost, planFound: true };
      if (onDays === null) return { ...found, ...servedDays(days), planFound: false };
      // No plan by days: the counts promised a day too many.
      found = { ...found, ...servedDays(days - 1), atMost: days - 1, noMorePossible: true };
    }
    return found;
  };

  let fed = await search('fed', upper, FIRST_TRY_DAYS, timeLimitS * FED_SHARE);
  let fedHot = await search('fed-hot', fed.days, fed.days, timeLimitS * HOT_SHARE);
  fedHot = await confirmed(fedHot, 'fed-hot', timeLimitS * HOT_SHARE + 0.1 * timeLimitS);
  if (fedHot.planFound && fedHot.days === fed.days) fed = { ...fed, planFound: true };
  else fed = await confirmed(fed, 'fed', timeLimitS * PLAN_SHARE);
  if (fedHot.days > fed.days) fedHot = { ...fedHot, days: fed.days, lastDate: fed.lastDate };

  const missingAt = (days: number, demand: Demand): Promise<Missing> =>
    whatIsMissing(weekOf(days, true), demand, solver, leftS, signal);
  const ending = async (found: DaysServed, demand: Demand): Promise<EndOfDays | null> => {
    const days = found.days + 1;
    if (days > MOST_DAYS) return null;
    tell(`${demand}-end`, found.days, found.atMost);
    const missing = await missingAt(days, demand);
    if (missing.possible !== true) return { days, date: dateOf(days), ...missing };
    // Amounts would do, and yet no plan by days was found: single days do not allow it.
    const hindrances = await whatHinders(weekOf(days), demand, solver, leftS, signal);
    return { days, date: dateOf(days), ...missing, possible: found.noMorePossible ? false : null, text: hindrances };
  };
  const endsFed = fed.atMost > fed.days ? skipped('what ends the food') : await ending(fed, 'fed');
  const endsFedHot =
    fedHot.days === fed.days && fedHot.atMost === fed.atMost
      ? null
      : leftS() > 1 && fedHot.atMost === fedHot.days
        ? await ending(fedHot, 'fed-hot')
        : skipped('what ends the hot meals');

  let reverse: Endurance['reverse'] = null;
  const wanted = input.request.days;
  if (wanted !== undefined) {
    tell('missing', null, null);
    reverse = {
      days: wanted,
      lastDate: dateOf(wanted),
      fed: wanted <= fed.days ? enough() : await missingAt(wanted, 'fed'),
      fedHot: wanted <= fedHot.days ? enough() : await missingAt(wanted, 'fed-hot'),
    };
    if (!reverse.fed.complete || !reverse.fedHot.complete) skipped(`all that is missing to reach ${wanted} days`);
  }

  const curve: EndurancePoint[] = [];
  const daysOfCurve = curveDays(Math.min(MOST_DAYS, fed.days + 1), fedHot.days);
  for (const days of daysOfCurve) {
    if (leftS() < SHORTEST_POINT_S + days * LAYING_OUT_S_PER_DAY) continue;
    tell('curve', days, fed.days);
    const point = await pointOf(
      weekOf(days),
      days,
      { fed: fed.days, fedHot: fedHot.days },
      solver,
      optionsFor(Math.min(LONGEST_POINT_S, leftS() * 0.6)),
    );
    if (point !== null) curve.push(point);
  }
  if (curve.length < daysOfCurve.length)
    skipped(`${daysOfCurve.length - curve.length} of ${daysOfCurve.length} points of the curve`);
  curve.sort((a, b) => a.days - b.days);

  const open = (found: DaysServed) =>
    found.atMost === found.days + 1 ? `${found.atMost} days` : `${found.days + 1} to ${found.atMost} days`;
  if (fed.atMost > fed.days) skipped(`whether ${open(fed)} can be fed`);
  if (fedHot.atMost > fedHot.days) skipped(`whether ${open(fedHot)} can be fed hot`);
  return {
    startsAt: input.request.startsAt,
    fed,
    fedHot,
    endsFed,
    endsFedHot,
    curve,
    reverse,
    text: sentences(
      weekOf(Math.max(1, fed.days)).situation.slots.length === 0,
      fed,
      fedHot,
      endsFed,
      endsFedHot,
      reverse,
    ),
    notWorkedOut,
  };

  function skipped(what: string): null {
    notWorkedOut.push(what);
    return null;
  }
}

/**
 * Days beyond which arithmetic alone rules out that everybody is fed: water for people, animals and washing, and servings
 * in store against servings wanted.
 * @returns 0 to 90
 */
export function mostDaysByArithmetic(input: PlanInput): number {
  const at = (days: number): WeekSituation =>
    weekSituation({ ...input.request, days }, input.household, input.kits, input.stock, input.measurements);
  const canBe = (days: number) => {
    const { water, kits, slots } = at(days);
    const servings = sum(kits, ({ kit, sets }) => kit.servings * sets);
    return water.baseShort === null && servings >= sum(slots, (slot) => slot.wantServings) - 1e-6;
  };
  let low = 0;
  let high = MOST_DAYS + 1;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (canBe(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** Whether the demand can be met on days: with the counts that were found, else with any. null: not found in time. */
async function placedOnDays(
  { model }: PreparedWeek,
  demand: Demand,
  counts: ServeAnswer['counts'],
  solver: Solver,
  options: { timeLimitS: number; signal?: AbortSignal },
): Promise<boolean | null> {
  const programme = served(model, demand);
  const anything = [aim('served', [[model.columns.short[0] ?? 0, 1]], { absoluteGap: 1, relativeGap: 1, slack: 0 })];
  const share = counts === null ? 0 : 0.4;
  if (counts !== null) {
    const fixed = withCounts(programme, counts.programme, counts.values, model.isCounted);
    const outcome = await solver.solve(fixed, anything, { ...options, timeLimitS: options.timeLimitS * share });
    if (outcome.status === 'cancelled') throw new SolveCancelledError();
    if (outcome.status === 'solved') return true;
  }
  const outcome = await solver.solve(programme, anything, {
    ...options,
    timeLimitS: options.timeLimitS * (1 - share),
  });
  if (outcome.status === 'cancelled') throw new SolveCancelledError();
  return outcome.status === 'solved' ? true : outcome.status === 'infeasible' ? false : null;
}

/** In words, which limits of single days stand against a number of days for which the amounts would do. */
async function whatHinders(
  { model, situation, week }: PreparedWeek,
  demand: Demand,
  solver: Solver,
  leftS: () => number,
  signal?: AbortSignal,
): Promise<string> {
  const tried: [group: LimitGroup, wayOut: string][] = [
    [{ kind: 'things' }, 'one more pot, bowl or box'],
    [{ kind: 'fires' }, `more than ${week.lightingsPerDay} ${week.lightingsPerDay === 1 ? 'fire' : 'fires'} a day`],
    [{ kind: 'outdoors' }, 'more minutes outdoors a day'],
    [{ kind: 'clock' }, 'more time between the meals, or a stronger stove'],
  ];
  const anything = [aim('served', [[model.columns.short[0] ?? 0, 1]], { absoluteGap: 1, relativeGap: 1, slack: 0 })];
  const ways: string[] = [];
  for (const [group, wayOut] of tried) {
    const timeLimitS = Math.min(LONGEST_HINDRANCE_S, leftS());
    if (timeLimitS < 0.2) break;
    const outcome = await solver.solve(served(withoutLimits(model, [group]), demand), anything, {
      timeLimitS,
      ...(signal === undefined ? {} : { signal }),
    });
    if (outcome.status === 'cancelled') throw new SolveCancelledError();
    if (outcome.status === 'solved') ways.push(wayOut);
  }
  const days = situation.days.length;
  return ways.length === 0
    ? `Fuel, water and kits would do for ${days} days, but pots, fires and hours of single days do not allow it.`
    : `Fuel, water and kits would do for ${days} days, but single days do not allow it. What would: ${inList(ways, 'or')}.`;
}

/** The best plan of a number of days by counts: fed as far as can be, then with the least of what is scarcest. */
async function pointOf(
  prepared: PreparedWeek,
  days: number,
  longest: { fed: number; fedHot: number },
  solver: Solver,
  options: { timeLimitS: number; signal?: AbortSignal },
): Promise<EndurancePoint | null> {
  const { model, situation, week } = prepared;
  const demand: Demand | null = days <= longest.fedHot ? 'fed-hot' : days <= longest.fed ? 'fed' : null;
  const settled = demand === null ? [] : demand === 'fed' ? ['feed-everyone'] : ['feed-everyone', 'hot-meals'];
  const counts = await countsOf(
    {
      ...model,
      programme: demand === null ? model.programme : served(model, demand),
      aims: model.aims.filter(({ name }) => name !== 'variety-then-tending' && !settled.includes(name)),
    },
    solver,
    options,
  );
  if (counts === null) return null;
  const amounts = weekAmounts(prepared, counts);
  const people = sum(situation.days, (day) => day.drinkL + day.hygieneL + day.animalsL + day.washL);
  const { safeL, treatL, notForFoodL } = situation.water;
  const onHandL = safeL + treatL + notForFoodL + situation.household.water.dailySupply.litres * (days - 1);
  return {
    days,
    lastDate: situation.days.at(-1)?.date ?? '',
    everybodyFed: demand !== null || amounts.servingsShort < 0.02,
    everybodyFedHot: demand === 'fed-hot',
    servingsShort: round(amounts.servingsShort, 1),
    fuel: Object.entries(amounts.fuel).map(([fuelId, used]) => {
      const fuel = situation.fuels[fuelId];
      const onHand = (fuel?.onHand ?? 0) + (fuel?.dailySupply ?? 0) * (days - 1);
      return {
        fuelId: fuelId as FuelId,
        usedKg: rounded(used, 3),
        leftKg: rounded({ p10: onHand - used.p90, p50: onHand - used.p50, p90: onHand - used.p10 }, 3),
        budgetKg: round(week.fuelByDay[fuelId]?.at(-1) ?? 0, 3),
        plannedKg: round(used.p90, 3),
      };
    }),
    fuelMJ: rounded(amounts.fuelMJ, 2),
    waterL: {
      people: round(people, 1),
      cooking: round(amounts.cookL, 1),
      used: round(people + amounts.cookL, 1),
      left: round(onHandL - people - amounts.cookL, 1),
    },
  };
}

/** Which days the curve shows, the most telling first: the last that is fed, the one after, then ever finer between. */
function curveDays(last: number, hot: number): number[] {
  const days = new Set([Math.max(1, last - 1), last, Math.max(1, hot), 1]);
  for (let parts = 2; parts <= 16 && days.size < MOST_POINTS; parts *= 2) {
    for (let part = 1; part < parts && days.size < MOST_POINTS; part += 1) {
      days.add(Math.max(1, Math.round((last * part) / parts)));
    }
  }
  return [...days];
}

function enough(): Missing {
  return { possible: true, alone: [], together: [], text: 'Nothing is missing.', complete: true };
}

function sentences(
  nobodyEats: boolean,
  fed: DaysServed,
  fedHot: DaysServed,
  endsFed: EndOfDays | null,
  endsFedHot: EndOfDays | null,
  reverse: Endurance['reverse'],
): string[] {
  const text: string[] = [];
  if (nobodyEats) text.push('Nobody at the table eats from the pot: only the water for people and animals is counted.');
  const daysOf = (count: number) => (count === 1 ? '1 day' : `${count} days`);
  const sure = (found: DaysServed) => found.atMost === found.days;
  if (!sure(fed))
    text.push(
      `Everybody can be fed for at least ${daysOf(fed.days)} and at most ${fed.atMost}; there was no time to find out which.`,
    );
  else if (fed.days === 0) text.push('Not even the first day can be fed in full.');
  else if (fed.days >= MOST_DAYS) text.push(`Everybody can be fed for ${MOST_DAYS} days, the longest that is planned.`);
  else text.push(`Everybody can be fed for ${daysOf(fed.days)}, until the evening of ${fed.lastDate}.`);
  if (!sure(fedHot)) text.push(`Every meal that should be hot can be for at least ${daysOf(fedHot.days)}.`);
  else if (fed.days > 0 && fedHot.days < fed.days)
    text.push(
      fedHot.days === 0
        ? 'Not all meals that should be hot can be, not even on the first day.'
        : `Every meal that should be hot is hot for ${daysOf(fedHot.days)}; after that some are cold.`,
    );
  else if (fed.days > 0) text.push('Every meal that should be hot can be hot all that time.');
  if (fed.days > 0 && !fed.planFound)
    text.push('There was no time to put these days on a calendar: plan them to be sure.');
  if (endsFed !== null) text.push(`For ${daysOf(endsFed.days)}: ${endsFed.text}`);
  if (endsFedHot !== null) text.push(`For ${daysOf(endsFedHot.days)} with every hot meal: ${endsFedHot.text}`);
  if (reverse !== null) {
    text.push(`To be fed for ${daysOf(reverse.days)}: ${reverse.fed.text}`);
    if (reverse.fed.text !== reverse.fedHot.text)
      text.push(`With every hot meal for ${daysOf(reverse.days)}: ${reverse.fedHot.text}`);
  }
  return text;
}

function rounded({ p10, p50, p90 }: Percentiles, digits: number): Percentiles {
  return { p10: round(p10, digits), p50: round(p50, digits), p90: round(p90, digits) };
}
