/** Meals that are due or were eaten: one press each. */
import { useRef, useState } from 'preact/hooks';
import { addMinutes } from '../../api/wording/times.ts';
import type { StateNow } from '../api-types.ts';
import { dishesOf, MEAL_STATES, mealWords } from '../booking-words.ts';
import { ChoiceField, NumberField, TextField } from '../components/fields.ts';
import { clockOn } from '../dates.ts';
import { html } from '../html.ts';
import type { BookingDesk } from './book.ts';

/** A meal may be ticked this long before its time, and stays in sight this long after it, minutes. */
const AHEAD_MINUTES = 240;
const IN_SIGHT_MINUTES = 1080;

type MealNow = StateNow['meals'][number];

export function MealsToBook({ desk }: { desk: BookingDesk }) {
  const { now, booked } = desk;
  const due = booked.state.meals.filter(({ eatAt }) => eatAt <= addMinutes(now, AHEAD_MINUTES));
  const near = due.filter(({ eatAt }, index) => eatAt >= addMinutes(now, -IN_SIGHT_MINUTES) || index >= due.length - 3);
  const before = due.filter((meal) => !near.includes(meal));
  const open = before.filter(({ state }) => state === 'assumed').length;
  return html`<section aria-labelledby="meals-title">
    <h2 id="meals-title">Meals</h2>
    ${due.length === 0 ? html`<p>No meal is due yet.</p>` : html`<ul class="kit-list">${near.map((meal) => html`<${MealRow} key=${meal.id} desk=${desk} meal=${meal} />`)}</ul>`}
    ${
      before.length === 0
        ? null
        : html`<details class="more">
            <summary>Meals before that (${before.length}${open === 0 ? '' : `, ${open} not booked`})</summary>
            <ul class="kit-list">${before.map((meal) => html`<${MealRow} key=${meal.id} desk=${desk} meal=${meal} />`)}</ul>
          </details>`
    }
  </section>`;
}

function MealRow({ desk, meal }: { desk: BookingDesk; meal: MealNow }) {
  const { plan, now, book } = desk;
  const [changing, setChanging] = useState(false);
  const row = useRef<HTMLLIElement>(null);
  // The pressed button goes; what takes its place takes the focus.
  const bookHere: BookingDesk['book'] = async (entry, said) => {
    const done = await book(entry, said);
    if (done) setTimeout(() => row.current?.querySelector('button')?.focus(), 50);
    return done;
  };
  const name = mealWords(plan, meal.id);
  const isBooked = meal.bookingId !== null;
  const press = (kind: 'meal-eaten' | 'meal-skipped', word: string) => html`<button
    type="button"
    onClick=${() => void bookHere({ kind, meal: meal.id }, `${name}: ${word}.`)}
  >${word === 'eaten' ? 'Eaten' : 'Skipped'}<span class="unseen"> ${name}</span></button>`;
  return html`<li class="kit" ref=${row}>
    <div class="kit-name">
      <p><span class="clock">${clockOn(meal.eatAt, now)}</span> <strong>${dishesOf(plan, meal.id) || 'Nothing planned'}</strong></p>
      <p class="hint">${name}: ${isBooked ? html`<strong>${MEAL_STATES[meal.state]}</strong>` : MEAL_STATES[meal.state]}</p>
    </div>
    ${
      isBooked
        ? html`<button type="button" class="small" onClick=${() => void bookHere({ kind: 'undo', bookingId: meal.bookingId, at: now }, 'Taken back.')}>Undo<span class="unseen"> ${name} ${MEAL_STATES[meal.state]}</span></button>`
        : html`<div class="row-end">
            ${press('meal-eaten', 'eaten')} ${press('meal-skipped', 'skipped')}
            <button type="button" aria-expanded=${changing ? 'true' : 'false'} onClick=${() => setChanging(!changing)}>Changed<span class="unseen"> ${name}</span></button>
          </div>`
    }
    ${changing && !isBooked ? html`<${ChangedMeal} desk=${desk} meal=${meal} name=${name} onDone=${() => setChanging(false)} />` : null}
  </li>`;
}

function ChangedMeal({
  desk,
  meal,
  name,
  onDone,
}: {
  desk: BookingDesk;
  meal: MealNow;
  name: string;
  onDone: () => void;
}) {
  const { plan, book } = desk;
  const [kitId, setKitId] = useState<string | undefined>(undefined);
  const [batches, setBatches] = useState<number | undefined>(undefined);
  const [dish, setDish] = useState<string>('not-cooked');
  const [note, setNote] = useState('');
  return html`<fieldset class="whole-row">
    <legend>${name} instead of ${dishesOf(plan, meal.id) || 'nothing'}</legend>
    <div class="fields">
      <${ChoiceField} label="What was eaten" value=${kitId} whenEmpty="nothing of the kits"
        options=${plan.resolved.kits.map(({ id, name: title }) => [id, title] as const)} onValue=${setKitId} />
      ${kitId === undefined ? null : html`<${NumberField} label="Sets" quantity="count" value=${batches} minimum=${0.1} maximum=${100} whenEmpty=${1} live onValue=${setBatches} />`}
      <${ChoiceField} label="The planned dish" value=${dish} options=${[
        ['not-cooked', 'was not cooked'],
        ['thrown-away', 'was thrown away'],
      ]} onValue=${(value: string | undefined) => setDish(value ?? 'not-cooked')} />
      <${TextField} label="Note" value=${note} onValue=${setNote} />
    </div>
    <button type="button" onClick=${async () => {
      const entry = {
        kind: 'meal-changed' as const,
        meal: meal.id,
        plannedDish: dish,
        ...(kitId === undefined ? {} : { kitId, ...(batches === undefined ? {} : { batches }) }),
        ...(note === '' ? {} : { note }),
      };
      onDone();
      await book(entry, `${name}: changed.`);
    }}>Book the change</button>
  </fieldset>`;
}
