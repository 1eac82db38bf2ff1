/** Another dish, stove or pot for one meal: the rest is planned around it, and the difference is seen before it counts. */
import { useState } from 'preact/hooks';
import { asHeading, fuelName, thingName } from '../../api/wording/names.ts';
import type { Kit, Plan, PlannedMeal, PlanRequest } from '../api-types.ts';
import { DataTable } from '../components/data-table.ts';
import { ChoiceField } from '../components/fields.ts';
import { LongWorkBlock, useLongQuestion } from '../components/long-work.ts';
import { dayShort } from '../dates.ts';
import { html } from '../html.ts';
import { PLAN_LIMIT_S } from '../make-plan.ts';
import { say } from '../measures.ts';
import { SLOT_NAMES } from '../names.ts';
import { writeShort } from '../numbers.ts';
import { type Page, usePage } from '../page-state.ts';
import { requestAgain } from '../request-again.ts';
import { dropTriedPlan, TRIED_PLAN } from '../tried-plan.ts';
import { outcomeInWords } from './plan.ts';
import { methodInWords } from './plan-meal.ts';

const AS_IT_COMES = 'whatever fits best';

export function SwapBlock({ plan, meal }: { plan: Plan; meal: PlannedMeal }) {
  const page = usePage();
  const cookings = cookingsOf(plan, meal);
  const kits = kitsInStore(plan, meal);
  const [kitId, setKitId] = useState(cookings[0]?.kitId ?? kits[0]?.[0] ?? '');
  const [stoveId, setStoveId] = useState<string | undefined>(undefined);
  const [vesselId, setVesselId] = useState<string | undefined>(undefined);
  const { household } = plan.resolved;
  const key = [plan.id, meal.id, kitId, stoveId, vesselId].join(' ');
  const question = useLongQuestion<Plan>('swap', '/api/plans', key, PLAN_LIMIT_S);

  async function ask() {
    await dropTriedPlan(page);
    const method = { ...(stoveId === undefined ? {} : { stoveId }), ...(vesselId === undefined ? {} : { vesselId }) };
    await question.ask(requestAround(plan, meal, kitId, method), (tried) => {
      page.storage.setItem(TRIED_PLAN, tried.id);
      setTimeout(() => document.getElementById(`difference-${meal.id}`)?.focus(), 50);
      return 'The difference is shown. Nothing is changed yet.';
    });
  }

  if (kitId === '')
    return html`<p>Nothing is in store that could be cooked. <a href="#/stores">Add what was packed</a>, then plan again.</p>`;
  return html`<div class="swap">
    <div class="fields">
      <${ChoiceField} label="Dish" value=${kitId} options=${kits} onValue=${(chosen: string | undefined) => setKitId(chosen ?? '')} />
      <${ChoiceField} label="Stove" value=${stoveId} whenEmpty=${AS_IT_COMES} onValue=${setStoveId}
        options=${(household.stoves ?? []).map(({ id }) => [id, asHeading(thingName(household, id))])} />
      <${ChoiceField} label="Pot" value=${vesselId} whenEmpty=${AS_IT_COMES} onValue=${setVesselId}
        options=${(household.vessels ?? []).filter(({ kind }) => kind !== 'soak-bowl' && kind !== 'flask').map(({ id }) => [id, asHeading(thingName(household, id))])} />
    </div>
    <${LongWorkBlock} question=${question} doing="Planning around it" label="Show what would change" said=${() => ''} onAsk=${() => void ask()} />
    ${question.answer === null ? null : html`<${Difference} plan=${plan} tried=${question.answer} meal=${meal} />`}
  </div>`;
}

/** The same request with one meal pinned; meals that have passed stay what they were. */
export function requestAround(
  plan: Plan,
  meal: PlannedMeal,
  kitId: string,
  method: { stoveId?: string; vesselId?: string },
): PlanRequest {
  const pin = { meal: meal.id, kitId, ...(Object.keys(method).length === 0 ? {} : { method }) };
  return requestAgain(plan, meal, [pin]);
}

function cookingsOf(plan: Plan, meal: PlannedMeal) {
  return meal.dishes.flatMap((dish) => plan.cookings.find(({ id }) => id === dish.cookingId) ?? []);
}

/** Kits of which the plan found something in store, those for this meal first. */
function kitsInStore(plan: Plan, meal: PlannedMeal): [string, string][] {
  // The ledger holds what lies at the places of other households too.
  const here = plan.resolved.household.places.map((place) => place.id);
  const inStore = plan.resolved.kits.filter(({ id, madeFrom }) =>
    plan.resolved.stock.some((lot) => lot.kitId === (madeFrom ?? id) && lot.quantity > 0 && here.includes(lot.placeId)),
  );
  const suits = (kit: Kit) => kit.suits.includes(meal.slot);
  return [...inStore]
    .sort((a, b) => Number(suits(b)) - Number(suits(a)) || a.name.localeCompare(b.name))
    .map((kit) => [
      kit.id,
      suits(kit)
        ? kit.name
        : `${kit.name} (meant for ${kit.suits.map((slot) => SLOT_NAMES[slot].toLowerCase()).join(', ')})`,
    ]);
}

