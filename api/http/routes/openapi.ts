/** The description of the API, made from the same schemas that requests are checked against. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import { answer, READ_PROBLEMS } from '../problem-answers.ts';
import type { Services } from '../services.ts';
import { z } from '../zod.ts';

const openapiRoute = createRoute({
  method: 'get',
  path: '/api/openapi.json',
  summary: 'This description, OpenAPI 3.1',
  responses: {
    200: answer(z.record(z.string(), z.unknown()), 'An OpenAPI 3.1 document.'),
    ...READ_PROBLEMS,
  },
});

/** @param described gives the app whose routes are described; asked at each request, when all are mounted */
export function openapiRoutes({ programVersion }: Services, described: () => OpenAPIHono) {
  return new OpenAPIHono().openapi(openapiRoute, (c) =>
    c.json(describe(described(), programVersion) as unknown as Record<string, unknown>, 200),
  );
}

function describe(app: OpenAPIHono, version: string) {
  return app.getOpenAPI31Document({
    openapi: '3.1.0',
    info: {
      title: 'Outage kitchen',
      version,
      description:
        'Plans a week of cooking on very little fuel. Units stand in the names of the fields and in `unit`. ' +
        'Uncertain quantities are { p10, p50, p90 }. Refusals are RFC 9457 problems.',
      license: { name: 'MIT' },
    },
    servers: [{ url: '/' }],
  });
}
