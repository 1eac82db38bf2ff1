import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../api/planning/check-plan.ts';
import type { Cooking, PlanDraft } from '../../api/planning/plan-types.ts';
import { soundPlan } from './sound-plan.ts';

type Sabotage = (plan: PlanDraft) => void;

function must<Thing>(thing: Thing | undefined | null): Thing {
  if (thing === undefined || thing === null) throw new Error('the sound plan has changed');
  return thing;
}
const cooking = (plan: PlanDraft, kitId: string): Cooking => must(plan.cookings.find((row) => row.kitId === kitId));
const lentils = (plan: PlanDraft) => cooking(plan, 'lentil-soup');
const couscous = (plan: PlanDraft) => cooking(plan, 'couscous');
const beans = (plan: PlanDraft) => cooking(plan, 'bean-stew');
const soak = (plan: PlanDraft) => must(beans(plan).method.soak);
const use = (of: Cooking, resource: string) => must(of.uses.find((row) => row.resource === resource));
const kit = (plan: PlanDraft, id: string) => must(plan.resolved.kits.find((row) => row.id === id));
const household = (plan: PlanDraft) => plan.resolved.household;
const vessel = (plan: PlanDraft, id: string) => must(household(plan).vessels?.find((row) => row.id === id));
const stove = (plan: PlanDraft) => must(household(plan).stoves?.[0]);
const fuelStore = (plan: PlanDraft) => must(household(plan).fuels?.[0]);
const water = (plan: PlanDraft) => must(household(plan).water);
const lighting = (plan: PlanDraft, at: number) => must(plan.lightings[at]);
const meal = (plan: PlanDraft, at: number) => must(plan.meals[at]);
const hotWater = (plan: PlanDraft) => must(plan.tasks[0]);
const SOME_SHORTAGE = { what: 'fuel' as const, id: 'propane', from: '2026-12-06', amount: 0.1, unit: 'kg', text: '' };

describe('a sound plan', () => {
  it('has no fault', () => {
    expect(checkPlan(soundPlan())).toEqual([]);
  });

  it('may list a shortage when it says that it is short', () => {
    const plan = soundPlan();
    plan.outcome = 'short';
    plan.short = [SOME_SHORTAGE];
    expect(checkPlan(plan)).toEqual([]);
  });

  it('may take a thing up in the minute in which another lays it down', () => {
    const plan = soundPlan();
    use(beans(plan), 'pot-6').from = '2026-12-06T14:45';
    hotWater(plan).vesselId = 'pot-6';
    hotWater(plan).uses = [
      { resource: 'pot-6', from: '2026-12-06T14:15', to: '2026-12-06T14:45' },
      { resource: 'burner', from: '2026-12-06T14:15', to: '2026-12-06T14:45' },
    ];
    expect(checkPlan(plan)).toEqual([]);
  });

  it('counts soak hours as elapsed time where the clocks change', () => {
    // Clocks go back on 2026-10-25 at 03:00 in Zurich: 22:00 to 05:00 is eight hours.
    const plan = JSON.parse(
      JSON.stringify(soundPlan()).replaceAll('2026-12-05', '2026-10-24').replaceAll('2026-12-06', '2026-10-25'),
    ) as PlanDraft;
    expect(checkPlan(plan)).toEqual([]);
    household(plan).waking = { from: '04:00', to: '23:00' };
    Object.assign(soak(plan), { at: '2026-10-24T22:00', hours: 17.75 });
    use(beans(plan), 'bowl').from = '2026-10-24T22:00';
    const waits = checkPlan(plan).filter((fault) => fault.rule === 'soak-wait');
    expect(waits).toEqual([]);
    soak(plan).hours = 16.75;
    expect(checkPlan(plan).map((fault) => fault.rule)).toContain('soak-wait');
  });
});

