/** One dish over every way this household can cook it, best first; refused ways with reason and way out. */

import { useEffect, useState } from 'preact/hooks';
import { textInSystem } from '../../api/wording/text-in-system.ts';
import { ServerRefusal } from '../api-client.ts';
import type { DishOption, Kit } from '../api-types.ts';
import { DataTable } from '../components/data-table.ts';
import { HowButton } from '../components/derivation.ts';
import { NumberField, TextField } from '../components/fields.ts';
import { minutesInWords, nextAfternoon } from '../dates.ts';
import { html } from '../html.ts';
import { say } from '../measures.ts';
import { writeShort } from '../numbers.ts';
import { type Page, usePage } from '../page-state.ts';
import { fuelOfOption, methodOfOption, minutesOfOption } from './dish-option-words.ts';

const FIRST_SHOWN = 12;

export function DishOptions({ kit }: { kit: Kit }) {
  const page = usePage();
  const start = nextAfternoon(new Date());
  const [servings, setServings] = useState(kit.servings);
  const [startsAt, setStartsAt] = useState(start);
  const [eatAt, setEatAt] = useState(`${nextDay(start)}T18:00`);
  const [options, setOptions] = useState<DishOption[] | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const [all, setAll] = useState(false);
  const household = page.household?.state().body;

  const question = { householdId: household?.id, kitId: kit.id, servings, startsAt, eatAt };
  useEffect(() => {
    if (household === undefined) return;
    let gone = false;
    page.api
      .post<{ options: DishOption[] }>('/api/dish-options', question)
      .then(({ body }) => {
        if (gone) return;
        setOptions(body.options);
        setFault(null);
      })
      .catch((error) => {
        if (!gone)
          setFault(
            error instanceof ServerRefusal
              ? [error.message, ...error.errors.map((one) => one.detail)].join(' ')
              : String(error),
          );
      });
    return () => {
      gone = true;
    };
  }, [household?.id, kit.id, servings, startsAt, eatAt]);

  // Derivations of all ways are many; they are fetched when one is asked for.
  const stepsOf = (option: DishOption) => async (given: Page) => {
    const { body } = await given.api.post<{ options: DishOption[] }>('/api/dish-options?explain=1', question);
    const wanted = JSON.stringify(option.method);
    return body.options.find(({ method }) => JSON.stringify(method) === wanted)?.explanation ?? [];
  };
  const how = (option: DishOption, label: string, quantity: string[]) =>
    html` <${HowButton} of=${`${methodOfOption(page, option)}: ${label}`} quantity=${quantity} steps=${stepsOf(option)} />`;
  const fine = options?.filter((option) => option.verdict === 'ok') ?? [];
  const refused = groupRefused(page, options?.filter((option) => option.verdict === 'refused') ?? []);
  const shown = all ? fine : fine.slice(0, FIRST_SHOWN);
  return html`
    <p><a href="#/stores">‹ All stores</a></p>
    <h1>Ways to cook ${kit.name}</h1>
    <div class="fields">
      <${NumberField} label="Servings" quantity="count" value=${servings} minimum=${0.5} maximum=${500} onValue=${(value: number | undefined) => setServings(value ?? kit.servings)} />
      <${TextField} label="From now on" type="datetime-local" value=${startsAt} required onValue=${(value: string) => setStartsAt(value.slice(0, 16))} />
      <${TextField} label="To be eaten at" type="datetime-local" value=${eatAt} required onValue=${(value: string) => setEatAt(value.slice(0, 16))} />
    </div>
    ${fault === null ? null : html`<p class="notice" role="alert">${fault}</p>`}
    ${options === null && fault === null ? html`<p>Comparing…</p>` : null}
    ${
      options === null
        ? null
        : html`
            <h2>${fine.length === 0 ? 'No way is open' : `${fine.length} ${fine.length === 1 ? 'way' : 'ways'}, least fuel first`}</h2>
            ${
              fine.length === 0
                ? null
                : html`<${DataTable}
                    caption="Ways to cook it, with typical fuel and the range of 8 times in 10"
                    head=${['Way', 'Fuel', 'Water', 'Time', 'Begin before eating']}
                    words=${[1, 2, 3, 4]}
                    rows=${shown.map((option) => [
                      methodOfOption(page, option),
                      html`${fuelOfOption(page, option)}${option.fuel.length === 0 ? null : how(option, 'fuel', ['dishFuelKg', 'dishFuelKWh', 'dishFuelMJ'])}`,
                      html`${say(option.waterL, 'litres', page.units)}${how(option, 'water', ['waterTotalL', 'waterInPotL', 'waterNeededL'])}`,
                      html`${minutesInWords(minutesOfOption(option))}${option.fuel.length === 0 ? null : how(option, 'minutes at the boil', ['boilMinutes'])}`,
                      `${writeShort(option.leadHours)}\u00a0h`,
                    ])}
                  />`
            }
            ${fine.length > shown.length ? html`<button type="button" onClick=${() => setAll(true)}>Show all ${fine.length} ways</button>` : null}
            <h2>Refused ways</h2>
            ${
              refused.length === 0
                ? html`<p>None.</p>`
                : html`<ul class="refused">
                    ${refused.map(
                      (group) => html`<li>
                        ${textInSystem(group.reason, page.units)}. <span class="way-out">${group.wayOut === null ? '' : `Way out: ${textInSystem(group.wayOut, page.units)}. `}</span>
                        <details>
                          <summary class="hint-inline">${group.names.length} ${group.names.length === 1 ? 'way' : 'ways'}</summary>
                          <ul>${group.names.map((name) => html`<li>${name}</li>`)}</ul>
                        </details>
                      </li>`,
                    )}
                  </ul>`
            }
          `
    }
  `;
}

function groupRefused(page: Page, options: DishOption[]) {
  const groups = new Map<string, { names: string[]; reason: string; wayOut: string | null }>();
  for (const option of options) {
    const key = `${option.reason}|${option.wayOut}`;
    const group = groups.get(key) ?? { names: [], reason: option.reason ?? '', wayOut: option.wayOut };
    const name = methodOfOption(page, option);
    if (!group.names.includes(name)) group.names.push(name);
    groups.set(key, group);
  }
  return [...groups.values()];
}

function nextDay(dateTime: string): string {
  const [year = 0, month = 1, day = 1] = dateTime.slice(0, 10).split('-').map(Number);
  return new Date(Date.UTC(year, month - 1, day + 1)).toISOString().slice(0, 10);
}
