/** Steps as a row of a card: time, tick box, actions, quantities, and the line for when it goes wrong. */
import type { ScheduleStep } from '../../planning/plan-types.ts';
import { NBSP, type Rounding } from '../numbers.ts';
import { clockOnSheetOf, dateOf, minutesBetween } from '../times.ts';
import { inSystem, quantityText, type UnitSystem } from '../units.ts';
import type { RowSteps } from './card-rows.ts';
import type { Conditions } from './conditions.ts';
import { escapeHtml, heightMm, linesOf, type Run, runsHeightMm } from './html.ts';
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
 * servings are for the plan, people help themselves; a bowl is poured out to the last drop.
 */
function cardWords(step: ScheduleStep, system: UnitSystem): QuantityWords[] {
  const whole = new Set(step.quantities.filter((one) => one.unit === 'bag').map((one) => one.what));
  const quantities = step.quantities.filter(
    (one) => one.unit !== 'servings' && one.what !== 'to pour away' && (one.unit === 'bag' || !whole.has(one.what)),
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
    // How long it has boiled stands right before, where the boil is in the row.
    if (order[index - 1]?.action === 'boil') text = text.replace(/ after [^.,]* (?:of boiling|at pressure)/, '');
    if (lit !== undefined) text = text.replace(` on the ${lit}`, ' on it');
    if (box !== undefined && order[index - 1]?.action === 'box') text = text.replace(`Carry the ${box}`, 'Carry it');
    if (step.action === 'shut-off') text = text.replace(/^Pull the sticks out of the .+?,/, 'Pull the sticks out,');
    if (step.action === 'shut-off') text = text.replace(/^Shut the .+? off at/, 'Shut the stove off at');
    return { step, text };
  });
}

/** "If no flame:" in bold, what to do then in plain type. */
export function boldConditions(ifNot: string): string {
  return ifNot
    .split(CONDITION)
    .map((text, index) => (index % 2 === 1 ? `<b>${escapeHtml(text)}</b>` : escapeHtml(text)))
    .join('');
}

/** "If no flame:", at the beginning or after a full stop; splits a text into others and conditions in turn. */
const CONDITION = /(?<=^|\. )(If (?:[^:.]|:\d|\.\d)*:)/;

/** Steps so near to the first of their row are done with it. */
const SAME_TIME_MINUTES = 6;

/** The column of the tick box, and the box with its gap where it stands below the time, mm; as in `web/public/print.css`. */
const TICK_COLUMN_MM = 8;
const TICK_BELOW_MM = 8.1;
/** What a browser breaks earlier than the widths say, share: the printer's type may be a little wider. */
const CLOSE_RAGGED = 0.992;
/** The line height of times over that of words. */
const TIME_LINE = 1.1 / 1.25;

/**
 * Fewer words, for sheets on which they would take a page more: one system of units ("140 °F (60 °C)" is "140 °F"), and
 * what stands once among what can hurt, on the first sheet or in the row before is left to it.
 */
export function terseText(text: string): string {
  return text
    .replace(
      /(\u00a0(?:°[CF]|kPa|psi|mL|L|kg|g|m|mm|ft|cups?|tbsp|gal|oz|lb)) \((?:\u2212|-)?[\d½¼¾][^()<]*\u00a0[^()<]*\)/g,
      '$1',
    )
    .replace(/Eat or throw away (?=within|by)/g, 'Eat ')
    .replaceAll(', its fuel is set aside', '')
    .replaceAll('else serve the no-fire meal', 'else the no-fire meal')
    .replace(/ after [^.,]* at pressure/, '')
    .replace(/, [^.,]* off the fire/, '')
    .replace(/, after its [^,]*,/, '');
}

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
  /** All of it as markup, what to do when a step goes wrong right behind the step. */
  closeHtml: string;
  /** All of it in order, by the size of its type: what to do, and what belongs to it. */
  runs: { text: string; size: 'do' | 'detail'; bold: boolean }[];
}

/**
 * The words of one row.
 * @param date the sheet's date, `YYYY-MM-DD`
 * @param conditions the "if not" lines that stand here
 * @param terse whether amounts are in one system of units, and what stands once on the first sheet is left to it
 */
