/** Booking what happened and planning again, as it is done on the third day: by hand, by keyboard, with a server that goes away. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { addDays } from '../../api/wording/times.ts';
import type { Booking, OutageReport, Plan } from '../../web/api-types.ts';
import { placeClock } from '../../web/dates.ts';
import { faultsFoundByAxe } from './axe.ts';
import { openWatchedPage, type StartedServer, startBrowser, startBuiltServer } from './started-server.ts';

/** Where the sample household lives. */
const ZONE = 'America/Denver';

let server: StartedServer;
let browser: Browser;
let plan: Plan;
beforeAll(async () => {
  [server, browser] = await Promise.all([startBuiltServer(), startBrowser()]);
  plan = await planned();
}, 60_000);
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

/** A plan of five days that began the day before yesterday. */
async function planned(): Promise<Plan> {
  const startsAt = `${addDays(placeClock(new Date(), ZONE), -2)}T07:00`;
  const response = await fetch(`${server.origin}/api/plans`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ householdId: 'saddle-lane', startsAt, days: 5, timeLimitS: 5 }),
  });
  if (response.status !== 201) throw new Error(await response.text());
  return (await response.json()) as Plan;
}

async function bookings(id = plan.id): Promise<Booking[]> {
  const response = await fetch(`${server.origin}/api/plans/${id}/bookings`);
  return ((await response.json()) as { items: Booking[] }).items;
}

async function open(page: Page, route = 'book') {
  await page.goto(`${server.origin}/#/${route}`);
  await page.locator('h1').waitFor();
}

const entries = (page: Page) =>
  page.locator('section', { has: page.getByRole('heading', { name: 'Booked so far' }) }).locator('li');
const scale = (page: Page) => page.getByRole('group', { name: 'Open cylinder' });

