/** One meal of the plan: closed it names the dish, open it holds steps, numbers and what each choice saves. */

import type { ComponentChildren } from 'preact';
import { eatByOf } from '../../api/wording/eat-by.ts';
import { asHeading, fuelName, thingName } from '../../api/wording/names.ts';
import { textInSystem } from '../../api/wording/text-in-system.ts';
import type { Cooking, ExplanationStep, MealOfPlan, Percentiles, Plan, PlannedMeal } from '../api-types.ts';
import { HowButton } from '../components/derivation.ts';
import { LaterPart } from '../components/later-part.ts';
import { StepText } from '../components/next-steps.ts';
import { SpreadBlock } from '../components/spread.ts';
import { clockOf, clockOn, dayShort, minutesInWords } from '../dates.ts';
import { html } from '../html.ts';
import { say, type UnitSystem } from '../measures.ts';
import { wordsOf } from '../names.ts';
import { type Page, usePage } from '../page-state.ts';

/** How a dish is cooked, in a line. */
export function methodInWords(plan: Plan, cooking: Cooking, day: string): string {
  const { method } = cooking;
  const parts: string[] = [];
  if (method.soak !== null) parts.push(`soak from ${clockOn(method.soak.at, day)}`);
  if (method.finish === 'no-heat') parts.push('no fire');
  else if (method.vesselId !== null) {
    parts.push(
      `${thingName(plan.resolved.household, method.vesselId)}${method.stoveId === null ? '' : ` on ${thingName(plan.resolved.household, method.stoveId)}`}`,
    );
  }
  if (method.flame === 'low') parts.push('on a small flame');
  if (method.heatToC !== undefined) parts.push('heated, not boiled');
  if (method.standMinutes !== undefined) parts.push(`then ${minutesInWords(method.standMinutes)} off the fire`);
  if (method.finish === 'box' && method.boxId !== null) {
    parts.push(`then ${minutesInWords(method.boxMinutes)} in ${thingName(plan.resolved.household, method.boxId)}`);
  }
  if (method.finish === 'flask')
    parts.push(
      `finished in ${method.flaskId === null ? 'the flask' : thingName(plan.resolved.household, method.flaskId)}`,
    );
  return asHeading(parts.join(', '));
}

function toHeatLabel({ gaugeKPa, heatToC }: Cooking['method']): string {
  if (heatToC !== undefined) return 'Until it is hot';
  return gaugeKPa === null ? 'To the boil' : 'To pressure';
}

const CHOICE_NAMES: Record<string, string> = {
  soak: 'Soaking',
  lid: 'The lid',
  'pressure-cooker': 'The pressure cooker',
  box: 'The box',
  flask: 'The flask',
  'no-heat': 'No fire',
  'low-flame': 'The small flame',
  stand: 'Standing off the fire',
  'no-boil': 'Heating without a boil',
  stove: 'This stove',
  'shared-lighting': 'Sharing the fire',
};

/** `soak from 20:00: saves 140 g propane` */
function savingInWords(cooking: Cooking, saving: Cooking['saves'][number], day: string, units: UnitSystem): string {
  const choice =
    saving.choice === 'soak' && cooking.method.soak !== null
      ? `Soaking from ${clockOn(cooking.method.soak.at, day)}`
      : (CHOICE_NAMES[saving.choice] ?? wordsOf(saving.choice));
  const kg = saving.fuelKg?.p50 ?? 0;
  const mj = saving.fuelMJ?.p50 ?? 0;
  const [row] = cooking.fuel;
  const fuel = row === undefined ? 'fuel' : fuelName(row.fuelId);
  // Of electricity the amount is in kWh.
  const unit = row?.kWh === undefined ? 'kg' : 'kWh';
  const amount = kg !== 0 ? `${say(Math.abs(kg), unit, units)} of ${fuel}` : `${say(Math.abs(mj), 'MJ', units)}`;
  const water = !hasWater(saving)
    ? ''
    : `, ${saving.waterL > 0 ? 'saves' : 'costs'} ${say(Math.abs(saving.waterL), 'litres', units)} of water`;
  return `${choice}: ${kg < 0 || (kg === 0 && mj < 0) ? 'costs' : 'saves'} ${amount}${water} (instead of: ${textInSystem(saving.insteadOf, units)})`;
}

/** Whether it saves or costs water worth telling. */
function hasWater(saving: Cooking['saves'][number]): boolean {
  return Math.abs(saving.waterL ?? 0) >= 0.05;
}

/** `140 g (110 to 190 g)`: the middle and the 10th to 90th percentile. */
export function spreadInWords(
  value: Percentiles,
  quantity: 'kg' | 'kWh' | 'MJ' | 'litres' | 'minutes',
  units: UnitSystem,
): string {
  const middle = quantity === 'minutes' ? minutesInWords(value.p50) : say(value.p50, quantity, units);
  if (Math.abs(value.p90 - value.p10) < 1e-9) return middle;
  const low = quantity === 'minutes' ? minutesInWords(value.p10) : say(value.p10, quantity, units);
  const high = quantity === 'minutes' ? minutesInWords(value.p90) : say(value.p90, quantity, units);
  return `${middle} (${low} to ${high})`;
}

