/** Questions about a plan: what to get or do next, and what hot or varied meals cost in fuel. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import type { PlanInput } from '../../planning/make-plan.ts';
import { findAdvice } from '../../planning/questions/advice.ts';
import { inputOfPlan } from '../../planning/questions/plan-again.ts';
import { findTradeOff } from '../../planning/questions/trade-off.ts';
import type { SolveProgress } from '../../planning/solver.ts';
import { answerWithProgress, wantsEvents } from '../answer-with-progress.ts';
import { evidenceOf } from '../household-records.ts';
import { answer, BUSY, FOUND_PROBLEMS, jsonBody, WRITE_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { adviceAnswer, planQuestionSchema, tradeOffAnswer } from '../schemas-advice.ts';
import { explainQuery } from '../schemas-calculators.ts';
import type { Services } from '../services.ts';
import type { QueueTicket } from '../solve-queue.ts';
import { readOrRefuse } from '../write-document.ts';
import { idParams } from './documents.ts';

const adviceRoute = createRoute({
  method: 'post',
  path: '/api/plans/{id}/advice',
  summary:
    'What to get or do next, ranked, from plans solved again; with Accept: text/event-stream as events `progress`, then `advice`',
  request: { params: idParams, query: explainQuery, body: jsonBody(planQuestionSchema) },
  responses: { ...FOUND_PROBLEMS, ...WRITE_PROBLEMS, ...BUSY, 200: answer(adviceAnswer, 'Ranked advice.') },
});

const tradeOffRoute = createRoute({
  method: 'post',
  path: '/api/plans/{id}/trade-off',
  summary:
    'The curve between fuel and hot or varied meals; with Accept: text/event-stream as events `progress`, then `trade-off`',
  request: { params: idParams, query: explainQuery, body: jsonBody(planQuestionSchema) },
  responses: { ...FOUND_PROBLEMS, ...WRITE_PROBLEMS, ...BUSY, 200: answer(tradeOffAnswer, 'Points to choose from.') },
});

/** @param takePlace a place in the queue that plans are made in too */
export function planAdviceRoutes(services: Services, takePlace: () => QueueTicket) {
  const ports = (explain: boolean, signal: AbortSignal, onProgress?: (progress: SolveProgress) => void) => ({
    explain,
    solver: services.solver,
    clock: services.clock,
    signal,
    ...(onProgress === undefined ? {} : { onProgress }),
    ...(services.pause === undefined ? {} : { pause: services.pause }),
  });
  /** What the plan was made from, with the time that this question may take in the place of the plan's own. */
  const inputOf = async (id: string, timeLimitS: number | undefined): Promise<PlanInput> => {
    const { body } = await readOrRefuse(services, 'plans', id);
    const input = inputOfPlan(body, await evidenceOf(services.store, body.request.householdId));
    const { timeLimitS: _ofThePlan, ...request } = input.request;
    return { ...input, request: { ...request, ...(timeLimitS === undefined ? {} : { timeLimitS }) } };
  };
  return new OpenAPIHono()
    .openapi(
      adviceRoute,
      async (c) => {
        const question = c.req.valid('json');
        const explain = c.req.valid('query').explain === '1';
        const input = await inputOf(c.req.valid('param').id, question.timeLimitS);
        const place = takePlace();
        if (wantsEvents(c))
          return answerWithProgress(c, services, question, place, 'advice', (signal, tell) =>
            findAdvice(input, ports(explain, signal, tell)),
          ) as never;
        return c.json(await place.run(() => findAdvice(input, ports(explain, c.req.raw.signal))), 200);
      },
      refuseInvalid(adviceRoute),
    )
    .openapi(
      tradeOffRoute,
      async (c) => {
        const question = c.req.valid('json');
        const explain = c.req.valid('query').explain === '1';
        const input = await inputOf(c.req.valid('param').id, question.timeLimitS);
        const place = takePlace();
        if (wantsEvents(c))
          return answerWithProgress(c, services, question, place, 'trade-off', (signal, tell) =>
            findTradeOff(input, ports(explain, signal, tell)),
          ) as never;
        return c.json(await place.run(() => findTradeOff(input, ports(explain, c.req.raw.signal))), 200);
      },
      refuseInvalid(tradeOffRoute),
    );
}
