/** Minutes until soft: at the boil, at altitude, under pressure, below the boil, as printed. */
import type { CookTimeQuestion } from '../../api/cooking/calculators/calculator-types.ts';
import { feetToMetres, psiToKPa } from '../../api/physics/units.ts';
import type { Model, PublishedPoint } from './published-point.ts';

type Printed = number | readonly [number, number];

const SOAKED = { hours: 12, waterC: 22, discardWater: true } as const;
const USAP = 'USA Pulses, get cooking page';
const TK = 'merchants cooking table of beans (consumer chart)';
const TR = 'traders table of soaked beans';
const PCAN = 'Pulse Canada, cooking guide';
const USADPL = 'US Dry Pea and Lentil Council, cooking with pulses';
const UCD = 'UC Davis student health, grains cooking chart';
const GC = 'grain chart, 2004';
const TK2 = 'merchants cooking table of grains';
const COOKERY = 'general cookery pages (weak)';

/** At the boil at sea level. Food, soaked, minutes, source. */
const AT_THE_BOIL: readonly (readonly [string, boolean, Printed, string])[] = [
  ['kidney-bean', true, [60, 90], TK],
  ['kidney-bean', true, 60, TR],
  ['black-bean', true, [60, 90], TK],
  ['black-bean', true, 75, TR],
  ['pinto-bean', true, 60, TR],
  ['navy-bean', true, 60, TR],
  ['great-northern-bean', true, [60, 90], TK],
  ['small-red-bean', true, 80.3, 'Hosfield, USDA-ARS 120314, 2001, group mean (pin drop, blanched)'],
  ['pinto-bean', true, [60, 120], USAP],
  ['pinto-bean', true, [45, 60], PCAN],
  ['chickpea', true, [90, 120], USAP],
  ['chickpea', true, [60, 90], PCAN],
  ['chickpea', true, 60, TR],
  ['black-eyed-pea', true, 60, TR],
  ['black-eyed-pea', false, [45, 60], TK],
  ['black-eyed-pea', false, [41.5, 135], '13 cowpea varieties, soak state not stated, scilit abstract'],
  ['adzuki-bean', true, 45, TR],
  ['mung-bean', true, 45, TR],
  ['soybean', true, 150, TR],
  ['lentil-brown', false, [20, 40], USAP],
  ['lentil-brown', false, [15, 20], USADPL],
  ['lentil-brown', false, [30, 45], PCAN],
  ['lentil-brown', false, 30, TK],
  ['lentil-red', false, [5, 10], USAP],
  ['lentil-red', false, [6, 12], USADPL],
  ['lentil-red', false, [10, 15], PCAN],
  ['split-pea', false, [35, 40], USAP],
  ['split-pea', false, [30, 40], USADPL],
  ['split-pea', false, [40, 45], PCAN],
  ['whole-pea', true, [35, 40], USADPL],
  ['whole-pea', true, [60, 90], PCAN],
  ['pinto-bean', false, 109.5, 'Alliance Bioversity-CIAT, soaking beans for 12 h, mean of eight varieties'],
  ['pinto-bean', true, 84.6, 'Alliance Bioversity-CIAT, soaking beans for 12 h, mean of eight varieties'],
  ['pinto-bean', true, [52, 85], 'Deshpande and Cheryan, Plant Foods Hum. Nutr. 36, 157, 1986, ten varieties'],
  ['white-rice', false, [15, 18], TK2],
  ['parboiled-rice', false, [20, 25], TK2],
  ['brown-rice', false, [45, 55], UCD],
  ['brown-rice', false, [45, 50], TK2],
  ['pearl-barley', false, [50, 60], UCD],
  ['pearl-barley', false, [45, 55], GC],
  ['hulled-barley', false, 75, UCD],
  ['hulled-barley', false, 105, GC],
  ['bulgur', false, 15, UCD],
  ['wheat-berry', false, 120, UCD],
  ['wheat-berry', false, 70, GC],
  ['wheat-berry', false, [50, 60], TK2],
  ['wheat-berry', false, 90, 'khorasan or whole wheat, cookery page (weak)'],
  ['wheat-berry', true, [30, 45], 'khorasan or whole wheat, soaked overnight, cookery page (weak)'],
  ['quinoa', false, [15, 20], UCD],
  ['millet', false, [20, 25], UCD],
  ['millet', false, [25, 30], GC],
  ['buckwheat', false, 15, UCD],
  ['rolled-oats', false, 5, GC],
  ['steel-cut-oats', false, 20, GC],
  ['steel-cut-oats', false, [25, 30], TK2],
  ['cornmeal', false, [8, 10], UCD],
  ['polenta', false, [20, 25], UCD],
  ['hominy', false, [300, 360], GC],
  ['potato-diced', false, [15, 20], COOKERY],
];

