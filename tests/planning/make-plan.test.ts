/** Whole plans of small households: what changes when what is there changes, and where the limits lie. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import { indoorCOnDay } from '../../api/cooking/household/indoor-temperature.ts';
import type { HouseholdDocument, Person } from '../../api/cooking/household/kitchen.ts';
import {
  DRINKS_L_PER_DAY,
  drinkingLPerDay,
  ENERGY_NEED_KCAL,
  EXTRA_DRINKS_L_PER_DAY,
  EXTRA_ENERGY_KCAL,
} from '../../api/cooking/household/people.ts';
import { soakLimitHours } from '../../api/cooking/keeping/soak-limits.ts';
import { minSoakHoursForLectin } from '../../api/cooking/kinetics/lectin-rule.ts';
import { stateNow } from '../../api/planning/bookings/state-now.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import { makePlan } from '../../api/planning/make-plan.ts';
import type { Cooking, Plan, PlanDraft, PlanRequest, Shortage } from '../../api/planning/plan-types.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { addMinutes } from '../../api/wording/times.ts';
import {
  BEAN_STEW,
  COUSCOUS_BOWL,
  EVENING,
  household,
  LENTIL_SOUP,
  MIDDAY,
  places,
  planFor,
  propane,
  RICE,
  START,
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
const total = (numbers: number[]): number => numbers.reduce((sum, number) => sum + number, 0);
const firstShort = (made: PlanDraft): Shortage => {
  expect(made.outcome).toBe('short');
  return made.short[0] as Shortage;
};
const servedBy = (made: PlanDraft, mealId: string): string[] =>
  made.cookings.filter((cooking) => cooking.id.startsWith(mealId)).map((cooking) => cooking.kitId);
const mealOf = (made: PlanDraft, id: string) => {
  const meal = made.meals.find((candidate) => candidate.id === id);
  if (meal === undefined) throw new Error(`no meal ${id}`);
  return meal;
};
/** Fuel of everything in the plan at its 90th percentile, by which plans are limited; kWh for electricity. */
const fuelP90 = (made: PlanDraft, fuelId: string): number =>
  total([
    ...[...made.cookings, ...made.tasks].flatMap((work) =>
      work.fuel.filter((fuel) => fuel.fuelId === fuelId).map((fuel) => (fuel.kWh ?? fuel.kg).p90),
    ),
    ...made.lightings.filter((lighting) => lighting.fuelId === fuelId).map((lighting) => lighting.startUpFuel.kg),
  ]);
const usedL = (made: PlanDraft): number => total(made.water.byDay.map((day) => day.usedL));
const dayTwo = (made: PlanDraft) => {
  const [, day] = made.water.byDay;
  const [, energy] = made.energyByDay;
  if (day === undefined || energy === undefined) throw new Error('the plan has two days');
  return { ...day, needKcal: energy.needKcal };
};

describe('a plan', () => {
  it('is the same when it is asked for again', async () => {
    const ask = () =>
      plan(
        household({ meals: [MIDDAY, EVENING] }),
        [
          [BEAN_STEW, 2],
          [LENTIL_SOUP, 2],
          [RICE, 2],
        ],
        { days: 2 },
      );
    expect(JSON.stringify(await ask())).toBe(JSON.stringify(await ask()));
  });

  it('closes every aim of a small week and says so', async () => {
    const made = await plan(
      household(),
      [
        [LENTIL_SOUP, 1],
        [RICE, 1],
      ],
      { days: 2 },
    );
    expect(made).toMatchObject({ outcome: 'complete', short: [], waysOut: [], proof: { status: 'optimal' } });
    for (const aim of made.proof.aims) expect(aim.value - aim.bound, aim.aim).toBeLessThanOrEqual(aim.tolerance + 1e-5);
    expect(new Set(made.cookings.map((cooking) => cooking.kitId))).toEqual(new Set(['lentil-soup', 'plain-rice']));
  });

  it('takes more fuel higher up, and with colder water', async () => {
    const fuel = async (document: HouseholdDocument) => only(await plan(document, [[LENTIL_SOUP, 1]])).fuelMJ.p50;
    const low = await fuel(household());
    expect(await fuel(household({ places: places({ elevationM: 2500 }) }))).toBeGreaterThan(low * 1.1);
    const cold = await fuel(household({ water: water({ lots: [{ id: 'cans', litres: 120, temperatureC: 2 }] }) }));
    // 8 K less to start from, about a litre and a half: 0.05 MJ into the pot, more in fuel.
    expect(cold - low).toBeGreaterThan(0.05);
    expect(cold - low).toBeLessThan(0.3);
  });

  it('prefers a cold dish with more food energy to a hot one, and does not call that a shortage', async () => {
    const feast: Kit = {
      ...COUSCOUS_BOWL,
      id: 'feast',
      parts: [{ id: 'all', name: 'All', ingredients: [{ foodId: 'couscous', massG: 500 }] }],
    };
    const made = await plan(household(), [
      [LENTIL_SOUP, 1],
      [feast, 1],
    ]);
    expect(only(made).kitId).toBe('feast');
    expect(made).toMatchObject({ outcome: 'complete', short: [] });
    expect(made.cautions.some((caution) => caution.includes('should be hot are cold'))).toBe(true);
    const pinned = await plan(
      household(),
      [
        [LENTIL_SOUP, 1],
        [feast, 1],
      ],
      {
        pinned: [{ meal: '2026-12-05-evening', kitId: 'lentil-soup' }],
      },
    );
    expect(pinned.meals[0]?.dishes[0]?.hot).toBe(true);
  });
});

