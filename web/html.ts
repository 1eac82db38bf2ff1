/** Templates without a build step for them: htm bound to Preact's element function. */
import htm from 'htm';
import { h } from 'preact';

export const html = htm.bind(h);

/** What a template gives back; htm types it as one element or several. */
export type View = ReturnType<typeof html>;