function Difference({ plan, tried, meal }: { plan: Plan; tried: Plan; meal: PlannedMeal }) {
  const page = usePage();
  const [fault, setFault] = useState<string | null>(null);
  const take = async () => {
    try {
      // Closing the page takes a plan away that was only tried; a page that comes back from the background asks first.
      await page.api.get(`/api/plans/${tried.id}`);
    } catch (error) {
      const text = `${(error as Error).message} Press “Show what would change” once more.`;
      setFault(text);
      page.alarm(text);
      return;
    }
    page.storage.removeItem(TRIED_PLAN);
    page.set({ plan: tried, planBefore: plan });
    page.announce('The plan is changed. It can be undone.');
    setTimeout(() => document.getElementById('outcome')?.focus(), 50);
  };
  const leave = async () => {
    await dropTriedPlan(page);
    page.set(({ longWork }) => ({
      longWork: { ...longWork, swap: { key: '', working: null, answer: null, fault: null, errors: [] } },
    }));
    page.announce('The plan is as it was.');
  };
  const changed = tried.meals.flatMap((one) => {
    const before = plan.meals.find(({ id }) => id === one.id);
    const words = [before === undefined ? '–' : mealInWords(plan, before), mealInWords(tried, one)] as const;
    return words[0] === words[1] ? [] : [[`${dayShort(one.eatAt)}, ${SLOT_NAMES[one.slot].toLowerCase()}`, ...words]];
  });
  return html`<div class="difference">
    <h5 id=${`difference-${meal.id}`} tabindex="-1">${changed.length === 0 ? 'Nothing would change' : 'What would change'}</h5>
    <${DataTable} caption="The whole plan, now and then" head=${['Sum', 'Now', 'Then', 'Change']} rows=${sumsOf(page, plan, tried)} />
    ${
      changed.length === 0
        ? null
        : html`<${DataTable} caption="Meals that would be others, or cooked otherwise" head=${['Meal', 'Now', 'Then']} words=${[1, 2]} rows=${changed} />`
    }
    ${tried.outcome === 'short' ? html`<p class="notice">${outcomeInWords(tried)}</p>` : null}
    ${fault === null ? null : html`<p class="notice">${fault}</p>`}
    <div class="row-end">
      <button type="button" class="main-button" onClick=${() => void take()}>Take this plan</button>
      <button type="button" onClick=${() => void leave()}>Leave it as it is</button>
    </div>
  </div>`;
}

/** `Red lentil rice: soak from 20:00, big pot on rocket stove` */
function mealInWords(plan: Plan, meal: PlannedMeal): string {
  const cookings = cookingsOf(plan, meal);
  if (cookings.length === 0) return 'Nothing in store fits';
  return cookings
    .map((cooking) => `${cooking.kitName}: ${methodInWords(plan, cooking, meal.eatAt).toLowerCase()}`)
    .join('; ');
}

/** Fuel, water, hot meals, missing servings and hands-on time of both plans. */
function sumsOf(page: Page, plan: Plan, tried: Plan): string[][] {
  const { units } = page;
  const signed = (change: number, text: string) => (change === 0 ? 'same' : `${text} ${change > 0 ? 'more' : 'less'}`);
  const row = (
    name: string,
    quantity: 'kg' | 'kWh' | 'litres' | 'count' | 'minutes',
    now: number,
    then: number,
    least: number,
  ) => {
    const change = Math.abs(then - now) < least ? 0 : then - now;
    return [
      name,
      say(now, quantity, units),
      say(then, quantity, units),
      signed(change, say(Math.abs(then - now), quantity, units)),
    ];
  };
  const fuels = [...new Set([...plan.fuel, ...tried.fuel].map(({ fuelId }) => fuelId))];
  const usedOf = (one: Plan, fuelId: string) => one.fuel.find((fuel) => fuel.fuelId === fuelId)?.usedKg.p50 ?? 0;
  const waterOf = (one: Plan) => one.water.byDay.reduce((sum, day) => sum + day.usedL, 0);
  const hotOf = (one: Plan) => one.meals.filter((meal) => meal.dishes.some((dish) => dish.hot)).length;
  const shortOf = (one: Plan) => one.meals.reduce((sum, meal) => sum + meal.servingsShort, 0);
  const handsOf = (one: Plan) => one.cookings.reduce((sum, cooking) => sum + cooking.handsOnMinutes, 0);
  const short = [shortOf(plan), shortOf(tried)] as const;
  return [
    ...fuels
      .filter((fuelId) => usedOf(plan, fuelId) + usedOf(tried, fuelId) > 0.0005)
      .map((fuelId) =>
        row(
          asHeading(fuelName(fuelId)),
          fuelId === 'electricity' ? 'kWh' : 'kg',
          usedOf(plan, fuelId),
          usedOf(tried, fuelId),
          0.0025,
        ),
      ),
    row('Water', 'litres', waterOf(plan), waterOf(tried), 0.05),
    row('Hot meals', 'count', hotOf(plan), hotOf(tried), 0.5),
    row('Hands-on', 'minutes', handsOf(plan), handsOf(tried), 0.5),
    ...(Math.max(...short) < 0.01
      ? []
      : [
          [
            'Servings missing',
            ...short.map(writeShort),
            signed(short[1] - short[0], writeShort(Math.abs(short[1] - short[0]))),
          ],
        ]),
  ];
}
