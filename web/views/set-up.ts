/** The household: where it is, who eats when, what there is to cook with. Everything is saved as it is typed. */
import { useEffect, useState } from 'preact/hooks';
import type { BoilingPointAnswer } from '../api-types.ts';
import { fieldsOf } from '../components/bound-fields.ts';
import { ChoiceField, ErrorSummary } from '../components/fields.ts';
import { SaveLine } from '../components/save-line.ts';
import { type DocumentPath, withItem } from '../document-paths.ts';
import { showHousehold } from '../household-choice.ts';
import { html } from '../html.ts';
import { say, unitOf } from '../measures.ts';
import {
  AGE_GROUP_NAMES,
  CONDITION_NAMES,
  HOT_NAMES,
  newIdFrom,
  QUALITY_NAMES,
  SLOT_NAMES,
  WIND_NAMES,
} from '../names.ts';
import { usePage } from '../page-state.ts';
import type { SavedDocument } from '../saved-document.ts';
import { EquipmentSections } from './set-up-equipment.ts';
import { FuelSection } from './set-up-fuel.ts';
import { MeasuredSection } from './set-up-measured.ts';
import { choices, type SectionProps, SetUpPart } from './set-up-part.ts';

export function SetUpView() {
  const page = usePage();
  if (page.household === null) {
    return html`<h1>Set-up</h1>
      ${page.loadFault === null ? html`<p>Loading…</p>` : html`<${NoHousehold} />`}`;
  }
  const saved = page.household;
  const { body, errors } = saved.state();
  const resolved = page.plan?.request.householdId === body.id ? page.plan.resolved.household : undefined;
  const fields = fieldsOf({ document: saved as SavedDocument<unknown>, resolved });
  const add = (path: DocumentPath, item: unknown) => saved.edit((old) => withItem(old, path, item));
  const props: SectionProps = { body, fields, add };
  return html`
    <h1>Set-up</h1>
    <${HouseholdChoice} id=${body.id} />
    <${SaveLine} document=${saved} />
    <${ErrorSummary} title="These values were not accepted" errors=${errors} />
    <p class="hint">An empty field marked “default” uses the value beside it. Numbers may be typed as 1.5, 1,5 or 1/2.</p>
    <div class="fields">${fields.text('Name of the household', ['name'], { required: true })}</div>
    <${PlaceSection} ...${props} />
    <${PeopleSection} ...${props} />
    <${MealsSection} ...${props} />
    <${WaterSection} ...${props} />
    <${FuelSection} ...${props} />
    <${EquipmentSections} ...${props} />
    <${MeasuredSection} household=${body} />
  `;
}

function NoHousehold() {
  const page = usePage();
  return html`<p>${page.loadFault}</p>
    <p>The set-up holds where you are, who eats, what there is to cook with, fuel and water. Two short screens ask for what matters first.</p>
    <a class="button main-button" href="#/first-minutes">Begin a household</a>`;
}

/** Which of several households the page shows, and the way to one more. */
function HouseholdChoice({ id }: { id: string }) {
  const page = usePage();
  const [fault, setFault] = useState<string | null>(null);
  return html`<div class="fields">
    ${
      page.households.length < 2
        ? null
        : html`<${ChoiceField}
            label="Household shown"
            value=${id}
            options=${page.households.map((one) => [one.id, one.name])}
            onValue=${(chosen: string | undefined) => {
              if (chosen === undefined || chosen === id) return;
              showHousehold(page, chosen).then(
                () => page.announce('Another household is shown.'),
                (error: Error) => {
                  setFault(error.message);
                  page.alarm(error.message);
                },
              );
            }}
          />`
    }
    ${fault === null ? null : html`<p class="notice">${fault}</p>`}
    <div class="row-end"><a class="button" href="#/first-minutes">Begin another household</a></div>
  </div>`;
}

function BoilingEcho({ elevationM }: { elevationM: number }) {
  const { api, units } = usePage();
  const [answer, setAnswer] = useState<BoilingPointAnswer | null>(null);
  useEffect(() => {
    let gone = false;
    api
      .get<BoilingPointAnswer>(`/api/boiling-point?elevationM=${elevationM}`)
      .then(({ body }) => !gone && setAnswer(body))
      .catch(() => !gone && setAnswer(null));
    return () => {
      gone = true;
    };
  }, [elevationM]);
  if (answer === null) return null;
  return html`<p class="echo boiling-echo">
    At ${say(elevationM, 'elevationM', units)} water boils at ${say(answer.boilingPointC, 'temperatureC', units)}. ${answer.ask}
  </p>`;
}

