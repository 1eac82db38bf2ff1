/** Soaks by the clock: who sets and drains them when, how long they stand, and what lies in the water. */

import type { KitPart } from '../../cooking/dishes/kit.ts';
import { fillLimitShare } from '../../cooking/dishes/vessel-fill.ts';
import { foodOf } from '../../cooking/foods/foods-table.ts';
import { soakLimitHours } from '../../cooking/keeping/soak-limits.ts';
import type { Cooking } from '../plan-types.ts';
import { isInProgress, isInSpan, type PlanView, type Report } from './plan-view.ts';

/** Drained beans wait no longer than this for the fire (trade notes H2, common practice). */
const LONGEST_WAIT_MINUTES = 30;
/** A quick soak is drained hot, within two hours (trade notes H3). */
const LONGEST_HOT_SOAK_H = 2;
/** Hours are printed to a tenth, and the temperature of a day may be rounded to half a degree. */
const HOURS_ROUNDING = 0.06;
const TEMPERATURE_ROUNDING_K = 0.25;

/** Checks every soak of the plan. */
export function checkSoaks(view: PlanView, report: Report): void {
  for (const cooking of view.plan.cookings) if (cooking.method.soak) checkSoak(view, cooking, report);
}

function checkSoak(view: PlanView, cooking: Cooking, report: Report): void {
  const soak = cooking.method.soak;
  const kit = view.kits.get(cooking.kitId);
  if (soak === null || kit === undefined) return;
  const started = isInProgress(view, cooking);
  const { waking } = view.household;
  if (!started && !isInSpan(soak.at, waking)) report('soak-asleep', cooking.id, `set at ${soak.at}`);
  if (!isInSpan(cooking.startsAt, waking)) report('soak-asleep', cooking.id, `drained at ${cooking.startsAt}`);
  if (!started && view.minute(soak.at) < view.startsAtMinute)
    report('before-start', cooking.id, `soak set at ${soak.at}, the plan starts ${view.plan.request.startsAt}`);
  const wait = view.minute(cooking.startsAt) - view.minute(soak.at) - soak.hours * 60;
  if (wait > LONGEST_WAIT_MINUTES || wait < -LONGEST_WAIT_MINUTES)
    report('soak-wait', cooking.id, `soaked ${soak.hours} h from ${soak.at}, cooked at ${cooking.startsAt}`);
  if (soak.start === 'hot') {
    if (soak.hours > LONGEST_HOT_SOAK_H) report('soak-too-long', cooking.id, `quick soak of ${soak.hours} h`);
  } else {
    const limit = soakLimitHours(view.indoorC(soak.at) - TEMPERATURE_ROUNDING_K);
    if (soak.hours > limit + HOURS_ROUNDING)
      report('soak-too-long', cooking.id, `${soak.hours} h at ${view.indoorC(soak.at)} C, at most ${limit} h`);
  }
  if (soak.partIds.length === 0) report('soak-parts', cooking.id, 'nothing lies in the bowl');
  let massG = 0;
  for (const id of soak.partIds) {
    const part = kit.parts.find((candidate) => candidate.id === id);
    if (part === undefined) report('soak-parts', cooking.id, `the kit has no part ${id}`);
    else {
      checkPart(cooking, part, soak.discardWater, report);
      massG += part.ingredients.reduce((sum, ingredient) => sum + ingredient.massG, 0) * cooking.batches;
    }
  }
  const bowl = view.household.vessels.find((candidate) => candidate.id === soak.vesselId);
  if (bowl === undefined) report('unknown-thing', cooking.id, `bowl ${soak.vesselId}`);
  // Dry pulses weigh at least 1.2 kg/L as kernels, so this is the least that the bowl must hold.
  else if (soak.waterL + massG / 1500 > bowl.capacityL * fillLimitShare(bowl.kind, false) + 0.05)
    report('fill', cooking.id, `${soak.waterL} L of water and ${massG} g in ${bowl.id} of ${bowl.capacityL} L`);
}

/** Only pulses and whole grains lie in water for hours; kidney-family beans alone, and their water is poured away (H12). */
function checkPart(cooking: Cooking, part: KitPart, discardWater: boolean, report: Report): void {
  const foods = part.ingredients.map((ingredient) => ({ id: ingredient.foodId, food: foodOf(ingredient) }));
  for (const { id, food } of foods)
    if (food?.soakable !== true) report('soak-parts', cooking.id, `${id} in part ${part.id} must not be soaked`);
  const kidney = foods.filter(({ food }) => food?.lectin === 'kidney-family').length;
  if (kidney > 0 && kidney < foods.length)
    report('soak-parts', cooking.id, `part ${part.id} mixes kidney-family beans with other goods`);
  if (kidney > 0 && !discardWater) report('lectin', cooking.id, 'soak water of kidney-family beans is not poured away');
}
