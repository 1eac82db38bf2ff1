/** Parts that are eaten as they are: no water, no heat, no step at the pot, and a word when the dish is served. */
import { describe, expect, it } from 'vitest';
import { createCalculations } from '../../api/cooking/calculators/calculations.ts';
import { explainDish } from '../../api/cooking/derivations/explain-dish.ts';
import { dishNeeds, isRefusal } from '../../api/cooking/dishes/dish.ts';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import { kitCard } from '../../api/cooking/dishes/kit-card.ts';
import { FOODS } from '../../api/cooking/foods/foods-table.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import { household, LENTIL_SOUP, planFor } from './small-household.ts';

const solver = await createInThreadSolver();

const WITH_CORN = (asItIs: boolean): Kit => ({
  ...LENTIL_SOUP,
  parts: [
    ...LENTIL_SOUP.parts,
    { id: 'corn', name: 'Freeze-dried corn', asItIs, ingredients: [{ foodId: 'fd-sweetcorn', massG: 60 }] },
  ],
});

function needsOf(kit: Kit) {
  const needs = dishNeeds(kit, 2, { elevationM: 0, gaugeKPa: null }, null, 'kept', null, createCalculations());
  if (isRefusal(needs)) throw new Error(needs.reason);
  return needs;
}

describe('a part eaten as it is', () => {
  it('takes no water and no heat: the pot is that of the dish without it', () => {
    const alone = needsOf(LENTIL_SOUP);
    const beside = needsOf(WITH_CORN(true));
    const inside = needsOf(WITH_CORN(false));
    expect(beside.waterInPotL).toBeCloseTo(alone.waterInPotL, 9);
    expect(beside.foods).toEqual(alone.foods);
    expect(beside.additions.map(({ partId }) => partId)).not.toContain('corn');
    const held = FOODS['fd-sweetcorn']?.absorbedGPerG.value ?? Number.NaN;
    expect(inside.waterInPotL - alone.waterInPotL).toBeCloseTo((60 * held) / 1000, 9);
  });

  it('still feeds, is taken from the store, served dry, and the plan holds its own check', async () => {
    const made = await planFor(solver, household(), [[WITH_CORN(true), 1]]);
    expect(checkPlan(made)).toEqual([]);
    const [cooking] = made.cookings;
    expect(cooking?.takes.map(({ partId }) => partId)).toContain('corn');
    const plain = await planFor(solver, household(), [[LENTIL_SOUP, 1]]);
    expect(made.meals[0]?.energyKcal ?? 0).toBeGreaterThan((plain.meals[0]?.energyKcal ?? 0) + 150);
    const steps = makeSchedule(made);
    const serve = steps.find(({ action }) => action === 'serve');
    expect(serve?.text).toContain('with the freeze-dried corn dry from the bag');
    for (const step of steps.filter(({ action }) => action === 'put-on' || action === 'add'))
      expect(step.quantities.map(({ what }) => what)).not.toContain('freeze-dried corn');
    const basis = cooking?.basis;
    if (basis === undefined) throw new Error('a cooked dish has a basis');
    expect(
      explainDish(WITH_CORN(true), 2, basis)
        .map(({ quantity }) => quantity)
        .join(' '),
    ).not.toMatch(/sweetcorn/i);
  });

  it('that cannot be eaten dry is cooked, whatever the recipe says', () => {
    const rice: Kit = {
      ...LENTIL_SOUP,
      parts: [{ id: 'rice', name: 'Rice', asItIs: true, ingredients: [{ foodId: 'white-rice', massG: 180 }] }],
    };
    expect(needsOf(rice).foods.map(({ foodId }) => foodId)).toEqual(['white-rice']);
  });

  it('stands on the card as what it is', () => {
    const card = kitCard(WITH_CORN(true), null, null, null, 18);
    expect(card.parts.map(({ asItIs }) => asItIs)).toEqual([false, true]);
  });
});
