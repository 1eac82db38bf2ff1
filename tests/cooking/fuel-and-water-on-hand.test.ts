import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EXCHANGED_CYLINDER_KG, fuelBudget, fuelOnHandKg } from '../../api/cooking/household/fuel-on-hand.ts';
import { indoorBands, indoorCOnDay } from '../../api/cooking/household/indoor-temperature.ts';
import { resolveHousehold } from '../../api/cooking/household/resolve-household.ts';
import { isIce, waterOnHand } from '../../api/cooking/household/water-on-hand.ts';
import { poundsToKg } from '../../api/physics/units.ts';

const propane = (containers: Parameters<typeof fuelOnHandKg>[0]['containers']) =>
  fuelOnHandKg({ fuelId: 'propane', containers });

describe('fuel on hand', () => {
  it('believes what was left first, then the scales, then the level', () => {
    const rows = propane([
      { id: 'left', leftKg: 1, grossKg: 5, tareKg: 3, level: 'full', fullKg: 4 },
      { id: 'scales', grossKg: 0.7, tareKg: 0.42, level: 'full', fullKg: 0.465 },
      { id: 'level', level: 'full', fullKg: 0.465, count: 3 },
    ]).byContainer;
    expect(rows.map((row) => row.counted)).toEqual(['weighed', 'weighed', 'full']);
    [1, 0.28, 1.395].forEach((kg, index) => {
      expect(rows[index]?.kg).toBeCloseTo(kg, 12);
    });
  });

  it('counts a part container as a quarter and an unknown one as a tenth, also where no level was said', () => {
    const { byContainer, kg } = propane([
      { id: 'part', level: 'part', fullKg: 4 },
      { id: 'unknown', level: 'unknown', fullKg: 4 },
      { id: 'silent', fullKg: 4 },
      { id: 'empty', level: 'empty', fullKg: 4 },
    ]);
    expect(byContainer.map((row) => row.kg)).toEqual([1, 0.4, 0.4, 0]);
    expect(byContainer.map((row) => row.counted)).toEqual(['assumed-low', 'assumed-low', 'assumed-low', 'full']);
    expect(kg).toBeCloseTo(1.8, 12);
  });

  it('takes an exchanged cylinder at 15 lb, says so, and guesses no other fuel', () => {
    expect(EXCHANGED_CYLINDER_KG.value).toBeCloseTo(poundsToKg(15), 2);
    const [row] = propane([{ id: 'cylinder', level: 'full' }]).byContainer;
    expect(row?.kg).toBe(6.8);
    expect(row?.note).toContain('6.8 kg');
    const unknown = fuelOnHandKg({ fuelId: 'ethanol', containers: [{ id: 'bottle', level: 'full' }] });
    expect(unknown.kg).toBe(0);
    expect(unknown.byContainer[0]?.note).toContain('weigh');
  });

  it('refuses a gross weight below the tare, a forgotten tare and a negative weight', () => {
    expect(() => propane([{ id: 'x', grossKg: 0.4, tareKg: 0.42 }])).toThrow(/less than the empty/);
    expect(() => propane([{ id: 'x', grossKg: 10, tareKg: 0, fullKg: 6 }])).toThrow(/check the tare/);
    expect(() => propane([{ id: 'x', leftKg: -1 }])).toThrow(/0 kg or more/);
  });

  it('counts a resolved household as the stored one', () => {
    const fuels = [
      { fuelId: 'wood' as const, containers: [{ id: 'stack', leftKg: 30 }] },
      { fuelId: 'electricity' as const, leftKWh: 2 },
    ];
    const { household } = resolveHousehold({
      id: 'h',
      name: 'H',
      places: [{ id: 'home', elevationM: 0 }],
      people: [],
      fuels,
    });
    expect(household.fuels.map((store) => fuelOnHandKg(store).kg)).toEqual([30, 0]);
    expect(household.fuels.map((store) => fuelOnHandKg(store).kWh)).toEqual([0, 2]);
  });

  it('never counts more than full containers hold, and adds up', () => {
    const level = fc.constantFrom('full' as const, 'part' as const, 'unknown' as const, 'empty' as const);
    const container = fc.record({
      id: fc.string(),
      fullKg: fc.double({ min: 0, max: 20, noNaN: true }),
      count: fc.integer({ min: 0, max: 9 }),
      level,
    });
    fc.assert(
      fc.property(fc.array(container), (containers) => {
        const onHand = propane(containers);
        const all = containers.reduce((sum, one) => sum + one.fullKg * one.count, 0);
        expect(onHand.kg).toBeLessThanOrEqual(all + 1e-9);
        expect(onHand.byContainer.reduce((sum, row) => sum + row.kg, 0)).toBeCloseTo(onHand.kg, 9);
        const { reserve, budget } = fuelBudget(onHand.kg, 0.1);
        expect(reserve + budget).toBeCloseTo(onHand.kg, 9);
      }),
    );
  });
});

