import { describe, expect, expectTypeOf, it } from 'vitest';
import { createClient } from '../../api/http/client.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { DEMO_START, ORIGIN, testApp } from './test-app.ts';

const { household } = demoDocuments(DEMO_START);

async function testClient() {
  const { app } = await testApp();
  // The client takes its fetch, so the app itself can be the other end.
  return createClient(ORIGIN, (async (input, init) => app.request(input as string, init)) as typeof fetch);
}

describe('the typed client', () => {
  it('asks a calculator, and knows the answer by type', async () => {
    const client = await testClient();
    const response = await client.api['cook-time'].$post({
      query: {},
      json: { foodId: 'kidney-bean', elevationM: 0, soak: { hours: 12, waterC: 20, discardWater: true } },
    });
    if (response.status !== 200) throw new Error(`refused: ${response.status}`);
    const answer = await response.json();
    expectTypeOf(answer.minutes.p90).toBeNumber();
    expectTypeOf(answer.lectin.verdict).toEqualTypeOf<'not-applicable' | 'safe' | 'refused'>();
    expect(answer.lectin.verdict).toBe('safe');
    expect(answer.minutes.p90).toBeGreaterThan(answer.minutes.p50);
  });

  it('does not compile with a wrong body, and the server refuses it all the same', async () => {
    const client = await testClient();
    const wrong = await client.api.soaking.$post({
      query: {},
      // @ts-expect-error hours is a number
      json: { foodId: 'kidney-bean', hours: 'twelve', waterC: 18 },
    });
    expect(wrong.status).toBe(422);
  });

  it('reads stored documents', async () => {
    const client = await testClient();
    const response = await client.api.households[':id'].$get({ param: { id: household.id } });
    if (response.status !== 200) throw new Error(`refused: ${response.status}`);
    const read = await response.json();
    expectTypeOf(read.places[0]?.elevationM).toEqualTypeOf<number | undefined>();
    expect(read.id).toBe(household.id);
  });
});
