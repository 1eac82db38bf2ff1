/** Fuel left at the end of each day against an even budget, as lines with a band from low to high. */
import type { FuelBalance, Percentiles } from '../api-types.ts';
import { dayShort } from '../dates.ts';
import { html } from '../html.ts';
import { say, shownValue, type UnitSystem } from '../measures.ts';
import { writeShort } from '../numbers.ts';

const WIDTH = 640;
const HEIGHT = 270;
const LEFT = 64;
const RIGHT = 88;
const TOP = 18;
const BOTTOM = 40;

export function FuelLeftChart({ balance, name, units }: { balance: FuelBalance; name: string; units: UnitSystem }) {
  const days = balance.byDay;
  const top = Math.max(balance.onHandKg, 0.001);
  const x = (index: number) => LEFT + ((WIDTH - LEFT - RIGHT) * index) / Math.max(days.length, 1);
  const y = (kg: number) => TOP + (HEIGHT - TOP - BOTTOM) * (1 - Math.max(0, kg) / top);
  const rows = [{ low: top, middle: top, high: top }, ...days.map(({ leftKg }) => ordered(leftKg))];
  const line = (pick: 'low' | 'middle' | 'high') =>
    rows.map((row, index) => `${x(index).toFixed(1)},${y(row[pick]).toFixed(1)}`);
  const band = [...line('high'), ...line('low').reverse()].join(' ');
  const last = rows[rows.length - 1] ?? rows[0];
  const endY = y(last?.middle ?? 0);
  const reserveY = y(balance.reserveKg);
  // The two labels at the right end may not sit on each other.
  const reserveLabelY =
    Math.abs(reserveY - endY) < 20
      ? reserveY >= endY
        ? Math.min(endY + 21, HEIGHT - BOTTOM + 16)
        : endY - 21
      : reserveY;
  const every = days.length <= 8 ? 1 : Math.ceil(days.length / 7);
  const ticks = [0, 0.5, 1].map((share) => share * top);
  return html`<div class="chart" role="group" tabindex="0" aria-label=${`Chart of ${name} left`}>
    <svg viewBox=${`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label=${`${name} left at the end of each day, from ${say(top, 'kg', units)} to about ${say(last?.middle ?? 0, 'kg', units)}; the table beside holds the numbers`}>
      ${ticks.map(
        (tick) => html`<g>
          <line class="grid" x1=${LEFT} x2=${WIDTH - RIGHT} y1=${y(tick)} y2=${y(tick)} />
          <text x=${LEFT - 8} y=${y(tick) + 5} text-anchor="end">${writeShort(shownValue(tick, 'kg', units))}</text>
        </g>`,
      )}
      <polygon class="band-fill" points=${band} />
      <polyline class="band-edge" points=${line('high').join(' ')} />
      <polyline class="band-edge" points=${line('low').join(' ')} />
      <line class="budget" x1=${x(0)} y1=${y(top)} x2=${x(days.length)} y2=${reserveY} />
      <polyline class="left" points=${line('middle').join(' ')} />
      ${rows.map((row, index) => html`<circle class="left-dot" cx=${x(index)} cy=${y(row.middle)} r="4" />`)}
      ${days.map((day, index) =>
        index % every === 0
          ? html`<text x=${x(index + 1)} y=${HEIGHT - 14} text-anchor="middle">${dayShort(day.date).split('\u00a0').slice(0, 2).join(' ')}</text>`
          : null,
      )}
      <text x=${x(days.length) + 10} y=${endY + 5}>left</text>
      <text x=${x(days.length) + 10} y=${reserveLabelY + 5}>reserve</text>
    </svg>
  </div>`;
}

/** The three percentiles by size: of what is left, the 10th may be written for the careful side. */
function ordered({ p10, p50, p90 }: Percentiles) {
  return { low: Math.min(p10, p90), middle: p50, high: Math.max(p10, p90) };
}
