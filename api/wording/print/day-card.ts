/**
 * One day on one page: what to do now, the danger lines, the morning's figures, the steps in time order, and room to
 * write. A day with more rows than a page holds goes on as "Wednesday, 2 of 2", parted at a pause where one is near.
 */
import type { Plan, ScheduleStep } from '../../planning/plan-types.ts';
import { clockChange } from '../clock-change.ts';
import { inSentence } from '../names.ts';
import { MEASURE_WATER } from '../schedule-meals.ts';
import { addMinutes, clockText, dateOf, dateText, dayName, durationText } from '../times.ts';
import { inSystem, type UnitSystem } from '../units.ts';
import { expectedTonight, morningBalance, waterLine } from './balance-lines.ts';
import { rowsOf } from './card-rows.ts';
import { escapeHtml, heightMm, linesOf } from './html.ts';
import { PAGE_HEIGHT_MM, PAGE_WIDTH_MM, type SheetMetrics } from './sheet-type.ts';
import { stepLine, stepRow } from './step-row.ts';

/** Steps after midnight but before this hour belong to the card of the evening before. */
const NIGHT_ENDS_HOUR = 4;
/** Widths of the columns of the morning's table but the last, mm; the same in `web/public/print.css`. */
const BALANCE_MM = [30, 40, 38, 53] as const;
/** Room for what fuel is expected, beside the blanks, mm. */
const FUEL_WORDS_MM = 40;
/** Borders and gaps between the blocks of a page. */
const GAPS_MM = 1;
/** Large type meets longer words at the ends of its lines. */
const LARGE_GAPS_MM = 4;

/** A row may span the second: the first row does not decide on widths. */
const COLUMNS = '<colgroup><col class="time"><col class="tick"><col></colgroup>';

/** The date of the card on which a step stands. */
export function cardDate(step: Pick<ScheduleStep, 'at'>): string {
  return dateOf(addMinutes(step.at, -NIGHT_ENDS_HOUR * 60));
}

/** Morning, midday, evening and bedtime: the pauses at which a card may be parted. */
function blockOf(local: string): string {
  const hour = Number(local.slice(11, 13));
  if (hour < NIGHT_ENDS_HOUR) return 'Night';
  if (hour < 11) return 'Morning';
  if (hour < 15) return 'Midday';
  if (hour < 20) return 'Evening';
  return 'Bedtime';
}

interface CardText {
  top: string;
  topMm: number;
  bottom: string;
  bottomMm: number;
}

/**
 * The pages of one day.
 * @param date `YYYY-MM-DD`
 * @param dayNumber 1 for the first day
 * @returns HTML sections, one per page, without the page count, which stands in `{{page}}`
 */
export function dayCards(
  plan: Plan,
  date: string,
  dayNumber: number,
  system: UnitSystem,
  metrics: SheetMetrics,
): string[] {
  const steps = plan.schedule.filter((step) => cardDate(step) === date);
  const text = cardText(plan, date, steps, system, metrics);
  const headMm = heightMm(1, metrics.headingPt) + 1;
  const frameMm = headMm + (metrics.type === 'large' ? LARGE_GAPS_MM : GAPS_MM);
  const layOut = (runIn: boolean) => {
    const rows = cardRows(plan, date, steps, system, metrics, runIn);
    const packed = intoPages(rows, frameMm, text, false);
    const parted = intoPages(rows, frameMm, text, true);
    // Parted at the pauses where that costs no page more.
    return parted.length <= packed.length ? parted : packed;
  };
  const apart = layOut(false);
  const runIn = apart.length > 1 ? layOut(true) : apart;
  // Steps of several times share rows only where that saves a page.
  const pages = runIn.length < apart.length ? runIn : apart;

  const name = dayName(date);
  // Large type has no room for the year, which stands on the first sheet.
  const dateOfHead = metrics.type === 'large' ? dateText(date).replace(/([A-Z][a-z]{2}).*$/, '$1') : dateText(date);
  return pages.map((page, index) => {
    const part = pages.length > 1 ? `, ${index + 1} of ${pages.length}` : '';
    const last = index === pages.length - 1;
    const body =
      page.length === 0
        ? '<p class="small">Nothing to do by the clock today.</p>'
        : `<table class="steps">${COLUMNS}<tbody>${page.map((row) => row.html).join('')}</tbody></table>`;
    return (
      `<section class="card"><header class="card-head"><h2>${name}${part}</h2>` +
      `<p class="page-of">${escapeHtml(dateOfHead)}. Day ${dayNumber} of ${plan.request.days}. Page {{page}}</p></header>` +
      `${index === 0 ? text.top : ''}${body}${last ? text.bottom : ''}</section>`
    );
  });
}

