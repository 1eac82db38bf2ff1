import { beforeAll, describe, expect, it } from 'vitest';
import { createCalculations } from '../../api/cooking/calculators/calculations.ts';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import type { PlanInput } from '../../api/planning/make-plan.ts';
import type { Plan, PlanDraft } from '../../api/planning/plan-types.ts';
import { canServe } from '../../api/planning/programme/serve-question.ts';
import { type Advice, type AdviceItem, findAdvice } from '../../api/planning/questions/advice.ts';
import { adviceChanges } from '../../api/planning/questions/advice-changes.ts';
import { inputOfPlan } from '../../api/planning/questions/plan-again.ts';
import type { Solver } from '../../api/planning/solver.ts';
import { prepareWeek, withAmountsOf } from '../../api/planning/week/prepared-week.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import {
  BEAN_STEW,
  COUSCOUS_BOWL,
  household,
  inputFor,
  LENTIL_SOUP,
  places,
  planFor,
  propane,
  RICE,
  type Sets,
  water,
} from './small-household.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await createInThreadSolver();
});

const inputOf = (document: HouseholdDocument, sets: Sets, days: number, timeLimitS = 60): PlanInput =>
  inputFor(document, sets, { days, timeLimitS });

const adviceFor = (input: PlanInput): Promise<Advice> =>
  findAdvice(input, { solver, clock: { now: () => performance.now() } });
const itemOf = (advice: Advice, id: string): AdviceItem => {
  const item = advice.items.find((candidate) => candidate.id === id);
  if (item === undefined) throw new Error(`no advice ${id} among ${advice.items.map((row) => row.id).join(', ')}`);
  return item;
};
const isFed = (plan: PlanDraft) => plan.meals.every((meal) => meal.servingsShort < 0.02);
const cans = (litres: number) => water({ lots: [{ id: 'cans', litres, quality: 'safe', temperatureC: 10 }] });

/** Loose lids, wind, wet wood besides the gas, no bowl, no box, no pressure cooker. */
const BARE = household({
  places: places({ wind: 'moderate' }),
  vessels: [{ id: 'pot-5', kind: 'pot', capacityL: 5, material: 'aluminium', lid: 'loose' }],
  fuels: [
    ...(propane(0.4) ?? []),
    { fuelId: 'wood', reserveShare: 0, moisturePercent: 28, containers: [{ id: 'stack', leftKg: 4 }] },
  ],
  stoves: [
    { id: 'burner', typeId: 'propane-camp', fuelIds: ['propane'], site: 'outdoors', burners: 1 },
    { id: 'rocket', typeId: 'rocket', fuelIds: ['wood'], site: 'outdoors', burners: 1 },
  ],
});
const BARE_SETS: Sets = [
  [LENTIL_SOUP, 2],
  [BEAN_STEW, 2],
];

