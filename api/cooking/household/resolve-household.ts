/**
 * A household with nothing left open. A stored household may leave almost everything out; the calculation may not. This
 * is the one place where an absent field becomes a default, and every default is reported so that the page can say
 * what was assumed. A given value is never altered. `null` in a resolved field means "as the type table says" (stoves,
 * vessels, boxes) or "not known" (a reading, a weight).
 */
import { InvalidInputError } from '../../physics/errors.ts';
import { FUELS } from '../../physics/fuels-table.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import { STOVE_TYPES } from '../../physics/stoves-table.ts';
import type {
  FuelId,
  InsulationMaterialId,
  Lid,
  StoveTypeId,
  VesselMaterialId,
  Wind,
} from '../../physics/table-ids.ts';
import type { MeasuredStove } from '../calculators/calculator-types.ts';
import type { MealSlot } from '../dishes/kit.ts';
import type {
  AgeGroup,
  Animal,
  ClockSpan,
  Condition,
  CoolingReading,
  FuelContainer,
  FuelStore,
  HouseholdDocument,
  MealTime,
  Person,
  Place,
  RetainedHeatBox,
  Stove,
  Vessel,
  VesselKind,
  WaterLot,
  WaterQuality,
  WaterStores,
} from './kitchen.ts';
import { DEFAULT_MEAL_SHARES } from './people.ts';

export interface ResolvedPlace {
  id: string;
  name: string;
  timeZone: string;
  elevationM: number;
  indoorC: number;
  indoorFallsToC: number;
  storageC: number;
  outdoorC: number;
  wind: Wind;
  daylight: ClockSpan;
}

export interface ResolvedPerson {
  label: string;
  ageGroup: AgeGroup;
  /** null: not said; needs are then taken between or above both columns, see `people.ts`. */
  sex: 'f' | 'm' | null;
  condition: Condition;
  mealShare: number;
  avoids: string[];
}

export interface ResolvedMealTime {
  id: string;
  slot: MealSlot;
  time: string;
  hot: 'wanted' | 'optional' | 'none';
}

export interface ResolvedWaterLot {
  id: string;
  placeId: string;
  litres: number;
  quality: WaterQuality;
  /** null: at the indoor temperature of the day. Below 0: ice. */
  temperatureC: number | null;
}

export interface ResolvedWater {
  lots: ResolvedWaterLot[];
  snow: boolean;
  dailySupply: { litres: number; quality: WaterQuality };
  treatBy: 'boil' | 'bleach';
  hygieneLPerPersonDay: number;
  washingUpLPerPersonMeal: number;
  hotWaterPerDay: { litres: number; temperatureC: number };
}

export interface ResolvedFuelContainer {
  id: string;
  placeId: string;
  /** null: not known. */
  fullKg: number | null;
  count: number;
  level: 'full' | 'part' | 'unknown' | 'empty';
  tareKg: number | null;
  grossKg: number | null;
  leftKg: number | null;
}

export interface ResolvedFuelStore {
  fuelId: FuelId;
  reserveShare: number;
  /** Wood only, % of the wet mass; null for other fuels. */
  moisturePercent: number | null;
  containers: ResolvedFuelContainer[];
  dailySupplyKg: number;
  leftKWh: number;
  dailySupplyKWh: number;
}

export interface ResolvedStove {
  id: string;
  name: string;
  placeId: string;
  typeId: StoveTypeId;
  fuelIds: FuelId[];
  site: 'outdoors' | 'vented-indoors';
  burners: number;
  powerKW: number | null;
  efficiency: number | null;
  throttle: boolean | null;
  fillMl: number | null;
  minutesPerFill: number | null;
  coolDownMinutes: number | null;
  largestPotL: number | null;
  burnsAnyway: ClockSpan | null;
  /** What the household's own boil tests say; absent: none counts. Set by `withLearned`, never stored. */
  measured?: MeasuredStove;
}

