/**
 * One day on one page: what to do now, the danger lines, the morning's figures, the steps in time order, and room to
 * write. A day with more rows than a page holds goes on as "Wednesday, 2 of 2", parted at a pause where one is near.
 */
import type { Plan, ScheduleStep } from '../../planning/plan-types.ts';
import { clockChange } from '../clock-change.ts';
import { inSentence, partOf } from '../names.ts';
import { MEASURE_WATER } from '../schedule-meals.ts';
import { addMinutes, clockOnSheetOf, clockText, dateOf, dateText, dayName, durationText } from '../times.ts';
import { inSystem, type UnitSystem } from '../units.ts';
import { expectedTonight, morningBalance, waterLine } from './balance-lines.ts';
import { rowsOf } from './card-rows.ts';
import { conditionsOnce } from './conditions.ts';
import { escapeHtml, heightMm, linesOf } from './html.ts';
import { PAGE_HEIGHT_MM, PAGE_WIDTH_MM, type SheetMetrics, smallMetrics } from './sheet-type.ts';
import { type RowSetting, stepLine, stepRow, terseText, WIDE } from './step-row.ts';

/** Steps after midnight but before this hour belong to the card of the evening before. */
const NIGHT_ENDS_HOUR = 4;
/** From this hour on a soak is one for the night. */
const TONIGHT = '15:00';
/** Widths of the columns of the morning's table but the last, mm; the same in `web/public/print.css`. */
const BALANCE_MM = [30, 40, 38, 53] as const;
/** Room for what fuel is expected, beside the blanks, mm. */
const FUEL_WORDS_MM = 34;
/** Borders and gaps between the blocks of a page. */
const GAPS_MM = 1.2;
/** Large type meets longer words at the ends of its lines. */
const LARGE_GAPS_MM = 4;

interface CardSetting extends RowSetting {
  small: boolean;
}

