/** What is refused before any route, static files included, and the headers that every answer carries. */
import { problemBody, problemResponse } from './problem.ts';

/** Content-Security-Policy of the page and of printable sheets. */
export const PAGE_POLICY =
  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; manifest-src 'self'; " +
  "worker-src 'self'; object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";
/** Content-Security-Policy of answers that are data. */
export const DATA_POLICY = "default-src 'none'; frame-ancestors 'none'";

const FIXED_HEADERS: [string, string][] = [
  ['x-content-type-options', 'nosniff'],
  ['referrer-policy', 'no-referrer'],
  ['cross-origin-opener-policy', 'same-origin'],
  ['cross-origin-resource-policy', 'same-origin'],
];

/** Bytes that a body may have. */
export const BODY_LIMIT_BYTES = 2 * 1024 * 1024;
/** The same where lists and backups are taken in. */
export const IMPORT_LIMIT_BYTES = 16 * 1024 * 1024;
/** A backup holds every plan that was kept, half a megabyte each; one that cannot be restored is none. */
export const RESTORE_LIMIT_BYTES = 256 * 1024 * 1024;
const LIMITS: ReadonlyMap<string, number> = new Map([
  ['/api/stock.csv', IMPORT_LIMIT_BYTES],
  ['/api/kits.json', IMPORT_LIMIT_BYTES],
  ['/api/backup', RESTORE_LIMIT_BYTES],
]);

/** Bytes that a body sent to an address may have. */
export function bodyLimitOf(path: string): number {
  return LIMITS.get(path) ?? BODY_LIMIT_BYTES;
}

const SAFE_METHODS = new Set(['GET', 'HEAD', 'OPTIONS']);

/**
 * Refuses a request for a foreign Host, and a write that comes from another site or is not JSON.
 * @param allowedHosts `host:port` as browsers send it, for example `localhost:8787`
 * @returns the refusal, or null when the request may pass
 */
export function refuseForeign(request: Request, allowedHosts: readonly string[]): Response | null {
  const host = request.headers.get('host') ?? new URL(request.url).host;
  if (!allowedHosts.includes(host.toLowerCase())) {
    return refuse('foreign-host', `Ask for one of: ${allowedHosts.join(', ')}.`);
  }
  if (SAFE_METHODS.has(request.method)) return null;
  const origin = request.headers.get('origin');
  const site = request.headers.get('sec-fetch-site');
  // A program (neither header) may write. A browser must prove that the page is ours; `none` is a typed address, which
  // cannot write.
  if (origin !== null && !allowedHosts.some((allowed) => origin.toLowerCase() === `http://${allowed}`)) {
    return refuse('foreign-origin', 'Use the page that this server serves.');
  }
  if (site !== null && site !== 'same-origin') {
    return refuse('foreign-origin', 'Use the page that this server serves.');
  }
  const type = request.headers.get('content-type');
  // A deletion without a body has no content to have a type; it is no simple request, so a browser asks first.
  const bare = request.method === 'DELETE' && type === null && hasNoContent(request);
  if (!bare && type?.split(';', 1)[0]?.trim().toLowerCase() !== 'application/json') {
    return refuse('not-json-content', 'Send the header content-type: application/json.');
  }
  return null;
}

/** Whether nothing follows the head. Some runtimes hand out a stream even then, so the framing headers decide. */
function hasNoContent(request: Request): boolean {
  if (request.body === null) return true;
  return !request.headers.has('transfer-encoding') && (request.headers.get('content-length') ?? '0') === '0';
}

function refuse(type: 'foreign-host' | 'foreign-origin' | 'not-json-content', detail: string): Response {
  return problemResponse(problemBody(type, detail));
}

/** Puts the fixed headers on an answer; data and pages differ in their policy. */
export function addSecurityHeaders(headers: Headers): void {
  for (const [name, value] of FIXED_HEADERS) headers.set(name, value);
  const isPage = !(headers.get('content-type') ?? '').includes('json');
  headers.set('content-security-policy', isPage ? PAGE_POLICY : DATA_POLICY);
  if (!headers.has('cache-control')) headers.set('cache-control', 'no-store');
}