export interface ResolvedVessel {
  id: string;
  name: string;
  placeId: string;
  kind: VesselKind;
  capacityL: number;
  material: VesselMaterialId;
  lid: Lid;
  /** Pressure cookers only; null for all others. */
  gaugeKPa: number | null;
  diameterMm: number | null;
  massKg: number | null;
  finned: boolean;
  reading: KeptReading | null;
  /** Flask: time constant over that of the model, from own readings; absent: none counts. Never stored. */
  measured?: Percentiles;
}

/** The one reading kept with a box or flask, and how full it is taken to have been: a share of the vessel. */
export interface KeptReading extends CoolingReading {
  fillShare: number;
}

export interface ResolvedBox {
  id: string;
  name: string;
  placeId: string;
  fits: string[];
  materialId: InsulationMaterialId;
  thicknessMm: number;
  conductivityWPerMK: number | null;
  reading: KeptReading | null;
  /** Time constant over that of the model, from own readings; absent: none counts. Never stored. */
  measured?: Percentiles;
}

export interface ResolvedHousehold {
  format: number;
  id: string;
  name: string;
  places: ResolvedPlace[];
  people: ResolvedPerson[];
  animals: Animal[];
  meals: ResolvedMealTime[];
  waking: ClockSpan;
  lightingsPerDay: number;
  outdoorMinutesPerDay: number;
  nightFeeds: string[];
  thermometer: boolean;
  water: ResolvedWater;
  fuels: ResolvedFuelStore[];
  stoves: ResolvedStove[];
  vessels: ResolvedVessel[];
  boxes: ResolvedBox[];
  note: string;
}

/** The current number of the household format. */
export const HOUSEHOLD_FORMAT = 1;

/**
 * What stands in for an absent field. All are common practice (trade notes): an ordinary unheated house in the cold
 * season, the pot and box that most people can find, and the careful side where the two sides differ in harm (no
 * thermometer, no supply, outdoors).
 */
export const HOUSEHOLD_DEFAULTS = {
  timeZone: 'Etc/UTC',
  indoorC: 18,
  /** An unheated lived-in house settles here, unless it was colder to begin with or it is warmer outside. */
  indoorFallsToC: 8,
  storageC: 15,
  outdoorC: 5,
  wind: 'light',
  daylight: { from: '08:00', to: '17:00' },
  meals: [
    { id: 'breakfast', slot: 'breakfast', time: '07:30', hot: 'wanted' },
    { id: 'midday', slot: 'midday', time: '12:30', hot: 'optional' },
    { id: 'evening', slot: 'evening', time: '18:00', hot: 'wanted' },
  ],
  waking: { from: '06:30', to: '22:00' },
  /** Or one for each meal that may be hot, if these are more: a cap that nobody set must leave nobody unfed. */
  lightingsPerDay: 2,
  outdoorMinutesPerDay: 180,
  thermometer: false,
  waterQuality: 'safe',
  /** A promised supply is not trusted to be safe. */
  dailySupply: { litres: 0, quality: 'treat' },
  treatBy: 'boil',
  hygieneLPerPersonDay: 2,
  washingUpLPerPersonMeal: 1,
  hotWaterLPerPersonDay: 0.5,
  hotWaterC: 90,
  reserveShare: 0.1,
  /** Seasoned firewood kept under a roof, % of the wet mass. */
  woodMoisturePercent: 20,
  site: 'outdoors',
  burners: 1,
  potMaterial: 'aluminium',
  otherMaterial: 'stainless',
  lid: 'snug',
  gaugeKPa: 80,
  boxMaterialId: 'towels',
  boxThicknessMm: 50,
} as const;

/**
 * Fills every open field of a household and says which were filled.
 * @param doc a household as stored, or one already resolved (then it comes back equal, with no defaults)
 * @returns `household` with every field filled and every `placeId` named; `defaults`, the dotted paths of what was
 *   assumed, list members named by their id or label, for example `places.home.indoorC`. A `placeId` is listed only
 *   where there is more than one place. Neither shares data with `doc`.
 * @throws InvalidInputError when there is no place, or a `placeId` names none, or a box names a vessel that is not there
 */
