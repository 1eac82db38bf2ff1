/** How a figure comes about: a button beside it, and the panel over the page that shows the steps. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { ServerRefusal } from '../api-client.ts';
import type { ExplanationStep } from '../api-types.ts';
import { html } from '../html.ts';
import { type DerivationAsked, usePage } from '../page-state.ts';

interface Known {
  words: typeof import('./derivation-steps.ts');
  steps: ExplanationStep[];
}

/**
 * The button beside a figure.
 * @param of the figure in words, as it stands beside the button
 * @param quantity names that the figure may have among the steps, the first that is there counts
 * @param near value of the figure, where the steps are those of several dishes
 * @param steps the steps, or how to fetch them
 * @param shown the figure itself as the button, where many stand under one another, as in a table
 */
export function HowButton({ of, quantity, near, steps, shown }: DerivationAsked & { shown?: string }) {
  const page = usePage();
  return html`<button type="button" class="how" aria-haspopup="dialog" onClick=${() => page.set({ derivation: { of, quantity, near, steps } })}>
    ${shown === undefined ? html`how this comes about<span class="unseen">: ${of}</span>` : html`${shown}<span class="unseen">, how this comes about: ${of}</span>`}
  </button>`;
}

/** The panel over the page; it is there while a figure is asked about. */
export function DerivationPanel() {
  const page = usePage();
  const asked = page.derivation;
  const panel = useRef<HTMLDialogElement>(null);
  const [known, setKnown] = useState<Known | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  useEffect(() => {
    if (asked === null) return;
    // Opened as modal the browser keeps the focus inside, closes on Esc, and gives the focus back.
    if (panel.current?.open === false) panel.current.showModal();
    let gone = false;
    setKnown(null);
    setFault(null);
    const fetched = typeof asked.steps === 'function' ? asked.steps(page) : Promise.resolve(asked.steps);
    // The words for quantities are many and come with the first figure that is asked about.
    Promise.all([import('./derivation-steps.ts'), fetched])
      .then(([words, all]) => {
        if (!gone) setKnown({ words, steps: words.stepsBehind(all, asked.quantity, asked.near) });
      })
      .catch((error) => {
        if (!gone) setFault(error instanceof ServerRefusal ? error.message : 'The steps could not be read.');
      });
    return () => {
      gone = true;
    };
  }, [asked]);
  if (asked === null) return null;
  return html`<dialog ref=${panel} class="panel" aria-labelledby="panel-title" onClose=${() => page.set({ derivation: null })}>
    <div class="panel-head">
      <h2 id="panel-title" tabindex="-1" autofocus>${asked.of}</h2>
      <button type="button" class="small" onClick=${() => panel.current?.close()}>Close</button>
    </div>
    ${fault === null ? null : html`<p class="notice" role="alert">${fault}</p>`}
    ${
      fault !== null
        ? null
        : html`<p role="status">
            ${known === null ? 'Working it out…' : known.steps.length === 0 ? 'No steps are known.' : `${known.words.countsInWords(known.steps)} Values are in the units that are worked with, whatever is shown beside.`}
          </p>`
    }
    ${known === null ? null : html`<${known.words.DerivationSteps} steps=${known.steps} />`}
  </dialog>`;
}
