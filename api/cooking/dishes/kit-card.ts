/** The figures of a kit's card: what it holds and feeds, how it is cooked here and at the sea, what it burns, what it is without a part. */
import type { Percentiles } from '../../physics/parameter.ts';
import type { FuelId, StoveTypeId } from '../../physics/table-ids.ts';
import { addPercentiles, type Calculations, createCalculations } from '../calculators/calculations.ts';
import { foodOf } from '../foods/foods-table.ts';
import type { HouseholdDocument, Place } from '../household/kitchen.ts';
import {
  type ResolvedHousehold,
  type ResolvedStove,
  type ResolvedVessel,
  resolveHousehold,
} from '../household/resolve-household.ts';
import { type Packing, packKit } from '../keeping/packing.ts';
import { soakLimitHours } from '../keeping/soak-limits.ts';
import { storageFactor } from '../keeping/storage-age.ts';
import {
  computeMethod,
  type DishMethod,
  type MethodChoice,
  noHeatMethod,
  type Surroundings,
  startUpOf,
  whyStoveCannotCarry,
} from './cooking-methods.ts';
import {
  type DishNeeds,
  dishNeeds,
  hasKidneyFamily,
  isRefusal,
  kitFoods,
  type Refusal,
  soakableParts,
  whyNoSafeSoak,
} from './dish.ts';
import { guessesIn } from './guesses.ts';
import { alternativeOf, isEatenAsItIs, type Kit } from './kit.ts';
import { type KitNutrition, kitNutrition } from './kit-nutrition.ts';
import { fillLimitShare } from './vessel-fill.ts';

/** Stoves of a card that is printed for nobody in particular. */
const COMMON_STOVES: readonly { typeId: StoveTypeId; fuelId: FuelId }[] = [
  { typeId: 'propane-camp', fuelId: 'propane' },
  { typeId: 'alcohol-pot', fuelId: 'denatured-alcohol' },
  { typeId: 'rocket', fuelId: 'wood' },
  { typeId: 'three-stone', fuelId: 'wood' },
  { typeId: 'electric-plate', fuelId: 'electricity' },
];

/** A box of towels or better; how long the card's dish stands in it, min. */
const BOX_MINUTES = { shortest: 180, longest: 240 };
const SOAK_HOURS = 12;
/** Years after packing for which the card says how much longer pulses take. */
const AGES_YEARS = [5, 10, 20] as const;
/** Dry pulses as sold and packed, % of the wet mass. */
const USUAL_MOISTURE_PERCENT = 10;

export type CardFinish = 'flame' | 'pressure' | 'box' | 'no-fire';

/** Minutes of one way at one elevation, or why it is not open there. */
export type CardMinutes =
  | { boil: Percentiles; restMinutes: number; temperatureC: number; lectinMinutes: number; reason: null }
  | { boil: null; reason: string };

export interface CardWay {
  finish: CardFinish;
  soaked: boolean;
  /** First water of unsoaked kidney-family beans is boiled up and poured away. */
  firstWater: 'kept' | 'poured-away';
  gaugeKPa: number | null;
  boxHours: number | null;
  /** Whether the household has the pot, cooker or box for it; true where no household was named. */
  atHand: boolean;
  here: CardMinutes;
  seaLevel: CardMinutes;
  /** Measured into the pot, L, what boils off included; 0 where nothing is. */
  potWaterL: number;
  soakWaterL: number;
  rinseL: number;
  firstWaterL: number;
  /** One set, lighting included; `stove` is the household's own name for it; `kg` is kWh for electricity, null where this stove cannot. */
  fuel: {
    stove: string | null;
    typeId: StoveTypeId;
    fuelId: FuelId;
    kg: Percentiles | null;
    mj: number | null;
    toBoilMinutes: number | null;
  }[];
}

export interface CardPart {
  partId: string;
  name: string;
  containers: number;
  massG: number;
  contents: { name: string; massG: number }[];
  soaks: boolean;
  /** Served beside the dish as it is. */
  asItIs: boolean;
  /** Minutes before the end at which it goes in when it is cooked on the flame; null: from the start, or no fire. */
  lateMinutes: number | null;
  useByMonths: number;
  allergens: string[];
  /** The set without it. */
  without: { kcal: number; proteinG: number; boilMinutes: number | null; potWaterL: number | null; left: boolean };
}

