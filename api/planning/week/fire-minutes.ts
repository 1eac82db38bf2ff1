/** How long a dish keeps the fire, and how many pots a stove carries at once. */
import { type DishMethod, minutesPerFill } from '../../cooking/dishes/cooking-methods.ts';
import type { ResolvedStove } from '../../cooking/household/resolve-household.ts';

/** Pots that stand on a stove at once; burners that are filled by hand take turns while one cools. */
export function burnersAtOnce(stove: ResolvedStove): number {
  return minutesPerFill(stove) === null ? Math.max(1, stove.burners) : 1;
}

/**
 * Minutes that a burner without a valve gives from one lighting: its fill, less a tenth in hand, since a hot burner must
 * not be refilled. No limit for other stoves, nor where a second burner takes over.
 */
export function minutesOfOneFill(stove: ResolvedStove): number | undefined {
  const fill = minutesPerFill(stove);
  return fill === null || stove.burners >= 2 ? undefined : Math.floor(fill * 0.9);
}

/** Whole minutes with the pot on the flame, at the high end. */
export function onFireMinutes(method: DishMethod): number {
  return Math.ceil(method.minutesToBoil.p90 + method.holdMinutes.p90);
}

/** Whole minutes that a dish keeps the fire, at the high end, rest off the fire before a direct meal included. */
export function fireMinutes(method: DishMethod): number {
  return onFireMinutes(method) + (method.choice.finish === 'flame' ? Math.ceil(method.restMinutes) : 0);
}
