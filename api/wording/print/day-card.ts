/**
 * One day on one page: what to do now, the danger lines, the morning's figures, the steps in time order, and room to
 * write. A day with more rows than a page holds goes on as "Wednesday, 2 of 2", parted at a pause where one is near.
 */
import { findFood } from '../../cooking/foods-table.ts';
import type { Plan, ScheduleStep } from '../../planning/plan-types.ts';
import { inSentence, thingName } from '../names.ts';
import { MEASURE_WATER } from '../schedule-meals.ts';
import { addMinutes, clockText, dateOf, dateText, dayName, durationText } from '../times.ts';
import type { UnitSystem } from '../units.ts';
import { morningBalance, waterLine } from './balance-lines.ts';
import { escapeHtml, heightMm, linesOf } from './html.ts';
import { PAGE_HEIGHT_MM, PAGE_WIDTH_MM, type SheetMetrics } from './sheet-type.ts';
import { stepLine, stepRow } from './step-row.ts';

/** Steps after midnight but before this hour belong to the card of the evening before. */
const NIGHT_ENDS_HOUR = 4;
const COLUMN_HEAD_MM = 5.6;
/** Width of the names in the table of the morning; the same in `web/public/print.css`. */
const BALANCE_NAME_MM = 42;
/** Borders and gaps between the blocks of a page. */
const GAPS_MM = 1;
/** Large type meets longer words at the ends of its lines. */
const LARGE_GAPS_MM = 9;

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

