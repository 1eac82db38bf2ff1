/** Heating up, simmering, evaporation and cooling, as printed. */
import type { FuelUseQuestion } from '../../api/cooking/calculators/calculator-types.ts';
import {
  blackRadiationWPerM2K,
  evaporationKgPerM2H,
  openEvaporationW,
  plateConvectionWPerM2K,
  wallConvectionWPerM2K,
} from '../../api/physics/pot-heat-loss.ts';
import type { FuelId, Lid, StoveTypeId } from '../../api/physics/table-ids.ts';
import type { Api } from './ask-api.ts';
import { type PublishedPoint, value } from './published-point.ts';
import type { Prediction } from './score.ts';

const GONZALEZ = 'Gonzalez, AVERMA 14, 2010, gas hobs with lidded pots (quoted in a research note)';
const ENARGAS = 'Mora Iannelli and Gil, ENARGAS 2020, fig. 6 (quoted in a research note)';
const WBT_RASOULKHANI = 'Rasoulkhani et al., Sustain. Environ. Res. 28, 2018, water boiling test';

interface Boil {
  stove: StoveTypeId;
  fuel: FuelId;
  waterL: number;
  capacityL: number;
  lid?: Lid;
  diameterMm?: number;
  powerKW?: number;
  flame?: 'full' | 'low';
  startC?: number;
  material?: 'aluminium' | 'stainless';
}

function boil(b: Boil): FuelUseQuestion {
  return {
    stove: {
      typeId: b.stove,
      ...(b.powerKW === undefined ? {} : { powerKW: b.powerKW }),
      ...(b.flame === undefined ? {} : { flame: b.flame }),
    },
    fuelId: b.fuel,
    vessel: {
      kind: 'pot',
      capacityL: b.capacityL,
      material: b.material ?? 'stainless',
      lid: b.lid ?? 'snug',
      ...(b.diameterMm === undefined ? {} : { diameterMm: b.diameterMm }),
    },
    waterL: b.waterL,
    startC: b.startC ?? 20,
    airC: 20,
    elevationM: 0,
    wind: 'still',
    holdMinutes: 0,
  };
}

/** Heat into the pot over the fuel of the heat-up, %. The band is that of the fuel: heat into the pot is nearly sure. */
async function efficiencyOf(q: FuelUseQuestion, api: Api, counted: 'pot' | 'water' | 'all fuel'): Promise<Prediction> {
  const answer = await api.fuelUse(q);
  const heat = counted === 'water' ? answer.floorMJ : answer.heatToPotMJ.p50;
  const fuel = counted === 'all fuel' ? answer.fuelMJ.p50 : answer.breakdown.heatUpMJ;
  const { p10, p50, p90 } = answer.fuelMJ;
  const percent = (100 * heat) / fuel;
  return { p50: percent, p10: (percent * p50) / p90, p90: (percent * p50) / p10 };
}

const GAS = { stove: 'lpg-home', fuel: 'propane' } as const;

