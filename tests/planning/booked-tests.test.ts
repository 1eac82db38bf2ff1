/** What was read of boxes and tried of dishes while a plan was carried out, and what box and lot learn from it. */
import { describe, expect, it } from 'vitest';
import { resolveHousehold } from '../../api/cooking/household/resolve-household.ts';
import { learnFromMeasurements } from '../../api/cooking/measurements/learn-from-measurements.ts';
import { bookedTests } from '../../api/planning/bookings/booked-tests.ts';
import type { Booking } from '../../api/planning/bookings/booking-types.ts';
import type { Plan } from '../../api/planning/plan-types.ts';
import { soundPlan } from './sound-plan.ts';

const plan: Plan = { ...soundPlan(), schedule: [] };
const { household } = resolveHousehold(plan.resolved.household);
const BEANS = '2026-12-06-evening-bean-stew';
const LENTILS = '2026-12-05-evening-lentil-soup';
const booking = (own: Record<string, unknown>): Booking =>
  ({ id: JSON.stringify(own), planId: plan.id, ...own }) as unknown as Booking;
/** The box is shut at 16:20; half past five is 70 minutes later. */
const read = (temperatureC: number, at = '2026-12-06T17:30') =>
  booking({ kind: 'box-read', at, of: BEANS, temperatureC });
const tried = (minutes: number, soft: boolean, own = {}) =>
  booking({ kind: 'food-tried', at: '2026-12-05T18:20', of: LENTILS, minutes, soft, ...own });
const learned = (bookings: Booking[]) => learnFromMeasurements(household, bookedTests(plan, bookings), []);
const boxOf = (bookings: Booking[]) => learned(bookings).cooling.find(({ id }) => id === 'box')?.timeConstantHours;
const lotOf = (bookings: Booking[]) => learned(bookings).lots[0]?.minutesFactor;

describe('a reading of the box', () => {
  it('is of the dish that stands in it, since it was shut, at the temperature at which a pot goes in', () => {
    const [record, ...more] = bookedTests(plan, [read(80)]);
    expect(more).toEqual([]);
    // The pot boils at 98.3 C by the plan and loses 5 K on its way; second day of a room that falls from 20 to 12 C.
    expect(record).toMatchObject({
      kind: 'cooling-reading',
      vesselId: 'pot-6',
      boxId: 'box',
      startC: 93.3,
      temperatureC: 80,
    });
    expect(record?.kind === 'cooling-reading' ? record.hours : 0).toBeCloseTo(70 / 60, 9);
    expect(record?.kind === 'cooling-reading' ? record.airC : 0).toBeGreaterThan(12);
    expect(record?.kind === 'cooling-reading' ? record.airC : 99).toBeLessThan(20);
  });

  it('moves the time constant of the box towards what was read, and narrows it', () => {
    const before = boxOf([]);
    const at = '2026-12-06T18:20';
    const expected = learned([read(78, at)]).effects[0]?.expected[0]?.middle ?? 0;
    // What two hours leave of 93.3 C is between 60 C and what went in.
    expect(expected).toBeGreaterThan(60);
    expect(expected).toBeLessThan(93.3);
    const cold = boxOf([read(expected - 3, at)]);
    const warm = boxOf([read(expected + 3, at)]);
    expect(cold?.now.p50).toBeLessThan(before?.now.p50 ?? 0);
    expect(warm?.now.p50).toBeGreaterThan(before?.now.p50 ?? 99);
    const width = (figure: typeof cold) => Math.log((figure?.now.p90 ?? 1) / (figure?.now.p10 ?? 1));
    expect(width(warm)).toBeLessThan(width(before));
    // Nothing is left of a reading that is taken back.
    const undo = booking({ kind: 'undo', at: '2026-12-06T18:25', bookingId: read(72).id });
    expect(boxOf([read(72), undo])).toEqual(before);
  });

  it('is nothing before the box was shut, or of a dish that stands in none', () => {
    expect(bookedTests(plan, [read(90, '2026-12-06T16:00')])).toEqual([]);
    expect(
      bookedTests(plan, [booking({ kind: 'box-read', at: '2026-12-05T18:20', of: LENTILS, temperatureC: 80 })]),
    ).toEqual([]);
  });
});

describe('a dish that was tried', () => {
  it('not soft: the lot takes longer than was tried, whatever else it takes', () => {
    const table = lotOf([tried(1, false)]);
    const hard = lotOf([tried(45, false)]);
    // Of lentils nobody expected to be soft after a minute nothing is learned; the band may be summed to a hundredth.
    expect(table?.now.p50).toBeCloseTo(table?.table.p50 ?? 0, 2);
    expect(hard?.now.p50).toBeGreaterThan(1.1);
    expect(hard?.now.p10).toBeGreaterThan(hard?.table.p10 ?? 9);
    expect(hard?.text).toMatch(
      /Lentils?, .*packed 2022-03-01: takes about \d+ % longer to soften than the table expects \(1 test\)\./i,
    );
    // Longer and still not soft: longer yet. Earlier trials of the same pot say nothing more.
    const longer = lotOf([tried(45, false), tried(60, false)]);
    expect(longer?.now.p50).toBeGreaterThan(hard?.now.p50 ?? 9);
  });

  it('just soft: the minutes are a reading of the lot', () => {
    const quick = lotOf([tried(18, true)]);
    const slow = lotOf([tried(50, true)]);
    expect(quick?.now.p50).toBeLessThan(1);
    expect(slow?.now.p50).toBeGreaterThan(1);
    // Known from both sides it is narrower than from below alone.
    const width = (figure: typeof slow) => Math.log((figure?.now.p90 ?? 1) / (figure?.now.p10 ?? 1));
    expect(width(slow)).toBeLessThan(width(lotOf([tried(50, false)])));
  });

  it('is asked about where it is far off, and counts when it is confirmed', () => {
    const effect = learned([tried(400, false)]).effects[0];
    expect(effect?.use).toBe('questioned');
    expect(effect?.question).toMatch(/not soft after 400 min/);
    expect(lotOf([tried(400, false)])?.now).toEqual(lotOf([tried(400, false)])?.table);
    expect(lotOf([tried(400, false, { confirmed: true })])?.now.p50).toBeGreaterThan(2);
  });

  it('out of the box: the time in it counts for what it is worth', () => {
    const record = (at: string) => bookedTests(plan, [tried(66, false, { of: BEANS, at })])[0];
    const early = record('2026-12-06T16:10');
    const late = record('2026-12-06T18:20');
    // The beans lay in water for eight hours.
    expect(early).toMatchObject({ kind: 'food-tried', partId: 'beans', soak: { hours: 8, discardWater: true } });
    expect(early).not.toHaveProperty('boxed');
    expect(late).toMatchObject({ boxed: { startC: 93.3, minutes: 120 } });
    const found = (at: string) => learned([tried(66, false, { of: BEANS, at })]).effects[0]?.expected[0]?.found ?? 0;
    expect(found('2026-12-06T16:10')).toBe(66);
    // Two hours from 93 C down to some 80 C are worth a part of an hour at the boil, z near 20 K.
    expect(found('2026-12-06T18:20')).toBeGreaterThan(66 + 15);
    expect(found('2026-12-06T18:20')).toBeLessThan(66 + 90);
  });
});
