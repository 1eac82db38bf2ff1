/** Figures that rest on the household's own tests: what the table has, and what holds now, each with its band. */
import type { LearnedFigure, LearnedInUse } from '../api-types.ts';
import { html } from '../html.ts';
import { writeNumber, writeShort } from '../numbers.ts';
import type { DerivationAsked } from '../page-state.ts';
import { DataTable } from './data-table.ts';
import { HowButton } from './derivation.ts';

export interface OwnFigure {
  /** The stove, box, flask or lot by name. */
  of: string;
  quantity: LearnedInUse['quantity'];
  figure: LearnedFigure;
  /** The steps behind it, or how to fetch them, and what it is called there. */
  steps: DerivationAsked['steps'];
  step: string;
}

const QUANTITY_NAMES: Record<LearnedInUse['quantity'], string> = {
  efficiency: 'efficiency',
  powerKW: 'power',
  timeConstantHours: 'time constant',
  minutesFactor: 'minutes against the table',
};

export function OwnFigures({ figures }: { figures: readonly OwnFigure[] }) {
  if (figures.length === 0) return null;
  return html`<ul>${figures.map(({ figure }) => html`<li>${figure.text}</li>`)}</ul>
    <${DataTable}
      caption="Own figures, typical (8 times in 10 within)"
      head=${['Figure', 'By the table', 'On the label', 'Own figure', 'Tests that count']}
      rows=${figures.map(({ of, quantity, figure, steps, step }) => [
        `${of}: ${QUANTITY_NAMES[quantity]}`,
        bandInWords(quantity, figure.table),
        figure.stated === null ? '–' : valueInWords(quantity, figure.stated),
        html`<strong><${HowButton} of=${`${of}: ${QUANTITY_NAMES[quantity]}`} quantity=${[step]} steps=${steps} shown=${bandInWords(quantity, figure.now)} /></strong>`,
        figure.records.length,
      ])}
    />`;
}

function bandInWords(quantity: LearnedInUse['quantity'], { p10, p50, p90 }: LearnedFigure['now']): string {
  return `${valueInWords(quantity, p50)} (${valueInWords(quantity, p10)} to ${valueInWords(quantity, p90)})`;
}

function valueInWords(quantity: LearnedInUse['quantity'], value: number): string {
  if (quantity === 'efficiency' || quantity === 'minutesFactor') return `${writeNumber(value * 100, 0)}\u00a0%`;
  return `${writeShort(value)}\u00a0${quantity === 'powerKW' ? 'kW' : 'h'}`;
}
