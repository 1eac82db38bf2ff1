import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { emergencySheetHtml } from '../../api/wording/print/emergency-sheet.ts';
import { scheduleHtml } from '../../api/wording/print/schedule-html.ts';
import type { SheetType } from '../../api/wording/print/sheet-type.ts';
import { planFixture } from '../wording/plan-fixture.ts';
import { startBrowser } from './started-server.ts';

const css = readFileSync(new URL('../../web/public/print.css', import.meta.url), 'utf8');

let browser: Browser;
beforeAll(async () => {
  browser = await startBrowser();
}, 30_000);
afterAll(() => browser?.close());

/** Pages of a PDF by its page objects, and the sections that each should be. */
async function paper(type: SheetType, units: 'metric' | 'us', format: 'A4' | 'Letter') {
  return printed(scheduleHtml(planFixture(), { units, type }), format);
}

async function printed(html: string, format: 'A4' | 'Letter') {
  const page = await browser.newPage({ colorScheme: 'dark' });
  await page.setContent(html.replace(/<link rel="stylesheet"[^>]*>/, `<style>${css}</style>`));
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  const pdf = await page.pdf({ format, printBackground: false });
  const sections = await page.locator('section.card').count();
  const measured = await page.evaluate(() => {
    const size = (element: Element): number => Number.parseFloat(getComputedStyle(element).fontSize);
    const texts = [...document.querySelectorAll('main *')].filter((one) =>
      [...one.childNodes].some((node) => node.nodeType === 3 && (node.textContent ?? '').trim() !== ''),
    );
    const box = document.querySelector('.tick-box')?.getBoundingClientRect();
    const row = document.querySelector('tr.step')?.getBoundingClientRect();
    return {
      smallest: Math.min(...texts.map(size)),
      // On a full day what to do is in the small type as well.
      action: Math.min(...[...document.querySelectorAll('.card:not(.full) .do .text')].map(size)),
      time: Math.min(...[...document.querySelectorAll('.card:not(.full) .time')].map(size)),
      boxPx: Math.min(box?.width ?? 0, box?.height ?? 0),
      rowPx: row?.height ?? 0,
      colours: [...new Set(texts.map((one) => getComputedStyle(one).color))],
    };
  });
  await page.close();
  const pages = (pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length;
  return { pages, sections, ...measured };
}

const PX_PER_PT = 96 / 72;

describe('printed sheets', () => {
  it.each([
    ['normal', 'metric', 'A4'],
    ['normal', 'us', 'Letter'],
    ['compact', 'metric', 'Letter'],
    ['compact', 'us', 'A4'],
    ['large', 'metric', 'A4'],
  ] as const)(
    '%s in %s on %s: every section is one page',
    async (type, units, format) => {
      const sheet = await paper(type, units, format);
      expect(sheet.pages).toBe(sheet.sections);
      // P02, P10, P15: nothing below 12 pt, black only, boxes of 5 mm and rows of 8 mm or more.
      expect(sheet.smallest).toBeGreaterThanOrEqual((type === 'large' ? 18 : 12) * PX_PER_PT - 0.01);
      expect(sheet.colours).toEqual(['rgb(0, 0, 0)']);
      // The compact sheets have neither rows nor boxes to tick.
      if (type !== 'compact') expect(sheet.boxPx).toBeGreaterThanOrEqual(18.9);
      if (type !== 'compact') expect(sheet.rowPx).toBeGreaterThanOrEqual(34);
      if (type === 'normal') {
        expect(sheet.action).toBeGreaterThanOrEqual(14 * PX_PER_PT - 0.01);
        expect(sheet.time).toBeGreaterThanOrEqual(20 * PX_PER_PT - 0.01);
      }
    },
    30_000,
  );
});

describe('the emergency sheet', () => {
  it.each([
    [null, 'metric', 'A4'],
    [null, 'us', 'Letter'],
    [1780, 'us', 'Letter'],
    [6000, 'metric', 'Letter'],
  ] as const)(
    'for %s m in %s is one page of %s, black, at 12 pt or more',
    async (elevationM, units, format) => {
      const sheet = await printed(emergencySheetHtml(elevationM, units), format);
      expect(sheet.pages).toBe(1);
      expect(sheet.smallest).toBeGreaterThanOrEqual(12 * PX_PER_PT - 0.01);
      expect(sheet.colours).toEqual(['rgb(0, 0, 0)']);
    },
    30_000,
  );
});
