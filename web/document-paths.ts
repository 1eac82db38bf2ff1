/** Reading and changing one place of a nested document without touching the rest. */

export type DocumentPath = readonly (string | number)[];

/** The value at a path, or undefined where the way to it is missing. */
export function valueAt(body: unknown, path: DocumentPath): unknown {
  let value: unknown = body;
  for (const step of path) {
    if (value === null || typeof value !== 'object') return undefined;
    value = (value as Record<string | number, unknown>)[step];
  }
  return value;
}

/**
 * A copy of the document with another value at the path; missing objects on the way are made. `undefined` takes the
 * member out, because an absent member means its default.
 */
export function withValueAt<Body>(body: Body, path: DocumentPath, value: unknown): Body {
  const [step, ...rest] = path;
  if (step === undefined) return value as Body;
  if (Array.isArray(body)) {
    return body.map((item, index) => (index === step ? withValueAt(item, rest, value) : item)) as Body;
  }
  const held = (body ?? {}) as Record<string | number, unknown>;
  const { [step]: before, ...others } = held;
  const after = withValueAt(before, rest, value);
  if (after === undefined) return others as Body;
  return { ...held, [step]: after } as Body;
}

/** A copy with an item added to the list at the path. */
export function withItem<Body>(body: Body, path: DocumentPath, item: unknown): Body {
  return withValueAt(body, path, [...((valueAt(body, path) as unknown[] | undefined) ?? []), item]);
}

/** A copy without the item at `index` of the list at the path. */
export function withoutItem<Body>(body: Body, path: DocumentPath, index: number): Body {
  const list = (valueAt(body, path) as unknown[] | undefined) ?? [];
  return withValueAt(
    body,
    path,
    list.filter((_, at) => at !== index),
  );
}

/** `#/places/0/elevationM` */
export function pointerOf(path: DocumentPath): string {
  return `#/${path.join('/')}`;
}

/**
 * The value at the same place of another version of the document: items of lists are matched by `id` or `label`, not
 * by position.
 */
export function sameValueIn(other: unknown, body: unknown, path: DocumentPath): unknown {
  let here: unknown = body;
  let there: unknown = other;
  for (const step of path) {
    if (there === null || typeof there !== 'object') return undefined;
    const nextHere = valueAt(here, [step]);
    if (typeof step === 'number' && Array.isArray(there)) {
      const key = nameOfItem(nextHere);
      there = key === undefined ? there[step] : there.find((item) => nameOfItem(item) === key);
    } else {
      there = (there as Record<string, unknown>)[step];
    }
    here = nextHere;
  }
  return there;
}

function nameOfItem(item: unknown): string | undefined {
  const named = item as { id?: string; label?: string; fuelId?: string } | null | undefined;
  return named?.id ?? named?.label ?? named?.fuelId;
}
