/**
 * Cooking methods: one dish by one soak, vessel, finish and stove, with what that takes in fuel, water and minutes.
 * Nothing here knows the calendar; `planning/week/week-calendar.ts` puts methods on days.
 */
import { InvalidInputError, OutOfRangeError } from '../../physics/errors.ts';
import type { Percentiles, SpreadShare } from '../../physics/parameter.ts';
import { type CauseEffect, percentilesOf, stepOf, sumOfSpreads } from '../../physics/spread.ts';
import { STOVE_TYPES } from '../../physics/stoves-table.ts';
import type { FuelId, Lid, Wind } from '../../physics/table-ids.ts';
import { addPercentiles, type Calculations, NOTHING, scalePercentiles } from '../calculators/calculations.ts';
import type { CoolingQuestion, FuelUseQuestion } from '../calculators/calculator-types.ts';
import type { Food } from '../foods/food.ts';
import { foodOf, type NamedFood, namedFood } from '../foods/foods-table.ts';
import { insulationOf, ownReadings } from '../household/cooling-thing.ts';
import type { ResolvedBox, ResolvedStove, ResolvedVessel } from '../household/resolve-household.ts';
import { boilMinutesToMakeSafe } from '../household/water-treatment.ts';
import { storageFactor } from '../keeping/storage-age.ts';
import { type BoxBoilQuestion, HOT_HOLDING_C, wholePotBoilMinutes } from '../kinetics/box-cooking.ts';
import {
  acidOfDish,
  type DishNeeds,
  type DishSoak,
  type DishStorage,
  dishNeeds,
  hasKidneyFamily,
  isLargePulse,
  isRefusal,
  kitFoods,
  measuredLotOf,
  needsNoBoil,
  needsNoFire,
  potFoods,
  RAW_BOIL_MINUTES,
  type Refusal,
  soakableParts,
  standsCold,
} from './dish.ts';
import { STAND_ENTRY_LOSS_K } from './fire-ways.ts';
import { HANDS_ON } from './hands-on.ts';
import { type HeatedToC, restAfterHeating, whyItMustBoil } from './hot-without-boil.ts';
import type { Kit } from './kit.ts';
import { fillLimitShare } from './vessel-fill.ts';

/** The world around the pot. */
export interface Surroundings {
  elevationM: number;
  outdoorC: number;
  indoorC: number;
  wind: Wind;
  /** Water as it comes from its lot, C; below 0 it is ice. */
  waterC: number;
  /** Some of it must boil in the pot to be safe; absent: all of it is safe before. */
  boilsItsWater?: true;
}

export interface MethodChoice {
  stove: ResolvedStove;
  fuelId: FuelId;
  fuelMoisturePercent: number | null;
  vessel: ResolvedVessel;
  finish: 'flame' | 'box' | 'flask';
  box: ResolvedBox | null;
  flask: ResolvedVessel | null;
  soak: DishSoak | null;
  firstWater: 'kept' | 'poured-away';
  /** Shortest and longest time in box or flask, minutes; 0 with a flame finish. */
  boxMinutes: { shortest: number; longest: number };
  /** Only water is boiled and kept in the flask; it is poured over goods that need no boil when they are eaten. */
  pours?: true;
  /** The flame is turned down from the start; absent: full flame to the boil. */
  flame?: 'low';
  /** Minutes that the covered pot stands off the fire and softens on; absent: it boils until everything is soft. */
  standMinutes?: number;
  /** Heated to this and no further, C: nothing in it needs a boil, and its water is safe; absent: it comes to the boil. */
  heatToC?: HeatedToC;
}

/** What a method was worked out from, beside kit and servings. */
export interface MethodBasis {
  choice: MethodChoice;
  surroundings: Surroundings;
  storage: DishStorage | null;
}

export interface DishMethod extends MethodBasis {
  needs: DishNeeds;
  /** Minutes from putting the pot on to the boil (to pressure, to `heatToC`), the stove already burning. */
  minutesToBoil: Percentiles;
  /** Minutes kept at the boil (at pressure) on the flame. */
  holdMinutes: Percentiles;
  /** Minutes off the flame before it can be eaten: pressure release, standing. */
  restMinutes: number;
  /** Fuel without start-up. */
  fuelMJ: Percentiles;
  fuelKg: Percentiles;
  boiledOffL: Percentiles;
  /** Everything that leaves the water store for this dish, boil-off at its high end. */
  waterL: number;
  /** Water measured into the pot: what the dish needs plus what boils off, L. */
  waterInPotL: number;
  /** Water kept at hand, hot, for a pot that boils long and would else be too full at the start, L. */
  topUpL: number;
  floorMJ: number;
  handsOnMinutes: number;
  /** Temperature at the end of the longest time off the fire, at its bad end, C; null where it is eaten from the fire. */
  reachedC: number | null;
  timeConstantHours: Percentiles | null;
  /** What each cause of spread does to the mass of fuel (energy for electricity), plain names of causes. */
  fuelEffects: CauseEffect[];
}

