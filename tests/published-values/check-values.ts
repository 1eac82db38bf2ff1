/**
 * The numbered list of published values that the program was specified against, and what holds the tests to it: every
 * number is tested under its own number, or stands here as not applicable with the reason.
 */
import { expect, it } from 'vitest';

/** What each number is about, by source topic. */
export const CHECK_VALUES = {
  'altitude-and-boiling': {
    1: 'air pressure at 0, 1,500, 3,000, 5,000 m',
    2: 'air pressure at 10,000 ft in kPa and psi',
    3: 'saturation temperature at 0.1, 1, 10 MPa',
    4: 'saturation pressure at 300, 500, 600 K',
    5: 'boiling point at 101.325 and 101.418 kPa',
    6: 'boiling point at 1,500, 3,000, 5,000 m',
    7: 'boiling point at 2,000 to 10,000 ft as printed for kitchens',
    8: 'an independent formulation of air and steam against this one',
    9: 'altimeter reading of 1013.25 hPa at 1,500 m',
    10: 'altimeter reading of 1030 hPa at 1,500 m',
    11: 'readings that look reduced to sea level, corrected twice, plausible',
    12: 'boiling point at 24.697 inHg, observed in the field',
    13: 'rise by 10 g of salt per kg of water',
    14: '15 psi at 0, 1,500, 3,000 m',
    15: 'gauge pressure for 120 C at sea level',
    16: 'gauge pressure for 240 F at 0, 5,000, 10,000 ft',
    17: 'gauge at 6,000 ft for the temperature of 10 psi at sea level',
    18: 'temperature at the top of each band of the dial table',
    19: 'latent heat at 90, 100, 120 C',
    20: 'heat of a kilogram of water from 20 to 94.98 C',
    21: 'density of water at 20, 60, 90 C',
    22: 'specific heat of 60 % water and 40 % carbohydrate at 50 C',
    23: 'specific heat of macaroni',
    24: 'heat of a pot of soaking beans from 20 to 95 C',
    25: 'beans at 1,500 and 3,000 m, z 19',
    26: 'rice at 5,000 ft, 71.13 kJ/mol',
    27: 'vegetables at 1,500 m, 80 kJ/mol',
    28: 'minutes of a boiled egg of 57 g',
    29: 'steam of a surplus of 1 kW',
    30: 'water flashed off by a quick release from 121 C',
    31: 'order of pressure, boiling point and cooking time over 0 to 5,000 m',
  },
  'cooking-kinetics': {
    1: 'z from 130.8 kJ/mol',
    2: 'activation energy from z 19',
    3: 'black beans at 98 against 116 C',
    4: 'boiling point at 884, 1,402, 1,707, 2,347 m',
    5: 'boiling point at 10,000 ft',
    6: 'temperature at 15, 10, 5 psi',
    7: 'soaked pinto beans at 15 psi',
    8: 'soaked soybeans at 15 psi',
    9: 'unsoaked kidney beans at 15 psi',
    10: 'credit of ten minutes of natural release',
    11: 'white rice at 15 psi',
    12: 'rice at 85 C',
    13: 'diced potato at 85 C',
    14: 'ten minutes at 5,000, 7,500, 10,000 ft',
    15: 'beans at 5,000 ft',
    16: 'soaked kidney beans at 3,000 m',
    17: 'minutes saved by a soak',
    18: 'a box that keeps 90 C for 90 min',
    19: 'cook value of four hours in that box, and ten minutes of boil',
    20: 'cook value of a box of 8 h, numeric against closed form',
    21: 'a poor box and any wait',
    22: 'a box filled at 3,000 m',
    23: 'white rice boiled 5 min, an hour in a box',
    24: '15 psi at 3,000 m, and beans there',
    25: 'kidney beans boiled 30 and 10 min',
    26: 'kidney beans boiled 10 min, then a box',
    27: 'kidney beans for eight hours at 80 C',
    28: 'lectin minutes at 95, 93.3, 90 C',
    29: 'decimal loss of lectin from raw to cooked',
    30: 'water and mass of 500 g of beans when cooked',
    32: 'steam of a surplus of 500 W',
  },
  'fuels-and-stoves': {
    1: 'heating value of wood at 20 % moisture',
    2: 'heating value of wood at 40 % moisture',
    3: 'equivalent dry fuel, cold start',
    4: 'equivalent dry fuel, hot start and simmer',
    5: 'specific fuel, plain and corrected',
    6: 'power of the fire',
    7: 'efficiency, hot start',
    8: 'turndown',
    9: 'energy of the 5 L benchmark',
    10: 'power of an open fire',
    11: 'wood of 5 L boiled and simmered on an open fire',
    12: 'pressure of propane at 70 F',
    13: 'pressure of propane at -40 C and at 0 F',
    14: 'stepped rating of 25,000 Btu/h by altitude',
    15: 'two rating rules at 5,000 ft',
    16: 'pressure and power of a regulated burner at 1,524 m',
    17: 'higher heat of a 20 lb cylinder',
    18: 'lower heat of 9.072 kg of propane, hours at 2.5 kW',
    19: 'efficiency tiers',
    20: 'energy of a millilitre of alcohol',
    21: 'heating value of isopropanol from its heat of combustion',
    22: 'a litre on gas at 52 % and 2.09 kW',
    23: 'power of a charcoal stove',
    24: 'burner ratings in kcal/h',
    25: 'fill of a 20 lb cylinder by water capacity',
    26: '90th percentile of fuel, rocket stove',
    27: '90th percentile of fuel, open fire and gas at home',
    28: 'self-cooling of a 1 lb cylinder',
    29: 'what wet wood, wind and altitude do to fuel and time',
  },
  'people-water-food-safety': {
    1: 'stored water, four people for a week',
    2: 'sum of the basic water table',
    3: 'minutes of boil, CDC',
    4: 'minutes of boil, default',
    5: 'boiling point at 3,000 m',
    6: 'drops of 6 % bleach',
    7: 'drops of 8.25 % bleach',
    8: 'chlorine of 0.4 mL of 6 % in a gallon',
    9: 'heat of a litre from 15 to 100 C',
    10: 'heat of a litre from 15 C to the boil at 3,000 m',
    11: 'energy of a population at 20, 10, 0 C',
    12: 'protein and fat of a ration',
    13: 'energy requirement of a man',
    14: 'energy requirement of a woman',
    15: 'basal rate of a woman and her need',
    16: 'protein allowances',
    17: 'composition of pinto beans',
    18: 'a cup of white rice',
    19: 'energy and protein of a ration',
    20: 'a cup of milk from powder',
    21: 'freeze-dried chicken',
    22: 'freeze-dried peas',
    23: 'kidney beans in another table, kJ to kcal',
    24: 'fat without energy is refused',
    25: 'eat by, off the heat',
    26: 'a box dish below 60 C',
    27: 'kidney beans soaked 4 h, or boiled 10 min before a box',
    28: 'freezer and refrigerator without power',
    29: 'five gallons of oats and of beans',
    30: 'oxygen in a gallon of rice',
    31: 'which foods take an absorber',
    32: 'life of dried apricots',
    33: 'fluids in heat, and too much of them',
    34: 'fluids of a child with diarrhoea',
    35: 'size and contrast of print',
  },
  'pots-and-heat-loss': {
    1: 'evaporation at 98.9 C',
    2: 'evaporation at 65.6 C',
    3: 'evaporation at 37.8 C: table instead of relation',
    4: 'loss of a dark bare wall',
    5: '4 L held under a lid',
    6: '4 L held open',
    7: 'the same in air at 0 C',
    8: 'what a lid saves at the simmer',
    9: 'heat-up of a litre with and without a lid',
    11: 'heat of a litre from 20 to 100 C',
    12: 'a litre on a coil plate',
    13: '5 L boiled and simmered on wood',
    19: 'time constant and loss of the acceptance test',
    20: 'a home box after 8 h',
    21: 'R-7 in SI, and its thickness',
    22: 'a picnic box over half an hour',
    23: 'hours above 60 C',
    24: '4 L in 50 mm of foam',
    25: 'fill of a pressure cooker',
    26: 'hot rinse line for four people',
    27: 'charcoal per kg of beans',
  },
  soaking: {
    1: 'units of the constants of a chickpea',
    2: 'chickpea at 20 C',
    3: 'chickpea at 24 C after 5 h',
    4: 'limit of a chickpea',
    5: 'common beans at 25, 35, 45 C',
    6: 'activation energy from times',
    7: 'a day at 5 C against 10 h at 20 C',
    8: 'black-eyed pea after 1 and 2 h',
    9: 'teff at 20 C',
    10: 'activation energy of teff',
    11: 'black gram whole and split',
    12: 'polished barley',
    13: 'activation energy of peas',
    14: 'split against whole lentils',
    15: 'milled rice',
    16: 'highest yields',
    17: 'cups of a pound of kidney beans',
    18: 'factors of soak, soda and acid',
    19: 'unsoaked to soaked minutes',
    20: 'age at 17 % moisture',
    21: 'age at 10 % moisture',
    22: 'age at 13 and 15 % moisture',
    23: 'water of milk powder',
    24: 'water of dried carrot',
    25: 'water of dried apple',
    26: 'water of dried onion',
    27: 'water of dried pepper',
    28: 'dried pieces at 55 and 95 C',
    29: 'solids lost by chickpeas',
    30: 'a quick soak against a cold one',
    '30a': 'kitchen rules of a soak',
    31: 'boil before a box',
    32: 'how long a soak may stand',
  },
} as const;

