/** What does not go together and the ways out, what binds, and what becomes of the plan without a promised supply. */

import { fuelName } from '../../api/wording/names.ts';
import { textInSystem } from '../../api/wording/text-in-system.ts';
import type { Conflict, Limit, Plan, WithoutSupply } from '../api-types.ts';
import { DataTable } from '../components/data-table.ts';
import { limitAmongSteps, PlanHow } from '../components/plan-how.ts';
import { dayInWords, dayShort } from '../dates.ts';
import { html } from '../html.ts';
import { type Quantity, say, shownValue, type UnitSystem, unitOf } from '../measures.ts';
import { writeShort } from '../numbers.ts';
import { usePage } from '../page-state.ts';
import { limitName, thingInWords } from './plan-words.ts';

/** Shortages in words, the conflict behind them, and the cheapest ways out. */
export function ShortBlock({ plan }: { plan: Plan }) {
  const { units } = usePage();
  const conflicts = plan.conflict ?? [];
  return html`
    ${
      plan.short.length === 0
        ? null
        : html`<ul class="short-list">
            ${plan.short.map((shortage) => html`<li><strong>Short of ${shortage.what}</strong> from ${dayInWords(shortage.from)}: ${textInSystem(shortage.text, units)}</li>`)}
          </ul>`
    }
    ${
      conflicts.length === 0
        ? null
        : html`<h3>What does not go together</h3>
            <ul class="conflicts">${conflicts.map((conflict) => html`<${ConflictItem} conflict=${conflict} />`)}</ul>`
    }
    ${
      plan.waysOut.length === 0
        ? null
        : html`<h3>Ways out, the cheapest first</h3>
            <ol>${plan.waysOut.map((way) => html`<li>${textInSystem(way, units)}</li>`)}</ol>`
    }`;
}

function ConflictItem({ conflict }: { conflict: Conflict }) {
  const { units } = usePage();
  return html`<li>
    ${textInSystem(conflict.text, units)}
    <ul>${conflict.limits.map((limit) => html`<li><span class="way-out">Giving way: ${textInSystem(limit.wayOut, units)}</span></li>`)}</ul>
    ${conflict.irreducible ? null : html`<span class="hint-inline">There was no time to make sure that each of these is needed.</span>`}
  </li>`;
}

/** Nothing, or next to nothing, is left over. */
export function isBinding({ slack, used, allowed }: Limit): boolean {
  return slack <= 0.02 || (allowed > 0 && used / allowed >= 0.95);
}

/** Limits with nothing left over, days of one limit in one row, and what one more of each is worth. */
export function BindingSection({ plan }: { plan: Plan }) {
  const { units } = usePage();
  const amount = (value: number, unit = '') => {
    const quantity = QUANTITIES[unit];
    return writeShort(quantity === undefined ? value : shownValue(value, quantity, units));
  };
  const how = (limit: Limit, label: string, quantity: string, shown?: string) =>
    html`<${PlanHow} plan=${plan} of=${`${limitName(plan, limit.limit)}, ${whenInWords(limit)}: ${label}`} quantity=${limitAmongSteps(plan, limit) + quantity} shown=${shown} />`;
  const groups = new Map<string, Limit[]>();
  for (const limit of plan.limits) {
    // A limit of nothing where nothing is wanted shapes no plan.
    if ((!isBinding(limit) || limit.used <= 0) && limit.oneMore === null) continue;
    groups.set(limit.limit, [...(groups.get(limit.limit) ?? []), limit]);
  }
  const isKit = (name: string) => name.startsWith('sets:');
  const shown = [...groups].filter(([name, limits]) => !isKit(name) || limits.some((limit) => limit.oneMore !== null));
  const rows = shown.map(([name, limits]) => {
    const most = limits.reduce((one, other) => (other.used > one.used ? other : one));
    const solved = limits.find((limit) => limit.oneMore !== null);
    const used = `${amount(most.used, most.unit)} of ${amount(most.allowed, most.unit)} ${unitName(most.unit, units)}`;
    const oneMore = textInSystem([...new Set(limits.flatMap((limit) => limit.oneMore ?? []))].join('. '), units);
    return [
      limitName(plan, name),
      daysInWords(plan, limits),
      how(most, 'used and left over', 'LeftOver', used.replaceAll(' ', '\u00a0')),
      solved === undefined ? '–' : html`${oneMore} ${how(solved, 'one more', 'OneMore')}`,
    ];
  });
  const marked = shown.flatMap(([, limits], index) => (limits.some(isBinding) ? [index] : []));
  // Kits of which nothing else is known than that the last set is used are told in one line.
  const usedUp = [...groups.keys()].flatMap((name) =>
    isKit(name) && !shown.some(([other]) => other === name) ? [limitName(plan, name)] : [],
  );
  return html`<section aria-labelledby="binding-title">
    <h2 id="binding-title">What binds</h2>
    <p>
      ${
        marked.length > 0
          ? `Nothing is left over of: ${marked.map((index) => lower(limitName(plan, shown[index]?.[0] ?? ''))).join(', ')}.`
          : 'Nothing binds: of fuel, water, fires and time, something is left over.'
      }
      ${usedUp.length === 0 ? '' : ` The last set is used of: ${usedUp.map((name) => name.replace(/^Sets of /, '')).join('; ')}.`}
    </p>
    ${
      rows.length === 0
        ? null
        : html`<${DataTable}
            caption="What one more is worth; in bold what binds"
            head=${['Limit', 'When', 'Used', 'One more, and what changes']}
            words=${[1, 2, 3]}
            marked=${marked}
            rows=${rows}
          />`
    }
    <details class="more">
      <summary>All limits of this plan</summary>
      <${DataTable}
        caption="Limits of this plan"
        head=${['Limit', 'Day', 'Used', 'Allowed', 'Left over', 'Unit', 'One more']}
        words=${[1, 5, 6]}
        marked=${plan.limits.flatMap((limit, index) => (isBinding(limit) ? [index] : []))}
        rows=${plan.limits.map((limit) => [
          limitName(plan, limit.limit),
          whenInWords(limit),
          how(limit, 'used', 'Used', amount(limit.used, limit.unit)),
          how(limit, 'allowed', 'Allowed', amount(limit.allowed, limit.unit)),
          how(limit, 'left over', 'LeftOver', amount(limit.slack, limit.unit)),
          unitName(limit.unit, units),
          limit.oneMore === null
            ? '–'
            : html`${textInSystem(limit.oneMore, units)} ${how(limit, 'one more', 'OneMore')}`,
        ])}
      />
      <p class="hint">Lines in bold have nothing, or next to nothing, left over: they shape the plan. Each underlined figure opens how it comes about.</p>
    </details>
  </section>`;
}

