/**
 * Published figures on soaking, cooked yield, storage age and rehydration, typed as printed. Each check names work, year
 * and place; the reason for its tolerance stands beside it.
 */
import { describe, expect, it } from 'vitest';
import { findFood } from '../../api/cooking/foods-table.ts';
import {
  activationFromTimes,
  arrheniusInverse,
  k1AtC,
  moistureAfterUptake,
  pelegUptake,
  type SoakNumbers,
  soakNumbers,
  soakUptake,
  uptakeAsBought,
} from '../../api/cooking/hydration-kinetics.ts';
import { boilPassesLectinRule } from '../../api/cooking/lectin-rule.ts';
import { driedPieceTimeFactor, reconstitutionWater } from '../../api/cooking/rehydration.ts';
import { soakLimitHours } from '../../api/cooking/soak-limits.ts';
import { cookingAdditiveFactor } from '../../api/cooking/softening-kinetics.ts';
import { storageFactor } from '../../api/cooking/storage-age.ts';
import { chickpeaSolidsLostPercent, cookedYield, highestYield } from '../../api/cooking/yield.ts';
import { celsiusToKelvin } from '../../api/physics/units.ts';

const near = (actual: number, expected: number, tolerance: number) =>
  expect(Math.abs(actual - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(tolerance);

function soakOf(id: string): SoakNumbers {
  const soak = findFood(id)?.soak;
  if (soak === null || soak === undefined) throw new Error(`no soak: ${id}`);
  return soakNumbers(soak);
}

/** Common bean with 38 kJ/mol up to 60 C and 9.3 above: the row that Kwofie 2019 was fitted with. */
const KWOFIE: SoakNumbers = {
  k1Hours: 1.03,
  referenceC: 25,
  k2: 0.685,
  activation: [
    { upToC: 60, kJPerMol: 38 },
    { upToC: 130, kJPerMol: 9.3 },
  ],
  lagHours: 0,
};
const kwofie = (waterC: number, hours: number) => soakUptake(KWOFIE, { start: 'cool', waterC, hours });

describe('uptake', () => {
  it('1: the chickpea row carries the printed 96.28 s/% and 7.45e-3 /% at 20 C (Yildirim 2010)', () => {
    // 0.2 %: four printed digits; 1 h per (kg/kg) is 36 s/%.
    near(soakOf('chickpea').k1Hours, 96.28 / 36, 0.002 * 2.674);
    near(soakOf('chickpea').k2, 7.45e-3 * 100, 0.002 * 0.745);
  });
  it('2: chickpea at 20 C takes up 0.292, 0.927, 1.033 in 1, 8, 12 h (Peleg with Yildirim 2010)', () => {
    // 0.5 %: rounding of the constants.
    for (const [hours, printed] of [
      [1, 0.292],
      [8, 0.927],
      [12, 1.033],
    ] as const)
      near(soakUptake(soakOf('chickpea'), { start: 'cool', waterC: 20, hours }), printed, 0.005 * printed);
  });
  it('3: chickpea after 5 h at 24 C holds about 50 % water (Cimini 2021, an independent trial)', () => {
    const share = moistureAfterUptake(soakUptake(soakOf('chickpea'), { start: 'cool', waterC: 24, hours: 5 }), 0.1153);
    // 1 point about the derived value; the paper says "about 50".
    near(100 * share, 49.4, 1);
  });
  it('4: chickpea ends near 1.4 kg/kg (Cimini 2021)', () => {
    // 0.1: the paper prints one decimal.
    near(0.13 + 1 / soakOf('chickpea').k2, 1.4, 0.1);
  });
  it('5: common beans take up 127 +- 5 % in 10 h at 25, 6 h at 35, 4 h at 45 C (Kwofie 2019)', () => {
    for (const [waterC, hours, derived] of [
      [25, 10, 1.269],
      [35, 6, 1.267],
      [45, 4, 1.277],
    ] as const) {
      near(kwofie(waterC, hours), derived, 0.005);
      near(kwofie(waterC, hours), 1.27, 0.05);
    }
    // The shipped row is flatter above 20 C (a trial from 25 to 55 C gives 20 kJ/mol): it may fall short by 0.06 when hot.
    const shipped = soakOf('kidney-bean');
    near(soakUptake(shipped, { start: 'cool', waterC: 25, hours: 10 }), 1.27, 0.05);
    near(soakUptake(shipped, { start: 'cool', waterC: 35, hours: 6 }), 1.27, 0.06);
    near(soakUptake(shipped, { start: 'cool', waterC: 45, hours: 4 }), 1.27, 0.06);
  });
  it('6: the times 10, 6, 4 h stand for 39.0 and 36.1 kJ/mol (Kwofie 2019)', () => {
    // 0.2 kJ/mol: rounding of the hours.
    near(activationFromTimes(10 / 6, 25, 35), 39.0, 0.2);
    near(activationFromTimes(10 / 4, 25, 45), 36.1, 0.2);
  });
  it('the time to full at 55 C is 0.39 to 0.545 of that at 25 C (Ulloa, four Mexican varieties)', () => {
    const shipped = soakOf('pinto-bean');
    const ratio = k1AtC(shipped, 55) / k1AtC(shipped, 25);
    expect(ratio).toBeGreaterThanOrEqual(0.39);
    expect(ratio).toBeLessThanOrEqual(0.545);
  });
  it('soybeans take up their own weight in 7.5 h at 20, 5 h at 30, 3.5 h at 50 C (Korean Soc. Food Sci. 1987)', () => {
    // 0.08: three varieties.
    for (const [waterC, hours] of [
      [20, 7.5],
      [30, 5],
      [50, 3.5],
    ] as const)
      near(uptakeAsBought(soakUptake(soakOf('soybean'), { start: 'cool', waterC, hours }), 0.085), 1, 0.08);
  });
  it('7: a day at 5 C is as good as 10 h at 20 C (derived from Kwofie 2019)', () => {
    near(kwofie(5, 24), 1.228, 0.01);
    near(kwofie(20, 10), 1.221, 0.01);
  });
  it('8: cowpea holds 50.52 and 53.35 % water after 1 and 2 h (Uffia 2024)', () => {
    // 0.1 point: the two constants come from these two points.
    near(100 * moistureAfterUptake(pelegUptake(1, 0.2477, 0.8212), 0.0787), 50.52, 0.1);
    near(100 * moistureAfterUptake(pelegUptake(2, 0.2477, 0.8212), 0.0787), 53.35, 0.1);
    const shipped = soakOf('black-eyed-pea');
    near(100 * moistureAfterUptake(soakUptake(shipped, { start: 'cool', waterC: 28, hours: 1 }), 0.0787), 50.5, 0.2);
  });
  it('9: teff at 20 C gains 21.1 % in 160 min (0.714 min/%, 0.043 /%; CIGR Journal)', () => {
    // 0.1: printed constants.
    near(pelegUptake(160, 0.714, 0.043), 21.1, 0.1);
  });
  it('10: teff constants 0.714 at 20 C and 0.272 at 50 C stand for 25.3 kJ/mol (paper: 24.6)', () => {
    near(activationFromTimes(0.714 / 0.272, 20, 50), 25.3, 0.1);
    near(activationFromTimes(0.714 / 0.272, 20, 50), 24.6, 1.0);
  });
  it('11: black gram at 30 C gains 26.9 % whole and 44.0 % split in 2 h (Indian J. Agric. Eng. 2013)', () => {
    near(100 * pelegUptake(2, 4.8, 1.32), 26.9, 0.2);
    near(100 * pelegUptake(2, 3.11, 0.72), 44.0, 0.2);
  });
  it('12: polished barley at 15 C gains 52-56 % in 300 min (Shimoda 1998)', () => {
    // The row is Peleg through the paper's power law: 2 points.
    const uptake = soakUptake(soakOf('pearl-barley'), { start: 'cool', waterC: 15, hours: 5 });
    near(100 * uptakeAsBought(uptake, 0.1), 53.9, 2);
  });
  it('13: peas, slope 3521 K, stand for 29.3 kJ/mol (pea hydration model)', () => {
    const ratio = Math.exp(3521 * (1 / celsiusToKelvin(20) - 1 / celsiusToKelvin(60)));
    near(activationFromTimes(ratio, 20, 60), 29.3, 0.1);
  });
  it('14: a split lentil takes water 1.79 (15 C) and 1.69 (45 C) times as fast (Kumar 2018), 1.75 in the row', () => {
    near(1.231 / 0.689, 1.79, 0.01);
    near(1.927 / 1.142, 1.69, 0.01);
    near(soakOf('lentil-brown').k1Hours / soakOf('lentil-red').k1Hours, (1.79 + 1.69) / 2, 0.02);
  });
  it('15: milled rice takes up 0.140, 0.210, 0.262 g/g in 0.5, 1, 2 h (rice water absorption, 10-20 C)', () => {
    for (const [hours, printed] of [
      [0.5, 0.14],
      [1, 0.21],
      [2, 0.262],
    ] as const) {
      const uptake = soakUptake(soakOf('white-rice'), { start: 'cool', waterC: 15, hours });
      // 0.03: between cultivars; Peleg stands in for the exponential of the page.
      near(uptakeAsBought(uptake, 0.116), printed, 0.03);
    }
  });
  it('30: an hour at a mean of 80 C does what 8 h at 20 C do (derived from Kwofie 2019)', () => {
    near(kwofie(80, 1), 1.169, 0.01);
    near(kwofie(20, 8), 1.173, 0.01);
  });
  it('30a: over half of the limit in 2 h, and about its own weight in 12 h at 20 C (McGee 2004)', () => {
    near(kwofie(20, 2) * KWOFIE.k2, 0.51, 0.02);
    near(uptakeAsBought(kwofie(20, 12), 0.12), 1.105, 0.02);
  });
  it('the integrated uptake of a cooling soak is Peleg where nothing cools', () => {
    const constant = { start: 'hot', waterC: 40, airC: 40, hours: 3 } as const;
    near(soakUptake(KWOFIE, constant), kwofie(40, 3), 1e-9);
    near(k1AtC(KWOFIE, 10), arrheniusInverse(1.03, 25, 38, 10), 1e-9);
  });
});

describe('yield', () => {
  it('16: highest yields 2.67, 2.22, 2.95, 2.80 g/g (USDA SR, raw and cooked water)', () => {
    // 0.01: rounding.
    near(highestYield(0.1175, 0.6694), 2.67, 0.01);
    near(highestYield(0.1153, 0.6021), 2.22, 0.01);
    near(highestYield(0.104, 0.6964), 2.95, 0.01);
    near(highestYield(0.1162, 0.6844), 2.8, 0.01);
  });
  it('17: a pound of kidney beans makes 6 2/3 cups (US consumer chart)', () => {
    const y = cookedYield(0.1175, 0.6694, 0.9);
    near(y, 2.4, 0.01);
    // 0.7 cup: a household measure.
    near((453.6 * y) / 177, 6 + 2 / 3, 0.7);
  });
  it('29: chickpeas boiled 71 min lose 10.2 % of their solids (Yildirim 2011)', () => {
    // 0.3: the unit %/s was inferred.
    near(chickpeaSolidsLostPercent(100, 71), 10.2, 0.3);
    near(chickpeaSolidsLostPercent(20, 13.6 * 60), 2.3, 0.05);
  });
});

describe('what is in the water, and age', () => {
  const kinetics = findFood('kidney-bean')?.kinetics;
  if (kinetics?.kind !== 'boil' || kinetics.hydrationMinutes === null) throw new Error('kidney beans are boiled');
  const soft = kinetics.softeningMinutes.value;
  const whole = soft + kinetics.hydrationMinutes.value;
  it('18: net factors 0.773 soaked, 0.749 soda unsoaked, 0.468 soda soaked, 0.847 acid soaked (CIAT, 8 varieties)', () => {
    const unsoakedSoda = cookingAdditiveFactor('bicarbonate', 0).value * soft + (whole - soft);
    // 0.003: three digits.
    near(soft / whole, 0.773, 0.003);
    near(unsoakedSoda / whole, 0.749, 0.003);
    near((cookingAdditiveFactor('bicarbonate', 1).value * soft) / whole, 0.468, 0.003);
    near((cookingAdditiveFactor('acid', 1).value * soft) / whole, 0.847, 0.003);
  });
  it('19: 109.5 min unsoaked become 84.6 soaked (CIAT)', () => {
    // 0.3 min: 25/110 against 0.2274.
    near((109.5 * soft) / whole, 84.6, 0.3);
  });
  it('20: pinto at 17 %, ten months: x1.7 at 4.4 C, x1.2 at -6.7 C (storage trial)', () => {
    near(storageFactor({ years: 10 / 12, temperatureC: 4.4, moisturePercent: 17 }).value, 1.7, 0.05);
    near(storageFactor({ years: 10 / 12, temperatureC: -6.7, moisturePercent: 17 }).value, 1.2, 0.05);
  });
  it('21, 22: 1.32 and 2.29 at 20 C and 10 %; 1.21 and 4.6 at 25 C and 13 or 15 % (Morris and Wood 1956)', () => {
    near(storageFactor({ years: 10, temperatureC: 20, moisturePercent: 10 }).value, 1.32, 0.02);
    near(storageFactor({ years: 30, temperatureC: 20, moisturePercent: 10 }).value, 2.29, 0.02);
    near(storageFactor({ years: 0.5, temperatureC: 25, moisturePercent: 13 }).value, 1.21, 0.05);
    near(storageFactor({ years: 1, temperatureC: 25, moisturePercent: 15 }).value, 4.6, 0.2);
  });
});

describe('rehydration', () => {
  it('23: skimmed milk powder 9.57 g/g by moisture, 9.63 on the chart (Armed Forces, 92 g and 887 g)', () => {
    near(reconstitutionWater(0.0316, 0.9084), 9.57, 0.02);
    // 1.5 %: the chart is in cups.
    near(reconstitutionWater(0.0316, 0.9084), 887 / 92, 0.015 * 9.63);
    near(findFood('milk-powder')?.absorbedGPerG.value ?? 0, 9.63, 0.1);
  });
  it('24, 25: carrot 7.20 and dried apple 4.12 g/g, as 2.25 and 1.5 cups to a cup (Reynolds, table 1)', () => {
    near(reconstitutionWater(0.04, 0.883), 7.2, 0.02);
    near(reconstitutionWater(0.04, 0.883), (2.25 * 236.6) / 74, 0.01 * 7.19);
    near(reconstitutionWater(0.318, 0.867), 4.12, 0.02);
    near(reconstitutionWater(0.318, 0.867), (1.5 * 236.6) / 86, 0.01 * 4.13);
  });
  it('26, 27: onion takes up 3.0 g/g (2 oz to 8 oz), green pepper 5.5 (1 oz to 6.5 oz) (Armed Forces A-11)', () => {
    // 0.2: quarter ounces.
    near(findFood('onion-flakes')?.absorbedGPerG.value ?? 0, (8 - 2) / 2, 0.2);
    near(findFood('fd-bell-pepper')?.absorbedGPerG.value ?? 0, 6.5 - 1, 0.2);
  });
  it('28: dried pieces take 0.43 of the time at 55 C, 0.20 at 95 C, 1.53 at 5 C (Garcia-Pascual 2005)', () => {
    near(driedPieceTimeFactor(55), 0.43, 0.02);
    near(driedPieceTimeFactor(95), 0.2, 0.02);
    near(driedPieceTimeFactor(5), 1.53, 0.02);
  });
});

describe('limits', () => {
  it('31: a boil of less than 30 min, or none, before a box does not pass (FDA Bad Bug Book)', () => {
    expect(boilPassesLectinRule({ temperatureC: 100, minutes: 0 })).toBe(false);
    expect(boilPassesLectinRule({ temperatureC: 100, minutes: 9 })).toBe(false);
    expect(boilPassesLectinRule({ temperatureC: 100, minutes: 29.9 })).toBe(false);
    expect(boilPassesLectinRule({ temperatureC: 100, minutes: 30 })).toBe(true);
  });
  it('32: 14 h at 24 C is too long, 14 h at 4 C is not (Penn State; growers)', () => {
    expect(soakLimitHours(24)).toBeLessThan(14);
    expect(soakLimitHours(4)).toBeGreaterThanOrEqual(14);
  });
});
