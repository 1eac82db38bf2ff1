/** The cautions, always within reach at the foot of each view. */
import { cautionsForPage, DEFER_LINE } from '../../api/wording/cautions.ts';
import { html } from '../html.ts';

export function CautionsBlock() {
  return html`<details class="cautions" id="cautions">
    <summary>Cautions: carbon monoxide, fire, pressure cookers, beans, warm food, water</summary>
    <dl>
      ${cautionsForPage().map(
        (caution) => html`<div key=${caution.id}>
          <dt>${caution.title}</dt>
          <dd>${caution.full} <span class="source">Source: ${caution.source}.</span></dd>
        </div>`,
      )}
    </dl>
    <p>${DEFER_LINE}</p>
  </details>`;
}