/** Natural pressure release, minutes (cooking-kinetics 2: 10 min from 15 psi; longer where the air is thin). */
const RELEASE_MINUTES = 12;

/** Loss on moving a full pot from the fire into the box, K (pots-and-heat-loss 3.1, common practice). */
export const BOX_ENTRY_LOSS_K = 5;

/** Which stove may carry which vessel, or why not. */
export function whyStoveCannotCarry(stove: ResolvedStove, vessel: ResolvedVessel): Refusal | null {
  const type = STOVE_TYPES[stove.typeId];
  if (vessel.kind === 'pressure-cooker' && !type.carriesPressureCooker) {
    return {
      reason: `A pressure cooker needs a flame that can be turned down; the ${type.name} cannot hold it steady`,
      wayOut: 'Use the pressure cooker on a stove with a valve, or an open pot here',
    };
  }
  const largest = stove.largestPotL ?? type.carriesLargestPotL;
  if (vessel.capacityL > largest) {
    return {
      reason: `The ${type.name} carries pots up to ${largest} L; this one holds ${vessel.capacityL} L`,
      wayOut: 'Take a smaller pot or a sturdier stove',
    };
  }
  return null;
}

/** Minutes that one fill burns: of a valveless burner, or of a stove whose owner says so; null for all others. */
export function minutesPerFill(stove: ResolvedStove): number | null {
  return stove.minutesPerFill ?? STOVE_TYPES[stove.typeId].valveless?.minutesPerFill ?? null;
}

function fuelQuestion(
  choice: MethodChoice,
  surroundings: Surroundings,
  load: { waterL: number; foods: (NamedFood & { massG: number })[]; startC: number },
  holdMinutes: number,
  lid: Lid,
  endC?: number,
): FuelUseQuestion {
  const { stove, vessel } = choice;
  const indoors = stove.site === 'vented-indoors';
  return {
    stove: {
      typeId: stove.typeId,
      ...(stove.powerKW === null ? {} : { powerKW: stove.powerKW }),
      ...(stove.efficiency === null ? {} : { efficiency: stove.efficiency }),
      ...(stove.measured === undefined ? {} : { measured: stove.measured }),
      ...(choice.flame === undefined ? {} : { flame: choice.flame }),
      startUpMJ: 0,
    },
    fuelId: choice.fuelId,
    ...(choice.fuelMoisturePercent === null ? {} : { fuelMoisturePercent: choice.fuelMoisturePercent }),
    vessel: {
      kind: vessel.kind === 'pressure-cooker' ? 'pressure-cooker' : 'pot',
      capacityL: vessel.capacityL,
      material: vessel.material,
      lid,
      ...(vessel.kind === 'pressure-cooker' && vessel.gaugeKPa !== null ? { gaugeKPa: vessel.gaugeKPa } : {}),
      ...(vessel.diameterMm === null ? {} : { diameterMm: vessel.diameterMm }),
      ...(vessel.massKg === null ? {} : { massKg: vessel.massKg }),
      finned: vessel.finned,
    },
    waterL: round(load.waterL, 3),
    foods: load.foods.map((food) => ({ ...food, massG: round(food.massG, 1) })),
    startC: round(load.startC, 1),
    ...(endC === undefined ? {} : { endC }),
    airC: indoors ? surroundings.indoorC : surroundings.outdoorC,
    elevationM: surroundings.elevationM,
    wind: indoors ? 'still' : surroundings.wind,
    holdMinutes: round(holdMinutes, 1),
    lidDuringHold: lid,
  };
}

/**
 * Works out one method, or says why it is refused and what to do instead.
 * @param servings servings cooked, > 0
 */
export function computeMethod(
  kit: Kit,
  servings: number,
  choice: MethodChoice,
  surroundings: Surroundings,
  storage: DishStorage | null,
  calculations: Calculations,
): DishMethod | Refusal {
  try {
    return tryMethod(kit, servings, choice, surroundings, storage, calculations);
  } catch (error) {
    // A task that cannot be (a weak flame, gas that stays in its bottle) refuses the way, not the plan.
    if (error instanceof InvalidInputError) return { reason: error.message, wayOut: error.wayOut };
    if (error instanceof OutOfRangeError) return { reason: error.message, wayOut: 'Choose another pot or stove' };
    throw error;
  }
}

