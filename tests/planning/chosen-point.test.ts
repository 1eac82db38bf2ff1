/** Weeks and plans at a chosen point of the trade-off: against an exhaustive search, the curve, and the checker. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import { makePlan, type PlanInput } from '../../api/planning/make-plan.ts';
import { repeatsOf } from '../../api/planning/plan/taken-point.ts';
import type { ChosenPoint, PlanDraft, PlannedMeal } from '../../api/planning/plan-types.ts';
import { solveWeek } from '../../api/planning/programme/solve-week.ts';
import { findTradeOff } from '../../api/planning/questions/trade-off.ts';
import type { Solver } from '../../api/planning/solver.ts';
import type { WeekInstance, WeekTradeOff } from '../../api/planning/week/week-instance.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { generatedHousehold, withFuel } from '../bench/generated-households.ts';
import { seeded } from '../seeded.ts';
import { bruteForce } from './brute-force.ts';
import {
  COUSCOUS_BOWL,
  EVENING,
  household,
  inputFor,
  LENTIL_SOUP,
  MIDDAY,
  RICE,
  type Sets,
} from './small-household.ts';
import { alikeWeek, settled, tinyWeek } from './tiny-weeks.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await createInThreadSolver();
});

const LIMIT = { timeLimitS: 20 };
/** The printed tolerance of fuel heat: half a per cent, and a hundredth of a MJ near nothing. */
const within = (mj: number) => 0.005 * mj + 0.01;

/** Heat of propane and wood, MJ/kg, near enough for invented weeks. */
const MJ_PER_KG: Record<string, number> = { propane: 46, wood: 16 };

function withPoint(week: WeekInstance, point: Omit<WeekTradeOff, 'heat'>): WeekInstance {
  const mj = (fuel: Record<string, number>) =>
    Object.entries(fuel).reduce((sum, [fuelId, kg]) => sum + kg * (MJ_PER_KG[fuelId] ?? 0), 0);
  const heat = {
    options: Object.fromEntries(week.options.map((option) => [option.id, mj(option.fuel)])),
    lightings: Object.fromEntries(week.lightings.map((row) => [row.id, mj(row.startUp)])),
    hotWater: Object.fromEntries(week.hotWater.map((task) => [task.id, mj(task.fuel)])),
    treatments: {},
  };
  return { ...week, tradeOff: { ...point, heat } };
}

/** The same week with so much in store, and so little energy needed, that most of it can be had. */
function ample(week: WeekInstance): WeekInstance {
  return {
    ...week,
    sets: Object.fromEntries(Object.entries(week.sets).map(([kitId, sets]) => [kitId, sets + 2])),
    fuelByDay: Object.fromEntries(Object.entries(week.fuelByDay).map(([id, kg]) => [id, kg.map((x) => 3 * x)])),
    safeWaterByDay: week.safeWaterByDay.map((litres) => 3 * litres),
    needKcal: week.needKcal * 0.6,
  };
}

function pointOf(seed: number): Omit<WeekTradeOff, 'heat'> {
  const random = seeded(seed * 7919);
  const pick = (most: number) => Math.floor(random() * (most + 1));
  return {
    coldMeals: pick(3),
    repeats: random() < 0.3 ? null : pick(2),
    energySteps: random() < 0.6 ? 0 : pick(15),
  };
}

