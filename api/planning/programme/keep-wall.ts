/**
 * What hangs on the wall stays there unless another plan is better beyond the printed tolerance. First the plan on the wall
 * is looked at as a whole: if it can still be carried out and no aim is worse than the best by more than its tolerance, it
 * stands. Else, of the plans as good as the best within those tolerances, the one that keeps most of its dishes.
 */
import type { DishOnWall } from '../bookings/continuation.ts';
import {
  type Aim,
  type AimOutcome,
  type IntegerProgramme,
  type SolveOptions,
  type Solver,
  solveOrThrow,
} from '../solver.ts';
import type { OptionDetail, WeekCalendar } from '../week/week-calendar-types.ts';
import { heldAt, type WeekSolution } from './solve-week.ts';
import { type WeekModel, weekModel } from './week-model.ts';

/** Share of the time limit for looking at the plan on the wall, and for keeping most of it; the most, s. */
const LOOK_SHARE = 0.15;
const LONGEST_LOOK_S = 5;

/** Aims that are about sparing and ease; all others are about feeding people. */
const SPARING: ReadonlySet<string> = new Set([
  'fuel-heat',
  'cold-meals',
  'scarcest-largest-share',
  'scarcest-sum-of-shares',
  'variety-then-tending',
]);

/**
 * Aims that a plan settles for the counts that it has found: on which days something is missed. Between plans of other
 * counts they compare nothing that was proven, so that without news they move nothing on the wall.
 */
const ARRANGING = 'shortage-late';

/** Servings to a fiftieth; food energy is printed to kilocalories, which may tip over one hundredth of the need. */
const SERVICE_ROOM = 0.02;
const ENERGY_ROOM = 1.01;
const ENERGY_AIMS: ReadonlySet<string> = new Set(['energy', 'chosen-energy']);

/** Columns of the ways that hang on the wall, and how many dishes of it no longer exist as ways. */
interface Wall {
  options: Set<string>;
  hotWater: Set<string>;
  gone: number;
}

/**
 * @param calendar of the new plan
 * @param best its best solution
 * @param news whether anything has happened that the wall did not expect; without news it stands where it feeds as well
 * @returns that, or one as good that keeps more of the wall
 * @throws SolveCancelledError; SolverBusyError
 */
export async function keepWall(
  { week, options: details, hotWater }: WeekCalendar,
  best: WeekSolution,
  solver: Solver,
  options: SolveOptions,
  dishes: readonly DishOnWall[] = [],
  heated: readonly { lightingId: string; vesselId: string }[] = [],
  news = true,
): Promise<WeekSolution & { unasked?: true }> {
  if (best.choice === null || dishes.length === 0) return best;
  const wall: Wall = { options: new Set(), hotWater: new Set(), gone: 0 };
  for (const dish of dishes) {
    const way = [...details.values()].find((detail) => isOnWall(detail, dish, wall.options));
    if (way === undefined) wall.gone += 1;
    else wall.options.add(way.id);
  }
  for (const { lightingId, vesselId } of heated) {
    const task = [...hotWater.values()].find((one) => one.lighting.id === lightingId && one.vessel.id === vesselId);
    if (task !== undefined) wall.hotWater.add(task.id);
  }
  if (isSame(best, wall) || wall.options.size === 0) return best;
  // Fires that a plan without any miss cannot light are in no such plan.
  const optimistic = best.stated.some((aim) => aim.name === 'service');
  const model = weekModel(week, optimistic ? { optimistic } : { shortageLate: true });
  const limitS = Math.min(LONGEST_LOOK_S, options.timeLimitS * LOOK_SHARE);
  if ([...wall.options].some((id) => !model.columns.option.has(id))) wall.gone += 1;
  const asItHangs = await attempt(model, fixed(model, wall), model.aims, solver, options, limitS);
  if (wall.gone === 0 && asItHangs !== null && isAsGood(model.aims, asItHangs.aims, best.aims))
    return judged(model, asItHangs.values, best);
  if (!news && wall.gone === 0 && asItHangs !== null && feedsAsWell(asItHangs.aims, best.aims))
    return { ...judged(model, asItHangs.values, best), unasked: true };
  // Of the plans as good, that which changes least.
  const others = [...model.columns.option].flatMap(([id, column]) => (wall.options.has(id) ? [] : [column]));
  const changes: Aim = {
    name: 'changes',
    columns: others,
    coefficients: others.map(() => 1),
    absoluteGap: 0.99,
    relativeGap: 0,
    slack: 0,
  };
  const room = best.aims.map((outcome) => ({ ...outcome, value: outcome.value + toleranceOf(model.aims, outcome) }));
  if (room.length !== model.aims.length) return best;
  const least = await attempt(model, heldAt(model, room), [changes], solver, options, limitS);
  if (least === null) return best;
  const kept = judged(model, least.values, best);
  return countKept(kept, wall) > countKept(best, wall) ? kept : best;
}

/** How many dishes of the wall stand in a plan. */
export function dishesKept(calendar: WeekCalendar, chosen: readonly string[], dishes: readonly DishOnWall[]): number {
  const found = new Set<string>();
  for (const dish of dishes) {
    const way = chosen.find((id) => {
      const detail = calendar.options.get(id);
      return detail !== undefined && isOnWall(detail, dish, found);
    });
    if (way !== undefined) found.add(way);
  }
  return found.size;
}

