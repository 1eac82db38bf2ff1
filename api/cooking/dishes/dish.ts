/**
 * A dish: one batch size of a kit as it is cooked. Works out the minutes at the boil, what goes in when, and the water,
 * for a given soak and pot temperature; which stove and pot carry it is the business of `cooking-methods.ts`.
 */
import type { Parameter, Percentiles, SpreadShare } from '../../physics/parameter.ts';
import { type Calculations, NOTHING, slowest } from '../calculators/calculations.ts';
import type { CookingAdditive, SoakAdditive } from '../calculators/calculator-types.ts';
import type { Food } from '../foods/food.ts';
import { foodOf, type NamedFood, namedFood } from '../foods/foods-table.ts';
import { WATER_PARAMETERS } from '../kinetics/yield.ts';
import { HANDS_ON } from './hands-on.ts';
import { type DishStyle, type Ingredient, isEatenAsItIs, type Kit, type KitPart, kitFoodsOf } from './kit.ts';
import { contentsVolumeL } from './vessel-fill.ts';

export interface Refusal {
  reason: string;
  wayOut: string | null;
}

export interface DishSoak {
  hours: number;
  waterC: number;
  additive: SoakAdditive;
  /** Only the parts of which a packet names a soak; absent: all that a soak helps. */
  asPacketsSay?: true;
}

/** How old the stock is that the dish is cooked from. */
export interface DishStorage {
  years: number;
  temperatureC: number;
  moisturePercent: number;
  /**
   * Minutes of tested lots over those of the table, by `partId/foodId`, from own cooking notes and twenty-bean tests;
   * absent: none was tested.
   */
  measuredLots?: Readonly<Record<string, Percentiles>>;
}

/** The factor of a tested lot as a member of a question; empty where the lot was not tested. */
export function measuredLotOf(
  storage: DishStorage | null,
  partId: string,
  foodId: string,
): { measuredLot: Percentiles } | Record<never, never> {
  const factors = storage?.measuredLots;
  const key = `${partId}/${foodId}`;
  return factors !== undefined && Object.hasOwn(factors, key) ? { measuredLot: factors[key] as Percentiles } : {};
}

export interface DishAddition {
  partId: string;
  foodId: string;
  massG: number;
  /** Minutes after the pot first boils; 0: from the start. */
  atMinute: number;
}

export interface DishNeeds {
  /** Temperature of the pot, C. */
  temperatureC: number;
  /** Minutes kept at that temperature until everything is soft and safe. */
  boilMinutes: Percentiles;
  /** Where the spread of those minutes comes from, largest first. */
  holdSpread: SpreadShare[];
  /** Minutes it then stands covered off the fire, for goods that only need hot water. */
  standMinutes: number;
  additions: DishAddition[];
  /** Water put into the pot, L; the part that boils off comes on top. */
  waterInPotL: number;
  /** Held by the food when done, L, what was taken up in the bowl included. */
  absorbedL: number;
  /** Taken up in the bowl, L. */
  absorbedInSoakL: number;
  soakSuppliedL: number;
  soakPouredAwayL: number;
  rinseL: number;
  /** First water of unsoaked kidney-family beans, boiled up and poured away, L. */
  firstWaterL: number;
  volumeL: number;
  bowlVolumeL: number;
  foams: boolean;
  lectin: { verdict: 'not-applicable' | 'safe'; boilMinutesNeeded: number };
  extrapolated: boolean;
  foods: (NamedFood & { massG: number })[];
  soakedPartIds: string[];
  /** What is worked on by hand: measuring, rinsing, stirring. */
  handsOnMinutes: number;
}

/**
 * Liquid that stays in the dish, L per serving: what makes a soup a soup. Common practice without a source: a soup is
 * about half a litre with its solids, a stew is thick.
 */
export const LIQUID_L_PER_SERVING: Record<DishStyle, number> = {
  soup: 0.22,
  stew: 0.08,
  porridge: 0.02,
  rice: 0.01,
  pasta: 0.03,
  'no-cook': 0,
};

/** Milk powders: their water is milk, in which grain swells as in water. */
const MILK_POWDERS: ReadonlySet<string> = new Set(['milk-powder', 'whole-milk-powder']);

/** Whether a food is milk in powder, of the tables or an own one. */
export function isMilkPowder(food: Food): boolean {
  return MILK_POWDERS.has(food.id) || food.own?.foodClass === 'milk-powder';
}

/** Sour parts and what only stands go in this long before the end of the boil, min (common practice). */
const LATE_MINUTES = 10;