export type Topic = keyof typeof CHECK_VALUES;

/** Numbers that no test can hold, each with the reason. */
export const NOT_APPLICABLE: { readonly [T in Topic]: Readonly<Record<string, string>> } = {
  'altitude-and-boiling': {
    28: 'An egg in its shell is heated by conduction and sets at a yolk temperature (Williams, Exeter). The program plans dry stock: no food of its table is an egg in the shell, and dried egg is brought to a boil instead.',
  },
  'cooking-kinetics': {},
  'fuels-and-stoves': {},
  'people-water-food-safety': {},
  'pots-and-heat-loss': {},
  soaking: {},
};

/** What is wrong with how the numbers of a topic are settled; nothing where each is tested or listed, and not both. */
export function settlingFaults(
  ledger: Readonly<Record<string, string>>,
  notApplicable: Readonly<Record<string, string>>,
  tested: ReadonlySet<string>,
): string[] {
  const faults: string[] = [];
  for (const [number, subject] of Object.entries(ledger)) {
    const listed = Object.hasOwn(notApplicable, number);
    if (!listed && !tested.has(number)) faults.push(`${number} (${subject}) is neither tested nor listed`);
    if (listed && tested.has(number)) faults.push(`${number} (${subject}) is tested and listed as not applicable`);
    if (listed && (notApplicable[number] as string).length < 40) faults.push(`${number} is listed without a reason`);
  }
  for (const number of [...tested, ...Object.keys(notApplicable)])
    if (!Object.hasOwn(ledger, number)) faults.push(`${number} is not a number of the list`);
  return faults;
}

