/** One dish over every way in which a household can cook it, cheapest in fuel first, refused ways last with a way out. */
import { createCalculations, NOTHING } from '../../cooking/calculators/calculations.ts';
import type { ExplanationStep } from '../../cooking/calculators/calculator-types.ts';
import { explainDish, explainNoHeat } from '../../cooking/derivations/explain-dish.ts';
import {
  comparisonFuelMJ,
  computeMethod,
  type DishMethod,
  type MethodChoice,
  noHeatMethod,
  type Surroundings,
  startUpOf,
} from '../../cooking/dishes/cooking-methods.ts';
import {
  type DishSoak,
  type DishStorage,
  hasKidneyFamily,
  isRefusal,
  needsNoBoil,
  soakableParts,
  whyNoSafeSoak,
} from '../../cooking/dishes/dish.ts';
import { fireWays, isSparing } from '../../cooking/dishes/fire-ways.ts';
import { heatsFor } from '../../cooking/dishes/hot-without-boil.ts';
import type { Kit } from '../../cooking/dishes/kit.ts';
import type { HouseholdDocument } from '../../cooking/household/kitchen.ts';
import { type ResolvedHousehold, resolveHousehold } from '../../cooking/household/resolve-household.ts';
import { isSafeBeforeTheFire } from '../../cooking/household/water-treatment.ts';
import { soakLimitHours } from '../../cooking/keeping/soak-limits.ts';
import {
  learnFromMeasurements,
  measuredLotsOf,
  type StoredLot,
  storageOf,
  withLearned,
} from '../../cooking/measurements/learn-from-measurements.ts';
import type { Learned } from '../../cooking/measurements/learned.ts';
import type { Measurement } from '../../cooking/measurements/measurements.ts';
import { InvalidInputError } from '../../physics/errors.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import type { FuelId } from '../../physics/table-ids.ts';
import { toMinute } from '../local-time.ts';
import type { Finish } from '../plan-types.ts';
import { round } from '../rounding.ts';

export interface DishOptionsQuestion {
  household: HouseholdDocument;
  placeId?: string | null;
  kit: Kit;
  servings: number;
  startsAt: string;
  eatAt: string;
  /** Own tests of the household; absent: none. */
  measurements?: readonly Measurement[];
  /** Lots of the ledger, for the age of a tested lot. */
  lots?: readonly StoredLot[];
  /** Whether each way that is not refused comes with its derivation. */
  explain?: boolean;
}

export interface DishOption {
  method: {
    finish: Finish;
    soakHours: number | null;
    firstWater: 'kept' | 'poured-away';
    vesselId: string | null;
    stoveId: string | null;
    boxId: string | null;
    flaskId: string | null;
    gaugeKPa: number | null;
    boxMinutes: number;
    /** How the flame is kept on the way to the boil. */
    flame: 'full' | 'low';
    /** Minutes that the covered pot stands off the fire and softens on; null: it is soft when the flame goes out. */
    standMinutes: number | null;
    /** Heated to this and no further, C, where nothing in it needs a boil; null: it boils. */
    heatToC: number | null;
  };
  fuel: { fuelId: FuelId; kg: Percentiles; mj: Percentiles; startUpKg: Percentiles }[];
  waterL: number;
  minutes: { toBoil: Percentiles; hold: Percentiles; rest: number };
  handsOnMinutes: number;
  leadHours: number;
  floorMJ: number;
  usualMJ: number | null;
  verdict: 'ok' | 'refused';
  reason: string | null;
  wayOut: string | null;
  /** The steps behind fuel, water and minutes, where asked for; ends with the fuel. */
  explanation?: ExplanationStep[];
}

/** A box dish stands this long before the meal (and up to this much longer, with other work on the fire). */
const BOX_MINUTES = { shortest: 120, longest: 195 };

/**
 * @param question household, kit, servings (> 0) and the hours between: soaks that do not fit are refused with the reason
 * @returns ranked options; what is refused carries reason and way out
 * @throws InvalidInputError when the meal is not after the start, or the place is unknown
 */
