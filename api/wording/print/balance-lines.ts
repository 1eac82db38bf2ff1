/** Fuel and water as lines and rows of the sheets: what to have, what to expect each morning, when to plan anew. */
import type { Plan } from '../../planning/plan-types.ts';
import { fuelReadings, waterReading } from '../morning-readings.ts';
import { asHeading, fuelName } from '../names.ts';
import { fixed, NBSP, roundToStep } from '../numbers.ts';
import { massBoth, quantityText, type UnitSystem, volumeBoth, volumeText } from '../units.ts';

export interface BalanceRow {
  name: string;
  expect: string;
  replanBelow: string;
}

/**
 * What to weigh and measure on a morning, with the expected reading and the mark below which to plan anew.
 * @param date `YYYY-MM-DD`
 */
export function morningBalance(plan: Plan, date: string, system: UnitSystem): BalanceRow[] {
  const water = waterReading(plan, date);
  const readings = [...fuelReadings(plan, date), ...(water === null ? [] : [water])];
  return readings.map((reading) => ({
    name: reading.name,
    expect: quantityText(reading.expected, reading.unit, system),
    // Rounded up: a mark that is too low would be seen too late.
    replanBelow: quantityText(reading.replanBelow, reading.unit, system, 'up'),
  }));
}

/** The day's water by use in one line, or null where the plan has no such day. */
export function waterLine(plan: Plan, date: string, system: UnitSystem): string | null {
  const day = plan.water.byDay.find((one) => one.date === date);
  if (day === undefined) return null;
  const uses: [string, number][] = [
    ['drink', day.drinkL],
    ['cook', day.cookL],
    ['soak', day.soakL],
    ['wash up', day.washL],
    ['hygiene', day.hygieneL],
    ['animals', day.animalsL],
  ];
  const list = uses
    .filter(([, litres]) => litres > 0.05)
    .map(([name, litres]) => `${name} ${volumeText(litres, system)}`)
    .join(', ');
  return `Water today ${volumeBoth(day.usedL, system)}: ${list}. Left tonight: ${volumeBoth(day.leftL, system, 'down')}.`;
}

/** Fuel and water to have ready for the whole plan, one line each. */
export function readyLines(plan: Plan, system: UnitSystem): string[] {
  const lines = plan.fuel
    .filter((fuel) => fuel.onHandKg > 0 || fuel.usedKg.p90 > 0)
    .map((fuel) => {
      const name = asHeading(fuelName(fuel.fuelId));
      if (fuel.usedKg.p90 < 0.005) return `${name}: none needed. On hand ${massBoth(fuel.onHandKg, system, 'down')}.`;
      return `${name}: set aside ${massBoth(fuel.usedKg.p90, system, 'up')} of ${massBoth(fuel.onHandKg, system, 'down')}.`;
    });
  const used = plan.water.byDay.reduce((sum, day) => sum + day.usedL, 0);
  lines.push(
    `Water: set aside ${volumeBoth(used, system, 'up')} of ${volumeBoth(plan.water.onHandL, system, 'down')}.`,
  );
  return lines;
}

/** Energy per person and day as one line, or null where nothing is known. */
export function energyLine(plan: Plan, date: string): string | null {
  const day = plan.energyByDay.find((one) => one.date === date);
  if (day === undefined || day.needKcal <= 0) return null;
  const share = roundToStep((day.kcal / day.needKcal) * 100, 1, 'down');
  return `Energy of the meals: ${fixed(roundToStep(day.kcal, 10))}${NBSP}kcal, ${fixed(share)}${NBSP}% of the need of ${quantityText(roundToStep(day.needKcal, 10), 'kcal', 'metric')}.`;
}
