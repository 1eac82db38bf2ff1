/**
 * Twelve questions of a bad evening, and the next action at every hour of the week, answered from the text of the PDF
 * alone by a reader who has seen nothing else (`paper-reader.ts`), and held against the plan.
 */
import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { findFood } from '../../api/cooking/foods/foods-table.ts';
import type { Cooking, Plan, ScheduleStep } from '../../api/planning/plan-types.ts';
import { eatByOf } from '../../api/wording/eat-by.ts';
import { inSentence, thingName } from '../../api/wording/names.ts';
import { scheduleHtml } from '../../api/wording/print/schedule-html.ts';
import type { SheetType } from '../../api/wording/print/sheet-type.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import { MEASURE_WATER } from '../../api/wording/schedule-meals.ts';
import { addDays, addMinutes, dateOf, dayName, minutesBetween } from '../../api/wording/times.ts';
import { planFixture } from '../wording/plan-fixture.ts';
import { ifNot, nextAction, type Paper, readPaper, tableRow, underWay, waterOf } from './paper-reader.ts';
import { pdfText } from './pdf-text.ts';
import { type StartedServer, startBrowser, startBuiltServer } from './started-server.ts';

const css = readFileSync(new URL('../../web/public/print.css', import.meta.url), 'utf8');

let server: StartedServer;
let browser: Browser;
let demo: Plan;
let paper: Paper;
/** A made-up week with a dish of every way of cooking; its figures never change. */
const plan = planFixture();

beforeAll(async () => {
  server = await startBuiltServer();
  browser = await startBrowser();
  const response = await fetch(`${server.origin}/api/plans`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ householdId: 'saddle-lane', startsAt: '2026-12-05T17:00', days: 7 }),
  });
  demo = (await response.json()) as Plan;
  paper = await paperOf(plan, 'normal', 'metric', 'A4');
}, 60_000);

afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

async function pagesOf(of: Plan, type: SheetType, units: 'metric' | 'us', format: 'A4' | 'Letter'): Promise<string[]> {
  const page = await browser.newPage();
  const html = scheduleHtml(of, { units, type }).replace(/<link rel="stylesheet"[^>]*>/, `<style>${css}</style>`);
  await page.setContent(html);
  const pages = pdfText(await page.pdf({ format, printBackground: false }));
  await page.close();
  expect(pages.every((text) => text.length > 100)).toBe(true);
  return pages;
}

async function paperOf(...wanted: Parameters<typeof pagesOf>): Promise<Paper> {
  return readPaper(await pagesOf(...wanted));
}

/** What stands on a card at its time: washing up and throwing away are said at the meal. */
const isOnCard = (step: ScheduleStep): boolean =>
  step.action !== 'wash-up' && !(step.action === 'throw-away' && step.meal !== null);
/** What stands in the head of a card. */
const isReading = (step: ScheduleStep): boolean => step.action === 'weigh' || step.text === MEASURE_WATER;
const words = (text: string, count: number): string =>
  text
    .replace(/[\s\u00a0]+/g, ' ')
    .split(' ')
    .slice(0, count)
    .join(' ');
const card = (date: string): string => paper.cards.get(dayName(date)) ?? '';
const dishes = plan.meals.flatMap((meal) =>
  meal.dishes.map((dish) => ({
    meal,
    dish,
    cooking: plan.cookings.find(({ id }) => id === dish.cookingId) as Cooking,
  })),
);
const dates = Array.from({ length: 7 }, (_, day) => addDays('2026-12-05', day));

