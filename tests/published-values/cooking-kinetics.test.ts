/**
 * Published figures on cooking times, pressure, retained heat and the bean lectin, typed as printed. Each check names
 * work and place; where a value was derived from published figures the relation is named; the reason for each tolerance
 * stands beside it.
 */
import { describe, expect, it } from 'vitest';
import { answerCookTime } from '../../api/cooking/calculators/answer-cook-time.ts';
import type { CookTimeQuestion } from '../../api/cooking/calculators/calculator-types.ts';
import { findFood } from '../../api/cooking/foods/foods-table.ts';
import { boilBeforeBox } from '../../api/cooking/kinetics/box-cooking.ts';
import { boxCookValue, boxTemperatureC, cookValue, releaseCookValue } from '../../api/cooking/kinetics/cook-value.ts';
import {
  boilPassesLectinRule,
  LECTIN_MINUTES_AT_100C,
  lectinCreditPerMinute,
  lectinMinutesAt,
} from '../../api/cooking/kinetics/lectin-rule.ts';
import {
  activationFromZ,
  HYDRATION_Z_K,
  minutesToSoft,
  soakAdditiveFactor,
  timeFactor,
  zFromActivation,
} from '../../api/cooking/kinetics/softening-kinetics.ts';
import { absorbedWhenDone, cookedGPerG } from '../../api/cooking/kinetics/yield.ts';
import { airPressureKPa } from '../../api/physics/atmosphere.ts';
import { boilingPointAtElevationC, boilingPointC } from '../../api/physics/boiling-point.ts';
import { celsiusToFahrenheit, feetToMetres } from '../../api/physics/units.ts';
import { steamKg } from '../../api/physics/water-properties.ts';
import { checkValuesOf, expectNear, expectWithinShare } from './check-values.ts';

const { checkValue, everyCheckValueIsSettled } = checkValuesOf('cooking-kinetics');

const PSI_KPA = 6.895;
const GAUGE_15_PSI_KPA = 15 * PSI_KPA;
const HOT_C = boilingPointC(101.325 + GAUGE_15_PSI_KPA);
const FULL_SOAK = { start: 'cool', hours: 12, waterC: 22, discardWater: true } as const;
const typical = (q: CookTimeQuestion) => answerCookTime(q).minutes.p50;
const NO_CUT_OFF = -300;

/** The two-term relation at printed parameters instead of the table's, minutes. */
const relation = (softeningMinutes: number, hydrationMinutes: number, temperatureC: number, z: number) =>
  minutesToSoft({
    softeningMinutes,
    hydrationMinutes,
    hydrationShare: 0,
    storageFactor: 1,
    additiveFactor: 1,
    temperatureC,
    zBelow: z,
    zAbove: z,
    zHydration: HYDRATION_Z_K.value,
  }).total;