export interface KitCard {
  kitId: string;
  kitName: string;
  servings: number;
  nutrition: KitNutrition;
  elevationM: number;
  /** Room in which soaks stand, C. */
  indoorC: number;
  storageC: number;
  soakHours: number | null;
  parts: CardPart[];
  ways: CardWay[];
  kidneyFamily: { names: string[]; minutesHere: number | null; minutesAtSea: number | null } | null;
  noSafeSoak: Refusal | null;
  keepsMonths: number;
  /** How much longer pulses take after years of store, factors with their spread; empty without pulses. */
  ageing: { years: number; factor: Percentiles }[];
  /** Foods that may stand in for others at the same mass. */
  standIns: { name: string; others: string[] }[];
  guessed: { name: string; guessed: string[] }[];
  cautions: string[];
}

/**
 * Works out a card.
 * @param kit the recipe, own foods with their rows
 * @param household whose stoves, pots and place it is for; null: common stoves and pots, still air at 15 C
 * @param elevationM in the place of the household's, -430 to 6000; null: the household's, or sea level
 * @throws InvalidInputError for a kit that holds no food or a household without places
 */
export function kitCard(
  kit: Kit,
  household: HouseholdDocument | ResolvedHousehold | null,
  placeId: string | null,
  elevationM: number | null,
  storageC: number,
): KitCard {
  const calculations = createCalculations();
  const kitchen = cardKitchen(kit, household, placeId, elevationM, calculations);
  const sea = { ...kitchen, surroundings: { ...kitchen.surroundings, elevationM: 0 } };
  const packing = packKit({ kit, bulk: [], sets: 1, storageC });
  const ways = waysOf(kit, kitchen, sea, calculations);
  const kidney = [
    ...new Set(
      kitFoods(kit)
        .filter(({ food }) => food.lectin === 'kidney-family' && food.kinetics.kind === 'boil')
        .map(({ food }) => food.name),
    ),
  ];
  const lectin = (pick: 'here' | 'seaLevel'): number | null => {
    const open = ways.find(({ finish, [pick]: at }) => finish === 'flame' && at.boil !== null)?.[pick];
    return open?.boil == null ? null : open.lectinMinutes;
  };
  return {
    kitId: kit.id,
    kitName: kit.name,
    servings: kit.servings,
    nutrition: kitNutrition(kit),
    elevationM: kitchen.surroundings.elevationM,
    indoorC: kitchen.surroundings.indoorC,
    storageC,
    soakHours: kitchen.soakHours,
    parts: partsOf(kit, packing, kitchen, calculations),
    ways,
    kidneyFamily:
      kidney.length === 0 ? null : { names: kidney, minutesHere: lectin('here'), minutesAtSea: lectin('seaLevel') },
    noSafeSoak: whyNoSafeSoak(kit),
    keepsMonths: packing.keepsMonths,
    ageing: kitFoods(kit).some(({ food }) => food.group === 'pulse' && food.kinetics.kind === 'boil')
      ? AGES_YEARS.map((years) => {
          const { p10, value, p90 } = storageFactor({
            years,
            temperatureC: storageC,
            moisturePercent: USUAL_MOISTURE_PERCENT,
          });
          return { years, factor: { p10, p50: value, p90 } };
        })
      : [],
    standIns: kit.parts.flatMap((part) =>
      part.ingredients.flatMap((ingredient) => {
        const others = (ingredient.alternatives ?? []).flatMap(
          (foodId) => foodOf(alternativeOf(ingredient, foodId))?.name ?? [],
        );
        return others.length === 0 ? [] : [{ name: foodOf(ingredient)?.name ?? ingredient.foodId, others }];
      }),
    ),
    guessed: guessesIn(kit),
    cautions: [...new Set(kitFoods(kit).flatMap(({ food }) => food.cautions))],
  };
}

interface CardKitchen {
  surroundings: Surroundings;
  stoves: ResolvedStove[];
  moistureOf: (fuelId: FuelId) => number | null;
  pot: ResolvedVessel;
  cooker: ResolvedVessel;
  hasCooker: boolean;
  box: ResolvedHousehold['boxes'][number];
  hasBox: boolean;
  soakHours: number | null;
}

