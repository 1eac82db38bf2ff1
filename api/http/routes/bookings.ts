/** Bookings of a plan: a list that only grows, and how things stand after it. */
import { createRoute, OpenAPIHono } from '@hono/zod-openapi';
import type { Booking, EndBooking } from '../../planning/bookings/booking-types.ts';
import { isMealBooking, linesOfBooking, standingBookings } from '../../planning/bookings/booking-types.ts';
import { bookingFaults } from '../../planning/bookings/check-booking.ts';
import { restOfPlan } from '../../planning/bookings/rest-of-plan.ts';
import { type StateNow, stateNow } from '../../planning/bookings/state-now.ts';
import type { Plan } from '../../planning/plan-types.ts';
import { createTogether, listBodies, readDocument } from '../../storage/collections.ts';
import { type OpenQuestion, questionsOf, stateLines } from '../../wording/state-lines.ts';
import { linesBack, linesOfMeal, linesOfThrownAway } from '../booking-ledger.ts';
import { learnedOf } from '../household-records.ts';
import { oneAtATime } from '../one-at-a-time.ts';
import { bookingsOf, localNow } from '../plan-bookings.ts';
import { jsonPointer, RefusedError } from '../problem.ts';
import { answer, CONFLICT, FOUND_PROBLEMS, jsonBody, WRITE_PROBLEMS } from '../problem-answers.ts';
import { refuseInvalid } from '../refuse-invalid.ts';
import { dateTime } from '../schema-values.ts';
import { bookingSchema, newBookingSchema, type SentBooking, stateAnswer } from '../schemas-booking.ts';
import type { Services } from '../services.ts';
import { createDocument, readOrRefuse } from '../write-document.ts';
import { z } from '../zod.ts';
import { idParams } from './documents.ts';

const listRoute = createRoute({
  method: 'get',
  path: '/api/plans/{id}/bookings',
  summary: 'Everything that was booked, and how things stand: now, or at a moment of the plan',
  request: { params: idParams, query: z.strictObject({ at: dateTime.optional() }) },
  responses: {
    200: answer(
      z.object({
        items: z.array(bookingSchema),
        state: stateAnswer,
        words: z.array(z.string()),
        questions: z
          .array(z.object({ bookingId: z.string(), text: z.string() }))
          .meta({ description: 'Findings that do not count until they are booked again with confirmed: true.' }),
      }),
      'Oldest booking first; how things stand, and the same in plain words.',
    ),
    ...FOUND_PROBLEMS,
  },
});

const appendRoute = createRoute({
  method: 'post',
  path: '/api/plans/{id}/bookings',
  summary: 'Book what happened; the id may be left to the server',
  request: { params: idParams, body: jsonBody(newBookingSchema) },
  responses: {
    201: answer(
      z.object({
        booking: bookingSchema,
        state: stateAnswer,
        words: z.array(z.string()),
        questions: z.array(z.object({ bookingId: z.string(), text: z.string() })),
      }),
      'Booked, how things stand then, and the same in plain words.',
    ),
    ...FOUND_PROBLEMS,
    ...WRITE_PROBLEMS,
    ...CONFLICT,
  },
});

