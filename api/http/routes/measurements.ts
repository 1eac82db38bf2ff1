/** Own tests: list with what each did, record, read, correct, remove; and the figures that follow from them. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import { explainLearnedFigures } from '../../cooking/derivations/explain-learned.ts';
import type { MeasurementEffect } from '../../cooking/measurements/learned.ts';
import type { Measurement } from '../../cooking/measurements/measurements.ts';
import { listBodies } from '../../storage/collections.ts';
import { etagOf } from '../etag.ts';
import { learnedOf, measurementsOf, requireSoundMeasurement } from '../household-records.ts';
import { RefusedError } from '../problem.ts';
import {
  answer,
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
import { effectAnswer, learnedAnswer, measurementSchema, newMeasurementSchema } from '../schemas-measurements.ts';
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

const recorded = z
  .object({ measurement: measurementSchema, effect: effectAnswer })
  .meta({ id: 'RecordedMeasurement', description: 'The record, and whether it counts.' });

const listRoute = createRoute({
  method: 'get',
  path: '/api/measurements',
  summary: 'All records of own tests, or those of a household, with what each did',
  request: { query: z.strictObject({ householdId: id.optional() }) },
  responses: {
    200: answer(
      z.object({ items: z.array(measurementSchema), effects: z.array(effectAnswer) }),
      'Records by id; effects by the time of the record.',
    ),
    ...READ_PROBLEMS,
  },
});

const recordRoute = createRoute({
  method: 'post',
  path: '/api/measurements',
  summary: 'Record a test; one far from what was expected is kept, questioned, and counts when it is confirmed',
  request: { body: jsonBody(newMeasurementSchema) },
  responses: { 201: answer(recorded, 'Recorded.'), ...WRITE_PROBLEMS, ...CONFLICT },
});

const readRoute = createRoute({
  method: 'get',
  path: '/api/measurements/{id}',
  summary: 'One record, with its revision as ETag',
  request: { params: idParams },
  responses: readAnswers(measurementSchema, 'The record.'),
});

const putRoute = createRoute({
  method: 'put',
  path: '/api/measurements/{id}',
  summary: 'Correct or confirm (If-Match) or create (If-None-Match: *) a record',
  request: { params: idParams, headers: conditionHeaders, body: jsonBody(measurementSchema) },
  responses: putAnswers(recorded, 'Replaced.', 'Created.'),
});

const deleteRoute = createRoute({
  method: 'delete',
  path: '/api/measurements/{id}',
  summary: 'Remove a record; the figures are then what they were without it',
  request: { params: idParams, headers: conditionHeaders },
  responses: { 204: { description: 'Removed.' }, ...WRITE_PROBLEMS, ...REVISION_PROBLEMS },
});

const learnedRoute = createRoute({
  method: 'get',
  path: '/api/households/{id}/learned',
  summary: "The household's figures: of the table, stated, and with its own tests, in words too",
  request: { params: idParams, query: explainQuery },
  responses: { 200: answer(learnedAnswer, 'Figures and what they rest on.'), ...FOUND_PROBLEMS },
});

export function measurementRoutes(services: Services) {
  const { store, newId } = services;

  const effectOf = async (record: Measurement): Promise<MeasurementEffect> => {
    const learned = await learnedOf(store, record.householdId);
    return learned?.effects.find((effect) => effect.id === record.id) ?? withoutHousehold(record);
  };

  return new OpenAPIHono()
    .openapi(
      listRoute,
      async (c) => {
        const { householdId } = c.req.valid('query');
        const items =
          householdId === undefined
            ? await listBodies(store, 'measurements')
            : await measurementsOf(store, householdId);
        const effects: MeasurementEffect[] = [];
        for (const household of new Set(items.map((record) => record.householdId))) {
          const own = items.filter((record) => record.householdId === household);
          effects.push(...((await learnedOf(store, household, own))?.effects ?? own.map(withoutHousehold)));
        }
        return c.json({ items, effects }, 200);
      },
      refuseInvalid(listRoute),
    )
    .openapi(
      recordRoute,
      async (c) => {
        const sent = c.req.valid('json');
        const record: Measurement = { ...sent, id: sent.id ?? newId() };
        await requireSoundMeasurement(store, record);
        const { rev, body } = await createDocument(services, 'measurements', record);
        const effect = await effectOf(body);
        return c.json({ measurement: body, effect }, 201, {
          etag: etagOf(rev),
          location: `/api/measurements/${body.id}`,
        });
      },
      refuseInvalid(recordRoute),
    )
    .openapi(
      readRoute,
      async (c) => {
        return documentOrNotModified(c, await readOrRefuse(services, 'measurements', c.req.valid('param').id));
      },
      refuseInvalid(readRoute),
    )
    .openapi(
      putRoute,
      async (c) => {
        const record = c.req.valid('json');
        await requireSoundMeasurement(store, record);
        const { created, document } = await putDocument(
          services,
          'measurements',
          c.req.valid('param').id,
          record,
          conditionsOf(c),
        );
        const effect = await effectOf(document.body);
        return c.json({ measurement: document.body, effect }, created ? 201 : 200, { etag: etagOf(document.rev) });
      },
      refuseInvalid(putRoute),
    )
    .openapi(
      deleteRoute,
      async (c) => {
        await removeDocument(services, 'measurements', c.req.valid('param').id, conditionsOf(c));
        return c.body(null, 204);
      },
      refuseInvalid(deleteRoute),
    )
    .openapi(
      learnedRoute,
      async (c) => {
        const { id: householdId } = c.req.valid('param');
        const learned = await learnedOf(store, householdId);
        if (learned === null) throw new RefusedError('not-found', `There is no ${householdId}.`);
        const { effects: _effects, ...figures } = learned;
        return c.json(c.req.valid('query').explain === '1' ? explainLearnedFigures(figures) : figures, 200);
      },
      refuseInvalid(learnedRoute),
    );
}

/** A record whose household is gone: kept, but of no use. */
function withoutHousehold({ id: recordId }: Measurement): MeasurementEffect {
  const reason = 'Its household is not there.';
  return { id: recordId, use: 'not-used', question: null, reason, expected: [] };
}
