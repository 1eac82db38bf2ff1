/** The stock of one kit: sets at each place, lots with their counts, what can be booked, and what was. */
import { useState } from 'preact/hooks';
import { setsText } from '../../api/wording/stock-words.ts';
import type { Kit, SetsAtPlace, StockEntry, StockLot, StockReason } from '../api-types.ts';
import { type Booked, useBooked } from '../components/booked.ts';
import { ChoiceField, NumberField, TextField } from '../components/fields.ts';
import { LaterPart } from '../components/later-part.ts';
import { wallClock } from '../dates.ts';
import { html } from '../html.ts';
import { usePage } from '../page-state.ts';
import { ownLots, ownPlaces, ownSets, packedName, packedParts, placeName, setsSentence } from '../stock-words.ts';

const loadLedger = () => import('./stock-ledger.ts').then((part) => part.KitLedger);

export function StockOfKit({ kit }: { kit: Kit }) {
  const page = usePage();
  const booked = useBooked();
  const lots = ownLots(page, kit);
  const rows = ownSets(page, kit);
  return html`
    <p><a href="#/stores">‹ All stores</a></p>
    <h1>${kit.name}: stock</h1>
    ${booked.line}
    ${rows.length === 0 ? html`<p>Nothing of it is in store.</p>` : null}
    ${rows.map((row) => html`<${PlaceStock} key=${row.placeId} kit=${kit} row=${row} lots=${lots.filter((lot) => lot.placeId === row.placeId)} booked=${booked} />`)}
    ${cardLinks(page.units, page.household?.state().body.id, kit, lots)}
    <${AddPacked} kit=${kit} booked=${booked} />
    <${LaterPart} title="What was booked" load=${loadLedger} props=${{ kit, booked }} />
  `;
}

/** Cards to print for what lies there, one for each packing date. */
function cardLinks(units: string, householdId: string | undefined, kit: Kit, lots: StockLot[]) {
  const dates = [...new Set(lots.map((lot) => lot.packedOn))].sort();
  if (dates.length === 0) return null;
  return html`<p>Card and labels to print, packed ${dates.map((packedOn, index) => {
    const query = new URLSearchParams({ packedOn, units, ...(householdId === undefined ? {} : { householdId }) });
    return html`${index === 0 ? '' : ', '}<a key=${packedOn} href=${`/api/kits/${kit.id}/card?${query}`} target="_blank" rel="noopener">${packedOn}</a>`;
  })}.</p>`;
}

/** ", keeps to 2027-02-11 for its dried onion; boils 30 % longer, up to 70 %": what age does to a lot. */
function ageInWords({ age }: StockLot, partName: string): string {
  if (age == null) return '';
  const over = age.keepsUntil < wallClock(new Date()).slice(0, 10);
  const what = age.limitedBy === partName ? '' : ` (${age.limitedBy})`;
  const keeps = `, ${over ? 'kept' : 'keeps'} its quality to ${age.keepsUntil}${what}${over ? ': smell it first' : ''}`;
  const more = (factor: number): number => Math.round(((factor - 1) * 100) / 5) * 5;
  if (age.longerBoil === null || more(age.longerBoil.p50) < 10) return keeps;
  return `${keeps}; boils about ${more(age.longerBoil.p50)} % longer, up to ${more(age.longerBoil.p90)} %`;
}

const SET_REASONS = [
  ['eaten', 'One set was eaten'],
  ['lost', 'One set was lost'],
  ['thrown-away', 'Throw one set away'],
] as const;

