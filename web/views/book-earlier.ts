/** What was booked for the plans that the shown one goes on from: to read, since it is part of what was planned with. */
import { useEffect, useState } from 'preact/hooks';
import type { Booking, Plan } from '../api-types.ts';
import { html } from '../html.ts';
import { usePage } from '../page-state.ts';
import { BookedLine } from './book-list.ts';

interface EarlierPlan {
  plan: Plan;
  items: Booking[];
}

export function EarlierPart({ plan, now }: { plan: Plan; now: string }) {
  const { api } = usePage();
  const [earlier, setEarlier] = useState<EarlierPlan[] | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  useEffect(() => {
    const read = async () => {
      const found: EarlierPlan[] = [];
      for (let id = plan.request.replaces ?? null; id !== null; ) {
        const { body: before } = await api.get<Plan>(`/api/plans/${id}`);
        const { body } = await api.get<{ items: Booking[] }>(`/api/plans/${id}/bookings`);
        found.push({ plan: before, items: body.items });
        id = before.request.replaces ?? null;
      }
      setEarlier(found);
    };
    read().catch((error: Error) => setFault(error.message));
  }, [plan.id]);
  if (fault !== null) return html`<p class="notice" role="alert">${fault}</p>`;
  if (earlier === null) return html`<p>Loading…</p>`;
  const lines = earlier.flatMap(({ plan: before, items }) => {
    const undone = new Set(items.flatMap((item) => (item.kind === 'undo' ? [item.bookingId] : [])));
    return [...items].reverse().map((item) => ({ before, items, item, isUndone: undone.has(item.id) }));
  });
  if (lines.length === 0) return html`<p>Nothing was booked for them.</p>`;
  return html`<ol class="kit-list" reversed>
    ${lines.map(({ before, items, item, isUndone }) => html`<${BookedLine} key=${item.id} plan=${before} item=${item} all=${items} now=${now} isUndone=${isUndone} />`)}
  </ol>`;
}
