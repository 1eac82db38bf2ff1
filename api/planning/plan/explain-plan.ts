/** The derivation of each meal of a plan, from the plan's own snapshot. */
import type { ExplanationStep } from '../../cooking/calculators/calculator-types.ts';
import { explainDish, explainNoHeat } from '../../cooking/derivations/explain-dish.ts';
import { identifierOf, stepList } from '../../cooking/derivations/explanation-steps.ts';
import type { Cooking, Plan, PlannedMeal } from '../plan-types.ts';
import { addWithBands } from './explain-bands.ts';
import { addEatBy } from './explain-eat-by.ts';
import { addMealFood } from './explain-meal-food.ts';
import { addSavings } from './explain-savings.ts';
import { explainTotals } from './explain-totals.ts';

/** A meal with its derivation; the last step of each of its dishes is the fuel of that dish. */
export type ExplainedMeal = PlannedMeal & { explanation: ExplanationStep[] };

/** One meal of a plan with the cookings of its dishes. */
export type MealOfPlan = PlannedMeal & { cookings: Cooking[]; explanation?: ExplanationStep[] };

/** A plan whose meals carry their derivations, and itself that of its `comparison`. */
export type ExplainedPlan = Omit<Plan, 'meals'> & { meals: ExplainedMeal[]; explanation: ExplanationStep[] };

type Snapshot = Pick<Plan, 'resolved' | 'cookings' | 'versions' | 'request'>;

/**
 * The steps behind a meal: its food energy and protein, then dish after dish; quantities of a meal of several dishes begin with the id of the kit.
 * @param plan the plan, as it was made
 * @param meal a meal of that plan
 * @returns no steps for a meal without dishes
 */
export function explainMeal(plan: Snapshot, meal: PlannedMeal): ExplanationStep[] {
  const cookings = cookingsOf(plan, meal);
  const [only] = cookings;
  const list = stepList();
  addMealFood(list, plan, meal, cookings);
  if (cookings.length === 1 && only !== undefined) return [...list.steps, ...explainDishOfMeal(plan, meal, only)];
  for (const cooking of cookings)
    list.include(explainDishOfMeal(plan, meal, cooking), { prefix: identifierOf(cooking.kitId) });
  return list.steps;
}

/** The plan with the derivation of every meal and of its comparison. */
export function explainPlan(plan: Plan): ExplainedPlan {
  const meals = plan.meals.map((meal) => ({ ...meal, explanation: explainMeal(plan, meal) }));
  return { ...plan, meals, explanation: explainTotals(plan) };
}

/** One meal with the cookings of its dishes; null where the plan has no such meal. */
export function mealOfPlan(
  plan: Snapshot & Pick<Plan, 'meals'>,
  id: string,
): (PlannedMeal & { cookings: Cooking[] }) | null {
  const meal = plan.meals.find((candidate) => candidate.id === id);
  return meal === undefined ? null : { ...meal, cookings: cookingsOf(plan, meal) };
}

function cookingsOf({ cookings }: Snapshot, meal: PlannedMeal): Cooking[] {
  return meal.dishes.flatMap(({ cookingId }) => cookings.find(({ id }) => id === cookingId) ?? []);
}

/** The steps of a dish with what its choices save, and its eat-by time in that meal; the fuel stays last. */
function explainDishOfMeal(plan: Snapshot, meal: PlannedMeal, cooking: Cooking): ExplanationStep[] {
  const steps = explainCooking(plan, cooking);
  const last = steps.at(-1);
  if (last === undefined) return steps;
  const list = stepList();
  addWithBands(list, steps.slice(0, -1), cooking);
  const kit = plan.resolved.kits.find(({ id }) => id === cooking.kitId);
  if (kit !== undefined) addSavings(list, plan, kit, cooking, last);
  addEatBy(list, plan, meal, cooking);
  addWithBands(list, [last], cooking);
  return list.steps;
}

/** Two ways through the same arithmetic. */
const SAME = 1e-9;

function explainCooking({ resolved, versions }: Snapshot, cooking: Cooking): ExplanationStep[] {
  const kit = resolved.kits.find(({ id }) => id === cooking.kitId);
  if (kit === undefined) return [];
  const steps =
    cooking.method.finish === 'no-heat'
      ? explainNoHeat(kit, cooking.servings)
      : cooking.basis === undefined
        ? []
        : explainDish(kit, cooking.servings, cooking.basis);
  const [fuel] = cooking.fuel;
  const printed = (fuel?.kWh ?? fuel?.kg)?.p50 ?? 0;
  const last = steps.at(-1)?.value;
  if (typeof last === 'number' && Math.abs(last - printed) <= SAME * Math.abs(printed)) return steps;
  if (fuel === undefined && cooking.basis !== undefined) {
    const free = stepList();
    // Nor is it compared with what costs nothing either.
    free.include(
      steps.filter(({ quantity }) => !/^(usual|careful)MJ$/.test(quantity)),
      {
        prefix: 'asIfLit',
        plain: () => true,
      },
    );
    for (const quantity of ['usualMJ', 'carefulMJ'])
      free.computed(quantity, cooking.fuelMJ.p50, 'MJ', 'dishFuelMJ', {
        key: 'planner-derivation',
        place: 'the stove burns in any case: any way costs the same',
      });
    free.fact('fuelThatCounts', 0, 'kg', 'the stove burns for heating in any case: what stands on it costs no fuel');
    return free.steps;
  }
  // The tables of today are not those of the plan, or it kept nothing to work it out from: what it printed stands.
  const list = stepList();
  list.include(steps, {
    prefix: 'today',
    plain: (quantity) => quantity !== 'dishFuelKg' && quantity !== 'dishFuelKWh',
  });
  list.fact(
    fuel?.kWh === undefined ? 'dishFuelKg' : 'dishFuelKWh',
    printed,
    fuel?.kWh === undefined ? 'kg' : 'kWh',
    `as printed in the plan by version ${versions.program}, from the tables of that version`,
  );
  return list.steps;
}
