/**
 * Beans, peas and lentils.
 *
 * Common beans soften in 85 min once soaked and take 25 min more unsoaked (decided once, 85/25 against 75/35): the one
 * paired trial found 109.5 -> 84.6 min over eight varieties, which is 25/110 of the unsoaked time; soaked and salted
 * beans in a 90 C bath (240-270 min) ask for 80-100 min at 100 C, and 150 min at 1,750 m for 74. Kitchen tables say 60-90.
 */
import type { Parameter } from '../../physics/parameter.ts';
import type { WorkKey } from '../../references/works-cited.ts';
import type { CookingKinetics, Food, SoakKinetics } from './food.ts';
import { composition, entry, estimate, PLAIN } from './food-parameters.ts';

/** Minutes to soft and missing hydration minutes of a pulse at 100 C, with their low and high ends. */
interface PulseTimes {
  soft: [number, number, number];
  hydration: [number, number, number];
  key: WorkKey;
  place: string;
  estimated?: boolean;
  z?: 'common-bean' | 'assumed-common-bean' | 'soy-and-pea';
  /** Above 100 C, where pressure-cooker tables ask for more than the z below gives. */
  zAbove?: Parameter;
}

const Z_COMMON_BEAN = entry(19, 17, 21.5, 'K', 'quast-da-silva-1977', 'black bean 19, brown bean 18; van Loey 21.3');
const Z_ASSUMED = estimate(
  19,
  16.5,
  22.5,
  'K',
  'quast-da-silva-1977',
  'common-bean value',
  'no z is published for this species; chickpea at 90 C agrees with about 18',
);
const Z_SOY_PEA = entry(16, 14, 19, 'K', 'quast-da-silva-1977', 'soybean 16, dried pea 16');

function pulseKinetics(times: PulseTimes): CookingKinetics {
  const make = times.estimated ? estimate : entry;
  const z = times.z === 'soy-and-pea' ? Z_SOY_PEA : times.z === 'assumed-common-bean' ? Z_ASSUMED : Z_COMMON_BEAN;
  return {
    kind: 'boil',
    softeningMinutes: make(...times.soft, 'min', times.key, times.place),
    hydrationMinutes: estimate(...times.hydration, 'min', 'planner-derivation', 'unsoaked less soaked minutes'),
    zBelowC: z,
    zAboveC: times.zAbove ?? z,
    measuredFromC: 98,
    measuredToC: 127,
    cutOffC: 70,
    cutOffSource: { key: 'yildirim-texture-2011', place: 'chickpea starch swells at 60-61 C; 70 recommended here' },
  };
}

const COMMON_BEAN_SOAK: SoakKinetics = {
  // Calibrated to 127 % dry basis in 10/6/4 h at 25/35/45 C; only the ratio k1/k2 is free, taken as 1.5 h (1.0-2.2).
  k1Hours: entry(1.03, 0.75, 1.4, 'h/(kg/kg)', 'kwofie-2019', '127 % at 10 h, 25 C; ratio k1/k2 taken as 1.5 h'),
  referenceC: 25,
  k2: entry(0.685, 0.63, 0.745, '1/(kg/kg)', 'kwofie-2019', 'limit of uptake 127 +- 5 % at 10 h'),
  activation: [
    // 38 is the careful end in the cold: the soak takes longer than 25 would say.
    { upToC: 20, kJPerMol: entry(38, 25, 42, 'kJ/mol', 'kwofie-2019', 'time ratios 10/6/4 h give 39 and 36') },
    { upToC: 60, kJPerMol: entry(25, 18, 37, 'kJ/mol', 'ulloa-beans', 'time ratio 0.47 from 25 to 55 C gives 20') },
    {
      upToC: 130,
      kJPerMol: estimate(9.3, 5, 15, 'kJ/mol', 'yildirim-2011', 'chickpea 9.34 above 61.5 C', 'chickpea value'),
    },
  ],
  lagHours: 0,
};

const CHICKPEA_SOAK: SoakKinetics = {
  k1Hours: entry(2.674, 2.0, 3.5, 'h/(kg/kg)', 'yildirim-2010', '96.28 s/% at 20 C'),
  referenceC: 20,
  k2: entry(0.745, 0.69, 0.81, '1/(kg/kg)', 'yildirim-2010', '7.45e-3 /%'),
  activation: [
    { upToC: 60, kJPerMol: entry(36, 28.7, 44, 'kJ/mol', 'cimini-2021', '36 +- 6; 28.7 in Yildirim 2011') },
    { upToC: 130, kJPerMol: entry(9.34, 5, 15, 'kJ/mol', 'yildirim-2011', 'above 61.5 C') },
  ],
  lagHours: 0,
};