describe('water on hand', () => {
  const lots = [
    { id: 'cans', litres: 140, quality: 'safe' as const, temperatureC: 8 },
    { id: 'barrel', litres: 60, quality: 'treat' as const, temperatureC: -3, placeId: 'cabin' },
    { id: 'heater', litres: 80, quality: 'not-for-food' as const, temperatureC: null },
    { id: 'jug', litres: 5 },
  ];

  it('is counted by quality, with ice apart', () => {
    const onHand = waterOnHand(lots);
    expect(onHand.byQuality).toEqual({ safe: 145, treat: 60, 'not-for-food': 80 });
    expect(onHand.frozenByQuality).toEqual({ safe: 0, treat: 60, 'not-for-food': 0 });
    expect(onHand.foodL).toBe(205);
    expect(onHand.frozenLots.map((lot) => lot.id)).toEqual(['barrel']);
  });

  it('is counted at one place alone where asked', () => {
    const placed = lots.map((lot) => ({ placeId: 'home', ...lot }));
    expect(waterOnHand(placed, 'home').foodL).toBe(145);
    expect(waterOnHand(placed, 'cabin').foodL).toBe(60);
  });

  it('freezes below 0 C, not at it, and is never negative', () => {
    expect([0, -0.1, null].map(isIce)).toEqual([false, true, false]);
    expect(() => waterOnHand([{ id: 'x', litres: -1 }])).toThrow(/0 litres/);
  });
});

describe('the indoor temperature', () => {
  it('falls linearly over four days and then stays', () => {
    const place = { indoorC: 14, indoorFallsToC: 6 };
    expect([0, 1, 2, 3, 4, 20].map((day) => indoorCOnDay(place, day))).toEqual([14, 12, 10, 8, 6, 6]);
    expect(() => indoorCOnDay(place, -1)).toThrow();
  });

  it('of days that count as one kind is that of the coldest, never warmer and never further off than the band is wide', () => {
    const coldestOf = (temperaturesC: number[], widthK: number) =>
      indoorBands(temperaturesC, widthK).map(({ coldC }) => coldC);
    expect(coldestOf([17, 15, 13, 11, 11], 8)).toEqual([11, 11, 11, 11, 11]);
    expect(coldestOf([18, 15, 12, 9, 6, 6], 8)).toEqual([15, 15, 6, 6, 6, 6]);
    const rooms = fc.array(fc.integer({ min: -30, max: 35 }), { minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(rooms, fc.integer({ min: 0, max: 12 }), (temperaturesC, widthK) => {
        for (const [day, coldC] of coldestOf(temperaturesC, widthK).entries()) {
          const ownC = temperaturesC[day] as number;
          expect(coldC).toBeLessThanOrEqual(ownC);
          expect(ownC - coldC).toBeLessThanOrEqual(widthK);
        }
      }),
    );
  });
});
