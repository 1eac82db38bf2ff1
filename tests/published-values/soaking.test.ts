/**
 * Published figures on soaking, cooked yield, storage age and rehydration, typed as printed. Each check names work, year
 * and place; the reason for its tolerance stands beside it.
 */
import { describe, expect, it } from 'vitest';
import { answerSoaking } from '../../api/cooking/calculators/answer-soaking.ts';
import { findFood } from '../../api/cooking/foods/foods-table.ts';
import { soakLimitHours } from '../../api/cooking/keeping/soak-limits.ts';
import { storageAdvice, storageFactor } from '../../api/cooking/keeping/storage-age.ts';
import { boilBeforeBox } from '../../api/cooking/kinetics/box-cooking.ts';
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
} from '../../api/cooking/kinetics/hydration-kinetics.ts';
import { boilPassesLectinRule } from '../../api/cooking/kinetics/lectin-rule.ts';
import { driedPieceTimeFactor, reconstitutionWater } from '../../api/cooking/kinetics/rehydration.ts';
import { cookingAdditiveFactor } from '../../api/cooking/kinetics/softening-kinetics.ts';
import { chickpeaSolidsLostPercent, cookedYield, highestYield } from '../../api/cooking/kinetics/yield.ts';
import { celsiusToKelvin, cupsToLitres, ouncesToKg, poundsToKg } from '../../api/physics/units.ts';
import { checkValuesOf, expectNear, expectWithinShare } from './check-values.ts';

