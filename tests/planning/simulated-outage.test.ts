/** A small sample of the simulated outages of `tests/bench`: weighing and new plans never feed fewer, and feed some more. */
import { describe, expect, it } from 'vitest';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { simulatedWeek } from '../bench/simulated-outage.ts';

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
  }, 60_000);
});
