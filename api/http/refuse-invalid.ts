/** What a request that does not fit its schema is answered: 422 with every field, its value and the allowed range. */
import type { FieldError } from './problem.ts';
import { isSmall, jsonPointer, problemBody, problemResponse } from './problem.ts';
import { z } from './zod.ts';

/** The parts of a route that requests are validated against. */
interface ValidatedRoute {
  request?: {
    params?: unknown;
    query?: unknown;
    body?: { content: Record<string, { schema?: unknown } | undefined> };
  };
}

interface Issue {
  code?: string;
  path: PropertyKey[];
  message: string;
  keys?: string[];
  values?: unknown[];
  errors?: Issue[][];
  origin?: string;
  minimum?: number | bigint;
  maximum?: number | bigint;
}

/** The part of a request's context that is read here. */
interface SentRequest {
  req: { json(): Promise<unknown>; query(): Record<string, string>; param(): unknown };
}

const MOST_ERRORS = 50;

/**
 * The validation hook of one route.
 * @param route the route as made by `createRoute`
 */
export function refuseInvalid(route: ValidatedRoute) {
  return (
    result: { target: string } & ({ success: true } | { success: false; error: z.ZodError }),
    c: SentRequest,
  ): undefined => {
    if (result.success) return undefined;
    // The library types a hook's answer as one of the route's own; a refusal is declared with the route as a problem.
    return refusal(route, result.target, result.error.issues as Issue[], c) as never;
  };
}

async function refusal(route: ValidatedRoute, target: string, issues: Issue[], c: SentRequest): Promise<Response> {
  const inBody = target === 'json';
  const schema = inBody
    ? route.request?.body?.content['application/json']?.schema
    : target === 'query'
      ? route.request?.query
      : route.request?.params;
  const sent = inBody ? await c.req.json() : target === 'query' ? c.req.query() : c.req.param();
  const errors: FieldError[] = [];
  for (const issue of issues) collect(issue, [], schema, sent, inBody, errors);
  const [first] = errors;
  const name = first?.pointer ?? first?.parameter ?? 'body';
  const detail = `${name === '#' ? 'body' : name}: ${first?.detail ?? 'not allowed'}`;
  return problemResponse(problemBody('invalid-input', detail, { errors: errors.slice(0, MOST_ERRORS) }));
}

/**
 * The faults of a document that came inside a larger body.
 * @param at where it stands there
 * @returns none where it fits its schema
 */
export function documentFaults(schema: z.ZodType, document: unknown, at: readonly (string | number)[]): FieldError[] {
  const read = schema.safeParse(document);
  if (read.success) return [];
  const errors: FieldError[] = [];
  for (const issue of read.error.issues as Issue[]) collect(issue, [], schema, document, true, errors);
  return errors.map((error) => ({ ...error, pointer: `${jsonPointer([...at])}${(error.pointer ?? '#').slice(1)}` }));
}

function collect(
  issue: Issue,
  before: PropertyKey[],
  schema: unknown,
  sent: unknown,
  inBody: boolean,
  errors: FieldError[],
): void {
  const path = [...before, ...issue.path];
  if (issue.code === 'unrecognized_keys') {
    for (const key of issue.keys ?? []) {
      errors.push({ ...at([...path, key], inBody), detail: 'This field is not known here.' });
    }
    return;
  }
  if (issue.code === 'invalid_union') {
    // The alternative that got furthest says best what is wrong.
    const deepest = [...(issue.errors ?? [])].sort((a, b) => depth(b) - depth(a) || a.length - b.length)[0] ?? [];
    if (deepest.length > 0) {
      for (const inner of deepest) collect(inner, path, schema, sent, inBody, errors);
      return;
    }
  }
  const value = valueAt(sent, path);
  const field = describeField(schema, path, sent);
  const unit = field.unit === undefined ? {} : { unit: field.unit };
  const minimum =
    field.minimum ?? finite(issue.origin === 'array' || issue.origin === 'string' ? undefined : issue.minimum);
  const maximum =
    field.maximum ?? finite(issue.origin === 'array' || issue.origin === 'string' ? undefined : issue.maximum);
  errors.push({
    ...at(path, inBody),
    detail: wording(issue, field, minimum, maximum),
    ...(value !== undefined && isSmall(value) ? { value } : {}),
    ...(minimum === undefined ? {} : { minimum }),
    ...(maximum === undefined ? {} : { maximum }),
    ...unit,
  });
}

function depth(issues: Issue[]): number {
  return Math.max(0, ...issues.map((issue) => issue.path.length));
}

function at(path: PropertyKey[], inBody: boolean): { pointer: string } | { parameter: string } {
  return inBody ? { pointer: jsonPointer(path) } : { parameter: String(path[0] ?? '') };
}

