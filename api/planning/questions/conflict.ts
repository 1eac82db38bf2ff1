/**
 * Where people cannot be fed: an irreducible set of limits in conflict. All of its members together make it impossible,
 * and dropping any one of them resolves this conflict; conflicts that remain then are listed after it.
 */
import { isRowOf, type LimitGroup } from '../programme/limit-groups.ts';
import { canServe, type Demand } from '../programme/serve-question.ts';
import { round, sum } from '../rounding.ts';
import type { Solver } from '../solver.ts';
import type { PreparedWeek } from '../week/prepared-week.ts';
import { inList, inWords } from './what-is-missing.ts';

/** One limit of a conflict. */
export interface ConflictingLimit {
  /** A fuel id, `water`, `sets`, `lightings`, `outdoor-minutes`, `minutes-of-a-fire`, or the id of a pot, bowl or box. */
  limit: string;
  text: string;
  /** What dropping it means in the kitchen. */
  wayOut: string;
}

export interface Conflict {
  /** What cannot be had: everybody fed, or all wanted meals hot. */
  demand: Demand;
  limits: ConflictingLimit[];
  text: string;
  /** Every member was shown to be needed: without any one of them this conflict is gone. */
  irreducible: boolean;
}

export interface ConflictFinding {
  conflicts: Conflict[];
  /** What no limit has to do with: no stove, no pot, nothing in store that suits. */
  facts: Fact[];
  /** All conflicts were found. */
  complete: boolean;
}

export interface Fact {
  text: string;
  wayOut: string;
}

/** Conflicts that are listed at most. */
const MOST_CONFLICTS = 4;
/** One question over counts gets this long at most, s; shorter ones are not begun. */
const LONGEST_QUESTION_S = 3;
const SHORTEST_QUESTION_S = 0.1;

/**
 * Finds the conflicts of a week that cannot serve what is demanded.
 *
 * Deletion filter: with all limits it is impossible; each limit in turn is left out, and stays out where it is impossible
 * all the same. What stays in is irreducible. Asked over counts, so that every conflict holds for plans by days too. The
 * search then goes on without the limits found, for conflicts that share none of them.
 * @param prepared laid out open
 * @param leftS seconds that are left, asked before every solve
 * @returns no conflicts where the demand can be met over counts
 * @throws SolveCancelledError; SolverBusyError
 */
export async function findConflicts(
  prepared: PreparedWeek,
  demand: Demand,
  solver: Solver,
  leftS: () => number,
  signal?: AbortSignal,
): Promise<ConflictFinding> {
  const { situation, model } = prepared;
  const conflicts: Conflict[] = [];
  let complete = true;
  const { baseShort } = situation.water;
  const settled: LimitGroup[] = [];
  if (baseShort !== null) {
    conflicts.push(waterOfPeople(prepared));
    settled.push({ kind: 'water' });
  }
  const isImpossible = async (without: readonly LimitGroup[]): Promise<boolean | null> => {
    const timeLimitS = Math.min(leftS(), LONGEST_QUESTION_S);
    if (timeLimitS < SHORTEST_QUESTION_S) return null;
    const options = signal === undefined ? { timeLimitS } : { timeLimitS, signal };
    const { possible } = await canServe(model, { demand, without }, solver, options);
    return possible === null ? null : !possible;
  };
  const groups = groupsOf(prepared);
  const facts = factsOf(prepared, demand);
  while (conflicts.length < MOST_CONFLICTS) {
    const impossible = await isImpossible(settled);
    if (impossible === null) complete = false;
    if (impossible !== true) break;
    const open = groups.filter((group) => !settled.some((other) => isSame(other, group)));
    const filtered = await deletionFilter(open, settled, isImpossible);
    if (filtered.members.length === 0) {
      // Impossible without any limit: no conflict, but a lack.
      if (facts.length === 0) facts.push(nothingSuits(prepared, demand));
      break;
    }
    // Which pots, bowls or boxes: the same filter once more, with each thing for itself.
    const others = filtered.members.filter((group) => group.kind !== 'things');
    let { members, irreducible } = filtered;
    if (members.length > others.length) {
      const things: LimitGroup[] = thingsOf(prepared).map((id) => ({ kind: 'thing', id }));
      const apart: LimitGroup[] = [...settled, ...open.filter((group) => !members.some((own) => isSame(own, group)))];
      const finer = await deletionFilter([...things, ...others], apart, isImpossible);
      if (finer.members.length > 0) {
        members = finer.members;
        irreducible = irreducible && finer.irreducible;
      }
      settled.push({ kind: 'things' });
    }
    conflicts.push(conflictOf(prepared, demand, members, irreducible));
    settled.push(...members);
  }
  return { conflicts, facts, complete };
}

/** Conflicts as a plan lists them: what is missing altogether comes first, each such thing for itself. */
export function conflictsWithFacts({ conflicts, facts }: ConflictFinding, demand: Demand): Conflict[] {
  const missing = facts.map(
    ({ text, wayOut }): Conflict => ({
      demand,
      limits: [{ limit: 'missing', text, wayOut }],
      text: `${text}.`,
      irreducible: true,
    }),
  );
  return [...missing, ...conflicts];
}

