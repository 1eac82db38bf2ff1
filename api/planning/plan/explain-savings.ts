/** The steps behind what each choice of a dish saves: the dish worked out once more with that choice undone. */
import type { ExplanationStep } from '../../cooking/calculators/calculator-types.ts';
import { listeningCalculations } from '../../cooking/calculators/listening-calculations.ts';
import { explainDish } from '../../cooking/derivations/explain-dish.ts';
import { isCommon } from '../../cooking/derivations/explained-dish.ts';
import { identifierOf, type StepList, stepsBehind } from '../../cooking/derivations/explanation-steps.ts';
import { computeMethod, type MethodBasis } from '../../cooking/dishes/cooking-methods.ts';
import { isRefusal } from '../../cooking/dishes/dish.ts';
import type { Kit } from '../../cooking/dishes/kit.ts';
import type { SourceRef } from '../../physics/parameter.ts';
import type { Cooking, Plan, Saving } from '../plan-types.ts';
import { round } from '../rounding.ts';
import { addBand } from './explain-bands.ts';
import { undoneChoices } from './savings.ts';

const THE_OTHER_WAY: SourceRef = {
  key: 'planner-derivation',
  place: 'what the other way takes less what the planned way takes; below nothing where the choice costs',
};
/** Two ways through the same arithmetic, of what the dish takes. */
const SAME = 1e-9;

/**
 * Adds `boxSavedKg` (kWh for electricity) and `boxSavedL` of a dish, and so for each other choice: fuel and water of the
 * other way less those of the planned way. What the other way rests on begins with `boxUndone`, save what is the same for
 * the planned way. What does not come out as it was printed stands as printed.
 * @param list the steps of the dish up to its fuel
 * @param fuel the step of the fuel of the dish, which is to follow
 */
export function addSavings(
  list: StepList,
  plan: Pick<Plan, 'versions'>,
  kit: Kit,
  cooking: Cooking,
  fuel: ExplanationStep,
): void {
  const { basis, saves, servings } = cooking;
  const asPrinted = `as printed in the plan by version ${plan.versions.program}`;
  for (const saving of saves) {
    const name = identifierOf(saving.choice);
    const undone = basis && undoneChoices(kit, basis.choice).find((one) => one.choice === saving.choice);
    const otherBasis = basis && undone && { ...basis, choice: undone.as };
    const other = otherBasis === undefined || fuel.inputs.length === 0 ? [] : explainDish(kit, servings, otherBasis);
    const taken = other.at(-1);
    if (
      basis === undefined ||
      otherBasis === undefined ||
      taken === undefined ||
      Math.abs(difference(taken, fuel) - saving.fuelKg.p50) > SAME * Number(fuel.value)
    ) {
      list.fact(`${name}SavedKg`, saving.fuelKg.p50, fuel.unit, asPrinted, THE_OTHER_WAY);
      list.fact(`${name}SavedL`, saving.waterL, 'L', asPrinted, THE_OTHER_WAY);
      continue;
    }
    const wanted = new Set([...stepsBehind(other, taken.quantity), ...stepsBehind(other, 'waterTotalL')]);
    const here = list.include(
      // Under a name of its own: it is not what the dish takes.
      other
        .filter((step) => wanted.has(step))
        .map((step) => (step === taken ? { ...step, quantity: 'burnsKg' } : step)),
      { prefix: `${name}Undone`, plain: isCommon },
    );
    addBand(list, `${name}SavedKg`, saving.fuelKg, fuel.unit, 'both ways at the same end');
    list.computed(
      `${name}SavedKg`,
      saving.fuelKg.p50,
      fuel.unit,
      `${here('burnsKg')} - ${fuel.relation}`,
      THE_OTHER_WAY,
    );
    const ways = { kit, servings, basis, other: otherBasis, otherName: here('waterTotalL') };
    addWater(list, name, saving, ways, asPrinted);
  }
}

function difference(taken: ExplanationStep, fuel: ExplanationStep): number {
  return Number(taken.value) - Number(fuel.value);
}

/** Water of the other way less that of the planned way, each to hundredths of a litre as the saving is printed. */
function addWater(
  list: StepList,
  name: string,
  saving: Saving,
  ways: { kit: Kit; servings: number; basis: MethodBasis; other: MethodBasis; otherName: string },
  asPrinted: string,
): void {
  const { calculations } = listeningCalculations();
  const litresOf = ({ choice, surroundings, storage }: MethodBasis): number => {
    const method = computeMethod(ways.kit, ways.servings, choice, surroundings, storage, calculations);
    return isRefusal(method) ? Number.NaN : round(method.waterL, 2);
  };
  // The sum in the step before it is rounded to thousandths: rounded twice it would not be the same.
  const sumBehind = (quantity: string): string | undefined =>
    /^round\((.+), 3\)$/.exec(list.steps.find((step) => step.quantity === quantity)?.relation ?? '')?.[1];
  const [others, own] = [sumBehind(ways.otherName), sumBehind('waterTotalL')];
  const saved = litresOf(ways.other) - litresOf(ways.basis);
  if (others !== undefined && own !== undefined && Math.abs(saved - saving.waterL) <= SAME)
    list.computed(`${name}SavedL`, saving.waterL, 'L', `round(${others}, 2) - round(${own}, 2)`, THE_OTHER_WAY);
  else list.fact(`${name}SavedL`, saving.waterL, 'L', asPrinted, THE_OTHER_WAY);
}
