/** The app: guards, routes, and the two answers that no route gives. Web standards only; a runtime calls `fetch`. */
import { OpenAPIHono } from '@hono/zod-openapi';
import type { Context } from 'hono';
import { HTTPException } from 'hono/http-exception';
import { limitBody } from './body-limit.ts';
import { oneAtATime } from './one-at-a-time.ts';
import { problemBody, problemOf, problemResponse } from './problem.ts';
import { backupRoutes } from './routes/backup.ts';
import { bookingRoutes } from './routes/bookings.ts';
import { calculatorRoutes } from './routes/calculators.ts';
import { calendarRoutes } from './routes/calendar.ts';
import { changeRoutes } from './routes/changes.ts';
import { dishOptionRoutes } from './routes/dish-options.ts';
import { emergencySheetRoutes } from './routes/emergency-sheet.ts';
import { enduranceRoutes } from './routes/endurance.ts';
import { householdRoutes } from './routes/households.ts';
import { kitFigureRoutes } from './routes/kit-figures.ts';
import { kitFileRoutes } from './routes/kit-files.ts';
import { kitSheetRoutes } from './routes/kit-sheets.ts';
import { kitRoutes } from './routes/kits.ts';
import { measurementRoutes } from './routes/measurements.ts';
import { openapiRoutes } from './routes/openapi.ts';
import { ownFoodRoutes } from './routes/own-foods.ts';
import { planAdviceRoutes } from './routes/plan-advice.ts';
import { planRoutes } from './routes/plans.ts';
import { rehearsalSheetRoutes } from './routes/rehearsal-sheet.ts';
import { reportRoutes } from './routes/report.ts';
import { startRoutes } from './routes/starts.ts';
import { stockRoutes } from './routes/stock.ts';
import { stockCsvRoutes } from './routes/stock-csv.ts';
import { stockShareRoutes } from './routes/stock-shares.ts';
import { tableRoutes } from './routes/tables.ts';
import { addSecurityHeaders, refuseForeign } from './security.ts';
import type { Services } from './services.ts';
import { siteResponse } from './site.ts';
import { solveQueue } from './solve-queue.ts';

/** One thing is solved, one waits, a third is refused. */
const QUEUE_PLACES = 2;
const RETRY_AFTER_S = 20;

export type { Services } from './services.ts';
export type AppType = ReturnType<typeof createApp>;

/**
 * Makes the app over its ports.
 * @param services store, solver, clock, new ids, and what the runtime knows
 * @returns a Hono app; nothing is kept between requests but the queue of plans
 */
export function createApp(services: Services) {
  const app = new OpenAPIHono();
  const takePlace = solveQueue(QUEUE_PLACES, RETRY_AFTER_S);
  const ledgerInTurn = oneAtATime();
  app.use('*', async (c, next) => {
    const refusal = refuseForeign(c.req.raw, services.allowedHosts);
    if (refusal === null) await next();
    else c.res = refusal;
    addSecurityHeaders(c.res.headers);
  });
  app.use('/api/*', limitBody);
  app.onError((error, c) => answerError(error, c, services));
  app.notFound((c) => {
    const file = services.site === undefined ? null : siteResponse(services.site, c.req.raw);
    if (file !== null) return file;
    const methods = methodsOf(app, c.req.path);
    if (methods.length === 0) return problemResponse(problemBody('not-found', 'There is nothing at this address.'));
    const allow = methods.includes('GET') ? [...methods, 'HEAD'] : methods;
    const detail = `Use ${allow.join(' or ')}.`;
    return problemResponse(problemBody('method-not-allowed', detail), { allow: allow.join(', ') });
  });
  return app
    .route('/', tableRoutes(services))
    .route('/', calculatorRoutes(services))
    .route('/', dishOptionRoutes(services))
    .route('/', householdRoutes(services))
    .route('/', kitRoutes(services))
    .route('/', kitSheetRoutes(services))
    .route('/', kitFigureRoutes(services))
    .route('/', ownFoodRoutes(services))
    .route('/', stockRoutes(services, ledgerInTurn))
    .route('/', stockShareRoutes(services, ledgerInTurn))
    .route('/', stockCsvRoutes(services, ledgerInTurn))
    .route('/', kitFileRoutes(services, ledgerInTurn))
    .route('/', backupRoutes(services, ledgerInTurn))
    .route('/', startRoutes(services))
    .route('/', measurementRoutes(services))
    .route('/', rehearsalSheetRoutes(services))
    .route('/', planRoutes(services, takePlace))
    .route('/', calendarRoutes(services))
    .route('/', bookingRoutes(services, ledgerInTurn))
    .route('/', changeRoutes(services))
    .route('/', reportRoutes(services))
    .route('/', emergencySheetRoutes())
    .route('/', enduranceRoutes(services, takePlace))
    .route('/', planAdviceRoutes(services, takePlace))
    .route(
      '/',
      openapiRoutes(services, () => app),
    );
}

async function answerError(error: Error, c: Context, services: Services): Promise<Response> {
  if (error instanceof HTTPException && error.status === 400) {
    return problemResponse(problemBody('malformed-json', 'The body could not be read as JSON.'));
  }
  const parameters = { ...c.req.query(), ...(c.req.param() as Record<string, string>) };
  const hasBody = c.req.method !== 'GET' && c.req.method !== 'HEAD';
  const body = hasBody ? await c.req.json().catch(() => undefined) : undefined;
  const { problem, headers, fault } = problemOf(error, { parameters, ...(body === undefined ? {} : { body }) });
  // Whoever closed the connection reads no answer, and what stopped because of that is no fault.
  if (fault && !c.req.raw.signal.aborted) services.logFault?.(error);
  return problemResponse(problem, headers);
}

/** The methods that an address takes, upper case; empty where there is no such address. */
function methodsOf(app: OpenAPIHono, path: string): string[] {
  const methods: string[] = [];
  for (const definition of app.openAPIRegistry.definitions) {
    if (definition.type !== 'route') continue;
    const pattern = definition.route.path.replace(/\{[^}]+\}/g, '[^/]+');
    if (new RegExp(`^${pattern}$`).test(path)) methods.push(definition.route.method.toUpperCase());
  }
  return methods;
}
