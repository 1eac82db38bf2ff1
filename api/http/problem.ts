/** The one maker of RFC 9457 problem answers, and the only place where errors of the calculation become words. */
import { InvalidInputError, OutOfRangeError } from '../physics/errors.ts';
import type { Fault } from '../planning/fault.ts';
import { SolverBusyError } from '../planning/solver.ts';

/**
 * Kinds of problem: title and status. A client branches on `type`, never on text. Each one has a paragraph under the
 * same name in DEVELOPERS.md.
 */
export const PROBLEM_TYPES = {
  'malformed-json': { status: 400, title: 'The body is not JSON' },
  'foreign-host': { status: 403, title: 'This Host is not served' },
  'foreign-origin': { status: 403, title: 'Writes from another site are refused' },
  'not-found': { status: 404, title: 'Nothing has this address' },
  'method-not-allowed': { status: 405, title: 'This address does not take this method' },
  'in-use': { status: 409, title: 'It is still in use' },
  'already-there': { status: 409, title: 'The id is taken' },
  'stale-revision': { status: 412, title: 'It has changed since it was read' },
  'too-large': { status: 413, title: 'The body is too large' },
  'not-json-content': { status: 415, title: 'Writes must be application/json' },
  'invalid-input': { status: 422, title: 'A value is outside what is allowed' },
  'revision-required': { status: 428, title: 'Say which revision is being changed' },
  'internal-fault': { status: 500, title: 'A fault of the program' },
  'plan-check-failed': { status: 500, title: 'The plan failed its own check and is withheld' },
  'solver-busy': { status: 503, title: 'Other plans are being made' },
} as const;
export type ProblemType = keyof typeof PROBLEM_TYPES;

/** One fault of one field: where it is, and what would have been allowed. */
export interface FieldError extends Fault {
  /** JSON pointer into the body, as a URI fragment: `#/vessels/0/capacityL`. */
  pointer?: string;
  /** Or the name of a path or query parameter. */
  parameter?: string;
}

export interface Problem {
  type: string;
  title: string;
  status: number;
  detail: string;
  errors?: FieldError[];
  /** Milder extensions: what the current revision is, which documents hold the one to be deleted, and the like. */
  [extension: string]: unknown;
}

/** A refusal that carries its kind. Thrown by routes; turned into an answer by `problemResponse`. */
export class RefusedError extends Error {
  readonly problemType: ProblemType;
  readonly errors: FieldError[];
  readonly extensions: Record<string, unknown>;
  readonly headers: Record<string, string>;
  constructor(
    problemType: ProblemType,
    detail: string,
    options: { errors?: FieldError[]; extensions?: Record<string, unknown>; headers?: Record<string, string> } = {},
  ) {
    super(detail);
    this.name = 'RefusedError';
    this.problemType = problemType;
    this.errors = options.errors ?? [];
    this.extensions = options.extensions ?? {};
    this.headers = options.headers ?? {};
  }
}

/** A 422 for one field of the body. */
export function refuseField(path: (string | number)[], detail: string, more: Partial<FieldError> = {}): RefusedError {
  return new RefusedError('invalid-input', detail, { errors: [{ pointer: jsonPointer(path), detail, ...more }] });
}

/**
 * Refuses where there are faults of fields: the first in the detail, all of them listed.
 * @param closing a sentence that follows the first, such as that nothing was changed
 * @throws RefusedError 422
 */
export function refuseFaults(errors: readonly FieldError[], closing = ''): void {
  const [first] = errors;
  if (first === undefined) return;
  const detail = `${first.pointer}: ${first.detail}${closing === '' ? '' : ` ${closing}`}`;
  throw new RefusedError('invalid-input', detail, { errors: [...errors] });
}

/** JSON pointer (RFC 6901) as a URI fragment. */
export function jsonPointer(path: readonly PropertyKey[]): string {
  return `#${path.map((step) => `/${encodeURIComponent(String(step).replaceAll('~', '~0').replaceAll('/', '~1'))}`).join('')}`;
}

/** The body of a problem answer. `type` is a relative address: the paragraph of the kind in the API description. */
export function problemBody(
  problemType: ProblemType,
  detail: string,
  extensions: Record<string, unknown> = {},
): Problem {
  const { status, title } = PROBLEM_TYPES[problemType];
  return { type: `/problems/${problemType}`, title, status, detail, ...extensions };
}

