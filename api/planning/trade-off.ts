/** The curve between fuel spent and hot or varied meals, so that a household can choose a point on it. */
import { createCalculations } from '../cooking/calculations.ts';
import type { Percentiles } from '../physics/parameter.ts';
import type { Clock } from './clock.ts';
import { type CountProgramme, countProgramme, withCounts } from './count-programme.ts';
import type { PlanInput } from './make-plan.ts';
import { type PreparedWeek, prepareWeek } from './prepared-week.ts';
import { aim } from './programme-builder.ts';
import { round, sum } from './rounding.ts';
import { SolveCancelledError } from './solve-week.ts';
import type { Aim, IntegerProgramme, SolveOptions, SolveProgress, Solver } from './solver.ts';
import { fuelHeatTerms, weekAmounts } from './week-amounts.ts';

const DEFAULT_TIME_LIMIT_S = 20;
/** Numbers of hot meals, and of repeats, that are tried at most. */
const MOST_HOT_STEPS = 9;
const MOST_REPEAT_STEPS = 4;
/** One point gets this long at most, s; nothing is begun with less than the other left. */
const LONGEST_POINT_S = 4;
const SHORTEST_S = 0.3;
/** Fitting a point onto days in other numbers gets this long, s. */
const LONGEST_FITTING_S = 3;
/** Share of fuel by which such a point may lie above the least that any plan could burn. */
const FITTING_ROOM = 0.03;
/** Less fuel than this is no saving: the tolerance to which a point is solved. */
const FUEL_TOLERANCE = 0.005;

export interface TradeOffPoint {
  /** Meals that are hot, of those that should be. */
  hotMeals: number;
  /** Times that a kit comes again within two days, on the best days for it. */
  repeats: number;
  /** Put on days; false: days were not worked out in time, and `repeats` may be more. */
  onDays: boolean;
  fuelMJ: Percentiles;
  /** kg (kWh) by fuel, typical. */
  fuel: { fuelId: string; kg: number; share: number }[];
  /** Largest share used of any fuel or of water for cooking. */
  largestShare: number;
  waterL: number;
  servingsShort: number;
  /** Food energy short of the plan's need, %. */
  energyShortPercent: number;
  /** As many meals are hot as can be where food energy comes first, as in the plan. */
  asHotAsPlanned: boolean;
  text: string;
}

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
  const { solver, clock, signal } = ports;
  const startedMs = clock.now();
  const timeLimitS = input.request.timeLimitS ?? DEFAULT_TIME_LIMIT_S;
  const elapsedS = () => (clock.now() - startedMs) / 1000;
  const leftS = () => timeLimitS - elapsedS();
  const options = () => ({
    timeLimitS: Math.max(0.1, Math.min(LONGEST_POINT_S, leftS())),
    ...(signal === undefined ? {} : { signal }),
  });
  const { days } = input.request;
  const prepared = prepareWeek(input, days, createCalculations());
  const wanted = prepared.week.slots.filter((slot) => slot.hotWanted).length;
  const notWorkedOut: string[] = [];
  const notes = [
    'Each point is the least fuel heat that was found for its hot meals and repeats; where it was put on days, a plan comes to it.',
    'Everybody is fed as far as the stores allow at every point, and there is the same hot water for washing.',
    'Choose a point by saying of a meal that it need not be hot, or by pinning a dish that may come again.',
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
  const point = async (hotMeals: number, repeats: number | null): Promise<TradeOffPoint | null> => {
    const key = `${hotMeals} ${repeats}`;
    if (tried.has(key)) return null;
    if (leftS() < SHORTEST_S) {
      notWorkedOut.push(`${hotMeals} hot meals${repeats === null ? '' : ` with at most ${repeats} repeats`}`);
      return null;
    }
    tried.add(key);
    ports.onProgress?.({ elapsedS: elapsedS(), aim: 'trade-off', best: hotMeals, bound: most, gap: null });
    const week = await leastFuel(prepared, service, hotMeals, repeats, solver, options());
    if (week === 'impossible') return null;
    if (week === null) {
      notWorkedOut.push(`${hotMeals} hot meals${repeats === null ? '' : ` with at most ${repeats} repeats`}`);
      return null;
    }
    const made = pointOf(prepared, week, hotMeals, service);
    found.push(made);
    return made;
  };
  // First as hot as can be and as planned, then from no hot meal upwards: where the least fuel gives more hot meals than
  // were asked for, the numbers between are the same week.
  const free: TradeOffPoint[] = [];
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
  for (const { hotMeals, repeats, onDays } of free) {
    if (!onDays || repeats === 0) continue;
    for (const allowed of spread(0, repeats - 1, MOST_REPEAT_STEPS - 1)) await point(hotMeals, allowed);
  }
  answer.points = paretoOf(found).sort((a, b) => a.fuelMJ.p50 - b.fuelMJ.p50);
  return answer;
}

