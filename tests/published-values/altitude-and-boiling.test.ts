/**
 * Air pressure, boiling point, pressure cookers and heat properties against values as published. Typed as printed;
 * each tolerance is the rounding of the print unless a reason stands beside it.
 */
import psychrolib from 'psychrolib';
import { describe, expect, it } from 'vitest';
import { answerBoilingPoint } from '../../api/cooking/calculators/answer-boiling-point.ts';
import { findFood } from '../../api/cooking/foods/foods-table.ts';
import { timeFactor, zFromActivation } from '../../api/cooking/kinetics/softening-kinetics.ts';
import { airPressureKPa, judgeStationReading, stationPressureKPa } from '../../api/physics/atmosphere.ts';
import {
  boilingPointAtElevationC,
  boilingPointC,
  boilingPointRiseK,
  saturationPressureMPa,
  saturationTemperatureK,
} from '../../api/physics/boiling-point.ts';
import { specificHeatChoiOkos, specificHeatHeldman } from '../../api/physics/food-heat-capacity.ts';
import {
  cookerTemperatureC,
  cookerTemperatureWithAirC,
  gaugeForTemperatureKPa,
} from '../../api/physics/pressure-cooker.ts';
import {
  celsiusToFahrenheit,
  fahrenheitToCelsius,
  feetToMetres,
  hPaToKPa,
  inHgToKPa,
  kPaToPsi,
  psiToKPa,
} from '../../api/physics/units.ts';
import { VESSEL_MATERIALS } from '../../api/physics/vessel-materials-table.ts';
import {
  flashShare,
  latentHeatKJPerKg,
  steamKg,
  waterDensityKgPerM3,
  waterHeatKJ,
} from '../../api/physics/water-properties.ts';
import { checkValuesOf, expectNear, expectWithinShare } from './check-values.ts';

const { checkValue, everyCheckValueIsSettled } = checkValuesOf('altitude-and-boiling');

const boilsAtFeetF = (feet: number): number => celsiusToFahrenheit(boilingPointAtElevationC(feetToMetres(feet)));
const cookerAtFeetF = (feet: number, gaugePsi: number): number =>
  celsiusToFahrenheit(cookerTemperatureC(airPressureKPa(feetToMetres(feet)), psiToKPa(gaugePsi)));

describe('U.S. Standard Atmosphere 1976 (constants as printed; pressures evaluated)', () => {
  for (const [elevationM, printed] of [
    [0, 101.325],
    [500, 95.461],
    [1000, 89.875],
    [1500, 84.556],
    [2000, 79.495],
    [2500, 74.682],
    [3000, 70.109],
    [4000, 61.64],
    [5000, 54.02],
  ] as const)
    checkValue(1, `${elevationM} m: ${printed} kPa`, () => {
      expectNear(airPressureKPa(elevationM), printed, 0.001);
    });

  checkValue(
    2,
    '10 000 ft: 69.682 kPa or 10.106 psi; CSU Extension (High Altitude Food Preparation) prints 10.2',
    () => {
      const kPa = airPressureKPa(feetToMetres(10000));
      expectNear(kPa, 69.682, 0.002);
      expectNear(kPaToPsi(kPa), 10.106, 0.001);
      // One digit is printed, and rounded up: 0.094 psi or 0.9 %, worth 0.25 C. The formula stays, for it is the standard.
      expectNear(kPaToPsi(kPa), 10.2, 0.1);
    },
  );
});

describe('IAPWS R7-97(2012), region 4', () => {
  for (const [pressure, printed] of [
    [0.1, 0.372755919e3],
    [1, 0.453035632e3],
    [10, 0.584149488e3],
  ] as const)
    checkValue(3, `table 36: ${pressure} MPa saturates at ${printed} K`, () => {
      expectNear(saturationTemperatureK(pressure), printed, 1e-6);
    });

  for (const [temperature, printed] of [
    [300, 0.353658941e-2],
    [500, 0.263889776e1],
    [600, 0.123443146e2],
  ] as const)
    checkValue(4, `table 35: ${temperature} K saturates at ${printed} MPa`, () => {
      // Nine digits are printed.
      expectWithinShare(saturationPressureMPa(temperature), printed, 5e-9);
    });

  it('refuses what lies beyond each limit of the line', () => {
    expect(() => saturationTemperatureK(22.1)).toThrow();
    expect(() => saturationTemperatureK(0.0006)).toThrow();
    expect(() => saturationPressureMPa(273.1)).toThrow();
    expect(() => saturationPressureMPa(648)).toThrow();
  });
});

