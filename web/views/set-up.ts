import { html } from '../html.ts';

export function SetUpView() {
  return html`<h1>Set-up</h1>`;
}