describe('twelve questions to the paper alone', () => {
  test('1. It is Tuesday 15:00: what next, with how much water?', () => {
    const asked = '2026-12-08T15:00';
    const next = plan.schedule.find((step) => step.at >= asked && isOnCard(step));
    const answer = nextAction(paper, 'Tuesday', '15:00');
    expect(answer).toMatchObject({ day: 'Tuesday', time: next?.at.slice(11) });
    expect(answer?.words).toContain(words(next?.text ?? '?', 4));
    // The next pot of water after that, wherever it is.
    const pot = plan.schedule.find(
      (step) => step.at >= asked && step.quantities.some((one) => /^safe water/.test(one.what)) && isOnCard(step),
    );
    const told = paper.entries.find(
      (entry) =>
        entry.day === dayName(pot?.at ?? '') &&
        entry.time >= (pot?.at.slice(11) ?? '') &&
        waterOf(entry.words) !== null,
    );
    const litres = pot?.quantities.find((one) => one.what.startsWith('safe water'))?.amount ?? 0;
    const shown = waterOf(told?.words ?? '') ?? '';
    const read = Number.parseFloat(shown) / (shown.endsWith('mL') ? 1000 : 1);
    // Printed to a tenth of a litre.
    expect(Math.abs(read - litres)).toBeLessThanOrEqual(0.05);
  });

  test('2. Which pot for the evening dish, and on which stove?', () => {
    const cooked = dishes.filter(({ meal, cooking }) => meal.slot === 'evening' && cooking.method.stoveId !== null);
    expect(cooked.length).toBe(7);
    for (const { cooking } of cooked) {
      const { household } = plan.resolved;
      const name = inSentence(cooking.kitName);
      const told = paper.entries.find(
        (entry) => entry.day === dayName(cooking.startsAt) && entry.words.includes(`for the ${name}`),
      )?.words;
      const [, pot, stove] =
        /Put the (.+?) on (?:the )?(.+?)(?: once it burns well| next|,.*?)? for the/.exec(told ?? '') ?? [];
      expect(pot, cooking.id).toBe(thingName(household, cooking.method.vesselId));
      expect([thingName(household, cooking.method.stoveId), 'it'], cooking.id).toContain(stove);
    }
  });

  test('3. The beans are still hard, now what?', () => {
    const beans = dishes.filter(({ cooking }) => cooking.method.gaugeKPa !== null);
    expect(beans.length).toBeGreaterThan(0);
    for (const { cooking } of beans) {
      const { boilMinutes } = cooking.method;
      const more = Math.ceil(boilMinutes?.p90 ?? 0) - Math.ceil(boilMinutes?.p50 ?? 0);
      expect(ifNot(card(dateOf(cooking.startsAt)), 'not soft: hold')).toBe(null);
      expect(card(dateOf(cooking.startsAt))).toContain(`If not soft: hold ${more} min more at full pressure`);
    }
    const pots = dishes.filter(({ cooking }) => cooking.method.finish === 'flame' && cooking.method.gaugeKPa === null);
    for (const { cooking } of pots) {
      const longest = Math.ceil(cooking.method.boilMinutes?.p90 ?? 0);
      expect(card(dateOf(cooking.startsAt))).toMatch(new RegExp(`If not soft: boil on, up to ${longest} min in all`));
    }
  });

  test('4. The stove does not light, or the fire goes out: now what?', () => {
    for (const lighting of plan.lightings) {
      const answer = ifNot(card(dateOf(lighting.at)), 'no flame');
      expect(answer, lighting.id).toMatch(
        /(?:wood thinner|light again|in your hands), else (?:serve )?the no-fire meal\.$/,
      );
    }
    expect([...paper.cards.values()].join(' ')).toMatch(
      /If the flame goes out: let the burner cool 15 min, refill it, light it again\./,
    );
  });

  test('5. The box is at 58 °C, or at 50 °C, when it is opened: may we eat?', () => {
    const boxed = dishes.filter(({ cooking }) => cooking.method.finish === 'box');
    expect(boxed.length).toBeGreaterThan(0);
    for (const { meal } of boxed) {
      const text = card(dateOf(meal.eatAt));
      expect(text).toMatch(/Measure the food: 60 °C (?:\(140 °F\) )?or more\./);
      expect(ifNot(text, 'colder')).toBe('give it a full boil.');
      expect(ifNot(text, 'below 55 °C')).toBe('throw it away.');
    }
  });

  test('6. What do I put to soak tonight?', () => {
    for (const date of dates) {
      const told = /Soak tonight: (.*?)\./.exec(card(date))?.[1];
      const soaks = plan.schedule.filter(
        (step) => step.action === 'soak' && dateOf(step.at) === date && step.at.slice(11) >= '15:00',
      );
      if (soaks.length === 0) expect(told, date).toBe('nothing');
      for (const soak of soaks) {
        expect(told, date).toContain(soak.at.slice(11));
        const row = paper.entries.find((entry) => entry.day === dayName(date) && entry.time === soak.at.slice(11));
        expect(row?.words).toMatch(/^Soak .* in the .* bowl/);
        expect(waterOf(row?.words ?? '')).not.toBeNull();
        expect(paper.first).toContain(`${dayName(date)} ${soak.at.slice(11)}`);
      }
    }
  });

  test('7. The scale shows less than it should: carry on, or make a new plan?', () => {
    let read = 0;
    for (const date of dates.slice(1)) {
      for (const fuel of plan.fuel) {
        const before = fuel.byDay.find((day) => day.date === addDays(date, -1));
        const found = new RegExp(
          `${fuel.fuelId.replaceAll('-', ' ')} Expect ([\\d.]+) (k?g) New plan below ([\\d.]+) (k?g)`,
          'i',
        ).exec(card(date));
        if (found === null || before === undefined) continue;
        const kg = (figure?: string, unit?: string) => Number(figure) / (unit === 'kg' ? 1 : 1000);
        // A mark is rounded up: one that is too low would be seen too late.
        expect(kg(found[3], found[4]), `${date} ${fuel.fuelId}`).toBeGreaterThanOrEqual(before.replanBelow - 1e-9);
        expect(kg(found[3], found[4])).toBeLessThanOrEqual(before.replanBelow * 1.01 + 0.1);
        read += 1;
      }
    }
    expect(read).toBeGreaterThan(6);
  });

  test('8. No fire at all today: what do we eat?', () => {
    for (const date of dates) {
      const told = /No-fire meal(?: of the day)?: (.*?)[.,]/.exec(card(date))?.[1];
      const kit = plan.resolved.kits.find((one) => inSentence(one.name).startsWith(told ?? '?'));
      expect(kit?.style, date).toBe('no-cook');
    }
  });

  test('9. Until when may what is left be eaten?', () => {
    for (const { meal, dish, cooking } of dishes) {
      const name = inSentence(cooking.kitName);
      const told = paper.entries.find(
        (entry) =>
          entry.day === dayName(meal.eatAt) && entry.words.includes(`Serve the ${name}`) && / by \d/.test(entry.words),
      );
      // Dry goods from the bags keep.
      if (told === undefined) expect(cooking.method.finish, name).toBe('no-heat');
      else expect(/by (\d\d:\d\d)\./.exec(told.words)?.[1]).toBe(eatByOf(meal, dish, cooking).slice(11));
    }
    expect(paper.first).toMatch(/eaten within 2 h.*throw it away/);
  });

  test('10. A guest must not have milk (or nuts, or gluten): which dishes are out?', () => {
    const list = /Allergens: (.*?)\. (?:What can hurt|Plan )/.exec(paper.first)?.[1] ?? '';
    for (const kit of plan.resolved.kits.filter((one) => plan.cookings.some(({ kitId }) => kitId === one.id))) {
      const wanted = new Set(
        kit.parts.flatMap((part) => part.ingredients.flatMap((one) => findFood(one.foodId)?.allergens ?? [])),
      );
      const told = new RegExp(`${inSentence(kit.name)}: ([^:;]*)(?:;|$)`).exec(list)?.[1];
      expect(told?.split(', ') ?? [], kit.name).toEqual([...wanted].map((name) => name.replaceAll('-', ' ')));
    }
  });

  test('11. How much fuel does the week take in all, and does it add up?', () => {
    for (const [name, fuelId] of [
      ['Wood, kg', 'wood'],
      ['Propane, kg', 'propane'],
    ] as const) {
      const cells = tableRow(paper, name).map((cell) => (cell === '-' ? 0 : Number(cell)));
      const [inAll, setAside, onHand] = cells.slice(7) as [number, number, number];
      const fuel = plan.fuel.find((one) => one.fuelId === fuelId);
      expect(cells.slice(0, 7).reduce((sum, kg) => sum + kg, 0)).toBeCloseTo(inAll, 6);
      expect(setAside).toBeGreaterThanOrEqual(fuel?.usedKg.p90 ?? 9);
      expect(onHand).toBeLessThanOrEqual((fuel?.onHandKg ?? 0) + 1e-9);
    }
    const water = tableRow(paper, 'Water, L').map(Number);
    expect(water.slice(0, 7).reduce((sum, litres) => sum + litres, 0)).toBeCloseTo(water[7] as number, 6);
  });

  test('12. The clock has stopped: when is the fire lit after the midday meal?', () => {
    let told = 0;
    for (const lighting of plan.lightings) {
      const entry = paper.entries.find((one) => one.day === dayName(lighting.at) && one.time === lighting.at.slice(11));
      const [, amount = '0', unit, event] =
        /([\d½¼¾]+) (min|h) after (getting up|breakfast|the midday meal|the evening meal)/.exec(entry?.words ?? '') ??
        [];
      if (event !== 'the midday meal') continue;
      const hours = { '½': 0.5, '¼': 0.25, '¾': 0.75 } as const;
      const number = (Number.parseInt(amount, 10) || 0) + (hours[amount.slice(-1) as '½'] ?? 0);
      const meal = plan.meals.find((one) => one.slot === 'midday' && dateOf(one.eatAt) === dateOf(lighting.at));
      // Waits are told to a quarter of an hour.
      const minutes = number * (unit === 'h' ? 60 : 1);
      expect(Math.abs(minutes - minutesBetween(meal?.eatAt ?? '', lighting.at))).toBeLessThanOrEqual(7.5);
      told += 1;
    }
    expect(told).toBe(7);
  });
});

