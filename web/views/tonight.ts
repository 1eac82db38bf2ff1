/** The next 24 hours: what to do next, what to put to soak, what is eaten; one press makes a plan where there is none. */
import type { Plan } from '../api-types.ts';
import { WorkProgress } from '../components/long-work.ts';
import { NextAction, StepList, useNow } from '../components/next-steps.ts';
import { clockOn, placeClock, wallClock } from '../dates.ts';
import { hasOnlySample } from '../household-choice.ts';
import { html } from '../html.ts';
import { makePlan, planAgain } from '../make-plan.ts';
import { usePage } from '../page-state.ts';
import { mealsOfDay, standingOf, stepsOfDay, zoneOf } from '../plan-clock.ts';
import { outcomeInWords } from './plan.ts';
import { methodInWords } from './plan-meal.ts';

/** Two days: what is eaten tomorrow evening is put to soak tonight. */
const DAYS = 2;

export function TonightView() {
  const page = usePage();
  const household = page.household?.state().body;
  const { planning, plan } = page;
  // The times of a plan are those of its kitchen, wherever the device thinks that it is.
  const zone = plan === null ? household?.places[0]?.timeZone : zoneOf(plan);
  const now = useNow(zone);
  const running = plan !== null && standingOf(plan, now) === 'running';

  async function planNow() {
    if (household === undefined || planning !== null) return;
    // What was booked, and what hangs on the wall, is gone on with.
    if (running && plan !== null) {
      // An entry that waits is answered first, so that the new plan knows of it.
      if (page.storage.getItem(`bookings:${household.id}`) !== null) {
        location.hash = '#/book';
        return;
      }
      return planAgain(page, plan, placeClock(new Date(), zone), outcomeInWords);
    }
    const here = household.places[0]?.timeZone;
    const startsAt = here === undefined ? wallClock(new Date()) : placeClock(new Date(), here);
    const made = await makePlan(page, { householdId: household.id, startsAt, days: DAYS }, outcomeInWords);
    if (made !== null) document.getElementById('next-title')?.focus();
  }
  const button = (label: string, main: boolean) => html`<button
    type="button"
    class=${main ? 'main-button' : undefined}
    aria-disabled=${planning === null ? undefined : 'true'}
    onClick=${planNow}
  >${label}</button>`;

  if (household === undefined) {
    return html`<h1>The next 24 hours</h1>
      <p>${page.loadFault === null ? 'Loading…' : 'Nothing is known yet of what there is to eat and to cook on.'}</p>
      ${page.loadFault === null ? null : html`<a class="button main-button" href="#/first-minutes">Say what there is</a>`}`;
  }
  return html`<h1>The next 24 hours</h1>
    ${page.planFault === null ? null : html`<p class="notice">${page.planFault} ${page.planErrors.map(({ detail }) => detail).join(' ')}</p>`}
    ${planning === null ? null : html`<${WorkProgress} doing="Planning" after="the plan is being checked" ...${planning} />`}
    ${
      running
        ? html`<${NextDay} plan=${plan} now=${now} />
            <div class="print-row">
              <a class="button" href="#/book">Book what happened</a>
              <a class="button" href="#/plan">The whole plan</a>
              ${button('Plan again from now', false)}
            </div>`
        : html`<p>
              ${plan === null ? 'There is no plan yet.' : 'The last plan does not reach to this hour.'} One press makes one for today and tomorrow from what is in the stores: what to eat, when to light, what to put to soak now.
            </p>
            ${button('Plan today and tomorrow', true)}
            <p class="given">For ${household.name}.${hasOnlySample(page) ? html` It is an invented one. <a href="#/first-minutes">Say what you have yourself</a>` : null}</p>`
    }`;
}

function NextDay({ plan, now }: { plan: Plan; now: string }) {
  const steps = stepsOfDay(plan, now);
  const soaks = steps.filter((step) => step.action === 'soak');
  const meals = mealsOfDay(plan, now);
  return html`<section class="next" aria-labelledby="next-title">
      <h2 id="next-title" tabindex="-1">Next</h2>
      <${NextAction} plan=${plan} now=${now} />
    </section>
    <section aria-labelledby="soak-title">
      <h2 id="soak-title">To put to soak</h2>
      ${soaks.length === 0 ? html`<p>Nothing needs to soak before this time tomorrow.</p>` : html`<${StepList} steps=${soaks} day=${now} />`}
    </section>
    <section aria-labelledby="eat-title">
      <h2 id="eat-title">To eat</h2>
      ${
        meals.length === 0
          ? html`<p>No meal falls into these hours.</p>`
          : html`<ul class="steps">
              ${meals.map((meal) => {
                const cookings = meal.dishes.flatMap(
                  (dish) => plan.cookings.find(({ id }) => id === dish.cookingId) ?? [],
                );
                return html`<li key=${meal.id}>
                  <span class="clock">${clockOn(meal.eatAt, now)}</span>
                  <span>
                    <strong>${cookings.length === 0 ? 'Nothing in store fits' : cookings.map(({ kitName }) => kitName).join(' and ')}</strong>
                    ${meal.servingsShort > 0 ? html` <span class="tag tag-short">⚠ not enough for everybody</span>` : null}
                    <span class="if-not">${cookings.map((cooking) => methodInWords(plan, cooking, meal.eatAt)).join('; ')}</span>
                  </span>
                </li>`;
              })}
            </ul>`
      }
    </section>
    <section aria-labelledby="steps-title">
      <h2 id="steps-title">Step by step</h2>
      <${StepList} steps=${steps} day=${now} />
    </section>`;
}
