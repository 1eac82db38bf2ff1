/** What a re-plan changes on the wall, meal by meal, and the reason of each change as far as it can be told. */

import { stockKitIdIn } from '../../cooking/dishes/part-choices.ts';
import { isBookedRecord, type LearnedFigure } from '../../cooking/measurements/learned.ts';
import { clockMinutesBetween } from '../local-time.ts';
import type { Cooking, Plan, PlannedMeal } from '../plan-types.ts';
import { isUnexpected } from './news.ts';
import type { StateNow } from './state-now.ts';

/** A dish as a reader of the wall knows it. */
export interface DishSeen {
  kitId: string;
  kitName: string;
  servings: number;
  stoveId: string | null;
  vesselId: string | null;
  finish: Cooking['method']['finish'];
  boxId: string | null;
  soakAt: string | null;
  /** How far it is only heated, C; null: it boils, or sees no fire. */
  heatToC: number | null;
  startsAt: string;
}

/** What is different about a meal. */
export type ChangeKind =
  | 'dish'
  | 'amount'
  | 'stove'
  | 'vessel'
  | 'finish'
  | 'heat'
  | 'soak'
  | 'time'
  | 'left-out'
  | 'added';

export type ChangeCause =
  | { kind: 'asked' }
  | { kind: 'people'; before: number; now: number }
  | { kind: 'broke'; thingId: string }
  | { kind: 'no-sets'; kitName: string }
  | { kind: 'soak-lost'; reason: string }
  | { kind: 'in-water'; since: string }
  | { kind: 'less-fuel'; fuelId: string; amount: number; unit: 'kg' | 'kWh' }
  | { kind: 'less-water'; litres: number }
  | { kind: 'learned'; text: string }
  /** Another change takes or frees what this meal needs. */
  | { kind: 'follows'; meal: string }
  | { kind: 'better' };

export interface PlanChange {
  meal: string;
  eatAt: string;
  kinds: ChangeKind[];
  before: DishSeen[];
  after: DishSeen[];
  cause: ChangeCause;
}

/** A pot that goes on so much earlier or later is a change, min. */
const SHIFT_MINUTES = 10;
/** Less than this is found by chance, kg, L. */
const NOTICED_KG = 0.01;
const NOTICED_L = 1;

/**
 * @param old what hung on the wall
 * @param next what replaces it
 * @param state how things stood between them
 * @returns changes of meals that were still to come, by their time
 */
export function planChanges(old: Plan, next: Plan, state: StateNow): PlanChange[] {
  const at = next.request.startsAt;
  const gone = new Set([
    ...(next.request.done ?? []).map((entry) => entry.meal),
    ...(next.continues?.underWay ?? []).flatMap((dish) => dish.meals),
  ]);
  const lastDate = next.water.byDay.at(-1)?.date ?? '9999';
  const ids = new Map<string, string>();
  for (const meal of [...old.meals, ...next.meals])
    if (meal.eatAt >= at && meal.id.slice(0, 10) <= lastDate && !gone.has(meal.id)) ids.set(meal.id, meal.eatAt);
  const changed = [...ids].flatMap(([id, eatAt]) => {
    const was = old.meals.find((meal) => meal.id === id);
    const is = next.meals.find((meal) => meal.id === id);
    const before = seen(old, was);
    const after = seen(next, is);
    const kinds = kindsOf(was, is, before, after);
    return kinds.length === 0 ? [] : [{ meal: id, eatAt, kinds, before, after, was, is }];
  });
  const found = changed
    .map(({ was, is, ...change }) => ({ ...change, cause: ownCause(old, next, state, change, was, is) }))
    .sort((a, b) => (a.eatAt < b.eatAt ? -1 : a.eatAt > b.eatAt ? 1 : 0));
  const [known] = found.filter((change) => change.cause !== null);
  return found.map((change): PlanChange => {
    const follows: ChangeCause = known === undefined ? { kind: 'better' } : { kind: 'follows', meal: known.meal };
    return { ...change, cause: change.cause ?? generalCause(old, next, state) ?? follows };
  });
}

