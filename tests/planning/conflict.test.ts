import { beforeAll, describe, expect, it } from 'vitest';
import { createCalculations } from '../../api/cooking/calculators/calculations.ts';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import type { PlanRequest } from '../../api/planning/plan-types.ts';
import { isRowOf, type LimitGroup } from '../../api/planning/programme/limit-groups.ts';
import { canServe, type Demand } from '../../api/planning/programme/serve-question.ts';
import { type ConflictFinding, findConflicts } from '../../api/planning/questions/conflict.ts';
import type { Solver } from '../../api/planning/solver.ts';
import { type PreparedWeek, prepareWeek } from '../../api/planning/week/prepared-week.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import {
  BREAKFAST,
  COUSCOUS_BOWL,
  EVENING,
  household,
  inputFor,
  LENTIL_SOUP,
  MIDDAY,
  planFor,
  propane,
  RICE,
  type Sets,
  START,
  stockOf,
  water,
} from './small-household.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await createInThreadSolver();
});

function openWeek(
  document: HouseholdDocument,
  sets: Sets,
  days: number,
  own: Partial<PlanRequest> = {},
): Promise<PreparedWeek> {
  return prepareWeek(inputFor(document, sets, { days, ...own }), days, createCalculations(), { open: true });
}

const conflictsOf = (week: PreparedWeek, demand: Demand): Promise<ConflictFinding> =>
  findConflicts(week, demand, solver, () => 10);

/** The limit that a member of a conflict stands for. */
function groupOf(limit: string): LimitGroup {
  const plain: Record<string, LimitGroup> = {
    water: { kind: 'water' },
    sets: { kind: 'sets' },
    lightings: { kind: 'fires' },
    'outdoor-minutes': { kind: 'outdoors' },
    'minutes-of-a-fire': { kind: 'clock' },
  };
  return (
    plain[limit] ??
    (limit.startsWith('pot') || limit === 'bowl' ? { kind: 'thing', id: limit } : { kind: 'fuel', fuelId: limit })
  );
}

const cans = (litres: number) => water({ lots: [{ id: 'cans', litres, quality: 'safe', temperatureC: 10 }] });

const TIGHT: [name: string, document: HouseholdDocument, sets: Sets, days: number, demand: Demand, limits: string[]][] =
  [
    ['too few sets', household(), [[RICE, 1]], 2, 'fed', ['sets']],
    ['too little fuel for hot meals', household({ fuels: propane(0.02) }), [[RICE, 2]], 2, 'fed-hot', ['propane']],
    [
      'cold food or more fuel',
      household({ fuels: propane(0.02) }),
      [
        [RICE, 2],
        [COUSCOUS_BOWL, 1],
      ],
      2,
      'fed',
      ['propane', 'sets'],
    ],
    [
      'one fire a day for two hot meals',
      household({ meals: [MIDDAY, EVENING], lightingsPerDay: 1 }),
      [[RICE, 4]],
      2,
      'fed-hot',
      ['lightings'],
    ],
    [
      'no time outdoors',
      household({ outdoorMinutesPerDay: 15 }),
      [[LENTIL_SOUP, 2]],
      2,
      'fed-hot',
      ['outdoor-minutes'],
    ],
    ['little water for soup', household({ water: cans(17) }), [[LENTIL_SOUP, 2]], 2, 'fed', ['water']],
  ];

describe('an irreducible conflict', () => {
  it.each(TIGHT)('%s', async (_name, document, sets, days, demand, limits) => {
    const week = await openWeek(document, sets, days);
    const { conflicts, facts, complete } = await conflictsOf(week, demand);
    expect(facts).toEqual([]);
    expect(complete).toBe(true);
    expect(conflicts[0]?.limits.map(({ limit }) => limit).sort()).toEqual(limits);
    expect(conflicts[0]?.irreducible).toBe(true);
    // By the definition: all together are impossible whatever else is let go, and without any one of them it is possible.
    const members = (conflicts[0]?.limits ?? []).map(({ limit }) => groupOf(limit));
    const all: LimitGroup[] = [
      { kind: 'things' },
      { kind: 'clock' },
      { kind: 'outdoors' },
      { kind: 'fires' },
      { kind: 'fuel', fuelId: 'propane' },
      { kind: 'sets' },
      { kind: 'water' },
    ];
    const isMember = (group: LimitGroup) => members.some((own) => JSON.stringify(own) === JSON.stringify(group));
    const others = all.filter((group) => !isMember(group));
    const ask = async (without: LimitGroup[]) =>
      (await canServe(week.model, { demand, without }, solver, { timeLimitS: 10 })).possible;
    expect(await ask(others)).toBe(false);
    for (const member of members) expect(await ask([...others, member])).toBe(true);
  });

  it('every limit of the small household is found in its programme, and no row belongs to two', async () => {
    const { model } = await openWeek(
      household({ meals: [BREAKFAST, MIDDAY, EVENING] }),
      [
        [RICE, 2],
        [LENTIL_SOUP, 2],
      ],
      2,
    );
    const groups: LimitGroup[] = [
      { kind: 'things' },
      { kind: 'clock' },
      { kind: 'outdoors' },
      { kind: 'fires' },
      { kind: 'fuel', fuelId: 'propane' },
      { kind: 'sets' },
      { kind: 'water' },
    ];
    for (const group of groups)
      expect(
        model.programme.rowNames.filter((name) => isRowOf(group, name)),
        group.kind,
      ).not.toEqual([]);
    for (const name of model.programme.rowNames)
      expect(groups.filter((group) => isRowOf(group, name)).length, name).toBeLessThanOrEqual(1);
    expect(model.programme.rowNames.some((name) => isRowOf({ kind: 'thing', id: 'pot-5' }, name))).toBe(true);
    expect(model.programme.rowNames.some((name) => isRowOf({ kind: 'thing', id: 'pot' }, name))).toBe(false);
  });

  it('conflicts that share nothing are listed one after the other, water of people first', async () => {
    const week = await openWeek(household({ water: cans(12) }), [[RICE, 1]], 2);
    const { conflicts } = await conflictsOf(week, 'fed');
    expect(conflicts.map(({ limits }) => limits.map(({ limit }) => limit))).toEqual([['water'], ['sets']]);
    expect(conflicts[0]?.limits[0]?.wayOut).toMatch(/L more water, or plan 1 day$/);
  });

  it('is empty where everybody can be fed', async () => {
    const week = await openWeek(household(), [[RICE, 2]], 2);
    expect(await conflictsOf(week, 'fed')).toEqual({ conflicts: [], facts: [], complete: true });
  });
});