export function resolveHousehold(doc: HouseholdDocument | ResolvedHousehold): {
  household: ResolvedHousehold;
  defaults: string[];
} {
  const defaults: string[] = [];
  const defaulted = <Value>(given: Value | null | undefined, path: string, fallback: Value): Value => {
    if (given !== undefined && given !== null) return structuredCopy(given);
    defaults.push(path);
    return structuredCopy(fallback);
  };
  const placesGiven: readonly Place[] = doc.places;
  const firstPlace = placesGiven[0];
  if (firstPlace === undefined) {
    throw new InvalidInputError('places', [], 'name at least one place with its elevation');
  }
  const placeIds = new Set(placesGiven.map((place) => place.id));
  const placeOf = (given: string | null | undefined, path: string): string => {
    if (given === undefined || given === null) {
      if (placeIds.size > 1) defaults.push(`${path}.placeId`);
      return firstPlace.id;
    }
    if (!placeIds.has(given)) {
      throw new InvalidInputError(`${path}.placeId`, given, `use one of the places: ${[...placeIds].join(', ')}`);
    }
    return given;
  };

  const places = placesGiven.map((place) => resolvePlace(place, defaulted));
  const people = (doc.people as readonly OpenTo<Person>[]).map((person): ResolvedPerson => {
    const path = `people.${person.label}`;
    return {
      label: person.label,
      ageGroup: person.ageGroup,
      // A sex that was not said stays open: there is nothing to assume.
      sex: person.sex ?? null,
      condition: defaulted(person.condition, `${path}.condition`, 'none' as Condition),
      mealShare: defaulted(person.mealShare, `${path}.mealShare`, DEFAULT_MEAL_SHARES[person.ageGroup].value),
      avoids: structuredCopy(person.avoids ?? []),
    };
  });
  const meals = defaulted<readonly MealTime[]>(doc.meals, 'meals', HOUSEHOLD_DEFAULTS.meals).map(
    (meal): ResolvedMealTime => ({
      id: meal.id,
      slot: meal.slot,
      time: meal.time,
      hot: defaulted(meal.hot, `meals.${meal.id}.hot`, meal.slot === 'midday' ? 'optional' : 'wanted'),
    }),
  );

  const water = resolveWater(doc.water, people.length, placeOf, defaulted);
  const fuels = ((doc.fuels ?? []) as readonly OpenTo<FuelStore>[]).map((store): ResolvedFuelStore => {
    const path = `fuels.${store.fuelId}`;
    return {
      fuelId: store.fuelId,
      reserveShare: defaulted(store.reserveShare, `${path}.reserveShare`, HOUSEHOLD_DEFAULTS.reserveShare as number),
      moisturePercent:
        store.fuelId === 'wood'
          ? defaulted(
              store.moisturePercent,
              `${path}.moisturePercent`,
              HOUSEHOLD_DEFAULTS.woodMoisturePercent as number,
            )
          : (store.moisturePercent ?? null),
      containers: ((store.containers ?? []) as readonly OpenTo<FuelContainer>[]).map((container) =>
        resolveContainer(container, `${path}.containers.${container.id}`, placeOf, defaulted),
      ),
      dailySupplyKg: store.dailySupplyKg ?? 0,
      leftKWh: store.leftKWh ?? 0,
      dailySupplyKWh: store.dailySupplyKWh ?? 0,
    };
  });
  const stoves = ((doc.stoves ?? []) as readonly OpenTo<Stove>[]).map((stove): ResolvedStove => {
    const path = `stoves.${stove.id}`;
    const fillFromLabel = fillMinutes(stove);
    return {
      id: stove.id,
      name: stove.name ?? stove.id,
      placeId: placeOf(stove.placeId, path),
      typeId: stove.typeId,
      fuelIds: [...stove.fuelIds],
      site: defaulted(stove.site, `${path}.site`, HOUSEHOLD_DEFAULTS.site as ResolvedStove['site']),
      burners: defaulted(stove.burners, `${path}.burners`, HOUSEHOLD_DEFAULTS.burners as number),
      powerKW: stove.powerKW ?? null,
      efficiency: stove.efficiency ?? null,
      throttle: stove.throttle ?? null,
      fillMl: stove.fillMl ?? null,
      minutesPerFill:
        fillFromLabel === null
          ? (stove.minutesPerFill ?? null)
          : defaulted(stove.minutesPerFill, `${path}.minutesPerFill`, fillFromLabel),
      coolDownMinutes: stove.coolDownMinutes ?? null,
      largestPotL: stove.largestPotL ?? null,
      burnsAnyway: structuredCopy(stove.burnsAnyway ?? null),
    };
  });
  const vessels = ((doc.vessels ?? []) as readonly OpenTo<Vessel>[]).map((vessel): ResolvedVessel => {
    const path = `vessels.${vessel.id}`;
    const material: VesselMaterialId =
      vessel.kind === 'pot' ? HOUSEHOLD_DEFAULTS.potMaterial : HOUSEHOLD_DEFAULTS.otherMaterial;
    return {
      id: vessel.id,
      name: vessel.name ?? vessel.id,
      placeId: placeOf(vessel.placeId, path),
      kind: vessel.kind,
      capacityL: vessel.capacityL,
      material: defaulted(vessel.material, `${path}.material`, material),
      lid: defaulted(vessel.lid, `${path}.lid`, HOUSEHOLD_DEFAULTS.lid as Lid),
      gaugeKPa:
        vessel.kind === 'pressure-cooker'
          ? defaulted(vessel.gaugeKPa, `${path}.gaugeKPa`, HOUSEHOLD_DEFAULTS.gaugeKPa as number)
          : (vessel.gaugeKPa ?? null),
      diameterMm: vessel.diameterMm ?? null,
      massKg: vessel.massKg ?? null,
      finned: vessel.finned ?? false,
      reading: keptReading(vessel.reading),
    };
  });
  const vesselIds = new Set(vessels.map((vessel) => vessel.id));
  const boxes = ((doc.boxes ?? []) as readonly OpenTo<RetainedHeatBox>[]).map((box): ResolvedBox => {
    const path = `boxes.${box.id}`;
    for (const id of box.fits) {
      if (!vesselIds.has(id)) throw new InvalidInputError(`${path}.fits`, id, 'name vessels of this household');
    }
    const ownConductivity = (box.conductivityWPerMK ?? null) !== null;
    return {
      id: box.id,
      name: box.name ?? box.id,
      placeId: placeOf(box.placeId, path),
      fits: [...box.fits],
      // With a conductivity or a reading of its own the material decides nothing, so it is no assumption worth naming.
      materialId:
        ownConductivity && (box.materialId ?? null) === null
          ? HOUSEHOLD_DEFAULTS.boxMaterialId
          : defaulted(box.materialId, `${path}.materialId`, HOUSEHOLD_DEFAULTS.boxMaterialId as InsulationMaterialId),
      thicknessMm: defaulted(box.thicknessMm, `${path}.thicknessMm`, HOUSEHOLD_DEFAULTS.boxThicknessMm as number),
      conductivityWPerMK: box.conductivityWPerMK ?? null,
      reading: keptReading(box.reading),
    };
  });

  const household: ResolvedHousehold = {
    format: doc.format ?? HOUSEHOLD_FORMAT,
    id: doc.id,
    name: doc.name,
    places,
    people,
    animals: structuredCopy(doc.animals ?? []),
    meals,
    waking: defaulted(doc.waking, 'waking', HOUSEHOLD_DEFAULTS.waking as ClockSpan),
    lightingsPerDay: defaulted(
      doc.lightingsPerDay,
      'lightingsPerDay',
      Math.max(HOUSEHOLD_DEFAULTS.lightingsPerDay, meals.filter(({ hot }) => hot !== 'none').length),
    ),
    outdoorMinutesPerDay: defaulted(
      doc.outdoorMinutesPerDay,
      'outdoorMinutesPerDay',
      HOUSEHOLD_DEFAULTS.outdoorMinutesPerDay as number,
    ),
    nightFeeds: structuredCopy(doc.nightFeeds ?? []),
    thermometer: defaulted(doc.thermometer, 'thermometer', HOUSEHOLD_DEFAULTS.thermometer as boolean),
    water,
    fuels,
    stoves,
    vessels,
    boxes,
    note: doc.note ?? '',
  };
  return { household, defaults };
}

