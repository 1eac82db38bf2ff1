/** What broke or works again, what came, who came or left. */
import { useState } from 'preact/hooks';
import { fuelName } from '../../api/wording/names.ts';
import type { AgeGroup } from '../api-types.ts';
import { ChoiceField, NumberField, TextField } from '../components/fields.ts';
import { html } from '../html.ts';
import { AGE_GROUP_NAMES, wordsOf } from '../names.ts';
import { usePage } from '../page-state.ts';
import type { BookingDesk } from './book.ts';

const EVENTS = {
  broke: 'Something broke',
  mended: 'Something works again',
  fuel: 'Fuel came',
  water: 'Water came',
  guests: 'Guests came',
  'guests-left': 'The guests left',
  away: 'Somebody of the household left',
  back: 'Somebody of the household is back',
} as const;
type EventKind = keyof typeof EVENTS;

export function EventsPart({ desk }: { desk: BookingDesk }) {
  const page = usePage();
  const { plan, booked, book } = desk;
  const [kind, setKind] = useState<EventKind | undefined>(undefined);
  const [draft, setDraft] = useState<Record<string, unknown>>({});
  const set = (field: string) => (value: unknown) => setDraft({ ...draft, [field]: value });
  const { household } = plan.resolved;
  const { outOfUse, people, fuel, water } = booked.state;
  const things = [...(household.stoves ?? []), ...(household.vessels ?? []), ...(household.boxes ?? [])];
  const named = (ids: readonly string[]) =>
    ids.map((id) => [id, things.find((one) => one.id === id)?.name ?? wordsOf(id)] as const);
  const broken = outOfUse.map(({ id }) => id);
  const choices: Record<EventKind, readonly (readonly [string, string])[]> = {
    broke: named(things.map(({ id }) => id).filter((id) => !broken.includes(id))),
    mended: named(broken),
    fuel: fuel.flatMap((row) =>
      row.unit === 'kWh'
        ? []
        : [...new Set(row.containers.map(({ containerId }) => containerId))].map(
            (id) => [`${row.fuelId} ${id}`, `${wordsOf(fuelName(row.fuelId))}, ${wordsOf(id).toLowerCase()}`] as const,
          ),
    ),
    water: water.lots.map(({ lotId }) => [lotId, wordsOf(lotId)] as const),
    guests: Object.entries(AGE_GROUP_NAMES),
    'guests-left': [],
    away: household.people
      .filter(({ label }) => !people.away.includes(label))
      .map(({ label }) => [label, label] as const),
    back: people.away.map((label) => [label, label] as const),
  };
  const options = kind === undefined ? [] : choices[kind];
  const chosen = String(draft.what ?? (kind === 'guests' ? 'adult' : options[0]?.[0]) ?? '');
  const possible = (Object.keys(EVENTS) as EventKind[]).filter((one) =>
    one === 'guests-left' ? people.guests.length > 0 : choices[one].length > 0,
  );
  const kinds = [['', 'Choose'] as const, ...possible.map((one) => [one, EVENTS[one]] as const)];
  const needs = kind === 'fuel' ? 'kg' : kind === 'water' ? 'litres' : null;

  async function send() {
    if (kind === undefined) return;
    if (needs !== null && draft.amount === undefined) {
      page.alarm('Enter how much came.');
      document.querySelector<HTMLInputElement>('#event-form input')?.focus();
      return;
    }
    const [fuelId = '', containerId = ''] = chosen.split(' ');
    const entry = {
      broke: { kind: 'broke' as const, thingId: chosen },
      mended: { kind: 'mended' as const, thingId: chosen },
      fuel: { kind: 'came' as const, fuel: { fuelId, containerId, kg: draft.amount } },
      water: { kind: 'came' as const, water: { lotId: chosen, litres: draft.amount } },
      guests: {
        kind: 'came' as const,
        guests: Array.from({ length: Math.round(Number(draft.count ?? 1)) }, () => ({ ageGroup: chosen as AgeGroup })),
        ...(draft.until === undefined || draft.until === '' ? {} : { until: draft.until }),
      },
      'guests-left': { kind: 'left' as const, guests: 'all' },
      away: { kind: 'left' as const, people: [chosen] },
      back: { kind: 'came' as const, people: [chosen] },
    }[kind];
    setDraft({});
    setKind(undefined);
    document.querySelector<HTMLSelectElement>('#event-form select')?.focus();
    await book(entry, `${EVENTS[kind]}: booked.`);
  }

  return html`<div id="event-form">
    ${
      outOfUse.length === 0
        ? null
        : html`<p>Out of use: ${named(broken)
            .map(([, name]) => name)
            .join(', ')}.</p>`
    }
    ${people.away.length === 0 ? null : html`<p>Away: ${people.away.join(', ')}.</p>`}
    ${people.guests.length === 0 ? null : html`<p>Guests: ${people.guests.reduce((sum, row) => sum + row.guests.length, 0)}.</p>`}
    <div class="fields">
      <${ChoiceField} label="What happened" value=${kind ?? ''} options=${kinds} onValue=${(
        value: string | undefined,
      ) => {
        setKind(value as EventKind | undefined);
        setDraft({});
      }} />
      ${options.length === 0 ? null : html`<${ChoiceField} key=${kind} label=${kind === 'guests' ? 'Of which age' : kind === 'fuel' || kind === 'water' ? 'Into which' : kind === 'away' || kind === 'back' ? 'Who' : 'What'} value=${chosen} options=${options} onValue=${set('what')} />`}
      ${needs === null ? null : html`<${NumberField} key=${kind} label="How much came" quantity=${needs} value=${draft.amount as number | undefined} minimum=${0.001} maximum=${10_000} whenEmpty="" live onValue=${set('amount')} />`}
      ${
        kind !== 'guests'
          ? null
          : html`<${NumberField} label="How many" quantity="count" value=${draft.count as number | undefined} minimum=${1} maximum=${200} whenEmpty=${1} live onValue=${set('count')} />
              <${TextField} label="Last day here" type="date" value=${draft.until as string | undefined} mark=${draft.until === undefined ? 'default: to the end' : undefined} onValue=${set('until')} />`
      }
      ${kind === undefined ? null : html`<button type="button" onClick=${() => void send()}>Book it</button>`}
    </div>
  </div>`;
}