describe('a day a page (P20)', () => {
  test.each([
    ['metric', 'A4'],
    ['metric', 'Letter'],
    ['us', 'A4'],
    ['us', 'Letter'],
  ] as const)('a first sheet of two sides at most, and seven cards, in %s on %s', async (units, format) => {
    // A made-up week of full days: a breakfast on the fire, a cold dish, and beans, a box or a pressure cooker each.
    for (const week of [demo, { ...plan, tasks: [], schedule: makeSchedule({ ...plan, tasks: [] }) }]) {
      const pages = await pagesOf(week, 'normal', units, format);
      const days = pages.filter((text) => /^\w+day[\s,]/.test(text));
      const names = days.map((text) => /^\w+/.exec(text)?.[0]);
      expect([...new Set(names)]).toEqual(dates.map(dayName));
      // A day of three cooked dishes, with hot water and fuel to change, may run onto a second page; no other day does.
      const cookedOn = (date: string) =>
        week.cookings.filter(({ startsAt, method }) => startsAt.startsWith(date) && method.finish !== 'no-heat').length;
      const overrun = names.filter((name, at) => names.indexOf(name) !== at);
      const full = dates.filter((date) => cookedOn(date) >= 3).map(dayName);
      expect(overrun.every((name) => name !== undefined && full.includes(name))).toBe(true);
      expect(overrun.length).toBeLessThanOrEqual(1);
      // Many dishes, and what is old or guessed of them, push what can hurt onto a second side of the first sheet.
      expect(pages.length - days.length).toBeLessThanOrEqual(2);
    }
  });
});

