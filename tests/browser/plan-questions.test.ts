/** Questions about stores and plan on the page: how long, what binds, what next, what hot meals cost, and what if. */
import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { HouseholdDocument, Plan } from '../../web/api-types.ts';
import { faultsFoundByAxe } from './axe.ts';
import { ADVICE, ENDURANCE, TRADE_OFF } from './plan-answers.ts';
import { openWatchedPage, type StartedServer, startBrowser, startBuiltServer } from './started-server.ts';

const QUESTIONS = /\/api\/(endurance|plans\/[^/]+\/(advice|trade-off))(\?explain=1)?$/;
const JSON_TYPE = { 'content-type': 'application/json' };

let server: StartedServer;
let browser: Browser;
beforeAll(async () => {
  [server, browser] = await Promise.all([startBuiltServer(), startBrowser()]);
  await planTwoDays();
}, 60_000);
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

async function planTwoDays(): Promise<Plan> {
  const response = await fetch(`${server.origin}/api/plans`, {
    method: 'POST',
    headers: JSON_TYPE,
    body: JSON.stringify({ householdId: 'saddle-lane', startsAt: '2026-12-05T17:00', days: 2, timeLimitS: 5 }),
  });
  if (response.status !== 201) throw new Error(await response.text());
  return (await response.json()) as Plan;
}

async function changeHousehold(change: (household: HouseholdDocument) => HouseholdDocument) {
  const address = `${server.origin}/api/households/saddle-lane`;
  const read = await fetch(address);
  const body = JSON.stringify(change((await read.json()) as HouseholdDocument));
  const written = await fetch(address, {
    method: 'PUT',
    headers: { ...JSON_TYPE, 'if-match': read.headers.get('etag') ?? '' },
    body,
  });
  if (!written.ok) throw new Error(await written.text());
}

const section = (page: Page, title: string) =>
  page.locator('section', { has: page.getByRole('heading', { name: title, exact: true }) });

async function askAll(page: Page) {
  const lasts = section(page, 'How long it lasts');
  await lasts.getByLabel(/What is missing for/).fill('14');
  await lasts.getByRole('button', { name: 'How long do we last?' }).click();
  await lasts.locator('.lasts').waitFor({ timeout: 30_000 });
  const next = section(page, 'What to get or do next');
  await next.getByRole('button', { name: 'What helps most?' }).click();
  await next.locator('.answer').waitFor({ timeout: 30_000 });
  const curve = section(page, 'Fuel against hot and varied meals');
  await curve.getByRole('button', { name: 'Show the curve' }).click();
  await curve.locator('.answer').waitFor({ timeout: 30_000 });
  return { lasts, next, curve };
}

/** Cells as they are seen: what only screen readers say is left out. */
const cellsOf = (rows: Locator) =>
  rows.evaluateAll((all) =>
    all.map((row) =>
      [...row.children].map((cell) => {
        const seen = cell.cloneNode(true) as Element;
        for (const unseen of seen.querySelectorAll('.unseen')) unseen.remove();
        return (seen.textContent ?? '').trim().replace(/\s+/g, ' ').replace(/ ,/g, ',');
      }),
    ),
  );

