/** Creating, replacing and deleting a document under the conditions of the request. */

import type { DocumentTypes, Revised } from '../storage/collections.ts';
import { deleteDocument, readDocument, writeDocument } from '../storage/collections.ts';
import type { Collection } from '../storage/formats.ts';
import { etagOf, writeCondition } from './etag.ts';
import { RefusedError, refuseField } from './problem.ts';
import type { Services } from './services.ts';

interface Conditions {
  ifMatch: string | undefined;
  ifNoneMatch: string | undefined;
}

/** Creates a document by POST. @throws RefusedError 409 when the id is taken */
export async function createDocument<C extends Collection>(
  { store, newId }: Services,
  collection: C,
  body: DocumentTypes[C],
): Promise<Revised<DocumentTypes[C]>> {
  const written = await writeDocument(store, collection, body, null, newId());
  if (written.outcome === 'ok') return written.document;
  throw new RefusedError(
    'already-there',
    `The id ${body.id} is taken. Replace the document with PUT, or take another id.`,
    {
      errors: [{ pointer: '#/id', detail: 'This id is taken.', value: body.id }],
    },
  );
}

/**
 * Creates (`If-None-Match: *`) or replaces (`If-Match`) a document by PUT.
 * @throws RefusedError 428 without a condition, 412 when another revision is current, 404 when there is none to replace,
 * 422 when the id of the body is another than that of the address
 */
export async function putDocument<C extends Collection>(
  { store, newId }: Services,
  collection: C,
  id: string,
  body: DocumentTypes[C],
  conditions: Conditions,
): Promise<{ created: boolean; document: Revised<DocumentTypes[C]> }> {
  const condition = writeCondition(conditions);
  if (body.id !== id) throw refuseField(['id'], `Must be ${id}, as in the address.`, { value: body.id });
  const current = await readDocument(store, collection, id);
  if (condition.kind !== 'absent' && current === null)
    throw new RefusedError('not-found', `There is no ${id} to replace.`);
  const expect = expectedRevision(condition, current, id);
  const written = await writeDocument(store, collection, body, expect, newId());
  if (written.outcome === 'conflict') throw stale(id, written.current);
  return { created: expect === null, document: written.document };
}

/**
 * Deletes a document, given its revision.
 * @throws RefusedError 428, 412 or 404 like `putDocument`
 */
export async function removeDocument(
  { store, newId }: Services,
  collection: Collection,
  id: string,
  conditions: Conditions,
): Promise<void> {
  const condition = writeCondition(conditions);
  const current = await readDocument(store, collection, id);
  if (current === null) throw new RefusedError('not-found', `There is no ${id}.`);
  if (condition.kind === 'absent') throw stale(id, current);
  const expect = expectedRevision(condition, current, id);
  if (expect === null || !(await deleteDocument(store, collection, id, expect, newId()))) {
    throw stale(id, await readDocument(store, collection, id));
  }
}

/** Reads a document. @throws RefusedError 404 */
export async function readOrRefuse<C extends Collection>(
  { store }: Services,
  collection: C,
  id: string,
): Promise<Revised<DocumentTypes[C]>> {
  const document = await readDocument(store, collection, id);
  if (document === null) throw new RefusedError('not-found', `There is no ${id}.`);
  return document;
}

function expectedRevision(
  condition: ReturnType<typeof writeCondition>,
  current: Revised<unknown> | null,
  id: string,
): string | null {
  if (condition.kind === 'absent') {
    if (current !== null) throw stale(id, current);
    return null;
  }
  if (condition.kind === 'revisions' && (current === null || !condition.revs.includes(current.rev))) {
    throw stale(id, current);
  }
  return current?.rev ?? null;
}

function stale(id: string, current: Revised<unknown> | null): RefusedError {
  return new RefusedError(
    'stale-revision',
    `${id} has changed since it was read. Read it again and repeat the change.`,
    {
      extensions: { current: current?.body ?? null },
      headers: current === null ? {} : { etag: etagOf(current.rev) },
    },
  );
}
