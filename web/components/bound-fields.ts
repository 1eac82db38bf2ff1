/** Fields bound to a place in a stored document: the label says what, the path says where. */
import { type DocumentPath, pointerOf, sameValueIn, valueAt, withoutItem, withValueAt } from '../document-paths.ts';
import { html } from '../html.ts';
import type { Quantity } from '../measures.ts';
import type { SavedDocument } from '../saved-document.ts';
import { CheckField, ChoiceField, NumberField, TextField } from './fields.ts';

export interface Bound {
  document: SavedDocument<unknown>;
  /** The same document with every default filled in, where it is known. */
  resolved?: unknown;
}

/**
 * Makes the fields of one document.
 * @returns functions that each give the view of one field
 */
export function fieldsOf({ document: saved, resolved }: Bound) {
  const { body, errors } = saved.state();
  /** `together`: siblings without which the member may not stand; emptied, it takes its parent along. */
  const put = (path: DocumentPath, value: unknown, together?: Record<string, unknown>) =>
    saved.edit((old) => {
      if (together === undefined) return withValueAt(old, path, value);
      const parent = path.slice(0, -1);
      if (value === undefined) return withValueAt(old, parent, undefined);
      const held = (valueAt(old, parent) as object | undefined) ?? {};
      return withValueAt(old, parent, { ...together, ...held, [path[path.length - 1] as string]: value });
    });
  const defaultOf = (path: DocumentPath) => sameValueIn(resolved, body, path);

  return {
    number(
      label: string,
      quantity: Quantity,
      path: DocumentPath,
      options: {
        minimum?: number;
        maximum?: number;
        optional?: boolean | string;
        hint?: string;
        together?: Record<string, unknown>;
      } = {},
    ) {
      const known = defaultOf(path);
      const fallback =
        typeof known === 'number'
          ? known
          : typeof options.optional === 'string'
            ? options.optional
            : 'set by the program';
      return html`<${NumberField}
        key=${pointerOf(path)}
        label=${label}
        quantity=${quantity}
        value=${valueAt(body, path) ?? undefined}
        minimum=${options.minimum}
        maximum=${options.maximum}
        hint=${options.hint}
        whenEmpty=${options.optional ? fallback : undefined}
        pointer=${pointerOf(path)}
        errors=${errors}
        onValue=${(value: number | undefined) => put(path, value, options.together)}
      />`;
    },
    text(
      label: string,
      path: DocumentPath,
      options: {
        type?: 'text' | 'time' | 'date';
        required?: boolean;
        hint?: string;
        together?: Record<string, unknown>;
      } = {},
    ) {
      const given = valueAt(body, path) as string | undefined;
      const known = defaultOf(path);
      return html`<${TextField}
        key=${pointerOf(path)}
        label=${label}
        type=${options.type ?? 'text'}
        value=${given ?? ''}
        required=${options.required}
        hint=${options.hint}
        mark=${given === undefined && typeof known === 'string' ? `default: ${known}` : undefined}
        pointer=${pointerOf(path)}
        errors=${errors}
        onValue=${(value: string) => put(path, value === '' ? undefined : value, options.together)}
      />`;
    },
    choice(
      label: string,
      path: DocumentPath,
      options: readonly (readonly [string, string])[],
      settings: { optional?: boolean; hint?: string } = {},
    ) {
      const known = defaultOf(path);
      const name = options.find(([id]) => id === known)?.[1] ?? '';
      return html`<${ChoiceField}
        key=${pointerOf(path)}
        label=${label}
        value=${valueAt(body, path) ?? undefined}
        options=${options}
        whenEmpty=${settings.optional ? name : undefined}
        hint=${settings.hint}
        pointer=${pointerOf(path)}
        errors=${errors}
        onValue=${(value: string | undefined) => put(path, value)}
      />`;
    },
    check(label: string, path: DocumentPath) {
      const known = defaultOf(path);
      const value = valueAt(body, path) ?? known ?? false;
      return html`<${CheckField} key=${pointerOf(path)} label=${label} value=${value === true} onValue=${(on: boolean) => put(path, on)} />`;
    },
    /** A button that takes one item out of a list, with undo; `also` mends what named it. */
    remove(name: string, list: DocumentPath, index: number, also: (body: unknown) => unknown = (same) => same) {
      return html`<button type="button" class="small" onClick=${() => saved.edit((old) => also(withoutItem(old, list, index)), name)}>
        Remove<span class="unseen"> ${name}</span>
      </button>`;
    },
  };
}
