/** The steps behind the minutes that a dish takes by hand. */

import { HANDS_ON } from '../dishes/hands-on.ts';
import type { ExplainedDish } from './explained-dish.ts';
import type { StepList } from './explanation-steps.ts';

/**
 * `handsOnMinutes` of a dish with a fire, after `neededBoilMinutes` and `boilMinutes`, or after `dishMinutesToBoil` where it
 * is only heated.
 */
export function addHandsOn({ list, method }: Pick<ExplainedDish, 'list' | 'method'>): void {
  const { needs, choice } = method;
  list.row('measuringWorkMinutes', HANDS_ON.measuringMinutes, 'measuring water and goods');
  const parts = ['measuringWorkMinutes'];
  if (needs.soakedPartIds.length > 0) {
    list.row('soakWorkMinutes', HANDS_ON.soakMinutes, 'setting the soak and draining it');
    parts.push('soakWorkMinutes');
  }
  if (needs.firstWaterL > 0) {
    list.row('firstWaterWorkMinutes', HANDS_ON.firstWaterMinutes, 'pouring the first water away');
    parts.push('firstWaterWorkMinutes');
  }
  if (choice.heatToC === undefined) {
    list.row('lookShare', HANDS_ON.lookShare, 'of the minutes until it is soft, looking whether it is');
    parts.push('lookShare * neededBoilMinutes');
  }
  if (choice.finish !== 'flame') {
    list.row('boxWorkMinutes', HANDS_ON.boxMinutes, 'moving it into the box or flask');
    parts.push('boxWorkMinutes');
  }
  list.row('stirShare', HANDS_ON.stirShare, 'of the minutes on the flame, stirring and minding it');
  parts.push(`stirShare * ${choice.heatToC === undefined ? 'boilMinutes' : 'dishMinutesToBoil'}`);
  list.computed('handsOnMinutes', Math.round(method.handsOnMinutes), 'min', `round(${parts.join(' + ')}, 0)`);
}

/** `handsOnMinutes` of a dish without fire. */
export function addHandsOnWithoutFire(list: StepList): void {
  list.row('withoutFireWorkMinutes', HANDS_ON.withoutFireMinutes, 'measuring, adding water, stirring once');
  list.computed(
    'handsOnMinutes',
    Math.round(HANDS_ON.withoutFireMinutes.value),
    'min',
    'round(withoutFireWorkMinutes, 0)',
  );
}
