/** The page in a real browser, as a stranger uses it. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { HouseholdDocument, Kit, Plan, StockLot } from '../../web/api-types.ts';
import { faultsFoundByAxe } from './axe.ts';
import { openWatchedPage, type StartedServer, startBrowser, startBuiltServer } from './started-server.ts';

const KIDNEY_KIT = 'red-bean-barley-stew';
/** Cooked in an open pot it fits a short winter day at any altitude. */
const SOUP_KIT = 'lentil-bulgur-soup';

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

async function getJson<Body>(path: string): Promise<{ body: Body; etag: string }> {
  const response = await fetch(server.origin + path);
  return { body: (await response.json()) as Body, etag: response.headers.get('etag') ?? '' };
}

async function send(method: string, path: string, body: unknown, headers: Record<string, string> = {}) {
  const response = await fetch(server.origin + path, {
    method,
    headers: { 'content-type': 'application/json', ...headers },
    body: JSON.stringify(body),
  });
  if (!response.ok) throw new Error(`${method} ${path}: ${response.status} ${await response.text()}`);
  return response;
}

async function readHousehold() {
  const { body } = await getJson<{ items: HouseholdDocument[] }>('/api/households');
  return getJson<HouseholdDocument>(`/api/households/${body.items[0]?.id}`);
}

async function changeHousehold(change: (household: HouseholdDocument) => HouseholdDocument) {
  const { body, etag } = await readHousehold();
  await send('PUT', `/api/households/${body.id}`, change(body), { 'if-match': etag });
}

/** Leaves one kit in store and an open pot, so that what is cooked does not change with the altitude. */
async function leaveOnlySoup() {
  const { body: stock } = await getJson<{ totals: StockLot[] }>('/api/stock');
  for (const lot of stock.totals) {
    if (lot.kitId === SOUP_KIT || lot.quantity === 0) continue;
    await send('POST', '/api/stock', {
      kitId: lot.kitId,
      partId: lot.partId,
      placeId: lot.placeId,
      packedOn: lot.packedOn,
      quantity: -lot.quantity,
      reason: 'counted',
      at: '2026-12-01T10:00',
    });
  }
  await changeHousehold((household) => ({
    ...household,
    // One stove, so that both elevations are compared on the same fuel.
    stoves: (household.stoves ?? []).filter((stove) => stove.typeId === 'propane-camp'),
    vessels: (household.vessels ?? []).filter((vessel) => vessel.kind !== 'pressure-cooker'),
    boxes: (household.boxes ?? []).map((box) => ({ ...box, fits: box.fits.filter((id) => !id.includes('cooker')) })),
  }));
}

async function setElevation(page: Page, text: string) {
  await page.goto(`${server.origin}/#/set-up`);
  const field = page.getByLabel('Elevation above the sea (m)').first();
  await field.fill(text);
  await field.blur();
  await page.getByText('Saved.', { exact: true }).waitFor();
}

async function planTwoDays(page: Page) {
  await page.goto(`${server.origin}/#/plan`);
  await page.getByLabel('Starts at').fill('2026-12-05T07:00');
  const days = page.getByLabel('Length (days)');
  await days.fill('2');
  await days.blur();
  await page.getByRole('button', { name: 'Plan 2 days' }).click();
  await page.locator('.planning').waitFor({ state: 'detached' });
  await page.locator('.outcome').waitFor();
}

/** First number of the figure with this name in the first dish. */
async function figure(page: Page, name: RegExp): Promise<number> {
  const text = await page
    .locator('.figures > div', { has: page.locator('dt', { hasText: name }) })
    .first()
    .locator('dd')
    .textContent();
  const [, hours, minutes] = /^(\d+)\sh(?:\s(\d+)\smin)?/.exec(text ?? '') ?? [];
  return hours === undefined ? Number.parseFloat(text ?? '') : Number(hours) * 60 + Number(minutes ?? 0);
}

