/** What a household would run out of first if it went on as in a plan. */
import type { MealSlot } from '../cooking/dishes/kit.ts';
import type { Plan } from '../planning/plan-types.ts';
import { asHeading, fuelName } from './names.ts';
import { addDays, dateOf } from './times.ts';

export interface EndsFirst {
  /** `Water`, `Propane`, `Food for midday`. */
  what: string;
  /** Whole days that it lasts from the start of the plan, those of the plan included. */
  days: number;
  /** The first date that it does not last for, `YYYY-MM-DD`. */
  on: string;
}

type Snapshot = Pick<Plan, 'request' | 'resolved' | 'meals' | 'cookings' | 'fuel' | 'water'>;

interface Pace {
  what: string;
  days: number;
}

/** Beyond this nobody plans, days. */
const FAR_OFF_DAYS = 730;
const SLOTS: readonly MealSlot[] = ['breakfast', 'midday', 'evening'];

/**
 * What ends first at the pace of the plan: fuel at its 90th percentile against its budget, water against all there is,
 * servings in store that suit a meal against servings wanted, dishes without a fire as the plan eats them. A sum over
 * means, not a plan: it says where to look; the days that can be fed are another question.
 * @param plan any plan; its first day may be a part of one
 * @returns null where nothing is used at all, or nothing ends within two years
 */
export function endsFirst(plan: Snapshot): EndsFirst | null {
  const [first] = [...fuelPaces(plan), ...waterPace(plan), ...foodPaces(plan), ...noFirePace(plan)].sort(
    (a, b) => a.days - b.days,
  );
  if (first === undefined || first.days > FAR_OFF_DAYS) return null;
  const days = Math.max(0, Math.floor(first.days + 1e-6));
  return { what: first.what, days, on: addDays(dateOf(plan.request.startsAt), days) };
}

/**
 * Days that an amount lasts.
 * @param amount what there is to the end of the plan, with what comes in by the day
 * @param byDay what each day of the plan takes; the first may be a part of a day
 * @param supply what comes in by the day and goes on coming
 */
function daysOf(amount: number, byDay: readonly number[], supply = 0): number {
  const [first = 0, ...others] = byDay;
  const later = others.length === 0 ? first : total(others) / others.length;
  const left = amount - total(byDay);
  if (left < 0) return amount < first ? amount / first : 1 + (amount - first) / later;
  return later - supply <= 1e-9 ? Number.POSITIVE_INFINITY : byDay.length + left / (later - supply);
}

function fuelPaces({ fuel, resolved }: Snapshot): Pace[] {
  return fuel.flatMap(({ fuelId, budgetKg, usedKg, byDay }) => {
    if (usedKg.p90 <= 1e-6) return [];
    const store = resolved.household.fuels?.find((one) => one.fuelId === fuelId);
    const careful = usedKg.p50 > 0 ? usedKg.p90 / usedKg.p50 : 1;
    const days = daysOf(
      budgetKg,
      byDay.map((day) => day.usedKg.p50 * careful),
      fuelId === 'electricity' ? (store?.dailySupplyKWh ?? 0) : (store?.dailySupplyKg ?? 0),
    );
    return [{ what: asHeading(fuelName(fuelId)), days }];
  });
}

function waterPace({ water, resolved }: Snapshot): Pace[] {
  const used = water.byDay.map((day) => day.usedL);
  if (total(used) <= 1e-6) return [];
  // What is left and what was used together hold what comes in by the day as well.
  return [
    {
      what: 'Water',
      days: daysOf(
        total(used) + Math.max(0, water.byDay.at(-1)?.leftL ?? 0),
        used,
        resolved.household.water?.dailySupply?.litres,
      ),
    },
  ];
}

/**
 * For every set of meal slots the kits that suit any of them bound the days: with three slots, seven sums, of which the
 * least is exact.
 */
function foodPaces({ resolved, request, meals }: Snapshot): Pace[] {
  const kits = resolved.kits.filter((kit) => request.kitIds == null || request.kitIds.includes(kit.id));
  const days = Math.max(1, request.days);
  const paces: Pace[] = [];
  for (let chosen = 1; chosen < 2 ** SLOTS.length; chosen += 1) {
    const slots = SLOTS.filter((_, at) => (chosen >> at) % 2 === 1);
    // Wanted in a whole day, and what of it the first or last day of the plan did not ask for.
    let wanted = 0;
    let notAsked = 0;
    for (const slot of slots) {
      const own = meals.filter((meal) => meal.slot === slot);
      if (own.length === 0) continue;
      const mealDays = new Set(own.map((meal) => dateOf(meal.eatAt))).size;
      const aDay = total(own.map((meal) => meal.servingsWanted)) / mealDays;
      wanted += aDay;
      notAsked += aDay * (days - mealDays);
    }
    if (wanted <= 1e-6) continue;
    const held = total(
      kits
        .filter((kit) => kit.suits.some((slot) => slots.includes(slot)))
        .map((kit) => kit.servings * setsOf(kit, resolved.stock)),
    );
    const what = slots.length === SLOTS.length ? 'Food in store' : `Food for ${slots.join(' and ')}`;
    paces.push({ what, days: (held + notAsked) / wanted });
  }
  return paces;
}

/** Dishes without a fire, where the plan eats some day by day: fires are few, and what needs none goes first. */
function noFirePace({ resolved, request, meals, cookings }: Snapshot): Pace[] {
  const cold = new Map(
    cookings.filter(({ method }) => method.finish === 'no-heat').map((cooking) => [cooking.id, cooking.kitId]),
  );
  const start = dateOf(request.startsAt);
  const eaten = Array.from({ length: Math.max(1, request.days) }, (_, day) =>
    total(
      meals
        .filter((meal) => dateOf(meal.eatAt) === addDays(start, day))
        .flatMap((meal) => meal.dishes.filter((dish) => cold.has(dish.cookingId)).map((dish) => dish.servings)),
    ),
  );
  if (total(eaten) <= 1e-6) return [];
  const kitIds = new Set(cold.values());
  const held = total(
    resolved.kits
      .filter((kit) => kit.madeFrom === undefined && (kitIds.has(kit.id) || kit.style === 'no-cook'))
      .filter((kit) => request.kitIds == null || request.kitIds.includes(kit.id))
      .map((kit) => kit.servings * setsOf(kit, resolved.stock)),
  );
  return [{ what: 'Food that needs no fire', days: daysOf(held, eaten) }];
}

function setsOf(kit: Plan['resolved']['kits'][number], stock: Plan['resolved']['stock']): number {
  // A part that stands in for another begins with its id (cooking/dishes/part-choices.ts, which the page does not load).
  const isFor = (partId: string, lotPartId: string) => lotPartId === partId || lotPartId.startsWith(`${partId}-with-`);
  const sets = kit.parts.map(
    (part) =>
      total(stock.filter((lot) => lot.kitId === kit.id && isFor(part.id, lot.partId)).map((lot) => lot.quantity)) /
      (part.containersPerSet ?? 1),
  );
  return sets.length === 0 ? 0 : Math.max(0, Math.min(...sets));
}

function total(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}
