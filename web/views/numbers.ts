import { html } from '../html.ts';

export function NumbersView() {
  return html`<h1>Numbers</h1>`;
}
