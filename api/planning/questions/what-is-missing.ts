/** The least that is missing to feed a week: of each thing alone, and of several together where no single one suffices. */
import type { PricedLimit } from '../programme/limit-groups.ts';
import { canServe, type Demand, type ServeAnswer } from '../programme/serve-question.ts';
import { sum } from '../rounding.ts';
import type { Solver } from '../solver.ts';
import type { PreparedWeek } from '../week/prepared-week.ts';

/** A thing of which more is wanted. */
export interface MissingThing {
  /** A fuel id, `water`, `sets`, `lightings` or `outdoor-minutes`, as limits of a plan are named. */
  limit: string;
  amount: number;
  unit: string;
  text: string;
}

export interface Missing {
  /** Everybody can be served from what there is. null: not found out in time. */
  possible: boolean | null;
  /** Each of these alone suffices, the smallest share of what there is first. */
  alone: MissingThing[];
  /** What is needed together where nothing suffices alone; empty otherwise. */
  together: MissingThing[];
  /** In one sentence. */
  text: string;
  /** Everything that was asked was found out in time. */
  complete: boolean;
}

/** What things are measured against where there is none of them. */
const LEAST_FUEL = 0.5;
const LEAST_WATER_L = 10;
const LEAST_SETS = 1;
/** Less than this is nothing, in the unit of the limit. */
const NOTHING = 1e-3;

/**
 * Finds the least extra of each thing.
 *
 * Each is a solve in which that limit may be exceeded and its excess is made small; together, excesses count by their
 * share of what there is.
 * @param prepared laid out open, so that fuels and kits of which there is nothing are looked at too
 * @param leftS seconds that are left, asked before every solve
 * @throws SolveCancelledError; SolverBusyError
 */
export async function whatIsMissing(
  prepared: PreparedWeek,
  demand: Demand,
  solver: Solver,
  leftS: () => number,
  signal?: AbortSignal,
): Promise<Missing> {
  const limits = pricedLimits(prepared);
  // People, animals and washing come before cooking: what they lack no fuel can replace.
  const baseL = prepared.situation.water.baseShort?.litres ?? 0;
  let complete = true;
  const ask = async (extras: PricedLimit[]) => {
    const timeLimitS = Math.min(leftS(), LONGEST_QUESTION_S);
    if (timeLimitS < SHORTEST_QUESTION_S) {
      complete = false;
      return null;
    }
    const answer = await canServe(
      prepared.model,
      { demand, extras },
      solver,
      signal === undefined ? { timeLimitS } : { timeLimitS, signal },
    );
    if (answer.possible === null) complete = false;
    return answer.possible === true ? answer : null;
  };
  const namesOf = ({ sets }: ServeAnswer) =>
    sets.map((row) => ({
      sets: row.sets,
      name: prepared.situation.kits.find(({ kit }) => kit.id === row.kitId)?.kit.name ?? inWords(row.kitId),
    }));
  const found: { thing: MissingThing; share: number }[] = [];
  for (const limit of limits) {
    if (baseL > 0 && limit.group.kind !== 'water') continue;
    const answer = await ask([limit]);
    if (answer === null) continue;
    const amount = (answer.extras[0] ?? 0) + (limit.group.kind === 'water' ? baseL : 0);
    if (amount < NOTHING) return { ...NOTHING_MISSING, complete };
    found.push({ thing: thingOf(limit.group, amount, namesOf(answer)), share: amount * limit.price });
  }
  found.sort((a, b) => a.share - b.share);
  const alone = found.map(({ thing }) => thing);
  let together: MissingThing[] = [];
  if (alone.length === 0) {
    const answer = await ask(limits);
    if (answer !== null) {
      const amounts = limits.map(({ group }, at) => (answer.extras[at] ?? 0) + (group.kind === 'water' ? baseL : 0));
      if (sum(amounts, (amount) => amount) < NOTHING) return { ...NOTHING_MISSING, complete };
      together = limits.flatMap(({ group }, at) => {
        const amount = amounts[at] as number;
        return amount < NOTHING ? [] : [thingOf(group, amount, namesOf(answer))];
      });
    }
  }
  const possible = complete || alone.length > 0 || together.length > 0 ? false : null;
  return { possible, alone, together, text: sentence(alone, together, complete), complete };
}

/** Shortest and longest time for one question, s. */
const SHORTEST_QUESTION_S = 0.2;
const LONGEST_QUESTION_S = 5;

