/** Short ways to write the parameter records of the food tables; nothing is looked up here. */
import type { Parameter } from '../../physics/parameter.ts';
import type { WorkKey } from '../../references/works-cited.ts';
import type { Food } from './food.ts';

/**
 * A table entry that rests on the named work.
 * @param value typical value, in `unit`
 * @param p10 10th percentile of what a household will meet, `p10 <= value`
 * @param p90 90th percentile, `value <= p90`
 */
export function entry(value: number, p10: number, p90: number, unit: string, key: WorkKey, place: string): Parameter {
  return { value, p10, p90, unit, source: { key, place }, estimate: false };
}

/** The same for a value from memory, common practice, analogy or extrapolation; `note` says which. */
export function estimate(
  value: number,
  p10: number,
  p90: number,
  unit: string,
  key: WorkKey,
  place: string,
  note?: string,
): Parameter {
  return { ...entry(value, p10, p90, unit, key, place), estimate: true, ...(note === undefined ? {} : { note }) };
}

/** A value known by definition: a food without solids to lose, a spice that holds no water. */
export function exactly(value: number, unit: string, place: string): Parameter {
  return entry(value, value, value, unit, 'planner-derivation', place);
}

/** Energy, protein, water, bulk density and specific heat of a row, as `composition` returns them. */
export type Composition = Pick<
  Food,
  'kcalPer100G' | 'proteinGPer100G' | 'waterGPer100G' | 'bulkDensityGPerL' | 'specificHeatKJPerKgK'
>;

/**
 * Specific heat of a food from its water: `c = 4.187 w + 1.46 (1 - w)`, kJ/(kg K).
 *
 * 1.46 makes it 1.84 at 14 % water, the value for air-dried peas (and 1.84-1.88 for macaroni) in Geankoplis,
 * table A.4-1.
 * @param waterShare kg water per kg food, 0 to 1
 */
export function specificHeatOfFood(waterShare: number): number {
  return 4.187 * waterShare + 1.46 * (1 - waterShare);
}

/** Energy of 100 g of pure fat, kcal: nothing that is eaten holds more (9.02 kcal/g, the factor of USDA SR for fats). */
const PURE_FAT_KCAL = 902;

/**
 * What 100 g of a food as stored holds.
 * @param row kcal, protein and water in kcal/100 g and g/100 g; density in g/L of the loose food; `estimated` where the
 *   figures were derived or recalled, `densityEstimated` where only the density was
 */
export function composition(row: {
  kcal: number;
  proteinG: number;
  waterG: number;
  gPerL: number;
  key?: WorkKey;
  place: string;
  estimated?: boolean;
  densityEstimated?: boolean;
  specificHeat?: number;
}): Composition {
  const key = row.key ?? 'usda-sr28';
  const make = row.estimated ? estimate : entry;
  const density = row.estimated || row.densityEstimated ? 0.3 : 0.08;
  const makeDensity = row.estimated || row.densityEstimated ? estimate : entry;
  const heat = row.specificHeat ?? specificHeatOfFood(row.waterG / 100);
  const waterSpread = Math.min(2, row.waterG * 0.25);
  return {
    // Lots differ by a few percent in energy and about a tenth in protein: judged from the spread between the releases.
    kcalPer100G: make(
      row.kcal,
      row.kcal * 0.96,
      Math.min(row.kcal * 1.04, PURE_FAT_KCAL),
      'kcal/100 g',
      key,
      row.place,
    ),
    proteinGPer100G: make(row.proteinG, row.proteinG * 0.9, row.proteinG * 1.1, 'g/100 g', key, row.place),
    waterGPer100G: make(row.waterG, row.waterG - waterSpread, row.waterG + waterSpread, 'g/100 g', key, row.place),
    bulkDensityGPerL: makeDensity(
      row.gPerL,
      row.gPerL * (1 - density),
      row.gPerL * (1 + density),
      'g/L',
      row.densityEstimated ? 'cooking-practice' : key,
      row.densityEstimated ? 'bulk density, recalled' : row.place,
    ),
    specificHeatKJPerKgK: estimate(
      heat,
      heat * 0.93,
      heat * 1.07,
      'kJ/(kg K)',
      'geankoplis-4',
      'table A.4-1: peas at 14 % water, scaled by water',
    ),
  };
}

/** Nothing is lost: the food is eaten with all of its water. */
export const ALL_SOLIDS_KEPT: Parameter = exactly(1, 'kg/kg', 'nothing is drained');

/** The fields that most rows leave at their plain value. */
export const PLAIN: Pick<
  Food,
  | 'lectin'
  | 'allergens'
  | 'rawAnimal'
  | 'foams'
  | 'acid'
  | 'seasoning'
  | 'soak'
  | 'soakSavesShare'
  | 'solidsKept'
  | 'cautions'
  | 'soakable'
> = {
  lectin: 'none',
  allergens: [],
  rawAnimal: false,
  foams: false,
  acid: false,
  seasoning: false,
  soak: null,
  soakSavesShare: null,
  solidsKept: ALL_SOLIDS_KEPT,
  cautions: [],
  soakable: false,
};
