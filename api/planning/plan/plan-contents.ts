/** A placed week as the contract words it: lightings, cookings, meals, tasks, balances. */
import { type Calculations, NOTHING } from '../../cooking/calculators/calculations.ts';
import { comparisonFuelMJ } from '../../cooking/dishes/cooking-methods.ts';
import { kitNutrition } from '../../cooking/dishes/kit-nutrition.ts';
import { hoursAbove60C } from '../../cooking/keeping/hot-holding.ts';
import { safeUntilAfterHeat } from '../../cooking/keeping/safe-until.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import { spreadShares } from '../../physics/spread.ts';
import { toLocal } from '../local-time.ts';
import type { Cooking, FuelAmount, Lighting, PlanDraft, PlannedMeal } from '../plan-types.ts';
import { round } from '../rounding.ts';
import { isGoodOn } from '../stock-lots.ts';
import type { PlacedDish, PlacedWeek } from '../week/place-week.ts';
import type { KeptMeal, OptionDetail, WeekCalendar } from '../week/week-calendar-types.ts';
import type { WeekSituation } from '../week/week-situation.ts';
import { assumptionsOf, planCautions } from './plan-assumptions.ts';
import { fuelBalances, spreadOf } from './plan-fuel.ts';
import { limitsOf } from './plan-limits.ts';
import { tasksOf, waterByDay } from './plan-water.ts';
import { savingsOf } from './savings.ts';
import { dishCautions } from './stock-cautions.ts';

export type PlanContents = Pick<
  PlanDraft,
  | 'lightings'
  | 'cookings'
  | 'meals'
  | 'tasks'
  | 'fuel'
  | 'water'
  | 'limits'
  | 'energyByDay'
  | 'spread'
  | 'comparison'
  | 'assumptions'
  | 'cautions'
>;

