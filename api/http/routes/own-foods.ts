/** Own foods: describe, read, change, delete; the list stands among the tables' foods. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import { findFood } from '../../cooking/foods/foods-table.ts';
import { listBodies } from '../../storage/collections.ts';
import { etagOf } from '../etag.ts';
import { foodsNamedIn } from '../own-foods.ts';
import { RefusedError, refuseField } from '../problem.ts';
import { answer, CONFLICT, jsonBody, READ_PROBLEMS, REVISION_PROBLEMS, WRITE_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { runningPlans } from '../running-plans.ts';
import { ownFoodOf, ownFoodSchema } from '../schemas-food.ts';
import type { Services } from '../services.ts';
import { putDocument, readOrRefuse, removeDocument } from '../write-document.ts';
import { z } from '../zod.ts';
import {
  conditionHeaders,
  conditionsOf,
  documentOrNotModified,
  idParams,
  putAnswers,
  readAnswers,
} from './documents.ts';

const listRoute = createRoute({
  method: 'get',
  path: '/api/own-foods',
  summary: 'The foods that were described from a label',
  responses: { 200: answer(z.object({ items: z.array(ownFoodSchema) }), 'By id.'), ...READ_PROBLEMS },
});

const readRoute = createRoute({
  method: 'get',
  path: '/api/foods/{id}',
  summary: 'One own food as its label was typed in, with its revision as ETag',
  request: { params: idParams },
  responses: readAnswers(ownFoodSchema, 'The label.'),
});

const putRoute = createRoute({
  method: 'put',
  path: '/api/foods/{id}',
  summary: 'Describe an own food (If-None-Match: *) or change one (If-Match)',
  request: { params: idParams, headers: conditionHeaders, body: jsonBody(ownFoodSchema) },
  responses: putAnswers(ownFoodSchema, 'Changed.', 'Described.'),
});

const deleteRoute = createRoute({
  method: 'delete',
  path: '/api/foods/{id}',
  summary: 'Delete an own food that no kit and nobody names',
  request: { params: idParams, headers: conditionHeaders },
  responses: { 204: { description: 'Deleted.' }, ...WRITE_PROBLEMS, ...REVISION_PROBLEMS, ...CONFLICT },
});

export function ownFoodRoutes(services: Services) {
  const { store, clock } = services;
  return new OpenAPIHono()
    .openapi(listRoute, async (c) => c.json({ items: await listBodies(store, 'foods') }, 200))
    .openapi(
      readRoute,
      async (c) => {
        const { id } = c.req.valid('param');
        if (findFood(id) !== undefined)
          throw new RefusedError('not-found', `${id} is a food of the tables, which GET /api/foods lists.`);
        return documentOrNotModified(c, await readOrRefuse(services, 'foods', id));
      },
      refuseInvalid(readRoute),
    )
    .openapi(
      putRoute,
      async (c) => {
        const label = ownFoodOf(c.req.valid('json'));
        const { id } = c.req.valid('param');
        if (findFood(id) !== undefined)
          throw refuseField(['id'], 'A food of the tables has this id, and those are not changed. Take another id.', {
            value: id,
          });
        const { created, document } = await putDocument(services, 'foods', id, label, conditionsOf(c));
        return c.json(document.body, created ? 201 : 200, { etag: etagOf(document.rev) });
      },
      refuseInvalid(putRoute),
    )
    .openapi(
      deleteRoute,
      async (c) => {
        const { id } = c.req.valid('param');
        const kits = (await listBodies(store, 'kits')).filter((kit) =>
          foodsNamedIn(kit).some(({ foodId }) => foodId === id),
        );
        const households = (await listBodies(store, 'households')).filter((household) =>
          household.people.some((person) => person.avoids?.includes(id)),
        );
        const plans = runningPlans(await listBodies(store, 'plans'), clock.now()).filter((plan) =>
          plan.resolved.kits.some((kit) => foodsNamedIn(kit).some(({ foodId }) => foodId === id)),
        );
        const usedBy = [
          ...kits.map((kit) => `/api/kits/${kit.id}`),
          ...households.map((household) => `/api/households/${household.id}`),
          ...plans.map((plan) => `/api/plans/${plan.id}`),
        ];
        if (usedBy.length > 0) {
          const names = [...kits, ...households].map(({ name }) => name).join(', ');
          throw new RefusedError(
            'in-use',
            `This food is in use${names === '' ? ' in a plan that still runs' : `: ${names}`}. Take it out there first.`,
            { extensions: { usedBy } },
          );
        }
        await removeDocument(services, 'foods', id, conditionsOf(c));
        return c.body(null, 204);
      },
      refuseInvalid(deleteRoute),
    );
}
