/** How long dry and tinned stores keep, and what the temperature of the store room does to that. Quality, not safety. */
import { InvalidInputError, requireInRange } from '../../physics/errors.ts';
import type { Parameter } from '../../physics/parameter.ts';
import type { WorkKey } from '../../references/works-cited.ts';

/** Life at one temperature, months; `cap` is the longest that is ever claimed. */
export interface ShelfLifeRow {
  name: string;
  /** Known lives, by rising temperature. */
  at: readonly { temperatureC: number; months: number }[];
  capMonths: Parameter;
  /** What must be true for it. */
  condition: string;
}

const SEALED = 'sealed in a can, foil bag or PET bottle with an oxygen absorber, dry';

/** Shelf lives by class of goods. */
export const SHELF_LIVES = {
  'dry-staple-sealed': {
    name: 'wheat, white rice, maize, sugar',
    at: [{ temperatureC: 24, months: 360 }],
    capMonths: months(360, 240, 420, 'byu-thirty-years', 'list of 30 years and more'),
    condition: SEALED,
  },
  'dry-food-sealed': {
    name: 'dry beans, rolled oats, pasta, potato flakes, dried apple and onion',
    at: [{ temperatureC: 24, months: 360 }],
    capMonths: months(360, 120, 360, 'byu-thirty-years', 'list of 30 years and more'),
    condition: SEALED,
  },
  'dry-carrot-sealed': {
    name: 'dehydrated carrots',
    at: [{ temperatureC: 24, months: 240 }],
    capMonths: months(240, 180, 300, 'byu-thirty-years', 'list: 20 to 25 years'),
    condition: SEALED,
  },
  'white-flour-sealed': {
    name: 'white flour',
    at: [{ temperatureC: 24, months: 120 }],
    capMonths: months(120, 96, 180, 'byu-thirty-years', 'list: 10 years and more'),
    condition: SEALED,
  },
  'dry-milk-sealed': {
    name: 'nonfat dry milk, sealed',
    at: [{ temperatureC: 24, months: 240 }],
    capMonths: months(240, 48, 240, 'byu-thirty-years', 'list: 20 years'),
    condition: SEALED,
  },
  'dry-beans-bagged': {
    name: 'dry beans in a plastic bag',
    at: [{ temperatureC: 21, months: 12 }],
    capMonths: months(12, 12, 24, 'usu-food-storage-2013', 'page 49'),
    condition: 'best quality; older ones cook longer',
  },
  'brown-rice': {
    name: 'brown rice, whole-grain flour and other oily grain',
    at: [{ temperatureC: 21, months: 6 }],
    capMonths: months(24, 6, 24, 'usu-food-storage-pages', 'brown rice'),
    condition: 'turns rancid; longer in the cold',
  },
  barley: {
    name: 'barley',
    at: [{ temperatureC: 16, months: 24 }],
    capMonths: months(96, 24, 96, 'usu-food-storage-pages', 'barley'),
    condition: 'below 16 C and 12 % moisture',
  },
  'dried-apricot': {
    name: 'dried apricots and other soft dried fruit',
    at: [
      { temperatureC: 4, months: 24 },
      { temperatureC: 21, months: 3 },
      { temperatureC: 32, months: 1 },
    ],
    capMonths: months(24, 12, 24, 'usu-food-storage-pages', 'dried fruit'),
    condition: 'closed, dark',
  },
  'tinned-fruit': {
    name: 'tinned apple and apricot',
    at: [
      { temperatureC: 4, months: 48 },
      { temperatureC: 21, months: 24 },
      { temperatureC: 32, months: 12 },
    ],
    capMonths: months(48, 36, 60, 'usu-food-storage-pages', 'canned fruit'),
    condition: 'tins sound',
  },
  'cooking-oil': {
    name: 'cooking oil',
    at: [{ temperatureC: 21, months: 18 }],
    capMonths: months(24, 12, 24, 'byu-thirty-years', 'oil: 1 to 2 years'),
    condition: 'cool and dark, unopened',
  },
  'freeze-dried-sealed': {
    name: 'freeze-dried food',
    at: [{ temperatureC: 21, months: 300 }],
    capMonths: { ...months(300, 120, 360, 'household-practice', 'makers claim 25 to 30 years'), estimate: true },
    condition: SEALED,
  },
  'tinned-meal': {
    name: 'tinned meat, fish, soup, vegetables and beans',
    at: [{ temperatureC: 21, months: 12 }],
    capMonths: months(24, 12, 60, 'usu-ec-257', 'canned meat, fish, soup, vegetables: 12 months, for quality'),
    condition: 'tins sound: not bulging, leaking, or frozen and thawed',
  },
  'dried-vegetable-bagged': {
    name: 'dried vegetables, broth powder and other dry goods without an absorber',
    at: [{ temperatureC: 21, months: 12 }],
    capMonths: months(24, 6, 24, 'usu-ec-257', 'dried vegetables, bouillon: 12 months, for quality'),
    condition: 'closed, dry, dark',
  },
  'dried-egg': {
    name: 'dried egg',
    at: [{ temperatureC: 21, months: 12 }],
    capMonths: months(24, 12, 24, 'byu-thirty-years', 'dried egg: 1 to 2 years'),
    condition: 'closed, cool and dark',
  },
  nuts: {
    name: 'nuts, nut butter, whole-milk powder, crackers and other fatty goods',
    at: [{ temperatureC: 21, months: 9 }],
    capMonths: { ...months(24, 4, 24, 'household-practice', 'months to two years; turns rancid'), estimate: true },
    condition: 'closed, cool and dark; smell for rancid fat',
  },
  'home-dried-meat': {
    name: 'home-dried meat',
    at: [{ temperatureC: 21, months: 1 }],
    capMonths: { ...months(2, 0.5, 2, 'household-practice', 'one to two months, not without oxygen'), estimate: true },
    condition: 'a closed box with air in it, cool; never with an absorber',
  },
  'salt-and-sugar': {
    name: 'salt, sugar and honey',
    at: [{ temperatureC: 21, months: 360 }],
    capMonths: months(360, 240, 480, 'byu-thirty-years', 'salt: no limit if dry; sugar: 30 years and more'),
    condition: 'dry; without an absorber',
  },
} as const satisfies Record<string, ShelfLifeRow>;
export type ShelfLifeClass = keyof typeof SHELF_LIVES;

