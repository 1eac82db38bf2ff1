/** From nothing to a plan on two screens: what matters is asked first, everything else has a default and can wait. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { containerText } from '../../api/wording/fuel-containers-sold.ts';
import { asHeading, stoveTypeName } from '../../api/wording/names.ts';
import { type FieldError, ServerRefusal } from '../api-client.ts';
import type { HouseholdDocument, Kit, MealSlot, StoveTypeId } from '../api-types.ts';
import { ChoiceField, ErrorSummary, fieldIdOf, NumberField } from '../components/fields.ts';
import { wallClock } from '../dates.ts';
import { showHousehold } from '../household-choice.ts';
import { html } from '../html.ts';
import { makePlan } from '../make-plan.ts';
import { SLOT_NAMES } from '../names.ts';
import { writeNumber } from '../numbers.ts';
import { usePage } from '../page-state.ts';
import {
  containersFor,
  DEFAULT_PACKED,
  DEFAULTS,
  type Draft,
  daysFed,
  householdOf,
  keepDraft,
  PACKED_YEARS,
  packedOnOf,
  readDraft,
  servingsIn,
  setsOf,
  unfedSlots,
} from './first-minutes-draft.ts';
import { outcomeInWords } from './plan.ts';

export function FirstMinutesView() {
  const page = usePage();
  const [draft, setDraft] = useState(() => readDraft(page.storage));
  // What a field hands over on Enter must be there when the form is sent in the same moment.
  const held = useRef(draft);
  const [readyMade, setReadyMade] = useState<Kit[]>([]);
  const [errors, setErrors] = useState<FieldError[]>([]);
  const [storing, setStoring] = useState(false);
  const [fault, setFault] = useState<string | null>(null);
  const fetchKits = () => {
    setFault(null);
    page.api
      .get<{ items: Kit[] }>('/api/ready-made-kits')
      .then(({ body }) => setReadyMade(body.items))
      .catch((error: Error) => {
        setFault(error.message);
        page.alarm(error.message);
      });
  };
  useEffect(fetchKits, []);
  const change = (part: Partial<Draft>) => {
    held.current = { ...held.current, ...part };
    keepDraft(page.storage, held.current);
    setDraft(held.current);
  };
  const kits = [...page.kits, ...readyMade.filter(({ id }) => !page.kits.some((kit) => kit.id === id))];
  const containers = containersFor(page.tables.stoveTypes, draft.stoveTypeId);
  const container = containers.find(({ id }) => id === draft.containerId) ?? containers[0];

  function refuse(found: FieldError[]) {
    setErrors(found);
    if (found.length === 0) return;
    page.alarm(found.map(({ detail }) => detail).join(' '));
    document.title = `Error: ${document.title.replace(/^Error: /, '')}`;
    setTimeout(() => document.getElementById('error-summary')?.focus(), 0);
  }

  function goTo(screen: 1 | 2) {
    change({ screen });
    scrollTo(0, 0);
    setTimeout(() => document.getElementById('screen-title')?.focus(), 0);
  }

  function next() {
    // A field that did not understand says so itself; what was missing before is looked at anew.
    const before = errors.map(({ pointer }) => fieldIdOf(pointer));
    const wrong = [...document.querySelectorAll<HTMLElement>('.first-minutes [aria-invalid="true"]')];
    const unread = wrong.find(({ id }) => !before.includes(id));
    if (unread !== undefined) return unread.focus();
    const { stoveTypeId, containers: howMany, waterL } = held.current;
    const missing: FieldError[] = [];
    if (stoveTypeId === undefined) missing.push({ pointer: '#/stove', detail: 'Choose what you cook on.' });
    else if (howMany === undefined)
      missing.push({ pointer: '#/containers', detail: 'Enter how much fuel there is; 0 if there is none.' });
    if (waterL === undefined)
      missing.push({ pointer: '#/water', detail: 'Enter how much safe water there is; 0 if there is none.' });
    refuse(missing);
    if (missing.length === 0) goTo(2);
  }

  async function finish() {
    const sets = setsOf(held.current);
    if (sets.length === 0)
      return refuse([{ pointer: '#/sets', detail: 'Put in at least one set: press + beside a dish that you have.' }]);
    if (container === undefined) return goTo(1);
    const at = wallClock(new Date());
    const household = householdOf(held.current, container, page);
    setStoring(true);
    try {
      const packedOn = packedOnOf(held.current, at.slice(0, 10));
      await page.api.post<{ household: HouseholdDocument }>('/api/starts', { household, sets, packedOn, at });
    } catch (error) {
      setStoring(false);
      if (!(error instanceof ServerRefusal)) throw error;
      return refuse(error.errors.length > 0 ? error.errors : [{ pointer: '#/', detail: error.message }]);
    }
    keepDraft(page.storage, null);
    const days = daysFed(held.current, kits, at);
    await Promise.all([showHousehold(page, household.id), page.reloadStores()]);
    location.hash = '#/plan';
    const plan = await makePlan(page, { householdId: household.id, startsAt: at, days }, outcomeInWords);
    if (plan !== null) document.getElementById('outcome')?.focus();
  }

  return html`
    <h1>First minutes</h1>
    <p class="hint">Two short screens, then the plan to print. What is marked “default” may stay as it is; all of it can be changed later in the set-up.</p>
    <form
      class="first-minutes"
      novalidate
      onSubmit=${(event: Event) => {
        event.preventDefault();
        // A field that was left by this very press says first whether it understood.
        setTimeout(() => void (draft.screen === 1 ? next() : finish()), 0);
      }}
    >
      <h2 id="screen-title" tabindex="-1">${draft.screen === 1 ? '1 of 2: people, fire and water' : '2 of 2: what there is to eat'}</h2>
      ${
        fault === null
          ? null
          : html`<div class="notice">
              <p>The ready-made dishes could not be fetched. ${fault}</p>
              <button type="button" class="small" onClick=${fetchKits}>Fetch them again</button>
            </div>`
      }
      <${ErrorSummary} title="Something is missing" errors=${errors} />
      ${
        draft.screen === 1
          ? html`<${FirstScreen} draft=${draft} errors=${errors} change=${change} />`
          : html`<${FoodScreen} draft=${draft} kits=${kits} change=${change} />`
      }
      <div class="row-end">
        <button type="submit" class="main-button" aria-disabled=${storing ? 'true' : undefined}>
          ${draft.screen === 1 ? 'On to the food' : 'Make the plan'}
        </button>
        ${draft.screen === 2 ? html`<button type="button" onClick=${() => goTo(1)}>Back</button>` : null}
      </div>
    </form>
  `;
}

interface ScreenProps {
  draft: Draft;
  change: (part: Partial<Draft>) => void;
}

function FirstScreen({ draft, errors, change }: ScreenProps & { errors: FieldError[] }) {
  const { tables, units } = usePage();
  // Stoves that are told by their label need a field more; the set-up has them.
  const stoves = tables.stoveTypes.filter(({ id }) => !id.startsWith('other-'));
  const containers = containersFor(tables.stoveTypes, draft.stoveTypeId);
  const chosen = containers.find(({ id }) => id === draft.containerId) ?? containers[0];
  return html`<div class="fields">
      <${NumberField} live label="People to feed" quantity="count" value=${draft.people} minimum=${1} maximum=${100} whenEmpty=${DEFAULTS.people}
        onValue=${(people: number | undefined) => change({ people: people === undefined ? undefined : Math.round(people) })} />
      <${NumberField} live label="Elevation above the sea" quantity="elevationM" value=${draft.elevationM} minimum=${-430} maximum=${6000} whenEmpty=${DEFAULTS.elevationM}
        onValue=${(elevationM: number | undefined) => change({ elevationM })} />
    </div>
    <div class="fields">
      <${ChoiceField} label="What you cook on" value=${draft.stoveTypeId} pointer="#/stove" errors=${errors}
        options=${[
          ...(draft.stoveTypeId === undefined ? [['', 'Choose one']] : []),
          ...stoves.map(({ id }) => [id, asHeading(stoveTypeName(id as StoveTypeId))]),
        ]}
        onValue=${(stoveTypeId: string | undefined) => change({ stoveTypeId, containerId: undefined })} />
      ${
        containers.length < 2
          ? null
          : html`<${ChoiceField} label="Its fuel is in" value=${chosen?.id} options=${containers.map((one) => [one.id, asHeading(containerText(one, units))])}
              onValue=${(containerId: string | undefined) => change({ containerId })} />`
      }
      ${
        chosen === undefined
          ? null
          : html`<${NumberField} live key="containers" label=${`How many ${containerText(chosen, units)}`} quantity="count" value=${draft.containers} minimum=${0} maximum=${1000} pointer="#/containers" errors=${errors}
              onValue=${(howMany: number | undefined) => change({ containers: howMany })} />`
      }
    </div>
    <div class="fields">
      <${NumberField} live label="Safe water in the house" quantity="litres" value=${draft.waterL} minimum=${0} maximum=${100000} pointer="#/water" errors=${errors}
        onValue=${(waterL: number | undefined) => change({ waterL })} />
      <${NumberField} live label="Largest pot" quantity="litres" value=${draft.potL} minimum=${0.5} maximum=${100} whenEmpty=${DEFAULTS.potL}
        onValue=${(potL: number | undefined) => change({ potL })} />
    </div>
    <p class="hint">A part-full container counts as a part: two and a half is 2.5. Fires are taken to burn outdoors.</p>`;
}

const SLOT_ORDER: readonly MealSlot[] = ['breakfast', 'midday', 'evening'];

function FoodScreen({ draft, kits, change }: ScreenProps & { kits: readonly Kit[] }) {
  const sorted = [...kits].sort((a, b) => slotOf(a) - slotOf(b) || a.name.localeCompare(b.name));
  const servings = servingsIn(draft, kits);
  const people = draft.people ?? DEFAULTS.people;
  const days = daysFed(draft, kits, wallClock(new Date()));
  const unfed = servings === 0 ? [] : unfedSlots(draft, kits);
  return html`<p id=${'at-sets'} tabindex="-1">
      A set is everything that one of these dishes needs besides water. Press + for each set that you have, or that you can put together from your shelves.
    </p>
    <ul class="kit-list">
      ${sorted.map((kit) => {
        const sets = draft.sets[kit.id] ?? 0;
        const put = (howMany: number) =>
          change({ sets: { ...draft.sets, [kit.id]: Math.min(200, Math.max(0, howMany)) } });
        return html`<li class="kit" key=${kit.id}>
          <div class="kit-name">
            <h3>${kit.name}</h3>
            <p class="hint">${kit.suits.map((slot) => SLOT_NAMES[slot]).join(', ')}; ${writeNumber(kit.servings)} servings a set: ${contentsOf(kit)}</p>
          </div>
          <div class="row-end counter">
            <button type="button" class="small" aria-label=${`One set less of ${kit.name}`} onClick=${() => put(sets - 1)}>−</button>
            <output class="kit-count" aria-live="polite" aria-label=${`Sets of ${kit.name}`}>${sets}</output>
            <button type="button" class="small" aria-label=${`One set more of ${kit.name}`} onClick=${() => put(sets + 1)}>+</button>
          </div>
        </li>`;
      })}
    </ul>
    <div class="fields">
      <${ChoiceField} label="Packed or bought" value=${draft.packed} whenEmpty=${PACKED_YEARS[DEFAULT_PACKED]} options=${Object.entries(PACKED_YEARS)}
        hint="Old beans and peas boil longer." onValue=${(packed: string | undefined) => change({ packed })} />
    </div>
    <p>
      ${
        servings === 0
          ? 'Nothing is put in yet.'
          : `${writeNumber(servings)} servings for ${people} ${people === 1 ? 'person' : 'people'}. The plan begins now and covers ${days === 1 ? 'today' : `${days} days, today among them`}.`
      }
      ${unfed.length === 0 ? '' : `Nothing suits ${unfed.map((slot) => SLOT_NAMES[slot].toLowerCase()).join(' or ')} yet.`}
    </p>`;
}

function slotOf(kit: Kit): number {
  return Math.min(...kit.suits.map((slot) => SLOT_ORDER.indexOf(slot)));
}

/** The parts of a kit in a line. */
function contentsOf(kit: Kit): string {
  return kit.parts.map(({ name }) => name.toLowerCase()).join(', ');
}