export function dishOptions(question: DishOptionsQuestion): DishOption[] {
  const { household: plain } = resolveHousehold(question.household);
  const lots = question.lots ?? [];
  const learned = learnFromMeasurements(plain, question.measurements ?? [], lots);
  const household = withLearned(plain, learned);
  const place = household.places.find((candidate) => candidate.id === (question.placeId ?? household.places[0]?.id));
  if (place === undefined) throw new InvalidInputError('placeId', question.placeId, 'name a place of this household');
  const available = toMinute(question.eatAt, place.timeZone) - toMinute(question.startsAt, place.timeZone);
  if (available <= 0) throw new InvalidInputError('eatAt', question.eatAt, 'must be later than startsAt');
  const { kit, servings } = question;
  const storage = testedStorage(question.kit, learned, lots, household, question.startsAt);
  const calculations = createCalculations();
  const here = <Thing extends { placeId: string }>(things: Thing[]) =>
    things.filter((thing) => thing.placeId === place.id);
  const temperatures = here(household.water.lots)
    .filter((lot) => lot.quality !== 'not-for-food')
    .map((lot) => lot.temperatureC ?? place.indoorC);
  const surroundings: Surroundings = {
    elevationM: place.elevationM,
    outdoorC: place.outdoorC,
    indoorC: place.indoorC,
    wind: place.wind,
    waterC: temperatures.length === 0 ? place.indoorC : Math.min(...temperatures),
    ...(isSafeBeforeTheFire(household.water) ? {} : { boilsItsWater: true as const }),
  };
  const vessels = here(household.vessels);
  const rows: DishOption[] = [];

  const cold = noHeatMethod(kit, servings);
  if (!isRefusal(cold)) {
    rows.push({
      method: emptyMethod('no-heat'),
      fuel: [],
      waterL: cold.waterL,
      minutes: { toBoil: NOTHING, hold: NOTHING, rest: cold.standMinutes },
      handsOnMinutes: Math.round(cold.handsOnMinutes),
      leadHours: round(cold.standMinutes / 60, 2),
      floorMJ: 0,
      usualMJ: null,
      verdict: 'ok',
      reason: null,
      wayOut: null,
      ...(question.explain === true ? { explanation: explainNoHeat(kit, servings) } : {}),
    });
  }
  if (kit.style === 'no-cook') return rows;

  const limitHours = soakLimitHours(place.indoorC);
  const soakHours = Math.floor(Math.min(12, limitHours, available / 60 - 2) * 2) / 2;
  const soaks: {
    soak: DishSoak | null;
    firstWater: 'kept' | 'poured-away';
    refused: { reason: string; wayOut: string } | null;
  }[] = [{ soak: null, firstWater: 'kept', refused: null }];
  if (hasKidneyFamily(kit)) soaks.push({ soak: null, firstWater: 'poured-away', refused: null });
  if (soakableParts(kit).length > 0) {
    const soak: DishSoak = { hours: Math.max(soakHours, 0.5), waterC: place.indoorC, additive: 'none' };
    soaks.push({
      soak,
      firstWater: 'kept',
      refused:
        soakHours < 4
          ? {
              reason: `Only ${round(available / 60, 1)} h until the meal: too little for a soak`,
              wayOut: 'Eat it later, or cook it unsoaked',
            }
          : null,
    });
  } else {
    const why = whyNoSafeSoak(kit);
    if (why !== null) {
      soaks.push({
        soak: { hours: Math.max(soakHours, 0.5), waterC: place.indoorC, additive: 'none' },
        firstWater: 'kept',
        refused: { reason: why.reason, wayOut: why.wayOut ?? '' },
      });
    }
  }

  for (const stove of here(household.stoves)) {
    for (const fuelId of stove.fuelIds) {
      const store = household.fuels.find((fuel) => fuel.fuelId === fuelId);
      const moisture = store?.moisturePercent ?? null;
      const startUp = startUpOf(stove, fuelId, moisture, surroundings, calculations);
      if (startUp === null) {
        rows.push({
          method: { ...emptyMethod('flame'), stoveId: stove.id },
          ...nothingSpent(),
          verdict: 'refused',
          reason: `This stove cannot burn ${fuelId} here`,
          wayOut: 'Warm the container, or use another fuel',
        });
        continue;
      }
      for (const vessel of vessels.filter(
        (candidate) => candidate.kind === 'pot' || candidate.kind === 'pressure-cooker',
      )) {
        const finishes: Pick<MethodChoice, 'finish' | 'box' | 'flask' | 'boxMinutes'>[] = [
          { finish: 'flame', box: null, flask: null, boxMinutes: { shortest: 0, longest: 0 } },
        ];
        if (vessel.kind === 'pot') {
          for (const box of here(household.boxes)) {
            if (box.fits.includes(vessel.id))
              finishes.push({ finish: 'box', box, flask: null, boxMinutes: BOX_MINUTES });
          }
          for (const flask of vessels.filter((candidate) => candidate.kind === 'flask')) {
            finishes.push({ finish: 'flask', box: null, flask, boxMinutes: BOX_MINUTES });
          }
        }
        for (const finish of finishes) {
          for (const { soak, firstWater, refused } of soaks) {
            const plain: MethodChoice = {
              stove,
              fuelId,
              fuelMoisturePercent: moisture,
              vessel,
              ...finish,
              soak,
              firstWater,
            };
            const mayStand = firstWater === 'kept' && !needsNoBoil(kit);
            const heats =
              soak === null ? heatsFor(kit, surroundings.boilsItsWater === true, household.thermometer) : [];
            // Where heating a little is enough, heating more is not offered.
            const heatedFlames = new Set<MethodChoice['flame']>();
            for (const choice of refused === null ? fireWays(plain, mayStand, heats) : [plain]) {
              if (choice.heatToC !== undefined && heatedFlames.has(choice.flame)) continue;
              const method = refused ?? computeMethod(kit, servings, choice, surroundings, storage, calculations);
              const heatedRest = choice.heatToC !== undefined && 'needs' in method ? method.restMinutes : null;
              const base = {
                method: {
                  finish: finish.finish,
                  soakHours: soak?.hours ?? null,
                  firstWater,
                  vesselId: vessel.id,
                  stoveId: stove.id,
                  boxId: finish.box?.id ?? null,
                  flaskId: finish.flask?.id ?? null,
                  gaugeKPa: vessel.kind === 'pressure-cooker' ? vessel.gaugeKPa : null,
                  boxMinutes: finish.boxMinutes.shortest,
                  flame: choice.flame ?? ('full' as const),
                  standMinutes: choice.standMinutes ?? heatedRest,
                  heatToC: choice.heatToC ?? null,
                },
              };
              if (!('needs' in method)) {
                // Where the sparing way cannot be, the plain one stands.
                if (isSparing(choice)) continue;
                rows.push({
                  ...base,
                  ...nothingSpent(),
                  verdict: 'refused',
                  reason: method.reason,
                  wayOut: method.wayOut,
                });
                continue;
              }
              if (firstWater === 'poured-away' && finish.finish !== 'flame') {
                rows.push({
                  ...base,
                  ...nothingSpent(),
                  verdict: 'refused',
                  reason: 'Unsoaked kidney-family beans are boiled to softness; box and flask do not hold a boil',
                  wayOut: 'Soak them first, or keep them on the flame',
                });
                continue;
              }
              const leadMinutes =
                (soak === null ? 0 : soak.hours * 60) +
                startUp.minutes +
                method.minutesToBoil.p90 +
                method.holdMinutes.p90 +
                (finish.finish === 'flame' ? method.restMinutes : finish.boxMinutes.shortest);
              const late = leadMinutes > available;
              if (late && isSparing(choice)) continue;
              if (choice.heatToC !== undefined) heatedFlames.add(choice.flame);
              rows.push({
                ...base,
                ...spent(method, fuelId, startUp.kg),
                usualMJ: comparisonFuelMJ(kit, servings, choice, surroundings, storage, calculations)?.usualMJ ?? null,
                leadHours: round(leadMinutes / 60, 2),
                verdict: late ? 'refused' : 'ok',
                reason: late
                  ? `It takes up to ${round(leadMinutes / 60, 1)} h, the meal is in ${round(available / 60, 1)} h`
                  : null,
                wayOut: late ? 'Eat it later, or choose a shorter way' : null,
                ...(question.explain === true && !late
                  ? { explanation: explainDish(kit, servings, { choice, surroundings, storage }) }
                  : {}),
              });
            }
          }
        }
      }
    }
  }
  const heat = (row: DishOption) => row.fuel.reduce((sum, fuel) => sum + fuel.mj.p50, 0);
  return rows.sort((a, b) =>
    a.verdict !== b.verdict ? (a.verdict === 'ok' ? -1 : 1) : heat(a) - heat(b) || a.waterL - b.waterL,
  );
}

