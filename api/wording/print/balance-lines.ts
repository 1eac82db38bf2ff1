/** Fuel and water as lines and rows of the sheets: what to have, what to expect each morning, when to plan anew. */
import type { FuelBalance, Plan } from '../../planning/plan-types.ts';
import { fuelReadings, waterReading } from '../morning-readings.ts';
import { asHeading, fuelName } from '../names.ts';
import { fixed, NBSP, type Rounding, roundToStep, withFraction } from '../numbers.ts';
import { dateOf } from '../times.ts';
import { massBoth, massText, type UnitSystem, volumeBoth, volumeText } from '../units.ts';

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
  const text = (amount: number, unit: 'kg' | 'L', rounding: Rounding): string =>
    unit === 'kg' ? massText(amount, system, rounding) : volumeText(amount, system, rounding);
  return readings.map((reading) => ({
    name: reading.name,
    expect: text(reading.expected, reading.unit, 'nearest'),
    // Rounded up: a mark that is too low would be seen too late.
    replanBelow: text(reading.replanBelow, reading.unit, 'up'),
  }));
}

/** The day's water by use in one line, or null where the plan has no such day. */
export function waterLine(plan: Plan, date: string, system: UnitSystem): string | null {
  const day = plan.water.byDay.find((one) => one.date === date);
  if (day === undefined) return null;
  const uses: [string, number][] = [
    ['drink', day.drinkL],
    // The soak has its own row with its water.
    ['cook', day.cookL + day.soakL],
    ['washing', day.hygieneL],
    ['animals', day.animalsL],
  ];
  // One system only: what is read off one can, one scale.
  const short = (litres: number): string => volumeText(litres, system).replace('.0\u00a0', '\u00a0');
  const meals = plan.meals.filter((meal) => dateOf(meal.eatAt) === date && meal.dishes.length > 0).length;
  if (day.washL > 0.05) uses.splice(2, 0, ['dishes', day.washL]);
  const list = uses
    .filter(([, litres]) => litres > 0.05)
    .map(
      ([name, litres]) =>
        `${name} ${short(litres)}${name === 'dishes' && meals > 1 ? ` (${short(litres / meals)} a meal)` : ''}`,
    )
    .join(', ');
  return `Water today ${volumeText(day.usedL, system)}: ${list}.`;
}

/** What the day should take and leave, for the blanks at the foot of a card. */
export function expectedTonight(plan: Plan, date: string, system: UnitSystem): { fuel: string; water: string } {
  const fuels = plan.fuel.flatMap((fuel) => {
    const used = fuel.byDay.find((one) => one.date === date)?.usedKg.p50 ?? 0;
    if (fuel.fuelId === 'electricity' || used < 0.0005) return [];
    return [`${massText(used, system)} ${fuelName(fuel.fuelId)}`];
  });
  const water = plan.water.byDay.find((one) => one.date === date);
  return {
    fuel: fuels.join(', '),
    water: water === undefined ? '' : volumeText(water.leftL, system, 'down'),
  };
}

/** Fuel and water to have ready for the whole plan, one line each. */
export function readyLines(plan: Plan, system: UnitSystem): string[] {
  const lines = plan.fuel
    .filter((fuel) => fuel.onHandKg > 0 || fuel.usedKg.p90 > 0)
    .map((fuel) => {
      const name = asHeading(fuelName(fuel.fuelId));
      if (fuel.usedKg.p90 < 0.005) return `${name}: none needed. On hand ${massBoth(fuel.onHandKg, system, 'down')}.`;
      const containers = containerShares(fuel);
      return `${name}: set aside ${massBoth(fuel.usedKg.p90, system, 'up')} of ${massBoth(fuel.onHandKg, system, 'down')}${containers === null ? '' : `: ${containers}`}.`;
    });
  const used = plan.water.byDay.reduce((sum, day) => sum + day.usedL, 0);
  lines.push(
    `Water: set aside ${volumeBoth(used, system, 'up')} of ${volumeBoth(plan.water.onHandL, system, 'down')}.`,
  );
  return lines;
}

/** What is set aside of each fuel in containers, and fuels that are not needed: what the table of sums does not say. */
export function containerLines(plan: Plan): string[] {
  return plan.fuel.flatMap((fuel) => {
    const name = asHeading(fuelName(fuel.fuelId));
    if (fuel.usedKg.p90 < 0.005) return fuel.onHandKg > 0 ? [`${name}: none needed.`] : [];
    const containers = containerShares(fuel);
    return containers === null ? [] : [`${name}: set aside ${containers}.`];
  });
}

/**
 * What is set aside of a fuel in the containers that people own, opened one after the other, up to the next quarter:
 * "1¾ of 5 containers"; null where none are told apart.
 */
function containerShares({ containers = [], usedKg }: FuelBalance): string | null {
  let left = usedKg.p90;
  let used = 0;
  for (const { kg } of containers) {
    if (left <= 1e-6 || kg <= 0) break;
    used += Math.min(1, left / kg);
    left -= kg;
  }
  if (used === 0) return null;
  const share = withFraction(used, 'up');
  return containers.length === 1 ? `${share} of the container` : `${share} of ${containers.length} containers`;
}

/** Energy per person and day as one line, or null where nothing is known. */
export function energyLine(plan: Plan, date: string): string | null {
  const day = plan.energyByDay.find((one) => one.date === date);
  if (day === undefined || day.needKcal <= 0) return null;
  const share = roundToStep((day.kcal / day.needKcal) * 100, 1, 'down');
  return `Energy of the meals: ${fixed(roundToStep(day.kcal, 10))}${NBSP}kcal, ${fixed(share)}${NBSP}% of the need of ${fixed(roundToStep(day.needKcal, 10))}${NBSP}kcal.`;
}
