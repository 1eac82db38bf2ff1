/** One foldable part of the set-up, and what each part is handed. */
import type { ComponentChildren } from 'preact';
import type { HouseholdDocument } from '../api-types.ts';
import type { fieldsOf } from '../components/bound-fields.ts';
import type { DocumentPath } from '../document-paths.ts';
import { html } from '../html.ts';

export type HouseholdFields = ReturnType<typeof fieldsOf>;

export interface SectionProps {
  body: HouseholdDocument;
  fields: HouseholdFields;
  add: (path: DocumentPath, item: unknown) => void;
}

/** The choices of a record of names. */
export function choices(names: Readonly<Record<string, string>>): [string, string][] {
  return Object.entries(names);
}

/** A foldable part of the set-up; the words beside its title say what is in it while it is shut. */
export function SetUpPart({
  title,
  holds,
  open,
  teaches,
  children,
}: {
  title: string;
  holds: string;
  open?: boolean;
  /** Said while nothing is in it: what it is for, and what a plan does without it. */
  teaches?: string | undefined;
  children?: ComponentChildren;
}) {
  return html`<details class="part-title" open=${open}>
    <summary><h2>${title}</h2><span class="hint">${holds}</span></summary>
    ${teaches === undefined ? null : html`<p class="hint">${teaches}</p>`}
    ${children}
  </details>`;
}
