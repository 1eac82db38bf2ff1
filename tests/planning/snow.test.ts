/** Snow as water: melted and boiled on the fires of the plan, at its cost in fuel and minutes. */
import { describe, expect, it } from 'vitest';
import { createCalculations } from '../../api/cooking/calculators/calculations.ts';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import { resolveHousehold } from '../../api/cooking/household/resolve-household.ts';
import { meltSnow, STARTER_WATER_SHARE } from '../../api/cooking/household/snow.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import type { PlanDraft, PlanRequest } from '../../api/planning/plan-types.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import { EVENING, household, LENTIL_SOUP, MIDDAY, places, planFor, type WaterStore, water } from './small-household.ts';

const solver = await createInThreadSolver();
const total = (numbers: number[]) => numbers.reduce((sum, number) => sum + number, 0);

function house(litres: number, snow: boolean, own: Partial<WaterStore> = {}): HouseholdDocument {
  return household({
    meals: [MIDDAY, EVENING],
    places: places({ outdoorC: -10 }),
    outdoorMinutesPerDay: 600,
    vessels: [
      { id: 'pot-5', kind: 'pot', capacityL: 5, material: 'aluminium', lid: 'snug' },
      { id: 'pot-3', kind: 'pot', capacityL: 3, material: 'aluminium', lid: 'snug' },
    ],
    fuels: [{ fuelId: 'propane', reserveShare: 0, containers: [{ id: 'bottle', leftKg: 6 }] }],
    water: water({ snow, lots: [{ id: 'cans', litres, quality: 'safe', temperatureC: 10 }], ...own }),
  });
}

async function plan(document: HouseholdDocument, own: Partial<PlanRequest> = {}): Promise<PlanDraft> {
  const made = await planFor(solver, document, [[LENTIL_SOUP, 4]], { days: 2, ...own });
  expect(checkPlan(made)).toEqual([]);
  return made;
}

const melted = (made: PlanDraft) => made.tasks.filter((task) => task.kind === 'melt-snow');
const litresMelted = (made: PlanDraft) => total(melted(made).map((task) => task.litres));
const used = (made: PlanDraft) => total(made.water.byDay.map((day) => day.usedL));

describe('the heat that snow takes', () => {
  it('is 0.75 MJ a kilogram from -10 C to the boil, twice that of cold water', () => {
    const { household: kitchen } = resolveHousehold(house(10, true));
    const [stove] = kitchen.stoves;
    const [vessel] = kitchen.vessels;
    if (stove === undefined || vessel === undefined) throw new Error('a stove and a pot');
    const surroundings = { elevationM: 0, outdoorC: -10, indoorC: 14, wind: 'still', waterC: 10 } as const;
    const choice = { stove, fuelId: 'propane', fuelMoisturePercent: null, vessel } as const;
    const cold = meltSnow(choice, surroundings, createCalculations());
    const mild = meltSnow(choice, { ...surroundings, outdoorC: 5 }, createCalculations());
    if (cold === null || mild === null) throw new Error('the stove melts snow');
    expect(cold.litres).toBeCloseTo(5 * 0.8 * (1 - STARTER_WATER_SHARE.value), 6);
    // Melting 334, warming ice 2.1 and water 4.19 kJ/(kg K): 774 kJ from -10 C to 100 C; the notes round it to 0.75 MJ.
    // Burners give about half of their heat to a pot: fuel is 1.5 to 2.6 times the useful heat.
    const perKg = cold.fuelMJ.p50 / cold.litres;
    expect(perKg).toBeGreaterThan(0.75 * 1.5);
    expect(perKg).toBeLessThan(0.75 * 2.8);
    // Ten kelvin of ice are 21 kJ of 774.
    expect(cold.fuelMJ.p50 / mild.fuelMJ.p50).toBeGreaterThan(1.015);
    expect(cold.fuelMJ.p50 / mild.fuelMJ.p50).toBeLessThan(1.06);
  });
});

describe('a plan with snow', () => {
  it('melts what people and pots need beyond the stores, and no more', async () => {
    const made = await plan(house(10, true));
    expect(made.outcome).toBe('complete');
    expect(used(made)).toBeGreaterThan(14);
    // Litres are printed to a tenth for each day and potful.
    expect(Math.abs(litresMelted(made) - (used(made) - 10))).toBeLessThan(1);
    for (const task of melted(made)) {
      expect(task.lightingId).not.toBeNull();
      expect(task.fuel[0]?.kg.p50).toBeGreaterThan(0);
    }
    expect(made.water.byDay.every((day) => day.leftL >= -0.1)).toBe(true);
  });

  it('melts nothing where the stores suffice, and has none without snow', async () => {
    expect(melted(await plan(house(60, true)))).toEqual([]);
    const without = await plan(house(10, false));
    expect(melted(without)).toEqual([]);
    expect(without.short[0]?.what).toBe('water');
  });

  it('takes the fuel of it, and says what cannot be melted', async () => {
    const ample = await plan(house(10, true));
    const stored = await plan(house(60, true));
    const fuel = (made: PlanDraft) => made.fuel[0]?.usedKg.p50 ?? 0;
    expect(fuel(ample) - fuel(stored)).toBeGreaterThan(0.05);
    const poor = house(10, true);
    const made = await plan({
      ...poor,
      fuels: [{ fuelId: 'propane', reserveShare: 0, containers: [{ id: 'bottle', leftKg: 0.08 }] }],
    });
    const [short] = made.short;
    expect(short?.what).toBe('water');
    expect(short?.text).toContain('melted from snow');
  });

  it('boils water of the river and snow on the same fires', async () => {
    const made = await plan(
      house(6, true, {
        treatBy: 'boil',
        lots: [
          { id: 'cans', litres: 6, quality: 'safe', temperatureC: 10 },
          { id: 'river', litres: 4, quality: 'treat', temperatureC: 5 },
        ],
      }),
    );
    expect(made.outcome).toBe('complete');
    expect(litresMelted(made)).toBeGreaterThan(3);
    const boiled = made.tasks.filter((task) => task.kind === 'treat-water' && task.lightingId !== null);
    expect(total(boiled.map((task) => task.litres))).toBeLessThanOrEqual(4.05);
  });

  it('has its step: over a cup of water, boiled, ten litres of snow for one of water', async () => {
    const made = await plan(house(10, true));
    const step = makeSchedule(made).find((row) => row.text.startsWith('Melt clean snow'));
    expect(step?.text).toContain('over a cup of water');
    const [gained, loose] = step?.quantities ?? [];
    expect((loose?.amount ?? 0) / (gained?.amount ?? 1)).toBeGreaterThanOrEqual(10);
  });

  it('is checked: no snow, no water from it', async () => {
    const made = await plan(house(10, true));
    if (made.resolved.household.water) made.resolved.household.water.snow = false;
    expect(checkPlan(made).map((fault) => fault.rule)).toContain('water');
  });
});