describe('a week at a chosen point against an exhaustive search', () => {
  const compare = async (week: WeekInstance, what: string) => {
    const best = bruteForce(week).value;
    const solution = await solveWeek(week, solver, LIMIT);
    const value = (name: string) => solution.aims.find((aim) => aim.name === name)?.value;
    const missed = best.servingsShort + best.energyShort + best.hotMissing;
    if (value('service') !== undefined) expect(value('service'), what).toBeCloseTo(missed, 2);
    else {
      expect(value('feed-everyone'), what).toBeCloseTo(best.servingsShort, 2);
      expect(value('energy'), what).toBeCloseTo(best.energyShort, 2);
      expect(value('hot-meals'), what).toBeCloseTo(best.hotMissing, 2);
    }
    expect(value('chosen-repeats') ?? 0, what).toBeCloseTo(best.repeatsBeyond, 6);
    expect(value('chosen-energy') ?? 0, what).toBeCloseTo(best.energyGivenUp, 6);
    const heat = value('fuel-heat') as number;
    expect(Math.abs(heat - best.heatMJ), what).toBeLessThanOrEqual(within(best.heatMJ));
    for (const aim of solution.aims) expect(aim.bound, what).toBeLessThanOrEqual(aim.value + 1e-6);
    return { missed: missed > 0, repeats: best.repeatsBeyond > 0, given: best.energyGivenUp > 0, ...solution };
  };

  it('finds the same on eighty weeks, whose days differ and are alike in turn', async () => {
    const seen = [];
    for (let seed = 1; seed <= 80; seed++) {
      const week = seed % 2 === 0 ? alikeWeek(seed) : settled(tinyWeek(seed));
      const stored = seed % 4 < 2 ? week : ample(week);
      seen.push(await compare(withPoint(stored, pointOf(seed)), `week ${seed}`));
    }
    expect(seen.filter((row) => row.proven).length).toBe(seen.length);
    // Weeks of every sort are among them.
    for (const sort of ['missed', 'repeats', 'given'] as const)
      expect(seen.filter((row) => row[sort]).length, sort).toBeGreaterThan(3);
    expect(seen.filter((row) => !row.missed).length).toBeGreaterThan(10);
  }, 120_000);

  it('never needs more fuel where more meals may be cold', async () => {
    let less = 0;
    for (let seed = 1; seed <= 24; seed++) {
      let before: number | null = null;
      for (let coldMeals = 0; coldMeals <= 4; coldMeals++) {
        const week = withPoint(ample(alikeWeek(seed)), { coldMeals, repeats: null, energySteps: 0 });
        const { aims } = await solveWeek(week, solver, LIMIT);
        const heat = aims.find(({ name }) => name === 'fuel-heat')?.value as number;
        // Where hot meals are missed more are cooked as more may be cold elsewhere: only whole weeks compare.
        if (aims.some(({ name, value }) => (name === 'service' || name === 'hot-meals') && value > 0.02)) continue;
        if (before !== null) expect(heat, `week ${seed}, ${coldMeals}`).toBeLessThanOrEqual(before + within(before));
        if (before !== null && heat < before - within(before)) less++;
        before = heat;
      }
    }
    expect(less).toBeGreaterThan(5);
  }, 60_000);
});

const clock = { now: () => performance.now() };

function planAt(input: PlanInput, tradeOff: ChosenPoint | null | undefined): Promise<PlanDraft> {
  const request = { ...input.request, ...(tradeOff === undefined ? {} : { tradeOff }) };
  return makePlan({ ...input, request }, { solver, clock, now: 0, id: 'plan', programVersion: 'test' });
}

/** A plan for each row of the curve comes to what the row says. */
async function comparesWithCurve(input: PlanInput, leastRows: number): Promise<void> {
  const { points, hotMealsWanted } = await findTradeOff(input, { solver, clock });
  expect(points.length).toBeGreaterThanOrEqual(leastRows);
  for (const point of points) {
    const what = JSON.stringify(point.tradeOff);
    const plan = await planAt(input, point.tradeOff);
    expect(point.tradeOff.coldMeals, what).toBe(hotMealsWanted - point.hotMeals);
    expect(checkPlan(plan), what).toEqual([]);
    expect(plan.tradeOff?.coldMeals.length, what).toBeLessThanOrEqual(point.tradeOff.coldMeals);
    if (point.onDays) expect(plan.tradeOff?.repeats, what).toBeLessThanOrEqual(point.repeats);
    const { p50 } = point.fuelMJ;
    // Both are solved to half a per cent.
    expect(Math.abs((plan.tradeOff?.fuelMJ ?? 0) - p50), what).toBeLessThanOrEqual(2 * within(p50));
    const short = plan.meals.reduce((sum, meal) => sum + meal.servingsShort, 0);
    expect(short, what).toBeCloseTo(point.servingsShort, 1);
  }
}