describe('temperature', () => {
  checkValue(
    1,
    'van Loey 1995 (white bean, sensory hardness): 130.8 kJ/mol over 95-120 C is z 21.2; 21.3 is printed',
    () => {
      // 0.5 K: the range of the process is not stated to the degree.
      expectNear(zFromActivation(130.8, 95, 120), 21.2, 0.1);
      expectNear(zFromActivation(130.8, 95, 120), 21.3, 0.5);
    },
  );
  checkValue(2, 'Quast and da Silva 1977, abstract: z 19 over 98-127 C is 149.6 kJ/mol', () => {
    // 1 kJ/mol: z is printed whole.
    expectNear(activationFromZ(19, 98, 127), 149.6, 1);
  });
  checkValue(
    3,
    'Quast and da Silva 1977, abstract: black beans take 8.86 times as long at 98 C as at 116 C, z 19',
    () => {
      expectNear(timeFactor(98, 19) / timeFactor(116, 19), 8.86, 0.05);
    },
  );
  checkValue(4, 'Utah State Extension 2013, altitude sheet: 97, 95, 94, 92 C at 884, 1 402, 1 707, 2 347 m', () => {
    // 0.6 C: printed in whole degrees.
    for (const [elevationM, printed] of [
      [884, 97],
      [1402, 95],
      [1707, 94],
      [2347, 92],
    ] as const)
      expectNear(boilingPointAtElevationC(elevationM), printed, 0.6);
  });
  checkValue(5, 'CSU Extension, High Altitude Food Preparation, table 1: 193 F at 10 000 ft', () => {
    // 1.5 F: other publishers print 194, and 193.66 is computed.
    expectNear(celsiusToFahrenheit(boilingPointAtElevationC(feetToMetres(10000))), 193, 1.5);
  });
  checkValue(6, 'IAPWS-IF97 at ambient and gauge: 121.0, 115.2, 108.4 C at 15, 10, 5 psi at sea level', () => {
    // 0.3 C: pressures rounded to a kPa or two.
    expectNear(boilingPointC(101.325 + 15 * PSI_KPA), 121.0, 0.3);
    expectNear(boilingPointC(101.325 + 10 * PSI_KPA), 115.2, 0.3);
    expectNear(boilingPointC(101.325 + 5 * PSI_KPA), 108.4, 0.3);
  });
  checkValue(24, '115.8 C at 15 psi and 3 000 m, where beans take x1.87 (z 19); pressure cookbooks say x1.39', () => {
    const high = boilingPointC(airPressureKPa(3000) + GAUGE_15_PSI_KPA);
    expectNear(high, 115.8, 0.3);
    const factor = timeFactor(high, 19) / timeFactor(HOT_C, 19);
    expectNear(factor, 1.87, 0.03);
    // The trade rule is +5 % per 1 000 ft above 2 000 ft, x1.39. Measured gap: a third more by z 19. It stays: the rule
    // fits grains (1.41 by z 35), and a bean that is done too early is hard.
    expect(factor / 1.39).toBeGreaterThan(1.3);
    expectNear(timeFactor(high, 35) / timeFactor(HOT_C, 35), 1.39, 0.05);
  });
  checkValue(
    14,
    'hikers quoting a field manual, 1998: with z 30, 10 min become 15, 18, 20 at 5 000, 7 500, 10 000 ft',
    () => {
      for (const [feet, derived, printed] of [
        [5000, 14.8, 15],
        [7500, 18.0, 18],
        [10000, 21.9, 20],
      ] as const) {
        const minutes = 10 * timeFactor(boilingPointAtElevationC(feetToMetres(feet)), 30);
        expectNear(minutes, derived, 0.06);
        // 10 %: whole minutes of a rule of thumb.
        expectWithinShare(minutes, printed, 0.1);
      }
    },
  );
  checkValue(
    15,
    'dried-food trade: doubled per 5 000 ft; beans with z 19 take 1.85 times as long, inside 1.7 to 2.1',
    () => {
      const ratio =
        typical({ foodId: 'pinto-bean', elevationM: 1524, soak: FULL_SOAK }) /
        typical({ foodId: 'pinto-bean', elevationM: 0, soak: FULL_SOAK });
      expect(ratio).toBeGreaterThan(1.7);
      expect(ratio).toBeLessThan(2.1);
      expectNear(ratio, 1.85, 0.03);
    },
  );
  checkValue(16, 'soaked kidney beans at 3 000 m: 253 min from 75 at 100 C (z 19, Quast and da Silva 1977)', () => {
    // 5 min: the boiling point to a tenth of a degree.
    expectNear(relation(75, 0, boilingPointAtElevationC(3000), 19), 253, 5);
    // The table holds 85 min, from the paired trial. Measured gap: 34 min more at 3 000 m. It stays: 253 carries the 75
    // of kitchen tables, which call beans done earlier than the trial does.
    const shipped = typical({ foodId: 'kidney-bean', elevationM: 3000, soak: FULL_SOAK });
    expectWithinShare(shipped, (253 * 85) / 75, 0.02);
    const { minutes } = answerCookTime({ foodId: 'kidney-bean', elevationM: 3000, soak: FULL_SOAK });
    expect(minutes.p10).toBeLessThan(253);
  });
  it('white rice takes 1.9 times as long at 3,000 m as at the sea (z 35)', () => {
    // A tenth: 1.93.
    const ratio =
      typical({ foodId: 'white-rice', elevationM: 3000 }) / typical({ foodId: 'white-rice', elevationM: 0 });
    expectNear(ratio, 1.9, 0.19);
  });
});

