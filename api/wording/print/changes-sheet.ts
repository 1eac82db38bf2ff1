/** The sheet of changes: one page to hang over the schedule on the wall. */
import type { Plan } from '../../planning/plan-types.ts';
import type { ChangeLines } from '../change-lines.ts';
import { textInSystem } from '../text-in-system.ts';
import { dayAndClock } from '../times.ts';
import type { UnitSystem } from '../units.ts';
import { escapeHtml, linesOf } from './html.ts';

/** Lines of type that one page holds under its head, at 12 pt on the shorter of both papers. */
const LINES_OF_PAGE = 44;
const TEXT_MM = 172;
const POINTS = 12;

/**
 * The sheet as printable HTML; it needs `/print.css` and nothing else. Where not every change fits on the page, the last
 * line says how many are left out and that the new schedule has them.
 * @param next the re-plan
 * @param lines its changes in words
 * @param units figures of this system first, the metric ones beside them
 */
export function changesHtml(next: Plan, lines: ChangeLines, units: UnitSystem = 'metric'): string {
  const name = next.resolved.household.name;
  let room = LINES_OF_PAGE;
  const list = (title: string, texts: readonly string[]): string => {
    if (texts.length === 0) return '';
    room -= 2;
    const shown: string[] = [];
    for (const text of texts.map((one) => textInSystem(one, units))) {
      const needed = linesOf(text, TEXT_MM, POINTS);
      if (room - needed < 2) break;
      room -= needed;
      shown.push(`<li>${escapeHtml(text)}</li>`);
    }
    const left = texts.length - shown.length;
    const more = left > 0 ? `<li><b>${left} more: see the new schedule.</b></li>` : '';
    return `<h2>${escapeHtml(title)}</h2><ul>${shown.join('')}${more}</ul>`;
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
  return (
    '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n' +
    '<meta name="viewport" content="width=device-width, initial-scale=1">\n' +
    `<title>Changes: ${escapeHtml(name)}</title>\n` +
    '<link rel="stylesheet" href="/print.css">\n</head>\n' +
    '<body class="sheet normal">\n<p class="screen-only">Print this page and hang it over the schedule. Strike out there what is changed here.</p>\n<main>\n' +
    `<section class="card changes"><header class="card-head"><h1>Changes from ${escapeHtml(dayAndClock(next.request.startsAt))}</h1>` +
    `<p class="page-of">Plan ${escapeHtml(next.id.slice(0, 8))}</p></header>\n<p><b>${escapeHtml(lines.summary)}</b></p>\n${body}\n</section>\n</main>\n</body>\n</html>\n`
  );
}