const SOYBEAN_SOAK: SoakKinetics = {
  k1Hours: entry(
    2.372,
    1.7,
    3.3,
    'h/(kg/kg)',
    'cimini-2021',
    '1.57 h at 25 C brought to 20 C; two sources differ x2.5',
  ),
  referenceC: 20,
  k2: entry(0.586, 0.54, 0.64, '1/(kg/kg)', 'cimini-2021', 'limit 1.8 kg/kg'),
  activation: [
    { upToC: 20, kJPerMol: estimate(45, 30, 60, 'kJ/mol', 'cimini-2021', '60 +- 3 from 12 to 36 C against 30') },
    {
      upToC: 30,
      kJPerMol: entry(30, 22, 45, 'kJ/mol', 'korean-soybean-1987', 'own weight in 7.5 h at 20, 5 h at 30 C'),
    },
    { upToC: 130, kJPerMol: entry(15, 10, 21, 'kJ/mol', 'korean-soybean-1987', 'own weight in 3.5 h at 50 C') },
  ],
  lagHours: 0,
};

const COWPEA_SOAK: SoakKinetics = {
  k1Hours: entry(0.248, 0.15, 0.45, 'h/(kg/kg)', 'uffia-cowpea-2024', '50.52 and 53.35 % wet basis at 1 and 2 h'),
  referenceC: 28,
  k2: entry(0.821, 0.76, 0.89, '1/(kg/kg)', 'uffia-cowpea-2024', 'the same two points'),
  activation: [
    { upToC: 60, kJPerMol: estimate(30, 8, 40, 'kJ/mol', 'planner-derivation', '6-9 and 29-50 are both published') },
    { upToC: 130, kJPerMol: estimate(9.3, 5, 15, 'kJ/mol', 'yildirim-2011', 'chickpea value') },
  ],
  lagHours: 0,
};

const LENTIL_SOAK: SoakKinetics = {
  k1Hours: estimate(0.33, 0.165, 0.66, 'h/(kg/kg)', 'planner-derivation', 'size and diffusion scaled from chickpea'),
  referenceC: 25,
  k2: estimate(0.87, 0.78, 0.97, '1/(kg/kg)', 'planner-derivation', 'limit of uptake about 1.15'),
  activation: [
    { upToC: 60, kJPerMol: entry(39.7, 12, 45, 'kJ/mol', 'turkish-legume-diffusion', '39.7; 12.2 in Kumar 2018') },
    { upToC: 130, kJPerMol: estimate(9.3, 5, 15, 'kJ/mol', 'yildirim-2011', 'chickpea value') },
  ],
  lagHours: 0,
};

const SPLIT_SOAK: SoakKinetics = {
  ...LENTIL_SOAK,
  // A split seed takes water 1.75 times as fast as a whole one: D 1.79 at 15 C and 1.69 at 45 C.
  k1Hours: entry(0.33 / 1.75, 0.095, 0.38, 'h/(kg/kg)', 'kumar-lentil-2018', 'split/whole diffusion 1.79 and 1.69'),
};

const WHOLE_PEA_SOAK: SoakKinetics = {
  k1Hours: estimate(1.05, 0.7, 1.6, 'h/(kg/kg)', 'pea-absorption-2022', 'ten hours named as the best soak'),
  referenceC: 25,
  k2: estimate(0.95, 0.85, 1.06, '1/(kg/kg)', 'planner-derivation', 'limit of uptake about 1.05'),
  activation: [
    { upToC: 60, kJPerMol: entry(30.5, 27, 34, 'kJ/mol', 'pea-hydration-model', '29.3; 32.0 in the 2022 paper') },
    { upToC: 130, kJPerMol: estimate(9.3, 5, 15, 'kJ/mol', 'yildirim-2011', 'chickpea value') },
  ],
  lagHours: 0,
};

const MUNG_SOAK: SoakKinetics = {
  // The initial slope 0.056 /h at 20 C comes after a lag; taken with the limit of lentils.
  k1Hours: estimate(6, 3.5, 9, 'h/(kg/kg)', 'wang-mung-2017', 'slope 0.056 /h at 20 C is the slow first stage'),
  referenceC: 20,
  k2: estimate(0.75, 0.65, 0.87, '1/(kg/kg)', 'planner-derivation', 'limit of uptake about 1.3'),
  activation: [{ upToC: 130, kJPerMol: entry(60, 50, 66, 'kJ/mol', 'wang-mung-2017', 'slopes at 20, 40, 60 C') }],
  lagHours: 1,
};

