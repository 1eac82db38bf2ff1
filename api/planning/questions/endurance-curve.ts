/** The curve of days against fuel and water. */
import type { ExplanationStep } from '../../cooking/calculators/calculator-types.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import type { FuelId } from '../../physics/table-ids.ts';
import { type Demand, served } from '../programme/serve-question.ts';
import { countsOf } from '../programme/solve-week.ts';
import { round, sum } from '../rounding.ts';
import type { Solver } from '../solver.ts';
import type { PreparedWeek } from '../week/prepared-week.ts';
import { weekAmounts } from '../week/week-amounts.ts';
import { explainEndurancePoint } from './explain-endurance.ts';

/** Points of the curve at most. */
const MOST_POINTS = 12;

export interface EndurancePoint {
  days: number;
  lastDate: string;
  everybodyFed: boolean;
  everybodyFedHot: boolean;
  servingsShort: number;
  /** kg, kWh for electricity; `plannedKg` is what the plan is limited by (9 times in 10 no more). */
  fuel: { fuelId: FuelId; usedKg: Percentiles; leftKg: Percentiles; budgetKg: number; plannedKg: number }[];
  fuelMJ: Percentiles;
  waterL: { people: number; cooking: number; used: number; left: number };
  /** Where it was asked for: the steps behind its figures. */
  explanation?: ExplanationStep[];
}

/** The best plan of a number of days by counts: fed as far as can be, then with the least of what is scarcest. */
export async function pointOfCurve(
  prepared: PreparedWeek,
  days: number,
  longest: { fed: number; fedHot: number },
  solver: Solver,
  options: { timeLimitS: number; signal?: AbortSignal },
  explain = false,
): Promise<EndurancePoint | null> {
  const { model, situation, week } = prepared;
  const demand: Demand | null = days <= longest.fedHot ? 'fed-hot' : days <= longest.fed ? 'fed' : null;
  const settled = demand === null ? [] : demand === 'fed' ? ['feed-everyone'] : ['feed-everyone', 'hot-meals'];
  const counts = await countsOf(
    {
      ...model,
      programme: demand === null ? model.programme : served(model, demand),
      aims: model.aims.filter(({ name }) => name !== 'variety-then-tending' && !settled.includes(name)),
    },
    solver,
    options,
  );
  if (counts === null) return null;
  const amounts = weekAmounts(prepared, counts);
  const people = sum(situation.days, (day) => day.drinkL + day.hygieneL + day.animalsL + day.washL);
  const { safeL, treatL, notForFoodL } = situation.water;
  const onHandL = safeL + treatL + notForFoodL + situation.household.water.dailySupply.litres * (days - 1);
  const point: EndurancePoint = {
    days,
    lastDate: situation.days.at(-1)?.date ?? '',
    everybodyFed: demand !== null || amounts.servingsShort < 0.02,
    everybodyFedHot: demand === 'fed-hot',
    servingsShort: round(amounts.servingsShort, 1),
    fuel: Object.entries(amounts.fuel).map(([fuelId, used]) => {
      const fuel = situation.fuels[fuelId];
      const onHand = (fuel?.onHand ?? 0) + (fuel?.dailySupply ?? 0) * (days - 1);
      return {
        fuelId: fuelId as FuelId,
        usedKg: rounded(used, 3),
        leftKg: rounded({ p10: onHand - used.p90, p50: onHand - used.p50, p90: onHand - used.p10 }, 3),
        budgetKg: round(week.fuelByDay[fuelId]?.at(-1) ?? 0, 3),
        plannedKg: round(used.p90, 3),
      };
    }),
    fuelMJ: rounded(amounts.fuelMJ, 2),
    waterL: {
      people: round(people, 1),
      cooking: round(amounts.cookL, 1),
      used: round(people + amounts.cookL, 1),
      left: round(onHandL - people - amounts.cookL, 1),
    },
  };
  if (!explain) return point;
  return { ...point, explanation: explainEndurancePoint(prepared, counts, point, demand, { people, onHandL }) };
}

/** Which days the curve shows, the most telling first: the last that is fed, the one after, then ever finer between. */
export function curveDays(last: number, hot: number): number[] {
  const days = new Set([Math.max(1, last - 1), last, Math.max(1, hot), 1]);
  for (let parts = 2; parts <= 16 && days.size < MOST_POINTS; parts *= 2) {
    for (let part = 1; part < parts && days.size < MOST_POINTS; part += 1) {
      days.add(Math.max(1, Math.round((last * part) / parts)));
    }
  }
  return [...days];
}

function rounded({ p10, p50, p90 }: Percentiles, digits: number): Percentiles {
  return { p10: round(p10, digits), p50: round(p50, digits), p90: round(p90, digits) };
}
