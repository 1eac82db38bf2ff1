/**
 * Comma-separated values, out and in. Out: RFC 4180, and text that a spreadsheet would take as a formula is kept text by an
 * apostrophe before it. In: whatever spreadsheets of other languages write, commas, semicolons or tabs, and the
 * apostrophe taken off again.
 */
import { dsvFormat } from 'd3-dsv';

/** What a spreadsheet may take as the beginning of a formula (OWASP, CSV Injection), with or without apostrophes before it. */
const FORMULA = /^'*[=+\-@\t\r\n＝＋－＠]/;
const SHIELDED = /^'+[=+\-@\t\r\n＝＋－＠]/;

const COMMA = dsvFormat(',');

/**
 * Rows as text.
 * @param rows numbers are written as they are; text is quoted where it must be; null is an empty cell
 * @returns lines ended by CR LF, the last one too
 */
export function csvText(rows: readonly (readonly (string | number | null)[])[]): string {
  return rows.map((row) => `${COMMA.formatRow(row.map(shielded))}\r\n`).join('');
}

/** A table read from text. */
export interface ReadCsv {
  rows: string[][];
  delimiter: ',' | ';' | '\t';
}

/**
 * Reads a table.
 * @param text with or without a byte-order mark
 * @returns rows of cells without the apostrophe that keeps text from being a formula; null: a quotation mark is left open
 */
export function readCsv(text: string): ReadCsv | null {
  let body = text.startsWith('\u{FEFF}') ? text.slice(1) : text;
  // Some spreadsheets say in a first line what separates.
  const said = /^sep=([,;\t])\r?\n/i.exec(body);
  if (said !== null) body = body.slice(said[0].length);
  if (isOpenQuoted(body)) return null;
  const delimiter = (said?.[1] as ReadCsv['delimiter'] | undefined) ?? delimiterOf(body);
  const rows = dsvFormat(delimiter).parseRows(body);
  return { rows: rows.map((row) => row.map((cell) => unshielded(cell.trim()))), delimiter };
}

function shielded(cell: string | number | null): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return String(cell);
  return FORMULA.test(cell) ? `'${cell}` : cell;
}

function unshielded(cell: string): string {
  return SHIELDED.test(cell) ? cell.slice(1) : cell;
}

/** An odd number of quotation marks: one of them was opened and never closed. */
function isOpenQuoted(text: string): boolean {
  let marks = 0;
  for (let at = text.indexOf('"'); at >= 0; at = text.indexOf('"', at + 1)) marks += 1;
  return marks % 2 === 1;
}

/** What separates most cells of the heading. */
function delimiterOf(text: string): ReadCsv['delimiter'] {
  const end = text.search(/[\r\n]/);
  const heading = (end < 0 ? text : text.slice(0, end)).replaceAll(/"[^"]*"/g, '');
  const count = (mark: string) => heading.split(mark).length - 1;
  const marks = [',', ';', '\t'] as const;
  return [...marks].sort((a, b) => count(b) - count(a))[0] ?? ',';
}
