import { beforeAll, describe, expect, it } from 'vitest';
import { weekModel } from '../../api/planning/programme/week-model.ts';
import type { Solver } from '../../api/planning/solver.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { bruteForce } from './brute-force.ts';
import { settled, tinyWeek } from './tiny-weeks.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await createInThreadSolver();
});

describe('the week model against an exhaustive search written apart from it', () => {
  const seeds = Array.from({ length: 60 }, (_, index) => index + 1);
  it.each(seeds)('tiny week %i: the same service, and scarcity within the printed tolerance', async (seed) => {
    const week = settled(tinyWeek(seed));
    const best = bruteForce(week).value;
    const model = weekModel(week);
    const outcome = await solver.solve(model.programme, model.aims, { timeLimitS: 20 });
    expect(outcome.status).toBe('solved');
    if (outcome.status !== 'solved') return;
    expect(outcome.closed).toBe(true);
    const value = (name: string) => outcome.aims.find((aim) => aim.name === name)?.value ?? Number.NaN;
    // Service aims are exact: servings to a hundredth, energy in whole hundredths.
    expect(value('feed-everyone')).toBeCloseTo(best.servingsShort, 2);
    expect(value('energy')).toBeCloseTo(best.energyShort, 2);
    expect(value('hot-meals')).toBeCloseTo(best.hotMissing, 2);
    // 0.5 % of fuel is the printed tolerance of the scarcity aims (contract, "proven"), 5e-4 near zero.
    expect(value('scarcest-largest-share')).toBeLessThanOrEqual(best.largestShare * 1.005 + 5e-4);
    expect(value('scarcest-largest-share')).toBeGreaterThanOrEqual(best.largestShare - 1e-6);
  });

  it('sees both ample and short weeks among these', () => {
    const values = seeds.map((seed) => bruteForce(settled(tinyWeek(seed))).value);
    expect(values.some((value) => value.servingsShort === 0 && value.hotMissing === 0)).toBe(true);
    expect(values.some((value) => value.servingsShort > 0)).toBe(true);
    expect(values.some((value) => value.hotMissing > 0)).toBe(true);
  });
});

describe('the optimistic statement, which looks only at fires that a plan without any miss can light', () => {
  const seeds = Array.from({ length: 120 }, (_, index) => index + 1).filter((seed) => {
    const best = bruteForce(settled(tinyWeek(seed))).value;
    return best.servingsShort === 0 && best.energyShort === 0 && best.hotMissing === 0;
  });
  it('is tried on several weeks', () => expect(seeds.length).toBeGreaterThanOrEqual(8));
  it.each(seeds)('week %i: proves service in one solve and loses nothing of the scarcity aim', async (seed) => {
    const week = settled(tinyWeek(seed));
    const best = bruteForce(week).value;
    const model = weekModel(week, { optimistic: true });
    const outcome = await solver.solve(model.programme, model.aims, { timeLimitS: 20 });
    if (outcome.status !== 'solved') throw new Error(outcome.status);
    const value = (name: string) => outcome.aims.find((aim) => aim.name === name)?.value ?? Number.NaN;
    expect(value('service')).toBeCloseTo(0, 2);
    // 0.5 % is the printed tolerance of this aim.
    expect(value('scarcest-largest-share')).toBeLessThanOrEqual(best.largestShare * 1.005 + 5e-4);
  });
});

describe('what more of a stock may do (metamorphic)', () => {
  it.each([3, 7, 11, 19, 23])('more fuel never feeds fewer people (week %i)', async (seed) => {
    const week = settled(tinyWeek(seed));
    const richer = {
      ...week,
      fuelByDay: Object.fromEntries(
        Object.entries(week.fuelByDay).map(([id, byDay]) => [id, byDay.map((kg) => kg * 1.5)]),
      ),
    };
    const service = async (instance: typeof week) => {
      const model = weekModel(instance);
      const outcome = await solver.solve(model.programme, model.aims, { timeLimitS: 20 });
      if (outcome.status !== 'solved') throw new Error(outcome.status);
      return outcome.aims.slice(0, 3).map((aim) => aim.value);
    };
    const before = await service(week);
    const after = await service(richer);
    // Lexicographic: the first aim that differs has become smaller.
    const index = after.findIndex((value, at) => Math.abs(value - (before[at] as number)) > 0.02);
    if (index >= 0) expect(after[index]).toBeLessThan(before[index] as number);
  });
});
