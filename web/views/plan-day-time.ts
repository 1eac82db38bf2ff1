/** The time line of a day with the same spans as a table. */
import type { Plan } from '../api-types.ts';
import { DayTimeChart } from '../charts/day-time.ts';
import { DataTable } from '../components/data-table.ts';
import { clockOf, dayInWords, minutesInWords } from '../dates.ts';
import { html } from '../html.ts';
import { rowsOfDay } from './plan-day-bars.ts';

const KIND_WORDS = { soak: 'soaks', cook: 'over the fire', rest: 'rests or keeps hot' } as const;

export function DayTime({ plan, date }: { plan: Plan; date: string }) {
  const { rows, servings } = rowsOfDay(plan, date);
  if (rows.length === 0) return html`<p>Nothing is put on or soaked on this day.</p>`;
  const hands = rows.reduce((sum, row) => sum + row.handsOnMinutes, 0);
  const until = (at: string) => (at.startsWith(date) ? clockOf(at) : '24:00');
  const table = [
    ...rows.flatMap((row) => [
      ...row.bars.map(
        ({ kind, of, from, to }) => [from, [row.name, of, KIND_WORDS[kind], clockOf(from), until(to), '']] as const,
      ),
      ...row.hands.map(
        ({ from, minutes, what }) =>
          [from, [row.name, what, 'hands-on', clockOf(from), '', minutesInWords(minutes)]] as const,
      ),
    ]),
    ...servings.map(({ at, dishes }) => [at, ['Table', dishes, 'served', clockOf(at), '', '']] as const),
  ]
    .sort(([a], [b]) => a.localeCompare(b))
    .map(([, cells]) => cells);
  return html`<p>${dayInWords(date)}: ${minutesInWords(hands)} of hands-on work in all.</p>
    <${DayTimeChart} date=${date} rows=${rows} servings=${servings} summary=${`What each pot does on ${dayInWords(date)}; the table below holds the times`} />
    <details class="more">
      <summary>The same as a table</summary>
      <${DataTable} caption=${`What each pot does on ${dayInWords(date)}`} head=${['Where', 'What', 'How', 'From', 'To', 'Hands-on']} words=${[1, 2]} rows=${table} />
    </details>`;
}
