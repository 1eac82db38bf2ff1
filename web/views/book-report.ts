/** What the outage came to, and what to do before the next one. */
import { useEffect, useState } from 'preact/hooks';
import { fuelName, thingName } from '../../api/wording/names.ts';
import type { FuelId, OutageReport, Plan } from '../api-types.ts';
import { MEAL_STATES, mealWords, plainText } from '../booking-words.ts';
import { DataTable } from '../components/data-table.ts';
import { clockOn, dayInWords } from '../dates.ts';
import { html } from '../html.ts';
import { say } from '../measures.ts';
import { wordsOf } from '../names.ts';
import { writeNumber, writeShort } from '../numbers.ts';
import { usePage } from '../page-state.ts';
import { usePlaceNow } from './book.ts';

export function ReportView({ plan }: { plan: Plan }) {
  const page = usePage();
  const now = usePlaceNow(plan);
  const { units } = page;
  const [report, setReport] = useState<OutageReport | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const address = `/api/plans/${plan.id}/report`;
  const load = () => {
    setFault(null);
    page.api.get<OutageReport>(address).then(
      ({ body }) => setReport(body),
      (error: Error) => setFault(error.message),
    );
  };
  useEffect(load, []);
  if (report === null)
    return html`<h1>The report</h1>
      ${fault === null ? html`<p>Loading…</p>` : html`<p class="notice" role="alert">${fault} <button type="button" class="small" onClick=${load}>Try again</button></p>`}`;
  const { meals, servings, fuel, waterL, boiled, thrownAway, broke, learned, packAgain, refill, advice } = report;
  const list = (
    title: string,
    id: string,
    texts: readonly string[],
    none: string,
  ) => html`<section aria-labelledby=${id}>
    <h2 id=${id}>${title}</h2>
    ${texts.length === 0 ? html`<p>${none}</p>` : html`<ul>${texts.map((text) => html`<li>${plainText(plan, text, now, units)}</li>`)}</ul>`}
  </section>`;
  const amount = (value: number, unit: string) => say(value, unit === 'kWh' ? 'kWh' : 'kg', units);
  return html`<h1>The report</h1>
    <p>From ${dayInWords(report.from)} to ${dayInWords(report.to)}, over ${report.planIds.length === 1 ? 'one plan' : `${report.planIds.length} plans`}. What was not booked counts as done as planned.</p>
    <div class="print-row">
      <a class="button" href=${`${address}?format=csv`} download>For a spreadsheet (CSV)</a>
      <a class="button" href=${`${address}?format=json`} download=${`report-${plan.id.slice(0, 8)}.json`}>For programs (JSON)</a>
    </div>
    <section aria-labelledby="eaten-title">
      <h2 id="eaten-title">Eaten</h2>
      <p>${writeNumber(servings.eaten, 1)} servings were eaten${servings.skipped > 0 ? `, ${writeNumber(servings.skipped, 1)} were skipped` : ''}.</p>
      ${
        meals.length === 0
          ? null
          : html`<${DataTable} caption="Meals" head=${['Meal', 'Planned', 'What became of it']} words=${[1, 2]} rows=${meals.map(
              (meal) => [
                mealWords(plan, meal.meal),
                meal.planned.join(' and ') || 'nothing',
                [MEAL_STATES[meal.state], ...meal.instead, meal.note ?? ''].filter((text) => text !== '').join('; '),
              ],
            )} />`
      }
    </section>
    <section aria-labelledby="burnt-title">
      <h2 id="burnt-title">Burnt and used</h2>
      <${DataTable} caption="Fuel and water" head=${['What', 'Expected', 'Used', 'Left']} rows=${[
        ...fuel
          .filter(({ predicted, used }) => predicted.p90 > 0 || used !== null)
          .map((row) => [
            wordsOf(fuelName(row.fuelId as FuelId)),
            `${amount(row.predicted.p50, row.unit)} (${amount(row.predicted.p10, row.unit)} to ${amount(row.predicted.p90, row.unit)})`,
            row.used === null ? 'not weighed' : amount(row.used, row.unit),
            amount(row.left, row.unit),
          ]),
        ['Water', '', say(waterL.planned, 'litres', units), say(waterL.left, 'litres', units)],
      ]} />
      <p>
        ${boiled.fires === 1 ? 'One fire was' : `${boiled.fires} fires were`} lit, ${boiled.dishes === 1 ? 'one dish' : `${boiled.dishes} dishes`} boiled on ${boiled.fires === 1 ? 'it' : 'them'}${
          boiled.waterL < 0.05 ? '' : `, and ${say(boiled.waterL, 'litres', units)} of water heated or made safe`
        }.
      </p>
    </section>
    ${list(
      'Thrown away',
      'away-title',
      thrownAway.map(
        ({ what, at, quantity }) =>
          `${what}, ${writeShort(quantity)} ${quantity === 1 ? 'set' : 'sets'}, ${clockOn(at, now)}`,
      ),
      'Nothing that was booked.',
    )}
    ${
      broke.length === 0
        ? null
        : list(
            'Broke',
            'broke-title',
            broke.map(({ id, at }) => `${wordsOf(thingName(plan.resolved.household, id))}, ${clockOn(at, now)}`),
            '',
          )
    }
    ${list('What the tables had wrong', 'learned-title', learned, 'Nothing was weighed that says so.')}
    ${list(
      'Pack again',
      'pack-title',
      packAgain.map(({ kitName, sets }) => `${kitName}: ${writeShort(sets)} ${sets === 1 ? 'set' : 'sets'}`),
      'Nothing was cooked.',
    )}
    ${list(
      'Store or buy next',
      'buy-title',
      [
        ...refill.map(
          (row) =>
            `${wordsOf(fuelName(row.fuelId as FuelId))}: ${amount(row.amount, row.unit)}, which ${row.weighed ? 'was burnt by the weighings' : 'was burnt if all went as predicted'}`,
        ),
        ...(waterL.planned > 0.5 ? [`Water: ${say(waterL.planned, 'litres', units)}, which was used`] : []),
        ...advice,
      ],
      'Nothing was used.',
    )}
    <p><a class="button" href="#/book">Book what happened</a></p>`;
}
