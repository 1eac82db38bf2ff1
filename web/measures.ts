/** Quantities on the page: shown in fields, said in sentences. All units and factors come from the wording. */
import {
  type FieldQuantity,
  fieldDigits,
  fieldUnit,
  fieldUnitSpellings,
  shownInField,
  storedFromField,
} from '../api/wording/field-units.ts';
import type { Rounding } from '../api/wording/numbers.ts';
import { massText, temperatureText, type UnitSystem, volumeText } from '../api/wording/units.ts';
import { writeNumber, writeShort } from './numbers.ts';

export type { UnitSystem };
export type Quantity = FieldQuantity;
export const unitOf = fieldUnit;
export const spellingsOf = fieldUnitSpellings;
export const shownValue = shownInField;
export const storedValue = storedFromField;

const NO_BREAK = '\u00a0';

/** The number that a field shows for a stored value, without its unit. */
export function fieldText(stored: number, quantity: Quantity, system: UnitSystem): string {
  return writeNumber(shownInField(stored, quantity, system), fieldDigits(quantity, system));
}

/**
 * A stored value as read in a sentence: number, no-break space, unit.
 * @param rounding `up` for what is needed at least, `down` for what may be counted on at most; of masses, volumes and temperatures
 */
export function say(stored: number, quantity: Quantity, system: UnitSystem, rounding: Rounding = 'nearest'): string {
  if (quantity === 'kg') return massText(Math.max(0, stored), system, rounding);
  if (quantity === 'g') return massText(Math.max(0, stored) / 1000, system, rounding);
  if (quantity === 'litres') return volumeText(Math.max(0, stored), system, rounding);
  if (quantity === 'temperatureC') return temperatureText(stored, system, rounding);
  const shown = shownInField(stored, quantity, system);
  const unit = fieldUnit(quantity, system);
  const number = quantity === 'minutes' || quantity === 'elevationM' ? writeNumber(shown, 0) : writeShort(shown);
  return unit === '' ? number : `${number}${NO_BREAK}${unit}`;
}
