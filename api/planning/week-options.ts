/**
 * Puts cooking methods on the calendar: for every meal, every kit and every fire that could carry it, what is taken from
 * when to when. Refused and dominated ways are left out, refused ones with their reason.
 */
import { type Calculations, NOTHING, scalePercentiles } from '../cooking/calculations.ts';
import {
  BOX_ENTRY_LOSS_K,
  computeMethod,
  type DishMethod,
  heatWater,
  type MethodChoice,
  minutesPerFill,
  type NoHeatMethod,
  noHeatMethod,
  type Surroundings,
  startUpOf,
} from '../cooking/cooking-methods.ts';
import {
  type DishSoak,
  hasKidneyFamily,
  isRefusal,
  needsNoBoil,
  soakableParts,
  whyNoSafeSoak,
} from '../cooking/dish.ts';
import { hoursAbove60C } from '../cooking/hot-holding.ts';
import type { Kit } from '../cooking/kit.ts';
import { avoidedIn, kitNutrition } from '../cooking/kit-nutrition.ts';
import type { ResolvedBox, ResolvedStove, ResolvedVessel } from '../cooking/resolve-household.ts';
import { meltSnow } from '../cooking/snow.ts';
import { soakLimitHours } from '../cooking/soak-limits.ts';
import { boilMinutesToMakeSafe } from '../cooking/water-treatment.ts';
import type { Percentiles } from '../physics/parameter.ts';
import type { CauseEffect } from '../physics/spread.ts';
import type { FuelId } from '../physics/table-ids.ts';
import { keepsHotMinutes, timeConstantHoursOf } from './keep-hot.ts';
import { addDays, toMinute } from './local-time.ts';
import { flaskFillL, heatForFlask, type Night, nightsOf } from './night-feeds.ts';
import type { DroppedMethod, PlanRequest } from './plan-types.ts';
import { round } from './rounding.ts';
import type { SoakNow } from './state-now.ts';
import type {
  WeekInstance,
  WeekLighting,
  WeekOption,
  WeekTaskOption,
  WeekTreatment,
  WeekUse,
} from './week-instance.ts';
import type { DaySituation, KitStock, SlotSituation, WeekSituation } from './week-situation.ts';

/** Minutes between a meal and the next work at the stove: eating and clearing (common practice). */
const MEAL_MINUTES = 45;
/** A fire for a box dish ends this long before the meal: the longest that the box allows. */
const EARLY_MINUTES = [120, 90, 60, 45] as const;
/** Fill at which it is asked how long a box keeps a pot hot: a family's dish fills a pot by half to two thirds. */
const USUAL_FILL_SHARE = 0.6;
/** What other work on the same fire may take: a boxed dish can be done this much earlier than the fire ends. */
const SHARED_FIRE_MINUTES = 75;
/** A soak is set this long after getting up or before going to bed. */
const AFTER_WAKING_MINUTES = 15;
const BEFORE_BED_MINUTES = 45;
/** Shortest soak worth a bowl, h. */
const SHORTEST_SOAK_HOURS = 4;
/** Lighting, watching and shutting off one fire, hands-on minutes (common practice). */
const LIGHTING_TENDING_MINUTES = 8;
/** Nothing is kept hot longer than this: from an early supper to a late breakfast, h. */
const LONGEST_HOT_HOURS = 16;
/** Ladling out and boxing the rest, hands-on minutes (common practice). */
const BOXING_MINUTES = 5;
/** No fire is lit for less than this. */
const SHORTEST_FIRE_MINUTES = 10;
/** Nothing begins sooner than this after the plan does. */
const LEAD_IN_MINUTES = 10;

export interface LightingDetail {
  id: string;
  slot: SlotSituation;
  stove: ResolvedStove;
  fuelId: FuelId;
  endMinute: number;
  earliestMinute: number;
  startUpKg: Percentiles;
  startUpMJ: Percentiles;
  startUpEffects: CauseEffect[];
  startUpMinutes: number;
  early: boolean;
  /** The stove burns for heating in any case: what is cooked on it costs no fuel, and nobody lights it. */
  burnsAnyway: boolean;
}

export interface OptionDetail {
  id: string;
  slot: SlotSituation;
  kit: KitStock;
  sets: number;
  servingsCooked: number;
  lighting: LightingDetail | null;
  method: DishMethod | null;
  noHeat: NoHeatMethod | null;
  soak: { startMinute: number; bowl: ResolvedVessel; dish: DishSoak; begun: SoakNow | null } | null;
  surroundings: Surroundings;
  /** A later meal fed from the same pot, which goes at the boil into a box when the first has been ladled out. */
  kept: KeptMeal | null;
}

export interface KeptMeal {
  slot: SlotSituation;
  box: ResolvedBox;
  servings: number;
  /** Of what is left in the pot, h. */
  timeConstantHours: Percentiles;
}

export interface HotWaterDetail {
  id: string;
  lighting: LightingDetail;
  vessel: ResolvedVessel;
  minutes: Percentiles;
  fuelMJ: Percentiles;
  fuelKg: Percentiles;
  fuelEffects: CauseEffect[];
  litres: number;
  /** The flask that it goes into for the feeds of a night; null: the day's hot water. */
  night: { feeds: Night; flask: ResolvedVessel } | null;
}

export interface TreatmentDetail {
  id: string;
  day: number;
  lighting: LightingDetail | null;
  vessel: ResolvedVessel | null;
  /** What the pot takes at once; more is boiled potful after potful. */
  potfulL: number;
  minutesPerL: number;
  fuelKgPerL: Percentiles;
  fuelMJPerL: Percentiles;
  fuelEffects: CauseEffect[];
  /** Snow, melted and boiled. */
  fromSnow: boolean;
}

export interface WeekCalendar {
  week: WeekInstance;
  options: Map<string, OptionDetail>;
  lightings: Map<string, LightingDetail>;
  hotWater: Map<string, HotWaterDetail>;
  treatments: Map<string, TreatmentDetail>;
  nights: Night[];
  refused: DroppedMethod[];
}

/** Lays out everything that could be done in the week. */
export function weekCalendar(situation: WeekSituation, request: PlanRequest, calculations: Calculations): WeekCalendar {
  const steps = weekCalendarSteps(situation, request, calculations);
  let step = steps.next();
  while (step.done !== true) step = steps.next();
  return step.value;
}

