/** Boiling points of water, open and under pressure, as printed. */
import { fahrenheitToCelsius, feetToMetres, inHgToKPa, psiToKPa } from '../../api/physics/units.ts';
import { type PublishedPoint, value } from './published-point.ts';

const CSU = 'Colorado State Univ. Extension, High Altitude Food Preparation, table 1';
const COOKBOOK = 'table of a standard cookbook, altitude and boiling point (goodcooking.com)';
const USU = 'Utah State Univ. Extension 2013, altitude sheet for pressure cookers';
const HOOKER = 'Hooker, Himalaya, data set hooker in Weisberg, Applied Linear Regression 2005';
const STEAM = 'IAPWS R6-95(2018), evaluated, saturation line';
const PNW = 'PNW 421, Using and Caring for Your Pressure Canner, dial gauge table, 240 F';

const openFeet: readonly (readonly [number, number, string])[] = [
  [0, 212, CSU],
  [2000, 208, CSU],
  [5000, 203, CSU],
  [7500, 198, CSU],
  [10000, 193, CSU],
  [0, 212, COOKBOOK],
  [2000, 208, COOKBOOK],
  [5000, 203, COOKBOOK],
  [7500, 198, COOKBOOK],
  [10000, 194, COOKBOOK],
];

const openCelsius: readonly (readonly [number, number])[] = [
  [2900, 97],
  [4600, 95],
  [5600, 94],
  [7700, 92],
];

const hooker: readonly (readonly [number, number])[] = [
  [29.211, 210.8],
  [28.559, 210.2],
  [27.972, 208.4],
  [24.697, 202.5],
  [23.726, 200.6],
  [23.369, 200.1],
];

/** kPa and C; the API takes station pressures from 30 kPa up. */
const steam: readonly (readonly [number, number])[] = [
  [31.201, 70],
  [47.415, 80],
  [70.182, 90],
  [84.609, 95],
  [101.418, 100],
];

/** Gauge kPa and C at sea level: pressures of the steam table less 101.325 kPa. */
const underPressure: readonly (readonly [number, number])[] = [
  [143.379, 110],
  [198.674, 120],
  [205.695, 121.1],
  [232.238, 125],
];

/** Middle of the band in feet, dial psi. */
const dial: readonly (readonly [number, number])[] = [
  [1000, 11],
  [3000, 12],
  [5000, 13],
  [7000, 14],
  [9000, 15],
];

export const BOILING_POINTS: readonly PublishedPoint[] = [
  ...openFeet.map(
    ([feet, printedF, source], i): PublishedPoint => ({
      id: `boils-ft-${i + 1}`,
      model: 'boiling point',
      what: `water at ${feet} ft: ${printedF} F`,
      printed: fahrenheitToCelsius(printedF),
      unit: 'C',
      source,
      predict: async (api) => value((await api.boilingPoint({ elevationM: feetToMetres(feet) })).boilingPointC),
    }),
  ),
  ...openCelsius.map(
    ([feet, printed]): PublishedPoint => ({
      id: `boils-usu-${feet}`,
      model: 'boiling point',
      what: `water at ${feet} ft: ${printed} C`,
      printed,
      unit: 'C',
      source: USU,
      predict: async (api) => value((await api.boilingPoint({ elevationM: feetToMetres(feet) })).boilingPointC),
    }),
  ),
  ...hooker.map(
    ([inHg, printedF]): PublishedPoint => ({
      id: `boils-hooker-${inHg}`,
      model: 'boiling point',
      what: `station pressure ${inHg} inHg: ${printedF} F observed`,
      printed: fahrenheitToCelsius(printedF),
      unit: 'C',
      source: HOOKER,
      predict: async (api) => value((await api.boilingPoint({ stationPressureKPa: inHgToKPa(inHg) })).boilingPointC),
    }),
  ),
  ...steam.map(
    ([kPa, printed]): PublishedPoint => ({
      id: `boils-steam-${printed}`,
      model: 'boiling point',
      what: `saturation at ${kPa} kPa: ${printed} C`,
      printed,
      unit: 'C',
      source: STEAM,
      predict: async (api) => value((await api.boilingPoint({ stationPressureKPa: kPa })).boilingPointC),
    }),
  ),
  ...underPressure.map(
    ([kPa, printed]): PublishedPoint => ({
      id: `boils-pressure-${printed}`,
      model: 'boiling point',
      what: `saturation at ${kPa} kPa, as gauge pressure at sea level: ${printed} C`,
      printed,
      unit: 'C',
      source: STEAM,
      predict: async (api) => {
        const answer = await api.boilingPoint({ elevationM: 0, gaugeKPa: kPa - 101.325 });
        return value(answer.pressureCooker?.temperatureC ?? Number.NaN);
      },
    }),
  ),
  ...dial.map(
    ([feet, psi]): PublishedPoint => ({
      id: `boils-dial-${psi}`,
      model: 'boiling point',
      what: `${psi} psi about ${feet} ft: 240 F`,
      printed: fahrenheitToCelsius(240),
      unit: 'C',
      source: PNW,
      predict: async (api) => {
        const answer = await api.boilingPoint({ elevationM: feetToMetres(feet), gaugeKPa: psiToKPa(psi) });
        return value(answer.pressureCooker?.temperatureC ?? Number.NaN);
      },
    }),
  ),
  {
    id: 'boils-openstax',
    model: 'boiling point',
    what: '1.99e5 Pa, 98 kPa gauge: 120 C',
    printed: 120,
    unit: 'C',
    source: 'OpenStax, College Physics, table 13.5',
    predict: async (api) => {
      const answer = await api.boilingPoint({ elevationM: 0, gaugeKPa: 98 });
      return value(answer.pressureCooker?.temperatureC ?? Number.NaN);
    },
  },
  ...(
    [
      [1013.25, 1500, 94.98],
      [1030, 1500, 95.44],
      [990, 1500, 94.33],
    ] as const
  ).map(
    ([hPa, elevationM, printed]): PublishedPoint => ({
      id: `boils-weather-${hPa}`,
      model: 'boiling point',
      what: `${hPa} hPa reduced to sea level at ${elevationM} m: ${printed} C`,
      printed,
      unit: 'C',
      source: 'Smithsonian Meteorological Tables 1951, p. 269, with IAPWS R7-97',
      predict: async (api) =>
        value((await api.boilingPoint({ elevationM, seaLevelPressureKPa: hPa / 10 })).boilingPointC),
    }),
  ),
];