describe('the list of changes', () => {
  const changesFor = async (document: HouseholdDocument, sets: Sets) => {
    const input = inputOf(document, sets, 2);
    return { input, ...adviceChanges(await prepareWeek(input, 2, createCalculations(), { open: true })) };
  };

  it('offers a bare household everything that was asked for', async () => {
    const { changes, notApplicable } = await changesFor(BARE, BARE_SETS);
    expect(changes.map(({ id }) => id)).toEqual([
      'water-10-l',
      'fuel-propane',
      'fuel-wood',
      'lid',
      'overnight-soak',
      'pressure-cooker',
      'box-50-mm',
      'box-100-mm',
      'windscreen',
      'drier-wood',
      'kit-bean-stew',
      'kit-lentil-soup',
    ]);
    expect(notApplicable).toEqual([]);
    const text = changes.map((change) => change.text).join('\n');
    expect(text).toMatch(/pressure cooker of \d+ L/);
    expect(text).toMatch(/100 mm on all sides/);
    // A litre of propane weighs 0.507 kg at 15 C.
    expect(text).toMatch(/1 litre \(0\.507 kg\) more propane/);
    expect(text).toMatch(/15 % moisture instead of 28 %/);
  });

  it('says why something is not tried', async () => {
    const { changes, notApplicable } = await changesFor(household({ stoves: [] }), [[RICE, 2]]);
    const why = Object.fromEntries(notApplicable.map(({ id, text }) => [id, text]));
    expect(why.lid).toBe('Every pot has a lid that fits.');
    expect(why['pressure-cooker']).toMatch(/flame that can be turned down/);
    expect(why.windscreen).toMatch(/No stove here stands in the wind/);
    expect(why['drier-wood']).toMatch(/No wood is burnt here/);
    expect(why['overnight-soak']).toMatch(/No kit in store has a part that can be soaked/);
    expect(changes.map(({ id }) => id)).not.toContain('pressure-cooker');
  });

  it('a thin box is thickened, a measured one is not', async () => {
    const box = { id: 'box', fits: ['pot-5'], materialId: 'eps' as const, thicknessMm: 40 };
    const ids = async (own: HouseholdDocument) => (await changesFor(own, BARE_SETS)).changes.map(({ id }) => id);
    expect(await ids(household({ boxes: [box] }))).toContain('box-thicker');
    expect(await ids(household({ boxes: [{ ...box, thicknessMm: 100 }] }))).not.toContain('box-thicker');
    const reading = { hours: 4, temperatureC: 78 };
    expect(await ids(household({ boxes: [{ ...box, reading }] }))).not.toContain('box-thicker');
  });

  it('each is a pure change: the household and the stock stay as they were', async () => {
    const { input, changes } = await changesFor(BARE, BARE_SETS);
    const before = JSON.stringify(input);
    for (const change of changes) {
      const changed = change.apply(input);
      expect(JSON.stringify(changed), change.id).not.toBe(before);
      expect(JSON.stringify(change.apply(input)), change.id).toBe(JSON.stringify(changed));
    }
    expect(JSON.stringify(input)).toBe(before);
  });

  it('an amount more is the same week as one laid out anew', async () => {
    const { input, changes } = await changesFor(household({ fuels: propane(0.03) }), [
      [RICE, 2],
      [LENTIL_SOUP, 1],
    ]);
    const base = await prepareWeek(input, 4, createCalculations(), { open: true });
    for (const change of changes.filter(({ onlyAmounts }) => onlyAmounts)) {
      const changed = change.apply(input);
      const quick = withAmountsOf(base, changed);
      const anew = await prepareWeek(changed, 4, createCalculations(), { open: true });
      expect(quick.week.sets, change.id).toEqual(anew.week.sets);
      expect(quick.week.safeWaterByDay, change.id).toEqual(anew.week.safeWaterByDay);
      expect(quick.week.fuelByDay, change.id).toEqual(anew.week.fuelByDay);
      for (const demand of ['fed', 'fed-hot'] as const)
        expect((await canServe(quick.model, { demand }, solver, { timeLimitS: 10 })).possible, change.id).toBe(
          (await canServe(anew.model, { demand }, solver, { timeLimitS: 10 })).possible,
        );
    }
  });
});

