/** Which household the page shows, and which of them is the invented one that ships with the program. */
import type { HouseholdDocument, Plan } from './api-types.ts';
import type { Page, PlanSummary } from './page-state.ts';
import { openSavedDocument } from './saved-document.ts';
import { dropTriedPlan, TRIED_PLAN } from './tried-plan.ts';

/** Id of the invented household that an empty store is begun with. */
export const SAMPLE_ID = 'saddle-lane';

/** Whether nobody has told the program about a household of their own. */
export function hasOnlySample({ households }: Pick<Page, 'households'>): boolean {
  return households.every(({ id }) => id === SAMPLE_ID);
}

/**
 * Opens the household chosen last on this device, else one of the user's own, else the invented one; then its newest plan.
 * @throws ServerRefusal when something cannot be read
 */
export async function openHousehold(page: Page): Promise<void> {
  const { body } = await page.api.get<{ items: HouseholdDocument[] }>('/api/households');
  const households = body.items.map(({ id, name, places }) => ({
    id,
    name,
    placeIds: places.map((place) => place.id),
  }));
  const wanted = page.storage.getItem('household');
  const chosen =
    households.find(({ id }) => id === wanted) ?? households.find(({ id }) => id !== SAMPLE_ID) ?? households[0];
  if (chosen === undefined) {
    page.set({ households, household: null, plan: null, loadFault: 'No household is stored yet.' });
    return;
  }
  const household = await openSavedDocument<HouseholdDocument>(
    page.api,
    `/api/households/${chosen.id}`,
    page.storage,
    () => page.redraw(),
  );
  page.set({ households, household, loadFault: null });
  const plans = await page.api.get<{ items: PlanSummary[] }>('/api/plans');
  const tried = page.storage.getItem(TRIED_PLAN);
  if (plans.body.items.some(({ id }) => id === tried)) await dropTriedPlan(page);
  else page.storage.removeItem(TRIED_PLAN);
  const newest = plans.body.items
    .filter(({ id, householdId }) => householdId === chosen.id && id !== tried)
    .sort((a, b) => String(b.createdAt ?? '').localeCompare(String(a.createdAt ?? '')))[0];
  page.set({
    planBefore: null,
    plan: newest === undefined ? null : (await page.api.get<Plan>(`/api/plans/${newest.id}`)).body,
  });
}

/** Shows another household from now on, on this device. */
export async function showHousehold(page: Page, id: string): Promise<void> {
  await page.household?.flush();
  page.storage.setItem('household', id);
  await openHousehold(page);
}
