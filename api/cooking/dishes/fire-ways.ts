/** How the fire under a pot is tended: a strong flame to the end, or the sparing way of a small flame and a pot that stands. */
import type { SourceRef } from '../../physics/parameter.ts';
import { STOVE_TYPES } from '../../physics/stoves-table.ts';
import type { ResolvedStove } from '../household/resolve-household.ts';
import type { MethodChoice } from './cooking-methods.ts';
import type { HeatedToC } from './hot-without-boil.ts';

/**
 * Minutes that a pot stands off the fire under its lid and goes on softening. Packets and cookery books let rice and
 * grain rest 10 to 30 min; pasta makers put the flame out after 2 min of boil and leave the pot covered for the packet's
 * time.
 */
export const STAND_MINUTES = 25;
export const STAND_SOURCE: SourceRef = { key: 'kitchenPractice', place: 'rice, grain and pasta rest under the lid' };

/** Loss on taking a pot off the fire that nobody opens or carries, K (common practice). */
export const STAND_ENTRY_LOSS_K = 1;

/** Whether the flame of a stove can be turned down: by a valve, or by less wood. */
export function canTurnDown(stove: ResolvedStove): boolean {
  return stove.throttle ?? STOVE_TYPES[stove.typeId].throttle;
}

/**
 * The ways of tending the fire for one choice of pot, soak and finish, each sparing more than the one before: as it is
 * given; with the pot standing off the fire for the last of its softening; and with the flame turned down from the start
 * as well, which wastes less past the pot and takes longer; and what needs no boil only heated, on either flame. A
 * pressure cooker comes to pressure on a strong flame, as its makers say: a weak one may never drive the air out. Without
 * a lid none saves: an open pot loses more in the longer time than the flame spares.
 * @param mayStand whether the dish is eaten from this pot at once, so that it may stand before, and holds something that
 *   softens meanwhile
 * @param heats how far it may be heated instead (`heatsFor`), where the dish is eaten from this pot at once; default: it boils
 * @returns one to seven choices, the given one first
 */
export function fireWays(choice: MethodChoice, mayStand: boolean, heats: readonly HeatedToC[] = []): MethodChoice[] {
  if (choice.vessel.lid === 'none' && choice.vessel.kind === 'pot') return [choice];
  const ways = [choice];
  if (mayStand && choice.finish === 'flame' && choice.vessel.kind === 'pot')
    ways.push({ ...choice, standMinutes: STAND_MINUTES });
  const small = canTurnDown(choice.stove) && choice.vessel.kind !== 'pressure-cooker';
  if (small) ways.push({ ...(ways.at(-1) as MethodChoice), flame: 'low' });
  if (choice.finish === 'flame' && choice.vessel.kind === 'pot') {
    for (const heatToC of heats) {
      const heated: MethodChoice = { ...choice, heatToC };
      ways.push(heated);
      if (small) ways.push({ ...heated, flame: 'low' });
    }
  }
  return ways;
}

/** Whether a choice is a sparing one of `fireWays`. */
export function isSparing(choice: MethodChoice): boolean {
  return choice.flame !== undefined || choice.standMinutes !== undefined || choice.heatToC !== undefined;
}