interface Service {
  servingsShort: number;
  unsafeL: number;
  nightsWithoutFeeds: number;
  energySteps: number;
  /** Meals that are hot where food energy comes first, and that could be where it does not. */
  hotMeals: number;
  mostHotMeals: number;
  daysWithoutHotWater: number;
}

interface Solved {
  programme: CountProgramme;
  values: number[];
  /** Repeats of a plan by days; null: it was not put on days in time. */
  repeats: number | null;
  /** Food energy short, in hundredths of the need. */
  energySteps: number;
}

/** What the plan's own order of aims comes to, and how many meals could be hot where food energy did not come first. */
async function serviceOf(prepared: PreparedWeek, solver: Solver, options: SolveOptions): Promise<Service | null> {
  const { model, week } = prepared;
  const wanted = week.slots.filter((slot) => slot.hotWanted);
  const servings = sum(wanted, (slot) => slot.wantServings) / Math.max(1, wanted.length);
  const solve = async (names: string[]) => {
    const aims = model.aims.filter(({ name }) => names.includes(name));
    const counted = countProgramme(model.programme, aims, model.orbits);
    const outcome = await solver.solve(counted.programme, counted.aims, options);
    if (outcome.status === 'cancelled') throw new SolveCancelledError();
    if (outcome.status !== 'solved') return null;
    const amounts = weekAmounts(prepared, { programme: counted, values: outcome.values });
    return {
      value: (name: string) => outcome.aims.find((own) => own.name === name)?.value ?? 0,
      hotMeals: Math.floor(wanted.length - amounts.servingsCold / Math.max(servings, 1e-6) + 1e-6),
      daysWithoutHotWater: Math.round(amounts.daysWithoutHotWater),
    };
  };
  const planned = await solve(['safe-water', 'night-feeds', 'feed-everyone', 'energy', 'hot-meals']);
  if (planned === null) return null;
  const hotter =
    planned.hotMeals === wanted.length
      ? null
      : await solve(['safe-water', 'night-feeds', 'feed-everyone', 'hot-meals']);
  return {
    servingsShort: planned.value('feed-everyone'),
    unsafeL: planned.value('safe-water'),
    nightsWithoutFeeds: planned.value('night-feeds'),
    energySteps: planned.value('energy'),
    hotMeals: planned.hotMeals,
    mostHotMeals: Math.max(planned.hotMeals, hotter?.hotMeals ?? 0),
    daysWithoutHotWater: planned.daysWithoutHotWater,
  };
}

/**
 * The least fuel heat with so many hot meals and at most so many repeats: by counts, then put on days with as few repeats
 * as these counts allow; where they fit on no days, the same ways in other numbers are tried.
 */
