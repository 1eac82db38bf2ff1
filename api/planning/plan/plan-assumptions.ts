/** What a plan takes for granted, and what to mind about this one. */
import { HOT_HOLDING_C } from '../../cooking/kinetics/box-cooking.ts';
import { boilingPointAtElevationC } from '../../physics/boiling-point.ts';
import type { PlanDraft } from '../plan-types.ts';
import { round } from '../rounding.ts';
import { frostyCylinderCaution } from '../week/fuel-containers.ts';
import type { PlacedWeek } from '../week/place-week.ts';
import type { WeekSituation } from '../week/week-situation.ts';
import { stockCautions } from './stock-cautions.ts';

/** Sentences on elevation, temperatures, lids, thermometer and reserve. */
export function assumptionsOf(situation: WeekSituation): string[] {
  const { place, household } = situation;
  const boil = boilingPointAtElevationC(place.elevationM);
  return [
    `Water boils at ${round(boil, 1)} °C at ${place.elevationM} m in ordinary weather.`,
    `Outdoors ${place.outdoorC} °C, wind ${place.wind}; indoors ${place.indoorC} °C, falling to ${place.indoorFallsToC} °C within four days.`,
    `Water starts at ${round(situation.water.waterC ?? place.indoorC, 1)} °C.`,
    ...(situation.days.some((day) => day.daylight !== null)
      ? [`It is light from ${place.daylight.from} to ${place.daylight.to}; fires outdoors burn only then.`]
      : []),
    'Lids are on whenever the pot stands on the fire.',
    household.thermometer
      ? 'There is a food thermometer.'
      : 'There is no food thermometer: box dishes are eaten while surely hot.',
    `Fuel is planned so that it suffices nine times in ten, and ${Math.round((household.fuels[0]?.reserveShare ?? 0.1) * 100)} % is kept back.`,
    `Food from the box is above ${HOT_HOLDING_C} °C when it is eaten.`,
    ...situation.learned.map(({ figure }) => `Measured by you. ${figure.text}`),
  ];
}

/** Wood that is wetter than this may not burn, %: trade notes 4, common practice. */
const WET_WOOD_PERCENT = 30;

/** What to mind where a fire is planned with wood that may not burn; null where none is. */
function wetWoodCaution(situation: WeekSituation, placed: PlacedWeek): string | null {
  const moisture = situation.fuels.wood?.moisturePercent ?? null;
  if (moisture === null || moisture <= WET_WOOD_PERCENT) return null;
  if (!placed.lightings.some(({ detail }) => detail.fuelId === 'wood' && !detail.burnsAnyway)) return null;
  return `The wood is at ${moisture} % moisture: above ${WET_WOOD_PERCENT} % it may not burn. Split it thin and dry it beside the house or over a stove, try a fire before the first meal, and keep another fuel for the meals that count on it.`;
}

/** Sentences on wet wood, small cylinders in the frost, food energy, protein and kidney-family beans where they apply. */
export function planCautions(
  energyByDay: PlanDraft['energyByDay'],
  placed: PlacedWeek,
  situation: WeekSituation,
): string[] {
  const cautions: string[] = [];
  const frosty = frostyCylinderCaution(situation, placed);
  if (frosty !== null) cautions.push(frosty);
  const wet = wetWoodCaution(situation, placed);
  if (wet !== null) cautions.push(wet);
  const kcal = energyByDay.reduce((total, day) => total + day.kcal, 0);
  const need = energyByDay.reduce((total, day) => total + day.needKcal, 0);
  if (kcal < need * 0.95) {
    cautions.push(
      `The kits give ${Math.round((100 * kcal) / need)} % of the food energy that the household needs. Add oil, nut butter or spare food.`,
    );
  }
  const proteinG = energyByDay.reduce((total, day) => total + day.proteinG, 0);
  const needG = energyByDay.reduce((total, day) => total + day.needProteinG, 0);
  if (proteinG < needG * 0.95) {
    cautions.push(
      `The kits give ${Math.round((100 * proteinG) / needG)} % of the protein that the household needs. Add milk powder, pulses, eggs, tinned fish or meat.`,
    );
  }
  if (placed.dishes.some((dish) => dish.detail.method?.needs.lectin.verdict === 'safe')) {
    cautions.push(
      'Beans of the kidney family are on the plan: undercooked ones make ill. Keep the rolling boil for the printed minutes.',
    );
  }
  cautions.push(...stockCautions([...new Set(placed.dishes.map((dish) => dish.detail.kit))]));
  return cautions;
}
