// The compiled program is measured, as it is served; the test runner's own module loader would slow the sums down.
import type { AddressInfo } from 'node:net';
import { createAdaptorServer } from '@hono/node-server';
import { createRoute } from '@hono/zod-openapi';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createApp } from '../../build/api/http/app.js';
import { answer, jsonBody } from '../../build/api/http/problem-answers.js';
import { refuseInvalid } from '../../build/api/http/refuse-invalid.js';
import {
  cookTimeSchema,
  coolingSchema,
  fuelUseSchema,
  soakingSchema,
} from '../../build/api/http/schemas-calculators.js';
import { z } from '../../build/api/http/zod.js';
import { openSqliteStore } from '../../build/api/runtime/node/sqlite-store.js';
import { loadWith } from './http-load.ts';

const SECONDS = 0.5;
const ROUNDS = 10;

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
  solver: { version: 'none', solve: () => Promise.reject(new Error('nothing is solved here')) },
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
      const validate = () => loadWith(port, `/api/validate-only/${name}`, body, SECONDS);
      const calculate = () => loadWith(port, `/api/${name}`, body, SECONDS);
      // Warmed up first: the first seconds of a process are spent compiling.
      for (let round = 0; round < 3; round++) {
        await validate();
        await calculate();
      }
      // In turn, and the best round of each: other work on the machine comes and goes, and can only slow a round down.
      let validated = 0;
      let calculated = 0;
      for (let round = 0; round < ROUNDS; round++) {
        const [one, other] = [await validate(), await calculate()];
        expect([one.refused, other.refused]).toEqual([0, 0]);
        validated = Math.max(validated, one.perSecond);
        calculated = Math.max(calculated, other.perSecond);
      }
      const ratio = calculated / validated;
      console.log(
        `${name}: ${Math.round(calculated)} answers/s, ${Math.round(validated)} validated/s, ratio ${ratio.toFixed(2)}`,
      );
      expect(ratio).toBeGreaterThanOrEqual(0.5);
    },
  );
});
