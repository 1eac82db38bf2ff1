/** Plans: made by the solver, checked without it, kept as snapshots. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import { streamSSE } from 'hono/streaming';
import { checkPlan } from '../../planning/check-plan.ts';
import { explainMeal, explainPlan, mealOfPlan } from '../../planning/explain-plan.ts';
import { makePlan, PlanCancelledError } from '../../planning/make-plan.ts';
import type { Plan, PlanRequest } from '../../planning/plan-types.ts';
import type { SolveProgress } from '../../planning/solver.ts';
import { listDocuments, readDocument } from '../../storage/collections.ts';
import { scheduleHtml } from '../../wording/print/schedule-html.ts';
import { makeSchedule } from '../../wording/schedule.ts';
import { requireSoundRequest } from '../check-references.ts';
import { etagOf } from '../etag.ts';
import { measurementsOf } from '../household-records.ts';
import { problemOf, RefusedError, refuseField } from '../problem.ts';
import { answer, BUSY, FOUND_PROBLEMS, jsonBody, READ_PROBLEMS, WRITE_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { id } from '../schema-values.ts';
import { explainQuery } from '../schemas-calculators.ts';
import { mealAnswer, mealRef, planAnswer, planRequestSchema } from '../schemas-plan.ts';
import type { Services } from '../services.ts';
import { solveQueue } from '../solve-queue.ts';
import { createDocument, readOrRefuse } from '../write-document.ts';
import { z } from '../zod.ts';
import { idParams, tagOrNotModified } from './documents.ts';

/** One plan is made, one waits, a third is refused. */
const QUEUE_PLACES = 2;
const RETRY_AFTER_S = 20;

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
  responses: { 200: answer(planAnswer, 'The plan.'), 304: { description: 'Unchanged.' }, ...FOUND_PROBLEMS },
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

export function planRoutes(services: Services) {
  const { store } = services;
  const takePlace = solveQueue(QUEUE_PLACES, RETRY_AFTER_S);
  return new OpenAPIHono()
    .openapi(
      makeRoute,
      async (c) => {
        const request = c.req.valid('json');
        const input = await resolveInput(services, request);
        const place = takePlace();
        if (!(c.req.header('accept') ?? '').includes('text/event-stream')) {
          const { signal } = c.req.raw;
          const plan = await place.run(() => makeStoredPlan(services, input, signal));
          return c.json(plan.body, 201, { etag: etagOf(plan.rev), location: `/api/plans/${plan.body.id}` });
        }
        return streamSSE(c, async (stream) => {
          const cancel = new AbortController();
          stream.onAbort(() => cancel.abort());
          const send = (event: string, data: unknown) => stream.writeSSE({ event, data: JSON.stringify(data) });
          const tell = (progress: SolveProgress) => {
            if (!cancel.signal.aborted) send('progress', progress).catch(() => cancel.abort());
          };
          tell({ elapsedS: 0, aim: 'prepare', best: null, bound: null, gap: null });
          try {
            const plan = await place.run(() => makeStoredPlan(services, input, cancel.signal, tell));
            await send('plan', plan.body);
          } catch (error) {
            if (cancel.signal.aborted) return;
            const { problem, fault } = problemOf(error, { body: request });
            if (fault) services.logFault?.(error);
            await send('problem', problem);
          }
        });
      },
      refuseInvalid(makeRoute),
    )
    .openapi(listRoute, async (c) => {
      const plans = (await listDocuments(store, 'plans')).map((document) => document.body);
      plans.sort((a, b) => (a.createdAt < b.createdAt ? 1 : a.createdAt > b.createdAt ? -1 : 0));
      const items = plans.map(({ id, createdAt, outcome, request }) => ({
        id,
        createdAt,
        householdId: request.householdId,
        startsAt: request.startsAt,
        days: request.days,
        outcome,
      }));
      return c.json({ items }, 200);
    })
    .openapi(
      readRoute,
      async (c) => {
        const document = await readOrRefuse(services, 'plans', c.req.valid('param').id);
        // Derivations are worked out for each answer and are no part of the stored revision.
        if (c.req.valid('query').explain === '1') return c.json(explainPlan(document.body), 200);
        const unchanged = tagOrNotModified(c, document);
        return unchanged === null ? c.json(document.body, 200) : (unchanged as never);
      },
      refuseInvalid(readRoute),
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
}

type Input = Parameters<typeof makePlan>[0];

/** Reads what the plan rests on. @throws RefusedError 422 when the request names what is not there */
async function resolveInput({ store }: Services, request: PlanRequest): Promise<Input> {
  const household = await readDocument(store, 'households', request.householdId);
  if (household === null) {
    throw refuseField(['householdId'], 'There is no household of this id.', { value: request.householdId });
  }
  if (typeof request.replaces === 'string' && (await readDocument(store, 'plans', request.replaces)) === null) {
    throw refuseField(['replaces'], 'There is no plan of this id.', { value: request.replaces });
  }
  const kits = (await listDocuments(store, 'kits')).map((document) => document.body);
  requireSoundRequest(request, household.body, kits);
  const stock = (await listDocuments(store, 'stock')).map((document) => document.body);
  const measurements = await measurementsOf(store, request.householdId);
  return { request, household: household.body, kits, stock, measurements };
}

/**
 * Makes, checks and keeps a plan.
 * @throws RefusedError `plan-check-failed` when the checker that knows no solver finds a fault: such a plan is withheld
 */
async function makeStoredPlan(
  services: Services,
  input: Input,
  signal: AbortSignal,
  onProgress?: (progress: SolveProgress) => void,
) {
  if (signal.aborted) throw new PlanCancelledError();
  const { solver, clock, newId, programVersion } = services;
  const ports = { solver, now: clock.now(), id: newId(), programVersion, signal };
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
