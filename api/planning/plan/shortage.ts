/** Where people or hot meals must be missed: what is short, by how much, and since when. */

import type { Shortage } from '../plan-types.ts';
import { withCounts } from '../programme/count-programme.ts';
import { type PricedLimit, withExtras, withoutLimits } from '../programme/limit-groups.ts';
import { aim } from '../programme/programme-builder.ts';
import { countsOf } from '../programme/solve-week.ts';
import { type WeekModel, weekModel } from '../programme/week-model.ts';
import { sum } from '../rounding.ts';
import { type Aim, type AimOutcome, type SolveOptions, type Solver, solveOrThrow } from '../solver.ts';
import type { WeekInstance } from '../week/week-instance.ts';
import { secondsOf } from './plan-proof.ts';

/** Less extra than this is none: the engine's own room. In the unit of what was let go. */
const NOTHING_EXTRA = 1e-4;

/** A limit that is let go to find out what lacks: exceeded by an amount, or, with fires and minutes outdoors, altogether. */
type Relaxation = PricedLimit['group'] | { kind: 'time' };

export interface ShortageFinding {
  short: Shortage[];
  waysOut: string[];
  /** Everybody could be fed hot from what there is; dishes with more food energy were preferred. */
  nothingLacks: boolean;
}

/** A solve gets at least this long, or it finds nothing at all. */
const SHORTEST_SOLVE_S = 1;
/** What must be served, in the order in which it is missed least; food energy aside. */
const SERVED_AIMS = ['safe-water', 'night-feeds', 'feed-everyone', 'hot-meals'];
const MISSED_NOTHING = 0.02;

/**
 * Solves again with one limit at a time let go and its excess made as small as it can be. A limit whose release alone
 * feeds everyone hot is a shortage of that thing, by that excess. An excess of nothing says that nothing lacks: food energy
 * comes before hot meals, so that a cold dish may have been preferred for its energy.
 *
 * Each is solved over counts first, whose excess no plan by days can go below; where these counts can be put on days, it
 * is the excess of the days too, and else the days are solved.
 * @param week laid out open, so that fuels and kits of which there is nothing are looked at too
 * @param since date of the first meal that is missed or cold
 * @param missing servings not fed and hot servings missed in the plan
 * @throws SolveCancelledError; SolverBusyError
 */
export async function findShortages(
  week: WeekInstance,
  since: string,
  missing: { servings: number; hotServings: number },
  solver: Solver,
  options: { timeLimitS: number; signal?: AbortSignal },
): Promise<ShortageFinding> {
  const stated = weekModel(week);
  const relaxations: Relaxation[] = [
    ...Object.keys(week.fuelByDay)
      .sort()
      .map((fuelId): Relaxation => ({ kind: 'fuel', fuelId })),
    { kind: 'water' },
    { kind: 'sets' },
    { kind: 'time' },
  ];
  const found: { relaxation: Relaxation; amount: number; share: number }[] = [];
  const bounds: string[] = [];
  // A long plan would ask for as many long solves as there are limits: together they get twice the time of one.
  let leftS = 2 * options.timeLimitS;
  let unknown = false;
  for (const relaxation of relaxations) {
    if (leftS <= 0) {
      unknown = true;
      break;
    }
    const timeLimitS = Math.max(SHORTEST_SOLVE_S, Math.min(options.timeLimitS, leftS));
    const answer = await leastExcess(stated, relaxation, solver, { ...options, timeLimitS });
    leftS -= answer.seconds;
    if (answer.excess === null) {
      unknown ||= answer.unknown;
      // No plan by days was found in time, and none can do with less.
      if (answer.unknown && answer.atLeast !== null)
        bounds.push(`At least ${wayOut(shortageOf(relaxation, roundUp(answer.atLeast), since))}`);
      continue;
    }
    found.push({
      relaxation,
      amount: answer.excess,
      share: answer.excess / Math.max(allowedOf(week, relaxation), 1e-6),
    });
  }
  if (found.length === 0) {
    const text = `${figure(missing.servings + missing.hotServings)} servings are missed or cold, and ${unknown ? 'there was no time to find out what lacks' : 'no single thing would mend it'}`;
    return {
      short: [
        { what: 'food', id: null, from: since, amount: missing.servings + missing.hotServings, unit: 'servings', text },
      ],
      waysOut: [
        ...bounds,
        unknown
          ? 'Plan fewer days, or allow more time for planning'
          : 'Fewer people at the table, fewer days, or more of several things at once',
      ],
      nothingLacks: false,
    };
  }
  if (found.some(({ relaxation, amount }) => relaxation.kind !== 'time' && amount < NOTHING_EXTRA))
    return { short: [], waysOut: [], nothingLacks: true };
  found.sort((a, b) => rank(a.relaxation) - rank(b.relaxation) || a.share - b.share);
  const rows = found.map(({ relaxation, amount }) => shortageOf(relaxation, roundUp(amount), since));
  const first = rows[0] as Shortage;
  return { short: [first], waysOut: [...rows.map((row) => wayOut(row)), ...bounds], nothingLacks: false };
}

/**
 * The least by which a limit must be exceeded so that everybody is fed hot; null: that alone does not do, or `unknown`,
 * and then `atLeast` what the counts ask for.
 */
