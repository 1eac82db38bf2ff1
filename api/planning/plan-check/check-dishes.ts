/** Each cooking by itself: fits its vessel, boils long enough, and is made safe where its beans demand it. */

import { answerCookTime } from '../../cooking/calculators/answer-cook-time.ts';
import { answerCooling } from '../../cooking/calculators/answer-cooling.ts';
import { isEatenAsItIs, type Kit, type KitPart } from '../../cooking/dishes/kit.ts';
import { contentsVolumeL, fillLimitShare } from '../../cooking/dishes/vessel-fill.ts';
import type { Food } from '../../cooking/foods/food.ts';
import { foodOf, namedFood } from '../../cooking/foods/foods-table.ts';
import { lotId } from '../../cooking/measurements/learned.ts';
import type { FoodLot } from '../../cooking/measurements/measurements.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import type { Cooking } from '../plan-types.ts';
import { CLOCK_ROOM_MINUTES, flameMinutes, isInProgress, isInSpan, type PlanView, type Report } from './plan-view.ts';

/** Room for printed rounding, L. */
const FILL_ROOM_L = 0.06;
/** Soak and water temperatures are not all in the plan, so that re-worked minutes may differ by this share and minutes. */
const MINUTES_SHARE = 0.1;
const MINUTES_ROOM = 2;
/** A full pot loses about this on its way into the box (common practice), K. */
const LOSS_INTO_BOX_K = 5;
const HOT_HOLDING_C = 60;
/** Raw egg and meat boil this long, min (common practice). */
const RAW_BOIL_MINUTES = 5;
/** From here on a rolling boil makes water safe in 3 min, not 1 (EPA: 5,000 ft), m. */
const SAFE_WATER_LONGER_ABOVE_M = 1524;
/** As hot as food is made that was cold (165 F). */
const REHEATED_C = 74;
const TEMPERATURE_ROOM_K = 1;

interface Row {
  part: KitPart;
  food: Food;
  massG: number;
}

/** Checks every cooking by itself. */
export function checkDishes(view: PlanView, report: Report): void {
  for (const cooking of view.plan.cookings) {
    const kit = view.kits.get(cooking.kitId);
    if (kit === undefined) continue;
    const rows = rowsOf(kit, cooking);
    checkFill(view, cooking, rows, report);
    if (cooking.method.finish === 'no-heat') checkNoHeat(view, cooking, rows, report);
    else if (cooking.method.heatToC !== undefined) checkHeated(view, cooking, rows, report);
    else if (cooking.method.boilMinutes !== null) checkBoil(view, cooking, rows, report);
    if (cooking.method.finish === 'box' || cooking.method.finish === 'flask') checkHolding(view, cooking, rows, report);
    if (cooking.method.standMinutes !== undefined) checkStanding(view, cooking, rows, report);
    if (cooking.keptFor) checkKept(view, cooking, cooking.keptFor, rows, report);
  }
}

function rowsOf(kit: Kit, cooking: Cooking): Row[] {
  return kit.parts
    .filter((part) => !isEatenAsItIs(part))
    .flatMap((part) =>
      part.ingredients.flatMap((ingredient) => {
        const food = foodOf(ingredient);
        return food ? [{ part, food, massG: ingredient.massG * cooking.batches }] : [];
      }),
    );
}

/** Water in the pot, water in the soaked food, and the kernels. */
function contentsL(cooking: Cooking, rows: Row[]): number {
  if (cooking.method.pours) return cooking.waterL.inPot;
  const soak = cooking.method.soak;
  const inSoakedFoodL = soak ? Math.max(0, soak.waterL - cooking.waterL.soakPouredAway) : 0;
  return contentsVolumeL(
    cooking.waterL.inPot + inSoakedFoodL,
    rows.reduce((sum, row) => sum + row.massG, 0),
  );
}

function checkFill(view: PlanView, cooking: Cooking, rows: Row[], report: Report): void {
  const foams = rows.some((row) => row.food.foams);
  const { vesselId, flaskId, finish } = cooking.method;
  const litres = contentsL(cooking, rows);
  for (const id of finish === 'flask' ? [vesselId, flaskId] : [vesselId]) {
    const vessel = view.household.vessels.find((candidate) => candidate.id === id);
    if (vessel === undefined) continue;
    const allowed = vessel.capacityL * fillLimitShare(vessel.kind, foams);
    // What is set aside for boiling off is in the pot, and no longer there when the flask is filled.
    const inside = litres - (id === flaskId ? cooking.waterL.boiledOff.p90 : 0);
    if (inside > allowed + FILL_ROOM_L)
      report('fill', cooking.id, `${inside.toFixed(2)} L in ${vessel.id}, which may hold ${allowed.toFixed(2)} L`);
  }
}