/** The same meal by meal, for a runtime that has others to answer in between. */
export function* weekCalendarSteps(
  situation: WeekSituation,
  request: PlanRequest,
  calculations: Calculations,
): Generator<void, WeekCalendar> {
  const zone = situation.place.timeZone;
  const refusals = createRefusals();
  const lightings = new Map<string, LightingDetail>();
  const weekLightings: WeekLighting[] = [];
  const options = new Map<string, OptionDetail>();
  const weekOptions: WeekOption[] = [];
  const hotWater = new Map<string, HotWaterDetail>();
  const treatments = new Map<string, TreatmentDetail>();
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
  const keptMinutes = [
    ...boxes.flatMap((box) => pots.filter((pot) => box.fits.includes(pot.id)).map((pot) => ({ vessel: pot, box }))),
    ...flasks.map((flask) => ({ vessel: flask, box: null })),
  ].map(({ vessel, box }) =>
    keepsHotMinutes(vessel, box, USUAL_FILL_SHARE * vessel.capacityL, situation, calculations),
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
    };
  };

  const darkMeals = new Set<string>();
  // Fires that could be lit, and stoves that burn for heating in any case.
  for (const slot of situation.slots) {
    const before = situation.slots.filter((other) => other.day === slot.day && other.period < slot.period).at(-1);
    const day = situation.days[slot.day] as DaySituation;
    const afterLastMeal = Math.max(
      day.wakeMinute,
      situation.startMinute + LEAD_IN_MINUTES,
      before === undefined ? 0 : before.eatMinute + MEAL_MINUTES,
      // A meal that is under way is eaten first.
      ...underWayMinutes.filter((minute) => minute < slot.eatMinute).map((minute) => minute + MEAL_MINUTES),
    );
    for (const stove of here(situation.household.stoves)) {
      const dark = stove.site === 'outdoors' ? day.daylight : null;
      const firstMinute = Math.max(afterLastMeal, dark?.fromMinute ?? 0);
      const lastMinute = Math.min(day.sleepMinute, dark?.toMinute ?? day.sleepMinute);
      const burning = burningSpans(stove, slot.date, zone);
      const addLighting = (fuelId: FuelId, early: boolean, from: number, endMinute: number, burnsAnyway: boolean) => {
        let earliestMinute = from;
        if (noFlame.some((span) => span.from < endMinute && span.to >= endMinute)) return;
        for (const span of noFlame) if (span.to < endMinute && span.to > earliestMinute) earliestMinute = span.to;
        if (!early && dark !== null && endMinute > dark.toMinute) darkMeals.add(slot.id);
        if (endMinute > lastMinute || endMinute - earliestMinute < SHORTEST_FIRE_MINUTES) return;
        if (isOut(stove.id, earliestMinute, endMinute)) return;
        const moisture = situation.fuels[fuelId]?.moisturePercent ?? null;
        const startUp = burnsAnyway
          ? { kg: NOTHING, mj: NOTHING, effects: [], minutes: 0 }
          : startUpOf(stove, fuelId, moisture, surroundingsOn(slot.day), calculations);
        if (startUp === null) return;
        const id = `${slot.id}-${stove.id}-${fuelId}${early ? '-early' : ''}${burnsAnyway ? '-burning' : ''}`;
        lightings.set(id, {
          id,
          slot,
          stove,
          fuelId,
          endMinute,
          earliestMinute,
          startUpKg: startUp.kg,
          startUpMJ: startUp.mj,
          startUpEffects: startUp.effects,
          startUpMinutes: Math.ceil(startUp.minutes),
          early,
          burnsAnyway,
        });
        weekLightings.push({
          id,
          day: slot.day,
          period: slot.period,
          stoveId: stove.id,
          startUp: burnsAnyway ? {} : { [fuelId]: startUp.kg.p90 },
          startUpMinutes: Math.ceil(startUp.minutes),
          minutesAvailable: endMinute - earliestMinute,
          fillMinutes: burnsAnyway ? undefined : minutesOfOneFill(stove),
          ...(burnersAtOnce(stove) > 1 ? { burners: burnersAtOnce(stove) } : {}),
          outdoors: stove.site === 'outdoors',
          tendingMinutes: burnsAnyway ? 0 : LIGHTING_TENDING_MINUTES,
          burnsAnyway,
        });
      };
      const ends = [
        { early: false, endMinute: slot.eatMinute },
        // What is kept hot is boiled before dark where it is eaten after it.
        ...(keepsHot ? [{ early: true, endMinute: Math.min(slot.eatMinute - earlyMinutes, lastMinute) }] : []),
      ];
      for (const [index, fuelId] of stove.fuelIds.entries()) {
        const enough = (situation.fuels[fuelId]?.budgetByDay.at(-1) ?? 0) > 0;
        for (const { early, endMinute } of ends) {
          const span = burning.find((candidate) => candidate.from < endMinute && endMinute <= candidate.to);
          if (span !== undefined) {
            if (index === 0) addLighting(fuelId, early, Math.max(firstMinute, span.from), endMinute, true);
          } else if (enough) {
            const burntOut = burning.filter((candidate) => candidate.to < endMinute).at(-1)?.to ?? 0;
            addLighting(fuelId, early, Math.max(firstMinute, burntOut), endMinute, false);
          }
          // It went out before: what was cooked on it until then is kept hot.
          const gone = burning.filter((candidate) => candidate.to < endMinute && candidate.to > firstMinute).at(-1);
          if (early && index === 0 && span === undefined && gone !== undefined)
            addLighting(fuelId, true, Math.max(firstMinute, gone.from), gone.to, true);
        }
      }
    }
  }

  const methods = new Map<string, ReturnType<typeof computeMethod>>();
  const methodOf = (
    kitStock: KitStock,
    servings: number,
    choice: MethodChoice,
    surroundings: Surroundings,
  ): ReturnType<typeof computeMethod> => {
    const indoors =
      choice.finish !== 'flame' || choice.stove.site === 'vented-indoors' || situation.water.waterC === null;
    const key = [
      kitStock.kit.id,
      servings,
      choice.stove.id,
      choice.fuelId,
      choice.vessel.id,
      choice.finish,
      choice.box?.id,
      choice.flask?.id,
      choice.soak === null ? '-' : `${choice.soak.hours}/${choice.soak.waterC}`,
      choice.firstWater,
      choice.pours,
      choice.boxMinutes.shortest,
      choice.boxMinutes.longest,
      indoors ? surroundings.indoorC : '',
    ].join('|');
    const known = methods.get(key);
    if (known !== undefined) return known;
    const fresh = computeMethod(kitStock.kit, servings, choice, surroundings, kitStock.storage, calculations);
    methods.set(key, fresh);
    return fresh;
  };

  /** Whether a full pot in this box, or this flask filled, is still hot at its bad end after so many minutes. */
  const keepsUntil = (
    pot: ResolvedVessel | null,
    box: ResolvedBox | null,
    flask: ResolvedVessel | null,
    minutes: number,
  ): boolean => {
    const vessel = flask ?? pot;
    if (vessel === null) return false;
    return keepsHotMinutes(vessel, box, vessel.capacityL, situation, calculations) >= minutes;
  };

  const soakStarts = (day: number): number[] => {
    const today = situation.days[day] as WeekSituation['days'][number];
    const lastNight = situation.days[day - 1];
    const starts = [today.wakeMinute + AFTER_WAKING_MINUTES];
    if (lastNight !== undefined) {
      const supper = situation.slots.filter((slot) => slot.day === day - 1).at(-1);
      starts.push(lastNight.sleepMinute - BEFORE_BED_MINUTES);
      if (supper !== undefined) starts.push(supper.eatMinute + MEAL_MINUTES);
    }
    return starts.filter((start) => start >= situation.startMinute + LEAD_IN_MINUTES);
  };
  const periodOf = (minute: number): number => {
    const slot = situation.slots.find((candidate) => candidate.eatMinute > minute);
    return slot === undefined ? situation.slots.length : slot.period;
  };

  const dayOf = (minute: number): number => {
    const day = situation.days.findIndex((candidate) => minute <= candidate.sleepMinute);
    return day < 0 ? situation.days.length - 1 : day;
  };

  // Ways of feeding each slot.
  for (const slot of situation.slots) {
    yield;
    const surroundings = surroundingsOn(slot.day);
    const pinned = (request.pinned ?? []).find((pin) => pin.meal === slot.id);
    for (const kitStock of situation.kits) {
      const kit = kitStock.kit;
      if (kitStock.sets <= 0) continue;
      if (pinned === undefined ? !kit.suits.includes(slot.slot) : pinned.kitId !== kit.id) continue;
      const avoided = avoidedIn(kit, [...new Set(slot.eaters.flatMap((eater) => eater.avoids))]);
      if (avoided.length > 0) {
        refusals.add(kit.id, `somebody at the table cannot eat ${avoided.join(', ')}`, 'Offer another kit');
        continue;
      }
      const goodSets = kitStock.setsGoodOn[slot.day] ?? 0;
      const next = situation.slots.find((other) => other.day === slot.day && other.period === slot.period + 1);
      const together = potsFor(slot.wantServings, pots);
      const forTwo =
        together > 1 || next === undefined || boxes.length === 0 || !mayAlsoFeed(kit, next, pinned)
          ? []
          : twoMealSizes(kit, slot.wantServings, next.wantServings, goodSets).map((size) => ({ ...size, keeps: next }));
      // Where no pot holds enough for everybody, equal parts are cooked in several; what needs no pot is made at once.
      const parts = together === 1 ? [1] : [1, together];
      const forOne = parts.flatMap((part) =>
        batchSizes(kitStock, slot.wantServings / part, goodSets).map((size) => ({ ...size, keeps: null })),
      );
      // Food that lies in water is cooked as it was set, for this meal or for two.
      const forSoaks = (situation.continues?.soaks ?? [])
        .filter((soak) => soak.kitId === kit.id)
        .flatMap((soak) => {
          const servingsCooked = round(soak.batches * kit.servings, 2);
          const size = { sets: soak.batches, servingsCooked, begun: soak };
          const later = together > 1 || next === undefined || boxes.length === 0 ? null : next;
          const twice = later !== null && mayAlsoFeed(kit, later, pinned) ? [{ ...size, keeps: later }] : [];
          return [{ ...size, keeps: null }, ...twice];
        });
      for (const { sets, servingsCooked, keeps, begun } of [
        ...[...forOne, ...forTwo].map((size) => ({ ...size, begun: null })),
        ...forSoaks,
      ]) {
        const found: { option: WeekOption; detail: OptionDetail }[] = [];
        const nutrition = kitNutrition(kit);
        const served = Math.min(servingsCooked, slot.wantServings);
        const push = (
          suffix: string,
          part: Omit<WeekOption, 'id' | 'slotId' | 'kitId' | 'sets' | 'servings' | 'energyKcal'>,
          detail: Omit<OptionDetail, 'id' | 'slot' | 'kit' | 'sets' | 'servingsCooked' | 'surroundings'>,
        ) => {
          const id = `${slot.id}|${kit.id}|${sets}|${suffix}`;
          const also = detail.kept;
          found.push({
            option: {
              id,
              slotId: slot.id,
              kitId: kit.id,
              sets,
              servings: served,
              energyKcal: nutrition.kcalPerServing * servingsCooked,
              ...part,
              ...(begun === null ? {} : { begun: begun.id }),
              ...(also === null ? {} : { alsoFeeds: { slotId: also.slot.id, servings: also.servings } }),
            },
            detail: { id, slot, kit: kitStock, sets, servingsCooked, surroundings, ...detail },
          });
        };

        // Without fire.
        // A batch for two meals is cooked on the fire of the first.
        const cold: ReturnType<typeof noHeatMethod> =
          keeps === null && begun === null
            ? noHeatMethod(kit, servingsCooked)
            : { reason: 'It is cooked hot', wayOut: null };
        const coldMinutes = isRefusal(cold) ? 0 : Math.ceil(cold.standMinutes + cold.handsOnMinutes);
        const { wakeMinute, sleepMinute } = situation.days[slot.day] as DaySituation;
        const firstHands = Math.max(situation.startMinute, wakeMinute);
        if (!isRefusal(cold) && slot.eatMinute - coldMinutes < firstHands) {
          refusals.add(
            kit.id,
            `It stands ${coldMinutes} min in cold water, and nobody is up so long before the meal`,
            'Eat it later, or pour boiling water over it',
          );
        } else if (!isRefusal(cold) && slot.eatMinute - coldMinutes > sleepMinute) {
          refusals.add(kit.id, 'Nobody is up any more when water would be added', 'Eat it earlier');
        } else if (!isRefusal(cold) && (pinned?.method?.finish ?? 'no-heat') === 'no-heat') {
          push(
            'no-heat',
            {
              hot: false,
              day: slot.day,
              lightingId: null,
              minutes: 0,
              fuel: {},
              waterL: cold.waterL,
              waterDay: slot.day,
              uses: [],
              tendingMinutes: cold.handsOnMinutes,
            },
            { lighting: null, method: null, noHeat: cold, soak: null, kept: null },
          );
        }

        if (darkMeals.has(slot.id) && kit.style !== 'no-cook')
          refusals.add(
            kit.id,
            'It is dark when it would be cooked outdoors for the meal',
            'Boil it by daylight and keep it hot in a box or flask, or cook on a vented stove indoors',
          );

        // On a fire for this meal, or on an earlier fire and kept hot: of the day, or of the evening before.
        for (const lighting of kit.style === 'no-cook' ? [] : lightings.values()) {
          if (lighting.slot.period > slot.period || lighting.slot.day < slot.day - 1) continue;
          if (keeps !== null && (lighting.slot !== slot || lighting.early)) continue;
          const overnight = lighting.slot.day < slot.day;
          const isFirstMeal = !situation.slots.some((other) => other.day === slot.day && other.period < slot.period);
          if (overnight && (!isFirstMeal || slot.eatMinute - lighting.endMinute > LONGEST_HOT_HOURS * 60)) continue;
          if (pinned?.method?.stoveId !== undefined && pinned.method.stoveId !== lighting.stove.id) continue;
          const direct = lighting.slot === slot && !lighting.early;
          const finishes: {
            finish: 'flame' | 'box' | 'flask';
            box: ResolvedBox | null;
            flask: ResolvedVessel | null;
          }[] = direct
            ? [{ finish: 'flame', box: null, flask: null }]
            : [
                ...boxes.map((box) => ({ finish: 'box' as const, box, flask: null })),
                ...flasks.map((flask) => ({ finish: 'flask' as const, box: null, flask })),
              ];
          const shortest = Math.round((slot.eatMinute - lighting.endMinute) / 5) * 5;
          for (const { finish, box, flask } of finishes) {
            if (pinned?.method?.finish !== undefined && pinned.method.finish !== finish) continue;
            for (const vessel of pots) {
              if (box !== null && !box.fits.includes(vessel.id)) continue;
              if (finish !== 'flame' && vessel.kind === 'pressure-cooker') continue;
              // Few things hold heat through a night: what even a full one does not hold is not worked out dish by dish.
              if (
                overnight &&
                !keepsUntil(box === null ? null : vessel, box, flask, slot.eatMinute - lighting.endMinute)
              )
                continue;
              if (pinned?.method?.vesselId !== undefined && pinned.method.vesselId !== vessel.id) continue;
              if (isOut(vessel.id, lighting.earliestMinute, slot.eatMinute)) continue;
              const base: MethodChoice = {
                stove: lighting.stove,
                fuelId: lighting.fuelId,
                fuelMoisturePercent: situation.fuels[lighting.fuelId]?.moisturePercent ?? null,
                vessel,
                finish,
                box,
                flask,
                soak: null,
                firstWater: 'kept',
                boxMinutes:
                  finish === 'flame'
                    ? { shortest: 0, longest: 0 }
                    : { shortest, longest: shortest + (lighting.early ? sharedEarlyMinutes : SHARED_FIRE_MINUTES) },
              };
              // Goods that need no boil are not cooked in a flask: water is kept in it, and poured over them.
              const pours = finish === 'flask' && needsNoBoil(kit);
              const dry =
                pinned?.method?.soaked === true || begun !== null
                  ? []
                  : pours
                    ? [{ ...base, pours: true as const }]
                    : [base];
              // Unsoaked kidney-family beans only with their first water poured away, and never into a box (H13).
              const unsoaked = hasKidneyFamily(kit)
                ? dry
                    .filter(() => finish === 'flame')
                    .map((choice) => ({ ...choice, firstWater: 'poured-away' as const }))
                : dry;
              for (const choice of unsoaked) {
                const method = methodOf(kitStock, servingsCooked, choice, surroundings);
                if (isRefusal(method)) {
                  refusals.add(kit.id, method.reason, method.wayOut);
                  continue;
                }
                pushCooked(
                  push,
                  `${lighting.id}|${finish}|${box?.id ?? flask?.id ?? ''}|${vessel.id}|dry`,
                  lighting,
                  method,
                  null,
                  slot,
                  kitStock,
                  keeps === null ? null : { slot: keeps, cooked: servingsCooked },
                );
              }
              if (soakableParts(kit).length === 0) {
                const why = whyNoSafeSoak(kit);
                if (why !== null) refusals.add(kit.id, why.reason, why.wayOut);
                continue;
              }
              if (pinned?.method?.soaked === false) continue;
              for (const soak of soaksFor(kitStock, servingsCooked, base, surroundings, lighting, begun)) {
                pushCooked(
                  push,
                  `${lighting.id}|${finish}|${box?.id ?? flask?.id ?? ''}|${vessel.id}|soak-${begun?.id ?? soak.bowl.id}`,
                  lighting,
                  soak.method,
                  soak,
                  slot,
                  kitStock,
                  keeps === null ? null : { slot: keeps, cooked: servingsCooked },
                );
              }
            }
          }
        }
        for (const { option, detail } of withoutDominated(found)) {
          weekOptions.push(option);
          options.set(option.id, detail);
        }
      }
    }
  }

  function soaksFor(
    kitStock: KitStock,
    servings: number,
    base: MethodChoice,
    surroundings: Surroundings,
    lighting: LightingDetail,
    begun: SoakNow | null,
  ): NonNullable<OptionDetail['soak'] & { method: DishMethod }>[] {
    let best: { startMinute: number; dish: DishSoak; method: DishMethod } | null = null;
    for (const startMinute of begun === null ? soakStarts(lighting.slot.day) : [toMinute(begun.since, zone)]) {
      // The house cools: what limits a soak is where it stands warmest, what it takes up is counted where it is coldest.
      // The clock of one that was set runs on from then.
      const limit =
        begun?.limitHours ?? soakLimitHours(situation.days[dayOf(startMinute)]?.warmC ?? surroundings.indoorC);
      // A first look with the pot going on an hour and a half before the fire ends, then with its own minutes.
      const nominal = Math.min(limit, Math.floor(((lighting.endMinute - 90 - startMinute) / 60) * 2) / 2);
      if (nominal < SHORTEST_SOAK_HOURS) continue;
      const first = methodOf(
        kitStock,
        servings,
        { ...base, soak: { hours: nominal, waterC: surroundings.indoorC, additive: 'none' } },
        surroundings,
      );
      if (isRefusal(first)) {
        refusals.add(kitStock.kit.id, first.reason, first.wayOut);
        continue;
      }
      const ownMinutes =
        first.minutesToBoil.p90 + first.holdMinutes.p90 + (base.finish === 'flame' ? first.restMinutes : 0);
      const latestHours = (lighting.endMinute - ownMinutes - startMinute) / 60;
      const hours = Math.floor((latestHours - SHARED_FIRE_MINUTES / 60) * 2) / 2;
      // One clock from the first wetting to the boil, draining and heating up included (trade notes H2).
      const untilBoilHours = latestHours + first.minutesToBoil.p90 / 60;
      if (hours < SHORTEST_SOAK_HOURS || untilBoilHours > limit) continue;
      const dish: DishSoak = { hours, waterC: surroundings.indoorC, additive: 'none' };
      const method = methodOf(kitStock, servings, { ...base, soak: dish }, surroundings);
      if (isRefusal(method)) {
        refusals.add(kitStock.kit.id, method.reason, method.wayOut);
        continue;
      }
      if (best === null || method.fuelMJ.p50 < best.method.fuelMJ.p50) best = { startMinute, dish, method };
    }
    if (best === null) return [];
    const chosen = { ...best, begun };
    if (begun !== null)
      return vessels.filter((bowl) => bowl.id === begun.vesselId).map((bowl) => ({ ...chosen, bowl }));
    return bowls
      .filter((bowl) => chosen.method.needs.bowlVolumeL <= 0.9 * bowl.capacityL)
      .filter((bowl) => !isOut(bowl.id, chosen.startMinute, lighting.endMinute))
      .map((bowl) => ({ ...chosen, bowl }));
  }

  function pushCooked(
    push: (
      suffix: string,
      part: Omit<WeekOption, 'id' | 'slotId' | 'kitId' | 'sets' | 'servings' | 'energyKcal'>,
      detail: Omit<OptionDetail, 'id' | 'slot' | 'kit' | 'sets' | 'servingsCooked' | 'surroundings'>,
    ) => void,
    suffix: string,
    lighting: LightingDetail,
    worked: DishMethod,
    soak: OptionDetail['soak'],
    slot: SlotSituation,
    { kit }: KitStock,
    alsoFor: { slot: SlotSituation; cooked: number } | null,
  ): void {
    const kitId = kit.id;
    const method = lighting.burnsAnyway ? withoutFuel(worked) : worked;
    const minutes = fireMinutes(method);
    if (minutes > lighting.endMinute - lighting.earliestMinute - lighting.startUpMinutes) {
      refusals.add(
        kitId,
        `It needs ${Math.ceil(minutes)} min of flame, more than fit before the meal`,
        'Soak it, or use a pressure cooker',
      );
      return;
    }
    const from = lighting.slot.period;
    for (const kept of alsoFor === null ? [null] : keptMeals(method, kit, slot, lighting, alsoFor)) {
      const to = kept?.slot.period ?? slot.period;
      const uses: WeekUse[] = [];
      const take = (resource: string, first: number, last: number) => {
        for (let period = first; period <= last; period++) uses.push({ resource, period });
      };
      take(method.choice.vessel.id, from, method.choice.finish === 'flask' ? from : to);
      if (method.choice.box !== null) take(method.choice.box.id, from, to);
      if (kept !== null) take(kept.box.id, from, to);
      if (method.choice.flask !== null) take(method.choice.flask.id, from, to);
      if (soak !== null) take(soak.bowl.id, periodOf(soak.startMinute), from);
      push(
        kept === null ? suffix : `${suffix}|kept-${kept.box.id}`,
        {
          hot: true,
          day: lighting.slot.day,
          lightingId: lighting.id,
          minutes,
          flameMinutes: onFireMinutes(method),
          fuel: lighting.burnsAnyway ? {} : { [lighting.fuelId]: method.fuelKg.p90 },
          waterL: method.waterL - (soak?.begun == null ? 0 : method.needs.soakSuppliedL),
          waterDay: soak === null ? lighting.slot.day : dayOf(soak.startMinute),
          uses,
          tendingMinutes: method.handsOnMinutes + (kept === null ? 0 : BOXING_MINUTES),
        },
        { lighting, method, noHeat: null, soak, kept },
      );
    }
  }

  /** Boxes in which what is left of a pot stays hot until the next meal; refusals where one does not hold it. */
  function keptMeals(
    method: DishMethod,
    kit: Kit,
    slot: SlotSituation,
    lighting: LightingDetail,
    { slot: later, cooked }: { slot: SlotSituation; cooked: number },
  ): KeptMeal[] {
    const { vessel } = method.choice;
    const servings = Math.min(cooked - slot.wantServings, later.wantServings);
    if (vessel.kind !== 'pot' || servings <= 0) return [];
    const fillL = (method.needs.volumeL * servings) / cooked;
    const hours = (later.eatMinute - slot.eatMinute + Math.ceil(method.restMinutes)) / 60;
    const startC = method.needs.temperatureC - BOX_ENTRY_LOSS_K;
    return boxes
      .filter((box) => box.fits.includes(vessel.id))
      .filter((box) => ![box, vessel].some((thing) => isOut(thing.id, lighting.earliestMinute, later.eatMinute)))
      .flatMap((box) => {
        const timeConstantHours = timeConstantHoursOf(vessel, box, fillL, situation, calculations);
        if (hoursAbove60C(startC, surroundingsOn(slot.day).indoorC, timeConstantHours.p10) < hours) {
          refusals.add(
            kit.id,
            `What is left of it would not surely stay above 60 °C for the ${round(hours, 1)} h until the next meal`,
            'Cook it for one meal, or insulate the box better',
          );
          return [];
        }
        return [{ slot: later, box, servings, timeConstantHours }];
      });
  }

  /** Whether a batch of a kit may be eaten again at the next meal: it suits, nobody there avoids it, nothing is pinned. */
  function mayAlsoFeed(kit: Kit, next: SlotSituation, pinned: { method?: unknown } | undefined): boolean {
    const pinnedNext = (request.pinned ?? []).find((pin) => pin.meal === next.id);
    if ((pinned?.method ?? pinnedNext?.method ?? null) !== null) return false;
    if (pinnedNext === undefined ? !kit.suits.includes(next.slot) : pinnedNext.kitId !== kit.id) return false;
    return avoidedIn(kit, [...new Set(next.eaters.flatMap((eater) => eater.avoids))]).length === 0;
  }

  // The day's hot water, and water made safe by boiling.
  const weekHotWater: WeekTaskOption[] = [];
  const weekTreatments: WeekTreatment[] = [];
  const wanted = situation.household.water.hotWaterPerDay;
  const hotWaterDays =
    wanted.litres <= 0
      ? []
      : situation.days.flatMap((day, index) =>
          (index === 0 && situation.continues?.hotWaterToday != null
            ? situation.continues.hotWaterToday
            : day.share >= 0.3) && situation.slots.some((slot) => slot.day === index)
            ? [index]
            : [],
        );
  for (const lighting of lightings.values()) {
    const surroundings = surroundingsOn(lighting.slot.day);
    const moisture = situation.fuels[lighting.fuelId]?.moisturePercent ?? null;
    if (hotWaterDays.includes(lighting.slot.day)) {
      for (const vessel of pots) {
        if (vessel.capacityL * 0.8 < wanted.litres || vessel.kind !== 'pot') continue;
        if (isOut(vessel.id, lighting.earliestMinute, lighting.endMinute)) continue;
        const heated = heatOn(
          lighting,
          { stove: lighting.stove, fuelId: lighting.fuelId, fuelMoisturePercent: moisture, vessel },
          wanted.litres,
          wanted.temperatureC,
          0,
          surroundings,
          calculations,
        );
        if (
          heated === null ||
          heated.minutes.p90 > lighting.endMinute - lighting.earliestMinute - lighting.startUpMinutes
        )
          continue;
        // Water that is hot already still takes a minute to pour.
        const { p10, p50, p90 } = heated.minutes;
        const minutes = { p10: Math.max(1, p10), p50: Math.max(1, p50), p90: Math.max(1, p90) };
        const id = `${lighting.id}|hot-water|${vessel.id}`;
        hotWater.set(id, {
          id,
          lighting,
          vessel,
          minutes,
          fuelMJ: heated.fuelMJ,
          fuelKg: heated.fuelKg,
          fuelEffects: heated.fuelEffects,
          litres: wanted.litres,
          night: null,
        });
        weekHotWater.push({
          id,
          day: lighting.slot.day,
          lightingId: lighting.id,
          minutes: Math.ceil(minutes.p90),
          fuel: lighting.burnsAnyway ? {} : { [lighting.fuelId]: heated.fuelKg.p90 },
          uses: [{ resource: vessel.id, period: lighting.slot.period }],
        });
      }
    }
    const treatable = situation.water.treatableByDay[lighting.slot.day] ?? 0;
    if (situation.household.water.treatBy === 'boil' && treatable > 0) {
      const vessel = [...pots].filter((pot) => pot.kind === 'pot').sort((a, b) => b.capacityL - a.capacityL)[0];
      if (vessel === undefined) continue;
      const litres = vessel.capacityL * 0.8;
      const heated = heatOn(
        lighting,
        { stove: lighting.stove, fuelId: lighting.fuelId, fuelMoisturePercent: moisture, vessel },
        litres,
        null,
        boilMinutesToMakeSafe(situation.place.elevationM),
        surroundings,
        calculations,
      );
      if (heated === null) continue;
      const id = `${lighting.id}|treat`;
      const perL = (amount: Percentiles): Percentiles => ({
        p10: amount.p10 / litres,
        p50: amount.p50 / litres,
        p90: amount.p90 / litres,
      });
      treatments.set(id, {
        id,
        day: lighting.slot.day,
        lighting,
        vessel,
        potfulL: litres,
        minutesPerL: Math.ceil(heated.minutes.p90) / litres,
        fuelKgPerL: perL(heated.fuelKg),
        fuelMJPerL: perL(heated.fuelMJ),
        fuelEffects: heated.fuelEffects,
        fromSnow: false,
      });
      weekTreatments.push({
        id,
        day: lighting.slot.day,
        lightingId: lighting.id,
        minutesPerL: Math.ceil(heated.minutes.p90) / litres,
        fuelPerL: lighting.burnsAnyway ? {} : { [lighting.fuelId]: heated.fuelKg.p90 / litres },
        largestL: treatable,
        uses: [{ resource: vessel.id, period: lighting.slot.period }],
      });
    }
  }
  // Flasks for the feeds of a night.
  const nights = nightsOf(situation);
  for (const feeds of nights.filter((night) => night.burning === null)) {
    const last = feeds.feedMinutes.at(-1) as number;
    for (const lighting of lightings.values()) {
      const firstFeed = feeds.feedMinutes[0] as number;
      if (lighting.slot.day !== feeds.day || lighting.endMinute > firstFeed) continue;
      for (const flask of flasks) {
        const litres = flaskFillL(flask, feeds.litres, (last - lighting.endMinute) / 60, situation, calculations);
        if (litres === null || isOut(flask.id, lighting.earliestMinute, last)) continue;
        // Nobody fills a flask at night: what is empty before anybody is up is free in the whole next period.
        const lastMeal = situation.slots.filter((slot) => slot.day === feeds.day).at(-1) as SlotSituation;
        const nextUp = situation.days[feeds.day + 1]?.wakeMinute ?? Number.POSITIVE_INFINITY;
        const until = last <= nextUp ? lastMeal.period : periodOf(last);
        for (const pot of pots) {
          if (pot.kind !== 'pot' || pot.capacityL * 0.8 < litres) continue;
          if (isOut(pot.id, lighting.earliestMinute, lighting.endMinute)) continue;
          const heated = heatForFlask(lighting, pot, litres, surroundingsOn(feeds.day), situation, calculations);
          if (heated === null) continue;
          const id = `${lighting.id}|night|${flask.id}|${pot.id}`;
          hotWater.set(id, { id, lighting, vessel: pot, litres, night: { feeds, flask }, ...heated });
          weekHotWater.push({
            id,
            day: feeds.day,
            lightingId: lighting.id,
            minutes: Math.ceil(heated.minutes.p90),
            fuel: lighting.burnsAnyway ? {} : { [lighting.fuelId]: heated.fuelKg.p90 },
            uses: [
              { resource: pot.id, period: lighting.slot.period },
              ...Array.from({ length: until - lighting.slot.period + 1 }, (_, index) => ({
                resource: flask.id,
                period: lighting.slot.period + index,
              })),
            ],
            night: true,
          });
        }
      }
    }
  }
  const nightsToFill = nights
    .map((night) => night.day)
    .filter((day) => weekHotWater.some((task) => task.night === true && task.day === day));

  // Snow is melted and boiled on any fire.
  for (const lighting of situation.household.water.snow ? lightings.values() : []) {
    const pot = [...pots].filter((one) => one.kind === 'pot').sort((a, b) => b.capacityL - a.capacityL)[0];
    if (pot === undefined || isOut(pot.id, lighting.earliestMinute, lighting.endMinute)) continue;
    const melted = meltSnow(
      {
        stove: lighting.stove,
        fuelId: lighting.fuelId,
        fuelMoisturePercent: situation.fuels[lighting.fuelId]?.moisturePercent ?? null,
        vessel: pot,
      },
      surroundingsOn(lighting.slot.day),
      calculations,
    );
    if (melted === null) continue;
    const room = lighting.endMinute - lighting.earliestMinute - lighting.startUpMinutes;
    const potfuls = Math.floor(room / Math.ceil(melted.minutes.p90));
    if (potfuls < 1) continue;
    const perL = (amount: Percentiles): Percentiles =>
      lighting.burnsAnyway ? NOTHING : scalePercentiles(amount, 1 / melted.litres);
    const id = `${lighting.id}|snow`;
    const minutesPerL = Math.ceil(melted.minutes.p90) / melted.litres;
    const fuelKgPerL = perL(melted.fuelKg);
    treatments.set(id, {
      id,
      day: lighting.slot.day,
      lighting,
      vessel: pot,
      potfulL: melted.litres,
      minutesPerL,
      fuelKgPerL,
      fuelMJPerL: perL(melted.fuelMJ),
      fuelEffects: lighting.burnsAnyway ? [] : melted.fuelEffects,
      fromSnow: true,
    });
    weekTreatments.push({
      id,
      day: lighting.slot.day,
      lightingId: lighting.id,
      minutesPerL,
      fuelPerL: lighting.burnsAnyway ? {} : { [lighting.fuelId]: fuelKgPerL.p90 },
      largestL: potfuls * melted.litres,
      fromSnow: true,
      uses: [{ resource: pot.id, period: lighting.slot.period }],
    });
  }
  if (situation.household.water.treatBy === 'bleach') {
    for (const day of situation.days.keys()) {
      const treatable = situation.water.treatableByDay[day] ?? 0;
      if (treatable <= 0) continue;
      const id = `day-${day}|bleach`;
      treatments.set(id, {
        id,
        day,
        lighting: null,
        vessel: null,
        potfulL: Number.POSITIVE_INFINITY,
        minutesPerL: 0,
        fuelKgPerL: NOTHING,
        fuelMJPerL: NOTHING,
        fuelEffects: [],
        fromSnow: false,
      });
      weekTreatments.push({ id, day, lightingId: null, minutesPerL: 0, fuelPerL: {}, largestL: treatable });
    }
  }

  return {
    week: {
      days: request.days,
      slots: situation.slots.map((slot) => ({
        id: slot.id,
        day: slot.day,
        period: slot.period,
        wantServings: slot.wantServings,
        hotWanted: slot.hot === 'wanted',
        ...(potsFor(slot.wantServings, pots) === 1 ? {} : { mostDishes: potsFor(slot.wantServings, pots) }),
      })),
      lightings: weekLightings,
      options: weekOptions,
      hotWater: weekHotWater,
      hotWaterDays,
      ...(nightsToFill.length === 0 ? {} : { nights: nightsToFill }),
      treatments: weekTreatments,
      sets: Object.fromEntries(situation.kits.map((kitStock) => [kitStock.kit.id, kitStock.sets])),
      setsGoodOn: Object.fromEntries(
        situation.kits
          .filter((kitStock) => kitStock.setsGoodOn.some((sets) => sets !== kitStock.sets))
          .map((kitStock) => [kitStock.kit.id, kitStock.setsGoodOn]),
      ),
      fuelByDay: Object.fromEntries(
        Object.entries(situation.fuels).map(([fuelId, fuel]) => [fuelId, fuel.budgetByDay]),
      ),
      safeWaterByDay: situation.water.safeByDay,
      treatableWaterByDay: situation.water.treatableByDay,
      ...(situation.household.water.treatBy === 'boil' ? { boiledWater: { safeAtStartL: situation.water.safeL } } : {}),
      ...(situation.household.water.snow ? { snow: true } : {}),
      lightingsPerDay: situation.household.lightingsPerDay,
      outdoorMinutesPerDay: situation.household.outdoorMinutesPerDay,
      needKcal: Math.max(
        0,
        situation.days.reduce((sum, day) => sum + day.needKcal, 0) - (situation.continues?.kcalAhead ?? 0),
      ),
      ...(situation.continues === null
        ? {}
        : {
            before: {
              ...situation.continues.before,
              soaks: situation.continues.soaks.map(({ id, kitId, batches }) => ({ id, kitId, sets: batches })),
            },
          }),
    },
    options,
    lightings,
    hotWater,
    treatments,
    nights,
    refused: refusals.list(),
  };
}