export function MealCard({ plan, meal }: { plan: Plan; meal: PlannedMeal }) {
  const { units } = usePage();
  const day = meal.eatAt;
  const dishes = meal.dishes.map((dish) => ({
    dish,
    cooking: plan.cookings.find((cooking) => cooking.id === dish.cookingId),
  }));
  const names = dishes.map(({ cooking }) => cooking?.kitName ?? 'Dish');
  const hot = meal.dishes.some((dish) => dish.hot);
  const steps = plan.schedule.filter((step) => step.meal === meal.id);
  const short = meal.servingsShort > 0;
  const foodHow = (label: string, quantity: string) =>
    html` <${HowButton} of=${`${names.join(' and ')}: ${label}`} quantity=${[quantity]} steps=${(given: Page) => stepsOfMeal(given, plan, meal)} />`;
  return html`<details class=${`meal${short ? ' meal-short' : ''}`}>
    <summary>
      <span class="clock">${clockOf(meal.eatAt)}</span>
      <span class="dish">${names.length === 0 ? 'Nothing in store fits' : names.join(' and ')}</span>
      <span class="tags">
        ${short ? html`<span class="tag tag-short">⚠ ${Math.round(meal.servingsShort * 10) / 10} servings short</span>` : null}
        ${names.length === 0 ? null : html`<span class="tag">${meal.coldByChoice === true ? 'cold by choice' : hot ? 'hot' : 'cold'}</span>`}
        ${dishes.map(({ cooking }) => (cooking === undefined ? null : html`<span class="way">${methodInWords(plan, cooking, day)}</span>`))}
      </span>
    </summary>
    <div class="meal-inside">
      <p>
        ${
          dishes.length === 0
            ? `For ${meal.people} people nothing in the stores can be cooked in time with what is left.`
            : html`For ${meal.people} people. About ${Math.round(meal.energyKcal)} kcal${foodHow('food energy', 'mealEnergyKcal')} and ${Math.round(meal.proteinG)} g of protein${foodHow('protein', 'mealProteinG')} in all.`
        }
      </p>
      ${meal.cautions.map((caution) => html`<p class="notice">${textInSystem(caution, units)}</p>`)}
      ${dishes.map(({ cooking, dish }) => (cooking === undefined ? null : html`<${DishNumbers} plan=${plan} meal=${meal} cooking=${cooking} eatBy=${dish.safeUntil === '' ? '' : eatByOf(meal, dish, cooking)} day=${day} />`))}
      ${
        steps.length === 0
          ? null
          : html`<h4>Steps</h4>
              <ol class="steps">
                ${steps.map(
                  (step) => html`<li>
                    <span class="clock">${clockOn(step.at, day)}</span>
                    <${StepText} step=${step} />
                  </li>`,
                )}
              </ol>`
      }
      <${LaterPart} title="Another dish, stove or pot" load=${loadSwap} props=${{ plan, meal }} />
    </div>
  </details>`;
}

const loadSwap = () => import('./plan-swap.ts').then((part) => part.SwapBlock);