/** The contents of a plan from the placed week: everything but request, proof and shortages. */
export function planContents(
  situation: WeekSituation,
  calendar: WeekCalendar,
  placed: PlacedWeek,
  calculations: Calculations,
): PlanContents {
  const zone = situation.place.timeZone;
  const local = (minute: number) => toLocal(minute, zone);
  const amount = (fuelId: FuelAmount['fuelId'], kg: Percentiles): FuelAmount =>
    fuelId === 'electricity' ? { fuelId, kg: NOTHING, kWh: kg } : { fuelId, kg };

  const lightings: Lighting[] = placed.lightings.map(({ detail, startMinute, endMinute }) => ({
    id: detail.id,
    stoveId: detail.stove.id,
    fuelId: detail.fuelId,
    at: local(startMinute),
    until: local(endMinute),
    outdoors: detail.stove.site === 'outdoors',
    startUpFuel: { fuelId: detail.fuelId, kg: detail.startUpKg.p90 },
    ...(detail.burnsAnyway ? { burnsAnyway: true } : {}),
  }));

  const stockLeft = situation.lots.map((lot) => ({ ...lot }));
  const comparison = { planMJ: 0, carefulCookMJ: 0, usualMJ: 0, floorMJ: 0 };
  const cookings = placed.dishes.map((dish): Cooking => {
    const { detail } = dish;
    const { method, noHeat, lighting, slot } = detail;
    const kit = detail.kit.kit;
    const takes = kit.parts.flatMap((part) => {
      let wanted = detail.sets * (part.containersPerSet ?? 1);
      return detail.kit.lots
        .filter((lot) => lot.partId === part.id && isGoodOn(lot, local(dish.startMinute).slice(0, 10)))
        .flatMap((lot) => {
          const left = stockLeft.find(
            (row) =>
              row.kitId === lot.kitId &&
              row.partId === lot.partId &&
              row.placeId === lot.placeId &&
              row.packedOn === lot.packedOn,
          );
          const quantity = left === undefined ? 0 : Math.min(wanted, left.quantity);
          if (left === undefined || quantity <= 1e-9) return [];
          left.quantity -= quantity;
          wanted -= quantity;
          return [{ partId: part.id, placeId: lot.placeId, packedOn: lot.packedOn, quantity: round(quantity, 4) }];
        });
    });
    // What costs nothing in any case is not compared.
    const free = lighting?.burnsAnyway === true;
    // What the plan stands in cold water others pour boiling water over, on the fire that the household uses most.
    const other = method !== null ? detail : noHeat !== null && noHeat.waterL > 0 ? mostUsedFire(placed) : null;
    const compared =
      other?.method == null || free
        ? null
        : comparisonFuelMJ(
            kit,
            detail.servingsCooked,
            other.method.choice,
            detail.surroundings,
            detail.kit.storage,
            calculations,
          );
    const startUpMJ = other?.lighting?.startUpMJ.p50 ?? 0;
    if (method !== null && !free) {
      comparison.planMJ += method.fuelMJ.p50;
      comparison.floorMJ += method.floorMJ;
    }
    if (other !== null && !free) {
      comparison.usualMJ += (compared?.usualMJ ?? method?.fuelMJ.p50 ?? 0) + startUpMJ;
      comparison.carefulCookMJ += (compared?.carefulMJ ?? method?.fuelMJ.p50 ?? 0) + startUpMJ;
    }
    return {
      id: cookingIdOf(dish, placed),
      kitId: kit.id,
      kitName: kit.name,
      batches: round(detail.sets, 4),
      servings: detail.servingsCooked,
      takes,
      method: {
        soak:
          detail.soak === null || method === null
            ? null
            : {
                start: 'cool',
                at: local(detail.soak.startMinute),
                hours: round((dish.startMinute - detail.soak.startMinute) / 60, 1),
                vesselId: detail.soak.bowl.id,
                additive: detail.soak.dish.additive,
                discardWater: true,
                // What was set before the plan began has its water.
                waterL: detail.soak.begun === null ? round(method.needs.soakSuppliedL, 2) : 0,
                ...(detail.soak.begun === null ? {} : { begun: true }),
                partIds: method.needs.soakedPartIds,
              },
        vesselId: method?.choice.vessel.id ?? null,
        stoveId: lighting?.stove.id ?? null,
        lightingId: lighting?.id ?? null,
        finish: method?.choice.finish ?? 'no-heat',
        boxId: method?.choice.box?.id ?? null,
        flaskId: method?.choice.flask?.id ?? null,
        gaugeKPa: method?.choice.vessel.kind === 'pressure-cooker' ? method.choice.vessel.gaugeKPa : null,
        minutesToBoil: method?.minutesToBoil ?? null,
        boilMinutes: method?.holdMinutes ?? null,
        releaseMinutes: method === null ? (noHeat?.standMinutes ?? 0) : method.restMinutes,
        boxMinutes: method === null || method.choice.finish === 'flame' ? 0 : slot.eatMinute - dish.doneMinute,
        additions:
          method?.needs.additions ??
          kit.parts.flatMap((part) =>
            part.ingredients.map((ingredient) => ({
              partId: part.id,
              foodId: ingredient.foodId,
              atMinute: 0,
              massG: (ingredient.massG * detail.servingsCooked) / kit.servings,
            })),
          ),
        firstWater: method?.choice.firstWater ?? 'kept',
        temperatureC: method?.needs.temperatureC ?? null,
        lectin: method?.needs.lectin ?? { verdict: 'not-applicable', boilMinutesNeeded: 0 },
        extrapolated: method?.needs.extrapolated ?? false,
        ...(method?.choice.flame === undefined ? {} : { flame: method.choice.flame }),
        ...(method?.choice.standMinutes === undefined ? {} : { standMinutes: method.choice.standMinutes }),
        ...(method?.choice.heatToC === undefined
          ? {}
          : { heatToC: method.choice.heatToC, standMinutes: method.restMinutes }),
        ...(method?.choice.pours === true ? { pours: { standMinutes: Math.ceil(method.needs.standMinutes) } } : {}),
      },
      startsAt: local(dish.startMinute),
      doneAt: local(dish.doneMinute),
      uses: usesOf(dish, local),
      fuel: method === null || lighting === null || free ? [] : [amount(lighting.fuelId, method.fuelKg)],
      fuelMJ: method?.fuelMJ ?? NOTHING,
      spread: method === null ? [] : spreadShares(method.fuelEffects),
      waterL: {
        inPot: round(method?.waterInPotL ?? noHeat?.waterL ?? 0, 3),
        ...(method !== null && method.topUpL >= 0.05 ? { topUp: round(method.topUpL, 3) } : {}),
        absorbed: round(method?.needs.absorbedL ?? noHeat?.waterL ?? 0, 3),
        boiledOff: method?.boiledOffL ?? NOTHING,
        soakPouredAway: round(method?.needs.soakPouredAwayL ?? 0, 3),
        rinse: round((method?.needs.rinseL ?? 0) + (method?.needs.firstWaterL ?? 0), 3),
        total: round((method?.waterL ?? noHeat?.waterL ?? 0) - drawnBeforeL(detail), 3),
      },
      saves: savingsOf(detail, calculations),
      floorMJ: method?.floorMJ ?? 0,
      usualMJ: compared?.usualMJ ?? method?.fuelMJ.p50 ?? 0,
      carefulMJ: compared?.carefulMJ ?? method?.fuelMJ.p50 ?? 0,
      ...(detail.kept === null
        ? {}
        : {
            keptFor: {
              meal: detail.kept.slot.id,
              boxId: detail.kept.box.id,
              from: local(dish.offMinute),
              servings: round(detail.kept.servings, 2),
            },
          }),
      handsOnMinutes: Math.round(method?.handsOnMinutes ?? noHeat?.handsOnMinutes ?? 0),
      ...(method === null
        ? {}
        : { basis: { choice: method.choice, surroundings: method.surroundings, storage: method.storage } }),
    };
  });
  comparison.planMJ += placed.lightings.reduce((sum, lighting) => sum + lighting.detail.startUpMJ.p50, 0);

  const meals = situation.slots.map((slot): PlannedMeal => {
    const dishes = placed.dishes.flatMap((dish) => {
      const { detail } = dish;
      const kept = detail.kept?.servings ?? 0;
      const per = kitNutrition(detail.kit.kit);
      if (detail.slot === slot) return [{ dish, per, eaten: detail.servingsCooked - kept }];
      return detail.kept?.slot === slot ? [{ dish, per, eaten: kept }] : [];
    });
    const served = dishes.reduce((sum, row) => sum + Math.min(row.eaten, slot.wantServings), 0);
    return {
      id: slot.id,
      mealId: slot.mealId,
      slot: slot.slot,
      eatAt: local(slot.eatMinute),
      people: slot.eaters.length,
      servingsWanted: slot.wantServings,
      servingsShort: round(Math.max(0, slot.wantServings - served), 2),
      hotWanted: slot.hot === 'wanted',
      dishes: dishes.map(({ dish, eaten }) => ({
        cookingId: cookingIdOf(dish, placed),
        servings: round(Math.min(eaten, slot.wantServings), 2),
        hot: dish.detail.method !== null,
        safeUntil: local(safeUntilMinute(dish, slot === dish.detail.slot ? null : dish.detail.kept, situation)),
      })),
      energyKcal: Math.round(dishes.reduce((sum, row) => sum + row.per.kcalPerServing * row.eaten, 0)),
      proteinG: Math.round(dishes.reduce((sum, row) => sum + row.per.proteinGPerServing * row.eaten, 0)),
      cautions: dishCautions([...new Set(dishes.map(({ dish }) => dish.detail.kit))]),
    };
  });

  const water = waterByDay(situation, placed, calendar);
  const tasks = tasksOf(situation, placed, water.treatedByDay, calendar.nights, local, amount);
  const fuel = fuelBalances(situation, placed);
  const energyByDay = situation.days.map((day, index) => {
    const todays = meals.filter((meal) => meal.id.startsWith(day.date));
    return {
      date: situation.days[index]?.date ?? day.date,
      kcal: todays.reduce((sum, meal) => sum + meal.energyKcal, 0),
      needKcal: Math.round(day.needKcal),
      proteinG: todays.reduce((sum, meal) => sum + meal.proteinG, 0),
      needProteinG: Math.round(day.needProteinG),
    };
  });
  return {
    lightings,
    cookings,
    meals,
    tasks,
    fuel,
    water: {
      onHandL: round(situation.water.safeL + situation.water.treatL + situation.water.notForFoodL, 1),
      byDay: water.days,
    },
    limits: limitsOf(situation, placed, fuel, water.days),
    energyByDay,
    spread: spreadOf(placed),
    comparison: {
      planMJ: round(comparison.planMJ, 2),
      carefulCookMJ: round(comparison.carefulCookMJ, 2),
      usualMJ: round(comparison.usualMJ, 2),
      floorMJ: round(comparison.floorMJ, 2),
    },
    assumptions: assumptionsOf(situation),
    cautions: planCautions(energyByDay, placed, situation),
  };
}

