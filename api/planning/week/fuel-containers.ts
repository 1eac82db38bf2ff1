/** Containers of gas and spirit are opened one at a time: which comes when, and what the cold does to small ones. */
import { type FuelStoreToCount, fuelOnHandKg } from '../../cooking/household/fuel-on-hand.ts';
import type { Parameter } from '../../physics/parameter.ts';
import { STOVE_TYPES } from '../../physics/stoves-table.ts';
import type { ContainerUse } from '../plan-types.ts';
import type { PlacedWeek } from './place-week.ts';
import type { WeekSituation } from './week-situation.ts';

const GASES: ReadonlySet<string> = new Set(['propane', 'butane', 'canister-mix']);
/** Stacks and sockets are not opened. */
const NOT_OPENED: ReadonlySet<string> = new Set(['wood', 'charcoal', 'electricity']);
/** A cylinder up to this fill is small, kg. */
const SMALL_CYLINDER_KG = 1;

/**
 * Minutes for which a small cylinder in the frost gives its full flame at 2.5 kW: what boils off cools the rest. A 465 g
 * one at -15 C falls to half its pressure in half an hour: worked out here from 23 W of evaporation, 1.3 kJ/K of gas and
 * steel and 0.5 W/K of air, by common values.
 */
export const FROSTY_CYLINDER_MINUTES: Parameter = {
  value: 30,
  p10: 20,
  p90: 45,
  unit: 'min',
  source: { key: 'household-practice', place: 'small cylinders in the cold' },
  estimate: true,
};
const FROSTY_POWER_KW = 2.5;

/**
 * The containers of a fuel in the order in which they are opened: those already begun, the emptiest first, then full ones.
 * @param store the fuel and its containers at the places of the plan
 * @param usedByDay typical use of each day, kg
 * @param dates of the same days
 * @returns one row for each container that holds something; none for stacks and sockets
 */
export function containersInOrder(
  store: FuelStoreToCount,
  usedByDay: readonly number[],
  dates: readonly string[],
): ContainerUse[] {
  if (NOT_OPENED.has(store.fuelId)) return [];
  const counted = fuelOnHandKg(store).byContainer;
  const single = (store.containers ?? []).flatMap((container, index) => {
    const count = container.count ?? 1;
    const row = counted[index];
    if (row === undefined || !(row.kg > 0)) return [];
    const kg = row.kg / count;
    const begun = row.counted !== 'full' && kg < (container.fullKg ?? Number.POSITIVE_INFINITY) * 0.97;
    return Array.from({ length: count }, (_, nth) => ({ id: container.id, nth: nth + 1, kg, begun }));
  });
  single.sort((a, b) => Number(b.begun) - Number(a.begun) || (a.begun && b.begun ? a.kg - b.kg : 0));
  let before = 0;
  return single.map(({ id, nth, kg }) => {
    const from = before;
    before += kg;
    return {
      id,
      nth,
      kg,
      openedOn: dayOf(from, usedByDay, dates, true),
      emptyOn: dayOf(before, usedByDay, dates, false),
    };
  });
}

/** The day on which so much has typically been burnt; a container is opened when the first of it is. */
function dayOf(kg: number, usedByDay: readonly number[], dates: readonly string[], opens: boolean): string | null {
  let soFar = 0;
  for (const [day, used] of usedByDay.entries()) {
    soFar += used;
    if (opens ? soFar > kg + 1e-9 : soFar >= kg - 1e-9) return dates[day] ?? null;
  }
  return null;
}

/** What to mind where small cylinders burn long in the frost; null where none does. */
export function frostyCylinderCaution(situation: WeekSituation, placed: PlacedWeek): string | null {
  const { household, place } = situation;
  if (place.outdoorC >= 0) return null;
  const small = new Set(
    household.fuels
      .filter(
        (store) =>
          GASES.has(store.fuelId) &&
          store.containers.length > 0 &&
          store.containers.every((one) => one.fullKg !== null && one.fullKg <= SMALL_CYLINDER_KG),
      )
      .map((store) => store.fuelId as string),
  );
  const long = placed.lightings.find(({ detail, startMinute, endMinute }) => {
    const { stove } = detail;
    const powerKW = stove.powerKW ?? STOVE_TYPES[stove.typeId].powerKW.value;
    const minutes = (FROSTY_CYLINDER_MINUTES.value * FROSTY_POWER_KW) / powerKW;
    return stove.site === 'outdoors' && small.has(detail.fuelId) && endMinute - startMinute > minutes;
  });
  if (long === undefined) return null;
  return `Small gas cylinders cool as they burn: at ${place.outdoorC} °C the flame of ${long.detail.stove.name} grows weak after about half an hour. Keep a second one warm in a coat and change them; never heat a cylinder.`;
}
