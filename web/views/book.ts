/** Booking what happened: one press for a meal, one number for a weighing, and a new plan from now on. */
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { ServerRefusal } from '../api-client.ts';
import type { Booking, Plan, StateNow } from '../api-types.ts';
import { type BookingEntry, type BookingOutbox, openBookingOutbox } from '../booking-outbox.ts';
import { plainText } from '../booking-words.ts';
import { TextField } from '../components/fields.ts';
import { Later } from '../components/later.ts';
import { LaterPart } from '../components/later-part.ts';
import { WorkProgress } from '../components/long-work.ts';
import { useNow } from '../components/next-steps.ts';
import { clockOf, clockOn, dayInWords, placeClock } from '../dates.ts';
import { html } from '../html.ts';
import { planAgain } from '../make-plan.ts';
import { type Page, type PlanSummary, usePage } from '../page-state.ts';
import { BookedList, WaitingList } from './book-list.ts';
import { MealsToBook } from './book-meals.ts';
import { outcomeInWords } from './plan.ts';

export interface Booked {
  items: Booking[];
  state: StateNow;
  words: string[];
  /** Findings that do not count until they are booked again as confirmed. */
  questions: { bookingId: string; text: string }[];
}

/** What every part of the view is handed. */
export interface BookingDesk {
  plan: Plan;
  booked: Booked;
  /** Wall clock at the place of the plan. */
  now: string;
  /** Keeps an entry and sends it, for the time that is set above. @returns whether the server has it */
  book: (entry: Omit<BookingEntry, 'id' | 'at'> & { at?: string }, said: string) => Promise<boolean>;
}

export function BookView() {
  const page = usePage();
  const [, part] = page.route.split('/');
  const { plan } = page;
  if (plan === null)
    return html`<h1>Book what happened</h1>
      <p>${page.household === null && page.loadFault === null ? 'Loading…' : 'There is no plan yet to book for.'}</p>
      <a class="button" href="#/plan">Make a plan</a>`;
  if (part === 'changes') return html`<${Later} key=${`changes-${plan.id}`} load=${loadChanges} props=${{ plan }} />`;
  if (part === 'report') return html`<${Later} key=${`report-${plan.id}`} load=${loadReport} props=${{ plan }} />`;
  return html`<${Desk} key=${plan.id} plan=${plan} />`;
}

const loadChanges = () => import('./book-changes.ts').then((part) => part.ChangesView);
const loadReport = () => import('./book-report.ts').then((part) => part.ReportView);
const loadWeigh = () => import('./book-weigh.ts').then((part) => part.WeighPart);
const loadSoaks = () => import('./book-soaks.ts').then((part) => part.SoaksPart);
const loadEvents = () => import('./book-events.ts').then((part) => part.EventsPart);
const loadEarlier = () => import('./book-earlier.ts').then((part) => part.EarlierPart);

/** The wall clock of the place, kept up to date. */
export function usePlaceNow(plan: Plan): string {
  useNow();
  return placeClock(new Date(), placeOf(plan)?.timeZone);
}

function placeOf({ request, resolved }: Plan) {
  const { places } = resolved.household;
  return places.find(({ id }) => id === request.placeId) ?? places[0];
}