const NOTHING_MISSING: Missing = {
  possible: true,
  alone: [],
  together: [],
  text: 'Nothing is missing.',
  complete: true,
};

/** Fuels, water, sets, fires and minutes outdoors, each priced by what there is of it. */
function pricedLimits({ week, situation }: PreparedWeek): PricedLimit[] {
  const fuels = Object.keys(week.fuelByDay)
    .sort()
    .map(
      (fuelId): PricedLimit => ({
        group: { kind: 'fuel', fuelId },
        price: 1 / Math.max(LEAST_FUEL, week.fuelByDay[fuelId]?.at(-1) ?? 0),
      }),
    );
  const { safeL, treatL } = situation.water;
  return [
    ...fuels,
    { group: { kind: 'water' }, price: 1 / Math.max(LEAST_WATER_L, safeL + treatL) },
    {
      group: { kind: 'sets' },
      price:
        1 /
        Math.max(
          LEAST_SETS,
          sum(Object.values(week.sets), (sets) => sets),
        ),
    },
    { group: { kind: 'fires' }, price: 1 / Math.max(1, week.lightingsPerDay) },
    { group: { kind: 'outdoors' }, price: 1 / Math.max(30, week.outdoorMinutesPerDay) },
  ];
}

/** A missing amount, rounded up so that it suffices. */
function thingOf(
  group: PricedLimit['group'],
  amount: number,
  kits: readonly { name: string; sets: number }[],
): MissingThing {
  switch (group.kind) {
    case 'fuel': {
      const unit = group.fuelId === 'electricity' ? 'kWh' : 'kg';
      const rounded = roundedUp(amount, 2);
      return { limit: group.fuelId, amount: rounded, unit, text: `${rounded} ${unit} more ${inWords(group.fuelId)}` };
    }
    case 'water': {
      const rounded = roundedUp(amount, amount > 10 ? 0 : 1);
      return { limit: 'water', amount: rounded, unit: 'L', text: `${rounded} L more water` };
    }
    case 'sets': {
      const rounded = roundedUp(amount, 0);
      // Other kits of the same size would do as well; too many names help nobody.
      const named = inList(
        kits.map(({ name, sets }) => (kits.length === 1 ? name : `${sets} of ${name}`)),
        'and',
      );
      const text =
        kits.length > 4
          ? `${rounded} more sets of kits that suit the meals`
          : `${rounded} more ${rounded === 1 ? 'set' : 'sets'}, such as ${named}`;
      return { limit: 'sets', amount: rounded, unit: 'sets', text };
    }
    case 'fires': {
      const rounded = roundedUp(amount, 0);
      const text = `${rounded} more ${rounded === 1 ? 'fire' : 'fires'} a day`;
      return { limit: 'lightings', amount: rounded, unit: 'lightings', text };
    }
    case 'outdoors': {
      const rounded = Math.ceil(roundedUp(amount, 0) / 5) * 5;
      return { limit: 'outdoor-minutes', amount: rounded, unit: 'min', text: `${rounded} min more outdoors a day` };
    }
  }
}

function sentence(alone: MissingThing[], together: MissingThing[], complete: boolean): string {
  if (alone.length > 0) {
    const [first, ...others] = alone.map(({ text }) => text);
    return others.length === 0
      ? `${first} would do.`
      : `${first} would do; or, instead of it, ${inList(others, 'or')}.`;
  }
  if (together.length > 0) {
    return `No single thing would do. Together these would: ${inList(
      together.map(({ text }) => text),
      'and',
    )}.`;
  }
  return complete
    ? 'No amount of fuel, water, kits, fires or minutes would do: kits that suit the meals and pots that hold them are missing.'
    : 'There was no time to find out what is missing.';
}

/** A fuel or kit id as it stands in a sentence. */
export function inWords(id: string): string {
  return id.replaceAll('-', ' ');
}

export function inPercent(share: number): string {
  return `${Math.round(share * 100)} %`;
}

/** `a, b and c` */
export function inList(items: readonly string[], last: 'and' | 'or'): string {
  if (items.length < 2) return items[0] ?? '';
  return `${items.slice(0, -1).join(', ')} ${last} ${items.at(-1)}`;
}

function roundedUp(amount: number, digits: number): number {
  const factor = 10 ** digits;
  return Math.ceil(amount * factor - 1e-6) / factor;
}
