import { describe, expect, it } from 'vitest';
import type { MealSlot } from '../../api/cooking/dishes/kit.ts';
import { endsFirst } from '../../api/wording/ends-first.ts';
import { scheduleHtml } from '../../api/wording/print/schedule-html.ts';
import { planFixture } from './plan-fixture.ts';

/** The fixture with one kit of two parts in store and figures that can be summed by head. */
function planOf({
  sets,
  leftL,
  usedKg,
  suits = ['breakfast', 'midday', 'evening'],
}: {
  sets: number;
  leftL: number;
  usedKg: number;
  suits?: MealSlot[];
}) {
  const plan = planFixture();
  const [kit] = plan.resolved.kits;
  if (kit === undefined) throw new Error('the fixture has no kit');
  const lot = plan.resolved.stock.find((one) => one.kitId === kit.id);
  if (lot === undefined) throw new Error('the fixture has no stock of its first kit');
  plan.resolved = {
    ...plan.resolved,
    kits: [{ ...kit, servings: 10, suits }],
    stock: kit.parts.map((part) => ({ ...lot, partId: part.id, quantity: sets * (part.containersPerSet ?? 1) })),
  };
  plan.meals = plan.meals.map((meal) => ({ ...meal, servingsWanted: 10 / 3 }));
  // Everything is cooked over a fire.
  plan.cookings = plan.cookings.map((one) => ({ ...one, method: { ...one.method, finish: 'flame' } }));
  plan.fuel = plan.fuel.slice(0, 1).map((fuel) => ({
    ...fuel,
    budgetKg: 7,
    usedKg: { p10: usedKg / 2, p50: usedKg * 0.5, p90: usedKg },
    byDay: fuel.byDay.map((day) => ({ ...day, usedKg: { p10: 0, p50: (usedKg * 0.5) / 7, p90: usedKg / 7 } })),
  }));
  plan.water = { ...plan.water, byDay: plan.water.byDay.map((day) => ({ ...day, usedL: 10, leftL })) };
  return plan;
}

describe('what ends first at the pace of a plan of seven days', () => {
  // Seven days want 70 servings, 10 a day; water goes at 10 L a day.
  it('is the food where twelve sets of ten servings are the least', () => {
    expect(endsFirst(planOf({ sets: 12, leftL: 200, usedKg: 0.7 }))).toEqual({
      what: 'Food in store',
      days: 12,
      on: '2026-12-17',
    });
  });

  it('is the water where 30 L are left after seven days of 10 L', () => {
    expect(endsFirst(planOf({ sets: 12, leftL: 30, usedKg: 0.7 }))).toMatchObject({ what: 'Water', days: 10 });
  });

  it('is later where some water comes in by the day, and never where as much comes as goes', () => {
    const plan = planOf({ sets: 12, leftL: 30, usedKg: 0.7 });
    const supplied = (litres: number) => ({
      ...plan,
      resolved: {
        ...plan.resolved,
        household: { ...plan.resolved.household, water: { lots: [], dailySupply: { litres } } },
      },
    });
    // 30 L left after seven days, 7 L a day on balance: four whole days more.
    expect(endsFirst(supplied(3))).toMatchObject({ what: 'Water', days: 11 });
    expect(endsFirst(supplied(10))).toMatchObject({ what: 'Food in store', days: 12 });
  });

  it('is the fuel at its 90th percentile: 7 kg at 5 kg in seven days are nine whole days', () => {
    expect(endsFirst(planOf({ sets: 12, leftL: 30, usedKg: 5 }))).toMatchObject({ what: 'Wood', days: 9 });
  });

  it('is the food of one meal where what is in store suits the others', () => {
    // Everything suits breakfast and evening: midday has nothing.
    const plan = planOf({ sets: 12, leftL: 200, usedKg: 0.7, suits: ['breakfast', 'evening'] });
    expect(endsFirst(plan)).toMatchObject({ what: 'Food for midday', days: 0 });
    // Without midday meals 120 servings are eaten at 6.7 a day: eighteen days.
    const without = { ...plan, meals: plan.meals.filter((meal) => meal.slot !== 'midday') };
    expect(endsFirst(without)).toMatchObject({ what: 'Food for breakfast and evening', days: 18 });
  });

  it('is the food that needs no fire where the plan eats it fastest', () => {
    const plan = planOf({ sets: 2, leftL: 200, usedKg: 0.7 });
    const [kit] = plan.resolved.kits;
    // Two sets of ten servings; four servings of it are eaten cold each noon, and nothing else is wanted.
    const cookings = plan.cookings.map((cooking) => ({
      ...cooking,
      kitId: kit?.id ?? '',
      method: { ...cooking.method, finish: 'no-heat' as const },
    }));
    const meals = plan.meals
      .filter((meal) => meal.slot === 'midday')
      .map((meal) => ({ ...meal, servingsWanted: 1, dishes: meal.dishes.map((dish) => ({ ...dish, servings: 4 })) }));
    expect(endsFirst({ ...plan, cookings, meals })).toMatchObject({ what: 'Food that needs no fire', days: 5 });
  });

  it('counts a first day that begins in the evening as the meal that it has', () => {
    // One set feeds three meals of 3.3 servings: the evening of the first day, and two meals of the second.
    const plan = planOf({ sets: 1, leftL: 200, usedKg: 0.7 });
    const evening = plan.meals.filter((meal) => !meal.eatAt.startsWith('2026-12-05') || meal.slot === 'evening');
    expect(endsFirst({ ...plan, meals: evening })).toMatchObject({ what: 'Food in store', days: 1, on: '2026-12-06' });
  });

  it('is nothing where nothing is used', () => {
    const plan = planOf({ sets: 12, leftL: 30, usedKg: 0 });
    expect(endsFirst({ ...plan, meals: [], water: { onHandL: 100, byDay: [] } })).toBeNull();
  });
});

describe('the line of the first sheet', () => {
  const pagesOf = (html: string) => html.match(/<section class="card/g)?.length;

  it('says what ends first and what makes the fuel uncertain', () => {
    const plan = {
      ...planFixture(),
      spread: [
        { cause: 'wind', share: 0.3 },
        { cause: 'stove efficiency', share: 0.6 },
      ],
    };
    const html = scheduleHtml(plan, { units: 'metric', type: 'normal' });
    expect(html).toMatch(/<b>Going on:<\/b> At this pace [a-z ]+ ends first, about [A-Z][a-z]+day /);
    expect(html).toMatch(/how well the stove heats the pot \(60\u00a0%\)/);
  });

  it('costs no further page, in any type and however long what was assumed is', () => {
    for (const type of ['normal', 'large', 'compact'] as const) {
      for (let words = 0; words <= 400; words += 25) {
        const plan = planFixture();
        plan.short =
          words === 0
            ? []
            : [{ what: 'food', id: null, from: '2026-12-09', amount: 1, unit: 'servings', text: 'far '.repeat(words) }];
        const without = { ...plan, spread: [] };
        const lined = { ...plan, spread: [{ cause: 'wind', share: 1 }] };
        expect(pagesOf(scheduleHtml(lined, { units: 'metric', type }))).toBe(
          pagesOf(scheduleHtml(without, { units: 'metric', type })),
        );
      }
    }
  });
});
