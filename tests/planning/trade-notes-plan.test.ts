/** Sequences that follow simple rules and still hurt (trade notes H2, H3, H5, H9, H10, H12): what a plan makes of them. */
import { describe, expect, it } from 'vitest';
import { answerBoilingPoint } from '../../api/cooking/calculators/answer-boiling-point.ts';
import { answerCooling } from '../../api/cooking/calculators/answer-cooling.ts';
import { answerSoaking } from '../../api/cooking/calculators/answer-soaking.ts';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import { soakLimitHours } from '../../api/cooking/keeping/soak-limits.ts';
import { minSoakHoursForLectin } from '../../api/cooking/kinetics/lectin-rule.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import type { Cooking, PlanDraft, PlanRequest } from '../../api/planning/plan-types.ts';
import { dishOptions } from '../../api/planning/questions/dish-options.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import {
  BEAN_STEW,
  BREAKFAST,
  COUSCOUS_BOWL,
  EVENING,
  household,
  LENTIL_SOUP,
  MIDDAY,
  ONE_BAG_STEW,
  places,
  planFor,
  propane,
  water,
} from './small-household.ts';

const solver = await createInThreadSolver();

/** Every plan of this file is swept by the checker. */
async function plan(
  document: HouseholdDocument,
  sets: [kit: Kit, sets: number][],
  own: Partial<PlanRequest> = {},
): Promise<PlanDraft> {
  const made = await planFor(solver, document, sets, own);
  expect(checkPlan(made)).toEqual([]);
  return made;
}

const only = (made: PlanDraft): Cooking => {
  expect(made.cookings).toHaveLength(1);
  return made.cookings[0] as Cooking;
};
/** Minutes between two local date-times; no clock changes in December. */
const minutesFrom = (from: string, to: string): number => (Date.parse(`${to}Z`) - Date.parse(`${from}Z`)) / 60_000;
const clock = (at: string): string => at.slice(11, 16);
const mealOf = (made: PlanDraft, id: string) => {
  const meal = made.meals.find((candidate) => candidate.id === id);
  if (meal === undefined) throw new Error(`no meal ${id}`);
  return meal;
};