function PlaceSection({ body, fields }: SectionProps) {
  const { units } = usePage();
  const holds = body.places
    .map((place) => `${place.name ?? place.id}, ${say(place.elevationM, 'elevationM', units)}`)
    .join('; ');
  return html`<${SetUpPart} title="Place" holds=${holds} open>
    ${body.places.map(
      (place, index) => html`<fieldset key=${place.id}>
        <legend>${place.name ?? place.id}</legend>
        <div class="fields">
          ${fields.number('Elevation above the sea', 'elevationM', ['places', index, 'elevationM'], { minimum: -430, maximum: 6000 })}
          ${fields.choice('Wind at the stove', ['places', index, 'wind'], choices(WIND_NAMES), { optional: true })}
          ${fields.text('Time zone', ['places', index, 'timeZone'], { hint: 'as in Europe/Zurich or America/Denver' })}
        </div>
        <${BoilingEcho} elevationM=${place.elevationM} />
        <div class="fields">
          ${fields.number('Indoors at the start', 'temperatureC', ['places', index, 'indoorC'], { minimum: -50, maximum: 60, optional: true })}
          ${fields.number('Indoors after four days', 'temperatureC', ['places', index, 'indoorFallsToC'], { minimum: -50, maximum: 60, optional: true })}
          ${fields.number('Outdoors', 'temperatureC', ['places', index, 'outdoorC'], { minimum: -50, maximum: 50, optional: true })}
          ${fields.number('Where food is stored', 'temperatureC', ['places', index, 'storageC'], { minimum: -50, maximum: 60, optional: true })}
        </div>
        <div class="fields">
          ${fields.text('Daylight from', ['places', index, 'daylight', 'from'], { type: 'time', together: { to: '17:00' } })}
          ${fields.text('Daylight to', ['places', index, 'daylight', 'to'], { type: 'time', together: { from: '08:00' } })}
        </div>
      </fieldset>`,
    )}
  <//>`;
}

function PeopleSection({ body, fields, add }: SectionProps) {
  const animals = body.animals ?? [];
  const holds = `${body.people.length} people${animals.length === 0 ? '' : `, ${animals.length} ${animals.length === 1 ? 'animal' : 'animals'}`}`;
  return html`<${SetUpPart} title="People and animals" holds=${holds}>
    ${body.people.map(
      (person, index) => html`<fieldset key=${`${person.label}-${index}`}>
        <legend>${person.label}</legend>
        <div class="fields">
          ${fields.text('Called', ['people', index, 'label'], { required: true })}
          ${fields.choice('Age', ['people', index, 'ageGroup'], choices(AGE_GROUP_NAMES))}
          ${fields.choice('Condition', ['people', index, 'condition'], choices(CONDITION_NAMES), { optional: true })}
          ${fields.number('Servings at a meal', 'count', ['people', index, 'mealShare'], { minimum: 0, maximum: 5, optional: true })}
          <div class="row-end">${fields.remove(person.label, ['people'], index)}</div>
        </div>
      </fieldset>`,
    )}
    <button type="button" class="small" onClick=${() => add(['people'], { label: nextLabel(body.people.map((one) => one.label)), ageGroup: 'adult' })}>
      Add a person
    </button>
    ${animals.map(
      (animal, index) => html`<fieldset key=${`animal-${index}`}>
        <legend>${animal.label}</legend>
        <div class="fields">
          ${fields.text('Called', ['animals', index, 'label'], { required: true })}
          ${fields.number('Water a day', 'litres', ['animals', index, 'waterLPerDay'], { minimum: 0, maximum: 100 })}
          <div class="row-end">${fields.remove(animal.label, ['animals'], index)}</div>
        </div>
      </fieldset>`,
    )}
    <button type="button" class="small" onClick=${() => add(['animals'], { label: 'Animal', waterLPerDay: 1 })}>Add an animal</button>
  <//>`;
}

function nextLabel(taken: readonly string[]): string {
  for (const letter of 'ABCDEFGHIJKLMNOPQRSTUVWXYZ') if (!taken.includes(letter)) return letter;
  return `Person ${taken.length + 1}`;
}

