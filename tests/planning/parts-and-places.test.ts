/** Plans from stock in parts, at several places, with parts that may stand in for others. */
import { describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import { standInId } from '../../api/cooking/dishes/part-choices.ts';
import { replanInput } from '../../api/planning/bookings/replan.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import { makePlan } from '../../api/planning/make-plan.ts';
import type { PlanDraft, PlanRequest, StockEntry } from '../../api/planning/plan-types.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { calendarEvents } from '../../api/wording/calendar-events.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import { household, places } from './small-household.ts';

const solver = await createInThreadSolver();

const STEW: Kit = {
  id: 'pulse-stew',
  name: 'Pulse stew',
  servings: 2,
  style: 'stew',
  suits: ['evening'],
  parts: [
    {
      id: 'pulses',
      name: 'Split peas',
      soakable: true,
      containersPerSet: 2,
      ingredients: [{ foodId: 'split-pea', massG: 200, alternatives: ['lentil-red'] }],
    },
    { id: 'seasoning', name: 'Seasoning', ingredients: [{ foodId: 'bouillon-powder', massG: 15 }] },
    { id: 'freeze-dried', name: 'Freeze-dried peas', ingredients: [{ foodId: 'fd-peas', massG: 40 }] },
  ],
};
const TWO_PLACES = household({
  places: [...places({}), { ...places({})[0], id: 'shed', name: 'Shed' } as ReturnType<typeof places>[number]],
});

const packed = (partId: string, placeId: string, quantity: number, packedOn = '2024-03-01'): StockEntry => ({
  id: `${partId}-${placeId}-${packedOn}`,
  kitId: STEW.id,
  partId,
  placeId,
  packedOn,
  quantity,
  reason: 'packed',
  at: `${packedOn}T10:00`,
});

async function plan(stock: StockEntry[], own: Partial<PlanRequest> = {}): Promise<PlanDraft> {
  const made = await makePlan(
    {
      request: { householdId: TWO_PLACES.id, startsAt: '2026-12-05T07:00', days: 2, timeLimitS: 10, ...own },
      household: TWO_PLACES,
      kits: [STEW],
      stock,
    },
    { solver, now: Date.UTC(2026, 11, 5, 6), id: 'plan-1', programVersion: '0' },
  );
  expect(checkPlan(made)).toEqual([]);
  return made;
}

const LENTILS = standInId('pulses', 'lentil-red');
const SPLIT_UP = [
  packed('pulses', 'home', 2),
  packed('seasoning', 'home', 1),
  packed('freeze-dried', 'home', 2),
  packed('pulses', 'shed', 2),
  packed('seasoning', 'shed', 1),
];

describe('a plan for a place', () => {
  it('uses only what makes sets there, and says that the other meal is short', async () => {
    const made = await plan(SPLIT_UP);
    expect(made.cookings.map((cooking) => cooking.batches)).toEqual([1]);
    expect(new Set(made.cookings.flatMap((cooking) => cooking.takes.map((take) => take.placeId)))).toEqual(
      new Set(['home']),
    );
    expect(made.outcome).toBe('short');
    expect(makeSchedule(made).some((step) => step.action === 'fetch')).toBe(false);
  });

  it('makes sets of what lies at both where it may be carried, and says what is fetched, when and for what', async () => {
    const made = await plan(SPLIT_UP, { carryFrom: ['shed'] });
    expect(made.outcome).toBe('complete');
    const carried = made.cookings.flatMap((cooking) => cooking.takes).filter((take) => take.placeId === 'shed');
    expect(carried.map((take) => [take.partId, take.quantity])).toEqual([
      ['pulses', 2],
      ['seasoning', 1],
    ]);
    const fetch = makeSchedule(made).filter((step) => step.action === 'fetch');
    expect(fetch.length).toBeGreaterThan(0);
    expect(fetch[0]?.text).toBe('Fetch from the shed, for the pulse stew.');
    const bags = fetch.flatMap((step) => step.quantities);
    expect(bags.map((one) => [one.what, one.amount, one.unit])).toEqual([
      ['split peas, packed 2024-03-01', 2, 'bag'],
      ['seasoning, packed 2024-03-01', 1, 'bag'],
    ]);
    for (const step of fetch) expect(step.at <= (step.latestAt ?? '')).toBe(true);
    // A calendar reminds of it.
    const reminders = calendarEvents({ ...made, schedule: makeSchedule(made) }, 'metric');
    expect(reminders.map((event) => event.summary)).toContain('Fetch from the shed, for the pulse stew');
    expect(new Set(reminders.map((event) => event.uid)).size).toBe(reminders.length);
  });
});

describe('parts that may stand in', () => {
  it('cooks a set of each kind, each with its own figures, and counts the shared parts once', async () => {
    const stock = [
      packed('pulses', 'home', 2),
      packed(LENTILS, 'home', 2, '2022-01-01'),
      packed('seasoning', 'home', 2),
      packed('freeze-dried', 'home', 3),
    ];
    const made = await plan(stock);
    expect(made.outcome).toBe('complete');
    expect(made.cookings.map((cooking) => cooking.kitName).sort()).toEqual([
      'Pulse stew',
      'Pulse stew (with red split lentils)',
    ]);
    const swapped = made.cookings.find((cooking) => cooking.kitId !== STEW.id);
    expect(swapped?.takes.map((take) => [take.partId, take.packedOn])).toContainEqual([LENTILS, '2022-01-01']);
    expect(swapped?.method.additions.map((one) => one.foodId)).toContain('lentil-red');
    // The schedule says which one is taken.
    const words = makeSchedule(made).flatMap((step) => step.quantities.map((one) => one.what));
    expect(words.some((what) => what.includes('red split lentils'))).toBe(true);
    // One bag of seasoning less: one set less, of the kind with the younger bags.
    const fewer = await plan(stock.map((one) => (one.partId === 'seasoning' ? { ...one, quantity: 1 } : one)));
    expect(fewer.cookings.map((cooking) => cooking.kitName)).toEqual(['Pulse stew (with red split lentils)']);
  });

  it('stand in the plan that goes on from it, and what was taken of them is not there again', async () => {
    const stock = [
      packed('pulses', 'home', 2),
      packed(LENTILS, 'home', 2, '2022-01-01'),
      packed('seasoning', 'home', 2),
      packed('freeze-dried', 'home', 2),
    ];
    const first = { ...(await plan(stock)), schedule: [] };
    const request = { householdId: TWO_PLACES.id, startsAt: '2026-12-05T21:00', days: 2, timeLimitS: 10 };
    const input = { request: { ...request, replaces: first.id }, household: TWO_PLACES, kits: [STEW], stock };
    const { input: next } = replanInput(input, first, []);
    const eaten = first.cookings.find((cooking) => cooking.startsAt < request.startsAt);
    expect(next.continues?.taken.map((line) => [line.kitId, line.partId]).sort()).toEqual(
      (eaten?.takes ?? []).map((take) => [STEW.id, take.partId]).sort(),
    );
    const second = await makePlan(next, { solver, now: Date.UTC(2026, 11, 5, 20), id: 'plan-2', programVersion: '0' });
    expect(checkPlan(second)).toEqual([]);
    expect(second.continues?.wall).toMatchObject({ dishes: 1, kept: 1 });
    expect(second.cookings.map((cooking) => cooking.kitId)).toEqual(
      first.cookings.filter((cooking) => cooking.startsAt > request.startsAt).map((cooking) => cooking.kitId),
    );
  });

  it('may be pinned by the name of the kit', async () => {
    const stock = [packed(LENTILS, 'home', 2), packed('seasoning', 'home', 1), packed('freeze-dried', 'home', 1)];
    const made = await plan(stock, { days: 1, pinned: [{ meal: '2026-12-05-evening', kitId: STEW.id }] });
    expect(made.cookings.map((cooking) => cooking.kitName)).toEqual(['Pulse stew (with red split lentils)']);
  });
});

it('takes a lot that an inspection put first before older ones', async () => {
  const stock = [
    packed('pulses', 'home', 2, '2019-01-01'),
    packed('pulses', 'home', 2, '2025-01-01'),
    packed('seasoning', 'home', 1),
    packed('freeze-dried', 'home', 1),
  ];
  const mark = { ...(stock[1] as StockEntry), id: 'mark', quantity: 0, reason: 'counted', useFirst: true } as const;
  const made = await plan([...stock, mark], { days: 1 });
  const pulses = made.cookings.flatMap((cooking) => cooking.takes).filter((take) => take.partId === 'pulses');
  expect(pulses.map((take) => take.packedOn)).toEqual(['2025-01-01']);
});

describe('the demonstration dish', () => {
  const { household: sample, kits, stock } = demoDocuments('2026-12-05');
  const chowder = 'pea-sweetcorn-chowder';
  const evenings = sample.meals?.filter((meal) => meal.id === 'evening') ?? [];
  const planned = (carryFrom: string[]) =>
    makePlan(
      {
        request: {
          householdId: sample.id,
          startsAt: '2026-12-05T15:00',
          days: 3,
          timeLimitS: 10,
          kitIds: [chowder],
          carryFrom,
        },
        household: { ...sample, meals: evenings },
        kits,
        stock,
      },
      { solver, now: Date.UTC(2026, 11, 5, 20), id: 'plan-1', programVersion: '0' },
    );

  it('feeds one evening from the house alone, three with what is fetched from the cellar, one of them with lentils', async () => {
    const alone = await planned([]);
    expect(checkPlan(alone)).toEqual([]);
    expect(alone.cookings.reduce((sum, cooking) => sum + cooking.batches, 0)).toBeCloseTo(1, 3);
    expect(alone.outcome).toBe('short');
    const carried = await planned(['earth-cellar']);
    expect(checkPlan(carried)).toEqual([]);
    expect(carried.cookings.reduce((sum, cooking) => sum + cooking.batches, 0)).toBeCloseTo(3, 3);
    expect(carried.outcome).toBe('complete');
    const names = carried.cookings.map((cooking) => cooking.kitName).sort();
    expect(names.filter((name) => name.endsWith('(with brown or green lentils)'))).toHaveLength(1);
    const fetched = makeSchedule(carried).filter((step) => step.action === 'fetch');
    expect(fetched.every((step) => step.text.startsWith('Fetch from the earth cellar'))).toBe(true);
    expect(fetched.flatMap((step) => step.quantities).map((one) => one.what)).toContain(
      'brown or green lentils, packed 2020-10-30',
    );
  });
});
