/** A day on a line: one row per pot, soak and rest outlined, cooking hatched, hands-on black, serving as an upright line. */
import { html } from '../html.ts';
import { type DayRow, type DayServing, minuteOfDay } from '../views/plan-day-bars.ts';

const WIDTH = 900;
const LEFT = 150;
const RIGHT = 84;
const TOP = 52;
const ROW = 62;
const BAR = 22;
const LETTER = 9.2;
const TICK_MINUTES = 120;
const KIND_WORDS = { soak: 'soak', cook: 'cook', rest: 'rest' } as const;

export function DayTimeChart({
  date,
  rows,
  servings,
  summary,
}: {
  date: string;
  rows: readonly DayRow[];
  servings: readonly DayServing[];
  summary: string;
}) {
  const minute = (at: string) => minuteOfDay(date, at);
  const ends = [
    ...rows.flatMap(({ bars, hands }) => [
      ...bars.flatMap(({ from, to }) => [minute(from), minute(to)]),
      ...hands.flatMap(({ from, minutes }) => [minute(from), minute(from) + minutes]),
    ]),
    ...servings.map(({ at }) => minute(at)),
  ];
  const low = Math.floor(Math.min(...ends) / TICK_MINUTES) * TICK_MINUTES;
  const high = Math.min(1440, Math.ceil((Math.max(...ends) + 1) / TICK_MINUTES) * TICK_MINUTES);
  const x = (at: number) => LEFT + ((WIDTH - LEFT - RIGHT) * (Math.min(at, high) - low)) / Math.max(high - low, 1);
  const height = TOP + rows.length * ROW + 34;
  const ticks = Array.from(
    { length: Math.round((high - low) / TICK_MINUTES) + 1 },
    (_, index) => low + index * TICK_MINUTES,
  );
  const patternId = `hatch-${date}`;
  return html`<div class="chart day-time" role="group" tabindex="0" aria-label="The day on a line">
    <ul class="key" aria-hidden="true">
      <li><svg viewBox="0 0 18 18" class="key-patch"><rect class="bar-hands" x="1" y="1" width="16" height="16" /></svg>hands-on</li>
      <li><svg viewBox="0 0 18 18" class="key-patch"><rect class="bar-line" x="1" y="1" width="16" height="16" fill=${`url(#${patternId})`} /></svg>over the fire</li>
      <li><svg viewBox="0 0 18 18" class="key-patch"><rect class="bar-line bar-open" x="1" y="1" width="16" height="16" /></svg>soaks or rests</li>
    </ul>
    <svg viewBox=${`0 0 ${WIDTH} ${height}`} role="img" aria-label=${summary}>
      <defs>
        <pattern id=${patternId} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect class="bar-open" width="7" height="7" />
          <line class="bar-hatch" x1="0" y1="0" x2="0" y2="7" />
        </pattern>
      </defs>
      ${ticks.map(
        (at) => html`<g>
          <line class="grid" x1=${x(at)} x2=${x(at)} y1=${TOP - 4} y2=${height - 30} />
          <text x=${x(at)} y=${height - 10} text-anchor="middle">${clock(at)}</text>
        </g>`,
      )}
      ${servings.map(
        ({ at }) => html`<g>
          <line class="serve-line" x1=${x(minute(at))} x2=${x(minute(at))} y1=${TOP - 16} y2=${height - 30} />
          <text x=${x(minute(at))} y=${TOP - 24} text-anchor="middle">serve ${at.slice(11)}</text>
        </g>`,
      )}
      ${rows.map((row, index) => {
        const top = TOP + index * ROW;
        return html`<g>
          <text x="4" y=${top + 38}>${short(row.name, (LEFT - 12) / LETTER)}</text>
          ${namesOver(row, x, minute, top)}
          ${row.bars.map(({ kind, from, to }) => {
            const left = x(minute(from));
            const wide = Math.max(2, x(minute(to)) - left);
            return html`<g>
              <rect class=${kind === 'cook' ? 'bar-line' : 'bar-line bar-open'} x=${left} y=${top + 22} width=${wide} height=${BAR} fill=${kind === 'cook' ? `url(#${patternId})` : undefined} />
              ${wide < 46 ? null : html`<text x=${left + wide / 2} y=${top + 39} text-anchor="middle">${KIND_WORDS[kind]}</text>`}
            </g>`;
          })}
          ${row.hands.map(
            ({ from, minutes }) =>
              html`<rect class="bar-hands" x=${x(minute(from))} y=${top + 24 + BAR} width=${Math.max(3, x(minute(from) + minutes) - x(minute(from)))} height="8" />`,
          )}
          <text x=${WIDTH - 4} y=${top + 38} text-anchor="end">${Math.round(row.handsOnMinutes)} min</text>
        </g>`;
      })}
      <text x=${WIDTH - 4} y=${TOP - 24} text-anchor="end">hands-on</text>
    </svg>
  </div>`;
}

/** The name of each dish over its first bar, as much of it as there is room to the next. */
function namesOver(row: DayRow, x: (minute: number) => number, minute: (at: string) => number, top: number) {
  const firsts = row.bars
    .filter(({ of }, index) => row.bars[index - 1]?.of !== of)
    .sort((a, b) => a.from.localeCompare(b.from));
  return firsts.map(({ of, from }, index) => {
    const next = firsts[index + 1];
    const left = x(minute(from));
    const room = (next === undefined ? WIDTH - RIGHT + 60 : x(minute(next.from)) - 8) - left;
    // Near the right edge a name is moved back so that it ends with the chart.
    return html`<text x=${left} y=${top + 16}>${short(of, room / LETTER)}</text>`;
  });
}

function short(words: string, letters: number): string {
  if (words.length <= letters) return words;
  return letters < 4 ? '' : `${words.slice(0, Math.floor(letters) - 1).trimEnd()}…`;
}

function clock(minutes: number): string {
  return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:00`;
}
