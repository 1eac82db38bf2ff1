/** Plans are made one at a time; few may wait. */
import { SolverBusyError } from '../planning/solver.ts';

/** A place in the queue. Whoever holds one must run or leave it. */
export interface QueueTicket {
  /** Waits for its turn, then runs the job. The place is given up whatever becomes of it. */
  run<Result>(job: () => Promise<Result>): Promise<Result>;
}

/**
 * Makes the queue of one app.
 * @param places jobs that may be running and waiting together, 1 or more
 * @param retryAfterS what a refused request is told, s
 * @returns takes a place
 */
export function solveQueue(places: number, retryAfterS: number): () => QueueTicket {
  let taken = 0;
  let last: Promise<unknown> = Promise.resolve();
  return () => {
    if (taken >= places) throw new SolverBusyError(retryAfterS);
    taken += 1;
    return {
      run(job) {
        const mine = last.then(job).finally(() => {
          taken -= 1;
        });
        last = mine.catch(() => undefined);
        return mine;
      },
    };
  };
}