describe('H2: one clock from the first wetting to the boil', () => {
  const coldHouse = (indoorC: number, own: Partial<HouseholdDocument> = {}) =>
    household({ places: places({ indoorC, indoorFallsToC: indoorC }), ...own });

  it.each([
    ['an evening meal in a cool house', coldHouse(14), '2026-12-05T06:30', '2026-12-05-evening'],
    ['a midday meal in a cold house', coldHouse(8, { meals: [MIDDAY] }), '2026-12-05T17:00', '2026-12-06-midday'],
    ['an evening meal in a cold house', coldHouse(7), '2026-12-05T17:00', '2026-12-06-evening'],
  ])(
    '%s: set and drained awake, cooked at once, at the boil before the limit',
    async (_name, house, startsAt, meal) => {
      const made = await plan(house, [[BEAN_STEW, 1]], {
        startsAt,
        days: 2,
        done: [{ meal: '2026-12-05-evening', result: 'eaten' }].filter(
          (row) => row.meal !== meal,
        ) as PlanRequest['done'],
        pinned: [{ meal, kitId: 'bean-stew', method: { soaked: true } }],
      });
      const cooking = made.cookings.find((candidate) => candidate.id.startsWith(meal)) as Cooking;
      const { soak, minutesToBoil } = cooking.method;
      if (soak === null || minutesToBoil === null) throw new Error('the beans are soaked and boiled');
      for (const at of [soak.at, cooking.startsAt]) {
        expect(clock(at) >= '06:30' && clock(at) <= '22:00', at).toBe(true);
      }
      // Hours are printed to a tenth.
      expect(Math.abs(minutesFrom(soak.at, cooking.startsAt) / 60 - soak.hours)).toBeLessThan(0.0501);
      const untilBoilHours = (minutesFrom(soak.at, cooking.startsAt) + minutesToBoil.p90) / 60;
      const indoorC = house.places[0]?.indoorC ?? Number.NaN;
      expect(untilBoilHours).toBeLessThanOrEqual(soakLimitHours(indoorC));
      expect(soak.hours).toBeGreaterThanOrEqual(minSoakHoursForLectin(indoorC));
    },
  );

  it('does not soak overnight what would stand too long before the midday fire', async () => {
    // From the evening before to a fire at about ten: over twelve hours, which is the limit at 14 C.
    const made = await plan(coldHouse(14, { meals: [MIDDAY] }), [[BEAN_STEW, 1]], {
      startsAt: '2026-12-05T17:00',
      days: 2,
    });
    expect(only(made).method.soak).toBeNull();
    expect(only(made).method.firstWater).toBe('poured-away');
  });

  it('counts heating up: at no hour of the meal do beans come to the boil after the limit', async () => {
    // Set at 21:15 the evening before; twelve hours later is 09:15, near where the pot goes on for a meal at noon.
    const times = Array.from({ length: 20 }, (_, step) => `11:${40 + step}`);
    const hours: (number | null)[] = [];
    for (const time of times) {
      const made = await plan(coldHouse(14, { meals: [{ ...MIDDAY, time }] }), [[BEAN_STEW, 1]], {
        startsAt: '2026-12-05T17:00',
        days: 2,
      });
      const { soak, minutesToBoil } = only(made).method;
      hours.push(
        soak === null ? null : (minutesFrom(soak.at, only(made).startsAt) + (minutesToBoil?.p90 ?? Number.NaN)) / 60,
      );
    }
    const soaked = hours.filter((value) => value !== null);
    expect(Math.max(...soaked)).toBeLessThanOrEqual(12);
    // Both sides of the limit are in the sweep, and it is used to within a few minutes.
    expect(Math.max(...soaked)).toBeGreaterThan(12 - 0.1);
    expect(hours.at(-1)).toBeNull();
  });

  it('finds a plan at fault whose beans wait drained', async () => {
    const made = await plan(household(), [[BEAN_STEW, 1]], { startsAt: '2026-12-05T06:30' });
    const { soak } = only(made).method;
    if (soak === null) throw new Error('the beans are soaked');
    soak.hours -= 2;
    expect(checkPlan(made).map((fault) => fault.rule)).toContain('soak-wait');
  });
});

describe('H3: a quick soak left covered', () => {
  it('is never planned: too late for a cool soak, beans are boiled unsoaked in two waters', async () => {
    const made = await plan(household(), [[BEAN_STEW, 1]], { startsAt: '2026-12-05T12:00' });
    const { method } = only(made);
    expect(method.soak).toBeNull();
    expect(method).toMatchObject({ firstWater: 'poured-away', finish: 'flame', lectin: { verdict: 'safe' } });
  });

  it('does not pass as a soak of kidney-family beans', () => {
    expect(answerSoaking({ foodId: 'kidney-bean', hours: 1, waterC: 95, start: 'hot', airC: 14 }).advice).toContain(
      'quick hot soak does not count',
    );
  });

  it('is found at fault when it stands overnight', async () => {
    const made = await plan(household(), [[BEAN_STEW, 1]], { startsAt: '2026-12-05T06:30' });
    const { soak } = only(made).method;
    if (soak === null) throw new Error('the beans are soaked');
    expect(soak.start).toBe('cool');
    soak.start = 'hot';
    expect(checkPlan(made).map((fault) => fault.rule)).toContain('soak-too-long');
  });
});

