/** A flask filled on the evening's fire is tomorrow's breakfast, as long as it holds 60 C nine times in ten. */
import { describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import type { PlanDraft, PlanRequest } from '../../api/planning/plan-types.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import { BREAKFAST, EVENING, household, LENTIL_SOUP, planFor, water } from './small-household.ts';

const solver = await createInThreadSolver();

const PORRIDGE: Kit = {
  id: 'oat-porridge',
  name: 'Oat porridge',
  servings: 2,
  divisible: true,
  style: 'porridge',
  suits: ['breakfast'],
  parts: [{ id: 'oats', name: 'Oats', ingredients: [{ foodId: 'rolled-oats', massG: 120 }] }],
};

const POT = { id: 'pot-5', kind: 'pot', capacityL: 5, material: 'aluminium', lid: 'snug' } as const;
const LITTLE_POT = { id: 'pot-2', kind: 'pot', capacityL: 2, material: 'aluminium', lid: 'snug' } as const;

/** One fire a day; a flask, too small for the soup, that was read at some temperature after twelve hours. */
function house(readC: number | null, own: Partial<HouseholdDocument> = {}): HouseholdDocument {
  return household({
    meals: [{ ...BREAKFAST, hot: 'wanted' }, EVENING],
    lightingsPerDay: 1,
    vessels: [
      POT,
      LITTLE_POT,
      ...(readC === null
        ? []
        : [
            {
              id: 'flask',
              kind: 'flask' as const,
              capacityL: 0.9,
              reading: { hours: 12, temperatureC: readC, startC: 95, airC: 14 },
            },
          ]),
    ],
    ...own,
  });
}

async function plan(document: HouseholdDocument, own: Partial<PlanRequest> = {}): Promise<PlanDraft> {
  const made = await planFor(
    solver,
    document,
    [
      [PORRIDGE, 2],
      [LENTIL_SOUP, 2],
    ],
    { startsAt: '2026-12-05T15:00', days: 2, ...own },
  );
  expect(checkPlan(made)).toEqual([]);
  return made;
}

const breakfastOf = (made: PlanDraft) => made.cookings.find((cooking) => cooking.kitId === PORRIDGE.id);

describe('the evening fire carries tomorrow’s breakfast', () => {
  it('in a good flask: one fire a day feeds both meals hot', async () => {
    const made = await plan(house(82));
    expect(made.outcome).toBe('complete');
    const porridge = breakfastOf(made);
    expect(porridge?.method).toMatchObject({ finish: 'flask', flaskId: 'flask' });
    expect(porridge?.startsAt.slice(0, 10)).toBe('2026-12-05');
    const soup = made.cookings.find((cooking) => cooking.id.startsWith('2026-12-05-evening'));
    expect(porridge?.method.lightingId).toBe(soup?.method.lightingId);
    const use = porridge?.uses.find((candidate) => candidate.resource === 'flask');
    expect(use?.to).toBe('2026-12-06T07:30');
    expect(made.meals.find((meal) => meal.id === '2026-12-06-breakfast')?.dishes[0]?.hot).toBe(true);
    // Fuel is burnt, and water drawn, on the evening of the fire.
    expect(made.fuel[0]?.byDay[0]?.usedKg.p50).toBeGreaterThan(made.fuel[0]?.byDay[1]?.usedKg.p50 ?? Number.NaN);
    expect(made.water.byDay[0]?.cookL).toBeGreaterThan((made.water.byDay[1]?.cookL ?? 0) + 0.3);
  });

  it('not in one that may fall below 60 °C, and not without one', async () => {
    for (const document of [house(66), house(null)]) {
      const made = await plan(document);
      expect(made.cookings.every((cooking) => cooking.method.finish === 'flame')).toBe(true);
      expect(made.short[0]?.what).toBe('time');
    }
  });

  it('is said in the steps of the evening and of the morning', async () => {
    const steps = makeSchedule(await plan(house(82))).filter((step) => step.meal === '2026-12-06-breakfast');
    const filled = steps.find((step) => step.action === 'fill-flask');
    expect(filled?.at.slice(0, 10)).toBe('2026-12-05');
    expect(filled?.text).toContain('until tomorrow');
    expect(steps.find((step) => step.action === 'unbox')?.at).toBe('2026-12-06T07:25');
  });

  it('takes the flask for the whole night: a fault where it is filled with something else meanwhile', async () => {
    const made = await plan(house(82));
    const soup = made.cookings.find((cooking) => cooking.id.startsWith('2026-12-05-evening'));
    soup?.uses.push({ resource: 'flask', from: '2026-12-05T20:00', to: '2026-12-05T21:00' });
    expect(checkPlan(made).map((fault) => fault.rule)).toContain('taken-twice');
  });

  it('counts as cold what the flask does not hold', async () => {
    const made = await plan(house(82));
    for (const vessel of made.resolved.household.vessels ?? [])
      if (vessel.reading) vessel.reading = { ...vessel.reading, temperatureC: 60 };
    expect(checkPlan(made).map((fault) => fault.rule)).toContain('too-cold');
  });

  it('leaves the morning its own fire where there may be one', async () => {
    const made = await plan(house(82, { lightingsPerDay: 2, water: water() }));
    expect(made.outcome).toBe('complete');
  });
});
