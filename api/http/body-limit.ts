/** Refuses bodies over the limit, whether they say their length or not. */
import type { MiddlewareHandler } from 'hono';
import { problemBody, problemResponse } from './problem.ts';
import { bodyLimitOf } from './security.ts';

/** A body without a length is read here, up to the limit, and handed on as text. */
export const limitBody: MiddlewareHandler = async (c, next) => {
  const request = c.req.raw;
  if (request.method === 'GET' || request.method === 'HEAD') return next();
  const limit = bodyLimitOf(c.req.path);
  const length = request.headers.get('content-length');
  if (length !== null) {
    // The runtime holds a body to the length it states.
    if (!(Number(length) <= limit)) return tooLarge(limit);
    return next();
  }
  if (request.body === null) return next();
  const chunks: Uint8Array[] = [];
  let bytes = 0;
  const reader = request.body.getReader();
  for (let part = await reader.read(); !part.done; part = await reader.read()) {
    bytes += part.value.byteLength;
    if (bytes > limit) {
      await reader.cancel();
      return tooLarge(limit);
    }
    chunks.push(part.value);
  }
  const whole = new Uint8Array(bytes);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.byteLength;
  }
  c.req.bodyCache.text = Promise.resolve(new TextDecoder().decode(whole)) as never;
  return next();
};

function tooLarge(limit: number): Response {
  return problemResponse(problemBody('too-large', `At most ${limit} bytes.`, { maximum: limit, unit: 'bytes' }));
}
