/** What is in store, kit by kit, and what can be done with it. */
import { useState } from 'preact/hooks';
import { ServerRefusal } from '../api-client.ts';
import type { Kit, StockEntry, StockLot, StockReason } from '../api-types.ts';
import { ErrorSummary, NumberField, TextField } from '../components/fields.ts';
import { Later } from '../components/later.ts';
import { wallClock } from '../dates.ts';
import { html } from '../html.ts';
import { newIdFrom, REASON_NAMES, SLOT_NAMES, STYLE_NAMES } from '../names.ts';
import { writeNumber } from '../numbers.ts';
import { type Page, usePage } from '../page-state.ts';
import { DishOptions } from './dish-options.ts';

/** Parts that come when they are first asked for. */
const LATER = {
  editor: () => import('./kit-editor.ts').then((part) => part.KitEditor),
  foods: () => import('./own-foods.ts').then((part) => part.OwnFoodsView),
  print: () => import('./kit-print.ts').then((part) => part.KitPrint),
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

/** Whole sets of a kit at a place and packing date: the part with the fewest containers decides. */
export function setsInLot(kit: Kit, lots: readonly StockLot[]): number {
  return Math.min(
    ...kit.parts.map((part) => {
      const held = lots.filter((lot) => lot.partId === part.id).reduce((sum, lot) => sum + lot.quantity, 0);
      return Math.floor(held / (part.containersPerSet ?? 1) + 1e-9);
    }),
  );
}

/** The lots of a kit by packing date and place, oldest first. */
function lotsOf(page: Page, kit: Kit): { key: string; packedOn: string; placeId: string; lots: StockLot[] }[] {
  const groups = new Map<string, StockLot[]>();
  const places = page.household?.state().body.places.map((place) => place.id);
  for (const lot of page.stock.totals) {
    // What lies at the places of another household is not this one's.
    if (lot.kitId !== kit.id || !(places?.includes(lot.placeId) ?? true)) continue;
    const key = `${lot.packedOn} ${lot.placeId}`;
    groups.set(key, [...(groups.get(key) ?? []), lot]);
  }
  return [...groups]
    .sort(([a], [b]) => a.localeCompare(b))
    .map(([key, lots]) => ({ key, packedOn: lots[0]?.packedOn ?? '', placeId: lots[0]?.placeId ?? '', lots }));
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
    <p class="hint">A set is all parts of a kit once. What is in store is the sum of what was packed, counted and taken.</p>
    ${page.kits.length === 0 ? html`<p>No kits are stored yet. A kit is the recipe of one dish that is packed dry; add one, or <a href="#/first-minutes">begin with ready-made ones</a>.</p>` : null}
    <ul class="kit-list">
      ${[...page.kits]
        .sort((a, b) => a.name.localeCompare(b.name))
        .map((kit) => {
          const lots = lotsOf(page, kit);
          const sets = lots.reduce((sum, lot) => sum + Math.max(0, setsInLot(kit, lot.lots)), 0);
          return html`<li class="kit" key=${kit.id}>
            <span class="kit-count">${sets} ${sets === 1 ? 'set' : 'sets'}</span>
            <div class="kit-name">
              <h2>${kit.name}</h2>
              <p class="hint">
                ${STYLE_NAMES[kit.style]}, ${writeNumber(kit.servings)} servings a set, for ${kit.suits.map((slot) => SLOT_NAMES[slot].toLowerCase()).join(' or ')}.
                ${lots.length === 0 ? 'None in store.' : ` Packed ${lots.map((lot) => `${lot.packedOn}: ${setsInLot(kit, lot.lots)}`).join(', ')}.`}
              </p>
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
    ${fault === '' ? null : html`<p class="wrong" role="alert">${fault}</p>`}
  `;
}

function newEntryId(): string {
  return `entry-${crypto.randomUUID()}`;
}

function StockOfKit({ kit }: { kit: Kit }) {
  const page = usePage();
  const today = wallClock(new Date());
  const [sets, setSets] = useState(1);
  const [packedOn, setPackedOn] = useState(today.slice(0, 10));
  const [fault, setFault] = useState<ServerRefusal | null>(null);
  const placeId = page.household?.state().body.places[0]?.id ?? 'home';
  const [last, setLast] = useState<{ label: string; entries: StockEntry[] } | null>(null);

  async function append(entries: StockEntry[], label: string) {
    try {
      for (const entry of entries) await page.api.post('/api/stock', entry);
      setFault(null);
      setLast(label.startsWith('Undone') ? null : { label, entries });
      page.announce(label);
    } catch (error) {
      if (!(error instanceof ServerRefusal)) throw error;
      setFault(error);
      page.alarm(error.message);
    }
    await page.reloadStores();
  }
  const entry = (
    partId: string,
    lot: { packedOn: string; placeId: string },
    quantity: number,
    reason: StockReason,
  ): StockEntry => ({
    id: newEntryId(),
    kitId: kit.id,
    partId,
    placeId: lot.placeId,
    packedOn: lot.packedOn,
    quantity,
    reason,
    at: wallClock(new Date()),
  });
  const allParts = (lot: { packedOn: string; placeId: string }, setCount: number, reason: StockReason) =>
    kit.parts.map((part) => entry(part.id, lot, setCount * (part.containersPerSet ?? 1), reason));

  return html`
    <p><a href="#/stores">‹ All stores</a></p>
    <h1>${kit.name}: stock</h1>
    ${fault === null ? null : html`<${ErrorSummary} title=${fault.message} errors=${fault.errors} />`}
    ${
      last === null
        ? null
        : html`<div class="save-line">
            <p>${last.label}</p>
            <button
              type="button"
              class="small"
              onClick=${() =>
                append(
                  last.entries.map((one) => ({
                    ...one,
                    id: newEntryId(),
                    quantity: -one.quantity,
                    reason: 'undo' as const,
                    at: wallClock(new Date()),
                  })),
                  `Undone: ${last.label}`,
                )}
            >
              Undo
            </button>
          </div>`
    }
    ${lotsOf(page, kit).map(
      (group) => html`<fieldset key=${group.key}>
        <legend>Packed ${group.packedOn}: ${setsInLot(kit, group.lots)} sets</legend>
        <div class="fields">
          ${kit.parts.map((part) => {
            const held = group.lots.filter((lot) => lot.partId === part.id).reduce((sum, lot) => sum + lot.quantity, 0);
            return html`<${NumberField}
              key=${`${part.id} ${held}`}
              label=${`${part.name}: containers counted`}
              quantity="count"
              value=${held}
              minimum=${0}
              maximum=${10000}
              onValue=${(counted: number | undefined) => {
                const change = (counted ?? held) - held;
                if (change !== 0)
                  void append(
                    [entry(part.id, group, change, 'counted')],
                    `${part.name} counted: ${counted} instead of ${held}.`,
                  );
              }}
            />`;
          })}
        </div>
        <div class="row-end">
          ${(['eaten', 'lost', 'thrown-away'] as const).map(
            (
              reason,
            ) => html`<button type="button" class="small" onClick=${() => append(allParts(group, -1, reason), `One set ${(REASON_NAMES[reason] ?? reason).toLowerCase()}.`)}>
              One set ${(REASON_NAMES[reason] ?? reason).toLowerCase()}
            </button>`,
          )}
        </div>
      </fieldset>`,
    )}
    <fieldset>
      <legend>Add what was packed</legend>
      <div class="fields">
        <${NumberField} label="Sets" quantity="count" value=${sets} minimum=${1} maximum=${1000} onValue=${(value: number | undefined) => setSets(Math.round(value ?? 1))} />
        <${TextField} label="Packed on" type="date" value=${packedOn} required onValue=${setPackedOn} />
        <div class="row-end">
          <button type="button" class="main-button" onClick=${() => append(allParts({ packedOn, placeId }, sets, 'packed'), `${sets} ${sets === 1 ? 'set' : 'sets'} packed ${packedOn} added.`)}>Add to the store</button>
        </div>
      </div>
    </fieldset>
  `;
}
