/** Health, sources and the shipped tables. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import type { ExplanationFunction } from '../../cooking/derivations/explanation-functions.ts';
import { EXPLANATION_FUNCTIONS } from '../../cooking/derivations/explanation-functions.ts';
import type { Food } from '../../cooking/foods/food.ts';
import { FOODS } from '../../cooking/foods/foods-table.ts';
import type { Fuel } from '../../physics/fuels-table.ts';
import { FUELS } from '../../physics/fuels-table.ts';
import type { InsulationMaterial } from '../../physics/insulation-table.ts';
import { INSULATION_MATERIALS } from '../../physics/insulation-table.ts';
import type { StoveType } from '../../physics/stoves-table.ts';
import { STOVE_TYPES } from '../../physics/stoves-table.ts';
import type { Work } from '../../references/works-cited.ts';
import { WORKS_CITED } from '../../references/works-cited.ts';
import { ownFoodsOf } from '../own-foods.ts';
import { answer, READ_PROBLEMS } from '../problem-answers.ts';
import type { Services } from '../services.ts';
import { z } from '../zod.ts';

/** A list of rows; `what` says what a row is. Rows carry value, unit, source, range and whether they are estimates. */
function rows<Row>(name: string, what: string) {
  const row = z.custom<Row>().openapi({ type: 'object', description: what }).meta({ id: name });
  return answer(z.object({ items: z.array(row) }), what);
}

const healthRoute = createRoute({
  method: 'get',
  path: '/api/health',
  summary: 'Whether the program answers, and which version it is',
  responses: {
    200: answer(
      z
        .object({ status: z.literal('ok'), program: z.string(), solver: z.string(), store: z.literal('ok') })
        .meta({ id: 'Health' }),
      'It answers and can read its store.',
    ),
    ...READ_PROBLEMS,
  },
});

const referencesRoute = createRoute({
  method: 'get',
  path: '/api/references',
  summary: 'Every work that a figure rests on',
  responses: { 200: rows<Work & { key: string }>('Work', 'A work, and how it was seen.'), ...READ_PROBLEMS },
});

const functionsRoute = createRoute({
  method: 'get',
  path: '/api/explanation-functions',
  summary: 'The functions that relations of a derivation name, each written out',
  responses: {
    200: rows<ExplanationFunction & { name: string }>(
      'ExplanationFunction',
      'A function: what it gives, what it takes, its relations line by line, or its rule in words.',
    ),
    ...READ_PROBLEMS,
  },
});

const foodsRoute = createRoute({
  method: 'get',
  path: '/api/foods',
  summary: 'The foods the program knows, and the own ones that were described from a label (`own`)',
  responses: { 200: rows<Food>('Food', 'A food with its sourced parameters.'), ...READ_PROBLEMS },
});

const fuelsRoute = createRoute({
  method: 'get',
  path: '/api/fuels',
  summary: 'The fuels the program knows',
  responses: { 200: rows<Fuel & { id: string }>('Fuel', 'A fuel with its sourced heating value.'), ...READ_PROBLEMS },
});

const stoveTypesRoute = createRoute({
  method: 'get',
  path: '/api/stove-types',
  summary: 'The stove types the program knows',
  responses: {
    200: rows<StoveType & { id: string }>('StoveType', 'A stove type with power, efficiency and start-up fuel.'),
    ...READ_PROBLEMS,
  },
});

const insulationRoute = createRoute({
  method: 'get',
  path: '/api/insulation-materials',
  summary: 'What a retained-heat box may be made of',
  responses: {
    200: rows<InsulationMaterial & { id: string }>('InsulationMaterial', 'A material with its conductivity.'),
    ...READ_PROBLEMS,
  },
});

/** Rows of a table with their ids. */
function withIds<Row extends object>(table: Readonly<Record<string, Row>>): (Row & { id: string })[] {
  return Object.entries(table).map(([id, row]) => ({ ...row, id }));
}

export function tableRoutes({ store, solver, programVersion }: Services) {
  return new OpenAPIHono()
    .openapi(healthRoute, async (c) => {
      await store.changes(0, 1);
      return c.json(
        { status: 'ok' as const, program: programVersion, solver: solver.version, store: 'ok' as const },
        200,
      );
    })
    .openapi(referencesRoute, (c) =>
      c.json({ items: Object.entries(WORKS_CITED).map(([key, work]) => ({ key, ...(work as Work) })) }, 200),
    )
    .openapi(functionsRoute, (c) =>
      c.json({ items: Object.entries(EXPLANATION_FUNCTIONS).map(([name, written]) => ({ name, ...written })) }, 200),
    )
    .openapi(foodsRoute, async (c) => c.json({ items: [...Object.values(FOODS), ...(await ownFoodsOf(store))] }, 200))
    .openapi(fuelsRoute, (c) => c.json({ items: withIds(FUELS) }, 200))
    .openapi(stoveTypesRoute, (c) => c.json({ items: withIds(STOVE_TYPES) }, 200))
    .openapi(insulationRoute, (c) => c.json({ items: withIds(INSULATION_MATERIALS) }, 200));
}