/** Water of a soak that was set before the plan began, L. */
export function drawnBeforeL({ soak, method }: OptionDetail): number {
  return soak?.begun == null ? 0 : (method?.needs.soakSuppliedL ?? 0);
}

/** Meal and kit; where one kit is cooked for a meal in several pots, their place in the order of the day too. */
function cookingIdOf(dish: PlacedDish, placed: PlacedWeek): string {
  const { slot, kit } = dish.detail;
  const alike = placed.dishes.filter((other) => other.detail.slot === slot && other.detail.kit === kit);
  const place = alike.indexOf(dish);
  return `${slot.id}-${kit.kit.id}${place > 0 ? `-${place + 1}` : ''}`;
}

/** The dish on whose stove, fuel and pot most dishes of the plan are cooked; null where none is cooked. */
function mostUsedFire(placed: PlacedWeek): PlacedDish['detail'] | null {
  const counts = new Map<string, { detail: PlacedDish['detail']; count: number }>();
  for (const { detail } of placed.dishes) {
    if (detail.method === null || detail.lighting?.burnsAnyway === true) continue;
    const { stove, fuelId, vessel } = detail.method.choice;
    const key = `${stove.id} ${fuelId} ${vessel.id}`;
    const known = counts.get(key) ?? { detail, count: 0 };
    counts.set(key, { ...known, count: known.count + 1 });
  }
  return [...counts.values()].sort((a, b) => b.count - a.count)[0]?.detail ?? null;
}

