/** Own foods as routes read them: their rows, recipes and questions resolved against them, and refusals of unknown foods. */

import { canBeEatenAsItIs, type Kit } from '../cooking/dishes/kit.ts';
import { ALLERGENS, type Food } from '../cooking/foods/food.ts';
import { FOODS, findFood, type NamedFood } from '../cooking/foods/foods-table.ts';
import { ownFoodRow } from '../cooking/foods/own-food.ts';
import type { HouseholdDocument } from '../cooking/household/kitchen.ts';
import { listBodies } from '../storage/collections.ts';
import type { DocumentStore } from '../storage/document-store.ts';
import { nearestInWords } from '../wording/lists.ts';
import { type FieldError, jsonPointer, refuseFaults } from './problem.ts';

type Path = readonly (string | number)[];

/** The rows of all own foods, by id. */
export async function ownFoodsOf(store: DocumentStore): Promise<Food[]> {
  return (await listBodies(store, 'foods')).map(ownFoodRow);
}

/** All kits, each ingredient that is an own food with its row. */
export async function resolvedKits(store: DocumentStore): Promise<Kit[]> {
  const own = await ownFoodsOf(store);
  return (await listBodies(store, 'kits')).map((kit) => withOwnFoods(kit, own));
}

/** A kit whose own foods carry their rows, as every calculation takes it. */
export function withOwnFoods(kit: Kit, own: readonly Food[]): Kit {
  if (own.length === 0) return kit;
  return {
    ...kit,
    parts: kit.parts.map((part) => ({
      ...part,
      ingredients: part.ingredients.map((ingredient) => {
        const others = own.filter((food) => ingredient.alternatives?.includes(food.id));
        const named = withOwnFood(ingredient, own);
        return others.length === 0 ? named : { ...named, ownAlternatives: others };
      }),
    })),
  };
}

/** A question or record about a food, with its row where it is an own one. */
export function withOwnFood<Named extends NamedFood>(named: Named, own: readonly Food[]): Named {
  const ownFood = own.find((food) => food.id === named.foodId);
  return ownFood === undefined || findFood(named.foodId) !== undefined ? named : { ...named, ownFood };
}

/**
 * What is wrong with the foods that a body names.
 * @param named ids and where they stand in the body
 * @returns one error for each id that neither a table nor the own foods hold, with the nearest names
 */
export function unknownFoods(named: readonly { foodId: string; at: Path }[], own: readonly Food[]): FieldError[] {
  return named.flatMap(({ foodId, at }) =>
    findFood(foodId) !== undefined || own.some((food) => food.id === foodId)
      ? []
      : [{ pointer: jsonPointer([...at]), detail: unknownFoodText(foodId, own), value: foodId }],
  );
}

/** "No food has this id. Nearest: Kidney beans (kidney-bean)." */
export function unknownFoodText(foodId: string, own: readonly Food[]): string {
  const offer = nearestInWords(foodId, [...Object.values(FOODS), ...own]);
  return `No food has this id.${offer} GET /api/foods lists them all; PUT /api/foods/{id} describes one of your own.`;
}

/** The foods of a kit, alternatives included, and where they stand. */
export function foodsNamedIn(kit: Kit, at: Path = []): { foodId: string; at: Path }[] {
  return kit.parts.flatMap((part, partAt) =>
    part.ingredients.flatMap((ingredient, index) => {
      const path = [...at, 'parts', partAt, 'ingredients', index];
      const others = (ingredient.alternatives ?? []).map((foodId, nth) => ({
        foodId,
        at: [...path, 'alternatives', nth],
      }));
      return [{ foodId: ingredient.foodId, at: [...path, 'foodId'] }, ...others];
    }),
  );
}

/**
 * Refuses a body that names a food which is in no table and none of the own ones.
 * @returns the rows of the own foods; none where no food of theirs is named
 * @throws RefusedError 422 with every such field
 */
export async function requireKnownFoods(
  store: DocumentStore,
  named: readonly { foodId: string; at: Path }[],
): Promise<Food[]> {
  // The tables hold nearly all: then nothing is read.
  if (named.every(({ foodId }) => findFood(foodId) !== undefined)) return [];
  const own = await ownFoodsOf(store);
  refuseFaults(unknownFoods(named, own));
  return own;
}

/**
 * Refuses a kit that names unknown foods, or of which a part is to be eaten as it is that holds what cannot be eaten dry.
 * @param at where the kit stands in the body; empty when it is the body
 * @returns the rows of the own foods
 * @throws RefusedError 422 with every such field
 */
export async function requireSoundKit(store: DocumentStore, kit: Kit, at: Path = []): Promise<Food[]> {
  const own = await requireKnownFoods(store, foodsNamedIn(kit, at));
  refuseFaults(
    withOwnFoods(kit, own).parts.flatMap((part, index) =>
      part.asItIs === true && !canBeEatenAsItIs(part)
        ? [
            {
              pointer: jsonPointer([...at, 'parts', index, 'asItIs']),
              detail: `Not everything in ${part.name} can be eaten dry. Put what can into a part of its own.`,
              value: true,
            },
          ]
        : [],
    ),
  );
  return own;
}

/**
 * Refuses a household in which somebody avoids what is neither a food nor an allergen.
 * @param at where the household stands in the body; empty when it is the body
 * @throws RefusedError 422 with every such field
 */
export async function requireKnownAvoids(
  store: DocumentStore,
  household: HouseholdDocument,
  at: Path = [],
): Promise<void> {
  const named = household.people.flatMap((person, index) =>
    (person.avoids ?? []).map((foodId, nth) => ({ foodId, at: [...at, 'people', index, 'avoids', nth] })),
  );
  const foods = named.filter(({ foodId }) => !(ALLERGENS as readonly string[]).includes(foodId));
  const errors = unknownFoods(foods, foods.length === 0 ? [] : await ownFoodsOf(store));
  refuseFaults(errors.map((error) => ({ ...error, detail: `Neither an allergen nor a food. ${error.detail}` })));
}