const { checkValue, everyCheckValueIsSettled } = checkValuesOf('soaking');

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
  checkValue(
    1,
    'Yildirim, Oner and Bayram 2010, abstract: 96.28 s/% and 7.45e-3 /% at 20 C are 2.674 h/(kg/kg) and 0.745',
    () => {
      // 1 h per (kg/kg) is 36 s/%, 1 per (kg/kg) is 0.01 /%. 0.2 %: four printed digits.
      expectWithinShare(96.28 / 36, 2.674, 0.002);
      expectWithinShare(7.45e-3 * 100, 0.745, 0.002);
      expectWithinShare(soakOf('chickpea').k1Hours, 2.674, 0.002);
      expectWithinShare(soakOf('chickpea').k2, 0.745, 0.002);
    },
  );
  checkValue(2, 'chickpea at 20 C takes up 0.292, 0.927, 1.033 in 1, 8, 12 h (Peleg with Yildirim 2010)', () => {
    // 0.5 %: rounding of the constants.
    for (const [hours, printed] of [
      [1, 0.292],
      [8, 0.927],
      [12, 1.033],
    ] as const)
      expectNear(soakUptake(soakOf('chickpea'), { start: 'cool', waterC: 20, hours }), printed, 0.005 * printed);
  });
  checkValue(3, 'chickpea after 5 h at 24 C holds about 50 % water (Cimini 2021, an independent trial)', () => {
    const share = moistureAfterUptake(soakUptake(soakOf('chickpea'), { start: 'cool', waterC: 24, hours: 5 }), 0.1153);
    // 1 point about the derived value; the paper says "about 50", 3 points.
    expectNear(100 * share, 49.4, 1);
    expectNear(100 * share, 50, 3);
  });
  checkValue(4, 'Cimini, Poliziani and Moresi 2021: a chickpea ends at 1.4 kg/kg; 0.130 + 1/k2 = 1.47', () => {
    expectNear(0.13 + 1 / soakOf('chickpea').k2, 1.47, 0.005);
    // 0.1: the paper prints one decimal.
    expectNear(0.13 + 1 / soakOf('chickpea').k2, 1.4, 0.1);
  });
  checkValue(5, 'common beans take up 127 +- 5 % in 10 h at 25, 6 h at 35, 4 h at 45 C (Kwofie 2019)', () => {
    for (const [waterC, hours, derived] of [
      [25, 10, 1.269],
      [35, 6, 1.267],
      [45, 4, 1.277],
    ] as const) {
      expectNear(kwofie(waterC, hours), derived, 0.005);
      expectNear(kwofie(waterC, hours), 1.27, 0.05);
    }
    // The table's row is flatter above 20 C, because another trial (Ulloa, four varieties, 25 to 55 C) gives 20 kJ/mol.
    // Measured gap: 0.05 short of 127 % at 45 C. It stays: it keeps both trials within their spread.
    const shipped = soakOf('kidney-bean');
    expectNear(soakUptake(shipped, { start: 'cool', waterC: 25, hours: 10 }), 1.27, 0.05);
    expectNear(soakUptake(shipped, { start: 'cool', waterC: 35, hours: 6 }), 1.27, 0.06);
    expectNear(soakUptake(shipped, { start: 'cool', waterC: 45, hours: 4 }), 1.27, 0.06);
  });
  checkValue(6, 'the times 10, 6, 4 h stand for 39.0 and 36.1 kJ/mol (Kwofie 2019)', () => {
    // 0.2 kJ/mol: rounding of the hours.
    expectNear(activationFromTimes(10 / 6, 25, 35), 39.0, 0.2);
    expectNear(activationFromTimes(10 / 4, 25, 45), 36.1, 0.2);
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
      expectNear(uptakeAsBought(soakUptake(soakOf('soybean'), { start: 'cool', waterC, hours }), 0.085), 1, 0.08);
  });
  checkValue(7, 'Peleg with 38 kJ/mol (Kwofie 2019): 1.228 in 24 h at 5 C, 1.221 in 10 h at 20 C', () => {
    // 0.01: the constants.
    expectNear(kwofie(5, 24), 1.228, 0.01);
    expectNear(kwofie(20, 10), 1.221, 0.01);
    // In the cold the table's row has the same energy: a day at 5 C and 10 h at 20 C differ by a hundredth there too.
    const shipped = (waterC: number, hours: number) =>
      soakUptake(soakOf('kidney-bean'), { start: 'cool', waterC, hours });
    expectNear(shipped(5, 24), shipped(20, 10), 0.01);
  });
  checkValue(8, 'cowpea holds 50.52 and 53.35 % water after 1 and 2 h (Uffia 2024)', () => {
    // 0.1 point: the two constants come from these two points.
    expectNear(100 * moistureAfterUptake(pelegUptake(1, 0.2477, 0.8212), 0.0787), 50.52, 0.1);
    expectNear(100 * moistureAfterUptake(pelegUptake(2, 0.2477, 0.8212), 0.0787), 53.35, 0.1);
    const shipped = soakOf('black-eyed-pea');
    expectNear(
      100 * moistureAfterUptake(soakUptake(shipped, { start: 'cool', waterC: 28, hours: 1 }), 0.0787),
      50.5,
      0.2,
    );
  });
  checkValue(9, 'teff at 20 C gains 21.1 % in 160 min (0.714 min/%, 0.043 /%; CIGR Journal)', () => {
    // 0.1: printed constants.
    expectNear(pelegUptake(160, 0.714, 0.043), 21.1, 0.1);
  });
  checkValue(10, 'teff constants 0.714 at 20 C and 0.272 at 50 C stand for 25.3 kJ/mol (paper: 24.6)', () => {
    expectNear(activationFromTimes(0.714 / 0.272, 20, 50), 25.3, 0.1);
    expectNear(activationFromTimes(0.714 / 0.272, 20, 50), 24.6, 1.0);
  });
  checkValue(11, 'black gram at 30 C gains 26.9 % whole and 44.0 % split in 2 h (Indian J. Agric. Eng. 2013)', () => {
    expectNear(100 * pelegUptake(2, 4.8, 1.32), 26.9, 0.2);
    expectNear(100 * pelegUptake(2, 3.11, 0.72), 44.0, 0.2);
  });
  checkValue(12, 'polished barley at 15 C gains 52-56 % in 300 min (Shimoda 1998)', () => {
    // The row is Peleg through the paper's power law: 2 points.
    const uptake = soakUptake(soakOf('pearl-barley'), { start: 'cool', waterC: 15, hours: 5 });
    expectNear(100 * uptakeAsBought(uptake, 0.1), 53.9, 2);
  });
  checkValue(13, 'peas, slope 3521 K, stand for 29.3 kJ/mol (pea hydration model)', () => {
    const ratio = Math.exp(3521 * (1 / celsiusToKelvin(20) - 1 / celsiusToKelvin(60)));
    expectNear(activationFromTimes(ratio, 20, 60), 29.3, 0.1);
  });
  checkValue(
    14,
    'a split lentil takes water 1.79 (15 C) and 1.69 (45 C) times as fast (Kumar 2018), 1.75 in the row',
    () => {
      expectNear(1.231 / 0.689, 1.79, 0.01);
      expectNear(1.927 / 1.142, 1.69, 0.01);
      expectNear(soakOf('lentil-brown').k1Hours / soakOf('lentil-red').k1Hours, (1.79 + 1.69) / 2, 0.02);
    },
  );
  checkValue(15, 'milled rice takes up 0.140, 0.210, 0.262 g/g in 0.5, 1, 2 h (rice water absorption, 10-20 C)', () => {
    for (const [hours, printed] of [
      [0.5, 0.14],
      [1, 0.21],
      [2, 0.262],
    ] as const) {
      const uptake = soakUptake(soakOf('white-rice'), { start: 'cool', waterC: 15, hours });
      // 0.03: between cultivars; Peleg stands in for the exponential of the page.
      expectNear(uptakeAsBought(uptake, 0.116), printed, 0.03);
    }
  });
  checkValue(
    30,
    'Peleg with 38 and 9.3 kJ/mol (Kwofie 2019, Yildirim 2011): 1.169 in 1 h at 80 C, 1.173 in 8 h at 20 C',
    () => {
      // 0.01: the constants.
      expectNear(kwofie(80, 1), 1.169, 0.01);
      expectNear(kwofie(20, 8), 1.173, 0.01);
    },
  );
  checkValue(
    '30a',
    'McGee 2004, legumes: over half of capacity in 2 h, double weight after 10-12 h; 0.51 and 1.105 g/g at 20 C',
    () => {
      // 0.02: the ratio of the constants is chosen to meet the sentence.
      expectNear(kwofie(20, 2) * KWOFIE.k2, 0.51, 0.02);
      expectNear(uptakeAsBought(kwofie(20, 12), 0.12), 1.105, 0.02);
    },
  );
  it('the integrated uptake of a cooling soak is Peleg where nothing cools', () => {
    const constant = { start: 'hot', waterC: 40, airC: 40, hours: 3 } as const;
    expectNear(soakUptake(KWOFIE, constant), kwofie(40, 3), 1e-9);
    expectNear(k1AtC(KWOFIE, 10), arrheniusInverse(1.03, 25, 38, 10), 1e-9);
  });
});

