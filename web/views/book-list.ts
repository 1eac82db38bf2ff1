/** Entries that wait for an answer or for the server, and those that are booked, each with its time and a way back. */
import { foundText } from '../../api/wording/change-lines.ts';
import type { FieldAnswer } from '../api-client.ts';
import type { Booking, Plan } from '../api-types.ts';
import type { WaitingEntry } from '../booking-outbox.ts';
import { entryWords, plainText } from '../booking-words.ts';
import { clockOf, clockOn } from '../dates.ts';
import { html } from '../html.ts';
import { usePage } from '../page-state.ts';
import type { BookingDesk } from './book.ts';

type AnyEntry = Record<string, unknown> & { id: string; kind: string };

export function WaitingList({
  plan,
  now,
  waiting,
  earlier,
  onAnswer,
  onDrop,
  onSend,
}: {
  plan: Plan;
  now: string;
  waiting: readonly WaitingEntry[];
  earlier: readonly Booking[];
  onAnswer: (id: string, answer: FieldAnswer) => void;
  onDrop: (id: string) => void;
  onSend: () => void;
}) {
  const { units } = usePage();
  const shown = waiting.filter(({ phase }) => phase !== 'sending');
  if (shown.length === 0) return null;
  return html`<section class="notice" aria-labelledby="waiting-title">
    <h2 id="waiting-title" tabindex="-1">Not booked yet</h2>
    <p>Kept on this device until it is booked or you drop it.</p>
    <ul class="kit-list">
      ${shown.map(({ entry, phase, message, errors }) => {
        const line = entryWords(plan, entry, units, earlier as unknown as AnyEntry[]);
        const [error] = errors;
        const asked = [error?.detail ?? message, error?.question ?? ''].filter((text) => text !== '');
        return html`<li class="kit" key=${entry.id}>
          <div class="kit-name">
            <p><span class="clock">${clockOn(entry.at, now)}</span> ${line}</p>
            ${asked.map((text, index) => html`<p class=${index === 1 ? 'way-out' : undefined}>${plainText(plan, text, now, units)}</p>`)}
          </div>
          <div class="row-end">
            ${(error?.answers ?? []).map(
              (answer) =>
                html`<button type="button" onClick=${() => onAnswer(entry.id, answer)}>${plainText(plan, answer.words, now, units)}</button>`,
            )}
            ${phase === 'away' ? html`<button type="button" onClick=${onSend}>Send it again</button>` : null}
            <button type="button" class="small" onClick=${() => onDrop(entry.id)}>Drop it<span class="unseen"> ${line}</span></button>
          </div>
        </li>`;
      })}
    </ul>
  </section>`;
}

export function BookedList({ desk }: { desk: BookingDesk }) {
  const { plan, booked } = desk;
  const undone = new Set(booked.items.flatMap((item) => (item.kind === 'undo' ? [item.bookingId] : [])));
  const items = [...booked.items].reverse();
  return html`<section aria-labelledby="booked-title">
    <h2 id="booked-title" tabindex="-1">Booked so far</h2>
    ${
      items.length === 0
        ? html`<p>Nothing yet. What is not booked counts as done as planned.</p>`
        : html`<ol class="kit-list" reversed>
            ${items.map((item) => html`<${BookedLine} key=${item.id} plan=${plan} item=${item} desk=${desk} isUndone=${undone.has(item.id)} />`)}
          </ol>`
    }
  </section>`;
}

/** @param desk absent: the entry is shown only */
export function BookedLine({
  plan,
  item,
  all,
  now,
  desk,
  isUndone,
}: {
  plan: Plan;
  item: Booking;
  all?: readonly Booking[];
  now?: string;
  desk?: BookingDesk;
  isUndone: boolean;
}) {
  const { units } = usePage();
  const today = desk?.now ?? now ?? item.at;
  const earlier = (desk?.booked.items ?? all ?? []) as unknown as AnyEntry[];
  const line = entryWords(plan, item as unknown as AnyEntry, units, earlier);
  const difference = desk?.booked.state.differences.find(({ bookingId }) => bookingId === item.id);
  return html`<li class="kit">
    <div class="kit-name">
      <p>
        <span class="clock">${clockOn(item.at, today)}</span> ${isUndone ? html`<s>${line}</s> (taken back)` : line}
        ${item.confirmed === true ? html` <span class="tag">confirmed</span>` : null}
      </p>
      ${difference === undefined || desk === undefined ? null : html`<p class="hint">${plainText(plan, foundText(difference, desk.booked.state, today), today, units)}</p>`}
      ${item.note === undefined ? null : html`<p class="hint">${item.note}</p>`}
    </div>
    ${
      desk === undefined || isUndone || item.kind === 'undo'
        ? null
        : html`<button type="button" class="small" onClick=${() =>
            void takeBack(desk, item)}>Undo<span class="unseen"> ${clockOf(item.at)} ${line}</span></button>`
    }
  </li>`;
}

/** Taking back happens now, not at the time that is set for other entries. */
async function takeBack(desk: BookingDesk, { id, at }: Booking): Promise<void> {
  const now = at > desk.now ? at : desk.now;
  await desk.book({ kind: 'undo', bookingId: id, at: now }, 'Taken back. The entry stays in the list.');
  document.getElementById('booked-title')?.focus();
}
