/** Entries that are kept on the device until the server has them: nothing is lost, sent twice, or changed unasked. */
import { expect, it } from 'vitest';
import { ServerRefusal } from '../../web/api-client.ts';
import { type BookingEntry, openBookingOutbox } from '../../web/booking-outbox.ts';

const EATEN = { kind: 'meal-eaten' as const, at: '2026-12-05T18:50', meal: '2026-12-05-evening' };

/** A device with its storage and a server that answers as it is told, one answer for each sending, then `ok`. */
function device(answers: ('ok' | Error)[] = []) {
  const kept = new Map<string, string>();
  const storage = {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
    removeItem: (key: string) => void kept.delete(key),
  };
  const sent: { path: string; entry: BookingEntry }[] = [];
  const api = {
    post: async (path: string, entry: unknown) => {
      sent.push({ path, entry: entry as BookingEntry });
      const answer = answers.shift() ?? 'ok';
      if (answer !== 'ok') throw answer;
      return { body: null, etag: null } as never;
    },
  };
  let ids = 0;
  const open = () =>
    openBookingOutbox(
      api,
      storage,
      'bookings:house',
      () => `id-${++ids}`,
      () => undefined,
    );
  return { kept, sent, open };
}
const away = () => new ServerRefusal(0, 'The server does not answer.');

it('keeps what the server did not get, and sends it later under the same id', async () => {
  const { kept, sent, open } = device([away()]);
  const first = open();
  expect(await first.add('plan-1', EATEN)).toBe(false);
  expect(first.waiting()).toMatchObject([{ phase: 'away', entry: { ...EATEN, id: 'id-1' } }]);
  // The page was closed; the next visit takes it up.
  const second = open();
  expect(second.waiting()).toMatchObject([{ planId: 'plan-1', phase: 'away', entry: { id: 'id-1' } }]);
  expect(await second.sendAgain()).toBe(true);
  expect(sent.map(({ path, entry }) => [path, entry.id])).toEqual([
    ['/api/plans/plan-1/bookings', 'id-1'],
    ['/api/plans/plan-1/bookings', 'id-1'],
  ]);
  expect(kept.size).toBe(0);
});

it('takes an id that is taken as booked: the answer to the first sending was lost', async () => {
  const { kept, open } = device([away(), new ServerRefusal(409, 'The id is taken')]);
  const outbox = open();
  await outbox.add('plan-1', EATEN);
  expect(await outbox.sendAgain()).toBe(true);
  expect(kept.size).toBe(0);
});

it('keeps what is asked about as it was typed, and changes only what an answer says', async () => {
  const refusal = new ServerRefusal(422, 'at: It is 15:00 now', [
    { pointer: '#/at', detail: 'It is 15:00 now', question: 'Was it yesterday?', answers: [] },
  ]);
  const { sent, open } = device([refusal]);
  const outbox = open();
  expect(await outbox.add('plan-1', { ...EATEN, note: 'cold' })).toBe(false);
  expect(outbox.waiting()).toMatchObject([{ phase: 'asked', entry: { ...EATEN, note: 'cold' } }]);
  // A question is not asked again and again of its own accord.
  expect(await outbox.sendAgain()).toBe(false);
  expect(sent).toHaveLength(1);
  const answer = { words: 'It was yesterday', change: { at: '2026-12-04T18:50', note: null }, first: null };
  expect(await outbox.answer('id-1', answer)).toBe(true);
  expect(sent[1]?.entry).toEqual({ ...EATEN, id: 'id-1', at: '2026-12-04T18:50' });
  expect(outbox.waiting()).toEqual([]);
});

it('sends what an answer puts first before the entry, and keeps both where that does not arrive', async () => {
  const refusal = new ServerRefusal(422, 'leftKg: more than before', []);
  const { sent, open } = device([refusal, away()]);
  const outbox = open();
  await outbox.add('plan-1', { kind: 'fuel-weighed', at: EATEN.at, leftKg: 2 });
  const first = { kind: 'came', at: EATEN.at, fuel: { fuelId: 'propane', containerId: 'bottle', kg: 1 } };
  expect(await outbox.answer('id-1', { words: '1 kg came', change: {}, first })).toBe(false);
  expect(outbox.waiting().map(({ entry }) => entry.kind)).toEqual(['came', 'fuel-weighed']);
  expect(await outbox.sendAgain()).toBe(true);
  expect(sent.slice(2).map(({ entry }) => entry.kind)).toEqual(['came', 'fuel-weighed']);
});

it('forgets an entry only when that is said, and never those of another window', async () => {
  const { kept, open } = device([away(), away()]);
  const one = open();
  const other = open();
  await one.add('plan-1', EATEN);
  await other.add('plan-1', { ...EATEN, meal: '2026-12-06-midday' });
  one.drop('id-1');
  expect(one.waiting()).toEqual([]);
  expect(kept.get('bookings:house')).toContain('2026-12-06-midday');
  expect(kept.get('bookings:house')).not.toContain('2026-12-05-evening');
});
