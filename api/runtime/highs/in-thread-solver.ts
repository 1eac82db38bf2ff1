/** A solver that blocks the calling thread: for a dedicated worker of a browser, for tests and for measuring. */
import loadHighs from 'highs';
import type { Solver } from '../../planning/solver.ts';
import { solveProgramme } from './solve-programme.ts';

/**
 * Loads the engine and answers on the calling thread. A signal is obeyed only before the solve begins, because the
 * engine cannot be interrupted from the thread that it blocks.
 * @throws Error when the engine cannot be loaded
 */
export async function createInThreadSolver(): Promise<Solver> {
  const highs = await loadHighs();
  return {
    version: `HiGHS ${highs.version.string}`,
    async solve(programme, aims, options) {
      if (options.signal?.aborted) return { status: 'cancelled' };
      return solveProgramme(highs, programme, aims, {
        timeLimitS: options.timeLimitS,
        onProgress: options.onProgress,
        now: () => performance.now(),
      });
    },
  };
}
