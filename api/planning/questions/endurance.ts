/** How many days a household can be fed from what it has, what ends it, and what would be missing for more. */

import { createCalculations } from '../../cooking/calculators/calculations.ts';
import type { ExplanationStep } from '../../cooking/calculators/calculator-types.ts';
import type { Clock } from '../clock.ts';
import { addDays } from '../local-time.ts';
import type { PlanInput } from '../make-plan.ts';
import type { PlanRequest } from '../plan-types.ts';
import { canServe, type Demand, type ServeAnswer } from '../programme/serve-question.ts';
import { DEFAULT_TIME_LIMIT_S, type SolveProgress, type Solver } from '../solver.ts';
import { type PreparedWeek, prepareWeek } from '../week/prepared-week.ts';
import { MOST_DAYS, mostDaysByArithmetic } from './days-by-arithmetic.ts';
import { curveDays, type EndurancePoint, pointOfCurve } from './endurance-curve.ts';
import { enduranceInWords } from './endurance-words.ts';
import { explainDays } from './explain-endurance.ts';
import { placedOnDays, whatHinders } from './on-days.ts';
import { type Missing, whatIsMissing } from './what-is-missing.ts';

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
/** First number of days that is tried; most stores last longer than three days, and a short week is soon laid out. */
const FIRST_TRY_DAYS = 4;

export type { EndurancePoint } from './endurance-curve.ts';

/** A request for a plan with the days left open; given days ask what is missing to reach them. */
export type EnduranceRequest = Omit<PlanRequest, 'days'> & { days?: number };
export type EnduranceInput = Omit<PlanInput, 'request'> & { request: EnduranceRequest };

export interface EndurancePorts {
  solver: Solver;
  clock: Clock;
  signal?: AbortSignal;
  onProgress?: (progress: SolveProgress) => void;
  /** Lets a runtime answer others between two steps of laying out a week. */
  pause?: () => Promise<void>;
  /** Also the steps behind days and points of the curve. */
  explain?: boolean;
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
  /** Where it was asked for: the steps behind the days. */
  explanation?: ExplanationStep[];
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
  const { solver, clock, signal, pause, explain = false } = ports;
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
  const weekOf = async (days: number, open = false): Promise<PreparedWeek> => {
    const key = `${days} ${open}`;
    const known = weeks.get(key) ?? (await prepareWeek(planInput, days, calculations, { open, pause, signal }));
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
    const prepared = await weekOf(days);
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
    // The least number of days that is proven to be too many.
    let tooMany = atMost + 1;
    let days = Math.min(Math.max(low + 1, first), atMost);
    while (high - low > 1) {
      if (elapsedS() > untilS) break;
      tell(demand, low, high - 1);
      const possible = demand === 'fed' ? await askBoth(days) : (await ask(days, demand)).possible;
      if (possible === true) low = days;
      else {
        high = days;
        if (possible === false) tooMany = days;
      }
      days = high === atMost + 1 ? Math.min(atMost, Math.max(low + 1, low * 2)) : Math.floor((low + high) / 2);
    }
    // Longer plans are not made, so that nothing is proven of them.
    return { ...servedDays(low), atMost: tooMany - 1, noMorePossible: tooMany === low + 1 && low < MOST_DAYS };
  };
  const servedDays = (days: number) => ({ days, lastDate: days === 0 ? null : dateOf(days), planFound: false });
  const confirmed = async (found: DaysServed, demand: Demand, untilS: number): Promise<DaysServed> => {
    for (let days = found.days; days >= 1; days -= 1) {
      const timeS = Math.min(leftS(), untilS - elapsedS());
      if (timeS < 0.3) return { ...found, ...servedDays(days), noMorePossible: false };
      tell(`${demand}-plan`, days, found.atMost);
      const onDays = await placedOnDays(
        await weekOf(days),
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
  // Looked for up to the days that are fed: what is not known of these is not known of hot meals either.
  if (fedHot.atMost === fed.days)
    fedHot = { ...fedHot, atMost: fed.atMost, noMorePossible: fedHot.noMorePossible && fed.noMorePossible };
  fedHot = await confirmed(fedHot, 'fed-hot', timeLimitS * HOT_SHARE + 0.1 * timeLimitS);
  if (fedHot.planFound && fedHot.days === fed.days) fed = { ...fed, planFound: true };
  else fed = await confirmed(fed, 'fed', timeLimitS * PLAN_SHARE);
  if (fedHot.days > fed.days) fedHot = { ...fedHot, days: fed.days, lastDate: fed.lastDate };

  const missingAt = async (days: number, demand: Demand): Promise<Missing> =>
    whatIsMissing(await weekOf(days, true), demand, solver, leftS, signal);
  const ending = async (found: DaysServed, demand: Demand): Promise<EndOfDays | null> => {
    const days = found.days + 1;
    if (days > MOST_DAYS) return null;
    tell(`${demand}-end`, found.days, found.atMost);
    const missing = await missingAt(days, demand);
    if (missing.possible !== true) return { days, date: dateOf(days), ...missing };
    // Amounts would do, and yet no plan by days was found: single days do not allow it.
    const { text } = await whatHinders(await weekOf(days), demand, solver, leftS, signal);
    return { days, date: dateOf(days), ...missing, possible: found.noMorePossible ? false : null, text };
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
    const point = await pointOfCurve(
      await weekOf(days),
      days,
      { fed: fed.days, fedHot: fedHot.days },
      solver,
      optionsFor(Math.min(LONGEST_POINT_S, leftS() * 0.6)),
      explain,
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
  const answer = { startsAt: input.request.startsAt, fed, fedHot, endsFed, endsFedHot, curve, reverse };
  const { situation } = await weekOf(Math.max(1, fed.days));
  return {
    ...answer,
    text: enduranceInWords(answer, situation.slots.length === 0),
    notWorkedOut,
    ...(explain ? { explanation: explainDays(answer, upper) } : {}),
  };

  function skipped(what: string): null {
    notWorkedOut.push(what);
    return null;
  }
}

function enough(): Missing {
  return { possible: true, alone: [], together: [], text: 'Nothing is missing.', complete: true };
}
