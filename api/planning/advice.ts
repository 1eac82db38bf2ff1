/** What to get or do next: every change is planned again, compared with the plan, and ranked. */
import { createCalculations } from '../cooking/calculations.ts';
import type { Percentiles } from '../physics/parameter.ts';
import { type AdviceChange, adviceChanges } from './advice-changes.ts';
import type { Clock } from './clock.ts';
import { MOST_DAYS, mostDaysByArithmetic } from './days-by-arithmetic.ts';
import type { PlanInput } from './make-plan.ts';
import { type PreparedWeek, prepareWeek, withAmountsOf } from './prepared-week.ts';
import { round } from './rounding.ts';
import { canServe, type Demand } from './serve-question.ts';
import { countsOf } from './solve-week.ts';
import type { SolveProgress, Solver } from './solver.ts';
import { weekAmounts } from './week-amounts.ts';
import { inWords } from './what-is-missing.ts';

const DEFAULT_TIME_LIMIT_S = 20;
/** One question over counts, and one comparison, get this long at most, s. */
const LONGEST_QUESTION_S = 3;
const LONGEST_COMPARISON_S = 5;
/** Nothing is begun with less than this left, s. */
const SHORTEST_S = 0.3;
/** Less than these is no change: what nobody measures, and shares of the plan's own within the tolerance of its aims. */
const NO_SHARE = 0.005;
const NO_MJ = 0.05;
const NO_WATER_L = 0.1;
const NO_SERVINGS = 0.05;
const NO_SHARE_OF_PLAN = 0.015;
/** A saving of this share of the plan's own P10 to P90 is surely seen; of that share, probably. */
const SURE_SHARE = 0.5;
const PROBABLE_SHARE = 0.2;

const NOTHING_CHANGES = 'Nothing changes.';

export type ConfidenceLevel = 'high' | 'middle' | 'low';

export interface AdviceItem {
  id: string;
  kind: AdviceChange['kind'];
  text: string;
  /** Already there; what follows is what it is worth. */
  already: boolean;
  /** More days fed, and more days with every hot meal; null: no time to find out. */
  daysGained: { fed: number; fedHot: number } | null;
  /** Within the plan's days: more servings, and more of the wanted hot ones. */
  servingsGained: number;
  hotServingsGained: number;
  /** More days with their hot water. */
  hotWaterDaysGained: number;
  /** Largest share used of any fuel or of water, and of which. */
  scarcestShare: { before: number; after: number; ofBefore: string; ofAfter: string };
  fuelSavedMJ: number;
  /** kg (kWh) by fuel; negative where more of it is burnt in the place of another. */
  fuelSaved: { fuelId: string; kg: number }[];
  waterSavedL: number;
  confidence: { level: ConfidenceLevel; why: string };
  /** What it brings, in a sentence. */
  effect: string;
}

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
}

interface Figures {
  servingsShort: number;
  cold: number;
  daysWithoutHotWater: number;
  share: number;
  /** Of which fuel, or `water`, that share is. */
  shareOf: string;
  fuelMJ: Percentiles;
  fuel: Record<string, Percentiles>;
  cookL: number;
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
  const { solver, clock, signal } = ports;
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
  const baseOf = (length: number): PreparedWeek => {
    const known = bases.get(length) ?? prepareWeek(input, length, calculations, true);
    bases.set(length, known);
    return known;
  };
  const weekOf = (change: AdviceChange | null, changed: PlanInput, length: number): PreparedWeek =>
    change === null
      ? baseOf(length)
      : change.onlyAmounts
        ? withAmountsOf(baseOf(length), changed)
        : prepareWeek(changed, length, calculations, true);
  const ask = async (week: PreparedWeek, demand: Demand): Promise<boolean | null> => {
    if (week.situation.water.baseShort !== null) return false;
    if (leftS() < SHORTEST_S) return null;
    return (await canServe(week.model, { demand }, solver, within(LONGEST_QUESTION_S))).possible;
  };

