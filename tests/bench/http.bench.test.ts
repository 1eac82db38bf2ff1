import type { AddressInfo } from 'node:net';
import { createAdaptorServer } from '@hono/node-server';
import { createRoute } from '@hono/zod-openapi';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createApp } from '../../api/http/app.ts';
import { answer, jsonBody } from '../../api/http/problem-answers.ts';
import { refuseInvalid } from '../../api/http/refuse-invalid.ts';
import { cookTimeSchema, coolingSchema, fuelUseSchema, soakingSchema } from '../../api/http/schemas-calculators.ts';
import { z } from '../../api/http/zod.ts';
import { openSqliteStore } from '../../api/runtime/node/sqlite-store.ts';
import { noSolver } from '../http/test-app.ts';
import { loadWith } from './http-load.ts';

const SECONDS = 2;

/** A route that checks the same body against the same schema behind the same guards, and calculates nothing. */
function validating(name: string, schema: z.ZodType) {
  return createRoute({
    method: 'post',
    path: `/api/validate-only/${name}`,
    request: { body: jsonBody(schema) },
    responses: { 200: answer(z.object({ ok: z.boolean() }), 'It fits.') },
  });
}

const CALCULATORS = [
  ['soaking', soakingSchema],
  ['cook-time', cookTimeSchema],
  ['fuel-use', fuelUseSchema],
  ['cooling', coolingSchema],
] as const;

const hosts: string[] = [];
const store = openSqliteStore(':memory:');
const app = createApp({
  store,
  solver: noSolver,
  clock: { now: () => 0 },
  newId: () => 'id',
  programVersion: 'bench',
  allowedHosts: hosts,
});
for (const [name, schema] of CALCULATORS) {
  const route = validating(name, schema);
  app.openapi(route, (c) => c.json({ ok: true }, 200), refuseInvalid(route));
}
const server = createAdaptorServer({ fetch: app.fetch });
let port = 0;
beforeAll(async () => {
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  port = (server.address() as AddressInfo).port;
  hosts.push(`127.0.0.1:${port}`);
});
afterAll(async () => {
  server.close();
  await store.close();
});

describe('calculators over loopback HTTP', () => {
  it.each(CALCULATORS)(
    '%s: at least half the requests per second of only validating its body',
    async (name, schema) => {
      const body = (z.globalRegistry.get(schema as never) as { examples?: unknown[] } | undefined)?.examples?.[0];
      // Warmed up first: the first seconds of a process are spent compiling.
      await loadWith(port, `/api/validate-only/${name}`, body, SECONDS / 2);
      await loadWith(port, `/api/${name}`, body, SECONDS / 2);
      const validated = await loadWith(port, `/api/validate-only/${name}`, body, SECONDS);
      const calculated = await loadWith(port, `/api/${name}`, body, SECONDS);
      expect([validated.refused, calculated.refused]).toEqual([0, 0]);
      const ratio = calculated.perSecond / validated.perSecond;
      console.log(
        `${name}: ${Math.round(calculated.perSecond)} answers/s, ${Math.round(validated.perSecond)} validated/s, ratio ${ratio.toFixed(2)}`,
      );
      expect(ratio).toBeGreaterThanOrEqual(0.5);
    },
  );
});