describe('what a soak saves', () => {
  checkValue(17, 'Alliance Bioversity-CIAT, soaking for 12 h, eight varieties: 109.5 to 84.6 min, 22.7 %', () => {
    const kinetics = findFood('kidney-bean')?.kinetics;
    if (kinetics?.kind !== 'boil' || kinetics.hydrationMinutes === null) throw new Error('kidney beans are boiled');
    const soaked = kinetics.softeningMinutes.value;
    const unsoaked = soaked + kinetics.hydrationMinutes.value;
    expectNear(100 * (1 - 84.6 / 109.5), 22.7, 0.05);
    // 85 and 110 in the table are the printed minutes to the nearest minute.
    expectNear(soaked, 84.6, 0.5);
    expectNear(unsoaked, 109.5, 0.5);
    expectNear(100 * (1 - soaked / unsoaked), 22.7, 0.05);
  });
});

describe('pressure cooker, 15 psi', () => {
  const gaugeKPa = GAUGE_15_PSI_KPA;
  checkValue(7, 'soaked pinto: 5.9 min from 75 (z 19); makers’ timetables 3-6 and 7-10', () => {
    expectNear(relation(75, 0, HOT_C, 19), 5.9, 0.2);
    // The table's 85 min give 6.7.
    const minutes = typical({ foodId: 'pinto-bean', elevationM: 0, gaugeKPa, soak: FULL_SOAK });
    expectNear(minutes, (5.9 * 85) / 75, 0.2);
    expect(minutes).toBeGreaterThanOrEqual(3);
    expect(minutes).toBeLessThanOrEqual(10);
  });
  checkValue(8, 'soaked soybeans: 7.4 min from 150 (z 16); timetables 8-11 and 12-15, inside 5 to 15', () => {
    expectNear(relation(150, 0, HOT_C, 16), 7.4, 0.3);
    // Above 100 C the table holds z 18, because both timetables ask for more than the instrument's 16: 10 min. The
    // relation at 16 meets the derived value, the table the printed ones.
    const minutes = typical({ foodId: 'soybean', elevationM: 0, gaugeKPa, soak: FULL_SOAK });
    expectNear(minutes, 10.3, 0.3);
    expect(minutes).toBeGreaterThanOrEqual(5);
    expect(minutes).toBeLessThanOrEqual(15);
  });
  checkValue(
    9,
    'unsoaked kidney: 25 min from 75 and 35; personal table 45-50, booklet twice 25: inside 20 to 50',
    () => {
      expectNear(relation(75, 35, HOT_C, 19), 25, 1);
      const answer = answerCookTime({ foodId: 'kidney-bean', elevationM: 0, gaugeKPa, firstWater: 'poured-away' });
      // The table's 85 and 25 give 20.3. Measured gap: 5 min at 15 psi, none at 100 C (110 both ways). It stays: the paired
      // trial gives 25 min of missing water, not 35, and the band reaches the printed times.
      expectNear(answer.minutes.p50, 20.3, 0.3);
      expect(answer.minutes.p50).toBeGreaterThanOrEqual(20);
      expect(answer.minutes.p50).toBeLessThanOrEqual(50);
      expect(answer.minutes.p90).toBeGreaterThanOrEqual(25);
    },
  );
  checkValue(
    10,
    'ten minutes of natural release from 15 psi are 46 min at 100 C and 3.6 min at 15 psi (z 19, linear fall)',
    () => {
      const credit = releaseCookValue(HOT_C, 10, 19);
      expectNear(credit, 46, 1);
      expectNear(credit * timeFactor(HOT_C, 19), 3.6, 0.1);
    },
  );
  checkValue(11, 'white rice: 5.7 min from 15 (z 50); maker’s grain timetable 5-8', () => {
    const minutes = typical({ foodId: 'white-rice', elevationM: 0, gaugeKPa });
    expectNear(minutes, 5.7, 0.2);
    expect(minutes).toBeGreaterThanOrEqual(5);
    expect(minutes).toBeLessThanOrEqual(8);
  });
});

