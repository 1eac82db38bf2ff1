/** The steps behind the figures of one point of the curve between fuel and hot or varied meals. */
import type { ExplanationStep } from '../../cooking/calculators/calculator-types.ts';
import { identifierOf, stepList } from '../../cooking/derivations/explanation-steps.ts';
import type { LeastFuelWeek } from '../programme/least-fuel.ts';
import { round } from '../rounding.ts';
import type { PreparedWeek } from '../week/prepared-week.ts';
import { addWeek, listed, SOLVED_AGAIN, settle } from './explain-week.ts';
import type { TradeOffPoint } from './trade-off-point.ts';

/**
 * The steps of a point: what was solved again, each way that it takes, and the figures that are printed.
 * @param asked hot meals at least, and repeats at most (null: any number)
 */
export function explainPoint(
  prepared: PreparedWeek,
  week: LeastFuelWeek,
  point: TradeOffPoint,
  asked: { hotMeals: number; repeats: number | null },
): ExplanationStep[] {
  const list = stepList();
  const { days } = prepared.week;
  const allowed =
    asked.repeats === null
      ? 'any number of repeats'
      : `${asked.repeats} ${asked.repeats === 1 ? 'repeat' : 'repeats'} at most`;
  list.fact(
    'solvedAgain',
    point.onDays ? 'put on days' : 'by counts only',
    '',
    `the plan of ${days} days for the least fuel heat, fed as far as can be, with ${asked.hotMeals} ${asked.hotMeals === 1 ? 'hot meal' : 'hot meals'} at least and ${allowed}`,
    SOLVED_AGAIN,
  );
  list.fact('hotMeals', point.hotMeals, '1', 'meals that are hot, of those that should be', SOLVED_AGAIN);
  const repeats = point.onDays ? 'on the days that fit best' : 'not put on days in time: there may be more';
  list.fact('repeats', point.repeats, '1', `times that a dish comes again within two days, ${repeats}`, SOLVED_AGAIN);
  list.fact('servingsShort', point.servingsShort, '1', 'servings that nothing is left for', SOLVED_AGAIN);
  list.fact('energyShortPercent', point.energyShortPercent, '%', 'of what everybody needs', SOLVED_AGAIN);
  addWeek(list, '', { ...prepared, model: week.model }, week);
  const shares = ['waterShare'];
  for (const { fuelId, kg, share } of point.fuel) {
    const own = identifierOf(fuelId);
    const unit = fuelId === 'electricity' ? 'kWh' : 'kg';
    const inAll = `${own}InAllKg`;
    settle(list, `${own}UsedKg`, kg, unit, `round(${inAll}, 3)`, round(listed(list, inAll), 3));
    const used = `${own}UsedShare`;
    settle(list, `${own}PrintedShare`, share, '1', `round(${used}, 3)`, round(listed(list, used), 3));
    if (kg > 0) shares.push(used);
  }
  const largest = round(Math.max(...shares.map((name) => listed(list, name))), 3);
  settle(list, 'largestShare', point.largestShare, '1', `round(max(${shares.join(', ')}), 3)`, largest);
  settle(list, 'planMJ', point.fuelMJ.p50, 'MJ', 'round(planHeatMJ, 2)', round(listed(list, 'planHeatMJ'), 2));
  settle(list, 'cookL', point.waterL, 'L', 'round(planCookL, 1)', round(listed(list, 'planCookL'), 1));
  return list.steps;
}