const ADZUKI_SOAK: SoakKinetics = {
  k1Hours: estimate(4, 2.5, 6.5, 'h/(kg/kg)', 'adzuki-rehydration-2024', 'half in 8-10 h, full in 12-24 h'),
  referenceC: 20,
  k2: estimate(0.75, 0.65, 0.87, '1/(kg/kg)', 'planner-derivation', 'limit of uptake about 1.3'),
  activation: [{ upToC: 130, kJPerMol: estimate(38, 25, 50, 'kJ/mol', 'kwofie-2019', 'common-bean value') }],
  lagHours: 3,
};

/** Solids that stay in a pulse boiled and drained: butter beans lose 10.5-12.5 %, chickpeas 10.2 %. */
const SOLIDS_KEPT: Parameter = entry(0.9, 0.82, 0.97, 'kg/kg', 'lowe-cookery', 'butter beans; Yildirim 2011 chickpea');

function held(value: number, place: string): Parameter {
  return entry(
    value,
    value * 0.88,
    value * 1.15,
    'g/g',
    'usda-sr28',
    `${place}: raw and cooked water, 0.90 of solids kept`,
  );
}
function heldLike(value: number, other: string): Parameter {
  return estimate(value, value * 0.8, value * 1.2, 'g/g', 'usda-sr28', `as ${other}`);
}

const PULSE = { ...PLAIN, group: 'pulse' as const, soakable: true, foams: true, solidsKept: SOLIDS_KEPT };
const KIDNEY = { ...PULSE, lectin: 'kidney-family' as const, soak: COMMON_BEAN_SOAK };

const COMMON_PLACE = 'paired trial 109.5 -> 84.6 min; kitchen tables 45-120';

/** A common bean (Phaseolus vulgaris) differs from the others of its species by a few minutes only. */
function commonBeanTimes(soft: [number, number, number] = [85, 57, 125]): CookingKinetics {
  return pulseKinetics({ soft, hydration: [25, 16, 40], key: 'bioversity-ciat-soaking', place: COMMON_PLACE });
}

