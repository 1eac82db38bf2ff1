/** The words behind ids, for choices and tables. Names of foods, fuels and stoves come from the server's tables. */
import type {
  AgeGroup,
  Condition,
  DishStyle,
  InsulationMaterialId,
  Lid,
  MealSlot,
  StockReason,
  VesselKind,
  VesselMaterialId,
  WaterQuality,
  Wind,
} from './api-types.ts';

export const AGE_GROUP_NAMES: Record<AgeGroup, string> = {
  infant: 'Infant (under 1)',
  'young-child': 'Young child (1 to 3)',
  child: 'Child (4 to 8)',
  teen: 'Older child or teen (9 to 18)',
  adult: 'Adult',
  'older-adult': 'Older adult (over 70)',
};
export const CONDITION_NAMES: Record<Condition, string> = {
  none: 'Nothing special',
  pregnant: 'Pregnant',
  nursing: 'Nursing',
  ill: 'Ill',
};
export const SLOT_NAMES: Record<MealSlot, string> = { breakfast: 'Breakfast', midday: 'Midday', evening: 'Evening' };
export const HOT_NAMES = { wanted: 'Hot, wanted', optional: 'Hot if it costs nothing', none: 'Cold is fine' };
export const STYLE_NAMES: Record<DishStyle, string> = {
  soup: 'Soup',
  stew: 'Stew',
  porridge: 'Porridge',
  rice: 'Rice or grain',
  pasta: 'Pasta, drained',
  'no-cook': 'No cooking',
};
export const WIND_NAMES: Record<Wind, string> = {
  still: 'Still air',
  screened: 'Behind a screen',
  light: 'Light wind',
  moderate: 'Moderate wind',
};
export const LID_NAMES: Record<Lid, string> = { none: 'No lid', loose: 'Loose lid', snug: 'Snug lid' };
export const VESSEL_KIND_NAMES: Record<VesselKind, string> = {
  pot: 'Pot',
  'pressure-cooker': 'Pressure cooker',
  flask: 'Vacuum flask',
  'soak-bowl': 'Soak bowl',
};
export const VESSEL_MATERIAL_NAMES: Record<VesselMaterialId, string> = {
  aluminium: 'Aluminium',
  stainless: 'Stainless steel',
  enamel: 'Enamelled steel',
  'cast-iron': 'Cast iron',
  titanium: 'Titanium',
};
export const INSULATION_NAMES: Record<InsulationMaterialId, string> = {
  eps: 'Expanded polystyrene (EPS)',
  xps: 'Extruded polystyrene (XPS)',
  cellulose: 'Cellulose fibre',
  'glass-fibre': 'Glass fibre',
  wool: 'Wool',
  felt: 'Felt',
  straw: 'Straw or hay',
  perlite: 'Perlite',
  vermiculite: 'Vermiculite',
  newspaper: 'Newspaper',
  towels: 'Towels and blankets',
  down: 'Down',
};
export const QUALITY_NAMES: Record<WaterQuality, string> = {
  safe: 'Safe to drink',
  treat: 'Must be treated',
  'not-for-food': 'Not for food',
};
export const REASON_NAMES: Partial<Record<StockReason, string>> = {
  packed: 'Packed',
  eaten: 'Eaten',
  lost: 'Lost',
  'thrown-away': 'Thrown away',
  opened: 'Opened',
  moved: 'Moved',
  counted: 'Counted',
  undo: 'Taken back',
};

/** A word for an id no table names: `canister-mix` becomes `Canister mix`. */
export function wordsOf(id: string): string {
  const words = id.replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** A new id from a name, free among those taken: letters, digits and hyphens, at most 64. */
export function newIdFrom(name: string, taken: readonly string[]): string {
  const base =
    name
      .normalize('NFKD')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 56) || 'item';
  let id = base;
  for (let count = 2; taken.includes(id); count += 1) id = `${base}-${count}`;
  return id;
}
