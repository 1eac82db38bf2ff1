/** The calculators, each with the steps behind its answer and where they come from. */
import { html } from '../html.ts';
import { BoilingPointCalculator } from './numbers-boiling.ts';
import { CookTimeCalculator, SoakingCalculator } from './numbers-cooking.ts';
import { CoolingCalculator, FuelUseCalculator } from './numbers-heat.ts';

export function NumbersView() {
  return html`
    <h1>Numbers</h1>
    <p class="hint">Each answer is a typical value with the range that 8 of 10 households will meet. “How this comes about” beside a figure shows every step and its source.</p>
    <${BoilingPointCalculator} />
    <${SoakingCalculator} />
    <${CookTimeCalculator} />
    <${FuelUseCalculator} />
    <${CoolingCalculator} />
  `;
}
