/** What the routes of stored documents share: addresses, headers and the answers to reads. */
import type { Context, TypedResponse } from 'hono';
import type { Revised } from '../../storage/collections.ts';
import { etagOf, notModified } from '../etag.ts';
import { answer, FOUND_PROBLEMS, REVISION_PROBLEMS, WRITE_PROBLEMS } from '../problem-answers.ts';
import { id } from '../schema-values.ts';
import { z } from '../zod.ts';

export const idParams = z.strictObject({ id });

/** Headers of conditional requests, for the description. Read by hand: absent is 428, not 422. */
export const conditionHeaders = z.object({
  'if-match': z.string().optional().meta({ description: 'The ETag that was read.' }),
  'if-none-match': z.string().optional().meta({ description: '`*`: it must not exist yet.' }),
});

/** What reading one document may answer. */
export function readAnswers<Schema extends z.ZodType>(schema: Schema, description: string) {
  return { 200: answer(schema, description), 304: { description: 'Unchanged.' }, ...FOUND_PROBLEMS } as const;
}

/** What putting a document may answer, whether it is there already or not. */
export function putAnswers<Schema extends z.ZodType>(schema: Schema, replaced: string, created: string) {
  return {
    200: answer(schema, replaced),
    201: answer(schema, created),
    ...WRITE_PROBLEMS,
    ...REVISION_PROBLEMS,
  } as const;
}

export function conditionsOf(c: Context): { ifMatch: string | undefined; ifNoneMatch: string | undefined } {
  return { ifMatch: c.req.header('if-match'), ifNoneMatch: c.req.header('if-none-match') };
}

/** The document with its tag; a 304 when the reader has this revision already. */
export function documentOrNotModified<Body extends object>(
  c: Context,
  document: Revised<Body>,
): Response & TypedResponse<Body, 200, 'json'> {
  c.header('etag', etagOf(document.rev));
  c.header('cache-control', 'private, no-cache');
  return notModified(c.req.header('if-none-match'), document.rev)
    ? (c.body(null, 304) as never)
    : (c.json(document.body, 200) as never);
}
