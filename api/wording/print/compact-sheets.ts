/**
 * The week on two sheets of paper, printed on both sides: no tick boxes and no page for each day, one system of units,
 * the steps of a fire run on in one paragraph. What a cook must not miss stays: times, amounts, what to do when it goes
 * wrong, when to plan anew, room to write.
 */
import type { Plan, ScheduleStep } from '../../planning/plan-types.ts';
import { assumptionLines } from '../assumptions.ts';
import { DEFER_LINE } from '../cautions.ts';
import { coldByChoiceLine } from '../chosen-point.ts';
import { clockChange } from '../clock-change.ts';
import { inSentence } from '../names.ts';
import { clockOnSheetOf, dateOf, dateText, dayName } from '../times.ts';
import { inSystem, type UnitSystem } from '../units.ts';
import { byTheClock } from '../without-clock.ts';
import { morningBalance, readyLines } from './balance-lines.ts';
import { rowsOf } from './card-rows.ts';
import { type Conditions, conditionsOnce } from './conditions.ts';
import { cardDate, noFireLine } from './day-card.ts';
import { escapeHtml, heightMm, linesOf } from './html.ts';
import { planCautions, SPARED_TITLE, shortLines } from './overview-sheet.ts';
import { PAGE_HEIGHT_MM, PAGE_WIDTH_MM, type SheetMetrics } from './sheet-type.ts';
import { linesOfWords, rowWords, terseText } from './step-row.ts';

/** Room that a bold time takes beyond the measure of plain type, and what a browser breaks otherwise, share. */
const RAGGED = 0.99;
const PARAGRAPH_GAP_MM = 0.3;
/** Two sheets of paper have four sides. */
const SIDES = 4;
/** The line of a day: its name, and room to write what is left. */
const DAY_HEAD_MM = 8.4;

/** The steps whose "if not" stands on the compact sheets too. */
const CRITICAL: ReadonlySet<ScheduleStep['action']> = new Set([
  'boil',
  'box',
  'drain',
  'fill-flask',
  'release-pressure',
  'take-off',
  'treat-water',
  'check',
  'unbox',
]);

interface Piece {
  html: string;
  heightMm: number;
  /** The name of a day must not stand alone at the foot of a page. */
  withNext: boolean;
  /** What of it fits into so many mm, and the rest; null where nothing does. */
  parted?: (roomMm: number) => [Piece, Piece] | null;
}

/**
 * The pages of the compact schedule.
 * @param dates the days of the cards, `YYYY-MM-DD`, in order
 * @returns HTML sections, one per page, the page count standing as `{{page}}`
 */
export function compactSheets(
  plan: Plan,
  dates: readonly string[],
  system: UnitSystem,
  metrics: SheetMetrics,
): string[] {
  const isCritical = (step: ScheduleStep): boolean => CRITICAL.has(step.action);
  const layOut = (fewest: boolean): Piece[][] => {
    const days = dates.map((date) =>
      plan.schedule
        .filter((step) => cardDate(step) === date)
        // Without a clock one takes the cards.
        .map((step) => ({ ...step, text: fewest ? fewestWords(byTheClock(step.text)) : byTheClock(step.text) })),
    );
    // What to do when it goes wrong stands on each day, or on the first day of the week that needs it.
    const onceAWeek = conditionsOnce(days.flat(), isCritical);
    return onPages(
      [
        ...firstPieces(plan, system, metrics),
        ...days.flatMap((steps, day) => {
          const conditions = fewest ? onceAWeek : conditionsOnce(steps, isCritical);
          return dayPieces(plan, dates[day] as string, dates[day - 1], steps, conditions, system, metrics);
        }),
      ],
      metrics,
    );
  };
  const wide = layOut(false);
  const pages = wide.length > SIDES ? layOut(true) : wide;
  const household = escapeHtml(plan.resolved.household.name);
  return pages.map((page, index) => {
    const heading = index === 0 ? 'h1' : 'h2';
    const overview = index === 0 ? ' overview' : '';
    return (
      `<section class="card${overview}"><header class="card-head"><${heading}>Cooking plan: ${household}</${heading}>` +
      `<p class="page-of">Page {{page}}</p></header>${page.map((piece) => piece.html).join('')}</section>`
    );
  });
}

/** For weeks that two sheets would not hold: the time stands, how long it is away does not; lids stay on in any case. */
function fewestWords(text: string): string {
  return text.replace(/ within [\d½¼¾]+\u00a0(?:h|min), by /, ' by ').replace(' Keep the lid on.', '');
}

/** Fills pages with pieces; the first page has the line that says what made the plan. */
function onPages(pieces: readonly Piece[], metrics: SheetMetrics): Piece[][] {
  const headMm = heightMm(1, metrics.headingPt) + 1.4;
  const footMm = heightMm(1, metrics.smallPt) + 1;
  const pages: Piece[][] = [[]];
  let used = headMm + footMm;
  const put = (piece: Piece): void => {
    pages.at(-1)?.push(piece);
    used += piece.heightMm;
  };
  for (const [index, piece] of pieces.entries()) {
    const next = pieces[index + 1];
    const wanted = piece.heightMm + (piece.withNext && next !== undefined ? next.heightMm : 0);
    if (used + wanted <= PAGE_HEIGHT_MM) {
      put(piece);
      continue;
    }
    const [begun, rest] = piece.parted?.(PAGE_HEIGHT_MM - used) ?? [null, piece];
    if (begun !== null) put(begun);
    pages.push([]);
    used = headMm;
    put(rest);
  }
  return pages;
}

