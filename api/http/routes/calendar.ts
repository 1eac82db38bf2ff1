/** The reminders of a plan as a calendar file. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import { listBodies } from '../../storage/collections.ts';
import { calendarFile, calendarFileName } from '../../wording/calendar-file.ts';
import { FOUND_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import type { Services } from '../services.ts';
import { readOrRefuse } from '../write-document.ts';
import { z } from '../zod.ts';
import { idParams } from './documents.ts';

const calendarRoute = createRoute({
  method: 'get',
  path: '/api/plans/{id}/calendar.ics',
  summary: 'Reminders of soaks, fires and meals for a calendar; importing those of a later plan updates them',
  request: { params: idParams, query: z.strictObject({ units: z.enum(['metric', 'us']).optional() }) },
  responses: {
    200: {
      description: 'iCalendar (RFC 5545), floating local times, an alarm before each event.',
      content: { 'text/calendar': { schema: z.string() } },
    },
    ...FOUND_PROBLEMS,
  },
});

export function calendarRoutes(services: Services) {
  return new OpenAPIHono().openapi(
    calendarRoute,
    async (c) => {
      const { body } = await readOrRefuse(services, 'plans', c.req.valid('param').id);
      const plans = await listBodies(services.store, 'plans');
      return c.body(calendarFile(body, plans, c.req.valid('query').units ?? 'metric'), 200, {
        'content-type': 'text/calendar; charset=utf-8',
        'content-disposition': `attachment; filename="${calendarFileName(body)}"`,
      }) as never;
    },
    refuseInvalid(calendarRoute),
  );
}
