/** What scale, stick and jug show: beside it what they should show, and the mark below which to plan anew. */
import { useState } from 'preact/hooks';
import { foundText } from '../../api/wording/change-lines.ts';
import { fuelName } from '../../api/wording/names.ts';
import type { ContainerNow, FuelNow, StateNow } from '../api-types.ts';
import { plainText } from '../booking-words.ts';
import { ChoiceField, NumberField } from '../components/fields.ts';
import { useKeptNumber } from '../components/kept-state.ts';
import { clockOn } from '../dates.ts';
import { html } from '../html.ts';
import { type Quantity, say, type UnitSystem } from '../measures.ts';
import { wordsOf } from '../names.ts';
import { type Page, usePage } from '../page-state.ts';
import type { BookingDesk } from './book.ts';

type Way = 'grossKg' | 'leftKg' | 'litres' | 'dipstickShare' | 'armfuls' | 'leftKWh';

const WAYS: Record<Way, { name: string; label: string; quantity: Quantity; maximum: number }> = {
  grossKg: { name: 'With the container', label: 'With the container', quantity: 'kg', maximum: 10_000 },
  leftKg: { name: 'Without it', label: 'What is left', quantity: 'kg', maximum: 10_000 },
  litres: { name: 'Litres', label: 'What is left', quantity: 'litres', maximum: 10_000 },
  dipstickShare: { name: 'Dipstick', label: 'Wet part of the full height', quantity: 'share', maximum: 1 },
  armfuls: { name: 'Armfuls', label: 'Armfuls', quantity: 'count', maximum: 10_000 },
  leftKWh: { name: 'Meter', label: 'What is left', quantity: 'kWh', maximum: 10_000 },
};

export function WeighPart({ desk }: { desk: BookingDesk }) {
  const { plan, booked, now } = desk;
  const page = usePage();
  const { state } = booked;
  return html`${state.readings.map((reading) => {
    const isLow = reading.replanBelow !== null && state.belowMark.some(({ id }) => id === reading.id);
    const name = reading.what === 'water' ? 'Water' : wordsOf(fuelName(reading.id as FuelNow['fuelId']));
    const fuel = state.fuel.find(({ fuelId }) => fuelId === reading.id);
    return html`<div class="weigh" key=${reading.id}>
      <h3>${name}</h3>
      <p class=${isLow ? 'wrong' : undefined}>
        ${isLow ? html`<span aria-hidden="true">⚠ </span>` : null}In all ${bandWords(reading.left, reading.unit, page.units)} should be left now.${' '}
        ${reading.replanBelow === null ? 'The plan burns none.' : html`<strong>Plan anew below ${amount(reading.replanBelow, reading.unit, page.units, 'up')}${isLow ? ': it is below' : ''}.</strong>`}
      </p>
      ${
        reading.what === 'water'
          ? state.water.lots.map((lot) => html`<${LotRow} key=${lot.lotId} desk=${desk} lot=${lot} />`)
          : containersOf(fuel).map(
              (same) => html`<${ContainerRow} key=${same[0]?.containerId} desk=${desk} fuel=${fuel} same=${same} />`,
            )
      }
      ${state.differences
        .filter(({ what, id }) => (reading.what === 'water' ? what === 'water' : id === reading.id))
        .slice(-3)
        .map(
          (difference) =>
            html`<p class="hint">${plainText(plan, foundText(difference, state, now), now, page.units)}</p>`,
        )}
    </div>`;
  })}`;
}

function containersOf(fuel: FuelNow | undefined): ContainerNow[][] {
  const ids = [...new Set((fuel?.containers ?? []).map(({ containerId }) => containerId))];
  return ids.map((id) => (fuel?.containers ?? []).filter(({ containerId }) => containerId === id));
}

function amount(
  value: number,
  unit: string,
  units: UnitSystem,
  rounding: 'up' | 'down' | 'nearest' = 'nearest',
): string {
  return say(value, unit === 'kg' ? 'kg' : unit === 'kWh' ? 'kWh' : 'litres', units, rounding);
}

/** `0.21 kg (0.18 to 0.24 kg)` */
function bandWords(
  { p10, p50, p90 }: { p10: number; p50: number; p90: number },
  unit: string,
  units: UnitSystem,
): string {
  const middle = amount(p50, unit, units);
  const [low, high] = [amount(p10, unit, units), amount(p90, unit, units)];
  return low === high ? middle : `${middle} (${low} to ${high})`;
}

/** The ways in which a fuel can be told, the most usual first. */
function waysOf(page: Page, { fuelId }: FuelNow, { tareKg, fullKg }: ContainerNow): Way[] {
  if (fuelId === 'electricity') return ['leftKWh'];
  const row = page.tables.fuels.find(({ id }) => id === fuelId);
  const weighed: Way[] = tareKg === null && row?.kind === 'solid' ? ['leftKg', 'grossKg'] : ['grossKg', 'leftKg'];
  if (fuelId === 'wood') return ['armfuls', 'leftKg'];
  if (row?.kind !== 'alcohol') return weighed;
  return [...(fullKg === null ? [] : (['dipstickShare'] as const)), 'litres', ...weighed];
}