function seen(plan: Plan, meal: PlannedMeal | undefined): DishSeen[] {
  return (meal?.dishes ?? []).flatMap(({ cookingId, servings }): DishSeen[] => {
    const cooking = plan.cookings.find((one) => one.id === cookingId);
    if (cooking === undefined) return [];
    const { method } = cooking;
    return [
      {
        kitId: cooking.kitId,
        kitName: cooking.kitName,
        servings,
        stoveId: method.stoveId,
        vesselId: method.vesselId,
        finish: method.finish,
        boxId: cooking.keptFor?.meal === meal?.id ? (cooking.keptFor?.boxId ?? null) : method.boxId,
        soakAt: method.soak?.at ?? null,
        heatToC: method.heatToC ?? null,
        startsAt: cooking.startsAt,
      },
    ];
  });
}

function kindsOf(
  was: PlannedMeal | undefined,
  is: PlannedMeal | undefined,
  before: readonly DishSeen[],
  after: readonly DishSeen[],
): ChangeKind[] {
  if (is === undefined) return ['left-out'];
  if (was === undefined) return ['added'];
  const kits = (dishes: readonly DishSeen[]) =>
    dishes
      .map((dish) => dish.kitId)
      .sort()
      .join(' ');
  if (kits(before) !== kits(after)) return ['dish'];
  const kinds = new Set<ChangeKind>();
  if (Math.abs(was.servingsWanted - is.servingsWanted) > 0.01) kinds.add('amount');
  for (const dish of after) {
    const other = before.find((one) => one.kitId === dish.kitId);
    if (other === undefined) continue;
    if (dish.stoveId !== other.stoveId) kinds.add('stove');
    if (dish.vesselId !== other.vesselId) kinds.add('vessel');
    if (dish.finish !== other.finish || dish.boxId !== other.boxId) kinds.add('finish');
    if (dish.heatToC !== other.heatToC && dish.finish === other.finish) kinds.add('heat');
    if ((dish.soakAt === null) !== (other.soakAt === null)) kinds.add('soak');
    else if (dish.soakAt !== null && minutes(dish.soakAt, other.soakAt ?? '') > SHIFT_MINUTES) kinds.add('soak');
    if (minutes(dish.startsAt, other.startsAt) > SHIFT_MINUTES) kinds.add('time');
  }
  return [...kinds];
}

