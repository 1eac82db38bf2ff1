/** Fuel and water day by day with their sums, in one unit a line, so that a stranger can add them up again. */
import { kgToPounds, litresToGallons } from '../../physics/units.ts';
import type { Plan } from '../../planning/plan-types.ts';
import { asHeading, fuelName } from '../names.ts';
import { fixed, type Rounding, roundToStep } from '../numbers.ts';
import { dayName } from '../times.ts';
import type { UnitSystem } from '../units.ts';

/** Most days that fit side by side on a page. */
export const MOST_DAYS = 7;

export interface SumRow {
  /** "Wood, kg" */
  name: string;
  /** One figure a day as printed, then their sum, what is set aside and what is on hand. */
  cells: string[];
}

/**
 * The rows of the table: what each day is expected to take. The sum is that of the printed figures.
 * @param dates `YYYY-MM-DD`, the days of the plan
 */
export function sumRows(plan: Plan, dates: readonly string[], system: UnitSystem): SumRow[] {
  const rows = plan.fuel
    .filter((fuel) => fuel.fuelId !== 'electricity' && fuel.usedKg.p90 >= 0.005)
    .map((fuel) => {
      const used = dates.map((date) => fuel.byDay.find((day) => day.date === date)?.usedKg.p50 ?? 0);
      const inUnit = (kg: number) => (system === 'metric' ? kg : kgToPounds(kg));
      return row(
        `${asHeading(fuelName(fuel.fuelId))}, ${system === 'metric' ? 'kg' : 'lb'}`,
        used.map(inUnit),
        inUnit(fuel.usedKg.p90),
        inUnit(fuel.onHandKg),
        2,
      );
    });
  const litres = dates.map((date) => plan.water.byDay.find((day) => day.date === date)?.usedL ?? 0);
  const inUnit = (amount: number) => (system === 'metric' ? amount : litresToGallons(amount));
  const all = litres.reduce((sum, amount) => sum + amount, 0);
  if (all > 0) {
    const unit = system === 'metric' ? 'L' : 'gal';
    rows.push(row(`Water, ${unit}`, litres.map(inUnit), inUnit(all), inUnit(plan.water.onHandL), 1));
  }
  return rows;
}

function row(name: string, days: number[], setAside: number, onHand: number, decimals: number): SumRow {
  const step = 10 ** -decimals;
  const text = (amount: number, rounding: Rounding): string => fixed(roundToStep(amount, step, rounding), decimals);
  const sum = days.reduce((total, amount) => total + Math.round(amount / step), 0) * step;
  return {
    name,
    cells: [
      ...days.map((amount) => (amount < step / 2 ? '-' : text(amount, 'nearest'))),
      text(sum, 'nearest'),
      text(setAside, 'up'),
      text(onHand, 'down'),
    ],
  };
}

/** "Sat", ..., then the heads of the last three columns. */
export function sumHeads(dates: readonly string[]): string[] {
  return [...dates.map((date) => dayName(date).slice(0, 3)), 'In all', 'Set aside', 'On hand'];
}