function ContainerRow({ desk, fuel, same }: { desk: BookingDesk; fuel: FuelNow; same: readonly ContainerNow[] }) {
  const page = usePage();
  const { units } = page;
  const [first] = same;
  const ways = first === undefined ? [] : waysOf(page, fuel, first);
  const kept = `${desk.plan.id}:${fuel.fuelId}:${first?.containerId ?? ''}`;
  // How a container was told last is how it is told the next time, and what was typed is in that unit.
  const [way, setWay] = useState<Way>(() => {
    const last = page.storage.getItem(`typed:${kept}:way`) as Way | null;
    return last !== null && ways.includes(last) ? last : (ways[0] ?? 'leftKg');
  });
  const [value, setValue] = useKeptNumber(`${kept}:${way}`);
  const [tareKg, setTareKg] = useKeptNumber(`${kept}:tareKg`);
  const [fullOnes, setFullOnes] = useKeptNumber(`${kept}:fullOnes`);
  if (first === undefined) return null;
  const isMany = same.length > 1;
  const id = first.containerId;
  const name = wordsOf(id);
  const begun = same.find(({ untouched }) => !untouched) ?? first;
  const inAll = same.reduce(
    (sum, one) => ({ p10: sum.p10 + one.left.p10, p50: sum.p50 + one.left.p50, p90: sum.p90 + one.left.p90 }),
    { p10: 0, p50: 0, p90: 0 },
  );
  const gross = !isMany && begun.tareKg !== null ? begun.left.p50 + begun.tareKg : null;
  const weighedAt = same
    .flatMap((one) => one.weighedAt ?? [])
    .sort()
    .at(-1);
  async function weigh() {
    const entry = {
      kind: 'fuel-weighed' as const,
      fuelId: fuel.fuelId,
      containerId: id,
      ...(value === undefined ? {} : { [way]: value }),
      ...(way === 'grossKg' && value !== undefined && tareKg !== undefined ? { tareKg } : {}),
      ...(fullOnes === undefined ? {} : { fullOnes }),
    };
    if (value === undefined && fullOnes === undefined) {
      page.alarm(`${name}: enter what the ${way === 'dipstickShare' ? 'dipstick' : 'scale'} shows.`);
      document.querySelector<HTMLInputElement>(`#weigh-${fuel.fuelId}-${id} input`)?.focus();
      return;
    }
    // The entry is kept from here on, booked or asked about, so that the fields are free for the next.
    setValue(undefined);
    setTareKg(undefined);
    setFullOnes(undefined);
    await desk.book(entry, `${name}: booked.`);
  }
  return html`<fieldset id=${`weigh-${fuel.fuelId}-${id}`}>
    <legend>${name}${isMany ? ` (${same.length})` : ''}</legend>
    <p>
      Should hold ${bandWords(inAll, fuel.unit, units)}${gross === null ? '' : html`, so that the scale shows <strong>${amount(gross, 'kg', units)}</strong>`}.
      ${weighedAt === undefined ? null : html` Last weighed ${clockOn(weighedAt, desk.now)}.`}
    </p>
    <div class="fields">
      ${
        ways.length < 2
          ? null
          : html`<${ChoiceField} label="How it is told" value=${way} options=${ways.map((one) => [one, WAYS[one].name] as const)} onValue=${(
              chosen: string | undefined,
            ) => {
              page.storage.setItem(`typed:${kept}:way`, chosen ?? way);
              setWay((chosen ?? way) as Way);
              setValue(undefined);
            }} />`
      }
      ${isMany ? html`<${NumberField} label="Still full" quantity="count" value=${fullOnes} minimum=${0} maximum=${same.length} whenEmpty="as before" live onValue=${setFullOnes} />` : null}
      <${NumberField} key=${way} label=${isMany ? `The begun one: ${WAYS[way].label.toLowerCase()}` : WAYS[way].label} quantity=${WAYS[way].quantity} value=${value} minimum=${0} maximum=${WAYS[way].maximum} whenEmpty="" live onValue=${setValue} />
      ${way === 'grossKg' && begun.tareKg === null ? html`<${NumberField} label="Empty, as stamped on it" quantity="kg" value=${tareKg} minimum=${0} maximum=${10_000} whenEmpty="" live onValue=${setTareKg} />` : null}
      <button type="button" onClick=${() => void weigh()}>Book<span class="unseen"> ${name}</span></button>
    </div>
  </fieldset>`;
}

function LotRow({ desk, lot }: { desk: BookingDesk; lot: StateNow['water']['lots'][number] }) {
  const page = usePage();
  const [litres, setLitres] = useKeptNumber(`${desk.plan.id}:water:${lot.lotId}`);
  const name = wordsOf(lot.lotId);
  async function measure() {
    if (litres === undefined) {
      page.alarm(`${name}: enter what is left.`);
      document.querySelector<HTMLInputElement>(`#lot-${lot.lotId} input`)?.focus();
      return;
    }
    setLitres(undefined);
    await desk.book({ kind: 'water-left', lotId: lot.lotId, litres }, `${name}: booked.`);
  }
  return html`<fieldset id=${`lot-${lot.lotId}`}>
    <legend>${name}</legend>
    <p>Should hold <strong>${say(lot.litres, 'litres', page.units)}</strong>.${lot.measuredAt === null ? null : ` Last measured ${clockOn(lot.measuredAt, desk.now)}.`}</p>
    <div class="fields">
      <${NumberField} label="What is left" quantity="litres" value=${litres} minimum=${0} maximum=${1_000_000} whenEmpty="" live onValue=${setLitres} />
      <button type="button" onClick=${() => void measure()}>Book<span class="unseen"> ${name}</span></button>
    </div>
  </fieldset>`;
}
