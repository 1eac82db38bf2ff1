/** The stores on the page: sets and what limits, moving, counting, throwing away, undo, share-out, lists, backup, inspection. */
import { readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { faultsFoundByAxe } from './axe.ts';
import { openWatchedPage, type StartedServer, startBrowser, startBuiltServer } from './started-server.ts';

const CHOWDER = 'pea-sweetcorn-chowder';

let server: StartedServer;
let browser: Browser;
beforeAll(async () => {
  [server, browser] = await Promise.all([startBuiltServer(), startBrowser()]);
}, 60_000);
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

interface Stock {
  items: { id: string; kitId: string; reason: string; useFirst?: boolean }[];
  sets: { kitId: string; placeId: string; sets: number }[];
}
const stockNow = async () => (await (await fetch(`${server.origin}/api/stock`)).json()) as Stock;
const setsNow = async () =>
  (await stockNow()).sets.filter((row) => row.kitId === CHOWDER).map((row) => [row.placeId, row.sets]);
const openPart = (page: Page, title: string) => page.locator('details.more > summary', { hasText: title }).click();

it('tells the truth about a dish in three parts at two places', async () => {
  const { page, troubles } = await openWatchedPage(browser);
  await page.goto(`${server.origin}/#/stores`);
  const row = page.locator('.kit', { hasText: 'Pea and sweetcorn chowder' });
  await row.getByText('House: 1 set. For one set more 1 bag of milk powder, onion and broth is lacking.').waitFor();
  await row.getByText('Earth cellar: 1 set, with brown or green lentils.').waitFor();
  await row.getByText('Carried together, the bags make 3 sets.').waitFor();
  expect(await row.locator('.kit-count').textContent()).toBe('2 sets');
  expect(troubles).toEqual([]);
  await page.close();
});

it('moves, counts and throws away, and takes each of them back by an entry', async () => {
  const { page, troubles } = await openWatchedPage(browser);
  await page.goto(`${server.origin}/#/stores/stock/${CHOWDER}`);
  const before = await stockNow();
  const house = page.getByRole('group', { name: 'House: 1 set' });
  await page.getByRole('button', { name: 'Move one set: House to Earth cellar' }).click();
  await page.getByText('One set moved: House to Earth cellar.').first().waitFor();
  expect(await setsNow()).toEqual([
    ['earth-cellar', 2],
    ['home', 0],
  ]);
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await house.waitFor();
  expect(await setsNow()).toEqual([
    ['earth-cellar', 1],
    ['home', 1],
  ]);
  const peas = house.getByLabel('Split peas: bags counted');
  await peas.fill('1');
  await peas.blur();
  await page.getByText('Split peas counted: 1 instead of 4.').first().waitFor();
  await page.getByRole('group', { name: 'House: 0 sets' }).getByText('1 bag of split peas and').first().waitFor();
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await house.waitFor();
  // Some bags of one lot: more than there are is refused in the field, fewer are thrown away.
  await house.getByText('Some bags of one lot').click();
  await house.getByLabel('Bags', { exact: true }).fill('9');
  await house.getByLabel('Bags', { exact: true }).blur();
  await house.getByText('Enter a number from 0.01 to 4.').waitFor();
  await house.getByLabel('Bags', { exact: true }).fill('2');
  await house.getByLabel('Bags', { exact: true }).blur();
  await house.getByRole('button', { name: 'Book it' }).click();
  await page.getByText('Throw away: 2 × Split peas').first().waitFor();
  await openPart(page, 'What was booked');
  const ledger = page.getByRole('region', { name: /entries, newest first/ });
  await ledger
    .getByRole('row', { name: /Thrown away/ })
    .getByRole('button')
    .click();
  await page.getByText('Taken back: Thrown away, Split peas.').first().waitFor();
  // Everything that happened is an entry: three parts moved by two entries each, a count, a loss, and as many that took them back.
  const after = await stockNow();
  expect(after.items.length - before.items.length).toBe(16);
  expect(await setsNow()).toEqual([
    ['earth-cellar', 1],
    ['home', 1],
  ]);
  expect(await faultsFoundByAxe(page)).toEqual([]);
  expect(troubles).toEqual([]);
  await page.close();
}, 60_000);

it('shares out by heads, says what does not divide, books the moves and takes them back', async () => {
  const { page, troubles } = await openWatchedPage(browser);
  await page.goto(`${server.origin}/#/stores`);
  await openPart(page, 'Share out');
  await page.getByLabel('Heads').first().fill('3');
  await page.getByLabel('Heads').last().fill('2');
  await page.getByLabel('Heads').last().blur();
  await page.getByRole('button', { name: 'Share out', exact: true }).click();
  await page.getByRole('row', { name: 'Pea and sweetcorn chowder with chicken' }).waitFor();
  await page.getByText('What does not divide').waitFor();
  const sheet = await page.getByRole('link', { name: /^List to print/ }).getAttribute('href');
  expect(await (await fetch(server.origin + (sheet ?? ''))).text()).toContain('3 heads');
  const before = (await stockNow()).items.length;
  await page.getByRole('button', { name: 'Book the moves' }).click();
  await page.getByText('The bags are booked at their new places.').first().waitFor();
  expect((await stockNow()).items.length).toBeGreaterThan(before);
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await page
    .getByText(/Taken back/)
    .first()
    .waitFor({ state: 'attached' });
  expect(await setsNow()).toEqual([
    ['earth-cellar', 1],
    ['home', 1],
  ]);
  expect(troubles).toEqual([]);
  await page.close();
}, 60_000);

it('shows row by row what a list says before it is stored, and stores none of a list that is wrong', async () => {
  const { page, troubles } = await openWatchedPage(browser);
  await page.goto(`${server.origin}/#/stores`);
  await openPart(page, 'Lists, files and backup');
  const file = join(tmpdir(), `stock-${process.pid}.csv`);
  const head = 'kit,part,place,packed on,quantity,unit\n';
  const good = `${CHOWDER},pulses,earth-cellar,2026-01-05,2,bags\n`;
  writeFileSync(file, `${head}${good}pea-soop,pulses,home,2026-01-05,"1,500",cups\n`);
  await page.getByLabel('Take a stock list in (CSV)').setInputFiles(file);
  const table = page.getByRole('region', { name: 'What was understood, refused rows first' });
  await table.getByText(/No kit is called so/).waitFor();
  await table.getByText(/2 bags of Split peas, packed 2026-01-05, at Earth cellar/).waitFor();
  await page.getByText('A list is stored whole or not at all.').waitFor();
  expect(await page.getByRole('button', { name: /^Store / }).count()).toBe(0);
  writeFileSync(file, head + good);
  await page.getByLabel('Take a stock list in (CSV)').setInputFiles(file);
  await page.getByRole('button', { name: 'Store 1 entries' }).click();
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await page.getByRole('button', { name: 'Undo', exact: true }).waitFor({ state: 'detached' });

  // What is saved is a backup that this page takes; one that was cut short is told apart before anything happens.
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('link', { name: 'Save a backup' }).click(),
  ]);
  const saved = await download.path();
  const cut = join(tmpdir(), `backup-${process.pid}.json`);
  writeFileSync(cut, readFileSync(saved, 'utf8').slice(0, -50));
  await page.getByLabel('Restore a backup').setInputFiles(cut);
  await page.getByText('The file is no JSON: it may have been cut short.').waitFor();
  const text = await (await fetch(`${server.origin}/api/backup`)).text();
  writeFileSync(cut, text);
  await page.getByLabel('Restore a backup').setInputFiles(cut);
  await page.getByText(/It takes the place of all that is stored now/).waitFor();
  expect(await faultsFoundByAxe(page)).toEqual([]);
  await Promise.all([page.waitForEvent('load'), page.getByRole('button', { name: /^Restore it/ }).click()]);
  expect(await (await fetch(`${server.origin}/api/backup`)).text()).toBe(text);
  expect(troubles).toEqual([]);
  await page.close();
}, 60_000);

