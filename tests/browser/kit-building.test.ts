/** Kits, own foods and packing on the page, as somebody packs: amounts as they come, figures that follow, nothing lost. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Kit } from '../../web/api-types.ts';
import { faultsFoundByAxe } from './axe.ts';
import { openWatchedPage, type StartedServer, startBrowser, startBuiltServer } from './started-server.ts';

let server: StartedServer;
let browser: Browser;
beforeAll(async () => {
  [server, browser] = await Promise.all([startBuiltServer(), startBrowser()]);
}, 60_000);
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

async function kitOf(id: string): Promise<Kit> {
  return (await (await fetch(`${server.origin}/api/kits/${id}`)).json()) as Kit;
}

async function open(path: string): Promise<Page> {
  const { page } = await openWatchedPage(browser);
  await page.goto(`${server.origin}/${path}`);
  return page;
}

it('amounts are typed by mass, volume or serving, with commas; figures follow, and undo takes a scaling back', async () => {
  const page = await open('#/stores/kit/lentil-bulgur-soup');
  const answer = page.getByRole('region', { name: 'What it comes to' });
  await expect.poll(() => answer.textContent()).toContain('kcal');
  const before = await answer.textContent();
  const lentils = page.getByLabel(/lentils, a set/i);
  await lentils.fill('0,5 kg');
  await expect.poll(async () => (await kitOf('lentil-bulgur-soup')).parts[0]?.ingredients[0]?.massG).toBe(500);
  await expect.poll(() => answer.textContent()).not.toBe(before);
  await lentils.fill('2 cups');
  // USDA SR28: a US cup of lentils weighs 192 g.
  await expect
    .poll(async () => Math.abs(((await kitOf('lentil-bulgur-soup')).parts[0]?.ingredients[0]?.massG ?? 0) - 384))
    .toBeLessThan(1);
  await lentils.fill('60 g a serving');
  await expect.poll(async () => (await kitOf('lentil-bulgur-soup')).parts[0]?.ingredients[0]?.massG).toBe(300);
  await lentils.fill('60 stone');
  await lentils.blur();
  expect(await page.getByText('The unit "stone" is not known', { exact: false }).count()).toBe(1);
  // What was typed stays to be mended, what was stored stays as it was.
  expect(await lentils.inputValue()).toBe('60 stone');
  expect((await kitOf('lentil-bulgur-soup')).parts[0]?.ingredients[0]?.massG).toBe(300);
  await page.getByRole('button', { name: 'Twice everything' }).click();
  await expect.poll(async () => (await kitOf('lentil-bulgur-soup')).servings).toBe(10);
  expect((await kitOf('lentil-bulgur-soup')).parts[0]?.ingredients[0]?.massG).toBe(600);
  await page.getByRole('button', { name: 'Undo: put back the amounts as they were' }).click();
  await expect.poll(async () => (await kitOf('lentil-bulgur-soup')).servings).toBe(5);
  await page.close();
}, 60_000);

it('a draft that could not be sent is there after a reload, and is sent then', async () => {
  const page = await open('#/stores/kit/split-pea-potato-soup');
  const peas = page.getByLabel(/split peas.*, a set/i);
  await peas.waitFor();
  await page.route('**/api/kits/split-pea-potato-soup', (route) =>
    route.request().method() === 'PUT' ? route.abort() : route.continue(),
  );
  await peas.fill('410 g');
  await page.getByText('The server does not answer', { exact: false }).first().waitFor();
  await page.unroute('**/api/kits/split-pea-potato-soup');
  await page.reload();
  await expect.poll(async () => (await kitOf('split-pea-potato-soup')).parts[0]?.ingredients[0]?.massG).toBe(410);
  await page.close();
}, 60_000);

