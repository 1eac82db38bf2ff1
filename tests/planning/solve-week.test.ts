/** Counts first, days after: against an exhaustive search, and the claim of proof in both directions. */
import { beforeAll, describe, expect, it } from 'vitest';
import { countProgramme } from '../../api/planning/programme/count-programme.ts';
import { weekKinds } from '../../api/planning/programme/day-classes.ts';
import { countsOf, solveWeek } from '../../api/planning/programme/solve-week.ts';
import { weekModel } from '../../api/planning/programme/week-model.ts';
import type { Solver } from '../../api/planning/solver.ts';
import type { WeekInstance } from '../../api/planning/week/week-instance.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { bruteForce } from './brute-force.ts';
import { alikeWeek, settled, tinyWeek } from './tiny-weeks.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await createInThreadSolver();
});

const LIMIT = { timeLimitS: 20 };
const SEEDS = Array.from({ length: 100 }, (_, index) => index + 1);

async function compare(week: WeekInstance): Promise<{ by: string; proven: boolean; missed: boolean }> {
  const best = bruteForce(week).value;
  const solution = await solveWeek(week, solver, LIMIT);
  expect(solution.choice).not.toBeNull();
  const value = (name: string) => solution.aims.find((aim) => aim.name === name)?.value;
  const missed = best.servingsShort + best.energyShort + best.hotMissing;
  // Servings to a hundredth, energy in whole hundredths: the service aims are exact.
  if (value('service') !== undefined) expect(value('service')).toBeCloseTo(missed, 2);
  else {
    expect(value('feed-everyone')).toBeCloseTo(best.servingsShort, 2);
    expect(value('energy')).toBeCloseTo(best.energyShort, 2);
    expect(value('hot-meals')).toBeCloseTo(best.hotMissing, 2);
  }
  // When something is missed is settled before the shares are, to half a serving and day.
  const late = value('shortage-late');
  if (missed > 0) expect(Math.abs((late as number) - best.lateness)).toBeLessThanOrEqual(0.5);
  if (missed === 0 || Math.abs((late as number) - best.lateness) < 1e-6) {
    const share = value('scarcest-largest-share') as number;
    // 0.5 % of fuel is the printed tolerance of the scarcity aims (contract, "proven"), 5e-4 near zero.
    expect(share).toBeLessThanOrEqual(best.largestShare * 1.005 + 5e-4);
    expect(share).toBeGreaterThanOrEqual(best.largestShare - 1e-6);
  }
  for (const aim of solution.aims) expect(aim.bound).toBeLessThanOrEqual(aim.value + 1e-6);
  return { by: solution.by, proven: solution.proven, missed: missed > 0 };
}

describe('solveWeek against an exhaustive search written apart from it', () => {
  it('finds the same on a hundred weeks whose days differ', async () => {
    const seen = [];
    for (const seed of SEEDS) seen.push(await compare(settled(tinyWeek(seed))));
    expect(seen.filter((row) => row.proven).length).toBe(SEEDS.length);
  }, 120_000);

  it('finds the same on a hundred weeks of like days, many of them by counts alone', async () => {
    const seen = [];
    for (const seed of SEEDS) seen.push(await compare(alikeWeek(seed)));
    expect(seen.filter((row) => row.proven).length).toBe(SEEDS.length);
    expect(seen.filter((row) => row.by === 'counts').length).toBeGreaterThan(SEEDS.length / 4);
    // Both kinds of week are among them.
    expect(seen.filter((row) => row.missed).length).toBeGreaterThan(5);
    expect(seen.filter((row) => !row.missed).length).toBeGreaterThan(5);
    // A hundred exhaustive searches: a slow machine takes a while.
  }, 60_000);
});

