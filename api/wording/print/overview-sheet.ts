/** The first sheet: the week at a glance, what to have ready, what to soak, what was assumed, what can hurt. */
import { foodOf } from '../../cooking/foods/foods-table.ts';
import type { Plan } from '../../planning/plan-types.ts';
import { assumptionLines } from '../assumptions.ts';
import { causeWords } from '../cause-names.ts';
import { type Caution, cautionsForSheet, DEFER_LINE } from '../cautions.ts';
import { coldByChoiceLine } from '../chosen-point.ts';
import { endsFirst } from '../ends-first.ts';
import { asHeading, inSentence, thingName } from '../names.ts';
import { textInSystem } from '../text-in-system.ts';
import { addDays, clockText, dateOf, dateText, dayName } from '../times.ts';
import { inSystem, type UnitSystem } from '../units.ts';
import { containerLines, readyLines } from './balance-lines.ts';
import { cardDate } from './day-card.ts';
import { escapeHtml, heightMm, linesOf, runsHeightMm } from './html.ts';
import { PAGE_HEIGHT_MM, PAGE_WIDTH_MM, type SheetMetrics } from './sheet-type.ts';
import { MOST_DAYS, sumHeads, sumRows } from './sum-table.ts';

const SLOTS = ['breakfast', 'midday', 'evening'] as const;
const SPIRITS = new Set(['ethanol', 'denatured-alcohol', 'methanol', 'isopropanol', 'ethanol-gel']);
const DAY_COLUMN_MM = 14;
const CELL_PADDING_MM = 2.7;
/** Ways to share the width among breakfast, midday and evening, mm: what `web/public/print.css` has classes for. */
const MEAL_WIDTHS_MM: readonly (readonly number[])[] = (() => {
  const widths = [44, 48, 52, 56, 60, 64, 68, 72, 76, 80];
  const room = PAGE_WIDTH_MM - DAY_COLUMN_MM;
  return widths.flatMap((breakfast) =>
    widths.flatMap((midday) => {
      const evening = room - breakfast - midday;
      return widths.includes(evening) ? [[breakfast, midday, evening]] : [];
    }),
  );
})();
/** Heads the meals that are cold by choice. */
export const SPARED_TITLE = 'Fuel is spared';
/** What bold titles may take beyond the estimate, mm. */
const SPARE_MM = 0.8;
/** The first column of the table of sums, mm. */
const SUM_NAME_MM = 30;

/** What no card repeats: washing-up order, stove shut, cook ill. */
const EACH_DAY =
  'Wash cups first, pots last. Before sleep: stove cold, fuel shut, gas alarm on. Cook ill: another cooks, hands washed.';

interface Block {
  html: string;
  heightMm: number;
}

/** The overview: one page where it fits, else a second one that begins with the cautions. */
export function overviewSheets(plan: Plan, system: UnitSystem, metrics: SheetMetrics): string[] {
  const first = [
    ...weekTables(plan, metrics),
    ...readyBlocks(plan, system, metrics),
    shortBlock(plan, metrics),
    sparedBlock(plan, metrics),
    lineBlock('Each day', EACH_DAY, metrics),
  ];
  const last = [
    boxBlock('Assumed', assumptionLines(plan, system), metrics),
    allergenBlock(plan, metrics),
    foodBlock(plan, system, metrics),
  ];
  const cautions = cautionBlock(plan, system, metrics);
  // What ends first is worth a line, and where the cautions come from some, but never a further page.
  const layouts = [
    [...first, outlookBlock(plan, metrics), ...last, cautions],
    [...first, ...last, cautions],
    [...first, ...last, shortCautionBlock(plan, system, metrics)],
  ].map((blocks) => onPages([introBlock(plan, metrics), ...blocks], metrics));
  const pages = layouts.reduce((best, one) => (one.length < best.length ? one : best));
  const household = escapeHtml(plan.resolved.household.name);
  return pages.map((page, index) => {
    const part = pages.length > 1 ? `, ${index + 1} of ${pages.length}` : '';
    const heading = index === 0 ? 'h1' : 'h2';
    return (
      `<section class="card overview"><header class="card-head"><${heading}>Cooking plan: ${household}${part}</${heading}>` +
      '<p class="page-of">Page {{page}}</p></header>' +
      page.map((block) => block.html).join('') +
      '</section>'
    );
  });
}

/** Blocks one below the other, on as many pages as they need. */
function onPages(wanted: readonly (Block | null)[], metrics: SheetMetrics): Block[][] {
  // Heading and footer.
  const headMm = heightMm(1, metrics.headingPt) + heightMm(1, metrics.smallPt) + 1.2;
  const pages: Block[][] = [[]];
  let used = headMm;
  for (const block of wanted) {
    if (block === null) continue;
    if (used + block.heightMm > PAGE_HEIGHT_MM - SPARE_MM && (pages.at(-1)?.length ?? 0) > 0) {
      pages.push([]);
      used = headMm;
    }
    pages.at(-1)?.push(block);
    used += block.heightMm;
  }
  return pages;
}

