/** The printable sheet that needs no plan: an elevation at most. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import { emergencySheetHtml } from '../../wording/print/emergency-sheet.ts';
import { READ_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { COOKING_ELEVATION_RANGE_M, queryMeasure } from '../schema-values.ts';
import { z } from '../zod.ts';

const { minimum, maximum } = COOKING_ELEVATION_RANGE_M;

const emergencyRoute = createRoute({
  method: 'get',
  path: '/api/emergency-sheet',
  summary: 'One page to print that needs no plan: boiling point, safe water, soak and boil of dry foods, cautions',
  request: {
    query: z.strictObject({
      // Left out: columns for sea level, 1,500 m and 3,000 m.
      elevationM: queryMeasure(minimum, maximum, 'm'),
      units: z.enum(['metric', 'us']).optional(),
      // The sheet fits both papers; accepted so that addresses may say it.
      paper: z.enum(['a4', 'letter']).optional(),
    }),
  },
  responses: {
    200: { description: 'HTML for A4 and US Letter alike.', content: { 'text/html': { schema: z.string() } } },
    ...READ_PROBLEMS,
  },
});

export function emergencySheetRoutes() {
  return new OpenAPIHono().openapi(
    emergencyRoute,
    (c) => {
      const { elevationM, units } = c.req.valid('query');
      return c.html(emergencySheetHtml(elevationM ?? null, units ?? 'metric'), 200) as never;
    },
    refuseInvalid(emergencyRoute),
  );
}
