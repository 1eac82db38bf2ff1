/** The solver port on Node: HiGHS in a worker thread, one programme at a time, with a short queue. */
import { Worker } from 'node:worker_threads';
import {
  type Aim,
  type IntegerProgramme,
  type SolveOptions,
  type SolveOutcome,
  type Solver,
  SolverBusyError,
} from '../../planning/solver.ts';
import type { WorkerAnswer, WorkerQuestion } from './highs-worker-messages.ts';

/** Programmes that may wait behind the one being solved. */
const LONGEST_QUEUE = 2;
/** The engine's memory never shrinks, so a worker that has seen a large programme, or many, is replaced. */
const LARGE_PROGRAMME_ENTRIES = 100_000;
const SOLVES_PER_WORKER = 200;
/** How long past its limit the engine may stay silent before its worker is given up, s. */
const SILENCE_S = 20;

const TOY_PROGRAMME: IntegerProgramme = {
  columnNames: ['x', 'y'],
  rowNames: ['enough'],
  columnLower: [0, 0],
  columnUpper: [9, 9],
  isInteger: [true, true],
  starts: [0, 2],
  columns: [0, 1],
  coefficients: [2, 3],
  rowLower: [7],
  rowUpper: [Number.POSITIVE_INFINITY],
};
const TOY_AIM: Aim = { name: 'toy', columns: [0, 1], coefficients: [3, 4], absoluteGap: 0, relativeGap: 0, slack: 0 };
const TOY_LIMIT_S = 10;

interface Job {
  programme: IntegerProgramme;
  aims: Aim[];
  options: SolveOptions;
  settle: (outcome: Promise<SolveOutcome>) => void;
  /** Takes the job out of those that wait, when its signal is aborted. */
  leaveQueue: () => void;
  endsAtMs: number;
}

interface LiveWorker {
  worker: Worker;
  version: string;
  solves: number;
}

/** A fault that the worker told of itself: it is still in order and may go on. */
class ReportedFault extends Error {}

/**
 * Starts the worker, loads the engine and warms it up with a toy programme.
 *
 * One programme is solved at a time, two may wait, a fourth is refused. An aborted signal takes a waiting programme out
 * of the queue; a running one loses its worker, which is replaced at once.
 * @param entry the worker's compiled script; by default the one that lies beside this file after the build
 * @returns the port, and `close`, which ends the worker and cancels whatever is running or waiting
 * @throws Error when the worker cannot start or the engine cannot be loaded
 */
