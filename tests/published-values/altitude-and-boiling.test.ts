/**
 * Air pressure, boiling point, pressure cookers and heat properties against values as published. Typed as printed;
 * each tolerance is the rounding of the print unless a reason stands beside it.
 */
import { describe, expect, it } from 'vitest';
import { answerBoilingPoint } from '../../api/cooking/answer-boiling-point.ts';
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
import {
  flashShare,
  latentHeatKJPerKg,
  steamKg,
  waterDensityKgPerM3,
  waterHeatKJ,
} from '../../api/physics/water-properties.ts';

const boilsAtFeetF = (feet: number): number => celsiusToFahrenheit(boilingPointAtElevationC(feetToMetres(feet)));
const cookerAtFeetF = (feet: number, gaugePsi: number): number =>
  celsiusToFahrenheit(cookerTemperatureC(airPressureKPa(feetToMetres(feet)), psiToKPa(gaugePsi)));

describe('U.S. Standard Atmosphere 1976', () => {
  it.each([
    [0, 101.325],
    [500, 95.461],
    [1000, 89.875],
    [1500, 84.556],
    [2000, 79.495],
    [2500, 74.682],
    [3000, 70.109],
    [4000, 61.64],
    [5000, 54.02],
  ])('pressure at %d m is %d kPa', (elevationM, printed) => {
    expect(Math.abs(airPressureKPa(elevationM) - printed)).toBeLessThan(0.001);
  });

  it('pressure at 10 000 ft is 69.682 kPa or 10.106 psi', () => {
    const kPa = airPressureKPa(feetToMetres(10000));
    expect(Math.abs(kPa - 69.682)).toBeLessThan(0.002);
    expect(Math.abs(kPaToPsi(kPa) - 10.106)).toBeLessThan(0.001);
  });

  it('agrees with the table printed by CSU Extension (10.2 psi at 10 000 ft, one digit)', () => {
    expect(Math.abs(kPaToPsi(airPressureKPa(feetToMetres(10000))) - 10.2)).toBeLessThan(0.1);
  });
});

describe('IAPWS R7-97(2012), region 4', () => {
  it.each([
    [0.1, 0.372755919e3],
    [1, 0.453035632e3],
    [10, 0.584149488e3],
  ])('table 36: %d MPa saturates at %d K', (pressure, printed) => {
    expect(Math.abs(saturationTemperatureK(pressure) - printed)).toBeLessThan(1e-6);
  });

  it.each([
    [300, 0.353658941e-2],
    [500, 0.263889776e1],
    [600, 0.123443146e2],
  ])('table 35: %d K saturates at %d MPa', (temperature, printed) => {
    // Nine digits are printed.
    expect(Math.abs(saturationPressureMPa(temperature) / printed - 1)).toBeLessThan(5e-9);
  });

  it('refuses what lies beyond each limit of the line', () => {
    expect(() => saturationTemperatureK(22.1)).toThrow();
    expect(() => saturationTemperatureK(0.0006)).toThrow();
    expect(() => saturationPressureMPa(273.1)).toThrow();
    expect(() => saturationPressureMPa(648)).toThrow();
  });
});

describe('IAPWS-95 (evaluated)', () => {
  it('water boils at 99.974 C at 101.325 kPa and at 100.000 C at 101.418 kPa', () => {
    expect(Math.abs(boilingPointC(101.325) - 99.974)).toBeLessThan(0.002);
    expect(Math.abs(boilingPointC(101.418) - 100)).toBeLessThan(0.002);
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
    expect(Math.abs(boilingPointC(kPa) - temperatureC)).toBeLessThan(0.003);
  });

  it.each([
    [80, 2308.0],
    [90, 2282.5],
    [95, 2269.5],
    [100, 2256.4],
    [110, 2229.7],
    [120, 2202.1],
    [125, 2188.0],
  ])('latent heat at %d C is %d kJ/kg', (temperatureC, printed) => {
    // 0.06 is the error of the fit, 0.05 the rounding.
    expect(Math.abs(latentHeatKJPerKg(temperatureC) - printed)).toBeLessThan(0.11);
  });

  it.each([
    [0, 999.84],
    [10, 999.7],
    [20, 998.21],
    [40, 992.22],
    [60, 983.2],
    [80, 971.79],
    [90, 965.31],
    [99.9, 958.42],
  ])('density at %d C is %d kg/m3', (temperatureC, printed) => {
    // The fit lies within 0.016 of IAPWS-95; 0.03 at the upper end with rounding.
    expect(Math.abs(waterDensityKgPerM3(temperatureC) - printed)).toBeLessThan(0.03);
  });

  it.each([
    [0, 335.1],
    [1500, 314.0],
    [3000, 292.9],
  ])('a litre from 20 C to the boil at %d m takes %d kJ', (elevationM, printed) => {
    // Constant 4.19 kJ/(kg K) is good to 0.2 %.
    expect(Math.abs(waterHeatKJ(1, 20, boilingPointAtElevationC(elevationM)) - printed)).toBeLessThan(0.6);
  });
});

