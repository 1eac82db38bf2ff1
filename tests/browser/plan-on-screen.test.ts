/** The plan on screen: the next action, each day on a line, what another choice would change, and units. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Plan } from '../../web/api-types.ts';
import { nextSteps } from '../../web/plan-clock.ts';
import { rowsOfDay } from '../../web/views/plan-day-bars.ts';
import { faultsFoundByAxe } from './axe.ts';
import { openWatchedPage, type StartedServer, startBrowser, startBuiltServer } from './started-server.ts';

let server: StartedServer;
let browser: Browser;
let plan: Plan;

beforeAll(async () => {
  server = await startBuiltServer();
  browser = await startBrowser();
  const response = await fetch(`${server.origin}/api/plans`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ householdId: 'saddle-lane', startsAt: '2026-12-05T17:00', days: 2, timeLimitS: 5 }),
  });
  plan = (await response.json()) as Plan;
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

async function planIds(): Promise<string[]> {
  const { items } = (await (await fetch(`${server.origin}/api/plans`)).json()) as { items: { id: string }[] };
  return items.map(({ id }) => id);
}

/** Mountain standard time, in which the sample household lives in December. */
const ZONE = '-07:00';

/** The page as it would be at an hour of the plan, whatever zone the test runs in. */
async function openAt(page: Page, at: string) {
  await page.clock.setFixedTime(new Date(`${at}:00${ZONE}`));
  // Another page in between: an address that differs in nothing would not be loaded again.
  await page.goto('about:blank');
  await page.goto(`${server.origin}/#/plan`);
  await page.locator('.next').waitFor();
}