describe('limits: just enough and just not', () => {
  it('a soak begins with the first hands of the day; a minute later it is another way', async () => {
    // Up at 06:30, at the bowl at 06:45, ten minutes after the plan begins at the latest.
    const at = async (startsAt: string) => only(await plan(household(), [[BEAN_STEW, 1]], { startsAt }));
    const soaked = await at('2026-12-05T06:35');
    expect(soaked.method.soak?.at).toBe('2026-12-05T06:45');
    const late = await at('2026-12-05T06:36');
    expect(late.method).toMatchObject({ soak: null, firstWater: 'poured-away' });
    expect(late.fuelMJ.p50).toBeGreaterThan(soaked.fuelMJ.p50 * 1.1);
  });

  it('a soak stands from one evening to the next where the rooms are cold, and half a day where they are not', async () => {
    const soaksIn = async (kit: Kit, room: { indoorC: number; indoorFallsToC: number }) => {
      const made = await plan(household({ places: places(room) }), [[kit, 6]], { days: 6 });
      const soaks = made.cookings.flatMap(({ method, startsAt }) =>
        method.soak ? [{ ...method.soak, startsAt }] : [],
      );
      for (const { at, startsAt } of soaks) {
        const dayIndex = (Date.parse(at.slice(0, 10)) - Date.parse(START.slice(0, 10))) / 86_400_000;
        const inWaterHours = (Date.parse(`${startsAt}Z`) - Date.parse(`${at}Z`)) / 3_600_000;
        expect(inWaterHours).toBeLessThanOrEqual(soakLimitHours(indoorCOnDay(room, dayIndex)));
      }
      return { made, soaks };
    };
    const cold = await soaksIn(BEAN_STEW, { indoorC: 10, indoorFallsToC: 8 });
    expect(cold.soaks.some(({ hours }) => hours > 12)).toBe(true);
    // A later plan counts the days of the house from the first: the same soak has the same limit.
    const { made, soaks } = await soaksIn(LENTIL_SOUP, { indoorC: 15, indoorFallsToC: 8 });
    const since = soaks.at(-1)?.at ?? '';
    expect(soakLimitHours(15)).toBeLessThan(soakLimitHours(8));
    const first = { ...made, schedule: [] } as Plan;
    const continues = { ...(first.continues as NonNullable<Plan['continues']>), firstStartsAt: START };
    const later = {
      ...first,
      request: { ...first.request, startsAt: `${since.slice(0, 10)}T06:00`, days: 2 },
      continues,
    };
    const limits = [first, later].map(
      (plan) =>
        stateNow(plan as Plan, [], addMinutes(since, 120)).soaks.find((soak) => soak.since === since)?.limitHours,
    );
    expect(limits).toEqual([soakLimitHours(8), soakLimitHours(8)]);
  });

  it('the earliest meal of soaked beans; an hour earlier they are not swollen', async () => {
    const at = (time: string) =>
      plan(household({ meals: [{ ...EVENING, time }] }), [[BEAN_STEW, 1]], { startsAt: '2026-12-05T06:30' });
    const times = ['15:00', '16:00', '17:00', '18:00', '19:00'];
    const plans = await Promise.all(times.map(at));
    const first = plans.findIndex((made) => only(made).method.soak !== null);
    expect(first).toBeGreaterThan(0);
    // Once it fits, every later meal has it as well.
    for (const made of plans.slice(first)) expect(only(made).method.soak).not.toBeNull();
    const needed = minSoakHoursForLectin(14);
    expect(only(plans[first] as PlanDraft).method.soak?.hours ?? 0).toBeGreaterThanOrEqual(needed);
    const earlier = plans[first - 1] as PlanDraft;
    expect(only(earlier).method.firstWater).toBe('poured-away');
    expect(earlier.refused.some((row) => row.reason.includes('80 % are needed'))).toBe(true);
  });

  it('fuel: what the plan takes is enough, one hundredth less is not', async () => {
    const ask = (kg: number) => plan(household({ fuels: propane(kg) }), [[LENTIL_SOUP, 2]], { days: 2 });
    const need = fuelP90(await ask(2), 'propane');
    expect((await ask(need * 1.000001)).outcome).toBe('complete');
    const made = await ask(need * 0.99);
    const short = firstShort(made);
    expect(short).toMatchObject({ what: 'fuel', id: 'propane', from: '2026-12-06', unit: 'kg' });
    // Amounts are rounded up to a gram, and the aim behind them is closed to a gram.
    expect(Math.abs(short.amount - need * 0.01)).toBeLessThan(0.0021);
  });

  it('the reserve is not touched', async () => {
    const ask = (kg: number, reserveShare: number) =>
      plan(household({ fuels: [{ fuelId: 'propane', reserveShare, containers: [{ id: 'bottle', leftKg: kg }] }] }), [
        [LENTIL_SOUP, 1],
      ]);
    const need = fuelP90(await ask(2, 0), 'propane');
    expect((await ask((need / 0.9) * 1.001, 0.1)).outcome).toBe('complete');
    expect(firstShort(await ask((need / 0.9) * 0.99, 0.1)).what).toBe('fuel');
  });

  it('water: what people and pots take is enough, one hundredth less is not', async () => {
    // A soak takes water of its own: where it may be left out, less water is enough.
    const unsoaked = { ...LENTIL_SOUP, parts: LENTIL_SOUP.parts.map((part) => ({ ...part, soakable: false })) };
    const ask = (litres: number) =>
      plan(
        household({ water: water({ lots: [{ id: 'cans', litres, quality: 'safe', temperatureC: 10 }] }) }),
        [[unsoaked, 2]],
        { days: 2 },
      );
    const ample = await ask(120);
    const [a, b] = household().people.map((person) => drinkingLPerDay(person));
    // From 07:00 the first day has 17 of its 24 hours; 2 L of hygiene each, half a litre of washing-up per person and meal.
    const people = (17 / 24 + 1) * ((a ?? 0) + (b ?? 0) + 2 * 2) + 2 * 2 * 0.5;
    const need = people + total(ample.cookings.map((cooking) => cooking.waterL.total));
    expect(need).toBeCloseTo(usedL(ample), 0);
    // Water of a dish is printed to a millilitre.
    expect((await ask(need + 0.002)).outcome).toBe('complete');
    const short = firstShort(await ask(need * 0.99));
    expect(short).toMatchObject({ what: 'water', from: '2026-12-06', unit: 'L' });
    expect(Math.abs(short.amount - need * 0.01)).toBeLessThan(0.01);
  });

  it('outdoor minutes and fires a day', async () => {
    const ask = (own: Partial<HouseholdDocument>) =>
      plan(household({ meals: [MIDDAY, EVENING], ...own }), [[LENTIL_SOUP, 2]]);
    expect((await ask({ lightingsPerDay: 2 })).outcome).toBe('complete');
    expect(firstShort(await ask({ lightingsPerDay: 1 })).what).toBe('time');
    expect(firstShort(await ask({ outdoorMinutesPerDay: 60 })).what).toBe('time');
  });
});

