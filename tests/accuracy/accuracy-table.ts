/** The accuracy section of the README, from results. */
import { FIRST_SCORES } from './accuracy-ceilings.ts';
import { type AccuracyResults, ALL_TASKS, type ScoredTask } from './accuracy-results.ts';
import { POINTS_NOT_SCORED } from './points-not-scored.ts';
import { type Summary, summarise } from './score.ts';
import { WHY_OUTSIDE } from './why-outside.ts';

export const BEGIN = '<!-- accuracy:begin -->';
export const END = '<!-- accuracy:end -->';

const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;
const digits = (x: number): string => (x === 0 ? '0' : x >= 100 ? x.toFixed(0) : x.toPrecision(3));

function summaryRow(name: string, s: Summary): string {
  const within = `${s.within25} (${percent(s.within25 / s.n)})`;
  const inside = `${s.inside} (${percent(s.inside / s.banded)})`;
  return `| ${name} | ${s.n} | ${(100 * s.medianError).toFixed(1)} % | ${within} | ${inside} | ${s.medianWidth.toFixed(2)} |`;
}

function taskRow({ task, scored }: ScoredTask): string {
  const { p10, p50, p90 } = scored.prediction;
  const band = p10 === undefined || p90 === undefined ? '' : `${digits(p10)} to ${digits(p90)}`;
  const error = `${scored.error >= 0 ? '+' : '-'}${percent(Math.abs(scored.error))}`;
  const outside = scored.inside === false ? 'outside' : '';
  return `| ${task.id} | ${task.conditions} | ${digits(task.measured.value)} ${task.measured.unit} | ${digits(p50)} | ${band} | ${error} | ${outside} |`;
}

const TASK_HEAD = ['| task | conditions | measured | P50 | P10 to P90 | error | |', '|---|---|---|---|---|---|---|'];

function classRows(rows: readonly ScoredTask[]): string[] {
  const classes = [...new Set(rows.map((row) => row.task.class))];
  return classes.map((name) =>
    summaryRow(
      name === 'other' ? 'open over lidded time' : name,
      summarise(rows.filter((row) => row.task.class === name).map((row) => row.scored)),
    ),
  );
}

function outsideRows(rows: readonly ScoredTask[]): string[] {
  return rows
    .filter((row) => row.scored.inside === false)
    .map((row) => `- ${row.task.id}: ${WHY_OUTSIDE[row.task.id] ?? 'no reason is known yet'}.`);
}

/**
 * The whole section between its markers, markers included.
 * @param results of `accuracyResults`
 * @param date of the run, as printed
 */
export function accuracySection(results: AccuracyResults, date: string): string {
  const notScored = [
    ...POINTS_NOT_SCORED.map((point) => `- ${point.id}: ${point.what} (${point.source}). ${point.reason}.`),
    ...ALL_TASKS.filter((task) => task.notScored !== undefined).map(
      (task) => `- ${task.id}: ${task.conditions} (${task.source}). ${task.notScored}.`,
    ),
  ];
  return [
    BEGIN,
    `Made by \`npm run accuracy\` on ${date}; \`npm test\` fails when it is stale or a figure passes its ceiling.`,
    '',
    'Published points by model: error of the typical value against the middle of what was printed.',
    '',
    '| model | points | mean error | largest error | inside P10 to P90 |',
    '|---|---|---|---|---|',
    ...results.models.map((m) => {
      const inside = m.banded === 0 ? '' : `${m.inside} of ${m.banded}`;
      const size = (x: number): string => (m.unit === 'K' ? `${x.toFixed(2)} K` : `${x.toFixed(1)} %`);
      return `| ${m.model} | ${m.n} | ${size(m.meanError)} | ${size(m.largestError)} (${m.largestAt}) | ${inside} |`;
    }),
    '',
    'Measured whole tasks, end to end over the HTTP API, each asked as it was reported:',
    '',
    '| tasks | n | median error | within 25 % | inside P10 to P90 | median P90/P10 |',
    '|---|---|---|---|---|---|',
    ...classRows(results.tasks),
    summaryRow('**all**', results.summary),
    ...results.lots.flatMap(({ name, summary }) => [
      summaryRow(`looked up ${name}, first score`, FIRST_SCORES[name] as Summary),
      summaryRow(`looked up ${name}, now`, summary),
    ]),
    '',
    'The tasks looked up later are on no list that the tables were made with. Each lot was scored as the program stood; what',
    'the first showed to be wrong in the physics was then mended, the second led to the powers of plates and burners and how',
    'much they spread, the third to nothing, the fourth to how little vapour passes a lid below the boil: only first scores',
    'are blind.',
    '',
    '<details><summary>Each task</summary>',
    '',
    ...TASK_HEAD,
    ...results.tasks.map(taskRow),
    '',
    ...results.lots.flatMap(({ name, rows }) => [`Looked up ${name}:`, '', ...TASK_HEAD, ...rows.map(taskRow), '']),
    '</details>',
    '',
    '<details><summary>Why some stay outside their band</summary>',
    '',
    ...outsideRows(results.tasks),
    ...results.lots.flatMap((lot) => outsideRows(lot.rows)),
    '',
    '</details>',
    '',
    '<details><summary>Known and not scored</summary>',
    '',
    ...notScored,
    '',
    '</details>',
    END,
  ].join('\n');
}

/** A README with its accuracy section replaced. */
export function withAccuracySection(readme: string, section: string): string {
  const from = readme.indexOf(BEGIN);
  const to = readme.indexOf(END);
  if (from < 0 || to < from) throw new Error(`the README needs the lines ${BEGIN} and ${END}`);
  return readme.slice(0, from) + section + readme.slice(to + END.length);
}

/** The date that a README's section was made on. */
export function dateOfSection(readme: string): string {
  return /Made by `npm run accuracy` on (\d{4}-\d\d-\d\d);/.exec(readme)?.[1] ?? '';
}
