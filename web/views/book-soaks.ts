/** What lies in water, what is under way in pot, box or flask, and until when each is safe. */
import { useState } from 'preact/hooks';
import { thingName } from '../../api/wording/names.ts';
import { addMinutes } from '../../api/wording/times.ts';
import type { DishUnderWay, SoakNow } from '../api-types.ts';
import { kitWords } from '../booking-words.ts';
import { ChoiceField, NumberField } from '../components/fields.ts';
import { useKeptNumber } from '../components/kept-state.ts';
import { clockOn } from '../dates.ts';
import { html } from '../html.ts';
import { wordsOf } from '../names.ts';
import { writeShort } from '../numbers.ts';
import { usePage } from '../page-state.ts';
import type { BookingDesk } from './book.ts';

export function SoaksPart({ desk }: { desk: BookingDesk }) {
  const { soaks, underWay } = desk.booked.state;
  return html`${
    soaks.length + underWay.length === 0
      ? html`<p>Nothing is in water, and nothing is cooking.</p>`
      : html`<ul class="kit-list">
          ${soaks.map((soak) => html`<${SoakRow} key=${soak.id} desk=${desk} soak=${soak} />`)}
          ${underWay.map((dish) => html`<${DishRow} key=${dish.cookingId} desk=${desk} dish=${dish} />`)}
        </ul>`
  }
  <${SoakForm} desk=${desk} />
  <${TriedForm} desk=${desk} />`;
}

/** The pressed button goes with its line; the heading takes the focus. */
function focusing({ book }: BookingDesk): BookingDesk['book'] {
  return async (entry, said) => {
    const done = await book(entry, said);
    if (done) document.getElementById('water-title')?.focus();
    return done;
  };
}

function SoakRow({ desk, soak }: { desk: BookingDesk; soak: SoakNow }) {
  const { plan, now } = desk;
  const book = focusing(desk);
  const name = kitWords(plan, soak.kitId);
  const late = soak.hours > soak.limitHours;
  const end = (result: string, label: string, said: string) =>
    html`<button type="button" onClick=${() => void book({ kind: 'soak-drained', of: soak.id, result }, `${name}: ${said}.`)}>${label}<span class="unseen"> ${name}</span></button>`;
  return html`<li class="kit">
    <div class="kit-name">
      <p><strong>${name}</strong>${soak.batches === 1 ? '' : `, ${writeShort(soak.batches)} sets`}, in water in the ${thingName(plan.resolved.household, soak.vesselId)} since ${clockOn(soak.since, now)}${soak.assumed ? ' by the plan; nobody has booked it' : ''}.</p>
      <p class=${late ? 'wrong' : 'hint'}>${late ? html`<span aria-hidden="true">⚠ </span>Longer than is safe: throw it away.` : `${writeShort(soak.hours)} h so far. It must boil by ${clockOn(soak.safeUntil, now)}.`}</p>
    </div>
    <div class="row-end">
      ${end('cooked', 'Into the pot', 'drained')} ${end('thrown-away', 'Thrown away', 'thrown away')}
      ${soak.assumed ? end('not-set', 'Never put to soak', 'not in water') : null}
    </div>
  </li>`;
}

function DishRow({ desk, dish }: { desk: BookingDesk; dish: DishUnderWay }) {
  const { plan, now } = desk;
  const book = focusing(desk);
  const { household } = plan.resolved;
  const name = kitWords(plan, dish.kitId);
  const late = dish.safeUntil < now;
  const isKept = dish.boxId !== null || dish.flaskId !== null;
  const [temperatureC, setTemperatureC] = useState<number | undefined>(undefined);
  const where = isKept
    ? `in the ${thingName(household, dish.boxId ?? dish.flaskId)}`
    : dish.vesselId === null
      ? 'in cold water'
      : `in the ${thingName(household, dish.vesselId)}`;
  return html`<li class="kit">
    <div class="kit-name">
      <p><strong>${name}</strong>, ${where} since ${clockOn(dish.since, now)}.</p>
      <p class=${late ? 'wrong' : 'hint'}>${late ? html`<span aria-hidden="true">⚠ </span>It was safe until ${clockOn(dish.safeUntil, now)}: throw it away.` : `Eat it by ${clockOn(dish.safeUntil, now)}.`}</p>
    </div>
    <div class="row-end">
      <button type="button" onClick=${() => void book({ kind: 'box-opened', of: dish.cookingId, result: 'thrown-away' }, `${name}: thrown away.`)}>Thrown away<span class="unseen"> ${name}</span></button>
    </div>
    ${
      isKept
        ? html`<div class="fields whole-row">
            <${NumberField} label="A thermometer in it shows" quantity="temperatureC" value=${temperatureC} minimum=${-5} maximum=${100} whenEmpty="" live onValue=${setTemperatureC} />
            <button type="button" onClick=${async () => {
              if (temperatureC === undefined) return;
              setTemperatureC(undefined);
              await book({ kind: 'box-read', of: dish.cookingId, temperatureC }, `${name}: booked.`);
            }}>Book<span class="unseen"> the temperature of ${name}</span></button>
          </div>`
        : null
    }
  </li>`;
}

