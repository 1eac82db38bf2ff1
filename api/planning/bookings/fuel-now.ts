/**
 * What containers of fuel hold at a moment: what was there when the plan began, less what its fires have taken, and from
 * a weighing on what was weighed. Containers are opened one at a time, those already begun first.
 */
import { fuelOnHandKg } from '../../cooking/household/fuel-on-hand.ts';
import type { ResolvedFuelStore } from '../../cooking/household/resolve-household.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import type { FuelId } from '../../physics/table-ids.ts';
import { addDays } from '../local-time.ts';
import type { Plan } from '../plan-types.ts';
import type { Booking } from './booking-types.ts';
import { type FuelUsed, fuelUsedBy } from './planned-use.ts';
import { weighedContent } from './weighed-fuel.ts';

export interface ContainerNow {
  containerId: string;
  /** Of several like ones, 1 the first. */
  nth: number;
  placeId: string | null;
  fullKg: number | null;
  tareKg: number | null;
  /** kg (kWh of electricity): typical, and the band. */
  left: Percentiles;
  /** What a plan counts on: as weighed, else with what was burnt at its high end. */
  counted: number;
  /** When it was last weighed; null: worked out. */
  weighedAt: string | null;
  /** Nothing was taken from it or found in it that was not there when the plan began. */
  untouched: boolean;
}

export interface FuelNow {
  fuelId: FuelId;
  unit: 'kg' | 'kWh';
  left: Percentiles;
  counted: number;
  containers: ContainerNow[];
}

/** A weighing against what was worked out for the same moment. */
export interface Difference {
  bookingId: string;
  at: string;
  what: 'fuel' | 'water';
  /** Fuel, or lot of water. */
  id: string;
  containerId: string | null;
  computed: Percentiles;
  found: number;
  /** found - computed.p50 */
  difference: number;
  unit: 'kg' | 'kWh' | 'L';
}

/** A container of less than this share of its content has been begun. */
const BEGUN_SHARE = 0.97;

/**
 * @param store the fuel as the plan's household had it, containers at the places of the plan
 * @param bookings those that stand, in their order
 * @param omitted cookings that did not take place
 * @param at local wall-clock time
 */
export function fuelNow(
  plan: Plan,
  store: ResolvedFuelStore,
  bookings: readonly Booking[],
  omitted: ReadonlySet<string>,
  at: string,
): { fuel: FuelNow; differences: Difference[] } {
  const { fuelId } = store;
  const electric = fuelId === 'electricity';
  const unit = electric ? 'kWh' : 'kg';
  const containers = containersAtStart(store);
  const differences: Difference[] = [];
  let usedSoFar: FuelUsed = { p10: 0, p50: 0, p90: 0, limit: 0 };
  let date = plan.request.startsAt.slice(0, 10);
  const advanceTo = (until: string) => {
    const used = fuelUsedBy(plan, fuelId, until, omitted);
    burn(containers, {
      p10: used.p10 - usedSoFar.p10,
      p50: used.p50 - usedSoFar.p50,
      p90: used.p90 - usedSoFar.p90,
      limit: used.limit - usedSoFar.limit,
    });
    usedSoFar = used;
    const supply = electric ? store.dailySupplyKWh : store.dailySupplyKg;
    for (; date < until.slice(0, 10); date = addDays(date, 1)) if (supply > 0) add(containers, null, supply);
  };
  for (const booking of bookings) {
    if (booking.at > at) break;
    if (booking.kind === 'came' && booking.fuel?.fuelId === fuelId) {
      advanceTo(booking.at);
      add(containers, booking.fuel.containerId, booking.fuel.kg);
    }
    if (booking.kind !== 'fuel-weighed' || booking.fuelId !== fuelId) continue;
    advanceTo(booking.at);
    const same = containers.filter((one) => one.containerId === booking.containerId);
    const first = same[0];
    if (first === undefined) continue;
    const nothing = booking.fullOnes === undefined ? null : { p10: 0, p50: 0, p90: 0 };
    const found = weighedContent(booking, first) ?? nothing;
    if (found === null) continue;
    const computed = totalOf(same.map((one) => one.left));
    if (booking.fullOnes !== undefined) {
      same.forEach((one, index) => {
        const full = one.fullKg ?? one.left.p50;
        if (index < (booking.fullOnes ?? 0)) {
          // One that was full and still is stays one of several like ones.
          const stillFull = one.untouched && Math.abs(one.left.p50 - full) < 1e-9;
          set(one, { p10: full, p50: full, p90: full }, booking.at);
          one.untouched = stillFull;
        } else if (index === booking.fullOnes) set(one, found, booking.at);
        else set(one, { p10: 0, p50: 0, p90: 0 }, booking.at);
      });
    } else set(inOrder(same).find((one) => one.left.p50 > 1e-9) ?? first, found, booking.at);
    const now = totalOf(same.map((one) => one.left));
    differences.push({
      bookingId: booking.id,
      at: booking.at,
      what: 'fuel',
      id: fuelId,
      containerId: booking.containerId,
      computed,
      found: now.p50,
      difference: now.p50 - computed.p50,
      unit,
    });
  }
  advanceTo(at);
  return {
    fuel: {
      fuelId,
      unit,
      left: totalOf(containers.map((one) => one.left)),
      counted: containers.reduce((sum, one) => sum + one.counted, 0),
      containers,
    },
    differences,
  };
}