function cardRows(
  plan: Plan,
  date: string,
  steps: readonly ScheduleStep[],
  system: UnitSystem,
  metrics: SheetMetrics,
  runIn: boolean,
): { html: string; heightMm: number; block: string }[] {
  const seen = new Set<string>();
  return rowsOf(plan, steps, runIn).map((row, index) => {
    const shows = (step: ScheduleStep): boolean => {
      if (step.ifNot === null || seen.has(step.ifNot)) return false;
      seen.add(step.ifNot);
      return true;
    };
    const first = row.steps[0] as ScheduleStep;
    return { block: blockOf(first.at), ...stepRow(row, date, index + 1, system, metrics, shows, runIn) };
  });
}

/**
 * Fills pages with rows: the first has the text above the steps, the last the text below them.
 * @param frameMm what every page has beside rows, mm
 * @param atPauses whether a page ends at a pause where one is near
 */
function intoPages<Row extends { heightMm: number; block: string }>(
  rows: readonly Row[],
  frameMm: number,
  text: CardText,
  atPauses: boolean,
): Row[][] {
  const pages: Row[][] = [];
  let rest = [...rows];
  do {
    const room = PAGE_HEIGHT_MM - frameMm - (pages.length === 0 ? text.topMm : 0);
    const total = rest.reduce((sum, row) => sum + row.heightMm, 0);
    if (total <= room - text.bottomMm) {
      pages.push(rest);
      break;
    }
    let used = 0;
    let count = 0;
    for (const row of rest) {
      if (used + row.heightMm > room) break;
      used += row.heightMm;
      count += 1;
    }
    // All rows fit but the foot does not: leave the last few for the next page with it.
    if (count === rest.length) count -= 3;
    if (atPauses) count = pauseBefore(rest, count);
    pages.push(rest.slice(0, Math.max(1, count)));
    rest = rest.slice(Math.max(1, count));
  } while (rest.length > 0);
  return pages;
}

/** The last pause between blocks in the latter part of what fits, else all that fits. */
function pauseBefore(rows: readonly { block: string }[], count: number): number {
  for (let index = count; index > count * 0.55; index -= 1) {
    if (rows[index] !== undefined && rows[index]?.block !== rows[index - 1]?.block) return index;
  }
  return count;
}

function cardText(
  plan: Plan,
  date: string,
  steps: readonly ScheduleStep[],
  system: UnitSystem,
  metrics: SheetMetrics,
): CardText {
  let topMm = 0;
  let top = '';
  const addTop = (html: string, plain: string, points: number, gapMm = 1): void => {
    top += html;
    topMm += heightMm(linesOf(plain, PAGE_WIDTH_MM - 2, points), points) + gapMm;
  };
  const balance = morningBalance(plan, date, system);
  const first = steps.find((step) => step.action === 'weigh' || step.text === MEASURE_WATER) ?? steps[0];
  if (balance.length > 0) {
    const now = `${clockText(first?.at ?? `${date}T07:00`)} ${first?.action === 'weigh' ? 'weigh' : 'check'}`;
    top += `<table class="balance"><tbody>${balance
      .map(
        (row, index) =>
          `<tr>${index > 0 ? '' : `<td class="now" rowspan="${balance.length}"><b>Now first:</b> ${escapeHtml(now)}</td>`}` +
          `<th scope="row">${escapeHtml(row.name)}</th><td>Expect ${escapeHtml(row.expect)}</td><td>New plan below ${escapeHtml(row.replanBelow)}</td><td class="write">I read:</td></tr>`,
      )
      .join('')}</tbody></table>`;
    const [nowMm, nameMm, expectMm, belowMm] = BALANCE_MM;
    let rowsMm = 0;
    for (const row of balance) {
      const lines = Math.max(
        linesOf(row.name, nameMm - 4, metrics.smallPt),
        linesOf(`Expect ${row.expect}`, expectMm - 2.6, metrics.smallPt),
        linesOf(`New plan below ${row.replanBelow}`, belowMm - 2.6, metrics.smallPt),
      );
      rowsMm += heightMm(lines, metrics.smallPt) + 0.6;
    }
    const nowLines = linesOf(`Now first: ${now}`, nowMm - 2.2, metrics.actionPt);
    topMm += Math.max(rowsMm, heightMm(nowLines, metrics.actionPt) + 0.6) + 1.2;
  } else if (first !== undefined) {
    const line = `${clockText(first.at)} ${stepLine({ text: first.text, quantities: [] }, system)}`;
    addTop(`<p class="now"><b>Now first:</b> ${escapeHtml(line)}</p>`, `Now first: ${line}`, metrics.actionPt, 1.2);
  }
  const dangers = dangerLines(plan, date).map((line) => inSystem(line, system));
  if (dangers.length > 0) {
    const line = dangers.join(' ');
    top += `<div class="danger" role="note"><p>${dangers.map((one) => escapeHtml(one).replace(/^([^:]+:)/, '<b>$1</b>')).join(' ')}</p></div>`;
    topMm += heightMm(linesOf(line, (PAGE_WIDTH_MM - 5) * 0.98, metrics.smallPt), metrics.smallPt) + 2.6;
  }
  const lines: string[] = [];
  const water = waterLine(plan, date, system);
  if (water !== null) lines.push(water);
  const change = clockChange(plan);
  if (change?.date === date) lines.push(change.text);
  lines.push(noFireLine(plan, date));
  for (const shortage of plan.short.filter((one) => dateOf(one.from) === date)) lines.push(`Short: ${shortage.text}`);
  const expected = expectedTonight(plan, date, system);
  // Several fuels leave no room to write beside them.
  const crowded = linesOf(expected.fuel, FUEL_WORDS_MM, metrics.smallPt) > 1;
  if (crowded) lines.push(`Fuel expected today: ${expected.fuel}.`);
  const text = lines.join(' ');
  const bottomMm = heightMm(linesOf(text, PAGE_WIDTH_MM * 0.985, metrics.smallPt), metrics.smallPt) + 8.4;
  const blank = (name: string, hint: string): string =>
    `<span>${name}${hint === '' ? '' : ` (expect ${escapeHtml(hint)})`}:</span><span class="blank"></span>`;
  const bottom =
    `<div class="foot"><p>${lines.map((line) => escapeHtml(line).replace(/^([^:]+:)/, '<b>$1</b>')).join(' ')}</p><p class="blanks">` +
    `${blank('Fuel used', crowded ? '' : expected.fuel)}${blank('Water left', expected.water)}${blank('Ill', '')}</p></div>`;
  return { top, topMm, bottom, bottomMm };
}