function isOnWall(detail: OptionDetail, dish: DishOnWall, taken: ReadonlySet<string>): boolean {
  const { method, noHeat, lighting, soak, kept } = detail;
  return (
    !taken.has(detail.id) &&
    detail.slot.id === dish.meal &&
    detail.kit.kit.id === dish.kitId &&
    Math.abs(detail.sets - dish.batches) < 1e-3 &&
    (lighting?.id ?? null) === dish.lightingId &&
    (noHeat !== null) === (dish.finish === 'no-heat') &&
    (method?.choice.finish ?? 'no-heat') === dish.finish &&
    (method?.choice.vessel.id ?? null) === dish.vesselId &&
    (method?.choice.box?.id ?? null) === dish.boxId &&
    (method?.choice.flask?.id ?? null) === dish.flaskId &&
    (soak?.bowl.id ?? null) === dish.soakVesselId &&
    (kept?.slot.id ?? null) === dish.keptFor &&
    (method?.choice.heatToC ?? null) === dish.heatToC
  );
}

function isSame(best: WeekSolution, wall: Wall): boolean {
  const chosen = best.choice?.options ?? [];
  return wall.gone === 0 && chosen.length === wall.options.size && chosen.every((id) => wall.options.has(id));
}

function countKept(solution: WeekSolution, wall: Wall): number {
  return (solution.choice?.options ?? []).filter((id) => wall.options.has(id)).length;
}

/** The programme in which the dishes of the wall are cooked and no others. */
function fixed(model: WeekModel, wall: Wall): IntegerProgramme {
  const columnLower = [...model.programme.columnLower];
  const columnUpper = [...model.programme.columnUpper];
  for (const [id, column] of model.columns.option) {
    if (wall.options.has(id)) columnLower[column] = 1;
    else columnUpper[column] = 0;
  }
  for (const [id, column] of model.columns.hotWater) if (wall.hotWater.has(id)) columnLower[column] = 1;
  return { ...model.programme, columnLower, columnUpper };
}

async function attempt(
  model: WeekModel,
  programme: IntegerProgramme,
  aims: Aim[],
  solver: Solver,
  options: SolveOptions,
  timeLimitS: number,
): Promise<{ values: number[]; aims: AimOutcome[] } | null> {
  if (programme.columnLower.some((lower, column) => lower > (programme.columnUpper[column] as number))) return null;
  const outcome = await solveOrThrow(solver, programme, aims, { ...options, timeLimitS: Math.max(1, timeLimitS) });
  return outcome.status === 'solved' && outcome.values.length === model.programme.columnNames.length
    ? { values: outcome.values, aims: outcome.aims }
    : null;
}

/** Whether nobody is fed less or colder, and nothing more spoils. */
function feedsAsWell(found: readonly AimOutcome[], best: readonly AimOutcome[]): boolean {
  return found.every((aim) => {
    const other = best.find((one) => one.name === aim.name)?.value ?? aim.value;
    return (
      SPARING.has(aim.name) ||
      aim.name === ARRANGING ||
      aim.value <= other + (ENERGY_AIMS.has(aim.name) ? ENERGY_ROOM : SERVICE_ROOM)
    );
  });
}

/** Whether no aim is worse than the best by more than its printed tolerance; what is better at an earlier aim is better. */
function isAsGood(stated: readonly Aim[], found: readonly AimOutcome[], best: readonly AimOutcome[]): boolean {
  for (const aim of stated) {
    const own = found.find((one) => one.name === aim.name);
    const other = best.find((one) => one.name === aim.name);
    if (own === undefined || other === undefined) return own !== undefined;
    const tolerance = toleranceOf(stated, other);
    if (own.value > other.value + tolerance + 1e-9) return false;
    if (own.value < other.value - tolerance - 1e-9) return true;
  }
  return true;
}

function toleranceOf(stated: readonly Aim[], outcome: AimOutcome): number {
  const aim = stated.find((one) => one.name === outcome.name);
  return Math.max(aim?.absoluteGap ?? 0, (aim?.relativeGap ?? 0) * Math.abs(outcome.value));
}

/** The kept plan, its aims worked out from its columns, with the bounds of the best. */
function judged(model: WeekModel, values: readonly number[], best: WeekSolution): WeekSolution {
  const aims = model.aims.flatMap((aim): AimOutcome[] => {
    const other = best.aims.find((one) => one.name === aim.name);
    if (other === undefined) return [];
    const value = aim.columns.reduce(
      (sum, column, at) => sum + (aim.coefficients[at] as number) * (values[column] as number),
      0,
    );
    const bound = Math.min(other.bound, value);
    const tolerance = Math.max(aim.absoluteGap, aim.relativeGap * Math.abs(value));
    return [{ ...other, value, bound, closed: value - bound <= tolerance + 1e-9 }];
  });
  return { ...best, choice: model.read([...values]), aims, proven: best.proven && aims.every((aim) => aim.closed) };
}
