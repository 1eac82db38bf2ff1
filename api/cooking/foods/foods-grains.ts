/** Grains, pasta, flour and fresh potato. One softening term: water enters while it cooks. */
import type { Parameter } from '../../physics/parameter.ts';
import type { WorkKey } from '../../references/works-cited.ts';
import type { CookingKinetics, Food, SoakKinetics } from './food.ts';
import { composition, entry, estimate, PLAIN } from './food-parameters.ts';

const Z_GRAIN_BELOW = entry(35, 31, 42, 'K', 'suzuki-rice', '37 from 71 kJ/mol; 33 where the rate doubles per 10 K');
const Z_GRAIN_BELOW_ASSUMED = { ...Z_GRAIN_BELOW, p10: 29, p90: 45, estimate: true, note: 'value of rice' };
const Z_GRAIN_ABOVE = estimate(50, 36, 75, 'K', 'pressure-cooker-timetables', 'fitted to seven grain times at 15 psi');
const Z_ROOT = estimate(30, 24, 38, 'K', 'planner-derivation', '21 to 41 from boiled, pressure and rate data');

function boil(
  minutes: [number, number, number],
  key: WorkKey,
  place: string,
  options: { rice?: boolean; root?: boolean; estimated?: boolean } = {},
): CookingKinetics {
  const make = options.estimated ? estimate : entry;
  return {
    kind: 'boil',
    softeningMinutes: make(...minutes, 'min', key, place),
    hydrationMinutes: null,
    zBelowC: options.root ? Z_ROOT : options.rice ? Z_GRAIN_BELOW : Z_GRAIN_BELOW_ASSUMED,
    zAboveC: options.root ? Z_ROOT : Z_GRAIN_ABOVE,
    // Rice was followed from 75 to 150 C; the other grains borrow its z. Potato in water of 82-88 C and under pressure.
    measuredFromC: options.root ? 82 : 75,
    measuredToC: options.root ? 121 : 150,
    cutOffC: options.root ? 80 : 61,
    cutOffSource: options.root
      ? { key: 'potato-83c-text', place: '84 C, yet potatoes were cooked at 82-88 C (Popali 1979): 80 taken' }
      : { key: 'rice-cooking-curve', place: 'grains swell from 61 C' },
  };
}

function held(value: number, place: string, key: WorkKey = 'usda-sr28'): Parameter {
  return entry(value, value * 0.85, value * 1.15, 'g/g', key, place);
}
function heldEstimate(value: number, place: string): Parameter {
  return estimate(value, value * 0.75, value * 1.25, 'g/g', 'cooking-practice', place);
}

const WHEAT_SOAK: SoakKinetics = {
  k1Hours: estimate(3.3, 2.2, 5, 'h/(kg/kg)', 'cooking-practice', '12 h at 25 C to about 43 % water, recalled'),
  referenceC: 25,
  k2: estimate(1.33, 1.15, 1.55, '1/(kg/kg)', 'cooking-practice', 'limit of uptake about 0.75, recalled'),
  activation: [
    { upToC: 60, kJPerMol: entry(36, 29.5, 39.9, 'kJ/mol', 'yildirim-wheat', 'four cultivars, 25-50 C') },
    { upToC: 130, kJPerMol: estimate(9.3, 5, 15, 'kJ/mol', 'yildirim-2011', 'chickpea value') },
  ],
  lagHours: 0,
};

const BROWN_RICE_SOAK: SoakKinetics = {
  // Taken so that 4 h at 25 C and about 12 h at 10 C reach nine tenths of the limit.
  k1Hours: estimate(1.2, 0.8, 1.9, 'h/(kg/kg)', 'cooking-practice', 'full at 4 h at 25 C, 12 h at 10 C, assumed'),
  referenceC: 25,
  k2: estimate(2.7, 2.3, 3.2, '1/(kg/kg)', 'cooking-practice', 'limit of uptake about 0.37, assumed'),
  activation: [{ upToC: 130, kJPerMol: entry(37.3, 31, 43, 'kJ/mol', 'thakur-gupta', 'brown rice, 30-60 C') }],
  lagHours: 0,
};

const MILLED_RICE_SOAK: SoakKinetics = {
  // Peleg through half in 0.5 h; saturated at 0.20-0.30 g/g as bought.
  k1Hours: entry(1.35, 0.9, 2, 'h/(kg/kg)', 'rice-water-absorption', 'half of saturation in 0.5 h at 10-20 C'),
  referenceC: 15,
  k2: entry(2.7, 2.4, 3.6, '1/(kg/kg)', 'rice-water-absorption', '0.20-0.30 g/g'),
  activation: [{ upToC: 130, kJPerMol: estimate(20, 5, 37, 'kJ/mol', 'thakur-gupta', 'brown rice 37; 10-20 C alike') }],
  lagHours: 0,
};