function whenInWords({ date }: Limit): string {
  return date === null ? 'whole time' : dayShort(date);
}

function daysInWords(plan: Plan, limits: readonly Limit[]): string {
  if (limits.every((limit) => limit.date === null)) return 'whole time';
  if (limits.length === plan.request.days) return 'every day';
  return limits.map((limit) => dayShort(limit.date ?? '')).join(', ');
}

function lower(words: string): string {
  return words.charAt(0).toLowerCase() + words.slice(1);
}

const QUANTITIES: Readonly<Record<string, Quantity>> = { kg: 'kg', L: 'litres', g: 'g' };

/** `lightings` reads as fires; masses and volumes in the wanted units. */
function unitName(unit: string, units: UnitSystem): string {
  const quantity = QUANTITIES[unit];
  if (quantity !== undefined) return unitOf(quantity, units);
  return unit === 'lightings' ? 'fires' : unit;
}

/** If nobody brings what was promised: when the plan ends, and the best plan without it. */
export function WithoutSupplySection({ plan, without }: { plan: Plan; without: WithoutSupply }) {
  const { units } = usePage();
  const end = without.runsOut;
  const other = without.meals.filter((meal) => {
    const planned = plan.meals.find((one) => one.id === meal.id);
    const kits = (planned?.dishes ?? []).flatMap(
      (dish) => plan.cookings.find((one) => one.id === dish.cookingId)?.kitId ?? [],
    );
    return (
      planned !== undefined && (meal.servingsShort > 0.01 || [...kits].sort().join() !== [...meal.kitIds].sort().join())
    );
  });
  const kitName = (id: string) => plan.resolved.kits.find((kit) => kit.id === id)?.name ?? id;
  return html`<section aria-labelledby="supply-title">
    <h2 id="supply-title">If the promised supply does not come</h2>
    <p>
      ${
        end === null
          ? 'What is in store lasts to the end of this plan, whether anything is brought or not.'
          : html`<strong>This plan runs out of ${thingInWords(end.what)} on ${dayInWords(end.date)}.</strong>`
      }
      ${without.outcome === 'complete' ? ' A plan that counts on no supply feeds everybody all the same.' : ' A plan that counts on no supply does not feed everybody:'}
    </p>
    ${
      without.short.length === 0
        ? null
        : html`<ul>${without.short.map((shortage) => html`<li>Short of ${shortage.what} from ${dayInWords(shortage.from)}: ${textInSystem(shortage.text, units)}</li>`)}</ul>`
    }
    ${without.waysOut.length === 0 ? null : html`<ul>${without.waysOut.map((way) => html`<li>Way out: ${textInSystem(way, units)}</li>`)}</ul>`}
    <p class="hint">
      It uses ${
        without.fuel
          .filter((fuel) => fuel.usedKg.p50 > 0.0005)
          .map(
            (fuel) =>
              `${fuel.fuelId === 'electricity' ? say(fuel.usedKg.p50, 'kWh', units) : say(fuel.usedKg.p50, 'kg', units)} of ${fuelName(fuel.fuelId)}`,
          )
          .join(', ') || 'no fuel'
      } and leaves ${say(without.waterLeftL, 'litres', units)} of water.
    </p>
    ${
      other.length === 0
        ? null
        : html`<details class="more">
            <summary>Meals that would be others (${other.length})</summary>
            <${DataTable}
              caption="Meals without the promised supply"
              head=${['Meal', 'Dish', 'Hot', 'Servings short']}
              words=${[1, 2]}
              rows=${other.map((meal) => [
                mealName(plan, meal.id),
                meal.kitIds.map(kitName).join(' and ') || 'nothing in store fits',
                meal.hot ? 'hot' : 'cold',
                writeShort(meal.servingsShort),
              ])}
            />
          </details>`
    }
  </section>`;
}

function mealName(plan: Plan, id: string): string {
  const meal = plan.meals.find((one) => one.id === id);
  return meal === undefined ? id : `${dayShort(meal.eatAt)}, ${meal.slot}`;
}
