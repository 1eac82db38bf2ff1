/** The reasons of changes, from a plan made by hand and copies of it that differ in one thing. */
import { describe, expect, it } from 'vitest';
import { planChanges } from '../../api/planning/bookings/changes.ts';
import { stateNow } from '../../api/planning/bookings/state-now.ts';
import type { Plan } from '../../api/planning/plan-types.ts';
import { changeLines } from '../../api/wording/change-lines.ts';
import { soundPlan } from './sound-plan.ts';

const AT = '2026-12-05T20:00';
const old: Plan = { ...soundPlan(), schedule: [] };

/** The same plan from the evening on, one thing changed. */
function next(change: (plan: Plan) => void): Plan {
  const plan: Plan = structuredClone(old);
  plan.request = { ...plan.request, startsAt: AT, replaces: old.id };
  plan.meals = plan.meals.filter((meal) => meal.eatAt > AT);
  change(plan);
  return plan;
}

function linesOf(plan: Plan): string[] {
  const state = stateNow(old, [], AT);
  return changeLines(plan, planChanges(old, plan, state), state).changes.map(({ text }) =>
    text.replaceAll('\u00a0', ' '),
  );
}

describe('changes in plain words', () => {
  it('are none where nothing is different', () => {
    expect(linesOf(next(() => {}))).toEqual([]);
  });

  it('say what is eaten instead, and that the store lacks it', () => {
    const plan = next((one) => {
      const stew = one.cookings.find((cooking) => cooking.kitId === 'bean-stew');
      if (stew !== undefined) Object.assign(stew, { kitId: 'lentil-soup', kitName: 'Lentil soup' });
      one.resolved.stock = one.resolved.stock.filter((lot) => lot.kitId !== 'bean-stew');
    });
    expect(linesOf(plan)).toEqual([
      'Tomorrow evening: Lentil soup instead of Bean stew, because too little Bean stew is in store.',
    ]);
  });

  it('say which thing cannot be used', () => {
    const plan = next((one) => {
      one.request.outOfUse = [{ id: 'box', from: AT, to: null }];
      const stew = one.cookings.find((cooking) => cooking.kitId === 'bean-stew');
      if (stew !== undefined) {
        Object.assign(stew.method, { finish: 'flame', boxId: null });
        stew.startsAt = '2026-12-06T16:20';
      }
    });
    expect(linesOf(plan)).toEqual([
      'Tomorrow evening: Bean stew on the flame to the end, begun at 16:20 instead of 14:45, because the box cannot be used.',
    ]);
  });

  it('say that it was asked for, and name a meal that another change follows from', () => {
    const plan = next((one) => {
      one.request.pinned = [{ meal: '2026-12-06-breakfast', kitId: 'lentil-soup' }];
      const bowl = one.cookings.find((cooking) => cooking.kitId === 'couscous');
      if (bowl !== undefined) Object.assign(bowl, { kitId: 'lentil-soup', kitName: 'Lentil soup' });
      const stew = one.cookings.find((cooking) => cooking.kitId === 'bean-stew');
      if (stew !== undefined) stew.method.vesselId = 'pot-3';
    });
    expect(linesOf(plan)).toEqual([
      'Tomorrow breakfast: Lentil soup instead of Couscous with raisins, because you asked for it.',
      'Tomorrow evening: Bean stew in the pot (3 L), because tomorrow breakfast changes.',
    ]);
  });

  it('leave out what is under way', () => {
    const plan = next((one) => {
      one.meals = [];
      one.request.done = [
        { meal: '2026-12-06-breakfast', result: 'eaten' },
        { meal: '2026-12-06-evening', result: 'skipped' },
      ];
    });
    expect(linesOf(plan)).toEqual([]);
  });
});
