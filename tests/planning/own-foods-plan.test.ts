/** Plans with food that no table holds, and with old food: safe as its class asks, marked where guessed, whole without the store. */
import { expect, it } from 'vitest';
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import { ownFoodRow } from '../../api/cooking/foods/own-food.ts';
import { checkPlan } from '../../api/planning/check-plan.ts';
import { makePlan } from '../../api/planning/make-plan.ts';
import { stockCautions } from '../../api/planning/plan/stock-cautions.ts';
import type { Plan } from '../../api/planning/plan-types.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { scheduleHtml } from '../../api/wording/print/schedule-html.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import {
  BEAN_STEW,
  household,
  inputFor,
  LENTIL_SOUP,
  ONE_BAG_STEW,
  planFor,
  propane,
  RICE,
  stockOf,
} from './small-household.ts';

const solver = await createInThreadSolver();
const beans = ownFoodRow({
  id: 'garden-beans',
  name: 'Garden beans',
  foodClass: 'bean',
  packetMinutes: 60,
  allergens: ['soy'],
});
const STEW: Kit = {
  ...BEAN_STEW,
  id: 'garden-stew',
  name: 'Garden stew',
  parts: BEAN_STEW.parts.map((part) =>
    part.id === 'beans' ? { ...part, ingredients: [{ foodId: beans.id, ownFood: beans, massG: 180 }] } : part,
  ),
};

it('H6: cooks own beans as kidney beans and says what was guessed; the plan needs no store to be read', async () => {
  const made = await planFor(solver, household(), [[STEW, 2]]);
  expect(checkPlan(made)).toEqual([]);
  const [cooking] = made.cookings;
  expect(cooking?.method.lectin.verdict).toBe('safe');
  expect(cooking?.method.soak !== null || cooking?.method.firstWater === 'poured-away').toBe(true);
  expect(cooking?.method.boilMinutes?.p10).toBeGreaterThanOrEqual(30);
  expect(made.cautions).toContainEqual(expect.stringMatching(/Garden stew: guessed.*of Garden beans/));
  expect(made.meals.find(({ dishes }) => dishes.length > 0)?.cautions).toContainEqual(expect.stringMatching(/guessed/));
  const kept = JSON.parse(JSON.stringify(made)) as typeof made;
  expect(kept.resolved.foods?.map((food) => food.id)).toEqual(['garden-beans']);
  expect(checkPlan(kept)).toEqual([]);
  const plan: Plan = { ...kept, schedule: makeSchedule(kept) };
  const html = scheduleHtml(plan, { units: 'metric', type: 'normal' });
  // Allergens follow the own food onto the sheet, and so do the beans' danger lines.
  expect(html).toMatch(/garden stew: [^.<]*soy/i);
  expect(html).toMatch(/five beans/);
  expect(html).toMatch(/The food:.*guessed, because the label does not say.*Garden beans/);
});

it('does not cook it for somebody who avoids what it brings', async () => {
  const [first, second] = household().people;
  if (first === undefined || second === undefined) throw new Error('two people');
  const avoiding = household({ people: [{ ...first, avoids: ['soy'] }, second] });
  const made = await planFor(solver, avoiding, [
    [STEW, 2],
    [RICE, 2],
  ]);
  expect(made.cookings.map(({ kitId }) => kitId)).not.toContain('garden-stew');
});

