/** What is in store, kit by kit, and what can be done with it. */

import { useState } from 'preact/hooks';
import { listInWords } from '../../api/wording/lists.ts';
import { bagsText, setsText } from '../../api/wording/stock-words.ts';
import type { Kit } from '../api-types.ts';
import { useBooked } from '../components/booked.ts';
import { Later } from '../components/later.ts';
import { LaterPart } from '../components/later-part.ts';
import { wallClock } from '../dates.ts';
import { html } from '../html.ts';
import { newIdFrom, SLOT_NAMES, STYLE_NAMES } from '../names.ts';
import { writeNumber } from '../numbers.ts';
import { type Page, usePage } from '../page-state.ts';
import { ownLots, ownPlaces, ownSets, placeName, setsSentence, setsTogether } from '../stock-words.ts';
import { DishOptions } from './dish-options.ts';
import { StockOfKit } from './stock-of-kit.ts';

/** Parts that come when they are first asked for. */
const LATER = {
  editor: () => import('./kit-editor.ts').then((part) => part.KitEditor),
  foods: () => import('./own-foods.ts').then((part) => part.OwnFoodsView),
  print: () => import('./kit-print.ts').then((part) => part.KitPrint),
  share: () => import('./stock-share.ts').then((part) => part.ShareOutPart),
  inspect: () => import('./stock-inspect.ts').then((part) => part.InspectPart),
  files: () => import('./stock-files.ts').then((part) => part.FilesPart),
};

export function StoresView() {
  const page = usePage();
  const [, kind, kitId] = page.route.split('/');
  const kit = page.kits.find((one) => one.id === kitId);
  if (kind === 'kit' && kitId !== undefined)
    return html`<${Later} key=${`kit/${kitId}`} load=${LATER.editor} props=${{ kitId }} />`;
  if (kind === 'foods')
    return html`<${Later} key=${`foods/${kitId ?? ''}`} load=${LATER.foods} props=${{ foodId: kitId }} />`;
  if (kind === 'print' && kit !== undefined)
    return html`<${Later} key=${`print/${kit.id}`} load=${LATER.print} props=${{ kit }} />`;
  if (kind === 'ways' && kit !== undefined) return html`<${DishOptions} key=${kit.id} kit=${kit} />`;
  if (kind === 'stock' && kit !== undefined) return html`<${StockOfKit} key=${kit.id} kit=${kit} />`;
  return html`<${KitList} />`;
}

/** "Packed 2021-09-12 and 2024-10-04." */
function packedInWords(page: Page, kit: Kit): string {
  const dates = [...new Set(ownLots(page, kit).map((lot) => lot.packedOn))].sort();
  return `Packed ${listInWords(dates)}.`;
}

