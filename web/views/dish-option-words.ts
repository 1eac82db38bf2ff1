/** A way to cook a dish, in words. */

import { asHeading, fuelName, thingName } from '../../api/wording/names.ts';
import type { DishOption } from '../api-types.ts';
import { minutesInWords } from '../dates.ts';
import { say } from '../measures.ts';
import { LID_NAMES, wordsOf } from '../names.ts';
import type { Page } from '../page-state.ts';
import { spreadInWords } from './plan-meal.ts';

/** `Soaked 12 h; 6 L pot on the burner; then 2 h in the box` */
export function methodOfOption(page: Page, { method }: DishOption): string {
  const household = page.household?.state().body;
  const named = (id: string) => (household === undefined ? wordsOf(id) : thingName(household, id));
  const parts: string[] = [];
  if (method.soakHours !== null) parts.push(`soaked ${method.soakHours}\u00a0h`);
  if (method.firstWater === 'poured-away') parts.push('unsoaked, first water poured away');
  if (method.finish === 'no-heat') parts.push('no fire');
  if (method.vesselId !== null) {
    const vessel = household?.vessels?.find((one) => one.id === method.vesselId);
    const lid = vessel?.kind === 'pot' && vessel.lid === 'none' ? `, ${LID_NAMES.none.toLowerCase()}` : '';
    parts.push(`${named(method.vesselId)}${lid}${method.stoveId === null ? '' : ` on ${named(method.stoveId)}`}`);
  }
  if (method.flame === 'low') parts.push('on a small flame');
  if (method.heatToC !== null) parts.push(`heated to ${say(method.heatToC, 'temperatureC', page.units)}, not boiled`);
  if (method.standMinutes !== null) parts.push(`then ${minutesInWords(method.standMinutes)} off the fire`);
  if (method.finish === 'box' && method.boxId !== null)
    parts.push(`then ${minutesInWords(method.boxMinutes)} in ${named(method.boxId)}`);
  if (method.finish === 'flask')
    parts.push(`finished in ${method.flaskId === null ? 'the flask' : named(method.flaskId)}`);
  return asHeading(parts.join('; '));
}

/** `140 g (110 to 190 g) of propane, and 20 g to light it` */
export function fuelOfOption(page: Page, { fuel }: DishOption): string {
  if (fuel.length === 0) return 'none';
  return fuel
    .map((one) => {
      const name = fuelName(one.fuelId);
      if (one.fuelId === 'electricity') return `${spreadInWords(one.mj, 'MJ', page.units)} of ${name}`;
      const lighting =
        one.startUpKg.p50 > 0.0005 ? `, and ${say(one.startUpKg.p50, 'kg', page.units)} to light it` : '';
      return `${spreadInWords(one.kg, 'kg', page.units)} of ${name}${lighting}`;
    })
    .join('; ');
}

/** Minutes from putting the pot on to the end, standing time included, at the typical values. */
export function minutesOfOption({ minutes }: DishOption): number {
  return minutes.toBoil.p50 + minutes.hold.p50 + minutes.rest;
}
