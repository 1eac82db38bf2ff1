/** Fuel and water of the plan against what there is: a chart and the same numbers as a table. */

import { asHeading, fuelName } from '../../api/wording/names.ts';
import type { FuelBalance, Plan } from '../api-types.ts';
import { FuelLeftChart } from '../charts/fuel-left.ts';
import { WATER_USES, WaterByDayChart } from '../charts/water-by-day.ts';
import { DataTable } from '../components/data-table.ts';
import { fuelAmongSteps, PlanHow } from '../components/plan-how.ts';
import { SpreadBlock } from '../components/spread.ts';
import { dayInWords, dayShort } from '../dates.ts';
import { html } from '../html.ts';
import { shownValue, unitOf } from '../measures.ts';
import { writeShort } from '../numbers.ts';
import { usePage } from '../page-state.ts';

export function BalanceSection({ plan }: { plan: Plan }) {
  const page = usePage();
  const { units } = page;
  const litre = (value: number) => writeShort(shownValue(value, 'litres', units));
  const unitL = unitOf('litres', units);
  const { byDay, onHandL } = plan.water;
  const last = byDay[byDay.length - 1];
  return html`<section aria-labelledby="balance-title">
    <h2 id="balance-title">Against what there is</h2>
    ${plan.fuel.map((balance) => html`<${FuelBlock} key=${balance.fuelId} plan=${plan} balance=${balance} />`)}
    <div class="balance">
      <h3>Water${last === undefined ? '' : `: ${litre(last.leftL)} ${unitL} left at the end`}</h3>
      <p class="hint">Drinking and hygiene come first. Water in ${unitL} a day, underlined figures open how they come about; the dashed line is an even share of the ${litre(onHandL)} ${unitL} on hand.</p>
      <div class="balance-pair">
        <${WaterByDayChart} days=${byDay} onHandL=${onHandL} units=${units} />
        <${DataTable}
          caption=${`Water by day (${unitL})`}
          head=${['Day', ...WATER_USES.map((use) => use.name), 'In all', 'Heated', 'Left', 'Re-plan below']}
          rows=${byDay.map((day, at) => {
            const how = (value: number, label: string, quantity: string) =>
              html`<${PlanHow} plan=${plan} of=${`Water, ${dayShort(day.date)}: ${label}`} quantity=${`waterDay${at + 1}${quantity}`} shown=${litre(value)} />`;
            return [
              dayShort(day.date),
              ...WATER_USES.map((use) => litre(use.of(day))),
              how(
                WATER_USES.reduce((sum, use) => sum + use.of(day), 0),
                'in all',
                'UsedL',
              ),
              litre(day.ofWhichHeatedL),
              how(day.leftL, 'left', 'LeftL'),
              how(day.replanBelow, 'plan anew below', 'ReplanL'),
            ];
          })}
        />
      </div>
    </div>
  </section>`;
}

function FuelBlock({ plan, balance }: { plan: Plan; balance: FuelBalance }) {
  const page = usePage();
  const { units } = page;
  const name = asHeading(fuelName(balance.fuelId));
  const kg = (value: number) => writeShort(shownValue(value, 'kg', units));
  const unit = unitOf('kg', units);
  const steps = fuelAmongSteps(balance.fuelId);
  const how = (label: string, quantity: string, shown?: string) =>
    html`<${PlanHow} plan=${plan} of=${`${name}: ${label}`} quantity=${steps + quantity} shown=${shown} />`;
  const below = balance.byDay.find((day) => Math.min(day.leftKg.p10, day.leftKg.p90) < balance.reserveKg - 1e-6);
  const title =
    below === undefined
      ? `${name}: ${kg(balance.usedKg.p50)} of ${kg(balance.onHandKg)} ${unit} used`
      : `${name} may touch the reserve on ${dayInWords(below.date)}`;
  if (balance.usedKg.p90 <= 1e-6) {
    return balance.onHandKg <= 0
      ? null
      : html`<div class="balance"><h3>${name}: none of ${kg(balance.onHandKg)} ${unit} used</h3></div>`;
  }
  return html`<div class="balance">
    <h3>${title}</h3>
    <p class="hint">
      ${unit} left at the end of each day. The solid line is the typical course; 8 of 10 weeks fall inside the band. The dashed line spends the
      budget of ${kg(balance.budgetKg)} ${unit} evenly down to the reserve of ${kg(balance.reserveKg)} ${unit}.
    </p>
    <p>
      Used in all: ${how('used in all', 'UsedKg', `${kg(balance.usedKg.p50)} ${unit}`)}; budget: ${how('budget', 'BudgetKg', `${kg(balance.budgetKg)} ${unit}`)}.
      ${' '}<span class="hint-inline">Each underlined figure opens how it comes about.</span>
    </p>
    <div class="balance-pair">
      <${FuelLeftChart} balance=${balance} name=${name} units=${units} />
      <${DataTable}
        caption=${`${name} by day (${unit})`}
        head=${['Day', 'Used', 'Left, low', 'Left, typical', 'Left, high', 'Re-plan below']}
        rows=${balance.byDay.map((day, at) => {
          const ofDay = (value: number, label: string, quantity: string) =>
            how(`${label}, ${dayShort(day.date)}`, `Day${at + 1}${quantity}`, kg(value));
          return [
            dayShort(day.date),
            ofDay(day.usedKg.p50, 'used', 'UsedKg'),
            kg(Math.min(day.leftKg.p10, day.leftKg.p90)),
            ofDay(day.leftKg.p50, 'left', 'LeftKg'),
            kg(Math.max(day.leftKg.p10, day.leftKg.p90)),
            ofDay(day.replanBelow, 'plan anew below', 'ReplanKg'),
          ];
        })}
      />
    </div>
    <${SpreadBlock} spread=${balance.spread ?? []} of=${`the ${name.toLowerCase()} of the whole plan`} />
  </div>`;
}