async function leastExcess(
  stated: WeekModel,
  relaxation: Relaxation,
  solver: Solver,
  options: SolveOptions,
): Promise<{ excess: number | null; atLeast: number | null; unknown: boolean; seconds: number }> {
  const { model, columns } =
    relaxation.kind === 'time'
      ? { model: withoutLimits(stated, [{ kind: 'fires' }, { kind: 'outdoors' }]), columns: [] }
      : withExcess(stated, relaxation);
  const excess = columns.map((column): [number, number] => [column, 1]);
  const service = stated.aims.filter(({ name }) => SERVED_AIMS.includes(name));
  const aims: Aim[] = [
    ...service,
    ...(excess.length === 0 ? [] : [aim('extra', excess, { absoluteGap: 1e-3, relativeGap: 0.005, slack: 1e-6 })]),
  ];
  const judge = (outcomes: readonly AimOutcome[], of: 'value' | 'bound') =>
    sum(
      [...outcomes].filter(({ name }) => name === 'feed-everyone' || name === 'hot-meals'),
      (own) => own[of],
    );
  const extraOf = (outcomes: readonly AimOutcome[]) => outcomes.find(({ name }) => name === 'extra')?.value ?? 0;
  const counts = await countsOf({ ...model, aims }, solver, { ...options, timeLimitS: options.timeLimitS / 2 });
  let seconds = counts === null ? options.timeLimitS / 2 : secondsOf(counts.aims);
  // Counts bound the days from below: what they miss is missed on days too.
  if (counts !== null && judge(counts.aims, 'bound') > MISSED_NOTHING)
    return { excess: null, atLeast: null, unknown: false, seconds };
  // Fires and minutes have no amount.
  const atLeast = counts === null || excess.length === 0 ? null : extraOf(counts.aims);
  const settled =
    counts === null ? [] : [withCounts(model.programme, counts.programme, counts.values, model.isCounted)];
  for (const programme of [...settled, model.programme]) {
    const leftS = Math.max(SHORTEST_SOLVE_S, options.timeLimitS - seconds);
    const outcome = await solveOrThrow(solver, programme, aims, { ...options, timeLimitS: leftS });
    if (outcome.status === 'infeasible') continue;
    seconds += secondsOf(outcome.aims);
    if (outcome.status === 'no-solution-in-time') return { excess: null, atLeast, unknown: true, seconds };
    const missed = judge(outcome.aims, 'value');
    if (missed <= MISSED_NOTHING) return { excess: extraOf(outcome.aims), atLeast, unknown: false, seconds };
    // Other counts may do on days what these do not.
    if (programme === model.programme) return { excess: null, atLeast, unknown: !outcome.closed, seconds };
  }
  return { excess: null, atLeast, unknown: true, seconds };
}

/** The week with one limit exceedable; of kits, the sets of all of them together. */
function withExcess(stated: WeekModel, group: PricedLimit['group']): { model: WeekModel; columns: number[] } {
  const { model, extras } = withExtras(stated, [group]);
  return { model, columns: extras.flat().map(({ column }) => column) };
}

function allowedOf(week: WeekInstance, relaxation: Relaxation): number {
  if (relaxation.kind === 'fuel') return week.fuelByDay[relaxation.fuelId]?.at(-1) ?? 0;
  if (relaxation.kind === 'water') return (week.safeWaterByDay.at(-1) ?? 0) + (week.treatableWaterByDay.at(-1) ?? 0);
  return 1;
}

function rank(relaxation: Relaxation): number {
  return relaxation.kind === 'fuel' ? 0 : relaxation.kind === 'water' ? 1 : relaxation.kind === 'sets' ? 2 : 3;
}

function shortageOf(relaxation: Relaxation, amount: number, since: string): Shortage {
  switch (relaxation.kind) {
    case 'fuel':
      return {
        what: 'fuel',
        id: relaxation.fuelId,
        from: since,
        amount,
        unit: relaxation.fuelId === 'electricity' ? 'kWh' : 'kg',
        text: `${figure(amount)} ${relaxation.fuelId === 'electricity' ? 'kWh' : 'kg'} ${relaxation.fuelId.replaceAll('-', ' ')} short`,
      };
    case 'water':
      return { what: 'water', id: null, from: since, amount, unit: 'L', text: `${figure(amount)} L water short` };
    case 'sets':
      return {
        what: 'food',
        id: null,
        from: since,
        amount,
        unit: 'sets',
        text: `${figure(amount)} ${amount === 1 ? 'set' : 'sets'} of kits short`,
      };
    default:
      return {
        what: 'time',
        id: null,
        from: since,
        amount: 0,
        unit: 'min',
        text: 'the fires a day and the minutes outdoors do not suffice',
      };
  }
}

function wayOut(row: Shortage): string {
  switch (row.what) {
    case 'fuel':
      return `${figure(row.amount)} ${row.unit} more ${(row.id ?? 'fuel').replaceAll('-', ' ')}`;
    case 'water':
      return `${figure(row.amount)} L more water`;
    case 'food':
      return `${figure(row.amount)} more ${row.amount === 1 ? 'set' : 'sets'} of kits that suit`;
    case 'time':
      return 'One more fire a day, or more minutes outdoors';
  }
}

/** Rounded up, so that the figure suffices. */
function roundUp(amount: number): number {
  return Math.ceil(amount * 1000 - 1e-6) / 1000;
}

function figure(amount: number): string {
  return String(Math.round(amount * 100) / 100);
}