describe('H5: what sees no rolling boil', () => {
  const meals = [{ ...MIDDAY, hot: 'optional' as const }, EVENING];
  const river = (treatBy: 'boil' | 'bleach') =>
    household({ meals, water: water({ treatBy, lots: [{ id: 'river', litres: 90, quality: 'treat' }] }) });
  const cold: Kit = { ...COUSCOUS_BOWL, suits: ['midday'] };
  const soup: Kit = { ...LENTIL_SOUP, suits: ['evening'] };

  it('is not stirred with water that is boiled only later that day', async () => {
    const made = await plan(
      river('boil'),
      [
        [cold, 2],
        [soup, 2],
      ],
      { days: 2 },
    );
    expect(mealOf(made, '2026-12-05-midday').servingsShort).toBe(2);
    expect(mealOf(made, '2026-12-06-midday').servingsShort).toBe(0);
    const dish = made.cookings.find((cooking) => cooking.method.finish === 'no-heat') as Cooking;
    const boiledBefore = made.tasks
      .filter((task) => task.kind === 'treat-water' && task.lightingId !== null)
      .filter((task) => minutesFrom(task.at, dish.startsAt) >= task.minutes)
      .reduce((sum, task) => sum + task.litres, 0);
    expect(boiledBefore).toBeGreaterThanOrEqual(dish.waterL.total);
    expect(made.outcome).toBe('short');
  });

  it('takes bleached water on the first day already', async () => {
    const made = await plan(
      river('bleach'),
      [
        [cold, 2],
        [soup, 2],
      ],
      { days: 2 },
    );
    expect(mealOf(made, '2026-12-05-midday').servingsShort).toBe(0);
    const treated = made.tasks.find((task) => task.kind === 'treat-water' && task.at < '2026-12-05T11:00');
    const dish = made.cookings.find((cooking) => cooking.id.startsWith('2026-12-05-midday')) as Cooking;
    expect(treated?.litres ?? 0).toBeGreaterThanOrEqual(dish.waterL.total);
    expect(made.outcome).toBe('complete');
  });

  it('is not made with water that is not for food', async () => {
    const made = await plan(
      household({
        meals: [{ ...MIDDAY, hot: 'optional' }],
        water: water({
          hygieneLPerPersonDay: 0,
          lots: [
            { id: 'drinks', litres: 3.9, quality: 'safe' },
            { id: 'pond', litres: 80, quality: 'not-for-food' },
          ],
        }),
      }),
      [[cold, 1]],
    );
    expect(made.meals[0]?.servingsShort).toBe(2);
    expect(made.short[0]?.what).toBe('water');
  });

  const raw: Kit = {
    id: 'egg-rice',
    name: 'Egg and rice',
    servings: 2,
    divisible: true,
    style: 'rice',
    suits: ['evening'],
    parts: [
      {
        id: 'all',
        name: 'All',
        ingredients: [
          { foodId: 'instant-rice', massG: 160 },
          { foodId: 'fd-raw-egg', massG: 40 },
        ],
      },
    ],
  };

  it('is never a raw kind: without fuel raw egg is not served, with fuel it boils', async () => {
    const none = await plan(household({ fuels: propane(0) }), [[raw, 1]]);
    expect(none.cookings).toEqual([]);
    expect(none.meals[0]?.servingsShort).toBe(2);
    const boiled = only(await plan(household(), [[raw, 1]]));
    expect(boiled.method.finish).toBe('flame');
    expect(boiled.method.boilMinutes?.p10 ?? 0).toBeGreaterThanOrEqual(5);
  });

  it('has the cooked kind of the same egg as a way without fire', async () => {
    const [part] = raw.parts;
    if (part === undefined) throw new Error('the kit has a part');
    const cooked: Kit = {
      ...raw,
      parts: [
        {
          ...part,
          ingredients: [
            { foodId: 'instant-rice', massG: 160 },
            { foodId: 'fd-scrambled-egg', massG: 40 },
          ],
        },
      ],
    };
    expect(only(await plan(household({ fuels: propane(0) }), [[cooked, 1]])).method.finish).toBe('no-heat');
  });

  it('is not set to stand before anybody is up or before the plan begins', async () => {
    // Couscous stands about an hour in cold water: too long between 06:30 and 07:30.
    const early = await plan(household({ meals: [BREAKFAST] }), [[COUSCOUS_BOWL, 1]], { startsAt: '2026-12-05T06:00' });
    expect(early.cookings).toEqual([]);
    expect(early.refused[0]?.reason).toContain('nobody is up');
    const later = await plan(household({ meals: [{ ...BREAKFAST, time: '08:30' }] }), [[COUSCOUS_BOWL, 1]], {
      startsAt: '2026-12-05T06:00',
    });
    expect(only(later).startsAt > '2026-12-05T06:30').toBe(true);
  });
});

