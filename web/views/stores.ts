import { html } from '../html.ts';

export function StoresView() {
  return html`<h1>Stores</h1>`;
}