/** When a meal is eaten that is not among those of the plan: `2026-12-05-evening`. */
function mealMinute(meal: string, { household, place, startMinute }: WeekSituation): number {
  const time = household.meals.find((one) => one.id === meal.slice(11))?.time;
  return time === undefined ? startMinute : toMinute(`${meal.slice(0, 10)}T${time}`, place.timeZone);
}

/** When a stove burns for heating in any case, on and around a date, as minutes; a span may pass midnight. */
function burningSpans(stove: ResolvedStove, date: string, zone: string): { from: number; to: number }[] {
  const span = stove.burnsAnyway;
  if (span === null) return [];
  const overnight = span.to <= span.from;
  return [-1, 0].map((day) => ({
    from: toMinute(`${addDays(date, day)}T${span.from}`, zone),
    to: toMinute(`${addDays(date, day + (overnight ? 1 : 0))}T${span.to}`, zone),
  }));
}

/** A dish on a stove that burns in any case: the same minutes, and no fuel. */
function withoutFuel(method: DishMethod): DishMethod {
  return { ...method, fuelMJ: NOTHING, fuelKg: NOTHING, fuelEffects: [] };
}

/** Heating water on a fire; free where the stove burns in any case. */
function heatOn(lighting: LightingDetail, ...task: Parameters<typeof heatWater>): ReturnType<typeof heatWater> {
  const heated = heatWater(...task);
  if (heated === null || !lighting.burnsAnyway) return heated;
  return { ...heated, fuelMJ: NOTHING, fuelKg: NOTHING, fuelEffects: [] };
}

