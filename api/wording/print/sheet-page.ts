/** The page around the sections of a printed sheet. */
import { escapeHtml } from './html.ts';

/**
 * A whole HTML page that prints on A4 and Letter with `/print.css`.
 * @param title plain text
 * @param sections HTML, each a `section.card`
 * @param hint plain text that is shown on the screen only
 */
export function sheetHtml(title: string, sections: readonly string[], hint: string): string {
  return (
    '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n' +
    '<meta name="viewport" content="width=device-width, initial-scale=1">\n' +
    `<title>${escapeHtml(title)}</title>\n<link rel="stylesheet" href="/print.css">\n</head>\n` +
    `<body class="sheet normal">\n<p class="screen-only">${escapeHtml(hint)}</p>\n<main>\n${sections.join('\n')}\n</main>\n</body>\n</html>\n`
  );
}