/** @param inTurn keeps what a write has read true until it is written; shared with everything that appends to the ledger */
export function bookingRoutes(services: Services, inTurn: ReturnType<typeof oneAtATime> = oneAtATime()) {
  const { store, newId, clock } = services;
  return new OpenAPIHono()
    .openapi(
      listRoute,
      async (c) => {
        const { body: plan } = await readOrRefuse(services, 'plans', c.req.valid('param').id);
        const items = await bookingsOf(store, plan.id);
        const at = laterOf(c.req.valid('query').at ?? localNow(plan, clock.now()), plan.request.startsAt);
        const state = stateNow(plan, items, at);
        return c.json({ items, state, ...(await wordsOf(plan, state)) }, 200) as never;
      },
      refuseInvalid(listRoute),
    )
    .openapi(
      appendRoute,
      async (c) => {
        const { body: plan } = await readOrRefuse(services, 'plans', c.req.valid('param').id);
        const sent = c.req.valid('json') as SentBooking;
        const booked = await inTurn(async () => {
          const before = await bookingsOf(store, plan.id);
          await completeLedger(before);
          const nowMs = clock.now();
          const booking = {
            ...sent,
            id: sent.id ?? newId(),
            planId: plan.id,
            bookedAt: new Date(nowMs).toISOString(),
          } as Booking;
          // A device that never got its answer sends again: the entry stands, and is not counted twice.
          if (before.some((one) => one.id === booking.id))
            throw new RefusedError('already-there', `There is a booking with the id ${booking.id}: it is booked.`);
          refuseFaulty(bookingFaults(plan, booking, before, localNow(plan, nowMs)));
          const thrownAway =
            (booking.kind === 'soak-drained' || booking.kind === 'box-opened') && booking.result === 'thrown-away';
          const isMeal = isMealBooking(booking) && booking.kind !== 'meal-skipped';
          if (isMeal || thrownAway) {
            const ledger = await listBodies(store, 'stock');
            const taken = new Set(
              standingBookings(before)
                .flatMap(linesOfBooking)
                .map((line) => line.note ?? ''),
            );
            booking.stock = isMeal
              ? linesOfMeal(plan, booking, taken, ledger, newId)
              : linesOfThrownAway(plan, booking as EndBooking, before, taken, ledger, newId);
          }
          const undone = booking.kind === 'undo' ? before.find((one) => one.id === booking.bookingId) : undefined;
          const back = undone === undefined ? [] : linesBack(linesOfBooking(undone), booking.at, newId);
          // A booking and its lines stand or fall together: what was eaten is in the ledger once, and goes back once.
          const stock = [...linesOfBooking(booking), ...back];
          const written = await createTogether(store, { bookings: [booking], stock }, newId());
          if (written.outcome === 'conflict')
            throw new RefusedError(
              'already-there',
              `The id ${booking.id} is taken. Nothing was booked; take another id.`,
              {
                errors: [{ pointer: '#/id', detail: 'This id is taken.', value: booking.id }],
              },
            );
          return { booking, all: [...before, booking] };
        });
        const at = laterOf(booked.booking.at, plan.request.startsAt);
        const state = stateNow(plan, booked.all, at);
        return c.json({ booking: booked.booking, state, ...(await wordsOf(plan, state)) }, 201, {
          location: `/api/plans/${plan.id}/bookings`,
        }) as never;
      },
      refuseInvalid(appendRoute),
    );

  async function wordsOf(plan: Plan, state: StateNow): Promise<{ words: string[]; questions: OpenQuestion[] }> {
    const learned = await learnedOf(store, plan.request.householdId);
    const words = stateLines(plan, state, restOfPlan(plan, state, learned), learned);
    return { words, questions: questionsOf(plan, state, learned) };
  }

  /** Writes lines that are missing beside a booking of an earlier version, which wrote one after the other. */
  async function completeLedger(bookings: readonly Booking[]): Promise<void> {
    for (const booking of standingBookings(bookings)) {
      for (const line of linesOfBooking(booking))
        if ((await readDocument(store, 'stock', line.id)) === null) await createDocument(services, 'stock', line);
    }
  }
}

/** The later of two wall-clock times. */
function laterOf(one: string, other: string): string {
  return [one, other].sort()[1] as string;
}

function refuseFaulty(faults: ReturnType<typeof bookingFaults>): void {
  const [first] = faults;
  if (first === undefined) return;
  const errors = faults.map(({ field, ...fault }) => ({ pointer: jsonPointer(field.split('/')), ...fault }));
  const question = first.question === undefined ? '' : ` ${first.question}`;
  throw new RefusedError('invalid-input', `${first.field}: ${first.detail}${question}`, { errors });
}
