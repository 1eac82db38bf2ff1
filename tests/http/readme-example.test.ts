import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { testApp } from './test-app.ts';

const README = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');

/** Every number and word of `shown` stands in `answer`, numbers to the digits shown. */
function expectShown(shown: unknown, answer: unknown, at = ''): void {
  if (typeof shown === 'number') {
    const digits = String(shown).split('.')[1]?.length ?? 0;
    expect(Number((answer as number).toFixed(digits)), at).toBe(shown);
  } else if (shown !== null && typeof shown === 'object') {
    for (const [key, value] of Object.entries(shown))
      expectShown(value, (answer as Record<string, unknown>)[key], `${at}/${key}`);
  } else expect(answer, at).toBe(shown);
}

describe('the worked example of README.md', () => {
  it('is what the API answers', async () => {
    const request = /```http\nPOST (\S+)\n[^{]*(\{[\s\S]*?\})\n```/.exec(README);
    const answer = /```json\n(\{[\s\S]*?\})\n```/.exec(README);
    expect(request).not.toBeNull();
    expect(answer).not.toBeNull();
    const { send } = await testApp();
    const response = await send('POST', request?.[1] as string, request?.[2] as string);
    expect(response.status).toBe(200);
    expectShown(JSON.parse(answer?.[1] as string), await response.json());
  });
});
