/** Worker thread of `highs-solver.ts`: loads the engine once, then answers one question after the other. */
import { parentPort } from 'node:worker_threads';
import loadHighs from 'highs';
import { solveProgramme } from '../highs/solve-programme.ts';
import type { WorkerAnswer, WorkerQuestion } from './highs-worker-messages.ts';

const port = parentPort;
if (port === null) throw new Error('highs-worker runs only as a worker thread');
const send = (answer: WorkerAnswer) => port.postMessage(answer);

// Only the message of a fault goes out: an uncaught one would print the engine's whole bundle.
const messageOf = (fault: unknown) => (fault instanceof Error ? fault.message : String(fault)).slice(0, 500);

try {
  const highs = await loadHighs();
  port.on('message', (question: WorkerQuestion) => {
    try {
      const outcome = solveProgramme(highs, question.programme, question.aims, {
        timeLimitS: question.timeLimitS,
        onProgress: (progress) => send({ kind: 'progress', id: question.id, progress }),
        now: () => performance.now(),
      });
      send({ kind: 'outcome', id: question.id, outcome });
    } catch (fault) {
      send({ kind: 'fault', id: question.id, message: messageOf(fault) });
    }
  });
  send({ kind: 'ready', version: `HiGHS ${highs.version.string}` });
} catch (fault) {
  send({ kind: 'not-loaded', message: messageOf(fault) });
}
