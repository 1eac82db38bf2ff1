/** The values that schemas are built from: measures with unit and range, ids, dates and times that exist. */
import { z } from './zod.ts';

/**
 * A number with its unit and closed range; all three go into the API description and into refusals.
 * @param unit unit as printed; `1` for counts and shares
 */
export function measure(minimum: number, maximum: number, unit: string) {
  return z.number().min(minimum).max(maximum).meta({ unit });
}

/** A whole number in a closed range. */
export function count(minimum: number, maximum: number) {
  return z.int().min(minimum).max(maximum).meta({ unit: '1' });
}

/** A measure given in the query of an address: decimal digits only, then the range. */
export function queryMeasure(minimum: number, maximum: number, unit: string) {
  return z
    .string()
    .regex(/^-?\d{1,9}(\.\d{1,20})?$/)
    .meta({ description: `A decimal number from ${minimum} to ${maximum} ${unit}.` })
    .transform(Number)
    .pipe(measure(minimum, maximum, unit))
    .optional();
}

/** Elevations: from the shore of the Dead Sea to the highest ground. */
export const ELEVATION_RANGE_M = { minimum: -430, maximum: 8850 } as const;
/** Elevations at which people cook: the highest settlements lie near 5,100 m. */
export const COOKING_ELEVATION_RANGE_M = { minimum: -430, maximum: 6000 } as const;

export const cookingElevationM = measure(COOKING_ELEVATION_RANGE_M.minimum, COOKING_ELEVATION_RANGE_M.maximum, 'm');
export const airC = measure(-50, 60, 'C');
/** Where dry food lies: the temperatures that the hardening of stored pulses was worked out for. */
export const storageC = measure(-30, 50, 'C');
/** Water in dry food, % of the wet mass: above 20 % it moulds. */
export const dryFoodMoisturePercent = measure(2, 20, '%');
export const gaugeKPa = measure(0, 150, 'kPa');
/** Pots of shelters hold 40 L; a kettle over a fire holds 100 L at most. */
export const capacityL = measure(0.1, 100, 'L');
export const share = measure(0, 1, '1');
export const powerKW = measure(0.1, 30, 'kW');
export const diameterMm = measure(50, 900, 'mm');

/** An id as the contract words it. */
export const id = z
  .string()
  .regex(/^[a-z0-9-]{1,64}$/)
  .meta({ description: '1 to 64 characters: a-z, 0-9 and hyphen.' });

/** The id of a food of the tables or of an own one. Whether there is such a food is asked where the own ones are read (`own-foods.ts`). */
export const foodId = z.string().max(64).meta({ description: 'The id of a food; GET /api/foods lists them.' });

/**
 * Text for people: one line that shows something. Control characters and halves of characters print as nothing, or break
 * the line.
 */
export const label = z
  .string()
  .min(1)
  .max(200)
  .refine((text) => /\S/.test(text) && !/[\p{Cc}\p{Cs}]/u.test(text))
  .meta({ description: 'One line of text, 1 to 200 characters, none of them a control character.' });
export const note = z.string().max(2000);

/** A calendar date that exists. */
export const date = z
  .string()
  .refine(isDate)
  .meta({ description: 'A date that exists, YYYY-MM-DD.', format: 'date', examples: ['2026-12-05'] });

/** A local wall-clock date and time whose date exists. */
export const dateTime = z
  .string()
  .refine((text) => isDate(text.slice(0, 10)) && /^T([01]\d|2[0-3]):[0-5]\d$/.test(text.slice(10)))
  .meta({
    description: 'Local wall-clock time on a date that exists, YYYY-MM-DDTHH:MM.',
    examples: ['2026-12-05T17:00'],
  });

/** A wall-clock time. */
export const time = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/)
  .meta({ description: 'Wall-clock time HH:MM.', examples: ['07:30'] });

export const timeZone = z
  .string()
  .max(64)
  .refine(isTimeZone)
  .meta({ description: 'A time zone of the IANA list.', examples: ['Europe/Zurich'] });

/** Document formats; only the first exists. */
export const format = count(1, 1).optional();

/** Refuses two entries of one list with the same id. */
export function distinctIds<Entry extends { id: string }>(entries: Entry[]): boolean {
  return new Set(entries.map((entry) => entry.id)).size === entries.length;
}

/** Whether a text is a date of the calendar, 1900 to 2199. */
export function isDate(text: string): boolean {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (match === null) return false;
  const [year, month, day] = match.slice(1).map(Number) as [number, number, number];
  if (year < 1900 || year > 2199) return false;
  const made = new Date(Date.UTC(year, month - 1, day));
  return made.getUTCMonth() === month - 1 && made.getUTCDate() === day;
}

function isTimeZone(name: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: name }) !== null && /^[A-Za-z]/.test(name);
  } catch {
    return false;
  }
}
