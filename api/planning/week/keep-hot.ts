/** How long the things of a household keep food hot, at their bad end. */
import type { Calculations } from '../../cooking/calculators/calculations.ts';
import { BOX_ENTRY_LOSS_K } from '../../cooking/dishes/cooking-methods.ts';
import { insulationOf, ownReadings } from '../../cooking/household/cooling-thing.ts';
import type { ResolvedBox, ResolvedVessel } from '../../cooking/household/resolve-household.ts';
import { hoursAbove60C } from '../../cooking/keeping/hot-holding.ts';
import { boilingPointAtElevationC } from '../../physics/boiling-point.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import type { WeekSituation } from './week-situation.ts';

/** What is needed of a week: how high it is, and how cold the rooms become. */
type Rooms = Pick<WeekSituation, 'place' | 'days'>;

/**
 * Time constant of a boiled pot in a box, or of a flask, in the coldest rooms of the week.
 * @param vessel pot or flask
 * @param box null: the flask itself
 * @param fillL litres in it, > 0
 * @returns h
 * @throws OutOfRangeError when the fill is more than the vessel holds
 */
export function timeConstantHoursOf(
  vessel: ResolvedVessel,
  box: ResolvedBox | null,
  fillL: number,
  rooms: Rooms,
  calculations: Calculations,
): Percentiles {
  return calculations.cooling({
    vessel:
      box === null
        ? { kind: 'flask', capacityL: vessel.capacityL }
        : { kind: 'pot', capacityL: vessel.capacityL, material: vessel.material, lid: 'snug' },
    fillL: Math.round(fillL * 10) / 10,
    startC: boilingPointAtElevationC(rooms.place.elevationM) - BOX_ENTRY_LOSS_K,
    airC: coldestC(rooms),
    ...insulationOf(box),
    ...ownReadings(box ?? vessel),
    hours: 1,
  }).timeConstantHours;
}

/**
 * Minutes for which what was put in at the boil stays at 60 C or above, nine times in ten.
 * @param vessel pot or flask
 * @param box null: the flask itself
 * @param fillL litres in it, > 0
 * @returns whole minutes, rounded down
 * @throws OutOfRangeError when the fill is more than the vessel holds
 */
export function keepsHotMinutes(
  vessel: ResolvedVessel,
  box: ResolvedBox | null,
  fillL: number,
  rooms: Rooms,
  calculations: Calculations,
): number {
  const tau = timeConstantHoursOf(vessel, box, fillL, rooms, calculations);
  const startC = boilingPointAtElevationC(rooms.place.elevationM) - BOX_ENTRY_LOSS_K;
  return Math.floor(hoursAbove60C(startC, coldestC(rooms), tau.p10) * 60);
}

function coldestC(rooms: Rooms): number {
  return Math.min(...rooms.days.map((day) => day.coldC));
}