/** How many days from when, and whether everybody is fed. */
function introBlock(plan: Plan, metrics: SheetMetrics): Block {
  const start = plan.request.startsAt;
  const state = plan.outcome === 'complete' ? 'Everybody is fed.' : 'Not everything is enough: see "Short" below.';
  const text = `${plan.request.days} days from ${dayName(start)} ${dateText(start)}, ${clockText(start)}. ${state} Print two copies.`;
  return { html: `<p>${escapeHtml(text)}</p>`, heightMm: linesHeight([text], metrics, PAGE_WIDTH_MM - 1) };
}

/** What ends first and by when, and what makes the fuel uncertain; null where neither is known. */
function outlookBlock(plan: Plan, metrics: SheetMetrics): Block | null {
  const sentences: string[] = [];
  const ends = plan.short.length > 0 ? null : endsFirst(plan);
  if (ends !== null)
    sentences.push(`At this pace ${inSentence(ends.what)} ends first, about ${dayName(ends.on)} ${dateText(ends.on)}.`);
  const [cause] = [...plan.spread].sort((a, b) => b.share - a.share);
  if (cause !== undefined)
    sentences.push(
      `What makes the fuel most uncertain: ${inSentence(causeWords(cause.cause))} (${Math.round(cause.share * 100)}\u00a0%).`,
    );
  return sentences.length === 0 ? null : lineBlock('Going on', sentences.join(' '), metrics);
}

/** Tables of at most seven days each. */
function weekTables(plan: Plan, metrics: SheetMetrics): Block[] {
  const start = dateOf(plan.request.startsAt);
  const dates = Array.from({ length: plan.request.days }, (_, day) => addDays(start, day));
  const blocks: Block[] = [];
  for (let first = 0; first < dates.length; first += 7) {
    const week = dates.slice(first, first + 7);
    if (metrics.type === 'large') for (const date of week) blocks.push(dayBlock(plan, date, metrics));
    else blocks.push(weekTable(plan, week, metrics));
  }
  return blocks;
}

/** One day of the week as a paragraph: five columns of large type would be too narrow for words. */
function dayBlock(plan: Plan, date: string, metrics: SheetMetrics): Block {
  const soak = soakCell(plan, date);
  const words = [
    ...SLOTS.map((slot) => `${asHeading(slot)}: ${inSentence(mealCell(plan, date, slot))}.`),
    ...(soak === '-' ? [] : [`Soak at ${soak}.`]),
  ].join(' ');
  const name = dayName(date);
  return {
    html: `<p class="day"><b>${name}.</b> ${escapeHtml(words)}</p>`,
    heightMm: heightMm(linesOf(`${name}. ${words}`, PAGE_WIDTH_MM - 2, metrics.smallPt), metrics.smallPt) + 2,
  };
}

function weekTable(plan: Plan, dates: string[], metrics: SheetMetrics): Block {
  const cells = dates.map((date) => SLOTS.map((slot) => mealCell(plan, date, slot)));
  const linesAt = (widths: readonly number[]): number[] =>
    cells.map((row) =>
      Math.max(...row.map((cell, at) => linesOf(cell, (widths[at] as number) - CELL_PADDING_MM, metrics.smallPt))),
    );
  const total = (widths: readonly number[]) => linesAt(widths).reduce((sum, lines) => sum + lines, 0);
  // The widths with which the names of these dishes take the fewest lines.
  const widths = MEAL_WIDTHS_MM.reduce((best, one) => (total(one) < total(best) ? one : best));
  const rows = dates.map((date, day) => {
    const meals = (cells[day] as string[]).map((cell) => `<td>${escapeHtml(cell)}</td>`).join('');
    return `<tr><th scope="row">${dayName(date).slice(0, 3)}</th>${meals}</tr>`;
  });
  const head = ['Day', 'Breakfast', 'Midday', 'Evening'].map((name) => `<th scope="col">${name}</th>`).join('');
  const columns = ['day-name', ...widths.map((mm) => `mm${mm}`)].map((name) => `<col class="${name}">`).join('');
  const soaks = dates.flatMap((date) => {
    const soak = soakCell(plan, date);
    return soak === '-' ? [] : [`${dayName(date)} ${soak}`];
  });
  const soak = soaks.length === 0 ? 'nothing in these days.' : `${soaks.join('. ')}.`;
  const soakBlock = lineBlock('To soak', soak, metrics);
  return {
    html: `<table class="week"><colgroup>${columns}</colgroup><thead><tr>${head}</tr></thead><tbody>${rows.join('')}</tbody></table>${soakBlock.html}`,
    heightMm: heightMm(total(widths) + 1, metrics.smallPt) + (dates.length + 1) * 0.9 + 1.5 + soakBlock.heightMm,
  };
}