describe('IAPWS-95 (evaluated)', () => {
  checkValue(5, 'water boils at 99.974 C at 101.325 kPa and at 100.000 C at 101.418 kPa', () => {
    expectNear(boilingPointC(101.325), 99.974, 0.002);
    expectNear(boilingPointC(101.418), 100, 0.002);
  });

  it.each([
    [60, 19.946],
    [70, 31.201],
    [80, 47.415],
    [90, 70.182],
    [95, 84.609],
    [110, 143.379],
    [120, 198.674],
    [125, 232.238],
  ])('saturation at %d C is %d kPa', (temperatureC, kPa) => {
    // The backward equation is 0.002 K from IAPWS-95 at 125 C.
    expectNear(boilingPointC(kPa), temperatureC, 0.003);
  });

  for (const [temperatureC, printed] of [
    [80, 2308.0],
    [90, 2282.5],
    [95, 2269.5],
    [100, 2256.4],
    [110, 2229.7],
    [120, 2202.1],
    [125, 2188.0],
  ] as const)
    checkValue(19, `latent heat at ${temperatureC} C is ${printed} kJ/kg`, () => {
      // 0.06 is the error of the fit, 0.05 the rounding.
      expectNear(latentHeatKJPerKg(temperatureC), printed, 0.11);
    });

  for (const [temperatureC, printed] of [
    [0, 999.84],
    [10, 999.7],
    [20, 998.21],
    [40, 992.22],
    [60, 983.2],
    [80, 971.79],
    [90, 965.31],
    [99.9, 958.42],
  ] as const)
    checkValue(21, `density at ${temperatureC} C is ${printed} kg/m3`, () => {
      // The fit (Kell 1975) lies within 0.016 of IAPWS-95; 0.03 at the upper end with rounding.
      expectNear(waterDensityKgPerM3(temperatureC), printed, 0.03);
    });

  for (const [elevationM, printed] of [
    [0, 335.1],
    [1500, 314.0],
    [3000, 292.9],
  ] as const)
    checkValue(20, `a litre from 20 C to the boil at ${elevationM} m takes ${printed} kJ`, () => {
      // Constant 4.19 kJ/(kg K) is good to 0.2 %.
      expectNear(waterHeatKJ(1, 20, boilingPointAtElevationC(elevationM)), printed, 0.6);
    });
});

describe('boiling points in print', () => {
  for (const [elevationM, printed] of [
    [0, 99.97],
    [1000, 96.65],
    [1500, 94.98],
    [2000, 93.32],
    [2500, 91.64],
    [3000, 89.97],
    [4000, 86.62],
    [5000, 83.26],
  ] as const)
    checkValue(6, `standard atmosphere and IAPWS-IF97: at ${elevationM} m water boils at ${printed} C`, () => {
      expectNear(boilingPointAtElevationC(elevationM), printed, 0.006);
    });

  for (const [feet, printed] of [
    [0, 212],
    [2000, 208],
    [5000, 203],
    [7500, 198],
    // Publishers differ at 10 000 ft: 193 and 194.
    [10000, 193.5],
  ] as const)
    checkValue(7, `CSU Extension, High Altitude Food Preparation, table 1: at ${feet} ft ${printed} F`, () => {
      // Printed to a whole degree, and by different publishers a degree apart.
      expectNear(boilsAtFeetF(feet), printed, 1);
    });

  checkValue(8, 'psychrolib 1.1.1 (ASHRAE formulation), 0 to 5 000 m: both boiling points within 0.002 C', () => {
    psychrolib.SetUnitSystem(psychrolib.SI);
    for (let elevationM = 0; elevationM <= 5000; elevationM += 500) {
      const pascal = psychrolib.GetStandardAtmPressure(elevationM);
      // It has no inverse: its saturation pressure is held against its air pressure 0.002 C to either side of ours.
      const ours = boilingPointAtElevationC(elevationM);
      expect(psychrolib.GetSatVapPres(ours - 0.002), `${elevationM} m`).toBeLessThan(pascal);
      expect(psychrolib.GetSatVapPres(ours + 0.002), `${elevationM} m`).toBeGreaterThan(pascal);
    }
  });

  for (const [inHg, observed] of [
    [29.211, 210.8],
    [28.559, 210.2],
    [27.972, 208.4],
    [24.697, 202.5],
    [23.726, 200.6],
    [23.369, 200.1],
  ] as const)
    checkValue(
      12,
      `Hooker in the Himalaya, 1850s (Weisberg, data set hooker): ${inHg} inHg, ${observed} F observed`,
      () => {
        const computed = celsiusToFahrenheit(boilingPointC(inHgToKPa(inHg)));
        // Field thermometers: within 0.6 F; the row that is typed as a check within 0.3.
        expectNear(computed, observed, inHg === 24.697 ? 0.3 : 0.65);
        if (inHg === 24.697) expectNear(computed, 202.4, 0.06);
      },
    );

  it('one degree per 300 m, the rule to print, holds within 0.1 C at the heights people live', () => {
    for (const m of [1500, 3000, 5000]) expectNear(100 - m / 300, boilingPointAtElevationC(m), 0.1);
  });

  checkValue(31, 'over 0 to 5 000 m pressure and boiling point fall, and the time of every boiled food rises', () => {
    let previous = { kPa: Number.POSITIVE_INFINITY, boilsC: Number.POSITIVE_INFINITY, factor: 0 };
    for (let elevationM = 0; elevationM <= 5000; elevationM += 50) {
      const boilsC = boilingPointAtElevationC(elevationM);
      const next = { kPa: airPressureKPa(elevationM), boilsC, factor: timeFactor(boilsC, 19) };
      expect(next.kPa).toBeLessThan(previous.kPa);
      expect(next.boilsC).toBeLessThan(previous.boilsC);
      expect(next.factor).toBeGreaterThan(previous.factor);
      previous = next;
    }
  });
});