function tryMethod(
  kit: Kit,
  servings: number,
  choice: MethodChoice,
  surroundings: Surroundings,
  storage: DishStorage | null,
  calculations: Calculations,
): DishMethod | Refusal {
  const carry = whyStoveCannotCarry(choice.stove, choice.vessel);
  if (carry !== null) return carry;
  const gaugeKPa = choice.vessel.kind === 'pressure-cooker' ? (choice.vessel.gaugeKPa ?? 80) : null;
  if (gaugeKPa !== null && choice.finish !== 'flame') {
    return { reason: 'The pressure cooker stays closed until it is eaten from', wayOut: 'Use a pot for the box' };
  }
  let needs = dishNeeds(
    kit,
    servings,
    { elevationM: surroundings.elevationM, gaugeKPa },
    choice.soak,
    choice.firstWater,
    storage,
    calculations,
  );
  if (isRefusal(needs)) return needs;
  if (choice.pours === true) {
    const pourable = whyNotPoured(kit, needs, choice, surroundings, calculations);
    if (pourable !== null) return pourable;
    needs = { ...needs, volumeL: needs.waterInPotL, foods: [] };
  }
  const overfull = whyTooMuch(choice, needs, needs.volumeL);
  if (overfull !== null) return overfull;
  if (choice.heatToC !== undefined) {
    const mustBoil = whyItMustBoil(kit, surroundings.boilsItsWater === true);
    if (mustBoil !== null) return mustBoil;
    needs = needsWithoutBoil(needs, choice.heatToC);
  }

  const forWater = boilForWater(surroundings);
  let holdMinutes = choice.heatToC === undefined ? atLeast(needs.boilMinutes, forWater) : NOTHING;
  let reachedC: number | null = null;
  let timeConstantHours: Percentiles | null = null;
  let restMinutes = needs.standMinutes;
  if (gaugeKPa !== null) restMinutes = Math.max(restMinutes, RELEASE_MINUTES);
  if (choice.finish !== 'flame' || choice.standMinutes !== undefined) {
    const boxed = holdBeforeBox(kit, servings, needs, choice, surroundings, storage, calculations);
    if (isRefusal(boxed)) return boxed;
    holdMinutes = boxed.holdMinutes;
    reachedC = boxed.reachedC;
    timeConstantHours = boxed.timeConstantHours;
    restMinutes = choice.finish === 'flame' ? Math.max(restMinutes, choice.standMinutes ?? 0) : 0;
    needs = {
      ...needs,
      holdSpread: [{ cause: 'food lot', share: 1 }],
      additions: additionsBeforeBox(needs, boxed.holdMinutes.p50, boxed.ownMinutes),
    };
  }

  const startC = surroundings.waterC;
  const lid = choice.vessel.lid;
  const withoutSteam = { waterL: needs.waterInPotL + needs.absorbedInSoakL, foods: needs.foods, startC };
  // What will typically boil off is put in at the start and heated with the rest.
  const ask = (contents: typeof withoutSteam, minutes: number) =>
    fuelQuestion(choice, surroundings, contents, minutes, lid, choice.heatToC);
  const steamL = calculations.fuelUse(ask(withoutSteam, holdMinutes.p50)).boiledOffL.p50;
  const load = { ...withoutSteam, waterL: withoutSteam.waterL + steamL };
  const question = ask(load, holdMinutes.p50);
  const typical = calculations.fuelUse(question);
  const longest = calculations.fuelUse(ask(load, holdMinutes.p90));
  const shortest = calculations.fuelUse(ask(load, holdMinutes.p10));
  if (typical.fuelKg === null && choice.fuelId !== 'electricity') {
    return { reason: 'this fuel gives nothing at this temperature', wayOut: 'Warm the container, or use another fuel' };
  }
  if (choice.heatToC !== undefined) {
    const { p50, p90 } = typical.minutesToBoil;
    restMinutes = restAfterHeating(kit, startC, needs.temperatureC, p50);
    const rested = coolingWhileStanding(needs, { ...choice, standMinutes: restMinutes }, surroundings, calculations);
    if (isRefusal(rested)) return rested;
    ({ reachedC, timeConstantHours } = rested);
    // The clock gives the fire its longest: a pot that is hot sooner stands until the meal, and typically is hot then.
    const hours = (restMinutes + p90 - p50) / 60;
    const { startC: offC, airC } = rested.question;
    const servedC = airC + (offC - airC) * Math.exp(-hours / timeConstantHours.p50);
    if (servedC < HOT_HOLDING_C) return tooCoolOffTheFire(hours * 60, servedC);
  }
  let heat = {
    value: typical.fuelMJ.p50,
    effects: [
      ...calculations.fuelEffects(question),
      ...holdEffects(needs.holdSpread, typical.fuelMJ.p50, shortest.fuelMJ.p50, longest.fuelMJ.p50),
    ],
  };
  let boiledOffL = joinSpreads(typical.boiledOffL, shortest.boiledOffL.p50, longest.boiledOffL.p50);
  let minutesToBoil = typical.minutesToBoil;
  if (needs.firstWaterL > 0) {
    const firstQuestion = fuelQuestion(
      choice,
      surroundings,
      { waterL: needs.firstWaterL, foods: needs.foods.filter(isKidneyFood), startC },
      1,
      lid,
    );
    const first = calculations.fuelUse(firstQuestion);
    heat = sumOfSpreads([heat, { value: first.fuelMJ.p50, effects: calculations.fuelEffects(firstQuestion) }]);
    minutesToBoil = addPercentiles(minutesToBoil, first.minutesToBoil);
    boiledOffL = addPercentiles(boiledOffL, first.boiledOffL);
  }
  const kgPerMJ = typical.fuelKg === null ? 1 / 3.6 : typical.fuelKg.p50 / typical.fuelMJ.p50;

  // What boils off over hours need not all be in the pot from the start: an open pot is topped up, a cooker cannot be.
  const roomL = fillLimitL(choice, needs) - needs.volumeL;
  const topUpL = choice.vessel.kind === 'pot' ? Math.max(0, boiledOffL.p90 - roomL) : 0;
  const waterInPotL = needs.waterInPotL + boiledOffL.p90 - topUpL;
  const tooMuch = whyTooMuch(choice, needs, needs.volumeL + boiledOffL.p90 - topUpL);
  if (tooMuch !== null) return tooMuch;
  const fill = minutesPerFill(choice.stove);
  if (fill !== null && minutesToBoil.p90 + holdMinutes.p90 > fill * 0.9 && choice.stove.burners < 2) {
    return {
      reason: `One fill of this burner lasts about ${fill} min; the dish needs up to ${Math.ceil(minutesToBoil.p90 + holdMinutes.p90)} min of flame, and a hot burner must not be refilled`,
      wayOut: 'Cook it on another stove, or let two burners take turns',
    };
  }
  return {
    choice,
    surroundings,
    storage,
    needs,
    minutesToBoil,
    holdMinutes,
    restMinutes,
    fuelMJ: percentilesOf(heat.value, heat.effects.filter(isOfHeat)),
    fuelKg: percentilesOf(heat.value * kgPerMJ, heat.effects),
    boiledOffL,
    waterL: waterInPotL + topUpL + needs.soakSuppliedL + needs.rinseL + needs.firstWaterL,
    waterInPotL,
    topUpL,
    floorMJ: typical.floorMJ,
    handsOnMinutes:
      needs.handsOnMinutes +
      (choice.finish === 'flame' ? 0 : HANDS_ON.boxMinutes.value) +
      HANDS_ON.stirShare.value * (choice.heatToC === undefined ? holdMinutes.p50 : minutesToBoil.p50),
    reachedC,
    timeConstantHours,
    fuelEffects: heat.effects,
  };
}

