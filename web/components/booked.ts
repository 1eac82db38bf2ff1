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

type Undoable = { entryIds: string[] } | { importId: string };

/** Takes entries back. */
async function takeBack(page: Page, what: Undoable): Promise<void> {
  await page.api.post('/api/stock/undo', { ...what, at: wallClock(new Date()) });
}

export function useBooked(): Booked {
  const page = usePage();
  const [last, setLast] = useState<{ said: string; undo: Undoable | null } | null>(null);
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
      const { body: answer } = await page.api.post<{
        items?: StockEntry[];
        moved?: StockEntry[];
        importId?: string | null;
      }>(path, body);
      const entryIds = (answer.items ?? answer.moved ?? []).map((entry) => entry.id);
      const undo = answer.importId ? { importId: answer.importId } : entryIds.length > 0 ? { entryIds } : null;
      setLast({ said, undo });
      page.announce(said);
    });
  const undo = () =>
    attempt(async () => {
      if (last?.undo) await takeBack(page, last.undo);
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
            ${last.undo === null ? null : html`<button type="button" class="small" onClick=${undo}>Undo</button>`}
          </div>`
    }
  `;
  return { book, line };
}