describe('H9: a dish from the box without a thermometer', () => {
  const reading = { hours: 4, temperatureC: 80, startC: 95, airC: 14 };
  const four = [1, 2, 3, 4].map((n) => ({ label: `P${n}`, ageGroup: 'adult' as const, mealShare: 1 }));
  const boxed = (thermometer: boolean) =>
    plan(
      household({
        thermometer,
        people: four,
        places: places({ indoorC: 14, indoorFallsToC: 14 }),
        boxes: [{ id: 'box', fits: ['pot-5'], materialId: 'eps', thicknessMm: 100, reading }],
      }),
      [[LENTIL_SOUP, 4]],
      { pinned: [{ meal: '2026-12-05-evening', kitId: 'lentil-soup', method: { finish: 'box' } }] },
    );
  const safeUntil = (made: PlanDraft) => made.meals[0]?.dishes[0]?.safeUntil ?? '';

  it('is eaten by the time that the bad end of the box reaches 60 C', async () => {
    const made = await boxed(false);
    const dish = only(made);
    expect(dish.method.finish).toBe('box');
    const hours = minutesFrom(dish.doneAt, safeUntil(made)) / 60;
    expect(hours).toBeGreaterThan(2);
    const cooled = answerCooling({
      vessel: { kind: 'pot', capacityL: 5, material: 'aluminium', lid: 'snug' },
      fillL: 1.8,
      // A full pot loses about 5 K on its way into the box.
      startC: (dish.method.temperatureC ?? Number.NaN) - 5,
      airC: 14,
      insulation: { materialId: 'eps', thicknessMm: 100 },
      // A box is read with a pot that is filled for it, to nine tenths: with less in it, it cools sooner.
      reading: { ...reading, fillShare: 0.9 },
      hours,
    });
    // The fill of the pot is known here to a tenth of a litre, and the time to a minute.
    expect(Math.abs((cooled.temperatureC.at(-1)?.p10 ?? 0) - 60)).toBeLessThan(0.5);
  });

  it('may be eaten two hours later where a thermometer shows when the two hours begin', async () => {
    expect(minutesFrom(safeUntil(await boxed(false)), safeUntil(await boxed(true)))).toBe(120);
  });

  it('is refused from a box that does not hold 60 C until the meal, with a way out', async () => {
    const made = await plan(
      household({ boxes: [{ id: 'box', fits: ['pot-5'], materialId: 'newspaper', thicknessMm: 20 }] }),
      [[LENTIL_SOUP, 1]],
    );
    expect(only(made).method.finish).toBe('flame');
    const refusal = made.refused.find((row) => row.reason.includes('must stay above 60 °C'));
    expect(refusal?.wayOut).toContain('bring it to a full boil again');
  });
});

describe('H10: 1,500 typed for feet', () => {
  it('repeats the boiling point and asks', () => {
    const meant = answerBoilingPoint({ elevationM: 1500 });
    expect(meant.text).toMatch(/water boils at 9[45]\.\d °C/);
    expect(meant.ask).toMatch(/feet|ft/);
    const right = answerBoilingPoint({ elevationM: 457 });
    expect(right.text).toMatch(/water boils at 98\.\d °C/);
    expect(right.ask).toBeNull();
  });

  it('shows in the plan, which names elevation and boiling point among its assumptions', async () => {
    const high = await plan(household({ places: places({ elevationM: 1500 }) }), [[LENTIL_SOUP, 1]]);
    expect(high.assumptions[0]).toMatch(/boils at 9[45](\.\d)? °C at 1500 m/);
  });
});