/** What a 500 says, always: nothing of what went wrong leaves the server. */
export const FAULT_DETAIL = 'The program made a mistake. Nothing was changed. Please report what was asked for.';

/**
 * The problem that an error stands for. Errors of unknown kind become the fixed text of a fault.
 * @param error anything thrown below a route
 * @param where the request as sent, so that a quantity named by the calculation can be pointed at
 */
export function problemOf(
  error: unknown,
  where: { body?: unknown; parameters?: Record<string, string> } = {},
): { problem: Problem; headers: Record<string, string>; fault: boolean } {
  if (error instanceof RefusedError) {
    const extensions = error.errors.length > 0 ? { ...error.extensions, errors: error.errors } : error.extensions;
    const problem = problemBody(error.problemType, error.message, extensions);
    return { problem, headers: error.headers, fault: problem.status >= 500 && error.problemType !== 'solver-busy' };
  }
  if (error instanceof OutOfRangeError) {
    const detail = `${error.quantity} must be from ${error.minimum} to ${error.maximum} ${error.unit}`.trim();
    const { minimum, maximum, unit } = error;
    const value = Number.isFinite(error.value) ? error.value : String(error.value);
    const errors = [{ ...locate(error.quantity, where), detail, value, minimum, maximum, unit }];
    return { problem: problemBody('invalid-input', detail, { errors }), headers: {}, fault: false };
  }
  if (error instanceof InvalidInputError) {
    const value = isSmall(error.value) ? { value: error.value } : {};
    const errors = [{ ...locate(error.quantity, where), detail: error.wayOut, ...value }];
    return { problem: problemBody('invalid-input', error.wayOut, { errors }), headers: {}, fault: false };
  }
  if (error instanceof SolverBusyError) {
    return {
      problem: problemBody('solver-busy', `Ask again in ${error.retryAfterS} s.`, { retryAfterS: error.retryAfterS }),
      headers: { 'retry-after': String(error.retryAfterS) },
      fault: false,
    };
  }
  return { problem: problemBody('internal-fault', FAULT_DETAIL), headers: {}, fault: true };
}

/** A problem as an answer. */
export function problemResponse(problem: Problem, headers: Record<string, string> = {}): Response {
  return new Response(JSON.stringify(problem), {
    status: problem.status,
    headers: { ...headers, 'content-type': 'application/problem+json', 'cache-control': 'no-store' },
  });
}

/** Where in the request a quantity of the calculation was given: a dotted path of the body, or a field of that name. */
function locate(
  quantity: string,
  where: { body?: unknown; parameters?: Record<string, string> },
): { pointer: string } | { parameter: string } {
  if (where.parameters !== undefined && Object.hasOwn(where.parameters, quantity)) return { parameter: quantity };
  if (where.body === undefined) return { parameter: quantity };
  const steps = quantity.split(/[./[\]]+/).filter((step) => step !== '');
  if (reaches(where.body, steps)) return { pointer: jsonPointer(steps) };
  const last = steps.at(-1) ?? quantity;
  return { pointer: jsonPointer(findField(where.body, last, []) ?? []) };
}

function reaches(body: unknown, steps: string[]): boolean {
  let at = body;
  for (const step of steps) {
    if (typeof at !== 'object' || at === null || !Object.hasOwn(at, step)) return false;
    at = (at as Record<string, unknown>)[step];
  }
  return steps.length > 0;
}

function findField(at: unknown, name: string, path: string[]): string[] | null {
  if (typeof at !== 'object' || at === null || path.length > 8) return null;
  if (!Array.isArray(at) && Object.hasOwn(at, name)) return [...path, name];
  for (const [key, value] of Object.entries(at)) {
    const found = findField(value, name, [...path, key]);
    if (found !== null) return found;
  }
  return null;
}

/** Whether a refused value is worth sending back: never a whole body. */
export function isSmall(value: unknown): boolean {
  if (typeof value === 'string') return value.length <= 100;
  return value === null || typeof value === 'number' || typeof value === 'boolean';
}