/**
 * A resolved household as a document again: fields that are `null` are left out, all others kept.
 * @returns a document that the store accepts and that resolves to the same household
 */
export function householdDocumentOf(household: ResolvedHousehold): HouseholdDocument {
  // What was learned follows from the records, and is no part of the document.
  const stored = <Thing extends { measured?: unknown }>(things: Thing[]) =>
    things.map(({ measured: _measured, ...thing }) => thing);
  const read = <Thing extends { reading: KeptReading | null }>(things: Thing[]) =>
    things.map(({ reading, ...thing }) => ({ ...thing, reading: reading === null ? null : documentReading(reading) }));
  return withoutNulls({
    ...household,
    stoves: stored(household.stoves),
    vessels: read(stored(household.vessels)),
    boxes: read(stored(household.boxes)),
  }) as HouseholdDocument;
}

/** A test is made with a box or flask that is filled for it. */
const READING_FILL_SHARE = 0.9;

function keptReading(reading: CoolingReading | null | undefined): KeptReading | null {
  return reading === null || reading === undefined ? null : { ...reading, fillShare: READING_FILL_SHARE };
}

function documentReading({ fillShare: _fillShare, ...reading }: KeptReading): CoolingReading {
  return reading;
}

/** A stored shape whose members may also be null, as in a resolved one. */
type OpenTo<Shape> = { [K in keyof Shape]: Shape[K] | null } & Pick<Shape, RequiredKeys<Shape>>;
type RequiredKeys<Shape> = { [K in keyof Shape]-?: undefined extends Shape[K] ? never : K }[keyof Shape];

