/** The files of the page, as a fixed list handed over by the runtime. */

export interface SiteFile {
  type: string;
  bytes: Uint8Array;
  /** The same, compressed; null where that saves nothing. */
  gzip: Uint8Array | null;
  /** Whether the name changes with the content. */
  immutable: boolean;
}

/**
 * Answers from the list.
 * @returns null when the address is not on it, or the method does not read
 */
export function siteResponse(files: ReadonlyMap<string, SiteFile>, request: Request): Response | null {
  if (request.method !== 'GET' && request.method !== 'HEAD') return null;
  const file = files.get(new URL(request.url).pathname);
  if (file === undefined) return null;
  const compressed = file.gzip !== null && /\bgzip\b/.test(request.headers.get('accept-encoding') ?? '');
  const headers = new Headers({
    'content-type': file.type,
    'cache-control': file.immutable ? 'public, max-age=31536000, immutable' : 'no-cache',
    ...(file.gzip === null ? {} : { vary: 'accept-encoding' }),
    ...(compressed ? { 'content-encoding': 'gzip' } : {}),
  });
  const body = compressed ? file.gzip : file.bytes;
  return new Response(request.method === 'HEAD' ? null : (body as Uint8Array<ArrayBuffer>), { headers });
}