describe('a week that is short', () => {
  const days = { days: 3 };
  const ask = (kg: number) => plan(household({ fuels: propane(kg) }), [[LENTIL_SOUP, 3]], days);

  it('names fuel, how much, and the first meal that misses it, as late as can be', async () => {
    const made = await ask(0.2);
    const short = firstShort(made);
    expect(short).toMatchObject({ what: 'fuel', id: 'propane', from: '2026-12-07' });
    const missed = made.meals.filter((meal) => meal.servingsShort > 0).map((meal) => meal.id.slice(0, 10));
    expect(missed).toEqual(['2026-12-07']);
    expect(made.waysOut.some((way) => way.includes('more propane'))).toBe(true);
  });

  it('is complete with that amount more and a hair, and short with a tenth less', async () => {
    const { amount } = firstShort(await ask(0.2));
    expect(amount).toBeGreaterThan(0.01);
    // The amount is closed to half a hundredth or one gram.
    expect((await ask(0.2 + amount * 1.005 + 0.001)).outcome).toBe('complete');
    expect((await ask(0.2 + amount * 0.9)).outcome).toBe('short');
  });

  it('names the sets of kits where food runs out', async () => {
    const made = await plan(household(), [[LENTIL_SOUP, 2]], days);
    expect(firstShort(made)).toMatchObject({ what: 'food', amount: 1, unit: 'sets', from: '2026-12-07' });
    expect((await plan(household(), [[LENTIL_SOUP, 3]], days)).outcome).toBe('complete');
  });

  it('says that people and animals alone drink more than there is; with what is named it is complete', async () => {
    const at = (litres: number) =>
      plan(
        household({
          animals: [{ label: 'goat', waterLPerDay: 3 }],
          water: water({ lots: [{ id: 'cans', litres, quality: 'safe', temperatureC: 10 }] }),
        }),
        [[LENTIL_SOUP, 2]],
        { days: 2 },
      );
    const made = await at(12);
    const [base, pots] = made.short;
    expect(base).toMatchObject({ what: 'water', from: '2026-12-06', unit: 'L' });
    expect(base?.text).toContain('drinking, hygiene, animals and washing-up alone');
    const alone = total(made.water.byDay.map((day) => day.drinkL + day.hygieneL + day.animalsL + day.washL)) - 12;
    // Days are printed to a tenth of a litre, four parts on two days.
    expect(Math.abs((base?.amount ?? 0) - alone)).toBeLessThan(0.5);
    expect(made.cookings).toEqual([]);
    expect((await at(12 + (base?.amount ?? 0))).outcome).toBe('short');
    expect((await at(12 + (base?.amount ?? 0) + (pots?.amount ?? 0))).outcome).toBe('complete');
  });
});

