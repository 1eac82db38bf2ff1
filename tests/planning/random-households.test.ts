/** Households from a seed, with everything that a plan knows switched on and off: whatever comes out keeps every limit. */
import { describe, expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import { makePlan } from '../../api/planning/make-plan.ts';
import type { PlanRequest, StockEntry } from '../../api/planning/plan-types.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import { seeded } from '../seeded.ts';
import {
  BEAN_STEW,
  BREAKFAST,
  COUSCOUS_BOWL,
  EVENING,
  household,
  LENTIL_SOUP,
  MIDDAY,
  places,
  RICE,
  stockOf,
  water,
} from './small-household.ts';

const solver = await createInThreadSolver();

const oneFood = (id: string, foodId: string, massG: number, own: Partial<Kit>): Kit => ({
  id,
  name: id,
  servings: 2,
  divisible: true,
  style: 'rice',
  suits: ['midday', 'evening'],
  parts: [{ id: 'all', name: 'All', ingredients: [{ foodId, massG }] }],
  ...own,
});

const KITS: Kit[] = [
  LENTIL_SOUP,
  RICE,
  BEAN_STEW,
  COUSCOUS_BOWL,
  oneFood('instant', 'instant-rice', 180, {}),
  oneFood('oats', 'rolled-oats', 150, { style: 'porridge', suits: ['breakfast'] }),
  { ...LENTIL_SOUP, id: 'whole-soup', divisible: false, servings: 3 },
];

function drawn(seed: number): { document: HouseholdDocument; stock: StockEntry[]; own: Partial<PlanRequest> } {
  const random = seeded(seed);
  const yes = (share = 0.5) => random() < share;
  const some = <Thing>(share: number, thing: Thing): Thing[] => (yes(share) ? [thing] : []);
  const reading = (hours: number) => ({ hours, temperatureC: 60 + random() * 24, startC: 95, airC: 14 });
  const anyway = yes() ? { from: '16:00', to: '22:00' } : { from: '18:30', to: '08:00' };
  const document = household({
    meals: [
      ...some(0.5, { ...BREAKFAST, hot: yes() ? ('wanted' as const) : ('optional' as const) }),
      ...some(0.5, MIDDAY),
      EVENING,
    ],
    lightingsPerDay: yes() ? 1 : 2,
    outdoorMinutesPerDay: yes() ? 150 : 500,
    thermometer: yes(),
    places: places({
      outdoorC: yes() ? -12 : 3,
      elevationM: yes() ? 1800 : 300,
      ...(yes(0.3) ? { daylight: { from: '07:30', to: '17:00' } } : {}),
    }),
    nightFeeds: yes(0.3) ? ['22:30', '04:00'] : [],
    people: [
      { label: 'A', ageGroup: 'adult', mealShare: 1 },
      { label: 'B', ageGroup: 'adult', mealShare: 1, avoids: yes(0.2) ? ['lentil-brown'] : [] },
    ],
    water: water({
      snow: yes(0.3),
      treatBy: yes() ? 'boil' : 'bleach',
      lots: [
        { id: 'cans', litres: 10 + random() * 60, quality: 'safe', temperatureC: 8 },
        ...some(0.5, { id: 'river', litres: 30, quality: 'treat' as const }),
      ],
      hotWaterPerDay: { litres: yes() ? 2 : 0, temperatureC: 85 },
      dailySupply: { litres: yes(0.3) ? 10 : 0, quality: yes() ? 'safe' : 'treat' },
    }),
    fuels: [
      {
        fuelId: 'propane',
        reserveShare: 0.1,
        dailySupplyKg: yes(0.2) ? 0.1 : 0,
        containers: [
          { id: 'bottle', leftKg: 0.1 + random() },
          { id: 'small', fullKg: 0.465, count: 2, level: 'full' },
        ],
      },
      { fuelId: 'wood', reserveShare: 0.1, moisturePercent: 15, containers: [{ id: 'stack', leftKg: random() * 8 }] },
    ],
    stoves: [
      {
        id: 'burner',
        typeId: 'propane-camp',
        fuelIds: ['propane'],
        site: 'outdoors',
        burners: yes(0.4) ? 2 : 1,
      },
      ...some(0.4, {
        id: 'heater',
        typeId: 'mud-u' as const,
        fuelIds: ['wood' as const],
        site: 'vented-indoors' as const,
        burners: yes() ? 2 : 1,
        ...(yes() ? { burnsAnyway: anyway } : {}),
      }),
    ],
    vessels: [
      { id: 'pot-5', kind: 'pot', capacityL: 5, material: 'aluminium', lid: 'snug' },
      { id: 'pot-3', kind: 'pot', capacityL: 3, material: 'stainless', lid: 'snug' },
      { id: 'bowl', kind: 'soak-bowl', capacityL: 4 },
      ...some(0.6, {
        id: 'flask',
        kind: 'flask' as const,
        capacityL: yes() ? 0.8 : 2,
        ...(yes() ? { reading: reading(12) } : {}),
      }),
    ],
    boxes: some(0.6, {
      id: 'box',
      fits: ['pot-5', 'pot-3'],
      materialId: 'eps' as const,
      thicknessMm: 100,
      ...(yes() ? { reading: reading(6) } : {}),
    }),
  });
  const stock = stockOf(KITS.map((kit): [Kit, number] => [kit, Math.floor(random() * 4)])).map((entry) => ({
    ...entry,
    useBy: yes(0.3) ? `2026-12-0${5 + Math.floor(random() * 4)}` : null,
  }));
  const own: Partial<PlanRequest> = {
    startsAt: yes() ? '2026-12-05T07:00' : '2026-12-05T15:00',
    days: 2,
    ...(yes(0.2) ? { noFlame: [{ from: '2026-12-06T00:00', to: '2026-12-06T15:00' }] } : {}),
    ...(yes(0.2) ? { outOfUse: [{ id: 'pot-5', from: '2026-12-06T00:00', to: null }] } : {}),
  };
  return { document, stock, own };
}

describe('plans of households from a seed', () => {
  it.each(Array.from({ length: 14 }, (_, index) => index + 1))(
    'household %i: a plan without fault, worded to the last step',
    async (seed) => {
      const { document, stock, own } = drawn(seed);
      const made = await makePlan(
        {
          request: { householdId: document.id, startsAt: '2026-12-05T07:00', days: 2, timeLimitS: 2, ...own },
          household: document,
          kits: KITS,
          stock,
        },
        { solver, now: 0, id: 'drawn', programVersion: '0' },
      );
      expect(checkPlan(made)).toEqual([]);
      expect(makeSchedule(made).length).toBeGreaterThan(made.cookings.length);
    },
    30_000,
  );
});