/** Whether a cause moves the energy; the heating value moves the mass of fuel only. */
function isOfHeat(effect: CauseEffect): boolean {
  return effect.cause !== 'fuel';
}

/**
 * What a shorter or longer hold does to the fuel, shared out among the causes of its spread: the squares of the parts
 * add up to the square of the whole.
 */
function holdEffects(causes: readonly SpreadShare[], typical: number, atShort: number, atLong: number): CauseEffect[] {
  const low = stepOf(typical, atShort);
  const high = stepOf(typical, atLong);
  if (low === 0 && high === 0) return [];
  return causes.map(({ cause, share }) => ({ cause, atLow: low * Math.sqrt(share), atHigh: high * Math.sqrt(share) }));
}

/** Dry food, kJ/(kg K): common value between sugar and starch. */
const DRY_FOOD_HEAT_KJ_PER_KG_K = 1.8;
const WATER_HEAT_KJ_PER_KG_K = 4.19;

/**
 * Why hot water of a flask does not make this dish a hot one, or null: nothing in it may need a boil, and water and dry
 * food together must be at 60 C where the flask is at its bad end.
 */
function whyNotPoured(
  kit: Kit,
  needs: DishNeeds,
  choice: MethodChoice,
  surroundings: Surroundings,
  calculations: Calculations,
): Refusal | null {
  if (!needsNoBoil(kit)) return { reason: 'Something in it must be boiled', wayOut: 'Cook it in the pot' };
  if (choice.flask === null) return { reason: 'Water is kept hot in a flask', wayOut: 'Use a flask' };
  const hours = choice.boxMinutes.longest / 60;
  const startC = needs.temperatureC - BOX_ENTRY_LOSS_K;
  const fillL = round(Math.min(needs.waterInPotL, choice.flask.capacityL), 1);
  const tau = calculations.cooling({
    vessel: { kind: 'flask', capacityL: choice.flask.capacityL },
    fillL,
    startC,
    airC: surroundings.indoorC,
    ...ownReadings(choice.flask),
    hours,
  }).timeConstantHours.p10;
  const waterC = surroundings.indoorC + (startC - surroundings.indoorC) * Math.exp(-hours / tau);
  const water = needs.waterInPotL * WATER_HEAT_KJ_PER_KG_K;
  const food = (needs.foods.reduce((sum, one) => sum + one.massG, 0) / 1000) * DRY_FOOD_HEAT_KJ_PER_KG_K;
  const mixedC = (water * waterC + food * surroundings.indoorC) / (water + food);
  return mixedC >= HOT_HOLDING_C
    ? null
    : {
        reason: `After ${round(hours, 1)} h in the flask the water may only warm the dish to ${Math.round(mixedC)} °C`,
        wayOut: 'Fill the flask nearer to the meal, or eat it cold',
      };
}

/** Litres to which the vessel may be filled with this dish. */
function fillLimitL(choice: MethodChoice, needs: DishNeeds): number {
  return fillLimitShare(choice.vessel.kind, needs.foams) * choice.vessel.capacityL;
}

