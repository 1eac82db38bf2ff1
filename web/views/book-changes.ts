/** What a new plan changes of the one before: each change with its reason, what was learned, and the sheet for the wall. */
import { useEffect, useState } from 'preact/hooks';
import type { Plan, PlanChange } from '../api-types.ts';
import { plainText } from '../booking-words.ts';
import { html } from '../html.ts';
import { usePage } from '../page-state.ts';
import { usePlaceNow } from './book.ts';
import { outcomeInWords } from './plan.ts';

interface Changes {
  at: string;
  summary: string;
  changes: (PlanChange & { text: string })[];
  underWay: string[];
  learned: string[];
  found: string[];
}

export function ChangesView({ plan }: { plan: Plan }) {
  const page = usePage();
  const now = usePlaceNow(plan);
  const [changes, setChanges] = useState<Changes | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const load = () => {
    setFault(null);
    page.api.get<Changes>(`/api/plans/${plan.id}/changes`).then(
      ({ body }) => {
        setChanges(body);
        page.announce(body.summary);
      },
      (error: Error) => setFault(error.message),
    );
  };
  useEffect(() => {
    if (plan.request.replaces != null) load();
  }, []);
  if (plan.request.replaces == null)
    return html`<h1>What changes</h1>
      <p>This plan takes the place of no other.</p>
      <a class="button" href="#/book">Book what happened</a>`;
  const list = (title: string, id: string, texts: readonly string[]) =>
    texts.length === 0
      ? null
      : html`<section aria-labelledby=${id}>
          <h2 id=${id}>${title}</h2>
          <ul>${texts.map((text) => html`<li>${plainText(plan, text, now, page.units)}</li>`)}</ul>
        </section>`;
  return html`<h1>What changes</h1>
    ${fault === null ? null : html`<p class="notice" role="alert">${fault} <button type="button" class="small" onClick=${load}>Try again</button></p>`}
    ${
      changes === null
        ? html`<p>${fault === null ? 'Loading…' : ''}</p>`
        : html`<section class=${`outcome outcome-${plan.outcome}`} aria-labelledby="changes-title">
              <h2 id="changes-title" tabindex="-1">${changes.summary}</h2>
              <p>${outcomeInWords(plan)}</p>
              ${changes.learned.map((text) => html`<p><strong>${plainText(plan, text, now, page.units)}</strong></p>`)}
              <div class="print-row">
                <a class="button main-button" href=${`/api/plans/${plan.id}/changes/sheet?units=${page.units}`} target="_blank" rel="noopener">Print the changes on one page<span class="unseen"> (opens a new tab)</span></a>
                <a class="button" href=${`/api/plans/${plan.id}/schedule?units=${page.units}`} target="_blank" rel="noopener">Print the whole schedule anew<span class="unseen"> (opens a new tab)</span></a>
              </div>
            </section>
            ${list('See to this first', 'first-title', changes.underWay)}
            ${list(
              'The changes',
              'list-title',
              changes.changes.map(({ text }) => text),
            )}
            ${list('What was found', 'found-title', changes.found)}
            <div class="print-row">
              <a class="button" href="#/plan">The whole plan</a>
              <a class="button" href="#/tonight">The next 24 hours</a>
              <a class="button" href="#/book">Book what happened</a>
            </div>`
    }`;
}
