/** Water taken up by soaking, as printed. */
import { findFood } from '../../api/cooking/foods/foods-table.ts';
import type { PublishedPoint } from './published-point.ts';

/** Food, C, hours, printed, unit, what, source. `db`: kg/kg dry matter; `wb %`: water as % of the wet mass; `g/g` as bought. */
type Row = readonly [string, number, number, number | readonly [number, number], 'db' | 'wb %' | 'g/g', string, string];

const CIMINI = 'Cimini, Poliziani, Moresi, Chem. Eng. Trans. 87, 31, 2021';
const KWOFIE = 'Kwofie, Mba, Ngadi, Adv. Chem. Eng. Sci. 9, 2019, paper 89701';
const UFFIA = 'Uffia et al., Commun. Phys. Sci. 11, 429, 2024';
const RICE = 'rice water absorption, ryourikagakunomori.jp, 10 to 20 C';
const MCGEE = 'McGee, On Food and Cooking, 2004, legumes';
const YILDIRIM = 'Yildirim, Oner, Bayram, J. Agric. Sci. (Ankara), 2010, Peleg constants at 20 C';

const ROWS: readonly Row[] = [
  ['chickpea', 20, 1, 0.292, 'db', '1 h from k1 96.28 s/%, k2 7.45e-3 /%', YILDIRIM],
  ['chickpea', 20, 8, 0.927, 'db', '8 h from the same constants', YILDIRIM],
  ['chickpea', 20, 12, 1.033, 'db', '12 h from the same constants', YILDIRIM],
  ['chickpea', 24, 5, 50, 'wb %', 'about 50 % after 5 h', CIMINI],
  ['soybean', 24, 5, 50, 'wb %', 'about 50 % after 5 h', CIMINI],
  ['pinto-bean', 25, 10, 1.27, 'db', '127 +- 5 % in 10 h', KWOFIE],
  ['kidney-bean', 35, 6, 1.27, 'db', '127 +- 5 % in 6 h', KWOFIE],
  ['black-bean', 45, 4, 1.27, 'db', '127 +- 5 % in 4 h', KWOFIE],
  ['black-eyed-pea', 28, 1, 50.52, 'wb %', '1 h, temperature not stated', UFFIA],
  ['black-eyed-pea', 28, 2, 53.35, 'wb %', '2 h, temperature not stated', UFFIA],
  ['soybean', 21, 4, 1, 'g/g', 'own weight in about 4 h', 'soybean production, soaking, medicinalplantsarchive.us'],
  [
    'soybean',
    100,
    0.25,
    1,
    'g/g',
    'own weight in about 15 min at 100 C',
    'soybean production, soaking, medicinalplantsarchive.us',
  ],
  ['white-rice', 15, 0.5, [0.1, 0.15], 'g/g', 'half of the saturation of 0.20 to 0.30 in half an hour', RICE],
  ['white-rice', 15, 2, [0.2, 0.3], 'g/g', 'saturated in about 2 h', RICE],
  [
    'pearl-barley',
    15,
    5,
    [0.52, 0.56],
    'g/g',
    '70 % polished, 300 min',
    'Shimoda et al., J. Inst. Brew. 104, 33, 1998',
  ],
  [
    'black-eyed-pea',
    40,
    24,
    [1.007, 1.087],
    'db',
    'limit 100.7 to 108.7 g per 100 g dry',
    'cowpea in Ghana, scirp 111224, 2021',
  ],
  ['kidney-bean', 20, 12, 1, 'g/g', 'double weight in 10 to 12 h', MCGEE],
  ['pinto-bean', 20, 10, 1, 'g/g', 'double weight in 10 to 12 h', MCGEE],
];

export const UPTAKE_POINTS: readonly PublishedPoint[] = ROWS.map(
  ([foodId, waterC, hours, printed, basis, what, source]): PublishedPoint => ({
    id: `soak-${foodId}-${waterC}C-${hours}h-${basis}`,
    model: 'uptake',
    what: `${foodId} at ${waterC} C: ${what}`,
    printed,
    unit: basis,
    source,
    predict: async (api) => {
      const { uptakeGPerG } = await api.soaking({ foodId, hours, waterC });
      const water = (findFood(foodId)?.waterGPer100G.value ?? Number.NaN) / 100;
      const as = (gPerG: number): number => {
        if (basis === 'g/g') return gPerG;
        return basis === 'db' ? gPerG / (1 - water) : (100 * (water + gPerG)) / (1 + gPerG);
      };
      return { p50: as(uptakeGPerG.p50), p10: as(uptakeGPerG.p10), p90: as(uptakeGPerG.p90) };
    },
  }),
);