async function leastFuel(
  prepared: PreparedWeek,
  service: Service,
  hotMeals: number,
  repeats: number | null,
  solver: Solver,
  options: SolveOptions,
): Promise<Solved | 'impossible' | null> {
  const { model, week } = prepared;
  const { columns } = model;
  const wanted = week.slots.filter((slot) => slot.hotWanted);
  const servings = sum(wanted, (slot) => slot.wantServings);
  const held: { terms: [number, number][]; most: number }[] = [];
  const hold = (terms: [number, number][], most: number) => {
    if (terms.length > 0) held.push({ terms, most: most + 1e-6 });
  };
  const ones = (list: readonly number[]): [number, number][] => list.map((column) => [column, 1]);
  hold(ones(columns.short), service.servingsShort);
  hold(ones(columns.unsafe), service.unsafeL);
  hold(ones(model.aims.find(({ name }) => name === 'night-feeds')?.columns ?? []), service.nightsWithoutFeeds);
  // More hot meals than the plan has cost food energy: as little of it as can be.
  const energy = model.aims.find(({ name }) => name === 'energy');
  const costsEnergy = energy !== undefined && hotMeals > service.hotMeals;
  if (energy !== undefined && !costsEnergy)
    hold(
      energy.columns.map((column, at) => [column, energy.coefficients[at] as number]),
      service.energySteps,
    );
  hold(ones(columns.cold), servings * (1 - hotMeals / Math.max(1, wanted.length)));
  hold(ones(columns.noHotWater), service.daysWithoutHotWater);
  if (repeats !== null) hold(ones(columns.repeats), repeats);
  const programme = withHeld(model.programme, held);
  const orbits = { ...model.orbits, rows: [...model.orbits.rows, ...held.map((_, at) => `held ${at}`)] };
  const heat = aim('fuel-heat', fuelHeatTerms(prepared), {
    absoluteGap: 0.01,
    relativeGap: FUEL_TOLERANCE,
    slack: 1e-6,
  });
  const aims = costsEnergy ? [energy, heat] : [heat];
  const energyOf = (values: readonly number[], countOf?: readonly number[]) =>
    Math.round(sum(energy?.columns ?? [], (column) => values[countOf?.[column] ?? column] ?? 0));
  const tidy = aim('repeats', ones(columns.repeats), { absoluteGap: 0.5, relativeGap: 0, slack: 1e-6 });
  const counted = countProgramme(programme, aims, orbits);
  const counts = await solved(solver, counted.programme, counted.aims, options);
  if (counts === null || counts === 'impossible') return counts;
  const fromCounts = (own: number | null): Solved => ({
    programme: counted,
    values: counts.values,
    repeats: own,
    energySteps: energyOf(counts.values, counted.countOf),
  });
  const placing = withCounts(programme, counted, counts.values, model.isCounted);
  const varied = columns.repeats.length === 0 ? [] : [tidy];
  const placed = await solved(solver, placing, varied.length === 0 ? aims : varied, options);
  if (placed !== null && placed !== 'impossible') return fromCounts(total(columns.repeats, placed.values));
  // The best counts do not fit on days: other counts that burn hardly more are looked for.
  const heatTerms = fuelHeatTerms(prepared);
  const leastMJ = sum(
    heat.columns.map((column, at) => [column, heat.coefficients[at] as number] as const),
    ([column, mj]) => mj * shared(counted, counts.values, column),
  );
  const near = withHeld(programme, [
    { terms: heatTerms.filter(([, mj]) => mj > 0), most: leastMJ * (1 + FITTING_ROOM) + 0.02 },
  ]);
  const timeLimitS = Math.min(LONGEST_FITTING_S, options.timeLimitS);
  const briefly = { ...options, timeLimitS };
  let fitted = await solved(solver, near, varied.length === 0 ? aims : varied, briefly);
  // None burns hardly more: the days are solved for what they are.
  if (fitted === 'impossible') fitted = await solved(solver, programme, [...aims, ...varied], briefly);
  if (fitted === null || fitted === 'impossible') return fromCounts(null);
  // Nothing is added up: a count for every column.
  const apart = countProgramme(programme, aims, {
    columns: programme.columnNames.map((_, at) => `${at}`),
    rows: programme.rowNames.map((_, at) => `${at}`),
  });
  const { values } = fitted;
  return { programme: apart, values, repeats: total(columns.repeats, values), energySteps: energyOf(values) };
}

/** A column's even share of its count. */
function shared({ countOf }: CountProgramme, values: readonly number[], column: number): number {
  const count = countOf[column] as number;
  return (values[count] as number) / countOf.filter((own) => own === count).length;
}

async function solved(
  solver: Solver,
  programme: IntegerProgramme,
  aims: Aim[],
  options: SolveOptions,
): Promise<{ values: number[] } | 'impossible' | null> {
  const outcome = await solver.solve(programme, aims, options);
  if (outcome.status === 'cancelled') throw new SolveCancelledError();
  if (outcome.status === 'infeasible') return 'impossible';
  return outcome.status === 'solved' ? { values: outcome.values } : null;
}

function total(columns: readonly number[], values: readonly number[]): number {
  return Math.round(sum([...columns], (column) => values[column] ?? 0));
}

