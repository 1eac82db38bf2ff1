/** What the weighings of a plan say of its stoves: fuel used against fuel predicted, one record for each stove. */
import { COUNTED_SHARE_BY_LEVEL } from '../../cooking/household/fuel-on-hand.ts';
import { type ResolvedFuelStore, resolveHousehold } from '../../cooking/household/resolve-household.ts';
import { sdOfBand, type WeighedUse } from '../../cooking/measurements/learn-from-weighings.ts';
import type { Plan } from '../plan-types.ts';
import { type Booking, type FuelBooking, isMealBooking, standingBookings } from './booking-types.ts';
import { type ContainerNow, containersAtStart } from './fuel-now.ts';
import { fuelUsedBy, notCooked } from './planned-use.ts';
import { weighedContent } from './weighed-fuel.ts';

/** Less than this says nothing about a stove, kg, kWh. */
const LEAST_USE = 0.03;
/** Two weighings on a kitchen scale, kg; wood on a coarser one. Common practice. */
const SCALE_SD_KG = { fine: 0.005, coarse: 0.3 } as const;

/**
 * @param bookings of the plan, in any order
 * @returns a record for each stove whose fuel was weighed after fires of its own alone; none where a container was not
 *   known by weight when the plan began, where several stoves burnt the fuel, or where what was opened is not clear
 */
export function weighedUses(plan: Plan, bookings: readonly Booking[]): WeighedUse[] {
  const { household } = resolveHousehold(plan.resolved.household);
  const places = new Set([plan.request.placeId ?? household.places[0]?.id, ...(plan.request.carryFrom ?? [])]);
  const standing = standingBookings(bookings);
  const skipped = notCooked(
    plan,
    new Set(standing.flatMap((one) => (isMealBooking(one) && one.kind === 'meal-skipped' ? [one.meal] : []))),
  );
  return household.fuels.flatMap((store): WeighedUse[] => {
    const here = { ...store, containers: store.containers.filter((one) => places.has(one.placeId)) };
    const record = useOf(plan, here, standing, skipped);
    return record === null ? [] : [record];
  });
}

function useOf(
  plan: Plan,
  store: ResolvedFuelStore,
  standing: readonly Booking[],
  skipped: ReadonlySet<string>,
): WeighedUse | null {
  const { fuelId } = store;
  const weighings = new Map<string, FuelBooking>();
  for (const booking of standing)
    if (booking.kind === 'fuel-weighed' && booking.fuelId === fuelId) weighings.set(booking.containerId, booking);
  const at = [...weighings.values()]
    .map((one) => one.at)
    .sort()
    .at(-1);
  if (at === undefined || store.dailySupplyKg > 0 || store.dailySupplyKWh > 0) return null;
  const predicted = fuelUsedBy(plan, fuelId, at, skipped);
  if (predicted.p50 < LEAST_USE) return null;
  const start = containersAtStart(store);
  let used = 0;
  let variance = 0;
  for (const [containerId, booking] of weighings) {
    // Fires between two weighings of different containers belong to neither.
    if (Math.abs(fuelUsedBy(plan, fuelId, booking.at, skipped).p50 - predicted.p50) > 1e-6) return null;
    const same = start.filter((one) => one.containerId === containerId);
    const [first] = same;
    if (first === undefined || !isKnown(store, containerId)) return null;
    const came = standing.reduce(
      (sum, one) =>
        sum +
        (one.kind === 'came' && one.fuel?.fuelId === fuelId && one.fuel.containerId === containerId && one.at <= at
          ? one.fuel.kg
          : 0),
      0,
    );
    const found = contentOfAll(booking, same);
    if (found === null) return null;
    used += same.reduce((sum, one) => sum + one.left.p50, 0) + came - found.kg;
    const scale = store.fuelId === 'wood' || store.fuelId === 'charcoal' ? SCALE_SD_KG.coarse : SCALE_SD_KG.fine;
    variance += found.sd ** 2 + scale ** 2;
  }
  // What was not weighed must hold what it held; the fires may have taken it elsewhere.
  const others = start.filter((one) => !weighings.has(one.containerId) && one.left.p50 > 0);
  if (others.length > 0 && used <= 0) return null;
  if (!(used > 0)) return null;
  const lit = plan.lightings.filter(
    (lighting) =>
      lighting.fuelId === fuelId &&
      lighting.burnsAnyway !== true &&
      lighting.at <= at &&
      [...plan.cookings, ...plan.tasks].some(
        (work) =>
          !skipped.has(work.id) && ('method' in work ? work.method.lightingId : work.lightingId) === lighting.id,
      ),
  );
  const [stoveId, ...more] = new Set(lit.map((lighting) => lighting.stoveId));
  if (stoveId === undefined || more.length > 0) return null;
  const learned = plan.resolved.learned?.find((row) => row.of === stoveId && row.quantity === 'efficiency')?.figure;
  const share = plan.fuel.find((row) => row.fuelId === fuelId)?.spread.find((row) => row.cause === 'stove efficiency');
  const confirmed = [...weighings.values()].some((one) => one.confirmed === true);
  const { p10, p50, p90 } = predicted;
  return {
    kind: 'weighed-use',
    id: `weighed-${plan.id}-${stoveId}`,
    householdId: plan.request.householdId,
    at,
    stoveId,
    fires: lit.length,
    used,
    usedSd: Math.sqrt(variance),
    unit: fuelId === 'electricity' ? 'kWh' : 'kg',
    predicted: { p10, p50, p90 },
    plannedFactor: learned === undefined ? 1 : learned.now.p50 / learned.table.p50,
    ownShare: share?.share ?? 0,
    ...(confirmed ? { confirmed } : {}),
  };
}

/** Whether it was known by weight, or full by its label, what a container held when the plan began. */
function isKnown(store: ResolvedFuelStore, containerId: string): boolean {
  if (store.fuelId === 'electricity') return true;
  const container = store.containers.find((one) => one.id === containerId);
  if (container === undefined) return false;
  if (container.leftKg !== null || (container.grossKg !== null && container.tareKg !== null)) return true;
  return container.fullKg !== null && COUNTED_SHARE_BY_LEVEL[container.level].p10 >= 0.9;
}

/** What all containers of one id hold by a weighing, kg; null: the weighing does not say. */
function contentOfAll(booking: FuelBooking, same: readonly ContainerNow[]): { kg: number; sd: number } | null {
  const [first] = same;
  if (first === undefined) return null;
  const full = first.fullKg ?? first.left.p50;
  const one = weighedContent(booking, first);
  if (booking.fullOnes !== undefined)
    return { kg: booking.fullOnes * full + (one?.p50 ?? 0), sd: one === null ? 0 : sdOfBand(one) };
  if (one === null) return null;
  return { kg: one.p50 + (same.length - 1) * full, sd: sdOfBand(one) };
}
