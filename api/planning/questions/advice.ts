/** What to get or do next: every change is planned again, compared with the plan, and ranked. */
import { createCalculations } from '../../cooking/calculators/calculations.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import type { Clock } from '../clock.ts';
import type { PlanInput } from '../make-plan.ts';
import { canServe, type Demand } from '../programme/serve-question.ts';
import { countsOf } from '../programme/solve-week.ts';
import { round } from '../rounding.ts';
import { DEFAULT_TIME_LIMIT_S, type SolveProgress, type Solver } from '../solver.ts';
import { type PreparedWeek, plainWeek, prepareWeek, withAmountsOf } from '../week/prepared-week.ts';
import { weekAmounts } from '../week/week-amounts.ts';
import { type AdviceChange, adviceChanges } from './advice-changes.ts';
import { type AdviceItem, adviceItem, byWorth, NO_SERVINGS, NOTHING_CHANGES } from './advice-item.ts';
import { MOST_DAYS, mostDaysByArithmetic } from './days-by-arithmetic.ts';
import { explainAdvice, type WeekCompared } from './explain-advice.ts';

/** One question over counts, and one comparison, get this long at most, s. */
const LONGEST_QUESTION_S = 3;
const LONGEST_COMPARISON_S = 3;
/** What must be proven before one week is said to serve more than another. */
const SERVICE_AIMS: ReadonlySet<string> = new Set([
  'safe-water',
  'night-feeds',
  'feed-everyone',
  'energy',
  'hot-meals',
]);
/** Nothing is begun with less than this left, s. */
const SHORTEST_S = 0.3;
/** Aims that tell how much is used. */
const SPARING_AIM = /^scarcest-|^fuel-heat$/;

export type { AdviceItem } from './advice-item.ts';

export interface Advice {
  days: number;
  /** Days that can be fed as things are; null: no time to find out. */
  daysFed: number | null;
  daysFedHot: number | null;
  fuelMJ: Percentiles;
  waterL: number;
  /** Best first; what is there already comes last. */
  items: AdviceItem[];
  /** Names of kits of which one more set changes nothing. */
  withoutEffect: string[];
  notApplicable: { id: string; text: string }[];
  notWorkedOut: string[];
  /** How the figures are to be read. */
  notes: string[];
}

export interface AdvicePorts {
  solver: Solver;
  clock: Clock;
  signal?: AbortSignal;
  onProgress?: (progress: SolveProgress) => void;
  /** Lets a runtime answer others between two steps of laying out a week. */
  pause?: () => Promise<void>;
  /** Also the steps behind every line. */
  explain?: boolean;
}

/**
 * Advice for a plan.
 *
 * Each change is applied to the household or the stock, the week is solved again by counts, and the last day that can be
 * fed is looked for again. Days come first, then servings, then the scarcest share, then fuel and water.
 * @param input what the plan was made from
 * @throws SolveCancelledError; SolverBusyError
 */
