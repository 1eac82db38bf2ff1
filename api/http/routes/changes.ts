/** What a re-plan changes on the wall: as a list in plain words, and as one page to print. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import { planChanges } from '../../planning/bookings/changes.ts';
import { stateNow } from '../../planning/bookings/state-now.ts';
import { readDocument } from '../../storage/collections.ts';
import { changeLines } from '../../wording/change-lines.ts';
import { changesHtml } from '../../wording/print/changes-sheet.ts';
import { bookingsOf } from '../plan-bookings.ts';
import { RefusedError } from '../problem.ts';
import { answer, FOUND_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import type { Services } from '../services.ts';
import { readOrRefuse } from '../write-document.ts';
import { z } from '../zod.ts';
import { idParams } from './documents.ts';

const changesAnswer = z
  .object({
    planId: z.string(),
    replaces: z.string(),
    at: z.string().meta({ description: 'Local time from which the plan holds.' }),
    summary: z.string(),
    changes: z.array(z.looseObject({ meal: z.string(), text: z.string() })),
    underWay: z.array(z.string()),
    learned: z.array(z.string()),
    found: z.array(z.string()),
  })
  .meta({ id: 'PlanChanges', description: 'What is different from the plan that hung on the wall, and why.' });

const changesRoute = createRoute({
  method: 'get',
  path: '/api/plans/{id}/changes',
  summary: 'What a plan changes of the one that it replaces, in plain words with the reasons',
  request: { params: idParams },
  responses: { 200: answer(changesAnswer, 'Changes by the time of the meals.'), ...FOUND_PROBLEMS },
});

const sheetRoute = createRoute({
  method: 'get',
  path: '/api/plans/{id}/changes/sheet',
  summary: 'The changes on one page to print',
  request: { params: idParams, query: z.strictObject({ units: z.enum(['metric', 'us']).optional() }) },
  responses: {
    200: { description: 'HTML for A4 and US Letter alike.', content: { 'text/html': { schema: z.string() } } },
    ...FOUND_PROBLEMS,
  },
});

export function changeRoutes(services: Services) {
  const changesOf = async (id: string) => {
    const { body: next } = await readOrRefuse(services, 'plans', id);
    const replaces = next.request.replaces ?? null;
    if (replaces === null) throw new RefusedError('not-found', `The plan ${id} replaces no other.`);
    const old = await readDocument(services.store, 'plans', replaces);
    if (old === null) throw new RefusedError('not-found', `The plan ${replaces} is no longer there.`);
    // Only what had been booked when the plan was made can have changed it.
    const bookings = (await bookingsOf(services.store, replaces)).filter(
      ({ bookedAt }) => (bookedAt ?? '') <= next.createdAt,
    );
    const state = stateNow(old.body, bookings, next.request.startsAt);
    const changes = planChanges(old.body, next, state);
    return { next, replaces, changes, lines: changeLines(next, changes, state) };
  };
  return new OpenAPIHono()
    .openapi(
      changesRoute,
      async (c) => {
        const { next, replaces, changes, lines } = await changesOf(c.req.valid('param').id);
        const items = changes.map((change, index) => ({ ...change, text: lines.changes[index]?.text ?? '' }));
        const { summary, underWay, learned, found } = lines;
        const at = next.request.startsAt;
        return c.json({ planId: next.id, replaces, at, summary, changes: items, underWay, learned, found }, 200);
      },
      refuseInvalid(changesRoute),
    )
    .openapi(
      sheetRoute,
      async (c) => {
        const { next, lines } = await changesOf(c.req.valid('param').id);
        return c.html(changesHtml(next, lines, c.req.valid('query').units ?? 'metric'), 200) as never;
      },
      refuseInvalid(sheetRoute),
    );
}
