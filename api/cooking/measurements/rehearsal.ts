/** What a household should test on a calm day, and what it should find: boil tests, box and flask readings, old beans. */
import { InvalidInputError, OutOfRangeError } from '../../physics/errors.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import type { FuelId } from '../../physics/table-ids.ts';
import { answerCookTime } from '../calculators/answer-cook-time.ts';
import { answerCooling } from '../calculators/answer-cooling.ts';
import { whyStoveCannotCarry } from '../dishes/cooking-methods.ts';
import { isLargePulse } from '../dishes/dish.ts';
import type { Kit } from '../dishes/kit.ts';
import { foodOf } from '../foods/foods-table.ts';
import type { ResolvedHousehold, ResolvedStove, ResolvedVessel } from '../household/resolve-household.ts';
import { soakLimitHours } from '../keeping/soak-limits.ts';
import { storageFactor } from '../keeping/storage-age.ts';
import { logNormalOf } from './bayes.ts';
import { boilTestQuestion, expectedBoil } from './learn-from-boil-tests.ts';
import { coolingThings, modelQuestion } from './learn-from-cooling.ts';
import { expectedSoft, lotPrior, lotTestQuestion } from './learn-from-lot-tests.ts';
import { type StoredLot, storageOf } from './learn-from-measurements.ts';
import { type LearnedLot, lotId } from './learned.ts';
import { type FoodLot, SEEDS_OF_A_TEST } from './measurements.ts';

export interface RehearsedBoil {
  stoveName: string;
  fuelId: FuelId;
  vesselName: string;
  litres: number;
  /** kg, or kWh of electricity, lighting included. */
  fuel: Percentiles;
  unit: 'kg' | 'kWh';
  minutes: Percentiles;
  liquid: boolean;
}

export interface RehearsedCooling {
  name: string;
  /** null: a flask. */
  vesselName: string | null;
  fillL: number;
  hours: number;
  temperatureC: Percentiles;
}

export interface RehearsedBeans {
  foodName: string;
  kitName: string;
  packedOn: string;
  soakHours: number;
  /** At the boil, when the seeds are tried. */
  minutes: number;
  /** Of twenty. */
  soft: { low: number; middle: number; high: number };
}

export interface Rehearsal {
  household: string;
  /** At which the boil tests are worked out, C: a calm day. */
  calmDayC: number;
  /** Hot water as it stands in box or flask when the lid closes, C. */
  startC: number;
  elevationM: number;
  containers: { fuelId: FuelId; id: string; tareKg: number | null }[];
  pots: { name: string; capacityL: number; massKg: number | null; diameterMm: number | null }[];
  boils: RehearsedBoil[];
  coolings: RehearsedCooling[];
  beans: RehearsedBeans[];
  /** Stoves for which no test could be worked out, with the reason. */
  left: { name: string; reason: string }[];
}

const CALM_DAY_C = 15;
const TEST_LITRES = 2;
/** Spirit burners hold little. */
const SMALL_TEST_LITRES = 1;
/** A pot boils over when it is fuller. */
const TEST_FILL_SHARE = 0.7;
const BOX_HOURS = 4;
const FLASK_HOURS = 8;
const KEPT_FILL_SHARE = 0.9;
const INTO_BOX_K = 5;
const SOAK_HOURS = 12;
/** Lots that are worth a test: the oldest ones. */
const MOST_LOTS = 6;
const MOST_POTS = 6;
/** Beans that are hard for longer are tried no longer. */
const LONGEST_TEST_MINUTES = 180;

/**
 * @param household with what was learned already, so that a second rehearsal expects what the first one found
 * @param lots of the ledger that are still there
 * @param today local date, `YYYY-MM-DD`
 * @param tested what was learned of lots already
 */
export function rehearsalOf(
  household: ResolvedHousehold,
  kits: readonly Kit[],
  lots: readonly StoredLot[],
  today: string,
  tested: readonly LearnedLot[] = [],
): Rehearsal {
  const place = household.places[0];
  const boils: RehearsedBoil[] = [];
  const left: Rehearsal['left'] = [];
  for (const stove of household.stoves) {
    const boil = orNothing(() => boilOf(stove, household));
    if (boil === null)
      left.push({ name: stove.name, reason: 'no pot of this household goes on it, or no fuel burns in it' });
    else boils.push(boil);
  }
  const elevationM = place?.elevationM ?? 0;
  const boilC = answerCookTime({ foodId: 'pasta', elevationM }).temperatureC;
  const startC = Math.round(boilC - INTO_BOX_K);
  return {
    household: household.name,
    calmDayC: CALM_DAY_C,
    startC,
    elevationM,
    containers: household.fuels.flatMap((store) =>
      store.containers.map(({ id, tareKg }) => ({ fuelId: store.fuelId, id, tareKg })),
    ),
    pots: household.vessels
      .filter((vessel) => vessel.kind === 'pot' || vessel.kind === 'pressure-cooker')
      .slice(0, MOST_POTS)
      .map(({ name, capacityL, massKg, diameterMm }) => ({ name, capacityL, massKg, diameterMm })),
    boils,
    coolings: coolingThings(household).map((thing) => {
      const fillL = Math.round(KEPT_FILL_SHARE * thing.vessel.capacityL * 10) / 10;
      const hours = thing.kind === 'flask' ? FLASK_HOURS : BOX_HOURS;
      const own = thing.box ?? thing.vessel;
      const answer = answerCooling({
        ...modelQuestion(thing, fillL, startC, Math.min(thing.airC, startC)),
        ...(own.measured !== undefined
          ? { measured: own.measured }
          : own.reading === null
            ? {}
            : { reading: own.reading }),
        hours,
      });
      return {
        name: thing.box?.name ?? thing.vessel.name,
        vesselName: thing.box === null ? null : thing.vessel.name,
        fillL,
        hours,
        temperatureC: answer.temperatureC.at(-1) as Percentiles,
      };
    }),
    beans: beansOf(household, kits, lots, today, tested),
    left,
  };
}