function PlaceStock({ kit, row, lots, booked }: { kit: Kit; row: SetsAtPlace; lots: StockLot[]; booked: Booked }) {
  const page = usePage();
  const at = () => wallClock(new Date());
  const here = placeName(page, row.placeId);
  const takeSet = (reason: StockReason, said: string) =>
    booked.book(
      '/api/stock/entries',
      {
        entries: oneSet(kit, row).map(({ placeId: _same, ...take }) => ({
          kitId: kit.id,
          placeId: row.placeId,
          ...take,
          quantity: -take.quantity,
          reason,
          at: at(),
        })),
      },
      `${said}, ${here}.`,
    );
  const others = ownPlaces(page).filter((place) => place.id !== row.placeId);
  return html`<fieldset>
    <legend>${here}: ${setsText(row.sets)}</legend>
    <p>${setsSentence(page, kit, row)}</p>
    <div class="fields">
      ${lots.map((lot) => {
        const name = packedName(page, kit, lot.partId);
        return html`<${NumberField}
          key=${`${lot.partId} ${lot.packedOn} ${lot.quantity}`}
          label=${`${name}: bags counted`}
          hint=${`Packed ${lot.packedOn}${lot.useBy === null ? '' : `, use by ${lot.useBy}`}${lot.useFirst === true ? ', use first' : ''}${ageInWords(lot, name)}`}
          quantity="count"
          value=${lot.quantity}
          minimum=${0}
          maximum=${10000}
          onValue=${(counted: number | undefined) => {
            if (counted === undefined || counted === lot.quantity) return;
            const { kitId, partId, placeId, packedOn } = lot;
            void booked.book(
              '/api/stock/counts',
              { counts: [{ kitId, partId, placeId, packedOn, counted }], at: at() },
              `${name} counted: ${counted} instead of ${lot.quantity}.`,
            );
          }}
        />`;
      })}
    </div>
    ${
      row.sets === 0
        ? null
        : html`<div class="row-end">
            ${SET_REASONS.map(
              ([reason, words]) =>
                html`<button type="button" class="small" onClick=${() => takeSet(reason, words)}>${words}<span class="unseen"> (${here})</span></button>`,
            )}
            ${others.map(
              (place) => html`<button
                type="button"
                class="small"
                onClick=${() =>
                  booked.book(
                    '/api/stock/moves',
                    {
                      moves: oneSet(kit, row).map(({ partId, packedOn, quantity }) => ({
                        kitId: kit.id,
                        partId,
                        packedOn,
                        quantity,
                        fromPlaceId: row.placeId,
                        toPlaceId: place.id,
                      })),
                      at: at(),
                    },
                    `One set moved: ${here} to ${place.name ?? place.id}.`,
                  )}
              >
                Move one set: ${here} to ${place.name ?? place.id}
              </button>`,
            )}
          </div>`
    }
    <${SomeBags} kit=${kit} lots=${lots} booked=${booked} />
  </fieldset>`;
}

/** The bags of the set that is used next. */
function oneSet(kit: Kit, row: SetsAtPlace): SetsAtPlace['leftOver'] {
  const first = row.alike[0];
  if (first === undefined) return [];
  return kit.parts.flatMap((part) => {
    let wanted = part.containersPerSet ?? 1;
    // A part that stands in begins with the id of the part.
    const own = first.takes.filter((take) => take.partId === part.id || take.partId.startsWith(`${part.id}-with-`));
    return own.flatMap((take) => {
      const quantity = Math.min(wanted, take.quantity);
      wanted -= quantity;
      return quantity > 1e-9 ? [{ ...take, quantity }] : [];
    });
  });
}