describe('counts over like days', () => {
  it('knows like days, and tells others apart', () => {
    const week = alikeWeek(3);
    const kinds = weekKinds(week);
    expect(new Set(Array.from({ length: week.days }, (_, day) => kinds.day(day))).size).toBe(1);
    const changed = {
      ...week,
      lightings: week.lightings.map((row) => (row.day === 1 ? { ...row, minutesAvailable: 7 } : row)),
    };
    expect(weekKinds(changed).day(0)).not.toBe(weekKinds(changed).day(1));
  });

  it('has fewer columns, and as many however long the week of like days is', () => {
    const week = alikeWeek(3);
    const model = weekModel(week);
    const counted = countProgramme(model.programme, model.aims, model.orbits);
    // Columns of the plan as a whole (energy, the largest share) are there once in both.
    const alone = 6;
    expect(counted.programme.columnNames.length - alone).toBeLessThanOrEqual(
      (model.programme.columnNames.length - alone) / week.days + alone,
    );
  });

  it('is a relaxation: no aim of the week by days is below the bound of the counts', async () => {
    for (const seed of SEEDS.slice(0, 40)) {
      const week = alikeWeek(seed);
      const model = weekModel(week);
      const counts = await countsOf(model, solver, LIMIT);
      const outcome = await solver.solve(model.programme, model.aims, LIMIT);
      if (counts === null || outcome.status !== 'solved') throw new Error(`week ${seed} was not solved`);
      for (const [index, counted] of counts.aims.entries()) {
        const byDays = outcome.aims[index];
        if (byDays === undefined) throw new Error('an aim is missing');
        // Aims after one that differs answer another question.
        if (byDays.value > counted.value + 1e-3) break;
        // The engine takes whole numbers to a millionth, and a repeat weighs a thousand minutes.
        expect(counted.bound).toBeLessThanOrEqual(byDays.value + 2e-3);
      }
    }
  }, 60_000);
});

describe('what a week comes to', () => {
  const shares = async (week: WeekInstance) => {
    const solution = await solveWeek(week, solver, LIMIT);
    return solution.aims.map((aim) => [aim.name, aim.value] as const);
  };

  it.each([2, 5, 9, 14, 21])('is the same for kits and ways in another order (week %i)', async (seed) => {
    const week = alikeWeek(seed);
    const turned = {
      ...week,
      options: [...week.options].reverse(),
      lightings: [...week.lightings].reverse(),
      hotWater: [...week.hotWater].reverse(),
    };
    const one = await shares(week);
    const other = await shares(turned);
    expect(other.map(([name]) => name)).toEqual(one.map(([name]) => name));
    for (const [index, [name, value]] of one.entries()) {
      // The printed tolerances: service exact, shares 0.5 %, hands-on minutes 2 % or 5.
      const room = name === 'variety-then-tending' ? Math.max(5, 0.02 * value) : 0.005 * value + 1e-3;
      expect(Math.abs((other[index]?.[1] ?? Number.NaN) - value)).toBeLessThanOrEqual(room);
    }
  });

  it.each([2, 5, 9, 14, 21])('keeps every share when everything is doubled (week %i)', async (seed) => {
    const week = alikeWeek(seed);
    const twice = (record: Record<string, number>) =>
      Object.fromEntries(Object.entries(record).map(([key, value]) => [key, 2 * value]));
    const doubled: WeekInstance = {
      ...week,
      slots: week.slots.map((slot) => ({ ...slot, wantServings: 2 * slot.wantServings })),
      options: week.options.map((option) => ({
        ...option,
        sets: 2 * option.sets,
        servings: 2 * option.servings,
        fuel: twice(option.fuel),
        waterL: 2 * option.waterL,
        energyKcal: 2 * option.energyKcal,
      })),
      lightings: week.lightings.map((row) => ({ ...row, startUp: twice(row.startUp) })),
      hotWater: week.hotWater.map((task) => ({ ...task, fuel: twice(task.fuel) })),
      treatments: week.treatments.map((row) => ({ ...row, largestL: 2 * row.largestL })),
      sets: twice(week.sets),
      fuelByDay: Object.fromEntries(Object.entries(week.fuelByDay).map(([id, kg]) => [id, kg.map((x) => 2 * x)])),
      safeWaterByDay: week.safeWaterByDay.map((litres) => 2 * litres),
      treatableWaterByDay: week.treatableWaterByDay.map((litres) => 2 * litres),
      needKcal: 2 * week.needKcal,
    };
    const value = (rows: (readonly [string, number])[], name: string) => rows.find((row) => row[0] === name)?.[1];
    const one = await shares(week);
    const two = await shares(doubled);
    for (const name of ['scarcest-largest-share', 'scarcest-sum-of-shares']) {
      const share = value(one, name) as number;
      expect(Math.abs((value(two, name) as number) - share)).toBeLessThanOrEqual(0.005 * share + 1e-3);
    }
  });
});

