import { beforeAll, describe, expect, it } from 'vitest';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import type { PlanDraft } from '../../api/planning/plan-types.ts';
import { type Endurance, findEndurance } from '../../api/planning/questions/endurance.ts';
import type { Solver } from '../../api/planning/solver.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import {
  COUSCOUS_BOWL,
  EVENING,
  household,
  inputFor,
  LENTIL_SOUP,
  MIDDAY,
  planFor,
  propane,
  RICE,
  type Sets,
  START,
  stockOf,
  water,
} from './small-household.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await createInThreadSolver();
});

function enduranceOf(document: HouseholdDocument, sets: Sets, days?: number, timeLimitS = 60): Promise<Endurance> {
  return findEndurance(inputFor(document, sets, { timeLimitS, ...(days === undefined ? {} : { days }) }), {
    solver,
    clock: { now: () => performance.now() },
  });
}

const isFed = (plan: PlanDraft) => plan.meals.every((meal) => meal.servingsShort < 0.02);
const isHot = (plan: PlanDraft) =>
  isFed(plan) && plan.meals.every((meal) => !meal.hotWanted || meal.dishes.some((dish) => dish.hot));

/** Two adults drink 2 L each a day and keep clean with 2 L each; washing up after the one meal takes half a litre each. */
const DRINK_AND_HYGIENE_L = 8;
const WASHING_UP_L = 1;
/** The first day begins at 07:00. */
const FIRST_DAY = 17 / 24;

describe('the last day that can be fed, against plans made one after the other', () => {
  const weeks: [name: string, document: HouseholdDocument, sets: Sets][] = [
    [
      'kits end it',
      household(),
      [
        [LENTIL_SOUP, 2],
        [RICE, 1],
      ],
    ],
    [
      'fuel ends the hot meals, not the food',
      household({ fuels: propane(0.12) }),
      [
        [LENTIL_SOUP, 1],
        [RICE, 2],
        [COUSCOUS_BOWL, 1],
      ],
    ],
    [
      'water ends it',
      household({ water: water({ lots: [{ id: 'cans', litres: 40, quality: 'safe', temperatureC: 10 }] }) }),
      [
        [LENTIL_SOUP, 3],
        [RICE, 3],
      ],
    ],
    [
      'cold food carries on',
      household({ fuels: propane(0.05) }),
      [
        [RICE, 2],
        [COUSCOUS_BOWL, 2],
      ],
    ],
  ];
  it.each(weeks)(
    '%s: feasible up to the last day, and not on the day after',
    async (_name, document, sets) => {
      const found = await enduranceOf(document, sets);
      expect(found.fed.noMorePossible).toBe(true);
      expect(found.fedHot.noMorePossible).toBe(true);
      const fed: boolean[] = [];
      const hot: boolean[] = [];
      for (let days = 1; days <= found.fed.days + 2; days += 1) {
        const plan = await planFor(solver, document, sets, { days });
        // A plan takes energy before hot meals; whether all could be hot is asked without energy, so that it can only say more.
        fed.push(isFed(plan));
        hot.push(isHot(plan));
      }
      // Monotone: once a number of days cannot be fed, no longer one can.
      expect(fed).toEqual(fed.map((_, at) => at < found.fed.days));
      hot.forEach((isAllHot, at) => {
        if (isAllHot) expect(at + 1).toBeLessThanOrEqual(found.fedHot.days);
      });
      expect(found.fed.planFound).toBe(found.fed.days > 0);
    },
    60_000,
  );

  it('are weeks that end for different reasons', async () => {
    const ends = await Promise.all(
      weeks.map(async ([, document, sets]) => (await enduranceOf(document, sets)).endsFed),
    );
    expect(new Set(ends.map((end) => end?.alone[0]?.limit))).toEqual(new Set(['sets', 'water', 'propane']));
  }, 60_000);
});

