/** A view whose script is fetched when it is first shown, so that the page starts with little. */
import type { ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { html } from '../html.ts';

/**
 * @param load fetches the view; always the same function for one place on the page
 * @param props handed to the view
 */
export function Later<Props extends object>({
  load,
  props,
}: {
  load: () => Promise<ComponentType<Props>>;
  props: Props;
}) {
  const [View, setView] = useState<ComponentType<Props> | null>(null);
  const [failed, setFailed] = useState(false);
  useEffect(() => {
    let gone = false;
    load().then(
      (view) => !gone && setView(() => view),
      () => !gone && setFailed(true),
    );
    return () => {
      gone = true;
    };
  }, [load]);
  if (failed) return html`<p class="notice" role="alert">This part could not be fetched. Load the page again.</p>`;
  return View === null ? html`<p>Loading…</p>` : html`<${View} ...${props} />`;
}
