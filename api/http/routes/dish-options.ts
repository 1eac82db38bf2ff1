/** One dish, every way this household can cook it. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import type { DishOption } from '../../planning/questions/dish-options.ts';
import { dishOptions } from '../../planning/questions/dish-options.ts';
import { stockLots } from '../../planning/stock-lots.ts';
import { listBodies, readDocument } from '../../storage/collections.ts';
import { requireSoundHousehold } from '../check-references.ts';
import { measurementsOf, withFoodsOfTests } from '../household-records.ts';
import { ownFoodsOf, requireKnownAvoids, requireSoundKit, withOwnFoods } from '../own-foods.ts';
import { refuseField } from '../problem.ts';
import { answer, jsonBody, WRITE_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { dishOptionsSchema, explainQuery, stepsDescribed } from '../schemas-calculators.ts';
import type { Services } from '../services.ts';
import { z } from '../zod.ts';

const option = z
  .custom<DishOption>()
  .openapi({
    type: 'object',
    required: ['method', 'fuel', 'waterL', 'minutes', 'leadHours', 'verdict', 'reason', 'wayOut'],
    properties: {
      explanation: stepsDescribed('With explain=1 and verdict ok: the steps; the last is the fuel.'),
    },
    description: 'One way of cooking, or why it is refused and what to do instead.',
  })
  .meta({ id: 'DishOption' });

const dishOptionsRoute = createRoute({
  method: 'post',
  path: '/api/dish-options',
  summary: 'Every way to cook a dish, ranked, refused ones last with reason and way out',
  request: { query: explainQuery, body: jsonBody(dishOptionsSchema) },
  responses: { 200: answer(z.object({ options: z.array(option) }), 'Ranked ways.'), ...WRITE_PROBLEMS },
});

export function dishOptionRoutes({ store }: Services) {
  return new OpenAPIHono().openapi(
    dishOptionsRoute,
    async (c) => {
      const { householdId, kitId, household: ownHousehold, kit: ownKit, ...rest } = c.req.valid('json');
      if ((ownHousehold === undefined) === (householdId === undefined)) {
        throw refuseField(['householdId'], 'Give either a household or the id of one.');
      }
      if ((ownKit === undefined) === (kitId === undefined)) {
        throw refuseField(['kitId'], 'Give either a kit or the id of one.');
      }
      if (ownHousehold !== undefined) {
        requireSoundHousehold(ownHousehold, ['household']);
        await requireKnownAvoids(store, ownHousehold, ['household']);
      }
      if (ownKit !== undefined) await requireSoundKit(store, ownKit, ['kit']);
      const ownFoods = await ownFoodsOf(store);
      const household = ownHousehold ?? (await readDocument(store, 'households', householdId ?? ''))?.body;
      const kit = ownKit ?? (await readDocument(store, 'kits', kitId ?? ''))?.body;
      if (household === undefined) {
        throw refuseField(['householdId'], 'There is no household of this id.', { value: householdId });
      }
      if (kit === undefined) throw refuseField(['kitId'], 'There is no kit of this id.', { value: kitId });
      // A household that is sent with the question has no records of its own.
      const own =
        householdId === undefined
          ? {}
          : {
              measurements: withFoodsOfTests(await measurementsOf(store, householdId), ownFoods),
              lots: stockLots(await listBodies(store, 'stock')),
            };
      const explain = c.req.valid('query').explain === '1';
      return c.json(
        { options: dishOptions({ ...rest, ...own, household, kit: withOwnFoods(kit, ownFoods), explain }) },
        200,
      );
    },
    refuseInvalid(dishOptionsRoute),
  );
}
