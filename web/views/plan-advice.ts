/** What to get or do next: changes ranked by what they bring, each planned again. */

import { asHeading } from '../../api/wording/names.ts';
import { textInSystem } from '../../api/wording/text-in-system.ts';
import type { SolverProgress } from '../api-client.ts';
import type { Advice, AdviceItem, Plan } from '../api-types.ts';
import { DataTable } from '../components/data-table.ts';
import { HowButton } from '../components/derivation.ts';
import { LongWorkBlock, useLongQuestion } from '../components/long-work.ts';
import { fuelAmongSteps } from '../components/plan-how.ts';
import { html } from '../html.ts';
import { say, shownValue, type UnitSystem, unitOf } from '../measures.ts';
import { writeNumber, writeShort } from '../numbers.ts';
import { usePage } from '../page-state.ts';
import { thingInWords } from './plan-words.ts';

const TIME_LIMIT_S = 20;

const CONFIDENCE_NAMES: Record<AdviceItem['confidence']['level'], string> = {
  high: 'sure',
  middle: 'likely',
  low: 'uncertain',
};

export function AdviceSection({ plan }: { plan: Plan }) {
  const question = useLongQuestion<Advice>('advice', `/api/plans/${plan.id}/advice?explain=1`, plan.id, TIME_LIMIT_S);
  const ask = () =>
    question.ask(
      { timeLimitS: TIME_LIMIT_S },
      ({ items }) => `${items.length} things looked at. First: ${items[0]?.text ?? 'none'}.`,
    );
  return html`<section aria-labelledby="advice-title">
    <h2 id="advice-title">What to get or do next</h2>
    <p class="hint">Each thing is tried on this plan and planned again: more days first, then more servings, then what spares the scarcest.</p>
    <${LongWorkBlock} question=${question} doing="Trying one thing after the other" label="What helps most?" said=${progressInWords} onAsk=${() => void ask()} />
    ${question.answer === null ? null : html`<${Ranked} answer=${question.answer} />`}
  </section>`;
}

function progressInWords({ best, bound }: SolverProgress): string {
  return typeof best === 'number' && typeof bound === 'number' ? `${best} of ${bound} tried.` : 'Laying out the plan.';
}

function Ranked({ answer }: { answer: Advice }) {
  const { units } = usePage();
  const next = answer.items.filter((item) => !item.already);
  const kept = answer.items.filter((item) => item.already);
  const row = (item: AdviceItem) => [
    textInSystem(item.text, units),
    item.daysGained === null ? 'not known' : daysCell(item),
    how(item, 'servings more', 'servingsGained', signed(item.servingsGained)),
    html`${how(item, 'scarcest, share used now', 'nowScarcestShare', percent(item.scarcestShare.before))} to ${how(item, SHARE_AFTER, SHARE_AFTER_STEPS, percent(item.scarcestShare.after))}`,
    how(item, 'fuel heat saved', 'savedMJ', writeShort(item.fuelSavedMJ)),
    fuelCell(item, units),
    how(item, 'water saved', 'savedL', writeShort(shownValue(item.waterSavedL, 'litres', units))),
    CONFIDENCE_NAMES[item.confidence.level],
  ];
  const head = [
    'What',
    'Days more',
    'Servings more',
    'Scarcest, share used',
    'Fuel heat saved (MJ)',
    'Fuel',
    `Water saved (${unitOf('litres', units)})`,
    'How sure',
  ];
  return html`<div class="answer">
    ${
      next.length === 0
        ? html`<p>Nothing that was tried changes anything.</p>`
        : html`<ol class="ranked">
            ${next.map(
              (item) => html`<li key=${item.id}>
                <strong>${textInSystem(item.text, units)}.</strong> ${textInSystem(asHeading(item.effect), units)}
                <span class="hint-inline">${howBy(item)} How sure: ${CONFIDENCE_NAMES[item.confidence.level]}. ${textInSystem(item.confidence.why, units)}</span>
              </li>`,
            )}
          </ol>`
    }
    ${
      kept.length === 0
        ? null
        : html`<h3>What you do already, and what it is worth</h3>
            <ul>${kept.map((item) => html`<li key=${item.id}><strong>${textInSystem(item.text, units)}.</strong> ${textInSystem(asHeading(item.effect), units)} <span class="hint-inline">${howBy(item)}</span></li>`)}</ul>`
    }
    ${
      answer.items.length === 0
        ? null
        : html`<details class="more">
            <summary>The same as a table</summary>
            <${DataTable} caption="What each thing brings" head=${head} words=${[1, 5, 7]} rows=${answer.items.map(row)} />
          </details>`
    }
    ${
      answer.withoutEffect.length + answer.notApplicable.length + answer.notWorkedOut.length + answer.notes.length === 0
        ? null
        : html`<details class="more">
            <summary>What changes nothing, and how to read this</summary>
            <ul>
              ${answer.notes.map((text) => html`<li>${textInSystem(text, units)}</li>`)}
              ${answer.withoutEffect.length === 0 ? null : html`<li>One more set changes nothing of: ${answer.withoutEffect.join(', ')}.</li>`}
              ${answer.notApplicable.map(({ text }) => html`<li>${textInSystem(text, units)}</li>`)}
              ${answer.notWorkedOut.length === 0 ? null : html`<li>There was no time for: ${answer.notWorkedOut.join('; ')}.</li>`}
            </ul>
          </details>`
    }
  </div>`;
}

