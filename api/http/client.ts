/** The typed client. Types only come from the app, so that nothing of the server gets into a page that uses it. */
import { hc } from 'hono/client';
import type { AppType } from './app.ts';

/**
 * @param origin `http://127.0.0.1:8787`, or the origin of the page
 * @param send the fetch to use: the browser's, an app's own `fetch`, or one that talks to a worker
 */
export function createClient(origin: string, send: typeof fetch) {
  return hc<AppType>(origin, { fetch: send });
}