function withHeld(
  programme: IntegerProgramme,
  held: readonly { terms: [number, number][]; most: number }[],
): IntegerProgramme {
  const out: IntegerProgramme = {
    ...programme,
    rowNames: [...programme.rowNames],
    starts: [...programme.starts],
    columns: [...programme.columns],
    coefficients: [...programme.coefficients],
    rowLower: [...programme.rowLower],
    rowUpper: [...programme.rowUpper],
  };
  held.forEach(({ terms, most }, index) => {
    out.rowNames.push(`held_${index}`);
    out.rowLower.push(Number.NEGATIVE_INFINITY);
    out.rowUpper.push(most);
    for (const [column, coefficient] of terms) {
      out.columns.push(column);
      out.coefficients.push(coefficient);
    }
    out.starts.push(out.columns.length);
  });
  return out;
}

function pointOf(prepared: PreparedWeek, week: Solved, asked: number, service: Service): TradeOffPoint {
  const { days, slots, safeWaterByDay, treatableWaterByDay, fuelByDay } = prepared.week;
  const amounts = weekAmounts(prepared, week);
  const shouldBeHot = slots.filter((slot) => slot.hotWanted);
  const wanted = shouldBeHot.length;
  const perMeal = sum(shouldBeHot, (slot) => slot.wantServings) / Math.max(1, wanted);
  const hotMeals = Math.max(asked, Math.floor(amounts.hotServings / Math.max(perMeal, 1e-6) + 0.02));
  const last = days - 1;
  const availableL = (safeWaterByDay[last] ?? 0) + (treatableWaterByDay[last] ?? 0);
  const fuel = Object.entries(amounts.fuel).map(([fuelId, used]) => ({
    fuelId,
    kg: round(used.p50, 3),
    share: round(used.p90 / Math.max(1e-6, fuelByDay[fuelId]?.[last] ?? 0), 3),
  }));
  const largestShare = Math.max(
    availableL <= 0 ? 0 : round(amounts.cookL / availableL, 3),
    ...fuel.filter(({ kg }) => kg > 0).map(({ share }) => share),
  );
  const repeats = week.repeats ?? 0;
  const { p10, p50, p90 } = amounts.fuelMJ;
  const dishes =
    week.repeats === null
      ? 'how varied was not worked out'
      : repeats === 0
        ? 'no dish again within two days'
        : `a dish again within two days ${repeats} ${repeats === 1 ? 'time' : 'times'}`;
  return {
    hotMeals,
    repeats,
    onDays: week.repeats !== null,
    fuelMJ: { p10: round(p10, 2), p50: round(p50, 2), p90: round(p90, 2) },
    fuel,
    largestShare,
    waterL: round(amounts.cookL, 1),
    servingsShort: round(amounts.servingsShort, 1),
    energyShortPercent: week.energySteps,
    asHotAsPlanned: hotMeals === service.hotMeals,
    text: `${hotMeals} of ${wanted} meals hot that should be, ${dishes}: ${round(p50, 1)} MJ, nine times in ten at most ${round(p90, 1)} MJ.${week.energySteps > service.energySteps ? ` ${week.energySteps} % of the food energy is then short.` : ''}`,
  };
}

/** Points that no other beats in fuel, hot meals and repeats alike; of equal ones the first. */
function paretoOf(points: readonly TradeOffPoint[]): TradeOffPoint[] {
  return points.filter((point, at) =>
    points.every((other, otherAt) => {
      if (other === point) return true;
      const noWorse =
        other.fuelMJ.p50 <= point.fuelMJ.p50 * (1 + FUEL_TOLERANCE) &&
        other.hotMeals >= point.hotMeals &&
        repeatsOf(other) <= repeatsOf(point);
      if (!noWorse) return true;
      const better =
        other.fuelMJ.p50 < point.fuelMJ.p50 * (1 - FUEL_TOLERANCE) ||
        other.hotMeals > point.hotMeals ||
        repeatsOf(other) < repeatsOf(point);
      return !better && otherAt > at;
    }),
  );
}

/** Repeats that were not worked out may be any number. */
function repeatsOf({ repeats, onDays }: TradeOffPoint): number {
  return onDays ? repeats : Number.POSITIVE_INFINITY;
}

/** Whole numbers from least to most, both ends among them, at most so many. */
function spread(least: number, most: number, atMost: number): number[] {
  if (most < least) return [];
  const count = Math.min(atMost, most - least + 1);
  if (count <= 1) return [most];
  return Array.from({ length: count }, (_, at) => Math.round(least + ((most - least) * at) / (count - 1)));
}
