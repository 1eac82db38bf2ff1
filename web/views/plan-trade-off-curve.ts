/** The curve between fuel and hot or varied meals, its points in a table, and a button for a plan at each. */
import { useState } from 'preact/hooks';
import { asHeading } from '../../api/wording/names.ts';
import type { Plan, TradeOff, TradeOffPoint } from '../api-types.ts';
import { type ChartLine, LinesChart } from '../charts/lines.ts';
import { isChosen, planAtPoint } from '../chosen-point.ts';
import { DataTable } from '../components/data-table.ts';
import { HowButton } from '../components/derivation.ts';
import { WorkProgress } from '../components/long-work.ts';
import { fuelAmongSteps } from '../components/plan-how.ts';
import { html } from '../html.ts';
import { say, shownValue, type UnitSystem, unitOf } from '../measures.ts';
import { writeNumber, writeShort } from '../numbers.ts';
import { usePage } from '../page-state.ts';
import { outcomeInWords } from './plan.ts';
import { spreadInWords } from './plan-meal.ts';
import { thingInWords } from './plan-words.ts';

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

export function Curve({ plan, answer }: { plan: Plan; answer: TradeOff }) {
  const page = usePage();
  const { units } = page;
  const [asked, setAsked] = useState(false);
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
  const planAt = async (point: TradeOffPoint) => {
    if (page.planning !== null) return;
    setAsked(true);
    await planAtPoint(page, plan, point.tradeOff, (made) => `Planned at this point. ${outcomeInWords(made)}`);
    setAsked(false);
  };
  const chosen = points.findIndex((point) => isChosen(plan, point.tradeOff));
  const fuelCell = (point: TradeOffPoint) => {
    const burnt = point.fuel.filter(({ kg }) => kg > 0.0005);
    return burnt.length === 0
      ? 'none'
      : burnt.map(
          (fuel) =>
            html`<div>${how(point, thingInWords(fuel.fuelId), `${fuelAmongSteps(fuel.fuelId)}UsedKg`, fuelInWords(fuel, units))}</div>`,
        );
  };
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
      head=${['Hot meals', 'Plan', 'Repeats', 'Fuel heat', 'Fuel', 'Largest share used', `Water (${unitOf('litres', units)})`, 'Servings short', ...(hungry ? ['Food energy short'] : [])]}
      words=${[1, 4]}
      marked=${chosen >= 0 ? [chosen] : points.flatMap((point, index) => (point.asHotAsPlanned ? [index] : []))}
      rows=${points.map((point, index) => [
        html`${how(point, 'hot meals', 'hotMeals', `${point.hotMeals} of ${hotMealsWanted}`)}${point.asHotAsPlanned ? ', as hot as the plan' : ''}`,
        index === chosen
          ? 'this plan'
          : html`<button type="button" class="small" aria-disabled=${page.planning === null ? undefined : 'true'} onClick=${() => void planAt(point)}>Plan it<span class="unseen"> with ${mealsText(point.hotMeals)} and ${point.repeats === 1 ? '1 repeat' : `${point.repeats} repeats`}</span></button>`,
        how(point, 'repeats', 'repeats', `${point.onDays ? '' : 'at least '}${point.repeats}`),
        how(point, 'fuel heat', 'planMJ', spreadInWords(point.fuelMJ, 'MJ', units)),
        fuelCell(point),
        how(point, 'largest share used', 'largestShare', `${writeNumber(point.largestShare * 100, 0)}\u00a0%`),
        how(point, 'water for cooking', 'cookL', writeShort(shownValue(point.waterL, 'litres', units))),
        how(point, 'servings short', 'servingsShort', writeShort(point.servingsShort)),
        ...(hungry
          ? [how(point, 'food energy short', 'energyShortPercent', `${writeShort(point.energyShortPercent)}\u00a0%`)]
          : []),
      ])}
    />
    <ul class="notes">
      ${notes.map((text) => html`<li>${text}</li>`)}
      ${notWorkedOut.length === 0 ? null : html`<li>There was no time for: ${notWorkedOut.join('; ')}.</li>`}
    </ul>
    ${asked && page.planning !== null ? html`<${WorkProgress} doing="Planning" after="the plan is being checked" ...${page.planning} />` : null}
    <p class="hint">“Plan it” makes the plan anew at that point; the plan before it can be brought back. To say which meals need not be hot, <a href="#/set-up">change the set-up</a>.</p>
  </div>`;
}

/** A figure of a point as the button to its steps. */
function how(point: TradeOffPoint, what: string, quantity: string, shown: string) {
  const of = `${asHeading(what)} with ${mealsText(point.hotMeals)}`;
  return html`<${HowButton} of=${of} quantity=${[quantity]} shown=${shown} steps=${point.explanation ?? []} />`;
}

function mealsText(count: number): string {
  return count === 1 ? '1 hot meal' : `${count} hot meals`;
}

function fuelInWords({ fuelId, kg }: TradeOffPoint['fuel'][number], units: UnitSystem): string {
  return `${fuelId === 'electricity' ? say(kg, 'kWh', units) : say(kg, 'kg', units)} ${thingInWords(fuelId)}`;
}
