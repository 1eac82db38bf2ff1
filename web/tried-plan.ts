/** A plan that was made to see a difference and not taken: it is deleted, so that it is never mistaken for the plan. */
import type { Page } from './page-state.ts';

/** Where its id is kept on this device until it is taken or dropped. */
export const TRIED_PLAN = 'plan-tried';

/** Deletes the plan tried last, if there is one; a server that cannot be reached is asked again the next time. */
export async function dropTriedPlan({ storage, api }: Pick<Page, 'storage' | 'api'>): Promise<void> {
  const id = storage.getItem(TRIED_PLAN);
  if (id === null) return;
  await api.remove(`/api/plans/${id}`, '*').then(
    () => storage.removeItem(TRIED_PLAN),
    (error: { status?: number }) => {
      if (error.status === 404) storage.removeItem(TRIED_PLAN);
    },
  );
}

/** The same while the page is being closed, when nobody waits for an answer; the next visit makes sure. */
export function forgetTriedPlan(storage: Pick<Storage, 'getItem'>): void {
  const id = storage.getItem(TRIED_PLAN);
  if (id === null) return;
  const headers = { 'content-type': 'application/json', 'if-match': '*' };
  fetch(`/api/plans/${id}`, { method: 'DELETE', keepalive: true, headers }).catch(() => undefined);
}
