/** One kit: what it is, and its parts with their ingredients, its figures beside. Saved as it is typed. */
import { useEffect, useState } from 'preact/hooks';
import { ServerRefusal } from '../api-client.ts';
import type { Ingredient, Kit, KitFigures, KitPart, MealSlot } from '../api-types.ts';
import { AmountField } from '../components/amount-field.ts';
import { fieldsOf } from '../components/bound-fields.ts';
import { CheckField, ChoiceField, ErrorSummary } from '../components/fields.ts';
import { FoodPicker, foodNameOf } from '../components/food-picker.ts';
import { SaveLine } from '../components/save-line.ts';
import { type DocumentPath, pointerOf, withItem, withoutItem, withValueAt } from '../document-paths.ts';
import { html } from '../html.ts';
import { say } from '../measures.ts';
import { newIdFrom, SLOT_NAMES, STYLE_NAMES } from '../names.ts';
import { writeShort } from '../numbers.ts';
import { type Page, usePage } from '../page-state.ts';
import { openSavedDocument, type SavedDocument } from '../saved-document.ts';
import { KitFiguresPanel, useKitFigures } from './kit-figures.ts';
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
  const { figures, fault: figuresFault } = useKitFigures(saved?.state().body);

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
    <p><a href=${`#/stores/print/${kitId}`}>Packing sheet, card and labels</a> · <a href="#/stores/foods">Own foods</a></p>
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
    <${KitFiguresPanel} kit=${body} figures=${figures} fault=${figuresFault} />
    <h2>Parts: ${say(total / 1000, 'kg', page.units)} a set</h2>
    <p class="hint">A part is what lies together in one container. Kidney-family beans belong in a part of their own, so that they can be soaked and that water poured away. Amounts may be typed as 330 g, 2 cups, 1,5 kg or 60 g a serving.</p>
    <div class="row-end" role="group" aria-label="Change all amounts and servings">
      ${[0.5, 2].map(
        (
          factor,
        ) => html`<button type="button" class="small" onClick=${() => saved.edit((old) => scaled(old, factor), 'the amounts as they were')}>
          ${factor < 1 ? 'Half of everything' : 'Twice everything'}
        </button>`,
      )}
      <button type="button" class="small" onClick=${() => saved.edit((old) => ({ ...old, servings: 1, parts: scaled(old, 1 / old.servings).parts }), 'the amounts as they were')}>
        For one serving
      </button>
    </div>
    ${body.parts.map(
      (part, at) => html`<fieldset key=${part.id}>
        <legend>${part.name}</legend>
        <div class="fields">
          ${fields.text('Name of the part', ['parts', at, 'name'], { required: true })}
          ${fields.number('Containers a set', 'count', ['parts', at, 'containersPerSet'], { minimum: 1, maximum: 100, optional: '1' })}
          <div class="row-end">${body.parts.length > 1 ? fields.remove(part.name, ['parts'], at) : null}</div>
        </div>
        ${fields.check('This part may be soaked whole', ['parts', at, 'soakable'])}
        ${figures?.parts.find(({ partId }) => partId === part.id)?.canBeAsItIs || part.asItIs ? fields.check('Eaten as it is, dry, beside the dish', ['parts', at, 'asItIs']) : null}
        ${part.ingredients.map((ingredient, index) => ingredientRow(page, saved, figures, part, ingredient, ['parts', at, 'ingredients'], index))}
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

function ingredientRow(
  page: Page,
  saved: SavedDocument<Kit>,
  figures: KitFigures | null,
  part: KitPart,
  ingredient: Ingredient,
  list: DocumentPath,
  index: number,
) {
  const path = [...list, index];
  const { body, errors } = saved.state();
  const food = page.tables.foods.find(({ id }) => id === ingredient.foodId);
  const name = foodNameOf(page, ingredient.foodId);
  const ready = figures?.readyFoods.find(({ foodId }) => foodId === ingredient.foodId);
  const guessed = ((food?.own as { guessed?: string[] } | undefined)?.guessed ?? []).filter(
    (what) => what !== 'lectin',
  );
  return html`<div class="ingredient" key=${`${index}-${ingredient.foodId}`}>
    <div class="fields">
      <${FoodPicker} label=${`Ingredient ${index + 1}`} value=${ingredient.foodId} onValue=${(foodId: string) => saved.edit((old) => withValueAt(old, [...path, 'foodId'], foodId))} />
      <${AmountField}
        label=${`${name}, a set`}
        massG=${ingredient.massG}
        bulkGPerL=${(food?.bulkDensityGPerL as { value?: number } | undefined)?.value ?? 800}
        servings=${body.servings}
        pointer=${pointerOf([...path, 'massG'])}
        errors=${errors}
        onMass=${(massG: number) => saved.edit((old) => withValueAt(old, [...path, 'massG'], massG))}
      />
      ${
        ready === undefined || body.style === 'no-cook'
          ? null
          : html`<${ChoiceField}
              label=${`${name} in the dish`}
              value=${ingredient.addAtMinutesBeforeEnd == null ? 'stand' : 'cook'}
              options=${readyChoices(ready)}
              onValue=${(way: string | undefined) => saved.edit((old) => withValueAt(old, [...path, 'addAtMinutesBeforeEnd'], way === 'cook' ? COOKED_MINUTES : undefined))}
            />`
      }
      <div class="row-end">
        ${
          part.ingredients.length > 1
            ? html`<button type="button" class="small" onClick=${() => saved.edit((old) => withoutItem(old, list, index), name)}>Remove<span class="unseen"> ${name}</span></button>`
            : null
        }
      </div>
    </div>
    ${guessed.length === 0 ? null : html`<p class="hint"><span class="default-mark">guessed</span> ${guessed.join(', ')}. <a href=${`#/stores/foods/${ingredient.foodId}`}>Complete its label</a></p>`}
  </div>`;
}

/** A food that needs no boil and is cooked with the dish all the same goes in so long before the end, min. */
const COOKED_MINUTES = 20;

function readyChoices({ standMinutesHot }: KitFigures['readyFoods'][number]): [string, string][] {
  return [
    ['stand', `stirred in at the end, stands ${writeShort(standMinutesHot)} min`],
    ['cook', `cooked in the pot for ${COOKED_MINUTES} min`],
  ];
}

/** All amounts and the servings times a factor, to a hundredth of a gram. */
function scaled(kit: Kit, factor: number): Kit {
  const mass = (massG: number): number => Math.min(50_000, Math.max(0.1, Math.round(massG * factor * 100) / 100));
  return {
    ...kit,
    servings: Math.min(500, Math.max(0.5, Math.round(kit.servings * factor * 2) / 2)),
    parts: kit.parts.map((part) => ({
      ...part,
      ingredients: part.ingredients.map((one) => ({ ...one, massG: mass(one.massG) })),
    })),
  };
}
