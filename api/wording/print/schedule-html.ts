/** The printed schedule: one HTML document, an overview and one card a day (compact: four pages), without script or style. */
import type { Plan } from '../../planning/plan-types.ts';
import { addDays, dateOf } from '../times.ts';
import type { UnitSystem } from '../units.ts';
import { compactSheets } from './compact-sheets.ts';
import { cardDate, dayCards } from './day-card.ts';
import { escapeHtml } from './html.ts';
import { overviewSheets } from './overview-sheet.ts';
import { type SheetType, sheetMetrics } from './sheet-type.ts';

/**
 * The whole schedule as printable HTML; it needs `/print.css` and nothing else.
 * @param plan a plan with its schedule
 * @param options which units come first, and the type size
 * @returns an HTML document; every text of the user is escaped
 */
export function scheduleHtml(plan: Plan, options: { units: UnitSystem; type: SheetType }): string {
  const metrics = sheetMetrics(options.type);
  const start = dateOf(plan.request.startsAt);
  const dates = new Set(Array.from({ length: plan.request.days }, (_, day) => addDays(start, day)));
  for (const step of plan.schedule) dates.add(cardDate(step));
  const days = [...dates].sort();
  const sheets =
    options.type === 'compact'
      ? compactSheets(plan, days, options.units, metrics)
      : [
          ...overviewSheets(plan, options.units, metrics),
          ...days.flatMap((date, index) =>
            dayCards(plan, date, Math.min(index + 1, plan.request.days), options.units, metrics),
          ),
        ];
  const made = `Plan ${plan.id.slice(0, 8)}, made ${plan.createdAt.slice(0, 16).replace('T', ' ')}, program ${plan.versions.program}, tables ${plan.versions.tables}.`;
  const id = plan.id.slice(0, 8);
  const body = sheets
    .map((sheet, index) => {
      const numbered = sheet.replace(
        '{{page}}',
        `${index + 1} of ${sheets.length}${options.type === 'large' || sheet.includes('class="card overview"') ? '' : `. Plan ${escapeHtml(id)}`}`,
      );
      // The cards carry the plan's name in their head, the first sheet says the rest.
      return index === 0
        ? numbered.replace(/<\/section>$/, `<footer class="small">${escapeHtml(made)}</footer></section>`)
        : numbered;
    })
    .join('\n');
  return (
    '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n' +
    '<meta name="viewport" content="width=device-width, initial-scale=1">\n' +
    `<title>Schedule: ${escapeHtml(plan.resolved.household.name)}</title>\n` +
    '<link rel="stylesheet" href="/print.css">\n</head>\n' +
    `<body class="sheet ${options.type}">\n<p class="screen-only">Print this page on A4 or Letter paper, two copies, before you need it: laser ink does not run when wet. A matt sleeve keeps it dry.</p>\n<main>\n${body}\n</main>\n</body>\n</html>\n`
  );
}