/** Leaves out one limit after the other, as long as it stays impossible. */
async function deletionFilter(
  groups: readonly LimitGroup[],
  apart: readonly LimitGroup[],
  isImpossible: (without: readonly LimitGroup[]) => Promise<boolean | null>,
): Promise<{ members: LimitGroup[]; irreducible: boolean }> {
  let members = [...groups];
  let irreducible = true;
  for (const group of groups) {
    const left = members.filter((other) => other !== group);
    const out = groups.filter((other) => !left.includes(other));
    const impossible = await isImpossible([...apart, ...out]);
    if (impossible === true) members = left;
    else if (impossible === null) irreducible = false;
  }
  return { members, irreducible };
}

/** All limits, in the order in which they are left out: what is least easily changed stays in longest. */
function groupsOf({ week, model }: PreparedWeek): LimitGroup[] {
  const all: LimitGroup[] = [
    { kind: 'things' },
    { kind: 'clock' },
    { kind: 'outdoors' },
    { kind: 'fires' },
    ...Object.keys(week.fuelByDay)
      .sort()
      .map((fuelId): LimitGroup => ({ kind: 'fuel', fuelId })),
    { kind: 'sets' },
    { kind: 'water' },
  ];
  // A limit that no way touches is no part of any conflict.
  return all.filter((group) => model.programme.rowNames.some((name) => isRowOf(group, name)));
}

function isSame(one: LimitGroup, other: LimitGroup): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

function thingsOf({ week }: PreparedWeek): string[] {
  return [...new Set(week.options.flatMap((option) => option.uses.map((use) => use.resource)))].sort();
}

function conflictOf(
  prepared: PreparedWeek,
  demand: Demand,
  members: readonly LimitGroup[],
  irreducible: boolean,
): Conflict {
  const limits = members.map((group) => limitInWords(prepared, group));
  const cannot = demand === 'fed' ? 'not everybody can be fed' : 'not every wanted meal can be hot with everybody fed';
  const texts = limits.map((limit) => limit.text);
  const text =
    limits.length === 1
      ? `${asSentence(texts[0] as string)}: because of that alone, ${cannot}.`
      : `${asSentence(cannot)}, because these do not go together: ${inList(texts, 'and')}. Giving way on any one of them resolves this.`;
  return { demand, limits, text, irreducible };
}

function asSentence(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}

/** People, animals and washing need more than there is. */
function waterOfPeople({ situation }: PreparedWeek): Conflict {
  const litres = round(situation.water.baseShort?.litres ?? 0, 1);
  const days = situation.days.length;
  const lasts = situation.water.baseShort?.day ?? 0;
  const limit: ConflictingLimit = {
    limit: 'water',
    text: `Drinking, hygiene, animals and washing-up for ${days} days need ${litres} L more water than there is`,
    wayOut:
      lasts > 0 ? `${litres} L more water, or plan ${lasts} ${lasts === 1 ? 'day' : 'days'}` : `${litres} L more water`,
  };
  return { demand: 'fed', limits: [limit], text: `${limit.text}.`, irreducible: true };
}

/** A limit as people name it, and what dropping it means in the kitchen. */
export function limitInWords({ week, situation }: PreparedWeek, group: LimitGroup): ConflictingLimit {
  switch (group.kind) {
    case 'fuel': {
      const unit = group.fuelId === 'electricity' ? 'kWh' : 'kg';
      const amount = round(week.fuelByDay[group.fuelId]?.at(-1) ?? 0, 2);
      const reserve = round(situation.fuels[group.fuelId]?.reserve ?? 0, 2);
      const kept = reserve > 0 ? ` (${reserve} ${unit} are kept back)` : '';
      return {
        limit: group.fuelId,
        text:
          amount <= 0
            ? `there is no ${inWords(group.fuelId)} to cook with${kept}`
            : `there are ${amount} ${unit} of ${inWords(group.fuelId)} to cook with${kept}`,
        wayOut: `more ${inWords(group.fuelId)}${reserve > 0 ? ', or a smaller reserve' : ''}`,
      };
    }
    case 'water': {
      const last = week.days - 1;
      const litres = round((week.safeWaterByDay[last] ?? 0) + (week.treatableWaterByDay[last] ?? 0), 1);
      return {
        limit: 'water',
        text: `${litres} L of water are left for cooking after drinking, hygiene, animals and washing-up`,
        wayOut: 'more water, or less of it for hygiene and washing-up',
      };
    }
    case 'sets': {
      const sets = round(
        sum(Object.values(week.sets), (count) => count),
        1,
      );
      return {
        limit: 'sets',
        text: sets <= 0 ? 'there are no kits in store' : `there are ${sets} sets of kits in store`,
        wayOut: 'more kits that suit these meals, or fewer people at the table',
      };
    }
    case 'fires':
      return {
        limit: 'lightings',
        text: `${week.lightingsPerDay === 1 ? 'one fire is' : `${week.lightingsPerDay} fires are`} lit a day at most`,
        wayOut: 'one more fire a day',
      };
    case 'outdoors':
      return {
        limit: 'outdoor-minutes',
        text: `${week.outdoorMinutesPerDay} min a day are spent cooking outdoors at most`,
        wayOut: 'more minutes outdoors a day',
      };
    case 'clock':
      return {
        limit: 'minutes-of-a-fire',
        text: 'the time between two meals, and one fill of a burner, are only so long',
        wayOut: 'meals further apart, or a stronger stove',
      };
    case 'things':
      return {
        limit: 'pots-bowls-boxes',
        text: 'every pot, bowl and box is in one place at a time',
        wayOut: 'one more pot',
      };
    case 'thing': {
      const named = [...situation.household.vessels, ...situation.household.boxes, ...situation.household.stoves].find(
        (thing) => thing.id === group.id,
      );
      const name = named?.name ?? inWords(group.id);
      return { limit: group.id, text: `there is one ${name}`, wayOut: `another like ${name}` };
    }
  }
}