describe('a plan for each row of the curve', () => {
  it('burns the fuel of the row, in the demonstration week', async () => {
    const { household: document, kits, stock } = demoDocuments('2026-12-05');
    const request = { householdId: document.id, startsAt: '2026-12-05T17:00', days: 7, timeLimitS: 40 };
    await comparesWithCurve({ request, household: document, kits, stock }, 4);
  }, 120_000);

  it.each([
    [11, { days: 3, kits: 6 }, null],
    [26, { days: 3, kits: 6 }, null],
    // No days serve what the counts of this one promise.
    [31, { days: 4, kits: 8, stores: 1.4 }, null],
    // Too little fuel: somebody goes hungry, and there is no hot water.
    [34, { days: 4, kits: 8, stores: 1.4 }, 0.35],
  ] as const)(
    'burns the fuel of the row, in a generated household (%i)',
    async (seed, settings, fuelKg) => {
      const whole = generatedHousehold(seed, settings);
      const fuels = (whole.household.fuels ?? []).map(({ fuelId }) => [fuelId, fuelKg ?? 0] as const);
      const { request, ...rest } = fuelKg === null ? whole : withFuel(whole, Object.fromEntries(fuels));
      await comparesWithCurve({ ...rest, request: { ...request, timeLimitS: 30 } }, 1);
    },
    120_000,
  );

  it('also where hot meals beyond the ordinary plan cost food energy', async () => {
    // A bowl of couscous and raisins gives more than the rice: the ordinary plan takes it cold for its energy.
    const input = inputFor(
      household(),
      [
        [RICE, 2],
        [COUSCOUS_BOWL, 2],
      ],
      { days: 2, timeLimitS: 20 },
    );
    const { points } = await findTradeOff(input, { solver, clock });
    const hottest = points.find((point) => point.hotMeals === 2);
    expect(hottest?.tradeOff.energyShortPercent).toBeGreaterThan(0);
    const plan = await planAt(input, hottest?.tradeOff);
    expect(plan.meals.every((meal) => meal.dishes.some((dish) => dish.hot))).toBe(true);
    expect(plan.outcome).toBe('complete');
    expect(checkPlan(plan)).toEqual([]);
    const given = plan.proof.aims.find(({ aim }) => aim === 'chosen-energy');
    expect(given?.value).toBe(hottest?.energyShortPercent);
    await comparesWithCurve(input, 2);
  });
});

/** Three and a half times as much in each bag: energy enough for a day of two meals. */
const rich = (kit: Kit): Kit => ({
  ...kit,
  parts: kit.parts.map((part) => ({
    ...part,
    ingredients: part.ingredients.map((one) => ({ ...one, massG: one.massG * 3.5 })),
  })),
});
const SETS: Sets = [
  [rich(RICE), 6],
  [rich(LENTIL_SOUP), 6],
  [rich(COUSCOUS_BOWL), 8],
];
const input = () => inputFor(household({ meals: [MIDDAY, EVENING] }), SETS, { days: 3, timeLimitS: 20 });

describe('a plan at a chosen point', () => {
  it('says which meals are cold by choice and is not short for them', async () => {
    const plan = await planAt(input(), { coldMeals: 2, repeats: 2 });
    const byChoice = plan.meals.filter((meal) => meal.coldByChoice === true);
    expect(byChoice.length).toBe(2);
    expect(byChoice.every((meal) => meal.hotWanted && meal.dishes.every((dish) => !dish.hot))).toBe(true);
    expect(plan.tradeOff?.coldMeals).toEqual(byChoice.map((meal) => meal.id));
    expect(plan.tradeOff?.text).toMatch(/^Fuel is spared by choice: 2 of the 6 meals that should be hot are cold/);
    expect(plan.cautions).toContain(plan.tradeOff?.text);
    expect(plan.outcome).toBe('complete');
    expect(plan.short).toEqual([]);
    expect(plan.proof.status).toBe('optimal');
    expect(plan.proof.aims.find(({ aim }) => aim === 'hot-meals')?.value).toBe(0);
    expect(plan.proof.aims.map(({ aim }) => aim)).toEqual([
      'feed-everyone',
      'energy',
      'hot-meals',
      'chosen-repeats',
      'fuel-heat',
      'cold-meals',
      'scarcest-largest-share',
      'scarcest-sum-of-shares',
      'variety',
      'tending',
    ]);
    expect(checkPlan(plan)).toEqual([]);
  });

  it('is the same each time, and the ordinary plan where nothing was chosen', async () => {
    const strip = ({ request: _request, ...plan }: PlanDraft) => plan;
    const again = { coldMeals: 1, repeats: 3 };
    expect(await planAt(input(), again)).toEqual(await planAt(input(), again));
    const ordinary = await planAt(input(), undefined);
    expect(strip(await planAt(input(), null))).toEqual(strip(ordinary));
    expect(ordinary.tradeOff).toBeUndefined();
    expect(ordinary.meals.some((meal) => 'coldByChoice' in meal)).toBe(false);
    expect(ordinary.proof.aims.some(({ aim }) => aim === 'fuel-heat')).toBe(false);
  });

  it('misses no more than it must where the stores give fewer hot meals than were chosen', async () => {
    // One set of rice is hot for one meal; two of four may be cold, so that one hot meal is missed.
    const plan = await planAt(
      inputFor(
        household({ meals: [MIDDAY, EVENING] }),
        [
          [RICE, 1],
          [COUSCOUS_BOWL, 3],
        ],
        { days: 2, timeLimitS: 20 },
      ),
      { coldMeals: 2 },
    );
    expect(plan.outcome).toBe('short');
    expect(plan.meals.filter((meal) => meal.coldByChoice === true).length).toBe(2);
    expect(plan.proof.aims.find(({ aim }) => aim === 'hot-meals')?.value).toBe(2);
    expect(checkPlan(plan)).toEqual([]);
  });
});

