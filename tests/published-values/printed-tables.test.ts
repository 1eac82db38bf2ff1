/** Whole tables as printed, row by row, against what the program holds of them. */
import { describe, expect, it } from 'vitest';
import { heatFactorOf, rehydrationLPerDay } from '../../api/cooking/household/drinking-water.ts';
import {
  ACTIVITY_COEFFICIENTS,
  basalRateKcal,
  proteinAllowanceG,
} from '../../api/cooking/household/food-energy-need.ts';
import {
  DRINKS_L_PER_DAY,
  ENERGY_NEED_KCAL,
  EXTRA_DRINKS_L_PER_DAY,
  EXTRA_ENERGY_KCAL,
  PROTEIN_NEED_G,
} from '../../api/cooking/household/people.ts';
import { boilMinutesToMakeSafe } from '../../api/cooking/household/water-treatment.ts';
import { shelfLifeMonths } from '../../api/cooking/keeping/shelf-life.ts';
import { WATER_PARAMETERS } from '../../api/cooking/kinetics/yield.ts';
import { efficiencyTier } from '../../api/physics/combustion.ts';
import { specificHeatHeldman } from '../../api/physics/food-heat-capacity.ts';
import { leastWaterL } from '../../api/physics/pressure-cooker.ts';
import { cupsToLitres, poundsToKg, quartsToLitres } from '../../api/physics/units.ts';
import { ICE_MELTING_MJ_PER_KG, ICE_SPECIFIC_HEAT } from '../../api/physics/water-properties.ts';
import { expectNear, expectWithinShare } from './check-values.ts';

describe('US Dietary Guidelines, estimated calorie needs, kcal by age: sedentary, moderate', () => {
  const PRINTED = {
    2: { m: [[1000], [1000]], f: [[1000], [1000]] },
    4: { m: [[1200], [1400]], f: [[1200], [1400]] },
    8: { m: [[1400], [1600]], f: [[1400], [1600]] },
    12: { m: [[1800], [2200]], f: [[1600], [2000]] },
    14: { m: [[2000], [2400]], f: [[1800], [2000]] },
    16: { m: [[2400], [2800]], f: [[1800], [2000]] },
    19: {
      m: [
        [2400, 2600],
        [2600, 2800],
      ],
      f: [
        [1800, 2000],
        [2000, 2200],
      ],
    },
    31: {
      m: [
        [2200, 2400],
        [2400, 2600],
      ],
      f: [[1800], [2000]],
    },
    51: {
      m: [
        [2000, 2200],
        [2200, 2400],
      ],
      f: [[1600], [1800]],
    },
  } as const;
  it.each([
    ['young-child', [2, 4]],
    ['child', [8, 12]],
    ['teen', [14, 16]],
    ['adult', [19, 31]],
    ['older-adult', [51]],
  ] as const)('%s: the rows of ages %j span the band', (group, ages) => {
    for (const sex of ['m', 'f'] as const)
      for (const [column, activity] of (['sedentary', 'low-active'] as const).entries()) {
        const figures = ages.flatMap((age) => [...(PRINTED[age][sex][column] as readonly number[])]);
        const own = ENERGY_NEED_KCAL[group][sex][activity];
        const label = `${group} ${sex} ${activity}`;
        expect([own.p10, own.p90], label).toEqual([Math.min(...figures), Math.max(...figures)]);
        // The middle of the rows; of the one row from 51 on the lower figure, which is that of the older people in it.
        const middle =
          group === 'older-adult' ? Math.min(...figures) : (Math.min(...figures) + Math.max(...figures)) / 2;
        expect(own.value, label).toBe(middle);
      }
  });
  it('infants (IOM 2005): 6-12 months 743 and 676, from 570 and 520; pregnant +340 and +452, nursing +330 and +400', () => {
    expect([ENERGY_NEED_KCAL.infant.m.sedentary.value, ENERGY_NEED_KCAL.infant.f.sedentary.value]).toEqual([743, 676]);
    expect([ENERGY_NEED_KCAL.infant.m.sedentary.p10, ENERGY_NEED_KCAL.infant.f.sedentary.p10]).toEqual([570, 520]);
    // Trimesters averaged: 396, held as 400; halves of the nursing year 365, held as 400, towards UNHCR's 500.
    expectNear(EXTRA_ENERGY_KCAL.pregnant.value, (340 + 452) / 2, 5);
    expect(EXTRA_ENERGY_KCAL.nursing.value).toBeGreaterThan((330 + 400) / 2);
    expect([EXTRA_ENERGY_KCAL.nursing.p10, EXTRA_ENERGY_KCAL.nursing.p90]).toEqual([330, 500]);
  });
});

