/** The third day over HTTP: plan, book, plan anew, and the list and sheet of what changed. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { ChangeKind } from '../../api/planning/bookings/changes.ts';
import type { Plan } from '../../api/planning/plan-types.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { writeDocument } from '../../api/storage/collections.ts';
import {
  BEAN_STEW,
  COUSCOUS_BOWL,
  EVENING,
  household,
  LENTIL_SOUP,
  MIDDAY,
  RICE,
  stockOf,
} from '../planning/small-household.ts';
import { expectProblem, type TestApp, testApp } from './test-app.ts';

const solver = await createInThreadSolver();
const KITS = [LENTIL_SOUP, RICE, BEAN_STEW, COUSCOUS_BOWL];
const HOUSE = household({ meals: [MIDDAY, EVENING] });
const START = '2026-12-05T07:00';
const NOW = '2026-12-06T08:00';

interface Changes {
  summary: string;
  changes: { meal: string; kinds: ChangeKind[]; text: string }[];
  found: string[];
}

let test: TestApp;
let first: Plan;
async function plan(body: object): Promise<Plan> {
  const response = await test.send('POST', '/api/plans', { householdId: HOUSE.id, timeLimitS: 20, ...body });
  const made = await response.json();
  expect({ status: response.status, made }).toMatchObject({ status: 201 });
  return made;
}
const changesOf = async (made: Plan): Promise<Changes> => (await test.get(`/api/plans/${made.id}/changes`)).json();

beforeAll(async () => {
  test = await testApp({ solver, clock: { now: () => Date.parse(`${NOW}+01:00`) } });
  await writeDocument(test.store, 'households', HOUSE, null, 'w-house');
  for (const kit of KITS) await writeDocument(test.store, 'kits', kit, null, `w-${kit.id}`);
  for (const entry of stockOf(KITS.map((kit) => [kit, 3])))
    await writeDocument(test.store, 'stock', entry, null, `w-stock-${entry.id}`);
  first = await plan({ startsAt: START, days: 3 });
});

describe('a re-plan over HTTP', () => {
  it('of an unchanged world says that the wall stands', async () => {
    const next = await plan({ startsAt: NOW, days: 2, replaces: first.id });
    expect(next.continues?.wall.kept).toBe(next.continues?.wall.dishes);
    const changes = await changesOf(next);
    expect(changes).toMatchObject({ changes: [], summary: 'Nothing changes: what hangs on the wall stands.' });
    const sheet = await (await test.get(`/api/plans/${next.id}/changes/sheet`)).text();
    expect(sheet).toContain('Nothing changes');
    expect(sheet.match(/<section/g)).toHaveLength(1);
  });

  it('after a light bottle and a guest says what is different and why', async () => {
    const before = await plan({ startsAt: NOW, days: 2, replaces: first.id });
    for (const booking of [
      { kind: 'meal-eaten', at: '2026-12-05T12:40', meal: '2026-12-05-midday' },
      { kind: 'fuel-weighed', at: '2026-12-06T07:30', fuelId: 'propane', containerId: 'bottle', leftKg: 0.05 },
      { kind: 'came', at: '2026-12-06T07:40', guests: [{ ageGroup: 'adult', mealShare: 1 }], until: '2026-12-06' },
    ])
      expect((await test.send('POST', `/api/plans/${first.id}/bookings`, booking)).status).toBe(201);
    const next = await plan({ startsAt: NOW, days: 2, replaces: first.id });
    expect(next.fuel[0]?.onHandKg).toBeCloseTo(0.05, 9);
    expect(next.meals.find((meal) => meal.id === '2026-12-06-evening')?.servingsWanted).toBe(3);
    const changes = await changesOf(next);
    const text = changes.changes.map((change) => change.text).join('\n');
    expect(text).toMatch(
      /^Tomorrow evening: .+ instead of .+, because \d\.\d\d\skg less propane was found than worked out\.$/m,
    );
    expect(changes.found).toEqual([
      expect.stringMatching(/^Propane, 07:30: 0\.05\skg, \d\.\d\d\skg less than worked out\.$/),
    ]);
    const sheet = await (await test.get(`/api/plans/${next.id}/changes/sheet`)).text();
    for (const change of changes.changes) expect(sheet).toContain(change.text.slice(0, 20));
    // What the plan before the bookings said is what it said.
    expect((await changesOf(before)).changes).toEqual([]);
  });

  it('is refused for a plan of nobody, and changes are asked of a re-plan only', async () => {
    await expectProblem(
      test,
      () => test.send('POST', '/api/plans', { householdId: HOUSE.id, startsAt: NOW, days: 2, replaces: 'none' }),
      { type: 'invalid-input', field: { pointer: '#/replaces', value: 'none' } },
    );
    await expectProblem(
      test,
      () =>
        test.send('POST', '/api/plans', {
          householdId: HOUSE.id,
          startsAt: '2026-12-04T08:00',
          days: 2,
          replaces: first.id,
        }),
      { type: 'invalid-input', field: { pointer: '#/startsAt', value: '2026-12-04T08:00' } },
    );
    await expectProblem(test, () => test.get(`/api/plans/${first.id}/changes`), { type: 'not-found' });
  });
});
