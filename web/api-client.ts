/** Talks to the server: every answer carries its revision, every refusal names the field. */

/** One wrong field: a JSON pointer into what was sent, or the name of a query parameter. */
export interface FieldError {
  pointer: string;
  detail: string;
  /** What is asked back, and answers to it that can be taken without typing anew. */
  question?: string | undefined;
  answers?: FieldAnswer[] | undefined;
}

/** An answer to a question of the server: members to change, and what has to be sent before. */
export interface FieldAnswer {
  words: string;
  change: Record<string, unknown>;
  first: Record<string, unknown> | null;
}

/** A refusal or failure of the server (problem+json), or of the way to it (status 0). */
export class ServerRefusal extends Error {
  readonly status: number;
  readonly errors: FieldError[];
  readonly retryAfterS: number | null;
  constructor(status: number, message: string, errors: FieldError[] = [], retryAfterS: number | null = null) {
    super(message);
    this.name = 'ServerRefusal';
    this.status = status;
    this.errors = errors;
    this.retryAfterS = retryAfterS;
  }
}

export interface Answer<Body> {
  body: Body;
  etag: string | null;
}

export interface SolverProgress {
  elapsedS: number;
  aim?: string | null;
  best?: number | null;
  bound?: number | null;
  gap?: number | null;
}

export type ApiClient = ReturnType<typeof createApiClient>;

/**
 * @param send the browser's `fetch`, or another for tests and for use without a network
 */
export function createApiClient(send: typeof fetch) {
  async function call<Body>(method: string, path: string, body?: unknown, headers: Record<string, string> = {}) {
    const response = await reach(send, path, {
      method,
      headers: {
        accept: 'application/json',
        // Every write says so, one without a body too: the server takes no other.
        ...(method === 'GET' ? {} : { 'content-type': 'application/json' }),
        ...headers,
      },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    if (!response.ok) throw await refusal(response);
    const text = await response.text();
    return {
      body: (text === '' ? null : JSON.parse(text)) as Body,
      etag: response.headers.get('etag'),
    } as Answer<Body>;
  }

  return {
    get: <Body>(path: string) => call<Body>('GET', path),
    post: <Body>(path: string, body: unknown) => call<Body>('POST', path, body),
    create: <Body>(path: string, body: unknown) => call<Body>('PUT', path, body, { 'if-none-match': '*' }),
    replace: <Body>(path: string, body: unknown, etag: string) => call<Body>('PUT', path, body, { 'if-match': etag }),
    remove: (path: string, etag: string) => call<null>('DELETE', path, undefined, { 'if-match': etag }),

    /**
     * Asks a question that takes long and reports how far the solver is. Ending `signal` closes the connection, which
     * stops the solver.
     * @throws ServerRefusal, or the browser's AbortError when stopped
     */
    async ask<Body>(
      path: string,
      question: unknown,
      signal: AbortSignal,
      onProgress: (progress: SolverProgress) => void,
    ): Promise<Body> {
      const response = await reach(send, path, {
        method: 'POST',
        headers: { accept: 'text/event-stream, application/json;q=0.9', 'content-type': 'application/json' },
        body: JSON.stringify(question),
        signal,
      });
      if (!response.ok) throw await refusal(response);
      if (!(response.headers.get('content-type') ?? '').includes('event-stream'))
        return (await response.json()) as Body;
      for await (const event of eventsOf(response)) {
        if (event.name === 'progress') onProgress(JSON.parse(event.data) as SolverProgress);
        else if (event.name === 'problem' || event.name === 'error') throw problemOf(JSON.parse(event.data), 500);
        // Whatever else the event is called, it carries the answer.
        else if (event.data !== '') return JSON.parse(event.data) as Body;
      }
      throw new ServerRefusal(0, 'The connection ended before the answer came. Press the button again.');
    },
  };
}

async function reach(send: typeof fetch, path: string, init: RequestInit): Promise<Response> {
  try {
    return await send(path, init);
  } catch (error) {
    if (init.signal?.aborted) throw error;
    throw new ServerRefusal(
      0,
      'The server does not answer. What you typed is kept on this device. Start the server again, then try once more.',
    );
  }
}

async function refusal(response: Response): Promise<ServerRefusal> {
  const text = await response.text();
  let problem: unknown = null;
  try {
    problem = JSON.parse(text);
  } catch {
    // Not a problem document; the status alone has to do.
  }
  return problemOf(problem, response.status, Number(response.headers.get('retry-after')) || null);
}

function problemOf(problem: unknown, status: number, retryAfterS: number | null = null): ServerRefusal {
  const known = (problem ?? {}) as {
    status?: number;
    title?: string;
    detail?: string;
    errors?: (Partial<FieldError> & { parameter?: string })[];
  };
  const errors = (known.errors ?? []).map((error) => ({
    pointer: error.pointer ?? (error.parameter === undefined ? '#' : `#/${error.parameter}`),
    detail: error.detail ?? 'is not accepted',
    question: error.question,
    answers: error.answers,
  }));
  // Of a busy server the detail says when to ask again, the title why.
  const parts = (known.status ?? status) === 503 ? [known.title, known.detail] : [known.detail ?? known.title];
  const message = parts.filter(Boolean).join('. ') || `The server answered ${status}. Load the page again.`;
  return new ServerRefusal(known.status ?? status, message, errors, retryAfterS);
}

async function* eventsOf(response: Response): AsyncGenerator<{ name: string; data: string }> {
  const reader = response.body?.pipeThrough(new TextDecoderStream()).getReader();
  if (reader === undefined) return;
  let waiting = '';
  while (true) {
    const { done, value } = await reader.read();
    waiting += value ?? '';
    const blocks = waiting.split(/\r?\n\r?\n/);
    waiting = blocks.pop() ?? '';
    for (const block of blocks) yield eventOf(block);
    if (done) return;
  }
}

function eventOf(block: string): { name: string; data: string } {
  let name = 'message';
  const data: string[] = [];
  for (const line of block.split(/\r?\n/)) {
    if (line.startsWith('event:')) name = line.slice(6).trim();
    if (line.startsWith('data:')) data.push(line.slice(5).trimStart());
  }
  return { name, data: data.join('\n') };
}