describe('people and animals', () => {
  const adult = (label: string, own: Partial<Person> = {}): Person => ({
    label,
    ageGroup: 'adult',
    sex: 'f',
    mealShare: 1,
    ...own,
  });
  const two = (second: Person) => plan(household({ people: [adult('A'), second] }), [[LENTIL_SOUP, 4]], { days: 2 });

  it('who is away is not cooked for, who visits is', async () => {
    const at = (entry: NonNullable<PlanRequest['attendance']>[number]) =>
      plan(household(), [[LENTIL_SOUP, 4]], { days: 2, attendance: [entry] });
    const away = await at({ date: '2026-12-05', people: ['A'] });
    expect(away.meals.map((meal) => meal.servingsWanted)).toEqual([1, 2]);
    expect(away.cookings.map((cooking) => cooking.servings)).toEqual([1, 2]);
    expect(away.cookings.map((cooking) => cooking.batches)).toEqual([0.5, 1]);
    const visited = await at({ date: '2026-12-06', guests: [{ ageGroup: 'adult', mealShare: 1 }] });
    expect(visited.meals.map((meal) => [meal.people, meal.servingsWanted])).toEqual([
      [2, 2],
      [3, 3],
    ]);
    expect(visited.cookings.map((cooking) => cooking.servings)).toEqual([2, 3]);
    expect(dayTwo(visited).drinkL).toBeGreaterThan(dayTwo(away).drinkL + 1.5);
    const nobody = await at({ date: '2026-12-05', mealId: 'evening', people: [] });
    expect(nobody.meals.map((meal) => meal.id)).toEqual(['2026-12-06-evening']);
  });

  it('a child eats and drinks less', async () => {
    const grown = await two(adult('B'));
    const child = await two({ label: 'B', ageGroup: 'child' });
    expect(mealOf(child, '2026-12-06-evening').servingsWanted).toBeLessThan(2);
    const less = DRINKS_L_PER_DAY.adult.value - DRINKS_L_PER_DAY.child.value;
    expect(less).toBeGreaterThan(0);
    expect(dayTwo(grown).drinkL - dayTwo(child).drinkL).toBeCloseTo(less, 1);
    expect(dayTwo(child).needKcal).toBeLessThan(dayTwo(grown).needKcal);
  });

  it.each(['nursing', 'ill'] as const)(
    'who is %s drinks more, and eats more where the tables say so',
    async (condition) => {
      const well = dayTwo(await two(adult('B')));
      const own = dayTwo(await two(adult('B', { condition })));
      expect(EXTRA_DRINKS_L_PER_DAY[condition].value).toBeGreaterThan(0.5);
      expect(own.drinkL - well.drinkL).toBeCloseTo(EXTRA_DRINKS_L_PER_DAY[condition].value, 1);
      expect(own.needKcal - well.needKcal).toBe(EXTRA_ENERGY_KCAL[condition].value);
    },
  );

  it.each([
    ['fetched day by day', { dailySupply: { litres: 5, quality: 'safe' } }],
    ['made from snow', { snow: true }],
  ] as const)('water that is %s is carried: everybody needs the energy of the low-active', async (_how, own) => {
    const still = dayTwo(await plan(household(), [[LENTIL_SOUP, 2]], { days: 2 }));
    const carried = dayTwo(await plan(household({ water: water(own) }), [[LENTIL_SOUP, 2]], { days: 2 }));
    const more = (['f', 'm'] as const).map(
      (sex) => ENERGY_NEED_KCAL.adult[sex]['low-active'].value - ENERGY_NEED_KCAL.adult[sex].sedentary.value,
    );
    expect(total(more)).toBe(400);
    // The increment for the cold of the house grows with the need: a few kcal more.
    expect(carried.needKcal - still.needKcal).toBeGreaterThanOrEqual(400);
    expect(carried.needKcal - still.needKcal).toBeLessThan(440);
  });

  it('animals drink', async () => {
    const none = dayTwo(await plan(household(), [[LENTIL_SOUP, 2]], { days: 2 }));
    const goat = dayTwo(
      await plan(household({ animals: [{ label: 'goat', waterLPerDay: 3 }] }), [[LENTIL_SOUP, 2]], { days: 2 }),
    );
    expect(none.animalsL).toBe(0);
    expect(goat.animalsL).toBe(3);
    expect(goat.usedL - none.usedL).toBeCloseTo(3, 6);
  });

  it('a dish that somebody at the table cannot eat is not served', async () => {
    const made = await plan(household({ people: [adult('A'), adult('B', { avoids: ['lentil-brown'] })] }), [
      [LENTIL_SOUP, 1],
      [RICE, 1],
    ]);
    expect(only(made).kitId).toBe('plain-rice');
    expect(made.refused.find((row) => row.kitId === 'lentil-soup')?.reason).toContain('lentil-brown');
  });
});