/** A figure of a line as the button to its steps; the first of the names that is among them counts. */
function how(item: AdviceItem, what: string, quantity: string | string[], shown?: string) {
  const names = typeof quantity === 'string' ? [quantity] : quantity;
  return html`<${HowButton} of=${`${item.text}: ${what}`} quantity=${names} shown=${shown} steps=${item.explanation ?? []} />`;
}

/** The button beside a line in words: to the first thing that it brings. */
function howBy(item: AdviceItem) {
  if (item.daysGained !== null && item.daysGained.fed !== 0) return how(item, 'days more', 'daysGained');
  if (item.daysGained !== null && item.daysGained.fedHot !== 0)
    return how(item, 'days more with every hot meal', 'daysHotGained');
  if (item.servingsGained !== 0) return how(item, 'servings more', 'servingsGained');
  if (item.hotServingsGained !== 0) return how(item, 'hot servings more', 'hotServingsGained');
  if (item.hotWaterDaysGained !== 0) return how(item, 'days more with hot water', 'hotWaterDaysGained');
  if (item.scarcestShare.before !== item.scarcestShare.after) return how(item, SHARE_AFTER, SHARE_AFTER_STEPS);
  return how(item, 'fuel heat saved', 'savedMJ');
}

const SHARE_AFTER = 'scarcest, share used with the change';
/** Where the plan need not be solved again with the change, the share is that of now. */
const SHARE_AFTER_STEPS = ['changedScarcestShare', 'nowScarcestShare'];

function fuelCell(item: AdviceItem, units: UnitSystem) {
  const parts = item.fuelSaved.filter(({ kg }) => Math.abs(kg) > 0.0005);
  if (parts.length === 0) return '–';
  return parts.map(({ fuelId, kg }) => {
    const amount = say(Math.abs(kg), fuelId === 'electricity' ? 'kWh' : 'kg', units);
    const shown = `${amount} ${kg < 0 ? 'more' : 'less'} ${thingInWords(fuelId)}`;
    return html`<div>${how(item, `${thingInWords(fuelId)} saved`, `${fuelAmongSteps(fuelId)}SavedKg`, shown)}</div>`;
  });
}

function daysCell(item: AdviceItem) {
  const { fed, fedHot } = item.daysGained ?? { fed: 0, fedHot: 0 };
  const days = how(item, 'days more', 'daysGained', signed(fed));
  if (fed === fedHot) return days;
  return html`${days}, ${how(item, 'days more with every hot meal', 'daysHotGained', `hot ${signed(fedHot)}`)}`;
}

function signed(value: number): string {
  const shown = writeNumber(value, 1);
  return value > 0 ? `+${shown}` : shown;
}

function percent(share: number): string {
  return `${writeNumber(share * 100, 0)}\u00a0%`;
}
