/** The form for one own test: what was measured, on what, under which conditions. */
import { useState } from 'preact/hooks';
import { fuelName } from '../../api/wording/names.ts';
import { type FieldError, ServerRefusal } from '../api-client.ts';
import type { HouseholdDocument, MeasurementEffect, MeasurementKind } from '../api-types.ts';
import { ChoiceField, NumberField, TextField } from '../components/fields.ts';
import { foodNameOf } from '../components/food-picker.ts';
import { html } from '../html.ts';
import type { Quantity } from '../measures.ts';
import { LID_NAMES, WIND_NAMES, wordsOf } from '../names.ts';
import { type Page, usePage } from '../page-state.ts';
import { choices } from './set-up-part.ts';

export const MEASUREMENT_NAMES: Record<MeasurementKind, string> = {
  'boil-test': 'Boil test',
  'cooling-reading': 'Reading of a box or flask',
  'twenty-bean-test': 'Twenty beans of an old lot',
  'cooking-note': 'Cooking note',
};

/** What is typed, by field of the record; grams and the parts of a lot stand in for the fields that are sent. */
type Draft = Record<string, string | number | undefined>;
type Lot = { key: string; name: string; fields: { kitId: string; partId: string; packedOn: string; foodId: string } };

const DRAFT_KEY = 'draft-measurement';

