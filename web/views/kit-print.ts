/** What of a kit is printed: the packing sheet from what is on hand, the card, and the labels. */
import { useEffect, useState } from 'preact/hooks';
import { ServerRefusal } from '../api-client.ts';
import type { Kit, Packing } from '../api-types.ts';
import { ChoiceField, NumberField, TextField } from '../components/fields.ts';
import { foodNameOf } from '../components/food-picker.ts';
import { wallClock } from '../dates.ts';
import { html } from '../html.ts';
import { say } from '../measures.ts';
import { writeNumber } from '../numbers.ts';
import { usePage } from '../page-state.ts';

interface Draft {
  bulk: Record<string, string>;
  sets: number | null;
  bucketL: number;
  bucketShape: 'round' | 'rectangular';
  packedOn: string;
  labelSets: number;
}

const QUIET_MS = 300;

export function KitPrint({ kit }: { kit: Kit }) {
  const page = usePage();
  const key = `draft:print/${kit.id}`;
  const [draft, setDraft] = useState<Draft>(() => readDraft(page.storage.getItem(key)) ?? emptyDraft());
  const [packing, setPacking] = useState<Packing | null>(null);
  const [fault, setFault] = useState('');
  const change = (part: Partial<Draft>) => {
    const next = { ...draft, ...part };
    setDraft(next);
    try {
      page.storage.setItem(key, JSON.stringify(next));
    } catch {
      // Storage may be full or forbidden; the form works all the same.
    }
  };
  const householdId = page.household?.state().body.id;
  const shared = { units: page.units, packedOn: draft.packedOn, ...(householdId === undefined ? {} : { householdId }) };
  const bulk = Object.entries(draft.bulk)
    .filter(([, amount]) => amount.trim() !== '')
    .map(([foodId, amount]) => `${foodId}=${amount}`)
    .join('; ');
  const question = {
    ...shared,
    ...(bulk === '' ? {} : { bulk }),
    ...(draft.sets === null ? {} : { sets: String(draft.sets) }),
    bucketL: String(draft.bucketL),
    bucketShape: draft.bucketShape,
  };
  const sheet = addressOf(`/api/kits/${kit.id}/packing-sheet`, question);
  useEffect(() => {
    let gone = false;
    const timer = setTimeout(() => {
      page.api
        .get<Packing>(`${sheet}&format=json`)
        .then(({ body }) => {
          if (gone) return;
          setPacking(body);
          setFault('');
        })
        .catch((error) => {
          if (gone) return;
          setFault(
            error instanceof ServerRefusal
              ? [error.message, ...error.errors.slice(1).map(({ detail }) => detail)].join(' ')
              : String(error),
          );
        });
    }, QUIET_MS);
    return () => {
      gone = true;
      clearTimeout(timer);
    };
  }, [sheet]);

  const foodIds = [...new Set(kit.parts.flatMap((part) => part.ingredients.map(({ foodId }) => foodId)))];
  return html`
    <p><a href="#/stores">‹ All stores</a></p>
    <h1>Pack and label ${kit.name}</h1>
    <div class="fields">
      <${TextField} label="Packed on" type="date" value=${draft.packedOn} required onValue=${(value: string) => change({ packedOn: value })} />
    </div>
    <h2>Packing sheet</h2>
    <p class="hint">Type what you have, as 25 kg, 2 x 5 kg, 12 x 400 g or 50 lb. What is left empty is bought to fit.</p>
    <div class="fields">
      ${foodIds.map(
        (foodId) =>
          html`<${TextField} key=${foodId} label=${`${foodNameOf(page, foodId)} on hand`} value=${draft.bulk[foodId] ?? ''} onValue=${(value: string) => change({ bulk: { ...draft.bulk, [foodId]: value } })} />`,
      )}
    </div>
    <div class="fields">
      <${NumberField} label="Sets" quantity="count" value=${draft.sets ?? undefined} minimum=${1} maximum=${10000} whenEmpty="as many as it gives" onValue=${(value: number | undefined) => change({ sets: value === undefined ? null : Math.round(value) })} />
      <${NumberField} label="Bucket" quantity="litres" value=${draft.bucketL} minimum=${1} maximum=${250} onValue=${(value: number | undefined) => change({ bucketL: value ?? 19 })} />
      <${ChoiceField} label="Its shape" value=${draft.bucketShape} options=${[
        ['round', 'Round'],
        ['rectangular', 'Rectangular'],
      ]} onValue=${(value: string | undefined) => change({ bucketShape: value === 'rectangular' ? 'rectangular' : 'round' })} />
    </div>
    ${fault === '' ? null : html`<p class="wrong" role="alert">${fault}</p>`}
    ${packing === null || fault !== '' ? null : summary(packing, page.units)}
    <p><a class="button" href=${sheet} target="_blank" rel="noopener">Open the packing sheet to print</a></p>
    <h2>Card and labels</h2>
    <p class="hint">Print by laser or with pigment ink: other ink runs when it gets damp. The card is printed on both sides and lies in the container.</p>
    <div class="fields">
      <${NumberField} label="Labels for how many sets" quantity="count" value=${draft.labelSets} minimum=${0} maximum=${200} onValue=${(value: number | undefined) => change({ labelSets: Math.round(value ?? 1) })} />
    </div>
    <p class="row-end">
      <a class="button" href=${addressOf(`/api/kits/${kit.id}/card`, { ...shared, labelSets: String(draft.labelSets) })} target="_blank" rel="noopener">Open card and labels to print</a>
      <a class="button" href=${addressOf(`/api/kits/${kit.id}/card`, { ...shared, labelSets: String(Math.max(1, draft.labelSets)), card: 'no' })} target="_blank" rel="noopener">Labels only</a>
    </p>
  `;
}

function summary(packing: Packing, units: 'metric' | 'us') {
  const mass = (rows: { name: string; massG: number }[]) =>
    rows.map(({ name, massG }) => `${name} ${say(massG, 'g', units)}`).join(', ');
  const refused = packing.parts.flatMap((part) => part.remarks.filter(({ verdict }) => verdict === 'refused'));
  return html`<section class="answer" aria-label="What comes of it">
    <p><b>${writeNumber(packing.sets, 0)} ${packing.sets === 1 ? 'set' : 'sets'}</b>${packing.limitedBy === null ? '' : `; used up first: ${packing.limitedBy}`}. ${packing.bags.map(({ litres, count }) => `${count} bags of ${say(litres, 'litres', units)}`).join(', ')}${packing.packets.length === 0 ? '' : `; absorbers ${packing.packets.map(({ cc, count }) => `${count} of ${cc} cc`).join(', ')}`}.</p>
    ${packing.leftOver.length === 0 ? null : html`<p>Left over: ${mass(packing.leftOver)}.</p>`}
    ${packing.missing.length === 0 ? null : html`<p>Still to get: ${mass(packing.missing)}.</p>`}
    ${refused.map((remark, index) => html`<p class="wrong" key=${index}>Do not pack it so: ${remark.name}. ${remark.text} ${remark.wayOut}</p>`)}
  </section>`;
}

function addressOf(path: string, query: Record<string, string>): string {
  return `${path}?${new URLSearchParams(query)}`;
}

function emptyDraft(): Draft {
  return {
    bulk: {},
    sets: null,
    bucketL: 19,
    bucketShape: 'round',
    packedOn: wallClock(new Date()).slice(0, 10),
    labelSets: 1,
  };
}

function readDraft(text: string | null): Draft | null {
  if (text === null) return null;
  try {
    return { ...emptyDraft(), ...(JSON.parse(text) as Partial<Draft>) };
  } catch {
    return null;
  }
}