/**
 * Minutes that a burner without a valve gives from one lighting: its fill, less a tenth in hand, since a hot burner must
 * not be refilled. No limit for other stoves, nor where a second burner takes over.
 */
function minutesOfOneFill(stove: ResolvedStove): number | undefined {
  const fill = minutesPerFill(stove);
  return fill === null || stove.burners >= 2 ? undefined : Math.floor(fill * 0.9);
}

/** Pots that stand on a stove at once; burners that are filled by hand take turns while one cools. */
export function burnersAtOnce(stove: ResolvedStove): number {
  return minutesPerFill(stove) === null ? Math.max(1, stove.burners) : 1;
}

/** Whole minutes with the pot on the flame, at the high end. */
export function onFireMinutes(method: DishMethod): number {
  return Math.ceil(method.minutesToBoil.p90 + method.holdMinutes.p90);
}

/** Whole minutes that a dish keeps the fire, at the high end, rest off the fire before a direct meal included. */
export function fireMinutes(method: DishMethod): number {
  return onFireMinutes(method) + (method.choice.finish === 'flame' ? Math.ceil(method.restMinutes) : 0);
}

/** Litres of a serving with its water, and the share of a pot that is filled: for how many pots a meal asks. */
const SERVING_L = 0.55;
const FILLED_SHARE = 0.75;
const MOST_POTS = 4;