/** Ways without a rolling boil take nothing that must be boiled, and no raw egg or meat (trade notes H5). */
function checkNoHeat(view: PlanView, cooking: Cooking, rows: Row[], report: Report): void {
  if (!isInProgress(view, cooking)) {
    if (view.minute(cooking.startsAt) < view.startsAtMinute)
      report('before-start', cooking.id, `water is added at ${cooking.startsAt}`);
    if (!isInSpan(cooking.startsAt, view.household.waking))
      report('asleep', cooking.id, `water is added at ${cooking.startsAt}`);
  }
  checkFitUnboiled(cooking, rows, report);
}

function checkFitUnboiled(cooking: Cooking, rows: Row[], report: Report): void {
  for (const { food } of rows) {
    if (food.rawAnimal) report('raw-uncooked', cooking.id, `${food.id} must come to a full boil`);
    if (food.kinetics.kind === 'boil' && !food.seasoning && food.standMinutesCold === undefined)
      report('uncooked', cooking.id, `${food.id} must be boiled`);
  }
}

/**
 * A dish that is heated and not boiled: nothing in it must boil, it is as hot as reheated food when it leaves the fire,
 * and it stands until what is in it is soft, minute by minute at the temperature that the pot then has.
 */
function checkHeated(view: PlanView, cooking: Cooking, rows: Row[], report: Report): void {
  const { method } = cooking;
  checkFitUnboiled(cooking, rows, report);
  if (method.finish !== 'flame' || method.gaugeKPa !== null || method.soak !== null)
    report('heated', cooking.id, `not boiled, and ${method.finish} with ${method.vesselId}`);
  if (method.temperatureC === null || method.temperatureC < REHEATED_C - TEMPERATURE_ROOM_K)
    report('too-cold', cooking.id, `heated to ${method.temperatureC} C only`);
  const pot = standingPot(view, cooking, rows);
  const heating = method.minutesToBoil?.p50 ?? 0;
  if (pot === null) return;
  const startC = Math.max(0, cooking.basis?.surroundings.waterC ?? 0);
  for (const { food } of rows) {
    const softens = softening(food);
    if (softens === null) continue;
    let share = 0;
    for (let minute = 0.5; minute < heating; minute += 1)
      share +=
        softens(startC + ((pot.temperatureC - startC) * minute) / heating) * Math.min(1, heating - (minute - 0.5));
    for (let minute = 0.5; minute < pot.standMinutes; minute += 1)
      share += softens(pot.after(minute, pot.timeConstantHours.p10));
    if (share < 1 - MINUTES_SHARE)
      report('undercooked', cooking.id, `${food.id}: ${share.toFixed(2)} of its softening`);
  }
}

/** Whether pots take water that is only safe once it has boiled. */
function boilsUnsafeWater({ household: { water } }: PlanView): boolean {
  if (water.treatBy !== 'boil') return false;
  const { litres, quality } = water.dailySupply;
  return water.lots.some((lot) => lot.quality === 'treat') || (litres > 0 && quality === 'treat');
}

/** Share of its softening that a food gets in a minute at one temperature, from its rows for cold and for hot water. */
function softening(food: Food): ((atC: number) => number) | null {
  const { kinetics } = food;
  const coldRow = kinetics.kind === 'ready' ? kinetics.standMinutesCold : food.standMinutesCold;
  if (food.seasoning || coldRow === undefined || coldRow.value <= 0) return null;
  const hotRow = kinetics.kind === 'ready' ? kinetics.standMinutesHot : kinetics.softeningMinutes;
  const which = kinetics.kind === 'ready' && kinetics.eatDry ? ('value' as const) : ('p90' as const);
  const [cold, hot, hotC] = [coldRow[which], hotRow[which], kinetics.kind === 'ready' ? 90 : 100];
  return (atC) => Math.exp(Math.log(1 / cold) + ((atC - 15) / (hotC - 15)) * Math.max(0, Math.log(cold / hot)));
}