it('age: names the kits that need longer and by how much; the oldest sound stock goes first', async () => {
  // The slow end of such beans is hours at the boil: a day by the fire and a bottle that lasts.
  const house = household({ outdoorMinutesPerDay: 1200, fuels: propane(6) });
  const input = inputFor(house, [[BEAN_STEW, 1]], { days: 1, timeLimitS: 20 });
  const stock = [
    ...stockOf([[BEAN_STEW, 1]], '2024-12-05'),
    ...stockOf([[BEAN_STEW, 1]], '2001-12-05').map((entry) => ({ ...entry, id: `${entry.id}-old`, storageC: 21 })),
    // Older still, but past its date: not sound.
    ...stockOf([[BEAN_STEW, 1]], '1999-12-05').map((entry) => ({
      ...entry,
      id: `${entry.id}-past`,
      useBy: '2020-01-01',
    })),
  ];
  const made = await makePlan({ ...input, stock }, { solver, now: 0, id: 'p', programVersion: '0' });
  expect(made.cookings[0]?.takes.map(({ packedOn }) => packedOn)).toEqual(['2001-12-05', '2001-12-05']);
  // 25 years at 21 C and 10 % moisture: exp(0.637 * 3^1.66 * 2^-7 * 25) = 2.16, and a factor of 1.5 on it.
  const told = made.cautions.find((caution) => caution.startsWith('Bean stew'));
  expect(told).toMatch(/kidney beans of 25 years at about 21 °C need 11[05] % longer, up to 2[12][05] %/);
  expect(told).toMatch(/pressure cooker or a pinch of bicarbonate/);
  const young = await makePlan(
    { ...input, stock: stockOf([[BEAN_STEW, 1]], '2024-12-05') },
    { solver, now: 0, id: 'p', programVersion: '0' },
  );
  expect(
    (made.cookings[0]?.method.boilMinutes?.p50 ?? 0) / (young.cookings[0]?.method.boilMinutes?.p50 ?? 1),
  ).toBeGreaterThan(1.5);
  expect(young.cautions.some((caution) => caution.startsWith('Bean stew'))).toBe(false);
});

it('says nothing of age where it changes nothing, and that beans may never soften where it does', () => {
  const stock = (kit: Kit, years: number, moisturePercent: number) => ({
    kit,
    sets: 1,
    setsGoodOn: [1],
    lots: [],
    storage: { years, temperatureC: 22, moisturePercent },
  });
  expect(stockCautions([stock(RICE, 25, 10), stock(BEAN_STEW, 0.5, 10)])).toEqual([]);
  expect(stockCautions([stock(LENTIL_SOUP, 20, 13)])[0]).toMatch(/may never soften/i);
});

it('H12: a stew in one bag is cooked in poured-away first water, and the plan says what to do with the beans', async () => {
  const made = await planFor(solver, household({ fuels: propane(4) }), [[ONE_BAG_STEW, 1]]);
  expect(made.cookings[0]?.method).toMatchObject({ soak: null, firstWater: 'poured-away' });
  expect(made.cautions).toContainEqual(expect.stringMatching(/^Stew in one bag: .*poison.*Pick the beans out/));
});

it('H15: home-dried meat, tins and old fat are flagged when planning, each with what to do', () => {
  const jerky = ownFoodRow({ id: 'own-jerky', name: 'Own jerky', foodClass: 'dried-meat', homeDried: true });
  const kitOf = (name: string, ingredients: Kit['parts'][number]['ingredients']): Kit => ({
    ...RICE,
    name,
    parts: [{ id: 'a', name: 'A', ingredients }],
  });
  const stock = (kit: Kit, years: number) => ({
    kit,
    sets: 1,
    setsGoodOn: [1],
    lots: [],
    storage: { years, temperatureC: 18, moisturePercent: 10 },
  });
  const told = stockCautions([
    stock(kitOf('Meat rice', [{ foodId: 'own-jerky', ownFood: jerky, massG: 60 }]), 0.1),
    stock(kitOf('Fish rice', [{ foodId: 'tinned-fish', massG: 200 }]), 0.5),
    stock(kitOf('Oily rice', [{ foodId: 'oil', massG: 50 }]), 4),
  ]);
  expect(told).toContainEqual(expect.stringMatching(/^Meat rice: home-dried meat.*throw it away unopened.*botulism/));
  expect(told).toContainEqual(expect.stringMatching(/^Fish rice: look at each tin.*bulging.*froze and thawed/));
  expect(told).toContainEqual(expect.stringMatching(/cooking oil \(Oily rice\).*Smell.*rancid/));
  expect(stockCautions([stock(kitOf('Oily rice', [{ foodId: 'oil', massG: 50 }]), 0.5)])).toEqual([]);
});
