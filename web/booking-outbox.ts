/**
 * Entries on their way to the server. Each is kept on this device from the press of its button until the server has it: a
 * server that is away gets it later, and one that the server asks about waits for its answer. Nothing is changed unasked.
 */
import { type ApiClient, type FieldAnswer, type FieldError, ServerRefusal } from './api-client.ts';
import type { BookingKind } from './api-types.ts';

/** An entry as it is sent. */
export interface BookingEntry {
  id: string;
  kind: BookingKind;
  /** Wall clock at the place of the plan. */
  at: string;
  [member: string]: unknown;
}

export interface WaitingEntry {
  planId: string;
  entry: BookingEntry;
  /** `asked`: the server asks back; `away`: it did not answer. */
  phase: 'sending' | 'asked' | 'away';
  message: string;
  errors: FieldError[];
}

export interface BookingOutbox {
  waiting(): readonly WaitingEntry[];
  /** Keeps an entry and sends it. @returns whether the server has it */
  add(planId: string, entry: Omit<BookingEntry, 'id'>): Promise<boolean>;
  /** Takes an answer to a question: changes the entry, sends what goes before it, then the entry. */
  answer(id: string, answer: FieldAnswer): Promise<boolean>;
  /** Sends everything that did not get through. @returns whether nothing waits any more */
  sendAgain(): Promise<boolean>;
  /** Forgets an entry, because whoever typed it says so. */
  drop(id: string): void;
}

/**
 * Takes up what an earlier visit could not send.
 * @param key name of the list on this device
 * @param newId ids of entries: a repeated sending of one is known by it
 * @param notify called after every change
 */
export function openBookingOutbox(
  api: Pick<ApiClient, 'post'>,
  storage: Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>,
  key: string,
  newId: () => string,
  notify: () => void,
): BookingOutbox {
  let list: WaitingEntry[] = keptIn(storage, key);
  const known = new Set(list.map(({ entry }) => entry.id));
  const keep = (next: WaitingEntry[]) => {
    list = next;
    for (const { entry } of list) known.add(entry.id);
    // Another window of this device may have entries of its own in the same place.
    const others = keptIn(storage, key).filter(({ entry }) => !known.has(entry.id));
    const all = [...others, ...list];
    if (all.length === 0) storage.removeItem(key);
    else storage.setItem(key, JSON.stringify(all.map(({ planId, entry }) => ({ planId, entry }))));
    notify();
  };
  const change = (id: string, part: Partial<WaitingEntry>) =>
    keep(list.map((one) => (one.entry.id === id ? { ...one, ...part } : one)));
  const without = (id: string) => list.filter((one) => one.entry.id !== id);

  async function send(id: string): Promise<boolean> {
    const own = list.find((one) => one.entry.id === id);
    if (own === undefined) return true;
    change(id, { phase: 'sending', message: '', errors: [] });
    try {
      await api.post(`/api/plans/${own.planId}/bookings`, own.entry);
    } catch (error) {
      if (!(error instanceof ServerRefusal)) {
        change(id, { phase: 'away', message: 'It was not sent. Try again.' });
        throw error;
      }
      // It had arrived before, and only the answer was lost.
      if (error.status !== 409) {
        const asked = error.status === 422;
        change(id, { phase: asked ? 'asked' : 'away', message: error.message, errors: error.errors });
        return false;
      }
    }
    keep(without(id));
    return true;
  }

  return {
    waiting: () => list,
    async add(planId, entry) {
      const own = { ...entry, id: newId() } as BookingEntry;
      keep([...list, { planId, entry: own, phase: 'sending', message: '', errors: [] }]);
      return send(own.id);
    },
    async answer(id, answer) {
      const own = list.find((one) => one.entry.id === id);
      if (own === undefined) return true;
      const entry = Object.fromEntries(
        Object.entries({ ...own.entry, ...answer.change }).filter(([, value]) => value !== null),
      ) as BookingEntry;
      if (answer.first !== null) {
        // It goes before the other in the list, so that it is sent before it, now or later.
        const first = { ...answer.first, id: newId() } as BookingEntry;
        const at = list.indexOf(own);
        const before: WaitingEntry = { planId: own.planId, entry: first, phase: 'sending', message: '', errors: [] };
        const after: WaitingEntry = {
          ...own,
          entry,
          phase: 'away',
          message: 'It waits for the one before it.',
          errors: [],
        };
        keep([...list.slice(0, at), before, after, ...list.slice(at + 1)]);
        if (!(await send(first.id))) return false;
      } else change(id, { entry });
      return send(id);
    },
    async sendAgain() {
      for (const { entry, phase } of [...list]) if (phase === 'away') await send(entry.id);
      return list.length === 0;
    },
    drop: (id) => keep(without(id)),
  };
}

function keptIn(storage: Pick<Storage, 'getItem'>, key: string): WaitingEntry[] {
  try {
    const kept = JSON.parse(storage.getItem(key) ?? '[]') as Pick<WaitingEntry, 'planId' | 'entry'>[];
    return kept.map((one) => ({ ...one, phase: 'away', message: 'It is not sent yet.', errors: [] }));
  } catch {
    return [];
  }
}
