/**
 * One stored document while somebody edits it: each change is kept on this device at once, sent soon after, and never
 * lost when the server refuses it or somebody else was faster.
 */
import { type ApiClient, type FieldError, ServerRefusal } from './api-client.ts';

export type SavePhase = 'saved' | 'waiting' | 'saving' | 'conflict' | 'refused' | 'unreachable';

export interface SavedState<Body> {
  body: Body;
  etag: string | null;
  phase: SavePhase;
  message: string;
  errors: FieldError[];
  /** The state before the last removal, and what was removed. */
  undo: { label: string; body: Body } | null;
}

export interface SavedDocument<Body> {
  state(): SavedState<Body>;
  /** Changes the document; `undoLabel` names what was taken away, so that it can be put back. */
  edit(change: (body: Body) => Body, undoLabel?: string): void;
  undo(): void;
  /** After a conflict: sends this device's text over the other, or takes the other. */
  settle(choice: 'mine' | 'theirs'): Promise<void>;
  /** Sends now what is still waiting. */
  flush(): Promise<void>;
}

interface Draft<Body> {
  etag: string | null;
  body: Body;
}

const QUIET_MS = 350;

/**
 * Opens a document and takes up a draft that an earlier visit could not send.
 * @param path address of the document on the server
 * @param notify called after every change of state
 * @throws ServerRefusal when it cannot be read
 */
export async function openSavedDocument<Body>(
  api: ApiClient,
  path: string,
  storage: Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>,
  notify: () => void,
): Promise<SavedDocument<Body>> {
  const draftKey = `draft:${path}`;
  const fetched = await api.get<Body>(path);
  let state: SavedState<Body> = {
    body: fetched.body,
    etag: fetched.etag,
    phase: 'saved',
    message: '',
    errors: [],
    undo: null,
  };
  let timer: ReturnType<typeof setTimeout> | undefined;
  let sending: Promise<void> | null = null;

  const set = (part: Partial<SavedState<Body>>) => {
    state = { ...state, ...part };
    notify();
  };
  const keepDraft = () => {
    try {
      storage.setItem(draftKey, JSON.stringify({ etag: state.etag, body: state.body } satisfies Draft<Body>));
    } catch {
      // Storage may be full or forbidden; saving on the server goes on all the same.
    }
  };

  async function send(): Promise<void> {
    clearTimeout(timer);
    if (sending !== null) await sending;
    if (state.phase !== 'waiting') return;
    const body = state.body;
    set({ phase: 'saving', message: 'Saving…' });
    sending = sendBody(body);
    await sending;
    sending = null;
    if (state.phase === 'waiting') await send();
  }

  async function sendBody(body: Body): Promise<void> {
    try {
      const answer = await api.replace<Body>(path, body, state.etag ?? '');
      const changedMeanwhile = state.body !== body;
      if (!changedMeanwhile) storage.removeItem(draftKey);
      set({
        etag: answer.etag ?? state.etag,
        errors: [],
        phase: changedMeanwhile ? 'waiting' : 'saved',
        message: changedMeanwhile ? 'Saving…' : 'Saved.',
      });
      if (changedMeanwhile) keepDraft();
    } catch (error) {
      set(phaseAfter(error));
    }
  }

  function change(body: Body, undo: SavedState<Body>['undo']) {
    // A conflict stays until it is settled, but typing goes on and is kept.
    set({ body, undo, phase: state.phase === 'conflict' ? 'conflict' : 'waiting', message: 'Not yet saved.' });
    keepDraft();
    clearTimeout(timer);
    timer = setTimeout(() => void send(), QUIET_MS);
  }

  takeUpDraft();

  function takeUpDraft() {
    const draft = readDraft<Body>(storage.getItem(draftKey));
    if (draft === null) return;
    if (draft.etag === state.etag) {
      state = { ...state, body: draft.body, phase: 'waiting', message: 'A draft from this device is being saved.' };
      timer = setTimeout(() => void send(), 0);
    } else {
      state = { ...state, body: draft.body, ...conflict() };
    }
  }

  return {
    state: () => state,
    edit: (apply, undoLabel) =>
      change(apply(state.body), undoLabel === undefined ? null : { label: undoLabel, body: state.body }),
    undo() {
      if (state.undo !== null) change(state.undo.body, null);
    },
    async settle(choice) {
      const current = await api.get<Body>(path);
      if (choice === 'theirs') {
        storage.removeItem(draftKey);
        set({ body: current.body, etag: current.etag, phase: 'saved', message: 'Their version is shown.', errors: [] });
      } else {
        set({ etag: current.etag, phase: 'waiting', message: '' });
        await send();
      }
    },
    flush: () => send(),
  };
}

function conflict(): { phase: SavePhase; message: string } {
  return {
    phase: 'conflict',
    message: 'Somebody else changed this in the meantime. What you typed is kept here; choose which version stays.',
  };
}

function phaseAfter(error: unknown): { phase: SavePhase; message: string; errors: FieldError[] } {
  if (!(error instanceof ServerRefusal)) throw error;
  if (error.status === 412) return { ...conflict(), errors: [] };
  if (error.status === 0) return { phase: 'unreachable', message: error.message, errors: [] };
  return { phase: 'refused', message: `Not saved: ${error.message}`, errors: error.errors };
}

function readDraft<Body>(text: string | null): Draft<Body> | null {
  if (text === null) return null;
  try {
    return JSON.parse(text) as Draft<Body>;
  } catch {
    return null;
  }
}
