/** Nights for which no water of 70 C can be had: what is said of them. */
import { FOOD_SAFETY } from '../../cooking/keeping/safe-until.ts';
import type { Shortage } from '../plan-types.ts';
import type { Night } from '../week/night-feeds.ts';
import type { WeekSituation } from '../week/week-situation.ts';

/**
 * The shortage of nights whose flask is not filled.
 * @param nights at least one
 * @param fillable days whose night has a flask that would hold the heat
 */
export function nightShortage(
  nights: readonly Night[],
  fillable: readonly number[],
  situation: WeekSituation,
): { row: Shortage; wayOut: string } {
  const [first] = nights as [Night];
  const litres = Math.max(...nights.map((night) => night.litres));
  const leastC = FOOD_SAFETY.formulaWaterC.value;
  const noFlask = nights.every((night) => !fillable.includes(night.day));
  return {
    row: {
      what: 'time',
      id: null,
      from: situation.days[first.day]?.date ?? '',
      amount: nights.length,
      unit: 'nights',
      text: noFlask
        ? `no flask surely keeps water at ${leastC} °C until the last feed of the night`
        : `fuel, fires or pots do not suffice for the flask of ${nights.length} ${nights.length === 1 ? 'night' : 'nights'}`,
    },
    wayOut: noFlask
      ? `A good flask of ${Math.ceil(litres * 10) / 10} L or more, filled on a later fire, or a stove that burns through the night`
      : 'More fuel, or one more fire in the evening; boil water for a feed when it is due',
  };
}