export async function findAdvice(input: PlanInput, ports: AdvicePorts): Promise<Advice> {
  const { solver, clock, signal, pause, explain = false } = ports;
  const startedMs = clock.now();
  const timeLimitS = input.request.timeLimitS ?? DEFAULT_TIME_LIMIT_S;
  const elapsedS = () => (clock.now() - startedMs) / 1000;
  const leftS = () => timeLimitS - elapsedS();
  const within = (longest: number) => ({
    timeLimitS: Math.max(0.1, Math.min(longest, leftS())),
    ...(signal === undefined ? {} : { signal }),
  });
  const calculations = createCalculations();
  const { days } = input.request;
  const notWorkedOut: string[] = [];

  const bases = new Map<number, PreparedWeek>();
  const layingOut = { open: true, pause, signal };
  const baseOf = async (length: number): Promise<PreparedWeek> => {
    const known = bases.get(length) ?? (await prepareWeek(input, length, calculations, layingOut));
    bases.set(length, known);
    return known;
  };
  const weekOf = async (change: AdviceChange | null, changed: PlanInput, length: number): Promise<PreparedWeek> =>
    change === null
      ? baseOf(length)
      : change.onlyAmounts
        ? withAmountsOf(await baseOf(length), changed)
        : prepareWeek(changed, length, calculations, layingOut);
  const ask = async (laidOut: Promise<PreparedWeek>, demand: Demand): Promise<boolean | null> => {
    const week = plainWeek(await laidOut);
    if (week.situation.water.baseShort !== null) return false;
    if (leftS() < SHORTEST_S) return null;
    return (await canServe(week.model, { demand }, solver, within(LONGEST_QUESTION_S))).possible;
  };

  const base = await baseOf(days);
  // Food energy comes before hot meals in a plan; where that takes too long to prove, weeks are compared without it.
  const withEnergy = await figuresOf(base, solver, within(LONGEST_COMPARISON_S), []);
  const leftOut = withEnergy?.proven === false ? ['energy'] : [];
  const before =
    leftOut.length === 0 ? withEnergy : await figuresOf(base, solver, within(LONGEST_COMPARISON_S), leftOut);
  const { changes, notApplicable } = adviceChanges(base);
  const nothing: Percentiles = { p10: 0, p50: 0, p90: 0 };
  const answer: Advice = {
    days,
    daysFed: null,
    daysFedHot: null,
    fuelMJ: before?.fuelMJ ?? nothing,
    waterL: round(before?.cookL ?? 0, 1),
    items: [],
    withoutEffect: [],
    notApplicable,
    notWorkedOut,
    notes: [
      'Each line is planned again by itself: two together bring less, or more, than their sum.',
      'Days are counted at the 90th percentile of fuel: nine times in ten they are reached.',
      'Figures are by counts of ways of cooking, which is nearly always what a plan comes to.',
    ],
  };
  if (before === null) {
    notWorkedOut.push('the plan itself: allow more time');
    return answer;
  }

  // As things are.
  const upper = mostDaysByArithmetic(input);
  const last = async (demand: Demand, from: number, most: number): Promise<number | null> =>
    lastPossible(from, most, (length) => ask(weekOf(null, input, length), demand));
  answer.daysFed = await last('fed', days, upper);
  answer.daysFedHot = answer.daysFed === null ? null : await last('fed-hot', answer.daysFed, answer.daysFed);

  for (const [index, change] of changes.entries()) {
    if (leftS() < SHORTEST_S) {
      notWorkedOut.push(...changes.slice(index).map(({ text }) => text));
      break;
    }
    ports.onProgress?.({ elapsedS: elapsedS(), aim: change.id, best: index, bound: changes.length, gap: null });
    const changed = change.apply(input);
    // A set more changes a plan only where food is short; its days are asked for in any case.
    const sameWeek = change.kind === 'kit' && before.servingsShort < NO_SERVINGS && before.cold < NO_SERVINGS;
    const after = sameWeek
      ? before
      : await figuresOf(await weekOf(change, changed, days), solver, within(LONGEST_COMPARISON_S), leftOut);
    // What was not proven might have come out better: nothing is said of it.
    if (after === null || (before.proven && !after.proven)) {
      notWorkedOut.push(change.text);
      continue;
    }
    const [daysFed, daysFedHot] = [answer.daysFed, answer.daysFedHot];
    let daysGained: AdviceItem['daysGained'] = null;
    if (daysFed !== null && daysFedHot !== null) {
      const most = mostDaysByArithmetic(changed);
      const weeks = new Map<number, Promise<PreparedWeek>>();
      const changedWeek = (length: number) => {
        const known = weeks.get(length) ?? weekOf(change, changed, length);
        weeks.set(length, known);
        return known;
      };
      const fed = await lastPossible(daysFed, most, (length) => ask(changedWeek(length), 'fed'), !change.already);
      const fedHot =
        fed === null
          ? null
          : await lastPossible(
              Math.min(fed, daysFedHot),
              fed,
              (length) => ask(changedWeek(length), 'fed-hot'),
              !change.already,
            );
      if (fed !== null && fedHot !== null) {
        const sign = change.already ? -1 : 1;
        daysGained = { fed: sign * (fed - daysFed), fedHot: sign * (fedHot - daysFedHot) };
      } else notWorkedOut.push(`the days that are gained by: ${change.text}`);
    }
    const bare = adviceItem(change, before, after, daysGained);
    const item = explain
      ? { ...bare, explanation: explainAdvice(bare, before, after, { days, daysFed, daysFedHot }) }
      : bare;
    if (change.kitName !== undefined && item.effect === NOTHING_CHANGES) answer.withoutEffect.push(change.kitName);
    else answer.items.push(item);
  }
  answer.items.sort(byWorth);
  return answer;
}