const PCT = 'makers timetable of pressure cookers, 15 psi, natural release';
const PCT2 = 'timetable of electric pressure cookers, nominally 11.6 psi';
const UFV = 'newspaper pressure-cooking booklet, Univ. of the Fraser Valley archive, 15 psi';
const PCG = 'makers timetable of grains, 15 psi, natural release';
const SASS = 'Cooking Under Pressure, 1989, grain chart, 15 psi, quick release';
const NW = 'personal table of an electric cooker, unsoaked, 15 to 20 min release';
/** What a natural release of 10 min from 15 psi adds, in minutes at 15 psi: z 19, z 16 and z 50. */
const RELEASE = { bean: 3.6, soy: 3.2, grain: 6.2, none: 0 } as const;

/** Hold under pressure at sea level. Food, soaked, psi, minutes, what the release adds, source. */
const UNDER_PRESSURE: readonly (readonly [string, boolean, number, Printed, keyof typeof RELEASE, string])[] = [
  ['kidney-bean', true, 15, [1, 3], 'bean', PCT],
  ['black-bean', true, 15, [2, 4], 'bean', PCT],
  ['pinto-bean', true, 15, [3, 6], 'bean', PCT],
  ['navy-bean', true, 15, [1, 3], 'bean', PCT],
  ['great-northern-bean', true, 15, [2, 5], 'bean', PCT],
  ['small-red-bean', true, 15, [3, 6], 'bean', PCT],
  ['chickpea', true, 15, [7, 10], 'bean', PCT],
  ['soybean', true, 15, [8, 11], 'soy', PCT],
  ['adzuki-bean', true, 15, [1, 3], 'bean', PCT],
  ['black-eyed-pea', false, 15, [2, 4], 'bean', PCT],
  ['lentil-brown', false, 15, [3, 5], 'bean', PCT],
  ['whole-pea', true, 15, [6, 9], 'soy', PCT],
  ['kidney-bean', true, 11.6, [5, 8], 'none', PCT2],
  ['navy-bean', true, 11.6, [5, 8], 'none', PCT2],
  ['black-bean', true, 11.6, [6, 9], 'none', PCT2],
  ['great-northern-bean', true, 11.6, [6, 9], 'none', PCT2],
  ['pinto-bean', true, 11.6, [7, 10], 'none', PCT2],
  ['small-red-bean', true, 11.6, [7, 10], 'none', PCT2],
  ['chickpea', true, 11.6, [14, 17], 'none', PCT2],
  ['soybean', true, 11.6, [12, 15], 'none', PCT2],
  ['whole-pea', true, 11.6, [13, 16], 'none', PCT2],
  ['lentil-brown', false, 11.6, [6, 9], 'none', PCT2],
  ['kidney-bean', true, 15, 25, 'none', UFV],
  ['navy-bean', true, 15, 25, 'none', UFV],
  ['soybean', true, 15, 30, 'none', UFV],
  ['lentil-brown', false, 15, 20, 'none', UFV],
  ['whole-pea', true, 15, 20, 'none', UFV],
  ['split-pea', false, 15, 15, 'none', UFV],
  ['pinto-bean', false, 11.6, 45, 'bean', NW],
  ['black-bean', false, 11.6, 50, 'bean', NW],
  ['chickpea', false, 11.6, 60, 'bean', NW],
  ['white-rice', false, 15, [5, 8], 'none', PCG],
  ['brown-rice', false, 15, [10, 12], 'grain', PCG],
  ['pearl-barley', false, 15, [9, 12], 'grain', PCG],
  ['hulled-barley', false, 15, [25, 28], 'grain', PCG],
  ['wheat-berry', false, 15, [25, 30], 'grain', PCG],
  ['millet', false, 15, [9, 10], 'none', PCG],
  ['quinoa', false, 15, 1, 'grain', PCG],
  ['steel-cut-oats', false, 15, [4, 5], 'grain', PCG],
  ['bulgur', false, 15, [2, 3], 'none', PCG],
  ['buckwheat', false, 15, [3, 4], 'none', PCG],
  ['pearl-barley', false, 15, [18, 20], 'none', SASS],
  ['hulled-barley', false, 15, [50, 55], 'none', SASS],
  ['wheat-berry', false, 15, [35, 45], 'none', SASS],
];

