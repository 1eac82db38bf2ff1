/** Choosing one of many foods: a few letters narrow the list. */
import { useId, useState } from 'preact/hooks';
import { html } from '../html.ts';
import { wordsOf } from '../names.ts';
import { type Page, usePage } from '../page-state.ts';

export function foodNameOf(page: Pick<Page, 'tables'>, foodId: string): string {
  return page.tables.foods.find((food) => food.id === foodId)?.name ?? wordsOf(foodId);
}

export function FoodPicker({
  label,
  value,
  onValue,
  boiled,
}: {
  label: string;
  value: string;
  onValue: (foodId: string) => void;
  boiled?: boolean;
}) {
  const page = usePage();
  const id = useId();
  const [wanted, setWanted] = useState('');
  const letters = wanted.trim().toLowerCase();
  const rows = page.tables.foods
    .filter(
      (food) =>
        food.id === value || letters === '' || food.name.toLowerCase().includes(letters) || food.id.includes(letters),
    )
    .filter(
      (food) => !boiled || food.id === value || (food.kinetics as { kind?: string } | undefined)?.kind !== 'ready',
    )
    .sort((a, b) => a.name.localeCompare(b.name));
  const matches = letters === '' ? null : rows.filter((food) => food.id !== value).length;
  return html`<div class="finder">
    <div class="field">
      <label for=${`f${id}`}>Find<span class="unseen"> a food for ${label}</span></label>
      <input id=${`f${id}`} type="search" autocomplete="off" value=${wanted} onInput=${(event: InputEvent) => setWanted((event.target as HTMLInputElement).value)} />
    </div>
    <div class="field">
      <label for=${`s${id}`}>${label}${matches === null ? '' : ` (${matches} found)`}</label>
      <select id=${`s${id}`} onChange=${(event: Event) => onValue((event.target as HTMLSelectElement).value)}>
        ${rows.length === 0 ? html`<option value=${value} selected>${foodNameOf(page, value)}</option>` : null}
        ${rows.map((food) => html`<option key=${food.id} value=${food.id} selected=${food.id === value}>${food.name}</option>`)}
      </select>
    </div>
  </div>`;
}