/** First water of unsoaked kidney-family beans, L/kg: plenty, so that the lectin leaves with it (trade practice, H13). */
export const FIRST_WATER_L_PER_KG = 3;

interface Row {
  part: KitPart;
  ingredient: Ingredient;
  food: Food;
  massG: number;
  soaked: boolean;
}

export function kitFoods(kit: Kit): { part: KitPart; ingredient: Ingredient; food: Food }[] {
  return kit.parts.flatMap((part) =>
    part.ingredients.flatMap((ingredient) => {
      const food = foodOf(ingredient);
      return food === undefined ? [] : [{ part, ingredient, food }];
    }),
  );
}

/** The foods that go into the pot, or under the water where there is no fire: all but what is eaten as it is. */
export function potFoods(kit: Kit): ReturnType<typeof kitFoods> {
  return kitFoods(kit).filter(({ part }) => !isEatenAsItIs(part));
}

/** Whether nothing in the kit needs a boil, so that water alone makes it edible. */
export function needsNoBoil(kit: Kit): boolean {
  return kitFoods(kit).every(({ food }) => (food.seasoning || food.kinetics.kind === 'ready') && !food.rawAnimal);
}

/** Minutes that a food stands in cold water until it is fit to eat; null where it must be boiled, or needs no water. */
export function standsCold(food: Food): Parameter | null {
  if (food.seasoning || food.rawAnimal) return null;
  return food.kinetics.kind === 'ready' ? food.kinetics.standMinutesCold : (food.standMinutesCold ?? null);
}

/** Whether all of a kit can be eaten without a fire: as it is, or after standing in cold water. */
export function needsNoFire(kit: Kit): boolean {
  return kitFoods(kit).every(({ food }) => (food.seasoning && !food.rawAnimal) || standsCold(food) !== null);
}

export function hasKidneyFamily(kit: Kit): boolean {
  return kitFoods(kit).some(({ food }) => food.lectin === 'kidney-family' && food.kinetics.kind === 'boil');
}

/**
 * The parts of a kit that may lie in water for hours: pulses and whole grains only, and kidney-family beans only in a
 * part of their own, since their water is poured away (trade notes H12).
 */
export function soakableParts(kit: Kit): KitPart[] {
  return kit.parts.filter((part) => {
    if (part.soakable === false) return false;
    const foods = part.ingredients.map((ingredient) => foodOf(ingredient));
    if (!foods.every((food) => food?.soakable === true)) return false;
    const kidney = foods.filter((food) => food?.lectin === 'kidney-family').length;
    return kidney === 0 || kidney === foods.length;
  });
}

/**
 * Foods of one part that should lie in a part of their own (trade notes H12): pulses among goods that a soak would spoil or
 * pour away.
 * @returns each with the harm; `refused` where the harm is poison, `warn` where it is a hard or a lost meal
 */
export function foodsKeptApart(part: KitPart): { food: Food; verdict: 'warn' | 'refused'; reason: string }[] {
  const foods = part.ingredients.flatMap((ingredient) => {
    const food = ingredient.massG > 0 ? foodOf(ingredient) : undefined;
    return food === undefined ? [] : [food];
  });
  const pulses = foods.filter((food) => isLargePulse(food));
  const kidney = pulses.filter((food) => food.lectin === 'kidney-family');
  const others = foods.filter((food) => food.lectin !== 'kidney-family');
  if (kidney.length > 0 && others.length > 0) {
    const reason = `Soak water of ${listed(kidney)} must be poured away, and ${listed(others)} in the same bag would go with it or spoil; unsoaked or in their soak water the beans poison.`;
    return kidney.map((food) => ({ food, verdict: 'refused', reason }));
  }
  const spoiled = others.filter((food) => !food.soakable);
  if (pulses.length > 0 && spoiled.length > 0) {
    const acid = spoiled.some((food) => food.acid) ? ' The sour goods among them keep pulses hard.' : '';
    const reason = `Cannot be soaked together with ${listed(spoiled)}, so that it boils for longer.${acid}`;
    return pulses.map((food) => ({ food, verdict: 'warn', reason }));
  }
  if (part.soakable === true && spoiled.length < foods.length)
    return spoiled.map((food) => ({
      food,
      verdict: 'warn',
      reason: `The part is marked to be soaked whole, and ${listed([food])} does not belong in water for hours.`,
    }));
  return [];
}

function listed(foods: readonly Food[]): string {
  return foods.map((food) => food.name.toLowerCase()).join(', ');
}

