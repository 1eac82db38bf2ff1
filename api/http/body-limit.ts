/** Refuses bodies over the limit, whether they say their length or not. */
import type { MiddlewareHandler } from 'hono';
import { problemBody, problemResponse } from './problem.ts';
import { BODY_LIMIT_BYTES } from './security.ts';

/** A body without a length is read here, up to the limit, and handed on as text. */
export const limitBody: MiddlewareHandler = async (c, next) => {
  const request = c.req.raw;
  if (request.method === 'GET' || request.method === 'HEAD') return next();
  const length = request.headers.get('content-length');
  if (length !== null) {
    // The runtime holds a body to the length it states.
    if (!(Number(length) <= BODY_LIMIT_BYTES)) return tooLarge();
    return next();
  }
  if (request.body === null) return next();
  const chunks: Uint8Array[] = [];
  let bytes = 0;
  const reader = request.body.getReader();
  for (let part = await reader.read(); !part.done; part = await reader.read()) {
    bytes += part.value.byteLength;
    if (bytes > BODY_LIMIT_BYTES) {
      await reader.cancel();
      return tooLarge();
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

function tooLarge(): Response {
  return problemResponse(
    problemBody('too-large', `At most ${BODY_LIMIT_BYTES} bytes.`, { maximum: BODY_LIMIT_BYTES, unit: 'bytes' }),
  );
}