/**
 * The last number of days for which the answer is yes, where more days never make it easier.
 * @param from where to begin
 * @param most beyond which it is no
 * @param isKnown the answer is yes up to `from`
 * @returns 0 where it is never yes; null where it was not found out
 */
async function lastPossible(
  from: number,
  most: number,
  ask: (days: number) => Promise<boolean | null>,
  isKnown = false,
): Promise<number | null> {
  const upper = Math.min(most, MOST_DAYS);
  let low = isKnown ? Math.min(from, upper) : 0;
  let high = upper + 1;
  let days = isKnown ? low + 1 : Math.min(Math.max(1, from), upper);
  let step = 1;
  while (high - low > 1) {
    const possible = await ask(days);
    if (possible === null) return null;
    if (possible) {
      low = days;
      days += step;
      step *= 2;
    } else {
      high = days;
      // Downwards the end is near too: what is taken away seldom costs more than a day or two.
      days = low === 0 ? Math.max(1, days - step) : days;
      if (low === 0) step *= 2;
    }
    if (days >= high || days <= low) days = Math.floor((low + high) / 2);
  }
  return low;
}

/** The week by counts: served as far as can be, then with the least of what is scarcest. */
async function figuresOf(
  prepared: PreparedWeek,
  solver: Solver,
  options: { timeLimitS: number; signal?: AbortSignal },
  leftOut: readonly string[],
): Promise<WeekCompared | null> {
  const { model } = prepared;
  if (model.programme.columnNames.length === 0) return null;
  const aims = model.aims
    .filter(({ name }) => name !== 'variety-then-tending' && !leftOut.includes(name))
    // Weeks are compared: what is within the tolerance of a plan would look like a saving.
    .map((own) => (SPARING_AIM.test(own.name) ? { ...own, absoluteGap: 1e-4, relativeGap: 5e-4 } : own));
  const counts = await countsOf({ ...model, aims }, solver, options);
  if (counts === null) return null;
  const { servingsShort, servingsCold, daysWithoutHotWater, fuelMJ, fuel, cookL } = weekAmounts(prepared, counts);
  const share = counts.aims.find(({ name }) => name === 'scarcest-largest-share')?.value ?? 0;
  const shareOf = scarcestOf(prepared, fuel, cookL);
  const proven = counts.aims.filter(({ name }) => SERVICE_AIMS.has(name)).every((own) => own.closed);
  return {
    servingsShort,
    cold: servingsCold,
    daysWithoutHotWater,
    share,
    shareOf,
    fuelMJ,
    fuel,
    cookL,
    proven,
    prepared,
    counts,
  };
}

/** The fuel of which the largest share is used, or water. */
function scarcestOf({ week }: PreparedWeek, fuel: Record<string, Percentiles>, cookL: number): string {
  const last = week.days - 1;
  const shares: [string, number][] = [
    ...Object.entries(fuel).map(([fuelId, used]): [string, number] => [
      fuelId,
      used.p90 / Math.max(1e-6, week.fuelByDay[fuelId]?.[last] ?? 0),
    ]),
    ['water', cookL / Math.max(1e-6, (week.safeWaterByDay[last] ?? 0) + (week.treatableWaterByDay[last] ?? 0))],
  ];
  return shares.reduce((most, row) => (row[1] > most[1] ? row : most))[0];
}