describe('what ends it', () => {
  it('names the kits, how many are missing, and the first day that is not fed', async () => {
    const found = await enduranceOf(household(), [
      [LENTIL_SOUP, 2],
      [RICE, 1],
    ]);
    expect(found.fed).toMatchObject({ days: 3, lastDate: '2026-12-07', planFound: true, noMorePossible: true });
    expect(found.endsFed).toMatchObject({ days: 4, date: '2026-12-08', possible: false });
    expect(found.endsFed?.alone).toEqual([
      {
        limit: 'sets',
        amount: 1,
        unit: 'sets',
        text: expect.stringMatching(/^1 more set, such as (Lentil soup|Rice with carrots)$/),
      },
    ]);
    expect(found.text[0]).toBe('Everybody can be fed for 3 days, until the evening of 2026-12-07.');
  });

  it('keeps water for people of every day first: as many days as they alone can drink', async () => {
    const document = household({
      water: water({ lots: [{ id: 'cans', litres: 28, quality: 'safe', temperatureC: 10 }] }),
    });
    const peopleL = (days: number) => DRINK_AND_HYGIENE_L * (days - 1 + FIRST_DAY) + WASHING_UP_L * days;
    const found = await enduranceOf(document, [[COUSCOUS_BOWL, 9]]);
    for (const point of found.curve) expect(point.waterL.people).toBeCloseTo(peopleL(point.days), 1);
    // 24.7 L for people on three days leave 3.3 L to cook with; four days ask for 33.7 L.
    expect(found.fed.days).toBe(3);
    expect(found.endsFed?.alone.map(({ limit }) => limit)).toEqual(['water']);
    const cookL = (found.curve.find(({ days }) => days === 3)?.waterL.cooking as number) / 3;
    // Rounded up to a tenth of a litre; the curve is rounded to a tenth too.
    const missingL = peopleL(4) + 4 * cookL - 28;
    expect(Math.abs((found.endsFed?.alone[0]?.amount as number) - missingL)).toBeLessThan(0.25);
  });

  it('counts hot meals apart: fuel ends them before the food ends', async () => {
    const sets: Sets = [
      [RICE, 4],
      [COUSCOUS_BOWL, 4],
    ];
    const little = await enduranceOf(household({ fuels: propane(0.06) }), sets);
    expect(little.fed.days).toBeGreaterThan(little.fedHot.days);
    expect(little.endsFedHot?.alone[0]?.limit).toBe('propane');
    expect(little.text.join(' ')).toMatch(/after that some are cold|not even on the first day/);
    // What is said to be missing suffices, and half of it does not.
    const end = little.endsFedHot as NonNullable<Endurance['endsFedHot']>;
    const kg = end.alone[0]?.amount as number;
    const more = await enduranceOf(household({ fuels: propane(0.06 + kg) }), sets);
    expect(more.fedHot.days).toBeGreaterThanOrEqual(end.days);
    const half = await enduranceOf(household({ fuels: propane(0.06 + kg / 2) }), sets);
    expect(half.fedHot.days).toBe(little.fedHot.days);
  });

  it('ends at ninety days where nothing ends it', async () => {
    const endless = household({
      water: water({ lots: [{ id: 'lake', litres: 5000, quality: 'safe', temperatureC: 10 }] }),
      meals: [{ ...EVENING, hot: 'optional' }],
    });
    const found = await enduranceOf(endless, [[COUSCOUS_BOWL, 200]]);
    expect(found.fed).toMatchObject({ days: 90, planFound: true });
    expect(found.endsFed).toBeNull();
    expect(found.text[0]).toBe('Everybody can be fed for 90 days, the longest that is planned.');
  }, 60_000);
});

describe('what is missing to reach a number of days', () => {
  const document = household({
    fuels: propane(0.1),
    water: water({ lots: [{ id: 'cans', litres: 42, quality: 'safe', temperatureC: 10 }] }),
  });
  const sets: Sets = [
    [RICE, 3],
    [LENTIL_SOUP, 1],
  ];

  it('says of several things together how much of each, and so much suffices', async () => {
    const found = await enduranceOf(document, sets, 6);
    const missing = found.reverse?.fed;
    expect(missing).toMatchObject({ possible: false, alone: [], complete: true });
    const amountOf = (limit: string) => missing?.together.find((thing) => thing.limit === limit)?.amount ?? 0;
    expect(amountOf('sets')).toBe(2);
    expect(amountOf('water')).toBeGreaterThan(10);
    const richer = household({
      fuels: propane(0.1 + amountOf('propane')),
      water: water({ lots: [{ id: 'cans', litres: 42 + amountOf('water'), quality: 'safe', temperatureC: 10 }] }),
    });
    const plan = await planFor(
      solver,
      richer,
      [
        [RICE, 5],
        [LENTIL_SOUP, 1],
      ],
      { days: 6 },
    );
    const other = await planFor(
      solver,
      richer,
      [
        [RICE, 3],
        [LENTIL_SOUP, 3],
      ],
      { days: 6 },
    );
    expect(isFed(plan) || isFed(other)).toBe(true);
    expect(missing?.text).toMatch(/^No single thing would do. Together these would: .* and /);
  });

  it('says that nothing is missing where the days are fed', async () => {
    const found = await enduranceOf(document, sets, 2);
    expect(found.reverse).toMatchObject({ days: 2, lastDate: '2026-12-06', fed: { possible: true, alone: [] } });
  });
});

