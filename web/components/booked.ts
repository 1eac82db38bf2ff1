/** Booking entries of the stock ledger from a form: the answer in a line with its undo, a refusal at its place. */
import { useState } from 'preact/hooks';
import { ServerRefusal } from '../api-client.ts';
import type { StockEntry } from '../api-types.ts';
import { wallClock } from '../dates.ts';
import { html } from '../html.ts';
import { type Page, usePage } from '../page-state.ts';
import { ErrorSummary } from './fields.ts';

export interface Booked {
  /** Sends a change; says `said` when it is stored. */
  book(path: string, body: unknown, said: string): Promise<boolean>;
  /** What was booked last, with its undo, or why it was refused. */
  line: unknown;
}

/** Takes entries back. */
async function takeBack(page: Page, entryIds: readonly string[]): Promise<void> {
  await page.api.post('/api/stock/undo', { entryIds, at: wallClock(new Date()) });
}

export function useBooked(): Booked {
  const page = usePage();
  const [last, setLast] = useState<{ said: string; ids: string[] } | null>(null);
  const [fault, setFault] = useState<ServerRefusal | null>(null);
  async function attempt(job: () => Promise<void>): Promise<boolean> {
    let done = false;
    try {
      await job();
      setFault(null);
      done = true;
    } catch (error) {
      if (!(error instanceof ServerRefusal)) throw error;
      setFault(error);
      page.alarm(error.message);
    }
    await page.reloadStores();
    return done;
  }
  const book = (path: string, body: unknown, said: string) =>
    attempt(async () => {
      const { body: answer } = await page.api.post<{ items?: StockEntry[]; moved?: StockEntry[]; entryIds?: string[] }>(
        path,
        body,
      );
      const ids = answer.entryIds ?? (answer.items ?? answer.moved ?? []).map((entry) => entry.id);
      setLast({ said, ids });
      page.announce(said);
    });
  const undo = () =>
    attempt(async () => {
      await takeBack(page, last?.ids ?? []);
      page.announce(`Taken back: ${last?.said ?? ''}`);
      setLast(null);
    });
  const line = html`
    ${fault === null ? null : html`<p class="notice" role="alert">${fault.message}</p><${ErrorSummary} title="Not booked" errors=${fault.errors} />`}
    ${
      last === null
        ? null
        : html`<div class="save-line">
            <p>${last.said}</p>
            ${last.ids.length === 0 ? null : html`<button type="button" class="small" onClick=${undo}>Undo</button>`}
          </div>`
    }
  `;
  return { book, line };
}
