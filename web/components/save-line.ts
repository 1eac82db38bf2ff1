/** One line that says whether what was typed is stored, with the way on when it is not. */
import { html } from '../html.ts';
import type { SavedDocument } from '../saved-document.ts';

export function SaveLine<Body>({ document: saved }: { document: SavedDocument<Body> }) {
  const { phase, message, undo } = saved.state();
  const troubled = phase === 'conflict' || phase === 'refused' || phase === 'unreachable';
  return html`<div class=${`save-line${troubled ? ' save-trouble' : ''}`}>
    <p>${troubled ? html`<span aria-hidden="true">⚠ </span>` : null}${phase === 'saved' && message === '' ? 'All changes are saved as you make them.' : message}</p>
    ${
      phase === 'conflict'
        ? html`<button type="button" class="small" onClick=${() => void saved.settle('mine')}>Keep what I typed</button>
            <button type="button" class="small" onClick=${() => void saved.settle('theirs')}>Take the other version</button>`
        : null
    }
    ${phase === 'unreachable' || phase === 'refused' ? html`<button type="button" class="small" onClick=${() => saved.edit((body) => body)}>Try again</button>` : null}
    ${undo === null ? null : html`<button type="button" class="small" onClick=${() => saved.undo()}>Undo: put back ${undo.label}</button>`}
  </div>`;
}
