/** A stored plan as what it was made from, for questions about it. */
import type { HouseholdDocument } from '../../cooking/household/kitchen.ts';
import type { Evidence } from '../../cooking/measurements/learn-from-measurements.ts';
import type { PlanInput } from '../make-plan.ts';
import type { Plan, StockEntry } from '../plan-types.ts';

/**
 * What a plan was made from: household, kits and stock as the plan keeps them, whatever has been changed since.
 * @param measurements the household's records; a plan keeps what follows from them, not the records themselves
 */
export function inputOfPlan(
  { request, resolved, continues }: Pick<Plan, 'request' | 'resolved' | 'continues'>,
  measurements: readonly Evidence[],
): PlanInput {
  return {
    request: { ...request, replaces: null },
    household: withoutAssumedDaylight(resolved.household, resolved.defaults),
    kits: resolved.kits.filter((kit) => kit.madeFrom === undefined),
    stock: resolved.stock.map(
      (lot, index): StockEntry => ({
        id: `lot-${index}`,
        kitId: lot.kitId,
        partId: lot.partId,
        placeId: lot.placeId,
        packedOn: lot.packedOn,
        useBy: lot.useBy,
        ...(lot.storageC === null ? {} : { storageC: lot.storageC }),
        ...(lot.moisturePercent === null ? {} : { moisturePercent: lot.moisturePercent }),
        ...(lot.useFirst === true ? { useFirst: true } : {}),
        quantity: lot.quantity,
        reason: 'counted',
        at: `${lot.packedOn}T00:00`,
      }),
    ),
    measurements: [...measurements],
    // What was under way then is under way in every question about the plan; it hangs on no wall.
    continues: continues === undefined ? null : { ...continues.from, wall: { dishes: [], hotWater: [] } },
  };
}

/** Daylight that nobody stated limits no fire, so that it is left open again. */
function withoutAssumedDaylight(household: HouseholdDocument, defaults: readonly string[]): HouseholdDocument {
  return {
    ...household,
    places: household.places.map((place) => {
      if (!defaults.includes(`places.${place.id}.daylight`)) return place;
      const { daylight: _assumed, ...stated } = place;
      return stated;
    }),
  };
}