function usesOf(dish: PlacedDish, local: (minute: number) => string): Cooking['uses'] {
  const { detail } = dish;
  const { method, soak, slot, lighting } = detail;
  const uses: Cooking['uses'] = [];
  if (soak !== null) uses.push({ resource: soak.bowl.id, from: local(soak.startMinute), to: local(dish.startMinute) });
  if (method === null) return uses;
  const lastMinute = detail.kept?.slot.eatMinute ?? slot.eatMinute;
  const potUntil = method.choice.finish === 'flask' ? dish.doneMinute + 5 : lastMinute;
  uses.push({ resource: method.choice.vessel.id, from: local(dish.startMinute), to: local(potUntil) });
  if (lighting !== null)
    uses.push({ resource: lighting.stove.id, from: local(dish.startMinute), to: local(dish.offMinute) });
  if (method.choice.box !== null)
    uses.push({ resource: method.choice.box.id, from: local(dish.doneMinute), to: local(slot.eatMinute) });
  if (method.choice.flask !== null)
    uses.push({ resource: method.choice.flask.id, from: local(dish.doneMinute), to: local(slot.eatMinute) });
  if (detail.kept !== null)
    uses.push({ resource: detail.kept.box.id, from: local(dish.offMinute), to: local(lastMinute) });
  return uses;
}

/**
 * Until when a dish may be eaten: two hours after the heat (one when it is hot), from a box from where it falls to 60 C.
 * @param kept the later meal of a batch for two; null: the meal that it was cooked for
 */
function safeUntilMinute(dish: PlacedDish, kept: KeptMeal | null, situation: WeekSituation): number {
  const { detail } = dish;
  const airC = detail.surroundings.indoorC;
  const hours = safeUntilAfterHeat(airC);
  if (detail.method === null) return dish.startMinute + hours * 60;
  // A pot that stands until it is eaten is served from the fire like any other.
  const boxed = detail.method.choice.finish === 'flame' ? null : detail.method.timeConstantHours;
  const tau = kept?.timeConstantHours ?? boxed;
  if (tau === null) return dish.doneMinute + hours * 60;
  const startC = detail.method.needs.temperatureC - 5;
  const hotUntil =
    (kept === null ? dish.doneMinute : dish.offMinute) + Math.floor(hoursAbove60C(startC, airC, tau.p10) * 60);
  // Without a thermometer nobody can tell when the two hours begin (trade notes H9).
  return situation.household.thermometer ? hotUntil + hours * 60 : hotUntil;
}
