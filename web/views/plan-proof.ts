/** Why the plan can be believed: proof in words, limits, refused ways, assumptions. */

import { asHeading, inSentence, thingName } from '../../api/wording/names.ts';
import { textInSystem } from '../../api/wording/text-in-system.ts';
import type { Plan } from '../api-types.ts';
import { DataTable } from '../components/data-table.ts';
import { type OwnFigure, OwnFigures } from '../components/own-figures.ts';
import { PlanHow, stepsOfPlan } from '../components/plan-how.ts';
import { SpreadBlock } from '../components/spread.ts';
import { dayShort } from '../dates.ts';
import { html } from '../html.ts';
import { say } from '../measures.ts';
import { wordsOf } from '../names.ts';
import { writeShort } from '../numbers.ts';
import { usePage } from '../page-state.ts';

const AIM_NAMES: Record<string, string> = {
  'safe-water': 'Water that cannot be made safe',
  'night-feeds': 'Nights without feeds',
  'feed-everyone': 'Servings missing',
  energy: 'Food energy missing',
  'hot-meals': 'Hot meals missing',
  'use-by': 'Sets that pass their date uneaten',
  'scarcest-largest-share': 'Largest share used of fuel or water',
  'scarcest-sum-of-shares': 'Sum of shares used',
  variety: 'Dishes repeated too soon',
  tending: 'Work at the fire',
  'shortage-late': 'Shortage as late as possible',
  'chosen-repeats': 'Repeats beyond those chosen',
  'chosen-energy': 'Food energy given up for hot meals',
  'fuel-heat': 'Fuel heat, hot water included',
  'cold-meals': 'Meals cold by choice',
};

const PROOF_WORDS: Record<Plan['proof']['status'], string> = {
  optimal: 'Proven: no plan from these stores does better, within the tolerances below.',
  'within-gap': 'Proven to within the gap below: a better plan could only be better by that much.',
  'time-limit': 'The time ran out: this plan is good and holds every limit, but it is not proven to be the best.',
};

export function ProofLine({ plan }: { plan: Plan }) {
  const { units } = usePage();
  const { planMJ, usualMJ, carefulCookMJ, floorMJ } = plan.comparison;
  const { status, note } = plan.proof;
  const how = (label: string, quantity: string) =>
    html` <${PlanHow} plan=${plan} of=${`Whole plan: ${label}`} quantity=${quantity} />`;
  const words =
    status === 'optimal' && note !== null ? `Proven: ${inSentence(note)}` : `${PROOF_WORDS[status]} ${note ?? ''}`;
  return html`<p class="proof">${words}</p>
    <p>
      Cooking takes ${say(planMJ, 'MJ', units)} of fuel heat${how('heat of the fuel', 'planMJ')}; the usual way takes ${say(usualMJ, 'MJ', units)}${how('the usual way', 'planUsualMJ')}, a careful cook ${say(carefulCookMJ, 'MJ', units)}${how('a careful cook', 'planCarefulMJ')}, and physics allows no less than ${say(floorMJ, 'MJ', units)}${how('the floor', 'planFloorMJ')}.
    </p>`;
}

/** Figures of the household's own tests that the plan rests on. */
function ownFiguresOf(plan: Plan): OwnFigure[] {
  const { household, kits, learned = [] } = plan.resolved;
  return learned.map(({ of, quantity, figure }, index) => {
    const [kitId, , packedOn, foodId] = of.split('/');
    const lot = `${wordsOf(foodId ?? '')} of ${kits.find((kit) => kit.id === kitId)?.name ?? kitId}, packed ${packedOn}`;
    return {
      of: foodId === undefined ? asHeading(thingName(household, of)) : lot,
      quantity,
      figure,
      steps: (page) => stepsOfPlan(page, plan),
      step: `own${index + 1}OwnFigure`,
    };
  });
}

/** In a line, whether tables or own tests are behind the numbers. */
export function OwnFiguresLine({ plan }: { plan: Plan }) {
  const figures = ownFiguresOf(plan);
  if (figures.length === 0)
    return html`Stoves, boxes and food are taken from tables; <a href="#/set-up">own tests on a calm day</a> make the plan yours.`;
  return html`The plan uses ${figures.length} ${figures.length === 1 ? 'figure' : 'figures'} of your own: ${figures.map(({ figure }) => figure.text).join(' ')}`;
}

