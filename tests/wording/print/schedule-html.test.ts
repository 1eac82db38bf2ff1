import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Plan, ScheduleStep } from '../../../api/planning/plan-types.ts';
import { rowsOf } from '../../../api/wording/print/card-rows.ts';
import { conditionsOnce } from '../../../api/wording/print/conditions.ts';
import { dayCards } from '../../../api/wording/print/day-card.ts';
import { escapeHtml, linesOf } from '../../../api/wording/print/html.ts';
import { scheduleHtml } from '../../../api/wording/print/schedule-html.ts';
import { sheetMetrics } from '../../../api/wording/print/sheet-type.ts';
import { stepLine, stepRow, terseText, WIDE } from '../../../api/wording/print/step-row.ts';
import { sumRows } from '../../../api/wording/print/sum-table.ts';
import { MEASURE_WATER } from '../../../api/wording/schedule-meals.ts';
import { addMinutes } from '../../../api/wording/times.ts';
import { byTheClock } from '../../../api/wording/without-clock.ts';
import { planFixture } from '../plan-fixture.ts';

const html = scheduleHtml(planFixture(), { units: 'metric', type: 'normal' });
const css = readFileSync(new URL('../../../web/public/print.css', import.meta.url), 'utf8');

/** One day with so many one-line steps and nothing else. */
function dayOf(count: number): Plan {
  const plan = planFixture();
  const date = '2026-12-05';
  const schedule: ScheduleStep[] = Array.from({ length: count }, (_, index) => ({
    id: `s-${index}`,
    at: `${date}T08:${String(index).padStart(2, '0')}`,
    latestAt: null,
    afterStepId: null,
    action: 'check',
    text: 'Stir the pot.',
    quantities: [],
    who: null,
    ifNot: null,
    meal: null,
    minutes: 1,
    handsOn: true,
  }));
  return { ...plan, schedule, lightings: [], cookings: [], meals: [], fuel: [], water: { onHandL: 0, byDay: [] } };
}