describe('what is missing altogether', () => {
  it.each([
    ['no stove', household({ stoves: [] }), [[RICE, 2]] as Sets, /no stove/, /Add a stove/],
    ['no pot', household({ vessels: [] }), [[RICE, 2]] as Sets, /no pot/, /Add a pot/],
    ['no fuel', household({ fuels: [] }), [[RICE, 2]] as Sets, /no fuel for any stove/, /Add propane/],
    ['no food', household(), [] as Sets, /no kits in store/, /Enter what is in store/],
    [
      'nothing for breakfast',
      household({ meals: [BREAKFAST] }),
      [[RICE, 2]] as Sets,
      /No kit can feed everybody at breakfast/,
      /A kit that suits breakfast/,
    ],
  ])('%s', async (_name, document, sets, text, wayOut) => {
    const plan = await planFor(solver, document, sets);
    expect(plan.outcome).toBe('short');
    expect(plan.conflict?.[0]?.text).toMatch(text);
    expect(plan.conflict?.[0]?.limits[0]?.wayOut).toMatch(wayOut);
    expect(plan.waysOut.join('; ')).toMatch(wayOut);
    // Of a fuel it can be said how much is short.
    expect(plan.short[0]?.text).toMatch(_name === 'no fuel' ? /^0\.\d+ kg propane short$/ : text);
  });

  it('all food past its date is told from no food', async () => {
    const sets: Sets = [[RICE, 2]];
    const week = await prepareWeek(
      {
        request: { householdId: 'brook-cottage', startsAt: START, days: 1 },
        household: household(),
        kits: [RICE],
        stock: stockOf(sets).map((entry) => ({ ...entry, useBy: '2026-11-01' })),
      },
      1,
      createCalculations(),
      { open: true },
    );
    const { facts } = await conflictsOf(week, 'fed');
    expect(facts[0]?.text).toMatch(/past its use-by date .* 2026-11-01/);
  });

  it('nobody at the table is an answer too', async () => {
    const plan = await planFor(solver, household(), [[RICE, 2]], {
      attendance: [{ date: '2026-12-05', people: [] }],
    });
    expect(plan.outcome).toBe('complete');
    expect(plan.meals).toEqual([]);
  });
});

describe('a plan that leaves people short', () => {
  it('lists the conflict; a plan that does not has none', async () => {
    const short = await planFor(solver, household(), [[RICE, 1]], { days: 2 });
    expect(short.conflict?.map(({ limits }) => limits.map(({ limit }) => limit))).toEqual([['sets']]);
    expect(short.waysOut).toContain('Plan 1 day: so long everybody can be fed');
    const complete = await planFor(solver, household(), [[RICE, 2]], { days: 2 });
    expect(complete.conflict).toBeNull();
  });

  it('names what of single days stands against it where the amounts would do', async () => {
    // A fire a day each for two hot meals, and one pot that keeps the first of them in the box until it is eaten.
    const document = household({
      meals: [MIDDAY, EVENING],
      lightingsPerDay: 1,
      boxes: [{ id: 'box', fits: ['pot-5'], materialId: 'eps', thicknessMm: 150 }],
    });
    const plan = await planFor(solver, document, [[RICE, 4]], { days: 2 });
    expect(plan.outcome).toBe('short');
    expect(plan.conflict?.length).toBeGreaterThan(0);
    const ways = plan.conflict?.flatMap(({ limits }) => limits.map(({ wayOut }) => wayOut)) ?? [];
    expect(ways.join('; ')).toMatch(/one more fire a day|one more pot|another like/);
  });

  it('says how many days to plan where water for people runs out', async () => {
    const plan = await planFor(solver, household({ water: cans(20) }), [[COUSCOUS_BOWL, 5]], { days: 4 });
    expect(plan.cautions[0]).toBe(
      'Water to drink and wash with lasts 2 days, until 2026-12-06. A plan for 4 days keeps all of it for that and cooks hardly anything from the start: plan 2 days, and look for water.',
    );
    const asSaid = await planFor(solver, household({ water: cans(20) }), [[COUSCOUS_BOWL, 5]], { days: 2 });
    expect(asSaid.cautions.join()).not.toMatch(/look for water/);
  });
});