describe('barometers', () => {
  for (const [number, seaLevelHPa, elevationM, stationHPa, boilsC] of [
    [9, 1013.25, 1500, 845.6, 94.98],
    [10, 1030, 1500, 860.0, 95.44],
    [10, 990, 1500, 825.5, 94.33],
  ] as const)
    checkValue(number, `Smithsonian Tables 1951 p. 269: ${seaLevelHPa} hPa at sea level, ${elevationM} m`, () => {
      const kPa = stationPressureKPa(hPaToKPa(seaLevelHPa), elevationM);
      // The printed form differs by 0.2 hPa, which is 0.01 C.
      expectNear(kPa * 10, stationHPa, 0.5);
      expectNear(boilingPointC(kPa), boilsC, 0.03);
    });

  it.each([
    [980, 99.04],
    [1000, 99.61],
    [1030, 100.43],
    [1040, 100.71],
  ])('weather at sea level: %d hPa boils at %d C', (hPa, printed) => {
    expectNear(boilingPointC(hPaToKPa(hPa)), printed, 0.006);
  });

  checkValue(11, 'at 1 500 m 1013 hPa looks reduced, 705.6 hPa corrected twice; 977 hPa at 305 m is plausible', () => {
    // Definitions of the three readings: NWS; the thresholds (4 % above, 6 % below) are the program's own.
    expect(judgeStationReading(hPaToKPa(1013), 1500)).toBe('looks-reduced-to-sea-level');
    expect(judgeStationReading(hPaToKPa(705.6), 1500)).toBe('looks-corrected-twice');
    expect(judgeStationReading(hPaToKPa(977), 305)).toBe('plausible');
  });
});

describe('salt', () => {
  for (const [grams, printed] of [
    [5, 0.08],
    [10, 0.16],
    [20, 0.33],
    [35, 0.57],
  ] as const)
    checkValue(13, `${grams} g sodium chloride per kg raise it by ${printed} K (0.513 K kg/mol, osmotic 0.93)`, () => {
      expectNear(boilingPointRiseK(grams), printed, 0.006);
    });
});