/** Whether the dish fits pot and flask, or why not. */
function whyTooMuch(choice: MethodChoice, needs: DishNeeds, volumeL: number): Refusal | null {
  const allowedL = fillLimitL(choice, needs);
  // A thousandth of a litre is the arithmetic's, not the cook's.
  if (volumeL > allowedL + 1e-3) {
    return {
      reason: `${round(volumeL, 1)} L do not fit: the vessel may be filled to ${round(allowedL, 1)} L with this dish`,
      wayOut: 'Take a larger pot, or cook half',
    };
  }
  if (choice.flask !== null && needs.volumeL > fillLimitShare('flask', false) * choice.flask.capacityL) {
    return {
      reason: `The flask holds ${choice.flask.capacityL} L, the dish is ${round(needs.volumeL, 1)} L`,
      wayOut: 'Use a pot',
    };
  }
  return null;
}

function isKidneyFood(row: NamedFood): boolean {
  return foodOf(row)?.lectin === 'kidney-family';
}

interface BoxedBoil {
  holdMinutes: Percentiles;
  reachedC: number;
  timeConstantHours: Percentiles;
  /** Boil before the box that each food asks for itself, min, by `partId/foodId`. */
  ownMinutes: ReadonlyMap<string, number>;
}

/** When things go in before a box: each boils as long as it must itself, and all of them boil together at the end. */
function additionsBeforeBox(
  needs: DishNeeds,
  holdMinutes: number,
  ownMinutes: ReadonlyMap<string, number>,
): DishNeeds['additions'] {
  return needs.additions.map((one) => {
    const own = ownMinutes.get(`${one.partId}/${one.foodId}`);
    const latest = Math.floor(Math.max(0, holdMinutes - Math.max(wholePotBoilMinutes(false), own ?? 0)));
    return { ...one, atMinute: own === undefined ? Math.min(one.atMinute, latest) : latest };
  });
}

/**
 * How the dish cools once it is off the fire: in the box or flask indoors, or in the bare pot under its lid where the fire
 * is.
 */
function coolingOffTheFire(
  needs: DishNeeds,
  choice: MethodChoice,
  surroundings: Surroundings,
): { question: CoolingQuestion; shortestMinutes: number } {
  const fillL = round(needs.volumeL, 1);
  if (choice.finish === 'flame') {
    const { capacityL, material, lid } = choice.vessel;
    const standMinutes = choice.standMinutes ?? 0;
    return {
      question: {
        vessel: { kind: 'pot', capacityL, material, lid },
        fillL,
        startC: needs.temperatureC - STAND_ENTRY_LOSS_K,
        airC: choice.stove.site === 'vented-indoors' ? surroundings.indoorC : surroundings.outdoorC,
        hours: standMinutes / 60,
      },
      shortestMinutes: standMinutes,
    };
  }
  const startC = needs.temperatureC - BOX_ENTRY_LOSS_K;
  const airC = surroundings.indoorC;
  const hours = choice.boxMinutes.longest / 60;
  const shortestMinutes = choice.boxMinutes.shortest;
  if (choice.finish === 'flask' && choice.flask !== null) {
    const vessel = { kind: 'flask' as const, capacityL: choice.flask.capacityL };
    return { question: { vessel, fillL, startC, airC, ...ownReadings(choice.flask), hours }, shortestMinutes };
  }
  const { capacityL, material } = choice.vessel;
  return {
    question: {
      vessel: { kind: 'pot', capacityL, material, lid: 'snug' },
      fillL,
      startC,
      airC,
      ...insulationOf(choice.box),
      ...(choice.box === null ? {} : ownReadings(choice.box)),
      hours,
    },
    shortestMinutes,
  };
}

/** Minutes of boil that make the water of a dish safe; 0 where it is safe before. */
export function boilForWater({ boilsItsWater, elevationM }: Surroundings): number {
  return boilsItsWater === true ? boilMinutesToMakeSafe(elevationM) : 0;
}

function atLeast(minutes: Percentiles, least: number): Percentiles {
  return {
    p10: Math.max(least, minutes.p10),
    p50: Math.max(least, minutes.p50),
    p90: Math.max(least, minutes.p90),
  };
}

/** What a dish needs that is only heated: everything goes in cold, and nothing is held at the boil. */
function needsWithoutBoil(needs: DishNeeds, heatToC: number): DishNeeds {
  return {
    ...needs,
    temperatureC: Math.min(needs.temperatureC, heatToC),
    boilMinutes: NOTHING,
    holdSpread: [],
    standMinutes: 0,
    extrapolated: false,
    additions: needs.additions.map((one) => ({ ...one, atMinute: 0 })),
    handsOnMinutes: HANDS_ON.measuringMinutes.value,
  };
}

function tooCoolOffTheFire(minutes: number, reachedC: number): Refusal {
  return {
    reason: `After ${Math.round(minutes)} min off the fire the pot may have fallen to ${Math.round(reachedC)} °C`,
    wayOut: 'Keep it on the fire to the end',
  };
}

