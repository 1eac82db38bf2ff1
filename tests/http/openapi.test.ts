import { Validator } from '@seriousme/openapi-schema-validator';
import { beforeAll, describe, expect, it } from 'vitest';
import { type TestApp, testApp } from './test-app.ts';

type Json = Record<string, unknown>;
interface Operation {
  summary?: string;
  requestBody?: { content: { 'application/json'?: { schema: { $ref?: string } } } };
  responses: Record<string, unknown>;
}
interface Document {
  openapi: string;
  paths: Record<string, Record<string, Operation>>;
  components: { schemas: Record<string, Json & { examples?: unknown[] }> };
}

let test: TestApp;
let document: Document;
beforeAll(async () => {
  test = await testApp();
  document = (await (await test.get('/api/openapi.json')).json()) as Document;
});

/** Every schema object in a value, with where it is. */
function* schemasIn(value: unknown, where: string): Generator<{ where: string; schema: Json }> {
  if (typeof value !== 'object' || value === null) return;
  if (!Array.isArray(value) && ('type' in value || 'anyOf' in value)) yield { where, schema: value as Json };
  for (const [key, inner] of Object.entries(value)) {
    if (key !== 'examples' && key !== 'enum') yield* schemasIn(inner, `${where}/${key}`);
  }
}

describe('the description of the API', () => {
  it('is a valid OpenAPI 3.1 document by the official schema', async () => {
    expect(document.openapi).toBe('3.1.0');
    const result = await new Validator().validate(structuredClone(document) as never);
    expect(result.errors ?? []).toEqual([]);
    expect(result.valid).toBe(true);
  });

  it('describes every route that the app answers, and the app answers every route that it describes', () => {
    const served = new Set(
      test.app.routes
        .filter((route) => route.method !== 'ALL')
        .map((route) => `${route.method} ${route.path.replace(/:(\w+)/g, '{$1}')}`),
    );
    const described = new Set(
      Object.entries(document.paths).flatMap(([path, operations]) =>
        Object.keys(operations).map((method) => `${method.toUpperCase()} ${path}`),
      ),
    );
    expect([...described].sort()).toEqual([...served].sort());
    expect(described.size).toBeGreaterThan(20);
  });

  it('says of every route what it is for and which problems it answers with', () => {
    for (const [path, operations] of Object.entries(document.paths)) {
      for (const [method, operation] of Object.entries(operations)) {
        const name = `${method} ${path}`;
        expect(operation.summary, name).toMatch(/\S/);
        expect(Object.keys(operation.responses), name).toEqual(expect.arrayContaining(['403', '500']));
        if (method !== 'get') expect(Object.keys(operation.responses), name).toContain('415');
        if (path.includes('{id}') && method !== 'post') expect(Object.keys(operation.responses), name).toContain('404');
      }
    }
  });

  it('gives every number its unit', () => {
    const without: string[] = [];
    for (const { where, schema } of schemasIn(document, '#')) {
      const types = [schema.type].flat();
      if ((types.includes('number') || types.includes('integer')) && typeof schema.unit !== 'string')
        without.push(where);
    }
    expect(without).toEqual([]);
  });

  it('names the unit in the name of every measured field that is sent', () => {
    // Fields whose unit cannot stand in the name, with the reason.
    const plain = new Set([
      'litres', // the unit is the name
      'hours', // the unit is the name
      'days', // the unit is the name
    ]);
    const endings: Record<string, RegExp> = {
      C: /C$/,
      m: /M$/,
      L: /L(PerPersonMeal)?$/,
      kg: /Kg$/,
      g: /G$/,
      kW: /KW$/,
      kWh: /KWh$/,
      'kWh/d': /KWh$/,
      kPa: /KPa$/,
      mm: /Mm$/,
      mL: /Ml$/,
      min: /[mM]inutes/,
      'min/d': /Minutes/,
      h: /[hH]ours/,
      y: /years$/,
      s: /S$/,
      MJ: /MJ$/,
      kJ: /KJ$/,
      '%': /Percent$/,
      'L/d': /L(Per(Person)?Day)$|LPerPersonDay$/,
      'kg/d': /Kg$/,
      'W/(m K)': /WPerMK$/,
      'kJ/(kg K)': /KJPerKgK$/,
    };
    const wrong: string[] = [];
    for (const name of [...DOCUMENTS, ...QUESTIONS]) {
      for (const { where, schema } of schemasIn(document.components.schemas[name], name)) {
        const unit = schema.unit;
        const field =
          where
            .split('/')
            .filter((step) => !['anyOf', '0', '1', 'items'].includes(step))
            .at(-1) ?? '';
        if (typeof unit !== 'string' || unit === '1' || plain.has(field)) continue;
        if (!(endings[unit]?.test(field) ?? false)) wrong.push(`${where} in ${unit}`);
      }
    }
    expect(wrong).toEqual([]);
  });

  it('gives a closed range to every number that is sent, and refuses unknown fields everywhere', () => {
    for (const name of [...DOCUMENTS, ...QUESTIONS]) {
      expect(document.components.schemas[name], name).toBeDefined();
      for (const { where, schema } of schemasIn(document.components.schemas[name], name)) {
        const types = [schema.type].flat();
        if (types.includes('number') || types.includes('integer')) {
          expect(Number.isFinite(schema.minimum), where).toBe(true);
          expect(Number.isFinite(schema.maximum), where).toBe(true);
        }
        if (types.includes('object') && where !== name) expect(schema.additionalProperties, where).toBe(false);
        if (types.includes('array')) expect(schema.maxItems, where).toBeGreaterThan(0);
      }
    }
  });

  it('has examples that the API answers', async () => {
    for (const [path, operations] of Object.entries(document.paths)) {
      const reference = operations.post?.requestBody?.content['application/json']?.schema.$ref;
      const name = reference?.split('/').at(-1) ?? '';
      if (!QUESTIONS.includes(name)) continue;
      const examples = document.components.schemas[name]?.examples ?? [];
      expect(examples.length, name).toBeGreaterThan(0);
      for (const example of examples) expect((await test.send('POST', path, example)).status, name).toBe(200);
    }
  });
});

const DOCUMENTS = ['Household', 'Kit', 'StockEntry', 'PlanRequest', 'EnduranceRequest', 'PlanQuestion'];
const QUESTIONS = ['SoakingQuestion', 'CookTimeQuestion', 'FuelUseQuestion', 'CoolingQuestion'];
