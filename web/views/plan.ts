/** The home view: ask for the week, then read it day by day. */
import { useState } from 'preact/hooks';
import { endsFirst } from '../../api/wording/ends-first.ts';
import type { Plan } from '../api-types.ts';
import { CheckField, ChoiceField, ErrorSummary, NumberField, TextField } from '../components/fields.ts';
import { LaterPart } from '../components/later-part.ts';
import { WorkProgress } from '../components/long-work.ts';
import { NextAction, useNow } from '../components/next-steps.ts';
import { clockOf, dayInWords, nextAfternoon } from '../dates.ts';
import { hasOnlySample } from '../household-choice.ts';
import { html } from '../html.ts';
import { makePlan } from '../make-plan.ts';
import { say } from '../measures.ts';
import { writeNumber } from '../numbers.ts';
import { usePage } from '../page-state.ts';
import { standingOf, zoneOf } from '../plan-clock.ts';
import { dropTriedPlan, TRIED_PLAN } from '../tried-plan.ts';
import { AdviceSection } from './plan-advice.ts';
import { BalanceSection } from './plan-balance.ts';
import { DayLine } from './plan-day.ts';
import { EnduranceSection } from './plan-endurance.ts';
import { BindingSection, ShortBlock, WithoutSupplySection } from './plan-outcome.ts';
import { DetailsSection, OwnFiguresLine, ProofLine } from './plan-proof.ts';
import { ChosenPointLine, TradeOffSection } from './plan-trade-off.ts';
import { thingInWords } from './plan-words.ts';

export function PlanView() {
  const page = usePage();
  const [startsAt, setStartsAt] = useState(() => nextAfternoon(new Date()));
  const [days, setDays] = useState(7);
  const [chosen, setChosen] = useState(false);
  const [placeId, setPlaceId] = useState<string | undefined>(undefined);
  const [carried, setCarried] = useState<string[]>([]);
  const household = page.household?.state().body;
  const places = household?.places ?? [];
  const at = placeId ?? places[0]?.id;
  const now = useNow(page.plan === null ? undefined : zoneOf(page.plan));
  const running = page.plan !== null && standingOf(page.plan, now) === 'running';

  async function planWeek() {
    if (household === undefined) {
      page.announce('There is no household to plan for yet.');
      return;
    }
    const said = (plan: Plan) => `${plan.meals.length} meals planned. ${outcomeInWords(plan)}`;
    const here = places.some((place) => place.id === placeId) ? { placeId } : {};
    const carryFrom = places.map((place) => place.id).filter((id) => carried.includes(id) && id !== at);
    const from = carryFrom.length === 0 ? {} : { carryFrom };
    const plan = await makePlan(page, { householdId: household.id, startsAt, days, ...here, ...from }, said);
    if (plan !== null) document.getElementById('outcome')?.focus();
  }

  const planning = page.planning;
  return html`
    <h1>Plan</h1>
    ${running && page.plan !== null ? html`<${NextSection} plan=${page.plan} now=${now} />` : null}
    <${OwnHouseholdOffer} />
    <${ErrorSummary} title="The week was not planned" errors=${page.planErrors} />
    ${page.planFault !== null && page.planErrors.length === 0 ? html`<p class="notice">${page.planFault}</p>` : null}
    <form
      class="ask"
      novalidate
      onSubmit=${(event: Event) => {
        event.preventDefault();
        void planWeek();
      }}
    >
      <${TextField}
        label="Starts at"
        type="datetime-local"
        value=${startsAt}
        required
        pointer="#/startsAt"
        errors=${page.planErrors}
        mark=${chosen ? undefined : 'default'}
        onValue=${(value: string) => {
          setStartsAt(value.slice(0, 16));
          setChosen(true);
        }}
      />
      <${NumberField}
        label="Length"
        quantity="days"
        value=${days}
        minimum=${1}
        maximum=${90}
        pointer="#/days"
        errors=${page.planErrors}
        onValue=${(value: number | undefined) => setDays(Math.round(value ?? 7))}
      />
      ${
        places.length < 2
          ? null
          : html`<${ChoiceField} label="Cooked at" value=${at} options=${places.map((place) => [place.id, place.name ?? place.id])} pointer="#/placeId" errors=${page.planErrors} onValue=${setPlaceId} />
              ${places
                .filter((place) => place.id !== at)
                .map(
                  (place) =>
                    html`<${CheckField} key=${place.id} label=${`Bags may be fetched from: ${place.name ?? place.id}`} value=${carried.includes(place.id)} onValue=${(yes: boolean) => setCarried(yes ? [...carried, place.id] : carried.filter((id) => id !== place.id))} />`,
                )}`
      }
      <div class="ask-button">
        <button type="submit" class="main-button" aria-disabled=${planning !== null ? 'true' : undefined}>
          ${days === 7 ? 'Plan the week' : `Plan ${days} ${days === 1 ? 'day' : 'days'}`}
        </button>
      </div>
    </form>
    ${
      household === undefined
        ? null
        : html`<p class="given">
      For ${household.name}: ${household.people.length} people, ${say(household.places[0]?.elevationM ?? 0, 'elevationM', page.units)} above the
      sea. <a href="#/set-up">Change</a>
    </p>`
    }
    ${
      planning === null
        ? null
        : html`<${WorkProgress} doing="Planning" after="the plan is being checked" ...${planning} />`
    }
    ${page.plan === null ? (planning === null ? html`<${Empty} />` : null) : html`<${PlanResult} plan=${page.plan} now=${now} />`}
    ${page.plan === null ? null : html`<${BindingSection} plan=${page.plan} />`}
    <${EnduranceSection} startsAt=${page.plan?.request.startsAt ?? startsAt} />
    ${page.plan === null ? null : html`<${AfterPlan} plan=${page.plan} />`}
  `;
}

