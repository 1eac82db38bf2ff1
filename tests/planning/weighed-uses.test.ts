/** Weighings of a plan made by hand: which say something of a stove, and what. */
import { describe, expect, it } from 'vitest';
import type { Booking } from '../../api/planning/bookings/booking-types.ts';
import { weighedUses } from '../../api/planning/bookings/weighed-uses.ts';
import type { Plan } from '../../api/planning/plan-types.ts';
import { soundPlan } from './sound-plan.ts';

const plan: Plan = { ...soundPlan(), schedule: [] };
const booking = (own: Record<string, unknown>): Booking =>
  ({ id: JSON.stringify(own), planId: plan.id, at: '2026-12-06T07:00', ...own }) as unknown as Booking;
const weighed = (own: Record<string, unknown>) =>
  booking({ kind: 'fuel-weighed', fuelId: 'propane', containerId: 'open', ...own });

describe('fuel used against fuel predicted', () => {
  it('is what the container lost since the plan began', () => {
    const [use, ...more] = weighedUses(plan, [weighed({ leftKg: 0.25 })]);
    expect(more).toEqual([]);
    expect(use).toMatchObject({ stoveId: 'burner', fires: 1, unit: 'kg', plannedFactor: 1 });
    expect(use?.used).toBeCloseTo(0.05, 9);
    // The first evening, as the plan has it.
    expect(use?.predicted.p50).toBeCloseTo(0.0415, 9);
  });

  it('takes what came into account, and the latest weighing', () => {
    const bookings = [
      weighed({ leftKg: 0.29, at: '2026-12-05T20:00' }),
      booking({ kind: 'came', at: '2026-12-06T06:00', fuel: { fuelId: 'propane', containerId: 'open', kg: 0.1 } }),
      weighed({ leftKg: 0.34 }),
    ];
    expect(weighedUses(plan, bookings)[0]?.used).toBeCloseTo(0.06, 9);
    expect(weighedUses(plan, [...bookings].reverse())).toEqual(weighedUses(plan, bookings));
  });

  it('says nothing before a fire, of a container whose content was only said, or where more is there than was', () => {
    expect(weighedUses(plan, [weighed({ leftKg: 0.3, at: '2026-12-05T17:05' })])).toEqual([]);
    expect(weighedUses(plan, [weighed({ leftKg: 0.35 })])).toEqual([]);
    const vague = structuredClone(plan);
    vague.resolved.household.fuels = [
      { fuelId: 'propane', containers: [{ id: 'open', placeId: 'home', fullKg: 0.5, level: 'part' }] },
    ];
    expect(weighedUses(vague, [weighed({ leftKg: 0.05 })])).toEqual([]);
    expect(weighedUses(plan, [])).toEqual([]);
  });

  it('leaves out what was skipped', () => {
    const skipped = booking({ kind: 'meal-skipped', meal: '2026-12-05-evening', at: '2026-12-05T19:00' });
    expect(weighedUses(plan, [skipped, weighed({ leftKg: 0.25 })])).toEqual([]);
  });
});
