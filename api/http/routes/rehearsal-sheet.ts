/** The printable sheet that leads through the tests of a calm day. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import { resolveHousehold } from '../../cooking/household/resolve-household.ts';
import { learnFromMeasurements, withLearned } from '../../cooking/measurements/learn-from-measurements.ts';
import { rehearsalOf } from '../../cooking/measurements/rehearsal.ts';
import { toLocal } from '../../planning/local-time.ts';
import { stockLots } from '../../planning/stock-lots.ts';
import { listBodies, readDocument } from '../../storage/collections.ts';
import { rehearsalHtml } from '../../wording/print/rehearsal-sheet.ts';
import { measurementsOf, withFoodsOfTests } from '../household-records.ts';
import { ownFoodsOf, resolvedKits } from '../own-foods.ts';
import { RefusedError } from '../problem.ts';
import { FOUND_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { id } from '../schema-values.ts';
import type { Services } from '../services.ts';
import { z } from '../zod.ts';

const rehearsalRoute = createRoute({
  method: 'get',
  path: '/api/rehearsal-sheet',
  summary: 'A sheet to print that leads through boil tests, box and flask readings and twenty beans on a calm day',
  request: {
    query: z.strictObject({
      householdId: id,
      units: z.enum(['metric', 'us']).optional(),
      paper: z.enum(['a4', 'letter']).optional(),
    }),
  },
  responses: {
    200: { description: 'HTML for A4 and US Letter alike.', content: { 'text/html': { schema: z.string() } } },
    ...FOUND_PROBLEMS,
  },
});

export function rehearsalSheetRoutes({ store, clock }: Services) {
  return new OpenAPIHono().openapi(
    rehearsalRoute,
    async (c) => {
      const { householdId, units } = c.req.valid('query');
      const document = await readDocument(store, 'households', householdId);
      if (document === null) throw new RefusedError('not-found', `There is no ${householdId}.`);
      const { household } = resolveHousehold(document.body);
      const kits = await resolvedKits(store);
      const places = new Set(household.places.map((place) => place.id));
      const lots = stockLots(await listBodies(store, 'stock')).filter(
        (lot) => lot.quantity > 0 && places.has(lot.placeId),
      );
      const learned = learnFromMeasurements(
        household,
        withFoodsOfTests(await measurementsOf(store, householdId), await ownFoodsOf(store)),
        lots,
      );
      const zone = household.places[0]?.timeZone ?? 'Etc/UTC';
      const today = toLocal(Math.floor(clock.now() / 60_000), zone).slice(0, 10);
      const rehearsal = rehearsalOf(withLearned(household, learned), kits, lots, today, learned.lots);
      return c.html(rehearsalHtml(rehearsal, units ?? 'metric'), 200) as never;
    },
    refuseInvalid(rehearsalRoute),
  );
}
