/** The steps behind the time by which a dish of a meal must be eaten. */
import { PLACE } from '../../cooking/derivations/explained-dish.ts';
import type { StepList } from '../../cooking/derivations/explanation-steps.ts';
import { resolveHousehold } from '../../cooking/household/resolve-household.ts';
import { hoursAbove60C } from '../../cooking/keeping/hot-holding.ts';
import { FOOD_SAFETY, safeUntilAfterHeat } from '../../cooking/keeping/safe-until.ts';
import type { SourceRef } from '../../physics/parameter.ts';
import { clockMinutesBetween, toLocal, toMinute } from '../local-time.ts';
import type { Cooking, Plan, PlannedMeal } from '../plan-types.ts';

const RULE: SourceRef = { key: 'fsis-danger-zone', place: 'two hours; one hour above 90 F' };
const COOLING: SourceRef = { key: 'still2005', place: 'exponential cooling; the box at its bad end' };
const WITHOUT_THERMOMETER: SourceRef = {
  key: 'planner-derivation',
  place: 'without a thermometer nobody can tell when the hours after 60 C begin',
};
/** Where the plan does not say how warm the room is, C; `wording/eat-by.ts` takes the same. */
const USUAL_ROOM_C = 20;
const CLOCK: SourceRef = { key: 'planner-derivation', place: 'clock and calendar' };

/**
 * `eatBy` of one dish of a meal, after the steps behind the dish itself.
 * @param list has the steps of the dish; those of its box, where it ends in one
 */
export function addEatBy(
  list: StepList,
  plan: Pick<Plan, 'resolved' | 'versions' | 'request'>,
  meal: PlannedMeal,
  cooking: Cooking,
): void {
  const unopened = meal.dishes.find(({ cookingId }) => cookingId === cooking.id)?.safeUntil;
  if (unopened === undefined || unopened === '') return;
  const asPrinted = `as printed in the plan by version ${plan.versions.program}`;
  const { household } = resolveHousehold(plan.resolved.household);
  const place = household.places.find(({ id }) => id === (plan.request.placeId ?? household.places[0]?.id));
  // What is left for a later meal goes into a box of its own, whose figures the plan does not keep.
  const kept = cooking.keptFor?.meal === meal.id;
  const value = (quantity: string) => list.steps.find((step) => step.quantity === quantity)?.value;
  const roomC = cooking.basis?.surroundings.indoorC ?? place?.indoorC;
  const timeZone = place?.timeZone ?? 'UTC';
  const eatMinute = toMinute(meal.eatAt, timeZone);
  // Once it is served, two hours, however warm the box would have stayed: what paper and page say.
  const afterHeat = safeUntilAfterHeat(roomC ?? USUAL_ROOM_C);
  const opened = toLocal(eatMinute + afterHeat * 60, timeZone);
  const [printed] = [unopened, opened].sort() as [string, string];
  const [startC, airC, lowHours] = ['boxStartC', 'boxAirC', 'boxTimeConstantLowHours'].map(value);
  const boxed = cooking.method.finish === 'box' || cooking.method.finish === 'flask';
  const known = typeof startC === 'number' && typeof airC === 'number' && typeof lowHours === 'number';
  if (place === undefined || roomC === undefined || kept || (boxed && !known)) {
    list.fact('eatBy', printed, 'local time', asPrinted);
    return;
  }
  const cold = cooking.method.finish === 'no-heat';
  const from = cold ? cooking.startsAt : cooking.doneAt;
  const hotHours = boxed && known ? hoursAbove60C(startC, airC, lowHours) : 0;
  const { thermometer } = household;
  const keeps = !boxed ? afterHeat * 60 : Math.floor(hotHours * 60) + (thermometer ? afterHeat * 60 : 0);
  const toTheTable = eatMinute - toMinute(from, timeZone);
  const minutes = Math.min(keeps, toTheTable + afterHeat * 60);
  const elapsed = toMinute(from, timeZone) + minutes;
  if (toLocal(elapsed, timeZone) !== printed) {
    list.fact('eatBy', printed, 'local time', asPrinted);
    return;
  }
  list.fact('roomC', roomC, 'C', 'air of the room on that day', PLACE);
  list.row('hotAirC', FOOD_SAFETY.hotAirC, 'above it the shorter rule holds');
  list.row('hoursOut', FOOD_SAFETY.hoursOut, 'without heat or cold');
  list.row('hoursOutHot', FOOD_SAFETY.hoursOutHot, 'without heat or cold, in hot air');
  list.computed('hoursAfterHeat', afterHeat, 'h', 'roomC > hotAirC ? hoursOutHot : hoursOut', RULE);
  if (boxed) {
    list.row('hotHoldC', FOOD_SAFETY.hotHoldC, 'hot enough to keep');
    list.computed(
      'stayHotHours',
      hotHours,
      'h',
      'boxStartC > hotHoldC ? boxTimeConstantLowHours * ln((boxStartC - boxAirC) / (hotHoldC - boxAirC)) : 0',
      COOLING,
    );
    list.fact('thermometer', thermometer, '', 'the household', PLACE);
    list.computed(
      'keepsMinutes',
      keeps,
      'min',
      'floor(stayHotHours * 60) + (thermometer ? hoursAfterHeat * 60 : 0)',
      thermometer ? RULE : WITHOUT_THERMOMETER,
    );
  } else list.computed('keepsMinutes', keeps, 'min', 'hoursAfterHeat * 60', RULE);
  const words = cold ? 'water is added, or the packet opened' : boxed ? 'into the box or flask' : 'off the heat';
  list.fact('eatByFrom', from, 'local time', words, CLOCK);
  list.fact('toTableMinutes', toTheTable, 'min', 'from then until the meal', CLOCK);
  list.computed('eatByMinutes', minutes, 'min', 'min(keepsMinutes, toTableMinutes + hoursAfterHeat * 60)', RULE);
  const shift = Math.round(clockMinutesBetween(from, printed)) - minutes;
  if (shift !== 0)
    list.fact('clockChangeMinutes', shift, 'min', 'the clocks are put forward or back in between', CLOCK);
  const relation = `localTimeAfter(eatByFrom, eatByMinutes${shift === 0 ? '' : ' + clockChangeMinutes'})`;
  list.computed('eatBy', printed, 'local time', relation, CLOCK);
}
