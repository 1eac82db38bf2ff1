/**
 * The steps behind the four sums that a plan is compared by (its own heat, the usual way, a careful cook, the floor) and
 * behind its balances of fuel and water, its limits, and the figures of the household's own that it uses.
 */
import type { ExplanationStep } from '../../cooking/calculators/calculator-types.ts';
import { explainLearned } from '../../cooking/derivations/explain-learned.ts';
import { type StepList, stepList } from '../../cooking/derivations/explanation-steps.ts';
import { resolveHousehold } from '../../cooking/household/resolve-household.ts';
import { STOVE_TYPES } from '../../physics/stoves-table.ts';
import type { Cooking, Plan } from '../plan-types.ts';
import { round } from '../rounding.ts';
import { addBalances, type PlanWithBalances, THE_MEALS } from './explain-balances.ts';
import { addLimits } from './explain-limits.ts';

/** Name of each sum among the steps, by its name in `comparison`. */
const SUMS = {
  planMJ: 'planMJ',
  usualMJ: 'planUsualMJ',
  carefulCookMJ: 'planCarefulMJ',
  floorMJ: 'planFloorMJ',
} as const;

/**
 * The steps behind `comparison`, each dish as its meal explains it and each lighting as the table of stoves has it, and
 * behind the balances and limits. A sum that does not come out as it was printed, of a plan made with other tables, stands as printed.
 */
export function explainTotals(plan: PlanWithBalances & Pick<Plan, 'comparison'>): ExplanationStep[] {
  const list = stepList();
  const { stoves } = resolveHousehold(plan.resolved.household).household;
  const burnsAnyway = ({ method }: Cooking) =>
    plan.lightings.find(({ id }) => id === method.lightingId)?.burnsAnyway === true;
  const startUpOf = startUps(list, stoves);
  const terms: Record<keyof typeof SUMS, string[]> = { planMJ: [], usualMJ: [], carefulCookMJ: [], floorMJ: [] };
  const most = mostUsedStove(plan.cookings.filter((cooking) => !burnsAnyway(cooking)));
  for (const [index, cooking] of plan.cookings.entries()) {
    // What costs nothing in any case is not compared; what is eaten as it is costs nobody anything.
    const fired = cooking.method.finish !== 'no-heat';
    if (burnsAnyway(cooking) || (!fired && cooking.usualMJ <= 0)) continue;
    const name = `dish${index + 1}`;
    const words = (what: string) => `${cooking.kitName}, ready ${cooking.doneAt.replace('T', ' ')}: ${what}`;
    const add = (sum: keyof typeof SUMS, quantity: string, value: number, what: string) => {
      list.fact(name + quantity, value, 'MJ', words(what), THE_MEALS);
      terms[sum].push(name + quantity);
    };
    if (fired) {
      add('planMJ', 'FuelMJ', cooking.fuelMJ.p50, 'as planned');
      add('floorMJ', 'FloorMJ', cooking.floorMJ, 'the least that physics allows');
    }
    add('usualMJ', 'UsualMJ', cooking.usualMJ, 'the usual way');
    add('carefulCookMJ', 'CarefulMJ', cooking.carefulMJ, 'a careful cook');
    const lit = startUpOf(fired ? cooking.method.stoveId : most);
    if (lit === null) continue;
    terms.usualMJ.push(lit);
    terms.carefulCookMJ.push(lit);
  }
  for (const lighting of plan.lightings) {
    const lit = lighting.burnsAnyway === true ? null : startUpOf(lighting.stoveId);
    if (lit !== null) terms.planMJ.push(lit);
  }
  const asPrinted = `as printed in the plan by version ${plan.versions.program}`;
  for (const sum of Object.keys(SUMS) as (keyof typeof SUMS)[])
    addSum(list, SUMS[sum], plan.comparison[sum], terms[sum], asPrinted);
  addBalances(list, plan);
  addLimits(list, plan);
  for (const [index, { figure }] of (plan.resolved.learned ?? []).entries())
    list.include(explainLearned(figure), { prefix: `own${index + 1}` });
  return list.steps;
}

function addSum(list: StepList, quantity: string, printed: number, terms: readonly string[], asPrinted: string): void {
  const listedMJ = (name: string) => Number(list.steps.find((step: ExplanationStep) => step.quantity === name)?.value);
  const sum = terms.reduce((total, name) => total + listedMJ(name), 0);
  if (terms.length > 0 && round(sum, 2) === printed)
    list.computed(quantity, printed, 'MJ', `round(${terms.join(' + ')}, 2)`);
  else list.fact(quantity, printed, 'MJ', asPrinted, THE_MEALS);
}

/** Lists the start-up of a stove when it is first asked for; null where it takes none. */
function startUps(
  list: StepList,
  stoves: ReturnType<typeof resolveHousehold>['household']['stoves'],
): (stoveId: string | null) => string | null {
  return (stoveId) => {
    const index = stoves.findIndex(({ id }) => id === stoveId);
    const stove = stoves[index];
    if (stove === undefined) return null;
    const { startUpMJ } = STOVE_TYPES[stove.typeId];
    if (startUpMJ.p90 <= 0) return null;
    const quantity = `stove${index + 1}StartUpMJ`;
    if (!list.steps.some((step) => step.quantity === quantity))
      list.row(quantity, startUpMJ, `${stove.name}, each time that it is lit`);
    return quantity;
  };
}

/** Stove, fuel and pot of most dishes: what is eaten cold is compared with a fire there. */
function mostUsedStove(cookings: readonly Cooking[]): string | null {
  const counts = new Map<string, { stoveId: string | null; count: number }>();
  for (const { method, fuel } of cookings) {
    if (method.finish === 'no-heat') continue;
    const key = `${method.stoveId} ${fuel[0]?.fuelId} ${method.vesselId}`;
    counts.set(key, { stoveId: method.stoveId, count: (counts.get(key)?.count ?? 0) + 1 });
  }
  return [...counts.values()].sort((a, b) => b.count - a.count)[0]?.stoveId ?? null;
}
