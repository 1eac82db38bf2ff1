/** Looking the stores through: the list to carry along, and what was found. */
import { useState } from 'preact/hooks';
import { SIGN_WORDS } from '../../api/wording/stock-words.ts';
import type { InspectionSign } from '../api-types.ts';
import { useBooked } from '../components/booked.ts';
import { ChoiceField, NumberField } from '../components/fields.ts';
import { wallClock } from '../dates.ts';
import { html } from '../html.ts';
import { usePage } from '../page-state.ts';
import { ownLots, packedName, placeName } from '../stock-words.ts';

export function InspectPart() {
  const page = usePage();
  const booked = useBooked();
  const [sign, setSign] = useState<InspectionSign>('bulging');
  const [chosen, setChosen] = useState('');
  const [quantity, setQuantity] = useState(1);
  const lots = page.kits
    .flatMap((kit) => ownLots(page, kit).map((lot) => ({ kit, lot })))
    .sort((a, b) => (a.lot.packedOn < b.lot.packedOn ? -1 : a.lot.packedOn > b.lot.packedOn ? 1 : 0))
    .map(({ kit, lot }) => ({
      key: [lot.kitId, lot.partId, lot.placeId, lot.packedOn].join('/'),
      lot,
      name: `${lot.packedOn} ${kit.name}: ${packedName(page, kit, lot.partId)}, ${placeName(page, lot.placeId)}`,
    }));
  const found = lots.find((one) => one.key === chosen) ?? lots[0];
  const householdId = page.household?.state().body.id;
  if (found === undefined || householdId === undefined) return html`<p>Nothing is in store to be looked at.</p>`;
  const words = SIGN_WORDS[sign];
  const { lot } = found;
  async function record() {
    const { kitId, partId, placeId, packedOn } = lot;
    await booked.book(
      '/api/stock/inspections',
      {
        findings: [{ kitId, partId, placeId, packedOn, sign, quantity: Math.min(quantity, lot.quantity) }],
        at: wallClock(new Date()),
      },
      sign === 'no-vacuum'
        ? `This lot is eaten first from now on: ${found?.name}.`
        : `${Math.min(quantity, lot.quantity)} × thrown away (${words.name.toLowerCase()}): ${found?.name}.`,
    );
  }
  return html`
    <p class="hint">Look the stores through twice a year, and after frost, heat or water. Food is never tasted to find out.</p>
    ${booked.line}
    <div class="row-end"><a class="button" href=${`/api/stock/inspection-sheet?householdId=${householdId}`} target="_blank" rel="noopener">List to carry along<span class="unseen"> (opens a new tab)</span></a></div>
    <div class="fields">
      <${ChoiceField} label="Lot, oldest first" value=${found.key} options=${lots.map((one) => [one.key, one.name])} onValue=${(value: string | undefined) => setChosen(value ?? '')} />
      <${ChoiceField} label="Sign" value=${sign} options=${Object.entries(SIGN_WORDS).map(([id, one]) => [id, one.name])} onValue=${(value: string | undefined) => setSign((value ?? 'bulging') as InspectionSign)} />
      <${NumberField} key=${found.key} label="Bags with it" quantity="count" value=${Math.min(quantity, lot.quantity)} minimum=${0.01} maximum=${lot.quantity} onValue=${(value: number | undefined) => setQuantity(value ?? 1)} />
      <div class="row-end"><button type="button" class="main-button" onClick=${record}>Record it</button></div>
    </div>
    <p><b>${words.name}:</b> ${words.look}. ${words.act}</p>
  `;
}