/** Elsewhere. Id, question, minutes, what, source. */
const ELSEWHERE: readonly (readonly [string, CookTimeQuestion, Printed, string, string])[] = [
  [
    'rice-5000ft',
    { foodId: 'white-rice', elevationM: feetToMetres(5000) },
    [20, 23],
    'rice at 5,000 ft',
    'ochef.com, rice at altitude',
  ],
  [
    'potato-85C',
    { foodId: 'potato-diced', temperatureC: 85 },
    [30, 45],
    'potatoes in water at 82 to 88 C',
    'Popali, Yardi, Jain, Proc. Indian Acad. Sci. C2, 331, 1979',
  ],
  [
    'rice-85C',
    { foodId: 'white-rice', temperatureC: 85 },
    [30, 45],
    'rice in water at 82 to 88 C',
    'Popali, Yardi, Jain, Proc. Indian Acad. Sci. C2, 331, 1979',
  ],
  [
    'pasta-5000ft',
    { foodId: 'pasta', elevationM: feetToMetres(5000) },
    15,
    'what takes 10 min at sea level, at 5,000 ft',
    'outdoor field manual, quoted 1998',
  ],
  [
    'pasta-7500ft',
    { foodId: 'pasta', elevationM: feetToMetres(7500) },
    18,
    'what takes 10 min at sea level, at 7,500 ft',
    'outdoor field manual, quoted 1998',
  ],
  [
    'pasta-10000ft',
    { foodId: 'pasta', elevationM: feetToMetres(10000) },
    20,
    'what takes 10 min at sea level, at 10,000 ft',
    'outdoor field manual, quoted 1998',
  ],
  [
    'soda-soaked',
    { foodId: 'pinto-bean', elevationM: 0, soak: SOAKED, cookingAdditive: 'bicarbonate' },
    51.2,
    'soaked, 0.2 % bicarbonate',
    'Alliance Bioversity-CIAT, soaking beans for 12 h, mean of eight varieties',
  ],
  [
    'soda-unsoaked',
    { foodId: 'pinto-bean', elevationM: 0, cookingAdditive: 'bicarbonate' },
    82.0,
    'unsoaked, 0.2 % bicarbonate',
    'Alliance Bioversity-CIAT, soaking beans for 12 h, mean of eight varieties',
  ],
  [
    'acid-soaked',
    { foodId: 'pinto-bean', elevationM: 0, soak: SOAKED, cookingAdditive: 'acid' },
    92.7,
    'soaked, 1 % citric acid',
    'Alliance Bioversity-CIAT, soaking beans for 12 h, mean of eight varieties',
  ],
  [
    'acid-unsoaked',
    { foodId: 'pinto-bean', elevationM: 0, cookingAdditive: 'acid' },
    115.9,
    'unsoaked, 1 % citric acid',
    'Alliance Bioversity-CIAT, soaking beans for 12 h, mean of eight varieties',
  ],
];

