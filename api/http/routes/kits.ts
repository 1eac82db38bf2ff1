/** Kits: list, create, read, replace, delete. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import { packableParts, stockKitIdIn } from '../../cooking/dishes/part-choices.ts';
import { stockTotals } from '../../planning/stock-lots.ts';
import { listBodies } from '../../storage/collections.ts';
import { etagOf } from '../etag.ts';
import { requireSoundKit } from '../own-foods.ts';
import { RefusedError, refuseField } from '../problem.ts';
import { answer, CONFLICT, jsonBody, READ_PROBLEMS, REVISION_PROBLEMS, WRITE_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { runningPlans } from '../running-plans.ts';
import { kitSchema, newKitSchema } from '../schemas-kit.ts';
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

const listRoute = createRoute({
  method: 'get',
  path: '/api/kits',
  summary: 'All kits',
  responses: { 200: answer(z.object({ items: z.array(kitSchema) }), 'By id.'), ...READ_PROBLEMS },
});

const createKitRoute = createRoute({
  method: 'post',
  path: '/api/kits',
  summary: 'Create a kit; the id may be left to the server',
  request: { body: jsonBody(newKitSchema) },
  responses: { 201: answer(kitSchema, 'Created.'), ...WRITE_PROBLEMS, ...CONFLICT },
});

const readRoute = createRoute({
  method: 'get',
  path: '/api/kits/{id}',
  summary: 'One kit, with its revision as ETag',
  request: { params: idParams },
  responses: readAnswers(kitSchema, 'The kit.'),
});

const putRoute = createRoute({
  method: 'put',
  path: '/api/kits/{id}',
  summary: 'Create (If-None-Match: *) or replace (If-Match) a kit',
  request: { params: idParams, headers: conditionHeaders, body: jsonBody(kitSchema) },
  responses: putAnswers(kitSchema, 'Replaced.', 'Created.'),
});

const deleteRoute = createRoute({
  method: 'delete',
  path: '/api/kits/{id}',
  summary: 'Delete a kit that is neither in stock nor in a running plan',
  request: { params: idParams, headers: conditionHeaders },
  responses: { 204: { description: 'Deleted.' }, ...WRITE_PROBLEMS, ...REVISION_PROBLEMS, ...CONFLICT },
});

export function kitRoutes(services: Services) {
  const { store, newId, clock } = services;
  const lotsOf = async (kitId: string) => {
    const entries = await listBodies(store, 'stock');
    return stockTotals(entries.filter((entry) => entry.kitId === kitId)).filter((lot) => lot.quantity > 0);
  };
  return new OpenAPIHono()
    .openapi(listRoute, async (c) => {
      return c.json({ items: await listBodies(store, 'kits') }, 200);
    })
    .openapi(
      createKitRoute,
      async (c) => {
        const sent = c.req.valid('json');
        const kit = { ...sent, id: sent.id ?? newId() };
        await requireSoundKit(store, kit);
        const { rev, body } = await createDocument(services, 'kits', kit);
        return c.json(body, 201, { etag: etagOf(rev), location: `/api/kits/${body.id}` });
      },
      refuseInvalid(createKitRoute),
    )
    .openapi(
      readRoute,
      async (c) => {
        return documentOrNotModified(c, await readOrRefuse(services, 'kits', c.req.valid('param').id));
      },
      refuseInvalid(readRoute),
    )
    .openapi(
      putRoute,
      async (c) => {
        const kit = c.req.valid('json');
        const { id } = c.req.valid('param');
        await requireSoundKit(store, kit);
        const parts = new Set(packableParts(kit).map((part) => part.id));
        const orphan = (await lotsOf(id)).find((lot) => !parts.has(lot.partId));
        if (orphan !== undefined) {
          throw refuseField(['parts'], `The part ${orphan.partId} is still in stock and cannot be left out.`);
        }
        const { created, document } = await putDocument(services, 'kits', id, kit, conditionsOf(c));
        return c.json(document.body, created ? 201 : 200, { etag: etagOf(document.rev) });
      },
      refuseInvalid(putRoute),
    )
    .openapi(
      deleteRoute,
      async (c) => {
        const { id } = c.req.valid('param');
        const lots = await lotsOf(id);
        const plans = await listBodies(store, 'plans');
        const users = runningPlans(plans, clock.now()).filter((plan) =>
          plan.cookings.some((cooking) => stockKitIdIn(plan.resolved.kits, cooking.kitId) === id),
        );
        if (lots.length > 0 || users.length > 0) {
          throw new RefusedError(
            'in-use',
            'This kit is in stock, or a plan that still runs cooks it. Count its sets out of the store, or wait until that plan is over.',
            {
              extensions: { inStock: lots, usedBy: users.map((plan) => `/api/plans/${plan.id}`) },
            },
          );
        }
        await removeDocument(services, 'kits', id, conditionsOf(c));
        return c.body(null, 204);
      },
      refuseInvalid(deleteRoute),
    );
}