describe('energy equations', () => {
  it('IOM 2005: activity 1.00/1.11/1.25/1.48 for men, 1.00/1.12/1.27/1.45 for women', () => {
    const set = (sex: 'f' | 'm') =>
      (['sedentary', 'low-active', 'active', 'very-active'] as const).map((level) => ACTIVITY_COEFFICIENTS[sex][level]);
    expect(set('m')).toEqual([1, 1.11, 1.25, 1.48]);
    expect(set('f')).toEqual([1, 1.12, 1.27, 1.45]);
  });
  it.each([
    ['m', 20, 15.057, 692.2],
    ['m', 45, 11.472, 873.1],
    ['m', 70, 11.711, 587.7],
    ['f', 20, 14.818, 486.6],
    ['f', 45, 8.126, 845.6],
    ['f', 70, 9.082, 658.5],
  ] as const)('Schofield 1985: %s of %d years %d kg + %d', (sex, ageYears, perKg, base) => {
    for (const massKg of [45, 60, 90])
      expect(basalRateKcal({ sex, ageYears, massKg })).toBeCloseTo(perKg * massKg + base, 9);
  });
});

describe('IOM summary table: protein, g a day', () => {
  it.each([
    [0.3, 9.1, 9.1],
    [0.8, 11, 11],
    [2, 13, 13],
    [6, 19, 19],
    [11, 34, 34],
    [16, 52, 46],
    [40, 56, 46],
    [80, 56, 46],
  ])('at %d years men %d, women %d', (ageYears, m, f) => {
    expect([proteinAllowanceG({ ageYears, sex: 'm' }), proteinAllowanceG({ ageYears, sex: 'f' })]).toEqual([m, f]);
  });
  it('its rows begin on the birthday: 0.5, 1, 4, 9, 14 and 19 years', () => {
    const at = (ageYears: number) => proteinAllowanceG({ ageYears, sex: 'm' });
    expect([0.49, 0.5, 0.99, 1, 3.9, 4, 8.9, 9, 13.9, 14, 18.9, 19].map(at)).toEqual([
      9.1, 11, 11, 13, 13, 19, 19, 34, 34, 52, 52, 56,
    ]);
  });
  it('age groups hold the row of their age, or a figure between two', () => {
    for (const sex of ['m', 'f'] as const) {
      expect(PROTEIN_NEED_G.adult[sex].value).toBe(proteinAllowanceG({ ageYears: 40, sex }));
      expect(PROTEIN_NEED_G['older-adult'][sex].value).toBe(proteinAllowanceG({ ageYears: 75, sex }));
      expect(PROTEIN_NEED_G.teen[sex].value).toBe(proteinAllowanceG({ ageYears: 16, sex }));
      expectNear(PROTEIN_NEED_G.child[sex].value, (19 + 34) / 2, 0.5);
      expect(PROTEIN_NEED_G['young-child'][sex].p10).toBe(13);
      expect(PROTEIN_NEED_G['young-child'][sex].p90).toBe(19);
    }
  });
});

describe('water for people', () => {
  it('EFSA 2010, total intake, of which drinks 80 %: men 2.5 and women 2.0 L; pregnant +0.3, nursing +0.7', () => {
    expect(DRINKS_L_PER_DAY.adult.value).toBeCloseTo(0.8 * 2.5, 9);
    expect(DRINKS_L_PER_DAY.adult.p10).toBeCloseTo(0.8 * 2.0, 9);
    // The largest drinks in print: 3.0 L, men, US intakes 2005.
    expect(DRINKS_L_PER_DAY.adult.p90).toBe(3);
    // 4-8 years 1.6 L, 9-13 years 2.1 and 1.9 L: drinks of 1.3 to 1.7, the group between them.
    expect(DRINKS_L_PER_DAY.child.value).toBeGreaterThan(0.8 * 1.6);
    expect(DRINKS_L_PER_DAY.child.value).toBeLessThan(0.8 * 2.1);
    // 14-18 years 2.5 and 2.0 L.
    expect(DRINKS_L_PER_DAY.teen.value).toBeCloseTo(0.8 * 2.5, 9);
    expect(EXTRA_DRINKS_L_PER_DAY.pregnant.value).toBe(0.3);
    expect(EXTRA_DRINKS_L_PER_DAY.nursing.value).toBe(0.7);
    // US intakes: 3.8 on 2.7 L.
    expect(EXTRA_DRINKS_L_PER_DAY.nursing.p90).toBeCloseTo(3.8 - 2.7, 9);
  });
  it('heat: 1.5 from 27 C, 2 from 32 C (the doubling is printed, the temperatures are practice)', () => {
    expect([26.9, 27, 31.9, 32].map(heatFactorOf)).toEqual([1, 1.5, 1.5, 2]);
  });
  it('WHO plan A, a stool: below 2 years 50-100 mL, above 100-200 mL', () => {
    expect(rehydrationLPerDay(1.9, 1)).toEqual({ low: 0.05, high: 0.1 });
    expect(rehydrationLPerDay(2, 1)).toEqual({ low: 0.1, high: 0.2 });
  });
  it('WHO 2015: reaching a rolling boil is enough at any height', () => {
    for (const elevationM of [0, 3000, 8999]) expect(boilMinutesToMakeSafe(elevationM, 'who')).toBe(0);
  });
});

