/** Foods that no table holds, described from their labels: the list, and one label. Saved as it is typed. */
import { useEffect, useState } from 'preact/hooks';
import { allergenNames, ownFoodClassNames } from '../../api/wording/own-food-label-names.ts';
import { ServerRefusal } from '../api-client.ts';
import type { OwnFood } from '../api-types.ts';
import { fieldsOf } from '../components/bound-fields.ts';
import { CheckField, ErrorSummary } from '../components/fields.ts';
import { SaveLine } from '../components/save-line.ts';
import { html } from '../html.ts';
import { newIdFrom } from '../names.ts';
import { type NamedRow, type Page, usePage } from '../page-state.ts';
import { openSavedDocument, type SavedDocument } from '../saved-document.ts';

/** Reads the foods again, so that a new or changed one can be chosen everywhere. */
async function reloadFoods(page: Page) {
  const { body } = await page.api.get<{ items: NamedRow[] }>('/api/foods');
  page.set((state) => ({ tables: { ...state.tables, foods: body.items } }));
}

function ownRows(page: Page): NamedRow[] {
  return page.tables.foods.filter((food) => food.own !== undefined).sort((a, b) => a.name.localeCompare(b.name));
}

function guessedOf(row: NamedRow | undefined): string[] {
  // That any bean counts as a kidney bean is a rule, told above the label.
  return ((row?.own as { guessed?: string[] } | undefined)?.guessed ?? []).filter((what) => what !== 'lectin');
}

export function OwnFoodsView({ foodId }: { foodId?: string | undefined }) {
  return foodId === undefined ? html`<${OwnFoodList} />` : html`<${OwnFoodEditor} key=${foodId} foodId=${foodId} />`;
}

function OwnFoodList() {
  const page = usePage();
  const [fault, setFault] = useState('');
  const rows = ownRows(page);
  const classes = new Map(ownFoodClassNames());
  async function add() {
    const id = newIdFrom(
      'own-food',
      page.tables.foods.map((food) => food.id),
    );
    const label: OwnFood = { id, name: 'New food', foodClass: 'bean', allergens: [] };
    try {
      await page.api.create(`/api/foods/${id}`, label);
      await reloadFoods(page);
      location.hash = `#/stores/foods/${id}`;
    } catch (error) {
      setFault((error as Error).message);
    }
  }
  async function putBack() {
    if (page.removedFood === null) return;
    try {
      await page.api.create(`/api/foods/${page.removedFood.id}`, page.removedFood);
      page.announce(`${page.removedFood.name} is back.`);
      page.set({ removedFood: null });
      await reloadFoods(page);
    } catch (error) {
      setFault((error as Error).message);
    }
  }
  return html`
    <p><a href="#/stores">‹ All stores</a></p>
    <h1>Own foods</h1>
    ${
      page.removedFood === null
        ? null
        : html`<div class="save-line">
            <p>${page.removedFood.name} was removed.</p>
            <button type="button" class="small" onClick=${putBack}>Undo: put it back</button>
          </div>`
    }
    <p class="hint">A food that the tables do not hold is described from its label. What the label does not say is guessed from its class, and marked wherever it is used.</p>
    ${rows.length === 0 ? html`<p>None yet.</p>` : null}
    <ul class="kit-list">
      ${rows.map((row) => {
        const guessed = guessedOf(row);
        return html`<li class="kit" key=${row.id}>
          <div class="kit-name">
            <h2>${row.name}</h2>
            <p class="hint">${classes.get(String((row.own as { foodClass?: string }).foodClass ?? ''))}. ${guessed.length === 0 ? 'Nothing guessed.' : html`<span class="default-mark">guessed</span> ${guessed.join(', ')}`}</p>
          </div>
          <div class="row-end"><a class="button small" href=${`#/stores/foods/${row.id}`}>Edit<span class="unseen"> ${row.name}</span></a></div>
        </li>`;
      })}
    </ul>
    <button type="button" onClick=${add}>Describe a food</button>
    ${fault === '' ? null : html`<p class="wrong" role="alert">${fault}</p>`}
  `;
}

