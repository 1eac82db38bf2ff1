/** Which causes bring how much of a spread, largest first: a sentence, and the table behind it. */
import { causeWords, testThatNarrows } from '../../api/wording/cause-names.ts';
import { textInSystem } from '../../api/wording/text-in-system.ts';
import type { SpreadShare } from '../api-types.ts';
import { html } from '../html.ts';
import type { UnitSystem } from '../measures.ts';
import { writeNumber } from '../numbers.ts';
import { usePage } from '../page-state.ts';
import { DataTable } from './data-table.ts';

/** `Most of the spread comes from how well the stove heats the pot (57 %) and wind at the stove (14 %).` */
export function spreadSentence(spread: readonly SpreadShare[], units: UnitSystem): string {
  const [first, second] = largestFirst(spread);
  if (first === undefined) return '';
  const part = (row: SpreadShare) => `${lower(textInSystem(causeWords(row.cause), units))} (${percent(row.share)})`;
  const test = testThatNarrows(first.cause);
  const next = second !== undefined && second.share > 0.05 ? `, then ${part(second)}` : '';
  return `The spread comes first from ${part(first)}${next}.${test === null ? '' : ` What narrows it: ${test}.`}`;
}

export function SpreadBlock({ spread, of }: { spread: readonly SpreadShare[]; of: string }) {
  const { units } = usePage();
  if (spread.length === 0) return null;
  return html`<div class="spread">
    <p>${spreadSentence(spread, units)}</p>
    <details class="more">
      <summary>Causes of the spread<span class="unseen"> of ${of}</span></summary>
      <${DataTable}
        caption=${`Causes of the spread of ${of}, largest first`}
        head=${['Cause', 'Share', 'Own test that narrows it']}
        words=${[2]}
        rows=${largestFirst(spread).map((row) => [textInSystem(causeWords(row.cause), units), percent(row.share), testThatNarrows(row.cause) ?? '–'])}
      />
    </details>
  </div>`;
}

function largestFirst(spread: readonly SpreadShare[]): SpreadShare[] {
  return [...spread].sort((a, b) => b.share - a.share);
}

/** Below one in a hundred no digit is worth reading. */
function percent(share: number): string {
  return share < 0.01 ? `below 1\u00a0%` : `${writeNumber(share * 100, 0)}\u00a0%`;
}

function lower(words: string): string {
  return words.charAt(0).toLowerCase() + words.slice(1);
}