describe('water for beans and pasta', () => {
  it('US consumer chart: a cool soak 6 cups a pound (8 in others), a hot one 8 to 10', () => {
    // 1 %: cups and pounds.
    const perKg = (cups: number) => cupsToLitres(cups) / poundsToKg(1);
    expectWithinShare(WATER_PARAMETERS.coolSoak.value, perKg(6), 0.01);
    expectWithinShare(WATER_PARAMETERS.coolSoak.p90, perKg(8), 0.01);
    expectWithinShare(WATER_PARAMETERS.hotSoak.value, perKg(8), 0.01);
    expectWithinShare(WATER_PARAMETERS.hotSoak.p90, perKg(10), 0.01);
  });
  it('Mississippi State Extension: 4 quarts for a pound of pasta, 8.3 mL/g', () => {
    expectWithinShare(quartsToLitres(4) / poundsToKg(1), 8.3, 0.01);
    expect(WATER_PARAMETERS.pasta.value).toBe(8.3);
  });
});

describe('dry storage', () => {
  it.each([
    // "Foods lasting 30 years or more": sealed, at most 24 C.
    ['dry-staple-sealed', 24, 360],
    ['dry-food-sealed', 24, 360],
    ['dry-carrot-sealed', 24, 240],
    ['white-flour-sealed', 24, 120],
    ['dry-milk-sealed', 24, 240],
    // USU Extension 2013, p. 49: 12 months best quality.
    ['dry-beans-bagged', 21, 12],
    // USU Extension pages: brown rice 6 months at 21 C; barley 2 years below 16 C.
    ['brown-rice', 21, 6],
    ['barley', 16, 24],
    // Eliason and Lloyd 2005: 1 to 2 years.
    ['cooking-oil', 21, 18],
  ] as const)('%s at %d C keeps %d months', (id, celsius, printed) => {
    expect(shelfLifeMonths(id, celsius)).toBe(printed);
  });
  it.each([
    ['brown-rice', 6, 24],
    ['barley', 24, 96],
  ] as const)(
    '%s in the cold keeps longer than %d months and never more than the %d that are claimed',
    (id, base, cap) => {
      expect(shelfLifeMonths(id, -30)).toBe(cap);
      expect(shelfLifeMonths(id, 5)).toBeGreaterThan(base);
    },
  );
  it('beans in a bag claim no more than their twelve months of best quality, however cold', () => {
    expect(shelfLifeMonths('dry-beans-bagged', -30)).toBe(12);
    expect(shelfLifeMonths('dry-beans-bagged', 30)).toBeLessThan(6);
  });
  it('Portela, USDA: life halves per 10 F (5.6 C) of warmth', () => {
    expectWithinShare(shelfLifeMonths('brown-rice', 21 + 5.6) / shelfLifeMonths('brown-rice', 21), 0.5, 0.001);
    // In the cold the slowest gain in print outside tinned fruit, 11 C, is taken.
    expectWithinShare(shelfLifeMonths('brown-rice', 21 - 11) / shelfLifeMonths('brown-rice', 21), 2, 0.001);
  });
});

describe('heat', () => {
  it('ISO/TR 19867-3:2018: tiers begin at 10, 20, 30, 40, 50 %', () => {
    expect([0.099, 0.1, 0.199, 0.2, 0.299, 0.3, 0.399, 0.4, 0.499, 0.5, 0.9].map(efficiencyTier)).toEqual([
      0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5,
    ]);
  });
  it.each([
    ['water', 4.18],
    ['protein', 1.547],
    ['fat', 1.672],
    ['carbohydrate', 1.42],
    ['ash', 0.836],
  ] as const)('Heldman 1975: %s %d kJ/(kg K)', (component, printed) => {
    const nothing = { water: 0, protein: 0, fat: 0, carbohydrate: 0, fibre: 0, ash: 0 };
    expect(specificHeatHeldman({ ...nothing, [component]: 1 })).toBeCloseTo(printed, 9);
  });
  it('pressure cookers: 240 mL for 5-6 qt, 480 mL for 8 qt (makers’ table)', () => {
    expectNear(leastWaterL(quartsToLitres(6)), 0.24, 0.02);
    expectNear(leastWaterL(quartsToLitres(8)), 0.48, 0.03);
  });
  it('ice: 0.334 MJ/kg to melt, 2.1 kJ/(kg K); snow of -10 C to the boil takes 0.75 MJ/kg (handbook values)', () => {
    expectWithinShare(ICE_MELTING_MJ_PER_KG, 0.3336, 0.002);
    expectWithinShare(ICE_SPECIFIC_HEAT, 2.09, 0.01);
    expectWithinShare((10 * ICE_SPECIFIC_HEAT) / 1000 + ICE_MELTING_MJ_PER_KG + (4.19 * 95) / 1000, 0.75, 0.01);
  });
});
