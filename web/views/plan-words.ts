/** Words for what plans, limits and advice name by id. */
import { fuelName } from '../../api/wording/names.ts';
import type { FuelId, Plan } from '../api-types.ts';
import { wordsOf } from '../names.ts';

const LIMIT_NAMES: Readonly<Record<string, string>> = {
  water: 'Water',
  sets: 'Sets in store',
  lightings: 'Fires lit in a day',
  'outdoor-minutes': 'Minutes outdoors in a day',
  'cook-awake': 'Hours that the cook is awake',
};

/** The name of a fuel, or the id in words: `water`, `denatured alcohol`. */
export function thingInWords(id: string): string {
  return (fuelName(id as FuelId) as string | undefined) ?? id.replaceAll('-', ' ');
}

/** `sets:oat-porridge` to "Sets of Oat porridge", `outdoor-minutes` to "Minutes outdoors in a day". */
export function limitName(plan: Plan, limit: string): string {
  const [what = '', id] = limit.split(':');
  if (id === undefined)
    return (
      LIMIT_NAMES[what] ?? (fuelName(what as FuelId) === undefined ? wordsOf(what) : wordsOf(fuelName(what as FuelId)))
    );
  return `${wordsOf(what)} of ${plan.resolved.kits.find((kit) => kit.id === id)?.name ?? wordsOf(id)}`;
}