type Defaulted = <Value>(given: Value | null | undefined, path: string, fallback: Value) => Value;
type PlaceOf = (given: string | null | undefined, path: string) => string;

/**
 * Minutes that one fill of a burner without a valve lasts, from the fill and the power on its label: `fill * density *
 * heating value / power`; null where the label does not say, or the minutes themselves are stated.
 */
function fillMinutes(stove: OpenTo<Stove>): number | null {
  if (typeof stove.minutesPerFill === 'number') return null;
  const fuelId = stove.fuelIds[0];
  const { fillMl, powerKW } = stove;
  if (fuelId === undefined || typeof fillMl !== 'number' || typeof powerKW !== 'number') return null;
  const { densityKgPerL, lhvMJPerKg } = FUELS[fuelId];
  if (densityKgPerL === null || STOVE_TYPES[stove.typeId].valveless === null) return null;
  return Math.round((fillMl * densityKgPerL * lhvMJPerKg.value) / (powerKW * 60));
}

function resolvePlace(place: Place, defaulted: Defaulted): ResolvedPlace {
  const path = `places.${place.id}`;
  const indoorC = defaulted(place.indoorC, `${path}.indoorC`, HOUSEHOLD_DEFAULTS.indoorC as number);
  const outdoorC = defaulted(place.outdoorC, `${path}.outdoorC`, HOUSEHOLD_DEFAULTS.outdoorC as number);
  return {
    id: place.id,
    name: place.name ?? place.id,
    timeZone: defaulted(place.timeZone, `${path}.timeZone`, HOUSEHOLD_DEFAULTS.timeZone as string),
    elevationM: place.elevationM,
    indoorC,
    // A house does not cool below the air around it, nor warm up while it cools.
    indoorFallsToC: defaulted(
      place.indoorFallsToC,
      `${path}.indoorFallsToC`,
      Math.min(indoorC, Math.max(HOUSEHOLD_DEFAULTS.indoorFallsToC, outdoorC)),
    ),
    storageC: defaulted(place.storageC, `${path}.storageC`, HOUSEHOLD_DEFAULTS.storageC as number),
    outdoorC,
    wind: defaulted(place.wind, `${path}.wind`, HOUSEHOLD_DEFAULTS.wind as Wind),
    daylight: defaulted(place.daylight, `${path}.daylight`, HOUSEHOLD_DEFAULTS.daylight as ClockSpan),
  };
}