export async function createHighsSolver(
  entry: URL = new URL('./highs-worker.js', import.meta.url),
): Promise<Solver & { close(): Promise<void> }> {
  const waiting: Job[] = [];
  let running: Job | null = null;
  const closing = new AbortController();
  let current = startWorker(entry);

  const replaceWorker = () => {
    current = startWorker(entry);
    // A worker that fails to start is reported by the next solve, not as an unhandled rejection.
    current.catch(() => undefined);
  };

  const runJob = async ({ programme, aims, options }: Job): Promise<SolveOutcome> => {
    const stop = options.signal ? AbortSignal.any([options.signal, closing.signal]) : closing.signal;
    let live: LiveWorker;
    try {
      live = await current;
    } catch (fault) {
      replaceWorker();
      throw fault;
    }
    if (stop.aborted) return { status: 'cancelled' };
    live.solves++;
    let spent = live.solves >= SOLVES_PER_WORKER || programme.coefficients.length >= LARGE_PROGRAMME_ENTRIES;
    try {
      return await ask(
        live.worker,
        { id: live.solves, programme, aims, timeLimitS: options.timeLimitS },
        stop,
        options,
      );
    } catch (fault) {
      if (!(fault instanceof ReportedFault)) spent = true;
      if (stop.aborted) return { status: 'cancelled' };
      throw fault;
    } finally {
      if (spent) {
        void live.worker.terminate();
        if (!closing.signal.aborted) replaceWorker();
      }
    }
  };

  const next = () => {
    const job = running === null ? waiting.shift() : undefined;
    if (job === undefined) return;
    running = job;
    // One signal may serve many solves, one after the other.
    job.options.signal?.removeEventListener('abort', job.leaveQueue);
    job.endsAtMs = performance.now() + job.options.timeLimitS * 1000;
    const outcome = runJob(job);
    job.settle(outcome);
    const done = () => {
      running = null;
      next();
    };
    outcome.then(done, done);
  };

  const first = await current;
  await ask(
    first.worker,
    { id: 0, programme: TOY_PROGRAMME, aims: [TOY_AIM], timeLimitS: TOY_LIMIT_S },
    closing.signal,
    {},
  );
  return {
    version: first.version,
    async solve(programme, aims, options) {
      if (closing.signal.aborted) throw new Error('the solver is closed');
      if (options.signal?.aborted) return { status: 'cancelled' };
      if (waiting.length >= LONGEST_QUEUE) {
        const leftMs = (running?.endsAtMs ?? 0) - performance.now();
        throw new SolverBusyError(Math.max(1, Math.ceil(leftMs / 1000)));
      }
      return new Promise<SolveOutcome>((settle) => {
        const leaveQueue = () => {
          const at = waiting.indexOf(job);
          if (at < 0) return;
          waiting.splice(at, 1);
          settle(Promise.resolve({ status: 'cancelled' }));
        };
        const job: Job = { programme, aims, options, settle, leaveQueue, endsAtMs: 0 };
        options.signal?.addEventListener('abort', leaveQueue, { once: true });
        waiting.push(job);
        next();
      });
    },
    async close() {
      closing.abort();
      for (const job of waiting.splice(0)) job.settle(Promise.resolve({ status: 'cancelled' }));
      const last = await current.catch(() => null);
      await last?.worker.terminate();
    },
  };
}

function startWorker(entry: URL): Promise<LiveWorker> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(entry);
    // An idle worker must not keep a finished program alive.
    worker.unref();
    worker.once('error', reject);
    worker.once('exit', (code) => reject(new Error(`the solver's worker ended with code ${code}`)));
    worker.once('message', (answer: WorkerAnswer) => {
      if (answer.kind === 'ready') resolve({ worker, version: answer.version, solves: 0 });
      else
        reject(new Error(`the solver could not be loaded${answer.kind === 'not-loaded' ? `: ${answer.message}` : ''}`));
    });
  });
}

/** One question to one worker; ends the worker when `stop` is aborted or the engine falls silent. */
function ask(
  worker: Worker,
  question: WorkerQuestion,
  stop: AbortSignal,
  options: Pick<SolveOptions, 'onProgress'>,
): Promise<SolveOutcome> {
  return new Promise((resolve, reject) => {
    const finish = (settle: () => void) => {
      clearTimeout(silence);
      stop.removeEventListener('abort', onStop);
      worker.off('message', onMessage).off('error', onError).off('exit', onExit);
      worker.unref();
      settle();
    };
    const giveUp = (why: string) => {
      void worker.terminate();
      finish(() => reject(new Error(why)));
    };
    const onStop = () => giveUp('cancelled');
    const onError = (fault: Error) => finish(() => reject(fault));
    const onExit = (code: number) => finish(() => reject(new Error(`the solver's worker ended with code ${code}`)));
    const onMessage = (answer: WorkerAnswer) => {
      if (answer.kind === 'progress') options.onProgress?.(answer.progress);
      else if (answer.kind === 'outcome') finish(() => resolve(answer.outcome));
      else if (answer.kind === 'fault') finish(() => reject(new ReportedFault(answer.message)));
    };
    const silence = setTimeout(
      () => giveUp('the solver did not keep to its time limit'),
      (question.timeLimitS + SILENCE_S) * 1000,
    );
    stop.addEventListener('abort', onStop);
    worker.on('message', onMessage).on('error', onError).on('exit', onExit);
    worker.ref();
    worker.postMessage(question);
  });
}