/**
 * Age and factors of the tested lots of a kit, of each part the oldest one; null where none was tested: a dish that is
 * only compared is then taken as fresh.
 */
function testedStorage(
  kit: Kit,
  learned: Learned,
  lots: readonly StoredLot[],
  household: ResolvedHousehold,
  at: string,
): DishStorage | null {
  const tested = learned.lots
    .filter((lot) => lot.kitId === kit.id && lot.minutesFactor.records.length > 0)
    .sort((a, b) => (a.packedOn < b.packedOn ? -1 : 1));
  const oldest = tested[0];
  if (oldest === undefined) return null;
  const storage = storageOf(oldest, lots, household, at);
  return { ...storage, ...measuredLotsOf(learned, tested, storage, (lot) => storageOf(lot, lots, household, at)) };
}

function emptyMethod(finish: Finish): DishOption['method'] {
  return {
    finish,
    soakHours: null,
    firstWater: 'kept',
    vesselId: null,
    stoveId: null,
    boxId: null,
    flaskId: null,
    gaugeKPa: null,
    boxMinutes: 0,
    flame: 'full',
    standMinutes: null,
    heatToC: null,
  };
}

function nothingSpent() {
  return {
    fuel: [],
    waterL: 0,
    minutes: { toBoil: NOTHING, hold: NOTHING, rest: 0 },
    handsOnMinutes: 0,
    leadHours: 0,
    floorMJ: 0,
    usualMJ: null,
  };
}

function spent(method: DishMethod, fuelId: FuelId, startUpKg: Percentiles) {
  return {
    fuel: [{ fuelId, kg: method.fuelKg, mj: method.fuelMJ, startUpKg }],
    waterL: round(method.waterL, 2),
    minutes: { toBoil: method.minutesToBoil, hold: method.holdMinutes, rest: method.restMinutes },
    handsOnMinutes: Math.round(method.handsOnMinutes),
    floorMJ: method.floorMJ,
  };
}
