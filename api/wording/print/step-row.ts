/** Steps as a row of a card: time, tick box, actions, quantities, and the line for when it goes wrong. */
import type { ScheduleStep } from '../../planning/plan-types.ts';
import { NBSP, type Rounding } from '../numbers.ts';
import { clockOnSheetOf, minutesBetween } from '../times.ts';
import { inSystem, quantityText, type UnitSystem } from '../units.ts';
import type { RowSteps } from './card-rows.ts';
import { escapeHtml, heightMm, linesOf } from './html.ts';
import { PAGE_WIDTH_MM, type SheetMetrics } from './sheet-type.ts';

export interface QuantityWords {
  figures: string;
  what: string;
}

/** Drops of bleach are a least amount, the fill of a burner a most amount. */
function roundingOf(what: string, unit: string): Rounding {
  if (what === 'at most') return 'down';
  return unit === 'drops' ? 'up' : 'nearest';
}

/** The quantities of a step in words; two amounts of the same thing are joined: "1 bag, 330 g (11½ oz) barley". */
export function quantityWords(step: Pick<ScheduleStep, 'quantities'>, system: UnitSystem): QuantityWords[] {
  const words: QuantityWords[] = [];
  for (const quantity of step.quantities) {
    // Minutes and temperatures stand in the text already.
    if (quantity.unit === 'min' || quantity.unit === 'C') continue;
    const figures = quantityText(quantity.amount, quantity.unit, system, roundingOf(quantity.what, quantity.unit));
    const last = words.at(-1);
    if (last !== undefined && last.what === quantity.what) last.figures += `, ${figures}`;
    else words.push({ figures, what: quantity.what });
  }
  return words;
}

/**
 * A step as one plain line: text, then its quantities. For calendars, lists and reading aloud.
 */
export function stepLine(step: Pick<ScheduleStep, 'text' | 'quantities'>, system: UnitSystem): string {
  const list = quantityWords(step, system).map((one) => `${one.figures} ${one.what}`);
  const text = inSystem(step.text, system);
  return list.length === 0 ? text : `${text} ${list.join('; ')}.`;
}

/**
 * The quantities of a row: a whole bag needs no scale, so it has no grams, and single bags are listed under one figure;
 * servings are for the plan, people help themselves.
 */
function cardWords(step: ScheduleStep, system: UnitSystem): QuantityWords[] {
  const whole = new Set(step.quantities.filter((one) => one.unit === 'bag').map((one) => one.what));
  const quantities = step.quantities.filter(
    (one) => one.unit !== 'servings' && (one.unit === 'bag' || !whole.has(one.what)),
  );
  const single = quantities.filter((one) => one.unit === 'bag' && one.amount === 1);
  const words = quantityWords(
    { quantities: quantities.filter((one) => one.unit !== 'bowl' && !single.includes(one)) },
    system,
  );
  for (const one of quantities.filter((quantity) => quantity.unit === 'bowl')) {
    words.push({ figures: 'all', what: `the ${one.what.replace(', all of it', '')}` });
  }
  if (single.length === 0) return words;
  // What the text names already is not named again.
  const named = single.every((one) => step.text.includes(one.what));
  const figures = `${quantityText(1, 'bag', system)}${single.length === 1 ? '' : ' each'}`;
  const list = single.map((one) => one.what).join('; ');
  // A dish eaten from its bags is all of its bags.
  if (step.action === 'serve')
    return [...words, { figures: quantityText(single.length, 'bag', system), what: 'in all' }];
  words.push(named ? { figures, what: '' } : { figures: single.length === 1 ? figures : `${figures}:`, what: list });
  return words;
}

/** The texts of a row: a stove that the row has named is "it" from then on, and the fire goes out before the long wait. */
function rowTexts(steps: readonly ScheduleStep[]): { step: ScheduleStep; text: string }[] {
  const off = steps.find((step) => step.action === 'shut-off');
  const waits = steps.findIndex((step) => step.action === 'release-pressure');
  const order = [...steps];
  if (off !== undefined && waits >= 0) {
    order.splice(order.indexOf(off), 1);
    order.splice(waits, 0, off);
  }
  const lit = /^(?:Light|Fill|Switch) the ([^,.]+?)(?: outdoors| on)?[,.]/.exec(order[0]?.text ?? '')?.[1];
  const box = /into the (.+?) beside the stove\.$/.exec(order[0]?.text ?? '')?.[1];
  return order.map((step, index) => {
    if (index === 0) return { step, text: step.text };
    let text = step.text;
    if (lit !== undefined) text = text.replace(` on the ${lit}`, ' on it');
    if (box !== undefined && order[index - 1]?.action === 'box') text = text.replace(`Carry the ${box}`, 'Carry it');
    if (step.action === 'shut-off') text = text.replace(/^Pull the sticks out of the .+?,/, 'Pull the sticks out,');
    if (step.action === 'shut-off') text = text.replace(/^Shut the .+? off at/, 'Shut the stove off at');
    return { step, text };
  });
}

/** "If no flame:" in bold, what to do then in plain type. */
export function boldConditions(ifNot: string): string {
  return escapeHtml(ifNot).replace(/(^|\. )(If (?:[^:.]|:\d|\.\d)*:)/g, '$1<b>$2</b>');
}

/** Steps so near to the first of their row are done with it. */
const SAME_TIME_MINUTES = 6;