describe('boiling points in print', () => {
  it.each([
    [0, 99.97],
    [1000, 96.65],
    [1500, 94.98],
    [2000, 93.32],
    [2500, 91.64],
    [3000, 89.97],
    [4000, 86.62],
    [5000, 83.26],
  ])('at %d m water boils at %d C', (elevationM, printed) => {
    expect(Math.abs(boilingPointAtElevationC(elevationM) - printed)).toBeLessThan(0.006);
  });

  it.each([
    [0, 212],
    [2000, 208],
    [5000, 203],
    [7500, 198],
    // Publishers differ at 10 000 ft: 193 and 194.
    [10000, 193.5],
  ])('CSU Extension table 1: at %d ft water boils at %d F', (feet, printed) => {
    // Printed to a whole degree, and by different publishers a degree apart.
    expect(Math.abs(boilsAtFeetF(feet) - printed)).toBeLessThan(1);
  });

  it.each([
    [29.211, 210.8],
    [28.559, 210.2],
    [27.972, 208.4],
    [24.697, 202.5],
    [23.726, 200.6],
    [23.369, 200.1],
  ])('Hooker in the Himalaya: %d inHg, %d F observed', (inHg, observed) => {
    // Field thermometers of 1850: within 0.6 F.
    expect(Math.abs(celsiusToFahrenheit(boilingPointC(inHgToKPa(inHg))) - observed)).toBeLessThan(0.65);
  });

  it('one degree per 300 m, the rule to print, holds within 0.1 C at the heights people live', () => {
    for (const m of [1500, 3000, 5000]) expect(Math.abs(100 - m / 300 - boilingPointAtElevationC(m))).toBeLessThan(0.1);
  });
});

describe('barometers', () => {
  it.each([
    [1013.25, 1500, 845.6, 94.98],
    [1030, 1500, 860.0, 95.44],
    [990, 1500, 825.5, 94.33],
  ])('Smithsonian Tables 1951 p. 269: %d hPa at sea level, %d m', (seaLevelHPa, elevationM, stationHPa, boilsC) => {
    const kPa = stationPressureKPa(hPaToKPa(seaLevelHPa), elevationM);
    // The printed form differs by 0.2 hPa, which is 0.01 C.
    expect(Math.abs(kPa * 10 - stationHPa)).toBeLessThan(0.5);
    expect(Math.abs(boilingPointC(kPa) - boilsC)).toBeLessThan(0.03);
  });

  it.each([
    [980, 99.04],
    [1000, 99.61],
    [1030, 100.43],
    [1040, 100.71],
  ])('weather at sea level: %d hPa boils at %d C', (hPa, printed) => {
    expect(Math.abs(boilingPointC(hPaToKPa(hPa)) - printed)).toBeLessThan(0.006);
  });

  it('warns of a reading that was reduced to sea level, of one corrected twice, and accepts weather', () => {
    expect(judgeStationReading(101.3, 1500)).toBe('looks-reduced-to-sea-level');
    expect(judgeStationReading(70.56, 1500)).toBe('looks-corrected-twice');
    expect(judgeStationReading(97.7, 305)).toBe('plausible');
  });
});

describe('salt', () => {
  it.each([
    [5, 0.08],
    [10, 0.16],
    [20, 0.33],
    [35, 0.57],
  ])('%d g sodium chloride per kg raise the boiling point by %d K (osmotic coefficient 0.93)', (grams, printed) => {
    expect(Math.abs(boilingPointRiseK(grams) - printed)).toBeLessThan(0.006);
  });
});

