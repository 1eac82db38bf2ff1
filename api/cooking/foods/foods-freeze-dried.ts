/**
 * Freeze-dried and air-dried foods, milk and egg powder.
 *
 * Composition of freeze-dried rows: `dry = fresh * (100 - 2)/(100 - water of the fresh food)`, 2 % water assumed where
 * no product was found. Real uptake is 70-90 % of the mass balance (practice): 0.85 of it is taken.
 */
import type { Parameter } from '../../physics/parameter.ts';
import type { WorkKey } from '../../references/works-cited.ts';
import type { CookingKinetics, Food } from './food.ts';
import { composition, entry, estimate, PLAIN } from './food-parameters.ts';

const REAL_UPTAKE = 0.85;

type Three = [number, number, number];

function stands(
  cold: Three,
  hot: Three,
  eatDry: boolean,
  key: WorkKey = 'cooking-practice',
  place = 'cold and hot water, covered',
): CookingKinetics {
  return {
    kind: 'ready',
    standMinutesCold: estimate(...cold, 'min', key, place),
    standMinutesHot: estimate(...hot, 'min', key, place),
    eatDry,
  };
}

/** Pieces that must be simmered; z of roots and vegetables. */
function simmers(minutes: Three, key: WorkKey, place: string): CookingKinetics {
  const z = estimate(30, 22, 40, 'K', 'planner-derivation', 'roots and vegetables, 18 to 51 published');
  return {
    kind: 'boil',
    softeningMinutes: estimate(...minutes, 'min', key, place),
    hydrationMinutes: null,
    zBelowC: z,
    zAboveC: z,
    measuredFromC: 82,
    measuredToC: 121,
    cutOffC: 80,
    cutOffSource: { key: 'potato-83c-text', place: 'vegetables break down from 84 C; 80 taken' },
  };
}

/** Water back of the mass balance, and what is really taken up of it. */
function waterBack(fullGPerG: number): Parameter {
  return estimate(
    REAL_UPTAKE * fullGPerG,
    0.7 * fullGPerG,
    0.95 * fullGPerG,
    'g/g',
    'planner-derivation',
    `mass balance to the fresh or cooked food ${fullGPerG} g/g, 0.85 of it taken up`,
  );
}

const FREEZE_DRIED = { ...PLAIN, group: 'freeze-dried' as const };
const DEHYDRATED = { ...PLAIN, group: 'dehydrated' as const };

interface FreezeDriedRow {
  id: string;
  name: string;
  kcal: number;
  proteinG: number;
  gPerL: number;
  place: string;
  fullGPerG: number;
  kinetics: CookingKinetics;
}

function freezeDried(row: FreezeDriedRow): Food {
  return {
    ...FREEZE_DRIED,
    id: row.id,
    name: row.name,
    kinetics: row.kinetics,
    absorbedGPerG: waterBack(row.fullGPerG),
    ...composition({
      kcal: row.kcal,
      proteinG: row.proteinG,
      waterG: 2,
      gPerL: row.gPerL,
      place: row.place,
      estimated: true,
      densityEstimated: true,
    }),
  };
}

const MEAT = stands([25, 20, 35], [8, 5, 12], true);
const VEGETABLE = stands([10, 8, 18], [5, 3, 8], true);