/** Some bags of one lot: moved, thrown away, lost, eaten, opened. */
function SomeBags({ kit, lots, booked }: { kit: Kit; lots: StockLot[]; booked: Booked }) {
  const page = usePage();
  const [chosen, setChosen] = useState('0');
  const [what, setWhat] = useState('thrown-away');
  const [quantity, setQuantity] = useState(1);
  const lot = lots[Number(chosen)] ?? lots[0];
  if (lot === undefined) return null;
  const others = ownPlaces(page).filter((place) => place.id !== lot.placeId);
  const options: [string, string][] = [
    ['thrown-away', 'Throw away'],
    ['lost', 'Lost'],
    ['eaten', 'Eaten'],
    ['opened', 'Opened, for something else'],
    ...others.map((place): [string, string] => [`to:${place.id}`, `Move to: ${place.name ?? place.id}`]),
  ];
  const here = placeName(page, lot.placeId);
  async function book() {
    if (lot === undefined) return;
    const { kitId, partId, placeId, packedOn } = lot;
    const at = wallClock(new Date());
    const words = options.find(([id]) => id === what)?.[1] ?? what;
    const said = `${words}: ${quantity} × ${packedName(page, kit, partId)}, packed ${packedOn}.`;
    if (what.startsWith('to:'))
      await booked.book(
        '/api/stock/moves',
        { moves: [{ kitId, partId, packedOn, fromPlaceId: placeId, toPlaceId: what.slice(3), quantity }], at },
        said,
      );
    else
      await booked.book(
        '/api/stock/entries',
        { entries: [{ kitId, partId, placeId, packedOn, quantity: -quantity, reason: what, at }] },
        said,
      );
  }
  return html`<details class="more">
    <summary>Some bags of one lot<span class="unseen"> (${here})</span></summary>
    <div class="fields">
      <${ChoiceField}
        label="Lot"
        value=${String(lots.indexOf(lot))}
        options=${lots.map((one, index) => [String(index), `${packedName(page, kit, one.partId)}, ${one.packedOn}`])}
        onValue=${(value: string | undefined) => setChosen(value ?? '0')}
      />
      <${NumberField} label="Bags" quantity="count" value=${quantity} minimum=${0.01} maximum=${lot.quantity} onValue=${(value: number | undefined) => setQuantity(value ?? 1)} />
      <${ChoiceField} label="What with them" value=${what} options=${options} onValue=${(value: string | undefined) => setWhat(value ?? 'thrown-away')} />
      <div class="row-end"><button type="button" onClick=${book}>Book it<span class="unseen"> (${here})</span></button></div>
    </div>
  </details>`;
}

/** What was packed: whole sets, or bags of one part. */
function AddPacked({ kit, booked }: { kit: Kit; booked: Booked }) {
  const page = usePage();
  const places = ownPlaces(page);
  const [quantity, setQuantity] = useState(1);
  const [partId, setPartId] = useState('');
  const [placeId, setPlaceId] = useState(places[0]?.id ?? '');
  const [packedOn, setPackedOn] = useState(() => wallClock(new Date()).slice(0, 10));
  const parts = packedParts(page, kit);
  const part = parts.find((one) => one.id === partId);
  const where = placeId || places[0]?.id || 'home';
  async function add() {
    const at = wallClock(new Date());
    const entry = (id: string, count: number): Omit<StockEntry, 'id'> => ({
      kitId: kit.id,
      partId: id,
      placeId: where,
      packedOn,
      quantity: count,
      reason: 'packed',
      at,
    });
    const entries =
      part === undefined
        ? kit.parts.map((one) => entry(one.id, quantity * (one.containersPerSet ?? 1)))
        : [entry(part.id, quantity)];
    const what = part === undefined ? setsText(quantity) : `${quantity} × ${part.name}`;
    await booked.book('/api/stock/entries', { entries }, `${what} packed ${packedOn} added.`);
  }
  return html`<fieldset>
    <legend>Add what was packed</legend>
    <div class="fields">
      <${ChoiceField}
        label="What"
        value=${partId}
        whenEmpty=${undefined}
        options=${[['', 'Whole sets'], ...parts.map((one) => [one.id, `Bags: ${one.name}`])]}
        onValue=${(value: string | undefined) => setPartId(value ?? '')}
      />
      <${NumberField} label=${part === undefined ? 'Sets' : 'Bags'} quantity="count" value=${quantity} minimum=${1} maximum=${1000} onValue=${(value: number | undefined) => setQuantity(Math.round(value ?? 1))} />
      <${TextField} label="Packed on" type="date" value=${packedOn} required onValue=${setPackedOn} />
      ${
        places.length < 2
          ? null
          : html`<${ChoiceField} label="Place" value=${where} options=${places.map((place) => [place.id, place.name ?? place.id])} onValue=${(value: string | undefined) => setPlaceId(value ?? '')} />`
      }
      <div class="row-end">
        <button type="button" class="main-button" onClick=${add}>Add to the store</button>
      </div>
    </div>
  </fieldset>`;
}
