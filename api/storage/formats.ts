/**
 * Formats of stored documents. Every document carries a `format` number; a document of an older format is brought up to
 * date by pure functions, one per step, whenever it is read. The same functions serve every store.
 */

/** Turns a document of one format into the next. Never changes its argument. */
export type Upgrader = (document: Record<string, unknown>) => Record<string, unknown>;

/** `upgraders[0]` leads from format 1 to 2, `upgraders[1]` from 2 to 3 and so on. */
export interface Format {
  upgraders: readonly Upgrader[];
}

export const COLLECTIONS = ['households', 'kits', 'stock', 'plans', 'measurements', 'bookings', 'foods'] as const;
export type Collection = (typeof COLLECTIONS)[number];

/** The formats of today: all documents are at their first one. */
export const FORMATS: Readonly<Record<Collection, Format>> = {
  households: { upgraders: [] },
  kits: { upgraders: [] },
  stock: { upgraders: [] },
  plans: { upgraders: [] },
  measurements: { upgraders: [] },
  bookings: { upgraders: [] },
  foods: { upgraders: [] },
};

/** The newest format number of a collection, 1 or more. */
export function currentFormat(format: Format): number {
  return format.upgraders.length + 1;
}

/** A document was written by a newer program than this one. */
export class NewerFormatError extends Error {
  readonly found: number;
  readonly newest: number;
  constructor(found: number, newest: number) {
    super(`the document has format ${found}, this program knows up to ${newest}`);
    this.name = 'NewerFormatError';
    this.found = found;
    this.newest = newest;
  }
}

/**
 * Brings a document to the newest format. A document without a number counts as format 1.
 * @throws NewerFormatError when the document is newer than the program
 */
export function upgradeDocument(document: Record<string, unknown>, format: Format): Record<string, unknown> {
  const newest = currentFormat(format);
  const found = typeof document.format === 'number' ? document.format : 1;
  if (found > newest || found < 1 || !Number.isInteger(found)) throw new NewerFormatError(found, newest);
  let upgraded = document;
  for (const step of format.upgraders.slice(found - 1)) upgraded = step(upgraded);
  return { ...upgraded, format: newest };
}
