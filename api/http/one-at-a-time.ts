/** Runs jobs one after the other, so that what a job has read is still true when it writes. */

/** A queue of one app: `(job) => result of the job`. A job that throws does not stop the next. */
export function oneAtATime(): <Result>(job: () => Promise<Result>) => Promise<Result> {
  let last: Promise<unknown> = Promise.resolve();
  return (job) => {
    const mine = last.then(job);
    last = mine.catch(() => undefined);
    return mine;
  };
}
