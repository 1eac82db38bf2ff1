/** One step as a row of a card: time, tick box, action, quantities, and the line for when it goes wrong. */
import type { ScheduleStep } from '../../planning/plan-types.ts';
import type { Rounding } from '../numbers.ts';
import { clockOnSheetOf } from '../times.ts';
import { quantityText, type UnitSystem } from '../units.ts';
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
  return list.length === 0 ? step.text : `${step.text} ${list.join('; ')}.`;
}

/** "If no flame:" in bold, what to do then in plain type. */
function boldConditions(ifNot: string): string {
  return escapeHtml(ifNot).replace(/(^|\. )(If (?:[^:.]|:\d|\.\d)*:)/g, '$1<b>$2</b>');
}

export interface StepRow {
  html: string;
  heightMm: number;
}

/**
 * The row of a step.
 * @param date the sheet's date, `YYYY-MM-DD`
 * @param showIfNot false where the same line already stands on this card
 */
export function stepRow(
  step: ScheduleStep,
  date: string,
  number: number,
  system: UnitSystem,
  metrics: SheetMetrics,
  showIfNot: boolean,
): StepRow {
  // What the text names already is not named again.
  const listed = quantityWords(step, system);
  const words = listed.map((one) => (listed.length === 1 && step.text.includes(one.what) ? { ...one, what: '' } : one));
  const quantities = words
    .map((one) => `<b>${escapeHtml(one.figures)}</b>${one.what === '' ? '' : ` ${escapeHtml(one.what)}`}`)
    .join('; ');
  const quantityText = words.map((one) => `${one.figures} ${one.what}`).join('; ');
  const ifNot = showIfNot && step.ifNot !== null && step.ifNot !== '' ? step.ifNot : null;
  const width = PAGE_WIDTH_MM - metrics.leadMm - 3;
  // Figures are bold: about a twentieth wider.
  const doLines = linesOf(
    quantityText === '' ? step.text : `${step.text} ${quantityText}`,
    quantityText === '' ? width : width * 0.98,
    metrics.actionPt,
  );
  const ifNotLines = ifNot === null ? 0 : linesOf(ifNot, width, metrics.smallPt);
  const content = heightMm(doLines, metrics.actionPt) + heightMm(ifNotLines, metrics.smallPt) + 1.4;
  const html =
    `<tr class="step ${step.action}"><td class="time">${escapeHtml(clockOnSheetOf(date, step.at))}</td>` +
    `<td class="tick"><span class="tick-box"><span class="hidden">step ${number} done</span></span></td>` +
    `<td class="do"><span class="text">${escapeHtml(step.text)}</span>` +
    `${quantities === '' ? '' : ` <span class="quantities">${quantities}</span>`}` +
    `${ifNot === null ? '' : `<span class="if-not">${boldConditions(ifNot)}</span>`}</td></tr>`;
  return { html, heightMm: Math.max(metrics.rowMm, content) + 0.3 };
}