/** The household's things where it has them, common ones for what is missing; the pot is as large as one set needs. */
function cardKitchen(
  kit: Kit,
  household: HouseholdDocument | ResolvedHousehold | null,
  placeId: string | null,
  elevationM: number | null,
  calculations: Calculations,
): CardKitchen {
  const own = household === null ? null : resolveHousehold(household).household;
  const known = own?.places.find((place) => placeId === null || place.id === placeId) ?? null;
  const atPlace = <Thing extends { placeId: string }>(things: readonly Thing[] | undefined): Thing[] =>
    (things ?? []).filter((thing) => thing.placeId === known?.id);
  const height = elevationM ?? known?.elevationM ?? 0;
  const needs = dishNeeds(
    kit,
    kit.servings,
    { elevationM: height, gaugeKPa: null },
    null,
    'poured-away',
    null,
    calculations,
  );
  const volumeL = isRefusal(needs) ? 3 : needs.volumeL;
  const foams = !isRefusal(needs) && needs.foams;
  // Room for the dish and for what boils off of it.
  const roomFor = (kind: 'pot' | 'pressure-cooker'): number => (volumeL * 1.2) / fillLimitShare(kind, foams);
  const capacityL = Math.ceil(Math.max(3, roomFor('pot')));
  const place: Place = {
    id: 'card',
    timeZone: 'Etc/UTC',
    elevationM: height,
    indoorC: known?.indoorC ?? 18,
    outdoorC: known?.outdoorC ?? 10,
    wind: known?.wind ?? 'screened',
  };
  const { household: common } = resolveHousehold({
    id: 'card',
    name: 'Card',
    places: [place],
    people: [],
    stoves: COMMON_STOVES.map(({ typeId, fuelId }) => ({
      id: typeId,
      typeId,
      fuelIds: [fuelId],
      site: fuelId === 'electricity' ? 'vented-indoors' : 'outdoors',
      burners: 1,
    })),
    fuels: [{ fuelId: 'wood', moisturePercent: 20, containers: [] }],
    vessels: [
      { id: 'pot', kind: 'pot', capacityL, material: 'aluminium', lid: 'snug' },
      {
        id: 'cooker',
        kind: 'pressure-cooker',
        capacityL: Math.ceil(Math.max(6, roomFor('pressure-cooker'))),
        material: 'stainless',
      },
    ],
    boxes: [{ id: 'box', fits: ['pot'], materialId: 'eps', thicknessMm: 50 }],
  });
  // The smallest that is large enough, or the largest there is: whether a set fits it, the way itself says.
  const potIn = (kind: 'pot' | 'pressure-cooker'): ResolvedVessel | undefined => {
    const all = atPlace(own?.vessels)
      .filter((vessel) => vessel.kind === kind)
      .sort((a, b) => a.capacityL - b.capacityL);
    return all.find((vessel) => vessel.capacityL >= roomFor(kind)) ?? all[all.length - 1];
  };
  const ownPot = potIn('pot');
  const ownCooker = potIn('pressure-cooker');
  const ownBox = atPlace(own?.boxes)[0];
  const stoves = atPlace(own?.stoves);
  const lots = atPlace(own?.water.lots).filter((lot) => lot.quality !== 'not-for-food');
  const indoorC = place.indoorC ?? 18;
  const hours = Math.floor(Math.min(SOAK_HOURS, soakLimitHours(indoorC)));
  return {
    surroundings: {
      elevationM: height,
      outdoorC: place.outdoorC ?? 10,
      indoorC,
      wind: place.wind ?? 'screened',
      waterC: lots.length === 0 ? indoorC : Math.min(...lots.map((lot) => lot.temperatureC ?? indoorC)),
    },
    stoves: stoves.length > 0 ? stoves : common.stoves,
    moistureOf: (fuelId) =>
      (own ?? common).fuels.find((fuel) => fuel.fuelId === fuelId)?.moisturePercent ?? (fuelId === 'wood' ? 20 : null),
    pot: ownPot ?? (common.vessels[0] as ResolvedVessel),
    cooker: ownCooker ?? (common.vessels[1] as ResolvedVessel),
    hasCooker: own === null || ownCooker !== undefined,
    box: ownBox ?? (common.boxes[0] as CardKitchen['box']),
    hasBox: own === null || ownBox !== undefined,
    soakHours: soakableParts(kit).length > 0 && hours >= 1 ? hours : null,
  };
}

