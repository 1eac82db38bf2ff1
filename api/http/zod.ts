/**
 * The one import of the schema library. `jitless` must be set before any schema is made: otherwise the library probes
 * `new Function`, which the Content-Security-Policy of a browser reports as a violation.
 */
import { z } from '@hono/zod-openapi';

z.config({ jitless: true });

export { z };
