/** Recording own tests on the page: what a boil test does, the question of an odd one, removing it. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
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

it('records a boil test, says what follows, questions an odd one, counts it when confirmed, and removes it', async () => {
  const { page, troubles } = await openWatchedPage(browser);
  await page.goto(`${server.origin}/#/set-up`);
  await page.getByRole('heading', { name: 'Measured by you' }).click();
  const part = page.locator('details.part-title', { has: page.getByRole('heading', { name: 'Measured by you' }) });
  const form = part.getByRole('group', { name: 'Record a test' });
  const fill = async (fields: [label: RegExp, text: string][]) => {
    for (const [label, text] of fields) await form.getByLabel(label).fill(text);
    await form.getByRole('button', { name: 'Record it' }).click();
  };
  await form.getByLabel('Stove', { exact: true }).selectOption('camp-stove');
  await form.getByLabel('Pot', { exact: true }).selectOption('small-pot');
  // Nothing typed yet: the refusal stands at the fields.
  await form.getByRole('button', { name: 'Record it' }).click();
  await part.getByText('Is missing.').first().waitFor();
  await fill([
    [/^Water \(L\)/, '2'],
    [/^Water at the start/, '12'],
    [/^Fuel burnt/, '300'],
    [/^Until it boiled/, '9'],
    [/^Air at the flame/, '10'],
  ]);
  await part.getByText('It does not count yet.').waitFor();
  expect(await part.getByText(/Was the lid off/).count()).toBeGreaterThan(0);
  await part.getByRole('button', { name: 'It is right: count it' }).click();
  await part.getByText(/Propane camp stove: uses about \d+ % more fuel than the table expects/).waitFor();
  await part.getByRole('button', { name: /^Remove/ }).click();
  await part.getByText('nothing yet').waitFor();
  expect(await part.getByText(/more fuel than the table expects/).count()).toBe(0);
  // Put back, it counts as before: the table has a band before and after. Then it is removed for good.
  await part.getByRole('button', { name: 'Undo: put it back' }).click();
  await part.getByRole('row', { name: /Propane camp stove: efficiency/ }).waitFor();
  // The own figure opens: the table's band, what the test says, and how they come together.
  await part.getByRole('button', { name: /how this comes about: Propane camp stove: efficiency/ }).click();
  const panel = page.getByRole('dialog');
  await panel.locator('.derivation > li').first().waitFor();
  expect(await panel.locator('.derivation > li').last().textContent()).toMatch(/^\s*Own figure/);
  expect(await panel.getByText(/Bayesian Data Analysis/).count()).toBeGreaterThan(0);
  await panel.getByRole('button', { name: 'Close' }).click();
  await part.getByRole('button', { name: /^Remove/ }).click();
  await part.getByText('nothing yet').waitFor();

  // A cooking note of a lot, and a reading of the box.
  await form.getByLabel('What', { exact: true }).selectOption('cooking-note');
  await form.getByLabel('Lot').selectOption({ index: 0 });
  await fill([
    [/^Boiled after/, '10'],
    [/^Soft after/, '5'],
  ]);
  await part
    .getByText(/Soft before it boiled/)
    .first()
    .waitFor();
  await form.getByLabel('What', { exact: true }).selectOption('cooling-reading');
  await fill([
    [/^Filled with/, '5'],
    [/^At the start/, '90'],
    [/^Left for/, '4'],
    [/^Then it had/, '74'],
  ]);
  await part.getByText(/Foam box: keeps heat about/).waitFor();
  expect(troubles).toEqual([]);
  await page.close();
}, 60_000);
