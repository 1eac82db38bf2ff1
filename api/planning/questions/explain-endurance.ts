/** The steps behind how long stores last: the days, and fuel and water of each point of the curve. */
import type { ExplanationStep } from '../../cooking/calculators/calculator-types.ts';
import { identifierOf, stepList } from '../../cooking/derivations/explanation-steps.ts';
import type { SourceRef } from '../../physics/parameter.ts';
import type { Demand } from '../programme/serve-question.ts';
import { round } from '../rounding.ts';
import type { PreparedWeek } from '../week/prepared-week.ts';
import type { weekUses } from '../week/week-amounts.ts';
import type { DaysServed, Endurance } from './endurance.ts';
import type { EndurancePoint } from './endurance-curve.ts';
import { addWeek, listed, SOLVED_AGAIN, settle } from './explain-week.ts';

const THE_STORES: SourceRef = { key: 'planner-derivation', place: 'the stores of the household' };
const THE_NEEDS: SourceRef = { key: 'planner-derivation', place: 'the needs of the household on these days' };

/** The days: one less than the least number that is too many, where that was found out; else as far as was found. */
export function explainDays(
  { fed, fedHot }: Pick<Endurance, 'fed' | 'fedHot'>,
  byArithmetic: number,
): ExplanationStep[] {
  const list = stepList();
  const arithmetic = 'most days by water for people, animals and washing, and by servings in store, 90 at most';
  list.fact('arithmeticDays', byArithmetic, 'd', arithmetic, THE_STORES);
  const add = (quantity: string, found: DaysServed, what: string) => {
    const sure = found.planFound ? 'put on days' : 'by counts only';
    list.fact(`${quantity}SolvedAgain`, sure, '', `a plan of ${found.days} days in which ${what}`, SOLVED_AGAIN);
    if (found.noMorePossible && found.atMost === found.days) {
      const tooMany = `proven: in no plan of so many days ${what}`;
      list.fact(`${quantity}TooManyDays`, found.days + 1, 'd', tooMany, SOLVED_AGAIN);
      list.computed(quantity, found.days, 'd', `${quantity}TooManyDays - 1`, SOLVED_AGAIN);
    } else {
      const open = `the longest that was found; ${found.atMost} days is the most that is not ruled out`;
      list.fact(quantity, found.days, 'd', open, SOLVED_AGAIN);
    }
  };
  add('daysFed', fed, 'everybody is fed');
  add('daysFedHot', fedHot, 'every meal is hot that should be');
  return list.steps;
}

/**
 * The steps of a point of the curve.
 * @param water litres for people, animals and washing on these days, and all on hand and promised for them
 */
export function explainEndurancePoint(
  prepared: PreparedWeek,
  counts: Parameters<typeof weekUses>[1],
  point: EndurancePoint,
  demand: Demand | null,
  { people, onHandL }: { people: number; onHandL: number },
): ExplanationStep[] {
  const list = stepList();
  const { days } = point;
  const served = { fed: 'everybody fed', 'fed-hot': 'everybody fed and every meal hot that should be' };
  const aim = demand === null ? 'fed as far as can be' : served[demand];
  list.fact(
    'solvedAgain',
    'by counts',
    '',
    `the plan of ${days} ${days === 1 ? 'day' : 'days'}, ${aim}, then with the least of what is scarcest`,
    SOLVED_AGAIN,
  );
  list.fact('servingsShort', point.servingsShort, '1', 'servings that nothing is left for', SOLVED_AGAIN);
  addWeek(list, '', prepared, counts);
  for (const { fuelId, usedKg, leftKg } of point.fuel) {
    const own = identifierOf(fuelId);
    const unit = fuelId === 'electricity' ? 'kWh' : 'kg';
    const inAll = `${own}InAllKg`;
    settle(list, `${own}UsedKg`, usedKg.p50, unit, `round(${inAll}, 3)`, round(listed(list, inAll), 3));
    const fuel = prepared.situation.fuels[fuelId];
    const onHand = (fuel?.onHand ?? 0) + (fuel?.dailySupply ?? 0) * (days - 1);
    list.fact(`${own}HadKg`, onHand, unit, 'on hand and promised for these days', THE_STORES);
    const left = round(onHand - listed(list, inAll), 3);
    settle(list, `${own}LeftKg`, leftKg.p50, unit, `round(${own}HadKg - ${inAll}, 3)`, left);
  }
  list.fact('peopleL', people, 'L', 'drinks, hands and faces, animals, washing-up', THE_NEEDS);
  list.fact('hadL', onHandL, 'L', 'on hand and promised for these days', THE_STORES);
  const cookL = listed(list, 'planCookL');
  settle(list, 'usedL', point.waterL.used, 'L', 'round(peopleL + planCookL, 1)', round(people + cookL, 1));
  settle(
    list,
    'leftL',
    point.waterL.left,
    'L',
    'round(hadL - peopleL - planCookL, 1)',
    round(onHandL - people - cookL, 1),
  );
  return list.steps;
}
