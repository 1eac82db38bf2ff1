/** The week that burns least for so many hot meals and so many repeats. */

import { sum } from '../rounding.ts';
import { type Aim, type IntegerProgramme, type SolveOptions, type Solver, solveOrThrow } from '../solver.ts';
import type { PreparedWeek } from '../week/prepared-week.ts';
import { weekHeat } from '../week/week-heat.ts';
import { type CountProgramme, countProgramme, withCounts } from './count-programme.ts';
import { aim } from './programme-builder.ts';
import { type WeekModel, weekModel } from './week-model.ts';
import { type Row, withRows } from './with-rows.ts';

/** Fitting a point onto days in other numbers gets this long, s. */
const LONGEST_FITTING_S = 3;
/** Fewer servings than this are none. */
const NO_SERVINGS = 0.02;
/** Share of fuel by which such a point may lie above the least that any plan could burn. */
const FITTING_ROOM = 0.03;

/** What the plan's own order of aims serves. */
export interface Service {
  servingsShort: number;
  unsafeL: number;
  nightsWithoutFeeds: number;
  energySteps: number;
  /** Meals that are hot where food energy comes first, and that could be where it does not. */
  hotMeals: number;
  mostHotMeals: number;
  daysWithoutHotWater: number;
}

/** A week of the least fuel. */
export interface LeastFuelWeek {
  /** What the values are of: the week in which so many meals need not be hot. */
  model: WeekModel;
  programme: CountProgramme;
  values: number[];
  /** Repeats of a plan by days; null: it was not put on days in time. */
  repeats: number | null;
  /** Food energy short, in hundredths of the need. */
  energySteps: number;
  /** What is served besides hot meals: as asked, or as much of it as the days can where they cannot do it all. */
  served: Service;
}

