/** Kit cards, labels and packing sheets on paper: each section one page, black, nothing below 12 pt, nothing cut off. */
import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { kitCard } from '../../api/cooking/dishes/kit-card.ts';
import { packKit } from '../../api/cooking/keeping/packing.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { kitCardHtml } from '../../api/wording/print/kit-card.ts';
import { packingSheetHtml } from '../../api/wording/print/packing-sheet.ts';
import { startBrowser } from './started-server.ts';

const css = readFileSync(new URL('../../web/public/print.css', import.meta.url), 'utf8');
const { household, kits } = demoDocuments('2026-12-05');

let browser: Browser;
beforeAll(async () => {
  browser = await startBrowser();
}, 30_000);
afterAll(() => browser?.close());

async function printed(html: string, format: 'A4' | 'Letter') {
  const page = await browser.newPage({ colorScheme: 'dark' });
  // As wide as the printed column, so that what overflows on paper overflows here.
  await page.setViewportSize({ width: format === 'A4' ? 703 : 725, height: 1000 });
  await page.setContent(html.replace(/<link rel="stylesheet"[^>]*>/, `<style>${css}</style>`));
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  const pdf = await page.pdf({ format, printBackground: false });
  const sections = await page.locator('section.card').count();
  const measured = await page.evaluate(() => {
    const texts = [...document.querySelectorAll('main *')].filter((one) =>
      [...one.childNodes].some((node) => node.nodeType === 3 && (node.textContent ?? '').trim() !== ''),
    );
    const cut = [...document.querySelectorAll('th, td, .label')].filter(
      (one) =>
        one.scrollWidth > one.clientWidth + 1 || (one.className === 'label' && one.scrollHeight > one.clientHeight + 1),
    );
    return {
      smallest: Math.min(...texts.map((one) => Number.parseFloat(getComputedStyle(one).fontSize))),
      colours: [...new Set(texts.map((one) => getComputedStyle(one).color))],
      cut: cut.map((one) => one.textContent),
      dashed: [...document.querySelectorAll('.kit-card, .label')].every(
        (one) => getComputedStyle(one).borderTopStyle === 'dashed',
      ),
    };
  });
  await page.close();
  const pages = (pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length;
  return { pages, sections, ...measured };
}

function expectPlain(sheet: Awaited<ReturnType<typeof printed>>, name: string) {
  expect(sheet.smallest, name).toBeGreaterThanOrEqual(16 - 0.01);
  expect(sheet.colours, name).toEqual(['rgb(0, 0, 0)']);
  expect(sheet.cut, name).toEqual([]);
}

it.each([
  ['metric', 'A4'],
  ['us', 'Letter'],
  ['metric', 'Letter'],
] as const)(
  'cards and labels in %s on %s: front, back and eight labels a page',
  async (units, format) => {
    for (const kit of kits) {
      const card = kitCard(kit, household, null, null, 13);
      const sheet = await printed(
        kitCardHtml({ card, packedOn: '2026-11-20', labelSets: 3, withCard: true }, units),
        format,
      );
      const labels = kit.parts.reduce((sum, part) => sum + (part.containersPerSet ?? 1), 0) * 3;
      expect(sheet.sections, kit.id).toBe(2 + Math.ceil(labels / 8));
      expect(sheet.pages, kit.id).toBe(sheet.sections);
      expect(sheet.dashed).toBe(true);
      expectPlain(sheet, kit.id);
    }
  },
  90_000,
);

it.each([
  ['metric', 'A4'],
  ['us', 'Letter'],
] as const)(
  'packing sheets in %s on %s: the bags, and the order of work on a page of its own',
  async (units, format) => {
    for (const kit of kits) {
      const packing = packKit({ kit, bulk: [], sets: 24, storageC: 18 });
      const html = packingSheetHtml(
        { kitName: kit.name, servings: kit.servings, packing, packedOn: '2026-11-25', storageC: 18, guessed: [] },
        units,
      );
      const sheet = await printed(html, format);
      expect(sheet.sections).toBe(2);
      // Many foods with much to mind take a second page before the order of work.
      expect(sheet.pages, kit.id).toBeLessThanOrEqual(3);
      expectPlain(sheet, kit.id);
    }
  },
  90_000,
);
