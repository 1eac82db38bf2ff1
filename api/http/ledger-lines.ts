/** Appending to the stock ledger: many lines together, checked one after the other, written all or nothing. */

import type { Kit } from '../cooking/dishes/kit.ts';
import { packableParts } from '../cooking/dishes/part-choices.ts';
import type { HouseholdDocument } from '../cooking/household/kitchen.ts';
import { linesOfBooking } from '../planning/bookings/booking-types.ts';
import type { StockEntry, StockLot } from '../planning/plan-types.ts';
import { levelsOf } from '../planning/stock-changes.ts';
import { lotKey, stockLots, undoneIds } from '../planning/stock-lots.ts';
import { createTogether, listBodies } from '../storage/collections.ts';
import { nearestInWords } from '../wording/lists.ts';
import { type FieldError, jsonPointer, RefusedError } from './problem.ts';
import type { Services } from './services.ts';

/** More wrong lines than this are not listed. */
const MOST_ERRORS = 50;
/** Room for a place where it is tomorrow already. */
const DAY_MS = 86_400_000;

/** What lines are checked against. */
export interface Ledger {
  entries: StockEntry[];
  kits: Kit[];
  households: HouseholdDocument[];
}

/** Reads ledger, kits and households. */
export async function readLedger({ store }: Services): Promise<Ledger> {
  const [entries, kits, households] = await Promise.all([
    listBodies(store, 'stock'),
    listBodies(store, 'kits'),
    listBodies(store, 'households'),
  ]);
  return { entries, kits, households };
}

/** Lots with the temperature at which they have lain: that of their place, where they state none. */
export function lotsAsStored(ledger: Pick<Ledger, 'entries' | 'households'>): StockLot[] {
  const places = new Map(ledger.households.flatMap((household) => household.places.map((place) => [place.id, place])));
  return stockLots(ledger.entries).map((lot) => ({
    ...lot,
    storageC: lot.storageC ?? places.get(lot.placeId)?.storageC ?? null,
  }));
}

/** The note of every entry that came with one list. */
export function importNote(importId: string): string {
  return `Import ${importId}`;
}

/** The latest date on which something can have been packed, `YYYY-MM-DD`. @param nowMs milliseconds since 1970 */
export function latestPackingDate(nowMs: number): string {
  return new Date(nowMs + DAY_MS).toISOString().slice(0, 10);
}

/**
 * The faults of lines for kits, parts and places that are not there, dates to come, or that take more than is left after
 * the lines before them.
 * @param pathOf where a line stands in what was sent, by its index
 */
export function faultsOfLines(
  lines: readonly StockEntry[],
  ledger: Ledger,
  nowMs: number,
  pathOf: (index: number) => (string | number)[],
): FieldError[] {
  const errors: FieldError[] = [];
  const levels = levelsOf(stockLots(ledger.entries));
  const parts = new Map(ledger.kits.map((kit) => [kit.id, new Set(packableParts(kit).map((part) => part.id))]));
  const places = new Set(ledger.households.flatMap((household) => household.places.map((place) => place.id)));
  const latest = latestPackingDate(nowMs);
  for (const [index, line] of lines.entries()) {
    if (errors.length >= MOST_ERRORS) break;
    const path = pathOf(index);
    const wrong = (field: string, detail: string, more: Partial<FieldError>) =>
      errors.push({ pointer: jsonPointer([...path, field]), detail, ...more });
    const known = parts.get(line.kitId);
    if (known === undefined)
      wrong('kitId', `There is no kit of this name.${nearestInWords(line.kitId, ledger.kits)}`, { value: line.kitId });
    else if (!known.has(line.partId))
      wrong('partId', `There is no part of this name in that kit. It has: ${[...known].join(', ')}.`, {
        value: line.partId,
      });
    // What lies at a place that a household has given up can still be carried away from it.
    const leaves = line.quantity < 0 && (levels.get(lotKey(line)) ?? 0) > 0;
    if (!places.has(line.placeId) && !leaves)
      wrong('placeId', 'There is no place of this name.', { value: line.placeId });
    if (line.packedOn > latest)
      wrong('packedOn', 'Nothing is packed before its day: give the day on which it was packed.', {
        value: line.packedOn,
        latest,
      });
    const left = levels.get(lotKey(line)) ?? 0;
    if (left + line.quantity < -1e-9) {
      const there = Math.max(0, Math.round(left * 1e6) / 1e6);
      wrong('quantity', `There are only ${there} of this lot.`, {
        value: line.quantity,
        minimum: there === 0 ? 0 : -there,
        maximum: 10_000,
        unit: '1',
      });
    } else levels.set(lotKey(line), left + line.quantity);
    if (line.quantity === 0 && line.reason !== 'counted' && line.reason !== 'undo')
      wrong('quantity', 'Zero only says something when counted.', { value: 0 });
  }
  return errors;
}

/**
 * Writes lines that have been checked, all or nothing.
 * @throws RefusedError 409 when an id is taken
 */
export async function writeLines({ store, newId }: Services, lines: readonly StockEntry[]): Promise<void> {
  if (lines.length === 0) return;
  const written = await createTogether(store, { stock: lines }, newId());
  if (written.outcome === 'ok') return;
  const id = written.key.slice(written.key.indexOf('/') + 1);
  const index = lines.findIndex((line) => line.id === id);
  throw new RefusedError('already-there', `The id ${id} is taken. Nothing was changed; take another id.`, {
    errors: [{ pointer: jsonPointer(['entries', index, 'id']), detail: 'This id is taken.', value: id }],
  });
}

/**
 * The faults of taking entries back: those that are not there, are taken back already, or belong to a booking.
 * @param ids of entries, as sent under `entryIds`
 */
export async function faultsOfUndo(
  { store }: Services,
  ids: readonly string[],
  entries: readonly StockEntry[],
): Promise<FieldError[]> {
  const byId = new Map(entries.map((entry) => [entry.id, entry]));
  const undone = undoneIds(entries);
  const booked = new Set((await listBodies(store, 'bookings')).flatMap(linesOfBooking).map((line) => line.id));
  return ids.flatMap((id, index): FieldError[] => {
    const entry = byId.get(id);
    const detail =
      entry === undefined
        ? 'There is no entry of this id.'
        : undone.has(id)
          ? 'This entry has been taken back already.'
          : ids.indexOf(id) !== index
            ? 'This entry is named twice.'
            : booked.has(id) || (entry.undoes !== undefined && booked.has(entry.undoes))
              ? 'This entry was booked with a meal of a plan: take the booking back, and the stock goes with it.'
              : null;
    return detail === null ? [] : [{ pointer: jsonPointer(['entryIds', index]), detail, value: id }];
  });
}