function checkBoil(view: PlanView, cooking: Cooking, rows: Row[], report: Report): void {
  const { method } = cooking;
  const boil = method.boilMinutes;
  if (boil === null) return;
  if (method.pours) {
    if (method.finish !== 'flask') report('uncooked', cooking.id, `water is poured from a ${method.finish}`);
    for (const { food } of rows)
      if (food.rawAnimal || (food.kinetics.kind === 'boil' && !food.seasoning))
        report('uncooked', cooking.id, `${food.id} must be boiled, not stirred into hot water`);
  }
  if (!(boil.p10 >= 0 && boil.p10 <= boil.p50 && boil.p50 <= boil.p90))
    report('boil-figures', cooking.id, JSON.stringify(boil));
  if (boil.p10 < 1) report('uncooked', cooking.id, `${boil.p10} min is no rolling boil`);
  if (boil.p10 < RAW_BOIL_MINUTES && rows.some(({ food }) => food.rawAnimal))
    report('raw-uncooked', cooking.id, `${boil.p10} min of boil, raw egg or meat needs ${RAW_BOIL_MINUTES}`);
  const forWater = boilsUnsafeWater(view) ? (view.place.elevationM > SAFE_WATER_LONGER_ABOVE_M ? 3 : 1) : 0;
  if (boil.p10 < forWater && !isInProgress(view, cooking))
    report('unsafe-water', cooking.id, `${boil.p10} min of boil, its water needs ${forWater}`);
  const soaked = new Set(method.soak?.partIds ?? []);
  for (const row of rows) {
    const { food, part } = row;
    if (food.kinetics.kind !== 'boil' || food.seasoning) continue;
    const soak = method.soak !== null && soaked.has(part.id) ? method.soak : null;
    const kidney = food.lectin === 'kidney-family';
    if (kidney) checkLectin(cooking, food, soak !== null, report);
    const answer = answerCookTime({
      ...namedFood(food),
      elevationM: view.place.elevationM,
      ...(method.gaugeKPa === null ? {} : { gaugeKPa: method.gaugeKPa }),
      ...(soak
        ? {
            soak: {
              start: soak.start,
              hours: soak.hours,
              waterC: soak.start === 'hot' ? 85 : view.indoorC(soak.at),
              ...(soak.start === 'hot' ? { airC: view.indoorC(soak.at) } : {}),
              additive: soak.additive,
              discardWater: soak.discardWater,
            },
          }
        : {}),
      firstWater: method.firstWater,
      ...testedLot(view, cooking, part.id, food.id),
    });
    const atLeast = (minutes: number) => minutes * (1 - MINUTES_SHARE) - MINUTES_ROOM;
    if (kidney && answer.lectin.verdict === 'refused')
      report('lectin', cooking.id, `${food.id}: ${answer.lectin.reason}`);
    if (kidney && boil.p10 < atLeast(answer.lectin.boilMinutesNeeded))
      report('lectin', cooking.id, `${food.id}: ${boil.p10} min, ${answer.lectin.boilMinutesNeeded} needed`);
    // In a box or flask the heat that is kept does the rest; on the flame the flame does it all, or the flame and a stand.
    const stood = method.finish === 'flame' ? standingCredit(view, cooking, food, rows) : 0;
    if (method.finish === 'flame' && boil.p50 + stood < atLeast(answer.minutes.p50))
      report(
        'undercooked',
        cooking.id,
        `${food.id}: ${boil.p50} min at the boil and ${stood.toFixed(1)} off it, ${answer.minutes.p50} needed`,
      );
  }
}

/** How a covered pot off the fire cools, where its fire is; null where nothing stands. */
function standingPot(view: PlanView, cooking: Cooking, rows: Row[]) {
  const { standMinutes, temperatureC, vesselId, stoveId, gaugeKPa } = cooking.method;
  const vessel = view.household.vessels.find((candidate) => candidate.id === vesselId);
  if (standMinutes === undefined || temperatureC === null || vessel?.kind !== 'pot' || gaugeKPa !== null) return null;
  if (cooking.method.releaseMinutes < standMinutes) return null;
  const stove = view.household.stoves.find((candidate) => candidate.id === stoveId);
  const airC = stove?.site === 'vented-indoors' ? view.indoorC(cooking.startsAt) : view.place.outdoorC;
  const { timeConstantHours } = answerCooling({
    vessel: { kind: 'pot', capacityL: vessel.capacityL, material: vessel.material, lid: vessel.lid },
    fillL: Math.min(contentsL(cooking, rows), vessel.capacityL),
    startC: temperatureC,
    airC,
    hours: standMinutes / 60,
  });
  const after = (minutes: number, hours: number) => airC + (temperatureC - airC) * Math.exp(-minutes / 60 / hours);
  return { standMinutes, temperatureC, timeConstantHours, after };
}

