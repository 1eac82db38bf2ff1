import { afterAll, describe, expect, it } from 'vitest';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import { dishOptions } from '../../api/planning/questions/dish-options.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { recompute } from './evaluate-steps.ts';

const { household, kits } = demoDocuments('2026-12-05');

const [home] = household.places;
/** The same kitchen without own readings, on a warm day: boxes and flasks by their tables. */
const untested = {
  ...household,
  boxes: (household.boxes ?? []).map(({ reading: _reading, ...box }) => box),
  vessels: [
    ...(household.vessels ?? []).map(({ reading: _reading, ...vessel }) => vessel),
    { id: 'flask', name: 'Flask', placeId: home?.id, kind: 'flask', capacityL: 4 },
    { id: 'bare', name: 'Old pot', placeId: home?.id, kind: 'pot', capacityL: 8, material: 'aluminium', lid: 'none' },
  ],
  places: household.places.map((place) => ({ ...place, indoorC: 26, outdoorC: 30 })),
  water: {
    ...household.water,
    lots: (household.water?.lots ?? []).map((lot) => ({ ...lot, quality: 'safe' })),
    dailySupply: { litres: 0 },
  },
} as HouseholdDocument;
const kitchens: [string, string, HouseholdDocument][] = [
  ...household.places.map((place): [string, string, HouseholdDocument] => ['with own readings', place.id, household]),
  ['without readings', home?.id ?? '', untested],
];

const seen = new Set<string>();
afterAll(() => {
  const ways = [
    'flame',
    'box',
    'flask',
    'no-heat',
    'under pressure',
    'soaked',
    'unsoaked',
    'first water poured-away',
    'heated',
  ];
  expect([...seen]).toEqual(expect.arrayContaining(ways));
});

describe.each(kitchens)('every way of every dish, %s, at %s', (_how, placeId, household) => {
  it.each(kits.map((kit) => [kit.id, kit] as const))('%s', (_id, kit) => {
    const options = dishOptions({
      household,
      placeId,
      kit,
      servings: kit.servings * 0.7,
      startsAt: '2026-12-05T07:00',
      eatAt: '2026-12-06T18:00',
      explain: true,
    });
    for (const option of options) {
      if (option.verdict === 'refused') {
        expect(option.explanation).toBeUndefined();
        continue;
      }
      const what = JSON.stringify(option.method);
      seen.add(option.method.finish).add(option.method.gaugeKPa === null ? 'open' : 'under pressure');
      seen.add(option.method.soakHours === null ? 'unsoaked' : 'soaked').add(`first water ${option.method.firstWater}`);
      if (option.method.heatToC !== null) seen.add('heated');
      const steps = option.explanation ?? [];
      const last = recompute(steps, what) as number;
      const fuel = option.fuel[0]?.kg.p50 ?? 0;
      expect(Math.abs(last - fuel), what).toBeLessThanOrEqual(1e-9 * fuel);
      const value = (quantity: string) => steps.find((step) => step.quantity === quantity)?.value as number;
      expect(value('handsOnMinutes'), what).toBe(option.handsOnMinutes);
      if (option.fuel.length > 0) {
        expect(value('boilMinutes'), what).toBeCloseTo(option.minutes.hold.p50, 9);
        expect(value('usualMJ'), what).toBeCloseTo(option.usualMJ ?? value('dishFuelMJ'), 9);
        expect(value('dishMinutesToBoil'), what).toBeCloseTo(option.minutes.toBoil.p50, 9);
        expect(value('dishFuelMJ'), what).toBeCloseTo(option.fuel[0]?.mj.p50 ?? 0, 9);
        // Printed to 0.01 L here, to 0.001 L there.
        expect(Math.abs(value('waterTotalL') - option.waterL), what).toBeLessThan(0.0056);
      } else expect(value('waterInPotL'), what).toBe(option.waterL);
    }
  });
});
