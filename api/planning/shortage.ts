/** Where people or hot meals must be missed: what is short, by how much, and since when. */
import { secondsOf } from './plan-proof.ts';
import type { Shortage } from './plan-types.ts';
import type { SolveOutcome, Solver } from './solver.ts';
import type { WeekInstance } from './week-instance.ts';
import { type WeekModelOptions, weekModel } from './week-model.ts';

/** Less extra than this is none: the engine's own room. In the unit of what was let go. */
const NOTHING_EXTRA = 1e-4;

type Relaxation = NonNullable<WeekModelOptions['relax']>;

export interface ShortageFinding {
  short: Shortage[];
  waysOut: string[];
  /** Everybody could be fed hot from what there is; dishes with more food energy were preferred. */
  nothingLacks: boolean;
}

/** A solve gets at least this long, or it finds nothing at all. */
const SHORTEST_SOLVE_S = 1;

/**
 * Solves again with one limit at a time let go and its excess made as small as it can be. A limit whose release alone
 * feeds everyone hot is a shortage of that thing, by that excess. An excess of nothing says that nothing lacks: food energy
 * comes before hot meals, so that a cold dish may have been preferred for its energy.
 * @param since date of the first meal that is missed or cold
 * @param missing servings not fed and hot servings missed in the plan
 */
export async function findShortages(
  week: WeekInstance,
  since: string,
  missing: { servings: number; hotServings: number },
  solver: Solver,
  options: { timeLimitS: number; signal?: AbortSignal },
): Promise<ShortageFinding> {
  const relaxations: Relaxation[] = [
    ...Object.keys(week.fuelByDay)
      .sort()
      .map((fuelId): Relaxation => ({ kind: 'fuel', fuelId })),
    { kind: 'water' },
    { kind: 'sets' },
    { kind: 'time' },
  ];
  const found: { relaxation: Relaxation; amount: number; share: number }[] = [];
  // A long plan would ask for as many long solves as there are limits: together they get twice the time of one.
  let leftS = 2 * options.timeLimitS;
  let unknown = false;
  for (const relax of relaxations) {
    if (leftS <= 0) {
      unknown = true;
      break;
    }
    const model = weekModel(week, { relax });
    const timeLimitS = Math.max(SHORTEST_SOLVE_S, Math.min(options.timeLimitS, leftS));
    const outcome = await solver.solve(model.programme, model.aims, { ...options, timeLimitS });
    if (outcome.status === 'solved' || outcome.status === 'no-solution-in-time') leftS -= secondsOf(outcome.aims);
    if (outcome.status === 'no-solution-in-time') unknown = true;
    const amounts = serviceOf(outcome);
    if (amounts === null || amounts.missing > 0.02) continue;
    const allowed =
      relax.kind === 'fuel'
        ? (week.fuelByDay[relax.fuelId]?.at(-1) ?? 0)
        : relax.kind === 'water'
          ? (week.safeWaterByDay.at(-1) ?? 0) + (week.treatableWaterByDay.at(-1) ?? 0)
          : 1;
    found.push({ relaxation: relax, amount: amounts.extra, share: amounts.extra / Math.max(allowed, 1e-6) });
  }
  if (found.length === 0) {
    const text = `${figure(missing.servings + missing.hotServings)} servings are missed or cold, and ${unknown ? 'there was no time to find out what lacks' : 'no single thing would mend it'}`;
    return {
      short: [
        { what: 'food', id: null, from: since, amount: missing.servings + missing.hotServings, unit: 'servings', text },
      ],
      waysOut: [
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
  return { short: [first], waysOut: rows.map((row) => wayOut(row)), nothingLacks: false };
}

function rank(relaxation: Relaxation): number {
  return relaxation.kind === 'fuel' ? 0 : relaxation.kind === 'water' ? 1 : relaxation.kind === 'sets' ? 2 : 3;
}

function serviceOf(outcome: SolveOutcome): { missing: number; extra: number } | null {
  if (outcome.status !== 'solved') return null;
  const value = (name: string) => outcome.aims.find((aim) => aim.name === name)?.value ?? 0;
  return { missing: value('feed-everyone') + value('hot-meals'), extra: value('extra') };
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
        text: `${figure(amount)} sets of kits short`,
      };
    case 'time':
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
      return `${figure(row.amount)} more sets of a kit that suits`;
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
