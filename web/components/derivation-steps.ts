/** The steps of a derivation in order: quantity in words, value, relation, what goes in, source, and what is estimated. */
import { useState } from 'preact/hooks';
import { quantityWords } from '../../api/wording/quantity-names.ts';
import type { ExplanationStep } from '../api-types.ts';
import { html } from '../html.ts';
import { writeShort } from '../numbers.ts';
import { type Page, usePage } from '../page-state.ts';

/**
 * The steps that a figure rests on, in their order, and its low and high end. Where minutes are among them, so is whether they lie outside what was
 * measured.
 */
export function stepsBehind(
  steps: readonly ExplanationStep[],
  wanted: readonly string[],
  near?: number,
): ExplanationStep[] {
  const byName = new Map(steps.map((step) => [step.quantity, step]));
  const target = near === undefined ? wanted.find((name) => byName.has(name)) : nearest(steps, wanted, near);
  const kept = new Set<string>();
  const keep = (first: string) => {
    const waiting = [first];
    for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
      if (kept.has(name)) continue;
      kept.add(name);
      waiting.push(...(byName.get(name)?.inputs ?? []));
    }
  };
  // Low and high end stand beside the typical figure and open with it.
  if (target !== undefined)
    for (const end of ['', 'Low', 'High']) if (end === '' || byName.has(target + end)) keep(target + end);
  for (const { quantity } of steps) {
    const minutes = quantity.replace(/extrapolated$/, 'minutes').replace(/Extrapolated$/, 'Minutes');
    if (minutes !== quantity && kept.has(minutes)) keep(quantity);
    // What a plan was solved again for is what its figures rest on first of all.
    if (target === undefined) continue;
    if (/^((now|changed)S|s)olvedAgain$/.test(quantity) || quantity === `${target}SolvedAgain`) keep(quantity);
  }
  return steps.filter((step) => kept.has(step.quantity));
}

/** Of the steps that bear one of the names, with a kit before it or a number behind, the one of this value. */
function nearest(steps: readonly ExplanationStep[], wanted: readonly string[], value: number): string | undefined {
  for (const name of wanted) {
    const ending = new RegExp(`(^${name}|${name.charAt(0).toUpperCase()}${name.slice(1)})\\d*$`);
    const off = (step: ExplanationStep) => Math.abs(Number(step.value) - value);
    const [best] = steps.filter((step) => ending.test(step.quantity)).sort((a, b) => off(a) - off(b));
    // Shown figures are rounded.
    if (best !== undefined && off(best) <= 0.02 * Math.abs(value) + 0.01) return best.quantity;
  }
  return undefined;
}

/** `77 steps, 21 of them estimates.` */
export function countsInWords(steps: readonly ExplanationStep[]): string {
  const estimates = steps.filter((step) => step.estimate).length;
  return `${steps.length} ${steps.length === 1 ? 'step' : 'steps'}, ${estimates === 0 ? 'none' : estimates} of them ${estimates === 1 ? 'an estimate' : 'estimates'}.`;
}