it('records what an inspection finds', async () => {
  const { page, troubles } = await openWatchedPage(browser, { colorScheme: 'dark' });
  await page.goto(`${server.origin}/#/stores`);
  await openPart(page, 'Inspect');
  await page.getByLabel('Lot, oldest first').waitFor();
  await page.getByLabel('Sign').selectOption('no-vacuum');
  await page.getByText('Eat this lot before all others of its part.').waitFor();
  await page.getByRole('button', { name: 'Record it' }).click();
  await page
    .getByText(/This lot is eaten first from now on/)
    .first()
    .waitFor();
  expect((await stockNow()).items.filter((entry) => entry.useFirst === true)).toHaveLength(1);
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await page.getByRole('button', { name: 'Undo', exact: true }).waitFor({ state: 'detached' });
  expect(await faultsFoundByAxe(page)).toEqual([]);
  expect(troubles).toEqual([]);
  await page.close();
}, 60_000);

it('fits a phone of 320 pixels with every part open', async () => {
  const { page } = await openWatchedPage(browser, { width: 320, height: 700, colorScheme: 'dark' });
  await page.goto(`${server.origin}/#/stores`);
  for (const title of ['Share out', 'Inspect', 'Lists, files and backup']) await openPart(page, title);
  await page.getByLabel('Restore a backup').waitFor();
  const wide = () => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  expect(await wide()).toBe(0);
  await page.goto(`${server.origin}/#/stores/stock/${CHOWDER}`);
  await page.getByRole('group', { name: 'House: 1 set' }).waitFor();
  expect(await wide()).toBe(0);
  await page.close();
}, 60_000);