/** Pots that a meal for so many asks for, 1 to 4. */
function potsFor(servings: number, pots: readonly ResolvedVessel[]): number {
  const largestL = Math.max(0, ...pots.map((pot) => pot.capacityL));
  if (largestL === 0) return 1;
  return Math.min(MOST_POTS, Math.max(1, Math.ceil((servings * SERVING_L) / (FILLED_SHARE * largestL))));
}

/** How many sets are cooked at once: as many servings as are wanted where the kit divides, else whole sets. */
function batchSizes({ kit }: KitStock, wantServings: number, sets: number): { sets: number; servingsCooked: number }[] {
  if (kit.divisible === true) {
    const servings = Math.min(Math.ceil(wantServings * 2) / 2, sets * kit.servings);
    return servings <= 0 ? [] : [{ sets: servings / kit.servings, servingsCooked: servings }];
  }
  const most = Math.min(Math.ceil(wantServings / kit.servings - 1e-9), Math.floor(sets));
  return Array.from({ length: Math.max(0, most) }, (_, index) => ({
    sets: index + 1,
    servingsCooked: (index + 1) * kit.servings,
  }));
}

/**
 * How many sets are cooked for two meals at once: all of both where the kit divides; whole sets otherwise, which give the
 * later meal at least half of what is wanted.
 */
