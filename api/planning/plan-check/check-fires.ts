/** Fires: lit by somebody who is awake, inside what a day allows, carrying what the stove can carry. */

import type { ResolvedStove } from '../../cooking/household/resolve-household.ts';
import { STOVE_TYPES } from '../../physics/stoves-table.ts';
import type { Cooking, Lighting, PlanTask } from '../plan-types.ts';
import { amountOf, CLOCK_ROOM_MINUTES, flameMinutes, isInSpan, type PlanView, type Report } from './plan-view.ts';

/** Checks every lighting, and that each cooking and task burns inside the one it names. */
export function checkFires(view: PlanView, report: Report): void {
  const { plan, household } = view;
  const lightings = new Map(plan.lightings.map((lighting) => [lighting.id, lighting]));
  const litOn = new Map<string, number>();
  const outdoorsOn = new Map<string, number>();
  for (const lighting of plan.lightings) {
    const stove = household.stoves.find((candidate) => candidate.id === lighting.stoveId);
    const minutes = view.minute(lighting.until) - view.minute(lighting.at);
    if (stove === undefined) {
      report('unknown-thing', lighting.id, `stove ${lighting.stoveId}`);
      continue;
    }
    if (!(minutes > 0)) report('lighting-times', lighting.id, `${lighting.at} to ${lighting.until}`);
    if (view.minute(lighting.at) < view.startsAtMinute) report('before-start', lighting.id, `lit at ${lighting.at}`);
    if (!stove.fuelIds.includes(lighting.fuelId))
      report('stove-fuel', lighting.id, `${stove.id} does not burn ${lighting.fuelId}`);
    if (lighting.outdoors !== (stove.site === 'outdoors'))
      report('lighting-site', lighting.id, `${stove.id} stands ${stove.site}`);
    for (const ban of plan.request.noFlame ?? [])
      if (overlaps(view, lighting, ban.from, ban.to))
        report('no-flame', lighting.id, `burns between ${ban.from} and ${ban.to}`);
    for (const out of plan.request.outOfUse ?? [])
      if (out.id === stove.id && overlaps(view, lighting, out.from, out.to ?? null))
        report('out-of-use', lighting.id, `${stove.id} is out of use from ${out.from}`);
    // Whatever burns on one lighting burns on one fill: a hot burner is not refilled, unless a second one takes over.
    const fill = fillMinutes(stove);
    const burnt = [...plan.cookings.map((cooking) => cooking.uses), ...plan.tasks.map((task) => task.uses)]
      .flat()
      .filter((use) => use.resource === stove.id)
      .map((use) => [view.minute(use.from), view.minute(use.to)] as const)
      .filter(([from, to]) => isInside(view, lighting, from, to))
      .reduce((sum, [from, to]) => sum + to - from, 0);
    if (fill !== null && stove.burners < 2 && burnt > fill + CLOCK_ROOM_MINUTES)
      report('burner-fill', lighting.id, `${burnt} min on a fill of ${fill} min`);
    if (!isInSpan(lighting.at, household.waking) || !isInSpan(lighting.until, household.waking))
      report(
        'fire-asleep',
        lighting.id,
        `${lighting.at} to ${lighting.until}, awake ${household.waking.from} to ${household.waking.to}`,
      );
    if (lighting.outdoors && view.daylight !== null)
      if (!isInSpan(lighting.at, view.daylight) || !isInSpan(lighting.until, view.daylight))
        report(
          'fire-in-the-dark',
          lighting.id,
          `${lighting.at} to ${lighting.until}, light from ${view.daylight.from} to ${view.daylight.to}`,
        );
    const date = lighting.at.slice(0, 10);
    // A stove that burns for heating in any case is not lit for the plan.
    if (lighting.burnsAnyway === true) checkBurning(lighting, stove, report);
    else litOn.set(date, (litOn.get(date) ?? 0) + 1);
    if (lighting.outdoors) outdoorsOn.set(date, (outdoorsOn.get(date) ?? 0) + minutes);
  }
  for (const [date, count] of litOn)
    if (count > household.lightingsPerDay)
      report('lightings-a-day', date, `${count}, at most ${household.lightingsPerDay}`);
  for (const [date, minutes] of outdoorsOn)
    if (minutes > household.outdoorMinutesPerDay + CLOCK_ROOM_MINUTES)
      report('outdoor-minutes', date, `${minutes}, at most ${household.outdoorMinutesPerDay}`);
  for (const cooking of plan.cookings) checkCookingFire(view, cooking, lightings, report);
  for (const task of plan.tasks) checkTaskFire(view, task, lightings, report);
}

/** What is called free burns at the hours at which the household says that it does, and starts with nothing. */
function checkBurning(lighting: Lighting, stove: ResolvedStove, report: Report): void {
  const span = stove.burnsAnyway;
  if (span === null || !isInSpan(lighting.at, span) || !isInSpan(lighting.until, span))
    report(
      'burns-anyway',
      lighting.id,
      `${stove.id} does not burn in any case from ${lighting.at} to ${lighting.until}`,
    );
  if (lighting.startUpFuel.kg > 0) report('burns-anyway', lighting.id, `${lighting.startUpFuel.kg} kg to start it`);
}

