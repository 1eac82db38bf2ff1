/** What a booking of fuel says that a container holds: by scale, dipstick, litres, armfuls or meter. */
import { FUELS } from '../../physics/fuels-table.ts';
import type { Parameter, Percentiles } from '../../physics/parameter.ts';
import type { FuelBooking } from './booking-types.ts';

/** Split wood that a grown person carries on one arm, kg. Common practice, from memory: eight to ten sticks of half a kilogram. */
export const ARMFUL_KG: Parameter = {
  value: 5,
  p10: 3.5,
  p90: 7,
  unit: 'kg',
  source: { key: 'household-practice', place: 'an armful of split wood' },
  estimate: true,
};

/** Reading of each way, as a share of the reading up and down; a scale is taken as it is. Common practice. */
const READING_SHARE = { dipstick: 0.1, litres: 0.05 } as const;

/** What is known of the container. */
export interface WeighedContainer {
  fullKg: number | null;
  tareKg: number | null;
}

/**
 * @param booking exactly one way of telling is given
 * @param container of the plan's household
 * @returns kg in the one container (kWh of electricity) with its band; null where the way needs a figure that is not
 *   known: a tare, what a full one holds, a density
 */
export function weighedContent(booking: FuelBooking, container: WeighedContainer): Percentiles | null {
  const sure = (amount: number): Percentiles => ({ p10: amount, p50: amount, p90: amount });
  const within = (amount: number, share: number): Percentiles => ({
    p10: amount * (1 - share),
    p50: amount,
    p90: amount * (1 + share),
  });
  const { grossKg, leftKg, litres, dipstickShare, armfuls, leftKWh } = booking;
  if (leftKWh !== undefined) return sure(leftKWh);
  if (leftKg !== undefined) return sure(leftKg);
  if (grossKg !== undefined) {
    const tareKg = booking.tareKg ?? container.tareKg;
    return tareKg === null ? null : sure(grossKg - tareKg);
  }
  if (litres !== undefined) {
    const density = FUELS[booking.fuelId].densityKgPerL;
    return density === null ? null : within(litres * density, READING_SHARE.litres);
  }
  if (dipstickShare !== undefined)
    return container.fullKg === null ? null : within(dipstickShare * container.fullKg, READING_SHARE.dipstick);
  if (armfuls !== undefined)
    return { p10: armfuls * ARMFUL_KG.p10, p50: armfuls * ARMFUL_KG.value, p90: armfuls * ARMFUL_KG.p90 };
  return null;
}

/** The ways of telling that a booking uses, by field. */
export function waysOfTelling(booking: FuelBooking): string[] {
  return (['grossKg', 'leftKg', 'litres', 'dipstickShare', 'armfuls', 'leftKWh'] as const).filter(
    (way) => booking[way] !== undefined,
  );
}