/** Food that was put to soak, planned or not. */
function SoakForm({ desk }: { desk: BookingDesk }) {
  const { plan, book } = desk;
  const [open, setOpen] = useState(false);
  const kits = plan.resolved.kits.filter((kit) => kit.parts.some(({ soakable }) => soakable));
  const bowls = (plan.resolved.household.vessels ?? []).filter(({ kind }) => kind !== 'flask');
  const inOrder = [...bowls].sort((a, b) => Number(b.kind === 'soak-bowl') - Number(a.kind === 'soak-bowl'));
  const [kitId, setKitId] = useState(kits[0]?.id);
  const [vesselId, setVesselId] = useState(inOrder[0]?.id);
  const [batches, setBatches] = useState<number | undefined>(undefined);
  const [temperatureC, setTemperatureC] = useState<number | undefined>(undefined);
  if (kits.length === 0 || bowls.length === 0) return null;
  if (!open)
    return html`<p><button type="button" onClick=${() => setOpen(true)}>Something was put to soak</button></p>`;
  return html`<fieldset>
    <legend>Put to soak</legend>
    <div class="fields">
      <${ChoiceField} label="What" value=${kitId} options=${kits.map(({ id, name }) => [id, name] as const)} onValue=${setKitId} />
      <${ChoiceField} label="In" value=${vesselId} options=${inOrder.map(({ id, name }) => [id, name ?? wordsOf(id)] as const)} onValue=${setVesselId} />
      <${NumberField} label="Sets" quantity="count" value=${batches} minimum=${0.1} maximum=${100} whenEmpty=${1} live onValue=${setBatches} />
      <${NumberField} label="The water" quantity="temperatureC" value=${temperatureC} minimum=${-5} maximum=${100} whenEmpty="as the room" live onValue=${setTemperatureC} />
      <button type="button" onClick=${async () => {
        setOpen(false);
        await book(
          {
            kind: 'soak-set',
            kitId,
            vesselId,
            ...(batches === undefined ? {} : { batches }),
            ...(temperatureC === undefined ? {} : { temperatureC }),
          },
          `${kitWords(plan, kitId)}: in water.`,
        );
      }}>Book the soak</button>
    </div>
  </fieldset>`;
}

/** A dish that was tried stays in the list this long after it went on, minutes. */
const TRIED_MINUTES = 2880;

/** A dish was tried: just soft, or not soft yet. The rest of the plan learns from it. */
function TriedForm({ desk }: { desk: BookingDesk }) {
  const page = usePage();
  const { plan, now, book } = desk;
  const [minutes, setMinutes] = useKeptNumber(`${plan.id}:tried`);
  const [open, setOpen] = useState(minutes !== undefined);
  const [of, setOf] = useState<string | undefined>(undefined);
  const [foodId, setFoodId] = useState<string | undefined>(undefined);
  const softening = (kitId: string) => {
    const kit = plan.resolved.kits.find(({ id }) => id === kitId);
    const ids = new Set(
      (kit?.parts ?? []).flatMap(({ ingredients }) => ingredients.map((one) => one.foodId as string)),
    );
    return page.tables.foods.filter(
      ({ id, kinetics, seasoning }) =>
        ids.has(id) && (kinetics as { kind?: string })?.kind === 'boil' && seasoning !== true,
    );
  };
  const carried = (plan.continues?.underWay ?? []).flatMap((dish) => dish.cooking ?? []);
  const dishes = [...carried, ...plan.cookings]
    .filter(({ startsAt }) => startsAt <= now && startsAt >= addMinutes(now, -TRIED_MINUTES))
    .filter(
      ({ kitId, method }) => method.finish !== 'no-heat' && method.heatToC === undefined && softening(kitId).length > 0,
    )
    .reverse();
  const [first] = dishes;
  if (first === undefined) return null;
  if (!open)
    return html`<p><button type="button" onClick=${() => setOpen(true)}>A dish was not soft, or just soft</button></p>`;
  const cooking = dishes.find(({ id }) => id === of) ?? first;
  const foods = softening(cooking.kitId);
  async function tried(soft: boolean) {
    if (minutes === undefined) {
      page.alarm('Enter the minutes at the boil.');
      document.querySelector<HTMLInputElement>('#tried-form input')?.focus();
      return;
    }
    setOpen(false);
    setMinutes(undefined);
    const entry = {
      kind: 'food-tried' as const,
      of: cooking.id,
      minutes,
      soft,
      ...(foodId === undefined ? {} : { foodId }),
    };
    if (await book(entry, `${cooking.kitName}: booked.`)) document.getElementById('stand-title')?.focus();
  }
  return html`<fieldset id="tried-form">
    <legend>How soft it was</legend>
    <div class="fields">
      <${ChoiceField} label="Dish" value=${cooking.id} options=${dishes.map(({ id, kitName, doneAt }) => [id, `${kitName}, ${clockOn(doneAt, now)}`] as const)} onValue=${(
        value: string | undefined,
      ) => {
        setOf(value);
        setFoodId(undefined);
      }} />
      ${foods.length < 2 ? null : html`<${ChoiceField} key=${cooking.id} label="Which food" value=${foodId} whenEmpty="the one that takes longest" options=${foods.map(({ id, name }) => [id, name] as const)} onValue=${setFoodId} />`}
      <${NumberField} label="Minutes at the boil" hint="without those in the box" quantity="minutes" value=${minutes} minimum=${1} maximum=${1440} whenEmpty="" live onValue=${setMinutes} />
      <div class="row-end">
        <button type="button" onClick=${() => void tried(false)}>Not soft yet</button>
        <button type="button" onClick=${() => void tried(true)}>Just soft</button>
      </div>
    </div>
  </fieldset>`;
}
