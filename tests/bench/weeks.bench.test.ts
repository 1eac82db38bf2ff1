// Ample and tight weeks of generated households: counts and days against the naive formulation in the same run, and how
// the time grows with days and kits. The compiled solver is measured on the calling thread.
import { loadavg } from 'node:os';
import { beforeAll, describe, expect, it } from 'vitest';
import { createCalculations } from '../../api/cooking/calculators/calculations.ts';
import { solveWeek, type WeekSolution } from '../../api/planning/programme/solve-week.ts';
import type { Solver } from '../../api/planning/solver.ts';
import { weekCalendar } from '../../api/planning/week/week-calendar.ts';
import type { WeekInstance } from '../../api/planning/week/week-instance.ts';
import { weekSituation } from '../../api/planning/week/week-situation.ts';
import { createInThreadSolver } from '../../build/api/runtime/highs/in-thread-solver.js';
import { type GeneratedHousehold, generatedHousehold } from './generated-households.ts';
import { solveNaively } from './naive-week.ts';
import { median, writeReadmePart } from './readme-part.ts';

const NAIVE_LIMIT_S = 10;
/** Twice the servings that are eaten: what binds is fuel. With less, sets bind too, which is harder for counts. */
const STORES = 2;
const SEEDS = [2, 3, 5, 8, 9, 11];
/** Fuel of a tight week: a third more than what the best plan with plenty takes at its 90th percentile. */
const TIGHT = 1.3;
/** Fuel of a short one. */
const SHORT = 0.6;

let solver: Solver;
beforeAll(async () => {
  solver = await createInThreadSolver();
  await timed(weekOf(generatedHousehold(5, { days: 2, kits: 6 })), 5);
});

function weekOf({ request, household, kits, stock }: GeneratedHousehold): WeekInstance {
  return weekCalendar(weekSituation(request, household, kits, stock), request, createCalculations()).week;
}

async function timed(week: WeekInstance, limitS: number): Promise<WeekSolution & { seconds: number }> {
  const startedAt = performance.now();
  const solution = await solveWeek(week, solver, { timeLimitS: limitS });
  return { ...solution, seconds: (performance.now() - startedAt) / 1000 };
}

/** The same week with the fuel that a plan takes, times a factor. */
function withFuelOf(week: WeekInstance, solution: WeekSolution, factor: number): WeekInstance {
  const chosen = new Set([...(solution.choice?.options ?? []), ...(solution.choice?.hotWater ?? [])]);
  const lit = new Set(solution.choice?.lightings ?? []);
  const used = (fuelId: string) =>
    [...week.options, ...week.hotWater]
      .filter((way) => chosen.has(way.id))
      .reduce((sum, way) => sum + (way.fuel[fuelId] ?? 0), 0) +
    week.lightings.filter((row) => lit.has(row.id)).reduce((sum, row) => sum + (row.startUp[fuelId] ?? 0), 0);
  return {
    ...week,
    fuelByDay: Object.fromEntries(
      Object.entries(week.fuelByDay).map(([id, byDay]) => [id, byDay.map(() => Math.max(factor * used(id), 1e-3))]),
    ),
  };
}

const figure = (value: number, digits = 2) => value.toFixed(digits);

describe('weeks of twelve kits', () => {
  it('are proven in a fraction of the naive time', async () => {
    const ratios: number[] = [];
    const rows: string[] = [];
    for (const seed of SEEDS) {
      const ample = weekOf(generatedHousehold(seed, { days: 7, kits: 12, stores: STORES }));
      const first = await timed(ample, 20);
      for (const [name, week] of [
        ['ample', ample],
        ['tight', withFuelOf(ample, first, TIGHT)],
      ] as const) {
        const ours = await timed(week, 20);
        const naive = await solveNaively(week, solver, NAIVE_LIMIT_S);
        const ratio = ours.seconds / naive.seconds;
        ratios.push(ratio);
        rows.push(
          `| ${seed} ${name} | ${naive.columns} | ${figure(ours.seconds)}${ours.proven ? '' : ' (gap)'} | ${naive.proven ? '' : '> '}${figure(naive.seconds)} | ${naive.proven ? '' : '< '}${figure(ratio)} |`,
        );
      }
    }
    const middle = median(ratios);
    writeReadmePart('weeks', [
      '| week | binaries of the naive form | counts and days, s | naive, s | ratio |',
      '|---|---|---|---|---|',
      ...rows,
      '',
      `Median ratio ${figure(middle)} over ${ratios.length} weeks; the naive form is stopped after ${NAIVE_LIMIT_S} s. Load average ${figure(loadavg()[0] ?? 0, 1)}.`,
    ]);
    console.log(rows.join('\n'), '\nmedian ratio', figure(middle));
    expect(middle).toBeLessThanOrEqual(0.4);
  }, 600_000);
});

describe('longer plans', () => {
  it('grow slowly with the days', async () => {
    const rows: string[] = [];
    for (const [days, kits, limitS] of [
      [7, 12, 20],
      [14, 20, 20],
      [31, 30, 20],
      [90, 40, 30],
    ] as const) {
      for (const seed of [3]) {
        const startedAt = performance.now();
        const ample = weekOf(generatedHousehold(seed, { days, kits }));
        const calendarS = (performance.now() - startedAt) / 1000;
        const first = await timed(ample, limitS);
        const results: [string, WeekSolution & { seconds: number }][] = [['ample', first]];
        results.push(['tight', await timed(withFuelOf(ample, first, TIGHT), limitS)]);
        if (days <= 14) results.push(['short', await timed(withFuelOf(ample, first, SHORT), limitS)]);
        for (const [name, run] of results)
          rows.push(
            `| ${days} x ${kits} | ${seed} ${name} | ${ample.options.length} | ${figure(calendarS, 1)} | ${figure(run.seconds, 1)} | ${run.proven ? `proven, by ${run.by}` : openAims(run)} |`,
          );
      }
    }
    writeReadmePart('growth', [
      '| days x kits | household | ways | laid out, s | solved, s | proof |',
      '|---|---|---|---|---|---|',
      ...rows,
      '',
      `Load average ${figure(loadavg()[0] ?? 0, 1)}.`,
    ]);
    console.log(rows.join('\n'));
    expect(rows.length).toBeGreaterThan(0);
  }, 1_200_000);
});

function openAims(run: WeekSolution): string {
  const open = run.aims.filter((aim) => !aim.closed);
  return (
    open.map((aim) => `${aim.name} ${figure(aim.value, 3)}, bound ${figure(aim.bound, 3)}`).join('; ') || 'stopped'
  );
}
