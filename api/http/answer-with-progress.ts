/** Long work as server-sent events: `progress` again and again, then the result, or `problem`. */
import type { Context } from 'hono';
import { streamSSE } from 'hono/streaming';
import type { SolveProgress } from '../planning/solver.ts';
import { problemOf } from './problem.ts';
import type { Services } from './services.ts';
import type { QueueTicket } from './solve-queue.ts';

/** Whether whoever asks wants to be told how far it is. */
export function wantsEvents(c: Context): boolean {
  return (c.req.header('accept') ?? '').includes('text/event-stream');
}

/**
 * Runs a job in its place of the queue and tells its progress; closing the connection cancels it.
 * @param body the request as sent, so that a problem can point into it
 * @param event name of the event that carries the result
 * @returns the stream of events
 */
export function answerWithProgress(
  c: Context,
  services: Services,
  body: unknown,
  place: QueueTicket,
  event: string,
  job: (signal: AbortSignal, tell: (progress: SolveProgress) => void) => Promise<unknown>,
): Response {
  return streamSSE(c, async (stream) => {
    const cancel = new AbortController();
    stream.onAbort(() => cancel.abort());
    const send = (name: string, data: unknown) => stream.writeSSE({ event: name, data: JSON.stringify(data) });
    const tell = (progress: SolveProgress) => {
      if (!cancel.signal.aborted) send('progress', progress).catch(() => cancel.abort());
    };
    tell({ elapsedS: 0, aim: 'prepare', best: null, bound: null, gap: null });
    try {
      await send(event, await place.run(() => job(cancel.signal, tell)));
    } catch (error) {
      if (cancel.signal.aborted) return;
      const { problem, fault } = problemOf(error, { body });
      if (fault) services.logFault?.(error);
      await send('problem', problem);
    }
  });
}