function Desk({ plan }: { plan: Plan }) {
  const page = usePage();
  const now = usePlaceNow(plan);
  const [booked, setBooked] = useState<Booked | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  /** Another time than now; null: now. */
  const [chosenAt, setChosenAt] = useState<string | null>(null);
  const [newer, setNewer] = useState<string | null>(null);
  const outbox = useOutbox(page, plan.request.householdId);

  const load = async () => {
    try {
      const { body } = await page.api.get<Booked>(`/api/plans/${plan.id}/bookings`);
      setBooked(body);
      setFault(null);
      const { body: plans } = await page.api.get<{ items: (PlanSummary & { replaces?: string | null })[] }>(
        '/api/plans',
      );
      setNewer(plans.items.find(({ replaces }) => replaces === plan.id)?.id ?? null);
    } catch (error) {
      setFault((error as ServerRefusal).message);
    }
  };
  const sendAgain = async () => {
    await outbox.sendAgain();
    await load();
  };
  useEffect(() => {
    void sendAgain();
    // What another device books is seen when this one is looked at again.
    const look = () => {
      if (document.visibilityState === 'visible') void sendAgain();
    };
    document.addEventListener('visibilitychange', look);
    return () => document.removeEventListener('visibilitychange', look);
  }, []);

  const settled = async (done: boolean, said: string) => {
    if (done) page.announce(said);
    else {
      page.alarm('The entry is kept. Look at the question above.');
      setTimeout(() => document.getElementById('waiting-title')?.focus(), 50);
    }
    await load();
    void page.reloadStores().catch(() => undefined);
    return done;
  };
  const book: BookingDesk['book'] = async (entry, said) =>
    settled(
      await outbox.add(plan.id, {
        at: chosenAt ?? placeClock(new Date(), placeOf(plan)?.timeZone),
        ...entry,
      } as BookingEntry),
      said,
    );

  const waiting = outbox.waiting();
  return html`<h1>Book what happened</h1>
    ${
      newer === null
        ? null
        : html`<p class="notice">
            There is a newer plan, made on another device or window.
            <button type="button" class="small" onClick=${() => void showPlan(page, newer)}>Show it and book there</button>
          </p>`
    }
    ${placeOf(plan)?.timeZone === undefined ? html`<p class="notice">The place has no time zone, so that its clock is taken as UTC. <a href="#/set-up">Set the time zone</a></p>` : null}
    ${fault === null ? null : html`<p class="notice" role="alert">${fault} <button type="button" class="small" onClick=${() => void sendAgain()}>Try again</button></p>`}
    <${WaitingList} plan=${plan} now=${now} waiting=${waiting} earlier=${booked?.items ?? []}
      onAnswer=${async (id: string, answer: Parameters<BookingOutbox['answer']>[1]) => settled(await outbox.answer(id, answer), 'Booked.')}
      onDrop=${(id: string) => {
        outbox.drop(id);
        page.announce('The entry is dropped.');
      }}
      onSend=${() => void sendAgain()} />
    <${TimeLine} now=${now} chosen=${chosenAt} onChoose=${setChosenAt} />
    ${
      booked === null
        ? html`<p>${fault === null ? 'Loading…' : 'What was booked before is not shown.'}</p>`
        : html`<${DeskParts} desk=${{ plan, booked, now, book }} waits=${waiting.length > 0} sendAgain=${sendAgain} />`
    }`;
}

function useOutbox(page: Page, householdId: string): BookingOutbox {
  const redraw = useRef(page.redraw);
  redraw.current = page.redraw;
  return useMemo(
    () =>
      openBookingOutbox(
        page.api,
        page.storage,
        `bookings:${householdId}`,
        () => crypto.randomUUID(),
        () => redraw.current(),
      ),
    [householdId],
  );
}

async function showPlan(page: Page, id: string) {
  const { body } = await page.api.get<Plan>(`/api/plans/${id}`);
  page.set({ plan: body, planBefore: null });
  location.hash = '#/book/changes';
}

/** When it happened: now, until another time is said. */
function TimeLine({
  now,
  chosen,
  onChoose,
}: {
  now: string;
  chosen: string | null;
  onChoose: (at: string | null) => void;
}) {
  if (chosen === null)
    return html`<div class="save-line">
      <p>Booked for <strong>now, ${clockOf(now)}</strong>.</p>
      <button type="button" class="small" onClick=${() => onChoose(now)}>It happened at another time</button>
    </div>`;
  return html`<div class="fields">
    <${TextField} label="It happened at" type="datetime-local" value=${chosen} required onValue=${(value: string) => onChoose(value.slice(0, 16))} />
    <button type="button" class="small" onClick=${() => onChoose(null)}>Book for now again</button>
  </div>`;
}