describe('below the boil', () => {
  for (const [number, foodId, derived] of [
    [12, 'white-rice', 40],
    [13, 'potato-diced', 38],
  ] as const)
    checkValue(
      number,
      `Popali, Yardi and Jain 1979, abstract: ${foodId} in 30-45 min at 82-88 C, ${derived} at 85 C`,
      () => {
        const minutes = typical({ foodId, temperatureC: 85 });
        expectNear(minutes, derived, 1);
        expect(minutes).toBeGreaterThanOrEqual(30);
        expect(minutes).toBeLessThanOrEqual(45);
      },
    );
  it('salted soaked beans of five kinds at 90 C: 240 to 360 min, within the P10-P90 band (kitchen supplier’s bath)', () => {
    for (const [foodId, printed] of [
      ['black-eyed-pea', 240],
      ['black-bean', 240],
      ['great-northern-bean', 270],
      ['pinto-bean', 270],
      ['chickpea', 360],
    ] as const) {
      const { minutes } = answerCookTime({ foodId, temperatureC: 90, soak: { ...FULL_SOAK, additive: 'salt' } });
      expect(minutes.p10).toBeLessThan(printed);
      expect(minutes.p90).toBeGreaterThan(printed);
      // A quarter: lots of one kind differ by more.
      expectWithinShare(minutes.p50, printed, 0.25);
    }
  });
  it('what that bath says of salt: of five kinds each asks for 0.85 to 1.05 of the unsalted minutes, held as 0.88', () => {
    const factors = (
      [
        ['black-eyed-pea', 240],
        ['black-bean', 240],
        ['great-northern-bean', 270],
        ['pinto-bean', 270],
        ['chickpea', 360],
      ] as const
    ).map(([foodId, printed]) => printed / typical({ foodId, temperatureC: 90, soak: FULL_SOAK }));
    for (const factor of factors) {
      expect(factor).toBeGreaterThan(0.85);
      expect(factor).toBeLessThan(1.05);
    }
    const salt = soakAdditiveFactor('salt', 1);
    expect(salt.value).toBe(0.88);
    // Colorado State Extension, salted, 5 psi: 0.35 once come-up and release are guessed. Outside 9 times in 10.
    expect(salt.p10).toBe(0.6);
    expect(Math.max(...factors)).toBeGreaterThan(salt.value);
  });
  it('black-eyed peas: 240 min at 90 C are 71 at 100 C with z 19, in the middle of the 41.5 to 135 of thirteen lines', () => {
    const kinetics = findFood('black-eyed-pea')?.kinetics;
    if (kinetics?.kind !== 'boil') throw new Error('black-eyed peas are boiled');
    const { value, p10, p90 } = kinetics.softeningMinutes;
    expectNear(240 / timeFactor(90, 19), value, 2);
    // 4 %: the ends of thirteen lines as round percentiles.
    expectWithinShare(p10, 41.5, 0.04);
    expectWithinShare(p90, 135, 0.04);
  });
});

