/**
 * How a stored SI value is shown in a field and read back from it, in metric or US customary units. A switch of units
 * changes what is shown, never what is stored. Factors are those of `physics/units.ts`.
 */
import {
  btuToMj,
  celsiusToFahrenheit,
  fahrenheitToCelsius,
  feetToMetres,
  fluidOuncesToLitres,
  inchesToMillimetres,
  kgToOunces,
  kgToPounds,
  kPaToPsi,
  litresToFluidOunces,
  litresToQuarts,
  metresToFeet,
  millimetresToInches,
  mjToBtu,
  ouncesToKg,
  poundsToKg,
  psiToKPa,
  quartsToLitres,
} from '../physics/units.ts';
import type { UnitSystem } from './units.ts';

export type FieldQuantity =
  | 'elevationM'
  | 'temperatureC'
  | 'litres'
  | 'ml'
  | 'kg'
  | 'g'
  | 'mm'
  | 'kW'
  | 'kPa'
  | 'MJ'
  | 'kWh'
  | 'share'
  | 'percent'
  | 'hours'
  | 'minutes'
  | 'days'
  | 'years'
  | 'servings'
  | 'count';

interface FieldScale {
  /** As printed in the label; empty for a plain count. */
  unit: string;
  /** Other words that may be typed behind the number. */
  spellings: readonly string[];
  /** Decimals shown. */
  digits: number;
  shown(stored: number): number;
  stored(shown: number): number;
}

const asStored = (unit: string, digits: number, spellings: readonly string[] = []): FieldScale => ({
  unit,
  spellings,
  digits,
  shown: (stored) => stored,
  stored: (shown) => shown,
});
const inBoth = (scale: FieldScale): Record<UnitSystem, FieldScale> => ({ metric: scale, us: scale });
const SECONDS_PER_HOUR = 3600;

const SCALES: Readonly<Record<FieldQuantity, Readonly<Record<UnitSystem, FieldScale>>>> = {
  elevationM: {
    metric: asStored('m', 0, ['metres', 'meters']),
    us: { unit: 'ft', spellings: ['feet', 'foot'], digits: 0, shown: metresToFeet, stored: feetToMetres },
  },
  temperatureC: {
    metric: asStored('°C', 1, ['C']),
    us: { unit: '°F', spellings: ['F'], digits: 1, shown: celsiusToFahrenheit, stored: fahrenheitToCelsius },
  },
  litres: {
    metric: asStored('L', 2, ['litre', 'litres', 'liter', 'liters']),
    us: { unit: 'qt', spellings: ['quart', 'quarts'], digits: 2, shown: litresToQuarts, stored: quartsToLitres },
  },
  ml: {
    metric: asStored('mL', 0),
    us: {
      unit: 'fl oz',
      spellings: ['oz'],
      digits: 1,
      shown: (ml) => litresToFluidOunces(ml / 1000),
      stored: (ounces) => fluidOuncesToLitres(ounces) * 1000,
    },
  },
  kg: {
    metric: asStored('kg', 3),
    us: { unit: 'lb', spellings: ['lbs', 'pound', 'pounds'], digits: 2, shown: kgToPounds, stored: poundsToKg },
  },
  g: {
    metric: asStored('g', 0, ['gram', 'grams']),
    us: {
      unit: 'oz',
      spellings: ['ounce', 'ounces'],
      digits: 1,
      shown: (g) => kgToOunces(g / 1000),
      stored: (ounces) => ouncesToKg(ounces) * 1000,
    },
  },
  mm: {
    metric: asStored('mm', 0),
    us: {
      unit: 'in',
      spellings: ['inch', 'inches'],
      digits: 2,
      shown: millimetresToInches,
      stored: inchesToMillimetres,
    },
  },
  kW: {
    metric: asStored('kW', 2),
    us: {
      unit: 'BTU/h',
      spellings: ['btu'],
      digits: 0,
      shown: (kW) => mjToBtu((kW * SECONDS_PER_HOUR) / 1000),
      stored: (btuPerHour) => (btuToMj(btuPerHour) * 1000) / SECONDS_PER_HOUR,
    },
  },
  kPa: {
    metric: asStored('kPa', 1),
    us: { unit: 'psi', spellings: [], digits: 1, shown: kPaToPsi, stored: psiToKPa },
  },
  MJ: inBoth(asStored('MJ', 2)),
  kWh: inBoth(asStored('kWh', 2)),
  share: inBoth({
    unit: '%',
    spellings: ['percent'],
    digits: 1,
    shown: (share) => share * 100,
    stored: (percent) => percent / 100,
  }),
  percent: inBoth(asStored('%', 1, ['percent'])),
  hours: inBoth(asStored('h', 2, ['hours', 'hour'])),
  minutes: inBoth(asStored('min', 0, ['minutes', 'minute'])),
  days: inBoth(asStored('days', 0, ['day', 'd'])),
  years: inBoth(asStored('years', 1, ['year'])),
  servings: inBoth(asStored('servings', 2, ['serving'])),
  count: inBoth(asStored('', 2)),
};

/** Unit of a quantity as printed in a label; empty for a plain count. */
export function fieldUnit(quantity: FieldQuantity, system: UnitSystem): string {
  return SCALES[quantity][system].unit;
}

/** Words that may stand behind a typed number of this quantity, the printed unit first. */
export function fieldUnitSpellings(quantity: FieldQuantity, system: UnitSystem): string[] {
  const scale = SCALES[quantity][system];
  return [scale.unit, ...scale.spellings];
}

/** Decimals that a field of this quantity shows, 0 to 3. */
export function fieldDigits(quantity: FieldQuantity, system: UnitSystem): number {
  return SCALES[quantity][system].digits;
}

/**
 * Stored value to shown value, unrounded.
 * @param stored in the unit that `quantity` names
 */
export function shownInField(stored: number, quantity: FieldQuantity, system: UnitSystem): number {
  return SCALES[quantity][system].shown(stored);
}

/**
 * Shown value to stored value, to ten significant figures: 12 % is stored as 0.12, not as 0.12000000000000001.
 * @param shown in the unit that `fieldUnit` names
 * @returns in the unit that `quantity` names
 */
export function storedFromField(shown: number, quantity: FieldQuantity, system: UnitSystem): number {
  return Number(SCALES[quantity][system].stored(shown).toPrecision(10));
}