/** Every container by itself, with what was counted in it when the plan began. */
export function containersAtStart(store: ResolvedFuelStore): ContainerNow[] {
  if (store.fuelId === 'electricity') return [single('battery', 1, null, null, null, store.leftKWh)];
  const counted = fuelOnHandKg(store).byContainer;
  return store.containers.flatMap((container, index) => {
    const count = Math.max(1, container.count);
    const kg = (counted[index]?.kg ?? 0) / count;
    return Array.from({ length: count }, (_, nth) =>
      single(container.id, nth + 1, container.placeId, container.fullKg, container.tareKg, kg),
    );
  });
}

function single(
  containerId: string,
  nth: number,
  placeId: string | null,
  fullKg: number | null,
  tareKg: number | null,
  kg: number,
): ContainerNow {
  const left = { p10: kg, p50: kg, p90: kg };
  return { containerId, nth, placeId, fullKg, tareKg, left, counted: kg, weighedAt: null, untouched: true };
}

/** Begun ones first, the emptiest first; then as they stand. */
function inOrder(containers: readonly ContainerNow[]): ContainerNow[] {
  const begun = (one: ContainerNow) => one.left.p50 < (one.fullKg ?? Number.POSITIVE_INFINITY) * BEGUN_SHARE;
  return [...containers].sort(
    (a, b) => Number(begun(b)) - Number(begun(a)) || (begun(a) && begun(b) ? a.left.p50 - b.left.p50 : 0),
  );
}

/** Takes what was used out of the containers; what is left at the low end is what was used at the high one. */
function burn(containers: readonly ContainerNow[], used: FuelUsed): void {
  const rest = { p10: used.p90, p50: used.p50, p90: used.p10, limit: used.limit };
  for (const one of inOrder(containers)) {
    if (rest.p10 <= 0 && rest.limit <= 0 && rest.p50 <= 0 && rest.p90 <= 0) return;
    for (const band of ['p10', 'p50', 'p90'] as const) {
      const taken = Math.min(one.left[band], Math.max(0, rest[band]));
      one.left[band] -= taken;
      rest[band] -= taken;
      if (taken > 0) one.untouched = false;
    }
    const taken = Math.min(one.counted, Math.max(0, rest.limit));
    one.counted -= taken;
    rest.limit -= taken;
  }
}

function add(containers: readonly ContainerNow[], containerId: string | null, kg: number): void {
  const one = containers.filter((row) => containerId === null || row.containerId === containerId).at(-1);
  if (one === undefined) return;
  one.left = { p10: one.left.p10 + kg, p50: one.left.p50 + kg, p90: one.left.p90 + kg };
  one.counted += kg;
  one.untouched = false;
}

function set(one: ContainerNow, found: Percentiles, at: string): void {
  one.left = { ...found };
  one.counted = found.p10;
  one.weighedAt = at;
  one.untouched = false;
}

function totalOf(rows: readonly Percentiles[]): Percentiles {
  const sum = (band: keyof Percentiles) => rows.reduce((total, row) => total + row[band], 0);
  return { p10: sum('p10'), p50: sum('p50'), p90: sum('p90') };
}