/** Why a kit's kidney-family beans cannot be soaked, or null where they can. */
export function whyNoSafeSoak(kit: Kit): Refusal | null {
  const soakable = new Set(soakableParts(kit).map((part) => part.id));
  const mixed = kitFoods(kit).find(
    ({ part, food }) => food.lectin === 'kidney-family' && food.kinetics.kind === 'boil' && !soakable.has(part.id),
  );
  if (mixed === undefined) return null;
  return {
    reason: `${mixed.food.name} lie in one part with other goods, so the soak water cannot be poured away without losing them`,
    wayOut:
      'Pick the beans out and soak them alone, or boil unsoaked, pour that water away and boil again in fresh water',
  };
}

/** Whether a kit holds pulses that boil, whose softening acid slows. */
function hasBoiledPulses(kit: Kit): boolean {
  return kitFoods(kit).some(({ food }) => food.group === 'pulse' && food.kinetics.kind === 'boil');
}

function isSour(part: KitPart): boolean {
  return part.ingredients.some((ingredient) => foodOf(ingredient)?.acid === true);
}

function asksForNoBoil(part: KitPart): boolean {
  return part.ingredients.every((ingredient) => {
    const food = foodOf(ingredient);
    return food === undefined || food.seasoning || food.kinetics.kind === 'ready';
  });
}

/**
 * Whether a bag waits for the end as a whole, its salt and broth too: sour goods until pulses are soft, milk so that it
 * does not burn on the bottom.
 */
function waitsForTheEnd(part: KitPart, withPulses: boolean): boolean {
  if (!asksForNoBoil(part)) return false;
  return (withPulses && isSour(part)) || kitFoodsOf(part).some(isMilkPowder);
}

/**
 * What the pulses of a dish meet while they soften: acid where the sour goods cannot wait for the end, because they lie
 * in one bag with what boils, because a pressure cooker is filled once, or because a box or flask does part of the
 * softening.
 * @param openToTheEnd whether the pot stays open to additions until the pulses are soft
 */
export function acidOfDish(kit: Kit, openToTheEnd: boolean): CookingAdditive {
  if (!hasBoiledPulses(kit)) return 'none';
  const sour = kit.parts.filter((part) => isSour(part) && !isEatenAsItIs(part));
  return sour.some((part) => !openToTheEnd || !asksForNoBoil(part)) ? 'acid' : 'none';
}

/**
 * What a dish needs at one pot temperature.
 * @param kit the recipe
 * @param servings how many servings are cooked, > 0; amounts scale with servings / kit.servings
 * @param pot where it boils: elevation (m) and, for a pressure cooker, gauge pressure (kPa)
 * @param soak cool soak of the soakable parts, or null
 * @param firstWater whether the first boil-up of unsoaked kidney-family beans is poured away
 */