describe('the next action', () => {
  test('stands on top of the plan at every third hour, with its day and time', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    const start = Date.parse('2026-12-05T17:00Z');
    for (let hour = 0; hour < 27; hour += 3) {
      const at = new Date(start + hour * 3_600_000).toISOString().slice(0, 16);
      await openAt(page, at);
      const [first] = nextSteps(plan, at);
      const text = (await page.locator('.next').textContent()) ?? '';
      expect(text, at).toContain(first?.at.slice(11));
      expect(text, at).toContain(first?.text);
    }
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  test('is the first step before the plan begins, and planning again when it is over', async () => {
    const { page } = await openWatchedPage(browser);
    await openAt(page, '2026-12-01T09:00');
    expect(await page.locator('.next').textContent()).toMatch(/The plan begins with.*17:00.*in 4 days/s);
    await openAt(page, '2026-12-20T09:00');
    expect(await page.locator('.next').textContent()).toMatch(/over\. Plan again/);
    await page.context().close();
  });
});

describe('a day on a line', () => {
  for (const colorScheme of ['light', 'dark'] as const) {
    test(`has a row for each pot, the same in a table, and nothing for axe, ${colorScheme}`, async () => {
      const { page, troubles } = await openWatchedPage(browser, { colorScheme });
      await openAt(page, '2026-12-05T17:00');
      const date = '2026-12-06';
      const day = page.locator('li.day', { hasText: 'Sunday 6' });
      await day.getByText('The day on a line').click();
      await day.locator('.day-time').waitFor();
      const { rows, servings } = rowsOfDay(plan, date);
      for (const row of rows) expect(await day.locator('.day-time svg[role=img]').textContent()).toContain(row.name);
      for (const { at } of servings)
        expect(await day.locator('.day-time').textContent()).toContain(`serve ${at.slice(11)}`);
      await day.getByText('The same as a table').click();
      const spans = rows.reduce((sum, row) => sum + row.bars.length + row.hands.length, 0) + servings.length;
      expect(await day.locator('.day-time + details tbody tr').count()).toBe(spans);
      expect(await faultsFoundByAxe(page)).toEqual([]);
      expect(troubles).toEqual([]);
      await page.context().close();
    });
  }
});

describe('another choice for a meal', () => {
  test('shows the difference first, keeps nothing that is left, and what is taken can be undone', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await openAt(page, '2026-12-05T12:00');
    const meal = plan.meals.find(({ id }) => id === '2026-12-06-evening');
    const planned = plan.cookings.find(({ id }) => id === meal?.dishes[0]?.cookingId);
    const card = page.locator('li.day', { hasText: 'Sunday 6' }).locator('details.meal').last();
    await card.locator('> summary').click();
    await card.getByText('Another dish, stove or pot').click();
    await card.locator('.swap').waitFor();
    expect(await card.getByLabel('Dish').inputValue()).toBe(planned?.kitId);
    const other = planned?.kitId === 'beef-potato-stew' ? 'chicken-noodle-pot' : 'beef-potato-stew';
    await card.getByLabel('Dish').selectOption(other);
    await card.getByLabel('Stove').selectOption('camp-stove');
    const show = card.getByRole('button', { name: 'Show what would change' });
    await show.click();
    const difference = card.locator('.difference');
    await difference.waitFor();
    expect(await difference.textContent()).toMatch(/What would change.*Propane.*(more|less)/s);
    expect(await difference.textContent()).toContain(planned?.kitName);
    await expect.poll(() => page.evaluate(() => document.activeElement?.textContent)).toBe('What would change');
    expect(await faultsFoundByAxe(page)).toEqual([]);
    // Left as it is, the plan that was tried is gone.
    await card.getByRole('button', { name: 'Leave it as it is' }).click();
    await difference.waitFor({ state: 'detached' });
    await expect.poll(planIds).toEqual([plan.id]);
    // One that was only looked at is gone after a reload as well.
    await show.click();
    await difference.waitFor();
    expect(await planIds()).toHaveLength(2);
    await page.reload();
    await page.locator('.next').waitFor();
    await expect.poll(planIds).toEqual([plan.id]);
    await card.locator('> summary').click();
    await card.getByText('Another dish, stove or pot').click();
    await card.getByLabel('Dish').selectOption(other);
    await show.click();
    await card.getByRole('button', { name: 'Take this plan' }).click();
    await page.getByText('This plan took the place of the one before.').waitFor();
    expect(await planIds()).toHaveLength(2);
    await page.getByRole('button', { name: 'Undo: back to the plan before' }).click();
    await expect.poll(planIds).toEqual([plan.id]);
    expect(await page.locator('li.day', { hasText: 'Sunday 6' }).textContent()).toContain(planned?.kitName);
    // While the page was closed its own farewell may have deleted the plan first; the browser logs that by itself.
    expect(troubles.filter((trouble) => !/status of 404/.test(trouble))).toEqual([]);
    await page.context().close();
  });
});

describe('units', () => {
  /** A metric figure; of food and its protein, grams are customary everywhere. */
  const METRIC_ALONE = /\d[\d.,\u202f]*[\s\u00a0](mL|L|kg|g|m|°C|kPa|kW|C)(?!\w| of protein)/g;

  test('chosen once, they hold on every view, and what is stored stays', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await openAt(page, '2026-12-05T17:00');
    const before = await (await fetch(`${server.origin}/api/households/saddle-lane`)).text();
    await page.getByLabel('Units').selectOption('us');
    for (const view of ['plan', 'tonight', 'stores', 'set-up', 'numbers', 'first-minutes']) {
      await page.goto(`${server.origin}/#/${view}`);
      await page.locator('h1').waitFor();
      await page.waitForTimeout(400);
      await page.evaluate(() => {
        for (const part of document.querySelectorAll('details')) part.open = true;
      });
      await page.waitForTimeout(400);
      // In sentences both stand side by side, the wanted one first.
      const text = (await page.locator('main').textContent()) ?? '';
      const outside = text.replace(/\([^()]*\)/g, '');
      expect(
        [...outside.matchAll(METRIC_ALONE)].map(([found]) => found),
        view,
      ).toEqual([]);
    }
    expect(await (await fetch(`${server.origin}/api/households/saddle-lane`)).text()).toBe(before);
    expect(troubles).toEqual([]);
    await page.context().close();
  });
});