export const FREEZE_DRIED_FOODS: readonly Food[] = [
  {
    ...freezeDried({
      id: 'fd-ground-beef',
      name: 'Freeze-dried cooked ground beef',
      kcal: 586,
      proteinG: 58.2,
      gPerL: 300,
      place: 'NDB 23575, x 2.16',
      fullGPerG: 1.22,
      kinetics: MEAT,
    }),
  },
  {
    ...freezeDried({
      id: 'fd-chicken',
      name: 'Freeze-dried cooked chicken',
      kcal: 465,
      proteinG: 87.5,
      gPerL: 170,
      place: 'NDB 05064, x 2.82',
      fullGPerG: 2.0,
      kinetics: MEAT,
    }),
  },
  freezeDried({
    id: 'fd-peas',
    name: 'Freeze-dried peas',
    kcal: 373,
    proteinG: 24.6,
    gPerL: 140,
    place: 'NDB 11313, x 4.79',
    fullGPerG: 3.7,
    kinetics: VEGETABLE,
  }),
  freezeDried({
    id: 'fd-sweetcorn',
    name: 'Freeze-dried sweetcorn',
    kcal: 346,
    proteinG: 10.9,
    gPerL: 150,
    place: 'NDB 11179, x 4.27',
    fullGPerG: 3.0,
    kinetics: VEGETABLE,
  }),
  freezeDried({
    id: 'fd-green-beans',
    name: 'Freeze-dried green beans',
    kcal: 380,
    proteinG: 17.4,
    gPerL: 60,
    place: 'NDB 11060, x 9.73',
    fullGPerG: 8.73,
    kinetics: VEGETABLE,
  }),
  freezeDried({
    id: 'fd-carrot',
    name: 'Freeze-dried carrot',
    kcal: 343,
    proteinG: 7.8,
    gPerL: 80,
    place: 'NDB 11124, x 8.37',
    fullGPerG: 7.37,
    kinetics: VEGETABLE,
  }),
  freezeDried({
    id: 'fd-broccoli',
    name: 'Freeze-dried broccoli',
    kcal: 296,
    proteinG: 32.7,
    gPerL: 40,
    place: 'NDB 11093, x 10.56',
    fullGPerG: 9.56,
    kinetics: VEGETABLE,
  }),
  freezeDried({
    id: 'fd-potato',
    name: 'Freeze-dried cooked potato',
    kcal: 374,
    proteinG: 7.4,
    gPerL: 110,
    place: 'NDB 11367, x 4.35',
    fullGPerG: 3.35,
    kinetics: stands([20, 12, 30], [8, 5, 12], false),
  }),
  {
    ...freezeDried({
      id: 'fd-scrambled-egg',
      name: 'Freeze-dried scrambled egg (cooked)',
      kcal: 619,
      proteinG: 41.5,
      gPerL: 150,
      place: 'NDB 01132, x 4.15',
      fullGPerG: 3.15,
      kinetics: stands([15, 10, 25], [5, 3, 8], true),
    }),
    allergens: ['egg', 'milk'],
  },
  {
    ...freezeDried({
      id: 'fd-raw-egg',
      name: 'Freeze-dried raw egg',
      kcal: 588,
      proteinG: 51.6,
      gPerL: 400,
      place: 'NDB 01123 recalled, x 4.11',
      fullGPerG: 3.11,
      kinetics: simmers([5, 3, 8], 'cooking-practice', 'until set all through'),
    }),
    allergens: ['egg'],
    rawAnimal: true,
    cautions: ['Raw egg: cook until set all through, never only rehydrated.'],
  },
  {
    ...freezeDried({
      id: 'fd-cheddar',
      name: 'Freeze-dried cheddar',
      kcal: 629,
      proteinG: 35.6,
      gPerL: 250,
      place: 'NDB 01009, x 1.56',
      fullGPerG: 0.56,
      kinetics: stands([10, 5, 15], [3, 2, 5], true),
    }),
    allergens: ['milk'],
  },
  {
    ...freezeDried({
      id: 'fd-tomato',
      name: 'Freeze-dried tomato dice',
      kcal: 321,
      proteinG: 15.7,
      gPerL: 40,
      place: 'fresh 94.5 % water, recalled, x 17.8',
      fullGPerG: 10,
      kinetics: stands([10, 6, 15], [3, 2, 5], true),
    }),
    acid: true,
  },
  {
    ...FREEZE_DRIED,
    id: 'fd-bell-pepper',
    name: 'Freeze-dried bell pepper',
    kinetics: stands([60, 30, 75], [10, 5, 20], true, 'armed-forces-a11', 'cold water 2-13 C; minutes by practice'),
    absorbedGPerG: entry(5.5, 4.5, 7, 'g/g', 'armed-forces-a11', '1 oz and 2 cups to 6.5 oz'),
    ...composition({ kcal: 314, proteinG: 17.9, waterG: 2, gPerL: 27, place: 'NDB 11634' }),
  },
  freezeDried({
    id: 'fd-strawberry',
    name: 'Freeze-dried strawberries',
    kcal: 347,
    proteinG: 7.3,
    gPerL: 50,
    place: 'NDB 09316, x 10.83',
    fullGPerG: 9.83,
    kinetics: stands([2, 0.5, 5], [1, 0.5, 3], true, 'fd-fruit-2006', 'most uptake in 30 s'),
  }),
  freezeDried({
    id: 'fd-banana',
    name: 'Freeze-dried banana',
    kcal: 348,
    proteinG: 4.3,
    gPerL: 90,
    place: 'NDB 09040, x 3.91',
    fullGPerG: 2.91,
    kinetics: stands([2, 0.5, 5], [1, 0.5, 3], true, 'fd-fruit-2006', 'most uptake in 30 s'),
  }),
];

