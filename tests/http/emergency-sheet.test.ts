import { expect, it } from 'vitest';
import { expectProblem, testApp } from './test-app.ts';

it('answers a page without any plan, for an elevation or for three', async () => {
  const test = await testApp();
  for (const query of ['', '?units=us', '?elevationM=1780', '?elevationM=-400&units=us&paper=letter']) {
    const response = await test.get(`/api/emergency-sheet${query}`);
    expect(response.status).toBe(200);
    expect(response.headers.get('content-type')).toMatch(/^text\/html/);
    expect(await response.text()).toContain('<h1>Emergency cooking</h1>');
  }
  expect(await (await test.get('/api/emergency-sheet?elevationM=1780')).text()).toContain('94\u00a0°C');
  expect(test.faults).toEqual([]);
});

it.each(['6001', '-431', 'high', '1,780', '', '1e3', 'NaN'])(
  'refuses the elevation "%s" with its range',
  async (text) => {
    const test = await testApp();
    await expectProblem(test, () => test.get(`/api/emergency-sheet?elevationM=${encodeURIComponent(text)}`), {
      type: 'invalid-input',
      field: { parameter: 'elevationM', minimum: -430, maximum: 6000, unit: 'm' },
    });
  },
);

it('refuses other units and fields that it does not know', async () => {
  const test = await testApp();
  await expectProblem(test, () => test.get('/api/emergency-sheet?units=imperial'), {
    type: 'invalid-input',
    field: { parameter: 'units' },
  });
  await expectProblem(test, () => test.get('/api/emergency-sheet?householdId=x'), { type: 'invalid-input' });
});