function DishNumbers({
  plan,
  meal,
  cooking,
  eatBy,
  day,
}: {
  plan: Plan;
  meal: PlannedMeal;
  cooking: Cooking;
  eatBy: string;
  day: string;
}) {
  const page = usePage();
  const { units } = page;
  const { method, waterL } = cooking;
  const figure = (label: string, shown: ComponentChildren, quantities: readonly string[], value?: number) =>
    html`<div>
      <dt>${label}</dt>
      <dd>
        ${shown}
        ${quantities.length === 0 ? null : html` <${HowButton} of=${`${cooking.kitName}: ${label}`} quantity=${quantities} near=${meal.dishes.length > 1 ? value : undefined} steps=${(given: Page) => stepsOfMeal(given, plan, meal)} />`}
      </dd>
    </div>`;
  const savedHow = (saving: Cooking['saves'][number], label: string, ending: string, value: number | undefined) =>
    html` <${HowButton} of=${`${cooking.kitName}, ${(CHOICE_NAMES[saving.choice] ?? wordsOf(saving.choice)).toLowerCase()}: ${label}`} quantity=${[nameAmongKits(saving.choice, ending)]} near=${meal.dishes.length > 1 ? value : undefined} steps=${(given: Page) => stepsOfMeal(given, plan, meal)} />`;
  return html`<div class="dish-numbers">
    <h4>${cooking.kitName}</h4>
    <dl class="figures">
      ${cooking.fuel.map((fuel) =>
        figure(
          `${asHeading(fuelName(fuel.fuelId))}, typical (8 times in 10 within)`,
          fuel.kWh === undefined ? spreadInWords(fuel.kg, 'kg', units) : spreadInWords(fuel.kWh, 'kWh', units),
          ['dishFuelKg', 'dishFuelKWh', 'dishFuelMJ', 'fuelKg'],
          (fuel.kWh ?? fuel.kg).p50,
        ),
      )}
      ${figure('Water', `${say(waterL.total, 'litres', units, 'up')}${waterL.soakPouredAway > 0.05 ? `, ${say(waterL.soakPouredAway, 'litres', units)} of it soak water to pour away` : ''}`, ['waterTotalL', 'waterInPotL', 'waterNeededL'], waterL.total)}
      ${method.minutesToBoil === null ? null : figure(toHeatLabel(method), spreadInWords(method.minutesToBoil, 'minutes', units), ['dishMinutesToBoil', 'minutesToBoil'], method.minutesToBoil.p50)}
      ${method.boilMinutes === null || method.heatToC !== undefined ? null : figure(method.gaugeKPa === null ? 'At the boil' : 'At pressure', spreadInWords(method.boilMinutes, 'minutes', units), ['boilMinutes', 'neededBoilMinutes'], method.boilMinutes.p50)}
      ${method.temperatureC === null ? null : figure('In the pot', say(method.temperatureC, 'temperatureC', units), ['temperatureC', 'boilingPointC'], method.temperatureC)}
      ${method.standMinutes === undefined ? null : figure('Off the fire, lid shut', minutesInWords(method.standMinutes), ['standingMinutes'], method.standMinutes)}
      ${method.finish === 'box' ? figure('In the box', minutesInWords(method.boxMinutes), ['boxMinutes'], method.boxMinutes) : null}
      ${figure('Hands-on', minutesInWords(cooking.handsOnMinutes), ['handsOnMinutes'], cooking.handsOnMinutes)}
      ${eatBy === '' ? null : figure('Eat by', clockOn(eatBy, day), [meal.dishes.length > 1 ? nameAmongKits(cooking.kitId, 'EatBy') : 'eatBy'])}
      ${
        cooking.fuelMJ.p50 <= 0
          ? null
          : html`${figure('Heat of the fuel', say(cooking.fuelMJ.p50, 'MJ', units), ['dishFuelMJ', 'fuelMJ'], cooking.fuelMJ.p50)}
              ${figure('The usual way would take', say(cooking.usualMJ, 'MJ', units), ['usualMJ'], cooking.usualMJ)}
              ${figure('Floor: the least that physics allows', say(cooking.floorMJ, 'MJ', units), ['floorMJ'], cooking.floorMJ)}`
      }
    </dl>
    ${
      cooking.saves.length === 0
        ? null
        : html`<h5>What each choice saves</h5>
      <ul class="savings">
        ${cooking.saves.map(
          (saving) => html`<li>
            ${savingInWords(cooking, saving, day, units)}${savedHow(saving, 'fuel saved', 'SavedKg', saving.fuelKg?.p50)}${hasWater(saving) ? savedHow(saving, 'water saved', 'SavedL', saving.waterL) : null}
          </li>`,
        )}
      </ul>`
    }
    ${method.extrapolated ? html`<p class="hint"><span class="estimate"><span aria-hidden="true">≈ </span>extrapolation</span> Cooking minutes here lie outside the measured temperatures, with a wider range.</p>` : null}
    <${SpreadBlock} spread=${cooking.spread ?? []} of=${`the fuel for the ${cooking.kitName.toLowerCase()} of ${dayShort(cooking.doneAt)}, ${clockOf(cooking.doneAt)}`} />
    <p class="hint">From: ${cooking.takes.map((take) => `${take.quantity} × ${partName(plan, cooking.kitId, take.partId)}, packed ${take.packedOn}${fromElsewhere(plan, take.placeId)}`).join('; ')}</p>
  </div>`;
}

/** Steps of several dishes begin with the kit: `red-lentil-rice` and `EatBy` make `redLentilRiceEatBy`. */
function nameAmongKits(kitId: string, ending: string): string {
  return kitId.replace(/[^A-Za-z0-9]+(.)/g, (_gap, letter: string) => letter.toUpperCase()) + ending;
}

async function stepsOfMeal(page: Page, plan: Plan, meal: PlannedMeal): Promise<ExplanationStep[]> {
  const { body } = await page.api.get<MealOfPlan>(`/api/plans/${plan.id}/meals/${meal.id}?explain=1`);
  return body.explanation ?? [];
}

/** Where a bag lies, if it is not at the place of the plan. */
function fromElsewhere(plan: Plan, placeId: string): string {
  const { places } = plan.resolved.household;
  if (placeId === (plan.request.placeId ?? places[0]?.id)) return '';
  return `, from: ${places.find((place) => place.id === placeId)?.name ?? placeId}`;
}

function partName(plan: Plan, kitId: string, partId: string): string {
  const kit = plan.resolved.kits.find((one) => one.id === kitId);
  return kit?.parts.find((part) => part.id === partId)?.name ?? partId;
}