describe('retained heat', () => {
  const credit = (startC: number, timeConstantHours: number, minutes: number, z: number) =>
    boxCookValue({ startC, airC: 20, timeConstantHours, minutes, zBelow: z, zAbove: z, cutOffC: NO_CUT_OFF });
  const kidneyBox = {
    foodId: 'kidney-bean',
    temperatureC: 100,
    temperatureMeasured: true,
    hydrationShare: 1,
    soakedAndDrained: true,
    boxStartC: 100,
    airC: 20,
  };

  checkValue(
    18,
    'Aprovecho 2005 (Still), design principles: above 90 C for 90 min is 11.23 h from 100 C at 20 C',
    () => {
      expectNear(boxTemperatureC(100, 20, 11.23, 90), 90.0, 0.1);
    },
  );
  checkValue(
    19,
    'four hours in that box are 72.2 min at 100 C (z 19); with 10 of boil 82, soft where 75 are needed',
    () => {
      expectNear(credit(100, 11.2, 240, 19), 72.2, 0.5);
      expect(credit(100, 11.2, 240, 19) + 10).toBeGreaterThanOrEqual(75);
      // The heat-retention table says 10-15 min of boil. The lectin rule still asks for 30 before the box closes.
      const box = boilBeforeBox({ ...kidneyBox, timeConstantHours: 11.2, boxMinutes: 240 });
      expect(box.lectinBoilMinutes).toBeCloseTo(30, 6);
      expect(box.boilMinutes.p10).toBeGreaterThanOrEqual(30);
    },
  );
  checkValue(20, 'four hours in a box of 8 h: 54.0 min (z 19), numeric and by the exponential integral', () => {
    // Ei(b) - Ei(b e^(-t/tau)) by its power series: ln x + sum x^n / (n n!).
    const series = (x: number) => {
      let sum = Math.log(x);
      let term = 1;
      for (let n = 1; n < 80; n += 1) {
        term *= x / n;
        sum += term / n;
      }
      return sum;
    };
    const tau = 8 * 60;
    const b = (Math.LN10 * (100 - 20)) / 19;
    const closed = tau * 10 ** ((20 - 100) / 19) * (series(b) - series(b * Math.exp(-240 / tau)));
    expectNear(credit(100, 8, 240, 19), 54.0, 0.2);
    // A thousandth: 64 panels.
    expectWithinShare(credit(100, 8, 240, 19), closed, 0.001);
  });
  checkValue(
    21,
    'a box of 6 h gives 42.5 min whatever the wait (z 19); with 10 of boil beans of 75 are not done',
    () => {
      expectNear(credit(100, 6, 3000, 19), 42.5, 0.5);
      expect(credit(100, 6, 3000, 19) + 10).toBeLessThan(75);
      const box = boilBeforeBox({ ...kidneyBox, timeConstantHours: 6, boxMinutes: 600 });
      expect(box.boilMinutes.p50).toBeGreaterThan(33);
    },
  );
  checkValue(
    22,
    'filled at 90 C (3 000 m), four hours in a box of 8 h are 18.3 min (z 19): the box does not cook beans',
    () => {
      expectNear(credit(90, 8, 240, 19), 18.3, 0.3);
      // The boil that is left is longer than an open pot at the sea needs in all.
      const box = boilBeforeBox({
        ...kidneyBox,
        temperatureC: 90,
        boxStartC: 90,
        timeConstantHours: 8,
        boxMinutes: 240,
      });
      expect(box.boilMinutes.p50).toBeGreaterThan(180);
      expect(
        boilBeforeBox({ ...kidneyBox, temperatureC: 89, boxStartC: 89, timeConstantHours: 8, boxMinutes: 240 }).verdict,
      ).toBe('refused');
    },
  );
  checkValue(23, 'heat-retention table: white rice 5 min and 1-2 h; an hour in a box of 8 h is 44.5 min (z 35)', () => {
    expectNear(credit(100, 8, 60, 35), 44.5, 0.5);
    const answer = boilBeforeBox({
      foodId: 'white-rice',
      temperatureC: 100,
      hydrationShare: 0,
      soakedAndDrained: false,
      boxStartC: 100,
      airC: 20,
      timeConstantHours: 8,
      boxMinutes: 60,
    });
    expect(answer.verdict).toBe('ok');
    expect(answer.boilMinutes.p90).toBeLessThanOrEqual(5);
  });
  it('a history read off as points is the integral: a minute at 100 C is one, 19 K warmer ten', () => {
    const flat = (temperatureC: number) =>
      cookValue(
        [
          { minutes: 0, temperatureC },
          { minutes: 10, temperatureC },
        ],
        19,
        19,
        70,
      );
    expectNear(flat(100), 10, 1e-9);
    expectNear(flat(119), 100, 1e-9);
    expect(flat(69.9)).toBe(0);
  });
});

