/**
 * Parts that may stand in for one another. An ingredient names foods that may take its place (`alternatives`); a bag that
 * was packed with one of them is a part of its own in the store, under the id of the part and the food. A set takes one
 * bag of either kind.
 */
import type { Food } from '../foods/food.ts';
import { findFood, namedFood } from '../foods/foods-table.ts';
import type { Ingredient, Kit, KitPart } from './kit.ts';

const LONGEST_ID = 64;

/** A part of the recipe and every part that may be taken for it; the recipe's own comes first. */
export interface PartChoice {
  partId: string;
  parts: KitPart[];
}

/**
 * The parts of a set, each with those that may stand in for it.
 * @param kit recipe as stored
 * @returns one choice for each part of the recipe, in its order; a stand-in has one ingredient swapped at the same mass
 */
export function partChoices(kit: Kit): PartChoice[] {
  const taken = new Set(kit.parts.map((part) => part.id));
  return kit.parts.map((part) => {
    const parts = [part];
    for (const [index, { alternatives, ownAlternatives }] of part.ingredients.entries())
      for (const foodId of alternatives ?? []) {
        if (part.ingredients.some((one) => one.foodId === foodId)) continue;
        const id = standInId(part.id, foodId);
        if (taken.has(id)) continue;
        taken.add(id);
        const food = ownAlternatives?.find((one) => one.id === foodId) ?? findFood(foodId);
        const ingredients = part.ingredients.map((one, at) =>
          at === index ? swapped(one, foodId, food) : withoutChoice(one),
        );
        parts.push({ ...part, id, name: standInName(part, food?.name ?? foodId), ingredients });
      }
    return { partId: part.id, parts };
  });
}

/** Every part that can lie in the store: those of the recipe and those that stand in for them. */
export function packableParts(kit: Kit): KitPart[] {
  return partChoices(kit).flatMap(({ parts }) => parts);
}

/**
 * The id under which a part is stored that was packed with another food.
 * @returns at most 64 characters
 */
export function standInId(partId: string, foodId: string): string {
  const end = `-with-${foodId}`;
  return `${partId.slice(0, Math.max(1, LONGEST_ID - end.length))}${end}`.slice(0, LONGEST_ID);
}

/**
 * The kit as it is cooked with certain parts.
 * @param chosen ids of stand-ins that are taken; a part without one is taken as the recipe has it
 * @returns the kit itself where nothing is swapped; else one with an id and a name of its own, `madeFrom` the kit's id
 */
export function kitWithParts(kit: Kit, chosen: readonly string[]): Kit {
  const wanted = new Set(chosen);
  const swapped: KitPart[] = [];
  const parts = partChoices(kit).map(({ parts: [own, ...others] }) => {
    const other = others.find((part) => wanted.has(part.id));
    if (other !== undefined) swapped.push(other);
    return other ?? (own as KitPart);
  });
  if (swapped.length === 0) return kit;
  return {
    ...kit,
    id: variantId(kit.id, swapped),
    name: `${kit.name} (with ${swapped.map((part) => lowerFirst(part.name)).join(' and ')})`,
    parts,
    madeFrom: kit.id,
  };
}

/** The id under which the stock of a kit is kept, whichever of its parts are swapped. */
export function stockKitId(kit: Pick<Kit, 'id' | 'madeFrom'>): string {
  return kit.madeFrom ?? kit.id;
}

/** The same by the id of a kit among others: those of a plan, say. */
export function stockKitIdIn(kits: readonly Kit[], kitId: string): string {
  return kits.find((kit) => kit.id === kitId)?.madeFrom ?? kitId;
}

/** Whether a kit is the one that was asked for, as the recipe has it or with parts swapped. */
export function isKit(kit: Pick<Kit, 'id' | 'madeFrom'>, asked: string): boolean {
  return kit.id === asked || kit.madeFrom === asked;
}

function withoutChoice({ alternatives: _choice, ownAlternatives: _rows, ...ingredient }: Ingredient): Ingredient {
  return ingredient;
}

function swapped(ingredient: Ingredient, foodId: string, food: Food | undefined): Ingredient {
  const { ownFood: _replaced, ...rest } = withoutChoice(ingredient);
  return { ...rest, ...(food === undefined ? { foodId } : namedFood(food)) };
}

/** A bag of one food is called after it. */
function standInName(part: KitPart, foodName: string): string {
  return part.ingredients.length === 1 ? foodName : `${part.name} with ${lowerFirst(foodName)}`;
}

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

/** At most 64 characters; a longer one keeps its beginning and a checksum of the whole. */
function variantId(kitId: string, swapped: readonly KitPart[]): string {
  const text = `${kitId}--${swapped.map((part) => part.id).join('--')}`;
  if (text.length <= LONGEST_ID) return text;
  let sum = 0;
  for (const character of text) sum = (sum * 31 + character.charCodeAt(0)) % 2176782336;
  return `${text.slice(0, LONGEST_ID - 8)}-${sum.toString(36).padStart(7, '0')}`.slice(0, LONGEST_ID);
}