/** The steps whose "if not" stands on the compact sheet too. */
const CRITICAL: ReadonlySet<ScheduleStep['action']> = new Set([
  'boil',
  'box',
  'drain',
  'fill-flask',
  'release-pressure',
  'treat-water',
  'check',
  'unbox',
]);

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
  const seen = new Set<string>();
  // The morning's weighing stands in its own table above the steps.
  const listed = steps.filter((step) => step.action !== 'weigh' && step.text !== MEASURE_WATER);
  const rows = listed.map((shown, index) => {
    const said = shown.ifNot === null || seen.has(shown.ifNot);
    const fresh = !said && (metrics.type !== 'compact' || CRITICAL.has(shown.action));
    if (shown.ifNot !== null) seen.add(shown.ifNot);
    return { block: blockOf(shown.at), ...stepRow(shown, date, index + 1, system, metrics, fresh) };
  });
  const text = cardText(plan, date, steps, system, metrics);
  const headMm = heightMm(1, metrics.headingPt) + 1;
  const footMm = heightMm(metrics.type === 'large' ? 2 : 1, metrics.smallPt) + 0.2;
  const frameMm = headMm + COLUMN_HEAD_MM + (metrics.type === 'large' ? LARGE_GAPS_MM : GAPS_MM) + footMm;
  const packed = intoPages(rows, frameMm, text, false);
  const parted = intoPages(rows, frameMm, text, true);
  // Parted at the pauses where that costs no page more.
  const pages = parted.length <= packed.length ? parted : packed;

  const name = dayName(date);
  return pages.map((page, index) => {
    const part = pages.length > 1 ? `, ${index + 1} of ${pages.length}` : '';
    const last = index === pages.length - 1;
    const body =
      page.length === 0
        ? '<p class="small">Nothing to do by the clock today.</p>'
        : `<table class="steps"><thead><tr><th scope="col">Time</th><th scope="col">Done</th><th scope="col">Do this</th></tr></thead><tbody>${page
            .map((row) => row.html)
            .join('')}</tbody></table>`;
    return (
      `<section class="card"><header class="card-head"><h2>${name}${part}</h2>` +
      `<p class="page-of">${escapeHtml(dateText(date))}. Day ${dayNumber} of ${plan.request.days}. Page {{page}}</p></header>` +
      `${index === 0 ? text.top : ''}${body}${last ? text.bottom : ''}</section>`
    );
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
  const { household } = plan.resolved;
  let topMm = 0;
  let top = '';
  const addTop = (html: string, plain: string, points: number, gapMm = 1): void => {
    top += html;
    topMm += heightMm(linesOf(plain, PAGE_WIDTH_MM - 2, points), points) + gapMm;
  };
  const first = steps[0];
  if (first !== undefined) {
    const line = `${clockText(first.at)} ${stepLine({ text: first.text, quantities: [] }, system)}`;
    addTop(`<p class="now"><b>Now first:</b> ${escapeHtml(line)}</p>`, `Now first: ${line}`, metrics.actionPt, 2);
  }
  const dangers = dangerLines(plan, date);
  if (dangers.length > 0) {
    top += `<div class="danger" role="note">${dangers.map((line) => `<p>${escapeHtml(line)}</p>`).join('')}</div>`;
    topMm +=
      dangers.reduce(
        (sum, line) => sum + heightMm(linesOf(line, PAGE_WIDTH_MM - 8, metrics.smallPt), metrics.smallPt),
        0,
      ) + 3.6;
  }
  const balance = morningBalance(plan, date, system);
  if (balance.length > 0) {
    const weighAt = clockText(steps.find((step) => step.action === 'weigh')?.at ?? first?.at ?? `${date}T07:00`);
    top +=
      `<table class="balance"><thead><tr><th scope="col">Weigh at ${escapeHtml(weighAt)}</th><th scope="col">Expect</th>` +
      '<th scope="col">New plan below</th><th scope="col">I read</th></tr></thead><tbody>' +
      balance
        .map(
          (row) =>
            `<tr><th scope="row">${escapeHtml(row.name)}</th><td>${escapeHtml(row.expect)}</td><td>${escapeHtml(row.replanBelow)}</td><td class="write"></td></tr>`,
        )
        .join('') +
      '</tbody></table>';
    const column = (PAGE_WIDTH_MM - BALANCE_NAME_MM) / 3 - 2.6;
    for (const row of [{ name: '', expect: '', replanBelow: 'New plan below' }, ...balance]) {
      const lines = Math.max(
        linesOf(row.name, BALANCE_NAME_MM - 4, metrics.smallPt),
        linesOf(row.expect, column, metrics.smallPt),
        linesOf(row.replanBelow, column, metrics.smallPt),
      );
      topMm += heightMm(lines, metrics.smallPt) + 1.4;
    }
    topMm += 1;
  }

  const lines: string[] = [];
  const soaks = plan.cookings.filter(
    (cooking) => cooking.method.soak !== null && cardDate({ at: cooking.method.soak.at }) === date,
  );
  for (const cooking of soaks) {
    const soak = cooking.method.soak;
    if (soak === null) continue;
    lines.push(
      `Tonight's soak: ${clockText(soak.at)} in the ${thingName(household, soak.vesselId)}, for the ${inSentence(cooking.kitName)} of ${dayName(cooking.startsAt)}.`,
    );
  }
  const water = waterLine(plan, date, system);
  if (water !== null) lines.push(water);
  lines.push(noFireLine(plan, date));
  const allergens = allergenLine(plan, date);
  if (allergens !== null) lines.push(allergens);
  for (const shortage of plan.short.filter((one) => dateOf(one.from) === date)) lines.push(`Short: ${shortage.text}`);
  const bottomMm =
    lines.reduce((sum, line) => sum + heightMm(linesOf(line, PAGE_WIDTH_MM, metrics.smallPt), metrics.smallPt), 0) + 9;
  const bottom =
    `<div class="foot">${lines.map((line) => `<p>${escapeHtml(line)}</p>`).join('')}` +
    '<p class="blanks"><span>Fuel used:</span><span class="blank"></span><span>Water left:</span><span class="blank"></span><span>Ill:</span><span class="blank"></span></p></div>';
  return { top, topMm, bottom, bottomMm };
}

/** At most four lines on what can hurt today. */
function dangerLines(plan: Plan, date: string): string[] {
  const lines: string[] = [];
  const cookings = plan.cookings.filter((cooking) => dateOf(cooking.startsAt) === date);
  const fires = plan.lightings.filter((lighting) => dateOf(lighting.at) === date);
  if (fires.some((lighting) => lighting.outdoors)) {
    lines.push('Flames outdoors only, 6\u00a0m (20\u00a0ft) from doors, windows, vents: carbon monoxide kills unseen.');
  }
  if (fires.length > 0 && cookings.some((cooking) => cooking.method.finish === 'box')) {
    lines.push('No boiling pot over steps or ice, nor past children: the box stands beside the stove.');
  } else if (fires.length > 0) {
    lines.push(
      'Boiling water scalds: children stay 1\u00a0m (3\u00a0ft) away. No pot over ice or steps while it boils.',
    );
  }
  const beans = cookings.filter((cooking) => cooking.method.lectin.verdict === 'safe');
  const open = beans.filter((cooking) => cooking.method.gaugeKPa === null);
  if (open.length > 0) {
    const longest = Math.max(...open.map((cooking) => cooking.method.lectin.boilMinutesNeeded));
    lines.push(`Underdone kidney-type beans poison: ${durationText(longest)} of big bubbles before box or low flame.`);
  } else if (beans.length > 0) {
    lines.push('Underdone kidney-type beans poison: keep full pressure for all the minutes.');
  }
  if (cookings.some((cooking) => cooking.method.gaugeKPa !== null)) {
    lines.push('Pressure cooker: open it only when the pressure is gone, or it sprays boiling food.');
  }
  if (fires.some((lighting) => lighting.fuelId.includes('alcohol') || lighting.fuelId.endsWith('ethanol'))) {
    lines.push('Refill the alcohol burner cold only: a flame you cannot see burns you.');
  }
  return lines;
}

/** A meal that needs no fire, for when there is none. */
function noFireLine(plan: Plan, date: string): string {
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
    : `No-fire meal of the day: ${inSentence(kit.name)}. It takes the place of a cooked meal.`;
}

/** Allergens of the day's dishes, or null where there are none. */
function allergenLine(plan: Plan, date: string): string | null {
  const found: string[] = [];
  const done = new Set<string>();
  for (const meal of plan.meals.filter((one) => dateOf(one.eatAt) === date)) {
    for (const dish of meal.dishes) {
      const kitId = plan.cookings.find((cooking) => cooking.id === dish.cookingId)?.kitId;
      const kit = plan.resolved.kits.find((one) => one.id === kitId);
      if (kit === undefined || done.has(kit.id)) continue;
      done.add(kit.id);
      const allergens = new Set(
        kit.parts.flatMap((part) => part.ingredients.flatMap((one) => findFood(one.foodId)?.allergens ?? [])),
      );
      if (allergens.size > 0) found.push(`${inSentence(kit.name)}: ${[...allergens].join(', ')}`);
    }
  }
  return found.length === 0 ? null : `Allergens: ${found.join('; ')}.`;
}
