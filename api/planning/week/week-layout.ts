/**
 * What the parts of a week's calendar share: the things of the place, the clock, what is out of use, and how warm it is.
 */
import type { Calculations } from '../../cooking/calculators/calculations.ts';
import type { Surroundings } from '../../cooking/dishes/cooking-methods.ts';
import { isSafeBeforeTheFire } from '../../cooking/household/water-treatment.ts';
import { toMinute } from '../local-time.ts';
import type { DroppedMethod, PlanRequest } from '../plan-types.ts';
import { keepsHotMinutes } from './keep-hot.ts';
import type { DaySituation, WeekSituation } from './week-situation.ts';

/** Minutes between a meal and the next work at the stove: eating and clearing (common practice). */
export const MEAL_MINUTES = 45;
/** What other work on the same fire may take: a boxed dish can be done this much earlier than the fire ends. */
export const SHARED_FIRE_MINUTES = 75;
/** Nothing begins sooner than this after the plan does. */
export const LEAD_IN_MINUTES = 10;
/** A fire for a box dish ends this long before the meal: the longest that the box allows. */
const EARLY_MINUTES = [120, 90, 60, 45] as const;
/** What a dish fills, L per serving, for asking how long a box keeps a pot hot: a stew, its water and dry food together. */
const DISH_L_PER_SERVING = 0.42;
/** No fuller than this, whatever the servings: a family's dish fills a pot by half to two thirds. */
const USUAL_FILL_SHARE = 0.6;

export type WeekLayout = ReturnType<typeof weekLayout>;

/**
 * Gathers what the parts of a calendar share.
 * @param situation what the week starts from
 * @param calculations one memory for all that is worked out
 */
export function weekLayout(situation: WeekSituation, request: PlanRequest, calculations: Calculations) {
  const zone = situation.place.timeZone;
  const outOfUse = (request.outOfUse ?? []).map((entry) => ({
    id: entry.id,
    from: toMinute(entry.from, zone),
    to: entry.to === null || entry.to === undefined ? Number.POSITIVE_INFINITY : toMinute(entry.to, zone),
  }));
  // A pot on the fire or in its box is not free before it is eaten.
  for (const { vesselId, boxId, flaskId, meals } of situation.continues?.underWay ?? [])
    for (const id of [vesselId, boxId, flaskId]) {
      const until = Math.max(...meals.map((meal) => mealMinute(meal, situation)));
      if (id !== null) outOfUse.push({ id, from: situation.startMinute, to: until });
    }
  const underWayMinutes = (situation.continues?.underWay ?? []).flatMap(({ meals }) =>
    meals.map((meal) => mealMinute(meal, situation)),
  );
  const noFlame = (request.noFlame ?? []).map((span) => ({
    from: toMinute(span.from, zone),
    to: toMinute(span.to, zone),
  }));
  const isOut = (id: string, from: number, to: number) =>
    outOfUse.some((entry) => entry.id === id && entry.from < to && entry.to > from);
  const here = <Thing extends { placeId: string }>(things: Thing[]) =>
    things.filter((thing) => thing.placeId === situation.place.id);
  const vessels = here(situation.household.vessels);
  const pots = vessels.filter((vessel) => vessel.kind === 'pot' || vessel.kind === 'pressure-cooker');
  const bowls = vessels.filter((vessel) => vessel.kind === 'soak-bowl');
  const flasks = vessels.filter((vessel) => vessel.kind === 'flask');
  const boxes = here(situation.household.boxes);
  const keepsHot = boxes.length > 0 || flasks.length > 0;
  const dishL = DISH_L_PER_SERVING * Math.max(1, ...situation.slots.map((slot) => slot.wantServings));
  const keptMinutes = [
    ...boxes.flatMap((box) => pots.filter((pot) => box.fits.includes(pot.id)).map((pot) => ({ vessel: pot, box }))),
    ...flasks.map((flask) => ({ vessel: flask, box: null })),
  ].map(({ vessel, box }) =>
    keepsHotMinutes(vessel, box, Math.min(USUAL_FILL_SHARE * vessel.capacityL, dishL), situation, calculations),
  );
  const longestKept = Math.max(0, ...keptMinutes);
  // A fire for one box alone ends with that dish; what else is cooked on it comes before.
  const sharedEarlyMinutes = boxes.length + flasks.length > 1 ? SHARED_FIRE_MINUTES : 0;
  // A poor box carries from a fire nearer to the meal.
  const earlyMinutes = EARLY_MINUTES.find((minutes) => minutes + sharedEarlyMinutes <= longestKept) ?? EARLY_MINUTES[0];

  const surroundingsOn = (day: number): Surroundings => {
    const { coldC } = situation.days[day] as DaySituation;
    return {
      elevationM: situation.place.elevationM,
      outdoorC: situation.place.outdoorC,
      indoorC: coldC,
      wind: situation.place.wind,
      waterC: situation.water.waterC ?? coldC,
      ...(isSafeBeforeTheFire(situation.household.water) ? {} : { boilsItsWater: true as const }),
    };
  };
  const periodOf = (minute: number): number => {
    const slot = situation.slots.find((candidate) => candidate.eatMinute > minute);
    return slot === undefined ? situation.slots.length : slot.period;
  };

  const dayOf = (minute: number): number => {
    const day = situation.days.findIndex((candidate) => minute <= candidate.sleepMinute);
    return day < 0 ? situation.days.length - 1 : day;
  };
  return {
    situation,
    request,
    calculations,
    zone,
    refusals: createRefusals(),
    vessels,
    pots,
    bowls,
    flasks,
    boxes,
    stoves: here(situation.household.stoves),
    noFlame,
    underWayMinutes,
    isOut,
    keepsHot,
    earlyMinutes,
    sharedEarlyMinutes,
    surroundingsOn,
    periodOf,
    dayOf,
  };
}

/** When a meal is eaten that is not among those of the plan: `2026-12-05-evening`. */
function mealMinute(meal: string, { household, place, startMinute }: WeekSituation): number {
  const time = household.meals.find((one) => one.id === meal.slice(11))?.time;
  return time === undefined ? startMinute : toMinute(`${meal.slice(0, 10)}T${time}`, place.timeZone);
}

function createRefusals() {
  const rows = new Map<string, DroppedMethod>();
  return {
    add(kitId: string, reason: string, wayOut: string | null) {
      // One line per kind of reason: figures that differ from way to way do not make another line.
      const key = `${kitId}|${reason.replaceAll(/[\d.]+/g, '#')}`;
      const row = rows.get(key);
      if (row === undefined) rows.set(key, { kitId, reason, wayOut, count: 1 });
      else row.count += 1;
    },
    list: () =>
      [...rows.values()].sort((a, b) =>
        a.kitId < b.kitId ? -1 : a.kitId > b.kitId ? 1 : a.reason < b.reason ? -1 : 1,
      ),
  };
}