describe('the checker', () => {
  type Sabotage = (plan: PlanDraft) => void;
  const byChoice = (plan: PlanDraft) => plan.meals.find((meal) => meal.coldByChoice === true) as PlannedMeal;
  const SABOTAGES: [string, string, Sabotage][] = [
    [
      'cold-by-choice',
      'more cold meals than were chosen',
      (plan) => {
        plan.request.tradeOff = { coldMeals: 1, repeats: 2 };
      },
    ],
    [
      'cold-by-choice',
      'cold meals that nobody chose',
      (plan) => {
        plan.request.tradeOff = null;
      },
    ],
    [
      'trade-off',
      'a choice that is told and was not made',
      (plan) => {
        plan.request.tradeOff = null;
      },
    ],
    [
      'cold-by-choice',
      'a hot meal that is called cold by choice',
      (plan) => {
        for (const dish of byChoice(plan).dishes) dish.hot = true;
      },
    ],
    [
      'cold-by-choice',
      'a meal that is cold beyond the choice and missed by nobody',
      (plan) => {
        const meal = byChoice(plan);
        delete meal.coldByChoice;
        plan.request.tradeOff = { coldMeals: 1, repeats: 2 };
        plan.tradeOff?.coldMeals.shift();
      },
    ],
    [
      'trade-off',
      'another number of cold meals told than marked',
      (plan) => {
        plan.tradeOff?.coldMeals.pop();
      },
    ],
    [
      'repeats',
      'more repeats than were chosen',
      (plan) => {
        plan.request.tradeOff = { coldMeals: 2, repeats: (plan.tradeOff?.repeats ?? 0) - 1 };
      },
    ],
  ];

  it.each(SABOTAGES)('finds (%s) %s', async (rule, _what, sabotage) => {
    const plan = structuredClone(await soundPlan());
    sabotage(plan);
    expect(checkPlan(plan).map((fault) => fault.rule)).toContain(rule);
  });

  let made: Promise<PlanDraft> | null = null;
  function soundPlan(): Promise<PlanDraft> {
    // Three kits for six meals: some come again.
    made ??= planAt(input(), { coldMeals: 2, repeats: 9 });
    return made;
  }

  it('has nothing against the plan as it was made, in which dishes come again', async () => {
    const plan = await soundPlan();
    expect(checkPlan(plan)).toEqual([]);
    expect(plan.tradeOff?.repeats).toBeGreaterThan(0);
  });
});

describe('repeats', () => {
  const on = (...days: number[]) => days.map((day) => ({ kitId: 'soup', day }));
  it.each([
    ['never again within two days', on(0, 2, 4), [], 3, 0],
    ['on two days running', on(0, 1), [], 3, 1],
    ['on three days running', on(0, 1, 2), [], 3, 2],
    ['twice on one day in the middle', on(1, 1), [], 3, 2],
    ['twice on the only day', on(0, 0), [], 0, 1],
    ['the day after it was eaten before the plan', on(0), on(-1), 3, 1],
    ['on the morning of the day', on(0), on(0), 3, 2],
    ['of days up to a given one only', on(2, 3), [], 1, 0],
  ])('%s', (_what, eaten, before, lastStart, repeats) => {
    expect(repeatsOf(eaten, before, lastStart)).toBe(repeats);
  });
});