describe('set-up', () => {
  test('a comma before three digits is asked about, and either answer is stored', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await page.goto(`${server.origin}/#/set-up`);
    const field = page.getByLabel('Elevation above the sea (m)').first();
    await field.fill('1,500');
    await field.blur();
    await page.getByRole('button', { name: '1500 m' }).click();
    await page.getByText('Saved.', { exact: true }).waitFor();
    expect((await readHousehold()).body.places[0]?.elevationM).toBe(1500);
    expect(await page.locator('.boiling-echo').first().textContent()).toMatch(/At 1500\sm water boils at 95\s°C/);
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  test('a value out of range is named with its range at the field, and what was typed stays', async () => {
    const { page } = await openWatchedPage(browser);
    await page.goto(`${server.origin}/#/set-up`);
    const field = page.getByLabel('Elevation above the sea (m)').first();
    const before = (await readHousehold()).body.places[0]?.elevationM;
    await field.fill('9000');
    await field.blur();
    expect(await page.locator('.wrong').first().textContent()).toMatch(/from −430 to 6000\sm/);
    expect(await field.inputValue()).toBe('9000');
    expect(await field.getAttribute('aria-invalid')).toBe('true');
    expect((await readHousehold()).body.places[0]?.elevationM).toBe(before);
    await page.context().close();
  });

  test('ten switches of units leave the stored value as it was', async () => {
    const { page } = await openWatchedPage(browser);
    await page.goto(`${server.origin}/#/set-up`);
    await page.getByLabel('Elevation above the sea (m)').first().waitFor();
    const before = await readHousehold();
    for (let turn = 0; turn < 5; turn += 1) {
      await page.getByLabel('Units').selectOption('us');
      const feet = page.getByLabel('Elevation above the sea (ft)').first();
      await feet.focus();
      await feet.blur();
      await page.getByLabel('Units').selectOption('metric');
    }
    await page.waitForTimeout(600);
    expect(await readHousehold()).toEqual(before);
    await page.context().close();
  });

  test('what is removed can be put back', async () => {
    const { page } = await openWatchedPage(browser);
    await page.goto(`${server.origin}/#/set-up`);
    await page.getByText('Pots, flasks and bowls').click();
    const before = (await readHousehold()).body;
    await page.getByRole('button', { name: 'Remove Big pot' }).click();
    await page.getByText('Saved.', { exact: true }).waitFor();
    expect((await readHousehold()).body.vessels).toHaveLength((before.vessels?.length ?? 0) - 1);
    await page.getByRole('button', { name: 'Undo: put back Big pot' }).click();
    await expect.poll(async () => (await readHousehold()).body).toEqual(before);
    await page.context().close();
  });

  test('a change made elsewhere in the meantime is told, and nothing typed is lost', async () => {
    const { page } = await openWatchedPage(browser);
    await page.goto(`${server.origin}/#/set-up`);
    const field = page.getByLabel('Name of the household');
    await field.waitFor();
    await changeHousehold((household) => ({ ...household, note: `changed elsewhere ${Date.now()}` }));
    await field.fill('Typed here');
    await field.blur();
    await page.getByRole('button', { name: 'Keep what I typed' }).waitFor();
    expect(await field.inputValue()).toBe('Typed here');
    // The draft survives closing the page.
    await page.reload();
    await expect.poll(() => page.getByLabel('Name of the household').inputValue()).toBe('Typed here');
    await page.getByRole('button', { name: 'Keep what I typed' }).click();
    await page.getByText('Saved.', { exact: true }).waitFor();
    expect((await readHousehold()).body.name).toBe('Typed here');
    await page.context().close();
  });
});

describe('stores', () => {
  test('what is counted and packed adds up, and can be undone', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await page.goto(`${server.origin}/#/stores/stock/${KIDNEY_KIT}`);
    const sum = async () => {
      const { body } = await getJson<{ totals: StockLot[] }>('/api/stock');
      return body.totals.filter((lot) => lot.kitId === KIDNEY_KIT).reduce((total, lot) => total + lot.quantity, 0);
    };
    const { body: kit } = await getJson<Kit>(`/api/kits/${KIDNEY_KIT}`);
    const aSet = kit.parts.reduce((total, part) => total + (part.containersPerSet ?? 1), 0);
    const before = await sum();
    const packed = page.getByRole('group', { name: 'Add what was packed' });
    await packed.getByLabel('Sets').fill('2');
    await packed.getByLabel('Packed on').fill('2026-10-01');
    await packed.getByRole('button', { name: 'Add to the store' }).click();
    await page.getByText('2 sets packed 2026-10-01 added.').first().waitFor();
    expect(await sum()).toBe(before + 2 * aSet);
    await page.getByRole('button', { name: 'Undo' }).click();
    await page
      .getByText(/^Taken back/)
      .first()
      .waitFor({ state: 'attached' });
    await expect.poll(sum).toBe(before);
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  test('a new kit is made, named, removed and put back', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await page.goto(`${server.origin}/#/stores`);
    await page.getByRole('heading', { name: 'Crackers' }).waitFor();
    await page.getByRole('button', { name: 'Add a kit' }).click();
    await page.getByLabel('Name', { exact: true }).fill('Plain oats');
    await page.getByLabel('Name', { exact: true }).blur();
    await page.getByText('Saved.', { exact: true }).waitFor();
    const { body: kit } = await getJson<Kit>('/api/kits/new-kit');
    expect(kit.name).toBe('Plain oats');
    await page.getByRole('button', { name: 'Remove this kit' }).click();
    await page.getByRole('button', { name: 'Undo: put it back' }).click();
    await page.getByRole('heading', { name: 'Plain oats' }).waitFor();
    expect((await getJson<Kit>('/api/kits/new-kit')).body).toEqual(kit);
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  test('the ways to cook a dish of kidney beans hold a refused one with its way out', async () => {
    const { page, troubles } = await openWatchedPage(browser);
    await page.goto(`${server.origin}/#/stores/ways/${KIDNEY_KIT}`);
    await page.getByRole('heading', { name: /least fuel first/ }).waitFor();
    expect(await page.locator('table tbody tr').count()).toBeGreaterThan(1);
    expect(await page.locator('.refused').textContent()).toMatch(/kidney-family.*Way out: Soak at least 5 h/s);
    expect(troubles).toEqual([]);
    await page.context().close();
  });
});

describe('plan', () => {
  test('higher up, the same soup takes more minutes and more fuel; both papers print', async () => {
    await leaveOnlySoup();
    const { page, troubles } = await openWatchedPage(browser);
    const seen: { minutes: number; fuelMJ: number }[] = [];
    for (const elevation of ['300', '2600']) {
      await setElevation(page, elevation);
      await planTwoDays(page);
      const meal = page.locator('details.meal', { hasText: 'Lentil' }).first();
      await meal.locator('> summary').click();
      seen.push({ minutes: await figure(page, /^At the boil/), fuelMJ: await figure(page, /^Heat of the fuel/) });
    }
    const [low, high] = seen;
    expect(low?.minutes).toBeGreaterThan(0);
    // Softening slows tenfold per 22 to 28 K, and water boils 8 K lower; the box does its share in both.
    expect(high?.minutes).toBeGreaterThan(1.5 * (low?.minutes ?? 0));
    expect(high?.fuelMJ).toBeGreaterThan(1.1 * (low?.fuelMJ ?? 0));
    expect(await page.locator('#status').textContent()).toMatch(/meals planned/);
    await printBothPapers(page);
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  test('a long search says how long it has taken, and Stop ends it', async () => {
    const { page } = await openWatchedPage(browser);
    // A server that does not answer stands for a solver that is still at work.
    await page.route('**/api/plans', (route) => (route.request().method() === 'POST' ? undefined : route.continue()));
    await page.goto(server.origin);
    await page.locator('.given').waitFor();
    await page.getByRole('button', { name: 'Plan the week' }).click();
    await page.getByText(/Planning: 1 of at most 20 s/).waitFor();
    expect(await page.locator('#status').textContent()).toBe('Planning…');
    await page.getByRole('button', { name: 'Stop' }).click();
    await page.locator('.planning').waitFor({ state: 'detached' });
    await expect.poll(() => page.locator('#status').textContent()).toMatch(/stopped/);
    await page.context().close();
  });

  test('too little to eat is an answer with what is short and since when', async () => {
    const { page } = await openWatchedPage(browser);
    await page.goto(server.origin);
    const outcome = page.locator('.outcome');
    await outcome.waitFor();
    expect(await outcome.locator('h2').textContent()).toMatch(/not enough.*first shortage is on Saturday/s);
    expect(await outcome.textContent()).toMatch(/Short of /);
    await page.context().close();
  });
});

async function printBothPapers(page: Page) {
  const address = await page.getByRole('link', { name: /Print the schedule/ }).getAttribute('href');
  const sheet = await page.context().newPage();
  await sheet.goto(server.origin + address);
  const folder = mkdtempSync(join(tmpdir(), 'outage-kitchen-pdf-'));
  const { body: plans } = await getJson<{ items: { id: string }[] }>('/api/plans');
  const { body: plan } = await getJson<Plan>(`/api/plans/${plans.items[0]?.id}`);
  for (const format of ['A4', 'Letter'] as const) {
    const file = join(folder, `${format}.pdf`);
    writeFileSync(file, await sheet.pdf({ format, printBackground: true }));
    const read = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
    // Where no reader of PDF files is installed, the text of the sheet as laid out stands in for it.
    const raw = read.error === undefined ? read.stdout : ((await sheet.locator('body').textContent()) ?? '');
    const text = raw.replace(/\s+/g, ' ');
    expect(text).toMatch(/serve the lentil and bulgur soup/i);
    for (const step of plan.schedule.filter((one) => one.action === 'light'))
      expect(text).toContain(step.at.slice(11, 16));
    expect(text).toContain('What can hurt');
  }
  rmSync(folder, { recursive: true });
  await sheet.close();
}

describe('for everybody', () => {
  const views = [
    'plan',
    'set-up',
    'stores',
    `stores/stock/${KIDNEY_KIT}`,
    `stores/kit/${KIDNEY_KIT}`,
    `stores/ways/${KIDNEY_KIT}`,
    'numbers',
    'tonight',
    'first-minutes',
  ];

  for (const colorScheme of ['light', 'dark'] as const) {
    test(`nothing for axe to find on any view, all parts open, ${colorScheme}`, async () => {
      const { page, troubles } = await openWatchedPage(browser, { colorScheme });
      for (const view of views) {
        await page.goto(`${server.origin}/#/${view}`);
        await page.locator('h1').waitFor();
        await page.waitForTimeout(700);
        await page.evaluate(() => {
          for (const part of document.querySelectorAll('details')) part.open = true;
        });
        expect(await faultsFoundByAxe(page), view).toEqual([]);
      }
      expect(troubles).toEqual([]);
      await page.context().close();
    });
  }

  test('script and style stay below 60 kB as they travel', async () => {
    const start = await (await fetch(server.origin)).text();
    const files = [...start.matchAll(/(?:src|href)="(\/assets\/[^"]+\.(?:js|css))"/g)].map((found) => found[1]);
    expect(files.length).toBeGreaterThanOrEqual(2);
    let bytes = 0;
    for (const file of files) {
      bytes += gzipSync(Buffer.from(await (await fetch(server.origin + file)).arrayBuffer())).byteLength;
    }
    expect(bytes).toBeLessThan(60_000);
  });

  test('no view is wider than a screen of 320', async () => {
    const { page } = await openWatchedPage(browser, { width: 320, height: 640 });
    for (const view of views) {
      await page.goto(`${server.origin}/#/${view}`);
      await page.locator('h1').waitFor();
      await page.waitForTimeout(500);
      await page.evaluate(() => {
        for (const part of document.querySelectorAll('details')) part.open = true;
      });
      expect(await page.evaluate(() => document.documentElement.scrollWidth), view).toBeLessThanOrEqual(320);
    }
    await page.context().close();
  });

  test('the keyboard reaches the plan button with its focus in sight', async () => {
    const { page } = await openWatchedPage(browser);
    await page.goto(server.origin);
    await page.getByRole('button', { name: 'Plan the week' }).waitFor();
    for (let press = 0; press < 30; press += 1) {
      await page.keyboard.press('Tab');
      const focused = await page.evaluate(() => {
        const element = document.activeElement as HTMLElement;
        return {
          name: `${element.tagName} ${element.id} ${element.className}`,
          text: element.textContent,
          outline: getComputedStyle(element).outlineStyle,
        };
      });
      expect(focused.outline, focused.name).not.toBe('none');
      if (focused.text?.includes('Plan the week')) return;
    }
    throw new Error('thirty presses of Tab did not reach the button');
  });
});