describe('what the request asks for', () => {
  const kits: [Kit, number][] = [
    [LENTIL_SOUP, 2],
    [RICE, 2],
  ];

  it('a pinned kit is served at its meal, and a pinned method is kept', async () => {
    for (const kitId of ['lentil-soup', 'plain-rice']) {
      const made = await plan(household(), kits, { days: 2, pinned: [{ meal: '2026-12-06-evening', kitId }] });
      expect(servedBy(made, '2026-12-06-evening')).toEqual([kitId]);
    }
    const beans = (soaked: boolean) =>
      plan(household(), [[BEAN_STEW, 1]], {
        startsAt: '2026-12-05T06:30',
        pinned: [{ meal: '2026-12-05-evening', kitId: 'bean-stew', method: { soaked } }],
      });
    expect(only(await beans(true)).method.soak).not.toBeNull();
    expect(only(await beans(false)).method.soak).toBeNull();
  });

  it('a meal that is done is not planned again and takes nothing', async () => {
    const made = await plan(household(), kits, { days: 2, done: [{ meal: '2026-12-05-evening', result: 'eaten' }] });
    expect(made.meals.map((meal) => meal.id)).toEqual(['2026-12-06-evening']);
    expect(made.cookings).toHaveLength(1);
    expect(made.water.byDay[0]).toMatchObject({ cookL: 0, washL: 0 });
  });

  it('no fire burns while none may; hot meals are then missed or cold', async () => {
    const noFlame = [{ from: '2026-12-05T12:00', to: '2026-12-05T19:00' }];
    const made = await plan(household(), [...kits, [COUSCOUS_BOWL, 1]], { days: 2, noFlame });
    for (const lighting of made.lightings)
      expect(lighting.until <= '2026-12-05T12:00' || lighting.at >= '2026-12-05T19:00', lighting.id).toBe(true);
    expect(servedBy(made, '2026-12-05-evening')).toEqual(['couscous-bowl']);
    expect(servedBy(made, '2026-12-06-evening')).not.toEqual(['couscous-bowl']);
    const free = await plan(household(), [...kits, [COUSCOUS_BOWL, 1]], { days: 2 });
    expect(free.lightings.some((lighting) => lighting.at.startsWith('2026-12-05'))).toBe(true);
  });

  it('a stove that is out of use is not lit, and another one is', async () => {
    const house = household({
      fuels: [
        { fuelId: 'propane', reserveShare: 0, containers: [{ id: 'bottle', leftKg: 2 }] },
        { fuelId: 'wood', reserveShare: 0, moisturePercent: 18, containers: [{ id: 'stack', leftKg: 30 }] },
      ],
      stoves: [
        { id: 'burner', typeId: 'propane-camp', fuelIds: ['propane'], site: 'outdoors' },
        { id: 'rocket', typeId: 'rocket', fuelIds: ['wood'], site: 'outdoors' },
      ],
    });
    for (const [out, other] of [
      ['burner', 'rocket'],
      ['rocket', 'burner'],
    ] as const) {
      const made = await plan(house, kits, { days: 2, outOfUse: [{ id: out, from: START, to: null }] });
      expect(made.outcome).toBe('complete');
      expect(new Set(made.lightings.map((lighting) => lighting.stoveId))).toEqual(new Set([other]));
    }
    const later = await plan(household(), kits, {
      days: 2,
      outOfUse: [{ id: 'burner', from: '2026-12-06T00:00', to: null }],
    });
    expect(later.meals.map((meal) => meal.servingsShort)).toEqual([0, 2]);
  });
});