export const DEHYDRATED_FOODS: readonly Food[] = [
  {
    ...DEHYDRATED,
    id: 'onion-flakes',
    name: 'Dried onion',
    kinetics: stands([30, 25, 60], [10, 6, 20], false, 'armed-forces-a11', '30 min at 21-32 C'),
    absorbedGPerG: entry(3, 2.5, 4, 'g/g', 'armed-forces-a11', '2 oz and 1.5 cups to 8 oz'),
    ...composition({ kcal: 349, proteinG: 8.95, waterG: 3.93, gPerL: 237, place: 'NDB 11284' }),
  },
  {
    ...DEHYDRATED,
    id: 'carrot-dehydrated',
    name: 'Dried carrot',
    kinetics: simmers([20, 15, 28], 'reynolds-dried-vegetables', '60 min soak or 20 min simmer'),
    absorbedGPerG: entry(
      5.6,
      4.5,
      7.2,
      'g/g',
      'reynolds-dried-vegetables',
      '2.25 cups to a cup of 74 g; partly drained',
    ),
    ...composition({ kcal: 341, proteinG: 8.1, waterG: 4, gPerL: 313, place: 'NDB 11683' }),
  },
  {
    ...DEHYDRATED,
    id: 'potato-dice-dehydrated',
    name: 'Dried potato dice',
    kinetics: simmers([20, 15, 25], 'army-qm6321', 'simmer 15-25 min'),
    absorbedGPerG: estimate(2.8, 2.3, 3.2, 'g/g', 'planner-derivation', 'mass balance 3.1 g/g'),
    ...composition({
      kcal: 350,
      proteinG: 8,
      waterG: 7,
      gPerL: 380,
      place: 'NDB 11378, potato flakes as stand-in',
      estimated: true,
    }),
  },
  {
    ...DEHYDRATED,
    id: 'potato-flakes',
    name: 'Potato flakes',
    kinetics: stands([10, 5, 15], [3, 2, 5], true),
    absorbedGPerG: entry(4, 3.7, 5, 'g/g', 'usda-sr28', 'to 81.2 % water'),
    ...composition({ kcal: 354, proteinG: 8.34, waterG: 6.58, gPerL: 254, place: 'NDB 11378' }),
  },
  {
    ...DEHYDRATED,
    id: 'tomato-powder',
    name: 'Tomato powder',
    kinetics: stands([2, 1, 5], [1, 0.5, 2], true),
    acid: true,
    absorbedGPerG: estimate(3, 2.7, 7, 'g/g', 'usda-sr28', '2.7 to paste, 7.0 to puree'),
    ...composition({
      kcal: 302,
      proteinG: 12.91,
      waterG: 3.06,
      gPerL: 420,
      place: 'NDB 11548',
      densityEstimated: true,
    }),
  },
  {
    ...DEHYDRATED,
    id: 'leek-dried',
    name: 'Dried leek',
    kinetics: simmers([10, 6, 15], 'cooking-practice', 'simmer in the dish'),
    absorbedGPerG: estimate(3.5, 2.5, 5, 'g/g', 'armed-forces-a11', 'as onion'),
    ...composition({
      kcal: 321,
      proteinG: 15.2,
      waterG: 4,
      gPerL: 60,
      place: 'freeze-dried leek, recalled',
      estimated: true,
    }),
  },
  {
    ...DEHYDRATED,
    id: 'mushroom-dried',
    name: 'Dried mushrooms',
    kinetics: simmers([12, 8, 20], 'cooking-practice', 'simmer in the dish'),
    absorbedGPerG: estimate(3.5, 2.5, 5, 'g/g', 'cooking-practice', 'recalled'),
    ...composition({
      kcal: 296,
      proteinG: 9.58,
      waterG: 9.5,
      gPerL: 100,
      place: 'NDB 11268, recalled',
      estimated: true,
    }),
  },
  {
    ...DEHYDRATED,
    group: 'fruit-nut',
    id: 'apple-dried',
    name: 'Dried apple',
    kinetics: stands([30, 25, 60], [10, 8, 20], true, 'reynolds-dried-vegetables', '30 min'),
    acid: true,
    absorbedGPerG: estimate(1.5, 0.8, 4.1, 'g/g', 'reynolds-dried-vegetables', '4.1 when fully soaked'),
    ...composition({ kcal: 243, proteinG: 0.93, waterG: 31.76, gPerL: 364, place: 'NDB 09011' }),
  },
  {
    ...DEHYDRATED,
    group: 'fruit-nut',
    id: 'apricot-dried',
    name: 'Dried apricots',
    kinetics: stands([75, 45, 120], [20, 15, 40], true, 'reynolds-dried-vegetables', 'as peach, 75 min'),
    acid: true,
    absorbedGPerG: estimate(0.8, 0.3, 2.1, 'g/g', 'usda-sr28', 'peach stewed 2.1'),
    ...composition({ kcal: 241, proteinG: 3.39, waterG: 30.89, gPerL: 549, place: 'NDB 09032' }),
  },
  {
    ...DEHYDRATED,
    group: 'fruit-nut',
    id: 'raisins',
    name: 'Raisins',
    kinetics: stands([30, 15, 60], [10, 5, 20], true),
    acid: true,
    absorbedGPerG: estimate(0.4, 0.1, 0.8, 'g/g', 'cooking-practice', 'recalled'),
    ...composition({ kcal: 299, proteinG: 3.07, waterG: 15.43, gPerL: 613, place: 'NDB 09298' }),
  },
  {
    ...DEHYDRATED,
    group: 'pulse',
    id: 'tvp',
    name: 'Textured soy protein',
    kinetics: stands([30, 20, 45], [10, 6, 15], false),
    allergens: ['soy'],
    absorbedGPerG: estimate(2, 1.6, 2.6, 'g/g', 'cooking-practice', 'about two parts of water to one by weight'),
    ...composition({
      kcal: 328,
      proteinG: 54,
      waterG: 5.8,
      gPerL: 340,
      place: 'NDB 16121, concentrate as stand-in; protein of textured flour recalled',
      estimated: true,
    }),
  },
  {
    ...DEHYDRATED,
    group: 'dairy',
    id: 'milk-powder',
    name: 'Skimmed milk powder',
    kinetics: stands([5, 2, 10], [2, 1, 5], true, 'armed-forces-milk', 'warm water, stirred'),
    allergens: ['milk'],
    foams: true,
    absorbedGPerG: entry(9.6, 9, 10, 'g/g', 'armed-forces-milk', '92 g and 887 g make a quart'),
    ...composition({ kcal: 362, proteinG: 36.16, waterG: 3.16, gPerL: 507, place: 'NDB 01091' }),
  },
  {
    ...DEHYDRATED,
    group: 'dairy',
    id: 'whole-milk-powder',
    name: 'Whole milk powder',
    kinetics: stands([5, 2, 10], [2, 1, 5], true, 'cooking-practice', 'warm water, stirred'),
    allergens: ['milk'],
    foams: true,
    absorbedGPerG: entry(7.1, 6.5, 7.6, 'g/g', 'usda-sr28', 'to 88 % water'),
    ...composition({ kcal: 496, proteinG: 26.32, waterG: 2.47, gPerL: 541, place: 'NDB 01090' }),
  },
  {
    ...DEHYDRATED,
    group: 'egg',
    id: 'dried-egg',
    name: 'Dried whole egg',
    kinetics: simmers([5, 3, 8], 'cooking-practice', 'until set all through'),
    allergens: ['egg'],
    rawAnimal: true,
    absorbedGPerG: entry(3.04, 2.8, 3.3, 'g/g', 'usda-sr28', 'to 76.2 % water; 12.4 g and 37.6 g are one egg'),
    ...composition({ kcal: 592, proteinG: 48.05, waterG: 2.78, gPerL: 359, place: 'NDB 01133' }),
    cautions: ['Dried egg is raw: cook until set all through, never only rehydrated.'],
  },
];
