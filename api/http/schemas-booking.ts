/** Bookings as sent and answered. Mirrors `planning/bookings/booking-types.ts`. */
import { AGE_GROUPS } from '../cooking/household/kitchen.ts';
import { FUEL_IDS } from '../physics/table-ids.ts';
import type { Booking } from '../planning/bookings/booking-types.ts';
import type { StateNow } from '../planning/bookings/state-now.ts';
import { count, date, dateTime, format, id, label, measure, note, share } from './schema-values.ts';
import { stockEntrySchema } from './schemas-kit.ts';
import { mealRef } from './schemas-plan.ts';
import { z } from './zod.ts';

const base = {
  format,
  id,
  planId: id,
  at: dateTime,
  bookedAt: z.string().max(40).optional().meta({ description: 'UTC instant; set by the server.' }),
  confirmed: z.boolean().optional(),
  note: note.optional(),
};
const kind = <Name extends string>(name: Name) => z.literal(name);
const people = z.array(label).max(200).optional();
const kg = measure(0, 10_000, 'kg');
const litres = measure(0, 1_000_000, 'L');

const meal = {
  ...base,
  meal: mealRef,
  kitId: id.optional(),
  batches: measure(0.1, 100, '1').optional(),
  plannedDish: z.enum(['not-cooked', 'thrown-away']).optional(),
  stock: z.array(stockEntrySchema).max(100).optional(),
};
const stock = z.array(stockEntrySchema).max(100).optional();
const end = {
  ...base,
  of: z.string().min(1).max(200),
  result: z.enum(['cooked', 'eaten', 'thrown-away', 'not-set']),
  stock,
};
const thing = { ...base, thingId: id };

const members = {
  'meal-eaten': z.strictObject({ ...meal, kind: kind('meal-eaten') }),
  'meal-skipped': z.strictObject({ ...meal, kind: kind('meal-skipped') }),
  'meal-changed': z.strictObject({ ...meal, kind: kind('meal-changed') }),
  'fuel-weighed': z.strictObject({
    ...base,
    kind: kind('fuel-weighed'),
    fuelId: z.enum(FUEL_IDS),
    containerId: id,
    fullOnes: count(0, 1000).optional(),
    grossKg: kg.optional(),
    tareKg: kg.optional(),
    leftKg: kg.optional(),
    litres: measure(0, 10_000, 'L').optional(),
    dipstickShare: share.optional(),
    armfuls: measure(0, 10_000, '1').optional(),
    leftKWh: measure(0, 10_000, 'kWh').optional(),
  }),
  'water-left': z.strictObject({ ...base, kind: kind('water-left'), lotId: id, litres }),
  'soak-set': z.strictObject({
    ...base,
    kind: kind('soak-set'),
    kitId: id,
    batches: measure(0.1, 100, '1').optional(),
    vesselId: id,
    temperatureC: measure(-5, 100, 'C').optional(),
  }),
  'soak-drained': z.strictObject({ ...end, kind: kind('soak-drained') }),
  'box-opened': z.strictObject({ ...end, kind: kind('box-opened') }),
  'box-read': z.strictObject({
    ...base,
    kind: kind('box-read'),
    of: z.string().min(1).max(200),
    temperatureC: measure(-5, 100, 'C'),
  }),
  'food-tried': z.strictObject({
    ...base,
    kind: kind('food-tried'),
    of: z.string().min(1).max(200),
    foodId: id.optional(),
    minutes: measure(1, 1440, 'min'),
    soft: z.boolean(),
  }),
  broke: z.strictObject({ ...thing, kind: kind('broke') }),
  mended: z.strictObject({ ...thing, kind: kind('mended') }),
  came: z.strictObject({
    ...base,
    kind: kind('came'),
    guests: z
      .array(z.strictObject({ ageGroup: z.enum(AGE_GROUPS), mealShare: measure(0, 5, '1').optional() }))
      .min(1)
      .max(200)
      .optional(),
    until: date.optional(),
    people,
    fuel: z.strictObject({ fuelId: z.enum(FUEL_IDS), containerId: id, kg: measure(0.001, 10_000, 'kg') }).optional(),
    water: z.strictObject({ lotId: id, litres: measure(0.01, 1_000_000, 'L') }).optional(),
  }),
  left: z.strictObject({ ...base, kind: kind('left'), people, guests: z.literal('all').optional() }),
  undo: z.strictObject({ ...base, kind: kind('undo'), bookingId: id }),
} as const;

const union = <Sent extends z.ZodType>(of: (member: (typeof members)[keyof typeof members]) => Sent) =>
  Object.values(members).map(of) as [Sent, Sent, ...Sent[]];

/** A booking as stored. */
export const bookingSchema = z
  .discriminatedUnion('kind', union((member) => member) as never)
  .meta({ id: 'Booking', description: 'One thing that happened while a plan was carried out. Added, never changed.' });

/** A booking as first sent: id may be left to the server; plan, stock and `bookedAt` are the server's. */
export const newBookingSchema = z
  .discriminatedUnion(
    'kind',
    union((member) => {
      const open = { id: id.optional() };
      const own = (member as typeof members.undo).omit({ planId: true, bookedAt: true });
      return 'stock' in member.shape
        ? (own as unknown as (typeof members)['meal-eaten']).omit({ stock: true }).extend(open)
        : own.extend(open);
    }) as never,
  )
  .meta({
    id: 'NewBooking',
    examples: [
      { kind: 'fuel-weighed', at: '2026-12-06T07:10', fuelId: 'propane', containerId: 'open-cylinder', grossKg: 0.51 },
    ],
  });

/** What a new booking is once the schema let it through. */
export type SentBooking = DistributiveOmit<Booking, 'id' | 'planId' | 'bookedAt' | 'stock'> & { id?: string };
type DistributiveOmit<Union, Keys extends string> = Union extends unknown ? Omit<Union, Keys> : never;

/** How things stand, described by its main members. */
export const stateAnswer = z
  .custom<StateNow>((value) => typeof value === 'object' && value !== null)
  .openapi({
    type: 'object',
    required: ['planId', 'at', 'fuel', 'water', 'meals'],
    properties: {
      planId: { type: 'string' },
      at: { type: 'string', description: 'Local time of the place.' },
      fuel: { type: 'array', items: { type: 'object' }, description: 'What each container holds, with its band.' },
      water: { type: 'object', description: 'What each lot holds.' },
      meals: {
        type: 'array',
        items: { type: 'object' },
        description: 'Which meals are eaten, and which are taken to be.',
      },
      soaks: { type: 'array', items: { type: 'object' }, description: 'Food in water, and until when it is safe.' },
      underWay: { type: 'array', items: { type: 'object' }, description: 'Dishes on the fire, in a box or flask.' },
      differences: {
        type: 'array',
        items: { type: 'object' },
        description: 'What was found against what was worked out.',
      },
      belowMark: { type: 'array', items: { type: 'object' }, description: 'Readings below the re-plan mark.' },
    },
  })
  .meta({ id: 'StateNow' });