/** Ratios of two answers: the published work gives a temperature dependence or a rule, not minutes. */
const RATIOS: readonly (readonly [string, CookTimeQuestion, CookTimeQuestion, Printed, string, string])[] = [
  [
    'black-98-116',
    { foodId: 'black-bean', temperatureC: 98, soak: SOAKED },
    { foodId: 'black-bean', temperatureC: 116, soak: SOAKED },
    8.86,
    'black beans 98 over 116 C (z 19)',
    'Quast and da Silva, J. Food Sci., 1977',
  ],
  [
    'pinto-98-116',
    { foodId: 'pinto-bean', temperatureC: 98, soak: SOAKED },
    { foodId: 'pinto-bean', temperatureC: 116, soak: SOAKED },
    10,
    'brown beans 98 over 116 C (z 18)',
    'Quast and da Silva, J. Food Sci., 1977',
  ],
  [
    'soy-98-116',
    { foodId: 'soybean', temperatureC: 98, soak: SOAKED },
    { foodId: 'soybean', temperatureC: 116, soak: SOAKED },
    13.3,
    'soybeans 98 over 116 C (z 16)',
    'Quast and da Silva, J. Food Sci., 1977',
  ],
  [
    'pea-98-116',
    { foodId: 'whole-pea', temperatureC: 98, soak: SOAKED },
    { foodId: 'whole-pea', temperatureC: 116, soak: SOAKED },
    13.3,
    'dried peas 98 over 116 C (z 16)',
    'Quast and da Silva, J. Food Sci., 1977',
  ],
  [
    'white-bean-98-116',
    { foodId: 'navy-bean', temperatureC: 98, soak: SOAKED },
    { foodId: 'navy-bean', temperatureC: 116, soak: SOAKED },
    7.0,
    'white beans 98 over 116 C (sensory hardness, z 21.3)',
    'Van Loey et al., J. Food Eng. 24, 361, 1995',
  ],
  [
    'storage-4C',
    {
      foodId: 'pinto-bean',
      elevationM: 0,
      storage: { years: 0.833, temperatureC: 4.4, moisturePercent: 17 },
      soak: SOAKED,
    },
    { foodId: 'pinto-bean', elevationM: 0, soak: SOAKED },
    1.7,
    'pinto beans of 17 % moisture after 10 months at 4.4 C over fresh',
    'Drying, storing and handling dry edible beans, storage trial',
  ],
  [
    'storage-minus-7C',
    {
      foodId: 'pinto-bean',
      elevationM: 0,
      storage: { years: 0.833, temperatureC: -6.7, moisturePercent: 17 },
      soak: SOAKED,
    },
    { foodId: 'pinto-bean', elevationM: 0, soak: SOAKED },
    1.2,
    'pinto beans of 17 % moisture after 10 months at -6.7 C over fresh',
    'Drying, storing and handling dry edible beans, storage trial',
  ],
  [
    'rice-90-100',
    { foodId: 'white-rice', temperatureC: 90 },
    { foodId: 'white-rice', temperatureC: 100 },
    1.88,
    'rice 90 over 100 C (71 kJ/mol, z 37)',
    'Suzuki group, Kinetic studies on cooking of rice, abstract',
  ],
  [
    'beans-5000ft',
    { foodId: 'pinto-bean', elevationM: feetToMetres(5000), soak: SOAKED },
    { foodId: 'pinto-bean', elevationM: 0, soak: SOAKED },
    2,
    'beans double every 5,000 ft',
    'dried-food trade rule (low grade)',
  ],
];

/** Below the boil of sea level, at it, or under pressure. */
function modelOf(q: CookTimeQuestion): Model {
  if ((q.gaugeKPa ?? 0) > 0 || (q.temperatureC ?? 0) > 101) return 'cook time under pressure';
  return (q.elevationM ?? 0) > 100 || (q.temperatureC ?? 100) < 99 ? 'cook time at altitude' : 'cook time at the boil';
}

const minutesOf = (
  id: string,
  q: CookTimeQuestion,
  printed: Printed,
  what: string,
  source: string,
): PublishedPoint => ({
  id,
  model: modelOf(q),
  what,
  printed,
  unit: 'min',
  source,
  predict: async (api) => (await api.cookTime(q)).minutes,
});

const soaks = (soaked: boolean): Pick<CookTimeQuestion, 'soak'> => (soaked ? { soak: SOAKED } : {});
const said = (soaked: boolean): string => (soaked ? 'soaked' : 'unsoaked');

export const COOK_TIME_POINTS: readonly PublishedPoint[] = [
  ...AT_THE_BOIL.map(([foodId, soaked, printed, source], i) =>
    minutesOf(
      `boil-${i + 1}-${foodId}`,
      { foodId, elevationM: 0, ...soaks(soaked) },
      printed,
      `${foodId}, ${said(soaked)}, at the boil`,
      source,
    ),
  ),
  ...UNDER_PRESSURE.map(([foodId, soaked, psi, printed, release, source], i) => {
    const more = RELEASE[release];
    const full = typeof printed === 'number' ? printed + more : ([printed[0] + more, printed[1] + more] as const);
    return minutesOf(
      `pressure-${i + 1}-${foodId}`,
      { foodId, elevationM: 0, gaugeKPa: psiToKPa(psi), ...soaks(soaked) },
      full,
      `${foodId}, ${said(soaked)}, ${psi} psi${more > 0 ? `, with ${more} min for the release` : ''}`,
      source,
    );
  }),
  ...ELSEWHERE.map(([id, q, printed, what, source]) => minutesOf(id, q, printed, what, source)),
  ...RATIOS.map(
    ([id, above, below, printed, what, source]): PublishedPoint => ({
      id: `ratio-${id}`,
      // Of the two answers the one that is not at the boil is the one in question.
      model: [above, below].map(modelOf).find((model) => model !== 'cook time at the boil') ?? 'cook time at the boil',
      what,
      printed,
      unit: 'ratio',
      source,
      predict: async (api) => {
        const [a, b] = await Promise.all([api.cookTime(above), api.cookTime(below)]);
        return { p50: a.minutes.p50 / b.minutes.p50 };
      },
    }),
  ),
];
