/** Questions about stores and plan on the page: how long, what binds, what next, what hot meals cost, and what if. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { HouseholdDocument, Plan } from '../../web/api-types.ts';
import { openWatchedPage, type StartedServer, startBrowser, startBuiltServer } from './started-server.ts';

const AXE_SOURCE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
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
  // The page gives each question 20 s; a test has less time and can do with fewer points.
  await page.route(/\/api\/(endurance|plans\/[^/]+\/(advice|trade-off))$/, (route) =>
    route.continue({ postData: JSON.stringify({ ...route.request().postDataJSON(), timeLimitS: 5 }) }),
  );
  const lasts = section(page, 'How long it lasts');
  await lasts.getByLabel(/What is missing for/).fill('10');
  await lasts.getByRole('button', { name: 'How long do we last?' }).click();
  await lasts.locator('.lasts').waitFor({ timeout: 60_000 });
  const next = section(page, 'What to get or do next');
  await next.getByRole('button', { name: 'What helps most?' }).click();
  await next.locator('.answer').waitFor({ timeout: 60_000 });
  const curve = section(page, 'Fuel against hot and varied meals');
  await curve.getByRole('button', { name: 'Show the curve' }).click();
  await curve.locator('.answer').waitFor({ timeout: 60_000 });
  return { lasts, next, curve };
}

async function faultsFoundByAxe(page: Page): Promise<string[]> {
  await page.evaluate(AXE_SOURCE);
  return page.evaluate(async () => {
    const { axe } = globalThis as unknown as {
      axe: { run(options: object): Promise<{ violations: { id: string; nodes: { target: string[] }[] }[] }> };
    };
    const found = await axe.run({
      runOnly: { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] },
    });
    return found.violations.map((one) => `${one.id}: ${one.nodes[0]?.target.join(' ')}`);
  });
}

describe('asked on the plan view', () => {
  test('days, what ends them, ranked advice and the curve come as words, charts and tables, in light, dark and narrow', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await page.goto(`${server.origin}/#/plan`);
    const { lasts, next, curve } = await askAll(page);
    expect(await lasts.locator('.lasts').textContent()).toMatch(
      /Everybody is fed for (at least )?\d+\s+days?, until [A-Z][a-z]+day/,
    );
    await lasts.getByRole('heading', { name: /^What is missing for 10.days/ }).waitFor();
    await lasts.getByRole('heading', { name: /^What ends it, on / }).waitFor();
    // Every line of the chart is named at its end, and every point is a row of the table.
    const names = await lasts.locator('svg text').allTextContents();
    expect(names).toContain('Water');
    const dots = await lasts
      .locator('svg g')
      .filter({ has: page.locator('.line') })
      .first()
      .locator('.line-dot')
      .count();
    expect(await lasts.locator('tbody tr').count()).toBe(dots);
    expect(await next.locator('.ranked > li').count()).toBeGreaterThan(1);
    expect(await curve.locator('tbody tr').count()).toBeGreaterThan(0);
    expect(await section(page, 'What binds').textContent()).toMatch(/One more would|Nothing binds/);
    await expect.poll(() => page.locator('#status').textContent()).toMatch(/points on the curve/);
    await page.evaluate(() => {
      for (const part of document.querySelectorAll('details')) part.open = true;
    });
    for (const theme of ['light', 'dark'] as const) {
      await page.getByLabel('Colours').selectOption(theme);
      expect(await faultsFoundByAxe(page), theme).toEqual([]);
    }
    await page.setViewportSize({ width: 320, height: 640 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
    // Answers stay while another view is open.
    await page.goto(`${server.origin}/#/stores`);
    await page.locator('h1', { hasText: 'Stores' }).waitFor();
    await page.goto(`${server.origin}/#/plan`);
    await lasts.locator('.lasts').waitFor();
    expect(troubles).toEqual([]);
    await page.context().close();
  }, 120_000);

  test('a long question says how far it is, and Stop ends it', async () => {
    const { page } = await openWatchedPage(browser);
    // A server that does not answer stands for a solver that is still at work.
    await page.route('**/api/endurance', () => undefined);
    await page.goto(`${server.origin}/#/plan`);
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