/** A pot that stands before it is eaten has a lid, is hot to the end, and holds no beans that must boil to the end. */
function checkStanding(view: PlanView, cooking: Cooking, rows: Row[], report: Report): void {
  const pot = standingPot(view, cooking, rows);
  const vessel = view.household.vessels.find((candidate) => candidate.id === cooking.method.vesselId);
  if (pot === null || cooking.method.finish !== 'flame' || vessel?.lid === 'none') {
    report('standing', cooking.id, `${cooking.method.standMinutes} min off the fire in ${cooking.method.vesselId}`);
    return;
  }
  if (cooking.method.firstWater === 'poured-away') report('lectin', cooking.id, 'not soaked and taken off the boil');
  const atEndC = pot.after(pot.standMinutes, pot.timeConstantHours.p10);
  if (atEndC < HOT_HOLDING_C - TEMPERATURE_ROOM_K)
    report('too-cold', cooking.id, `${atEndC.toFixed(1)} C after ${pot.standMinutes} min off the fire`);
  // What is only heated stands from when it is typically hot until it is served.
  const { heatToC, minutesToBoil } = cooking.method;
  if (heatToC === undefined || minutesToBoil === null) return;
  const servedC = pot.after(pot.standMinutes + minutesToBoil.p90 - minutesToBoil.p50, pot.timeConstantHours.p50);
  if (servedC < HOT_HOLDING_C - TEMPERATURE_ROOM_K)
    report('too-cold', cooking.id, `${servedC.toFixed(1)} C typically when it is served`);
}

/**
 * Minutes at the boil that the heat of a covered pot is worth while it stands off the fire: one minute after the other, at
 * the temperature to which a bare pot has typically fallen.
 */
function standingCredit(view: PlanView, cooking: Cooking, food: Food, rows: Row[]): number {
  const pot = standingPot(view, cooking, rows);
  if (pot === null || food.kinetics.kind !== 'boil') return 0;
  const z = food.kinetics.zBelowC.value;
  let credit = 0;
  for (let minute = 0.5; minute < pot.standMinutes; minute += 1) {
    const atC = pot.after(minute, pot.timeConstantHours.p50);
    if (atC >= food.kinetics.cutOffC) credit += 10 ** ((atC - pot.temperatureC) / z);
  }
  return credit;
}

/** The quickest of the lots that a dish takes, where its household has tested all of them. */
function testedLot(view: PlanView, cooking: Cooking, partId: string, foodId: string): { measuredLot?: Percentiles } {
  let quickest: Percentiles | undefined;
  for (const { packedOn } of cooking.takes.filter((take) => take.partId === partId)) {
    const id = lotId({ kitId: cooking.kitId, partId, packedOn, foodId } as FoodLot);
    const now = view.plan.resolved.learned?.find(({ of, quantity }) => of === id && quantity === 'minutesFactor')
      ?.figure.now;
    if (now === undefined) return {};
    if (quickest === undefined || now.p50 < quickest.p50) quickest = now;
  }
  return quickest === undefined ? {} : { measuredLot: quickest };
}

function checkLectin(cooking: Cooking, food: Food, soaked: boolean, report: Report): void {
  const { method } = cooking;
  const boil = method.boilMinutes;
  if (method.lectin.verdict !== 'safe')
    report('lectin', cooking.id, `${food.id} with verdict ${method.lectin.verdict}`);
  if (boil !== null && boil.p10 < method.lectin.boilMinutesNeeded - 0.5)
    report(
      'lectin',
      cooking.id,
      `${food.id}: ${boil.p10} min, ${method.lectin.boilMinutesNeeded} needed by the plan itself`,
    );
  if (soaked) return;
  if (method.firstWater !== 'poured-away')
    report('lectin', cooking.id, `${food.id} neither soaked nor boiled in two waters`);
  if (method.finish === 'box' || method.finish === 'flask')
    report('lectin', cooking.id, `${food.id} not soaked and finished in a ${method.finish}`);
}

