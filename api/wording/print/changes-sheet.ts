/** The sheet of changes: one page to hang over the schedule on the wall. */
import type { Plan } from '../../planning/plan-types.ts';
import type { ChangeLines } from '../change-lines.ts';
import { textInSystem } from '../text-in-system.ts';
import { dayAndClock } from '../times.ts';
import type { UnitSystem } from '../units.ts';
import { escapeHtml, linesOf } from './html.ts';

/** Lines of 12 pt that one page holds under its head, on the shorter of both papers. */
const LINES_OF_PAGE = 44;
const TEXT_MM = 172;
/** A heading with the space above it; what is kept free at the foot for the line that says what is left out. */
const HEADING_LINES = 2;
const LEAST_LINES = 3;
/** Sizes of type, pt: the largest at which everything fits is taken. A wall is read by candle light. */
const SIZES = [18, 15, 12] as const;

/**
 * The sheet as printable HTML; it needs `/print.css` and nothing else. Where not every change fits on the page, the last
 * line says how many are left out and that the new schedule has them.
 * @param next the re-plan
 * @param lines its changes in words
 * @param units figures of this system first, the metric ones beside them
 */
export function changesHtml(next: Plan, lines: ChangeLines, units: UnitSystem = 'metric'): string {
  const name = next.resolved.household.name;
  const { body, points } = largestBody(lines, units);
  return (
    '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n' +
    '<meta name="viewport" content="width=device-width, initial-scale=1">\n' +
    `<title>Changes: ${escapeHtml(name)}</title>\n` +
    '<link rel="stylesheet" href="/print.css">\n</head>\n' +
    '<body class="sheet normal">\n<p class="screen-only">Print this page and hang it over the schedule. Strike out there what is changed here.</p>\n<main>\n' +
    `<section class="card changes changes-${points}"><header class="card-head"><h1>Changes from ${escapeHtml(dayAndClock(next.request.startsAt))}</h1>` +
    `<p class="page-of">Plan ${escapeHtml(next.id.slice(0, 8))}</p></header>\n<p><b>${escapeHtml(lines.summary)}</b></p>\n${body}\n</section>\n</main>\n</body>\n</html>\n`
  );
}

/** The lists of the sheet in the largest type at which nothing is left out, else in the smallest. */
function largestBody(lines: ChangeLines, units: UnitSystem): { body: string; points: number } {
  const all = SIZES.map((points) => ({ ...bodyAt(lines, units, points), points }));
  return all.find(({ left }) => left === 0) ?? (all.at(-1) as (typeof all)[number]);
}

function bodyAt(lines: ChangeLines, units: UnitSystem, points: number): { body: string; left: number } {
  let room = Math.floor((LINES_OF_PAGE * 12) / points);
  let leftOut = 0;
  const list = (title: string, texts: readonly string[]): string => {
    if (texts.length === 0) return '';
    // A heading with nothing under it helps nobody.
    if (room < HEADING_LINES + LEAST_LINES) {
      leftOut += texts.length;
      return '';
    }
    room -= HEADING_LINES;
    const shown: string[] = [];
    for (const text of texts.map((one) => textInSystem(one, units))) {
      const needed = linesOf(text, TEXT_MM, points);
      if (room - needed < LEAST_LINES) break;
      room -= needed;
      shown.push(`<li>${escapeHtml(text)}</li>`);
    }
    leftOut += texts.length - shown.length;
    return `<h2>${escapeHtml(title)}</h2><ul>${shown.join('')}</ul>`;
  };
  // What spoils comes first.
  const body = [
    list('Under way now', lines.underWay),
    list(
      'Changes',
      lines.changes.map((change) => change.text),
    ),
    list('Learned', lines.learned),
    list('Found', lines.found),
  ].join('\n');
  const more = leftOut > 0 ? `<p><b>${leftOut} more: see the new schedule.</b></p>` : '';
  return { body: `${body}${more}`, left: leftOut };
}
