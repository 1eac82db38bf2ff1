/**
 * What a household books while a plan is carried out: one record for each thing that happened, with its time. Records are
 * added and never changed; one that was wrong is taken back by another. What follows from them is worked out anew each
 * time, see `state-now.ts`.
 */
import type { FuelId } from '../../physics/table-ids.ts';
import type { Guest, StockEntry } from '../plan-types.ts';

export const BOOKING_KINDS = [
  'meal-eaten',
  'meal-skipped',
  'meal-changed',
  'fuel-weighed',
  'water-left',
  'soak-set',
  'soak-drained',
  'box-opened',
  'box-read',
  'food-tried',
  'broke',
  'mended',
  'came',
  'left',
  'undo',
] as const;
export type BookingKind = (typeof BOOKING_KINDS)[number];

interface BookingBase {
  format?: number;
  id: string;
  planId: string;
  /** When it happened: local wall-clock time, `YYYY-MM-DDTHH:MM`. */
  at: string;
  /** When it was booked, as an instant of UTC; set by the server. */
  bookedAt?: string;
  /** Whoever booked has been asked and stands by it: more fuel than before, say. */
  confirmed?: boolean;
  note?: string;
}

/** A meal was eaten as planned, or was not eaten, or something else was. */
export interface MealBooking extends BookingBase {
  kind: 'meal-eaten' | 'meal-skipped' | 'meal-changed';
  /** `2026-12-05-evening` */
  meal: string;
  /** Of a meal that was changed: what was eaten instead; absent: nothing of the kits. */
  kitId?: string;
  /** Sets that it took; absent: 1. */
  batches?: number;
  /** Of a meal that was changed: what became of the planned dish; absent: it was not cooked. */
  plannedDish?: 'not-cooked' | 'thrown-away';
  /** What it took from the stock; set by the server, in whose ledger the same lines stand. */
  stock?: StockEntry[];
}

/** What a container was found to hold, told in one of five ways. */
export interface FuelBooking extends BookingBase {
  kind: 'fuel-weighed';
  fuelId: FuelId;
  containerId: string;
  /** Of several like containers: those that are still full; the weighing is of the one that is begun. */
  fullOnes?: number;
  /** With the container. */
  grossKg?: number;
  /** Of the empty container; absent: as the household says. */
  tareKg?: number;
  leftKg?: number;
  /** Of liquids. */
  litres?: number;
  /** Wetted part of a dipstick in a straight-sided can, of its full height. */
  dipstickShare?: number;
  /** Of wood: what a grown person carries on one arm. */
  armfuls?: number;
  /** Of electricity. */
  leftKWh?: number;
}

/** What a lot of water was found to hold. */
export interface WaterBooking extends BookingBase {
  kind: 'water-left';
  lotId: string;
  litres: number;
}

/** Food was put into water. */
export interface SoakBooking extends BookingBase {
  kind: 'soak-set';
  kitId: string;
  /** Absent: 1. */
  batches?: number;
  vesselId: string;
  temperatureC?: number;
}

/** A soak was drained, or a box opened: what became of it. */
export interface EndBooking extends BookingBase {
  kind: 'soak-drained' | 'box-opened';
  /** Of a soak: the booking that set it, or the cooking of the plan. Of a box: the cooking of the plan. */
  of: string;
  /** `not-set`: the plan had it in water, and nobody had put it there; its food is dry in the store. */
  result: 'cooked' | 'eaten' | 'thrown-away' | 'not-set';
  /** What it took from the stock where it was thrown away; set by the server. */
  stock?: StockEntry[];
}

/** A thermometer in a dish that stands in a box or flask. */
export interface BoxReadingBooking extends BookingBase {
  kind: 'box-read';
  /** The cooking of the plan. */
  of: string;
  temperatureC: number;
}

/** A dish was tried: just soft, or not soft yet. */
export interface TriedBooking extends BookingBase {
  kind: 'food-tried';
  /** The cooking of the plan. */
  of: string;
  /** Which food of it; absent: that which takes longest. */
  foodId?: string;
  /** Minutes at the boil until then, without those in a box or flask. */
  minutes: number;
  soft: boolean;
}

/** A stove, vessel or box can no longer be used, or can again. */
export interface ThingBooking extends BookingBase {
  kind: 'broke' | 'mended';
  thingId: string;
}

/** People, fuel or water that came. */
export interface CameBooking extends BookingBase {
  kind: 'came';
  /** Who stays until the end of the date `until`; absent: to the end of the plan. */
  guests?: Guest[];
  until?: string;
  /** People of the household who were away. */
  people?: string[];
  fuel?: { fuelId: FuelId; containerId: string; kg: number };
  water?: { lotId: string; litres: number };
}

/** People of the household who left, or guests, all of them. */
export interface LeftBooking extends BookingBase {
  kind: 'left';
  people?: string[];
  guests?: 'all';
}

/** Takes an earlier booking back; what that one took from the stock goes back with it. */
export interface UndoBooking extends BookingBase {
  kind: 'undo';
  bookingId: string;
}

export type Booking =
  | MealBooking
  | FuelBooking
  | WaterBooking
  | SoakBooking
  | EndBooking
  | BoxReadingBooking
  | TriedBooking
  | ThingBooking
  | CameBooking
  | LeftBooking
  | UndoBooking;

/**
 * The bookings that stand, oldest first by the time at which they happened: those taken back are left out, and so are the
 * records that took them back.
 */
export function standingBookings(bookings: readonly Booking[]): Exclude<Booking, UndoBooking>[] {
  const undone = new Set(bookings.flatMap((booking) => (booking.kind === 'undo' ? [booking.bookingId] : [])));
  return bookings
    .filter((booking): booking is Exclude<Booking, UndoBooking> => booking.kind !== 'undo' && !undone.has(booking.id))
    .sort((a, b) => compare(a.at, b.at) || compare(a.bookedAt ?? '', b.bookedAt ?? '') || compare(a.id, b.id));
}

/** The lines of the ledger that belong to a booking. */
export function linesOfBooking(booking: Booking): StockEntry[] {
  return 'stock' in booking ? (booking.stock ?? []) : [];
}

export function isMealBooking(booking: Booking): booking is MealBooking {
  return booking.kind === 'meal-eaten' || booking.kind === 'meal-skipped' || booking.kind === 'meal-changed';
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