/** Id, boil, printed %, what is counted, what, source. */
const EFFICIENCIES: readonly (readonly [
  string,
  Boil,
  number | readonly [number, number],
  'pot' | 'water' | 'all fuel',
  string,
  string,
])[] = [
  [
    'hob-20cm-low',
    { ...GAS, waterL: 2, capacityL: 4, diameterMm: 200, powerKW: 0.7 },
    62,
    'pot',
    'gas hob, 20 cm lidded pot, 2 L, lowest flame (0.7 kW assumed)',
    GONZALEZ,
  ],
  [
    'hob-20cm-full',
    { ...GAS, waterL: 2, capacityL: 4, diameterMm: 200, powerKW: 2.09 },
    50,
    'pot',
    'the same at full flame (2.09 kW rating)',
    GONZALEZ,
  ],
  [
    'hob-kettle-low',
    { ...GAS, waterL: 1.2, capacityL: 1.6, diameterMm: 120, powerKW: 0.7 },
    55,
    'pot',
    'kettle of 12 cm base, lowest flame',
    GONZALEZ,
  ],
  [
    'hob-kettle-full',
    { ...GAS, waterL: 1.2, capacityL: 1.6, diameterMm: 120, powerKW: 2.09 },
    29,
    'pot',
    'kettle of 12 cm base, full flame',
    GONZALEZ,
  ],
  [
    'lpg-small-1.20',
    { ...GAS, waterL: 2, capacityL: 4, diameterMm: 200, powerKW: 1.2 },
    62,
    'pot',
    'small LPG burner at 1.20 kW',
    GONZALEZ,
  ],
  [
    'lpg-small-1.53',
    { ...GAS, waterL: 2, capacityL: 4, diameterMm: 200, powerKW: 1.53 },
    49,
    'pot',
    'small LPG burner at 1.53 kW',
    GONZALEZ,
  ],
  ['lpg-lidded', { ...GAS, waterL: 2, capacityL: 4 }, 52, 'pot', 'LPG hob, lidded pot', ENARGAS],
  ['gas-lidded', { ...GAS, waterL: 2, capacityL: 4 }, 49, 'pot', 'natural gas hob, lidded pot', ENARGAS],
  [
    'three-stone-lidded',
    { stove: 'three-stone', fuel: 'wood', waterL: 3, capacityL: 5 },
    15,
    'pot',
    'three stones, lidded pot',
    ENARGAS,
  ],
  [
    'hob-mug',
    { ...GAS, waterL: 0.363, capacityL: 3, diameterMm: 210, powerKW: 1, lid: 'none' },
    46.7,
    'water',
    'tiny gas burner, 363 g in a 21 cm pan, 42 % of the gross heat',
    'Measured efficiency of a gas hob heating water, cambridgeclarion.org',
  ],
  [
    'hob-open',
    { ...GAS, waterL: 1, capacityL: 2, lid: 'none' },
    [38, 39],
    'water',
    'gas hob, uncovered, home measurement',
    'de Podesta 2022 (quoted in a research note)',
  ],
  [
    'three-stone-sensible',
    { stove: 'three-stone', fuel: 'wood', waterL: 5, capacityL: 7, lid: 'none' },
    13.4,
    'water',
    'three-stone fire, 5 L, sensible heat only',
    'PCIA 2011 app. C with 27 min to the boil',
  ],
  [
    'traditional-wood',
    { stove: 'mud-u', fuel: 'wood', waterL: 5, capacityL: 7, lid: 'none' },
    12.6,
    'all fuel',
    'traditional wood stove',
    WBT_RASOULKHANI,
  ],
  [
    'top-lit-pruning',
    { stove: 'wood-gas', fuel: 'wood', waterL: 5, capacityL: 7, lid: 'none' },
    35,
    'all fuel',
    'top-lit stove on pruning wood',
    WBT_RASOULKHANI,
  ],
  [
    'top-lit-eucalyptus',
    { stove: 'wood-gas', fuel: 'wood', waterL: 5, capacityL: 7, lid: 'none' },
    32.3,
    'all fuel',
    'top-lit gasifier, eucalyptus',
    'Hailu, Heliyon 8, e10163, 2022',
  ],
  [
    'top-lit-bamboo',
    { stove: 'wood-gas', fuel: 'wood', waterL: 5, capacityL: 7, lid: 'none' },
    26.25,
    'all fuel',
    'top-lit gasifier, bamboo',
    'Hailu, Heliyon 8, e10163, 2022',
  ],
  [
    'wood-slow',
    { stove: 'mud-u', fuel: 'wood', waterL: 5, capacityL: 7, lid: 'none', powerKW: 6.6 },
    19,
    'all fuel',
    'wood stove of 6.6 kW, 5 L in 36 min',
    'Water Boiling Test 4.2.3, table 1',
  ],
  [
    'wood-quick',
    { stove: 'rocket', fuel: 'wood', waterL: 5, capacityL: 7, lid: 'none', powerKW: 6.6 },
    28,
    'all fuel',
    'wood stove of 6.6 kW, 5 L in 20 min',
    'Water Boiling Test 4.2.3, table 1',
  ],
  [
    'charcoal-ceramic',
    { stove: 'charcoal', fuel: 'charcoal', waterL: 3, capacityL: 5, powerKW: 2.36 },
    [22, 24],
    'pot',
    'ceramic charcoal stove, 3 L, lid',
    'Pemberton-Pigott 2006',
  ],
  [
    'alcohol-two-stoves',
    { stove: 'alcohol-pot', fuel: 'denatured-alcohol', waterL: 2, capacityL: 3 },
    60,
    'pot',
    'two unpressurised alcohol stoves, 2 L',
    'Boiling Point 12, HEDON',
  ],
  [
    'alcohol-jet',
    { stove: 'alcohol-jet', fuel: 'denatured-alcohol', waterL: 0.5, capacityL: 1, startC: 10, material: 'aluminium' },
    49,
    'pot',
    'small spirit burner, 0.5 L to the boil',
    'weblog, February 2016',
  ],
  [
    'coil-1L',
    { stove: 'electric-plate', fuel: 'electricity', waterL: 1, capacityL: 2 },
    54,
    'water',
    'electric coil plate, 1 L',
    'powersaving.co.za',
  ],
  [
    'coil-large',
    { stove: 'electric-plate', fuel: 'electricity', waterL: 6.7, capacityL: 10 },
    59,
    'water',
    'large electric pot',
    'figures.co.ke, October 2023',
  ],
];