describe('booking', () => {
  test('is one press from the plan and from the next hours, and one press for a meal; taking it back is an entry', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await open(page, 'plan');
    await page.getByRole('link', { name: 'Book what happened' }).click();
    await page.getByRole('heading', { name: 'Book what happened' }).waitFor();
    await open(page, 'tonight');
    await page.getByRole('link', { name: 'Book what happened' }).click();
    const eaten = page.getByRole('button', { name: /^Eaten / }).first();
    await eaten.waitFor();
    const before = await entries(page).count();
    const asked = performance.now();
    await eaten.click();
    await page
      .getByRole('button', { name: /^Undo .* eaten$/ })
      .first()
      .waitFor();
    // In seconds: one press and an answer.
    expect(performance.now() - asked).toBeLessThan(5000);
    await page
      .getByRole('button', { name: /^Undo .* eaten$/ })
      .first()
      .click();
    await page.locator('s').first().waitFor();
    expect((await bookings()).map(({ kind }) => kind).slice(-2)).toEqual(['meal-eaten', 'undo']);
    expect(await entries(page).count()).toBe(before === 0 ? 2 : before + 2);
    expect(troubles).toEqual([]);
    await page.context().close();
  }, 60_000);

  test('asks back at a weight below that of the empty one, keeps it, and takes the likely answer', async () => {
    const { page, troubles } = await openWatchedPage(browser, { width: 390, height: 844 });
    await open(page);
    // What the scale should show, and the mark, stand beside the field.
    await scale(page)
      .getByText(/the scale shows/)
      .waitFor();
    await page
      .getByText(/Plan anew below/)
      .first()
      .waitFor();
    await scale(page)
      .getByLabel(/^With the container/)
      .fill('0.04');
    await scale(page).getByRole('button', { name: /^Book/ }).click();
    const waiting = page.getByRole('region', { name: 'Not booked yet' });
    await waiting.getByText(/An empty one weighs/).waitFor();
    expect((await bookings()).some(({ kind }) => kind === 'fuel-weighed')).toBe(false);
    // Nothing is lost when the page is loaded again.
    await page.reload();
    await waiting.getByText(/An empty one weighs/).waitFor();
    await waiting.getByRole('button', { name: /is what is left, without the container/ }).click();
    await waiting.waitFor({ state: 'detached' });
    expect((await bookings()).find(({ kind }) => kind === 'fuel-weighed')).toMatchObject({ leftKg: 0.04 });
    await page
      .getByText(/less than worked out|more than worked out|as worked out/)
      .first()
      .waitFor();
    expect(troubles).toEqual([]);
    await page.context().close();
  }, 60_000);

  test('works by keyboard alone, with every kind of entry', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await open(page);
    const lot = page.getByRole('group', { name: 'Cans' });
    await lot.getByLabel(/^What is left/).focus();
    await page.keyboard.type('100');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await page
      .getByText(/Water, cans: 100/)
      .first()
      .waitFor();
    await page.getByRole('button', { name: 'Something was put to soak' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Book the soak' }).focus();
    await page.keyboard.press('Enter');
    await page
      .getByText(/in water in the .* since/)
      .first()
      .waitFor();
    await page.getByRole('button', { name: 'A dish was not soft, or just soft' }).focus();
    await page.keyboard.press('Enter');
    await page.getByLabel(/^Minutes at the boil/).fill('20');
    await page.getByRole('button', { name: 'Not soft yet' }).focus();
    await page.keyboard.press('Enter');
    await page
      .getByText(/not soft after 20/)
      .first()
      .waitFor();
    await page.getByLabel('What happened').selectOption('broke');
    await page.getByLabel('What', { exact: true }).selectOption({ index: 0 });
    await page.getByRole('button', { name: 'Book it' }).focus();
    await page.keyboard.press('Enter');
    await page.getByText('Out of use:').waitFor();
    await page.getByLabel('What happened').selectOption('guests');
    await page.getByLabel(/^How many/).fill('2');
    await page.getByRole('button', { name: 'Book it' }).focus();
    await page.keyboard.press('Enter');
    await page.getByText('Guests: 2.').waitFor();
    await page.getByLabel('What happened').selectOption('guests-left');
    await page.getByRole('button', { name: 'Book it' }).click();
    await page.getByText('Left: all guests').first().waitFor();
    await page.getByLabel('What happened').selectOption('mended');
    await page.getByRole('button', { name: 'Book it' }).click();
    await page
      .getByText(/can be used again/)
      .first()
      .waitFor();
    const kinds = new Set((await bookings()).map(({ kind }) => kind));
    for (const kind of ['water-left', 'soak-set', 'food-tried', 'broke', 'came', 'left', 'mended'] as const)
      expect(kinds).toContain(kind);
    expect(troubles).toEqual([]);
    await page.context().close();
  }, 60_000);

  test('keeps an entry while the server is away, and books it once when it is back', async () => {
    const { page } = await openWatchedPage(browser, { width: 375, height: 800 });
    await open(page);
    await page
      .getByRole('group', { name: 'Rain barrel' })
      .getByLabel(/^What is left/)
      .fill('80');
    const before = (await bookings()).length;
    // The entry arrives, its answer does not: the worst case.
    let isAway = true;
    await page.route('**/bookings', async (route) => {
      if (route.request().method() !== 'POST' || !isAway) return route.continue();
      await route.fetch();
      isAway = false;
      return route.abort();
    });
    await page.getByRole('group', { name: 'Rain barrel' }).getByRole('button', { name: /^Book/ }).click();
    const waiting = page.getByRole('region', { name: 'Not booked yet' });
    await waiting.getByText(/The server does not answer/).waitFor();
    await waiting
      .getByText(/Water, rain barrel: 80/)
      .first()
      .waitFor();
    await waiting.getByRole('button', { name: 'Send it again' }).click();
    await waiting.waitFor({ state: 'detached' });
    expect(await bookings()).toHaveLength(before + 1);
    await page.context().close();
  }, 60_000);

  test('of two devices at once: both entries stand, and each sees the other', async () => {
    const [one, two] = await Promise.all([openWatchedPage(browser), openWatchedPage(browser, { width: 375 })]);
    await Promise.all([open(one.page), open(two.page)]);
    const before = (await bookings()).length;
    const meals = one.page.getByRole('button', { name: /^Eaten / });
    await meals.first().waitFor();
    await two.page
      .getByRole('button', { name: /^Skipped / })
      .nth(1)
      .waitFor();
    await Promise.all([
      meals.first().click(),
      two.page
        .getByRole('button', { name: /^Skipped / })
        .nth(1)
        .click(),
    ]);
    await one.page
      .getByRole('button', { name: /^Undo .* eaten$/ })
      .first()
      .waitFor();
    await two.page
      .getByRole('button', { name: /^Undo .* skipped$/ })
      .first()
      .waitFor();
    expect(await bookings()).toHaveLength(before + 2);
    await one.page.reload();
    await one.page
      .getByRole('button', { name: /^Undo .* skipped$/ })
      .first()
      .waitFor();
    expect([...one.troubles, ...two.troubles]).toEqual([]);
    await one.page.context().close();
    await two.page.context().close();
  }, 60_000);
});