describe('the curve', () => {
  it('uses more of everything the longer it is, and what is used and left adds up to what is there', async () => {
    const found = await enduranceOf(household(), [
      [LENTIL_SOUP, 4],
      [RICE, 3],
    ]);
    expect(found.curve.map(({ days }) => days)).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    for (const [at, point] of found.curve.entries()) {
      const [fuel] = point.fuel as [(typeof point.fuel)[number]];
      expect(fuel.usedKg.p10).toBeLessThan(fuel.usedKg.p50);
      expect(fuel.usedKg.p50).toBeLessThan(fuel.usedKg.p90);
      // Rounded to grams.
      expect(fuel.usedKg.p50 + fuel.leftKg.p50).toBeCloseTo(2, 2);
      expect(point.waterL.used + point.waterL.left).toBeCloseTo(120, 0);
      expect(point.everybodyFed).toBe(at < 7);
      const before = found.curve[at - 1];
      if (before === undefined || !point.everybodyFed) continue;
      expect(point.waterL.used).toBeGreaterThan(before.waterL.used);
      // Each is the least within half a per cent of what is scarcest.
      expect(point.fuelMJ.p50).toBeGreaterThan(before.fuelMJ.p50 * 0.98);
    }
  });

  it('agrees with the plan that is made for so many days', async () => {
    const sets: Sets = [
      [LENTIL_SOUP, 2],
      [RICE, 1],
    ];
    const found = await enduranceOf(household(), sets);
    const plan = await planFor(solver, household(), sets, { days: 3 });
    const point = found.curve.find(({ days }) => days === 3);
    const limit = (name: string) => plan.limits.find((row) => row.limit === name)?.used as number;
    // The plan closes its aims within half a per cent; amounts are rounded to grams.
    expect(point?.fuel[0]?.plannedKg).toBeCloseTo(limit('propane'), 2);
    expect(Math.abs((point?.waterL.used as number) - limit('water'))).toBeLessThan(0.3);
  });

  it('says what there was no time for, and never a day too many', async () => {
    let ms = 0;
    const input = {
      request: { householdId: 'brook-cottage', startsAt: START, timeLimitS: 1 },
      household: household(),
      kits: [LENTIL_SOUP, RICE],
      stock: stockOf([
        [LENTIL_SOUP, 4],
        [RICE, 3],
      ]),
    };
    // A clock on which every look takes a fifth of a second.
    const found = await findEndurance(input, { solver, clock: { now: () => (ms += 200) } });
    expect(found.notWorkedOut.length).toBeGreaterThan(0);
    expect(found.fed.days).toBeLessThanOrEqual(7);
    expect(found.fed.atMost).toBeGreaterThanOrEqual(7);
  });
});

describe('long work', () => {
  const input = {
    request: { householdId: 'brook-cottage', startsAt: START },
    household: household(),
    kits: [RICE],
    stock: stockOf([[RICE, 3]]),
  };

  it('lets others be answered while weeks are laid out, and tells how far it is', async () => {
    let pauses = 0;
    const told: string[] = [];
    const pause = async () => {
      pauses += 1;
    };
    const clock = { now: () => performance.now() };
    await findEndurance(input, { solver, clock, pause, onProgress: ({ aim }) => told.push(aim) });
    expect(pauses).toBeGreaterThan(3);
    expect(new Set(told)).toEqual(new Set(['fed', 'fed-hot-plan', 'fed-end', 'curve']));
  });

  it('ends when whoever asked has gone', async () => {
    const gone = new AbortController();
    gone.abort();
    const asked = findEndurance(input, { solver, clock: { now: () => performance.now() }, signal: gone.signal });
    await expect(asked).rejects.toThrow('solving was cancelled');
  });
});

describe('what cannot be', () => {
  it('where amounts would do and single days do not, says what would', async () => {
    // Two hot meals at once a day and one pot: it keeps the midday meal in the box while the evening one is due.
    const document = household({
      meals: [MIDDAY, EVENING],
      lightingsPerDay: 1,
      boxes: [{ id: 'box', fits: ['pot-5'], materialId: 'eps', thicknessMm: 150 }],
    });
    const found = await enduranceOf(document, [
      [RICE, 4],
      [LENTIL_SOUP, 4],
    ]);
    expect(found.fedHot.noMorePossible).toBe(true);
    expect(found.fedHot.days).toBeLessThan(4);
    expect(`${found.endsFed?.text} ${found.endsFedHot?.text}`).toMatch(/fires? a day|pot, bowl or box/);
  });

  it('infants alone eat nothing from the pot, and that is said', async () => {
    const document = household({ people: [{ label: 'Baby', ageGroup: 'infant' }] });
    const found = await enduranceOf(document, [[RICE, 1]]);
    expect(found.text[0]).toMatch(/^Nobody at the table eats from the pot/);
  });

  it.each([
    ['no food', household(), [] as Sets],
    ['no water', household({ water: water({ lots: [] }) }), [[RICE, 2]] as Sets],
    ['no stove', household({ stoves: [] }), [[RICE, 2]] as Sets],
    ['no pot', household({ vessels: [] }), [[RICE, 2]] as Sets],
    ['no fuel', household({ fuels: [] }), [[RICE, 2]] as Sets],
  ])('%s: no day, said plainly', async (name, document, sets) => {
    const found = await enduranceOf(document, sets);
    expect(found.fed).toMatchObject({ days: 0, lastDate: null, noMorePossible: true });
    expect(found.text[0]).toBe('Not even the first day can be fed in full.');
    const things = (found.endsFed?.alone ?? []).map(({ limit }) => limit);
    if (name === 'no water') expect(things).toEqual(['water']);
    if (name === 'no fuel') expect(things).toContain('propane');
  });
});
