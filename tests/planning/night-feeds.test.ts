/** Feeds at night: water of 70 °C from a flask that holds it, or from a stove that burns; else it is said. */
import { describe, expect, it } from 'vitest';
import type { HouseholdDocument, Vessel } from '../../api/cooking/household/kitchen.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import type { PlanDraft } from '../../api/planning/plan-types.ts';
import { FEED_L } from '../../api/planning/week/night-feeds.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import { EVENING, household, LENTIL_SOUP, planFor, propane, water } from './small-household.ts';

const solver = await createInThreadSolver();

function house(flask: Partial<Vessel> | null, own: Partial<HouseholdDocument> = {}, kettleL = 2): HouseholdDocument {
  return household({
    people: [
      { label: 'A', ageGroup: 'adult', mealShare: 1 },
      { label: 'B', ageGroup: 'adult', mealShare: 1 },
      { label: 'Baby', ageGroup: 'infant' },
    ],
    nightFeeds: ['23:00', '03:00'],
    vessels: [
      { id: 'pot-5', kind: 'pot', capacityL: 5, material: 'aluminium', lid: 'snug' },
      { id: 'kettle', kind: 'pot', capacityL: kettleL, material: 'aluminium', lid: 'snug' },
      { id: 'little-pot', kind: 'pot', capacityL: 1.5, material: 'aluminium', lid: 'snug' },
      ...(flask === null ? [] : [{ id: 'flask', kind: 'flask' as const, capacityL: 1, ...flask }]),
    ],
    ...own,
  });
}

/** Hot enough at 03:00, nine hours after supper. */
const GOOD = { reading: { hours: 12, temperatureC: 90, startC: 95, airC: 14 } };

async function plan(document: HouseholdDocument): Promise<PlanDraft> {
  const made = await planFor(solver, document, [[LENTIL_SOUP, 4]], { days: 2 });
  expect(checkPlan(made)).toEqual([]);
  return made;
}

const feeds = (made: PlanDraft) => made.tasks.filter((task) => task.kind === 'night-feed');
const rules = (made: PlanDraft) => checkPlan(made).map((fault) => fault.rule);

describe('feeds at night', () => {
  it('come out of a flask that is filled on the evening fire', async () => {
    const made = await plan(house(GOOD));
    expect(made.outcome).toBe('complete');
    expect(feeds(made).map((task) => task.at)).toEqual([
      '2026-12-05T23:00',
      '2026-12-06T03:00',
      '2026-12-06T23:00',
      '2026-12-07T03:00',
    ]);
    for (const feed of feeds(made)) expect(feed).toMatchObject({ from: 'flask', litres: FEED_L.value });
    const fills = made.tasks.filter((task) => task.uses.some((use) => use.resource === 'flask'));
    expect(fills.map((task) => task.at.slice(0, 10))).toEqual(['2026-12-05', '2026-12-06']);
    // One fire for supper and flask; its water costs fuel.
    expect(made.lightings).toHaveLength(2);
    const without = await plan(house(GOOD, { nightFeeds: [] }));
    expect(made.fuel[0]?.usedKg.p50).toBeGreaterThan((without.fuel[0]?.usedKg.p50 ?? 0) + 0.005);
  });

  it('is filled as full as it must be to hold 70 °C, and no fuller', async () => {
    const litres = async (own: Partial<Vessel>, nightFeeds = ['23:00', '03:00']) =>
      (await plan(house(own, { nightFeeds }, 5))).tasks.find((task) =>
        task.uses.some((use) => use.resource === 'flask'),
      )?.litres;
    expect(await litres(GOOD)).toBeCloseTo(2 * FEED_L.value, 6);
    // Without a reading the table is asked, in which a flask half empty cools sooner.
    expect(await litres({ capacityL: 3 }, ['22:30'])).toBeCloseTo(3 * 0.95, 6);
  });

  it.each([
    ['no flask', null],
    ['a flask that may fall below 70 °C', { reading: { hours: 12, temperatureC: 62, startC: 95, airC: 14 } }],
    ['a flask too small', { capacityL: 0.3 }],
  ] as const)('are said to be missing with %s, and the way out is named', async (_name, flask) => {
    const made = await plan(house(flask));
    expect(feeds(made)).toEqual([]);
    expect(made.short.find((row) => row.unit === 'nights')).toMatchObject({ amount: 2, from: '2026-12-05' });
    expect(made.waysOut.join(' ')).toContain('A good flask');
    // Everybody else is fed all the same.
    expect(made.meals.every((meal) => meal.servingsShort === 0)).toBe(true);
  });

  it('come before meals where fuel is short', async () => {
    const made = await plan(house(GOOD, { fuels: propane(0.1) }));
    expect(made.short[0]?.what).toBe('fuel');
    expect(feeds(made)).toHaveLength(4);
    expect(made.meals.some((meal) => meal.servingsShort > 0)).toBe(true);
    expect(made.proof.aims[0]).toMatchObject({ aim: 'night-feeds', value: 0 });
  });

  it('are heated when they are due on a stove that burns through the night', async () => {
    const stoves: HouseholdDocument['stoves'] = [
      { id: 'burner', typeId: 'propane-camp', fuelIds: ['propane'], site: 'outdoors', burners: 1 },
      {
        id: 'tile-stove',
        typeId: 'mud-u',
        fuelIds: ['wood'],
        site: 'vented-indoors',
        burners: 1,
        burnsAnyway: { from: '20:00', to: '06:00' },
      },
    ];
    const made = await plan(house(null, { stoves }));
    expect(made.outcome).toBe('complete');
    expect(feeds(made).every((task) => task.from === 'tile-stove')).toBe(true);
    const step = makeSchedule(made).find((row) => row.action === 'night-feed');
    expect(step?.text).toContain('boiled on the tile-stove');
  });

  it('have their steps: the flask is filled, and each feed mixed from it', async () => {
    const steps = makeSchedule(await plan(house(GOOD, { water: water() })));
    const filled = steps.find((step) => step.action === 'fill-flask');
    expect(filled?.text).toContain('feeds of the night');
    const fed = steps.filter((step) => step.action === 'night-feed');
    expect(fed).toHaveLength(4);
    expect(fed[0]?.text).toContain('from the flask');
    expect(fed[0]?.text).toContain('70');
  });

  it('are checked: left out, from a flask gone cold, from an empty one', async () => {
    const silent = await plan(house(GOOD));
    silent.tasks = silent.tasks.filter((task) => task.kind !== 'night-feed');
    expect(rules(silent)).toContain('night-feed');
    const cold = await plan(house(GOOD));
    for (const vessel of cold.resolved.household.vessels ?? [])
      if (vessel.reading) vessel.reading = { ...vessel.reading, temperatureC: 62 };
    expect(rules(cold)).toEqual(expect.arrayContaining(['night-feed']));
    const empty = await plan(house(GOOD));
    for (const task of empty.tasks) if (task.kind === 'hot-water') task.litres = 0.2;
    expect(rules(empty)).toContain('night-feed');
  });

  it('do not count as the hot water of the day', async () => {
    const made = await plan(
      house(GOOD, { meals: [EVENING], water: water({ hotWaterPerDay: { litres: 1, temperatureC: 80 } }) }),
    );
    expect(made.outcome).toBe('complete');
    expect(made.tasks.filter((task) => task.kind === 'hot-water')).toHaveLength(4);
    made.tasks = made.tasks.filter((task) => !task.id.endsWith('2026-12-06-hot-water'));
    expect(rules(made)).toContain('hot-water');
  });
});
