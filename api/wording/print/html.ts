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
 * Widths of characters of the typeface that most printers call Helvetica or Arial, em: regular and bold, by class (from
 * memory; the page counts in a browser are held against it).
 */
const REGULAR_EM: readonly (readonly [number, string])[] = [
  [0.191, "'"],
  [0.222, 'ijl'],
  [0.278, ' \u00a0\u202f!,./:;I[]\\ft'],
  [0.333, '()-r`'],
  [0.4, '°'],
  [0.5, 'Jcksvxyz'],
  [0.556, '#$0123456789?L_abdeghnopqu–'],
  [0.584, '+<=>~×−'],
  [0.611, 'FTZ'],
  [0.667, '&ABEKPSVXY'],
  [0.722, 'CDHNRUw'],
  [0.778, 'GOQ'],
  [0.834, 'Mm½¼¾'],
  [0.889, '%'],
  [0.944, 'W'],
];
const BOLD_EM: readonly (readonly [number, string])[] = [
  [0.238, "'"],
  [0.278, ' \u00a0\u202f,./I\\ijl'],
  [0.333, '!()-:;[]ft`'],
  [0.389, 'r'],
  [0.4, '°'],
  [0.5, 'z'],
  [0.556, '#$0123456789J_aceksvxy–'],
  [0.584, '+<=>~×−'],
  [0.611, '?FLTZbdghnopqu'],
  [0.667, 'EPSVXY'],
  [0.722, '&ABCDHKNRU'],
  [0.778, 'GOQw'],
  [0.834, 'M½¼¾'],
  [0.889, '%m'],
  [0.944, 'W'],
];
/** A character of no class, wide enough for most. */
const OTHER_EM = 0.9;

const byCharacter = (classes: typeof REGULAR_EM): ReadonlyMap<string, number> =>
  new Map(classes.flatMap(([width, characters]) => [...characters].map((one) => [one, width] as const)));
const REGULAR = byCharacter(REGULAR_EM);
const BOLD = byCharacter(BOLD_EM);

/** Width of a text in em. */
function widthEm(text: string, bold = false): number {
  const widths = bold ? BOLD : REGULAR;
  let sum = 0;
  for (const character of text) sum += widths.get(character) ?? OTHER_EM;
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

/** A stretch of words in one size of type. */
export interface Run {
  /** As printed, without markup. */
  text: string;
  points: number;
  /** Whether it is in bold type, which is wider. */
  bold: boolean;
}

/**
 * Height of words in several sizes that run on in one paragraph: each line is as high as the largest type on it.
 * @param runs in order, with a space between each two
 * @param widthMm width of the column, mm
 * @returns mm
 */
export function runsHeightMm(runs: readonly Run[], widthMm: number): number {
  let height = 0;
  let used = 0;
  let line = 0;
  for (const run of runs) {
    const em = run.points * MM_PER_POINT;
    for (const word of run.text.split(/ |(?<=[a-z]-)(?=[a-z])/)) {
      if (word === '') continue;
      const width = Math.min(widthMm, widthEm(word, run.bold) * em);
      const space = used === 0 ? 0 : 0.28 * em;
      if (used > 0 && used + space + width > widthMm) {
        height += heightMm(1, line);
        used = 0;
        line = 0;
      }
      used += (used === 0 ? 0 : space) + width;
      line = Math.max(line, run.points);
    }
  }
  return height + heightMm(1, line);
}

/** Height of some lines of type, mm. */
export function heightMm(lines: number, points: number): number {
  return lines * points * MM_PER_POINT * LINE_HEIGHT_EM;
}