/** What the plan's own order of aims comes to, and how many meals could be hot where food energy did not come first. */
export async function serviceOf(
  prepared: PreparedWeek,
  solver: Solver,
  options: SolveOptions,
): Promise<Service | null> {
  const wanted = prepared.week.slots.filter((slot) => slot.hotWanted).length;
  // Every meal may be cold, and as few as can be are.
  const model = modelOf(prepared, wanted);
  const { columns } = model;
  const noHotWater = aim('hot-water', ones(columns.noHotWater), { absoluteGap: 0.5, relativeGap: 0, slack: 1e-6 });
  const programme = withRows(model.programme, [atMost('held_cold', ones(columns.cold), 1e-6)]);
  const orbits = { ...model.orbits, rows: [...model.orbits.rows, 'held cold'] };
  const counted = countProgramme(
    programme,
    [...model.aims, noHotWater].filter(({ columns: own }) => own.length > 0),
    orbits,
  );
  const solve = async (names: string[]) => {
    const aims = names.flatMap((name) => counted.aims.find((own) => own.name === name) ?? []);
    const outcome = await solveOrThrow(solver, counted.programme, aims, options);
    if (outcome.status !== 'solved') return null;
    const value = (name: string) => outcome.aims.find((own) => own.name === name)?.value ?? 0;
    return {
      value,
      hotMeals: wanted - Math.round(value('cold-meals')),
      daysWithoutHotWater: Math.round(value('hot-water')),
    };
  };
  const planned = await solve(['safe-water', 'night-feeds', 'feed-everyone', 'energy', 'cold-meals', 'hot-water']);
  if (planned === null) return null;
  const hotter =
    planned.hotMeals === wanted ? null : await solve(['safe-water', 'night-feeds', 'feed-everyone', 'cold-meals']);
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

/** The week in which so many meals need not be hot, as a plan for that point of the trade-off states it. */
function modelOf({ week, calendar }: PreparedWeek, coldMeals: number): WeekModel {
  const tradeOff = { coldMeals, repeats: null, energySteps: 0, heat: weekHeat(calendar) };
  return weekModel({ ...week, tradeOff });
}

/**
 * The least fuel heat with so many hot meals and at most so many repeats: by counts, then put on days with as few repeats
 * as these counts allow; where they fit on no days, the same ways in other numbers are tried.
 */
export async function leastFuel(
  prepared: PreparedWeek,
  service: Service,
  hotMeals: number,
  repeats: number | null,
  solver: Solver,
  options: SolveOptions,
): Promise<LeastFuelWeek | 'impossible' | null> {
  const wanted = prepared.week.slots.filter((slot) => slot.hotWanted).length;
  const model = modelOf(prepared, wanted - hotMeals);
  const { columns } = model;
  const held: Row[] = [];
  const hold = (terms: [number, number][], most: number) => {
    if (terms.length > 0) held.push(atMost(`held_${held.length}`, terms, most + 1e-6));
  };
  hold(ones(columns.short), service.servingsShort);
  hold(ones(columns.unsafe), service.unsafeL);
  hold(ones(model.aims.find(({ name }) => name === 'night-feeds')?.columns ?? []), service.nightsWithoutFeeds);
  // More hot meals than the plan has cost food energy: as little of it as can be.
  const energy = model.aims.find(({ name }) => name === 'energy');
  const costsEnergy = energy !== undefined && hotMeals > service.hotMeals;
  if (energy !== undefined && !costsEnergy) hold(energyTerms(energy), service.energySteps);
  hold(ones(columns.cold), 0);
  hold(ones(columns.noHotWater), service.daysWithoutHotWater);
  if (repeats !== null) hold(ones(columns.repeats), repeats);
  const programme = withRows(model.programme, held);
  const orbits = { ...model.orbits, rows: [...model.orbits.rows, ...held.map((_, at) => `held ${at}`)] };
  const named = (name: string) => model.aims.filter((own) => own.name === name);
  const [heat] = named('fuel-heat');
  if (heat === undefined) throw new Error('a week with a chosen point has the aim of its fuel heat');
  // In the order of a plan for this point: what spoils is lost whatever is spared.
  const aims = [...(costsEnergy ? [energy] : []), ...named('use-by'), heat];
  const energyOf = (values: readonly number[], countOf?: readonly number[]) =>
    Math.round(sum(energy?.columns ?? [], (column) => values[countOf?.[column] ?? column] ?? 0));
  const tidy = aim('repeats', ones(columns.repeats), { absoluteGap: 0.5, relativeGap: 0, slack: 1e-6 });
  const counted = countProgramme(programme, aims, orbits);
  const counts = await solved(solver, counted.programme, counted.aims, options);
  if (counts === null || counts === 'impossible') return counts;
  const fromCounts = (own: number | null): LeastFuelWeek => ({
    model,
    programme: counted,
    values: counts.values,
    repeats: own,
    energySteps: energyOf(counts.values, counted.countOf),
    served: service,
  });
  const placing = withCounts(programme, counted, counts.values, model.isCounted);
  const varied = columns.repeats.length === 0 ? [] : [tidy];
  const placed = await solved(solver, placing, varied.length === 0 ? aims : varied, options);
  if (placed !== null && placed !== 'impossible') return fromCounts(total(columns.repeats, placed.values));
  // The best counts do not fit on days: other counts that burn hardly more are looked for.
  const leastMJ = sum(
    heat.columns.map((column, at) => [column, heat.coefficients[at] as number] as const),
    ([column, mj]) => mj * shared(counted, counts.values, column),
  );
  const burning = heat.columns.map((column, at): [number, number] => [column, heat.coefficients[at] as number]);
  const near = withRows(programme, [
    atMost('hardly_more', burning, leastMJ * (1 + FITTING_ROOM) + 0.02),
    // Food energy comes before fuel here, too.
    ...(costsEnergy ? [atMost('no_less_energy', energyTerms(energy), energyOf(counts.values, counted.countOf))] : []),
  ]);
  const timeLimitS = Math.min(LONGEST_FITTING_S, options.timeLimitS);
  const briefly = { ...options, timeLimitS };
  let fitted = await solved(solver, near, [...aims, ...varied], briefly);
  // None burns hardly more: the days are solved for what they are.
  if (fitted === 'impossible') fitted = await solved(solver, programme, [...aims, ...varied], briefly);
  let served = service;
  if (fitted === 'impossible') {
    // Fewer repeats are no reason to serve less.
    if (repeats !== null) return fitted;
    // What the counts serve no days do: as much as the days can, in the order of a plan for this point.
    const hotAndEnergy = costsEnergy ? ['hot-meals', 'energy'] : ['energy', 'hot-meals'];
    const order = ['safe-water', 'night-feeds', 'feed-everyone', ...hotAndEnergy, 'use-by', 'fuel-heat'];
    fitted = await solved(solver, model.programme, [...order.flatMap(named), ...varied], briefly);
    if (fitted === null || fitted === 'impossible') return fromCounts(null);
    const { values } = fitted;
    const amountOf = (own: readonly number[]) => sum([...own], (column) => values[column] ?? 0);
    if (amountOf(columns.cold) > NO_SERVINGS) return 'impossible';
    served = {
      ...service,
      servingsShort: amountOf(columns.short),
      unsafeL: amountOf(columns.unsafe),
      nightsWithoutFeeds: amountOf(named('night-feeds').flatMap((own) => own.columns)),
      energySteps: costsEnergy ? service.energySteps : energyOf(values),
      daysWithoutHotWater: total(columns.noHotWater, values),
    };
  }
  if (fitted === null) return fromCounts(null);
  // Nothing is added up: a count for every column.
  const apart = countProgramme(programme, aims, {
    columns: programme.columnNames.map((_, at) => `${at}`),
    rows: programme.rowNames.map((_, at) => `${at}`),
  });
  const { values } = fitted;
  return {
    model,
    programme: apart,
    values,
    repeats: total(columns.repeats, values),
    energySteps: energyOf(values),
    served,
  };
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
  const outcome = await solveOrThrow(solver, programme, aims, options);
  if (outcome.status === 'infeasible') return 'impossible';
  return outcome.status === 'solved' ? { values: outcome.values } : null;
}

function energyTerms({ columns, coefficients }: Aim): [number, number][] {
  return columns.map((column, at) => [column, coefficients[at] as number]);
}

function ones(columns: readonly number[]): [number, number][] {
  return columns.map((column) => [column, 1]);
}

function total(columns: readonly number[], values: readonly number[]): number {
  return Math.round(sum([...columns], (column) => values[column] ?? 0));
}

function atMost(name: string, terms: Row['terms'], upper: number): Row {
  return { name, lower: Number.NEGATIVE_INFINITY, upper, terms };
}