it('an own food is described, marked where it is guessed, used in a kit, and not removed while it is', async () => {
  const page = await open('#/stores/foods');
  await page.getByRole('button', { name: 'Describe a food' }).click();
  await page.getByText('Every own bean counts as a kidney bean', { exact: false }).waitFor();
  await page.getByLabel('Name').fill('Runner beans');
  await page.getByLabel('Name').blur();
  await page.getByLabel(/^Energy/).fill('310');
  await page.getByLabel(/^Energy/).blur();
  await page.getByLabel('milk', { exact: true }).check();
  await expect
    .poll(async () => ((await (await fetch(`${server.origin}/api/own-foods`)).json()) as { items: object[] }).items[0])
    .toMatchObject({ name: 'Runner beans', kcalPer100G: 310, allergens: ['milk'] });
  await expect.poll(() => page.locator('main').textContent()).toMatch(/guessed protein/);
  expect(await faultsFoundByAxe(page)).toEqual([]);
  await page.goto(`${server.origin}/#/stores/kit/red-bean-barley-stew`);
  await page.getByLabel('Ingredient 1', { exact: true }).first().selectOption({ label: 'Runner beans' });
  const answer = page.getByRole('region', { name: 'What it comes to' });
  await expect.poll(() => answer.textContent()).toMatch(/guessed.*of Runner beans/);
  expect(await answer.textContent()).toMatch(/Allergens.*milk/);
  await expect
    .poll(async () => (await kitOf('red-bean-barley-stew')).parts[0]?.ingredients[0]?.foodId)
    .toBe('own-food');
  expect(await faultsFoundByAxe(page)).toEqual([]);
  await page.goto(`${server.origin}/#/stores/foods/own-food`);
  await page.getByRole('button', { name: 'Remove this food' }).click();
  await page.getByText('Not removed: This food is in use: Red bean and barley stew', { exact: false }).waitFor();
  // One that nothing needs goes, and can be put back.
  await page.goto(`${server.origin}/#/stores/foods`);
  await page.getByRole('button', { name: 'Describe a food' }).click();
  await page.getByLabel('Name', { exact: true }).fill('Sweet chestnuts');
  await page.getByLabel('Name', { exact: true }).blur();
  await page.getByText('Saved.', { exact: true }).waitFor();
  const stored = async () =>
    ((await (await fetch(`${server.origin}/api/foods`)).json()) as { items: { name: string }[] }).items.map(
      ({ name }) => name,
    );
  await page.getByRole('button', { name: 'Remove this food' }).click();
  await page.getByRole('button', { name: 'Undo: put it back' }).waitFor();
  expect(await stored()).not.toContain('Sweet chestnuts');
  await page.getByRole('button', { name: 'Undo: put it back' }).click();
  await page.getByRole('heading', { name: 'Sweet chestnuts' }).waitFor();
  expect(await stored()).toContain('Sweet chestnuts');
  await page.close();
}, 60_000);

it.each([
  ['light', 1000],
  ['dark', 320],
] as const)(
  'packing and labels: figures from what is on hand, in %s at %s px',
  async (colorScheme, width) => {
    const page = await open('#/stores/print/lentil-bulgur-soup');
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width, height: 800 });
    const lentils = page.getByLabel(/lentils on hand/i);
    await lentils.fill('2 x 5 kg');
    await lentils.blur();
    const answer = page.getByRole('region', { name: 'What comes of it' });
    await expect.poll(() => answer.textContent()).toMatch(/used up first: .*lentils/i);
    await page.reload();
    await expect.poll(() => page.getByLabel(/lentils on hand/i).inputValue()).toBe('2 x 5 kg');
    const sheet = await page.getByRole('link', { name: 'Open the packing sheet to print' }).getAttribute('href');
    const html = await (await fetch(server.origin + sheet)).text();
    expect(html).toContain('Packing sheet: Lentil and bulgur soup');
    const card = await page.getByRole('link', { name: 'Open card and labels to print' }).getAttribute('href');
    expect(await (await fetch(server.origin + card)).text()).toContain('class="label"');
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
    expect(await faultsFoundByAxe(page)).toEqual([]);
    await page.close();
  },
  60_000,
);