  const base = baseOf(days);
  const before = await figuresOf(base, solver, within(LONGEST_COMPARISON_S));
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
      : await figuresOf(weekOf(change, changed, days), solver, within(LONGEST_COMPARISON_S));
    if (after === null) {
      notWorkedOut.push(change.text);
      continue;
    }
    const [daysFed, daysFedHot] = [answer.daysFed, answer.daysFedHot];
    let daysGained: AdviceItem['daysGained'] = null;
    if (daysFed !== null && daysFedHot !== null) {
      const most = mostDaysByArithmetic(changed);
      const weeks = new Map<number, PreparedWeek>();
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
    const item = itemOf(change, before, after, daysGained);
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
): Promise<Figures | null> {
  const { model } = prepared;
  if (model.programme.columnNames.length === 0) return null;
  const counts = await countsOf(
    { ...model, aims: model.aims.filter(({ name }) => name !== 'variety-then-tending') },
    solver,
    options,
  );
  if (counts === null) return null;
  const { servingsShort, servingsCold, daysWithoutHotWater, fuelMJ, fuel, cookL } = weekAmounts(prepared, counts);
  const share = counts.aims.find(({ name }) => name === 'scarcest-largest-share')?.value ?? 0;
  const shareOf = scarcestOf(prepared, fuel, cookL);
  return { servingsShort, cold: servingsCold, daysWithoutHotWater, share, shareOf, fuelMJ, fuel, cookL };
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

function itemOf(
  change: AdviceChange,
  before: Figures,
  after: Figures,
  daysGained: AdviceItem['daysGained'],
): AdviceItem {
  // What is there already is worth what would be lost without it.
  const sign = change.already ? -1 : 1;
  const gain = (from: number, to: number) => sign * (from - to);
  const fuelSaved = Object.keys({ ...before.fuel, ...after.fuel })
    .sort()
    .flatMap((fuelId) => {
      const kg = round(gain(before.fuel[fuelId]?.p50 ?? 0, after.fuel[fuelId]?.p50 ?? 0), 3);
      const least = Math.max(0.005, NO_SHARE_OF_PLAN * (before.fuel[fuelId]?.p50 ?? 0));
      return Math.abs(kg) < least ? [] : [{ fuelId, kg }];
    });
  const item = {
    id: change.id,
    kind: change.kind,
    text: change.text,
    already: change.already,
    daysGained,
    servingsGained: notable(gain(before.servingsShort, after.servingsShort), NO_SERVINGS, 1),
    hotServingsGained: notable(gain(before.cold, after.cold), NO_SERVINGS, 1),
    hotWaterDaysGained: notable(gain(before.daysWithoutHotWater, after.daysWithoutHotWater), NO_SERVINGS, 0),
    scarcestShare: {
      before: round(before.share, 3),
      after: round(after.share, 3),
      ofBefore: before.shareOf,
      ofAfter: after.shareOf,
    },
    fuelSavedMJ: notable(
      gain(before.fuelMJ.p50, after.fuelMJ.p50),
      Math.max(NO_MJ, NO_SHARE_OF_PLAN * before.fuelMJ.p50),
      2,
    ),
    fuelSaved,
    waterSavedL: notable(gain(before.cookL, after.cookL), Math.max(NO_WATER_L, NO_SHARE_OF_PLAN * before.cookL), 1),
  };
  return { ...item, confidence: confidenceOf(change, item, before), effect: effectOf(item) };
}

/**
 * How sure the gain is. An amount is added up. What changes the way of cooking is held against the plan's own spread: a
 * saving of at least half of P90 less P10 is seen whatever the week is like. Days and servings that are gained are counted
 * with fuel at its 90th percentile, so that they are never less than probable. What rests on common practice is never
 * sure.
 */
function confidenceOf(
  change: AdviceChange,
  { fuelSavedMJ, servingsGained, hotServingsGained, daysGained }: Omit<AdviceItem, 'confidence' | 'effect'>,
  before: Figures,
): AdviceItem['confidence'] {
  if (change.basis === 'amount')
    return { level: 'high', why: 'An amount that is added up; fuel is counted so that it suffices nine times in ten.' };
  const band = before.fuelMJ.p90 - before.fuelMJ.p10;
  const share = band <= 0 ? 0 : Math.abs(fuelSavedMJ) / band;
  const serves =
    servingsGained > 0 || hotServingsGained > 0 || (daysGained?.fed ?? 0) > 0 || (daysGained?.fedHot ?? 0) > 0;
  const level: ConfidenceLevel = share >= SURE_SHARE ? 'high' : share >= PROBABLE_SHARE || serves ? 'middle' : 'low';
  const spread = `what it changes in fuel is ${Math.round(100 * share)} % of the range in which the plan's own fuel lies 8 times in 10`;
  const counted = serves ? '; days and servings are counted so that the fuel suffices nine times in ten' : '';
  return change.basis === 'common-practice'
    ? {
        level: level === 'high' ? 'middle' : level,
        why: `Common practice, not a measurement: what a screen saves depends on the wind. By the tables ${spread}${counted}.`,
      }
    : { level, why: `By published relations; ${spread}${counted}.` };
}

function effectOf(item: Omit<AdviceItem, 'confidence' | 'effect'>): string {
  const parts: string[] = [];
  const count = (number: number, one: string, many: string) => `${number} ${number === 1 ? one : many}`;
  const { daysGained } = item;
  if (daysGained !== null && daysGained.fed !== 0)
    parts.push(`${count(Math.abs(daysGained.fed), 'day', 'days')} ${daysGained.fed > 0 ? 'more' : 'fewer'} fed`);
  if (daysGained !== null && daysGained.fedHot !== 0 && daysGained.fedHot !== daysGained.fed)
    parts.push(
      `${count(Math.abs(daysGained.fedHot), 'day', 'days')} ${daysGained.fedHot > 0 ? 'more' : 'fewer'} with every hot meal`,
    );
  if (item.servingsGained !== 0)
    parts.push(`${Math.abs(item.servingsGained)} servings ${item.servingsGained > 0 ? 'more' : 'fewer'}`);
  if (item.hotServingsGained !== 0)
    parts.push(`${Math.abs(item.hotServingsGained)} hot servings ${item.hotServingsGained > 0 ? 'more' : 'fewer'}`);
  if (item.hotWaterDaysGained !== 0)
    parts.push(
      `hot water on ${count(Math.abs(item.hotWaterDaysGained), 'day', 'days')} ${item.hotWaterDaysGained > 0 ? 'more' : 'fewer'}`,
    );
  const { before, after, ofBefore, ofAfter } = item.scarcestShare;
  if (Math.abs(after - before) >= NO_SHARE) {
    const now = `${percent(before)} of the ${inWords(ofBefore)} that may be used`;
    const then = `${percent(after)} of the ${inWords(ofAfter)}`;
    parts.push(
      item.already ? `what is scarcest: ${now}, without it ${then}` : `what is scarcest: ${then} instead of ${now}`,
    );
  }
  if (item.fuelSavedMJ !== 0) {
    const fuels = item.fuelSaved.map(
      ({ fuelId, kg }) =>
        `${Math.abs(kg)} ${fuelId === 'electricity' ? 'kWh' : 'kg'} ${kg > 0 ? 'less' : 'more'} ${inWords(fuelId)}`,
    );
    parts.push(
      `${Math.abs(item.fuelSavedMJ)} MJ ${item.fuelSavedMJ > 0 ? 'less' : 'more'} fuel${fuels.length > 0 ? ` (${fuels.join(', ')})` : ''}`,
    );
  }
  if (item.waterSavedL !== 0)
    parts.push(`${Math.abs(item.waterSavedL)} L ${item.waterSavedL > 0 ? 'less' : 'more'} water`);
  if (parts.length === 0)
    return daysGained === null ? 'Nothing changes within the plan; days were not worked out.' : NOTHING_CHANGES;
  return `${parts.join('; ')}.`;
}

function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}

function notable(value: number, least: number, digits: number): number {
  return Math.abs(value) < least ? 0 : round(value, digits);
}

/** Best first: days, days with every hot meal, servings, the scarcest share, fuel, water; then as listed. */
function byWorth(a: AdviceItem, b: AdviceItem): number {
  const worth = (item: AdviceItem): number[] => [
    item.already ? 0 : 1,
    item.daysGained?.fed ?? 0,
    item.daysGained?.fedHot ?? 0,
    item.servingsGained,
    item.hotServingsGained,
    item.hotWaterDaysGained,
    Math.round((item.scarcestShare.before - item.scarcestShare.after) / NO_SHARE) * (item.already ? -1 : 1),
    item.fuelSavedMJ,
    item.waterSavedL,
  ];
  const left = worth(a);
  const right = worth(b);
  const at = left.findIndex((value, index) => Math.abs(value - (right[index] as number)) > 1e-9);
  return at < 0 ? 0 : (right[at] as number) - (left[at] as number);
}
