/** What the routes of stored documents share: addresses, headers and the answers to reads. */
import type { Context } from 'hono';
import type { Revised } from '../../storage/collections.ts';
import { etagOf, notModified } from '../etag.ts';
import { id } from '../schema-values.ts';
import { z } from '../zod.ts';

export const idParams = z.strictObject({ id });

/** Headers of conditional requests, for the description. Read by hand: absent is 428, not 422. */
export const conditionHeaders = z.object({
  'if-match': z.string().optional().meta({ description: 'The ETag that was read.' }),
  'if-none-match': z.string().optional().meta({ description: '`*`: it must not exist yet.' }),
});

export function conditionsOf(c: Context): { ifMatch: string | undefined; ifNoneMatch: string | undefined } {
  return { ifMatch: c.req.header('if-match'), ifNoneMatch: c.req.header('if-none-match') };
}

/** Sets the tag; returns a 304 when the reader has this revision already. */
export function tagOrNotModified(c: Context, document: Revised<unknown>): Response | null {
  c.header('etag', etagOf(document.rev));
  c.header('cache-control', 'private, no-cache');
  if (!notModified(c.req.header('if-none-match'), document.rev)) return null;
  return c.body(null, 304);
}