function MealsSection({ body, fields, add }: SectionProps) {
  const { units } = usePage();
  const meals = body.meals ?? [];
  const holds =
    meals.length === 0 ? 'default meals' : meals.map((meal) => `${SLOT_NAMES[meal.slot]} ${meal.time}`).join(', ');
  return html`<${SetUpPart} title="Meals and the day" holds=${holds}>
    ${meals.map(
      (meal, index) => html`<fieldset key=${meal.id}>
        <legend>${SLOT_NAMES[meal.slot]}</legend>
        <div class="fields">
          ${fields.choice('Kind', ['meals', index, 'slot'], choices(SLOT_NAMES))}
          ${fields.text('Time', ['meals', index, 'time'], { type: 'time', required: true })}
          ${fields.choice('Hot', ['meals', index, 'hot'], choices(HOT_NAMES), { optional: true })}
          <div class="row-end">${fields.remove(`${SLOT_NAMES[meal.slot]} ${meal.time}`, ['meals'], index)}</div>
        </div>
      </fieldset>`,
    )}
    <button type="button" class="small" onClick=${() =>
      add(['meals'], {
        id: newIdFrom(
          'meal',
          meals.map((one) => one.id),
        ),
        slot: 'midday',
        time: '12:30',
      })}>
      Add a meal
    </button>
    <fieldset>
      <legend>The cook's day</legend>
      <div class="fields">
        ${fields.text('Awake from', ['waking', 'from'], { type: 'time', together: { to: '22:00' } })}
        ${fields.text('Awake to', ['waking', 'to'], { type: 'time', together: { from: '06:30' } })}
        ${fields.number('Fires lit a day, at most', 'count', ['lightingsPerDay'], { minimum: 0, maximum: 12, optional: true })}
        ${fields.number('Outdoors a day, at most', 'minutes', ['outdoorMinutesPerDay'], { minimum: 0, maximum: 1440, optional: true })}
      </div>
      ${fields.check('There is a kitchen thermometer', ['thermometer'])}
      <p class="hint">Without a thermometer food is eaten earlier, because nobody can know how warm it still is. ${unitOf('temperatureC', units)} is shown on this page.</p>
    </fieldset>
  <//>`;
}

function WaterSection({ body, fields, add }: SectionProps) {
  const { units } = usePage();
  const lots = body.water?.lots ?? [];
  const litres = lots.reduce((sum, lot) => sum + lot.litres, 0);
  return html`<${SetUpPart} title="Water" holds=${`${say(litres, 'litres', units)} in ${lots.length} ${lots.length === 1 ? 'lot' : 'lots'}`} teaches=${lots.length === 0 ? 'People drink first, then pots are filled, then hands are washed: without water nothing can be planned. Add what is in the house.' : undefined}>
    ${lots.map(
      (lot, index) => html`<fieldset key=${lot.id}>
        <legend>${lot.id}</legend>
        <div class="fields">
          ${fields.number('Amount', 'litres', ['water', 'lots', index, 'litres'], { minimum: 0, maximum: 100000 })}
          ${fields.choice('Quality', ['water', 'lots', index, 'quality'], choices(QUALITY_NAMES), { optional: true })}
          ${fields.number('Temperature', 'temperatureC', ['water', 'lots', index, 'temperatureC'], { minimum: -50, maximum: 100, optional: 'as indoors' })}
          <div class="row-end">${fields.remove(lot.id, ['water', 'lots'], index)}</div>
        </div>
      </fieldset>`,
    )}
    <button type="button" class="small" onClick=${() =>
      add(['water', 'lots'], {
        id: newIdFrom(
          'water',
          lots.map((one) => one.id),
        ),
        litres: 20,
        quality: 'safe',
      })}>
      Add a lot of water
    </button>
    <fieldset>
      <legend>Use and treatment</legend>
      <div class="fields">
        ${fields.number('Hygiene, each person each day', 'litres', ['water', 'hygieneLPerPersonDay'], { minimum: 0, maximum: 100, optional: true })}
        ${fields.number('Washing-up, each person each meal', 'litres', ['water', 'washingUpLPerPersonMeal'], { minimum: 0, maximum: 20, optional: true })}
        ${fields.choice(
          'Unsafe water is treated by',
          ['water', 'treatBy'],
          [
            ['boil', 'Boiling'],
            ['bleach', 'Bleach'],
          ],
          { optional: true },
        )}
        ${fields.number('Comes in each day', 'litres', ['water', 'dailySupply', 'litres'], { minimum: 0, maximum: 100000, optional: 'none', together: {} })}
        ${fields.number('Hot water each day', 'litres', ['water', 'hotWaterPerDay', 'litres'], { minimum: 0, maximum: 200, optional: true, together: { temperatureC: 90 } })}
        ${fields.number('Hot water is heated to', 'temperatureC', ['water', 'hotWaterPerDay', 'temperatureC'], { minimum: 20, maximum: 100, optional: true, together: { litres: 3 } })}
      </div>
      ${fields.check('Snow can be melted', ['water', 'snow'])}
    </fieldset>
  <//>`;
}
