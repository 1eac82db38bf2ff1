/** Use-by dates inside the plan: what has passed its date is not cooked, and what passes it first is eaten first. */
import { describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import { makePlan } from '../../api/planning/make-plan.ts';
import type { PlanDraft, StockEntry } from '../../api/planning/plan-types.ts';
import { solveWeek } from '../../api/planning/programme/solve-week.ts';
import type { WeekInstance } from '../../api/planning/week/week-instance.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { seeded } from '../seeded.ts';
import { bruteForce } from './brute-force.ts';
import { COUSCOUS_BOWL, household, LENTIL_SOUP, RICE, START, stockOf } from './small-household.ts';
import { alikeWeek } from './tiny-weeks.ts';

const solver = await createInThreadSolver();

type Lot = { kit: Kit; sets: number; packedOn: string; useBy: string | null };

function entriesOf(lots: Lot[]): StockEntry[] {
  return lots.flatMap(({ kit, sets, packedOn, useBy }) =>
    stockOf([[kit, sets]], packedOn).map((entry) => ({ ...entry, id: `${entry.id}-${packedOn}`, useBy })),
  );
}

async function plan(lots: Lot[], days: number): Promise<PlanDraft> {
  const made = await makePlan(
    {
      request: { householdId: 'brook-cottage', startsAt: START, days, timeLimitS: 20 },
      household: household(),
      kits: [...new Set(lots.map((lot) => lot.kit))],
      stock: entriesOf(lots),
    },
    { solver, now: Date.UTC(2026, 11, 5, 6), id: 'plan-1', programVersion: '0' },
  );
  expect(checkPlan(made)).toEqual([]);
  return made;
}

const dates = (made: PlanDraft, kit: Kit) =>
  made.cookings.filter((cooking) => cooking.kitId === kit.id).map((cooking) => cooking.startsAt.slice(8, 10));

describe('a lot whose date lies inside the plan', () => {
  const soup = (sets: number, useBy: string | null, packedOn = '2025-11-20') => ({
    kit: LENTIL_SOUP,
    sets,
    packedOn,
    useBy,
  });
  const rice = (sets: number, useBy: string | null = null) => ({ kit: RICE, sets, packedOn: '2025-11-20', useBy });

  it('is eaten until its date and before what keeps, whatever that costs in fuel', async () => {
    for (const useBy of ['2026-12-05', '2026-12-06']) {
      const made = await plan([soup(1, useBy), rice(3)], 3);
      expect(made.outcome).toBe('complete');
      expect(dates(made, LENTIL_SOUP).every((day) => day <= useBy.slice(8, 10))).toBe(true);
      expect(dates(made, LENTIL_SOUP)).toHaveLength(1);
      expect(made.proof.aims.find((aim) => aim.aim === 'use-by')).toMatchObject({ value: 0, unit: 'sets' });
    }
    // Rice takes less fuel, so that without a date the soup stays in its bag.
    const free = await plan([soup(1, null), rice(3)], 3);
    expect(free.proof.aims.some((aim) => aim.aim === 'use-by')).toBe(false);
  });

  it('is left out the day after', async () => {
    expect(dates(await plan([soup(3, '2026-12-06')], 3), LENTIL_SOUP)).toEqual(['05', '06']);
    expect((await plan([soup(3, '2026-12-06')], 3)).outcome).toBe('short');
    expect((await plan([soup(3, '2026-12-07')], 3)).outcome).toBe('complete');
    expect((await plan([soup(3, '2026-12-04')], 3)).cookings).toEqual([]);
  });

  it('says how many sets spoil where there are more than can be eaten', async () => {
    const made = await plan([soup(3, '2026-12-06'), rice(1)], 3);
    expect(dates(made, LENTIL_SOUP)).toEqual(['05', '06']);
    expect(dates(made, RICE)).toEqual(['07']);
    expect(made.proof.aims.find((aim) => aim.aim === 'use-by')?.value).toBeCloseTo(1, 3);
  });

  it('is taken before an older lot that keeps', async () => {
    const made = await plan([soup(1, '2026-12-05', '2026-01-10'), soup(1, null, '2024-01-10')], 2);
    expect(made.cookings.map((cooking) => cooking.takes[0]?.packedOn)).toEqual(['2026-01-10', '2024-01-10']);
  });

  it('is checked: a later date opened first', async () => {
    const made = await plan([soup(1, '2026-12-09', '2026-01-10'), soup(1, '2027-12-01', '2024-01-10')], 1);
    const [take] = made.cookings[0]?.takes ?? [];
    expect(take?.packedOn).toBe('2026-01-10');
    if (take) take.packedOn = '2024-01-10';
    expect(checkPlan(made).map((fault) => fault.rule)).toEqual(['use-by-order']);
  });

  it('of a kit that is eaten without a fire counts as well', async () => {
    const made = await plan([{ kit: COUSCOUS_BOWL, sets: 1, packedOn: '2025-11-20', useBy: '2026-12-05' }, rice(1)], 2);
    expect(dates(made, COUSCOUS_BOWL)).toEqual(['05']);
  });
});

describe('dated weeks against the exhaustive search', () => {
  /** A week of like days of which some sets pass their date on the way. */
  function dated(seed: number): WeekInstance {
    const week = alikeWeek(seed);
    const random = seeded(seed + 1000);
    const setsGoodOn = Object.fromEntries(
      Object.entries(week.sets)
        .filter(([, sets]) => sets > 0)
        .slice(0, 2)
        .map(([kitId, sets]) => {
          let good = sets;
          const goodOn = [good];
          for (let day = 0; day < week.days; day++) {
            good = Math.max(0, good - Math.floor(random() * 2.5));
            goodOn.push(good);
          }
          return [kitId, goodOn];
        }),
    );
    return { ...week, setsGoodOn };
  }

  it('finds the same service and the same that spoils', async () => {
    let spoiling = 0;
    for (let seed = 1; seed <= 30; seed++) {
      const week = dated(seed);
      const best = bruteForce(week).value;
      const solution = await solveWeek(week, solver, { timeLimitS: 20 });
      const value = (name: string) => solution.aims.find((aim) => aim.name === name)?.value ?? 0;
      expect(solution.proven, `week ${seed}`).toBe(true);
      const missed = best.servingsShort + best.energyShort + best.hotMissing;
      if (missed === 0) {
        expect(value('service')).toBeCloseTo(0, 2);
        // Sets of a set or more: 0.02 is the printed tolerance of the aim.
        expect(Math.abs(value('use-by') - best.spoilt), `week ${seed}`).toBeLessThanOrEqual(0.021);
        if (best.spoilt > 0) spoiling++;
      } else {
        expect(value('feed-everyone')).toBeCloseTo(best.servingsShort, 2);
        expect(value('energy')).toBeCloseTo(best.energyShort, 2);
        expect(value('hot-meals')).toBeCloseTo(best.hotMissing, 2);
      }
    }
    expect(spoiling).toBeGreaterThan(0);
  }, 60_000);
});
