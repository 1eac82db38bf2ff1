/** Households: list, create, read, replace, delete. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import { deleteDocument, listBodies, listDocuments } from '../../storage/collections.ts';
import { requireSoundHousehold } from '../check-references.ts';
import { etagOf } from '../etag.ts';
import { requireKnownAvoids } from '../own-foods.ts';
import { RefusedError } from '../problem.ts';
import { answer, CONFLICT, jsonBody, READ_PROBLEMS, REVISION_PROBLEMS, WRITE_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { runningPlans } from '../running-plans.ts';
import { id } from '../schema-values.ts';
import { householdSchema } from '../schemas-household.ts';
import type { Services } from '../services.ts';
import { createDocument, putDocument, readOrRefuse, removeDocument } from '../write-document.ts';
import { z } from '../zod.ts';
import {
  conditionHeaders,
  conditionsOf,
  documentOrNotModified,
  idParams,
  putAnswers,
  readAnswers,
} from './documents.ts';

const newHouseholdSchema = householdSchema.extend({ id: id.optional() }).meta({ id: 'NewHousehold' });

const listRoute = createRoute({
  method: 'get',
  path: '/api/households',
  summary: 'All households',
  responses: { 200: answer(z.object({ items: z.array(householdSchema) }), 'By id.'), ...READ_PROBLEMS },
});

const createHouseholdRoute = createRoute({
  method: 'post',
  path: '/api/households',
  summary: 'Create a household; the id may be left to the server',
  request: { body: jsonBody(newHouseholdSchema) },
  responses: { 201: answer(householdSchema, 'Created.'), ...WRITE_PROBLEMS, ...CONFLICT },
});

const readRoute = createRoute({
  method: 'get',
  path: '/api/households/{id}',
  summary: 'One household, with its revision as ETag',
  request: { params: idParams },
  responses: readAnswers(householdSchema, 'The household.'),
});

const putRoute = createRoute({
  method: 'put',
  path: '/api/households/{id}',
  summary: 'Create (If-None-Match: *) or replace (If-Match) a household',
  request: { params: idParams, headers: conditionHeaders, body: jsonBody(householdSchema) },
  responses: putAnswers(householdSchema, 'Replaced.', 'Created.'),
});

const deleteRoute = createRoute({
  method: 'delete',
  path: '/api/households/{id}',
  summary: 'Delete a household that no running plan rests on',
  request: { params: idParams, headers: conditionHeaders },
  responses: { 204: { description: 'Deleted.' }, ...WRITE_PROBLEMS, ...REVISION_PROBLEMS, ...CONFLICT },
});

export function householdRoutes(services: Services) {
  const { store, newId, clock } = services;
  return new OpenAPIHono()
    .openapi(listRoute, async (c) => {
      return c.json({ items: await listBodies(store, 'households') }, 200);
    })
    .openapi(
      createHouseholdRoute,
      async (c) => {
        const sent = c.req.valid('json');
        const household = { ...sent, id: sent.id ?? newId() };
        requireSoundHousehold(household);
        await requireKnownAvoids(store, household);
        const { rev, body } = await createDocument(services, 'households', household);
        return c.json(body, 201, { etag: etagOf(rev), location: `/api/households/${body.id}` });
      },
      refuseInvalid(createHouseholdRoute),
    )
    .openapi(
      readRoute,
      async (c) => {
        return documentOrNotModified(c, await readOrRefuse(services, 'households', c.req.valid('param').id));
      },
      refuseInvalid(readRoute),
    )
    .openapi(
      putRoute,
      async (c) => {
        const household = c.req.valid('json');
        requireSoundHousehold(household);
        await requireKnownAvoids(store, household);
        const { created, document } = await putDocument(
          services,
          'households',
          c.req.valid('param').id,
          household,
          conditionsOf(c),
        );
        return c.json(document.body, created ? 201 : 200, { etag: etagOf(document.rev) });
      },
      refuseInvalid(putRoute),
    )
    .openapi(
      deleteRoute,
      async (c) => {
        const { id: householdId } = c.req.valid('param');
        const plans = await listBodies(store, 'plans');
        const users = runningPlans(plans, clock.now()).filter((plan) => plan.request.householdId === householdId);
        if (users.length > 0) {
          throw new RefusedError(
            'in-use',
            'A plan that still runs rests on this household. Delete that plan first, or wait until it is over.',
            {
              extensions: { usedBy: users.map((plan) => `/api/plans/${plan.id}`) },
            },
          );
        }
        await removeDocument(services, 'households', householdId, conditionsOf(c));
        // Its records say nothing without it.
        for (const { rev, body } of await listDocuments(store, 'measurements')) {
          if (body.householdId === householdId) await deleteDocument(store, 'measurements', body.id, rev, newId());
        }
        return c.body(null, 204);
      },
      refuseInvalid(deleteRoute),
    );
}