/**
 * What is missing altogether, so that no amount of anything would do: nobody at the table, no stove, no fuel for it, no
 * pot, no kits, all kits past their date, nothing that suits a meal.
 */
export function factsOf({ situation, week }: PreparedWeek, demand: Demand): Fact[] {
  const facts: Fact[] = [];
  const { household, place } = situation;
  const here = <Thing extends { placeId: string }>(things: Thing[]) =>
    things.filter((thing) => thing.placeId === place.id);
  const fact = (text: string, wayOut: string) => facts.push({ text, wayOut });
  if (situation.slots.length === 0) {
    fact('Nobody is to be fed: no meal of these days has anybody at the table', 'Plan more days, or say who eats');
    return facts;
  }
  const wantsHot = demand === 'fed-hot' && week.slots.some((slot) => slot.hotWanted);
  const cooked = situation.kits.some(({ kit }) => kit.style !== 'no-cook');
  const stoves = here(household.stoves);
  const pots = here(household.vessels).filter(({ kind }) => kind === 'pot' || kind === 'pressure-cooker');
  if (wantsHot || cooked) {
    if (stoves.length === 0) fact('There is no stove at this place', 'Add a stove, or ask for no hot meals');
    else if (
      !stoves.some((stove) =>
        stove.fuelIds.some((fuelId) => {
          const fuel = situation.fuels[fuelId];
          return stove.burnsAnyway !== null || (fuel !== undefined && fuel.onHand + fuel.dailySupply > 0);
        }),
      )
    ) {
      const fuels = inList([...new Set(stoves.flatMap((stove) => stove.fuelIds))].map(inWords), 'or');
      fact(`There is no fuel for any stove at this place (${fuels})`, `Add ${fuels}`);
    }
    if (pots.length === 0) fact('There is no pot at this place', 'Add a pot, or ask for no hot meals');
  }
  const inStore = Object.values(week.sets).some((sets) => sets > 0);
  if (!inStore) {
    const firstDay = situation.days[0]?.date ?? '';
    const expired = situation.lots
      .flatMap((lot) => lot.useBy ?? [])
      .filter((useBy) => useBy < firstDay)
      .sort();
    if (situation.lots.length === 0) fact('There are no kits in store', 'Enter what is in store');
    else if (expired.length > 0)
      fact(
        `Everything in store is past its use-by date before these days begin (the last date was ${expired.at(-1)})`,
        'Other food, or look at this food and correct its date',
      );
    else fact('No whole set of a kit is in store at this place', 'Enter what is in store, or carry from another place');
  }
  return facts;
}

function nothingSuits({ situation, week }: PreparedWeek, demand: Demand): Fact {
  const unserved = week.slots.filter((slot) => {
    const ways = week.options.filter(
      (option) => option.slotId === slot.id && (demand === 'fed' || !slot.hotWanted || option.hot),
    );
    return Math.max(0, ...ways.map((way) => way.servings)) < slot.wantServings - 1e-6;
  });
  const meals = [...new Set(unserved.map((slot) => slot.id.slice(11)))];
  const named = meals.map((id) => situation.household.meals.find((meal) => meal.id === id)?.id ?? id);
  const here = situation.slots.filter((slot) => unserved.some(({ id }) => id === slot.id));
  const suited = situation.kits.some(({ kit, sets }) => sets > 0 && here.some(({ slot }) => kit.suits.includes(slot)));
  const why = suited
    ? 'what suits is too little, cannot be ready in time with these pots and fires, or somebody cannot eat it'
    : 'none in store suits';
  const wayOut = suited
    ? `A kit for ${inList(named.map(inWords), 'or')} that everybody can eat and that needs little fire or none, a larger pot, or a later meal`
    : `A kit that suits ${inList(named.map(inWords), 'or')} and that everybody can eat`;
  return meals.length === 0
    ? {
        text: 'The meals cannot all be served with one dish each, whatever the stores',
        wayOut: 'Kits with more servings, or fewer people at the table',
      }
    : {
        text: `No kit can feed everybody at ${inList(named.map(inWords), 'and')}: ${why}`,
        wayOut,
      };
}
