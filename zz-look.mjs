import { chromium } from 'playwright-core';
import { writeFileSync } from 'node:fs';
const origin = 'http://127.0.0.1:8817';
const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'] });
const shot = async (name, options, path, act) => {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  page.on('console', (m) => m.type() === 'error' && console.log(name, m.text()));
  page.on('pageerror', (e) => console.log(name, String(e)));
  await page.goto(`${origin}/${path}`);
  await page.waitForTimeout(900);
  const target = (await act(page)) ?? page;
  await page.waitForTimeout(400);
  await target.screenshot({ path: `/tmp/shots7a/${name}.png`, ...(target === page ? { fullPage: true } : {}) });
  await context.close();
};
await shot('kit-dark', { viewport: { width: 1000, height: 900 }, colorScheme: 'dark' }, '#/stores/stock/pea-sweetcorn-chowder', async () => {});
await shot('kit-phone', { viewport: { width: 320, height: 700 } }, '#/stores/stock/pea-sweetcorn-chowder', async () => {});
writeFileSync('/tmp/list7a.csv', 'kit,part,place,packed on,quantity,unit,shelf\npea-sweetcorn-chowder,pulses,home,2026-01-05,2,bags,1\npea-soop,pulses,home,2026-01-05,"1,500",cups,2\nSweet milk rice,,,5.1.2026,2,sets,3\n');
await shot('import', { viewport: { width: 1000, height: 900 } }, '#/stores', async (page) => {
  await page.locator('details.more > summary', { hasText: 'Lists, files' }).click();
  await page.getByLabel('Take a stock list in (CSV)').setInputFiles('/tmp/list7a.csv');
  await page.waitForTimeout(500);
  return page.locator('details.more', { hasText: 'Stock as a list' });
});
await shot('share-phone', { viewport: { width: 320, height: 700 }, colorScheme: 'dark' }, '#/stores', async (page) => {
  await page.locator('details.more > summary', { hasText: 'Share out' }).click();
  await page.waitForTimeout(400);
  await page.getByRole('button', { name: 'Share out', exact: true }).click();
  await page.waitForTimeout(500);
  return page.locator('details.more', { hasText: 'Splits everything' });
});
await shot('plan-ask', { viewport: { width: 1000, height: 500 } }, '#/plan', async () => {});
const q = encodeURIComponent(JSON.stringify({ householdId: 'saddle-lane', among: [{ label: 'House', heads: 3, placeId: 'home' }, { label: 'Cellar', heads: 2, placeId: 'earth-cellar' }] }));
const page = await (await browser.newContext()).newPage();
for (const [name, path] of [['share', `/api/stock/shares/sheet?question=${q}`], ['inspection', '/api/stock/inspection-sheet?householdId=saddle-lane']]) {
  await page.goto(origin + path);
  for (const format of ['A4', 'Letter']) await page.pdf({ path: `/tmp/shots7a/${name}-${format}.pdf`, format });
}
await browser.close();