export function dishNeeds(
  kit: Kit,
  servings: number,
  pot: { elevationM: number; gaugeKPa: number | null },
  soak: DishSoak | null,
  firstWater: 'kept' | 'poured-away',
  storage: DishStorage | null,
  calculations: Calculations,
  cookingAdditive: CookingAdditive = acidOfDish(kit, pot.gaugeKPa === null),
): DishNeeds | Refusal {
  const scale = servings / kit.servings;
  const soakedParts = soak === null ? [] : soakableParts(kit).filter((part) => soakHelps(part, soak));
  const soakedIds = new Set(soakedParts.map((part) => part.id));
  const rows: Row[] = potFoods(kit).map(({ part, ingredient, food }) => ({
    part,
    ingredient,
    food,
    massG: ingredient.massG * scale,
    soaked: soakedIds.has(part.id),
  }));
  if (rows.length === 0) return { reason: 'the kit holds no food', wayOut: 'Add ingredients to its parts' };

  let boilMinutes: Percentiles = NOTHING;
  let holdSpread: SpreadShare[] = [];
  let standMinutes = 0;
  let temperatureC = Number.NaN;
  let extrapolated = false;
  let lectin: DishNeeds['lectin'] = { verdict: 'not-applicable', boilMinutesNeeded: 0 };
  let absorbedL = 0;
  let milkL = 0;
  let largePulsesL = 0;
  let absorbedInSoakL = 0;
  let soakSuppliedL = 0;
  let soakPouredAwayL = 0;
  let rinseL = 0;
  let firstWaterL = 0;
  let bowlVolumeL = 0;
  const minutesOf = new Map<Row, Percentiles>();
  const pulses = rows.some((row) => row.food.group === 'pulse' && row.food.kinetics.kind === 'boil');

  for (const row of rows) {
    const { food, massG } = row;
    const heldL = (massG * (food.seasoning ? 0 : food.absorbedGPerG.value)) / 1000;
    if (isMilkPowder(food)) milkL += heldL;
    else absorbedL += heldL;
    if (isLargePulse(food)) largePulsesL += heldL + (WATER_PARAMETERS.covering.value * massG) / 1000;
    if (row.soaked && soak !== null) {
      const answer = calculations.soaking({
        ...namedFood(food),
        hours: soak.hours,
        waterC: soak.waterC,
        start: 'cool',
        additive: soak.additive,
      });
      if (!answer.safe)
        return { reason: answer.advice, wayOut: `Soak at most ${answer.limitHours} h at this temperature` };
      absorbedInSoakL += (answer.waterLPerKg.absorbed * massG) / 1000;
      soakSuppliedL += (answer.waterLPerKg.supplied * massG) / 1000;
      soakPouredAwayL += (answer.waterLPerKg.discarded * massG) / 1000;
      if (food.lectin === 'kidney-family') rinseL += (WATER_PARAMETERS.rinse.value * massG) / 1000;
      bowlVolumeL += contentsVolumeL((answer.waterLPerKg.supplied * massG) / 1000, massG);
    }
    const pouredAway = firstWater === 'poured-away' && food.lectin === 'kidney-family' && !row.soaked;
    if (pouredAway) firstWaterL += (FIRST_WATER_L_PER_KG * massG) / 1000;
    if (food.kinetics.kind === 'ready' || food.seasoning) {
      if (food.kinetics.kind === 'ready') {
        // What can be eaten dry is waited for its typical time only: chewy is no harm.
        const { standMinutesHot, eatDry } = food.kinetics;
        standMinutes = Math.max(standMinutes, eatDry ? standMinutesHot.value : standMinutesHot.p90);
      }
      continue;
    }
    const answer = calculations.cookTime({
      ...namedFood(food),
      elevationM: pot.elevationM,
      ...(pot.gaugeKPa === null ? {} : { gaugeKPa: pot.gaugeKPa }),
      ...(row.soaked && soak !== null
        ? {
            soak: {
              start: 'cool' as const,
              hours: soak.hours,
              waterC: soak.waterC,
              additive: soak.additive,
              discardWater: true,
            },
          }
        : {}),
      firstWater: pouredAway ? 'poured-away' : 'kept',
      cookingAdditive,
      ...(storage === null || food.group !== 'pulse' ? {} : { storage: ageOf(storage) }),
      ...measuredLotOf(storage, row.part.id, food.id),
    });
    temperatureC = answer.temperatureC;
    extrapolated ||= answer.extrapolated;
    if (answer.lectin.verdict === 'refused') return { reason: answer.lectin.reason, wayOut: answer.lectin.wayOut };
    let minutes = answer.minutes;
    if (answer.lectin.verdict === 'safe') {
      const needed = answer.lectin.boilMinutesNeeded;
      lectin = { verdict: 'safe', boilMinutesNeeded: Math.max(lectin.boilMinutesNeeded, needed) };
      minutes = slowest(minutes, { p10: needed, p50: needed, p90: needed });
    }
    minutesOf.set(row, minutes);
    if (minutes.p50 >= boilMinutes.p50) holdSpread = answer.spread;
    boilMinutes = slowest(boilMinutes, minutes);
  }
  const rawAnimal = rows.some((row) => row.food.rawAnimal);
  // Goods that only stand: a rolling boil of a minute (common practice).
  const atLeast = rawAnimal ? RAW_BOIL_MINUTES : 1;
  boilMinutes = slowest(boilMinutes, { p10: atLeast, p50: atLeast, p90: atLeast });
  if (Number.isNaN(temperatureC)) {
    temperatureC = calculations.cookTime({
      foodId: 'pasta',
      elevationM: pot.elevationM,
      ...(pot.gaugeKPa === null ? {} : { gaugeKPa: pot.gaugeKPa }),
    }).temperatureC;
  } else {
    // What only stands rehydrates while the rest boils.
    standMinutes = Math.ceil(Math.max(0, standMinutes - boilMinutes.p10));
  }

  const additions = rows.map((row) => {
    const own = minutesOf.get(row);
    const asked = row.ingredient.addAtMinutesBeforeEnd ?? null;
    // Typical minutes decide when a thing goes in; sour things wait until pulses are soft, so that they still soften.
    let before = own?.p50 ?? Math.min(LATE_MINUTES, boilMinutes.p50);
    if (waitsForTheEnd(row.part, pulses)) before = Math.min(before, LATE_MINUTES);
    else if (row.food.seasoning) before = boilMinutes.p50;
    if (asked !== null) before = Math.max(asked, own?.p50 ?? 0);
    const atMinute = pot.gaugeKPa === null ? Math.max(0, boilMinutes.p50 - before) : 0;
    return { partId: row.part.id, foodId: row.food.id, massG: row.massG, atMinute: Math.round(atMinute) };
  });

  const dryMassG = rows.reduce((sum, row) => sum + row.massG, 0);
  const pastaG = rows.filter((row) => row.food.group === 'pasta').reduce((sum, row) => sum + row.massG, 0);
  const liquidL = LIQUID_L_PER_SERVING[kit.style] * servings;
  // Grain swells in the milk: the water of the powder and that of the grain are the same water.
  absorbedL = Math.max(absorbedL, milkL);
  const waterInPotL = Math.max(
    absorbedL - absorbedInSoakL + liquidL,
    largePulsesL - absorbedInSoakL,
    kit.style === 'pasta' ? (pastaG * WATER_PARAMETERS.pastaSaving.value) / 1000 : 0,
    // A pressure cooker must keep making steam (makers' tables: 240 mL).
    pot.gaugeKPa === null ? 0.1 : 0.3,
  );
  return {
    temperatureC,
    boilMinutes,
    holdSpread,
    standMinutes,
    additions,
    waterInPotL,
    absorbedL,
    absorbedInSoakL,
    soakSuppliedL,
    soakPouredAwayL,
    rinseL,
    firstWaterL,
    volumeL: contentsVolumeL(waterInPotL + absorbedInSoakL, dryMassG),
    bowlVolumeL,
    // Milk boils over as porridge does.
    foams: rows.some((row) => row.food.foams || isMilkPowder(row.food)),
    lectin,
    extrapolated,
    foods: rows.map((row) => ({ ...namedFood(row.food), massG: row.massG })),
    soakedPartIds: [...soakedIds],
    handsOnMinutes:
      HANDS_ON.measuringMinutes.value +
      (soakedIds.size > 0 ? HANDS_ON.soakMinutes.value : 0) +
      (firstWaterL > 0 ? HANDS_ON.firstWaterMinutes.value : 0) +
      HANDS_ON.lookShare.value * boilMinutes.p50,
  };
}

