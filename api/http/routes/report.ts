/** The report of an outage, over the plan and all that it replaced: JSON, or CSV. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import type { Booking } from '../../planning/bookings/booking-types.ts';
import { type OutageReport, outageReport } from '../../planning/bookings/report.ts';
import type { Plan } from '../../planning/plan-types.ts';
import { readDocument } from '../../storage/collections.ts';
import { reportCsv } from '../../wording/report-csv.ts';
import { learnedOf } from '../household-records.ts';
import { bookingsOf, localNow } from '../plan-bookings.ts';
import { answer, FOUND_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { dateTime } from '../schema-values.ts';
import type { Services } from '../services.ts';
import { readOrRefuse } from '../write-document.ts';
import { z } from '../zod.ts';
import { idParams } from './documents.ts';

const reportAnswer = z
  .custom<OutageReport>((value) => typeof value === 'object' && value !== null)
  .openapi({
    type: 'object',
    required: ['planIds', 'from', 'to', 'meals', 'fuel'],
    description: 'Eaten, burnt, used, thrown away; what the tables got wrong; what to pack again.',
  })
  .meta({ id: 'OutageReport' });

const reportRoute = createRoute({
  method: 'get',
  path: '/api/plans/{id}/report',
  summary: 'What the outage came to, with all plans that this one replaced; format=csv for a spreadsheet',
  request: {
    params: idParams,
    query: z.strictObject({ format: z.enum(['json', 'csv']).optional(), at: dateTime.optional() }),
  },
  responses: {
    200: {
      description: 'The report, as JSON or as CSV.',
      content: {
        ...answer(reportAnswer, '').content,
        'text/csv': { schema: z.string() },
      },
    },
    ...FOUND_PROBLEMS,
  },
});

export function reportRoutes(services: Services) {
  const { store, clock } = services;
  return new OpenAPIHono().openapi(
    reportRoute,
    async (c) => {
      const { body: last } = await readOrRefuse(services, 'plans', c.req.valid('param').id);
      const chain: Plan[] = [last];
      for (let replaced = last.request.replaces ?? null; replaced !== null; ) {
        const before = await readDocument(store, 'plans', replaced);
        if (before === null || chain.some((plan) => plan.id === before.body.id)) break;
        chain.unshift(before.body);
        replaced = before.body.request.replaces ?? null;
      }
      const bookings = new Map<string, Booking[]>();
      for (const plan of chain) bookings.set(plan.id, await bookingsOf(store, plan.id));
      const { format, at } = c.req.valid('query');
      const to = at ?? localNow(last, clock.now());
      const report = outageReport(chain, bookings, to, await learnedOf(store, last.request.householdId));
      if (format !== 'csv') return c.json(report, 200) as never;
      return c.body(reportCsv(report), 200, {
        'content-type': 'text/csv; charset=utf-8; header=present',
        'content-disposition': `attachment; filename="report-${last.id.slice(0, 8)}.csv"`,
      }) as never;
    },
    refuseInvalid(reportRoute),
  );
}
