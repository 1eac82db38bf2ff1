/** Minutes that somebody works on a dish by hand. Common practice, watched by nobody with a clock: all are estimates. */
import type { Parameter } from '../../physics/parameter.ts';

/** What the work is made of; shares are of minutes at the boil. */
export const HANDS_ON = {
  /** Measuring water and goods, opening and closing. */
  measuringMinutes: practice(6, 3, 10, 'min', 'measuring water and goods'),
  /** Where something is soaked: putting it in water, and pouring that away. */
  soakMinutes: practice(4, 2, 7, 'min', 'setting a soak and draining it'),
  /** Where unsoaked beans are boiled up first: pouring that water away and filling again. */
  firstWaterMinutes: practice(6, 3, 10, 'min', 'pouring a first water away'),
  /** Where it ends in a box or flask. */
  boxMinutes: practice(3, 1, 6, 'min', 'moving a pot into a box or filling a flask'),
  /** Of the minutes that the dish boils until it is soft: looking whether it is. */
  lookShare: practice(0.1, 0.05, 0.2, '1', 'looking whether it is soft'),
  /** Of the minutes on the flame: stirring, and the flame itself. */
  stirShare: practice(0.15, 0.05, 0.3, '1', 'stirring and minding the flame'),
  /** A dish without fire, all of it. */
  withoutFireMinutes: practice(5, 2, 10, 'min', 'measuring, adding water and stirring once'),
} as const;

function practice(value: number, p10: number, p90: number, unit: string, place: string): Parameter {
  return { value, p10, p90, unit, source: { key: 'kitchenPractice', place }, estimate: true };
}