describe('pressure cookers', () => {
  for (const [psi, elevationM, printed] of [
    [15, 0, 121.0],
    [15, 1500, 118.3],
    [15, 3000, 115.8],
    [10, 0, 115.2],
    [10, 3000, 109.1],
  ] as const)
    checkValue(14, `IAPWS-IF97 at ambient and gauge: ${psi} psi at ${elevationM} m is ${printed} C`, () => {
      // Table values were made with pressures rounded to a kPa or two.
      expectNear(cookerTemperatureC(airPressureKPa(elevationM), psiToKPa(psi)), printed, 0.1);
    });

  it.each([
    [35, 0, 108.5],
    [35, 1500, 104.7],
    [55, 3000, 106.0],
    [80, 0, 117.1],
    [98, 1500, 117.4],
    [150, 3000, 123.3],
  ])('%d kPa gauge at %d m is %d C', (gaugeKPa, elevationM, printed) => {
    expectNear(cookerTemperatureC(airPressureKPa(elevationM), gaugeKPa), printed, 0.06);
  });

  checkValue(15, 'OpenStax College Physics 2012, table 13.5: 1.99e5 Pa at 120 C, 98 kPa gauge at sea level', () => {
    expectNear(gaugeForTemperatureKPa(120, 101.325), 97.3, 0.1);
    // Three digits are printed: 0.7 kPa.
    expectNear(gaugeForTemperatureKPa(120, 101.325), 98, 1);
  });

  for (const [feet, printed] of [
    [0, 10.29],
    [5000, 12.76],
    [6000, 13.21],
    [8000, 14.07],
    [10000, 14.88],
  ] as const)
    checkValue(16, `240 F at ${feet} ft needs ${printed} psi (IAPWS-IF97)`, () => {
      const kPa = gaugeForTemperatureKPa(fahrenheitToCelsius(240), airPressureKPa(feetToMetres(feet)));
      expectNear(kPaToPsi(kPa), printed, 0.01);
    });

  checkValue(
    17,
    'University of Wyoming Extension, altitude adjusters: 10 psi at sea level equal 13 psi at 6000 ft',
    () => {
      const sea = cookerTemperatureC(101.325, psiToKPa(10));
      const psi = kPaToPsi(gaugeForTemperatureKPa(sea, airPressureKPa(feetToMetres(6000))));
      expectNear(psi, 12.92, 0.02);
      // A rule of one psi per 2000 ft.
      expectNear(psi, 13, 0.1);
    },
  );

  for (const [feet, psi, printed] of [
    [1000, 11, 240.4],
    [2000, 11, 239.3],
    [4000, 12, 239.3],
    [6000, 13, 239.5],
    [8000, 14, 239.8],
    [10000, 15, 240.3],
  ] as const)
    checkValue(18, `PNW 421, dial column: top of its band, ${feet} ft at ${psi} psi, is ${printed} F`, () => {
      expectNear(cookerAtFeetF(feet, psi), printed, 0.06);
    });

  it.each([
    [0.05, 119.3],
    [0.1, 117.6],
    [0.2, 114.0],
  ])('trapped air of %d by volume leaves %d C at 204.7 kPa', (share, printed) => {
    expectNear(cookerTemperatureWithAirC(204.7, share), printed, 0.06);
  });

  checkValue(30, 'a quick release from 121 C flashes 39 g per kg (IAPWS-95 enthalpies), and 4.8 % at 3 000 m', () => {
    // 1 g: one specific heat for the whole step.
    expectNear(flashShare(121, 100) * 1000, 39, 1);
    expectNear(flashShare(115.8, 90), 0.048, 0.001);
  });

  checkValue(29, 'a surplus of 1 kW makes 26.6 g steam a minute at 100 C and 27.3 g at 121 C (IAPWS-95)', () => {
    expectNear(steamKg(1, 1, 100) * 1000, 26.6, 0.06);
    expectNear(steamKg(1, 1, 121) * 1000, 27.3, 0.06);
  });
});

describe('specific heat of foods', () => {
  checkValue(22, 'Choi and Okos 1986: 60 % water and 40 % carbohydrate at 50 C give 3.164 kJ/(kg K)', () => {
    const value = specificHeatChoiOkos({ water: 0.6, protein: 0, fat: 0, carbohydrate: 0.4 }, 50);
    expectNear(value, 3.164, 0.001);
  });

  it.each([
    ['water', { water: 1, protein: 0, fat: 0, carbohydrate: 0 }, 4.1773],
    ['protein', { water: 0, protein: 1, fat: 0, carbohydrate: 0 }, 2.0376],
    ['fat', { water: 0, protein: 0, fat: 1, carbohydrate: 0 }, 2.018],
    ['carbohydrate', { water: 0, protein: 0, fat: 0, carbohydrate: 1 }, 1.5942],
    ['fibre', { water: 0, protein: 0, fat: 0, carbohydrate: 0, fibre: 1 }, 1.8888],
    ['ash', { water: 0, protein: 0, fat: 0, carbohydrate: 0, ash: 1 }, 1.1375],
  ])('Choi and Okos 1986: %s at 25 C', (_name, composition, printed) => {
    expectNear(specificHeatChoiOkos(composition, 25), printed, 0.0001);
  });

  checkValue(23, 'Heldman 1975: macaroni 1.79, within 6 % of the 1.84-1.88 of Geankoplis, 4th ed., table A.4-1', () => {
    const value = specificHeatHeldman({ water: 0.13, protein: 0.126, fat: 0.0146, carbohydrate: 0.721, ash: 0.0085 });
    expectNear(value, 1.79, 0.01);
    expectWithinShare(value, 1.86, 0.06);
    // The shipped row follows the measurement, not the sum over components: pasta at 9.9 % water is 1.73.
    expectWithinShare(findFood('pasta')?.specificHeatKJPerKgK.value ?? 0, 1.86, 0.08);
  });

  checkValue(
    24,
    '1.6 kg water, 0.4 kg dry pinto beans (2.06) and a 1.1 kg aluminium pot take 638 kJ from 20 to 95 C',
    () => {
      // 2 kJ: the metal is 0.90 in the printed sum and 0.897 in the table (Mechanical Engineer's Data Handbook p. 110).
      const potKJPerK = 1.1 * VESSEL_MATERIALS.aluminium.specificHeatKJPerKgK.value;
      const heat = waterHeatKJ(1.6, 20, 95) + (0.4 * 2.06 + potKJPerK) * 75;
      expectNear(heat, 638, 2);
      // 2.06 is Choi and Okos for dry seed; the shipped row follows the peas that were measured at 1.84: 9 kJ less, 1.4 %.
      const shipped =
        waterHeatKJ(1.6, 20, 95) + (0.4 * (findFood('pinto-bean')?.specificHeatKJPerKgK.value ?? 0) + potKJPerK) * 75;
      expectWithinShare(shipped, 638, 0.015);
    },
  );
});