const DIM_POT = { kind: 'pot', capacityL: 4, material: 'aluminium' } as const;

/** Simmering: fuel power at the lowest steady flame, kW, and open against lidded. */
const SIMMER_KW: readonly (readonly [string, StoveTypeId, FuelId, number, number, string, string])[] = [
  ['three-stone', 'three-stone', 'wood', 7, 3.05, 'three-stone fire, 9.49 g/min of fir', 'PCIA 2011 app. C'],
  [
    'charcoal',
    'charcoal',
    'charcoal',
    4,
    0.54,
    'ceramic charcoal stove, 16.5 g/L in 45 min for 3 L',
    'Pemberton-Pigott 2006',
  ],
  [
    'alcohol',
    'alcohol-pot',
    'denatured-alcohol',
    3,
    0.4,
    'unpressurised alcohol stove, lowest',
    'Boiling Point 12, HEDON',
  ],
  [
    'gas-tap',
    'lpg-home',
    'propane',
    4,
    0.58,
    'gas tap at simmer: 1/4 to 1/3 of full (2.0 kW)',
    'How to make your cooking gas last longer',
  ],
  [
    'rocket',
    'rocket',
    'wood',
    4,
    0.8,
    'light metal wood stove, 800 W in the simmer',
    'Water Boiling Test 4, sample test',
  ],
];

/** Flask and insulated coffee pot, each told one reading of its own: litres, reading, later hours, C read then. */
const FROM_ONE_READING: readonly (readonly [
  string,
  number,
  { hours: number; temperatureC: number },
  number,
  number,
])[] = [
  ['flask-8h', 2, { hours: 3.5, temperatureC: 95.0 }, 8, 90.4],
  ['flask-18h', 2, { hours: 3.5, temperatureC: 95.0 }, 18, 76.3],
  ['coffee-pot-3.5h', 1.2, { hours: 2, temperatureC: 76.5 }, 3.5, 58.2],
];

/**
 * A relation fitted to the cooling of kettles after the flame is out: litres, share of the surface that is open, minutes.
 * Steam leaves by `sqrt(surface * opening)`.
 */
const KETTLES: readonly (readonly [number, 'none' | 'loose', number])[] = [
  [10, 'none', 15],
  [10, 'none', 30],
  [20, 'none', 30],
  [20, 'none', 60],
  [10, 'loose', 30],
  [20, 'loose', 30],
  [20, 'loose', 60],
];

/** The relation as printed, C; the kettle is 1.5 times as large as what is in it, 0.6 times as high as wide. */
function kettleC(litres: number, lid: 'none' | 'loose', minutes: number): number {
  const diameterCm = 10 * Math.cbrt((4 * 1.5 * litres) / (0.6 * Math.PI));
  const surfaceCm2 = (Math.PI * diameterCm ** 2) / 4;
  const b = (0.0002925 * (lid === 'none' ? surfaceCm2 : 0)) / litres + 0.00538;
  return 53.7 * Math.exp(-b * minutes) + 319.55 - 273.15;
}