function DeskParts({ desk, waits, sendAgain }: { desk: BookingDesk; waits: boolean; sendAgain: () => Promise<void> }) {
  const { plan, booked, now } = desk;
  const page = usePage();
  const over = lastDateOf(plan) < now.slice(0, 10);
  const warned = booked.state.belowMark.length > 0;
  // What presses comes first; where nothing does, the meals do.
  const stand = html`<section class=${`outcome${warned ? ' outcome-short' : ''}`} aria-labelledby="stand-title">
      <h2 id="stand-title" tabindex="-1">How things stand</h2>
      ${
        booked.words.length === 0
          ? html`<p>All as planned, as far as it is booked.</p>`
          : html`<ul>${booked.words.map((text) => html`<li>${plainText(plan, text, now, page.units)}</li>`)}</ul>`
      }
      ${booked.questions.map(
        ({ bookingId, text }) =>
          html`<p class="row-end">
            <button type="button" onClick=${() => void confirm(desk, bookingId)}>It is right: count it<span class="unseen"> (${text})</span></button>
          </p>`,
      )}
      ${over ? html`<p>The days of this plan are over.</p>` : html`<${PlanAgain} plan=${plan} now=${now} waits=${waits} sendAgain=${sendAgain} />`}
      <p><a class="button" href="#/book/report">${over ? 'The report of the outage' : 'The report so far'}</a></p>
    </section>`;
  return html`<nav class="jumps" aria-label="On this page">
      ${[
        ['meals-title', 'Meals'],
        ['weigh-title', 'Weigh'],
        ['water-title', 'In water and box'],
        ['event-title', 'Broke or came'],
        ['stand-title', 'Plan again'],
        ['booked-title', 'Booked so far'],
      ].map(([id, title]) => html`<a class="jump" href=${`#${id}`}>${title}</a>`)}
    </nav>
    ${warned ? stand : null}
    <${MealsToBook} desk=${desk} />
    <section aria-labelledby="weigh-title">
      <h2 id="weigh-title">Weigh and measure</h2>
      <${Later} load=${loadWeigh} props=${{ desk }} />
    </section>
    <section aria-labelledby="water-title">
      <h2 id="water-title" tabindex="-1">In water, in pot and box</h2>
      <${Later} load=${loadSoaks} props=${{ desk }} />
    </section>
    <section aria-labelledby="event-title">
      <h2 id="event-title">What broke, came or left</h2>
      <${Later} load=${loadEvents} props=${{ desk }} />
    </section>
    ${warned ? null : stand}
    <${BookedList} desk=${desk} />
    ${plan.continues == null ? null : html`<${LaterPart} title="Booked for the plans before this one" load=${loadEarlier} props=${{ plan, now }} />`}`;
}

/** Books an entry again as confirmed. */
async function confirm({ booked, book }: BookingDesk, bookingId: string): Promise<void> {
  const found = booked.items.find(({ id }) => id === bookingId);
  if (found === undefined) return;
  const { id: _id, planId: _planId, bookedAt: _bookedAt, format: _format, ...entry } = found;
  await book({ ...entry, confirmed: true }, 'It counts now.');
}

function lastDateOf(plan: Plan): string {
  return plan.water.byDay.at(-1)?.date ?? plan.request.startsAt.slice(0, 10);
}

/** One press makes the rest of the plan anew from what is booked. */
function PlanAgain({
  plan,
  now,
  waits,
  sendAgain,
}: {
  plan: Plan;
  now: string;
  waits: boolean;
  sendAgain: () => Promise<void>;
}) {
  const page = usePage();
  const { planning } = page;
  if (now < plan.request.startsAt)
    return html`<p>The plan begins on ${dayInWords(plan.request.startsAt)} at ${clockOf(plan.request.startsAt)}. What is booked from then on can be planned with.</p>`;
  async function again() {
    if (planning !== null) return;
    if (waits) {
      await sendAgain();
      page.alarm('An entry is not booked yet. Answer its question first, so that the new plan knows of it.');
      document.getElementById('waiting-title')?.focus();
      return;
    }
    await planAgain(page, plan, now, outcomeInWords);
  }
  return html`<p>From ${clockOn(now, now)} on, with what is booked. What hangs on the wall stands where it is as good.</p>
    ${page.planFault === null ? null : html`<p class="notice">${page.planFault} ${page.planErrors.map(({ detail }) => detail).join(' ')}</p>`}
    ${planning === null ? null : html`<${WorkProgress} doing="Planning" after="the plan is being checked" ...${planning} />`}
    <p><button type="button" class="main-button" aria-disabled=${planning === null ? undefined : 'true'} onClick=${again}>Plan again from now</button></p>`;
}
