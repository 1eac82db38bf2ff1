/** How things stand in words, from a plan made by hand and a few bookings. */
import { describe, expect, it } from 'vitest';
import { resolveHousehold } from '../../api/cooking/household/resolve-household.ts';
import { learnFromMeasurements } from '../../api/cooking/measurements/learn-from-measurements.ts';
import type { Booking } from '../../api/planning/bookings/booking-types.ts';
import { restOfPlan } from '../../api/planning/bookings/rest-of-plan.ts';
import { stateNow } from '../../api/planning/bookings/state-now.ts';
import { weighedUses } from '../../api/planning/bookings/weighed-uses.ts';
import type { Plan } from '../../api/planning/plan-types.ts';
import { stateLines } from '../../api/wording/state-lines.ts';
import { soundPlan } from '../planning/sound-plan.ts';

const plan: Plan = { ...soundPlan(), schedule: [] };
const AT = '2026-12-06T07:00';
const weighed = (leftKg: number): Booking => ({
  id: 'w',
  planId: plan.id,
  kind: 'fuel-weighed',
  at: AT,
  fuelId: 'propane',
  containerId: 'open',
  leftKg,
});

function standing(bookings: Booking[]) {
  const state = stateNow(plan, bookings, AT);
  const { household } = resolveHousehold(plan.resolved.household);
  const learned = learnFromMeasurements(household, weighedUses(plan, bookings), []);
  const rest = restOfPlan(plan, state, learned);
  return { rest, lines: stateLines(plan, state, rest, learned).map((line) => line.replaceAll('\u00a0', ' ')) };
}

describe('the rest of the plan', () => {
  it('needs what its fires need, and fits', () => {
    const { rest, lines } = standing([]);
    // Beans, hot water and lighting: 0.08 + 0.03 + 0.002 kg typically, 0.11 + 0.04 + 0.002 kg at the high end.
    expect(rest[0]).toMatchObject({ fuelId: 'propane', verdict: 'fits', endsAt: null });
    expect(rest[0]?.needs.p50).toBeCloseTo(0.112, 9);
    expect(rest[0]?.needs.p90).toBeCloseTo(0.152, 9);
    expect(lines).toEqual(['1 meal is not booked, and taken to have been eaten as planned.']);
  });

  it('says how much more the burner uses, and that the rest still fits', () => {
    const { lines } = standing([weighed(0.25)]);
    expect(lines[0]).toMatch(
      /uses about \d+ % more fuel than the table \(weighed over 1 fire\); the rest of the plan still fits\.$/i,
    );
    expect(lines[1]).toBe('Propane, 07:00: 0.25 kg, 0.01 kg less than worked out.');
  });

  it('says when it ends, and what to change first where it is below the mark', () => {
    const { rest, lines } = standing([weighed(0.05)]);
    expect(rest[0]).toMatchObject({ verdict: 'ends', endsAt: '2026-12-06T14:10' });
    expect(lines[0]).toBe(
      'Propane: 0.05 kg left, below the mark of 0.21 kg of the plan. Make a new plan. Until then change Sunday evening first (Bean stew): it takes most of it; cook it on another fire, or serve a dish without fire.',
    );
    expect(lines[1]).toMatch(/propane ends on Sunday evening: make a new plan\.$/i);
  });
});