/** Whoever has told nothing yet is shown where to begin. */
function OwnHouseholdOffer() {
  const page = usePage();
  if (page.loadFault !== null)
    return html`<p class="notice">${page.loadFault} <a href="#/first-minutes">Say what you have, in two short screens</a></p>`;
  if (page.household === null || !hasOnlySample(page)) return null;
  return html`<p class="offer">This is an invented household to try things with. <a class="button" href="#/first-minutes">Begin with your own</a></p>`;
}

function Empty() {
  return html`<section class="empty">
    <h2>No plan yet</h2>
    <p>One press of “Plan the week” makes a plan from what is in the stores, proves that it fits the fuel and the water, and can be printed to cook from.</p>
  </section>`;
}

/** What came out, in one or two sentences. */
export function outcomeInWords(plan: Plan): string {
  const days = plan.request.days;
  const unfed = plan.meals.reduce((sum, meal) => sum + (meal.servingsShort ?? 0), 0);
  if (plan.outcome === 'complete') {
    const hotWanted = plan.meals.filter((meal) => meal.hotWanted);
    const hot = hotWanted.filter((meal) => meal.dishes.some((dish) => dish.hot)).length;
    const byChoice = hotWanted.filter(
      (meal) => meal.coldByChoice === true && !meal.dishes.some((dish) => dish.hot),
    ).length;
    const hotText =
      hotWanted.length === 0
        ? ''
        : ` ${hot === hotWanted.length ? 'Every meal that should be hot is hot.' : `${hot} of the ${hotWanted.length} meals that should be hot are hot${byChoice === 0 ? '' : `, ${hot + byChoice === hotWanted.length ? 'the others' : byChoice} cold by choice`}.`}`;
    return `The stores are enough: everyone is fed for ${days === 1 ? 'the day' : `${days} days`}.${hotText}`;
  }
  const first = [...plan.short].sort((a, b) => a.from.localeCompare(b.from))[0];
  const since = first === undefined ? '' : ` The first shortage is on ${dayInWords(first.from)}.`;
  return `The stores are not enough${unfed > 0 ? `: ${writeNumber(unfed, 1)} servings are missing` : ''}.${since}`;
}

