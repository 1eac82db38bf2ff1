import ICAL from 'ical.js';
import { expect, it } from 'vitest';
import { createDocument } from '../../api/http/write-document.ts';
import { planFixture } from '../wording/plan-fixture.ts';
import { contentOf, expectProblem, testApp } from './test-app.ts';

const plan = planFixture();
const path = `/api/plans/${plan.id}/calendar.ics`;

async function withPlan() {
  const test = await testApp();
  await createDocument({ store: test.store, newId: () => 'unused' } as never, 'plans', plan);
  return test;
}

it('answers a calendar file to keep, and changes nothing by it', async () => {
  const test = await withPlan();
  const before = await contentOf(test.store);
  const response = await test.get(path);
  expect(response.status).toBe(200);
  expect(response.headers.get('content-type')).toBe('text/calendar; charset=utf-8');
  expect(response.headers.get('content-disposition')).toBe('attachment; filename="outage-week-2026-12-05.ics"');
  const events = new ICAL.Component(ICAL.parse(await response.text())).getAllSubcomponents('vevent');
  expect(events.length).toBeGreaterThan(plan.meals.length);
  expect(await contentOf(test.store)).toBe(before);
  expect(test.faults).toEqual([]);
});

it('says units as asked, and refuses others and plans that are not there', async () => {
  const test = await withPlan();
  const unfolded = (await (await test.get(`${path}?units=us`)).text()).replaceAll('\r\n ', '');
  expect(unfolded).toMatch(/\d\u00a0cups? \(\d/);
  await expectProblem(test, () => test.get(`${path}?units=imperial`), {
    type: 'invalid-input',
    field: { parameter: 'units', value: 'imperial' },
  });
  await expectProblem(test, () => test.get(`${path}?zone=Europe/Zurich`), { type: 'invalid-input' });
  await expectProblem(test, () => test.get('/api/plans/none/calendar.ics'), { type: 'not-found' });
});
