// How long the demonstration week takes from household to proof, the median of five after a warm-up, and the naive
// formulation of the same week in the same run. The solver is measured on the calling thread: a worker would only add the
// posting of messages.
import { loadavg } from 'node:os';
import { describe, expect, it } from 'vitest';
import { createCalculations } from '../../api/cooking/calculators/calculations.ts';
import { makePlan } from '../../api/planning/make-plan.ts';
import { solveWeek } from '../../api/planning/programme/solve-week.ts';
import { weekCalendar } from '../../api/planning/week/week-calendar.ts';
import { weekSituation } from '../../api/planning/week/week-situation.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { createInThreadSolver } from '../../build/api/runtime/highs/in-thread-solver.js';
import { solveNaively } from './naive-week.ts';
import { median } from './readme-part.ts';

/** The bar: the demonstration week is proven within this, once the engine has solved it before. */
const PROVEN_WITHIN_S = 1;
const NAIVE_LIMIT_S = 30;
const RUNS = 5;

const { household, kits, stock } = demoDocuments('2026-12-05');
const request = { householdId: household.id, startsAt: '2026-12-05T17:00', days: 7 };

async function seconds<Result>(work: () => Promise<Result> | Result): Promise<{ result: Result; s: number }> {
  const startedAt = performance.now();
  const result = await work();
  return { result, s: (performance.now() - startedAt) / 1000 };
}

describe('the demonstration week', () => {
  it(`is proven within ${PROVEN_WITHIN_S} s after a warm-up, and against the naive formulation`, async () => {
    const solver = await createInThreadSolver();
    const ports = { solver, now: 0, id: 'bench', programVersion: 'bench', clock: { now: () => performance.now() } };
    const layOut = () => weekCalendar(weekSituation(request, household, kits, stock), request, createCalculations());
    await solveWeek(layOut().week, solver, { timeLimitS: 20 });
    const laidOut: number[] = [];
    const solved: number[] = [];
    const whole: number[] = [];
    for (let run = 0; run < RUNS; run++) {
      const calendar = await seconds(layOut);
      const solution = await seconds(() => solveWeek(calendar.result.week, solver, { timeLimitS: 20 }));
      const plan = await seconds(() => makePlan({ request, household, kits, stock }, ports));
      expect(solution.result.proven).toBe(true);
      expect(plan.result.proof.status).toBe('optimal');
      laidOut.push(calendar.s);
      solved.push(solution.s);
      whole.push(plan.s);
    }
    const naive = await solveNaively(layOut().week, solver, NAIVE_LIMIT_S);
    const line = (left: string, right: string) => `${left.padEnd(48)} ${right}`;
    console.log(
      [
        line('laid out, s (median of five)', median(laidOut).toFixed(2)),
        line('solved to proof, s', median(solved).toFixed(2)),
        line('whole plan with what one more is worth, s', median(whole).toFixed(2)),
        line('naive formulation, s', `${naive.seconds.toFixed(2)}${naive.proven ? '' : ' not proven'}`),
        line('  solved / naive', `${naive.proven ? '' : '< '}${(median(solved) / naive.seconds).toFixed(2)}`),
        line('load average, 1 min', (loadavg()[0] ?? 0).toFixed(1)),
      ].join('\n'),
    );
    expect(median(solved)).toBeLessThanOrEqual(PROVEN_WITHIN_S);
  });
});
