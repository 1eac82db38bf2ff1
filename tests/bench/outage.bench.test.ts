// Two hundred simulated weeks: the first plan alone against weighing and new plans, and the band of the week's fuel.
import { beforeAll, describe, expect, it } from 'vitest';
import type { Solver } from '../../api/planning/solver.ts';
import { createInThreadSolver } from '../../build/api/runtime/highs/in-thread-solver.js';
import { writeReadmePart } from './readme-part.ts';
import { bandShares, type SimulatedWeek, simulatedWeek } from './simulated-outage.ts';

const WEEKS = 200;

let solver: Solver;
beforeAll(async () => {
  solver = await createInThreadSolver();
});

const shareOf = (weeks: readonly SimulatedWeek[], holds: (week: SimulatedWeek) => boolean) =>
  weeks.filter(holds).length / weeks.length;
const percent = (share: number) => `${Math.round(share * 1000) / 10} %`;

describe('an outage carried through', () => {
  it('feeds more households to the end with weighing and new plans, and its bands hold the truth', async () => {
    const weeks: SimulatedWeek[] = [];
    for (let seed = 1; seed <= WEEKS; seed++) weeks.push(await simulatedWeek(seed, solver));
    const alone = shareOf(weeks, (week) => week.fedByFirstPlan);
    const again = shareOf(weeks, (week) => week.fedWithReplans);
    const { inBand, underP90, worlds } = bandShares(weeks);
    const replans = weeks.reduce((sum, week) => sum + week.replans, 0) / weeks.length;
    const rows = [
      '| of the weeks | share |',
      '|---|---|',
      `| everybody fed to the end by the first plan alone | ${percent(alone)} |`,
      `| everybody fed to the end with a weighing each morning and new plans | ${percent(again)} |`,
      `| the week's fuel between P10 and P90 of the first plan | ${percent(inBand)} |`,
      `| the week's fuel at most P90 of the first plan | ${percent(underP90)} |`,
      '',
      `${weeks.length} weeks, ${Math.round(replans * 10) / 10} new plans a week. One bottle in four holds a fifth less than its label. The bands are held against ${worlds} worlds, ${worlds / weeks.length} to each first plan.`,
    ];
    writeReadmePart('outage', rows);
    console.log(rows.join('\n'));
    expect(again).toBeGreaterThan(alone);
    expect(inBand).toBeGreaterThanOrEqual(0.75);
    expect(inBand).toBeLessThanOrEqual(0.85);
    expect(underP90).toBeGreaterThanOrEqual(0.86);
    expect(underP90).toBeLessThanOrEqual(0.94);
  }, 1_200_000);
});