const SABOTAGES: [rule: string, what: string, break_: Sabotage][] = [
  // (a) nothing twice
  [
    'taken-twice',
    'a pot that is still full',
    (plan) => {
      hotWater(plan).vesselId = 'pot-6';
      for (const row of hotWater(plan).uses) {
        if (row.resource === 'pot-3') Object.assign(row, { resource: 'pot-6', to: '2026-12-06T14:46' });
      }
    },
  ],
  [
    'taken-twice',
    'two pots on one burner',
    (plan) => {
      must(hotWater(plan).uses[1]).to = '2026-12-06T14:50';
    },
  ],
  [
    'taken-twice',
    'the flask, the box and the bowl alike',
    (plan) => {
      lentils(plan).uses.push({ resource: 'bowl', from: '2026-12-06T10:00', to: '2026-12-06T11:00' });
    },
  ],
  [
    'before-start',
    'a bowl from before the plan',
    (plan) => {
      use(lentils(plan), 'pot-3').from = '2026-12-05T16:59';
    },
  ],
  [
    'use-missing',
    'a pot that is not listed',
    (plan) => {
      lentils(plan).uses.shift();
    },
  ],
  [
    'use-missing',
    'a box left too early',
    (plan) => {
      use(beans(plan), 'box').to = '2026-12-06T18:00';
    },
  ],
  [
    'use-missing',
    'a task without its vessel',
    (plan) => {
      hotWater(plan).uses.shift();
    },
  ],
  [
    'use-times',
    'a use that ends before it begins',
    (plan) => {
      lentils(plan).uses.push({ resource: 'flask', from: '2026-12-05T18:00', to: '2026-12-05T17:50' });
    },
  ],
  [
    'unknown-thing',
    'a thing the household does not own',
    (plan) => {
      lentils(plan).uses.push({ resource: 'cauldron', from: '2026-12-05T18:00', to: '2026-12-05T18:10' });
    },
  ],
  [
    'out-of-use',
    'a pot that is out of use',
    (plan) => {
      plan.request.outOfUse = [{ id: 'pot-6', from: '2026-12-06T12:00', to: '2026-12-06T15:00' }];
    },
  ],
  [
    'box-fit',
    'a pot too large for the box',
    (plan) => {
      must(household(plan).boxes?.[0]).fits = ['pot-3'];
    },
  ],
  // (b) stock
  [
    'stock',
    'a lot taken twice',
    (plan) => {
      must(plan.resolved.stock.find((row) => row.kitId === 'couscous')).quantity = 0.9;
    },
  ],
  [
    'incomplete-set',
    'a part left out',
    (plan) => {
      lentils(plan).takes.pop();
    },
  ],
  [
    'incomplete-set',
    'fewer containers than a set has',
    (plan) => {
      must(kit(plan, 'couscous').parts[0]).containersPerSet = 2;
    },
  ],
  [
    'divided-set',
    'half a set of a kit that cannot be divided',
    (plan) => {
      couscous(plan).batches = 0.5;
      for (const take of couscous(plan).takes) take.quantity = 0.5;
    },
  ],
  [
    'servings-cooked',
    'more servings than the set gives',
    (plan) => {
      lentils(plan).servings = 3;
    },
  ],
  [
    'use-by',
    'a lot past its date',
    (plan) => {
      must(plan.resolved.stock[0]).useBy = '2026-12-04';
    },
  ],
  [
    'packed-in-future',
    'a lot not packed yet',
    (plan) => {
      must(plan.resolved.stock[2]).packedOn = '2027-01-01';
      must(couscous(plan).takes[0]).packedOn = '2027-01-01';
    },
  ],
  [
    'unknown-lot',
    'a lot that is not there',
    (plan) => {
      must(couscous(plan).takes[0]).packedOn = '2025-10-02';
    },
  ],
  [
    'other-place',
    'stock of another place',
    (plan) => {
      must(plan.resolved.stock[2]).placeId = 'cabin';
      must(couscous(plan).takes[0]).placeId = 'cabin';
    },
  ],
  [
    'kit-not-asked',
    'a kit that was not asked for',
    (plan) => {
      plan.request.kitIds = ['lentil-soup', 'bean-stew'];
    },
  ],
  // (c) fuel
  [
    'fuel',
    'more than the budget at the 90th percentile',
    (plan) => {
      must(must(lentils(plan).fuel[0]).kg).p90 = 0.15;
    },
  ],
  [
    'fuel',
    'the reserve',
    (plan) => {
      fuelStore(plan).reserveShare = 0.5;
    },
  ],
  [
    'fuel',
    'a container of another place',
    (plan) => {
      for (const container of fuelStore(plan).containers ?? []) container.placeId = 'cabin';
    },
  ],
  [
    'fuel',
    'a supply burnt before it comes',
    (plan) => {
      must(fuelStore(plan).containers?.[0]).leftKg = 0.05;
      fuelStore(plan).dailySupplyKg = 0.25;
    },
  ],
  [
    'fuel',
    'starts left out of the sum',
    (plan) => {
      lighting(plan, 1).startUpFuel.kg = 0.08;
    },
  ],
  [
    'fuel-balance',
    'a balance that does not add up',
    (plan) => {
      must(plan.fuel[0]).usedKg.p50 = 0.1;
    },
  ],
  [
    'fuel-balance',
    'a day that does not add up',
    (plan) => {
      must(plan.fuel[0]?.byDay[1]).usedKg.p50 = 0.05;
    },
  ],
  [
    'fuel-balance',
    'what is left of a day',
    (plan) => {
      must(plan.fuel[0]?.byDay[0]).leftKg.p50 = 0.3;
    },
  ],
  [
    'fuel-balance',
    'more on hand than there is',
    (plan) => {
      must(plan.fuel[0]).onHandKg = 0.4;
    },
  ],
  [
    'fuel-balance',
    'a fuel without a balance',
    (plan) => {
      plan.fuel = [];
    },
  ],
  [
    'fuel-figures',
    'a typical figure above the high one',
    (plan) => {
      must(must(lentils(plan).fuel[0]).kg).p50 = 0.06;
    },
  ],
  // (d) water
  [
    'water',
    'more water than there is',
    (plan) => {
      for (const row of water(plan).lots ?? []) row.litres = 3;
    },
  ],
  [
    'water-quality',
    'water not for food in the pot',
    (plan) => {
      must(water(plan).lots?.[1]).quality = 'not-for-food';
      must(water(plan).lots?.[0]).litres = 6;
    },
  ],
  [
    'unsafe-water',
    'untreated water in a dish without fire (H5)',
    (plan) => {
      must(water(plan).lots?.[0]).quality = 'treat';
    },
  ],
  [
    'water-balance',
    'dishes that take more than the days say',
    (plan) => {
      lentils(plan).waterL.total = 2.5;
    },
  ],
  [
    'water-balance',
    'parts that exceed the total',
    (plan) => {
      beans(plan).waterL.total = 3.5;
    },
  ],
  [
    'water-balance',
    'a day whose sum is wrong',
    (plan) => {
      must(plan.water.byDay[1]).usedL -= 3;
    },
  ],
  [
    'water-balance',
    'a day left out',
    (plan) => {
      plan.water.byDay.pop();
    },
  ],
  [
    'water-needs',
    'a day on which too little is drunk',
    (plan) => {
      const row = must(plan.water.byDay[1]);
      row.drinkL -= 1;
      row.usedL -= 1;
    },
  ],
  // (e) soaks
  [
    'soak-asleep',
    'a soak set at night',
    (plan) => {
      Object.assign(soak(plan), { at: '2026-12-06T05:45', hours: 9 });
      use(beans(plan), 'bowl').from = '2026-12-06T05:45';
    },
  ],
  [
    'soak-too-long',
    'a soak that spoils at this warmth',
    (plan) => {
      Object.assign(soak(plan), { at: '2026-12-05T21:00', hours: 17.75 });
      use(beans(plan), 'bowl').from = '2026-12-05T21:00';
    },
  ],
  [
    'soak-wait',
    'beans drained in the morning, cooked in the afternoon (H2)',
    (plan) => {
      soak(plan).hours = 5;
    },
  ],
  [
    'soak-too-long',
    'a quick soak left to stand (H3)',
    (plan) => {
      soak(plan).start = 'hot';
    },
  ],
  [
    'soak-parts',
    'a mix with seasonings in the bowl (H12)',
    (plan) => {
      soak(plan).partIds = ['rest'];
    },
  ],
  [
    'soak-parts',
    'kidney beans in one part with barley (H12)',
    (plan) => {
      must(kit(plan, 'bean-stew').parts[0]).ingredients.push({ foodId: 'pearl-barley', massG: 50 });
    },
  ],
  [
    'soak-parts',
    'an empty bowl',
    (plan) => {
      soak(plan).partIds = [];
    },
  ],
  [
    'fill',
    'a bowl that runs over',
    (plan) => {
      vessel(plan, 'bowl').capacityL = 1.2;
    },
  ],
  [
    'before-start',
    'a soak from before the plan',
    (plan) => {
      soak(plan).at = '2026-12-05T16:45';
    },
  ],
  // (f) vessels and stoves
  [
    'fill',
    'a pot that runs over',
    (plan) => {
      lentils(plan).waterL.inPot = 2.4;
    },
  ],
  [
    'fill',
    'a pressure cooker more than half full of pulses',
    (plan) => {
      vessel(plan, 'pot-3').kind = 'pressure-cooker';
      lentils(plan).method.gaugeKPa = 80;
      lentils(plan).waterL.inPot = 1.5;
    },
  ],
  [
    'stove-carries',
    'a pressure cooker on an open fire',
    (plan) => {
      vessel(plan, 'pot-3').kind = 'pressure-cooker';
      lentils(plan).method.gaugeKPa = 80;
      stove(plan).typeId = 'three-stone';
    },
  ],
  [
    'stove-carries',
    'a pot too large for the stove',
    (plan) => {
      stove(plan).largestPotL = 5;
    },
  ],
  [
    'vessel-kind',
    'pressure in an open pot',
    (plan) => {
      lentils(plan).method.gaugeKPa = 80;
    },
  ],
  [
    'burner-fill',
    'a boil longer than one fill of the burner',
    (plan) => {
      stove(plan).minutesPerFill = 40;
    },
  ],
  [
    'burner-fill',
    'more work on one lighting than one fill lasts for',
    (plan) => {
      // Longer than any one dish, shorter than the dishes and the water of one fire together.
      const burnt = plan.cookings.map(
        (cooking) => (cooking.method.minutesToBoil?.p90 ?? 0) + (cooking.method.boilMinutes?.p90 ?? 0),
      );
      stove(plan).minutesPerFill = Math.max(...burnt) + 1;
    },
  ],
  [
    'stove-fuel',
    'a fuel that the stove does not burn',
    (plan) => {
      lighting(plan, 0).fuelId = 'wood';
    },
  ],
  [
    'undercooked',
    'lentils boiled for ten minutes',
    (plan) => {
      lentils(plan).method.boilMinutes = { p10: 8, p50: 10, p90: 12 };
    },
  ],
  [
    'undercooked',
    'lentils that boil for five minutes and stand for twenty-five',
    (plan) => {
      Object.assign(lentils(plan).method, {
        boilMinutes: { p10: 5, p50: 5, p90: 6 },
        standMinutes: 25,
        releaseMinutes: 25,
      });
    },
  ],
  [
    'standing',
    'a pot that stands for longer than the plan gives it',
    (plan) => {
      Object.assign(lentils(plan).method, { standMinutes: 25, releaseMinutes: 10 });
    },
  ],
  [
    'standing',
    'an open pot that stands',
    (plan) => {
      Object.assign(lentils(plan).method, { standMinutes: 25, releaseMinutes: 25 });
      for (const vessel of plan.resolved.household.vessels ?? []) vessel.lid = 'none';
    },
  ],
  [
    'uncooked',
    'rice without fire',
    (plan) => {
      must(kit(plan, 'couscous').parts[0]).ingredients.push({ foodId: 'white-rice', massG: 50 });
    },
  ],
  [
    'raw-uncooked',
    'raw egg without fire (H5)',
    (plan) => {
      must(kit(plan, 'couscous').parts[0]).ingredients.push({ foodId: 'fd-raw-egg', massG: 20 });
    },
  ],
  // (g) fires
  [
    'outside-lighting',
    'a dish that boils after the fire is out',
    (plan) => {
      lighting(plan, 1).until = '2026-12-06T15:30';
    },
  ],
  [
    'outside-lighting',
    'hot water before the fire is lit',
    (plan) => {
      lighting(plan, 1).at = '2026-12-06T14:30';
    },
  ],
  [
    'fire-asleep',
    'a fire before anybody is up',
    (plan) => {
      household(plan).waking = { from: '15:00', to: '22:00' };
    },
  ],
  [
    'lightings-a-day',
    'one fire too many',
    (plan) => {
      plan.lightings.push({ ...lighting(plan, 1), id: 'again', at: '2026-12-06T09:00', until: '2026-12-06T09:05' });
    },
  ],
  [
    'outdoor-minutes',
    'too long outdoors',
    (plan) => {
      household(plan).outdoorMinutesPerDay = 120;
    },
  ],
  [
    'no-flame',
    'a fire while none is allowed',
    (plan) => {
      plan.request.noFlame = [{ from: '2026-12-06T15:00', to: '2026-12-06T15:30' }];
    },
  ],
  [
    'out-of-use',
    'a stove that is out of use',
    (plan) => {
      plan.request.outOfUse = [{ id: 'burner', from: '2026-12-06T08:00' }];
    },
  ],
  [
    'no-fire',
    'a boiled dish without a fire',
    (plan) => {
      lentils(plan).method.lightingId = null;
    },
  ],
  [
    'other-stove',
    'a dish on a stove that is not lit',
    (plan) => {
      lentils(plan).method.stoveId = 'spirit';
    },
  ],
  [
    'no-fuel',
    'a boiled dish without fuel',
    (plan) => {
      lentils(plan).fuel = [];
    },
  ],
  [
    'lighting-site',
    'an outdoor stove called indoor',
    (plan) => {
      lighting(plan, 0).outdoors = false;
    },
  ],
  // (h) meals
  [
    'not-done',
    'eaten before it is done',
    (plan) => {
      lentils(plan).doneAt = '2026-12-05T18:45';
    },
  ],
  [
    'unsafe',
    'eaten after its safe time',
    (plan) => {
      must(meal(plan, 2).dishes[0]).safeUntil = '2026-12-06T18:00';
    },
  ],
  [
    'too-cold',
    'a box that falls below 60 C (H9)',
    (plan) => {
      must(household(plan).boxes?.[0]).thicknessMm = 4;
    },
  ],
  [
    'servings',
    'fewer servings than wanted',
    (plan) => {
      must(meal(plan, 0).dishes[0]).servings = 1;
    },
  ],
  [
    'servings',
    'more eaten than cooked',
    (plan) => {
      must(meal(plan, 0).dishes[0]).servings = 3;
    },
  ],
  [
    'uneaten',
    'a dish that nobody eats',
    (plan) => {
      Object.assign(meal(plan, 1), { dishes: [], servingsShort: 2 });
    },
  ],
  [
    'unknown-dish',
    'a dish that is not cooked',
    (plan) => {
      must(meal(plan, 0).dishes[0]).cookingId = 'none';
    },
  ],
  [
    'before-start',
    'a meal before the plan',
    (plan) => {
      plan.request.startsAt = '2026-12-05T19:00';
    },
  ],
  [
    'meal-missing',
    'a meal left out',
    (plan) => {
      plan.meals.splice(1, 1);
    },
  ],
  [
    'meal-twice',
    'a meal planned twice',
    (plan) => {
      plan.meals.push(meal(plan, 1));
    },
  ],
  [
    'meal-time',
    'a meal at another hour',
    (plan) => {
      meal(plan, 1).eatAt = '2026-12-06T07:45';
    },
  ],
  [
    'attendance',
    'a guest who is not counted',
    (plan) => {
      plan.request.attendance = [
        { date: '2026-12-06', mealId: 'evening', guests: [{ ageGroup: 'adult', mealShare: 1 }] },
      ];
    },
  ],
  [
    'suits',
    'a breakfast kit in the evening',
    (plan) => {
      kit(plan, 'lentil-soup').suits = ['breakfast'];
    },
  ],
  [
    'pin',
    'a pinned kit that is not served',
    (plan) => {
      plan.request.pinned = [{ meal: '2026-12-06-evening', kitId: 'lentil-soup' }];
    },
  ],
  [
    'not-hot',
    'a cold dish called hot',
    (plan) => {
      must(meal(plan, 1).dishes[0]).hot = true;
    },
  ],
  [
    'lectin',
    'kidney beans boiled too briefly',
    (plan) => {
      beans(plan).method.boilMinutes = { p10: 20, p50: 30, p90: 40 };
    },
  ],
  [
    'lectin',
    'a verdict that is missing',
    (plan) => {
      beans(plan).method.lectin = { verdict: 'not-applicable', boilMinutesNeeded: 0 };
    },
  ],
  [
    'lectin',
    'soak water kept',
    (plan) => {
      soak(plan).discardWater = false;
    },
  ],
  [
    'lectin',
    'unsoaked beans in a box (H13)',
    (plan) => {
      beans(plan).method.soak = null;
    },
  ],
  [
    'unknown-kit',
    'a kit that is not in the plan',
    (plan) => {
      plan.resolved.kits.shift();
    },
  ],
  [
    'no-heat',
    'fuel for a dish without fire',
    (plan) => {
      couscous(plan).fuel = lentils(plan).fuel;
    },
  ],
  [
    'boil-figures',
    'a low figure above the typical one',
    (plan) => {
      must(lentils(plan).method.boilMinutes).p10 = 40;
    },
  ],
  [
    'lighting-times',
    'a fire that ends before it begins',
    (plan) => {
      lighting(plan, 0).until = '2026-12-05T17:00';
    },
  ],
  [
    'stove-fuel',
    'a dish burning what its fire does not',
    (plan) => {
      must(lentils(plan).fuel[0]).fuelId = 'butane';
    },
  ],
  [
    'stove-fuel',
    'a task burning what its fire does not',
    (plan) => {
      must(hotWater(plan).fuel[0]).fuelId = 'butane';
    },
  ],
  [
    'no-fire',
    'a task on a fire that is not lit',
    (plan) => {
      hotWater(plan).lightingId = 'none';
    },
  ],
  [
    'vessel-kind',
    'a soak bowl on the flame',
    (plan) => {
      vessel(plan, 'pot-3').kind = 'soak-bowl';
    },
  ],
  // (i), (j)
  [
    'hot-water',
    'no hot water and nothing said',
    (plan) => {
      plan.tasks = [];
    },
  ],
  [
    'outcome',
    'a shortage in a complete plan',
    (plan) => {
      plan.short = [SOME_SHORTAGE];
    },
  ],
  [
    'outcome',
    'short without a shortage',
    (plan) => {
      plan.outcome = 'short';
    },
  ],
  [
    'outcome',
    'people unfed in a complete plan',
    (plan) => {
      Object.assign(meal(plan, 0), { servingsWanted: 3, servingsShort: 1 });
    },
  ],
];