/** How a dish cools until it is eaten, or why it may then no longer be hot with box, flask or bare pot at its bad end. */
function coolingWhileStanding(
  needs: DishNeeds,
  choice: MethodChoice,
  surroundings: Surroundings,
  calculations: Calculations,
): { question: CoolingQuestion; shortestMinutes: number; reachedC: number; timeConstantHours: Percentiles } | Refusal {
  const cools = coolingOffTheFire(needs, choice, surroundings);
  const { startC, airC, hours: longestHours } = cools.question;
  const timeConstantHours = calculations.cooling(cools.question).timeConstantHours;
  const reachedC = airC + (startC - airC) * Math.exp(-longestHours / timeConstantHours.p10);
  if (reachedC >= HOT_HOLDING_C) return { ...cools, reachedC, timeConstantHours };
  return choice.finish === 'flame'
    ? tooCoolOffTheFire(longestHours * 60, reachedC)
    : {
        reason: `After ${round(longestHours, 1)} h the box may have fallen to ${Math.round(reachedC)} °C; hot food must stay above 60 °C`,
        wayOut: 'Cook it nearer to the meal, insulate the box better, or bring it to a full boil again before eating',
      };
}

/** Shortest boil before box, flask or standing that still makes everything soft and safe, with these at their bad end. */
function holdBeforeBox(
  kit: Kit,
  servings: number,
  needs: DishNeeds,
  choice: MethodChoice,
  surroundings: Surroundings,
  storage: DishStorage | null,
  calculations: Calculations,
): BoxedBoil | Refusal {
  const cools = coolingWhileStanding(needs, choice, surroundings, calculations);
  if (isRefusal(cools)) return cools;
  const { question: coolingQuestion, shortestMinutes, reachedC, timeConstantHours: tau } = cools;
  const { startC, airC } = coolingQuestion;
  const least = leastBoilOffTheFire(kit, choice, surroundings);
  let holdMinutes: Percentiles = { p10: least, p50: least, p90: least };
  const scale = servings / kit.servings;
  // What goes into a box goes in whole, sour parts too, while the pulses still soften.
  const cookingAdditive = acidOfDish(kit, false);
  const age = storage === null ? null : storageFactor(storage);
  const ownMinutes = new Map<string, number>();
  for (const part of kit.parts) {
    for (const ingredient of part.ingredients) {
      const food = foodOf(ingredient);
      if (food?.rawAnimal === true) ownMinutes.set(`${part.id}/${food.id}`, RAW_BOIL_MINUTES);
      if (food === undefined || food.kinetics.kind !== 'boil' || food.seasoning || ingredient.massG * scale <= 0)
        continue;
      const soaked = choice.soak !== null && needs.soakedPartIds.includes(part.id);
      const hydrationShare =
        soaked && choice.soak !== null
          ? calculations.soaking({
              ...namedFood(food),
              hours: choice.soak.hours,
              waterC: choice.soak.waterC,
              start: 'cool',
              additive: choice.soak.additive,
            }).hydrationShare.p50
          : 0;
      const question: BoxBoilQuestion = {
        ...namedFood(food),
        temperatureC: needs.temperatureC,
        hydrationShare,
        soakedAndDrained: soaked,
        boxStartC: startC,
        airC,
        timeConstantHours: tau.p10,
        boxMinutes: shortestMinutes,
        cookingAdditive,
        ...(age === null || food.group !== 'pulse' ? {} : { storageFactor: age.value }),
        ...measuredLotOf(storage, part.id, food.id),
      };
      const answer = calculations.boilBeforeBox(question);
      // A lot that has hardened more than is typical wants more than the typical boil; a tested one has shown it.
      const hardened =
        age === null || food.group !== 'pulse' || age.p90 <= age.value || question.measuredLot !== undefined
          ? answer
          : calculations.boilBeforeBox({ ...question, storageFactor: age.p90 });
      if (answer.verdict === 'refused') return { reason: answer.reason, wayOut: 'Cook it on the flame to the end' };
      ownMinutes.set(
        `${part.id}/${food.id}`,
        Math.max(answer.boilMinutes.p50, answer.lectinBoilMinutes, food.rawAnimal ? RAW_BOIL_MINUTES : 0),
      );
      holdMinutes = {
        p10: Math.max(holdMinutes.p10, answer.boilMinutes.p10, answer.lectinBoilMinutes),
        p50: Math.max(holdMinutes.p50, answer.boilMinutes.p50, answer.lectinBoilMinutes),
        p90: Math.max(
          holdMinutes.p90,
          answer.boilMinutes.p50 +
            Math.hypot(
              answer.boilMinutes.p90 - answer.boilMinutes.p50,
              hardened.boilMinutes.p50 - answer.boilMinutes.p50,
            ),
          answer.lectinBoilMinutes,
        ),
      };
    }
  }
  return { holdMinutes, reachedC, timeConstantHours: tau, ownMinutes };
}

/**
 * Least boil of a pot that leaves the fire for a box, a flask or a stand, min: the middle as hot as the water, raw egg and
 * meat done, the water safe.
 */