describe('the document', () => {
  it('has no script, no inline style, and links the print style sheet', () => {
    expect(html).not.toMatch(/<script| style=| on[a-z]+=/i);
    expect(html).toContain('<link rel="stylesheet" href="/print.css">');
    expect(html).toMatch(/^<!doctype html>\n<html lang="en">/);
    expect(html.match(/<h1>/g)).toHaveLength(1);
  });

  it('has a sheet for every day, numbered, with its place in the week', () => {
    for (const day of ['Saturday', 'Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday']) {
      expect(html).toContain(`<h2>${day}`);
    }
    expect(html).toContain('Day 3 of 7');
    expect(html).not.toContain('{{page}}');
    const pages = html.match(/<section class="card/g)?.length;
    expect(html).toContain(`Page ${pages} of ${pages}`);
  });

  it('escapes what a user wrote', () => {
    const plan = planFixture();
    plan.resolved.household.name = '<img src=x onerror="alert(1)">';
    const first = plan.cookings[0];
    if (first !== undefined) first.kitName = '</td><script>alert(2)</script>';
    const text = scheduleHtml(plan, { units: 'us', type: 'compact' });
    expect(text).not.toMatch(/<img|<script/);
    expect(text).toContain('&lt;img src=x onerror=&quot;');
    expect(escapeHtml(`<&>"'`)).toBe('&lt;&amp;&gt;&quot;&#39;');
  });

  it('prints both systems, the wanted one first, and only 24-hour times', () => {
    expect(html).toMatch(/\d\u00a0L \(\d/);
    expect(scheduleHtml(planFixture(), { units: 'us', type: 'normal' })).toMatch(/cups? \(\d/);
    expect(html).not.toMatch(/\b00:00\b|\b[ap]\.m\./);
    expect(html).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('says what to do first, then the dangers, then the steps', () => {
    const card = dayCards(planFixture(), '2026-12-06', 2, 'metric', sheetMetrics('normal'))[0] ?? '';
    const order = ['class="balance"', 'class="now"', 'class="danger"', 'class="steps"'].map((mark) =>
      card.indexOf(mark),
    );
    expect(order.every((place) => place > 0)).toBe(true);
    expect(order).toEqual([...order].sort((a, b) => a - b));
  });

  it('carries the lines a cook needs at the foot', () => {
    const card = dayCards(planFixture(), '2026-12-06', 2, 'metric', sheetMetrics('normal')).join('');
    expect(card).toMatch(/>21:00<.*Soak small red beans in the blue bowl/);
    expect(card).toContain('Water today');
    expect(card).toMatch(/dishes 7\.5\u00a0L \(2\.5\u00a0L a meal\)/);
    expect(card).toContain('No-fire meal of the day');
    expect(card).toContain('Fuel used');
    expect(card).toContain('Water left (expect');
    expect(card).toContain('New plan below');
  });
});

describe('the rows of a card', () => {
  const plan = planFixture();
  const steps = plan.schedule.filter((step) => step.at.startsWith('2026-12-06'));
  const rows = rowsOf(plan, steps);

  it('lose no step but those that stand in the head, at the foot and at the meal', () => {
    const kept = rows.flatMap((row) => row.steps);
    const left = steps.filter((step) => !kept.includes(step));
    for (const step of left) {
      expect(['weigh', 'check', 'wash-up', 'throw-away']).toContain(step.action);
      if (step.action === 'check') expect(step.text).toBe(MEASURE_WATER);
    }
    for (const step of steps.filter((one) => one.action === 'throw-away')) {
      const serve = kept.find((one) => one.action === 'serve' && one.meal === step.meal);
      expect(serve?.text).toMatch(new RegExp(`throw away within .*, by ${step.at.slice(11)}`));
    }
  });

  it('join what hands do in one go, in order, and never over more than five minutes', () => {
    expect(rows.some((row) => row.steps.length > 1)).toBe(true);
    const all = rows.flatMap((row) => row.steps.map((step) => step.at));
    expect(all).toEqual([...all].sort());
    for (const { steps: joined } of rows) {
      for (const step of joined) expect(step.at <= addMinutes(joined[0]?.at ?? '', 6)).toBe(true);
    }
  });

  it('run on where a page is too short: every step is there, those of another time with their time', () => {
    const close = rowsOf(plan, steps, true);
    expect(close.flatMap((row) => row.steps)).toEqual(rows.flatMap((row) => row.steps));
    expect(close.length).toBeLessThan(rows.length);
    const metrics = sheetMetrics('normal');
    for (const row of close) {
      const { html: text } = stepRow(row, '2026-12-06', 1, 'metric', metrics, conditionsOnce(steps), {
        ...WIDE,
        runIn: true,
        close: true,
      });
      const times = [row.steps[0]?.at.slice(11) ?? '', ...(text.match(/(?<=<b class="at">)\d\d:\d\d(?=<)/g) ?? [])];
      expect(times).toEqual([...times].sort());
      // Each step is within six minutes of the last time that was said before it.
      for (const step of row.steps) {
        const said = times.filter((time) => time <= step.at.slice(11)).at(-1) ?? '';
        expect(addMinutes(`2026-12-06T${said}`, 6) >= step.at).toBe(true);
      }
      // A box, a soak and a drain wait for a time of their own: they begin their row.
      for (const step of row.steps.slice(1)) expect(['soak', 'drain', 'unbox']).not.toContain(step.action);
    }
  });

  it('say which packing a kit comes from, once, where the store has several', () => {
    const two = {
      ...plan,
      resolved: {
        ...plan.resolved,
        stock: plan.resolved.stock.flatMap((lot) => [lot, { ...lot, packedOn: '2026-01-02' }]),
      },
    };
    const rowsOfTwo = rowsOf(two, steps);
    for (const cooking of plan.cookings.filter((one) => one.startsAt.startsWith('2026-12-06'))) {
      const mine = rowsOfTwo.filter(
        (row) => row.packed !== null && row.steps.some((step) => step.cookingId === cooking.id),
      );
      expect(mine.length, cooking.id).toBe(cooking.method.soak === null ? 1 : 0);
      if (mine[0] !== undefined) expect(mine[0].packed).toBe('Packed 17 Mar 2023.');
    }
    // With one packing in store the name of the kit tells which.
    expect(rows.every((row) => row.packed === null)).toBe(true);
  });

  it('put US units first in texts too', () => {
    const us = dayCards(plan, '2026-12-06', 2, 'us', sheetMetrics('normal')).join('');
    expect(us).toContain('140\u00a0°F (60\u00a0°C) or more');
    expect(us).toContain('20\u00a0ft (6\u00a0m)');
    expect(us).not.toMatch(/\d\u00a0(?:°C|kPa|m|L|kg|g) \(\d/);
    expect(us).toMatch(/New plan below \d+\u00a0lb/);
  });

  it('put US units first everywhere on paper, and say fuel in ounces and in containers', () => {
    for (const type of ['normal', 'large'] as const) {
      const us = scheduleHtml(plan, { units: 'us', type }).replace(/<[^>]*>/g, '');
      expect(us).not.toMatch(/\d\u00a0(?:°C|kPa|m|mL|L|kg|g) \(\d/);
      // A figure in metric units stands in brackets, behind its US one.
      expect(us.replace(/\([^()]*\)/g, '')).not.toMatch(/\d\u00a0(?:°C|kPa|m|mL|L|kg)\b/);
      // Large type has no room for the columns of days.
      if (type === 'large') expect(us).toMatch(/set aside [^.]*oz \(\d[^)]*g\) of/);
      else expect(us).toMatch(/Wood, lb.*Propane, lb.*Water, gal/s);
    }
    const own = planFixture();
    const fuel = own.fuel.find((one) => one.fuelId === 'propane');
    if (fuel === undefined) throw new Error('the fixture burns propane');
    const use = { nth: 1, openedOn: null, emptyOn: null };
    fuel.usedKg = { ...fuel.usedKg, p90: 0.5 };
    fuel.containers = [
      { ...use, id: 'open', kg: 0.26 },
      { ...use, id: 'full', kg: 0.465 },
      { ...use, id: 'full', nth: 2, kg: 0.465 },
    ];
    // 0.26 of 0.26 and 0.24 of 0.465 are 1.52 containers: up to the next quarter.
    expect(scheduleHtml(own, { units: 'us', type: 'normal' })).toContain('Propane: set aside 1¾ of 3 containers.');
  });

  it('sum fuel and water in columns, each sum that of the figures before it, nothing set aside rounded down', () => {
    const dates = plan.water.byDay.map((day) => day.date);
    for (const system of ['metric', 'us'] as const) {
      const kgPer = system === 'metric' ? 1 : 0.45359237;
      for (const { name, cells } of sumRows(plan, dates, system)) {
        const [all, setAside] = cells.slice(dates.length).map(Number) as [number, number];
        const days = cells.slice(0, dates.length).map((cell) => (cell === '-' ? 0 : Number(cell)));
        // Two decimals are added: the rest is the arithmetic of the machine.
        expect(
          days.reduce((sum, amount) => sum + amount, 0),
          name,
        ).toBeCloseTo(all, 6);
        const fuel = plan.fuel.find(({ fuelId }) => name.toLowerCase().startsWith(fuelId.replaceAll('-', ' ')));
        if (fuel !== undefined) expect(setAside * kgPer + 1e-9, name).toBeGreaterThanOrEqual(fuel.usedKg.p90);
      }
    }
  });

  it('list allergens on the first sheet', () => {
    expect(html).toMatch(/Allergens:<\/b>.*gluten, milk/);
  });
});

describe('the compact sheets', () => {
  const plan = planFixture();
  const compact = scheduleHtml(plan, { units: 'metric', type: 'compact' });

  it('take half of the pages at most: a fuller week than the demonstration one, six sides', () => {
    const pages = (text: string) => text.match(/<section class="card/g)?.length ?? 0;
    expect(pages(compact)).toBeLessThanOrEqual(6);
    expect(pages(compact)).toBeLessThanOrEqual(pages(html) / 2);
    expect(compact).toContain('Print on both sides');
  });

  it('have every step of every day with its amounts, what can go wrong, and room to write', () => {
    const words = compact.replace(/<[^>]*>/g, '');
    for (const step of plan.schedule) {
      if (!['soak', 'drain', 'serve', 'boil', 'box'].includes(step.action)) continue;
      const text = escapeHtml(terseText(byTheClock(step.text)).slice(0, 30));
      if (!text.startsWith('Carry ')) expect(words, step.text).toContain(text);
    }
    for (const text of ['start the count again', 'throw it away', 'new plan below', 'Carbon monoxide kills'])
      expect(words).toContain(text);
    expect(compact.match(/Fuel left:/g)).toHaveLength(7);
  });

  it('have one system of units', () => {
    const us = scheduleHtml(plan, { units: 'us', type: 'compact' }).replace(/<[^>]*>/g, '');
    expect(us).toMatch(/\d\u00a0cups/);
    expect(us).not.toMatch(/\d\u00a0(?:°C|kPa|mL|L|kg|g|m)\b/);
    expect(compact.replace(/<[^>]*>/g, '')).not.toMatch(/\d\u00a0(?:°F|psi|gal|oz|lb|ft)\b/);
  });
});

describe('the row budget (P22)', () => {
  it('holds a day of 20 one-line rows on one page, and goes on as 2 of 2 above what fits', () => {
    const metrics = sheetMetrics('normal');
    expect(dayCards(dayOf(20), '2026-12-05', 1, 'metric', metrics)).toHaveLength(1);
    const pages = dayCards(dayOf(28), '2026-12-05', 1, 'metric', metrics);
    expect(pages).toHaveLength(2);
    expect(pages[1]).toContain('Saturday, 2 of 2');
    const rows = pages.map((page) => page.match(/class="step /g)?.length ?? 0);
    expect(rows.reduce((sum, count) => sum + count, 0)).toBe(28);
    // 25 rows of 9 mm are the most that Letter holds beside a heading and a column head; this card has no column head.
    for (const count of rows) expect(count).toBeLessThanOrEqual(26);
  });

  it('estimates more lines for a narrower column or larger type, never fewer', () => {
    const text = 'Put the small pot on the propane camp stove. Lid on. 2.6 L (11 cups) safe water';
    expect(linesOf(text, 60, 14)).toBeGreaterThanOrEqual(linesOf(text, 120, 14));
    expect(linesOf(text, 120, 18)).toBeGreaterThanOrEqual(linesOf(text, 120, 12));
    expect(linesOf('', 100, 12)).toBe(1);
  });
});

describe('a step as one line', () => {
  it('joins amounts of the same thing', () => {
    const quantities = [
      { what: 'oats', amount: 275, unit: 'g' },
      { what: 'oats', amount: 3.5, unit: 'cups' },
    ];
    expect(stepLine({ text: 'Add.', quantities }, 'metric')).toBe('Add. 275\u00a0g (9½\u00a0oz), 3½\u00a0cups oats.');
  });
});

describe('the style sheet', () => {
  it('prints black on white at 12 pt or more, without italics, underline or capitals', () => {
    for (const size of css.matchAll(/font-size:\s*([\d.]+)pt/g)) expect(Number(size[1])).toBeGreaterThanOrEqual(12);
    for (const colour of css.matchAll(/(?:color|background):\s*(#[0-9a-f]+)/g))
      expect(['#000', '#fff']).toContain(colour[1]);
    expect(css).not.toMatch(/italic|underline|uppercase|justify\b(?!-)/);
    expect(css).toMatch(/@page \{\s*margin: 12mm;\s*\}/);
    expect(css).not.toMatch(/^\s*size:/m);
    expect(css).toMatch(/tr \{\s*break-inside: avoid;/);
  });
});