describe('stoves, fuels and water treatment', () => {
  it('water that is treated by boiling is work on a fire, potful by potful, and costs fuel', async () => {
    const lots = [{ id: 'river', litres: 90, quality: 'treat' as const, temperatureC: 10 }];
    const by = (treatBy: 'boil' | 'bleach') =>
      plan(household({ water: water({ treatBy, lots }) }), [[LENTIL_SOUP, 2]], { days: 2 });
    const boiled = await by('boil');
    expect(boiled.outcome).toBe('complete');
    const tasks = boiled.tasks.filter((task) => task.kind === 'treat-water');
    expect(tasks.length).toBeGreaterThan(1);
    const lit = new Map(boiled.lightings.map((lighting) => [lighting.id, lighting]));
    for (const task of tasks) {
      expect(lit.get(task.lightingId ?? '')?.at.slice(0, 10)).toBe(task.at.slice(0, 10));
      expect(task.fuel[0]?.kg.p50 ?? 0).toBeGreaterThan(0);
      expect(task.litres).toBeLessThanOrEqual(4);
    }
    // People drink, wash and wash up with it; the soup boils anyway.
    const people = total(boiled.water.byDay.map((day) => day.drinkL + day.hygieneL + day.washL));
    expect(Math.abs(total(tasks.map((task) => task.litres)) - people)).toBeLessThan(0.6);
    const bleached = await by('bleach');
    expect(bleached.tasks.every((task) => task.lightingId === null)).toBe(true);
    const more = fuelP90(boiled, 'propane') - fuelP90(bleached, 'propane');
    expect(more).toBeCloseTo(total(tasks.map((task) => task.fuel[0]?.kg.p90 ?? 0)), 2);
  });

  it('water that cannot all be boiled is named as short', async () => {
    const lots = [{ id: 'river', litres: 90, quality: 'treat' as const, temperatureC: 10 }];
    const made = await plan(
      household({ fuels: propane(0), water: water({ treatBy: 'boil', lots }) }),
      [[LENTIL_SOUP, 2]],
      { days: 2 },
    );
    const people = total(made.water.byDay.map((day) => day.drinkL + day.hygieneL + day.washL));
    expect(firstShort(made)).toMatchObject({ what: 'water', from: '2026-12-05', unit: 'L' });
    expect(Math.abs(firstShort(made).amount - people)).toBeLessThan(0.4);
    expect(made.waysOut[0]).toContain('bleach');
  });

  it('a pot that keeps a box dish is not used to boil water meanwhile', async () => {
    // Fires may burn from 15:20; the dish goes into the box at 16:00, and on the other burner water could be boiled until 18:00.
    const reading = { hours: 4, temperatureC: 91, startC: 95, airC: 14 };
    const ask = (more: NonNullable<HouseholdDocument['vessels']>) =>
      plan(
        household({
          stoves: ['burner', 'other-burner'].map((id) => ({
            id,
            typeId: 'propane-camp' as const,
            fuelIds: ['propane' as const],
            site: 'outdoors' as const,
          })),
          vessels: [...(household().vessels ?? []), ...more],
          boxes: [{ id: 'box', fits: ['pot-5'], materialId: 'eps', thicknessMm: 100, reading }],
          water: water({ treatBy: 'boil', lots: [{ id: 'river', litres: 90, quality: 'treat', temperatureC: 10 }] }),
        }),
        [[LENTIL_SOUP, 2]],
        {
          noFlame: [{ from: '2026-12-05T07:00', to: '2026-12-05T15:20' }],
          pinned: [{ meal: '2026-12-05-evening', kitId: 'lentil-soup', method: { finish: 'box' } }],
        },
      );
    const onePot = await ask([]);
    // Water comes before food: the pot boils water, or keeps the dish, never both.
    for (const dish of onePot.cookings) {
      expect(dish.method.finish).toBe('box');
      for (const task of onePot.tasks) expect(task.at < dish.startsAt, task.id).toBe(true);
    }
    expect(onePot.outcome).toBe('short');
    const twoPots = await ask([{ id: 'pot-6', kind: 'pot', capacityL: 6, material: 'aluminium', lid: 'snug' }]);
    expect(twoPots.outcome).toBe('complete');
    expect(only(twoPots).method.vesselId).toBe('pot-5');
    expect(twoPots.tasks.some((task) => task.vesselId === 'pot-6' && task.at >= '2026-12-05T16:00')).toBe(true);
  });

  it('an electric plate counts kWh', async () => {
    const ask = (leftKWh: number) =>
      plan(
        household({
          fuels: [{ fuelId: 'electricity', reserveShare: 0, leftKWh }],
          stoves: [{ id: 'plate', typeId: 'electric-plate', fuelIds: ['electricity'], site: 'vented-indoors' }],
        }),
        [[LENTIL_SOUP, 2]],
        { days: 2 },
      );
    const made = await ask(3);
    expect(made.outcome).toBe('complete');
    const need = fuelP90(made, 'electricity');
    // Three quarters of a litre to the boil is 0.08 kWh; an hour of simmer on top.
    expect(need).toBeGreaterThan(0.3);
    expect(need).toBeLessThan(2);
    for (const cooking of made.cookings) {
      expect(cooking.fuel[0]?.kg.p50).toBe(0);
      expect((cooking.fuel[0]?.kWh?.p50 ?? 0) * 3.6).toBeCloseTo(cooking.fuelMJ.p50, 6);
    }
    expect(made.limits.find((limit) => limit.limit === 'electricity')).toMatchObject({ unit: 'kWh', allowed: 3 });
    expect(firstShort(await ask(need * 0.9))).toMatchObject({
      what: 'fuel',
      id: 'electricity',
      unit: 'kWh',
      from: '2026-12-06',
    });
  });

  it('a wood fire does not carry a pressure cooker, and says what would', async () => {
    const made = await plan(
      household({
        fuels: [{ fuelId: 'wood', reserveShare: 0, moisturePercent: 18, containers: [{ id: 'stack', leftKg: 30 }] }],
        stoves: [{ id: 'rocket', typeId: 'rocket', fuelIds: ['wood'], site: 'outdoors' }],
        vessels: [{ id: 'cooker', kind: 'pressure-cooker', capacityL: 6, material: 'stainless', gaugeKPa: 90 }],
      }),
      [[LENTIL_SOUP, 1]],
    );
    expect(made.cookings).toEqual([]);
    expect(made.refused[0]?.reason).toContain('needs a flame that can be turned down');
    expect(made.refused[0]?.wayOut).toContain('stove with a valve');
  });

  const alcohol = (own: Partial<HouseholdDocument>) =>
    household({
      people: [{ label: 'A', ageGroup: 'adult', mealShare: 1 }],
      fuels: [{ fuelId: 'denatured-alcohol', reserveShare: 0, containers: [{ id: 'can', leftKg: 3 }] }],
      stoves: [{ id: 'jet', typeId: 'alcohol-jet', fuelIds: ['denatured-alcohol'], site: 'outdoors', burners: 1 }],
      vessels: [{ id: 'pot-2', kind: 'pot', capacityL: 2, material: 'aluminium', lid: 'snug' }],
      ...own,
    });

  it('a small burner does not carry a large pot', async () => {
    const { vessels } = household();
    const made = await plan(alcohol({ vessels }), [[LENTIL_SOUP, 1]]);
    expect(made.cookings).toEqual([]);
    expect(made.refused.map((row) => row.reason).join()).toMatch(/carries pots up to 2 L; this one holds 5 L/);
  });

  it('a burner without a valve cooks what one fill lasts for, and no longer', async () => {
    const long = await plan(alcohol({}), [[LENTIL_SOUP, 1]]);
    expect(long.cookings).toEqual([]);
    expect(long.refused[0]?.reason).toContain('One fill of this burner lasts about 16 min');
    expect(long.refused[0]?.wayOut).toContain('two burners take turns');
    const quick: Kit = {
      ...RICE,
      parts: [{ id: 'dry', name: 'Rice', ingredients: [{ foodId: 'instant-rice', massG: 160 }] }],
    };
    const { minutesToBoil, boilMinutes } = only(await plan(alcohol({}), [[quick, 1]])).method;
    expect((minutesToBoil?.p90 ?? 99) + (boilMinutes?.p90 ?? 99)).toBeLessThanOrEqual(16);
  });

  it('nothing is taken from a kit whose parts are not all there', async () => {
    const document = household();
    const made = await makePlan(
      {
        request: { householdId: document.id, startsAt: START, days: 1, timeLimitS: 20 },
        household: document,
        kits: [BEAN_STEW],
        stock: [
          {
            id: 'e',
            kitId: 'bean-stew',
            partId: 'beans',
            placeId: 'home',
            packedOn: '2025-01-01',
            quantity: 3,
            reason: 'packed',
            at: '2025-01-01T10:00',
          },
        ],
      },
      { solver, now: 0, id: 'plan-1', programVersion: '0' },
    );
    expect(checkPlan(made)).toEqual([]);
    expect(made.cookings).toEqual([]);
    expect(firstShort(made).what).toBe('food');
  });
});