/** What can hurt today, a sentence or two each. */
function dangerLines(plan: Plan, date: string): string[] {
  const lines: string[] = [];
  const cookings = plan.cookings.filter((cooking) => dateOf(cooking.startsAt) === date);
  const fires = plan.lightings.filter((lighting) => dateOf(lighting.at) === date);
  if (fires.some((lighting) => lighting.outdoors)) {
    lines.push('Fumes: flames outdoors, 6\u00a0m (20\u00a0ft) from doors, windows. Carbon monoxide kills unseen.');
  }
  if (fires.length > 0) {
    lines.push('Scalds: children 1\u00a0m (3\u00a0ft) away. No boiling pot over ice or steps.');
  }
  const beans = cookings.filter((cooking) => cooking.method.lectin.verdict === 'safe');
  const open = beans.filter((cooking) => cooking.method.gaugeKPa === null);
  if (open.length > 0) {
    const longest = Math.max(...open.map((cooking) => cooking.method.lectin.boilMinutesNeeded));
    lines.push(`Beans: underdone ones poison. Big bubbles for ${durationText(longest)} before box or low flame.`);
  } else if (beans.length > 0) {
    lines.push('Beans: underdone ones poison. Full pressure for all the minutes.');
  }
  if (cookings.some((cooking) => cooking.method.gaugeKPa !== null)) {
    lines.push('Pressure cooker: opened under pressure, it sprays boiling food.');
  }
  if (fires.some((lighting) => lighting.fuelId.includes('alcohol') || lighting.fuelId.endsWith('ethanol'))) {
    lines.push('Alcohol: unseen flames burn. Refill it cold.');
  }
  return lines;
}

/** A meal that needs no fire, for when there is none. */
export function noFireLine(plan: Plan, date: string): string {
  const today = plan.cookings.find(
    (cooking) =>
      cooking.method.finish === 'no-heat' &&
      plan.meals.some(
        (meal) => dateOf(meal.eatAt) === date && meal.dishes.some((dish) => dish.cookingId === cooking.id),
      ),
  );
  if (today !== undefined) return `No-fire meal of the day: ${inSentence(today.kitName)}.`;
  const kit = plan.resolved.kits.find(
    (one) => one.style === 'no-cook' && plan.resolved.stock.some((lot) => lot.kitId === one.id && lot.quantity > 0),
  );
  return kit === undefined
    ? 'No-fire meal of the day: none in store. Keep tins, bread, nuts or dried fruit ready.'
    : `No-fire meal of the day: ${inSentence(kit.name)}, in place of a cooked one.`;
}