/** Minutes of one fill of a burner without a valve; null for stoves that are fed or shut. */
function fillMinutes(stove: ResolvedStove): number | null {
  return stove.minutesPerFill ?? STOVE_TYPES[stove.typeId].valveless?.minutesPerFill ?? null;
}

function overlaps(view: PlanView, lighting: Lighting, from: string, to: string | null): boolean {
  const until = to === null ? Number.POSITIVE_INFINITY : view.minute(to);
  return view.minute(lighting.at) < until && view.minute(from) < view.minute(lighting.until);
}

function isInside(view: PlanView, lighting: Lighting, from: number, to: number): boolean {
  return (
    from >= view.minute(lighting.at) - CLOCK_ROOM_MINUTES && to <= view.minute(lighting.until) + CLOCK_ROOM_MINUTES
  );
}

function checkCookingFire(view: PlanView, cooking: Cooking, lightings: Map<string, Lighting>, report: Report): void {
  const { method } = cooking;
  if (method.finish === 'no-heat') {
    if (cooking.fuel.some((fuel) => amountOf(fuel).p90 > 0)) report('no-heat', cooking.id, 'takes fuel without a fire');
    return;
  }
  const lighting = method.lightingId === null ? undefined : lightings.get(method.lightingId);
  const stove = view.household.stoves.find((candidate) => candidate.id === method.stoveId);
  if (lighting === undefined || stove === undefined || method.minutesToBoil === null || method.boilMinutes === null) {
    // What was boiled before the plan began stands in its box or flask without a fire.
    if (!(view.minute(cooking.startsAt) < view.startsAtMinute))
      report('no-fire', cooking.id, 'a cooked dish without a fire');
    return;
  }
  if (lighting.stoveId !== stove.id)
    report('other-stove', cooking.id, `cooked on ${stove.id}, ${lighting.stoveId} is lit`);
  const startsAt = view.minute(cooking.startsAt);
  if (!isInside(view, lighting, startsAt, startsAt + flameMinutes(cooking)))
    report('outside-lighting', cooking.id, `${cooking.startsAt} and ${Math.round(flameMinutes(cooking))} min of flame`);
  for (const use of cooking.uses)
    if (use.resource === stove.id && !isInside(view, lighting, view.minute(use.from), view.minute(use.to)))
      report('outside-lighting', cooking.id, `${stove.id} from ${use.from} to ${use.to}`);
  for (const fuel of cooking.fuel)
    if (fuel.fuelId !== lighting.fuelId)
      report('stove-fuel', cooking.id, `${fuel.fuelId} on a fire of ${lighting.fuelId}`);
  if (!(cooking.fuel.some((fuel) => amountOf(fuel).p90 > 0) || lighting.burnsAnyway === true))
    report('no-fuel', cooking.id, 'a cooked dish without fuel');
  const type = STOVE_TYPES[stove.typeId];
  const vessel = view.household.vessels.find((candidate) => candidate.id === method.vesselId);
  if (vessel === undefined) report('unknown-thing', cooking.id, `vessel ${method.vesselId}`);
  else {
    if (vessel.kind === 'soak-bowl' || vessel.kind === 'flask')
      report('vessel-kind', cooking.id, `${vessel.kind} on a flame`);
    if (vessel.kind === 'pressure-cooker' && !type.carriesPressureCooker)
      report('stove-carries', cooking.id, `${stove.typeId} cannot hold a pressure cooker steady`);
    const largest = stove.largestPotL ?? type.carriesLargestPotL;
    if (vessel.capacityL > largest)
      report('stove-carries', cooking.id, `${vessel.capacityL} L on a stove for ${largest} L`);
    if ((method.gaugeKPa !== null) !== (vessel.kind === 'pressure-cooker'))
      report('vessel-kind', cooking.id, `gauge pressure ${method.gaugeKPa} in a ${vessel.kind}`);
  }
  const fill = fillMinutes(stove);
  // Two burners can take turns while one cools.
  if (fill !== null && stove.burners < 2 && method.minutesToBoil.p90 + method.boilMinutes.p90 > fill)
    report(
      'burner-fill',
      cooking.id,
      `${Math.round(method.minutesToBoil.p90 + method.boilMinutes.p90)} min on a fill of ${fill} min`,
    );
}

function checkTaskFire(view: PlanView, task: PlanTask, lightings: Map<string, Lighting>, report: Report): void {
  if (task.lightingId === null) {
    if (task.fuel.some((fuel) => amountOf(fuel).p90 > 0)) report('no-fire', task.id, 'takes fuel without a fire');
    return;
  }
  const lighting = lightings.get(task.lightingId);
  if (lighting === undefined) {
    report('no-fire', task.id, `lighting ${task.lightingId} is not in the plan`);
    return;
  }
  const at = view.minute(task.at);
  if (!isInside(view, lighting, at, at + task.minutes))
    report('outside-lighting', task.id, `${task.at} and ${Math.round(task.minutes)} min`);
  for (const fuel of task.fuel)
    if (fuel.fuelId !== lighting.fuelId)
      report('stove-fuel', task.id, `${fuel.fuelId} on a fire of ${lighting.fuelId}`);
}
