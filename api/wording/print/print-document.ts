/** The frame of a printable page: pages as cards, numbered, for A4 and Letter alike. */
import { escapeHtml } from './html.ts';

/** One page, or a run of pages that belong together. */
export interface PrintCard {
  title: string;
  /** Finished HTML. */
  html: string;
}

/**
 * A whole document; it needs `/print.css` and nothing else.
 * @param hint what the screen says above the pages
 * @param kind a class for the pages
 */
export function printDocument(title: string, hint: string, kind: string, cards: readonly PrintCard[]): string {
  const body = cards
    .map(({ title: name, html }, index) => {
      const level = index === 0 ? 'h1' : 'h2';
      return (
        `<section class="card ${kind}"><header class="card-head"><${level}>${escapeHtml(name)}</${level}>` +
        `<p class="page-of">Sheet ${index + 1} of ${cards.length}</p></header>${html}</section>`
      );
    })
    .join('\n');
  return (
    '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n' +
    '<meta name="viewport" content="width=device-width, initial-scale=1">\n' +
    `<title>${escapeHtml(title)}</title>\n<link rel="stylesheet" href="/print.css">\n</head>\n` +
    `<body class="sheet normal">\n<p class="screen-only">${escapeHtml(hint)}</p>\n<main>\n${body}\n</main>\n</body>\n</html>\n`
  );
}

/** A table; head cells and cells are finished HTML. The first cell of a row names the row. */
export function printTable(kind: string, head: readonly string[], rows: readonly (readonly string[])[]): string {
  return (
    `<table class="${kind}"><thead><tr>${head.map((cell) => `<th scope="col">${cell}</th>`).join('')}</tr></thead><tbody>` +
    rows
      .map(
        ([first = '', ...cells]) =>
          `<tr><th scope="row">${first}</th>${cells.map((cell) => `<td>${cell}</td>`).join('')}</tr>`,
      )
      .join('') +
    '</tbody></table>'
  );
}

/** A box to tick. */
export const TICK_BOX = '<span class="tick-box"></span>';
