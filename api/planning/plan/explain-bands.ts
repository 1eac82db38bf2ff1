/** Low and high end beside a typical figure, and what brings the spread. */
import type { ExplanationStep } from '../../cooking/calculators/calculator-types.ts';
import { HIGH_END } from '../../cooking/derivations/explained-dish.ts';
import type { StepList } from '../../cooking/derivations/explanation-steps.ts';
import type { Percentiles, SpreadShare } from '../../physics/parameter.ts';
import type { Cooking } from '../plan-types.ts';

/**
 * Lists the 10th and the 90th percentile of a figure, as `...Low` and `...High`, before the figure itself.
 * @param quantity name of the figure
 * @param causes what brings the spread, in words
 */
export function addBand(
  list: StepList,
  quantity: string,
  { p10, p90 }: Percentiles,
  unit: string,
  causes: string,
): void {
  if (Math.abs(p90 - p10) < 1e-9) return;
  list.fact(`${quantity}Low`, Math.min(p10, p90), unit, `1 time in 10 less; ${causes}`, HIGH_END);
  list.fact(`${quantity}High`, Math.max(p10, p90), unit, `1 time in 10 more; ${causes}`, HIGH_END);
}

/**
 * `spread by stove efficiency 57 %, wind 14 %`
 * @param spread causes of the spread, largest first; empty: not told apart
 */
export function causesInWords(spread: readonly SpreadShare[]): string {
  const parts = spread
    .filter(({ share }) => share >= 0.01)
    .map(({ cause, share }) => `${cause} ${Math.round(share * 100)} %`);
  return parts.length === 0 ? 'every cause at its ends in turn' : `spread by ${parts.join(', ')}`;
}

/** Adds the steps of a dish with the low and the high end before its fuel, its minutes to the boil and at the boil. */
export function addWithBands(list: StepList, steps: readonly ExplanationStep[], cooking: Cooking): void {
  const [fuel] = cooking.fuel;
  const bands: Readonly<Record<string, Percentiles | null | undefined>> = {
    boilMinutes: cooking.method.boilMinutes,
    dishMinutesToBoil: cooking.method.minutesToBoil,
    dishFuelKg: fuel?.kg,
    dishFuelKWh: fuel?.kWh,
  };
  for (const step of steps) {
    const band = bands[step.quantity];
    if (band != null)
      addBand(
        list,
        step.quantity,
        band,
        step.unit,
        causesInWords(/Fuel/.test(step.quantity) ? (cooking.spread ?? []) : []),
      );
    list.steps.push(step);
  }
}