describe('the next action', () => {
  const at = (hour: number): string => addMinutes('2026-12-05T00:00', hour * 60);

  test.each([
    ['of the made-up week', () => plan, 'normal', 'metric', 'A4'],
    ['of the demonstration', () => demo, 'normal', 'metric', 'A4'],
    ['of the demonstration', () => demo, 'normal', 'us', 'Letter'],
    ['of the demonstration', () => demo, 'large', 'metric', 'A4'],
  ] as const)(
    'stands in the text for every hour of the week %s, %s %s %s',
    async (_what, of, type, units, format) => {
      const week = of();
      const read = await paperOf(week, type, units, format);
      const steps = week.schedule.filter(isOnCard);
      let found = 0;
      for (let hour = 0; hour < 7 * 24; hour += 1) {
        const next = steps.find((step) => step.at >= at(hour));
        const answer = nextAction(read, dayName(at(hour)), at(hour).slice(11));
        if (next === undefined) {
          expect(answer, at(hour)).toBeNull();
          continue;
        }
        // Steps within six minutes of the first of their row stand in it.
        const before = underWay(read, dayName(next.at), next.at.slice(11));
        const atOnce = read.entries.filter(({ day, time }) => day === answer?.day && time === answer.time);
        const said = [...atOnce, ...(minutesBetween(at(hour), next.at) <= 6 ? [before] : [])]
          .map((entry) => entry?.words)
          .join(' ');
        if (isReading(next)) expect(said, at(hour)).toMatch(/^(weigh|check)/);
        // In a row that has named the stove, "the propane camp stove" is "the stove".
        else expect(said, at(hour)).toContain(words(next.text, next.action === 'shut-off' ? 2 : 3));
        found += 1;
      }
      expect(found).toBeGreaterThan(150);
    },
    60_000,
  );
});