function mealCell(plan: Plan, date: string, slot: (typeof SLOTS)[number]): string {
  const meals = plan.meals.filter((meal) => dateOf(meal.eatAt) === date && meal.slot === slot);
  if (meals.length === 0) return '-';
  const dishes = meals.flatMap((meal) => meal.dishes);
  if (dishes.length === 0) return 'No dish: see "Short"';
  return dishes
    .map((dish) => {
      const cooking = plan.cookings.find((one) => one.id === dish.cookingId);
      return cooking?.kitName ?? dish.cookingId;
    })
    .join('; ');
}

function soakCell(plan: Plan, date: string): string {
  const soaks = plan.cookings.flatMap((cooking) => {
    const soak = cooking.method.soak;
    if (soak === null || cardDate({ at: soak.at }) !== date) return [];
    const kit = plan.resolved.kits.find((one) => one.id === cooking.kitId);
    const names = soak.partIds.map((id) => inSentence(kit?.parts.find((part) => part.id === id)?.name ?? id));
    return [`${clockText(soak.at)} ${names.join(', ')}: ${thingName(plan.resolved.household, soak.vesselId)}`];
  });
  return soaks.length === 0 ? '-' : soaks.join('; ');
}

function fetchLine(plan: Plan): string {
  const { household } = plan.resolved;
  const things = ['lighter', 'bucket', 'scale'];
  if (household.thermometer === true) things.push('thermometer');
  if (household.water?.treatBy !== 'boil' && plan.tasks.some((task) => task.kind === 'treat-water')) {
    things.push('bleach', 'dropper');
  }
  if (plan.lightings.length > 0) things.push('extinguisher', 'gas alarm');
  if (plan.cookings.some((cooking) => cooking.method.finish === 'box')) things.push('box');
  return `${things.join(', ')}.`;
}

/** Things to fetch, fuel and water: day by day with their sums where the days fit side by side. */
function readyBlocks(plan: Plan, system: UnitSystem, metrics: SheetMetrics): Block[] {
  const start = dateOf(plan.request.startsAt);
  const dates = Array.from({ length: plan.request.days }, (_, day) => addDays(start, day));
  const rows = sumRows(plan, dates, system);
  if (dates.length > MOST_DAYS || metrics.type === 'large' || rows.length === 0) {
    return [listBlock('Have ready', fetchLine(plan), readyLines(plan, system), metrics)];
  }
  const heads = ['To be used', ...sumHeads(dates)].map((name) => `<th scope="col">${name}</th>`).join('');
  const body = rows.map(
    ({ name, cells }) =>
      `<tr><th scope="row">${escapeHtml(name)}</th>${cells.map((cell) => `<td>${escapeHtml(cell)}</td>`).join('')}</tr>`,
  );
  const lines = rows.reduce((sum, { name }) => sum + linesOf(name, SUM_NAME_MM - 2.6, metrics.smallPt), 1);
  return [
    lineBlock('Have ready', [fetchLine(plan), ...containerLines(plan)].join(' '), metrics),
    {
      html: `<table class="sums"><thead><tr>${heads}</tr></thead><tbody>${body.join('')}</tbody></table>`,
      heightMm: heightMm(lines, metrics.smallPt) + (rows.length + 1) * 0.6 + 1.5,
    },
  ];
}

function listBlock(title: string, first: string, lines: string[], metrics: SheetMetrics): Block {
  return {
    html: `<div class="ready"><p><b>${title}:</b> ${escapeHtml(first)}</p><ul>${lines.map((line) => `<li>${escapeHtml(line)}</li>`).join('')}</ul></div>`,
    heightMm: linesHeight([`${title}: ${first}`, ...lines], metrics, PAGE_WIDTH_MM - 5.5) + 1.6,
  };
}

/** What is missing and what helps, at most six lines. */
export function shortLines(plan: Plan): string[] {
  if (plan.short.length === 0) return [];
  const lines = [...plan.short.map((one) => one.text), ...plan.waysOut.map((way) => `Way out: ${way}`)];
  const shown = lines.slice(0, 6);
  if (lines.length > shown.length) shown.push(`${lines.length - shown.length} more on the page of the plan.`);
  return shown;
}

function shortBlock(plan: Plan, metrics: SheetMetrics): Block | null {
  const lines = shortLines(plan);
  return lines.length === 0 ? null : listBlock('Short', 'what is missing, since when, what helps.', lines, metrics);
}

/** Meals that are cold because the household chose to spare fuel; null where none is. */
function sparedBlock(plan: Plan, metrics: SheetMetrics): Block | null {
  const line = coldByChoiceLine(plan);
  return line === null ? null : lineBlock(SPARED_TITLE, line, metrics);
}

