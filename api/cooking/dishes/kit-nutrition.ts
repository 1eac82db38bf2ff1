/** What a kit feeds: energy, protein, salt and allergens, from its recipe and the food tables. */
import { InvalidInputError } from '../../physics/errors.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import { ALLERGENS, type Allergen, type Food } from '../foods/food.ts';
import { foodOf, type NamedFood } from '../foods/foods-table.ts';
import { alternativeOf, type Ingredient, type Kit } from './kit.ts';

export interface KitNutrition {
  kcalPerServing: number;
  proteinGPerServing: number;
  /** Low and high of the energy: the foods' own bands, taken as moving together (the same table, the same lot). */
  kcalBandPerServing: Percentiles;
  /** Salt put in as such, in broth powder and in own foods whose label says; what tins bring is in no table, so this is a lower bound. */
  saltGPerServing: number;
  /** Mass of one set as stored, g. */
  dryMassG: number;
  /** Water in it as stored, g: part of `dryMassG`. */
  storedWaterG: number;
  /** In the order of the list of allergens, those of alternatives not included. */
  allergens: Allergen[];
  /** Allergens that only an alternative would bring in. */
  allergensOfAlternatives: Allergen[];
}

const PER_100_G = 100;

/** The food that counts as salt. */
const SALT_ID = 'salt';

/**
 * Adds up one set of a kit: `sum m / 100 * (value per 100 g)`, divided by its servings.
 *
 * Source: the composition rows of the foods (mostly USDA SR28). Masses are those of a whole set; water and fuel add
 * nothing, and what leaves with poured-away soak or pasta water is not taken off.
 * @param kit its recipe, masses in g >= 0, servings > 0
 * @returns energy in kcal, protein and salt in g, all per serving; masses of one set in g
 * @throws InvalidInputError for a food that no table holds, a negative mass or no servings
 */
export function kitNutrition(kit: Pick<Kit, 'servings' | 'parts'>): KitNutrition {
  if (!(kit.servings > 0))
    throw new InvalidInputError('servings', kit.servings, 'give the servings of one set, above 0');
  const rows = kit.parts.flatMap((part) =>
    part.ingredients.map((ingredient) => ({ ingredient, food: knownFood(ingredient), share: shareOf(ingredient) })),
  );
  const sum = (value: (food: Food) => number): number =>
    rows.reduce((total, row) => total + row.share * value(row.food), 0);
  const kcal = sum((food) => food.kcalPer100G.value);
  const allergens = allergensOf(rows.map((row) => row.food));
  const alternatives = allergensOf(
    rows.flatMap((row) =>
      (row.ingredient.alternatives ?? []).map((foodId) => knownFood(alternativeOf(row.ingredient, foodId))),
    ),
  );
  return {
    kcalPerServing: kcal / kit.servings,
    proteinGPerServing: sum((food) => food.proteinGPer100G.value) / kit.servings,
    kcalBandPerServing: {
      p10: sum((food) => food.kcalPer100G.p10) / kit.servings,
      p50: kcal / kit.servings,
      p90: sum((food) => food.kcalPer100G.p90) / kit.servings,
    },
    saltGPerServing: sum((food) => (food.id === SALT_ID ? PER_100_G : (food.saltGPer100G?.value ?? 0))) / kit.servings,
    dryMassG: sum(() => PER_100_G),
    storedWaterG: sum((food) => food.waterGPer100G.value),
    allergens,
    allergensOfAlternatives: alternatives.filter((allergen) => !allergens.includes(allergen)),
  };
}

/**
 * Which of a person's `avoids` a kit contains.
 * @param avoids food ids and allergens
 * @returns those that an ingredient is or brings, in the order given; alternatives are not counted
 * @throws InvalidInputError for a food that no table holds
 */
export function avoidedIn(kit: Pick<Kit, 'parts'>, avoids: readonly string[]): string[] {
  const foods = kit.parts.flatMap((part) => part.ingredients.map(knownFood));
  const contained = new Set<string>(foods.flatMap((food) => [food.id, ...food.allergens]));
  return avoids.filter((avoided) => contained.has(avoided));
}

function knownFood(named: NamedFood): Food {
  const food = foodOf(named);
  if (food === undefined)
    throw new InvalidInputError('foodId', named.foodId, 'use a food of the list, or the one most like it');
  return food;
}

function shareOf(ingredient: Ingredient): number {
  if (!(ingredient.massG >= 0)) {
    throw new InvalidInputError(`${ingredient.foodId}.massG`, ingredient.massG, 'give a mass of 0 g or more');
  }
  return ingredient.massG / PER_100_G;
}

function allergensOf(foods: readonly Food[]): Allergen[] {
  return ALLERGENS.filter((allergen) => foods.some((food) => food.allergens.includes(allergen)));
}
