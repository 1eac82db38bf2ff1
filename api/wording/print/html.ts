/** Text into HTML, and how many lines a text takes on paper. */

/**
 * Escapes text for element content and quoted attributes.
 * @param text any text, a user's included
 */
export function escapeHtml(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
}

/** Millimetres of one point. */
const MM_PER_POINT = 25.4 / 72;

/**
 * Mean width of a character of a common sans serif in em, bold figures included: 0.43 is the mean of running text
 * (page-print-and-exchange P09, tried), 0.5 leaves room for figures and for breaking at words.
 */
const EM_PER_CHARACTER = 0.5;

/** Line height in em; the same as in `web/public/print.css`. */
export const LINE_HEIGHT_EM = 1.28;

/**
 * Lines that a text takes.
 * @param characters length of the text
 * @param widthMm width of its column, mm
 * @param points type size, pt
 */
export function linesOf(characters: number, widthMm: number, points: number): number {
  const perLine = Math.max(1, Math.floor(widthMm / (points * MM_PER_POINT * EM_PER_CHARACTER)));
  return Math.max(1, Math.ceil(characters / perLine));
}

/** Height of some lines of type, mm. */
export function heightMm(lines: number, points: number): number {
  return lines * points * MM_PER_POINT * LINE_HEIGHT_EM;
}