function KitList() {
  const page = usePage();
  const [fault, setFault] = useState('');
  async function addKit() {
    const id = newIdFrom(
      'new-kit',
      page.kits.map((kit) => kit.id),
    );
    const food = page.tables.foods.find((one) => one.id === 'rolled-oats') ?? page.tables.foods[0];
    const kit: Kit = {
      id,
      name: 'New kit',
      servings: 4,
      divisible: true,
      style: 'soup',
      suits: ['evening'],
      parts: [
        {
          id: 'dry',
          name: 'Dry part',
          soakable: false,
          containersPerSet: 1,
          ingredients: [{ foodId: food?.id ?? 'rolled-oats', massG: 300 }],
        },
      ],
    };
    try {
      await page.api.create(`/api/kits/${id}`, kit);
      await page.reloadStores();
      location.hash = `#/stores/kit/${id}`;
    } catch (error) {
      setFault((error as Error).message);
    }
  }
  async function putBack() {
    if (page.removedKit === null) return;
    try {
      await page.api.create(`/api/kits/${page.removedKit.id}`, page.removedKit);
      page.announce(`${page.removedKit.name} is back.`);
      page.set({ removedKit: null });
      await page.reloadStores();
    } catch (error) {
      setFault((error as Error).message);
    }
  }
  return html`
    <h1>Stores</h1>
    ${
      page.removedKit === null
        ? null
        : html`<div class="save-line">
            <p>${page.removedKit.name} was removed.</p>
            <button type="button" class="small" onClick=${putBack}>Undo: put it back</button>
          </div>`
    }
    <${StrayStock} />
    <p class="hint">A set is all parts of a kit once. What is in store is the sum of what was packed, counted and taken.</p>
    ${page.kits.length === 0 ? html`<p>No kits are stored yet. A kit is the recipe of one dish that is packed dry; add one, or <a href="#/first-minutes">begin with ready-made ones</a>.</p>` : null}
    <ul class="kit-list">
      ${[...page.kits]
        .sort((a, b) => a.name.localeCompare(b.name))
        .map((kit) => {
          const rows = ownSets(page, kit);
          const sets = rows.reduce((sum, row) => sum + row.sets, 0);
          // Where all of it lies at the first place, the figure says it.
          const apart = rows.some((row) => row.placeId !== ownPlaces(page)[0]?.id);
          const together = setsTogether(page, kit);
          return html`<li class="kit" key=${kit.id}>
            <span class="kit-count">${setsText(sets)}</span>
            <div class="kit-name">
              <h2>${kit.name}</h2>
              <p class="hint">
                ${STYLE_NAMES[kit.style]}, ${writeNumber(kit.servings)} servings a set, for ${kit.suits.map((slot) => SLOT_NAMES[slot].toLowerCase()).join(' or ')}.${' '}
                ${rows.length === 0 ? 'None in store.' : packedInWords(page, kit)}
              </p>
              ${rows
                .filter((row) => apart || row.leftOver.length > 0 || row.notSound.length > 0)
                .map(
                  (row) =>
                    html`<p class="hint" key=${row.placeId}><b>${placeName(page, row.placeId)}:</b> ${setsSentence(page, kit, row)}</p>`,
                )}
              ${together > sets ? html`<p class="hint">Carried together, the bags make ${setsText(together)}.</p>` : null}
            </div>
            <div class="row-end">
              <a class="button small" href=${`#/stores/stock/${kit.id}`}>Stock<span class="unseen"> of ${kit.name}</span></a>
              <a class="button small" href=${`#/stores/ways/${kit.id}`}>Ways to cook it<span class="unseen">: ${kit.name}</span></a>
              <a class="button small" href=${`#/stores/print/${kit.id}`}>Pack and label<span class="unseen"> ${kit.name}</span></a>
              <a class="button small" href=${`#/stores/kit/${kit.id}`}>Edit<span class="unseen"> ${kit.name}</span></a>
            </div>
          </li>`;
        })}
    </ul>
    <div class="row-end">
      <button type="button" onClick=${addKit}>Add a kit</button>
      <a class="button" href="#/stores/foods">Own foods</a>
    </div>
    <${LaterPart} title="Share out" load=${LATER.share} props=${{}} />
    <${LaterPart} title="Inspect" load=${LATER.inspect} props=${{}} />
    <${LaterPart} title="Lists, files and backup" load=${LATER.files} props=${{}} />
    ${fault === '' ? null : html`<p class="wrong" role="alert">${fault}</p>`}
  `;
}

/** What lies at places that no household has any more: it is in no plan until it is moved. */
function StrayStock() {
  const page = usePage();
  const booked = useBooked();
  const known = new Set([
    ...page.households.flatMap((one) => one.placeIds),
    ...ownPlaces(page).map((place) => place.id),
  ]);
  const [to] = ownPlaces(page);
  const stray =
    known.size === 0 ? [] : page.stock.totals.filter((lot) => lot.quantity > 1e-9 && !known.has(lot.placeId));
  if (stray.length === 0 || to === undefined) return html`${booked.line}`;
  const bags = stray.reduce((sum, lot) => sum + lot.quantity, 0);
  const name = to.name ?? to.id;
  return html`${booked.line}
    <div class="notice">
      <p>${bagsText(bags)} ${bags === 1 ? 'lies' : 'lie'} at ${listInWords([...new Set(stray.map((lot) => lot.placeId))])}, which no household has any more. Plans do not count them.</p>
      <button
        type="button"
        onClick=${() =>
          booked.book(
            '/api/stock/moves',
            {
              moves: stray.map(({ kitId, partId, packedOn, placeId, quantity }) => ({
                kitId,
                partId,
                packedOn,
                quantity,
                fromPlaceId: placeId,
                toPlaceId: to.id,
              })),
              at: wallClock(new Date()),
            },
            `${bagsText(bags)} moved to: ${name}.`,
          )}
      >
        Move all of it to: ${name}
      </button>
    </div>`;
}
