/** axe-core inside the page: every rule of WCAG 2.0 to 2.2, A and AA, and its good practice. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const AXE_SOURCE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What it finds on the page as it stands, one line a rule with its first places. */
export async function faultsFoundByAxe(page: Page): Promise<string[]> {
  // A script element would be stopped by the page's policy; evaluation from outside is not.
  await page.evaluate(AXE_SOURCE);
  return page.evaluate(async () => {
    const { axe } = globalThis as unknown as {
      axe: { run(options: object): Promise<{ violations: { id: string; nodes: { target: string[] }[] }[] }> };
    };
    const found = await axe.run({
      runOnly: { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] },
    });
    return found.violations.map(({ id, nodes }) => {
      const places = nodes.slice(0, 4).map((node) => node.target.join(' '));
      return `${id}: ${places.join(', ')}`;
    });
  });
}