describe('asked on the plan view', () => {
  test('the server answers every question, and answers stay while another view is open', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    // The page gives each question 20 s; a test has less time and can do with fewer points.
    await page.route(QUESTIONS, (route) =>
      route.continue({ postData: JSON.stringify({ ...route.request().postDataJSON(), timeLimitS: 3 }) }),
    );
    // The stores come last: what is asked before they are known here must not be taken for a question about others.
    await page.route('**/api/stock', async (route) => {
      await new Promise((resolve) => setTimeout(resolve, 1000));
      await route.continue();
    });
    await page.goto(`${server.origin}/#/plan`);
    const { lasts } = await askAll(page);
    expect(await lasts.locator('.lasts').textContent()).toMatch(/Everybody is fed for|Not even the first day/);
    await page.goto(`${server.origin}/#/stores`);
    await page.locator('h1', { hasText: 'Stores' }).waitFor();
    await page.goto(`${server.origin}/#/plan`);
    await lasts.locator('.lasts').waitFor();
    expect(troubles).toEqual([]);
    await page.context().close();
  }, 90_000);

  test('days, what ends them, ranked advice and the curve are words, charts and tables, in light, dark and narrow', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await page.route(QUESTIONS, (route) => {
      const { pathname: address } = new URL(route.request().url());
      return route.fulfill({
        json: address.endsWith('endurance') ? ENDURANCE : address.endsWith('advice') ? ADVICE : TRADE_OFF,
      });
    });
    await page.goto(`${server.origin}/#/plan`);
    const { lasts, next, curve } = await askAll(page);

    expect((await lasts.locator('.lasts').textContent())?.replace(/\s+/g, ' ')).toBe(
      'Everybody is fed for 9 days, until Sunday 13 December. Every meal that should be hot is hot for 7 days; after that some are cold.',
    );
    await lasts.getByText('Proven: no plan from these stores feeds everybody for a day more.').waitFor();
    await lasts.getByRole('heading', { name: /^What ends it, on Monday 14.December/ }).waitFor();
    await lasts.getByRole('heading', { name: /^What is missing for 14.days, until Friday 18.December/ }).waitFor();
    await lasts.getByText('No single thing would do. These together would:').waitFor();
    // Every line of the chart is named at its end, and every point is a row of the table.
    const names = await lasts.locator('svg text').allTextContents();
    expect(names).toEqual(expect.arrayContaining(['Water', 'Propane', 'days']));
    expect(await lasts.locator('.line-dot').count()).toBe(2 * ENDURANCE.curve.length);
    expect((await cellsOf(lasts.locator('tbody tr')))[1]).toEqual([
      '5',
      'Wed 9 Dec',
      'yes, hot',
      '0.5 (0.4 to 0.6)',
      '50',
      '50',
    ]);

    expect(await next.locator('.ranked > li').count()).toBe(2);
    expect(await next.locator('.ranked > li').first().textContent()).toMatch(
      /Make a retained-heat box\..*2 days more fed\..*How sure: likely/s,
    );
    await next.getByText('The same as a table').click();
    expect((await cellsOf(next.locator('tbody tr')))[0]?.slice(0, 6)).toEqual([
      'Make a retained-heat box',
      '+2, hot +1',
      '+4.5',
      '90 % to 70 %',
      '6.5',
      '140 g less propane',
    ]);

    // Two lines: without regard to repeats, and with the fewest.
    expect(await curve.locator('svg text').allTextContents()).toEqual(
      expect.arrayContaining(['Least fuel', 'Fewest repeats', 'hot meals']),
    );
    expect(await curve.locator('tbody tr').count()).toBe(4);
    expect(await curve.getByRole('button', { name: /^Plan it with/ }).count()).toBe(4);
    expect(await section(page, 'What binds').textContent()).toMatch(/Nothing is left over of|Nothing binds/);
    await expect.poll(() => page.locator('#status').textContent()).toBe('4 points on the curve.');

    await page.evaluate(() => {
      for (const part of document.querySelectorAll('details')) part.open = true;
    });
    for (const theme of ['light', 'dark'] as const) {
      await page.getByLabel('Colours').selectOption(theme);
      expect(await faultsFoundByAxe(page), theme).toEqual([]);
    }
    await page.setViewportSize({ width: 320, height: 640 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
    expect(troubles).toEqual([]);
    await page.context().close();
  }, 60_000);

  test('a row of the curve is planned with its button, told in the plan, and left again, by keyboard and on a phone', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    const asked: { tradeOff?: unknown; days?: number; startsAt?: string }[] = [];
    await page.route('**/api/plans', (route) => {
      if (route.request().method() === 'POST') asked.push(route.request().postDataJSON());
      return route.continue();
    });
    await page.setViewportSize({ width: 320, height: 640 });
    await page.goto(`${server.origin}/#/plan`);
    await page.getByLabel(/^Length/).fill('5');
    const curve = section(page, 'Fuel against hot and varied meals');
    await curve.getByRole('button', { name: 'Show the curve' }).click();
    const first = curve.locator('tbody tr').first();
    await first.waitFor({ timeout: 60_000 });
    const hotMeals = Number.parseInt((await first.locator('th').textContent()) ?? '', 10);
    const fuel = Number.parseFloat((await first.locator('td').nth(2).textContent()) ?? '');
    const button = first.getByRole('button', { name: new RegExp(`^Plan it with ${hotMeals} hot`) });
    await button.focus();
    await page.keyboard.press('Enter');
    const outcome = page.locator('.outcome');
    const told = outcome.getByText(/^Fuel is spared by choice: /);
    await told.waitFor({ timeout: 60_000 });
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('outcome');
    // What was asked is what the plan before was asked, with the point.
    expect(asked).toMatchObject([
      { days: 2, startsAt: '2026-12-05T17:00', tradeOff: { coldMeals: expect.anything() } },
    ]);
    const about = Number.parseFloat(/take about ([\d.]+)/.exec((await told.textContent()) ?? '')?.[1] ?? '');
    // Printed to a tenth, each within half a per cent.
    expect(Math.abs(about - fuel)).toBeLessThanOrEqual(0.01 * fuel + 0.12);
    expect(await page.locator('.tag', { hasText: 'cold by choice' }).count()).toBeGreaterThan(0);
    // The curve stays, with the row of this plan marked; so does what stands in the form.
    expect(await first.locator('td').first().textContent()).toBe('this plan');
    expect(await page.getByLabel(/^Length/).inputValue()).toBe('5');
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
    for (const theme of ['light', 'dark'] as const) {
      await page.getByLabel('Colours').selectOption(theme);
      expect(await faultsFoundByAxe(page), theme).toEqual([]);
    }
    await outcome.getByRole('button', { name: 'Plan without sparing' }).click();
    await told.waitFor({ state: 'detached', timeout: 60_000 });
    expect(asked.at(-1)).toMatchObject({ days: 2, tradeOff: null });
    expect(await curve.locator('tbody tr').count()).toBeGreaterThan(1);
    expect(troubles).toEqual([]);
    await page.context().close();
  }, 180_000);

  test('figures of the answers open to the plan that was solved again for them', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await page.goto(`${server.origin}/#/plan`);
    const curve = section(page, 'Fuel against hot and varied meals');
    await curve.getByRole('button', { name: 'Show the curve' }).click();
    const heat = curve.getByRole('button', { name: /how this comes about: Fuel heat with/ }).last();
    await heat.waitFor({ timeout: 60_000 });
    await heat.click();
    const panel = page.getByRole('dialog');
    await panel.getByText('Solved again', { exact: true }).waitFor();
    expect(await panel.locator('.derivation').textContent()).toMatch(/Lower heating value.*Heat of the fuel in all/);
    expect(await faultsFoundByAxe(page)).toEqual([]);
    await page.keyboard.press('Escape');
    const lasts = section(page, 'How long it lasts');
    await lasts.getByRole('button', { name: 'How long do we last?' }).click();
    await lasts
      .getByRole('button', { name: /how this comes about: Water for/ })
      .last()
      .click({ timeout: 60_000 });
    await panel.getByText('Water used in all', { exact: true }).waitFor();
    await page.keyboard.press('Escape');
    const next = section(page, 'What to get or do next');
    await next.getByRole('button', { name: 'What helps most?' }).click();
    await next.locator('.answer').waitFor({ timeout: 60_000 });
    await next.getByText('The same as a table').click();
    await next
      .getByRole('button', { name: /how this comes about: .*: fuel heat saved/ })
      .last()
      .click();
    await panel.getByText('Solved again, with the change', { exact: true }).waitFor();
    expect(await panel.locator('.derivation > li').count()).toBeGreaterThan(10);
    expect(await faultsFoundByAxe(page)).toEqual([]);
    expect(troubles).toEqual([]);
    await page.context().close();
  }, 180_000);

  test('a long question says how far it is, and Stop ends it', async () => {
    const { page } = await openWatchedPage(browser);
    // A server that does not answer stands for a solver that is still at work.
    await page.route('**/api/endurance?*', () => undefined);
    await page.goto(`${server.origin}/#/plan`);
    // The stores are read by then: a question about none is not asked.
    await page.locator('.outcome').waitFor();
    const lasts = section(page, 'How long it lasts');
    await lasts.getByRole('button', { name: 'How long do we last?' }).click();
    await lasts.getByText(/1 of at most 20 s/).waitFor();
    expect(await page.locator('#status').textContent()).toBe('Working it out…');
    await lasts.getByRole('button', { name: 'Stop' }).click();
    await lasts.locator('.planning').waitFor({ state: 'detached' });
    await expect.poll(() => page.locator('#status').textContent()).toBe('Stopped.');
    await page.context().close();
  });
});

describe('a plan', () => {
  test('that cannot be made whole says what does not go together, with ways out', async () => {
    await changeHousehold((household) => ({
      ...household,
      lightingsPerDay: 0,
      fuels: [],
      water: { lots: [{ id: 'tub', litres: 200, quality: 'safe' }], dailySupply: { litres: 5 } },
    }));
    await planTwoDays();
    const { page, troubles } = await openWatchedPage(browser);
    await page.goto(`${server.origin}/#/plan`);
    const outcome = page.locator('.outcome');
    await outcome.getByRole('heading', { name: 'What does not go together' }).waitFor();
    expect(await outcome.locator('.conflicts').textContent()).toMatch(/Giving way: /);
    await outcome.getByRole('heading', { name: /^Ways out/ }).waitFor();
    // Water is promised by the day here: the plan says what is left of it without.
    expect(await section(page, 'If the promised supply does not come').textContent()).toMatch(
      /lasts to the end|runs out of water/,
    );
    expect(await faultsFoundByAxe(page)).toEqual([]);
    expect(troubles).toEqual([]);
    await page.context().close();
  }, 60_000);
});