export function MeasurementForm({
  household,
  onRecorded,
}: {
  household: HouseholdDocument;
  onRecorded: (effect: MeasurementEffect) => void;
}) {
  const page = usePage();
  const [draft, keep] = useState<Draft>(() => JSON.parse(page.storage.getItem(DRAFT_KEY) ?? '{}') as Draft);
  const [errors, setErrors] = useState<FieldError[]>([]);
  const [fault, setFault] = useState<string | null>(null);
  const kind = (draft.kind ?? 'boil-test') as MeasurementKind;
  const lots = lotsOf(page, kind === 'twenty-bean-test');
  const set = (field: string, value: string | number | undefined) => {
    const next = { ...draft, [field]: value };
    page.storage.setItem(DRAFT_KEY, JSON.stringify(next));
    keep(next);
  };
  const record = async () => {
    setErrors([]);
    setFault(null);
    try {
      const { body } = await page.api.post<{ effect: MeasurementEffect }>(
        '/api/measurements',
        recordOf(kind, draft, household, lots),
      );
      page.storage.removeItem(DRAFT_KEY);
      keep({ kind });
      page.announce(body.effect.question ?? 'Recorded.');
      onRecorded(body.effect);
    } catch (error) {
      const refused = error instanceof ServerRefusal ? error : new ServerRefusal(0, String(error));
      setErrors(refused.errors.map((one) => (one.pointer === '#/fuelKg' ? { ...one, pointer: '#/fuelG' } : one)));
      setFault(refused.message);
      page.alarm(refused.message);
    }
  };
  const number = (
    label: string,
    field: string,
    quantity: Quantity,
    most: number,
    own: object = {},
  ) => html`<${NumberField}
    label=${label}
    quantity=${quantity}
    value=${draft[field] as number | undefined}
    minimum=${0}
    maximum=${most}
    pointer=${`#/${field}`}
    errors=${errors}
    onValue=${(value: number | undefined) => set(field, value)}
    ...${own}
  />`;
  const choice = (label: string, field: string, options: [string, string][], whenEmpty?: string) => html`<${ChoiceField}
    label=${label}
    value=${(draft[field] ?? (whenEmpty === undefined ? options[0]?.[0] : undefined)) as string | undefined}
    options=${options}
    whenEmpty=${whenEmpty}
    pointer=${`#/${field}`}
    errors=${errors}
    onValue=${(value: string | undefined) => set(field, value)}
  />`;
  return html`<fieldset>
    <legend>Record a test</legend>
    <div class="fields">
      ${choice('What', 'kind', choices(MEASUREMENT_NAMES))}
      <${TextField} label="When" type="datetime-local" value=${(draft.at as string | undefined) ?? now()} pointer="#/at" errors=${errors} onValue=${(value: string) => set('at', value)} />
      ${kind === 'boil-test' ? boilFields(household, draft, number, choice) : null}
      ${kind === 'cooling-reading' ? coolingFields(household, draft, number, choice) : null}
      ${
        kind === 'twenty-bean-test' || kind === 'cooking-note'
          ? html`${choice(
              'Lot',
              'lot',
              lots.map(({ key, name }) => [key, name]),
            )}
            ${number('Soaked for', 'soakHours', 'hours', 72, { whenEmpty: 'not soaked' })}
            ${number('Soak water', 'soakC', 'temperatureC', 100, { whenEmpty: 'cool' })}
            ${
              kind === 'cooking-note'
                ? html`${number('Boiled after', 'boiledAfterMinutes', 'minutes', 1440, { hint: 'from putting the pot on' })}
                  ${number('Soft after', 'softAfterMinutes', 'minutes', 2880, { hint: 'from putting the pot on' })}`
                : html`${number('Time at the boil', 'minutes', 'minutes', 1440)}
                  ${number('Soft, of twenty', 'soft', 'count', 20)}`
            }`
          : null
      }
    </div>
    ${fault === null ? null : html`<p class="notice" role="alert">${fault}</p>`}
    <button type="button" onClick=${record}>Record it</button>
  </fieldset>`;
}

type NumberOf = (label: string, field: string, quantity: Quantity, most: number, own?: object) => unknown;
type ChoiceOf = (label: string, field: string, options: [string, string][], whenEmpty?: string) => unknown;

function boilFields(household: HouseholdDocument, draft: Draft, number: NumberOf, choice: ChoiceOf) {
  const stoves = household.stoves ?? [];
  const stove = stoves.find(({ id }) => id === draft.stoveId) ?? stoves[0];
  const fuelIds = stove?.fuelIds ?? [];
  const electric = (draft.fuelId ?? fuelIds[0]) === 'electricity';
  const pots = (household.vessels ?? []).filter(({ kind }) => kind === 'pot' || kind === 'pressure-cooker');
  return html`
    ${choice(
      'Stove',
      'stoveId',
      stoves.map((one) => [one.id, one.name ?? wordsOf(one.id)]),
    )}
    ${
      fuelIds.length > 1
        ? choice(
            'Fuel',
            'fuelId',
            fuelIds.map((id) => [id, wordsOf(fuelName(id))]),
          )
        : null
    }
    ${choice(
      'Pot',
      'vesselId',
      pots.map((one) => [one.id, one.name ?? wordsOf(one.id)]),
    )}
    ${number('Water', 'litres', 'litres', 100)}
    ${number('Water at the start', 'startC', 'temperatureC', 90)}
    ${electric ? number('Electricity used', 'kWh', 'kWh', 50) : number('Fuel burnt', 'fuelG', 'g', 50_000, { hint: 'weighed before and after' })}
    ${number('Until it boiled', 'minutes', 'minutes', 600, { hint: 'from lighting' })}
    ${number('Air at the flame', 'airC', 'temperatureC', 60, { minimum: -50, whenEmpty: 'as in the set-up' })}
    ${choice('Wind', 'wind', choices(WIND_NAMES), 'as in the set-up')}
    ${choice('Lid', 'lid', choices(LID_NAMES), 'as the pot has it')}
  `;
}

function coolingFields(household: HouseholdDocument, draft: Draft, number: NumberOf, choice: ChoiceOf) {
  const vessels = household.vessels ?? [];
  const things = thingsThatKeepHeat(household);
  const box = household.boxes?.find(({ id }) => `box ${id}` === (draft.thing ?? things[0]?.[0]));
  return html`
    ${choice('What was read', 'thing', things)}
    ${
      box === undefined
        ? null
        : choice(
            'Pot in it',
            'vesselId',
            vessels.filter(({ id }) => box.fits.includes(id)).map((one) => [one.id, one.name ?? wordsOf(one.id)]),
          )
    }
    ${number('Filled with', 'fillL', 'litres', 100)}
    ${number('At the start', 'startC', 'temperatureC', 100)}
    ${number('Left for', 'hours', 'hours', 72)}
    ${number('Then it had', 'temperatureC', 'temperatureC', 100)}
    ${number('Room', 'airC', 'temperatureC', 60, { minimum: -50, whenEmpty: 'as in the set-up' })}
  `;
}

function thingsThatKeepHeat({ boxes = [], vessels = [] }: HouseholdDocument): [string, string][] {
  return [
    ...boxes.map((box): [string, string] => [`box ${box.id}`, box.name ?? wordsOf(box.id)]),
    ...vessels
      .filter(({ kind }) => kind === 'flask')
      .map((flask): [string, string] => [`flask ${flask.id}`, flask.name ?? wordsOf(flask.id)]),
  ];
}

/** Lots of foods that boil, oldest first; for seeds tried one by one, pulses only. */
function lotsOf(page: Page, pulsesOnly: boolean): Lot[] {
  const found = new Map<string, Lot>();
  for (const { kitId, partId, packedOn, quantity } of page.stock.totals) {
    if (quantity <= 0) continue;
    const kit = page.kits.find(({ id }) => id === kitId);
    for (const { foodId } of kit?.parts.find(({ id }) => id === partId)?.ingredients ?? []) {
      const food = page.tables.foods.find(({ id }) => id === foodId);
      const boils = (food?.kinetics as { kind?: string } | undefined)?.kind === 'boil' && food?.seasoning !== true;
      if (!boils || (pulsesOnly && food?.group !== 'pulse')) continue;
      const key = [kitId, partId, packedOn, foodId].join(' ');
      const name = `${packedOn}: ${foodNameOf(page, foodId)}, ${kit?.name ?? wordsOf(kitId)}`;
      found.set(key, { key, name, fields: { kitId, partId, packedOn, foodId } });
    }
  }
  return [...found.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** The record as it is sent. What is left open stays away, so that the refusal names it. */
function recordOf(kind: MeasurementKind, draft: Draft, household: HouseholdDocument, lots: readonly Lot[]): object {
  const base = { kind, householdId: household.id, at: draft.at ?? now() };
  const given = (...fields: string[]) =>
    Object.fromEntries(fields.flatMap((field) => (draft[field] === undefined ? [] : [[field, draft[field]]])));
  if (kind === 'boil-test') {
    const stove = household.stoves?.find(({ id }) => id === draft.stoveId) ?? household.stoves?.[0];
    const pot = (household.vessels ?? []).find((one) => one.kind === 'pot' || one.kind === 'pressure-cooker');
    const fuelId = stove?.fuelIds.find((id) => id === draft.fuelId) ?? stove?.fuelIds[0];
    const grams = draft.fuelG as number | undefined;
    return {
      ...base,
      stoveId: stove?.id,
      fuelId,
      vesselId: draft.vesselId ?? pot?.id,
      ...(fuelId === 'electricity' ? given('kWh') : grams === undefined ? {} : { fuelKg: grams / 1000 }),
      ...given('litres', 'startC', 'minutes', 'airC', 'wind', 'lid'),
    };
  }
  if (kind === 'cooling-reading') {
    const thing = String(draft.thing ?? thingsThatKeepHeat(household)[0]?.[0] ?? '');
    const box = household.boxes?.find(({ id }) => `box ${id}` === thing);
    const vesselId =
      box === undefined ? thing.replace('flask ', '') : (box.fits.find((id) => id === draft.vesselId) ?? box.fits[0]);
    return {
      ...base,
      vesselId,
      ...(box === undefined ? {} : { boxId: box.id }),
      ...given('fillL', 'startC', 'hours', 'temperatureC', 'airC'),
    };
  }
  const lot = lots.find(({ key }) => key === draft.lot) ?? lots[0];
  const soakHours = draft.soakHours as number | undefined;
  const soak =
    soakHours === undefined || soakHours === 0 ? {} : { soak: { hours: soakHours, waterC: draft.soakC ?? COOL_C } };
  const fields = kind === 'cooking-note' ? given('boiledAfterMinutes', 'softAfterMinutes') : given('minutes', 'soft');
  return { ...base, ...lot?.fields, ...soak, ...fields };
}

/** Soak water where it is not said. */
const COOL_C = 15;

/** The wall clock of this device, to the minute. */
function now(): string {
  const here = new Date();
  return new Date(here.getTime() - here.getTimezoneOffset() * 60_000).toISOString().slice(0, 16);
}
