/** A household's first minutes: the household, the kits it has and what is in store of them, written all or nothing. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import type { Kit } from '../../cooking/dishes/kit.ts';
import type { StockEntry } from '../../planning/plan-types.ts';
import { createTogether, listBodies } from '../../storage/collections.ts';
import { demoKits } from '../../storage/demo-kits.ts';
import { requireSoundHousehold } from '../check-references.ts';
import { requireKnownAvoids } from '../own-foods.ts';
import { jsonPointer, RefusedError, refuseField } from '../problem.ts';
import { answer, CONFLICT, jsonBody, READ_PROBLEMS, WRITE_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { count, date, dateTime, id } from '../schema-values.ts';
import { householdSchema } from '../schemas-household.ts';
import { kitSchema, stockEntrySchema } from '../schemas-kit.ts';
import type { Services } from '../services.ts';
import { z } from '../zod.ts';

const readyMadeRoute = createRoute({
  method: 'get',
  path: '/api/ready-made-kits',
  summary: 'Kits that ship with the program, whether they are stored or not',
  responses: { 200: answer(z.object({ items: z.array(kitSchema) }), 'In the order of the day.'), ...READ_PROBLEMS },
});

const startSchema = z
  .strictObject({
    household: householdSchema,
    // Kits are the stored one of this id or else the one that ships with the program.
    sets: z.array(z.strictObject({ kitId: id, sets: count(1, 1000) })).max(200),
    packedOn: date,
    at: dateTime,
  })
  .meta({ id: 'Start', description: 'A new household with the sets it has in store.' });

const startRoute = createRoute({
  method: 'post',
  path: '/api/starts',
  summary: 'Create a household with its first stock, all or nothing',
  request: { body: jsonBody(startSchema) },
  responses: {
    201: answer(
      z.object({ household: householdSchema, kits: z.array(kitSchema), stock: z.array(stockEntrySchema) }),
      'The household, the kits that were not stored before, and the entries of the ledger.',
    ),
    ...WRITE_PROBLEMS,
    ...CONFLICT,
  },
});

export function startRoutes({ store, newId }: Services) {
  return new OpenAPIHono()
    .openapi(readyMadeRoute, (c) => c.json({ items: demoKits() }, 200))
    .openapi(
      startRoute,
      async (c) => {
        const { household, sets, packedOn, at } = c.req.valid('json');
        requireSoundHousehold(household, ['household']);
        await requireKnownAvoids(store, household, ['household']);
        const [place] = household.places;
        await refuseSharedPlaces(household.places.map((one) => one.id));
        const stored = await listBodies(store, 'kits');
        const kits: Kit[] = [];
        const stock: StockEntry[] = [];
        sets.forEach(({ kitId, sets: howMany }, index) => {
          const known = [...stored, ...kits].find((kit) => kit.id === kitId);
          const kit = known ?? demoKits().find((one) => one.id === kitId);
          if (kit === undefined) throw refuseField(['sets', index, 'kitId'], 'No kit has this id.', { value: kitId });
          if (known === undefined) kits.push(kit);
          for (const part of kit.parts) {
            const quantity = howMany * (part.containersPerSet ?? 1);
            if (quantity > 10_000) {
              const range = { value: howMany, minimum: 1, maximum: 10_000 / (part.containersPerSet ?? 1), unit: '1' };
              throw refuseField(['sets', index, 'sets'], 'More containers than one entry of the ledger holds.', range);
            }
            const lot = { kitId, partId: part.id, placeId: place?.id ?? '', packedOn, useBy: null };
            stock.push({ id: newId(), ...lot, quantity, reason: 'packed', at });
          }
        });
        const written = await createTogether(store, { households: [household], kits, stock }, newId());
        if (written.outcome === 'conflict') {
          throw new RefusedError(
            'already-there',
            `The id ${written.key} is taken. Nothing was stored; take another id.`,
            {
              errors: [{ pointer: '#/household/id', detail: 'This id is taken.', value: household.id }],
            },
          );
        }
        return c.json({ household, kits, stock }, 201, { location: `/api/households/${household.id}` });
      },
      refuseInvalid(startRoute),
    );

  /** Stock belongs to a place: a place that another household has too would hand over that household's stock. */
  async function refuseSharedPlaces(placeIds: readonly string[]) {
    const others = (await listBodies(store, 'households')).flatMap((one) => one.places.map((place) => place.id));
    const errors = placeIds.flatMap((placeId, index) =>
      others.includes(placeId)
        ? [
            {
              pointer: jsonPointer(['household', 'places', index, 'id']),
              detail: 'Another household has a place of this id, and what is in store there would be counted twice.',
              value: placeId,
            },
          ]
        : [],
    );
    if (errors.length > 0) {
      throw new RefusedError('invalid-input', 'The household names places of another one. Nothing was stored.', {
        errors,
      });
    }
  }
}