describe('H12: a dry mix in one bag', () => {
  const box = [{ id: 'box', fits: ['pot-5'], materialId: 'eps' as const, thicknessMm: 100 }];

  it('with kidney-family beans: not soaked, not boxed, and the way out is named', async () => {
    const made = await plan(household({ boxes: box }), [[ONE_BAG_STEW, 1]], { startsAt: '2026-12-05T06:30' });
    expect(only(made).method).toMatchObject({ soak: null, firstWater: 'poured-away', finish: 'flame' });
    const refusal = made.refused.find((row) => row.kitId === 'one-bag-stew');
    expect(refusal?.wayOut).toContain('Pick the beans out');
    expect(refusal?.wayOut).toContain('pour that water away');
  });

  it('of kidney-family beans and chickpeas, which may both be soaked, is not: one water is poured away, one is not', async () => {
    const mixed: Kit = {
      ...ONE_BAG_STEW,
      id: 'bean-mix',
      parts: [
        {
          id: 'all',
          name: 'Beans and chickpeas',
          soakable: true,
          ingredients: [
            { foodId: 'kidney-bean', massG: 90 },
            { foodId: 'chickpea', massG: 90 },
          ],
        },
      ],
    };
    const made = await plan(household(), [[mixed, 1]], { startsAt: '2026-12-05T06:30' });
    expect(only(made).method).toMatchObject({ soak: null, firstWater: 'poured-away', finish: 'flame' });
    expect(made.refused.find((row) => row.kitId === 'bean-mix')?.wayOut).toContain('Pick the beans out');
  });

  it('the same beans in a part of their own are soaked', async () => {
    const made = await plan(household({ boxes: box }), [[BEAN_STEW, 1]], { startsAt: '2026-12-05T06:30' });
    expect(only(made).method.soak?.partIds).toEqual(['beans']);
  });

  it('of chickpeas with bouillon: seasonings do not lie in water for hours', async () => {
    const [beans, seasoning] = BEAN_STEW.parts;
    if (beans === undefined || seasoning === undefined) throw new Error('the stew has two parts');
    const peas = { ...beans, id: 'peas', ingredients: [{ foodId: 'chickpea' as const, massG: 180 }] };
    const apart: Kit = { ...BEAN_STEW, id: 'peas-apart', parts: [peas, seasoning] };
    const mixed: Kit = {
      ...BEAN_STEW,
      id: 'peas-mixed',
      parts: [{ ...peas, ingredients: [...peas.ingredients, ...seasoning.ingredients] }],
    };
    const own = { startsAt: '2026-12-05T06:30' };
    expect(only(await plan(household(), [[apart, 1]], own)).method.soak?.partIds).toEqual(['peas']);
    expect(only(await plan(household(), [[mixed, 1]], own)).method.soak).toBeNull();
  });

  it('is refused to be soaked in the comparison of one dish as well', () => {
    const rows = dishOptions({
      household: household(),
      kit: ONE_BAG_STEW,
      servings: 2,
      startsAt: '2026-12-05T06:30',
      eatAt: '2026-12-05T18:00',
    });
    const offered = rows.filter((row) => row.verdict === 'ok');
    expect(offered.length).toBeGreaterThan(0);
    expect(new Set(offered.map((row) => row.method.soakHours))).toEqual(new Set([null]));
    expect(rows.some((row) => row.verdict === 'refused' && (row.wayOut ?? '').includes('Pick the beans out'))).toBe(
      true,
    );
  });
});
