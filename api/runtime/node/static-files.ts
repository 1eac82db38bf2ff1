/** The built page: a fixed list of files, read once at start. A request can only name a file of that list. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { extname, join, relative, sep } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { SiteFile } from '../../http/site.ts';

const CONTENT_TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.webmanifest': 'application/manifest+json',
  '.wasm': 'application/wasm',
  '.woff2': 'font/woff2',
  '.txt': 'text/plain; charset=utf-8',
};

const COMPRESSED = new Set(['.html', '.js', '.css', '.svg', '.webmanifest', '.wasm', '.txt']);

/**
 * Reads every file below a folder.
 * @param folder the built page; where there is none, the list is empty
 * @returns address (`/assets/x.js`, `/` for `index.html`) to file
 */
export function readSite(folder: string): ReadonlyMap<string, SiteFile> {
  const files = new Map<string, SiteFile>();
  if (statSync(folder, { throwIfNoEntry: false })?.isDirectory() !== true) return files;
  for (const name of readdirSync(folder, { recursive: true }) as string[]) {
    const path = join(folder, name);
    const type = CONTENT_TYPES[extname(name)];
    if (type === undefined || !statSync(path).isFile()) continue;
    const address = `/${relative(folder, path).split(sep).join('/')}`;
    const bytes = new Uint8Array(readFileSync(path));
    const gzip = COMPRESSED.has(extname(name)) ? new Uint8Array(gzipSync(bytes, { level: 9 })) : null;
    // The bundler puts a hash into the names below /assets/, so that they never change under one address.
    const file: SiteFile = { type, bytes, gzip, immutable: address.startsWith('/assets/') };
    files.set(address, file);
    if (address === '/index.html') files.set('/', file);
  }
  return files;
}
