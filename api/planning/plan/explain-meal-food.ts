/** The steps behind the food energy and the protein of a meal: each food of a set from its row, over servings eaten. */
import type { ExplanationStep } from '../../cooking/calculators/calculator-types.ts';
import { identifierOf, type StepList, stepList } from '../../cooking/derivations/explanation-steps.ts';
import type { Kit } from '../../cooking/dishes/kit.ts';
import { foodOf } from '../../cooking/foods/foods-table.ts';
import type { SourceRef } from '../../physics/parameter.ts';
import type { Cooking, Plan, PlannedMeal } from '../plan-types.ts';

const THE_KIT: SourceRef = { key: 'planner-derivation', place: 'the kit' };
const THE_SUM: SourceRef = { key: 'planner-derivation', place: 'servings eaten, dish by dish' };

/**
 * Adds `mealEnergyKcal` and `mealProteinG` of a meal.
 * @param cookings of the meal's dishes; a kit that the plan no longer knows leaves the figures as printed
 */
export function addMealFood(
  list: StepList,
  plan: Pick<Plan, 'resolved' | 'versions'>,
  meal: PlannedMeal,
  cookings: readonly Cooking[],
): void {
  const energy: string[] = [];
  const protein: string[] = [];
  let kcal = 0;
  let grams = 0;
  for (const [index, cooking] of cookings.entries()) {
    const kit = plan.resolved.kits.find(({ id }) => id === cooking.kitId);
    if (kit === undefined) return;
    const of = cookings.length === 1 ? 'set' : identifierOf(`${cooking.kitId}-set`);
    const perSet = setFood(kit);
    if (!list.steps.some((step) => step.quantity === `${of}EnergyKcal`))
      list.include(perSet.steps, { prefix: of, plain: () => false });
    const eaten = `dish${index + 1}EatenServings`;
    const { keptFor } = cooking;
    const kept = keptFor?.servings ?? 0;
    const servings = keptFor?.meal === meal.id ? kept : cooking.servings - kept;
    list.fact(eaten, servings, '1', `servings of ${cooking.kitName} that are for this meal`, THE_SUM);
    energy.push(`${eaten} * ${of}EnergyKcal / ${of}KitServings`);
    protein.push(`${eaten} * ${of}ProteinG / ${of}KitServings`);
    kcal += (servings * perSet.kcal) / kit.servings;
    grams += (servings * perSet.proteinG) / kit.servings;
  }
  if (energy.length === 0) return;
  const asPrinted = `as printed in the plan by version ${plan.versions.program}`;
  const settle = (quantity: string, printed: number, unit: string, value: number, terms: readonly string[]): void => {
    if (Math.round(value) === printed)
      list.computed(quantity, printed, unit, `round(${terms.join(' + ')}, 0)`, THE_SUM);
    else list.fact(quantity, printed, unit, asPrinted, THE_SUM);
  };
  settle('mealEnergyKcal', meal.energyKcal, 'kcal', kcal, energy);
  settle('mealProteinG', meal.proteinG, 'g', grams, protein);
}

/** Energy and protein of one set: mass times the row of each food, foods of several parts together. */
function setFood(kit: Kit): { steps: ExplanationStep[]; kcal: number; proteinG: number } {
  const list = stepList();
  list.fact('kitServings', kit.servings, '1', 'servings of one set', THE_KIT);
  const ingredients = kit.parts.flatMap((part) => part.ingredients);
  const energy: string[] = [];
  const protein: string[] = [];
  let kcal = 0;
  let proteinG = 0;
  for (const foodId of new Set(ingredients.map((ingredient) => ingredient.foodId))) {
    const all = ingredients.filter((ingredient) => ingredient.foodId === foodId);
    const food = foodOf(all[0] as (typeof all)[number]);
    if (food === undefined) continue;
    const name = identifierOf(foodId);
    const massG = all.reduce((sum, ingredient) => sum + ingredient.massG, 0);
    list.fact(`${name}KitG`, massG, 'g', `${food.name}, in one set`, THE_KIT);
    list.row(`${name}KcalPer100G`, food.kcalPer100G, 'table of foods');
    list.row(`${name}ProteinGPer100G`, food.proteinGPer100G, 'table of foods');
    energy.push(`${name}KitG / 100 * ${name}KcalPer100G`);
    protein.push(`${name}KitG / 100 * ${name}ProteinGPer100G`);
    kcal += (massG / 100) * food.kcalPer100G.value;
    proteinG += (massG / 100) * food.proteinGPer100G.value;
  }
  list.computed('energyKcal', kcal, 'kcal', energy.join(' + ') || '0 * kitServings', THE_KIT);
  list.computed('proteinG', proteinG, 'g', protein.join(' + ') || '0 * kitServings', THE_KIT);
  return { steps: list.steps, kcal, proteinG };
}