describe('progress', () => {
  it('goes on one clock through all solves of a week, and names aims that people know', async () => {
    const seen: { elapsedS: number; aim: string }[] = [];
    await solveWeek(alikeWeek(14), solver, {
      ...LIMIT,
      onProgress: ({ elapsedS, aim }) => seen.push({ elapsedS, aim }),
    });
    expect(seen.length).toBeGreaterThan(3);
    for (const [index, step] of seen.entries())
      expect(step.elapsedS).toBeGreaterThanOrEqual((seen[index - 1]?.elapsedS ?? 0) - 0.01);
  });
});

describe('more and less', () => {
  /** Service, then the largest share: what a plan comes to, in the order of the aims. */
  const worth = async (week: WeekInstance): Promise<number[]> => {
    const { aims } = await solveWeek(week, solver, LIMIT);
    const value = (name: string) => aims.find((aim) => aim.name === name)?.value ?? 0;
    return ['feed-everyone', 'energy', 'hot-meals', 'scarcest-largest-share'].map(value);
  };
  /** Whether the first is worse than the second by the first aim that differs beyond its printed tolerance. */
  const isWorse = (one: number[], other: number[]): boolean => {
    const rooms = [0.02, 0.5, 0.02, 0.005 * (other[3] as number) + 1e-3];
    const at = one.findIndex((value, index) => Math.abs(value - (other[index] as number)) > (rooms[index] as number));
    return at >= 0 && (one[at] as number) > (other[at] as number);
  };
  const scaled = (week: WeekInstance, factor: number): Record<string, WeekInstance> => ({
    fuel: {
      ...week,
      fuelByDay: Object.fromEntries(Object.entries(week.fuelByDay).map(([id, kg]) => [id, kg.map((x) => x * factor)])),
    },
    water: { ...week, safeWaterByDay: week.safeWaterByDay.map((litres) => litres * factor) },
    sets: {
      ...week,
      sets: Object.fromEntries(
        Object.entries(week.sets).map(([id, sets]) => [id, factor > 1 ? sets + 1 : Math.max(0, sets - 1)]),
      ),
    },
    fires: { ...week, lightingsPerDay: Math.max(0, week.lightingsPerDay + (factor > 1 ? 1 : -1)) },
    minutes: { ...week, outdoorMinutesPerDay: week.outdoorMinutesPerDay * factor },
  });

  it('more of anything never makes a week worse, less never better', async () => {
    let better = 0;
    let worse = 0;
    for (const seed of [1, 4, 8, 13, 17, 22, 27, 33]) {
      const week = alikeWeek(seed);
      const now = await worth(week);
      for (const [name, more] of Object.entries(scaled(week, 1.4))) {
        const then = await worth(more);
        expect(isWorse(then, now), `week ${seed}, more ${name}: ${now} to ${then}`).toBe(false);
        if (isWorse(now, then)) better += 1;
      }
      for (const [name, less] of Object.entries(scaled(week, 0.7))) {
        const then = await worth(less);
        expect(isWorse(now, then), `week ${seed}, less ${name}: ${now} to ${then}`).toBe(false);
        if (isWorse(then, now)) worse += 1;
      }
    }
    // The comparison sees changes in both directions.
    expect(better).toBeGreaterThan(5);
    expect(worse).toBeGreaterThan(5);
  }, 120_000);
});