function twoMealSizes(
  kit: Kit,
  first: number,
  second: number,
  sets: number,
): { sets: number; servingsCooked: number }[] {
  if (kit.divisible === true) {
    const servings = Math.ceil((first + second) * 2 - 1e-9) / 2;
    return servings <= sets * kit.servings + 1e-9 ? [{ sets: servings / kit.servings, servingsCooked: servings }] : [];
  }
  const whole = (first + second) / kit.servings;
  return [...new Set([Math.floor(whole + 1e-9), Math.ceil(whole - 1e-9)])]
    .filter((count) => count > 0 && count <= Math.floor(sets) && count * kit.servings >= first + second / 2)
    .map((count) => ({ sets: count, servingsCooked: count * kit.servings }));
}

/**
 * Leaves out what another way on the same fire beats or equals in everything the model sees: fuel, water, minutes, hands
 * and the things it takes. Ties keep the first.
 */
function withoutDominated(
  found: { option: WeekOption; detail: OptionDetail }[],
): { option: WeekOption; detail: OptionDetail }[] {
  const key = (option: WeekOption) => option.uses.map((use) => `${use.resource}@${use.period}`);
  const rows = found.map((row) => ({ ...row, uses: new Set(key(row.option)) }));
  const total = (option: WeekOption) => Object.values(option.fuel).reduce((sum, kg) => sum + kg, 0);
  return rows
    .filter((row, index) =>
      rows.every((other, otherIndex) => {
        if (other === row || other.option.lightingId !== row.option.lightingId || other.option.hot !== row.option.hot)
          return true;
        const better =
          total(other.option) <= total(row.option) &&
          other.option.waterL <= row.option.waterL &&
          other.option.minutes <= row.option.minutes &&
          other.option.tendingMinutes <= row.option.tendingMinutes &&
          [...other.uses].every((use) => row.uses.has(use));
        if (!better) return true;
        const equal =
          total(other.option) === total(row.option) &&
          other.option.waterL === row.option.waterL &&
          other.option.minutes === row.option.minutes &&
          other.option.tendingMinutes === row.option.tendingMinutes &&
          other.uses.size === row.uses.size;
        return equal && otherIndex > index;
      }),
    )
    .map(({ option, detail }) => ({ option, detail }));
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
