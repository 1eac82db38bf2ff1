/** A slow server, one that fails, large letters, wide spacing, no wish for motion: the page stays of use. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { faultsFoundByAxe } from './axe.ts';
import { openWatchedPage, type StartedServer, startBrowser, startBuiltServer } from './started-server.ts';

const VIEWS = ['plan', 'tonight', 'stores', 'set-up', 'numbers', 'first-minutes'] as const;
/** What each view shows once it has read what it needs. */
const SHOWS: Readonly<Record<(typeof VIEWS)[number], RegExp>> = {
  plan: /Plan the week/,
  tonight: /Plan (today and tomorrow|again from now)/,
  stores: /Crackers/,
  'set-up': /Name of the household/,
  numbers: /Soaked for/,
  'first-minutes': /People to feed/,
};

/** The page is that of the sample household; the empty page in between has no storage. */
function ofTheSample() {
  if (location.protocol === 'http:') localStorage.setItem('household', 'saddle-lane');
}

let server: StartedServer;
let browser: Browser;

beforeAll(async () => {
  server = await startBuiltServer();
  browser = await startBrowser();
}, 60_000);

afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

test('a server that takes a second and a half for each answer: something is said at once, then all is there', async () => {
  const { page, troubles } = await openWatchedPage(browser, { width: 375, height: 740 });
  await page.addInitScript(ofTheSample);
  await page.route('**/api/**', async (route) => {
    await new Promise((resolve) => setTimeout(resolve, 1500));
    await route.continue().catch(() => undefined);
  });
  for (const view of VIEWS) {
    await page.goto('about:blank');
    await page.goto(`${server.origin}/#/${view}`);
    await page.locator('main h1').waitFor();
    expect((await page.locator('main').textContent())?.length, view).toBeGreaterThan(10);
    await page.getByText(SHOWS[view]).first().waitFor();
  }
  expect(troubles).toEqual([]);
  await page.context().close();
}, 90_000);

test('a server that fails is told on every view, with what to do next and nothing for axe', async () => {
  const { page } = await openWatchedPage(browser);
  await page.addInitScript(ofTheSample);
  await page.route('**/api/**', (route) =>
    route.fulfill({
      status: 500,
      contentType: 'application/problem+json',
      body: '{"type":"/problems/internal-fault","status":500,"detail":"The program met a fault of its own."}',
    }),
  );
  for (const view of ['plan', 'tonight', 'stores', 'set-up'] as const) {
    await page.goto('about:blank');
    await page.goto(`${server.origin}/#/${view}`);
    await page.locator('main h1').waitFor();
    await expect
      .poll(() => page.locator('body').textContent(), { message: view, timeout: 10_000 })
      .toMatch(/Try again|[Ss]tart the server again|reload/i);
    expect(await faultsFoundByAxe(page), view).toEqual([]);
  }
  // One press later the server has come to itself, and all is there.
  await page.unroute('**/api/**');
  await page.getByRole('button', { name: 'Try again' }).first().click();
  await page.getByLabel('Name of the household').waitFor();
  await page.context().close();
}, 90_000);

describe('letters', () => {
  test('twice as large (1.4.4), and as widely spaced as somebody may need (1.4.12): no view is cut off or wider than the screen', async () => {
    const { page } = await openWatchedPage(browser, { width: 640, height: 800 });
    await page.addInitScript(ofTheSample);
    const styles = {
      large: 'html { font-size: 200% !important; }',
      spaced:
        '* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; } p { margin-bottom: 2em !important; }',
    };
    for (const view of VIEWS) {
      for (const [name, content] of Object.entries(styles)) {
        await page.goto('about:blank');
        await page.goto(`${server.origin}/#/${view}`);
        await page.getByText(SHOWS[view]).first().waitFor();
        // A style sheet of the reader's own: the page's policy does not apply to it.
        await page.evaluate((css) => {
          const sheet = new CSSStyleSheet();
          sheet.replaceSync(css);
          document.adoptedStyleSheets = [sheet];
        }, content);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        expect(wide, `${view} ${name}`).toBeLessThanOrEqual(0);
        const cut = await page.evaluate(() =>
          [...document.querySelectorAll('main *:not(.unseen)')]
            .filter((one) => {
              const { overflowY, clip } = getComputedStyle(one);
              return overflowY === 'hidden' && clip === 'auto' && one.scrollHeight > one.clientHeight + 1;
            })
            .map((one) => `${one.tagName}.${one.className}`),
        );
        expect(cut, `${view} ${name}`).toEqual([]);
      }
    }
    await page.context().close();
  }, 90_000);
});

test('nothing moves for whoever wants no motion, and no view loses its borders in forced colours', async () => {
  const { page, troubles } = await openWatchedPage(browser);
  await page.addInitScript(ofTheSample);
  await page.emulateMedia({ reducedMotion: 'reduce', forcedColors: 'active' });
  for (const view of VIEWS) {
    await page.goto(`${server.origin}/#/${view}`);
    await page.getByText(SHOWS[view]).first().waitFor();
    expect(await page.evaluate(() => document.getAnimations().length), view).toBe(0);
    expect(await page.evaluate(() => getComputedStyle(document.documentElement).scrollBehavior), view).not.toBe(
      'smooth',
    );
    const bare = await page.evaluate(() =>
      [
        ...document.querySelectorAll(
          'main input:not([type=checkbox]):not([type=radio]), main select, main button:not(.how)',
        ),
      ]
        .filter((one) => getComputedStyle(one).borderTopStyle === 'none' && one.getClientRects().length > 0)
        .map((one) => one.outerHTML.slice(0, 80)),
    );
    expect(bare, view).toEqual([]);
  }
  expect(troubles).toEqual([]);
  await page.context().close();
}, 60_000);