function OwnFoodEditor({ foodId }: { foodId: string }) {
  const page = usePage();
  const [saved, setSaved] = useState<SavedDocument<OwnFood> | null>(null);
  const [fault, setFault] = useState('');
  const [refusal, setRefusal] = useState('');
  useEffect(() => {
    openSavedDocument<OwnFood>(page.api, `/api/foods/${foodId}`, page.storage, () => page.redraw())
      .then(setSaved)
      .catch((error) => setFault(error instanceof ServerRefusal ? error.message : String(error)));
  }, [foodId]);
  const phase = saved?.state().phase;
  // What is guessed follows from the label: it is read again whenever the label has been stored.
  useEffect(() => {
    if (phase === 'saved') void reloadFoods(page).catch(() => undefined);
  }, [phase]);
  useEffect(() => {
    if (saved === null) return;
    return () => void saved.flush();
  }, [saved]);

  if (fault !== '')
    return html`<p><a href="#/stores/foods">‹ Own foods</a></p><h1>Own food</h1><p class="notice" role="alert">${fault}</p>`;
  if (saved === null) return html`<h1>Own food</h1><p>Loading…</p>`;
  const { body, errors } = saved.state();
  const fields = fieldsOf({ document: saved as SavedDocument<unknown> });
  const guessed = guessedOf(page.tables.foods.find(({ id }) => id === foodId));
  const pulse = ['bean', 'pea-or-chickpea', 'lentil-or-split-pea'].includes(body.foodClass);

  async function remove() {
    try {
      await saved?.flush();
      await page.api.remove(`/api/foods/${foodId}`, saved?.state().etag ?? '');
      await reloadFoods(page);
      page.set({ removedFood: body });
      page.announce(`${body.name} was removed.`);
      location.hash = '#/stores/foods';
    } catch (error) {
      if (!(error instanceof ServerRefusal)) throw error;
      page.alarm(error.message);
      setRefusal(`Not removed: ${error.message}`);
    }
  }

  const perHundred = (label: string, field: keyof OwnFood, maximum: number) =>
    fields.number(`${label} in 100 g`, field === 'kcalPer100G' ? 'count' : 'g', [field], {
      minimum: 0,
      maximum,
      optional: 'guessed',
    });
  return html`
    <p><a href="#/stores/foods">‹ Own foods</a></p>
    <h1>${body.name}</h1>
    <${SaveLine} document=${saved} />
    ${refusal === '' ? null : html`<p class="notice">${refusal}</p>`}
    <${ErrorSummary} title="These values were not accepted" errors=${errors} />
    <div class="fields">
      ${fields.text('Name', ['name'], { required: true })}
      ${fields.choice('What it is most like', ['foodClass'], ownFoodClassNames())}
    </div>
    ${body.foodClass === 'bean' ? html`<p class="notice">Every own bean counts as a kidney bean: soaked, that water poured away, boiled hard in fresh water. Underdone ones poison.</p>` : null}
    <fieldset>
      <legend>On the label</legend>
      <div class="fields">
        ${perHundred('Energy (kcal)', 'kcalPer100G', 902)}
        ${perHundred('Protein', 'proteinGPer100G', 100)}
        ${perHundred('Fat', 'fatGPer100G', 100)}
        ${perHundred('Salt', 'saltGPer100G', 100)}
        ${perHundred('Moisture', 'moistureGPer100G', 95)}
        ${fields.number('Minutes on the packet', 'minutes', ['packetMinutes'], { minimum: 0, maximum: 600, optional: 'guessed' })}
      </div>
      ${pulse ? html`<${CheckField} label="Those minutes are for soaked ones" value=${body.packetMinutesSoaked !== false} onValue=${(on: boolean) => saved.edit((old) => ({ ...old, packetMinutesSoaked: on }))} />` : null}
      <${CheckField} label="Sour, as tomato or vinegar powder" value=${body.sour === true} onValue=${(on: boolean) => saved.edit((old) => ({ ...old, sour: on }))} />
      <${CheckField} label="Dried at home" value=${body.homeDried === true} onValue=${(on: boolean) => saved.edit((old) => ({ ...old, homeDried: on }))} />
    </fieldset>
    <fieldset>
      <legend>Measured at home, if you like</legend>
      <div class="fields">
        ${fields.number('Grams in a litre, loose', 'g', ['bulkDensityGPerL'], { minimum: 10, maximum: 1600, optional: 'guessed' })}
        ${fields.number('Water that 1 g takes up', 'g', ['waterTakenUpGPerG'], { minimum: 0, maximum: 12, optional: 'guessed' })}
      </div>
    </fieldset>
    <fieldset>
      <legend>Allergens</legend>
      <div class="row-end">
        ${allergenNames().map(
          ([allergen, name]) => html`<${CheckField}
            key=${allergen}
            label=${name}
            value=${body.allergens?.includes(allergen) === true}
            onValue=${(on: boolean) => saved.edit((old) => ({ ...old, allergens: on ? [...(old.allergens ?? []), allergen] : (old.allergens ?? []).filter((one) => one !== allergen) }))}
          />`,
        )}
      </div>
    </fieldset>
    <p>${guessed.length === 0 ? 'Nothing is guessed.' : html`<span class="default-mark">guessed</span> ${guessed.join(', ')}`}</p>
    <button type="button" onClick=${remove}>Remove this food</button>
  `;
}
