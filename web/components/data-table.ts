/** A table of numbers: caption, head cells with scope, its own scroller where it is wide. */
import type { ComponentChildren } from 'preact';
import { html } from '../html.ts';

export interface DataTableProps {
  caption: string;
  head: readonly string[];
  /** First cell of each row is the row's head. */
  rows: readonly (readonly ComponentChildren[])[];
  /** Columns, by index, that hold words and not numbers. */
  words?: readonly number[];
  /** A row that stands out, by index. */
  marked?: readonly number[];
}

export function DataTable({ caption, head, rows, words = [], marked = [] }: DataTableProps) {
  const align = (column: number) => (column === 0 || words.includes(column) ? undefined : 'number');
  return html`<div class="scroller" role="region" aria-label=${caption} tabindex="0">
    <table>
      <caption>${caption}</caption>
      <thead>
        <tr>${head.map((title, column) => html`<th scope="col" class=${align(column)}>${title}</th>`)}</tr>
      </thead>
      <tbody>
        ${rows.map(
          (row, line) => html`<tr class=${marked.includes(line) ? 'marked' : undefined}>
            ${row.map((cell, column) => (column === 0 ? html`<th scope="row">${cell}</th>` : html`<td class=${align(column)}>${cell}</td>`))}
          </tr>`,
        )}
      </tbody>
    </table>
  </div>`;
}
