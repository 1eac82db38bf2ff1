/** Two burners of one stove carry two pots at once; on one they follow one another. */
import { describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import type { PlanDraft } from '../../api/planning/plan-types.ts';
import { solveWeek } from '../../api/planning/programme/solve-week.ts';
import type { WeekInstance } from '../../api/planning/week/week-instance.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { bruteForce } from './brute-force.ts';
import { EVENING, household, LENTIL_SOUP, planFor, water } from './small-household.ts';
import { settled, tinyWeek } from './tiny-weeks.ts';

const solver = await createInThreadSolver();

/** Supper and hot water between getting up late and an early supper. */
function house(burners: number, minutes: number, own: Partial<HouseholdDocument> = {}): HouseholdDocument {
  const from = new Date(Date.UTC(2026, 11, 5, 18, 0) - minutes * 60_000).toISOString().slice(11, 16);
  return household({
    meals: [EVENING],
    waking: { from, to: '22:00' },
    lightingsPerDay: 1,
    stoves: [{ id: 'hob', typeId: 'propane-camp', fuelIds: ['propane'], site: 'outdoors', burners }],
    vessels: [
      { id: 'pot-5', kind: 'pot', capacityL: 5, material: 'aluminium', lid: 'snug' },
      { id: 'kettle', kind: 'pot', capacityL: 4, material: 'aluminium', lid: 'snug' },
    ],
    water: water({ hotWaterPerDay: { litres: 3, temperatureC: 90 } }),
    ...own,
  });
}

async function plan(document: HouseholdDocument, kit: Kit = LENTIL_SOUP): Promise<PlanDraft> {
  const made = await planFor(solver, document, [[kit, 1]]);
  expect(checkPlan(made)).toEqual([]);
  return made;
}

const onFire = (made: PlanDraft, id: string) => {
  const use = [...made.cookings, ...made.tasks]
    .find((one) => one.id.includes(id))
    ?.uses.find((u) => u.resource === 'hob');
  if (use === undefined) throw new Error(`${id} is on no fire`);
  return use;
};

describe('a stove of two burners', () => {
  it('heats the water beside the soup where one after the other does not fit', async () => {
    const one = await plan(house(1, 70));
    expect(one.outcome).toBe('short');
    const two = await plan(house(2, 70));
    expect(two.outcome).toBe('complete');
    const soup = onFire(two, 'lentil-soup');
    const tea = onFire(two, 'hot-water');
    expect(tea.from < soup.to && soup.from < tea.to).toBe(true);
    // One start, one fire.
    expect(two.lightings).toHaveLength(1);
  });

  it('lets nothing overlap on one burner', async () => {
    const one = await plan(house(1, 300));
    expect(one.outcome).toBe('complete');
    expect(onFire(one, 'hot-water').to <= onFire(one, 'lentil-soup').from).toBe(true);
  });

  it('does not boil water beside the soup in the pot that holds the soup', async () => {
    const made = await plan(
      house(2, 240, {
        vessels: [{ id: 'pot-5', kind: 'pot', capacityL: 5, material: 'aluminium', lid: 'snug' }],
        water: water({
          treatBy: 'boil',
          lots: [
            { id: 'cans', litres: 2, quality: 'safe', temperatureC: 10 },
            { id: 'river', litres: 40, quality: 'treat', temperatureC: 8 },
          ],
        }),
      }),
    );
    expect(made.tasks.length + made.cookings.length).toBeGreaterThan(0);
  });

  it('is checked: two pots on a stove of one burner', async () => {
    const made = await plan(house(2, 70));
    for (const stove of made.resolved.household.stoves ?? []) stove.burners = 1;
    expect(checkPlan(made).map((fault) => fault.rule)).toContain('taken-twice');
  });
});

describe('weeks with several burners against the exhaustive search', () => {
  it('finds the same', async () => {
    let better = 0;
    for (let number = 1; number <= 30; number++) {
      const plain = settled(tinyWeek(Math.imul(number, 2654435761) >>> 0));
      const shortOfTime = (burners: number): WeekInstance => ({
        ...plain,
        outdoorMinutesPerDay: 400,
        lightings: plain.lightings.map((row) => ({ ...row, minutesAvailable: 62, burners })),
      });
      const best = bruteForce(shortOfTime(2)).value;
      const solution = await solveWeek(shortOfTime(2), solver, { timeLimitS: 20 });
      const value = (name: string) => solution.aims.find((aim) => aim.name === name)?.value ?? Number.NaN;
      const missed = best.servingsShort + best.energyShort + best.hotMissing;
      if (missed === 0) expect(value('service')).toBeCloseTo(0, 2);
      else {
        expect(value('feed-everyone')).toBeCloseTo(best.servingsShort, 2);
        expect(value('energy')).toBeCloseTo(best.energyShort, 2);
        expect(value('hot-meals')).toBeCloseTo(best.hotMissing, 2);
      }
      const single = bruteForce(shortOfTime(1)).value;
      if (single.servingsShort + single.hotMissing > best.servingsShort + best.hotMissing) better++;
    }
    expect(better).toBeGreaterThan(0);
  }, 60_000);
});