function resolveWater(
  water: WaterStores | ResolvedWater | undefined,
  persons: number,
  placeOf: PlaceOf,
  defaulted: Defaulted,
): ResolvedWater {
  const supply = water?.dailySupply;
  return {
    lots: ((water?.lots ?? []) as readonly OpenTo<WaterLot>[]).map((lot): ResolvedWaterLot => {
      const path = `water.lots.${lot.id}`;
      return {
        id: lot.id,
        placeId: placeOf(lot.placeId, path),
        litres: lot.litres,
        quality: defaulted(lot.quality, `${path}.quality`, HOUSEHOLD_DEFAULTS.waterQuality as WaterQuality),
        temperatureC: lot.temperatureC ?? null,
      };
    }),
    snow: water?.snow ?? false,
    dailySupply:
      supply === undefined || supply === null
        ? { ...HOUSEHOLD_DEFAULTS.dailySupply }
        : {
            litres: supply.litres,
            quality: defaulted(
              supply.quality,
              'water.dailySupply.quality',
              HOUSEHOLD_DEFAULTS.dailySupply.quality as WaterQuality,
            ),
          },
    treatBy: defaulted(water?.treatBy, 'water.treatBy', HOUSEHOLD_DEFAULTS.treatBy as ResolvedWater['treatBy']),
    hygieneLPerPersonDay: defaulted(
      water?.hygieneLPerPersonDay,
      'water.hygieneLPerPersonDay',
      HOUSEHOLD_DEFAULTS.hygieneLPerPersonDay as number,
    ),
    washingUpLPerPersonMeal: defaulted(
      water?.washingUpLPerPersonMeal,
      'water.washingUpLPerPersonMeal',
      HOUSEHOLD_DEFAULTS.washingUpLPerPersonMeal as number,
    ),
    hotWaterPerDay: defaulted(water?.hotWaterPerDay, 'water.hotWaterPerDay', {
      litres: HOUSEHOLD_DEFAULTS.hotWaterLPerPersonDay * persons,
      temperatureC: HOUSEHOLD_DEFAULTS.hotWaterC,
    }),
  };
}

function resolveContainer(
  container: OpenTo<FuelContainer>,
  path: string,
  placeOf: PlaceOf,
  defaulted: Defaulted,
): ResolvedFuelContainer {
  const leftKg = container.leftKg ?? null;
  const grossKg = container.grossKg ?? null;
  const tareKg = container.tareKg ?? null;
  const weighed = leftKg !== null || (grossKg !== null && tareKg !== null);
  return {
    id: container.id,
    placeId: placeOf(container.placeId, path),
    fullKg: container.fullKg ?? null,
    count: container.count ?? 1,
    // Where the content was weighed the level decides nothing, so it is no assumption.
    level:
      weighed && (container.level ?? null) === null
        ? 'unknown'
        : defaulted(container.level, `${path}.level`, 'unknown' as ResolvedFuelContainer['level']),
    tareKg,
    grossKg,
    leftKg,
  };
}

/** A deep copy of plain data, so that no caller can change what it handed in. */
function structuredCopy<Value>(value: Value): Value {
  if (Array.isArray(value)) return value.map(structuredCopy) as Value;
  if (value !== null && typeof value === 'object') {
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, structuredCopy(inner)])) as Value;
  }
  return value;
}

function withoutNulls(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutNulls);
  if (value !== null && typeof value === 'object') {
    return Object.fromEntries(
      Object.entries(value)
        .filter(([, inner]) => inner !== null)
        .map(([key, inner]) => [key, withoutNulls(inner)]),
    );
  }
  return value;
}