/** What is left of a batch for two meals: in at the boil, out above 60 C at the bad end of the box, or never. */
function checkKept(
  view: PlanView,
  cooking: Cooking,
  kept: NonNullable<Cooking['keptFor']>,
  rows: Row[],
  report: Report,
): void {
  const { method } = cooking;
  const meal = view.plan.meals.find((candidate) => candidate.id === kept.meal);
  const vessel = view.household.vessels.find((candidate) => candidate.id === method.vesselId);
  const box = view.household.boxes.find((candidate) => candidate.id === kept.boxId);
  if (meal === undefined || box === undefined || vessel === undefined || vessel.kind !== 'pot') {
    report('kept', cooking.id, `kept in ${kept.boxId} for ${kept.meal}`);
    return;
  }
  if (!meal.dishes.some((dish) => dish.cookingId === cooking.id)) report('kept', cooking.id, `not eaten at ${meal.id}`);
  const flameEnd = view.minute(cooking.startsAt) + flameMinutes(cooking);
  if (view.minute(kept.from) < flameEnd - CLOCK_ROOM_MINUTES || view.minute(kept.from) > view.minute(cooking.doneAt))
    report('kept', cooking.id, `boxed at ${kept.from}, off the fire ${cooking.doneAt} at the latest`);
  const hours = (view.minute(meal.eatAt) - view.minute(kept.from)) / 60;
  if (method.temperatureC === null || !(hours > 0)) return;
  const cooled = answerCooling({
    vessel: { kind: 'pot', capacityL: vessel.capacityL, material: vessel.material, lid: 'snug' },
    fillL: Math.min((contentsL(cooking, rows) * kept.servings) / cooking.servings, vessel.capacityL),
    startC: method.temperatureC - LOSS_INTO_BOX_K,
    airC: view.indoorC(kept.from),
    insulation: {
      materialId: box.materialId,
      thicknessMm: box.thicknessMm,
      ...(box.conductivityWPerMK === null ? {} : { conductivityWPerMK: box.conductivityWPerMK }),
    },
    ...(box.reading ? { reading: box.reading } : {}),
    ...(box.measured ? { measured: box.measured } : {}),
    hours,
  });
  const last = cooled.temperatureC.at(-1);
  if (last && last.p10 < HOT_HOLDING_C - TEMPERATURE_ROOM_K)
    report('too-cold', cooking.id, `${last.p10.toFixed(1)} C after ${hours.toFixed(1)} h in ${box.id} at its bad end`);
}

/** The box at its bad end: still 60 C when it is eaten (trade notes H9). */
function checkHolding(view: PlanView, cooking: Cooking, rows: Row[], report: Report): void {
  const { method } = cooking;
  if (isInProgress(view, cooking) || method.temperatureC === null) return;
  const box = view.household.boxes.find((candidate) => candidate.id === method.boxId);
  const vessel = view.household.vessels.find(
    (candidate) => candidate.id === (method.finish === 'flask' ? method.flaskId : method.vesselId),
  );
  const thing = method.finish === 'flask' ? method.flaskId : method.boxId;
  const use = cooking.uses.find((candidate) => candidate.resource === thing);
  if (vessel === undefined || use === undefined || vessel.kind === 'soak-bowl') return;
  for (const meal of view.plan.meals) {
    if (!meal.dishes.some((dish) => dish.cookingId === cooking.id)) continue;
    const hours = (view.minute(meal.eatAt) - view.minute(use.from)) / 60;
    if (hours <= 0) continue;
    const cooled = answerCooling({
      vessel: { kind: vessel.kind, capacityL: vessel.capacityL, material: vessel.material, lid: 'snug' },
      fillL: Math.min(contentsL(cooking, rows), vessel.capacityL),
      startC: method.temperatureC - LOSS_INTO_BOX_K,
      airC: view.indoorC(use.from),
      ...(method.finish === 'box' && box
        ? {
            insulation: {
              materialId: box.materialId,
              thicknessMm: box.thicknessMm,
              ...(box.conductivityWPerMK === null ? {} : { conductivityWPerMK: box.conductivityWPerMK }),
            },
          }
        : {}),
      ...(method.finish === 'box' && box?.reading ? { reading: box.reading } : {}),
      ...(method.finish === 'flask' && vessel.reading ? { reading: vessel.reading } : {}),
      ...(method.finish === 'box' && box?.measured ? { measured: box.measured } : {}),
      ...(method.finish === 'flask' && vessel.measured ? { measured: vessel.measured } : {}),
      hours,
    });
    const last = cooled.temperatureC.at(-1);
    if (last && last.p10 < HOT_HOLDING_C - TEMPERATURE_ROOM_K)
      report('too-cold', cooking.id, `${last.p10.toFixed(1)} C after ${hours.toFixed(1)} h in ${thing} at its bad end`);
  }
}
