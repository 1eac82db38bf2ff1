/** One kit: what it is, and its parts with their ingredients. Saved as it is typed. */
import { useEffect, useState } from 'preact/hooks';
import { ServerRefusal } from '../api-client.ts';
import type { Kit, MealSlot } from '../api-types.ts';
import { fieldsOf } from '../components/bound-fields.ts';
import { CheckField, ErrorSummary } from '../components/fields.ts';
import { FoodPicker, foodNameOf } from '../components/food-picker.ts';
import { SaveLine } from '../components/save-line.ts';
import { withItem, withoutItem, withValueAt } from '../document-paths.ts';
import { html } from '../html.ts';
import { say } from '../measures.ts';
import { newIdFrom, SLOT_NAMES, STYLE_NAMES } from '../names.ts';
import { usePage } from '../page-state.ts';
import { openSavedDocument, type SavedDocument } from '../saved-document.ts';
import { choices } from './set-up-part.ts';

export function KitEditor({ kitId }: { kitId: string }) {
  const page = usePage();
  const [saved, setSaved] = useState<SavedDocument<Kit> | null>(null);
  const [fault, setFault] = useState('');
  const [refusal, setRefusal] = useState('');
  useEffect(() => {
    openSavedDocument<Kit>(page.api, `/api/kits/${kitId}`, page.storage, () => page.redraw())
      .then(setSaved)
      .catch((error) => setFault(error instanceof ServerRefusal ? error.message : String(error)));
  }, [kitId]);
  useEffect(() => {
    if (saved === null) return;
    return () => {
      void saved.flush().then(() => page.reloadStores());
    };
  }, [saved]);

  if (fault !== '')
    return html`<p><a href="#/stores">‹ All stores</a></p><h1>Kit</h1><p class="notice" role="alert">${fault}</p>`;
  if (saved === null) return html`<h1>Kit</h1><p>Loading…</p>`;
  const { body, errors } = saved.state();
  const fields = fieldsOf({ document: saved as SavedDocument<unknown> });
  const total = body.parts.reduce((sum, part) => sum + part.ingredients.reduce((mass, one) => mass + one.massG, 0), 0);

  async function removeKit() {
    try {
      await page.api.remove(`/api/kits/${kitId}`, saved?.state().etag ?? '');
      page.set({ removedKit: body });
      await page.reloadStores();
      page.announce(`${body.name} was removed.`);
      location.hash = '#/stores';
    } catch (error) {
      if (!(error instanceof ServerRefusal)) throw error;
      page.alarm(error.message);
      setRefusal(`Not removed: ${error.message}`);
    }
  }

  return html`
    <p><a href="#/stores">‹ All stores</a></p>
    <h1>${body.name}</h1>
    <${SaveLine} document=${saved} />
    ${refusal === '' ? null : html`<p class="notice">${refusal}</p>`}
    <${ErrorSummary} title="These values were not accepted" errors=${errors} />
    <div class="fields">
      ${fields.text('Name', ['name'], { required: true })}
      ${fields.choice('Style', ['style'], choices(STYLE_NAMES))}
      ${fields.number('Servings in a set', 'count', ['servings'], { minimum: 0.5, maximum: 500 })}
    </div>
    <fieldset>
      <legend>Suits</legend>
      <div class="row-end">
        ${(Object.keys(SLOT_NAMES) as MealSlot[]).map(
          (slot) => html`<${CheckField}
            key=${slot}
            label=${SLOT_NAMES[slot]}
            value=${body.suits.includes(slot)}
            onValue=${(on: boolean) =>
              saved.edit((old) => ({
                ...old,
                suits: on ? [...old.suits, slot] : old.suits.filter((one) => one !== slot),
              }))}
          />`,
        )}
      </div>
      ${fields.check('Less than a whole set can be cooked', ['divisible'])}
    </fieldset>
    <h2>Parts: ${say(total / 1000, 'kg', page.units)} a set</h2>
    <p class="hint">A part is what lies together in one container. Kidney-family beans belong in a part of their own, so that they can be soaked and that water poured away.</p>
    ${body.parts.map(
      (part, at) => html`<fieldset key=${part.id}>
        <legend>${part.name}</legend>
        <div class="fields">
          ${fields.text('Name of the part', ['parts', at, 'name'], { required: true })}
          ${fields.number('Containers a set', 'count', ['parts', at, 'containersPerSet'], { minimum: 1, maximum: 100, optional: '1' })}
          <div class="row-end">${body.parts.length > 1 ? fields.remove(part.name, ['parts'], at) : null}</div>
        </div>
        ${fields.check('This part may be soaked whole', ['parts', at, 'soakable'])}
        ${part.ingredients.map((ingredient, index) => {
          const path = ['parts', at, 'ingredients', index] as const;
          const name = foodNameOf(page, ingredient.foodId);
          return html`<div class="fields" key=${`${index}-${ingredient.foodId}`}>
            <${FoodPicker} label=${`Ingredient ${index + 1}`} value=${ingredient.foodId} onValue=${(foodId: string) => saved.edit((old) => withValueAt(old, [...path, 'foodId'], foodId))} />
            ${fields.number(`${name}, a set`, 'g', [...path, 'massG'], { minimum: 0.1, maximum: 50000 })}
            <div class="row-end">
              ${
                part.ingredients.length > 1
                  ? html`<button type="button" class="small" onClick=${() => saved.edit((old) => withoutItem(old, ['parts', at, 'ingredients'], index), name)}>Remove<span class="unseen"> ${name}</span></button>`
                  : null
              }
            </div>
          </div>`;
        })}
        <button
          type="button"
          class="small"
          onClick=${() => saved.edit((old) => withItem(old, ['parts', at, 'ingredients'], { foodId: part.ingredients[0]?.foodId ?? 'rolled-oats', massG: 100 }))}
        >
          Add an ingredient<span class="unseen"> to ${part.name}</span>
        </button>
      </fieldset>`,
    )}
    <div class="row-end">
      <button
        type="button"
        onClick=${() =>
          saved.edit((old) =>
            withItem(old, ['parts'], {
              id: newIdFrom(
                'part',
                old.parts.map((one) => one.id),
              ),
              name: 'New part',
              ingredients: [{ foodId: page.tables.foods[0]?.id ?? 'rolled-oats', massG: 100 }],
            }),
          )}
      >
        Add a part
      </button>
      <button type="button" onClick=${removeKit}>Remove this kit</button>
    </div>
  `;
}
