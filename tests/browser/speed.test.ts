/** How soon the page is of use on a slow telephone: Chromium with its processor slowed four times. */
import type { Browser, CDPSession, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openWatchedPage, type StartedServer, startBrowser, startBuiltServer } from './started-server.ts';

/** Aims that the project set itself; the best of several tries counts, as other work may take the processor meanwhile. */
const PAINT_MS = 1000;
const ANSWER_MS = 100;
const TRIES = 5;

let server: StartedServer;
let browser: Browser;

beforeAll(async () => {
  server = await startBuiltServer();
  browser = await startBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

async function slowly(page: Page): Promise<CDPSession> {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  return session;
}

test('content is painted within a second', async () => {
  const times: number[] = [];
  for (let turn = 0; turn < TRIES; turn += 1) {
    const { page } = await openWatchedPage(browser, { width: 375, height: 740 });
    await slowly(page);
    await page.goto(server.origin);
    await page.locator('.given').waitFor();
    times.push(await page.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? 1e9));
    await page.context().close();
  }
  console.log(`first paint with content: ${times.map(Math.round).join(', ')} ms`);
  expect(Math.min(...times)).toBeLessThan(PAINT_MS);
});

test('a calculator answers within a tenth of a second', async () => {
  const { page } = await openWatchedPage(browser, { width: 375, height: 740 });
  await slowly(page);
  await page.goto(`${server.origin}/#/numbers`);
  const field = page.getByLabel('Soaked for (h)');
  await field.waitFor();
  await page.waitForTimeout(1500);
  const times: number[] = [];
  for (let turn = 0; turn < TRIES; turn += 1) {
    await field.fill(String(3 + 2 * turn));
    times.push(
      await field.evaluate(
        (input) =>
          new Promise<number>((resolve) => {
            const section = input.closest('section') as HTMLElement;
            const figures = () => [...section.querySelectorAll('dd')].map((one) => one.textContent).join('|');
            const before = figures();
            const began = performance.now();
            const seen = new MutationObserver(() => {
              if (figures() === before) return;
              seen.disconnect();
              resolve(performance.now() - began);
            });
            seen.observe(section, { childList: true, subtree: true, characterData: true });
            (input as HTMLElement).blur();
          }),
      ),
    );
  }
  console.log(`input to answer: ${times.map(Math.round).join(', ')} ms`);
  expect(Math.min(...times)).toBeLessThan(ANSWER_MS);
  await page.context().close();
});
