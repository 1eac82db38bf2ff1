/** What a plan says of food energy and protein against the household's need. */
import { describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import { proteinNeedG } from '../../api/cooking/household/people.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { EVENING, household, planFor } from './small-household.ts';

const solver = await createInThreadSolver();

const kit = (id: string, foodId: string, massG: number): Kit => ({
  id,
  name: id,
  servings: 2,
  divisible: true,
  style: 'stew',
  suits: ['evening'],
  parts: [{ id: 'all', name: 'All', ingredients: [{ foodId, massG }] }],
});

const cautionsOf = async (one: Kit) => {
  const made = await planFor(solver, household({ meals: [EVENING] }), [[one, 1]], { startsAt: '2026-12-05T06:30' });
  return { text: made.cautions.join(' '), day: made.energyByDay[0] };
};

describe('cautions on what the kits give', () => {
  it('names protein where it lacks, and not where it does not', async () => {
    // White rice: 7 g of protein in 100 g; lentils: 25 g (US food composition tables, rounded).
    const rice = await cautionsOf(kit('rice', 'white-rice', 500));
    expect(rice.text).toMatch(/of the protein that the household needs/);
    const lentils = await cautionsOf(kit('lentils', 'lentil-brown', 500));
    expect(lentils.text).not.toMatch(/of the protein/);
    expect(lentils.day?.proteinG).toBeGreaterThan((rice.day?.proteinG ?? Number.NaN) * 2.5);
  });

  it('compares with the needs of the people of the day', async () => {
    const { day } = await cautionsOf(kit('rice', 'white-rice', 500));
    const [a, b] = household().people.map((person) => proteinNeedG(person));
    // From 06:30 the first day has 17.5 of its 24 hours.
    expect(day?.needProteinG).toBe(Math.round(((a ?? 0) + (b ?? 0)) * (17.5 / 24)));
  });
});
