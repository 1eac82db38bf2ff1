/** A plan uses what the household has measured, keeps it and says so. */
import { describe, expect, it } from 'vitest';
import { answerFuelUse } from '../../api/cooking/calculators/answer-fuel-use.ts';
import type { FuelUseQuestion } from '../../api/cooking/calculators/calculator-types.ts';
import { resolveHousehold } from '../../api/cooking/household/resolve-household.ts';
import { boilTestQuestion } from '../../api/cooking/measurements/learn-from-boil-tests.ts';
import type { BoilTest, CookingNote, Measurement } from '../../api/cooking/measurements/measurements.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import { makePlan } from '../../api/planning/make-plan.ts';
import type { PlanDraft } from '../../api/planning/plan-types.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { assumptionLines } from '../../api/wording/assumptions.ts';
import { BEAN_STEW, household, LENTIL_SOUP, START, stockOf } from './small-household.ts';

const solver = await createInThreadSolver();
const home = household();

async function plan(kit: typeof LENTIL_SOUP, measurements?: Measurement[], home = household()): Promise<PlanDraft> {
  const made = await makePlan(
    {
      request: { householdId: home.id, startsAt: START, days: 1, timeLimitS: 20 },
      household: home,
      kits: [kit],
      stock: stockOf([[kit, 3]]),
      ...(measurements === undefined ? {} : { measurements }),
    },
    { solver, now: Date.UTC(2026, 11, 5, 6), id: 'plan-1', programVersion: '0' },
  );
  expect(checkPlan(made)).toEqual([]);
  return made;
}

const boil: BoilTest = {
  kind: 'boil-test',
  id: 'boil',
  householdId: home.id,
  at: '2026-11-01T10:00',
  stoveId: 'burner',
  vesselId: 'pot-5',
  litres: 2,
  startC: 12,
  airC: 12,
  wind: 'still',
  minutes: 9,
};
const expected = answerFuelUse(boilTestQuestion(boil, resolveHousehold(home).household) as FuelUseQuestion);
const wasteful: BoilTest = {
  ...boil,
  fuelKg: 1.4 * (expected.fuelKg?.p50 as number),
  minutes: 1.4 * expected.minutesToBoil.p50,
};
const fuelOf = (made: PlanDraft) => made.fuel[0]?.usedKg as { p10: number; p50: number; p90: number };

describe('a plan with own tests', () => {
  it('plans more fuel after a boil test that burnt 40 % more, in a narrower band, and says so', async () => {
    const before = await plan(LENTIL_SOUP);
    const after = await plan(LENTIL_SOUP, [wasteful]);
    // The hold burns the lowest steady flame, whatever it brings into the pot: only the way to the boil costs more.
    expect(fuelOf(after).p50).toBeGreaterThan(1.05 * fuelOf(before).p50);
    const width = (made: PlanDraft) => Math.log(fuelOf(made).p90 / fuelOf(made).p10);
    expect(width(after)).toBeLessThan(width(before));
    expect(after.resolved.learned).toMatchObject([
      { of: 'burner', quantity: 'efficiency', figure: { records: ['boil'] } },
      { of: 'burner', quantity: 'powerKW', figure: { records: ['boil'] } },
    ]);
    expect(before.resolved.learned).toEqual([]);
    expect(after.resolved.household).toEqual(before.resolved.household);
    const said = after.assumptions.filter((line) => line.startsWith('Measured by you.'));
    expect(said[0]).toMatch(/more fuel than the table expects \(1 boil test\)/);
    expect(before.assumptions.some((line) => line.startsWith('Measured by you.'))).toBe(false);
    expect(assumptionLines(after, 'metric').some((line) => /Measured by you/.test(line))).toBe(true);
  });

  it('without the record is what it was', async () => {
    const before = await plan(LENTIL_SOUP);
    const again = await plan(LENTIL_SOUP, [{ ...wasteful, householdId: 'another' }]);
    const { proof: _a, ...first } = before;
    const { proof: _b, ...second } = again;
    expect(second).toEqual(first);
  });

  it('boils a slow lot for longer', async () => {
    const note: CookingNote = {
      kind: 'cooking-note',
      id: 'note',
      householdId: home.id,
      at: '2026-11-01T10:00',
      kitId: BEAN_STEW.id,
      partId: 'beans',
      packedOn: '2025-11-20',
      foodId: 'kidney-bean',
      soak: { hours: 12, waterC: 16 },
      boiledAfterMinutes: 15,
      softAfterMinutes: 165,
    };
    const before = await plan(BEAN_STEW);
    const after = await plan(BEAN_STEW, [note]);
    const minutes = (made: PlanDraft) => made.cookings[0]?.method.boilMinutes?.p50 as number;
    expect(minutes(after)).toBeGreaterThan(1.15 * minutes(before));
    expect(after.resolved.learned).toMatchObject([{ quantity: 'minutesFactor', figure: { records: ['note'] } }]);
  });

  it('boils a quick lot more briefly, and its checker knows why', async () => {
    const note = (id: string): CookingNote => ({
      kind: 'cooking-note',
      id,
      householdId: home.id,
      at: '2026-11-01T10:00',
      kitId: LENTIL_SOUP.id,
      partId: 'dry',
      packedOn: '2025-11-20',
      foodId: 'lentil-brown',
      boiledAfterMinutes: 15,
      softAfterMinutes: 37,
    });
    const before = await plan(LENTIL_SOUP);
    const after = await plan(LENTIL_SOUP, [note('first'), note('second')]);
    const minutes = (made: PlanDraft) => made.cookings[0]?.method.boilMinutes?.p50 as number;
    expect(minutes(after)).toBeLessThan(0.8 * minutes(before));
  });

  it('feeds at night from a flask that was read to be better than the table, and its checker knows why', async () => {
    const vessels = [...(home.vessels ?? []), { id: 'flask', kind: 'flask' as const, capacityL: 1 }];
    const people = [...home.people, { label: 'Baby', ageGroup: 'infant' as const }];
    const withFlask = household({ vessels, people, nightFeeds: ['23:00', '03:00'] });
    const reading = (id: string): Measurement => ({
      kind: 'cooling-reading',
      id,
      householdId: home.id,
      at: '2026-11-01T20:00',
      vesselId: 'flask',
      fillL: 0.9,
      startC: 95,
      airC: 14,
      hours: 8,
      temperatureC: 84,
    });
    const feeds = (made: PlanDraft) => made.tasks.filter((task) => task.kind === 'night-feed').length;
    expect(feeds(await plan(LENTIL_SOUP, [], withFlask))).toBe(0);
    expect(feeds(await plan(LENTIL_SOUP, [reading('first'), reading('second')], withFlask))).toBeGreaterThan(0);
  });
});
