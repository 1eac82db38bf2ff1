/** The rehearsal sheet on paper: a page for each part, nothing small, nothing in colour, room to write. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type StartedServer, startBrowser, startBuiltServer } from './started-server.ts';

let server: StartedServer;
let browser: Browser;
beforeAll(async () => {
  [server, browser] = await Promise.all([startBuiltServer(), startBrowser()]);
}, 60_000);
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

it.each([
  ['metric', 'A4'],
  ['us', 'Letter'],
] as const)(
  'in %s on %s',
  async (units, format) => {
    const page = await browser.newPage();
    await page.goto(`${server.origin}/api/rehearsal-sheet?householdId=saddle-lane&units=${units}`);
    await page.emulateMedia({ media: 'print' });
    const pdf = await page.pdf({ format });
    const pages = (pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length;
    expect(pages).toBe(await page.locator('section.card').count());
    const measured = await page.evaluate(() => {
      const texts = [...document.querySelectorAll('main *')].filter((one) =>
        [...one.childNodes].some((node) => node.nodeType === 3 && (node.textContent ?? '').trim() !== ''),
      );
      const blank = [...document.querySelectorAll('.to-write td')].filter((one) => one.textContent === '');
      return {
        smallest: Math.min(...texts.map((one) => Number.parseFloat(getComputedStyle(one).fontSize))),
        colours: [...new Set(texts.map((one) => getComputedStyle(one).color))],
        blanks: blank.length,
        lowestMm: Math.min(...blank.map((one) => one.getBoundingClientRect().height)) * (25.4 / 96),
        narrowestMm: Math.min(...blank.map((one) => one.getBoundingClientRect().width)) * (25.4 / 96),
      };
    });
    expect(measured.smallest).toBeGreaterThanOrEqual(16 - 0.01);
    expect(measured.colours).toEqual(['rgb(0, 0, 0)']);
    expect(measured.blanks).toBeGreaterThan(30);
    // A hand writes a figure into 10 by 15 mm.
    expect(measured.lowestMm).toBeGreaterThan(10);
    expect(measured.narrowestMm).toBeGreaterThan(15);
    await page.close();
  },
  30_000,
);
