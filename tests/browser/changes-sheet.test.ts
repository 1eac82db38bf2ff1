/** The sheet of changes is one page of both papers, however much has changed, in the largest type at which it fits. */
import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Plan } from '../../api/planning/plan-types.ts';
import { changesHtml } from '../../api/wording/print/changes-sheet.ts';
import { planFixture } from '../wording/plan-fixture.ts';
import { startBrowser } from './started-server.ts';

const STYLE = readFileSync(new URL('../../web/public/print.css', import.meta.url), 'utf8');
const CHANGE =
  'Saturday breakfast: Millet porridge with raisins instead of Sweet milk rice, because 0.08 kg less propane was found than worked out.';

let browser: Browser;
beforeAll(async () => {
  browser = await startBrowser();
});
afterAll(async () => {
  await browser?.close();
});

it.each([
  [1, 18, false],
  [8, 15, false],
  [12, 12, false],
  [18, 12, true],
  [60, 12, true],
])(
  'with %d changes: in %d pt',
  async (count, points, leavesOut) => {
    const html = changesHtml({ ...planFixture(), schedule: [] } as Plan, {
      summary: `${count} meals change; of 70 dishes that were still to come, 10 stand as they were.`,
      underWay: ['Cold couscous with peas and corn is standing in water since 11:25: eat it by 13:25.'],
      changes: Array.from({ length: count }, () => ({ meal: '2026-12-05-evening', text: CHANGE })),
      learned: [
        'Propane camp stove: uses about 25 % more fuel than the table; the rest of the plan still fits.',
        CHANGE,
      ],
      found: ['Propane (open cylinder), 08:10: 0.04 kg, 0.05 kg less than worked out.'],
    });
    expect(html).toContain(`changes-${points}"`);
    // What is left out is said; what spoils never is.
    expect(/\d+ more: see the new schedule/.test(html)).toBe(leavesOut);
    expect(html).toContain('eat it by 13:25');
    const page = await browser.newPage();
    await page.setContent(html.replace('<link rel="stylesheet" href="/print.css">', `<style>${STYLE}</style>`));
    for (const format of ['A4', 'Letter'] as const) {
      const pdf = await page.pdf({ format });
      expect((pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length, format).toBe(1);
    }
    await page.close();
  },
  30_000,
);