export function rowWords(
  row: RowSteps,
  date: string,
  system: UnitSystem,
  conditions: Conditions,
  terse = false,
): RowWords {
  const say = (text: string): string => (terse ? terseText(text) : text);
  const said: string[] = [];
  const runs: RowWords['runs'] = [];
  let saidAt = (row.steps[0] as ScheduleStep).at;
  const parts = rowTexts(row.steps).map(({ step, text: worded }) => {
    const listed = cardWords(step, system);
    const words = listed.map(({ figures, what }) => ({
      figures: say(figures),
      what: listed.length === 1 && step.text.includes(what) ? '' : say(what),
    }));
    const quantities = words
      .map((one) => `<b>${escapeHtml(one.figures)}</b>${one.what === '' ? '' : ` ${escapeHtml(one.what)}`}`)
      .join('; ');
    const text = say(inSystem(worded, system));
    const ifNot = say(inSystem(conditions.get(step) ?? '', system));
    if (ifNot !== '') said.push(ifNot);
    // A step that comes well after the time that was said last says when.
    const later = minutesBetween(saidAt, step.at) > SAME_TIME_MINUTES;
    if (later) saidAt = step.at;
    const at = later ? clockOnSheetOf(date, step.at) : '';
    if (at !== '') runs.push({ text: at, size: 'do', bold: true });
    runs.push({ text, size: 'do', bold: false });
    for (const [index, one] of words.entries()) {
      const end = index === words.length - 1 ? '.' : ';';
      runs.push({ text: one.what === '' ? `${one.figures}${end}` : one.figures, size: 'detail', bold: true });
      if (one.what !== '') runs.push({ text: `${one.what}${end}`, size: 'detail', bold: false });
    }
    for (const [index, text] of ifNot.split(CONDITION).entries())
      if (text !== '') runs.push({ text, size: 'detail', bold: index % 2 === 1 });
    const html =
      `${at === '' ? '' : `<b class="at">${escapeHtml(at)}</b>${NBSP}`}<span class="text">${escapeHtml(text)}</span>` +
      `${quantities === '' ? '' : ` <span class="quantities">${quantities}.</span>`}`;
    return {
      html,
      closeHtml: ifNot === '' ? html : `${html} <span class="if-not">${boldConditions(ifNot)}</span>`,
      plain:
        [at === '' ? text : `${at}${NBSP}${text}`, words.map((one) => `${one.figures} ${one.what}`.trim()).join('; ')]
          .filter((one) => one !== '')
          .join(' ') + (words.length > 0 ? '.' : ''),
      boldLength: words.reduce((sum, one) => sum + one.figures.length, 0),
    };
  });
  const packed = row.packed ?? '';
  const ifNot = said.join(' ');
  const plain = [...parts.map((part) => part.plain), packed].filter((one) => one !== '').join(' ');
  if (packed !== '') runs.push({ text: packed, size: 'detail', bold: false });
  const packedHtml = packed === '' ? '' : ` <span class="packed">${escapeHtml(packed)}</span>`;
  return {
    runs,
    html: parts.map((part) => part.html).join(' ') + packedHtml,
    closeHtml: parts.map((part) => part.closeHtml).join(' ') + packedHtml,
    plain,
    boldShare: parts.reduce((sum, part) => sum + part.boldLength, 0) / Math.max(1, plain.length),
    ifNot,
  };
}

/** By how much bold figures with their units are wider, share (from the widths in `html.ts`). */
const BOLD_WIDER = 0.04;

/** Lines of a row's words: figures are bold, a little wider. */
export function linesOfWords(words: RowWords, widthMm: number, points: number): number {
  return linesOf(words.plain, widthMm * (1 - BOLD_WIDER * words.boldShare), points);
}

/** How closely the rows of a card stand: see `day-card.ts`. */
export interface RowSetting {
  /** Steps of several times share rows, each with its time. */
  runIn: boolean;
  /** Amounts and "if not" lines run on behind what to do, in the small type; the tick box may stand below the time. */
  close: boolean;
  /** Fewer words: see `terseText`. */
  terse: boolean;
}

/** Each step in a row of its own, its amounts as large as what to do. */
export const WIDE: RowSetting = { runIn: false, close: false, terse: false };

/**
 * One row.
 * @param date the sheet's date, `YYYY-MM-DD`
 * @param conditions the "if not" lines that stand here
 */
export function stepRow(
  row: RowSteps,
  date: string,
  number: number,
  system: UnitSystem,
  metrics: SheetMetrics,
  conditions: Conditions,
  { close, terse }: RowSetting = WIDE,
): StepRow {
  const words = rowWords(row, date, system, conditions, terse);
  const first = row.steps[0] as ScheduleStep;
  const wordsMm = (widthMm: number): number => {
    if (close) return runsHeightMm(sized(words.runs, metrics), widthMm * CLOSE_RAGGED) + metrics.rowPaddingMm;
    const doLines = linesOfWords(words, widthMm, metrics.actionPt);
    const ifNotLines = words.ifNot === '' ? 0 : linesOf(words.ifNot, widthMm * 0.98, metrics.smallPt);
    return heightMm(doLines, metrics.actionPt) + heightMm(ifNotLines, metrics.smallPt) + metrics.rowPaddingMm;
  };
  const width = PAGE_WIDTH_MM - metrics.leadMm - 2.2;
  const dayMm = dateOf(first.at) === date ? 0 : heightMm(1, metrics.smallPt);
  const timeMm = heightMm(1, metrics.timePt) * TIME_LINE + dayMm;
  const besideMm = Math.max(metrics.rowMm, wordsMm(width), dayMm > 0 ? timeMm + metrics.rowPaddingMm : 0);
  const belowMm = Math.max(timeMm + TICK_BELOW_MM, wordsMm(width + TICK_COLUMN_MM));
  const below = close && belowMm < besideMm;
  // After midnight the day stands below the time, in the small type.
  const [clock = '', nextDay] = clockOnSheetOf(date, first.at).split(NBSP).reverse();
  const time = `${clock}${nextDay === undefined ? '' : `<span class="next-day">${nextDay.slice(0, 3)}</span>`}`;
  const tick = `<span class="tick-box"><span class="hidden">step ${number} done</span></span>`;
  const kind = close ? 'do close' : 'do';
  const lead = below
    ? `<td class="time">${time}${tick}</td><td class="${kind}" colspan="2">`
    : `<td class="time">${time}</td><td class="tick">${tick}</td><td class="${kind}">`;
  const apart = words.ifNot === '' ? '' : `<span class="if-not">${boldConditions(words.ifNot)}</span>`;
  const html = `<tr class="step ${first.action}">${lead}${close ? words.closeHtml : words.html + apart}</td></tr>`;
  return { html, heightMm: (below ? belowMm : besideMm) + 0.1 };
}

function sized(runs: RowWords['runs'], metrics: SheetMetrics): Run[] {
  return runs.map(({ text, size, bold }) => ({
    text,
    bold,
    points: size === 'do' ? metrics.actionPt : metrics.smallPt,
  }));
}