describe('altitude and cooking time', () => {
  checkValue(25, 'Quast and da Silva 1977, z 19: beans take 1.83 times as long at 1 500 m and 3.36 at 3 000 m', () => {
    const sea = timeFactor(boilingPointAtElevationC(0), 19);
    // 0.03: two digits, and a sea level of 99.97 or 100 C.
    expectNear(timeFactor(boilingPointAtElevationC(1500), 19) / sea, 1.83, 0.03);
    expectNear(timeFactor(boilingPointAtElevationC(3000), 19) / sea, 3.36, 0.03);
    const kinetics = findFood('pinto-bean')?.kinetics;
    expect(kinetics?.kind === 'boil' && kinetics.zBelowC.value).toBe(19);
  });

  checkValue(26, 'rice at 5 000 ft: 1.37 from 17 kcal/mol = 71.13 kJ/mol; 15 and 18 min become 20.6 and 24.7', () => {
    const boilsC = boilingPointAtElevationC(feetToMetres(5000));
    const sea = boilingPointAtElevationC(0);
    const z = zFromActivation(71.13, boilsC, sea);
    const published = timeFactor(boilsC, z) / timeFactor(sea, z);
    expectNear(published, 1.37, 0.02);
    expectNear(15 * published, 20.6, 0.3);
    expectNear(18 * published, 24.7, 0.3);
    // The table holds one z for grains, 35, between the 37 of this energy and the 33 of a doubling per 10 K. Measured
    // gap: 1.40 against 1.37, half a minute on 18; it errs towards enough fuel. Kitchens print about 20, up to 23.
    const kinetics = findFood('white-rice')?.kinetics;
    if (kinetics?.kind !== 'boil') throw new Error('rice is boiled');
    const shipped = timeFactor(boilsC, kinetics.zBelowC.value) / timeFactor(sea, kinetics.zBelowC.value);
    expectNear(shipped, 1.395, 0.005);
    expect(15 * shipped).toBeLessThan(23);
  });

  checkValue(
    27,
    'vegetables at 1 500 m: 1.42 from 80 kJ/mol, inside 1.20 to 1.67 (Wyoming Extension, 4-11 % per 1000 ft)',
    () => {
      const boilsC = boilingPointAtElevationC(1500);
      const sea = boilingPointAtElevationC(0);
      const z = zFromActivation(80, boilsC, sea);
      const published = timeFactor(boilsC, z) / timeFactor(sea, z);
      expectNear(published, 1.42, 0.006);
      const kinetics = findFood('potato-diced')?.kinetics;
      if (kinetics?.kind !== 'boil') throw new Error('potatoes are boiled');
      const shipped = timeFactor(boilsC, kinetics.zBelowC.value) / timeFactor(sea, kinetics.zBelowC.value);
      for (const factor of [published, shipped]) {
        expect(factor).toBeGreaterThan(1.2);
        expect(factor).toBeLessThan(1.67);
      }
    },
  );
});

describe('what the household reads', () => {
  checkValue([5, 6], 'water boils at 99.97 C at sea level and at 89.97 C at 3 000 m', () => {
    expectNear(answerBoilingPoint({ elevationM: 0 }).boilingPointC, 99.97, 0.006);
    expectNear(answerBoilingPoint({ elevationM: 3000 }).boilingPointC, 89.97, 0.006);
  });
});

everyCheckValueIsSettled();
