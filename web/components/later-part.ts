/** A part that is folded away, fetched and drawn when it is first opened. */
import type { ComponentType } from 'preact';
import { useState } from 'preact/hooks';
import { html } from '../html.ts';
import { Later } from './later.ts';

export function LaterPart<Props extends object>({
  title,
  load,
  props,
}: {
  title: string;
  load: () => Promise<ComponentType<Props>>;
  props: Props;
}) {
  const [opened, setOpened] = useState(false);
  return html`<details
    class="more"
    onToggle=${(event: Event) => {
      if ((event.currentTarget as HTMLDetailsElement).open) setOpened(true);
    }}
  >
    <summary>${title}</summary>
    ${opened ? html`<${Later} load=${load} props=${props} />` : null}
  </details>`;
}