export function DetailsSection({ plan }: { plan: Plan }) {
  const { units } = usePage();
  return html`<section aria-labelledby="details-title">
    <h2 id="details-title">Behind the plan</h2>
    <details class="more">
      <summary>Proof, aim by aim</summary>
      <${DataTable}
        caption="Aims in their order"
        head=${['Aim', 'Reached', 'Nothing below', 'Gap', 'Tolerance', 'Unit']}
        words=${[5]}
        rows=${plan.proof.aims.map((aim) => [AIM_NAMES[aim.aim] ?? wordsOf(aim.aim), writeShort(aim.value), writeShort(aim.bound), writeShort(Math.max(0, aim.value - aim.bound)), writeShort(aim.tolerance), aim.unit ?? ''])}
      />
      <p class="hint">Solver ${plan.versions.solver}, tables ${plan.versions.tables}, program ${plan.versions.program}.</p>
    </details>
    ${
      plan.energyByDay.length === 0
        ? null
        : html`<details class="more">
            <summary>Food energy and protein by day</summary>
            <${DataTable}
              caption="Energy and protein against need"
              head=${['Day', 'Energy (kcal)', 'Need (kcal)', 'Protein (g)', 'Need (g)']}
              rows=${plan.energyByDay.map((row, at) => {
                const how = (value: number, label: string, quantity: string) =>
                  html`<${PlanHow} plan=${plan} of=${`${dayShort(row.date)}: ${label}`} quantity=${`day${at + 1}${quantity}`} shown=${String(Math.round(value))} />`;
                return [
                  dayShort(row.date),
                  how(row.kcal, 'food energy', 'EnergyKcal'),
                  how(row.needKcal, 'food energy needed', 'NeedKcal'),
                  how(row.proteinG, 'protein', 'ProteinG'),
                  how(row.needProteinG, 'protein needed', 'NeedProteinG'),
                ];
              })}
            />
          </details>`
    }
    <details class="more">
      <summary>Ways that were refused (${plan.refused.length})</summary>
      <p class="hint">Each reason is told once, with the figures of the first dish that met it.</p>
      ${
        plan.refused.length === 0
          ? html`<p>None.</p>`
          : html`<ul class="refused">
              ${refusedByReason(plan).map(
                (row) => html`<li>
                  ${textInSystem(row.reason, units)}. <span class="way-out">${row.wayOut === null ? '' : `Way out: ${textInSystem(row.wayOut, units)}. `}</span>
                  <span class="hint-inline">${row.names.join(', ')}</span>
                </li>`,
              )}
            </ul>`
      }
    </details>
    ${
      ownFiguresOf(plan).length === 0
        ? null
        : html`<details class="more">
            <summary>Own figures that it uses</summary>
            <${OwnFigures} figures=${ownFiguresOf(plan)} />
          </details>`
    }
    <details class="more">
      <summary>Assumptions and defaults</summary>
      <ul>${plan.assumptions.map((text) => html`<li>${textInSystem(text, units)}</li>`)}</ul>
      ${
        plan.resolved.defaults.length === 0
          ? null
          : html`<h3>Taken by default, not measured</h3>
              <ul>${plan.resolved.defaults.map((path) => html`<li>${defaultInWords(plan, path)}</li>`)}</ul>`
      }
    </details>
    ${
      plan.spread.length === 0
        ? null
        : html`<h3>Where the uncertainty comes from</h3>
            <${SpreadBlock} spread=${plan.spread} of="the fuel of the whole plan" />`
    }
    ${
      plan.cautions.length === 0
        ? null
        : html`<h3>Cautions for this plan</h3>
            <ul class="plan-cautions">${plan.cautions.map((text) => html`<li>${textInSystem(text, units)}</li>`)}</ul>`
    }
  </section>`;
}

/** The same reason met by many dishes is told once. */
function refusedByReason(plan: Plan): { reason: string; wayOut: string | null; names: string[] }[] {
  const groups = new Map<string, { reason: string; wayOut: string | null; names: string[] }>();
  for (const { reason, wayOut, kitId } of plan.refused) {
    // Figures differ from dish to dish; the rule behind them is the same.
    const key = `${reason}|${wayOut}`.replace(/\d+(\.\d+)?/g, '#');
    const group = groups.get(key) ?? {
      reason: reason.replace(/\.$/, ''),
      wayOut: wayOut?.replace(/\.$/, '') ?? null,
      names: [],
    };
    const name = plan.resolved.kits.find((kit) => kit.id === kitId)?.name ?? wordsOf(kitId);
    if (!group.names.includes(name)) group.names.push(name);
    groups.set(key, group);
  }
  return [...groups.values()].sort((a, b) => b.names.length - a.names.length);
}

/** `vessels.big-pot.lid` with what it was taken to be: "Vessels › Big pot › lid: snug". */
function defaultInWords(plan: Plan, path: string): string {
  let value: unknown = plan.resolved.household;
  const words: string[] = [];
  for (const step of path.split('.')) {
    const item = Array.isArray(value)
      ? (value.find((one) => [one.id, one.label, one.fuelId].includes(step)) ?? value[Number(step)])
      : (value as Record<string, unknown> | null | undefined)?.[step];
    words.push(Array.isArray(value) ? ((item as { name?: string } | undefined)?.name ?? step) : splitWords(step));
    value = item;
  }
  const shown = typeof value === 'object' || value === undefined ? '' : `: ${String(value)}`;
  return `${asHeading(words.join(' › '))}${shown}`;
}

/** `hygieneLPerPersonDay` to `hygiene L per person day` */
function splitWords(name: string): string {
  return name
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .replace(/([A-Z])([A-Z][a-z])/g, '$1 $2')
    .replace(/\b[A-Z][a-z]+/g, (word) => word.toLowerCase());
}