export function DerivationSteps({ steps }: { steps: readonly ExplanationStep[] }) {
  const page = usePage();
  const [names, setNames] = useState<readonly string[]>([]);
  // A figure without a derivation is measured or stored as it is.
  if (steps.length === 0)
    return html`<p>This figure was not worked out: plans made earlier keep no steps, and dishes without a fire have none for fuel.</p>`;
  const last = steps[steps.length - 1]?.quantity ?? '';
  const values = new Map(steps.map((step) => [step.quantity, step]));
  const used = FUNCTION_NAME.exec(steps.map((step) => (step.inputs.length === 0 ? '' : step.relation)).join(' '));
  return html`<p>The last step is <a href=${`#${idOf(last)}`} onClick=${(event: MouseEvent) => goTo(event, last)}>the figure itself</a>.</p>
    <ol class="derivation">
      ${steps.map(
        (step) => html`<li key=${step.quantity} id=${idOf(step.quantity)} tabindex="-1">
          <p class="step-line">
            <span class="step-name">${quantityWords(step.quantity)}</span>
            <code>${step.quantity}</code>
            <strong>${valueInWords(step)}</strong>
            ${markOf(step) === null ? null : html`<span class="estimate"><span aria-hidden="true">≈ </span>${markOf(step)}</span>`}
          </p>
          ${
            step.inputs.length === 0
              ? html`<p class="step-how">${kindInWords(step)}</p>`
              : html`<p class="step-how">Worked out: <code>${step.relation}</code></p>
                  <p class="step-how">From ${step.inputs.map((name, at) => html`${at === 0 ? '' : '; '}<${InputLink} name=${name} step=${values.get(name)} />`)}.</p>`
          }
          ${step.source.place === 'the question' ? null : html`<p class="source">${sourceInWords(page, step.source)}</p>`}
        </li>`,
      )}
    </ol>
    ${used === null ? null : html`<${Functions} steps=${steps} names=${names} show=${setNames} />`}`;
}

const FUNCTION_NAME = /\b(?!(?:exp|ln|sqrt|min|max|round|floor)\b)[a-z]\w*(?=\()/;

/** What is not measured fact says so. */
function markOf({ quantity, value, estimate }: ExplanationStep): string | null {
  if (/extrapolated$/i.test(quantity) && value === true) return 'extrapolation';
  return estimate ? 'estimate' : null;
}

/** Functions that relations name are written out when asked for. */
function Functions({
  steps,
  names,
  show,
}: {
  steps: readonly ExplanationStep[];
  names: readonly string[];
  show: (lines: readonly string[]) => void;
}) {
  const page = usePage();
  const wanted = new Set(
    steps.flatMap((step) =>
      step.inputs.length === 0 ? [] : (step.relation.match(new RegExp(FUNCTION_NAME, 'g')) ?? []),
    ),
  );
  const open = async () => {
    const { body } = await page.api.get<{
      items: {
        name: string;
        what: string;
        takes: string[];
        lines: { quantity: string; relation: string }[];
        rule?: string;
      }[];
    }>('/api/explanation-functions');
    show(
      body.items
        .filter((one) => wanted.has(one.name))
        .map(
          (one) =>
            `${one.name}(${one.takes.join(', ')}): ${one.what}. ${one.rule ?? one.lines.map((line) => `${line.quantity} = ${line.relation}`).join('; ')}`,
        ),
    );
  };
  return html`<details class="more" onToggle=${(event: Event) => (event.target as HTMLDetailsElement).open && names.length === 0 && void open()}>
    <summary>Functions named above, written out</summary>
    <ul>${names.map((text) => html`<li><code>${text}</code></li>`)}</ul>
  </details>`;
}

function InputLink({ name, step }: { name: string; step: ExplanationStep | undefined }) {
  return html`<a
    href=${`#${idOf(name)}`}
    onClick=${(event: MouseEvent) => goTo(event, name)}
    >${quantityWords(name).toLowerCase()}${step === undefined ? '' : ` ${valueInWords(step)}`}</a
  >`;
}

/** Moves to a step without a new address: the view behind would be left. */
function goTo(event: MouseEvent, quantity: string) {
  event.preventDefault();
  document.getElementById(idOf(quantity))?.focus();
}

function idOf(quantity: string): string {
  return `step-${quantity}`;
}

/** `95 °C`, `0.48`, `yes` */
function valueInWords({ value, unit }: ExplanationStep): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string') return unit === 'local time' ? value.replace('T', ' ') : value;
  const shown = unit === 'C' ? '°C' : unit === '1' || unit === '' || unit === 'share' ? '' : unit;
  // Small conductances and losses need their figures too.
  const number =
    value !== 0 && Math.abs(value) < 0.1 ? String(Number(value.toPrecision(3))).replace('-', '−') : writeShort(value);
  return shown === '' ? number : `${number}\u00a0${shown}`;
}

function kindInWords({ relation }: ExplanationStep): string {
  if (relation === 'as asked') return 'Given.';
  const words = relation.replace(/, P10 (\S+) to P90 (\S+)$/, '; 8 times in 10 from $1 to $2');
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}

/** Authors (year): title; place in it. What this program derives itself says so. */
function sourceInWords(page: Page, source: { key: string; place: string }): string {
  if (source.key === 'planner-derivation')
    return ['the question', 'the kit', 'the stores of the household', 'the derivation of the meal'].includes(
      source.place,
    )
      ? `From ${source.place}.`
      : `Own working: ${source.place}.`;
  const work = page.tables.works[source.key];
  if (work === undefined) return `Source: ${source.key}, ${source.place}.`;
  const year = work.year === undefined || work.year === null ? '' : ` (${work.year})`;
  return `Source: ${work.authors ?? ''}${year}: ${work.title ?? source.key}. ${work.where ?? ''}. At: ${source.place}.`;
}
