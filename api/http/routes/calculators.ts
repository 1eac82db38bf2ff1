/** The calculators: pure questions and answers. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import { answerBoilingPoint } from '../../cooking/calculators/answer-boiling-point.ts';
import { answerCookTime } from '../../cooking/calculators/answer-cook-time.ts';
import { answerCooling } from '../../cooking/calculators/answer-cooling.ts';
import { answerFuelUse } from '../../cooking/calculators/answer-fuel-use.ts';
import { answerSoaking } from '../../cooking/calculators/answer-soaking.ts';
import { explainBoilingPoint } from '../../cooking/derivations/explain-boiling-point.ts';
import { explainCookTime } from '../../cooking/derivations/explain-cook-time.ts';
import { explainCoolingTable } from '../../cooking/derivations/explain-cooling.ts';
import { explainFuelUse } from '../../cooking/derivations/explain-fuel-use.ts';
import { explainSoaking } from '../../cooking/derivations/explain-soaking.ts';
import { explained } from '../explained.ts';
import { requireKnownFoods, withOwnFood } from '../own-foods.ts';
import { answer, jsonBody, READ_PROBLEMS, WRITE_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import {
  boilingPointAnswer,
  boilingPointQuery,
  cookTimeAnswer,
  cookTimeSchema,
  coolingAnswer,
  coolingSchema,
  explainQuery,
  fuelUseAnswer,
  fuelUseSchema,
  soakingAnswer,
  soakingSchema,
} from '../schemas-calculators.ts';
import type { Services } from '../services.ts';

const boilingPointRoute = createRoute({
  method: 'get',
  path: '/api/boiling-point',
  summary: 'At what temperature water boils, from elevation or a barometer',
  request: { query: boilingPointQuery },
  responses: { 200: answer(boilingPointAnswer, 'The boiling point, in words too.'), ...READ_PROBLEMS },
});

const soakingRoute = createRoute({
  method: 'post',
  path: '/api/soaking',
  summary: 'What a soak does, how much water it takes and how long it may stand',
  request: { query: explainQuery, body: jsonBody(soakingSchema) },
  responses: { 200: answer(soakingAnswer, 'Uptake, water and limits.'), ...WRITE_PROBLEMS },
});

const cookTimeRoute = createRoute({
  method: 'post',
  path: '/api/cook-time',
  summary: 'How long a food must boil, and whether that is safe',
  request: { query: explainQuery, body: jsonBody(cookTimeSchema) },
  responses: { 200: answer(cookTimeAnswer, 'Minutes and the verdict on lectin.'), ...WRITE_PROBLEMS },
});

const fuelUseRoute = createRoute({
  method: 'post',
  path: '/api/fuel-use',
  summary: 'What heating and holding a pot takes of a fuel',
  request: { query: explainQuery, body: jsonBody(fuelUseSchema) },
  responses: { 200: answer(fuelUseAnswer, 'Heat, fuel, time and the physical floor.'), ...WRITE_PROBLEMS },
});

const coolingRoute = createRoute({
  method: 'post',
  path: '/api/cooling',
  summary: 'How a pot, box or flask cools',
  request: { query: explainQuery, body: jsonBody(coolingSchema) },
  responses: { 200: answer(coolingAnswer, 'Temperatures over time.'), ...WRITE_PROBLEMS },
});

export function calculatorRoutes({ store }: Services) {
  /** A question about one food, with its row where it is an own one. */
  const aboutFood = async <Question extends { foodId: string }>(question: Question): Promise<Question> =>
    withOwnFood(question, await requireKnownFoods(store, [{ foodId: question.foodId, at: ['foodId'] }]));
  return new OpenAPIHono()
    .openapi(
      boilingPointRoute,
      (c) => {
        const { explain, ...question } = c.req.valid('query');
        return c.json(explained(answerBoilingPoint, explainBoilingPoint, question, { explain }), 200);
      },
      refuseInvalid(boilingPointRoute),
    )
    .openapi(
      soakingRoute,
      async (c) =>
        c.json(
          explained(answerSoaking, explainSoaking, await aboutFood(c.req.valid('json')), c.req.valid('query')),
          200,
        ),
      refuseInvalid(soakingRoute),
    )
    .openapi(
      cookTimeRoute,
      async (c) =>
        c.json(
          explained(answerCookTime, explainCookTime, await aboutFood(c.req.valid('json')), c.req.valid('query')),
          200,
        ),
      refuseInvalid(cookTimeRoute),
    )
    .openapi(
      fuelUseRoute,
      async (c) => {
        const question = c.req.valid('json');
        const named = (question.foods ?? []).map(({ foodId }, index) => ({ foodId, at: ['foods', index, 'foodId'] }));
        const own = await requireKnownFoods(store, named);
        const foods = question.foods?.map((food) => withOwnFood(food, own));
        const resolved = { ...question, ...(foods === undefined ? {} : { foods }) };
        return c.json(explained(answerFuelUse, explainFuelUse, resolved, c.req.valid('query')), 200);
      },
      refuseInvalid(fuelUseRoute),
    )
    .openapi(
      coolingRoute,
      (c) => c.json(explained(answerCooling, explainCoolingTable, c.req.valid('json'), c.req.valid('query')), 200),
      refuseInvalid(coolingRoute),
    );
}
