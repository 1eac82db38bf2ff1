/** Every way of feeding every meal: kit, batch, soak, vessel, finish and fire. Refused ones leave their reason. */

import { NOTHING } from '../../cooking/calculators/calculations.ts';
import {
  BOX_ENTRY_LOSS_K,
  computeMethod,
  type DishMethod,
  type MethodChoice,
  noHeatMethod,
  type Surroundings,
} from '../../cooking/dishes/cooking-methods.ts';
import {
  type DishSoak,
  hasKidneyFamily,
  isRefusal,
  needsNoBoil,
  soakableParts,
  whyNoSafeSoak,
} from '../../cooking/dishes/dish.ts';
import { fireWays, isSparing } from '../../cooking/dishes/fire-ways.ts';
import { heatsFor } from '../../cooking/dishes/hot-without-boil.ts';
import type { Kit } from '../../cooking/dishes/kit.ts';
import { avoidedIn, kitNutrition } from '../../cooking/dishes/kit-nutrition.ts';
import { isKit } from '../../cooking/dishes/part-choices.ts';
import type { ResolvedBox, ResolvedHousehold, ResolvedVessel } from '../../cooking/household/resolve-household.ts';
import { hoursAbove60C } from '../../cooking/keeping/hot-holding.ts';
import { soakLimitHours } from '../../cooking/keeping/soak-limits.ts';
import type { SoakNow } from '../bookings/state-now.ts';
import { toMinute } from '../local-time.ts';
import { round } from '../rounding.ts';
import { batchSizes, potsFor, twoMealSizes } from './batch-sizes.ts';
import { fireMinutes, onFireMinutes } from './fire-minutes.ts';
import { keepsHotMinutes, timeConstantHoursOf } from './keep-hot.ts';
import type { KeptMeal, LightingDetail, OptionDetail } from './week-calendar-types.ts';
import type { WeekFires } from './week-fires.ts';
import type { WeekOption, WeekUse } from './week-instance.ts';
import { LEAD_IN_MINUTES, MEAL_MINUTES, SHARED_FIRE_MINUTES, type WeekLayout } from './week-layout.ts';
import type { DaySituation, KitStock, SlotSituation, WeekSituation } from './week-situation.ts';

/** A soak is set this long after getting up or before going to bed. */
const AFTER_WAKING_MINUTES = 15;
const BEFORE_BED_MINUTES = 45;
/** Shortest soak worth a bowl, h. */
const SHORTEST_SOAK_HOURS = 4;
/** A soak that spares less of the fuel than this, where the dish may also be cooked unsoaked, is not looked at. */
const LEAST_SAVED_BY_SOAK_SHARE = 0.05;
/** Nothing is kept hot longer than this: from an early supper to a late breakfast, h. */
const LONGEST_HOT_HOURS = 16;
/** Ladling out and boxing the rest, hands-on minutes (common practice). */
const BOXING_MINUTES = 5;

export interface WeekDishes {
  options: Map<string, OptionDetail>;
  weekOptions: WeekOption[];
}

