/** The button beside a figure of the whole plan, whose steps the plan itself carries when it is asked to explain. */
import type { ExplainedPlan, ExplanationStep, Limit, Plan } from '../api-types.ts';
import { html } from '../html.ts';
import type { Page } from '../page-state.ts';
import { HowButton } from './derivation.ts';

/**
 * @param of the figure in words
 * @param quantity its name among the steps of the plan
 * @param shown the figure, which is then the button itself
 */
export function PlanHow({ plan, of, quantity, shown }: { plan: Plan; of: string; quantity: string; shown?: string }) {
  return html`<${HowButton} of=${of} quantity=${[quantity]} shown=${shown} steps=${(page: Page) => stepsOfPlan(page, plan)} />`;
}

/** The steps behind the figures of a whole plan. */
export async function stepsOfPlan(page: Page, plan: Plan): Promise<ExplanationStep[]> {
  const { body } = await page.api.get<ExplainedPlan>(`/api/plans/${plan.id}?explain=1`);
  return body.explanation;
}

/** Name of a fuel or another limit among the steps: `canister-mix` as `canisterMix`. */
export function fuelAmongSteps(fuelId: string): string {
  return fuelId.replace(/[^A-Za-z0-9]+(.)/g, (_gap, letter: string) => letter.toUpperCase());
}

/** What the steps of a limit begin with: fires of the second day are `lightingsDay2Limit`. */
export function limitAmongSteps(plan: Plan, { limit, date }: Limit): string {
  const day = plan.energyByDay.findIndex((row) => row.date === date);
  return `${fuelAmongSteps(limit)}${date === null ? '' : `Day${day + 1}`}Limit`;
}