describe('ranked advice', () => {
  it('puts days first, and the days that it promises are there when the plan is made', async () => {
    const document = household({ water: cans(28) });
    const sets: Sets = [[COUSCOUS_BOWL, 6]];
    const advice = await adviceFor(inputOf(document, sets, 3));
    expect(advice.daysFed).toBe(3);
    expect(advice.items[0]).toMatchObject({ id: 'water-10-l', daysGained: { fed: 1 }, confidence: { level: 'high' } });
    expect(advice.items[0]?.effect).toMatch(/^1 day more fed/);
    const richer = household({ water: cans(38) });
    expect(isFed(await planFor(solver, richer, sets, { days: 4 }))).toBe(true);
    expect(isFed(await planFor(solver, richer, sets, { days: 5 }))).toBe(false);
    const gained = advice.items.filter((item) => !item.already).map((item) => item.daysGained?.fed ?? 0);
    expect(gained).toEqual([...gained].sort((a, b) => b - a));
  });

  it('a kit more feeds a day more where kits end it; of kits without effect there is one list', async () => {
    const advice = await adviceFor(
      inputOf(
        household(),
        [
          [RICE, 1],
          [LENTIL_SOUP, 1],
        ],
        2,
      ),
    );
    expect(advice.daysFed).toBe(2);
    expect(itemOf(advice, 'kit-plain-rice').daysGained).toEqual({ fed: 1, fedHot: 1 });
    const ample = await adviceFor(
      inputOf(
        household({ water: cans(28) }),
        [
          [RICE, 5],
          [LENTIL_SOUP, 5],
        ],
        2,
      ),
    );
    expect(ample.withoutEffect).toEqual(['Lentil soup', 'Rice with carrots']);
  });

  it('lids, wind, wood, box and soak save fuel where they should, and say how sure that is', async () => {
    const advice = await adviceFor(inputOf(BARE, BARE_SETS, 2));
    const before = advice.fuelMJ;
    for (const id of ['lid', 'windscreen']) expect(itemOf(advice, id).fuelSavedMJ, id).toBeGreaterThan(0);
    for (const item of advice.items) {
      expect(item.fuelSavedMJ).toBeLessThan(before.p50);
      expect(item.effect).toMatch(/\.$/);
      expect(item.confidence.why).toMatch(/\.$/);
    }
    expect(itemOf(advice, 'windscreen').confidence).toMatchObject({ why: expect.stringMatching(/^Common practice/) });
    expect(itemOf(advice, 'windscreen').confidence.level).not.toBe('high');
    expect(itemOf(advice, 'fuel-propane').confidence.level).toBe('high');
    expect(advice.notWorkedOut).toEqual([]);
  });

  it('what is there already is worth what is lost without it', async () => {
    const sets: Sets = [[BEAN_STEW, 2]];
    const document = household({ fuels: propane(1.5) });
    const soaked = await adviceFor(inputOf(document, sets, 2));
    const soak = itemOf(soaked, 'overnight-soak');
    expect(soak.already).toBe(true);
    const bare = await adviceFor(inputOf({ ...document, vessels: (document.vessels ?? []).slice(0, 1) }, sets, 2));
    const gain = itemOf(bare, 'overnight-soak');
    expect(gain.already).toBe(false);
    // The same change seen from both sides; the bowl that is advised is as large as it must be, not as the one that is there.
    expect(soak.fuelSavedMJ).toBeCloseTo(gain.fuelSavedMJ, 1);
    expect(soak.servingsGained).toBe(gain.servingsGained);
  });

  it('a stored plan is asked about as it was made', async () => {
    const sets: Sets = [
      [RICE, 1],
      [LENTIL_SOUP, 1],
    ];
    const plan = await planFor(solver, household(), sets, { days: 2 });
    const again = inputOfPlan(plan as unknown as Plan, []);
    const fromPlan = await adviceFor({ ...again, request: { ...again.request, timeLimitS: 60 } });
    const fresh = await adviceFor(inputOf(household(), sets, 2));
    expect(fromPlan.items).toEqual(fresh.items);
    expect(fromPlan.daysFed).toBe(fresh.daysFed);
  });

  it('answers what was worked out in time and says what was not', async () => {
    let ms = 0;
    const advice = await findAdvice(inputOf(BARE, BARE_SETS, 2, 3), { solver, clock: { now: () => (ms += 100) } });
    expect(advice.items.length).toBeGreaterThan(0);
    expect(advice.notWorkedOut.length).toBeGreaterThan(0);
    const seen = [...advice.items.map(({ text }) => text), ...advice.withoutEffect, ...advice.notWorkedOut].join('\n');
    expect(seen).toMatch(/Lentil soup/);
  });
});
