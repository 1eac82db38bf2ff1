/** A dish whose steps are being written: its foods by name, and what they all share. */
import type { SourceRef } from '../../physics/parameter.ts';
import type { Asked } from '../calculators/listening-calculations.ts';
import type { DishMethod, MethodBasis } from '../dishes/cooking-methods.ts';
import { potFoods } from '../dishes/dish.ts';
import type { Ingredient, Kit } from '../dishes/kit.ts';
import type { Food } from '../foods/food.ts';
import { identifierOf, type StepList } from './explanation-steps.ts';

export const PRACTICE: SourceRef = { key: 'kitchenPractice', place: 'rule of this planner' };
export const KIT: SourceRef = { key: 'planner-derivation', place: 'the kit' };
export const PLACE: SourceRef = { key: 'planner-derivation', place: 'the place and its stores' };
export const HIGH_END: SourceRef = { key: 'planner-derivation', place: 'spread of all causes, added in quadrature' };

/** Figures that are the same for every food: they keep their names. */
const COMMON = new Set([
  'hydrationZK',
  'fullSoakHours',
  'fullSoakC',
  'hardSeedShare',
  'usualLPerKg',
  'lectinCountsFromC',
  'lectinMinutesAt100C',
  'lectinZK',
  'winterLowFactor',
  'lectinSoakHours',
  'lectinSoakShare',
]);

/** Whether a quantity is the same for every food, so that its name needs no food before it. */
export function isCommon(quantity: string): boolean {
  return COMMON.has(quantity);
}

/** One food of a dish. */
export interface DishRow {
  /** Name of the food as an identifier, with a number where it comes twice. */
  name: string;
  food: Food;
  ingredient: Ingredient;
  massG: number;
  soaked: boolean;
  /** Names here of the quantities of its soak and of its cooking time; absent where it has none. */
  inSoak?: (quantity: string) => string;
  inPot?: (quantity: string) => string;
}

/** A dish, what it was worked out from, and the list that its steps go to. */
export interface ExplainedDish {
  list: StepList;
  kit: Kit;
  servings: number;
  basis: MethodBasis;
  method: DishMethod;
  asked: Asked;
  rows: DishRow[];
}

/** The foods of a dish, named as identifiers. */
export function rowsOf(kit: Kit, servings: number, { needs }: DishMethod): DishRow[] {
  return plainRows(kit, servings, needs.soakedPartIds);
}

/** The same where nothing or only the named parts were soaked. */
export function plainRows(kit: Kit, servings: number, soakedPartIds: readonly string[] = []): DishRow[] {
  const seen = new Map<string, number>();
  return potFoods(kit).map(({ part, ingredient, food }) => {
    const times = (seen.get(food.id) ?? 0) + 1;
    seen.set(food.id, times);
    return {
      name: identifierOf(food.id) + (times === 1 ? '' : String(times)),
      food,
      ingredient,
      massG: ingredient.massG * (servings / kit.servings),
      soaked: soakedPartIds.includes(part.id),
    };
  });
}

/** Mass of each food in the dish, `...DishG`. */
export function addAmounts({
  list,
  kit,
  servings,
  rows,
}: Pick<ExplainedDish, 'list' | 'kit' | 'servings' | 'rows'>): void {
  list.fact('servings', servings, '1', 'servings cooked', KIT);
  list.fact('kitServings', kit.servings, '1', 'servings of one set', KIT);
  for (const { name, ingredient, massG } of rows) {
    list.fact(`${name}KitG`, ingredient.massG, 'g', 'in one set', KIT);
    list.computed(`${name}DishG`, massG, 'g', `${name}KitG * servings / kitServings`);
  }
}
