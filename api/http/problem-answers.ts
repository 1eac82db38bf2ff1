/** How routes declare the problems they may answer with. */
import { z } from './zod.ts';

export const fieldError = z.object({
  pointer: z.string().optional().meta({ description: 'JSON pointer into the body, as a URI fragment.' }),
  parameter: z.string().optional().meta({ description: 'Name of a path or query parameter.' }),
  detail: z.string(),
  value: z.unknown().optional(),
  minimum: z.number().optional().meta({ unit: 'see the member `unit`' }),
  maximum: z.number().optional().meta({ unit: 'see the member `unit`' }),
  unit: z.string().optional(),
  earliest: z.string().optional().meta({ description: 'Allowed range of a time or date.' }),
  latest: z.string().optional(),
  question: z.string().optional().meta({ description: 'What to look at before sending it again.' }),
  likely: z.string().optional().meta({ description: 'The answer that is likely.' }),
});

export const problemSchema = z
  .looseObject({
    type: z.string(),
    title: z.string(),
    status: z.number().meta({ unit: '1' }),
    detail: z.string(),
    errors: z.array(fieldError).optional(),
  })
  .meta({ id: 'Problem', description: 'RFC 9457. Branch on `type`.' });

const problem = (description: string) => ({
  description,
  content: { 'application/problem+json': { schema: problemSchema } },
});

export const READ_PROBLEMS = {
  403: problem('Foreign Host.'),
  422: problem('A path or query parameter is wrong.'),
  500: problem('A fault of the program.'),
} as const;

export const FOUND_PROBLEMS = { ...READ_PROBLEMS, 404: problem('There is no such document.') } as const;

export const WRITE_PROBLEMS = {
  400: problem('Malformed JSON.'),
  403: problem('Foreign Host or Origin.'),
  413: problem('Over 2 MiB.'),
  415: problem('Not application/json.'),
  422: problem('A value is wrong; `errors` names field, value and allowed range with unit.'),
  500: problem('A fault of the program.'),
} as const;

export const CONFLICT = { 409: problem('In use, or the id is taken.') } as const;
export const REVISION_PROBLEMS = {
  404: problem('There is no such document.'),
  412: problem('Another revision is current; the ETag header names it.'),
  428: problem('Neither If-Match nor If-None-Match.'),
} as const;
export const BUSY = { 503: problem('Other plans are being made; see Retry-After.') } as const;

/** A JSON answer. */
export function answer<Schema extends z.ZodType>(schema: Schema, description: string) {
  return { description, content: { 'application/json': { schema } } } as const;
}

/** What taking a file in may answer: previewed, or stored as a whole. */
export function fileAnswers<Schema extends z.ZodType>(
  schema: Schema,
  words: { previewed: string; stored: string; largest: string },
) {
  return {
    200: answer(schema, words.previewed),
    201: answer(schema, words.stored),
    ...WRITE_PROBLEMS,
    413: problem(`Over ${words.largest}.`),
    ...CONFLICT,
  } as const;
}

/** A JSON body that must be there. */
export function jsonBody<Schema extends z.ZodType>(schema: Schema) {
  return { required: true, content: { 'application/json': { schema } } } as const;
}
