/** How many days a household can be fed from what it has. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import { findEndurance } from '../../planning/questions/endurance.ts';
import type { SolveProgress } from '../../planning/solver.ts';
import { answerWithProgress, wantsEvents } from '../answer-with-progress.ts';
import { planInputOf } from '../plan-input.ts';
import { answer, BUSY, jsonBody, WRITE_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { enduranceAnswer, enduranceRequestSchema } from '../schemas-advice.ts';
import { explainQuery } from '../schemas-calculators.ts';
import type { Services } from '../services.ts';
import type { QueueTicket } from '../solve-queue.ts';

const enduranceRoute = createRoute({
  method: 'post',
  path: '/api/endurance',
  summary:
    'How many days can be fed, what ends it, the curve of fuel and water; with Accept: text/event-stream as events `progress`, then `endurance`',
  request: { query: explainQuery, body: jsonBody(enduranceRequestSchema) },
  responses: { 200: answer(enduranceAnswer, 'Days, what ends them, what is missing.'), ...WRITE_PROBLEMS, ...BUSY },
});

/** @param takePlace a place in the queue that plans are made in too */
export function enduranceRoutes(services: Services, takePlace: () => QueueTicket) {
  return new OpenAPIHono().openapi(
    enduranceRoute,
    async (c) => {
      const request = c.req.valid('json');
      const { days, ...others } = request;
      const input = await planInputOf(services.store, { ...others, days: days ?? 1 });
      const place = takePlace();
      const find = (signal: AbortSignal, onProgress?: (progress: SolveProgress) => void) =>
        findEndurance(
          { ...input, request },
          {
            explain: c.req.valid('query').explain === '1',
            solver: services.solver,
            clock: services.clock,
            signal,
            ...(onProgress === undefined ? {} : { onProgress }),
            ...(services.pause === undefined ? {} : { pause: services.pause }),
          },
        );
      if (wantsEvents(c)) return answerWithProgress(c, services, request, place, 'endurance', find) as never;
      return c.json(await place.run(() => find(c.req.raw.signal)), 200);
    },
    refuseInvalid(enduranceRoute),
  );
}
