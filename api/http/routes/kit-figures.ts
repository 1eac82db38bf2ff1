/** What a kit comes to while somebody puts it together. Nothing is kept. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import { type KitFigures, kitFigures } from '../../cooking/dishes/kit-figures.ts';
import { readDocument } from '../../storage/collections.ts';
import { requireSoundKit, withOwnFoods } from '../own-foods.ts';
import { refuseField } from '../problem.ts';
import { answer, jsonBody, WRITE_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { id } from '../schema-values.ts';
import { kitSchema } from '../schemas-kit.ts';
import type { Services } from '../services.ts';
import { z } from '../zod.ts';

const USUAL_STORAGE_C = 18;

const figures = z
  .custom<KitFigures>()
  .openapi({
    type: 'object',
    required: ['nutrition', 'parts', 'shortest', 'leastFuel', 'guessed', 'cautions'],
    description: 'Energy, protein, salt, water, the shortest and the most frugal way, and what to mind.',
  })
  .meta({ id: 'KitFigures' });

const figuresRoute = createRoute({
  method: 'post',
  path: '/api/kit-figures',
  summary: 'What a kit feeds and takes to cook, before it is stored',
  request: {
    body: jsonBody(
      z
        .strictObject({ kit: kitSchema, householdId: id.optional(), placeId: id.optional() })
        .meta({ id: 'KitFiguresQuestion' }),
    ),
  },
  responses: { 200: answer(figures, 'The figures.'), ...WRITE_PROBLEMS },
});

export function kitFigureRoutes({ store }: Services) {
  return new OpenAPIHono().openapi(
    figuresRoute,
    async (c) => {
      const { kit, householdId, placeId } = c.req.valid('json');
      const own = await requireSoundKit(store, kit, ['kit']);
      const household = householdId === undefined ? null : await readDocument(store, 'households', householdId);
      if (householdId !== undefined && household === null)
        throw refuseField(['householdId'], 'There is no household of this id.', { value: householdId });
      const places = household?.body.places ?? [];
      const place = placeId === undefined ? places[0] : places.find((one) => one.id === placeId);
      if (placeId !== undefined && place === undefined)
        throw refuseField(['placeId'], 'The household has no place of this id.', { value: placeId });
      const storageC = place?.storageC ?? USUAL_STORAGE_C;
      return c.json(kitFigures(withOwnFoods(kit, own), household?.body ?? null, place?.id ?? null, storageC), 200);
    },
    refuseInvalid(figuresRoute),
  );
}