describe('pressure cookers', () => {
  it.each([
    [15, 0, 121.0],
    [15, 1500, 118.3],
    [15, 3000, 115.8],
    [10, 0, 115.2],
    [10, 3000, 109.1],
  ])('%d psi at %d m is %d C', (psi, elevationM, printed) => {
    // Table values were made with pressures rounded to a kPa or two.
    expect(Math.abs(cookerTemperatureC(airPressureKPa(elevationM), psiToKPa(psi)) - printed)).toBeLessThan(0.1);
  });

  it.each([
    [35, 0, 108.5],
    [35, 1500, 104.7],
    [55, 3000, 106.0],
    [80, 0, 117.1],
    [98, 1500, 117.4],
    [150, 3000, 123.3],
  ])('%d kPa gauge at %d m is %d C', (gaugeKPa, elevationM, printed) => {
    expect(Math.abs(cookerTemperatureC(airPressureKPa(elevationM), gaugeKPa) - printed)).toBeLessThan(0.06);
  });

  it('OpenStax College Physics table 13.5: 120 C needs 98 kPa gauge at sea level', () => {
    expect(Math.abs(gaugeForTemperatureKPa(120, 101.325) - 97.3)).toBeLessThan(0.1);
    expect(Math.abs(gaugeForTemperatureKPa(120, 101.325) - 98)).toBeLessThan(1);
  });

  it.each([
    [0, 10.29],
    [5000, 12.76],
    [6000, 13.21],
    [8000, 14.07],
    [10000, 14.88],
  ])('240 F at %d ft needs %d psi', (feet, printed) => {
    const kPa = gaugeForTemperatureKPa(fahrenheitToCelsius(240), airPressureKPa(feetToMetres(feet)));
    expect(Math.abs(kPaToPsi(kPa) - printed)).toBeLessThan(0.01);
  });

  it('University of Wyoming: 10 psi at sea level equal 13 psi at 6000 ft', () => {
    const sea = cookerTemperatureC(101.325, psiToKPa(10));
    const psi = kPaToPsi(gaugeForTemperatureKPa(sea, airPressureKPa(feetToMetres(6000))));
    expect(Math.abs(psi - 12.92)).toBeLessThan(0.02);
    expect(Math.abs(psi - 13)).toBeLessThan(0.1);
  });

  it.each([
    [1000, 11, 240.4],
    [2000, 11, 239.3],
    [4000, 12, 239.3],
    [6000, 13, 239.5],
    [8000, 14, 239.8],
    [10000, 15, 240.3],
  ])('PNW 421 dial table: top of its band %d ft at %d psi is %d F', (feet, psi, printed) => {
    expect(Math.abs(cookerAtFeetF(feet, psi) - printed)).toBeLessThan(0.06);
  });

  it.each([
    [0.05, 119.3],
    [0.1, 117.6],
    [0.2, 114.0],
  ])('trapped air of %d by volume leaves %d C at 204.7 kPa', (share, printed) => {
    expect(Math.abs(cookerTemperatureWithAirC(204.7, share) - printed)).toBeLessThan(0.06);
  });

  it('a quick release from 121 C flashes 39 g per kg, and 4.8 % at 3000 m', () => {
    expect(Math.abs(flashShare(121, 100) * 1000 - 39)).toBeLessThan(1);
    expect(Math.abs(flashShare(115.8, 90) - 0.048)).toBeLessThan(0.001);
  });

  it('a surplus of 1 kW makes 26.6 g steam a minute at 100 C and 27.3 g at 121 C', () => {
    expect(Math.abs(steamKg(1, 1, 100) * 1000 - 26.6)).toBeLessThan(0.06);
    expect(Math.abs(steamKg(1, 1, 121) * 1000 - 27.3)).toBeLessThan(0.06);
  });
});

describe('specific heat of foods', () => {
  it('Choi and Okos 1986: 60 % water and 40 % carbohydrate at 50 C give 3.164 kJ/(kg K)', () => {
    const value = specificHeatChoiOkos({ water: 0.6, protein: 0, fat: 0, carbohydrate: 0.4 }, 50);
    expect(Math.abs(value - 3.164)).toBeLessThan(0.001);
  });

  it.each([
    ['water', { water: 1, protein: 0, fat: 0, carbohydrate: 0 }, 4.1773],
    ['protein', { water: 0, protein: 1, fat: 0, carbohydrate: 0 }, 2.0376],
    ['fat', { water: 0, protein: 0, fat: 1, carbohydrate: 0 }, 2.018],
    ['carbohydrate', { water: 0, protein: 0, fat: 0, carbohydrate: 1 }, 1.5942],
    ['fibre', { water: 0, protein: 0, fat: 0, carbohydrate: 0, fibre: 1 }, 1.8888],
    ['ash', { water: 0, protein: 0, fat: 0, carbohydrate: 0, ash: 1 }, 1.1375],
  ])('Choi and Okos 1986: %s at 25 C', (_name, composition, printed) => {
    expect(Math.abs(specificHeatChoiOkos(composition, 25) - printed)).toBeLessThan(0.0001);
  });

  it('Heldman 1975 macaroni is 1.79, within 6 % of the 1.84-1.88 in Geankoplis table A.4-1', () => {
    const value = specificHeatHeldman({
      water: 0.13,
      protein: 0.126,
      fat: 0.0146,
      carbohydrate: 0.721,
      ash: 0.0085,
    });
    expect(Math.abs(value - 1.79)).toBeLessThan(0.01);
    expect(Math.abs(value / 1.86 - 1)).toBeLessThan(0.06);
  });

  it('1.6 kg water, 0.4 kg dry pinto beans (2.06) and a 1.1 kg aluminium pot take 638 kJ from 20 to 95 C', () => {
    const heat = waterHeatKJ(1.6, 20, 95) + (0.4 * 2.06 + 1.1 * 0.9) * 75;
    expect(Math.abs(heat - 638)).toBeLessThan(2);
  });
});

describe('what the household reads', () => {
  it('water boils at 99.97 C at sea level and at 89.97 C at 3000 m', () => {
    expect(answerBoilingPoint({ elevationM: 0 }).boilingPointC).toBeCloseTo(99.97, 2);
    expect(answerBoilingPoint({ elevationM: 3000 }).boilingPointC).toBeCloseTo(89.97, 2);
  });
});