function waysOf(kit: Kit, here: CardKitchen, sea: CardKitchen, calculations: Calculations): CardWay[] {
  const ways: CardWay[] = [];
  const cold = noHeatMethod(kit, kit.servings);
  if (!isRefusal(cold)) {
    const minutes: CardMinutes = {
      boil: { p10: 0, p50: 0, p90: 0 },
      restMinutes: cold.standMinutes,
      temperatureC: here.surroundings.waterC,
      lectinMinutes: 0,
      reason: null,
    };
    ways.push({
      finish: 'no-fire',
      soaked: false,
      firstWater: 'kept',
      gaugeKPa: null,
      boxHours: null,
      atHand: true,
      here: minutes,
      seaLevel: minutes,
      potWaterL: cold.waterL,
      soakWaterL: 0,
      rinseL: 0,
      firstWaterL: 0,
      fuel: [],
    });
  }
  if (kit.style === 'no-cook') return ways;
  // Parts that a soak does not shorten are cooked as they are.
  const soaks = soakHelpsHere(kit, here, calculations);
  for (const soaked of soaks ? [true, false] : [false]) {
    for (const finish of ['flame', 'pressure', 'box'] as const) {
      // Unsoaked kidney-family beans are boiled to softness in fresh water, never left to a box.
      if (!soaked && finish === 'box' && hasKidneyFamily(kit)) continue;
      ways.push(oneWay(kit, finish, soaked, here, sea, calculations));
    }
  }
  return ways;
}

function soakHelpsHere(kit: Kit, here: CardKitchen, calculations: Calculations): boolean {
  if (here.soakHours === null) return false;
  const soak = { hours: here.soakHours, waterC: here.surroundings.indoorC, additive: 'none' as const };
  const needs = dishNeeds(
    kit,
    kit.servings,
    { elevationM: here.surroundings.elevationM, gaugeKPa: null },
    soak,
    'kept',
    null,
    calculations,
  );
  return isRefusal(needs) ? hasKidneyFamily(kit) : needs.soakedPartIds.length > 0;
}

function oneWay(
  kit: Kit,
  finish: 'flame' | 'pressure' | 'box',
  soaked: boolean,
  here: CardKitchen,
  sea: CardKitchen,
  calculations: Calculations,
): CardWay {
  const firstWater = !soaked && hasKidneyFamily(kit) ? 'poured-away' : 'kept';
  const choiceIn = (kitchen: CardKitchen, stove: ResolvedStove, fuelId: FuelId): MethodChoice => ({
    stove,
    fuelId,
    fuelMoisturePercent: kitchen.moistureOf(fuelId),
    vessel: finish === 'pressure' ? kitchen.cooker : kitchen.pot,
    finish: finish === 'box' ? 'box' : 'flame',
    box: finish === 'box' ? kitchen.box : null,
    flask: null,
    soak:
      soaked && kitchen.soakHours !== null
        ? { hours: kitchen.soakHours, waterC: kitchen.surroundings.indoorC, additive: 'none' }
        : null,
    firstWater,
    boxMinutes: finish === 'box' ? BOX_MINUTES : { shortest: 0, longest: 0 },
  });
  const tried = here.stoves.flatMap((stove) =>
    stove.fuelIds.slice(0, 1).map((fuelId) => ({
      stove,
      fuelId,
      method: computeMethod(kit, kit.servings, choiceIn(here, stove, fuelId), here.surroundings, null, calculations),
      startUp: startUpOf(stove, fuelId, here.moistureOf(fuelId), here.surroundings, calculations),
    })),
  );
  const open = tried.find(({ method }) => 'needs' in method)?.method as DishMethod | undefined;
  const atSea = sea.stoves
    .map((stove) =>
      computeMethod(
        kit,
        kit.servings,
        choiceIn(sea, stove, stove.fuelIds[0] as FuelId),
        sea.surroundings,
        null,
        calculations,
      ),
    )
    .sort((a, b) => Number('needs' in b) - Number('needs' in a))[0];
  // The stove that could carry the vessel says what else stands against it.
  const vessel = finish === 'pressure' ? here.cooker : here.pot;
  const refusal = (tried.find(({ stove }) => whyStoveCannotCarry(stove, vessel) === null) ?? tried[0])?.method;
  return {
    finish,
    soaked,
    firstWater,
    gaugeKPa: finish === 'pressure' ? (here.cooker.gaugeKPa ?? 80) : null,
    boxHours: finish === 'box' ? BOX_MINUTES.shortest / 60 : null,
    atHand: finish === 'pressure' ? here.hasCooker : finish === 'box' ? here.hasBox : true,
    here: minutesOf(open ?? refusal),
    seaLevel: minutesOf(atSea),
    potWaterL: open?.waterInPotL ?? 0,
    soakWaterL: open?.needs.soakSuppliedL ?? 0,
    rinseL: open?.needs.rinseL ?? 0,
    firstWaterL: open?.needs.firstWaterL ?? 0,
    fuel: tried.map(({ stove, fuelId, method, startUp }) => ({
      stove: stove.name === stove.id ? null : stove.name,
      typeId: stove.typeId,
      fuelId,
      kg: 'needs' in method && startUp !== null ? addPercentiles(method.fuelKg, startUp.kg) : null,
      mj: 'needs' in method && startUp !== null ? method.fuelMJ.p50 + startUp.mj.p50 : null,
      toBoilMinutes: 'needs' in method && startUp !== null ? method.minutesToBoil.p50 + startUp.minutes : null,
    })),
  };
}

