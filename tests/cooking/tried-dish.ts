/** One dish in a 4 L pot on one stove, for tests of how its fire is tended. */
import { createCalculations } from '../../api/cooking/calculators/calculations.ts';
import {
  computeMethod,
  type DishMethod,
  type MethodChoice,
  type Surroundings,
} from '../../api/cooking/dishes/cooking-methods.ts';
import { isRefusal, type Refusal } from '../../api/cooking/dishes/dish.ts';
import type { DishStyle, Kit } from '../../api/cooking/dishes/kit.ts';
import type { ResolvedStove, ResolvedVessel } from '../../api/cooking/household/resolve-household.ts';
import { FUELS } from '../../api/physics/fuels-table.ts';
import { STOVE_TYPES } from '../../api/physics/stoves-table.ts';
import type { FuelId, StoveTypeId } from '../../api/physics/table-ids.ts';

export const calculations = createCalculations();
export const MILD: Surroundings = { elevationM: 0, outdoorC: 15, indoorC: 15, wind: 'still', waterC: 10 };

/** A kit of one part for four. */
export function kit(style: DishStyle, foods: Record<string, number>): Kit {
  const ingredients = Object.entries(foods).map(([foodId, massG]) => ({ foodId, massG }));
  return {
    format: 1,
    id: 'tried',
    name: 'Tried',
    servings: 4,
    divisible: true,
    style,
    suits: ['evening'],
    parts: [{ id: 'all', name: 'All', ingredients }],
  };
}

function stove(typeId: StoveTypeId): ResolvedStove {
  return {
    id: 'stove',
    name: 'Stove',
    typeId,
    fuelIds: STOVE_TYPES[typeId].fuelIds as FuelId[],
    site: 'outdoors',
    burners: 1,
    placeId: 'home',
    powerKW: null,
    efficiency: null,
    throttle: null,
    fillMl: null,
    minutesPerFill: null,
    coolDownMinutes: null,
    largestPotL: null,
    burnsAnyway: null,
  };
}

export function pot(lid: 'none' | 'loose' | 'snug'): ResolvedVessel {
  return {
    id: 'pot',
    name: 'Pot',
    kind: 'pot',
    capacityL: 4,
    material: 'aluminium',
    lid,
    gaugeKPa: null,
    diameterMm: null,
    massKg: null,
    finned: false,
    placeId: 'home',
    reading: null,
  };
}

/** Full flame to the end in that pot, on the first fuel of a stove. */
export function choice(typeId: StoveTypeId, lid: 'none' | 'loose' | 'snug' = 'snug'): MethodChoice {
  const [fuelId] = STOVE_TYPES[typeId].fuelIds as FuelId[];
  return {
    stove: stove(typeId),
    fuelId: fuelId as FuelId,
    fuelMoisturePercent: FUELS[fuelId as FuelId].kind === 'solid' ? 15 : null,
    vessel: pot(lid),
    finish: 'flame',
    box: null,
    flask: null,
    soak: null,
    firstWater: 'kept',
    boxMinutes: { shortest: 0, longest: 0 },
  };
}

/** What was answered; a refusal fails. */
export function passed<Answer extends object>(answer: Answer | Refusal): Answer {
  if (isRefusal(answer)) throw new Error(answer.reason);
  return answer as Answer;
}
export const cook = (of: Kit, way: MethodChoice, at = MILD): DishMethod =>
  passed(computeMethod(of, of.servings, way, at, null, calculations));
