/** The curve between fuel spent and hot or varied meals, so that a household can choose a point on it. */
import { createCalculations } from '../../cooking/calculators/calculations.ts';
import type { Clock } from '../clock.ts';
import type { PlanInput } from '../make-plan.ts';
import { leastFuel, type Service, serviceOf } from '../programme/least-fuel.ts';
import { DEFAULT_TIME_LIMIT_S, type SolveProgress, type Solver } from '../solver.ts';
import { prepareWeek } from '../week/prepared-week.ts';
import { explainPoint } from './explain-trade-off.ts';
import { paretoOf, type TradeOffPoint, tradeOffPoint } from './trade-off-point.ts';

/** Numbers of hot meals, and of repeats, that are tried at most. */
const MOST_HOT_STEPS = 9;
const MOST_REPEAT_STEPS = 4;
/** One point gets this long at most, s; nothing is begun with less than the other left. */
const LONGEST_POINT_S = 4;
const SHORTEST_S = 0.3;

export type { TradeOffPoint } from './trade-off-point.ts';

export interface TradeOff {
  days: number;
  hotMealsWanted: number;
  /** From the least fuel to the most; no point is worse than another in all of fuel, hot meals and repeats. */
  points: TradeOffPoint[];
  notWorkedOut: string[];
  notes: string[];
}

export interface TradeOffPorts {
  solver: Solver;
  clock: Clock;
  signal?: AbortSignal;
  onProgress?: (progress: SolveProgress) => void;
  /** Lets a runtime answer others between two steps of laying out a week. */
  pause?: () => Promise<void>;
  /** Also the steps behind every point. */
  explain?: boolean;
}

/**
 * Works out the curve.
 *
 * For each number of hot meals from none to as many as can be, and for each number of repeats allowed, the week is solved
 * again by counts: fed as far as can be, then with the least fuel heat. What another point beats in fuel, hot meals and
 * repeats alike is left out.
 * @param input what the plan was made from
 * @throws SolveCancelledError; SolverBusyError
 */
export async function findTradeOff(input: PlanInput, ports: TradeOffPorts): Promise<TradeOff> {
  const { solver, clock, signal, pause, explain = false } = ports;
  const startedMs = clock.now();
  const timeLimitS = input.request.timeLimitS ?? DEFAULT_TIME_LIMIT_S;
  const elapsedS = () => (clock.now() - startedMs) / 1000;
  const leftS = () => timeLimitS - elapsedS();
  const options = () => ({
    timeLimitS: Math.max(0.1, Math.min(LONGEST_POINT_S, leftS())),
    ...(signal === undefined ? {} : { signal }),
  });
  const { days } = input.request;
  // Of a plan that was made at a point of the curve, the curve is that of the ordinary plan.
  const { tradeOff: _chosen, ...request } = input.request;
  const prepared = await prepareWeek({ ...input, request }, days, createCalculations(), { pause, signal });
  const wanted = prepared.week.slots.filter((slot) => slot.hotWanted).length;
  const notWorkedOut: string[] = [];
  const notes = [
    'Each point is the least fuel heat that was found for its hot meals and repeats; where it was put on days, a plan comes to it.',
    'Everybody is fed as far as the stores allow at every point, and there is the same hot water for washing.',
    'A plan for a point has so many cold meals and repeats at most, on the days that fit best.',
  ];
  const answer: TradeOff = { days, hotMealsWanted: wanted, points: [], notWorkedOut, notes };
  if (prepared.week.slots.length === 0) return answer;

  // What service comes to in the plan's own order: fed, then energy, then hot.
  const service = await serviceOf(prepared, solver, options());
  if (service === null) {
    notWorkedOut.push('the plan itself: allow more time');
    return answer;
  }
  const most = service.mostHotMeals;
  const found: TradeOffPoint[] = [];
  const tried = new Set<string>();
  const point = async (
    hotMeals: number,
    repeats: number | null,
    asked: Service = service,
  ): Promise<FreePoint | null> => {
    const key = `${hotMeals} ${repeats}`;
    if (tried.has(key)) return null;
    if (leftS() < SHORTEST_S) {
      notWorkedOut.push(`${hotMeals} hot meals${repeats === null ? '' : ` with at most ${repeats} repeats`}`);
      return null;
    }
    tried.add(key);
    ports.onProgress?.({ elapsedS: elapsedS(), aim: 'trade-off', best: hotMeals, bound: most, gap: null });
    const week = await leastFuel(prepared, asked, hotMeals, repeats, solver, options());
    if (week === 'impossible') return null;
    if (week === null) {
      notWorkedOut.push(`${hotMeals} hot meals${repeats === null ? '' : ` with at most ${repeats} repeats`}`);
      return null;
    }
    const bare = tradeOffPoint(prepared, week, hotMeals, service);
    const made = explain ? { ...bare, explanation: explainPoint(prepared, week, bare, { hotMeals, repeats }) } : bare;
    found.push(made);
    return { ...made, served: week.served };
  };
  // First as hot as can be and as planned, then from no hot meal upwards: where the least fuel gives more hot meals than
  // were asked for, the numbers between are the same week.
  const free: FreePoint[] = [];
  const step = Math.max(1, Math.ceil(most / (MOST_HOT_STEPS - 1)));
  for (const hotMeals of new Set([most, service.hotMeals])) {
    const made = await point(hotMeals, null);
    if (made !== null) free.push(made);
  }
  for (let hotMeals = 0; hotMeals < most; ) {
    const made = await point(hotMeals, null);
    if (made !== null) free.push(made);
    hotMeals = Math.max(hotMeals + step, (made?.hotMeals ?? 0) + 1);
  }
  // Then fewer repeats at each number of hot meals.
  for (const { hotMeals, repeats, onDays, served } of free) {
    if (!onDays || repeats === 0) continue;
    for (const allowed of spread(0, repeats - 1, MOST_REPEAT_STEPS - 1)) await point(hotMeals, allowed, served);
  }
  answer.points = paretoOf(found).sort((a, b) => a.fuelMJ.p50 - b.fuelMJ.p50);
  return answer;
}

/** A point with any number of repeats, and what is served at it besides hot meals. */
type FreePoint = TradeOffPoint & { served: Service };

/** Whole numbers from least to most, both ends among them, at most so many. */
function spread(least: number, most: number, atMost: number): number[] {
  if (most < least) return [];
  const count = Math.min(atMost, most - least + 1);
  if (count <= 1) return [most];
  return Array.from({ length: count }, (_, at) => Math.round(least + ((most - least) * at) / (count - 1)));
}
