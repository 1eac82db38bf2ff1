/** Several lines over one axis, each named at its end; touching names are moved apart. */
import { html } from '../html.ts';

export interface ChartLine {
  name: string;
  points: readonly (readonly [x: number, y: number])[];
}

export interface LinesChartProps {
  /** Said for those who cannot see it, with where the numbers stand. */
  summary: string;
  label: string;
  lines: readonly ChartLine[];
  /** What runs along the base. */
  xName: string;
  /** Marks on the axes with their words. */
  xTicks: readonly (readonly [at: number, words: string])[];
  yTicks: readonly (readonly [at: number, words: string])[];
  /** Level that may not be passed. */
  level?: { at: number; words: string } | undefined;
  /** An upright line with its words at the top. */
  upright?: { at: number; words: string } | undefined;
}

const WIDE = { width: 640, left: 74, right: 172 };
/** On a phone, where as many letters take more of the width. */
const NARROW = { width: 470, left: 82, right: 168 };
const NARROW_BELOW_PX = 640;
const HEIGHT = 300;
const TOP = 30;
const BOTTOM = 58;
const LABEL_GAP = 19;

export function LinesChart({ summary, label, lines, xName, xTicks, yTicks, level, upright }: LinesChartProps) {
  const narrow = window.innerWidth < NARROW_BELOW_PX;
  const { width, left, right } = narrow ? NARROW : WIDE;
  const xs = [...lines.flatMap(({ points }) => points.map(([x]) => x)), ...xTicks.map(([at]) => at)];
  const ys = [...lines.flatMap(({ points }) => points.map(([, y]) => y)), ...yTicks.map(([at]) => at)];
  const [xLow, xHigh] = [Math.min(...xs), Math.max(...xs)];
  const [yLow, yHigh] = [Math.min(...ys), Math.max(...ys)];
  const x = (value: number) => left + ((width - left - right) * (value - xLow)) / Math.max(xHigh - xLow, 1e-9);
  const y = (value: number) => TOP + (HEIGHT - TOP - BOTTOM) * (1 - (value - yLow) / Math.max(yHigh - yLow, 1e-9));
  const ends = apart(lines.map(({ name, points }) => ({ name, y: y(points[points.length - 1]?.[1] ?? 0) })));
  return html`<div class=${narrow ? 'chart chart-alone chart-narrow' : 'chart chart-alone'} role="group" tabindex="0" aria-label=${label}>
    <svg viewBox=${`0 0 ${width} ${HEIGHT}`} role="img" aria-label=${summary}>
      ${yTicks.map(
        ([at, words]) => html`<g>
          <line class="grid" x1=${left} x2=${width - right} y1=${y(at)} y2=${y(at)} />
          <text x=${left - 8} y=${y(at) + 5} text-anchor="end">${words}</text>
        </g>`,
      )}
      ${xTicks.map(([at, words]) => html`<text x=${x(at)} y=${HEIGHT - BOTTOM + 22} text-anchor="middle">${words}</text>`)}
      <text x=${(left + width - right) / 2} y=${HEIGHT - 8} text-anchor="middle">${xName}</text>
      ${level === undefined ? null : html`<line class="budget" x1=${left} x2=${width - right} y1=${y(level.at)} y2=${y(level.at)} />`}
      ${
        upright === undefined
          ? null
          : html`<line class="budget" x1=${x(upright.at)} x2=${x(upright.at)} y1=${TOP - 8} y2=${HEIGHT - BOTTOM} />
              <text x=${x(upright.at)} y=${TOP - 13} text-anchor=${x(upright.at) > width - right - 120 ? 'end' : 'middle'}>${upright.words}</text>`
      }
      ${lines.map(
        ({ points }, index) => html`<g class=${`line-${index % 4}`}>
          <polyline class="line" points=${points.map(([a, b]) => `${x(a).toFixed(1)},${y(b).toFixed(1)}`).join(' ')} />
          ${points.map(([a, b]) => html`<circle class="line-dot" cx=${x(a)} cy=${y(b)} r="4" />`)}
        </g>`,
      )}
      ${ends.map(({ name, y: at }) => html`<text x=${width - right + 10} y=${at + 5}>${name}</text>`)}
    </svg>
  </div>`;
}

/** Moves names apart that would sit on each other, keeping their order. */
function apart(labels: { name: string; y: number }[]): { name: string; y: number }[] {
  const sorted = [...labels].sort((a, b) => a.y - b.y);
  for (let at = 1; at < sorted.length; at += 1) {
    const before = sorted[at - 1];
    const here = sorted[at];
    if (before !== undefined && here !== undefined) here.y = Math.max(here.y, before.y + LABEL_GAP);
  }
  const over = (sorted[sorted.length - 1]?.y ?? 0) - (HEIGHT - BOTTOM);
  return over > 0 ? sorted.map((one) => ({ ...one, y: one.y - over })) : sorted;
}