const GRAIN = { ...PLAIN, group: 'grain' as const };
const GLUTEN = { ...GRAIN, allergens: ['gluten' as const] };
const WHOLE_GRAIN = { ...GRAIN, soakable: true };

const RICE_SAVING = entry(
  0.25,
  0.2,
  0.3,
  'share',
  'ruhuna-rice',
  '0.24-0.30 of energy after 8 h; 0.04 at 1 h, Roy 2004',
);

export const GRAINS: readonly Food[] = [
  {
    ...GRAIN,
    id: 'white-rice',
    name: 'White rice',
    kinetics: boil([15, 12, 20], 'trade-cooking-tables', '15, 15-18 min', { rice: true }),
    soak: MILLED_RICE_SOAK,
    soakSavesShare: RICE_SAVING,
    absorbedGPerG: held(1.8, 'white rice, long: raw and cooked water'),
    ...composition({ kcal: 365, proteinG: 7.13, waterG: 11.62, gPerL: 782, place: 'NDB 20044' }),
  },
  {
    ...GRAIN,
    id: 'parboiled-rice',
    name: 'Parboiled rice',
    kinetics: boil([22, 18, 27], 'trade-cooking-tables', '20-25 min', { rice: true }),
    soak: MILLED_RICE_SOAK,
    soakSavesShare: estimate(0.2, 0.1, 0.3, 'share', 'roy-2004', '0.06-0.11 of energy at 1 h'),
    absorbedGPerG: held(2.0, '2.5 cups of water to one', 'ucd-grains-chart'),
    ...composition({ kcal: 374, proteinG: 7.51, waterG: 9.86, gPerL: 782, place: 'NDB 20046' }),
  },
  {
    ...WHOLE_GRAIN,
    id: 'brown-rice',
    name: 'Brown rice',
    kinetics: boil([45, 35, 56], 'ucd-grains-chart', '45-55 min; 45-50 in another', { rice: true }),
    soak: BROWN_RICE_SOAK,
    soakSavesShare: estimate(0.2, 0.1, 0.35, 'share', 'ruhuna-rice', 'milled rice', 'no trial with brown rice'),
    absorbedGPerG: held(2.33, 'brown rice, long: raw and cooked water'),
    ...composition({ kcal: 367, proteinG: 7.54, waterG: 11.8, gPerL: 782, place: 'NDB 20036' }),
  },
  {
    ...GLUTEN,
    soakable: true,
    id: 'pearl-barley',
    name: 'Pearl barley',
    kinetics: boil([50, 40, 61], 'ucd-grains-chart', '50-60 min; 45-55 in another'),
    soak: {
      // Peleg through 14.6 % at 15 min... 53.9 % at 300 min and 15 C (Y = 5.50 min^0.40).
      k1Hours: estimate(3.4, 2.4, 4.8, 'h/(kg/kg)', 'shimoda-1998', '70 % polished barley at 15 C'),
      referenceC: 15,
      k2: estimate(1.05, 0.9, 1.3, '1/(kg/kg)', 'shimoda-1998', '53.9 % at 300 min'),
      activation: [{ upToC: 130, kJPerMol: estimate(24, 15, 35, 'kJ/mol', 'shimoda-1998', 'Y = 2.047 (T min)^0.382') }],
      lagHours: 0,
    },
    soakSavesShare: estimate(0.25, 0.1, 0.4, 'share', 'cooking-practice', 'between rice and wheat'),
    absorbedGPerG: held(1.88, 'pearled barley: raw and cooked water'),
    ...composition({ kcal: 352, proteinG: 9.91, waterG: 10.09, gPerL: 845, place: 'NDB 20005' }),
  },
  {
    ...GLUTEN,
    soakable: true,
    id: 'hulled-barley',
    name: 'Hulled barley',
    kinetics: boil([80, 60, 107], 'ucd-grains-chart', '75 min; 105 in another'),
    soak: WHEAT_SOAK,
    soakSavesShare: estimate(0.4, 0.2, 0.6, 'share', 'whole-grain-times', 'as wheat'),
    absorbedGPerG: heldEstimate(1.9, 'as pearl barley'),
    ...composition({
      kcal: 354,
      proteinG: 12.48,
      waterG: 9.44,
      gPerL: 778,
      place: 'NDB 20004, recalled',
      estimated: true,
    }),
  },
  {
    ...GLUTEN,
    soakable: true,
    id: 'wheat-berry',
    name: 'Wheat berries',
    kinetics: boil([95, 58, 125], 'ucd-grains-chart', '120; 70 and 50-60 in others: cultivar'),
    soak: WHEAT_SOAK,
    soakSavesShare: entry(0.5, 0.3, 0.67, 'share', 'whole-grain-times', '90 -> 30-45 min overnight, weak'),
    absorbedGPerG: held(1.55, 'khorasan wheat: raw and cooked water'),
    ...composition({ kcal: 327, proteinG: 12.61, waterG: 13.1, gPerL: 812, place: 'NDB 20072' }),
  },
  {
    ...GLUTEN,
    id: 'bulgur',
    standMinutesCold: estimate(
      60,
      40,
      90,
      'min',
      'cooking-practice',
      'parboiled when made: salads of it stand in cold water',
    ),
    name: 'Bulgur',
    kinetics: boil([15, 11, 22], 'ucd-grains-chart', 'simmer 15; steeped 15 in another'),
    absorbedGPerG: held(2.6, 'raw and cooked water says 3.09, two cups to one 3.4, as eaten less'),
    ...composition({ kcal: 342, proteinG: 12.29, waterG: 9, gPerL: 592, place: 'NDB 20012' }),
  },
  {
    ...GRAIN,
    id: 'quinoa',
    name: 'Quinoa',
    kinetics: boil([16, 13, 20], 'ucd-grains-chart', '15-20 min'),
    absorbedGPerG: heldEstimate(2.05, 'raw 13.3 and cooked 71.6 % water, recalled'),
    ...composition({ kcal: 368, proteinG: 14.12, waterG: 13.28, gPerL: 719, place: 'NDB 20035' }),
  },
  {
    ...GRAIN,
    id: 'millet',
    name: 'Millet',
    kinetics: boil([22, 16, 30], 'ucd-grains-chart', '20-25; 25-30 and 10 standing in another'),
    absorbedGPerG: heldEstimate(2.19, 'raw 8.7 and cooked 71.4 % water, recalled'),
    ...composition({ kcal: 378, proteinG: 11.02, waterG: 8.67, gPerL: 845, place: 'NDB 20031' }),
  },
  {
    ...GRAIN,
    id: 'buckwheat',
    name: 'Buckwheat groats',
    kinetics: boil([15, 11, 20], 'ucd-grains-chart', '15 min in two charts'),
    absorbedGPerG: heldEstimate(2.4, 'two cups to one; cooked 75.7 % water recalled'),
    ...composition({
      kcal: 346,
      proteinG: 11.73,
      waterG: 8.41,
      gPerL: 693,
      place: 'NDB 20009, recalled',
      estimated: true,
    }),
  },
  {
    ...GLUTEN,
    id: 'rolled-oats',
    standMinutesCold: estimate(
      25,
      10,
      60,
      'min',
      'cooking-practice',
      'steamed when rolled: muesli stands in cold water',
    ),
    name: 'Rolled oats',
    kinetics: boil([5, 3.5, 8], 'grain-chart-2004', '5 min'),
    foams: true,
    absorbedGPerG: held(4.44, 'porridge: raw and cooked water'),
    ...composition({ kcal: 379, proteinG: 13.15, waterG: 10.84, gPerL: 342, place: 'NDB 08120' }),
  },
  {
    ...GLUTEN,
    id: 'quick-oats',
    standMinutesCold: estimate(
      10,
      5,
      30,
      'min',
      'cooking-practice',
      'steamed when rolled: muesli stands in cold water',
    ),
    name: 'Quick oats',
    kinetics: boil([1, 0.7, 2], 'grain-chart-2004', '1 min and stand'),
    foams: true,
    absorbedGPerG: held(4.44, 'porridge: raw and cooked water'),
    ...composition({ kcal: 379, proteinG: 13.15, waterG: 10.84, gPerL: 342, place: 'NDB 08120' }),
  },
  {
    ...GLUTEN,
    soakable: true,
    id: 'steel-cut-oats',
    name: 'Steel-cut oats',
    kinetics: boil([25, 19, 32], 'grain-chart-2004', '20; 25-30 in another'),
    foams: true,
    soak: WHEAT_SOAK,
    soakSavesShare: estimate(0.4, 0.2, 0.6, 'share', 'cooking-practice', 'as wheat'),
    absorbedGPerG: held(4.2, 'four cups to one', 'grain-chart-2004'),
    ...composition({
      kcal: 379,
      proteinG: 13.15,
      waterG: 10.84,
      gPerL: 660,
      place: 'NDB 08120',
      densityEstimated: true,
    }),
  },
  {
    ...GRAIN,
    id: 'cornmeal',
    name: 'Fine cornmeal',
    kinetics: boil([10, 7.5, 14], 'ucd-grains-chart', '8-10 min'),
    foams: true,
    absorbedGPerG: heldEstimate(4.5, 'soft porridge'),
    ...composition({ kcal: 370, proteinG: 7.11, waterG: 11.18, gPerL: 664, place: 'NDB 20022' }),
  },
  {
    ...GRAIN,
    id: 'polenta',
    name: 'Coarse polenta',
    kinetics: boil([25, 19, 35], 'ucd-grains-chart', '20-25 min'),
    foams: true,
    absorbedGPerG: heldEstimate(4, 'firm porridge'),
    ...composition({
      kcal: 370,
      proteinG: 7.11,
      waterG: 11.18,
      gPerL: 690,
      place: 'NDB 20022',
      densityEstimated: true,
    }),
  },
  {
    ...WHOLE_GRAIN,
    id: 'hominy',
    name: 'Dried hominy',
    kinetics: boil([300, 180, 360], 'grain-chart-2004', '300-360; 120-240 after a soak of 8-24 h, practice'),
    soak: WHEAT_SOAK,
    soakSavesShare: estimate(0.4, 0.2, 0.6, 'share', 'cooking-practice', '120-240 against 300-360 min'),
    absorbedGPerG: heldEstimate(2, 'three cups from one'),
    ...composition({
      kcal: 365,
      proteinG: 9.42,
      waterG: 10.37,
      gPerL: 702,
      place: 'NDB 20014, whole maize as stand-in',
      estimated: true,
    }),
  },
  {
    ...GLUTEN,
    group: 'pasta',
    id: 'pasta',
    name: 'Pasta',
    kinetics: boil([10, 7.5, 13], 'cooking-practice', '8-12 min', { estimated: true }),
    foams: true,
    absorbedGPerG: heldEstimate(1.2, 'takes up 1.1-1.3 g/g'),
    ...composition({ kcal: 371, proteinG: 13.04, waterG: 9.9, gPerL: 516, place: 'NDB 20120' }),
  },
  {
    ...GLUTEN,
    allergens: ['gluten', 'egg'],
    group: 'pasta',
    id: 'egg-noodles',
    name: 'Egg noodles',
    kinetics: boil([8, 6, 10], 'cooking-practice', '6-10 min', { estimated: true }),
    foams: true,
    absorbedGPerG: heldEstimate(1.4, 'as pasta, thinner'),
    ...composition({
      kcal: 384,
      proteinG: 14.16,
      waterG: 9.01,
      gPerL: 160,
      place: 'NDB 20109, recalled',
      estimated: true,
    }),
  },
  {
    ...GLUTEN,
    id: 'couscous',
    name: 'Couscous',
    kinetics: {
      kind: 'ready',
      standMinutesHot: entry(6, 5, 10, 'min', 'grain-chart-2004', '5-10 min steeped; 5 in another'),
      standMinutesCold: estimate(30, 20, 60, 'min', 'cooking-practice', 'cold water'),
      eatDry: false,
    },
    absorbedGPerG: held(2.05, '1 dry cup of 173 g to 528 g'),
    ...composition({ kcal: 376, proteinG: 12.76, waterG: 8.56, gPerL: 731, place: 'NDB 20028' }),
  },
  {
    ...GRAIN,
    id: 'instant-rice',
    name: 'Instant rice',
    kinetics: {
      kind: 'ready',
      standMinutesHot: estimate(6, 5, 10, 'min', 'cooking-practice', 'boiling water, covered'),
      standMinutesCold: estimate(40, 25, 60, 'min', 'cooking-practice', 'cold water'),
      eatDry: false,
    },
    absorbedGPerG: heldEstimate(1.9, 'equal volumes of rice and water, taken up'),
    ...composition({ kcal: 380, proteinG: 7.82, waterG: 8.38, gPerL: 402, place: 'NDB 20048' }),
  },
  {
    ...GLUTEN,
    group: 'flour',
    id: 'wheat-flour',
    name: 'Wheat flour',
    kinetics: boil([5, 3, 10], 'cooking-practice', 'until the raw taste is gone', { estimated: true }),
    absorbedGPerG: heldEstimate(5, 'thick gruel: one part to five of water, stiff paste below three'),
    ...composition({ kcal: 364, proteinG: 10.33, waterG: 11.92, gPerL: 528, place: 'NDB 20081' }),
  },
  {
    ...PLAIN,
    group: 'root',
    id: 'potato-diced',
    name: 'Potato, fresh, diced',
    kinetics: boil([12, 8.5, 18], 'trade-cooking-tables', '13 mm 8-12, 25 mm 15-20 min, weak', {
      root: true,
      estimated: true,
    }),
    absorbedGPerG: estimate(0, -0.02, 0.02, 'g/g', 'cooking-practice', 'boiled potato keeps its water'),
    ...composition({
      kcal: 77,
      proteinG: 2.05,
      waterG: 79.3,
      gPerL: 634,
      place: 'NDB 11352, recalled',
      estimated: true,
    }),
  },
];