export function ageOf({ years, temperatureC, moisturePercent }: DishStorage): Omit<DishStorage, 'measuredLots'> {
  return { years, temperatureC, moisturePercent };
}

export function isRefusal(answer: object): answer is Refusal {
  return 'reason' in answer && 'wayOut' in answer;
}

/** Beans, chickpeas and the like, which boil long and must stay covered; lentils and split peas are not. */
export function isLargePulse(food: Food): boolean {
  const { kinetics } = food;
  return food.group === 'pulse' && kinetics.kind === 'boil' && (kinetics.hydrationMinutes?.value ?? 0) >= 15;
}

/** Rolling boil of a dish with raw egg or meat, min (common practice). */
export const RAW_BOIL_MINUTES = 5;

/** Boiling that a soak must save to be worth a bowl for a night where fuel is short, min (common practice). */
const SOAK_SAVES_AT_LEAST_MINUTES = 10;
/** Boiling that a soak saves where a packet names one: lentils and split peas, which save less, need none (USA Pulses). */
const PACKET_SOAK_SAVES_MINUTES = 15;

/** A soak serves a part when it saves boiling: whole wheat and lentils as well as beans. */
function soakHelps(part: KitPart, { asPacketsSay }: Pick<DishSoak, 'asPacketsSay'>): boolean {
  const least = asPacketsSay === true ? PACKET_SOAK_SAVES_MINUTES : SOAK_SAVES_AT_LEAST_MINUTES;
  return minutesSavedBySoak(part) >= least;
}

/** Minutes of boil that a full soak saves on the food of a part that it helps most. */
function minutesSavedBySoak(part: KitPart): number {
  return Math.max(
    0,
    ...part.ingredients.map((ingredient) => {
      const food = foodOf(ingredient);
      if (food?.kinetics.kind !== 'boil') return 0;
      const { hydrationMinutes, softeningMinutes } = food.kinetics;
      return hydrationMinutes?.value ?? (food.soakSavesShare?.value ?? 0) * softeningMinutes.value;
    }),
  );
}
