/** A meal that no kit can serve: the reason tells a store that suits nothing from pots and fires that are too small. */
import { beforeAll, describe, expect, it } from 'vitest';
import { makePlan } from '../../api/planning/make-plan.ts';
import type { Solver } from '../../api/planning/solver.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { type GeneratedHousehold, generatedHousehold } from '../bench/generated-households.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await createInThreadSolver();
});

async function shortOf(generated: GeneratedHousehold): Promise<string> {
  const plan = await makePlan(generated, { solver, now: 0, id: 'nothing-suits', programVersion: 'test' });
  return plan.short.map(({ text }) => text).join(' ');
}

describe('a breakfast that nothing feeds', () => {
  const generated = generatedHousehold(0, { days: 1, kits: 8 });
  const request = { ...generated.request, startsAt: '2026-12-05T06:30' };

  it('of a store without a kit that suits it', async () => {
    const kits = generated.kits.map((kit) => ({
      ...kit,
      suits: kit.suits.filter((slot) => slot !== 'breakfast').concat('evening'),
    }));
    expect(await shortOf({ ...generated, kits, request })).toMatch(/breakfast: none in store suits/);
  });

  it('of a store with a porridge, but no time to cook it', async () => {
    const household = { ...generated.household, waking: { from: '07:44', to: '22:00' } };
    const boiled = generated.kits.filter((kit) => !/Oat|Wheat|Crackers/.test(kit.name));
    const stock = generated.stock.filter((entry) => boiled.some((kit) => kit.id === entry.kitId));
    const text = await shortOf({ ...generated, household, kits: boiled, stock, request });
    expect(text).toMatch(/breakfast: what suits is too little, cannot be ready in time/);
  });
});