const TANK = 'heat loss from open water tanks, engineeringtoolbox.com d_286';
const TANK_AIR_C = 15.6;
/** Water C, W/m2 as vapour, W/m2 by radiation and convection. */
const OPEN_TANK: readonly (readonly [number, number, number])[] = [
  [37.8, 505, 221],
  [48.9, 1136, 347],
  [60.0, 2082, 505],
  [71.1, 3470, 662],
  [82.2, 5489, 820],
  [87.8, 6814, 915],
  [93.3, 8454, 1009],
  [98.9, 10221, 1136],
];

function hold(lid: Lid, minutes: number, over: Partial<FuelUseQuestion> = {}): FuelUseQuestion {
  return {
    stove: { typeId: 'lpg-home' },
    fuelId: 'propane',
    vessel: { ...DIM_POT, lid },
    waterL: 2.5,
    startC: 20,
    airC: 20,
    elevationM: 0,
    wind: 'still',
    holdMinutes: minutes,
    ...over,
  };
}

export const HEAT_POINTS: readonly PublishedPoint[] = [
  ...EFFICIENCIES.map(
    ([id, b, printed, counted, what, source]): PublishedPoint => ({
      id: `efficiency-${id}`,
      model: 'heat-up',
      what: `${what}, efficiency`,
      printed,
      unit: '%',
      source,
      predict: (api) => efficiencyOf(boil(b), api, counted),
    }),
  ),
  ...SIMMER_KW.map(
    ([id, stove, fuelId, capacityL, printed, what, source]): PublishedPoint => ({
      id: `simmer-${id}`,
      model: 'simmer',
      what: `${what}, kW of fuel`,
      printed,
      unit: 'kW',
      source,
      predict: async (api) => {
        const MINUTES = 45;
        const q = hold('loose', MINUTES, {
          stove: { typeId: stove },
          fuelId,
          vessel: { kind: 'pot', capacityL, material: 'stainless', lid: 'loose' },
          waterL: capacityL * 0.7,
        });
        const { breakdown } = await api.fuelUse(q);
        return value((breakdown.holdMJ * 1000) / (MINUTES * 60));
      },
    }),
  ),
  {
    id: 'simmer-potatoes-lid',
    model: 'simmer',
    what: '450 g potatoes, whole cook, energy open over lidded',
    printed: 1.6,
    unit: 'ratio',
    source: 'energy-surprises.blogspot.com, 3 October 2011, home weighing test',
    predict: async (api) => {
      const ask = (lid: Lid) =>
        api.fuelUse(
          hold(lid, 20, {
            stove: { typeId: 'electric-plate' },
            fuelId: 'electricity',
            vessel: { kind: 'pot', capacityL: 2, material: 'stainless', lid },
            waterL: 0.6,
            foods: [{ foodId: 'potato-diced', massG: 450, specificHeatKJPerKgK: 3.5 }],
          }),
        );
      const [open, lidded] = await Promise.all([ask('none'), ask('loose')]);
      return value(open.fuelMJ.p50 / lidded.fuelMJ.p50);
    },
  },
  {
    id: 'simmer-pasta-lid',
    model: 'simmer',
    what: 'pasta with a lid during the heat-up only, energy over none at all',
    printed: 0.94,
    unit: 'ratio',
    source: 'Italian pasta makers association 2022/2024',
    predict: async (api) => {
      const ask = (lid: Lid) =>
        api.fuelUse(
          hold(lid, 10, {
            vessel: { kind: 'pot', capacityL: 5, material: 'stainless', lid },
            waterL: 3,
            foods: [{ foodId: 'pasta', massG: 300 }],
            lidDuringHold: 'none',
          }),
        );
      const [lidded, open] = await Promise.all([ask('loose'), ask('none')]);
      return value(lidded.fuelMJ.p50 / open.fuelMJ.p50);
    },
  },
  ...OPEN_TANK.map(
    ([waterC, , printed]): PublishedPoint => ({
      id: `simmer-surface-${waterC}C`,
      model: 'simmer',
      what: `open water at ${waterC} C in air at 15.6 C, W/m2 by radiation and convection`,
      printed,
      unit: 'W/m2',
      source: TANK,
      // A tank of a metre: convection of large plates does not depend on their size.
      predict: () =>
        Promise.resolve(
          value(
            (plateConvectionWPerM2K(1, waterC, TANK_AIR_C) + 0.95 * blackRadiationWPerM2K(waterC, TANK_AIR_C)) *
              (waterC - TANK_AIR_C),
          ),
        ),
    }),
  ),
  ...FROM_ONE_READING.map(
    ([id, capacityL, reading, hours, printed]): PublishedPoint => ({
      id: `cooling-reading-${id}`,
      model: 'cooling',
      what: `flask of ${capacityL} L, ${reading.temperatureC} C after ${reading.hours} h told as own reading, C after ${hours} h`,
      printed,
      unit: 'C',
      source: 'outdoor journal, flask test, 17 November 2015',
      predict: async (api) => {
        const answer = await api.cooling({
          vessel: { kind: 'flask', capacityL },
          fillL: capacityL,
          startC: 99.3,
          airC: 20,
          reading: { ...reading, startC: 99.3 },
          hours,
        });
        const last = answer.temperatureC.at(-1);
        return { p50: last?.p50 ?? Number.NaN, p10: last?.p10 ?? Number.NaN, p90: last?.p90 ?? Number.NaN };
      },
    }),
  ),
  ...KETTLES.map(
    ([litres, lid, minutes]): PublishedPoint => ({
      id: `cooling-kettle-${litres}L-${lid === 'none' ? 'open' : 'covered'}-${minutes}min`,
      model: 'cooling',
      what: `${litres} L in ${lid === 'none' ? 'an open' : 'a covered'} kettle off the fire, C after ${minutes} min by the relation`,
      printed: Math.round(10 * kettleC(litres, lid, minutes)) / 10,
      unit: 'C',
      source: 'Hosom, Predicting Wort Temperature After Flameout, alchemyoverlord weblog 16, abstract',
      predict: async (api) => {
        const answer = await api.cooling({
          vessel: { kind: 'pot', capacityL: 1.5 * litres, material: 'stainless', lid },
          fillL: litres,
          startC: 100,
          airC: 20,
          hours: minutes / 60,
        });
        const last = answer.temperatureC.at(-1);
        return { p50: last?.p50 ?? Number.NaN, p10: last?.p10 ?? Number.NaN, p90: last?.p90 ?? Number.NaN };
      },
    }),
  ),
  {
    id: 'simmer-wall',
    model: 'simmer',
    what: 'dark bare wall of 0.15 m at 98.9 C in air at 15.6 C, W/(m2 K)',
    printed: 13.6,
    unit: 'W/(m2 K)',
    source: TANK,
    predict: () =>
      Promise.resolve(
        value(wallConvectionWPerM2K(0.15, 98.9, TANK_AIR_C) + 0.9 * blackRadiationWPerM2K(98.9, TANK_AIR_C)),
      ),
  },
  ...OPEN_TANK.map(
    ([waterC, printed]): PublishedPoint => ({
      id: `evaporation-${waterC}C`,
      model: 'evaporation',
      what: `open water at ${waterC} C in air at 15.6 C, W/m2 as vapour`,
      printed,
      unit: 'W/m2',
      source: TANK,
      predict: () => Promise.resolve(value(openEvaporationW(1, waterC, 15.6))),
    }),
  ),
  {
    id: 'evaporation-65.6C',
    model: 'evaporation',
    what: 'open water at 65.6 C in air at 15.6 C, kg/m2 h',
    printed: 4.16,
    unit: 'kg/(m2 h)',
    source: TANK,
    predict: () => Promise.resolve(value(evaporationKgPerM2H(65.6, 15.6))),
  },
  {
    id: 'evaporation-lid',
    model: 'evaporation',
    what: 'potatoes, water boiled off open over lidded',
    printed: 4,
    unit: 'ratio',
    source: 'energy-surprises.blogspot.com, 3 October 2011, home weighing test',
    predict: async (api) => {
      const plate = { stove: { typeId: 'electric-plate' as const }, fuelId: 'electricity' as const };
      const [open, lidded] = await Promise.all([
        api.fuelUse(hold('none', 20, plate)),
        api.fuelUse(hold('loose', 20, plate)),
      ]);
      return value(open.boiledOffL.p50 / lidded.boiledOffL.p50);
    },
  },
];
