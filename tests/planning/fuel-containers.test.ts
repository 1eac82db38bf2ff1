/** Containers are opened one at a time, begun ones first; small ones in the frost; and who cannot eat what. */
import { describe, expect, it } from 'vitest';
import type { FuelContainer, HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import type { PlanDraft } from '../../api/planning/plan-types.ts';
import { containersInOrder } from '../../api/planning/week/fuel-containers.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import { household, LENTIL_SOUP, places, planFor } from './small-household.ts';

const solver = await createInThreadSolver();
const DATES = ['2026-12-05', '2026-12-06', '2026-12-07'];
const order = (containers: FuelContainer[], used: number[], fuelId = 'propane') =>
  containersInOrder({ fuelId, containers }, used, DATES);

describe('containers in the order in which they are opened', () => {
  it('begun ones first, the emptiest before all, then full ones', () => {
    const rows = order(
      [
        { id: 'full', fullKg: 0.5, count: 2, level: 'full' },
        { id: 'half', fullKg: 0.5, tareKg: 0.4, grossKg: 0.65 },
        { id: 'part', fullKg: 0.5, level: 'part' },
        { id: 'empty', fullKg: 0.5, level: 'empty' },
      ],
      [0.1, 0.1, 0.3],
    );
    expect(rows).toEqual(
      [
        // A quarter of 0.5 kg is counted; 0.1 kg a day empties it on the second day.
        { id: 'part', nth: 1, kg: 0.125, openedOn: '2026-12-05', emptyOn: '2026-12-06' },
        { id: 'half', nth: 1, kg: 0.25, openedOn: '2026-12-06', emptyOn: '2026-12-07' },
        { id: 'full', nth: 1, kg: 0.5, openedOn: '2026-12-07', emptyOn: null },
        { id: 'full', nth: 2, kg: 0.5, openedOn: null, emptyOn: null },
      ].map((row) => ({ ...row, kg: expect.closeTo(row.kg, 9) })),
    );
  });

  it('a stack of wood is not opened', () => {
    expect(order([{ id: 'stack', leftKg: 20 }], [1, 1, 1], 'wood')).toEqual([]);
  });
});

describe('a plan with small cylinders', () => {
  const house = (outdoorC: number, containers: FuelContainer[]): HouseholdDocument =>
    household({
      places: places({ outdoorC }),
      fuels: [{ fuelId: 'propane', reserveShare: 0, containers }],
    });
  const small: FuelContainer[] = [
    { id: 'new-ones', fullKg: 0.465, count: 3, level: 'full' },
    { id: 'begun', fullKg: 0.465, tareKg: 0.42, grossKg: 0.52 },
  ];
  const plan = async (document: HouseholdDocument): Promise<PlanDraft> => {
    const made = await planFor(solver, document, [[LENTIL_SOUP, 3]], { days: 3 });
    expect(checkPlan(made)).toEqual([]);
    return made;
  };

  it('says which is opened when, and has the next one at hand on that day', async () => {
    const made = await plan(house(2, small));
    const [begun, next] = made.fuel[0]?.containers ?? [];
    expect(begun).toMatchObject({ id: 'begun', openedOn: '2026-12-05' });
    expect(begun?.emptyOn).not.toBeNull();
    expect(next).toMatchObject({ id: 'new-ones', nth: 1, openedOn: begun?.emptyOn });
    const steps = makeSchedule(made).filter((step) => step.text.startsWith('Have the next propane'));
    expect(steps.map((step) => step.at.slice(0, 10))).toEqual([begun?.emptyOn]);
  });

  it('warns of the cold where they burn for long, and only then', async () => {
    const warned = (made: PlanDraft) => made.cautions.some((caution) => caution.includes('cool as they burn'));
    expect(warned(await plan(house(-15, small)))).toBe(true);
    expect(warned(await plan(house(2, small)))).toBe(false);
    expect(warned(await plan(house(-15, [{ id: 'big', fullKg: 11, leftKg: 5 }])))).toBe(false);
  });

  it('is checked: contents that are not there, a new one opened too soon', async () => {
    const more = await plan(house(2, small));
    const [first] = more.fuel[0]?.containers ?? [];
    if (first) first.kg += 0.2;
    expect(checkPlan(more).map((fault) => fault.rule)).toContain('fuel-balance');
    const soon = await plan(house(2, small));
    const [begun] = soon.fuel[0]?.containers ?? [];
    if (begun) begun.emptyOn = null;
    expect(checkPlan(soon).map((fault) => fault.rule)).toContain('fuel-balance');
  });

  it('and a plan whose dish somebody at the table cannot eat is at fault', async () => {
    const made = await plan(house(2, small));
    for (const person of made.resolved.household.people) if (person.label === 'A') person.avoids = ['lentil-brown'];
    expect(checkPlan(made).map((fault) => fault.rule)).toContain('avoids');
  });
});
