/** How a figure comes about: the panel beside figures of calculators, meals and ways of a dish. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { faultsFoundByAxe } from './axe.ts';
import { openWatchedPage, type StartedServer, startBrowser, startBuiltServer } from './started-server.ts';

let server: StartedServer;
let browser: Browser;
beforeAll(async () => {
  [server, browser] = await Promise.all([startBuiltServer(), startBrowser()]);
  const made = await fetch(`${server.origin}/api/plans`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ householdId: 'saddle-lane', startsAt: '2026-12-05T17:00', days: 2, timeLimitS: 5 }),
  });
  expect(made.status).toBe(201);
}, 60_000);
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

const buttonOf = (page: Page, figure: string) =>
  page.getByRole('button', { name: `how this comes about : ${figure}`, exact: true });

describe('beside a figure of a calculator', () => {
  test('the panel opens by keyboard, keeps the focus, lists steps in order with sources, and Esc gives the focus back', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await page.goto(`${server.origin}/#/numbers`);
    const button = buttonOf(page, 'Boiling point');
    // Asked at sea level until the household is there.
    await page.locator('dd', { has: button }).filter({ hasText: /9\d/ }).waitFor();
    await button.focus();
    await page.keyboard.press('Enter');
    const panel = page.getByRole('dialog');
    const steps = panel.locator('.derivation > li');
    await steps.first().waitFor();
    const texts = (await steps.allTextContents()).map((text) => text.replace(/\s+/g, ' '));
    expect(texts).toHaveLength(3);
    expect(texts[0]).toMatch(/Elevation above the sea.*1780.m.*Given/);
    expect(texts[1]).toMatch(
      /Air pressure.*kPa.*Worked out:.*elevationM.*From elevation above the sea.*NOAA.*\(1976\): U\.S\. Standard Atmosphere.*At: troposphere/,
    );
    expect(texts[2]).toMatch(/Boiling point.*°C.*Properties of Water and Steam \(2012\)/);
    expect(await panel.getByRole('status').textContent()).toMatch(/3 steps, none of them estimates/);
    // Round and round: the focus stays in the panel, or on nothing at all between the last and the first.
    for (let press = 0; press < 12; press += 1) {
      await page.keyboard.press('Tab');
      expect(
        await page.evaluate(
          () => document.activeElement?.closest('dialog') !== null || document.activeElement === document.body,
        ),
      ).toBe(true);
    }
    await page.keyboard.press('Escape');
    await panel.waitFor({ state: 'detached' });
    expect(await button.evaluate((element) => element === document.activeElement)).toBe(true);
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  test('each row of the cooling table opens to the temperature that it shows', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await page.goto(`${server.origin}/#/numbers`);
    const panel = page.getByRole('dialog');
    for (const [hours, words] of [
      ['3', /^\s*Temperature after 3 h/],
      ['8', /^\s*Temperature/],
    ] as const) {
      await buttonOf(page, `Temperature after ${hours} h`).click();
      await panel.locator('.derivation > li').first().waitFor();
      expect(await panel.locator('.derivation > li').last().textContent()).toMatch(words);
      await panel.getByRole('button', { name: 'Close' }).click();
    }
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  test('a figure rests on its own steps only, estimates are marked, and an input leads to its step', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await page.goto(`${server.origin}/#/numbers`);
    await buttonOf(page, 'Fuel').click();
    const panel = page.getByRole('dialog');
    await panel.locator('.derivation > li').first().waitFor();
    const all = await panel.locator('.derivation > li').count();
    expect(await panel.locator('.estimate').count()).toBeGreaterThan(3);
    const last = panel.locator('.derivation > li').last();
    expect(await last.textContent()).toMatch(/^\s*Fuel/);
    await last.getByRole('link').first().click();
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('step-fuelMJ');
    await panel.getByText('Functions named above, written out').click();
    await panel.getByText(/saturationTemperatureC\(pressureKPa\): Boiling point of water/).waitFor();
    await panel.getByRole('button', { name: 'Close' }).click();
    await buttonOf(page, 'Floor: the least that physics allows').click();
    await panel.locator('.derivation > li').first().waitFor();
    expect(await panel.locator('.derivation > li').count()).toBeLessThan(all / 4);
    expect(troubles).toEqual([]);
    await page.context().close();
  });
});

describe('of a plan', () => {
  test('a meal shows how its fuel and minutes come about, in names of the food, and which causes bring the spread', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await page.goto(`${server.origin}/#/plan`);
    const meal = page.locator('details.meal', { has: page.locator('.tag', { hasText: /^hot$/ }) }).first();
    await meal.locator('> summary').click();
    const buttons = meal.getByRole('button', { name: /how this comes about/ });
    expect(await buttons.count()).toBeGreaterThan(3);
    const panel = page.getByRole('dialog');
    for (const figure of [
      /typical \(8 times in 10 within\)/,
      /At (the boil|pressure)/,
      /: Water/,
      /: Hands-on/,
      /: Eat by/,
      /: The usual way would take/,
      /: food energy/,
      /: protein/,
      /: fuel saved/,
      /: water saved/,
    ]) {
      await meal.getByRole('button', { name: figure }).first().click();
      await panel.locator('.derivation > li').first().waitFor();
      expect(await panel.locator('.derivation > li').count(), String(figure)).toBeGreaterThan(2);
      await panel.getByRole('button', { name: 'Close' }).click();
    }
    expect(await meal.locator('.spread').first().textContent()).toMatch(/The spread comes first from .* \(\d+.%\)/);
    await meal.getByText('Causes of the spread').first().click();
    const shares = (await meal.locator('.spread tbody tr td:nth-child(2)').allTextContents()).map(
      (text) => Number.parseFloat(text.replace('below', '')) || 0,
    );
    expect(shares.length).toBeGreaterThan(3);
    expect([...shares].sort((a, b) => b - a)).toEqual(shares);
    expect(await page.locator('.balance .spread').count()).toBeGreaterThan(0);
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  test('fuel and water of each day open to the figure that is pressed', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await page.goto(`${server.origin}/#/plan`);
    const figures = page.locator('.balance button.how');
    await figures.first().waitFor();
    const count = await figures.count();
    // Fuels and water, two days, three figures a day, and the sums.
    expect(count).toBeGreaterThan(15);
    const numberIn = (text: string | null) => Number.parseFloat((text ?? '').replace('−', '-'));
    const panel = page.getByRole('dialog');
    for (let at = 0; at < count; at += 3) {
      const shown = numberIn(await figures.nth(at).textContent());
      await figures.nth(at).click();
      await panel.locator('.derivation > li').first().waitFor();
      const last = panel.locator('.derivation > li').last();
      // The table shows three digits.
      expect(Math.abs(numberIn(await last.locator('strong').textContent()) - shown)).toBeLessThanOrEqual(0.006 * shown);
      await panel.getByRole('button', { name: 'Close' }).click();
    }
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  test('used, allowed and left over of each limit open to the figure that is pressed, and what one more brings to what was solved', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await page.goto(`${server.origin}/#/plan`);
    const section = page.locator('section', { has: page.getByRole('heading', { name: 'What binds' }) });
    await section.getByText('All limits of this plan').click();
    const table = section.getByRole('region', { name: 'Limits of this plan' });
    const panel = page.getByRole('dialog');
    const numberIn = (text: string | null) => Number.parseFloat((text ?? '').replace('−', '-'));
    for (const limit of [/Water/, /[Ff]ires/, /propane/i])
      for (const column of [/: used$/, /: allowed$/, /: left over$/]) {
        const figure = table.locator('tr').filter({ hasText: limit }).first().getByRole('button', { name: column });
        const shown = numberIn(await figure.textContent());
        await figure.click();
        const last = panel.locator('.derivation > li').last();
        await last.waitFor();
        expect(Math.abs(numberIn(await last.locator('strong').textContent()) - shown)).toBeLessThanOrEqual(
          0.006 * shown,
        );
        await panel.getByRole('button', { name: 'Close' }).click();
      }
    await section
      .getByRole('button', { name: /: one more$/ })
      .first()
      .click();
    const last = panel.locator('.derivation > li').last();
    await last.waitFor();
    expect(await last.textContent()).toMatch(/One more, and what changes.*more.*solved again with that much more/);
    await panel.getByRole('button', { name: 'Close' }).click();
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  test('a way to cook a dish shows its steps', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await page.goto(`${server.origin}/#/stores/ways/red-bean-barley-stew`);
    await page
      .getByRole('button', { name: /how this comes about.*: fuel/ })
      .first()
      .click();
    await page.locator('.derivation > li').last().waitFor();
    expect(await page.locator('.derivation > li').last().textContent()).toMatch(/Fuel of the dish/);
    expect(troubles).toEqual([]);
    await page.context().close();
  });
});

describe('for everybody', () => {
  for (const colorScheme of ['light', 'dark'] as const) {
    test(`nothing for axe to find in the open panel, ${colorScheme}, nor wider than a screen of 320`, async () => {
      const { page, troubles } = await openWatchedPage(browser, { colorScheme, width: 320, height: 640 });
      await page.goto(`${server.origin}/#/numbers`);
      await buttonOf(page, 'Cooking time, from the boil').click();
      await page.locator('.derivation > li').last().waitFor();
      expect(await faultsFoundByAxe(page)).toEqual([]);
      const wide = await page.getByRole('dialog').evaluate((panel) => panel.scrollWidth - panel.clientWidth);
      expect(wide).toBeLessThanOrEqual(0);
      expect(troubles).toEqual([]);
      await page.context().close();
    });
  }
});