/** Kelvin that double or halve a life, outside the temperatures of a row: the careful figure on each side of 21 C. */
export const DOUBLING_STEP = {
  colderK: step(11, 5.6, 16.7, 'derived from dried and canned fruit, careful end'),
  warmerK: step(5.6, 5.6, 11.1, 'life halves per 10 F; derived from dried and canned fruit, careful end'),
} as const;

/**
 * Shelf life at a temperature. Between two known temperatures the logarithm of the life is interpolated; outside,
 * `life(T) = life(T0) * 2^((T0 - T) / theta)` with theta 11 K on the cold side and 5.6 K on the warm one (careful
 * both ways), never more than the cap of the row.
 *
 * Source: USU Extension storage pages; doubling step derived from them.
 * @param id class of goods
 * @param storageC mean temperature of the store, C, -40 to 50
 * @returns months
 * @throws InvalidInputError for an unknown class; OutOfRangeError
 */
export function shelfLifeMonths(id: ShelfLifeClass, storageC: number): number {
  requireInRange('storageC', storageC, -40, 50, 'C');
  const row: ShelfLifeRow | undefined = SHELF_LIVES[id];
  if (row === undefined) throw new InvalidInputError('shelfLifeClass', id, 'use one of the classes of the table');
  return Math.min(row.capMonths.value, uncappedMonths(row, storageC));
}

function uncappedMonths(row: ShelfLifeRow, storageC: number): number {
  const first = row.at[0];
  const last = row.at[row.at.length - 1];
  if (first === undefined || last === undefined) throw new Error(`no shelf life is known for ${row.name}`);
  if (storageC <= first.temperatureC) {
    return first.months * 2 ** ((first.temperatureC - storageC) / DOUBLING_STEP.colderK.value);
  }
  if (storageC >= last.temperatureC) {
    return last.months * 2 ** ((last.temperatureC - storageC) / DOUBLING_STEP.warmerK.value);
  }
  const above = row.at.findIndex((known) => known.temperatureC >= storageC);
  const warm = row.at[above] ?? last;
  const cool = row.at[above - 1] ?? first;
  const share = (storageC - cool.temperatureC) / (warm.temperatureC - cool.temperatureC);
  return cool.months * (warm.months / cool.months) ** share;
}

function months(value: number, p10: number, p90: number, key: WorkKey, place: string): Parameter {
  return { value, p10, p90, unit: 'months', source: { key, place }, estimate: false };
}

function step(value: number, p10: number, p90: number, place: string): Parameter {
  return { value, p10, p90, unit: 'K', source: { key: 'usu-food-storage-pages', place }, estimate: true };
}
