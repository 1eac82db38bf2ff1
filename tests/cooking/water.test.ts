import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  cautionsOnWater,
  dailyWaterL,
  heatFactorOf,
  rehydrationLPerDay,
} from '../../api/cooking/household/drinking-water.ts';
import {
  BOIL_RULES,
  bleachDrops,
  bleachMl,
  boilMinutesToMakeSafe,
  CHLORINE_DOSE_MG_PER_L,
  chlorineMgPerL,
  refusalWithoutBoil,
  waterQualitiesFor,
} from '../../api/cooking/household/water-treatment.ts';

describe('water of a day', () => {
  it('counts drinks and hygiene by head and animals by theirs', () => {
    const five = Array.from({ length: 5 }, () => ({ ageGroup: 'adult' as const }));
    expect(dailyWaterL(five, { hygieneLPerPersonDay: 2 }, [{ label: 'dog', waterLPerDay: 1 }])).toEqual({
      drinkL: 10,
      hygieneL: 10,
      animalsL: 1,
      totalL: 21,
    });
    expect(dailyWaterL(five, { hygieneLPerPersonDay: 2, meanC: 33 }).drinkL).toBe(20);
    expect([26.9, 27, 31.9, 32].map(heatFactorOf)).toEqual([1, 1.5, 1.5, 2]);
  });

  it('warns of too little, which the plan does not cut away silently', () => {
    expect(cautionsOnWater({ drinkL: 1, absorbedL: 1, totalL: 3 })).toEqual(['too-little', 'below-storage-rule']);
    expect(cautionsOnWater({ drinkL: 2, absorbedL: 0.6, totalL: 4 })).toEqual([]);
  });

  it('gives older people 200 mL after each stool, and small children half', () => {
    expect(rehydrationLPerDay(40, 5).high).toBe(1);
    expect(rehydrationLPerDay(1.9, 5).high).toBe(0.5);
    expect(() => rehydrationLPerDay(-1, 1)).toThrow();
  });
});

describe('water made safe', () => {
  it('never boils less by the usual rule than an agency of the US asks for', () => {
    fc.assert(
      fc.property(fc.integer({ min: -400, max: 9000 }), (elevationM) => {
        const usual = boilMinutesToMakeSafe(elevationM);
        expect(usual).toBeGreaterThanOrEqual(boilMinutesToMakeSafe(elevationM, 'cdc'));
        expect(usual).toBeGreaterThanOrEqual(boilMinutesToMakeSafe(elevationM, 'who'));
        expect(usual).toBeLessThanOrEqual(boilMinutesToMakeSafe(elevationM, 'strict'));
        expect(usual).toBeGreaterThanOrEqual(1);
      }),
    );
    expect(boilMinutesToMakeSafe(BOIL_RULES.usual.longerAboveM)).toBe(1);
    expect(() => boilMinutesToMakeSafe(Number.NaN)).toThrow();
  });

  it('doses every strength within the band of the published doses, and cloudy water with twice that', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 4, max: 200 }),
        fc.double({ min: 1, max: 8.25, noNaN: true }),
        (litres, strength) => {
          const drops = bleachDrops(litres, strength, false);
          // A drop of 0.05 mL, as the dose of the band was computed; P10 less 6 % for 8 drops of the weakest of "5 to 6 %".
          const dose = chlorineMgPerL(drops * 0.05, strength, litres);
          expect(dose).toBeGreaterThan(CHLORINE_DOSE_MG_PER_L.p10 * 0.94);
          // Above: 8 drops of 8.2 %, and one drop of rounding in the smallest amount.
          expect(dose).toBeLessThan(CHLORINE_DOSE_MG_PER_L.p90 * 1.2);
          expect(bleachDrops(litres, strength, true)).toBeGreaterThanOrEqual(2 * drops - 2);
          expect(bleachMl(litres, strength, false)).toBeCloseTo(drops / 16, 12);
        },
      ),
    );
  });

  it('needs no fewer drops for more water or weaker bleach', () => {
    const litres = fc.double({ min: 0.5, max: 100, noNaN: true });
    const strength = fc.double({ min: 1, max: 10, noNaN: true });
    fc.assert(
      fc.property(litres, litres, strength, strength, (a, b, s, t) => {
        expect(bleachDrops(Math.max(a, b), Math.min(s, t), false)).toBeGreaterThanOrEqual(
          bleachDrops(Math.min(a, b), Math.max(s, t), false),
        );
      }),
    );
    expect(() => bleachDrops(1, 12.5, false)).toThrow();
    expect(() => bleachDrops(0, 6, false)).toThrow();
  });
});

describe('H5: food made without a boil', () => {
  it('takes untreated water only where the dish boils as long as water must at that height', () => {
    expect(waterQualitiesFor({ rollingBoilMinutes: 30, elevationM: 2500 })).toEqual(['treat', 'safe']);
    expect(waterQualitiesFor({ rollingBoilMinutes: 1, elevationM: 1500 })).toEqual(['treat', 'safe']);
    expect(waterQualitiesFor({ rollingBoilMinutes: 1, elevationM: 1600 })).toEqual(['safe']);
    expect(waterQualitiesFor({ rollingBoilMinutes: 0, elevationM: 0 })).toEqual(['safe']);
  });

  it('is refused with untreated water, and the refusal names the way out', () => {
    const noCook = { rollingBoilMinutes: 0, elevationM: 300 };
    const refusal = refusalWithoutBoil(noCook, { waterQuality: 'treat', rawAnimal: false });
    expect(refusal?.reason).toContain('not safe');
    expect(refusal?.wayOut).toContain('treat the water');
    expect(refusalWithoutBoil(noCook, { waterQuality: 'safe', rawAnimal: false })).toBeNull();
  });

  it('is refused with raw dried egg or meat, even with safe water', () => {
    const dish = { waterQuality: 'safe', rawAnimal: true } as const;
    expect(refusalWithoutBoil({ rollingBoilMinutes: 0, elevationM: 300 }, dish)?.reason).toContain('raw');
    expect(refusalWithoutBoil({ rollingBoilMinutes: 5, elevationM: 300 }, dish)).toBeNull();
  });

  it('never takes water that is not for food, however long it boils', () => {
    const dish = { waterQuality: 'not-for-food', rawAnimal: false } as const;
    expect(refusalWithoutBoil({ rollingBoilMinutes: 60, elevationM: 0 }, dish)).not.toBeNull();
  });
});