describe('yield', () => {
  checkValue(16, 'highest yields 2.67, 2.22, 2.95, 2.80 g/g (USDA SR, raw and cooked water)', () => {
    // 0.01: rounding.
    expectNear(highestYield(0.1175, 0.6694), 2.67, 0.01);
    expectNear(highestYield(0.1153, 0.6021), 2.22, 0.01);
    expectNear(highestYield(0.104, 0.6964), 2.95, 0.01);
    expectNear(highestYield(0.1162, 0.6844), 2.8, 0.01);
  });
  checkValue(17, 'a pound of kidney beans makes 6 2/3 cups (US consumer chart)', () => {
    const y = cookedYield(0.1175, 0.6694, 0.9);
    expectNear(y, 2.4, 0.01);
    // 0.7 cup: a household measure.
    expectNear((poundsToKg(1) * 1000 * y) / 177, 6 + 2 / 3, 0.7);
    expectNear((poundsToKg(1) * 1000 * y) / 177, 6.2, 0.06);
  });
  checkValue(29, 'chickpeas boiled 71 min lose 10.2 % of their solids (Yildirim 2011)', () => {
    // 0.3: the unit %/s was inferred.
    expectNear(chickpeaSolidsLostPercent(100, 71), 10.2, 0.3);
    expectNear(chickpeaSolidsLostPercent(20, 13.6 * 60), 2.3, 0.05);
  });
});