/** How a card is set, the widest first: a closer one is taken only where it saves a page (P20, P22). */
const SETTINGS: readonly CardSetting[] = [
  { ...WIDE, small: false },
  { ...WIDE, close: true, small: false },
  { ...WIDE, close: true, terse: true, small: false },
  { ...WIDE, close: true, runIn: true, small: false },
  { ...WIDE, close: true, runIn: true, terse: true, small: false },
  { ...WIDE, close: true, runIn: true, small: true },
  { ...WIDE, close: true, runIn: true, terse: true, small: true },
];

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
  const layOut = (setting: CardSetting) => {
    const sizes = setting.small ? smallMetrics(metrics) : metrics;
    const text = cardText(plan, date, steps, system, sizes, setting.terse);
    const frameMm = heightMm(1, sizes.headingPt) + 1 + (metrics.type === 'large' ? LARGE_GAPS_MM : GAPS_MM);
    const rows = cardRows(plan, date, steps, system, sizes, setting);
    const packed = intoPages(rows, frameMm, text, false);
    const parted = intoPages(rows, frameMm, text, true);
    // Parted at the pauses where that costs no page more.
    return { setting, text, pages: parted.length <= packed.length ? parted : packed };
  };
  // The widest setting that takes the fewest pages.
  let { setting, text, pages } = layOut(SETTINGS[0] as CardSetting);
  for (const closer of SETTINGS.slice(1)) {
    // Large type stays large: it takes pages instead.
    if (pages.length === 1 || (closer.small && metrics.type === 'large')) break;
    const tried = layOut(closer);
    if (tried.pages.length < pages.length) ({ setting, text, pages } = tried);
  }

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
      `<section class="card${setting.small ? ' full' : ''}"><header class="card-head"><h2>${name}${part}</h2>` +
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
  setting: CardSetting,
): { html: string; heightMm: number; block: string }[] {
  const rowsOfCard = rowsOf(plan, steps, setting.runIn);
  const conditions = conditionsOnce(rowsOfCard.flatMap((row) => row.steps));
  return rowsOfCard.map((row, index) => {
    const first = row.steps[0] as ScheduleStep;
    return { block: blockOf(first.at), ...stepRow(row, date, index + 1, system, metrics, conditions, setting) };
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
  terse: boolean,
): CardText {
  const say = (text: string): string => (terse ? terseText(text) : text);
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
  const dangers = dangerLines(plan, date).map((line) => say(inSystem(line, system)));

  if (dangers.length > 0) {
    const line = dangers.join(' ');
    top += `<div class="danger" role="note"><p>${dangers.map((one) => escapeHtml(one).replace(/^([^:]+:)/, '<b>$1</b>')).join(' ')}</p></div>`;
    topMm += heightMm(linesOf(line, (PAGE_WIDTH_MM - 5) * 0.98, metrics.smallPt), metrics.smallPt) + 2.6;
  }
  const lines: string[] = [];
  const water = waterLine(plan, date, system);
  if (water !== null) lines.push(terse ? water.replace(/ \([^()]* a meal\)/, '') : water);
  const change = clockChange(plan);
  if (change?.date === date) lines.push(change.text);
  lines.push(
    terse
      ? noFireLine(plan, date).replace(' of the day', '').replace(', in place of a cooked one', '')
      : noFireLine(plan, date),
  );
  lines.push(soakTonightLine(plan, date));
  for (const shortage of plan.short.filter((one) => dateOf(one.from) === date)) lines.push(`Short: ${shortage.text}`);
  const expected = expectedTonight(plan, date, system);
  // Several fuels leave no room to write beside them.
  const crowded = linesOf(expected.fuel, FUEL_WORDS_MM, metrics.smallPt) > 1;
  if (crowded) lines.push(`Fuel to be used: ${expected.fuel}.`);
  const text = lines.join(' ');
  const bottomMm = heightMm(linesOf(text, PAGE_WIDTH_MM * 0.985, metrics.smallPt), metrics.smallPt) + 8.4;
  const blank = (name: string, hint: string): string =>
    `<span>${name}${hint === '' ? '' : ` (expect ${escapeHtml(hint)})`}:</span><span class="blank"></span>`;
  const bottom =
    `<div class="foot"><p>${lines.map((line) => escapeHtml(line).replace(/^([^:]+:)/, '<b>$1</b>')).join(' ')}</p><p class="blanks">` +
    `${blank('Fuel used', crowded ? '' : expected.fuel)}${blank('Water left', expected.water)}${blank('Cook', '')}${blank('Ill', '')}</p></div>`;
  return { top, topMm, bottom, bottomMm };
}

/** What can hurt today, a sentence or two each. */
function dangerLines(plan: Plan, date: string): string[] {
  const lines: string[] = [];
  const cookings = plan.cookings.filter((cooking) => dateOf(cooking.startsAt) === date);
  const fires = plan.lightings.filter((lighting) => dateOf(lighting.at) === date);
  if (fires.some((lighting) => lighting.outdoors)) {
    lines.push('Fumes: flames outdoors, 6\u00a0m (20\u00a0ft) off doors, windows. Carbon monoxide kills.');
  }
  if (fires.length > 0) {
    lines.push('Scalds: children 1\u00a0m (3\u00a0ft) off. No boiling pot over ice or steps.');
  }
  const beans = cookings.filter((cooking) => cooking.method.lectin.verdict === 'safe');
  const open = beans.filter((cooking) => cooking.method.gaugeKPa === null);
  if (open.length > 0) {
    const longest = Math.max(...open.map((cooking) => cooking.method.lectin.boilMinutesNeeded));
    lines.push(`Beans: underdone ones poison. Big bubbles for ${durationText(longest)} before box or low flame.`);
  } else if (beans.length > 0) {
    lines.push('Beans: underdone, they poison. Full pressure to the end.');
  }
  if (cookings.some((cooking) => cooking.method.gaugeKPa !== null)) {
    lines.push('Pressure cooker: opened under pressure, it sprays.');
  }
  if (fires.some((lighting) => lighting.fuelId.includes('alcohol') || lighting.fuelId.endsWith('ethanol'))) {
    lines.push('Alcohol: unseen flames burn. Refill it cold.');
  }
  return lines;
}

/** What goes into water before the night, or that nothing does. */
function soakTonightLine(plan: Plan, date: string): string {
  const soaks = plan.schedule.filter(
    (step) =>
      step.action === 'soak' && cardDate(step) === date && (dateOf(step.at) > date || step.at.slice(11) >= TONIGHT),
  );
  if (soaks.length === 0) return 'Soak tonight: nothing.';
  const names = soaks.map((step) => {
    const cooking = plan.cookings.find((one) => one.id === step.cookingId);
    const kit = plan.resolved.kits.find((one) => one.id === cooking?.kitId);
    const parts = (cooking?.method.soak?.partIds ?? []).map((id) => inSentence(partOf(kit, id)?.name ?? id));
    return `${parts.join(', ')}, ${clockOnSheetOf(date, step.at)}`;
  });
  return `Soak tonight: ${names.join('; ')}.`;
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
