/** Strong entity tags and the conditions of reads and writes (RFC 9110 section 13, RFC 6585 section 3). */
import { RefusedError } from './problem.ts';

/** The strong tag of a revision. */
export function etagOf(rev: string): string {
  return `"${rev}"`;
}

/** What a write expects: that nothing is there, that anything is there, or one of these revisions. */
export type Expectation = { kind: 'absent' } | { kind: 'any' } | { kind: 'revisions'; revs: string[] };

/**
 * Reads the condition of a write.
 * @throws RefusedError 428 when there is none, 412 when it can never match (weak tags, `If-None-Match` with a tag)
 */
export function writeCondition(headers: { ifMatch: string | undefined; ifNoneMatch: string | undefined }): Expectation {
  if (headers.ifMatch !== undefined) {
    if (headers.ifMatch.trim() === '*') return { kind: 'any' };
    return { kind: 'revisions', revs: strongTags(headers.ifMatch) };
  }
  if (headers.ifNoneMatch !== undefined) {
    if (headers.ifNoneMatch.trim() === '*') return { kind: 'absent' };
    throw new RefusedError('stale-revision', 'If-None-Match of a write can only be *: it must not exist yet.');
  }
  throw new RefusedError(
    'revision-required',
    'Send If-Match with the ETag that was read, or If-None-Match: * to create it.',
  );
}

/** Whether a read may be answered 304: `If-None-Match` lists the tag (weak comparison) or is `*`. */
export function notModified(ifNoneMatch: string | undefined, rev: string): boolean {
  if (ifNoneMatch === undefined) return false;
  if (ifNoneMatch.trim() === '*') return true;
  return ifNoneMatch.split(',').some((tag) => tag.trim().replace(/^W\//, '') === etagOf(rev));
}

function strongTags(header: string): string[] {
  return header
    .split(',')
    .map((tag) => tag.trim())
    .flatMap((tag) => /^"([^"]*)"$/.exec(tag)?.[1] ?? []);
}