export function leastBoilOffTheFire(
  kit: Kit,
  { pours }: Pick<MethodChoice, 'pours'>,
  surroundings: Surroundings,
): number {
  if (pours === true) return boilMinutesToMakeSafe(surroundings.elevationM);
  const foods = kitFoods(kit).map(({ food }) => food);
  return Math.max(
    wholePotBoilMinutes(foods.some(isLargePulse)),
    foods.some((food) => food.rawAnimal) ? RAW_BOIL_MINUTES : 0,
    boilForWater(surroundings),
  );
}

/** Adds, in quadrature of the logarithms, the spread that comes from a shorter or longer hold. */
function joinSpreads(own: Percentiles, atShortHold: number, atLongHold: number): Percentiles {
  if (own.p50 <= 0) return { p10: Math.max(0, own.p10), p50: Math.max(0, own.p50), p90: Math.max(own.p90, atLongHold) };
  const up = Math.hypot(Math.log(own.p90 / own.p50), Math.log(Math.max(atLongHold, own.p50) / own.p50));
  const lowest = Math.max(Math.min(atShortHold, own.p50), own.p50 * 1e-3);
  const down = Math.hypot(Math.log(own.p50 / Math.max(own.p10, own.p50 * 1e-3)), Math.log(own.p50 / lowest));
  return { p10: own.p50 * Math.exp(-down), p50: own.p50, p90: own.p50 * Math.exp(up) };
}

/** A dish that needs no fire: water is added and it stands, or it is eaten as it is. */
export interface NoHeatMethod {
  waterL: number;
  standMinutes: number;
  handsOnMinutes: number;
}

/** Whether a food may also be eaten as it is: chewy is no harm. */
function isEatenDry(food: Food): boolean {
  return food.kinetics.kind === 'ready' && food.kinetics.eatDry;
}

/** The way without fire, or why there is none (trade notes H5: safe water only, no raw kinds). */
export function noHeatMethod(kit: Kit, servings: number): NoHeatMethod | Refusal {
  if (!needsNoFire(kit)) {
    return { reason: 'Something in it must be boiled', wayOut: null };
  }
  // Crackers and dried fruit are eaten as they are.
  if (potFoods(kit).every(({ food }) => food.kinetics.kind === 'ready' && food.kinetics.eatDry)) {
    return { waterL: 0, standMinutes: 0, handsOnMinutes: HANDS_ON.withoutFireMinutes.value };
  }
  const scale = servings / kit.servings;
  let waterL = 0;
  let standMinutes = 0;
  for (const { ingredient, food } of potFoods(kit)) {
    const stands = standsCold(food);
    if (stands === null) continue;
    waterL += (ingredient.massG * scale * food.absorbedGPerG.value) / 1000;
    standMinutes = Math.max(standMinutes, isEatenDry(food) ? stands.value : stands.p90);
  }
  return { waterL: round(waterL, 2), standMinutes, handsOnMinutes: HANDS_ON.withoutFireMinutes.value };
}

/** Soak and lid of a way that dishes are compared with; the pot is open to the end, on the same stove and fuel. */
export interface ComparedWay {
  soak: DishSoak | null;
  lid: Lid;
}

/**
 * The usual way (open pot, full flame to the boil, then the lowest steady flame to the end, unsoaked but kidney-family
 * beans soaked cool for 12 h) and that of a careful cook (with lid, and the soak a packet would name).
 */
export function comparisonWays(kit: Kit): { usual: ComparedWay; careful: ComparedWay } {
  const packetSoak: DishSoak = { hours: 12, waterC: 18, additive: 'none', asPacketsSay: true };
  return {
    usual: { soak: hasKidneyFamily(kit) ? packetSoak : null, lid: 'none' },
    careful: { soak: soakableParts(kit).length > 0 ? packetSoak : null, lid: 'snug' },
  };
}

/**
 * What a dish needs and costs in one of the ways that it is compared with.
 * @param servings servings cooked, > 0
 * @returns its needs, the choice that it comes to, and MJ of fuel without start-up; null where this stove, fuel and pot
 *   cannot do it
 */
export function comparedWay(
  kit: Kit,
  servings: number,
  { choice, surroundings, storage }: MethodBasis,
  { soak, lid }: ComparedWay,
  calculations: Calculations,
): { needs: DishNeeds; choice: MethodChoice; fuelMJ: number } | null {
  const pot: ResolvedVessel = { ...choice.vessel, kind: 'pot', gaugeKPa: null };
  const needs = dishNeeds(
    kit,
    servings,
    { elevationM: surroundings.elevationM, gaugeKPa: null },
    soak,
    'kept',
    storage,
    calculations,
  );
  if (isRefusal(needs)) return null;
  const { flame: _low, standMinutes: _stand, heatToC: _heated, ...plain } = choice;
  const asCompared: MethodChoice = { ...plain, vessel: pot, soak, firstWater: 'kept', finish: 'flame' };
  const ask = (steamL: number) =>
    answerOrNothing(() =>
      calculations.fuelUse(
        fuelQuestion(
          asCompared,
          surroundings,
          {
            waterL: needs.waterInPotL + needs.absorbedInSoakL + steamL,
            foods: needs.foods,
            startC: surroundings.waterC,
          },
          needs.boilMinutes.p50,
          lid,
        ),
      ),
    );
  // As for the planned dish: what boils off is heated too.
  const answer = ask(ask(0)?.boiledOffL.p50 ?? 0);
  return answer === null ? null : { needs, choice: asCompared, fuelMJ: answer.fuelMJ.p50 };
}

