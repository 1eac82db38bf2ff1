/** Plans: made by the solver, checked without it, kept as snapshots. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import { checkPlan } from '../../planning/check-plan.ts';
import { makePlan, type PlanInput } from '../../planning/make-plan.ts';
import { explainMeal, explainPlan, mealOfPlan } from '../../planning/plan/explain-plan.ts';
import type { Plan } from '../../planning/plan-types.ts';
import { SolveCancelledError, type SolveProgress } from '../../planning/solver.ts';
import { listBodies } from '../../storage/collections.ts';
import { scheduleHtml } from '../../wording/print/schedule-html.ts';
import { makeSchedule } from '../../wording/schedule.ts';
import { answerWithProgress, wantsEvents } from '../answer-with-progress.ts';
import { etagOf } from '../etag.ts';
import { bookingsOf } from '../plan-bookings.ts';
import { planInputOf } from '../plan-input.ts';
import { RefusedError } from '../problem.ts';
import {
  answer,
  BUSY,
  CONFLICT,
  FOUND_PROBLEMS,
  jsonBody,
  READ_PROBLEMS,
  REVISION_PROBLEMS,
  WRITE_PROBLEMS,
} from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { id } from '../schema-values.ts';
import { explainQuery } from '../schemas-calculators.ts';
import { mealAnswer, mealRef, planAnswer, planRequestSchema } from '../schemas-plan.ts';
import type { Services } from '../services.ts';
import type { QueueTicket } from '../solve-queue.ts';
import { createDocument, readOrRefuse, removeDocument } from '../write-document.ts';
import { z } from '../zod.ts';
import { conditionHeaders, conditionsOf, documentOrNotModified, idParams, readAnswers } from './documents.ts';

const makeRoute = createRoute({
  method: 'post',
  path: '/api/plans',
  summary: 'Make a plan; with Accept: text/event-stream the progress is told, and closing the connection cancels',
  request: { body: jsonBody(planRequestSchema) },
  responses: {
    200: {
      description: 'Events `progress` { elapsedS, aim, best, bound, gap }, then `plan`, or `problem`.',
      content: { 'text/event-stream': { schema: z.string() } },
    },
    201: answer(planAnswer, 'The plan, checked and kept.'),
    ...WRITE_PROBLEMS,
    ...BUSY,
  },
});

const summarySchema = z
  .object({
    id: z.string(),
    createdAt: z.string(),
    householdId: z.string(),
    startsAt: z.string(),
    days: z.number().meta({ unit: 'd' }),
    outcome: z.enum(['complete', 'short']),
    replaces: z.string().nullable().meta({ description: 'The plan that it goes on from; null: none.' }),
  })
  .meta({ id: 'PlanSummary' });

const listRoute = createRoute({
  method: 'get',
  path: '/api/plans',
  summary: 'All plans in short, newest first',
  responses: { 200: answer(z.object({ items: z.array(summarySchema) }), 'Newest first.'), ...READ_PROBLEMS },
});

const readRoute = createRoute({
  method: 'get',
  path: '/api/plans/{id}',
  summary: 'One plan as it was made',
  request: { params: idParams, query: explainQuery },
  responses: readAnswers(planAnswer, 'The plan.'),
});

const deleteRoute = createRoute({
  method: 'delete',
  path: '/api/plans/{id}',
  summary: 'Delete a plan, as one that was tried and not taken',
  request: { params: idParams, headers: conditionHeaders },
  responses: { 204: { description: 'Deleted.' }, ...WRITE_PROBLEMS, ...REVISION_PROBLEMS, ...CONFLICT },
});

const mealRoute = createRoute({
  method: 'get',
  path: '/api/plans/{id}/meals/{mealId}',
  summary: 'One meal of a plan with the cookings of its dishes and, with explain=1, its derivation',
  request: { params: z.strictObject({ id, mealId: mealRef }), query: explainQuery },
  responses: { 200: answer(mealAnswer, 'The meal.'), ...FOUND_PROBLEMS },
});

const scheduleRoute = createRoute({
  method: 'get',
  path: '/api/plans/{id}/schedule',
  summary: 'The schedule to print and cook from',
  request: {
    params: idParams,
    query: z.strictObject({
      units: z.enum(['metric', 'us']).optional(),
      type: z.enum(['normal', 'large', 'compact']).optional(),
      // The sheets fit both papers, so that the reader's printer decides; accepted so that addresses may say it.
      paper: z.enum(['a4', 'letter']).optional(),
    }),
  },
  responses: {
    200: { description: 'HTML for A4 and US Letter alike.', content: { 'text/html': { schema: z.string() } } },
    ...FOUND_PROBLEMS,
  },
});

/** @param takePlace a place in the queue of everything that solves */
export function planRoutes(services: Services, takePlace: () => QueueTicket) {
  const { store } = services;
  return new OpenAPIHono()
    .openapi(
      makeRoute,
      async (c) => {
        const request = c.req.valid('json');
        const input = await planInputOf(services.store, request);
        const place = takePlace();
        if (wantsEvents(c)) {
          return answerWithProgress(c, services, request, place, 'plan', async (signal, tell) => {
            const plan = await makeStoredPlan(services, input, signal, tell);
            return plan.body;
          });
        }
        const { signal } = c.req.raw;
        const plan = await place.run(() => makeStoredPlan(services, input, signal));
        return c.json(plan.body, 201, { etag: etagOf(plan.rev), location: `/api/plans/${plan.body.id}` });
      },
      refuseInvalid(makeRoute),
    )
    .openapi(listRoute, async (c) => {
      const plans = await listBodies(store, 'plans');
      plans.sort((a, b) => (a.createdAt < b.createdAt ? 1 : a.createdAt > b.createdAt ? -1 : 0));
      const items = plans.map(({ id, createdAt, outcome, request }) => ({
        id,
        createdAt,
        householdId: request.householdId,
        startsAt: request.startsAt,
        days: request.days,
        outcome,
        replaces: request.replaces ?? null,
      }));
      return c.json({ items }, 200);
    })
    .openapi(
      readRoute,
      async (c) => {
        const document = await readOrRefuse(services, 'plans', c.req.valid('param').id);
        // Derivations are worked out for each answer and are no part of the stored revision.
        if (c.req.valid('query').explain === '1') return c.json(explainPlan(document.body), 200);
        return documentOrNotModified(c, document);
      },
      refuseInvalid(readRoute),
    )
    .openapi(
      deleteRoute,
      async (c) => {
        const { id: planId } = c.req.valid('param');
        await refuseWhileGoneOnWith(planId);
        await removeDocument(services, 'plans', planId, conditionsOf(c));
        return c.body(null, 204);
      },
      refuseInvalid(deleteRoute),
    )
    .openapi(
      mealRoute,
      async (c) => {
        const { id: planId, mealId } = c.req.valid('param');
        const { body } = await readOrRefuse(services, 'plans', planId);
        const meal = mealOfPlan(body, mealId);
        if (meal === null) throw new RefusedError('not-found', `The plan ${planId} has no meal of the id ${mealId}.`);
        const explained = c.req.valid('query').explain === '1' ? { explanation: explainMeal(body, meal) } : {};
        return c.json({ ...meal, ...explained }, 200);
      },
      refuseInvalid(mealRoute),
    )
    .openapi(
      scheduleRoute,
      async (c) => {
        const { body } = await readOrRefuse(services, 'plans', c.req.valid('param').id);
        const { units, type } = c.req.valid('query');
        return c.html(scheduleHtml(body, { units: units ?? 'metric', type: type ?? 'normal' }), 200) as never;
      },
      refuseInvalid(scheduleRoute),
    );

  /** What was booked under a plan, and plans that go on from it, rest on it: nothing of that is lost by a deletion. */
  async function refuseWhileGoneOnWith(planId: string): Promise<void> {
    const booked = (await bookingsOf(store, planId)).length;
    const usedBy = (await listBodies(store, 'plans'))
      .filter((plan) => plan.request.replaces === planId)
      .map((plan) => `/api/plans/${plan.id}`);
    if (booked === 0 && usedBy.length === 0) return;
    const why = booked > 0 ? `${booked} bookings rest on it` : `${usedBy[0]} goes on from it`;
    throw new RefusedError('in-use', `The plan ${planId} cannot be deleted: ${why}.`, {
      extensions: { booked, usedBy },
    });
  }
}

/**
 * Makes, checks and keeps a plan.
 * @throws RefusedError `plan-check-failed` when the checker that knows no solver finds a fault: such a plan is withheld
 */
async function makeStoredPlan(
  services: Services,
  input: PlanInput,
  signal: AbortSignal,
  onProgress?: (progress: SolveProgress) => void,
) {
  if (signal.aborted) throw new SolveCancelledError();
  const { solver, clock, newId, programVersion, pause } = services;
  const ports = {
    solver,
    now: clock.now(),
    clock,
    id: newId(),
    programVersion,
    signal,
    ...(pause === undefined ? {} : { pause }),
  };
  const draft = await makePlan(input, onProgress === undefined ? ports : { ...ports, onProgress });
  const faults = checkPlan(draft);
  if (faults.length > 0) {
    throw new RefusedError('plan-check-failed', 'A plan was made that breaks its own limits. It was not kept.', {
      extensions: { faults: faults.slice(0, 20).map(({ rule, at }) => ({ rule, at })) },
    });
  }
  const plan: Plan = { ...draft, schedule: makeSchedule(draft) };
  return createDocument(services, 'plans', plan);
}