describe('sabotage: each broken rule is found', () => {
  it.each(SABOTAGES)('%s: %s', (rule, _, break_) => {
    const plan = soundPlan();
    break_(plan);
    const faults = checkPlan(plan);
    expect(faults.map((fault) => fault.rule)).toContain(rule);
    for (const fault of faults) expect(fault.at.length * fault.detail.length).toBeGreaterThan(0);
  });
});

describe('the checker', () => {
  it('knows no solver and nothing of the planner', () => {
    const folder = fileURLToPath(new URL('../../api/planning/', import.meta.url));
    const files = ['check-plan.ts', ...readdirSync(`${folder}plan-check`).map((name) => `plan-check/${name}`)];
    expect(files.length).toBeGreaterThan(5);
    const allowed =
      /^(\.\.?\/)+(plan-check\/[a-z-]+|plan-types|plan-view|(cooking|physics)\/([a-z-]+\/)?[a-z-]+)\.ts$|^\.\/[a-z-]+\.ts$/;
    for (const name of files) {
      const text = readFileSync(`${folder}${name}`, 'utf8');
      for (const [, from] of text.matchAll(/from '([^']+)'/g)) {
        if (from !== 'temporal-polyfill') expect(from, name).toMatch(allowed);
        expect(from, name).not.toMatch(/week-|make-plan|place-week|solver|programme|dish\.ts|cooking-methods|savings/);
      }
    }
  });

  it('refuses a time that is none', () => {
    const plan = soundPlan();
    lentils(plan).startsAt = '2026-12-05T25:00';
    expect(() => checkPlan(plan)).toThrow(RangeError);
  });
});