function PlanResult({ plan, now }: { plan: Plan; now: string }) {
  const { units } = usePage();
  const dates = [
    ...new Set(
      plan.meals.map((meal) => meal.eatAt.slice(0, 10)).concat(plan.tasks.map((task) => task.at.slice(0, 10))),
    ),
  ].sort();
  const today = standingOf(plan, now) === 'running' ? now.slice(0, 10) : null;
  const passed = today === null ? [] : dates.filter((date) => date < today);
  const dayItem = (date: string) => html`<li class="day" key=${date}>
    <h3>${dayInWords(date)}${date === today ? ', today' : ''}</h3>
    <div class="meals">
      <${DayLine} plan=${plan} date=${date} />
      <${LaterPart} title="The day on a line" load=${loadDayTime} props=${{ plan, date }} />
    </div>
  </li>`;
  const sheet = (type: string) => `/api/plans/${plan.id}/schedule?units=${units}&type=${type}`;
  return html`
    <${ChangedLine} plan=${plan} />
    ${standingOf(plan, now) === 'running' ? null : html`<${NextSection} plan=${plan} now=${now} />`}
    <section class=${`outcome outcome-${plan.outcome}`} aria-labelledby="outcome">
      <h2 id="outcome" tabindex="-1"><span aria-hidden="true">${plan.outcome === 'complete' ? '✓ ' : '⚠ '}</span>${outcomeInWords(plan)}</h2>
      <${ChosenPointLine} plan=${plan} />
      <${ShortBlock} plan=${plan} />
      <${ProofLine} plan=${plan} />
      <${SupplyLine} plan=${plan} />
      <p><${EndsFirstLine} plan=${plan} /> <${OwnFiguresLine} plan=${plan} /></p>
      <div class="print-row">
        <a class="button main-button" href=${sheet('normal')} target="_blank" rel="noopener">Print the schedule<span class="unseen"> (opens a new tab)</span></a>
        <a class="button" href=${sheet('large')} target="_blank" rel="noopener">In larger type<span class="unseen"> (opens a new tab)</span></a>
        <a class="button" href=${`/api/plans/${plan.id}/calendar.ics?units=${units}`}>Reminders for a calendar<span class="unseen"> (a file)</span></a>
      </div>
    </section>
    <section aria-labelledby="days-title">
      <h2 id="days-title">The days</h2>
      ${
        passed.length === 0
          ? null
          : html`<details class="more">
              <summary>Days that have passed (${passed.length})</summary>
              <ol class="days">${passed.map(dayItem)}</ol>
            </details>`
      }
      <ol class="days">${dates.filter((date) => !passed.includes(date)).map(dayItem)}</ol>
    </section>
    <${BalanceSection} plan=${plan} />
  `;
}

const loadDayTime = () => import('./plan-day-time.ts').then((part) => part.DayTime);

/** Today and what to do next, above the days. */
function NextSection({ plan, now }: { plan: Plan; now: string }) {
  return html`<section class="next" aria-labelledby="next-title">
    <h2 id="next-title" tabindex="-1">${standingOf(plan, now) === 'not-begun' ? 'The plan begins with' : `Next, ${dayInWords(now)} ${clockOf(now)}`}</h2>
    <${NextAction} plan=${plan} now=${now} />
    <div class="print-row">
      <a class="button" href="#/book">Book what happened</a>
      <a class="button" href="#/tonight">The next 24 hours</a>
    </div>
  </section>`;
}

/** A plan that was changed by hand can be put back. */
function ChangedLine({ plan }: { plan: Plan }) {
  const page = usePage();
  const before = page.planBefore;
  if (before === null) return null;
  const undo = () => {
    page.storage.setItem(TRIED_PLAN, plan.id);
    page.set({ plan: before, planBefore: null });
    page.announce('The plan is as it was before the change.');
    document.getElementById('outcome')?.focus();
    void dropTriedPlan(page);
  };
  return html`<div class="save-line">
    <p>This plan took the place of the one before.</p>
    <button type="button" class="small" onClick=${undo}>Undo: back to the plan before</button>
  </div>`;
}

/** At the pace of the plan: where to look first. */
function EndsFirstLine({ plan }: { plan: Plan }) {
  const ends = plan.short.length > 0 ? null : endsFirst(plan);
  if (ends === null) return null;
  return html`At this pace ${ends.what.toLowerCase()} ends first, about ${dayInWords(ends.on)} (<a href="#endurance-title">how long it lasts</a>).`;
}

/** A plan that counts on what somebody promised to bring says so where it says that everybody is fed. */
function SupplyLine({ plan }: { plan: Plan }) {
  const end = plan.withoutSupply?.runsOut;
  if (end === undefined || end === null) return null;
  return html`<p class="notice">It counts on a promised supply. Without it, ${thingInWords(end.what)} runs out on ${dayInWords(end.date)}. <a href="#supply-title">If it does not come</a></p>`;
}

/** What can be asked of a plan once it is there. */
function AfterPlan({ plan }: { plan: Plan }) {
  return html`<${AdviceSection} plan=${plan} />
    <${TradeOffSection} plan=${plan} />
    ${plan.withoutSupply === null ? null : html`<${WithoutSupplySection} plan=${plan} without=${plan.withoutSupply} />`}
    <${DetailsSection} plan=${plan} />`;
}
