/** A promised daily supply: the plan that counts on it, when that one fails without it, and the plan without it. */
import { describe, expect, it } from 'vitest';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import type { PlanDraft } from '../../api/planning/plan-types.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { household, LENTIL_SOUP, planFor, water } from './small-household.ts';

const solver = await createInThreadSolver();

async function plan(own: Partial<HouseholdDocument>): Promise<PlanDraft> {
  const made = await planFor(solver, household(own), [[LENTIL_SOUP, 4]], { days: 3 });
  expect(checkPlan(made)).toEqual([]);
  return made;
}

const propane = (leftKg: number, dailySupplyKg: number): HouseholdDocument['fuels'] => [
  { fuelId: 'propane', reserveShare: 0, containers: [{ id: 'bottle', leftKg }], dailySupplyKg },
];

describe('the plan without the promised supply', () => {
  it('is not spoken of where nothing is promised', async () => {
    expect((await plan({ fuels: propane(2, 0) })).withoutSupply).toBeNull();
  });

  it('names the day on which fuel runs out, and what the plan without it lacks', async () => {
    const made = await plan({ fuels: propane(0.12, 0.12) });
    expect(made.outcome).toBe('complete');
    expect(made.withoutSupply).toMatchObject({ outcome: 'short', runsOut: { what: 'propane', date: '2026-12-06' } });
    expect(made.withoutSupply?.short[0]).toMatchObject({ what: 'fuel', id: 'propane' });
    expect(made.withoutSupply?.meals.filter((meal) => meal.servingsShort > 0).length).toBeGreaterThan(0);
    expect(made.cautions.join(' ')).toContain('propane runs out on 2026-12-06');
    // The supply of a day can be used from the next day on: the first day lives on what is there.
    const small = made.fuel[0]?.byDay[0];
    expect(small?.leftKg.p10).toBeGreaterThanOrEqual(0);
  });

  it('holds where the stores alone suffice', async () => {
    const made = await plan({ fuels: propane(2, 0.5) });
    expect(made.withoutSupply).toMatchObject({ outcome: 'complete', runsOut: null, short: [] });
    expect(made.cautions.join(' ')).toContain('holds even if none');
  });

  it('says the same of water', async () => {
    const made = await plan({
      water: water({
        lots: [{ id: 'cans', litres: 14, quality: 'safe', temperatureC: 10 }],
        dailySupply: { litres: 12, quality: 'safe' },
      }),
    });
    expect(made.outcome).toBe('complete');
    expect(made.withoutSupply).toMatchObject({ outcome: 'short', runsOut: { what: 'water', date: '2026-12-06' } });
  });

  it('is checked: a plan that keeps silent, or says that it lasts', async () => {
    const silent = await plan({ fuels: propane(0.12, 0.12) });
    const brave = structuredClone(silent);
    silent.withoutSupply = null;
    expect(checkPlan(silent).map((fault) => fault.rule)).toEqual(['without-supply']);
    if (brave.withoutSupply) brave.withoutSupply.runsOut = null;
    expect(checkPlan(brave).map((fault) => fault.rule)).toContain('without-supply');
  });
});
