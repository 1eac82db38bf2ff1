/** Water of each day by use, stacked, with the share of the stock that each day may take. */
import type { WaterDay } from '../api-types.ts';
import { dayShort } from '../dates.ts';
import { html } from '../html.ts';
import { shownValue, type UnitSystem } from '../measures.ts';
import { writeShort } from '../numbers.ts';

const WIDTH = 640;
const HEIGHT = 280;
const LEFT = 56;
const RIGHT = 16;
const TOP = 26;
const BOTTOM = 38;

/** The four uses from the base up: the one that varies most stands on the axis. */
export const WATER_USES = [
  { id: 'cook', name: 'Cooking', of: (day: WaterDay) => day.cookL },
  { id: 'soak', name: 'Soaking', of: (day: WaterDay) => day.soakL },
  { id: 'drink', name: 'Drinking, animals', of: (day: WaterDay) => day.drinkL + (day.animalsL ?? 0) },
  { id: 'wash', name: 'Hygiene, washing-up', of: (day: WaterDay) => day.hygieneL + day.washL },
] as const;

export function WaterByDayChart({
  days,
  onHandL,
  units,
}: {
  days: readonly WaterDay[];
  onHandL: number;
  units: UnitSystem;
}) {
  const allowance = onHandL / Math.max(days.length, 1);
  const totals = days.map((day) => WATER_USES.reduce((sum, use) => sum + use.of(day), 0));
  const top = Math.max(...totals, allowance, 0.1) * 1.08;
  const step = (WIDTH - LEFT - RIGHT) / Math.max(days.length, 1);
  const wide = Math.min(46, step * 0.62);
  const scale = (HEIGHT - TOP - BOTTOM) / top;
  const base = HEIGHT - BOTTOM;
  const every = days.length <= 8 ? 1 : Math.ceil(days.length / 7);
  return html`<div class="chart" role="group" tabindex="0" aria-label="Chart of water by day">
    <ul class="key" aria-hidden="true">
      ${WATER_USES.map((use) => html`<li><svg viewBox="0 0 18 18" class="key-patch"><rect class=${`use-${use.id}`} x="1" y="1" width="16" height="16" /></svg>${use.name}</li>`)}
    </ul>
    <svg viewBox=${`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label="Water of each day by use; the table beside holds the numbers">
      <line class="grid" x1=${LEFT} x2=${WIDTH - RIGHT} y1=${base} y2=${base} />
      <text x=${LEFT - 8} y=${base + 5} text-anchor="end">0</text>
      <text x=${LEFT - 8} y=${base - allowance * scale + 5} text-anchor="end">${writeShort(shownValue(allowance, 'litres', units))}</text>
      ${days.map((day, index) => {
        const left = LEFT + step * index + (step - wide) / 2;
        let under = base;
        const bars = WATER_USES.map((use) => {
          const tall = use.of(day) * scale;
          under -= tall;
          // Two units of daylight between touching areas, so that they part without colour.
          return tall < 2.5
            ? null
            : html`<rect class=${`use-${use.id}`} x=${left} y=${under + 1} width=${wide} height=${tall - 2} />`;
        });
        return html`<g>
          ${bars}
          <text x=${left + wide / 2} y=${under - 6} text-anchor="middle">${writeShort(shownValue(totals[index] ?? 0, 'litres', units))}</text>
          ${index % every === 0 ? html`<text x=${left + wide / 2} y=${HEIGHT - 12} text-anchor="middle">${dayShort(day.date).split('\u00a0').slice(0, 2).join(' ')}</text>` : null}
        </g>`;
      })}
      <line class="budget" x1=${LEFT} x2=${WIDTH - RIGHT} y1=${base - allowance * scale} y2=${base - allowance * scale} />
    </svg>
  </div>`;
}