/**
 * The tests of one topic. `checkValue` is vitest's `it` under the topic and the number or numbers of the list; several
 * tests may hold one number. `everyCheckValueIsSettled` is called last.
 */
export function checkValuesOf<T extends Topic>(topic: T) {
  type CheckNumber = keyof (typeof CHECK_VALUES)[T] & (number | string);
  const tested = new Set<string>();
  return {
    checkValue(numbers: CheckNumber | readonly CheckNumber[], title: string, body: () => void | Promise<void>): void {
      const all = (typeof numbers === 'object' ? numbers : [numbers]).map(String);
      for (const number of all) tested.add(number);
      it(`${topic} ${all.join(', ')}: ${title}`, body);
    },
    everyCheckValueIsSettled(): void {
      it(`${topic}: every number is tested, or listed with the reason`, () => {
        expect(settlingFaults(CHECK_VALUES[topic], NOT_APPLICABLE[topic], tested)).toEqual([]);
      });
    },
  };
}

/** Holds a value to a printed one; the message shows both. */
export function expectNear(actual: number, printed: number, tolerance: number): void {
  expect(Math.abs(actual - printed), `${actual} against ${printed} +- ${tolerance}`).toBeLessThanOrEqual(tolerance);
}

/** The same for a tolerance that is a share of the printed value. */
export function expectWithinShare(actual: number, printed: number, share: number): void {
  expectNear(actual, printed, share * Math.abs(printed));
}