function wording(issue: Issue, field: FieldMeaning, minimum?: number, maximum?: number): string {
  const unit = field.unit === undefined || field.unit === '1' ? '' : ` ${field.unit}`;
  if (issue.message.includes('received undefined')) return 'Is missing.';
  if (minimum !== undefined && maximum !== undefined) return `Must be a number from ${minimum} to ${maximum}${unit}.`;
  if (issue.code === 'invalid_value') return `Must be one of: ${(issue.values ?? []).join(', ')}.`;
  if (issue.code === 'too_big' && issue.origin === 'array') return `At most ${issue.maximum} entries.`;
  if (issue.code === 'too_small' && issue.origin === 'array')
    return `At least ${counted(issue.minimum, 'entry', 'entries')}.`;
  if (issue.code === 'too_big' && issue.origin === 'string') return `At most ${issue.maximum} characters.`;
  if (issue.code === 'too_small' && issue.origin === 'string')
    return `At least ${counted(issue.minimum, 'character', 'characters')}.`;
  return field.expects ?? `${issue.message}.`;
}

function counted(amount: number | bigint | undefined, one: string, many: string): string {
  return `${amount} ${Number(amount) === 1 ? one : many}`;
}

interface FieldMeaning {
  unit?: string;
  minimum?: number;
  maximum?: number;
  expects?: string;
}

interface Definition {
  type: string;
  shape?: Record<string, unknown>;
  element?: unknown;
  innerType?: unknown;
  options?: unknown[];
  /** Field that says which of the options is meant. */
  discriminator?: string;
  in?: unknown;
  out?: unknown;
  checks?: unknown[];
}

/** Unit, range and expectation of the field at a path, read from the schema itself, so that nothing is said twice. */
function describeField(schema: unknown, path: PropertyKey[], sent: unknown): FieldMeaning {
  for (const found of schemasAt(schema, path, sent)) {
    const meta = z.globalRegistry.get(found as z.ZodType) as Record<string, unknown> | undefined;
    const type = definition(found)?.type;
    if (type === 'number') {
      return { ...rangeOf(found), ...(typeof meta?.unit === 'string' ? { unit: meta.unit } : {}) };
    }
    if (type === 'string' && typeof meta?.description === 'string') return { expects: meta.description };
  }
  return {};
}

/** The closed range of a number, from its checks. */
function rangeOf(schema: unknown): { minimum?: number; maximum?: number } {
  const range: { minimum?: number; maximum?: number } = {};
  for (const check of definition(schema)?.checks ?? []) {
    const { check: kind, value } = (check as { _zod: { def: { check: string; value?: unknown } } })._zod.def;
    if (kind === 'greater_than' && typeof value === 'number') range.minimum = value;
    if (kind === 'less_than' && typeof value === 'number') range.maximum = value;
  }
  return range;
}

/** All schemas that a path may lead to in what was sent, wrappers unwrapped. */
function schemasAt(schema: unknown, path: PropertyKey[], sent: unknown): unknown[] {
  const here = definition(schema);
  if (here === undefined) return [];
  if (here.innerType !== undefined)
    return [...(path.length === 0 ? [schema] : []), ...schemasAt(here.innerType, path, sent)];
  // What comes out of a conversion says more (unit and range) than the text that goes in.
  if (here.in !== undefined) return [...schemasAt(here.out, path, sent), ...schemasAt(here.in, path, sent)];
  if (here.options !== undefined) return optionsMeant(here, sent).flatMap((option) => schemasAt(option, path, sent));
  const [step, ...rest] = path;
  if (step === undefined) return [schema];
  if (here.shape !== undefined && typeof step === 'string' && Object.hasOwn(here.shape, step)) {
    return schemasAt(here.shape[step], rest, valueAt(sent, [step]));
  }
  if (here.element !== undefined) return schemasAt(here.element, rest, valueAt(sent, [step]));
  return [];
}

/** Of several shapes the one that was sent, where one of its fields names it: their ranges differ. */
function optionsMeant({ options = [], discriminator }: Definition, sent: unknown): unknown[] {
  if (discriminator === undefined) return options;
  const name = valueAt(sent, [discriminator]);
  const meant = options.filter((option) => {
    const literals = (definition(definition(option)?.shape?.[discriminator]) as { values?: unknown[] } | undefined)
      ?.values;
    return literals?.includes(name) === true;
  });
  return meant.length === 0 ? options : meant;
}

function definition(schema: unknown): Definition | undefined {
  return (schema as { _zod?: { def?: Definition } } | undefined)?._zod?.def;
}

function finite(value: unknown): number | undefined {
  return typeof value === 'number' && Number.isFinite(value) && Math.abs(value) < Number.MAX_SAFE_INTEGER
    ? value
    : undefined;
}

function valueAt(sent: unknown, path: PropertyKey[]): unknown {
  let here = sent;
  for (const step of path) {
    if (typeof here !== 'object' || here === null || !Object.hasOwn(here, step)) return undefined;
    here = (here as Record<PropertyKey, unknown>)[step];
  }
  return here;
}