/** The ways, meal by meal, so that a runtime can answer others in between. */
export function* layOutDishes(layout: WeekLayout, { lightings, darkMeals }: WeekFires): Generator<void, WeekDishes> {
  const { situation, request, calculations, zone, refusals, vessels, pots, bowls, flasks, boxes } = layout;
  const { isOut, sharedEarlyMinutes, surroundingsOn, periodOf, dayOf } = layout;
  const options = new Map<string, OptionDetail>();
  const weekOptions: WeekOption[] = [];
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
      choice.flame,
      choice.standMinutes,
      choice.heatToC,
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
  for (const slot of situation.slots) {
    yield;
    const surroundings = surroundingsOn(slot.day);
    const pinned = (request.pinned ?? []).find((pin) => pin.meal === slot.id);
    for (const kitStock of situation.kits) {
      const kit = kitStock.kit;
      const softens = !needsNoBoil(kit);
      const heats = heatsFor(kit, surroundings.boilsItsWater === true, situation.household.thermometer);
      if (kitStock.sets <= 0) continue;
      if (pinned === undefined ? !kit.suits.includes(slot.slot) : !isKit(kit, pinned.kitId)) continue;
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
              const given: MethodChoice = {
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
              const dryMJ = new Map<string, number>();
              for (const [nth, base] of fireWays(
                given,
                keeps === null && softens,
                keeps === null ? heats : [],
              ).entries()) {
                const sparing = isSparing(base);
                const pot = sparing ? `${vessel.id}${SPARING}${nth}` : vessel.id;
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
                      .map(({ standMinutes: _, ...choice }) => ({ ...choice, firstWater: 'poured-away' as const }))
                  : dry;
                for (const choice of unsoaked) {
                  const method = methodOf(kitStock, servingsCooked, choice, surroundings);
                  if (isRefusal(method)) {
                    // Where the sparing way cannot be, the plain one stands.
                    if (!sparing) refusals.add(kit.id, method.reason, method.wayOut);
                    continue;
                  }
                  dryMJ.set(pot, method.fuelMJ.p50);
                  pushCooked(
                    push,
                    `${lighting.id}|${finish}|${box?.id ?? flask?.id ?? ''}|${pot}|dry`,
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
                  if (why !== null && !sparing) refusals.add(kit.id, why.reason, why.wayOut);
                  continue;
                }
                if (pinned?.method?.soaked === false) continue;
                for (const soak of soaksFor(kitStock, servingsCooked, base, surroundings, lighting, begun)) {
                  // What a soak hardly spares is not worth a bowl, nor a way more to weigh.
                  const unsoakedMJ = dryMJ.get(pot) ?? Number.POSITIVE_INFINITY;
                  if (begun === null && soak.method.fuelMJ.p50 > unsoakedMJ * (1 - LEAST_SAVED_BY_SOAK_SHARE)) continue;
                  pushCooked(
                    push,
                    `${lighting.id}|${finish}|${box?.id ?? flask?.id ?? ''}|${pot}|soak-${begun?.id ?? soak.bowl.id}`,
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
        }
        for (const { option, detail } of withoutDominated(mostSparing(found, situation.household))) {
          weekOptions.push(option);
          options.set(option.id, detail);
        }
      }
    }
  }
  return { options, weekOptions };

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
      // What limits a soak is the warmest of the days that count as one, what it takes up is counted at the coldest. The
      // clock of one that was set runs on from then.
      const startC = situation.days[dayOf(startMinute)]?.indoorC ?? surroundings.indoorC;
      const { warmC } = situation.days[lighting.slot.day] as DaySituation;
      const limit = begun?.limitHours ?? soakLimitHours(Math.max(startC, warmC));
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
        if (!isSparing(base)) refusals.add(kitStock.kit.id, first.reason, first.wayOut);
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
        if (!isSparing(base)) refusals.add(kitStock.kit.id, method.reason, method.wayOut);
        continue;
      }
      if (best === null || method.fuelMJ.p50 < best.method.fuelMJ.p50) best = { startMinute, dish, method };
    }
    if (best === null) return [];
    const chosen = { ...best, begun };
    if (begun !== null)
      return vessels.filter((bowl) => bowl.id === begun.vesselId).map((bowl) => ({ ...chosen, bowl }));
    const fit = bowls
      .filter((bowl) => chosen.method.needs.bowlVolumeL <= 0.9 * bowl.capacityL)
      .filter((bowl) => !isOut(bowl.id, chosen.startMinute, lighting.endMinute))
      .sort((a, b) => a.capacityL - b.capacityL);
    return bowlsFor(fit, lighting.slot).map((bowl) => ({ ...chosen, bowl }));
  }

  /**
   * Of the bowls that hold a soak the one that it is set in, the smaller ones first: the largest for the last meal of a day,
   * the smallest for those before, so that a soak through the night and one through the day do not meet. Where a meal is
   * cooked in several pots, any of them.
   */
  function bowlsFor(fit: readonly ResolvedVessel[], slot: SlotSituation): readonly ResolvedVessel[] {
    if (potsFor(slot.wantServings, pots) > 1) return fit;
    const isLast = !situation.slots.some((other) => other.day === slot.day && other.period > slot.period);
    return isLast ? fit.slice(-1) : fit.slice(0, 1);
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
      if (isSparing(method.choice)) return;
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
    if (pinnedNext === undefined ? !kit.suits.includes(next.slot) : !isKit(kit, pinnedNext.kitId)) return false;
    return avoidedIn(kit, [...new Set(next.eaters.flatMap((eater) => eater.avoids))]).length === 0;
  }
}

/** A dish on a stove that burns in any case: the same minutes, and no fuel. */
function withoutFuel(method: DishMethod): DishMethod {
  return { ...method, fuelMJ: NOTHING, fuelKg: NOTHING, fuelEffects: [] };
}

/** What a sparing way adds to the id of its pot, by which its plain twin is found. */
const SPARING = '~sparing';
/** A sparing way that saves less of the fuel than this is not worth its minutes. */
const LEAST_SAVED_SHARE = 0.02;
/** Share of the minutes that a fire may burn outdoors which one dish may take; the rest is for hot water and a box dish. */
const SHARE_OF_A_FIRE = 0.75;

/**
 * Of the plain and the sparing ways of one pot, finish and soak the one that saves most among those which leave room on
 * their fire: the model has one of each, not all.
 */
function mostSparing(
  found: { option: WeekOption; detail: OptionDetail }[],
  { outdoorMinutesPerDay, lightingsPerDay }: Pick<ResolvedHousehold, 'outdoorMinutesPerDay' | 'lightingsPerDay'>,
): { option: WeekOption; detail: OptionDetail }[] {
  const kg = ({ fuel }: WeekOption) => Object.values(fuel).reduce((sum, own) => sum + own, 0);
  const leavesRoom = ({ flameMinutes = 0 }: WeekOption, fire: LightingDetail | null) =>
    fire?.stove.site !== 'outdoors' ||
    flameMinutes + fire.startUpMinutes <= (SHARE_OF_A_FIRE * outdoorMinutesPerDay) / Math.max(1, lightingsPerDay);
  const twins = new Map<string, { option: WeekOption; detail: OptionDetail }[]>();
  for (const row of found) {
    const key = row.option.id.replace(/~sparing\d/, '');
    const own = twins.get(key);
    if (own === undefined) twins.set(key, [row]);
    else own.push(row);
  }
  return [...twins.values()].map((ways) => {
    let best = ways[0] as (typeof ways)[number];
    for (const way of ways.slice(1)) {
      const saves = kg(way.option) < kg(best.option) * (1 - LEAST_SAVED_SHARE);
      const burnsNoLonger = (way.option.flameMinutes ?? 0) <= (best.option.flameMinutes ?? 0);
      if (saves && (burnsNoLonger || leavesRoom(way.option, way.detail.lighting))) best = way;
    }
    return best;
  });
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
