import { beforeAll, describe, expect, it } from 'vitest';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import type { Solver } from '../../api/planning/solver.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { DEMO_START, testApp } from './test-app.ts';

const { household } = demoDocuments(DEMO_START);
const people = household.people;

let solver: Solver;
beforeAll(async () => {
  solver = await createInThreadSolver();
}, 60_000);

/** Households that are allowed and odd: each must be answered with a plan, never with a fault of the program. */
const HOUSEHOLDS: [name: string, household: HouseholdDocument][] = [
  [
    'next to nothing is known',
    { id: 'odd', name: 'Odd', places: [{ id: 'p', elevationM: 1000 }], people: [{ label: 'A', ageGroup: 'adult' }] },
  ],
  ['no meals', { ...household, id: 'odd', meals: [] }],
  ['nobody eats from the pot', { ...household, id: 'odd', people: people.map((p) => ({ ...p, mealShare: 0 })) }],
  ['a meal after bedtime', { ...household, id: 'odd', meals: [{ id: 'late', slot: 'evening', time: '23:58' }] }],
  [
    'burners that burn a minute on a fill',
    { ...household, id: 'odd', stoves: (household.stoves ?? []).map((stove) => ({ ...stove, minutesPerFill: 1 })) },
  ],
  [
    'water that is boiling hot',
    {
      ...household,
      id: 'odd',
      water: {
        ...household.water,
        lots: (household.water?.lots ?? []).map((lot) => ({ ...lot, temperatureC: 100 })),
      },
    },
  ],
  ['4,000 m', { ...household, id: 'odd', places: household.places.map((p) => ({ ...p, elevationM: 4000 })) }],
];

describe('odd weeks are planned', () => {
  it.each(HOUSEHOLDS)(
    '%s',
    async (_name, odd) => {
      const test = await testApp({ solver });
      expect((await test.send('PUT', '/api/households/odd', odd, { 'if-none-match': '*' })).status).toBe(201);
      const request = { householdId: 'odd', startsAt: `${DEMO_START}T17:00`, days: 2, timeLimitS: 20 };
      const response = await test.send('POST', '/api/plans', request);
      expect({ status: response.status, body: await response.json() }).toMatchObject({
        status: 201,
        body: { outcome: expect.stringMatching(/^(complete|short)$/) },
      });
      expect(test.faults).toEqual([]);
    },
    30_000,
  );

  it('nobody is at home on a day', async () => {
    const test = await testApp({ solver });
    const request = {
      householdId: household.id,
      startsAt: `${DEMO_START}T17:00`,
      days: 2,
      attendance: [{ date: '2026-12-06', people: [] }],
    };
    expect((await test.send('POST', '/api/plans', request)).status).toBe(201);
    expect(test.faults).toEqual([]);
  }, 30_000);
});
