/** What hot and varied meals cost in fuel: a curve with its points, and the table behind it. */
import type { SolverProgress } from '../api-client.ts';
import type { Plan, TradeOff, TradeOffPoint } from '../api-types.ts';
import { type ChartLine, LinesChart } from '../charts/lines.ts';
import { DataTable } from '../components/data-table.ts';
import { LongWorkBlock, useLongQuestion } from '../components/long-work.ts';
import { html } from '../html.ts';
import { say, shownValue, type UnitSystem, unitOf } from '../measures.ts';
import { writeNumber, writeShort } from '../numbers.ts';
import { usePage } from '../page-state.ts';
import { spreadInWords } from './plan-meal.ts';
import { thingInWords } from './plan-words.ts';

const TIME_LIMIT_S = 20;

export function TradeOffSection({ plan }: { plan: Plan }) {
  const question = useLongQuestion<TradeOff>('trade-off', `/api/plans/${plan.id}/trade-off`, plan.id, TIME_LIMIT_S);
  const ask = () => question.ask({ timeLimitS: TIME_LIMIT_S }, ({ points }) => `${points.length} points on the curve.`);
  return html`<section aria-labelledby="trade-off-title">
    <h2 id="trade-off-title">Fuel against hot and varied meals</h2>
    <p class="hint">How much fuel each further hot meal takes, and what it takes that no dish comes again too soon.</p>
    <${LongWorkBlock} question=${question} doing="Working out the curve" label="Show the curve" said=${progressInWords} onAsk=${() => void ask()} />
    ${question.answer === null ? null : html`<${Curve} answer=${question.answer} />`}
  </section>`;
}

function progressInWords({ best, bound }: SolverProgress): string {
  return typeof best === 'number' && typeof bound === 'number'
    ? `${mealsText(best)}, of ${bound} at most.`
    : 'Laying out the plan.';
}

/** The least fuel for each number of hot meals, without regard to repeats and with as few as can be. */
function linesOf(points: readonly TradeOffPoint[], wanted: number): ChartLine[] {
  const byHot = new Map<number, TradeOffPoint[]>();
  for (const point of points) byHot.set(point.hotMeals, [...(byHot.get(point.hotMeals) ?? []), point]);
  const groups = [...byHot].sort(([a], [b]) => a - b);
  const least = groups.map(([hot, at]) => [hot, Math.min(...at.map((one) => one.fuelMJ.p50))] as const);
  const varied = groups.map(([hot, at]) => {
    const fewest = Math.min(...at.map((one) => one.repeats));
    return [hot, Math.min(...at.filter((one) => one.repeats === fewest).map((one) => one.fuelMJ.p50))] as const;
  });
  const same = varied.every(([, mj], index) => Math.abs(mj - (least[index]?.[1] ?? 0)) < 0.01);
  return same || wanted === 0
    ? [{ name: 'Least fuel', points: least }]
    : [
        { name: 'Fewest repeats', points: varied },
        { name: 'Least fuel', points: least },
      ];
}

function Curve({ answer }: { answer: TradeOff }) {
  const { units } = usePage();
  const { points, hotMealsWanted, notes, notWorkedOut } = answer;
  if (points.length === 0)
    return html`<div class="answer"><p>There is nothing to trade here. ${notWorkedOut.length === 0 ? '' : `There was no time for: ${notWorkedOut.join('; ')}.`}</p></div>`;
  const lines = linesOf(points, hotMealsWanted);
  const heat = (mj: number) => shownValue(mj, 'MJ', units);
  const top = heat(Math.max(...points.map((point) => point.fuelMJ.p50)));
  const hot = [...new Set(points.map((point) => point.hotMeals))].sort((a, b) => a - b);
  const every = Math.ceil(hot.length / 8);
  const first = points[0];
  const last = points[points.length - 1];
  const hungry = points.some((point) => point.energyShortPercent > 0.05);
  return html`<div class="answer">
    ${
      first === undefined || last === undefined || points.length === 1
        ? null
        : html`<p><strong>From ${say(first.fuelMJ.p50, 'MJ', units)} with ${mealsText(first.hotMeals)} to ${say(last.fuelMJ.p50, 'MJ', units)} with ${mealsText(last.hotMeals)}, of ${hotMealsWanted} that should be hot.</strong></p>`
    }
    ${
      hot.length < 2
        ? null
        : html`<${LinesChart}
            label="Chart of fuel against hot meals"
            summary="Fuel heat for each number of hot meals; the table below holds the numbers"
            lines=${lines.map((line) => ({ ...line, points: line.points.map(([x, mj]) => [x, heat(mj)] as const) }))}
            xName="hot meals"
            xTicks=${hot.filter((_, index) => index % every === 0 || index === hot.length - 1).map((at) => [at, String(at)] as const)}
            yTicks=${[0, top / 2, top].map((at) => [at, `${writeShort(at)}\u00a0${unitOf('MJ', units)}`] as const)}
          />`
    }
    <${DataTable}
      caption="Points to choose from, least fuel first; typical (8 times in 10 within)"
      head=${['Hot meals', 'Repeats', 'Fuel heat', 'Fuel', 'Largest share used', `Water (${unitOf('litres', units)})`, 'Servings short', ...(hungry ? ['Food energy short'] : [])]}
      words=${[3]}
      marked=${points.flatMap((point, index) => (point.asHotAsPlanned ? [index] : []))}
      rows=${points.map((point) => [
        `${point.hotMeals} of ${hotMealsWanted}${point.asHotAsPlanned ? ', as plans are made' : ''}`,
        `${point.onDays ? '' : 'at least '}${point.repeats}`,
        spreadInWords(point.fuelMJ, 'MJ', units),
        point.fuel
          .filter(({ kg }) => kg > 0.0005)
          .map((fuel) => fuelInWords(fuel, units))
          .join(', ') || 'none',
        `${writeNumber(point.largestShare * 100, 0)}\u00a0%`,
        writeShort(shownValue(point.waterL, 'litres', units)),
        writeShort(point.servingsShort),
        ...(hungry ? [`${writeShort(point.energyShortPercent)}\u00a0%`] : []),
      ])}
    />
    <ul class="notes">
      ${notes.map((text) => html`<li>${text}</li>`)}
      ${notWorkedOut.length === 0 ? null : html`<li>There was no time for: ${notWorkedOut.join('; ')}.</li>`}
    </ul>
    <p><a href="#/set-up">Say in the set-up which meals need not be hot</a>, then plan again.</p>
  </div>`;
}

function mealsText(count: number): string {
  return count === 1 ? '1 hot meal' : `${count} hot meals`;
}

function fuelInWords({ fuelId, kg }: TradeOffPoint['fuel'][number], units: UnitSystem): string {
  return `${fuelId === 'electricity' ? say(kg, 'kWh', units) : say(kg, 'kg', units)} ${thingInWords(fuelId)}`;
}
