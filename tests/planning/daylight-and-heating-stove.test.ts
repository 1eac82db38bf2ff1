/** Fires outdoors keep to the daylight that a household states; a heating stove that burns anyway costs no fuel. */
import { describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import type { PlanDraft, PlanRequest } from '../../api/planning/plan-types.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import { EVENING, household, LENTIL_SOUP, MIDDAY, places, planFor, RICE, water } from './small-household.ts';

const solver = await createInThreadSolver();

async function plan(
  document: HouseholdDocument,
  sets: [kit: Kit, sets: number][],
  own: Partial<PlanRequest> = {},
): Promise<PlanDraft> {
  const made = await planFor(solver, document, sets, own);
  expect(checkPlan(made)).toEqual([]);
  return made;
}

const rules = (made: PlanDraft) => checkPlan(made).map((fault) => fault.rule);
const reading = { hours: 4, temperatureC: 85, startC: 95, airC: 14 };
const box = [{ id: 'box', fits: ['pot-5'], materialId: 'eps' as const, thicknessMm: 100, reading }];
const four = [1, 2, 3, 4].map((n) => ({ label: `P${n}`, ageGroup: 'adult' as const, mealShare: 1 }));

describe('daylight', () => {
  const day = (from: string, to: string, own: Partial<HouseholdDocument> = {}) =>
    household({ places: places({ daylight: { from, to } }), ...own });

  it('limits fires outdoors only where it was stated', async () => {
    expect((await plan(household(), [[LENTIL_SOUP, 1]])).lightings[0]?.at.slice(11) ?? '').toMatch(/^1[67]/);
    const dark = await plan(day('08:00', '17:00'), [[LENTIL_SOUP, 1]]);
    expect(dark.lightings).toEqual([]);
    expect(dark.outcome).toBe('short');
    expect(dark.refused.find((row) => row.reason.includes('dark'))?.wayOut).toContain('by daylight');
    expect(dark.assumptions.join(' ')).toContain('fires outdoors burn only then');
  });

  it('lets supper after dark come out of a box that was filled at dusk', async () => {
    const made = await plan(day('08:00', '15:30', { boxes: box, people: four }), [[LENTIL_SOUP, 4]]);
    expect(made.outcome).toBe('complete');
    expect(made.cookings[0]?.method.finish).toBe('box');
    for (const lighting of made.lightings) expect(lighting.until <= '2026-12-05T15:30').toBe(true);
    // A minute of light more or less is a minute of fire more or less.
    const later = await plan(day('08:00', '15:31', { boxes: box, people: four }), [[LENTIL_SOUP, 4]]);
    expect(later.cookings[0]?.doneAt).toBe('2026-12-05T15:31');
    expect(made.cookings[0]?.doneAt).toBe('2026-12-05T15:30');
  });

  it('does not bind a vented stove indoors', async () => {
    const indoors = household().stoves?.map((stove) => ({ ...stove, site: 'vented-indoors' as const }));
    const made = await plan(day('08:00', '15:30', { stoves: indoors as HouseholdDocument['stoves'] }), [
      [LENTIL_SOUP, 1],
    ]);
    expect(made.outcome).toBe('complete');
  });

  it('is checked', async () => {
    const made = await plan(day('08:00', '18:30'), [[LENTIL_SOUP, 1]]);
    for (const place of made.resolved.household.places) place.daylight = { from: '08:00', to: '17:00' };
    expect(rules(made)).toContain('fire-in-the-dark');
  });
});

describe('a heating stove that burns anyway', () => {
  const withHeating = (from: string, to: string, own: Partial<HouseholdDocument> = {}) =>
    household({
      meals: [MIDDAY, EVENING],
      stoves: [
        { id: 'burner', typeId: 'propane-camp', fuelIds: ['propane'], site: 'outdoors', burners: 1 },
        {
          id: 'tile-stove',
          typeId: 'mud-u',
          fuelIds: ['wood'],
          site: 'vented-indoors',
          burners: 1,
          burnsAnyway: { from, to },
        },
      ],
      ...own,
    });
  const sets: [Kit, number][] = [
    [LENTIL_SOUP, 2],
    [RICE, 2],
  ];

  it('cooks on its top without fuel and without a lighting, and nobody lights it', async () => {
    const made = await plan(withHeating('16:00', '22:00', { lightingsPerDay: 1 }), sets);
    expect(made.outcome).toBe('complete');
    const [noon, supper] = made.cookings;
    expect(noon?.method.stoveId).toBe('burner');
    expect(noon?.fuelMJ.p50).toBeGreaterThan(0.5);
    expect(supper).toMatchObject({ fuel: [], fuelMJ: { p50: 0 }, method: { stoveId: 'tile-stove' } });
    const burning = made.lightings.find((lighting) => lighting.stoveId === 'tile-stove');
    expect(burning).toMatchObject({ burnsAnyway: true, startUpFuel: { kg: 0 } });
    expect(made.limits.find((limit) => limit.limit === 'lightings')).toMatchObject({ used: 1, allowed: 1 });
    const steps = makeSchedule(made).filter((step) => step.action === 'light' || step.action === 'shut-off');
    expect(steps).toHaveLength(2);
    expect(made.comparison.planMJ).toBeCloseTo(noon?.fuelMJ.p50 ?? 0, 2);
  });

  it('is a stove like any other when it does not burn: without its own fuel it cooks nothing', async () => {
    const made = await plan(withHeating('18:01', '22:00', { lightingsPerDay: 1 }), sets);
    expect(made.cookings.every((cooking) => cooking.method.stoveId !== 'tile-stove')).toBe(true);
    expect(made.outcome).toBe('short');
    const wood = {
      fuelId: 'wood' as const,
      reserveShare: 0,
      moisturePercent: 15,
      containers: [{ id: 'w', leftKg: 20 }],
    };
    const lit = await plan(withHeating('18:01', '22:00', { fuels: [wood] }), sets);
    expect(lit.outcome).toBe('complete');
    expect(lit.lightings.every((lighting) => lighting.burnsAnyway === undefined)).toBe(true);
    for (const cooking of lit.cookings) expect(cooking.fuelMJ.p50).toBeGreaterThan(0.5);
  });

  it('fills the box before it goes out', async () => {
    const made = await plan(withHeating('13:00', '15:00', { meals: [EVENING], boxes: box, people: four, fuels: [] }), [
      [LENTIL_SOUP, 4],
    ]);
    expect(made.outcome).toBe('complete');
    expect(made.cookings[0]).toMatchObject({ doneAt: '2026-12-05T15:00', fuel: [], method: { finish: 'box' } });
  });

  it('burns past midnight as well, and heats the water of the day', async () => {
    const made = await plan(
      withHeating('16:00', '08:00', {
        meals: [EVENING],
        fuels: [],
        vessels: [
          { id: 'pot-5', kind: 'pot', capacityL: 5, material: 'aluminium', lid: 'snug' },
          { id: 'kettle', kind: 'pot', capacityL: 3, material: 'aluminium', lid: 'snug' },
        ],
        water: water({ hotWaterPerDay: { litres: 2, temperatureC: 80 } }),
      }),
      sets,
    );
    expect(made.outcome).toBe('complete');
    expect(made.tasks.filter((task) => task.kind === 'hot-water')).toMatchObject([{ fuel: [] }]);
  });

  it('is checked: outside its hours nothing is free', async () => {
    const made = await plan(withHeating('16:00', '22:00', { lightingsPerDay: 1 }), sets);
    for (const stove of made.resolved.household.stoves ?? [])
      if (stove.burnsAnyway) stove.burnsAnyway = { from: '19:00', to: '22:00' };
    expect(rules(made)).toContain('burns-anyway');
    const unmarked = await plan(withHeating('16:00', '22:00', { lightingsPerDay: 1 }), sets);
    for (const lighting of unmarked.lightings) delete lighting.burnsAnyway;
    expect(rules(unmarked)).toEqual(expect.arrayContaining(['lightings-a-day', 'no-fuel']));
  });
});