function paragraphPiece(html: string, plain: string, metrics: SheetMetrics): Piece {
  const lines = linesOf(plain, PAGE_WIDTH_MM * RAGGED, metrics.smallPt);
  return {
    html: `<p class="run">${html}</p>`,
    heightMm: heightMm(lines, metrics.smallPt) + PARAGRAPH_GAP_MM,
    withNext: false,
  };
}

/** "Title: text", the title bold. */
function titled(title: string, text: string, metrics: SheetMetrics): Piece {
  const one = terseText(text);
  return paragraphPiece(`<b>${escapeHtml(title)}:</b> ${escapeHtml(one)}`, `${title}: ${one}`, metrics);
}

function firstPieces(plan: Plan, system: UnitSystem, metrics: SheetMetrics): Piece[] {
  const start = dateOf(plan.request.startsAt);
  const state = plan.outcome === 'complete' ? 'Everybody is fed.' : 'Not everything is enough.';
  const first = `${plan.request.days} days from ${dayName(start)} ${dateText(start)}. ${state} Print on both sides.`;
  const short = shortLines(plan);
  const spared = coldByChoiceLine(plan);
  const cautions = planCautions(plan).map(({ title, short: text }) => ({
    title,
    text: terseText(inSystem(text, system)),
  }));
  const harm = cautions.map(({ title, text }) => `${title}: ${text}`).join(' ');
  const harmHtml = cautions.map(({ title, text }) => `<b>${escapeHtml(title)}:</b> ${escapeHtml(text)}`).join(' ');
  return [
    paragraphPiece(escapeHtml(first), first, metrics),
    titled('Have ready', readyLines(plan, system).join(' '), metrics),
    ...(short.length === 0 ? [] : [titled('Short', short.join(' '), metrics)]),
    ...(spared === null ? [] : [titled(SPARED_TITLE, spared, metrics)]),
    titled('Assumed', `${assumptionLines(plan, system)[0] ?? ''} ${clockChange(plan)?.text ?? ''}`.trim(), metrics),
    paragraphPiece(
      `<b>What can hurt.</b> ${harmHtml} ${escapeHtml(DEFER_LINE)}`,
      `What can hurt. ${harm} ${DEFER_LINE}`,
      metrics,
    ),
  ];
}

function dayPieces(
  plan: Plan,
  date: string,
  before: string | undefined,
  steps: readonly ScheduleStep[],
  conditions: Conditions,
  system: UnitSystem,
  metrics: SheetMetrics,
): Piece[] {
  const blank = (name: string): string => `<span>${name}:</span><span class="blank"></span>`;
  const pieces: Piece[] = [
    {
      html: `<div class="blanks day-head"><h2>${dayName(date)} ${escapeHtml(dateText(date).replace(/\u00a0\d+$/, ''))}</h2>${blank('Fuel left')}${blank('Water left')}</div>`,
      heightMm: DAY_HEAD_MM,
      withNext: true,
    },
  ];
  const balance = morningBalance(plan, date, system);
  const noFire = noFireMeal(plan, date, before);
  if (balance.length > 0) {
    const words = balance.map((row) => `${inSentence(row.name)} ${row.expect}, new plan below ${row.replanBelow}`);
    pieces.push(titled('Expect', `${words.join('; ')}.${noFire === '' ? '' : ` ${noFire}`}`, metrics));
  } else if (noFire !== '') pieces.push(paragraphPiece(escapeHtml(noFire), noFire, metrics));
  return [...pieces, ...rowsOf(plan, steps, true).map((row) => rowPiece(row.steps, date, conditions, system, metrics))];
}

/** Steps of one row as a paragraph, which may be parted between two of them. */
function rowPiece(
  steps: readonly ScheduleStep[],
  date: string,
  conditions: Conditions,
  system: UnitSystem,
  metrics: SheetMetrics,
): Piece {
  // Which packing a bag comes from stands on the bag and in the plan.
  const words = rowWords({ steps: [...steps], packed: null }, date, system, conditions, true);
  const at = escapeHtml(clockOnSheetOf(date, (steps[0] as ScheduleStep).at));
  const plain = `${at}\u00a0${words.plain}${words.ifNot === '' ? '' : ` ${words.ifNot}`}`;
  const lines = linesOfWords({ ...words, plain }, PAGE_WIDTH_MM * RAGGED, metrics.smallPt);
  const make = (some: readonly ScheduleStep[]): Piece => rowPiece(some, date, conditions, system, metrics);
  return {
    html: `<p class="run"><b>${at}</b>\u00a0${words.closeHtml}</p>`,
    heightMm: heightMm(lines, metrics.smallPt) + PARAGRAPH_GAP_MM,
    withNext: false,
    parted: (roomMm) => {
      for (let count = steps.length - 1; count > 0; count -= 1) {
        const begun = make(steps.slice(0, count));
        if (begun.heightMm <= roomMm) return [begun, make(steps.slice(count))];
      }
      return null;
    },
  };
}

/** The meal that needs no fire, where it is not that of the day before. */
function noFireMeal(plan: Plan, date: string, before: string | undefined): string {
  const line = noFireLine(plan, date);
  return before !== undefined && noFireLine(plan, before) === line ? '' : line.replace(' of the day', '');
}