function boxBlock(title: string, lines: string[], metrics: SheetMetrics): Block {
  const text = lines.join(' ');
  return {
    html: `<p class="boxed"><b>${title}:</b> ${escapeHtml(text)}</p>`,
    heightMm: linesHeight([`${title}: ${text}`], metrics, PAGE_WIDTH_MM - 5) + 4,
  };
}

/** Allergens of each dish of the plan, or null where there are none. */
function allergenBlock(plan: Plan, metrics: SheetMetrics): Block | null {
  const found: string[] = [];
  for (const kit of plan.resolved.kits) {
    if (!plan.cookings.some((cooking) => cooking.kitId === kit.id)) continue;
    const allergens = new Set(
      kit.parts.flatMap((part) => part.ingredients.flatMap((one) => foodOf(one)?.allergens ?? [])),
    );
    if (allergens.size > 0) {
      const names = [...allergens].map((name) => name.replaceAll('-', ' ')).join(', ');
      found.push(`${inSentence(kit.name)}: ${names}`);
    }
  }
  return found.length === 0 ? null : lineBlock('Allergens', `${found.join('; ')}.`, metrics);
}

/** What to mind about the food of the plan's dishes, each once: old pulses, guesses, tins; null where there is nothing. */
function foodBlock(plan: Plan, system: UnitSystem, metrics: SheetMetrics): Block | null {
  const said = [...new Set(plan.meals.flatMap((meal) => meal.cautions))];
  return said.length === 0
    ? null
    : lineBlock('The food', said.map((text) => textInSystem(text, system)).join(' '), metrics);
}

function lineBlock(title: string, text: string, metrics: SheetMetrics): Block {
  return {
    html: `<p class="day"><b>${title}:</b> ${escapeHtml(text)}</p>`,
    heightMm: linesHeight([`${title}: ${text}`], metrics, PAGE_WIDTH_MM - 2) + 1.5,
  };
}

/** The cautions that belong on this plan's paper. */
export function planCautions(plan: Plan): Caution[] {
  return cautionsForSheet({
    flame: plan.lightings.length > 0,
    pressureCooker: plan.cookings.some((cooking) => cooking.method.gaugeKPa !== null),
    kidneyFamily: plan.resolved.kits.some(
      (kit) =>
        plan.cookings.some((cooking) => cooking.kitId === kit.id) &&
        kit.parts.some((part) => part.ingredients.some((one) => foodOf(one)?.lectin === 'kidney-family')),
    ),
    liquidFuel: plan.lightings.some((lighting) => SPIRITS.has(lighting.fuelId)),
  });
}

function cautionBlock(plan: Plan, system: UnitSystem, metrics: SheetMetrics): Block {
  const cautions = planCautions(plan).map((one) => ({ ...one, short: inSystem(one.short, system) }));
  const lines = cautions.map((caution) => `${caution.title}: ${caution.short} [${caution.source}]`);
  const items = cautions.map(
    (caution) =>
      `<li><b>${escapeHtml(caution.title)}:</b> ${escapeHtml(caution.short)} [${escapeHtml(caution.source)}]</li>`,
  );
  return {
    html: `<div class="cautions"><p><b>What can hurt.</b> ${escapeHtml(DEFER_LINE)}</p><ul>${items.join('')}</ul></div>`,
    heightMm: linesHeight([...lines, `What can hurt. ${DEFER_LINE}`], metrics, PAGE_WIDTH_MM - 5.5) + 1.6,
  };
}

/** The same in one paragraph, without where each comes from, which the page has. */
function shortCautionBlock(plan: Plan, system: UnitSystem, metrics: SheetMetrics): Block {
  const cautions = planCautions(plan).map(({ title, short }) => ({ title, text: inSystem(short, system) }));
  const html = cautions.map(({ title, text }) => `<b>${escapeHtml(title)}:</b> ${escapeHtml(text)}`).join(' ');
  const runs = cautions.flatMap(({ title, text }) => [
    { text: `${title}:`, points: metrics.smallPt, bold: true },
    { text, points: metrics.smallPt, bold: false },
  ]);
  const head = { text: 'What can hurt.', points: metrics.smallPt, bold: true };
  const end = { text: DEFER_LINE, points: metrics.smallPt, bold: false };
  return {
    html: `<p class="day"><b>What can hurt.</b> ${html} ${escapeHtml(DEFER_LINE)}</p>`,
    heightMm: runsHeightMm([head, ...runs, end], PAGE_WIDTH_MM - 1) + 1.5,
  };
}

function linesHeight(lines: readonly string[], metrics: SheetMetrics, widthMm: number): number {
  return lines.reduce((sum, line) => sum + heightMm(linesOf(line, widthMm, metrics.smallPt), metrics.smallPt), 0);
}