describe('lectin', () => {
  checkValue(
    25,
    'FDA Bad Bug Book (Kansas State Extension): soaked 5 h, poured away, boiled 30 min passes; 10 min does not',
    () => {
      const soak = { start: 'cool', hours: 5, waterC: 22, discardWater: true } as const;
      const { lectin } = answerCookTime({ foodId: 'kidney-bean', temperatureC: 100, soak });
      expect(lectin.verdict).toBe('safe');
      expect(lectin.boilMinutesNeeded).toBeGreaterThanOrEqual(30);
      expect(boilPassesLectinRule({ temperatureC: 100, minutes: 30 })).toBe(true);
      expect(boilPassesLectinRule({ temperatureC: 100, minutes: 10 })).toBe(false);
    },
  );
  checkValue(26, 'boiled 10 min before a box (heat-retention table) is refused by the rule, whatever the box', () => {
    const box = boilBeforeBox({
      foodId: 'kidney-bean',
      temperatureC: 100,
      hydrationShare: 1,
      soakedAndDrained: true,
      boxStartC: 99,
      airC: 20,
      timeConstantHours: 30,
      boxMinutes: 480,
    });
    expect(box.boilMinutes.p10).toBeGreaterThanOrEqual(30);
  });
  checkValue(
    27,
    'eight hours at 80 C count nothing (Bender and Reaidi 1982; Pusztai and Grant 1998, abstracts)',
    () => {
      expect(boilPassesLectinRule({ temperatureC: 80, minutes: 480 })).toBe(false);
      expect(lectinCreditPerMinute(80)).toBe(0);
      expect(answerCookTime({ foodId: 'kidney-bean', temperatureC: 80, soak: FULL_SOAK }).lectin.verdict).toBe(
        'refused',
      );
    },
  );
  checkValue(28, 'z 22 (Thompson 1983, recalled): 51, 61, 85 min at 95, 93.3, 90 C are worth 30 at 100 C', () => {
    expectNear(lectinMinutesAt(95), 51, 1);
    expectNear(lectinMinutesAt(93.3), 61, 1);
    expectNear(lectinMinutesAt(90), 85, 1);
  });
  checkValue(
    29,
    'FDA Bad Bug Book: 20 000-70 000 hau raw, 200-400 cooked, log10 1.70 to 2.54; the rule goes further',
    () => {
      const most = Math.log10(70000 / 200);
      const least = Math.log10(20000 / 400);
      expectNear(most, 2.54, 0.01);
      expectNear(least, 1.7, 0.01);
      // Bender and Reaidi 1982 found 10 min at 100 C complete, 20 for the slowest beans: a decimal reduction takes at most
      // 20 min over the larger loss. The rule's minutes are more than the larger loss even then.
      const slowestDecimalMinutes = 20 / most;
      expect(LECTIN_MINUTES_AT_100C / slowestDecimalMinutes).toBeGreaterThan(most);
      expect(LECTIN_MINUTES_AT_100C / (10 / most)).toBeGreaterThan(2 * most);
    },
  );
  it('16, 6 and 3.3 min at 5 and 15 psi: z 30 is the careful one above 100 C', () => {
    expectNear(lectinMinutesAt(108.4), 16, 0.5);
    expectNear(lectinMinutesAt(121), 6, 0.1);
    expect(lectinMinutesAt(121)).toBeGreaterThan(3.3);
  });
});

describe('water', () => {
  checkValue(
    30,
    'Deshpande and Cheryan 1986, ten varieties: 500 g take up 750 g, weigh 1 250 g and are 64.8 % water',
    () => {
      const kinds = ['kidney-bean', 'black-bean', 'pinto-bean', 'navy-bean', 'great-northern-bean'];
      const foods = kinds.map((id) => {
        const food = findFood(id);
        if (food === undefined) throw new Error(id);
        return food;
      });
      const mean = (of: (food: (typeof foods)[number]) => number) =>
        foods.reduce((sum, food) => sum + of(food), 0) / foods.length;
      // A tenth: other varieties.
      expectWithinShare(
        mean((food) => 500 * absorbedWhenDone(food).p50),
        750,
        0.1,
      );
      // The printed mass keeps all solids. The program loses a tenth of them to the water (Yildirim 2011: 10.2 %), so its
      // cooked mass is 4 % less than 1 250 g on average.
      const cooked = mean((food) => 500 * cookedGPerG(food));
      expectWithinShare(cooked, 1250, 0.1);
      const water = mean(
        (food) => (500 * (food.waterGPer100G.value / 100 + absorbedWhenDone(food).p50)) / (500 * cookedGPerG(food)),
      );
      expectWithinShare(100 * water, 64.8, 0.05);
    },
  );
  checkValue(32, 'latent heat 2257 kJ/kg: a surplus of 500 W boils off 0.80 kg an hour', () => {
    expectNear(steamKg(0.5, 60, 100), 0.8, 0.01);
  });
});

everyCheckValueIsSettled();