/** The reason that lies in the meal itself; null: none was found there. */
function ownCause(
  old: Plan,
  next: Plan,
  state: StateNow,
  change: Pick<PlanChange, 'meal' | 'kinds' | 'before' | 'after'>,
  was: PlannedMeal | undefined,
  is: PlannedMeal | undefined,
): ChangeCause | null {
  const pinned = (plan: Plan) => JSON.stringify(plan.request.pinned?.find((pin) => pin.meal === change.meal) ?? null);
  if (pinned(next) !== 'null' && pinned(next) !== pinned(old)) return { kind: 'asked' };
  const people: ChangeCause | null =
    was !== undefined && is !== undefined && Math.abs(was.servingsWanted - is.servingsWanted) > 0.01
      ? { kind: 'people', before: was.people, now: is.people }
      : null;
  if (people !== null && !change.kinds.includes('dish')) return people;
  const cookings = old.cookings.filter((cooking) => was?.dishes.some((dish) => dish.cookingId === cooking.id));
  const out = (next.request.outOfUse ?? []).find((entry) =>
    cookings.some((cooking) => cooking.uses.some((use) => use.resource === entry.id)),
  );
  if (out !== undefined) return { kind: 'broke', thingId: out.id };
  const lost = next.continues?.soaks.find(
    (soak) => soak.use === 'given-up' && cookings.some((cooking) => cooking.id === soak.cookingId),
  );
  if (lost !== undefined) return { kind: 'soak-lost', reason: lost.reason ?? '' };
  const wet = next.cookings.find(
    (cooking) => cooking.method.soak?.begun === true && is?.dishes.some((dish) => dish.cookingId === cooking.id),
  );
  if (wet?.method.soak != null && !change.before.some((dish) => dish.soakAt === wet.method.soak?.at))
    return { kind: 'in-water', since: wet.method.soak.at };
  for (const cooking of cookings) {
    if (change.after.some((dish) => dish.kitId === cooking.kitId)) continue;
    const missing = cooking.takes.some(({ partId, quantity }) => {
      const left = next.resolved.stock
        .filter((lot) => lot.kitId === stockKitIdIn(old.resolved.kits, cooking.kitId) && lot.partId === partId)
        .reduce((sum, lot) => sum + lot.quantity, 0);
      return left < quantity - 1e-6;
    });
    if (missing) return { kind: 'no-sets', kitName: cooking.kitName };
  }
  const fuels = new Set(cookings.flatMap((cooking) => cooking.fuel.map((row) => row.fuelId as string)));
  // What was learned since of a box or food: what proved worse is a reason to leave a dish, what proved better to take it.
  const taken = next.cookings.filter((cooking) => is?.dishes.some((dish) => dish.cookingId === cooking.id));
  const learned = (next.resolved.learned ?? []).find(({ of, quantity, figure }) => {
    if (!isFromBookings(figure, old)) return false;
    const isSlower = quantity === 'minutesFactor' ? figure.now.p50 > 1 : figure.now.p50 < figure.table.p50;
    const concerned = isSlower ? cookings : taken;
    if (quantity === 'minutesFactor') return concerned.some((cooking) => of.startsWith(`${cooking.kitId}/`));
    if (quantity !== 'timeConstantHours') return false;
    return concerned.some(({ method }) => method.boxId === of || method.flaskId === of);
  });
  if (learned !== undefined) return { kind: 'learned', text: learned.figure.text };
  return lessFound(state, fuels) ?? people;
}

/** A reason that holds for the whole of the plan; null: none was found. */
function generalCause(old: Plan, next: Plan, state: StateNow): ChangeCause | null {
  const found = lessFound(state, null);
  if (found !== null) return found;
  const fromBookings = (next.resolved.learned ?? []).find(({ figure }) => isFromBookings(figure, old));
  return fromBookings === undefined ? null : { kind: 'learned', text: fromBookings.figure.text };
}

/** Whether a figure rests on something that was weighed, read or tried since the old plan was made. */
function isFromBookings(figure: LearnedFigure, old: Plan): boolean {
  const known = new Set((old.resolved.learned ?? []).flatMap((row) => row.figure.records));
  return figure.records.some((id) => isBookedRecord(id) && !known.has(id));
}

/** Fuel of these kinds (null: any), or water, of which less was found than was worked out. */
function lessFound(state: StateNow, fuels: ReadonlySet<string> | null): ChangeCause | null {
  const sums = new Map<string, { amount: number; unit: 'kg' | 'kWh' | 'L'; what: 'fuel' | 'water' }>();
  const idOf = (row: StateNow['differences'][number]) => (row.what === 'water' ? 'water' : row.id);
  // What scale or jug may have wrong, or the plan counted with, is no reason; else all that was found of it is told.
  const unexpected = new Set(state.differences.filter(isUnexpected).map(idOf));
  for (const row of state.differences) {
    const id = idOf(row);
    if (!unexpected.has(id)) continue;
    if (row.what === 'fuel' && fuels !== null && !fuels.has(row.id)) continue;
    const known = sums.get(id);
    sums.set(id, { amount: (known?.amount ?? 0) + row.difference, unit: row.unit, what: row.what });
  }
  const [worst] = [...sums].filter(([, { amount, what }]) => amount < -(what === 'fuel' ? NOTICED_KG : NOTICED_L));
  if (worst === undefined) return null;
  const [id, { amount, unit }] = worst;
  return unit === 'L'
    ? { kind: 'less-water', litres: -amount }
    : { kind: 'less-fuel', fuelId: id, amount: -amount, unit };
}

function minutes(one: string, other: string): number {
  return Math.abs(clockMinutesBetween(one, other));
}