function boilOf(stove: ResolvedStove, household: ResolvedHousehold): RehearsedBoil | null {
  const stored = stove.fuelIds.filter((id) => household.fuels.some((store) => store.fuelId === id));
  const fuelId = stored[0] ?? stove.fuelIds[0];
  if (fuelId === undefined) return null;
  const small =
    fuelId.includes('ethanol') || fuelId.includes('alcohol') || fuelId === 'methanol' || fuelId === 'isopropanol';
  const wanted = small ? SMALL_TEST_LITRES : TEST_LITRES;
  const pots = household.vessels
    .filter((vessel) => vessel.kind === 'pot' && vessel.placeId === stove.placeId)
    .filter((vessel) => whyStoveCannotCarry(stove, vessel) === null)
    .sort((a, b) => a.capacityL - b.capacityL || (a.id < b.id ? -1 : 1));
  const vessel: ResolvedVessel | undefined =
    pots.find((pot) => pot.capacityL * TEST_FILL_SHARE >= wanted) ?? pots.at(-1);
  if (vessel === undefined) return null;
  const litres = Math.round(Math.min(wanted, vessel.capacityL * TEST_FILL_SHARE) * 10) / 10;
  const question = boilTestQuestion(
    {
      kind: 'boil-test',
      id: 'rehearsal',
      householdId: household.id,
      at: '',
      stoveId: stove.id,
      fuelId,
      vesselId: vessel.id,
      litres,
      startC: CALM_DAY_C,
      airC: CALM_DAY_C,
      wind: 'still',
      minutes: 1,
    },
    household,
  );
  if (question === null) return null;
  const measured = stove.measured;
  const { fuel, unit, minutes } = expectedBoil({
    ...question,
    stove: { ...question.stove, ...(measured === undefined ? {} : { measured }) },
  });
  return { stoveName: stove.name, fuelId, vesselName: vessel.name, litres, fuel, unit, minutes, liquid: small };
}

/** The oldest lots of pulses, those that hardened most first; of a tested lot what its tests found is expected. */
function beansOf(
  household: ResolvedHousehold,
  kits: readonly Kit[],
  lots: readonly StoredLot[],
  today: string,
  tested: readonly LearnedLot[],
): RehearsedBeans[] {
  const place = household.places[0];
  if (place === undefined) return [];
  const found = new Map<string, { lot: FoodLot; kit: Kit; age: number }>();
  for (const stored of lots) {
    const kit = kits.find((one) => one.id === stored.kitId);
    for (const { foodId, ownFood } of kit?.parts.find((part) => part.id === stored.partId)?.ingredients ?? []) {
      const food = foodOf(ownFood === undefined ? { foodId } : { foodId, ownFood });
      if (kit === undefined || food?.group !== 'pulse' || food.kinetics.kind !== 'boil') continue;
      const lot: FoodLot = {
        kitId: stored.kitId,
        partId: stored.partId,
        packedOn: stored.packedOn,
        foodId,
        ...(ownFood === undefined ? {} : { ownFood }),
      };
      const age = storageFactor(storageOf(lot, lots, household, today)).value;
      found.set(lotId(lot), { lot, kit, age });
    }
  }
  return [...found.values()]
    .sort((a, b) => b.age - a.age || (a.lot.packedOn < b.lot.packedOn ? -1 : 1))
    .slice(0, MOST_LOTS)
    .flatMap(({ lot, kit }): RehearsedBeans[] => {
      const storage = storageOf(lot, lots, household, today);
      const food = foodOf(lot);
      // Lentils and split peas are cooked as they are.
      const soaked = food !== undefined && isLargePulse(food);
      const soakHours = soaked ? Math.min(SOAK_HOURS, Math.floor(soakLimitHours(place.indoorC))) : 0;
      const question = lotTestQuestion(
        {
          kind: 'twenty-bean-test',
          id: 'rehearsal',
          householdId: household.id,
          at: today,
          ...lot,
          ...(soaked ? { soak: { hours: soakHours, waterC: place.indoorC } } : {}),
          minutes: 1,
          soft: 0,
        },
        storage,
        place.elevationM,
      );
      const answer = orNothing(() => answerCookTime(question));
      if (answer === null) return [];
      const prior = lotPrior(lot, storage);
      const own = tested.find((one) => lotId(one) === lotId(lot) && one.minutesFactor.records.length > 0);
      const known = own === undefined ? prior : logNormalOf(own.minutesFactor.now);
      const typical = answer.minutes.p50 * Math.exp(known.mean);
      // Where about half of such a lot is soft the count says most.
      const minutes = Math.min(LONGEST_TEST_MINUTES, Math.max(5, Math.round((typical * 0.8) / 5) * 5));
      const whole = logNormalOf(answer.minutes).sd;
      const sharedSd = Math.sqrt(Math.max(0, whole ** 2 - prior.sd ** 2));
      return [
        {
          foodName: food?.name ?? lot.foodId,
          kitName: kit.name,
          packedOn: lot.packedOn,
          soakHours,
          minutes,
          soft: expectedSoft(known, minutes / answer.minutes.p50, SEEDS_OF_A_TEST, sharedSd),
        },
      ];
    });
}

/** null where a stove or lot cannot be worked out here at all. */
function orNothing<Answer>(ask: () => Answer): Answer | null {
  try {
    return ask();
  } catch (error) {
    if (error instanceof InvalidInputError || error instanceof OutOfRangeError) return null;
    throw error;
  }
}
