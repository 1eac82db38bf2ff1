/** A small sample of the simulated outages of `tests/bench`: weighing and new plans never feed fewer, and feed some more. */
import { describe, expect, it } from 'vitest';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { bandShares, simulatedWeek } from '../bench/simulated-outage.ts';

const solver = await createInThreadSolver();
/** Of the bench's two hundred: two that the first plan feeds, and two that it does not, though they can be fed. */
const SEEDS = [1, 2, 36, 65];

describe('an outage carried through', () => {
  it('is the same from the same seed', async () => {
    expect(await simulatedWeek(2, solver)).toEqual(await simulatedWeek(2, solver));
  }, 60_000);

  it('feeds to the end at least whom the first plan alone feeds', async () => {
    const weeks: Awaited<ReturnType<typeof simulatedWeek>>[] = [];
    for (const seed of SEEDS) weeks.push(await simulatedWeek(seed, solver));
    for (const week of weeks) expect(week.fedWithReplans || !week.fedByFirstPlan, `week ${week.seed}`).toBe(true);
    const fed = (by: 'fedByFirstPlan' | 'fedWithReplans') => weeks.filter((week) => week[by]).length;
    expect(fed('fedWithReplans')).toBeGreaterThan(fed('fedByFirstPlan'));
    expect(weeks.some((week) => week.replans > 0)).toBe(true);
    // The band holds the truth as often as it says: 8 times in 10, and 9 in 10 below its upper end. Two hundred worlds tell
    // a share to 3 % (binomial), and four plans differ from the mean of all by about as much.
    const { inBand, underP90, worlds } = bandShares(weeks);
    expect(worlds).toBe(200);
    expect(inBand).toBeGreaterThanOrEqual(0.75);
    expect(inBand).toBeLessThanOrEqual(0.85);
    expect(underP90).toBeGreaterThanOrEqual(0.86);
    expect(underP90).toBeLessThanOrEqual(0.94);
  }, 60_000);
});
