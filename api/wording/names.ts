/** Names of fuels, stoves, vessels, parts and foods as a sentence uses them. */

import type { Kit, KitPart } from '../cooking/dishes/kit.ts';
import { foodOf, type NamedFood } from '../cooking/foods/foods-table.ts';
import type { HouseholdDocument } from '../cooking/household/kitchen.ts';
import type { FuelId, StoveTypeId } from '../physics/table-ids.ts';

const FUEL_NAMES: Readonly<Record<FuelId, string>> = {
  wood: 'wood',
  charcoal: 'charcoal',
  propane: 'propane',
  butane: 'butane',
  'canister-mix': 'canister gas',
  ethanol: 'ethanol',
  'denatured-alcohol': 'denatured alcohol',
  methanol: 'methanol',
  isopropanol: 'isopropanol',
  'ethanol-gel': 'alcohol gel',
  electricity: 'electricity',
};

const STOVE_NAMES: Readonly<Record<StoveTypeId, string>> = {
  'three-stone': 'three-stone fire',
  'mud-u': 'mud stove',
  rocket: 'rocket stove',
  'wood-gas': 'wood-gas stove',
  charcoal: 'charcoal stove',
  'lpg-home': 'gas stove',
  'propane-camp': 'propane camp stove',
  'alcohol-jet': 'alcohol jet burner',
  'alcohol-pot': 'alcohol burner',
  'ethanol-canister': 'ethanol canister stove',
  gel: 'gel burner',
  'electric-plate': 'electric plate',
  'other-gas': 'gas stove',
  'other-spirit': 'spirit burner',
  'other-solid': 'stove',
  'other-electric': 'electric cooker',
};

const VESSEL_NAMES = {
  pot: 'pot',
  'pressure-cooker': 'pressure cooker',
  flask: 'flask',
  'soak-bowl': 'bowl',
} as const;

/** "denatured alcohol" */
export function fuelName(id: FuelId): string {
  return FUEL_NAMES[id];
}

/** "rocket stove": the name of a type. */
export function stoveTypeName(id: StoveTypeId): string {
  return STOVE_NAMES[id];
}

/** The household's own name of a stove, vessel or box in mid-sentence, else the name of its type; the id as a last resort. */
export function thingName(household: HouseholdDocument, id: string | null): string {
  if (id === null) return 'pot';
  const stove = household.stoves?.find((candidate) => candidate.id === id);
  if (stove !== undefined) return inSentence(stove.name ?? STOVE_NAMES[stove.typeId]);
  const vessel = household.vessels?.find((candidate) => candidate.id === id);
  if (vessel !== undefined) return inSentence(vessel.name ?? VESSEL_NAMES[vessel.kind]);
  const box = household.boxes?.find((candidate) => candidate.id === id);
  if (box !== undefined) return inSentence(box.name ?? 'box');
  return id.replaceAll('-', ' ');
}

/** The name of a food, or its id in words. */
export function foodName(named: NamedFood): string {
  return foodOf(named)?.name ?? named.foodId.replaceAll('-', ' ');
}

/** The part of a kit, or undefined. */
export function partOf(kit: Kit | undefined, partId: string): KitPart | undefined {
  return kit?.parts.find((part) => part.id === partId);
}

/** What to test for softness: "five beans", "five lentils", "one spoonful". */
export function softnessTest(kit: Kit | undefined): string {
  if (kit?.parts.some((part) => part.ingredients.some((one) => one.ownFood?.group === 'pulse'))) return 'five beans';
  const ids = (kit?.parts ?? []).flatMap((part) => part.ingredients.map((ingredient) => ingredient.foodId));
  if (ids.some((id) => id.includes('bean') && !id.startsWith('fd-'))) return 'five beans';
  if (ids.includes('chickpea')) return 'five chickpeas';
  if (ids.some((id) => id.startsWith('lentil'))) return 'five lentils';
  if (ids.some((id) => id === 'whole-pea' || id === 'split-pea' || id === 'black-eyed-pea')) return 'five peas';
  return 'one spoonful';
}

/** "rice, carrots and peas" */
export function foodListText(names: readonly string[]): string {
  const last = names[names.length - 1] ?? '';
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} and ${last}`;
}

/** Lower-cases the first letter of a common name, but leaves "LPG" or "A" as it is. */
export function inSentence(name: string): string {
  return /^[A-Z][a-z]/.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;
}

/** Upper-cases the first letter. */
export function asHeading(name: string): string {
  return name.charAt(0).toUpperCase() + name.slice(1);
}

/** The name of a kit of a plan, or its id where the plan holds none. */
export function kitNameIn({ resolved }: { resolved: { kits: readonly Kit[] } }, kitId: string): string {
  return resolved.kits.find((kit) => kit.id === kitId)?.name ?? kitId;
}
