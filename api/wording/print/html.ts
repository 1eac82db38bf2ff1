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

/** Line height in em; the same as in `web/public/print.css`. */
export const LINE_HEIGHT_EM = 1.25;

/**
 * Width of one character of a common sans serif, in em: the widths of the typeface that most printers call Helvetica
 * or Arial, by class (from memory; `tests/wording/print` holds the page count in a browser against it).
 */
function characterEm(character: string): number {
  if ("ijl'".includes(character)) return 0.222;
  if ('|!.,:;[]ft I\u00a0\u202f'.includes(character)) return 0.28;
  if ('r-°/()'.includes(character)) return 0.35;
  if (character === 'w') return 0.73;
  if ('mMW%@'.includes(character)) return 0.85;
  if (/[0-9abdeghnopqu]/.test(character)) return 0.556;
  if (/[a-z]/.test(character)) return 0.5;
  if (/[A-Z]/.test(character)) return 0.7;
  return 0.83;
}

/** Width of a text in em. */
function widthEm(text: string): number {
  let sum = 0;
  for (const character of text) sum += characterEm(character);
  return sum;
}

/**
 * Lines that a text takes when it is broken at spaces (not at non-breaking ones) and after hyphens.
 * @param text as printed, without markup
 * @param widthMm width of its column, mm
 * @param points type size, pt
 */
export function linesOf(text: string, widthMm: number, points: number): number {
  const room = widthMm / (points * MM_PER_POINT);
  let lines = 1;
  let used = 0;
  let joined = false;
  // A browser breaks after a hyphen between letters too.
  for (const word of text.split(/ |(?<=[a-z]-)(?=[a-z])/)) {
    const width = widthEm(word);
    const space = used === 0 || joined ? 0 : 0.28;
    joined = word.endsWith('-');
    if (used > 0 && used + space + width > room) {
      lines += 1;
      used = 0;
    }
    // A word longer than the column is cut by the browser.
    lines += Math.max(0, Math.ceil(width / room) - 1);
    used += (used === 0 ? 0 : space) + Math.min(width, room);
  }
  return lines;
}

/** Height of some lines of type, mm. */
export function heightMm(lines: number, points: number): number {
  return lines * points * MM_PER_POINT * LINE_HEIGHT_EM;
}