describe('the demonstration week', () => {
  let made: PlanDraft;
  beforeAll(async () => {
    const { household: document, kits, stock } = demoDocuments('2026-12-05');
    made = await makePlan(
      {
        request: { householdId: document.id, startsAt: '2026-12-05T17:00', days: 7, timeLimitS: 60 },
        household: document,
        kits,
        stock,
      },
      { solver, now: Date.UTC(2026, 11, 5, 17), id: 'demo', programVersion: '0' },
    );
  }, 120_000);

  it('is complete, proven, and without fault', () => {
    expect(checkPlan(made)).toEqual([]);
    expect(made).toMatchObject({ outcome: 'complete', short: [], proof: { status: 'optimal' } });
    expect(made.meals).toHaveLength(19);
    expect(made.meals.every((meal) => meal.servingsShort === 0)).toBe(true);
  });

  it('soaks beans, and boils those of the kidney family long enough', () => {
    const soaked = made.cookings.filter((cooking) => cooking.method.soak !== null);
    expect(soaked.length).toBeGreaterThan(0);
    for (const { method } of made.cookings.filter((cooking) => cooking.method.lectin.verdict === 'safe')) {
      expect(method.boilMinutes?.p10 ?? 0).toBeGreaterThanOrEqual(Math.min(30, method.lectin.boilMinutesNeeded));
      expect(method.boilMinutes?.p10 ?? 0).toBeGreaterThanOrEqual(method.lectin.boilMinutesNeeded - 0.5);
    }
  });

  it('takes less fuel than a careful cook, who takes less than the usual way, and more than physics asks', () => {
    const { planMJ, carefulCookMJ, usualMJ, floorMJ } = made.comparison;
    expect(planMJ).toBeLessThan(carefulCookMJ);
    expect(carefulCookMJ).toBeLessThan(usualMJ);
    expect(planMJ).toBeGreaterThan(floorMJ);
    expect(floorMJ).toBeGreaterThan(0);
  });

  it('has fuel sums that re-add', () => {
    for (const balance of made.fuel) {
      const limit = made.limits.find((row) => row.limit === balance.fuelId);
      // Limits are printed to a gram.
      expect(Math.abs((limit?.used ?? Number.NaN) - fuelP90(made, balance.fuelId))).toBeLessThan(0.001);
      expect(limit?.used ?? Number.NaN).toBeLessThanOrEqual(balance.budgetKg + 0.001);
      expect(balance.budgetKg + balance.reserveKg).toBeCloseTo(balance.onHandKg, 3);
      expect(total(balance.byDay.map((day) => day.usedKg.p50))).toBeCloseTo(balance.usedKg.p50, 9);
      let used = 0;
      for (const day of balance.byDay) {
        used += day.usedKg.p50;
        // On hand is printed to a tenth of a gram.
        expect(Math.abs(day.leftKg.p50 - (balance.onHandKg - used))).toBeLessThan(0.0001);
      }
    }
  });

  it('has water sums that re-add', () => {
    let left = made.water.onHandL;
    for (const day of made.water.byDay) {
      left -= day.usedL;
      expect(day.usedL).toBeCloseTo(day.drinkL + day.hygieneL + day.animalsL + day.cookL + day.soakL + day.washL, 0);
      // Each day is rounded to a tenth.
      expect(Math.abs(day.leftL - left)).toBeLessThan(0.05 * made.water.byDay.length + 0.05);
    }
  });
});