describe('what is in the water, and age', () => {
  const kinetics = findFood('kidney-bean')?.kinetics;
  if (kinetics?.kind !== 'boil' || kinetics.hydrationMinutes === null) throw new Error('kidney beans are boiled');
  const soft = kinetics.softeningMinutes.value;
  const whole = soft + kinetics.hydrationMinutes.value;
  checkValue(
    18,
    'Alliance Bioversity-CIAT, abstract, 109.5: soaked 84.6, 0.773; soda 82.0 and 51.2, 0.749 and 0.468; acid 92.7, 0.847',
    () => {
      for (const [minutes, factor] of [
        [84.6, 0.773],
        [82.0, 0.749],
        [51.2, 0.468],
        [92.7, 0.847],
      ] as const)
        expectNear(minutes / 109.5, factor, 0.0006);
      const unsoakedSoda = cookingAdditiveFactor('bicarbonate', 0).value * soft + (whole - soft);
      // 0.003: three digits.
      expectNear(soft / whole, 0.773, 0.003);
      expectNear(unsoakedSoda / whole, 0.749, 0.003);
      expectNear((cookingAdditiveFactor('bicarbonate', 1).value * soft) / whole, 0.468, 0.003);
      expectNear((cookingAdditiveFactor('acid', 1).value * soft) / whole, 0.847, 0.003);
    },
  );
  checkValue(19, 'Alliance Bioversity-CIAT, abstract: 109.5 min unsoaked, f = 1, S = 0.227: 84.6', () => {
    expectNear(109.5 * (1 - 0.227), 84.6, 0.06);
    // 0.3 min: 25/110 against 0.2274.
    expectNear((109.5 * soft) / whole, 84.6, 0.3);
  });
  checkValue(
    20,
    'Drying, Storing and Handling Dry Edible Beans: pinto at 16-18 %, ten months, x1.7 at 4.4 C, x1.2 at -6.7 C',
    () => {
      // 0.05: one printed digit; the relation gives 1.70 and 1.17.
      expectNear(storageFactor({ years: 10 / 12, temperatureC: 4.4, moisturePercent: 17 }).value, 1.7, 0.05);
      expectNear(storageFactor({ years: 10 / 12, temperatureC: -6.7, moisturePercent: 17 }).value, 1.17, 0.01);
      expectNear(storageFactor({ years: 10 / 12, temperatureC: -6.7, moisturePercent: 17 }).value, 1.2, 0.05);
    },
  );
  checkValue(
    21,
    'the relation fitted to that trial, doubling per 1 % moisture: 1.32 and 2.29 at 20 C, 10 %, 10 and 30 years',
    () => {
      expectNear(storageFactor({ years: 10, temperatureC: 20, moisturePercent: 10 }).value, 1.32, 0.02);
      expectNear(storageFactor({ years: 30, temperatureC: 20, moisturePercent: 10 }).value, 2.29, 0.02);
    },
  );
  checkValue(
    22,
    'Morris and Wood 1956 (worse at 6 months above 13 % at 25 C, unpalatable within 12): 1.21, and 4.6 at 15 %',
    () => {
      const halfYear = { years: 0.5, temperatureC: 25, moisturePercent: 13 };
      const year = { years: 1, temperatureC: 25, moisturePercent: 15 };
      expectNear(storageFactor(halfYear).value, 1.21, 0.05);
      expectNear(storageFactor(year).value, 4.6, 0.2);
      // What the field says in words: no more than slower at first, perhaps never soft at the end.
      expect(storageAdvice(halfYear)).toBeNull();
      expect(storageAdvice(year)).toContain('may never soften');
    },
  );
});