describe('planning again', () => {
  test('says what changes and why, prints it on one page, and reports with files; light, dark and narrow', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await open(page);
    const many = page.getByRole('group', { name: /^Full cylinders/ });
    await many.getByLabel(/^Still full/).fill('1');
    await many.getByRole('button', { name: /^Book/ }).click();
    await page
      .getByText(/below the mark of/)
      .first()
      .waitFor();
    await page.getByRole('button', { name: 'Plan again from now' }).click();
    await page.getByRole('heading', { name: 'What changes', exact: true }).waitFor({ timeout: 40_000 });
    await page.getByRole('heading', { name: 'The changes' }).waitFor();
    expect(await page.locator('section', { hasText: 'The changes' }).locator('li').first().textContent()).toMatch(
      /, because /,
    );
    const sheet = page.getByRole('link', { name: /Print the changes on one page/ });
    const address = `${server.origin}${await sheet.getAttribute('href')}`;
    for (const format of ['A4', 'Letter'] as const) {
      const paper = await page.context().newPage();
      await paper.goto(address);
      await paper.getByRole('heading', { name: /^Changes from / }).waitFor();
      const pdf = await paper.pdf({ format });
      expect((pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length, format).toBe(1);
      await paper.close();
    }

    await open(page, 'book/report');
    await page.getByRole('heading', { name: 'Eaten' }).waitFor();
    for (const [name, type] of [
      [/CSV/, 'text/csv'],
      [/JSON/, 'application/json'],
    ] as const) {
      const link = page.getByRole('link', { name });
      expect(await link.getAttribute('download')).not.toBeNull();
      const answer = await fetch(`${server.origin}${await link.getAttribute('href')}`);
      expect(answer.headers.get('content-type')).toContain(type);
      if (type === 'application/json') expect(((await answer.json()) as OutageReport).planIds).toHaveLength(2);
    }

    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      for (const width of [1280, 320]) {
        await page.setViewportSize({ width, height: 800 });
        for (const route of ['book', 'book/changes', 'book/report']) {
          await open(page, route);
          await page.locator('main h2').first().waitFor();
          expect(await faultsFoundByAxe(page), `${route} ${colorScheme} ${width}`).toEqual([]);
          const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
          expect(wide, `${route} ${width}`).toBeLessThanOrEqual(0);
        }
      }
    }
    // What was booked before the new plan is still to be read.
    await open(page, 'book');
    await page.getByText('Booked for the plans before this one').click();
    await page
      .getByText(/Water, cans: 100/)
      .first()
      .waitFor();
    expect(troubles).toEqual([]);
    await page.context().close();
  }, 120_000);
});