/** The column of the tick box, and the box with its gap where it stands below the time, mm; as in `web/public/print.css`. */
const TICK_COLUMN_MM = 8;
const TICK_BELOW_MM = 8.1;
/** The line height of times over that of words. */
const TIME_LINE = 1.1 / 1.25;

/** By how much bold type is wider, share (from the eye, held by the page count in a browser). */
const BOLD_WIDER = 0.06;

export interface StepRow {
  html: string;
  heightMm: number;
}

export interface RowWords {
  /** The steps with their quantities, as markup. */
  html: string;
  /** The same without markup, to measure. */
  plain: string;
  /** Share of `plain` that is bold. */
  boldShare: number;
  /** What to do when it goes wrong; empty where the card has it already. */
  ifNot: string;
}

/**
 * The words of one row.
 * @param date the sheet's date, `YYYY-MM-DD`
 * @param shows whether the "if not" line of a step stands here: not where the card has it already
 */
export function rowWords(
  row: RowSteps,
  date: string,
  system: UnitSystem,
  shows: (step: ScheduleStep) => boolean,
): RowWords {
  const said: string[] = [];
  let saidAt = (row.steps[0] as ScheduleStep).at;
  const parts = rowTexts(row.steps).map(({ step, text: worded }) => {
    const listed = cardWords(step, system);
    const words = listed.map((one) =>
      listed.length === 1 && step.text.includes(one.what) ? { ...one, what: '' } : one,
    );
    const quantities = words
      .map((one) => `<b>${escapeHtml(one.figures)}</b>${one.what === '' ? '' : ` ${escapeHtml(one.what)}`}`)
      .join('; ');
    const text = inSystem(worded, system);
    if (step.ifNot !== null && step.ifNot !== '' && shows(step)) said.push(inSystem(step.ifNot, system));
    said.length = new Set(said).size;
    // A step that comes well after the time that was said last says when.
    const later = minutesBetween(saidAt, step.at) > SAME_TIME_MINUTES;
    if (later) saidAt = step.at;
    const at = later ? clockOnSheetOf(date, step.at) : '';
    return {
      plain:
        [at === '' ? text : `${at}${NBSP}${text}`, words.map((one) => `${one.figures} ${one.what}`.trim()).join('; ')]
          .filter((one) => one !== '')
          .join(' ') + (words.length > 0 ? '.' : ''),
      boldLength: words.reduce((sum, one) => sum + one.figures.length, 0),
      html:
        `${at === '' ? '' : `<b>${escapeHtml(at)}</b>${NBSP}`}<span class="text">${escapeHtml(text)}</span>` +
        `${quantities === '' ? '' : ` <span class="quantities">${quantities}.</span>`}`,
    };
  });
  const packed = row.packed ?? '';
  const ifNot = said.join(' ');
  const plain = [...parts.map((part) => part.plain), packed].filter((one) => one !== '').join(' ');
  return {
    html: `${parts.map((part) => part.html).join(' ')}${packed === '' ? '' : ` <span class="packed">${escapeHtml(packed)}</span>`}`,
    plain,
    boldShare: parts.reduce((sum, part) => sum + part.boldLength, 0) / Math.max(1, plain.length),
    ifNot,
  };
}

/** Lines of a row's words: figures are bold, a good twentieth wider. */
export function linesOfWords(words: RowWords, widthMm: number, points: number): number {
  return linesOf(words.plain, widthMm * (1 - BOLD_WIDER * words.boldShare), points);
}

/**
 * One row.
 * @param date the sheet's date, `YYYY-MM-DD`
 * @param runIn whether steps of several times share rows; then the tick box may stand below the time, where that leaves
 *   the words room for a line less
 * @param shows whether the "if not" line of a step stands here: not where the card has it already
 */
export function stepRow(
  row: RowSteps,
  date: string,
  number: number,
  system: UnitSystem,
  metrics: SheetMetrics,
  shows: (step: ScheduleStep) => boolean,
  runIn = false,
): StepRow {
  const words = rowWords(row, date, system, shows);
  const first = row.steps[0] as ScheduleStep;
  const wordsMm = (widthMm: number): number => {
    const doLines = linesOfWords(words, widthMm, metrics.actionPt);
    const ifNotLines = words.ifNot === '' ? 0 : linesOf(words.ifNot, widthMm * 0.98, metrics.smallPt);
    return heightMm(doLines, metrics.actionPt) + heightMm(ifNotLines, metrics.smallPt) + 1;
  };
  const width = PAGE_WIDTH_MM - metrics.leadMm - 2.2;
  const besideMm = Math.max(metrics.rowMm, wordsMm(width));
  const belowMm = Math.max(heightMm(1, metrics.timePt) * TIME_LINE + TICK_BELOW_MM, wordsMm(width + TICK_COLUMN_MM));
  const below = runIn && belowMm < besideMm;
  const time = escapeHtml(clockOnSheetOf(date, first.at));
  const tick = `<span class="tick-box"><span class="hidden">step ${number} done</span></span>`;
  const lead = below
    ? `<td class="time">${time}${tick}</td><td class="do" colspan="2">`
    : `<td class="time">${time}</td><td class="tick">${tick}</td><td class="do">`;
  const html =
    `<tr class="step ${first.action}">${lead}${words.html}` +
    `${words.ifNot === '' ? '' : `<span class="if-not">${boldConditions(words.ifNot)}</span>`}</td></tr>`;
  return { html, heightMm: (below ? belowMm : besideMm) + 0.1 };
}