describe('rehydration', () => {
  checkValue(23, 'skimmed milk powder 9.57 g/g by moisture, 9.63 on the chart (Armed Forces, 92 g and 887 g)', () => {
    expectNear(reconstitutionWater(0.0316, 0.9084), 9.57, 0.02);
    // 1.5 %: the chart is in cups.
    expectNear(reconstitutionWater(0.0316, 0.9084), 887 / 92, 0.015 * 9.63);
    expectNear(findFood('milk-powder')?.absorbedGPerG.value ?? 0, 9.63, 0.1);
  });
  for (const [number, food, dryShare, finalShare, byWater, cups, cupG, chart] of [
    [24, 'carrot', 0.04, 0.883, 7.2, 2.25, 74, 7.19],
    [25, 'apple', 0.318, 0.867, 4.12, 1.5, 86, 4.13],
  ] as const)
    checkValue(
      number,
      `dried ${food} ${byWater} g/g by USDA SR water; Reynolds, table 1: ${cups} cups a cup, ${chart}`,
      () => {
        const water = reconstitutionWater(dryShare, finalShare);
        expectNear(water, byWater, 0.02);
        expectNear((cups * cupsToLitres(1) * 1000) / cupG, chart, 0.01);
        // 1 %: cups of water and of pieces.
        expectWithinShare(water, chart, 0.01);
      },
    );
  checkValue(
    26,
    'Armed Forces card A-11, onion: 2 oz and 1.5 cups make 8 oz, 6.26 g/g supplied, 3.0 absorbed, for 16 oz fresh',
    () => {
      const supplied = (1.5 * cupsToLitres(1)) / ouncesToKg(2);
      expectNear(supplied, 6.26, 0.02);
      expectNear((8 - 2) / 2, 3.0, 0.1);
      // 16 oz of fresh onion, 89.1 % water, by dry matter from 2 oz at 3.93 %: 17.6 oz, a tenth for peel.
      expectWithinShare((2 * (1 - 0.0393)) / (1 - 0.891), 16, 0.11);
      // 0.2: quarter ounces.
      expectNear(findFood('onion-flakes')?.absorbedGPerG.value ?? 0, 3.0, 0.2);
    },
  );
  checkValue(
    27,
    'Armed Forces card A-11, green pepper: 1 oz and 2 cups make 6.5 oz, 16.7 g/g supplied, 5.5 absorbed',
    () => {
      expectNear((2 * cupsToLitres(1)) / ouncesToKg(1), 16.7, 0.05);
      expectNear(6.5 - 1, 5.5, 1e-9);
      expectNear(findFood('fd-bell-pepper')?.absorbedGPerG.value ?? 0, 5.5, 0.2);
    },
  );
  checkValue(28, 'dried pieces take 0.43 of the time at 55 C, 0.20 at 95 C, 1.53 at 5 C (Garcia-Pascual 2005)', () => {
    expectNear(driedPieceTimeFactor(55), 0.43, 0.02);
    expectNear(driedPieceTimeFactor(95), 0.2, 0.02);
    expectNear(driedPieceTimeFactor(5), 1.53, 0.02);
  });
});

describe('limits', () => {
  checkValue(
    31,
    'FDA Bad Bug Book (extension news): boiled less than 10 min or not at all, refused; 30 min and more, safe',
    () => {
      expect(boilPassesLectinRule({ temperatureC: 100, minutes: 0 })).toBe(false);
      expect(boilPassesLectinRule({ temperatureC: 100, minutes: 9 })).toBe(false);
      // From 10 to 30 min other bodies would pass with a warning (PHLS: 10 min). Measured gap: here it is refused like less
      // than 10, since a box that follows adds nothing and 30 min is the longer of the two rules.
      expect(boilPassesLectinRule({ temperatureC: 100, minutes: 10 })).toBe(false);
      expect(boilPassesLectinRule({ temperatureC: 100, minutes: 29.9 })).toBe(false);
      expect(boilPassesLectinRule({ temperatureC: 100, minutes: 30 })).toBe(true);
      const box = boilBeforeBox({
        foodId: 'kidney-bean',
        temperatureC: 100,
        temperatureMeasured: true,
        hydrationShare: 1,
        soakedAndDrained: true,
        boxStartC: 97,
        airC: 20,
        timeConstantHours: 12,
        boxMinutes: 240,
      });
      expect(box.boilMinutes.p10).toBeGreaterThanOrEqual(30);
    },
  );
  checkValue(
    32,
    'Penn State Extension (12 h in a cool place), growers (8 h): 14 h at 24 C refused, at 4 C accepted',
    () => {
      expect(soakLimitHours(24)).toBeLessThan(14);
      expect(answerSoaking({ foodId: 'pinto-bean', hours: 14, waterC: 24 }).safe).toBe(false);
      expect(soakLimitHours(4)).toBeGreaterThanOrEqual(14);
      expect(answerSoaking({ foodId: 'pinto-bean', hours: 14, waterC: 4 }).safe).toBe(true);
    },
  );
});

everyCheckValueIsSettled();
