/** The ids of the shipped tables and enumerations, as the HTTP contract names them. More may be added, none renamed. */

export const STOVE_TYPE_IDS = [
  'three-stone',
  'mud-u',
  'rocket',
  'wood-gas',
  'charcoal',
  'lpg-home',
  'propane-camp',
  'alcohol-jet',
  'alcohol-pot',
  'ethanol-canister',
  'gel',
  'electric-plate',
  'other-gas',
  'other-spirit',
  'other-solid',
  'other-electric',
] as const;
export type StoveTypeId = (typeof STOVE_TYPE_IDS)[number];

export const FUEL_IDS = [
  'wood',
  'charcoal',
  'propane',
  'butane',
  'canister-mix',
  'ethanol',
  'denatured-alcohol',
  'methanol',
  'isopropanol',
  'ethanol-gel',
  'electricity',
] as const;
export type FuelId = (typeof FUEL_IDS)[number];

export const VESSEL_MATERIAL_IDS = ['aluminium', 'stainless', 'enamel', 'cast-iron', 'titanium'] as const;
export type VesselMaterialId = (typeof VESSEL_MATERIAL_IDS)[number];

export const INSULATION_MATERIAL_IDS = [
  'eps',
  'xps',
  'cellulose',
  'glass-fibre',
  'wool',
  'felt',
  'straw',
  'perlite',
  'vermiculite',
  'newspaper',
  'towels',
  'down',
] as const;
export type InsulationMaterialId = (typeof INSULATION_MATERIAL_IDS)[number];

export const WINDS = ['still', 'screened', 'light', 'moderate'] as const;
export type Wind = (typeof WINDS)[number];

export const LIDS = ['none', 'loose', 'snug'] as const;
export type Lid = (typeof LIDS)[number];

export const FLAMES = ['full', 'low'] as const;
export type Flame = (typeof FLAMES)[number];
