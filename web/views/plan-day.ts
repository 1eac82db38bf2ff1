/** One day of the plan in the order of the clock: meals, fires to light, water to heat. */
import { fuelName, stoveTypeName, thingName } from '../../api/wording/names.ts';
import type { Lighting, Plan, PlanTask } from '../api-types.ts';
import { clockOf, clockOn } from '../dates.ts';
import { html, type View } from '../html.ts';
import { say } from '../measures.ts';
import { usePage } from '../page-state.ts';
import { MealCard } from './plan-meal.ts';

const TASK_NAMES: Record<PlanTask['kind'], string> = {
  'hot-water': 'Hot water',
  'treat-water': 'Make water safe',
  'melt-snow': 'Melt snow',
  'night-feed': 'Night feed',
};

export function DayLine({ plan, date }: { plan: Plan; date: string }) {
  const onDay = (at: string) => at.startsWith(date);
  const rows: { at: string; view: View }[] = [
    ...plan.meals
      .filter((meal) => onDay(meal.eatAt))
      .map((meal) => ({ at: meal.eatAt, view: html`<${MealCard} key=${meal.id} plan=${plan} meal=${meal} />` })),
    ...plan.lightings
      .filter((lighting) => onDay(lighting.at))
      .map((lighting) => ({
        at: lighting.at,
        view: html`<${LightingLine} key=${lighting.id} plan=${plan} lighting=${lighting} />`,
      })),
    ...plan.tasks
      .filter((task) => onDay(task.at))
      .map((task) => ({ at: task.at, view: html`<${TaskLine} key=${task.id} task=${task} />` })),
    ...plan.cookings
      .filter((cooking) => cooking.method.soak !== null && onDay(cooking.method.soak.at))
      .map((cooking) => ({
        at: cooking.method.soak?.at ?? '',
        view: html`<p class="quiet-line" key=${`soak ${cooking.id}`}>
          <span class="clock">${clockOf(cooking.method.soak?.at ?? '')}</span>
          <span>Put to soak for the ${cooking.kitName.toLowerCase()} of ${clockOn(cooking.doneAt, date)}</span>
        </p>`,
      })),
  ];
  return rows.sort((a, b) => a.at.localeCompare(b.at)).map((row) => row.view);
}

function LightingLine({ plan, lighting }: { plan: Plan; lighting: Lighting }) {
  const { household } = plan.resolved;
  const stove = household.stoves?.find((one) => one.id === lighting.stoveId);
  const name =
    stove?.name === undefined && stove !== undefined
      ? stoveTypeName(stove.typeId)
      : thingName(household, lighting.stoveId);
  return html`<p class="quiet-line">
    <span class="clock">${clockOf(lighting.at)}</span>
    <span>Light the ${name}${lighting.outdoors ? ', outdoors' : ''}; it burns ${fuelName(lighting.fuelId)} until ${clockOn(lighting.until, lighting.at)}</span>
  </p>`;
}

function TaskLine({ task }: { task: PlanTask }) {
  const { units } = usePage();
  const kg = task.fuel.reduce((sum, fuel) => sum + fuel.kg.p50, 0);
  const heat = task.temperatureC === null ? '' : ` at ${say(task.temperatureC, 'temperatureC', units, 'up')}`;
  const fuel =
    kg > 0 && task.fuel[0] !== undefined ? `, about ${say(kg, 'kg', units)} of ${fuelName(task.fuel[0].fuelId)}` : '';
  return html`<p class="quiet-line">
    <span class="clock">${clockOf(task.at)}</span>
    <span>${TASK_NAMES[task.kind]}: ${say(task.litres, 'litres', units, 'up')}${heat}${fuel}</span>
  </p>`;
}
