/** What a kit comes to while it is put together: what it feeds, its water, the shortest and the most frugal way, what to mind. */
import type { Percentiles } from '../../physics/parameter.ts';
import type { FuelId, StoveTypeId } from '../../physics/table-ids.ts';
import { foodOf } from '../foods/foods-table.ts';
import type { HouseholdDocument } from '../household/kitchen.ts';
import type { ResolvedHousehold } from '../household/resolve-household.ts';
import { type PackingRemark, packKit } from '../keeping/packing.ts';
import { canBeEatenAsItIs, type Kit } from './kit.ts';
import { type CardFinish, type CardWay, kitCard } from './kit-card.ts';
import type { KitNutrition } from './kit-nutrition.ts';

/** One way of cooking a whole set, on one stove. */
export interface FiguredWay {
  finish: CardFinish;
  soaked: boolean;
  firstWater: 'kept' | 'poured-away';
  gaugeKPa: number | null;
  boxHours: number | null;
  stove: string | null;
  typeId: StoveTypeId | null;
  fuelId: FuelId | null;
  /** From putting the pot on to the table, soak left out, min. */
  minutes: number;
  /** Without fire: 0. */
  mj: number;
  kg: Percentiles | null;
  potWaterL: number;
  soakWaterL: number;
  /** Everything that leaves the water store, L. */
  waterL: number;
}

export interface KitFigures {
  nutrition: KitNutrition;
  elevationM: number;
  /** `canBeAsItIs`: every food of the part can be eaten dry. */
  parts: {
    partId: string;
    canBeAsItIs: boolean;
    massG: number;
    heapL: number;
    bagL: number | null;
    remarks: PackingRemark[];
  }[];
  shortest: FiguredWay | null;
  leastFuel: FiguredWay | null;
  /** Why there is no way, where there is none. */
  noWay: string | null;
  guessed: { name: string; guessed: string[] }[];
  cautions: string[];
  /** Foods that need no boil: how each may be eaten. */
  readyFoods: { foodId: string; name: string; eatDry: boolean; standMinutesCold: number; standMinutesHot: number }[];
  keepsMonths: number;
}

/**
 * Works the figures out, in some ten milliseconds.
 * @param kit the recipe, own foods with their rows
 * @param household whose stoves and place count; null: common stoves at sea level
 * @throws InvalidInputError for an empty part or an unknown food
 */
export function kitFigures(
  kit: Kit,
  household: HouseholdDocument | ResolvedHousehold | null,
  placeId: string | null,
  storageC: number,
): KitFigures {
  const packing = packKit({ kit, bulk: [], sets: 1, storageC });
  const card = kitCard(kit, household, placeId, null, storageC);
  const ways = card.ways.filter(({ atHand }) => atHand).flatMap(figuredWays);
  const least = (value: (way: FiguredWay) => number): FiguredWay | null =>
    ways.length === 0 ? null : ways.reduce((best, way) => (value(way) < value(best) ? way : best));
  const refused = card.ways.find(({ here }) => here.boil === null)?.here;
  return {
    nutrition: card.nutrition,
    elevationM: card.elevationM,
    parts: packing.parts.map(({ partId, massG, containersPerSet, heapL, bagL, remarks }) => ({
      partId,
      canBeAsItIs: kit.parts.some((part) => part.id === partId && canBeEatenAsItIs(part)),
      massG: massG * containersPerSet,
      heapL: heapL * containersPerSet,
      bagL,
      remarks,
    })),
    shortest: least(({ minutes }) => minutes),
    leastFuel: least(({ mj, minutes }) => mj + minutes * 1e-6),
    noWay: ways.length > 0 ? null : (refused?.reason ?? 'No stove of this household can cook it.'),
    guessed: card.guessed,
    cautions: card.cautions,
    readyFoods: kit.parts.flatMap((part) =>
      part.ingredients.flatMap((ingredient) => {
        const food = foodOf(ingredient);
        if (food === undefined || food.kinetics.kind !== 'ready' || food.seasoning || food.absorbedGPerG.value <= 0)
          return [];
        const { eatDry, standMinutesCold, standMinutesHot } = food.kinetics;
        return [
          {
            foodId: food.id,
            name: food.name,
            eatDry,
            standMinutesCold: standMinutesCold.value,
            standMinutesHot: standMinutesHot.value,
          },
        ];
      }),
    ),
    keepsMonths: card.keepsMonths,
  };
}

function figuredWays(way: CardWay): FiguredWay[] {
  const { finish, soaked, firstWater, gaugeKPa, boxHours, here, potWaterL, soakWaterL, rinseL, firstWaterL } = way;
  const { boil } = here;
  if (boil === null) return [];
  const base = {
    finish,
    soaked,
    firstWater,
    gaugeKPa,
    boxHours,
    potWaterL,
    soakWaterL,
    waterL: potWaterL + soakWaterL + rinseL + firstWaterL,
  };
  if (finish === 'no-fire')
    return [{ ...base, stove: null, typeId: null, fuelId: null, minutes: here.restMinutes, mj: 0, kg: null }];
  return way.fuel.flatMap(({ stove, typeId, fuelId, kg, mj, toBoilMinutes }) =>
    kg === null || mj === null || toBoilMinutes === null
      ? []
      : [
          {
            ...base,
            stove,
            typeId,
            fuelId,
            minutes: toBoilMinutes + boil.p50 + here.restMinutes + (boxHours ?? 0) * 60,
            mj,
            kg,
          },
        ],
  );
}
