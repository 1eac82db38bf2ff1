/**
 * From steps to the rows of a card. Hands do some steps in one go: the flame goes on and the pot with it, the pot comes
 * off and the fire goes out. Those share a row. What stands elsewhere on the card has no row.
 */
import type { Cooking, Plan, ScheduleStep } from '../../planning/plan-types.ts';
import { NBSP } from '../numbers.ts';
import { MEASURE_WATER } from '../schedule-meals.ts';
import { dateText, minutesBetween } from '../times.ts';

/** Steps that are read and ticked together; the first of them gives the time. */
export interface RowSteps {
  steps: ScheduleStep[];
  /** "Packed 17 Mar 2023.", where the row is the first to take a kit from its shelf. */
  packed: string | null;
}

type Action = ScheduleStep['action'];

/** Which step may join the row of which, when it comes so many minutes later at most. */
const JOINS: readonly { before: Action; after: Action; minutes: number }[] = [
  { before: 'light', after: 'put-on', minutes: 0 },
  { before: 'light', after: 'heat-water', minutes: 0 },
  { before: 'light', after: 'treat-water', minutes: 0 },
  { before: 'add', after: 'add', minutes: 1 },
  { before: 'add', after: 'boil', minutes: 0 },
  { before: 'take-off', after: 'release-pressure', minutes: 0 },
  { before: 'take-off', after: 'shut-off', minutes: 3 },
  { before: 'release-pressure', after: 'shut-off', minutes: 3 },
  { before: 'box', after: 'box', minutes: 2 },
  { before: 'box', after: 'shut-off', minutes: 2 },
  { before: 'shut-off', after: 'box', minutes: 2 },
  { before: 'fill-flask', after: 'shut-off', minutes: 2 },
  { before: 'unbox', after: 'serve', minutes: 5 },
  { before: 'serve', after: 'serve', minutes: 0 },
];

/**
 * What may join besides where a day would not fit its page: the later step then has its time in the row. What waits for a
 * time of its own (a box, a drain, the end of a long boil) never does.
 */
const RUN_IN_JOINS: typeof JOINS = [
  { before: 'light', after: 'put-on', minutes: 15 },
  { before: 'light', after: 'heat-water', minutes: 15 },
  { before: 'light', after: 'treat-water', minutes: 15 },
  { before: 'light', after: 'drain', minutes: 0 },
  { before: 'put-on', after: 'boil', minutes: 60 },
  { before: 'put-on', after: 'take-off', minutes: 60 },
  { before: 'drain', after: 'put-on', minutes: 15 },
  { before: 'boil', after: 'take-off', minutes: 15 },
  { before: 'add', after: 'take-off', minutes: 15 },
  { before: 'shut-off', after: 'serve', minutes: 45 },
  { before: 'release-pressure', after: 'serve', minutes: 45 },
];

/** Steps of a row, beyond which no step of another time joins it. */
const MOST_RUN_IN = 4;

/** The steps that take bags from a shelf. */
const TAKES_BAGS: ReadonlySet<Action> = new Set(['soak', 'put-on', 'rehydrate', 'serve']);

/**
 * The rows of one card.
 * @param plan the plan of the steps: its cookings say from which packing the bags are
 * @param steps the steps of one card in time order
 * @param runIn whether a put-on and its boil, and the like, share a row too
 */
export function rowsOf(plan: Plan, steps: readonly ScheduleStep[], runIn = false): RowSteps[] {
  const rows: RowSteps[] = [];
  const fetched = new Set<string>();
  for (const step of steps) {
    if (standsElsewhere(step)) continue;
    const row = rows.at(-1);
    const before = row?.steps.at(-1);
    const cooking = plan.cookings.find((one) => one.id === step.cookingId);
    const takesBags = TAKES_BAGS.has(step.action) && step.quantities.some((one) => one.unit !== 'servings');
    const packed =
      cooking !== undefined && takesBags && !fetched.has(cooking.id)
        ? packedText(plan, cooking, step.quantities.length)
        : null;
    if (packed !== null && cooking !== undefined) fetched.add(cooking.id);
    // Hands do what JOINS lists in one go; of the others a row takes a few, or it would be a wall of words.
    const rules = runIn && (row?.steps.length ?? 0) < MOST_RUN_IN ? [...JOINS, ...RUN_IN_JOINS] : JOINS;
    if (row !== undefined && before !== undefined && joins(rules, before, step)) {
      row.steps.push(step);
      row.packed ??= packed;
    } else rows.push({ steps: [step], packed });
  }
  return rows;
}

/** The morning's readings, the washing-up and what each meal throws away are said in the head, the foot and at the meal. */
function standsElsewhere(step: ScheduleStep): boolean {
  if (step.action === 'weigh' || step.text === MEASURE_WATER || step.action === 'wash-up') return true;
  return step.action === 'throw-away' && step.meal !== null;
}

function joins(rules: typeof JOINS, before: ScheduleStep, after: ScheduleStep): boolean {
  return rules.some(
    (rule) =>
      rule.before === before.action &&
      rule.after === after.action &&
      minutesBetween(before.at, after.at) <= rule.minutes &&
      (before.cookingId === null || after.cookingId === null || before.cookingId === after.cookingId),
  );
}

/** Which packing to take; null where the store holds one only, which the name of the kit tells. */
function packedText(plan: Plan, cooking: Cooking, quantities: number): string | null {
  const dates = [...new Set(cooking.takes.map((take) => take.packedOn))].sort();
  const inStore = new Set(
    plan.resolved.stock.filter((lot) => lot.kitId === cooking.kitId && lot.quantity > 0).map((lot) => lot.packedOn),
  );
  if (dates.length === 0 || quantities === 0 || inStore.size < 2) return null;
  return `Packed ${dates.map((date) => shortDate(date)).join(', ')}.`;
}

/** "17 Mar 2023", which may be broken over lines. */
function shortDate(date: string): string {
  return dateText(date)
    .replace(/[A-Z][a-z]+/, (month) => month.slice(0, 3))
    .replaceAll(NBSP, ' ');
}