/** What the same dish costs in the ways of `comparisonWays`, MJ without start-up; null where one of them cannot be. */
export function comparisonFuelMJ(
  kit: Kit,
  servings: number,
  choice: MethodChoice,
  surroundings: Surroundings,
  storage: DishStorage | null,
  calculations: Calculations,
): { usualMJ: number; carefulMJ: number } | null {
  const ways = comparisonWays(kit);
  const basis = { choice, surroundings, storage };
  const usual = comparedWay(kit, servings, basis, ways.usual, calculations);
  const careful = comparedWay(kit, servings, basis, ways.careful, calculations);
  return usual === null || careful === null ? null : { usualMJ: usual.fuelMJ, carefulMJ: careful.fuelMJ };
}

/** The answer, or null where this stove, fuel and pot cannot do the task at all. */
function answerOrNothing<Answer>(ask: () => Answer): Answer | null {
  try {
    return ask();
  } catch (error) {
    if (error instanceof InvalidInputError || error instanceof OutOfRangeError) return null;
    throw error;
  }
}

/** Fuel and minutes that a stove takes each time it is lit; null where it cannot burn this fuel in this cold. */
export function startUpOf(
  stove: ResolvedStove,
  fuelId: FuelId,
  fuelMoisturePercent: number | null,
  surroundings: Surroundings,
  calculations: Calculations,
): { kg: Percentiles; mj: Percentiles; effects: CauseEffect[]; minutes: number } | null {
  const type = STOVE_TYPES[stove.typeId];
  const mj = { p10: type.startUpMJ.p10, p50: type.startUpMJ.value, p90: type.startUpMJ.p90 };
  if (mj.p90 <= 0) return { kg: NOTHING, mj: NOTHING, effects: [], minutes: type.startUpMinutes.value };
  // The heating value in use, from a task whose fuel is known in both units.
  const question: FuelUseQuestion = {
    stove: { typeId: stove.typeId, startUpMJ: 0 },
    fuelId,
    ...(fuelMoisturePercent === null ? {} : { fuelMoisturePercent }),
    vessel: null,
    waterL: 0,
    startC: 20,
    airC: surroundings.outdoorC,
    elevationM: surroundings.elevationM,
    wind: 'still',
    holdMinutes: 0,
    extraHeatKJ: 1000,
  };
  const probe = answerOrNothing(() => calculations.fuelUse(question));
  if (probe === null) return null;
  const kgPerMJ = probe.fuelKg === null ? 1 / 3.6 : probe.fuelKg.p50 / probe.fuelMJ.p50;
  const effects: CauseEffect[] = [
    { cause: 'start-up', atLow: stepOf(mj.p50, mj.p10), atHigh: stepOf(mj.p50, mj.p90) },
    ...calculations.fuelEffects(question).filter((effect) => !isOfHeat(effect)),
  ];
  return { kg: percentilesOf(mj.p50 * kgPerMJ, effects), mj, effects, minutes: type.startUpMinutes.p90 };
}

/**
 * Heating water in a pot to a temperature, the stove already burning; `holdMinutes` at the boil to make it safe. null
 * where this stove cannot.
 */
export function heatWater(
  choice: Pick<MethodChoice, 'stove' | 'fuelId' | 'fuelMoisturePercent' | 'vessel'>,
  litres: number,
  endC: number | null,
  holdMinutes: number,
  surroundings: Surroundings,
  calculations: Calculations,
): { fuelMJ: Percentiles; fuelKg: Percentiles; fuelEffects: CauseEffect[]; minutes: Percentiles } | null {
  const full: MethodChoice = {
    ...choice,
    finish: 'flame',
    box: null,
    flask: null,
    soak: null,
    firstWater: 'kept',
    boxMinutes: { shortest: 0, longest: 0 },
  };
  const lid = choice.vessel.lid;
  const vessel: ResolvedVessel = { ...choice.vessel, kind: 'pot', gaugeKPa: null };
  const question = fuelQuestion(
    { ...full, vessel },
    surroundings,
    { waterL: litres, foods: [], startC: surroundings.waterC },
    holdMinutes,
    lid,
    endC ?? undefined,
  );
  const answer = answerOrNothing(() => calculations.fuelUse(question));
  if (answer === null) return null;
  return {
    fuelMJ: answer.fuelMJ,
    fuelKg: answer.fuelKg ?? scalePercentiles(answer.fuelMJ, 1 / 3.6),
    fuelEffects: calculations.fuelEffects(question),
    minutes: addPercentiles(answer.minutesToBoil, { p10: holdMinutes, p50: holdMinutes, p90: holdMinutes }),
  };
}

function round(value: number, digits: number): number {
  const factor = 10 ** digits;
  return Math.round(value * factor) / factor;
}