function minutesOf(method: DishMethod | Refusal | undefined): CardMinutes {
  if (method === undefined || !('needs' in method))
    return { boil: null, reason: method?.reason ?? 'no stove is named' };
  return {
    boil: method.holdMinutes,
    restMinutes: method.restMinutes,
    temperatureC: method.needs.temperatureC,
    lectinMinutes: method.needs.lectin.boilMinutesNeeded,
    reason: null,
  };
}

function partsOf(kit: Kit, packing: Packing, kitchen: CardKitchen, calculations: Calculations): CardPart[] {
  const whole = kitNutrition(kit);
  const needsOf = (some: Kit): DishNeeds | null => {
    if (kit.style === 'no-cook') return null;
    const soak =
      soakableParts(some).length > 0 && kitchen.soakHours !== null
        ? { hours: kitchen.soakHours, waterC: kitchen.surroundings.indoorC, additive: 'none' as const }
        : null;
    const needs = dishNeeds(
      some,
      kit.servings,
      { elevationM: kitchen.surroundings.elevationM, gaugeKPa: null },
      soak,
      hasKidneyFamily(some) ? 'poured-away' : 'kept',
      null,
      calculations,
    );
    return isRefusal(needs) ? null : needs;
  };
  const all = needsOf(kit);
  return packing.parts.map((packed) => {
    const rest = { ...kit, parts: kit.parts.filter((part) => part.id !== packed.partId) };
    const left = rest.parts.length > 0;
    const without = left ? kitNutrition(rest) : null;
    const needs = left ? needsOf(rest) : null;
    const additions = all?.additions.filter(({ partId, massG }) => partId === packed.partId && massG > 0) ?? [];
    const first = additions.length === 0 ? 0 : Math.min(...additions.map(({ atMinute }) => atMinute));
    return {
      partId: packed.partId,
      name: packed.name,
      containers: packed.containersPerSet,
      massG: packed.massG * packed.containersPerSet,
      contents: packed.contents.map(({ name, massG }) => ({ name, massG: massG * packed.containersPerSet })),
      asItIs: kit.parts.some((part) => part.id === packed.partId && isEatenAsItIs(part)),
      soaks: all?.soakedPartIds.includes(packed.partId) ?? false,
      lateMinutes: all === null || first <= 0 ? null : Math.round(all.boilMinutes.p50 - first),
      useByMonths: packed.keepsMonths,
      allergens: packed.allergens,
      without: {
        kcal: (whole.kcalPerServing - (without?.kcalPerServing ?? 0)) * kit.servings,
        proteinG: (whole.proteinGPerServing - (without?.proteinGPerServing ?? 0)) * kit.servings,
        boilMinutes: needs?.boilMinutes.p50 ?? null,
        potWaterL: needs?.waterInPotL ?? null,
        left,
      },
    };
  });
}