export const PULSES: readonly Food[] = [
  {
    ...KIDNEY,
    id: 'kidney-bean',
    name: 'Kidney beans',
    kinetics: commonBeanTimes(),
    absorbedGPerG: held(1.49, 'kidney'),
    ...composition({ kcal: 337, proteinG: 22.53, waterG: 11.75, gPerL: 778, place: 'NDB 16032' }),
  },
  {
    ...KIDNEY,
    id: 'black-bean',
    name: 'Black beans',
    kinetics: commonBeanTimes([80, 54, 118]),
    absorbedGPerG: held(1.43, 'black'),
    ...composition({ kcal: 341, proteinG: 21.6, waterG: 11.02, gPerL: 820, place: 'NDB 16014' }),
  },
  {
    ...KIDNEY,
    id: 'pinto-bean',
    name: 'Pinto beans',
    kinetics: commonBeanTimes(),
    absorbedGPerG: held(1.24, 'pinto'),
    ...composition({ kcal: 347, proteinG: 21.42, waterG: 11.33, gPerL: 816, place: 'NDB 16042' }),
  },
  {
    ...KIDNEY,
    id: 'navy-bean',
    name: 'Navy beans',
    kinetics: commonBeanTimes(),
    absorbedGPerG: held(1.27, 'navy'),
    ...composition({
      kcal: 337,
      proteinG: 22.33,
      waterG: 12.1,
      gPerL: 879,
      place: 'NDB 16037, energy and protein recalled',
      estimated: true,
    }),
  },
  {
    ...KIDNEY,
    id: 'great-northern-bean',
    name: 'Great northern beans',
    kinetics: commonBeanTimes([80, 54, 118]),
    absorbedGPerG: held(1.68, 'great northern'),
    ...composition({
      kcal: 339,
      proteinG: 21.86,
      waterG: 10.7,
      gPerL: 773,
      place: 'NDB 16024, energy and protein recalled',
      estimated: true,
    }),
  },
  {
    ...KIDNEY,
    id: 'small-red-bean',
    name: 'Small red beans',
    kinetics: commonBeanTimes([90, 60, 133]),
    absorbedGPerG: heldLike(1.45, 'kidney and black beans'),
    ...composition({
      kcal: 337,
      proteinG: 22.5,
      waterG: 11.75,
      gPerL: 800,
      place: 'NDB 16032, kidney bean as stand-in',
      estimated: true,
    }),
  },
  {
    ...KIDNEY,
    id: 'unknown-bean',
    name: 'Beans of unknown kind',
    kinetics: pulseKinetics({
      soft: [90, 55, 145],
      hydration: [30, 16, 50],
      key: 'cooking-practice',
      place: 'slow end of the common beans',
      estimated: true,
    }),
    absorbedGPerG: heldLike(1.4, 'the common beans'),
    ...composition({
      kcal: 340,
      proteinG: 22,
      waterG: 11.5,
      gPerL: 790,
      place: 'mean of the common beans',
      estimated: true,
    }),
    cautions: ['A bean of unknown kind is treated as a kidney bean.'],
  },
  {
    ...KIDNEY,
    id: 'lima-bean',
    name: 'Lima beans',
    kinetics: pulseKinetics({
      soft: [60, 42, 88],
      hydration: [25, 14, 42],
      key: 'us-bean-chart',
      place: 'baby lima 45-60 min; large lima longer',
      estimated: true,
      z: 'assumed-common-bean',
    }),
    absorbedGPerG: held(1.77, 'lima, large'),
    ...composition({
      kcal: 338,
      proteinG: 21.46,
      waterG: 10.17,
      gPerL: 752,
      place: 'NDB 16071, energy and protein recalled',
      estimated: true,
    }),
    cautions: ['Lima beans hold cyanide-forming glucosides: boil in an open pot and pour the cooking water away.'],
  },
  {
    ...PULSE,
    soak: { ...COMMON_BEAN_SOAK, lagHours: 0.5 },
    id: 'fava-bean',
    name: 'Broad (fava) beans',
    kinetics: pulseKinetics({
      soft: [70, 45, 110],
      hydration: [35, 20, 60],
      key: 'cooking-practice',
      place: 'soaked 45-90 min, recalled',
      estimated: true,
      z: 'assumed-common-bean',
    }),
    absorbedGPerG: heldLike(1.5, 'the common beans'),
    ...composition({
      kcal: 341,
      proteinG: 26.12,
      waterG: 10.98,
      gPerL: 634,
      place: 'NDB 16052, recalled',
      estimated: true,
    }),
    cautions: ['People with favism (G6PD deficiency) must not eat broad beans.'],
  },
  {
    ...PULSE,
    soak: CHICKPEA_SOAK,
    id: 'chickpea',
    name: 'Chickpeas',
    kinetics: pulseKinetics({
      // 100 is the middle of the kitchen tables; pressure times and the 90 C bath (360 min) both ask for more.
      soft: [110, 75, 155],
      hydration: [40, 25, 65],
      key: 'usa-pulses',
      place: 'soaked 90-120; 60-90 in another; bath of 90 C 360 min',
      z: 'assumed-common-bean',
      zAbove: estimate(22, 18, 27, 'K', 'pressure-cooker-timetables', '7-10 min and release, 14-17 at lower pressure'),
    }),
    absorbedGPerG: held(1.09, 'chickpea'),
    ...composition({ kcal: 378, proteinG: 20.47, waterG: 7.68, gPerL: 845, place: 'NDB 16056' }),
  },
  {
    ...PULSE,
    soak: COWPEA_SOAK,
    id: 'black-eyed-pea',
    name: 'Black-eyed peas',
    kinetics: pulseKinetics({
      soft: [70, 40, 130],
      hydration: [20, 10, 35],
      key: 'cowpea-thirteen-lines',
      place: '13 lines 41.5-135 min; bath of 90 C 240 min',
      z: 'assumed-common-bean',
    }),
    absorbedGPerG: held(1.73, 'black-eyed pea'),
    ...composition({ kcal: 336, proteinG: 23.52, waterG: 11.95, gPerL: 706, place: 'NDB 16062' }),
  },
  {
    ...PULSE,
    soak: ADZUKI_SOAK,
    id: 'adzuki-bean',
    name: 'Adzuki beans',
    kinetics: pulseKinetics({
      soft: [45, 30, 65],
      hydration: [20, 12, 35],
      key: 'trade-cooking-tables',
      place: 'soaked 45 min; unsoaked 60-75 recalled',
      z: 'assumed-common-bean',
    }),
    absorbedGPerG: held(1.4, 'adzuki'),
    ...composition({
      kcal: 329,
      proteinG: 19.87,
      waterG: 13.44,
      gPerL: 833,
      place: 'NDB 16001, energy and protein recalled',
      estimated: true,
    }),
  },
  {
    ...PULSE,
    soak: MUNG_SOAK,
    id: 'mung-bean',
    name: 'Mung beans',
    kinetics: pulseKinetics({
      soft: [30, 20, 45],
      hydration: [15, 9, 25],
      key: 'trade-cooking-tables',
      place: 'soaked 45 min; unsoaked 30-60 recalled',
      z: 'assumed-common-bean',
    }),
    absorbedGPerG: held(2.08, 'mung'),
    ...composition({ kcal: 347, proteinG: 23.86, waterG: 9.05, gPerL: 875, place: 'NDB 16080' }),
  },
  {
    ...PULSE,
    soak: SOYBEAN_SOAK,
    id: 'soybean',
    name: 'Soybeans',
    kinetics: pulseKinetics({
      soft: [150, 110, 195],
      hydration: [60, 35, 95],
      key: 'trade-cooking-tables',
      place: 'soaked 150 min; unsoaked 180-240 recalled',
      z: 'soy-and-pea',
      // Timetables ask for 8-11 min and release (11-14 in all) where the instrument's z 16 gives 7.
      zAbove: estimate(18, 15, 23, 'K', 'pressure-cooker-timetables', '8-11 min and release; Quast 1977 has 16'),
    }),
    allergens: ['soy'],
    absorbedGPerG: held(1.29, 'soybean'),
    ...composition({ kcal: 446, proteinG: 36.49, waterG: 8.54, gPerL: 786, place: 'NDB 16108' }),
    cautions: [
      'Soybeans must be cooked until soft all through: raw ones hold a lectin and enzyme inhibitors of their own.',
    ],
  },
  {
    ...PULSE,
    soak: LENTIL_SOAK,
    id: 'lentil-brown',
    name: 'Brown or green lentils',
    kinetics: pulseKinetics({
      // Soft enough to eat, 30 min together; a needle test asks for 56, which is another end-point.
      soft: [18, 11.5, 27],
      hydration: [12, 7.5, 18],
      key: 'usa-pulses',
      place: 'unsoaked 20-40; 15-20 and 30-45 in sister tables; split into softening and hydration 18 + 12',
      z: 'assumed-common-bean',
    }),
    absorbedGPerG: held(1.75, 'lentil'),
    ...composition({ kcal: 352, proteinG: 24.63, waterG: 8.26, gPerL: 812, place: 'NDB 16069' }),
  },
  {
    ...PULSE,
    soak: SPLIT_SOAK,
    id: 'lentil-red',
    name: 'Red split lentils',
    kinetics: pulseKinetics({
      soft: [6, 3.6, 9],
      hydration: [4, 2.4, 6.2],
      key: 'usa-pulses',
      place: 'unsoaked 5-10; 6-12 and 10-15 in sister tables',
      z: 'assumed-common-bean',
    }),
    absorbedGPerG: heldLike(1.75, 'brown lentils'),
    solidsKept: PLAIN.solidsKept,
    ...composition({ kcal: 358, proteinG: 23.91, waterG: 7.82, gPerL: 812, place: 'NDB 16144' }),
  },
  {
    ...PULSE,
    soak: SPLIT_SOAK,
    id: 'split-pea',
    name: 'Split peas',
    kinetics: pulseKinetics({
      soft: [24, 17.5, 32],
      hydration: [14, 10, 19.5],
      key: 'usa-pulses',
      place: 'unsoaked 35-40; 30-45 in sister tables',
      z: 'soy-and-pea',
    }),
    absorbedGPerG: held(1.71, 'split pea'),
    solidsKept: PLAIN.solidsKept,
    ...composition({ kcal: 352, proteinG: 23.82, waterG: 8.62, gPerL: 833, place: 'NDB 16085' }),
  },
  {
    ...PULSE,
    soak: WHOLE_PEA_SOAK,
    id: 'whole-pea',
    name: 'Whole dry peas',
    kinetics: pulseKinetics({
      soft: [60, 36, 90],
      hydration: [40, 24, 64],
      key: 'pulse-canada-guide',
      place: 'soaked 60-90; 35-40 in another; unsoaked 120 recalled',
      z: 'soy-and-pea',
      // Dry-pea z 16 gives 3 min at 15 psi where timetables say 6-9 and release, 13-16 and 20.
      zAbove: estimate(22, 16, 32, 'K', 'pressure-cooker-timetables', '6-9 min and release; 13-16; 20 in the booklet'),
    }),
    absorbedGPerG: heldLike(1.71, 'split peas'),
    ...composition({
      kcal: 352,
      proteinG: 23.82,
      waterG: 8.62,
      gPerL: 774,
      place: 'NDB 16085, split pea as stand-in; trade test weight',
      estimated: true,
    }),
  },
];
